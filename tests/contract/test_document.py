"""The OpenAPI document: that it is the one published, that it is sound, and that what it shows is real."""

import asyncio
import json
import re
from copy import copy
from pathlib import Path

import httpx
import jsonschema_rs
import pytest
from openapi_spec_validator import OpenAPIV31SpecValidator

from roundwright.web import app, openapi
from roundwright.web.routes.drawings import draw_crown
from roundwright.web.routes.file_form import FileForm
from roundwright.web.routes.hats import write_handout
from roundwright.web.routes.operation import lookup
from roundwright.web.routes.picture_file import PictureFile
from roundwright.web.routes.query_form import QueryForm
from roundwright.web.routes.service import Health
from roundwright.web.routes.sizing import cast_on
from roundwright.web.settings import Settings
from tests.contract.shape import document, listed, named

ROOT = Path(__file__).parents[2]
ENDING = {"deprecation": "@1798761600", "sunset": "Fri, 01 Jan 2027 00:00:00 GMT"}


@lookup("/v1/old", id="getOld", tag="Sizes", summary="Old", headers=ENDING)
def get_old() -> Health:
    """What there was."""


@lookup("/v1/new", id="getNew", tag="Sizes", summary="New")
def get_new() -> Health:
    """What there is."""
    return Health()


def test_the_published_document_is_the_one_of_the_service():
    """`openapi/openapi.json` is what `roundwright openapi openapi/openapi.json` would write."""
    assert json.loads((ROOT / "openapi/openapi.json").read_text()) == document()


def test_the_published_file_is_served(service):
    """`/openapi.json` is the published document in a single line, with nothing to wait for."""
    served = service.get("/openapi.json")

    assert document() == served.json()
    assert b"\n" not in served.content
    assert len(served.content) < 0.7 * (ROOT / "openapi/openapi.json").stat().st_size


def test_the_document_follows_its_standard():
    """The document is valid OpenAPI 3.1, judged by a general validator."""
    assert [] == [error.message for error in OpenAPIV31SpecValidator(document()).iter_errors()]


@pytest.mark.parametrize("operation", listed(), ids=named)
def test_an_operation_is_described(operation):
    """Every operation has a good name, a summary, a description, a tag that is described, and its errors."""
    written = operation.written
    assert written["operationId"].isidentifier()
    assert written["operationId"][0].islower()
    assert "_" not in written["operationId"]
    assert written["summary"]
    assert not written["summary"].endswith(".")
    assert written["description"]
    assert set(written["tags"]) <= {tag["name"] for tag in document()["tags"]}
    errors = {"400", "4XX", "default"}
    errors |= {"422"} if operation.method == "POST" else set()
    errors |= {"404"} if "{" in operation.path else set()
    assert errors <= set(written["responses"])
    for parameter in written.get("parameters", ()):
        assert parameter["description"]


def test_an_operation_that_is_to_end_is_deprecated():
    """The header `Deprecation` (RFC 9745) and the document say the same."""
    paths = openapi.document([get_old, get_new])["paths"]
    assert paths["/v1/old"]["get"]["deprecated"]
    assert "deprecated" not in paths["/v1/new"]["get"]


def test_what_is_made_of_an_operation_ends_with_it(monkeypatch):
    """Both headers are on the wire, and on the GET form of a POST, on its files and on the PNG of a picture."""
    to_end = [copy(operation) for operation in (cast_on, draw_crown, write_handout)]
    for operation in to_end:
        operation.own_headers = [
            *operation.own_headers,
            *((k.encode(), v.encode()) for k, v in ENDING.items()),
        ]
    handout = to_end[2]
    to_end += [QueryForm(to_end[0]), PictureFile(to_end[1]), FileForm(handout, "txt", handout.files["txt"])]
    monkeypatch.setattr(app, "all_operations", lambda: [*to_end, get_new])

    async def ask():
        transport = httpx.ASGITransport(app.create(Settings()))
        async with httpx.AsyncClient(transport=transport, base_url="http://hats.example") as client:
            return [
                await client.post("/v1/cast-on", json=cast_on.example_value()),
                await client.get("/v1/cast-on?gauge_stitches=20&head=43cm"),
                await client.get("/v1/drawings/crown.svg?stitches=64"),
                await client.get("/v1/drawings/crown.png?stitches=64"),
                await client.post("/v1/hats/handout.txt", json=handout.example_value()),
                await client.get("/v1/new"),
            ]

    *ending, new = asyncio.run(ask())

    assert {200} == {answer.status_code for answer in (*ending, new)}
    for answer in ending:
        assert ENDING == {name: answer.headers.get(name) for name in ENDING}, answer.url
    assert not set(ENDING) & set(new.headers)


