"""What is worked on both sides of every marker, told side by side.

`k2tog before and skp after each of the 7 markers` is `k2tog before each marker and skp after each marker`, and so is
`dec 1 st each side of each marker` with the decrease named twice.
"""

from itertools import zip_longest
from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.tokens import (
    COLON,
    COMMA,
    EQUALS,
    LINE,
    SEMI,
    SPACE,
    STOP,
    Token,
    takes_in,
    words_at,
)
from roundwright.wording.reading.tree import ONE


def with_marker_sides(tokens: list[Token]) -> list[Token]:
    """The words with each side of every marker told for itself. Takes time in their number."""
    made: list[Token] = []
    tokens = _with_work_first(_with_method_alone(_with_slips_joined(tokens)))
    for token, following in zip_longest(tokens, tokens[1:]):
        made.append(token)
        if token.text == "one" and len(made) > 1 and made[-2].text in _PUTTING:
            _put_it(made)
        elif token.kind == "marker":
            _whenever(made)
            number = _each_for_them(made)
            _each_for_one(made, following)
            if len(made) > FEWEST and made[-2].kind in _ALL:
                _tell_sides(made)
            if number is not None and (following is None or following.kind != "and"):
                made.extend((number, token))
        elif token.text in _SAME and len(made) > FEWEST:
            _name_again(made)
        elif token.kind == "next" and len(made) > 1 and following is not None and following.flags & _ENDS:
            _name_next(made)
    return made


def _with_slips_joined(tokens: list[Token]) -> list[Token]:
    """The words with a decrease at markers that is told in its parts as a single one: `sl 1, k2tog, psso`."""
    made: list[Token] = []
    for place, token in enumerate(tokens):
        made.append(token)
        if token.kind != "passover":
            continue
        parts = tokens[max(0, place - MOST_PARTS) : place]
        length = next((back for back, part in enumerate(reversed(parts), 1) if part.kind == "slip"), 0)
        parts = parts[len(parts) - length :]
        numbers = tuple(part.number.of(0) for part in parts if part.number)
        together = any(part.means == "k2tog" or part.kind == "together" for part in parts)
        means = _PASSED.get((numbers, together), "") if length else ""
        known = all(part.kind in _IN_SLIPS or part.means == "k2tog" for part in parts)
        if means and known and _is_at_markers(tokens, place - length, place + 1):
            made[-length - 1 :] = [replace(parts[0], kind="stitch", text=means, means=means, end=token.end)]
    return made


def _with_method_alone(tokens: list[Token]) -> list[Token]:
    """The words with a decrease at markers told once: `k2tog after each marker` for `dec 1 st at each: k2tog after it`.

    So it is with the place first, `at each marker dec 1 st by k2tog`, and with no other place.
    """
    made, done = tokens[:0], 0
    for place, token in enumerate(tokens):
        if token.kind != "decrease" or place < done or place + COUNTED > len(tokens):
            continue
        counted = place + COUNTED if _is_dec_of(1, tokens, place + COUNTED) else place + 1
        begin = _begin_of_place(tokens, place - 1) if place and tokens[place - 1].kind == "marker" else 0
        if not tokens[begin].flags & _ENDS:
            begin = 0  # knit to 2 sts before marker, dec with skp
        stop = counted if begin else _stop_of_marker(tokens, counted)
        where = tokens[begin:place] if begin else tokens[counted:stop]
        work = stop
        while tokens[work].kind in _BEFORE_METHOD and not tokens[work].flags & (STOP | LINE | SEMI):
            work += 1
        behind = work + 1 if takes_in(tokens[work]) else _stop_of_unit(tokens, work)
        if not where or work - stop > MOST_TO_METHOD or not behind or tokens[work].flags & (STOP | LINE):
            continue
        bracket = tokens[work - 1].kind == "("
        last = _stop_of_marker(tokens, behind) if tokens[behind].kind in _BOTH else behind
        where = tokens[behind:last] or where
        sides = tokens[last].kind in ("and", *_BOTH)  # k2tog before and ssk after the marker
        if sides or bracket != (tokens[last].kind == ")") or not _ends_clause(tokens, last + bracket):
            continue
        first = replace(tokens[work], flags=tokens[begin or place].flags)
        side, marker = replace(where[0], flags=SPACE), replace(where[-1], flags=SPACE)
        made.extend((*tokens[done : begin or place], first, *tokens[work + 1 : behind], side))
        made.extend((*words_at(side.end, ("each", "each")), marker))
        done = last + bracket
    return [*made, *tokens[done:]]


