"""The knitter whose count is off, simulated: one slip, or a count that was wrong itself.

How the cases are drawn is said in `tests.support.miscounts`; `python -m tests.support.slips_table` prints the whole
table.
"""

import json
from pathlib import Path

from tests.support.slips_table import answer, table

STORIES = json.loads((Path(__file__).parent / "count_stories.json").read_text("utf-8"))
"""Counts as knitters tell of them, with what had happened, and what a teacher says first.

The first 40 were written before the causes were ranked: at first contact 15 began as they should and in 28 what had
happened was among the first two (`count_again`, `worked_plain` and `missed_increase` did not exist), after the ranking
all 40. The other 20 were written after it: at first contact 20 and 19.
"""

TEACHER = json.loads((Path(__file__).parent / "stories_of_a_teacher.json").read_text("utf-8"))
"""Stories by somebody who had not seen the service: which causes may come first, and which belong to the first three.

At first contact 53 of 58 began with a cause that was accepted, and 55 had all that belong to the first three. (Two more
stories asked for rounds that their crown does not have.)
"""


def test_the_true_cause_is_named_first_and_among_the_first_two() -> None:
    """With as many miscounts as slips: first in 80 % or more, among the first two in 97 % or more (all 2,400: 98 %)."""
    result = table(cases=600)
    print("", result.printed(), sep="\n")  # noqa: T201 - shown with -s
    assert result.share(result.first, "in the same mix") >= 0.8
    assert result.share(result.first_two, "in the same mix") >= 0.97
    assert result.share(result.first_two, "slips") >= 0.95
    assert result.mends_elsewhere == 0


def test_stories_of_knitters_begin_with_what_a_teacher_says_first() -> None:
    """Every story has the right cause and needle first; nearly all have what had happened among the next two."""
    explained = 0
    for story in STORIES:
        causes = answer(story["request"])["causes"]
        first = causes[0] if causes else {"code": None, "needle": None}
        assert first["code"] == story["first"], story["story"]
        if "needle" in story:
            assert first["needle"] == story["needle"], story["story"]
        left = [cause["code"] for cause in causes if cause["code"] != "count_again"][:2]
        explained += story["happened"] in (*left, first["code"])
    assert explained >= len(STORIES) - 1


def test_stories_of_a_teacher_begin_with_a_cause_she_accepts() -> None:
    """Of 58 stories by somebody who had not seen the service, at least 53 begin as she would, 55 name what happened."""
    begin = explained = 0
    for story in TEACHER:
        found = answer(story["request"])
        codes = [cause["code"] for cause in found["causes"]]
        right = story["first"] == [] and bool(found["matches"])
        begin += right or codes[:1] in [[code] for code in story["first"]]
        explained += set(story["also"]) <= set(codes[:3])
    assert begin >= 53
    assert explained >= 55
