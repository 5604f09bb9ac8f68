"""Spans, as a collector would see them."""

import json
import subprocess
import sys
from http.server import BaseHTTPRequestHandler, HTTPServer
from threading import Thread

import httpx
import msgspec
import pytest

from roundwright.web.app import create
from roundwright.web.settings import Settings, SettingsError
from tests.conftest import free_port, serving

pytest.importorskip("opentelemetry.instrumentation.asgi")

from opentelemetry.sdk.trace import TracerProvider
from opentelemetry.sdk.trace.export import SimpleSpanProcessor
from opentelemetry.sdk.trace.export.in_memory_span_exporter import InMemorySpanExporter
from opentelemetry.trace import SpanKind, StatusCode

from roundwright.web import tracing

TRACE, PARENT = (
    "0af7651916cd43dd8448eb211c80319c",
    "b7ad6b7169203331",
)  # the example of W3C Trace Context, 3.2.3


@pytest.fixture
def spans(monkeypatch):
    """Where the spans go."""
    exporter = InMemorySpanExporter()

    def exporting():
        provider = TracerProvider()
        provider.add_span_processor(SimpleSpanProcessor(exporter))
        return provider

    monkeypatch.setattr(tracing, "exporting", exporting)
    return exporter


@pytest.fixture
def broken(monkeypatch):
    """One operation that crashes, in services started from now on."""
    from roundwright.web.routes.gauge import convert_gauge

    monkeypatch.setattr(convert_gauge, "calculate", lambda request: request.nothing)


@pytest.fixture
def traced(spans):
    """A service with tracing on."""
    with serving(Settings(tracing=True)) as address, httpx.Client(base_url=address) as client:
        yield client


@pytest.mark.parametrize(
    ("request_line", "name", "status"),
    [
        ("GET /v1/standards/growth", "GET /v1/standards/{table}", 200),
        ("GET /v1/standards/nothing", "GET /v1/standards/{table}", 404),
        ("DELETE /v1/standards/growth", "DELETE /v1/standards/{table}", 405),
        ("POST /v1/gauge/convert", "POST /v1/gauge/convert", 415),
        ("GET /nothing/7?secret=1", "GET", 404),
        ("PROPFIND /v1/standards", "HTTP /v1/standards", 405),
    ],
)
def test_spans_are_named_by_template(request_line, name, status, traced, spans):
    """A span is called by method and template, of which there are few; nothing of a query or body is in it."""
    traced.request(*request_line.split())
    (span,) = spans.get_finished_spans()

    assert (name, SpanKind.SERVER) == (span.name, span.kind)
    assert status == span.attributes["http.response.status_code"]
    assert "secret" not in span.to_json()
    assert "growth" not in span.to_json()
    assert span.status.status_code is StatusCode.UNSET


def test_a_trace_goes_on(traced, spans):
    """The caller's `traceparent` is the parent; without one, or with a wrong one, a trace begins."""
    answer = traced.get("/health/live", headers={"traceparent": f"00-{TRACE}-{PARENT}-01"})
    traced.get("/health/live", headers={"traceparent": "00-wool-wool-01"})
    going_on, begun = spans.get_finished_spans()

    assert (TRACE, PARENT) == (f"{going_on.context.trace_id:032x}", f"{going_on.parent.span_id:016x}")
    assert TRACE == answer.headers["request-id"]
    assert begun.parent is None


def test_a_crash_is_marked(broken, traced, spans, capfd):
    """Only a fault of our own is an error to OpenTelemetry's conventions for servers; what was sent is not told."""
    assert 500 == traced.post("/v1/gauge/convert", json={"gauge": {"stitches": 12.345678}}).status_code
    (span,) = spans.get_finished_spans()

    assert StatusCode.ERROR is span.status.status_code
    assert "12.345678" not in span.to_json()


@pytest.fixture
def collector(monkeypatch):
    """What a collector is sent, set up by OpenTelemetry's own variables."""
    received = []

    class Collector(BaseHTTPRequestHandler):
        def do_POST(self):
            received.append((self.path, self.rfile.read(int(self.headers["content-length"]))))
            self.send_response(200)
            self.end_headers()

        def log_message(self, *_):
            pass

    server = HTTPServer(("127.0.0.1", free_port()), Collector)
    Thread(target=server.serve_forever, daemon=True).start()
    monkeypatch.setenv("OTEL_EXPORTER_OTLP_ENDPOINT", f"http://127.0.0.1:{server.server_port}")
    monkeypatch.setenv("OTEL_EXPORTER_OTLP_COMPRESSION", "none")
    yield received
    server.shutdown()
    server.server_close()


def test_spans_reach_a_collector(collector, monkeypatch):
    """Spans are posted to a collector, the last at the stop, under the name the environment gives the service."""
    monkeypatch.setenv("OTEL_SERVICE_NAME", "hats-of-the-shop")
    with serving(Settings(tracing=True)) as address:
        httpx.get(f"{address}/v1/standards/growth")

    ((path, sent),) = collector
    assert "/v1/traces" == path
    assert b"GET /v1/standards/{table}" in sent
    assert b"hats-of-the-shop" in sent


@pytest.mark.parametrize(
    ("variable", "value"), [("OTEL_TRACES_EXPORTER", "none"), ("OTEL_SDK_DISABLED", "true")]
)
def test_opentelemetry_can_be_told_to_send_nothing(variable, value, collector, monkeypatch):
    """The variables that turn sending off do so."""
    monkeypatch.setenv(variable, value)
    with serving(Settings(tracing=True)) as address:
        assert 200 == httpx.get(f"{address}/v1/standards/growth").status_code

    assert [] == collector


def test_an_exporter_that_is_missing_is_said(monkeypatch):
    """A name that nothing installed answers to keeps the service from starting."""
    monkeypatch.setenv("OTEL_EXPORTER_OTLP_PROTOCOL", "grpc")
    with pytest.raises(SettingsError, match="otlp_proto_grpc"):
        create(Settings(tracing=True))


def test_it_is_off_as_it_ships():
    """What makes and sends spans is not even imported."""
    code = "import sys, json, roundwright.web.app as a; a.create(); print(json.dumps(list(sys.modules)))"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert [] == [
        name
        for name in json.loads(run.stdout)
        if "opentelemetry.sdk" in name or name == "roundwright.web.tracing"
    ]
    assert create(Settings()).tracing is None


def test_it_says_what_is_missing(monkeypatch):
    """Set without the extra, the service does not start, and says what to install."""
    monkeypatch.setitem(sys.modules, "roundwright.web.tracing", None)
    with pytest.raises(SettingsError, match=r"roundwright\[tracing\]"):
        create(msgspec.structs.replace(Settings(), tracing=True))
