"""The size calculator on the page of a shop, as a shopper meets it."""

import re
from collections.abc import Iterator
from threading import Event

import pytest
from playwright.sync_api import expect

from roundwright.web.settings import Settings
from tests.browser.seen import barriers
from tests.browser.shop import FOLDER, in_state, shop
from tests.conftest import free_port, serving

GAUGE = {"stitches": 20, "rows": 28}
YARN = {
    "mass": {"value": 100, "unit": "g"},
    "length": {"value": 210, "unit": "m"},
    "price": {"amount": 8.5, "currency": "EUR"},
}
OFFERED = [
    {"label": label, "circumference": {"value": value, "unit": "cm"}}
    for label, value in (("Lamb", 34), ("Teg", 38), ("Shearling", 43), ("Wether", 49), ("Flock", 52))
]
"""What the example's page says of its yarn and its sizes."""


@pytest.fixture(scope="module")
def open_shop() -> Iterator:
    """The shop, and a service that lets its pages call."""
    with shop() as opened, serving(Settings(cors_origins=(opened.origin,))) as address:
        opened.service = address
        yield opened


@pytest.fixture
def product(open_shop, page, seen):
    """The page of the product, opened."""
    page.goto(f"{open_shop.origin}/index.html")
    return page


def find(page, age: str) -> None:
    """Type an age in months and press Enter."""
    page.get_by_label("Age today").fill(age)
    page.get_by_label("Age today").press("Enter")


def shown(page) -> dict[str, str]:
    """The facts of the answer by their names."""
    pairs = page.locator("hat-size dl > div").all()
    return {pair.locator("dt").inner_text(): pair.locator("dd").inner_text() for pair in pairs}


def pictures_drawn(page) -> bool:
    """Whether every picture of the calculator has come and has a size."""
    page.wait_for_load_state("networkidle")
    return page.evaluate(
        "[...document.querySelector('hat-size').shadowRoot.querySelectorAll('img')]"
        ".every(image => image.complete && image.naturalWidth > 300)"
    )


def test_it_is_under_14_kibibytes_and_needs_nothing_else():
    """The one file a shop copies is under 14,000 bytes and loads nothing more."""
    script = (FOLDER / "hat-size.js").read_text()

    assert len(script.encode()) < 14_000
    assert not re.search(r"^\s*import\b|\bimport\(|https?://(?!hats\.example)", script, re.MULTILINE)


def test_the_two_lines_are_enough(open_shop, page, seen):
    """On a page of another origin, under a strict policy, the two lines of the README find a size."""
    page.goto(f"{open_shop.origin}/bare.html")
    find(page, "6")
    in_state(page, "done")

    assert open_shop.origin != open_shop.service
    assert {open_shop.origin, open_shop.service} == seen.origins
    assert pictures_drawn(page)
    assert [] == seen.complaints