@pytest.mark.parametrize("operation", listed(), ids=named)
def test_an_example_is_real(operation, service):
    """The example request of every operation is answered."""
    assert 200 == operation.ask(service).status_code


def test_every_field_is_described():
    """Every field of every struct has a description, so that it is one in the reference and in generated clients."""
    missing = [
        f"{name}.{field}"
        for name, schema in document()["components"]["schemas"].items()
        for field, described in schema.get("properties", {}).items()
        if "description" not in described and "const" not in described
    ]

    assert [] == missing


def test_names_are_plain():
    """Each struct and each operation has a name of its own that a generator need not change."""
    assert [] == [
        name for name in document()["components"]["schemas"] if not re.fullmatch("[A-Z][A-Za-z]+", name)
    ]
    names = [operation.id for operation in listed()]
    assert len(set(names)) == len(names)


def test_names_are_those_that_were_looked_at():
    """A new name is a name in every generated client, so it is read there before it is put into `names.txt`."""
    lines = (ROOT / "tests/clients/names.txt").read_text().splitlines()
    written = [line for line in lines if line and not line.startswith("#")]

    assert [
        *sorted(operation.id for operation in listed()),
        *sorted(document()["components"]["schemas"]),
    ] == written


def test_closed_sets_of_words_are_components():
    """A set of words is written once, under a name, so that a client has one type for it."""
    schemas = document()["components"]["schemas"]
    inside = [schema for schema in schemas.values() if "enum" not in schema]
    parameters = [
        parameter for operation in listed() for parameter in operation.written.get("parameters", ())
    ]

    assert [] == [part for part in _parts([inside, parameters]) if len(part.get("enum", ())) > 1]
    assert [] == [part for part in _parts([inside, parameters]) if {"$ref", "type"} <= set(part)]
    sets = [tuple(sorted(schema["enum"])) for schema in schemas.values() if "enum" in schema]
    assert len(set(sets)) == len(sets)
    assert {"LengthUnit", "UnitSystem", "StyleName", "Sex", "FaultCode", "DecreaseAt"} <= set(schemas)


def test_numbers_have_formats_and_nothing_has_a_default():
    """Generators make the right types of numbers, and neither demand nor send what may be left out."""
    parts = [part for part in _parts(document()) if isinstance(part.get("type"), str)]

    assert {"double"} == {part["format"] for part in parts if part["type"] == "number"}
    assert {"int32", "int64"} >= {part.get("format") for part in parts if part["type"] == "integer"}
    assert [] == [part for part in parts if "default" in part]
    assert "date" == document()["components"]["schemas"]["CastOnAnswer"]["properties"]["rules"]["format"]


def test_examples_of_errors_are_real(service):
    """The two errors that are shown are what the service answers."""
    responses = document()["components"]["responses"]
    examples = [
        response["content"]["application/problem+json"].get("example") for response in responses.values()
    ]
    bodies = ({"stitchs": 90, "change": "-7"}, {"stitches": 90, "change": -7, "method": "m1l"})

    assert [service.post("/v1/shaping/even", json=body).json() for body in bodies] == [
        *filter(None, examples)
    ]


