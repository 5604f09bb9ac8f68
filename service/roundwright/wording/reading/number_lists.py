"""The numbers of several sizes, in whatever way they are printed side by side, made one.

`48, 60, 72`, `64, (72), ((80))`, `(56) [63]`, `88 (96) 104`, `60 70 80`, `seven (nine)`.
"""

from itertools import pairwise
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from roundwright.wording.reading.tokens import (
    COLON,
    COMMA,
    DASH,
    EQUALS,
    LINE,
    SEMI,
    SLASH,
    SPACE,
    STOP,
    TAB,
    Token,
)
from roundwright.wording.reading.tree import Number

_NO_LIST_BEHIND: Final = frozenset(
    ("round", "times", "step", "size", "needle", "and", "to", "range", "ordinal", "repeat", "from")
)
"""What numbers stand behind that are no sizes: `rnds 2, 4`."""
_NO_LIST_BEFORE: Final = frozenset(("times", "together", "knit", "purl", "right", "left", "stitch"))
"""What follows numbers that are no sizes: `k 2, 3 times`."""
_JOINTS: Final = COMMA | SPACE
_COLUMNS: Final = TAB | SPACE
MOST_BRACKETS: Final = 3
"""Brackets around the number of a size: `((80))`."""


class _Run(Struct):
    """Numbers side by side.

    Their values, where the next token stands, which are in brackets, and whether `and` or `or` stands between; `either`
    where it is `or`.
    """

    values: list[int | None]
    stop: int
    bracketed: list[bool]
    joined: bool
    either: bool

    @property
    def brackets(self) -> bool:
        """Whether some are in brackets."""
        return any(self.bracketed)

    @property
    def mixed(self) -> bool:
        """Whether every other is in brackets, which nothing but sizes is: `4 (5) 6`."""
        return self.brackets and not self.bracketed[0] and not all(self.bracketed[1:])

    @property
    def headed(self) -> bool:
        """Whether all but the first are in brackets: `two (three, four)`."""
        return not self.bracketed[0] and all(self.bracketed[1:])

    @property
    def begins_in_bracket(self) -> bool:
        """Whether every other is in brackets, the first one too: `(80) 88 (96) 104`."""
        inside = [place % 2 == 0 for place in range(len(self.bracketed))]
        return len(inside) >= FEWEST_WITH_SHORT and self.bracketed == inside

    @property
    def even(self) -> bool:
        """Whether brackets stand where a list has them: `64 (72) (80)`, `64 (72) 80 (88)`, `(56) [63]`."""
        others = self.bracketed[1:]
        return (
            not self.brackets
            or all(others)
            or self.begins_in_bracket
            or (
                not self.bracketed[0]
                and all(inside == (place % 2 == 0) for place, inside in enumerate(others))
            )
        )


def with_figures(tokens: list[Token]) -> list[Token]:
    """The tokens with a number in words and its figures in a bracket made one: `two (2) more times`."""
    made: list[Token] = []
    for token in tokens:
        if token.kind == ")" and len(made) > 2 and _are_figures(*made[-3:]):
            word = made[-3]
            made[-3:] = [replace(word, end=token.end)]
        else:
            made.append(token)
    return made


def _are_figures(word: Token, bracket: Token, figures: Token) -> bool:
    """Whether a number in words stands before a bracket with the same in figures."""
    apart = (bracket.flags | figures.flags) & ~SPACE
    if word.kind != "number" or bracket.kind != "(" or not figures.text.isdigit() or apart:
        return False
    same = (
        word.number is not None and figures.number is not None and word.number.values == figures.number.values
    )
    return same and word.text.isalpha()


