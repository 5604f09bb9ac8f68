"""The application: operations, Litestar's router, middleware, and the start and stop of a process."""

from collections.abc import Iterable
from functools import cache
from http import HTTPStatus
from pathlib import Path
from typing import Any, Final

import msgspec
from litestar import Litestar

from roundwright.web import log
from roundwright.web.metrics import Metrics
from roundwright.web.middleware import Middleware
from roundwright.web.problems import ProblemError
from roundwright.web.routes import all_operations
from roundwright.web.routes.operation import Operation
from roundwright.web.routes.service import service_operations
from roundwright.web.routes.shaping import shape_evenly
from roundwright.web.routes.typesetter import Typesetter, is_installed
from roundwright.web.settings import Settings, read

PUBLISHED: Final = (
    Path(__file__).parent / "openapi.json",
    Path(__file__).parents[3] / "openapi" / "openapi.json",
)
"""The published document: where it is installed, and in the tree. To make it anew takes 160 ms of a first call."""


def create(settings: Settings | None = None) -> Middleware:
    """The service as an ASGI application; without an argument the settings come from the environment."""
    settings = settings or read()
    log.configure()
    metrics = Metrics() if settings.metrics else None
    typesetter = Typesetter()

    @cache
    def written_anew() -> bytes:
        from roundwright.web.openapi import document  # imported only to make the document

        return msgspec.json.format(as_served(msgspec.json.encode(document(operations))), indent=2) + b"\n"

    @cache
    def served() -> bytes:
        published = _published()
        return msgspec.json.format(written_anew() if published is None else as_served(published), indent=-1)

    def as_served(published: bytes) -> bytes:
        return _with_keys(published) if middleware.key_check.is_active else published

    def probe() -> None:
        if middleware.stopping:
            raise ProblemError("stopping", "This process is about to stop.")
        shape_evenly.example_answer()  # without a unit: the factors of units are loaded with the first of them

    own = service_operations(document=served, metrics=None if metrics is None else metrics.text, probe=probe)
    on_knitting, on_itself = (
        [operation.with_settings(settings, typesetter) for operation in declared]
        for declared in (all_operations(), own)
    )
    operations = [*on_knitting, *on_itself]
    litestar = Litestar(
        route_handlers=[operation.handler() for operation in operations],
        exception_handlers={Exception: _raise},
        logging_config=None,
        openapi_config=None,
        on_shutdown=[typesetter.stop],
    )
    if settings.warm:
        _warm(on_knitting, typesetter, metrics)
    templates = tuple(operation.template for operation in operations)
    middleware = Middleware(litestar, settings, templates, metrics, written_anew)
    return middleware


def _warm(operations: Iterable[Operation], typesetter: Typesetter, metrics: Metrics | None) -> None:
    """Answer every operation once, so that the first caller waits no longer than the others."""
    if is_installed():
        typesetter.start()
    for operation in operations:
        operation.warm()
        if metrics is not None:
            metrics.child(operation.template, operation.methods[0], HTTPStatus.OK)


def _raise(_request: Any, error: Exception) -> Any:
    """Leave the error to the middleware, which turns every error into a problem."""
    raise error


def _published() -> bytes | None:
    return next((file.read_bytes() for file in PUBLISHED if file.exists()), None)


def _with_keys(document: bytes) -> bytes:
    """A document as a service has it that needs keys."""
    from roundwright.web.openapi import with_keys

    return msgspec.json.encode(with_keys(msgspec.json.decode(document)))
