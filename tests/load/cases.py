"""The requests the benchmark asks: by the socket in one part, in process in another.

By the socket a case has 1,000 requests that differ, asked in turn: more than are ever kept. Those named `repeated` are
one and the same over and over.
"""

import json
from dataclasses import dataclass, field
from typing import Any

GAUGE = {"stitches": 22, "rows": 30, "over": {"value": 10, "unit": "cm"}}
YARN = {
    "name": "Quillhaven Wether",
    "length": {"value": 210, "unit": "m"},
    "mass": {"value": 100, "unit": "g"},
    "price": {"amount": 14.5, "currency": "EUR"},
}
DIFFERING = 1_000
"""Requests of a case that differ."""
MONTHS = (0, 2, 4, 6, 9, 12, 18, 24, 36, 48, 60)


@dataclass(frozen=True)
class Case:
    """A request, asked with another gauge or other stitches each time, or over and over."""

    name: str
    path: str
    body: Any = None
    headers: dict[str, str] = field(default_factory=dict)
    simple: bool = False
    """Whether it is a single calculator, of which more is asked than of a look-up."""

    repeated: bool = False
    """Whether it is the same request over and over."""

    @property
    def method(self) -> str:
        """POST with a body, GET without one."""
        return "GET" if self.body is None else "POST"

    @property
    def content(self) -> bytes:
        """The body to the byte."""
        return _encoded(self.body)

    def requests(self) -> list[tuple[str, bytes]]:
        """Paths and bodies to be asked in turn."""
        if self.repeated or self.headers:
            return [(self.path, self.content)]
        if self.body is None:
            # A picture of another gauge; a table has no other address.
            return [
                (f"{self.path}.{number:04}" if "?" in self.path else self.path, b"")
                for number in range(DIFFERING)
            ]
        return [(self.path, _encoded(different(self.body, number))) for number in range(DIFFERING)]


def different(body: Any, number: int) -> Any:
    """A body with another gauge; where it has none, it gets one, or another number of stitches."""
    if "change" in body:
        return {**body, "stitches": body["stitches"] + number}
    gauge = {**GAUGE, "stitches": 22 + number / 10_000, "rows": 30 + number / 10_000}
    return {**body, "gauge": gauge}


def _encoded(body: Any) -> bytes:
    return b"" if body is None else json.dumps(body).encode()


def hats(sizes: int, gauge: Any = None, needles: int | None = 4) -> Any:
    """A hat in so many sizes, from a newborn's to a woman's."""
    people: list[Any] = [{"age_months": months} for months in MONTHS]
    people = [*people[len(people) - sizes + 1 :], {"adult": "woman"}] if sizes > 1 else people[5:6]
    return {"gauge": gauge or GAUGE, "sizes": people, "yarn": YARN, "needles": needles}


def crown(stitches: int, style: str) -> Any:
    """A crown with its gauge."""
    return {"stitches": stitches, "style": style, "gauge": GAUGE}


def split(stitches: int, style: str = "quick") -> Any:
    """Stitches shared out over three needles for a crown."""
    return {"stitches": stitches, "needles": 3, "crown": {"style": style}}


PICTURE = "/v1/drawings/crown.svg?stitches=56&gauge_stitches=22&gauge_rows=30"
NEEDLES = "/v1/standards/needle-sizes"
SAME = {"if-none-match": "the tag"}

CASES = (
    Case("gauge/convert", "/v1/gauge/convert", {"gauge": GAUGE}, simple=True),
    Case("shaping/even, 100 stitches", "/v1/shaping/even", {"stitches": 100, "change": -12}, simple=True),
    Case("crown, 56 quick", "/v1/crown", crown(56, "quick"), simple=True),
    Case("crown, 120 dome", "/v1/crown", crown(120, "dome"), simple=True),
    Case("needles/split, 56 on three", "/v1/needles/split", split(56), simple=True),
    Case(
        "yarn/estimate",
        "/v1/yarn/estimate",
        {"stitches": 9_000, "gauge": GAUGE, "yarn": YARN},
        simple=True,
    ),
    Case("hats, 1 size", "/v1/hats", hats(1)),
    Case("hats, 4 sizes", "/v1/hats", hats(4)),
    Case("hats, 12 sizes", "/v1/hats", hats(12)),
    Case("crown, 56 quick, repeated", "/v1/crown", crown(56, "quick"), repeated=True),
    Case("hats, 4 sizes, repeated", "/v1/hats", hats(4), repeated=True),
    Case("standards/needle-sizes, 200", NEEDLES),
    Case("standards/needle-sizes, 304", NEEDLES, headers=SAME),
    Case("crown.svg, 200", PICTURE),
    Case("crown.svg, 304", PICTURE, headers=SAME),
)
