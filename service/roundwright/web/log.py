"""What is logged: one line of JSON for each request where asked for, and for each fault of our own.

Nothing of a body or a query is ever logged, nor the message of an exception, which may quote one.
"""

import os
from functools import cache
from traceback import extract_tb
from typing import Any, Final

import msgspec
from litestar.types import HTTPScope

MOST_PLACES: Final = 40
"""Places of a fault that are logged, the innermost: endless recursion passes a thousand."""


@cache
def _logger() -> Any:
    import structlog

    return structlog.wrap_logger(
        structlog.BytesLogger(os.fdopen(2, "wb", buffering=0, closefd=False)),
        processors=[
            structlog.processors.add_log_level,
            structlog.processors.TimeStamper(fmt="iso", utc=True),
            structlog.processors.JSONRenderer(serializer=lambda event, **_: msgspec.json.encode(event)),
        ],
        wrapper_class=structlog.make_filtering_bound_logger(0),
    )


def access(
    scope: HTTPScope,
    headers: dict[bytes, bytes],
    status: int,
    seconds: float,
    *,
    request_id: bytes,
    client: str | None,
    key: str | None,
) -> None:
    """Log one request: what was asked, by whom (the address, and the name of a key) and how it went."""
    _logger().info(
        "request",
        method=scope["method"],
        path=scope["path"],
        status=status,
        ms=round(seconds * 1000, 3),
        client=client,
        key=key,
        request_id=request_id.decode("latin-1"),
        traceparent=headers.get(b"traceparent", b"").decode("latin-1") or None,
    )


def crash(error: Exception, request_id: bytes) -> None:
    """Log a fault of our own: what it was, and the places it passed, innermost last."""
    _logger().error(
        "crash",
        error=f"{type(error).__module__}.{type(error).__qualname__}",
        at=[
            f"{frame.filename}:{frame.lineno} {frame.name}"
            for frame in extract_tb(error.__traceback__)[-MOST_PLACES:]
        ],
        request_id=request_id.decode("latin-1"),
    )


def event(name: str, **facts: Any) -> None:
    """Log something that happened to the service itself."""
    _logger().info(name, **facts)
