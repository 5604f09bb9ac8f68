"""What a request for a hat leaves open: the style of its crown and its sections, the same in all sizes."""

import re
from itertools import pairwise
from math import hypot, pi, sqrt
from typing import Any

import pytest

from tests.support import by_hand
from tests.support.hats import BABIES, hats

CLASS = [{"age_months": 12}, {"age_months": 48}, {"chart": "child"}, {"adult": "woman"}, {"adult": "man"}]
GAUGES = [(14, 20), (18, 24), (20, 28), (22, 30), (28, 36)]
CURVED = ["dome", "flat", "cone"]


def crown_lines(answer: dict[str, Any]) -> list[str]:
    """The lines of the crown in the pattern."""
    return answer["pattern"].split("\n\nCROWN\n")[1].split("\n\n")[0].splitlines()


@pytest.mark.parametrize("style", CURVED)
def test_all_sizes_have_the_same_sections(style: str) -> None:
    """Whole sections on every size, so that all decrease at once: published hats take 8, smaller ones 6."""
    for sizes, gauge in [(sizes, gauge) for sizes in (CLASS, BABIES) for gauge in GAUGES]:
        answer = hats(
            sizes=sizes, gauge={"stitches": gauge[0], "rows": gauge[1]}, crown={"style": style}, needles=4
        )
        crowns = [size["crown"] for size in answer["sizes"]]
        assert len({crown["sections"] for crown in crowns}) == 1
        assert crowns[0]["sections"] in (6, 8)
        for size, crown in zip(answer["sizes"], crowns, strict=True):
            assert crown["stitches"] % crown["sections"] == 0
            assert crown["rounds"][0]["kind"] == "decrease"  # plain rounds before it belong to the body
            assert by_hand.work_hat(size) == size["crown"]["stitches_left"] <= 9
            taken = {
                round["before"] - round["after"]
                for round in crown["rounds"]
                if round["before"]
                > crown["sections"]  # a stitch a section is left: the last round takes half
            }
            assert taken <= {0, crown["sections"]}


@pytest.mark.parametrize("style", CURVED)
def test_the_pattern_of_five_sizes_is_short(style: str) -> None:
    """At most 1.3 lines for a round of the largest size, no bracket in a bracket, nothing to slide."""
    answer = hats(sizes=CLASS, gauge={"stitches": 20, "rows": 28}, crown={"style": style}, needles=4)
    lines, rounds = crown_lines(answer), max(len(size["crown"]["rounds"]) for size in answer["sizes"])
    assert len(lines) <= 1.3 * rounds
    assert not [line for line in lines if "slide" in line]


@pytest.mark.parametrize("sizes", [CLASS, BABIES])
@pytest.mark.parametrize("style", [*CURVED, "wedge", "quick", "square", "swirl", "gathered"])
def test_no_pattern_has_a_bracket_in_a_bracket(style: str, sizes: list[dict[str, Any]]) -> None:
    """Neither [.. [..] ..] nor *.. [..] .. in any style, at any usual gauge."""
    for stitches, rows in GAUGES:
        answer = hats(sizes=sizes, gauge={"stitches": stitches, "rows": rows}, crown={"style": style})
        nested = [
            line
            for line in crown_lines(answer)
            if re.search(r"\[[^\]]*\[", line) or re.search(r"\*[^;]*\[", line)
        ]
        assert not nested


def test_a_flat_top_takes_eight_every_second_round() -> None:
    """The published rule of thumb for stockinette."""
    rounds = hats(sizes=[{"adult": "woman"}], crown={"style": "flat"})["sizes"][0]["crown"]["rounds"]
    taken = [round["before"] - round["after"] for round in rounds]
    assert taken[::2] == [8] * len(taken[::2])
    assert not any(taken[1::2])


@pytest.mark.parametrize("style", CURVED)
def test_a_baby_in_the_set_leaves_a_grown_up_eight_sections(style: str) -> None:
    """Published: 6 to 9 decreases in a round, 8 most common; on four needles two sections each and nothing to slide."""
    sizes = [{"age_months": 6}, {"adult": "woman"}]
    answer = hats(sizes=sizes, gauge={"stitches": 14, "rows": 20}, crown={"style": style}, needles=4)
    assert [size["crown"]["sections"] for size in answer["sizes"]] == [8, 8]
    assert answer["sizes"][1]["crown"]["split"]["straddles"] == 0


@pytest.mark.parametrize(
    "sizes",
    [
        [{"gestation_weeks": 28}, {"adult": "woman"}],
        [{"age_months": 1}, {"adult": "woman"}],
        [{"gestation_weeks": 24}, {"adult": "man"}],
    ],
)
@pytest.mark.parametrize("gauge", GAUGES)
def test_a_flat_top_is_flat_beside_a_baby(sizes: list[dict[str, Any]], gauge: tuple[int, int]) -> None:
    """A disc grows by 2π for each unit of radius (Knitter's Almanac, 1974); 8 every second round come within 15 %."""
    answer = hats(
        sizes=sizes, gauge={"stitches": gauge[0], "rows": gauge[1]}, crown={"style": "flat"}, needles=4
    )
    geometry = answer["sizes"][-1]["crown"]["geometry"]
    assert geometry["slope"] == pytest.approx(2 * pi, rel=0.15)


def test_a_dome_begins_slowly_and_ends_as_a_disc() -> None:
    """Decreases of a hemisphere come closer towards the pole, and are there those of a disc."""
    gauge = {"stitches": 28, "rows": 36}
    (size,) = hats(sizes=[{"adult": "man"}], gauge=gauge, crown={"style": "dome"})["sizes"]
    rounds = size["crown"]["rounds"]
    at = [round["number"] for round in rounds if round["kind"] == "decrease" and round["before"] > 8]
    gaps = [after - before for before, after in pairwise(at)]
    assert gaps[0] > gaps[-1]
    assert sum(gaps[-4:]) / 4 == pytest.approx(8 * 36 / 28 / (2 * pi), abs=0.3)


