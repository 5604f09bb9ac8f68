"""The text cut into words, numbers, stars and brackets, in one pass.

Punctuation is no token: what stands between two words is kept as flags of the second.
"""

import re
from typing import Final

from msgspec import Struct

from roundwright.knitting.rounds.round import MOST_STITCHES
from roundwright.wording.reading.tree import Number
from roundwright.wording.reading.vocabulary import Vocabulary, Word, vocabulary

MOST_WORDS: Final = 4_500
"""Words of one text: the longest hat the service writes, in sentences and twelve sizes, has four thousand."""
MOST_LISTED: Final = 13
"""Numbers in one list: one more than there are sizes, so that one too many is seen."""

COMMA: Final = 1
SEMI: Final = 2
DASH: Final = 4
EQUALS: Final = 8
STOP: Final = 16
COLON: Final = 32
LINE: Final = 64
BLANK: Final = 128
SPACE: Final = 256
TAB: Final = 512
BULLET: Final = 1024
FULL: Final = 2048


class Token(Struct, frozen=True, gc=False):
    """A word, number, star or bracket of the text.

    - `kind`: as in the word list; `number`, `range`, `ordinal`, `decimal`, `ratio`, `cable`, `stars`, `(`, `)`, `word`
    - `text`: folded; `start`, `end`: where it stands in the text
    - `flags`: what stands before it
    - `means`: the stitch of a stitch word
    - `number`: of a number, or the first and last of a range
    """

    kind: str
    text: str
    start: int
    end: int
    flags: int
    means: str = ""
    number: Number | None = None


_FOLD: Final = str.maketrans(
    "ABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÜÉÈÅØÆ’‘×"
    "\N{NO-BREAK SPACE}\N{HYPHEN}\N{NON-BREAKING HYPHEN}−_“”″\u2009\u202f✱∗⁎＊✲✳⭑★☆",
    'abcdefghijklmnopqrstuvwxyzäöüéèåøæ\'\'x --- """  *********',
)
"""One sign for one: a place in the folded text is the same place in the text."""

_NUM: Final = r"(?:[0-9]{1,7}+|[-–—])"
_FRACTION: Final = r"(?:[0-9]{1,7}+(?:\.[0-9]++|\s?[½¼¾⅓⅔⅛]|[\s-][1-7]/[248](?![0-9]))?+|[½¼¾⅓⅔⅛])"
_FRACTIONS: Final = rf"{_FRACTION}\s?+[(\[]\s?+{_FRACTION}(?:\s?+[,/;]\s?+{_FRACTION}){{0,12}}+\s?+[)\]]"
_LIST: Final = rf"\s?+[(\[{{]\s?+{_NUM}(?:\s?+[,/:;–—-]\s?+{_NUM}){{0,12}}+\s?+[)\]}}]"

