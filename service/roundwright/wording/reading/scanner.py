"""The text cut into words, numbers, stars and brackets, in one pass.

Punctuation is no token: what stands between two words is kept as flags of the second.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from functools import partial
from typing import Final, TypeAlias

from msgspec import Struct
from msgspec.structs import replace

from roundwright.knitting.rounds.round import MOST_STITCHES
from roundwright.wording.reading.number_lists import with_dashed_pairs, with_figures, with_lists
from roundwright.wording.reading.tokens import (
    BLANK,
    BROKEN,
    BULLET,
    COLON,
    COMMA,
    DASH,
    EQUALS,
    FULL,
    LINE,
    QUESTION,
    SEMI,
    SLASH,
    SPACE,
    STOP,
    TAB,
    Token,
)
from roundwright.wording.reading.tree import Number
from roundwright.wording.reading.vocabulary import Vocabulary, Word, vocabulary

MOST_WORDS: Final = 2_400
"""Words of one text, and `MOST_WORDS_OF_SIZE` more for every size."""
MOST_WORDS_OF_SIZE: Final = 620
"""The longest hat the service writes, in sentences, has 1,400 in one size, and 9,800 in twelve."""
MOST_LISTED: Final = 13
"""Numbers in one list: one more than there are sizes, so that one too many is seen."""

_FOLD: Final = str.maketrans(
    "ABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÜÉÈÅØÆ’‘×"
    "\N{NO-BREAK SPACE}\N{HYPHEN}\N{NON-BREAKING HYPHEN}−_“”″\u2009\u202f✱∗⁎＊✲✳⭑★☆",
    'abcdefghijklmnopqrstuvwxyzäöüéèåøæ\'\'x --- """  *********',
)
"""One sign for one: a place in the folded text is the same place in the text."""

_NUM: Final = r"(?:[0-9]{1,7}+|[-–—])"
_FRACTION: Final = r"(?:[0-9]{1,7}+(?>(?:\.[0-9]++|\s?[½¼¾⅓⅔⅛]|[\s-][1-7]/[248](?![0-9]))?)|[½¼¾⅓⅔⅛])"
_FRACTIONS: Final = rf"{_FRACTION}\s?+[(\[]\s?+{_FRACTION}(?>(?:\s?+[,/;]\s?+{_FRACTION}){{0,12}})\s?+[)\]]"
_MEASURE: Final = r"[0-9]{1,3}+(?>(?:\.[0-9]{1,2}|[½¼¾⅓⅔⅛])?)"
_ORDINAL: Final = r"[0-9]{1,4}(?:st|nd|rd|th|(?<=[23])d)(?![a-z0-9])"
_LIST: Final = rf"[ ]?+\s?+[(\[{{]\s?+{_NUM}(?>(?:\s?+[,/:;–—-]\s?+{_NUM}){{0,12}})\s?+[)\]}}]"

