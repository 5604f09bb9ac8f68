"""Rounds that are told needle by needle: `Needle 1: ... Needles 2 and 3: as needle 1`, `front: ... back: the same`.

Their words are put in one line, the work of every needle where it is worked; `to end` is the end of the needle.
"""

from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from roundwright.wording.reading.tokens import (
    BLANK,
    COLON,
    COMMA,
    DASH,
    EQUALS,
    FULL,
    LINE,
    SEMI,
    STOP,
    Token,
    words_at,
)

MOST_NEEDLES: Final = 8
"""Needles in one round."""
_WORKED: Final = frozenset(("knit", "purl", "stitch", "slip"))
_SIDES: Final = {"front": 1, "back": 2}
_BREAKS: Final = LINE | STOP | FULL | SEMI | BLANK | COLON | DASH


class Head(Struct, frozen=True):
    """`Needles 2 and 3:`: the needles it names, and where its words begin and end."""

    needles: tuple[int, ...]
    start: int
    stop: int


def with_needles_joined(tokens: list[Token]) -> list[Token]:
    """The words with every round that is told needle by needle as one line."""
    tokens = _with_halves(tokens)
    heads = [head for place in range(len(tokens) - 1) if (head := _head(tokens, place))]
    if not heads:
        return tokens
    made: list[Token] = []
    done = 0
    runs = _runs(heads)
    for place, run in enumerate(runs):
        limit = runs[place + 1][0].start if place + 1 < len(runs) else len(tokens) - 1
        stop = _end(tokens, run[-1].stop, limit)
        joined = _joined(tokens, run, stop)
        if joined:
            made.extend(tokens[done : run[0].start])
            made.extend(joined)
            done = stop
    return [*made, *tokens[done:]]


def _with_halves(tokens: list[Token]) -> list[Token]:
    """The words with the halves of a long loop told as the needles they are: `on each half`, `12 sts each side`."""
    halves = any(token.text in _HALVES for token in tokens)
    if not halves:
        return tokens
    made: list[Token] = []
    for place, token in enumerate(tokens):
        before = tokens[place - 1] if place else token
        side = token.text in ("side", "sides") and before.text.endswith("each")
        made.append(replace(token, kind="needle") if side or token.text in _HALVES else token)
    return made


_HALVES: Final = ("half", "halves")


def _head(tokens: list[Token], place: int) -> Head | None:
    """The head that begins here: `Needle 1:`, `front:`; None where there is none."""
    token = tokens[place]
    ordered = token.kind == "ordinal" or token.text == "on"
    if ordered and (ordinal := _head_by_order(tokens, place)):
        return ordinal
    if token.text in _SIDES:
        behind = place + 2 if tokens[place + 1].kind == "needle" else place + 1
        if tokens[min(behind, len(tokens) - 1)].flags & COLON:
            return Head((_SIDES[token.text],), place, behind)
    if token.kind != "needle" or not (place == 0 or token.flags & (LINE | STOP | SEMI | COLON)):
        return None
    needles, at = _needles_named(tokens, place + 1, ("number", "range"))
    if not needles or not tokens[at].flags & (COLON | DASH) or tokens[at].flags & LINE:
        return None
    return Head(tuple(needles), place, at)


def _head_by_order(tokens: list[Token], place: int) -> Head | None:
    """`1st and 3rd needle:`, `On the 2nd needle, knit`, `On needles 1 and 3 knit`: a head by order; else None."""
    first = tokens[place]
    if not (place == 0 or first.flags & (LINE | STOP | SEMI | COLON)):
        return None
    on = first.text == "on"
    at = place + on
    at += at > place and tokens[at].text == "the"
    if on and tokens[at].kind == "needle":
        needles, behind = _needles_named(tokens, at + 1, ("number", "range"))
    else:
        needles, at = _needles_named(tokens, at, ("ordinal",))
        behind = at + 1
    if not needles or behind >= len(tokens) or tokens[at].kind != "needle" or tokens[behind].flags & LINE:
        return None
    signed = tokens[behind].flags & (COLON | DASH)
    listed = (on or tokens[behind].flags & COMMA) and tokens[behind].kind in _WORKED
    return Head(tuple(needles), place, behind) if signed or listed else None


def _needles_named(tokens: list[Token], at: int, kinds: tuple[str, ...]) -> tuple[list[int], int]:
    """The needles that words of these kinds name, up to a colon or a dash, and where other words begin."""
    needles: list[int] = []
    limit = min(len(tokens) - 1, at + 2 * MOST_NEEDLES)
    while at < limit and not (needles and tokens[at].flags & (COLON | DASH)):
        token = tokens[at]
        if token.kind in kinds and token.number is not None:
            last = token.number.of(0) or 0
            first = int(token.means) if token.kind == "range" else last
            first = needles[-1] + 1 if needles and tokens[at - 1].text == "to" else first
            needles.extend(range(first, min(last, MOST_NEEDLES) + 1))
        elif token.text not in ("and", "&", "to"):
            break
        at += 1
    return needles, at


def _runs(heads: list[Head]) -> list[list[Head]]:
    """The heads of each round: those that number its needles from 1 on."""
    runs: list[list[Head]] = []
    for head in heads:
        if head.needles[0] == 1:
            runs.append([head])
        elif runs and head.needles[0] == _next_needle(runs[-1]):
            runs[-1].append(head)
    return [run for run in runs if max(run[-1].needles) > 1 and _next_needle(run) > _last_needle(run)]


def _next_needle(run: list[Head]) -> int:
    """The first needle that is not told yet."""
    needles = {needle for head in run for needle in head.needles}
    return next(needle for needle in range(1, len(needles) + 2) if needle not in needles)


def _last_needle(run: list[Head]) -> int:
    """The highest number of a needle that is told."""
    return max(needle for head in run for needle in head.needles)


