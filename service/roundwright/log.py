"""What is logged: one line of JSON for each request where asked for, and for each fault of our own.

Nothing of a body or a query is ever logged.
"""

import sys
from functools import cache
from typing import Any

import msgspec
from litestar.types import HTTPScope


@cache
def _logger() -> Any:
    import structlog

    return structlog.wrap_logger(
        structlog.BytesLogger(sys.stderr.buffer),
        processors=[
            structlog.processors.add_log_level,
            structlog.processors.TimeStamper(fmt="iso", utc=True),
            # Without the values of variables, which would be those of the request.
            structlog.processors.ExceptionRenderer(
                structlog.tracebacks.ExceptionDictTransformer(show_locals=False)
            ),
            structlog.processors.JSONRenderer(serializer=_to_json),
        ],
        wrapper_class=structlog.make_filtering_bound_logger(0),
    )


def _to_json(event: Any, **_: Any) -> bytes:
    return msgspec.json.encode(event, enc_hook=repr)


def access(
    scope: HTTPScope, headers: dict[bytes, bytes], status: int, seconds: float, request_id: bytes
) -> None:
    """Log one request: what was asked and how it went."""
    client = scope.get("client")
    _logger().info(
        "request",
        method=scope["method"],
        path=scope["path"],
        status=status,
        ms=round(seconds * 1000, 3),
        client=client[0] if client else None,
        request_id=request_id.decode("latin-1"),
        traceparent=headers.get(b"traceparent", b"").decode("latin-1") or None,
    )


def crash(error: Exception, request_id: bytes) -> None:
    """Log a fault of our own with its traceback."""
    _logger().error("crash", exc_info=error, request_id=request_id.decode("latin-1"))


def event(name: str, **facts: Any) -> None:
    """Log something that happened to the service itself."""
    _logger().info(name, **facts)
