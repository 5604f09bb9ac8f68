"""Requests by chance, from the structs themselves: what their bounds allow, near to it, and far from it.

Values are JSON values. Bounds themselves come up often, since what goes wrong goes wrong there.
"""

import math
import random
import re
from copy import deepcopy
from typing import Any, Final

from msgspec import inspect

DEEPEST: Final = 6
"""Structs within structs within steps: as deep as anything sensible goes."""
LONG_TEXT: Final = 1_000
"""Texts allowed to be longer than this are written patterns."""
WORDS: Final = (
    "k", "p", "k2tog", "ssk", "kfb", "m1", "yo", "sl", "cdd", "skp", "p2tog", "k1", "p1", "k3", "k 4",
    "knit", "purl", "*", "rep from * around", "rep from * to end", "(", ")", "[", "]", ",", ";", ".",
    ":", "\n", "\n\n", "Rnd 1:", "Rnd 2:", "Rnds 3-5:", "rounds 6 to 8", "all even rnds", "times",
    "twice", "3 times", "(3, 4)", "— 56 sts", "sts", "Cast on 64", "join in the round", "next 4 rnds",
    "until 8 sts remain", "around", "to last 2 sts", "work as", "as rnd 2", "CROWN", "BRIM",
    "*k6, k2tog; rep from * around", "0", "1", "2", "9999999", "-1", "1.5", "½", "×", "é", "\u202e",
    "\x00", "🧶",
)  # fmt: skip


