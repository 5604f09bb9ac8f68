"""The progress of the work: the rounds in order, with what is on the needles after each.

Rounds in succession that leave the same stitches are one *stage*: by count alone nobody can tell them apart.
"""

from collections.abc import Callable, Iterable, Iterator
from functools import lru_cache
from typing import Final, Literal, NamedTuple

from msgspec.structs import replace

from roundwright.knitting.answers import Impossible, Notice
from roundwright.knitting.crown.request import MOST_CROWN_STITCHES
from roundwright.knitting.hat.brim_and_body import HatPart
from roundwright.knitting.rounds.notation import star_of
from roundwright.knitting.rounds.round import Repeat, Round, Steps, Work, execute, fold, runs, uses_and_leaves
from roundwright.language import say

PartName = Literal["brim", "body", "crown"]
Needles = tuple[int, ...]
"""Stitches on each needle, the first of the round first."""
LineWriter = Callable[[Steps], str]
"""Tells the steps of a round in sentences."""
Place = tuple[int, int]
"""Where the knitter may be: the index of a stage, and the round of it that is done."""


class Shaping(NamedTuple):
    """The decreases and increases of some steps."""

    decreases: int = 0
    takes: int = 0  # the most stitches that one of the decreases takes away
    increases: int = 0


NO_SHAPING: Final = Shaping()

ON_LOOP: Final = frozenset(
    (
        "count.left_out.message.loop",
        "count.left_out.message.needle.loop",
        "count.left_out.where.loop",
        "count.left_out.fix.loop",
        "count.slid_off.happened.loop",
        "count.slid_off.happened.needle.loop",
        "count.hidden.message.loop",
        "count.apart.hidden.loop",
        "count.count_again.message.needle.loop",
        "count.count_again.message.needle_assumed.loop",
        "count.count_again.where.needle.loop",
        "count.off.on_needle.loop",
        "count.off.on_needle_assumed.loop",
        "count.merged.message.loop",
        "count.merged.where.loop",
        "count.merged.fix.loop",
        "count.strayed.message.loop",
        "count.spread.message.loop",
        "count.spread.where.loop",
        "count.spread.fix.loop",
        "count.elsewhere.fix.needles.loop",
        "count.midway.where.loop",
        "count.wrong_line.needles.loop",
    )
)
"""Texts that have another form where the stitches lie in the halves of a magic loop."""


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
    shaping: Shaping

    def line(self, number: int) -> Round:
        """The line of a round; there is none for round 0."""
        line = self.lines[(number - max(self.first, 1)) % len(self.lines)]
        return line if line.number == number else replace(line, number=number)

    @property
    def before(self) -> int:
        """Stitches before it."""
        return self.lines[0].before if self.lines and self.first else self.after

    @property
    def rib(self) -> tuple[int, int] | None:
        """The rib it is worked in, as stitches knitted and purled side by side; None for other fabric."""
        return rib_of(self.lines[0].steps) if self.lines else None


class NextLine(NamedTuple):
    """A line to work, and the part it belongs to."""

    part: PartName | None
    round: Round


