"""The content of a handout: the same numbers and texts in each format."""

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
from roundwright.knitting.hat.request import HatRequest
from roundwright.language.words import ENGLISH_WORDS, words_of
from roundwright.wording.handout.content import HandoutRequest
from roundwright.wording.handout.html import html
from roundwright.wording.handout.text import markdown, plain_text
from tests.support.handouts import (
    CLASS,
    FORMATS,
    Page,
    handout_of,
    numbers_in,
    planned_numbers,
    post_handout,
    rendered_markdown,
)
from tests.support.hats import hats


@pytest.mark.parametrize("media_type", FORMATS)
def test_every_format_has_the_numbers_of_the_plan(media_type: str, service: httpx.Client) -> None:
    """Cast-ons, counts and needles after each round of each crown, balls and kits, read back, are those of `/v1/hats`.

    And there is a box for each round: brim, body and crown of every size.
    """
    numbers = numbers_in(media_type, post_handout(service, media_type).content)

    assert planned_numbers() == numbers


@pytest.mark.parametrize(
    ("units", "margin"), [("metric", None), ("imperial", None), ("metric", 0), ("metric", 25)]
)
def test_the_yarn_of_one_hat_is_one_figure(units: str, margin: float | None) -> None:
    """Materials, the table of yarn to buy and its balls have the same amounts, and both say what is included.

    A swatch has 560 stitches of sqrt(21.6 / 5.6) = 1.96 cm, 6.8 % more at the most: 11.8 m; of 4 in 12.1 m, 13.3 yd.
    """
    yarn = {"mass": {"value": 50, "unit": "g"}, "length": {"value": 105, "unit": "m"}}
    more = {} if margin is None else {"margin_percent": margin}
    handout = handout_of(sizes=[{"age_months": 9}, {"adult": "man"}], yarn=yarn, units=units, **more)
    text = plain_text(handout, ENGLISH_WORDS).decode()
    material = re.search(r"for one hat ([\d.]+) \(([\d.]+)\) \w+ or ([\d.]+) \(([\d.]+)\) \w+, (.+)", text)
    assert material
    table = [re.findall(r"[\d.]+", row[2]) for row in handout.shopping.rows]

    assert [[material[1], material[3]], [material[2], material[4]]] == table
    included = f"{10 if margin is None else margin} % for tails and mistakes"
    swatch = "a swatch of 10 cm × 10 cm takes 12 m more"
    if units == "imperial":
        swatch = "a swatch of 4 in × 4 in takes 14 yd more"
    assert material[5] == f"{included} included; {swatch}"
    assert any(f"{included} is included; {swatch}." in note for note in handout.shopping.notes)


def test_the_smallest_hat_has_no_margin_for_its_swatch() -> None:
    """The margin of a hat for 28 weeks is under 4 m, and its swatch of 1,120 stitches takes 17 m (28 by 40)."""
    request = {
        "gauge": {"stitches": 28, "rows": 40},
        "sizes": [{"gestation_weeks": 28}],
        "yarn": {"mass": {"value": 25, "unit": "g"}, "length": {"value": 110, "unit": "m"}},
    }
    (size,) = hats(**request)["sizes"]
    to_buy, used = size["yarn"]["to_buy"]["amount"], size["yarn"]["used"]["high"]

    assert size["yarn"]["swatch"]["length"]["value"] > to_buy["length"]["value"] - used["length"]["value"]
    assert "10 % for tails and mistakes is included; a swatch of 10 cm × 10 cm takes 17 m more." in text_of(
        **request
    )


