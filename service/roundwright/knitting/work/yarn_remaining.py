"""Yarn that is left: how long it is, whether it will do, and after how many rounds it runs out."""

from math import floor
from typing import Annotated, Final, Literal, NamedTuple

from msgspec import Meta, Struct

from roundwright.knitting.answers import COMMON_PRACTICE, RULES, Basis, Impossible, Notice, RulesVersion
from roundwright.knitting.crown.finish import TAIL_MM
from roundwright.knitting.quantities import Length, Mass, UnitSystem, g, mm
from roundwright.knitting.work.yarn_estimate import MOST_WORKED, WorkAsked, fabric_of, for_everyone, works
from roundwright.knitting.yarn.fabric import Fabric
from roundwright.knitting.yarn.label import Strand, YarnAmount, strand
from roundwright.knitting.yarn.per_stitch import (
    ONE_GRAM,
    RIB_EXTRA,
    Measure,
    Rate,
    Span,
    Stretch,
    YarnSpan,
    by_length,
    by_mass,
    used,
    work_basis,
)
from roundwright.knitting.yarn.purchase import HatWork

MOST_STRANDS_COUNTED: Final = 10_000
"""Strands across a hank: nobody counts more."""
MOST_FULL_BALLS: Final = 10_000
"""Full balls left: a shop's stock of one colour."""

LEFT_BASIS: Final = Basis(
    "Left by mass: a reading is at most half a step of the scale off. On a hank: circumference × strands. Enough: the "
    "least that may be left covers the highest estimate and a tail of 8 in; not enough: the most that may be left does "
    "not cover the lowest; in between it is too close to tell.",
    COMMON_PRACTICE,
)

Verdict = Literal["enough", "not_enough", "too_close"]


