"""The outermost layer, for every request and answer of all operations.

It surrounds Litestar, since Litestar's own middleware does not run for 404 and 405: request id, CORS, common headers,
keys, overload, metrics, the access log, and every error as a problem.
"""

import re
import secrets
import signal
from asyncio import get_running_loop
from collections.abc import Callable
from functools import cache
from http import HTTPStatus
from itertools import count
from threading import current_thread, main_thread
from time import perf_counter
from types import FrameType
from typing import TYPE_CHECKING, Any, Final, cast

import msgspec
from litestar import Litestar
from litestar.exceptions import NotFoundException
from litestar.types import HTTPScope, LifeSpanScope, Message, Receive, Scope, Send

from roundwright import __version__
from roundwright.knitting.answers import RULES
from roundwright.web import log
from roundwright.web.auth import KeyCheck
from roundwright.web.metrics import Metrics
from roundwright.web.problems import MEDIA_TYPE, PROBLEM, Problem, ProblemError, to_problem
from roundwright.web.settings import Settings, SettingsError

if TYPE_CHECKING:
    from roundwright.web.tracing import Tracing

SERVICE: Final = "roundwright.service"
"""Key of the lifespan's state under which a connection finds the middleware."""

LIVENESS: Final = "/health/live"
"""Answered under overload too, since restarting a busy process would only make the others busier."""

MAX_PATH: Final = 128
"""No address is longer; a longer path is not found and not stored in the router's cache."""

_PORT: Final = re.compile(rb":[0-9]*\Z")
_REQUEST_ID: Final = re.compile(rb"[A-Za-z0-9._:-]{1,128}")
_TRACEPARENT: Final = re.compile(rb"[0-9a-f]{2}-([0-9a-f]{32})-[0-9a-f]{16}-[0-9a-f]{2}")
_PREFLIGHT_MAX_AGE_S: Final = b"600"
"""Ten minutes: a changed list of origins takes effect soon, and a page sends one preflight a visit."""
_EXPOSED_HEADERS: Final = (
    b"Deprecation, ETag, Request-Id, Retry-After, Rules-Version, Sunset, WWW-Authenticate"
)
_PREFLIGHT: Final = [
    (b"access-control-allow-methods", b"GET, HEAD, POST"),
    (b"access-control-allow-headers", b"Authorization, Content-Type, If-None-Match, Request-Id, Traceparent"),
    (b"access-control-max-age", _PREFLIGHT_MAX_AGE_S),
]

_encode: Final = msgspec.json.Encoder(enc_hook=str).encode  # a message is a `str`, in English


