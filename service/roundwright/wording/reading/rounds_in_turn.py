"""Rounds told in a list by their verbs, `Purl, knit, purl, knit.`, or their repeats: `(k2, k2tog), (k1, k2tog)`."""

from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.phrases import (
    Brackets,
    Extent,
    Phrase,
    Rounds,
    Said,
    Stitches,
    Then,
    is_silent,
)
from roundwright.wording.reading.seen import is_bare
from roundwright.wording.reading.tokens import COLON, COMMA, DASH, SEMI, STOP
from roundwright.wording.reading.tree import ONE, Stitch
from roundwright.wording.reading.verbs_before import SHORTEST_VERB

FEWEST_IN_LIST: Final = 3
"""Verbs of a list that are rounds; two may be a rib. Behind `purl a round`, one more is a round too."""
SHORTEST_ONE: Final = 6
"""Letters of `purl 1`; `p1` is a stitch."""


def with_rounds_in_turn(phrases: list[Phrase]) -> list[Phrase]:
    """The phrases, with `purl, knit, purl, knit` as a round each, and `(k3, k2tog), (k2, k2tog), (k1, k2tog)`."""
    return _with_verbs_in_turn(_with_brackets_in_turn(phrases))


def has_brackets_in_turn(phrases: list[Phrase]) -> bool:
    """Whether brackets in a row are a round each: so they are behind `5)` too, which numbers what is done."""
    return _with_brackets_in_turn(phrases) != phrases


def _with_brackets_in_turn(phrases: list[Phrase]) -> list[Phrase]:
    """The phrases, with brackets in a row as a round each, where each has a plain stitch less than the one before."""
    made: list[Phrase] = []
    place = 0
    while place < len(phrases):
        places = _narrowed(phrases, place)
        stop = (places[-1] if places else place) + 1
        behind = phrases[stop] if stop < len(phrases) else None
        parted = behind is None or behind.flags & (COMMA | SEMI | STOP | DASH) or _is_joining(behind)
        if len(places) < FEWEST_IN_LIST or not parted or _goes_to_end(phrases, stop):
            made.append(phrases[place])
            place += 1
            continue
        ahead = _number_ahead(made)
        if ahead is not None and ahead.number.of(0) in (len(places), len(places) + 1):
            made.pop()
        made.append(phrases[place])
        made.extend(replace(phrases[at], flags=phrases[at].flags | STOP) for at in places[1:])
        counted = rounds_told(behind) if behind is not None else None
        words = [phrase.text for phrase in phrases[stop + 1 : stop + 2] if type(phrase) is Said]
        if counted is not None and counted.number.of(0) == (1 if words == ["each"] else len(places)):
            stop += 1
        elif behind is not None:
            made.append(replace(behind, flags=behind.flags | STOP))
            stop += 1
        place = stop
    return made


def _narrowed(phrases: list[Phrase], begun: int) -> list[int]:
    """The places of brackets in a row from this one on, each with a plain stitch less than the one before."""
    places: list[int] = []
    for place in range(begun, len(phrases)):
        phrase = phrases[place]
        if places and _is_joining(phrase):
            continue
        if type(phrase) is not Brackets or (places and _narrower(phrases[places[-1]]) != _worked(phrase)):
            break
        places.append(place)
    return places if len(places) > 1 else []


def _goes_to_end(phrases: list[Phrase], place: int) -> bool:
    """Whether a comma parts them from the rest of their round: `(k3, k2tog), (k2, k2tog), (k1, k2tog), knit to end`."""
    work = place + (place < len(phrases) and _is_joining(phrases[place]))
    extent = phrases[work + 1] if work + 1 < len(phrases) else None
    return type(extent) is Extent and extent.to and not phrases[place].flags & STOP


def _is_joining(phrase: Phrase) -> bool:
    """Whether it is `then` or `and`."""
    return type(phrase) is Then or (type(phrase) is Said and phrase.text == "and")


_Worked = tuple[tuple[str, tuple[int | None, ...]], ...]


def _worked(phrase: Phrase) -> _Worked:
    """The stitches of a bracket and how many; empty where there is anything else in it."""
    inside = phrase.inside if type(phrase) is Brackets else ()
    nodes = [within.node for within in inside if type(within) is Stitches]
    stitches = [(node.name, node.times.values) for node in nodes if type(node) is Stitch]
    return tuple(stitches) if len(stitches) == len(inside) else ()


def _narrower(phrase: Phrase) -> _Worked | None:
    """The stitches of a bracket with a plain stitch less at its beginning; None where it begins otherwise."""
    worked = _worked(phrase)
    if len(worked) < 2 or worked[0][0] not in ("k", "p"):
        return None
    left = tuple((value or 0) - 1 for value in worked[0][1])
    return ((worked[0][0], left), *worked[1:]) if any(left) else worked[1:]


