"""The knitter whose count is off, simulated: one slip, made by hands that know nothing of the service, 2,000 times.

How the cases are drawn is said in `tests.support.miscounts.draw`; the figures are printed with `-s`.
"""

import json
from collections import Counter
from random import Random
from typing import Any

import msgspec

from roundwright.knitting.counting import check as counting
from roundwright.knitting.counting.request import CountRequest
from tests.support.miscounts import Case, draw

CASES = 2_000
WANTED = 0.95


def answered(request: dict[str, Any]) -> dict[str, Any]:
    """The answer as it goes over the wire."""
    asked = msgspec.json.decode(json.dumps(request), type=CountRequest)
    return msgspec.json.decode(msgspec.json.encode(counting.check(asked, lambda *_: ())))


def found(case: Case, causes: list[dict[str, Any]]) -> bool:
    """Whether the true cause is among them: its code, and on which needle where the needles were counted."""
    return any(
        cause["code"] == case.code and (case.needle is None or cause["needle"] == case.needle)
        for cause in causes
    )


def test_the_true_cause_is_among_the_first_two() -> None:
    """In at least 95 % of 2,000 counts handed over after one slip: its code, and its needle where that can be known."""
    chance = Random(1)  # the same slips every time
    cases = [draw(chance) for _ in range(CASES)]
    of: Counter[str] = Counter()
    right: Counter[str] = Counter()
    first = same_count = 0
    for case in cases:
        causes = answered(case.request)["causes"]
        groups = ["all", case.code, f"count {case.told[0]}, {case.told[1]}"]
        of.update(groups)
        right.update(groups if found(case, causes[:2]) else ())
        first += found(case, causes[:1])
        same_count += found(
            case, [one for one in causes[:2] if one["stitches"] == case.off or case.code == "other_round"]
        )
    report = [
        f"{group:36}{right[group]:6} of {of[group]:5}{right[group] / of[group]:8.1%}" for group in sorted(of)
    ]
    report.append(
        f"named first: {first / CASES:.1%}; with as many stitches off, too: {same_count / CASES:.1%}"
    )
    print("", *report, sep="\n")  # noqa: T201 - shown with -s

    assert right["all"] >= WANTED * CASES