@pytest.mark.parametrize("makers", [(1, 1), (3, 7), (1, 12)])
@pytest.mark.parametrize("stitches", range(16, 30, 3))
def test_the_yarn_of_all_is_what_the_table_adds_up_to(stitches: int, makers: tuple[int, int]) -> None:
    """Who adds up the printed metres of all knitters comes to the printed sum, though both are rounded up."""
    handout = handout_of(
        gauge={"stitches": stitches, "rows": 1.4 * stitches},
        sizes=[{"age_months": 9, "makers": makers[0]}, {"adult": "man", "makers": makers[1]}],
    )
    (note,) = handout.shopping.notes
    (for_all,) = re.findall(r": ([\d.]+) m\.", note)

    assert float(for_all) == sum(
        int(row[1]) * float(row[2].removesuffix(" m")) for row in handout.shopping.rows
    )


def test_whole_balls_are_not_told_as_balls_that_are_shared() -> None:
    """Hats of 230 and 259 m from balls of 70 m: three whole balls each, and 20 and 49 m out of one ball (common
    practice).
    """
    text = text_of(
        gauge={"stitches": 16, "rows": 22},
        sizes=[{"label": label, "head": {"value": cm, "unit": "cm"}} for label, cm in (("S", 55), ("L", 59))],
        yarn={"mass": {"value": 50, "unit": "g"}, "length": {"value": 70, "unit": "m"}, "held": 2},
        silhouette="beret",
        needles=5,
    )

    assert "Whole balls for one hat: S (3 balls); L (3 balls)." in text
    rest = "What is still lacking beside the whole balls, from one ball: "
    assert f"{rest}1 × L (49 m, 35 g each) and 1 × S (20 m, 14 g each) (1 ball)." in text


@pytest.mark.parametrize("language", ["en-US", "de", "fr", "es", "nl", "nb", "da"])
def test_a_sheet_has_no_word_of_the_interface(language: str) -> None:
    """A beret whose flat top does not lie flat, and wedges that gather: what helps is told in knitting words."""
    for head, crown in (
        (55, {}),
        (30, {"style": "wedge", "sections": 9}),
        (55, {"style": "gathered", "sections": 8}),
    ):
        handout = handout_of(
            gauge={"stitches": 16, "rows": 22},
            sizes=[{"head": {"value": head, "unit": "cm"}}],
            silhouette="beret",
            crown=crown,
            language=language,
        )
        text = plain_text(handout, words_of(language)).decode()

        assert "`" not in text
        assert bool(handout.before_handing_out) == (crown.get("style") != "gathered")


def test_a_note_on_two_growth_standards_is_not_for_a_knitter() -> None:
    """At 6 years the reference is another than below 5: the planner is told, the sheet of a knitter is not."""
    sizes = [{"age_years": 4}, {"age_years": 6}]

    assert "standards_meet" in [notice["code"] for notice in hats(sizes=sizes)["warnings"]]
    assert b"Netherlands" not in plain_text(handout_of(sizes=sizes), ENGLISH_WORDS)


@pytest.mark.parametrize("media_type", FORMATS)
def test_every_line_of_the_pattern_is_on_the_handout(media_type: str, service: httpx.Client) -> None:
    """Every line of the pattern of `/v1/hats` is in each format, in its order."""
    content = post_handout(service, media_type).content
    if media_type == "application/pdf":
        text = "\n".join(page.extract_text() for page in PdfReader(BytesIO(content)).pages)
    elif media_type == "text/plain":
        text = content.decode()
    else:
        page = Page(content.decode()) if media_type == "text/html" else rendered_markdown(content.decode())
        text = "\n".join(line for _, line in page.lines)
    text, start = "".join(text.split()).lower(), 0
    for line in hats(**CLASS)["pattern"].splitlines():
        letters = "".join(line.split()).lower()
        assert letters in text[start:], line
        start = text.index(letters, start) + len(letters)


def test_the_class_gets_its_balls_and_the_choice_of_one_basket(service: httpx.Client) -> None:
    """Fourteen knitters need a ball each; from one basket the same hats take fewer, as the order of the plan says."""
    order = hats(**CLASS)["order"]
    text = post_handout(service, "text/plain").text

    assert f"Balls of their own for 14 knitters: {order['own']['balls']} balls, 119.00 EUR." in text
    assert f"{order['shared']['balls']} balls, 59.50 EUR." in text
    assert "From one ball: 1 × grown-up and 1 × nine months (4 balls); 1 × grown-up and" in text
    assert order["shared"]["balls"] < order["own"]["balls"]


