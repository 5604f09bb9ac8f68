"""Rounds on needles: how stitches are shared out, and what is slid so that no decrease lies on two needles.

A border's straddles follow from its own start alone (`borders` says how). So they are known for every possible
border before any split is looked at, and `unbeaten_splits` searches the combinations: for usual tolerances all of them,
listed once, else needle by needle.
"""

from collections.abc import Iterator
from functools import lru_cache
from itertools import accumulate, product
from operator import add
from typing import Annotated, Final, NamedTuple

from msgspec import Meta, Struct
from msgspec.structs import replace

from roundwright.knitting.answers import Impossible
from roundwright.knitting.needles.boundaries import Ways, ways
from roundwright.knitting.rounds.round import MOST_NOTES, MOST_ON_NEEDLES, MOST_STITCHES, Move, Round

FEWEST_NEEDLES: Final = 2
"""Two circulars, or two of three double-pointed needles: one needle holds a round only with a long cable."""
MOST_NEEDLES: Final = 5
"""Double-pointed needles are sold in sets of four to six: one works, up to five hold."""
MOST_TOLERANCE: Final = 24
"""Stitches between the fullest and the emptiest needle: the longest repeat kept whole."""
MOST_MULTIPLE: Final = 24
"""Stitches of a rib or pattern repeat kept whole on a needle: a longer one fills a needle by itself."""
USUAL_TOLERANCE: Final = 4
"""Stitches by which needles may differ where nothing is asked for: a hand does not notice them."""

MOST_LISTED: Final = 4_096
"""Up to so many ways to make needles unlike, the splits are listed, which takes five needles to a tolerance of 4."""

NeedleCount = Annotated[
    int,
    Meta(ge=FEWEST_NEEDLES, le=MOST_NEEDLES, description="Needles that hold stitches; one more works."),
]
Tolerance = Annotated[
    int,
    Meta(
        ge=0,
        le=MOST_TOLERANCE,
        description="Most stitches by which the fullest and the emptiest needle may differ. Default 4.",
    ),
]
WholeRepeat = Annotated[
    int,
    Meta(
        ge=1,
        le=MOST_MULTIPLE,
        description="Stitches of the rib or pattern repeat to keep whole on each needle. Default 1.",
    ),
]
OnNeedles = Annotated[
    tuple[Annotated[int, Meta(ge=0, le=MOST_STITCHES)], ...],
    Meta(
        max_length=MOST_ON_NEEDLES,
        description="Stitches on each needle, the first needle of the round first.",
    ),
]


class NeedleSplit(Struct, frozen=True, kw_only=True):
    """A way to share the stitches out over the needles, and what it costs."""

    split: OnNeedles
    straddles: Annotated[
        int,
        Meta(
            ge=0,
            description="Decreases that come to lie across a border between two needles over all the rounds, "
            "counted at each border: so many times stitches have to be slid to the next needle.",
        ),
    ]
    difference: Annotated[
        int, Meta(ge=0, description="Stitches between the fullest and the emptiest needle at the start.")
    ]


