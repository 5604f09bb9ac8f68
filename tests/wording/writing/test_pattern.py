"""The written pattern, as a knitter reads it."""

import re

import pytest

from roundwright.knitting.hat import plan
from roundwright.knitting.hat.request import HatRequest, HatSize
from roundwright.knitting.quantities import Gauge
from roundwright.wording.writing.pattern import pattern, sections
from tests.support.hats import BABIES, hats
from tests.support.patterns import lines

GAUGE_16 = {"stitches": 16, "rows": 22}


def test_sizes_are_listed_the_trades_way() -> None:
    """`Cast on 52 (56, 64, 68) sts.`: the first size before the bracket (common practice)."""
    assert lines(hats(sizes=BABIES)["pattern"], "CAST ON")[0] == "Cast on 52 (56, 64, 68) sts."


def test_only_the_abbreviations_used_are_explained() -> None:
    """A hat without purling does not explain purl."""
    explained = lines(hats(sizes=BABIES)["pattern"], "ABBREVIATIONS")[0]
    assert "k2tog: knit two together" in explained
    assert "purl" not in explained
    assert "purl" in lines(hats(sizes=BABIES, brim={"kind": "ribbed"})["pattern"], "ABBREVIATIONS")[0]


@pytest.mark.parametrize(
    ("terms", "gauge", "fabric"), [("us", "GAUGE", "stockinette"), ("uk", "TENSION", "stocking stitch")]
)
def test_us_and_uk_say_it_their_way(terms: str, gauge: str, fabric: str) -> None:
    """Gauge and stockinette in the US are tension and stocking stitch in the UK (Craft Yarn Council; common lists)."""
    assert fabric in lines(hats(sizes=BABIES, terms=terms)["pattern"], gauge)[0]


@pytest.mark.parametrize(
    ("kind", "depth"),
    [
        ("rolled", "Depth, edge to top: 21 cm with the edge rolled up; 23 cm from the cast-on edge"),
        ("folded", "Depth, edge to top: 21 cm with the brim turned up; 26.5 cm from the cast-on edge"),
        ("ribbed", "Depth, edge to top: 21 cm"),
    ],
)
def test_the_depth_is_told_as_worn_and_as_the_work_is_measured(kind: str, depth: str) -> None:
    """The work measures 19.5 cm before a crown of 7.1, brim unfolded, of a hat 21 cm deep when 5.25 are turned up."""
    hat = hats(gauge={"stitches": 20, "rows": 28}, sizes=[{"adult": "woman"}], brim={"kind": kind})
    assert lines(hat["pattern"], "FINISHED MEASUREMENTS")[-1] == depth


@pytest.mark.parametrize(
    ("language", "tail"),
    [
        ("en-US", "leaving a tail of 9 to 12 in."),
        ("de", "25 bis 30 cm stehen lassen."),
    ],
)
def test_the_tail_of_the_size_that_needs_the_longest_is_printed_for_all(language: str, tail: str) -> None:
    """A smaller opening would do with a shorter tail: a range for each size is read by nobody."""
    sizes = [{"adult": "woman"}, *({"head": {"value": head, "unit": "cm"}} for head in (40, 60))]
    units = "imperial" if language == "en-US" else "metric"
    hat = hats(gauge=GAUGE_16, sizes=sizes, units=units, crown={"style": "quick"}, language=language)
    assert tail in hat["pattern"]


def test_yarn_held_double_has_the_class_of_a_strand_and_of_both() -> None:
    """140 m in 100 g are worsted, 70 m super bulky (common practice); the tail is as long in both strands."""
    yarn = {"mass": {"value": 50, "unit": "g"}, "length": {"value": 70, "unit": "m"}}
    text = {
        held: hats(sizes=BABIES, gauge=GAUGE_16, yarn={**yarn, "held": held})["pattern"] for held in (1, 2)
    }

    assert "Yarn, worsted/aran (4) weight, 50 g" in text[1]
    assert (
        "Yarn, worsted/aran (4) weight in one strand, super bulky/super chunky (6) in all strands together, "
        "with two strands held together throughout, 50 g" in text[2]
    )
    assert [" of each strand." in text[held] for held in (1, 2)] == [False, True]