def _stop_of_marker(tokens: list[Token], begin: int) -> int:
    """Where the words end that say where: `at each marker`, `after the marker`; where they begin if none do."""
    at = begin + 1
    while tokens[at - 1].kind != "end" and (tokens[at].kind in _ALL or tokens[at].text in _THESE):
        at += 1
    placed = tokens[begin].kind in _BOTH or tokens[begin].text in _AT
    return at + 1 if placed and tokens[at - 1].kind != "end" and tokens[at].kind == "marker" else begin


def _is_at_markers(tokens: list[Token], begin: int, stop: int) -> bool:
    """Whether it is told just before these words, or just behind them, that markers are where they are worked."""
    behind = range(stop + 1, min(stop + MOST_BESIDE, len(tokens)))
    if any(tokens[at].kind == "marker" and _begin_of_place(tokens, at) == stop for at in behind):
        return True
    begin -= 1
    while begin > 0 and (tokens[begin].kind == "work" or tokens[begin].text in ("a", "an")):
        begin -= 1
    place = _begin_of_place(tokens, begin) if begin > 0 and tokens[begin].kind == "marker" else 0
    return place > 0 and bool(tokens[place].flags & _ENDS)


def _name_next(made: list[Token]) -> None:
    """Name the marker that is the next: `after each marker: ssk, k to 2 sts before the next, k2tog`."""
    before = made[-2] if made[-2].text != "the" or len(made) < FEWEST else made[-3]
    if before.kind == "before" and any(token.kind == "marker" for token in made[-MOST_TO_MARKERS:]):
        made.extend(words_at(made[-1].end, ("marker", "marker")))


def _with_work_first(tokens: list[Token]) -> list[Token]:
    """The words with a decrease before its place: `k2tog before each marker` for `before each marker: k2tog`."""
    made, done = tokens[:0], 0
    for place, token in enumerate(tokens):
        begin = _begin_of_place(tokens, place) if token.kind == "marker" else 0
        flags = tokens[begin].flags
        before = [word.kind for word in tokens[max(0, begin - 2) : begin]]
        named = before[-1:] == ["round"] or before == ["round", "number"]  # next rnd before each marker k2tog
        clause = flags & _ENDS or named or before[-1:] in (["and"], ["work"])
        if not begin or begin < done or not clause:
            continue
        work = place + 1 + (tokens[place + 1].kind == "work")
        work += tokens[work].text in ("a", "an")
        if (stop := _stop_of_unit(tokens, work)) and _ends_clause(tokens, stop):
            apart = begin != done or flags & LINE  # before each marker k2tog. After each marker ssk
            first = replace(tokens[work], flags=flags if apart else SPACE | SEMI)
            where = replace(tokens[begin], flags=SPACE), *tokens[begin + 1 : place + 1]
            if (
                tokens[begin].text in _AT
                and _stop_of_marker(tokens, stop) > stop
                and tokens[stop].kind in _BOTH
            ):
                where = ()  # at each marker: k2tog before the marker and ssk after the marker
            made.extend((*tokens[done:begin], first, *tokens[work + 1 : stop], *where))
            done = stop
    return [*made, *tokens[done:]]


def _begin_of_place(tokens: list[Token], stop: int) -> int:
    """Where the words begin that say where: `before each of the 4 markers`, `on either side of every`, or 0."""
    for at in range(stop - 1, max(0, stop - MOST_BESIDE), -1):
        word = tokens[at]
        if word.kind in _BOTH or word.kind == "per" or word.text in _AT:
            single = tokens[stop - 1].text == "the" and not tokens[stop].text.endswith("s")
            both = tokens[at - 1].kind == "and" and tokens[at - 2].kind in _BOTH
            return 0 if single else at - 2 * both
        if word.kind not in (*_ALL, "number", "") and word.text not in _SIDES | _EACH_SIDE:
            break
    return 0


