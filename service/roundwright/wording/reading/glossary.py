"""Lines that only tell: short forms with what they mean, titles, and the gauge."""

from typing import Final

from roundwright.wording.reading.tokens import (
    COLON,
    COMMA,
    COUNT_WORDS,
    DASH,
    EQUALS,
    SEMI,
    SLASH,
    SPACE,
    STOP,
    Token,
)


def defines(tokens: list[Token], begin: int, stop: int) -> bool:
    """Whether a line tells what a stitch is: `C6F: slip 3 sts to cable needle`, `k2tog = knit 2 together`."""
    if tokens[begin].kind == "defined":
        return True
    for place in range(begin, min(begin + 6, stop - 1)):
        if tokens[place].kind in _WORKING and place > begin:
            break
        following = tokens[place + 1]
        if tokens[place].kind == "cable" and following.flags & EQUALS and following.kind != "number":
            return True
    if _is_entry(tokens, begin, stop):
        return True
    if stop - begin < 2 or tokens[begin].kind not in ("stitch", "cable"):
        return False
    sign = tokens[begin + 1].flags
    if sign & EQUALS and _counts(tokens, begin + 1, stop):
        return False
    first, second = tokens[begin], tokens[begin + 1]
    if (
        first.kind == "stitch" == second.kind
        and first.means == second.means
        and not sign & (COMMA | STOP | SEMI)
    ):
        return True
    behind = _behind_bracket(tokens, begin + 1, stop)  # cdd (centred double decrease): ...
    colon = bool(tokens[behind].flags & COLON) and tokens[behind].kind not in ("number", "stars")
    return bool(sign & EQUALS) or colon


def _behind_bracket(tokens: list[Token], place: int, stop: int) -> int:
    """Where the bracket that opens here is closed and more follows; the same place where none opens."""
    if tokens[place].kind != "(":
        return place
    closes = (at for at in range(place, min(place + MOST_IN_OTHER_WORDS, stop - 1)) if tokens[at].kind == ")")
    return next(closes, place - 1) + 1


MOST_IN_OTHER_WORDS: Final = 8
"""Words of a bracket that says a stitch in other words."""


def _counts(tokens: list[Token], begin: int, stop: int) -> bool:
    """Whether the rest of a line counts the stitches that are left: `k2tog = 8 sts rem`, unlike `k2tog = 2 sts tog`."""
    behind = begin + 1 + (begin + 1 < stop and tokens[begin + 1].kind == "stitch_noun")
    ends = behind >= stop or tokens[behind].flags & STOP or tokens[behind].kind in _LEFT
    return tokens[begin].kind == "number" and bool(ends)


_LEFT: Final = frozenset(("remain", "left"))


def _is_entry(tokens: list[Token], begin: int, stop: int) -> bool:
    """Whether a line is one of a list of short forms: `k2tog – knit 2 sts together`, `PM / SM – place marker`."""
    for place in range(begin, min(begin + MOST_SHORT_FORMS, stop)):
        token = tokens[place]
        if place > begin and token.flags & DASH and token.flags & SPACE:
            return token.kind not in _NO_MEANINGS and not _tells_count(tokens[place:stop])
        if token.kind not in _SHORT_FORMS or (place > begin and not token.flags & (SLASH | COMMA)):
            return False
    return False


def _tells_count(words: list[Token]) -> bool:
    """Whether words are no more than how many stitches there are: `k2tog - that's 10 sts`."""
    kinds = [word.kind for word in words[:MOST_IN_OTHER_WORDS]]
    return "number" in kinds and len(words) == len(kinds) and {"these", *COUNT_WORDS}.issuperset(kinds)


MOST_SHORT_FORMS: Final = 5
"""Short forms that one line explains."""
_SHORT_FORMS: Final = frozenset(
    (
        "stitch",
        "cable",
        "place",
        "slipmarker",
        "cast_on",
        "bind_off",
        "passover",
        "stitch_noun",
        "tbl",
        "make",
    )
)
_NO_MEANINGS: Final = frozenset(("number", "stars", "(", "decimal", "range", "times"))
_WORKING: Final = frozenset(("stars", "(", "stitch", "knit", "purl"))


def title(tokens: list[Token], begin: int, stop: int) -> bool:
    """Whether a line is or begins with the name of something that is told: `Gauge`, `Materials:`."""
    kind = tokens[begin].kind
    if kind == "told":
        return True
    if (
        kind in ("needle", "yarn", "size")
        and begin + 1 < stop
        and tokens[begin + 1].flags & (COLON | DASH)
        and tokens[begin + 1].flags
    ):
        return tokens[begin].text not in ("a", "mc", "cc")
    return False


def numbered_title(tokens: list[Token], begin: int, stop: int) -> bool:
    """Whether it is such a name behind the number of a paragraph: `3. Gauge: 26 sts = 10 cm`."""
    return (
        begin + 1 < stop
        and tokens[begin].kind == "number"
        and tokens[begin].text.isdigit()
        and bool(tokens[begin + 1].flags & STOP)
        and tokens[begin + 1].kind == "told"
    )


def gauge(tokens: list[Token], begin: int, stop: int) -> bool:
    """Whether a line tells how many stitches make a length: `22 sts x 30 rnds = 10 cm`, `20 sts to 4 in`."""
    if (
        stop - begin < 4
        or tokens[begin].kind not in ("number", "decimal")
        or tokens[begin + 1].kind != "stitch_noun"
    ):
        return False
    for place in range(begin + 2, min(begin + 8, stop - 1)):
        token = tokens[place]
        measures = token.kind in ("number", "decimal") and tokens[place + 1].kind in ("unit", "in", "times")
        if measures and (token.flags & EQUALS or tokens[place - 1].kind in ("to", "per", "in", "make")):
            return True
    return False


def is_glossary(tokens: list[Token], begin: int, stop: int) -> bool:
    """Whether a line says what short forms mean: `K knit, P purl, K2tog knit two together`."""
    explained = 0
    for place in range(begin, stop - 1):
        short, full = tokens[place], tokens[place + 1]
        if short.kind not in ("knit", "purl", "stitch"):
            continue
        begins = place == begin or bool(short.flags & (COMMA | SEMI | COLON | STOP))
        if begins and not full.flags & (COMMA | STOP | SEMI) and _spells_out(short, full):
            explained += 1
    return explained > 1


def _spells_out(short: Token, full: Token) -> bool:
    """Whether a word is the long form of the one before: `K knit`, `K2tog knit two together`."""
    if short.kind in ("knit", "purl"):
        return short.kind == full.kind and len(short.text) < len(full.text)
    return short.kind == "stitch" == full.kind and short.means == full.means and short.text != full.text
