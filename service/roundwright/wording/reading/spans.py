"""Round numbers in a label: `2, 4 and 6`, `and all even rnds`."""

from itertools import pairwise
from typing import Final

from msgspec import Struct

from roundwright.wording.reading.parsing.lines import Lines
from roundwright.wording.reading.sizes import AGES, columns_of, names_all, with_letters
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
from roundwright.wording.reading.tree import ONE, Number

EVERY_OTHER: Final = 2
"""The step of rounds of which every other is meant: the even ones, or each with a plain round behind it."""


class Span(Struct, frozen=True, gc=False):
    """Round numbers `first` to `last`, which may differ between sizes; every `step`th of them."""

    first: Number
    last: Number
    step: int = 1


class Standing(Struct, frozen=True, gc=False):
    """`and all even rnds`: from round `first` on every `step`th, up to `last` where that is said."""

    first: int
    step: int
    last: Number | None = None


MOST_SPANS: Final = 24
"""Round numbers before one line: what has more is no label."""


ENDS: Final = COLON | DASH | STOP | SEMI | TAB | EQUALS


_TAIL: Final = frozenset(
    (
        "side",
        "decrease",
        "increase",
        "round",
        "size",
        "number",
        "and",
        "all",
        "each",
        "even",
        "odd",
        "alternate",
        "word",
        "ordinal",
        "only",
        "following",
        "rib",
        "plain",
        "",
        "make",
        "range",
        "chart",
        "begin",
        "icord",
        "place",
        "marker",
        "end",
        "pattern",
        "garter",
        "moss",
        "stocking",
        "last",
        "to",
    )
)


def read_spans(lines: Lines, *, plural: bool = False) -> tuple[Span, ...]:
    """`2`, `2-6`, `2, 4 and 6`, and behind it `, R4`; `plural` where the word before says that there are several."""
    spans: list[Span] = []
    while lines.place < lines.stop and len(spans) < MOST_SPANS:
        token = lines.token()
        if spans and token.flags & (COLON | STOP | SEMI | LINE | EQUALS | TAB):
            break
        taken = 0
        if spans and token.kind == "round" and token.flags & DASH and lines.kind(1) == "number":
            spans[-1] = Span(spans[-1].first, lines.token(1).number or ONE)  # R1-R5
            taken = 2
        elif spans and token.kind == "round" and _adds_round(lines, token):
            taken, plural = 1, True  # R2, R4 and R6
        elif token.kind in ("number", "ordinal") and token.number:
            taken = _read_number(lines, spans, token, token.number, plural=plural)
        elif token.kind == "range" and token.number:
            spans.append(Span(Number((int(token.means),)), token.number))
            taken = 1
        elif spans and token.kind in ("and", "to"):
            taken = _read_joint(lines, spans, token)
            plural = plural or lines.kind(1) == "round"  # R2 and R3 / knit
        if not taken:
            break
        lines.place += taken
    return tuple(spans)


def _adds_round(lines: Lines, token: Token) -> bool:
    """Whether the word `round` stands before one more number: `R2, R4`, `R2/R4`, `R2 + R4`."""
    before = lines.tokens[lines.place - 1]
    added = token.flags == SPACE and token.start == before.end + 3
    return lines.kind(1) == "number" and (added or bool(token.flags & (COMMA | SLASH)))


def _read_number(lines: Lines, spans: list[Span], token: Token, number: Number, *, plural: bool) -> int:
    """Add a number to the spans, or make it the end of the last; 0 where it counts something else."""
    kind, flags = lines.kind(1), lines.flags(1)
    if spans and token.flags & DASH:
        if lines.names and token.flags & SPACE and lines.text_of(1) in AGES:
            return 0  # Rnd 1 - 3 months only
        decreases = kind in ("decrease", "increase") and lines.token(1).text.endswith("s") and not plural
        counts = (kind in _COUNTED_BEHIND_DASH or decreases) and token.kind != "ordinal"
        worked = plural and kind in ("knit", "purl")  # Rounds 1 - 16 knit
        if counts and token.flags & SPACE and not flags & (COLON | TAB) and not worked:
            return 0
        spans[-1] = Span(spans[-1].first, number)
        return 1
    if rounds := _rounds_in_turn(token):
        spans.append(rounds)
        return 1
    several = plural or len(spans) > 1
    if spans and kind in _COUNTED and not flags & ENDS and not (several and _follows(spans[-1], token)):
        return 0
    spans.append(Span(number, number))
    return 1


def _rounds_in_turn(token: Token) -> Span | None:
    """The rounds of `Rows 2-3-4`, which are no sizes; None for other numbers."""
    if token.number is None or FROM_TO not in token.text or "(" in token.text:
        return None
    numbers = [value or 0 for value in token.number.values]
    if len(numbers) < FEWEST_IN_TURN or any(later != former + 1 for former, later in pairwise(numbers)):
        return None
    first, last = (Number((number,), token.start, token.end) for number in (numbers[0], numbers[-1]))
    return Span(first, last)