@pytest.mark.parametrize(("stitches", "rows"), [(14, 20), (20, 28), (30, 40)])
def test_a_dome_of_every_size_is_a_hemisphere(stitches: int, rows: int) -> None:
    """The radius of every round is that of the hemisphere, R sin(s/R), on average to 2.5 to 5 % of R (geometry).

    No head is so wide that its dome becomes another one than that of its neighbour.
    """
    gauge = {"stitches": stitches, "rows": rows}
    for head in range(40, 65):
        answer = hats(sizes=[{"head": {"value": head, "unit": "cm"}}], gauge=gauge, crown={"style": "dome"})
        assert answer["sizes"][0]["crown"]["geometry"]["hemisphere_rms_percent"] < 75 / stitches


def test_neighbouring_sizes_of_a_dome_are_worked_alike() -> None:
    """Five heads in fine yarn: no more than 1.3 lines a round, and the larger the head, the deeper its crown."""
    heads = [{"head": {"value": head, "unit": "cm"}} for head in (41, 46, 51, 56, 60)]
    answer = hats(sizes=heads, gauge={"stitches": 30, "rows": 40}, crown={"style": "dome"}, needles=4)
    crowns = [size["crown"]["rounds"] for size in answer["sizes"]]
    assert len(crown_lines(answer)) <= 1.3 * len(crowns[-1])
    for smaller, larger in pairwise(crowns):
        # A decrease more in each section takes as many rounds as on a disc, and little more on a hemisphere.
        sections = (larger[0]["before"] - smaller[0]["before"]) / 8
        assert len(larger) - len(smaller) == pytest.approx(sections * 8 * 40 / 30 / (2 * pi), rel=0.5)


@pytest.mark.parametrize(("stitches", "rows"), GAUGES)
def test_smaller_sizes_join_in_the_swirl_of_the_largest(stitches: int, rows: int) -> None:
    """One line says a round for all sizes that have begun; the decreases travel on where the larger size's are."""
    gauge = {"stitches": stitches, "rows": rows}
    answer = hats(sizes=CLASS, gauge=gauge, crown={"style": "swirl"}, needles=4)
    largest = max(len(size["crown"]["rounds"]) for size in answer["sizes"])
    assert len([line for line in crown_lines(answer) if line.startswith("Rnd")]) <= 1.3 * largest
    rounds = [
        {round["number"]: round["text"] for round in size["crown"]["rounds"]} for size in answer["sizes"]
    ]
    for size in rounds:
        assert all(rounds[-1][number] == text for number, text in size.items())


def test_a_single_swirl_begins_at_the_end_of_its_sections() -> None:
    """k9, k2tog; then two stitches nearer to the beginning in each decrease round (common practice)."""
    (size,) = hats(sizes=[{"adult": "woman"}], crown={"style": "swirl"})["sizes"]
    width = size["crown"]["stitches"] // 8
    first, _, second = [round["text"] for round in size["crown"]["rounds"][:3]]
    assert first.startswith(f"*k{width - 2}, k2tog;")
    assert second.startswith(f"*k{width - 4}, k2tog, k1;")


def test_a_cone_has_the_same_steepness_in_every_size() -> None:
    """Decreases in the same rounds in all sizes: one cone, three quarters as high as wide, larger or smaller."""
    at = [
        [
            place
            for place, round in enumerate(size["crown"]["rounds"], start=1)
            if round["kind"] == "decrease" and round["before"] > size["crown"]["sections"]
        ]
        for size in hats(sizes=BABIES, crown={"style": "cone"})["sizes"]
    ]
    assert all(longer[: len(shorter)] == shorter for shorter, longer in pairwise(at))


def test_the_point_of_a_cone_is_added_to_the_depth() -> None:
    """A sphere under a cone touches it below the tip: what stands over it is more than the fabric over a bare sphere.

    Both hats reach as far down from the middle of the head (geometry of the sphere).
    """
    below = {}
    for style in ("dome", "cone"):
        measured = hats(
            sizes=[{"adult": "woman"}], gauge={"stitches": 40, "rows": 56}, crown={"style": style}
        )["sizes"][0]["measurements"]
        radius = measured["circumference"]["value"] / (2 * pi)
        slant = measured["crown_depth"]["value"]
        middle = pi / 2 * radius
        if style == "cone":
            height = sqrt(slant**2 - radius**2)
            sine = radius / hypot(radius, height)
            middle = slant + radius / sine - height  # from the tip to the level of the sphere's centre
        below[style] = measured["depth"]["value"] - middle
    assert below["cone"] == pytest.approx(below["dome"], abs=0.2)
    assert below["cone"] > 0


@pytest.mark.parametrize(
    ("sizes", "style"),
    [
        ([{"adult": "woman"}], "wedge"),
        ([{"head": {"value": 58, "unit": "cm"}}], "wedge"),
        ([{"age_months": 6}], "quick"),
        ([{"age_months": 6}, {"adult": "man"}], "wedge"),
        ([{"age_years": 16}], "wedge"),
        ([{"age_years": 21}], "wedge"),
        ([{"age_years": 8}], "quick"),
    ],
)
def test_a_hat_for_a_grown_up_is_closed_in_wedges(sizes: list[dict[str, Any]], style: str) -> None:
    """Published: 6 to 9 wedges, 8 most common; repeats of four are for babies' hats (common practice)."""
    assert {size["crown"]["style"] for size in hats(sizes=sizes)["sizes"]} == {style}
    assert hats(sizes=sizes, crown={"style": "square"})["sizes"][0]["crown"]["style"] == "square"
