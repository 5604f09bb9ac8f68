"""The log: a line of JSON for each event, uvicorn's and asyncio's too, by the standard library and structlog.

No value of a body and nothing of a query is ever logged, nor the message of an exception of ours, which may quote one.
"""

import logging
from functools import cached_property
from traceback import extract_tb
from typing import TYPE_CHECKING, Any, Final

import msgspec
from litestar.types import HTTPScope

from roundwright.web.auth import KEY_NAME
from roundwright.web.problems import Problem, shortened
from roundwright.web.routes.batch import CRASHES

if TYPE_CHECKING:
    import structlog

MAX_FRAMES: Final = 40
"""Frames of a traceback that are logged, the innermost: endless recursion has a thousand."""

MAX_POINTER: Final = 100
"""Characters of a pointer that are logged: an unknown field's name is its last part."""

_logger: Final = logging.getLogger("roundwright")


class JsonFormatter(logging.Formatter):
    """Formats records by structlog, which is imported for the first of them."""

    @cached_property
    def by_structlog(self) -> "structlog.stdlib.ProcessorFormatter":
        """Structlog's formatter for records of the standard library."""
        import structlog

        return structlog.stdlib.ProcessorFormatter(
            foreign_pre_chain=[
                structlog.stdlib.ExtraAdder(),
                structlog.stdlib.add_log_level,
                structlog.stdlib.add_logger_name,
                structlog.processors.TimeStamper(fmt="iso", utc=True),
                structlog.processors.format_exc_info,
            ],
            processors=[
                structlog.stdlib.ProcessorFormatter.remove_processors_meta,
                structlog.processors.JSONRenderer(
                    serializer=lambda event, **_: msgspec.json.encode(event, enc_hook=str).decode()
                ),
            ],
        )

    def format(self, record: logging.LogRecord) -> str:
        """The record as a line of JSON."""
        return self.by_structlog.format(record)


def configure() -> None:
    """Send every logger of the process to the standard error, as lines of JSON."""
    handler = logging.StreamHandler()
    handler.setFormatter(JsonFormatter())
    logging.basicConfig(handlers=[handler], level=logging.WARNING, force=True)
    logging.captureWarnings(capture=True)
    for name in ("uvicorn", "uvicorn.access"):  # its own command has given them handlers
        logger = logging.getLogger(name)
        logger.handlers.clear()
        logger.propagate = True
    _logger.setLevel(logging.INFO)


def access(
    scope: HTTPScope,
    headers: dict[bytes, bytes],
    status: int,
    seconds: float,
    *,
    request_id: bytes,
    problem: Problem | None,
) -> None:
    """Log one request: method, path, caller, status, time; for an error its type and where in the request it is."""
    client = scope.get("client")
    event(
        "request",
        _level(status),
        method=scope["method"],
        path=scope["path"],
        status=status,
        ms=round(seconds * 1000, 3),
        client=client[0] if client else None,
        key=scope["state"].get(KEY_NAME),
        request_id=request_id.decode("latin-1"),
        traceparent=headers.get(b"traceparent", b"").decode("latin-1") or None,
        **({} if problem is None else _place(problem)),
    )


def unread(client: tuple[str, int] | None, problem: Problem, request_id: bytes) -> None:
    """Log what was rejected before it became a request; nothing of what was sent."""
    event(
        "unread",
        _level(problem.status),
        status=problem.status,
        problem=problem.type,
        detail=problem.detail,
        client=client[0] if client else None,
        request_id=request_id.decode("latin-1"),
    )


def _level(status: int) -> int:
    """Faults of ours are errors, faults of callers warnings."""
    return logging.ERROR if status >= 500 else logging.WARNING if status >= 400 else logging.INFO


_OF_ANY_NAME: Final = ("unknown_field", "given_twice")
"""Faults of parameters whose name may be the caller's own."""


def _place(problem: Problem) -> dict[str, Any]:
    """The type of a problem and its places in the request, but for a parameter whose name may be the caller's own."""
    places = [
        shortened(place, MAX_POINTER)
        for fault in problem.errors
        if (place := fault.pointer or (None if fault.code in _OF_ANY_NAME else fault.parameter))
    ]
    return {"problem": problem.type, "at": places}


def crash(error: Exception, request_id: bytes) -> None:
    """Log an unexpected exception: its type and the frames it passed, the innermost last."""
    frames = extract_tb(error.__traceback__)[-MAX_FRAMES:]
    _logger.error(
        "crash",
        extra={
            "error": f"{type(error).__module__}.{type(error).__qualname__}",
            "at": [f"{frame.filename}:{frame.lineno} {frame.name}" for frame in frames],
            "request_id": request_id.decode("latin-1"),
        },
    )


def crashes_of_parts(scope: HTTPScope, request_id: bytes) -> None:
    """Log the unexpected exceptions of the parts of a batch, whose other parts were answered."""
    for error in scope["state"].get(CRASHES, ()):
        crash(error, request_id)


def event(name: str, level: int = logging.INFO, **facts: Any) -> None:
    """Log an event of the service."""
    _logger.log(level, name, extra=facts)
