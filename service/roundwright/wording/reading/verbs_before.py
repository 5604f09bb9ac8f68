"""A verb that stands before a repeat, and is of its first stitches: `you knit *5 stitches, then 2 together*`."""

from typing import Final, TypeGuard

from msgspec.structs import replace

from roundwright.wording.reading.phrases import Brackets, Count, Phrase, Said, Star, Stitches, Then
from roundwright.wording.reading.seen import is_bare, is_shaping
from roundwright.wording.reading.tree import Stitch

SHORTEST_VERB: Final = 4
"""Letters of `knit`; `k` is a stitch."""
MOST_TO_SHAPING: Final = 3
"""Phrases from a number of stitches to the decrease behind it: `5 stitches, then 2 together`."""


def with_verbs_inside(phrases: list[Phrase]) -> list[Phrase]:
    """The phrases with a verb before a star or bracket put to the number that stands first in it."""
    made: list[Phrase] = []
    verb: Stitches | None = None
    for place, phrase in enumerate(phrases):
        before = phrases[place - 1] if place else None
        if _is_counted(phrase) and type(before) is Star and verb is not None:
            made.append(_knitted(phrase, verb))
            verb = None
            continue
        verb = made[-1] if made and type(made[-1]) is Stitches and _is_verb(made[-1]) else None
        inside = phrase.inside if type(phrase) is Brackets else tuple(phrases[place + 1 : place + 6])
        if verb is None or type(phrase) not in (Star, Brackets) or not _counts_to_shaping(inside):
            verb = None
            made.append(phrase)
            continue
        made.pop()
        opened = replace(phrase, flags=verb.flags)
        first = inside[0]
        if type(opened) is Brackets and _is_counted(first):
            opened = replace(opened, inside=(_knitted(first, verb), *inside[1:]))
        made.append(opened)
    return made


def _is_verb(phrase: Stitches) -> bool:
    """Whether it is `knit` or `purl` alone, as a word."""
    return is_bare(phrase) and phrase.end - phrase.start >= SHORTEST_VERB


def _counts_to_shaping(inside: tuple[Phrase, ...]) -> bool:
    """Whether a bare number stands first, and a decrease or an increase soon behind it."""
    first = inside[0] if inside else None
    if first is None or not _is_counted(first) or (type(first) is Count and first.sign):
        return False
    for phrase in inside[1 : 1 + MOST_TO_SHAPING]:
        if is_shaping(phrase):
            return True
        if type(phrase) not in (Said, Then):
            return False
    return False


def _is_counted(phrase: Phrase) -> TypeGuard[Count | Stitches]:
    """Whether stitches are told by their number alone."""
    return type(phrase) is Count or _is_number(phrase)


def _is_number(phrase: Phrase) -> bool:
    """Whether stitches are told by their number alone, and knitted because others are: `(5, 2 together)`."""
    node = phrase.node if type(phrase) is Stitches else None
    return type(node) is Stitch and node.name == "k" and not node.bare and node.times.start == phrase.start


def _knitted(counted: Count | Stitches, verb: Stitches) -> Stitches:
    """So many stitches of the verb that stands before them."""
    name = verb.node.name if type(verb.node) is Stitch else "k"
    start, end = counted.start, counted.end
    if isinstance(counted, Count):
        return Stitches(start, end, counted.flags, Stitch(name, counted.number, start, end))
    node = counted.node
    return replace(counted, node=replace(node, name=name)) if type(node) is Stitch else counted
