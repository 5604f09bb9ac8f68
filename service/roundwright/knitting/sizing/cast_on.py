"""Cast-on: the stitches to cast on for a head, with the ease of the hat and the tail to leave.

Circumference of the hat = head x (1 + ease); stitches = circumference / width of a stitch, to the nearest
multiple.
"""

from collections.abc import Iterator, Sequence
from functools import lru_cache
from math import pi
from typing import Annotated, Final

from msgspec import Meta, Struct
from msgspec.structs import replace

from roundwright import reference
from roundwright.knitting.answers import (
    COMMON_PRACTICE,
    RULES,
    Basis,
    Caution,
    Impossible,
    Notice,
    RulesVersion,
    only_one,
)
from roundwright.knitting.gauge.convert import unusual_gauge
from roundwright.knitting.quantities import (
    THICKEST_NEEDLE_MM,
    THINNEST_NEEDLE_MM,
    Difference,
    Gauge,
    Length,
    UnitSystem,
    difference,
    length,
    mm,
    quantity_text,
    stitch_width_mm,
    system_of,
    tidy,
)
from roundwright.knitting.rounds.round import Multiple, nearest_count
from roundwright.knitting.sizing.head_references import (
    INCH_MM,
)
from roundwright.knitting.sizing.heads import (
    Head,
    HeadSize,
    Wearer,
    cautions,
    head_of,
    head_size,
    mm_in_range,
)
from roundwright.language import Language, joined, say

MOST_EASE_PERCENT: Final = 50.0
"""Half the head less or more: beyond it a hat does not go on, or does not stay on."""
FEWEST_STITCHES: Final = 8
"""Fewest stitches to begin a hat with, and to begin a crown with; fewer make a cord."""
COARSE_PERCENT: Final = 5.0
"""Warn when the ease differs from the requested ease by more than this: about an inch on a grown-up's head."""


class Ease(Struct, frozen=True, forbid_unknown_fields=True):
    """How much larger than the head the hat is: exactly one of `percent` and `length`. Negative is snug."""

    percent: Annotated[
        Annotated[float, Meta(ge=-MOST_EASE_PERCENT, le=MOST_EASE_PERCENT)] | None,
        Meta(description="Percent of the head, -50 to 50; -10 makes the hat a tenth smaller."),
    ] = None
    length: Annotated[
        Difference | None, Meta(description="Difference of the circumferences, hat less head.")
    ] = None


def _usual_ease() -> Ease:
    share = reference.ease_rules()["usual"].share_of_head
    assert share is not None
    return Ease(percent=tidy(100 * share - 100))


USUAL_EASE: Final = _usual_ease()
"""The default: the row `usual` of the table of eases."""
NO_EASE: Final = Ease(percent=0)
HatEase = Annotated[
    Ease | None,
    Meta(
        description=f"Ease of the hat. Left out: {USUAL_EASE.percent:g} %, common practice; 0 % for a size of the "
        "chart, which is that of a hat.",
        examples=[{"percent": USUAL_EASE.percent}],
    ),
]
ANY_COUNT: Final = Multiple(1)


class EaseMade(Struct, frozen=True, kw_only=True):
    """The ease of a hat, in percent and as a length. Negative is snug."""

    percent: Annotated[float, Meta(description="Percent of the head.")]
    length: Annotated[Difference, Meta(description="Circumference of the hat less that of the head.")]


class CastOnChoice(Struct, frozen=True, kw_only=True):
    """Another number of stitches, with the circumference and the ease it gives."""

    stitches: Annotated[int, Meta(description="Stitches to cast on.")]
    circumference: Annotated[Length, Meta(description="Circumference of the hat, unstretched.")]
    ease: Annotated[EaseMade, Meta(description="The ease it gives.")]


class TailAllowance(Struct, frozen=True, kw_only=True):
    """The length of a long-tail cast-on's tail by one rule."""

    rule: Annotated[str, Meta(description="The rule in words.")]
    length: Annotated[Length, Meta(description="Tail by this rule.")]


class CastOnTail(Struct, frozen=True, kw_only=True):
    """The tail to leave for a long-tail cast-on. Rules in print disagree."""

    length: Annotated[Length, Meta(description="Tail by the first rule: three times the width and 10 %.")]
    low: Annotated[Length, Meta(description="Shortest tail by any of the rules.")]
    high: Annotated[Length, Meta(description="Longest tail by any of the rules: the safe one.")]
    by_rule: Annotated[tuple[TailAllowance, ...], Meta(description="The tail by each rule.")]


