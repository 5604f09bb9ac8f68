"""Weight class of a yarn: by its label, by the gauge, and where they contradict each other."""

import pytest

from roundwright.knitting.quantities import Gauge, Length, Mass
from roundwright.knitting.yarn.label import Yarn
from roundwright.knitting.yarn.per_stitch import fabric_of
from tests.support.hats import hats


def yarn(metres: float, held: int = 1) -> Yarn:
    return Yarn(length=Length(metres, "m"), mass=Mass(100, "g"), held=held)


def gauge(stitches: float) -> Gauge:
    return Gauge(stitches=stitches, rows=1.4 * stitches)


@pytest.mark.parametrize(
    ("metres", "stitches", "classes"),
    [
        (420, 28, [1]),  # fingering
        (220, 22, [3]),  # DK or worsted by its length; its gauge is that of DK
        (220, 18, [4]),  # the same yarn at the gauge of worsted
        (220, 14, [3, 4]),  # a gauge of neither
        (500, 26, [0, 1]),  # between fingering and lace
        (1000, 35, [0]),  # finer than any usual lace
        (40, 8, [6]),
    ],
)
def test_the_class_is_that_of_the_yarn_itself(metres: float, stitches: float, classes: list[int]) -> None:
    """Metres in 100 g by class are common practice; a yarn of two classes is of the one its gauge has, too."""
    assert [weight.number for weight in fabric_of(gauge(stitches), yarn(metres)).weights] == classes


def test_without_a_label_the_class_is_that_of_the_gauge() -> None:
    """18 stitches in 10 cm are Medium (Craft Yarn Council)."""
    assert [weight.name for weight in fabric_of(gauge(18), None).weights] == ["Medium"]


@pytest.mark.parametrize(
    ("metres", "held", "stitches", "contradicts"),
    [
        (800, 1, 9, True),  # lace at the gauge of super bulky
        (60, 1, 28, True),  # super bulky at the gauge of fingering
        (210, 1, 14, False),  # DK or worsted at the gauge of bulky: the next class
        (800, 8, 9, False),  # eight strands of lace are as thick as super bulky
        (420, 2, 20, False),  # two strands of fingering are DK or worsted
        (420, 1, 20, True),
    ],
)
def test_a_label_that_contradicts_the_gauge_is_a_warning(
    metres: float, held: int, stitches: float, contradicts: bool
) -> None:
    """Two classes apart or more; neighbours overlap in print (common practice)."""
    codes = [notice.code for notice in fabric_of(gauge(stitches), yarn(metres, held)).warnings]
    assert ("label_contradicts_gauge" in codes) == contradicts


def test_the_pattern_says_the_class_of_the_yarn_by_its_name() -> None:
    """100 g / 800 m is lace, whatever its gauge; the answer warns."""
    answer = hats(
        gauge={"stitches": 9, "rows": 12},
        sizes=[{"adult": "woman"}],
        yarn={"mass": {"value": 100, "unit": "g"}, "length": {"value": 800, "unit": "m"}},
    )
    assert "lace (0) weight" in answer["pattern"]
    assert "Super Bulky" not in answer["pattern"]
    assert "label_contradicts_gauge" in [notice["code"] for notice in answer["warnings"]]


def test_metres_of_a_thin_yarn_are_printed_in_full() -> None:
    """100 g / 1200 m is a thread for lace: its warning says 1200, not a power of ten."""
    warnings = fabric_of(gauge(20), yarn(1200, 1)).warnings
    message = next(notice.message for notice in warnings if notice.code == "label_contradicts_gauge")

    assert "(1200 m in 100 g)" in message


def test_the_pattern_names_both_classes_and_the_needles_of_both() -> None:
    """20.5 stitches in 10 cm lie between worsted (4) and DK (3), 3.75 to 5.5 mm (Craft Yarn Council)."""
    answer = hats(gauge={"stitches": 20.5, "rows": 28}, sizes=[{"adult": "woman"}])
    assert "worsted/aran (4) or DK (3) weight" in answer["pattern"]
    assert "about 3.75 to 5.5 mm" in answer["pattern"]
    assert [notice["code"] for notice in answer["warnings"]] == ["between_yarn_weights"]


def test_the_pattern_says_strands_held_together() -> None:
    """Who reads a pattern must know that the yarn is worked double."""
    held = {"mass": {"value": 50, "unit": "g"}, "length": {"value": 210, "unit": "m"}, "held": 2}
    answer = hats(gauge={"stitches": 20, "rows": 28}, sizes=[{"adult": "woman"}], yarn=held)
    assert "with two strands held together throughout" in answer["pattern"]
