"""Bad input in every run: a few hundred requests by chance for each operation, and hats near to what can be knitted.

The long run (`sh tests/run.sh --long`) makes 100,000 for each.
"""

import gc
import os

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from roundwright.web.routes.query_form import QueryForm
from tests.long.asking import Service, everything, operations
from tests.long.checking import check_refusal, check_rounds, fault
from tests.long.run import Outcome, hammer, status_of
from tests.support import by_hand

REQUESTS = 100
REQUESTS_DEAR = 40
"""Of an operation whose answer is set or drawn by a process of its own, or that reads a text."""
HATS = int(os.environ.get("ROUNDWRIGHT_TEST_HATS", "150"))
"""A long run asks for more."""


@pytest.fixture(scope="module")
def service():
    """The application, asked without a socket.

    What other tests have left in this process is not looked through for garbage meanwhile: that may take a second, and
    counts as work of the request.
    """
    gc.collect()
    gc.freeze()
    yield Service()
    gc.unfreeze()


@pytest.mark.parametrize("operation", everything(), ids=lambda operation: operation.id)
def test_no_request_is_too_much(operation, service):
    """Whatever is asked, the answer is one of its type whose rounds come out, or a problem: never a fault."""
    dear = operation.id.endswith(("AsPdf", "AsPng")) or operation.id == "proofreadPattern"
    outcome = hammer(service, operation, REQUESTS_DEAR if dear else REQUESTS, seed=0)

    assert 0 == outcome.faults, "\n".join(outcome.shown)
    # Right and wrong requests came up, or nothing was tried; a page of a kind of problem passes over parameters.
    assert outcome.statuses.keys() & {400, 404}
    if not isinstance(operation, QueryForm):  # parameters by chance seldom fit together
        assert 200 in outcome.statuses


def test_a_run_fails_where_anything_is_over_its_limit():
    """A fault, or an answer that takes longer than it may, is an error of the whole run."""
    well = Outcome("castOn", 1, requests=100, slowest_ms=30)

    assert 0 == status_of([well, well])
    assert 1 == status_of([well, Outcome("castOn", 1, requests=100, slow=1)])
    assert 1 == status_of([well, Outcome("castOn", 1, requests=100, faults=1)])


def test_a_fault_would_be_seen(service):
    """The checks themselves: a round that does not come out, a plain error and half an answer are all called faults."""
    operation = next(operation for operation in operations() if operation.id == "closeCrown")
    answer = service.ask_for(operation, msgspec.json.encode(operation.example_value()))
    body = msgspec.json.decode(answer.body)
    body["rounds"][0]["after"] += 1

    assert fault(operation, answer) is None
    assert "AssertionError" in fault(operation, answer._replace(body=msgspec.json.encode(body)))
    assert "DecodeError" in fault(operation, answer._replace(body=answer.body[:-1]))
    assert fault(operation, answer._replace(body=b"null"))
    assert fault(operation, answer._replace(status=500))
    assert fault(operation, answer._replace(status=400))
    with pytest.raises(AssertionError, match="does not follow"):
        check_rounds(answer_with_gap(answer))


def answer_with_gap(answer):
    """An answer that left a round out."""
    body = msgspec.json.decode(answer.body)
    while body["rounds"][1]["before"] == body["rounds"][1]["after"]:
        del body["rounds"][1]
    del body["rounds"][1]
    return body


def lengths(low_cm, high_cm):
    """Lengths as people say them, now and then of nothing or of a house."""
    usual = st.floats(low_cm, high_cm).map(lambda cm: {"value": round(cm, 1), "unit": "cm"})
    inches = st.floats(low_cm / 2.54, high_cm / 2.54).map(
        lambda value: {"value": round(value, 2), "unit": "in"}
    )
    odd = st.sampled_from(
        ({"value": 0.1, "unit": "cm"}, {"value": 10, "unit": "m"}, {"value": 1e-9, "unit": "in"})
    )
    return st.one_of(usual, usual, inches, usual, odd)


