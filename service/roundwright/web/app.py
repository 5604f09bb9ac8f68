"""The application: routes, limits, and what surrounds them. No logic."""

from functools import cache
from typing import Any

import msgspec
from litestar import Litestar
from litestar.datastructures import State

from roundwright.web.metrics import Metrics
from roundwright.web.middleware import Edge, on_error
from roundwright.web.problems import Refusal
from roundwright.web.routes import Operation, all_operations
from roundwright.web.routes.gauge import convert_gauge
from roundwright.web.routes.service import house
from roundwright.web.routes.typesetter import Typesetter
from roundwright.web.settings import Settings, read


def create_app(settings: Settings | None = None) -> Edge:
    """The service as an ASGI application, with the settings of the environment unless others are given."""
    settings = settings or read()
    metrics = Metrics()
    typesetter = Typesetter()
    trade = all_operations()

    @cache
    def description() -> bytes:
        from roundwright.web.openapi import document  # of no use to a process that is never asked for it

        return _indented(document(handlers, keyed=bool(edge.gate.keys)))

    def probe() -> None:
        if edge.stopping:
            raise Refusal("stopping", "This process is about to stop.")
        convert_gauge.example_answer()

    handlers: list[Operation] = [
        *trade,
        *house(
            document=description,
            metrics=metrics.text if settings.metrics else None,
            probe=probe,
        ),
    ]
    litestar = Litestar(
        route_handlers=handlers,
        exception_handlers={Exception: on_error},
        logging_config=None,
        openapi_config=None,
        state=State({"settings": settings, "typesetter": typesetter}),
    )
    metrics.know(one.template for one in handlers)
    if settings.warm:
        typesetter.start()
        for one in trade:
            one.warm()
    edge = Edge(litestar, settings, metrics, description, typesetter.stop)
    return edge


def _indented(document: Any) -> bytes:
    """A document as JSON, indented so that its changes can be read."""
    return msgspec.json.format(msgspec.json.encode(document), indent=2) + b"\n"
