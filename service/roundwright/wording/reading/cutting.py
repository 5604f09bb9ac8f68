"""Where one round ends and the next begins within a line."""

from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.labels import Label
from roundwright.wording.reading.parsing.asides import is_bare
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
    COLON,
    COMMA,
    SEMI,
    STOP,
)
from roundwright.wording.reading.tree import Evenly, Stitch


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
        elif not (
            isinstance(phrase, Then) or (isinstance(phrase, Said) and not phrase.words) or is_bare(phrase)
        ):
            return 0
    return many


_WORK: Final = (Stitches, Star, Fabric, Again, Rounds, PassOver, Closing, CastOn, Continue)


def is_work(phrases: tuple[Phrase, ...] | list[Phrase]) -> bool:
    """Whether anything is worked in these phrases."""
    return any(
        isinstance(phrase, Stitches | Star | Fabric | Again | Rounds | Length)
        or (isinstance(phrase, Brackets) and is_work(phrase.inside))
        for phrase in phrases
    )


def _counted(phrase: Phrase) -> bool:
    """Whether it is a count, with or without a bracket."""
    if isinstance(phrase, Count):
        return not phrase.sign
    return (
        isinstance(phrase, Brackets)
        and not is_work(phrase.inside)
        and any(_counted(one) for one in phrase.inside)
    )


def _whole(phrase: Phrase, following: Phrase | None) -> bool:
    """Whether it begins whole rounds: `knit 2 rnds`, `work even`, `rep rnds 1 and 2`."""
    if isinstance(phrase, Again | Closing | CastOn):
        return True
    if isinstance(phrase, Stitches) and isinstance(phrase.node, Stitch) and phrase.node.bare:
        return isinstance(following, Rounds) and not following.flags & (STOP | SEMI | COLON)
    return False


def cut_rounds(of: Label | None, phrases: list[Phrase]) -> list[list[Phrase]]:
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
        works = isinstance(phrase, _WORK) or (isinstance(phrase, Brackets) and is_work(phrase.inside))
        stop = bool(phrase.flags & STOP)
        begins = _whole(phrase, following)
        again = isinstance(phrase, Rep) and not (
            stop and not phrase.level and any(isinstance(one, Rounds) for one in part) and not star
        )
        cut = False
        if part and worked:
            if (
                ((works or isinstance(phrase, Rounds | Length)) and cast and not isinstance(phrase, Closing))
                or (
                    isinstance(phrase, Again)
                    and any(isinstance(one, Again) for one in part)
                    and any(isinstance(one, Until | Times) for one in part)
                )
                or (
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
                )
                or (isinstance(phrase, Rounds) and _then(part) and star % 2 == 0)
                or (isinstance(phrase, Times) and phrase.more and counted)
            ):
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
                    and (
                        isinstance(phrase, Stitches | Brackets) or (isinstance(phrase, Star) and _fixed(part))
                    )
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


def _fixed(part: list[Phrase]) -> bool:
    """Whether nothing of this goes on to the end of the round: `Knit 10 stitches. Knit two together.`."""
    return all(
        isinstance(phrase, Times | Said)
        or (isinstance(phrase, Brackets) and _fixed(list(phrase.inside)))
        or (isinstance(phrase, Stitches) and isinstance(phrase.node, Stitch) and not phrase.node.bare)
        for phrase in part
    )


def _final(phrase: Phrase, following: Phrase | None) -> bool:
    """Whether a count ends its round: a bare number does only before a sign."""
    if isinstance(phrase, Count) and not phrase.sure:
        return (
            following is None
            or bool(following.flags & (STOP | SEMI | COMMA | COLON))
            or isinstance(following, Closing | Then)
        )
    return True
