"""Labels: what they say of a yarn, and what is refused."""

import pytest

from roundwright.knitting.answers import Impossible
from roundwright.knitting.quantities import Length, Mass, YarnCount
from roundwright.knitting.yarn.label import Price, Yarn, strand_of
from roundwright.knitting.yarn.per_stitch import fabric_of
from tests.support.yarns import GAUGE


@pytest.mark.parametrize(
    "yarn",
    [
        Yarn(length=Length(210, "m"), mass=Mass(100, "g")),
        Yarn(count=YarnCount(2.1, "nm"), mass=Mass(100, "g")),
        Yarn(count=YarnCount(2.1, "nm"), length=Length(210, "m")),
        Yarn(count=YarnCount(2.1, "nm"), length=Length(210, "m"), mass=Mass(100, "g")),
    ],
)
def test_any_two_of_length_mass_and_count_make_the_third(yarn: Yarn) -> None:
    """Nm is metres in a gram: 210 m in 100 g are Nm 2.1 (ISO 1144)."""
    strand = strand_of(yarn)
    assert (strand.tex, strand.ball_mm, strand.ball_g) == pytest.approx((1000 / 2.1, 210_000, 100))


@pytest.mark.parametrize(
    ("yarn", "pointer"),
    [
        (Yarn(name="Quillhaven Wether"), "#/yarn"),
        (Yarn(count=YarnCount(2.1, "nm"), price=Price(7, "EUR")), "#/yarn/price"),
        (
            Yarn(length=Length(210, "m"), mass=Mass(100, "g"), count=YarnCount(4, "nm")),
            "#/yarn/count",
        ),
        (Yarn(length=Length(210, "mm"), mass=Mass(100, "kg")), "#/yarn"),
        (Yarn(length=Length(210, "m"), mass=Mass(0.1, "g")), "#/yarn"),
        (Yarn(mass=Mass(100, "g")), "#/yarn"),
    ],
)
def test_a_label_that_makes_no_yarn_is_refused(yarn: Yarn, pointer: str) -> None:
    """The error names the field and the nearest thing that works."""
    with pytest.raises(Impossible) as error:
        fabric_of(GAUGE, yarn)
    assert error.value.pointer == pointer
    assert error.value.nearest
