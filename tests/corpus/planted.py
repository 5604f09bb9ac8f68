"""Faults put into right texts, one each: `python -m tests.corpus.planted [--show]`.

Every right text of the corpora that is read right gets one fault of each kind it has room for, at a place chosen by a
seed: another number of stitches, another count, another number of repeats, another stitch, another number for one size,
a line left out, a line twice. A number, stitch or line is changed only where its line prints a count, so that the
pattern itself says that something is wrong.

A fault is found when an error stands on its line, in its size; of a line left out, on the line that takes its place.
It is repaired as meant when the line that is offered, or the whole text repaired, is the right one again.
"""

import random
import re
import sys
from collections import Counter
from collections.abc import Callable, Iterator
from typing import NamedTuple

from roundwright.wording.proofreading.findings import Finding
from roundwright.wording.proofreading.read import Reading, read
from tests.corpus.score import Text, corpora, errors, judge

SEED = 14
_COUNT = re.compile(
    r"(?<![\w/.])(\d{1,3})(?=\)?\s*(?:sts|stitches)\b[\s.)]*(?:rem|left)?\w*[\s.)]*$)|(?<=[=(])\s*(\d{1,3})(?=\)?\s*\.?$)"
)
_TOLD = re.compile(r"\bcont|\brep\w*\.? (?!from)|\buntil\b|\bless\b|\bfewer\b|=", re.IGNORECASE)
"""Words of a line that works rounds again, goes on, or tells what a stitch is."""
_STITCHES = re.compile(
    r"(?<=\b[kp])(\d{1,2})(?![\dx/-])(?!\s?tog)|(?<=\bknit )(\d{1,2})(?! ?(?:tog|together|r))", re.IGNORECASE
)
_TIMES = re.compile(r"\b(\d{1,2})(?=\s*(?:times|x)\b)", re.IGNORECASE)
_STITCH = re.compile(r"\b(?:k2tog|k 2 tog|p2tog)\b(?!\W*p\.?s)", re.IGNORECASE)
_SIZES = re.compile(r"(?<!x)\b\d{1,3}\s?[(\[]\d{1,3}(?:[,/:;]\s?\d{1,3})*[)\]]")
_SHAPED = re.compile(r"k2tog|k 2 tog|ssk|k2t\b|\bdec|together|skp|k3tog", re.IGNORECASE)


class Planted(NamedTuple):
    """A text with one fault: its kind, its lines, the line it is on and in which size (from 1; 0 for all)."""

    kind: str
    text: str
    line: int
    size: int = 0


def _changed(lines: list[str], place: int, start: int, end: int, new: str) -> str:
    line = lines[place]
    return "\n".join([*lines[:place], line[:start] + new + line[end:], *lines[place + 1 :]])


def _number(
    kind: str, pattern: re.Pattern[str], lines: list[str], place: int, chance: random.Random
) -> Planted | None:
    """Another number, one or two away."""
    found = [match for match in pattern.finditer(lines[place]) if not _in_list(lines[place], match.start())]
    if not found:
        return None
    match = chance.choice(found)
    old = int(match[0])
    new = max(1, old + chance.choice((-2, -1, 1, 2)))
    if new == old:
        new += 1
    return Planted(kind, _changed(lines, place, match.start(), match.end(), str(new)), place + 1)


def _in_list(line: str, at: int) -> bool:
    return any(match.start() <= at < match.end() for match in _SIZES.finditer(line))


def stitches(lines: list[str], place: int, chance: random.Random) -> Planted | None:
    """Another number of stitches."""
    return _number("stitches", _STITCHES, lines, place, chance)


def count(lines: list[str], place: int, chance: random.Random) -> Planted | None:
    """Another printed count."""
    return _number("count", _COUNT, lines, place, chance)


def repeats(lines: list[str], place: int, chance: random.Random) -> Planted | None:
    """Another number of repeats."""
    return _number("repeats", _TIMES, lines, place, chance)


def stitch(lines: list[str], place: int, chance: random.Random) -> Planted | None:
    """Another stitch."""
    found = list(_STITCH.finditer(lines[place]))
    if not found:
        return None
    match = chance.choice(found)
    new = match[0].replace("2", "3")
    return Planted("stitch", _changed(lines, place, match.start(), match.end(), new), place + 1)


def size(lines: list[str], place: int, chance: random.Random) -> Planted | None:
    """Another number for one size."""
    found = list(_SIZES.finditer(lines[place]))
    if not found:
        return None
    match = chance.choice(found)
    digits = list(re.finditer(r"\d+", match[0]))
    column = chance.randrange(len(digits))
    old = int(digits[column][0])
    new = str(old + 1 if old < 3 else old + chance.choice((-1, 1)))
    start = match.start() + digits[column].start()
    return Planted(
        "size", _changed(lines, place, start, start + len(digits[column][0]), new), place + 1, column + 1
    )


