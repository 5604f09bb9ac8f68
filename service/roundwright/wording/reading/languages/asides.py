"""Lines of the service's own patterns that are no work: how stitches come on to the needles, where markers hang.

Such a line has words of work, `the first round`, and is known by the beginning of its message in the catalogue; in
English, which others write in too, by the whole message.
"""

import re
from functools import cache
from typing import Final, NamedTuple

from roundwright.language import ENGLISH_WORDS, words_of

KEYS: Final = (
    *(
        f"start.{key}"
        for key in ("all_needles", "two_needles", "second_needle", "second_circular", "loop", "join")
    ),
    *(f"start.{key}" for key in ("first_round", "first_round.brim")),
    *(f"pattern.marker_between.{hold}" for hold in ("double_pointed", "magic_loop", "two_circulars")),
    *(f"pattern.{key}" for key in ("marker", "marker_on_cord", "tail", "count", "decrease_on_two", "join")),
    *(f"hat.{key}" for key in ("change_needles", "put_on", "put_on_each", "circular_too_long")),
    *(f"crown.first_decrease.{stitches}" for stitches in (2, 3)),
    "line.marker_note",
    *(f"emptied.{key}" for key in ("needle", "needles", "magic_loop.1", "magic_loop.2")),
    *(f"emptied.two_circulars.{circular}" for circular in (1, 2)),
)
"""Messages that stand in lines of their own."""
WHOLE_KEYS: Final = (
    *(f"crown.first_decrease.{stitches}" for stitches in (2, 3)),
    "line.marker_note",
    *(f"pattern.marker_between.{hold}" for hold in ("double_pointed", "magic_loop", "two_circulars")),
    *(f"emptied.{key}" for key in ("needle", "needles", "magic_loop.1", "magic_loop.2")),
    *(f"emptied.two_circulars.{circular}" for circular in (1, 2)),
    "line.slide_before",
)
"""Messages between rounds that are passed over in English, where they are the whole line: others may begin so too."""
NUMBERS: Final = r"[0-9()/,;. \u00a0\u202f–-]{1,90}"
LEAST: Final = 16
"""Letters that a beginning has at least beside its numbers."""
_PLACEHOLDER: Final = re.compile(r"\{\w+(?::[^}]*)?\}")


class Aside(NamedTuple):
    """A line that is no work, from `start` to `end` of the text."""

    start: int
    end: int


def asides(text: str, language: str) -> list[Aside]:
    """The lines of a text that the service writes and that are no work, in order. Takes time in its length."""
    return [Aside(line.start(), line.end()) for line in _beginnings(language).finditer(text)]


def english_asides(text: str) -> list[Aside]:
    """The lines between rounds of an English text that the service writes and that are no work, in order."""
    return [Aside(line.start(), line.end()) for line in _whole_lines().finditer(text)]


@cache
def _whole_lines() -> re.Pattern[str]:
    messages = [ENGLISH_WORDS.text(key, {}, None) for key in WHOLE_KEYS]
    messages.extend([ENGLISH_WORDS.text("line.crown_done", {}, count) for count in (1, 2)])
    whole = "|".join(_PLACEHOLDER.sub(r"[^\n]{0,200}?", _as_sentence(message)) for message in messages)
    only = "|".join(
        _PLACEHOLDER.sub(
            r"[^:\n]{1,60}?",
            _escaped(ENGLISH_WORDS.text("sizes.only_line", {}, count).removesuffix("{text}")),
        )
        for count in (1, 2)
    )
    return re.compile(rf"^[ \t]*(?:{only})?(?:{whole})[ \t]*$", re.MULTILINE)


@cache
def _beginnings(language: str) -> re.Pattern[str]:
    words = words_of(language)
    some = _PLACEHOLDER.sub(
        r"[^:\n]{1,60}?", _escaped(words.text("sizes.only_line", {}, 2).split("{text}")[0])
    )
    only = _PLACEHOLDER.sub(
        r"[^:\n]{1,60}?", _escaped(words.text("sizes.only_line", {}, 1).split("{text}")[0])
    )
    slides = _PLACEHOLDER.sub(
        "(?: \\\\([^)\n]{1,60}\\\\))?", _escaped(words.text("line.slide_before", {}, None)), count=1
    )
    beginnings = {_beginning(words.say(key)) for key in KEYS} | {slides.split("{slides}")[0]}
    beginnings |= {beginning[0].lower() + beginning[1:] for beginning in beginnings}  # after a colon
    begins = "|".join(sorted(beginnings))
    return re.compile(rf"^[ \t]*(?:{some}|{only})?(?:{begins})[^\n]*", re.MULTILINE)


def _beginning(message: str) -> str:
    """A message to where it cannot be another: up to its first placeholder, or further where that is soon."""
    literals = _PLACEHOLDER.split(message)
    stop = 1
    while stop < len(literals) and sum(map(len, literals[:stop])) < LEAST:
        stop += 1
    first, *others = literals[:stop]
    return NUMBERS.join([_as_sentence(first), *map(_escaped, others)])


def _as_sentence(text: str) -> str:
    """A text in a pattern, its first letter large or, behind `Size 2 only:`, small."""
    first, rest = text[:1], _escaped(text[1:])
    return f"[{first.upper()}{first.lower()}]{rest}" if first.isalpha() else _escaped(text)


def _escaped(text: str) -> str:
    """A text in a pattern, its placeholders as they are."""
    return re.sub(r"[.^$*+?()\[\]|\\]", r"\\\g<0>", text)