FROM_TO: Final = "-"
FEWEST_IN_TURN: Final = 3
"""Rounds with a dash between each two; two with a dash between are the first and the last."""


def _read_joint(lines: Lines, spans: list[Span], token: Token) -> int:
    """The words of `and`, `to 6` or `and rnd` between two numbers; 0 where none follows."""
    kind, number = lines.kind(1), lines.token(1).number
    if kind in ("number", "ordinal", "range"):
        if token.kind == "and" or not number:
            return 1
        spans[-1] = Span(spans[-1].first, number)
        return 2
    if kind != "round" or lines.kind(2) not in ("number", "ordinal"):
        return 0
    if token.kind == "to" and (last := lines.token(2).number):
        spans[-1] = Span(spans[-1].first, last)  # `round 1 to round 12`
        return 3
    return 2 if token.kind == "and" else 0


_COUNTED: Final = frozenset(("stitch_noun", "knit", "purl", "times", "right", "together"))
_COUNTED_BEHIND_DASH: Final = frozenset(("stitch_noun", "knit", "purl", "times", "round", "unit"))
"""What a number counts that is not the number of a round."""


def _follows(span: Span, token: Token) -> bool:
    """Whether a number is one or two more than the last of a span."""
    last = span.last.of(0) or 0
    return token.number is not None and last < (token.number.of(0) or 0) <= last + 2


def read_tail(lines: Lines, number: int) -> tuple[Standing | None, tuple[str, ...] | None]:
    """What stands behind the number: `and all even rnds`, `(dec)`, `(sizes 2 and 3 only)`."""
    every: Standing | None = None
    sizes: tuple[str, ...] | None = None
    for _ in range(4):
        if lines.flags(0) & (COLON | LINE | EQUALS):
            break
        kind = lines.kind()
        if (named := _bracketed_sizes(lines) or _sizes_behind(lines)) is not None:
            sizes, lines.place = named
        elif kind == "(" and (stop := note_end(lines)):
            if lines.kind(1) == "size" or (lines.kind(1) == "all" and lines.kind(2) == "size"):
                sizes = tuple(
                    lines.tokens[at].text
                    for at in range(lines.place + 2, stop)
                    if lines.tokens[at].kind in ("number", "word", "range", "ordinal")
                )
            elif standing := read_parity(lines, lines.place + 1, number):
                every = standing[0]
            lines.place = stop + 1
        elif kind in ("and", "all", "each", "following", "alternate") and (
            standing := read_parity(lines, lines.place, number)
        ):
            every, lines.place = standing
        elif kind == "until" and every is not None and (stop := _colon(lines)):
            lines.place = stop
        elif kind == "side" or (kind == "round" and lines.flags(1) & ENDS):
            lines.place += 1
        else:
            break
    return every, sizes


def _bracketed_sizes(lines: Lines) -> tuple[tuple[str, ...] | None, int] | None:
    """The sizes that the bracket here names, None for all, and where it ends: `(L and M only)`, `[all]`."""
    if not lines.names or lines.kind() != "(":
        return None
    for stop in range(lines.place + 2, min(lines.place + MOST_IN_BRACKET, lines.stop)):
        if lines.tokens[stop].kind == ")":
            columns = columns_of(lines.tokens, lines.place + 1, stop, with_letters(lines.names))
            if columns is None:
                return None
            everybody = names_all(lines.tokens, lines.place + 1, stop)
            return None if everybody else tuple(str(column + 1) for column in columns), stop + 1
    return None


def _sizes_behind(lines: Lines) -> tuple[tuple[str, ...], int] | None:
    """The sizes behind a comma, and where they end before the colon: `Dec rnd 8, Adult only:`, `Inc rnd, size S:`."""
    if not lines.names or not lines.flags(0) & (COMMA | DASH):
        return None
    sized = lines.kind() == "size"
    for stop in range(lines.place + 1, min(lines.place + MOST_IN_BRACKET, lines.stop)):
        token = lines.tokens[stop]
        if token.flags & COLON and (sized or lines.tokens[stop - 1].kind in ("only", "size")):
            columns = columns_of(lines.tokens, lines.place, stop, with_letters(lines.names))
            return (tuple(str(column + 1) for column in columns), stop) if columns else None
        if token.flags & ENDS or token.kind in ("stars", "(", "stitch", "knit", "number"):
            return None
    return None


MOST_IN_BRACKET: Final = 12
"""Words of a bracket that names sizes, with its signs."""


def _colon(lines: Lines) -> int:
    """Where the colon of a label stands behind `until further notice`; 0 where none is near."""
    for place in range(lines.place + 1, min(lines.place + MOST_BEFORE_COLON, lines.stop)):
        if lines.tokens[place].flags & COLON:
            return place
        if lines.tokens[place].kind in ("number", "stitch", "stars", "("):
            return 0
    return 0


