"""The page for people: its words in every language it has."""

import json
import re
from html import unescape
from typing import get_args

import httpx
import pytest

from roundwright import reference
from roundwright.knitting.answers import IMPOSSIBLE_CODES
from roundwright.language import words_of
from roundwright.web.problems import FaultCode
from roundwright.web.routes.people import FOLDER
from roundwright.web.settings import Settings
from tests.conftest import serving

ENGLISH = json.loads((FOLDER / "words-en.json").read_text())
CODES = {*IMPOSSIBLE_CODES, *get_args(FaultCode)}
"""Codes of what is wrong with a request."""
SOURCES = "".join(
    file.read_text() for suffix in ("html", "js") for file in sorted(FOLDER.glob(f"*.{suffix}"))
)


def values(words) -> list[str]:
    """The texts of a key: one, or a form for each plural."""
    return [words] if isinstance(words, str) else list(words.values())


@pytest.mark.parametrize("file", sorted(FOLDER.glob("words-*.json")), ids=lambda file: file.stem)
def test_a_language_has_every_text_with_its_values(file):
    """A language has the texts that English has, each with the same values in braces, and none is empty."""
    words = json.loads(file.read_text())

    assert list(words) == list(ENGLISH)
    for name, text in ENGLISH.items():
        placed = {frozenset(re.findall(r"\{\w+\}", form)) for form in values(text)}
        assert all(frozenset(re.findall(r"\{\w+\}", form)) in placed for form in values(words[name])), name
        assert all(form.strip() for form in values(words[name])), name


@pytest.mark.parametrize("language", reference.LANGUAGES)
def test_the_page_calls_the_parts_of_a_hat_as_patterns_do(language):
    """One word for each part, on the page as in the pattern below it."""
    words = json.loads((FOLDER / f"words-{language}.json").read_text())

    for part in ("brim", "body", "crown"):
        heading = words_of(language).say(f"heading.{part}")
        assert words[f"row_{part}"].startswith(f"{heading}, ")


@pytest.mark.parametrize("language", reference.LANGUAGES)
def test_the_page_has_numbers_and_units_of_its_language(language):
    """A decimal comma, and no `in` for inches, which is a preposition in German, Dutch and the Nordic languages."""
    texts = [
        form
        for name, text in json.loads((FOLDER / f"words-{language}.json").read_text()).items()
        if name != "example_pattern"
        for form in values(text)
    ]

    assert [text for text in texts if re.search(r"\d\.\d|\d in\b", text)] == []


def test_the_german_page_says_du_throughout():
    """Not from `du` to `Sie` within a page; checklist, German 15."""
    texts = [
        form for text in json.loads((FOLDER / "words-de.json").read_text()).values() for form in values(text)
    ]

    assert [
        text for text in texts if re.search(r"\w+en Sie\b|(?:[Ww]as|[Ww]enn|dass) Sie\b|\bIhnen\b", text)
    ] == []


def test_every_text_is_used_and_there():
    """What the page says is among its words, and nothing stands there that it does not say."""
    placed = set(re.findall(r"\{\{(\w+)\}\}", SOURCES)) - {
        "language",
        "language_links",
        "language_options",
        "example_price",
        "example_size",
        "faults",
    }
    keys = set(re.findall(r'(?:say|row|counts)\("(\w+)"', SOURCES))
    chosen = set(re.findall(r'"(\w+)"', SOURCES)) | {
        f"hold_{hold}" for hold in ("double_pointed", "magic_loop")
    }
    chosen |= set(re.findall(r"^  (\w+): \{ word:", SOURCES, re.MULTILINE))
    chosen |= {f"fault_{code}" for code in CODES} | {"fault_at_least", "fault_at_most"}

    assert placed | keys <= set(ENGLISH)
    assert set(ENGLISH) - placed - keys - chosen == {
        "language_name",
        "hold_two_circulars",
        "hold_circular",
    }


def test_a_text_is_data_in_the_page(service):
    """The words are escaped where they stand in the page, and the language is said."""
    page = service.get("/?language=de", headers={"accept": "text/html"})

    assert page.headers["content-language"] == "de"
    assert '<html lang="de">' in page.text
    assert "{{" not in page.text
    assert "Mütze planen" in page.text


@pytest.mark.parametrize("query", ["fbclid=x", "utm_source=a&utm_medium=b", "gauge_stitches=20", "=", "%ff"])
def test_a_link_with_something_hung_on_it_opens_the_page(query, service):
    """Who shares a link does not know what is added to it; a program that asks for JSON is told, as ever."""
    page = service.get(f"/?{query}", headers=BROWSER)
    assert (200, "text/html; charset=utf-8") == (page.status_code, page.headers["content-type"])
    assert 'lang="de"' in service.get(f"/?language=de&{query}", headers=BROWSER).text
    assert 400 == service.get(f"/?{query}", headers={"accept": "application/json"}).status_code


@pytest.mark.parametrize(
    "page", ["/handout?gauge_stitches=20&sizes=woman", "/docs?", "/problems?", "/problems/not-found?"]
)
@pytest.mark.parametrize(
    "hung_on", ["fbclid=x", "utm_source=a&utm_medium=b&gclid=c", "colour=red", "ref=", "_ga=1"]
)
def test_so_does_that_of_any_page(page, hung_on, service):
    """The handout, the reference and the kinds of problem are pages, too."""
    plain, shared = (service.get(f"{page}&{more}", headers=BROWSER) for more in ("", hung_on))

    assert (200, plain.headers["etag"], plain.text) == (
        shared.status_code,
        shared.headers["etag"],
        shared.text,
    )


