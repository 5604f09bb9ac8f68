"""Many calculations in one request: each is answered as if it had been sent alone."""

import json

import httpx
import msgspec
import pytest

from roundwright.web.problems import Problem
from roundwright.web.routes import all_operations, batch
from roundwright.web.routes.gauge import convert_gauge
from roundwright.web.settings import Settings
from tests.conftest import serving
from tests.contract.shape import assert_problem, listed
from tests.long.asking import Service

CALCULATIONS = [
    operation
    for operation in listed("POST")
    if operation.id != "calculateBatch" and "." not in operation.path
]
GAUGE = {"operation": "convertGauge", "body": {"gauge": {"stitches": 18}}}


def answers(service, *parts):
    """The answers to the parts of a batch."""
    response = service.post("/v1/batch", json={"requests": parts})
    assert 200 == response.status_code
    return response.json()["answers"]


def part(operation, body=None):
    """A calculation with a body, or with its example."""
    return {"operation": operation.id, "body": operation.body if body is None else body}


def test_every_calculation_can_be_a_part(service):
    """The examples of all calculations in a batch get the answers that they get alone, in their order."""
    given = answers(service, *map(part, CALCULATIONS))

    for operation, answer in zip(CALCULATIONS, given, strict=True):
        alone = operation.ask(service)
        is_json = alone.headers["content-type"] == "application/json"
        assert {"status": 200, "body": alone.json() if is_json else alone.text} == answer, operation.id


@pytest.mark.parametrize("operation", CALCULATIONS, ids=lambda operation: operation.id)
def test_a_part_that_fails_has_the_problem_it_has_alone(operation, service):
    """A body that is not as described gets its own problem, pointers within the body; its neighbours are answered."""
    before, wrong, after = answers(service, GAUGE, part(operation, {"colour": "red"}), GAUGE)
    alone = operation.ask(service, json={"colour": "red"})

    assert 200 == before["status"] == after["status"]
    assert before == after
    assert {"status": 400, "body": alone.json()} == wrong
    msgspec.convert(wrong["body"], Problem)


def test_a_batch_names_the_languages_of_its_parts(service):
    """Each part is in the language it would have alone; the header lists them (RFC 9110, 8.5 and 12.5.5)."""
    parts = [GAUGE, {"operation": "convertGauge", "body": GAUGE["body"] | {"language": "fr"}}]
    response = service.post("/v1/batch", json={"requests": parts}, headers={"accept-language": "de"})

    assert "de, fr" == response.headers["content-language"]
    assert "Accept-Language" == response.headers["vary"]


@pytest.mark.parametrize(
    ("wrong", "pointer"),
    [({"operation": "castOn"}, "#/requests/1/body"), ({"operation": "castOn", "body": []}, "#/requests/1/body"),
     (GAUGE | {"id": 1}, "#/requests/1/id")],
)  # fmt: skip
def test_a_batch_that_is_not_as_described_is_refused_as_a_whole(wrong, pointer, service):
    """Where a part has no body to read, nothing is calculated, and the pointer leads into the batch."""
    response = service.post("/v1/batch", json={"requests": [GAUGE, wrong]})

    problem = assert_problem(response, 400, "invalid-request")
    assert [pointer] == [fault.pointer for fault in problem.errors]


def test_what_cannot_be_knitted_is_a_problem_of_its_part(service):
    """422 stays in its part."""
    wrong, right = answers(
        service,
        {"operation": "convertGauge", "body": {"gauge": {"stitches": 900}}},
        GAUGE,
    )

    assert (422, "#/gauge/stitches") == (wrong["status"], wrong["body"]["errors"][0]["pointer"])
    assert 200 == right["status"]


def test_an_unknown_calculation_is_told_the_nearest(service):
    """A name that no calculation has is a problem of its part, with the name that was probably meant."""
    wrong, right = answers(service, {"operation": "cast_on", "body": {}}, GAUGE)

    assert (404, 200) == (wrong["status"], right["status"])
    assert "Perhaps 'castOn' is meant." in wrong["body"]["detail"]


@pytest.mark.parametrize(
    "calculations",
    [
        [],
        [GAUGE] * (batch.MAX_PARTS + 1),
        GAUGE,
        [{"operation": "castOn"}],
        [{**GAUGE, "id": 1}],
        [{**GAUGE, "body": 5}],
    ],
)
def test_a_batch_is_read_strictly(calculations, service):
    """The batch itself has its bounds and no unknown fields."""
    assert_problem(service.post("/v1/batch", json={"requests": calculations}), 400, "invalid-request")


