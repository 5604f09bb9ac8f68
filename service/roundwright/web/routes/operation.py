"""How an operation is declared, and how it is answered.

An operation is a handler of Litestar's: Litestar routes it and handles its errors, and its signature says what it
takes and gives. The exchange itself - read one struct, call one function, write one answer - is done here in place of
Litestar's general way, which is lax about types, knows neither HEAD nor 304, and costs more than most calculations.

    @calculation("/v1/gauge/convert", id="convertGauge", tag="Gauge", summary="...", example="gauge-convert")
    def convert_gauge(request: gauge.ConvertRequest) -> gauge.ConvertAnswer:
        return gauge.convert(request)

`calculation` is a POST of one JSON body. `lookup` is a GET (and HEAD) whose path and query parameters are the fields of
one struct, cacheable by its `ETag`.
"""

from collections.abc import Callable, Mapping
from functools import lru_cache
from hashlib import blake2b
from pathlib import Path
from typing import Any, Final, get_type_hints

import msgspec
from litestar import Litestar
from litestar.handlers import HTTPRouteHandler
from litestar.types import HTTPScope, Receive, Send

from roundwright import __version__
from roundwright.knitting.answers import RULES, Impossible
from roundwright.web.problems import Fault, Refusal
from roundwright.web.routes.content_negotiation import best
from roundwright.web.routes.deadline import within
from roundwright.web.routes.request_reader import (
    BodyReader,
    ParameterReader,
    encode,
    receive_body,
    require_json,
    require_no_query,
)
from roundwright.web.routes.typesetter import Typesetter
from roundwright.web.settings import Settings

JSON: Final = "application/json"
EXAMPLES: Final = Path(__file__).parent / "requests"

KEPT: Final = 128
"""Requests of a look-up whose meaning is kept: those that caches ask after again. A query is at most a header long."""

Form = Callable[[Any], bytes]
"""Writes an answer in one media type."""


class Operation(HTTPRouteHandler):
    """A handler that answers by itself once Litestar has found it.

    - `id`: the name client generators give it; without one it is left out of the OpenAPI document
    - `example`: the file in `requests/` with an example of what it takes
    - `forms`: the media types its answer can be given in, the default first; JSON if nothing is said
    - `headers`: header lines of its own
    - `links`: which operations its answer leads to, as OpenAPI says it
    - `parts`: structs that the schema of its answer refers to by name
    """

    methods: tuple[str, ...]

    def __init__(
        self,
        path: str,
        *,
        id: str | None = None,
        tag: str = "",
        summary: str = "",
        example: str | None = None,
        forms: Mapping[str, Form] | None = None,
        headers: Mapping[str, str] | None = None,
        links: Mapping[str, Any] | None = None,
        parts: tuple[Any, ...] = (),
    ) -> None:
        super().__init__(path, http_method=self.methods, status_code=200, sync_to_thread=False, name=id)  # type: ignore[arg-type]
        self.template = path.replace(":str}", "}")
        self.id = id
        self.tag = tag
        self.summary = summary
        self.example = example
        self.forms: Mapping[str, Form] = forms or {JSON: encode}
        self.own_headers = [(name.encode(), value.encode()) for name, value in (headers or {}).items()]
        if len(self.forms) > 1:
            self.own_headers.append((b"vary", b"Accept"))
        self.links = links or {}
        self.parts = parts

    def __call__(self, fn: Callable[..., Any]) -> "Operation":
        """Take the function, and from its signature what the operation takes and gives."""
        super().__call__(fn)
        hints = get_type_hints(fn, include_extras=True)
        self.gives: Any = hints.pop("return")
        self.takes: Any = next(iter(hints.values()), None)
        self.calculate = fn
        return self

    def on_registration(self, app: Litestar) -> None:
        """Litestar's hook: the application, and with it the settings, are known."""
        super().on_registration(app)
        self.error_handlers = super().resolve_exception_handlers()
        self.typesetter: Typesetter = app.state.typesetter
        self.prepare(app.state.settings)

    def resolve_exception_handlers(self) -> Any:
        """Litestar's hook, asked for every request: who answers an exception."""
        return self.error_handlers

    def resolve_middleware(self) -> list[Any]:
        """Litestar's hook: what stands between its router and its general way of calling a handler. All of it."""
        return [lambda app: self.answer]  # noqa: ARG005 - the app left out is the general way

    def create_kwargs_model(self, path_parameters: Any) -> Any:
        """Litestar's hook for its general way, which is not used."""

    def prepare(self, settings: Settings) -> None:
        """Take over what the settings say."""
        raise NotImplementedError

    async def exchange(self, scope: HTTPScope, receive: Receive, send: Send) -> None:
        """Read, calculate and answer."""
        raise NotImplementedError

    async def answer(self, scope: HTTPScope, receive: Receive, send: Send) -> None:
        """Answer one request of any of the methods."""
        if scope["method"] == "OPTIONS":
            allow = ", ".join(sorted(self.methods)).encode()
            await _send(204, [(b"allow", allow)], b"", send)
        else:
            await self.exchange(scope, receive, send)

    def form_for(self, headers: Mapping[bytes, bytes]) -> tuple[str, Form]:
        """The media type asked for, and how it is written. The only form there is is given unasked."""
        forms = self.forms
        if len(forms) == 1:
            return next(iter(forms.items()))
        chosen = best(headers.get(b"accept", b"*/*").decode("latin-1"), forms)
        if chosen is None:
            raise Refusal("not-acceptable", f"The answer can be given as {', '.join(forms)}.")
        return chosen, forms[chosen]

    def example_value(self) -> Any:
        """The example of what the operation takes, as JSON values; empty where it takes nothing."""
        if self.example is None:
            return {}
        return msgspec.json.decode((EXAMPLES / f"{self.example}.json").read_bytes())

    def example_answer(self) -> Any:
        """The answer to the example, calculated now."""
        given = () if self.takes is None else (msgspec.convert(self.example_value(), self.takes),)
        return self.calculate(*given)

    def warm(self) -> None:
        """Give the answer to the example in each of its forms: what is imported and made for a first time is there."""
        answer = self.example_answer()
        for form in self.forms.values():
            form(answer)


