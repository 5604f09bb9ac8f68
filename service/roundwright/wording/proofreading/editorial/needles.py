"""What an editor asks about stitches shared over needles: whether they add up to those that are there."""

import re
from collections.abc import Iterator
from typing import Final

from roundwright.wording.proofreading import messages
from roundwright.wording.proofreading.editorial.sheet import NUMBERS, Printed, Sheet, values
from roundwright.wording.proofreading.findings import Finding

_WORDS: Final = {"two": 2, "three": 3, "four": 4, "five": 5}
_NAMES: Final = r"(?:dpns?|needles|double[- ]pointed\sneedles)\b"
_NEEDLES: Final = rf"(?:the\s|your\s)?(?P<needles>[2-5]|two|three|four|five)\s{_NAMES}"
_ON: Final = r"\b(?:on|onto|over|among|between|to)\s"
_ON_EACH: Final = re.compile(
    rf"\b(?P<each>{NUMBERS})(?:\s?sts?\b\.?|\sstitches)?\son\seach\sof\s{_NEEDLES}", re.IGNORECASE
)
_EACH: Final = re.compile(
    rf"{_ON}{_NEEDLES}[\s,:;(–—-]{{1,3}}(?P<each>{NUMBERS})(?:\s?sts?\b\.?|\sstitches)?\s(?:on\seach\b|per\sneedle\b|each\b)",
    re.IGNORECASE,
)
_LISTED: Final = re.compile(
    rf"{_ON}{_NEEDLES}[\s,:;(–—-]{{1,3}}(?P<listed>[0-9]{{1,3}}(?:(?:\s?[,/+–-]\s?|\sand\s|,\sand\s)[0-9]{{1,3}}){{1,4}})\b",
    re.IGNORECASE,
)
_WORK: Final = re.compile(
    r"dec|inc|narrow|knit|purl|work|rep|slip|\bk|\bp\b|\buntil\b|\btill\b", re.IGNORECASE
)
_OTHER_NEEDLES: Final = re.compile(
    r",?\s(?:and|plus|with|then)\b|[,;:(–—-]?\s?[–—-]?\s?(?:the\s)?(?:rest|remaining|remainder|others?)\b|,\s?[0-9]",
    re.IGNORECASE,
)
"""More needles with other stitches: `38 on each of two needles and 36 on the third`, `..., the rest on the fourth`."""
_SENTENCE: Final = re.compile(r"[.;:\n]")


def split_differs(sheet: Sheet) -> Iterator[Finding]:
    """`16 sts on each of 4 needles` and `on 3 needles: 20, 20, 24` where there are other stitches than these make."""
    if "needle" not in sheet.lower and "dpn" not in sheet.lower:
        return
    for printed in sheet.lines:
        if printed.line.line in sheet.wrong:
            continue
        for pattern in (_ON_EACH, _EACH):
            for match in pattern.finditer(printed.text):
                yield from _each(sheet, printed, match)
        for match in _LISTED.finditer(printed.text):
            held = [int(number) for number in re.findall("[0-9]+", match["listed"])]
            if len(held) == _number(match["needles"]) and len(sheet.cast_on) == 1:
                yield from _differs(sheet, printed.start + match.start(), 0, sum(held))


def _number(text: str) -> int:
    return _WORDS.get(text.lower(), 0) or int(text)


def _each(sheet: Sheet, printed: Printed, match: re.Match[str]) -> Iterator[Finding]:
    """As many stitches on each needle; nothing where the sentence works them: `dec 2 sts on each of 4 needles`."""
    counts = values(match["each"])
    before = _SENTENCE.split(printed.text[: match.start()])[-1]
    if (
        _WORK.search(before)
        or _OTHER_NEEDLES.match(printed.text, match.end())
        or len(counts) not in (1, len(sheet.cast_on))
    ):
        return
    for size in range(len(sheet.cast_on)):
        held = int(counts[min(size, len(counts) - 1)]) * _number(match["needles"])
        yield from _differs(sheet, printed.start + match.start(), size, held)


def _differs(sheet: Sheet, start: int, size: int, held: int) -> Iterator[Finding]:
    segments, count = sheet.explained.segments, sheet.cast_on[size]
    for done in sheet.rounds[size]:
        if segments[done.segment].start >= start:
            break
        count = done.round.after
    if held != count:
        message = messages.split_differs(held, count)
        yield sheet.note("split_differs", start, message, size=size, stitches=count - held)
