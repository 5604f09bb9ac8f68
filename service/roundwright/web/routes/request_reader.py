"""Strict reading of a request: a body or parameters as a struct, or a problem that points to the fault.

When an object of a body has the same name twice, the last value counts, as in most JSON parsers (RFC 8259, 4).
"""

import re
from collections.abc import Callable, Mapping
from functools import cached_property
from typing import Any, Final
from urllib.parse import parse_qsl

import msgspec
from litestar.types import Receive
from msgspec import UNSET

from roundwright.web.problems import Fault, FaultCode, ProblemError
from roundwright.web.routes.flat_parameters import (
    Parameter,
    flat_schema,
    nearest_parameter,
    nested,
    parameters_of,
    read_text,
)
from roundwright.web.routes.request_faults import fault_of_refusal, faults_of

MAX_DEPTH: Final = 32
"""Nesting of objects and lists: a request for hats has six levels, a written round seldom ten."""

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
            raise self._refused(body, error) from error
        except msgspec.DecodeError as error:
            raise malformed(
                f"{error}.{_hint(body, str(error))}" if body else "The body is empty. Send one JSON object."
            ) from error
        except UnicodeDecodeError as error:
            raise malformed(
                "The body is not UTF-8. Save or send the text as UTF-8, not as Latin-1 or UTF-16."
            ) from error
        except RecursionError as error:
            raise malformed("The body is nested too deeply.") from error
        return data

    def _refused(self, body: bytes, error: msgspec.ValidationError) -> ProblemError:
        """The error for a body that is JSON and not as described."""
        try:
            _require_flat(body)
            faults = faults_of(msgspec.json.decode(body), msgspec.json.schema, self.request_type)
            return invalid(faults or (fault_of_refusal(str(error)),))
        except RecursionError:
            return malformed("The body is nested too deeply.")
        except (msgspec.DecodeError, UnicodeDecodeError):  # further on
            return invalid((fault_of_refusal(str(error)),))

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
    def parameters(self) -> Mapping[str, Parameter]:
        """The parameters, by name."""
        return parameters_of(self.request_type) or {}

    def read(self, query: bytes, path: Mapping[str, Any]) -> tuple[Any, ...]:
        """The arguments of the function: a struct, or nothing. Raises `ProblemError` naming the parameter."""
        values = dict(path)
        if query:
            for name, text in parse_qsl(query.decode("latin-1"), keep_blank_values=True):
                known = self.parameters.get(name)
                value = text if known is None else read_text(known, text)
                if name not in values:
                    values[name] = value
                elif known is not None and known.form == "list":
                    values[name] += value
                else:
                    raise bad_parameter(name, f"This is given twice: give {name!r} once.", "given_twice")
        try:
            request = nested(self.request_type, values)
            return (self._convert(request),) if self.request_type else ()
        except msgspec.ValidationError as error:
            faults = faults_of(values, flat_schema, self.request_type)
            refusal = str(error)
        if faults:
            raise self._refused(faults, path)
        raise self._incomplete(request, values, refusal)

    def _refused(self, faults: tuple[Fault, ...], path: Mapping[str, Any]) -> ProblemError:
        """The error for parameters that are not as described; what the path names is not found."""
        named = tuple(map(_of_parameter, faults))
        if missing := [fault for fault in named if fault.parameter in path]:
            return ProblemError("not-found", missing[0].detail, *missing)
        return invalid(named)

    def _incomplete(self, request: dict[str, Any], values: Mapping[str, Any], refusal: str) -> ProblemError:
        """The error for a parameter that another must stand beside, which the document cannot say."""
        faults = faults_of(request, msgspec.json.schema, self.request_type) or (fault_of_refusal(refusal),)
        missing = nearest_parameter(self.request_type, str(faults[0].pointer))
        parameter = self.parameters[missing]
        outer = parameter.path[:-1]
        beside = [name for name in values if self.parameters[name].path[: len(outer)] == outer]
        examples = parameter.schema.get("examples", ())
        such_as = f", such as {missing}={examples[0]}" if examples else ""
        code: FaultCode
        if beside:
            code, needed = "needs_another", f"is needed beside {beside[0]!r}"
        else:
            code, needed = "not_given", "is needed"
        detail = f"The parameter {missing!r} {needed}{such_as}."
        fault = Fault(code=code, detail=detail, parameter=missing)
        return ProblemError("cannot-be-knitted", detail, fault, nearest=f"`{missing}` as well{such_as}")

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
            "Send the body as JSON, with the header `Content-Type: application/json`.",
            headers=((b"accept", b"application/json"),),
        )
    if headers.get(b"content-encoding", b"identity") != b"identity":
        raise ProblemError(
            "unsupported-media-type",
            "Send the body as it is, not compressed, without the header `Content-Encoding`.",
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
        "malformed-json",
        reason,
        Fault(code="malformed", detail=reason, pointer="#"),
    )


