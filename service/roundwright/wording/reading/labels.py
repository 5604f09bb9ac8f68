"""How a line begins: which rounds it is for."""

from typing import Final

from roundwright.wording.reading.label import Label
from roundwright.wording.reading.label_signs import (
    WORKS,
    begins_sentence,
    dotted_pair,
    goes_on_sentence,
    has_ended,
    is_listed,
    is_next_of,
    opens_line,
    whole_rounds_follow,
    words_of_colour,
)
from roundwright.wording.reading.parsing.lines import Lines
from roundwright.wording.reading.sizes import columns_of, names_all, with_letters
from roundwright.wording.reading.spans import (
    EVERY_OTHER,
    Span,
    Standing,
    note_end,
    read_first_to_last,
    read_parity,
    read_spans,
    read_tail,
)
from roundwright.wording.reading.tokens import (
    COLON,
    COMMA,
    DASH,
    EQUALS,
    FULL,
    LINE,
    SEMI,
    SLASH,
    SPACE,
    STOP,
    TAB,
    Token,
)
from roundwright.wording.reading.tree import NAMED_KINDS, ONE, TOLD, Number, named

_SORTS: Final = frozenset(
    (
        "word",
        "decrease",
        "increase",
        "rib",
        "moss",
        "garter",
        "pattern",
        "stocking",
        "last",
        "ordinal",
        "side",
        "place",
        "plain",
        "knit",
        "purl",
        "even",
        "odd",
        "begin",
        "marker",
        "end",
        "yarn",
        "make",
        "slip",
        "fewer",
        "edge",
        "remain",
        "closing",
        "bind_off",
    )
)


def label(lines: Lines, *, strict: bool = False, after: Label | None = None) -> Label | None:
    """The label that begins here, which is taken; None where there is none.

    `after` is the one before it in the line. With `strict` only such as end in a colon or a dash: within a line
    other words may look like a label.
    """
    place = lines.place
    spoken = strict and place > 0 and lines.tokens[place - 1].text in _BEFORE_SPOKEN
    spoken = (spoken and not lines.tokens[place].flags & STOP) or bool(lines.others_told())
    label = None if spoken else _label(lines)
    if label is None:
        lines.place = place
        return None
    if (
        strict
        and not lines.flags(0) & (COLON | DASH | TAB | EQUALS)
        and label.kind not in ("next", "sizes")
        and not (label.kind == "sort" and lines.tokens[place].kind == "last")
        and not (label.kind == "numbered" and lines.flags(0) & (STOP | SEMI))
        and not (label.kind in ("numbered", "every") and begins_sentence(lines, place))
        and not (label.kind == "numbered" and goes_on_sentence(lines, place))
        and not is_next_of(label, after)
        and not (
            label.kind == "listed" and lines.tokens[place].flags & COLON and lines.tokens[place].text == "1"
        )
    ):
        lines.place = place
        return None
    return label


def _sizes_in_bracket(lines: Lines, start: int) -> Label | None:
    """`(L)`, `(M and L only)` or `(all sizes)` before the work of these sizes; None where a bracket has others."""
    tokens, begin = lines.tokens, lines.place + 1
    stop = next(
        (at for at in range(begin, min(begin + MOST_IN_NAMES, lines.stop)) if tokens[at].kind == ")"), begin
    )
    everybody = names_all(tokens, begin, stop)
    alone = stop == begin + 1 and tokens[begin].text in lines.names
    if not (alone or everybody or (stop > begin and tokens[stop - 1].kind == "only")):
        return None
    columns = columns_of(tokens, begin, stop, with_letters(lines.names)) if lines.names else None
    if columns is None:
        return None
    lines.place = stop + 1
    return Label(
        "sizes", start, sizes=None if everybody else tuple(str(column + 1) for column in columns), scope=True
    )


_BEFORE_SPOKEN: Final = frozenset(("on", "in", "from", "at", "of", "after", "before", "until"))
"""Words behind which a round is spoken of: `down to k2tog on round 13. (7)`."""


def _label(lines: Lines) -> Label | None:
    start = lines.token().start
    if lines.kind() == "stars" and lines.kind(1) in ("round", "ordinal"):
        lines.place += 1
        label = _plain(lines, start)
        if label and lines.kind() == "stars" and (lines.token().text == "**" or lines.flags(1) & COLON):
            lines.place += 1
        return label if label and label.kind == "numbered" else None
    if lines.kind() == "(" and (sizes := _sizes_in_bracket(lines, start)):
        return sizes
    if lines.kind() == "(" and lines.kind(2) == ")" and _numbers_line(lines):
        number = lines.token(1).number or ONE
        lines.place += 3
        return Label("listed", start, (Span(number, number),), named=named(f"step {number.of(0)}"))
    if lines.text_is("on", "in") and (spoken := _on_a_round(lines)):
        return spoken
    if lines.kind(1) in _SORTS_IN_BRACKET and [lines.kind(at) for at in (0, 2, 3)] == ["(", ")", "round"]:
        lines.place += 3  # (Decrease) Round 1
        return _plain(lines, start)
    if lines.kind() == "(" and lines.kind(1) == "round":
        lines.place += 1
        label = _plain(lines, start, inside=True)
        if label and lines.kind() == ")":
            lines.place += 1
            return label
        return None
    return _plain(lines, start)


