"""Brackets that only explain."""

from typing import Final

from roundwright.knitting.rounds.round import uses_and_leaves
from roundwright.wording.reading.phrases import (
    Brackets,
    Change,
    Count,
    Fabric,
    Markers,
    Phrase,
    Rep,
    Said,
    Star,
    Stitches,
    Then,
)
from roundwright.wording.reading.seen import is_bare
from roundwright.wording.reading.tokens import COLON, EQUALS
from roundwright.wording.reading.tree import ONE, Evenly, Stitch


def means(inside: list[Phrase]) -> bool:
    """Whether a bracket says what a stitch is: `(sk2p = sl 1, k2tog, psso)`, `(RT: twist 2 sts)`.

    `(a marker every 16 sts = 6 sections)` says where the markers are.
    """
    if any(phrase.flags & EQUALS and type(phrase) not in (Count, Markers) for phrase in inside[1:]):
        return True
    if len(inside) > 2 and type(inside[1]) is Said and inside[1].text in ("is", "means"):
        return True  # (K1R is "knit one round")
    return len(inside) > 1 and type(inside[0]) is Stitches and bool(inside[1].flags & COLON)


def describes(inside: list[Phrase], uses: int, leaves: int, *, repeated: bool) -> bool:
    """Whether a bracket says how a stitch that uses and leaves so many is worked, or what becomes of the stitches.

    `ssk (k2tog tbl)`, `ssk (sl 1, sl 1, k2tog)`, `sk2p (3 sts in 1)`; in a repeat also `sk2p (2 sts decreased)`.
    """
    numbers: list[int | None] = []
    made: list[Stitch] = []
    for phrase in inside:
        match phrase:
            case Count(number=number) | Stitches(node=Evenly(change=number, to=False)):
                numbers.append(number.of(0))
            case Stitches(node=Stitch() as stitch):
                made.append(stitch)
            case Said() | Change() | Then():
                pass
            case _:
                return False
    if numbers:
        return numbers == [uses, leaves] or (repeated and numbers in ([uses], [abs(uses - leaves)]))
    whole = [stitch for stitch in made if not stitch.bare]
    if not whole:
        return bool(made)
    *before, last = whole
    alike = uses_and_leaves()[last.name] == (uses, leaves) and last.times.values == ONE.values
    return alike and all(stitch.name == "sl" for stitch in before)


def tells_other(inside: list[Phrase]) -> bool:
    """Whether a bracket speaks of something else: `(or: k1, p1)`, `(the first sheet had 84 sts, too few)`."""
    texts = [phrase.text for phrase in inside if type(phrase) is Said]
    first = inside[0].text if inside and type(inside[0]) is Said else ""
    return first in _OTHER or (bool(_THEN & set(texts)) and sum(map(bool, texts)) >= FEWEST_WORDS)


FEWEST_WORDS: Final = 3
"""Words of a sentence in a bracket."""
_OTHER: Final = frozenset(("or", "not", "instead", "variation", "alternatively", "if", "unless"))
_THEN: Final = frozenset(("had", "was", "were", "would", "used", "could", "instead", "originally"))


def aside(inside: list[Phrase]) -> bool:
    """Whether a bracket explains and works nothing: `(sk2p = sl 1, k2tog, psso)`, `(the purl rounds are ridges)`."""
    if means(inside):
        return True
    if inside and type(inside[0]) is Count and inside[0].sure and not inside[0].sign:
        return any(type(phrase) in _WORK for phrase in inside)
    words = sum(phrase.words for phrase in inside if type(phrase) is Said)
    if (
        words
        and Stitches in [type(phrase) for phrase in inside]
        and all(type(phrase) in _FACTS or is_bare(phrase) for phrase in inside)
    ):
        return True
    work = sum(type(phrase) in _WORK_OR_REPEATS for phrase in inside)
    return words >= 2 and words >= work


_WORK: Final = frozenset((Stitches, Fabric))
_FACTS: Final = frozenset((Said, Markers, Count, Change))
_WORK_OR_REPEATS: Final = frozenset((Stitches, Star, Fabric, Brackets, Rep))