def test_it_says_what_the_service_says(product, open_shop, seen, service):
    """Size, balls, cost and measures are those of the two calculations, put in the shop's words."""
    find(product, "6")
    in_state(product, "done")
    fit = service.post("/v1/sizing/recommend", json={"age_months": 6, "offered": OFFERED}).json()
    chosen = next(size for size in fit["sizes"] if size["label"] == fit["choose"])
    ease = chosen["circumference"]["value"] - fit["head"]["median"]["value"]
    (hat,) = service.post(
        "/v1/hats",
        json={
            "gauge": GAUGE,
            "yarn": YARN,
            "sizes": [{"age_months": 6}],
            "ease": {"length": {"value": ease, "unit": "cm"}},
            "crown": {"style": "dome"},
        },
    ).json()["sizes"]
    facts = shown(product)

    assert fit["choose"] == product.locator("hat-size h3").inner_text()
    share = f"{round(chosen['share'] * 100)} in 100 such heads"
    expect(product.get_by_text(share)).to_contain_text(f"{fit['outgrown_at_months']:.0f} months")
    assert facts["To buy"].startswith(f"{hat['yarn']['to_buy']['balls']} ball")
    assert "€8.50" in facts["To buy"]
    assert f"{hat['yarn']['used']['expected']['mass']['value']:.0f} g" in facts["It uses about"]
    assert facts["Around the hat"].startswith(f"{hat['measurements']['circumference']['value']:g} cm")
    assert f"cast on {hat['cast_on']['stitches']} stitches" in facts["Edge to top"]
    assert f"{open_shop.service}{hat['drawing']}" in seen.requests
    assert pictures_drawn(product)
    assert product.get_by_label("Balls").input_value() == str(hat["yarn"]["to_buy"]["balls"])
    assert [] == seen.complaints


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [360, 1280])
def test_axe_finds_nothing(width, scheme, product):
    """By day and by night, on a phone and on a desk, asked, answered, unfolded and in trouble: no barrier."""
    product.emulate_media(color_scheme=scheme)
    product.set_viewport_size({"width": width, "height": 900})

    assert [] == barriers(product)
    find(product, "6")
    in_state(product, "done")
    for summary in product.locator("hat-size summary").all():
        summary.click()
    assert [] == barriers(product)
    find(product, "")
    in_state(product, "error")
    assert [] == barriers(product)


@pytest.mark.parametrize("width", [320, 1280])
def test_nothing_sticks_out(width, product):
    """The page needs no scrolling sideways, down to 320 pixels (WCAG 2.2, 1.4.10 Reflow)."""
    product.set_viewport_size({"width": width, "height": 800})
    find(product, "6")
    in_state(product, "done")

    assert product.evaluate("document.documentElement.scrollWidth") <= width


def test_a_keyboard_is_enough(product):
    """From the top of the page to the answer and into its folds with Tab, arrows, letters, Enter and Space."""
    focused = "(e => (e.shadowRoot ? e.shadowRoot.activeElement : e))(document.activeElement)"
    inside = "document.activeElement.localName === 'hat-size'"
    for _ in range(20):
        product.keyboard.press("Tab")
        if product.evaluate(inside):
            break
    assert product.evaluate(f"{focused}.value") == "child"
    product.keyboard.press("ArrowDown")
    product.keyboard.press("ArrowDown")
    assert product.evaluate(f"{focused}.value") == "head"
    product.keyboard.press("Tab")
    assert product.evaluate(f"getComputedStyle({focused}).outlineStyle") == "solid"
    product.keyboard.type("43,5")
    product.keyboard.press("Tab")
    product.keyboard.press("Tab")
    assert product.evaluate(f"{focused}.localName") == "button"
    product.keyboard.press("Enter")
    in_state(product, "done")
    assert "for a head of 43.5 cm" in shown(product)["Around the hat"]
    product.keyboard.press("Tab")
    product.keyboard.press("Space")
    expect(product.get_by_alt_text("Chart of the crown")).to_be_visible()


def test_a_screen_reader_is_told(product):
    """The calculator is a named region; fields have names, an answer is announced, pictures are put in words."""
    region = product.get_by_role("region", name="Find your size")

    expect(region.get_by_role("group", name="Who is it for?").get_by_role("radio")).to_have_count(3)
    expect(region.get_by_role("textbox", name="Age today")).to_be_visible()
    find(product, "6")
    expect(region.get_by_role("status")).to_have_text("Here is your size.")
    expect(region.get_by_role("heading", level=3)).to_have_text("Teg")
    # 80 stitches in 8 whole sections: the multiple of 8 that is nearest to the 38 cm of the size.
    expect(region.get_by_role("img")).to_have_accessible_name(re.compile("as it is worn, 40 cm around"))


