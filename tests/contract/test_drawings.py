"""Pictures by address: what a page gets for one and for a wrong one, and addresses that mean their answers."""

from xml.etree import ElementTree as ET

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from roundwright.knitting.answers import Impossible
from roundwright.knitting.crown.finish import Finish
from roundwright.knitting.crown.picture import crown_picture
from roundwright.knitting.crown.request import Cadence, CrownRequest, CrownShape
from roundwright.knitting.crown.styles import STYLES
from roundwright.knitting.hat.picture import hat_picture_address
from roundwright.knitting.hat.request import Body, Brim, HatRequest, HatSize, Rib
from roundwright.knitting.quantities import Difference, Gauge, Length
from roundwright.knitting.shaping.picture import spacing_picture
from roundwright.knitting.shaping.request import EvenRequest, shaping_plan
from roundwright.knitting.sizing.cast_on import Ease
from roundwright.knitting.work.split_picture import needles_picture_address
from roundwright.knitting.work.split_request import SplitRequest
from roundwright.web.problems import Problem
from roundwright.web.routes.drawings import draw_crown, draw_needles, draw_profile, draw_spacing
from roundwright.web.routes.request_reader import ParameterReader
from tests.contract.shape import assert_problem, listed, named

DRAWINGS = [
    operation
    for operation in listed("GET")
    if operation.path.startswith("/v1/drawings/") and operation.path.endswith(".svg")
]

LENGTHS = st.builds(Length, st.floats(0.001, 1_000_000), st.sampled_from(["mm", "cm", "m", "in", "yd"]))
GAUGES = st.builds(
    Gauge,
    stitches=st.floats(0.1, 1000),
    rows=st.none() | st.floats(0.1, 1000),
    over=LENGTHS | st.just(Length(10.0, "cm")),
)
SHAPES = {
    "style": st.sampled_from(sorted(STYLES)),
    "sections": st.none() | st.integers(2, 300),
    "cadence": st.none()
    | st.builds(Cadence, plain_rounds=st.integers(0, 20), every_round_from=st.none() | st.integers(1, 600)),
    "close_at": st.none() | st.integers(1, 60),
    "decrease_at": st.sampled_from(["end", "start"]),
    "height": st.none() | LENGTHS,
    "worked": st.sampled_from(["in_the_round", "flat"]),
    "finish": st.sampled_from([Finish(), Finish(kind="cord")]),
}
NEEDLES = {"needles": st.none() | st.integers(2, 5), "tolerance": st.integers(0, 24)}
UNITS = st.sampled_from(["metric", "imperial"])


def reread(operation, address: str):
    """What the operation of an address understands by it, as the request of the trade it stands for."""
    path, _, query = address.partition("?")
    assert operation.template == path
    (parameters,) = ParameterReader(operation.request_type).read(query.encode(), {})
    return parameters.request()


@pytest.mark.parametrize("operation", DRAWINGS, ids=named)
def test_a_picture_is_what_an_img_shows(operation, service):
    """The answer is an SVG that may be kept, shown on any page, and does nothing when opened by itself."""
    response = operation.ask(service)

    assert "image/svg+xml" == response.headers["content-type"]
    assert "cross-origin" == response.headers["cross-origin-resource-policy"]
    assert response.headers["content-security-policy"].startswith("default-src 'none'")
    assert response.headers["etag"]
    assert "{http://www.w3.org/2000/svg}svg" == ET.fromstring(response.content).tag


@pytest.mark.parametrize("operation", DRAWINGS, ids=named)
@pytest.mark.parametrize(
    "title", ["</title><script>alert(1)</script>", '"><image href="x"/>', "\u0000&<>\u202e", "羊毛"]
)
def test_a_title_stays_text(operation, title, service):
    """Whatever a title holds is shown as text."""
    url = operation.url.partition("&title=")[0]
    response = service.get(url, params=dict(msgspec_params(operation), title=title))

    root = ET.fromstring(response.content)
    assert title.replace("\u0000", "\ufffd") == root.find("{http://www.w3.org/2000/svg}title").text
    assert {"svg", "title", "desc", "style", "g", "path", "rect", "circle", "polygon", "text", "tspan"} >= {
        element.tag.rpartition("}")[2] for element in root.iter()
    }


def msgspec_params(operation) -> dict:
    return {
        parameter["name"]: parameter["example"]
        for parameter in operation.written["parameters"]
        if "example" in parameter and parameter["name"] != "title"
    }


@pytest.mark.parametrize("operation", DRAWINGS, ids=named)
def test_a_theme_is_another_picture(operation, service):
    """Each theme has its own bytes and its own tag."""
    answers = [
        service.get(operation.url, params=dict(msgspec_params(operation), theme=theme))
        for theme in ("auto", "light", "dark")
    ]

    assert 3 == len({answer.content for answer in answers})
    assert 3 == len({answer.headers["etag"] for answer in answers})


