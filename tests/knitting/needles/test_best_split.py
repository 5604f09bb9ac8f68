"""Rounds on needles, against a knitter's hands: worked stitch by stitch, sliding what straddles."""

from collections.abc import Iterator
from itertools import accumulate, pairwise, product

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from roundwright.knitting.answers import Impossible
from roundwright.knitting.needles.best_split import NeedleSplit, pareto_splits, rate_split
from roundwright.knitting.needles.boundaries import boundary_paths
from roundwright.knitting.needles.tracking import track_needles
from roundwright.knitting.rounds.round import Move, Repeat, Round, Step, Work, plain
from roundwright.knitting.rounds.work_round import chained, work_round

# Stitches used and left: Craft Yarn Council, Knit Abbreviations, and common book lists.
USES_LEAVES = {
    "k": (1, 1), "p": (1, 1), "k2tog": (2, 1), "ssk": (2, 1), "k3tog": (3, 1), "cdd": (3, 1),
    "kfb": (1, 2), "m1": (0, 1), "yo": (0, 1),
}  # fmt: skip

Hands = list[list[tuple[int, int]]]


def best_split(
    rounds: tuple[Round, ...], stitches: int, needles: int, tolerance: int = 4, multiple: int = 1
) -> NeedleSplit:
    """The split with the fewest straddles, which is the last of those that no other beats."""
    return pareto_splits(boundary_paths(rounds, stitches), needles, tolerance, multiple)[-1]


def by_hand(rounds: tuple[Round, ...]) -> Hands:
    """Every stitch of every round in working order, as what it uses and what it leaves."""
    return [list(spelt(a_round.steps)) for a_round in rounds]


def spelt(steps: tuple[Step, ...]) -> Iterator[tuple[int, int]]:
    for step in steps:
        for _ in range(step.times):
            if isinstance(step, Work):
                yield USES_LEAVES[step.stitch]
            else:
                yield from spelt(step.steps)
        if isinstance(step, Repeat) and step.again:
            remaining = step.again  # one more time through, up to the first stitch that would use too many
            for uses, leaves in spelt(step.steps):
                remaining -= uses
                if remaining < 0:
                    break
                yield uses, leaves


def knitted(hands: Hands, split: tuple[int, ...]) -> list[tuple[tuple[int, ...], list[tuple[int, int]]]]:
    """Needles after each round and the slides made in it, worked one stitch at a time.

    A stitch is worked off the needle in hand; what remains there and is too little for a decrease is slid on
    to the next needle, which is then in hand.
    """
    held, rounds = list(split), []
    for a_round in hands:
        new, slides, needle = [0] * len(held), [], 0
        for uses, leaves in a_round:
            if uses:
                while not held[needle]:
                    needle += 1
                while held[needle] < uses:
                    slides.append((needle + 1, held[needle]))
                    held[needle + 1] += held[needle]
                    held[needle] = 0
                    needle += 1
                held[needle] -= uses
            new[needle] += leaves
        held = new
        rounds.append((tuple(new), slides))
    return rounds


def straddled(hands: Hands, split: tuple[int, ...]) -> int:
    return sum(len(slides) for _, slides in knitted(hands, split))


