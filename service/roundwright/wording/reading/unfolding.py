"""Groups of whole rounds told in other words: `[purl 1 rnd, knit 1 rnd] 5 times`."""

from itertools import pairwise, takewhile
from typing import Final

from msgspec.structs import replace

from roundwright.knitting.rounds.round import Work, execute
from roundwright.wording.reading.in_parts import with_ends_of_parts
from roundwright.wording.reading.label import Label
from roundwright.wording.reading.phrases import (
    Again,
    Brackets,
    Change,
    Continue,
    Count,
    Extent,
    Fabric,
    Length,
    Needlewise,
    Phrase,
    Rep,
    Rounds,
    Said,
    Star,
    Stitches,
    Then,
    Times,
    Until,
    counts_of,
    is_bracketed_count,
    is_silent,
    is_until_rounds,
    opened,
)
from roundwright.wording.reading.rounds_by_sort import with_rounds_by_sort
from roundwright.wording.reading.seen import begins_ribbed, has_stitches, is_bare, is_ribbed, is_shaping
from roundwright.wording.reading.spread import with_spread
from roundwright.wording.reading.tokens import COLON, COMMA, DASH, EQUALS, SEMI, SLASH, SPACE, STOP
from roundwright.wording.reading.tree import NOTHING, Number, Stitch
from roundwright.wording.reading.verbs_before import SHORTEST_VERB, with_verbs_inside


def without_count_before(phrases: list[Phrase]) -> list[Phrase]:
    """The phrases without what is said before a colon of the round behind it.

    A count says what is there, `With 70 sts: k8, k2tog`, `On each needle (20 sts): k18, k2tog`; a stitch names the
    round, `ssk again: *ssk, k7*`, or what it is worked on, `the same to the knits: *k2tog, p1*`.
    """
    match phrases:
        case [Needlewise() as needles, Brackets(inside=(Count(),)), first, *behind] if first.flags & COLON:
            return [needles, first, *behind]
    place = next((at for at, phrase in enumerate(phrases[:MOST_OF_NAME]) if at and phrase.flags & COLON), 0)
    if not place or type(phrases[place]) not in (Stitches, Star, Brackets):
        return phrases
    before = phrases[:place]
    counts = [phrase for phrase in before if type(phrase) is Count]
    named = [phrase for phrase in before if type(phrase) is Stitches]
    silent = all(type(phrase) in _IN_NAME for phrase in before)
    if len(counts) == 1 and not named and silent and before[0] is not counts[0]:
        return phrases[place:]
    in_rib = Fabric in [type(phrase) for phrase in before]  # in every column of the k2, p2 rib: *k2, p2tog*
    worked = [phrase for phrase in named if not (in_rib and is_ribbed(phrase))]
    shaping = [phrase for phrase in worked if not is_bare(phrase)]
    silent = all(type(phrase) in (*_IN_NAME, Change) for phrase in before)
    shapes = bool(worked) and len(shaping) < 2 and all(map(is_shaping, shaping)) and not counts
    return phrases[place:] if shapes and silent and type(phrases[place]) is not Stitches else phrases


MOST_OF_NAME: Final = 16
"""Phrases before a colon that name a round."""
_IN_NAME: Final = frozenset((Stitches, Said, Times, Count, Fabric))


def with_repeats_opened(phrases: list[Phrase]) -> list[Phrase]:
    """The phrases with a bracket opened that only says how far is worked again: `*k8, k2tog* (repeat around)`."""
    made: list[Phrase] = []
    for phrase in phrases:
        match phrase:
            case Brackets(inside=(Rep() as again, Extent() | Times(), *behind)) if (
                made and type(made[-1]) in _REPEATED and all(map(is_silent, behind))
            ):
                made.extend((replace(again, flags=phrase.flags), *phrase.inside[1:]))
            case _:
                made.append(phrase)
    return made


_REPEATED: Final = frozenset((Stitches, Star, Brackets))
"""What stands before a bracket that says how far it is worked again; not the stitches of a chart's repeat."""


