"""The commands of the page *Clients* in DEVELOPERS.md, which the tests run as they stand there."""

import re
import shlex
from pathlib import Path
from typing import NamedTuple

TEXT = (Path(__file__).parents[2] / "DEVELOPERS.md").read_text().partition("## Clients")[2]


class Row(NamedTuple):
    """A generator of the page: its version, and its command without the name of the program."""

    version: str
    words: list[str]


ROWS = {
    name: Row(version, shlex.split(command)[1:])
    for name, version, command in re.findall(
        r"^\| ([a-z-]+) ([\d.]+) \| [^`|]*`([^`]+)`", TEXT.partition("\n## ")[0], re.MULTILINE
    )
}
