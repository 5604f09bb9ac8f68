"""The OpenAPI document, made from the operations.

msgspec makes the schemas of the structs; paths, parameters and answers come from the operations. A calculation has an
example request but no example answer, since the reference page can send the request.
"""

import re
from collections.abc import Collection, Iterable
from http import HTTPStatus
from inspect import cleandoc
from typing import Any, Final

import msgspec

from roundwright import __version__
from roundwright.web.auth import GUARDED
from roundwright.web.problems import MEDIA_TYPE, PROBLEM_TYPES, Problem
from roundwright.web.routes.flat_parameters import parameters_of
from roundwright.web.routes.operation import JSON, Calculation, Lookup, Operation

REFERENCE: Final = "#/components/schemas/{name}"

DESCRIPTION: Final = """\
The arithmetic of small hats knitted in the round: gauge, sizes, cast-on, needles, shaping, crowns, yarn, the written
pattern and the check of it.

* Every calculation is a `POST` of one JSON object and keeps nothing: the same body gives the same answer. Where the
  request is flat there is a `GET` as well, with the same answer.
* A measured quantity carries its unit: `{"value": 14.5, "unit": "in"}`. Requests choose the units of the answer with
  `units`.
* Requests are closed: an unknown field or parameter is refused. Answers are open: ignore fields you do not know.
* Every answer names its sources (`basis`) and the date of the rules it was calculated with (`rules`).
* Every error is a problem detail (RFC 9457). 400: not as described here. 422: well-formed, and cannot be knitted;
  it says why, and the nearest thing that can be.
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

STATUSES: Final = {
    Calculation: (400, 405, 408, 413, 415, 421, 422, 431, 500, 503),
    Lookup: (400, 405, 408, 421, 431, 500, 503),
}
"""The statuses of errors of every operation; `_statuses` adds those of its path and media types."""


def document(operations: Iterable[Operation], *, keyed: bool = False) -> dict[str, Any]:
    """The document of the operations as JSON values; `keyed` if the service needs keys."""
    documented = [operation for operation in operations if operation.id]
    schemas = _schemas(documented)
    paths: dict[str, dict[str, Any]] = {}
    for operation in documented:
        item = paths.setdefault(operation.template, {})
        item[operation.methods[0].lower()] = _operation(operation)
    components = {"schemas": schemas, "responses": _problem_responses(), "headers": HEADERS}
    schemes = {"securitySchemes": SCHEMES} if keyed else {}
    if keyed:
        for template, item in paths.items():
            if template.startswith(GUARDED):
                item |= {method: {**described, "security": _KEY_NEEDED} for method, described in item.items()}
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
        "components": _used(components, paths) | schemes,
    }


SCHEMES: Final = {
    "key": {"type": "http", "scheme": "bearer", "description": "One of the keys of this service (RFC 6750)."}
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


def _operation(operation: Operation) -> dict[str, Any]:
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
            described["parameters"] = _parameters(operation)
    else:
        described["requestBody"] = {
            "required": True,
            "content": {
                JSON: {
                    "schema": _reference(operation.request_type),
                    "examples": {operation.example or "request": {"value": operation.example_value()}},
                }
            },
        }
    responses: dict[str, Any] = {"200": _answer(operation)}
    if _is_cached(operation):
        responses["304"] = {"description": "Unchanged since the answer with this `ETag`."}
    for status in _statuses(operation):
        responses[str(status)] = {"$ref": f"#/components/responses/{_name(status)}"}
    return described | {"responses": responses}


def _answer(operation: Operation) -> dict[str, Any]:
    content: dict[str, Any] = {}
    for media_type in operation.renderers:
        if media_type == JSON:
            content[JSON] = {"schema": _reference(operation.answer_type)}
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


def _parameters(operation: Lookup) -> list[dict[str, Any]]:
    example_values = operation.example_value()
    parameters = []
    for name, known in (parameters_of(operation.request_type) or {}).items():
        described = _tidy(known.schema)
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


def _statuses(operation: Operation) -> list[int]:
    statuses = set(STATUSES[Calculation if isinstance(operation, Calculation) else Lookup])
    if isinstance(operation, Lookup):
        if "{" in operation.template:
            statuses.add(404)
        if operation.can_be_impossible:
            statuses.add(422)
    if len(operation.renderers) > 1:
        statuses.add(406)
    if operation.template.startswith(GUARDED):
        statuses.add(401)
    if not operation.template.startswith("/health/"):
        statuses.add(429)  # by the proxy
    return sorted(statuses)


_PHRASES: Final = {413: "Request Entity Too Large", 422: "Unprocessable Entity"}
"""Python 3.13 changed these two phrases; generated clients use the older names."""


def _name(status: int) -> str:
    phrase = _PHRASES.get(status) or HTTPStatus(status).phrase
    return "".join(word.capitalize() for word in phrase.replace("-", " ").split())


def _problem_responses() -> dict[str, Any]:
    statuses = sorted({kind.status for kind in PROBLEM_TYPES.values()})
    return {_name(status): _problem_response(status) for status in statuses}


def _problem_response(status: int) -> dict[str, Any]:
    kinds = [kind for kind in PROBLEM_TYPES.values() if kind.status == status]
    response: dict[str, Any] = {
        "description": " ".join(f"{kind.title} (`/problems/{kind.slug}`). {kind.meaning}" for kind in kinds),
        "headers": {
            name: {"$ref": f"#/components/headers/{name}"} for name in ("Request-Id", "Rules-Version")
        },
        "content": {MEDIA_TYPE: {"schema": {"$ref": REFERENCE.format(name="Problem")}}},
    }
    for name in _OF_STATUS.get(status, ()):
        response["headers"][name] = {"$ref": f"#/components/headers/{name}"}
    return response


_OF_STATUS: Final = {
    401: ("WWW-Authenticate",),
    405: ("Allow",),
    429: ("Retry-After",),
    503: ("Retry-After",),
}

HEADERS: Final[dict[str, Any]] = {
    name: {"description": text, "schema": schema}
    for name, text, schema in (
        ("Allow", "Methods this address answers.", {"type": "string"}),
        ("Cache-Control", "How long the answer may be kept.", {"type": "string"}),
        ("ETag", "Changes when the answer does; send it back as `If-None-Match`.", {"type": "string"}),
        ("Request-Id", "The id the caller sent, or one made here; it is in the log.", {"type": "string"}),
        ("Retry-After", "Seconds to wait before trying again.", {"type": "integer", "minimum": 1}),
        ("Rules-Version", "Date of the formulas and tables in force.", {"type": "string", "format": "date"}),
        ("WWW-Authenticate", "How a key is sent (RFC 6750).", {"type": "string"}),
    )
}


def _headers(operation: Operation) -> list[str]:
    names = ["Cache-Control", "Request-Id", "Rules-Version"]
    return ["ETag", *names] if _is_cached(operation) else names


def _is_cached(operation: Operation) -> bool:
    return isinstance(operation, Lookup) and operation.cached


# Schemas.


def _reference(kind: Any) -> dict[str, str]:
    return {"$ref": REFERENCE.format(name=kind.__name__)}


def _schemas(operations: Collection[Operation]) -> dict[str, Any]:
    kinds: dict[Any, None] = {}
    for operation in operations:
        kinds |= dict.fromkeys(
            kind
            for kind in (operation.request_type, operation.answer_type, *operation.parts)
            if _is_struct(kind)
        )
    kinds[Problem] = None
    _, components = msgspec.json.schema_components(list(kinds), ref_template=REFERENCE)
    may_leave_out = [operation.request_type for operation in operations if _is_struct(operation.request_type)]
    _, sparing = msgspec.json.schema_components([*may_leave_out, Problem], ref_template=REFERENCE)
    whole = {name: _whole(schema) for name, schema in components.items() if name not in sparing}
    return {name: _tidy(schema) for name, schema in sorted({**components, **whole}.items())}


def _whole(schema: dict[str, Any]) -> dict[str, Any]:
    """The schema of a struct of answers only, in which a field with a default is always present."""
    if "properties" not in schema:
        return schema
    always = set(schema.get("required", ()))
    always |= {name for name, field in schema["properties"].items() if "default" in field}
    return schema | {"required": [name for name in schema["properties"] if name in always]}


def _is_struct(kind: Any) -> bool:
    return isinstance(kind, type) and issubclass(kind, msgspec.Struct)


def _tidy(schema: Any) -> Any:
    """The schema in the form that client generators need: typed enums, `const` tags, `oneOf` for tagged unions."""
    if isinstance(schema, list):
        return [_tidy(part) for part in schema]
    if not isinstance(schema, dict):
        return schema
    tidied = {key: _tidy(value) for key, value in schema.items() if not (key == "default" and value is None)}
    choices = tidied.get("enum")
    if isinstance(choices, list) and all(isinstance(choice, str) for choice in choices):
        tidied = {"type": "string", **tidied}
        if len(choices) == 1:
            tidied["const"] = tidied.pop("enum")[0]
    if "discriminator" in tidied:
        tidied["oneOf"] = tidied.pop("anyOf")
    if isinstance(tidied.get("description"), str):
        tidied["description"] = cleandoc(tidied["description"])  # Python 3.13 removes the indentation itself
    return tidied