def with_times_behind(phrases: list[Phrase]) -> list[Phrase]:
    """The phrases with a number of times told before its bracket put behind it: `k1, 9 times (k11, k2tog)`.

    So is that of a decrease among other stitches: `* k1, 2 times k2tog *`.
    """
    made = list(phrases)
    if (work := _rounds_behind_number(phrases) or _stitches_behind_number(phrases)) is not None:
        return work
    for place, phrase in enumerate(phrases[:-1]):
        if not _stands_before(phrases, place):
            continue
        bracket, behind = phrases[place + 1], replace(phrase, flags=0)
        if closes := _closing_star(phrases, place + 1):  # 8 times *k9, k2tog*
            behind = replace(behind, start=phrases[closes].end, end=phrases[closes].end)
            star = replace(bracket, flags=phrase.flags)
            made[place : closes + 1] = [star, *phrases[place + 2 : closes + 1], behind]
        elif type(bracket) is Brackets and any(map(has_stitches, bracket.inside)):
            made[place], made[place + 1] = replace(bracket, flags=phrase.flags), behind
        elif type(bracket) is Stitches and _is_among_stitches(phrases, place):
            made[place] = Brackets(bracket.start, bracket.end, phrase.flags, (replace(bracket, flags=0),))
            made[place + 1] = behind
    return made


def _stands_before(phrases: list[Phrase], place: int) -> bool:
    """Whether it tells how often what follows it is worked, and not what stands before it."""
    phrase = phrases[place]
    behind = [type(then) for then in phrases[place + 2 : place + 4]]
    repeated = place and type(phrases[place - 1]) is Rep  # rep 8 times in all *k9, k2tog*
    if type(phrase) is not Times or phrase.more or (phrase.total and not repeated):
        return False
    parted = not place or bool(phrase.flags & (COMMA | COLON | STOP | SEMI))
    parted = parted or all(map(_is_verb_of_rounds, phrases[_sentence(phrases, place) : place]))
    told_behind = behind[:1] == [Times] and behind[1:] != [Brackets]
    return parted and not told_behind and not phrases[place + 1].flags & (COMMA | STOP | SEMI)


def _closing_star(phrases: list[Phrase], place: int) -> int:
    """Where a repeat ends that is told between two stars, and how often before them; 0 where none begins here."""
    stars = (at for at in range(place + 1, len(phrases)) if type(phrases[at]) in _STARS)
    closes = next(stars, 0) if type(phrases[place]) is Star else 0
    behind = [type(phrase) for phrase in phrases[closes : closes + COUNTED_BEHIND]]
    again = Rep in behind[:2] or Extent in behind[1:2] or (Times in behind[1:2] and behind[2:] != [Star])
    return 0 if again or not any(map(has_stitches, phrases[place + 1 : closes])) else closes


COUNTED_BEHIND: Final = 3
"""Phrases from the star that ends a repeat to one that begins another: `*k2, k2tog*, 6 times *`."""


def _rounds_behind_number(phrases: list[Phrase]) -> list[Phrase] | None:
    """Plain rounds told behind a colon, and how often they are worked, or how many they are; None for others.

    `Work 3 times: knit 1 rnd, purl 1 rnd`, `Work 8 rounds of garter, that is purl 1 round, knit 1 round in turn`.
    """
    place = next((at for at, phrase in enumerate(phrases) if _is_number_of_rounds(phrase)), len(phrases))
    begins = (at for at in range(place + 1, len(phrases)) if _begins_explanation(phrases, at))
    stop = next(begins, place)
    if stop == place:
        return None
    ends = (at for at in range(stop + 1, len(phrases)) if phrases[at].flags & STOP)
    several = (at for at in ends if sum(type(phrase) is Rounds for phrase in phrases[stop:at]) > 1)
    end = next(several, len(phrases))  # 3 times: 1 round knit., 1 round purl.
    behind = phrases[end:]
    rounds = [
        replace(phrase, flags=phrase.flags | COMMA) if _tells_turns(before) else phrase
        for before, phrase in pairwise(phrases[stop - 1 : end])
        if not _tells_turns(phrase)
    ]
    if not all(map(_is_plain_rounds, rounds)) or _holds_rounds(tuple(rounds)) < 1:
        return None
    begin, number = _sentence(phrases, place), phrases[place]
    before = all(_is_verb_of_rounds(phrase) or _is_of_fabric(phrase) for phrase in phrases[begin:place])
    if not before or not all(map(_is_of_fabric, phrases[place + 1 : stop])):
        return None
    if type(number) is not Times and _holds_rounds(tuple(rounds)) == 1:
        return None
    bracket = Brackets(rounds[0].start, rounds[-1].end, STOP, (replace(rounds[0], flags=0), *rounds[1:]))
    return [*phrases[:begin], bracket, replace(number, flags=0), *behind]