def test_what_is_no_calculation_is_not_to_be_sent_again(monkeypatch):
    """Where a batch is full, a part that no calculation has is not found, now and later."""
    monkeypatch.setattr(batch, "MAX_BATCH_CPU_S", 0.0)
    body = msgspec.json.encode({"requests": [GAUGE, GAUGE, {**GAUGE, "operation": "castof"}]})
    given = json.loads(Service().ask("POST", "/v1/batch", body=body).body)["answers"]

    assert [200, 422, 404] == [answer["status"] for answer in given]


def test_a_batch_takes_no_longer_than_a_calculation_may(monkeypatch):
    """When the time of a batch is over, the parts that are left get a problem at once, and may be sent again."""
    monkeypatch.setattr(batch, "MAX_BATCH_CPU_S", 0.0)
    body = msgspec.json.encode({"requests": [GAUGE] * 100})
    given = json.loads(Service().ask("POST", "/v1/batch", body=body).body)["answers"]

    assert [200] + [422] * 99 == [answer["status"] for answer in given]
    assert {"/problems/too-long"} == {answer["body"]["type"] for answer in given[1:]}


def test_a_batch_holds_no_more_than_it_may(monkeypatch):
    """When the answers are as large as those of a batch may be, the parts that are left may be sent again."""
    alone = Service().ask("POST", "/v1/gauge/convert", body=msgspec.json.encode(GAUGE["body"]))
    monkeypatch.setattr(batch, "MAX_BATCH_BYTES", 3 * len(alone.body))
    body = msgspec.json.encode({"requests": [GAUGE] * 100})
    given = json.loads(Service().ask("POST", "/v1/batch", body=body).body)["answers"]

    assert [200] * 4 + [422] * 96 == [answer["status"] for answer in given]
    assert {"/problems/too-long"} == {answer["body"]["type"] for answer in given[4:]}
    assert "Send this part again" in given[4]["body"]["detail"]


def test_the_largest_hats_a_hundred_times_are_bounded():
    """A hundred times a hat in twelve sizes: the answer ends with the part that passes the bound."""
    hat = {"gauge": {"stitches": 40, "rows": 60}, "sizes": [{"age_years": age} for age in range(2, 14)]}
    alone = Service().ask("POST", "/v1/hats", body=msgspec.json.encode(hat))
    body = msgspec.json.encode({"requests": [{"operation": "planHats", "body": hat}] * 100})
    answer = Service().ask("POST", "/v1/batch", body=body)

    assert (200, 200) == (alone.status, answer.status)
    assert 100 * len(alone.body) > 2 * batch.MAX_BATCH_BYTES
    assert len(answer.body) < batch.MAX_BATCH_BYTES + 2 * len(alone.body)


def test_the_description_says_the_bound():
    """The document states how large the answers of a batch may be."""
    (operation,) = (candidate for candidate in all_operations() if isinstance(candidate, batch.Batch))
    assert f"have {batch.MAX_BATCH_BYTES // 2**20} MiB" in operation.description


def test_others_are_answered_between_the_parts():
    """After every part the process turns to its other requests."""
    service = Service()
    turns = 0

    def count_turn():
        nonlocal turns
        turns += 1
        service.loop.call_soon(count_turn)

    service.loop.call_soon(count_turn)
    service.ask("POST", "/v1/batch", body=msgspec.json.encode({"requests": [GAUGE] * 50}))

    assert turns >= 50


def test_a_fault_of_ours_stays_in_its_part(monkeypatch, capfd):
    """An unexpected error is a problem of its part and a line in the log, under the id of the request."""
    monkeypatch.setattr(convert_gauge, "calculate", lambda request: 1 / 0)
    parts = [{"operation": "shapeEvenly", "body": {"stitches": 90, "change": 7}}, GAUGE]
    with serving(Settings()) as address:
        response = httpx.post(
            f"{address}/v1/batch", json={"requests": parts}, headers={"request-id": "quillhaven-7"}
        )
    (line,) = [json.loads(line) for line in capfd.readouterr().err.splitlines() if "crash" in line]

    assert [200, 500] == [answer["status"] for answer in response.json()["answers"]]
    assert ("quillhaven-7", "builtins.ZeroDivisionError") == (line["request_id"], line["error"])