_SORTS_IN_BRACKET: Final = frozenset(("decrease", "increase", "plain", "knit", "purl", "even"))
"""Sorts of rounds told in a bracket before the number of the round."""


def _on_a_round(lines: Lines) -> Label | None:
    """`On the third round: *k8`, `In the 3rd round k8`: a round that is told in a sentence; None for anything else."""
    start, begin = lines.token().start, lines.place
    lines.place = begin + 1 + (lines.kind(1) == "")
    if lines.kind() == "next" and lines.kind(1) == "round" and (knitter := _knits_plain(lines)):
        lines.place += knitter
        return Label("next", start)
    if lines.kind() == "ordinal" and lines.kind(1) == "round" and lines.joined(0):
        label = _plain(lines, start)
        ended = lines.flags(0) & (COLON | DASH) or lines.kind() in WORKS
        if label is not None and label.kind == "numbered" and ended and lines.place < lines.stop:
            return label
    lines.place = begin
    return None


def _knits_plain(lines: Lines) -> int:
    """How many words of `next round I just` stand before a plain round: `I knit, putting ...`; 0 before any other."""
    ahead = 2
    while (lines.text_of(ahead) in _KNITTERS or lines.kind(ahead) == "only") and ahead < MOST_OF_KNITTER:
        ahead += 1
    plain = ahead > 2 and lines.kind(ahead) in ("knit", "purl") and lines.joined(ahead)
    behind = ahead + 1
    ends = lines.place + behind >= lines.stop or bool(lines.flags(behind) & (COMMA | STOP))
    return ahead if plain and (ends or lines.kind(behind) in ("and", "plain", "even")) else 0


_KNITTERS: Final = frozenset(("i", "we", "you"))
MOST_OF_KNITTER: Final = 5
"""Words up to `knit` in `next round I just knit`."""


def _numbers_line(lines: Lines) -> bool:
    """Whether `(1)` numbers a line."""
    begins = bool(lines.token().flags & LINE) or lines.place == 0
    small = lines.kind(1) == "number" and lines.token(1).text.isdigit() and len(lines.token(1).text) < 3
    return begins and small and lines.kind(3) in WORKS and lines.place + 3 < lines.stop


def _plain(lines: Lines, start: int, *, inside: bool = False) -> Label | None:
    kind = lines.kind()
    if kind == "round":
        return _numbered(lines, start, inside=inside)
    if (kind == "size" or lines.names or lines.kind(1) == "size") and (label := _sizes(lines, start)):
        return label
    if kind == "step" and lines.kind(1) == "number":
        several = lines.text_of(0) == "steps" and lines.kind(2) == "and" and lines.text_of(4) == "are"
        return None if several else _step(lines, start)  # steps 5 and 6 are worked 4 times
    if step := _lettered_step(lines, start):
        return step
    if kind in ("ordinal", "range", "number"):
        return _number_first(lines, start)
    if kind == "next" or (kind == "following" and lines.kind(1) == "round" and lines.text_of(1)[-1:] != "s"):
        return _next(lines, start)  # Following round: K2tog all round
    if kind in ("all", "each", "even", "odd", "alternate", "following"):
        return _standing(lines, start)
    if kind in _SORTS:
        return _sort(lines, start)
    return None


def _lettered_step(lines: Lines, start: int) -> Label | None:
    """`IV. Knit`, `b) Knit`, `C: Knit`; None where it is none of these."""
    if roman := _roman(lines):
        lines.place += 1 + (lines.kind(1) == ")")
        number = Number((roman,))
        return Label("listed", start, (Span(number, number),), named=named(f"step {roman}"))
    if not lines.letter(0):
        return None
    if lines.kind(1) == ")":
        lines.place += 2
        return Label("step", start)
    signs = lines.flags(1) & (STOP | COLON) and not lines.flags(1) & LINE
    if signs and lines.place + 1 < lines.stop:
        lines.place += 1
        return Label("step", start)
    return None


def _roman(lines: Lines) -> int:
    """The number of a line that is numbered in Roman numerals: `IV. Knit`; 0 where it is none."""
    token = lines.token()
    number = ROMAN.get(token.text, 0)
    if not number:
        return 0
    begins = bool(token.flags & LINE) or lines.place == 0
    signs = lines.flags(1) & (STOP | COLON | DASH) or lines.kind(1) == ")"
    behind = lines.kind(2) if lines.kind(1) == ")" else lines.kind(1)
    return number if begins and signs and not lines.flags(1) & LINE and behind in WORKS else 0