def _stitches_behind_number(phrases: list[Phrase]) -> list[Phrase] | None:
    """A repeat behind a colon, and how often it is worked: `Rnd 1: work 9 times: k7, k2tog`; None for others."""
    place = next((at for at, phrase in enumerate(phrases) if not _names_work(phrase)), 0)
    if not phrases or type(times := phrases[place]) is not Times or times.more:
        return None
    behind = phrases[place + 1 :]
    repeat = list(takewhile(lambda phrase: type(phrase) is Stitches or is_silent(phrase), behind))
    rest = behind[len(repeat) :]
    whole = not any(phrase.flags & STOP for phrase in repeat) and all(map(counts_of, rest[:1]))
    if not whole or not any(map(is_shaping, repeat)) or not repeat[0].flags & COLON:
        return None
    bracket = Brackets(
        repeat[0].start, repeat[-1].end, times.flags, (replace(repeat[0], flags=0), *repeat[1:])
    )
    again = _stitches_behind_number(rest) or rest
    return [*phrases[:place], bracket, replace(times, flags=0), *again]


def _is_number_of_rounds(phrase: Phrase) -> bool:
    """Whether it says how often rounds are worked, or how many of them."""
    if type(phrase) is Rounds:
        return not phrase.every and not phrase.more
    return type(phrase) is Times or is_until_rounds(phrase)


def _begins_explanation(phrases: list[Phrase], place: int) -> bool:
    """Whether it stands behind a colon, or behind `i.e.` or `that is`."""
    words = [phrase for phrase in phrases[max(0, place - 4) : place] if type(phrase) is Said]
    before = [phrase.text for phrase in words if not _tells_turns(phrase)]
    that_is = type(phrases[place]) is not Said and (before[-1:] == ["ie"] or before[-2:] == ["that", "is"])
    return that_is or bool(phrases[place].flags & COLON)


def _tells_turns(phrase: Phrase) -> bool:
    """Whether it only says that rounds are worked in turn: `and`, `alternately`, `in turn`, `around`."""
    if type(phrase) is Said:
        return phrase.text in ("and", "in") or _is_in_turn(phrase)
    return type(phrase) is Extent and phrase.leave == NOTHING


def _is_of_fabric(phrase: Phrase) -> bool:
    """Whether it only says of what rounds are: `of garter stitch`, `as follows`."""
    if type(phrase) is Said:
        return not phrase.words or phrase.text in _AS_FOLLOWS or _is_in_turn(phrase)
    return type(phrase) in (Fabric, Continue)


_AS_FOLLOWS: Final = frozenset(("as", "follows", "thus", "so"))


def _sentence(phrases: list[Phrase], place: int) -> int:
    """Where the sentence of a phrase begins."""
    return next((at for at in range(min(place, len(phrases) - 1), 0, -1) if phrases[at].flags & STOP), 0)


def _is_verb_of_rounds(phrase: Phrase) -> bool:
    """Whether it only says that something is worked: `Work 3 times (knit 1 rnd, purl 1 rnd)`."""
    if type(phrase) is Rep:
        return not phrase.level
    return type(phrase) is Said and phrase.text in ("work", "do", "the", "following", "this")


