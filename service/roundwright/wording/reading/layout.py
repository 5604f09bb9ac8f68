"""Where the rounds are in the text of a pattern.

A pattern is headings, prose, a cast-on and rounds. A line that begins as a round does may be one; of the rest only the
headings and the cast-on matter. Lines that a round runs on to are joined to it.
"""

import re
from collections.abc import Iterator
from functools import cache
from itertools import pairwise
from typing import Final

from msgspec import Struct

from roundwright.wording.reading import vocabulary as words


class Piece(Struct, frozen=True):
    """A stretch of the text that may be a round.

    - `head`: what stands before its colon, such as `Rnd 3`; empty where there is none
    - `text`: what is worked, from `offset` in the whole text
    - `start`: where the piece begins, head and all
    - `heading`: whether a heading or a prose line stands before it
    - `told`: whether it is under a heading whose lines are not worked (abbreviations, materials, ...)
    """

    head: str
    text: str
    start: int
    offset: int
    heading: bool
    told: bool


def line_and_column(text: str, place: int) -> tuple[int, int]:
    """Line and column of a place in the text, both counted from 1."""
    return text.count("\n", 0, place) + 1, place - text.rfind("\n", 0, place)


_ROUND: Final = r"(?:rnds?|rounds?|rows?|rds?)\b"

_TOLD: Final = re.compile(
    r"^\W*+(?:abbreviations?|materials?|yarn|gauge|tension|sizes?|finished|measurements?|needles?|notions|notes?|"
    r"cautions?|stitch guide|special stitches|supplies|finishing|making up)\b[^\n]{0,40}$",
    re.IGNORECASE,
)
"""Headings whose lines tell something; they are not worked."""

_LONGEST_HEADING: Final = 60

_NEXT_IN_LINE: Final = re.compile(
    rf"(?<=[.;)])[^\S\n]+(?=(?:(?:next|dec\w*|inc\w*)\s(?:[0-9]+\s)?{_ROUND}|(?:{_ROUND}\s*|r)[0-9])[^:.;\n]{{0,60}}:)",
    re.IGNORECASE,
)
"""Where a second round begins in one line: `Rnd 1: knit. Rnd 2: purl.`"""

_SENTENCE: Final = re.compile(r"[.!][^\S\n]+(?=[A-Z*\[(])")

_OF_ROUNDS: Final = re.compile(rf"(?<!of )(?<!of the )(?<!of this )\b{_ROUND}", re.IGNORECASE)
"""A sentence about rounds is a round of its own: `Knit 5 rnds.` `Rep last rnd twice.` Not `to end of the round`."""

_CAST_ON: Final = re.compile(
    r"\b(?:cast(?:ing)?[\s-]on|co)\s+(?:a total of\s+)?([0-9]{1,7}(?:\s*[(\[][0-9\s,:;/()\[\]–-]{0,120}[)\]])?)",
    re.IGNORECASE,
)
_MOST_SIZES: Final = 13


@cache
def _begins() -> re.Pattern[str]:
    """How a line begins that may be a round: with a label, a bracket, a star or a word that works stitches.

    Or with prose, after which comes a sentence about rounds.
    """
    kinds = words.kinds()
    first = {"KNIT", "PURL", "SLIP", "STITCH", "MAKE", "REP", "EVEN", "FEWER", "ADDED", "ROUND"}
    starts = sorted(
        {word.partition("-")[0] for word, kind in kinds.items() if kind in first}, key=len, reverse=True
    )
    words_first = "|".join(map(re.escape, starts))
    return re.compile(
        rf"^[^\S\n]*+(?=\S)(?:[-•·–>][^\S\n]+)?(?:(?:\*\*|__|\#+[^\S\n]*)(?=[^\n:]{{0,60}}?\b{_ROUND}))?(?P<round>"
        rf"(?:[*(\[]|(?:work|next|sizes?|cont|continue)\b|(?:{words_first})(?![a-z])|[0-9]{{1,3}}[.)]\s"
        rf"|[^:\n]{{0,60}}?\b{_ROUND}[^:\n]{{0,60}}:|[^:\n]{{1,40}}:[^\S\n]*(?:[*(\[]|(?:{words_first})(?![a-z]))"
        rf"|[^\n]{{0,150}}?[.;][^\S\n]+(?:next|knit|purl|work|{_ROUND})[^\S\n][^\n]{{0,60}}?\b{_ROUND})"
        rf"[^\n]*)$",
        re.IGNORECASE | re.MULTILINE,
    )


def cast_on(text: str) -> tuple[tuple[int, ...], int] | None:
    """The counts of the first cast-on in the text, and where they stand."""
    found = _CAST_ON.search(text)
    if found is None:
        return None
    counts = tuple(int(count) for count in re.findall("[0-9]{1,7}", found[1]))
    return counts[:_MOST_SIZES], found.start(1)


