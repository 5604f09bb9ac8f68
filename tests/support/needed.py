"""What some tests need beside the environment of `tests/run.sh`: a browser, Node, a command of the system."""

import os
import shutil
import sys
from pathlib import Path

import pytest

CLIENTS = Path(__file__).parents[1] / "clients"
BACKEND = Path(__file__).parents[2] / "examples/mobile-backend"


def command(*names: str) -> str:
    """The path of the first command that is installed; without any the test is skipped, but not in CI."""
    path = next(filter(None, map(shutil.which, names)), None)
    if path is None:
        missing(names[0])
    return str(path)


def node_module(path: str, folder: Path = CLIENTS) -> Path:
    """A file of the npm packages that `tests/run.sh` installs in a folder."""
    command("node")
    file = folder / "node_modules" / path
    if not file.exists():
        missing(f"{path} (npm ci in {folder.name})")
    return file


def generator(name: str) -> Path:
    """A generator of clients in `.venv/clients`, which `tests/run.sh` makes."""
    program = Path(sys.prefix) / "clients/bin" / name
    if not program.exists():
        missing(f"{name} (tests/clients/requirements.txt)")
    return program


def missing(what: str) -> None:
    """Skip the test; in CI, where everything has to be installed, fail."""
    if os.environ.get("CI"):
        pytest.fail(f"{what} is not installed")
    pytest.skip(f"{what} is not installed")