class Maker:
    """Makes requests of one struct, by the chance given."""

    def __init__(self, kind: Any, chance: random.Random) -> None:
        self.kind = inspect.type_info(kind)
        self.chance = chance
        self.share = 0.3
        """How many of the fields that may be left out are given."""

    def valid(self) -> Any:
        """A request as the bounds allow, whatever it means together."""
        self.share = self.chance.choice((0.1, 0.3, 0.6))
        return self.value(self.kind)

    def varied(self, value: Any) -> Any:
        """A request like another, something in it changed; still as the bounds allow if the other was."""
        value = deepcopy(value)
        for _ in range(self.chance.choice((1, 1, 1, 2, 3, 6))):
            value = self.vary(self.kind, value)
        return value

    def spoiled(self, value: Any) -> Any:
        """A request like another, in one place not as described: out of bounds, of another type, unknown."""
        return self.spoil(deepcopy(value))

    # Values of a type.

    def value(self, kind: Any, depth: int = 0) -> Any:
        """Any value of a type."""
        match kind:
            case inspect.Metadata():
                return self.value(kind.type, depth)
            case inspect.UnionType():
                return self.value(self.chance.choice(self.apt(kind.types, depth)), depth)
            case inspect.StructType():
                return self.struct(kind, depth)
            case inspect.VarTupleType() | inspect.ListType():
                return [
                    self.value(kind.item_type, depth + 1)
                    for _ in range(self.length(kind, most=12, depth=depth))
                ]
            case inspect.LiteralType():
                return self.chance.choice(kind.values)
            case inspect.NoneType():
                return None
            case inspect.BoolType():
                return self.chance.random() < 0.5
            case inspect.IntType() | inspect.FloatType():
                return self.number(
                    kind, whole=isinstance(kind, inspect.IntType) or self.chance.random() < 0.3
                )
            case inspect.StrType():
                return self.text(kind)
        raise TypeError(f"requests have a {kind} now: say how one is made")

    def apt(self, kinds: tuple[Any, ...], depth: int) -> tuple[Any, ...]:
        """The members of a union, without those that hold others once it is deep enough."""
        flat = tuple(kind for kind in kinds if not _holds_more(kind)) if depth >= DEEPEST else kinds
        return flat or kinds

    def struct(self, kind: Any, depth: int) -> dict[str, Any]:
        """A struct, with some of what may be left out."""
        made = {} if kind.tag_field is None else {kind.tag_field: kind.tag}
        for field in kind.fields:
            if field.required or self.chance.random() < (self.share if depth < DEEPEST else 0):
                made[field.encode_name] = self.value(field.type, depth + 1)
        return made

    def length(self, kind: Any, *, most: int, depth: int = 0) -> int:
        """The length of a list or text: few as a rule, sometimes all that are allowed."""
        low = kind.min_length or 0
        high = max(low, min(most if kind.max_length is None else kind.max_length, 400 if depth < 3 else 3))
        turn = self.chance.random()
        return low if turn < 0.1 else high if turn < 0.16 else self.chance.randint(low, min(high, low + 8))

    def number(self, kind: Any, *, whole: bool) -> float:
        """A number within its bounds: one of them, or small, or of any size between."""
        low, high = _bounds(kind)
        turn = self.chance.random()
        if turn < 0.08:
            value = low
        elif turn < 0.16:
            value = high
        elif turn < 0.45:
            value = low + self.chance.random() * (min(high, max(low, 0) + 100) - low)
        elif low > 0:
            value = math.exp(self.chance.uniform(math.log(low), math.log(high)))
        else:
            value = self.chance.uniform(low, high)
        step = kind.multiple_of or 1
        if whole or kind.multiple_of:
            return min(max(round(value / step) * step, math.ceil(low)), math.floor(high))
        return min(max(round(value, self.chance.choice((1, 2, 15))), low), high)

    def text(self, kind: Any) -> str:
        """A text: of its pattern if it has one, of a knitter's words where it is long, otherwise of any signs."""
        if kind.pattern:
            return "".join(self.of_pattern(re._parser.parse(kind.pattern)))
        most = kind.max_length or 100
        if most > LONG_TEXT:
            words = [self.chance.choice(WORDS) for _ in range(self.chance.choice((3, 30, 300)))]
            return " ".join(words * self.chance.choice((1, 1, 1, 20)))[:most]
        signs = self.chance.choice(
            ("abcXYZ 0189-._'\"\\/<>&%#", "äßéñ½×−–“”\u202e\u200d🧶\U0010ffff\x00\x1f\x7f\n\t ")
        )
        return "".join(self.chance.choice(signs) for _ in range(self.length(kind, most=40)))

    def of_pattern(self, parsed: Any) -> list[str]:
        """A text that a regular expression takes, piece by piece (as the standard library's parser has them)."""
        pieces: list[str] = []
        for code, argument in parsed:
            match str(code):
                case "LITERAL":
                    pieces.append(chr(argument))
                case "IN":
                    low, high = (
                        (argument[0][1], argument[0][1])
                        if str(argument[0][0]) == "LITERAL"
                        else argument[0][1]
                    )
                    pieces.append(chr(self.chance.randint(low, high)))
                case "MAX_REPEAT":
                    low, high, inner = argument
                    for _ in range(self.chance.randint(low, min(high, low + self.chance.choice((1, 3, 20))))):
                        pieces += self.of_pattern(inner)
                case "SUBPATTERN":
                    pieces += self.of_pattern(argument[-1])
                case "BRANCH":
                    pieces += self.of_pattern(self.chance.choice(argument[1]))
                case "AT" | "ASSERT" | "ASSERT_NOT":
                    pass  # what does not meet the condition is refused, as it should be
                case other:
                    raise TypeError(f"a pattern has a {other} now: say how one is made")
        return pieces

    # Values like others.

    def vary(self, kind: Any, value: Any) -> Any:
        """Something in a value changed."""
        match kind:
            case inspect.Metadata():
                return self.vary(kind.type, value)
            case inspect.UnionType():
                fitting = [member for member in kind.types if _fits(member, value)]
                return (
                    self.vary(fitting[0], value)
                    if fitting and self.chance.random() < 0.8
                    else self.value(kind, 2)
                )
            case inspect.StructType() if isinstance(value, dict) and kind.fields:
                return self.vary_struct(kind, value)
            case inspect.VarTupleType() if isinstance(value, list) and value:
                return self.vary_list(kind, value)
            case inspect.IntType() | inspect.FloatType() if self.chance.random() < 0.6 and isinstance(
                value, (int, float)
            ):
                return self.nudged(kind, value)
            case inspect.StrType() if (kind.max_length or 0) > LONG_TEXT and isinstance(value, str) and value:
                return self.rewritten(value)[: kind.max_length]
        return self.value(kind, 2)

    def vary_struct(self, kind: Any, value: dict[str, Any]) -> dict[str, Any]:
        """A struct with a field changed, left out or put in."""
        field = self.chance.choice(kind.fields)
        if self.chance.random() < 0.6 and (
            given := [candidate for candidate in kind.fields if candidate.encode_name in value]
        ):
            field = self.chance.choice(given)
        name = field.encode_name
        if name not in value:
            value[name] = self.value(field.type, 2)
        elif not field.required and self.chance.random() < 0.15:
            del value[name]
        else:
            value[name] = self.vary(field.type, value[name])
        return value

    def vary_list(self, kind: Any, value: list[Any]) -> list[Any]:
        """A list with an entry changed, left out, doubled or put in."""
        place = self.chance.randrange(len(value))
        match self.chance.random():
            case turn if turn < 0.15 and len(value) > (kind.min_length or 0):
                del value[place]
            case turn if turn < 0.35 and len(value) < (kind.max_length or 400):
                value.insert(place, deepcopy(value[place]) if turn < 0.25 else self.value(kind.item_type, 2))
            case _:
                value[place] = self.vary(kind.item_type, value[place])
        return value

    def nudged(self, kind: Any, value: float) -> float:
        """A number near another."""
        low, high = _bounds(kind)
        near = self.chance.choice(
            (value + 1, value - 1, value * 2, value / 2, value * self.chance.uniform(0.8, 1.25))
        )
        near = min(max(near, low), high)
        return (
            min(max(round(near), math.ceil(low)), math.floor(high))
            if isinstance(kind, inspect.IntType)
            else near
        )

    def rewritten(self, text: str) -> str:
        """A written pattern with words or lines changed, moved or said again."""
        for _ in range(self.chance.randint(1, 6)):
            pieces = (
                re.split(r"(\s+|(?=[,;:()*])|(?<=[,;:()*]))", text)
                if self.chance.random() < 0.7
                else text.split("\n")
            )
            joint = "" if len(pieces) > text.count("\n") + 1 else "\n"
            place = self.chance.randrange(len(pieces))
            match self.chance.randrange(5):
                case 0:
                    pieces[place] = self.chance.choice(WORDS)
                case 1:
                    del pieces[place]
                case 2:
                    pieces.insert(place, self.chance.choice(pieces))
                case 3:
                    pieces[place] = re.sub(
                        r"\d+", lambda _: str(self.chance.randint(0, 90)), pieces[place] or ""
                    )
                case _:
                    pieces[place:place] = pieces[place : place + 8]
            text = joint.join(piece or "" for piece in pieces)
        return text

    # Values that are not as described.

    def spoil(self, value: Any) -> Any:
        """Something in a value that should not be there."""
        if isinstance(value, dict) and value and self.chance.random() < 0.85:
            name = self.chance.choice(list(value))
            match self.chance.random():
                case turn if turn < 0.1:
                    value[
                        self.chance.choice(("colour", "", "stitches ", "Stitches", "__class__", "type"))
                    ] = 1
                case turn if turn < 0.2:
                    del value[name]
                case turn if turn < 0.25:
                    value[name + "s"] = value.pop(name)
                case _:
                    value[name] = self.spoil(value[name])
            return value
        if isinstance(value, list) and value and self.chance.random() < 0.8:
            place = self.chance.randrange(len(value))
            value[place : place + 1] = [self.spoil(value[place])] * self.chance.choice((1, 1, 1, 500))
            return value
        if isinstance(value, (int, float)) and self.chance.random() < 0.6:
            return self.chance.choice(
                (0, -1, -value, value + 0.5, value * 1e6, 1e-9, 1e300, 2**63, 2**64, -0.0, 10**40)
            )
        if isinstance(value, str) and self.chance.random() < 0.4:
            return self.chance.choice(
                (value + " ", value.upper(), value * 400, "", value[:-1], "\u0000" + value)
            )
        return self.chance.choice(
            (None, True, 0, 1.5, "2", "", [], {}, [value], {"value": value}, "NaN", [[[[]]]], 1e308)
        )