def unbeaten_splits(
    ways: Ways, needles: int, tolerance: int = USUAL_TOLERANCE, multiple: int = 1
) -> tuple[NeedleSplit, ...]:
    """The splits within `tolerance` that no other beats in both straddles and evenness, the most even first.

    The last one is the best: it has the fewest straddles. Ties go to the smallest difference between the fullest and
    the emptiest needle, then to the smallest variance, then to the one with the fewest stitches on the first needle
    (then the second, and so on). Each needle holds at least one `multiple`. Raises `Impossible` where no split will do.
    """
    _refuse(len(ways.straddles) - 1, needles, tolerance, multiple)
    return tuple(
        NeedleSplit(
            split=tuple(multiple * units for units in split),
            straddles=straddles,
            difference=multiple * (max(split) - min(split)),
        )
        for straddles, split in _front(ways.straddles[::multiple], needles, tolerance // multiple)
    )


def as_split(ways: Ways, needles: tuple[int, ...]) -> NeedleSplit:
    """These stitches on each needle as a `NeedleSplit`, with the straddles they have over the rounds."""
    return NeedleSplit(
        split=needles,
        straddles=sum(ways.straddles[border] for border in _borders(needles)),
        difference=max(needles) - min(needles),
    )


def on_needles(rounds: tuple[Round, ...], split: tuple[int, ...]) -> tuple[Round, ...]:
    """The rounds with the stitches on each needle after them, and the moves to make before working each.

    `split` is what each needle holds before the first round. Moves are made in the order given. A needle may
    run empty near the close: it stays in the count with 0, and the round that empties it has a note.
    """
    return followed(ways(rounds, sum(split)), split)


def followed(ways: Ways, split: tuple[int, ...]) -> tuple[Round, ...]:
    """`on_needles` for rounds whose ways are known."""
    borders, held = _borders(split), split
    worked = []
    for each, passage in zip(ways.rounds, ways.passages, strict=True):
        moves: tuple[Move, ...] = ()
        if passage is not None:
            landings = [passage.landing(border) for border in borders]
            moves = tuple([Move(needle, slid) for needle, (_, slid) in enumerate(landings, start=1) if slid])
            borders = tuple([to for to, _ in landings])
        before, held = held, _between(borders, each.after)
        notes = (each.notes + _emptied(before, held))[:MOST_NOTES]
        worked.append(replace(each, needles=held, moves=moves, notes=notes))
    return tuple(worked)


def _emptied(before: tuple[int, ...], after: tuple[int, ...]) -> tuple[str, ...]:
    empty = [
        str(needle)
        for needle, (was, now) in enumerate(zip(before, after, strict=True), start=1)
        if was and not now
    ]
    if not empty:
        return ()
    named, it = (
        (f"Needle {empty[0]} is", "it") if len(empty) == 1 else (f"Needles {' and '.join(empty)} are", "them")
    )
    return (f"{named} empty after this round: put {it} aside and work on with the others.",)


def _borders(needles: tuple[int, ...]) -> tuple[int, ...]:
    at = 0
    borders = []
    for stitches in needles[:-1]:
        at += stitches
        borders.append(at)
    return tuple(borders)


def _between(borders: tuple[int, ...], stitches: int) -> tuple[int, ...]:
    ends = (*borders, stitches)
    return tuple(end - start for start, end in zip((0, *borders), ends, strict=True))


# --- the best combination of borders -----------------------------------------------------------------------


_Front = Iterator[tuple[int, tuple[int, ...]]]
"""Straddles and split, for each difference between needles that saves straddles over all smaller ones."""


def _front(cost: list[int], needles: int, widest: int) -> _Front:
    """The front of the differences up to `widest`, by the shorter way."""
    share, over = divmod(len(cost) - 1, needles)
    if (widest + 1) ** needles <= MOST_LISTED and share > widest:
        return _picked(cost, share, _listed(needles, over, widest))
    return _searched(cost, needles, widest)


class _Listed(NamedTuple):
    """The splits of a difference, each needle by what it has over its share; the most even first."""

    splits: tuple[tuple[int, ...], ...]
    borders: tuple[tuple[int, ...], ...]
    """For each border its place in each split, by what it is over that of equal shares."""


@lru_cache(maxsize=64)
def _listed(needles: int, over: int, widest: int) -> tuple[_Listed, ...]:
    """All splits within `widest`, by difference, for shares that leave `over` stitches over."""
    by_difference: dict[int, list[tuple[int, ...]]] = {}
    for above in product(range(widest + 1), repeat=needles):
        least, uneven = divmod(over - sum(above), needles)
        if not uneven and min(above) == 0:
            by_difference.setdefault(max(above), []).append(tuple(least + each for each in above))
    return tuple(
        _Listed(tuple(splits), tuple(zip(*(tuple(accumulate(split[:-1])) for split in splits), strict=True)))
        for _, found in sorted(by_difference.items())
        if (splits := sorted(found, key=lambda split: (sum(each * each for each in split), split)))
    )


def _picked(cost: list[int], share: int, listed: tuple[_Listed, ...]) -> _Front:
    fewest = sum(cost) + 1
    for splits, borders in listed:
        straddles = [0] * len(splits)
        for border, places in enumerate(borders, start=1):
            equal = border * share
            straddles = [met + cost[equal + place] for met, place in zip(straddles, places, strict=True)]
        if (best := min(straddles)) < fewest:
            fewest = best
            yield fewest, tuple(share + each for each in splits[straddles.index(best)])
        if not fewest:
            return


def _searched(cost: list[int], needles: int, widest: int) -> _Front:
    total = len(cost) - 1
    weight = total * total + 1  # above any sum of squares: straddles come first, evenness second
    weighed = [weight * each for each in cost]
    fewest = sum(cost) + 1
    for difference in range(widest + 1):
        leasts = range(max(1, -(-total // needles) - difference), total // needles + 1)
        # Where the cheapest places, taken singly, save nothing, they cannot save anything together.
        if not leasts or _cheapest_singly(cost, needles, leasts[0], leasts[-1] + difference) >= fewest:
            continue
        found = [
            _evenest(weighed, needles, least, least + difference)
            for least in leasts
            if _cheapest_singly(cost, needles, least, least + difference) < fewest
        ]
        if found and (best := min(found))[0] < weight * fewest:
            fewest = best[0] // weight
            yield fewest, best[1]


def _places(border: int, needles: int, total: int, least: int, most: int) -> tuple[int, int]:
    """First and last place of a border that leaves every needle `least` to `most`."""
    behind = needles - border
    return max(border * least, total - behind * most), min(border * most, total - behind * least)


def _cheapest_singly(cost: list[int], needles: int, least: int, most: int) -> int:
    """Straddles if every border stood at its cheapest place, whatever the others do."""
    straddles = 0
    for border in range(1, needles):
        first, last = _places(border, needles, len(cost) - 1, least, most)
        straddles += min(cost[first : last + 1])
    return straddles


def _evenest(weighed: list[int], needles: int, least: int, most: int) -> tuple[int, tuple[int, ...]]:
    """The lowest sum of weighed borders and squared needles, needles within `least` to `most`, and its split.

    Fills the needles from the last to the first; of equal splits, the first in the order of tuples. Needs
    needles * least <= total <= needles * most.
    """
    total = len(weighed) - 1
    squares = [stitches * stitches for stitches in range(most + 1)]
    start, best = total, [0]  # best[i]: value of everything after a border at start + i
    chosen: list[tuple[int, list[int]]] = []
    for ahead in range(needles - 1, -1, -1):  # needles before the border being placed
        first, last = _places(ahead, needles, total, least, most)
        values, choices = [], []
        for border in range(first, last + 1):
            low, high = max(least, start - border), min(most, start + len(best) - 1 - border)
            options = list(
                map(add, squares[low : high + 1], best[border + low - start : border + high - start + 1])
            )
            value = min(options)
            values.append(value + weighed[border])
            choices.append(low + options.index(value))
        start, best = first, values
        chosen.append((first, choices))
    border, split = 0, []
    for first, choices in reversed(chosen):
        split.append(choices[border - first])
        border += split[-1]
    return best[0] - weighed[0], tuple(split)


def _refuse(stitches: int, needles: int, tolerance: int, multiple: int) -> None:
    if stitches % multiple:
        down = stitches // multiple * multiple
        near = " or ".join(str(count) for count in (down, down + multiple) if count >= needles * multiple)
        raise Impossible(
            f"{stitches} stitches are no multiple of {multiple}: a repeat would be cut in two.",
            pointer="#/multiple",
            nearest=f"{near or needles * multiple} stitches",
        )
    repeats = stitches // multiple
    if repeats < needles:
        what = f"{stitches} stitches" if multiple == 1 else f"{repeats} repeats of {multiple} stitches"
        raise Impossible(
            f"{what} cannot be shared out over {needles} needles: one would be empty.",
            pointer="#/needles",
            nearest=f"{repeats} needles" if repeats >= FEWEST_NEEDLES else f"{needles * multiple} stitches",
        )
    if repeats % needles and tolerance < multiple:
        raise Impossible(
            f"{stitches} stitches cannot be shared out evenly over {needles} needles"
            + (f" in whole repeats of {multiple}." if multiple > 1 else "."),
            pointer="#/tolerance",
            nearest=f"a tolerance of {multiple}",
        )