_ONES: Final = ("", "i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix")
ROMAN: Final = {
    tens + ones: 10 * ten + unit
    for ten, tens in enumerate(("", "x", "xx", "xxx"))
    for unit, ones in enumerate(_ONES)
    if tens + ones
}
"""Roman numerals up to 39."""


def _numbered(lines: Lines, start: int, *, inside: bool = False) -> Label | None:
    """`Rnd 3`, `Rnds 2-6`, `Rnd 3 and all odd rnds (size 1 only)`."""
    plural = lines.token().text in ("rnds", "rounds", "rows", "rds")
    lines.place += 1
    if _is_told_of(lines, plural=plural):
        return None
    if lines.text_is("no", "nr", "number") and lines.kind(1) == "number":
        lines.place += 1  # `Round No. 3`
    spans = read_spans(lines, plural=plural)
    if not spans:
        return _lettered(lines, start)
    if _are_worked_often(lines):
        return None
    spans = (*spans, *_bracketed_rounds(lines))
    spans = (*spans, *_following_rounds(lines, spans[-1].last))
    every, sizes = read_tail(lines, (spans[-1].last.of(0) or 1))
    if lines.kind() == ")" and not inside and lines.place + 1 < lines.stop:
        lines.place += 1
        return Label("numbered", start, spans, every, sizes=sizes)
    if inside:
        return Label("numbered", start, spans, every, sizes=sizes) if lines.kind() == ")" else None
    sizes = sizes or _size_note(lines)
    lines.place += words_of_colour(lines, COLON) if lines.flags(0) & COMMA else 0  # Round 1, G only:
    if not has_ended(lines):
        if (
            lines.kind() in ("number", "ordinal", "knit", "word", "next", "", "have", "to")
            and every is not None
        ) or lines.kind() in ("word", ""):
            return Label("numbered", start, spans, every, sizes=sizes)
        if lines.kind() not in ("number", "cast_on", "place"):
            return None
    return Label("numbered", start, spans, every, sizes=sizes)


def _size_note(lines: Lines) -> tuple[str, ...] | None:
    """The sizes between the number of a round and its colon, which are taken: `R1, size 2:`; None where none are."""
    if not lines.flags(0) & COMMA or not (lines.kind() == "size" or lines.text_of(0) in lines.names):
        return None
    place = lines.place
    named = _sizes(lines, lines.token().start)
    if named is not None and named.kind == "sizes" and named.sizes and lines.flags(0) & COLON:
        return named.sizes
    lines.place = place
    return None


def _following_rounds(lines: Lines, last: Number) -> tuple[Span, ...]:
    """The rounds of `Round 1 and the following 11 rounds`, behind its number; empty where none are told."""
    ahead = lines.skip(1)
    number = lines.token(ahead + 1).number
    onward = lines.kind() == "and" and lines.kind(ahead) in ("following", "next") and lines.joined(ahead + 2)
    if not onward or lines.kind(ahead + 1) != "number" or number is None or lines.kind(ahead + 2) != "round":
        return ()
    lines.place += ahead + 3
    before = last.of(0) or 0
    first = Number((before + 1,), number.start, number.end)
    return (
        Span(
            first, Number(tuple(before + (value or 0) for value in number.values), number.start, number.end)
        ),
    )


def _is_told_of(lines: Lines, *, plural: bool) -> bool:
    """Whether the number behind the word `round` is not its own: `narrow, round. 64`, `Stitches: 22, rounds: 30`."""
    if plural:
        return bool(lines.flags(0) & COLON) and lines.kind() == "number"
    return bool(lines.flags(0) & STOP and lines.tokens[lines.place - 1].flags & COMMA)


def _are_worked_often(lines: Lines) -> bool:
    """Whether rounds told before are worked again: `Rows 1 to 3 are worked four times in all`, `Rnd 1, 4 times.`."""
    if lines.flags(0) & COMMA and lines.kind() == "number" and lines.kind(1) == "times":
        counted = lines.kind(2) != "(" or (lines.kind(3), lines.kind(4)) == ("number", "stitch_noun")
        return lines.ends_at(2) and counted
    often = 2 + (lines.kind(2) == "")
    verb = lines.text_of(1) in ("worked", "repeated", "done")
    return lines.text_is("are", "is") and verb and lines.kind(often) in ("number", "often")


