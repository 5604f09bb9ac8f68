"""The best split of stitches over needles, against every split worked by hand."""

import pytest

from roundwright.knitting.answers import Impossible
from roundwright.knitting.needles.best_split import pareto_splits
from roundwright.knitting.needles.boundaries import boundary_paths
from tests.support.needles_by_hand import CROWNS, best_split, by_hand, every_split, quick, straddled, wedges


@pytest.mark.parametrize("needles", [2, 3, 4, 5])
@pytest.mark.parametrize("crown", CROWNS)
def test_the_split_is_the_optimum(crown: str, needles: int) -> None:
    """Up to 72 stitches no split within the tolerance has fewer straddles, and none as few is more even."""
    for stitches in range(needles, 73):
        rounds = CROWNS[crown](stitches)
        hands = by_hand(rounds)
        ranked = sorted(
            (straddled(hands, split), max(split) - min(split), sum(n * n for n in split), split)
            for split in every_split(stitches, needles, 4)
        )
        for tolerance in (0, 1, 2, 4) if stitches % needles == 0 else (1, 2, 4):
            straddles, difference, _, split = next(rank for rank in ranked if rank[1] <= tolerance)
            best = best_split(rounds, stitches, needles, tolerance)

            assert (straddles, difference, split) == (best.straddles, best.difference, best.split)


@pytest.mark.parametrize("multiple", [2, 3, 4])
@pytest.mark.parametrize("crown", CROWNS)
def test_whole_repeats_on_each_needle(crown: str, multiple: int) -> None:
    """With a multiple, the split is the best of those that cut no repeat."""
    for needles in (2, 3, 4):
        for stitches in range(multiple * needles, 61, multiple):
            rounds = CROWNS[crown](stitches)
            hands = by_hand(rounds)
            straddles, difference, _, split = min(
                (straddled(hands, split), max(split) - min(split), sum(n * n for n in split), split)
                for split in every_split(stitches, needles, 4)
                if not any(n % multiple for n in split)
            )
            best = best_split(rounds, stitches, needles, 4, multiple)

            assert (straddles, difference, split) == (best.straddles, best.difference, best.split)


@pytest.mark.parametrize("stitches", [31, 52, 64, 71])
def test_a_wide_tolerance(stitches: int) -> None:
    """The optimum holds for needles as unlike as 12 stitches too."""
    for crown in CROWNS.values():
        rounds = crown(stitches)
        hands = by_hand(rounds)
        fewest = min(
            (straddled(hands, split), max(split) - min(split)) for split in every_split(stitches, 3, 12)
        )
        best = best_split(rounds, stitches, 3, 12)

        assert fewest == (best.straddles, best.difference)


@pytest.mark.parametrize("needles", [2, 3, 4, 5])
def test_no_split_beats_an_alternative(needles: int) -> None:
    """The alternatives are exactly the differences at which a less even split saves a straddle."""
    for stitches in (17, 40, 52, 63, 68):
        rounds = wedges(stitches)
        hands = by_hand(rounds)
        fewest: dict[int, int] = {}
        for split in every_split(stitches, needles, 4):
            difference = max(split) - min(split)
            fewest[difference] = min(fewest.get(difference, 10_000), straddled(hands, split))
        front = [
            (difference, straddles)
            for difference, straddles in sorted(fewest.items())
            if all(straddles < fewest[smaller] for smaller in fewest if smaller < difference)
        ]
        splits = pareto_splits(boundary_paths(rounds, stitches), needles, 4)

        assert front == [(split.difference, split.straddles) for split in splits]
        assert all(split.straddles == straddled(hands, split.split) for split in splits)
        assert best_split(rounds, stitches, needles, 4) == splits[-1]


def test_no_rounds() -> None:
    """Without a crown the split is the most even one."""
    assert best_split((), 50, 3).split == (16, 17, 17)
    assert best_split((), 50, 4).split == (12, 12, 13, 13)


@pytest.mark.parametrize(
    ("stitches", "needles", "tolerance", "multiple", "pointer", "nearest"),
    [
        (4, 5, 4, 1, "#/needles", "4 needles"),
        (1, 2, 4, 1, "#/needles", "2 stitches"),
        (50, 4, 0, 1, "#/tolerance", "a tolerance of 1"),
        (54, 3, 8, 4, "#/multiple", "52 or 56 stitches"),
        (56, 3, 6, 8, "#/tolerance", "a tolerance of 8"),
        (16, 3, 8, 8, "#/needles", "2 needles"),
        (8, 3, 8, 8, "#/needles", "24 stitches"),
        (9, 3, 8, 8, "#/multiple", "24 stitches"),
    ],
)
def test_impossible_splits(  # noqa: PLR0917 - a parameter for each column of the table
    stitches: int, needles: int, tolerance: int, multiple: int, pointer: str, nearest: str
) -> None:
    """The error names the field at fault and the nearest split that works."""
    with pytest.raises(Impossible) as caught:
        best_split((), stitches, needles, tolerance, multiple)

    assert (pointer, nearest) == (caught.value.pointer, caught.value.nearest)


def test_rounds_that_start_with_another_count() -> None:
    """Rounds for another number of stitches are refused, not put on the needles."""
    with pytest.raises(Impossible):
        best_split(quick(52), 56, 3)
