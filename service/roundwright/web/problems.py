"""Every error a caller can get, as problem details (RFC 9457).

Exceptions, and the problems they become::

    Exception                              500  internal-error
     +-- ProblemError                                the problem it names
     +-- knitting.answers.Impossible       422  cannot-be-knitted
     +-- litestar.HTTPException
          +-- NotFoundException            404  not-found
          +-- MethodNotAllowedException    405  method-not-allowed, with `Allow`
          +-- any other below 500          400  bad-message

400 contradicts the published description of the operation and is found while the request is read
(`routes.request_reader`); 422 agrees with it and still cannot be knitted, which `knitting` finds.
"""

import re
from collections.abc import Iterable, Mapping
from difflib import get_close_matches
from typing import Annotated, Final, Literal

from litestar.exceptions import HTTPException
from msgspec import UNSET, Meta, Struct, UnsetType

from roundwright.knitting.answers import IMPOSSIBLE_CODES, Impossible, ImpossibleCode, Suggestion

MEDIA_TYPE: Final = "application/problem+json"

MAX_MEANT: Final = 100
"""Characters of a wrong name that are compared with the names there are; no name is longer."""

MAX_TEXT: Final = 2_000
"""Characters of a text in a problem: our own texts have up to 1,500, a name in a request may have 100,000."""


class ProblemType(Struct, frozen=True):
    """The constant part of a problem, and the text of its page."""

    slug: str
    status: int
    title: str
    meaning: str


PROBLEM_TYPES: Final = {
    kind.slug: kind
    for kind in (
        ProblemType(
            "malformed-json", 400, "The body is not JSON",
            "The body could not be read as one JSON value in UTF-8. Nothing was calculated.",
        ),
        ProblemType(
            "invalid-request", 400, "The request is not as described",
            "A field or parameter is missing, unknown, of another type or out of its bounds. `errors` says where, by a "
            "JSON pointer into the body or by the name of the parameter, for every fault up to twenty. "
            "The description is at /openapi.json and, to read, at /docs.",
        ),
        ProblemType(
            "bad-message", 400, "The message is not HTTP",
            "The bytes received are not a request that HTTP/1.1 allows.",
        ),
        ProblemType(
            "key-needed", 401, "A key is needed",
            "This service needs a key: `Authorization: Bearer` and the key. Ask whoever runs the service for one.",
        ),
        ProblemType(
            "not-found", 404, "There is nothing at this address",
            "The path, or the table named in it, does not exist. The addresses are listed at /docs.",
        ),
        ProblemType(
            "method-not-allowed", 405, "The method is not allowed here",
            "The address exists, but not for this method. The header `Allow` lists those that work: calculations are "
            "POST, look-ups and pictures are GET and HEAD.",
        ),
        ProblemType(
            "not-acceptable", 406, "The answer is not available in this form",
            "The answer is available in none of the media types in `Accept`. `detail` lists those that are.",
        ),
        ProblemType(
            "too-slow", 408, "The request was not complete in time",
            "The bytes of the request stopped, or came too slowly. The connection was closed.",
        ),
        ProblemType(
            "content-too-large", 413, "The body is too large",
            "The body is larger than this operation reads. `detail` says how much it reads.",
        ),
        ProblemType(
            "unsupported-media-type", 415, "The body is not sent as JSON",
            "Calculations read a body of the media type application/json, without a content coding.",
        ),
        ProblemType(
            "wrong-host", 421, "This service is not that host",
            "The request names a host this service was not set up to answer for.",
        ),
        ProblemType(
            "cannot-be-knitted", 422, "This cannot be knitted",
            "The request is well-formed, and what it asks for cannot be worked. `errors` says which field stands in "
            "the way, with a code, and `nearest`, where there is one, what comes closest to the first and works. The "
            "heads of all `sizes` are looked at together; other faults are told one at a time.",
        ),
        ProblemType(
            "too-long", 422, "This takes too long to calculate",
            "The calculation was stopped, so that other callers need not wait. Sent again unchanged it would be "
            "stopped again; `detail` says how long a calculation may take.",
        ),
        ProblemType(
            "too-many-requests", 429, "Too many requests of one caller",
            "The caller sends more requests than the proxy before this service allows. Wait the seconds in "
            "`Retry-After`.",
        ),
        ProblemType(
            "header-too-large", 431, "The header is too large",
            "The request line and header together are longer than this service reads. The connection was closed.",
        ),
        ProblemType(
            "internal-error", 500, "Something went wrong here",
            "A fault of the service, not of the request. It was logged under the id in the header `Request-Id`.",
        ),
        ProblemType(
            "overloaded", 503, "Too much is going on",
            "More requests are in flight than this process accepts. Every operation may be repeated: try again after "
            "the seconds in `Retry-After`.",
        ),
        ProblemType(
            "stopping", 503, "This process is about to stop",
            "It finishes the requests in flight and should be sent no more; another process takes over.",
        ),
    )
}  # fmt: skip