class Progress(NamedTuple):
    """All the rounds of the work, in stages.

    - `needles_known`: whether the split is the knitter's, and not one the service assumes
    - `unread`: why a pattern in words is followed no further than its last stage; None where it is followed to its end
    - `fragment`: whether a pattern in words ends with more stitches than are drawn together, so that more must follow
    - `loop`: whether what holds the stitches is a half of a magic loop
    - `cast_on_now`: whether the count is of the cast-on itself, with no round above it
    - `printed`: of the rounds of a pattern in words, whether the text numbers them; the others are counted
    - `alike`: the places whose round has the number that is stated, where a pattern in words has several
    - `in_sentences`: how rounds are told in sentences, where the pattern that is followed does; else None
    - `possible`: the places the knitter may have reached, from the first round of each, where no round is stated
    """

    stages: tuple[Stage, ...]
    needles_known: bool
    word: Literal["round", "row"]
    notices: tuple[Notice, ...]
    unread: Impossible | None = None
    loop: bool = False
    fragment: bool = False
    cast_on_now: bool = False
    in_sentences: LineWriter | None = None
    possible: tuple[Place, ...] = ()
    printed: tuple[bool, ...] = ()
    alike: tuple[Place, ...] = ()

    def wording(self, round: Round) -> str:
        """What is worked in a round, in words: its line, or the sentences that a beginner reads."""
        return round.text if self.in_sentences is None else self.in_sentences(round.steps)

    def held(self, key: str) -> str:
        """The key of a text, for the halves of a magic loop where it has another form for them."""
        return f"{key}.loop" if self.loop and f"{key}.loop" in ON_LOOP else key

    def named(self, index: int, number: int, *, first: bool = False) -> str:
        """A round in words: `round 5`, or of a hat `round 5 of the crown`; `first` in its sentence."""
        stage = self.stages[index]
        if not number:
            on_needles = "cast_on" if stage.part in ("brim", None) else "before_crown"
            return say(f"count.named.{on_needles}")
        return self._of_part("named_first" if first else "named", stage.part, number)

    def reached(self, index: int, number: int) -> str:
        """Where the knitter is once a round is done, in words: `after round 5`, `before the crown`."""
        if not number and self.stages[index].part in ("crown", "brim", None):
            crown = self.stages[index].part == "crown"
            return say("count.before_crown" if crown else "count.after.cast_on")
        return say("count.after", round=self.named(index, number))

    def reached_any(self, index: int, first: int, last: int) -> str:
        """The same where any of some rounds may be the one done: `after any of rounds 1 to 27 of the body`."""
        return say(f"count.after.any.{self._round_of(self.stages[index].part)}", first=first, last=last)

    def start(self, index: int, number: int) -> str:
        """Where a count of the whole round starts, in words: no marker hangs before the work is joined."""
        on_cast_on = not (number or index or self.possible) and self.stages[0].part in ("brim", None)
        return say(f"count.start.{'cast_on' if on_cast_on else self.word}")

    def line_named(self, line: NextLine) -> str:
        """A line to work in words: `round 6`, or of a hat `round 6 of the crown`."""
        return self._of_part("named", line.part, line.round.number)

    def _of_part(self, named: str, part: PartName | None, number: int) -> str:
        return say(f"count.{named}.{self._round_of(part)}", number=number)

    def _round_of(self, part: PartName | None) -> str:
        """The end of the key of a text about a round of that part."""
        return f"{self.word}.{part}" if part and self.stages[0].part == "brim" else self.word

    def is_printed(self, index: int, number: int) -> bool:
        """Whether a pattern in words gives the round this number itself."""
        before = sum(len(stage.lines) for stage in self.stages[:index])
        at = before + number - max(self.stages[index].first, 1)
        return number > 0 and at < len(self.printed) and self.printed[at]

    def next_line(self, index: int, number: int) -> NextLine | None:
        """The line after a round of the stage; None after the last."""
        stage = self.stages[index]
        if number < stage.last:
            return NextLine(stage.part, stage.line(number + 1))
        if index + 1 == len(self.stages):
            return None
        after = self.stages[index + 1]
        return NextLine(after.part, after.line(max(after.first, 1)))

    def first_line(self, index: int) -> NextLine | None:
        """The line of the first round of the stage, or of the first after the cast-on."""
        stage = self.stages[index]
        if not stage.lines:
            return self.next_line(index, stage.last)
        return NextLine(stage.part, stage.line(max(stage.first, 1)))

    def last_shaped(self, index: int) -> int | None:
        """The nearest stage with decreases or increases, this one or one before it; None where there is none yet."""
        return next((at for at in range(index, -1, -1) if self.stages[at].shaping != NO_SHAPING), None)

    def needles_before(self, index: int) -> Needles | None:
        """The stitches on each needle when the first round of the stage is begun, after the slides of that round."""
        needles = self.stages[index - 1].needles if index else None
        if needles is None:
            return None
        slid = list(needles)
        for move in reversed(
            self.stages[index].lines[0].moves
        ):  # the last needle first: it slides only its own
            slid[move.needle - 1] -= move.stitches
            slid[move.needle] += move.stitches
        return tuple(slid)


