"""Languages: messages as a key with its values, and the catalogues and conventions that put them into words.

A package below makes messages with `say`, `say_count`, `listed` and `joined`; a message is put into the words of a
language where it is written out, by the `Words` of that language. May import `reference` only.
"""

from roundwright.language.codes import (
    ENGLISH,
    LANGUAGES,
    PICTURE_LANGUAGES,
    Language,
    PictureLanguage,
    language_of,
    supported,
)
from roundwright.language.message import joined, listed, say, say_count
from roundwright.language.words import ENGLISH_WORDS, Message, Words, sentence_start, words_of

__all__ = [
    "ENGLISH",
    "ENGLISH_WORDS",
    "LANGUAGES",
    "PICTURE_LANGUAGES",
    "Language",
    "Message",
    "PictureLanguage",
    "Words",
    "joined",
    "language_of",
    "listed",
    "say",
    "say_count",
    "sentence_start",
    "supported",
    "words_of",
]