class CastOnRequest(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A head and the gauge: exactly one of `head` and `size`."""

    head: Annotated[Length | None, Meta(description="Head circumference as measured.")] = None
    size: Annotated[Wearer | None, Meta(description="Whose head, where it was not measured.")] = None
    ease: HatEase = None
    gauge: Annotated[Gauge, Meta(description="Gauge of the washed swatch, worked in the round.")]
    multiple: Annotated[
        Multiple, Meta(description="The stitches must be a multiple of this, for the rib or the crown.")
    ] = ANY_COUNT
    needle: Annotated[
        Length | None,
        Meta(
            description="Diameter of the needle, 0.5 to 100 mm; adds the tail by wraps of the needle.",
            examples=[{"value": 5, "unit": "mm"}],
        ),
    ] = None
    units: Annotated[UnitSystem, Meta(description="Units of the lengths in the answer.")] = "metric"
    language: Language = None


class CastOnAnswer(Struct, frozen=True, kw_only=True):
    """The stitches to cast on for a head."""

    stitches: Annotated[int, Meta(description="Stitches to cast on.")]
    exact: Annotated[float, Meta(description="Stitches before rounding to the multiple.")]
    circumference: Annotated[Length, Meta(description="Circumference of the hat, unstretched.")]
    ease: Annotated[EaseMade, Meta(description="The ease these stitches give.")]
    head: Annotated[HeadSize, Meta(description="The head it is for.")]
    alternatives: Annotated[
        tuple[CastOnChoice, ...], Meta(description="One repeat fewer, where that is possible, and one more.")
    ]
    tail: Annotated[CastOnTail, Meta(description="Tail for a long-tail cast-on.")]
    cautions: Annotated[
        tuple[Caution, ...],
        Meta(description="Usual cautions where it may be a child's; local rules come first."),
    ] = ()
    basis: Annotated[tuple[Basis, ...], Meta(description="What the answer rests on.")]
    warnings: Annotated[tuple[Notice, ...], Meta(description="What to mind.")] = ()
    rules: RulesVersion = RULES


def cast_on(request: CastOnRequest) -> CastOnAnswer:
    """Stitches for a head: head x (1 + ease) / width of a stitch, to the nearest multiple.

    Raises `Impossible` where the head is not given in exactly one way, and where `work_cast_on` does.
    """
    only_one(request, "head", "size", what=say("given.head"), nearest=say("cast_on.as_measured"))
    wearer = Wearer(head=request.head) if request.size is None else request.size
    head = head_of(wearer, _where(request), request.units)
    needle_mm = None
    if request.needle is not None:
        needle_mm = mm_in_range(request.needle, THINNEST_NEEDLE_MM, THICKEST_NEEDLE_MM, "needle", "#/needle")
    answer = work_cast_on(
        head,
        ease_for(head, request.ease),
        request.gauge,
        request.multiple,
        request.units,
        needle_mm=needle_mm,
    )
    return replace(answer, warnings=(*unusual_gauge(request.gauge), *answer.warnings))


@lru_cache(maxsize=64)  # people repeat a request while they try other options of the same hat
def work_cast_on(
    head: Head,
    ease: Ease,
    gauge: Gauge,
    multiple: Multiple,
    units: UnitSystem,
    *,
    needle_mm: float | None = None,
    pointer: str = "#",
) -> CastOnAnswer:
    """Stitches to cast on for a head of known size.

    `pointer` is the object with `ease`, `gauge` and `multiple`. Raises `Impossible` for an ease that is not given in
    exactly one way, for a hat that would not go on or not stay on, and for a gauge that cannot be knitted.
    """
    width_mm = stitch_width_mm(gauge, f"{pointer}/gauge")
    exact = hat_mm(head.mm, ease, f"{pointer}/ease") / width_mm
    stitches = nearest_count(exact, multiple, FEWEST_STITCHES)
    _check_count(stitches, exact, head.mm / width_mm, multiple, pointer)
    chosen, *others = (
        _choice(count, width_mm, head.mm, units)
        for count in (stitches, stitches - multiple.of, stitches + multiple.of)
        if count >= max(FEWEST_STITCHES, multiple.of + multiple.plus)
    )
    requested_percent = (exact * width_mm / head.mm - 1) * 100
    tail_rules, tail = _tail(stitches, width_mm, needle_mm, units)
    return CastOnAnswer(
        stitches=stitches,
        exact=tidy(exact),
        circumference=chosen.circumference,
        ease=chosen.ease,
        head=head_size(head, units),
        alternatives=tuple(others),
        tail=tail,
        cautions=cautions(head.youngest_months),
        basis=(*head.basis, STITCHES_BASIS, *_ease_basis(ease), tail_rules),
        warnings=(
            *_with_ease(head.warnings, requested_percent),
            *_coarse_notice(chosen, requested_percent, f"{pointer}/multiple"),
        ),
    )


def _with_ease(warnings: Sequence[Notice], percent: float) -> Iterator[Notice]:
    """The warnings of the head; that a chart has sizes of hats goes on with the ease that is taken all the same."""
    for notice in warnings:
        if notice.code == "chart_below_measured" and round(percent) < 0:
            taken = say("cast_on.ease_of_chart", percent=percent)
            yield replace(notice, message=joined(" ", notice.message, taken))
        else:
            yield notice


def ease_for(head: Head, requested: Ease | None) -> Ease:
    """The ease of a hat for this head: as requested, else the usual; none where the size is that of a hat."""
    return requested or (NO_EASE if head.is_hat_size else USUAL_EASE)


def hat_mm(head_mm: float, ease: Ease, pointer: str = "#/ease") -> float:
    """Circumference of a hat for a head, in millimetres.

    Raises `Impossible` for an ease that is not given in exactly one way, and for one beyond half the head.
    """
    usual = f'{{"percent": {USUAL_EASE.percent:g}}}'
    only_one(ease, "percent", "length", what=say("given.ease"), pointer=pointer, nearest=usual)
    if ease.percent is not None:
        return head_mm * (1 + ease.percent / 100)
    assert ease.length is not None
    percent = mm(ease.length) / head_mm * 100
    if abs(percent) > MOST_EASE_PERCENT:
        most = difference(
            head_mm * MOST_EASE_PERCENT / 100 * (1 if percent > 0 else -1), system_of(ease.length.unit)
        )
        raise Impossible(
            say(
                "ease.too_loose" if percent > 0 else "ease.too_tight",
                ease=quantity_text(ease.length),
                percent=percent,
            ),
            pointer=f"{pointer}/length/value",
            nearest=quantity_text(most, 4),
            code="out_of_range",
            suggested={"value": tidy(most.value * 0.999, 4), "unit": most.unit},
            suggested_at=f"{pointer}/length",
        )
    return head_mm + mm(ease.length)


STITCHES_BASIS: Final = Basis(say("cast_on.stitches_basis"), COMMON_PRACTICE)


def _where(request: CastOnRequest) -> str:
    return "#" if request.size is None else "#/size"


def _choice(stitches: int, width_mm: float, head_mm: float, units: UnitSystem) -> CastOnChoice:
    circumference_mm = stitches * width_mm
    # Rounded, so that a rounding error does not show as an ease; `+ 0.0` makes 0 of -0.0.
    percent = round((circumference_mm / head_mm - 1) * 100, 2) + 0.0
    ease_mm = round(circumference_mm - head_mm, 3) + 0.0
    ease = EaseMade(percent=percent, length=difference(ease_mm, units))
    return CastOnChoice(stitches=stitches, circumference=length(circumference_mm, units), ease=ease)


def _check_count(stitches: int, exact: float, head_stitches: float, multiple: Multiple, pointer: str) -> None:
    """Raise `Impossible` where the count makes no hat for this head: too few stitches, or a multiple too coarse."""
    loosest = 1 + (MOST_EASE_PERCENT + COARSE_PERCENT) / 100
    if 2 - loosest <= stitches / head_stitches <= loosest:
        return
    if FEWEST_STITCHES / head_stitches > loosest:
        raise Impossible(
            say("cast_on.too_few", exact=exact, least=FEWEST_STITCHES),
            code="out_of_range",
            pointer=f"{pointer}/gauge/stitches",
            nearest=say("cast_on.finer_gauge", times=FEWEST_STITCHES / exact),
        )
    raise Impossible(
        say(
            "cast_on.multiple_would_not_fit",
            exact=exact,
            of=multiple.of,
            plus=multiple.plus,
            stitches=stitches,
        ),
        pointer=f"{pointer}/multiple",
        nearest=say("cast_on.multiple", of=max(1, int(exact / 10))),
        code="does_not_divide",
        suggested={"of": max(1, int(exact / 10)), "plus": 0},
    )


def _coarse_notice(chosen: CastOnChoice, requested_percent: float, pointer: str) -> tuple[Notice, ...]:
    if abs(chosen.ease.percent - requested_percent) <= COARSE_PERCENT:
        return ()
    return (
        Notice(
            code="multiple_coarse",
            message=say("cast_on.multiple_coarse", percent=chosen.ease.percent, requested=requested_percent),
            pointer=pointer,
        ),
    )


def _ease_basis(ease: Ease) -> tuple[Basis, ...]:
    if ease != USUAL_EASE:
        return ()
    row = reference.ease_rules()["usual"]
    return (Basis(say("ease.basis"), reference.cite("ease", row)),)


def _tail(
    stitches: int, width_mm: float, needle_mm: float | None, units: UnitSystem
) -> tuple[Basis, CastOnTail]:
    """The tail by every rule in print that is valid for any yarn; the first is the default."""
    lengths_mm = {}
    rows = reference.tail_rules()
    for name, row in rows.items():
        rule = say(f"tail.{name}")
        if row.widths is not None:
            widths_mm = row.widths * stitches * width_mm
            lengths_mm[rule] = widths_mm * (1 + (row.plus_percent or 0) / 100) + (row.plus_in or 0) * INCH_MM
        elif row.wraps_per_stitch is not None and needle_mm is not None:
            lengths_mm[rule] = row.wraps_per_stitch * stitches * pi * needle_mm
        # A length per stitch was measured on one yarn and is not valid for others.
    by_rule = tuple(
        TailAllowance(rule=rule, length=length(tail_mm, units)) for rule, tail_mm in lengths_mm.items()
    )
    tail = CastOnTail(
        length=by_rule[0].length,
        low=length(min(lengths_mm.values()), units),
        high=length(max(lengths_mm.values()), units),
        by_rule=by_rule,
    )
    cited = reference.cite("tails", rows["widths-and-tenth"])
    return Basis(say("tail.basis", rule=by_rule[0].rule), cited), tail
