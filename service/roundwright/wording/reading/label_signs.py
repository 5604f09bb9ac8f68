"""Signs by which a label is told from other words."""

from typing import Final

from roundwright.wording.reading.label import Label
from roundwright.wording.reading.parsing.lines import Lines
from roundwright.wording.reading.spans import ENDS, Span
from roundwright.wording.reading.tokens import (
    COLON,
    COMMA,
    DASH,
    FULL,
    LINE,
    SEMI,
    SLASH,
    SPACE,
    STOP,
    TAB,
    Token,
)
from roundwright.wording.reading.tree import ONE

WORKS: Final = frozenset(
    (
        "knit",
        "purl",
        "slip",
        "stitch",
        "stars",
        "(",
        "make",
        "decrease",
        "increase",
        "repeat",
        "plain",
        "cable",
        "work",
        "rib",
        "stocking",
        "garter",
        "moss",
        "pattern",
        "edge",
        "even",
        "as",
        "end",
        "around",
    )
)
"""What work begins with."""


def goes_on(token: Token, following: Token, after: Label | None) -> bool:
    """Whether a number is that of the round behind the last of a label: `[42]  11. (...)`, `12 sts 13.rnd`."""
    if after is None or after.kind not in ("listed", "numbered") or token.kind != "number" or not after.spans:
        return False
    value = token.number.of(0) if token.number is not None else None
    if value is None or value != (after.spans[-1].last.of(0) or 0) + 1:
        return False
    return bool(following.flags & (STOP | COLON)) or following.kind in (")", "round")


def is_next_of(label: Label, after: Label | None) -> bool:
    """Whether a label has the number that follows that of another."""
    if after is None or not after.spans or not label.spans:
        return False
    return label.spans[0].first.of(0) == (after.spans[-1].last.of(0) or 0) + 1


def has_ended(lines: Lines) -> bool:
    """Whether the label may end here: by a sign, or because work begins."""
    if lines.place >= lines.stop:
        return True
    if lines.kind() == "only" and lines.kind(1) in WORKS and not lines.flags(1) & ~SPACE:
        return True  # `Round 2, just knit`
    if lines.flags(0) & SLASH and lines.flags(0) & SPACE:
        return True  # `R1 / in B: k5, sl 1`
    if _heads_parts(lines):
        return True
    return bool(lines.flags(0) & ENDS) or lines.kind() in WORKS or lines.tokens[lines.place - 1].kind == ")"


def _heads_parts(lines: Lines) -> bool:
    """Whether the parts of a round stand here, up to a colon: `Rnd 1, on each of the 4 needles:`."""
    ahead = 1
    if lines.kind() == "persection":
        return bool(lines.flags(ahead) & COLON)
    while (
        ahead < MOST_OF_PARTS and lines.kind(ahead) in ("", "number", "per", "each") and lines.joined(ahead)
    ):
        ahead += 1
    of_parts = "per" in [lines.kind(at) for at in range(ahead)] or lines.kind(ahead - 1) == "each"
    return of_parts and lines.kind(ahead) in ("needle", "section") and bool(lines.flags(ahead + 1) & COLON)


MOST_OF_PARTS: Final = 6
"""Words that name the parts of a round, up to their noun."""


def is_listed(lines: Lines, token: Token) -> bool:
    """Whether a number is that of a list: `3)`, whose bracket is taken, `3.`, `3 - `."""
    if lines.place >= lines.stop:
        return False
    if lines.kind() == ")":
        lines.place += 1
        return True
    flags = lines.flags(0)
    if flags & LINE or len(token.text) >= (4 if token.kind == "number" else 8):
        return False
    dashed = flags & (DASH | TAB) and flags & SPACE and opens_line(lines, token)
    dashed = dashed or (flags & SLASH and opens_line(lines, token))
    dashed = dashed or (
        flags & SEMI and lines.kind() != "repeat" and opens_line(lines, token)
    )  # `63;k12 k2tog;104`
    return bool(flags & (STOP | COLON) or dashed)


