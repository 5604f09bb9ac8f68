"""What an editor asks about the sizes: as many in every list, growing, and cast on as the stitch pattern needs."""

import re
from collections.abc import Iterator
from itertools import pairwise
from math import lcm
from typing import Final

from roundwright.knitting.rounds.round import Multiple, Repeat, nearest_count
from roundwright.wording.proofreading import messages
from roundwright.wording.proofreading.editorial.sheet import NUMBER, Printed, Sheet, values
from roundwright.wording.proofreading.findings import Finding
from roundwright.wording.reading.phrases import CastOn
from roundwright.wording.reading.states import Fault
from roundwright.wording.reading.tree import Fill, Number
from roundwright.wording.reading.worked import UnclearError
from roundwright.wording.reading.working import Worker

_LIST: Final = re.compile(
    rf"(?:{NUMBER})(?:\s?[(\[]\s?(?:{NUMBER})(?:\s?,\s?(?:{NUMBER})){{0,12}}\s?[)\]]){{1,3}}"
)
_NAMES: Final = re.compile(
    r"^\s*sizes?\s*[:–—-]\s*([^(\s][^(\n]{0,40})\(([^)\n]{1,200})\)(?!\s[^\s(,;]{1,20}\s?(?:\(|$))",
    re.IGNORECASE,
)
"""Sizes with all but the first in a bracket; not `child (woman) man`, of which every other has its own."""
_BETWEEN: Final = re.compile(r"[,;]| [-–—/] ")
"""What may stand between the names of two sizes; a dash with blanks may be the `to` within the name of one size."""
_STITCHES: Final = re.compile(rf"{_LIST.pattern}\s?(?:sts?|stitch|loops?)", re.IGNORECASE)
"""Stitches at the end of a crown, which are no measurement."""
_SOME: Final = re.compile(r"\bsizes?\s[0-9]", re.IGNORECASE)
"""A line for some sizes only, `Sizes 2 and 5: ...`."""
FEWEST: Final = 3
"""Sizes from which on growing is judged."""
ROUNDED: Final = 0.5
"""What a measurement may be less for a larger size: lengths are printed to halves."""
FALLS: Final = 0.07
"""And its share: whole rounds make a hat a little longer or shorter than its size."""
MANY_STITCHES: Final = 100_000
ANOTHER_SIZE: Final = 0.15
"""The share by which a cast-on makes a hat of another size, 8 cm of a grown-up's."""
MEASURES: Final = re.compile(
    r"circumference|length|measure|depth|height|finished|gauge|tension|\b[0-9]*(?:cm|in)\b|\"", re.IGNORECASE
)


def list_differs(sheet: Sheet) -> Iterator[Finding]:
    """A list of sizes, measurements or counts outside the rounds that has more or fewer numbers than the cast-on."""
    sizes = len(sheet.explained.counts)
    if sizes < 2:
        return
    for printed in sheet.lines:
        some = _SOME.search(printed.text)
        if printed.line.kind == "round" or printed.line.line in sheet.wrong or some:
            continue
        names = _NAMES.match(printed.text)
        if names and not _goes_on(names):
            named = 1 + names[2].count(",") + 1
            if sizes not in (named, 1 + len(_BETWEEN.split(names[2]))):
                message = messages.list_differs(named, sizes)
                yield sheet.note("list_differs", printed.start + names.start(1), message)
            continue
        for start, numbers in _lists(printed):
            if len(numbers) != sizes:
                yield sheet.note("list_differs", start, messages.list_differs(len(numbers), sizes))


def _lists(printed: Printed) -> Iterator[tuple[int, list[float]]]:
    """The lists of numbers on a line, each with where it stands.

    Not `15 cm (6 in)`, which has units, nor `150(1)`, which is a volume and its issue.
    """
    for match in _LIST.finditer(printed.text):
        numbers = values(match[0])
        if _goes_on(match):
            continue
        if len(numbers) > 2 or " " in match[0]:
            yield printed.start + match.start(), numbers


def _goes_on(listed: re.Match[str]) -> bool:
    """Whether a list goes on behind its bracket: `88 (96) 104`, `S (M) L`, `72 (80) {88}`, `2 (4) 8 (grown)`."""
    behind = listed.string[listed.end() : listed.end() + 2].strip()
    return behind[:1] in ("{", "[", "(") or (
        "," not in listed[0] and behind[:1].isalnum() and (behind.isdigit() or behind.isupper())
    )


