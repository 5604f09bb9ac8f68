"""What a segment may tell the knitter to do: its candidates, the cheapest first.

That nothing is worked is a candidate as well; it costs as much as the words look like work.
"""

from operator import attrgetter
from typing import Final

from msgspec.structs import replace

from roundwright.language import say
from roundwright.wording.reading.counted_down import BY_COUNTS_ALONE, counted_down, counts_others
from roundwright.wording.reading.fabric_ways import VERBS, in_colour, stripes
from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.joining import joined
from roundwright.wording.reading.label import Label
from roundwright.wording.reading.loops import (
    as_before,
    by_name,
    chart_again,
    continuations,
    counts_all,
    in_all_ways,
    loop_ways,
    marked_round,
    marker_ways,
    on_named_rounds,
    on_rounds_ways,
    once_more,
    shaped_in_turn,
)
from roundwright.wording.reading.onward import as_numbered, onward_ways
from roundwright.wording.reading.phrases import (
    BeginAt,
    Brackets,
    Change,
    Chart,
    Closing,
    Continue,
    Count,
    Extent,
    Fabric,
    Length,
    Needlewise,
    PerPart,
    Phrase,
    Rep,
    Rounds,
    Said,
    Star,
    Stitches,
    Then,
    Until,
    is_bracketed_count,
    is_of_all,
    opened,
    shapes_once_more,
)
from roundwright.wording.reading.rhythm import rounds_fewer
from roundwright.wording.reading.round_ways import rounds_of_segment
from roundwright.wording.reading.rounds_between import with_rounds_between
from roundwright.wording.reading.seen import Seen, has_stitches, is_bare, sort_phrases, stated_counts
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.spread import with_lone_change
from roundwright.wording.reading.telling import (
    introduces,
    is_for_others,
    leads_on,
    likeness,
    quotes_rounds,
    speaks_of_shaping,
    tells_of_all,
    tells_outcome,
)
from roundwright.wording.reading.tokens import COMMA, EQUALS, SEMI
from roundwright.wording.reading.told_between import told_between
from roundwright.wording.reading.tree import Evenly, Number, Stated, Stitch

MOST_SPOKEN: Final = 2
"""Words of a sentence that says no more than a count."""


def candidates(segment: Segment) -> list[Candidate]:
    """What a segment may mean, the cheapest first; never empty."""
    if is_told(segment):
        return [Candidate("prose", 0.0)]
    segment = replace(segment, phrases=with_lone_change(segment.phrases))
    label = segment.label
    if label is not None and label.kind in ("sizes", "step"):
        label = None
    segment = _on_each_number(segment)
    phrases = segment.phrases
    if segment.troubles and not phrases:
        return [Candidate("unread", 0.0, trouble=segment.troubles[0])]
    seen = sort_phrases(phrases)
    stated = stated_counts(seen)
    if single := told_between(segment, stated) or _nothing_else(seen, segment, label):
        return [single]
    held = _held(seen)
    options = _work(seen, stated, label, segment)
    options.extend(_to_printed_count(options))
    by_counts = counted_down(phrases, label)
    options.extend(by_counts)
    if not options and label is None and (counted := _counted(seen, stated, segment)):
        return counted
    if not options and _goes_on_without_end(seen, segment):
        return [Candidate("unread", 0.0, trouble=("not_understood", say("read.how_far"), segment.start))]
    fewer = any(phrase.manner for phrase in seen.continues) and rounds_fewer(phrases) > 0
    if fewer or (_goes_on(seen) and not any(option.kind == "continue" for option in onward_ways(phrases))):
        unread = ("not_understood", say("read.how_far"), segment.start)
        further = [option for option in options if fewer and option.kind == "continue"]
        rounds = [replace(option, trouble=unread) for option in options if option.kind == "round"]
        options = [*further, *rounds]
    if label is None and all(option.kind == "round" for option in options):
        options.extend(onward_ways(phrases))
    if segment.troubles:
        trouble = segment.troubles[0]
        options = [replace(option, trouble=option.trouble or trouble) for option in options]
    gone_on = any(option.cost < BY_COUNTS_ALONE for option in by_counts)
    least = OF_NEEDLES if held and not stated else OF_COUNTS * gone_on or 0.2
    options = [replace(option, per_needle=held) for option in options] if held else options
    options.append(_not_worked(seen, stated, label, least))
    return sorted(options, key=_cost)


