"""The OpenAPI document, made from the operations.

msgspec makes the schemas of the structs; paths, parameters and answers come from the operations. A calculation has an
example request but no example answer, since the reference page can send the request; two errors have one.
"""

import re
from collections.abc import Iterable, Iterator
from typing import Any, Final

import msgspec

from roundwright import __version__
from roundwright.knitting.answers import Impossible
from roundwright.web.auth import GUARDED
from roundwright.web.problems import MEDIA_TYPE, PROBLEM_TYPES, Problem, ProblemError, to_problem
from roundwright.web.routes.flat_parameters import parameters_of
from roundwright.web.routes.operation import JSON, Lookup, Operation
from roundwright.web.routes.request_reader import BodyReader
from roundwright.web.routes.shaping import shape_evenly
from roundwright.web.schemas import Tidy, capitalised, reference_to, schemas_of

DESCRIPTION: Final = """\
The arithmetic of small hats knitted in the round: gauge, sizes, cast-on, needles, shaping, crowns, yarn, the written
pattern and the check of it.

* Every calculation is a `POST` of one JSON object and keeps nothing: the same body gives the same answer. Where the
  request is flat there is a `GET` as well, with the same answer.
* A measured quantity carries its unit: `{"value": 14.5, "unit": "in"}`. Requests choose the units of the answer with
  `units`.
* Requests are closed: an unknown field or parameter is refused. Answers are open: ignore fields you do not know.
* Every answer names its sources (`basis`) and the date of the rules it was calculated with (`rules`).
* Every error is a problem detail (RFC 9457), in English whatever the language asked for: translate by its `type` and
  the `code` of its `errors`. 400: not as described here. 422: well-formed, and cannot be knitted; it says why, and the
  nearest thing that can be.
"""

TAGS: Final = {
    "Gauge": "Stitches and rows over a length: in every unit of the trade, and one gauge compared with another.",
    "Sizes": "Heads, ease, and the cast-on that follows.",
    "Shaping": "Increases and decreases spread around a round or along a length.",
    "Crowns": "The top of the hat: its rounds, its close and its form.",
    "Needles": "The stitches of a round on several needles.",
    "Yarn": "How much is used, how much to buy, how much is left.",
    "Hats": "The whole job, from a gauge to the written pattern.",
    "Patterns": "Written patterns read, executed and checked.",
    "Counts": "A count that came out wrong, or a place in the work that was lost.",
    "Drawings": "Pictures by address, for use in an `<img>`.",
    "Batches": "Many calculations in one request.",
    "Standards": "The tables the service uses, with their sources.",
    "Service": "The service itself.",
}


def document(operations: Iterable[Operation]) -> dict[str, Any]:
    """The document of the operations as JSON values, for a service that may need keys (`with_keys`: that does)."""
    documented = [operation for operation in operations if operation.id]
    tidy = Tidy()
    schemas = schemas_of(documented, tidy)
    paths: dict[str, dict[str, Any]] = {}
    for operation in documented:
        item = paths.setdefault(operation.template, {})
        item[operation.methods[0].lower()] = _operation(operation, tidy)
    schemas = dict(sorted({**schemas, **tidy.enums}.items()))
    components = {"schemas": schemas, "responses": _problem_responses(), "headers": HEADERS}
    for described in _guarded(paths):
        described["security"] = [{}, *_KEY_NEEDED]
    tags = {operation.tag for operation in documented}
    return {
        "openapi": "3.1.0",
        "info": {
            "title": "Roundwright",
            "version": __version__,
            "summary": "Small hats knitted in the round, calculated.",
            "description": DESCRIPTION,
            "contact": {"name": "Roundwright contributors"},
            "license": {"name": "MIT", "identifier": "MIT"},
        },
        "servers": [{"url": "/", "description": "The service this document came from."}],
        "security": [],
        "tags": [{"name": name, "description": text} for name, text in TAGS.items() if name in tags],
        "paths": paths,
        "components": _used(components, paths) | {"securitySchemes": SCHEMES},
    }


