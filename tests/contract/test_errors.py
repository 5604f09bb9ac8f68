"""One shape for every error, on every route and from every layer.

What a generator of requests cannot see is listed here by hand: strict types, media types, nesting,
bytes that are no text, and combinations of these.
"""

import json
import re
from typing import Any, NamedTuple
from urllib.parse import urlencode

import httpx
import msgspec
import pytest

from roundwright.web.routes import request_faults
from roundwright.web.settings import Settings
from tests.conftest import serving
from tests.contract.shape import assert_problem, listed, named
from tests.long.asking import Service

POSTS = listed("POST")
GETS = listed("GET")
JSON_TYPE = {"content-type": "application/json"}


class Probe(NamedTuple):
    """A body that is refused: how it is made from the example, and as what."""

    name: str
    make: Any
    slug: str = "malformed-json"
    pointer: str | None = "#"


def _first(body: bytes, member: bytes) -> bytes:
    """The body with a member put before its own."""
    return b"{" + member + b"," + body[1:]


def _last(body: bytes, member: bytes) -> bytes:
    """The body with a member put after its own."""
    return body[:-1] + b"," + member + b"}"


def _again(body: bytes) -> bytes:
    """The first member of the body."""
    return _member(*next(iter(json.loads(body).items())))


def _valued(body: bytes, value: bytes) -> bytes:
    """The body with the value of its first member replaced."""
    name, *rest = json.loads(body).items()
    return (
        b"{"
        + b",".join([json.dumps(name[0]).encode() + b":" + value, *[_member(*member) for member in rest]])
        + b"}"
    )


def _member(name: str, value: Any) -> bytes:
    return json.dumps(name).encode() + b":" + json.dumps(value).encode()


def _as_float(body: bytes) -> bytes:
    """The body with every whole number written as a float: still as described."""
    return msgspec.json.encode(_floats(json.loads(body)))


def _floats(value: Any) -> Any:
    if isinstance(value, dict):
        return {name: _floats(member) for name, member in value.items()}
    if isinstance(value, list):
        return [_floats(item) for item in value]
    return float(value) if type(value) is int else value