def _on_each_number(segment: Segment) -> Segment:
    """Without `again` where several rounds are numbered, for it is once on each: `Rnds 7 and 9: decrease again`."""
    label = segment.label
    if label is None or not label.numbers_several() or not shapes_once_more(segment.phrases):
        return segment
    again, _, *others = segment.phrases
    return replace(segment, phrases=(again, *others))


def _not_worked(seen: Seen, stated: tuple[Stated, ...], label: Label | None, least: float) -> Candidate:
    """That nothing is worked, which costs as much as the words look like work; a count may be told all the same."""
    strength = likeness(seen, label)
    cost = max(least, strength)
    if label is None and _goes_on_to_count(seen):
        return Candidate("count", cost, stated=stated)
    shapes = leads_on(seen) and speaks_of_shaping(seen)
    return Candidate("prose", cost, strength=strength, shapes=shapes, stated=stated)


def _counted(seen: Seen, stated: tuple[Stated, ...], segment: Segment) -> list[Candidate]:
    """What words with counts may mean that tell no round; nothing where no count is told."""
    phrases = segment.phrases
    if end := _end_alone(seen):
        return [Candidate("count", 0.1, stated=(end,)), Candidate("prose", 4.0), *onward_ways(phrases)]
    if not seen.counts:
        return []
    if counts_others(phrases) or _is_halfway(seen):
        return [Candidate("prose", 0.0)]
    sure = all(count.sure for count in seen.counts) and seen.words < 1.5
    alone = len(phrases) == 1 and len(seen.counts) == 1 and not seen.words
    behind = not segment.alone and sure and _only_counts(seen)
    repeats = Rep in [type(phrase) for phrase in phrases]
    prose_cost = 6.0 if alone or behind else 1.0 + 3.0 * (sure or repeats)
    shapes = leads_on(seen)
    words = Candidate("prose", prose_cost, shapes=shapes, stated=stated if shapes else ())
    return sorted([Candidate("count", 0.1, stated=stated), words, *onward_ways(phrases)], key=_cost)


def _is_halfway(seen: Seen) -> bool:
    """Whether something else is done at a count before the end: `When 40 sts remain, change needles`."""
    match seen.order:
        case [Said(text="when"), Count(sign=0), Said(), *words]:
            return all(type(phrase) is Said for phrase in words)
        case _:
            return False


def _end_alone(seen: Seen) -> Stated | None:
    """The count to which the rounds before go on, in a sentence of its own: `Stop when there's 12 left.`; else None."""
    match seen.order:
        case [Until(number=number), *words] if all(type(phrase) is Said for phrase in words):
            return Stated(number, number.start, number.end)
        case _:
            return None


def _held(seen: Seen) -> Number | None:
    """How many stitches it says to be on each needle; None where that is not said, or said of some of the needles."""
    phrases = [inner for phrase in seen.order for inner in opened(phrase)]
    at = [place for place, phrase in enumerate(phrases) if type(phrase) is PerPart]
    if len(at) != 1:
        return None
    held, before = phrases[at[0]], phrases[at[0] - 1] if at[0] else None
    of_some = type(before) is Change or (type(before) is Said and before.text in _OF_SOME)
    behind = phrases[at[0] + 1 :]
    numbers = Count in [type(phrase) for phrase in behind]
    numbers = numbers or any(type(phrase) is Said and phrase.text in _OTHER_NEEDLES for phrase in behind)
    if type(held) is not PerPart or of_some or numbers:
        return None
    needle = held.needle or any(type(phrase) is Needlewise and phrase.needle for phrase in phrases)
    return held.number if needle else None


