"""The place in the work: the rounds in order, with what is on the needles after each.

Rounds in succession that leave the same stitches are one *stage*: by count alone nobody can tell them apart.
"""

from collections.abc import Iterable
from typing import Final, Literal, NamedTuple

from msgspec.structs import replace

from roundwright.knitting.answers import Notice
from roundwright.knitting.hat.brim_and_body import HatPart
from roundwright.knitting.rounds.round import Round, Steps, Work, fold, uses_and_leaves

PartName = Literal["brim", "body", "crown"]
Needles = tuple[int, ...]
Decrease = tuple[int, int]
"""How many decreases, and the most stitches that one of them takes away."""

NO_DECREASE: Final[Decrease] = (0, 0)


class Stage(NamedTuple):
    """Rounds `first` to `last` of a part, after each of which the needles hold the same.

    A round that changes the count is a stage by itself. Round 0 is the cast-on, or what was there before the crown.
    """

    part: PartName | None
    first: int
    last: int
    lines: tuple[Round, ...]  # worked in turn, from round 1 where `first` is 0
    after: int
    needles: Needles | None
    decreases: int
    takes: int  # the most that one of the decreases takes away

    def line(self, number: int) -> Round:
        """The line of a round; there is none for round 0."""
        one = self.lines[(number - max(self.first, 1)) % len(self.lines)]
        return one if one.number == number else replace(one, number=number)

    @property
    def before(self) -> int:
        """Stitches before it."""
        return self.lines[0].before if self.lines and self.first else self.after


class Line(NamedTuple):
    """A line to work, and the part it belongs to."""

    part: PartName | None
    round: Round


class Course(NamedTuple):
    """The whole of the work, and whether the knitter's needles are known or taken to be as the service shares them."""

    stages: tuple[Stage, ...]
    needles_known: bool
    word: Literal["round", "row"]
    notices: tuple[Notice, ...]

    def named(self, index: int, number: int) -> str:
        """A round in words: `round 5`, or of a hat `round 5 of the crown`."""
        stage = self.stages[index]
        if not number:
            return "the cast-on" if stage.part in ("brim", None) else "the stitches before the crown"
        part = f" of the {stage.part}" if stage.part and self.stages[0].part == "brim" else ""
        return f"{self.word} {number}{part}"

    def next_line(self, index: int, number: int) -> Line | None:
        """The line after a round of the stage; None after the last."""
        stage = self.stages[index]
        if number < stage.last:
            return Line(stage.part, stage.line(number + 1))
        if index + 1 == len(self.stages):
            return None
        after = self.stages[index + 1]
        return Line(after.part, after.line(max(after.first, 1)))

    def first_line(self, index: int) -> Line | None:
        """The line of the first round of the stage, or of the first after the cast-on."""
        stage = self.stages[index]
        if not stage.lines:
            return self.next_line(index, stage.last)
        return Line(stage.part, stage.line(max(stage.first, 1)))

    def shaped(self, index: int) -> int | None:
        """The nearest stage with decreases, this one or one before it; None where nothing was decreased yet."""
        return next((at for at in range(index, -1, -1) if self.stages[at].decreases), None)

    def slid(self, index: int) -> Needles | None:
        """The stitches on each needle when the first round of the stage is begun, after sliding what it says."""
        held = self.stages[index - 1].needles if index else None
        if held is None:
            return None
        needles = list(held)
        for move in reversed(self.stages[index].lines[0].moves):  # the last first: each slides what it had
            needles[move.needle - 1] -= move.stitches
            needles[move.needle] += move.stitches
        return tuple(needles)


def straight(part: HatPart, held: Needles | None, first: int) -> Stage:
    """The stage that a straight part of a hat is, held so on the needles from end to end."""
    lines = tuple(replace(one, needles=held) for one in part.lines)
    return Stage(part.part, first, part.rounds, lines, lines[0].after, held, *NO_DECREASE)


def stages(
    rounds: Iterable[Round], stitches: int, part: PartName | None, held: Needles | None
) -> list[Stage]:
    """The stages of rounds that begin with `stitches`, or with `held` on each needle."""
    found = [Stage(part, 0, 0, (), stitches, held, *NO_DECREASE)]
    for one in rounds:
        last = found[-1]
        if one.number == last.last + 1 and _goes_on(last, one):
            found[-1] = last._replace(last=one.number, lines=(*last.lines, one))
        else:
            taken = decreases(one.steps)
            found.append(Stage(part, one.number, one.number, (one,), one.after, one.needles, *taken))
    return found


def _goes_on(stage: Stage, one: Round) -> bool:
    """Whether neither the stage nor the round changes what is on the needles."""
    level = stage.before == stage.after and not stage.decreases and not decreases(one.steps)[0]
    return level and (one.before, one.after, one.needles, one.moves) == (
        stage.after,
        stage.after,
        stage.needles,
        (),
    )


def decreases(steps: Steps) -> Decrease:
    """The decreases of some steps, by arithmetic."""
    return fold(steps, _decreases_of, lambda inside, times: (inside[0] * times, inside[1]), _together)


def _decreases_of(work: Work) -> Decrease:
    uses, leaves = uses_and_leaves()[work.stitch]
    return (work.times, uses - leaves) if uses > leaves else NO_DECREASE


def _together(parts: Iterable[Decrease]) -> Decrease:
    found = tuple(parts)
    return sum(count for count, _ in found), max((most for _, most in found), default=0)