def left_out(lines: list[str], place: int, _: random.Random) -> Planted | None:
    """A line of shaping left out that stands between two of the same build: what it was can be told from them."""
    shaping = [row for row, line in enumerate(lines) if _SHAPED.search(line)]
    at = shaping.index(place)
    beside = [lines[row] for row in shaping[max(0, at - 1) : at + 2]]
    if len(beside) < 3 or len({re.sub("[0-9]+", "0", line) for line in beside}) > 1:
        return None
    return Planted("left out", "\n".join([*lines[:place], *lines[place + 1 :]]), place + 1)


def doubled(lines: list[str], place: int, _: random.Random) -> Planted | None:
    """A line of shaping twice."""
    return Planted("twice", "\n".join([*lines[: place + 1], *lines[place:]]), place + 2)


Plant = Callable[[list[str], int, random.Random], Planted | None]
KINDS: tuple[Plant, ...] = (stitches, count, repeats, stitch, size, left_out, doubled)


def _takes(text: str, place: int) -> bool:
    """Whether a line is work that shapes and prints its count, and work follows it."""
    lines = text.split("\n")
    line = lines[place]
    shapes = bool(_SHAPED.search(line) and _COUNT.search(line)) and not _TOLD.search(line)
    return shapes and any(map(_COUNT.search, lines[place + 1 :]))


def planted(item: Text) -> Iterator[Planted]:
    """One fault of each kind that a right text has room for."""
    text = item["text"]
    lines = text.split("\n")
    places = [place for place in range(len(lines)) if _takes(text, place)]
    for plant in KINDS:
        chance = random.Random(f"{SEED} {item['id']} {plant.__name__}")
        for place in chance.sample(places, len(places)):
            if made := plant(lines, place, chance):
                yield made
                break


def found(fault: Planted, findings: list[Finding]) -> list[Finding]:
    """The errors that stand on the line of a fault."""
    lines = {fault.line}
    if fault.kind == "left out":
        lines |= {fault.line + 1, fault.line + 2}
    return [
        finding
        for finding in findings
        if finding.line in lines and (not fault.size or finding.size in (None, fault.size))
    ]


def judged(names: tuple[str, ...] = ()) -> Iterator[tuple[Text, Planted, str, str, Reading]]:
    """Every planted fault: whether it was found, and how it was repaired."""
    for name, corpus in corpora().items():
        for item in corpus.get("right", []) if not names or name in names else ():
            cast_on = tuple(item["cast_on"])
            right = read(item["text"], cast_on)
            if judge(right, item["cast_on"], item["counts"], item.get("rounds")) != "read":
                continue
            for fault in planted(item):
                reading = read(fault.text, cast_on)
                here = found(fault, errors(reading))
                if not here:
                    yield item, fault, "elsewhere" if errors(reading) else "missed", "", reading
                    continue
                yield item, fault, "found", _repair(item["text"], fault, here, reading), reading


def _repair(right: str, fault: Planted, here: list[Finding], reading: Reading) -> str:
    if _words(reading.repaired or "") == _words(right):
        return "as meant"
    line = right.split("\n")[fault.line - 1] if fault.line <= right.count("\n") + 1 else ""
    offered = {_words(finding.repair) for finding in here if finding.repair}
    return "as meant" if _words(line) in offered else "other" if offered else "none"


def _words(text: str) -> str:
    return " ".join(text.split())


def main() -> None:
    """Print how many of each kind are found, and repaired as meant."""
    tally: dict[str, Counter[str]] = {}
    for item, fault, what, repair, reading in judged():
        for name in (fault.kind, "all"):
            seen = tally.setdefault(name, Counter())
            seen.update((what, f"repair {repair}") if repair else (what,))
        if "--show" in sys.argv and (what != "found" or repair != "as meant"):
            print(f"--- {fault.kind} {item['id']} line {fault.line} size {fault.size}: {what} {repair}")
            print(fault.text)
            for finding in reading.findings:
                print(
                    f"    {finding.severity} {finding.code} {finding.line} size {finding.size} "
                    f"{finding.message} | {finding.repair}"
                )
    for name, seen in tally.items():
        number = sum(seen[what] for what in ("found", "elsewhere", "missed"))
        print(
            f"{name:10} {number:5}  found {seen['found'] / number:.1%}  elsewhere {seen['elsewhere']}, missed "
            f"{seen['missed']}  repaired as meant {seen['repair as meant'] / max(1, seen['found']):.1%} of those found,"
            f" other {seen['repair other']}, none {seen['repair none']}"
        )


if __name__ == "__main__":
    main()