def straight_stages(
    part: HatPart, first: int, needles: Needles | None, adjust: Round | None
) -> Iterator[Stage]:
    """The stages of a straight part of a hat, from its round `first` on.

    `needles` hold what its lines leave. `adjust` is the round that changes the count, with the needles after it; it is
    a stage by itself, the first of the body or the last of the brim.
    """
    lines = tuple(replace(line, needles=needles) for line in part.lines)
    here = adjust if part.adjust is not None else None
    stage = None
    if here is not None:
        stage = Stage(
            part.part,
            here.number,
            here.number,
            (here,),
            here.after,
            here.needles,
            shaping_of(here.steps),
        )
    if stage is not None and part.part == "body":
        yield stage
        first += 1
    if part.rounds_in_turn or not first:
        last = part.rounds if part.part == "body" else part.rounds_in_turn
        yield Stage(part.part, first, last, lines, lines[0].after, needles, NO_SHAPING)
    if stage is not None and part.part == "brim":
        yield stage


def stages_of(
    rounds: Iterable[Round], stitches: int, part: PartName | None, needles: Needles | None
) -> list[Stage]:
    """The stages of rounds that begin with `stitches`, or with `needles` on each needle."""
    stages = [Stage(part, 0, 0, (), stitches, needles, NO_SHAPING)]
    for line in rounds:
        last = stages[-1]
        shaping = shaping_of(line.steps)
        if line.number == last.last + 1 and _continues(last, line, shaping):
            stages[-1] = last._replace(last=line.number, lines=(*last.lines, line))
        else:
            stages.append(Stage(part, line.number, line.number, (line,), line.after, line.needles, shaping))
    return stages


def _continues(stage: Stage, line: Round, shaping: Shaping) -> bool:
    """Whether neither the stage nor the round changes what is on the needles."""
    level = stage.before == stage.after and stage.shaping == shaping == NO_SHAPING
    return level and (line.before, line.after, line.needles, line.moves) == (
        stage.after,
        stage.after,
        stage.needles,
        (),
    )


def shaping_of(steps: Steps) -> Shaping:
    """The decreases and increases of some steps, without expanding repeats."""
    return fold(steps, _shaping_of_stitch, _shaping_repeated, _shaping_together)


def _shaping_of_stitch(work: Work) -> Shaping:
    uses, leaves = uses_and_leaves()[work.stitch]
    decreases, increases = work.times * (uses > leaves), work.times * (leaves > uses)
    return Shaping(decreases, max(uses - leaves, 0), increases)


def _shaping_repeated(shaping: Shaping, times: int) -> Shaping:
    return Shaping(shaping.decreases * times, shaping.takes, shaping.increases * times)


def _shaping_together(parts: Iterable[Shaping]) -> Shaping:
    shapings = tuple(parts)
    return Shaping(
        sum(shaping.decreases for shaping in shapings),
        max((shaping.takes for shaping in shapings), default=0),
        sum(shaping.increases for shaping in shapings),
    )


def rib_of(steps: Steps) -> tuple[int, int] | None:
    """Stitches knitted and purled side by side where the steps are a rib all around; None where they are not."""
    star = star_of(steps)
    if star is None or star[0] or star[2]:
        return None
    runs = {step.stitch: step.times for step in star[1].steps if not isinstance(step, Repeat)}
    return (runs["k"], runs["p"]) if len(star[1].steps) == 2 and set(runs) == {"k", "p"} else None


@lru_cache(maxsize=512)  # read again for each cause in the same round
def decrease_places(steps: Steps) -> tuple[int, ...]:
    """How many stitches stand before each decrease once the round is done; none for more stitches than a hat has."""
    return _places(steps, decreasing=True)


def increase_places(steps: Steps) -> tuple[int, ...]:
    """How many stitches stand before each increase once the round is done; none for more stitches than a hat has."""
    return _places(steps, decreasing=False)


def _places(steps: Steps, *, decreasing: bool) -> tuple[int, ...]:
    if max(execute(steps)) > MOST_CROWN_STITCHES:
        return ()
    places: list[int] = []
    done = 0
    for stitch, times in runs(steps):
        uses, leaves = execute((Work(stitch),))
        if (uses > leaves) if decreasing else (leaves > uses):
            places.extend(done + turn * leaves for turn in range(times))
        done += leaves * times
    return tuple(places)
