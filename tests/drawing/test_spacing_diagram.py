"""The picture of a round or row with its changes."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from roundwright.drawing.spacing_diagram import spacing_diagram
from roundwright.knitting.answers import Impossible
from roundwright.knitting.shaping.evenly import even
from roundwright.knitting.shaping.request import EvenRequest
from tests.support.picture_reader import SVG, assert_stands_alone, key_text, parsed, text_of


def picture(**fields):
    flat = fields.get("worked") == "flat"
    return spacing_diagram(even(EvenRequest(**fields)).round, flat=flat)


def sequence(drawn: str) -> list[str]:
    """Gaps and symbols in working order; the first line is the lowest."""
    chart = parsed(drawn).findall(f"{SVG}g")[1]
    counts_size = "26"
    texts = [("".join(text.itertext()), text.get("font-size")) for text in chart.iter(f"{SVG}text")]
    return [text for text, size in texts if "sts" not in text and size != counts_size]


@pytest.mark.parametrize(
    ("fields", "expected"),
    [
        # Published examples (references, section 7: P), and derived by q = S div k, r = S mod k (A).
        ({"stitches": 48, "change": 12, "worked": "flat"}, ["2", *["M", "4"] * 11, "M", "2"]),
        ({"stitches": 100, "change": 10}, ["10", "M"] * 10),
        ({"stitches": 100, "change": 8}, ["13", "M", "12", "M"] * 4),
        ({"stitches": 100, "change": -8}, ["11", "/", "10", "/"] * 4),
        ({"stitches": 90, "change": -7}, [*["11", "/"] * 6, "10", "/"]),
    ],
)
def test_gaps_are_those_of_the_published_examples(fields, expected):
    """The numbers and symbols of the picture, in working order, are the round as printed."""
    assert expected == sequence(picture(**fields))


def test_gaps_of_one_round_may_stand_in_any_rotation():
    """51 stitches and 4 more: three gaps of 13 and one of 12 (published)."""
    assert ["12", "13", "13", "13"] == sorted(sequence(picture(stitches=51, change=4))[::2])


def test_the_key_names_the_change():
    """Every symbol is in the key, with the marker where it is a round."""
    round_key = key_text(parsed(picture(stitches=100, change=8)))
    row_key = key_text(parsed(picture(stitches=100, change=-8, worked="flat", method="ssk")))

    assert "m1: make one" in round_key
    assert "marker" in round_key
    assert "ssk: slip, slip, knit, leans left" in row_key
    assert "marker" not in row_key


def test_more_than_a_picture_shows_is_refused():
    """More than 200 changes or 2,000 stitches can be spread, but not drawn."""
    with pytest.raises(Impossible, match="200 changes"):
        picture(stitches=1000, change=201)
    with pytest.raises(Impossible, match="2000 stitches"):
        picture(stitches=2001, change=1)


@settings(max_examples=80, deadline=None)
@given(
    stitches=st.integers(1, 2000),
    change=st.integers(-400, 400),
    flat=st.booleans(),
    arrangement=st.sampled_from(["balanced", "grouped"]),
    edge=st.integers(0, 5),
)
def test_every_round_is_drawn_or_refused(stitches, change, flat, arrangement, edge):
    """A picture stands alone, and its gaps and changes use up the stitches of the round."""
    try:
        spread = even(
            EvenRequest(
                stitches=stitches,
                change=change,
                worked="flat" if flat else "in_the_round",
                arrangement=arrangement,
                edge_stitches=edge if flat else 0,
            )
        ).round
        drawn = spacing_diagram(spread, flat=flat)
    except Impossible:
        return

    assert_stands_alone(drawn)
    parts = sequence(drawn)
    used = sum(int(part) if part.isdigit() else {"M": 0, "/": 2}[part] for part in parts)
    assert stitches == used
    assert abs(change) == len([part for part in parts if not part.isdigit()])
    assert spread.text in text_of(parsed(drawn), "desc")