_SCANNER: Final = re.compile(
    rf"""
    (?P<gap>[^a-z0-9*()\[\]{{}}&½¼¾⅓⅔⅛ß-öø-ÿ-]*+ (?>(?:-(?!\s?[(\[]\s?[0-9-])[^a-z0-9*()\[\]{{}}&½¼¾⅓⅔⅛ß-öø-ÿ-]*+)*))
    (?:
      (?P<dotted> p\.m\b\.? | p\.\s?s\.\s?s\.\s?o\b\.?
        | [kp]\.\s?[23]\.\s?tog\b\.?
        | s\.\s?s\.\s?[kp]\b\.? | s\.\s?k\.\s?p\.(?:\s?o\.)?
        | [ct]\.\s?[1-9][0-9]?\s?[bf]\b\.? | t\.\s?b\.\s?l\b\.? | g\.\s?st\b\.?
        | i\.\s?e\b\.? | e\.\s?g\b\.?
        | (?:w|wl|y)\.\s?(?:fwd|r\.?\s?n|o\.?\s?n)\b\.?
        | st\.\s?st\b(?=[\s.,;)]) | [msrwyc]\.[csof]\b\.?(?![a-z]) )
    | (?P<clock> [(\[][0-2]?[0-9]:[0-5][0-9](?>(?::[0-5][0-9])?)[)\]]
        | (?<![^\n])[0-2]?[0-9]:[0-5][0-9](?>(?::[0-5][0-9])?)(?=\s+[a-z])(?!\s+(?:st|rnd|rou|row|tim|cm|in|mm)) )
    | (?P<compound> s(?:l|lip)?-?[12]?-?(?:to?g)?-?k(?:nit)?-?(?:1|2-?tog)?-?p(?:ass)?-?2?-?(?:s-?s-?o|o)?(?![a-z0-9-])
        | (?:[kp]-?[23]-?tog | m(?:ake)?-?1-?[lrp])(?![a-z0-9-]) )
    | (?P<cable> [1-9]/[1-9]\s?(?:lc|rc|lpc|rpc|lt|rt)\b | [ct][1-9][0-9]?(?:[bflr]p?|over)\b
        | c[bf][1-9][0-9]?\b )
    | (?P<word> s2kp2(?![a-z0-9]) | [kp](?=[0-9]{{1,7}}(?:[kp][0-9]|[b]\b|(?![a-z&0-9])))
        | s(?=[1-9](?![a-z0-9])) | m(?=1-[lrp]\b)
        | [a-z&ß-öø-ÿ]++(?>(?:[0-9]{{1,3}}[a-z&]+)*) (?>(?:'[a-z]+)?) )
    | (?P<ordinal> {_ORDINAL}(?>(?:\s?[(\[]\s?{_ORDINAL}(?>(?:\s?[,/;]\s?{_ORDINAL}){{0,12}})\s?[)\]])?) )
    | (?P<sizes> (?:[0-9]{{1,7}}+|-)(?>(?:{_LIST}){{1,3}}) )
    | (?P<decimal> (?=[0-9½¼¾⅓⅔⅛./\s-]{{1,20}}+[(\[])
        (?=[^)\]\n]{{0,80}}?(?:[½¼¾⅓⅔⅛]|[0-9]\.[0-9]|[0-9][\s-][1-7]/[248])) {_FRACTIONS}
        | [0-9]{{1,7}}+(?:\.[0-9]++|\s?[½¼¾⅓⅔⅛]|[\s-][1-7]/[248](?![0-9])) | [½¼¾⅓⅔⅛] )
    | (?P<lengths> {_MEASURE}(?>(?:(?:/|\s/\s){_MEASURE}){{1,12}})(?=\s?(?:cm|mm|ins?|inch(?:es)?)\b|\s?") )
    | (?P<ratio> [0-9]x[0-9](?![0-9a-z]) )
    | (?P<range> (?:[0-9]{{1,7}}+|[0-9]{{1,3}}\.(?=[-–—][0-9]{{1,3}}\.(?![0-9])))
        [-–—][0-9]{{1,7}}+(?![0-9-]|[–—][0-9])(?>(?:{_LIST})?) )
    | (?P<list> [0-9]{{1,7}}+(?>(?:\s/\s[0-9]{{1,7}}+(?!\.[0-9]|[0-9/½¼¾])){{1,12}})(?!\s?(?:cm|mm|in\b|"))
        | [(\[][0-9]{{1,7}}+[)\]](?>(?:/[(\[][0-9]{{1,7}}+[)\]]){{1,12}})
        | (?:[0-9]{{1,7}}+|-)(?>(?:[/:][0-9]{{1,7}}+){{1,12}})(?![0-9/])
        | [0-9]{{1,7}}+(?>(?:[-–][0-9]{{1,7}}+){{2,12}}) )
    | (?P<number> [0-9]++ )
    | (?P<stars> \*++(?>(?:'?s(?![a-z0-9]))?) )
    | (?P<open> [(\[{{] )
    | (?P<close> [)\]}}] )
    | (?P<other> - )
    | (?P<tail> \Z )
    )
    """,
    re.VERBOSE,
)
_DIGITS: Final = re.compile(r"[0-9]+|[-–—](?![0-9])")
_WHOLE: Final = re.compile(r"[0-9]+")
_BRACKETED: Final = re.compile(r"[(\[{]")

