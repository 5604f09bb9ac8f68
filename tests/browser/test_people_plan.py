"""The page for people, first view: from a swatch to the handout, as a knitter or a teacher meets it."""

import re

import pytest
from playwright.sync_api import expect
from pypdf import PdfReader

from tests.browser.seen import barriers

CLASS = (
    "#plan?sizes=one+month:+1+month+x+3;+9+months+x+4;+woman+x+5"
    "&yarn_mass=100+g&yarn_length=210+m&yarn_price_amount=8.50&yarn_price_currency=EUR"
)
"""The address of a plan for a class of twelve."""


@pytest.fixture
def plan(address, page, seen):
    """The page, opened as a browser opens it, with its first hat worked out."""
    page.goto(f"{address}/")
    worked_out(page, "Cast on 96 stitches")
    return page


@pytest.fixture
def open_in(address, page):
    """Opens the page in a language, with its first hat worked out."""

    def opened(language: str):
        page.goto(f"{address}/?language={language}")
        expect(page.locator(".sizes-table")).to_be_visible()
        return page

    return opened


def worked_out(page, headline: str) -> None:
    """Wait until the hat is worked out under this headline."""
    expect(page.get_by_role("heading", level=2, name=headline)).to_be_visible()


def test_a_browser_gets_the_page_and_a_program_the_document(service):
    """`Accept: text/html` gets the page; whatever else is accepted, the JSON document."""
    page = service.get("/", headers={"accept": "text/html,application/xhtml+xml,*/*;q=0.8"})

    assert page.headers["content-type"] == "text/html; charset=utf-8"
    assert "{{" not in page.text
    for accept in ("*/*", "application/json", "text/plain", "image/png, text/css"):
        document = service.get("/", headers={"accept": accept})
        assert document.json()["name"] == "Roundwright"
        assert document.headers["vary"] == "Accept, Accept-Language"
        assert document.headers["etag"] != page.headers["etag"]


def test_its_policy_is_strict(service):
    """Scripts, styles, pictures and requests are the service's own; nothing is inline; no markup is made of texts."""
    policy = service.get("/", headers={"accept": "text/html"}).headers["content-security-policy"]

    assert policy.startswith("default-src 'none'; script-src 'self'; style-src 'self';")
    assert "require-trusted-types-for 'script'" in policy
    assert not {"unsafe", "http", "*"} & set(re.findall(r"unsafe|http|\*", policy))


def test_a_swatch_becomes_a_hat_while_she_types(plan, address, seen, service):
    """Another gauge typed into the swatch gives what the service gives, and no other host is asked anything."""
    plan.get_by_label("stitches", exact=True).fill("22")
    plan.get_by_label("rounds", exact=True).fill("30")
    hat = service.post(
        "/v1/hats",
        json={
            "gauge": {"stitches": 22, "rows": 30},
            "sizes": [{"head": {"value": 55.5, "unit": "cm"}}],
            "needles": 4,
        },
    ).json()

    worked_out(plan, f"Cast on {hat['sizes'][0]['cast_on']['stitches']} stitches")
    for line in hat["pattern"].split("\n"):
        expect(plan.locator(".printed")).to_contain_text(line.strip())
    plan.wait_for_load_state("networkidle")
    assert {address} == seen.origins
    assert [] == seen.complaints


def test_sizes_stand_side_by_side(page, address):
    """A class's plan opens from its address alone, a column a size, and says what to buy for all."""
    page.goto(f"{address}/{CLASS}")
    worked_out(page, "Cast on 64 (80, 104) stitches")
    head = page.locator(".sizes-table thead th")

    assert head.all_inner_texts() == ["Size", "one month", "9 months", "woman"]
    expect(page.get_by_text("for 12 hats")).to_be_visible()
    expect(page.get_by_text(re.compile(r"€\d\d\.\d0 in all"))).to_be_visible()


