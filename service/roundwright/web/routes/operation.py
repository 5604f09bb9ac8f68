"""Declaring an operation, and answering its requests.

A decorator declares an operation; the signature of its function holds the types of the request and the answer.
Litestar routes by path and method and runs the operation as a middleware of the route (`handler`). Reading the request,
calling the function and writing the answer are done here and not by Litestar, which is lax about types, supports
neither HEAD nor 304, and costs more than most calculations.

    @calculation("/v1/gauge/convert", id="convertGauge", tag="Gauge", summary="...", example="gauge-convert")
    def convert_gauge(request: gauge.ConvertRequest) -> gauge.ConvertAnswer:
        return gauge.convert(request)

`calculation` is a POST of one JSON body. `lookup` is a GET (and HEAD) whose path and query parameters are the fields of
one struct, cacheable by its `ETag`. A calculation with `by_query` has both forms (`query_form`).
"""

from collections.abc import Callable, Iterable, Mapping
from copy import copy
from functools import lru_cache
from hashlib import blake2b
from inspect import cleandoc
from pathlib import Path
from typing import Any, Final, NamedTuple, Self, cast, get_type_hints
from urllib.parse import parse_qsl, urlencode

import msgspec
from litestar.handlers import HTTPRouteHandler
from litestar.types import ASGIApp, HTTPScope, Method, Receive, Send

from roundwright import __version__
from roundwright.knitting.answers import RULES, Impossible
from roundwright.language import ENGLISH, Words
from roundwright.language.words import ENGLISH_WORDS
from roundwright.web.problems import Fault, Headers, ProblemError
from roundwright.web.routes.answer_language import encode_answer, in_its_language, with_language_warning
from roundwright.web.routes.content_negotiation import best_language, best_media_type
from roundwright.web.routes.deadline import within
from roundwright.web.routes.flat_parameters import nearest_parameter
from roundwright.web.routes.request_reader import (
    BodyReader,
    ParameterReader,
    encode,
    receive_body,
    require_json,
    require_no_query,
)
from roundwright.web.routes.typesetter import Typesetter, is_installed
from roundwright.web.settings import Settings

JSON: Final = "application/json"
HTML: Final = "text/html; charset=utf-8"
EXAMPLES: Final = Path(__file__).parent / "requests"

CACHE_SIZE: Final = 128
"""Size of the cache of parsed GET requests."""
MAX_CACHED_QUERY: Final = 512
"""Bytes of a query whose result is cached; the queries that pages and caches repeat are shorter."""

Renderer = Callable[[Any, Words], bytes]
"""Writes an answer in one media type and in the words of one language."""