_OF_SOME: Final = frozenset(
    ("first", "last", "losing", "lose", "loses", "lost", "dropping", "by", "of", "taking", "away")
)
"""Words before stitches on each needle that are only some of those there."""
_OTHER_NEEDLES: Final = frozenset(
    ("rest", "remaining", "remainder", "other", "others", "second", "third", "fourth", "fifth", "last")
)
"""Words behind them that put other numbers on the needles that are left: `16 on each needle, 15 on the fourth`."""


NAMED_AGAIN: Final = 0.5
"""What it costs to work rounds again on whose numbers others are told to be shaped."""
AS_SET_PLAIN: Final = 2.0
"""What it costs to work `continue to decrease as established` plain."""
OF_FURTHER: Final = 0.5
"""What it costs to work so many further rounds where they are told to be that many in all."""
OF_COUNTS: Final = 0.6
"""What it costs to pass over the counts to which a crown goes on."""
OF_NEEDLES: Final = 6.0
"""What it costs to pass over the stitches that are said to be on each needle."""


def is_told(segment: Segment) -> bool:
    """Whether a segment stands under notes, and nothing in it is worked whatever its words are."""
    label = segment.label
    return segment.under_notes and (
        label is None or label.kind in ("sizes", "step", "sort", "listed", "count", "next")
    )


def is_spoken(segment: Segment) -> bool:
    """Whether a segment has words alone, and nothing in them to work: `Size 1 only: change to cream.`."""
    label = segment.label
    return (
        (label is None or label.kind in ("sizes", "step"))
        and not segment.troubles
        and all(type(phrase) is Said for phrase in segment.phrases)
    )


def _to_printed_count(options: list[Candidate]) -> list[Candidate]:
    """Rounds until a count, gone on with to the count that is printed: `until 1 is left before each marker (5 sts)`."""
    made: list[Candidate] = []
    for option in options:
        counts = [stated for stated in option.stated if not stated.sign]
        if option.until is not None and counts and option.kind in ("loop", "continue"):
            made.append(replace(option, cost=option.cost + 0.4, until=counts[-1].number, per=False))
    return made


_cost: Final = attrgetter("cost")
_TOLD: Final = frozenset((Said, Count))
_GONE_ON: Final = frozenset((Said, Then, Continue, Rep, Extent, Length, Count))


def _only_counts(seen: Seen) -> bool:
    """Whether a sentence says no more than a count: `This leaves 12 (20) stitches.`."""
    return seen.spoken_words <= MOST_SPOKEN and all(type(phrase) in _TOLD for phrase in seen.order)


def _goes_on_to_count(seen: Seen) -> bool:
    """Whether a sentence says no more than that the work goes on, and the count then: `Keep on like this. 65 sts`.

    Where no rounds are gone on with, that is the count there is, and not words to be passed over.
    """
    sure = [count.sure and not count.sign for count in seen.counts]
    begins = next((phrase for phrase in seen.order if type(phrase) not in (Said, Then)), None)
    return (
        type(begins) is Continue
        and sure == [True]
        and all(type(phrase) in _GONE_ON or is_bracketed_count(phrase) for phrase in seen.order)
    )


def _goes_on(seen: Seen) -> bool:
    """Whether rounds go on in a way that is not read: `knit a round, and keep going like that until ...`.

    `Knit one round between decrease rounds throughout` goes on as well.
    """
    if seen.throughout and seen.changes and seen.rounds:
        return True
    thus = any(phrase.manner for phrase in seen.continues)
    single = any(not rounds.every and rounds.number.values == (1,) for rounds in seen.rounds)
    return thus and bool(seen.lengths) and single