_SCANNER: Final = re.compile(
    rf"""
    (?P<gap>[^a-z0-9*()\[\]{{}}&½¼¾⅓⅔⅛ß-öø-ÿ-]*+ (?:-(?!\s?[(\[]\s?[0-9-])[^a-z0-9*()\[\]{{}}&½¼¾⅓⅔⅛ß-öø-ÿ-]*+)*+)
    (?:
      (?P<dotted> p\.\s?s\.\s?s\.\s?o\b\.? | t\.\s?b\.\s?l\b\.? | g\.\s?st\b\.?
        | st\.\s?st\b(?=[\s.,;)]) | [msrwyc]\.[csof]\b\.?(?![a-z]) )
    | (?P<clock> [(\[][0-2]?[0-9]:[0-5][0-9](?::[0-5][0-9])?+[)\]] )
    | (?P<cable> [1-9]/[1-9]\s?(?:lc|rc|lpc|rpc|lt|rt)\b | [ct][1-9][0-9]?(?:[bflr]p?|over)\b )
    | (?P<word> s2kp2(?![a-z0-9]) | [kp](?=[0-9]{{1,7}}(?:[kp][0-9]|[b]\b|(?![a-z&0-9])))
        | s(?=[1-9](?![a-z0-9])) | m(?=1-[lrp]\b)
        | [a-z&ß-öø-ÿ]++(?:[0-9]{{1,3}}[a-z&]+)*+ (?:'[a-z]+)?+ )
    | (?P<ordinal> [0-9]{{1,4}}(?:st|nd|rd|th)(?![a-z0-9]) )
    | (?P<decimal> (?=[^)\]\n]{{0,80}}?(?:[½¼¾⅓⅔⅛]|[0-9]\.[0-9]|[0-9][\s-][1-7]/[248])) {_FRACTIONS}
        | [0-9]{{1,7}}+(?:\.[0-9]++|\s?[½¼¾⅓⅔⅛]|[\s-][1-7]/[248](?![0-9])) | [½¼¾⅓⅔⅛] )
    | (?P<ratio> [0-9]x[0-9](?![0-9a-z]) )
    | (?P<range> [0-9]{{1,7}}+[-–—][0-9]{{1,7}}+(?![0-9-])(?:{_LIST})?+ )
    | (?P<list> [0-9]{{1,7}}+(?:\s/\s[0-9]{{1,7}}+(?!\.[0-9]|[0-9/½¼¾])){{1,12}}+(?!\s?(?:cm|mm|in\b|"))
        | [(\[][0-9]{{1,7}}+[)\]](?:/[(\[][0-9]{{1,7}}+[)\]]){{1,12}}+
        | (?:[0-9]{{1,7}}+|-)(?:[/:][0-9]{{1,7}}+){{1,12}}+(?![0-9/])
        | (?:[0-9]{{1,7}}+|-)(?:{_LIST}){{1,3}}+
        | [0-9]{{1,7}}+(?:[-–][0-9]{{1,7}}+){{2,12}}+ )
    | (?P<number> [0-9]++ )
    | (?P<stars> \*++(?:'?s(?![a-z0-9]))?+ )
    | (?P<open> [(\[{{] )
    | (?P<close> [)\]}}] )
    | (?P<other> - )
    | (?P<tail> \Z )
    )
    """,
    re.VERBOSE,
)
_DIGITS: Final = re.compile(r"[0-9]+|[-–—](?![0-9])")
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
        "ndl",
        "decs",
        "incs",
        "c",
    ]
)
"""Words that are printed with a full stop that ends no sentence (common practice)."""
_CRAFTS: Final = frozenset(("knit", "purl", "slip", "make"))

_gaps: dict[str, int] = {}


def _flags(gap: str) -> int:
    """What a gap holds, as flags."""
    flags = _gaps.get(gap)
    if flags is None:
        flags = 0
        if "," in gap:
            flags |= COMMA
        if ";" in gap:
            flags |= SEMI
        if "-" in gap or "–" in gap or "—" in gap or "→" in gap or ">" in gap or "⇒" in gap or "~" in gap:
            flags |= DASH
        if "=" in gap:
            flags |= EQUALS
        if "." in gap or "!" in gap or "?" in gap or "…" in gap:
            flags |= STOP | FULL
        if ":" in gap:
            flags |= COLON
        if "\n" in gap:
            flags |= LINE | STOP
            if gap.count("\n") > 1:
                flags |= BLANK
        if "\t" in gap or "   " in gap or "|" in gap:
            flags |= TAB
        if gap:
            flags |= SPACE
        if "•" in gap or "·" in gap:
            flags |= BULLET
        if len(_gaps) < 4_096 and len(gap) < 16:
            _gaps[gap] = flags
    return flags


class Scan(Struct, frozen=True):
    """The tokens of a text; `cut` says whether it has more than are read. `end` has the flags behind the last."""

    tokens: list[Token]
    cut: bool


