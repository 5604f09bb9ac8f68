"""The written pattern of a hat, all sizes together: its sections in the order patterns have them.

`wording.proofreading.read` reads what is written here back to the same rounds.
"""

from collections.abc import Iterable, Iterator, Sequence
from typing import Final, NamedTuple

from roundwright import reference
from roundwright.knitting.answers import COMMON_PRACTICE, Caution, Notice
from roundwright.knitting.gauge.convert import YarnWeight, class_text
from roundwright.knitting.hat.fabric import hidden_mm
from roundwright.knitting.hat.notices import ABOUT_THE_REQUEST, NOT_PRINTED
from roundwright.knitting.hat.plan import HatPlan
from roundwright.knitting.hat.request import UNNAMED, HatRequest
from roundwright.knitting.hat.worked_size import HatMeasurements
from roundwright.knitting.needles.holds import holders
from roundwright.knitting.quantities import Gauge, Length, UnitSystem, length, mm, range_text, system_of
from roundwright.knitting.rounds.round import Round, stitch_names
from roundwright.knitting.yarn.estimate import swatch_side
from roundwright.knitting.yarn.label import Yarn, strand_of
from roundwright.knitting.yarn.weight_class import weight_classes_together
from roundwright.language import Words, words_of
from roundwright.wording.writing.colours import body_colours, brim_colours, colour_amounts, colour_note
from roundwright.wording.writing.needles import needle_lines, of_sizes, start_lines
from roundwright.wording.writing.printed_quantities import (
    chained,
    one_line,
    printed_amounts,
    printed_lengths,
    printed_quantity,
    printed_range,
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
from roundwright.wording.writing.size_lists import SharedLine, counted, shared_lines


class Section(NamedTuple):
    """A section of a pattern, under its heading; `name` is the same in every language."""

    name: str
    heading: str
    lines: tuple[Line, ...]


def pattern(
    request: HatRequest,
    plans: tuple[HatPlan, ...],
    cautions: tuple[Caution, ...],
    warnings: tuple[Notice, ...],
) -> str:
    """The pattern as plain text."""
    return pattern_text(hat_name(request), sections(request, plans, cautions, warnings))


def hat_name(request: HatRequest) -> str:
    """The name of the pattern; where the request has none, that of any hat, in the words of its language."""
    name = one_line(request.name)
    return name if name and name != UNNAMED else words_of(request.language).say("handout.name")


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
    words = wording.words
    lines_by_name: dict[str, Iterable[str | Line]] = {
        "sizes": _sizes(plans, words),
        "measurements": _measurements(request, plans, words),
        "materials": _materials(request, plans, words),
        "gauge": _gauge(request, words),
        "abbreviations": _abbreviations(plans, wording),
        "notes": [*_notes(request, plans, words), *colour_note(request, words)],
        "warnings": warning_lines(_for_the_knitter(warnings), wording),
        "cast_on": _cast_on(request, plans, wording),
        "brim": _brim(request, plans, wording),
        "body": _body(request, plans, wording),
        "crown": crown_lines(plans, wording),
        "finishing": _finishing(request, plans, wording),
        "cautions": _cautions(cautions, words),
    }
    written = (  # in working order: the lines of a section are made when the section is
        Section(
            name,
            words.say(f"heading.{name}"),
            tuple(line if isinstance(line, Line) else Line(line) for line in lines),
        )
        for name, lines in lines_by_name.items()
    )
    return tuple(section for section in written if section.lines)


def warning_lines(warnings: Iterable[Notice], wording: Wording) -> tuple[str, ...]:
    """Warnings in the words of the pattern, a line each."""
    messages = dict.fromkeys(notice.message for notice in warnings)
    return tuple(wording.in_terms(one_line(wording.words.render(message))) for message in messages)


def _for_the_knitter(warnings: Iterable[Notice]) -> Iterator[Notice]:
    """What the knitter should know of this hat before the first stitch."""
    return (notice for notice in warnings if notice.code not in ABOUT_THE_REQUEST | NOT_PRINTED)


def _cautions(cautions: Sequence[Caution], words: Words) -> list[str]:
    """One paragraph, and below it where it comes from."""
    if not cautions:
        return []
    short = {row.code: row.short for row in reference.cautions()}
    sources = dict.fromkeys(short[caution.code] for caution in cautions)
    return [
        " ".join([words.render(caution.message) for caution in cautions]),
        words.say(
            "pattern.sources",
            sources=words.say("list.semicolon").join(_source(text, words) for text in sources),
        ),
    ]


def _source(text: str, words: Words) -> str:
    return words.render(COMMON_PRACTICE) if text == COMMON_PRACTICE else text


def _sizes(plans: Sequence[HatPlan], words: Words) -> list[str]:
    labels = [one_line(words.render(plan.label)) for plan in plans]
    if len(labels) == 1:
        return labels
    return [
        ", ".join(f"{number}. {label}" for number, label in enumerate(labels, start=1)),
        words.say("pattern.order_of_sizes"),
    ]


def _measurements(request: HatRequest, plans: Sequence[HatPlan], words: Words) -> list[str]:
    measurements = [plan.measurements for plan in plans]
    return [
        words.say("pattern.head", lengths=printed_lengths([size.head for size in measurements], words)),
        words.say("pattern.circumference", lengths=_circumference(measurements, words)),
        _depth(request, plans, words),
    ]


def _depth(request: HatRequest, plans: Sequence[HatPlan], words: Words) -> str:
    """The depth as worn; of a brim that rolls or folds also from the cast-on edge, as the work is measured."""
    lengths = printed_lengths([plan.measurements.depth for plan in plans], words)
    if request.brim.edge not in ("rolled", "folded"):
        return words.say("pattern.depth", lengths=lengths)
    worked = [length(mm(plan.measurements.depth) + hidden_mm(plan), request.units) for plan in plans]
    return words.say(
        f"pattern.depth.{request.brim.edge}", lengths=lengths, worked=printed_lengths(worked, words)
    )


def _circumference(measurements: Sequence[HatMeasurements], words: Words) -> str:
    """The circumference, that of brim and body apart where a size has two."""
    brim = printed_lengths([size.circumference for size in measurements], words)
    body = printed_lengths([size.body_circumference for size in measurements], words)
    return brim if brim == body else words.say("pattern.brim_and_body", brim=brim, body=body)


def _materials(request: HatRequest, plans: Sequence[HatPlan], words: Words) -> list[str]:
    return [
        _yarn(request, plans, words),
        *colour_amounts(plans, words),
        *_ends_of_a_ball(request, plans, words),
        *needle_lines(request, plans, words),
        words.say("materials.tools"),
    ]


def _yarn(request: HatRequest, plans: Sequence[HatPlan], words: Words) -> str:
    yarn, use = ", ".join(_yarn_parts(request, plans, words)), _yarn_use(plans, words)
    balls = [plan.yarn.to_buy.balls for plan in plans]
    if all(balls):
        counts = counted("balls", [count for count in balls if count], words)
        return words.say("materials.yarn_balls", yarn=yarn, balls=counts, use=use)
    return words.say("materials.yarn_use", yarn=yarn, use=use)


def _ends_of_a_ball(request: HatRequest, plans: Sequence[HatPlan], words: Words) -> Iterator[str]:
    """How strands held together come from fewer balls, where the balls of a size or a colour do not go round."""
    held = request.yarn.held if request.yarn else 1
    balls = [
        purchase.balls
        for plan in plans
        for purchase in ([colour.to_buy for colour in plan.yarn.colours] or [plan.yarn.to_buy])
    ]
    if any(count and count % held for count in balls):
        yield words.say("materials.ends_of_a_ball")


def _yarn_parts(request: HatRequest, plans: Sequence[HatPlan], words: Words) -> Iterator[str]:
    """What is known of the yarn: its name, its weight, its strands and its ball."""
    ball = request.yarn
    yield one_line(ball.name) if ball and ball.name else words.say("materials.yarn")
    yield from _weight(ball, plans[0].yarn.yarn_weights, words)
    if ball and ball.held > 1:
        held = str(ball.held) if ball.held <= MOST_STRANDS_IN_WORDS else "number"
        yield words.say(f"materials.strands.{held}", count=ball.held)
    if ball and ball.mass and ball.length:
        mass, length = printed_quantity(ball.mass, words), printed_quantity(ball.length, words)
        yield words.say("materials.ball", mass=mass, length=length)


MOST_STRANDS_IN_WORDS: Final = 4


def _weight(ball: Yarn | None, of_strand: Sequence[YarnWeight], words: Words) -> Iterator[str]:
    """The class of the yarn; of strands held together that of one, as on the ball, and that of all."""
    together = weight_classes_together(strand_of(ball)) if ball and ball.held > 1 else ()
    if together:
        weights, all_strands = _classes(of_strand, words), _classes(together, words)
        yield words.say("materials.weight_held", weights=weights, together=all_strands)
    elif of_strand:
        yield words.say("materials.weight", weights=_classes(of_strand, words))


def _classes(weights: Sequence[YarnWeight], words: Words) -> str:
    return chained([words.render(class_text(weight)) for weight in weights], "or", words)


def _yarn_use(plans: Sequence[HatPlan], words: Words) -> str:
    """The yarn of one hat with the margin: the figure that the balls and the table of yarn to buy rest on."""
    amounts = [plan.yarn.to_buy.amount for plan in plans]
    percent = float(plans[0].yarn.to_buy.margin_percent)
    lengths = printed_amounts([amount.length for amount in amounts if amount.length], words)
    side, swatch = swatch_yarn(plans, words)
    masses = [amount.mass for amount in amounts if amount.mass]
    if len(masses) < len(plans):
        return words.say("materials.uses", length=lengths, percent=percent, side=side, swatch=swatch)
    mass = printed_amounts(masses, words)
    return words.say(
        "materials.uses_mass", length=lengths, mass=mass, percent=percent, side=side, swatch=swatch
    )


def swatch_yarn(plans: Sequence[HatPlan], words: Words) -> tuple[str, str]:
    """The side of a swatch and the length of the yarn in it, which the yarn of a hat is without."""
    swatch = plans[0].yarn.swatch
    length = swatch.length if swatch else None
    units: UnitSystem = "imperial" if length and length.unit == "yd" else "metric"
    return printed_quantity(swatch_side(units), words), printed_amounts([length], words)


def _gauge(request: HatRequest, words: Words) -> list[str]:
    parts = (("brim", request.brim.gauge), ("body", request.body.gauge))
    units = request.units
    return [
        words.say("pattern.gauge", gauge=_counted(request.gauge, units, words)),
        *(
            words.say(f"pattern.gauge_of.{part}", gauge=_counted(gauge, units, words))
            for part, gauge in parts
            if gauge is not None
        ),
    ]


def _counted(gauge: Gauge, units: UnitSystem, words: Words) -> str:
    """A gauge as it was counted; in 4 in or 10 cm where it was counted over a length of the other units."""
    over = gauge.over
    if system_of(over.unit) != units:
        over = Length(4, "in") if units == "imperial" else Length(10, "cm")
    scale = mm(over) / mm(gauge.over)
    stitches, length = _tenths(gauge.stitches * scale, words), printed_quantity(over, words)
    if not gauge.rows:
        return words.say("pattern.stitches_in", stitches=stitches, length=length)
    rounds = _tenths(gauge.rows * scale, words)
    return words.say("pattern.stitches_and_rounds_in", stitches=stitches, rounds=rounds, length=length)


def _tenths(count: float, words: Words) -> str:
    """A count of a gauge to a tenth, as finely as a swatch is counted."""
    return words.number(round(count, 1))


def _rounds(plans: Sequence[HatPlan]) -> list[Round]:
    """The rounds of all sizes, those that are worked again once."""
    return [
        round
        for plan in plans
        for round in (*different_rounds(plan.brim), *different_rounds(plan.body), *plan.crown.rounds)
    ]


def _abbreviations(plans: Sequence[HatPlan], wording: Wording) -> list[str]:
    """The abbreviations used, and only those."""
    if wording.beginner:
        return []
    words, rounds = wording.words, _rounds(plans)
    used = {name for round in rounds for name in stitch_names(round.steps)}
    stitches = [words.abbreviation(name) for name in reference.stitches() if name in used]
    starred = any("rep from" in round.text for round in rounds)  # as a `str` the text is English
    repeats = [words.say("abbreviation.rep")] if starred else []
    texts = [*stitches, *repeats, words.say("abbreviation.rnd"), words.say("abbreviation.st")]
    return [wording.in_terms(words.say("list.semicolon").join(text for text in texts if text.strip()))]


def _notes(request: HatRequest, plans: Sequence[HatPlan], words: Words) -> list[str]:
    edge = request.brim.edge
    measured = edge if edge in ("rolled", "folded") else "flat"
    lines = [words.say("pattern.count"), words.say(f"pattern.measure.{measured}")]
    if any(round.moves for plan in plans for round in plan.crown.rounds):
        names = dict.fromkeys([words.render(holders(hold)) for hold in holds_of(plans)])
        lines.append(words.say("pattern.decrease_on_two", holders=chained(names, "or", words)))
    return lines


def _cast_on(request: HatRequest, plans: Sequence[HatPlan], wording: Wording) -> list[str]:
    words = wording.words
    stitches = wording.stitches([plan.cast_on.stitches for plan in plans])
    tails = whole_lengths([plan.cast_on.tail.length for plan in plans], words)
    return [
        *([words.say("pattern.smaller_needles")] if request.brim.smaller_needle else []),
        words.say("pattern.cast_on", stitches=stitches),
        words.say(
            "pattern.tail_held" if request.yarn and request.yarn.held > 1 else "pattern.tail", lengths=tails
        ),
        *start_lines(plans, words),
    ]


def _brim(request: HatRequest, plans: Sequence[HatPlan], wording: Wording) -> Iterable[str | Line]:
    if wording.beginner and request.colours is not None:
        colours = brim_colours(request.colours, wording.words)
        yield wording.words.say("pattern.brim_colours", colours=colours)
    yield from straight_lines([plan.brim for plan in plans], wording, holds_of(plans))
    if request.brim.edge == "rolled":
        yield wording.words.say("pattern.rolls_up")
    if request.brim.edge == "folded":
        yield wording.words.say("pattern.turned_up")


def _body(request: HatRequest, plans: Sequence[HatPlan], wording: Wording) -> Iterable[str | Line]:
    words = wording.words
    if request.brim.smaller_needle:
        yield words.say("pattern.larger_needles")
    if wording.beginner and request.colours is not None:
        yield words.say("pattern.body_colours", colours=body_colours(request.colours, words))
    yield from straight_lines([plan.body for plan in plans], wording, holds_of(plans))
    lengths = printed_lengths([plan.measurements.edge_to_crown for plan in plans], words)
    yield words.say("pattern.measures", lengths=lengths)


def _finishing(request: HatRequest, plans: Sequence[HatPlan], wording: Wording) -> list[str]:
    words = wording.words
    finishes = [plan.crown.finish for plan in plans]
    tails = [(finish.tail_shortest, finish.tail_longest) for finish in finishes]
    texts = [
        words.render(finish.text).replace(words.render(range_text(*tail)), TAIL)
        for finish, tail in zip(finishes, tails, strict=True)
    ]
    if wording.beginner and words.is_english:
        texts = [text.replace(" sts ", " stitches ").replace("rep from *", "repeat from *") for text in texts]
    ends = words.say("pattern.ends_folded" if request.brim.edge == "folded" else "pattern.ends")

    def longest(sizes: Iterable[int]) -> tuple[Length, Length]:
        """The tail of the size that needs the longest, which does for all: a range for each is read by nobody."""
        return max((tails[size] for size in sizes), key=lambda tail: (tail[1].value, tail[0].value))

    lines = [
        SharedLine(sizes, text.replace(TAIL, printed_range(*longest(sizes), words)))
        for sizes, text in shared_lines(texts, words)
    ]
    return [*(of_sizes(line, len(plans), words) for line in lines), ends]


TAIL: Final = "{tail}"
"""What stands for the tails, which are of each size, while its other words are compared."""