def _goes_on_without_end(seen: Seen, segment: Segment) -> bool:
    """Whether rounds go on, each with fewer stitches, and no count or times end them: `same idea, 1 less each time`."""
    thus = sum(phrase.manner for phrase in seen.continues) > 1 and not segment.intro
    return thus and not (seen.untils or seen.times or seen.lengths or seen.counts or seen.agains)


def _nothing_else(seen: Seen, segment: Segment, label: Label | None) -> Candidate | None:
    """What a segment means for sure: nothing that is worked, the cast-on, the closing, where to begin."""
    listed = label is not None and label.kind == "listed"
    if label is None and (join := joined(segment.phrases)):
        return join
    if label is None and quotes_rounds(seen):
        stated = stated_counts(seen)
        return Candidate("count", 0.0, stated=stated) if stated else Candidate("prose", 0.0)
    headed = _is_heading_in_stars(seen) or _notes_in_bracket(seen)
    if label is None and (headed or _is_conditional(seen) or _tells_all_rounds(seen)):
        return Candidate("prose", 0.0)
    if label is None and (tells_outcome(seen) or is_for_others(segment)):
        return Candidate("prose", 0.0)
    if (label is None or listed) and (introduces(seen, segment) or tells_of_all(seen)):
        return Candidate("prose", 0.0)
    if label is not None and label.kind == "sort" and segment.intro and _is_defined(seen):
        return Candidate("prose", 0.0)
    if label is not None and label.kind == "numbered" and segment.phrases and _counts_alone(segment):
        return Candidate("prose", 0.0)  # a table of counts: `Rnd 5: 49 (56, 63)`
    if seen.closing and not seen.agains and (not seen.work or (label is None and _works_cord(seen))):
        return Candidate("closing", 0.0)
    if seen.cast_on and not seen.work:
        sections = seen.markers.of(0) or 0 if seen.markers else 0
        stated = tuple(count for count in stated_counts(seen) if not _is_split(count, seen.cast_on.number))
        number, held = seen.cast_on.number, _held(seen)
        return Candidate(
            "cast_on", 0.0, rounds=number, sections=sections, every=seen.every, stated=stated, per_needle=held
        )
    spoken = _not_worked(seen, (), label, 0.2) if is_spoken(segment) else None
    return _begin_at(segment) or spoken


def _works_cord(seen: Seen) -> bool:
    """Whether only the cord at the top is worked: `Work 4-st i-cord for 2 inches`, `Knit 4 sts as i-cord`."""
    at = seen.order.index(seen.closing) if seen.closing is not None and seen.closing.cord else 0
    before = seen.order[1 : at + 1]
    apart = any(type(phrase) is Then or phrase.flags & COMMA for phrase in before)
    apart = apart or any(type(phrase) is Said and phrase.text == "and" for phrase in before)
    return bool(before) and not apart and all(map(_is_knitted, seen.work))


def _is_knitted(phrase: Phrase) -> bool:
    """Whether it is stitches that are knitted: `4 st`, `knit`."""
    return type(phrase) is Stitches and type(phrase.node) is Stitch and phrase.node.name == "k"


def _is_defined(seen: Seen) -> bool:
    """Whether a name is only told its meaning: `dec rnd = k2tog at each of 8 places:`."""
    return bool(seen.order) and bool(seen.order[0].flags & EQUALS)


def _is_split(count: Stated, cast_on: Number) -> bool:
    """Whether a list only says how the stitches are put on the needles: `cast on 100 sts loosely (34, 34, 32)`.

    For several sizes the needles of each stand together: `96 (104) sts (32, 32, 32 (34, 34, 36) on needles)`.
    """
    shares = [share or 0 for share in count.number.values]
    needles = len(shares) // len(cast_on.values)
    if needles < FEWEST_NEEDLES or len(shares) % len(cast_on.values):
        return False
    held = tuple(sum(shares[place : place + needles]) for place in range(0, len(shares), needles))
    return held == cast_on.values


FEWEST_NEEDLES: Final = 2
"""Needles among which stitches are said to be put."""


