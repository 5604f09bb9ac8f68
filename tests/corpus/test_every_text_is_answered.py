"""Every text is answered and none raises: patterns of the corpora in seven languages, cut off, changed, in capitals.

`ROUNDWRIGHT_TEST_TEXTS=20000` reads so many changed texts of each language in place of the few that every run does.
"""

import os
import random
import re
from typing import Final

import pytest

from roundwright import reference
from roundwright.wording.proofreading.proofread import ProofreadRequest, proofread
from roundwright.wording.reading.layout import MOST_LINES
from tests.corpus.score import Text, corpora

MANY: Final = int(os.environ.get("ROUNDWRIGHT_TEST_TEXTS", "40"))
LONGEST: Final = 700
"""Characters of a text that is changed in the usual run: a few milliseconds each."""
LANGUAGES: Final = ("en", "de", "fr", "es", "nb", "da", "nl")
_PIECE: Final = re.compile(r"\s+|\w+|[^\w\s]")
_PUT_IN: Final = (
    "Front: ", "Back: ", "Needle 1: ", "Needle 2: ", "(", "(=", ")", "*", "=", "-", ".", "\n", "\r\n", "\t", "\xa0",
    "Rnd 2: ", "All other rounds: knit.", "until 9 sts remain", "0", "99",
)  # fmt: skip
"""What is put in: heads, signs, spaces and lines that stand for others."""


def texts_of(language: str) -> list[Text]:
    """The texts of a language, right and wrong, that are short enough."""
    items = [
        item for corpus in corpora().values() for key in ("right", "wrong") for item in corpus.get(key, [])
    ]
    return [
        item
        for item in items
        if (item.get("language") or "en") == language and (len(item["text"]) <= LONGEST or MANY > LONGEST)
    ]


def changed(chance: random.Random, text: str) -> str:
    """A text with words left out, doubled, changed over or put in, cut off, in capitals or with other line ends."""
    pieces = _PIECE.findall(text)
    for _ in range(chance.randint(0, 4)):
        place, other = chance.randrange(len(pieces)), chance.randrange(len(pieces))
        match chance.randrange(5):
            case 0:
                pieces[place] = ""
            case 1:
                pieces[place] *= 2
            case 2:
                pieces[place], pieces[other] = pieces[other], pieces[place]
            case 3:
                pieces[place:place] = pieces[other : other + 20]
            case _:
                pieces.insert(place, chance.choice(_PUT_IN))
    begin = chance.choice((0, 0, 0, chance.randrange(len(pieces))))
    end = chance.choice((len(pieces), chance.randrange(len(pieces)) + 1))
    made = "".join(pieces[begin:end])
    match chance.randrange(6):
        case 0:
            return made.upper()
        case 1:
            return made.replace("\n", "\r\n")
        case _:
            return made


def answered(text: str, cast_on: list[int], language: str | None) -> int:
    """How many lines an answer has; a text without any has none."""
    request = ProofreadRequest(cast_on=tuple(cast_on), text=text, language=language)
    return len(proofread(request).lines)


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_changed_text_is_answered(language: str) -> None:
    """Whatever was done to a pattern, each of its lines is told, whether its language is told or not."""
    chance = random.Random(f"{language} 1")
    texts = texts_of(language)
    for _ in range(MANY):
        item = chance.choice(texts)
        text = changed(chance, item["text"])
        tag = chance.choice((language, None))
        try:
            lines = answered(text, item["cast_on"], tag)
        except Exception as error:  # whatever it is: the text is wanted
            raise AssertionError(f"{item.get('id')}: {text!r}, {item['cast_on']}, {tag}") from error
        assert bool(lines) == bool(text.strip()), text


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_beginning_of_a_text_is_answered(language: str) -> None:
    """A page that is proofread while it is typed sends each beginning of a text, up to a word or a sign."""
    item = next(
        item for item in texts_of(language) if "(" in item["text"] and 120 < len(item["text"]) < LONGEST // 3
    )
    ends = [piece.end() for piece in _PIECE.finditer(item["text"])]
    beginnings = [item["text"][:end] for end in ends]

    assert [answered(text, item["cast_on"], None) for text in beginnings] == [
        min(len([line for line in text.split("\n") if line.strip()]), MOST_LINES) for text in beginnings
    ]


_OPTIONAL: Final = re.compile(r"\[([^\[\]]*)\]")
_SLOT: Final = re.compile(r"\{[a-z]\}")
_BETWEEN: Final = (" ", ". ", "\n", ": ", ", ", " (", " = ", ") ")


def put_together(chance: random.Random, wordings: list[str]) -> str:
    """Some wordings of a language in a row, with numbers, with and without what may be left out."""
    made = ""
    for _ in range(chance.randint(1, 8)):
        wording = chance.choice(wordings)
        while _OPTIONAL.search(wording):
            wording = _OPTIONAL.sub(lambda optional: chance.choice((optional[1], "")), wording)
        numbers = _SLOT.sub(lambda _: f"{chance.randint(0, 120)}{chance.choice(('', '', '.'))}", wording)
        made += numbers.strip("^$ ") + chance.choice(_BETWEEN)
    return made


@pytest.mark.parametrize("language", [language for language in LANGUAGES if language != "en"])
def test_wordings_in_any_order_are_answered(language: str) -> None:
    """Also such as nobody prints, in brackets that nobody closes."""
    chance = random.Random(f"{language} 2")
    wordings = sorted({read for row in reference.wordings(language) for read in row.reads})
    for _ in range(MANY):
        text = put_together(chance, wordings)
        try:
            lines = answered(text, [80], language)
        except Exception as error:  # whatever it is: the text is wanted
            raise AssertionError(f"{text!r}, {language}") from error
        assert bool(lines) == bool(text.strip()), text


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("es", "* 8 v"),
        ("da", "22 m færre før indtagningen (du tager ind på hver omg i 11 omg i streg:"),
        ("fr", "alterner 2 tours (à partir de maintenant, dim à tous les tours"),
        (None, "1. R: re (="),
        ("nl", "1e toer: *6 r, 2 r samenbr* (="),
        ("fr", "tour 1: *6 end, 2 ens* (="),
        ("nl", "(="),
        ("da", "Dobbelt indtagning (di) ="),
        (None, "Needle 1: Needle 2: k2tog"),
        (None, "Rnd 1:\nFront:\nBack: knit"),
        (None, "Front:\nBack: k2tog around"),
        (None, "Row 4: And every"),
        (
            None,
            "*k6, k2tog*\nKnit 2 rounds and in the 3rd decrease again, but with 1 st less before each decrease; repeat",
        ),
        (
            None,
            "Knit every 7th and 8th st together.\nRepeat this decrease 3 more times, each after 2 plain rnds:",
        ),
    ],
)
def test_a_line_that_is_not_written_to_its_end_is_answered(language: str | None, text: str) -> None:
    """A count that is still to come behind its bracket, needles of a round without work of their own, open brackets."""
    assert answered(text, [96], language) == len(text.split("\n"))