FaultCode = Literal[
    "missing_field", "unknown_field", "unknown_value", "wrong_type", "wrong_form", "wrong_length", "out_of_range",
    "given_twice", "malformed", "invalid", ImpossibleCode,
]  # fmt: skip


Address = Annotated[str, Meta(extra_json_schema={"format": "uri-reference"})]


class Fault(Struct, frozen=True, kw_only=True, omit_defaults=True):
    """A fault in a request."""

    code: Annotated[
        FaultCode,
        Meta(
            description="The kind of fault, for programs. Of what cannot be knitted: "
            + "; ".join(f"`{code}`: {meaning}" for code, meaning in IMPOSSIBLE_CODES.items())
            + "."
        ),
    ]
    detail: Annotated[str, Meta(description="What is wrong, in a sentence, and what it may have meant.")]
    pointer: Annotated[
        str | UnsetType, Meta(description="JSON pointer into the body, as a fragment: `#/gauge/stitches`.")
    ] = UNSET
    parameter: Annotated[str | UnsetType, Meta(description="Name of the parameter in the path or query.")] = (
        UNSET
    )
    suggestion: Annotated[
        Suggestion | UnsetType,
        Meta(description="A change of the body with which this fault is gone, where one can be calculated."),
    ] = UNSET


class Problem(Struct, frozen=True, kw_only=True, omit_defaults=True):
    """Problem details (RFC 9457)."""

    type: Annotated[
        Address, Meta(description="What kind of problem: a path of this service with a page about it.")
    ]
    title: Annotated[str, Meta(description="The kind in words, always the same for a type.")]
    status: Annotated[int, Meta(ge=400, le=599, description="The status of the answer.")]
    detail: Annotated[str, Meta(description="What is wrong with this request.")]
    instance: Annotated[str, Meta(description="The path of the request.")]
    errors: Annotated[
        tuple[Fault, ...],
        Meta(
            description="Where in the request it is; empty where no place can be named. Of `invalid-request` up to 20 "
            "faults; of `cannot-be-knitted` those of the heads of all `sizes`, and one at a time of anything else."
        ),
    ]
    nearest: Annotated[
        str | UnsetType, Meta(description="The nearest thing that can be knitted, where there is one.")
    ] = UNSET


PROBLEM: Final = "roundwright.problem"
"""Key of a request's state under which its problem is found by the log, where a page was the answer."""

Headers = tuple[tuple[bytes, bytes], ...]


class ProblemError(Exception):
    """A request that is rejected: type and detail of the problem, its faults, the nearest that works, and headers."""

    def __init__(
        self, slug: str, detail: str, *faults: Fault, nearest: str | None = None, headers: Headers = ()
    ) -> None:
        super().__init__(detail)
        self.slug = slug
        self.detail = detail
        self.faults = faults
        self.nearest = nearest
        self.headers = headers


def to_problem(error: Exception, path: str, addresses: Iterable[str] = ()) -> tuple[Problem, Headers]:
    """The problem an exception becomes for a request of `path`, and the headers that go with it.

    Where nothing is at the path, the nearest of the `addresses` is named.
    """
    known = _known(error, path, addresses)
    kind = PROBLEM_TYPES[known.slug]
    problem = Problem(
        type=f"/problems/{kind.slug}",
        title=kind.title,
        status=kind.status,
        detail=shortened(known.detail),
        instance=shortened(path),
        errors=tuple(map(_shortened_fault, known.faults)),
        nearest=UNSET if known.nearest is None else known.nearest,
    )
    return problem, known.headers


def did_you_mean(name: str, names: Iterable[str]) -> str:
    """The name that was probably meant, as a sentence that begins with a blank; empty where none is near."""
    plain = {_plain(known): known for known in names}
    if (same := same_meaning(name, plain)) is not None:
        near = [same]
    else:
        near = get_close_matches(_plain(name[:MAX_MEANT]), plain, n=1, cutoff=0.65)
    return f" Perhaps {plain[near[0]]!r} is meant." if near else ""