def _hint(body: bytes, refusal: str) -> str:
    """What a body that is not JSON was probably meant as; empty where it cannot be told."""
    if body.startswith((b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff")):
        return " It begins with a byte order mark: send UTF-8 without it."
    if body.lstrip()[:1] == b"{" and b'"' not in body and b"'" in body:
        return " Names and texts stand between double quotation marks."
    if _DECIMAL_COMMA.search(body):
        return " Is there a decimal comma? JSON has a decimal point: 14.5."
    if "truncated" in refusal:
        return " It ends too early: it is cut off, or a closing bracket is missing."
    if "trailing comma" in refusal:
        return " Leave out the comma before the closing bracket."
    place = _BYTE.search(refusal)
    at = body[int(place[1]) :] if place else b""
    return next((hint for start, hint in _AT_BYTE.items() if at.startswith(start)), "")


_DECIMAL_COMMA: Final = re.compile(rb'":\s{0,9}-?[0-9]{1,9},[0-9]')
_BYTE: Final = re.compile(r"\(byte (\d+)\)")
_AT_BYTE: Final[Mapping[tuple[bytes, ...], str]] = {
    (
        b"NaN",
        b"nan",
        b"Infinity",
        b"-Infinity",
        b"undefined",
    ): " JSON has no NaN, no Infinity and no undefined: send a number, or leave the field out.",
    (b"True", b"False", b"None"): " JSON writes true, false and null.",
    (b"/", b"#"): " JSON has no comments: leave them out.",
    (
        b"'",
        b"\xe2\x80\x98",
        b"\xe2\x80\x9c",
        b"\xe2\x80\x9d",
        b"\xe2\x80\x9e",
    ): ' Names and texts stand between straight double quotation marks: ".',
}
"""What stands where a body stops being JSON, and what to write there."""


def bad_parameter(name: str, detail: str, code: FaultCode = "unknown_field") -> ProblemError:
    """The error for a parameter that is unknown or not valid."""
    return ProblemError("invalid-request", detail, Fault(detail=detail, parameter=name, code=code))


def invalid(faults: tuple[Fault, ...]) -> ProblemError:
    """The error for a request that is not as described; its detail is the first fault, and how many there are."""
    more = f" {len(faults) - 1} more in `errors`." if len(faults) > 1 else ""
    return ProblemError("invalid-request", _with_place(faults[0]) + more, *faults)


def _with_place(fault: Fault) -> str:
    """What a fault says, with its place in place of "This"."""
    if not fault.detail.startswith("This "):
        return fault.detail
    place = fault.parameter if fault.parameter is not UNSET else str(fault.pointer).removeprefix("#/")
    steps = re.sub(r"/(\d+)(?=/|$)", r"[\1]", place).replace("/", ".")
    return f"{'The body' if place == '#' else repr(steps)} {fault.detail.removeprefix('This ')}"


def _of_parameter(fault: Fault) -> Fault:
    """The fault of a field as the fault of the parameter with its name."""
    name = str(fault.pointer).removeprefix("#/").partition("/")[0].replace("~1", "/").replace("~0", "~")
    detail = fault.detail.replace("field", "parameter", 1).replace("The fields here", "The parameters here")
    return Fault(detail=detail, parameter=name, code=fault.code)


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
