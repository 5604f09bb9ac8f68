"""The page for people, second view: from a pasted pattern to an applied edit."""

import pytest
from playwright.sync_api import expect

from tests.browser.seen import barriers

PATTERN = """\
Cast on 64 (72) sts and join.
K1, p1 rib for 8 rounds.
Rnd 1: *k6 (7), k2tog; rep from * around (56, 64)
Rnd 2: knit
Rnd 3: *k5 (6), k2tog; rep from * around (47, 56)
Rnd 4: knit
Rnd 5: *k4 (5), k2tgo; rep from * around (40, 48)
"""
"""Two faults: a count printed wrong, and a stitch misspelt."""


@pytest.fixture
def proofreader(address, page, seen):
    """The view, opened by its link from the first."""
    page.goto(f"{address}/")
    page.get_by_role("link", name="Proofread").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Every count of a pattern, checked")
    return page


def paste(page, text: str) -> None:
    """Put a pattern into the field."""
    page.locator("#view-proofread").get_by_label("The pattern, as printed").fill(text)


def pasted(page) -> str:
    """What stands in the field."""
    return page.locator("#view-proofread").get_by_label("The pattern, as printed").input_value()


def test_lines_stand_beside_the_pattern_with_their_counts(proofreader, service, seen):
    """Every line has the counts that the service works out, and those that are printed; the cast-on is read."""
    paste(proofreader, PATTERN)
    expect(proofreader.get_by_role("heading", name="2 things do not come out")).to_be_visible()
    answer = service.post("/v1/patterns/proofread", json={"text": PATTERN, "cast_on": [64, 72]}).json()

    for line in answer["lines"]:
        shown = proofreader.locator(f"#line-{line['line']}")
        for key in ("computed", "printed"):
            if line[key]:
                first, second = ["–" if count is None else count for count in line[key]]
                expect(shown).to_contain_text(f"{first} ({second})")
    for finding in answer["findings"]:
        expect(proofreader.locator(f"#line-{finding['line']} .finding")).to_contain_text(finding["message"])
    assert [] == seen.complaints


def test_an_edit_is_made_by_its_button(proofreader):
    """The button puts the edit into the text, the finding goes; the last one leaves a pattern that comes out."""
    paste(proofreader, PATTERN)
    proofreader.get_by_role("button", name="Put “k2tog” in place of “k2tgo”").click()
    expect(proofreader.get_by_role("heading", name="1 thing does not come out")).to_be_visible()
    assert pasted(proofreader) == PATTERN.replace("k2tgo", "k2tog")
    proofreader.locator("#line-5 .finding button").first.click()

    expect(proofreader.get_by_role("heading", name="Every line comes out")).to_be_visible()
    assert pasted(proofreader) == PATTERN.replace("k2tgo", "k2tog").replace("47", "48")
    proofreader.get_by_role("button", name="Undo the last change").click()
    expect(proofreader.get_by_role("heading", name="1 thing does not come out")).to_be_visible()


def test_all_the_best_changes_at_once(proofreader, service):
    """The repaired text of the service takes the place of the pattern."""
    text = "Cast on 64\nRnd 1: *k6, k2tog; rep from * around (55)\nRnd 2: knit (56)\n"
    paste(proofreader, text)
    proofreader.get_by_role("button", name="Make all the best changes").click()
    expect(proofreader.get_by_role("heading", name="Every line comes out")).to_be_visible()

    assert pasted(proofreader) == text.replace("55", "56")


def test_letters_outside_the_first_plane_do_not_move_an_edit(proofreader):
    """Places are counted in code points: an edit after a ball of yarn drawn as one lands where it should."""
    text = "🧶🧶 A hat\nCast on 64\nRnd 1: *k6, k2tgo; rep from * around (56)\n"
    paste(proofreader, text)
    proofreader.get_by_role("button", name="Put “k2tog” in place of “k2tgo”").click()
    expect(proofreader.get_by_role("heading", name="Every line comes out")).to_be_visible()

    assert pasted(proofreader) == text.replace("k2tgo", "k2tog")


def test_a_cast_on_that_is_not_in_the_text_is_asked_for_at_its_field(proofreader):
    """Without a cast-on anywhere its field says so; with it, the lines are worked."""
    paste(proofreader, "Rnd 1: *k6, k2tog; rep from * around (56)")
    field = proofreader.locator("#view-proofread").get_by_label("Cast on, a count for each size")
    expect(field).to_have_attribute("aria-invalid", "true")
    field.fill("64")

    expect(proofreader.get_by_role("heading", name="Every line comes out")).to_be_visible()
    expect(field).not_to_have_attribute("aria-invalid", "true")


def test_a_pattern_in_another_language(proofreader):
    """A German pattern is read as German, whatever the language of the page; its cast-on stands before its verb."""
    paste(
        proofreader,
        "64 (72/80) M anschlagen.\n1. Rd: *6 (7/8) M re, 2 M re zusstr, ab * stets wdh = 56 (64/72) M",
    )

    expect(proofreader.get_by_role("heading", name="Every line comes out")).to_be_visible()
    expect(proofreader.get_by_text("Read as German.")).to_be_visible()


def test_the_address_holds_the_pattern(proofreader, browser):
    """The pattern stands in the address, after the #, so that it is sent to nobody; who opens it reads the same."""
    paste(proofreader, PATTERN)
    expect(proofreader.get_by_role("heading", name="2 things do not come out")).to_be_visible()
    other = browser.new_page()
    other.goto(proofreader.url)
    expect(other.get_by_role("heading", name="2 things do not come out")).to_be_visible()

    assert pasted(other) == PATTERN
    other.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [320, 1280])
def test_axe_finds_nothing_and_nothing_sticks_out(width, scheme, proofreader):
    """By day and by night, on a phone and on a desk: no barrier and no scrolling sideways."""
    proofreader.emulate_media(color_scheme=scheme)
    proofreader.set_viewport_size({"width": width, "height": 900})
    proofreader.get_by_role("button", name="Show me with an example").click()
    expect(proofreader.locator(".finding").first).to_be_visible()
    proofreader.locator("#proofread-found summary").first.click()

    assert [] == barriers(proofreader)
    assert proofreader.evaluate("document.documentElement.scrollWidth") <= width


def test_a_keyboard_is_enough(proofreader):
    """The pattern is typed, the edit reached with Tab and made with Enter; the focus then goes on from the lines."""
    proofreader.locator("#view-proofread").get_by_label("The pattern, as printed").focus()
    proofreader.keyboard.insert_text(PATTERN)
    button = proofreader.get_by_role("button", name="Put “k2tog” in place of “k2tgo”")
    expect(button).to_be_visible()
    for _ in range(20):
        proofreader.keyboard.press("Tab")
        if button.evaluate("element => element === document.activeElement"):
            break
    proofreader.keyboard.press("Enter")
    expect(proofreader.get_by_role("heading", name="1 thing does not come out")).to_be_visible()
    expect(proofreader.locator("#proofread-status")).to_contain_text("1 thing does not come out")
    proofreader.keyboard.press("Tab")
    assert proofreader.evaluate("document.activeElement.closest('#proofread-found') !== null")
