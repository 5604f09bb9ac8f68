"""How an operation is declared, and how it is answered.

An operation is an ordinary handler of Litestar's: it is routed by Litestar, its errors pass through Litestar, and its
signature says what it takes and gives. The exchange itself - reading one struct, calling one function, writing one
answer - is done here in place of Litestar's general machinery, which is lax about types, knows neither HEAD nor 304,
and costs several times as much as the calculation of most answers.

    @calculation("/v1/gauge/convert", id="convertGauge", tag="Gauge", summary="...", example="gauge-convert")
    def convert_gauge(request: ConvertRequest) -> ConvertAnswer:
        return gauge.convert(request)

`calculation` is a POST of one JSON body; `lookup` is a GET (and HEAD) whose path and query parameters are the fields of
one struct, cacheable by its `ETag`. Everything else about an operation is an argument: in which forms its answer can
be given, how large a body it reads, which example the description shows.
"""

import json
import re
from collections.abc import Callable, Mapping
from hashlib import blake2b
from pathlib import Path
from typing import Any, Final, get_type_hints
from urllib.parse import parse_qsl

import msgspec
from litestar import Litestar
from litestar.datastructures.headers import Accept
from litestar.handlers import HTTPRouteHandler
from litestar.types import Receive, Scope, Send

from roundwright import __version__
from roundwright.knitting.answers import RULES, Impossible
from roundwright.problems import Fault, Refusal, fault_of, impossible_parameter, malformed
from roundwright.settings import Settings

JSON: Final = "application/json"
NESTED: Final = 32
"""Objects and lists inside one another: a hat has six, a written-out round seldom ten."""

Form = Callable[[Any], bytes]
"""Writes an answer in one media type."""

EXAMPLES: Final = Path(__file__).parent / "requests"

encode: Final[Form] = msgspec.json.Encoder().encode