def _step(lines: Lines, start: int) -> Label | None:
    """`Step 3.`: a part of a handout, with what it may begin with itself."""
    number = lines.token(1).number or ONE
    called = named(f"step {number.of(0)}")
    lines.place += 2
    inner = label(lines) if lines.place < lines.stop else None
    if inner is not None and inner.kind != "step":
        return Label(inner.kind, start, inner.spans, inner.every, inner.count, inner.sizes, named=called)
    return Label("step", start, named=called)


def _lettered(lines: Lines, start: int) -> Label | None:
    """`Round A`, `Round K:`; a letter that is short for a stitch or a pattern needs the colon."""
    text = lines.token().text
    if lines.place >= lines.stop or len(text) != 1 or not "a" <= text <= "z" or lines.flags(0) & ~SPACE:
        return None
    if text > "j" and not lines.flags(1) & COLON:
        return None
    lines.place += 1
    every, sizes = read_tail(lines, 1)
    if not has_ended(lines):
        return None
    return Label("sort", start, (), every, sizes=sizes, named=named(text))


def _number_first(lines: Lines, start: int) -> Label | None:
    """`1st round`, `2nd and alt rows`, `1st dec round`, `1. round`, `8 rounds:`, `3.`, `7-20 r.`."""
    token = lines.token()
    begun = lines.place
    if token.text == "first" and lines.kind(1) == "number" and lines.kind(2) == "round":
        count = lines.token(1).number
        lines.place += 3
        return Label("next", start, count=count)
    spans = dotted_pair(lines) or read_spans(lines, plural=_is_row(lines))
    if not spans:
        return None
    number = spans[-1].last.of(0) or 1
    if _numbers_labelled_line(lines, token):
        return _numbered(lines, start) if lines.kind() == "round" else _number_first(lines, start)
    lines.place += _is_pattern_round(lines, token)
    if lines.kind() == "round" and not lines.flags(0) & (COLON | LINE):
        return _before_round(lines, start, token, spans)
    if (standing := read_parity(lines, lines.place, number)) and lines.kind() in ("and", "all", "each"):
        lines.place = standing[1]
        _, sizes = read_tail(lines, number)
        return Label("numbered", start, spans, standing[0], sizes=sizes) if has_ended(lines) else None
    if token.kind == "ordinal":
        return _bare_ordinal(lines, begun, spans) or _sort(lines, start)
    if _numbers_dec_round(lines, token):
        return _sort(lines, start)
    single = len(spans) == 1 and spans[0].first is spans[0].last and begun + 1 == lines.place
    if token.kind == "number" and single and is_listed(lines, token):
        return Label("listed", start, spans, named=named(f"step {number}"))
    dashed = spans[0].first is not spans[0].last  # `2 – 3: knit`
    several = token.kind == "range" or (
        (dashed or len(spans) > 1) and bool(lines.flags(0) & (STOP | COLON | SLASH | DASH | TAB))
    )
    if several and opens_line(lines, token) and is_listed(lines, token):
        return Label("listed", start, spans)
    return None


def _bare_ordinal(lines: Lines, place: int, spans: tuple[Span, ...]) -> Label | None:
    """The label of an ordinal alone before a colon, `1st: *k6, k2tog* to end. 2nd: K.`; else None, and back to it."""
    first, before = lines.tokens[place], lines.tokens[place - 1].kind if place else "end"
    begins = bool(first.flags & (LINE | STOP | COLON | DASH)) or before in ("stars", ")", "end")
    _, sizes = read_tail(lines, spans[-1].last.of(0) or 1)
    ended = lines.flags(0) & (COLON | LINE) == COLON
    if begins and ended and (lines.kind() in WORKS or lines.kind() in ("as", "repeat")):
        return Label("numbered", first.start, spans, sizes=sizes)
    lines.place = place
    return None


def _is_pattern_round(lines: Lines, token: Token) -> bool:
    """Whether ordinals number the rounds of a pattern: `1st patt rnd`, `6th and 7th pattern rounds`."""
    pattern = lines.kind() == "pattern" and lines.kind(1) == "round" and lines.joined(0) and lines.joined(1)
    return pattern and token.kind == "ordinal" and opens_line(lines, token)


def _numbers_dec_round(lines: Lines, token: Token) -> bool:
    """Whether a number within a line is that of a decrease round: `Knit 3 rnds. 2. Dec rnd: *k6, k2tog*`.

    Where a line begins with it, it numbers the paragraph.
    """
    within = bool(token.start) and not token.flags & LINE and bool(token.flags & STOP)
    named = lines.kind() in ("decrease", "increase") and lines.kind(1) == "round"
    return within and named and bool(lines.flags(0) & STOP) and bool(lines.flags(2) & COLON)


