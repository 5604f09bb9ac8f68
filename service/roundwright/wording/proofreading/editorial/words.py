"""What an editor asks about words: abbreviations explained and used, US and UK terms, words of flat knitting."""

import re
from collections.abc import Iterator
from functools import cache
from types import MappingProxyType
from typing import Final

from roundwright import reference
from roundwright.wording.proofreading import messages
from roundwright.wording.proofreading.editorial.sheet import Printed, Sheet
from roundwright.wording.proofreading.findings import Finding
from roundwright.wording.reading.tree import Stitch, walk
from roundwright.wording.reading.vocabulary import vocabulary

_SECTION: Final = re.compile(r"^\W{0,8}abbreviations?\b", re.IGNORECASE)
_ENTRY: Final = re.compile(
    r"(?:^|[;,.(]|\s{2,8})\s{0,8}([A-Za-z][A-Za-z0-9]{0,9}(?:\(s\))?)(?:\.,\s|\.?\s{0,4}(?:[:=]|\s[–—-]\s))"
)
_SPELLED: Final = MappingProxyType({"knit": "k", "purl": "p"})
"""Stitches that are written out where they are the whole round, `Rnd 2: purl`."""
FEWEST: Final = 2
"""Entries of a list of abbreviations."""


def _section(sheet: Sheet) -> list[Printed]:
    """The lines of the list of abbreviations, its heading among them."""
    section: list[Printed] = []
    for printed in sheet.lines:
        if section:
            apart = printed.line.line > section[-1].line.line + 1 and len(section) > 1
            apart = apart or _heads_other(printed.text)
            if apart or printed.line.kind not in ("prose", "heading") or not _ENTRY.search(printed.text):
                break
            section.append(printed)
        elif _SECTION.match(printed.text):
            section.append(printed)
    return section


def _heads_other(line: str) -> bool:
    """Whether a line begins with what else is told before the rounds: `Tension: 26 sts`, `Yarn: 50 g`."""
    word = re.match(r"\s{0,8}([a-z]{3,12})\s{0,3}:", line.lower())
    kind, _ = (vocabulary("en").words.get(word[1]) if word else None) or ("", "")
    return kind in _TOLD


_TOLD: Final = frozenset(("told", "yarn", "needle", "size"))
"""Kinds of the words that head what is told before the rounds."""


def _explained(section: list[Printed]) -> dict[str, int]:
    """The abbreviations that are explained, each with where it stands."""
    words: dict[str, int] = {}
    for printed in section:
        heading = _SECTION.match(printed.text)
        begin = heading.end() if heading else 0
        for entry in _ENTRY.finditer(printed.text, begin):
            words.setdefault(entry[1].lower().replace("(s)", ""), printed.start + entry.start(1))
    return words


def abbreviations(sheet: Sheet) -> Iterator[Finding]:
    """Stitches used and not explained, and words explained and not used, where there is a list of abbreviations."""
    section = _section(sheet)
    explained = _explained(section)
    if len(explained) < FEWEST:
        return
    for word, start in _stitches_used(sheet, section).items():
        if word not in explained:
            message = messages.abbreviation_not_explained(word)
            yield sheet.note("abbreviation_not_explained", start, message)
    begin, end = section[0].start, section[-1].start + len(section[-1].text)
    used = _words(sheet.text[:begin] + "\n" + sheet.text[end:])
    used.update(letter for word, letter in _SPELLED.items() if word in used)
    for word, start in explained.items():
        if word not in used:
            message = messages.abbreviation_not_used(word)
            yield sheet.note("abbreviation_not_used", start, message)


def _words(text: str) -> set[str]:
    """The words of a text, each also without the number at its end and without its `s`: `k` of `k6`."""
    words = set(re.findall(r"[a-z0-9]+", text.lower()))
    words.update([word.rstrip("0123456789") for word in words])
    words.update([word.removesuffix("s") for word in words])
    return words


def _stitches_used(sheet: Sheet, section: list[Printed]) -> dict[str, int]:
    """The abbreviations of stitches other than `k` and `p` in the rounds, each with where it first stands."""
    begin, end = section[0].start, section[-1].start + len(section[-1].text)
    used: dict[str, int] = {}
    for _, candidate in sheet.explained.explanation.choices:
        for node in walk(candidate.nodes):
            if type(node) is not Stitch or node.name in ("k", "p") or begin <= node.start < end:
                continue
            word = sheet.text[node.start : node.end].lower().rstrip(".")
            if re.fullmatch(r"[a-z]{1,4}[0-9]?[a-z]{0,5}", word) and any(
                char not in "aeiou" for char in word
            ):
                used.setdefault(word, node.start)
    return used


_YARNS: Final = frozenset(("fingering", "worsted", "bulky"))
"""Yarn classes: they are named by both terms side by side, `4-ply fingering`."""


def terms_mixed(sheet: Sheet) -> Iterator[Finding]:
    """US and UK terms in one text: of one pair both, such as `bind off` and `cast off`."""
    first: dict[str, int] = {}
    for term in _terms().finditer(sheet.text):
        first.setdefault(term[0].lower().replace("-", " "), term.start())
    for row in reference.terms() if len(first) > 1 else ():
        if row.us in _YARNS:
            continue
        us, uk = (first.get(word.replace("-", " ")) for word in (row.us, row.uk))
        if us is not None and uk is not None:
            message = messages.terms_mixed(row.us, row.uk)
            yield sheet.note("terms_mixed", max(us, uk), message)


@cache
def _terms() -> re.Pattern[str]:
    terms = sorted((term for row in reference.terms() for term in (row.us, row.uk)), key=len, reverse=True)
    words = "|".join("[ -]".join(map(re.escape, re.split("[ -]", term))) for term in terms)
    return re.compile(rf"\b(?:{words})", re.IGNORECASE)


_FLAT: Final = re.compile(
    r"\brow\s{1,3}[0-9]+|\bWS\b|\bwrong side row|\b(?:sew|join|seam)\b[^.\n]{0,20}\bseam\b", re.IGNORECASE
)
_ROUND: Final = re.compile(r"\bin (?:the )?rounds?\b|\bjoin\b[^.\n]{0,30}\b(?:round|twist)", re.IGNORECASE)


def flat_words(sheet: Sheet) -> Iterator[Finding]:
    """`Row 5`, a seam or `WS` in work in the round."""
    if not _ROUND.search(sheet.text):
        return
    if len(re.findall(r"^\W*(?:rnd|round)s?\b", sheet.text, re.IGNORECASE | re.MULTILINE)) < FEWEST:
        return
    for printed in sheet.lines:
        match = _FLAT.search(printed.text)
        if match and not re.search(r"\bturn\b|\bflat\b|\bno seam", printed.text, re.IGNORECASE):
            yield sheet.note("flat_words", printed.start + match.start(), messages.flat_word(match[0]))
