"""Rows of the reference tables: one struct a table, one row a published fact.

Lengths keep the unit they were printed in, named in the field (`head_in`, `p50_cm`, `mm`). Every row names its source
(`source`, `mark`); a null is something the source leaves open.
"""

from typing import Annotated, Literal

from msgspec import Meta, Struct

from roundwright.reference.table import Mark, SourceKey

Sex = Annotated[Literal["boy", "girl"], Meta(description="Sex of the children measured.")]
Lean = Literal["left", "right", "upright"]


class StitchSymbolName(Struct, frozen=True, kw_only=True):
    """What the symbol of a stitch is called in a language that has names for symbols."""

    language: Annotated[str, Meta(min_length=2, description="Language of the name (BCP 47).")]
    name: Annotated[str, Meta(min_length=1, description="The name, as charts print it.")]
    source: SourceKey
    mark: Mark


class StitchRow(Struct, frozen=True, kw_only=True):
    """A stitch: what it does to the count, how it looks, and what the hands do."""

    name: Annotated[str, Meta(min_length=1, description="Standard abbreviation, lower case.")]
    uses: Annotated[int, Meta(ge=0, le=9, description="Stitches taken from the left needle.")]
    leaves: Annotated[int, Meta(ge=0, le=9, description="Stitches put on the right needle.")]
    leans: Annotated[
        Lean | None, Meta(description="Way it leans on the side it is worked; null if it does not.")
    ]
    symbol: Annotated[
        str, Meta(min_length=1, max_length=3, description="Chart symbol; a space is an empty cell.")
    ]
    words: Annotated[str, Meta(min_length=1, description="The abbreviation spelled out.")]
    how: Annotated[str, Meta(min_length=1, description="What the hands do, for a beginner.")]
    names: Annotated[
        tuple[StitchSymbolName, ...],
        Meta(
            description="Names of the symbol, for the keys of charts. Japanese names say which stitch lies on top: "
            "左上2目一度, the left on top, is k2tog and leans right."
        ),
    ]
    wrong_side: Annotated[
        str | None, Meta(description="Stitch to work on the wrong side for the same look on the right side.")
    ]
    source: SourceKey
    mark: Mark


class AbbreviationRow(Struct, frozen=True, kw_only=True):
    """An abbreviation of knitting patterns, or a spelling of one seen in print."""

    abbreviation: Annotated[str, Meta(min_length=1, description="As it is usually printed.")]
    words_us: Annotated[str, Meta(min_length=1, description="What it stands for, in US words.")]
    words_uk: Annotated[str, Meta(min_length=1, description="What it stands for, in UK words.")]
    spellings: Annotated[tuple[str, ...], Meta(description="Other spellings seen in print.")]
    stitch: Annotated[str | None, Meta(description="The stitch it names; null when it is no stitch.")]
    source: SourceKey
    mark: Mark


class TermRow(Struct, frozen=True, kw_only=True):
    """A word of the trade that differs between the United States and the United Kingdom."""

    us: Annotated[str, Meta(min_length=1, description="US term.")]
    uk: Annotated[str, Meta(min_length=1, description="UK term.")]
    source: SourceKey
    mark: Mark


class WordRow(Struct, frozen=True, kw_only=True):
    """A word or phrase of written patterns, with the kind of thing it says."""

    word: Annotated[
        str, Meta(min_length=1, description="The word or phrase; case, dots and hyphens do not matter.")
    ]
    kind: Annotated[
        str,
        Meta(
            min_length=1,
            description="What it says: `stitch`, `number`, `repeat`, `around`, `cast_on`, `closing` and so on; "
            "`filler` says nothing.",
        ),
    ]
    means: Annotated[
        str | None,
        Meta(description="The stitch or the number it stands for; null where its kind says it all."),
    ] = None
    source: SourceKey
    mark: Mark