def pieces(text: str) -> Iterator[Piece]:
    """The stretches of the text that may be rounds, in order. Takes time in the length of the text."""
    begins = _begins()
    place, told = 0, False
    while found := begins.search(text, place):
        start = found.start("round")
        title = _heading(text[place : found.start()], first=not place)
        if title:
            told = bool(_TOLD.match(title))
        end = _joined(text, found.end())
        if ":" not in found["round"] and _TOLD.match(found["round"]):
            title, told = found["round"], True
        yield from _split(text, start, end, heading=bool(title), told=told)
        place = end


def _heading(between: str, *, first: bool) -> str:
    """The last heading in the prose between two rounds: a short line that is set apart."""
    title, apart = "", first
    for place, raw in enumerate(between.split("\n")):
        line = raw.strip()
        if not line:
            apart = apart or place > 0
            continue
        set_apart = apart or line.isupper() or line.endswith(":") or line.startswith("#")
        if set_apart and len(line) <= _LONGEST_HEADING and line[-1] not in ".,;":
            title = line
        apart = False
    return title


_OPEN_END: Final = re.compile(
    r"(?:[,;:(\[*–—-]|\b(?:to|from|last|rep|and|the|next)|\blast\s[0-9 (),]{1,40}\s*sts?)\s*$", re.IGNORECASE
)
_MOST_JOINED: Final = 12
"""Lines that one round runs over."""


def _joined(text: str, end: int) -> int:
    """The end of the round whose first line ends at `end`: lines that it plainly runs on to belong to it."""
    start = text.rfind("\n", 0, end) + 1
    for _ in range(_MOST_JOINED):
        line = text[max(start, end - 200) : end]
        if not (_OPEN_END.search(line) or text.count("(", start, end) > text.count(")", start, end)):
            break
        stop = text.find("\n", end + 1)
        stop = len(text) if stop < 0 else stop
        following = text[end + 1 : stop]
        if not following.strip() or re.match(rf"\W*(?:next\s)?{_ROUND}", following, re.IGNORECASE):
            break
        if following.isupper():
            break
        start, end = end + 1, stop
    return end


def _split(text: str, start: int, end: int, *, heading: bool, told: bool) -> Iterator[Piece]:
    """The rounds in one stretch: several labels in a line, and sentences about rounds of their own."""
    cuts = [start, *(found.end() for found in _NEXT_IN_LINE.finditer(text, start, end)), end]
    for first, last in pairwise(cuts):
        begin = first
        for stop in _sentences(text, first, last):
            yield _piece(text, begin, stop, heading=heading, told=told)
            begin, heading = stop, False
        heading = False


def _sentences(text: str, start: int, end: int) -> Iterator[int]:
    """Where the sentences end that are rounds of their own; the last is the end."""
    colon = text.find(":", start, end)
    if not _OF_ROUNDS.search(text, max(start, colon), end):
        yield end
        return
    ends = [*_SENTENCE.finditer(text, start, end), None]
    of_rounds = colons = False  # in the sentences since the last cut
    begin = start
    for found, following in pairwise(ends):
        assert found is not None  # only the last is
        stop = found.end()
        of_rounds = of_rounds or _OF_ROUNDS.search(text, begin, stop) is not None
        colons = colons or text.find(":", begin, stop) >= 0
        begin = stop
        next_ends = following.start() if following else end
        if (of_rounds and not colons) or _OF_ROUNDS.search(text[stop:next_ends]):
            yield stop
            of_rounds = colons = False
    yield end


_LABEL_ALONE: Final = re.compile(
    rf"(?:{_ROUND}|r)\.?\s*+[0-9][0-9\s,–-]{{0,60}}+(?:\([^)\n]{{0,40}}\)\s*+)?(?=[.)]?\s*+[a-z*\[(–—-])|next\s+(?:[0-9]+\s+)?{_ROUND}",
    re.IGNORECASE,
)
"""A label without a colon: `Rnd 3 knit`, `R3 k2, p2`, `Next rnd knit`."""

_LISTED: Final = re.compile(r"[0-9]{1,3}[.)](?=\s)")
"""A line of a numbered list: `3. k2tog around`."""

_LONGEST_HEAD: Final = 100


def is_told(head: str) -> bool:
    """Whether what stands before a colon is the name of something that is not worked: `Note`, `Abbreviations`."""
    return _TOLD.match(head) is not None


def _piece(text: str, start: int, end: int, *, heading: bool, told: bool) -> Piece:
    colon = text.find(":", start, min(end, start + _LONGEST_HEAD))
    if colon >= 0:
        head, offset = text[start:colon], colon + 1
    elif alone := (_LABEL_ALONE.match(text, start, end) or _LISTED.match(text, start, end)):
        head, offset = alone.group(), alone.end()
    else:
        head, offset = "", start
    body = text[offset:end]
    if head.startswith(("*", "_", "#")) or body.startswith("**"):  # a label in bold
        head, bare = head.strip("*_# "), body.lstrip("*_")
        offset += len(body) - len(bare)
        body = bare
    return Piece(head, body, start, offset, heading, told)
