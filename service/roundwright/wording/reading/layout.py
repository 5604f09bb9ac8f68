"""The lines of a text: which are told, which begin rounds, and where one round ends and the next begins."""

from collections.abc import Mapping
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from roundwright.wording.reading.definitions import with_definitions
from roundwright.wording.reading.labels import Label, label
from roundwright.wording.reading.parsing.lines import Lines
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
    TAB,
    Token,
)
from roundwright.wording.reading.sizes import NO_NAMES, names_of, width_of
from roundwright.wording.reading.tree import Evenly, Stitch

MOST_LINES: Final = 450
"""Lines of one text, more than a hat has rounds: a book of patterns is sent pattern by pattern."""
MOST_IN_LINE: Final = 400
"""Words of one line: several times what anybody prints."""


class Segment(Struct, frozen=True, gc=False):
    """Words that say one thing: a round, a number of rounds, rounds worked again.

    - `label`: what stands before it; None for the second of a line
    - `within`: whether it follows another in the same labelled line
    - `heading`: whether a heading stands before it
    - `intro`: whether it ends with a colon that introduces the lines below
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
    intro: bool = False


_RUNS_ON: Final = frozenset(
    ("to", "from", "last", "around", "times", ")", "before", "", "repeat", "end", "until")
)
_CONNECTING: Final = frozenset(("and", "or", "with", "but", "until", "of", "which", "between", "without"))
"""Words with which a broken line of prose goes on."""
_OPEN: Final = frozenset(("repeat", "from", "to", "last", "and", "next", "until", "for"))


def lines_of(tokens: list[Token], names: Mapping[str, int] = NO_NAMES) -> list[tuple[int, int]]:
    """First token and end of every line, with lines that run on joined."""
    lines: list[tuple[int, int]] = []
    begin = 0
    count = len(tokens) - 1
    for place in range(1, count + 1):
        token = tokens[place]
        if token.flags & LINE or place == count:
            runs_on = bool(lines) and _runs_on(tokens, lines[-1], begin, place)
            if runs_on and not _labelled(tokens, begin, place, names):
                lines[-1] = (lines[-1][0], place)
                if tokens[begin].text in _CONNECTING:
                    tokens[begin] = replace(tokens[begin], flags=tokens[begin].flags & ~(LINE | STOP))
            else:
                lines.append((begin, place))
                if len(lines) > MOST_LINES:
                    break
            begin = place
    return lines if count > 0 else []


def _runs_on(tokens: list[Token], before: tuple[int, int], begin: int, stop: int) -> bool:
    """Whether a line goes on with what the one before began, unless it begins a round."""
    first = tokens[begin]
    if first.flags & BLANK or begin - before[0] > 400:
        return False
    last = tokens[begin - 1]
    if first.text in _CONNECTING and not first.flags & (FULL | COLON) and begin - before[0] > 8:
        return True
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


def _labelled(tokens: list[Token], begin: int, stop: int, names: Mapping[str, int] = NO_NAMES) -> bool:
    return label(Lines(tokens, begin, stop, names=names)) is not None


class Laid(Struct):
    """A text as it is laid out: its segments, and the words that it was cut short at."""

    segments: list[Segment]
    cut: int | None = None


def segments(tokens: list[Token], width: int = 1) -> Laid:
    """The segments of a text for so many sizes, in order. Takes time in the number of its words."""
    laid = Laid([])
    tokens = with_definitions(tokens)
    told = heading = False
    opened = False
    names = names_of(tokens, max(width, width_of(tokens)))
    carried: tuple[str, ...] = ()
    for number, (begin, stop) in enumerate(lines_of(tokens, names)):
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
        if _defines(tokens, begin, stop):
            laid.segments.append(_silent(tokens, begin, stop))
            continue
        if title:
            if not colon and stop - begin <= 6:
                told, heading = True, True
            laid.segments.append(_silent(tokens, begin, stop))
            continue
        pieces = _pieces(tokens, begin, stop, heading=heading, told=told, names=names)
        if first.flags & BLANK:
            carried = ()
        pieces, carried = _scoped(pieces, carried)
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
        if told and any(piece.label and piece.label.kind in ("numbered", "next", "step") for piece in pieces):
            told = False
            pieces = _pieces(tokens, begin, stop, heading=heading, told=False, names=names)
            pieces, carried = _scoped(pieces, carried)
        elif not told and pieces and pieces[0].told:
            pieces = _pieces(tokens, begin, stop, heading=heading, told=False, names=names)
            pieces, carried = _scoped(pieces, carried)
        if pieces and tokens[stop].flags & COLON:
            pieces[-1] = replace(pieces[-1], intro=True)
        laid.segments.extend(pieces)
        if works:
            heading = False
    return laid


def _silent(tokens: list[Token], begin: int, stop: int) -> Segment:
    return Segment(None, (), tokens[begin].start, tokens[stop - 1].end, heading=False, told=True, title=True)


def _defines(tokens: list[Token], begin: int, stop: int) -> bool:
    """Whether a line tells what a stitch is: `C6F: slip 3 sts to cable needle`, `k2tog = knit 2 together`."""
    if stop - begin < 2 or tokens[begin].kind not in ("stitch", "cable"):
        return False
    sign = tokens[begin + 1].flags
    first, second = tokens[begin], tokens[begin + 1]
    if (
        first.kind == "stitch" == second.kind
        and first.means == second.means
        and not sign & (COMMA | STOP | SEMI)
    ):
        return True
    return bool(sign & EQUALS) or (bool(sign & COLON) and tokens[begin + 1].kind not in ("number", "stars"))


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


def _scoped(pieces: list[Segment], carried: tuple[str, ...]) -> tuple[list[Segment], tuple[str, ...]]:
    """The segments of a line for some sizes only, and the sizes that the lines below are for."""
    made: list[Segment] = []
    sizes = carried
    for piece in pieces:
        named = piece.label
        if named is not None and named.scope:
            sizes = named.sizes or ()
        elif sizes and (named is None or named.sizes is None):
            named = replace(named, sizes=sizes) if named else Label("sizes", piece.start, sizes=sizes)
            piece = replace(piece, label=named)
        made.append(piece)
    alone = len(pieces) == 1 and pieces[0].label is not None and pieces[0].label.kind == "sizes"
    return made, sizes if carried or (alone and not pieces[0].phrases) else ()


def _pieces(
    tokens: list[Token],
    begin: int,
    stop: int,
    *,
    heading: bool,
    told: bool,
    names: Mapping[str, int] = NO_NAMES,
) -> list[Segment]:
    """The segments of one line."""
    lines = Lines(tokens, begin, stop, troubles=[], names=names)
    if lines.kind() == "stars" and lines.kind(1) in ("cast_on",):
        lines.place += 1
    found: list[Segment] = []
    current = label(lines)
    phrases: list[Phrase] = []
    start = tokens[begin].start
    while lines.place < stop:
        token = tokens[lines.place]
        tried = phrases and (
            token.flags & (STOP | SEMI | COLON | TAB) or isinstance(phrases[-1], Count | Brackets)
        )
        if token.kind == "number" and token.flags & COMMA:
            tried = False  # one of several numbers
        tried = tried or (
            token.kind == "round"
            and phrases
            and current is None
            and all(isinstance(one, Said) for one in phrases)
        )
        if tried and (following := label(lines, strict=True, after=current)):
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
    parts = _cut(None if of is not None and of.kind in ("sizes", "step") else of, unfolded(phrases))
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


def unfolded(phrases: list[Phrase]) -> list[Phrase]:
    """The phrases with groups of whole rounds told in other words.

    `[purl 1 rnd, knit 1 rnd] 5 times` becomes its rounds, and `the last 2 rnds`, `5 times` in all.
    """
    phrases = _starred(phrases)
    if not any(isinstance(phrase, Brackets) and _holds_rounds(phrase.inside) for phrase in phrases):
        return phrases
    made: list[Phrase] = []
    for place, phrase in enumerate(phrases):
        following = phrases[place + 1] if place + 1 < len(phrases) else None
        if (
            isinstance(phrase, Brackets)
            and isinstance(following, Times)
            and (many := _holds_rounds(phrase.inside))
        ):
            first, *others = phrase.inside
            made.append(replace(first, flags=phrase.flags | STOP))
            made.extend(others)
            made.append(Again(phrase.start, phrase.end, STOP, last=many))
        elif (
            isinstance(phrase, Times)
            and place
            and isinstance(phrases[place - 1], Brackets)
            and isinstance(made[-1], Again)
        ):
            made.append(replace(phrase, total=not phrase.more))
        else:
            made.append(phrase)
    return made


def _starred(phrases: list[Phrase]) -> list[Phrase]:
    """The phrases with whole rounds between stars put in brackets: `*purl 1 round, knit 1 round* 5 times`."""
    whole = next((place for place, phrase in enumerate(phrases) if isinstance(phrase, Times)), 0)
    if whole > 3 and phrases[whole].flags & COMMA:
        begun = next((place for place, phrase in enumerate(phrases) if isinstance(phrase, Stitches)), 0)
        inside = tuple(phrases[begun:whole])
        if _holds_rounds(inside):
            opened = phrases[begun]
            bracket = Brackets(opened.start, phrases[whole - 1].end, opened.flags, inside)
            return [*phrases[:begun], bracket, *phrases[whole:]]
    stars = [place for place, phrase in enumerate(phrases) if isinstance(phrase, Star | Rep)]
    if len(stars) != 2 or not isinstance(phrases[stars[0]], Star):
        return phrases
    first, last = stars
    inside = tuple(phrases[first + 1 : last])
    if not _holds_rounds(inside):
        return phrases
    rest = phrases[last + 1 :]
    if isinstance(phrases[last], Rep) and rest and isinstance(rest[0], Times) and not rest[0].total:
        rest = [replace(rest[0], more=True), *rest[1:]]
    opened = phrases[first]
    return [*phrases[:first], Brackets(opened.start, phrases[last].end, opened.flags, inside), *rest]


def _holds_rounds(phrases: tuple[Phrase, ...]) -> int:
    """How many whole rounds are told here: `purl 1 rnd, knit 1 rnd`; 0 where anything else is."""
    many = 0
    for place, phrase in enumerate(phrases):
        if isinstance(phrase, Rounds) and any(
            isinstance(one, Stitches) for one in phrases[max(0, place - 2) : place]
        ):
            many += phrase.number.of(0) or 1
        elif not (isinstance(phrase, Stitches) and isinstance(phrase.node, Stitch) and phrase.node.bare):
            if not (isinstance(phrase, Said | Then) and not getattr(phrase, "words", 0)):
                return 0
    return many


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
        again = isinstance(phrase, Rep) and not (
            stop and not phrase.level and any(isinstance(one, Rounds) for one in part) and not star
        )
        cut = False
        if part and worked:
            if (works or isinstance(phrase, Rounds | Length)) and cast and not isinstance(phrase, Closing):
                cut = True
            elif (
                isinstance(phrase, Again)
                and any(isinstance(one, Again) for one in part)
                and any(isinstance(one, Until | Times) for one in part)
            ):
                cut = True
            elif (
                works
                and isinstance(part[-1], Rounds)
                and star % 2 == 0
                and phrase.flags & (COMMA | SEMI)
                and not isinstance(phrase, Fabric | Rounds)
                and not (isinstance(phrase, Stitches) and isinstance(phrase.node, Evenly))
                and all(
                    isinstance(one, Then | Said | Rounds)
                    or (isinstance(one, Stitches) and isinstance(one.node, Stitch) and one.node.bare)
                    for one in part
                )
            ):
                cut = True
            elif isinstance(phrase, Rounds) and _then(part) and star % 2 == 0:
                cut = True
            elif isinstance(phrase, Times) and phrase.more and counted:
                cut = True
            elif works and counted:
                cut = star % 2 == 0 or isinstance(phrase, Closing)
            elif (
                begins
                and (stop or phrase.flags & (SEMI | COMMA) or isinstance(part[-1], Then | Extent | Times))
                and star % 2 == 0
            ):
                cut = not (isinstance(phrase, Stitches) and whole and not stop) or any(
                    isinstance(one, Rounds) for one in part
                )
            elif stop and not again and (works or isinstance(phrase, Said | Then | Rounds | Length | Rep)):
                spoken = (
                    of is not None
                    and isinstance(phrase, Stitches)
                    and not whole
                    and not begins
                    and not counted
                )
                cut = not spoken
                if isinstance(phrase, Said | Then | Brackets) and of is not None and star % 2 == 1:
                    cut = False
        if cut and isinstance(phrase, Closing | CastOn | Again) and isinstance(part[-1], Then):
            pass
        if cut:
            carried: list[Phrase] = []
            then = isinstance(phrase, Rounds) and _then(part)
            while part and (isinstance(part[-1], Then) or (then and isinstance(part[-1], Said | Fabric))):
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


def _then(part: list[Phrase]) -> bool:
    """Whether work stands before a `then` at the end of what was said."""
    at = next(
        (
            place
            for place in range(len(part) - 1, max(len(part) - 4, -1), -1)
            if isinstance(part[place], Then)
        ),
        0,
    )
    only_words = all(isinstance(one, Then | Said | Fabric) for one in part[at:])
    return only_words and any(isinstance(one, _WORK) for one in part[:at])


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
