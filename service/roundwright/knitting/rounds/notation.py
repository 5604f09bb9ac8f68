"""Notation: the written line of a round, as patterns print it.

The line is composed of the messages `round.…` of the catalogues and the words of the stitches of a language.
"""

from functools import cache
from typing import NamedTuple, Self

from roundwright.knitting.rounds.round import Repeat, Step, Steps, Work, execute
from roundwright.language import Message, Words
from roundwright.language.words import ENGLISH_WORDS


class WrittenLine(Message):
    """The written line of a round, with the steps that it is written from."""

    __slots__ = ("flat", "steps")

    steps: Steps
    flat: bool

    def __new__(cls, steps: Steps, *, flat: bool) -> Self:
        """The line of these steps, of a row where `flat`."""
        line = str.__new__(cls, _line(steps, ENGLISH_WORDS, flat=flat))
        line.steps, line.flat = steps, flat
        return line

    def in_words(self, words: Words) -> str:
        """The line in the words of a language."""
        return _line(self.steps, words, flat=self.flat)


def written_line(steps: Steps, *, flat: bool = False) -> WrittenLine:
    """The written line of a round, without its count: `*k2, k2tog; rep from * around` (`to end` for a row)."""
    return WrittenLine(steps, flat=flat)


def star_of(steps: Steps) -> tuple[Steps, Repeat, Steps] | None:
    """The steps before the only repeat of a round, that repeat, and the steps after it; None for other rounds.

    Such a round is written with a star: its repeat is worked to the end, or to the stitches of the steps after it.
    """
    repeats = [index for index, step in enumerate(steps) if isinstance(step, Repeat)]
    if len(repeats) != 1:
        return None
    index = repeats[0]
    repeat, tail = steps[index], steps[index + 1 :]
    if (
        not isinstance(repeat, Repeat)
        or repeat.times == 1
        or repeat.again
        or any(isinstance(s, Repeat) for s in repeat.steps)
    ):
        return None
    if not execute(repeat.steps)[0] or (tail and not execute(tail)[0]):
        return None  # increases alone use no stitches, so "to last sts" would not say where to end
    return steps[:index], repeat, tail


class _Notation(NamedTuple):
    """The texts of the notation of a language, looked up once."""

    join: str
    star: str
    star_row: str
    times: str
    again: str
    head: str


@cache
def _notation(words: Words) -> _Notation:
    return _Notation(**{name: words.say(f"round.{name}") for name in _Notation._fields})


def _line(steps: Steps, words: Words, *, flat: bool) -> str:
    if len(steps) == 1 and isinstance(steps[0], Work) and steps[0].stitch in ("k", "p"):
        return words.say(f"round.{steps[0].stitch}")
    star = star_of(steps)
    return _inline(steps, words) if star is None else _starred(*star, words, flat=flat)


def _starred(head: Steps, repeat: Repeat, tail: Steps, words: Words, *, flat: bool) -> str:
    notation, inside = _notation(words), _inline(repeat.steps, words)
    if tail:
        used, _ = execute(tail)
        line = words.say_count("round.star_to", used, steps=inside, tail=_inline(tail, words))
    else:
        line = (notation.star_row if flat else notation.star).format(steps=inside)
    return notation.head.format(head=_inline(head, words), line=line) if head else line


def _inline(steps: Steps, words: Words) -> str:
    return _notation(words).join.join([_phrase(step, words) for step in steps])


def _phrase(step: Step, words: Words) -> str:
    if isinstance(step, Repeat):
        inside = _inline(step.steps, words)
        if step.again:
            times = words.say_count("round.number_of_times", step.times)
            part = words.say_count("round.first_stitches", step.again)
            return _notation(words).again.format(steps=inside, times=times, part=part)
        return inside if step.times == 1 else _notation(words).times.format(steps=inside, count=step.times)
    text = words.stitch(step.stitch)
    if step.stitch in ("k", "p", "sl"):
        return text.format(n=step.times)
    return text if step.times == 1 else _notation(words).times.format(steps=text, count=step.times)
