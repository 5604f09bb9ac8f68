"""Every line of a text: what it is, which rounds it stands for, and the counts worked and printed."""

from collections.abc import Iterable
from typing import Final

from roundwright.knitting.rounds.round import MOST_STITCHES
from roundwright.wording.proofreading.explained import Explained
from roundwright.wording.proofreading.line import MOST_LINES_TOLD, Line, LineKind
from roundwright.wording.reading.instructions import Candidate, printed
from roundwright.wording.reading.line_work import column_of
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.states import Done

LONGEST_HEADING: Final = 8
"""Words of a heading."""

_RANK: Final[tuple[LineKind, ...]] = (
    "not_read", "round", "cast_on", "fabric", "closing", "heading", "prose",
)  # fmt: skip


def lines(explained: Explained) -> tuple[Line, ...]:
    """The lines of the text that are not blank, in order."""
    done = _done_on_lines(explained)
    kinds = _kinds(explained)
    counts = _printed(explained)
    longest = sorted(range(len(explained.cast_on)), key=lambda size: -len(explained.explanation.rounds[size]))
    listed: list[Line] = []
    for number, text in enumerate(explained.line_texts, start=1):
        if not text or text.isspace():
            continue
        if len(listed) == MOST_LINES_TOLD:
            break
        worked = done.get(number, {})
        size_rounds = next((worked[size] for size in longest if size in worked), [])
        sizes = range(len(explained.cast_on))
        listed.append(
            Line(
                line=number,
                kind=kinds.get(number) or _plain(explained, number),
                rounds=tuple(worked_round.round.number for worked_round in size_rounds),
                computed=tuple(worked[size][-1].round.after if size in worked else None for size in sizes)
                if worked
                else (),
                printed=counts.get(number, ()),
            )
        )
    return tuple(listed)


def _done_on_lines(explained: Explained) -> dict[int, dict[int, list[Done]]]:
    """The rounds of each line, for each size from 0."""
    by_line: dict[int, dict[int, list[Done]]] = {}
    at = explained.line_of_segments
    for size, rounds in enumerate(explained.explanation.rounds):
        for done in rounds:
            by_line.setdefault(at[done.segment], {}).setdefault(size, []).append(done)
    return by_line


def _kinds(explained: Explained) -> dict[int, LineKind]:
    unread = {fault.segment for fault in explained.explanation.faults if fault.code == "not_understood"}
    shaping = {
        done.segment
        for rounds in explained.explanation.rounds
        for done in rounds
        if done.round.after != done.round.before
    }
    kinds: dict[int, LineKind] = {}
    for place, segment in enumerate(explained.segments):
        candidate = explained.chosen.get(place)
        kind = _kind(segment, candidate, shapes=place in shaping, unread=place in unread)
        if kind is None:
            continue
        for line in _lines_of(explained, segment):
            if line not in kinds or _RANK.index(kind) < _RANK.index(kinds[line]):
                kinds[line] = kind
    return kinds


def _lines_of(explained: Explained, segment: Segment) -> Iterable[int]:
    return range(explained.line(segment.start), explained.line(max(segment.start, segment.end - 1)) + 1)


def _kind(segment: Segment, candidate: Candidate | None, *, shapes: bool, unread: bool) -> LineKind | None:
    if unread:
        return "not_read"
    if segment.title:
        return "heading"
    if candidate is None or candidate.kind == "prose":
        return None
    match candidate.kind:
        case "unread":
            return "not_read"
        case "cast_on" | "closing" as kind:
            return kind
        case "round" if segment.label is None or segment.label.kind in ("count", "sort", "sizes"):
            return "round" if shapes else "fabric"
        case "round" | "loop" | "with" | "continue":
            return "round"
        case _:
            return None


def _plain(explained: Explained, number: int) -> LineKind:
    """A line on which nothing is worked: a heading is short and is no sentence."""
    text = explained.line_text(number).strip()
    apart = number == 1 or not explained.line_text(number - 1).strip() or text.endswith(":")
    short = len(text.split()) <= LONGEST_HEADING and text[-1] not in ".,;!?"
    title = text.startswith("#") or text.isupper() or (apart and not any(char.isdigit() for char in text))
    return "heading" if short and title else "prose"


def _printed(explained: Explained) -> dict[int, tuple[int | None, ...]]:
    """The counts printed for the last round of each line, or on a line without rounds.

    A number that is read as no count of the stitches, as that of a page or a needle's share, is left out: a count that
    is not called wrong is one that is there.
    """
    printed_counts: dict[int, tuple[int | None, ...]] = {}
    at = explained.line_of_segments
    last = {
        (at[done.segment], size): done.segment
        for size, rounds in enumerate(explained.explanation.rounds)
        for done in rounds
    }
    called_wrong = {(fault.segment, fault.size) for fault in explained.explanation.faults}
    there = [
        {cast_on, *(done.round.after for done in rounds)}
        for cast_on, rounds in zip(explained.cast_on, explained.explanation.rounds, strict=True)
    ]
    worked = _worked(explained)
    for place, candidate in explained.explanation.choices:
        if not candidate.stated:
            continue
        counts = list(printed_counts.get(at[place], (None,) * len(there)))
        for size, possible in enumerate(there):
            if place < last.get((at[place], size), 0):
                continue
            before, after = worked.get((place, size), (0, None))
            count = _printed_last(explained, place, size, before)
            wrong = not called_wrong.isdisjoint(((place, size), (place, None)))
            right = count in possible if after is None else count == after
            if count is not None and (wrong or right):
                counts[size] = count
        if any(count is not None for count in counts):
            printed_counts[at[place]] = tuple(counts)
    return printed_counts


def _printed_last(explained: Explained, place: int, size: int, before: int) -> int | None:
    """The last count printed in a segment for a size; None where there is none, or it is not known which is its own."""
    label, own = explained.segments[place].label, explained.columns[size]
    candidate = explained.chosen[place]
    concerned = len(label.sizes) if label is not None and label.sizes else explained.width
    lengths = {len(stated.number.values) for stated in candidate.stated}
    if not explained.search.scope.is_for(label, own) or lengths - {1, concerned, explained.width}:
        return None
    after = [count for _, count in printed(candidate, before, column_of(label, own, candidate))]
    return after[-1] if after and 0 <= after[-1] <= MOST_STITCHES else None


def _worked(explained: Explained) -> dict[tuple[int, int], tuple[int, int]]:
    """The stitches before the first and after the last round of each segment, by segment and size."""
    worked: dict[tuple[int, int], tuple[int, int]] = {}
    for size, rounds in enumerate(explained.explanation.rounds):
        for done in rounds:
            before, _ = worked.get((done.segment, size), (done.round.before, 0))
            worked[done.segment, size] = before, done.round.after
    return worked