_ABBREVIATED: Final = frozenset(
    [
        "k",
        "p",
        "sl",
        "m",
        "st",
        "sts",
        "tog",
        "rep",
        "rem",
        "ins",
        "in",
        "dec",
        "inc",
        "alt",
        "foll",
        "cont",
        "beg",
        "rnd",
        "rnds",
        "rd",
        "rds",
        "patt",
        "psso",
        "no",
        "nos",
        "gr",
        "approx",
        "r",
        "yd",
        "yds",
        "oz",
        "rs",
        "ws",
        "tbl",
        "st st",
        "ndl",
        "decs",
        "incs",
        "c",
    ]
)
"""Words that are printed with a full stop that ends no sentence (common practice)."""
_CRAFTS: Final = frozenset(("knit", "purl", "slip", "make"))
_BEFORE_NUMBERS: Final = frozenset(("no", "nos", "rep", "rnd", "rd", "r", "tog", "dec", "inc", "decs", "beg"))
"""Words whose full stop ends no sentence before a number: `rep. 3`, `rnd. 4`."""
_FLAGS: Final = {
    ",": COMMA,
    ";": SEMI,
    **dict.fromkeys("-–—→>⇒~", DASH),
    "=": EQUALS,
    **dict.fromkeys(".!…", STOP | FULL),
    "?": STOP | FULL | QUESTION,
    ":": COLON,
    "\n": LINE | STOP,
    **dict.fromkeys("\t|", TAB),
    **dict.fromkeys("•·", BULLET),
    **dict.fromkeys("☐☑☒□▢◻⬜❏❑○◯✓✔", STOP | FULL),  # a box to tick off before every round
    "/": SLASH,
}

_gaps: dict[str, int] = {}


def _flags(gap: str) -> int:
    """What a gap holds, as flags."""
    flags = SPACE if gap else 0
    for sign in set(gap):
        flags |= _FLAGS.get(sign, 0)
    if flags & BULLET and gap.startswith(" "):
        flags |= COMMA  # 14 rnds 2x2 rib · 28 rnds st st
    if gap.count("\n") > 1:
        flags |= BLANK
    if "//" in gap:
        flags |= STOP | FULL
    if "   " in gap:
        flags |= TAB
    if gap and len(_gaps) < 4_096 and len(gap) < 16:
        _gaps[gap] = flags
    return flags


class Scan(Struct, frozen=True):
    """The tokens of a text; `cut` says whether it has more than are read. `end` has the flags behind the last."""

    tokens: list[Token]
    cut: bool


def most_words(width: int) -> int:
    """How many words of a text for so many sizes are read."""
    return MOST_WORDS + MOST_WORDS_OF_SIZE * width


_Piece: TypeAlias = tuple[str, str, str, int, int, int]
"""A word, number or sign: its group, the gap before it, the text, start, end, and what the gap holds, as flags."""


def _pieces(folded: str) -> Iterator[_Piece]:
    """The words, numbers and signs of a folded text; what is no token leaves its flags to the next of them."""
    carried = 0
    for match in _SCANNER.finditer(folded):
        group = match.lastgroup or ""
        if group == "tail":
            return
        gap, raw, end = match["gap"], match[group], match.end()
        flags = (_gaps.get(gap) or _flags(gap)) | carried
        if group in _NO_TOKENS:
            carried = flags | _NO_TOKENS[group]
            continue
        carried = 0
        yield group, gap, raw, end - len(raw), end, flags


