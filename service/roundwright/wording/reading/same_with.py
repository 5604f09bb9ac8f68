"""Rounds worked again with other numbers of plain stitches: `Do the same with 5 and then with 4 knits before k2tog`.

Every number becomes a sentence of its own: `Repeat the decrease round with k5. Knit 1 round.`.
"""

from typing import Final, NamedTuple

from msgspec.structs import replace

from roundwright.knitting.rounds.round import uses_and_leaves
from roundwright.wording.reading.tokens import (
    COLON,
    COMMA,
    COUNT_WORDS,
    EQUALS,
    FULL,
    LINE,
    SEMI,
    SPACE,
    STOP,
    Token,
    words_at,
)
from roundwright.wording.reading.tree import ONE, Number


class _Plain(NamedTuple):
    """How many plain rounds are told, and whether they are worked behind the last decrease round as well."""

    number: Number
    behind_last: bool
    first: bool = False  # they stand before the first as well
    turns: int = 0  # as many decrease rounds are told


_EVERY: Final = _Plain(Number((0,)), behind_last=False)
"""No plain rounds."""


def with_same_rounds(tokens: list[Token]) -> list[Token]:
    """The words, with such rounds told one by one. Takes time in their number."""
    tokens, made = [*tokens], list[Token]()
    place = followed = 0
    while place < len(tokens):
        begins = tokens[place].flags & (_BEGINS | FULL) or not place
        rounds, stop = _same_with_counts(tokens, place, made, followed) if begins else ([], place)
        if not begins and (announced := _announced(tokens, place, made)):
            rounds, stop = _behind_announced(tokens, place)
            del made[announced if rounds else len(made) :]
        if rounds and _do_plain_rounds_follow(tokens[stop : stop + MOST_TO_PLAIN]):
            followed = len(made) + len(rounds)
        if rounds and tokens[stop].kind != "(" and not tokens[stop].flags & (COLON | EQUALS):
            tokens[stop] = replace(tokens[stop], flags=tokens[stop].flags | STOP)
        made.extend(rounds or tokens[place : place + 1])
        place = max(stop, place + 1)
    return made


def _announced(tokens: list[Token], place: int, made: list[Token]) -> int:
    """Where in the words before a sentence begins that only says `decrease every round:`; 0 where none does."""
    if not tokens[place].flags & (COLON | COMMA):
        return 0
    near = range(len(made) - 1, max(len(made) - MOST_TO_PLAIN, 0), -1)
    begin = next((at for at in near if made[at].flags & (_BEGINS | FULL)), len(made))
    kinds = {token.kind for token in made[begin:]}
    every = "everyround" in kinds or ("round" in kinds and not kinds.isdisjoint(_EVERY_ROUND))
    return begin if every and _ANNOUNCING.issuperset(kinds) else 0


def _behind_announced(tokens: list[Token], place: int) -> tuple[list[Token], int]:
    """The rounds told behind such words, `: once with 3 sts, once with 2 sts between the decreases`, and their end."""
    every = words_at(tokens[place].start, ("each", "every"), ("round", "round"), ("", "with"))
    near = tokens[place + 1 : place + 2 * MOST_WORDS]
    rounds, stop = _same_with_counts(
        [*every, replace(tokens[place], flags=SPACE), *near, tokens[-1]], 0, [], 0
    )
    stop = place + max(stop - len(every), 0)
    plain = not _OF_PLAIN.isdisjoint(token.kind for token in tokens[place:stop])
    return (rounds, stop) if plain else ([], place)


