"""The handout to print by its address alone: how the sizes of its form are read, and what that costs."""

from urllib.parse import urlencode

import pytest

from roundwright.knitting.quantities import Gauge
from roundwright.web.problems import ProblemError
from roundwright.web.routes.print_view import MAX_SIZE, PrintedPlan
from tests.contract.test_growth import text_of, too_fast
from tests.long.asking import Service


def sizes_of(text: str, language: str = "en-US"):
    """What the sizes of a form are read as: the label, who wears it, and how many make it."""
    read = PrintedPlan(gauge=Gauge(stitches=20), sizes=text, language=language).request().sizes
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
    with pytest.raises(ProblemError, match="cannot be read as a size") as refused:
        sizes_of(f"woman; {text}")
    assert ["wrong_form"] == [fault.code for fault in refused.value.faults]


@pytest.mark.parametrize(
    ("text", "must"),
    [("25 years", "at most 21"), ("50 weeks", "at most 42"), ("woman x 5000", "at most 1000")],
)
def test_a_size_out_of_range_is_not_said_to_be_missing(text, must):
    """It was read: what it must be is said, with what was written."""
    with pytest.raises(ProblemError, match=f"'{text}': This must be {must}.$") as refused:
        sizes_of(text)
    assert ["out_of_range"] == [fault.code for fault in refused.value.faults]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("de", "Tovi: 9 Monate x 2; 1 Jahr; FRAU"),
        ("fr", "Tovi: 9 mois x 2; 1 an; femme"),
        ("es", "Tovi: 9 meses × 2; 1 año; mujer"),
        ("nb", "Tovi: 9 måneder x2; 1 år; kvinne"),
        ("da", "Tovi: 9 måneder x 2; 1 år; kvinde"),
        ("nl", "Tovi: 9 maanden x 2; 1 jaar; vrouw"),
        ("de", "Tovi: 9 months x 2; 1 year; woman"),
    ],
)
def test_a_size_is_read_in_the_language_of_the_handout(language, text):
    """As people say an age or a grown-up there, or in English."""
    expected = [
        ("Tovi", None, 9, None, None, 2),
        (None, None, None, 1, None, 1),
        (None, None, None, None, "woman", 1),
    ]
    assert expected == sizes_of(text, language)


@pytest.mark.parametrize("text", ['17"', "17 ”", "17 inches", "17in"])
def test_inches_are_read_however_they_are_written(text):
    """Signs and words (common practice)."""
    ((_, head, *_),) = sizes_of(text)
    assert (17, "in") == (head.value, head.unit)


@pytest.mark.parametrize(("text", "head", "makers"), [("55,5", 55.5, 1), ("Tovi: 48 x 3", 48, 3)])
def test_a_bare_number_that_only_a_head_in_cm_has_is_one(text, head, makers):
    """The label says cm; 22 may be a grown-up's head in inches (ANSUR II: 57 cm, 22.6 in), and 9 an age."""
    ((_, read, _, _, _, knitters),) = sizes_of(text)
    assert (head, "cm", makers) == (read.value, read.unit, knitters)
    for doubtful in ("22", "9", "70"):
        with pytest.raises(ProblemError, match="cannot be read as a size"):
            sizes_of(doubtful)


def test_a_bare_number_of_the_form_is_in_the_unit_of_its_label():
    """Depth in cm, a ball in g and m, whatever the pattern is written in; a unit that is written goes before it."""
    service = Service()
    form = {"gauge_stitches": "20", "sizes": "woman", "units": "imperial"}
    bare = {"depth": "20,5", "yarn_mass": "50", "yarn_length": "110"}
    written = {"depth": "20.5 cm", "yarn_mass": "50 g", "yarn_length": "110 m"}
    answers = [service.ask("GET", "/handout", urlencode(form | more).encode()) for more in (bare, written)]
    assert [200, 200] == [answer.status for answer in answers]
    assert answers[0].body == answers[1].body


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
