"""A span for each request, by OpenTelemetry. Only imported where tracing is set; needs the extra `tracing`.

Everything is set by OpenTelemetry's own variables: `OTEL_TRACES_EXPORTER`, `OTEL_EXPORTER_OTLP_ENDPOINT`,
`OTEL_TRACES_SAMPLER`, `OTEL_PROPAGATORS`, `OTEL_SDK_DISABLED`, `OTEL_SERVICE_NAME`, ...
A span says nothing of a path's values, a query or a body.
"""

import os
from importlib.metadata import entry_points
from typing import Any, Final

os.environ.setdefault(
    "OTEL_SEMCONV_STABILITY_OPT_IN", "http"
)  # read by the instrumentation when it is imported

from opentelemetry.instrumentation.asgi import OpenTelemetryMiddleware
from opentelemetry.sdk.resources import OTELResourceDetector, Resource
from opentelemetry.sdk.trace import TracerProvider
from opentelemetry.sdk.trace.export import BatchSpanProcessor
from opentelemetry.trace import get_current_span

from roundwright import __version__
from roundwright.web.metrics import METHODS
from roundwright.web.settings import SettingsError

FLUSH_MS: Final = 2_000
"""How long a stop waits for a collector to take the last spans."""


_SCOPE: Final = "roundwright.scope"


class Tracing:
    """Traces the requests to an ASGI application."""

    def __init__(self, app: Any) -> None:
        self.provider = exporting()
        self.app = app
        self.traced = OpenTelemetryMiddleware(
            self.answer, tracer_provider=self.provider, exclude_spans=["receive", "send"]
        )

    async def __call__(self, scope: Any, receive: Any, send: Any) -> None:
        """Answer one request within a span, which sees neither the path nor the query."""
        await self.traced({**scope, "path": "", "query_string": b"", _SCOPE: scope}, receive, send)

    async def answer(self, reduced: Any, receive: Any, send: Any) -> None:
        """Answer the request of the whole scope."""
        await self.app(reduced[_SCOPE], receive, send)

    def name_span(self, method: str, route: str) -> None:
        """Name the current span by method and route, as the conventions for HTTP servers say."""
        method = method if method in METHODS else "HTTP"
        if route:
            span = get_current_span()
            span.update_name(f"{method} {route}")
            span.set_attribute("http.route", route)

    def flush(self) -> None:
        """Send the last spans."""
        self.provider.force_flush(FLUSH_MS)


def exporting() -> TracerProvider:
    """Sends spans in batches to a collector; what the environment says of the service wins over its own name."""
    from_environment = OTELResourceDetector().detect().attributes
    own = {"service.name": "roundwright", "service.version": __version__}
    provider = TracerProvider(resource=Resource.create({**own, **from_environment}))
    names = os.environ.get("OTEL_TRACES_EXPORTER") or "otlp"
    for name in names.split(","):
        if name.strip() != "none":
            provider.add_span_processor(BatchSpanProcessor(_exporter(name.strip())))
    return provider


def _exporter(name: str) -> Any:
    """An exporter by the name that OpenTelemetry has for it. Raises `SettingsError` if it is not installed."""
    if name == "otlp":
        protocol = os.environ.get("OTEL_EXPORTER_OTLP_TRACES_PROTOCOL") or os.environ.get(
            "OTEL_EXPORTER_OTLP_PROTOCOL"
        )
        name = "otlp_proto_grpc" if protocol == "grpc" else "otlp_proto_http"
    for entry in entry_points(group="opentelemetry_traces_exporter", name=name):
        return entry.load()()
    raise SettingsError(f"OTEL_TRACES_EXPORTER: the exporter {name!r} is not installed.")
