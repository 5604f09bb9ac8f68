"""Plain language: a round in sentences for beginners, every abbreviation spelled out, one action a sentence."""

from typing import Self

from roundwright.knitting.rounds.notation import star_of
from roundwright.knitting.rounds.round import Repeat, Steps, Work, execute, expand_early_stops
from roundwright.language import ENGLISH_WORDS, Message, Words, sentence_start


class PlainLine(Message):
    """The sentences of a round behind a colon, at the end of a sentence that has the full stop."""

    __slots__ = ("steps",)

    steps: Steps

    def __new__(cls, steps: Steps) -> Self:
        """The line of these steps."""
        line = str.__new__(cls, _behind_colon(steps, ENGLISH_WORDS))
        line.steps = steps
        return line

    def in_words(self, words: Words) -> str:
        """The sentences in the words of a language."""
        return _behind_colon(self.steps, words)


def _behind_colon(steps: Steps, words: Words) -> str:
    return words.after_colon(plain_sentences(steps, words)).removesuffix(".")


def plain_sentences(steps: Steps, words: Words) -> str:
    """The sentences of a round, such as `* Knit two together. Repeat from * to the end of the round.`."""
    if len(steps) == 1 and isinstance(steps[0], Work) and steps[0].stitch in ("k", "p"):
        return words.say(f"plain.every.{steps[0].stitch}")
    star = star_of(steps)
    if star is None:
        return _sentences(steps, words)
    head, repeat, tail = star
    inside = _sentences(repeat.steps, words)
    if tail:
        uses, _ = execute(tail)
        repeated = words.say_count("plain.star_to", uses, sentences=inside)
    else:
        repeated = words.say("plain.star", sentences=inside)
    return " ".join(part for part in (_sentences(head, words), repeated, _sentences(tail, words)) if part)


def _sentences(steps: Steps, words: Words) -> str:
    return " ".join(_sentence(step, words) for step in expand_early_stops(steps))


def _sentence(step: Work | Repeat, words: Words) -> str:
    if isinstance(step, Repeat):
        repeated = _sentences(step.steps, words)
        return repeated if step.times == 1 else words.say("plain.times", sentences=repeated, count=step.times)
    if step.stitch in ("k", "p", "sl"):
        return words.say_count(f"plain.work.{step.stitch}", step.times)
    sentence = words.say("plain.stitch", stitch=sentence_start(words.stitch_plain(step.stitch)))
    return sentence if step.times == 1 else words.say("plain.times", sentences=sentence, count=step.times)
