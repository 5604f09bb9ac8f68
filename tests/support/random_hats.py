"""Hats by chance, the same for the same number, with every option of a request: what the service writes of them.

`ROUNDWRIGHT_TEST_HATS=2000` draws so many in place of the few that every run does.
"""

import os
import random
from typing import Any

import msgspec

from roundwright import reference
from roundwright.knitting.answers import Impossible
from roundwright.knitting.crown.styles import STYLES
from roundwright.knitting.hat import plan
from roundwright.knitting.hat.request import HatRequest
from roundwright.web.routes.answer_language import in_its_language
from roundwright.wording.writing.pattern import pattern
from tests.support.hats import HELD

MANY = os.environ.get("ROUNDWRIGHT_TEST_HATS")
"""How many hats are drawn, where it is given."""
NEEDLES = [None, 2, 3, 4, 5, *HELD]
STRIPES = [{"colour": "rust", "rounds": 3}, {"colour": "cream", "rounds": 2}]


def random_hat(number: int, language: str = "en") -> dict[str, Any]:
    """The request of a number; kinds of brim, wordings, styles, needles and numbers of sizes take turns."""
    chance = random.Random(number)
    stitches = chance.randint(8, 40)
    rows = round(stitches * chance.uniform(1.0, 1.7), 1)
    request = {
        "language": language,
        "wording": ("pattern", "beginner")[number // 7 % 2],
        "terms": chance.choice(["us", "uk"]),
        "units": chance.choice(["metric", "imperial"]),
        "gauge": {"stitches": stitches, "rows": rows},
        "sizes": [_size(chance) for _ in range(1 + number % 7)],
        "only_size": 1 if chance.random() < 0.1 else None,
        "needles": NEEDLES[number % len(NEEDLES)],
        "brim": {
            "kind": ("rolled", "ribbed", "garter", "folded")[number % 4],
            "rib": {"knit": chance.randint(1, 6), "purl": chance.randint(1, 6)},
            "smaller_needle": chance.random() < 0.3,
            "gauge": _near(chance, stitches, rows) if chance.random() < 0.2 else None,
        },
        "body": {
            "fullness": chance.choice([None, None, 0, 12.5, 37.5, 60]),
            "adjust_in": chance.choice([None, "body", "brim"]),
            "gauge": _near(chance, stitches, rows) if chance.random() < 0.1 else None,
        },
        "crown": {
            "style": [None, *sorted(STYLES)][number % (1 + len(STYLES))],
            "sections": chance.randint(4, 12) if chance.random() < 0.2 else None,
            "cadence": {"plain_rounds": chance.randint(0, 4)} if chance.random() < 0.2 else None,
            "decrease_at": chance.choice(["end", "end", "end", "start"]),
        },
        "silhouette": chance.choice([None, *sorted(reference.silhouettes())]),
        "ease": {"percent": chance.choice([-15, -5, 0, 5])} if chance.random() < 0.2 else None,
        "finish": {"kind": "cord", "cord_rounds": chance.randint(3, 9)} if chance.random() < 0.2 else None,
        "colours": {"body": STRIPES} if chance.random() < 0.2 else None,
    }
    return {name: value for name, value in request.items() if value is not None}


def _size(chance: random.Random) -> dict[str, Any]:
    """One wearer, by age, week, chart or measure; one in ten with a depth of its own."""
    size = chance.choice(
        [
            {"age_months": chance.randint(0, 60)},
            {"age_years": chance.randint(5, 21)},
            {"gestation_weeks": chance.randint(22, 42)},
            {"adult": chance.choice(["woman", "man"])},
            {"head": {"value": round(chance.uniform(20, 64), 1), "unit": "cm"}},
            {"chart": "toddler"},
        ]
    )
    if chance.random() < 0.1:
        return {**size, "depth": {"value": chance.randint(8, 30), "unit": "cm"}}
    return size


def _near(chance: random.Random, stitches: int, rows: float) -> dict[str, float]:
    """A gauge of another fabric in the same yarn."""
    return {
        "stitches": round(stitches * chance.uniform(0.9, 1.1), 1),
        "rows": round(rows * chance.uniform(0.9, 1.2), 1),
    }


def planned(request: dict[str, Any]) -> plan.HatsAnswer | None:
    """The answer to a request with its pattern; None where no such hat can be made."""
    wanted, _ = in_its_language(msgspec.convert(request, HatRequest), "")
    try:
        return plan.hats(wanted, pattern)
    except Impossible:
        return None