def scan(text: str, width: int, extra: dict[str, Word] | None = None, language: str = "en") -> Scan:
    """The tokens of a text for so many sizes. Takes time in its length.

    `extra` are words that the text itself defines.
    """
    folded = text.translate(_FOLD)
    known = vocabulary(language)
    words = known.words if not extra else {**known.words, **extra}
    tokens: list[Token] = []
    append = tokens.append
    carried = 0
    last_kind = last_text = ""
    cut = False
    for found in _SCANNER.finditer(folded):
        group = found.lastgroup
        gap = found["gap"]
        start, end = found.span(group)  # type: ignore[arg-type]
        if group == "tail":
            break
        if group == "other":
            carried |= _flags(gap) | DASH
            continue
        if group == "clock":
            carried |= _flags(gap)
            continue
        flags = (_flags(gap) if gap else 0) | carried
        carried = 0
        if len(tokens) >= MOST_WORDS:
            cut = True
            break
        raw = found[group]  # type: ignore[index]
        if last_kind in _COUNTS and gap and (gap[0] == '"' or gap[:2] in ("''", ' "')):
            append(Token("unit", '"', start - len(gap), start - len(gap) + 1, 0))
            last_kind, last_text = "unit", "in"
        if flags & STOP and not flags & LINE and gap[:2] in (".,", ".;"):
            flags &= ~STOP
        if flags & STOP and not flags & LINE and last_text in _ABBREVIATED and gap.lstrip()[:1] == ".":
            follows = text[start]
            if (
                (
                    group in ("number", "list", "range")
                    and (
                        last_kind in _CRAFTS
                        or last_text in ("no", "nos", "rep", "rnd", "r", "tog", "dec", "inc", "decs", "beg")
                    )
                )
                or ("a" <= follows <= "z")
                or gap[:2] in (".,", ".;", ".:", ".-")
            ):
                flags &= ~STOP
        if group == "word":
            word = words.get(raw)
            if word is None and "'" in raw:
                word = words.get(raw.replace("'", ""))
            kind, means = word or ("word", "")
            if kind == "number" and int(means) < 10 and tokens and gap in ("-", " ") and _tens(tokens[-1]):
                ten = tokens.pop()
                number = Number(((ten.number or Number((0,))).values[0] or 0,), ten.start, end)
                number = Number(((number.values[0] or 0) + int(means),), ten.start, end)
                append(Token(kind, f"{ten.text} {raw}", ten.start, end, ten.flags, "", number))
            elif kind in {"number", "ordinal"}:
                append(Token(kind, raw, start, end, flags, "", Number((int(means),), start, end)))
            else:
                append(Token(kind, raw, start, end, flags, means))
        elif group == "number":
            kind = "number"
            append(
                Token(
                    "number",
                    raw,
                    start,
                    end,
                    flags,
                    "",
                    Number((min(int(raw[:8]), MOST_STITCHES),), start, end),
                )
            )
        elif group == "open":
            kind = "("
            append(Token("(", raw, start, end, flags))
        elif group == "close":
            kind = ")"
            append(Token(")", raw, start, end, flags))
        elif group == "stars":
            kind = "stars"
            append(Token("stars", raw, start, end, flags))
        elif group == "dotted":
            raw = raw.replace(".", "").replace(" ", "")
            raw = "st st" if raw == "stst" else raw
            word = words.get(raw) or (Word("stocking") if raw == "st st" else Word("word"))
            kind = word.kind
            append(Token(kind, raw, start, end, flags, word.means))
        elif group == "list":
            kind = "number"
            _list(raw, start, end, flags, width, tokens)
        elif group == "range":
            kind = "range"
            values = [min(int(one[:8]), MOST_STITCHES) for one in re.findall("[0-9]+", raw)]
            append(
                Token("range", raw, start, end, flags, str(values[0]), Number(tuple(values[1:]), start, end))
            )
        elif group == "ordinal":
            kind = "ordinal"
            append(Token(kind, raw, start, end, flags, "", Number((int(raw[:-2]),), start, end)))
        else:
            kind = group or ""
            append(Token(kind, raw, start, end, flags))
        last_kind, last_text = kind, raw
        if kind == "word" or raw in known.phrases:
            pass
    tail = folded[tokens[-1].end :] if tokens else folded
    if last_kind in _COUNTS and tail[:1] == '"':
        append(Token("unit", '"', len(folded) - len(tail), len(folded) - len(tail) + 1, 0))
    flags = _flags(tail[:200]) | LINE | BLANK | STOP
    tokens = _phrases(tokens, known)
    append = tokens.append
    append(Token("end", "", len(text), len(text), flags))
    return Scan(tokens, cut)


