"""Catalogues of messages: every message there is, in every language, with the same placeholders."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from string import Formatter

import pytest
from babel.lists import format_list
from babel.messages.catalog import Catalog
from babel.messages.pofile import read_po
from babel.numbers import format_decimal

import roundwright
from roundwright import reference
from roundwright.language import LANGUAGES, joined, listed, say, say_count, supported, words_of
from roundwright.language.codes import CATALOGUES

SOURCES = Path(roundwright.__file__).parent
MAKERS = ("say", "say_count")
FOREIGN = [code for code in LANGUAGES if not code.startswith("en")]


def catalogue(code: str) -> Catalog:
    """The catalogue of a language, as translators have it."""
    with (CATALOGUES / f"{code.replace('-', '_')}.po").open("rb") as file:
        return read_po(file)


def keys_in_sources() -> Iterator[re.Pattern[str]]:
    """The keys of messages that the code makes; a part that is filled in stands for any text."""
    for node in nodes():
        if not isinstance(node, ast.Call) or not node.args:
            continue
        name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
        if name in MAKERS:
            yield from _patterns(node.args[0])


def nodes() -> Iterator[ast.AST]:
    """All nodes of the code."""
    for path in SOURCES.rglob("*.py"):
        yield from ast.walk(ast.parse(path.read_text()))


def constants() -> set[str]:
    """All texts of the code: a key that is chosen before the message is made is one of them."""
    return {node.value for node in nodes() if isinstance(node, ast.Constant) and isinstance(node.value, str)}


def _patterns(key: ast.expr) -> Iterator[re.Pattern[str]]:
    if isinstance(key, ast.IfExp):
        yield from _patterns(key.body)
        yield from _patterns(key.orelse)
    elif isinstance(key, ast.Constant) and isinstance(key.value, str):
        yield re.compile(re.escape(key.value))
    elif isinstance(key, ast.JoinedStr):
        parts = [re.escape(part.value) if isinstance(part, ast.Constant) else ".+" for part in key.values]
        yield re.compile("".join(parts))


def placeholders(text: str) -> set[str]:
    """The names in braces of a text."""
    return {name for _, name, _, _ in Formatter().parse(text) if name is not None}


def texts(message) -> tuple[str, ...]:
    """The texts of a message: its plural forms, or its only text."""
    return message.string if isinstance(message.string, tuple) else (message.string,)


def test_every_message_of_the_code_is_in_the_english_catalogue():
    """No key without its English text."""
    english = {message.id if isinstance(message.id, str) else message.id[0] for message in catalogue("en-US")}
    missing = {key.pattern for key in keys_in_sources() if not any(map(key.fullmatch, english))}

    assert not missing


def test_every_message_of_the_english_catalogue_is_in_use():
    """No text that nobody makes."""
    used, chosen = list(keys_in_sources()), constants()
    unused = {
        name
        for message in catalogue("en-US")
        if (name := message.id if isinstance(message.id, str) else message.id[0])
        and name not in chosen
        and not any(key.fullmatch(name) for key in used)
    }

    assert not unused


BENT = re.compile(
    r"\d times, by|times\} times|said \{|will not do|is no setting|asked in another way|object or null"
)
"""What our errors once said that nobody says: `will not do`, `is no setting`, `object or null`."""


def test_messages_are_in_plain_english():
    """None says it in the manner of libraries, for readers of a third language."""
    bent = {text for message in catalogue("en-US") for text in texts(message) if BENT.search(text)}

    assert not bent


@pytest.mark.parametrize("code", [code for code in LANGUAGES if code != "en-US"])
def test_a_translation_has_the_placeholders_of_the_english_text(code):
    """A number or a word that the English text names is not lost, and none is invented."""
    english = {message.id: message for message in catalogue("en-US") if message.id}
    for message in catalogue(code):
        if not message.id:
            continue
        assert message.id in english, message.id
        expected = set().union(*map(placeholders, texts(english[message.id])))
        names = set().union(*map(placeholders, texts(message)))
        assert names <= expected, message.id
        assert expected - names <= {"count"}, message.id


@pytest.mark.parametrize("code", FOREIGN)
def test_numbers_and_lists_are_those_of_cldr(code):
    """Decimal sign and list of three as Babel (CLDR) has them."""
    words = words_of(code)

    assert format_decimal(3.5, locale=code) == words.number(3.5)
    assert format_list(["1", "2", "4"], locale=code) == words.render(listed(["1", "2", "4"]))


def test_a_language_is_found_by_its_tag():
    """RFC 4647, lookup: the part before a region stands for it; Norwegian is Bokmål."""
    assert supported("de-AT") == "de"
    assert supported("nb-NO") == "nb"
    assert supported("no") == "nb"
    assert supported("en") == "en-US"
    assert supported("x-klingon") is None


def test_a_message_is_composed_of_messages():
    """What is put together of messages is put into words as a whole."""
    message = joined(" ", say("list.and", but_last=say_count("stitches", 1), last="x"), "")

    assert message == "1 stitch and x"
    assert message == words_of("en-US").render(message)


@pytest.mark.parametrize(
    ("code", "after"),
    [
        ("de", "Ab hier"),
        ("fr", "ab hier"),
        ("es", "ab hier"),
        ("nb", "ab hier"),
        ("da", "ab hier"),
        ("nl", "ab hier"),
        ("en-GB", "ab hier"),
    ],
)
def test_a_sentence_goes_on_after_a_colon_as_the_language_has_it(code: str, after: str) -> None:
    """German begins a sentence after a colon with a capital (Duden), the others with a small letter."""
    assert after == words_of(code).after_colon("Ab hier")


def test_what_a_table_says_is_what_is_written():
    """The texts of `/v1/standards` that patterns print are in the catalogue as they are in the table."""
    english = words_of("en-US")

    for name, row in reference.stitches().items():
        assert english.say(f"how.{name}") == row.how
    for row in reference.class_help():
        assert english.say(f"class_help.{row.name}") == row.text


@pytest.mark.parametrize("code", FOREIGN)
def test_no_knitter_is_told_of_an_address(code):
    """Who reads a handout in her language is not sent to a path of this service."""
    translations = [str(message.string) for message in catalogue(code) if message.id]
    assert [text for text in translations if "/v1/" in text] == []