def test_the_address_holds_the_plan(plan, address, browser):
    """What was filled in stands in the address; whoever opens it sees the same plan."""
    plan.get_by_role("combobox", name="Brim").select_option("folded")
    plan.get_by_label("Rib: knit").fill("2")
    plan.get_by_role("button", name="Add a size").click()
    second = plan.get_by_role("group", name="Size 2")
    second.get_by_label("Whose head").select_option("a woman")
    second.get_by_label("Called").fill("Bexa: tall")
    expect(plan.locator(".sizes-table thead")).to_contain_text("Bexa")
    headline = plan.locator(".headline").inner_text()
    other = browser.new_page()
    other.goto(plan.url)

    expect(other.locator(".headline")).to_have_text(headline, use_inner_text=True)
    expect(other.get_by_role("combobox", name="Brim")).to_have_value("folded")
    other.close()


def test_the_plan_stays_until_a_new_one_is_started(plan):
    """Skipping to the page and going to another view and back keep the plan; a link starts anew."""
    plan.get_by_label("stitches", exact=True).fill("18")
    worked_out(plan, "Cast on 88 stitches")
    plan.get_by_role("link", name="Skip to the page").focus()
    plan.keyboard.press("Enter")
    expect(plan.locator("#main")).to_be_focused()
    assert "gauge_stitches=18" in plan.url
    plan.get_by_role("link", name="Proofread").click()
    plan.get_by_role("link", name="Roundwright").click()
    expect(plan.get_by_label("stitches", exact=True)).to_have_value("18")
    plan.get_by_role("link", name="Start a new plan").click()

    expect(plan.get_by_label("stitches", exact=True)).to_have_value("20")
    worked_out(plan, "Cast on 96 stitches")


def test_the_handout_is_downloaded(page, address, tmp_path):
    """A button makes the PDF of the plan, for the paper that was chosen."""
    page.goto(f"{address}/{CLASS}&name=Quillhaven+class+hat&paper=letter")
    worked_out(page, "Cast on 64 (80, 104) stitches")
    with page.expect_download() as download:
        page.get_by_role("button", name="Download as PDF").click()
    download.value.save_as(tmp_path / "handout.pdf")

    assert download.value.suggested_filename == "quillhaven-class-hat.pdf"
    assert "Quillhaven class hat" in PdfReader(tmp_path / "handout.pdf").pages[0].extract_text()


def test_the_handout_is_opened_to_print(page, address):
    """A link opens the handout as a page, the same that `/v1/hats/handout` writes, which loads nothing."""
    page.goto(f"{address}/{CLASS}&name=Quillhaven+class+hat&needles=circular")
    worked_out(page, "Cast on 64 (80, 104) stitches")
    with page.context.expect_page() as opened:
        page.get_by_role("link", name="Open the handout to print").click()
    handout = opened.value

    expect(handout.get_by_role("heading", level=1)).to_have_text("Quillhaven class hat")
    expect(handout.get_by_role("heading", level=3)).to_have_count(3)
    expect(handout.get_by_text("Circular needle")).to_be_visible()
    page.get_by_role("combobox", name="Handout for").select_option("9 months")
    page.get_by_role("link", name="Open the handout to print").evaluate("link => link.target = '_self'")
    page.get_by_role("link", name="Open the handout to print").click()
    expect(page.get_by_role("heading", level=3)).to_have_text(re.compile("9 months"))


@pytest.mark.parametrize(("needles", "length"), [("magic_loop", "80 cm"), ("magic_loop_100", "100 cm")])
def test_a_magic_loop_is_as_long_as_those_in_shops(needles, length, page, address, service):
    """80 and 100 cm, on the page and on its handout."""
    page.goto(f"{address}/#plan?needles={needles}")
    worked_out(page, "Cast on 96 stitches")

    expect(page.locator(".printed")).to_contain_text(f"needle of {length} for a magic loop")
    assert length in service.get(f"/handout?gauge_stitches=20&sizes=woman&needles={needles}").text


@pytest.mark.parametrize(
    ("query", "status", "parameter"),
    [
        ("gauge_stitches=20&sizes=a+goose", 422, "sizes"),
        ("gauge_stitches=20&sizes=430+cm", 422, "sizes"),
        ("gauge_stitches=20&sizes=woman+x+5000", 422, "sizes"),
        ("gauge_stitches=20&sizes=" + ";".join(["woman"] * 13), 422, "sizes"),
        ("gauge_stitches=&sizes=woman", 400, "gauge_stitches"),
        ("gauge_stitches=20&sizes=woman&needles=5", 400, "needles"),
        ("gauge_stitches=20&sizes=woman&needels=4", 400, "needels"),
    ],
)
def test_an_address_of_a_handout_says_what_is_wrong_with_it(query, status, parameter, service):
    """A size that cannot be read or knitted, a field that is missing or unknown: a problem that names the field."""
    problem = service.get(f"/handout?{query}")

    assert problem.status_code == status
    assert problem.json()["errors"][0]["parameter"] == parameter