def _same_with_counts(
    tokens: list[Token], place: int, made: list[Token], followed: int
) -> tuple[list[Token], int]:
    """The same where the count stands behind each number: `the same with 5 stitches (48 sts), then 4 (40 sts)`."""
    stop = _stop_of_sentence(tokens, place)
    counts, words, open_at = dict[int, list[Token]](), list[Token](), 0
    for at in range(place, stop if stop <= place + 2 * MOST_WORDS else place):
        if tokens[at].kind == "(":
            open_at = at
        if not open_at:
            words.append(tokens[at])
        elif tokens[at].kind == ")" or not _COUNTS.issuperset((tokens[at].kind,)):
            number = next((word.start for word in reversed(words) if word.kind == "number"), -1)
            counts[number] = tokens[open_at : at + 1]
            open_at = 0
    if len(counts) < FEWEST_COUNTS:
        return _same_with(tokens, place, made, followed)
    rounds, end = _same_with([*words, *tokens[stop : stop + MOST_TO_PLAIN]], 0, made, followed)
    if not rounds or end != len(words):
        return [], place
    printed: list[Token] = []
    for token in rounds:
        printed.extend((token, *(counts.get(token.start, ()) if token.kind == "number" else ())))
    return printed, stop


def _same_with(tokens: list[Token], place: int, made: list[Token], followed: int) -> tuple[list[Token], int]:
    """The rounds of a sentence that tells to work the same with other numbers, and the place behind it; else none.

    `made`: the words before it; `followed`: where in them the last such sentence ends that plain rounds follow.
    """
    stop = _stop_of_sentence(tokens, place)
    at, plain = _behind_same(tokens, place, stop) if stop <= place + MOST_WORDS else (0, None)
    if not at:
        return [], place
    ends = (word for word in range(at, stop) if tokens[word].kind == "(" or tokens[word].flags & EQUALS)
    close = next(ends, stop)
    items, behind = _items(tokens, at, close)
    # work 4 rounds with 5, 4, 3 and 2 sts before k2tog; 1 round with 5, 1 with 4
    if plain is not None and plain.turns:
        singles = sum(token.text == "with" for token in tokens[at - 1 : behind])
        known = len(items) == plain.turns or (plain.turns == 1 and singles > 1)
        plain, items = _EVERY, items if known else []
    then = next((word for word in range(behind - 1, close) if tokens[word].kind == "then"), close)
    end = close if _plain_rounds(tokens[behind:close]) else max(behind, then)  # then: a sentence of its own
    clause = _plain_rounds(tokens[behind:end])
    # A number with no noun may count anything: it is of plain stitches where nothing else is told and it is small.
    alone = behind == end and all(_plain(item) <= MOST_PLAIN for item in items)
    kinds = {token.kind for token in tokens[at:behind]}
    sure = not kinds.isdisjoint(_OF_PLAIN)
    if tokens[at - 1].text == "with":  # else no more than `on the next 4 rounds 5, 4, 3` is told
        sure |= alone or "knit" in kinds
    more = not clause and not _WORK.isdisjoint(token.kind for token in tokens[behind:end])
    if not items or not sure or more:
        return [], place
    plain, earlier = plain or clause, _plain_before(made, followed)
    # `Decrease as before, with 8 sts between` is the decrease round alone, `the same` its plain rounds as well.
    if plain is None and earlier and not any(token.kind == "decrease" for token in tokens[place:at]):
        plain = earlier._replace(
            behind_last=earlier.behind_last and not _do_plain_rounds_follow(tokens[end : end + MOST_TO_PLAIN])
        )
    even = plain_rounds(tokens[end - 1].end, plain.number) if plain and plain.number.of(0) else []
    several = len(items) > 1 and not (plain is not None and plain.first)
    rounds = [] if plain is None or plain.behind_last or earlier or several else [*even]
    for item in items:
        rounds.extend(round_with(item))
        rounds.extend(even if plain and (plain.behind_last or item is not items[-1]) else ())
    rounds[0] = replace(rounds[0], flags=tokens[place].flags | STOP)
    return rounds, end


def _stop_of_sentence(tokens: list[Token], place: int) -> int:
    """Where the sentence ends that begins at a place, or a place so far behind that it is too long."""
    limit = min(len(tokens), place + 2 * MOST_WORDS + 2)
    return next((at for at in range(place + 1, limit) if tokens[at].flags & _APART), limit)


