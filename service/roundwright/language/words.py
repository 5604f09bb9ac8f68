"""The words of a language: its catalogue of messages, and its numbers as CLDR has them.

A catalogue is a gettext file, `catalogues/de.po`, whose `msgid` is the key of a message. It is compiled when the wheel
or the image is made; a checkout reads it as it is. A message that a catalogue lacks is English; one in
`catalogues/pictures/` has the keys of pictures alone, and the stitches have their names in the table of stitches.
"""

from functools import cache, cached_property
from gettext import GNUTranslations
from io import BytesIO
from pathlib import Path
from typing import Any, Final, Self

from roundwright import reference
from roundwright.language.codes import (
    CATALOGUES,
    ENGLISH,
    PICTURE_CATALOGUES,
    PICTURE_LANGUAGES,
    language_of,
)
from roundwright.reference.rows import WordingRow


class Message(str):
    """A text of the catalogues: a key with its values. Its `str` is English.

    So whatever compares, logs or prints a message needs no language. `f"..."`, `+` and the methods of `str` give plain
    English text that no language can change any more: a message is composed of values that are messages.
    """

    __slots__ = ("key", "number", "values")

    key: str
    values: dict[str, Any]
    number: int | None

    def in_words(self, words: "Words") -> str:
        """The text in the words of a language."""
        return words.text(self.key, self.values, self.number)


class Words:
    """The words of a language."""

    def __init__(self, code: str) -> None:
        self.code = code
        self.is_english = code.startswith("en")

    @property
    def tag(self) -> str:
        """The tag of the language in documents: `en` for all English."""
        return self.code.split("-")[0]

    @property
    def tags(self) -> tuple[str, ...]:
        """The languages of what is written in these words."""
        return (self.code, ENGLISH) if self.code in PICTURE_LANGUAGES else (self.code,)

    def say(self, key: str, /, **values: Any) -> str:
        """The text of a key in this language, its placeholders filled."""
        return self.text(key, values, None)

    def say_count(self, key: str, count: int, /, **values: Any) -> str:
        """The text of a key that depends on a count, which is also a placeholder."""
        return self.text(key, {"count": count, **values}, count)

    def text(self, key: str, values: dict[str, Any], count: int | None) -> str:
        """The text of a key; `count` chooses its plural form by the rule of the language."""
        catalogue = self.catalogue
        text = catalogue.gettext(key) if count is None else catalogue.ngettext(key, key, count)
        if not values:
            return text
        if self.code != ENGLISH:
            values = {name: self._value(value) for name, value in values.items()}
        return text.format_map(values)

    def render(self, text: str) -> str:
        """A text as it is written out: a message in this language, any other text as it is."""
        if self is ENGLISH_WORDS:
            return str(text)
        return text.in_words(self) if isinstance(text, Message) else text

    def number(self, value: float, digits: str = "g") -> str:
        """A number by a format of Python, with the decimal sign of the language."""
        return format(value, digits).replace(".", self.decimal_sign)

    def stitch(self, name: str) -> str:
        """A stitch as patterns abbreviate it; `{n}` is the place of a number, for stitches worked in a row."""
        return self._stitches.get(name) or (f"{name}{{n}}" if name in _IN_A_ROW else name)

    def stitch_plain(self, name: str) -> str:
        """A stitch written out, such as `knit two together`; without a number where it is worked in a row."""
        if name in _IN_A_ROW:
            return self.say(f"stitch.{name}")
        return self._plain_stitches.get(name) or reference.stitches()[name].words

    def abbreviation(self, name: str) -> str:
        """A stitch as a list of abbreviations explains it: `k2tog: knit two together`; or its name alone."""
        if name in self._names:
            return self._names[name]
        if name in _IN_A_ROW:  # abbreviated with a number, and explained without
            return self.say(f"abbreviation.{name}")
        return self.say("abbreviation.stitch", short=self.stitch(name), plain=self.stitch_plain(name))

    def after_colon(self, text: str) -> str:
        """A sentence as it goes on after a colon: with a small letter, or as it is, as `sentence.after_colon` says."""
        return f"{text[:1].lower()}{text[1:]}" if self.say("sentence.after_colon") == "small" else text

    @cached_property
    def _names(self) -> dict[str, str]:
        """The names of the symbols of stitches, by the stitch; none where a catalogue has abbreviations."""
        return {
            stitch: name.name
            for stitch, row in reference.stitches().items()
            for name in row.names
            if name.language == self.code
        }

    @cached_property
    def _stitches(self) -> dict[str, str]:
        return {name: row.writes for name, row in self._wordings.items() if row.writes}

    @cached_property
    def _plain_stitches(self) -> dict[str, str]:
        return {name: row.plain for name, row in self._wordings.items() if row.plain}

    @cached_property
    def _wordings(self) -> dict[str, WordingRow]:
        """The rows that are written, by the stitch; none for English and for a language without a table of words."""
        if self.code not in reference.LANGUAGES:
            return {}
        rows = {row.means: row for row in reference.wordings(self.code) if row.writes}
        means = {name: (name, f"{name}{{n}}", f"{name} {{n}}") for name in reference.stitches()}
        return {
            name: rows[english]
            for name, spellings in means.items()
            for english in spellings
            if english in rows
        }

    @cached_property
    def catalogue(self) -> GNUTranslations:
        """The messages of the language, read once."""
        folder = PICTURE_CATALOGUES if self.code in PICTURE_LANGUAGES else CATALOGUES
        path = folder / f"{self.code.replace('-', '_')}.po"
        compiled = path.with_suffix(".mo")
        content = compiled.read_bytes() if compiled.exists() else compile_catalogue(path)
        catalogue = GNUTranslations(BytesIO(content))
        if self.code != ENGLISH:
            catalogue.add_fallback(ENGLISH_WORDS.catalogue)
        return catalogue

    @cached_property
    def decimal_sign(self) -> str:
        """The decimal sign of the language, as CLDR has it."""
        if self.is_english:
            return "."
        from babel.numbers import get_decimal_symbol

        return str(get_decimal_symbol(self.code.replace("-", "_")))

    def _value(self, value: Any) -> Any:
        if isinstance(value, Message):
            return value.in_words(self)
        if isinstance(value, float):
            return _Number(value, self)
        return value