class Operation:
    """An operation of the service, declared once; every application uses a copy with its own settings.

    - `id`: the `operationId` of OpenAPI; an operation without an id is not in the document
    - `example`: the file in `requests/` with an example request
    - `renderers`: the media types of the answer and the functions that write them, the default first; JSON if omitted
    - `otherwise`: the media type where `Accept` excludes all of them; if omitted, that is an error
    - `headers`: additional headers of the answer
    - `links`: the Link Objects of OpenAPI, by name
    - `parts`: structs that the schema of the answer refers to by name
    """

    methods: tuple[Method, ...]
    missing = ""
    """Said where no media type of the answer is acceptable."""

    def __init__(
        self,
        path: str,
        *,
        id: str | None = None,
        tag: str = "",
        summary: str = "",
        example: str | None = None,
        renderers: Mapping[str, Renderer] | None = None,
        otherwise: str | None = None,
        headers: Mapping[str, str] | None = None,
        links: Mapping[str, Any] | None = None,
        parts: tuple[Any, ...] = (),
    ) -> None:
        self.path = path
        self.template = path.replace(":str}", "}")
        self.id = id
        self.tag = tag
        self.summary = summary
        self.example = example
        self.renderers: Mapping[str, Renderer] = renderers or {JSON: encode_answer}
        self.otherwise = otherwise
        self.own_headers = [(name.encode(), value.encode()) for name, value in (headers or {}).items()]
        self.links = links or {}
        self.parts = parts

    def __call__(self, fn: Callable[..., Any]) -> Self:
        """Keep the function, and read the types of the request and the answer from its signature."""
        hints = get_type_hints(fn, include_extras=True)
        answer_type = hints.pop("return")
        return self.declare(fn, next(iter(hints.values()), None), answer_type)

    def declare(self, fn: Callable[..., Any], request_type: Any, answer_type: Any) -> Self:
        """Keep the function and its types."""
        self.calculate = fn
        self.request_type = request_type
        self.answer_type = answer_type
        self.has_language = "language" in getattr(self.request_type, "__struct_fields__", ())
        varies = [b"Accept"] * (len(self.renderers) > 1) + [b"Accept-Language"] * self.has_language
        # The headers of a form are those of its POST, which may vary by more.
        self.own_headers = [line for line in self.own_headers if line[0] != b"vary"]
        if varies:
            self.own_headers.append((b"vary", b", ".join(varies)))
        return self

    def with_settings(self, settings: Settings, typesetter: Typesetter) -> Self:
        """A copy for an application with these settings."""
        prepared = copy(self)
        prepared.prepare(settings, typesetter)
        return prepared

    def handler(self) -> HTTPRouteHandler:
        """The handler for Litestar's router; its middleware answers, so that its function is never called."""

        def middleware(app: ASGIApp) -> ASGIApp:  # noqa: ARG001 - the name is Litestar's
            return cast("ASGIApp", self.answer)

        return HTTPRouteHandler(
            self.path,
            http_method=self.methods,
            status_code=200,
            sync_to_thread=False,
            middleware=[middleware],
        )(_never_called)

    def prepare(self, settings: Settings, typesetter: Typesetter) -> None:
        """Apply the settings."""
        raise NotImplementedError

    async def exchange(self, scope: HTTPScope, receive: Receive, send: Send) -> None:
        """Read, calculate and answer."""
        raise NotImplementedError

    @property
    def allowed(self) -> tuple[Method, ...]:
        """The methods that the address of the operation answers."""
        return self.methods

    async def answer(self, scope: HTTPScope, receive: Receive, send: Send) -> None:
        """Answer a request of any allowed method."""
        if scope["method"] == "OPTIONS":
            allow = ", ".join(sorted(self.allowed)).encode()
            await send_answer(204, [(b"allow", allow)], b"", send)
        else:
            await self.exchange(scope, receive, send)

    def negotiate(self, headers: Mapping[bytes, bytes]) -> tuple[str, Renderer]:
        """The media type the caller prefers, and its renderer; `Accept` is ignored where there is only one."""
        renderers = self.renderers
        if len(renderers) == 1:
            return next(iter(renderers.items()))
        chosen = (
            best_media_type(headers.get(b"accept", b"*/*").decode("latin-1"), renderers) or self.otherwise
        )
        if chosen is None:
            available = ", ".join(renderers) or "another file"
            raise ProblemError("not-acceptable", f"The answer is available as {available}.{self.missing}")
        return chosen, renderers[chosen]

    @property
    def description(self) -> str:
        """What the operation does, for the document."""
        return cleandoc(self.calculate.__doc__ or "")

    def in_language(self, request: Any, headers: Mapping[bytes, bytes]) -> tuple[Any, Words]:
        """The request with the language of its answer, and the words of that language."""
        if not self.has_language:
            return request, ENGLISH_WORDS
        return in_its_language(request, self.preferred_language(headers))

    def preferred_language(self, headers: Mapping[bytes, bytes]) -> str:
        """The language of an answer in words that the caller prefers."""
        return (
            best_language(headers.get(b"accept-language", b"").decode("latin-1"))
            if self.has_language
            else ENGLISH
        )

    def content_language(self, codes: Iterable[str]) -> list[tuple[bytes, bytes]]:
        """The header that names the language of an answer in words."""
        return [(b"content-language", ", ".join(codes).encode())] if self.has_language else []

    def example_value(self) -> Any:
        """The example request as JSON values; empty for an operation without one."""
        if self.example is None:
            return {}
        return msgspec.json.decode((EXAMPLES / f"{self.example}.json").read_bytes())

    def example_answer(self) -> Any:
        """The answer to the example request."""
        if self.request_type is None:
            return self.calculate()
        return self.calculate(msgspec.convert(self.example_value(), self.request_type))

    def read_example(self) -> tuple[Any, ...]:
        """The example request as it is read when it is sent: the arguments of the function."""
        raise NotImplementedError

    def warm(self) -> None:
        """Read the example and write its answer in every media type: no caller then waits for what is done once."""
        answer = self.calculate(*self.read_example())
        for render in self.renderers.values():
            render(answer, ENGLISH_WORDS)