def _stop_of_unit(tokens: list[Token], begin: int) -> int:
    """The end of the decrease that begins at a place: `k2tog`, `k1, ssk`, `dec 1 st`; 0 where none does."""
    kinds = [word.kind for word in tokens[begin : begin + COUNTED]]
    counted = len(kinds) == COUNTED and any(_is_dec_of(count, tokens, begin + COUNTED) for count in (1, 2))
    if counted or (kinds[:2] in _PLAIN and kinds[2:] == ["together"]):
        return begin + COUNTED
    stop = begin + (COUNTED if kinds[:2] in _PLAIN else 1)
    if tokens[begin].flags & (STOP | LINE) or not takes_in(tokens[stop - 1]):
        return 0
    return stop + 2 * (kinds[1:] in _PLAIN and not tokens[stop].flags & (STOP | LINE | SEMI))


def _ends_clause(tokens: list[Token], place: int) -> bool:
    """Whether no more is worked there: the sentence ends, the rest is knitted, or the other side is told."""
    behind = tokens[place : place + MOST_BESIDE]
    kinds = [*(word.kind for word in behind if word.text != "the"), "", ""]
    rest = kinds[0] == "knit" and (kinds[1] in ("remain", "alternate") or kinds[1:3] == ["to", "end"])
    other = kinds[kinds[0] == "and"] in _BOTH
    other |= kinds[0] == "then" and takes_in(tokens[place + 1])  # before each marker k2tog, then skp
    return rest or other or kinds[0] in ("end", "(", "until") or bool(behind[0].flags & _ENDS_CLAUSE)


def _put_it(made: list[Token]) -> None:
    """Put `place a marker` for `put one`, where markers are named shortly before: `5 markers. Put one after`."""
    if any(token.kind == "marker" for token in made[-MOST_TO_MARKERS:-2]):
        verb, pronoun = made[-2:]
        made[-2:] = [replace(verb, kind="place", text="place a marker", end=pronoun.end)]


def _whenever(made: list[Token]) -> None:
    """Put `knit to 2 sts before each marker` for `whenever you come to the last 2 sts before a marker`."""
    near = range(len(made) - 1, max(len(made) - MOST_TO_MARKERS, -1), -1)
    begin = next((at for at in near if _is_whenever(made, at)), None)
    at = next((at for at in near if made[at].kind == "number"), None)
    if begin is None or at is None or not all(token.text in _COMING for token in made[begin:at]):
        return
    if [token.kind for token in made[at + 1 : at + 3]] != ["stitch_noun", "before"]:
        return
    if all(token.kind in ("", "next") for token in made[at + 3 : -1]):
        made[at + 3 : -1] = words_at(made[-1].start, ("each", "each"))
        made[begin:at] = [
            replace(made[begin], kind="knit", text="knit"),
            *words_at(made[at].start, ("to", "to")),
        ]


def _is_whenever(made: list[Token], at: int) -> bool:
    """Whether `whenever` or `every time` stands there."""
    every = made[at].kind == "each" and at + 1 < len(made) and made[at + 1].text == "time"
    return every or made[at].text == "whenever"


def _each_for_them(made: list[Token]) -> Token | None:
    """Put `each marker` for `each of the 7 markers`, and for those on each side of them; the number taken out.

    So it is put for those of `k2tog before the markers`, `after all the 4 markers`.
    """
    at = len(made) - 2
    number = made[at] if at > 0 and made[at].kind == "number" else None
    at -= number is not None
    at -= at > 0 and made[at].text in _THESE
    if at > 0 and made[at].text == "of" and made[at - 1].kind == "each":
        del made[at:-1]
        return number
    at -= at > 0 and made[at].kind == "all"
    if at <= 0 or not made[-1].text.endswith("s"):
        return None
    sides = at < len(made) - 2 and made[at].text == "of" and made[at - 1].text in _SIDES
    if not sides and not _is_worked_beside(made, at):
        return None
    made[at + 1 : -1] = words_at(made[at].end, ("each", "each"))
    return number