def opens_line(lines: Lines, token: Token) -> bool:
    """Whether a number begins a line on which work follows: `1 - K 11, K2TOG`, `11 | L only: k2tog around`."""
    works = lines.kind(int(lines.kind() == "only")) in WORKS or lines.text_of(0) == "-"
    if not works and lines.flags(0) & COLON:
        works = lines.kind(words_of_colour(lines, COLON | COMMA)) in WORKS
    return bool(token.flags & LINE or token.start == 0) and (works or _heads_sizes(lines))


def words_of_colour(lines: Lines, ends: int) -> int:
    """How many words tell a colour up to one of these signs: `4-6: Color B: K`, `7: Switch to B, k`; 0 if others do."""
    for ahead in range(min(MOST_OF_COLOUR + 1, lines.stop - lines.place)):
        if ahead and (lines.flags(ahead) & ends or not lines.joined(ahead)):
            return ahead if lines.flags(ahead) & ends and not lines.flags(ahead) & LINE else 0
        if lines.kind(ahead) not in _OF_COLOUR and len(lines.text_of(ahead)) != 1:
            return 0
    return 0


_OF_COLOUR: Final = ("word", "", "only", "yarn", "in", "to")
MOST_OF_COLOUR: Final = 4
"""Words of a colour between the number of a round and its work."""


def _heads_sizes(lines: Lines) -> bool:
    """Whether the sizes that a round is for stand here, up to a colon: `L only:`, `Adult:`, `All sizes:`."""
    everyone = lines.text_of(0) in ("all", "both") and lines.kind(1) == "size"
    if lines.text_of(0) not in lines.names and not everyone:
        return False
    return any(bool(lines.flags(ahead) & COLON) for ahead in range(1, MOST_OF_SIZES))


MOST_OF_SIZES: Final = 6
"""Words that name some sizes, up to the colon."""


def dotted_pair(lines: Lines) -> tuple[Span, ...]:
    """The rounds of `1. and 2. round`, `1. to 4. round`, which are taken; empty where it is none."""
    joint, first, last = lines.kind(1), lines.token().number, lines.token(2).number
    if lines.kind() != "number" or not lines.flags(1) & STOP or lines.flags(1) & LINE:
        return ()
    if joint == "number" and lines.flags(1) & DASH and lines.kind(2) == "round":  # `10. - 17. round`
        lines.place += 2
        return (Span(first or ONE, lines.tokens[lines.place - 1].number or ONE),)
    if joint not in ("and", "to"):
        return ()
    if lines.kind(2) != "number" or lines.kind(3) != "round":
        return ()
    lines.place += 3
    first, last = first or ONE, last or ONE
    return (Span(first, last),) if joint == "to" else (Span(first, first), Span(last, last))


def whole_rounds_follow(lines: Lines) -> bool:
    """Whether what stands up to the next sign is told in whole rounds: `k 1 rnd`, `dec rnd`, `1 round even`."""
    for ahead in range(6):
        if ahead and (lines.flags(ahead) & (ENDS | COMMA) or lines.place + ahead >= lines.stop):
            return False
        if lines.kind(ahead) == "round":
            return True
        if lines.kind(ahead) in ("stars", "(", "stitch", "slip", "cable"):
            return False
    return False


def begins_sentence(lines: Lines, place: int) -> bool:
    """Whether a label begins a sentence and work follows: `48 sts. Row 6 without decreasing`, `Row 6 is plain`."""
    return bool(lines.tokens[place].flags & FULL) and (lines.kind() in WORKS or _are_plain(lines))


def goes_on_sentence(lines: Lines, place: int) -> bool:
    """Whether a label stands behind `and` or `then` at the beginning of a sentence: `And round 2 is just knit`."""
    before = lines.tokens[place - 1] if place else None
    if before is None or before.kind not in ("and", "then"):
        return False
    return bool(before.flags & (FULL | LINE) or place == 1) and _are_plain(lines)


def _are_plain(lines: Lines) -> bool:
    """Whether rounds are said to be plain: `are knit`, `is just knit`, `are worked without decreases`."""
    ahead = 1
    while lines.text_of(ahead) in ("worked", "knitted") or lines.kind(ahead) == "only":
        ahead += 1
    return lines.text_is("is", "are") and lines.kind(ahead) in ("plain", "knit", "purl", "even")
