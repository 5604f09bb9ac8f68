"""The picture of the needles."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from roundwright.drawing.needles_diagram import needles_diagram
from roundwright.knitting.answers import Impossible
from roundwright.knitting.crown.request import CrownShape
from roundwright.knitting.work.split_over_needles import split
from roundwright.knitting.work.split_request import SplitRequest
from tests.support.picture_reader import (
    assert_stands_alone,
    elements,
    key_text,
    parsed,
    symbols,
    text_of,
    texts,
)

HAT = SplitRequest(stitches=72, needles=3, crown=CrownShape(style="wedge", sections=8))


def names(root) -> list[str]:
    return [text for text in texts(root, "pin") if text.startswith("needle ")]


def loops(root) -> list[int]:
    """Loops on each needle: its length over the distance between two dashes."""
    counts = []
    for path in elements(root, "path", "softline"):
        dashes = path.get("stroke-dasharray")
        line = re.fullmatch(r"M(\S+) \S+H(\S+)", path.get("d", ""))
        if dashes and line and path.get("stroke-dashoffset"):
            counts.append(round(abs(float(line[1]) - float(line[2])) / sum(map(float, dashes.split()))))
    return counts


@pytest.mark.parametrize("round_number", range(1, 13))
def test_needles_are_shown_as_they_are_held(round_number):
    """Each needle has its stitches before the round and after it, in working order, and its decreases are marked."""
    plan = split(HAT)
    worked = plan.rounds[round_number - 1]
    before = list(plan.rounds[round_number - 2].needles if round_number > 1 else plan.split)
    for move in worked.moves:  # slid before the round
        before[move.needle - 1] -= move.stitches
        before[move.needle] += move.stitches
    root = parsed(needles_diagram(plan, round_number))

    assert [count for count in before if count] == loops(root)
    for needle, (count, after) in enumerate(zip(before, worked.needles, strict=True), start=1):
        name = names(root)[needle - 1]
        assert name.startswith(f"needle {needle}: {count} st" if count else f"needle {needle}: empty")
        assert name.endswith(f"then {after}") == (after != count)
    marks = symbols(root)
    assert [str(move.stitches) for move in worked.moves] == [mark for mark in marks if mark.isdigit()]
    assert worked.before - worked.after == marks.count("/")
    assert worked.text in text_of(root, "desc")


def test_before_any_round_there_is_only_the_split():
    """Round 0 shows the split, the marker and the working needle, and nothing to work."""
    root = parsed(needles_diagram(split(SplitRequest(stitches=66, needles=3))))

    assert [22, 22, 22] == loops(root)  # published: 66 on three needles are 22 each
    assert ["needle 1: 22 sts", "needle 2: 22 sts", "needle 3: 22 sts"] == names(root)
    assert "working needle" in texts(root)
    assert [] == symbols(root)
    assert "marker" in key_text(root)


def test_two_circulars_work_their_own_stitches():
    """With two circulars there is no extra working needle; each circular has its cable."""
    root = parsed(
        needles_diagram(split(SplitRequest(stitches=88, hold="two_circulars")), hold="two_circulars")
    )

    assert "working needle" not in texts(root)
    assert 2 == len([path for path in elements(root, "path", "pinline") if "C" in path.get("d", "")])


def test_a_magic_loop_has_two_halves_and_no_needles():
    """The picture of a loop speaks of its halves."""
    root = parsed(needles_diagram(split(SplitRequest(stitches=88, hold="magic_loop")), hold="magic_loop"))

    assert {"first half: 44 sts", "second half: 44 sts"} <= set(texts(root, "pin"))
    assert not any(text.startswith("needle 1") or "needles" in text for text in texts(root))


def test_a_round_after_the_last_is_refused():
    """The error names the last round."""
    plan = split(HAT)
    with pytest.raises(Impossible) as refused:
        needles_diagram(plan, len(plan.rounds) + 1)

    assert f"round {len(plan.rounds)}" == refused.value.nearest
    assert "#/round" == refused.value.pointer


@settings(max_examples=60, deadline=None)
@given(
    stitches=st.integers(8, 600),
    needles=st.integers(2, 5),
    style=st.sampled_from(["wedge", "quick", "gathered", "square"]),
    part=st.floats(0, 1),
    title=st.none() | st.text(min_size=1, max_size=60),
)
def test_every_round_is_drawn(stitches, needles, style, part, title):
    """Any round of any crown on any needles has a picture that stands alone."""
    plan = split(SplitRequest(stitches=stitches, needles=needles, crown=CrownShape(style=style)))
    number = round(part * len(plan.rounds))

    assert_stands_alone(needles_diagram(plan, number, title=title))


def test_the_marker_hangs_after_the_first_stitch() -> None:
    """Between two needles it would fall off (common practice)."""
    root = parsed(needles_diagram(split(SplitRequest(stitches=64, needles=4))))

    assert "the marker hangs after its first stitch" in text_of(root, "desc")
    assert "after the first stitch" in key_text(root)