def sentence_start(text: str) -> str:
    """A text in the words of a language as it begins a sentence."""
    return f"{text[:1].upper()}{text[1:]}"


class _Number(float):
    """A number that is formatted with the decimal sign of a language."""

    words: Words

    def __new__(cls, value: float, words: Words) -> Self:
        number = super().__new__(cls, value)
        number.words = words
        return number

    def __format__(self, digits: str) -> str:
        return self.words.number(float(self), digits)


_IN_A_ROW: Final = ("k", "p", "sl")
"""Stitches that are written with their number."""

ENGLISH_WORDS: Final = Words(ENGLISH)


def words_of(tag: str | None, *, in_pictures: bool = False) -> Words:
    """The words of a language; English for None and for a language that is not there (`in_pictures`: in pictures)."""
    return ENGLISH_WORDS if tag is None else _words(language_of(tag, in_pictures=in_pictures))


@cache
def _words(code: str) -> Words:
    return ENGLISH_WORDS if code == ENGLISH else Words(code)


def compile_catalogue(path: Path) -> bytes:
    """A catalogue as gettext reads it (`.mo`), from its text (`.po`)."""
    from babel.messages.mofile import write_mo
    from babel.messages.pofile import read_po

    compiled = BytesIO()
    with path.open("rb") as file:
        write_mo(compiled, read_po(file))
    return compiled.getvalue()


def compile_catalogues() -> None:
    """Write the compiled form of every catalogue beside its text."""
    for path in CATALOGUES.rglob("*.po"):
        path.with_suffix(".mo").write_bytes(compile_catalogue(path))


if __name__ == "__main__":
    compile_catalogues()
