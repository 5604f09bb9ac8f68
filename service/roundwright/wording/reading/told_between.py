"""Plain rounds told apart from the rounds they stand between: `..., always with one plain round after`."""

from itertools import pairwise
from typing import Final

from roundwright.wording.reading.fabric_ways import plain_fill
from roundwright.wording.reading.instructions import UNREAD, Candidate
from roundwright.wording.reading.phrases import (
    BEFORE_EACH,
    Again,
    Brackets,
    Change,
    Continue,
    Count,
    Fabric,
    Phrase,
    Rounds,
    Said,
    Stitches,
    Then,
    Times,
)
from roundwright.wording.reading.seen import is_bare
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.tokens import COMMA
from roundwright.wording.reading.tree import ONE, Number, Stated, Stitch, named
from roundwright.wording.reading.vocabulary import ordinal


def told_between(segment: Segment, stated: tuple[Stated, ...]) -> Candidate | None:
    """Plain rounds that stand between others; None where the segment tells anything else."""
    phrases = segment.phrases
    match phrases:
        case (Brackets(inside=inside),):
            phrases = inside
    phrases = _with_first_counted(_without_others(phrases))
    if (step := _heads_rounds(segment)) is not None:
        number = Number((step - 1,), segment.start, segment.end)
        nodes = plain_fill("k", segment.start, segment.end)
        return Candidate("between", 0.0, nodes, rounds=number, told_first=True)
    if segment.label is not None or not phrases or not all(map(_may_tell, phrases)):
        return None
    rounds = [phrase for phrase in phrases if type(phrase) is Rounds]
    every = _none_further(phrases, rounds) or _every_so_often(phrases, rounds, segment)
    if every := every or _before_each(phrases, rounds, segment):
        return every
    if len(rounds) != 1 or rounds[0].every:
        return None
    place = phrases.index(rounds[0])
    texts = [phrase.text for phrase in phrases if type(phrase) is Said]
    if before := _between_two(texts):
        return _behind(rounds[0], before, segment)
    first = _first_so_many(phrases)
    recurring = not _EACH.isdisjoint(texts) or first > 0
    if not ("between" in texts or "in between" in texts or (recurring and not _AFTER.isdisjoint(texts))):
        return None
    if "unless" in texts:
        return Candidate("prose", 0.0)  # the rounds are told where they stand
    if texts.count("after") > 1:
        return Candidate("prose", UNREAD, strength=UNREAD)  # `..., one after #4` is not read
    only = next((phrase for phrase in phrases[place:] if type(phrase) is Count and phrase.sign), None)
    return Candidate(
        "between",
        0.0,
        plain_fill("k", segment.start, segment.end),
        rounds=rounds[0].number,
        plain=int(not {"between", "in between"}.intersection(texts)),
        step=only.number.of(0) or 0 if only is not None else first,
        stated=tuple(
            count for count in stated if not count.sign and not _counts_rounds(phrases, count.number)
        ),
    )


def _none_further(phrases: tuple[Phrase, ...], rounds: list[Rounds]) -> Candidate | None:
    """`From here no more plain rounds.`: those that were told to stand between end."""
    silent = all(type(phrase) in (Said, Then, Rounds) for phrase in phrases)
    if not silent or len(rounds) != 1 or not rounds[0].every or rounds[0].number.values != (0,):
        return None
    return Candidate("between", 0.0, rounds=rounds[0].number)


def _between_two(texts: list[str]) -> int:
    """Behind which decrease rounds are told: 2 of `between the 2nd and the 3rd decrease`; 0 where it is not said."""
    behind = texts[texts.index("between") :] if "between" in texts else []
    numbers = [number for text in behind if (number := ordinal(text))]
    return numbers[0] if len(numbers) == MOST_NEAR and numbers[1] == numbers[0] + 1 else 0


def _before_each(phrases: tuple[Phrase, ...], rounds: list[Rounds], segment: Segment) -> Candidate | None:
    """Plain rounds before each decrease round: `2 knit rounds before each`, `before each dec rnd`; else None."""
    place = phrases.index(rounds[0]) if len(rounds) == 1 else 0
    introduced = any(type(phrase) is Said and phrase.words for phrase in phrases[:place])
    behind = () if introduced else phrases[place + 1 :]
    texts = [phrase.text if type(phrase) is Said else "" for phrase in behind if type(phrase) is not Change]
    begins = texts[:1] == [BEFORE_EACH] or (texts[:1] == ["before"] and texts[1:2] in _BEFORE_THEM)
    if not rounds or not begins or rounds[0].every or not _OF_DECREASES.issuperset(texts[1:]):
        return None
    nodes = plain_fill("k", segment.start, segment.end)
    return Candidate("between", 0.0, nodes, rounds=rounds[0].number, plain=-1)


