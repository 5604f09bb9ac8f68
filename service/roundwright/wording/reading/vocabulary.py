"""The words of written patterns: how each is spelled in print, and the scanner that cuts a line into them.

Case does not matter. A word that is not known comes out as WORD, a sign that is not known as OTHER: the grammar
(`pattern.lark`) takes the first for a stitch nobody knows and refuses the second.
"""

import re
from collections.abc import Iterator, Mapping
from difflib import get_close_matches
from functools import cache, lru_cache
from typing import Final

from msgspec import Struct

from roundwright import reference
from roundwright.knitting.rounds.round import StitchName

_SPELLED: Final = {
    # Kinds of word, with the words of that kind; US and UK alike, abbreviated or in full (common practice).
    "KNIT": "k knit ktbl",
    "PURL": "p purl ptbl",
    "SLIP": "sl slip",
    "MAKE": "m make",
    "TOGETHER": "tog together",
    "PSSO": "psso p2sso pass-slipped-stitch-over pass-slipped-st-over pass-sl-st-over pass-slipped-stitches-over",
    "ST": "st sts stitch stitches",
    "ROUND": "rnd rnds round rounds row rows rd rds r",
    "REP": "rep reps repeat repeats repeating",
    "FROM": "from",
    "BETWEEN": "between",
    "TO": "to through thru until-there-are",
    "LAST": "last",
    "FIRST": "first",
    "BEFORE": "before",
    "END": "end ending end-of-rnd end-of-round end-of-the-rnd end-of-the-round end-of-row end-of-the-row",
    "TOEND": "to-end to-the-end to-end-of-rnd to-end-of-round to-the-end-of-rnd to-the-end-of-the-round "
    "to-end-of-the-round to-the-end-of-round to-end-of-row to-the-end-of-the-row",
    "TOLAST": "to-last to-the-last until-last until-the-last",
    "AROUND": "around across",
    "ALL": "all every each whole entire and-all and-every",
    "UNTIL": "until till",
    "REMAIN": "rem remain remains remaining left",
    "TIMES": "times time x",
    "OFTEN": "once twice thrice",
    "MORE": "more again additional further",
    "TOTAL": "total in-all in-total altogether",
    "AS": "as same",
    "AND": "and &",
    "NEXT": "next",
    "FOR": "for",
    "FOLLOWING": "foll following",
    "ALTERNATE": "alt alternate other",
    "ODD": "odd odd-numbered",
    "EVEN": "even even-numbered plain straight",
    "FABRIC": "rib ribbing st-st stockinette stocking-stitch stockinette-stitch garter garter-stitch patt pattern "
    "as-est as-established as-set",
    "FEWER": "dec decs dec'd decreased decrease decreasing decreases",
    "ADDED": "inc incs inc'd increased increase increasing increases",
    "EVENLY": "evenly evenly-spaced evenly-across evenly-around",
    "SIDE": "rs ws right-side wrong-side",
    "SIZE": "size sizes",
    "ONLY": "only",
    "ORDINAL": "nd rd th",
    "MARK": "pm sm rm marker markers mrk bor place-marker place-m slip-marker slip-m sl-m sl-marker remove-marker "
    "join turn",
    # Said beside the stitches; they change no count.
    "": "the a an of then work works worked working cont continue with in on you have now this these those its it "
    "is are tbl tbls kwise knitwise pwise purlwise wyib wyif loosely mc cc",
}