def _is_row(lines: Lines) -> bool:
    """Whether several numbers stand in the first column of a row: `2, 3 / knit / 100`, `2 and 3 - knit - 100`."""
    ahead = 1
    while (
        lines.kind(ahead) in ("number", "and")
        and lines.flags(ahead) & (COMMA | SPACE)
        and ahead < MOST_IN_ROW
    ):
        if lines.flags(ahead) & (SLASH | DASH | STOP | COLON):
            break
        ahead += 1
    opens = bool(lines.token().flags & LINE) or not lines.token().start
    parted = bool(lines.flags(ahead) & (SLASH | DASH | TAB)) and bool(lines.flags(ahead) & SPACE)
    return opens and ahead > 1 and parted


MOST_IN_ROW: Final = 12
"""Numbers and words between them in the first column of a row."""


def _numbers_labelled_line(lines: Lines, token: Token) -> bool:
    """Whether a number only numbers a line that begins with its rounds: `2. Rounds 1-8: *knit 2, purl 2`."""
    first = bool(token.flags & LINE) or token.start == 0
    parted = first and bool(lines.flags(0) & STOP and lines.flags(2) & (COLON | STOP))
    if lines.kind() == "range":
        return parted and lines.kind(1) == "round"  # `2. 1-12 rows. Knit`
    numbered = lines.kind(1) in ("number", "range") and not lines.flags(1) & (COMMA | STOP)
    return parted and lines.kind() == "round" and numbered


def _before_round(lines: Lines, start: int, token: Token, spans: tuple[Span, ...]) -> Label | None:
    """Numbers before the word `round`: `1st round` has a number, `8 rounds:` are counted."""
    word = lines.token().text
    dotted = bool(lines.flags(0) & STOP)
    lines.place += 1
    if token.kind == "number" and not dotted and word not in ("r", "rw"):
        counts = lines.flags(0) & (COLON | DASH | EQUALS) and lines.place < lines.stop
        return Label("count", start, count=spans[0].first) if counts else None
    spans = (*spans, *_more_rounds(lines), *_bracketed_rounds(lines))
    every, sizes = read_tail(lines, spans[-1].last.of(0) or 1)
    if not has_ended(lines) and lines.kind() not in _BEHIND_LABELS:
        return None
    return Label("numbered", start, spans, every, sizes=sizes)


def _more_rounds(lines: Lines) -> tuple[Span, ...]:
    """The further rounds of `2.rnd, 4.rnd and 6.rnd`, which are taken."""
    spans: list[Span] = []
    while lines.place < lines.stop and len(spans) < MOST_FURTHER:
        at = 1 if lines.kind() == "and" else 0
        joined = at or lines.flags(0) & COMMA
        if not joined or lines.kind(at) not in ("number", "ordinal") or lines.kind(at + 1) != "round":
            break
        number = lines.token(at).number or ONE
        spans.append(Span(number, number))
        lines.place += at + 2
    return tuple(spans)


def _bracketed_rounds(lines: Lines) -> tuple[Span, ...]:
    """The rounds in the bracket of `2nd rnd (& 4th, 6th)`, which is taken."""
    place = lines.place
    if lines.kind() != "(" or lines.token(1).text not in ("&", "and", "also", "likewise", "plus"):
        return ()
    lines.place += 2
    spans = read_spans(lines)
    if spans and lines.kind() == ")":
        lines.place += 1
        return spans
    lines.place = place
    return ()


MOST_FURTHER: Final = 24
"""Rounds that are named one by one before one line."""


_BEHIND_LABELS: Final = frozenset(("word", "", "work", "have", "number", "next", "cast_on"))
"""What may stand behind a numbered label without a sign between."""


def _next(lines: Lines, start: int) -> Label | None:
    """`Next 5 rnds`, `Next (dec) rnd`, `Next and every alt rnd`."""
    lines.place += 1
    count: Number | None = None
    every: Standing | None = None
    worked = False
    for _ in range(6):
        kind = lines.kind()
        if lines.flags(0) & (COLON | LINE | STOP) and lines.tokens[lines.place - 1].kind != "(":
            return None
        if kind == "round":
            lines.place += 1
            tail, sizes = read_tail(lines, 2)
            every = tail if tail is not None and tail.step <= EVERY_OTHER else every
            if (worked or lines.kind() == "place") and not lines.flags(0) & (COLON | DASH | EQUALS):
                return None  # next rnd, place a marker every 12 sts
            return Label("next", start, every=every, count=count, sizes=sizes)
        if kind in ("and", "all", "each") and (standing := read_parity(lines, lines.place, 2)):
            lines.place = standing[1]
            return Label("next", start, every=standing[0], count=count)
        worked = worked or kind in ("knit", "purl")
        if kind == "number" and count is None:
            count = lines.token().number
        elif kind not in _SORTS and kind not in ("(", ")", "number", ""):
            return None
        lines.place += 1
    return None


