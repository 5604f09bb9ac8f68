"""Metrics for Prometheus, named by the conventions of OpenTelemetry and Prometheus.

Labels are bounded: a route is the template of an operation, a method is one of HTTP's or `_OTHER`.
"""

from functools import lru_cache
from typing import Final

from prometheus_client import CollectorRegistry, Gauge, Histogram, Info, ProcessCollector, generate_latest

from roundwright import __version__
from roundwright.knitting.answers import RULES

BUCKETS_S: Final = (0.0005, 0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 1.0, 2.5)
"""From half a millisecond, about the smallest answer, to a calculation that reaches its deadline and waits."""
METHODS: Final = frozenset({"GET", "HEAD", "POST", "OPTIONS", "PUT", "PATCH", "DELETE"})


class Metrics:
    """The metrics of one process."""

    def __init__(self) -> None:
        self.registry = CollectorRegistry()
        ProcessCollector(registry=self.registry)
        Info("roundwright_build", "Release and rules.", registry=self.registry).info(
            {"version": __version__, "rules": RULES}
        )
        self.in_flight = Gauge("http_server_active_requests", "Requests in flight.", registry=self.registry)
        self.duration = Histogram(
            "http_server_request_duration_seconds",
            "Time from the header to the end of the answer; the route is empty where no operation was found.",
            ("http_route", "http_request_method", "http_response_status_code"),
            buckets=BUCKETS_S,
            registry=self.registry,
        )
        self.child = lru_cache(maxsize=None)(self.duration.labels)

    def observe(self, route: str, method: str, status: int, seconds: float) -> None:
        """Count one answered request."""
        self.child(route, method if method in METHODS else "_OTHER", status).observe(seconds)

    def text(self) -> bytes:
        """All metrics in Prometheus' text format."""
        return generate_latest(self.registry)
