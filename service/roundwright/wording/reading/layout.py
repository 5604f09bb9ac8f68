"""The lines of a text: which are told, which begin rounds, and where one round ends and the next begins."""

from typing import Final

from msgspec import Struct

from roundwright.wording.reading.labels import Label, label
from roundwright.wording.reading.phrases import (
    Again,
    Brackets,
    CastOn,
    Closing,
    Continue,
    Count,
    Extent,
    Fabric,
    Length,
    Lines,
    PassOver,
    Phrase,
    Rep,
    Rounds,
    Said,
    Star,
    Stitches,
    Then,
    Times,
    Until,
)
from roundwright.wording.reading.scanner import (
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
)
from roundwright.wording.reading.tree import Evenly, Stitch

MOST_LINES: Final = 1_000
"""Lines of one text that are read as rounds."""
MOST_IN_LINE: Final = 400
"""Words of one line: several times what anybody prints."""


class Segment(Struct, frozen=True):
    """Words that say one thing: a round, a number of rounds, rounds worked again.

    - `label`: what stands before it; None for the second of a line
    - `within`: whether it follows another in the same labelled line
    - `heading`: whether a heading stands before it
    - `told`: whether it stands under a heading whose lines are not worked
    - `first`, `stop`: its tokens
    """

    label: Label | None
    phrases: tuple[Phrase, ...]
    start: int
    end: int
    heading: bool
    told: bool
    troubles: tuple[tuple[str, str, int], ...] = ()
    alone: bool = True
    title: bool = False


_RUNS_ON: Final = frozenset(
    ("to", "from", "last", "around", "times", ")", "before", "", "repeat", "end", "until")
)
_OPEN: Final = frozenset(("repeat", "from", "to", "last", "and", "next", "until", "for"))


def lines_of(tokens: list[Token]) -> list[tuple[int, int]]:
    """First token and end of every line, with lines that run on joined."""
    lines: list[tuple[int, int]] = []
    begin = 0
    count = len(tokens) - 1
    for place in range(1, count + 1):
        token = tokens[place]
        if token.flags & LINE or place == count:
            if lines and _runs_on(tokens, lines[-1], begin, place):
                lines[-1] = (lines[-1][0], place)
            else:
                lines.append((begin, place))
            begin = place
    return lines if count > 0 else []


def _runs_on(tokens: list[Token], before: tuple[int, int], begin: int, stop: int) -> bool:
    """Whether a line goes on with what the one before began."""
    first = tokens[begin]
    if first.flags & BLANK or begin - before[0] > 400:
        return False
    last = tokens[begin - 1]
    if _labelled(tokens, begin, stop):
        return False
    opened = 0
    for place in range(max(before[0], begin - 60), begin):
        kind = tokens[place].kind
        opened += (kind == "(") - (kind == ")")
    if opened > 0 and first.kind != "stars":
        return True
    if first.flags & (FULL | COLON):
        return False
    if last.kind in _OPEN and first.kind != "stars":
        return True
    if first.flags & (COMMA | SEMI):
        return True
    if first.kind in _RUNS_ON and not (first.kind == "repeat" and not _star_open(tokens, before[0], begin)):
        return first.kind != "" or begin + 1 < stop
    return False


def _star_open(tokens: list[Token], begin: int, stop: int) -> bool:
    stars = sum(tokens[place].kind == "stars" for place in range(begin, stop))
    return stars == 1


def _labelled(tokens: list[Token], begin: int, stop: int) -> bool:
    return label(Lines(tokens, begin, stop)) is not None


class Laid(Struct):
    """A text as it is laid out: its segments, and the words that it was cut short at."""

    segments: list[Segment]
    cut: int | None = None