def test_without_javascript_the_form_leads_to_the_handout(browser, address):
    """Whoever has scripts switched off fills in the same form, a size on each line, and gets the handout to print."""
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{address}/")
    page.get_by_label("stitches", exact=True).fill("19,5")
    page.get_by_label("A size on each line").fill("9 months x 4\nBexa: woman\n55,5 cm")
    page.get_by_label("weighs").fill("100 g")
    page.get_by_label("runs").fill("210 m")
    page.get_by_role("button", name="Open the handout to print").click()

    expect(page.get_by_role("heading", level=1)).to_have_text("A hat in the round")
    expect(page.get_by_role("heading", level=3)).to_have_count(3)
    expect(page.get_by_text("19.5 stitches and 28 rounds")).to_be_visible()
    expect(page.get_by_role("heading", name="Bexa")).to_be_visible()
    context.close()


def test_without_javascript_a_mistake_can_be_put_right(browser, address):
    """She reads what is wrong, goes back to the form as she left it, and gets the handout."""
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{address}/")
    page.get_by_label("A size on each line").fill("woman x 5000")
    page.get_by_role("button", name="Open the handout to print").click()

    expect(page.get_by_role("heading", level=1)).to_have_text("The handout is not ready to print")
    expect(page.get_by_role("listitem").first).to_contain_text("Whose heads: 'woman x 5000'")
    page.go_back()
    page.get_by_label("A size on each line").fill("woman")
    page.get_by_role("button", name="Open the handout to print").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("A hat in the round")
    context.close()


def test_the_browser_prints_the_hat_and_not_the_form(plan):
    """Printed from the browser, the page is what was worked out: no form, no buttons, dark or light alike."""
    plan.emulate_media(media="print", color_scheme="dark")

    for gone in (plan.locator("#plan-form"), plan.get_by_role("button"), plan.get_by_role("navigation")):
        expect(gone.filter(visible=True)).to_have_count(0)
    expect(plan.locator(".printed")).to_be_visible()
    paper = plan.evaluate("getComputedStyle(document.body).backgroundColor")
    assert paper == "rgb(255, 255, 255)"


def test_a_fault_stands_at_its_field_with_what_works(plan):
    """What cannot be knitted is said at the field, tied to it, and the nearest that works is a button."""
    field = plan.get_by_label("Number")
    field.fill("430")
    expect(field).to_have_attribute("aria-invalid", "true")
    expect(field).to_have_accessible_description(re.compile("^A head of 430 cm is out of range"))
    expect(plan.locator("#plan-status")).to_contain_text("Not worked out")
    plan.get_by_role("button", name="Take 43 cm").click()

    expect(field).to_have_value("43 cm")
    expect(field).not_to_have_attribute("aria-invalid", "true")


def test_a_number_may_have_a_comma_and_a_word_is_no_number(plan):
    """43,5 is 43.5; a word is refused at its field without the service."""
    field = plan.get_by_label("stitches", exact=True)
    field.fill("19,5")
    worked_out(plan, "Cast on 96 stitches")
    field.fill("many")
    expect(field).to_have_accessible_description(re.compile("A number is needed here"))


@pytest.mark.parametrize(
    ("language", "label", "typed", "message"),
    [
        ("en", "Ease, %", "80", "This may be at most 50."),
        ("de", "Zugabe, %", "80", "Das darf höchstens 50 sein."),
        ("en", "Sections", "2.5", "A whole number is needed here, such as 8."),
        ("en", "Edge to top, cm", "deep", "A number is needed here, in cm or with its unit, such as 21 cm."),
        ("en", "runs", "21 ells", "A number is needed here, in m or with its unit, such as 210 m."),
        ("en", "weighs", "plenty", "A number is needed here, in g or with its unit, such as 100 g."),
        ("en", "costs", "much", "A number is needed here, such as 8.5."),
        (
            "en",
            "in",
            "$",
            "Several currencies have the sign $. Write the three letters of yours: USD, CAD, or AUD.",
        ),
        ("en", "in", "€uro", "The three letters of a currency are needed here, such as EUR."),
    ],
)
def test_a_fault_is_said_in_a_knitters_words(language, label, typed, message, open_in):
    """Beside its field, in the language of the page, with a number as people write it and an example that fits."""
    page = open_in(language)
    field = page.locator("#view-plan").get_by_label(label, exact=True)
    field.fill(typed)

    expect(field).to_have_accessible_description(message)
    expect(page.locator("#plan-status")).to_contain_text(f"{label}: {message}")
    expect(page.locator("#plan-found")).not_to_contain_text("`")


