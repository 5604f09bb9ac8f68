"""What comes of reading a text."""

from msgspec import Struct

from roundwright.knitting.answers import Notice
from roundwright.knitting.rounds.round import Round
from roundwright.wording.proofreading.findings import Edit, Finding
from roundwright.wording.proofreading.line import Line


class Reading(Struct, frozen=True):
    """A text as read: the rounds of each size, as executed, its lines, what was found, and the text repaired.

    - `made`: the edits that are made in `repaired`, in order
    - `printed`: of the rounds of each size, whether their number is one that the text gives them
    - `language`: the language in which it was read; `notices`: what is to be said of that
    """

    rounds: tuple[tuple[Round, ...], ...]
    findings: tuple[Finding, ...]
    lines: tuple[Line, ...] = ()
    repaired: str | None = None
    made: tuple[Edit, ...] = ()
    language: str = "en"
    notices: tuple[Notice, ...] = ()
    printed: tuple[tuple[bool, ...], ...] = ()
