"""The request for a crown, and the plan its style works from."""

from typing import TYPE_CHECKING, Annotated, Final, Literal, NamedTuple

from msgspec import Meta, Struct

from roundwright.knitting.answers import Impossible
from roundwright.knitting.crown.finish import Finish, close_for
from roundwright.knitting.crown.styles import (
    MOST_USUAL_SECTIONS,
    STYLES,
    USUAL_SECTIONS,
    CrownPlan,
    Style,
    StyleOption,
)
from roundwright.knitting.needles.best_split import USUAL_TOLERANCE, NeedleCount, Tolerance
from roundwright.knitting.needles.whole_repeats import RibRepeat
from roundwright.knitting.quantities import (
    RELAXED_SHAPE,
    Gauge,
    Length,
    UnitSystem,
    mm,
    row_height_mm,
    stitch_width_mm,
)
from roundwright.knitting.rounds.rows import SEAM_STITCHES
from roundwright.knitting.sizing.cast_on import FEWEST_STITCHES
from roundwright.language import Language, Message, say, say_count

MOST_CROWN_STITCHES: Final = 600
"""Stitches before the crown: a large head in the finest thread a hand works takes fewer."""
MOST_SECTIONS: Final = MOST_CROWN_STITCHES // 2
"""Sections of a crown: each needs two stitches to lose one."""
MOST_PLAIN_ROUNDS: Final = 20
"""Plain rounds between two decrease rounds: more make a tube, not a crown."""
MOST_CLOSE: Final = 60
"""Stitches to close at: more leave a hole that no tail draws shut."""

if TYPE_CHECKING:
    StyleName = str
else:  # from the table, so that a style is added in one place
    StyleName = Literal[tuple(STYLES)]

DecreaseAt = Literal["end", "start"]

Worked = Annotated[
    Literal["in_the_round", "flat"],
    Meta(
        description="`in_the_round`, or `flat`: in rows, the first on the right side, with a seam stitch at each edge "
        "that counts among the stitches, and the decreases centred between them."
    ),
]


USUAL_STYLE: Final = "quick"
USUAL_ADULT_STYLE: Final = "wedge"
"""Published: hats for grown-ups are closed in 6 to 9 wedges, 8 most common; repeats of four are for babies' hats."""