class WordingRow(Struct, frozen=True, kw_only=True):
    """A stitch or word of patterns in another language: how it is worded, and the English words it stands for."""

    means: Annotated[
        str,
        Meta(
            description="The English words, with the letters of the slots; digits where the row is a number."
        ),
    ]
    reads: Annotated[
        tuple[Annotated[str, Meta(min_length=1)], ...],
        Meta(
            min_length=1,
            description="Wordings that are read. `{n}`, `{m}`, `{a}`, `{b}`, `{c}` stand for a number or a list of "
            "sizes, `{o}`, `{p}`, `{q}` for an ordinal, `{s}` for ordinals in a list, `[a word]` for what may be left "
            "out, `...` for some words of the same sentence, `^` and `$` where a sentence begins and ends, `~` for any "
            "end of a word. A single word is read in the other rows too, in place of the first of its row.",
        ),
    ]
    kind: Annotated[
        Literal["word", "number", "ordinal", "ending", "filler", "join", "only", "size", "letters"],
        Meta(
            description="`number` and `ordinal`: one in words; `ending`: what makes an ordinal of a number; `filler`: "
            "says nothing, between the words of any wording; `join`: stands with or without a comma before what "
            "begins a sentence of its own; `only`: before or behind the letters of the sizes that a line is for; "
            "`size`: capitals of a size, with those of English; `letters`: those of old print and of other keyboards, "
            "and words of old print, with those of the wordings; else `word`."
        ),
    ] = "word"
    writes: Annotated[
        str | None,
        Meta(description="The wording in which the service prints it; null where another row has it."),
    ] = None
    plain: Annotated[str | None, Meta(description="The same written out for beginners.")] = None
    source: SourceKey
    mark: Mark


class YarnWeightRow(Struct, frozen=True, kw_only=True):
    """A class of yarn thickness with the gauge and needles usual for it."""

    number: Annotated[int, Meta(ge=0, le=7, description="Number of the class.")]
    name: Annotated[str, Meta(description="Name of the class.")]
    stitches_min: Annotated[
        int | None, Meta(description="Fewest stitches in 4 in (10 cm) of stockinette; null: and fewer.")
    ]
    stitches_max: Annotated[int, Meta(description="Most stitches in 4 in (10 cm) of stockinette.")]
    needle_mm_min: Annotated[float, Meta(description="Thinnest usual needle, in mm.")]
    needle_mm_max: Annotated[
        float | None, Meta(description="Thickest usual needle, in mm; null: and larger.")
    ]
    needle_us_min: Annotated[str, Meta(description="US number of the thinnest usual needle.")]
    needle_us_max: Annotated[str | None, Meta(description="US number of the thickest; null: and larger.")]
    wpi_min: Annotated[int, Meta(description="Fewest wraps per inch.")]
    wpi_max: Annotated[int | None, Meta(description="Most wraps per inch; null: and more.")]
    source: SourceKey
    mark: Mark


class YarnLengthRow(Struct, frozen=True, kw_only=True):
    """How far yarn of a class usually goes."""

    number: Annotated[int, Meta(ge=0, le=7, description="Number of the yarn weight class.")]
    name: Annotated[str, Meta(description="What shops call yarn of this thickness.")]
    names: Annotated[tuple[str, ...], Meta(description="The same, name by name, in US and then UK terms.")]
    metres_min: Annotated[int | None, Meta(description="Least usual length of 100 g, in m; null: and less.")]
    metres_max: Annotated[int, Meta(description="Greatest usual length of 100 g, in m.")]
    source: SourceKey
    mark: Mark


class NeedleSizeRow(Struct, frozen=True, kw_only=True):
    """A needle diameter with every number that charts print for it."""

    mm: Annotated[float, Meta(description="Diameter in mm.")]
    us: Annotated[tuple[str, ...], Meta(description="US numbers; several where charts disagree.")]
    uk: Annotated[tuple[str, ...], Meta(description="Old UK numbers; several where charts disagree.")]
    jp: Annotated[tuple[str, ...], Meta(description="Japanese numbers.")]
    source: SourceKey
    mark: Mark


class NeedleLengthRow(Struct, frozen=True, kw_only=True):
    """A length in which double-pointed needles are sold."""

    length_in: Annotated[int, Meta(description="Length of the needle, in inches.")]
    source: SourceKey
    mark: Mark


class CircularLengthRow(Struct, frozen=True, kw_only=True):
    """A length in which circular needles are sold."""

    length_cm: Annotated[int, Meta(description="Length tip to tip, in cm, as labels have it.")]
    length_in: Annotated[int, Meta(description="The same in inches, as labels have it.")]
    source: SourceKey
    mark: Mark