_STITCHES: Final = {
    # Spellings of the stitches in print beside those of the table of abbreviations (common practice).
    "k2tog": "k2togtbl knit-two-together",
    "p2tog": "p2togtbl purl-two-together",
    "k3tog": "k3togtbl knit-three-together",
    "p3tog": "purl-three-together",
    "ssk": "slip-slip-knit",
    "ssp": "slip-slip-purl",
    "sssk": "s3k slip-slip-slip-knit",
    "skp": "s1kp sl1kp sl1k1psso slip-knit-pass-over",
    "sk2p": "sk2po sk2togp sl1k2togpsso slip-knit-two-together-pass-over",
    "cdd": "s2kpo s2k s2k1p s2kp2sso s2kp2 centered-double-decrease center-double-decrease",
    "kfb": "k1fb kf&b k1f&b knit-in-front-and-back knit-into-front-and-back knit-in-the-front-and-back",
    "pfb": "p1fb pf&b p1f&b purl-in-front-and-back purl-into-front-and-back",
    "m1l": "ml make-1-left make-one-left m1-left",
    "m1r": "mr make-1-right make-one-right m1-right",
    "m1p": "mp make-1-purl make-one-purl m1-purlwise m1-pwise make-1-purlwise",
    "m1": "make-one",
    "yo": "yon yrn yfwd yfrn yarn-over yarn-round-needle yarn-forward",
    "k": "k1tbl",
    "p": "p1tbl",
}

_NUMBERS: Final = {
    word: str(number)
    for number, word in enumerate(
        ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"),
        start=1,
    )
}

_SIGNS: Final = {
    "(": "LPAR", "[": "LPAR", "{": "LPAR", ")": "RPAR", "]": "RPAR", "}": "RPAR", ":": "COLON",
    ".": "STOP", "!": "STOP", "-": "DASH", "–": "DASH", "—": "DASH", "→": "DASH", "=": "DASH", "&": "AND",
}  # fmt: skip

_FOLD: Final = str.maketrans(
    "ABCDEFGHIJKLMNOPQRSTUVWXYZ’‘×\N{NO-BREAK SPACE}\N{HYPHEN}\N{NON-BREAKING HYPHEN}−_",
    "abcdefghijklmnopqrstuvwxyz''x --- ",
)
"""One sign for one: a place in the folded text is the same place in the text."""

_LIST: Final = r"[(\[]\s*+(?:[0-9]{1,7}|[-–—])(?:\s*+[,/:;]\s*+(?:[0-9]{1,7}|[-–—])){0,12}+\s*+[)\]]"
"""Further sizes behind a number: `(5, 6, 7)`."""

_CRAFTS: Final = frozenset(("KNIT", "PURL", "SLIP"))
_STOPPED: Final = _CRAFTS | {"NUMBER", "RANGE", "ROUND", "LPAR"}
"""Kinds of word that a number behind them would be taken to belong to, were there no full stop."""

LONGEST_WORD: Final = 24
"""Letters of a word that the nearest is looked for: none known has as many."""


class Token(Struct, frozen=True, gc=False):
    """A word or sign of a line: its kind, a terminal of the grammar; its text, folded; and where it stands."""

    type: str
    text: str
    start_pos: int
    end_pos: int


@cache
def kinds() -> Mapping[str, str]:
    """The kind of every word, phrases written with hyphens; a stitch's is STITCH."""
    known = {word: kind for kind, words in _SPELLED.items() for word in words.split()}
    known.update(dict.fromkeys(_NUMBERS, "NUMBER"))
    for word in stitch_names():
        known.setdefault(word, "STITCH")
    return known


@cache
def stitch_names() -> Mapping[str, StitchName]:
    """The stitch that each spelling means."""
    names = {_hyphened(text): name for text, name in reference.spellings().items()}
    names.update({_hyphened(row.words): name for name, row in reference.stitches().items()})
    names.update({word: name for name, words in _STITCHES.items() for word in words.split()})
    return names


def _hyphened(text: str) -> str:
    return re.sub(r"[\s,-]+", "-", text.lower())


