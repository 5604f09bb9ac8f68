"""Rounds worked again with other numbers of plain stitches: `Do the same with 5 and then with 4 knits before k2tog`.

Every number becomes a sentence of its own: `Repeat the decrease round with k5. Knit 1 round.`.
"""

from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.tokens import COLON, LINE, SEMI, SPACE, STOP, Token, words_at
from roundwright.wording.reading.tree import ONE, Number

_Plain = tuple[Number, bool]
"""How many plain rounds are told, and whether they are worked behind the last decrease round as well."""


def with_same_told(tokens: list[Token]) -> list[Token]:
    """The words, with such rounds told one by one. Takes time in their number."""
    made: list[Token] = []
    place = 0
    while place < len(tokens):
        rounds, stop = (
            _same_with(tokens, place, made) if tokens[place].flags & _BEGINS or not place else ([], place)
        )
        made.extend(rounds or tokens[place : place + 1])
        place = stop if rounds else place + 1
    return made


def _same_with(tokens: list[Token], place: int, before: list[Token]) -> tuple[list[Token], int]:
    """The rounds of a sentence that tells to work the same with other numbers, and the place behind it; else none.

    `before`: the words before it.
    """
    stop = place + 1
    while stop < len(tokens) and stop < place + MOST_WORDS and not tokens[stop].flags & _APART:
        stop += 1
    at, plain = _behind_same(tokens, place, stop)
    if not at:
        at, stop = _behind_decrease(tokens, place, stop)
    if not at:
        return [], place
    single = tokens[at - 1].text in _COMING
    items, behind = ([(tokens[at], tokens[at])], at + 3) if single else _items(tokens, at, stop)
    end = next((at for at in range(behind, stop) if tokens[at].kind in ("(", "=")), stop)
    alone = behind == end and all(
        _plain(number) <= MOST_PLAIN for _, number in items
    )  # and once again with five
    sure = alone or any(item.kind == "knit" for item, _ in items) or tokens[behind].kind in _OF_PLAIN
    falls = [_plain(number) for _, number in items]
    far = any(token.kind in _FAR for token in tokens[behind:end])
    if not items or not sure or far or sorted(set(falls), reverse=True) != falls:
        return [], place
    plain = plain or _plain_rounds(tokens[behind:end])
    shapes = any(
        token.kind == "decrease" or token.text in _TOLD_ALONE for token in tokens[place:at]
    )  # decrease as before, with 8 sts between
    if plain is None and not (shapes or _are_plain_rounds_told(tokens[end : end + MOST_TO_PLAIN])):
        plain = _plain_before(before)
    made: list[Token] = []
    for item, number in items:
        made.extend(_round_with(item, number))
        if plain is not None and (plain[1] or number is not items[-1][1]):
            knit, count, rounds = words_at(
                tokens[end - 1].end, ("knit", "knit"), ("number", "1"), ("round", "rounds")
            )
            made.extend((replace(knit, flags=STOP | SPACE), replace(count, number=plain[0]), rounds))
    made[0] = replace(made[0], flags=tokens[place].flags | STOP)
    if tokens[end].kind in ("and", "then") and not tokens[end].flags & _APART:  # , and knit two rounds
        return [*made, replace(tokens[end + 1], flags=STOP | SPACE)], end + 2
    return made, end


def _behind_same(tokens: list[Token], place: int, stop: int) -> tuple[int, _Plain | None]:
    """The place behind `the same with` or `repeat these 2 rounds with`, with their plain rounds; 0 where it is not."""
    at, plain = place, None
    while at < stop and (tokens[at].kind in _BEFORE or tokens[at].text == "now"):
        at += 1
    same = at
    while at < stop and (tokens[at].text in _SAME or tokens[at].kind in _ROUNDS_BEFORE):
        number = tokens[at].number
        if number is not None:
            if tokens[at + 1].kind != "round":
                break
            plain = Number(((number.of(0) or 1) - 1,)), True  # these two rounds
        at += 1
    return (at if at > same and tokens[at - 1].text == "with" else 0), plain