def with_keys(document: dict[str, Any]) -> dict[str, Any]:
    """A document as a service has it that needs keys: what may be sent with a key must be."""
    for described in _guarded(document["paths"]):
        described["security"] = _KEY_NEEDED
    return document


def _guarded(paths: dict[str, dict[str, Any]]) -> Iterator[dict[str, Any]]:
    """The operations that a service with keys gives to callers with a key alone."""
    for template, item in paths.items():
        if template.startswith(GUARDED):
            yield from item.values()


SCHEMES: Final = {
    "key": {
        "type": "http",
        "scheme": "bearer",
        "description": "A key of this service, where it needs one (RFC 6750).",
    }
}
_KEY_NEEDED: Final[list[dict[str, list[str]]]] = [{name: [] for name in SCHEMES}]


def _used(components: dict[str, dict[str, Any]], paths: dict[str, Any]) -> dict[str, dict[str, Any]]:
    """The components that paths refer to, directly or through one another."""
    used: set[str] = set()
    waiting = [paths]
    while waiting:
        text = msgspec.json.encode(waiting.pop()).decode()
        for group, name in re.findall(r'"#/components/(\w+)/([\w.-]+)"', text):
            if f"{group}/{name}" not in used:
                used.add(f"{group}/{name}")
                waiting.append(components[group][name])
    return {
        group: {name: member for name, member in members.items() if f"{group}/{name}" in used}
        for group, members in components.items()
    }


def _operation(operation: Operation, tidy: Tidy) -> dict[str, Any]:
    described: dict[str, Any] = {
        "operationId": operation.id,
        "tags": [operation.tag],
        "summary": operation.summary,
        "description": operation.description,
    }
    if b"deprecation" in dict(operation.own_headers):
        described["deprecated"] = True
    if isinstance(operation, Lookup):
        if operation.request_type:
            described["parameters"] = _parameters(operation, tidy)
    else:
        described["requestBody"] = {
            "required": True,
            "content": {
                JSON: {
                    "schema": reference_to(operation.request_type),
                    "examples": {operation.example or "request": {"value": operation.example_value()}},
                }
            },
        }
    responses: dict[str, Any] = {"200": _answer(operation)}
    if _is_cached(operation):
        responses["304"] = {"description": "Unchanged since the answer with this `ETag`."}
    for status in _errors(operation):
        responses[status] = {"$ref": f"#/components/responses/{_NAMES[status]}"}
    return described | {"responses": responses}


def _answer(operation: Operation) -> dict[str, Any]:
    content: dict[str, Any] = {}
    for media_type in operation.renderers:
        if media_type == JSON:
            content[JSON] = {"schema": reference_to(operation.answer_type)}
        elif media_type.endswith("+json"):
            content[media_type] = {"schema": {"type": "object"}}
        else:
            bare = media_type.partition(";")[0]
            text = bare.startswith("text/") or bare.endswith("+xml")
            content[bare] = {"schema": {"type": "string"} if text else {"type": "string", "format": "binary"}}
    answer: dict[str, Any] = {
        "description": (operation.answer_type.__doc__ or "").partition("\n")[0],
        "headers": {name: {"$ref": f"#/components/headers/{name}"} for name in _headers(operation)},
        "content": content,
    }
    if operation.links:
        answer["links"] = dict(operation.links)
    return answer


def _parameters(operation: Lookup, tidy: Tidy) -> list[dict[str, Any]]:
    example_values = operation.example_value()
    parameters = []
    for name, known in (parameters_of(operation.request_type) or {}).items():
        described = tidy.schema(known.schema, capitalised(f"{operation.id}_{name}"))
        in_path = f"{{{name}}}" in operation.template
        parameter: dict[str, Any] = {
            "name": name,
            "in": "path" if in_path else "query",
            "description": described.pop("description", ""),
            "required": in_path or known.required,
            "schema": described,
        }
        if known.form == "list":
            parameter |= {"style": "form", "explode": False}
        if name in example_values:
            parameter["example"] = example_values[name]
        parameters.append(parameter)
    return parameters