def test_requests_are_closed_and_answers_open():
    """A struct of a request refuses unknown fields; no struct of an answer, however deep in it, forbids them."""
    schemas = document()["components"]["schemas"]

    assert [] == [
        name
        for name in _in_requests()
        if "properties" in schemas[name] and schemas[name].get("additionalProperties") is not False
    ]
    assert [] == [name for name in _in_answers() if "additionalProperties" in schemas[name]]
    assert not {name for name in _in_requests() & _in_answers() if "properties" in schemas[name]}


def test_every_field_of_an_answer_is_there():
    """A struct of an answer has all its fields, however deep in it; only a problem and a repeat leave some out."""
    schemas = document()["components"]["schemas"]
    left_out = [
        f"{name}.{field}"
        for name in sorted(_in_answers())
        for field in schemas[name].get("properties", ())
        if field not in schemas[name]["required"]
    ]

    assert ["RepeatOutput.again"] == [
        name for name in left_out if not name.startswith(("Fault.", "Problem."))
    ]


def test_what_a_request_and_an_answer_share_has_two_schemas():
    """`Round` is as it is sent and `RoundOutput` as it is answered: the same fields, of which the answer has all."""
    schemas = document()["components"]["schemas"]
    pairs = {name.removesuffix("Output"): name for name in schemas if name.endswith("Output")}

    assert {"Gauge", "Length", "Round", "Work", "Repeat", "CrownShape"} <= set(pairs)
    for sent, answered in pairs.items():
        assert set(schemas[sent]["properties"]) == set(schemas[answered]["properties"])
        assert answered == schemas[answered]["title"]
    mapping = schemas["RoundOutput"]["properties"]["steps"]["items"]["discriminator"]["mapping"]
    assert {"#/components/schemas/WorkOutput", "#/components/schemas/RepeatOutput"} == set(mapping.values())


@pytest.mark.parametrize("operation", listed(), ids=named)
def test_an_answer_is_as_the_document_says(operation, service):
    """The answer to the example has the fields that the document promises."""
    answered = operation.written["responses"]["200"]["content"].get("application/json")
    if answered:
        schema = {**answered["schema"], "components": document()["components"]}
        jsonschema_rs.validator_for(schema).validate(operation.ask(service).json())


def test_request_numbers_texts_and_lists_are_bounded():
    """Every number, text and list that a request can hold has both its bounds in the document."""
    schemas = document()["components"]["schemas"]
    unbounded = [
        f"{name}: {json.dumps(part)}"
        for name in sorted(_in_requests())
        for part in _parts(schemas[name])
        if not _bounded(part)
    ]

    assert [] == unbounded


def _in_requests():
    """The names of all structs and sets of words that a body can hold."""
    bodies = [
        operation.written["requestBody"]["content"]["application/json"]["schema"]
        for operation in listed("POST")
    ]
    return _reachable(bodies, document()["components"]["schemas"])


def _in_answers():
    """The names of all structs and sets of words that an answer can hold."""
    contents = [operation.written["responses"]["200"]["content"] for operation in listed()]
    return _reachable(contents, document()["components"]["schemas"])


def _reachable(schema, schemas, seen=None):
    seen = set() if seen is None else seen
    for part in _parts(schema):
        name = part.get("$ref", "").rpartition("/")[2]
        if name and name not in seen:
            seen.add(name)
            _reachable(schemas[name], schemas, seen)
    return seen


def _parts(schema):
    if isinstance(schema, dict):
        yield schema
        for key, value in schema.items():
            if key not in ("default", "examples", "discriminator"):
                yield from _parts(value)
    elif isinstance(schema, list):
        for value in schema:
            yield from _parts(value)


def _bounded(part):
    match part.get("type"):
        case "integer" | "number":
            return {"minimum", "exclusiveMinimum"} & set(part) and {"maximum", "exclusiveMaximum"} & set(part)
        case "string":
            return {"maxLength", "enum", "const"} & set(part)
        case "array":
            return {"maxItems"} <= set(part)
        case _:
            return True