def _is_worked_beside(made: list[Token], at: int) -> bool:
    """Whether a decrease is told before markers, after or at them: `k2tog before the markers`."""
    if made[at].kind not in _BOTH and made[at].text not in _AT:
        return False
    begin = _unit(made, at)
    return begin is not None and (begin != at - 1 or takes_in(made[begin]))


def _each_for_one(made: list[Token], following: Token | None) -> None:
    """Put `each marker` for the one of `k2tog before the marker`, where its sentence tells nothing else."""
    at = len(made) - 2
    at -= at > 1 and made[at].text in _THESE
    one_side = at > 1 and made[at].kind in _BOTH and not made[-1].text.endswith("s")
    ends = following is None or following.kind in ("end", "(") or bool(following.flags & (STOP | LINE))
    first = at - 5 + (made[at - 4].text not in _THESE) if at > FEWEST else 0
    kinds = [made[place].kind for place in (first, at - 3, at - 2)] if first > 0 else []
    begins = takes_in(made[first - 1]) and made[first - 1].flags & (STOP | LINE | COLON)
    if one_side and begins and kinds in (["before", "marker", "and"], ["after", "marker", "and"]):
        # k2tog before the marker and ssk after the marker
        made[at + 1 : -1] = words_at(made[at].end, ("each", "each"))
        made[first + 1 : at - 3] = words_at(made[first].end, ("each", "each"))
    elif one_side and ends and takes_in(made[at - 1]) and made[at - 1].flags & (STOP | LINE | COLON):
        made[at + 1 : -1] = words_at(made[at].end, ("each", "each"))


def _tell_sides(made: list[Token]) -> None:
    """Tell the two sides of each marker one after the other, where the words before it are of both."""
    sided = made[-3].text == "of" and made[-4].text in _SIDES
    at = len(made) - 4 if sided else len(made) - 3
    while sided and made[at - 1].text in _EACH_SIDE and at > 1:
        at -= 1
    joined = not sided and made[at - 1].kind == "and"
    first, second = ("before", "after") if sided else (made[at - 2].kind, made[at].kind)
    if not sided and not joined:
        _tell_before(made, at) if made[at].text in _AT else _tell_first(made, at)
        return
    begin = _unit(made, at if sided else at - 2)
    if begin is None or {first, second} != _BOTH:
        return
    unit = made[begin : at if sided else at - 2]
    del made[begin + len(unit) :]
    made.extend((*_at_marker(first, unit[-1]), *words_at(unit[-1].end, ("and", "and"))))
    made.extend((*(replace(token, flags=SPACE) for token in unit), *_at_marker(second, unit[-1])))


def _tell_before(made: list[Token], at: int) -> None:
    """Tell a decrease at each marker as before it, where no marker is gone on to; one of 2 stitches on both sides."""
    if at > COUNTED and _is_dec_of(2, made, at):
        count = made[at - 2]
        made[at - 2] = replace(count, number=ONE)
        unit = [replace(token, flags=SPACE) for token in made[at - COUNTED : at]]
        del made[at:]
        near = unit[-1]
        made.extend(
            (
                *_at_marker("before", near),
                *words_at(near.end, ("and", "and")),
                *unit,
                *_at_marker("after", near),
            )
        )
        return
    begin = _unit(made, at)
    if begin is None or (made[at - 1].kind == "stitch" and not takes_in(made[at - 1])):
        return
    least = max(0, at - MOST_BEFORE)
    begun = next((place for place in range(at - 1, least, -1) if made[place].flags & (LINE | STOP)), least)
    if not any(token.kind == "marker" for token in made[begun:at]):
        made[at] = replace(made[at], kind="before", text="before")


def _tell_first(made: list[Token], at: int) -> None:
    """Name the marker behind the first of two decreases too: `k2tog before and skp after each marker`."""
    begin = _unit(made, at)
    if begin is None or begin < FEWEST or made[begin - 1].kind != "and":
        return
    first = made[begin - 2]
    if {first.kind, made[at].kind} == _BOTH and _unit(made, begin - 2) is not None:
        made[begin - 2 : begin - 1] = _at_marker(first.kind, first)


