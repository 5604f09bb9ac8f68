"""What makes a native knitter wince in Norwegian and Danish patterns is not written."""

import re
from typing import Any

import msgspec
import pytest

from roundwright.knitting.crown.styles import STYLES
from roundwright.knitting.hat import plan
from roundwright.knitting.hat.request import HatRequest
from roundwright.wording.writing.pattern import pattern

WINCES = {
    "nb": (
        "pinde|pind|ret|strik|gentag|hue|huen|slå|tag|gange|indtagning|omslag|hæft|vrides"  # Danish
        "|maskar|auk|omgangane|minsk|reduser|rad|runde|sting|repeter|tider|glipp|skli|kutt|halen|strømpestrikk|lua"
    ),
    "da": (
        "pinner|pinne|rett|strikk|gjenta|lue|luen|legg|ganger|felling|fell|øk|kast|fest|igjen|trekk"  # Norwegian
        "|runde|reducer|formindsk|fæld|knæk|skær|vrangbord|glattstrikk|rillestrikk|ribbe|bagside|hale|opslå"
    ),
}
"""Words of the neighbour's language, and slips of machines."""
BRIMS = ("ribbed", "folded", "garter", "rolled")


def written(language: str, wording: str, brim: str, style: str, heads: tuple[float, ...]) -> str:
    """The pattern of a hat in these sizes."""
    fields: dict[str, Any] = {
        "language": language,
        "wording": wording,
        "gauge": {"stitches": 20, "rows": 28},
        "sizes": [{"head": {"value": head, "unit": "cm"}} for head in heads],
        "brim": {"kind": brim, "rib": {"knit": 2, "purl": 2}},
        "crown": {"style": style},
        "needles": 4,
    }
    return str(plan.hats(msgspec.convert(fields, HatRequest), pattern).pattern)


def every_pattern(language: str) -> list[str]:
    """Patterns of all styles, with all brims, in both wordings, in one size and in three."""
    return [
        written(language, wording, BRIMS[number % len(BRIMS)], style, heads)
        for number, style in enumerate(sorted(STYLES))
        for wording in ("pattern", "beginner")
        for heads in ((55.5,), (44.5, 49.5, 55.5))
    ]


@pytest.mark.parametrize("language", sorted(WINCES))
def test_no_word_is_the_neighbours_or_a_machines(language: str) -> None:
    """Lines 1 to 3, 6, 9, 11, 12 and 15 of the checklist; Norwegian 1, 2, 3, 6, 9, 10 and 12."""
    winces = re.compile(rf"\b(?:{WINCES[language]})\b", re.IGNORECASE)
    assert [found[0] for text in every_pattern(language) for found in winces.finditer(text)] == []


@pytest.mark.parametrize("language", sorted(WINCES))
def test_a_number_stands_before_its_stitch(language: str) -> None:
    """`2 r, 2 vr` and `2 r sm`, never `r2`, `rett 2` or `2 sm r`."""
    for text in every_pattern(language):
        assert re.search(r"\b(?:r|vr)\d|\b(?:rett?|vrang) \d|\d sm r\b", text) is None


@pytest.mark.parametrize("language", sorted(WINCES))
def test_numbers_are_printed_as_the_language_has_them(language: str) -> None:
    """A decimal comma, a space before the unit, `1. omg`, and never a star without its partner."""
    for text in every_pattern(language):
        lines = text.split("\n")
        assert re.search(r"\d\.\d", text) is None
        assert re.search(r"\d(?:cm|mm)\b", text) is None
        assert re.search(r"\bomg\. \d|\d(?:st|nd|rd|th)\b", text) is None
        assert [line for line in lines if "omg" in line and line.count("*") % 2] == []


@pytest.mark.parametrize(
    ("language", "sizes", "cast_on"),
    [
        ("nb", r"\(\d+\) \d+ \(\d+\)", r"Legg opp \(\d+\) \d+ \(\d+\) m\."),
        ("da", r"\d+ \(\d+\) \d+", r"Slå \d+ \(\d+\) \d+ m op\."),
    ],
)
def test_sizes_stand_in_every_second_bracket(language: str, sizes: str, cast_on: str) -> None:
    """Norwegian `(72) 80 (88)`, Danish `72 (80) 88` and `slå … op` parted; counts as `= 72 m`."""
    text = written(language, "pattern", "ribbed", "wedge", (44.5, 49.5, 55.5))

    assert re.search(cast_on, text)
    assert re.search(rf"= {sizes} m$", text, re.MULTILINE)
    assert re.search(r"\d \(\d+, \d+\)", text) is None
