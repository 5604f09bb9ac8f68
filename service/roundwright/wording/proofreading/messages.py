"""How a line that does not come out, or can be read in two ways, is told and pointed at."""

from roundwright.wording.proofreading.evaluate import UnclearError, plan, work
from roundwright.wording.proofreading.findings import FindingCode, stitches
from roundwright.wording.proofreading.outcome import Outcome
from roundwright.wording.proofreading.repair import turned
from roundwright.wording.reading.entries import Entry
from roundwright.wording.reading.tree import Fill, Group, Reading


def told(named: str, outcome: Outcome) -> tuple[FindingCode, int, str]:
    """Code, stitches and message of a line that does not come out."""
    worked, count, over = outcome.worked, outcome.before, outcome.over
    assert worked is not None
    if over > 0:
        are = "is" if over == 1 else "are"
        return (
            "left_over",
            over,
            f"{named} works {worked.used} of the {stitches(count)}: {over} {are} left over.",
        )
    if over < 0:
        there = f"there {'is' if count == 1 else 'are'} {count}"
        return (
            "runs_out",
            over,
            f"{named} needs {stitches(worked.used)}, but {there}: {stitches(-over)} short.",
        )
    assert outcome.stated is not None
    by = worked.left - outcome.stated
    says = f"the pattern says {outcome.stated}: {abs(by)} too {'many' if by > 0 else 'few'}"
    ends = f"leaves {stitches(worked.left)}; {says}."
    if turned(outcome):
        does, says = ("adds", "takes them away") if worked.left > count else ("takes away", "adds them")
        return "wrong_way", by, f"{named} {does} stitches where the pattern {says}: it {ends}"
    return "count_differs", by, f"{named} {ends}"


def where(outcome: Outcome, entry: Entry) -> int:
    """Where in the line a fault shows: at its count, where the stitches run out, or where they are left over."""
    if outcome.whole:
        return entry.body.stated.start if entry.body.stated else 0
    if outcome.over > 0 and outcome.nodes:
        last = outcome.nodes[-1]
        return last.said[0] if isinstance(last, Fill) else max(0, last.end - 1)
    used = 0
    for node in outcome.nodes:
        try:
            used += work(plan((node,), outcome.column), 0).used
        except UnclearError:
            return node.start
        if used > outcome.before or isinstance(node, Fill):
            return node.start
    return 0


def difference(readings: tuple[Reading, ...]) -> int:
    """Where two readings begin to differ."""
    for one, other in zip(readings[0].nodes, readings[1].nodes, strict=False):
        if one != other:
            return one.start
    return 0


def ordinal(column: int) -> str:
    """`the first`, `the 4th`: a place in a list of sizes."""
    return f"the {('first', 'second', 'third')[column]}" if column < 3 else f"the {column + 1}th"


def bracketed(text: str, outcome: Outcome) -> str | None:
    """What is repeated, in words that are clear: in brackets, or with `more` or `in all`."""
    for node in outcome.nodes:
        if isinstance(node, Group) and node.bracketed and text[node.times.start : node.end].strip():
            words = "more times" if node.extra else "times in all"
            number = text[node.times.start : node.times.end]
            number = {"once": "1", "twice": "2", "thrice": "3"}.get(number.lower(), number)
            return f"{text[: node.times.start]}{number} {words}{text[node.end :]}"
    for node in outcome.nodes:
        if isinstance(node, Group | Fill):
            first, last = node.nodes[0].start, node.nodes[-1].end
            return f"{text[:first]}[{text[first:last]}]{text[last:]}"
    return None
