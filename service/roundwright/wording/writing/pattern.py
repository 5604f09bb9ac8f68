"""The written pattern of a hat, all sizes together: its sections in the order patterns have them.

`wording.proofreading.read` reads what is written here back to the same rounds.
"""

from collections.abc import Iterable, Sequence
from typing import Final, NamedTuple

from roundwright import reference
from roundwright.knitting.answers import Caution, Notice
from roundwright.knitting.gauge.convert import class_text
from roundwright.knitting.hat.notices import ABOUT_THE_REQUEST
from roundwright.knitting.hat.plan import HatMeasurements, HatPlan
from roundwright.knitting.hat.request import HatRequest
from roundwright.knitting.needles.holds import holders
from roundwright.knitting.quantities import Gauge, Length, UnitSystem, mm
from roundwright.knitting.rounds.round import Round, stitch_names
from roundwright.wording.writing.colours import body_colours, brim_colours, colour_amounts, colour_note
from roundwright.wording.writing.needles import lines_of_sizes, needle_lines, start_lines
from roundwright.wording.writing.printed_quantities import (
    one_line,
    printed_amount,
    printed_lengths,
    printed_quantity,
    whole_lengths,
)
from roundwright.wording.writing.round_lines import (
    Line,
    Wording,
    crown_lines,
    different_rounds,
    holds_of,
    straight_lines,
)
from roundwright.wording.writing.size_lists import size_list


class Section(NamedTuple):
    """A section of a pattern, under its heading."""

    heading: str
    lines: tuple[Line, ...]


def pattern(
    request: HatRequest,
    plans: tuple[HatPlan, ...],
    cautions: tuple[Caution, ...],
    warnings: tuple[Notice, ...],
) -> str:
    """The pattern as plain text."""
    return pattern_text(request.name, sections(request, plans, cautions, warnings))


def pattern_text(name: str, sections: Iterable[Section]) -> str:
    """Sections as plain text, an empty line between two of them."""
    blocks = [
        "\n".join([section.heading.upper(), *(line.text for line in section.lines)]) for section in sections
    ]
    return "\n\n".join([one_line(name), *blocks]) + "\n"


def sections(
    request: HatRequest,
    plans: tuple[HatPlan, ...],
    cautions: tuple[Caution, ...],
    warnings: tuple[Notice, ...],
) -> tuple[Section, ...]:
    """The sections of a pattern; one that would be empty is left out."""
    wording = Wording(request)
    lines_by_heading: dict[str, Iterable[str | Line]] = {
        "Sizes": _sizes(plans),
        "Finished measurements": _measurements(plans),
        "Materials": _materials(request, plans, wording),
        wording.gauge.capitalize(): _gauge(request, wording),
        "Stitches": _how_to(request, plans),
        "Abbreviations": _abbreviations(request, plans),
        "Notes": [*_notes(request, plans), *colour_note(request)],
        "Before you begin": _warnings(warnings, wording),
        "Cast on": _cast_on(request, plans, wording),
        "Brim": _brim(request, plans, wording),
        "Body": _body(request, plans, wording),
        "Crown": crown_lines(plans, wording),
        "Finishing": _finishing(request, plans, wording),
        "Cautions": _cautions(cautions),
    }
    written = (
        Section(heading, tuple(line if isinstance(line, Line) else Line(line) for line in lines))
        for heading, lines in lines_by_heading.items()
    )
    return tuple(section for section in written if section.lines)


def _warnings(warnings: Sequence[Notice], wording: Wording) -> Iterable[str]:
    """What the knitter should know of this hat before the first stitch, a line each."""
    messages = (notice.message for notice in warnings if notice.code not in ABOUT_THE_REQUEST)
    return [wording.in_terms(one_line(message)) for message in dict.fromkeys(messages)]


def _cautions(cautions: Sequence[Caution]) -> list[str]:
    """One paragraph, and below it where it comes from."""
    if not cautions:
        return []
    short = {row.code: row.short for row in reference.cautions()}
    sources = dict.fromkeys(short[caution.code] for caution in cautions)
    return [
        " ".join([caution.message for caution in cautions]),
        f"Sources: {'; '.join(sources)}.",
    ]


