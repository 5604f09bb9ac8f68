"""Heads: the size of a head by age, by week of gestation, of an adult, from a chart, or as measured.

Each answer names its standard (`head_references`); where standards differ, the head comes with a warning.
"""

from collections.abc import Callable, Mapping, Sequence
from functools import lru_cache
from math import pi
from typing import Annotated, Final, Literal, NamedTuple

from msgspec import UNSET, Meta, Struct

from roundwright import reference
from roundwright.knitting.answers import Basis, Caution, Impossible, Notice, only_one
from roundwright.knitting.quantities import Length, UnitSystem, length, mm, quantity_text
from roundwright.knitting.sizing.head_references import (
    CM_MM,
    FIRST_WEEK,
    INCH_MM,
    LAST_MONTH,
    LAST_WEEK,
    LAST_YEAR,
    LATEST_POSTMENSTRUAL_WEEK,
    MONTHS_IN_YEAR,
    UNUSUAL_Z,
    WEEKS_IN_MONTH,
    Adult,
    Heads,
    Sex,
    counted,
    early_notices,
    head_at_z,
    heads_at_age,
    heads_of_adults,
    heads_of_baby,
    median_mm,
)
from roundwright.knitting.sizing.head_units import in_another_unit, unit_notices
from roundwright.language import Message, joined, say
from roundwright.reference.rows import CautionRow

ChartSize = Literal["premie", "baby", "toddler", "child", "woman", "man"]
Measured = Literal["head", "hat", "needle"]

SMALLEST_HEAD_MM: Final = 40.0
"""An egg: the smallest thing that anybody knits a hat for."""
LARGEST_HEAD_MM: Final = 1_000.0
"""A metre: half as much again as any measured head, enough for hair or a helmet."""
GROWN_UP_MONTHS: Final = 18 * MONTHS_IN_YEAR
"""From 18 years on nobody is a child (Convention on the Rights of the Child, article 1)."""

AgeMonths = Annotated[float, Meta(ge=0, le=LAST_MONTH)]
AgeYears = Annotated[float, Meta(ge=0, le=LAST_YEAR)]
GestationWeeks = Annotated[float, Meta(ge=FIRST_WEEK, le=LAST_WEEK)]
PostmenstrualWeeks = Annotated[float, Meta(ge=FIRST_WEEK, le=LATEST_POSTMENSTRUAL_WEEK)]


AN_EXAMPLE: Final = {"head": {"value": 56, "unit": "cm"}}
"""A wearer for errors and the document: a measured head is the surest way to give a size."""