def _with_verbs_in_turn(phrases: list[Phrase]) -> list[Phrase]:
    if sum(type(phrase) is Stitches for phrase in phrases) < 2:
        return phrases
    made: list[Phrase] = []
    place = 0
    while place < len(phrases):
        ahead = _number_ahead(made)
        begins = not place or bool(phrases[place].flags & (STOP | COLON)) or _is_round(phrases, place)
        verbs, stop = _verbs(phrases, place, made) if begins or ahead else ([], place)
        behind = phrases[stop : stop + 1]
        number = ahead or (rounds_told(behind[0]) if behind else None)
        if number is not None and verbs and (number.number.of(0) or 0) % len(verbs):
            verbs = []
        if not verbs:
            made.append(phrases[place])
            place += 1
            continue
        listed = _listed(verbs, made.pop().flags if ahead else phrases[place].flags)
        if number is None or number.number.values == (len(verbs),):
            made.extend(listed)
        else:
            made.append(Brackets(verbs[0].start, verbs[-1].end, listed[0].flags, tuple(listed)))
            made.append(number)
        place = stop + (number is not None and not ahead)
    return made


def _listed(verbs: list[Stitches], flags: int) -> list[Phrase]:
    """The verbs of a list, each with its round; these flags are those of the first."""
    made: list[Phrase] = []
    for verb in verbs:
        node = Stitch(_name(verb), ONE, verb.start, verb.end, bare=True)
        made.append(replace(verb, node=node, flags=verb.flags | STOP if made else flags))
        made.append(Rounds(verb.end, verb.end, 0, ONE))
    return made


def _number_ahead(before: list[Phrase]) -> Rounds | None:
    """How many rounds are told before their list, with no work of their own: `Work 4 rounds: knit, purl, ...`."""
    number = before[-1] if before else None
    if type(number) is not Rounds or number.every or number.more:
        return None
    begun = next((at for at in range(len(before) - 1, 0, -1) if before[at].flags & (STOP | COLON)), 0)
    return number if all(type(phrase) in (Said, Then) for phrase in before[begun:-1]) else None


def _verbs(phrases: list[Phrase], begun: int, before: list[Phrase]) -> tuple[list[Stitches], int]:
    """The verbs of a list that begins here, and where it ends; none where it is no list of rounds."""
    behind_rounds = _ends_with_round(before)
    verbs: list[Stitches] = []
    place = begun
    while place < len(phrases):
        phrase = phrases[place]
        if place > begun and phrase.flags & (STOP | COLON | SEMI):
            break
        if type(phrase) is Stitches and _is_turn(phrase, counted=behind_rounds):
            joined = not verbs or bool(phrase.flags & COMMA) or type(phrases[place - 1]) in (Then, Said)
            if not joined or (verbs and _name(verbs[-1]) == _name(phrase)):
                return [], begun
            verbs.append(phrase)
        elif type(phrase) is not Then and not (is_silent(phrase) and not _begins_clause(phrase)):
            break
        place += 1
    fewest = 1 if behind_rounds else FEWEST_IN_LIST
    if len(verbs) < fewest:
        return [], begun
    return _ended(phrases, place, verbs, begun)


def _ended(
    phrases: list[Phrase], place: int, verbs: list[Stitches], begun: int
) -> tuple[list[Stitches], int]:
    """The verbs and where the list ends, with how many rounds they are; none where other work stands behind."""
    if place >= len(phrases):
        return verbs, place
    behind = phrases[place]
    parted = bool(behind.flags & (STOP | COLON | SEMI | COMMA | DASH)) or type(behind) is Brackets
    if rounds_told(behind) is not None and parted:
        return verbs, place
    ended = bool(behind.flags & STOP) or (parted and type(behind) is Said)
    return (verbs, place) if ended else ([], begun)


def rounds_told(phrase: Phrase) -> Rounds | None:
    """The number of rounds that a phrase is, in a bracket or not: `12 rounds`, `(12 rounds)`; None for any other."""
    inner = phrase.inside[0] if type(phrase) is Brackets and len(phrase.inside) == 1 else phrase
    return inner if type(inner) is Rounds and not inner.every else None


def _is_round(phrases: list[Phrase], place: int) -> bool:
    """Whether a comma stands here behind `purl a round`."""
    return bool(phrases[place].flags & COMMA) and _ends_with_round(phrases[max(0, place - 3) : place])


def _ends_with_round(phrases: list[Phrase]) -> bool:
    """Whether one knit or purl round was told last: `purl a round`."""
    if len(phrases) < 2 or type(phrases[-1]) is not Rounds or phrases[-1].number.values != (1,):
        return False
    verb = next((phrase for phrase in reversed(phrases[-3:-1]) if not is_silent(phrase)), None)
    return verb is not None and is_bare(verb) and not phrases[-1].every


def _is_turn(phrase: Stitches, *, counted: bool) -> bool:
    """Whether it is a verb alone; behind a round that was told also `knit one`."""
    node = phrase.node
    if type(node) is not Stitch or node.name not in ("k", "p"):
        return False
    letters = phrase.end - phrase.start
    return (
        letters >= SHORTEST_VERB
        if node.bare
        else (counted and node.times.values == (1,) and letters >= SHORTEST_ONE)
    )


def _name(phrase: Stitches) -> str:
    return phrase.node.name if type(phrase.node) is Stitch else ""


def _begins_clause(phrase: Phrase) -> bool:
    """Whether words behind a comma say something else: `purl, knit, that is your edge`."""
    return bool(phrase.flags & COMMA) and type(phrase) is Said and phrase.text not in ("and", "then")