class YarnCountRow(Struct, frozen=True, kw_only=True):
    """A system of yarn counts, defined by a length and a mass.

    A direct count n means n masses to the length; an inverse count n means n lengths to the mass.
    """

    system: Annotated[str, Meta(description="Name of the system, as in a yarn count's unit.")]
    relation: Annotated[
        Literal["direct", "inverse"],
        Meta(description="direct: mass for a fixed length; inverse: length for a fixed mass."),
    ]
    length: Annotated[float, Meta(description="Length of the definition, in `length_unit`.")]
    length_unit: Annotated[Literal["m", "yd"], Meta(description="Unit of `length`.")]
    mass: Annotated[float, Meta(description="Mass of the definition, in `mass_unit`.")]
    mass_unit: Annotated[Literal["g", "lb"], Meta(description="Unit of `mass`.")]
    tex: Annotated[float, Meta(description="Tex of count 1, rounded as it is printed.")]
    source: SourceKey
    mark: Mark


class HeadChartRow(Struct, frozen=True, kw_only=True, tag_field="kind", tag="chart"):
    """A size of a garment chart: a hat size rather than a measured head."""

    name: Annotated[str, Meta(description="Name of the size.")]
    head_in: Annotated[float, Meta(description="Head circumference, in inches.")]
    source: SourceKey
    mark: Mark


class PreemieHeadRow(Struct, frozen=True, kw_only=True, tag_field="kind", tag="preemie"):
    """The head for which a charity collects hats, by week of gestation."""

    gestation_weeks: Annotated[int, Meta(description="Completed weeks of gestation.")]
    head_in: Annotated[float, Meta(description="Head circumference, in inches.")]
    source: SourceKey
    mark: Mark


class HatNumberRow(Struct, frozen=True, kw_only=True, tag_field="kind", tag="hat-number"):
    """A head with the hat numbers printed for it."""

    head_cm: Annotated[float, Meta(description="Head circumference, in cm.")]
    us: Annotated[float, Meta(description="US hat number: circumference in inches / pi, to the nearest 1/8.")]
    uk: Annotated[float, Meta(description="UK hat number: 1/8 less.")]
    source: SourceKey
    mark: Mark


class WhoHeadRow(Struct, frozen=True, kw_only=True, tag_field="standard", tag="who"):
    """Heads of children of an age: centile z lies at m_cm (1 + z s), since l is 1."""

    sex: Sex
    month: Annotated[int, Meta(ge=0, le=60, description="Age in months of 30.4375 days.")]
    day: Annotated[int, Meta(description="Age in days, to the nearest whole day.")]
    l: Annotated[float, Meta(description="Box-Cox power; 1 throughout.")]  # noqa: E741 - the name of the standard
    m_cm: Annotated[float, Meta(description="Median head circumference, in cm.")]
    s: Annotated[float, Meta(description="Coefficient of variation.")]
    source: SourceKey
    mark: Mark


class WhoWeekHeadRow(Struct, frozen=True, kw_only=True, tag_field="standard", tag="who-weekly"):
    """Heads of children in their first weeks: centile z lies at m_cm (1 + z s), since l is 1."""

    sex: Sex
    week: Annotated[int, Meta(ge=0, le=13, description="Age in weeks.")]
    day: Annotated[int, Meta(description="Age in days.")]
    l: Annotated[float, Meta(description="Box-Cox power; 1 throughout.")]  # noqa: E741 - the name of the standard
    m_cm: Annotated[float, Meta(description="Median head circumference, in cm.")]
    s: Annotated[float, Meta(description="Coefficient of variation.")]
    source: SourceKey
    mark: Mark


class IntergrowthHeadRow(Struct, frozen=True, kw_only=True, tag_field="standard", tag="intergrowth"):
    """Heads at birth by gestation. Two models meet between 32 and 33 weeks: never interpolate across."""

    sex: Sex
    week: Annotated[int, Meta(ge=24, le=42, description="Completed weeks of gestation at birth.")]
    model: Annotated[
        Literal["very-preterm", "newborn"],
        Meta(description="very-preterm: 24-32 weeks; newborn: 33-42 weeks."),
    ]
    p3_cm: Annotated[float, Meta(description="3rd centile of head circumference, in cm.")]
    p50_cm: Annotated[float, Meta(description="Median head circumference, in cm.")]
    p97_cm: Annotated[float, Meta(description="97th centile of head circumference, in cm.")]
    source: SourceKey
    mark: Mark


class FetalHeadRow(Struct, frozen=True, kw_only=True, tag_field="standard", tag="intergrowth-fetal"):
    """Heads before birth by ultrasound, girls and boys together: outer skull, without skin and tape."""

    week: Annotated[int, Meta(ge=14, le=40, description="Weeks of gestation.")]
    mean_cm: Annotated[float, Meta(description="Mean head circumference, in cm.")]
    sd_cm: Annotated[float, Meta(description="Standard deviation, in cm.")]
    source: SourceKey
    mark: Mark


