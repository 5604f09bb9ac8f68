"""Rounds told in a list by no more than their verbs: `Purl, knit, purl, knit.`, `Purl a round, knit one, purl one.`."""

from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.phrases import Brackets, Phrase, Rounds, Said, Stitches, Then
from roundwright.wording.reading.seen import is_bare
from roundwright.wording.reading.tokens import COLON, COMMA, DASH, SEMI, STOP
from roundwright.wording.reading.tree import ONE, Stitch
from roundwright.wording.reading.verbs_before import SHORTEST_VERB

FEWEST_IN_LIST: Final = 3
"""Verbs of a list that are rounds; two may be a rib. Behind `purl a round`, one more is a round too."""
SHORTEST_ONE: Final = 6
"""Letters of `purl 1`; `p1` is a stitch."""


def with_rounds_in_turn(phrases: list[Phrase]) -> list[Phrase]:
    """The phrases, with `purl, knit, purl, knit` as a round each."""
    if sum(isinstance(phrase, Stitches) for phrase in phrases) < 2:
        return phrases
    made: list[Phrase] = []
    place = 0
    while place < len(phrases):
        begins = not place or bool(phrases[place].flags & (STOP | COLON)) or _is_round(phrases, place)
        verbs, stop = _verbs(phrases, place, made) if begins else ([], place)
        if not verbs:
            made.append(phrases[place])
            place += 1
            continue
        for number, verb in enumerate(verbs):
            node = Stitch(_name(verb), ONE, verb.start, verb.end, bare=True)
            flags = verb.flags | (STOP if number else phrases[place].flags)
            made.append(replace(verb, node=node, flags=flags))
            made.append(Rounds(verb.end, verb.end, 0, ONE))
        place = stop
    return made


def _verbs(phrases: list[Phrase], begun: int, before: list[Phrase]) -> tuple[list[Stitches], int]:
    """The verbs of a list that begins here, and where it ends; none where it is no list of rounds."""
    behind_rounds = _ends_with_round(before)
    verbs: list[Stitches] = []
    place = begun
    while place < len(phrases):
        phrase = phrases[place]
        if place > begun and phrase.flags & (STOP | COLON | SEMI):
            break
        if isinstance(phrase, Stitches) and _is_turn(phrase, counted=behind_rounds):
            joined = not verbs or bool(phrase.flags & COMMA) or isinstance(phrases[place - 1], Then | Said)
            if not joined or (verbs and _name(verbs[-1]) == _name(phrase)):
                return [], begun
            verbs.append(phrase)
        elif not isinstance(phrase, Then) and not (_is_silent(phrase) and not _begins_clause(phrase)):
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
    inner = behind.inside[0] if isinstance(behind, Brackets) and len(behind.inside) == 1 else behind
    parted = bool(behind.flags & (STOP | COLON | SEMI | COMMA | DASH)) or inner is not behind
    if isinstance(inner, Rounds) and parted:
        alike = inner.number.values == (len(verbs),) and not inner.every
        return (verbs, place + 1) if alike else ([], begun)
    ended = bool(behind.flags & STOP) or (parted and isinstance(behind, Said))
    return (verbs, place) if ended else ([], begun)


def _is_round(phrases: list[Phrase], place: int) -> bool:
    """Whether a comma stands here behind `purl a round`."""
    return bool(phrases[place].flags & COMMA) and _ends_with_round(phrases[max(0, place - 3) : place])


def _ends_with_round(phrases: list[Phrase]) -> bool:
    """Whether one knit or purl round was told last: `purl a round`."""
    if len(phrases) < 2 or not isinstance(phrases[-1], Rounds) or phrases[-1].number.values != (1,):
        return False
    verb = next((phrase for phrase in reversed(phrases[-3:-1]) if not _is_silent(phrase)), None)
    return verb is not None and is_bare(verb) and not phrases[-1].every


def _is_turn(phrase: Stitches, *, counted: bool) -> bool:
    """Whether it is a verb alone; behind a round that was told also `knit one`."""
    node = phrase.node
    if not isinstance(node, Stitch) or node.name not in ("k", "p"):
        return False
    letters = phrase.end - phrase.start
    return (
        letters >= SHORTEST_VERB
        if node.bare
        else (counted and node.times.values == (1,) and letters >= SHORTEST_ONE)
    )


def _name(phrase: Stitches) -> str:
    return phrase.node.name if isinstance(phrase.node, Stitch) else ""


def _begins_clause(phrase: Phrase) -> bool:
    """Whether words behind a comma say something else: `purl, knit, that is your edge`."""
    return bool(phrase.flags & COMMA) and isinstance(phrase, Said) and phrase.text not in ("and", "then")


def _is_silent(phrase: Phrase) -> bool:
    return isinstance(phrase, Said) and not phrase.words
