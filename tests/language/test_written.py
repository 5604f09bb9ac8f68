"""What is written in a language: no English is left in it, and it keeps the habits of print in that language."""

import json
import re
from collections.abc import Iterator
from functools import cache
from typing import Any

import msgspec
import pytest

from roundwright import reference
from roundwright.knitting.answers import Impossible
from roundwright.knitting.crown.styles import STYLES
from roundwright.language import words_of
from roundwright.web.routes import all_operations
from roundwright.wording.reading.languages.lexicon import spoken
from roundwright.wording.reading.languages.rewrite import rewritten
from tests.language.test_catalogues import catalogue
from tests.support.random_hats import random_hat

HATS = 20
"""Hats by chance beside the examples."""
OPERATIONS = {operation.id: operation for operation in all_operations()}
ASKED = [
    "convertGauge", "substituteGauge", "recommendSize", "checkSize", "castOn", "shapeEvenly", "shapeAlong",
    "closeCrown", "suggestCrown", "splitOverNeedles", "estimateYarn", "checkRemainingYarn", "checkCount", "planHats",
    "writeHandout",
    "drawCrown", "drawProfile", "drawNeedles", "drawSpacing",
]  # fmt: skip
ENGLISH = re.compile(
    r"\b(?:the|of|and|stitch|stitches|round|rounds|knit|knitted|needle|needles|with|are|is|from|rows|decreases?"
    r"|increases?|around|every|each|twice|only|size|sizes|yarn|ball|balls|crown|brim|body)\b",
    re.IGNORECASE,
)
NOT_WORDS = {"basis", "rules", "name", "source", "sources"}
"""Fields whose values are names and sources; bases are translated last."""
NO_SENTENCE = re.compile(r"/v1/|#/|[a-z_-]+\Z")
"""Addresses, and values that are names of the document."""
MARKUP = re.compile(r"<style.*?</style>|<script.*?</script>|<[^>]*>", re.DOTALL)
SOURCES = re.compile(r"^.*(?:EN 14682|CFR|American Academy|ISO 3758).*$", re.MULTILINE)

NAME = "Craft Yarn Council"
"""A name that stays as it is."""


