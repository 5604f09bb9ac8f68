"""The needles of a pattern in words: what to bring, how to start on them, where to change."""

from collections.abc import Iterator, Sequence
from itertools import zip_longest
from typing import Final

from roundwright.knitting.gauge.convert import NeedleSize, needle_sizes_of
from roundwright.knitting.hat.needles import SizeNeedles
from roundwright.knitting.hat.plan import HatPlan
from roundwright.knitting.hat.request import HatRequest
from roundwright.knitting.needles.holds import holders
from roundwright.wording.writing.printed_quantities import printed_quantity
from roundwright.wording.writing.size_lists import shared_lines, sizes_note

_JOIN: Final = "Join to work in the round; see that the edge is not twisted."
_MARKER: Final = (
    "Put a marker at the start of the round; on double-pointed needles after the first stitch, in the second round, "
    "since between two needles it would fall off."
)
_MARKER_ON_CORD: Final = "Put a marker at the start of the round."
_MARKER_BETWEEN: Final = (
    "In the second round hang a marker after the first stitch; between two {holders} it would fall off."
)


def needle_lines(request: HatRequest, plans: Sequence[HatPlan], gauge: str) -> Iterator[str]:
    """The needles to bring, a line for each kind, with their sizes; `gauge` is the word for it."""
    lines = lines_of_sizes([_needles_text(request, size, plan) for size, plan in enumerate(plans)])
    sizes = _sizes_text(request)
    size = f"take the size that gives the {gauge}"
    if request.brim.smaller_needle:
        size += ", and for the brim one or two sizes smaller"
    if len(lines) == 1:
        yield f"{lines[0]}{f', about {sizes}' if sizes else ''}; {size}"
    else:
        yield from lines
        yield f"Needles about {sizes}; {size}" if sizes else size.capitalize()


def _needles_text(request: HatRequest, size: int, plan: HatPlan) -> str:
    requested, needles = request.needles_of(size), plan.needles
    if needles is None or requested is None:
        return "Double-pointed needles, or a circular needle and double-pointed ones for the crown"
    if needles.hold == "magic_loop" and requested.magic_loop:
        return f"A circular needle of {printed_quantity(requested.magic_loop)} for a magic loop"
    if needles.hold == "two_circulars":
        return f"Two circular needles{_at_least(needles)}"
    if needles.hold == "circular" and requested.circular:
        circular = f"A circular needle of {printed_quantity(requested.circular)}"
        if needles.change is None:
            return circular
        count = len(needles.change.split)
        return f"{circular}; for the crown double-pointed needles, {count} to hold the stitches and 1 to work with"
    given = requested.double_pointed_length
    long = f" of {printed_quantity(given)}" if given else _at_least(needles)
    return f"Double-pointed needles{long}: {needles.count} to hold the stitches and 1 to work with"


def _at_least(needles: SizeNeedles) -> str:
    return f", {printed_quantity(needles.lengths[0])} or longer" if needles.lengths else ""


def _sizes_text(request: HatRequest) -> str:
    """Sizes to start a swatch with, in mm and in the numbers of the country, those of the requested units first."""
    sizes = needle_sizes_of(request.gauge)
    if not sizes:
        return ""
    mm = f"{_range([f'{size.mm:g}' for size in sizes])} mm"
    numbers = [number for size in sizes for number in _numbers(size, request.terms)[:1]]
    if not numbers:
        return mm
    numbered = f"{request.terms.upper()} {_range(numbers)}"
    return f"{numbered} ({mm})" if request.units == "imperial" else f"{mm} ({numbered})"


def _numbers(size: NeedleSize, terms: str) -> tuple[str, ...]:
    return size.uk if terms == "uk" else size.us


def _range(values: Sequence[str]) -> str:
    return values[0] if values[0] == values[-1] else f"{values[0]} to {values[-1]}"


def start_lines(plans: Sequence[HatPlan]) -> Iterator[str]:
    """From the cast-on to the needles, the join, and the marker."""
    starts = [
        [step for step in plan.split.start if len(step.needles) > 1] if plan.split else [] for plan in plans
    ]
    for of_sizes in zip_longest(*starts):
        yield from lines_of_sizes([step.text if step else None for step in of_sizes])
    yield from lines_of_sizes([plan.split.reason if plan.split else None for plan in plans])
    yield from lines_of_sizes([None if start else _JOIN for start in starts])  # else the steps say it
    yield from lines_of_sizes([_marker(plan.needles) for plan in plans])


def _marker(needles: SizeNeedles | None) -> str:
    if needles is None:
        return _MARKER
    return (
        _MARKER_ON_CORD
        if needles.hold == "circular"
        else _MARKER_BETWEEN.format(holders=holders(needles.hold))
    )


def change_lines(plans: Sequence[HatPlan], skipped: Sequence[int], number: int) -> Iterator[str]:
    """Where sizes go on to double-pointed needles, before the round of that number in the pattern.

    Each size skips as many numbers before the first round of its crown.
    """
    changes = [plan.needles.change if plan.needles else None for plan in plans]
    texts = [
        change.text if change and change.before_round + skip == number else None
        for change, skip in zip(changes, skipped, strict=True)
    ]
    yield from lines_of_sizes(texts)


def lines_of_sizes(texts: Sequence[str | None]) -> list[str]:
    """The lines of all sizes, each with the sizes it is for."""
    return [_of_sizes(line.text, line.sizes, len(texts)) for line in shared_lines(texts)]


def _of_sizes(text: str, sizes: Sequence[int], size_count: int) -> str:
    """A line that begins with its sizes where it is not for all: `Sizes 2 and 4 only: slide ...`."""
    note = sizes_note(sizes, size_count).strip(" ()")
    return f"{note.capitalize()}: {text[:1].lower()}{text[1:]}" if note else text
