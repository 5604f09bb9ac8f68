"""Pieces cut from balls: how few balls hold them all, and which pieces come from which ball.

The pieces are of a few sizes, with many of each. First-fit-decreasing gives a packing, bounds say how few balls there
can be, and where the two differ a search in fixed order looks for fewer, up to a number of steps. So the answer and the
work that it takes are the same on every machine.
"""

from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

MOST_SEARCHED: Final = 60
"""Balls up to which a better packing is searched for: a class; a shop's order is left to the bounds."""
MOST_STEPS: Final = 5_000
"""Steps of the search, in about a hundredth of a second."""

Counts = tuple[int, ...]
"""How many pieces there are of each size."""


class PackedBalls(NamedTuple):
    """Balls packed alike: how many, and how many pieces of each size come from one of them."""

    balls: int
    pieces: Counts


class Packing(NamedTuple):
    """All pieces in balls; `proved` where no packing has fewer."""

    balls: tuple[PackedBalls, ...]
    proved: bool

    @property
    def number(self) -> int:
        """How many balls."""
        return sum(packed.balls for packed in self.balls)


def pack(sizes: Sequence[int], counts: Sequence[int], capacity: int, most_steps: int = MOST_STEPS) -> Packing:
    """The pieces in as few balls as can be found in so many steps; each size is at least 1 and at most `capacity`."""
    order = sorted(range(len(sizes)), key=lambda index: -sizes[index])
    pieces = _Pieces(tuple(sizes[index] for index in order), capacity)
    left = tuple(counts[index] for index in order)
    packed, proved = _pack(pieces, left, most_steps)
    place = {index: position for position, index in enumerate(order)}
    return Packing(
        tuple(
            PackedBalls(balls, tuple(in_ball[place[index]] for index in range(len(sizes))))
            for balls, in_ball in packed
        ),
        proved,
    )


class _Pieces(NamedTuple):
    """Sizes of the pieces, the largest first, and of a ball."""

    sizes: Counts
    capacity: int

    def total(self, counts: Counts) -> int:
        return sum(size * count for size, count in zip(self.sizes, counts, strict=True))


def _pack(pieces: _Pieces, counts: Counts, most_steps: int) -> tuple[list[PackedBalls], bool]:
    first_fit = _first_fit(pieces, counts)
    number = sum(packed.balls for packed in first_fit)
    fewest = _fewest(pieces, counts)
    if number > MOST_SEARCHED:
        return first_fit, number == fewest
    search = _Search(pieces, most_steps)
    for balls in range(fewest, number):
        found = search.fill(counts, balls)
        if search.steps > most_steps:
            return first_fit, False
        if found is not None:
            return _alike(found), True
    return first_fit, True


def _first_fit(pieces: _Pieces, counts: Counts) -> list[PackedBalls]:
    """First-fit-decreasing: ball after ball takes the largest piece that still fits."""
    packed: list[PackedBalls] = []
    left = list(counts)
    while any(left):
        room, in_ball = pieces.capacity, []
        for size, count in zip(pieces.sizes, left, strict=True):
            taken = min(count, room // size)
            room -= taken * size
            in_ball.append(taken)
        balls = min(count // taken for count, taken in zip(left, in_ball, strict=True) if taken)
        left = [count - balls * taken for count, taken in zip(left, in_ball, strict=True)]
        packed.append(PackedBalls(balls, tuple(in_ball)))
    return packed


def _fewest(pieces: _Pieces, counts: Counts) -> int:
    """A number of balls that no packing is below (Martello and Toth 1990, L2; and how many of a size a ball holds)."""
    capacity = pieces.capacity
    fewest = -(-pieces.total(counts) // capacity)
    so_far = 0
    for size, count in zip(pieces.sizes, counts, strict=True):
        so_far += count
        fewest = max(fewest, -(-so_far // (capacity // size)))  # pieces of this size or larger
    for least in {size for size in pieces.sizes if 2 * size <= capacity}:
        alone = large = large_total = small_total = 0
        for size, count in zip(pieces.sizes, counts, strict=True):
            if size > capacity - least:
                alone += count
            elif 2 * size > capacity:
                large += count
                large_total += size * count
            elif size >= least:
                small_total += size * count
        over = small_total - (large * capacity - large_total)
        fewest = max(fewest, alone + large + max(0, -(-over // capacity)))
    return fewest


class _Search:
    """A search for a packing in so many balls, with the steps that it has taken."""

    def __init__(self, pieces: _Pieces, most_steps: int) -> None:
        self.pieces = pieces
        self.most_steps = most_steps
        self.steps = 0
        self._failed: set[tuple[Counts, int]] = set()

    def fill(self, left: Counts, balls: int) -> list[Counts] | None:
        """The pieces in so many balls, ball by ball; None where there is no way, or after `most_steps`."""
        if not any(left):
            return []
        waste = balls * self.pieces.capacity - self.pieces.total(left)
        if waste < 0 or (left, balls) in self._failed:
            return None
        for in_ball in self._full_balls(left, waste):
            after = tuple(count - taken for count, taken in zip(left, in_ball, strict=True))
            rest = self.fill(after, balls - 1)
            if rest is not None:
                return [in_ball, *rest]
            if self.steps > self.most_steps:
                return None
        self._failed.add((left, balls))
        return None

    def _full_balls(self, left: Counts, waste: int) -> Iterator[Counts]:
        """Every way to fill a ball with the largest piece left, so that no piece left fits beside them.

        A ball that wastes more than `waste` is left out: the other balls could not hold the rest.
        """
        largest = next(index for index, count in enumerate(left) if count)
        room = self.pieces.capacity - self.pieces.sizes[largest]
        start = [0] * len(left)
        start[largest] = 1
        yield from self._fill_ball(left, start, largest, room, waste)

    def _fill_ball(
        self, left: Counts, in_ball: list[int], index: int, room: int, waste: int
    ) -> Iterator[Counts]:
        self.steps += 1
        if self.steps > self.most_steps:
            return
        if index == len(left):
            fits = any(
                size <= room and taken < count
                for size, taken, count in zip(self.pieces.sizes, in_ball, left, strict=True)
            )
            if not fits and room <= waste:
                yield tuple(in_ball)
            return
        size, already = self.pieces.sizes[index], in_ball[index]
        for more in range(min(left[index] - already, room // size), -1, -1):
            in_ball[index] = already + more
            yield from self._fill_ball(left, in_ball, index + 1, room - more * size, waste)
        in_ball[index] = already


def _alike(balls: Sequence[Counts]) -> list[PackedBalls]:
    """The balls, those packed alike together."""
    return [PackedBalls(balls.count(in_ball), in_ball) for in_ball in dict.fromkeys(balls)]