def _is_heading_in_stars(seen: Seen) -> bool:
    """Whether words without any work stand between stars: `** Crown decreases **`."""
    order = seen.order
    stars = len(order) > 2 and type(order[0]) is Star and type(order[-1]) is Star
    return stars and all(type(phrase) in _IN_HEADING for phrase in order[1:-1])


def _notes_in_bracket(seen: Seen) -> bool:
    """Whether a heading is told with how many decreases it has in a bracket: `Crown (decrease at 10 places)`."""
    match seen.order:
        case (*words, Brackets(inside=inside)) if words:
            pass
        case _:
            return False
    spoken = all(type(phrase) in (Said, Change) for phrase in words) and seen.spoken_words > 0
    changes = any(type(phrase) is Stitches and type(phrase.node) is Evenly for phrase in inside)
    words_behind = any(type(phrase) is Said and phrase.words for phrase in inside)
    rounds = any(type(phrase) is Rounds and phrase.every for phrase in inside)
    silent = all(type(phrase) in (Said, Stitches, Rounds) for phrase in inside)
    return spoken and changes and (words_behind or rounds) and silent


def _is_conditional(seen: Seen) -> bool:
    """Whether a sentence tells what to do in some case: `If the hat is too short, knit 5 rounds more`.

    The case may stand last, `Ravel back to R8 if yours comes out too shallow`, `Add 2 rounds if you want it deeper`.
    """
    texts = [phrase.text if type(phrase) is Said else "" for phrase in seen.order]
    if texts[:1] == ["if"]:
        return True
    if "if" not in texts and _UNDOING.isdisjoint(texts[:1]):
        return False
    if (
        seen.counts
        or seen.evenly
        or any(has_stitches(phrase) and not is_bare(phrase) for phrase in seen.work)
    ):
        return False
    if texts[0] in _UNDOING:
        return True
    at = texts.index("if")
    clause = not any(phrase.flags & (COMMA | SEMI) for phrase in seen.order[1 : at + 1])
    return clause and not _OF_TASTE.isdisjoint(texts[at + 1 :])


_UNDOING: Final = frozenset(("ravel", "unravel", "rip", "frog", "tink", "unpick", "undo"))
"""With what a sentence begins that says how to mend a hat that is done."""
_OF_TASTE: Final = frozenset(
    ("too", "want", "prefer", "like", "wish", "fancy", "longer", "deeper", "shorter", "shallower", "taller",
     "slouchier", "yours")
)  # fmt: skip
"""What stands behind `if` where something is done only by those who want it so."""


def _tells_all_rounds(seen: Seen) -> bool:
    """Whether a bracket only says how many rounds there are now: `(9 rnds in all)`."""
    match seen.order:
        case (Brackets(inside=inside),):
            rounds = Rounds in [type(phrase) for phrase in inside]
            total = any(is_of_all(phrase) for phrase in inside)
            return rounds and total and all(type(phrase) in (Rounds, Said) for phrase in inside)
        case (*words, Brackets(inside=inside)) if words and _tells_repeat(inside):
            return all(type(phrase) in (Said, Fabric, Chart) for phrase in words) and not any(
                type(phrase) is Said and phrase.text in VERBS for phrase in words
            )
        case (*words, Brackets(inside=inside)) if words:
            multiple = any(type(phrase) is Said and phrase.text == "multiple" for phrase in inside)
            return multiple and all(type(phrase) in (Said, Fabric) for phrase in words)
        case _:
            return False


def _tells_repeat(inside: tuple[Phrase, ...]) -> bool:
    """Whether a bracket says how large a pattern is: `(8-st rep, 6 rnds)`, `(6-round repeat)`."""
    repeats = Rep in [type(phrase) for phrase in inside]
    return repeats and all(type(phrase) in (Rep, Rounds, Said, Count) for phrase in inside)


_IN_HEADING: Final = frozenset((Said, Change, Fabric, Count, Closing, Chart))