def _behind_decrease(tokens: list[Token], place: int, stop: int) -> tuple[int, int]:
    """The place of the plain stitches where a decrease is told with them, and that behind it; zeros elsewhere.

    `Decrease on next rnd, but with 7 sts before the decrease`, `take out nine more by knitting five between the
    narrowings`, `then six and two together in the same way`, `it's seven and one`.
    """
    begin = place + (tokens[place].kind in ("then", "have"))
    rounds = (at for at in range(begin, stop) if "round" in [token.kind for token in tokens[at + 1 : at + 4]])
    stop = next((at for at in rounds if tokens[at].kind in ("and", "then")), stop)
    numbers = (at for at in range(begin, min(begin + MOST_TO_NUMBER, stop)) if tokens[at].kind == "number")
    plain = (at for at in numbers if any(token.kind in _BEHIND for token in tokens[at + 1 : at + 3]))
    at = next(plain, stop)
    before = [token.kind for token in tokens[begin:at]]
    kinds = [token.kind for token in tokens[at:stop] if token.kind not in ("", "stitch_noun")]
    if kinds[:4] == ["number", "and", "number", "together"]:
        return (at, stop) if before in ([], ["knit"]) and "manner" in kinds else (0, 0)
    if kinds[:3] == ["number", "and", "number"] and tokens[at - 1].text in _COMING:
        return (at, stop) if _plain(tokens[at + 2]) == 1 and kinds[3:4] in ([], ["("]) else (0, 0)
    shapes = "decrease" in before or tokens[begin].text in _TOLD_ALONE
    again = "more" in before or "next round" in " ".join(before)
    between = kinds[:3] in (["number", "between", "decrease"], ["number", "before", "decrease"])
    return (at, stop) if shapes and again and between and kinds[3:4] in ([], ["("], ["="]) else (0, 0)


def _round_with(item: Token, number: Token | None) -> list[Token]:
    """`Repeat the decrease round with k5`; of no number, `k2tog around`."""
    if number is None:
        pair = replace(item, kind="stitch", text="k2tog", means="k2tog", flags=item.flags | STOP)
        return [pair, *words_at(item.end, ("around", "around"))]
    first, *others = words_at(
        item.start, ("repeat", "repeat"), ("decrease", "dec"), ("round", "round"), ("", "with"), ("knit", "k")
    )
    return [replace(first, flags=STOP | SPACE), *others, replace(number, flags=0)]


def _items(tokens: list[Token], at: int, stop: int) -> tuple[list[tuple[Token, Token | None]], int]:
    """The word and the number of each of the plain stitches told there, no number for no more than decreases."""
    items: list[tuple[Token, Token | None]] = []
    while at < stop:
        kinds = [token.kind for token in tokens[at : min(at + 3, stop)]]
        match kinds:
            case ["number", other, *_] if other in _COUNTING or kinds[1:] == ["knit", "round"]:
                return [], at
            case ["knit", "number", "together"]:
                items.append((tokens[at], None))
                at += 3
            case ["stitch", *_]:
                items.append((tokens[at], None))
                at += 1
            case ["knit", "number", *_]:
                items.append((tokens[at], tokens[at + 1]))
                at += 2
            case ["number", "knit" | "plain" | "stitch_noun" as noun, *_]:
                items.append((replace(tokens[at], kind=noun), tokens[at]))
                at += 2
            case ["instead", "knit", "number"] | ["number", "together", *_]:
                at += 2 + (kinds[0] == "instead")
            case ["number", *_]:
                items.append((tokens[at], tokens[at]))
                at += 1
            case [kind, *_] if kind in _JOINTS or tokens[at].text == "with":
                at += 1
            case _:
                break
    alone = all(number is None or _plain(number) for _, number in items)
    return (items if alone and any(number is not None for _, number in items) else []), at