def _names_work(phrase: Phrase) -> bool:
    """Whether it only stands before what is worked: `Work 6 times: k8, k2tog`, `Part 1: 6 times: k8, k2tog`."""
    return type(phrase) in (Said, Then) or bool(counts_of(phrase)) or _is_verb_of_rounds(phrase)


def _is_plain_rounds(phrase: Phrase) -> bool:
    match phrase:
        case Rounds(every=every, more=more):
            return not every and not more
        case _:
            return type(phrase) is Then or is_bare(phrase)


def _is_among_stitches(phrases: list[Phrase], place: int) -> bool:
    """Whether times before one decrease stand behind other stitches, and the decrease is apart from what follows.

    So they may behind the count of the round before: `(k1, k2tog) 7 times = 14, 7 times k2tog = 7`.
    """
    behind = phrases[place + 2] if place + 2 < len(phrases) else None
    apart = type(behind) is not Stitches or bool(behind.flags & (COMMA | STOP | SEMI))
    before = phrases[place - 1] if place else None
    counted = type(before) is Brackets and all(type(inner) is Count for inner in before.inside)
    return (type(before) in (Stitches, Count) or counted) and is_shaping(phrases[place + 1]) and apart


def unfolded(phrases: list[Phrase]) -> list[Phrase]:
    """The phrases with groups of whole rounds told in other words.

    `[purl 1 rnd, knit 1 rnd] 5 times` becomes its rounds, and `the last 2 rnds`, `5 times` in all.
    """
    phrases = _without_stitches_used(with_rounds_by_sort(phrases))
    phrases = _starred(
        _with_stitches_over(_said_once(with_ends_of_parts(with_spread(with_verbs_inside(phrases)))))
    )
    if not any(type(phrase) is Brackets and _holds_rounds(phrase.inside) for phrase in phrases):
        return phrases
    made: list[Phrase] = []
    for place, phrase in enumerate(phrases):
        following = phrases[place + 1] if place + 1 < len(phrases) else None
        if (
            type(phrase) is Brackets
            and (isinstance(following, (*_OFTEN, Rounds)) or is_until_rounds(following))
            and (rounds := _holds_rounds(phrase.inside))
        ):
            first, *others = phrase.inside
            made.append(replace(first, flags=phrase.flags | STOP))
            made.extend(_apart(first, others))
            made.append(
                Again(
                    phrase.start,
                    phrase.end,
                    STOP,
                    last=rounds,
                    work=type(following) in (Length, Rounds, Brackets),
                )
            )
        elif (
            type(phrase) is Times
            and place
            and type(phrases[place - 1]) is Brackets
            and type(made[-1]) is Again
        ):
            named = Again in [type(inner) for inner in opened(phrases[place - 1])]
            made.append(replace(phrase, total=named or not phrase.more, more=phrase.more and not named))
        else:
            made.append(phrase)
    return made


def without_all_of_rounds(phrases: list[Phrase]) -> list[Phrase]:
    """The phrases without the `all` of a stitch in which so many rounds are worked: `Knit 25 rounds, all knit`."""
    made: list[Phrase] = []
    for place, phrase in enumerate(phrases):
        rounds = place > 1 and _counts_several(phrases[place - 2])
        ended = all(behind.flags & STOP for behind in phrases[place + 1 : place + 2])
        if rounds and ended and is_bare(phrase) and type(made[-1]) is Extent and made[-1].leave == NOTHING:
            made[-1] = replace(phrase, flags=phrase.flags | made[-1].flags)
        else:
            made.append(phrase)
    return made


