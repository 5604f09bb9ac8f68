"""The outermost layer: what holds for every request and every answer, whatever the operation.

One pass around the application, since middleware of Litestar's does not run for 404 and 405: the request's id, CORS,
the header lines every answer has, what is counted, what is logged, and the last net under a crash.
"""

import re
import secrets
from collections.abc import Callable
from http import HTTPStatus
from itertools import count
from time import perf_counter
from typing import TYPE_CHECKING, Any, Final, cast

import msgspec
from litestar import Litestar
from litestar.exceptions import NotFoundException
from litestar.types import HTTPScope, LifeSpanScope, Message, Receive, Scope, Send

from roundwright.knitting.answers import RULES
from roundwright.web import log
from roundwright.web.auth import CALLER, Gate
from roundwright.web.metrics import Metrics
from roundwright.web.problems import MEDIA_TYPE, Refusal, describe
from roundwright.web.settings import NoSetting, Settings

if TYPE_CHECKING:
    from roundwright.web.tracing import Tracing

OVERLOADED: Final = "roundwright.overloaded"
"""Key of the scope's extensions under which the protocol says that no more requests can be taken on."""

LIVENESS: Final = "/health/live"
"""Answered under overload as well: a busy process that is restarted only makes the others busier."""

REQUEST_ID: Final = "roundwright.request_id"
"""Key of the scope's state under which the id is kept for the log."""

_PORT: Final = re.compile(rb":[0-9]*\Z")
_REQUEST_ID: Final = re.compile(rb"[A-Za-z0-9._:-]{1,128}")
_TRACEPARENT: Final = re.compile(rb"[0-9a-f]{2}-([0-9a-f]{32})-[0-9a-f]{16}-[0-9a-f]{2}")
_PREFLIGHT_MAX_AGE_S: Final = b"600"
"""Ten minutes: a changed allow-list is felt soon, and a page asks once a visit."""

_encode: Final = msgspec.json.Encoder().encode