_TENS: Final = frozenset(("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"))


def _tens(token: Token) -> bool:
    """Whether a number in words may go on: `thirty-two`."""
    return token.text in _TENS


_COUNTS: Final = frozenset(("number", "decimal", "list", "range"))
_UNBROKEN: Final = SEMI | STOP | COLON | LINE | EQUALS | TAB
_NO_COMMA: Final = _UNBROKEN | COMMA


def _list(raw: str, start: int, end: int, flags: int, width: int, tokens: list[Token]) -> None:
    """A list of sizes; where it cannot be, because there is one size, its first number and the bracket."""
    bracket = _BRACKETED.search(raw)
    values = tuple(
        min(int(one[:8]), MOST_STITCHES) if one.isdigit() else None for one in _DIGITS.findall(raw)
    )[:MOST_LISTED]
    often = bool(tokens) and tokens[-1].text == "x" and not flags & (DASH | EQUALS)
    unlike = often or (width == 1 and _apart(values))
    if bracket and bracket.start() and len(values) == 2 and width != 2 and unlike:
        place = start + bracket.start()
        first = raw[: bracket.start()].rstrip()
        inner = re.search("[0-9]+", raw[bracket.start() :])
        if inner and first.isdigit():
            at = place + inner.start()
            tokens.append(
                Token(
                    "number",
                    first,
                    start,
                    start + len(first),
                    flags,
                    "",
                    Number((values[0],), start, start + len(first)),
                )
            )
            tokens.append(Token("(", raw[bracket.start()], place, place + 1, SPACE))
            tokens.append(
                Token(
                    "number",
                    inner[0],
                    at,
                    at + len(inner[0]),
                    0,
                    "",
                    Number((values[1],), at, at + len(inner[0])),
                )
            )
            tokens.append(Token(")", raw[-1], end - 1, end, 0))
            return
    tokens.append(Token("number", raw, start, end, flags, "", Number(values, start, end)))


def _apart(values: tuple[int | None, ...]) -> bool:
    """Whether two numbers are too unlike for two sizes of one thing."""
    first, second = values[0] or 0, values[1] or 0
    return second > 2 * first + 4 or first > 2 * second + 4 or first == second


def _phrases(tokens: list[Token], known: Vocabulary) -> list[Token]:
    """The tokens with the words of a phrase made one."""
    phrases = known.phrases
    if not any(token.text in phrases for token in tokens):
        return tokens
    made: list[Token] = []
    place, count = 0, len(tokens)
    while place < count:
        token = tokens[place]
        options = phrases.get(token.text)
        if options is not None:
            for rest, word, _ in options:
                stop = place + 1 + len(rest)
                if stop > count:
                    continue
                barrier = (
                    _UNBROKEN
                    if word.kind in ("stitch", "passover", "pattern") and not any(map(str.isdigit, rest))
                    else _NO_COMMA
                )
                here = place + 1
                for text in rest:
                    other = tokens[here]
                    if other.text != text or other.flags & barrier:
                        break
                    here += 1
                else:
                    if token.kind == "slip" and word.kind == "stitch" and rest[0] == "knit":
                        pass
                    last = tokens[stop - 1]
                    made.append(
                        Token(
                            word.kind,
                            f"{token.text} {' '.join(rest)}",
                            token.start,
                            last.end,
                            token.flags,
                            word.means,
                        )
                    )
                    place = stop
                    break
            else:
                made.append(token)
                place += 1
                continue
        else:
            made.append(token)
            place += 1
    return made
