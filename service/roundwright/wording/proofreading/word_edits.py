"""Edits of a doubtful line that change a word: another stitch, one put in or taken out, a bracket, a misspelling."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Final

from msgspec.structs import replace

from roundwright.knitting.rounds.round import StitchName
from roundwright.language import ENGLISH_WORDS
from roundwright.wording.proofreading.doubtful import Doubtful
from roundwright.wording.proofreading.rewriting import Edit, Edits, plain_name
from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.parsing.looking import TWO_AS_ONE
from roundwright.wording.reading.tree import (
    ONE,
    Fill,
    Group,
    Node,
    Nodes,
    Number,
    Stitch,
    Unknown,
    walk,
)
from roundwright.wording.reading.vocabulary import (
    KIND_TOGETHER,
    nearest,
    nearest_by_one_slip,
    respelt,
    words_of,
)
from roundwright.wording.writing.size_lists import size_list

_USUAL: Final[tuple[StitchName, ...]] = ("k2tog", "ssk", "yo", "m1", "kfb")
_PLAIN: Final = ("k", "p", "sl")
_PAIRS: Final = {"(": ")", "[": "]", "{": "}", ")": "(", "]": "[", "}": "{"}
_SLIPPED: Final = re.compile(r"\b(?:sl|s)\s?\.?\s?[12]\b", re.IGNORECASE)
_ONE_MORE: Final = re.compile(r",\s*[^,;.*()\[\]]{1,12}(?=[,;.*)\]])")
_LIST: Final = re.compile(r"(?<=[(\[])\s*[0-9]{1,5}(?:[\s.,;]{1,3}[0-9]{1,5}){1,12}(?=\s*[)\]])")
_CLOSES: Final = re.compile(r"(?=,|;|\s+[0-9]+\s*(?:times|x)|\s+(?:around|to end|twice)|\.|$)")
_OPENS: Final = re.compile(r"[:.;]\s*(?:[-–—]\s*)?|,\s*")
_ONE_MORE_TOGETHER: Final[dict[StitchName, tuple[str, str, StitchName]]] = {
    "k2tog": ("2", "3", "k3tog"),
    "k3tog": ("3", "2", "k2tog"),
    "p2tog": ("2", "3", "p3tog"),
    "p3tog": ("3", "2", "p2tog"),
}
_SIGNS: Final = " \t\r\n.,;:"
"""What may stand between the last word of a line and its end."""
FARTHER: Final = 0.3
"""How much more a stitch is whose spelling is two slips of the fingers away, where another is one slip away."""
OTHER_STITCH: Final = 1.2
NEW_STITCH: Final = 0.6
"""How much more a stitch is that the text has nowhere."""
PUT_IN: Final = 2.0
GOES_ON: Final = 0.7
"""How much more it is to take stitches together that the line below works one by one."""
LIKE_OTHERS: Final = -0.5
"""How much less a stitch is that stands beside the same in another line."""
MOST_PLACES: Final = 8
MOST_PUT_IN: Final = 24


def swaps(doubtful: Doubtful, candidate: Candidate) -> Iterator[Edits]:
    """Another stitch in place of one."""
    spellings = doubtful.stitches
    names = [name for name in dict.fromkeys((*spellings, *_USUAL)) if name not in _PLAIN][:MOST_PLACES]
    segment = doubtful.segment
    # beside plain stitches a decrease that the text has nowhere is no likelier than a round left out before
    alone = not any(type(node) is Stitch and node.name in _PLAIN for node in walk(candidate.nodes))
    for node in walk(candidate.nodes):
        if type(node) is not Stitch or node.bare or not segment.start <= node.start < segment.end:
            continue
        if node.times.start >= 0 and node.times.values != (1,):
            yield from _taken_together(doubtful, candidate, node)
            continue
        other = _ONE_MORE_TOGETHER.get(node.name)
        spelling = doubtful.text[node.start : node.end]
        likely = alone or (other and any(name[1:] == other[2][1:] for name in spellings))
        if other and likely and spelling[:6].count(other[0]) == 1:
            nodes = _with_stitches(candidate.nodes, node.start, [replace(node, name=other[2])])
            if all(doubtful.fits(nodes, lane, candidate) for lane in doubtful.lanes()):
                yield (Edit(node.start, node.end, spelling.replace(other[0], other[1], 1), 1.1),)
        for name in names:
            nodes = _with_stitches(candidate.nodes, node.start, [replace(node, name=name)])
            if name != node.name and all(doubtful.fits(nodes, lane, candidate) for lane in doubtful.lanes()):
                new = spellings.get(name, name)
                size = OTHER_STITCH + (0.0 if name in spellings else NEW_STITCH)
                size += 0.04 * abs(len(new) - len(spelling))
                yield (Edit(node.start, node.end, new, size),)


def _taken_together(doubtful: Doubtful, candidate: Candidate, node: Stitch) -> Iterator[Edits]:
    """The last two of some plain stitches taken together: `k2tog` in place of `k2`, `k1, k2tog` of `k3`."""
    method = TWO_AS_ONE.get(node.name)
    plain = (node.times.values[0] or 0) - 2
    if method is None or plain < 0 or len(node.times.values) > 1:
        return
    stitches = [Stitch(method, ONE, node.end, node.end)]
    if plain:
        stitches.insert(0, replace(node, times=Number((plain,))))
    nodes = _with_stitches(candidate.nodes, node.start, stitches)
    if all(doubtful.fits(nodes, lane, candidate) for lane in doubtful.lanes()):
        spelling = doubtful.text[node.start : node.end]
        before = spelling.replace(str(plain + 2), str(plain), 1) + ", " if plain else ""
        new = doubtful.stitches.get(method, method)
        size = OTHER_STITCH + 0.04 * len(before) + (0.0 if method in doubtful.stitches else NEW_STITCH)
        size += GOES_ON * any(
            below.name == node.name and below.times.values == node.times.values for below in doubtful.below()
        )
        yield (Edit(node.start, node.end, before + new, size),)


def _with_stitches(nodes: Nodes, start: int, stitches: Sequence[Stitch]) -> Nodes:
    """The nodes with others in place of the stitch that is printed at `start`."""
    made: list[Node] = []
    for node in nodes:
        if isinstance(node, Group | Fill):
            made.append(replace(node, nodes=_with_stitches(node.nodes, start, stitches)))
        elif type(node) is Stitch and node.start == start:
            made.extend(stitches)
        else:
            made.append(node)
    return tuple(made)


def put_in(doubtful: Doubtful) -> list[Edits]:
    """A stitch that was left out, put in before or behind another."""
    chosen, segment, text = doubtful.chosen, doubtful.segment, doubtful.text
    if chosen is None or not chosen.nodes:
        return []
    nodes = [
        node
        for node in walk(chosen.nodes)
        if type(node) is Stitch and segment.start <= node.start < segment.end
    ]
    beside = _side_by_side(doubtful)
    edits: list[Edit] = []
    for option, stitch in _left_out_words(doubtful):
        name = plain_name(option)
        for node in nodes[:MOST_PLACES]:
            if stitch is not None and not _fits_beside(doubtful, node, stitch):
                continue
            here = plain_name(text[node.start : node.end])
            behind = PUT_IN + (LIKE_OTHERS if (here, name) in beside else 0.0)
            ahead = PUT_IN + 0.1 + (LIKE_OTHERS if (name, here) in beside else 0.0)
            edits.append(Edit(node.end, node.end, f", {option}", behind))
            edits.append(Edit(node.start, node.start, f"{option}, ", ahead))
    edits.sort(key=lambda edit: edit.size)
    return [(edit,) for edit in edits[:MOST_PUT_IN]]


def _fits_beside(doubtful: Doubtful, node: Stitch, stitch: Stitch) -> bool:
    """Whether the line comes out with a stitch put in beside one of its own."""
    for candidate in doubtful.trees:
        nodes = _with_stitches(candidate.nodes, node.start, [node, stitch])
        if all(doubtful.fits(nodes, lane, candidate) for lane in doubtful.lanes()):
            return True
    return False


def _left_out_words(doubtful: Doubtful) -> list[tuple[str, Stitch | None]]:
    """What may have been left out: as it is printed in the lines around, or else as the text spells it."""
    options: dict[str, Stitch | None] = {}
    if _SLIPPED.search(doubtful.words) and "psso" not in doubtful.words.lower():
        options["psso"] = None
    purls: dict[str, Stitch] = {}
    for line in doubtful.around(3):
        purls.update({doubtful.text[node.start : node.end]: node for node in line if node.name == "p"})
    options.update(list(purls.items())[:2])
    spellings = doubtful.stitches
    names = [name for name in dict.fromkeys((*spellings, *_USUAL)) if name not in _PLAIN]
    for name in names[:5]:
        options.setdefault(spellings.get(name, name), Stitch(name, ONE, -1, -1))
    return list(options.items())


def _side_by_side(doubtful: Doubtful) -> set[tuple[str, str]]:
    """Which stitches stand side by side in the lines before and after."""
    pairs: set[tuple[str, str]] = set()
    for line in doubtful.around(4):
        names = [plain_name(doubtful.text[node.start : node.end]) for node in line]
        pairs.update(pairwise(names))
    return pairs


def left_out(doubtful: Doubtful) -> Iterator[Edits]:
    """A stitch too many, taken out."""
    start = doubtful.segment.start
    for repeated in list(_ONE_MORE.finditer(doubtful.words))[:MOST_PLACES]:
        yield (Edit(start + repeated.start(), start + repeated.end(), "", 2.2),)


def once_more(doubtful: Doubtful, candidate: Candidate) -> Iterator[Edits]:
    """The stitches that a line prints again and again once more or once less: `k3, k2tog, k3, k2tog` on 15 stitches."""
    nodes, segment = candidate.nodes, doubtful.segment
    stitches = [node for node in nodes if type(node) is Stitch and segment.start <= node.start < segment.end]
    if len(stitches) < len(nodes):
        return
    alike = [(node.name, node.times.values) for node in stitches]
    for length in range(2, len(alike) // 2 + 1):
        if alike[-length:] != alike[-2 * length : -length]:
            continue
        start, end = stitches[-length - 1].end, stitches[-1].end
        more = (tuple(nodes + nodes[-length:]), Edit(end, end, doubtful.text[start:end], ONCE_MORE))
        less = (nodes[:-length], Edit(start, end, "", ONCE_MORE))
        for changed, edit in (more, less):
            if all(doubtful.fits(changed, lane, candidate) for lane in doubtful.lanes()):
                yield (edit,)
        return


ONCE_MORE: Final = 1.5
"""What it costs to work once more, or once less, what a line prints again and again."""
LAST_KNITTED: Final = 3.5
"""What it costs to knit the stitches that a repeat leaves over."""
LAST_OF_PAIRS: Final = 0.9
"""The same of the last of stitches that are worked together in pairs, which a knitter does without being told."""


def tails(doubtful: Doubtful, candidate: Candidate) -> Iterator[Edits]:
    """Stitches left over are knitted at the end, in each size its own: `to last 0 (2, 4) sts, knit to end`."""
    over = _left_over(doubtful, candidate)
    single = len(over) == 1
    if not any(over.values()) or not (single or len(over) == doubtful.width):
        return
    column, left = next(iter(over.items()))
    match candidate.nodes:
        case [*_, Fill(leave=leave, stated_at=(start, end), nodes=nodes)] if leave is None or not any(
            leave.values
        ):
            if start == end and (candidate.rounds is not None or candidate.length):
                return  # `*k2, p2* for 12 rounds, then ...`: nothing goes in behind the rounds
            if start == end:
                start = end = len(doubtful.text[:start].rstrip(_SIGNS))
            space = " " if start and not doubtful.text[start - 1].isspace() else ""
            counts = size_list([over[column] for column in sorted(over)], ENGLISH_WORDS)
            far = "st" if counts == "1" else f"{counts} sts"
            knitted = f"k{counts}" if counts.isdigit() else "knit to end"
            paired = len(nodes) == 1 and set(over.values()) <= {0, 1}  # k2tog around on 31
            yield (
                Edit(
                    start, end, f"{space}to last {far}, {knitted}", LAST_OF_PAIRS if paired else LAST_KNITTED
                ),
            )
        case [*_, Fill(leave=Number() as leave), Stitch("k", stitches)] if (
            single and leave.start >= 0 and stitches.start >= 0 and len(leave.values) == 1
        ):
            far_, times = leave.of(column) or 0, stitches.of(column) or 0
            if far_ == times:
                yield (
                    Edit(leave.start, leave.end, str(far_ + left), 1.3),
                    Edit(stitches.start, stitches.end, str(times + left), 1.3),
                )
        case _ if single and Fill not in [type(node) for node in candidate.nodes]:
            end = candidate.nodes[-1].end
            yield (Edit(end, end, f", k{left}", 3.0),)


def _left_over(doubtful: Doubtful, candidate: Candidate) -> dict[int, int]:
    """The stitches that the line leaves over, by the columns of its sizes; empty where it cannot be worked in all."""
    over: dict[int, int] = {}
    for lane in doubtful.lanes():
        worked = doubtful.worked(candidate.nodes, lane, candidate)
        if worked is None or worked.used > lane.count:
            return {}
        over[lane.column] = lane.count - worked.used
    return over


# --- signs and spelling


def brackets(doubtful: Doubtful) -> Iterator[Edits]:
    """A bracket that is missing or of the other kind."""
    text, start = doubtful.words, doubtful.segment.start
    opened: list[int] = []
    closes: list[int] = []
    opens: list[int] = []
    for bracket in re.finditer(r"[()\[\]{}]", text):
        at, sign = bracket.start(), bracket[0]
        if sign in "([{":
            opened.append(at)
            opens.append(at)
            continue
        closes.append(at)
        if opened and _PAIRS[text[opened[-1]]] != sign:
            yield (Edit(start + at, start + at + 1, _PAIRS[text[opened[-1]]], 1.0),)
        if opened:
            opened.pop()
    if len(opens) > len(closes):
        yield from _closed(text, start, opens)
    if len(closes) > len(opens):
        yield from _opened(doubtful, text, start, closes)


def _closed(text: str, start: int, opens: list[int]) -> Iterator[Edits]:
    for at in reversed(opens[-MOST_PLACES:]):
        for close in list(_CLOSES.finditer(text, at))[:MOST_PLACES]:
            place = start + close.start()
            yield (Edit(place, place, _PAIRS[text[at]], 1.0 + (close.start() - at) * 0.001),)


def _opened(doubtful: Doubtful, text: str, start: int, closes: list[int]) -> Iterator[Edits]:
    phrases = doubtful.segment.phrases
    body = phrases[0].start - start if phrases else 0
    for at in closes[:MOST_PLACES]:
        begins = [body, *(match.end() for match in _OPENS.finditer(text, 0, at) if match.end() > body)]
        for begin in begins[:6]:
            place = start + begin
            yield (Edit(place, place, _PAIRS[text[at]], 1.0 + 0.01 * begin),)


def lists(doubtful: Doubtful) -> Iterator[Edits]:
    """`5 (6. 7, 8)`, `5 (6 7, 8)`: a list of sizes with another sign where a comma should be, or with none."""
    start = doubtful.segment.start
    text = doubtful.text[start : doubtful.search.segments[doubtful.last].end]
    for match in _LIST.finditer(text):
        fixed = ", ".join(re.findall("[0-9]+", match[0]))
        if fixed != match[0]:
            yield (Edit(start + match.start(), start + match.end(), fixed, 1.0),)


def words(doubtful: Doubtful) -> Iterator[Edits]:
    """The stitch that looks most like a word nobody knows."""
    if doubtful.chosen is None:
        return
    spellings = doubtful.stitches
    unknown = [node for node in walk(doubtful.chosen.nodes) if type(node) is Unknown]
    for node in unknown[:3]:
        word = doubtful.text[node.start : node.end].lower()
        if meant := respelt(word, words_of(KIND_TOGETHER)):
            yield (Edit(node.start, node.end, meant, 1.0),)
        slipped = nearest_by_one_slip(word)
        for near in nearest(word):
            size = 1.0 if near in slipped or not slipped else 1.0 + FARTHER
            yield (Edit(node.start, node.end, spellings.get(near, near), size),)
