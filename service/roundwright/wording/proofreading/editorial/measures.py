"""What an editor asks about measurements: against the gauge, in two units, and of needles in two systems."""

import re
from collections.abc import Iterator
from functools import cache
from itertools import zip_longest
from typing import Final, NamedTuple

from roundwright import reference
from roundwright.wording.proofreading import messages
from roundwright.wording.proofreading.editorial.sheet import NUMBER, NUMBERS, Sheet, values
from roundwright.wording.proofreading.findings import Finding

CM_PER_INCH: Final = 2.54
_CM: Final = r"cms?\b\.?"
_INCH: Final = r"(?:inch(?:es)?|ins?)\b\.?|[\"″”]"
_UNIT: Final = rf"(?:{_CM}|{_INCH})"

GIRTH_OFF: Final = 0.05
"""Share by which a printed circumference may differ from the one at the gauge: half a stitch at 10."""
LENGTH_OFF: Final = 0.15
"""Share by which a printed length may differ from so many rounds: they are rounded to halves."""
UNITS_OFF: Final = 0.06
"""Share by which centimetres may differ from the inches beside them."""
UNITS_OFF_CM: Final = 0.65
"""And the least that is told: print rounds to half an inch or a whole centimetre."""


class Gauge(NamedTuple):
    """Stitches, and rounds where those are printed, to a centimetre."""

    stitches: float
    rounds: float | None


_GAUGE: Final = re.compile(
    rf"({NUMBER})\s*(?:sts?\b\.?|stitches)(?:\s*(?:and|x|by|,|&|/)\s*({NUMBER})\s*(?:rows?|rnds?|rounds?)\b\.?)?"
    rf"\s*(?:=|to|per|over|in|make|measure)\s*({NUMBER})\s*({_UNIT})",
    re.IGNORECASE,
)


_PART: Final = re.compile(r"\b(?:brim|body)\b", re.IGNORECASE)
"""Parts of a hat that may have a gauge of their own: `24 sts and 30 rnds to 10 cm of the brim`."""


def gauges_of(sheet: Sheet) -> dict[str, Gauge]:
    """The gauges a text gives, `22 sts and 30 rnds to 10 cm`: by the part they are of, and the first by no name."""
    gauges: dict[str, Gauge] = {}
    for printed in sheet.lines_of("prose", "heading"):
        matches = list(_GAUGE.finditer(printed.text))
        for match, following in zip_longest(matches, matches[1:]):
            length = _cm(values(match[3])[0], match[4])
            if not length or not values(match[1])[0]:
                continue
            end = following.start() if following else len(printed.text)
            part = _PART.search(printed.text, match.end(), end)
            rounds = values(match[2])[0] / length if match[2] else None
            gauge = Gauge(values(match[1])[0] / length, rounds)
            gauges.setdefault("", gauge)
            if part:
                gauges.setdefault(part[0].lower(), gauge)
    return gauges


def _cm(length: float, unit: str) -> float:
    return length if unit.lower().startswith("cm") else length * CM_PER_INCH


_GIRTH: Final = re.compile(
    rf"(?:finished|actual)?\s*(?:brim |hat )?(?:circumference|around)[^0-9\n]{{0,30}}({NUMBERS})\s*({_UNIT})",
    re.IGNORECASE,
)


def girth_differs(sheet: Sheet) -> Iterator[Finding]:
    """A finished circumference that neither the cast-on nor the stitches of the body have at the gauge."""
    gauges = gauges_of(sheet)
    if not gauges:
        return
    for printed in sheet.lines_of("prose", "heading"):
        if re.search(r"\b(?:head|to fit|fits)\b", printed.text, re.IGNORECASE):
            continue
        for match in _GIRTH.finditer(printed.text):
            lengths = [_cm(length, match[2]) for length in values(match[1])]
            if len(lengths) not in (1, len(sheet.explained.counts)):
                continue
            part = _PART.search(match[0])
            own = gauges.get(part[0].lower()) if part else None
            fabrics = (own,) if own else (gauges[""],) if part else tuple(gauges.values())
            yield from _girth(sheet, printed.start + match.start(1), lengths, fabrics)