MOST_BEFORE_COLON: Final = 10
"""Words of a label that say how long it holds."""


def note_end(lines: Lines) -> int:
    """Where a bracket ends that holds a note on the label and no work; 0 where it is another."""
    for place in range(lines.place + 1, min(lines.place + 30, lines.stop)):
        token = lines.tokens[place]
        if token.kind == ")":
            inside = [lines.tokens[at].kind for at in range(lines.place + 1, place)]
            works = any(
                kind
                in (
                    "decrease",
                    "increase",
                    "round",
                    "side",
                    "size",
                    "odd",
                    "even",
                    "alternate",
                    "word",
                    "plain",
                    "rib",
                    "place",
                    "make",
                    "marker",
                )
                for kind in inside
            )
            numbers = any(kind == "number" for kind in inside)
            return place if inside and works and (not numbers or "size" in inside or "round" in inside) else 0
        if token.kind not in _TAIL:
            return 0
    return 0


def read_parity(lines: Lines, place: int, number: int) -> tuple[Standing, int] | None:
    """`and all even rnds`, `every foll alt row`, `and alt rows to 12th`: the rounds it is for, and its end."""
    step, wanted, seen, begin = 0, -1, False, place
    while place < lines.stop:
        token = lines.tokens[place]
        if step and token.flags & COLON:
            break  # 2nd and every alt: K
        if token.kind in ("and", "all", "each", "following", "next", "", "side", "remain"):
            if token.kind == "side":
                step = step or 2
            seen = seen or token.kind in ("all", "each", "following")
        elif token.text == "other" and lines.tokens[place - 1].text == "all":
            return None  # all other rounds are those that are not given
        elif token.kind in ("even", "odd", "alternate"):
            step, wanted, seen = 2, {"even": 0, "odd": 1}.get(token.kind, -1), True
        elif token.kind in ("ordinal", "number") and token.number and seen and not step:
            step = token.number.of(0) or 1
        elif token.kind == "round":
            place += 1
            break
        else:
            return None
        place += 1
    else:
        return None
    if not step and not seen:
        return None
    implied, place = _step_onward(lines, begin, place)
    step = step or implied
    first = number + (wanted >= 0 and number % 2 != wanted)
    last, place = _last_of_all(lines, place)
    return Standing(first, max(1, step), last), place


def _step_onward(lines: Lines, begin: int, stop: int) -> tuple[int, int]:
    """Every how many rounds where that is not told, and where the words end: 1 of `every foll rnd`, else 2."""
    place = stop
    while place < lines.stop and lines.tokens[place].means == ONWARD:
        place += 1
    onward = place > stop or any(token.kind == "following" for token in lines.tokens[begin:stop])
    return 1 if onward else 2, place


ONWARD: Final = "onward"
"""What words mean behind every round that are for those from here on: `Rnd 5 and every rnd thereafter`."""


def _last_of_all(lines: Lines, place: int) -> tuple[Number | None, int]:
    """The last of the rounds of `up to Rnd 10 (12)`, `until 8. rd`, and where that ends; None where none is named."""
    at = place + 1 if place < lines.stop and lines.tokens[place].text == "up" else place
    if at + 1 >= lines.stop or lines.tokens[at].kind not in ("to", "until"):
        return None, place
    at += 1
    while at + 1 < lines.stop and lines.tokens[at].text in ("and", "including", "incl", "the"):
        at += 1  # up to and including the 18th
    at += lines.tokens[at].kind == "round"
    if at >= lines.stop or lines.tokens[at].kind not in ("ordinal", "number"):
        return None, place
    last, at = _of_each_size(lines, at)
    dotted = (
        at < lines.stop and lines.tokens[at].kind == "round" and not lines.tokens[at].flags & (COLON | LINE)
    )
    return last, at + dotted


def read_first_to_last(lines: Lines) -> tuple[Span, ...]:
    """The span of `2. to and including rnd 6`, `2nd to the 6th round`, which is taken; none where no last is named."""
    first = lines.token().number if lines.kind() in ("ordinal", "number") else None
    dotted = lines.kind(1) == "round"
    last, place = _last_of_all(lines, lines.place + 1 + dotted)
    if first is None or last is None:
        return ()
    lines.place = place
    return (Span(first, last),)


def _of_each_size(lines: Lines, place: int) -> tuple[Number | None, int]:
    """The number of a round that stands here, `10 (12)` or, for each size, `10th (12th)`, and where it ends."""
    last = lines.tokens[place].number
    if last is None or place + 1 >= lines.stop or lines.tokens[place + 1].kind != "(":
        return last, place + 1
    values, at = list(last.values), place + 2
    while at < lines.stop and (number := lines.tokens[at].number) is not None:
        values.extend(number.values)
        at += 1
    listed = at > place + 2 and at < lines.stop and lines.tokens[at].kind == ")"
    return (Number(tuple(values), last.start, last.end), at + 1) if listed else (last, place + 1)