def with_lists(tokens: list[Token], width: int) -> list[Token]:
    """The tokens with the numbers of so many sizes made one. Takes time in the number of the tokens."""
    if width == 1:
        return tokens
    plain = not any(token.number is not None and len(token.number.values) == width for token in tokens)
    made: list[Token] = []
    place, count = 0, len(tokens)
    while place < count:
        token = _whole(tokens, place, width)
        if several := _spanned(tokens, place, width) or _crafted(tokens, place, width):
            made.extend(several[0])
            place = several[1]
            continue
        if columns := _columns(tokens, place, width):
            made.append(columns)
            place += width
            continue
        if (token.text in _LETTERS or token.kind == "size") and (lettered := _lettered(tokens, place, width)):
            made.append(lettered[0])
            place = lettered[1]
            continue
        if token.number is not None and tokens[min(place + 1, count - 1)].kind in _NOUNS:
            if nouns := _with_nouns(tokens, place, width):
                made.extend(nouns[0])
                place = nouns[1]
                continue
        elif stop := _stop_of_short(tokens, place, width):
            made.append(_short(tokens, place, stop))
            place = stop
            continue
        run = _run(tokens, place, width) if _may_begin(tokens, place) else None
        if run is not None and (run.brackets or run.joined or plain) and _is_list(tokens, place, run):
            last = tokens[run.stop - 1]
            text = " ".join([part.text for part in tokens[place : run.stop]])
            number = Number(tuple(run.values), token.start, last.end)
            made.append(Token("number", text, token.start, last.end, token.flags, "", number))
            place = run.stop
        else:
            made.append(token)
            place += 1
    return made


def _spanned(tokens: list[Token], begin: int, width: int) -> tuple[list[Token], int] | None:
    """The first and the last rounds of all sizes, and where they end; None where rounds are told otherwise.

    `Rnds 5-10 [5-12]`, `Rnds 5 to 10 (7 to 12)`, `Rnds 5-10/5-12`.
    """
    if not begin or tokens[begin - 1].kind != "round":
        return None
    values: list[int | None] = []
    place, inside = begin, False
    while place + 1 < len(tokens) and (len(values) < 2 * width or inside):
        token = tokens[place]
        if token.kind == (")" if inside else "(") and values and not token.flags & ~SPACE:
            inside = not inside
            place += 1
            continue
        pair, count = _first_and_last(tokens, place)
        apart = place > begin and not inside and not (token.flags & SLASH and _overlap(values, pair))
        if apart or not pair:
            return None
        values.extend(pair)
        place += count
    firsts, lasts = tuple(values[::2]), tuple(values[1::2])
    falls = any((first or 0) > (last or 0) for first, last in zip(firsts, lasts, strict=False))
    if falls or len(values) != 2 * width:
        return None
    start, end = tokens[begin].start, tokens[place - 1].end
    made = [
        Token("number", "", start, start + 1, tokens[begin].flags, "", Number(firsts)),
        Token("number", "", start + 1, end, DASH, "", Number(lasts)),
    ]
    return made, place


def _first_and_last(tokens: list[Token], place: int) -> tuple[tuple[int | None, ...], int]:
    """The numbers of one or more ranges, `5-12, 5-14`, or of `5 to 12`, and their words; none for anything else."""
    token, behind = tokens[place], tokens[place + 1]
    if token.kind == "range":
        return _inside(token), 1
    if token.kind != "number" or len(_inside(token)) > 1:
        return (), 0
    if behind.kind == "number" and behind.flags & DASH:
        dashed = (*_inside(token), *_inside(behind))  # 5 - 10 (5 - 12)
        return tuple(value for value in dashed if value is not None), 2
    if behind.kind == "to" and place + 2 < len(tokens):
        return (*_inside(token), *_inside(tokens[place + 2])), 3
    return (), 0


def _overlap(some: list[int | None], others: tuple[int | None, ...]) -> bool:
    """Whether rounds begin among those before them, as those of another size do: `5-10/5-12`."""
    return bool(some and others) and (some[-2] or 0) <= (others[0] or 0) <= (some[-1] or 0)