def _sizes(plans: Sequence[HatPlan]) -> list[str]:
    if len(plans) == 1:
        return [one_line(plans[0].label)]
    return [
        ", ".join(f"{number}. {one_line(plan.label)}" for number, plan in enumerate(plans, start=1)),
        "Numbers are given in this order, the first before the bracket; one number is for all.",
    ]


def _measurements(plans: Sequence[HatPlan]) -> list[str]:
    measurements = [plan.measurements for plan in plans]
    return [
        f"To fit a head of {printed_lengths(size.head for size in measurements)}",
        f"Circumference: {_circumference(measurements)}, unstretched",
        f"Depth, edge to top: {printed_lengths(size.depth for size in measurements)}",
    ]


def _circumference(measurements: Sequence[HatMeasurements]) -> str:
    """The circumference, that of brim and body apart where a size has two."""
    brim = printed_lengths(size.circumference for size in measurements)
    body = printed_lengths(size.body_circumference for size in measurements)
    return brim if brim == body else f"brim {brim}, body {body}"


def _materials(request: HatRequest, plans: Sequence[HatPlan], wording: Wording) -> list[str]:
    return [
        _yarn(request, plans),
        *colour_amounts(plans),
        *needle_lines(request, plans, wording.gauge),
        "A stitch marker, a blunt sewing needle, scissors, a tape measure",
    ]


def _yarn(request: HatRequest, plans: Sequence[HatPlan]) -> str:
    ball = request.yarn
    yarn = one_line(ball.name) if ball and ball.name else "Yarn"
    weights = " or ".join(map(class_text, plans[0].yarn.yarn_weights))
    if weights:
        yarn += f", {weights} weight"
    if ball and ball.held > 1:
        yarn += f", with {_STRANDS.get(ball.held, str(ball.held))} strands held together throughout"
    if ball and ball.mass and ball.length:
        yarn += f", {printed_quantity(ball.mass)} / {printed_quantity(ball.length)} a ball"
    used = [plan.yarn.used.expected for plan in plans]
    lengths = [amount.length for amount in used if amount.length]
    unit = lengths[0].unit if lengths else ""
    hat = f"a hat uses about {size_list(printed_amount(length.value) for length in lengths)} {unit}"
    masses = [amount.mass for amount in used if amount.mass]
    if len(masses) == len(plans):
        hat += f" or {size_list(printed_amount(mass.value) for mass in masses)} {masses[0].unit}"
    balls = [plan.yarn.to_buy.balls for plan in plans]
    if all(balls):
        count = size_list(balls)
        return f"{yarn}: {count} ball{'' if count == '1' else 's'}; {hat}"
    return f"{yarn}: {hat}"


_STRANDS: Final = {2: "two", 3: "three", 4: "four"}


def _gauge(request: HatRequest, wording: Wording) -> list[str]:
    parts = (("the brim", request.brim.gauge), ("the body", request.body.gauge))
    units = request.units
    return [
        f"{_counted(request.gauge, units)} of {wording.stockinette}, worked in the round and washed",
        *(f"{_counted(gauge, units)} of {part}" for part, gauge in parts if gauge is not None),
    ]


def _counted(gauge: Gauge, units: UnitSystem) -> str:
    """A gauge as it was counted; in 4 in or 10 cm where it was counted over a length of the other units."""
    over, is_imperial = gauge.over, units == "imperial"
    if (over.unit in ("in", "yd")) != is_imperial:
        over = Length(4, "in") if is_imperial else Length(10, "cm")
    scale = mm(over) / mm(gauge.over)
    rows = f" and {_tenths(gauge.rows * scale)} rounds" if gauge.rows else ""
    return f"{_tenths(gauge.stitches * scale)} stitches{rows} in {printed_quantity(over)}"


def _tenths(count: float) -> str:
    """A count of a gauge to a tenth, as finely as a swatch is counted."""
    return f"{round(count, 1):g}"