def sizes_not_growing(sheet: Sheet) -> Iterator[Finding]:
    """A cast-on or a measurement that is less for a larger size, where those on the other lines grow."""
    sizes = len(sheet.explained.counts)
    if sizes < FEWEST:
        return
    lists: list[tuple[int, int, list[float]]] = []
    number = _cast_on(sheet)
    if number is not None:
        line = sheet.explained.line(number.start)
        lists.append((line, number.start, [float(count) for count in sheet.explained.counts]))
    for printed in sheet.lines_of("prose", "heading", "fabric"):
        if printed.line.line in sheet.wrong or not MEASURES.search(printed.text):
            continue
        lists.extend(
            (printed.line.line, start, numbers)
            for start, numbers in _lists(printed)
            if len(numbers) == sizes and not _STITCHES.match(sheet.text, start)
        )
    falls = [(line, place) for line, _, numbers in lists for place in _falls(numbers)]
    for line, start, numbers in lists:
        fall = _falls(numbers)
        if len(fall) != 1 or any(elsewhere != line and place == fall[0] for elsewhere, place in falls):
            continue
        previous, following = numbers[fall[0] - 1], numbers[fall[0]]
        if previous - following > max(ROUNDED, FALLS * previous):
            message = messages.sizes_not_growing(previous, following)
            yield sheet.note("sizes_not_growing", start, message)


def _falls(numbers: list[float]) -> list[int]:
    """The sizes, from 0, that have less than the size before."""
    return [
        place
        for place, (previous, following) in enumerate(pairwise(numbers), start=1)
        if following < previous
    ]


def _cast_on(sheet: Sheet) -> Number | None:
    for segment in sheet.explained.segments:
        for phrase in segment.phrases:
            if type(phrase) is CastOn:
                return phrase.number
    return None


def not_a_multiple(sheet: Sheet) -> Iterator[Finding]:
    """The sizes whose cast-on the rib or the first round of the crown does not come out on."""
    number = _cast_on(sheet)
    faults = [
        fault for fault in sheet.explained.explanation.faults if fault.code in ("left_over", "runs_out")
    ]
    for fault in faults:
        if fault.size is None or fault.segment != faults[0].segment:
            continue
        count = sheet.cast_on[fault.size]
        candidate = sheet.explained.chosen.get(fault.segment)
        if candidate is None or fault.before != count or len(candidate.nodes) != 1:
            return
        repeat = _repeat(candidate.nodes[0], sheet.explained.columns[fault.size])
        if repeat and count % repeat and not _others_fit(sheet, repeat, fault.size):
            counts = _nearest_counts(count, repeat)
            sections = _sections(sheet, fault.size, count)
            both = _nearest_for_both(count, repeat, sections)
            counts = [near for near in counts if near in both] or counts
            suited = _suited(sheet, count, repeat, faults, fault)
            message = messages.not_a_multiple(count, repeat, counts, suited, sections, both)
            start = fault.start if number is None else number.start
            yield sheet.note("not_a_multiple", start, message, size=fault.size)


def _suited(sheet: Sheet, count: int, repeat: int, faults: list[Fault], fault: Fault) -> list[int]:
    """The nearest counts on which the other rounds come out, too: as tried, else by their repeats; or none."""
    assert fault.size is not None
    tried = {cast_on[fault.size] for cast_on in sheet.better_cast_ons}
    return sorted(near for near in tried if near % repeat == 0) or _nearest_for_both(
        count, repeat, lcm(*_repeats_below(sheet, faults, fault))
    )


def _repeats_below(sheet: Sheet, faults: list[Fault], first: Fault) -> Iterator[int]:
    """The stitches of the repeats of other rounds that do not come out on the cast-on of a size either."""
    for fault in faults:
        candidate = sheet.explained.chosen.get(fault.segment)
        alike = fault.size == first.size and fault.before == first.before
        if alike and first.size is not None and candidate is not None and len(candidate.nodes) == 1:
            yield max(1, _repeat(candidate.nodes[0], sheet.explained.columns[first.size]))


def _sections(sheet: Sheet, size: int, count: int) -> int:
    """The sections of a crown that begins on the cast-on as it is: 6 of `*k9, k2tog` on 66; 1 if not known."""
    first = next((done.round for done in sheet.rounds[size] if done.round.kind == "decrease"), None)
    match first.steps if first is not None and first.before == count else ():
        case (Repeat(times=times),):
            return times
    return 1


def _nearest_for_both(count: int, repeat: int, sections: int) -> list[int]:
    """The counts nearest to this that are whole repeats and whole sections; none where they are another size."""
    counts = _nearest_counts(count, lcm(repeat, sections))
    return counts if abs(counts[0] - count) < round(ANOTHER_SIZE * count) else []


def _nearest_counts(count: int, of: int) -> list[int]:
    """The multiples of a number that are nearest to a count, which is none: one, or one on each side."""
    nearest = nearest_count(count, Multiple(of))
    opposite = 2 * count - nearest
    return sorted((nearest, opposite)) if opposite > 0 and opposite % of == 0 else [nearest]


def _others_fit(sheet: Sheet, repeat: int, size: int) -> bool:
    """Whether a repeat fits another size only with other numbers: then it is the list that is wrong."""
    others = [count for place, count in enumerate(sheet.cast_on) if place != size]
    return bool(others) and not any(count % repeat == 0 for count in others)


def _repeat(node: object, column: int) -> int:
    """The stitches of one repeat that goes on to the end of the round."""
    if type(node) is not Fill or (node.leave is not None and node.leave.of(column)) or node.marker:
        return 0
    try:
        return Worker(column).work(node.nodes, MANY_STITCHES).used
    except UnclearError:
        return 0
