"""Numbers as languages print them: decimal commas, and lists of sizes in every manner.

`88 (96/104)`, `88 (96 ; 104)`, `–a) 80 –b) 88 –c) 96`, `a) 7 m. end. b) 8 m. end.`, `(80) 88 (96) 104`,
`80 – 88 – 96`, `80/88/96`, `80 // 88 // 96`; ordinals in brackets or with slashes, `10. (11., 12.)`,
`(10.) 11.`, `10./11.`.
"""

import re
from collections.abc import Iterator
from functools import cache
from typing import Final, NamedTuple

from msgspec import Struct

MOST_LISTED: Final = 13
"""Numbers in one list: one more than there are sizes, so that one too many is seen."""

_FRACTION: Final = r"(?:1/[248]|3/[48]|[57]/8)(?![0-9])"
_NUMBER: Final = (
    rf"[0-9]{{1,7}}+(?>(?:[.,][0-9]{{1,2}}(?![0-9])(?!,[0-9])|\s?[½¼¾⅓⅔⅛]|[ \u00a0]{_FRACTION})?)"
)
_VALUE: Final = rf"(?>{_FRACTION}|{_NUMBER})"
"""The number of a size in a list, which may be a fraction alone: `3 (2 3/4, 1/4)`."""
_WHOLE: Final = r"[0-9]{1,7}+"
_BLANK: Final = r"[ \t\u00a0\u202f]{0,3}+"
_BREAK: Final = r"(?>(?:[ \t\u00a0\u202f]|\r?\n(?![ \t]{0,9}\r?\n)){0,3})"
"""The same with the end of a line, in a column: `9 (10 –` and `11 – 12) p`."""
_DASH: Final = rf"{_BLANK}(?:[-–—]{_BLANK})?"
"""What may stand between the number of a size and the bracket of the next: `80-(88)-96`."""
_UNIT: Final = r"(?>(?:[^\W\d_]{1,5}(?![^\W\d_]|\))\.?)?)"
"""What is counted, where it stands behind every number: `70 m – 80 m`."""
_WORDS: Final = r"[ \t\u00a0]?[^\W\d_](?:[^\W\d_]|[ .'’]){1,20}?"
"""The same in a few words: `7 m. end.`, `7 m à l'end`."""
_END: Final = r"(?![0-9])"
TIMES_SIGNS: Final = ("x", "X", "×")
_TIMES: Final = rf"{_BLANK}[{''.join(TIMES_SIGNS)}]"
_LISTS: Final = (
    # –a) 80 –b) 88 –c) 96
    re.compile(
        rf"(?:[-–—]{_BLANK})?[aA]\){_BLANK}({_NUMBER})(?>(?:{_BLANK}{_UNIT}{_BLANK}[-–—,;]?{_BLANK}[b-mB-M]\){_BLANK}{_NUMBER}){{1,12}}){_END}"
    ),
    # a) 7 m. end. b) 8 m. end. c) 9 m. end.
    re.compile(
        rf"(?:[-–—]{_BLANK})?[aA]\){_BLANK}{_NUMBER}(?P<of>{_WORDS}){_BLANK}[-–—,;]?{_BLANK}(?:[b-mB-M]\){_BLANK}{_NUMBER}(?P=of){_BLANK}[-–—,;]?{_BLANK}){{0,11}}[b-mB-M]\){_BLANK}{_NUMBER}(?=(?P=of))"
    ),
    # (80) 88 (96) 104 and 80 (88) 96 (104), 80-(88)-96
    re.compile(
        rf"\({_BLANK}{_VALUE}{_BLANK}\)(?:{_BLANK}{_VALUE}(?![.,][0-9]){_BLANK}\({_BLANK}{_VALUE}{_BLANK}\)){{1,6}}(?:{_BLANK}{_VALUE}(?!\.))?{_END}"
    ),
    re.compile(
        rf"{_VALUE}(?:{_DASH}[(\[]{_BLANK}{_VALUE}{_BLANK}[)\]]{_DASH}{_VALUE}(?!\.)){{1,6}}(?:{_DASH}[(\[]{_BLANK}{_VALUE}{_BLANK}[)\]])?{_END}"
    ),
    # (80) 88, where there are two sizes
    re.compile(rf"\({_BLANK}{_VALUE}{_BLANK}\){_BLANK}{_VALUE}(?!\.){_END}"),
    # 88 (96/104), 88 (96, 104), 88 (96 ; 104), 88 [96 - 104], 88–(96–104)
    re.compile(
        rf"{_VALUE}[-–—]?{_BREAK}[(\[]{_BLANK}{_VALUE}(?>(?:{_BLANK}[,;/:–—-]{_BREAK}{_VALUE}){{0,12}}){_BLANK}[)\]]"
    ),
    # with a bracket around each: 88 (96) (104)
    re.compile(rf"{_VALUE}(?>(?:{_BLANK}\({_BLANK}{_VALUE}{_BLANK}\)){{2,12}})"),
    # 80 – 88 – 96, 80/88/96, 80 // 88
    re.compile(
        rf"{_NUMBER}(?>(?:{_BLANK}{_UNIT}{_BLANK}[-–—]{_BLANK}{_NUMBER}){{1,12}})(?![0-9]|\.{_BLANK}[-–—]|{_BLANK}[(\[|•/]{_BLANK}[0-9])"
    ),
    re.compile(rf"{_NUMBER}(?>(?:{_BLANK}//?{_BLANK}{_NUMBER}){{1,12}}){_END}"),
    # 80 | 88 | 96, 80 • 88 • 96, 80 . 88 . 96, 80 : 88 : 96
    re.compile(
        rf"(?<![|•·.] ){_NUMBER}(?>(?: [|•·] {_NUMBER}){{1,12}}|(?: \. {_NUMBER}){{2,12}}){_END}(?! [|•·])"
    ),
    re.compile(rf"(?<!: ){_NUMBER}(?>(?: : {_NUMBER}){{2,12}}){_END}"),
    # with the sign of times behind each: 8× (9×, 10×)
    re.compile(
        rf"{_NUMBER}{_TIMES}{_BLANK}\({_BLANK}{_NUMBER}{_TIMES}(?>(?:{_BLANK}[,;/]{_BLANK}{_NUMBER}{_TIMES}){{0,12}}){_BLANK}\)"
    ),
)
(
    _LETTERED,
    _IN_WORDS,
    _OPENED,
    _ALTERNATING,
    _PAIR,
    _BRACKETED,
    _APART,
    _DASHED,
    _SLASHED,
    _BARRED,
    _COLONS,
    _TIMED,
) = _LISTS
_RANGES: Final = re.compile(rf"{_WHOLE}[/–—-]{_WHOLE}[,;] ")
"""Two ages of a size in a list of several: `0-3 (3-6, 6-12) months`."""
_RANGE_BEFORE: Final = re.compile(r"(?<=[0-9][–—-])")
"""Before the second age of a size, `4 (5–8)` of `2–4 (5–8)`."""
NONE: Final = "-"
"""What stands in a list for a size that has no number: `- (7, 8)`."""
_ENTRY: Final = rf"(?>[-–—](?![-–—])|{_NUMBER})"
_ENTRIES: Final = re.compile(rf"[-–—]|{_NUMBER}")
_SINGLE: Final = re.compile(_NUMBER)
_WITH_FRACTIONS: Final = re.compile(_VALUE)
_COMMAS: Final = re.compile(_WHOLE)
BEGINS: Final = re.compile(
    rf"[0-9½¼¾⅓⅔⅛]|\((?={_BLANK}[0-9])|(?:[-–—]{_BLANK})?[aA]\)(?={_BLANK}[0-9])"
    rf"|(?<![0-9])(?<![0-9][ \t])[-–—](?={_BLANK}[/(\[]{_BLANK}[-–—0-9])"
)
"""Where a number or a list of sizes may begin."""
_ORDINAL: Final = re.compile(r"\.[ \t]{0,2}[^\W\d_]")
"""Behind the number of a round: `2-4. omg`."""
_LETTERS: Final = r"(?:de|ste|er|e|ère|ème|[aªº°])(?![^\W\d_])"
_ENDING: Final = re.compile(_LETTERS)
"""Letters at a number that make an ordinal of it, so that no list of sizes ends there: `2e - 4e toer`."""
LEAST_COUNT: Final = 7
"""The least of two numbers with a slash that are counts of two sizes, and no rib."""