class Cadence(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """How decrease rounds and plain rounds take turns."""

    plain_rounds: Annotated[
        int, Meta(ge=0, le=MOST_PLAIN_ROUNDS, description="Plain rounds after a decrease round.")
    ] = 1
    every_round_from: Annotated[
        Annotated[int, Meta(ge=1, le=MOST_CROWN_STITCHES)] | None,
        Meta(
            description="Number of the decrease round from which every round decreases: no plain round follows it or "
            "any after it. Null for never."
        ),
    ] = None


RULE_OF_THUMB: Final = Cadence(plain_rounds=1)
"""A flat top in 8 sections, as published: a decrease round and a plain round in turn."""


class CrownShape(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """How a crown is worked, without its stitches."""

    style: Annotated[
        StyleName | None,
        Meta(
            examples=[USUAL_ADULT_STYLE],
            description="; ".join(f"`{name}`: {style.about}" for name, style in STYLES.items())
            + f". Left out: `{USUAL_STYLE}`; of a hat for a grown-up, or a head as large, `{USUAL_ADULT_STYLE}`.",
        ),
    ] = None
    sections: Annotated[
        Annotated[int, Meta(ge=2, le=MOST_SECTIONS)] | None,
        Meta(
            description="Sections, each with one decrease in a decrease round. Left out: as the style does; `wedge` "
            "takes of 6 to 9 the number that divides the stitches, 8 preferred, and `quick` one for every 4 stitches. "
            "`dome`, `flat` and `cone` without it follow their curve stitch by stitch; with it, as in every hat, they "
            "begin with a decrease and decrease in all sections at once."
        ),
    ] = None
    cadence: Annotated[
        Cadence | None,
        Meta(
            description="How decrease and plain rounds take turns. Left out: as the style does. The `flat` top of a "
            "hat without `sections` has a plain round after every round of 8 decreases; with `sections`, as many as "
            "the gauge takes."
        ),
    ] = None
    close_at: Annotated[
        Annotated[int, Meta(ge=1, le=MOST_CLOSE)] | None,
        Meta(
            description="The crown ends with this number of stitches or fewer. Left out: as the style does."
        ),
    ] = None
    decrease_at: Annotated[
        DecreaseAt,
        Meta(
            description="Where in its section a decrease is worked: `end` (k2, k2tog) or `start` (k2tog, k2)."
        ),
    ] = "end"
    height: Annotated[
        Length | None, Meta(description="Height of a cone. Left out: three quarters of its width.")
    ] = None
    follows_stitches: Annotated[
        Annotated[int, Meta(ge=FEWEST_STITCHES, le=MOST_CROWN_STITCHES)] | None,
        Meta(
            description="Stitches of the crown that it follows, so that sizes of a hat are worked alike: a `dome` in "
            "whole sections the hemisphere on them, a `swirl` the travel of their decreases, where it joins in. Left "
            "out: its own; in a hat of several sizes one count for all."
        ),
    ] = None
    worked: Worked = "in_the_round"
    finish: Annotated[Finish, Meta(description="What becomes of the last stitches. Default: drawn up.")] = (
        Finish()
    )


def style_of(shape: CrownShape) -> Style:
    """The row of the table of styles; the usual one where the shape names none."""
    return STYLES[shape.style or USUAL_STYLE]


def style_text(shape: CrownShape) -> Message:
    """The name of the style, as a message."""
    return say(f"crown.style.{shape.style or USUAL_STYLE}")


class CrownRequest(CrownShape, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A crown to be worked on a number of stitches."""

    stitches: Annotated[
        int, Meta(ge=FEWEST_STITCHES, le=MOST_CROWN_STITCHES, description="Stitches before the crown.")
    ]
    gauge: Annotated[
        Gauge | None,
        Meta(
            description="Gauge of the washed swatch. The geometry needs it, and so does the height of a cone."
        ),
    ] = None
    needles: Annotated[
        NeedleCount | None,
        Meta(description="Needles that hold stitches; left out: the rounds come without needles."),
    ] = None
    tolerance: Tolerance = USUAL_TOLERANCE
    repeat: RibRepeat = 1
    units: Annotated[UnitSystem, Meta(description="Units of the answer.")] = "metric"
    language: Language = None


class CrownInputs(NamedTuple):
    """A requested crown, with JSON pointers to its shape and its gauge in the request."""

    stitches: int
    shape: CrownShape
    gauge: Gauge | None
    pointer: str
    gauge_pointer: str

    @property
    def style(self) -> Style:
        """The row of the table of styles."""
        return style_of(self.shape)

    @property
    def seam_stitches(self) -> int:
        """Seam stitches among the stitches."""
        return SEAM_STITCHES if self.shape.worked == "flat" else 0

    @property
    def stitches_without_seam(self) -> int:
        """Stitches without the seam stitches."""
        return self.stitches - self.seam_stitches

    def is_given(self, option: StyleOption) -> bool:
        """Whether the request sets this option."""
        return _is_given(self.shape, option)


def crown_inputs(
    stitches: int, shape: CrownShape, gauge: Gauge | None, pointer: str, gauge_pointer: str | None
) -> CrownInputs:
    """The inputs of a crown; without `gauge_pointer` the gauge is taken to stand beside the shape.

    Raises `Impossible` for fewer stitches than a crown needs, or more than a hat has.
    """
    gauge_pointer = gauge_pointer or f"{pointer.removesuffix('/crown')}/gauge"
    if not FEWEST_STITCHES <= stitches <= MOST_CROWN_STITCHES:
        few = stitches < FEWEST_STITCHES
        raise Impossible(
            say("crown.too_few" if few else "crown.too_many", stitches=stitches),
            code="out_of_range",
            pointer=f"{gauge_pointer}/stitches",
            nearest=say_count("stitches", FEWEST_STITCHES if few else MOST_CROWN_STITCHES),
        )
    return CrownInputs(stitches, shape, gauge, pointer, gauge_pointer)


def has_whole_sections(shape: CrownShape) -> bool:
    """Whether the crown is worked in whole sections: as its style always is, or since the request says how."""
    style = style_of(shape)
    return style.whole_sections or any(
        _is_given(shape, option) and (option == "sections" or option in style.options)
        for option in _IN_SECTIONS
    )


_IN_SECTIONS: Final[tuple[StyleOption, ...]] = ("sections", "cadence", "follows_stitches")
"""The options that say how sections are worked."""


def _is_given(shape: CrownShape, option: StyleOption) -> bool:
    """Whether the request sets this option."""
    value = getattr(shape, option)
    return value == "start" if option == "decrease_at" else value is not None


def crown_plan(inputs: CrownInputs) -> CrownPlan:
    """What the style works from, with the defaults filled in."""
    shape, style = inputs.shape, inputs.style
    stitches = inputs.stitches_without_seam
    sections = _sections(inputs, stitches)
    in_sections = has_whole_sections(shape)
    width = stitch_width_mm(inputs.gauge, inputs.gauge_pointer) if inputs.gauge else None
    plan = CrownPlan(
        stitches=stitches - stitches % sections if sections and in_sections else stitches,
        close_at=_close_at(inputs),
        sections=sections,
        plain_rounds=None,
        every_round_from=None,
        place="centre" if inputs.seam_stitches else shape.decrease_at,
        rows_per_stitch=width / row_height_mm(inputs.gauge, inputs.gauge_pointer)
        if width and inputs.gauge
        else RELAXED_SHAPE,
        height_stitch_widths=_height_mm(inputs) / width if width and inputs.is_given("height") else None,
        flat=bool(inputs.seam_stitches),
        in_sections=in_sections,
        follows_stitches=shape.follows_stitches,
    )
    if shape.cadence and "cadence" in style.options:
        cadence = shape.cadence
        return plan._replace(plain_rounds=cadence.plain_rounds, every_round_from=cadence.every_round_from)
    if style.last_round_with_plain:
        return plan._replace(plain_rounds=1, every_round_from=max(0, style.last_round_with_plain(plan)) + 1)
    return plan


def _sections(inputs: CrownInputs, stitches: int) -> int:
    sections = inputs.shape.sections if "sections" in inputs.style.options else None
    if sections and 2 * sections > stitches:
        raise Impossible(
            say("crown.too_many_sections", stitches=stitches, sections=sections),
            code="does_not_divide",
            pointer=f"{inputs.pointer}/sections",
            nearest=say("crown.sections", sections=stitches // 2),
            suggested=stitches // 2,
        )
    if sections is None and has_whole_sections(inputs.shape) and not inputs.style.whole_sections:
        return min(USUAL_SECTIONS, stitches // 2)
    return sections or inputs.style.sections(stitches)


def _close_at(inputs: CrownInputs) -> int:
    usual = inputs.style.close_at
    if has_whole_sections(inputs.shape) and not inputs.style.whole_sections:
        usual = MOST_USUAL_SECTIONS
    usual = min(usual + inputs.seam_stitches, inputs.stitches // 2)
    close_at = close_for(inputs.shape.finish.kind, inputs.shape.close_at, usual, f"{inputs.pointer}/close_at")
    if close_at <= inputs.seam_stitches:
        raise Impossible(
            say("crown.flat_closes_at"),
            code="no_room",
            pointer=f"{inputs.pointer}/close_at",
            nearest=say("finish.close_at", stitches=SEAM_STITCHES + 1),
            suggested=SEAM_STITCHES + 1,
        )
    return close_at - inputs.seam_stitches


def _height_mm(inputs: CrownInputs) -> float:
    return mm(inputs.shape.height) if inputs.shape.height else 0.0