def _how_to(request: HatRequest, plans: Sequence[HatPlan]) -> list[str]:
    """How a beginner works the stitches that are used."""
    if request.wording != "beginner":
        return []
    used = {name for round in _rounds(plans) for name in stitch_names(round.steps)}
    rows = reference.stitches().items()
    wording = Wording(request)
    return [wording.in_terms(f"{row.words.capitalize()}: {row.how}") for name, row in rows if name in used]


def _rounds(plans: Sequence[HatPlan]) -> list[Round]:
    """The rounds of all sizes, those that are worked again once."""
    return [
        round
        for plan in plans
        for round in (*different_rounds(plan.brim), *different_rounds(plan.body), *plan.crown.rounds)
    ]


def _abbreviations(request: HatRequest, plans: Sequence[HatPlan]) -> list[str]:
    """The abbreviations used, and only those."""
    if request.wording == "beginner":
        return []
    rounds = _rounds(plans)
    used = {name for round in rounds for name in stitch_names(round.steps)}
    stitches = [f"{name}: {row.words}" for name, row in reference.stitches().items() if name in used]
    repeats = ["rep: repeat"] if any("rep from" in round.text for round in rounds) else []
    listed = "; ".join([*stitches, *repeats, "rnd(s): round(s)", "st(s): stitch(es)"])
    return [Wording(request).in_terms(listed)]


def _notes(request: HatRequest, plans: Sequence[HatPlan]) -> list[str]:
    lines = [
        "Count after every round that changes the count, and compare with the number at the end of its line.",
        f"Measure {_MEASURED.get(request.brim.edge, 'flat')}; the needle does not count.",
    ]
    if any(round.moves for plan in plans for round in plan.crown.rounds):
        names = dict.fromkeys(map(holders, holds_of(plans)))
        lines.append(
            f"Where a decrease would lie on two {' or '.join(names)}, the stitches at the end of the first are slid to "
            "the next before the round, and the decrease is worked there."
        )
    return lines


_MEASURED: Final = {"rolled": "with the brim uncurled", "folded": "with the brim unfolded"}


def _cast_on(request: HatRequest, plans: Sequence[HatPlan], wording: Wording) -> list[str]:
    counts = size_list(plan.cast_on.stitches for plan in plans)
    tails = whole_lengths(plan.cast_on.tail.length for plan in plans)
    lines = [
        *(["Cast on and work the brim with the smaller needles."] if request.brim.smaller_needle else []),
        f"Cast on {counts} {'stitches' if wording.beginner else 'sts'}.",
        f"For a long-tail cast-on leave a tail of about {tails}.",
    ]
    return [*lines, *start_lines(plans)]


def _brim(request: HatRequest, plans: Sequence[HatPlan], wording: Wording) -> Iterable[str | Line]:
    if wording.beginner and request.colours is not None:
        yield f"Work the brim {brim_colours(request.colours)}."
    yield from straight_lines([plan.brim for plan in plans], wording, holds_of(plans))
    if request.brim.edge == "rolled":
        yield "Left to itself this edge rolls up."
    if request.brim.edge == "folded":
        yield "Half of it is turned up when the hat is done."


def _body(request: HatRequest, plans: Sequence[HatPlan], wording: Wording) -> Iterable[str | Line]:
    if request.brim.smaller_needle:
        yield "Change to the larger needles."
    if wording.beginner and request.colours is not None:
        yield f"Work the body {body_colours(request.colours)}."
    yield from straight_lines([plan.body for plan in plans], wording, holds_of(plans))
    length = printed_lengths(plan.measurements.edge_to_crown for plan in plans)
    yield f"The work now measures {length} from the cast-on edge."


def _finishing(request: HatRequest, plans: Sequence[HatPlan], wording: Wording) -> list[str]:
    texts = [plan.crown.finish.text for plan in plans]
    if wording.beginner:
        texts = [text.replace(" sts ", " stitches ").replace("rep from *", "repeat from *") for text in texts]
    ends = "Weave in the ends on the inside. Wash, and dry flat."
    if request.brim.edge == "folded":
        ends = (
            "Turn half of the brim up. Weave in the end of the cast-on on the side that the fold hides, the others on "
            "the inside. Wash, and dry flat."
        )
    return [*lines_of_sizes(texts), ends]