def test_what_cannot_be_knitted_is_said_in_the_language_of_the_page(open_in):
    """In German in short, then in the English of the service, marked as English for a screen reader."""
    page = open_in("de")
    page.locator("#view-plan").get_by_label("Zahl", exact=True).fill("430")

    expect(page.locator(".wrong")).to_contain_text(
        "Das ist kleiner oder größer als alles, was gestrickt wird."
    )
    expect(page.locator(".wrong [lang=en]")).to_contain_text("A head of 430 cm is out of range.")
    page.get_by_role("button", name="43 cm").click()
    expect(page.locator(".wrong")).to_have_count(0)


def test_numbers_are_taken_as_people_type_them(plan, service):
    """A number alone is in the unit of its field, a head may have its unit, a price its sign; the handout reads it."""
    for label, typed in (("weighs", "50"), ("runs", "105"), ("costs", "12,50 €"), ("Edge to top, cm", "22")):
        plan.get_by_label(label, exact=True).fill(typed)
    plan.get_by_label("Number").fill('22"')
    ball = {"mass": {"value": 50, "unit": "g"}, "length": {"value": 105, "unit": "m"}}
    price = {"amount": 12.5, "currency": "EUR"}
    hat = service.post(
        "/v1/hats",
        json={
            "gauge": {"stitches": 20, "rows": 28},
            "sizes": [{"head": {"value": 22, "unit": "in"}}],
            "needles": 4,
            "yarn": {**ball, "price": price},
            "depth": {"value": 22, "unit": "cm"},
        },
    ).json()
    expect(plan.get_by_text(re.compile("€25.00 in all"))).to_be_visible()

    assert hat["order"]["own"]["cost"]["amount"] == 25
    for line in hat["pattern"].split("\n"):
        expect(plan.locator(".printed")).to_contain_text(line.strip())
    plan.get_by_role("link", name="Open the handout to print").evaluate("link => link.target = '_self'")
    plan.get_by_role("link", name="Open the handout to print").click()
    expect(plan.get_by_text("2 balls, 25.00 EUR")).to_be_visible()


def test_half_a_ball_says_what_is_missing_and_is_not_taken_unread(plan):
    """With its weight alone a line asks for the other half; a weight that is none is a fault all the same."""
    plan.get_by_label("weighs", exact=True).fill("100 g")
    expect(plan.get_by_text("The other half of the ball is missing")).to_be_visible()
    plan.get_by_label("weighs", exact=True).fill("100 geese")
    expect(plan.get_by_label("weighs", exact=True)).to_have_attribute("aria-invalid", "true")
    plan.get_by_label("weighs", exact=True).fill("100 g")
    plan.get_by_label("runs", exact=True).fill("210 m")

    expect(plan.get_by_text("The other half of the ball is missing")).to_be_hidden()
    plan.get_by_label("costs", exact=True).fill("8.50")
    expect(plan.get_by_text("A price needs both its number and its currency.")).to_be_visible()


def test_the_yarn_of_one_hat_is_one_figure(page, address):
    """Side by side, under what to buy and in the pattern, with what is included."""
    page.goto(f"{address}/{CLASS}")
    worked_out(page, "Cast on 64 (80, 104) stitches")
    row = page.get_by_role("row", name="Yarn for one hat").get_by_role("cell").all_inner_texts()
    grams = [cell.removesuffix("\xa0g") for cell in row]

    listed = (
        page.locator(".buy li").filter(has_text=re.compile(r"^\w.*: \d+\xa0g, \d+\xa0m$")).all_inner_texts()
    )
    assert [re.search(r": (\d+)", line)[1] for line in listed] == grams
    expect(page.locator(".printed")).to_contain_text(
        f"{grams[0]} ({grams[1]}, {grams[2]}) g, 10 % for tails and mistakes included"
    )
    expect(page.locator(".buy")).to_contain_text(
        "Everywhere here 10 % for tails and mistakes is included; a swatch is not."
    )