def _standing(lines: Lines, start: int) -> Label | None:
    """`All even rnds`, `Every other rnd`, `Even-numbered Rounds 2-6`."""
    at = 1 if lines.kind() in ("all", "each") else 0
    if lines.kind(at) in ("even", "odd") and lines.kind(at + 1) == "round":
        begun = lines.place
        lines.place += at + 2 + (lines.text_of(at + 2) == "from")
        lines.place += lines.text_is("the")
        lines.place += lines.kind() == "round" and lines.kind(1) in ("number", "range")  # from Rnd 2 to 12
        spans = read_first_to_last(lines) or read_spans(lines)
        if len(spans) == 1 and has_ended(lines):
            return Label("numbered", start, (Span(spans[0].first, spans[0].last, EVERY_OTHER),))
        if spans and has_ended(lines):
            return Label("numbered", start, spans)  # even rounds 2, 4 and 6
        lines.place = begun
    begin = 1 if "odd" in (lines.kind(), lines.kind(1)) else 2
    parity = read_parity(lines, lines.place, begin)
    if parity is None:
        return None
    if lines.kind() in ("all", "each") and lines.kind(1) == "round":
        parity = (Standing(1, 1), parity[1])
    lines.place = parity[1]
    _, sizes = read_tail(lines, 1)
    if lines.text_is("are") and lines.kind(1) in ("knit", "purl", "plain"):
        lines.place += 1  # `All even rounds are knit`
    if lines.flags(0) & (COLON | DASH | EQUALS | TAB) or lines.kind() in (
        "knit",
        "purl",
        "plain",
        "stars",
        "(",
        "work",
    ):
        return Label("every", start, every=parity[0], sizes=sizes)
    return None


def _sort(lines: Lines, start: int) -> Label | None:
    """`Decrease rnd 2`, `Set-up rnd`, `1st dec round`, `Dec 1`, `Rnd` behind up to four words."""
    kinds: list[str] = []
    for _ in range(6):
        kind = lines.kind()
        if kinds and lines.flags(0) & (COLON | LINE | STOP | SEMI | EQUALS) and kind != "round":
            if kinds == ["ordinal", "decrease"] and lines.flags(0) & COLON and not lines.flags(0) & LINE:
                return Label("sort", start, named=named("decrease"))
            return None
        if kind == "round" and kinds and lines.flags(0) & COLON:
            return _numbered(lines, start)  # `shaping: rnd 1 [k8, k2tog]`
        if kind == "round" and kinds:
            lines.place += 1
            return _sorted(lines, start, kinds)
        if (
            kind == "number"
            and kinds
            and kinds[-1] in ("decrease", "increase")
            and (lines.flags(1) & (COLON | DASH) or _numbers_decrease(lines))
            and len(kinds) == 1
        ):
            lines.place += 1
            return Label("sort", start)
        if kind == "(" and (stop := note_end(lines)):
            lines.place = stop + 1
            kinds.append("(")
            continue
        if kind not in _SORTS:
            return None
        kinds.append(kind)
        lines.place += 1
    return None


def _numbers_decrease(lines: Lines) -> bool:
    """Whether a number behind `dec` at the beginning of a line is that of the round: `dec #1 k8 k2tog`."""
    begins = bool(lines.tokens[lines.place - 1].flags & LINE) or lines.place == 1
    return begins and lines.kind(1) == "knit" and lines.kind(2) == "number" and not lines.flags(1) & COMMA


def _counts_behind_dash(lines: Lines, first: Token) -> bool:
    """Whether only a count stands behind the name of a round that has its number before: `Rnd 5: dec rnd - 64 sts`."""
    dashed = lines.flags(0) & (DASH | EQUALS) and not first.flags & LINE
    counts = lines.kind() == "number" and lines.kind(1) == "stitch_noun"
    ahead = 2 + (lines.kind(2) in ("remain", "left"))
    ends = lines.place + ahead >= lines.stop or lines.flags(ahead) & (LINE | STOP)
    return bool(dashed and counts and ends)


def _sorted(lines: Lines, start: int, kinds: list[str]) -> Label | None:
    if _counts_behind_dash(lines, lines.tokens[lines.place - len(kinds) - 1]):
        return None
    spans: tuple[Span, ...] = ()
    defines = lines.tokens[lines.place - len(kinds) - 1].means == TOLD
    if lines.kind() in ("number", "range") and not lines.flags(0) & (COLON | STOP | SEMI | DASH | COMMA):
        spans = read_spans(lines)
    every, sizes = read_tail(lines, (spans[-1].last.of(0) or 1) if spans else 1)
    ended = bool(lines.flags(0) & (COLON | DASH | EQUALS | TAB | SEMI)) and lines.place < lines.stop
    known = any(kind in ("decrease", "increase", "ordinal", "last") for kind in kinds)
    if kinds == ["plain"] and lines.flags(0) & STOP and not lines.flags(0) & LINE:
        ended = lines.kind() in ("knit", "purl")  # `Plain round. Knit every stitch.`
    if "knit" in kinds or "purl" in kinds:  # `Knit round 3:` or `Knit 1 round`
        ended = ended and kinds[0] in ("knit", "purl") and bool(lines.flags(0) & COLON)
    if not ended and not (known and has_ended(lines)):
        return None
    if spans and not known and kinds[0] == "word":
        return Label("numbered", start, spans, every, sizes=sizes)
    if lines.flags(0) & COMMA and whole_rounds_follow(lines):
        return None  # Dec rnd, k 1 rnd, 4 times in all
    words = [kind for kind in kinds if kind in NAMED_KINDS]
    called = named(words[0]) if words else 0
    return Label("sort", start, spans, every, sizes=sizes, named=called, defines=defines)


