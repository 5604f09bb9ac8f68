"""Decrease rounds told by their plain stitches alone: `With 7 sts between decreases: 64, with 6 before (56)`.

Every number becomes a sentence of its own, `Repeat the decrease round with k7`; in the first such round of a text,
`*k7, k2tog* around`. Where it only describes the decreases told before it in the sentence, it is left out.
"""

from itertools import pairwise
from typing import Final, NamedTuple

from msgspec.structs import replace

from roundwright.knitting.rounds.round import uses_and_leaves
from roundwright.wording.reading.tokens import (
    AS_THEY_ARE,
    COLON,
    COMMA,
    DASH,
    EQUALS,
    FULL,
    LINE,
    SEMI,
    SPACE,
    STOP,
    Instead,
    Token,
    with_others_put,
    words_at,
)
from roundwright.wording.reading.tree import NOTHING, ONE


class _Clause(NamedTuple):
    """The numbers of plain stitches that a clause tells, and the place behind its words."""

    numbers: list[Token]
    stop: int


def with_plain_between(tokens: list[Token]) -> list[Token]:
    """The words, with such rounds told one by one. Takes time in their number."""
    tokens, made = [*tokens], list[Token]()
    done = series = 0
    rhythm: list[Token] = []
    shaped = worked = False
    for place, token in enumerate(tokens[:-1]):
        if place < done:
            continue
        is_count = 0 < place == done and token.kind == "number" and token.flags & (COLON | EQUALS)
        begins = (shaped or token.kind == "decrease") and not is_count and _begins(tokens, place)
        clause = (
            _clause(tokens, place, in_series=place < series or tokens[place - 1].kind == ")")
            if begins
            else None
        )
        if clause is None:
            uses, leaves = uses_and_leaves().get(token.means, (0, 0))
            worked = worked or uses > leaves or token.kind == "together"
            shaped = shaped or worked or token.kind == "decrease"
            made.append(token)
            continue
        pace, head = _rounds_before(tokens, place) if clause.numbers else ([], 0)
        del made[len(made) - head :]
        if place >= series or any(word.kind == "round" for word in tokens[done:place]):
            rhythm = []
        rhythm = pace or rhythm
        if clause.numbers and not pace and (plain := _plain_told(tokens, place)):
            del made[len(made) - (place - plain[0]) :]
            rhythm = _plain_rounds(plain[1])
        for number in clause.numbers:
            again = worked and number.number != NOTHING
            made.extend((*rhythm, *(_again_with(number) if again else _round_of(number))))
            worked = True
        if (
            clause.numbers and tokens[clause.stop].kind == "until"
        ):  # no more than a count: all rounds are told
            tokens[clause.stop] = replace(tokens[clause.stop], kind="have", text="you have")
        if tokens[clause.stop].flags & COMMA or tokens[clause.stop].kind in _JOINTS:
            tokens[clause.stop] = replace(tokens[clause.stop], flags=tokens[clause.stop].flags | STOP)
        done, series = clause.stop, clause.stop + MOST_BETWEEN
    return [*made, *tokens[max(done, len(tokens) - 1) :]]


def with_plain_listed(tokens: list[Token]) -> list[Token]:
    """The words, with a list of plain stitches behind a colon in its sentence. Takes time in their number."""
    return with_others_put(tokens, _list_behind_colon)


def _list_behind_colon(tokens: list[Token], place: int) -> Instead:
    """`Decrease every round: first 7, then 6 sts before k2tog` as `Decrease every round with 7, then 6 ...`."""
    first = tokens[place]
    at = place + (first.kind == "ordinal" and first.text == "first")
    if not first.flags & COLON or tokens[at].kind != "number" or place < len(_EVERY_ROUND):
        return AS_THEY_ARE
    kinds = [token.kind for token in tokens[place - len(_EVERY_ROUND) : place]]
    if any(kind not in known for kind, known in zip(kinds, _EVERY_ROUND, strict=True)):
        return AS_THEY_ARE
    return at + 1, [*words_at(first.start, ("", "with")), replace(tokens[at], flags=SPACE)]


def _begins(tokens: list[Token], place: int) -> bool:
    """Whether a clause begins at a place."""
    before = tokens[place - 1].kind if place else ")"
    return before in (")", "and", "then") or bool(tokens[place].flags & _PARTS)


