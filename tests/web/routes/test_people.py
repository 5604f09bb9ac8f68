"""The page for people: its words in every language it has."""

import json
import re
from typing import get_args

import pytest

from roundwright import reference
from roundwright.knitting.answers import IMPOSSIBLE_CODES
from roundwright.web.problems import FaultCode
from roundwright.web.routes.people import FOLDER

ENGLISH = json.loads((FOLDER / "words-en.json").read_text())
CODES = {*IMPOSSIBLE_CODES, *get_args(FaultCode)}
"""Codes of what is wrong with a request."""
SOURCES = (FOLDER / "index.html").read_text() + "".join(file.read_text() for file in FOLDER.glob("*.js"))


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


def test_every_text_is_used_and_there():
    """What the page says is among its words, and nothing stands there that it does not say."""
    placed = set(re.findall(r"\{\{(\w+)\}\}", SOURCES)) - {"language", "language_links", "language_options"}
    said = set(re.findall(r'(?:say|row|counts)\("(\w+)"', SOURCES))
    chosen = set(re.findall(r'"(\w+)"', SOURCES)) | {
        f"hold_{hold}" for hold in ("double_pointed", "magic_loop")
    }
    chosen |= set(re.findall(r"^  (\w+): \{ word:", SOURCES, re.MULTILINE))
    chosen |= {f"fault_{code}" for code in CODES} | {"fault_at_least", "fault_at_most"}

    assert placed | said <= set(ENGLISH)
    assert set(ENGLISH) - placed - said - chosen == {
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


def test_the_page_speaks_the_languages_of_patterns_and_offers_them(service):
    """A language that patterns are read and written in is one of the page, and stands in both of its lists."""
    page = service.get("/", headers={"accept": "text/html"}).text

    assert {file.stem for file in FOLDER.glob("words-*.json")} == {
        f"words-{language}" for language in ("en", *reference.LANGUAGES)
    }
    for language in reference.LANGUAGES:
        assert page.count(f'<option value="{language}" lang="{language}">') == 2


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