_BEFORE_THEM: Final = (["each"], ["every"], ["them"], ["these"], ["each of"])
_OF_DECREASES: Final = frozenset(
    (
        "each",
        "every",
        "of",
        "them",
        "these",
        "those",
        "the",
        "round",
        "rounds",
        "rnd",
        "rnds",
        "one",
        "each of",
    )
)
MOST_NEAR: Final = 2
"""Decreases between which rounds are told."""


def _behind(rounds: Rounds, before: int, segment: Segment) -> Candidate:
    """The plain rounds behind the first decrease, which is told above, or behind a later one, which goes on as it."""
    if before == 1:
        return Candidate("round", 0.0, plain_fill("k", segment.start, segment.end), rounds=rounds.number)
    once = Times(rounds.start, rounds.end, 0, ONE)
    return Candidate("continue", 0.0, times=once, step=1, plain=rounds.number.of(0) or 0)


def _heads_rounds(segment: Segment) -> int | None:
    """On which rounds those of the lines below are worked: `Dec every other rnd:`; None where it says more."""
    worked = [phrase for phrase in segment.phrases if type(phrase) not in (Said, Then, Continue)]
    match worked:
        case [Change(), Rounds(every=True, step=step)] | [Rounds(every=True, step=step), Change()]:
            return max(step, 1) if segment.intro and segment.label is None else None
        case _:
            return None


def _with_first_counted(phrases: tuple[Phrase, ...]) -> tuple[Phrase, ...]:
    """The phrases with `decrease rounds 1 to 5` as `first 5 decrease rounds`."""
    for place, phrase in enumerate(phrases):
        if type(phrase) is not Again:
            continue
        last, stop = None, place + 1
        before = phrases[place - 1] if place else None
        match phrases[stop : stop + 3]:
            case [Count(number=Number(values=(1,))), Said(text="to"), Count(number=number)]:
                last, stop = number, stop + 3
        if type(before) is Change and len(phrase.named) > 1 and phrase.named[0] == 1:
            last = Number((len(phrase.named),))  # decrease rounds 1-5
        elif phrase.named != (named("decrease"),) or last is None:
            return phrases
        start, end, flags = phrase.start, phrase.end, phrase.flags
        first = (Said(start, end, flags, text="first"), Count(start, end, flags & ~COMMA, last))
        return (*phrases[:place], *first, *phrases[stop:])
    return phrases


def _first_so_many(phrases: tuple[Phrase, ...]) -> int:
    """How many rounds `only the first two get a plain round after` is told of; 0 where it is told of all."""
    for before, phrase in pairwise(phrases):
        first = type(before) is Said and before.text == "first"
        if first and type(phrase) is Count and not phrase.flags & COMMA:
            return phrase.number.of(0) or 0
    return 0


def _without_others(phrases: tuple[Phrase, ...]) -> tuple[Phrase, ...]:
    """The phrases without what says that the other rounds have none: `..., none after the others`."""
    for place, phrase in enumerate(phrases):
        if place and type(phrase) is Said and phrase.text == "none" and phrase.flags & COMMA:
            return phrases[:place] if all(type(other) is Said for other in phrases[place:]) else phrases
    return phrases


def _counts_rounds(phrases: tuple[Phrase, ...], number: Number) -> bool:
    """Whether a number is that of the first so many rounds, and no count."""
    return any(
        type(before) is Said and before.text == "first" and type(phrase) is Count and phrase.number is number
        for before, phrase in pairwise(phrases)
    )


def _may_tell(phrase: Phrase) -> bool:
    """Whether a phrase may stand where plain rounds are told between others."""
    match phrase:
        case Fabric(kind=kind):
            return kind == "plain"
        case Stitches(node=Stitch(name=name, bare=bare)):
            return bare and name == "k"
        case Brackets(inside=inside):
            return all(type(inner) in (Count, Said) for inner in inside)
        case _:
            return type(phrase) in (Said, Rounds, Change, Count, Then)


def _every_so_often(phrases: tuple[Phrase, ...], rounds: list[Rounds], segment: Segment) -> Candidate | None:
    """`Every 4th round is a decrease round`: three plain rounds between; None where nothing of the kind is told."""
    match phrases:
        case (Rounds(every=True, step=step) as every, Said(text="is" | "are"), *behind) if step > 1:
            pass
        case _:
            return None
    shaped = Change in [type(phrase) for phrase in behind[:3]]
    plain = step == 2 and any(type(phrase) is Fabric or is_bare(phrase) for phrase in behind[:2])
    if not (shaped or plain) or len(rounds) != 1:
        return None
    nodes = plain_fill("k", segment.start, segment.end)
    number = Number((step - 1,), every.start, every.end)
    return Candidate("between", 0.0, nodes, rounds=number, told_first=True)


_AFTER: Final = frozenset(("after", "followed by", "follows", "following", "after each"))
_EACH: Final = frozenset(("each", "every", "always", "them", "these", "after each", "time"))
