"""Brackets that only explain."""

from typing import Final

from msgspec.structs import replace

from roundwright.knitting.rounds.round import Work, execute
from roundwright.wording.reading.phrases import (
    Brackets,
    Change,
    Count,
    Fabric,
    Markers,
    PassOver,
    Phrase,
    Rep,
    Said,
    Star,
    Stitches,
    Times,
)
from roundwright.wording.reading.seen import is_bare, is_shaping
from roundwright.wording.reading.tokens import COLON, EQUALS, SPACE
from roundwright.wording.reading.tree import Stitch


def means(inside: list[Phrase]) -> bool:
    """Whether a bracket says what a stitch is: `(sk2p = sl 1, k2tog, psso)`, `(RT: twist 2 sts)`.

    `(a marker every 16 sts = 6 sections)` says where the markers are.
    """
    if any(phrase.flags & EQUALS and type(phrase) not in (Count, Markers) for phrase in inside[1:]):
        return True
    if len(inside) > 2 and type(inside[1]) is Said and inside[1].text in ("is", "means"):
        return True  # (K1R is "knit one round")
    return len(inside) > 1 and type(inside[0]) is Stitches and bool(inside[1].flags & COLON)


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


def without_meanings(phrases: list[Phrase]) -> list[Phrase]:
    """The phrases without brackets that say how the stitch before is worked: `k8, ssk (slip, slip, knit)`."""
    if Brackets not in [type(phrase) for phrase in phrases]:
        return phrases
    made: list[Phrase] = []
    for place, phrase in enumerate(phrases):
        if type(phrase) is not Brackets:
            made.append(phrase)
            continue
        often = Times in [type(behind) for behind in phrases[place + 1 : place + 2]]
        apart = often or phrase.flags & ~SPACE
        if apart or not made or not _is_meaning(made[-1], phrase.inside):
            made.append(replace(phrase, inside=tuple(without_meanings(list(phrase.inside)))))
    return made


def _is_meaning(named: Phrase, inside: tuple[Phrase, ...]) -> bool:
    """Whether words in a bracket work the decrease or increase before it: `(knit 2 together)`, `(knit together)`."""
    if type(named) is PassOver:
        return len(inside) == 1 and is_shaping(inside[0])  # sl 1, k1, psso (skp)
    stitch = named.node if type(named) is Stitches and is_shaping(named) else None
    if type(stitch) is not Stitch or stitch.times.values != (1,):
        return False
    nodes = [phrase.node for phrase in inside if type(phrase) is Stitches]
    match nodes:
        case [Stitch(name=name, times=times, bare=False)] if len(inside) == 1 and times.values == (1,):
            return execute((Work(name),)) == execute((Work(stitch.name),))
        case [Stitch(name="sl"), *_]:
            return type(inside[0]) is Stitches
    words = [phrase.text for phrase in inside if type(phrase) is Said]
    return "together" in words and all(type(phrase) is Said or is_bare(phrase) for phrase in inside)