def _lettered(tokens: list[Token], begin: int, width: int) -> tuple[Token, int] | None:
    """The numbers behind the letters of sizes, made one, and where they end: `S 80, M 88, L 96`; None for others.

    `size S: 80 sts; size M: 88 sts` and `size S only: 80 sts; size M only: 88 sts` as well.
    """
    values: list[int | None] = []
    rank, place = -1, begin
    numbers: list[Token] = []
    while len(values) < width and place + 1 < len(tokens):
        first = tokens[place]
        parted = not values or bool(first.flags & (COMMA | SEMI | SLASH))
        place += first.kind == "size"
        letter, *behind = tokens[place : place + MOST_TO_NUMBER]
        place += bool(behind) and behind[0].kind == "only"
        counted = tokens[min(place + 1, len(tokens) - 1)]
        letters = _LETTERS.get(letter.text, -1)
        if letters <= rank or not parted or (values and first.flags & (LINE | STOP)):
            return None
        if (
            counted.number is None
            or len(counted.number.values) != 1
            or counted.flags & ~(SPACE | COLON | EQUALS)
        ):
            return None
        values.extend(counted.number.values)
        numbers.append(counted)
        rank, place = letters, place + 2
        nouns = len(values) < width and place < len(tokens) and tokens[place].kind == "stitch_noun"
        place += nouns and not tokens[place].flags & ~SPACE
    if len(values) != width:
        return None
    first, last = numbers[0], numbers[-1]
    text = " ".join([token.text for token in numbers])
    number = Number(tuple(values), first.start, last.end)
    return Token("number", text, tokens[begin].start, last.end, tokens[begin].flags, "", number), place


MOST_TO_NUMBER: Final = 2
"""The letter of a size, and the word that may stand before its number: `S only: 80`."""
_LETTERS: Final = {letters: rank for rank, letters in enumerate(("xs", "s", "m", "l", "xl", "xxl"))}
"""Letters of sizes, from the smallest up (common practice)."""


def _with_nouns(tokens: list[Token], begin: int, width: int) -> tuple[list[Token], int] | None:
    """The numbers of a list with their noun once, and where it ends; None where none begins here.

    `80 sts (88 sts, 96 sts)`, `8 more times (9 more times)`, `8x (9x)`, `80 sts / 88 sts`, `= 80 sts, 88 sts`.
    """
    opens = begin + 1
    while opens < len(tokens) and tokens[opens].kind in _NOUNS and opens - begin <= MOST_NOUNS:
        opens += 1
    if opens >= len(tokens):
        return None
    noun = tokens[begin + 1 : opens]
    bracketed = tokens[opens].kind == "("
    if not bracketed and not (_are_counts(tokens, begin) and tokens[opens].flags & (COMMA | SLASH)):
        return None
    texts = [word.text for word in noun]
    numbers = [tokens[begin]]
    place, inside = opens, False
    while place < len(tokens) and (len(numbers) < width or inside):
        token = tokens[place]
        if token.flags & ~(_JOINTS | SLASH):
            return None
        if token.kind == (")" if inside else "("):
            inside = not inside
            place += 1
        elif token.number is not None and len(numbers) < width:
            numbers.append(token)
            place += 1 + len(noun)
            if [word.text for word in tokens[place - len(noun) : place]] != texts:
                return None
        else:
            return None
    values = [number.number.of(0) if number.number is not None else None for number in numbers]
    alike = all(_alike(first, second, rising=not bracketed) for first, second in pairwise(values))
    if inside or len(numbers) != width or not alike:
        return None
    first, last = numbers[0], numbers[-1]
    text = " ".join([number.text for number in numbers])
    number = Number(tuple(values), first.start, last.end)
    return [Token("number", text, first.start, last.end, first.flags, "", number), *noun], place


def _are_counts(tokens: list[Token], begin: int) -> bool:
    """Whether a number of stitches is a count and not of stitches to be worked: behind a sign, or in a bracket."""
    counted = begin > 0 and bool(tokens[begin].flags & (DASH | EQUALS) or tokens[begin - 1].kind == "(")
    return counted and tokens[begin + 1].kind == "stitch_noun"


_NOUNS: Final = frozenset(("stitch_noun", "times", "more", "round"))
"""What stands behind the number of each size, or of all."""
MOST_NOUNS: Final = 2
"""Words of such a noun: `more times`."""


