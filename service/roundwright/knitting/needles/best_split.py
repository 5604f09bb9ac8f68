"""The best split: how stitches are shared out over needles so that few decreases lie on two of them.

How often a boundary is straddled depends on its own start alone (see `boundaries`). So the straddles of every possible
boundary are known before any split is looked at, and `pareto_splits` searches the combinations: for usual tolerances it
lists all of them, else it places needle by needle.
"""

from collections.abc import Iterator
from functools import lru_cache
from itertools import accumulate, pairwise, product
from operator import add
from typing import Annotated, Final, NamedTuple

from msgspec import UNSET, Meta, Struct

from roundwright.knitting.answers import Impossible
from roundwright.knitting.needles.boundaries import BoundaryPaths, boundaries_of
from roundwright.knitting.rounds.round import MOST_ON_NEEDLES, MOST_STITCHES, Repeat, Round
from roundwright.language import listed, say, say_count

FEWEST_NEEDLES: Final = 2
"""Two circulars, or two of three double-pointed needles: one needle holds a round only with a long cable."""
USUAL_NEEDLES: Final = 3
"""A set of four: three hold about a third of the round each and the fourth works."""
MOST_NEEDLES: Final = 5
"""Double-pointed needles are sold in sets of four to six: one works, up to five hold."""
MOST_TOLERANCE: Final = 24
"""Stitches between the fullest and the emptiest needle: the longest repeat kept whole."""
MOST_MULTIPLE: Final = 24
"""Stitches of a rib or pattern repeat kept whole on a needle: a longer one fills a needle by itself."""
USUAL_TOLERANCE: Final = 4
"""Stitches by which needles may differ by default: a hand does not notice them."""

ADJUSTED_BY: Final = 2
"""Stitches by which the end of a section may lie off its share where a first round adjusts the count."""
WHOLE_ON: Final = 3
"""Needles on which sections stay whole even where that gives a needle one of them and another two."""
MOST_LISTED: Final = 4_096
"""Splits are listed up to this number of combinations: five needles with a tolerance of 4 are within it."""

