"""Stars that only begin the lines of a list, as a dot would: `* Next rnd: inc 12 sts evenly`."""

from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.tokens import BULLET, LINE, Token

FEWEST_BULLETS: Final = 2
"""Lines that begin with a star before a word that is no stitch, for stars to be bullets."""
_OF_REPEATS: Final = frozenset(("knit", "purl", "slip", "stitch", "make", "(", "stars", "number", "decrease"))
"""What a repeat begins with."""


def without_bullets(tokens: list[Token]) -> list[Token]:
    """The words without stars that are bullets; a star that is closed or gone back to in its line is none."""
    stars = [place for place, token in enumerate(tokens) if token.kind == "stars"]
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