@pytest.mark.parametrize(
    ("query", "parameter"),
    [
        ("crown.svg?stitches=88&style=gathered&chart=wedge", "chart"),
        ("crown.svg?stitches=88&every_round_from=3", "plain_rounds"),
        ("crown.svg?stitches=88&gauge_rows=30", "gauge_stitches"),
        ("crown.svg?stitches=88&style=cone&height=20cm", "gauge_stitches"),
        ("crown.svg?stitches=88&style=wedge&sections=60", "sections"),
        ("crown.svg?stitches=88&needles=3&worked=flat", "worked"),
        ("crown.svg?stitches=88&gauge_stitches=1000&gauge_over=1cm", "gauge_stitches"),
        ("profile.svg?gauge_stitches=22", "head"),
        ("profile.svg?gauge_stitches=22&head=2cm", "head"),
        ("profile.svg?gauge_stitches=22&head=56cm&adult=man", "adult"),
        ("profile.svg?gauge_stitches=22&head=56cm&body_length=2mm", "body_length"),
        ("profile.svg?gauge_stitches=22&head=56cm&ease_percent=-5&ease_length=1cm", "ease_length"),
        ("needles.svg?stitches=66&round=1", "round"),
        ("needles.svg?stitches=66&split=22-22", "split"),
        ("needles.svg?stitches=7&style=wedge", "stitches"),
        ("spacing.svg?stitches=10&change=-8", "change"),
        ("spacing.svg?stitches=1000&change=300", "change"),
    ],
)
def test_an_error_names_its_parameter(query, parameter, service):
    """What cannot be knitted, or drawn, is 422 with the parameter it comes from and the nearest that works."""
    problem = assert_problem(service.get(f"/v1/drawings/{query}"), 422, "cannot-be-knitted")

    assert parameter == problem.errors[0].parameter
    assert problem.nearest


@pytest.mark.parametrize(
    "query",
    [
        "crown.svg",
        "crown.svg?stitches=88.5",
        "crown.svg?stitches=601",
        "crown.svg?stitches=88&height=0cm",
        "crown.svg?stitches=88&height=20",
        "crown.svg?stitches=88&height=1e3cm",
        "crown.svg?stitches=88&theme=sepia",
        "crown.svg?stitches=88&stitches=80",
        "profile.svg?head=56cm",
        "needles.svg?stitches=66&split=66",
        "spacing.svg?stitches=2001&change=1",
        f"crown.svg?stitches=88&title={'x' * 61}",
    ],
)
def test_a_wrong_parameter_is_refused(query, service):
    """What contradicts the description is 400 and names the parameter."""
    problem = assert_problem(service.get(f"/v1/drawings/{query}"), 400, "invalid-request")

    assert problem.errors[0].parameter in query or "required" in problem.detail


@settings(max_examples=150, deadline=None)
@given(
    st.builds(
        CrownRequest, stitches=st.integers(8, 600), gauge=st.none() | GAUGES, units=UNITS, **SHAPES, **NEEDLES
    )
)
def test_the_address_of_a_crown_means_that_crown(request):
    """Read back, the address of a crown's picture is the request it was made of."""
    shape = CrownShape(**{name: getattr(request, name) for name in CrownShape.__struct_fields__})
    address = crown_picture(
        request.stitches,
        shape,
        request.gauge,
        needles=request.needles,
        tolerance=request.tolerance,
        units=request.units,
    )

    assert request == reread(draw_crown, address)


def _to_a_millionth(value: float) -> float:
    return round(value, 6)


WEARERS = st.one_of(
    st.builds(HatSize, head=LENGTHS),
    st.builds(HatSize, age_months=st.floats(0, 252), sex=st.none() | st.sampled_from(["girl", "boy"])),
    st.builds(HatSize, age_years=st.floats(0, 21), sex=st.none() | st.sampled_from(["girl", "boy"])),
    st.builds(HatSize, gestation_weeks=st.floats(22, 42)),
    st.builds(HatSize, gestation_weeks=st.just(30.0), postmenstrual_weeks=st.floats(30, 144)),
    st.builds(HatSize, adult=st.sampled_from(["woman", "man"])),
    st.builds(HatSize, chart=st.sampled_from(["premie", "toddler"])),
)
EASES = st.one_of(
    st.builds(Ease, percent=st.floats(-50, 50)),
    st.builds(
        Ease,
        length=st.builds(
            Difference, st.floats(-100, 100).map(_to_a_millionth), st.sampled_from(["cm", "in"])
        ),
    ),
)


@settings(max_examples=150, deadline=None)
@given(
    st.builds(
        HatRequest,
        gauge=GAUGES,
        sizes=st.tuples(WEARERS),
        ease=EASES,
        brim=st.builds(
            Brim,
            kind=st.sampled_from([None, "ribbed", "garter", "folded"]),  # without a kind: rolled
            length=st.none() | LENGTHS,
            rib=st.builds(Rib, st.integers(1, 12), st.integers(1, 12)),
            gauge=st.none() | GAUGES,
        ),
        body=st.builds(Body, length=st.none() | LENGTHS, gauge=st.none() | GAUGES),
        crown=st.builds(CrownShape, **SHAPES),
        units=UNITS,
    )
)
def test_the_address_of_a_hat_means_that_hat(request):
    """Read back, the address of the side view of a hat is the request it was made of."""
    for view in ("worn", "flat"):
        assert request == reread(draw_profile, hat_picture_address(request, 0, view))


