"""What cannot be knitted has a code, and where it suggests a change, the changed request can be knitted."""

import random
from copy import deepcopy
from itertools import product
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
    # What is wrong with a text is answered by findings: none is refused.
    and operation.id not in {"calculateBatch", "proofreadPattern"}
]
MOST_CHANGES = 8
"""A request by chance has a few faults, one behind the other."""
ACCEPTED_AT_ONCE = 0.92
"""Share of requests with one thing changed that are to be accepted with their first suggestion."""


def applied(request: Any, suggestion: Suggestion) -> Any:
    """The request with the value of a suggestion in its place; objects that are missing on the way are made."""
    if suggestion.pointer == "#":
        return suggestion.value
    request = deepcopy(request)
    *outer, last = suggestion.pointer.removeprefix("#/").split("/")
    place = request
    for step in outer:
        place = place[int(step)] if isinstance(place, list) else place.setdefault(step, {})
    place[int(last) if isinstance(place, list) else last] = suggestion.value
    return request


def without_nulls(value: Any) -> Any:
    """A value without its nulls: a field that is null is as good as left out."""
    if isinstance(value, dict):
        return {name: without_nulls(inner) for name, inner in value.items() if inner is not None}
    return [without_nulls(inner) for inner in value] if isinstance(value, list) else value


def refusal(operation: Calculation, request: Any) -> Impossible | None:
    """Why a request cannot be knitted, or None."""
    try:
        operation.calculate(msgspec.convert(request, operation.request_type))
    except Impossible as error:
        return error
    return None


@pytest.mark.parametrize("operation", CALCULATIONS, ids=lambda operation: operation.id)
def test_an_applied_suggestion_takes_its_fault_away(operation):
    """Each suggestion changes the request, and what is refused next, if anything, is another fault than any before."""
    maker = Maker(operation.request_type, random.Random(3))
    refused = 0
    for _ in range(100):
        request = maker.varied(operation.example_value())
        faults = []
        while (error := refusal(operation, request)) is not None:
            assert error.code in IMPOSSIBLE_CODES
            fault = (error.pointer, error.detail)
            assert fault not in faults, (faults, request)
            faults.append(fault)
            if error.suggestion is None:
                break
            changed = applied(request, error.suggestion)
            assert without_nulls(changed) != without_nulls(request), (error.suggestion, request)
            request = changed
        assert len(faults) <= MOST_CHANGES
        refused += bool(faults)
    assert refused, "no request was refused, so nothing was tried"


def test_a_request_with_one_field_changed_is_accepted_at_once_with_its_suggestion():
    """Of examples with one thing changed that get a suggestion, nine in ten are accepted with it (reached: 93 %).

    The rest have a second fault, most often a head or a gauge that is out of range as well. By six draws the share
    was 88 % to 97 %, so that they are taken together.
    """
    accepted = []
    for operation, seed in product(CALCULATIONS, range(1, 7)):
        maker = Maker(operation.request_type, random.Random(seed))
        for _ in range(50):
            request = maker.vary(maker.kind, deepcopy(operation.example_value()))
            error = refusal(operation, request)
            if error is not None and error.suggestion is not None:
                accepted.append(refusal(operation, applied(request, error.suggestion)) is None)

    assert len(accepted) >= 100
    assert sum(accepted) / len(accepted) >= ACCEPTED_AT_ONCE


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
        ("planHats", {"gauge": {"stitches": 20}, "sizes": [{"head": {"value": 56, "unit": "cm"}}],
                      "body": {"gauge": {"stitches": 44}}}, "contradiction", ("#/body/gauge", None)),
        ("planHats", {"gauge": {"stitches": 20}, "sizes": [{"head": {"value": 56, "unit": "cm"}}],
                      "brim": {"kind": "ribbed", "gauge": {"stitches": 21}}, "body": {"gauge": {"stitches": 44}}},
         "contradiction", ("#/body/gauge", None)),
        ("planHats", {"gauge": {"stitches": 20}, "sizes": [
            {"head": {"value": 56, "unit": "cm"}, "body": {"gauge": {"stitches": 44}}}]},
         "contradiction", ("#/sizes/0/body/gauge", None)),
        ("planHats", {"gauge": {"stitches": 20}, "sizes": [
            {"head": {"value": 56, "unit": "cm"}, "age_months": 3, "sex": "girl"}]},
         "given_twice", ("#/sizes/0", {"head": {"value": 56, "unit": "cm"}, "makers": 1})),
        ("planHats", {"gauge": {"stitches": 20}, "sizes": [{"age_months": 3}], "needles":
                      {"magic_loop": {"value": 80, "unit": "cm"}, "double_pointed": 4, "circulars": 2}},
         "given_twice", ("#/needles", {"magic_loop": {"value": 80, "unit": "cm"}})),
        ("estimateYarn", {"stitches": 100, "gauge": {"stitches": 20, "rows": 28, "over": {"value": 10, "unit": "cm"}},
            "rounds": [{"number": 1, "before": 8, "after": 8, "steps": [{"type": "work", "stitch": "k", "times": 8}]}],
            "hat": {"gauge": {"stitches": 20}, "sizes": [{"age_months": 3}]}}, "given_twice",
         ("#", {"stitches": 100, "gauge": {"stitches": 20, "rows": 28, "over": {"value": 10, "unit": "cm"}},
                "units": "metric"})),
        ("estimateYarn", {"stitches": 100, "hat": {"gauge": {"stitches": 20, "rows": 28}, "sizes": [
            {"age_months": 3}]}}, "given_twice", ("#/stitches", None)),
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