class OlsenHeadRow(Struct, frozen=True, kw_only=True, tag_field="standard", tag="olsen"):
    """Heads at birth in the United States: centile z lies at m_cm (1 + l s z)^(1/l)."""

    sex: Sex
    week: Annotated[int, Meta(description="Completed weeks of gestation at birth.")]
    l: Annotated[float, Meta(description="Box-Cox power.")]  # noqa: E741 - the name of the standard
    m_cm: Annotated[float, Meta(description="Median head circumference, in cm.")]
    s: Annotated[float, Meta(description="Coefficient of variation.")]
    source: SourceKey
    mark: Mark


class PostnatalHeadRow(Struct, frozen=True, kw_only=True, tag_field="standard", tag="intergrowth-postnatal"):
    """Heads of preterm babies after birth, by postmenstrual age."""

    sex: Sex
    week: Annotated[int, Meta(ge=27, le=64, description="Postmenstrual age in weeks.")]
    mean_cm: Annotated[float, Meta(description="Mean head circumference, in cm.")]
    sd_cm: Annotated[float, Meta(description="Standard deviation, in cm.")]
    source: SourceKey
    mark: Mark


class NetherlandsHeadRow(Struct, frozen=True, kw_only=True):
    """Heads of children and young people of an age: centile z lies at m_cm (1 + z s), since l is 1."""

    sex: Sex
    years: Annotated[float, Meta(ge=5, le=21, description="Age in years, by half years.")]
    l: Annotated[float, Meta(description="Box-Cox power; 1 throughout.")]  # noqa: E741 - the name of the standard
    m_cm: Annotated[float, Meta(description="Median head circumference, in cm.")]
    s: Annotated[float, Meta(description="Coefficient of variation.")]
    source: SourceKey
    mark: Mark


class AdultHeadRow(Struct, frozen=True, kw_only=True):
    """Measured heads of adults."""

    adult: Annotated[Literal["woman", "man"], Meta(description="Whose heads were measured.")]
    people: Annotated[int, Meta(description="Number of people measured.")]
    mean_cm: Annotated[float, Meta(description="Mean head circumference, in cm.")]
    sd_cm: Annotated[float, Meta(description="Standard deviation, in cm.")]
    p5_cm: Annotated[float, Meta(description="5th centile, in cm.")]
    p95_cm: Annotated[float, Meta(description="95th centile, in cm.")]
    source: SourceKey
    mark: Mark


class EaseRow(Struct, frozen=True, kw_only=True):
    """A printed rule for how much smaller than the head a hat is."""

    name: Annotated[str, Meta(description="Short name of the rule.")]
    rule: Annotated[str, Meta(description="The rule in words.")]
    smaller_in_min: Annotated[float | None, Meta(description="Least reduction, in inches; null for a share.")]
    smaller_in_max: Annotated[
        float | None, Meta(description="Greatest reduction, in inches; null for a share.")
    ]
    share_of_head: Annotated[
        float | None, Meta(description="Hat as a fraction of the head; null for a length.")
    ]
    source: SourceKey
    mark: Mark


class DepthRuleRow(Struct, frozen=True, kw_only=True, tag_field="kind", tag="rule"):
    """A printed rule for the depth of a hat, brim to top: a share of a circumference, and something added."""

    name: Annotated[str, Meta(description="Short name of the rule.")]
    rule: Annotated[str, Meta(description="The rule in words.")]
    of: Annotated[Literal["hat", "head"], Meta(description="Whose circumference is meant.")]
    share: Annotated[float, Meta(description="Fraction of that circumference.")]
    plus_min: Annotated[float, Meta(description="Least addition, in `plus_unit`.")]
    plus_max: Annotated[float, Meta(description="Greatest addition, in `plus_unit`.")]
    plus_unit: Annotated[Literal["in", "cm"], Meta(description="Unit of the addition.")]
    source: SourceKey
    mark: Mark


class DepthExampleRow(Struct, frozen=True, kw_only=True, tag_field="kind", tag="example"):
    """A printed depth for a hat, brim to top."""

    hat_in: Annotated[float, Meta(description="Circumference of the hat, in inches.")]
    depth_in_min: Annotated[float, Meta(description="Least depth, in inches.")]
    depth_in_max: Annotated[float, Meta(description="Greatest depth, in inches.")]
    source: SourceKey
    mark: Mark


