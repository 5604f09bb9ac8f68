"""Recommend a size: the head now and when the hat is worn, and the share of heads that each offered size fits.

A fit aid for a hat, not a growth assessment. A hat of circumference H fits heads from H x (1 + snug) to H x (1 +
stretch): on a smaller head it does not stay on, on a larger one it is not comfortable. Where its depth is known it also
has to reach the middle of the ears.
"""

from math import floor, inf
from typing import Annotated, Final, Literal

from msgspec import Meta, Struct

from roundwright.knitting.answers import (
    COMMON_PRACTICE,
    RULES,
    Basis,
    Caution,
    Impossible,
    Notice,
    RulesVersion,
    at_most_one,
)
from roundwright.knitting.quantities import Length, UnitSystem, length, quantity_text
from roundwright.knitting.sizing.depth import EAR_ARC
from roundwright.knitting.sizing.growth import (
    CENTILE_BASIS,
    FINEST_MONTH,
    TERM_BASIS,
    WearerToday,
    age_today_months,
    head_after,
    heads_after,
    months_to_standard_end,
    months_until_outgrown,
    with_own_z,
)
from roundwright.knitting.sizing.head_references import (
    LAST_YEAR,
    NORMAL,
    UNUSUAL_Z,
    Adult,
    Heads,
    Sex,
    centile_mm,
    early_notices,
    median_mm,
    share_below,
    step_notices,
)
from roundwright.knitting.sizing.head_units import unit_notices
from roundwright.knitting.sizing.heads import (
    GOES_WITH_AGE,
    AgeMonths,
    AgeYears,
    GestationWeeks,
    PostmenstrualWeeks,
    age_in_months,
    cautions,
    check_postmenstrual,
    measured_head,
    mm_in_range,
    us_hat_number,
)
from roundwright.language import Language, joined, say

LONGEST_WAIT_MONTHS: Final = 60
"""Five years: nobody knits for a head further off."""
MOST_OFFERED: Final = 24
"""Sizes in one question: a shop's rack has a dozen."""
MOST_STRETCH_PERCENT: Final = 100.0
"""Twice its own size: more than any rib stretches."""
USUAL_STRETCH_PERCENT: Final = 20.0
"""Stockinette worn in comfort, common practice; an input."""
LONGEST_LABEL: Final = 60
"""A size's name, not a description."""
GOOD_SHARE: Final = 0.5
"""Warn when the best size fits a smaller share of the heads than this."""
SMALLEST_HAT_MM: Final = 20.0
"""Half round the smallest head: a knitted acorn cup."""
LARGEST_HAT_MM: Final = 1_500.0
"""Half as much again as the largest head."""
LEAST_SHARE: Final = 0.005
"""A size that fits fewer than one head in two hundred is not worth choosing."""