def with_stitches_joined(phrases: list[Phrase]) -> list[Phrase]:
    """The phrases without the comma before the stitches of so many rounds: `Work 5 rnds, k2, p1`.

    They are no round more, since nothing else tells what is worked in the others: not so `Knit 5 rnds, k2, p1`.
    """
    made = list(phrases)
    for place in range(2, len(phrases)):
        match phrases[place - 2 : place]:
            case [Said(text="work"), rounds] | [rounds, Said(text="work")] if _counts_several(rounds):
                pass  # the verb is behind the rounds in German
            case _:
                continue
        ribs = list(takewhile(is_ribbed, phrases[place:]))
        behind = phrases[place + len(ribs) : place + len(ribs) + 1]
        begins = place == 2 or phrases[place - 2].flags & (STOP | COLON) or type(phrases[place - 3]) is Then
        ended = all(
            after.flags & STOP or type(after) in (Extent, Then) or is_bracketed_count(after)
            for after in behind
        )
        parted = phrases[place].flags & (COMMA | STOP) == COMMA
        if begins and len(ribs) > 1 and ended and parted:
            made[place] = replace(phrases[place], flags=phrases[place].flags & ~COMMA)
    return made


def _counts_several(phrase: Phrase) -> bool:
    """Whether it is a number of rounds, and not one."""
    return type(phrase) is Rounds and not phrase.every and phrase.number.values != (1,)