def _stop_of_short(tokens: list[Token], begin: int, width: int) -> int:
    """Where a list ends that is in brackets and for all sizes but the first ones; 0 where none begins here.

    `K[3:4]`, `[32:40] sts`: the rounds of the second and third size. It stands at a letter or before its stitches.
    """
    if width < FEWEST_WITH_SHORT or tokens[begin].kind != "(":
        return 0
    values, place = 0, begin + 1
    while place < len(tokens) and tokens[place].kind == "number" and values < width:
        number, flags = tokens[place].number, tokens[place].flags
        if number is None or bool(values) != bool(flags & (COMMA | SLASH)) or flags & ~(_JOINTS | SLASH):
            return 0
        values += len(number.values)
        place += 1
    closed = place + 1 < len(tokens) and tokens[place].kind == ")" and not tokens[place].flags
    if not closed or not 1 < values < width:
        return 0
    behind = tokens[place + 1]
    counts = behind.kind == "stitch_noun" and not behind.flags & ~SPACE
    crafted = begin > 0 and tokens[begin - 1].kind in _CRAFTS and not tokens[begin].flags & ~SPACE
    return place + 1 if counts or (crafted and bool(behind.flags & COMMA)) else 0


def _short(tokens: list[Token], begin: int, stop: int) -> Token:
    """The numbers in such brackets as one list."""
    values: list[int | None] = []
    for token in tokens[begin + 1 : stop - 1]:
        values.extend(token.number.values if token.number is not None else ())
    first, last = tokens[begin + 1], tokens[stop - 2]
    text = " ".join([token.text for token in tokens[begin + 1 : stop - 1]])
    number = Number(tuple(values), first.start, last.end)
    flags = tokens[begin].flags
    return Token("number", text, tokens[begin].start, tokens[stop - 1].end, flags, "", number)


FEWEST_WITH_SHORT: Final = 3
"""Sizes of a pattern in which several, but not all, have a list."""


def _crafted(tokens: list[Token], place: int, width: int) -> tuple[list[Token], int] | None:
    """`k6/k7`: the stitches of each size with their own letter, made `k6/7`, and where they end; else None."""
    stop = place + 2 * width
    if tokens[place].kind not in _CRAFTS or stop > len(tokens) or not tokens[place + 2].flags & SLASH:
        return None
    values: list[int | None] = []
    for at in range(place, stop, 2):
        craft, counted = tokens[at], tokens[at + 1]
        if craft.text != tokens[place].text or counted.number is None or counted.flags & ~SPACE:
            return None
        if (at > place) != bool(craft.flags & SLASH) or len(counted.number.values) != 1:
            return None
        values.extend(counted.number.values)
    first, last = tokens[place + 1], tokens[stop - 1]
    text = " ".join([token.text for token in tokens[place + 1 : stop : 2]])
    number = Number(tuple(values), first.start, last.end)
    return [tokens[place], Token("number", text, first.start, last.end, first.flags, "", number)], stop


_CRAFTS: Final = ("knit", "purl", "slip")


def _may_begin(tokens: list[Token], place: int) -> bool:
    """Whether a list may begin here, by the next word."""
    kind, behind = tokens[place].kind, tokens[min(place + 1, len(tokens) - 1)]
    if kind == "range" and ("(" in tokens[place].text or behind.kind == "("):  # 88-96 (104-112) sts
        counted = place > 0 and tokens[place - 1].kind in _NO_PAIR_BEHIND
        return not counted or _of_round(tokens, place - 1)
    if kind == "(":
        return behind.kind in ("number", "(")
    listed = behind.kind in ("number", "(", "and") or behind.text == "or"
    if kind != "number" or not listed or behind.flags & ~_JOINTS:
        return False
    amid = place > 0 and tokens[place - 1].kind == "number" and not tokens[place].flags & ~_JOINTS
    return not (amid and behind.kind == "number")  # numbers in a row are a list from the first or not at all