class OfferedSize(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A size of hat on offer."""

    label: Annotated[
        str, Meta(min_length=1, max_length=LONGEST_LABEL, description="Name of the size.", examples=["S"])
    ]
    circumference: Annotated[Length, Meta(description="Circumference of the hat, unstretched.")]
    depth: Annotated[
        Length | None,
        Meta(
            description="Edge to top as worn, along the fabric, of a hat that is to cover the ears. Left out: only the "
            "width is counted, as for a skullcap."
        ),
    ] = None


class RecommendRequest(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Whose head it is, when the hat will be worn, and the sizes on offer.

    One of `age_months`, `age_years`, `gestation_weeks` and `adult`; `head` as well, or alone.
    """

    age_months: Annotated[
        AgeMonths | None,
        Meta(description="Age today in months of 30.4375 days, 0 to 252; above, give `adult`."),
    ] = None
    age_years: Annotated[
        AgeYears | None,
        Meta(
            description="Age today in years, 0 to 21, in place of `age_months`; above, give `adult`. To 5 years "
            "by WHO, above by Netherlands 1997."
        ),
    ] = None
    gestation_weeks: Annotated[
        GestationWeeks | None, Meta(description="Weeks of gestation at birth, 22 to 42.")
    ] = None
    postmenstrual_weeks: Annotated[
        PostmenstrualWeeks | None,
        Meta(
            description="Postmenstrual age today, in weeks, 22 to 144: gestation at birth and the weeks since. "
            "Goes with `gestation_weeks`; left out: born today."
        ),
    ] = None
    sex: Annotated[
        Sex | None, Meta(description="Sex of the child; left out: girls and boys in equal numbers.")
    ] = None
    adult: Annotated[Adult | None, Meta(description="A grown-up.")] = None
    head: Annotated[
        Length | None,
        Meta(
            description="Head circumference as measured today. With an age, the child's own centile is kept."
        ),
    ] = None
    wear_in_months: Annotated[
        float,
        Meta(ge=0, le=LONGEST_WAIT_MONTHS, description="Months from today until the hat is worn, 0 to 60."),
    ] = 0.0
    offered: Annotated[
        tuple[OfferedSize, ...],
        Meta(min_length=1, max_length=MOST_OFFERED, description="The sizes on offer, 1 to 24."),
    ]
    stretch_percent: Annotated[
        float,
        Meta(
            ge=0,
            le=MOST_STRETCH_PERCENT,
            description="How far the hat stretches comfortably, in percent of its circumference, 0 to 100.",
        ),
    ] = USUAL_STRETCH_PERCENT
    snug_percent: Annotated[
        float,
        Meta(
            ge=0,
            le=MOST_STRETCH_PERCENT,
            description="How far it has to be stretched to stay on, in percent, 0 to 100 and less than the stretch.",
        ),
    ] = 0.0
    units: Annotated[UnitSystem, Meta(description="Units of the lengths in the answer.")] = "metric"
    language: Language = None


class HeadEstimate(Struct, frozen=True, kw_only=True):
    """The heads of the wearer's group at one time, and the wearer's own where it was measured."""

    median: Annotated[Length, Meta(description="Median; without a sex, the mean of girls' and boys'.")]
    p3: Annotated[Length, Meta(description="3rd centile: 3 heads in 100 are smaller.")]
    p97: Annotated[Length, Meta(description="97th centile: 3 heads in 100 are larger.")]
    own: Annotated[
        Length | None,
        Meta(description="The measured head, carried forward at its own centile; null without one."),
    ]
    us_hat_number: Annotated[str, Meta(description="US hat number of the own head, else of the median.")]
    standard: Annotated[str, Meta(description="The standard these heads come from.")]


class SizeFit(Struct, frozen=True, kw_only=True):
    """How an offered size fits when it is worn."""

    label: Annotated[str, Meta(description="Name of the size.")]
    circumference: Annotated[Length, Meta(description="Circumference of the hat, unstretched.")]
    fits_from: Annotated[Length, Meta(description="Smallest head it stays on.")]
    fits_to: Annotated[
        Length,
        Meta(description="Largest head it stretches to comfortably and, where its depth is given, covers."),
    ]
    share: Annotated[float, Meta(description="Share of heads it fits, 0 to 1; of a measured head 1 or 0.")]
    too_large_share: Annotated[float, Meta(description="Share of heads it is too large for, 0 to 1.")]
    too_small_share: Annotated[float, Meta(description="Share of heads it is too small for, 0 to 1.")]
    stretched_percent: Annotated[
        float, Meta(description="Stretch on the own head, else on the median, in percent; negative is loose.")
    ]
    outgrown_at_months: Annotated[
        float | None,
        Meta(
            description="Age in months since birth when the own head, else the median, outgrows it: in width, or in "
            "depth where that is given and is less than to the middle of the ears. Null for grown-ups, for a head "
            "without an age, and where it still fits at 21 years."
        ),
    ]
    outgrown_in_months: Annotated[float | None, Meta(description="The same, in months from today.")]
    outgrown_in: Annotated[
        Literal["width", "depth"] | None,
        Meta(description="Which of its measures is too small first; null where it is not outgrown."),
    ] = None


class RecommendAnswer(Struct, frozen=True, kw_only=True):
    """The head now and when the hat is worn, and which size to choose."""

    now: Annotated[HeadEstimate, Meta(description="Heads today.")]
    head: Annotated[HeadEstimate, Meta(description="Heads when the hat is worn.")]
    centile: Annotated[
        float | None,
        Meta(description="Centile of the measured head today, 0 to 100; null where there is none."),
    ]
    sizes: Annotated[tuple[SizeFit, ...], Meta(description="The sizes, in the order they were offered.")]
    choose: Annotated[
        str | None,
        Meta(
            description="The size that fits most heads; of equal sizes the one stretched midway. Null: none fits."
        ),
    ]
    outgrown_at_months: Annotated[
        float | None, Meta(description="Age in months when the chosen size is outgrown; null as for a size.")
    ]
    cautions: Annotated[
        tuple[Caution, ...],
        Meta(description="Usual cautions where it may be a child's; local rules come first."),
    ] = ()
    basis: Annotated[tuple[Basis, ...], Meta(description="What the answer rests on.")]
    warnings: Annotated[tuple[Notice, ...], Meta(description="What to mind.")] = ()
    rules: RulesVersion = RULES


FIT_AID: Final = Notice(
    code="fit_aid",
    message=say("fit.aid"),
)
FIT_BASIS: Final = Basis(
    say("fit.basis"),
    COMMON_PRACTICE,
)
WIDTH_BASIS: Final = Basis(
    say("fit.width_basis"),
    COMMON_PRACTICE,
)
DEPTH_BASIS: Final = Basis(
    say("fit.depth_basis", ear=EAR_ARC),
    "vertex to tragion over head circumference: Snyder et al. 1977; ANSUR II 2012; arithmetic on a sphere",
)


def recommend(request: RecommendRequest) -> RecommendAnswer:
    """Find the size that fits most heads of the wearer's group when the hat is worn.

    Raises `Impossible` where the wearer is not given in exactly one way, where growth is requested beyond the standard
    or without an age, and where two offered sizes have one name or a size is no hat's.
    """
    _check_wearer(request)
    _check_offered(request)
    wearer = _course(request)
    now, then = (heads_after(wearer, months, request.units) for months in (0.0, request.wear_in_months))
    expected_mm = head_after(wearer, request.wear_in_months)
    fits = tuple(_fit(request, wearer, offered, then, expected_mm) for offered in request.offered)
    best = _best(request, fits)
    return RecommendAnswer(
        now=_estimate(wearer, now, head_after(wearer, 0.0), request.units),
        head=_estimate(wearer, then, expected_mm, request.units),
        centile=None if wearer.own_z is None else round(NORMAL.cdf(wearer.own_z) * 100, 1),
        sizes=fits,
        choose=best.label if best else None,
        outgrown_at_months=best.outgrown_at_months if best else None,
        cautions=cautions(_youngest_months(request, wearer)),
        basis=_basis(
            wearer, now, then, has_depth=any(offered.depth is not None for offered in request.offered)
        ),
        warnings=(
            FIT_AID,
            *_growth_notices(now, then, wearer.own_z),
            *_reference_notices(request, wearer),
            *_fit_notices(request, best, expected_mm),
        ),
    )


def _course(request: RecommendRequest) -> WearerToday:
    """The wearer today. Raises `Impossible` where there is no standard for the time when the hat is worn."""
    wearer = with_own_z(
        WearerToday(
            age_months=age_in_months(request.age_months, request.age_years),
            gestation_weeks=request.gestation_weeks,
            postmenstrual_weeks=request.postmenstrual_weeks,
            sex=request.sex,
            adult=request.adult,
            own_mm=None if request.head is None else measured_head(request.head, "#/head").mm,
        )
    )
    if request.wear_in_months == 0 or request.adult is not None:
        return wearer
    left = months_to_standard_end(wearer)
    if left is None:
        raise Impossible(
            say("fit.growth_from_head_alone"),
            pointer="#/wear_in_months",
            nearest=say("fit.age_as_well"),
            code="needs_another",
            suggested=0,
        )
    if request.wear_in_months > left + FINEST_MONTH:
        raise Impossible(
            say("fit.reference_ends", years=LAST_YEAR),
            pointer="#/wear_in_months",
            nearest=say("fit.months_or_fewer", months=floor(max(left, 0) * 100) / 100),
            code="out_of_range",
            suggested=floor(max(left, 0) * 100) / 100,
        )
    return wearer


def _fit(
    request: RecommendRequest,
    wearer: WearerToday,
    offered: OfferedSize,
    then: Heads | None,
    expected_mm: float,
) -> SizeFit:
    pointer = f"#/offered/{request.offered.index(offered)}/circumference"
    hat_mm = mm_in_range(offered.circumference, SMALLEST_HAT_MM, LARGEST_HAT_MM, "hat", pointer)
    from_mm = hat_mm * (1 + request.snug_percent / 100)
    stretched_mm = hat_mm * (1 + request.stretch_percent / 100)
    covered_mm = _covered_mm(offered, pointer.replace("circumference", "depth"))
    to_mm = min(stretched_mm, covered_mm)
    if then is None or wearer.own_mm is not None:
        loose, tight = float(expected_mm < from_mm), float(expected_mm > to_mm)
    else:
        loose, tight = share_below(then, from_mm), 1 - share_below(then, max(from_mm, to_mm))
    outgrown = months_until_outgrown(wearer, to_mm)
    age = age_today_months(wearer) or 0.0
    return SizeFit(
        label=offered.label,
        circumference=length(hat_mm, request.units),
        fits_from=length(from_mm, request.units),
        fits_to=length(to_mm, request.units),
        share=round(max(1 - loose - tight, 0.0), 3),
        too_large_share=round(loose, 3),
        too_small_share=round(tight, 3),
        stretched_percent=round((expected_mm / hat_mm - 1) * 100, 1) + 0.0,  # + 0.0: no -0.0
        outgrown_at_months=None if outgrown is None else round(age + outgrown, 1),
        outgrown_in_months=None if outgrown is None else round(outgrown, 1),
        outgrown_in=None if outgrown is None else "depth" if covered_mm < stretched_mm else "width",
    )


def _covered_mm(offered: OfferedSize, pointer: str) -> float:
    """The largest head that a size covers to the ear canal; any, where its depth is not known."""
    if offered.depth is None:
        return inf
    return mm_in_range(offered.depth, SMALLEST_HAT_MM, LARGEST_HAT_MM, "hat", pointer) / EAR_ARC


def _best(request: RecommendRequest, fits: tuple[SizeFit, ...]) -> SizeFit | None:
    """The size that fits most heads; of equal sizes, the one stretched nearest to midway on the expected head."""
    midway = (request.snug_percent + request.stretch_percent) / 2
    best = max(fits, key=lambda fit: (fit.share, -abs(fit.stretched_percent - midway)))
    return best if best.share >= LEAST_SHARE else None


def _estimate(
    wearer: WearerToday, heads: Heads | None, expected_mm: float, units: UnitSystem
) -> HeadEstimate:
    if heads is None:
        median = low = high = expected_mm
    else:
        median, low, high = median_mm(heads), centile_mm(heads, 0.03), centile_mm(heads, 0.97)
    return HeadEstimate(
        median=length(median, units),
        p3=length(low, units),
        p97=length(high, units),
        own=None if wearer.own_mm is None else length(expected_mm, units),
        us_hat_number=us_hat_number(expected_mm),
        standard=heads.standard if heads else say("head.standard.measured"),
    )


def _youngest_months(request: RecommendRequest, wearer: WearerToday) -> float | None:
    if request.head is not None and request.adult is None and age_today_months(wearer) is None:
        return measured_head(request.head, "#/head").youngest_months
    return age_today_months(wearer)


def _basis(
    wearer: WearerToday, now: Heads | None, then: Heads | None, *, has_depth: bool
) -> tuple[Basis, ...]:
    standards = dict.fromkeys(heads.basis for heads in (now, then) if heads)
    term = (TERM_BASIS,) if wearer.gestation_weeks is not None else ()
    own = (CENTILE_BASIS,) if wearer.own_z is not None else ()
    return (*standards, *term, *own, FIT_BASIS, DEPTH_BASIS if has_depth else WIDTH_BASIS)


def _growth_notices(now: Heads | None, then: Heads | None, z: float | None) -> tuple[Notice, ...]:
    notices = []
    if now and then and now.basis != then.basis:
        notices.append(
            Notice(
                code="standards_meet",
                message=say("fit.standards_meet", now=now.standard, then=then.standard),
                pointer="#/wear_in_months",
            )
        )
    if z is not None and abs(z) > UNUSUAL_Z:
        notices.append(
            Notice(
                code="unusual_head",
                message=say("fit.far_above" if z > 0 else "fit.far_below", deviations=float(abs(z))),
                pointer="#/head/value",
            )
        )
    return tuple(notices)


def _reference_notices(request: RecommendRequest, wearer: WearerToday) -> tuple[Notice, ...]:
    """What to mind about the reference for the time when the hat is worn, or of a head without an age."""
    if request.head is not None and wearer.own_z is None:
        return unit_notices(request.head, "#/head")
    if wearer.age_months is not None:
        return step_notices(wearer.age_months + request.wear_in_months, "#/wear_in_months", request.units)
    if wearer.gestation_weeks is None:
        return ()
    weeks = wearer.postmenstrual_weeks or wearer.gestation_weeks
    return early_notices(weeks, "#/gestation_weeks", request.units)


def _fit_notices(request: RecommendRequest, best: SizeFit | None, expected_mm: float) -> tuple[Notice, ...]:
    if best is not None and best.share >= GOOD_SHARE:
        return ()
    midway = (request.snug_percent + request.stretch_percent) / 200
    ideal = length(expected_mm / (1 + midway), request.units)
    verdict = say("fit.none") if best is None else say("fit.few", percent=100 * best.share)
    return (
        Notice(
            code="none_fits" if best is None else "few_fit",
            message=joined(" ", verdict, say("fit.ideal", circumference=quantity_text(ideal, 3))),
            pointer="#/offered",
        ),
    )


def _check_wearer(request: RecommendRequest) -> None:
    """Raise `Impossible` unless the wearer is given in exactly one way, with fields that belong to it."""
    field = at_most_one(
        request,
        "age_months",
        "age_years",
        "gestation_weeks",
        "adult",
        what=say("given.wearer"),
        goes_with=GOES_WITH_AGE,
    )
    if field is None and request.head is None:
        raise Impossible(
            say("fit.no_wearer"),
            nearest="age_months",
            code="not_given",
        )
    if request.sex is not None and field in (None, "adult"):
        raise Impossible(
            say("fit.sex_of_no_age"),
            pointer="#/sex",
            nearest=say("fit.without_sex"),
            code="needs_another",
            suggested=None,
        )
    check_postmenstrual(request.gestation_weeks, request.postmenstrual_weeks)


def _check_offered(request: RecommendRequest) -> None:
    if request.snug_percent > request.stretch_percent:
        raise Impossible(
            say("fit.snug_above_stretch", stretch=request.stretch_percent, snug=request.snug_percent),
            pointer="#/snug_percent",
            nearest=say("fit.or_less", percent=request.stretch_percent),
            code="contradiction",
            suggested=request.stretch_percent,
        )
    labels = [offered.label for offered in request.offered]
    for index, label in enumerate(labels):
        if label in labels[:index]:
            raise Impossible(
                say("fit.two_called", label=label),
                pointer=f"#/offered/{index}/label",
                nearest=say("fit.another_name"),
                code="given_twice",
            )