class Wearer(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Whose head it is: exactly one of `head`, `age_months`, `age_years`, `gestation_weeks`, `adult` and `chart`."""

    head: Annotated[
        Length | None,
        Meta(
            description="Head circumference as measured, just above ears and eyebrows.",
            examples=[AN_EXAMPLE["head"]],
        ),
    ] = None
    age_months: Annotated[
        AgeMonths | None,
        Meta(
            description="Age in months of 30.4375 days, 0 to 252; above, give `adult`. Fractions are allowed."
        ),
    ] = None
    age_years: Annotated[
        AgeYears | None,
        Meta(
            description="Age in years, 0 to 21, in place of `age_months`; above, give `adult`. Fractions are allowed. "
            "To 5 years by WHO, above by Netherlands 1997."
        ),
    ] = None
    gestation_weeks: Annotated[
        GestationWeeks | None,
        Meta(
            description="Weeks of gestation at birth, 22 to 42; for a baby already born give `postmenstrual_weeks` "
            "as well."
        ),
    ] = None
    postmenstrual_weeks: Annotated[
        PostmenstrualWeeks | None,
        Meta(
            description="Postmenstrual age today, in weeks, 22 to 144: gestation at birth and the weeks since. Goes "
            "with `gestation_weeks`; left out: just born."
        ),
    ] = None
    sex: Annotated[
        Sex | None,
        Meta(description="Sex of the child, with an age or a gestation; left out: the mean of both."),
    ] = None
    adult: Annotated[Adult | None, Meta(description="A grown-up: the mean of measured heads.")] = None
    chart: Annotated[
        ChartSize | None,
        Meta(
            description="A size of the published head chart. But for `premie` they are hat sizes, smaller than heads."
        ),
    ] = None


class HeadSize(Struct, frozen=True, kw_only=True):
    """A head and where its size comes from."""

    circumference: Annotated[Length, Meta(description="Head circumference.")]
    us_hat_number: Annotated[
        str, Meta(description="US hat number: inches / pi to the nearest 1/8. The UK number is 1/8 less.")
    ]
    standard: Annotated[str, Meta(description="The standard, chart or measurement the size comes from.")]


class Head(NamedTuple):
    """The size of a head, the standard it comes from, and the least age of its wearer."""

    mm: float
    standard: str
    basis: tuple[Basis, ...]
    warnings: tuple[Notice, ...] = ()
    youngest_months: float | None = None
    """Least age the wearer may have; None where it cannot be a child."""
    is_hat_size: bool = False
    """Whether the size is that of a hat, from which no ease is to be taken again."""


@lru_cache(maxsize=128)  # the participants of a class send the same few heads
def head_of(wearer: Wearer, pointer: str = "#", units: UnitSystem = "metric") -> Head:
    """The head of a wearer; its basis and its warnings are in these units.

    Raises `Impossible` where it is not given in exactly one way, where a sex is given without a child's age, and where
    a measured head is too small or too large for a head.
    """
    _check_wearer(wearer, pointer)
    if wearer.head is not None:
        return measured_head(wearer.head, f"{pointer}/head")
    months = age_in_months(wearer.age_months, wearer.age_years)
    if months is not None:
        return _median_head(heads_at_age(months, wearer.sex, units), months)
    if wearer.gestation_weeks is not None:
        return _babys_head(wearer, wearer.gestation_weeks, pointer, units)
    if wearer.adult is not None:
        return _median_head(heads_of_adults(wearer.adult), None, "mean")
    assert wearer.chart is not None
    return _chart_head(wearer.chart, f"{pointer}/chart", units)


def _babys_head(wearer: Wearer, gestation_weeks: float, pointer: str, units: UnitSystem) -> Head:
    weeks = gestation_weeks if wearer.postmenstrual_weeks is None else wearer.postmenstrual_weeks
    head = _median_head(
        heads_of_baby(gestation_weeks, weeks, wearer.sex, units), (weeks - gestation_weeks) / WEEKS_IN_MONTH
    )
    return head._replace(warnings=early_notices(weeks, f"{pointer}/gestation_weeks", units))


def age_in_months(months: float | None, years: float | None) -> float | None:
    """The age in months, given in months or in years; None where it is given in neither."""
    return years * MONTHS_IN_YEAR if months is None and years is not None else months


def measured_head(circumference: Length, pointer: str) -> Head:
    """A head as measured. Raises `Impossible` where it is too small or too large for a head."""
    head_mm = mm_in_range(
        circumference,
        SMALLEST_HEAD_MM,
        LARGEST_HEAD_MM,
        "head",
        pointer,
        meant=in_another_unit(circumference),
    )
    youngest_months = None if is_adult_sized(head_mm) else least_age_months(head_mm)
    return Head(
        head_mm, say("head.standard.measured"), (), unit_notices(circumference, pointer), youngest_months
    )


def is_adult_sized(head_mm: float) -> bool:
    """Whether a head has the size of a grown-up's: below the 5th centile of women it may well be a child's."""
    return head_mm >= reference.adult_heads()["woman"].p5_cm * CM_MM


def least_age_months(head_mm: float) -> float:
    """Age in months below which so large a head is unusual: a boy's, `UNUSUAL_Z` above the median."""
    return _age_months(
        lambda months: head_at_z(heads_at_age(months, "boy").distributions[0], UNUSUAL_Z) < head_mm
    )


def age_months_at(head_mm: float) -> float:
    """Age in months at which the average head is as large; 0 below a newborn's."""
    return _age_months(lambda months: median_mm(heads_at_age(months)) < head_mm)


def _age_months(is_younger: Callable[[float], bool]) -> float:
    """The age in months below which `is_younger` holds, to a tenth."""
    youngest, oldest = 0.0, float(LAST_MONTH)
    while oldest - youngest > 0.1:
        middle = (youngest + oldest) / 2
        youngest, oldest = (middle, oldest) if is_younger(middle) else (youngest, middle)
    return youngest


def mm_in_range(
    value: Length,
    least_mm: float,
    most_mm: float,
    what: Measured,
    pointer: str,
    *,
    meant: Length | None = None,
) -> float:
    """The length in millimetres. Raises `Impossible` where it is out of range; `what` names it in the error.

    The error names the length that was probably `meant`, else the nearest in range.
    """
    value_mm = mm(value)
    if least_mm <= value_mm <= most_mm:
        return value_mm
    nearest = meant or length(min(max(value_mm, least_mm), most_mm), "metric")
    raise Impossible(
        joined(" ", _out_of_range(what, length(value_mm, "metric")), say("head.check_number")),
        pointer=f"{pointer}/value",
        nearest=quantity_text(nearest, 4),
        code="out_of_range",
        suggested={"value": nearest.value, "unit": nearest.unit},
        suggested_at=pointer,
    )


def _out_of_range(what: Measured, value: Length) -> Message:
    return say(f"measure.out_of_range.{what}", value=quantity_text(value, 4))


def head_size(head: Head, units: UnitSystem) -> HeadSize:
    """The head as an answer gives it."""
    return HeadSize(
        circumference=length(head.mm, units), us_hat_number=us_hat_number(head.mm), standard=head.standard
    )


def us_hat_number(head_mm: float) -> str:
    """US hat number of a head, such as `7 1/4`: circumference in inches / pi, to the nearest eighth."""
    eighths = int(head_mm / INCH_MM / pi * 8 + 0.5)
    inches, numerator = divmod(eighths, 8)
    if numerator == 0:
        return str(inches)
    denominator = 8
    while numerator % 2 == 0:
        numerator, denominator = numerator // 2, denominator // 2
    return f"{inches} {numerator}/{denominator}" if inches else f"{numerator}/{denominator}"


def cautions(youngest_months: float | None) -> tuple[Caution, ...]:
    """The cautions for a wearer who may be so young; none for a grown-up, or for None, who cannot be a child."""
    if youngest_months is None or youngest_months >= GROWN_UP_MONTHS:
        return ()
    return tuple(
        Caution(row.code, say(f"caution.{row.code}"), _caution_source(row))
        for row in reference.cautions()
        if row.below_months is None or youngest_months < row.below_months
    )


def _caution_source(row: CautionRow) -> str:
    cited = reference.cite("cautions", row)
    return f"{cited} ({row.scope})" if row.scope else cited


def _median_head(
    heads: Heads, youngest_months: float | None, average: Literal["median", "mean"] = "median"
) -> Head:
    """The head in the middle; of grown-ups a mean is published, which is the median of a normal distribution."""
    return Head(
        median_mm(heads),
        say(f"head.standard.{average}", standard=heads.standard),
        (heads.basis,),
        (),
        youngest_months,
    )


def _chart_head(size: ChartSize, pointer: str, units: UnitSystem) -> Head:
    row = reference.head_chart()[size]
    head_mm = row.head_in * INCH_MM
    basis = Basis(say("head.basis.chart"), reference.cite("head-sizes", row))
    standard = say("head.standard.chart", size=say(f"size.{size}"))
    head = quantity_text(length(head_mm, units), 4)
    if size == "premie":
        return Head(head_mm, standard, (basis,), (), least_age_months(head_mm))
    if size in ("woman", "man"):
        measured_mm = median_mm(heads_of_adults(size))
        measured = quantity_text(length(measured_mm, units), 4)
        message = say(f"head.chart_below_measured.{size}", head=head, measured=measured)
        youngest_months = None
    else:
        age = counted(max(1, round(age_months_at(head_mm))), "months")
        message = say("head.chart_below_measured.child", size=say(f"size.{size}"), head=head, age=age)
        youngest_months = least_age_months(head_mm)
    warning = Notice(code="chart_below_measured", message=message, pointer=pointer)
    return Head(head_mm, standard, (basis,), (warning,), youngest_months, is_hat_size=True)


GOES_WITH_AGE: Final[Mapping[str, Sequence[str]]] = {
    "sex": ("age_months", "age_years", "gestation_weeks"),
    "postmenstrual_weeks": ("gestation_weeks",),
}
"""Ways to give a wearer that a field goes with."""


def _check_wearer(wearer: Wearer, pointer: str) -> None:
    ways = ("head", "age_months", "age_years", "gestation_weeks", "adult", "chart")
    if not any(getattr(wearer, way) is not None for way in ways) and wearer.postmenstrual_weeks is not None:
        raise _postmenstrual_alone(pointer)
    nearest = say("head.ways")
    way = only_one(
        wearer, *ways, what=say("given.size"), pointer=pointer, nearest=nearest, goes_with=GOES_WITH_AGE
    )
    if wearer.sex is not None and way not in GOES_WITH_AGE["sex"]:
        raise Impossible(
            say("head.sex_of_no_age", field=way),
            pointer=f"{pointer}/sex",
            nearest=say("head.without_sex", field=way),
            code="needs_another",
            suggested=None,
        )
    check_postmenstrual(wearer.gestation_weeks, wearer.postmenstrual_weeks, pointer)


def _postmenstrual_alone(pointer: str, suggested: object = UNSET) -> Impossible:
    return Impossible(
        say("head.postmenstrual_alone"),
        pointer=f"{pointer}/postmenstrual_weeks",
        nearest=say("head.gestation_as_well"),
        code="needs_another",
        suggested=suggested,
    )


def check_postmenstrual(gestation: float | None, postmenstrual: float | None, pointer: str = "#") -> None:
    """Raise `Impossible` for a postmenstrual age without the gestation at birth, or below it."""
    if postmenstrual is None:
        return
    if gestation is None:
        raise _postmenstrual_alone(pointer, suggested=None)
    if postmenstrual < gestation:
        raise Impossible(
            say("head.postmenstrual_below"),
            pointer=f"{pointer}/postmenstrual_weeks",
            nearest=say("head.or_more", weeks=gestation),
            code="contradiction",
            suggested=gestation,
        )
