"""What operators look at: health, counts, logs, and the names a service answers for."""

import json
import logging
import re
import socket

import httpx
import pytest

from roundwright import __version__
from roundwright.knitting.answers import RULES
from roundwright.web.settings import Settings
from tests.conftest import serving
from tests.contract.shape import assert_problem


def test_the_service_says_what_it_is(service):
    """The root names the release, the rules and where to read on; each of these addresses answers."""
    answer = service.get("/").json()

    assert (__version__, RULES) == (answer["version"], answer["rules"])
    for url in (answer["openapi"], answer["docs"], answer["standards"]):
        assert 200 == service.get(url).status_code


def test_readiness_is_tried_for_real(monkeypatch):
    """Ready means that a calculation came out; live only that the process answers."""
    from roundwright.web.routes.shaping import shape_evenly

    with serving(Settings()) as address:
        assert {"status": "ok"} == httpx.get(f"{address}/health/ready").json()
        monkeypatch.setattr(shape_evenly, "calculate", lambda request: 1 / 0)
        assert_problem(httpx.get(f"{address}/health/ready"), 500, "internal-error")
        assert {"status": "ok"} == httpx.get(f"{address}/health/live").json()


def test_requests_are_counted_by_template():
    """Every request is counted under the template of its path, those that went wrong too; labels are bounded."""
    with serving(Settings()) as address:
        httpx.get(f"{address}/v1/standards/growth")
        httpx.get(f"{address}/v1/standards/yarn-weights")
        httpx.get(f"{address}/v1/standards/nothing")
        httpx.post(f"{address}/v1/standards/growth")
        httpx.get(f"{address}/v1/hats")
        for number in range(5):
            httpx.get(f"{address}/nothing/{number}")
            httpx.request(f"KNIT{number}" if number == 9 else "PROPFIND", f"{address}/v1/standards")
        counts = httpx.get(f"{address}/metrics").text

    def counted(path, method, status):
        labels = f'http_request_method="{method}",http_response_status_code="{status}",http_route="{path}"'
        line = f"http_server_request_duration_seconds_count{{{labels}}}"
        return float(re.search(rf"^{re.escape(line)} (.*)$", counts, re.MULTILINE)[1])

    assert 2 == counted("/v1/standards/{table}", "GET", 200)
    assert 1 == counted("/v1/standards/{table}", "GET", 404)
    assert 1 == counted("/v1/standards/{table}", "POST", 405)
    assert 1 == counted("/v1/hats", "GET", 405)
    assert 5 == counted("", "GET", 404)
    assert 5 == counted("/v1/standards", "_OTHER", 405)
    assert "growth" not in counts
    assert "http_server_active_requests 1.0" in counts  # the one for the metrics
    assert f'roundwright_build_info{{rules="{RULES}",version="{__version__}"}} 1.0' in counts
    assert "process_resident_memory_bytes" in counts


def test_counts_may_be_kept_to_oneself():
    """Switched off, `/metrics` is not there."""
    with serving(Settings(metrics=False)) as address:
        assert_problem(httpx.get(f"{address}/metrics"), 404, "not-found")


def test_the_log_says_where_a_request_was_wrong(capfd):
    """The line of a request with an error has its type and its pointers, and nothing of the value."""
    with serving(Settings(access_log=True)) as address:
        httpx.post(f"{address}/v1/gauge/convert", json={"gauge": {"stitches": "twelve"}})
    (line,) = [json.loads(line) for line in capfd.readouterr().err.splitlines() if '"request"' in line]

    assert ("/problems/invalid-request", ["#/gauge/stitches"]) == (line["problem"], line["at"])
    assert "warning" == line["level"]
    assert "twelve" not in str(line)


def test_the_log_says_which_parameter_was_wrong(capfd):
    """The name of one that the operation has; what a caller made up stays out, as every value does."""
    with serving(Settings(access_log=True)) as address:
        for query in ("gauge_stitches=twelve", "gauge_stitches=18&secret=1", "secret=1&secret=2"):
            httpx.get(f"{address}/v1/gauge/convert?{query}")
    err = capfd.readouterr().err
    lines = [json.loads(line) for line in err.splitlines() if '"request"' in line]

    assert [["gauge_stitches"], [], []] == [line["at"] for line in lines]
    assert "twelve" not in err
    assert "secret" not in err