def with_turns_told(of: Label | None, phrases: list[Phrase]) -> list[Phrase]:
    """The phrases, with rounds in turn told as often as the numbers ask: `Rnds 1-6: purl 1 rnd, knit 1 rnd`."""
    if of is None or of.kind != "numbered" or len(of.spans) != 1 or not phrases or not is_bare(phrases[0]):
        return phrases
    numbers = (of.spans[0].last.of(0) or 0) - (of.spans[0].first.of(0) or 0) + 1
    stop = in_turn = verbs = 0
    while stop + 1 < len(phrases) and is_bare(phrases[stop]):
        rounds = phrases[stop + 1]
        if type(rounds) is not Rounds or rounds.every or rounds.more or len(rounds.number.values) != 1:
            break
        in_turn += rounds.number.of(0) or 0
        verbs += 1
        stop += 2
        if stop < len(phrases) and type(phrases[stop]) in (Then, Said) and not phrases[stop].flags & STOP:
            stop += stop + 1 < len(phrases) and is_bare(phrases[stop + 1])
    if verbs < FEWEST_IN_TURN or numbers < in_turn or numbers % in_turn:
        return phrases
    if any(type(phrase) in (Times, Rounds, Stitches, Again) for phrase in phrases[stop:]):
        return phrases
    first, last = phrases[0], phrases[stop - 1]
    number = Number((numbers // in_turn,), last.end, last.end)
    inside = Brackets(first.start, last.end, first.flags, tuple(phrases[:stop]))
    return [inside, Times(last.end, last.end, 0, number), *phrases[stop:]]


FEWEST_IN_TURN: Final = 2
"""Sorts of rounds that are worked in turn."""


def _without_stitches_used(phrases: list[Phrase]) -> list[Phrase]:
    """The phrases without the stitches that a decrease is told to use: `k2tog over the first 2 sts`."""
    if Count not in [type(phrase) for phrase in phrases] or not any(map(is_shaping, phrases)):
        return phrases
    made: list[Phrase] = []
    for place, phrase in enumerate(phrases):
        if type(phrase) is not Count:
            made.append(phrase)
            continue
        following = phrases[place + 1] if place + 1 < len(phrases) else None
        ended = following is None or following.flags & (COMMA | SEMI | STOP) or counts_of(following)
        begun = len(made)
        while begun and len(made) - begun < MOST_OF_PLACE and type(made[begun - 1]) is Said:
            begun -= 1
        words = {word.text for word in made[begun:] if type(word) is Said}
        if ended and begun and words & _PLACES and _uses(made[begun - 1], phrase):
            del made[begun:]
        else:
            made.append(phrase)
    return made


MOST_OF_PLACE: Final = 4
"""Words between a decrease and the stitches it uses: `over the very first`."""
_PLACES: Final = frozenset(("first", "last", "next"))


def _uses(phrase: Phrase, count: Count) -> bool:
    """Whether it is one decrease that uses so many stitches."""
    node = phrase.node if type(phrase) is Stitches else None
    if type(node) is not Stitch or not is_shaping(phrase) or node.times.values != (1,) or count.sign:
        return False
    return count.number.values == (execute((Work(node.name),))[0],)


def _said_once(phrases: list[Phrase]) -> list[Phrase]:
    """The phrases with `knit, knit, knit – 32 rounds` said once."""
    made: list[Phrase] = []
    for phrase in phrases:
        before = made[-1] if made else None
        if type(before) is Extent and type(phrase) is Extent and _says_again(before, phrase):
            continue
        if before is None or not is_bare(before):
            made.append(phrase)
            continue
        if _is_worked_so(before, phrase):
            made[-1] = replace(phrase, flags=before.flags)
            continue
        again = is_bare(phrase) and _alike(before, phrase)
        if not again or phrase.flags & (STOP | SLASH | SEMI | COLON):
            made.append(phrase)
    return made


def _is_worked_so(verb: Phrase, phrase: Phrase) -> bool:
    """Whether `knitted` only says that the stitches behind it are worked: `I knitted k9, k2tog`."""
    worked = type(phrase) is Stitches and not is_bare(phrase) and not phrase.flags & ~SPACE
    return worked and verb.end - verb.start >= SHORTEST_VERB


def _says_again(before: Extent, phrase: Extent) -> bool:
    """Whether the end of the round is told once more: `all the way round until I was back at the marker`."""
    return before.leave == NOTHING and phrase.leave is None and not phrase.flags & ~SPACE


def _alike(before: Phrase, phrase: Phrase) -> bool:
    """Whether both are `knit`, or both `purl`."""
    nodes = [work.node for work in (before, phrase) if type(work) is Stitches]
    return len({node.name for node in nodes if type(node) is Stitch}) == 1


def _with_stitches_over(phrases: list[Phrase]) -> list[Phrase]:
    """The phrases with `..., the 2 stitches over being knitted plain` told as stitches that are knitted at the end."""
    begun = next((place for place, phrase in enumerate(phrases) if type(phrase) is Extent), -1)
    behind = phrases[begun + 1 :] if begun > 0 else []
    extent = phrases[begun] if behind else None
    if (
        extent is None
        and len(stars := [at for at, phrase in enumerate(phrases) if type(phrase) is Star]) == 2
    ):
        begun, behind = stars[1], phrases[stars[1] + 1 :]  # *K3, K2tog*, the last 4 are knitted plain
        extent = Extent(phrases[begun].end, phrases[begun].end, 0, NOTHING) if behind else None
    if type(extent) is not Extent or extent.marker or not behind[0].flags & COMMA:
        return phrases
    stop = next((at for at, phrase in enumerate(behind) if at and _is_apart(phrase)), len(behind))
    ending = behind[:stop]
    counts = [phrase for phrase in ending if type(phrase) is Count and not phrase.sign]
    knits = [phrase for phrase in ending if is_bare(phrase) or _is_knitting(phrase)]
    plain = all(type(phrase) in (Said, Count) or is_bare(phrase) or _is_plain(phrase) for phrase in ending)
    adverb = not knits and any(map(_is_plain, ending)) and any(map(_is_rest, ending))  # last 2 sts plain
    if not plain or len(counts) != 1 or not (adverb or len(knits) == 1):
        return phrases
    if not 0 < (counts[0].number.of(0) or 0) <= MOST_OVER:
        return phrases
    if knits and ending.index(knits[0]) and knits[0].flags & (COMMA | SEMI):
        return phrases
    last = Stitch("k", counts[0].number, ending[0].start, ending[-1].end)
    over = Stitches(ending[0].start, ending[-1].end, ending[0].flags, last)
    rest = Number(counts[0].number.values)
    kept = begun + (type(phrases[begun]) is Star)
    return [*phrases[:kept], replace(extent, leave=rest), over, *behind[stop:]]


def _is_apart(phrase: Phrase) -> bool:
    """Whether a sentence begins with it, or it is the count that the round leaves: `(68 sts)`, `= 68 sts`."""
    leaves = bool(counts_of(phrase)) and (type(phrase) is Brackets or bool(phrase.flags & (EQUALS | DASH)))
    return leaves or bool(phrase.flags & STOP)


def _is_plain(phrase: Phrase) -> bool:
    return type(phrase) is Fabric and phrase.kind == "plain"


def _is_rest(phrase: Phrase) -> bool:
    return type(phrase) is Said and phrase.text in ("last", "over", "remaining", "final", "other")


def _is_knitting(phrase: Phrase) -> bool:
    return type(phrase) is Said and phrase.text == "knitting"


MOST_OVER: Final = 9
"""Stitches that are over at the end of a round in which a repeat does not come out."""


def _apart(first: Phrase, others: list[Phrase]) -> list[Phrase]:
    """The other phrases of rounds in turn; what is worked behind a round that is named is a sentence of its own."""
    named = type(first) is Again
    made: list[Phrase] = []
    for phrase in others:
        begins = named and type(phrase) in _PLAIN_WORK
        made.append(replace(phrase, flags=phrase.flags | STOP) if begins else phrase)
        named = (named and not begins) or type(phrase) is Again
    return made


def _starred(phrases: list[Phrase]) -> list[Phrase]:
    """The phrases with whole rounds between stars put in brackets: `*purl 1 round, knit 1 round* 5 times`."""
    often = (at for at, phrase in enumerate(phrases) if type(phrase) in _OFTEN or is_until_rounds(phrase))
    whole = next(often, 0)
    alternately = 0 if whole else _rounds_alternately(phrases)
    whole = whole or alternately
    starred = Star in [type(phrase) for phrase in phrases[:whole]]
    if whole > 2 and not starred and (alternately or _in_turn(phrases, whole)):
        begun = next((place for place, phrase in enumerate(phrases) if type(phrase) in _BEGIN_TURN), 0)
        inside = tuple(phrases[begun : _before_words(phrases, whole)])
        if _holds_rounds(inside) > 1:
            opened = phrases[begun]
            bracket = Brackets(opened.start, phrases[whole - 1].end, opened.flags, inside)
            return [*phrases[:begun], bracket, *phrases[whole:]]
    stars = [place for place, phrase in enumerate(phrases) if type(phrase) in _STARS]
    closed = False
    repeat = phrases[stars[2]] if len(stars) == 3 else None
    if type(repeat) is Rep and stars[2] == stars[1] + 1:
        closed = not repeat.level
        phrases = phrases[: stars[1]] + phrases[stars[2] :]
        stars = stars[:2]
    if len(stars) != 2 or type(phrases[stars[0]]) is not Star:
        return phrases
    first, last = stars
    inside = tuple(phrases[first + 1 : last])
    if not _holds_rounds(inside):
        return phrases
    rest = phrases[last + 1 :]
    again = type(phrases[last]) is Rep and not closed  # rep from * 3 times; `* Do that 3 times` is in all
    if again and rest and type(rest[0]) is Times and not rest[0].total:
        rest = [replace(rest[0], more=True), *rest[1:]]
    if (
        len(rest) > 1
        and type(rest[0]) is Extent
        and (isinstance(rest[1], (*_OFTEN, Rounds)) or is_until_rounds(rest[1]))
    ):
        rest = rest[1:]  # rep from * around until 28 rounds
    opened = phrases[first]
    return [*phrases[:first], Brackets(opened.start, phrases[last].end, opened.flags, inside), *rest]


def _rounds_alternately(phrases: list[Phrase]) -> int:
    """Where so many rounds stand of those told before: `purl 1 rnd, knit 1 rnd, alternately, for 12 rnds`; else 0."""
    at = next((place for place, phrase in enumerate(phrases) if _is_in_turn(phrase)), 0)
    behind = phrases[at + 1 : at + 1 + MOST_TO_ROUNDS] if at else []
    for place, phrase in enumerate(behind, start=at + 1):
        if type(phrase) is Rounds:
            return place if not phrase.every and phrase.number.values != (1,) else 0
        if type(phrase) is not Said:
            return 0
    return 0


def _is_in_turn(phrase: Phrase) -> bool:
    """Whether a word says that rounds before it are worked in turn."""
    return type(phrase) is Said and phrase.text in ("alternately", "alternating", "turn", "turns")


MOST_TO_ROUNDS: Final = 3
"""Words from `alternately` to the number of rounds."""


def _in_turn(phrases: list[Phrase], whole: int) -> bool:
    """Whether rounds are told that are worked in turn: `purl 1 rnd, knit 1 rnd, 5 times`."""
    often, parted = phrases[whole], 0
    for phrase in phrases[_before_words(phrases, whole) : whole + 1]:
        parted |= phrase.flags
    if type(often) in (Length, Brackets) or (parted & (COMMA | SEMI) and type(often) is Times):
        return True
    return Again in [type(phrase) for phrase in phrases[:whole]]


def _before_words(phrases: list[Phrase], place: int) -> int:
    """Where the words begin that stand before a phrase and work nothing: `purl 1 rnd; do this 4 times`."""
    while place > 1 and type(phrases[place - 1]) in _WORKING_NOTHING:
        place -= 1
    return place


_WORKING_NOTHING: Final = frozenset((Said, Rep))
_BEGIN_TURN: Final = frozenset((Stitches, Again))


def _holds_rounds(phrases: tuple[Phrase, ...]) -> int:
    """How many whole rounds are told here: `purl 1 rnd, knit 1 rnd`; 0 where anything else is.

    The stitches of a round may stand behind a colon: `knit 3 rnds, 1 rnd: k3 blue, k1 white`.
    """
    rounds, has_stitches_behind = 0, False
    for place, phrase in enumerate(phrases):
        near = phrases[max(0, place - 2) : place + 2]
        if _is_colour(phrases, place):
            continue
        if type(phrase) is Rounds:
            has_stitches_behind = any(map(begins_ribbed, phrases[place + 1 : place + 2]))
        elif has_stitches_behind and (type(phrase) is Said or is_ribbed(phrase)):
            continue
        if type(phrase) is Rounds and _is_colour(phrases, place + 1):
            rounds += phrase.number.of(0) or 1  # 4 rounds grey, 4 rounds brown
        elif type(phrase) is Rounds and any(type(earlier) in _PLAIN_WORK for earlier in near):
            rounds += phrase.number.of(0) or 1
        elif type(phrase) is Again and phrase.last == 1 and not (place and phrase.flags & STOP):
            rounds += 1
        elif type(phrase) is Fabric and phrase.kind == "plain":
            continue
        elif not (type(phrase) is Then or (type(phrase) is Said and not phrase.words) or is_bare(phrase)):
            return 0
    return rounds


def _is_colour(phrases: tuple[Phrase, ...], place: int) -> bool:
    """Whether a word behind a number of rounds is of their colour: `4 rounds grey`, `4 rounds B`, `4 rounds in red`."""
    begin = stop = place
    first, last = max(0, place - MOST_OF_COLOUR), min(len(phrases), place + MOST_OF_COLOUR)
    while first < begin < len(phrases) and type(phrases[begin]) is Said:
        begin -= 1
    rounds = phrases[begin] if place < len(phrases) else None
    while stop < last and type(phrases[stop]) is Said and not phrases[stop].flags & _APART:
        stop += 1
    if type(rounds) is not Rounds or rounds.every or not begin < place < stop:
        return False
    words = sum(phrase.words for phrase in phrases[begin + 1 : stop] if type(phrase) is Said)
    ended = stop == len(phrases) or bool(phrases[stop].flags & _APART)
    return ended and words <= 1 and not any(phrase.flags & _APART for phrase in phrases[begin + 1 : stop])


MOST_OF_COLOUR: Final = 4
"""Words that tell a colour, `in the light grey`, with those that say nothing."""
_APART: Final = COMMA | SEMI | STOP
_STARS: Final = frozenset((Star, Rep))
_OFTEN: Final = frozenset((Until, Times, Length))
_PLAIN_WORK: Final = frozenset((Stitches, Fabric))
