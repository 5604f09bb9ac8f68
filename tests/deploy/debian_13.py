"""Debian 13's own Python, 3.13.5, with what is deployed, in a root that debootstrap fills.

Not collected by itself; `sh tests/run.sh --deploy` asks for it. Needs root and debootstrap.
"""

import os
import shutil
import subprocess
from pathlib import Path

import pytest

from tests.deploy.test_stock import ROOT, serves_hats
from tests.deploy.tools import tool


@pytest.fixture(scope="module")
def debian(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The root of a small Debian 13, with the service and the packages of its requirements in /opt."""
    assert shutil.which("debootstrap"), "debootstrap is not installed"
    root = tmp_path_factory.mktemp("debian") / "root"
    subprocess.run(["debootstrap", "--variant=minbase", "--include=python3", "trixie", root], check=True)
    subprocess.run(
        [
            tool("uv"), "pip", "install", "--quiet", "--target", root / "opt/packages", "--python-version", "3.13.5",
            "--python-platform", "linux", "--only-binary", ":all:", "--require-hashes",
            "-r", ROOT / "deploy/requirements.txt",
        ],
        env={**os.environ, "UV_SYSTEM_CERTS": "true"}, check=True,
    )  # fmt: skip
    shutil.copytree(ROOT / "service", root / "opt/service")
    return root


def test_the_python_of_debian_13_serves_hats(debian: Path) -> None:
    """It answers every example."""
    python = ["chroot", str(debian), "/usr/bin/python3"]
    version = subprocess.run([*python, "--version"], capture_output=True, text=True, check=True).stdout

    assert version.startswith("Python 3.13.")
    serves_hats(python, "/opt/packages:/opt/service")