class Figure(NamedTuple):
    """A number as it is printed: its text and where it stands."""

    text: str
    start: int
    end: int

    @property
    def english(self) -> str:
        """With a point for the decimals."""
        return self.text.replace(",", ".")


class Figures(Struct, frozen=True):
    """A number, or one for every size, from `start` to `end` of the text; `ordinals`: whether all are ordinals."""

    figures: tuple[Figure, ...]
    start: int
    end: int
    ordinals: bool = False

    @property
    def single(self) -> int | None:
        """The number, where there is one and it is whole."""
        text = self.figures[0].text
        return int(text) if len(self.figures) == 1 and text.isdecimal() else None


def figures_at(
    text: str, place: int, width: int, *, hyphens: bool = False, commas: bool = False
) -> Figures | None:
    """The number or list of sizes that begins here, in a text for so many sizes; None where none does.

    With `hyphens` two numbers with a hyphen between them are for two sizes, as in `72-80 m`; with `commas` as many as
    there are sizes are, as in `84, 96, 108 p`.
    """
    if commas and (by_commas := _lists_by_commas(width).match(text, place)):
        return Figures(tuple(_values(_COMMAS, by_commas)), place, by_commas.end())
    if (dashed := with_none(text, place, width)) is not None:
        return dashed
    for pattern in _LISTS:
        match = pattern.match(text, place)
        if match is not None and not (pattern is _DASHED and _is_apart(text, place, match.end())):
            listed = _listed(pattern, match, width, hyphens=hyphens and not _ORDINAL.match(text, match.end()))
            if listed is not None:
                return listed
    listed_by_commas = (
        text[max(0, place - 2) : place].endswith(",") and text[place - 2 : place - 1].isdecimal()
    )
    match = (_COMMAS if listed_by_commas else _SINGLE).match(text, place)
    if match is None:
        return None
    return Figures((Figure(match[0], place, match.end()),), place, match.end())


