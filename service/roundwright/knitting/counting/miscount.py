"""A count that is off: a decrease missed or one too many, a stitch dropped or added, and how that is put right."""

from typing import Final, NamedTuple

from roundwright.knitting.counting.causes import MOST_OFF, CauseCode, Counted, Slip, off_on_needles
from roundwright.knitting.counting.progress import Course, Line, Stage, decreases
from roundwright.knitting.counting.repair import MAKE, choices, decrease_places, mended
from roundwright.knitting.rounds.notation import star_of
from roundwright.knitting.rounds.round import execute, stitch_names


class Told(NamedTuple):
    """A slip in words."""

    message: str
    where: str
    fix: str
    next: Line | None
    at: int  # index of the stage in which it happened
    round: int
    needle: int | None = None
    stitch: int | None = None


def stitches(count: int) -> str:
    """So many stitches: `1 stitch`, `2 stitches`."""
    return "1 stitch" if count == 1 else f"{count} stitches"


def go_on(course: Course, line: Line | None) -> str:
    """What comes next as the pattern has it."""
    if line is None:
        return "The last round is done: go on to the finish."
    return f"Then work {line_named(course, line)}: {line.round.text}."


def line_named(course: Course, line: Line) -> str:
    """A line to work in words: `round 6`, or of a hat `round 6 of the crown`."""
    part = f" of the {line.part}" if line.part and course.stages[0].part == "brim" else ""
    return f"{course.word} {line.round.number}{part}"


def miscount(course: Course, counted: Counted, slip: Slip) -> Told:
    """A count that is off, told with its repair."""
    shaped = course.shaped(slip.stage) if slip.code in ("missed_decrease", "extra_decrease") else None
    at = slip.stage if shaped is None else shaped
    number = slip.number if at == slip.stage else course.stages[at].first
    few = abs(slip.stitches)
    on = "" if slip.needle is None else f" on needle {slip.needle + 1}"
    what = _HAPPENED[slip.code][few > 1].format(few=few, on=on, round=course.named(at, number))
    stage = course.stages[at]
    if not number and stage.part != "crown" and slip.code in _CAST_ON:
        what = _CAST_ON[slip.code]
    fix, line = put_right(course, counted, slip)
    look = (_at_a_decrease(slip, stage) if shaped is not None else None) or _LOOK[slip.code]
    return Told(
        message=f"{what}: {stitches(few)} too {'many' if slip.stitches > 0 else 'few'}.",
        where=f"{_needles_off(course, counted, slip)}{look}",
        fix=fix,
        next=line,
        at=at,
        round=number,
        needle=slip.needle,
        stitch=None if shaped is None or slip.code != "missed_decrease" else _only_decrease(slip, stage),
    )


_HAPPENED: Final[dict[CauseCode, tuple[str, str]]] = {
    "missed_decrease": (
        "A decrease of {round} was not worked{on}",
        "{few} stitches that {round} takes away were not decreased{on}",
    ),
    "extra_decrease": (
        "A decrease too many was worked in {round}{on}",
        "{few} stitches too many were decreased in {round}{on}",
    ),
    "dropped_stitch": ("A stitch has dropped{on}", "{few} stitches have dropped{on}"),
    "extra_stitch": (
        "A stitch was added by accident{on} (the yarn went over the needle, or one stitch was split into two)",
        "{few} stitches were added by accident{on} (the yarn went over the needle, or stitches were split)",
    ),
}
_CAST_ON: Final[dict[CauseCode, str]] = {
    "extra_stitch": "More stitches were cast on than planned, or some were added by accident",
    "dropped_stitch": "Fewer stitches were cast on than planned, or some have dropped",
}
_LOOK: Final[dict[CauseCode, str]] = {
    "missed_decrease": "Follow the line along the needles: where it decreases and no stitch lies over its neighbour, "
    "there it is.",
    "extra_decrease": "Look for a place where two stitches run into one and the line has no decrease.",
    "dropped_stitch": "Look below the needles for a loop that hangs free, with loose strands above it like the "
    "rungs of a ladder.",
    "extra_stitch": "Look for a loop that lies over the needle with a hole below it, or for two loops that come out "
    "of one stitch.",
}


def _needles_off(course: Course, counted: Counted, slip: Slip) -> str:
    """Which needles are off, where it is more than one."""
    off = off_on_needles(course.stages[slip.stage], counted) if course.needles_known else None
    if off is None or slip.needle is not None:
        return ""
    told = [
        f"needle {number} has {abs(more)} too {'many' if more > 0 else 'few'}"
        for number, more in enumerate(off, start=1)
        if more
    ]
    return f"{', '.join(told).capitalize()}. " if told else ""


