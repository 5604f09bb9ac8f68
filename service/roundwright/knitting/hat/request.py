"""Request for a hat: gauge, sizes, brim, body, crown, needles and yarn."""

from collections.abc import Mapping
from typing import Annotated, Final, Literal

from msgspec import Meta, Struct
from msgspec.structs import replace

from roundwright import reference
from roundwright.knitting.answers import Impossible
from roundwright.knitting.crown.finish import Finish
from roundwright.knitting.crown.request import CrownShape
from roundwright.knitting.hat.colours import Colours
from roundwright.knitting.hat.needles import HatNeedles
from roundwright.knitting.needles.best_split import USUAL_TOLERANCE, NeedleCount
from roundwright.knitting.quantities import Gauge, Length, UnitSystem
from roundwright.knitting.sizing.cast_on import HatEase
from roundwright.knitting.sizing.depth import USUAL_SILHOUETTE, SilhouetteName
from roundwright.knitting.sizing.heads import Wearer
from roundwright.knitting.yarn.label import OtherYarn, Yarn
from roundwright.knitting.yarn.purchase import DEFAULT_MARGIN, MarginPercent
from roundwright.language import Language, say, say_count

MOST_SIZES: Final = 12
"""Sizes in one pattern: more than any pattern prints."""
MOST_MAKERS: Final = 1_000
"""Knitters of one size: more than fit in a hall."""
MOST_HAT_TOLERANCE: Final = 2 * USUAL_TOLERANCE
"""Stitches by which a hat's needles may differ: twice the usual. `/v1/needles/split` allows more."""
LONGEST_RIB: Final = 12
"""Stitches knitted or purled side by side in a rib: more reads as stripes."""

MOST_FULLNESS: Final = 100.0
"""Percent more stitches in the body than in the brim: beyond it a stitch would have to become three in one round."""

BrimKind = Literal["rolled", "ribbed", "garter", "folded"]
BRIM_SHARE: Final[Mapping[BrimKind, float]] = {"rolled": 0.1, "ribbed": 0.2, "garter": 0.15, "folded": 0.25}
"""Brim as a share of the depth where no length is given (common practice)."""
_BRIM_SHARES: Final = ", ".join(f"{kind} {100 * share:g} %" for kind, share in BRIM_SHARE.items())
Terms = Annotated[
    Literal["us", "uk"],
    Meta(description="Words of the pattern: US (bind off, gauge) or UK (cast off, tension)."),
]
Wording = Annotated[
    Literal["pattern", "beginner"],
    Meta(description="`pattern`: standard abbreviations; `beginner`: plain sentences, one action each."),
]


def require_size(number: int, sizes: int, pointer: str) -> None:
    """Raise `Impossible` for a number of a size, from 1, beyond the last of so many sizes."""
    if number > sizes:
        raise Impossible(
            say_count("hat.no_such_size", sizes, size=number),
            code="not_there",
            pointer=pointer,
            nearest=say("hat.size_number", size=sizes),
            suggested=sizes,
        )


NEEDLES_SHOWN: Final = [4, {"magic_loop": {"value": 80, "unit": "cm"}}]
"""Needles as a request has them, for the document and for errors."""


class Rib(Struct, frozen=True, forbid_unknown_fields=True):
    """A rib: stitches knitted and stitches purled in turn around."""

    knit: Annotated[int, Meta(ge=1, le=LONGEST_RIB, description="Stitches knitted side by side.")] = 1
    purl: Annotated[int, Meta(ge=1, le=LONGEST_RIB, description="Stitches purled side by side.")] = 1