def scan(text: str, width: int, language: str = "en") -> Scan:
    """The tokens of a text for so many sizes. Takes time in its length."""
    folded = _folded(text, width)
    capitals = text.isupper()  # no letter says then whether a sentence begins
    undotted = frozenset(_UNDOTTED.findall(folded)) if capitals else frozenset()
    known = vocabulary(language)
    makers = _makers(known.words)
    most = most_words(width)
    tokens: list[Token] = []
    before = last = _NOTHING
    counted = cut = False
    for piece in _pieces(folded):
        if len(tokens) >= most:
            cut = True
            break
        group, gap, raw, start, end, flags = piece
        if counted and gap.startswith(_INCH_SIGNS):
            tokens.append(_inches(start - len(gap)))
        if flags & (STOP | LINE) == STOP:
            short = capitals and last.text not in undotted and raw not in _BEGIN_SENTENCES
            follows = folded[start] if short else text[start]
            shaped = last.kind == "round" and raw.endswith("tog")  # Knit 2 rnds. k2tog around
            flags &= -1 if shaped or _ends_sentence(gap, last, group, follows) else ~STOP
        behind = folded[end : end + 1]
        if group in _LISTS:
            apart = width == 1 and _heads_row(last, raw, behind)
            tokens.extend(_row(raw, start, flags) if apart else _list(raw, start, flags, width, last))
        elif group == "range" and (numbers := _falling(raw, start, flags)):
            tokens.extend(numbers)
        else:
            token = makers[group](_in_full(raw, behind), start, end, flags)
            if joined := _joined(last, before, gap, token):
                tokens[-1] = joined
            else:
                tokens.append(token)
        before, last = last, tokens[-1]
        counted = group in _COUNTS or last.kind in _COUNTS
    tail = folded[last.end :]
    tokens.extend(_last_inches(tail, last.end, counted=counted))
    tokens = with_figures(_with_dashed_cells(tokens, folded, width))
    tokens = _phrases(with_lists(tokens, width), known)
    tokens.append(Token("end", "", len(text), len(text), _flags(tail[:200]) | LINE | BLANK | STOP))
    return Scan(with_dashed_pairs(tokens, width), cut)


def _folded(text: str, width: int) -> str:
    """The text in small letters and with one sign for those that mean the same, every one at its place."""
    folded = text.translate(_FOLD)
    if _BOX_BEGINS_LINE.search(folded):
        folded = _EMPTY_BRACKETS.sub(lambda box: "☐".ljust(len(box[0])), folded)
    if width > 1 and _SPACED_DASHES.search(folded):
        folded = _with_strokes(folded, width)
    return _DASHED_LIST.sub(partial(_with_hyphen, width), folded) if width > 1 else folded


def _with_strokes(folded: str, width: int) -> str:
    """Lists of so many sizes with dashes between, `k8 - 9 - 10`, with strokes, as which they are read.

    Of two sizes only where stitches are so cast on: `2 - 4` may be a range.
    """
    if width == FEWEST_DASHED and not _CASTS_ON_DASHED.search(folded):
        return folded
    return _DASHED_SIZES.sub(partial(_with_stroke, width), folded)


def _with_stroke(width: int, dashed: re.Match[str]) -> str:
    """Numbers with strokes between, if they are as many as there are sizes and no rounds."""
    numbers = re.split(" [-–—] ", dashed["numbers"])
    return " / ".join(numbers) if len(numbers) == width and not dashed["rounds"] else dashed[0]


