"""Every error a caller can get, as problem details (RFC 9457).

What is raised, and the problem it becomes::

    Exception                            500  internal-error
     +-- Refusal                              the problem it names: 404, 406, 413, 415, 429, 503 ...
     +-- msgspec.DecodeError             400  malformed-json
     |    +-- msgspec.ValidationError    400  invalid-request
     +-- knitting.answers.Impossible     422  cannot-be-knitted
     +-- litestar.HTTPException
          +-- NotFoundException          404  not-found
          +-- MethodNotAllowedException  405  method-not-allowed, with `Allow`

400 contradicts the published description of the operation, 422 agrees with it and still cannot be knitted.
"""

import re
from functools import cache
from typing import Annotated, Any, Final

import msgspec
from litestar.exceptions import HTTPException
from msgspec import UNSET, Meta, Struct, UnsetType

from roundwright.knitting.answers import Impossible

MEDIA_TYPE: Final = "application/problem+json"


class Kind(Struct, frozen=True):
    """A kind of problem: what is constant about it, and what its page says."""

    slug: str
    status: int
    title: str
    meaning: str


KINDS: Final = {
    kind.slug: kind
    for kind in (
        Kind(
            "malformed-json", 400, "The body is not JSON",
            "The body could not be read as one JSON value in UTF-8 with each name once. Nothing was calculated.",
        ),
        Kind(
            "invalid-request", 400, "The request is not as described",
            "A field or parameter is missing, unknown, of another type or out of its bounds. `errors` names each by a "
            "JSON pointer into the body, or by the name of the parameter. The description is at /openapi.json and, "
            "to read, at /docs.",
        ),
        Kind(
            "bad-message", 400, "The message is not HTTP",
            "The bytes received are not a request that HTTP/1.1 allows. The connection was closed.",
        ),
        Kind(
            "not-found", 404, "There is nothing at this address",
            "The path, or the table named in it, does not exist. The addresses are listed at /docs.",
        ),
        Kind(
            "method-not-allowed", 405, "This address is asked in another way",
            "The address exists but not for this method. The header `Allow` lists those that work: calculations are "
            "POST, look-ups and pictures are GET and HEAD.",
        ),
        Kind(
            "not-acceptable", 406, "There is no such form of the answer",
            "None of the media types in `Accept` can be given. `detail` lists those that can.",
        ),
        Kind(
            "content-too-large", 413, "The body is too large",
            "The body is larger than this operation reads. `detail` says how much it reads.",
        ),
        Kind(
            "unsupported-media-type", 415, "The body is in another form than JSON",
            "Calculations read a body of the media type application/json, without a content coding.",
        ),
        Kind(
            "cannot-be-knitted", 422, "This cannot be knitted",
            "The request is well-formed, and what it asks for cannot be worked. `errors` says which field stands in the "
            "way and `nearest` what comes closest to it and works.",
        ),
        Kind(
            "header-too-large", 431, "The header is too large",
            "The request line and header together are longer than this service reads. The connection was closed.",
        ),
        Kind(
            "internal-error", 500, "Something went wrong here",
            "A fault of the service, not of the request. It was logged under the identifier in the header `Request-Id`.",
        ),
        Kind(
            "overloaded", 503, "Too much is going on",
            "More requests are in hand than this process takes on. Every operation may be repeated: try again after the "
            "seconds in `Retry-After`.",
        ),
    )
}  # fmt: skip


class Fault(Struct, frozen=True, kw_only=True, omit_defaults=True):
    """One thing that is wrong with a request."""

    detail: Annotated[str, Meta(description="What is wrong, in a sentence.")]
    pointer: Annotated[
        str | UnsetType, Meta(description="JSON pointer into the body, as a fragment: `#/gauge/stitches`.")
    ] = UNSET
    parameter: Annotated[str | UnsetType, Meta(description="Name of the parameter in the path or query.")] = (
        UNSET
    )


class Problem(Struct, frozen=True, kw_only=True, omit_defaults=True):
    """Problem details (RFC 9457)."""

    type: Annotated[
        str, Meta(description="What kind of problem it is: a path of this service with a page about it.")
    ]
    title: Annotated[str, Meta(description="The kind in words, always the same for a type.")]
    status: Annotated[int, Meta(ge=400, le=599, description="The status of the answer.")]
    detail: Annotated[str, Meta(description="What is wrong with this request.")]
    instance: Annotated[str, Meta(description="The path that was asked.")]
    errors: Annotated[
        tuple[Fault, ...], Meta(description="Where in the request it is; empty where no place can be named.")
    ]
    nearest: Annotated[
        str | UnsetType, Meta(description="The nearest thing that can be knitted, where there is one.")
    ] = UNSET


class Refusal(Exception):  # noqa: N818 - said to the caller, not to a programmer
    """A request that is refused: the slug of its problem, what is wrong, where, and header lines to go with it."""

    def __init__(
        self, slug: str, detail: str, *faults: Fault, headers: tuple[tuple[bytes, bytes], ...] = ()
    ) -> None:
        super().__init__(detail)
        self.slug = slug
        self.detail = detail
        self.faults = faults
        self.headers = headers


def describe(error: Exception, path: str) -> tuple[Problem, tuple[tuple[bytes, bytes], ...]]:
    """The problem an exception becomes for a request of `path`, and the header lines that go with it."""
    nearest: str | UnsetType = UNSET
    refusal = _refusal(error)
    if isinstance(error, Impossible) and error.nearest is not None:
        nearest = error.nearest
    kind = KINDS[refusal.slug]
    problem = Problem(
        type=f"/problems/{kind.slug}",
        title=kind.title,
        status=kind.status,
        detail=refusal.detail,
        instance=path,
        errors=refusal.faults,
        nearest=nearest,
    )
    return problem, refusal.headers


