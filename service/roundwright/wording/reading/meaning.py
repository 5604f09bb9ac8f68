"""The value of each phrase of the grammar, made as soon as the parser has read it."""

import re
from typing import Any, Final

from roundwright.knitting.rounds.round import MOST_ROUNDS, MOST_STITCHES, StitchName
from roundwright.wording.reading import vocabulary as words
from roundwright.wording.reading.phrases import (
    Aside,
    Brackets,
    Even,
    Extent,
    Fabric,
    Length,
    Partly,
    PassOver,
    Phrase,
    Rep,
    Rounds,
    Star,
    Times,
    Until,
)
from roundwright.wording.reading.tree import (
    NOTHING,
    ONE,
    Again,
    Evenly,
    Label,
    LabelKind,
    Number,
    Span,
    Stated,
    Stitch,
    Unknown,
)
from roundwright.wording.reading.vocabulary import Token

MOST_LISTED: Final = 13
"""Numbers in one list: one more than there are sizes, so that one too many is seen."""
_LONGEST_LIST: Final = 400
"""Signs of a list that are read: 13 numbers of seven digits, wherever its blanks are."""
MOST_NAMED: Final = MOST_ROUNDS
"""Rounds or sizes that one line names: `rep rnds 1-400` names all there may be."""
LARGEST: Final = MOST_STITCHES
"""A larger number is none of a knitter's, and is read as this."""

_DIGITS: Final = re.compile(r"[0-9]+|[-–—]")


def number_of(token: Token) -> Number:
    """`4`, `4 (5, 6)`; too many digits are cut short."""
    text = token.text
    if text.isdigit():
        return Number((min(int(text[:8]), LARGEST),), token.start_pos, token.end_pos)
    listed = _DIGITS.findall(text[:_LONGEST_LIST])
    values = tuple(min(int(one[:8]), LARGEST) if one.isdigit() else None for one in listed[:MOST_LISTED])
    return Number(values, token.start_pos, token.end_pos)


def _range(token: Token) -> tuple[Number, Number]:
    """`3-8 (9, 10)`: from 3, to 8, 9 or 10."""
    first, *last = (int(text[:8]) for text in re.findall("[0-9]+", token.text))
    return Number((first,), token.start_pos), Number(tuple(last), token.start_pos)


_CRAFTS: Final[dict[str, StitchName]] = {"KNIT": "k", "PURL": "p", "SLIP": "sl"}
_TOGETHER: Final[dict[tuple[str, int], StitchName]] = {
    ("KNIT", 2): "k2tog", ("KNIT", 3): "k3tog", ("PURL", 2): "p2tog", ("PURL", 3): "p3tog",
}  # fmt: skip
_OFTEN: Final = {"once": 1, "twice": 2, "thrice": 3}


def _find(children: list[Any], kind: str) -> Token | None:
    return next((one for one in children if isinstance(one, Token) and one.type == kind), None)


def _has(children: list[Any], *kinds: str) -> bool:
    return any(isinstance(one, Token) and one.type in kinds for one in children)


def _ends(children: list[Any]) -> tuple[int, int]:
    return children[0].start_pos, children[-1].end_pos