class Calculation(Operation):
    """A POST: one JSON body in, one answer out, nothing kept.

    - `takes_text`: its body may hold a written pattern
    - `typeset`: the media type that is set as a PDF, in a process of its own, from what its form writes
    """

    methods = ("POST", "OPTIONS")

    def __init__(
        self, path: str, *, takes_text: bool = False, typeset: str | None = None, **declared: Any
    ) -> None:
        super().__init__(path, **declared)
        self.takes_text = takes_text
        self.typeset = typeset

    def prepare(self, settings: Settings) -> None:
        """Take over the limit on the body."""
        self.body_bytes = settings.text_body_bytes if self.takes_text else settings.body_bytes
        self.headers = [(b"cache-control", b"no-store"), *self.own_headers]
        self.reader = BodyReader(self.takes)

    async def exchange(self, scope: HTTPScope, receive: Receive, send: Send) -> None:
        """Read the body, calculate, answer."""
        headers = dict(scope["headers"])
        media_type, form = self.form_for(headers)
        require_no_query(scope["query_string"])
        require_json(headers)
        body = await receive_body(headers, receive, self.body_bytes)
        if media_type == self.typeset:
            self.typesetter.require_place()  # before anything is calculated for it
        with within:
            content = form(self.calculate(self.reader.read(body)))
        if media_type == self.typeset:
            content = await self.typesetter.typeset(content, receive)
        await _send(200, [*_content(media_type, content), *self.headers], content, send)


class Lookup(Operation):
    """A GET: the same address gives the same bytes until the rules or the release change, so caches may keep them.

    The `ETag` is a hash of the rules, the release, the path and the parameters as understood; a caller who has it gets
    304 without a calculation. `cached=False` says that the answer is of this moment; `can_be_impossible` that the
    parameters may ask for what cannot be knitted.
    """

    methods = ("GET", "HEAD", "OPTIONS")

    def __init__(
        self, path: str, *, cached: bool = True, can_be_impossible: bool = False, **declared: Any
    ) -> None:
        super().__init__(path, **declared)
        self.cached = cached
        self.can_be_impossible = can_be_impossible

    def prepare(self, settings: Settings) -> None:
        """Take over how long caches may keep an answer."""
        # What only callers with a key may have must not be given to others by a cache in between.
        whose = "private" if settings.keys or settings.keys_file else "public"
        keep = f"{whose}, max-age={settings.max_age_s}" if self.cached else "no-store"
        self.headers = [(b"cache-control", keep.encode()), *self.own_headers]
        self.reader = ParameterReader(self.takes)
        self.asked = lru_cache(maxsize=KEPT)(self.understood)

    def understood(
        self, path: str, query: bytes, parameters: tuple[tuple[str, str], ...], media_type: str
    ) -> tuple[tuple[Any, ...], bytes]:
        """What a request means, as the arguments of the function, and its tag."""
        with within:
            request = self.reader.read(query, dict(parameters))
        return request, _tag(path, media_type, request)

    async def exchange(self, scope: HTTPScope, receive: Receive, send: Send) -> None:  # noqa: ARG002 - no body
        """Read the parameters; calculate and answer, or say that nothing has changed."""
        given = dict(scope["headers"])
        media_type, form = self.form_for(given)
        request, tag = self.asked(
            scope["path"], scope["query_string"], tuple(scope["path_params"].items()), media_type
        )
        headers = self.headers
        if self.cached:
            headers = [(b"etag", tag), *headers]
            if b"if-none-match" in given and _names(given[b"if-none-match"], tag):
                await _send(304, headers, b"", send)
                return
        try:
            with within:
                content = form(self.calculate(*request))
        except Impossible as error:
            raise _impossible(error) from error
        headers = [*_content(media_type, content), *headers]
        await _send(200, headers, b"" if scope["method"] == "HEAD" else content, send)


calculation = Calculation
lookup = Lookup


def _content(media_type: str, content: bytes) -> tuple[tuple[bytes, bytes], tuple[bytes, bytes]]:
    return (b"content-type", media_type.encode()), (b"content-length", b"%d" % len(content))


async def _send(status: int, headers: list[tuple[bytes, bytes]], content: bytes, send: Send) -> None:
    await send({"type": "http.response.start", "status": status, "headers": headers})
    await send({"type": "http.response.body", "body": content, "more_body": False})


_EDITION: Final = f"{RULES} {__version__}".encode()


def _tag(path: str, media_type: str, request: tuple[Any, ...]) -> bytes:
    said = b"\0".join((_EDITION, path.encode(), media_type.encode(), encode(request)))
    return b'"%s"' % blake2b(said, digest_size=12).hexdigest().encode()


def _names(condition: bytes, tag: bytes) -> bool:
    """Whether `If-None-Match` names the tag, compared weakly (RFC 9110, 13.1.2)."""
    if condition == tag:
        return True
    return tag in [one.strip().removeprefix(b"W/") for one in condition.split(b",")]


def _impossible(error: Impossible) -> Refusal:
    """What cannot be knitted, where it was asked for by parameters and not by a body."""
    name = error.pointer.removeprefix("#/").partition("/")[0]
    fault = Fault(detail=error.detail, parameter=name)
    return Refusal("cannot-be-knitted", error.detail, fault, nearest=error.nearest)