def same_meaning(name: str, names: Iterable[str]) -> str | None:
    """The one of the names that is another word for a name, or that name in another spelling; None without one."""
    names = list(names)
    words = (_plain(name[:MAX_MEANT]), *_SAME_MEANING.get(_plain(name[:MAX_MEANT]), ()))
    return next((word for word in words if word in names), None)


_SAME_MEANING: Final[Mapping[str, tuple[str, ...]]] = {
    **dict.fromkeys(("female", "f", "women", "womens", "lady", "ladies"), ("woman", "girl")),
    **dict.fromkeys(("male", "m", "men", "mens", "gentleman", "gents"), ("man", "boy")),
    **dict.fromkeys(("adult", "grownup"), ("woman",)),
    **dict.fromkeys(("newborn", "infant"), ("baby",)),
    **dict.fromkeys(("preemie", "preterm", "premature"), ("premie",)),
    **dict.fromkeys(("rib", "ribbing"), ("ribbed",)),
    **dict.fromkeys(("cuff", "turnup"), ("folded", "cuffed")),
    **dict.fromkeys(
        ("centimeter", "centimeters", "centimetre", "centimetres", "zentimeter", "cms"), ("cm", "metric")
    ),
    **dict.fromkeys(("millimeter", "millimeters", "millimetre", "millimetres", "mms"), ("mm", "metric")),
    **dict.fromkeys(("inch", "inches", "ins", "zoll", "us"), ("in", "imperial")),
    **dict.fromkeys(("meter", "meters", "metre", "metres", "mtr"), ("m", "metric")),
    **dict.fromkeys(("yard", "yards", "yds"), ("yd", "imperial")),
    **dict.fromkeys(("gram", "grams", "gramm", "gr", "gms"), ("g",)),
    **dict.fromkeys(("kilogram", "kilograms", "kilo", "kgs"), ("kg",)),
    **dict.fromkeys(("ounce", "ounces", "ozs"), ("oz",)),
    **dict.fromkeys(("pound", "pounds", "lbs"), ("lb",)),
    **dict.fromkeys(("cm", "mm", "g", "si"), ("metric",)),
    **dict.fromkeys(("in", "yd", "oz", "uk"), ("imperial",)),
    **dict.fromkeys(("gauge", "tension", "sts"), ("gaugestitches", "stitches")),
    **{
        f"v1drawings{name}{form}": (f"v1drawingsprofile{form}",)
        for name in ("hat", "hats")
        for form in ("svg", "png")
    },
    **dict.fromkeys(("black", "night"), ("dark",)),
    **dict.fromkeys(("white", "day"), ("light",)),
}
"""Words by which a caller calls what has another name here (common practice)."""


def _plain(name: str) -> str:
    """A name without what camelCase, kebab-case and capitals add."""
    return re.sub(r"[^a-z0-9]", "", name.lower())


def shortened(text: str, limit: int = MAX_TEXT) -> str:
    """A text of at most `limit` characters; a longer one is cut, with an ellipsis."""
    return text if len(text) <= limit else text[: limit - 1] + "…"


def _shortened_fault(fault: Fault) -> Fault:
    return Fault(
        code=fault.code,
        detail=shortened(fault.detail),
        pointer=UNSET if fault.pointer is UNSET else shortened(fault.pointer),
        parameter=UNSET if fault.parameter is UNSET else shortened(fault.parameter),
        suggestion=fault.suggestion,
    )


def _fault(error: Impossible) -> Fault:
    suggestion = UNSET if error.suggestion is None else error.suggestion
    return Fault(code=error.code, detail=error.detail, pointer=error.pointer, suggestion=suggestion)


def _known(error: Exception, path: str, addresses: Iterable[str]) -> ProblemError:
    match error:
        case ProblemError():
            return error
        case Impossible(detail=detail, nearest=nearest):
            faults = map(_fault, (error, *error.also))
            return ProblemError("cannot-be-knitted", detail, *faults, nearest=nearest)
        case HTTPException(status_code=404):
            meant = did_you_mean(path, addresses)
            return ProblemError(
                "not-found", f"There is nothing at this path.{meant} The addresses are listed at /docs."
            )
        case HTTPException(status_code=405, headers=headers):
            allow = sorted((headers or {})["allow"].split(", "))
            use = "POST" if "POST" in allow else "GET"
            return ProblemError(
                "method-not-allowed",
                f"Send {use}: this address answers {', '.join(allow)}.",
                headers=((b"allow", ", ".join(allow).encode()),),
            )
        case HTTPException(status_code=status, detail=detail) if status < 500:
            return ProblemError("bad-message", detail)
        case _:
            return ProblemError("internal-error", "Something went wrong on our side. The fault was logged.")
