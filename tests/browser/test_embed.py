"""The size calculator in the hands of shops of all kinds: their colours, words, mistakes and policies."""

import json
import re
from base64 import b64encode
from collections.abc import Iterator

import pytest
from playwright.sync_api import expect

from roundwright import reference
from roundwright.web.settings import Settings
from tests.browser.seen import barriers
from tests.browser.shop import FOLDER, TWO_LINES, in_state, shop
from tests.clients.test_typescript_client import node
from tests.conftest import serving

LOADED, ELEMENT = TWO_LINES.splitlines()
BLACK, WHITE = "rgb(0, 0, 0)", "rgb(255, 255, 255)"


@pytest.fixture(scope="module")
def street() -> Iterator:
    """A shop whose page a test writes, and a service that lets it call."""
    with shop() as opened, serving(Settings(cors_origins=(opened.origin,))) as address:
        opened.service = address
        yield opened


@pytest.fixture
def open_page(street, page, seen):
    """Opens the shop's page with these lines, and these in its head; the policy is strict, with Trusted Types."""

    def opened(lines: str = TWO_LINES, head: str = ""):
        street.lines, street.head = lines, head
        page.goto(f"{street.origin}/bare.html")
        return page

    return opened


def find(page, age: str = "6") -> None:
    """Type an age and press Enter."""
    page.get_by_role("textbox").first.fill(age)
    page.get_by_role("textbox").first.press("Enter")


def colour_of_picture(page) -> list[int]:
    """Red, green and blue of the paper of the first picture, as it is shown."""
    picture = page.locator("hat-size img").first
    expect(picture).to_have_js_property("complete", value=True)
    data = b64encode(picture.screenshot()).decode()
    canvas = page.context.new_page()
    colour = canvas.evaluate(
        """async data => {
            const image = new Image();
            image.src = `data:image/png;base64,${data}`;
            await image.decode();
            const canvas = new OffscreenCanvas(image.width, image.height);
            const drawn = canvas.getContext("2d");
            drawn.drawImage(image, 0, 0);
            return [...drawn.getImageData(60, 12, 1, 1).data].slice(0, 3);
        }""",
        data,
    )
    canvas.close()
    return colour


@pytest.mark.parametrize("system", ["light", "dark"])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_it_follows_the_scheme_of_the_page(scheme, system, open_page):
    """On a dark page it is dark with its pictures, on a light one light, whatever the reader's system prefers."""
    page = open_page(head=f'<meta name="color-scheme" content="{scheme}">')
    page.emulate_media(color_scheme=system)
    find(page)
    in_state(page, "done")
    paper = page.locator("hat-size section").evaluate("e => getComputedStyle(e).backgroundColor")

    assert paper == {"light": "rgb(252, 248, 239)", "dark": "rgb(32, 34, 43)"}[scheme]
    assert (sum(colour_of_picture(page)) < 384) == (scheme == "dark")
    assert [] == barriers(page)


@pytest.mark.parametrize(
    "colours",
    [
        {"paper": "#000", "ink": "#fff"},
        dict.fromkeys(("ink", "soft", "line", "accent"), "#fff") | {"paper": "#000", "on-accent": "#000"},
    ],
)
def test_white_on_black_has_no_barrier(colours, open_page, seen):
    """A shop that sets paper and ink alone, or every colour, to white on black: axe finds nothing."""
    page = open_page()
    for name, value in colours.items():
        page.locator("hat-size").evaluate(
            "(e, [n, v]) => e.style.setProperty(n, v)", [f"--hat-{name}", value]
        )
    assert [] == barriers(page)
    find(page)
    in_state(page, "done")
    for summary in page.locator("hat-size summary").all():
        summary.click()
    assert [] == barriers(page)
    find(page, "")
    in_state(page, "error")

    assert page.locator("hat-size section").evaluate("e => getComputedStyle(e).color") == WHITE
    assert [] == barriers(page)
    assert [] == seen.complaints


