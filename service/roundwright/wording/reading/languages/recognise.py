"""Which language a pattern is in, by its words: those of several languages count less, single letters not at all.

A language has to have a word that says something by itself, `Masche`, or two others that are not English: no `hat`.
"""

import re
from collections import Counter
from functools import cache
from typing import Final

from msgspec import Struct

from roundwright import reference
from roundwright.reference.once import making
from roundwright.wording.reading.languages.lexicon import spoken, spoken_alone
from roundwright.wording.reading.vocabulary import vocabulary

ENGLISH: Final = "en"
MOST_READ: Final = 4_000
"""Characters by which a language is told: several lines of any pattern."""
FEWEST_ENGLISH: Final = 3
"""Different words of `PLAINLY_ENGLISH` with which a text is English, whatever else is in it, if they are enough."""
FEWEST_OTHERS: Final = 2
"""Different words of another language with which a text is in it, where none of them says something by itself."""
PLAINLY_ENGLISH: Final = frozenset((
    "knit", "purl", "sts", "stitches", "stitch", "rnd", "rnds", "round", "rounds", "rep", "repeat", "around", "the",
    "and", "tog", "together", "k2tog", "cast", "with", "next", "every", "work", "needles", "needle", "rem", "remain",
    "dec", "until", "times", "row", "rows", "join", "body", "brim", "crown", "sat",
))  # fmt: skip
SHARE_ENGLISH: Final = 0.2
"""How much of a text those words are at least, if it is told to be English by them."""
CLOSE: Final = 0.7
"""How near the second best language comes to the best, if the caller is told of it."""

_WORD: Final = re.compile(r"[^\W\d_]{2,24}|k2tog")


class Recognised(Struct, frozen=True):
    """The language in which a text is read.

    - `second`: the language that comes second where that is close
    - `requested_tag`: the tag in the request; `known`: whether its language is read
    - `in_words_of`: the language that the words of the text tell, where it is plainly another than that of the request
    """

    language: str
    second: str | None = None
    requested_tag: str | None = None
    known: bool = True
    in_words_of: str | None = None

    @property
    def tag(self) -> str:
        """What the answer calls it: as the request does, where that language was read."""
        return self.requested_tag if self.requested_tag and self.known else self.language


_SAME: Final = {"no": "nb"}
"""A tag of a wider language, with the one that is read for it."""


def named(tag: str, text: str) -> Recognised:
    """The language of a tag, whatever its region; English where it is not read."""
    language = tag.lower().partition("-")[0]
    language = _SAME.get(language, language)
    known = language == ENGLISH or language in reference.LANGUAGES
    words = recognised(text)
    differs = known and words.second is None and words.language != language
    return Recognised(
        language if known else ENGLISH,
        requested_tag=tag,
        known=known,
        in_words_of=words.language if differs else None,
    )


def recognised(text: str) -> Recognised:
    """The language of a text; English where its words are no others'."""
    words = _WORD.findall(text[:MOST_READ].lower())
    plain = [word for word in words if word in PLAINLY_ENGLISH]
    if len(set(plain)) >= FEWEST_ENGLISH and len(plain) >= SHARE_ENGLISH * len(words):
        return Recognised(ENGLISH)
    scores: dict[str, float] = dict.fromkeys((ENGLISH, *reference.LANGUAGES), 0.0)
    telling = _telling()
    for word, number in Counter(words).items():
        languages = telling.get(word, ())
        for language in languages:
            scores[language] += min(number, MOST_OF_WORD) / len(languages) ** 2
    own = {word for word in words if ENGLISH not in telling.get(word, ())}
    for language in reference.LANGUAGES:
        spoken_here = {word for word in own if language in telling.get(word, ())}
        if len(spoken_here) < FEWEST_OTHERS and spoken_here.isdisjoint(spoken_alone(language)):
            scores[language] = 0.0
    best, second, *_ = sorted(scores, key=lambda language: -scores[language])
    close = scores[second] > CLOSE * scores[best]
    return Recognised(best, second if close and scores[second] else None)


MOST_OF_WORD: Final = 3
"""How often a word counts that stands in a text again and again."""


@cache
def _telling() -> dict[str, tuple[str, ...]]:
    """The words that tell a language, with all languages that have them."""
    languages: dict[str, list[str]] = {}
    english = vocabulary("en")
    for word in {*english.words, *english.phrases, *PLAINLY_ENGLISH}:
        languages.setdefault(word, []).append(ENGLISH)
    with making:
        for language in reference.LANGUAGES:
            for word in spoken(language):
                languages.setdefault(word, []).append(language)
    return {word: tuple(found) for word, found in languages.items() if len(word) > 1}
