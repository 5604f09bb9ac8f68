"""The needles in the written pattern."""

from typing import Any

import pytest

from tests.support.hats import BABIES, hats
from tests.support.patterns import lines

WOMAN = {"adult": "woman"}
CIRCULAR = {"circular": {"value": 40, "unit": "cm"}, "double_pointed": 4}


def pattern(**fields: Any) -> str:
    fields.setdefault("gauge", {"stitches": 20, "rows": 28})
    fields.setdefault("sizes", [WOMAN])
    text: str = hats(**fields)["pattern"]
    return text


@pytest.mark.parametrize(
    ("terms", "units", "sizes"),
    [
        # Worsted yarn, Craft Yarn Council: 4.5 to 5.5 mm, US 7 to 9; at least five charts: UK 7 to 5.
        ("us", "metric", "4.5 to 5.5 mm (US 7 to 9)"),
        ("us", "imperial", "US 7 to 9 (4.5 to 5.5 mm)"),
        ("uk", "metric", "4.5 to 5.5 mm (UK 7 to 5)"),
    ],
)
def test_needle_sizes_are_named_as_the_country_names_them(terms: str, units: str, sizes: str) -> None:
    """In mm and in the numbers of the country, the units of the pattern first."""
    assert sizes in lines(pattern(terms=terms, units=units, needles=4), "MATERIALS")[1]


@pytest.mark.parametrize(
    ("gauge", "units", "text"),
    [
        ({"stitches": 20, "rows": 28}, "metric", "20 stitches and 28 rounds in 10 cm"),
        ({"stitches": 20, "rows": 28}, "imperial", "20.3 stitches and 28.4 rounds in 4 in"),
        ({"stitches": 5, "over": {"value": 1, "unit": "in"}}, "imperial", "5 stitches in 1 in"),
        ({"stitches": 5, "over": {"value": 1, "unit": "in"}}, "metric", "19.7 stitches in 10 cm"),
    ],
)
def test_the_gauge_is_in_the_units_of_the_pattern(gauge: dict[str, Any], units: str, text: str) -> None:
    """4 in are 10.16 cm: arithmetic, to a tenth."""
    assert lines(pattern(gauge=gauge, units=units), "GAUGE")[0].startswith(text)


def test_the_change_stands_before_its_round() -> None:
    """`Change to double-pointed needles: after the next round only 72 stitches are left.` (common practice)."""
    crown = lines(pattern(needles=CIRCULAR), "CROWN")
    at = next(number for number, line in enumerate(crown) if "Change to double-pointed" in line)

    assert "are left, too few to reach round 40 cm" in crown[at]
    assert crown[at + 1].startswith("Rnd ")


def test_the_marker_falls_off_between_needles_and_not_on_a_cord() -> None:
    """On double-pointed needles it hangs after the first stitch, placed in the second round (common practice)."""
    on_needles, on_cord = (lines(pattern(needles=needles), "CAST ON")[-1] for needles in (4, CIRCULAR))

    assert on_needles.startswith("In the second round hang a marker after the first stitch")
    assert on_needles.endswith("Rounds begin one stitch before it.")
    assert on_cord == "Put a marker at the start of the round."


def test_the_first_round_counts_with_the_brim() -> None:
    """The round that puts the stitches on the needles is one of the brim's (common practice)."""
    (join,) = (line for line in lines(pattern(needles=4), "CAST ON") if line.startswith("Join"))

    assert "the first round of the brim" in join
    assert join.endswith("It is counted with the brim.")


def test_a_smaller_needle_for_the_rib() -> None:
    """The rib is worked on needles one or two sizes smaller (common practice)."""
    text = pattern(brim={"kind": "ribbed", "smaller_needle": True}, needles=4)

    assert "for the brim a second needle or set, one or two sizes smaller" in lines(text, "MATERIALS")[1]
    assert lines(text, "CAST ON")[0] == "Cast on and work the brim with the smaller needles."
    assert lines(text, "BODY")[0] == "Change to the larger needles."


def test_sizes_on_other_needles_have_lines_of_their_own() -> None:
    """A baby's hat does not reach around 40 cm: its needles, start and marker are named apart."""
    text = pattern(sizes=[BABIES[1], WOMAN], needles=CIRCULAR)
    materials = lines(text, "MATERIALS")

    assert materials[1].startswith("Size 1 only: double-pointed needles")
    assert materials[2].startswith("Size 2 only: a circular needle of 40 cm")