FEWEST_DASHED: Final = 2
"""Sizes whose numbers with a dash between look like a range."""
_SPACED_DASHES: Final = re.compile(r"[0-9½] [-–—] [0-9]")
_DASHED: Final = r"[0-9]{1,4}+(?>(?:[.,][0-9]{1,2}|[½¼¾])?)"
_DASHED_SIZES: Final = re.compile(
    r"(?P<rounds>\b(?:rounds?|rnds?|rds?|rows?|steps?)\.? )?"
    rf"(?<![0-9./,-])(?P<numbers>{_DASHED}(?: [-–—] {_DASHED}(?!st\b|nd\b|rd\b|th\b|[kp/0-9])){{1,12}})(?! [-–—] [0-9])"
)
_CASTS_ON_DASHED: Final = re.compile(
    r"\b(?:cast on|casting on|co):? (?:[a-z]{1,8} )?[0-9]{1,4} [-–—] [0-9]{1,4} st"
)


def _with_hyphen(width: int, dashed: re.Match[str]) -> str:
    """A list whose first size has a dash, `k– (4, 5)`, with the hyphen that is read as `none`."""
    numbers = 1 + len(re.findall("[,/;:]", dashed[0]))
    return f"-{dashed[0][1:]}" if numbers == width - 1 else dashed[0]


def _with_dashed_cells(tokens: list[Token], folded: str, width: int) -> list[Token]:
    """The tokens, with a token for each cell of a row that has no more than a dash: `| - | - | 30`."""
    dashes = {cell.start(1) for cell in _DASHED_CELL.finditer(folded)} if width > 1 else set[int]()
    if not dashes:
        return tokens
    cells = [Token("", "-", dash, dash + 1, 0) for dash in dashes]
    made: list[Token] = []
    end = 0  # of the last word that is no such dash
    for token in sorted([*tokens, *cells], key=lambda token: token.start):
        before = made[-1].end if made else 0
        if before == end and token.start not in dashes:
            made.append(token)
        else:
            kept = token.flags & ~_flags(folded[end : token.start])
            made.append(replace(token, flags=kept | _flags(folded[before : token.start])))
        end = end if token.start in dashes else token.end
    return made


_DASHED_CELL: Final = re.compile(
    r"(?:(?<=[|\t])|(?<= {3}))[ \t]{0,40}+([-–—])(?=[ \t]{0,40}(?:[|\n]|\Z)| {0,4}\t| {5})"
)
_DASHED_LIST: Final = re.compile(r"[–—]\s?[(\[][0-9]{1,7}(?:[,/;:]\s?[0-9]{1,7}){1,11}[)\]]")
_UNDOTTED: Final = re.compile(r"[a-z]++(?!\.)")
"""A word without a full stop behind it: where it has one elsewhere, this ends a sentence."""
_BEGIN_SENTENCES: Final = frozenset(("knit", "purl", "continue", "change", "join", "next", "repeat"))
"""Words that begin a sentence behind a short form in capitals: `8 RNDS. KNIT 24 RNDS.`."""
_EMPTY_BRACKETS: Final = re.compile(r"\[ ?\]|\( ?\)")
_BOX_BEGINS_LINE: Final = re.compile(r"^[ \t]{0,8}(?:\[ ?\]|\( ?\)) ", re.MULTILINE)
"""Empty brackets as a box to tick off: `[ ] knit`."""
_NOTHING: Final = Token("", "", 0, 0, 0)
_NO_TOKENS: Final = {"other": DASH, "clock": 0}
"""What is passed over, with what it leaves before the next word."""
_INCH_SIGNS: Final = ('"', "''", ' "')
_TENS: Final = frozenset(("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"))
_LISTS: Final = frozenset(("sizes", "list"))
_COUNTS: Final = frozenset(("number", "decimal", "lengths", "range", *_LISTS))
_UNBROKEN: Final = SEMI | STOP | COLON | LINE | EQUALS | TAB
_NO_COMMA: Final = _UNBROKEN | COMMA


def _is_unknown_stitch(token: Token, before: Token) -> bool:
    """Whether a number written at a word belongs to it: `tw2` behind a comma, star or bracket."""
    opened = before.kind in ("stars", "(") and token.start == before.end and len(token.text) > 1
    begins = opened or bool(token.flags & COMMA)  # C4 and T2 are cables
    return token.kind == "word" and begins and not token.flags & (LINE | COLON | DASH)