def _sizes(lines: Lines, start: int) -> Label | None:
    """`Size 3 only:`, `Sizes 2 and 3 only:`, `All sizes:`, `Teen and Adult:`, `Size Large only:`."""
    stop = _sizes_end(lines)
    if not stop:
        return None
    tokens = lines.tokens[lines.place : stop]
    kinds = [token.kind for token in tokens]
    sized = "size" in kinds
    ended = lines.tokens[stop].flags & COLON or lines.tokens[stop].kind == "stars" or sized or "only" in kinds
    ended = ended or bool(lines.tokens[stop].flags & FULL) or _is_for_all(lines, stop)
    ended = ended or _are_dashed(lines, stop)
    ended = ended or (stop == lines.stop and bool(lines.names) and _are_some_names(lines, stop))
    names = with_letters(lines.names)
    columns = columns_of(lines.tokens, lines.place, stop, names) if names and ended else None
    everybody = sized and tokens[0].text in ("all", "both", "every") and columns is None
    sizes: tuple[str, ...] | None
    if everybody or (columns is not None and names_all(lines.tokens, lines.place, stop)):
        sizes = None
    elif columns is not None:
        sizes = tuple(str(column + 1) for column in columns)
    elif numbered := _sizes_by_number(lines, stop) if sized else ():
        sizes = numbered
    elif sized and "only" in kinds:
        sizes = _from_place_to_place(tokens) or tuple(
            token.text for token in tokens if token.kind in ("number", "word", "range", "ordinal", "make")
        )
    else:
        return None
    sentence = _begins_their_work(lines, stop)
    lines.place = stop
    inner = label(lines)
    if inner is not None:
        return Label(
            inner.kind, start, inner.spans, inner.every, inner.count, sizes, scope=True, named=inner.named
        )
    return Label("sizes", start, sizes=sizes, scope=True, sentence=sentence)


def _sizes_by_number(lines: Lines, stop: int) -> tuple[str, ...]:
    """The sizes that are told by their places up to a colon: `Size 1:`, `Sizes 2 and 3:`; empty for any others."""
    width = max(lines.names.values(), default=0) + 1
    numbers: list[int] = []
    for token in lines.tokens[lines.place : stop]:
        if token.kind in ("number", "ordinal") and token.number is not None:
            numbers.extend(value or 0 for value in token.number.values)
        elif token.kind == "range" and token.number is not None:
            numbers.extend(range(int(token.means), min(token.number.of(0) or 0, width + 1) + 1))
        elif token.kind not in ("size", "and", "for", "only", "to", "(", ")"):
            return ()
    if spread := _from_place_to_place(lines.tokens[lines.place : stop]):
        numbers = [int(number) for number in spread]
    ends = bool(lines.tokens[stop].flags & COLON) and lines.kind() in ("size", "for")
    fits = ends and bool(numbers) and width > 1 and all(1 <= number <= width for number in numbers)
    return tuple(str(number) for number in numbers) if fits else ()


def _from_place_to_place(tokens: list[Token]) -> tuple[str, ...]:
    """The places of the sizes from one to another: `Sizes 2 to 4`; empty where others are named."""
    named = [token for token in tokens if token.kind not in ("size", "for", "only", "(", ")")]
    if [token.kind for token in named] != ["number", "to", "number"]:
        return ()
    low, high = (token.number.of(0) or 0 if token.number is not None else 0 for token in named[::2])
    return tuple(str(place) for place in range(low, min(high, low + MOST_IN_NAMES) + 1))


_NO_SIZES: Final = frozenset(("stars", "stitch", "knit", "purl", "round", "repeat"))
"""Words that are in no name of a size."""


