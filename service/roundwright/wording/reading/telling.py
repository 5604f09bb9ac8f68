"""Segments that only tell, and how much words look like work."""

from itertools import dropwhile, pairwise
from typing import Final

from roundwright.wording.reading.label import Label
from roundwright.wording.reading.phrases import (
    ALL_OTHERS,
    NOT_GIVEN,
    Again,
    AtEnds,
    Brackets,
    Extent,
    Fabric,
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
from roundwright.wording.reading.seen import (
    Seen,
    has_stitches,
    is_bare,
    is_shaping,
    only_spoken_of,
    works_rounds,
)
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.spans import EVERY_OTHER
from roundwright.wording.reading.tokens import EQUALS
from roundwright.wording.reading.tree import (
    Fill,
    Stitch,
)


def tells_of_all(seen: Seen) -> bool:
    """Whether it is told of the whole hat, or told not to be worked: `rib k9, p3 throughout`, `no plain rounds`."""
    if _says_meaning(seen):
        return True
    if seen.agains or seen.untils or seen.evenly:
        return False
    if _tells_of_rounds(seen):
        return True
    if len(seen.order) == 1 and type(only := seen.order[0]) is Brackets and _explains(only.inside):
        return True
    first = next(iter(seen.order), None)
    if _tells_where(first.inside if type(first) is Brackets and len(seen.order) == 1 else seen.order):
        return True
    if type(first) is Rep and any(
        type(phrase) is Said and phrase.text == "everything" for phrase in seen.order
    ):
        return True  # `Repeat everything after the * to the end of the rnd.`
    if (
        type(first) is Said
        and first.text == "all"
        and seen.fabrics
        and not (seen.rounds or seen.lengths or seen.counts)
    ):
        return not any(map(has_stitches, seen.work))  # `All in rib.`
    stripes = bool(seen.changes) and sum(not rounds.every for rounds in seen.rounds) > 1 and not seen.work
    throughout = seen.throughout and (stripes or not seen.rounds) and not seen.counts
    denied = seen.denied and not any(is_shaping(phrase) or type(phrase) is Brackets for phrase in seen.work)
    return throughout or (denied and bool(seen.rounds or seen.fabrics))


def _says_meaning(seen: Seen) -> bool:
    """Whether it is told what a stitch is: `"Knit 2 together" means: put your needle through two stitches`."""
    stitches = False
    for phrase in seen.order:
        if stitches and type(phrase) is Said and phrase.text in _MEANS:
            return not any(count.sure for count in seen.counts)
        stitches = type(phrase) is Stitches and not is_bare(phrase)
    return False


_MEANS: Final = frozenset(("means", "mean"))


def _tells_of_rounds(seen: Seen) -> bool:
    """Whether it is told what decrease rounds are: `decrease rounds are in CC and plain rounds in MC`."""
    if _from_here_on(seen):
        return True
    spoken = [phrase.text for phrase in seen.order if type(phrase) is Said]
    if any(words in _ON_THESE for words in zip(spoken, spoken[1:], spoken[2:], strict=False)):
        return not (seen.rounds or seen.counts or seen.lengths or seen.times)
    worked = seen.work or seen.rounds or seen.counts or seen.lengths or seen.times or seen.continues
    texts = {phrase.text for phrase in seen.order if type(phrase) is Said}
    return bool(seen.changes) and not worked and "are" in texts


_ON_THESE: Final = frozenset(
    ("on", these, word) for these in ("these", "those") for word in ("work", "rounds", "rnds", "you", "we")
)
"""How it is told what is worked on rounds of a name: `on these work *k1 berry, then G`."""


def _from_here_on(seen: Seen) -> bool:
    """Whether it is told how every round is worked from here on, and nothing else: `p every rnd from here`."""
    texts = [phrase.text for phrase in seen.order if type(phrase) is Said]
    every = [phrase for phrase in seen.rounds if phrase.every and phrase.step <= 1]
    ends = seen.untils or seen.lengths or seen.counts or seen.times or seen.changes
    return bool(every) and texts[-2:] == ["from", "here"] and not ends and all(map(is_bare, seen.work))


def _tells_where(phrases: tuple[Phrase, ...]) -> bool:
    """Whether it is told in which fabric the work is, and nothing is worked: `You are in K4 P2 rib`.

    A heading may stand before it, `Crown (the rib goes on)`.
    """
    match phrases:
        case [Said(), Brackets() as aside, *rest] if not has_stitches(aside):
            phrases = tuple(rest)
    texts = [phrase.text if type(phrase) is Said else "" for phrase in phrases[:MOST_TO_FABRIC]]
    places_work = "in" in texts and not _BEING.isdisjoint(texts[: texts.index("in")])
    begins = bool(texts) and texts[0] in _WORKERS
    fabric = Fabric in [type(phrase) for phrase in phrases]
    return (
        places_work
        and begins
        and fabric
        and all(type(phrase) in (Said, Fabric, Stitches) for phrase in phrases)
    )


MOST_TO_FABRIC: Final = 5
"""Words up to `in`: `You are still in`."""
_WORKERS: Final = frozenset(
    ("you", "we", "you're", "we're", "youre", "you are", "you should be", "you have", "we have", "now you")
)
_BEING: Final = frozenset(
    (
        "are",
        "were",
        "you're",
        "we're",
        "youre",
        "you are",
        "should",
        "should be",
        "you should be",
        "be",
        "been",
    )
)


def _explains(inside: tuple[Phrase, ...]) -> bool:
    """Whether a bracket explains a fabric: `(every row k)`, `(Reversed stocking stitch: P every rnd.)`."""
    every = any(type(phrase) is Rounds and phrase.every for phrase in inside)
    return every and all(type(phrase) in (Rounds, Said, Fabric) or is_bare(phrase) for phrase in inside)


def introduces(seen: Seen, segment: Segment) -> bool:
    """Whether nothing is worked here but what the lines below tell."""
    thus = any(phrase.manner for phrase in seen.continues)
    if segment.intro and thus and [rounds.number.values for rounds in seen.rounds] == [(1,)]:
        # Knit one round, then take them off thus:
        behind = dropwhile(lambda phrase: phrase is not seen.rounds[0], seen.order)
        worked = Then in [type(phrase) for phrase in behind]
        return not worked and all(map(is_bare, seen.work))  # `knit one round like this:`
    if segment.intro and _of_every_round(seen, thus=thus):
        return True
    if segment.intro and _announces(seen):
        return True  # `knit one round and take out 6 as you go:`
    spoken = seen.lead > 0 and not (seen.rounds or seen.lengths or seen.times or seen.counts or seen.agains)
    by_counts = bool(seen.changes) and bool(seen.counts[1:])  # `Dec every 3rd rnd: 64, 56, 48 sts`
    others = seen.work or seen.fabrics or seen.lengths or seen.agains or by_counts
    if segment.intro and seen.rounds and not others:
        return True  # `It takes 6 rounds:`
    if segment.intro and spoken and all(type(phrase) is Stitches for phrase in seen.work):
        return True  # `work as follows, keeping to the rib of k8, p5:`
    if segment.intro and seen.work and all(type(phrase) is Brackets for phrase in seen.work):
        return not (seen.rounds or seen.counts or seen.times or seen.agains or seen.untils)
    if segment.intro and seen.agains and _names_sorts(seen):
        return True  # `Then it's decrease rounds only, no more plain rounds:`
    thus = bool(seen.fabrics) and any(phrase.manner for phrase in seen.continues)
    if seen.agains or seen.untils or (seen.changes and not segment.intro) or not (segment.intro or thus):
        return False
    return not (
        seen.rounds or (seen.counts and not thus) or seen.evenly or seen.lengths or seen.times
    ) and all(type(phrase) in _REPEATS or is_bare(phrase) for phrase in seen.work)


def _names_sorts(seen: Seen) -> bool:
    """Whether it is only said what sort of rounds are told below, and not how many."""
    names = [name for again in seen.agains for name in (again.named or (1,))]
    ends = seen.untils or seen.times or seen.lengths or seen.counts or seen.until_round
    single = any(not rounds.every for rounds in seen.rounds)
    return all(name < 0 for name in names) and not (ends or single or seen.work or seen.evenly)


def _of_every_round(seen: Seen, *, thus: bool) -> bool:
    """Whether it is only said that the rounds below are knitted: `Knit each rnd as follows:`."""
    follows = thus or any(type(phrase) is Said and phrase.text == "follows" for phrase in seen.order)
    ends = seen.untils or seen.lengths or seen.counts or seen.times or seen.changes or seen.agains
    every = bool(seen.rounds) and all(rounds.every and rounds.step <= 1 for rounds in seen.rounds)
    return follows and every and not ends and not seen.fabrics and all(map(is_bare, seen.work))


def _announces(seen: Seen) -> bool:
    """Whether a single round is announced, with how many stitches are taken out in it."""
    single = [rounds.number.values for rounds in seen.rounds] == [(1,)] and not seen.rounds[0].every
    outcome = (
        seen.changes
        or seen.evenly
        or any(type(phrase) is Said and phrase.text == "as" for phrase in seen.order)
    )
    return single and bool(outcome) and all(map(is_bare, seen.work)) and not (seen.agains or seen.untils)


def tells_outcome(seen: Seen) -> bool:
    """Whether a stitch is only explained: `sl 1, k2tog, psso = 2 sts decreased`."""
    texts = {phrase.text for phrase in seen.order if type(phrase) is Said}
    # the 16 stitches were knitted together in pairs, leaving 8
    outcome = bool(seen.counts) and ("were" in texts or "got" in texts)
    if seen.counted_first and not (outcome or seen.rounds or seen.lengths or seen.evenly):
        ends = AtEnds in [type(phrase) for phrase in seen.order]  # k2tog at the end of each needle
        return not ends and not any(type(phrase) in _OF_A_ROUND for phrase in seen.work)
    around = any(type(phrase) is Extent and not phrase.marker for phrase in seen.order)
    repeated = (around or bool(seen.times)) and any(map(is_shaping, seen.work))
    if ("become" in texts or "becomes" in texts) and seen.work and not repeated:
        return True
    if seen.changes and any(phrase.manner for phrase in seen.continues) and _is_one_stitch(seen):
        return True  # `make all decreases like this: knit 2 together`
    outcome = any(count.sign and count.flags & EQUALS for count in seen.counts) and seen.at_ends is None
    first = next((place for place, phrase in enumerate(seen.order) if type(phrase) is Stitches), None)
    if first is not None and len(seen.order) > first + 1:
        behind = seen.order[first + 1]
        if type(behind) is Said and behind.flags & EQUALS:
            return True
    means = any(type(phrase) is Stitches and phrase.flags & EQUALS for phrase in seen.work[1:])
    return (outcome or means) and not any(type(phrase) in _OF_REPEATS for phrase in seen.work)


def quotes_rounds(seen: Seen) -> bool:
    """Whether rounds of several that were told to be worked are only quoted.

    `You start with k7, k2tog and end with k1, k2tog`; `so Round 7 is k6, k2tog and Round 13 is just k2tog`.
    """
    if seen.untils or seen.evenly or seen.lengths or seen.fabrics or seen.cast_on:
        return False
    if _tells_fewer(seen):
        return True
    begun = named = ended = False
    for before, phrase in pairwise(seen.order):
        text = before.text if type(before) is Said else ""
        following = phrase.text if type(phrase) is Said else ""
        if text in _STARTING or (text in _STARTS and following == "with"):
            begun = True
        elif text in _ENDING and following == "with":
            ended = begun
        elif text == "so" and type(phrase) is Again and phrase.named:
            named = True
        elif named and type(before) is Again and following in ("is", "will"):
            return any(map(has_stitches, seen.work))
    return ended and any(map(has_stitches, seen.work))


def _tells_fewer(seen: Seen) -> bool:
    """Whether it is said how rounds differ from those before: `Each time, knit one stitch fewer before k2tog`."""
    if seen.counts or seen.rounds or seen.agains or seen.times or seen.continues:
        return False
    texts = [phrase.text for phrase in seen.order if type(phrase) is Said]
    repeated = any(pair in (("each", "time"), ("every", "time")) for pair in pairwise(texts))
    return repeated and not _FEWER.isdisjoint(texts)


_FEWER: Final = frozenset(("fewer", "less"))
_STARTING: Final = frozenset(("start with", "begin with", "starting with"))
_STARTS: Final = frozenset(("start", "starts", "begin", "begins", "starting", "beginning"))
_ENDING: Final = frozenset(("end", "ends", "ending", "finish", "finishes"))


def is_for_others(segment: Segment) -> bool:
    """Whether it is for all rounds that are not given: `all rounds not mentioned are knit`."""
    if segment.label is not None:
        return False
    texts = {phrase.text for phrase in segment.phrases if type(phrase) is Said}
    if not _GIVEN.isdisjoint(texts) and _is_every_even(segment):
        return True
    others = ALL_OTHERS in texts or ("not" in texts and not NOT_GIVEN.isdisjoint(texts))
    if "unless" in texts:  # `all rounds knit unless I say so`
        others = others or any(type(phrase) is Rounds and phrase.every for phrase in segment.phrases)
    if not others:
        return False
    goes_on = Until in [type(phrase) for phrase in segment.phrases]  # decrease so, knit all others, until 8
    plain = any(is_bare(phrase) or type(phrase) is Fabric for phrase in segment.phrases)
    return not goes_on and plain


def _is_every_even(segment: Segment) -> bool:
    """Whether it is no more than `knit every even round`, with other words."""
    rounds = [phrase for phrase in segment.phrases if type(phrase) is Rounds]
    if len(rounds) != 1 or not rounds[0].every or rounds[0].step != EVERY_OTHER:
        return False
    others = [phrase for phrase in segment.phrases if type(phrase) not in (Rounds, Said)]
    return len(others) == 1 and is_bare(others[0])


_GIVEN: Final = frozenset(("written", "given", "listed", "described", "shown", "printed", "numbered"))


def _is_one_stitch(seen: Seen) -> bool:
    """Whether stitches are named, and nothing says how far or how often."""
    others = seen.agains or seen.untils or seen.rounds or seen.counts or seen.times
    return bool(seen.work) and not others and all(type(phrase) is Stitches for phrase in seen.work)


def leads_on(seen: Seen) -> bool:
    """Whether work goes on for several rounds: `every round`, `until`, `carry on`."""
    return bool(seen.untils or seen.continues) or any(rounds.every for rounds in seen.rounds)


def speaks_of_shaping(seen: Seen) -> bool:
    """Whether decreases or increases are spoken of."""
    signed = any(count.sign and not count.flags & EQUALS for count in seen.counts)
    return bool(seen.changes or seen.evenly) or signed or any(map(is_shaping, seen.work))


def likeness(seen: Seen, label: Label | None) -> float:
    """How much the words look like work."""
    if label is None and only_spoken_of(seen, [phrase for phrase in seen.work if has_stitches(phrase)]):
        return 1.0
    bare = any(map(is_bare, seen.work))
    counted = sum(map(_weight, seen.work))
    numbered = any(not rounds.every for rounds in seen.rounds)
    strength = min(9.0, 2.5 * counted) + _of_fabric(seen, bare=bare, numbered=numbered)
    only = not seen.work[1:] or [type(phrase) for phrase in seen.work] == [Rep, Times]
    if seen.times and seen.times[-1].more and only and label is None:
        strength += 3.0 if seen.counts else 1.0
    numbers = counted or numbered or seen.lengths or seen.counts or seen.times
    if label is None and not numbers and max(seen.lead, seen.spoken_words - 2) > 1:
        strength = min(strength, 1.0)
    strength += _of_repeats(seen, worked=bool(bare or counted))
    if seen.chart and numbered and not counted:
        strength = max(strength, OF_CHART)
    if label is None and seen.fabrics and seen.times and not seen.rounds:
        strength += 3.0
    strength -= seen.words
    if label is not None:
        sure = label.kind in ("numbered", "next", "every")
        strength = max(strength, 0.0) + 5.0 if sure else strength + 2.0
    return max(0.0, strength)


OF_CHART: Final = 3.5
"""How much the rounds of a chart look like work."""


def _weight(phrase: Phrase) -> int:
    """How many signs of work a phrase is."""
    if type(phrase) is Stitches:
        if type(phrase.node) is Fill:  # knit the stitches together in pairs
            return any(type(node) is Stitch and node.name not in _PLAIN for node in phrase.node.nodes)
        return type(phrase.node) is Stitch and not phrase.node.bare
    return 2 * (type(phrase) is Brackets) + (type(phrase) in _STARS)


_STARS: Final = frozenset((Star, Rep))
_PLAIN: Final = ("k", "p", "sl")


def _of_fabric(seen: Seen, *, bare: bool, numbered: bool) -> float:
    """How much it looks like shaping, and like rounds of a fabric."""
    extents = Extent in [type(phrase) for phrase in seen.work]
    strength = 2.0 if (extents or seen.times) and any(map(is_shaping, seen.work)) else 0.0
    if bare or seen.fabrics:
        strength += 4.0 if numbered else 2.5 if extents else 1.2
        uneven = any(map(_is_uneven, seen.fabrics))  # 5 cm of 3x2 rib
        strength += (2.8 if uneven else 0.8) if seen.lengths else 0.0
    elif numbered:
        thus = any(phrase.manner for phrase in seen.continues)
        strength += 4.0 if thus or works_rounds(seen) else 1.0
    return strength


def _is_uneven(fabric: Fabric) -> bool:
    """Whether it is a rib of other knits than purls, `3x2 rib`; `2x2 rib` is often worked flat, on 2 more stitches."""
    match fabric.nodes:
        case (Stitch(times=knits), Stitch(times=purls)):
            return fabric.kind == "ratio" and knits.values != purls.values
        case _:
            return False


def _of_repeats(seen: Seen, *, worked: bool) -> float:
    """How much it looks like rounds that are worked again, or shaped every so often."""
    then = bool(seen.order) and type(seen.order[0]) is Then  # `then every round 6 times`
    signs = (
        seen.evenly,
        seen.agains,
        seen.untils and (seen.continues or seen.changes or seen.rounds or worked),
        (seen.changes or then)
        and (seen.times or seen.untils or seen.counts)
        and any(rounds.every for rounds in seen.rounds),
        seen.changes and seen.lengths and any(not phrase.manner for phrase in seen.continues),
    )
    return 4.0 * sum(map(bool, signs))


_REPEATS: Final = frozenset((Rep, Extent))
_OF_A_ROUND: Final = frozenset((Star, Rep, Extent, Times, Brackets, Until))
_OF_REPEATS: Final = frozenset((Star, Rep, Extent, Times))