def _columns(tokens: list[Token], begin: int, width: int) -> Token | None:
    """The last numbers of a row, one in the column of each size, made one: `*k9, k2tog | 80 | 88 | 96`.

    A size that has no such round may have a dash: `| - | 80 | 88`.
    """
    stop = begin + width
    if not tokens[begin].flags & TAB or not begin or stop > len(tokens):
        return None
    if stop < len(tokens) and not tokens[stop].flags & LINE:
        return None
    values: list[int | None] = []
    for token in tokens[begin:stop]:
        if not token.flags & TAB or token.flags & ~_COLUMNS:
            return None
        if token.text == "-":
            values.append(None)
            continue
        if token.kind != "number" or token.number is None or len(token.number.values) != 1:
            return None
        values.extend(token.number.values)
    if not any(values):
        return None
    first, last = tokens[begin], tokens[stop - 1]
    text = " ".join([token.text for token in tokens[begin:stop]])
    number = Number(tuple(values), first.start, last.end)
    return Token("number", text, first.start, last.end, first.flags, "", number)


def _run(tokens: list[Token], begin: int, width: int) -> _Run | None:
    """As many numbers as there are sizes, from here on; None where there are fewer or more."""
    values: list[int | None] = []
    bracketed: list[bool] = []
    place, depth, parts, groups, joined, either = begin, 0, 0, 0, False, False
    while place < len(tokens) and (len(values) < width or depth):
        token = tokens[place]
        dashed = depth > 0 and token.flags == DASH and tokens[place - 1].kind == "number"  # (10–8)
        if place > begin and token.flags & ~_JOINTS and not dashed:
            break
        if token.kind == "and" and width == 2 and parts == 1 and not depth:
            joined = True
            place += 1
            continue
        last = parts == len(values) == width - 1 or place == begin + 1
        if token.text == "or" and last and not depth and not token.flags & COMMA:
            joined = either = True  # 80, 90 or 100 stitches, 80 or 90 or 100
            place += 1
            continue
        if token.kind == "(" and depth < MOST_BRACKETS and len(values) < width:
            depth += 1
        elif token.kind == ")" and depth and tokens[place - 1].kind != "(":
            depth -= 1
            groups += 1
        elif (inside := _inside(token)) and (dashed or not _adrift(tokens, place, depth)):
            values.extend(inside)
            bracketed.extend([depth > 0, *([True] * (len(inside) - 1))])
            parts += 1
        else:
            break
        place += 1
    run = _Run(values, place, bracketed, joined, either)
    if tokens[begin].kind == "(" and groups < width and not run.begins_in_bracket:
        return None  # the one bracket of a list: `(56, 64)`
    return run if len(values) == width and not depth and parts > 1 and run.even else None


def _whole(tokens: list[Token], place: int, width: int) -> Token:
    """The word here; a number of so many sizes where it looks like a range with a bracket, `80-88 (96)`."""
    token = tokens[place]
    if token.kind != "range" or len(_inside(token)) != width or not _may_begin(tokens, place):
        return token
    number = Number(_inside(token), token.start, token.end)
    return Token("number", token.text, token.start, token.end, token.flags, "", number)


def _inside(token: Token) -> tuple[int | None, ...]:
    """The numbers of a word, of a range both, `88-96 (104-112)`; none where it is no number."""
    if token.number is None or token.kind not in ("number", "range"):
        return ()
    return (int(token.means), *token.number.values) if token.kind == "range" else token.number.values


def _adrift(tokens: list[Token], place: int, depth: int) -> bool:
    """Whether a number in a bracket stands behind another without a comma: `(6 7, 8)` lacks one."""
    return depth > 0 and tokens[place - 1].kind == "number" and not tokens[place].flags & COMMA


