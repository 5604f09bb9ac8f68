"""Pieces cut from balls: as few balls as there can be, and no piece too long for its ball."""

from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roundwright.knitting.yarn.packing import MOST_SEARCHED, Packing, pack

BALL = 100

kinds = st.lists(st.tuples(st.integers(5, BALL), st.integers(1, 4)), min_size=1, max_size=4)
many_kinds = st.lists(st.tuples(st.integers(1, BALL), st.integers(1, 40)), min_size=1, max_size=12)


def packed(pieces: list[tuple[int, int]]) -> Packing:
    return pack([size for size, _ in pieces], [count for _, count in pieces], BALL)


def fewest_by_trying(pieces: list[tuple[int, int]]) -> int:
    """The fewest balls, by trying every ball for every piece."""

    @cache
    def fewest(left: tuple[int, ...], rooms: tuple[int, ...]) -> int:
        if not left:
            return len(rooms)
        size, *others = left
        rest = tuple(others)
        in_opened = (
            fewest(rest, tuple(sorted((*rooms[:index], room - size, *rooms[index + 1 :]))))
            for index, room in enumerate(rooms)
            if size <= room and room not in rooms[:index]
        )
        return min((*in_opened, fewest(rest, tuple(sorted((*rooms, BALL - size))))))

    return fewest(tuple(sorted((size for size, count in pieces for _ in range(count)), reverse=True)), ())


@given(many_kinds)
def test_every_piece_has_its_place_and_no_ball_is_overfull(pieces: list[tuple[int, int]]) -> None:
    """However many there are: each piece comes from one ball, and what comes from a ball is in it."""
    packing = packed(pieces)
    for ball in packing.balls:
        assert sum(size * taken for (size, _), taken in zip(pieces, ball.pieces, strict=True)) <= BALL
    for index, (_, count) in enumerate(pieces):
        assert sum(ball.balls * ball.pieces[index] for ball in packing.balls) == count


@given(kinds.filter(lambda pieces: sum(count for _, count in pieces) <= 9))
def test_a_small_class_has_the_fewest_balls_there_can_be(pieces: list[tuple[int, int]]) -> None:
    """Compared with trying every ball for every piece."""
    packing = packed(pieces)
    assert packing.proved
    assert packing.number == fewest_by_trying(pieces)


def first_fit_decreasing(pieces: list[tuple[int, int]]) -> int:
    """Each piece, the largest first, comes from the first ball that still holds it."""
    rooms: list[int] = []
    for size in sorted((size for size, count in pieces for _ in range(count)), reverse=True):
        index = next((index for index, room in enumerate(rooms) if size <= room), None)
        if index is None:
            rooms.append(BALL - size)
        else:
            rooms[index] -= size
    return len(rooms)


def test_fewer_balls_than_first_fit_decreasing_takes() -> None:
    """58 + 26 + 16 and 39 + 28 + 18 + 15 fill two balls of 100; 58 + 39 first leaves too little (arithmetic)."""
    pieces = [(58, 1), (39, 1), (28, 1), (26, 1), (18, 1), (16, 1), (15, 1)]
    packing = packed(pieces)
    assert first_fit_decreasing(pieces) == 3
    assert (packing.number, packing.proved) == (2, True)


@given(many_kinds)
def test_never_more_balls_than_first_fit_decreasing(pieces: list[tuple[int, int]]) -> None:
    """Where not every way can be tried, first-fit-decreasing is the answer; it is the same at every time."""
    packing = packed(pieces)
    assert packing.number <= first_fit_decreasing(pieces)
    assert packing.proved or packing.number == first_fit_decreasing(pieces)
    assert packing == packed(pieces)


@pytest.mark.parametrize(("size", "in_a_ball"), [(51, 1), (50, 2), (34, 2), (33, 3), (26, 3), (25, 4)])
def test_a_shops_order_of_one_size_is_exact_at_any_number(size: int, in_a_ball: int) -> None:
    """Of 1000 hats so many come from each ball: no search is needed to know it."""
    packing = packed([(size, 1000)])
    assert packing.number == -(-1000 // in_a_ball)
    assert packing.number > MOST_SEARCHED
    assert packing.proved


def test_a_shops_order_of_many_sizes_says_that_it_is_not_tried_every_way() -> None:
    """Thousands of hats in sizes that fill no ball: first-fit-decreasing, and the answer does not call it exact."""
    packing = packed([(61, 300), (35, 500), (27, 700), (22, 900)])
    assert not packing.proved