def _joined(last: Token, before: Token, gap: str, token: Token) -> Token | None:
    """The last token and this as one, the number `thirty-two`, the stitch `tw2` or `MB3`; None where they are two."""
    if token.text.isdigit():
        if not gap and last.means in _OF_SEVERAL_SORTS and last.text.isalpha():
            return replace(last, text=last.text + token.text, end=token.end)
        belongs = not gap and _is_unknown_stitch(last, before)
        return Token("word", last.text + token.text, last.start, token.end, last.flags) if belongs else None
    in_words = last.text in _TENS and gap in ("-", " ") and _is_digit(token)
    return _tens_and_ones(last, token) if in_words else None


_OF_SEVERAL_SORTS: Final = frozenset(("mb",))
"""Stitches of which a pattern has several, told apart by a number at their name."""


def _inches(place: int) -> Token:
    """The sign of inches behind a number."""
    return Token("unit", '"', place, place + 1, 0)


def _last_inches(tail: str, place: int, *, counted: bool) -> list[Token]:
    """The sign of inches behind the last number of a text, where it stands there."""
    return [_inches(place)] if counted and tail[:1] == '"' else []


def _ends_sentence(gap: str, last: Token, group: str, follows: str) -> bool:
    """Whether a full stop ends a sentence, and not only an abbreviation."""
    if gap[:2] in (".,", ".;") or (gap == "." and group == "stars" and last.text in _ABBREVIATED):
        return False  # *k 9, k 2 tog.*
    if last.text not in _ABBREVIATED or gap.lstrip()[:1] != ".":
        return True
    if last.text == "st st" and follows in "([":
        return False  # in st. st. (knit every round)
    numbered = group in ("number", "range", *_LISTS) and (
        last.kind in _CRAFTS or last.text in _BEFORE_NUMBERS
    )
    return not (numbered or "a" <= follows <= "z" or gap[:2] in (".:", ".-"))


def _word(words: Mapping[str, Word], raw: str, start: int, end: int, flags: int) -> Token:
    """A word as the word list has it."""
    word = words.get(raw)
    if word is None and "'" in raw:
        word = words.get(raw.replace("'", ""))
    kind, means = word or ("word", "")
    if kind in ("number", "ordinal"):
        return Token(kind, raw, start, end, flags, "", Number((int(means),), start, end))
    return Token(kind, raw, start, end, flags, means)


def _dotted(words: Mapping[str, Word], raw: str, start: int, end: int, flags: int) -> Token:
    """A short form printed with full stops: `t.b.l.`, `st. st`."""
    raw = raw.replace(".", "").replace(" ", "")
    if raw == "stst":
        raw, other = "st st", Word("stocking")
    else:
        other = Word("word")
    if raw[0] in "ct" and raw[1:2].isdigit():  # `C. 4 B.`
        other = Word("cable")
    kind, means = words.get(raw) or other
    return Token(kind, raw, start, end, flags, means)


def _compound(words: Mapping[str, Word], raw: str, start: int, end: int, flags: int) -> Token:
    """A stitch printed with hyphens: `sl2tog-k1-p2sso`, `m1-l`, `k-2-tog`."""
    text = raw.replace("-", "").replace("make", "m")
    slipped = _SLIPPED.fullmatch(text)
    name = _PASSED_OVER.get((slipped["slipped"] or "1", slipped["knit"] or "1")) if slipped else None
    if name is not None:
        return Token("stitch", text, start, end, flags, name)
    return _word(words, text, start, end, flags)


_SLIPPED: Final = re.compile(r"s(?:l|lip)?(?P<slipped>[12])?(?:to?g)?k(?:nit)?(?P<knit>1|2tog)?p.*")
_PASSED_OVER: Final[Mapping[tuple[str, str], str]] = {
    ("1", "1"): "skp",
    ("1", "2tog"): "sk2p",
    ("2", "1"): "cdd",
}
"""Slipped, knitted: the decrease that passing over makes of them."""