def test_its_words_can_be_replaced(open_page, seen):
    """A shop writes its own words between the tags; they are used everywhere, and numbers as its language has them."""
    words = {
        "Find your size": "Finde deine Größe",
        "Age today": "Alter heute",
        "Find the size": "Größe finden",
        "Here is your size.": "Das ist deine Größe.",
        "To buy": "Zu kaufen",
        "1 ball": "1 Knäuel",
    }
    element = ELEMENT.replace("<hat-size", '<hat-size lang="de"').replace(
        "></hat-size>", f'><script type="application/json">{json.dumps(words)}</script></hat-size>'
    )
    page = open_page(f"{LOADED}\n{element}")
    page.get_by_label("Alter heute").fill("6")
    page.get_by_role("button", name="Größe finden").click()
    in_state(page, "done")

    expect(page.get_by_role("region", name="Finde deine Größe")).to_be_visible()
    expect(page.get_by_role("status")).to_have_text("Das ist deine Größe.")
    expect(page.get_by_text("Zu kaufen")).to_be_visible()
    expect(page.locator("dd").first).to_contain_text("1 Knäuel8,50\xa0€")
    assert [] == seen.complaints


@pytest.mark.parametrize(
    ("good", "bad", "message"),
    [
        ('gauge="20 28"', 'gauge="20"', 'gauge="20" should be such as gauge="20 28"'),
        ('ball="100 g 210 m"', 'ball="100 g"', 'ball="100 g" should be such as ball="100 g 210 m"'),
        ('ball="100 g 210 m"', "", 'ball="" should be such as'),
        ('price="8.50 EUR"', 'sizes="small, large"', 'sizes="small, large" should be such as'),
    ],
)
def test_a_mistake_of_the_shop_goes_to_the_console(good, bad, message, open_page, seen):
    """What the calculator cannot do without is checked at the start; the shopper reads what the shop wrote instead."""
    element = ELEMENT.replace(good, bad).replace(
        "></hat-size>", ">Write to us, and we find your size.</hat-size>"
    )
    page = open_page(f"{LOADED}\n{element}")
    in_state(page, "broken")

    expect(page.get_by_text("Write to us, and we find your size.")).to_be_visible()
    expect(page.get_by_role("alert")).to_have_count(0)
    assert any(message in complaint for complaint in seen.complaints)


@pytest.mark.parametrize(
    ("bad", "message"),
    [
        ('price="8.50"', 'price="8.50" should be such as'),
        ('prize="8.50 EUR"', 'has no attribute "prize"'),
        ('theme="night"', 'theme="night" should be such as'),
    ],
)
def test_a_small_mistake_leaves_the_calculator_working(bad, message, open_page, seen):
    """What it can do without is left out, with a line in the console."""
    page = open_page(LOADED + ELEMENT.replace('price="8.50 EUR"', bad))
    find(page)
    in_state(page, "done")

    assert any(message in complaint for complaint in seen.complaints)


def test_what_the_service_refuses_of_the_shop_is_not_told_to_the_shopper(open_page, seen):
    """A style of crown that does not exist: the reason is in the console, the shopper is told to try again later."""
    page = open_page(LOADED + ELEMENT.replace('price="8.50 EUR"', 'crown="doom"'))
    find(page)
    in_state(page, "error")

    expect(page.get_by_role("alert")).to_have_text(
        "The size service cannot be reached. Please try again in a moment."
    )
    assert any("cannot be knitted: " in complaint and "wedge" in complaint for complaint in seen.complaints)