@cache
def _scanner() -> re.Pattern[str]:
    phrases: dict[str, list[str]] = {}
    for phrase in sorted(kinds(), key=len, reverse=True):
        first, _, rest = phrase.partition("-")
        if rest and first.isalpha():
            phrases.setdefault(first, []).append(r"[\s,-]{1,4}".join(map(re.escape, rest.split("-"))))
    phrase = "|".join(f"{first}[\\s,-]{{1,4}}(?:{'|'.join(rests)})" for first, rests in phrases.items())
    return re.compile(
        rf"""
        (?P<WORD> [kp](?=[0-9]{{1,7}}(?:[kp][0-9]|(?![a-z&0-9])))       # k1p1: two stitches in one word
            | s2kp2 (?![a-z0-9])
            | (?:{phrase}) (?![a-z0-9&])
            | [a-z&]++ (?:[0-9]+[a-z&]+)*+ (?:'[a-z]+)?+ )
        | (?P<RANGE> [0-9]{{1,7}}[-–][0-9]{{1,7}}(?![0-9]) (?:\s*+{_LIST})?+ )
        | (?P<NUMBER> (?:[0-9]++|[-–](?=\ {_LIST})) (?:\s*+{_LIST}){{0,3}}+ | {_LIST})
        | (?P<STARS> \*++ (?:'?s(?![a-z]))?+)
        | (?P<MARK> [^\s,;"])
        """,
        re.VERBOSE,
    )


_LENGTHS: Final = frozenset(("UNTIL", "FOR", "TO"))
_LENGTH: Final = re.compile(
    r"(?:until|till|for|to)\b(?:[^.;:*\[\]]|\.(?=[0-9])){0,60}?"
    r"(?:\bmeasures?\b|[0-9½¼¾)] ?(?:cm|mm|ins?|inch|inches)\b|[0-9] ?\")(?:[^.;]|\.(?=[0-9])){0,120}"
)
"""`until the piece measures 12 cm from the edge`: to a length, not to a count."""


def scan(text: str) -> Iterator[Token]:
    """The words and signs of a line, without those that say nothing about the count. Takes time in its length.

    The text of a token is folded: lower case, phrases with hyphens, numbers in digits.
    """
    folded = text.translate(_FOLD)
    end = 0
    before = last = ""  # the kinds of the two words before
    for found in _scanner().finditer(folded):
        start = found.start()
        if start < end:
            continue  # inside a length
        kind, word, stop = _word(found, folded)
        if not kind or (kind == "STOP" and last not in _STOPPED):
            continue
        if kind == "ST" and last == "NUMBER" and before in _CRAFTS:
            continue  # knit 2 stitches
        if kind == "NUMBER" and last in _CRAFTS and end < start and folded[end] in ",;":
            yield Token("STOP", folded[end], end, end + 1)  # knit, 42 sts
            last = "STOP"
        end = stop
        yield Token(kind, word, start, end)
        before, last = last, kind


def _word(found: re.Match[str], folded: str) -> tuple[str, str, int]:
    """Kind, text and end of a word; no kind for one that says nothing."""
    kind, word = found.lastgroup or "", found.group()
    if kind == "WORD":
        kind_of = kinds()
        if word not in kind_of and not word.isalpha():
            word = _hyphened(word)
        kind = kind_of.get(word, "WORD")
        if kind == "NUMBER":
            word = _NUMBERS[word]
        elif kind in _LENGTHS and (length := _LENGTH.match(folded, found.start())):
            return "MEASURED", length.group(), length.end()
    elif kind == "MARK":
        kind = _SIGNS.get(word, "OTHER")
    return kind, word, found.end()


@lru_cache(maxsize=1024)  # a word that nobody knows stands in many lines of a pattern
def nearest(word: str) -> str | None:
    """The known word that looks most like this one, or None where none does."""
    if len(word) > LONGEST_WORD:
        return None
    close = get_close_matches(word, _common(), n=1, cutoff=0.6)
    return close[0] if close else None


@cache
def _common() -> tuple[str, ...]:
    """The words a slip of the pen may have meant, the names of the stitches before all others."""
    names = dict.fromkeys(reference.stitches())
    return (*names, *(word for word in kinds() if "-" not in word and len(word) > 2 and word not in names))
