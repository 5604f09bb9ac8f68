"""The dearest requests that were found are still answered, and with no more work.

Work is counted in calls of functions, which are the same on every machine; how long it takes is in `RESULTS.md`.
"""

import sys
from pathlib import Path

import msgspec
import pytest

from tests.load.worst import KEPT
from tests.long.asking import Service, kept, operations

MOST_CALLS = 400_000
"""Calls in one answer: what takes the limit of 50 ms makes about 300,000 of them."""


@pytest.fixture(scope="module")
def service():
    """The application, asked without a socket."""
    return Service()


@pytest.mark.parametrize("operation", operations(), ids=lambda one: one.id)
def test_the_dearest_request_makes_no_more_work(operation, service):
    """Every operation has its dearest request kept; it is valid, and the work of its answer is bounded."""
    found = msgspec.json.decode(Path(KEPT, f"{operation.id}.json").read_bytes())
    said = msgspec.json.encode(found["request"])
    assert 200 == service.ask_for(operation, said, found["accept"]).status
    for cache in kept():
        cache.cache_clear()
    calls = 0

    def count(_frame, event, _what):
        nonlocal calls
        calls += event in {"call", "c_call"}

    sys.setprofile(count)
    try:
        service.ask_for(operation, said, found["accept"])
    finally:
        sys.setprofile(None)
    print(f"{operation.id}: {calls:,} calls")
    assert calls < MOST_CALLS
