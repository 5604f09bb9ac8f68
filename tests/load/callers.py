"""Callers of the service: a steady stream, a rush, slow ones and bad ones; every answer is compared to the byte."""

import asyncio
import json
import random
import socket
import time
from collections import Counter, deque
from dataclasses import dataclass, field
from itertools import cycle, islice
from typing import Any

import httpx

from roundwright.web.app import create
from roundwright.web.middleware import Middleware
from roundwright.web.settings import Settings

HOST = "127.0.0.1"
GIVE_UP_S = 30
IP_BIND_ADDRESS_NO_PORT = 24
"""Linux's number (`linux/in.h`); `socket` has a name for it from Python 3.12 on."""


@dataclass(frozen=True)
class Call:
    """A request as bytes on the wire, and what must come back."""

    name: str
    wire: bytes
    status: int = 200
    expected: bytes | None = None
    """The body to the byte; where left out, only the status and the media type of a problem are asked for."""
    also: frozenset[int] = frozenset()
    """Other statuses that are as good: of limits, where the caller is a stranger who asks too much."""


@dataclass
class Tally:
    """What came back, and when."""

    spans: list[tuple[float, float, bool]] = field(default_factory=list)
    """For each request: when it was due, seconds until its answer was whole, whether it was the right answer."""
    wrong: int = 0
    failures: Counter[str] = field(default_factory=Counter)
    statuses: Counter[int] = field(default_factory=Counter)

    @property
    def failed(self) -> int:
        """How many got no answer, or another status than the one due."""
        return sum(self.failures.values())

    def p99_ms(self, start: float = 0, end: float = float("inf")) -> float:
        """99 of 100 requests due in a time were answered within so many milliseconds."""
        seconds = sorted(seconds for due, seconds, _ in self.spans if start <= due < end)
        return 1000 * seconds[int(len(seconds) * 0.99)] if seconds else float("nan")


def wire(method: str, path: str, body: bytes | None = None, *, more: str = "") -> bytes:
    """A request of HTTP/1.1."""
    head = f"{method} {path} HTTP/1.1\r\nhost: {HOST}\r\n{more}"
    if body is not None:
        head += f"content-type: application/json\r\ncontent-length: {len(body)}\r\n"
    return head.encode() + b"\r\n" + (body or b"")