def _sizes_end(lines: Lines) -> int:
    """Where the names of sizes end: at a colon, or behind `only`; 0 where they do not."""
    for place in range(lines.place, min(lines.place + MOST_IN_NAMES, lines.stop)):
        token = lines.tokens[place]
        if place > lines.place:
            if token.flags & COLON or (token.flags & DASH and _is_for_all(lines, place)):
                return place
            if lines.tokens[place - 1].kind in ("only", "size") and token.flags & DASH and token.flags & STOP:
                return place
            if token.flags & COMMA and place == lines.place + 2 and _are_all_sizes(lines):
                return place
            full = token.flags & FULL and not token.flags & LINE
            if (full and _are_sentence(lines, place)) or _are_dashed(lines, place):
                return place
            if token.flags & (LINE | STOP | SEMI):
                return 0
            signed = lines.tokens[place - 1].kind == "only" and token.flags & (COMMA | DASH)
            signed = signed or (lines.kind() == "only" and token.flags & DASH)
            if signed or _begins_their_work(lines, place):
                return place
        if token.kind in _NO_SIZES:
            return place if token.kind == "stars" and place > lines.place else 0
    return _sizes_end_line(lines)


def _are_dashed(lines: Lines, place: int) -> bool:
    """Whether names of sizes begin a line and end here at a dash, before work: `Teen hat - k2tog around`."""
    token, named = lines.tokens[place], lines.tokens[lines.place : place]
    works = token.kind in WORKS or token.text in ("continue", "shape", "begin", "start")
    if not (lines.names and works and token.flags & DASH and token.flags & SPACE and not token.flags & LINE):
        return False
    begins = lines.place == 0 or named[0].flags & LINE
    apart = all(token.kind not in ("number", "ordinal", "range") for token in named)
    return bool(begins) and apart and bool(columns_of(lines.tokens, lines.place, place, lines.names))


def _begins_their_work(lines: Lines, place: int) -> bool:
    """Whether the work of the sizes named begins here without a sign: `Large size only knit 2 rounds`."""
    last, first = lines.tokens[place - 1].kind, lines.kind()
    alone = last == "only" or (last == "size" and first == "only")
    if not (lines.names and alone) or place + 1 >= len(lines.tokens):
        return False
    token, following = lines.tokens[place : place + 2]
    works = token.kind in WORKS or (token.kind == "number" and following.kind == "round")
    if not works or token.flags & ~SPACE:
        return False
    by_number = first == "size" and lines.tokens[place - 2].kind == "number"
    return by_number or columns_of(lines.tokens, lines.place, place, with_letters(lines.names)) is not None


def _are_all_sizes(lines: Lines) -> bool:
    """Whether a line begins with all sizes and says more of them before its colon: `Both sizes, alike from here:`."""
    if (
        lines.text_of(0) not in ("all", "both")
        or lines.kind(1) != "size"
        or not lines.stop < len(lines.tokens)
    ):
        return False
    return bool(lines.tokens[lines.stop].flags & COLON)


def _is_for_all(lines: Lines, stop: int) -> bool:
    """Whether a line begins with all sizes, by what they are called: `ALL LABELS - everyone has 30 sts now`."""
    named = stop == lines.place + 2 and bool(lines.names) and bool(lines.flags(0) & LINE)
    return named and lines.kind(1) in ("word", "size") and names_all(lines.tokens, lines.place, stop)


def _are_sentence(lines: Lines, stop: int) -> bool:
    """Whether the names of sizes are a sentence of their own: `Gentleman only. Knit 8`, `Gentleman and lady.`."""
    first = lines.tokens[lines.place]
    if not first.flags & LINE:
        return False
    return columns_of(lines.tokens, lines.place, stop, lines.names) is not None


def _sizes_end_line(lines: Lines) -> int:
    """Where the names of sizes end that stand on a line of their own; 0 where they do not."""
    last = lines.stop
    kinds = {token.kind for token in lines.tokens[lines.place : last]}
    if last <= lines.place + MOST_IN_NAMES:
        if "only" in kinds or lines.kind() == "all" or lines.token().text == "both":
            return last
        if last < len(lines.tokens) and lines.tokens[last].flags & COLON:
            return last
    return last if lines.names and _are_some_names(lines, last) else 0


def _are_some_names(lines: Lines, stop: int) -> bool:
    """Whether a line has no more than the names of some of the sizes, joined by `and`: `Small and newborn`."""
    joined = any(lines.kind(ahead) == "and" for ahead in range(1, min(MOST_IN_NAMES, stop - lines.place)))
    begins = bool(lines.flags(0) & LINE) and stop <= lines.place + MOST_IN_NAMES
    if not (joined and begins and bool(lines.tokens[stop].flags & LINE)):
        return False
    columns = columns_of(lines.tokens, lines.place, stop, lines.names)
    return columns is not None and len(columns) > 1 and not names_all(lines.tokens, lines.place, stop)


MOST_IN_NAMES: Final = 16
"""Words of a line that names some sizes: `Sizes Toddler, Child, Adult S, Adult M and Adult L only`."""