def _clause(tokens: list[Token], place: int, *, in_series: bool) -> _Clause | None:
    """The numbers that a clause tells; None where it tells anything else, or only describes the round before it."""
    at, opened = _opening(tokens, place)
    knits = (
        (at == place or in_series or ("with" in opened and not opened.isdisjoint(_IN_LISTS)))
        and tokens[at].kind == "knit"
        and tokens[at + 1].kind == "number"
    )
    numbers, behind = _numbers(tokens, at + knits)
    values = [value for number in numbers for value in (number.number or ONE).values]
    if len(numbers) < 1 + bool(opened & _EACH) or None in values:
        return None
    if len(numbers) > 1 and _is_of_several_rounds(tokens, place):
        return None
    where, named = _behind_where(tokens, behind)
    counted = _is_counted(tokens, where)
    ends = counted or _ends(tokens, where) or (tokens[where].kind == "until" and len(numbers) > 1)
    rest = knits and where == behind and not in_series  # rep 7 times, then with k8
    if rest or not ends or _tells_rhythm(tokens, where):
        return None
    aside = bool(tokens[place].flags & (COMMA | COLON)) and _told_before(tokens, place)
    described = aside and not opened & _ONWARD
    if named and described and not in_series:
        return _Clause([], where)  # dec 8 sts evenly, with 8 sts between decreases
    small = all((value or 0) <= MOST_PLAIN for value in values)
    sure = named or ("with" in opened and counted and (where > behind or small))
    going_on = in_series and (
        counted or (where > behind and NOTHING not in [word.number for word in numbers])
    )
    return _Clause(numbers, where) if going_on or (sure and not described) else None


def _opening(tokens: list[Token], place: int) -> tuple[int, set[str]]:
    """The place behind the words with which a clause opens, `the same with`, and these words or their kinds."""
    at, opened = place, set[str]()
    while at < place + MOST_OPENING and (tokens[at].kind in _OPENING or tokens[at].text in _OPENING_WORDS):
        if at > place and tokens[at].flags & _PARTS:
            break
        opened.add(tokens[at].text if tokens[at].text in _OPENING_WORDS else tokens[at].kind)
        at += 1
    sure = not opened & _VERBS or tokens[at - 1].text == "with"
    return (at, opened) if sure else (place, set())


def _behind_where(tokens: list[Token], begin: int) -> tuple[int, bool]:
    """The place behind `before each decrease`, `between them`, and whether decreases are named there."""
    at = begin
    while tokens[at].kind in _BETWEEN or (at > begin and tokens[at].kind in _TO_DECREASE):
        if tokens[at].flags & (_PARTS | EQUALS):
            break
        at += 1
    named = at > begin and tokens[at].kind in _DECREASES and not tokens[at].flags & _PARTS
    at += named
    while named and tokens[at].kind in _OF_DECREASE and not tokens[at].flags & _PARTS:
        at += 1
    return at, named


def _rounds_before(tokens: list[Token], place: int) -> tuple[list[Token], int]:
    """The plain rounds told for each number of a line, `One plain round before each of these: 6 ...`.

    And how many words tell them right before the place.
    """
    near = range(place, max(0, place - MOST_IN_LINE), -1)
    in_line = next((at for at in near if tokens[at].flags & LINE), 0)
    colon = next((at for at in range(in_line + 1, place + 1) if tokens[at].flags & COLON), in_line)
    begin = next((at for at in range(colon - 1, in_line, -1) if tokens[at].flags & STOP), in_line)
    head = [token for token in tokens[begin:colon] if token.kind not in ("plain", "knit")]
    for (number, rounds), behind in zip(
        pairwise(head), (head[at:] for at in range(2, len(head))), strict=False
    ):
        kinds = {token.kind for token in behind}
        paced = number.kind == "number" and rounds.kind == "round" and number.number is not None
        if paced and kinds & {"before", "between"} and kinds & {"each", "all", "these"}:
            knit, noun = words_at(tokens[place].start, ("knit", "knit"), ("round", "rounds"))
            pace = [replace(knit, flags=STOP | SPACE), replace(number, flags=SPACE), noun]
            return pace, (colon - begin) * (colon == place)
    return [], 0


def _is_of_several_rounds(tokens: list[Token], place: int) -> bool:
    """Whether rounds are named in the line before a place: `Rounds 13, 15 and 17: same, with 4, 3 and 2 sts`."""
    for at in range(place, max(-1, place - MOST_BEFORE), -1):
        if (
            tokens[at].kind == "round"
            and tokens[at].text.endswith("s")
            and tokens[at + 1].kind in ("number", "range")
        ):
            return True
        if tokens[at].flags & LINE:
            return False
    return False


