"""Where a repaired line was changed, by hand: stitch by stitch against the line as planned."""

from typing import Any

from tests.support.by_hand import LOOPS, stitches
from tests.support.miscounts import lines_of

Line = dict[str, Any]


def planned(request: dict[str, Any], cause: dict[str, Any]) -> Line:
    """The line that `next` of a cause stands for, as the work has it."""
    line = cause["next"]
    (entry,) = [
        entry
        for part, entry in _rounds(request)
        if entry["number"] == line["number"] and part in (None, cause["next_part"])
    ]
    return entry


def _rounds(request: dict[str, Any]) -> list[tuple[str | None, Line]]:
    kind = "crown" if "crown" in request else "hat"
    needles = {"needles": 2} if request[kind].get("needles") is None else {}
    return lines_of(kind, {**request[kind], **needles})[1]


def held(request: dict[str, Any], cause: dict[str, Any]) -> list[int]:
    """The counted needles, with an empty needle that was put aside and not counted back in its place."""
    counted, line = list(request["needles"]), cause["next"]
    if line["needles"] is None or len(counted) == len(line["needles"]):
        return counted
    rounds = [entry for _, entry in _rounds(request)]
    at = rounds.index(planned(request, cause))
    before, after = (
        rounds[at - 1]["needles"],
        rounds[at]["needles"],
    )  # a round more begins with what is left after
    shares = before if sum(map(bool, before)) == len(counted) else after
    left = iter(counted)
    return [next(left) if share else 0 for share in shares]


def window(as_planned: Line, repaired: Line) -> tuple[int, int]:
    """From where to where the repaired line differs, in stitches it uses; the two are the same for one that is made."""
    before, after = (list(stitches(line["steps"])) for line in (as_planned, repaired))
    start = 0
    while start < min(len(before), len(after)) and before[start] == after[start]:
        start += 1
    end = 0
    while end < min(len(before), len(after)) - start and before[-1 - end] == after[-1 - end]:
        end += 1
    used = [LOOPS[name][0] for name in after]
    return sum(used[:start]), sum(used[: len(used) - end])


def changed_elsewhere(request: dict[str, Any], cause: dict[str, Any]) -> bool | None:
    """Whether the line named next is changed on another needle than the cause names; None where it is not changed."""
    line, needle = cause["next"], cause["needle"]
    if line is None or needle is None or "needles" not in request:
        return None
    as_planned = planned(request, cause)
    if line["before"] != sum(request["needles"]) or line["before"] == as_planned["before"]:
        return None
    if cause["code"] == "worked_plain" and as_planned["before"] != as_planned["after"]:
        as_planned = {
            "steps": [{"type": "work", "stitch": "k", "times": line["after"]}]
        }  # a round of its own
    counted = held(request, cause)
    first, last = sum(counted[: needle - 1]), sum(counted[:needle])
    start, end = window(as_planned, line)
    if start == end > 0:  # a stitch made where a needle begins lies on the one before it
        return not first < start <= last
    return not first <= start <= end <= last