@pytest.mark.parametrize("service", ["{at}/hats", "{at}/hats/", "/hats"])
def test_a_service_may_lie_under_a_path(service, street, open_page, page):
    """Behind a shop's own server the service has a path; requests and pictures go below it."""
    below = []

    def forward(route):
        below.append(route.request.url)
        path = route.request.url.partition("/hats/")[2]
        headers = route.request.headers | {"origin": street.origin}
        route.fulfill(response=route.fetch(url=f"{street.service}/{path}", headers=headers))

    page.route("**/hats/v1/**", forward)
    at = street.service
    street.service, element = service.format(at=at), ELEMENT
    try:
        page.route("**/hats/**", forward)
        street.lines, street.head = f"{LOADED}\n{element}", ""
        content = street.page("bare.html").decode()
    finally:
        street.service = at
    page.route("**/under.html", lambda route: route.fulfill(body=content, content_type="text/html"))
    page.goto(f"{street.origin}/under.html")
    find(page)
    in_state(page, "done")
    expect(page.get_by_role("img").first).to_have_js_property("naturalWidth", 640)
    page.unroute_all(behavior="wait")  # what is still on its way fails in the next test otherwise

    assert any("/hats/v1/hats" in url for url in below)
    assert any("/hats/v1/drawings/profile.svg" in url for url in below)


def test_it_may_be_loaded_twice(open_page, seen):
    """A page put together from parts loads the script twice, under two addresses: nothing breaks."""
    page = open_page(f"{LOADED}{LOADED.replace('hat-size.js', 'hat-size.js?again')}\n{ELEMENT}")
    find(page)
    in_state(page, "done")

    assert [] == seen.complaints


def test_without_javascript_the_shops_own_words_are_read(street, browser):
    """Between the tags stands what a shopper reads where scripts do not run."""
    street.lines = f"{LOADED}\n{ELEMENT.replace('></', '>Write to us, and we find your size.</')}"
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{street.origin}/bare.html")

    expect(page.get_by_text("Write to us, and we find your size.")).to_be_visible()
    context.close()


def test_its_types_compile(tmp_path):
    """A shop written in TypeScript finds the element, its event and what is in it, under `strict`."""
    (tmp_path / "hat-size.d.ts").write_bytes((FOLDER / "hat-size.d.ts").read_bytes())
    (tmp_path / "shop.ts").write_text(
        """\
import type { HatSizeFound } from "./hat-size";
const balls = ({ plan }: HatSizeFound): number => plan.sizes[0].yarn.to_buy.balls;
document.querySelector("hat-size")?.addEventListener("hatsize", ({ detail }) => console.log(balls(detail)));
// @ts-expect-error: there is no such field
document.querySelector("hat-size")?.addEventListener("hatsize", ({ detail }) => console.log(detail.basket));
"""
    )
    options = {"strict": True, "noEmit": True, "target": "es2022", "module": "es2022", "types": []}
    options |= {"moduleResolution": "bundler", "lib": ["es2023", "dom"]}
    (tmp_path / "tsconfig.json").write_text(json.dumps({"compilerOptions": options, "files": ["shop.ts"]}))

    node(tmp_path, ".bin/tsc")


def test_the_words_of_other_languages_are_those_of_the_calculator(tmp_path):
    """`words.js` has the same English texts in every language, each stands in the calculator, and none is missing."""
    script = (FOLDER / "hat-size.js").read_text()
    show = f'import {{ WORDS }} from "{FOLDER}/words.js"; console.log(JSON.stringify(WORDS));'
    (tmp_path / "show.mjs").write_text(show)
    words = json.loads(node(tmp_path, "show.mjs"))
    literals = set(re.findall(r'(?:say|fact|fold|const GONE =)[ (]("[^"]+")', script))

    assert words.keys() == set(reference.LANGUAGES)
    for texts in words.values():
        assert list(texts) == list(words["de"])
        assert {json.loads(text) for text in literals} <= set(texts)
        assert all(f'"{text}"' in script for text in texts)


def test_the_shop_has_a_choice_of_language(street, page, seen):
    """The shop's page puts the calculator into German without loading anew, answers and messages of the service too."""
    page.goto(f"{street.origin}/index.html")
    page.get_by_label("The calculator speaks").select_option("Deutsch")
    page.get_by_label("Alter heute").fill("6")
    page.get_by_role("button", name="Größe finden").click()
    in_state(page, "done")

    expect(page.get_by_text("Zu kaufen")).to_be_visible()
    expect(page.get_by_label("Balls")).to_have_value("1")
    assert [] == barriers(page)
    assert [] == seen.complaints
