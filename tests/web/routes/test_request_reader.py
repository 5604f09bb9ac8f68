"""Bodies and parameters read strictly, and faults said so that a knitter can correct them."""

from typing import Annotated, Literal

import msgspec
import pytest
from msgspec import Meta, Struct

from roundwright.knitting.hat.needles import HatNeedles
from roundwright.web.problems import ProblemError
from roundwright.web.routes.request_reader import BodyReader, ParameterReader


class Ball(Struct, frozen=True, forbid_unknown_fields=True, tag_field="type", tag="ball"):
    """A ball of yarn."""

    grams: Annotated[float, Meta(ge=1, le=1000)]


class Cone(Struct, frozen=True, forbid_unknown_fields=True, tag_field="type", tag="cone"):
    """A cone of yarn."""

    tex: Annotated[int, Meta(ge=1, le=2000)]


class Basket(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """What a request may look like."""

    number: Annotated[int, Meta(ge=1, le=12)] = 1
    length: Annotated[
        Annotated[float, Meta(ge=0.5, le=99)] | None, Meta(description="Length in cm. Whole or not.")
    ] = None
    label: Annotated[str, Meta(min_length=1, max_length=5)] = "a"
    unit: Literal["cm", "in"] = "cm"
    washed: bool = False
    yarns: Annotated[tuple[Ball | Cone, ...], Meta(max_length=2)] = ()
    gauges: tuple[Literal["fine", "bulky"], ...] = ()


BODIES = BodyReader(Basket)
PARAMETERS = ParameterReader(Basket)


@pytest.mark.parametrize(
    ("body", "pointer", "detail"),
    [
        ('{"number": "2"}', "#/number", "This must be a whole number, not text: write 2 without quotation marks."),
        ('{"length": "14,5"}', "#/length",
         "This must be a number, not text: write 14.5, with a decimal point."),
        ('{"number": 2.5}', "#/number", "This must be a whole number, not a fraction: write 2 or 3."),
        ('{"number": true}', "#/number", "This must be a whole number, not true or false."),
        ('{"number": 13}', "#/number", "This must be at most 12."),
        ('{"number": 13.0}', "#/number", "This must be at most 12."),
        ('{"number": 0}', "#/number", "This must be at least 1."),
        ('{"length": 0}', "#/length", "This must be at least 0.5. Length in cm."),
        ('{"length": "long"}', "#/length", "This must be a number, not text."),
        ('{"length": ""}', "#/length", "This is empty: it must be a number."),
        ('{"length": "14 cm"}', "#/length", "This must be a number, not text: write 14."),
        ('{"washed": "yes"}', "#/washed", "This must be true or false, not text: write true."),
        ('{"yarns": {"type": "ball", "grams": 50}}', "#/yarns",
         'This must be a list, not an object: write [{"grams":50,"type":"ball"}].'),
        ('{"label": ""}', "#/label", "This must have at least 1 character."),
        ('{"label": "abcdef"}', "#/label", "This must have at most 5 characters."),
        ('{"unit": "ft"}', "#/unit", "This must be one of: cm, in."),
        ('{"unit": 3}', "#/unit", "This must be one of: cm, in."),
        ('{"gauges": ["fine", "thick"]}', "#/gauges/1", "This must be one of: bulky, fine."),
        ('{"yarns": {}}', "#/yarns", 'This must be a list, not an object, such as [{"type":"ball","grams":1}].'),
        ('{"yarns": [{}]}', "#/yarns/0/type", "The field 'type' is required."),
        ('{"yarns": [{"type": "skein"}]}', "#/yarns/0/type", "This must be one of: ball, cone."),
        ('{"yarns": [{"type": "ball", "grams": 5}, {"type": "cone", "tex": 5, "grams": 5}]}', "#/yarns/1/grams",
         "Unknown field 'grams'. The fields here are: type, tex."),
        ('{"Lengths": 5}', "#/Lengths", "Unknown field 'Lengths'. Perhaps 'length' is meant."),
        ('{"yarns": [{"type": "ball", "grams": 1}, {"type": "ball", "grams": 1}, {"type": "ball", "grams": 1}]}',
         "#/yarns", "This must have at most 2 entries."),
        ('{"a/b~c": 1}', "#/a~1b~0c",
         "Unknown field 'a/b~c'. The fields here are: number, length, label, unit, washed, yarns, gauges."),
    ],
)  # fmt: skip
def test_a_fault_is_placed_and_said(body, pointer, detail):
    """Each fault has a pointer to where it is (RFC 6901) and a sentence without a programmer's words.

    What the problem says is for those who read no further: it names the field.
    """
    with pytest.raises(ProblemError) as refused:
        BODIES.read(body.encode())

    field = pointer.removeprefix("#/").replace("/0", "[0]").replace("/1", "[1]").replace("/", ".")
    message = detail.replace("This", repr(field), 1) if detail.startswith("This ") else detail
    assert ("invalid-request", message) == (refused.value.slug, refused.value.detail)
    assert [(pointer, detail)] == [(fault.pointer, fault.detail) for fault in refused.value.faults]


@pytest.mark.parametrize(
    ("circulars", "detail"),
    [
        ("1", "This must be 2. The number of circulars, each of which holds half of the stitches;"),
        ("3", "This must be 2. The number of circulars, each of which holds half of the stitches;"),
        ('{"value": 60, "unit": "cm"}', "This must be a whole number, not an object: write 2."),
        ('"two"', "This must be a whole number, not text: write 2."),
    ],
)
def test_of_two_circulars_the_number_is_asked_for(circulars, detail):
    """A hat on circulars is on two (common practice): no other number is named, and a length is not asked for."""
    with pytest.raises(ProblemError) as refused:
        BodyReader(HatNeedles).read(f'{{"circulars": {circulars}}}'.encode())

    (fault,) = refused.value.faults
    assert fault.detail.startswith(detail)


def test_all_faults_are_named_at_once():
    """Every fault of a body has its code, its place and its sentence; the detail is the first, and how many follow."""
    with pytest.raises(ProblemError) as refused:
        BODIES.read(b'{"number": 13, "Label": "b", "yarns": [{"type": "ball", "gram": 5}], "unit": "CM"}')

    assert {
        ("#/number", "out_of_range"), ("#/Label", "unknown_field"), ("#/unit", "unknown_value"),
        ("#/yarns/0/gram", "unknown_field"), ("#/yarns/0/grams", "missing_field"),
    } == {(fault.pointer, fault.code) for fault in refused.value.faults}  # fmt: skip
    assert refused.value.detail.endswith("4 more in `errors`.")
    assert "Perhaps 'cm' is meant." in next(
        fault.detail for fault in refused.value.faults if fault.pointer == "#/unit"
    )


@pytest.mark.parametrize(
    ("body", "hint"),
    [
        (b"\xef\xbb\xbf{}", "byte order mark"),
        (b'{"length": 14,5}', "decimal point: 14.5"),
        (b"{'number': 2}", "double quotation marks"),
        (b'{"number": NaN}', "JSON has no NaN"),
        (b'{"washed": True}', "JSON writes true, false and null"),
        (b'{"number": 2, // twins\n}', "JSON has no comments"),
        ('{"number": 2, “label”: "a"}'.encode(), "straight double quotation marks"),
        (b'{"number": 2,}', "Leave out the comma"),
        (b'{"number": 2', "ends too early"),
    ],
)
def test_what_is_not_json_is_told_what_it_was_meant_as(body, hint):
    """A byte order mark, a decimal comma and single quotation marks are the usual reasons."""
    with pytest.raises(ProblemError, match=hint):
        BODIES.read(body)


def test_an_object_is_shown_by_its_first_choice():
    """An object that requires nothing is shown by the first of its fields that has a closed set of values."""
    with pytest.raises(ProblemError, match=r'such as \[\{"unit":"cm"\}\]'):
        BodyReader(tuple[Basket, ...]).read(b"{}")


def test_at_most_twenty_faults_are_named():
    """A body of thousands of unknown names gets an answer of a few lines."""
    with pytest.raises(ProblemError) as refused:
        BODIES.read(msgspec.json.encode({f"x{number}": number for number in range(5_000)}))

    assert len(refused.value.faults) == 20


def test_whole_numbers_may_be_written_as_floats():
    """2.0 is an integer to JSON Schema; where a number may be broken nothing changes."""
    assert Basket(number=2, length=2.0, yarns=(Cone(7),)) == BODIES.read(
        b'{"number": 2.0, "length": 2.0, "yarns": [{"type": "cone", "tex": 7.0}]}'
    )


def test_the_name_of_an_unknown_parameter_is_repeated_as_sent():
    """A parameter called `field` is not renamed when the problem speaks of parameters instead of fields."""
    with pytest.raises(ProblemError, match=r"^Unknown parameter 'field'\. The parameters here are: number, "):
        PARAMETERS.read(b"field=red", {})


@pytest.mark.parametrize("levels", [1, 31, 32])
def test_nesting_is_read_to_a_depth(levels):
    """Objects and lists may stand in one another 32 deep."""
    body = b"[" * levels + b"]" * levels

    assert BodyReader(list).read(body) is not None


@pytest.mark.parametrize("levels", [33, 500, 60_000])
def test_nesting_beyond_reason_is_refused(levels):
    """Deeper nesting is refused, long before it could cost anything."""
    for body in (b"[" * levels + b"]" * levels, b'{"a":' * levels + b"1" + b"}" * levels):
        with pytest.raises(ProblemError, match="nested too deeply"):
            BodyReader(dict | list).read(body)


@pytest.mark.parametrize(
    ("query", "expected"),
    [
        ("", Basket()),
        ("number=2", Basket(number=2)),
        ("number=2.0", Basket(number=2)),
        ("number=2e0", Basket(number=2)),
        ("length=2", Basket(length=2.0)),
        ("length=2.5&unit=in", Basket(length=2.5, unit="in")),
        ("label=5", Basket(label="5")),
        ("label=true", Basket(label="true")),
        ("label=%C3%A9%20+a", Basket(label="\u00e9  a")),
        ("washed=true", Basket(washed=True)),
    ],
)
def test_parameters_are_read_as_json_would_say_them(query, expected):
    """A number or truth value is spelled as in JSON; text is taken as it is."""
    assert (expected,) == PARAMETERS.read(query.encode(), {})


@pytest.mark.parametrize(
    "query",
    ["number=", "number=two", "number=%2B2", "number=02", "number=2,0", "number=0x2", "number=%202", "number=2_0",
     "number=%D9%A2", "number=1e999", "number=null", "number=NaN", "length=NaN", "length=Infinity", "length=-inf",
     "length=null", "length=.5", "length=5.", "washed=1", "washed=True", "washed=", "unit=CM", "unit=", "label=",
     "colour=red", "number=1&number=1", "number", "=1"],
)  # fmt: skip
def test_other_spellings_are_refused(query):
    """What JSON would not read as the value is refused, with the name of the parameter."""
    with pytest.raises(ProblemError) as refused:
        PARAMETERS.read(query.encode(), {})

    assert "invalid-request" == refused.value.slug
    assert [query.partition("=")[0]] == [fault.parameter for fault in refused.value.faults]


def test_what_a_path_names_may_not_be_there():
    """A wrong value in the path is an address that does not exist, not a wrong parameter."""
    with pytest.raises(ProblemError) as refused:
        PARAMETERS.read(b"", {"unit": "ft"})

    assert "not-found" == refused.value.slug


def test_an_object_of_the_body_is_in_a_link_what_it_consists_of(service):
    """`gauge=18` is told the three parameters that a gauge is."""
    problem = service.get("/v1/cast-on", params={"head": "43cm", "gauge": "18"}).json()
    assert "There are: gauge_stitches, gauge_rows, gauge_over." in problem["errors"][0]["detail"]