NeedleCount = Annotated[
    int,
    Meta(ge=FEWEST_NEEDLES, le=MOST_NEEDLES, description="Needles that hold stitches; one more works."),
]
Tolerance = Annotated[
    int,
    Meta(
        ge=0,
        le=MOST_TOLERANCE,
        description="Most stitches by which the fullest and the emptiest needle may differ. A split in whole sections, "
        "of which nothing is slid, may differ by more. Default 4.",
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
NeedleStitches = Annotated[
    tuple[Annotated[int, Meta(ge=0, le=MOST_STITCHES)], ...],
    Meta(
        max_length=MOST_ON_NEEDLES,
        description="Stitches on each needle, the first needle of the round first.",
    ),
]


class NeedleSplit(Struct, frozen=True, kw_only=True):
    """Stitches on each needle, and how often a decrease lies across two of them."""

    split: NeedleStitches
    straddles: Annotated[
        int,
        Meta(
            ge=0,
            description="Decreases that lie across a boundary between two needles, over all the rounds and counted at "
            "each boundary: as often, stitches have to be slid to the next needle.",
        ),
    ]
    difference: Annotated[
        int, Meta(ge=0, description="Stitches between the fullest and the emptiest needle at the start.")
    ]
    reason: Annotated[
        str | None,
        Meta(
            description="Why the needles differ by more than a stitch; null where they do not, or it is not said."
        ),
    ] = None


def pareto_splits(
    paths: BoundaryPaths, needles: int, tolerance: int = USUAL_TOLERANCE, multiple: int = 1
) -> tuple[NeedleSplit, ...]:
    """The Pareto-optimal splits within `tolerance`: no other has both fewer straddles and more even needles.

    The most even comes first, the one with the fewest straddles last: that is the best split. Ties go to the smallest
    difference between the fullest and the emptiest needle, then to the smallest variance, then to the fewest stitches
    on the first needle (then on the second, and so on). Each needle holds at least one `multiple`. Raises `Impossible`
    where there is no such split.
    """
    _check(len(paths.straddles) - 1, needles, multiple)
    _require_within(len(paths.straddles) - 1, needles, tolerance, multiple)
    return _pareto_splits(paths, needles, tolerance, multiple)


def _pareto_splits(
    paths: BoundaryPaths, needles: int, tolerance: int, multiple: int
) -> tuple[NeedleSplit, ...]:
    return tuple(
        NeedleSplit(
            split=tuple(multiple * units for units in split),
            straddles=straddles,
            difference=multiple * (max(split) - min(split)),
        )
        for straddles, split in _pareto_front(paths.straddles[::multiple], needles, tolerance // multiple)
    )


def best_splits(
    paths: BoundaryPaths, needles: int, tolerance: int = USUAL_TOLERANCE, multiple: int = 1
) -> tuple[NeedleSplit, ...]:
    """The Pareto-optimal splits, and as the last that in whole sections, where it has fewer straddles than all others.

    Whole sections are a candidate whatever the tolerance (common practice: of eight wedges three, three and two): on
    three needles in any number of sections; on others where every needle has two or more, else needles differ too much.
    Raises `Impossible` as `pareto_splits` does, but not where the tolerance is too small and there are whole sections.
    """
    stitches = len(paths.straddles) - 1
    _check(stitches, needles, multiple)
    whole = _whole_sections(paths, needles, multiple)
    if whole and not _is_within(stitches, needles, tolerance, multiple):
        return (whole,)
    _require_within(stitches, needles, tolerance, multiple)
    splits = _pareto_splits(paths, needles, tolerance, multiple)
    return (*splits, whole) if whole and whole.straddles < splits[-1].straddles else splits


def _whole_sections(paths: BoundaryPaths, needles: int, multiple: int) -> NeedleSplit | None:
    """The split in whole sections; None where there are none, too few for the needles, or they cut a `multiple`."""
    sections = _sections(paths.rounds)
    if not sections or sections < (needles if needles == WHOLE_ON else 2 * needles):
        return None
    share, more = divmod(sections, needles)
    stitches = len(paths.straddles) - 1
    ends = accumulate([share + (needle < more) for needle in range(needles - 1)])
    boundaries = [_end_of_section(paths.straddles, end * stitches // sections) for end in ends]
    split = tuple(after - before for before, after in pairwise([0, *boundaries, stitches]))
    if min(split) < 1 or any(count % multiple for count in split):
        return None
    return rate_split(paths, split)


def _sections(rounds: tuple[Round, ...]) -> int:
    """Sections of a crown: how often its first decrease round that is one repeat works it; 0 where none is."""
    for round in rounds:
        first = round.steps[0]
        decreases = round.after < round.before and round.kind != "adjust"
        if decreases and len(round.steps) == 1 and isinstance(first, Repeat) and not first.again:
            return first.times
    return 0


def _end_of_section(straddles: list[int], near: int) -> int:
    """The end of a section about here: an adjusting round moves it by a stitch or two."""
    window = range(max(0, near - ADJUSTED_BY), min(len(straddles), near + ADJUSTED_BY + 1))
    return min(window, key=lambda position: (straddles[position], abs(position - near)))


def rate_split(paths: BoundaryPaths, needles: tuple[int, ...]) -> NeedleSplit:
    """A split given by the knitter as a `NeedleSplit`, with its straddles over the rounds."""
    return NeedleSplit(
        split=needles,
        straddles=sum(paths.straddles[boundary] for boundary in boundaries_of(needles)),
        difference=max(needles) - min(needles),
    )


# --- the best combination of boundaries --------------------------------------------------------------------


_Front = Iterator[tuple[int, tuple[int, ...]]]
"""Straddles and split, for each difference between needles that has fewer straddles than all smaller differences."""


def _pareto_front(straddles: list[int], needles: int, tolerance: int) -> _Front:
    """The Pareto front up to `tolerance`, by the faster of two searches; `straddles` are those of each position."""
    share, over = divmod(len(straddles) - 1, needles)
    if (tolerance + 1) ** needles <= MOST_LISTED and share > tolerance:
        return _front_from_list(straddles, share, _list_splits(needles, over, tolerance))
    return _front_by_search(straddles, needles, tolerance)


class _SplitList(NamedTuple):
    """The splits of one difference, the most even first. A needle is given by its stitches less the equal share."""

    splits: tuple[tuple[int, ...], ...]
    boundaries: tuple[tuple[int, ...], ...]
    """For each boundary its position in each split, less its position with equal shares."""


@lru_cache(maxsize=64)
def _list_splits(needles: int, over: int, tolerance: int) -> tuple[_SplitList, ...]:
    """All splits within `tolerance`, by difference; `over` stitches remain after equal shares."""
    by_difference: dict[int, list[tuple[int, ...]]] = {}
    for above in product(range(tolerance + 1), repeat=needles):
        least, remainder = divmod(over - sum(above), needles)
        if not remainder and min(above) == 0:
            by_difference.setdefault(max(above), []).append(tuple(least + extra for extra in above))
    return tuple(
        _SplitList(
            tuple(splits), tuple(zip(*(tuple(accumulate(split[:-1])) for split in splits), strict=True))
        )
        for _, unsorted in sorted(by_difference.items())
        if (splits := sorted(unsorted, key=lambda split: (sum(extra * extra for extra in split), split)))
    )


def _front_from_list(straddles: list[int], share: int, split_lists: tuple[_SplitList, ...]) -> _Front:
    fewest = sum(straddles) + 1
    for splits, boundaries in split_lists:
        totals = [0] * len(splits)
        for boundary, offsets in enumerate(boundaries, start=1):
            equal = boundary * share
            totals = [
                total + straddles[equal + offset] for total, offset in zip(totals, offsets, strict=True)
            ]
        if (best := min(totals)) < fewest:
            fewest = best
            yield fewest, tuple(share + extra for extra in splits[totals.index(best)])
        if not fewest:
            return


def _front_by_search(straddles: list[int], needles: int, tolerance: int) -> _Front:
    stitches = len(straddles) - 1
    weight = stitches * stitches + 1  # above any sum of squares: straddles come first, evenness second
    weighted = [weight * count for count in straddles]
    fewest = sum(straddles) + 1
    for difference in range(tolerance + 1):
        leasts = range(max(1, -(-stitches // needles) - difference), stitches // needles + 1)
        # Skip the search where even the best position of each boundary, taken alone, saves no straddle.
        if not leasts or _lower_bound(straddles, needles, leasts[0], leasts[-1] + difference) >= fewest:
            continue
        candidates = [
            _most_even(weighted, needles, least, least + difference)
            for least in leasts
            if _lower_bound(straddles, needles, least, least + difference) < fewest
        ]
        if candidates and (best := min(candidates))[0] < weight * fewest:
            fewest = best[0] // weight
            yield fewest, best[1]


def _positions(boundary: int, needles: int, stitches: int, least: int, most: int) -> tuple[int, int]:
    """First and last position of a boundary that leaves `least` to `most` stitches on every needle."""
    after = needles - boundary
    return max(boundary * least, stitches - after * most), min(boundary * most, stitches - after * least)


def _lower_bound(straddles: list[int], needles: int, least: int, most: int) -> int:
    """The straddles if each boundary had its best position, whatever the others have: no split has fewer."""
    total = 0
    for boundary in range(1, needles):
        first, last = _positions(boundary, needles, len(straddles) - 1, least, most)
        total += min(straddles[first : last + 1])
    return total


def _most_even(weighted: list[int], needles: int, least: int, most: int) -> tuple[int, tuple[int, ...]]:
    """The lowest sum of weighted straddles and squared needles, with `least` to `most` on a needle, and its split.

    Dynamic programming from the last needle to the first; of equal splits, the first in the order of tuples. Needs
    needles * least <= stitches <= needles * most.
    """
    stitches = len(weighted) - 1
    squares = [count * count for count in range(most + 1)]
    start, best = stitches, [0]  # best[i]: lowest sum of everything after a boundary at start + i
    chosen: list[tuple[int, list[int]]] = []
    for boundary in range(needles - 1, -1, -1):
        first, last = _positions(boundary, needles, stitches, least, most)
        sums, choices = [], []
        for position in range(first, last + 1):
            low, high = max(least, start - position), min(most, start + len(best) - 1 - position)
            options = list(
                map(add, squares[low : high + 1], best[position + low - start : position + high - start + 1])
            )
            lowest = min(options)
            sums.append(lowest + weighted[position])
            choices.append(low + options.index(lowest))
        start, best = first, sums
        chosen.append((first, choices))
    position, split = 0, []
    for first, choices in reversed(chosen):
        split.append(choices[position - first])
        position += split[-1]
    return best[0] - weighted[0], tuple(split)


def _check(stitches: int, needles: int, multiple: int) -> None:
    """Raise `Impossible` where no split has whole repeats and a stitch on every needle."""
    if stitches % multiple:
        down = stitches // multiple * multiple
        near = [count for count in (down, down + multiple) if count >= needles * multiple]
        raise Impossible(
            say("split.no_multiple", stitches=stitches, multiple=multiple),
            pointer="#/multiple",
            nearest=say("split.stitches", counts=listed(tuple(map(str, near or [needles * multiple])), "or")),
            code="does_not_divide",
            suggested=1,
        )
    repeats = stitches // multiple
    if repeats < needles:
        what = (
            say_count("stitches", stitches)
            if multiple == 1
            else say("split.repeats", repeats=repeats, multiple=multiple)
        )
        raise Impossible(
            say("split.one_empty", what=what, needles=needles),
            pointer="#/needles",
            nearest=say("split.needles", needles=repeats)
            if repeats >= FEWEST_NEEDLES
            else say("split.stitches", counts=needles * multiple),
            code="no_room",
            suggested=repeats if repeats >= FEWEST_NEEDLES else UNSET,
        )


def _is_within(stitches: int, needles: int, tolerance: int, multiple: int) -> bool:
    """Whether some split in whole repeats keeps to the tolerance."""
    return stitches // multiple % needles == 0 or tolerance >= multiple


def _require_within(stitches: int, needles: int, tolerance: int, multiple: int) -> None:
    """Raise `Impossible` where no split in whole repeats keeps to the tolerance."""
    if not _is_within(stitches, needles, tolerance, multiple):
        raise Impossible(
            say(
                "split.not_evenly.in_repeats" if multiple > 1 else "split.not_evenly",
                stitches=stitches,
                needles=needles,
                multiple=multiple,
            ),
            pointer="#/tolerance",
            nearest=say("split.tolerance", tolerance=multiple),
            code="does_not_divide",
            suggested=multiple,
        )