PROBES = (
    Probe("nothing", lambda body: b""),
    Probe("blanks", lambda body: b"  \n"),
    Probe("half a body", lambda body: body[: len(body) // 2]),
    Probe("no closing brace", lambda body: body[:-1]),
    Probe("a comma before the closing brace", lambda body: body[:-1] + b",}"),
    Probe("two bodies", lambda body: body + body),
    Probe("a stray brace after it", lambda body: body + b"}"),
    Probe("a NUL after it", lambda body: body + b"\0"),
    Probe("single quotes", lambda body: body.replace(b'"', b"'")),
    Probe("a name without quotes", lambda body: _first(body, b"x:1")),
    Probe("a comment", lambda body: b"/* hat */" + body),
    Probe("NaN", lambda body: b"NaN"),
    Probe("NaN as a value", lambda body: _valued(body, b"NaN")),
    Probe("Infinity as a value", lambda body: _valued(body, b"Infinity")),
    Probe("minus Infinity as a value", lambda body: _valued(body, b"-Infinity"), "*", None),
    Probe("a number that no float holds", lambda body: _valued(body, b"1e999"), "invalid-request", None),
    Probe("a whole number of 400 digits", lambda body: _valued(body, b"9" * 400), "invalid-request", None),
    Probe("undefined as a value", lambda body: _valued(body, b"undefined")),
    Probe("a number with a leading zero", lambda body: b"[01]", "invalid-request"),
    Probe("a hexadecimal number", lambda body: b"0x1F", "invalid-request"),
    Probe("a byte order mark", lambda body: b"\xef\xbb\xbf" + body),
    Probe("UTF-16", lambda body: body.decode().encode("utf-16")),
    Probe("a byte that is no UTF-8, in a name", lambda body: _first(body, b'"\xff":1')),
    Probe("a byte that is no UTF-8, in a text", lambda body: _last(body, b'"x":"\xff"'), "*", None),
    Probe("a byte that is no UTF-8, after it", lambda body: body + b"\xff"),
    Probe("half of a surrogate pair", lambda body: _first(body, b'"\\ud800":1')),
    Probe("a control character in a name", lambda body: _first(body, b'"a\x01":1'), "*", None),
    Probe("a wrong escape", lambda body: _first(body, b'"\\q":1')),
    Probe("lists nested 30,000 deep", lambda body: b"[" * 30_000, "*"),
    Probe("objects nested 10,000 deep", lambda body: b'{"a":' * 10_000, "*", None),
    Probe("a list nested 30,000 deep in a member", lambda body: _first(body, b'"x":' + b"[" * 30_000), "*", None),
    Probe("floats and a byte that is no UTF-8", lambda body: _as_float(body) + b"\xff"),
    Probe("floats and a stray brace", lambda body: _as_float(body) + b"}"),
    Probe("floats and half a body", lambda body: _as_float(body)[:-1]),
    Probe("floats and deep nesting", lambda body: _last(_as_float(body), b'"x":' + b"[" * 30_000), "*", None),
    Probe("a list", lambda body: b"[" + body + b"]", "invalid-request"),
    Probe("an empty list", lambda body: b"[]", "invalid-request"),
    Probe("text", lambda body: b'"hat"', "invalid-request"),
    Probe("text that holds the body", lambda body: json.dumps(body.decode()).encode(), "invalid-request"),
    Probe("a number", lambda body: b"56", "invalid-request"),
    Probe("a float", lambda body: b"5.0", "invalid-request"),
    Probe("true", lambda body: b"true", "invalid-request"),
    Probe("null", lambda body: b"null", "invalid-request"),
    Probe("an unknown field", lambda body: _first(body, b'"colour":"red"'), "invalid-request", "#/colour"),
    Probe("an unknown field, last", lambda body: _last(body, b'"colour":"red"'), "invalid-request", "#/colour"),
    Probe("a field without a name", lambda body: _last(body, b'"":1'), "invalid-request", "#/"),
    Probe("a name with a slash and a tilde", lambda body: _last(body, b'"a/~b":1'), "invalid-request", "#/a~1~0b"),
    Probe("a name in capitals", lambda body: _last(body, _again(body).upper()), "invalid-request", None),
    Probe("a name with a NUL", lambda body: _last(body, b'"\\u0000":1'), "invalid-request", "#/\0"),
)  # fmt: skip


@pytest.mark.parametrize("probe", PROBES, ids=lambda probe: probe.name)
@pytest.mark.parametrize("operation", POSTS, ids=named)
def test_a_body_is_refused(operation, probe, service):
    """A body that is not as described gets 400, whatever is wrong with it and in whatever combination."""
    response = service.post(
        operation.url, content=probe.make(msgspec.json.encode(operation.body)), headers=JSON_TYPE
    )

    slug = probe.slug if probe.slug != "*" else response.json()["type"].rpartition("/")[2]
    problem = assert_problem(response, 400, slug)
    assert slug in ("malformed-json", "invalid-request")
    if probe.pointer is not None:
        assert [probe.pointer] == [fault.pointer for fault in problem.errors]


@pytest.mark.parametrize("operation", POSTS, ids=named)
def test_types_are_strict(operation, service):
    """Each value of the example, given in another type, is refused with a pointer to it: "2" is no number."""
    for pointer, value in _leaves(operation.body):
        for other in _of_other_types(value):
            response = operation.ask(service, json=_replaced(operation.body, pointer, other))
            if response.status_code == 200 and (other is None or pointer.startswith("/requests/")):
                continue  # null says that a field is left out; a part of a batch is refused inside the answer
            problem = assert_problem(
                response, response.status_code, response.json()["type"].rpartition("/")[2]
            )
            if other is not None:
                assert problem.status == 400
                # Where the field may be an object of another shape, what is wrong is inside it.
                assert problem.errors[0].pointer in ("#" + pointer, f"#{pointer}/value")


@pytest.mark.parametrize("operation", POSTS, ids=named)
def test_whole_numbers_may_be_written_as_floats(operation, service):
    """2.0 is an integer to JSON Schema, and so to the service: the same answer, byte for byte."""
    assert operation.ask(service).content == operation.ask(service, json=_floats(operation.body)).content


@pytest.mark.parametrize("operation", POSTS, ids=named)
def test_required_fields_are_missed(operation, service):
    """A required field left out is refused with a pointer to it."""
    for name in _required(operation):
        body = {key: value for key, value in operation.body.items() if key != name}
        problem = assert_problem(operation.ask(service, json=body), 400, "invalid-request")
        assert [f"#/{name}"] == [fault.pointer for fault in problem.errors]


def _required(operation):
    from tests.contract.shape import document

    reference = operation.written["requestBody"]["content"]["application/json"]["schema"]["$ref"]
    return document()["components"]["schemas"][reference.rpartition("/")[2]].get("required", ())


def _leaves(value, pointer=""):
    if isinstance(value, dict):
        for name, item in value.items():
            yield from _leaves(item, f"{pointer}/{name}")
    elif isinstance(value, list):
        for index, item in enumerate(value):
            yield from _leaves(item, f"{pointer}/{index}")
    else:
        yield pointer, value


def _of_other_types(value):
    match value:
        case bool():
            return "true", 1, None
        case int() | float():
            return str(value), True, [value], {"value": value}, None
        case _:
            return 7, True, [value], {"value": value}, None


def _replaced(body, pointer, value):
    body = json.loads(json.dumps(body))
    *steps, last = pointer.split("/")[1:]
    place = body
    for step in steps:
        place = place[int(step) if isinstance(place, list) else step]
    place[int(last) if isinstance(place, list) else last] = value
    return body


MEDIA_TYPES = (
    {},
    {"content-type": ""},
    {"content-type": "text/plain"},
    {"content-type": "application/xml"},
    {"content-type": "application/json; charset=latin-1"},
    {"content-type": "application/jsonp"},
    {"content-type": "application/merge-patch+json"},
    {"content-type": "application/x-www-form-urlencoded"},
    {"content-type": "multipart/form-data; boundary=x"},
    {"content-type": "application/json", "content-encoding": "gzip"},
    {"content-type": "application/json", "content-encoding": "br"},
)


@pytest.mark.parametrize("headers", MEDIA_TYPES, ids=str)
@pytest.mark.parametrize("operation", POSTS, ids=named)
def test_another_media_type_is_refused(operation, headers, service):
    """A body not said to be plain JSON gets 415, with what would be taken (RFC 9110, 15.5.16)."""
    response = service.post(operation.url, content=msgspec.json.encode(operation.body), headers=headers)

    assert_problem(response, 415, "unsupported-media-type")
    assert response.headers.keys() & {"accept", "accept-encoding"}


@pytest.mark.parametrize(
    "media_type",
    [
        "application/json",
        "APPLICATION/JSON",
        "application/json; charset=utf-8",
        'application/json;charset="UTF-8"',
    ],
)
def test_json_is_taken_however_it_is_spelled(media_type, service):
    """Media types and charsets are compared without regard to case (RFC 9110, 8.3)."""
    operation = POSTS[0]
    response = operation.ask(
        service, content=msgspec.json.encode(operation.body), headers={"content-type": media_type}
    )

    assert 200 == response.status_code


@pytest.mark.parametrize(
    "method", ["GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "TRACE", "QUERY", "PROPFIND"]
)
@pytest.mark.parametrize("operation", listed(), ids=named)
def test_another_method_is_refused(operation, method, service):
    """A method an address does not answer gets 405 with those it does (RFC 9110, 15.5.6)."""
    if method in operation.allowed.split(", "):
        return
    response = service.request(method, operation.url)

    assert operation.allowed == response.headers["allow"]
    if method == "HEAD":
        assert (405, b"") == (response.status_code, response.content)
    else:
        assert_problem(response, 405, "method-not-allowed")


@pytest.mark.parametrize("operation", listed(), ids=named)
def test_options_lists_the_methods(operation, service):
    """OPTIONS says which methods an address answers (RFC 9110, 9.3.7)."""
    response = service.options(operation.url)

    assert (204, operation.allowed, b"") == (
        response.status_code,
        response.headers["allow"],
        response.content,
    )


@pytest.mark.parametrize(
    "path",
    ["/nothing", "/v1", "/v2/crown", "/v1/nothing/here", "/schema", "/schema/x", "/openapi.yaml", "/docs/nothing.js",
     "/docs/../settings.py", "/%00", "/v1/standards/nothing", "/v1/standards/Growth", "/problems/nothing",
     "/index.html", "/v1/standards/yarn-weights/rows", "/.well-known/nothing", "/v1/standards/%2e%2e%2f"],
)  # fmt: skip
@pytest.mark.parametrize("method", ["GET", "POST", "DELETE"])
def test_an_unknown_path_is_refused(path, method, service):
    """What is not there gets 404 as a problem detail, on every part of the tree and for every method."""
    response = service.request(method, path)
    if response.status_code == 405:  # the path of a template: only the method is judged
        assert method != "GET"
        return

    assert_problem(response, 404, "not-found")


@pytest.mark.parametrize("operation", listed(), ids=named)
def test_an_address_has_one_spelling(operation, service):
    """A slash too many is another address: caches and relative links would come apart."""
    if operation.path == "/":
        return
    root = str(service.base_url).removesuffix("/")
    path, mark, query = operation.url.partition("?")
    for other in (path + "/", "/" + path, path.replace("/", "//")):
        assert_problem(service.request(operation.method, root + other + mark + query), 404, "not-found")


@pytest.mark.parametrize("query", ["colour=red", "colour", "=", "a=1&b=2", "%ff=%ff", "x=%00"])
@pytest.mark.parametrize("operation", listed(), ids=named)
def test_an_unknown_parameter_is_refused(operation, query, service):
    """A parameter an operation does not take is refused by name, on calculations too."""
    separator = "&" if "?" in operation.url else "?"
    content = {"content": msgspec.json.encode(operation.body)} if operation.method == "POST" else {}
    response = service.request(
        operation.method, operation.url + separator + query, headers=JSON_TYPE, **content
    )

    problem = assert_problem(response, 400, "invalid-request")
    assert problem.errors[0].parameter is not msgspec.UNSET


@pytest.mark.parametrize("operation", GETS, ids=named)
def test_a_parameter_given_twice_is_refused(operation, service):
    """Of two values of one parameter neither is right; a list may be given item by item."""
    for parameter in operation.written.get("parameters", ()):
        if parameter["in"] == "query" and parameter["schema"].get("type") != "array":
            query = f"{parameter['name']}={parameter.get('example', 1)}"
            response = service.get(f"{operation.path}?{query}&{query}")
            problem = assert_problem(response, 400, "invalid-request")
            assert [parameter["name"]] == [fault.parameter for fault in problem.errors]


@pytest.mark.parametrize("operation", POSTS, ids=named)
def test_a_body_over_the_limit_is_refused(operation, service):
    """A body over the limit gets 413, announced or in chunks; one of the limit's own size is read."""
    settings = Settings()
    limit = settings.body_bytes
    example = msgspec.json.encode(operation.body)
    if (
        operation.ask(
            service, content=example + b" " * (limit + 1 - len(example)), headers=JSON_TYPE
        ).status_code
        == 200
    ):
        limit = settings.text_body_bytes

    full = example + b" " * (limit - len(example))
    assert 200 == operation.ask(service, content=full, headers=JSON_TYPE).status_code
    assert_problem(operation.ask(service, content=full + b" ", headers=JSON_TYPE), 413, "content-too-large")
    for pieces in ([full, b" "], [b" " * (limit + 1)], [b" "] * 9 + [full]):
        response = operation.ask(service, content=iter(pieces), headers=JSON_TYPE)
        assert_problem(response, 413, "content-too-large")
    assert 200 == operation.ask(service, content=iter([full[:1], full[1:]]), headers=JSON_TYPE).status_code


def test_the_heads_of_all_sizes_are_told_at_once(service):
    """Two heads of 560 cm and 520 cm beside a right one, and a size given twice, are one round trip."""
    heads = [{"value": value, "unit": "cm"} for value in (560, 56, 520)]
    sizes = [*({"head": head} for head in heads), {"adult": "man", "age_years": 12}]
    response = service.post("/v1/hats", json={"gauge": {"stitches": 20, "rows": 28}, "sizes": sizes})

    problem = assert_problem(response, 422, "cannot-be-knitted")
    assert [fault.pointer for fault in problem.errors] == [
        "#/sizes/0/head/value", "#/sizes/2/head/value", "#/sizes/3/adult",
    ]  # fmt: skip
    for fault in problem.errors:
        *_, size, name = fault.suggestion.pointer.split("/")
        sizes[int(size)][name] = fault.suggestion.value
    assert service.post("/v1/hats", json={"gauge": {"stitches": 20}, "sizes": sizes}).status_code == 200


@pytest.mark.parametrize("slug", ["not-found", "cannot-be-knitted", "malformed-json"])
def test_a_problem_type_answers_with_a_page(slug, service):
    """The type of a problem is the address of a page about it, the only HTML there is beside the reference."""
    response = service.get(f"/problems/{slug}")

    assert (200, "text/html; charset=utf-8") == (response.status_code, response.headers["content-type"])
    assert "default-src 'none'" in response.headers["content-security-policy"]


def test_every_kind_of_problem_has_its_page(service):
    """Each kind is listed at `/problems` and has a page there."""
    from roundwright.web.problems import PROBLEM_TYPES

    page = service.get("/problems").text
    for kind in PROBLEM_TYPES.values():
        assert f"problems/{kind.slug}" in page
        assert kind.title in service.get(f"/problems/{kind.slug}").text


def test_a_fault_of_our_own_is_a_problem_too(monkeypatch, capfd):
    """A crash gets 500 with nothing of its inside, and is logged with its id but without what was sent."""
    from roundwright.web.routes.gauge import convert_gauge

    monkeypatch.setattr(convert_gauge, "calculate", lambda request: request.nothing)
    with serving(Settings()) as address:
        response = httpx.post(
            f"{address}/v1/gauge/convert",
            json={"gauge": {"stitches": 12.345678}},
            headers={"request-id": "quillhaven-7"},
        )
    problem = assert_problem(response, 500, "internal-error")

    assert "nothing" not in problem.detail
    logged = [line for line in capfd.readouterr().err.splitlines() if "crash" in line]
    assert "quillhaven-7" == json.loads(logged[0])["request_id"]
    assert "12.345678" not in logged[0]


def test_the_last_of_a_name_given_twice_counts(service):
    """Of a name given twice in one object the last value counts, as in every JSON API (RFC 8259, 4)."""
    body = b'{"gauge": {"stitches": 18, "stitches": 22}}'
    answer = service.post("/v1/gauge/convert", content=body, headers=JSON_TYPE)

    assert answer.json() == service.post("/v1/gauge/convert", json={"gauge": {"stitches": 22}}).json()


def test_errors_are_bounded(service):
    """A name of 50,000 characters, or a path of 10,000, is cut in the problem."""
    name = "wool\u00e9~/" * 6_000
    long_name = service.post("/v1/gauge/convert", json={name: 1})
    long_path = service.get("/v1/" + "x" * 10_000)

    assert (400, 404) == (long_name.status_code, long_path.status_code)
    assert len(long_name.content) < 8_000
    assert len(long_path.content) < 4_000


@pytest.mark.parametrize(
    ("method", "path", "query", "body"),
    [
        ("POST", "/v1/hats", {}, {f"silhouettf{number}": 1 for number in range(2_500)}),
        ("POST", "/v1/needles/split", {}, {"rounds": [{"steps": [{"stitch": "k2togg"}] * 2_500}]}),
        ("GET", "/v1/cast-on", {f"silhouettf{number}": 1 for number in range(200)}, None),
        ("GET", "/handout", {f"silhouettf{number}": 1 for number in range(200)}, None),
    ],
)
def test_only_faults_that_are_named_are_put_into_words(
    method: str, path: str, query: Any, body: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of thousands of faults twenty are looked up among the names there are, since no more are told."""
    details: list[str] = []
    fault = request_faults._fault
    monkeypatch.setattr(
        request_faults, "_fault", lambda *arguments: details.append(arguments[1]) or fault(*arguments)
    )
    content = msgspec.json.encode(body) if body else b""
    answer = Service().ask(method, path, urlencode(query).encode(), content)

    assert 400 == answer.status
    assert request_faults.MOST_FAULTS == len(json.loads(answer.body)["errors"]) == len(details)


@pytest.mark.parametrize("sizes", [{}, 5, [5]])
def test_an_example_of_a_size_can_be_sent_as_it_is(sizes: Any, service: httpx.Client) -> None:
    """Who sends no list of sizes reads one that the operation accepts: a measured head."""
    gauge = {"stitches": 20, "rows": 28}
    answer = service.post("/v1/hats", json={"gauge": gauge, "sizes": sizes})
    example = json.loads(answer.json()["errors"][0]["detail"].partition("such as ")[2].rstrip("."))

    assert answer.status_code == 400
    size = example[0] if isinstance(example, list) else example
    assert service.post("/v1/hats", json={"gauge": gauge, "sizes": [size]}).status_code == 200


@pytest.mark.parametrize(
    ("field", "wrong"),
    [("colours", ["rust"]), ("ease", "snug"), ("needles", "dpn"), ("brim", "rib"), ("yarn", "wool"), ("crown", 8),
     ("depth", True), ("body", True)],
)  # fmt: skip
def test_an_example_of_a_field_can_be_sent_as_it_is(field: str, wrong: Any, service: httpx.Client) -> None:
    """Who sends a field in another shape reads examples that the operation accepts, each by itself."""
    hat = {"gauge": {"stitches": 20, "rows": 28}, "sizes": [{"adult": "woman"}]}
    detail = service.post("/v1/hats", json=hat | {field: wrong}).json()["errors"][0]["detail"]
    examples = re.split("such as |write ", detail)[1].rstrip(".").split(" or ")

    for example in examples:
        assert service.post("/v1/hats", json=hat | {field: json.loads(example)}).status_code == 200


CLASS_HAT = {"gauge": {"stitches": 20, "rows": 28}, "sizes": [{"adult": "woman"}]}


@pytest.mark.parametrize(
    ("path", "body", "ending"),
    [
        ("cast-on", {"gauge": {"stitches": 20}, "head": {"value": 56}}, ": one of cm, in, m, mm, yd."),
        ("cast-on", {"gauge": {"stitches": 20}, "size": "toddler"}, ': write {"chart":"toddler"}.'),
        ("cast-on", {"gauge": {"stitches": 20}, "size": "female"}, ': write {"adult":"woman"}.'),
        ("cast-on", {"gauge": {"stitches": 20}, "multiple": 8}, ', such as {"of":4}.'),
        ("hats", CLASS_HAT | {"crown": "dome"}, ': write {"style":"dome"}.'),
        ("hats", CLASS_HAT | {"crown": 8}, ', such as {"style":"wedge"}.'),
        ("hats", CLASS_HAT | {"brim": "garter"}, ': write {"kind":"garter"}.'),
        ("shaping/along", {"rows": 20}, ", such as 8."),
        ("patterns/proofread", {"text": "Rnd 1: knit.", "cast_on": []}, ", such as [64,72,80]."),
        ("needles/split", {"stitches": 64, "needles": [20, 22, 22]}, ", such as 4."),
        ("needles/split", {"crown": {"stitches": 64}, "needles": 3}, " It stands beside 'crown', not in it."),
        ("hats", CLASS_HAT | {"brim": {"ease": {"percent": -5}}}, " It stands beside 'brim', not in it."),
        ("shaping/even", {"stitches": 100, "decrease": 8}, " Perhaps 'change' of -8 is meant."),
        ("shaping/even", {"stitches": 100, "increase": 8}, " Perhaps 'change' of 8 is meant."),
        (
            "hats",
            CLASS_HAT | {"body": 5},
            'This must be an object, not a whole number, such as {"adjust_in":"body"}.',
        ),
        ("counts/check", {"needles": "one each"}, ", such as [16,16,16,15]."),
    ],
)
def test_a_refusal_ends_with_what_to_write(path, body, ending, service):
    """Where a field is missing or has another shape, the answer ends with a value or the words that there are."""
    faults = service.post(f"/v1/{path}", json=body).json()["errors"]

    assert faults[0]["detail"].endswith(ending)


@pytest.mark.parametrize(
    ("path", "meant"),
    [
        ("/v1/cast-on?sts=20&head=56cm", "gauge_stitches"),
        ("/v1/cast-on?tension=20&head=56cm", "gauge_stitches"),
        ("/v1/drawings/hat.svg", "/v1/drawings/profile.svg"),
        ("/v1/drawings/hats.png", "/v1/drawings/profile.png"),
    ],
)
def test_an_address_by_another_word_names_the_one_there_is(
    path: str, meant: str, service: httpx.Client
) -> None:
    """A gauge is first of all its stitches, and the picture of a hat is its profile."""
    assert f"Perhaps {meant!r} is meant." in service.get(path).json()["detail"]


@pytest.mark.parametrize(
    ("size", "meant"),
    [
        ({"adult": "female"}, "woman"),
        ({"adult": "men"}, "man"),
        ({"age_months": 3, "sex": "male"}, "boy"),
        ({"chart": "preemie"}, "premie"),
    ],
)
def test_another_word_for_the_same_is_understood(
    size: dict[str, Any], meant: str, service: httpx.Client
) -> None:
    """A word of the same meaning is named, though it is spelled otherwise."""
    answer = service.post("/v1/hats", json={"gauge": {"stitches": 20, "rows": 28}, "sizes": [size]})

    assert f"Perhaps {meant!r} is meant." in answer.json()["errors"][0]["detail"]


def test_a_misspelt_field_comes_before_the_field_that_is_missing_for_it(service):
    """What the caller wrote is told first, in the one sentence that most callers show."""
    problem = service.post(
        "/v1/hats", json={"guage": {"stitches": 20}, "sizes": [{"head": {"value": 50, "unit": "cm"}}]}
    ).json()

    assert "Unknown field 'guage'. Perhaps 'gauge' is meant." in problem["detail"]
    assert ["unknown_field", "missing_field"] == [error["code"] for error in problem["errors"]]
