"""What must hold for any answer to any request, however wrong."""

from functools import lru_cache
from itertools import pairwise
from typing import Any
from xml.parsers import expat

import msgspec

from roundwright.web.problems import MEDIA_TYPE, PROBLEM_TYPES, Problem
from roundwright.web.routes.operation import JSON, Operation
from roundwright.web.routes.print_view import FormLookup
from tests.long.asking import Answer
from tests.support import by_hand

REFUSALS = frozenset({400, 404, 413, 422})
"""What a request can be refused with here: its path, media type and method are right."""

MOST_BY_HAND = 400
"""Stitches of a round that are worked one by one; no hat has more."""


def fault(operation: Operation, answer: Answer) -> str | None:
    """What is wrong with an answer; nothing if nothing is."""
    try:
        if answer.status == 200:
            check_answer(operation, answer)
        else:
            check_refusal(operation, answer)
    except Exception as error:  # noqa: BLE001 - whatever it is, it is the answer's fault
        return f"{type(error).__name__}: {error}"
    return None


def check_refusal(operation: Operation, answer: Answer) -> None:
    """Fail unless it is a problem of a kind that a request can have; of a form sent by a browser, a page."""
    assert answer.status in REFUSALS, f"{answer.status} {answer.body[:200]!r}"
    if isinstance(operation, FormLookup) and answer.media_type.startswith("text/html"):
        assert answer.body.lower().startswith(b"<!doctype html>")
        return
    assert answer.media_type == MEDIA_TYPE
    problem = msgspec.json.decode(answer.body, type=Problem)
    kind = PROBLEM_TYPES[problem.type.removeprefix("/problems/")]
    assert (kind.status, kind.title) == (answer.status, problem.title)
    assert problem.detail


def check_answer(operation: Operation, answer: Answer) -> None:
    """Fail unless it is of the form and the type promised, and its rounds come out when they are worked."""
    if answer.media_type == JSON:
        msgspec.json.decode(answer.body, type=operation.answer_type)
        check_rounds(msgspec.json.decode(answer.body))
    elif answer.media_type.startswith("image/svg+xml"):
        expat.ParserCreate().Parse(answer.body, True)
    elif answer.media_type == "application/pdf":
        assert answer.body.startswith(b"%PDF-")
        assert b"%%EOF" in answer.body[-32:]
    elif answer.media_type == "image/png":  # signature and last chunk: ISO/IEC 15948, 5.2 and 11.2.4
        assert answer.body.startswith(b"\x89PNG\r\n\x1a\n")
        assert answer.body[-8:-4] == b"IEND"
    else:
        assert answer.body.decode()


def check_rounds(value: Any, *, following: bool = True) -> None:
    """Work every round there is in an answer; those of a list follow on one another.

    What was read from a written pattern that has faults need not follow: the faults say so.
    """
    if isinstance(value, list):
        rounds = [entry for entry in value if _is_round(entry)]
        if following and rounds and len(rounds) == len(value):
            for previous, after in pairwise(rounds):
                assert previous["after"] == after["before"], f"round {after.get('number')} does not follow"
        for entry in value:
            check_rounds(entry, following=following)
    elif isinstance(value, dict):
        if _is_round(value):
            assert value["after"] == worked(value["before"], msgspec.json.encode(value["steps"]))
        for member in value.values():
            check_rounds(member, following=following and not value.get("findings"))


def _is_round(value: Any) -> bool:
    return isinstance(value, dict) and {"steps", "before", "after"} <= value.keys()


@lru_cache(maxsize=200_000)
def worked(loops: int, steps: bytes) -> int:
    """The stitches there are after working some steps, stitch by stitch, or times over where they are very many."""
    step_list = msgspec.json.decode(steps)
    if loops <= MOST_BY_HAND:
        return by_hand.work(loops, step_list)
    used, left = _loops(step_list)
    assert used == loops, f"{used} of {loops} stitches are worked"
    return left


def _loops(steps: list[dict[str, Any]]) -> tuple[int, int]:
    """Loops used and left by steps."""
    used = left = 0
    for step in steps:
        once = by_hand.LOOPS[step["stitch"]] if step["type"] == "work" else _loops(step["steps"])
        times = step.get("times", 1)
        part = list(by_hand.part(step["again"], step["steps"])) if step.get("again") else []
        used += times * once[0] + sum(by_hand.LOOPS[stitch][0] for stitch in part)
        left += times * once[1] + sum(by_hand.LOOPS[stitch][1] for stitch in part)
    return used, left
