"""A decrease up to the marker and its mirror behind it, told as the work up to one marker."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, faults

PLACED = "Place four markers with 20 stitches between each.\n"


@pytest.mark.parametrize(
    "work",
    [
        "Knit to 2 sts before the marker, k2tog, sm, ssk; rep at each marker (72 sts).",
        "Rnd 1: *knit to 2 sts before marker, k2tog, sm, ssk; rep from * around (72 sts).",
        (
            "Knit until there are two stitches before the marker, knit two together, slip the marker, and knit two "
            "together through the back loop. Do the same at all four markers. Now eight stitches are gone, and you "
            "have 72 left."
        ),
    ],
)
def test_two_stitches_behind_the_marker_are_worked_too(work: str) -> None:
    assert after_each_round(read(PLACED + work, (80,))) == [72]


def test_what_passes_the_marker_with_its_first_stitch_is_a_fault() -> None:
    """The neighbour: three stitches are not worked together where two are left before the marker."""
    reading = read(f"{PLACED}*Knit to 2 sts before the marker, k3tog, sm, sssk; rep from * around.", (80,))

    assert faults(reading) == [("runs_out", 2)]


@pytest.mark.parametrize(
    ("work", "left"),
    [
        ("Dec 1 st at each marker.", 72),
        ("Dec 2 sts at each marker.", 66),
        ("K2tog before the marker.", 72),
        ("Dec at each marker: k2tog before marker.", 72),
        ("Knit to 2 sts before the marker, k2tog; rep at each marker.", 72),
    ],
)
def test_so_many_stitches_are_taken_in_at_every_marker(work: str, left: int) -> None:
    """Of six markers; two stitches at each are taken in on its two sides (common practice)."""
    reading = read(f"Place a marker every 13 sts (6 markers).\n{work}\nNext rnd: knit.", (78,))

    assert after_each_round(reading) == [left, left]


@pytest.mark.parametrize(
    "work", ["k20, k2tog after the marker, knit to end", "k2tog after the marker, knit to end"]
)
def test_a_decrease_beside_other_stitches_is_at_that_marker_alone(work: str) -> None:
    """The neighbour: the line says where the marker is."""
    assert after_each_round(read(f"Rnd 1: {work}.", (80,))) == [79]


@pytest.mark.parametrize(
    ("work", "left"),
    [
        ("K2tog before the markers.", 76),
        ("K2tog before all the markers.", 76),
        ("Ssk after the 4 markers.", 76),
        ("Ssk after all four markers.", 76),
        ("K2tog before markers.", 76),
        ("K2tog at the markers.", 76),
        ("Dec 1 st before the markers.", 76),
        ("Rnd 1: work ssk after these markers (76 sts).", 76),
        ("Knit, working k2tog before the markers.", 76),
        ("K2tog before the markers and ssk after the markers.", 72),
        ("Dec 1 st on each side of the markers.", 72),
    ],
)
def test_a_decrease_at_the_markers_is_at_each_of_them(work: str, left: int) -> None:
    """Of four markers."""
    assert after_each_round(read(f"Place 4 markers evenly.\n{work}", (80,))) == [left]


@pytest.mark.parametrize("work", ["K1 before the markers, k to end.", "Knit past the markers."])
def test_stitches_beside_the_markers_that_are_no_decrease_keep_the_count(work: str) -> None:
    """The neighbour: nothing is taken in."""
    assert after_each_round(read(f"Place 4 markers evenly.\nRnd 1: {work}", (80,))) == [80]


@pytest.mark.parametrize(
    ("work", "left"),
    [
        ("At each marker, work sl 1, k2tog, psso.", 64),
        ("Work slip 1, knit 2 together, pass slipped st over at every marker.", 64),
        ("At every marker: sl2, k1, p2sso.", 64),
        ("Sl 2 together, k1, psso before each marker.", 64),
        ("Before every marker, work sl 1, k1, psso.", 72),
        ("After each marker: ssk, knit to 2 sts before next marker, k2tog.", 64),
        ("After each marker: k1, ssk, knit to last 3 sts before next marker, k2tog, k1.", 64),
        ("Behind each marker, ssk, k to 2 sts before the next, k2tog.", 64),
        ("After each marker: ssk, knit to next marker.", 72),
        ("K to 2 sts before marker, sl 1, k1, psso.", 72),
    ],
)
def test_a_decrease_told_in_its_parts_is_worked_at_each_marker(work: str, left: int) -> None:
    """Of eight markers; the last two take in one stitch in each section."""
    text = f"Place 8 markers, one every 10 sts.\nDec rnd: {work}\nNext rnd: knit."
    assert after_each_round(read(text, (80,))) == [left, left]


@pytest.mark.parametrize("parts", ["sl 1, k2, psso", "sl 1, knit 3 together, psso", "sl 2, k2, psso"])
def test_parts_that_make_no_single_decrease_are_an_error(parts: str) -> None:
    """The neighbours, with another number in one of the parts."""
    assert faults(read(f"Place 4 markers.\nRnd 1: {parts} at each marker.", (80,))) == [("not_understood", 2)]


@pytest.mark.parametrize(
    ("placed", "found"),
    [
        ("Place 8 markers with 10 sts between (88).", [("count_differs", 1)]),
        ("Place 8 markers with 11 sts between (88).", []),
        ("Place 7 markers with 11 sts between (88 sts).", []),
        ("Mark 8 sts with 10 sts between (88).", []),
    ],
)
def test_markers_so_far_apart_are_as_many_as_the_count_says(
    placed: str, found: list[tuple[str, int]]
) -> None:
    """With the beginning of the round, seven markers part it in eight; marked stitches stand between the others."""
    assert faults(read(f"{placed}\nKnit 1 rnd.", (88,))) == found