def _girth(sheet: Sheet, start: int, lengths: list[float], fabrics: tuple[Gauge, ...]) -> Iterator[Finding]:
    """A circumference of each size that no count has in any of the fabrics."""
    for size, column in enumerate(sheet.explained.columns):
        counts = {sheet.cast_on[size], max([done.round.after for done in sheet.rounds[size]], default=0)}
        wanted = lengths[min(column, len(lengths) - 1)]
        if len(lengths) == 1 and len(sheet.explained.counts) > 1:
            return
        girths = [count / gauge.stitches for gauge in fabrics for count in counts if count]
        if girths and all(abs(girth - wanted) > GIRTH_OFF * wanted for girth in girths):
            made = max(counts) / fabrics[0].stitches
            yield sheet.note("girth_differs", start, messages.girth_differs(max(counts), made), size=size)


_ROUNDS: Final = re.compile(r"\b([0-9]{1,3})\s*(?:rnds?|rounds?)\b", re.IGNORECASE)
_LENGTH: Final = re.compile(rf"({NUMBER})\s*({_UNIT})", re.IGNORECASE)


def length_differs(sheet: Sheet) -> Iterator[Finding]:
    """`Knit 30 rounds (5 cm)` where 30 rounds are 10 cm at the gauge."""
    gauge = gauges_of(sheet).get("")
    if gauge is None or not gauge.rounds:
        return
    for printed in sheet.lines_of("fabric", "round"):
        rounds = _ROUNDS.search(printed.text)
        length = _LENGTH.search(printed.text, rounds.end()) if rounds else None
        if rounds is None or length is None:
            continue
        expected = _cm(values(length[1])[0], length[2])
        made = int(rounds[1]) / gauge.rounds
        if abs(made - expected) > max(LENGTH_OFF * expected, UNITS_OFF_CM):
            message = messages.length_differs(int(rounds[1]), made)
            yield sheet.note("length_differs", printed.start + length.start(), message)


_BOTH: Final = re.compile(
    rf"({NUMBERS})\s*({_CM})\s*[(\[/,]\s*({NUMBERS})\s*(?:{_INCH})|({NUMBERS})\s*(?:{_INCH})\s*[(\[/,]\s*({NUMBERS})\s*({_CM})",
    re.IGNORECASE,
)


def units_differ(sheet: Sheet) -> Iterator[Finding]:
    """`18 cm (9 in)`."""
    for printed in sheet.lines if "cm" in sheet.lower else ():
        for match in _BOTH.finditer(printed.text):
            cm = values(match[1] or match[5])
            inches = values(match[3] or match[4])
            for length_cm, length_in in zip(cm, inches, strict=False):
                if abs(length_cm - length_in * CM_PER_INCH) > max(UNITS_OFF * length_cm, UNITS_OFF_CM):
                    message = messages.units_differ(length_cm, length_in, length_in * CM_PER_INCH)
                    yield sheet.note("units_differ", printed.start + match.start(), message)
                    break


_NEEDLE: Final = re.compile(
    r"\bUS\s*(?:size\s*)?#?\s?([0-9]{1,2}(?:\.5|½)?)\s*[(/,]?\s*\(?([0-9]{1,2}(?:\.[0-9]{1,2})?)\s*mm\b"
    r"|([0-9]{1,2}(?:\.[0-9]{1,2})?)\s*mm\s*[(/,]\s*US\s*(?:size\s*)?#?\s?([0-9]{1,2}(?:\.5|½)?)\b(?!\s?(?:and|or|to|,|/))",
    re.IGNORECASE,
)


@cache
def _us_sizes() -> dict[str, tuple[float, ...]]:
    """The diameters that charts print for each US number."""
    sizes: dict[str, tuple[float, ...]] = {}
    for row in reference.needle_sizes():
        for number in row.us:
            sizes[number] = (*sizes.get(number, ()), row.mm)
    return sizes


def needle_differs(sheet: Sheet) -> Iterator[Finding]:
    """`US 8 (4 mm)`: by the charts of needle sizes US 8 is 5 mm."""
    for printed in sheet.lines if "mm" in sheet.lower else ():
        for match in _NEEDLE.finditer(printed.text):
            number = (match[1] or match[4]).replace("½", ".5")
            diameters = _us_sizes().get(number, ())
            if diameters and float(match[2] or match[3]) not in diameters:
                message = messages.needle_differs(number, diameters)
                yield sheet.note("needle_differs", printed.start + match.start(), message)
