"""Numbers of rounds told by what the rounds are: `6 ridges`, `10 rounds in each of the three colours`."""

from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.phrases import (
    Again,
    Brackets,
    Count,
    Fabric,
    Phrase,
    Rep,
    Rounds,
    Said,
    Stitches,
    Times,
)
from roundwright.wording.reading.seen import is_bare
from roundwright.wording.reading.tokens import COMMA, SEMI, STOP
from roundwright.wording.reading.tree import ONE, Number, Stitch

_COLOURS: Final = frozenset(("colours", "colors", "shades", "yarns"))
_RIDGES: Final = frozenset(("ridge", "ridges"))
_BEHIND_COLOURS: Final = 6
"""Words from a number of rounds to the colours: `in each of the three colours`."""


def with_rounds_by_sort(phrases: list[Phrase]) -> list[Phrase]:
    """The phrases with rounds that are told by what they are as so many rounds.

    A ridge of garter stitch is a knit round and a purl round (common practice).
    """
    texts = {phrase.text for phrase in phrases if type(phrase) is Said}
    if not texts.isdisjoint(_RIDGES):
        phrases = _with_ridges(phrases)
    if not texts.isdisjoint(_COLOURS):
        phrases = _with_each_colour(phrases)
    return _with_plain_round_again(phrases) if phrases and type(phrases[0]) is Rep else phrases


def _with_ridges(phrases: list[Phrase]) -> list[Phrase]:
    """`Work 6 ridges`, `work 6 garter ridges`: as often a knit and a purl round."""
    match phrases:
        case [Said(text="work") as work, Count(number=number, sign=0) as count, *behind] if behind:
            named = behind[1:] if type(behind[0]) is Fabric and behind[0].kind == "garter" else behind
            ridges = named[0] if named else None
            ends = len(named) < 2 or named[1].flags & (STOP | SEMI | COMMA)
            if type(ridges) is not Said or ridges.text not in _RIDGES or not ends:
                return phrases
            start, end = count.start, ridges.end
            inside: list[Phrase] = []
            for craft in ("k", "p"):
                inside.append(Stitches(start, end, COMMA, Stitch(craft, ONE, start, end, bare=True)))
                inside.append(Rounds(start, end, 0, ONE))
            often = Times(start, end, 0, number)
            return [Brackets(work.start, end, work.flags, tuple(inside)), often, *named[1:]]
        case _:
            return phrases


def _with_each_colour(phrases: list[Phrase]) -> list[Phrase]:
    """`Knit 10 rounds in each of the three colours`: thirty rounds."""
    for place, phrase in enumerate(phrases):
        behind = phrases[place + 1 : place + 1 + _BEHIND_COLOURS]
        at = next((at for at, word in enumerate(behind) if type(word) is Said and word.text in _COLOURS), 0)
        colours = behind[at - 1] if at else None
        per_colour = any(type(word) is Said and word.text in ("each", "in each") for word in behind[:at])
        if type(phrase) is Rounds and not phrase.every and per_colour and type(colours) is Count:
            if not all(type(word) is Said for word in behind[: at - 1]):
                return phrases
            often = colours.number.of(0) or 1
            values = tuple((value or 0) * often for value in phrase.number.values)
            number = Number(values, phrase.number.start, phrase.number.end)
            return [*phrases[:place], replace(phrase, number=number), *phrases[place + 2 + at :]]
    return phrases


def _with_plain_round_again(phrases: list[Phrase]) -> list[Phrase]:
    """`Repeat the knit round 30 times`: thirty knit rounds."""
    match phrases:
        case [Rep(level=0) as rep, Said(text="the"), Stitches() as verb, *behind] if is_bare(verb):
            match behind:
                case [Again(named=(often,), last=0) as again, Said(text="times"), *others] if often > 0:
                    rounds = Rounds(again.start, again.end, 0, Number((often,), again.start, again.end))
                case [
                    Rounds(every=False, number=Number(values=(1,))),
                    Times(number=number) as times,
                    *others,
                ]:
                    rounds = Rounds(times.start, times.end, 0, number)
                case _:
                    return phrases
            return [replace(verb, flags=rep.flags), rounds, *others]
        case _:
            return phrases