class Bytes:
    """Bodies and queries changed byte by byte."""

    TOKENS: Final = (
        b"{", b"}", b"[", b"]", b",", b":", b'"', b"null", b"true", b"NaN", b"1e999", b"-0", b"\xff",
        b"\\u0000", b"\\ud800", b"\x00", b"\xef\xbb\xbf", b"1.0", b'"units":"imperial"', b"/**/", b"  ",
        b"%00", b"&", b"=", b"+", b"%", b"[" * 64,
    )  # fmt: skip

    def __init__(self, chance: random.Random) -> None:
        self.chance = chance

    def changed(self, body: bytes) -> bytes:
        """A body with some bytes changed, taken out, put in, doubled or cut off."""
        made = bytearray(body)
        for _ in range(self.chance.choice((1, 1, 2, 4, 16))):
            place = self.chance.randrange(len(made) + 1)
            match self.chance.randrange(7):
                case 0:
                    made[place : place + 1] = bytes((self.chance.randrange(256),))
                case 1:
                    del made[place : place + self.chance.choice((1, 1, 4, 30))]
                case 2:
                    made[place:place] = self.chance.choice(self.TOKENS)
                case 3:
                    made[place:place] = made[place : place + self.chance.randint(1, 60)]
                case 4 if self.chance.random() < 0.3:
                    del made[place:]
                case 5:
                    made[place : place + 1] = b"%d" % self.chance.choice(
                        (0, 1, 9, 10, 255, 65_536, 2**31, 2**63)
                    )
                case _:
                    if made:
                        made[place % len(made)] ^= 1 << self.chance.randrange(8)
        return bytes(made)


