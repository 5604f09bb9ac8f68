"""What is written in a language is read back: the same rounds, and nothing wrong with them."""

import os
import random
from typing import Any

import msgspec
import pytest

from roundwright import reference
from roundwright.knitting.answers import Impossible
from roundwright.knitting.crown.styles import STYLES
from roundwright.knitting.hat import plan
from roundwright.knitting.hat.request import HatRequest
from roundwright.wording.proofreading.read import read
from roundwright.wording.writing.pattern import pattern

HATS = int(os.environ.get("ROUNDWRIGHT_TEST_HATS", "15"))
"""Hats of each language that are written and read back."""
HELD = [None, 2, 3, 4, 5, {"magic_loop": {"value": 80, "unit": "cm"}}, {"circulars": 2}]


def hat(number: int, language: str) -> dict[str, Any]:
    """A hat by chance, the same for the same number; kinds of brim, wordings and numbers of sizes take turns."""
    chance = random.Random(number)
    stitches = chance.randint(12, 34)
    heads = sorted(chance.sample(range(34, 62), 1 + number % 5))
    return {
        "language": language,
        "wording": ("pattern", "beginner")[number // 5 % 2],
        "gauge": {"stitches": stitches, "rows": round(stitches * chance.uniform(1.1, 1.6), 1)},
        "sizes": [{"head": {"value": cm, "unit": "cm"}} for cm in heads],
        "needles": chance.choice(HELD),
        "brim": {
            "kind": ("rolled", "ribbed", "garter", "folded")[number % 4],
            "rib": {"knit": chance.randint(1, 4), "purl": chance.randint(1, 4)},
        },
        "body": {
            "fullness": chance.choice([None, None, 12.5, 37.5, 60]),
            "adjust_in": chance.choice([None, "body", "brim"]),
        },
        "crown": {"style": chance.choice([None, *sorted(STYLES)])},
        "silhouette": chance.choice([None, *sorted(reference.silhouettes())]),
    }


def written(number: int, language: str) -> tuple[plan.HatsAnswer | None, str]:
    """The hat of a number, and its pattern; None where the hat cannot be made."""
    try:
        answer = plan.hats(msgspec.convert(hat(number, language), HatRequest), pattern)
    except Impossible:
        return None, ""
    return answer, str(answer.pattern)


@pytest.mark.parametrize("number", range(HATS))
@pytest.mark.parametrize("language", reference.LANGUAGES)
def test_what_is_written_is_read_back(language: str, number: int) -> None:
    """Every round of every size comes to the count that was planned, and no finding is an error."""
    answer, text = written(number, language)
    if answer is None:
        pytest.skip("no such hat can be made")
    reading = read(text, tuple(size.cast_on.stitches for size in answer.sizes), language)

    assert [
        (finding.line, finding.message) for finding in reading.findings if finding.severity == "error"
    ] == []
    for size, rounds in zip(answer.sizes, reading.rounds, strict=True):
        planned = [
            *(round.after for round in plan_rounds(size.brim)),
            *(round.after for round in plan_rounds(size.body)),
            *(round.after for round in size.crown.rounds),
        ]
        assert [round.after for round in rounds] == planned


def plan_rounds(part: Any) -> list[Any]:
    """All rounds of a straight part, in working order."""
    turns = [part.lines[turn % len(part.lines)] for turn in range(part.rounds_in_turn)] if part.lines else []
    adjust = [part.adjust] if part.adjust is not None else []
    return [*adjust, *turns] if part.part == "body" else [*turns, *adjust]
