"""At the edge of each limit: the last that is let through, and the first that is not."""

import json
import random
import re
import socket

import httpx
import msgspec
import pytest
from msgspec import inspect

from roundwright.web.routes.request_reader import MAX_DEPTH
from roundwright.web.settings import Settings
from tests.conftest import serving
from tests.contract.places import places, put
from tests.contract.shape import assert_problem
from tests.long.asking import Service, operations
from tests.long.making import Maker

HEADER_BYTES = 1_024
BODY_BYTES = 2_048
TEXT_BODY_BYTES = 4_096


@pytest.fixture(scope="module")
def narrow():
    """A service with small limits."""
    settings = Settings(header_bytes=HEADER_BYTES, body_bytes=BODY_BYTES, text_body_bytes=TEXT_BODY_BYTES)
    with serving(settings) as address:
        yield address


def _asked(address, path, value):
    """The status of a GET with a header line of its own, and the bytes that count."""
    url = httpx.URL(address)
    message = f"GET {path} HTTP/1.1\r\nHost: a\r\nConnection: close\r\nWool: {value}\r\n\r\n"
    counted = len(path) + len("HostaConnectioncloseWool") + len(value)
    with socket.create_connection((url.host, url.port), timeout=10) as connection:
        connection.sendall(message.encode())
        return int(connection.recv(65_536).split()[1]), counted


@pytest.mark.parametrize("path", ["/health/live", "/health/live?" + "x" * 500])
def test_a_header_of_the_limit(path, narrow):
    """Request line and header together may be as long as is set, and not a byte longer."""
    _, used = _asked(narrow, path, "")
    last, counted = _asked(narrow, path, "w" * (HEADER_BYTES - used))
    first, _ = _asked(narrow, path, "w" * (HEADER_BYTES - used + 1))

    assert HEADER_BYTES == counted
    assert (200 if "?" not in path else 400, 431) == (last, first)


@pytest.mark.parametrize(
    "operation",
    [operation for operation in operations() if hasattr(operation, "takes_text")],
    ids=lambda operation: operation.id,
)
def test_a_body_of_the_limit(operation, narrow):
    """A body may be as long as is set, longer where a written pattern is sent, and not a byte longer."""
    limit = TEXT_BODY_BYTES if operation.takes_text else BODY_BYTES
    body = msgspec.json.encode(operation.example_value())
    headers = {"content-type": "application/json"}
    for size, status in ((limit, 200), (limit + 1, 413)):
        content = body + b" " * (size - len(body))
        assert (
            status
            == httpx.post(f"{narrow}{operation.template}", content=content, headers=headers).status_code
        )


def _nested(levels):
    """A body with repeats in repeats: objects and lists so many levels deep."""
    step = {"type": "work", "stitch": "k", "times": 8}
    depth = 5  # the body, its rounds, a round, its steps, a step
    while depth + 2 <= levels:
        step = {"type": "repeat", "times": 2, "steps": [step]}
        depth += 2
    wrapped = {
        "stitches": 8,
        "needles": 2,
        "rounds": [{"number": 1, "before": 8, "after": 8, "steps": [step]}],
    }
    assert levels == depth == _depth(wrapped)
    return wrapped


def _depth(value):
    inner = value.values() if isinstance(value, dict) else value if isinstance(value, list) else None
    return 0 if inner is None else 1 + max((_depth(item) for item in inner), default=0)


def test_nesting_of_the_limit(service):
    """Objects and lists may nest as deep as is said, and not a level deeper, whether or not each is as described."""
    last = service.post("/v1/needles/split", json=_nested(MAX_DEPTH - 1))
    first = service.post("/v1/needles/split", json=_nested(MAX_DEPTH + 1))

    assert "/problems/malformed-json" != last.json().get("type")
    assert last.status_code in (200, 422)
    assert_problem(first, 400, "malformed-json")
    assert "nested too deeply" in first.json()["detail"]


LISTS = [
    pytest.param(operation, path, kind, id=f"{operation.id} {'/'.join(map(str, path))}")
    for operation in operations()
    if hasattr(operation, "takes_text")
    for path, kind in places(inspect.type_info(operation.request_type), inspect.VarTupleType)
]


@pytest.mark.parametrize(("operation", "path", "kind"), LISTS)
def test_a_list_of_the_limit(operation, path, kind):
    """Every list may have as many entries as its schema says, and not one more: its pointer is named."""
    maker = Maker(operation.request_type, random.Random(1))
    item = maker.value(kind.item_type, 6)
    service = Service(Settings(body_bytes=1024 * 1024, text_body_bytes=1024 * 1024))
    pointer = "#" + "".join(f"/{step}" for step in path)

    def faults(entries):
        body = put(maker, maker.kind, operation.example_value(), path, [item] * entries)
        answer = service.ask_for(operation, msgspec.json.encode(body))
        problem = json.loads(answer.body) if answer.status >= 400 else {}
        assert answer.status < 500
        too_many = f"at most {kind.max_length} entr"
        return [
            fault
            for fault in problem.get("errors", ())
            if fault["pointer"] == pointer and too_many in fault["detail"]
        ]

    assert not faults(kind.max_length)
    assert faults(kind.max_length + 1)


@pytest.mark.parametrize("path", ["/docs", "/problems", "/problems/not-found"])
def test_pages_are_fenced_in(path, service):
    """Pages run and load only what is this service's, are in no frame, and tell nobody where a reader came from."""
    headers = service.get(path).headers
    policy = dict(part.strip().partition(" ")[::2] for part in headers["content-security-policy"].split(";"))

    assert (
        "'none'"
        == policy["default-src"]
        == policy["base-uri"]
        == policy["form-action"]
        == policy["frame-ancestors"]
    )
    assert "'self'" == policy["script-src"] == policy["style-src"] == policy["connect-src"]
    assert "no-referrer" == headers["referrer-policy"]
    assert "nosniff" == headers["x-content-type-options"]


@pytest.mark.parametrize(
    "path", ["/docs", "/nothing", "/v1/hats", "/metrics", "/docs/start.js", "/health/live"]
)
def test_every_answer_is_guarded(path, service):
    """Whatever is answered: no banner, no guessing of types, and no copy for each origin where it does not matter."""
    headers = service.get(path).headers

    assert "server" not in headers
    assert not re.search("uvicorn|litestar|python", str(headers), re.IGNORECASE)
    assert "nosniff" == headers["x-content-type-options"]
    assert "Origin" not in headers.get("vary", "")