def _tells_rhythm(tokens: list[Token], at: int) -> bool:
    """Whether the sentence goes on with plain rounds after each: `..., and knit 1 rnd after each of these rnds`."""
    for token, following in pairwise(tokens[at : at + MOST_BETWEEN]):
        if token.flags & (STOP | LINE) and token is not tokens[at]:
            return False
        if token.kind in ("after", "between") and following.kind in ("each", "all", "these"):
            return True
    return False


def _plain_told(tokens: list[Token], place: int) -> tuple[int, Token] | None:
    """Where a sentence begins that tells the plain rounds between those behind it, and the number of them.

    `With 2 plain rounds between, decrease first with 9`, `Work 1 round before each decrease, and decrease with 5`.
    """
    begin = place
    while begin and not tokens[begin].flags & (STOP | LINE | SEMI) and place - begin < MOST_BETWEEN:
        begin -= 1
    words = tokens[begin:place]
    numbers = [token for token in words if token.kind == "number"]
    kinds = [token.kind for token in words]
    if len(numbers) != 1 or "round" not in kinds or not _IN_RHYTHM.issuperset(kinds):
        return None
    return (begin, numbers[0]) if "between" in kinds or "before" in kinds else None


def _plain_rounds(number: Token) -> list[Token]:
    """`Knit 2 rounds`."""
    knit, rounds = words_at(number.start, ("knit", "knit"), ("round", "rounds"))
    return [replace(knit, flags=STOP | SPACE), replace(number, flags=SPACE), rounds]


def _told_before(tokens: list[Token], place: int) -> bool:
    """Whether decreases are told before a place in its sentence: `dec 8 sts evenly, ...`."""
    for at in range(place - 1, max(-1, place - MOST_BEFORE), -1):
        if tokens[at].kind == "evenly" or (tokens[at].kind in _CHANGES and tokens[at + 1].kind == "number"):
            return True
        if tokens[at].flags & (STOP | LINE | SEMI):
            return False
    return False


def _numbers(tokens: list[Token], at: int) -> tuple[list[Token], int]:
    """The numbers of plain stitches there, and the place behind them and their nouns: `7, 6, 5 and 4 plain sts`."""
    numbers: list[Token] = []
    if tokens[at].text in _NONE:
        none = replace(tokens[at], kind="number", number=NOTHING)
        at += 1 + (tokens[at + 1].kind == "more")
        return [none], at + (tokens[at].kind in _NOUNS)
    while tokens[at].kind == "number" and not (numbers and tokens[at].flags & ~(COMMA | SPACE)):
        numbers.append(tokens[at])
        at += 1
        while tokens[at].kind in _NOUNS and not tokens[at].flags & _PARTS:
            at += 1
        if tokens[at].flags & (STOP | LINE | SEMI | COLON):
            break
        joint = at
        while tokens[joint].kind in _JOINTS or tokens[joint].text in _OPENING_WORDS:
            joint += 1
        knits = tokens[joint].kind == "knit" and joint > at and tokens[joint + 1].kind == "number"
        joint += knits and (tokens[joint - 1].text == "with" or tokens[joint + 2].kind in _BETWEEN)
        if tokens[joint].kind != "number" or (joint == at and not tokens[at].flags & COMMA):
            break
        if tokens[joint + 1].kind in ("round", "times"):
            break
        at = joint
    return numbers, at


def _is_counted(tokens: list[Token], at: int) -> bool:
    """Whether a count stands there: `(64)`, `: 64`, `= 64 sts`, `there are 64`."""
    counted = at
    if tokens[at].kind == "(":
        counted += 1
        while tokens[counted].kind in _BEFORE_COUNT:
            counted += 1
        closed = tokens[counted].kind == "number" and any(
            token.kind == ")" for token in tokens[counted + 1 : counted + MOST_IN_COUNT]
        )
        return closed and tokens[counted + 1].kind in (")", "stitch_noun", "remain", "left")
    while tokens[counted].kind in _BEFORE_COUNT:
        counted += 1
    signed = counted > at or bool(tokens[at].flags & (EQUALS | COLON | DASH | COMMA | SEMI | STOP))
    behind = tokens[min(counted + 1, len(tokens) - 1)]
    alone = bool(behind.flags & _PARTS) or behind.kind not in _NO_COUNT
    return signed and tokens[counted].kind == "number" and alone and not tokens[at].flags & LINE


