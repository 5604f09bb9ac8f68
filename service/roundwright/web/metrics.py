"""What is counted about requests, in the text format of Prometheus.

Counting is plain arithmetic in one thread; the shapes Prometheus wants are made when it asks. Labels are bounded: the
path is the template of an operation, a method is one of HTTP's or `other`.
"""

import re
from bisect import bisect_left
from collections.abc import Iterable
from functools import cache
from http import HTTPStatus
from typing import Any, Final

from litestar.types import HTTPScope

BUCKETS_S: Final = (0.0005, 0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 1.0)
"""From half a millisecond, about what the smallest answer takes, to twenty times the longest allowed."""
METHODS: Final = frozenset({"GET", "HEAD", "POST", "OPTIONS", "PUT", "PATCH", "DELETE"})
NOWHERE: Final = "unmatched"
"""Path label of requests that reached no operation."""


class Metrics:
    """Counts of one process."""

    def __init__(self) -> None:
        self.requests: dict[tuple[str, str, int], int] = {}
        self.durations: dict[str, list[float]] = {}
        self.templates: tuple[str, ...] = ()

    def know(self, templates: Iterable[str]) -> None:
        """Learn the paths there are, so that a wrong method is counted under its path."""
        self.templates = tuple(templates)

    def count(self, scope: HTTPScope, status: int, seconds: float) -> None:
        """Count one answered request."""
        path = self.path_of(scope, status)
        method: str = scope["method"]
        key = (path, method if method in METHODS else "other", status)
        self.requests[key] = self.requests.get(key, 0) + 1
        try:
            tally = self.durations[path]
        except KeyError:
            tally = self.durations[path] = [0] * (len(BUCKETS_S) + 1) + [0.0]
        tally[bisect_left(BUCKETS_S, seconds)] += 1
        tally[-1] += seconds

    def count_unread(self, status: int) -> None:
        """Count what was refused before it could be read as a request."""
        key = (NOWHERE, "other", status)
        self.requests[key] = self.requests.get(key, 0) + 1

    def path_of(self, scope: HTTPScope, status: int) -> str:
        """The template of the path of an answered request."""
        return scope.get("path_template") or self.template(scope["path"], status)

    def template(self, path: str, status: int) -> str:
        """The template of a path that was not routed: known where only the method was wrong."""
        if status != HTTPStatus.METHOD_NOT_ALLOWED:
            return NOWHERE
        return next((template for template in self.templates if _pattern(template).fullmatch(path)), NOWHERE)

    def collect(self) -> Iterable[Any]:
        """Prometheus' hook: the counts as metric families."""
        from prometheus_client.core import CounterMetricFamily, HistogramMetricFamily

        requests = CounterMetricFamily(
            "roundwright_requests", "Requests answered.", labels=("path", "method", "status")
        )
        for (path, method, status), times in sorted(self.requests.items()):
            requests.add_metric((path, method, str(status)), times)
        yield requests
        seconds = HistogramMetricFamily(
            "roundwright_request_seconds", "Time from the header to the end of the answer.", labels=("path",)
        )
        for path, (*tally, total) in sorted(self.durations.items()):
            seen = 0.0
            buckets = []
            for bound, number in zip((*map(str, BUCKETS_S), "+Inf"), tally, strict=True):
                seen += number
                buckets.append((bound, seen))
            seconds.add_metric((path,), buckets, total)
        yield seconds

    def text(self) -> bytes:
        """Everything, with what the client library knows of the process."""
        from prometheus_client import CollectorRegistry, ProcessCollector, generate_latest

        registry = CollectorRegistry()
        registry.register(self)
        ProcessCollector(registry=registry)
        return generate_latest(registry)


@cache
def _pattern(template: str) -> re.Pattern[str]:
    return re.compile("[^/]+".join(map(re.escape, re.split(r"\{[^}]*\}", template))))