def every_split(stitches: int, needles: int, tolerance: int) -> Iterator[tuple[int, ...]]:
    for least in range(1, stitches // needles + 1):
        if needles * (least + tolerance) < stitches:
            continue
        for split in product(range(least, least + tolerance + 1), repeat=needles - 1):
            last = stitches - sum(split)
            if least <= last <= least + tolerance and min(*split, last) == least:
                yield (*split, last)


def schedule(stitches: int, *patterns: tuple[int, str], cycles: int = 1) -> tuple[Round, ...]:
    """Rounds of `k(n), stitch` as often as it fits, the odd stitches knitted, a plain round after each."""
    rounds: list[Round] = []
    for plain_before, stitch in patterns * cycles:
        uses, _ = USES_LEAVES[stitch]
        whole, odd = divmod(stitches, plain_before + uses)
        if not whole:
            continue
        once = ((Work("k", plain_before),) if plain_before else ()) + (Work(stitch),)  # type: ignore[arg-type]
        steps = (Repeat(whole, once), *((Work("k", odd),) if odd else ()))
        rounds.append(work_round(len(rounds) + 1, stitches, steps))
        stitches = rounds[-1].after
        rounds.append(work_round(len(rounds) + 1, stitches, plain(stitches)))
    return tuple(rounds)


def quick(stitches: int) -> tuple[Round, ...]:
    return schedule(stitches, (2, "k2tog"), (1, "k2tog"), (0, "k2tog"), (0, "k2tog"))


def wedges(stitches: int) -> tuple[Round, ...]:
    """Seven wedges, one decrease each, until none is left; the odd stitches stay knitted at the end."""
    patterns = [(width, "ssk") for width in range(stitches // 7 - 2, -1, -1)]
    return schedule(stitches, *patterns)


def doubles(stitches: int) -> tuple[Round, ...]:
    return schedule(stitches, (5, "cdd"), (2, "k3tog"), (1, "k3tog"))


def lace(stitches: int) -> tuple[Round, ...]:
    """Increases of both sorts between decreases, so that borders move both ways."""
    return schedule(stitches, (3, "m1"), (2, "k2tog"), (1, "kfb"), (1, "k3tog"))


CROWNS = {"quick": quick, "wedges": wedges, "doubles": doubles, "lace": lace}


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
            found = best_split(rounds, stitches, needles, tolerance)

            assert (straddles, difference, split) == (found.straddles, found.difference, found.split)


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
            found = best_split(rounds, stitches, needles, 4, multiple)

            assert (straddles, difference, split) == (found.straddles, found.difference, found.split)


@pytest.mark.parametrize("stitches", [31, 52, 64, 71])
def test_a_wide_tolerance(stitches: int) -> None:
    """The optimum holds for needles as unlike as 12 stitches too."""
    for crown in CROWNS.values():
        rounds = crown(stitches)
        hands = by_hand(rounds)
        fewest = min(
            (straddled(hands, split), max(split) - min(split)) for split in every_split(stitches, 3, 12)
        )
        found = best_split(rounds, stitches, 3, 12)

        assert fewest == (found.straddles, found.difference)


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
        found = pareto_splits(boundary_paths(rounds, stitches), needles, 4)

        assert front == [(each.difference, each.straddles) for each in found]
        assert all(each.straddles == straddled(hands, each.split) for each in found)
        assert best_split(rounds, stitches, needles, 4) == found[-1]


works = st.builds(Work, st.sampled_from(sorted(USES_LEAVES)), st.integers(1, 4))


@st.composite
def repeats(draw: st.DrawFn, inner: st.SearchStrategy[Step]) -> Repeat:
    """A repeat, which may stop early at any place that is not inside a stitch."""
    whole = Repeat(draw(st.integers(1, 4)), tuple(draw(st.lists(inner, min_size=1, max_size=3))))
    places = sorted({*accumulate(uses for uses, _ in spelt(whole.steps))})
    return replace(whole, again=draw(st.sampled_from([0, *places[:-1]])))


steps: st.SearchStrategy[Step] = st.recursive(works, repeats)


@st.composite
def worked_and_held(draw: st.DrawFn) -> tuple[tuple[Round, ...], tuple[int, ...]]:
    """Up to four rounds of anything, knitted out to the end, and any split, with needles empty or not."""
    stitches = start = draw(st.integers(1, 60))
    rounds: list[Round] = []
    for _ in range(draw(st.integers(1, 4))):
        taken, used = [], 0
        for step in draw(st.lists(steps, max_size=6)):
            uses = sum(uses for uses, _ in spelt((step,)))
            if used + uses <= stitches:
                taken.append(step)
                used += uses
        if used < stitches:
            taken.append(Work("k", stitches - used))
        if not taken:
            break
        rounds.append(work_round(len(rounds) + 1, stitches, tuple(taken)))
        stitches = rounds[-1].after
    borders = sorted(draw(st.lists(st.integers(0, start), min_size=1, max_size=4)))
    return tuple(rounds), tuple(b - a for a, b in pairwise([0, *borders, start]))


@given(worked_and_held())
def test_the_table_of_needles_is_what_hands_do(case: tuple[tuple[Round, ...], tuple[int, ...]]) -> None:
    """Needles and moves are those of knitting stitch by stitch, whatever the rounds and the split."""
    rounds, split = case
    expected = knitted(by_hand(rounds), split)
    worked = track_needles(rounds, split)

    assert [needles for needles, _ in expected] == [each.needles for each in worked]
    assert [[Move(*slide) for slide in slides if slide[1]] for _, slides in expected] == [
        list(each.moves) for each in worked
    ]
    assert rate_split(boundary_paths(rounds, sum(split)), split).straddles == sum(
        len(each.moves) for each in worked
    )
    assert [(each.steps, each.after) for each in rounds] == [(each.steps, each.after) for each in worked]
    chained(worked)


def test_no_rounds() -> None:
    """Without a crown the split is the most even one."""
    assert best_split((), 50, 3).split == (16, 17, 17)
    assert best_split((), 50, 4).split == (12, 12, 13, 13)
    assert track_needles((), (25, 25)) == ()


def test_an_increase_at_a_border_stays_on_the_needle_before_it() -> None:
    """A stitch made between two needles is on the one just worked."""
    (worked,) = track_needles((work_round(1, 8, (Repeat(2, (Work("k", 4), Work("m1"))),)),), (4, 4))

    assert worked.needles == (5, 5)


def test_a_needle_runs_empty() -> None:
    """An emptied needle stays in the table with 0, and the round that empties it says so once."""
    rounds = quick(20)
    worked = track_needles(rounds, best_split(rounds, 20, 5).split)
    emptied = next(each for each in worked if each.needles is not None and 0 in each.needles)

    assert emptied.number > 1
    assert "empty" in emptied.notes[0]
    assert sum("empty" in note for each in worked for note in each.notes) <= 5


def test_a_double_decrease_over_three_needles() -> None:
    """A decrease whose three stitches sit on three needles is slid twice, and counts at both borders."""
    (worked,) = track_needles((work_round(1, 9, (Work("k", 3), Work("cdd"), Work("k", 3))),), (4, 1, 4))

    assert worked.moves == (Move(1, 1), Move(2, 2))
    assert worked.needles == (3, 0, 4)


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
def test_splits_that_cannot_be(  # noqa: PLR0917 - one column of the table each
    stitches: int, needles: int, tolerance: int, multiple: int, pointer: str, nearest: str
) -> None:
    """A split that cannot be names the field at fault and the nearest thing that works, and that works."""
    with pytest.raises(Impossible) as caught:
        best_split((), stitches, needles, tolerance, multiple)

    assert (pointer, nearest) == (caught.value.pointer, caught.value.nearest)


def test_rounds_that_start_with_another_count() -> None:
    """Rounds for another number of stitches are refused, not put on the needles."""
    with pytest.raises(Impossible):
        best_split(quick(52), 56, 3)
    with pytest.raises(Impossible):
        track_needles(quick(52), (28, 28))
