"""The handout to print by its address alone: how the sizes of its form are read, and what that costs."""

from urllib.parse import urlencode

import pytest

from roundwright.knitting.answers import Impossible
from roundwright.knitting.quantities import Gauge
from roundwright.web.routes.print_view import MAX_SIZE, PrintedPlan
from tests.contract.test_growth import text_of, too_fast
from tests.long.asking import Service


def sizes_of(text: str):
    """What the sizes of a form are read as: the label, who wears it, and how many make it."""
    read = PrintedPlan(gauge=Gauge(stitches=20), sizes=text).request().sizes
    return [
        (size.label, size.head, size.age_months, size.age_years, size.adult, size.makers) for size in read
    ]


@pytest.mark.parametrize("text", ["Marrow: 9 months x 4", "  Marrow :9   Months x4 ", "Marrow:\t9 month x 4"])
def test_a_size_is_read_however_it_is_spaced(text):
    """A name, an age and how many knitters."""
    assert [("Marrow", None, 9, None, None, 4)] == sizes_of(text)


@pytest.mark.parametrize(
    "text",
    ["wmoan", "9", "cm", "months", "5 woman", "woman x", "22 in" + " x 1" * 30, "W" * MAX_SIZE + ": woman"],
)
def test_what_is_no_size_is_said_to_be_none(text):
    """The answer repeats what was written, and not names of fields that the form does not have."""
    with pytest.raises(Impossible, match="cannot be read as a size"):
        sizes_of(f"woman; {text}")


@pytest.mark.parametrize("unit", [" ", "\t", "9", "a", ":", "x", "9 ", "x 9", ";", ".", "Marrow: "])
@pytest.mark.parametrize("start", ["woman;", "9", "Marrow:", ""])
def test_a_text_of_sizes_costs_its_length(start, unit):
    """Blanks, digits and names without end take no more than twice the time for twice the text."""
    service = Service()

    def cost(length: int) -> float:
        query = urlencode({"gauge_stitches": 20, "sizes": text_of((start, unit, "!"), length)}).encode()
        answer = service.ask("GET", "/handout", query)
        assert b"/problems/cannot-be-knitted" in answer.body
        return answer.ms

    assert 0 == too_fast(cost, 300)