def _in_full(raw: str, behind: str) -> str:
    """What stands in a piece, but `sl` for the `s` before a number: `s1, k1, psso`."""
    return "sl" if raw == "s" and behind.isdigit() else raw


def _is_digit(token: Token) -> bool:
    """Whether it is a number in words from one to nine."""
    return token.kind == "number" and token.number is not None and (token.number.values[0] or 0) < 10


def _tens_and_ones(ten: Token, digit: Token) -> Token:
    """A number in two words: `thirty-two`."""
    value = sum(part.number.values[0] or 0 for part in (ten, digit) if part.number)
    number = Number((value,), ten.start, digit.end)
    return Token("number", f"{ten.text} {digit.text}", ten.start, digit.end, ten.flags, "", number)


def _number(raw: str, start: int, end: int, flags: int) -> Token:
    return Token("number", raw, start, end, flags, "", Number((_value(raw),), start, end))


def _value(digits: str) -> int:
    return min(int(digits[:8]), MOST_STITCHES)


def _range(raw: str, start: int, end: int, flags: int) -> Token:
    first, *others = map(_value, _WHOLE.findall(raw))
    return Token("range", raw, start, end, flags, str(first), Number(tuple(others), start, end))


def _falling(raw: str, start: int, flags: int) -> list[Token]:
    """The two numbers of what is no range, since the second is smaller: `Rep Rnd 13—10 sts`; none where it is one."""
    first, dash, second = raw.partition("—") if "—" in raw else raw.partition("–")
    if not dash or not first.isdigit() or not second.isdigit() or _value(first) <= _value(second):
        return []
    middle = start + len(first)
    end = start + len(raw)
    return [
        _number(first, start, middle, flags),
        _number(second, middle + 1, end, DASH),
    ]


def _ordinal(raw: str, start: int, end: int, flags: int) -> Token:
    numbers = tuple(map(int, _WHOLE.findall(raw)))
    return Token("ordinal", raw, start, end, flags, "", Number(numbers[:MOST_LISTED], start, end))


_Maker: TypeAlias = Callable[[str, int, int, int], Token]
_PLAIN: Final[Mapping[str, _Maker]] = {
    "number": _number,
    "range": _range,
    "ordinal": _ordinal,
    "open": partial(Token, "("),
    "close": partial(Token, ")"),
    **{kind: partial(Token, kind) for kind in ("stars", "cable", "decimal", "ratio")},
    "lengths": partial(Token, "decimal"),
}
"""What makes a token of its text, start, end and flags."""


def _makers(words: Mapping[str, Word]) -> Mapping[str, _Maker]:
    """The same, and what makes one of a word."""
    spoken = {"word": _word, "dotted": _dotted, "compound": _compound}
    return {**_PLAIN, **{group: partial(make, words) for group, make in spoken.items()}}


def _list(raw: str, start: int, flags: int, width: int, last: Token) -> list[Token]:
    """A list of sizes; where it cannot be, because there is one size, its first number and the bracket."""
    values = tuple(_value(digits) if digits.isdigit() else None for digits in _DIGITS.findall(raw))[
        :MOST_LISTED
    ]
    bracket = _BRACKETED.search(raw)
    if bracket and bracket.start() and len(values) == 2 and width != 2:
        often = last.text == "x" and not flags & (DASH | EQUALS)
        if often or (width == 1 and _apart(values)):
            parts = _number_and_bracket(raw, start, flags, bracket.start())
            if parts:
                return parts
    end = start + len(raw)
    return [Token("number", raw, start, end, flags, "", Number(values, start, end))]