def _behind_same(tokens: list[Token], place: int, stop: int) -> tuple[int, _Plain | None]:
    """The place behind `the same with` or `repeat these 2 rounds with`, with their plain rounds; 0 where it is not."""
    at, plain = place, None
    if tokens[place].kind == "knit" and stop > place + 2 and tokens[place + 2].text in _SAME:
        at += 1  # knit the same with
    while at < stop and (tokens[at].kind in _BEFORE or tokens[at].text in ("now", "hereafter")):
        at += 1
    if at < stop and tokens[at].kind == "only" and tokens[at + 1].kind in ("number", "knit"):
        return at + 1, _EVERY  # only 5 knits now before the decrease
    same = at
    if at < stop and tokens[at].kind in _EVERY_ROUND:
        at, plain = _behind_rhythm(tokens, at, stop)
    at, rounds = _behind_rounds(tokens, at, stop)
    plain = rounds or plain
    several = plain is not None and plain.turns > 1 and tokens[at - 1].kind == "round"
    if several and tokens[at].kind in ("knit", "work"):
        return at + 1, plain  # on the next 4 rounds knit 5, 4, 3 and 2 sts before k2tog
    return (at if at > same and (several or tokens[at - 1].text == "with") else 0), plain


def _behind_rounds(tokens: list[Token], at: int, stop: int) -> tuple[int, _Plain | None]:
    """The place behind `the same`, `these two rounds` or `4 rounds`, and their plain rounds where a number is told."""
    plain, pointed = None, False
    while at < stop and (tokens[at].text in _SAME or tokens[at].kind in _ROUNDS_BEFORE):
        number = tokens[at].number
        behind = [token.kind for token in tokens[at + 1 : at + 3] if token.kind != "more"]
        if number is not None and behind[:1] != ["round"]:
            break
        pointed = pointed or tokens[at].kind in ("these", "last") or tokens[at].text in _SAME
        if number is not None:
            turns = number.of(0) or 1
            plain = (
                _Plain(Number((turns - 1,)), behind_last=True) if pointed else _EVERY._replace(turns=turns)
            )
        at += 1
    return at, plain


def _behind_rhythm(tokens: list[Token], at: int, stop: int) -> tuple[int, _Plain | None]:
    """The place behind `every round` or `every 3rd round`, and the plain rounds it tells."""
    step, at = 1, at + 1
    if at < stop and (tokens[at].kind == "alternate" or tokens[at].kind == "ordinal"):
        number = tokens[at].number
        step, at = (number.of(0) or 0) if number is not None else 2, at + 1
    if at >= stop or not step or tokens[at].kind not in ("round", "times"):
        return at, None
    return at + 1, _Plain(Number((step - 1,)), behind_last=False, first=True)


def round_with(item: Token) -> list[Token]:
    """`Repeat the decrease round with k5`; of a decrease, `k2tog around`."""
    if item.number is None:
        return [replace(item, flags=item.flags | STOP), *words_at(item.end, ("around", "around"))]
    words = words_at(item.start, ("", "with"), ("knit", "k"))
    return [*decrease_round_again(item.start), *words, replace(item, flags=0)]


def decrease_round_again(start: int) -> list[Token]:
    """`Repeat the decrease round`."""
    first, *others = words_at(start, ("repeat", "repeat"), ("decrease", "dec"), ("round", "round"))
    return [replace(first, flags=STOP | SPACE), *others]


def plain_rounds(start: int, number: Number) -> list[Token]:
    """`Knit 2 rounds`."""
    knit, count, rounds = words_at(start, ("knit", "knit"), ("number", "1"), ("round", "rounds"))
    return [replace(knit, flags=STOP | SPACE), replace(count, number=number), rounds]