def text_of(**request: Any) -> str:
    """The handout of a request as plain text."""
    return plain_text(handout_of(**request), ENGLISH_WORDS).decode()


def test_who_knits_alone_buys_no_kit() -> None:
    """A class pays by the kit, its price beside each size; one knitter buys balls."""
    alone = [{**CLASS["sizes"][0], "makers": 1}]
    texts = [text_of(**{**CLASS, "sizes": sizes}) for sizes in (CLASS["sizes"], alone)]
    assert ["Price of a kit" in text for text in texts] == [True, False]


def test_my_balls_in_place_of_yours_are_on_the_sheet() -> None:
    """The same order in other balls: 50 g / 125 m at 4.20 EUR, from one basket and one by one."""
    ball = {
        "mass": {"value": 50, "unit": "g"},
        "length": {"value": 125, "unit": "m"},
        "price": {"amount": 4.2, "currency": "EUR"},
    }
    order = hats(**CLASS, other_yarn=ball)["order_instead"]
    own, shared = order["own"]["balls"], order["shared"]["balls"]
    text = text_of(**CLASS, other_yarn=ball)
    assert (
        f"In the other yarn (50 g / 125 m a ball): {own} balls, {4.2 * own:.2f} EUR as balls of their own, "
        f"{shared} balls, {4.2 * shared:.2f} EUR in one basket. From one ball: "
    ) in text
    alone = {"gauge": CLASS["gauge"], "sizes": [{"adult": "woman"}], "other_yarn": {**ball, "name": "Lamb"}}
    assert "In the other yarn (Lamb, 50 g / 125 m a ball): 2 balls, 8.40 EUR." in text_of(**alone)


def test_a_basket_that_was_not_tried_every_way_says_so() -> None:
    """Beyond the bounds of the search first-fit-decreasing is a good answer, not the best for certain."""
    large_class = {**CLASS, "sizes": [{**size, "makers": 70} for size in CLASS["sizes"]]}
    sentence = "not every way was tried"
    assert hats(**large_class)["order"]["one_basket"]["method"] == "first_fit_decreasing"
    assert (
        sentence in text_of(**large_class),
        sentence in text_of(**CLASS),
    ) == (True, False)


def test_a_class_in_stripes_gets_its_balls_colour_by_colour(service: httpx.Client) -> None:
    """A ball has one colour: what to buy of each stands beside what to buy in all."""
    stripes = {"body": [{"colour": "navy", "rounds": 4}, {"colour": "cream", "rounds": 2}]}
    request = {**CLASS, "colours": stripes}
    order = hats(**request)["order"]
    text = service.post("/v1/hats/handout", json=request, headers={"accept": "text/plain"}).text
    for colour in order["colours"]:
        own, shared = colour["own"]["balls"], colour["shared"]["balls"]
        assert (
            f"In {colour['colour']}: {own} balls, {8.5 * own:.2f} EUR as balls of their own, {shared} ball"
            in text
        )
        from_a_ball = colour["one_basket"]["contents"][0]["balls"]
        line = next(line for line in text.splitlines() if line.startswith(f"In {colour['colour']}: "))
        assert "From one ball: " in line
        assert f"({from_a_ball} ball" in line
    price = sum(colour["one_basket"]["kits"][0]["price"]["amount"] for colour in order["colours"])
    assert f" {price:.2f} EUR\n" in text
    assert "Then work in stripes of navy (4 rounds) and cream (2 rounds), over and over to the top." in text


