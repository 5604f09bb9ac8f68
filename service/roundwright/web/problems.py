"""Every error a caller can get, as problem details (RFC 9457).

What is raised, and the problem it becomes::

    Exception                              500  internal-error
     +-- Refusal                                the problem it names
     +-- knitting.answers.Impossible       422  cannot-be-knitted
     +-- litestar.HTTPException
          +-- NotFoundException            404  not-found
          +-- MethodNotAllowedException    405  method-not-allowed, with `Allow`
          +-- any other below 500          400  bad-message

400 contradicts the published description of the operation; 422 agrees with it and still cannot be knitted. The first
is found before the trade is asked (`routes.reading`), the second by the trade itself.
"""

from typing import Annotated, Final

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
            "The body could not be read as one JSON value in UTF-8 in which an object has each name once. Nothing was "
            "calculated.",
        ),
        Kind(
            "invalid-request", 400, "The request is not as described",
            "A field or parameter is missing, unknown, of another type or out of its bounds. `errors` says where, by a "
            "JSON pointer into the body or by the name of the parameter; the first fault found is the one reported. "
            "The description is at /openapi.json and, to read, at /docs.",
        ),
        Kind(
            "bad-message", 400, "The message is not HTTP",
            "The bytes received are not a request that HTTP/1.1 allows.",
        ),
        Kind(
            "key-needed", 401, "A key is needed here",
            "This service answers those who have one of its keys: `Authorization: Bearer` and the key. It has none "
            "unless whoever runs it says so; ask them for one.",
        ),
        Kind(
            "not-found", 404, "There is nothing at this address",
            "The path, or the table named in it, does not exist. The addresses are listed at /docs.",
        ),
        Kind(
            "method-not-allowed", 405, "This address is asked in another way",
            "The address exists, but not for this method. The header `Allow` lists those that work: calculations are "
            "POST, look-ups and pictures are GET and HEAD.",
        ),
        Kind(
            "not-acceptable", 406, "There is no such form of the answer",
            "None of the media types in `Accept` can be given. `detail` lists those that can.",
        ),
        Kind(
            "too-slow", 408, "The request took too long to come",
            "The bytes of the request stopped, or came too slowly. The connection was closed.",
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
            "wrong-host", 421, "This service is not that host",
            "The request names a host this service was not set up to answer for.",
        ),
        Kind(
            "cannot-be-knitted", 422, "This cannot be knitted",
            "The request is well-formed, and what it asks for cannot be worked. `errors` says which field stands in "
            "the way and `nearest`, where there is one, what comes closest to it and works.",
        ),
        Kind(
            "too-long", 422, "This takes too long to calculate",
            "The calculation was stopped, so that other callers need not wait. Sent again unchanged it would be "
            "stopped again; `detail` says how long a calculation may take.",
        ),
        Kind(
            "too-many-requests", 429, "Too many requests of one caller",
            "The caller asks more often than whoever runs this service allows. Wait the seconds in `Retry-After`.",
        ),
        Kind(
            "header-too-large", 431, "The header is too large",
            "The request line and header together are longer than this service reads. The connection was closed.",
        ),
        Kind(
            "internal-error", 500, "Something went wrong here",
            "A fault of the service, not of the request. It was logged under the id in the header `Request-Id`.",
        ),
        Kind(
            "overloaded", 503, "Too much is going on",
            "More requests are in hand than this process takes on. Every operation may be repeated: try again after "
            "the seconds in `Retry-After`.",
        ),
        Kind(
            "stopping", 503, "This process is about to stop",
            "It finishes what it has in hand and should be sent nothing more; another takes over.",
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
        str, Meta(description="What kind of problem: a path of this service with a page about it.")
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


Headers = tuple[tuple[bytes, bytes], ...]


class Refusal(Exception):
    """A request that is refused: the slug of its problem, what is wrong, where, the nearest that works, and headers."""

    def __init__(
        self, slug: str, detail: str, *faults: Fault, nearest: str | None = None, headers: Headers = ()
    ) -> None:
        super().__init__(detail)
        self.slug = slug
        self.detail = detail
        self.faults = faults
        self.nearest = nearest
        self.headers = headers


def describe(error: Exception, path: str) -> tuple[Problem, Headers]:
    """The problem an exception becomes for a request of `path`, and the headers that go with it."""
    refusal = _refusal(error)
    kind = KINDS[refusal.slug]
    problem = Problem(
        type=f"/problems/{kind.slug}",
        title=kind.title,
        status=kind.status,
        detail=refusal.detail,
        instance=path,
        errors=refusal.faults,
        nearest=UNSET if refusal.nearest is None else refusal.nearest,
    )
    return problem, refusal.headers


def _refusal(error: Exception) -> Refusal:
    match error:
        case Refusal():
            return error
        case Impossible(detail=detail, pointer=pointer, nearest=nearest):
            return Refusal(
                "cannot-be-knitted", detail, Fault(detail=detail, pointer=pointer), nearest=nearest
            )
        case HTTPException(status_code=404):
            return Refusal("not-found", "There is nothing at this path. The addresses are listed at /docs.")
        case HTTPException(status_code=405, headers=headers):
            allow = ", ".join(sorted((headers or {})["allow"].split(", ")))
            return Refusal(
                "method-not-allowed", f"This address answers {allow}.", headers=((b"allow", allow.encode()),)
            )
        case HTTPException(status_code=status, detail=detail) if status < 500:
            return Refusal("bad-message", detail)
        case _:
            return Refusal("internal-error", "Something went wrong on our side. The fault was logged.")
