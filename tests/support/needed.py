"""What some tests need beside the environment of `tests/run.sh`: a browser, Node, a command of the system."""

import os
import shutil
from pathlib import Path

import pytest

CLIENTS = Path(__file__).parents[1] / "clients"
BACKEND = Path(__file__).parents[2] / "examples/mobile-backend"


def command(*names: str) -> str:
    """Where the first of the commands that is there is; where none is, the test is skipped, but not in CI."""
    found = next(filter(None, map(shutil.which, names)), None)
    if found is None:
        missing(names[0])
    return str(found)


def node_module(path: str, folder: Path = CLIENTS) -> Path:
    """A file of the npm packages that `tests/run.sh` installs in a folder."""
    command("node")
    found = folder / "node_modules" / path
    if not found.exists():
        missing(f"{path} (npm ci in {folder.name})")
    return found


def missing(what: str) -> None:
    """Skip the test; in CI, where everything is to be there, it fails."""
    if os.environ.get("CI"):
        pytest.fail(f"{what} is not installed")
    pytest.skip(f"{what} is not installed")
