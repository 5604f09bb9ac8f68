"""The handout: the same numbers in each of its forms, and how it is asked for."""

import asyncio
import re
from io import BytesIO
from typing import Any

import httpx
import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf import PdfReader

from roundwright.knitting.answers import Impossible
from roundwright.knitting.hat import request as hat_request
from roundwright.web.app import create
from roundwright.web.settings import Settings
from roundwright.wording.handout.content import HandoutRequest
from roundwright.wording.handout.html import html
from roundwright.wording.handout.text import plain_text
from tests.knitting.hat.test_plan import hats
from tests.support.handouts import CLASS, FORMS, Page, as_planned, given_as, handout_of, read_back, rendered

# --- the numbers ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("form", FORMS)
def test_every_form_tells_the_numbers_of_the_plan(form: str, service: httpx.Client) -> None:
    """Cast-ons, counts and needles after each round of each crown, and balls, read back, are those of `/v1/hats`.

    And there is a box for each round: brim, body and crown of every size.
    """
    told = read_back(form, given_as(service, form).content)

    assert as_planned() == told


@pytest.mark.parametrize("form", FORMS)
def test_everything_the_pattern_says_is_on_the_handout(form: str, service: httpx.Client) -> None:
    """Every line of the pattern of `/v1/hats` is in each form, in its order."""
    content = given_as(service, form).content
    if form == "application/pdf":
        said = "\n".join(page.extract_text() for page in PdfReader(BytesIO(content)).pages)
    elif form == "text/plain":
        said = content.decode()
    else:
        page = Page(content.decode()) if form == "text/html" else rendered(content.decode())
        said = "\n".join(text for _, text in page.lines)
    said, at = "".join(said.split()).lower(), 0
    for line in hats(**CLASS)["pattern"].splitlines():
        wanted = "".join(line.split()).lower()
        assert wanted in said[at:], line
        at = said.index(wanted, at) + len(wanted)


def test_the_class_gets_its_balls_and_the_choice_of_one_basket(service: httpx.Client) -> None:
    """Fourteen knitters need a ball each; from one basket the same hats take fewer, as the order of the plan says."""
    order = hats(**CLASS)["order"]
    text = given_as(service, "text/plain").text

    assert f"Balls of their own for 14 knitters: {order['own']['balls']} balls, 119.00 EUR." in text
    assert f"{order['shared']['balls']} balls, 51.00 EUR." in text
    assert order["shared"]["balls"] < order["own"]["balls"]


def test_stitches_to_slide_are_told_before_the_round() -> None:
    """Where a decrease would lie on two needles, the sheet says what to slide first, as the plan does."""
    asked = {
        "gauge": {"stitches": 20, "rows": 28},
        "sizes": [{"head": {"value": 41, "unit": "cm"}}],
        "crown": {"style": "wedge", "sections": 6},
        "needles": 4,
    }
    rounds = hats(**asked)["sizes"][0]["crown"]["rounds"]
    sheet = handout_of(**asked).sheets[0]
    slid = [one["number"] for one in rounds if one["moves"]]

    assert slid
    assert slid == [one.number for one in sheet.crown if one.slide]
    first = rounds[slid[0] - 1]["moves"][0]
    told = f"{first['stitches']} from N{first['needle']} to N{first['needle'] + 1}"
    assert f"First slide {told}" in sheet.crown[slid[0] - 1].slide
    text = plain_text(handout_of(**asked)).decode()
    assert re.search(rf"{re.escape(sheet.crown[slid[0] - 1].slide)}\n\[ \] +{slid[0]} ", text)


def test_without_needles_no_needles_are_told() -> None:
    """A request without needles gets counts alone."""
    text = plain_text(handout_of()).decode()

    assert "N1  N2" not in text
    assert "Cast on 80.\n" in text or re.search(r"Cast on \d+\.\n", text)