def _end(tokens: list[Token], begin: int, limit: int) -> int:
    """Where the work of the last needle ends: at the end of its sentence or line, where a round or the next begins."""
    place, behind = begin + 1, 0
    while place < limit and not tokens[place].flags & (LINE | FULL | EQUALS):
        if tokens[place].kind == "(" and place >= behind:
            behind = _end_of_aside(tokens, place, limit)
            if not behind:
                break
        if tokens[place].kind == "round" and tokens[min(place + 2, limit)].flags & COLON:
            break  # `Rnd 2:`
        place += 1
    return place


def _end_of_aside(tokens: list[Token], begin: int, limit: int) -> int:
    """Behind a bracket amid work: `ssk (sl 1, k1, psso), knit to end`; 0 where it ends the work."""
    stop = next((at for at in range(begin + 1, limit) if tokens[at].kind == ")"), limit)
    amid = stop + 1 < limit and tokens[stop + 1].flags & COMMA
    return stop + 1 if amid and tokens[stop + 1].kind in _WORKED else 0


def _joined(tokens: list[Token], run: list[Head], stop: int) -> list[Token]:
    """The work of all needles in one line; empty where one has none, or that of a needle that is not told."""
    by_needle: dict[int, list[Token]] = {}
    stops = [head.start for head in run[1:]] + [stop]
    for head, begun in zip(run, stops, strict=True):
        end = begun
        while end > head.stop + 1 and end != stop and tokens[end - 1].text in ("on", "the"):
            end -= 1
        work = tokens[head.stop : end]
        other = _other(work, head.needles[0])
        if other:
            if other not in by_needle:
                return []
            work = by_needle[other]
        if not work:
            return []  # `Front: Back: k2tog`: nothing is told yet for the first
        for needle in head.needles:
            by_needle[needle] = work
    made: list[Token] = []
    begins = tokens[run[0].start].flags
    begins &= ~(LINE | STOP | FULL | BLANK) if begins & COLON else ~0  # 1st round: and the needles below
    for needle in sorted(by_needle):
        work = by_needle[needle]
        first, *others = _to_marker(work)
        flags = first.flags & ~_BREAKS | COMMA if made else first.flags | begins
        made.append(replace(first, flags=flags if made else flags & ~DASH))
        made.extend(others)
    return made


def _other(work: list[Token], needle: int) -> int:
    """The needle whose work is done on this too: `as needle 1`, `the same`; 0 where it has its own."""
    if not work:
        return needle - 1
    texts = [token.text for token in work]
    if "same" in texts[:3] and len(texts) <= 3 and not any(token.kind == "number" for token in work):
        return needle - 1
    same = work[0].kind == "as" or texts[0] in ("as", "like", "same")
    if same and len(work) <= 5 and work[-1].kind == "number" and work[-1].number is not None:
        return work[-1].number.of(0) or 0
    ordered = next((token.number for token in work[1:4] if token.kind == "ordinal"), None)
    if same and ordered is not None and len(work) <= MOST_AS_OTHER:
        return ordered.of(0) or 0  # as 1st needle
    return needle - 1 if same and len(work) <= 2 else 0


MOST_AS_OTHER: Final = 5
"""Words of `as on the 1st needle`."""


def _without_needle(work: list[Token]) -> list[Token]:
    """The words without `of the needle` behind an end, and without `on this needle`."""
    made: list[Token] = []
    for place, token in enumerate(work):
        if token.kind == "needle" and place > 1 and [work[place - 2].text, work[place - 1].text] in _ON_THIS:
            del made[-2:]
            continue
        ends = next((at for at in range(place - 1, max(place - 4, -1), -1) if work[at].kind != ""), -1)
        if token.kind == "needle" and ends >= 0 and work[ends].kind == "end":
            del made[len(made) - (place - ends - 1) :]
            continue
        made.append(token)
    return made


_ON_THIS: Final = (["on", "this"], ["of", "this"], ["on", "your"], ["of", "your"])


def _with_last(work: list[Token]) -> list[Token]:
    """The words with `knit to 3 sts from the end` told as `knit to last 3 sts`."""
    made: list[Token] = []
    for token in work:
        made.append(token)
        far = [word for word in made[-MOST_FROM_END:] if word.text != "the"]
        kinds = [word.kind for word in far[-5:-3]]
        before = kinds in (["to", "number"], ["until", "number"])
        if token.kind == "end" and before and far[-3].kind == "stitch_noun" and far[-2].text in _FROM:
            number = next(at for at in range(len(made) - 1, 0, -1) if made[at] is far[-4])
            del made[number + 2 :]
            made[number:number] = words_at(far[-4].start, ("last", "last"))
    return made


MOST_FROM_END: Final = 6
"""Words of `to 3 sts from the end`."""
_FROM: Final = ("from", "before")


def _to_marker(work: list[Token]) -> list[Token]:
    """The work of a needle with its end told as a marker."""
    made: list[Token] = []
    work = _with_last(_without_needle(work))
    for place, token in enumerate(work):
        before = work[place - 1] if place else None
        far = work[place - 2] if place > 1 and before is not None and before.text == "the" else before
        if token.kind == "end" and far is not None and far.kind in ("to", "until"):
            made.append(replace(token, kind="marker", text="marker"))
            continue
        made.append(token)
        following = work[place + 1] if place + 1 < len(work) else None
        counted = token.kind == "number" and before is not None and before.kind == "last"
        nouns = token.kind == "stitch_noun" and place > 1 and work[place - 2].kind == "last"
        if (counted and (following is None or following.kind != "stitch_noun")) or nouns:
            made.append(Token("before", "before", token.end, token.end, 0))
            made.append(Token("marker", "marker", token.end, token.end, 0))
    return made