# Errors and headers.


def _errors(operation: Operation) -> Iterator[str]:
    """The responses for errors: those a caller can mend by themselves, and all others."""
    yield "400"
    if isinstance(operation, Lookup) and "{" in operation.template:
        yield "404"
    if not isinstance(operation, Lookup) or operation.can_be_impossible:
        yield "422"
    yield from ("4XX", "default")


_NAMES: Final = {
    "400": "InvalidRequest", "404": "NotFound", "422": "CannotBeKnitted", "4XX": "ClientError", "default": "Failure"
}  # fmt: skip


def _problem_responses() -> dict[str, Any]:
    return {name: _problem_response(status) for status, name in _NAMES.items()}


def _problem_response(status: str) -> dict[str, Any]:
    """The response for a status; for `4XX` and `default` the kinds that are not listed by themselves."""
    kinds = [kind for kind in PROBLEM_TYPES.values() if _status_of(kind.status) == status]
    headers = ["Request-Id", "Rules-Version", *_OF_STATUS.get(status, ())]
    content: dict[str, Any] = {"schema": reference_to(Problem)}
    if status in EXAMPLES_OF_ERRORS:
        content["example"] = _example_of_error(*EXAMPLES_OF_ERRORS[status])
    return {
        "description": "\n".join(
            f"* {kind.status} `/problems/{kind.slug}`: {kind.title}. {kind.meaning}" for kind in kinds
        ),
        "headers": {name: {"$ref": f"#/components/headers/{name}"} for name in headers},
        "content": {MEDIA_TYPE: content},
    }


def _status_of(status: int) -> str:
    """How a status is listed."""
    return str(status) if str(status) in _NAMES else "4XX" if status < 500 else "default"


EXAMPLES_OF_ERRORS: Final[dict[str, tuple[Operation, Any]]] = {
    "400": (shape_evenly, {"stitchs": 90, "change": "-7"}),
    "422": (shape_evenly, {"stitches": 90, "change": -7, "method": "m1l"}),
}
"""A request for each of the two errors that callers meet most."""


def _example_of_error(operation: Operation, request: Any) -> Any:
    """The problem that the service answers to a request."""
    try:
        operation.calculate(BodyReader(operation.request_type).read(msgspec.json.encode(request)))
    except (ProblemError, Impossible) as error:
        problem, _ = to_problem(error, operation.template)
        return msgspec.to_builtins(problem, enc_hook=str)
    raise AssertionError(f"{operation.id} answers {request}")


_OF_STATUS: Final = {"4XX": ("Allow", "Retry-After", "WWW-Authenticate"), "default": ("Retry-After",)}

HEADERS: Final[dict[str, Any]] = {
    name: {"description": text, "schema": schema}
    for name, text, schema in (
        ("Allow", "Methods this address answers.", {"type": "string"}),
        ("Cache-Control", "How long the answer may be kept.", {"type": "string"}),
        ("ETag", "Changes when the answer does; send it back as `If-None-Match`.", {"type": "string"}),
        ("Request-Id", "The id the caller sent, or one made here; it is in the log.", {"type": "string"}),
        (
            "Retry-After",
            "Seconds to wait before trying again.",
            {"type": "integer", "format": "int32", "minimum": 1},
        ),
        ("Rules-Version", "Date of the formulas and tables in force.", {"type": "string", "format": "date"}),
        ("WWW-Authenticate", "How a key is sent (RFC 6750).", {"type": "string"}),
    )
}


def _headers(operation: Operation) -> list[str]:
    names = ["Cache-Control", "Request-Id", "Rules-Version"]
    return ["ETag", *names] if _is_cached(operation) else names


def _is_cached(operation: Operation) -> bool:
    return isinstance(operation, Lookup) and operation.cached