class Calculation(Operation):
    """A POST with a JSON body; the answer is not cached.

    - `by_query`: where the request has a form as parameters, so that there is a GET beside the POST (`query_form`): the
      file with an example of it
    - `files`: media types that have an address of their own (`file_form`), by the suffix of the address
    - `file_name`: what such a file is called, by the request
    - `takes_text`: the body may contain a written pattern, so the limit on its size is larger
    - `typeset`: the media type whose renderer writes data for the typesetter, which makes the PDF
    """

    methods = ("POST", "OPTIONS")

    def __init__(
        self,
        path: str,
        *,
        by_query: str | None = None,
        files: Mapping[str, str] | None = None,
        file_name: Callable[[Any], str] | None = None,
        takes_text: bool = False,
        typeset: str | None = None,
        **declared: Any,
    ) -> None:
        super().__init__(path, **declared)
        self.by_query = by_query
        self.files = files or {}
        self.file_name = file_name
        self.takes_text = takes_text
        self.typeset = typeset

    @property
    def allowed(self) -> tuple[Method, ...]:
        """POST, and GET where the request has a form as parameters."""
        return (*self.methods, "GET", "HEAD") if self.by_query else self.methods

    def prepare(self, settings: Settings, typesetter: Typesetter) -> None:
        """Apply the limit on the body; leave PDFs out where nothing makes them."""
        if self.typeset and not is_installed():
            self.renderers = {name: render for name, render in self.renderers.items() if name != self.typeset}
            self.missing = f" For {self.typeset} the service has to be installed as `roundwright[pdf]`."
        self.typesetter = typesetter
        self.body_bytes = settings.text_body_bytes if self.takes_text else settings.body_bytes
        self.headers = [(b"cache-control", b"no-store"), *self.own_headers]
        self.reader = BodyReader(self.request_type)

    def read_example(self) -> tuple[Any, ...]:
        """The example as a body."""
        return (self.reader.read(msgspec.json.encode(self.example_value())),)

    async def exchange(self, scope: HTTPScope, receive: Receive, send: Send) -> None:
        """Read the body, calculate, answer."""
        headers = dict(scope["headers"])
        media_type, render = self.negotiate(headers)
        body = await self.receive(scope, receive)
        if media_type == self.typeset:
            self.typesetter.require_capacity()  # before the calculation
        content, words, more = self.content(body, headers, render)
        if media_type == self.typeset:
            content = await self.typesetter.typeset(content, receive)
        await self.send(media_type, content, words.tags, send, more)

    async def receive(self, scope: HTTPScope, receive: Receive) -> bytes:
        """The body."""
        headers = dict(scope["headers"])
        require_no_query(scope["query_string"])
        require_json(headers)
        return await receive_body(headers, receive, self.body_bytes)

    def content(self, body: bytes, headers: Mapping[bytes, bytes], render: Renderer) -> "Written":
        """The answer to a body, written by a renderer."""
        with within:
            request = self.reader.read(body)
            requested = request.language if self.has_language else None
            request, words = self.in_language(request, headers)
            content = render(with_language_warning(self.calculate(request), requested), words)
            return Written(content, words, self.headers_of(request))

    def headers_of(self, request: Any) -> Headers:  # noqa: ARG002 - for files, which have a name
        """Headers of the answer to this request alone."""
        return ()

    async def send(
        self, media_type: str, content: bytes, languages: Iterable[str], send: Send, more: Headers = ()
    ) -> None:
        """Send an answer."""
        headers = [*_content(media_type, content), *self.content_language(languages), *self.headers, *more]
        await send_answer(200, headers, content, send)


class Written(NamedTuple):
    """An answer, the words it is written in, and headers of its own."""

    content: bytes
    words: Words
    headers: Headers


class Parsed(NamedTuple):
    """A parsed query: the arguments of the function, the language it names, the words of the answer, the `ETag`."""

    request: tuple[Any, ...]
    requested: str | None
    words: Words
    tag: bytes