def _heads_row(last: Token, raw: str, behind: str) -> bool:
    """Whether the number of a round is parted from its stitches by a stroke: `R1 / 3 white, 1 black`."""
    begins = last.kind == "round" and (not last.start or bool(last.flags & LINE))
    return begins and raw.count(" / ") == 1 and behind == " "


def _row(raw: str, start: int, flags: int) -> list[Token]:
    """The number of a round, and that of its first stitches."""
    first, _, second = raw.partition(" / ")
    at = start + len(raw) - len(second)
    return [
        _number(first, start, start + len(first), flags),
        _number(second, at, at + len(second), SPACE | SLASH | COLON),
    ]


def _number_and_bracket(raw: str, start: int, flags: int, opened: int) -> list[Token]:
    """A number and a number in a bracket behind it; empty where they are no numbers."""
    first, inner = raw[:opened].rstrip(), _WHOLE.search(raw, opened)
    if inner is None or not first.isdigit():
        return []
    end = start + len(raw)
    return [
        _number(first, start, start + len(first), flags),
        Token("(", raw[opened], start + opened, start + opened + 1, SPACE),
        _number(inner[0], start + inner.start(), start + inner.end(), 0),
        Token(")", raw[-1], end - 1, end, 0),
    ]


def _apart(values: tuple[int | None, ...]) -> bool:
    """Whether two numbers are too unlike for two sizes of one thing."""
    first, second = values[0] or 0, values[1] or 0
    return second > 2 * first + 4 or first > 2 * second + 4 or first == second


def _phrases(tokens: list[Token], known: Vocabulary) -> list[Token]:
    """The tokens with the words of a phrase made one."""
    phrases = known.phrases
    made: list[Token] = []
    place, count = 0, len(tokens)
    while place < count:
        token = tokens[place]
        stop = place + 1
        for rest, word, _ in phrases.get(token.text, ()):
            if stop < count and tokens[stop].text == rest[0] and _follows(tokens, stop, rest, word):
                stop += len(rest)
                text = f"{token.text} {' '.join(rest)}"
                broken = BROKEN if any(part.flags & LINE for part in tokens[stop - len(rest) : stop]) else 0
                flags, end = token.flags | broken, tokens[stop - 1].end
                token = Token(word.kind, text, token.start, end, flags, word.means)
                break
        made.append(token)
        place = stop
    return made


def _follows(tokens: list[Token], place: int, rest: tuple[str, ...], word: Word) -> bool:
    """Whether the rest of a phrase stands here, with nothing but space in it, or a comma in that of a stitch."""
    following = tokens[place : place + len(rest)]
    if len(following) < len(rest) or any(map(_unlike, following, rest)):
        return False
    comma = word.kind in ("stitch", "passover", "pattern") and not any(map(str.isdigit, rest))
    counted = place > 1 and tokens[place - 2].kind == "number" and tokens[place - 1].kind in ("knit", "purl")
    comma = comma and not (counted and not tokens[place - 1].flags & _NO_COMMA)  # three knit, two together
    barrier = _UNBROKEN if comma else _NO_COMMA
    if not any(token.flags & barrier for token in following):
        return True
    joined = word.kind in _OVER_LINES or (word.kind == "plain" and tokens[place - 1].text in _BEFORE_SHAPING)
    return joined and all(not token.flags & barrier or _ends_line(token) for token in following)


def _ends_line(token: Token) -> bool:
    """Whether no more than the end of a line stands before a word."""
    return not token.flags & ~(LINE | STOP | SPACE)


def _unlike(token: Token, text: str) -> bool:
    return token.text != text


_OVER_LINES: Final = frozenset(
    ("total", "manner", "end", "around", "stocking", "garter", "moss", "evenly", "per", "persection", "tbl",
     "passover", "slipmarker", "place")
)  # fmt: skip
"""Phrases that the end of a printed line may part, `10 rounds in / total`: no line begins with their second word."""
_BEFORE_SHAPING: Final = ("without", "with", "no")
"""How `without / shaping` begins."""
