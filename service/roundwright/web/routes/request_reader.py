"""Strict reading of a request: a body or parameters as a struct, or a problem that points to the fault.

When an object of a body has the same name twice, the last value counts, as in most JSON parsers (RFC 8259, 4).
"""

import re
from collections.abc import Callable, Mapping
from functools import cache, cached_property
from typing import Any, Final
from urllib.parse import parse_qsl

import msgspec
from litestar.types import Receive

from roundwright.web.problems import Fault, ProblemError, shortened

MAX_DEPTH: Final = 32
"""Nesting of objects and lists: a request for hats has six levels, a written round seldom ten."""

MAX_NAME: Final = 100
"""Characters of an unknown name that the problem repeats."""

encode: Final = msgspec.json.Encoder().encode


class BodyReader:
    """Reads bodies as a struct."""

    def __init__(self, request_type: Any) -> None:
        self.request_type = request_type

    @cached_property
    def decode(self) -> Callable[[bytes], Any]:
        """The decoder, made when the first body is read."""
        return msgspec.json.Decoder(self.request_type).decode

    def read(self, body: bytes) -> Any:
        """The body as a struct. Raises `ProblemError` with a pointer to the first fault."""
        try:
            data = self._decode(body)
            _require_flat(body)
        except msgspec.ValidationError as error:
            fault = fault_of(error, self.request_type)
            raise ProblemError("invalid-request", fault.detail, fault) from error
        except msgspec.DecodeError as error:
            raise malformed(f"{error}." if body else "it is empty. Send one JSON object.") from error
        except UnicodeDecodeError as error:
            raise malformed("it is not UTF-8.") from error
        except RecursionError as error:
            raise malformed("it is nested too deeply.") from error
        return data

    def _decode(self, body: bytes) -> Any:
        try:
            return self.decode(body)
        except msgspec.ValidationError as error:
            # In JSON Schema, and so in the OpenAPI document, 2.0 is an integer.
            if "got `float`" not in str(error):
                raise
        return msgspec.convert(_integral(msgspec.json.decode(body)), self.request_type)


class ParameterReader:
    """Reads the parameters of a path and a query as a struct, or rejects all of them if the operation has none."""

    def __init__(self, request_type: Any) -> None:
        self.request_type = request_type

    @cached_property
    def scalars(self) -> frozenset[str]:
        """The names of the parameters that are numbers or booleans."""
        fields = msgspec.structs.fields(self.request_type) if self.request_type else ()
        return frozenset(field.encode_name for field in fields if _is_number_or_boolean(field.type))

    def read(self, query: bytes, path: Mapping[str, Any]) -> tuple[Any, ...]:
        """The arguments of the function: a struct, or nothing. Raises `ProblemError` naming the parameter."""
        values = dict(path)
        if query:
            for name, text in parse_qsl(query.decode("latin-1"), keep_blank_values=True):
                if name in values:
                    raise bad_parameter(name, "This parameter was given twice.")
                values[name] = _scalar(text) if name in self.scalars else text
        if self.request_type is None:
            for name in values:
                raise bad_parameter(name, f"Unknown parameter {shortened(name, MAX_NAME)!r}.")
            return ()
        try:
            return (self._convert(values),)
        except msgspec.ValidationError as error:
            fault = fault_of(error, self.request_type)
        name = str(fault.pointer).removeprefix("#/").partition("/")[0]
        detail = fault.detail.replace("field", "parameter", 1)
        if name in path:
            raise ProblemError("not-found", detail, Fault(detail=detail, parameter=name))
        raise bad_parameter(name, detail)

    def _convert(self, values: dict[str, Any]) -> Any:
        try:
            return msgspec.convert(values, self.request_type)
        except msgspec.ValidationError as error:
            if "got `float`" not in str(error):
                raise
        return msgspec.convert(_integral(values), self.request_type)