def texts(value: Any) -> Iterator[str]:
    """The texts of an answer that are words for people."""
    if isinstance(value, dict):
        for field, inner in value.items():
            if field not in NOT_WORDS:
                yield from texts(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from texts(inner)
    elif isinstance(value, str) and not NO_SENTENCE.match(value):
        yield SOURCES.sub("", value)


def written(name: str, body: dict[str, Any], language: str) -> Iterator[str]:
    """All texts of the answer to a request, in every media type that is text."""
    operation = OPERATIONS[name]
    answer = operation.calculate(msgspec.convert({**body, "language": language}, operation.request_type))
    for media, render in operation.renderers.items():
        if "pdf" in media or "png" in media:
            continue
        text = bytes(render(answer, words_of(language))).decode()
        if "json" in media:
            yield from texts(json.loads(text))
        else:
            yield SOURCES.sub("", MARKUP.sub("\n", text))


@cache
def patterns(language: str) -> tuple[str, ...]:
    """The patterns of hats by chance, in both wordings."""
    made = []
    for number in range(HATS):
        for wording in ("pattern", "beginner"):
            try:
                body = {**random_hat(number, language), "wording": wording}
                made.append(next(text for text in written("planHats", body, language) if "\n\n" in text))
            except Impossible:
                continue
    return tuple(made)


def english(found: list[str], language: str) -> list[str]:
    """Where English words stand in texts that are no words of the language itself, such as `is` in Dutch."""
    return [
        text[max(0, match.start() - 30) : match.end() + 30]
        for text in [text.replace(NAME, "") for text in found]
        for match in ENGLISH.finditer(text)
        if match[0].lower() not in spoken(language)
    ]


@pytest.mark.parametrize("language", reference.LANGUAGES)
@pytest.mark.parametrize("name", ASKED)
def test_no_english_is_left_in_the_answer_of_an_example(name: str, language: str) -> None:
    """Every operation that answers in words; labels that the request gives are taken out of it."""
    body = json.loads(json.dumps(OPERATIONS[name].example_value()))
    for size in body.get("sizes", []):
        size.pop("label", None)
    for measurement in body.get("measurements", []):
        measurement["label"] = "X"
    body.pop("name", None)

    assert english(list(written(name, body, language)), language) == []


@pytest.mark.parametrize("language", reference.LANGUAGES)
@pytest.mark.parametrize("style", sorted(STYLES))
def test_no_english_is_left_in_a_crown_and_its_picture(style: str, language: str) -> None:
    """Every style, over a count that does not divide evenly."""
    body = {"stitches": 94, "style": style, "gauge": {"stitches": 20, "rows": 28}}

    assert english(list(written("closeCrown", body, language)), language) == []


@pytest.mark.parametrize("language", reference.LANGUAGES)
def test_no_english_is_left_in_the_answers_for_hats(language: str) -> None:
    """Hats by chance: all brims, crowns, needles and wordings, with handout and warnings."""
    for number in range(HATS):
        try:
            assert (
                english(list(written("writeHandout", random_hat(number, language), language)), language) == []
            )
            assert english(list(written("planHats", random_hat(number, language), language)), language) == []
        except Impossible:
            continue


NOT_PRINTED = {
    "de": r"\bReihen?\b|\d\.\d+ (?:mm|cm|m|g)\b|(?<!\d )\bM \d|\bzus\b(?! abh)|\bwdh\.|\d+ - \d|\{",
    "fr": r"[^\u00a0 \d]:|[^\u00a0]; |\d\.\d|1ère|\d+ème|\brestants\b|\bpoints?\b(?! de| mousse)|'|\{",
    "es": r"\d\.\d|\brondas?\b|\bfilas?\b|\bcorona\b|\bk\d|\b1er\b|\d+º|\bcostilla\b|\ba la derecha\b(?! a)|\{",
}
"""What no pattern has; the checklist of natives has these among its lines."""
COUNT = {
    "de": r"\(= \d+ M\)$|= \d+(?: \([\d/]+\))? M$|Jetzt sind es \d+(?: \([\d/]+\))? Maschen\.",
    "fr": r"= \d+(?: \([\d\u00a0; ]+\))? m$|On a \d+(?: \([\d\u00a0; ]+\))? mailles\.",
    "es": r"= \d+(?: \([\d, ]+\))? p$|Ahora hay \d+(?: \([\d, ]+\))? puntos\.",
}
"""How the count stands after a round."""


@pytest.mark.parametrize("language", sorted(NOT_PRINTED))
def test_a_pattern_keeps_the_habits_of_its_language(language: str) -> None:
    """Words, order, signs and spaces that natives print; no row in the round, a decimal comma, no slot left open."""
    wrong = [
        text[max(0, match.start() - 30) : match.end() + 30]
        for text in patterns(language)
        for match in re.finditer(NOT_PRINTED[language], text)
    ]

    assert wrong == []


WINCES = {
    "de": r"aufwerfen|gießen|abbinden|Strumpfstich|Jerseystich|Strumpfbandstich|Rippung|Doppelspitznadeln|Male|Sts"
    r"|verbleibend\w*|rutsche|RE|LI|rd|stricke|Sie stricken|Stricken Sie|[Mm]asche \d+ste|\d+ste",
    "fr": r"rondes?|rangs?|rangées?|nervures?|jeter|lier|jarretière|en cercle|queue|tisser|temps|end \d|\d+ème"
    r"|[a-zé]{3,}ez(?<!assez)",
    "es": r"hilo sobre|resorte|canalé|pasadas?|carreras?|corridas?|atar|desechar|lanzar|permanecen|pts|sts?|tamaño"
    r"|palillos|urdir|Santa Clara|tejes?|montas?|repites?|yo|der \d|rev \d",
}
"""Words of machines, of other countries, and moods that change: lines 1 to 15 of the checklist of each language."""


@pytest.mark.parametrize("language", sorted(WINCES))
def test_no_word_is_a_machines(language: str) -> None:
    """Neither words that natives do not use nor a change from the infinitive to the imperative."""
    winces = re.compile(rf"(?<![\w-])(?:{WINCES[language]})(?![\w-])")

    assert [
        text[max(0, match.start() - 30) : match.end() + 30]
        for text in patterns(language)
        for match in winces.finditer(text)
    ] == []


@pytest.mark.parametrize("language", reference.LANGUAGES)
def test_a_number_stands_before_its_unit_with_a_space(language: str) -> None:
    """`3,5 mm` and `15 cm`; checklist, numbers."""
    for text in patterns(language):
        assert re.search(r"\d(?:cm|mm|m|g)\b", text) is None


@pytest.mark.parametrize("language", sorted(NOT_PRINTED))
def test_the_count_stands_after_every_round(language: str) -> None:
    """Each numbered round ends with its stitches as the language prints them."""
    start = {"de": r"^\d+\. (?:Rd|Runde)\b", "fr": r"^Tour \d", "es": r"^(?:Vta|Vuelta) \d"}[language]
    for text in patterns(language):
        lines = [line for line in text.splitlines() if re.match(start, line)]

        assert lines
        assert [line for line in lines if not re.search(COUNT[language], line)] == []


@pytest.mark.parametrize("language", reference.LANGUAGES)
def test_no_bracket_stands_in_a_bracket(language: str) -> None:
    """`= 80 (96/104) M` and not `(= 80 (96/104) M)`: one set of brackets for sizes; checklist, German 8."""
    assert [
        line
        for text in patterns(language)
        for line in text.splitlines()
        if re.search(r"\([^()]*\(", line.replace("(s)", ""))
    ] == []


@pytest.mark.parametrize(
    ("language", "both"),
    [("fr", r"^Tours \d+ et \d+"), ("es", r"^(?:Vtas|Vueltas) \d+ y \d+"), ("nl", r"^Toer \d+ en \d+")],
)
def test_two_rounds_are_no_span(language: str, both: str) -> None:
    """`Vtas 7 y 8`, since there is nothing between the two."""
    lines = [line for text in patterns(language) for line in text.splitlines()]
    spans = [
        found.groups() for line in lines if (found := re.match(r"\D+(\d+) (?:à|a|t/m) (\d+)\b(?! \()", line))
    ]

    assert any(re.match(both, line) for line in lines)
    assert [(first, last) for first, last in spans if int(last) == int(first) + 1] == []


NAMED = [name for name, row in reference.stitches().items() if row.uses != row.leaves]
"""Increases and decreases: every one may be chosen for a round of shaping."""


@pytest.mark.parametrize("language", reference.LANGUAGES)
def test_no_stitch_has_an_english_name(language: str) -> None:
    """`1 M links geneigt zun` and not `m1l`; abbreviated or written out, it is read as the stitch that it is."""
    words = words_of(language)

    assert [name for name in NAMED if words.stitch(name) == name] == []
    assert [
        (name, written, read)
        for name in NAMED
        for written in (words.stitch(name), words.stitch_plain(name))
        if (read := rewritten(written, language, 1).text) != name
    ] == []


ONE_WORD = {
    "fr": r"\bcoupole|\ble? long fil\b",
    "es": r"\bmenguad|\bhileras?\b|\blazada|\bunos \{(?:lengths|depth|circumference|needed|reach)\}",
    "da": r"\bkabl?et\b|\bglatstrik\b",
    "nb": r"\bkabel",
}
"""Second words for a thing, words of another country, and `unos` before what may be inches (checklist, Spanish 1)."""


@pytest.mark.parametrize("language", sorted(ONE_WORD))
def test_a_thing_has_one_word(language: str) -> None:
    """A decrease is no `menguado` beside `disminución`, and a flat row no `hilera` beside `montar`, `agujas`."""
    found = re.compile(ONE_WORD[language])

    assert [str(message.string) for message in catalogue(language) if found.search(str(message.string))] == []


def test_french_has_a_blank_before_a_semicolon_in_a_list_of_rules() -> None:
    """Lists of rules as lists of sources; checklist, French 1."""
    body = {"gauge": {"stitches": 20, "rows": 28}, "sizes": [{"adult": "woman"}], "language": "fr"}
    operation = OPERATIONS["planHats"]
    answer = operation.calculate(msgspec.convert(body, operation.request_type))
    rules = " ".join(words_of("fr").render(basis.rule) for basis in answer.basis)

    assert "\u00a0; " in rules
    assert re.search(r"[^\u00a0];", rules) is None


def test_spanish_says_how_often_before_how_far_apart() -> None:
    """`1 vez cada 6 pasadas y 10 veces cada 8 pasadas`; with commas behind, one read on into the next."""
    (text, *_) = [
        text
        for text in written("shapeAlong", dict(OPERATIONS["shapeAlong"].example_value()), "es")
        if text.startswith("Aumentar")
    ]

    assert re.search(r"1 vez cada 6 pasadas y 10 veces cada 8 pasadas", text)
