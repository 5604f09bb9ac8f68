"""Lines of the service's own patterns that are no work: how stitches come on to the needles, where markers hang.

Such a line has words of work, `the first round`, and is known by the beginning of its message in the catalogue.
"""

import re
from functools import cache
from typing import Final, NamedTuple

from roundwright.language import words_of

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
    *(f"emptied.{key}" for key in ("needle", "needles", "magic_loop.1", "magic_loop.2")),
    *(f"emptied.two_circulars.{circular}" for circular in (1, 2)),
)
"""Messages that stand in lines of their own."""
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
    return _either_case(NUMBERS.join(map(_escaped, literals[:stop])))


def _either_case(pattern: str) -> str:
    """A pattern whose first letter is small too: some languages go on with a small letter behind a colon."""
    first = pattern[:1]
    return f"[{first}{first.lower()}]{pattern[1:]}" if first.isupper() else pattern


def _escaped(text: str) -> str:
    """A text in a pattern, its placeholders as they are."""
    return re.sub(r"[.^$*+?()\[\]|\\]", r"\\\g<0>", text)