def test_stitches_to_slide_stand_before_the_round() -> None:
    """Where a decrease would lie on two needles, the sheet says what to slide first, as the plan does."""
    request = {
        "gauge": {"stitches": 20, "rows": 28},
        "sizes": [{"head": {"value": 41, "unit": "cm"}}],
        "crown": {"style": "wedge", "sections": 6},
        "needles": 4,
    }
    rounds = hats(**request)["sizes"][0]["crown"]["rounds"]
    sheet = handout_of(**request).sheets[0]
    with_moves = [round["number"] for round in rounds if round["moves"]]

    assert with_moves
    assert with_moves == [round.number for round in sheet.crown if round.slide]
    number = with_moves[0]
    first = rounds[number - 1]["moves"][0]
    move = f"{first['stitches']} from N{first['needle']} to N{first['needle'] + 1}"
    slide = sheet.crown[number - 1].slide
    assert f"First slide {move}" in slide
    text = plain_text(handout_of(**request), ENGLISH_WORDS).decode()
    assert re.search(rf"{re.escape(slide)}\n\[ \] +{number} ", text)


def test_a_silhouette_brings_its_brim() -> None:
    """A cuffed hat is turned up in its words and in its picture, though the request names no brim."""
    handout = handout_of(silhouette="cuffed", sizes=[{"adult": "woman"}])
    brim = next(section for section in handout.sections if section.heading == "Brim")

    assert any("turned up" in line.text for line in brim.lines)
    assert not any("rolls" in line.text for line in brim.lines)
    assert "unfolded" in handout.pictures()[1].caption


def test_without_needles_there_are_no_needle_columns() -> None:
    """A request without needles gets counts alone."""
    text = plain_text(handout_of(), ENGLISH_WORDS).decode()

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
def test_every_hat_has_a_handout_in_every_format(  # noqa: PLR0917 - drawn by name
    stitches, head, brim, style, wording, needles, name
) -> None:
    """Hats of any kind that can be knitted have a handout in each format."""
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
    for write in FORMATS.values():
        assert write(handout, ENGLISH_WORDS)
    counts = [[round.count for round in sheet.crown] for sheet in handout.sheets]
    page = Page(html(handout, ENGLISH_WORDS).decode())
    column = page.tables[1][0].index("Count")
    assert counts == [[int(row[column]) for row in table[1:]] for table in page.tables[1:]]


@pytest.mark.parametrize(("units", "paper"), [("metric", "a4"), ("imperial", "letter")])
def test_the_paper_follows_the_units_where_none_is_named(units: str, paper: str) -> None:
    """A4 goes with centimetres, Letter with inches (common practice); naming the paper decides."""
    assert paper == handout_of(units=units).paper
    assert "a4" == handout_of(units=units, paper="a4").paper


def test_a_handout_takes_what_the_hats_take(service: httpx.Client) -> None:
    """The handout's request is that of `/v1/hats` with `paper` added."""
    handout_fields = {field.name for field in msgspec.structs.fields(HandoutRequest)}
    hat_fields = {field.name for field in msgspec.structs.fields(HatRequest)}

    assert {"paper"} == handout_fields - hat_fields
    assert set() == hat_fields - handout_fields
    assert 200 == service.post("/v1/hats", json=CLASS).status_code
    assert 200 == post_handout(service, None).status_code


def test_more_rounds_than_a_handout_holds_are_refused_with_what_fits() -> None:
    """Twelve sizes of a long crown in a fine yarn do not fit; as many as the refusal says do."""
    request: dict[str, Any] = {
        "gauge": {"stitches": 44, "rows": 60},
        "sizes": [{"head": {"value": 40 + size, "unit": "cm"}} for size in range(12)],
        "crown": {"style": "wedge", "sections": 4},
    }
    with pytest.raises(Impossible) as refused:
        handout_of(**request)
    assert "#/sizes" == refused.value.pointer
    fit = int(re.search(r"the first (\d+) sizes", refused.value.nearest)[1])
    handout_of(**{**request, "sizes": request["sizes"][:fit]})
    with pytest.raises(Impossible):
        handout_of(**{**request, "sizes": request["sizes"][: fit + 1]})


