"""HTTP/1.1 below the application: limits, and problem details where uvicorn answers plain text.

All that the service uses of uvicorn beyond its documented interface is in this file: `HttpToolsProtocol` as a base
class with `send_400_response`, and its attributes `cycle`, `parser` and `pipeline`. `tests/web/test_protocol.py` fails
where one of them goes; pyproject.toml pins the minor version. The other methods are callbacks of asyncio and httptools.
"""

import sys
from asyncio import AbstractEventLoop, TimerHandle, Transport
from http import HTTPStatus
from typing import Any, Final

import msgspec
from uvicorn.protocols.http.httptools_impl import HttpToolsProtocol, RequestResponseCycle

from roundwright.web.middleware import SERVICE, Middleware
from roundwright.web.problems import MEDIA_TYPE, ProblemError, to_problem

MAX_PIPELINED: Final = 64
"""Requests that may wait on one connection for the answers before them."""

_OF_A_BODY: Final = (b"content-length", b"transfer-encoding")


class Protocol(HttpToolsProtocol):
    """One connection."""

    def __init__(self, *arguments: Any, **options: Any) -> None:
        super().__init__(*arguments, **options)
        self.service: Middleware = self.app_state[SERVICE]
        settings = self.service.settings
        self.max_header_bytes = settings.header_bytes
        self.receive_s = settings.receive_s
        self.keep_alive_s = settings.keep_alive_s
        self.in_header = self.in_message = self.has_body = False
        self.header_bytes = self.line_bytes = self.hosts = 0
        self.receive_timer: TimerHandle | None = None

    def connection_made(self, transport: Transport) -> None:  # type: ignore[override]
        """Apply the keep-alive timeout to connections that never send a request."""
        super().connection_made(_JoinedWrites(transport, self.loop))  # type: ignore[arg-type]
        self.start_timer(self.keep_alive_s)

    def connection_lost(self, exc: Exception | None) -> None:
        """Stop the timer."""
        self.stop_timer()
        super().connection_lost(exc)

    def data_received(self, data: bytes) -> None:
        """Parse the data; a timer runs until a message is complete, and while nothing is in flight."""
        counted = self.header_bytes if self.in_header else -1
        super().data_received(data)
        if self.in_header and self.header_bytes == counted:
            # The parser keeps a line until it is complete, so a line without an end is counted here.
            self.line_bytes += len(data)
            if self.line_bytes > self.max_header_bytes:
                self.reject(self.header_too_large())
        if self.receive_timer is None and not self.transport.is_closing():
            if self.in_message:
                self.start_timer(self.receive_s)
            elif not self.is_answering():
                self.start_timer(self.keep_alive_s)

    def on_message_begin(self) -> None:
        """Start counting; the keep-alive timeout ends."""
        super().on_message_begin()
        self.stop_timer()
        self.header_bytes = self.line_bytes = self.hosts = 0
        self.in_header = self.in_message = True
        self.has_body = False

    def on_url(self, url: bytes) -> None:
        """Count the request target."""
        super().on_url(url)
        self.count(len(url))

    def on_header(self, name: bytes, value: bytes) -> None:
        """Count a header line; a trailer is counted and never becomes a header (RFC 9110, 6.5.1)."""
        self.count(len(name) + len(value))
        if self.in_header:
            lower = name.lower()
            self.hosts += lower == b"host"
            self.has_body = self.has_body or lower in _OF_A_BODY
            super().on_header(name, value)

    def on_headers_complete(self) -> None:
        """Reject what would be misread: no or two hosts, too many requests that wait, a body behind an upgrade."""
        if self.hosts > 1 or (self.hosts == 0 and self.parser.get_http_version() == "1.1"):
            raise ProblemError("bad-message", "A request of HTTP/1.1 has one `Host` line (RFC 9112, 3.2).")
        if len(self.pipeline) >= MAX_PIPELINED:
            raise ProblemError("bad-message", f"At most {MAX_PIPELINED} requests may wait on one connection.")
        if self.has_body and self.parser.should_upgrade():
            # The parser takes the body for another protocol.
            raise ProblemError(
                "bad-message", "Send a body without `Upgrade`: this service speaks HTTP/1.1 only."
            )
        self.in_header = False
        super().on_headers_complete()

    def on_message_complete(self) -> None:
        """Stop the timer."""
        self.in_message = False
        self.stop_timer()
        super().on_message_complete()

    def is_answering(self) -> bool:
        """Whether an answer has to come on this connection."""
        cycle: RequestResponseCycle | None = self.cycle
        return cycle is not None and not cycle.response_complete

    def count(self, size: int) -> None:
        """Add to the size of the header. Raises `ProblemError` beyond the limit."""
        self.header_bytes += size
        self.line_bytes = 0
        if self.header_bytes > self.max_header_bytes:
            raise self.header_too_large()

    def header_too_large(self) -> ProblemError:
        """The error for a header beyond the limit."""
        return ProblemError(
            "header-too-large",
            f"The header may have up to {self.max_header_bytes} bytes, request line included.",
        )

    def start_timer(self, seconds: float) -> None:
        """Wait at most so long for the next complete message."""
        self.receive_timer = self.loop.call_later(seconds, self.on_receive_timeout)

    def stop_timer(self) -> None:
        """Stop waiting."""
        if self.receive_timer is not None:
            self.receive_timer.cancel()
            self.receive_timer = None

    def on_receive_timeout(self) -> None:
        """Close the connection; a message that began and was not answered yet gets 408."""
        self.receive_timer = None
        if self.in_header or (self.in_message and not self.cycle.response_started):
            self.reject(ProblemError("too-slow", f"The request was not complete within {self.receive_s} s."))
        else:
            self.transport.close()

    def send_400_response(self, msg: str) -> None:
        """Answer what the parser could not read, or what a callback of this class raised."""
        error = sys.exception()
        cause = error.__context__ if error else None
        self.reject(cause if isinstance(cause, ProblemError) else ProblemError("bad-message", msg))

    def reject(self, error: ProblemError) -> None:
        """Answer with a problem and close; after the answers to earlier requests, only close."""
        is_of_earlier_request = self.in_header or not self.in_message
        self.in_header = self.in_message = False
        self.stop_timer()
        if self.transport.is_closing():
            return
        if is_of_earlier_request and self.is_answering():
            self.cycle.keep_alive = False
            return
        problem, _ = to_problem(error, "/")
        request_id = self.service.request_id({})
        body = msgspec.json.encode(problem, enc_hook=str)
        status = HTTPStatus(problem.status)
        lines = (
            b"HTTP/1.1 %d %b" % (status, status.phrase.encode()),
            b"content-type: " + MEDIA_TYPE.encode(),
            b"content-length: %d" % len(body),
            b"cache-control: no-store",
            b"connection: close",
            b"request-id: " + request_id,
            *(b"%b: %b" % line for line in self.service.common_headers),
        )
        self.transport.write(b"\r\n".join((*lines, b"", body)))
        self.transport.close()
        self.service.note_unread(self.transport.get_extra_info("peername"), problem, request_id)


class _JoinedWrites:
    """A transport that joins two writes of one turn of the loop, so that a killed process sends a whole answer or none.

    uvicorn writes the header and the body of an answer apart. Of a header without its body a proxy can only make a
    failed request; where nothing came it asks another replica. Row `kill` of the faults, at full length.
    """

    def __init__(self, transport: Transport, loop: AbstractEventLoop) -> None:
        self.transport = transport
        self.loop = loop
        self.held = b""

    def __getattr__(self, name: str) -> Any:
        return getattr(self.transport, name)

    def write(self, data: bytes) -> None:
        """Hold the first write until the second, at most until the end of this turn of the loop."""
        if self.held:
            self.transport.write(self.held + data)
            self.held = b""
        else:
            self.held = data
            self.loop.call_soon(self.flush)

    def flush(self) -> None:
        """Write what is held."""
        if self.held:
            self.transport.write(self.held)
            self.held = b""

    def close(self) -> None:
        """Write what is held and close."""
        self.flush()
        self.transport.close()