def _is_apart(text: str, place: int, end: int) -> bool:
    """Whether numbers with a dash are of two kinds: an ordinal, or times and the count behind them.

    `x 12 – 60 m`, and `7 mal – 77 M`, where another word stands behind the first than behind the last.
    """
    times = text[max(0, place - 2) : place].rstrip()[-1:] in TIMES_SIGNS and _COUNTED.match(text, end)
    first, last = _COUNTED_FIRST.match(text, place), _COUNTED_FIRST.match(text, end)
    of_others = first and last and not last[1].startswith(first[1])
    return bool(_ENDING.match(text, end) or times or of_others)


_COUNTED: Final = re.compile(r"[ \u00a0][^\W\d_]")
_COUNTED_FIRST: Final = re.compile(rf"(?:{_NUMBER})?{_BLANK}([^\W\d_]+)")


def ordinals_at(text: str, place: int, width: int) -> Figures | None:
    """The list of ordinals that begins here with one for every size of a text; None where there is none."""
    listed = _lists_of_ordinals(width).match(text, place) if width > 1 else None
    if listed is None:
        return None
    return Figures(tuple(_values(_COMMAS, listed)), place, listed.end(), ordinals=True)


@cache
def _lists_of_ordinals(width: int) -> re.Pattern[str]:
    """Lists of ordinals for so many sizes: `10. (11., 12.)`, `10. (11.) 12.`, `(10.) 11. (12.)`, `10./11./12.`."""
    ordinal = rf"[0-9]{{1,3}}(?:\.|{_LETTERS})"
    bracketed = rf"\({_BLANK}{ordinal}{_BLANK}\)"
    pair = (ordinal, bracketed)
    by_turns = (_BLANK.join(pair[(size + first) % 2] for size in range(width)) for first in (0, 1))
    behind = rf"{ordinal}{_BLANK}\({ordinal}(?:{_BLANK}[,;/]{_BLANK}{ordinal}){{{width - 2}}}\)"
    slashed = _BLANK.join([ordinal] * width).replace(_BLANK, rf"{_BLANK}/{_BLANK}")
    return re.compile("|".join((behind, *by_turns, slashed)))