class SilhouetteRow(Struct, frozen=True, kw_only=True):
    """A silhouette: how deep a hat of its kind is, how full, and how it ends."""

    name: Annotated[str, Meta(description="Name of the silhouette.")]
    about: Annotated[str, Meta(description="What it is.")]
    head_share: Annotated[
        float, Meta(description="Depth, edge to top as worn, as a fraction of the head's circumference.")
    ]
    baby_rule: Annotated[
        str | None,
        Meta(description="Rule of the table of depths for a baby's head; null where it is the same."),
    ]
    fullness_percent: Annotated[
        float, Meta(description="Percent more stitches in the body than in the brim.")
    ]
    crown: Annotated[str | None, Meta(description="Style of the crown; null where it depends on the wearer.")]
    brim: Annotated[str | None, Meta(description="Kind of brim; null where it makes no difference.")]
    source: SourceKey
    mark: Mark


class LoopConstantRow(Struct, frozen=True, kw_only=True):
    """Constants of plain knitting in a state of relaxation; loop length and counts in the same unit."""

    state: Annotated[
        Literal["dry-relaxed", "wet-relaxed", "fully-relaxed"],
        Meta(description="How the fabric was treated."),
    ]
    kc: Annotated[float, Meta(description="Course constant: rows per unit length x loop length.")]
    kw: Annotated[float, Meta(description="Wale constant: stitches per unit length x loop length.")]
    ks: Annotated[float, Meta(description="Area constant: stitches per unit area x loop length squared.")]
    source: SourceKey
    mark: Mark


class BuyingRow(Struct, frozen=True, kw_only=True):
    """Yarn that a book recommends to buy for a hat: two to three times what a hat uses."""

    number: Annotated[int, Meta(ge=0, le=7, description="Number of the yarn weight class.")]
    name: Annotated[str, Meta(description="Name of the class.")]
    yards_min: Annotated[int, Meta(description="Least to buy, in yards.")]
    yards_max: Annotated[int, Meta(description="Most to buy, in yards.")]
    source: SourceKey
    mark: Mark


class TailRow(Struct, frozen=True, kw_only=True):
    """A printed rule for the tail of a long-tail cast-on; the parts that are not null are added up."""

    name: Annotated[str, Meta(description="Short name of the rule.")]
    rule: Annotated[str, Meta(description="The rule in words.")]
    widths: Annotated[float | None, Meta(description="Times the width of the cast-on edge.")]
    plus_percent: Annotated[float | None, Meta(description="Percent added to that.")]
    plus_in: Annotated[float | None, Meta(description="Length added, in inches.")]
    wraps_per_stitch: Annotated[float | None, Meta(description="Wraps of the needle for each stitch.")]
    per_stitch_in: Annotated[float | None, Meta(description="Length for each stitch, in inches.")]
    source: SourceKey
    mark: Mark


class PracticeRow(Struct, frozen=True, kw_only=True):
    """A figure of the trade, with the range in print."""

    name: Annotated[str, Meta(description="Short name of the figure.")]
    rule: Annotated[str, Meta(description="The figure in words.")]
    low: Annotated[float, Meta(description="Least value in print, in `unit`.")]
    high: Annotated[float | None, Meta(description="Greatest value in print, in `unit`; null: and more.")]
    usual: Annotated[float | None, Meta(description="Most common value, in `unit`; null when none is.")]
    unit: Annotated[str, Meta(description="What is counted or measured.")]
    source: SourceKey
    mark: Mark


class ClassHelpRow(Struct, frozen=True, kw_only=True):
    """What a teacher of beginners says in every class."""

    name: Annotated[str, Meta(description="Short name of the advice.")]
    needles: Annotated[
        Literal["any", "several", "loop"],
        Meta(
            description="Work it is for: `several` for double-pointed needles, `loop` for a loop or two circulars."
        ),
    ]
    text: Annotated[str, Meta(description="The advice, for a beginner.")]
    source: SourceKey
    mark: Mark


class CautionRow(Struct, frozen=True, kw_only=True):
    """A caution that goes with a hat for a child."""

    code: Annotated[str, Meta(description="Short name of the caution.")]
    below_months: Annotated[
        int | None,
        Meta(description="Holds for children younger than this, in months; null: for every child."),
    ]
    text: Annotated[str, Meta(description="The caution, a sentence for a knitter.")]
    scope: Annotated[
        str | None, Meta(description="Where the service goes further than its source; null: nowhere.")
    ]
    short: Annotated[str, Meta(description="Its source as a sheet names it.")]
    source: SourceKey
    mark: Mark