def _counts_alone(segment: Segment) -> bool:
    return all(type(phrase) is Count and not phrase.sign for phrase in segment.phrases)


def _work(seen: Seen, stated: tuple[Stated, ...], label: Label | None, segment: Segment) -> list[Candidate]:
    """Everything that works rounds."""
    in_turn = shaped_in_turn(seen, stated)
    with_plain = [way for way in in_turn if way.step > 1 or way.trouble]
    if on_rounds := on_rounds_ways(seen, stated) or _on_named_rounds(seen, stated, label) or with_plain:
        return on_rounds
    options = loop_ways(seen, stated, label) if seen.agains else []
    options.extend(by_name(seen, stated, label))
    if label is None:
        options.extend(chart_again(seen, stated))
    options.extend(marked_round(seen, label))
    options.extend(continuations(seen, stated, label))
    options.extend(in_turn)
    options.extend(as_before(seen, stated))
    numbered = as_numbered(segment.phrases, label, stated)
    options.extend(numbered)
    if label is None and not options and (striped := stripes(segment.phrases, segment)):
        return [striped]
    if label is None and not seen.agains:
        options.extend(once_more(seen, stated, segment))
    goes_on = seen.until_round is not None and any(phrase.manner for phrase in seen.continues)
    if not goes_on and (seen.agains or not options or options[0].kind != "loop"):
        rounds = rounds_of_segment(seen, stated, label, segment)
        options.extend(_as_set(seen, rounds) if numbered else rounds)
    options.extend(in_colour(segment))
    options = _from_first(seen, with_rounds_between(seen, stated, options))
    if seen.in_all is not None and any(option.kind == "loop" for option in options):
        further = [option.kind != "loop" and OF_FURTHER for option in options]
        options = [
            replace(option, cost=option.cost + extra) for option, extra in zip(options, further, strict=True)
        ]
    if seen.in_all is not None and seen.in_all.from_start:
        return [replace(option, from_start=True) for option in options]
    if in_all := in_all_ways(seen, stated, segment):
        options = [*in_all, *(replace(option, cost=option.cost + OF_FURTHER) for option in options)]
    if (label is None or label.kind == "listed") and all(map(is_bare, seen.work)):
        options.extend(marker_ways(seen))
    return options


def _from_first(seen: Seen, options: list[Candidate]) -> list[Candidate]:
    """`Work 22 rounds in all`: the round that shapes and was told just before as the first counts among them."""
    if any(counts_all(seen, rounds) for rounds in seen.rounds):
        return [replace(option, from_first=True) for option in options]
    return options


def _on_named_rounds(seen: Seen, stated: tuple[Stated, ...], label: Label | None) -> list[Candidate]:
    """`Dec in the same way on rounds 5, 7 and 8`: those are shaped, or worked again; empty where it is not told."""
    shaped = on_named_rounds(seen, stated, label) if seen.agains else []
    if not shaped:
        return []
    again = loop_ways(seen, stated, label)
    return [*shaped, *(replace(option, cost=option.cost + NAMED_AGAIN) for option in again)]


def _as_set(seen: Seen, rounds: list[Candidate]) -> list[Candidate]:
    """The rounds of numbers that may go on as set; plain ones are unlikely where decreases are spoken of.

    So they are where rounds go on in the same manner: `Rnds 9-12: as before, with 1 st fewer each time`.
    """
    thus = seen.changes or any(phrase.manner for phrase in seen.continues)
    plain = thus and not any(map(has_stitches, seen.work))
    return [replace(option, cost=option.cost + AS_SET_PLAIN) for option in rounds] if plain else rounds


def _begin_at(segment: Segment) -> Candidate | None:
    """`Begin at rnd 5 (3, 1)`."""
    if segment.label is None or segment.label.kind == "sizes":
        for phrase in segment.phrases:
            if type(phrase) is BeginAt:
                return Candidate("begin", 0.0, rounds=phrase.number)
    return None