def segments(tokens: list[Token]) -> Laid:
    """The segments of a text, in order. Takes time in the number of its words."""
    laid = Laid([])
    told = heading = False
    opened = False
    for number, (begin, stop) in enumerate(lines_of(tokens)):
        if number >= MOST_LINES:
            laid.cut = tokens[begin].start
            break
        first = tokens[begin]
        if stop - begin > MOST_IN_LINE:
            if not any(
                tokens[place].kind in ("stars", "stitch", "(") for place in range(begin, stop)
            ) and not _labelled(tokens, begin, stop):
                laid.segments.append(_silent(tokens, begin, stop))
                continue
            long = ("too_long", f"This has more than {MOST_IN_LINE} words and is not read.", first.start)
            laid.segments.append(
                Segment(
                    None, (), first.start, tokens[stop - 1].end, heading=False, told=False, troubles=(long,)
                )
            )
            continue
        title = _title(tokens, begin, stop)
        colon = (
            title
            and begin + 1 < stop
            and any(tokens[place].flags & COLON for place in range(begin + 1, min(begin + 4, stop)))
        )
        if title:
            if not colon and stop - begin <= 6:
                told, heading = True, True
            laid.segments.append(_silent(tokens, begin, stop))
            continue
        pieces = _pieces(tokens, begin, stop, heading=heading, told=told)
        works = any(_working(piece.phrases) or piece.label for piece in pieces)
        casts = any(isinstance(phrase, CastOn) for piece in pieces for phrase in piece.phrases)
        short = stop - begin <= 8 and not tokens[stop].flags & FULL
        apart = bool(first.flags & BLANK) or begin == 0 or tokens[stop].flags & COLON or not opened
        if casts:
            told = False
            opened = True
        if not works and short:
            if apart or not told:
                told = False
                heading = True
            laid.segments.extend(pieces)
            continue
        if told and any(piece.label and piece.label.kind in ("numbered", "next") for piece in pieces):
            told = False
            pieces = _pieces(tokens, begin, stop, heading=heading, told=False)
        elif not told and pieces and pieces[0].told:
            pieces = _pieces(tokens, begin, stop, heading=heading, told=False)
        laid.segments.extend(pieces)
        if works:
            heading = False
    return laid


def _silent(tokens: list[Token], begin: int, stop: int) -> Segment:
    return Segment(None, (), tokens[begin].start, tokens[stop - 1].end, heading=False, told=True, title=True)


def _title(tokens: list[Token], begin: int, stop: int) -> bool:
    """Whether a line is or begins with the name of something that is told: `Gauge`, `Materials:`."""
    kind = tokens[begin].kind
    if kind == "told":
        return True
    if (
        kind in ("needle", "yarn", "size")
        and begin + 1 < stop
        and tokens[begin + 1].flags & (COLON | DASH)
        and tokens[begin + 1].flags
    ):
        return tokens[begin].text not in ("a", "mc", "cc")
    return False


def _pieces(tokens: list[Token], begin: int, stop: int, *, heading: bool, told: bool) -> list[Segment]:
    """The segments of one line."""
    lines = Lines(tokens, begin, stop, troubles=[])
    if lines.kind() == "stars" and lines.kind(1) in ("cast_on",):
        lines.place += 1
    found: list[Segment] = []
    current = label(lines)
    phrases: list[Phrase] = []
    start = tokens[begin].start
    while lines.place < stop:
        token = tokens[lines.place]
        tried = phrases and (token.flags & (STOP | SEMI | COLON) or isinstance(phrases[-1], Count | Brackets))
        if tried and (following := label(lines, strict=True)):
            found.extend(_segments(current, phrases, start, token.start, lines, heading=heading, told=told))
            current, phrases, start = following, [], token.start
            lines.troubles = []
            heading = False
            continue
        phrases.append(lines.one())
    found.extend(_segments(current, phrases, start, tokens[stop - 1].end, lines, heading=heading, told=told))
    return found


def _segments(
    of: Label | None,
    phrases: list[Phrase],
    start: int,
    end: int,
    lines: Lines,
    *,
    heading: bool,
    told: bool,
) -> list[Segment]:
    """What was read, cut where one thing ends and the next begins."""
    found: list[Segment] = []
    parts = _cut(of, phrases)
    troubles = tuple(lines.troubles)
    for place, part in enumerate(parts):
        begin = start if place == 0 else part[0].start
        stop = parts[place + 1][0].start if place + 1 < len(parts) else end
        mine = tuple(trouble for trouble in troubles if begin <= trouble[2] < max(stop, begin + 1))
        found.append(
            Segment(
                of if place == 0 else None,
                tuple(part),
                begin,
                stop,
                heading and place == 0,
                told,
                mine,
                alone=len(parts) == 1,
            )
        )
    if not parts and of is not None:
        found.append(Segment(of, (), start, end, heading, told, troubles))
    return found


_WORK: Final = (Stitches, Star, Fabric, Again, Rounds, PassOver, Closing, CastOn, Continue)


def _working(phrases: tuple[Phrase, ...] | list[Phrase]) -> bool:
    """Whether anything is worked in these phrases."""
    return any(
        isinstance(phrase, Stitches | Star | Fabric | Again | Rounds | Length)
        or (isinstance(phrase, Brackets) and _working(phrase.inside))
        for phrase in phrases
    )