class Operation(HTTPRouteHandler):
    """A handler that answers by itself once Litestar has found it.

    `id` is the name client generators give it, `example` the file in `requests/` with an example of what it takes,
    `forms` the media types its answer can be given in (the first is the default), `links` what of the answer leads
    to which operation, `parts` structs that its schema refers to by name. An operation without an `id` is left out of the OpenAPI document.
    """

    method: str

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
        answer_description: str = "The answer.",
    ) -> None:
        methods = [self.method, "OPTIONS", *(["HEAD"] if self.method == "GET" else [])]
        super().__init__(path, http_method=methods, status_code=200, sync_to_thread=False, name=id)  # type: ignore[arg-type]
        self.id = id
        self.tag = tag
        self.summary = summary
        self.example = example
        self.forms: Mapping[str, Form] = forms or {JSON: encode}
        self.links = links or {}
        self.parts = parts
        self.answer_description = answer_description
        self.more_headers = [(name.encode(), value.encode()) for name, value in (headers or {}).items()]
        self.allow = ", ".join(sorted(methods)).encode()
        if len(self.forms) > 1:
            self.more_headers.append((b"vary", b"Accept"))

    def __call__(self, fn: Callable[..., Any]) -> "Operation":
        """Take the function, and with it what it takes and gives."""
        super().__call__(fn)
        hints = get_type_hints(fn, include_extras=True)
        self.gives: Any = hints.pop("return")
        self.takes: Any = next(iter(hints.values()), None)
        return self

    @property
    def path(self) -> str:
        """The path as declared, with the types of its parameters."""
        return next(iter(self.paths))

    def on_registration(self, app: Litestar) -> None:
        """Litestar's hook: the application, and with it the settings, are known."""
        super().on_registration(app)
        self.prepare(app.state.settings)

    def prepare(self, settings: Settings) -> None:
        """Take over what the settings say."""

    def resolve_middleware(self) -> list[Any]:
        """Litestar's hook: what stands between its router and its own way of calling the handler. All of it."""
        return [lambda app: self.exchange]  # noqa: ARG005 - the app left out is Litestar's general way

    def create_kwargs_model(self, path_parameters: Any) -> Any:
        """Litestar's hook for its own way of calling the handler, which is not used."""

    async def exchange(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        raise NotImplementedError

    def example_value(self) -> Any:
        """The example of what the operation takes, as JSON values; empty where it takes nothing."""
        if self.example is None:
            return {}
        return msgspec.json.decode((EXAMPLES / f"{self.example}.json").read_bytes())

    def example_answer(self) -> Any:
        """The answer to the example, calculated now, as JSON values."""
        arguments = () if self.takes is None else (msgspec.convert(self.example_value(), self.takes),)
        return msgspec.json.decode(encode(self._fn(*arguments)))

    def form_for(self, headers: Mapping[bytes, bytes]) -> tuple[str, Form]:
        """The media type asked for, and how it is written."""
        forms = self.forms
        if len(forms) == 1:
            return next(iter(forms.items()))
        accept = headers.get(b"accept", b"*/*").decode("latin-1")
        chosen = Accept(accept).best_match(list(forms))
        if chosen is None:
            raise Refusal("not-acceptable", f"The answer can be given as {', '.join(forms)}.")
        return chosen, forms[chosen]


class Calculation(Operation):
    """A POST: one JSON body in, one answer out, nothing kept."""

    method = "POST"

    def __init__(self, path: str, *, takes_text: bool = False, **declared: Any) -> None:
        super().__init__(path, **declared)
        self.takes_text = takes_text
        self.fixed_headers = [(b"cache-control", b"no-store"), *self.more_headers]

    def __call__(self, fn: Callable[..., Any]) -> "Calculation":
        """Take the function, and prepare to decode what it takes."""
        super().__call__(fn)
        self.decode = msgspec.json.Decoder(self.takes).decode
        return self

    def prepare(self, settings: Settings) -> None:
        """Take over the limit on the body."""
        self.body_bytes = settings.text_body_bytes if self.takes_text else settings.body_bytes

    async def exchange(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Read the body, calculate, answer."""
        if scope["method"] == "OPTIONS":  # type: ignore[typeddict-item]
            await _send_options(self.allow, send)
            return
        headers = dict(scope["headers"])
        media_type, form = self.form_for(headers)
        _require_no_query(scope)
        _require_json(headers)
        data = self.read(await _body(headers, receive, self.body_bytes))
        body = form(self._fn(data))  # type: ignore[arg-type]
        await _send_body(media_type, self.fixed_headers, body, send)

    def read(self, body: bytes) -> Any:
        """The struct a body holds, strictly; raises `Refusal`."""
        if not body:
            raise malformed("it is empty. Send one JSON object.")
        try:
            data = self._decode(body)
            _require_plain(body)
        except msgspec.ValidationError as error:
            fault = fault_of(error, self.takes)
            raise Refusal("invalid-request", fault.detail, fault) from error
        except msgspec.DecodeError as error:
            raise malformed(f"{error}.") from error
        except UnicodeDecodeError as error:
            raise malformed("it is not UTF-8.") from error
        except RecursionError as error:
            raise malformed("it is nested too deeply.") from error
        return data

    def _decode(self, body: bytes) -> Any:
        try:
            return self.decode(body)
        except msgspec.ValidationError as error:
            # To JSON Schema, and so to the published description, 2.0 is an integer.
            if "got `float`" not in str(error):
                raise
        return msgspec.convert(_integral(msgspec.json.decode(body)), self.takes)


class Lookup(Operation):
    """A GET: the same address gives the same bytes until the rules change, so caches may keep them.

    The `ETag` is a hash of the rules, the release, the path and the parameters as understood; a caller who has it
    gets 304 without a calculation.
    """

    method = "GET"

    def __init__(
        self, path: str, *, cached: bool = True, can_be_impossible: bool = False, **declared: Any
    ) -> None:
        super().__init__(path, **declared)
        self.cached = cached
        self.can_be_impossible = can_be_impossible

    def __call__(self, fn: Callable[..., Any]) -> "Lookup":
        """Take the function, and prepare to read what it takes."""
        super().__call__(fn)
        fields = msgspec.structs.fields(self.takes) if self.takes else ()
        self.typed = frozenset(field.encode_name for field in fields if _is_number_or_truth(field.type))
        return self

    def prepare(self, settings: Settings) -> None:
        """Take over how long caches may keep an answer."""
        age = f"public, max-age={settings.max_age_s}" if self.cached else "no-store"
        self.fixed_headers = [(b"cache-control", age.encode()), *self.more_headers]

    async def exchange(self, scope: Scope, receive: Receive, send: Send) -> None:  # noqa: ARG002 - nothing to read
        """Read the parameters; answer, or say that nothing has changed."""
        if scope["method"] == "OPTIONS":  # type: ignore[typeddict-item]
            await _send_options(self.allow, send)
            return
        headers = dict(scope["headers"])
        media_type, form = self.form_for(headers)
        given = self.read(scope["query_string"], scope["path_params"])
        fixed = self.fixed_headers
        if self.cached:
            tag = _tag(scope["path"], media_type, given)
            fixed = [(b"etag", tag), *fixed]
            if b"if-none-match" in headers and _matches(headers[b"if-none-match"], tag):
                await _send_unchanged(fixed, send)
                return
        try:
            answer = self._fn(*given)
        except Impossible as error:
            raise impossible_parameter(error) from error
        body = form(answer)
        await _send_body(media_type, fixed, body, send, head=scope["method"] == "HEAD")  # type: ignore[typeddict-item]

    def read(self, query: bytes, path: Mapping[str, Any]) -> tuple[Any, ...]:
        """The struct the parameters make, strictly, as the arguments of the function; raises `Refusal`."""
        values = dict(path)
        if query:
            for name, text in parse_qsl(
                query.decode("latin-1"), keep_blank_values=True, errors="surrogateescape"
            ):
                if name in values:
                    raise _bad_parameter(name, f"The parameter {name} was given twice.")
                values[name] = _scalar(text) if name in self.typed else text
        if self.takes is None:
            for name in values:
                raise _bad_parameter(name, f"There is no parameter {name!r} here.")
            return ()
        try:
            return (self._convert(values),)
        except msgspec.ValidationError as error:
            fault = fault_of(error, self.takes)
        name = fault.pointer.removeprefix("#/").partition("/")[0]  # type: ignore[union-attr]
        detail = fault.detail.replace("field", "parameter")
        if name in path:
            raise Refusal("not-found", detail, Fault(detail=detail, parameter=name))
        raise _bad_parameter(name, detail)

    def _convert(self, values: dict[str, Any]) -> Any:
        try:
            return msgspec.convert(values, self.takes)
        except msgspec.ValidationError as error:
            if "got `float`" not in str(error):
                raise
        return msgspec.convert(_integral(values), self.takes)


calculation = Calculation
lookup = Lookup


# Reading.


async def _body(headers: Mapping[bytes, bytes], receive: Receive, limit: int) -> bytes:
    """The whole body; refused as soon as it is announced or seen to be over the limit."""
    announced = headers.get(b"content-length", b"")
    if announced.isdigit() and int(announced) > limit:
        raise _too_large(limit)
    message: Any = await receive()
    body: bytes = message.get("body", b"")
    if len(body) > limit:
        raise _too_large(limit)
    if not message.get("more_body"):
        return body
    parts = [body]
    size = len(body)
    while message.get("more_body"):
        message = await receive()
        parts.append(message.get("body", b""))
        size += len(parts[-1])
        if size > limit:
            raise _too_large(limit)
    if message["type"] == "http.disconnect":
        raise Refusal("bad-message", "The connection was closed before the whole body had come.")
    return b"".join(parts)


def _too_large(limit: int) -> Refusal:
    return Refusal("content-too-large", f"This operation reads bodies of up to {limit} bytes.")


def _require_json(headers: Mapping[bytes, bytes]) -> None:
    media_type = headers.get(b"content-type", b"")
    if media_type != b"application/json" and not _JSON_TYPE.fullmatch(media_type):
        raise Refusal(
            "unsupported-media-type",
            "Send the body as application/json.",
            headers=((b"accept", b"application/json"),),
        )
    if headers.get(b"content-encoding", b"identity") != b"identity":
        raise Refusal(
            "unsupported-media-type",
            "Send the body without a content coding.",
            headers=((b"accept-encoding", b"identity"),),
        )


_JSON_TYPE: Final = re.compile(rb'application/json\s*(?:;\s*charset\s*=\s*"?utf-8"?\s*)?', re.IGNORECASE)


def _require_no_query(scope: Scope) -> None:
    if query := scope["query_string"]:
        name = query.decode("latin-1").partition("=")[0].partition("&")[0]
        raise _bad_parameter(name, "A calculation takes all it needs from the body; there are no parameters.")


def _bad_parameter(name: str, detail: str) -> Refusal:
    name = name.encode("utf-8", "replace").decode()
    return Refusal("invalid-request", detail, Fault(detail=detail, parameter=name))


def _require_plain(body: bytes) -> None:
    """Refuse a name given twice in one object, and nesting beyond reason.

    msgspec keeps the last of two members of one name. Reading the body into plain objects and writing it again loses
    the others, and with each its colon; escapes could hide a colon, so a body with any is read name by name.
    """
    if b"\\" in body:
        value = json.loads(body, object_pairs_hook=_once)
    else:
        value = msgspec.json.decode(body)
        if encode(value).count(b":") != body.count(b":"):
            value = json.loads(body, object_pairs_hook=_once)
    if body.count(b"[") + body.count(b"{") > NESTED and _deeper_than(NESTED, value):
        raise RecursionError


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    value = dict(pairs)
    if len(value) != len(pairs):
        names = [name for name, _ in pairs]
        twice = next(name for name in names if names.count(name) > 1)
        raise malformed(f"the name {twice!r} is given twice in one object.")
    return value


def _deeper_than(levels: int, value: Any) -> bool:
    if not isinstance(value, (dict, list)):
        return False
    inner = value.values() if isinstance(value, dict) else value
    return levels == 0 or any(_deeper_than(levels - 1, one) for one in inner)


def _integral(value: Any) -> Any:
    """The value with every float that is a whole number as an int."""
    if isinstance(value, float) and value.is_integer():
        return int(value)
    if isinstance(value, list):
        return [_integral(one) for one in value]
    if isinstance(value, dict):
        return {name: _integral(one) for name, one in value.items()}
    return value


def _is_number_or_truth(hint: Any) -> bool:
    kind = msgspec.inspect.type_info(hint)
    kinds = kind.types if isinstance(kind, msgspec.inspect.UnionType) else (kind,)
    plain = (msgspec.inspect.IntType, msgspec.inspect.FloatType, msgspec.inspect.BoolType)
    return any(isinstance(one, plain) for one in kinds)


_SCALAR: Final = re.compile(r"-?(?:0|[1-9][0-9]{0,18})(?:\.[0-9]{1,18})?(?:[eE][+-]?[0-9]{1,3})?|true|false")


def _scalar(text: str) -> Any:
    """The number or truth value a parameter spells; the text itself where it spells neither."""
    if not _SCALAR.fullmatch(text):
        return text
    try:
        return json.loads(text) if text in ("true", "false") else msgspec.json.decode(text)
    except msgspec.DecodeError:
        return text


# Answering.


def _tag(path: str, media_type: str, given: tuple[Any, ...]) -> bytes:
    told = b"\0".join((_EDITION, path.encode(), media_type.encode(), encode(given)))
    return b'"' + blake2b(told, digest_size=12).hexdigest().encode() + b'"'


_EDITION: Final = f"{RULES} {__version__}".encode()


def _matches(condition: bytes, tag: bytes) -> bool:
    """Whether `If-None-Match` names the tag, compared weakly (RFC 9110, 13.1.2)."""
    if condition == tag:
        return True
    return tag in [one.strip().removeprefix(b"W/") for one in condition.split(b",")]


async def _send_body(
    media_type: str, fixed: list[tuple[bytes, bytes]], body: bytes, send: Send, *, head: bool = False
) -> None:
    headers = [
        (b"content-type", media_type.encode()),
        (b"content-length", b"%d" % len(body)),
        *fixed,
    ]
    await send({"type": "http.response.start", "status": 200, "headers": headers})  # type: ignore[typeddict-item]
    await send({"type": "http.response.body", "body": b"" if head else body, "more_body": False})


async def _send_unchanged(fixed: list[tuple[bytes, bytes]], send: Send) -> None:
    await send({"type": "http.response.start", "status": 304, "headers": fixed})  # type: ignore[typeddict-item]
    await send({"type": "http.response.body", "body": b"", "more_body": False})


async def _send_options(allow: bytes, send: Send) -> None:
    await send({"type": "http.response.start", "status": 204, "headers": [(b"allow", allow)]})  # type: ignore[typeddict-item]
    await send({"type": "http.response.body", "body": b"", "more_body": False})