def _items(tokens: list[Token], at: int, stop: int) -> tuple[list[Token], int]:
    """The number of each of the plain stitches told there, a decrease for no more than decreases; the place behind."""
    items: list[Token] = []
    last = at
    while at < stop:
        gap = {token.text if token.text == "with" else token.kind for token in tokens[last:at]}
        instead, pair = tokens[at - 1].kind == "instead", _behind_pair(tokens, at, stop)
        if pair and not instead:
            if not _OF_PLAIN.isdisjoint(gap):
                break
            if "only" in (tokens[at - 1].kind, tokens[pair].kind) or ("with" in gap and pair == stop):
                items.append(replace(tokens[at], kind="stitch", text="k2tog", means="k2tog", number=None))
            elif not items or not _BEFORE_MORE.isdisjoint(gap):
                return [], at
        step, number = (pair - at, 0) if pair else _step(tokens, at, stop)
        if not step:
            break
        if number and not instead:
            items.append(tokens[at + number - 1])
            last = at + step
        at += step
    falls = [_plain(item) for item in items]
    known = all(_plain(item) or item.number is None for item in items)
    return (items if known and any(falls) and sorted(set(falls), reverse=True) == falls else []), at


def _step(tokens: list[Token], at: int, stop: int) -> tuple[int, int]:
    """How many words are of plain stitches there, none where no more are, and which of them is their number, from 1."""
    kinds = [token.kind for token in tokens[at : min(at + 3, stop)]]
    if single := _single_with(tokens, at, stop):
        return single, 0
    match kinds:
        case ["knit", "number", "round"] | ["number", "knit" | "plain", "round"]:
            return 0, 0
        case ["knit", "number", *_]:
            return 2, 2
        case ["number", "knit" | "plain" | "stitch_noun", *_]:
            return 2, 1
        case ["number", *other]:
            return (0, 0) if other and other[0] in _COUNTED else (1, 1)
        case ["before" | "between" as word, *_]:
            noun = next((noun for noun in range(at + 1, stop) if tokens[noun].kind not in _TO_DECREASE), at)
            alone = noun == at or any(other.flags & COMMA for other in tokens[at + 1 : noun + 1])
            if not alone and tokens[noun].kind in ("stitch", "decrease", "together"):
                return noun + 1 - at, 0
            return int(word == "between" and (alone or tokens[noun].kind in _JOINTS)), 0
        case _:
            return int(kinds[0] in _JOINTS or tokens[at].text in ("now", "first")), 0


def _single_with(tokens: list[Token], at: int, stop: int) -> int:
    """The words of `once with`, `one round with`, `a round with`, `one with` before such a number; 0 for others."""
    behind = at + (tokens[at].text == "once" or _plain(tokens[at]) == 1)
    behind += behind < stop and tokens[behind].kind == "round"
    return behind + 1 - at if at < behind < stop and tokens[behind].text == "with" else 0


def _behind_pair(tokens: list[Token], at: int, stop: int) -> int:
    """The place behind a decrease of two stitches to a single stitch, `k2tog`, `knit 2 together`; 0 where none is."""
    at += tokens[at].kind == "number" and _plain(tokens[at]) == 1  # and one k2tog
    if at < stop and uses_and_leaves().get(tokens[at].means) == (2, 1):
        return at + 1
    kinds = [token.kind for token in tokens[at : min(at + 3, stop)]]
    return at + 3 if kinds == ["knit", "number", "together"] and _plain(tokens[at + 1]) == 2 else 0


def _plain(token: Token) -> int:
    """How many stitches a number says to be plain; none where it tells sizes."""
    number = token.number
    return (number.of(0) or 0) if number is not None and len(number.values) == 1 else 0


def _plain_rounds(words: list[Token]) -> _Plain | None:
    """How many plain rounds are told with it, and whether behind the last as well; None where more or less is told."""
    at = next((place for place, token in enumerate(words) if token.kind == "round"), 0)
    where = next((token.kind for token in words[at:] if token.kind in ("after", "between")), "")
    if not at or not where or any(_OF_ROUNDS.isdisjoint((word.kind, word.text)) for word in words):
        return None
    number = next((token.number for token in words[max(0, at - 3) : at] if token.number is not None), ONE)
    return _Plain(number, behind_last=where == "after")


