"""Making messages: a key with its values, a list of texts, texts one after the other."""

from typing import Any

from roundwright.language.words import ENGLISH_WORDS, Message, Words


class _Sequence(Message):
    """Texts one after the other, with a separator or as a list."""

    __slots__ = ("parts",)

    parts: tuple[str, ...]

    def in_words(self, words: Words) -> str:
        """The parts in the words of a language, put together in its way."""
        return _together(self.key, [words.render(part) for part in self.parts], words)


def say(key: str, /, **values: Any) -> Message:
    """The message of a key. `values` fill its placeholders: text, numbers and messages."""
    return _message(key, values, None)


def say_count(key: str, count: int, /, **values: Any) -> Message:
    """The message of a key that depends on a count; `count` is also a placeholder."""
    return _message(key, {"count": count, **values}, count)


def joined(separator: str, *parts: str) -> Message:
    """Texts one after the other, such as sentences with a blank between; empty ones are left out.

    `list.semicolon` is the separator of that name in each language: some have a blank before it.
    """
    return _sequence(separator, tuple(part for part in parts if part))


def listed(parts: tuple[str, ...] | list[str], word: str = "and") -> Message:
    """Texts as a list in a sentence: `1`, `1 and 3`, `1, 2 and 4`; `word` is `and` or `or`."""
    return _sequence("list.or" if word == "or" else "list.and", tuple(parts))


def _message(key: str, values: dict[str, Any], count: int | None) -> Message:
    message = str.__new__(Message, ENGLISH_WORDS.text(key, values, count))
    message.key, message.values, message.number = key, values, count
    return message


def _sequence(key: str, parts: tuple[str, ...]) -> Message:
    message = str.__new__(_Sequence, _together(key, list(parts), ENGLISH_WORDS))
    message.key, message.values, message.number, message.parts = key, {}, None, parts
    return message


def _together(key: str, texts: list[str], words: Words) -> str:
    if not key.startswith("list."):
        return key.join(texts)
    if key == "list.semicolon":
        return words.say(key).join(texts)
    if len(texts) < 2:
        return "".join(texts)
    return words.text(key, {"but_last": ", ".join(texts[:-1]), "last": texts[-1]}, None)
