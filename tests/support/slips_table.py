"""How well the causes of a wrong count are found: `python -m tests.support.slips_table` prints the table.

- slips: counts after one simulated slip (`tests.support.miscounts.draw`). Counting again shows that the count stays,
so it is set aside: the first and the second cause are those that are left
- miscounts: counts that are wrong by one stitch while the knitting is right; counting again has to come first
- in the same mix: as many miscounts as slips. A stitch is miscounted more often than it is knitted wrong
  (`common practice`), so this is the least that a knitter meets
- strict: counting again is not set aside, so a slip of one stitch can at best be second
"""

import json
from collections import Counter
from collections.abc import Iterable
from random import Random
from typing import Any, NamedTuple

import msgspec

from roundwright.knitting.counting import check as counting
from roundwright.knitting.counting.request import CountRequest
from roundwright.wording.proofreading.read import read
from roundwright.wording.writing.plain_language import PlainLine
from tests.support.mends import changed_elsewhere
from tests.support.miscounts import Case, draw, draw_miscount

CASES = 2_400
SEED = 1


def answer(request: dict[str, Any]) -> dict[str, Any]:
    """The answer as it goes over the wire."""
    decoded = msgspec.json.decode(json.dumps(request), type=CountRequest)
    return msgspec.json.decode(msgspec.json.encode(counting.check(decoded, read, PlainLine), enc_hook=str))


def found(case: Case, causes: Iterable[dict[str, Any]]) -> bool:
    """Whether the true cause is among them: its code, and its needle where the needles were counted."""
    return any(
        cause["code"] == case.code and (case.needle is None or cause["needle"] == case.needle)
        for cause in causes
    )


class Table(NamedTuple):
    """How often the true cause came first and among the first two, by group of cases."""

    cases: Counter[str]
    first: Counter[str]
    first_two: Counter[str]
    mends: int  # causes that name a needle and mend a count in the next round
    mends_elsewhere: int  # of these, on another needle than the one named

    def share(self, hits: Counter[str], group: str) -> float:
        """The share of a group's cases."""
        return hits[group] / self.cases[group]

    def printed(self) -> str:
        """The table in lines."""
        head = f"{'':34}{'cases':>7}{'first':>9}{'first two':>11}"
        rows = [
            f"{group:34}{self.cases[group]:7}{self.share(self.first, group):9.1%}"
            f"{self.share(self.first_two, group):11.1%}"
            for group in sorted(self.cases)
        ]
        mends = f"mends on another needle than the one named: {self.mends_elsewhere} of {self.mends}"
        return "\n".join([head, *rows, mends])


def table(cases: int = CASES, seed: int = SEED) -> Table:
    """The table over so many slips, and as many miscounts."""
    chance = Random(seed)  # the same slips every time
    slips = [draw(chance) for _ in range(cases)]
    miscounts = [draw_miscount(chance) for _ in range(cases)]
    result = Table(Counter(), Counter(), Counter(), 0, 0)
    mends = elsewhere = 0
    for case in slips + miscounts:
        causes = answer(case.request)["causes"]
        is_slip = case.code != "count_again"
        _add(result, case, causes, f"strict, {'slips' if is_slip else 'miscounts'}")
        left = [cause for cause in causes if cause["code"] != "count_again"] if is_slip else causes
        of_slips = (f"slips: {case.code}", f"slips: count {', '.join(case.given)}", "slips")
        _add(result, case, left, "in the same mix", *(of_slips if is_slip else ("miscounts",)))
        for cause in causes:
            verdict = changed_elsewhere(case.request, cause)
            mends += verdict is not None
            elsewhere += bool(verdict)
    return result._replace(mends=mends, mends_elsewhere=elsewhere)


def _add(result: Table, case: Case, causes: list[dict[str, Any]], *groups: str) -> None:
    result.cases.update(groups)
    result.first.update(groups if found(case, causes[:1]) else ())
    result.first_two.update(groups if found(case, causes[:2]) else ())


if __name__ == "__main__":
    print(table().printed())  # noqa: T201 - a command