def _refusal(error: Exception) -> Refusal:
    match error:
        case Refusal():
            return error
        case Impossible():
            return Refusal(
                "cannot-be-knitted", error.detail, Fault(detail=error.detail, pointer=error.pointer)
            )
        case msgspec.ValidationError():
            fault = fault_of(error, None)
            return Refusal("invalid-request", fault.detail, fault)
        case msgspec.DecodeError():
            return malformed(str(error))
        case HTTPException(status_code=404):
            return Refusal("not-found", "There is nothing at this path. The addresses are listed at /docs.")
        case HTTPException(status_code=405, headers=headers):
            allow = ", ".join(sorted((headers or {}).get("allow", "").split(", ")))
            return Refusal(
                "method-not-allowed",
                f"This address answers {allow}.",
                headers=((b"allow", allow.encode()),),
            )
        case HTTPException(status_code=status, detail=detail) if 400 <= status < 500:
            return Refusal("bad-message", detail)
        case _:
            return Refusal("internal-error", "Something went wrong on our side. The fault was logged.")


def malformed(reason: str) -> Refusal:
    """A body that is not JSON, and why."""
    return Refusal(
        "malformed-json",
        f"The body is not JSON that can be read: {reason}",
        Fault(detail=reason, pointer="#"),
    )


def impossible_parameter(error: Impossible) -> Refusal:
    """What cannot be knitted, where it was asked for by parameters instead of a body."""
    parameter = error.pointer.removeprefix("#/").partition("/")[0]
    return Refusal("cannot-be-knitted", error.detail, Fault(detail=error.detail, parameter=parameter))


# What msgspec says, and how a knitter is told. The place is in the message's tail: "... - at `$.gauge.stitches`".

_PLACE: Final = re.compile(r"(?: of the key in| in)? - at (?:`key` in )?`\$(?P<path>.*)`\Z", re.DOTALL)
_STEP: Final = re.compile(r"\.([^.\[]+)|\[(\d+)\]|\[\.\.\.\]")
_MISSING: Final = re.compile(r"Object missing required field `(.*)`", re.DOTALL)
_UNKNOWN: Final = re.compile(r"Object contains unknown field `(.*)`", re.DOTALL)
_GOT: Final = re.compile(r"Expected `(?P<wanted>[^`]*)`(?:, got `(?P<got>[^`]*)`)?")
_BOUND: Final = re.compile(
    r"Expected `(?P<type>\w+)`(?P<length> of length)? (?P<relation>>=|<=|>|<) (?P<bound>\S+)"
)
_WORDS: Final = {
    "int": "a whole number", "float": "a number", "str": "text", "bool": "true or false", "null": "nothing (null)",
    "object": "an object", "array": "a list",
}  # fmt: skip
_RELATIONS: Final = {">=": "at least", "<=": "at most", ">": "more than", "<": "less than"}
_COUNTED: Final = {"str": "characters", "array": "entries", "object": "entries"}


def fault_of(error: msgspec.ValidationError, wanted: Any) -> Fault:
    """What a validation error says, in a knitter's words and with its place as a JSON pointer.

    `wanted` is the type that was decoded; with it, a value outside a closed set is told what the set is.
    """
    text = str(error)
    place = _PLACE.search(text)
    steps = [name or index or "*" for name, index in _STEP.findall(place["path"])] if place else []
    message = text[: place.start()] if place else text
    if missing := _MISSING.fullmatch(message):
        steps.append(missing[1])
        detail = f"The field {missing[1]} is needed here and was left out."
    elif unknown := _UNKNOWN.fullmatch(message):
        steps.append(unknown[1])
        detail = f"There is no field {unknown[1]!r} here."
    elif bound := _BOUND.fullmatch(message):
        counted = f" {_COUNTED[bound['type']]}" if bound["length"] else ""
        detail = f"This must be {_RELATIONS[bound['relation']]} {bound['bound']}{counted}."
    elif message.startswith("Invalid "):
        choices = _choices(wanted, tuple(steps)) if wanted is not None else ()
        among = f" It is one of {', '.join(choices)}." if choices else ""
        detail = f"This value is not known here.{among}"
    elif got := _GOT.fullmatch(message):
        detail = f"This must be {_in_words(got['wanted'])}"
        detail += f", not {_in_words(got['got'])}." if got["got"] else "."
    else:
        detail = f"{message}."
    return Fault(detail=detail, pointer="#" + "".join(f"/{_escape(step)}" for step in steps))


def _in_words(types: str) -> str:
    return " or ".join(_WORDS.get(name, name) for name in types.split(" | "))


def _escape(step: str) -> str:
    return step.replace("~", "~0").replace("/", "~1")


@cache
def _schema(wanted: Any) -> dict[str, Any]:
    return msgspec.json.schema(wanted)


def _choices(wanted: Any, steps: tuple[str, ...]) -> tuple[str, ...]:
    """The closed set of values at a place, from the schema of the whole; empty where there is none."""
    root = _schema(wanted)
    here = [root]
    for step in (*steps, None):
        alternatives = [part for schema in here for part in _alternatives(root, schema)]
        if step is None:
            return tuple(dict.fromkeys(str(value) for part in alternatives for value in part.get("enum", ())))
        inner = [part.get("properties", {}).get(step) or part.get("items") for part in alternatives]
        here = [part for part in inner if part]
    return ()


def _alternatives(root: dict[str, Any], schema: dict[str, Any]) -> list[dict[str, Any]]:
    if name := schema.get("$ref", "").removeprefix("#/$defs/"):
        schema = root["$defs"][name]
    if "anyOf" in schema:
        return [part for inner in schema["anyOf"] for part in _alternatives(root, inner)]
    return [schema]