class Middleware:
    """The application as served: surrounds Litestar's."""

    def __init__(
        self,
        app: Litestar,
        settings: Settings,
        templates: tuple[str, ...],
        metrics: Metrics | None,
        document: Callable[[], bytes],
    ) -> None:
        self.app = app
        self.settings = settings
        self.templates = templates
        self.document = document
        self.metrics = metrics
        if metrics is not None:
            metrics.in_flight.set_function(lambda: self.in_flight)
        self.access_log = settings.access_log
        self.concurrency = settings.concurrency
        self.in_flight = 0
        self.key_check = KeyCheck(settings)
        self.needs_keys = self.key_check.is_active
        self.all_origins = "*" in settings.cors_origins
        self.origins = frozenset(origin.encode() for origin in settings.cors_origins if not self.all_origins)
        self.hosts = frozenset(host.lower().encode() for host in settings.hosts)
        self.stopping = False
        self.address: str | None = None
        """Where it listens, if the server has said so."""
        self.tracing = _tracing(self.answer) if settings.tracing else None
        self.common_headers = [
            (b"rules-version", RULES.encode()),
            (b"x-content-type-options", b"nosniff"),
            # When all origins get the same answer, `Vary` would make a cache store a copy for every origin.
            *([(b"vary", b"Origin")] if self.origins else []),
            *(_allow(b"*") if self.all_origins else []),
        ]
        self.ids = count(1)
        self.id_prefix = secrets.token_hex(6).encode()

    async def __call__(self, scope: Scope | LifeSpanScope, receive: Any, send: Any) -> None:
        """Answer a request; start and stop with the process."""
        if "method" not in scope:
            await self.live(scope, receive, send)
        elif self.tracing is None:
            await self.answer(cast("HTTPScope", scope), receive, send)
        else:
            await self.tracing(scope, receive, send)

    async def live(self, scope: Any, receive: Any, send: Any) -> None:
        """Start and stop with the process."""
        scope.setdefault("state", {})[SERVICE] = self
        if self.settings.drain_s and current_thread() is main_thread():
            self.drain_before_stop()
        where: dict[str, Any] = {} if self.address is None else {"address": self.address}
        log.event("start", **where, version=__version__, rules=RULES)
        await self.app(scope, receive, send)
        log.event("stop")
        if self.tracing is not None:
            self.tracing.flush()

    def drain_before_stop(self) -> None:
        """On the first SIGTERM, keep serving for `drain_s` without being ready; on the second, stop at once."""
        loop, stop = get_running_loop(), signal.getsignal(signal.SIGTERM)

        def on_stop_signal(number: int, frame: FrameType | None) -> None:
            assert callable(stop)
            if self.stopping:
                stop(number, frame)
            else:
                self.stopping = True
                loop.call_soon_threadsafe(loop.call_later, self.settings.drain_s, stop, number, frame)

        signal.signal(signal.SIGTERM, on_stop_signal)

    async def answer(self, scope: HTTPScope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        started = perf_counter()
        self.in_flight += 1
        headers = dict(scope["headers"])
        request_id = self.request_id(headers)
        scope.setdefault("state", {})
        common = [(b"request-id", request_id), *self.common_headers]
        if b"origin" in headers and headers[b"origin"] in self.origins:
            common += _allow(headers[b"origin"])
        status = 0
        problem: Problem | None = None

        async def send_with_headers(message: Message) -> None:
            nonlocal status
            if message["type"] == "http.response.start":
                status = message["status"]
                message["headers"] = [*message["headers"], *common]
                if self.tracing is not None:
                    self.tracing.name_span(scope["method"], self.route_of(scope, status))
            await send(message)

        try:
            await self.route(scope, headers, receive, send_with_headers)
        except Exception as error:
            if status:
                raise
            problem, lines = to_problem(error, scope["path"], self.templates)
            if problem.status == HTTPStatus.INTERNAL_SERVER_ERROR:
                log.crash(error, request_id)
            await send_problem(problem, lines, scope["method"], send_with_headers)
        finally:
            self.in_flight -= 1
            log.crashes_of_parts(scope, request_id)
            seconds = perf_counter() - started
            if self.metrics is not None:
                self.metrics.observe(self.route_of(scope, status), scope["method"], status, seconds)
            if self.access_log:
                problem = problem or scope["state"].get(PROBLEM)
                log.access(scope, headers, status, seconds, request_id=request_id, problem=problem)

    async def route(
        self, scope: HTTPScope, headers: dict[bytes, bytes], receive: Receive, send: Send
    ) -> None:
        """Answer a preflight request here; pass any other request to Litestar unless it is rejected."""
        if b"access-control-request-method" in headers and scope["method"] == "OPTIONS":
            await self.preflight(headers, send)
        else:
            self.reject_early(scope, headers)
            await self.app(scope, receive, send)

    def reject_early(self, scope: HTTPScope, headers: dict[bytes, bytes]) -> None:
        """Raise an error for a request that no operation should get."""
        path = scope["path"]
        if self.in_flight > self.concurrency and path != LIVENESS:
            wait_s = self.settings.retry_after_s
            raise ProblemError(
                "overloaded",
                f"This process accepts no more requests at the moment. Try again in {wait_s} s.",
                headers=((b"retry-after", b"%d" % wait_s),),
            )
        if self.hosts and not self.is_ours(scope, headers):
            raise ProblemError("wrong-host", "This service does not answer for this host.")
        if self.needs_keys:
            self.key_check.authorize(scope, headers)
        if path != "/" and (path[-1:] == "/" or "//" in path or len(path) > MAX_PATH):
            # Litestar would answer `/v1/crown/` as `/v1/crown`; every address has a single spelling.
            raise NotFoundException

    def request_id(self, headers: dict[bytes, bytes]) -> bytes:
        """The caller's id, or the id of the caller's trace, or a new one."""
        sent = headers.get(b"request-id")
        if sent is not None and _REQUEST_ID.fullmatch(sent):
            return sent
        if (trace := headers.get(b"traceparent")) is not None and (parts := _TRACEPARENT.fullmatch(trace)):
            return parts[1]
        return b"%s-%x" % (self.id_prefix, next(self.ids))

    def route_of(self, scope: HTTPScope, status: int) -> str:
        """The template of a request's path; empty if no route has this path."""
        if template := scope.get("path_template"):
            return template
        if status != HTTPStatus.METHOD_NOT_ALLOWED:
            return ""
        return next(
            (template for template in self.templates if _pattern(template).fullmatch(scope["path"])), ""
        )

    def note_unread(self, client: tuple[str, int] | None, problem: Problem, request_id: bytes) -> None:
        """Count and log a message that was rejected before it became a request."""
        if self.metrics is not None:
            self.metrics.observe("", "", problem.status, 0)
        if self.access_log:
            log.unread(client, problem, request_id)

    async def preflight(self, headers: dict[bytes, bytes], send: Send) -> None:
        """Answer a browser's preflight request."""
        is_allowed = self.all_origins or headers.get(b"origin") in self.origins
        lines = _PREFLIGHT if is_allowed else []
        await send({"type": "http.response.start", "status": 204, "headers": lines})
        await send({"type": "http.response.body", "body": b"", "more_body": False})

    def is_ours(self, scope: HTTPScope, headers: dict[bytes, bytes]) -> bool:
        """Whether a request names one of our hosts or is a health check."""
        host = headers.get(b"host", b"").lower()
        return _PORT.sub(b"", host) in self.hosts or scope["path"].startswith("/health/")


def _allow(origin: bytes) -> list[tuple[bytes, bytes]]:
    """The headers that let pages of an origin, or of all (`*`), read the answer."""
    return [(b"access-control-allow-origin", origin), (b"access-control-expose-headers", _EXPOSED_HEADERS)]


@cache
def _pattern(template: str) -> re.Pattern[str]:
    return re.compile("[^/]+".join(map(re.escape, re.split(r"\{[^}]*\}", template))))


def _tracing(app: Any) -> "Tracing":
    try:
        from roundwright.web.tracing import Tracing
    except ImportError as error:
        raise SettingsError("tracing needs the extra: install `roundwright[tracing]`.") from error
    return Tracing(app)


async def send_problem(
    problem: Problem, lines: tuple[tuple[bytes, bytes], ...], method: str, send: Send
) -> None:
    """Answer with a problem."""
    body = _encode(problem)
    headers = [
        (b"content-type", MEDIA_TYPE.encode()),
        (b"content-length", b"%d" % len(body)),
        (b"cache-control", b"no-store"),
        *lines,
    ]
    await send({"type": "http.response.start", "status": problem.status, "headers": headers})
    await send({"type": "http.response.body", "body": b"" if method == "HEAD" else body, "more_body": False})
