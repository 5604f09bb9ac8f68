"""The GET form of a calculation: the answer of its POST, from a link, and everything a link needs."""

import random
from urllib.parse import urlencode

import msgspec
import pytest

from roundwright.web.problems import ProblemError
from roundwright.web.routes import all_operations
from roundwright.web.routes.flat_parameters import flattened, left_out, nested, parameters_of
from roundwright.web.routes.operation import Calculation
from roundwright.web.routes.query_form import QueryForm
from roundwright.web.routes.request_reader import BodyReader, ParameterReader
from tests.contract.shape import assert_problem
from tests.long.making import Maker

CALCULATIONS = [operation for operation in all_operations() if isinstance(operation, Calculation)]
FORMS = [operation for operation in all_operations() if isinstance(operation, QueryForm)]


def named(operation):
    """How pytest calls an operation."""
    return operation.id


def query(values) -> str:
    """Parameters as in an address."""
    return urlencode({name: spelled(value) for name, value in values.items()})


def spelled(value) -> str:
    """A value as an address has it."""
    match value:
        case bool():
            return str(value).lower()
        case list():
            return ",".join(map(str, value))
        case _:
            return str(value)


@pytest.mark.parametrize("form", FORMS, ids=named)
def test_a_link_has_the_bytes_of_the_post(form, service):
    """What the parameters stand for, sent as a body, gets the same answer byte for byte."""
    values = form.example_value()
    get = service.get(f"{form.template}?{query(values)}")
    post = service.post(form.template, json=nested(form.request_type, values))

    assert 200 == get.status_code == post.status_code
    assert get.content == post.content
    assert get.headers["etag"]


@pytest.mark.parametrize("form", FORMS, ids=named)
def test_any_request_has_a_link(form):
    """A request by chance, as far as parameters can hold it, is read from them as from a body, or neither is read."""
    maker = Maker(form.request_type, random.Random(17))
    bodies, links = BodyReader(form.request_type), ParameterReader(form.request_type)
    read = 0
    for _ in range(300):
        values = flattened(form.request_type, maker.valid())
        body = msgspec.json.encode(nested(form.request_type, values))
        try:
            (linked,) = links.read(query(values).encode(), {})
        except ProblemError:
            with pytest.raises(ProblemError):
                bodies.read(body)
        else:
            read += 1
            assert bodies.read(body) == linked
    assert read > 50


def test_every_request_that_can_be_flat_has_a_link():
    """Only lists of objects and long texts keep a calculation from it: sizes, offers, patterns, and work with a hat."""
    without = {operation.id for operation in CALCULATIONS if operation.by_query is None}

    assert without == {
        operation.id for operation in CALCULATIONS if parameters_of(operation.request_type) is None
    }
    assert {"recommendSize", "checkSize", "planHats", "writeHandout", "proofreadPattern"} <= without
    assert ["rounds", "hat"] == left_out(
        next(operation for operation in FORMS if "/yarn/estimate" in operation.path).request_type
    )


CAST_ON = "/v1/cast-on?head=43cm&gauge_stitches=18"


def test_the_link_of_the_readme(service):
    """43 cm at 18 stitches in 10 cm, worn 10 % smaller, is 69.66: 70 stitches by arithmetic."""
    assert 70 == service.get(CAST_ON).json()["stitches"]


@pytest.mark.parametrize(
    ("changed", "parameter", "words"),
    [
        ("&gauge_row=24", "gauge_row", "'gauge_rows' is meant"),
        ("&Units=metric", "Units", "'units' is meant"),
        ("&ease_length=-4,5cm", "ease_length", "with a decimal point"),
        ("&needle=5", "needle", "such as"),
        ("&needle=5ft", "needle", "such as"),
        ("&needle=0cm", "needle", "such as"),
        ("&gauge_over=10cm&gauge_over=4in", "gauge_over", "given twice"),
        ("&gauge_rows=0", "gauge_rows", "at least 0.1"),
        ("&units=inches", "units", "imperial, metric"),
    ],
)
def test_a_wrong_parameter_is_named(changed, parameter, words, service):
    """A fault names the parameter as it stands in the address, and what would do."""
    problem = assert_problem(service.get(CAST_ON + changed), 400, "invalid-request")

    assert [parameter] == [fault.parameter for fault in problem.errors]
    assert words in problem.errors[0].detail


def test_all_parameters_that_are_missing_are_named(service):
    """A link without a gauge is told which parameter is missing."""
    problem = assert_problem(service.get("/v1/gauge/substitute"), 400, "invalid-request")

    assert ["pattern_stitches", "yours_stitches"] == [fault.parameter for fault in problem.errors]


@pytest.mark.parametrize(
    ("changed", "parameter"),
    [
        ("&multiple_plus=2", "multiple_of"),  # the document cannot say that the two go together
        ("&size_age_months=6", "size_head"),
        ("&gauge_over=1mm", "gauge_stitches"),
    ],
)
def test_what_cannot_be_knitted_names_its_parameter(changed, parameter, service):
    """422 points to a parameter where the POST points into the body."""
    problem = assert_problem(service.get(CAST_ON + changed), 422, "cannot-be-knitted")

    assert [parameter] == [fault.parameter for fault in problem.errors]


def test_a_list_has_commas_or_comes_in_several_parameters(service):
    """`needles=12,13` and `needles=12&needles=13` say the same."""
    work = "/v1/counts/check?crown_stitches=64&crown_style=wedge&crown_sections=8&crown_needles=4&round=3"
    commas = service.get(f"{work}&needles=12,13,12,12")

    assert 200 == commas.status_code
    assert commas.content == service.get(f"{work}&needles=12&needles=13&needles=12&needles=12").content
