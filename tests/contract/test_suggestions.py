"""What cannot be knitted has a code, and where it suggests a change, the changed request can be knitted."""

import random
from copy import deepcopy
from typing import Any

import msgspec
import pytest

from roundwright.knitting.answers import IMPOSSIBLE_CODES, Impossible, Suggestion
from roundwright.web.routes import all_operations
from roundwright.web.routes.operation import Calculation
from tests.long.making import Maker

CALCULATIONS = [
    operation
    for operation in all_operations()
    if isinstance(operation, Calculation)
    and "hats/handout" not in operation.path
    and operation.id != "calculateBatch"
]
MOST_CHANGES = 8
"""A request by chance has a few faults, one behind the other."""


def applied(request: Any, suggestion: Suggestion) -> Any:
    """The request with the value of a suggestion in its place; objects that are missing on the way are made."""
    request = deepcopy(request)
    *outer, last = suggestion.pointer.removeprefix("#/").split("/")
    place = request
    for step in outer:
        place = place[int(step)] if isinstance(place, list) else place.setdefault(step, {})
    place[int(last) if isinstance(place, list) else last] = suggestion.value
    return request


def refusal(operation: Calculation, request: Any) -> Impossible | None:
    """Why a request cannot be knitted, or None."""
    try:
        operation.calculate(msgspec.convert(request, operation.request_type))
    except Impossible as error:
        return error
    return None


@pytest.mark.parametrize("operation", CALCULATIONS, ids=lambda operation: operation.id)
def test_an_applied_suggestion_is_accepted(operation):
    """Each suggestion takes its fault away: what is refused next has another reason, or another change to make.

    Two fields may need the gauge that is missing: then leaving out the one is followed by leaving out the other.
    """
    maker = Maker(operation.request_type, random.Random(3))
    for _ in range(100):
        request = maker.varied(operation.example_value())
        seen: dict[tuple[str, str], list[Suggestion]] = {}
        while (error := refusal(operation, request)) is not None:
            assert error.code in IMPOSSIBLE_CODES
            place = (error.pointer, error.detail)
            if error.suggestion is None:
                assert place not in seen, (seen, request)
                break
            assert error.suggestion not in seen.setdefault(place, []), (seen, request)
            seen[place].append(error.suggestion)
            request = applied(request, error.suggestion)
        assert sum(map(len, seen.values())) <= MOST_CHANGES


@pytest.mark.parametrize(
    ("id", "request_", "code", "suggestion"),
    [
        ("shapeEvenly", {"stitches": 90, "change": -7, "method": "m1"}, "contradiction", ("#/method", "k2tog")),
        ("shapeEvenly", {"stitches": 90, "change": 7, "target": 97}, "given_twice", ("#/target", None)),
        ("shapeEvenly", {"stitches": 9, "change": 1, "edge_stitches": 2}, "cannot_be_worked", ("#/edge_stitches", 0)),
        ("shapeAlong", {"rows": 20, "times": 30}, "no_room", ("#/times", 20)),
        ("castOn", {"head": {"value": 56, "unit": "in"}, "gauge": {"stitches": 18}}, "out_of_range",
         ("#/head", {"value": 56.0, "unit": "cm"})),
        ("castOn", {"head": {"value": 120, "unit": "cm"}, "gauge": {"stitches": 18}}, "out_of_range",
         ("#/head", {"value": 100.0, "unit": "cm"})),
        ("planHats", {"gauge": {"stitches": 20}, "sizes": [{"head": {"value": 56, "unit": "cm"}}],
                      "brim": {"kind": "ribbed", "gauge": {"stitches": 5}}}, "contradiction",
         ("#/brim/gauge/over", {"value": 1.0, "unit": "in"})),
        ("planHats", {"gauge": {"stitches": 20}, "sizes": [{"head": {"value": 56, "unit": "cm"}}],
                      "brim": {"kind": "ribbed", "gauge": {"stitches": 50}}}, "contradiction",
         ("#/brim/gauge", None)),
        ("splitOverNeedles", {"stitches": 64, "needles": 3, "split": [32, 32]}, "contradiction", ("#/split", None)),
        ("closeCrown", {"stitches": 10, "style": "wedge", "sections": 8}, "does_not_divide", ("#/sections", 5)),
    ],
)  # fmt: skip
def test_a_suggestion_is_the_nearest_that_works(id, request_, code, suggestion):
    """The value suggested is the one a knitter would take, and the changed request is answered."""
    operation = next(operation for operation in CALCULATIONS if operation.id == id)
    error = refusal(operation, request_)

    assert error is not None
    assert error.code == code
    assert error.suggestion == Suggestion(*suggestion)
    assert refusal(operation, applied(request_, error.suggestion)) is None