# --- texts of callers ------------------------------------------------------------------------------------------------


HAZARDS = [
    "</style><script>alert(1)</script>",
    "# 1. *both* _ways_ `code` | ~~cut~~ [a](javascript:b) ![c](d) <b> &amp; \\",
    '#panic("x") #sys.inputs $ x^2 $ @label <label> = head // comment /* more',
    "\"quotes\" 'single' -- --- ... ~",
    "two\nlines\r\n\tand\u2028more",
    "bell\x07 null\x00 escape\x1b[31m",
]


@pytest.mark.parametrize("text", HAZARDS)
def test_what_looks_like_an_instruction_stays_text(text: str) -> None:
    """Names, labels and yarns of a caller are shown as they are, in one line, in every format."""
    shown = " ".join(re.sub(r"[\x00-\x1f\x7f-\x9f\u2028]", " ", text).split())
    handout = handout_of(
        name=text,
        sizes=[{"head": {"value": 45, "unit": "cm"}, "label": text[:40]}],
        yarn={"name": text, "mass": {"value": 100, "unit": "g"}, "length": {"value": 210, "unit": "m"}},
    )
    page, markdown_page = (
        Page(html(handout, ENGLISH_WORDS).decode()),
        rendered_markdown(markdown(handout, ENGLISH_WORDS).decode()),
    )
    pdf_text = "".join(
        page.extract_text() for page in PdfReader(BytesIO(FORMATS["application/pdf"](handout))).pages
    )

    assert [shown] == page.text_of("h1") == markdown_page.text_of("h1")
    assert any(line.startswith(f"{shown}, worsted") for line in page.text_of("li"))
    assert any(line.startswith(f"{shown}, worsted") for line in markdown_page.text_of("li", "p"))
    assert plain_text(handout, ENGLISH_WORDS).decode().startswith(f"{shown}\n\nSIZES\n")
    assert "".join(shown.split()) in "".join(pdf_text.split())
    assert not {"script", "a", "em", "strong", "code", "b"} & {
        tag for tag, _ in page.elements + markdown_page.elements
    }


@settings(max_examples=200, deadline=None)
@given(st.text(min_size=1, max_size=80))
def test_any_name_is_shown_as_it_is(name: str) -> None:
    """Whatever Unicode a name is made of, the page and the Markdown show it in one line."""
    handout = handout_of(name=name)
    page, markdown_page = (
        Page(html(handout, ENGLISH_WORDS).decode()),
        rendered_markdown(markdown(handout, ENGLISH_WORDS).decode()),
    )

    assert [handout.name] == page.text_of("h1")
    assert handout.name == markdown_page.text_of("h1")[0]
    assert handout.name.splitlines() == [handout.name]


@pytest.mark.parametrize("needles", [4, None])
def test_a_class_gets_the_help_that_every_class_needs(needles):
    """Before the cast-on: needles that grip, counting, measuring; on several needles how to work with two of them."""
    handout = handout_of(needles=needles)
    headings = [section.heading for section in handout.sections]
    helped = "\n".join(line.text for line in handout.sections[headings.index("In class")].lines)

    assert headings.index("In class") + 1 == headings.index("Cast on")
    assert "needles that grip" in helped
    assert ("knit with two" in helped) == (needles is not None)


WITH_WARNINGS: dict[str, Any] = {
    "sizes": [{"head": {"value": 56, "unit": "cm"}}, {"head": {"value": 56.4, "unit": "cm"}}],
    "gauge": {"stitches": 22},
    "brim": {"kind": "folded"},
    "colours": {"body": [{"colour": "navy", "rounds": 1}], "brim_purl": "cream"},
    "needles": {"double_pointed": 3, "double_pointed_length": {"value": 10, "unit": "cm"}},
}
"""Two sizes that come out as one, on needles too short for them, a two-colour rib turned up, no rows in the gauge."""


