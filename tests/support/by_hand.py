"""A knitter for the tests: works the steps of an answer stitch by stitch, knowing nothing of the service's code.

The stitches are restated from the Craft Yarn Council's list of abbreviations and common book lists: how many loops each
takes from the left needle, how many it puts on the right, and how it leans.
"""

from collections.abc import Iterator
from typing import Any

# Uses, leaves, leans.
STITCHES = {
    "k": (1, 1, None),
    "p": (1, 1, None),
    "sl": (1, 1, None),
    "k2tog": (2, 1, "right"),
    "ssk": (2, 1, "left"),
    "skp": (2, 1, "left"),
    "p2tog": (2, 1, None),
    "k3tog": (3, 1, "right"),
    "sssk": (3, 1, "left"),
    "sk2p": (3, 1, "left"),
    "cdd": (3, 1, "upright"),
    "kfb": (1, 2, None),
    "pfb": (1, 2, None),
    "m1": (0, 1, None),
    "m1l": (0, 1, "left"),
    "m1r": (0, 1, "right"),
    "lli": (0, 1, "left"),  # common practice, as the next
    "rli": (0, 1, "right"),
    "mb": (1, 1, None),  # common practice
    "yo": (0, 1, None),
    # Common practice, needed for work on the purl side.
    "ssp": (2, 1, None),
    "p3tog": (3, 1, None),
    "m1p": (0, 1, None),
}
LOOPS = {name: (uses, leaves) for name, (uses, leaves, _) in STITCHES.items()}


def stitches(steps: list[dict[str, Any]]) -> Iterator[str]:
    """Every stitch of the steps, one after the other."""
    for step in steps:
        for _ in range(step.get("times", 1)):
            if step["type"] == "work":
                yield step["stitch"]
            else:
                yield from stitches(step["steps"])
        if step.get("again"):
            yield from part(step["again"], step["steps"])


def part(again: int, steps: list[dict[str, Any]]) -> Iterator[str]:
    """The first stitches, up to where `again` loops are used, with the increases that follow there."""
    for stitch in stitches(steps):
        uses, _ = LOOPS[stitch]
        if uses > again:
            assert again == 0, f"{stitch} cannot be begun and not ended"
            return
        again -= uses
        yield stitch
    assert again == 0, "there are not so many stitches"


def work(loops: int, steps: list[dict[str, Any]]) -> int:
    """The loops on the needle after the steps are worked; fails where the steps do not use exactly these loops."""
    left, right = loops, 0
    for stitch in stitches(steps):
        uses, leaves = LOOPS[stitch]
        assert left >= uses, f"{stitch} wants {uses}, but {left} are left"
        left -= uses
        right += leaves
    assert left == 0, f"{left} stitches were not worked"
    return right


def work_on_needles(needles: list[int], round: dict[str, Any]) -> list[int]:
    """The loops on each needle after a round, its moves made first; no stitch may lie on two needles."""
    needles = list(needles)
    for move in reversed(round["moves"]):  # the last needle first, so that each slides what it had
        needles[move["needle"] - 1] -= move["stitches"]
        needles[move["needle"]] += move["stitches"]
    worked, place = [0] * len(needles), 0
    for stitch in stitches(round["steps"]):
        uses, leaves = LOOPS[stitch]
        while uses and place < len(needles) - 1 and needles[place] == 0:
            place += 1
        assert needles[place] >= uses, f"{stitch} lies on two needles"
        needles[place] -= uses
        worked[place] += leaves
    assert not any(needles), f"{needles} were not worked"
    return worked


def straight_rounds(part: dict[str, Any]) -> list[dict[str, Any]]:
    """The rounds of brim or body: its lines in turn, and the one that changes the count first (body) or last (brim)."""
    adjust = [part["adjust"]] if part["adjust"] else []
    lines = [part["lines"][number % len(part["lines"])] for number in range(part["rounds"] - len(adjust))]
    return lines + adjust if part["part"] == "brim" else adjust + lines


def work_hat(size: dict[str, Any]) -> int:
    """The stitches left of one size of a hat, worked from its cast-on; fails where a count is wrong."""
    loops = size["cast_on"]["stitches"]
    rounds = straight_rounds(size["brim"]) + straight_rounds(size["body"]) + size["crown"]["rounds"]
    needles = size["split"]["split"] if size["split"] else None
    change = (size["needles"] or {}).get("change")
    for round in rounds:
        assert round["before"] == loops
        if change and round in size["crown"]["rounds"] and round["number"] == change["before_round"]:
            needles = change["split"]
        loops = work(loops, round["steps"])
        assert round["after"] == loops
        if needles is not None:
            needles = work_on_needles(needles, round)
            assert round["needles"] == needles
            assert sum(needles) == loops
    return loops
