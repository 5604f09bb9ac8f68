"""The service's own addresses: name and version, health, OpenAPI document, metrics and pages."""

import re
from collections.abc import Callable
from html import escape
from pathlib import Path
from typing import Annotated, Any, Final, Literal

from msgspec import Meta, Struct

from roundwright import __version__
from roundwright.knitting.answers import RULES, RulesVersion
from roundwright.language import Words
from roundwright.web.problems import PROBLEM_TYPES, Address, ProblemError, ProblemType
from roundwright.web.routes import people
from roundwright.web.routes.answer_language import encode_answer
from roundwright.web.routes.operation import HTML, JSON, Operation, PageLookup, lookup
from roundwright.web.routes.print_view import print_view

PAGES: Final = Path(__file__).parent / "pages"
PAGE_HEADERS: Final = {
    "content-security-policy": "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
    "connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
    "referrer-policy": "no-referrer",
}


class Service(Struct, frozen=True, kw_only=True):
    """The name and version of this service, and its main addresses."""

    name: Annotated[str, Meta(description="Name of the service.")] = "Roundwright"
    version: Annotated[str, Meta(description="Release of the service.")] = __version__
    rules: RulesVersion = RULES
    openapi: Annotated[Address, Meta(description="Path of the OpenAPI document.")] = "/openapi.json"
    docs: Annotated[Address, Meta(description="Path of the reference page.")] = "/docs"
    standards: Annotated[Address, Meta(description="Path of the published tables it uses.")] = "/v1/standards"


class Health(Struct, frozen=True, kw_only=True):
    """The health of the service."""

    status: Annotated[Literal["ok"], Meta(description="Always `ok`; any other state is an error.")] = "ok"


class ProblemPageRequest(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """The type of a problem."""

    slug: str


def service_operations(
    *, document: Callable[[], bytes], metrics: Callable[[], bytes] | None, probe: Callable[[], Any]
) -> list[Operation]:
    """The service's own operations.

    `document` returns the OpenAPI document, `metrics` the metrics (None when they are off); `probe` makes a small
    real calculation and raises when the process is not ready.
    """
    return [
        *_home(),
        *_health(probe),
        *_documentation(document),
        *_assets(),
        *people.files(),
        print_view,
        *_problems(),
        *(() if metrics is None else _metrics(metrics)),
    ]


def _home() -> list[Operation]:
    @PageLookup(
        "/",
        id="getService",
        tag="Service",
        summary="Show the name and version of the service, or the page for people",
        renderers={JSON: encode_answer, HTML: people.page},
        headers=people.HEADERS,
        otherwise=JSON,
    )
    def get_service(_request: people.PageRequest) -> Service:
        """Name, release, date of the rules, and the main addresses; to a browser, the page for people."""
        return Service()

    return [get_service]


def _health(probe: Callable[[], Any]) -> list[Operation]:
    @lookup(
        "/health/live", id="getLiveness", tag="Service", summary="Check that the process runs", cached=False
    )
    def get_liveness() -> Health:
        """Answers as long as the process can answer at all; after a failure, restart it."""
        return Health()

    @lookup(
        "/health/ready",
        id="getReadiness",
        tag="Service",
        summary="Check that the process can calculate",
        cached=False,
    )
    def get_readiness() -> Health:
        """Makes a small real calculation with the tables it needs; after a failure, send no requests here."""
        probe()
        return Health()

    return [get_liveness, get_readiness]


def _documentation(document: Callable[[], bytes]) -> list[Operation]:
    @lookup("/openapi.json", renderers={JSON: _as_is})
    def get_document() -> bytes:
        return document()

    @PageLookup("/docs", renderers={HTML: _as_is}, headers=PAGE_HEADERS)
    def get_docs() -> bytes:
        return (PAGES / "docs.html").read_bytes()

    return [get_document, get_docs]


def _metrics(metrics: Callable[[], bytes]) -> list[Operation]:
    @lookup("/metrics", renderers={"text/plain; version=0.0.4; charset=utf-8": _as_is}, cached=False)
    def get_metrics() -> bytes:
        return metrics()

    return [get_metrics]


def _as_is(content: bytes, _: Words) -> bytes:
    return content


def _assets() -> list[Operation]:
    return [
        _asset(name, media_type)
        for name, media_type in (
            ("swagger-ui-bundle.js", "text/javascript; charset=utf-8"),
            ("swagger-ui.css", "text/css; charset=utf-8"),
            ("start.js", "text/javascript; charset=utf-8"),
            ("page.css", "text/css; charset=utf-8"),
            ("favicon-32x32.png", "image/png"),
        )
    ]


def _asset(name: str, media_type: str) -> Operation:
    @lookup(f"/docs/{name}", renderers={media_type: _as_is})
    def get_asset() -> bytes:
        own_file = PAGES / name
        if own_file.exists():
            return own_file.read_bytes()
        from swagger_ui_bundle import swagger_ui_path

        return Path(swagger_ui_path, name).read_bytes()

    return get_asset


def _problems() -> list[Operation]:
    @PageLookup("/problems", renderers={HTML: _as_is}, headers=PAGE_HEADERS)
    def get_problems() -> bytes:
        items = "".join(
            f'<li><a href="problems/{problem_type.slug}">{escape(problem_type.title)}</a> ({problem_type.status})</li>'
            for problem_type in PROBLEM_TYPES.values()
        )
        return _page("Problems", f"<ul>{items}</ul>", root="")

    @PageLookup("/problems/{slug:str}", example="problem", renderers={HTML: _as_is}, headers=PAGE_HEADERS)
    def get_problem(request: ProblemPageRequest) -> bytes:
        problem_type = PROBLEM_TYPES.get(request.slug)
        if problem_type is None:
            raise ProblemError("not-found", "Unknown type of problem. All types are listed at /problems.")
        return _page(problem_type.title, _about(problem_type), root="../")

    return [get_problems, get_problem]


def _about(problem_type: ProblemType) -> str:
    meaning = re.sub("`([^`]+)`", r"<code>\1</code>", escape(problem_type.meaning))
    return (
        f"<p>Status {problem_type.status}. <code>/problems/{problem_type.slug}</code></p><p>{meaning}</p>"
        '<p><a href="../problems">All problems</a> · <a href="../docs">The reference</a></p>'
    )


def _page(title: str, content: str, *, root: str) -> bytes:
    return (
        '<!doctype html><html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f'<title>{escape(title)} - Roundwright</title><link rel="stylesheet" href="{root}docs/page.css">'
        f'<link rel="icon" type="image/png" href="{root}docs/favicon-32x32.png"></head>'
        f"<body><main><h1>{escape(title)}</h1>{content}</main></body></html>"
    ).encode()