class Hank(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Yarn wound around something, and its strands counted."""

    circumference: Annotated[Length, Meta(description="Once around the hank.")]
    strands: Annotated[
        int, Meta(ge=1, le=MOST_STRANDS_COUNTED, description="Strands counted across the hank.")
    ]


class LeftYarn(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Yarn that is left; all that is given is added up."""

    mass: Annotated[Mass | None, Meta(description="Mass of it, on the scales.")] = None
    scale: Annotated[
        Mass, Meta(description="Smallest step the scale shows, 1 g on most kitchen scales. Default 1 g.")
    ] = ONE_GRAM
    hank: Annotated[Hank | None, Meta(description="Length of it, as a hank.")] = None
    balls: Annotated[int, Meta(ge=0, le=MOST_FULL_BALLS, description="Full balls beside it.")] = 0


class RemainingRequest(WorkAsked, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Yarn that is left, and the work it is meant for: at most one of stitches, rounds and hat."""

    left: Annotated[LeftYarn, Meta(description="What is left.")]
    rounds_worked: Annotated[
        int, Meta(ge=0, le=MOST_WORKED, description="Rounds of the work that are worked already.")
    ] = 0


class Reach(Struct, frozen=True, kw_only=True):
    """How far the yarn goes, in whole rounds or stitches, never more than there are to work."""

    low: Annotated[int, Meta(description="It will hardly run out before.")]
    expected: Annotated[int, Meta(description="It should last so far.")]
    high: Annotated[int, Meta(description="It will hardly last longer.")]
    of: Annotated[int, Meta(description="How many there are to work.")]


class SizeRemaining(Struct, frozen=True, kw_only=True):
    """Whether what is left makes one hat of one size."""

    label: Annotated[str, Meta(description="Name of the size.")]
    used: Annotated[YarnSpan, Meta(description="Yarn that one hat still takes.")]
    verdict: Annotated[Verdict, Meta(description="Whether what is left will do for it.")]
    rounds: Annotated[Reach, Meta(description="Rounds after which it runs out.")]


class RemainingAnswer(Struct, frozen=True, kw_only=True):
    """What is left, and whether it will do."""

    left: Annotated[YarnSpan, Meta(description="What is left.")]
    used: Annotated[
        YarnSpan | None, Meta(description="What all the work still takes; null when none was asked about.")
    ] = None
    verdict: Annotated[
        Verdict | None, Meta(description="Whether what is left will do; null when no work was asked about.")
    ] = None
    missing: Annotated[
        YarnAmount | None, Meta(description="What more would surely do; null when there is enough.")
    ] = None
    stitches: Annotated[
        Reach | None, Meta(description="Stitches after which it runs out; null when no work was asked about.")
    ] = None
    rounds: Annotated[
        Reach | None,
        Meta(description="Rounds after which it runs out; null without rounds, and for more than one hat."),
    ] = None
    sizes: Annotated[
        tuple[SizeRemaining, ...],
        Meta(description="One hat of each size, from all that is left, when a hat was asked about."),
    ] = ()
    message: Annotated[str, Meta(description="The same in a sentence for the knitter.")]
    basis: Annotated[tuple[Basis, ...], Meta(description="What the answer rests on.")]
    warnings: Annotated[tuple[Notice, ...], Meta(description="What to mind.")] = ()
    rules: RulesVersion = RULES


def remaining(request: RemainingRequest) -> RemainingAnswer:
    """What is left as length and mass, and whether it will do for the work, if any is asked about.

    Raises `Impossible` for nothing left, for a mass or a length that cannot be compared with the work before the yarn
    is known, and for work that cannot be knitted or is done already.
    """
    if request.stitches is not None and request.rounds_worked:
        raise Impossible(
            "Stitches alone tell nothing of rounds.",
            pointer="#/rounds_worked",
            nearest="the number of stitches still to work, and no rounds",
        )
    hats = tuple(_still_to_work(hat, request.rounds_worked) for hat in works(request))
    if not hats:
        return _only_left(request)
    by = fabric_of(request)
    have = _left(request.left, by.strand, by.rate.measure)
    need = used(for_everyone(hats), by.rate)
    verdict = _verdict(have, need, by)
    amounts = by.rate.measure.amounts(have, request.units)
    everything = _reach(for_everyone(hats), have, by.rate)
    one = len(hats) == 1 and hats[0].makers == 1 and request.stitches is None
    rounds = everything.rounds if one else None
    return RemainingAnswer(
        left=amounts,
        used=by.rate.measure.amounts(need, request.units),
        verdict=verdict,
        missing=None if verdict == "enough" else _missing(have, need, by, request.units),
        stitches=everything.stitches,
        rounds=rounds,
        sizes=_sizes(hats, have, by, request.units) if request.hat else (),
        message=_message(verdict, rounds, everything.stitches),
        basis=(LEFT_BASIS, *by.basis, *work_basis(for_everyone(hats))),
        warnings=by.warnings,
    )


def _only_left(request: RemainingRequest) -> RemainingAnswer:
    """The answer where no work is asked about."""
    if request.rounds_worked:
        raise Impossible(
            "Rounds are worked already, but nothing says of what.",
            pointer="#/rounds_worked",
            nearest="the rounds of the work, or a hat",
        )
    yarn = strand(request.yarn)
    weighed = yarn.tex is None and request.left.mass is not None
    measure = by_mass(yarn) if weighed else by_length(yarn)
    left = measure.amounts(_left(request.left, yarn, measure), request.units)
    return RemainingAnswer(left=left, message=f"{_say(left.expected)} left.", basis=(LEFT_BASIS,))


def _left(left: LeftYarn, yarn: Strand, measure: Measure) -> Span:
    """What is left, in this measure."""
    low = expected = high = 0.0
    if left.mass is not None:
        in_g = _known(measure.in_g, "mass", "a mass tells no length before the yarn is known")
        low += max(0.0, g(left.mass) - g(left.scale) / 2) / in_g
        expected += g(left.mass) / in_g
        high += (g(left.mass) + g(left.scale) / 2) / in_g
    exact = 0.0
    if left.hank is not None:
        in_mm = _known(measure.in_mm, "hank", "a length tells no mass before the yarn is known")
        exact += mm(left.hank.circumference) * left.hank.strands / in_mm
    if left.balls:
        one = _known(measure.balls(1.0, yarn), "balls", "nothing says what a full ball holds")
        exact += left.balls / one
    if not expected + exact:
        raise Impossible("Nothing is left.", pointer="#/left", nearest="a mass, a hank or a full ball")
    return Span(low + exact, expected + exact, high + exact)


def _known(value: float | None, field: str, why: str) -> float:
    if value is None:
        raise Impossible(
            f"This cannot be told: {why}.",
            pointer=f"#/left/{field}",
            nearest="the length and mass of a ball under `yarn`",
        )
    return value


def _still_to_work(hat: HatWork, rounds_worked: int) -> HatWork:
    """The work without the rounds that are done."""
    if not rounds_worked:
        return hat
    total = _rounds(hat.work)
    if rounds_worked >= total:
        raise Impossible(
            f"The work has {total} rounds: after {rounds_worked} nothing is left to knit.",
            pointer="#/rounds_worked",
            nearest=f"{total - 1} rounds",
        )
    left: list[Stretch] = []
    for each in hat.work:
        if each.part == "cast_on":
            continue
        done = min(each.rounds, rounds_worked)
        rounds_worked -= done
        if done < each.rounds:
            left.append(each._replace(rounds=each.rounds - done))
    return hat._replace(work=tuple(left))


def _rounds(work: tuple[Stretch, ...]) -> int:
    return sum(each.rounds for each in work if each.part != "cast_on")


def _tail(by: Fabric) -> float:
    """The tail to fasten off with, every strand of it, in the fabric's measure; nothing where it has no length."""
    in_mm = by.rate.measure.in_mm
    return 0.0 if in_mm is None else by.strand.held * TAIL_MM[1] / in_mm


def _verdict(have: Span, need: Span, by: Fabric) -> Verdict:
    if have.low >= need.high + _tail(by):
        return "enough"
    return "not_enough" if have.high < need.low else "too_close"


def _missing(have: Span, need: Span, by: Fabric, units: UnitSystem) -> YarnAmount:
    return by.rate.measure.amount(max(0.0, need.high + _tail(by) - have.low), units)


class _Reaches(NamedTuple):
    rounds: Reach
    stitches: Reach


def _reach(work: tuple[Stretch, ...], have: Span, rate: Rate) -> _Reaches:
    """After how many rounds and stitches the yarn runs out: the least left at the highest rate, and so on."""
    worst = _lasts(work, have.low, rate.span.high, RIB_EXTRA)
    likely = _lasts(work, have.expected, rate.span.expected, 1.0)
    best = _lasts(work, have.high, rate.span.low, 1.0)
    return _Reaches(
        Reach(low=worst[0], expected=likely[0], high=best[0], of=_rounds(work)),
        Reach(
            low=worst[1],
            expected=likely[1],
            high=best[1],
            of=sum(each.stitches * each.rounds for each in work),
        ),
    )


def _lasts(work: tuple[Stretch, ...], have: float, per_stitch: float, rib: float) -> tuple[int, int]:
    """Whole rounds and stitches that so much yarn makes, in working order."""
    rounds = stitches = 0
    for each in work:
        one = per_stitch * (rib if each.ribbed else 1.0)
        # A hair is forgiven, so that yarn for exactly ten rounds makes ten.
        makes = min(each.stitches * each.rounds, max(0, floor(have / one + 1e-9)))
        stitches += makes
        have -= makes * one
        full = makes // each.stitches if each.stitches else each.rounds
        if each.part != "cast_on":
            rounds += full
        if full < each.rounds:
            break
    return rounds, stitches


def _sizes(hats: tuple[HatWork, ...], have: Span, by: Fabric, units: UnitSystem) -> tuple[SizeRemaining, ...]:
    sizes = []
    for hat in hats:
        need = used(hat.work, by.rate)
        sizes.append(
            SizeRemaining(
                label=hat.label,
                used=by.rate.measure.amounts(need, units),
                verdict=_verdict(have, need, by),
                rounds=_reach(hat.work, have, by.rate).rounds,
            )
        )
    return tuple(sizes)


def _message(verdict: Verdict, rounds: Reach | None, stitches: Reach) -> str:
    reach, what = (stitches, "stitches") if rounds is None else (rounds, "rounds")
    if verdict == "enough":
        return f"Enough for all {reach.of} {what} and the tail."
    runs_out = f"after about {reach.expected} of the {reach.of} {what} to work ({reach.low} to {reach.high})"
    if verdict == "not_enough":
        return f"Not enough: it runs out {runs_out}."
    return f"Too close to tell: it may do, or run out {runs_out}."


def _say(amount: YarnAmount) -> str:
    said = [f"{each.value:,.1f} {each.unit}" for each in (amount.length, amount.mass) if each is not None]
    return ", ".join(said)