def _name_again(made: list[Token]) -> None:
    """Name the marker in place of a word for it: `k2tog before each marker and skp after it`."""
    at = len(made) - 2
    at -= made[at].kind == "each"
    begin = _unit(made, at)
    if begin is None or begin <= FEWEST or made[begin - 1].kind != "and" or made[begin - 2].kind != "marker":
        return
    if {made[begin - 4].kind, made[at].kind} == _BOTH:
        made[at:] = _at_marker(made[at].kind, made[at])


def _unit(made: list[Token], stop: int) -> int | None:
    """Where the decrease of one stitch begins that ends before a place: `k2tog`, `dec 1 st`; None where none does."""
    last = made[stop - 1]
    if last.kind == "stitch":
        return stop - 1
    return stop - COUNTED if stop >= COUNTED and _is_dec_of(1, made, stop) else None


def _is_dec_of(number: int, made: list[Token], stop: int) -> bool:
    """Whether a decrease of so many stitches ends before a place: `dec 2 sts`."""
    verb, count, noun = made[stop - COUNTED : stop]
    counted = count.number is not None and count.number.values == (number,)
    return verb.kind == "decrease" and counted and noun.kind == "stitch_noun"


def _at_marker(kind: str, near: Token) -> list[Token]:
    """The words `before each marker`, or after it, that stand where another word does."""
    return words_at(near.end, (kind, kind), ("each", "each"), ("marker", "marker"))


FEWEST: Final = 4
"""Words before the marker of which both sides are told, at least."""
MOST_BEFORE: Final = 40
"""Words of the sentence before a decrease that are looked through for another marker."""
COUNTED: Final = 3
"""Words of `dec 1 st`."""
MOST_TO_MARKERS: Final = 14
"""Words from `whenever` to its marker, and from some markers to `put one`."""
MOST_PARTS: Final = 7
"""Words of a decrease before `psso`."""
_PASSED: Final[dict[tuple[tuple[int | None, ...], bool], str]] = {
    ((1,), True): "sk2p",
    ((1, 2), True): "sk2p",
    ((1, 1), False): "skp",
    ((2, 1), False): "cdd",
    ((2, 1), True): "cdd",
}
"""What so many slipped stitches make that are passed over two together, or over a stitch."""
_IN_SLIPS: Final = frozenset(("slip", "number", "stitch_noun", "knit", "together", "and", "then"))
_BEFORE_METHOD: Final = ("", "word", "manner", "work", "(")
MOST_TO_METHOD: Final = 4
"""Words from `dec 1 st at each marker` to the decrease that is worked there."""
_ENDS: Final = STOP | LINE | COLON | COMMA | SEMI
MOST_BESIDE: Final = 6
"""Words from `before` to its markers, and of `knit to the end`."""
_PLAIN: Final = (["knit", "number"], ["purl", "number"])
_PUTTING: Final = frozenset(("put", "place", "hang", "set"))
_COMING: Final = frozenset(
    (
        "whenever",
        "every",
        "each",
        "time",
        "you",
        "we",
        "come",
        "get",
        "arrive",
        "at",
        "reach",
        "are",
        "to",
        "the",
        "last",
    )
)
"""Words from `whenever` to the number of stitches before a marker."""
_ENDS_CLAUSE: Final = STOP | LINE | SEMI | EQUALS
"""Signs behind what is worked at a marker: `before each marker k2tog = 84 sts`."""
_AT: Final = frozenset(("at", "on", "over"))
_ALL: Final = ("each", "all")
_BOTH: Final = {"before", "after"}
_THESE: Final = frozenset(("the", "these", "those", "your", "our"))
_SIDES: Final = frozenset(("side", "sides", "both sides"))
_EACH_SIDE: Final = frozenset(
    ("each", "either", "both", "every", "on", "at", "to", "on each", "on every", "on both")
)
_SAME: Final = frozenset(("it", "one", "them"))