def _bounds(kind: Any) -> tuple[float, float]:
    """The least and the most of a number; what is open is taken to a million."""
    step = 1 if isinstance(kind, inspect.IntType) else 1e-6
    low = kind.ge if kind.ge is not None else kind.gt + step if kind.gt is not None else -1e6
    high = kind.le if kind.le is not None else kind.lt - step if kind.lt is not None else 1e6
    return low, high


def _holds_more(kind: Any) -> bool:
    kind = kind.type if isinstance(kind, inspect.Metadata) else kind
    if isinstance(kind, inspect.StructType):
        return any(isinstance(_bare(field.type), inspect.VarTupleType) for field in kind.fields)
    return isinstance(kind, inspect.VarTupleType)


def _bare(kind: Any) -> Any:
    return kind.type if isinstance(kind, inspect.Metadata) else kind


def _fits(kind: Any, value: Any) -> bool:
    """Whether a value looks as if it were of a type, at a glance."""
    match _bare(kind):
        case inspect.StructType() as struct:
            tagged = struct.tag_field is None or (
                isinstance(value, dict) and value.get(struct.tag_field) == struct.tag
            )
            return isinstance(value, dict) and tagged
        case inspect.VarTupleType():
            return isinstance(value, list)
        case inspect.NoneType():
            return value is None
        case inspect.StrType() | inspect.LiteralType():
            return isinstance(value, str)
        case inspect.BoolType():
            return isinstance(value, bool)
        case inspect.IntType() | inspect.FloatType():
            return isinstance(value, (int, float)) and not isinstance(value, bool)
        case inspect.UnionType() as union:
            return any(_fits(member, value) for member in union.types)
    return False
