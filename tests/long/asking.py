"""The service asked in this process, without a socket: as many requests as a processor can make."""

import sys
from asyncio import new_event_loop
from contextlib import suppress
from copy import copy
from resource import RUSAGE_CHILDREN, getrusage
from time import clock_gettime, thread_time
from typing import Any, NamedTuple
from urllib.parse import quote_from_bytes, urlencode
from weakref import finalize

import msgspec

from roundwright.web.app import create
from roundwright.web.routes import all_operations
from roundwright.web.routes.batch import Batch
from roundwright.web.routes.flat_parameters import flattened
from roundwright.web.routes.operation import Calculation, Operation
from roundwright.web.routes.print_view import FormLookup
from roundwright.web.routes.query_form import QueryForm
from roundwright.web.routes.service import service_operations
from roundwright.web.routes.typesetter import Typesetter
from roundwright.web.settings import Settings


class Answer(NamedTuple):
    """What came back, and the milliseconds of processor time it took.

    Time of this thread, since a process's own clock is coarse while a deadline is set in it, and of the process that
    sets PDFs and PNGs.
    """

    status: int
    media_type: str
    body: bytes
    ms: float


class Service:
    """The application, as it ships unless settings are given."""

    def __init__(self, settings: Settings | None = None) -> None:
        self.app = create(settings or Settings())
        self.loop = new_event_loop()
        finalize(self, self.loop.close)
        (stop,) = self.app.app.on_shutdown
        self.typesetter: Typesetter = stop.__self__  # type: ignore[union-attr]
        finalize(self, stop)

    def ask(
        self,
        method: str,
        path: str,
        query: bytes = b"",
        body: bytes = b"",
        accept: str = "*/*",
        *,
        headers: dict[bytes, bytes] | None = None,
    ) -> Answer:
        """Ask once, with other header lines in place of the usual where some are given."""
        sent: list[Any] = []
        messages = iter([{"type": "http.request", "body": body, "more_body": False}])

        async def receive() -> Any:
            return next(messages, {"type": "http.disconnect"})

        async def send(message: Any) -> None:
            sent.append(message)

        scope: dict[str, Any] = {
            "type": "http", "asgi": {"version": "3.0"}, "http_version": "1.1", "method": method, "scheme": "http",
            "path": path, "raw_path": path.encode(), "query_string": query, "root_path": "", "extensions": {},
            "client": ("127.0.0.1", 1), "server": ("127.0.0.1", 1), "state": {},
            "headers": [*({
                b"host": b"a", b"accept": accept.encode(), b"content-type": b"application/json",
                b"content-length": b"%d" % len(body),
            } | (headers or {})).items()],
        }  # fmt: skip
        began = thread_time() + spent_s(self.typesetter)
        self.loop.run_until_complete(self.app(scope, receive, send))
        ms = (thread_time() + spent_s(self.typesetter) - began) * 1000
        start, *parts = sent
        headers = dict(start["headers"])
        content = b"".join(part.get("body", b"") for part in parts)
        return Answer(start["status"], headers.get(b"content-type", b"").decode(), content, ms)

    def time(self, operation: Operation, body: bytes, accept: str = "*/*", *, times: int = 3) -> float:
        """The least milliseconds an answer takes of several, each time as if nothing like it had been asked before."""
        least = float("inf")
        for _ in range(times):
            for cache in kept():
                cache.cache_clear()
            least = min(least, self.ask_for(operation, body, accept).ms)
        return least

    def ask_for(self, operation: Operation, body: bytes, accept: str = "*/*") -> Answer:
        """Ask an operation, with a body, or with what stands in for one where there are parameters: a JSON object."""
        if isinstance(operation, Calculation):
            return self.ask("POST", operation.template, body=body, accept=accept)
        path, query = address(operation, body)
        return self.ask("GET", path, query, accept=accept)


def spent_s(typesetter: Typesetter) -> float:
    """Processor seconds of the process that sets PDFs and PNGs, and of those before it; 0 before the first."""
    ended = getrusage(RUSAGE_CHILDREN)
    process = typesetter.process
    spent = ended.ru_utime + ended.ru_stime
    with suppress(OSError):  # ended meanwhile
        if process is not None:
            # The clock of another process has this number in Linux (clock_getcpuclockid(3) makes it).
            spent += clock_gettime((~process.pid << 3) | 2)
    return spent


def kept() -> list[Any]:
    """The bounded caches of the service, which keep what requests have in common; unbounded ones keep its tables."""
    modules = [module for name, module in list(sys.modules.items()) if name.startswith("roundwright.")]
    functions = {
        id(value): value
        for module in modules
        for value in vars(module).values()
        if hasattr(value, "cache_parameters")
    }
    return [function for function in functions.values() if function.cache_parameters()["maxsize"] is not None]


def address(operation: Operation, body: bytes) -> tuple[str, bytes]:
    """The path and query that say what a JSON object does; other bytes are taken for the query as they are."""
    try:
        values = msgspec.json.decode(body)
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError):
        return operation.template, quote_from_bytes(body, safe="&=%+").encode()
    path = operation.template
    if not isinstance(values, dict):
        return path, str(values).encode("utf-8", "replace")
    if isinstance(operation, QueryForm | FormLookup):
        with suppress(KeyError):  # a quantity without its unit
            values = flattened(operation.request_type, values)
    query = {}
    for name, value in values.items():
        text = _spelled(value)
        if f"{{{name}}}" in path:
            path = path.replace(f"{{{name}}}", text.replace("/", "") or "-")
        elif value is not None:
            query[name] = text
    return path, urlencode(query, errors="replace").encode()


def _spelled(value: Any) -> str:
    if isinstance(value, list):
        return ",".join(map(str, value))
    return value if isinstance(value, str) else msgspec.json.encode(value).decode()


def operations() -> list[Operation]:
    """Every operation that takes something, but a batch, whose parts are taken by the others."""
    return [
        operation
        for operation in all_operations()
        if operation.request_type is not None and not isinstance(operation, Batch)
    ]


def pages() -> list[Operation]:
    """The pages that take something: the page for people, a printed plan, a type of problem. Each has an id here."""
    own = service_operations(document=bytes, metrics=None, probe=bytes)
    taking = [copy(operation) for operation in own if operation.request_type is not None]
    for operation in taking:
        operation.id = (
            operation.id or {"/handout": "printPlan", "/problems/{slug}": "getProblem"}[operation.template]
        )
    return taking


def everything() -> list[Operation]:
    """All that a stranger can send something to: the operations, the pages and a batch."""
    return [
        *operations(),
        *pages(),
        *(operation for operation in all_operations() if isinstance(operation, Batch)),
    ]