def with_none(text: str, place: int, width: int) -> Figures | None:
    """A list for all sizes in which some have a dash in place of a number; None where there is none."""
    match = _lists_with_none(width).match(text, place) if 1 < width < MOST_LISTED else None
    if match is None:
        return None
    entries = [*_ENTRIES.finditer(text, place, match.end())]
    dashes = sum(entry[0] in _DASHES for entry in entries)
    if len(entries) != width or not 0 < dashes < width:
        return None
    figures = (
        Figure(NONE if entry[0] in _DASHES else entry[0], entry.start(), entry.end()) for entry in entries
    )
    return Figures(tuple(figures), place, match.end())


@cache
def _lists_by_commas(width: int) -> re.Pattern[str]:
    """Lists for so many sizes with a comma and a blank between their numbers: `84, 96, 108`."""
    return re.compile(rf"[0-9]{{1,3}}(?:, [0-9]{{1,3}}){{{width - 1}}}(?!,? ?[0-9])")


@cache
def _lists_with_none(width: int) -> re.Pattern[str]:
    """Lists for so many sizes in which some may have a dash: `– / 7 / 8`, `– (7, 8)`, `80 (88, –)`."""
    more, most = width - 2, width - 1
    return re.compile(
        rf"{_ENTRY}(?>(?:{_BLANK}/{_BLANK}{_ENTRY}){{{most}}}){_END}(?!{_BLANK}/)"
        rf"|{_ENTRY}{_BLANK}[(\[]{_BLANK}{_ENTRY}(?>(?:{_BLANK}[,;/:]{_BLANK}{_ENTRY}){{{more}}}){_BLANK}[)\]]"
    )


_DASHES: Final = "-–—"


def _listed(pattern: re.Pattern[str], match: re.Match[str], width: int, *, hyphens: bool) -> Figures | None:
    """The values of a list; None where these are other numbers that stand side by side."""
    values = tuple(_values(_SINGLE, match))
    if len(values) != width and pattern not in (_LETTERED, _IN_WORDS, _DASHED, _SLASHED):
        with_fractions = tuple(_values(_WITH_FRACTIONS, match))
        values = with_fractions if len(with_fractions) == width else values
    if pattern is _BRACKETED or pattern is _DASHED:
        by_commas = tuple(_values(_COMMAS, match))
        if len(values) != width == len(by_commas):
            values = by_commas
    count = len(values)
    if count > MOST_LISTED:
        return None
    spaced = " " in match[0] or "\u00a0" in match[0]
    has_ranges = _RANGES.search(match[0]) or _RANGE_BEFORE.match(match.string, match.start())
    if pattern in (_LETTERED, _IN_WORDS, _APART):
        fits = True
    elif pattern is _DASHED:
        fits = (count == width and (count > 2 or spaced or hyphens)) or (count > 2 and width > 1)
    elif pattern is _SLASHED:
        fits = count == width and (
            count > 2 or "//" in match[0] or int(_COMMAS.findall(match[0])[0]) >= LEAST_COUNT
        )
    elif pattern in (_PAIR, _BARRED, _COLONS, _TIMED) or has_ranges:
        fits = width == count
    else:
        fits = (count > 2 and "\n" not in match[0]) or count == width
    return Figures(values, match.start(), match.end()) if fits else None


def _values(pattern: re.Pattern[str], match: re.Match[str]) -> Iterator[Figure]:
    for value in pattern.finditer(match.string, match.start(), match.end()):
        yield Figure(value[0], value.start(), value.end())