def test_a_size_with_a_body_or_a_finish_of_its_own_keeps_it():
    """What a size or the hat says in place of the others is what the picture is asked for."""
    request = HatRequest(
        gauge=Gauge(stitches=20, rows=28),
        sizes=(
            HatSize(head=Length(50, "cm")),
            HatSize(head=Length(56, "cm"), body=Body(length=Length(18, "cm"))),
        ),
        finish=Finish(kind="cord"),
    )
    meant = reread(draw_profile, hat_picture_address(request, 1))

    assert Length(56, "cm") == meant.sizes[0].head
    assert Length(18, "cm") == meant.body.length
    assert "cord" == meant.crown.finish.kind


@settings(max_examples=100, deadline=None)
@given(
    st.builds(
        SplitRequest,
        stitches=st.integers(2, 600),
        crown=st.none() | st.builds(CrownShape, **SHAPES),
        hold=st.sampled_from(["double_pointed", "magic_loop", "two_circulars"]),
        multiple=st.integers(1, 24),
        split=st.none() | st.lists(st.integers(1, 300), min_size=2, max_size=5).map(tuple),
        gauge=st.none() | GAUGES,
        **NEEDLES,
    ),
    st.integers(0, 400),
)
def test_the_address_of_needles_means_those_needles(request, round_number):
    """Read back, the address of a picture of needles is the request it was made of, and the round."""
    address = needles_picture_address(request, round_number)

    assert request == reread(draw_needles, address)
    assert (f"round={round_number}" in address) == bool(round_number)


@settings(max_examples=100, deadline=None)
@given(
    stitches=st.integers(1, 3000),
    change=st.integers(-500, 500),
    method=st.none() | st.sampled_from(["m1", "kfb", "k2tog", "cdd"]),
    worked=st.sampled_from(["in_the_round", "flat"]),
)
def test_the_address_of_a_change_means_that_change(stitches, change, method, worked):
    """Read back, the address of a picture of spacing makes the same change; there is none where none is drawn."""
    request = EvenRequest(stitches=stitches, change=change, method=method, worked=worked)
    try:
        plan, _ = shaping_plan(request)
    except Impossible:
        return
    address = spacing_picture(request, plan)

    assert (address is None) == (stitches > 2000 or plan.times > 200)
    if address is not None:
        assert plan == shaping_plan(reread(draw_spacing, address))[0]


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_every_valid_address_is_answered(data):
    """What the description allows is a picture or a fact of knitting. What it costs, `tests.load.worst` measures."""
    operation, style = data.draw(st.sampled_from([draw_crown, draw_profile, draw_needles])), sorted(STYLES)
    request = data.draw(
        st.builds(
            operation.request_type,
            style=st.sampled_from(style),
            sections=st.none() | st.integers(2, 300),
            plain_rounds=st.none() | st.integers(0, 20),
            gauge_stitches=st.floats(0.1, 1000),
            gauge_rows=st.none() | st.floats(0.1, 1000),
            **(
                {"head": st.sampled_from(["40mm", "56cm", "1m", "0.0001mm", "9999999m"])}
                if operation is draw_profile
                else {"stitches": st.integers(8, 600), "needles": st.none() | st.integers(2, 5)}
            ),
        )
    )
    refused = _refused(operation, request)

    assert refused is None or refused in operation.request_type.__struct_fields__


def _refused(operation, request) -> str | None:
    """The parameter for which a picture is refused; None for a picture."""
    try:
        operation.calculate(request)
    except Impossible as error:
        return error.pointer.removeprefix("#/")
    return None


def test_the_answer_of_a_crown_leads_to_its_picture(service):
    """The path in the answer is that of a chart, with the needles asked for; a crown of too many rounds has none."""
    request = {"stitches": 72, "style": "wedge", "sections": 8, "needles": 3}
    path = service.post("/v1/crown", json=request).json()["drawing"]
    picture = service.get(path)
    long = service.post(
        "/v1/crown", json={"stitches": 600, "style": "wedge", "sections": 2, "cadence": {"plain_rounds": 0}}
    )

    assert 200 == picture.status_code
    assert "needle 3" in picture.text
    assert len(long.json()["rounds"]) > 150
    assert long.json()["drawing"] is None


def test_an_error_is_a_problem_with_what_works(service):
    """A look-up says the nearest that works as a calculation does."""
    response = service.get("/v1/drawings/needles.svg?stitches=66&round=1")

    assert "round 0" == msgspec.json.decode(response.content, type=Problem).nearest