def _plain_before(tokens: list[Token], followed: int) -> _Plain | None:
    """How many plain rounds the sentence before tells, `Knit 1 round.`, and whether the last round has them as well."""
    near = range(max(len(tokens) - 5, 0), len(tokens))
    begins = [at for at in near if tokens[at].flags & _APART or tokens[at - 1].kind == ")"]
    begin = max(begins, default=len(tokens))
    words = [token for token in tokens[begin:] if token.kind]
    last = any(tokens[at].kind not in _COUNTS for at in range(followed, begin))
    kinds = " ".join(token.kind for token in words)
    knit = kinds.startswith("knit number round") or kinds in ("knit round", "knit plain round")
    return _Plain(words[1].number or ONE, last) if knit else None


def _do_plain_rounds_follow(words: list[Token]) -> bool:
    """Whether plain rounds stand behind the sentence, or behind its count: `(64). Knit 1 round.`; or a named round."""
    sentence: list[str] = []
    for token in words:
        if token.flags & _APART and not _COUNTS.issuperset(sentence):
            break
        sentence = [*([] if token.flags & _APART else sentence), token.kind]
        if token.flags & LINE and token.kind in _NAMES_ROUND:
            return True
        if token.kind == "round":
            break
    plain = "round" in sentence and not _WORKS_PLAIN.isdisjoint(sentence)
    return plain and {"stitch", "together", "ordinal", "stars"}.isdisjoint(sentence)


_NAMES_ROUND: Final = frozenset(("round", "next", "last"))
_WORKS_PLAIN: Final = frozenset(("knit", "plain", "purl", "even", "work"))
_COUNTS: Final = COUNT_WORDS | {"(", ")"}
"""Kinds of words that tell a count, which a bracket may hold."""
MOST_TO_PLAIN: Final = 12
"""Words behind the sentence that are looked at for plain rounds."""
_BEGINS: Final = STOP | SEMI | LINE
_APART: Final = _BEGINS | COLON
_BEFORE: Final = frozenset(
    ("", "have", "then", "next", "and", "work", "decrease", "repeat", "manner", "continue", "in", "on")
)
"""Kinds of words before `the same`."""
_EVERY_ROUND: Final = frozenset(("each", "per"))
_ANNOUNCING: Final = _BEFORE | _EVERY_ROUND | frozenset(("everyround", "round", "from", "word"))
"""Kinds of words that say no more than that every round decreases."""
FEWEST_COUNTS: Final = 2
"""Counts in brackets that stand behind numbers of one sentence."""
_ROUNDS_BEFORE: Final = frozenset(("", "these", "last", "number", "round"))
"""Kinds of words of `these two rounds`."""
_SAME: Final = frozenset(
    ("same", "again", "repeat", "once", "more", "time", "with", "as before", "but", "trick", "thing", "in the same way",
     "same way", "the same way")
)  # fmt: skip
_JOINTS: Final = frozenset(("", "stitch_noun", "then", "and", "more", "only", "last", "in", "instead"))
"""Kinds of words between the numbers."""
_COUNTED: Final = frozenset(
    ("round", "times", "stitch", "more", "marker", "needle", "section", "fewer", "unit")
)
"""What else than plain stitches a number may count there."""
_OF_PLAIN: Final = frozenset(("before", "between"))
"""What stands behind numbers of plain stitches."""
_BEFORE_MORE: Final = frozenset(("with", "then", "stitch", "together"))
"""Words and kinds of words behind which a decrease does not belong to the number before it."""
_TO_DECREASE: Final = frozenset(("", "each", "next", "knit", "number"))
_OF_ROUNDS: Final = frozenset(
    ("", "and", "then", "work", "knit", "plain", "even", "number", "round", "in", "after", "between", "each", "times",
     "decrease", "always", "knitting")
)  # fmt: skip
"""Kinds of words, and words, of `and a knit round after each`."""
_WORK: Final = _OF_PLAIN | frozenset(
    ("round", "everyround", "knit", "plain", "stitch", "together", "after", "until", "times", "often", "fewer")
)  # fmt: skip
"""Kinds of words that work more or deny it."""
MOST_PLAIN: Final = 12
"""Plain stitches that are told by no more than their number."""
MOST_WORDS: Final = 48
"""Words of such a sentence."""
