"""The words of written patterns, from the tables: the stitch table, the abbreviations and a word list a language."""

import re
from collections.abc import Mapping
from difflib import get_close_matches
from functools import cache, lru_cache
from itertools import takewhile
from typing import Final, NamedTuple

from msgspec import Struct

from roundwright import reference
from roundwright.knitting.rounds.round import StitchName

KIND_TOGETHER: Final = "together"
"""The kind of the words that make a decrease of the stitches before them."""
LONGEST_WORD: Final = 24
"""Letters of a word that the nearest is looked for: none known has as many."""


class Word(NamedTuple):
    """What a word says: its kind, and the stitch or number it stands for."""

    kind: str
    means: str = ""


class Phrase(NamedTuple):
    """The words after the first of a phrase, and what the phrase says."""

    rest: tuple[str, ...]
    word: Word
    text: str


class Vocabulary(Struct, frozen=True):
    """Single words, and the phrases by their first word, the longest first."""

    words: Mapping[str, Word]
    phrases: Mapping[str, tuple[Phrase, ...]]


@cache
def vocabulary(language: str) -> Vocabulary:
    """The words of a language, read once."""
    known: dict[str, Word] = {}
    for name, row in reference.stitches().items():
        known.setdefault(_plain(row.words), _stitch(name))
        known.setdefault(_plain(name), _stitch(name))
    for text, name in reference.spellings().items():
        known.setdefault(_plain(text), _stitch(name))
    for word in reference.words(language):
        kind = word.kind if word.kind != "filler" else ""
        known.setdefault(_plain(word.word), Word(kind, word.means or ""))
    words: dict[str, Word] = {}
    phrases: dict[str, list[Phrase]] = {}
    for text, entry in known.items():
        first, *rest = text.split()
        if rest:
            phrases.setdefault(first, []).append(Phrase(tuple(rest), entry, text))
        else:
            words[first] = entry
    return Vocabulary(
        words,
        {first: tuple(sorted(all_, key=lambda phrase: -len(phrase.rest))) for first, all_ in phrases.items()},
    )


_CRAFTS: Final = {"k": "knit", "p": "purl", "sl": "slip"}


def _stitch(name: str) -> Word:
    return Word(_CRAFTS[name]) if name in _CRAFTS else Word("stitch", name)


def _plain(text: str) -> str:
    """As the scanner cuts it: lower case, without dots, hyphens and commas."""
    words = text.lower().replace(".", "").replace(",", " ").replace("-", " ").split()
    return " ".join(words)


def nearest(word: str) -> list[StitchName]:
    """The stitches whose spelling looks most like this word, the likest first."""
    return list(dict.fromkeys(_spellings()[right] for right in _similar(word)))


def nearest_by_one_slip(word: str) -> list[StitchName]:
    """Those of the nearest stitches that one slip of the fingers makes of this word."""
    return list(dict.fromkeys(_spellings()[right] for right in _similar_by_one_slip(word)))


def likest(word: str) -> tuple[str, ...]:
    """A spelling of each stitch that may be meant by this word: of those one slip away where there are any."""
    first = {_spellings()[right]: right for right in reversed(_similar_by_one_slip(word) or _similar(word))}
    return tuple(reversed(first.values()))


def _similar_by_one_slip(word: str) -> tuple[str, ...]:
    """Those of the similar spellings that one slip of the fingers makes of this word."""
    return tuple(right for right in _similar(word) if _is_one_slip(word, right))


@lru_cache(maxsize=256)
def _similar(word: str) -> tuple[str, ...]:
    """The spellings of stitches that look most like this word, the likest first; its own letters before all others."""
    if len(word) > LONGEST_WORD:
        return ()
    spellings = _spellings()
    letters = sorted(word)
    exchanged = [right for right in spellings if sorted(right) == letters]
    return tuple(dict.fromkeys((*exchanged, *get_close_matches(word, spellings, n=4, cutoff=0.6))))[:4]


def _is_one_slip(word: str, right: str) -> bool:
    """Whether one slip of the fingers makes a word of the other: a letter more, less or another, or two exchanged."""
    start = _letters_alike(word, right)
    end = _letters_alike(word[start:][::-1], right[start:][::-1])
    slipped, meant = word[start : len(word) - end], right[start : len(right) - end]
    if len(slipped) < 2 and len(meant) < 2:
        return word != right
    return len(slipped) == 2 and slipped == meant[::-1]


def _letters_alike(word: str, other: str) -> int:
    """How many letters two words have alike from their beginning on."""
    return len(list(takewhile(lambda pair: pair[0] == pair[1], zip(word, other, strict=False))))


@lru_cache(maxsize=256)
def is_misspelt_stitch(word: str) -> bool:
    """Whether a word has the letters of a stitch in another order, as `k2otg`, or a letter more or less."""
    return len(word) >= _SHORTEST_MISSPELT and bool(respelt(word, frozenset(_spellings())))


def looks_like_stitch(word: str) -> bool:
    """Whether a word that nobody knows is short as stitches are: letters without a vowel, or with a number behind."""
    return bool(_SHORT.fullmatch(word)) or is_misspelt_stitch(word)


_SHORT: Final = re.compile("[b-df-hj-np-tv-xz]{2,5}|[a-z]{1,4}[0-9]{1,2}[a-z]{0,3}")
_SHORTEST_MISSPELT: Final = 3
"""Letters of a word that is taken for a misspelt stitch."""


@lru_cache(maxsize=256)
def respelt(word: str, known: frozenset[str]) -> str:
    """The known word that has a letter more or less, or its letters in another order; empty where there is none."""
    if len(word) > LONGEST_WORD:
        return ""
    anagrams = [right for right in known if sorted(word) == sorted(right)]
    return next(iter(anagrams or get_close_matches(word, known, n=1, cutoff=_MISSPELT)), "")


_MISSPELT: Final = 0.8
"""How like a known word a misspelt word is, at least: `zustr` and `zusstr` are 0.91 alike."""


@cache
def words_of(kind: str) -> frozenset[str]:
    """The single English words of a kind."""
    return frozenset(text for text, word in vocabulary("en").words.items() if word.kind == kind)


def ordinal(word: str) -> int:
    """The number of an English ordinal, `2nd` or `second`; 0 for any other word."""
    if word in words_of("ordinal"):
        return int(vocabulary("en").words[word].means)
    digits = word.rstrip("stndrh")
    return int(digits) if digits != word and digits.isdecimal() else 0


@cache
def _spellings() -> Mapping[str, str]:
    """The stitches by their English spellings of one word, their names before all others."""
    names = {name: name for name in reference.stitches() if len(name) > 1}
    words = vocabulary("en").words
    return names | {
        text: word.means for text, word in words.items() if word.kind == "stitch" and text not in names
    }
