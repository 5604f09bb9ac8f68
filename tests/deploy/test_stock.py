"""The Pythons that the service promises: the pins install on each, and the one that Debian has serves hats."""

import json
import os
import subprocess
from pathlib import Path

import httpx
import pytest

from tests.contract.shape import listed
from tests.deploy.tools import tool
from tests.support.needed import missing

ROOT = Path(__file__).parents[2]
STOCK = Path("/usr/bin/python3")
"""Debian's own: 3.11.2 on Debian 12; that of Debian 13 is tried by `debian_13.py`."""


@pytest.mark.parametrize("file", ["deploy/requirements.txt", "tests/requirements.txt"])
@pytest.mark.parametrize("python", ["3.11.0", "3.12.0", "3.13.0", "3.14.0"])
def test_the_pins_install_on_every_python_promised(python: str, file: str, tmp_path: Path) -> None:
    """Each pin has a wheel for it, so that no compiler is needed, by the hashes of the file."""
    process = subprocess.run(
        [
            tool("uv"), "pip", "install", "--quiet", "--dry-run", "--target", tmp_path, "--python-version", python,
            "--python-platform", "linux", "--only-binary", ":all:", "--require-hashes", "-r", ROOT / file,
        ],
        env={**os.environ, "UV_SYSTEM_CERTS": "true"}, capture_output=True, text=True, check=False,
    )  # fmt: skip

    assert process.returncode == 0, process.stderr


@pytest.fixture(scope="module")
def stock(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An environment of the Python that Debian ships, with what is deployed."""
    version = STOCK.exists() and json.loads(
        subprocess.run(
            [STOCK, "-c", "import sys; print(list(sys.version_info[:2]))"], capture_output=True, check=True
        ).stdout
    )
    if not version or version < [3, 11]:
        missing("a Python of the system, 3.11 or later")
    folder = tmp_path_factory.mktemp("stock") / "environment"
    subprocess.run([STOCK, "-m", "venv", folder], check=True)
    subprocess.run(
        [
            folder / "bin/python", "-m", "pip", "install", "--quiet", "--no-deps", "--require-hashes",
            "-r", ROOT / "deploy/requirements.txt",
        ],
        check=True,
    )  # fmt: skip
    return folder / "bin/python"


def serves_hats(python: list[str], modules: str) -> None:
    """A Python, by the command that runs it, starts, is ready, answers every example, writes a PDF, and ends quietly.

    `modules` is the search path of its modules.
    """
    environment = {"PATH": os.environ["PATH"], "PYTHONPATH": modules}
    served = subprocess.Popen(
        [*python, "-m", "roundwright", "serve", "--port", "0"],
        env=environment, stderr=subprocess.PIPE, text=True,
    )  # fmt: skip
    assert served.stderr is not None
    try:
        start = json.loads(served.stderr.readline())
        with httpx.Client(base_url=start["address"], timeout=30) as service:
            assert service.get("/health/ready").is_success
            answers = {operation.id: operation.ask(service) for operation in listed()}
    finally:
        served.terminate()
        rest = served.communicate()[1]

    assert {200} == {answer.status_code for answer in answers.values()}
    assert answers["writeHandoutAsPdf"].content.startswith(b"%PDF-")
    assert served.returncode in (0, -15)
    assert "crash" not in rest


def test_the_python_of_debian_serves_hats(stock: Path) -> None:
    """The Python of the Debian that runs this, with what is deployed, answers every example."""
    serves_hats([str(stock)], str(ROOT / "service"))
