"""What is written in a language is read back: the same rounds, and nothing wrong with them."""

from typing import Any

import pytest

from roundwright import reference
from roundwright.knitting.hat import plan
from roundwright.language import ENGLISH
from roundwright.wording.proofreading.read import read
from tests.support.random_hats import MANY, planned, random_hat
from tests.wording.proofreading.test_read import runs_of, worked

HATS = int(MANY or "10")
"""Hats of each language that are written and read back."""
TRUE_OF_SOME = {"rhythm_broken", "sizes_not_growing"}
"""Notes that are true: a crown ends with closer decreases, or a smaller head has the deeper hat."""


def reads_back(answer: plan.HatsAnswer, language: str) -> None:
    """Every round of every size has the stitches that were planned, and there is nothing to be said of the text."""
    reading = read(str(answer.pattern), tuple(size.cast_on.stitches for size in answer.sizes), language)

    assert [
        (finding.line, finding.message) for finding in reading.findings if finding.code not in TRUE_OF_SOME
    ] == []
    assert [[runs_of(round.steps) for round in rounds] for rounds in reading.rounds] == [
        worked(size) for size in answer.sizes
    ]


@pytest.mark.parametrize("number", range(HATS))
@pytest.mark.parametrize("language", [ENGLISH, *reference.LANGUAGES])
def test_what_is_written_is_read_back(language: str, number: int) -> None:
    """Hats by chance on every kind of needles, in both wordings, in several sizes."""
    answer = planned(random_hat(number, language))
    if answer is None:
        pytest.skip("no such hat can be made")
    reads_back(answer, language)


LOOPS: list[dict[str, Any]] = [
    {"magic_loop": {"value": 80, "unit": "cm"}},
    {"circulars": 2},
    {"circular": {"value": 40, "unit": "cm"}, "double_pointed": 4},
]
FAMILY = [{"age_months": 6}, {"age_years": 4}, {"adult": "woman"}]


@pytest.mark.parametrize("wording", ["pattern", "beginner"])
@pytest.mark.parametrize("needles", LOOPS, ids="_".join)
@pytest.mark.parametrize("style", ["quick", "gathered", "square", "swirl"])
def test_stitches_that_are_slid_are_no_count(style: str, needles: dict[str, Any], wording: str) -> None:
    """`Slide 1 stitch from the first half to the second half` stands between rounds and counts nothing."""
    for stitches in (17, 20, 23):
        answer = planned(
            {
                "gauge": {"stitches": stitches, "rows": stitches * 1.4},
                "sizes": FAMILY,
                "needles": needles,
                "crown": {"style": style},
                "wording": wording,
            }
        )
        assert answer is not None
        reads_back(answer, ENGLISH)


def test_a_pattern_at_the_finest_gauge_is_read_to_its_end() -> None:
    """A hat for one toddler at 40 stitches to 10 cm, written for beginners: 150 lines."""
    answer = planned(
        {
            "gauge": {"stitches": 40, "rows": 55.5},
            "sizes": [{"chart": "toddler"}],
            "needles": 4,
            "brim": {"kind": "ribbed", "rib": {"knit": 1, "purl": 3}},
            "crown": {"style": "wedge", "sections": 5, "cadence": {"plain_rounds": 2}},
            "silhouette": "pointed",
            "wording": "beginner",
            "body": {"fullness": 30},
        }
    )
    assert answer is not None
    reads_back(answer, ENGLISH)


@pytest.mark.parametrize("wording", ["pattern", "beginner"])
@pytest.mark.parametrize("language", [ENGLISH, *reference.LANGUAGES])
def test_a_body_with_a_swatch_of_its_own_is_read_as_rounds_that_keep_the_count(
    language: str, wording: str
) -> None:
    """The stitch pattern is the knitter's; a round before it and one behind it lead to its count and back."""
    for stitches in (16, 26):
        answer = planned(
            {
                "gauge": {"stitches": 20, "rows": 28},
                "sizes": FAMILY,
                "brim": {"kind": "ribbed"},
                "body": {"gauge": {"stitches": stitches, "rows": 30}},
                "needles": 4,
                "language": language,
                "wording": wording,
            }
        )
        assert answer is not None
        assert all(size.crown.is_adjusted for size in answer.sizes)
        reads_back(answer, language)


@pytest.mark.parametrize("number", [38, 83, 136, 272])
def test_a_pattern_of_sizes_far_apart_is_read_to_its_end(number: int) -> None:
    """Three to seven sizes at 34 to 40 stitches, from a preterm baby up: 200 lines and more."""
    answer = planned(random_hat(number))
    assert answer is not None
    reads_back(answer, ENGLISH)


def test_a_size_without_a_body_joins_in_where_the_crown_says_so() -> None:
    """The rounds before are those of larger sizes, though its brim had numbers too."""
    answer = planned(random_hat(662))
    assert answer is not None
    assert 0 in [size.body.rounds for size in answer.sizes]
    reads_back(answer, ENGLISH)


@pytest.mark.parametrize("number", [394, 934, 8769])
def test_a_size_joins_in_behind_the_rounds_of_a_larger_one_wherever_its_brim_ended(number: int) -> None:
    """No body, and a crown that smaller sizes begin before or behind the number their brim ended with (by chance)."""
    answer = planned(random_hat(number))
    assert answer is not None
    assert 0 in [size.body.rounds for size in answer.sizes]
    reads_back(answer, ENGLISH)


@pytest.mark.parametrize(
    ("number", "language"),
    [(610, ENGLISH), (610, "es"), (897, "de"), (1959, "nb"), (1959, "da")],
)
def test_a_pattern_is_read_back_that_lies_near_a_bound_or_another_meaning(number: int, language: str) -> None:
    """265 lines in two colours; `aus 1 M 2 M herausstr (= 32 M)` is no list of sizes; `slik omgang` tells no rhythm."""
    answer = planned(random_hat(number, language))
    assert answer is not None
    reads_back(answer, language)
