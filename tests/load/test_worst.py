"""The dearest requests that were found are still valid; what they cost is in `RESULTS.md`."""

import gc
from itertools import count
from pathlib import Path

import msgspec
import pytest

from tests.load.worst import KEPT, introduction, searched
from tests.long.asking import Service, everything, spent_s
from tests.long.bounds import FILE_MS, LIMIT_MS, PATTERN_MS, limit_ms


@pytest.fixture(scope="module")
def service():
    """The application, asked without a socket.

    The collector leaves out what the tests before have left in this process: a replica has none of it to look through
    while a request's time runs.
    """
    gc.freeze()
    yield Service()
    gc.unfreeze()


@pytest.mark.parametrize("operation", searched(), ids=lambda operation: operation.id)
def test_the_dearest_request_is_answered(operation, service):
    """Every operation has its dearest request kept; it is valid, and answered before its deadline."""
    found = msgspec.json.decode(Path(KEPT, f"{operation.id}.json").read_bytes())
    body = msgspec.json.encode(found["request"])

    assert 200 == service.ask_for(operation, body, found["accept"]).status


def test_what_is_over_its_limit_is_said():
    """The section names the time of the search, the Python, and what is over its limit, or that nothing is."""
    assert "searched for 20 s an operation, Python 3." in introduction(20, [])
    assert "Over their limit: none." in introduction(20, [])
    assert "Over their limit: planHats, drawCrown." in introduction(4, ["planHats", "drawCrown"])


@pytest.mark.parametrize(
    ("name", "accept", "most"),
    [
        ("planHats", "*/*", LIMIT_MS),
        ("writeHandout", "text/html; charset=utf-8", LIMIT_MS),
        ("writeHandout", "application/pdf", FILE_MS),
        ("writeHandoutAsPdf", "*/*", FILE_MS),
        ("drawCrownAsPng", "*/*", FILE_MS),
        ("drawCrown", "*/*", LIMIT_MS),
        ("proofreadPattern", "application/json", PATTERN_MS),
        ("getProblem", "*/*", LIMIT_MS),
    ],
)
def test_an_answer_has_the_limit_of_its_form(name, accept, most):
    """Files have a limit of their own, and a pattern that is read."""
    assert most == limit_ms(next(operation for operation in everything() if operation.id == name), accept)


def test_a_file_costs_what_its_typesetting_costs(service, monkeypatch):
    """The processor time of the process for PDFs and PNGs is part of what an answer took."""
    handout = next(operation for operation in everything() if operation.id == "writeHandout")
    body = msgspec.json.encode(handout.example_value())
    before_s = spent_s(service.typesetter)
    service.ask_for(handout, body, "application/pdf")

    assert before_s < spent_s(service.typesetter)

    hour_s = count(step=3600)
    monkeypatch.setattr("tests.long.asking.spent_s", lambda typesetter: next(hour_s))

    assert service.ask_for(handout, body, "text/markdown").ms >= 3_600_000