def test_waiting_is_said(product):
    """While the service takes its time the page says so; a later question takes the place of the first."""
    late = Event()

    def hold(route):
        if not late.is_set():
            late.set()
            return  # never answered: the second question ends it
        route.continue_()

    product.route("**/v1/sizing/recommend", hold)
    find(product, "6")
    in_state(product, "loading")
    expect(product.get_by_role("status")).to_have_text("Working it out…")
    while not late.is_set():  # the page is waiting before its request is on its way
        product.wait_for_timeout(10)
    find(product, "24")
    in_state(product, "done")
    expect(product.locator("hat-size h3")).to_have_text("Shearling")


def test_offline_waits_for_the_network(product):
    """Without a network it says so, and answers by itself as soon as there is one."""
    product.context.set_offline(True)
    find(product, "6")
    in_state(product, "offline")
    expect(product.get_by_role("status")).to_contain_text("You are offline")
    assert [] == barriers(product)
    product.context.set_offline(False)
    in_state(product, "done")


def test_what_cannot_be_knitted_is_said_in_the_services_words(product, service):
    """For 422 the detail and what would work are shown, announced, and tied to the field, which is focused."""
    product.get_by_label("A measured head").check()
    field = product.get_by_label("Around the head")
    field.fill("430")
    product.get_by_role("button", name="Find the size").click()
    in_state(product, "error")
    problem = service.post(
        "/v1/sizing/recommend", json={"head": {"value": 430, "unit": "cm"}, "offered": OFFERED}
    ).json()

    assert 422 == problem["status"]
    expect(product.get_by_role("alert")).to_contain_text(problem["detail"])
    expect(product.get_by_role("alert")).to_contain_text(problem["nearest"])
    expect(field).to_have_attribute("aria-invalid", "true")
    expect(field).to_have_accessible_description(re.compile("^" + re.escape(problem["detail"])))
    expect(field).to_be_focused()
    field.fill("43")
    field.press("Enter")
    in_state(product, "done")
    expect(field).not_to_have_attribute("aria-invalid", "true")


@pytest.mark.parametrize("age", ["", "six", "-1"])
def test_a_wrong_age_asks_nobody(age, product, open_shop, seen):
    """What is no age is said at once, without the service."""
    find(product, age)
    in_state(product, "error")

    expect(product.get_by_label("Age today")).to_be_focused()
    assert not [url for url in seen.requests if url.startswith(open_shop.service)]


@pytest.mark.parametrize("reason", ["nobody there", "not this shop's", "busy"])
def test_a_service_out_of_reach_is_said(reason, open_shop, page):
    """A service that is gone, or does not let this origin call, or answers with no problem: the page says so."""
    if reason == "busy":
        page.route("**/v1/**", lambda route: route.fulfill(status=503, body="<h1>503</h1>"))
        page.goto(f"{open_shop.origin}/index.html")
        find(page, "6")
        in_state(page, "error")
    else:
        with shop() as other, serving(Settings()) as closed:
            gone = f"http://127.0.0.1:{free_port()}"
            other.service = gone if reason == "nobody there" else closed
            page.goto(f"{other.origin}/index.html")
            find(page, "6")
            in_state(page, "error")

    expect(page.get_by_role("alert")).to_contain_text("cannot be reached")


def test_a_head_in_inches_is_answered_in_inches(product):
    """Whoever measures in inches reads inches and ounces."""
    product.get_by_label("A measured head").check()
    product.get_by_label("Around the head").fill("17.1")
    product.get_by_label("measured in").select_option("inches")
    product.get_by_role("button", name="Find the size").click()
    in_state(product, "done")

    assert "17.1 in" in shown(product)["Around the hat"]
    assert " oz" in shown(product)["It uses about"]


def test_a_head_no_size_fits_gets_a_hat_of_its_own(product):
    """Where none of the shop's sizes fits, it says so and gives the hat made to the head."""
    product.get_by_label("A measured head").check()
    product.get_by_label("Around the head").fill("75")
    product.get_by_label("Around the head").press("Enter")
    in_state(product, "done")

    expect(product.get_by_text("None of our sizes fits")).to_be_visible()
    expect(product.locator("hat-size h3")).to_contain_text("around")