class Lookup(Operation):
    """A GET: the same address has the same answer until the rules or the release change, so caches may keep it.

    The `ETag` is a hash of the rules, the release, the path and the parsed parameters; a caller who sends it gets 304
    without a calculation. `cached=False`: the answer may change at any moment. `can_be_impossible`: the parameters may
    describe something that cannot be knitted.
    """

    methods: tuple[Method, ...] = ("GET", "HEAD", "OPTIONS")

    def __init__(
        self, path: str, *, cached: bool = True, can_be_impossible: bool = False, **declared: Any
    ) -> None:
        super().__init__(path, **declared)
        self.cached = cached
        self.can_be_impossible = can_be_impossible

    def prepare(self, settings: Settings, typesetter: Typesetter) -> None:  # noqa: ARG002 - no PDFs
        """Apply the settings for caches."""
        # A shared cache must not give callers without a key what needs one.
        cache_scope = "private" if settings.keys or settings.keys_file else "public"
        keep = f"{cache_scope}, max-age={settings.max_age_s}" if self.cached else "no-store"
        self.headers = [(b"cache-control", keep.encode()), *self.own_headers]
        self.reader = ParameterReader(self.request_type)
        self.parse_cached: Callable[..., Parsed] = lru_cache(maxsize=CACHE_SIZE)(self.parse)

    def parse(
        self,
        path: str,
        query: bytes,
        parameters: tuple[tuple[str, str], ...],
        media_type: str,
        preferred: str,
    ) -> Parsed:
        """A query as the arguments of the function."""
        with within:
            request = self.reader.read(self.prepared(query, media_type), dict(parameters))
        requested, words = None, ENGLISH_WORDS
        if self.has_language:
            requested = request[0].language
            in_language, words = in_its_language(request[0], preferred)
            request = (in_language,)
        return Parsed(request, requested, words, _tag(path, media_type, (*request, requested)))

    def read_example(self) -> tuple[Any, ...]:
        """The example as parameters, those of the path among them."""
        example = {
            name: str(value).lower() if isinstance(value, bool) else value
            for name, value in self.example_value().items()
        }
        return self.reader.read(urlencode(example, doseq=True).encode(), {})

    def prepared(self, query: bytes, media_type: str) -> bytes:  # noqa: ARG002 - of a page some of it
        """The query as it is read, for an answer of a type."""
        return query

    async def exchange(self, scope: HTTPScope, receive: Receive, send: Send) -> None:
        """Read the parameters; answer with the calculation, or with 304."""
        sent = dict(scope["headers"])
        media_type, render = self.negotiate(sent)
        query = scope["query_string"]
        parse = self.parse_cached if len(query) <= MAX_CACHED_QUERY else self.parse
        parameters = tuple(scope["path_params"].items())
        request, requested, words, tag = parse(
            scope["path"], query, parameters, media_type, self.preferred_language(sent)
        )
        headers = [*self.content_language(words.tags), *self.headers]
        condition = sent.get(b"if-none-match", b"").strip() if self.cached else b""
        if self.cached:
            headers = [(b"etag", tag), *headers]
            if _matches(condition, tag):
                await send_answer(304, headers, b"", send)
                return
        try:
            with within:
                content = render(with_language_warning(self.calculate(*request), requested), words)
        except Impossible as error:
            raise self.impossible(error) from error
        if condition == b"*":  # whatever there is (RFC 9110, 13.1.2): only now is it known that there is
            await send_answer(304, headers, b"", send)
            return
        content = await self.file(content, receive)
        headers = [*_content(media_type, content), *headers]
        await send_answer(200, headers, b"" if scope["method"] == "HEAD" else content, send)

    async def file(self, content: bytes, receive: Receive) -> bytes:  # noqa: ARG002 - for those that need it
        """What is sent of the content."""
        return content

    def impossible(self, error: Impossible) -> ProblemError:
        """The problem of an `Impossible` raised for parameters instead of a body."""
        name = nearest_parameter(self.request_type, error.pointer)
        fault = Fault(code=error.code, detail=error.detail, parameter=name)
        return ProblemError("cannot-be-knitted", error.detail, fault, nearest=error.nearest)


class PageLookup(Lookup):
    """A GET that browsers open, too: a page ignores parameters that others have added to a shared link."""

    def prepared(self, query: bytes, media_type: str) -> bytes:
        """The query; of a page without parameters that others have added."""
        if media_type != HTML:
            return query
        fields = parse_qsl(query.decode("latin-1"))
        return urlencode([field for field in fields if not self.is_foreign(field[0])]).encode()

    def is_foreign(self, name: str) -> bool:
        """Whether the page has no such parameter."""
        return name not in self.reader.parameters


calculation = Calculation
lookup = Lookup


def _never_called() -> None:
    """The function of every Litestar handler; the middleware answers before it is called."""


def _content(media_type: str, content: bytes) -> tuple[tuple[bytes, bytes], tuple[bytes, bytes]]:
    return (b"content-type", media_type.encode()), (b"content-length", b"%d" % len(content))


async def send_answer(status: int, headers: list[tuple[bytes, bytes]], content: bytes, send: Send) -> None:
    """Send an answer in one piece."""
    await send({"type": "http.response.start", "status": status, "headers": headers})
    await send({"type": "http.response.body", "body": content, "more_body": False})


_VERSIONS: Final = f"{RULES} {__version__}".encode()


def _tag(path: str, media_type: str, request: tuple[Any, ...]) -> bytes:
    content = b"\0".join((_VERSIONS, path.encode(), media_type.encode(), encode(request)))
    return b'"%s"' % blake2b(content, digest_size=12).hexdigest().encode()


def _matches(condition: bytes, tag: bytes) -> bool:
    """Whether `If-None-Match` holds the tag, compared weakly (RFC 9110, 13.1.2)."""
    if condition == tag:
        return True
    return tag in [part.strip().removeprefix(b"W/") for part in condition.split(b",")]
