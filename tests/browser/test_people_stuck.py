"""The page for people, third view: from a wrong count to the mend."""

import pytest
from playwright.sync_api import expect

from tests.browser.seen import barriers


@pytest.fixture
def stuck(address, page, seen):
    """The view, opened by its link from the first."""
    page.goto(f"{address}/")
    page.get_by_role("link", name="Count is wrong").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("The count came out wrong")
    return page.locator("#view-stuck")


def count(view, *needles: int) -> None:
    """Fill in what was counted on each needle."""
    for number, stitches in enumerate(needles, start=1):
        view.get_by_label(f"Needle {number}").fill(str(stitches))


def test_from_a_wrong_count_to_the_mend(stuck, service, seen):
    """A crown, its round and the needles: the causes of the service in its order, where to look, and the mend."""
    stuck.get_by_label("Stitches before it").fill("56")
    stuck.get_by_label("Sections").fill("8")
    stuck.get_by_label("The round you just finished").fill("1")
    count(stuck, 16, 17, 16)
    crown = {"stitches": 56, "sections": 8, "style": "wedge", "needles": 3}
    answer = service.post(
        "/v1/counts/check", json={"crown": crown, "needles": [16, 17, 16], "round": 1}
    ).json()
    expect(stuck.locator(".cause")).to_have_count(len(answer["causes"]))

    for shown, cause in zip(stuck.locator(".cause").all(), answer["causes"], strict=True):
        for part in ("message", "where"):
            expect(shown).to_contain_text(cause[part])
        mend = stuck.locator(".causes > li").filter(has=stuck.page.get_by_text(cause["message"]))
        if cause["next"]:
            expect(mend).to_contain_text(cause["next"]["text"])
    assert [] == seen.complaints


def test_causes_with_the_same_mend_have_it_once(stuck):
    """19 on needle 3 of 18: a forgotten decrease and an added stitch are put right in one way."""
    stuck.get_by_label("Stitches before it").fill("96")
    stuck.get_by_label("The round you just finished").fill("5")
    count(stuck, 18, 18, 19, 18)

    expect(stuck.get_by_text("How to mend it, whichever it is")).to_have_count(1)
    expect(stuck.get_by_text("Mend it in the next round, round 6.")).to_have_count(1)
    expect(stuck.locator(".cause")).to_have_count(3)
    expect(stuck.get_by_text("If it is only a strand over the needle")).to_be_visible()


def test_a_right_count_is_said_to_be_right(stuck):
    """Where nothing is wrong she is told so, and what comes next."""
    stuck.get_by_label("Sections").fill("8")
    stuck.get_by_label("The round you just finished").fill("2")
    count(stuck, 56)

    expect(stuck.get_by_role("heading", name="The count is right")).to_be_visible()


def test_the_hat_of_the_plan(address, page, browser):
    """The hat planned on this page, its second size, counted in the body; its address holds the plan as well."""
    page.goto(f"{address}/#plan?sizes=9+months;+woman")
    expect(page.get_by_role("heading", level=2, name="Cast on 80 (104) stitches")).to_be_visible()
    page.get_by_role("link", name="Count is wrong").click()
    page.get_by_label("It is").select_option("the hat of the plan on this page")
    page.get_by_role("combobox", name="Which size").select_option("woman")
    page.get_by_role("combobox", name="Where you are").select_option("in the body")
    page.get_by_label("The round you just finished").fill("5")
    count(page, 26, 26, 26, 25)

    expect(page.locator(".causes")).to_contain_text("needle 4")
    other = browser.new_page()
    other.goto(page.url)
    expect(other.locator(".causes")).to_have_text(page.locator(".causes").inner_text(), use_inner_text=True)
    other.close()
    page.get_by_role("link", name="Plan a hat").click()
    expect(page.get_by_role("heading", level=2, name="Cast on 80 (104) stitches")).to_be_visible()


def test_a_plan_that_cannot_be_knitted_is_said(address, page, seen):
    """A mistake in the plan is told where the hat of the plan is asked for, and the view goes on working."""
    page.goto(f"{address}/#plan?gauge_stitches=many")
    expect(page.locator("#plan-form [aria-invalid]")).to_have_count(1)
    page.get_by_role("link", name="Count is wrong").click()
    page.get_by_label("It is").select_option("the hat of the plan on this page")
    count(page, 20)
    expect(page.locator("#stuck-found")).to_contain_text("A number is needed here")
    page.get_by_label("It is").select_option("a crown, by its stitches")

    expect(page.locator("#stuck-found")).not_to_contain_text("A number is needed here")
    assert [] == seen.complaints


def test_a_pattern_in_words(stuck):
    """A pattern that somebody else wrote, in its second size."""
    stuck.get_by_label("It is").select_option("a pattern in words")
    stuck.get_by_label("The pattern, as printed").fill(
        "Cast on 64 (72)\nRnd 1: *k6 (7), k2tog; rep from * around\nRnd 2: knit\n"
    )
    stuck.get_by_role("textbox", name="Which size").fill("2")
    stuck.get_by_label("The round you just finished").fill("1")
    count(stuck, 65)

    expect(stuck.locator(".causes")).to_contain_text("64")


def test_a_keyboard_is_enough(stuck):
    """Round and needles are typed one after the other with Tab; the answer is announced."""
    stuck.get_by_label("The round you just finished").focus()
    for stitches in ("3", "12", "13", "12", "12"):
        stuck.page.keyboard.type(stitches)
        stuck.page.keyboard.press("Tab")

    expect(stuck.locator("#stuck-status")).to_contain_text("needle 2")
    expect(stuck.locator("#stuck-status")).to_have_attribute("role", "status")


def test_a_round_that_is_not_there_is_said_at_its_field(stuck):
    """The fault stands at the round, and the last round there is can be taken by a button."""
    field = stuck.get_by_label("The round you just finished")
    field.fill("99")
    count(stuck, 12, 13, 12, 12)

    expect(field).to_have_attribute("aria-invalid", "true")
    stuck.get_by_role("button", name="Take").click()
    expect(field).not_to_have_attribute("aria-invalid", "true")
    assert int(field.input_value()) < 99


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [320, 1280])
def test_axe_finds_nothing_and_nothing_sticks_out(width, scheme, stuck):
    """By day and by night, on a phone and on a desk: no barrier and no scrolling sideways."""
    stuck.page.emulate_media(color_scheme=scheme)
    stuck.page.set_viewport_size({"width": width, "height": 900})
    stuck.get_by_label("The round you just finished").fill("3")
    count(stuck, 12, 13, 12, 12)
    expect(stuck.locator(".causes > li").first).to_be_visible()

    assert [] == barriers(stuck.page)
    assert stuck.page.evaluate("document.documentElement.scrollWidth") <= width