def _at_a_decrease(slip: Slip, stage: Stage) -> str | None:
    """How to find the decrease; None where the line does not help."""
    star = star_of(stage.lines[0].steps)
    if slip.code == "missed_decrease" and (stitch := _only_decrease(slip, stage)) is not None:
        place = "the needle" if slip.needle is not None else "the round"
        return f"The only decrease there stands about {stitches(stitch)} from the start of {place}."
    if star is None:
        return None
    wide = execute(star[1].steps)[1]
    wrong = wide + (1 if slip.stitches > 0 else -1)
    return (
        f"Each repeat of the line leaves {stitches(wide)}. Count from decrease to decrease: "
        f"where you find {wrong}, there it is."
    )


def _only_decrease(slip: Slip, stage: Stage) -> int | None:
    """How far into the needle, or the round, its decrease stands where it has only one."""
    places = decrease_places(stage.lines[0].steps)
    start = 0
    if slip.needle is not None and stage.needles is not None:
        start = sum(stage.needles[: slip.needle])
        places = tuple(at for at in places if start <= at < start + stage.needles[slip.needle])
    return places[0] - start if len(places) == 1 else None


def put_right(course: Course, counted: Counted, slip: Slip) -> tuple[str, Line | None]:
    """How to put a count right, and the line to work next."""
    after = course.next_line(slip.stage, slip.number)
    if slip.code == "dropped_stitch":
        return f"{_PICK_UP} {go_on(course, after)} {LAST_RESORT}", after
    if after is None:
        return (
            "No round is left to mend it in, and it does no harm: close the top over all the stitches.",
            None,
        )
    line = _mended(course, counted, slip, after)
    if line is None:
        return work_again(course, slip)
    decreasing = decreases(after.round.steps)[0] and stitch_names(line.round.steps).isdisjoint(MAKE.values())
    how = (_IN_DECREASE if decreasing else _IN_PLAIN)[slip.stitches > 0]
    if slip.code == "extra_stitch":
        how = f"{_LET_SLIP} {how}"
    return (
        f"Leave it until {line_named(course, line)}. {how}: {line.round.text}. That leaves "
        f"{stitches(line.round.after)}, as it should. If you have found the place, do it there. {LAST_RESORT}"
    ), line


_PICK_UP: Final = (
    "Catch the loop with a crochet hook, draw one strand of the ladder after the other through it up to the needle, "
    "and put it back: the count is right again."
)
_LET_SLIP: Final = (
    "If it is only a loop over the needle, let it slip off when you come to it, work the line as it is written, and "
    "its yarn eases into the stitches beside it. If it has been worked already, do this."
)
LAST_RESORT: Final = "Taking back the work to the place is the last resort."
_IN_PLAIN: Final = (
    "Make each stitch that is missing out of the strand between two stitches",
    "Work each stitch that is too many together with its neighbour",
)
_IN_DECREASE: Final = (
    "It decreases anyway: leave out a decrease for each stitch that is missing",
    "It decreases anyway: take in one stitch more for each that is too many",
)


def _mended(course: Course, counted: Counted, slip: Slip, after: Line) -> Line | None:
    """The next line with the repair in it, or None where it cannot be made there."""
    stage = course.stages[slip.stage]
    if not 0 < abs(slip.stitches) <= min(MOST_OFF, stage.after // 2):
        return None
    off = off_on_needles(stage, counted) if course.needles_known else None
    if off is not None and min(off) < 0 < max(off):
        off = None
    shaped = course.shaped(slip.stage)
    places = () if shaped is None else decrease_places(course.stages[shaped].lines[0].steps)
    line = mended(
        after.round,
        slip.stitches,
        choices(stage.after, off or (slip.stitches,), stage.needles if off else None, places),
        counted.needles if off else None,
        flat=course.word == "row",
    )
    return Line(after.part, line) if line else None


def work_again(course: Course, slip: Slip) -> tuple[str, Line | None]:
    """Back to before it happened."""
    shaped = course.shaped(slip.stage)
    line = course.first_line(slip.stage if shaped is None else shaped)
    if line is None:
        return "Count again. If it is so, cast on anew.", None
    return (
        f"So many cannot be put right in one round. Count again; if it is so, take the work back until "
        f"{stitches(line.round.before)} are on the needles, and work {line_named(course, line)} again: "
        f"{line.round.text}."
    ), line