def test_the_ease_aimed_at_and_reached_stands_with_each_size(page, address):
    """A tenth smaller is aimed at; 96 stitches of 20 in 10 cm are 48 cm on a head of 55.5: 13.5 % smaller."""
    page.goto(f"{address}/#plan?ease_percent=-13")
    worked_out(page, "Cast on 96 stitches")

    expect(page.get_by_role("row", name="Ease aimed at")).to_contain_text("−13\xa0%")
    expect(page.get_by_role("row", name="Ease reached")).to_contain_text("−13.5\xa0% · −7.5\xa0cm")


def test_sizes_out_of_order_are_sorted_by_a_button(page, address):
    """The warning has a button that puts the rows in order; with it the warning goes."""
    page.goto(f"{address}/#plan?sizes=woman;+Marrow:+9+months+x+4;+6+years")
    worked_out(page, "Cast on 104 (80, 96) stitches")
    page.get_by_role("button", name="Put the sizes in order, smallest first").click()
    worked_out(page, "Cast on 80 (96, 104) stitches")

    expect(page.get_by_role("button", name="Put the sizes in order, smallest first")).to_have_count(0)
    expect(page.get_by_role("group", name="Size 1").get_by_label("Called")).to_have_value("Marrow")
    assert "Marrow" in page.url.split("sizes=")[1].split("%3B")[0]


def test_pictures_have_the_name_that_the_size_was_given(page, address, service):
    """The picture of a size that is called Marrow is headed so, not by the age."""
    page.goto(f"{address}/{CLASS.replace('9+months+x', 'Marrow:+9+months+x')}")
    worked_out(page, "Cast on 64 (80, 104) stitches")
    page.get_by_role("combobox", name="Picture of").select_option("Marrow")
    sources = [image.get_attribute("src") for image in page.locator(".pictures img").all()[:2]]

    for source in sources:
        assert ">Marrow<" in service.get(f"/{source}").text


def test_an_uneven_split_says_why(page, address):
    """100 stitches in repeats of four on two circulars are 48 and 52; the reason stands with the needles."""
    page.goto(f"{address}/#plan?gauge_stitches=20&sizes=55.5+cm&needles=circulars&crown_style=quick")
    worked_out(page, "Cast on 100 stitches")

    expect(page.get_by_text(re.compile(r"^\d+ · \d+: Uneven on purpose, so that"))).to_be_visible()


def test_a_designers_note_is_not_among_what_to_mind(page, address):
    """Where two growth standards meet stands in the basis, neither in the warnings nor in the pattern."""
    page.goto(f"{address}/#plan?sizes=4+years;+6+years")
    expect(page.locator(".sizes-table")).to_be_visible()

    expect(page.locator(".mind")).to_have_count(0)
    expect(page.locator(".printed")).not_to_contain_text("Netherlands")
    expect(page.locator(".basis")).to_contain_text("Netherlands 1997 lies")


@pytest.mark.parametrize(
    ("language", "button", "name"),
    [
        ("fr", "Télécharger en PDF", "un-bonnet-tricoté-en-rond.pdf"),
        ("de", "Als PDF herunterladen", "eine-mütze-in-runden-gestrickt.pdf"),
    ],
)
def test_the_file_of_a_handout_is_named_in_its_language(language, button, name, open_in):
    """Without a name of its own, the file is called as the pattern in it."""
    page = open_in(language)
    with page.expect_download() as download:
        page.get_by_role("button", name=button).click()

    assert download.value.suggested_filename == name


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [320, 1280])
def test_axe_finds_nothing_and_nothing_sticks_out(width, scheme, page, address):
    """By day and by night, on a phone and on a desk: no barrier, no scrolling sideways, in order and in trouble."""
    page.emulate_media(color_scheme=scheme)
    page.set_viewport_size({"width": width, "height": 900})
    page.goto(f"{address}/{CLASS}")
    worked_out(page, "Cast on 64 (80, 104) stitches")
    for summary in page.locator("#plan-found summary").all():
        summary.click()
    # At the end of the page the bar with the cast-on lies in its place, and on no field.
    page.evaluate("scrollTo(0, document.body.scrollHeight)")

    assert [] == barriers(page)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    page.get_by_label("stitches", exact=True).fill("0")
    expect(page.get_by_label("stitches", exact=True)).to_have_attribute("aria-invalid", "true")
    page.evaluate("scrollTo(0, document.body.scrollHeight)")
    assert [] == barriers(page)