def _plain(number: Token | None) -> int:
    """How many stitches a number says to be plain; none where it tells sizes."""
    if number is None or number.number is None or len(number.number.values) != 1:
        return 0
    return number.number.of(0) or 0


def _plain_rounds(words: list[Token]) -> _Plain | None:
    """How many plain rounds are told with it, and whether behind the last as well; None where none are."""
    at = next((place for place, token in enumerate(words) if token.kind == "round"), 0)
    where = next((token.kind for token in words[at:] if token.kind in ("after", "between")), "")
    if not at or not where:
        return None
    number = next((token.number for token in words[max(0, at - 3) : at] if token.number is not None), ONE)
    return number, where == "after"


def _plain_before(tokens: list[Token]) -> _Plain | None:
    """How many plain rounds the sentence before tells, which are worked again as well: `Knit 1 round.`."""
    count = len(tokens)
    begin = next((at for at in range(count - 1, max(count - 6, -1), -1) if tokens[at].flags & _APART), count)
    words = [token for token in tokens[begin:] if token.kind]
    match [token.kind for token in words]:
        case ["knit", "round"] | ["knit", "plain", "round"]:
            return ONE, True
        case ["knit", "number", "round", *_]:
            return words[1].number or ONE, True
        case _:
            return None


def _are_plain_rounds_told(words: list[Token]) -> bool:
    """Whether plain rounds stand behind the sentence, or behind its count: `(64). Knit 1 round.`."""
    sentence: list[str] = []
    for token in words:
        if token.flags & _APART and not _COUNTS.issuperset(sentence):
            break
        sentence = [*([] if token.flags & _APART else sentence), token.kind]
    plain = "round" in sentence and not {"knit", "plain"}.isdisjoint(sentence)
    return plain and {"stitch", "together", "ordinal", "stars"}.isdisjoint(sentence)


_COUNTS: Final = frozenset(("", "(", ")", "number", "stitch_noun", "remain", "left", "have"))
"""Kinds of words that tell a count."""
MOST_TO_PLAIN: Final = 12
"""Words behind the sentence that are looked at for plain rounds."""
_BEGINS: Final = STOP | SEMI | LINE
_APART: Final = _BEGINS | COLON
_BEFORE: Final = frozenset(("", "have", "then", "next", "and", "work", "decrease"))
"""Kinds of words before `the same`."""
_ROUNDS_BEFORE: Final = frozenset(("", "these", "last", "number", "round"))
"""Kinds of words of `these two rounds`."""
_SAME: Final = frozenset(
    (
        "same",
        "again",
        "repeat",
        "once",
        "more",
        "time",
        "with",
        "as before",
        "but",
        "trick",
        "thing",
        "in the same way",
        "same way",
        "the same way",
    )
)
_BEHIND: Final = frozenset(("between", "before", "and"))
"""What stands behind a number of plain stitches, or behind its noun."""
MOST_TO_NUMBER: Final = 12
"""Words from the beginning of a sentence to the number of its plain stitches."""
_TOLD_ALONE: Final = frozenset(("take", "lose", "narrow", "it's", "it"))
"""Words of rounds whose plain rounds are told by themselves: `Take out nine more`."""
_COMING: Final = frozenset(("it's", "is"))
"""Words before `seven and one`, where that is how a round goes."""
_JOINTS: Final = frozenset(("", "manner", "stitch_noun", "then", "and", "more", "only", "last"))
"""Kinds of words between the numbers."""
_COUNTING: Final = frozenset(("round", "times", "more", "marker", "needle", "section", "fewer", "unit"))
"""What else than plain stitches a number may count there."""
_OF_PLAIN: Final = frozenset(("before", "between"))
"""What stands behind numbers of plain stitches."""
_FAR: Final = frozenset(("until", "times", "often", "fewer"))
MOST_PLAIN: Final = 12
"""Plain stitches that are told by no more than their number."""
MOST_WORDS: Final = 48
"""Words of such a sentence."""