async def receive_body(headers: Mapping[bytes, bytes], receive: Receive, limit: int) -> bytes:
    """The whole body. Raises `ProblemError` as soon as `Content-Length` or the bytes received exceed the limit."""
    content_length = headers.get(b"content-length", b"")
    if content_length.isdigit() and int(content_length) > limit:
        raise _too_large(limit)
    message: Any = await receive()
    body: bytes = message.get("body", b"")
    if len(body) <= limit and message["type"] == "http.request" and not message.get("more_body"):
        return body
    parts = [body]
    size = len(body)
    while size <= limit and message.get("more_body"):
        message = await receive()
        parts.append(message.get("body", b""))
        size += len(parts[-1])
    if size > limit:
        raise _too_large(limit)
    if message["type"] != "http.request":
        raise ProblemError("bad-message", "The connection was closed before the whole body was received.")
    return b"".join(parts)


def require_json(headers: Mapping[bytes, bytes]) -> None:
    """Raise `ProblemError` unless the headers declare JSON without a content coding."""
    media_type = headers.get(b"content-type", b"")
    if media_type != b"application/json" and not _JSON_TYPE.fullmatch(media_type):
        raise ProblemError(
            "unsupported-media-type",
            "Send the body as application/json.",
            headers=((b"accept", b"application/json"),),
        )
    if headers.get(b"content-encoding", b"identity") != b"identity":
        raise ProblemError(
            "unsupported-media-type",
            "Send the body without a content coding.",
            headers=((b"accept-encoding", b"identity"),),
        )


_JSON_TYPE: Final = re.compile(rb'application/json\s*(?:;\s*charset\s*=\s*"?utf-8"?\s*)?', re.IGNORECASE)


def require_no_query(query: bytes) -> None:
    """Raise `ProblemError` for a query where the body is the whole request."""
    if query:
        name = re.split("[=&]", query.decode("latin-1"))[0]
        raise bad_parameter(name, "This address has no parameters; send everything in the JSON body.")


def malformed(reason: str) -> ProblemError:
    """The error for a body that is not JSON."""
    return ProblemError(
        "malformed-json", f"The body cannot be read: {reason}", Fault(detail=reason, pointer="#")
    )


def bad_parameter(name: str, detail: str) -> ProblemError:
    """The error for a parameter that is unknown or not valid."""
    return ProblemError("invalid-request", detail, Fault(detail=detail, parameter=name))


def _too_large(limit: int) -> ProblemError:
    return ProblemError("content-too-large", f"This operation reads bodies of up to {limit} bytes.")


# Values.


def _require_flat(body: bytes) -> None:
    """Raise `RecursionError` for more than `MAX_DEPTH` levels; few bodies have enough brackets to be decoded again."""
    if body.count(b"[") + body.count(b"{") > MAX_DEPTH and _deeper_than(MAX_DEPTH, msgspec.json.decode(body)):
        raise RecursionError


def _deeper_than(levels: int, value: Any) -> bool:
    if not isinstance(value, (dict, list)):
        return False
    inner = value.values() if isinstance(value, dict) else value
    return levels == 0 or any(_deeper_than(levels - 1, item) for item in inner)


def _integral(value: Any) -> Any:
    """The value with whole floats as integers."""
    if isinstance(value, float) and value.is_integer():
        return int(value)
    if isinstance(value, list):
        return [_integral(item) for item in value]
    if isinstance(value, dict):
        return {name: _integral(item) for name, item in value.items()}
    return value


def _is_number_or_boolean(hint: Any) -> bool:
    kinds = [msgspec.inspect.type_info(hint)]
    for kind in kinds:
        if isinstance(kind, msgspec.inspect.Metadata):
            kinds.append(kind.type)
        elif isinstance(kind, msgspec.inspect.UnionType):
            kinds.extend(kind.types)
    return any(isinstance(kind, _SCALARS) for kind in kinds)


_SCALARS: Final = (msgspec.inspect.IntType, msgspec.inspect.FloatType, msgspec.inspect.BoolType)
_SCALAR: Final = re.compile(r"-?(?:0|[1-9][0-9]{0,30})(?:\.[0-9]{1,30})?(?:[eE][+-]?[0-9]{1,3})?|true|false")


def _scalar(text: str) -> Any:
    """The number or boolean that a text spells in JSON, otherwise the text itself."""
    if not _SCALAR.fullmatch(text):
        return text
    try:
        return msgspec.json.decode(text)
    except msgspec.DecodeError:  # out of the range of a float
        return text