@pytest.mark.parametrize("media_type", FORMATS)
def test_every_format_has_what_to_mind(media_type: str) -> None:
    """What the plan warns of stands on the sheet or behind it: who knits from paper never sees the answer."""
    warnings = hats(**WITH_WARNINGS)["warnings"]
    assert {"needles_too_short", "sizes_alike", "floats_show", "rows_assumed"} <= {
        notice["code"] for notice in warnings
    }
    content = FORMATS[media_type](handout_of(**WITH_WARNINGS), ENGLISH_WORDS)
    text = "".join(
        "".join(page.extract_text() for page in PdfReader(BytesIO(content)).pages)
        if media_type == "application/pdf"
        else "".join(line for _, line in Page(content.decode()).lines)
        if media_type == "text/html"
        else content.decode().replace("\\", "")
    )
    text = "".join(text.split())

    for notice in warnings:
        assert "".join(notice["message"].replace("colour", "color").split()) in text


def test_what_the_knitter_can_do_nothing_about_is_not_on_the_sheet() -> None:
    """The order of the sizes and an option without effect are for whoever writes the request."""
    request = {
        "sizes": [{"adult": "woman"}, {"age_months": 3}],
        "crown": {"style": "gathered", "sections": 8},
    }
    codes = {notice["code"] for notice in hats(**request, gauge={"stitches": 20, "rows": 28})["warnings"]}

    assert {"option_unused", "sizes_out_of_order"} == codes
    assert "Before you begin" not in [section.heading for section in handout_of(**request).sections]


FOR_THE_TEACHER: dict[str, Any] = {
    "sizes": [{"adult": "woman"}],
    "gauge": {"stitches": 28, "rows": 20},
    "ease": {"percent": -40},
    "depth": {"value": 60, "unit": "cm"},
}
"""Counts that changed places, a hat that goes on no head, and deeper than any."""


@pytest.mark.parametrize("media_type", FORMATS)
def test_what_the_teacher_has_to_mind_is_on_a_page_of_its_own(media_type: str) -> None:
    """Behind the sheets: who prints does not see the answer of `/v1/hats`, and the class has no use for it."""
    warnings = {notice["code"]: notice["message"] for notice in hats(**FOR_THE_TEACHER)["warnings"]}
    content = FORMATS[media_type](handout_of(**FOR_THE_TEACHER), ENGLISH_WORDS)
    if media_type == "application/pdf":
        pages = [page.extract_text() for page in PdfReader(BytesIO(content)).pages]
        assert "For the teacher" in pages[-1]
        assert not any("For the teacher" in page for page in pages[:-1])
        text = "".join(pages)
    else:
        lines = Page(content.decode()).lines if media_type == "text/html" else []
        text = "".join(line for _, line in lines) or content.decode().replace("\\", "")
    before, _, after = "".join(text.split()).lower().partition("fortheteacher")

    for code in ("unusual_ease", "gauge_swapped", "unusual_depth"):
        message = "".join(warnings[code].split()).lower()
        assert message in after
        assert message not in before


def test_a_class_without_such_warnings_has_no_page_for_the_teacher() -> None:
    """The note on two references asks nothing of anybody."""
    for sizes in ([{"adult": "woman"}], [{"age_years": 4}, {"age_years": 6}]):
        assert handout_of(sizes=sizes, gauge={"stitches": 20, "rows": 28}).before_handing_out == ()