def _ends(tokens: list[Token], at: int) -> bool:
    """Whether the clause ends at a place."""
    return at >= len(tokens) - 1 or bool(tokens[at].flags & _PARTS) or tokens[at].kind in _JOINTS


def _again_with(number: Token) -> list[Token]:
    """`Repeat the decrease round with k7`."""
    first, *others = words_at(
        number.start,
        ("repeat", "repeat"),
        ("decrease", "dec"),
        ("round", "round"),
        ("", "with"),
        ("knit", "k"),
    )
    return [replace(first, flags=STOP | SPACE), *others, replace(number, flags=0)]


def _round_of(number: Token) -> list[Token]:
    """`*k7, k2tog* around`."""
    star, knit, stitch, end, around = words_at(
        number.start, ("stars", "*"), ("knit", "k"), ("stitch", "k2tog"), ("stars", "*"), ("around", "around")
    )
    first = replace(star, flags=STOP | SPACE)
    plain = (replace(knit, flags=0), replace(number, flags=0)) if number.number != NOTHING else ()
    work = (*plain, replace(stitch, flags=(SPACE | COMMA) if plain else 0, means="k2tog"))
    return [first, *work, replace(end, flags=0), around]


_NONE: Final = frozenset(("none", "nothing", "no", "zero", "with nothing"))
"""Words for no plain stitches: `with none before the k2tog (8)`."""
MOST_IN_LINE: Final = 60
"""Words of a line before one of its numbers of plain stitches."""
_PARTS: Final = STOP | SEMI | LINE | COLON | FULL | COMMA | DASH
_EVERY_ROUND: Final = (("decrease",), ("each", "per"), ("round",))
"""Kinds of the words of `Decrease every round`."""
_OPENING: Final = frozenset(
    (
        "",
        "then",
        "next",
        "and",
        "last",
        "decrease",
        "work",
        "round",
        "manner",
        "have",
        "each",
        "per",
        "continue",
    )
)
_OPENING_WORDS: Final = frozenset(
    ("with", "same", "again", "now", "once", "only", "finally", "first", "the same", "but")
)
"""What stands before the number of plain stitches."""
_IN_LISTS: Final = frozenset(("first", "then", "decrease", "continue"))
"""What stands before `with k9` in a list of such rounds."""
_EACH: Final = frozenset(("each", "per"))
_CHANGES: Final = frozenset(("decrease", "increase"))
_VERBS: Final = frozenset(("decrease", "work", "round", "have", "continue"))
"""Kinds of opening words behind which `with` must stand: `decrease 7 sts` is other work."""
_ONWARD: Final = frozenset(("then", "next", "last", "again", "same", "the same", "now", "once"))
"""What begins another round behind a comma."""
_NOUNS: Final = frozenset(("stitch_noun", "knit", "plain"))
_JOINTS: Final = frozenset(("and", "then"))
_BETWEEN: Final = frozenset(("before", "between", "in"))
_TO_DECREASE: Final = frozenset(("", "each", "all", "these"))
_IN_RHYTHM: Final = (
    _BETWEEN
    | _TO_DECREASE
    | {
        "number",
        "plain",
        "knit",
        "round",
        "decrease",
        "more",
        "work",
        "only",
        "then",
        "and",
    }
)
"""Kinds of the words of a rhythm before its rounds."""
_DECREASES: Final = frozenset(("decrease", "stitch", "together"))
_OF_DECREASE: Final = frozenset(("", "place"))
_BEFORE_COUNT: Final = frozenset(("", "have", "remain", "left"))
_NO_COUNT: Final = frozenset(
    ("round", "times", "unit", "knit", "purl", "plain", "together", "before", "between", "more")
)
"""Kinds of words behind a number that is no count."""
MOST_BEFORE: Final = 10
"""Words from the decreases to what describes them."""
MOST_PLAIN: Final = 24
"""Plain stitches that are told with nothing but a count: `with 7 sts: 64`."""
MOST_OPENING: Final = 6
"""Words before the number of plain stitches."""
MOST_IN_COUNT: Final = 5
"""Words of a count in a bracket."""
MOST_BETWEEN: Final = 24
"""Words from such a clause to the next of a series: `(64), 2 plain rounds, then with 6 (56)`."""