# The messages of msgspec, and the same in plain words. A message ends with its place: "... - at `$.gauge.stitches`".

_PLACE: Final = re.compile(r" - at (?:`key` in )?`\$(?P<path>.*)`\Z", re.DOTALL)
_STEP: Final = re.compile(r"\.([^.\[]+)|\[(\d+)\]|\[\.\.\.\]")
_MISSING: Final = re.compile(r"Object missing required field `(.*)`", re.DOTALL)
_UNKNOWN: Final = re.compile(r"Object contains unknown field `(.*)`", re.DOTALL)
_BOUND: Final = re.compile(
    r"Expected `(?P<type>\w+)`(?P<length> of length)? (?P<relation>>=|<=|>|<) (?P<bound>\S+)"
)
_TYPE: Final = re.compile(r"Expected `(?P<expected>[^`]*)`(?:, got `(?P<got>[^`]*)`)?")
_WORDS: Final = {
    "int": "a whole number", "float": "a number", "str": "text", "bool": "true or false", "null": "null",
    "object": "an object", "array": "a list",
}  # fmt: skip
_COUNTED: Final = {"str": (" character", " characters"), "array": (" entry", " entries")}
_RELATIONS: Final = {">=": "at least", "<=": "at most", ">": "more than", "<": "less than"}


def fault_of(error: msgspec.ValidationError, request_type: Any) -> Fault:
    """The fault a validation error of `request_type` reports, in plain words, with its place as a JSON pointer."""
    text = str(error)
    place = _PLACE.search(text)
    message = text[: place.start()] if place else text
    steps = [name or index or "*" for name, index in _STEP.findall(place["path"])] if place else []
    if missing := _MISSING.fullmatch(message):
        steps.append(missing[1])
        detail = f"The field {missing[1]!r} is required."
    elif unknown := _UNKNOWN.fullmatch(message):
        steps.append(unknown[1])
        detail = f"Unknown field {shortened(unknown[1], MAX_NAME)!r}."
    elif bound := _BOUND.fullmatch(message):
        singular, plural = _COUNTED.get(bound["type"], ("", "")) if bound["length"] else ("", "")
        noun = singular if bound["bound"] == "1" else plural
        detail = f"This must be {_RELATIONS[bound['relation']]} {bound['bound']}{noun}."
    elif message.startswith("Invalid "):
        choices = _choices(request_type, tuple(steps))
        detail = "This value is not valid." + (f" Valid values: {', '.join(choices)}." if choices else "")
    elif types := _TYPE.fullmatch(message):
        got = "a fraction" if types["got"] == "float" else _in_words(types["got"] or "")
        contrast = f", not {got}" if got else ""
        detail = f"This must be {_in_words(types['expected'])}{contrast}."
    else:
        detail = f"{message}."
    return Fault(detail=detail, pointer="#" + "".join(f"/{_escape(step)}" for step in steps))


def _in_words(types: str) -> str:
    return " or ".join(_WORDS.get(name, name) for name in types.split(" | "))


def _escape(step: str) -> str:
    return step.replace("~", "~0").replace("/", "~1")


def _choices(request_type: Any, steps: tuple[str, ...]) -> tuple[str, ...]:
    """The closed set of values at a place, from the schema of the request; empty for other places."""
    root = _schema(request_type)
    here = _alternatives(root, root)
    for step in steps:
        inner = [part.get("properties", {}).get(step) or part.get("items") for part in here]
        here = [part for schema in inner if schema for part in _alternatives(root, schema)]
    return tuple(dict.fromkeys(str(value) for part in here for value in part.get("enum", ())))


@cache
def _schema(request_type: Any) -> dict[str, Any]:
    return msgspec.json.schema(request_type)


def _alternatives(root: dict[str, Any], schema: dict[str, Any]) -> list[dict[str, Any]]:
    if name := schema.get("$ref", "").removeprefix("#/$defs/"):
        schema = root["$defs"][name]
    if "anyOf" in schema:
        return [part for inner in schema["anyOf"] for part in _alternatives(root, inner)]
    return [schema]
