"""Stars that repeat nothing: before the lines of a list, around a heading, or in a sentence that speaks of them.

`* Next rnd: knit`, `* CROWN *`, `What is between * * is repeated around.`
"""

from itertools import pairwise
from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.tokens import BLANK, BULLET, COLON, FULL, LINE, STOP, Token

FEWEST_BULLETS: Final = 2
"""Lines that begin with a star before a word that is no stitch, for stars to be bullets."""
_OF_REPEATS: Final = frozenset(("knit", "purl", "slip", "stitch", "make", "(", "stars", "number", "decrease"))
"""What a repeat begins with."""


def without_ornaments(tokens: list[Token]) -> list[Token]:
    """The words without stars that are bullets, or stand around a heading, which ends with a colon then."""
    stars = _stars(tokens)
    if len(stars) < FEWEST_BULLETS:
        return tokens
    meanings = [sentence for pair in pairwise(stars) if (sentence := _of_stars(tokens, *pair))]
    if len(stars) == 2 * len(meanings):  # nothing stands between stars in any line
        meanings = [sentence for sentence in meanings if not _orders(tokens, sentence)]
    if meanings:
        tokens = _without(tokens, meanings)
        stars = _stars(tokens)
    around = [pair for pair in pairwise(stars) if _are_around(tokens, *pair)]
    if not around:
        return _without_bullets(tokens, stars)
    made = list(tokens)
    for first, last in reversed(around):
        flags = tokens[first + 1].flags | tokens[first].flags
        made[last + 1] = replace(tokens[last + 1], flags=tokens[last + 1].flags | COLON)
        made[first : last + 1] = [replace(tokens[first + 1], flags=flags), *tokens[first + 2 : last]]
    return _without_bullets(made, _stars(made))


def _stars(tokens: list[Token]) -> list[int]:
    """The places of the stars."""
    return [place for place, token in enumerate(tokens) if token.kind == "stars"]


def _of_stars(tokens: list[Token], first: int, last: int) -> tuple[int, int] | None:
    """Where the sentence begins and ends, first in its line, that only tells what is done between two stars."""
    joined = last == first + 1 or (last == first + 2 and tokens[first + 1].kind in ("and", "to"))
    if not joined or "between" not in (tokens[first - 1].kind, tokens[first - 2].kind):
        return None
    begin, end = first, last + 1
    while begin and not tokens[begin].flags & (LINE | FULL) and first - begin < MOST_IN_HEADING:
        begin -= 1
    while (
        tokens[end].kind != "end" and not tokens[end].flags & (LINE | FULL) and end - last < MOST_IN_HEADING
    ):
        end += 1
    alone = begin == 0 or tokens[begin].flags & LINE
    ended = tokens[end].kind == "end" or tokens[end].flags & (LINE | FULL)
    words = (*tokens[begin:first], *tokens[last + 1 : end])
    return (begin, end) if alone and ended and not any(token.kind in _OF_REPEATS for token in words) else None


def _orders(tokens: list[Token], sentence: tuple[int, int]) -> bool:
    """Whether it orders the repeat, and does not only say what stars mean: `Repeat between * *`."""
    words = tokens[slice(*sentence)]
    before = words[: next(place for place, token in enumerate(words) if token.kind == "stars")]
    return any(token.kind in ("repeat", "work", "continue") for token in before)


def _without(tokens: list[Token], sentences: list[tuple[int, int]]) -> list[Token]:
    """The words without some sentences, each from its place to before another."""
    dropped = {place for begin, end in sentences for place in range(begin, end)}
    made: list[Token] = []
    flags = 0
    for place, token in enumerate(tokens):
        if place in dropped:
            flags |= token.flags & (LINE | BLANK | STOP)
        else:
            made.append(replace(token, flags=token.flags | flags) if flags else token)
            flags = 0
    return made


def _are_around(tokens: list[Token], first: int, last: int) -> bool:
    """Whether two stars stand around the words of a line that work nothing."""
    opened, closed = tokens[first], tokens[last]
    alone = bool(opened.flags & LINE or first == 0) and bool(tokens[last + 1].flags & LINE)
    words = tokens[first + 1 : last]
    if not alone or opened.text != closed.text or not 0 < len(words) <= MOST_IN_HEADING:
        return False
    return not any(token.kind in _WORKS or token.flags & LINE for token in (*words, closed))


MOST_IN_HEADING: Final = 8
"""Words of a heading between stars."""
_WORKS: Final = frozenset(
    (
        "knit",
        "purl",
        "slip",
        "stitch",
        "make",
        "(",
        "decrease",
        "increase",
        "round",
        "repeat",
        "together",
        "stitch_noun",
    )
)
"""Words that are worked, or tell what is."""


def _without_bullets(tokens: list[Token], stars: list[int]) -> list[Token]:
    """The words without stars that are bullets; a star that is closed or gone back to in its line is none."""
    bullets = [place for place in stars if _is_bullet(tokens, place)]
    if sum(tokens[place + 1].kind not in _OF_REPEATS for place in bullets) < FEWEST_BULLETS:
        return tokens
    made: list[Token] = []
    done = 0
    for place in bullets:
        following = tokens[place + 1]
        made.extend(tokens[done:place])
        made.append(replace(following, flags=following.flags | tokens[place].flags | BULLET))
        done = place + 2
    return [*made, *tokens[done:]]


def _is_bullet(tokens: list[Token], place: int) -> bool:
    """Whether a star stands apart at the beginning of a line that has no other, and nothing is repeated from it."""
    star = tokens[place]
    if star.text != "*" or not (star.flags & LINE or place == 0):
        return False
    if tokens[place + 1].start == star.end:
        return False
    for behind in range(place + 1, len(tokens)):
        if tokens[behind].flags & LINE:
            return behind > place + 1
        if tokens[behind].kind in ("stars", "repeat"):
            return False
    return False