def test_what_is_not_http_has_a_line(capfd):
    """A message that never became a request is logged with its problem and its caller, and with nothing of it."""
    with serving(Settings(access_log=True)) as address:
        host, port = address.removeprefix("http://").split(":")
        with socket.create_connection((host, int(port))) as connection:
            connection.sendall(b"KNIT TWO TOGETHER\r\n\r\n")
            answer = connection.recv(4096).decode()
    (line,) = [json.loads(line) for line in capfd.readouterr().err.splitlines() if '"unread"' in line]

    assert ("/problems/bad-message", 400, "warning") == (line["problem"], line["status"], line["level"])
    assert "127.0.0.1" == line["client"]
    assert f"request-id: {line['request_id']}" in answer
    assert "KNIT" not in str(line)


def test_every_logger_writes_the_same_format(capfd):
    """What uvicorn, asyncio and warnings log is a line of JSON as well."""
    with serving(Settings()):
        logging.getLogger("uvicorn.error").error("wool %s", "red")
        logging.getLogger("asyncio").warning("slow")
    lines = [json.loads(line) for line in capfd.readouterr().err.splitlines()]

    assert {("uvicorn.error", "wool red"), ("asyncio", "slow")} <= {
        (line["logger"], line["event"]) for line in lines
    }


def test_nothing_is_logged_unless_asked(service, capfd):
    """As it ships, an ordinary request leaves no line."""
    service.get("/v1/standards")

    assert "" == capfd.readouterr().err


def test_a_request_is_logged_without_what_it_said(capfd):
    """A line of JSON for each request: who asked what, how it went, under which id; nothing of body or query."""
    trace = "00-0af7651916cd43dd8448eb211c80319c-b7ad6b7169203331-01"
    with serving(Settings(access_log=True)) as address:
        httpx.post(f"{address}/v1/gauge/convert?secret=1", json={"gauge": {"stitches": 12.345678}})
        httpx.post(
            f"{address}/v1/gauge/convert",
            json={"gauge": {"stitches": 12.345678}},
            headers={"traceparent": trace},
        )
    out = capfd.readouterr().err
    lines = [json.loads(line) for line in out.splitlines()]
    refused, answered = (line for line in lines if line["event"] == "request")

    assert (400, "POST", "/v1/gauge/convert") == (refused["status"], refused["method"], refused["path"])
    assert (200, trace, "127.0.0.1") == (answered["status"], answered["traceparent"], answered["client"])
    assert trace.split("-")[1] == answered["request_id"]
    assert answered["ms"] > 0
    assert ("/problems/invalid-request", []) == (refused["problem"], refused["at"])
    assert "secret" not in out
    assert "12.345678" not in out


@pytest.fixture(scope="module")
def named_service():
    """A service that answers for one name."""
    with serving(Settings(hosts=("wool.example",))) as address, httpx.Client(base_url=address) as client:
        yield client


@pytest.mark.parametrize("host", ["wool.example", "WOOL.example", "wool.example:8080"])
def test_a_service_answers_to_its_name(host, named_service):
    """The host named is compared without regard to case and port."""
    assert 200 == named_service.get("/v1/standards", headers={"host": host}).status_code


@pytest.mark.parametrize("host", ["other.example", "wool.example.other.example", "127.0.0.1", ""])
def test_a_service_answers_to_no_other_name(host, named_service):
    """Another name gets 421 (RFC 9110, 15.5.20); probes of health need not know the name."""
    assert_problem(named_service.get("/v1/standards", headers={"host": host}), 421, "wrong-host")
    assert 200 == named_service.get("/health/live", headers={"host": host}).status_code


def test_the_reference_asks_no_other_host(service):
    """The reference page loads everything from this service, runs no script written into it, and is found by it."""
    page = service.get("/docs").text

    assert not re.search(r"(?:src|href)=\"(?:[a-z]+:)?//", page)
    assert not re.search(r"<script>|<script [^>]*>[^<]|<style| on[a-z]+=| style=", page)
    for url in re.findall(r"(?:src|href)=\"([^\"]+)\"", page):
        assert 200 == service.get(f"/{url}").status_code, url