@pytest.mark.parametrize("wording", ["pattern", "beginner"])
def test_a_body_with_a_swatch_of_its_own_is_worked_as_the_swatch_was(wording: str) -> None:
    """Cables, lace or two colours: nobody but the knitter knows what its rounds are, and they are not plain ones."""
    handout = handout_of(
        sizes=[{"adult": "woman"}, {"adult": "man", "body": {"gauge": {"stitches": 22, "rows": 30}}}],
        gauge={"stitches": 20, "rows": 28},
        wording=wording,
    )
    work = [[part.work[-1].strip(".").lower() for part in sheet.straight] for sheet in handout.sheets]
    own = "work the stitch pattern in which the swatch of the body was knitted, keeping the count"

    assert work[0][-1].startswith("knit")
    assert work[1][-1] == own
    (body,) = (section for section in handout.sections if section.name == "body")
    assert [own in line.text.lower() for line in body.lines if "size" in line.text][-1]


@pytest.mark.parametrize(
    ("held", "ball_m", "needed"), [(1, 410, False), (2, 410, True), (2, 200, False), (3, 600, True)]
)
def test_strands_from_fewer_balls_are_told_where_they_come_from(held: int, ball_m: int, needed: bool) -> None:
    """Two strands from one ball are its two ends, or two balls wound of it (common practice)."""
    yarn = {"held": held, "mass": {"value": 100, "unit": "g"}, "length": {"value": ball_m, "unit": "m"}}
    handout = handout_of(sizes=[{"adult": "woman"}], gauge={"stitches": 18, "rows": 26}, yarn=yarn)
    (materials,) = (section for section in handout.sections if section.name == "materials")

    assert any("its inner and its outer end" in line.text for line in materials.lines) == needed


STRIPED: dict[str, Any] = {
    "colours": {"body": [{"colour": "navy", "rounds": 3}, {"colour": "cream", "rounds": 2}]},
    "crown": {"style": "wedge"},
    "needles": 4,
}


@pytest.mark.parametrize("wording", ["pattern", "beginner"])
def test_the_sheet_names_the_colour_of_every_round(wording: str) -> None:
    """Stripes of three and two rounds from the first round after the brim to the top: counted round by round."""
    handout = handout_of(**STRIPED, wording=wording)
    (size,) = hats(
        **STRIPED, gauge={"stitches": 20, "rows": 28}, sizes=[{"head": {"value": 45, "unit": "cm"}}]
    )["sizes"]
    expected = [
        "navy" if (size["body"]["rounds"] + round) % 5 < 3 else "cream"
        for round in range(len(size["crown"]["rounds"]))
    ]

    assert [round.work.partition(":")[0] for round in handout.sheets[0].crown] == expected
    assert "stripes of navy (3 rounds) and cream (2 rounds)" in plain_text(handout, ENGLISH_WORDS).decode()


def test_a_beginner_reads_where_the_colour_changes() -> None:
    """A change stands before its round, and rounds that are alike are not put together over it."""
    handout = handout_of(**STRIPED, wording="beginner")
    lines = next(section for section in handout.sections if section.heading == "Crown").lines
    colour, place = None, 0
    for line in lines:
        if line.text.strip().startswith("Change to "):
            colour = line.text.strip().removeprefix("Change to ").rstrip(".")
        elif line.kind == "round":
            first, _, last = (
                line.text.removeprefix("Rounds ").removeprefix("Round ").partition(":")[0].partition("-")
            )
            for _ in range(int(first), int(last or first) + 1):
                work = handout.sheets[0].crown[place].work
                assert colour is None or work.startswith(f"{colour}:")
                place += 1

    assert place == len(handout.sheets[0].crown)
    assert colour is not None


@pytest.mark.parametrize(("terms", "word"), [("us", "Centered"), ("uk", "Centred")])
def test_a_decrease_is_centred_as_the_country_spells_it(terms: str, word: str) -> None:
    """US and UK dictionaries: centered, centred."""
    handout = handout_of(crown={"style": "square"}, wording="beginner", terms=terms)

    assert f"{word} double decrease" in handout.sheets[0].crown[0].work
    assert any(
        f"{word} double decrease" in line.text for section in handout.sections for line in section.lines
    )