def test_a_keyboard_is_enough(plan):
    """From the top of the page through swatch and sizes to the handout with Tab, letters, arrows and Enter."""
    plan.keyboard.press("Tab")
    expect(plan.get_by_role("link", name="Skip to the page")).to_be_focused()
    tab_to(plan, plan.get_by_label("stitches", exact=True))
    plan.keyboard.type("18")
    tab_to(plan, plan.get_by_label("Whose head"))
    plan.keyboard.type("a man")
    tab_to(plan, plan.get_by_role("button", name="Add a size"))
    plan.keyboard.press("Enter")
    expect(plan.get_by_role("group", name="Size 2").get_by_label("Number")).to_be_focused()
    plan.keyboard.type("3")
    expect(plan.locator(".sizes-table thead")).to_contain_text("3 years")
    tab_to(plan, plan.get_by_role("button", name="Download as PDF"))


def tab_to(page, target) -> None:
    """Press Tab until the target is focused; what is focused is always seen."""
    for _ in range(60):
        page.keyboard.press("Tab")
        assert page.evaluate("getComputedStyle(document.activeElement).outlineStyle") != "none"
        if target.evaluate("element => element === document.activeElement"):
            return
    raise AssertionError(target)


def test_the_page_is_in_a_language_it_has_and_the_pattern_in_the_chosen(plan, service):
    """Whoever prefers a language that the page has no words of gets English; the pattern may be in another."""
    page = service.get("/", headers={"accept": "text/html", "accept-language": "tlh, ja;q=0.8"})
    assert '<html lang="en">' in page.text
    assert "Accept-Language" in page.headers["vary"]
    plan.get_by_role("combobox", name="Language of the pattern").select_option("English (UK)")

    expect(plan.locator(".printed")).to_contain_text("TENSION")
    assert "language=en-GB" in plan.get_by_role("link", name="Open the handout to print").get_attribute(
        "href"
    )


def test_long_words_of_other_languages_do_not_stick_out(page, address):
    """With words of thirty letters in place of every text, a phone still needs no scrolling sideways."""
    page.set_viewport_size({"width": 320, "height": 900})
    page.goto(f"{address}/{CLASS}")
    worked_out(page, "Cast on 64 (80, 104) stitches")
    for view in ("plan", "proofread", "stuck"):
        page.locator(f"nav [data-view={view}]").click()
        page.evaluate("""() => {
            const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
            while (texts.nextNode()) {
                if (texts.currentNode.data.trim()) texts.currentNode.data = "Maschenaufnahmezunahmenübersicht";
            }
        }""")
        assert page.evaluate("document.documentElement.scrollWidth") <= 320


def test_the_plan_goes_along_into_another_language(page, address):
    """The link to another language keeps the plan; the page then speaks it, with numbers as it writes them."""
    page.goto(f"{address}/{CLASS}")
    worked_out(page, "Cast on 64 (80, 104) stitches")
    page.get_by_role("link", name="Deutsch").click()

    worked_out(page, "64 (80/104) Maschen anschlagen")
    expect(page.get_by_label("Maschen", exact=True)).to_have_value("20")
    expect(page.locator(".sizes-table")).to_contain_text("36,9\xa0cm")
    assert [] == barriers(page)


def test_numbers_and_inches_are_those_of_the_language(page, address) -> None:
    """`55,5` in the field, and `21¾″` where English has `21¾ in`; checklist, German 14."""
    page.goto(f"{address}/?language=de#plan?units=imperial")

    expect(page.locator("#plan-form .value").first).to_have_value("55,5")
    found = page.locator("#plan-found")
    expect(found).to_contain_text("21¾″")
    assert "\xa0in" not in found.inner_text()