@pytest.mark.parametrize(
    ("language", "words"),
    [
        ("en-US", "kfb: knit into the front and back"),
        ("fr", "1 aug barrée : tricoter la maille suivante dans le brin avant et dans le brin arrière"),
        ("es", "tejer el punto siguiente por delante y por detrás"),
        ("de", "die nächste Masche vorn und hinten rechts stricken"),
        ("nl", "brei de volgende steek in de voorste en de achterste lus"),
        ("nb", "strikk neste maske både foran og bak"),
        ("da", "strik næste maske både forfra og bagfra"),
    ],
)
def test_both_loops_of_a_bar_increase_are_named(language: str, words: str) -> None:
    """Knitting a stitch twice could be into the same loop, which makes none (Craft Yarn Council: front and back)."""
    pattern = hats(
        gauge=GAUGE_16,
        sizes=[{"head": {"value": 55, "unit": "cm"}}],
        silhouette="slouch",
        language=language,
    )["pattern"]
    assert words in pattern.replace("\xa0", " ")


def test_inches_are_printed_in_quarters() -> None:
    """A tape in inches is read in quarters, one in centimetres in halves (common practice)."""
    imperial = hats(sizes=BABIES, units="imperial")["pattern"]
    circumference = lines(imperial, "FINISHED MEASUREMENTS")[1]
    assert re.fullmatch(r"Circumference: [\d /(),]+ in, unstretched", circumference)
    assert "." not in circumference


def test_the_sections_stand_in_the_order_of_a_pattern() -> None:
    """Sizes first, cautions last (common practice)."""
    request = HatRequest(gauge=Gauge(stitches=18, rows=24), sizes=(HatSize(age_months=0),))
    answer = plan.hats(request, pattern)
    written = [
        section.heading for section in sections(request, answer.sizes, answer.cautions, answer.warnings)
    ]
    assert written == [
        "Sizes", "Finished measurements", "Materials", "Gauge", "Abbreviations", "Notes", "Cast on", "Brim", "Body",
        "Crown", "Finishing", "Cautions",
    ]  # fmt: skip


def test_the_cautions_are_one_short_paragraph_and_its_sources() -> None:
    """A baby's: cords (EN 14682), small parts (16 CFR 1501), sleep (AAP 2022), care (ISO 3758); a handful of lines."""
    paragraph, sources = lines(hats(sizes=BABIES)["pattern"], "CAUTIONS")

    assert len(paragraph.split()) <= 80
    assert "ties or drawstrings" in paragraph
    assert re.fullmatch(
        r"Sources: .*EN 14682.*16 CFR 1501.*Pediatrics 150.*ISO 3758.*common practice\.", sources
    )
    assert len(sources.split()) <= 20


@pytest.mark.parametrize("size", [{"head": {"value": 50.5, "unit": "cm"}}, {"age_years": 8}])
def test_no_infants_caution_for_a_head_no_infant_has(size: dict[str, object]) -> None:
    """WHO: at one year 49.9 cm is three standard deviations above a boy's median; above it nothing of sleep."""
    paragraph, _ = lines(hats(sizes=[size])["pattern"], "CAUTIONS")

    assert "sleep" not in paragraph
    assert "baby" not in paragraph


@pytest.mark.parametrize(
    ("size", "label"),
    [({"age_months": 1}, "1 month"), ({"age_months": 3}, "3 months"), ({"age_years": 1}, "1 year"),
     ({"age_years": 8, "sex": "girl"}, "8 years, girl"), ({"age_years": 0}, "newborn"),
     ({"gestation_weeks": 30, "postmenstrual_weeks": 34}, "born at 30, now 34 weeks")],
)  # fmt: skip
def test_an_age_is_counted_as_it_is_spoken(size: dict[str, object], label: str) -> None:
    """1 month, 3 months, 1 year: the name of a size without a label."""
    assert [label] == lines(hats(sizes=[size])["pattern"], "SIZES")