class Phrases:
    """The values, by the names that the grammar gives the phrases. Keeps nothing."""

    # --- stitches

    def bare(self, children: list[Token]) -> Phrase:
        """`k`, `knit`."""
        (craft,) = children
        return Stitch(_CRAFTS[craft.type], ONE, *_ends(children), bare=True)

    def counted(self, children: list[Token]) -> Phrase:
        """`k4`, `knit 4`, `k next 4 sts`."""
        number = _find(children, "NUMBER")
        return Stitch(_CRAFTS[children[0].type], number_of(number) if number else ONE, *_ends(children))

    def together(self, children: list[Token]) -> Phrase:
        """`k 2 tog`, `knit two stitches together`."""
        craft, number = children[0], _find(children, "NUMBER")
        many = int(number.text[:2]) if number and number.text.isdigit() else 0
        name = _TOGETHER.get((craft.type, many))
        if name:
            return Stitch(name, ONE, *_ends(children))
        if craft.type == "SLIP":  # sl 2 tog, k1, psso
            return Stitch("sl", number_of(number) if number else ONE, *_ends(children))
        return Unknown("".join(child.text for child in children), *_ends(children))

    def named(self, children: list[Token]) -> Phrase:
        """`ssk`, `k2tog`."""
        return Stitch(words.stitch_names()[children[0].text], ONE, *_ends(children))

    def make(self, children: list[Token]) -> Phrase:
        """`m1`, `make 1`."""
        if children[1].text == "1":
            return Stitch("m1", ONE, *_ends(children))
        return Unknown(f"{children[0].text}{children[1].text}", *_ends(children))

    def pass_over(self, children: list[Token]) -> Phrase:
        """`psso`."""
        return PassOver(*_ends(children))

    def evenly(self, children: list[Token]) -> Phrase:
        """`dec 8 sts evenly`."""
        sign = -1 if children[0].type == "FEWER" else 1
        return Evenly(number_of(children[1]), sign, *_ends(children))

    def unknown(self, children: list[Token]) -> Phrase:
        """A word nobody knows."""
        return Unknown(children[0].text, *_ends(children))

    def group(self, children: list[Any]) -> Phrase:
        """`[...]`, `(...)`."""
        return Brackets(tuple(children[1:-1]), children[0].start_pos, children[-1].end_pos)

    # --- how often, how far

    def times(self, children: list[Token]) -> Times:
        """`4 times`, `twice more`, `x 4`."""
        often, number = _find(children, "OFTEN"), _find(children, "NUMBER")
        if often:
            many = Number((_OFTEN[often.text],), often.start_pos, often.end_pos)
        else:
            assert number is not None  # the grammar has one or the other
            many = number_of(number)
        return Times(
            many,
            *_ends(children),
            more=_has(children, "MORE"),
            in_all=_has(children, "TOTAL"),
            word=bool(often),
        )

    def partly(self, children: list[Token]) -> Phrase:
        """`and its first 3 sts again`."""
        number = _find(children, "NUMBER")
        return Partly(number_of(number) if number else ONE, *_ends(children))

    def to_end(self, children: list[Token]) -> Phrase:
        """`around`, `to end`, `all sts`, `to marker`."""
        unclear = _has(children, "MARK", "MAKE")  # the marker at the end, or one before what follows
        return Extent(None if unclear else NOTHING, *_ends(children))

    def to_last(self, children: list[Token]) -> Phrase:
        """`to last 2 sts`, `to 2 sts before end`."""
        number = _find(children, "NUMBER")
        return Extent(number_of(number) if number else ONE, *_ends(children))

    def until(self, children: list[Token]) -> Phrase:
        """`until 8 sts remain`."""
        return Until(number_of(children[1]), *_ends(children))

    def measured(self, children: list[Token]) -> Phrase:
        """`until the piece measures 12 cm`."""
        return Length(*_ends(children))

    def star(self, children: list[Token]) -> Phrase:
        """`*`, `**`."""
        return Star(children[0].text.count("*"), *_ends(children))

    def rep(self, children: list[Token]) -> Phrase:
        """`rep from *`, `rep from * to **`, `rep 4 times`."""
        stars = [token.text.count("*") for token in children if token.type == "STARS"]
        extent: Times | Extent | None = None
        if _has(children, "TIMES", "OFTEN"):
            extent = self.times(children[1:])
        elif number := _find(children, "NUMBER"):
            extent = Extent(number_of(number), number.start_pos, children[-1].end_pos)
        return Rep(
            stars[0] if stars else 0,
            stars[1] if len(stars) > 1 else stars[0] if _has(children, "BETWEEN") else 0,
            extent,
            *_ends(children),
        )

    # --- whole rounds

    def refs(self, children: list[Any]) -> list[Token]:
        """`1 and 2`, `1-4`, `1 to 4`: the words of it."""
        return [one for child in children for one in (child if isinstance(child, list) else [child])]

    def again(self, children: list[Any]) -> Phrase:
        """`rep rnds 1 and 2`, `as rnd 2`."""
        refs = next(one for one in children if isinstance(one, list))
        kept = [token for token in refs if token.type != "AND"]
        times = None
        if _has(children, "TIMES") and kept[-1].type == "NUMBER":
            times = number_of(kept.pop())
        named: list[int] = []
        for place, token in enumerate(kept):
            if len(named) > MOST_NAMED:
                break
            if token.type == "RANGE":
                first, last = _range(token)
                named.extend(_up_to(first.of(0), last.of(0)))
            elif token.type == "NUMBER" and place and kept[place - 1].type == "TO":
                named.extend(_up_to((named[-1] if named else 0) + 1, number_of(token).of(0)))
            elif token.type == "NUMBER":
                named.append(number_of(token).of(0) or 0)
        first_token = next(one if isinstance(one, Token) else one[0] for one in children)
        return Again(tuple(named[:MOST_NAMED]), 0, times, first_token.start_pos, refs[-1].end_pos)

    def again_last(self, children: list[Token]) -> Phrase:
        """`rep last 2 rnds`."""
        number = _find(children, "NUMBER")
        last = (number_of(number).of(0) or 1) if number else 1
        return Again((), last, None, *_ends(children))

    def rounds(self, children: list[Token]) -> Phrase:
        """`5 rnds`."""
        return Rounds(number_of(children[0]), *_ends(children))

    def whole_rounds(self, children: list[Token]) -> Phrase:
        """`knit 5 rnds`."""
        number = _find(children, "NUMBER")
        craft = Stitch(_CRAFTS[children[0].type], ONE, *_ends(children[:1]), bare=True)
        return Rounds(number_of(number) if number else ONE, *_ends(children), stitch=craft)

    # --- counts

    def numbers(self, children: list[Token]) -> Number:
        """`42`, `42 (45, 48)`, `42, 45, 48`."""
        if len(children) == 1:
            return number_of(children[0])
        values = tuple(value for token in children for value in number_of(token).values)
        return Number(values[:MOST_LISTED], *_ends(children))

    def stated(self, children: list[Any]) -> Phrase:
        """`42 sts`, `42 sts remain`."""
        number = next(one for one in children if isinstance(one, Number))
        last = children[-1]
        return Stated(number, number.start, last.end if last is number else last.end_pos)

    def changed(self, children: list[Any]) -> Phrase:
        """`6 sts decreased`."""
        number, sign = children[0], -1 if children[-1].type == "FEWER" else 1
        return Stated(number, number.start, children[-1].end_pos, sign)

    # --- beside the stitches

    def even(self, children: list[Token]) -> Phrase:
        """`even`."""
        return Even(*_ends(children))

    def fabric(self, children: list[Token]) -> Phrase:
        """`rib`, `in pattern`."""
        return Fabric(*_ends(children))

    def aside(self, children: list[Token]) -> Phrase:
        """What changes nothing."""
        return Aside(*_ends(children))

    def body(self, children: list[Phrase]) -> tuple[Phrase, ...]:
        """All phrases of a line."""
        return tuple(children)

    # --- labels

    def span(self, children: list[Token]) -> Span:
        """`2 to 6`."""
        return Span(number_of(children[0]), number_of(children[2]))

    def rounds_named(self, children: list[Any]) -> tuple[Span, ...]:
        """`2`, `2-6`, `2, 4 and 6`."""
        return tuple(
            one
            if isinstance(one, Span)
            else Span(*_range(one))
            if one.type == "RANGE"
            else Span(number_of(one), number_of(one))
            for one in children
            if isinstance(one, Span) or one.type != "AND"
        )

    def sizes(self, children: list[Token]) -> tuple[int, ...]:
        """`2, 3 and 4` of `sizes 2, 3 and 4 only`."""
        found: list[int] = []
        for token in children:
            if len(found) > MOST_NAMED:
                break
            if token.type == "RANGE":
                first, last = _range(token)
                found.extend(_up_to(first.of(0), last.of(0)))
            elif token.type == "NUMBER":
                found.extend(value for value in number_of(token).values if value is not None)
        return tuple(found)

    def note(self, children: list[Any]) -> tuple[int, ...] | None:
        """`(RS)`, `(sizes 2 and 3 only)`: the sizes it names."""
        return next((one for one in children if isinstance(one, tuple)), None)

    def parity(self, children: list[Token]) -> str | int:
        """`odd`, `alternate`, `4th`."""
        return number_of(children[0]).of(0) or 1 if children[0].type == "NUMBER" else children[0].type

    def and_all(self, children: list[Any]) -> str | int:
        """`and all odd rnds`."""
        parity: str | int = next(one for one in children if _is_parity(one))
        return parity

    def numbered(self, children: list[Any]) -> Label:
        """`Rnd 3 and all odd rnds (size 1 only)`."""
        spans = next(
            (one for one in children if isinstance(one, tuple) and one and isinstance(one[0], Span)), ()
        )
        if not spans:
            number = number_of(children[0])
            spans = (Span(number, number),)
        parity = next((one for one in children if _is_parity(one)), None)
        every = None if parity is None else _every(parity, spans[-1].last.of(0) or 1)
        return Label("numbered", spans, every, sizes=_sizes(children))

    def next_rounds(self, children: list[Any]) -> Label:
        """`Next 5 rnds`, `Decrease rnd`."""
        number = _find(children, "NUMBER")
        kind: LabelKind = "next" if _has(children, "NEXT") else "sort"
        return Label(kind, count=number_of(number) if number else None, sizes=_sizes(children))

    def standing(self, children: list[Any]) -> Label:
        """`All odd rnds`."""
        parity = next(one for one in children if _is_parity(one))
        return Label("every", every=_every(parity, _step(parity)), sizes=_sizes(children))

    def only(self, children: list[Any]) -> Label:
        """`Sizes 2 and 3 only`."""
        return Label("sizes", sizes=children[1])


def _is_parity(child: Any) -> bool:
    return isinstance(child, int | str)


def _every(parity: str | int, first: int) -> tuple[int, int]:
    """First round and step of `all odd rnds` and the like, from round `first` on."""
    wanted = {"ODD": 1, "EVEN": 0}.get(str(parity))
    return first + (wanted is not None and first % 2 != wanted), _step(parity)


def _up_to(first: int | None, last: int | None) -> range:
    first = first or 0
    return range(first, min(last or 0, first + MOST_NAMED) + 1)


def _step(parity: str | int) -> int:
    return parity if isinstance(parity, int) else 2


def _sizes(children: list[Any]) -> tuple[int, ...] | None:
    """The sizes a note names, among the children of a label."""
    return next((one for one in children if isinstance(one, tuple) and one and isinstance(one[0], int)), None)