def _is_list(tokens: list[Token], begin: int, run: _Run) -> bool:
    """Whether numbers side by side are those of sizes, and nothing that is counted one by one."""
    before = tokens[begin - 1] if begin else None
    following = tokens[run.stop] if run.stop < len(tokens) else None
    if run.either and following is not None:
        stitches = before is not None and before.kind in _CRAFTS  # k7, 8 or 9, k2tog
        return stitches or following.kind in _OF_SIZES
    sizes_alone = run.mixed or run.headed or run.begins_in_bracket
    counted = before is not None and before.kind in _NO_LIST_BEHIND and not sizes_alone
    if counted and not _of_round(tokens, begin - 1):
        return False
    if run.joined and (following is None or following.kind != "stitch_noun"):
        return False
    several = len(_inside(tokens[begin])) > 1  # 6-6-7 (7-8) times
    if following is not None and not (run.mixed or run.begins_in_bracket or several):
        if following.kind in _NO_LIST_BEFORE and not following.flags & (COMMA | LINE):
            return False
        if not run.brackets and (following.kind == "number" or following.text == "and"):
            return following.flags & ~_JOINTS > 0
    rises = run.brackets or run.values[0] != run.values[-1]
    values = run.values[:: -1 if _counts_down(before, run, following) else 1]
    return rises and all(_alike(*pair, rising=not run.brackets) for pair in pairwise(values))


def _counts_down(before: Token | None, run: _Run, following: Token | None) -> bool:
    """Whether they are counts, the largest size first: `until you have a total of 28 24 20 stitches`."""
    counts = following is not None and following.kind == "stitch_noun" and not following.flags & ~SPACE
    crafted = before is not None and before.kind in _CRAFTS
    return counts and not crafted and not run.brackets and len(run.values) >= FEWEST_WITH_SHORT


_OF_SIZES: Final = frozenset(("stitch_noun", "knit", "purl", "round", "times", "unit", "remain"))
"""What numbers with `or` between are of, which a pattern prints for its sizes: `72, 80 or 88 sts`, `3 or 4 times`."""


def _of_round(tokens: list[Token], place: int) -> bool:
    """Whether the word `round` ends what is said before a count: `to end of round 40, 50`."""
    return (
        tokens[place].kind == "round"
        and place > 0
        and tokens[place - 1].text in ("of", "the", "whole", "each", "every")
    )


def _alike(first: int | None, second: int | None, *, rising: bool) -> bool:
    """Whether a number may be that of the size behind another's."""
    if first is None or second is None:
        return True
    if rising:
        return first <= second <= 2 * first + 4
    return first <= 2 * second + 4 and second <= 2 * first + 4


def with_dashed_pairs(tokens: list[Token], width: int) -> list[Token]:
    """The tokens of two sizes; what looks like a range is a number each where stitches are so cast on: `96-104 sts`."""
    if width != PAIR or not _casts_on_pair(tokens):
        return tokens
    made = tokens[:1]
    for before, token in pairwise(tokens):
        pair = token.kind == "range" and before.kind not in _NO_PAIR_BEHIND
        made.append(_pair(token) if pair else token)
    return made


def _casts_on_pair(tokens: list[Token]) -> bool:
    """Whether two numbers with a dash between are cast on."""
    for place, token in enumerate(tokens):
        if token.kind != "cast_on":
            continue
        for at in range(place + 1, min(place + MOST_TO_PAIR, len(tokens) - 1)):
            if tokens[at].kind == "range" and tokens[at + 1].kind == "stitch_noun":
                return True
    return False


def _pair(token: Token) -> Token:
    """The numbers of two sizes instead of a range."""
    last = token.number.values[-1:] if token.number is not None else ()
    return Token(
        "number",
        token.text,
        token.start,
        token.end,
        token.flags,
        "",
        Number((int(token.means), *last), token.start, token.end),
    )


PAIR: Final = 2
"""Sizes of which the numbers may stand with a dash between, as those of a range do."""
MOST_TO_PAIR: Final = 6
"""Words from `cast on` to its number."""
_NO_PAIR_BEHIND: Final = frozenset(("round", "step", "size", "needle", "gear", "chart", "and"))
"""What a range of two numbers stands behind: `rnds 2-3`."""
