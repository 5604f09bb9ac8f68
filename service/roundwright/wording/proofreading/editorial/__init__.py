"""What an editor would ask about a pattern that can be knitted as it stands. May import `explained` and what is below."""

from roundwright.wording.proofreading.evaluate import Found
from roundwright.wording.proofreading.explained import Explained
from roundwright.wording.proofreading.findings import Finding


def notes(explained: Explained, found: list[Found]) -> list[Finding]:
    """The notes of a text."""
    return []
