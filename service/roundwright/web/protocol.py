"""What the server does below the application: messages that are no HTTP, too long, too slow or too many.

uvicorn answers these in plain text, or not at all; here they are problem details like every other error.
"""

import sys
from asyncio import TimerHandle, Transport
from collections.abc import Awaitable, Callable
from typing import Any

import msgspec
from uvicorn.protocols.http.httptools_impl import STATUS_LINE, HttpToolsProtocol, RequestResponseCycle

from roundwright.web.middleware import OVERLOADED, Edge
from roundwright.web.problems import MEDIA_TYPE, Refusal, describe


class Protocol(HttpToolsProtocol):
    """uvicorn's protocol, with the limits in the settings of the application it serves."""

    def __init__(self, *arguments: Any, **named: Any) -> None:
        super().__init__(*arguments, **named)
        self.edge: Edge = self.config.loaded_app
        settings = self.edge.settings
        self.most_header_bytes = settings.header_bytes
        self.most_requests = settings.concurrency
        self.longest_wait_s = settings.receive_s
        self.url = b""
        self.header_bytes = 0
        self.in_header = False
        self.in_message = False
        self.patience: TimerHandle | None = None

    def connection_made(self, transport: Transport) -> None:  # type: ignore[override]
        """A connection on which nothing was ever said is kept as long as one on which nothing more is said."""
        super().connection_made(transport)
        self.timeout_keep_alive_task = self.loop.call_later(
            self.timeout_keep_alive, self.timeout_keep_alive_handler
        )

    def data_received(self, data: bytes) -> None:
        """Read on; keep watch over a message that has not come to its end."""
        began_before = self.in_header
        super().data_received(data)
        if began_before and self.in_header:
            # The parser holds back a line until it is whole, so a line without end is counted here.
            self.header_bytes += len(data)
            if self.header_bytes > self.most_header_bytes:
                self.refuse(self.header_too_large())
        if self.in_message and self.patience is None:
            self.patience = self.loop.call_later(self.longest_wait_s, self.lose_patience)

    def connection_lost(self, exc: Exception | None) -> None:
        """Stop keeping watch."""
        self.message_ended()
        self._unset_keepalive_if_required()
        super().connection_lost(exc)

    def on_message_begin(self) -> None:
        """Begin to count, and to keep watch."""
        super().on_message_begin()
        self.header_bytes = 0
        self.in_header = self.in_message = True

    def on_url(self, url: bytes) -> None:
        """Count a part of the request line."""
        super().on_url(url)
        self.count(len(url))

    def on_header(self, name: bytes, value: bytes) -> None:
        """Count a header line."""
        super().on_header(name, value)
        self.count(len(name) + len(value))

    def on_headers_complete(self) -> None:
        """Refuse a request that does not name its host; otherwise go on."""
        self.in_header = False
        if self.parser.get_http_version() == "1.1" and not any(name == b"host" for name, _ in self.headers):
            raise Refusal("bad-message", "A request of HTTP/1.1 names its host (RFC 9112, 3.2).")
        super().on_headers_complete()

    def on_message_complete(self) -> None:
        """Stop keeping watch; go on."""
        self.message_ended()
        super().on_message_complete()

    def message_ended(self) -> None:
        """Stop keeping watch."""
        self.in_header = self.in_message = False
        if self.patience is not None:
            self.patience.cancel()
            self.patience = None

    def count(self, more: int) -> None:
        """Count bytes of the header; raise `Refusal` when they are too many."""
        self.header_bytes += more
        if self.header_bytes > self.most_header_bytes:
            raise self.header_too_large()

    def header_too_large(self) -> Refusal:
        """What is said to a header without end."""
        limit = self.most_header_bytes
        return Refusal("header-too-large", f"This service reads headers of up to {limit} bytes.")

    def lose_patience(self) -> None:
        """Hang up on a message that does not come to its end, with a word if none was said yet."""
        self.patience = None
        if self.in_header or not self.cycle.response_started:
            wait = self.longest_wait_s
            self.refuse(Refusal("too-slow", f"The request did not come to its end within {wait} s."))
        else:
            self.transport.close()

    def send_400_response(self, msg: str) -> None:
        """Answer what the parser stumbled over, or what was raised in one of its callbacks."""
        error = sys.exception()
        raised = error.__context__ if error else None
        self.refuse(raised if isinstance(raised, Refusal) else Refusal("bad-message", msg))

    def refuse(self, refusal: Refusal) -> None:
        """Answer with a problem and hang up; or hang up after the answers that earlier requests have coming."""
        of_an_earlier_request = self.in_header or not self.in_message
        self.message_ended()
        if self.transport.is_closing():
            return
        cycle: RequestResponseCycle | None = self.cycle
        if of_an_earlier_request and cycle is not None and not cycle.response_complete:
            cycle.keep_alive = False
            return
        problem, _ = describe(refusal, self.url.decode("latin-1").partition("?")[0] or "/")
        body = msgspec.json.encode(problem)
        lines = (
            b"content-type: " + MEDIA_TYPE.encode(),
            b"content-length: %d" % len(body),
            b"cache-control: no-store",
            b"connection: close",
            b"request-id: " + self.edge.request_id({}),
            *(b"%b: %b" % line for line in self.edge.common),
        )
        self.transport.write(STATUS_LINE[problem.status] + b"\r\n".join((*lines, b"", body)))
        self.transport.close()
        self.edge.metrics.count_unread(problem.status)

    def _start_asgi_task(self, cycle: RequestResponseCycle, app: Callable[..., Awaitable[None]]) -> None:
        if len(self.tasks) >= self.most_requests:
            cycle.scope["extensions"] = {OVERLOADED: {}}
        if cycle.scope["method"] != "HEAD":
            cycle.transport = _Whole(cycle)  # type: ignore[assignment]
        super()._start_asgi_task(cycle, app)


class _Whole:
    """Writes the header of an answer together with its body, so that a process that dies sends all of it or nothing.

    Of a header without its body a proxy can only make a failed request; of nothing, a request to another replica.
    """

    def __init__(self, cycle: RequestResponseCycle) -> None:
        self.cycle = cycle
        self.transport = cycle.transport
        self.header: bytes | None = None

    def write(self, data: bytes) -> None:
        """Keep the header back until the body comes; write everything else."""
        if self.header is None and self.cycle.response_started:
            self.header = data
        elif self.header:
            self.transport.write(self.header + data)
            self.header = b""
        else:
            self.transport.write(data)

    def close(self) -> None:
        """Write what was kept back, and hang up."""
        if self.header:
            self.transport.write(self.header)
        self.transport.close()

    def is_closing(self) -> bool:
        """Whether it has hung up."""
        return self.transport.is_closing()