@st.composite
def hats(draw):
    """Requests for hats that are knitted every day, and their neighbours that nobody has knitted yet."""

    def some(**fields):
        return {name: draw(strategy) for name, strategy in fields.items() if draw(st.booleans())}

    wearer = st.one_of(
        st.builds(lambda head: {"head": head}, lengths(25, 64)),
        st.builds(lambda months, sex: {"age_months": months} | sex, st.integers(0, 72), _sexes()),
        st.builds(lambda years, sex: {"age_years": years} | sex, st.integers(0, 23), _sexes()),
        st.builds(lambda weeks, sex: {"gestation_weeks": weeks} | sex, st.integers(21, 42), _sexes()),
        st.builds(lambda size: {"adult": size}, st.sampled_from(("woman", "man"))),
    )
    stitches = draw(st.one_of(st.integers(8, 40), st.floats(4, 60), st.sampled_from((1, 2, 3, 100))))
    crown = some(
        style=st.sampled_from(("wedge", "quick", "dome", "flat", "cone", "square", "swirl", "gathered")),
        sections=st.integers(2, 13),
        close_at=st.integers(0, 30),
        cadence=st.one_of(
            st.builds(lambda plain: {"plain_rounds": plain}, st.integers(0, 4)),
            st.builds(lambda at: {"every_round_from": at}, st.integers(1, 80)),
        ),
        decrease_at=st.sampled_from(("end", "start")),
        height=lengths(2, 30),
    )
    rib = st.fixed_dictionaries({"knit": st.integers(1, 6), "purl": st.integers(1, 6)})
    brim = some(
        kind=st.sampled_from(("rolled", "ribbed", "garter", "folded")),
        length=lengths(1, 12),
        rib=rib,
    )
    yarn = some(
        length=lengths(5_000, 60_000), mass=st.just({"value": 100, "unit": "g"}), held=st.integers(1, 3)
    )
    request = {
        "gauge": {"stitches": stitches} | some(rows=st.floats(4, 80), over=lengths(2, 12)),
        "sizes": draw(st.lists(wearer, min_size=1, max_size=draw(st.sampled_from((1, 2, 4, 12, 13))))),
    }
    request |= {"crown": crown} if crown else {}
    request |= {"brim": brim} if brim else {}
    request |= {"yarn": yarn} if yarn else {}
    return request | some(
        needles=st.integers(2, 5), tolerance=st.integers(0, 24), units=st.sampled_from(("metric", "imperial")),
        ease=st.builds(lambda percent: {"percent": percent}, st.integers(-30, 40)),
        terms=st.sampled_from(("us", "uk")), wording=st.sampled_from(("pattern", "beginner")),
    )  # fmt: skip


def _sexes():
    return st.sampled_from(({}, {}, {"sex": "girl"}, {"sex": "boy"}))


seen = {200: 0, 400: 0, 422: 0}


@settings(
    max_examples=HATS,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
    derandomize=True,
)
@given(body=hats())
def test_near_hats(body):
    """A hat that is answered is knitted by hand from its cast-on to its last round; what is not answered says why."""
    operation = next(operation for operation in operations() if operation.id == "planHats")
    answer = _service().ask_for(operation, msgspec.json.encode(body))
    seen[answer.status] += 1
    if answer.status != 200:
        check_refusal(operation, answer)
        return
    assert fault(operation, answer) is None
    for size in msgspec.json.decode(answer.body)["sizes"]:
        assert by_hand.work_hat(size) == size["crown"]["stitches_left"]


def test_near_hats_are_near():
    """Of the hats tried a good part could be knitted, and some could not."""
    print(f"{sum(seen.values()):,} hats:", *(f"{number:,} × {status}" for status, number in seen.items()))
    assert seen[200] > HATS / 10
    assert seen[422] + seen[400] > 0


_services = []


def _service():
    if not _services:
        _services.append(Service())
    return _services[0]