@pytest.mark.parametrize(("cm", "rounds"), [(20, 56), (40, 112), (60, 168)])
def test_a_long_straight_part_has_a_box_for_ten_rounds(cm: int, rounds: int) -> None:
    """Up to a hundred rounds each has a box; of more, a box stands for ten, and the last for the rest."""
    parts = handout_of(body={"length": {"value": cm, "unit": "cm"}}).sheets[0].straight
    brim, body = (part.rounds for part in parts)

    assert rounds == brim + body
    assert [brim, body if body <= 100 else -(-body // 10)] == [part.boxes for part in parts]


@settings(max_examples=30, deadline=None)
@given(
    stitches=st.floats(8, 40),
    head=st.integers(25, 62),
    brim=st.sampled_from(["rolled", "ribbed", "garter", "folded"]),
    style=st.sampled_from(["wedge", "quick", "dome", "cone", "square", "swirl", "gathered"]),
    wording=st.sampled_from(["pattern", "beginner"]),
    needles=st.sampled_from([None, 3, 4]),
    name=st.text(min_size=1, max_size=40),
)
def test_every_hat_has_a_handout_in_every_form(  # noqa: PLR0917 - drawn by name
    stitches, head, brim, style, wording, needles, name
) -> None:
    """Hats of any kind that can be knitted come out in each form, and no form fails."""
    try:
        handout = handout_of(
            name=name,
            gauge={"stitches": round(stitches, 1), "rows": round(stitches * 1.4, 1)},
            sizes=[
                {"head": {"value": head, "unit": "cm"}, "label": name},
                {"head": {"value": head + 3, "unit": "cm"}},
            ],
            brim={"kind": brim},
            crown={"style": style},
            wording=wording,
            needles=needles,
        )
    except Impossible:
        return
    for write in FORMS.values():
        assert write(handout)
    counts = [[one.count for one in sheet.crown] for sheet in handout.sheets]
    page = Page(html(handout).decode())
    where = page.tables[1][0].index("Count")
    assert counts == [[int(row[where]) for row in table[1:]] for table in page.tables[1:]]


# --- asking for it --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("accept", "given"),
    [
        (None, "text/markdown; charset=utf-8"),
        ("*/*", "text/markdown; charset=utf-8"),
        ("text/plain", "text/plain; charset=utf-8"),
        ("text/plain; charset=utf-8", "text/plain; charset=utf-8"),
        ("application/pdf, */*;q=0.1", "application/pdf"),
        ("text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8", "text/html; charset=utf-8"),
        ("application/*", "application/pdf"),
        ("text/*;q=0, */*", "application/pdf"),
    ],
)
def test_the_form_is_the_one_accepted(accept: str | None, given: str, service: httpx.Client) -> None:
    """`Accept` chooses the form (RFC 9110, 12.5.1), a browser's too; a caller who says nothing gets Markdown."""
    response = given_as(service, accept)

    assert 200 == response.status_code
    assert given == response.headers["content-type"]
    assert "accept" in response.headers["vary"].lower()
    assert "no-store" == response.headers["cache-control"]


def test_a_form_there_is_not_is_refused(service: httpx.Client) -> None:
    """406 names the forms there are (RFC 9110, 15.5.7)."""
    response = given_as(service, "application/json")

    assert 406 == response.status_code
    assert all(form in response.json()["detail"] for form in FORMS)


def test_the_request_for_the_hats_is_taken_as_it_is(service: httpx.Client) -> None:
    """What `/v1/hats` takes, the handout takes; `paper` is the one thing it takes beside it."""
    ours = {field.name for field in msgspec.structs.fields(HandoutRequest)}
    theirs = {field.name for field in msgspec.structs.fields(hat_request.HatRequest)}

    assert {"paper"} == ours - theirs
    assert set() == theirs - ours
    assert 200 == service.post("/v1/hats", json=CLASS).status_code
    assert 200 == given_as(service, None).status_code


@pytest.mark.parametrize("form", FORMS)
def test_the_same_body_gets_the_same_bytes(form: str, service: httpx.Client) -> None:
    """Calculations are pure: no date and no chance is in any form, the PDF's metadata included."""
    first, again = given_as(service, form).content, given_as(service, form).content

    assert first == again
    assert b"CreationDate" not in first
    assert b"ModDate" not in first


def test_nobody_waits_for_somebody_elses_pdf() -> None:
    """Setting a PDF takes longer than anything else; a caller who comes meanwhile is answered before it is done."""
    answered = []

    async def both() -> None:
        transport = httpx.ASGITransport(create(Settings()))
        async with httpx.AsyncClient(transport=transport, base_url="http://a") as service:

            async def ask(path: str, value: Any, accept: str) -> None:
                response = await service.post(path, json=value, headers={"accept": accept})
                assert 200 == response.status_code
                answered.append(response.headers["content-type"])

            await asyncio.gather(
                ask("/v1/hats/handout", CLASS, "application/pdf"),
                ask("/v1/gauge/convert", {"gauge": CLASS["gauge"]}, "application/json"),
            )

    asyncio.run(both())
    assert ["application/json", "application/pdf"] == answered


def test_more_rounds_than_a_handout_holds_are_refused_with_what_fits() -> None:
    """Twelve sizes of a long crown in a fine yarn do not fit; as many as the refusal says do."""
    asked: dict[str, Any] = {
        "gauge": {"stitches": 44, "rows": 60},
        "sizes": [{"head": {"value": 40 + size, "unit": "cm"}} for size in range(12)],
        "crown": {"style": "wedge", "sections": 4},
    }
    with pytest.raises(Impossible) as refused:
        handout_of(**asked)
    assert "#/sizes" == refused.value.pointer
    fit = int(re.search(r"the first (\d+) sizes", refused.value.nearest)[1])
    handout_of(**{**asked, "sizes": asked["sizes"][:fit]})
    with pytest.raises(Impossible):
        handout_of(**{**asked, "sizes": asked["sizes"][: fit + 1]})
