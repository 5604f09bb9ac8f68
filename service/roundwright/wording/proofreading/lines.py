"""Every line of a text: what it is, which rounds it stands for, and the counts worked and printed."""

from collections.abc import Iterable
from typing import Final

from roundwright.knitting.rounds.round import MOST_STITCHES
from roundwright.wording.proofreading.explained import Explained
from roundwright.wording.proofreading.line import MOST_LINES_TOLD, Line, LineKind
from roundwright.wording.reading.instructions import Candidate, printed
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
    listed: list[Line] = []
    for number, text in enumerate(explained.line_texts, start=1):
        if not text or text.isspace():
            continue
        if len(listed) == MOST_LINES_TOLD:
            break
        worked = done.get(number, {})
        most = max(worked.values(), key=len, default=[])
        sizes = range(len(explained.cast_on))
        listed.append(
            Line(
                line=number,
                kind=kinds.get(number) or _plain(explained, number),
                rounds=tuple(worked_round.round.number for worked_round in most),
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
    at = line_of_segments(explained)
    for size, rounds in enumerate(explained.explanation.rounds):
        for done in rounds:
            by_line.setdefault(at[done.segment], {}).setdefault(size, []).append(done)
    return by_line


def line_of_segments(explained: Explained) -> list[int]:
    """The line that each segment begins on."""
    return [explained.line(segment.start) for segment in explained.segments]


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
    """The counts printed on each line, the last of a line that has several."""
    printed_counts: dict[int, tuple[int | None, ...]] = {}
    before = _before(explained)
    for place, candidate in explained.explanation.choices:
        if not candidate.stated:
            continue
        counts: list[int | None] = []
        told_to = _sizes_told(explained.segments[place])
        for size, column in enumerate(explained.columns):
            if told_to and str(column + 1) not in told_to:
                counts.append(None)
                continue
            after = [count for _, count in printed(candidate, before.get((place, size), 0), column)]
            counts.append(after[-1] if after and 0 <= after[-1] <= MOST_STITCHES else None)
        if any(count is not None for count in counts):
            line = explained.line(candidate.stated[-1].start)
            others = printed_counts.get(line, ()) if told_to else ()
            printed_counts[line] = (
                tuple(other if count is None else count for count, other in zip(counts, others, strict=True))
                if others
                else tuple(counts)
            )
    return printed_counts


def _sizes_told(segment: Segment) -> tuple[str, ...]:
    """The sizes that a segment is for, by their places in print; empty for all, and where they are called otherwise."""
    sizes = (segment.label.sizes if segment.label is not None else None) or ()
    return sizes if all(map(str.isdigit, sizes)) else ()


def _before(explained: Explained) -> dict[tuple[int, int], int]:
    """The stitches before the first round of each segment, by segment and size."""
    before: dict[tuple[int, int], int] = {}
    for size, rounds in enumerate(explained.explanation.rounds):
        for done in rounds:
            before.setdefault((done.segment, size), done.round.before)
    return before
