"""Plain language: a round in sentences for beginners, every abbreviation spelled out, one action a sentence."""

from roundwright import reference
from roundwright.knitting.rounds.notation import star_of
from roundwright.knitting.rounds.round import Repeat, Steps, Work, execute, expand_early_stops
from roundwright.language import say_count


def plain_sentences(steps: Steps) -> str:
    """The sentences of a round, such as `* Knit two together. Repeat from * to the end of the round.`."""
    if len(steps) == 1 and isinstance(steps[0], Work) and steps[0].stitch in ("k", "p"):
        return f"{_words(steps[0])} every stitch."
    star = star_of(steps)
    if star is None:
        return _sentences(steps)
    head, repeat, tail = star
    repeated = f"* {_sentences(repeat.steps)} Repeat from * to {_end(tail)}."
    return " ".join(part for part in (_sentences(head), repeated, _sentences(tail)) if part)


def stitch_count(count: int) -> str:
    """A number of stitches in words: `1 stitch`, `2 stitches`."""
    return say_count("stitches", count)


def _end(tail: Steps) -> str:
    if not tail:
        return "the end of the round"
    uses, _ = execute(tail)
    return "the last stitch" if uses == 1 else f"the last {uses} stitches"


def _sentences(steps: Steps) -> str:
    return " ".join(_sentence(step) for step in expand_early_stops(steps))


def _sentence(step: Work | Repeat) -> str:
    if isinstance(step, Repeat):
        repeated = _sentences(step.steps)
        return repeated if step.times == 1 else f"[{repeated}] {step.times} times."
    words = _words(step)
    if step.stitch in ("k", "p", "sl"):
        return f"{words} {stitch_count(step.times)}."
    return f"{words}." if step.times == 1 else f"[{words}.] {step.times} times."


def _words(work: Work) -> str:
    return reference.stitches()[work.stitch].words.capitalize()