def good_calls() -> list[Call]:
    """One request for each example in the OpenAPI document, among many small ones that differ in the answer.

    What must come back is calculated in this process, without a socket. PDFs and PNGs are left out: a replica has a
    short queue for them, which a steady stream would keep full (`strangers.pdfs` asks for them). So is the batch, of
    which the proxy lets two a second through: the stream stays within the limits.
    """
    app = create(Settings())
    paths = json.loads(app.document())["paths"]
    requests = [
        request
        for path, methods in paths.items()
        if path.startswith("/v1/") and not path.endswith((".pdf", ".png", "/batch"))
        for method, operation in methods.items()
        for request in _examples(method.upper(), path, operation)
    ]
    gauges = [
        {"gauge": {"stitches": stitches, "rows": rows, "over": {"value": 10, "unit": "cm"}}}
        for stitches in range(14, 34)
        for rows in (20, 28, 30.5, 41)
    ]
    mixed: list[Request] = [("POST", "/v1/gauge/convert", json.dumps(body).encode()) for body in gauges]
    step = max(1, len(mixed) // len(requests))
    for number, request in enumerate(requests):
        mixed.insert(number * (step + 1), request)  # the same mix in every stretch of a run
    return asyncio.run(_expected(app, mixed))


Request = tuple[str, str, bytes | None]


def _examples(method: str, path: str, operation: dict[str, Any]) -> list[Request]:
    if method == "POST":
        examples = operation["requestBody"]["content"]["application/json"]["examples"].values()
        return [(method, path, json.dumps(example["value"]).encode()) for example in examples]
    query = {}
    for parameter in operation.get("parameters", ()):
        if "example" not in parameter:
            continue
        if parameter["in"] == "path":
            path = path.replace(f"{{{parameter['name']}}}", str(parameter["example"]))
        else:
            value = parameter["example"]
            query[parameter["name"]] = ",".join(map(str, value)) if isinstance(value, list) else value
    return [(method, str(httpx.URL(path, params=query or None)), None)]


async def _expected(app: Middleware, requests: list[Request]) -> list[Call]:
    transport = httpx.ASGITransport(app)  # type: ignore[arg-type]
    calls = []
    async with httpx.AsyncClient(transport=transport, base_url=f"http://{HOST}") as client:
        for method, path, body in requests:
            headers = {"content-type": "application/json"} if body is not None else {}
            answer = await client.request(method, path, content=body, headers=headers)
            assert answer.status_code == 200, (method, path, answer.text)
            calls.append(Call(f"{method} {path}", wire(method, path, body), 200, answer.content))
    return calls


def bad_calls() -> list[Call]:
    """Requests that must be refused, each in its own way."""
    convert = "/v1/gauge/convert"
    return [
        Call("not JSON", wire("POST", convert, b'{"gauge":'), 400),
        Call("text for a number", wire("POST", convert, b'{"gauge":{"stitches":"22"}}'), 400),
        Call("not UTF-8", wire("POST", convert, b'{"gauge":"\xff\xfe"}'), 400),
        Call("nested deeply", wire("POST", convert, b"[" * 30_000), 400),
        Call("too large", wire("POST", convert, b" " * 100_000), 413),
        Call("no such address", wire("GET", "/v1/nothing"), 404),
        Call("another method", wire("DELETE", convert), 405),
        Call("a parameter too many", wire("GET", "/v1/standards?a=1"), 400),
        Call("a long header", wire("GET", "/", more=f"x: {'a' * 6000}\r\n"), 431),
        Call("not HTTP", b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03\r\n\r\n", 400),
    ]


class _Connection(asyncio.Protocol):
    """A connection kept alive, for one request after another."""

    def __init__(self) -> None:
        self.buffer = bytearray()
        self.waiting: asyncio.Future[tuple[int, bytes, bytes]] | None = None
        self.transport: asyncio.Transport | None = None
        self.closing = False
        self.need = 0

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        self.transport = transport

    def data_received(self, data: bytes) -> None:
        self.buffer += data
        if len(self.buffer) < self.need:
            return
        head, found, _ = self.buffer.partition(b"\r\n\r\n")
        if not found:
            return
        lines = head.lower().split(b"\r\n")
        length = next((int(line[15:]) for line in lines if line.startswith(b"content-length:")), 0)
        whole = len(head) + 4 + length
        if len(self.buffer) < whole:
            self.need = whole
            return
        body = bytes(self.buffer[len(head) + 4 : whole])
        self.need = 0
        del self.buffer[:whole]
        self.closing = b"connection: close" in lines
        if self.waiting and not self.waiting.done():
            self.waiting.set_result((int(lines[0].split()[1]), bytes(head), body))

    def connection_lost(self, error: Exception | None) -> None:
        self.closing = True
        if self.waiting and not self.waiting.done():
            self.waiting.set_exception(error or ConnectionResetError("closed before the answer was whole"))

    async def ask(self, request: bytes) -> tuple[int, bytes, bytes]:
        self.waiting = asyncio.get_running_loop().create_future()
        assert self.transport is not None
        self.transport.write(request)
        return await self.waiting


class Callers:
    """Those who ask one port, over as many connections as it takes."""

    def __init__(self, port: int, source: str = HOST, tally: Tally | None = None) -> None:
        """From an address of IPv4's loopback, or from `::1`; counted in a tally of others, or in one of their own."""
        self.port = port
        self.source = source
        self.idle: deque[_Connection] = deque()
        self.tally = tally or Tally()

    async def ask(self, call: Call, due: float | None = None) -> None:
        """Ask once and count what comes back. `due` is when it should have been asked."""
        due = time.monotonic() if due is None else due
        try:
            async with asyncio.timeout(GIVE_UP_S):
                connection = await self._connection()
                status, head, body = await connection.ask(call.wire)
        except (OSError, TimeoutError) as error:
            self.tally.failures[type(error).__name__] += 1
            self.tally.spans.append((due, time.monotonic() - due, False))
            return
        self.tally.statuses[status] += 1
        good = status == call.status or status in call.also
        right = good and (
            body == call.expected
            if call.expected is not None and status == call.status
            else status < 400 or b"application/problem+json" in head
        )
        self.tally.spans.append((due, time.monotonic() - due, right))
        if not good:
            self.tally.failures[f"{status}"] += 1
        elif not right:
            self.tally.wrong += 1
        if not connection.closing:
            self.idle.append(connection)

    async def _connection(self) -> _Connection:
        while self.idle:
            connection = self.idle.pop()
            if not connection.closing:
                return connection
        loop = asyncio.get_running_loop()
        _, made = await loop.create_connection(_Connection, sock=await self._connected())
        return made

    async def _connected(self) -> socket.socket:
        host = self.source if ":" in self.source else HOST
        made = socket.socket(socket.AF_INET6 if ":" in host else socket.AF_INET)
        made.setblocking(False)
        # The port is found when the other end is known: looking for one that nobody uses at all takes the kernel
        # milliseconds once thousands are in use, and a rush would measure that.
        made.setsockopt(socket.SOL_IP, IP_BIND_ADDRESS_NO_PORT, 1)
        try:
            made.bind((self.source, 0))
            await asyncio.get_running_loop().sock_connect(made, (host, self.port))
        except BaseException:
            made.close()
            raise
        return made

    async def steadily(
        self, calls: list[Call], per_second: float, stop: asyncio.Event, after_s: float = 0
    ) -> None:
        """Ask at an even rate, whether answers come or not, until told to stop; then wait for what is still due."""
        tasks: set[asyncio.Task[None]] = set()
        start = time.monotonic() + after_s
        for number, call in enumerate(cycle(calls)):
            due = start + number / per_second
            if (early := due - time.monotonic()) > 0:
                await asyncio.sleep(early)
            if stop.is_set():
                break
            task = asyncio.create_task(self.ask(call, due))
            tasks.add(task)
            task.add_done_callback(tasks.discard)
        await asyncio.gather(*tasks)

    async def rush(self, calls: list[Call], number: int) -> None:
        """Connect so many times at once and ask one thing over each."""
        await asyncio.gather(*(self.ask(call) for call in islice(cycle(calls), number)))

    def close(self) -> None:
        """Hang up."""
        for connection in self.idle:
            if connection.transport:
                connection.transport.abort()
        self.idle.clear()


async def drip(port: int, source: str, stop: asyncio.Event, cut: Counter[str]) -> None:
    """Send a request byte by byte, one a second, in the header or in the body; when cut off, start again."""
    request = wire("POST", "/v1/gauge/convert", b'{"gauge": ' + b" " * 200)
    start = request.index(b"\r\n\r\n") + 4 if random.random() < 0.5 else 8
    while not stop.is_set():
        try:
            reader, writer = await asyncio.open_connection(HOST, port, local_addr=(source, 0))
        except OSError as error:
            cut[type(error).__name__] += 1
            await asyncio.sleep(1)
            continue
        try:
            writer.write(request[:start])
            for byte in request[start:]:
                await asyncio.sleep(1)
                if stop.is_set():
                    break
                if reader.at_eof() or writer.transport.is_closing():
                    raise ConnectionResetError
                writer.write(bytes((byte,)))
        except OSError:
            cut["cut off"] += 1
        finally:
            writer.transport.abort()