class Edge:
    """The application as served: wraps Litestar's."""

    def __init__(
        self,
        app: Litestar,
        settings: Settings,
        metrics: Metrics,
        document: Callable[[], bytes],
        stop: Callable[[], None],
    ) -> None:
        self.app = app
        self.stop = stop
        self.settings = settings
        self.document = document
        self.metrics = metrics
        self.access_log = settings.access_log
        self.retry_after = settings.retry_after_s
        self.gate = Gate(settings)
        self.is_shut = self.gate.is_shut
        self.all_origins = "*" in settings.cors_origins
        self.origins = frozenset(origin.encode() for origin in settings.cors_origins if not self.all_origins)
        self.hosts = frozenset(host.lower().encode() for host in settings.hosts)
        self.stopping = False
        self.tracing = _tracing(metrics) if settings.tracing else None
        self.common = [
            (b"rules-version", RULES.encode()),
            (b"x-content-type-options", b"nosniff"),
            # Where all origins get the same answer, `Vary` would only make a cache keep a copy for each.
            *([(b"vary", b"Origin")] if self.origins else []),
            *(self.allowed(b"*") if self.all_origins else []),
        ]
        self.ids = count(1)
        self.id_prefix = secrets.token_hex(6).encode()

    async def __call__(self, scope: Scope | LifeSpanScope, receive: Any, send: Any) -> None:
        """Answer one request, or pass on what is none."""
        if "method" not in scope:
            await self.app(scope, receive, send)
        elif self.tracing is None:
            await self.answer(cast("HTTPScope", scope), receive, send)
        else:
            await self.tracing.trace(self.answer, cast("HTTPScope", scope), receive, send)

    async def answer(self, scope: HTTPScope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        started = perf_counter()
        headers = dict(scope["headers"])
        request_id = self.request_id(headers)
        scope.setdefault("state", {})[REQUEST_ID] = request_id
        common = [(b"request-id", request_id), *self.common]
        if b"origin" in headers and headers[b"origin"] in self.origins:
            common += self.allowed(headers[b"origin"])
        status = 0

        async def send_more(message: Message) -> None:
            nonlocal status
            if message["type"] == "http.response.start":
                status = message["status"]
                message["headers"] = [*message["headers"], *common]
            await send(message)

        try:
            if b"access-control-request-method" in headers and scope["method"] == "OPTIONS":
                await self.preflight(headers, send_more)
            else:
                self.turn_away(scope, headers)
                await self.app(scope, receive, send_more)
        except Exception as error:
            if status:
                raise
            await send_problem(error, scope, send_more)
        finally:
            seconds = perf_counter() - started
            self.metrics.count(scope, status, seconds)
            if self.access_log:
                log.access(
                    scope,
                    headers,
                    status,
                    seconds,
                    request_id=request_id,
                    client=self.gate.address_of(scope),
                    key=scope["state"].get(CALLER),
                )

    def turn_away(self, scope: HTTPScope, headers: dict[bytes, bytes]) -> None:
        """Raise a refusal for what no operation should see."""
        path = scope["path"]
        if OVERLOADED in (scope.get("extensions") or ()) and path != LIVENESS:
            raise self.overload()
        if self.hosts and not self.is_ours(scope, headers):
            raise Refusal("wrong-host", "This service does not answer for the host named.")
        if self.is_shut:
            self.gate.admit(scope, headers)
        if path != "/" and (path[-1:] == "/" or "//" in path):
            # Litestar would take `/v1/crown/` for `/v1/crown`; an address has one spelling.
            raise NotFoundException

    def request_id(self, headers: dict[bytes, bytes]) -> bytes:
        """The caller's id, or the id of the trace the caller is in, or one of our own."""
        given = headers.get(b"request-id")
        if given is not None and _REQUEST_ID.fullmatch(given):
            return given
        if (trace := headers.get(b"traceparent")) is not None and (parts := _TRACEPARENT.fullmatch(trace)):
            return parts[1]
        return b"%s-%x" % (self.id_prefix, next(self.ids))

    def allowed(self, origin: bytes) -> list[tuple[bytes, bytes]]:
        """The header lines that let pages of an origin, or of all (`*`), read the answer."""
        return [
            (b"access-control-allow-origin", origin),
            (
                b"access-control-expose-headers",
                b"ETag, Request-Id, Retry-After, Rules-Version, WWW-Authenticate",
            ),
        ]

    async def preflight(self, headers: dict[bytes, bytes], send: Send) -> None:
        """Answer a browser that asks whether a page may call."""
        lines: list[tuple[bytes, bytes]] = []
        if self.all_origins or headers.get(b"origin") in self.origins:
            lines = [
                (b"access-control-allow-methods", b"GET, HEAD, POST"),
                (
                    b"access-control-allow-headers",
                    b"Authorization, Content-Type, If-None-Match, Request-Id, Traceparent",
                ),
                (b"access-control-max-age", _PREFLIGHT_MAX_AGE_S),
            ]
        await send({"type": "http.response.start", "status": 204, "headers": lines})
        await send({"type": "http.response.body", "body": b"", "more_body": False})

    def overload(self) -> Refusal:
        """What is said where too many requests are in hand."""
        return Refusal(
            "overloaded",
            f"This process has as many requests in hand as it takes on. Try again in {self.retry_after} s.",
            headers=((b"retry-after", b"%d" % self.retry_after),),
        )

    def is_ours(self, scope: HTTPScope, headers: dict[bytes, bytes]) -> bool:
        """Whether a request names one of our hosts; probes of health need not."""
        host = headers.get(b"host", b"").lower()
        return _PORT.sub(b"", host) in self.hosts or scope["path"].startswith("/health/")


def _tracing(metrics: Metrics) -> "Tracing":
    try:
        from roundwright.web.tracing import Tracing, exporting
    except ImportError as error:
        raise NoSetting("tracing needs the extra: install `roundwright[tracing]`.") from error
    return Tracing(exporting(), metrics.path_of)


async def send_problem(error: Exception, scope: HTTPScope, send: Send) -> None:
    """Answer with the problem an exception becomes."""
    problem, lines = describe(error, scope["path"])
    if problem.status == HTTPStatus.INTERNAL_SERVER_ERROR:
        log.crash(error, scope["state"][REQUEST_ID])
    body = _encode(problem)
    headers = [
        (b"content-type", MEDIA_TYPE.encode()),
        (b"content-length", b"%d" % len(body)),
        (b"cache-control", b"no-store"),
        *lines,
    ]
    await send({"type": "http.response.start", "status": problem.status, "headers": headers})
    head = scope["method"] == "HEAD"
    await send({"type": "http.response.body", "body": b"" if head else body, "more_body": False})


def on_error(_request: Any, error: Exception) -> Any:
    """Litestar's exception handler: a response-like that answers with the problem."""
    return _ProblemResponse(error)


class _ProblemResponse:
    """As little of a response as Litestar asks of an exception handler."""

    def __init__(self, error: Exception) -> None:
        self.error = error

    def to_asgi_response(self, **_: Any) -> Any:
        """The ASGI application that sends it."""
        return self

    async def __call__(self, scope: HTTPScope, receive: Receive, send: Send) -> None:  # noqa: ARG002 - all is said
        """Send it."""
        await send_problem(self.error, scope, send)