def test_the_page_speaks_the_languages_of_patterns_and_offers_them(service):
    """A language that patterns are read and written in is one of the page, and stands in both of its lists."""
    page = service.get("/", headers={"accept": "text/html"}).text

    assert {file.stem for file in FOLDER.glob("words-*.json")} == {
        f"words-{language}" for language in ("en", *reference.LANGUAGES)
    }
    for language in reference.LANGUAGES:
        assert page.count(f'<option value="{language}" lang="{language}">') == 2


@pytest.mark.parametrize(("language", "sign"), [("en", "."), *((code, ",") for code in reference.LANGUAGES)])
def test_examples_in_the_form_have_the_decimal_sign_of_the_language(language, sign, service):
    """`8,50` and `55,5 cm`; checklist, German 14."""
    page = service.get("/", params={"language": language}, headers={"accept": "text/html"}).text

    assert f'placeholder="8{sign}50"' in page
    assert f'<textarea name="sizes" rows="3">55{sign}5 cm</textarea>' in page


@pytest.mark.parametrize("file", sorted(FOLDER.glob("words-*.json")), ids=lambda file: file.stem)
def test_the_example_of_the_proofreader_is_read_in_its_language(file, service):
    """The example to look at is in the language of the page, and has a fault that an edit mends."""
    language = file.stem.removeprefix("words-")
    pattern = json.loads(file.read_text())["example_pattern"]
    answer = service.post("/v1/patterns/proofread", json={"text": pattern, "cast_on": [64, 72, 80]}).json()

    assert answer["language"] == language
    assert any(finding["edits"] for finding in answer["findings"])
    assert all(
        line["kind"] != "not_read"
        for line in answer["lines"]
        if "k2tgo" not in pattern.split("\n")[line["line"] - 1]
    )


BROWSER = {"accept": "text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8"}


@pytest.mark.parametrize(
    ("query", "status", "message"),
    [
        (
            "gauge_stitches=20&sizes=woman+x+5000",
            422,
            "Whose heads: 'woman x 5000': This must be at most 1000.",
        ),
        ("gauge_stitches=20&sizes=430+cm", 422, "What works: 430 mm."),
        ("gauge_stitches=&sizes=woman", 400, "stitches: This has to be filled in."),
        ("gauge_stitches=lots&sizes=woman", 400, "stitches: A number is needed here, such as 20."),
        ("gauge_stitches=5000&sizes=woman", 400, "stitches: This may be at most 1000."),
        ("gauge_stitches=20&sizes=25+years", 422, "Whose heads: '25 years': This must be at most 21."),
        ("gauge_stitches=20&sizes=woman&body_fulness=10", 400, "body_fulness: This form has no such field."),
        (
            "gauge_stitches=20&sizes=woman&depth=deep",
            400,
            "Edge to top, cm: A number is needed here, in cm or",
        ),
        ("gauge_stitches=20&sizes=woman&needles=5", 400, "The stitches are on: "),
    ],
)
def test_a_mistake_in_the_form_is_a_page_in_a_browser(query, status, message, service):
    """Without JavaScript a mistake gets a page with the name of the field, what is wrong and what works."""
    answer = service.get(f"/handout?{query}", headers=BROWSER)
    text = unescape(answer.text)

    assert (status, "text/html; charset=utf-8") == (answer.status_code, answer.headers["content-type"])
    assert message in text
    assert "no-store" == answer.headers["cache-control"]
    assert "default-src 'none'" in answer.headers["content-security-policy"]
    assert not re.search("gauge_|head_|age_|#/|`", text), "names of the interface"


def test_the_page_of_a_mistake_is_in_her_language(service):
    """By the language of the form, else by that of her browser; what cannot be knitted is said in short before it."""
    by_form = service.get("/handout?gauge_stitches=&sizes=woman&language=de", headers=BROWSER).text
    by_browser = service.get(
        "/handout?gauge_stitches=20&sizes=430+cm", headers=BROWSER | {"accept-language": "nl"}
    ).text

    assert '<html lang="de">' in by_form
    assert "Das muss ausgefüllt sein." in unescape(by_form)
    assert '<html lang="nl">' in by_browser

    limited = service.get(
        "/handout?gauge_stitches=20&sizes=woman&ease_percent=60.5&language=de", headers=BROWSER
    )
    assert "Das darf höchstens 50 sein." in unescape(limited.text)
    unread = service.get("/handout?gauge_stitches=20&sizes=oma&language=de", headers=BROWSER)
    assert "Was geht: 55,5 cm; 9 Monate x 4; 3 Jahre; Frau." in unescape(unread.text)
    assert "nicht ausgefüllt" not in unread.text


def test_a_mistake_in_the_form_is_data_in_its_page(service):
    """What was typed is escaped where the page repeats it."""
    answer = service.get("/handout?gauge_stitches=20&sizes=%3Cb%3Egoose&%3Ci%3E=1", headers=BROWSER)

    assert answer.is_client_error
    assert not {"<b>", "<i>"} & set(re.findall("<[a-z]+>", answer.text))


def test_a_program_gets_the_problem_of_a_mistake(service):
    """Whoever does not ask for a page gets the problem as JSON, as everywhere."""
    answer = service.get("/handout?gauge_stitches=20&sizes=a+goose")

    assert "application/problem+json" == answer.headers["content-type"]


def test_a_mistake_answered_with_a_page_is_logged_as_a_problem(capfd):
    """The access log has the type of the problem whatever was answered."""
    with serving(Settings(access_log=True)) as address:
        httpx.get(f"{address}/handout?gauge_stitches=20&sizes=a+goose", headers=BROWSER)
    lines = [json.loads(line) for line in capfd.readouterr().err.splitlines()]

    assert ["/problems/cannot-be-knitted"] == [
        line["problem"] for line in lines if line["event"] == "request"
    ]
