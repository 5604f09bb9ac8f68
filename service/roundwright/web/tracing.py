"""A span for each request, for OpenTelemetry. Only imported where tracing is set; needs the extra `tracing`.

Spans are named by the template of the path, so that there are as many names as operations, and say nothing of a body or
a query. A caller's `traceparent` is the parent (W3C Trace Context). Where to, and how many, is said to OpenTelemetry by
its own variables: `OTEL_EXPORTER_OTLP_ENDPOINT`, `OTEL_TRACES_SAMPLER`, `OTEL_RESOURCE_ATTRIBUTES`...
"""

from collections.abc import Awaitable, Callable
from typing import Final

from litestar.types import HTTPScope, Message, Receive, Send
from opentelemetry.sdk.resources import Resource
from opentelemetry.sdk.trace import TracerProvider
from opentelemetry.sdk.trace.export import BatchSpanProcessor
from opentelemetry.trace import SpanKind, Status, StatusCode
from opentelemetry.trace.propagation.tracecontext import TraceContextTextMapPropagator

from roundwright import __version__
from roundwright.web.metrics import METHODS, NOWHERE

FLUSH_MS: Final = 2_000
"""How long a stop waits for a collector to take the last spans."""


class Tracing:
    """Makes the spans of one process. `path_of` tells the template of an answered request's path."""

    def __init__(self, provider: TracerProvider, path_of: Callable[[HTTPScope, int], str]) -> None:
        self.provider = provider
        self.path_of = path_of
        self.tracer = provider.get_tracer("roundwright", __version__)
        self.propagator = TraceContextTextMapPropagator()

    async def trace(
        self,
        answer: Callable[[HTTPScope, Receive, Send], Awaitable[None]],
        scope: HTTPScope,
        receive: Receive,
        send: Send,
    ) -> None:
        """Answer one request within a span (named as OpenTelemetry's conventions for HTTP servers say)."""
        carrier = {
            name.decode("latin-1"): value.decode("latin-1")
            for name, value in scope["headers"]
            if name in (b"traceparent", b"tracestate")
        }
        method: str = scope["method"] if scope["method"] in METHODS else "_OTHER"
        context = self.propagator.extract(carrier)
        status = 0

        async def send_on(message: Message) -> None:
            nonlocal status
            if message["type"] == "http.response.start":
                status = message["status"]
            await send(message)

        with self.tracer.start_as_current_span(method, context, SpanKind.SERVER) as span:
            await answer(scope, receive, send_on)
            template = self.path_of(scope, status)
            if template != NOWHERE:
                span.update_name(f"{method} {template}")
                span.set_attribute("http.route", template)
            span.set_attribute("http.request.method", method)
            span.set_attribute("http.response.status_code", status)
            if status >= 500:
                span.set_status(Status(StatusCode.ERROR))

    def flush(self) -> None:
        """Send what is not sent yet."""
        self.provider.force_flush(FLUSH_MS)


def exporting() -> TracerProvider:
    """Sends spans in batches to a collector. Raises `ImportError` where the exporter is not installed."""
    from opentelemetry.exporter.otlp.proto.http.trace_exporter import OTLPSpanExporter

    resource = Resource.create({"service.name": "roundwright", "service.version": __version__})
    provider = TracerProvider(resource=resource)
    provider.add_span_processor(BatchSpanProcessor(OTLPSpanExporter()))
    return provider