def _counted(phrase: Phrase) -> bool:
    """Whether it is a count, with or without a bracket."""
    if isinstance(phrase, Count):
        return not phrase.sign
    return (
        isinstance(phrase, Brackets)
        and not _working(phrase.inside)
        and any(_counted(one) for one in phrase.inside)
    )


def _whole(phrase: Phrase, following: Phrase | None) -> bool:
    """Whether it begins whole rounds: `knit 2 rnds`, `work even`, `rep rnds 1 and 2`."""
    if isinstance(phrase, Again | Closing | CastOn):
        return True
    if isinstance(phrase, Stitches) and isinstance(phrase.node, Stitch) and phrase.node.bare:
        return isinstance(following, Rounds) and not following.flags & (STOP | SEMI | COLON)
    return False


def _cut(of: Label | None, phrases: list[Phrase]) -> list[list[Phrase]]:
    """The phrases of a line, cut into rounds.

    A round ends with its count; a sentence of its own, `then`, and whole rounds begin another.
    """
    parts: list[list[Phrase]] = []
    part: list[Phrase] = []
    worked = counted = whole = cast = False
    star = 0
    for place, phrase in enumerate(phrases):
        following = phrases[place + 1] if place + 1 < len(phrases) else None
        if (
            isinstance(following, Said)
            and not following.words
            and place + 2 < len(phrases)
            and not following.flags & STOP
        ):
            following = phrases[place + 2]
        works = isinstance(phrase, _WORK) or (isinstance(phrase, Brackets) and _working(phrase.inside))
        stop = bool(phrase.flags & STOP)
        begins = _whole(phrase, following)
        again = isinstance(phrase, Rep)
        cut = False
        if part and worked:
            if (works or isinstance(phrase, Rounds | Length)) and cast and not isinstance(phrase, Closing):
                cut = True
            elif works and counted:
                cut = star % 2 == 0 or isinstance(phrase, Closing)
            elif (
                begins
                and (stop or phrase.flags & (SEMI | COMMA) or isinstance(part[-1], Then | Extent | Times))
                and star % 2 == 0
            ):
                cut = not (isinstance(phrase, Stitches) and whole and not stop)
            elif stop and not again and (works or isinstance(phrase, Said | Then | Rounds | Length)):
                spoken = (
                    of is not None
                    and isinstance(phrase, Stitches)
                    and not whole
                    and not begins
                    and not counted
                )
                cut = not spoken
                if isinstance(phrase, Said | Then) and of is not None and star % 2 == 1:
                    cut = False
        if cut and isinstance(phrase, Closing | CastOn | Again) and isinstance(part[-1], Then):
            pass
        if cut:
            carried: list[Phrase] = []
            while part and isinstance(part[-1], Then):
                carried.insert(0, part.pop())
            if part:
                parts.append(part)
            part = carried
            worked = counted = whole = cast = False
            star = 0
        cast = cast or isinstance(phrase, CastOn)
        part.append(phrase)
        if isinstance(phrase, Star):
            star += 1
        if again:
            star = 0
        if works:
            worked = True
            whole = whole or begins or isinstance(phrase, Fabric | Rounds)
            counted = False
        if isinstance(phrase, Rounds | Length):
            worked = True
        if worked and _counted(phrase) and (phrase.end and _final(phrase, following)):
            counted = True
    if part:
        parts.append(part)
    return parts


def _final(phrase: Phrase, following: Phrase | None) -> bool:
    """Whether a count ends its round: a bare number does only before a sign."""
    if isinstance(phrase, Count) and not phrase.sure:
        return (
            following is None
            or bool(following.flags & (STOP | SEMI | COMMA | COLON))
            or isinstance(following, Closing | Then)
        )
    return True


def shaping(phrases: tuple[Phrase, ...]) -> bool:
    """Whether stitches are taken away or added evenly."""
    return any(isinstance(one, Stitches) and isinstance(one.node, Evenly) for one in phrases)


def separated(phrase: Phrase) -> bool:
    """Whether a sign stands before a phrase that sets it apart."""
    return bool(phrase.flags & (COMMA | DASH | EQUALS | STOP | SEMI))


def continues(phrase: Phrase) -> bool:
    """Whether it says how far or how often."""
    return isinstance(phrase, Extent | Times | Until | Length)