class Brim(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """The edge of the hat."""

    kind: Annotated[
        BrimKind | None,
        Meta(
            description="`rolled`: plain knitting that curls by itself; `ribbed`; `garter`: one round knitted, one "
            "purled; `folded`: rib worked twice as long and turned up. Left out: as the silhouette has it, else "
            "`rolled`."
        ),
    ] = None
    length: Annotated[
        Length | None,
        Meta(
            description="Finished length: of the roll as it lies uncurled, of the rib or garter, of the turn-up. "
            f"Left out: a share of the depth ({_BRIM_SHARES}; common practice)."
        ),
    ] = None
    rib: Annotated[
        Rib, Meta(description="The rib of a ribbed or folded brim. The cast-on is a multiple of it.")
    ] = Rib()
    gauge: Annotated[
        Gauge | None,
        Meta(
            description="Gauge of a washed swatch of the brim's own pattern, for its stitches, its rounds and its "
            "yarn. Left out, or without rows: that of the hat, but garter has two rounds, one ridge, as high as a "
            "stitch is wide."
        ),
    ] = None

    smaller_needle: Annotated[
        bool,
        Meta(
            description="Whether the brim is worked on needles one or two sizes smaller than the rest (common practice "
            "for rib). The count stays."
        ),
    ] = False

    @property
    def edge(self) -> BrimKind:
        """Its kind, where it is left out that of a hat without a silhouette."""
        return self.kind or "rolled"

    @property
    def is_ribbed(self) -> bool:
        """Whether it is rib, worked single or double."""
        return self.edge in ("ribbed", "folded")

    @property
    def repeat(self) -> int:
        """The cast-on is a multiple of this."""
        return self.rib.knit + self.rib.purl if self.is_ribbed else 1


AdjustIn = Literal["body", "brim"]
ADJUST_IN: Final = (
    "Where the round is worked that leads from the count of the brim to that of the body, where they differ: `body`, "
    "as its first round, or `brim`, as its last. Left out: `body`, as published hats do (Patons PAK0416)."
)


class Body(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """The straight part of the hat."""

    length: Annotated[
        Length | None,
        Meta(
            description="From the cast-on edge to the first round of the crown, the brim uncurled and unfolded, the "
            "needle not counted. Left out: so that edge to top makes the usual depth for the head."
        ),
    ] = None
    fullness: Annotated[
        Annotated[float, Meta(ge=0, le=MOST_FULLNESS)] | None,
        Meta(
            description="Percent more stitches in the body than in the brim, 0 to 100: a slouch or a beret. Left out: "
            "none."
        ),
    ] = None
    adjust_in: Annotated[AdjustIn | None, Meta(description=ADJUST_IN)] = None
    gauge: Annotated[
        Gauge | None,
        Meta(
            description="Gauge of a washed swatch of the body's own pattern, for its stitches, its rounds and its "
            "yarn. Left out, or without rows: that of the hat, which the crown has in any case."
        ),
    ] = None


class HatSize(Wearer, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """One size: whose head, what to call it, how many are knitted."""

    label: Annotated[
        Annotated[str, Meta(min_length=1, max_length=40)] | None,
        Meta(description="Name of the size. Left out: the head in words."),
    ] = None
    makers: Annotated[
        int, Meta(ge=1, le=MOST_MAKERS, description="How many knitters make it, one hat each.")
    ] = 1
    body: Annotated[
        Body | None, Meta(description="The straight part of this size, where it differs from the others'.")
    ] = None
    depth: Annotated[
        Length | None, Meta(description="Depth of this size, where it differs from the others'.")
    ] = None
    needles: Annotated[
        NeedleCount | HatNeedles | None,
        Meta(
            description="The needles of this size, where they differ from the others'.",
            examples=NEEDLES_SHOWN,
        ),
    ] = None


UNNAMED: Final = "A hat in the round"
"""The name of a pattern without a name, as the document has it; what is written has it in its language."""


class HatRequest(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A hat to be knitted in one or more sizes."""

    name: Annotated[str, Meta(min_length=1, max_length=80, description="Name of the pattern.")] = UNNAMED
    gauge: Annotated[Gauge, Meta(description="Gauge of the washed swatch, worked in the round.")]
    sizes: Annotated[
        tuple[HatSize, ...],
        Meta(
            min_length=1,
            max_length=MOST_SIZES,
            description="The sizes, smallest first.",
        ),
    ]
    only_size: Annotated[
        Annotated[int, Meta(ge=1, le=MOST_SIZES)] | None,
        Meta(
            description="Place of a size in `sizes`, from 1: pattern, handout and yarn are for the knitter who makes "
            "that size alone, worked as it is beside the others. Left out: all sizes."
        ),
    ] = None
    ease: HatEase = None
    yarn: Annotated[
        Yarn | None, Meta(description="The yarn; without it the answer has lengths, but no balls.")
    ] = None
    other_yarn: OtherYarn = None
    colours: Annotated[
        Colours | None,
        Meta(
            description="Stripes, and a brim in other colours: the answer has the yarn of every colour.",
            examples=[{"body": [{"colour": "rust", "rounds": 4}, {"colour": "cream", "rounds": 2}]}],
        ),
    ] = None
    margin_percent: MarginPercent = DEFAULT_MARGIN
    brim: Annotated[
        Brim, Meta(description="The edge of the hat. Default: as the silhouette has it, else rolled.")
    ] = Brim()
    body: Annotated[
        Body, Meta(description="The straight part. Default: to the usual depth for the head.")
    ] = Body()
    depth: Annotated[
        Length | None,
        Meta(
            description="Edge to top as worn, along the fabric, brim rolled or turned up, the point of a cone "
            "included. In place of `body.length`. Left out: as the silhouette says."
        ),
    ] = None
    silhouette: Annotated[
        SilhouetteName | None,
        Meta(
            description="Chooses depth, fullness, crown and brim where the request says nothing else: "
            + "; ".join(f"`{name}` {row.about}" for name, row in reference.silhouettes().items())
            + f". A row of `/v1/standards/silhouettes`. Left out: as deep as a `{USUAL_SILHOUETTE}`."
        ),
    ] = None
    crown: Annotated[CrownShape, Meta(description="How the top is closed.")] = CrownShape()
    needles: Annotated[
        NeedleCount | HatNeedles | None,
        Meta(
            description="What the stitches are on: a number of double-pointed needles that hold stitches while one "
            "more works, or a magic loop, two circulars, a short circular. Left out: no split is given.",
            examples=NEEDLES_SHOWN,
        ),
    ] = None
    tolerance: Annotated[
        int,
        Meta(
            ge=0,
            le=MOST_HAT_TOLERANCE,
            description="Most stitches by which the fullest and the emptiest needle may differ. Default 4.",
        ),
    ] = USUAL_TOLERANCE
    finish: Annotated[
        Finish | None, Meta(description="What is done with the last stitches; left out: as `crown` says.")
    ] = None
    terms: Terms = "us"
    wording: Wording = "pattern"
    units: Annotated[UnitSystem, Meta(description="Units of the answer and of the pattern.")] = "metric"
    language: Language = None

    def needles_of(self, index: int) -> HatNeedles | None:
        """The needles of one size: its own, else those of all."""
        own = self.sizes[index].needles
        needles = self.needles if own is None else own
        return HatNeedles(double_pointed=needles) if isinstance(needles, int) else needles

    def needles_pointer(self, index: int, at: str) -> str:
        """The pointer to the needles of one size."""
        own = self.sizes[index].needles is not None
        return f"{at}/sizes/{index}/needles" if own else f"{at}/needles"

    def needles_held(self, index: int) -> int | None:
        """Needles or halves that hold the stitches of one size; None without needles and on a short circular."""
        needles = self.needles_of(index)
        if needles is None or needles.circular is not None:
            return None
        return needles.double_pointed or 2

    def without_needles(self) -> "HatRequest":
        """The same hat, its stitches not shared out over needles."""
        sizes = tuple(replace(size, needles=None) for size in self.sizes)
        return replace(self, needles=None, sizes=sizes)

    def body_of(self, index: int) -> Body:
        """The body of one size: what is said of it, else what is said of all."""
        own = self.sizes[index].body
        if own is None:
            return self.body
        values = {name: getattr(own, name) for name in Body.__struct_fields__}
        return replace(self.body, **{name: value for name, value in values.items() if value is not None})
