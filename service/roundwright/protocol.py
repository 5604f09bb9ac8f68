"""What the server does below the application: messages that are not HTTP, headers beyond reason, too many requests.

uvicorn answers these in plain text, or not at all; here they are problem details like every other error.
"""

import sys
from collections.abc import Awaitable, Callable
from typing import Any

import msgspec
from uvicorn.protocols.http.httptools_impl import STATUS_LINE, HttpToolsProtocol, RequestResponseCycle

from roundwright.edge import OVERLOADED
from roundwright.knitting.answers import RULES
from roundwright.problems import MEDIA_TYPE, Refusal, describe
from roundwright.settings import Settings


class Protocol(HttpToolsProtocol):
    """uvicorn's protocol with limits of the settings of the application it serves."""

    def __init__(self, *arguments: Any, **named: Any) -> None:
        super().__init__(*arguments, **named)
        settings: Settings = self.config.loaded_app.settings
        self.most_header_bytes = settings.header_bytes
        self.most_requests = settings.concurrency
        self.header_bytes = 0

    def on_message_begin(self) -> None:
        """Start to count."""
        super().on_message_begin()
        self.header_bytes = 0

    def on_url(self, url: bytes) -> None:
        """Count a part of the request line."""
        super().on_url(url)
        self._count(len(url))

    def on_header(self, name: bytes, value: bytes) -> None:
        """Count a header line."""
        super().on_header(name, value)
        self._count(len(name) + len(value))

    def on_headers_complete(self) -> None:
        """Refuse a request that does not name its host; otherwise go on."""
        if self.parser.get_http_version() == "1.1" and not any(name == b"host" for name, _ in self.headers):
            raise Refusal("bad-message", "A request of HTTP/1.1 names its host (RFC 9112, 3.2).")
        super().on_headers_complete()

    def _count(self, more: int) -> None:
        self.header_bytes += more
        if self.header_bytes > self.most_header_bytes:
            raise Refusal(
                "header-too-large", f"This service reads headers of up to {self.most_header_bytes} bytes."
            )

    def _start_asgi_task(self, cycle: RequestResponseCycle, app: Callable[..., Awaitable[None]]) -> None:
        if len(self.tasks) >= self.most_requests:
            cycle.scope["extensions"] = {OVERLOADED: {}}
        super()._start_asgi_task(cycle, app)

    def send_400_response(self, msg: str) -> None:
        """Answer what the parser stumbled over, or what was raised in one of its callbacks, and hang up."""
        error = sys.exception()
        raised = error.__context__ if error else None
        refusal = raised if isinstance(raised, Refusal) else Refusal("bad-message", msg)
        problem, _ = describe(refusal, self.url.decode("latin-1").partition("?")[0] or "/")
        body = msgspec.json.encode(problem)
        lines = (
            b"content-type: " + MEDIA_TYPE.encode(),
            b"content-length: %d" % len(body),
            b"cache-control: no-store",
            b"rules-version: " + RULES.encode(),
            b"x-content-type-options: nosniff",
            b"connection: close",
        )
        self.transport.write(STATUS_LINE[problem.status] + b"\r\n".join((*lines, b"", body)))
        self.transport.close()
