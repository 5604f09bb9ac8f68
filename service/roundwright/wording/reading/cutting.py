"""Where one round ends and the next begins within a line."""

from itertools import takewhile
from typing import Final, TypeGuard

from msgspec import Struct

from roundwright.wording.reading.label import Label
from roundwright.wording.reading.phrases import (
    ALL_OTHERS,
    NOT_GIVEN,
    Again,
    Brackets,
    CastOn,
    Change,
    Closing,
    Continue,
    Count,
    Every,
    Extent,
    Fabric,
    Length,
    Markers,
    Needlewise,
    PassOver,
    PerPart,
    Phrase,
    Rep,
    Rounds,
    Said,
    Star,
    Stitches,
    Then,
    Times,
    Until,
    UntilRound,
    counts_of,
    is_of_all,
    is_once_more,
    is_until_rounds,
)
from roundwright.wording.reading.seen import begins_ribbed, has_shaping, is_bare, is_ribbed
from roundwright.wording.reading.tokens import COLON, COMMA, DASH, FULL, SEMI, SLASH, STOP
from roundwright.wording.reading.tree import NOTHING, Evenly, Stitch

_WORK: Final = frozenset((Stitches, Star, Fabric, Again, Rounds, PassOver, Closing, CastOn, Continue))
_WORK_OR_LENGTH: Final = frozenset((Stitches, Star, Fabric, Again, Rounds, Length))
_BEGINS: Final = frozenset((Again, Closing, CastOn))
_COUNTED_ROUNDS: Final = frozenset((Rounds, Length, UntilRound))
_PARTED: Final = frozenset((Markers, PerPart))
_FABRIC_OR_ROUNDS: Final = frozenset((Fabric, Rounds))
_SENTENCES: Final = frozenset((Said, Then, Rounds, Length, Rep))
_ASIDES: Final = frozenset((Said, Then, Brackets))
_WORDS: Final = frozenset((Said, Then, Fabric))
_ENDS: Final = frozenset((Then, Extent, Times))
_ENDS_OR_STARS: Final = frozenset((*_ENDS, Star, Rep))
_OFTEN: Final = frozenset((Until, UntilRound, Times))
_GOING_ON: Final = frozenset((Again, Continue))
_TIMES: Final = frozenset((Times, Said))
_CLOSING: Final = frozenset((Closing, Then))
_STITCHES: Final = frozenset((Stitches, Brackets))
_FABRIC_FIRST: Final = frozenset((Rounds, Fabric, Said, Count))
_SILENT: Final = frozenset((Then, Said))
_PLAIN_ROUNDS: Final = frozenset((Then, Said, Rounds))


def is_work(phrases: tuple[Phrase, ...] | list[Phrase]) -> bool:
    """Whether anything is worked in these phrases."""
    return any(
        type(phrase) in _WORK_OR_LENGTH or (type(phrase) is Brackets and is_work(phrase.inside))
        for phrase in phrases
    )


def _counted(phrase: Phrase) -> bool:
    """Whether it is a count, with or without a bracket."""
    if type(phrase) is Count:
        return not phrase.sign
    return (
        type(phrase) is Brackets
        and not is_work(phrase.inside)
        and any(_counted(inner) for inner in phrase.inside)
    )


def _whole(phrase: Phrase, following: Phrase | None) -> bool:
    """Whether it begins whole rounds: `knit 2 rnds`, `work even`, `rep rnds 1 and 2`."""
    if type(phrase) in _BEGINS:
        return True
    if type(phrase) is Stitches and type(phrase.node) is Stitch and phrase.node.bare:
        rounds = type(following) is Rounds or is_until_rounds(following)
        return rounds and following is not None and not following.flags & (STOP | SEMI | COLON)
    return False


def _knits_named(phrases: list[Phrase], place: int) -> bool:
    """Whether a plain round is named that follows: `Knit next row.`, `knit the next round`."""
    if not is_bare(phrases[place]):
        return False
    for phrase in phrases[place + 1 : place + MOST_TO_NAME]:
        if type(phrase) is not Said or phrase.text not in _NEXT_ROUND:
            return False
        if phrase.text in _ROUND_NAMES:
            return True
    return False


MOST_TO_NAME: Final = 4
"""Words from `knit` to the name of a round."""
_ROUND_NAMES: Final = frozenset(("round", "rnd", "row"))
_NEXT_ROUND: Final = frozenset(("the", "next", "following", *_ROUND_NAMES))


class _Coming(Struct):
    """A phrase that may begin the next round.

    - `following`: what stands behind it, but for words that say nothing
    - `works`: whether stitches are worked in it; `begins`: whether it begins whole rounds
    - `again`: whether it closes what is repeated; `ends`: whether it is the count at the end of a round
    - `adds`: whether it begins a number of rounds behind `and`
    """

    phrase: Phrase
    following: Phrase | None
    works: bool
    begins: bool
    again: bool
    ends: bool
    adds: bool


class _Part(Struct):
    """A round while its phrases are gathered.

    - `worked`, `counted`: whether its work, and its count, were read; `cast`: whether it casts on
    - `whole`: whether it is whole rounds; `stars`: the stars that were read, odd while a repeat is open
    - `kinds`: those of its phrases
    """

    phrases: list[Phrase]
    kinds: set[type]
    worked: bool = False
    counted: bool = False
    whole: bool = False
    cast: bool = False
    stars: int = 0

    @property
    def open(self) -> bool:
        """Whether a repeat was begun with a star and not closed."""
        return self.stars % 2 == 1

    @property
    def goes_on(self) -> bool:
        """Whether a sentence goes on as before, and its end is still to come; not so `In this manner: knit 1 rnd`."""
        if Continue not in self.kinds or self.has(_OFTEN):
            return False
        manners = [at for at, phrase in enumerate(self.phrases) if type(phrase) is Continue and phrase.manner]
        introduces = any(
            phrase.flags & COLON for at in manners[-1:] for phrase in self.phrases[at + 1 : at + 2]
        )
        return bool(manners) and not introduces and type(self.phrases[0]) in (Continue, Then, Said)

    def has(self, kinds: frozenset[type]) -> bool:
        """Whether it has a phrase of one of these kinds."""
        return not kinds.isdisjoint(self.kinds)

    def add(self, coming: _Coming) -> None:
        """Take one more phrase."""
        phrase = coming.phrase
        self.phrases.append(phrase)
        self.kinds.add(type(phrase))
        self.cast = self.cast or type(phrase) is CastOn
        if type(phrase) is Star:
            self.stars += 1
        if coming.again:
            self.stars = 0
        if coming.works:
            self.worked = True
            self.whole = self.whole or coming.begins or type(phrase) in _FABRIC_OR_ROUNDS
            self.counted = False
        if type(phrase) in _COUNTED_ROUNDS:
            self.worked = True
        if type(phrase) in _PARTED and not self.worked and not self.phrases[0].flags & COLON:
            self.worked = self.whole = True
        self.counted = self.counted or (self.worked and coming.ends)

    def carried(self, phrase: Phrase) -> list[Phrase]:
        """What stands at its end and belongs to the next round, which begins with this phrase; it is taken out."""
        stop = len(self.phrases)
        if type(phrase) is Rounds and _then(self.phrases):
            while type(self.phrases[stop - 1]) is not Then:
                stop -= 1  # `10 turns in rib, after which 26 turns in jersey`
        while stop and (type(self.phrases[stop - 1]) is Then or _leads_to_then(self.phrases, stop)):
            stop -= 1
        carried = self.phrases[stop:]
        del self.phrases[stop:]
        return carried


def _leads_to_then(phrases: list[Phrase], stop: int) -> bool:
    """Whether the word before this place says nothing, and `then` stands here: `and then`."""
    word = phrases[stop - 1]
    silent = type(word) is Said and not word.words and not is_of_all(word)
    return silent and stop < len(phrases) and type(phrases[stop]) is Then


def cut_rounds(of: Label | None, phrases: list[Phrase]) -> list[list[Phrase]]:
    """The phrases of a line, cut into rounds.

    A round ends with its count; a sentence of its own, `then`, and whole rounds begin another.
    """
    rounds: list[list[Phrase]] = []
    part = _Part([], set())
    for place, phrase in enumerate(phrases):
        following = _following(phrases, place)
        works = type(phrase) in _WORK or (type(phrase) is Brackets and is_work(phrase.inside))
        coming = _Coming(
            phrase,
            following,
            works,
            _whole(phrase, following) or _knits_named(phrases, place),
            _closes(part, phrase, following),
            _ends_round(phrases, place, following),
            _adds_rounds(phrases, place),
        )
        between = phrase.flags & (COMMA | DASH | SEMI) and part.has(_ROUND_WORK)
        between = between and not part.has(_GOING_ON_TO) and _tells_between(phrases, place)
        ended = of is None and part.has(_OFTEN)
        between = between or (ended and _tells_of_others(phrases, place))
        if between or _leads_up(of, part, coming):
            rounds.append(part.phrases)
            part = _Part([], set())
        named = part.worked and not part.open and _names_next(phrases, place)
        named = named or _repeats_round(part, coming) or _goes_on_behind(part, phrases, place)
        named = named or _changes_next(part, phrases, place)
        cuts = named or _begins_sentence(of, part, coming) or (part.worked and _cuts(of, part, coming))
        if part.phrases and cuts:
            carried = part.carried(phrase)
            if part.phrases:
                rounds.append(part.phrases)
            part = _Part(carried, {type(kept) for kept in carried})
        part.add(coming)
    if part.phrases:
        rounds.append(part.phrases)
    return rounds


def _leads_up(of: Label | None, part: _Part, coming: _Coming) -> bool:
    """Whether what was told only leads up to this phrase: `knit one round like this:`.

    Where no label stands before it, so does a sentence without work: `Divide the 96 sts over 4 needles.`.
    """
    phrase = coming.phrase
    if of is None and phrase.flags & STOP and not part.worked and _tells(part.phrases):
        return True
    if of is None and type(phrase) is Needlewise and _tells_where(part, phrase, coming.following):
        return True
    if not phrase.flags & COLON:
        return False
    if Rounds not in part.kinds:
        return False
    announced = (of is None and _announces(part.phrases)) or _announces_all(part.phrases, phrase)
    return _introduces_one(part.phrases) or (announced and type(phrase) in _ROUND_WORK)


def _begins_sentence(of: Label | None, part: _Part, coming: _Coming) -> bool:
    """Whether a sentence begins that is work of its own: `Knit 2 rnds.`, `Decrease like this on every 2nd round.`."""
    if part.worked and not part.open and _shapes_thus(part, coming):
        return True
    whole = coming.begins and coming.works
    if of is not None and of.kind == "sort" and coming.phrase.flags & FULL and is_bare(coming.phrase):
        return bool(part.phrases) and all(map(counts_of, part.phrases))  # Dec rnd [54 sts]. Knit 3 rnds.
    return of is None and bool(coming.phrase.flags & STOP) and (whole or _ends_decrease(part.phrases))


def _repeats_round(part: _Part, coming: _Coming) -> bool:
    """Whether a whole round was told that is worked again so often: `knit; do this 8 times`."""
    phrase = coming.phrase
    if type(phrase) is not Rep or phrase.level or type(coming.following) is not Times or part.open:
        return False
    worked = [before for before in part.phrases if type(before) not in _SILENT]
    plain = any(map(is_bare, worked)) and all(
        is_bare(before) or (type(before) is Rounds and before.number.values == (1,)) for before in worked
    )
    ended = bool(worked) and type(worked[-1]) is Extent
    return (plain or ended) and bool(phrase.flags & (COMMA | SEMI | DASH))


def _ends_decrease(phrases: list[Phrase]) -> bool:
    """Whether a decrease was told with its count, and no more: `Decrease again. (72)`."""
    counted = len(phrases) > 1 and type(phrases[-1]) is Brackets and _counted(phrases[-1])
    changes = Change in [type(phrase) for phrase in phrases]
    return (
        counted and changes and all(type(phrase) in (Said, Change, Then, Fabric) for phrase in phrases[:-1])
    )


def _shapes_thus(part: _Part, coming: _Coming) -> bool:
    """Whether a sentence begins that says how the crown goes on: `Decrease (like this) on every 2nd round`."""
    phrase, following = coming.phrase, coming.following
    thus = type(following) is Continue and following.manner
    shaped = any(map(has_shaping, part.phrases))
    every = shaped and type(following) is Rounds and following.every
    return (thus or every) and type(phrase) is Change and bool(phrase.flags & STOP)


def _announces(phrases: list[Phrase]) -> bool:
    """Whether a round is announced that is told behind the colon: `knit one round and take out 6 as you go:`."""
    single = [phrase for phrase in phrases if type(phrase) is Rounds]
    announces = any(type(phrase) is Said and phrase.text == "as" for phrase in phrases)
    announces = announces or Change in [type(phrase) for phrase in phrases]
    announces = announces or any(
        type(phrase) is Stitches and type(phrase.node) is Evenly for phrase in phrases
    )
    is_single = len(single) == 1 and single[0].number.values == (1,) and not single[0].every
    return is_single and announces and all(map(_is_of_announcement, phrases))


def _announces_all(phrases: list[Phrase], behind: Phrase) -> bool:
    """Whether rounds are announced that all shape, told behind the colon: `Now decrease on every round thus:`."""
    printed = type(behind) is Brackets and bool(behind.inside) and behind.inside[0].start > behind.start
    if not (printed or type(behind) is Star):
        return False
    every = any(type(phrase) is Rounds and phrase.every and phrase.step <= 1 for phrase in phrases)
    thus = any(type(phrase) is Continue and phrase.manner for phrase in phrases)
    thus = thus or any(type(phrase) is Said and phrase.text in ("as", "follows") for phrase in phrases)
    silent = all(type(phrase) in (Said, Then, Rounds, Continue, Change) for phrase in phrases)
    return every and silent and (thus or Change in [type(phrase) for phrase in phrases])


def _is_of_announcement(phrase: Phrase) -> bool:
    if type(phrase) is Stitches:
        return is_bare(phrase) or type(phrase.node) is Evenly
    return type(phrase) in (Said, Then, Rounds, Count, Change)


def _introduces_one(phrases: list[Phrase]) -> bool:
    """Whether a round is only announced: `knit one round like this:`."""
    thus = any(type(phrase) is Continue and phrase.manner for phrase in phrases)
    single = any(type(phrase) is Rounds and phrase.number.values == (1,) for phrase in phrases)
    return (
        thus
        and single
        and all(type(phrase) in (Said, Then, Rounds, Continue) or is_bare(phrase) for phrase in phrases)
    )


def _tells_between(phrases: list[Phrase], place: int) -> bool:
    """Whether plain rounds are told here that stand between those before: `, always with one plain round after`."""
    at = place
    while at < len(phrases) and (type(phrases[at]) in (Said, Then, Fabric) or is_bare(phrases[at])):
        at += 1
    if at + 1 >= len(phrases) or at > place + MOST_BEFORE_BETWEEN:
        return False
    rounds, behind = phrases[at], phrases[at + 1 : at + 4]
    texts = [phrase.text for phrase in behind if type(phrase) is Said]
    spoken = Said in [type(phrase) for phrase in phrases[place:at]]
    of_all = any(text in _OF_EACH for text in texts) or any(
        type(phrase) is Said and phrase.text in _OF_EACH for phrase in phrases[place:at]
    )
    relation = any(text in ("after", "between") for text in texts[:2])
    return type(rounds) is Rounds and not rounds.every and spoken and of_all and relation


def _goes_on_behind(part: _Part, phrases: list[Phrase], place: int) -> bool:
    """Whether a crown goes on behind its first round: `*k9, k2tog*, and continue in this manner every rnd until 9`."""
    last, phrase = part.phrases[-1] if part.phrases else None, phrases[place]
    joined = last is not None and type(last) is Said and last.text in _ADDING
    parted = bool(phrase.flags & (COMMA | SEMI)) or (joined and last is not None and bool(last.flags & COMMA))
    if type(phrase) is not Continue or part.open or not parted or not any(map(has_shaping, part.phrases)):
        return False
    behind = phrases[place + 1 : place + MOST_TO_UNTIL]
    ends = [at for at, other in enumerate(behind) if type(other) is Until]
    return bool(ends) and Rounds in [type(other) for other in behind[: ends[0]]]


MOST_TO_UNTIL: Final = 10
"""Phrases from `continue` to the count it goes on to."""


def _tells_of_others(phrases: list[Phrase], place: int) -> bool:
    """Whether it is told behind a sign how the other rounds are worked: `, all rnds not mentioned are knit`."""
    if not phrases[place].flags & (COMMA | SEMI):
        return False
    match phrases[place : place + 3]:
        case [Said(text=text), *_] if text == ALL_OTHERS:
            return True
        case [Rounds(every=True), Said(text="not"), Said(text=text)]:
            return text in NOT_GIVEN
        case [bare, Said(text=text), *_] if is_bare(bare):
            return text == ALL_OTHERS  # , knit all other rnds
        case _:
            return False


def _names_next(phrases: list[Phrase], place: int) -> bool:
    """Whether it is said here which round is told behind: `; the third is (k10, k2tog)`, `the first round is *k8`."""
    word = phrases[place]
    if type(word) is not Said or word.text != "the":
        return False
    texts = [phrase.text if type(phrase) is Said else "" for phrase in phrases[place : place + MOST_TO_IS]]
    if len(texts) < FEWEST_TO_IS or texts[1] not in _TURNS:
        return False
    at_work = next((place + at + 1 for at, text in enumerate(texts) if text == "is"), len(phrases))
    return at_work < len(phrases) and type(phrases[at_work]) in (Brackets, Star)


MOST_TO_IS: Final = 6
FEWEST_TO_IS: Final = 3
"""Words up to that behind which a round is told: `the first decreasing round is`."""
_TURNS: Final = frozenset(("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "next", "last"))
MOST_BEFORE_BETWEEN: Final = 5
"""Phrases before the plain rounds that are told between others."""
_OF_EACH: Final = ("each", "always", "every", "between", "after each")
_ROUNDS_OR_AGAIN: Final = frozenset((Rounds, Again))
_SHAPING_ON: Final = frozenset((Until, Change))
_GOING_ON_SO: Final = frozenset((Continue, Until, Again))
_UNTIL: Final = frozenset((Until, UntilRound))
_BEGINS_BEHIND: Final = frozenset((Stitches, Change, Continue, Again))
_GONE_ON: Final = frozenset((Change, Continue))
_GOING_ON_TO: Final = frozenset((Continue, Until, Change, Again))
_ROUND_WORK: Final = frozenset((Stitches, Star, Brackets))


def _changes_next(part: _Part, phrases: list[Phrase], place: int) -> bool:
    """Whether stitches change in the round behind those told: `Work 12 rnds in rib and in the next rnd inc 8 sts`."""
    phrase = phrases[place]
    unexplained = [before for before in part.phrases if type(before) is not Brackets]  # rib (k2, p2)
    if type(phrase) is not Stitches or type(phrase.node) is not Evenly or not _counts_rounds(unexplained):
        return False
    before = takewhile(_is_said, reversed(phrases[:place]))
    behind = takewhile(lambda word: _is_said(word) and not word.flags & STOP, phrases[place + 1 :])
    near, far = ([word.text for word in words if _is_said(word)] for words in (before, behind))
    at_end = place + 1 + len(far)
    ended = at_end >= len(phrases) or bool(phrases[at_end].flags & STOP)
    if far[:1] and far[0] not in _BEGINS_NEXT:
        far, ended = [], False  # before the next round begins, which are used next
    if not _NEXT.isdisjoint((*near[:1], *far[-1 * ended :][:ended])):
        return True  # and in the next inc 8 sts, and inc 8 sts in the next
    return any(not _NEXT.isdisjoint(words) and not _ROUND.isdisjoint(words) for words in (near, far))


def _is_said(phrase: Phrase | None) -> TypeGuard[Said]:
    return type(phrase) is Said


_NEXT: Final = frozenset(("next", "following", "foll", "hereafter"))
_BEGINS_NEXT: Final = frozenset(("in", "on", "at", *_NEXT))
"""Words with which it begins behind the change: `in the next`."""
_ROUND: Final = frozenset(("round", "rnd", "row"))
"""Words that name the round behind: `on the foll rnd`."""


def _tells(phrases: list[Phrase]) -> bool:
    """Whether a sentence is told that is none of the work behind it: words, or where the markers are."""
    words = sum(phrase.words for phrase in phrases if type(phrase) is Said)
    return words >= FEWEST_WORDS or Markers in [type(phrase) for phrase in phrases]


def _tells_where(part: _Part, needlewise: Phrase, following: Phrase | None) -> bool:
    """Whether no more is told before the work of each needle than which stitches are there.

    `Divide the 96 sts over 4 needles. On each needle k10, k2tog`, `24 on each needle; work on each needle: k10, k2tog`.
    """
    apart = needlewise.flags & (STOP | SEMI) or (following is not None and following.flags & COLON)
    return (
        bool(apart)
        and type(following) in _ROUND_WORK
        and Count in part.kinds
        and all(type(phrase) in _PLACED for phrase in part.phrases)
    )


_PLACED: Final = frozenset((Said, Count, PerPart, Needlewise, Then, Markers, Change))
"""What says which stitches are on the needles."""
FEWEST_WORDS: Final = 3
"""Words that say nothing in a sentence of its own; fewer may be a heading."""


def _following(phrases: list[Phrase], place: int) -> Phrase | None:
    """The phrase behind this one, or behind words of its sentence that say nothing."""
    if place + 1 >= len(phrases):
        return None
    following = phrases[place + 1]
    silent = type(following) is Said and not following.words and not following.flags & STOP
    return phrases[place + 2] if silent and place + 2 < len(phrases) else following


def _more_follows(phrases: list[Phrase], place: int, following: Phrase | None) -> bool:
    """Whether more rounds follow a count: `32, and again 16`, `forty eight, and a plain round`."""
    if type(following) is Times:
        return following.more
    parted = place + 1 < len(phrases) and bool(phrases[place + 1].flags & COMMA)
    behind = next((phrase for phrase in phrases[place + 1 : place + 5] if type(phrase) is not Said), None)
    return parted and type(behind) in (Rounds, Fabric)


def _ends_round(phrases: list[Phrase], place: int, following: Phrase | None) -> bool:
    """Whether a count that is printed here ends its round."""
    phrase = phrases[place]
    if not phrase.end or not _counted(phrase):
        return False
    return _more_follows(phrases, place, following) or _final(phrase, following)


def _closes(part: _Part, phrase: Phrase, following: Phrase | None) -> bool:
    """Whether a `repeat` goes back to a star, and not to the rounds before it in the sentence before."""
    if type(phrase) is not Rep:
        return False
    if _is_every_so_often(phrase, following):
        return False
    of_rounds = Rounds in part.kinds or type(following) is Rounds
    plain = any(map(is_bare, part.phrases))  # Knit. Do that 8 times.
    of_rounds |= plain and all(is_bare(word) or type(word) in (Said, Extent) for word in part.phrases)
    return not (phrase.flags & STOP and not phrase.level and not part.stars and of_rounds)


def _is_every_so_often(phrase: Phrase, following: Phrase | None) -> bool:
    """Whether rounds before are told again: `repeat it every other round`."""
    every = type(following) is Rounds and following.every and following.step > 1
    return type(phrase) is Rep and not phrase.level and every


def _is_next_cadence(part: _Part, coming: _Coming) -> bool:
    """Whether it is told how often more, on other rounds: `every 3rd round twice, every 2nd round 4 times`."""
    phrase = coming.phrase
    if type(phrase) is not Rounds or not phrase.every:
        return False
    last = part.phrases[-1] if part.phrases else None
    joined = type(last) is Said and last.text in _ADDING
    if type(coming.following) not in _ENDS_PACE or _ENDS_PACE.isdisjoint(part.kinds):
        return False
    before = any(type(rounds) is Rounds and rounds.every for rounds in part.phrases)
    # every 3rd round until 64 sts remain, every 2nd round until 32 remain
    return before and (joined or bool(phrase.flags & (COMMA | SEMI)))


_ENDS_PACE: Final = frozenset((Times, Until))
"""How often rounds are worked at a pace, or to which count."""


def _cuts(of: Label | None, part: _Part, coming: _Coming) -> bool:
    """Whether the next round begins with this phrase."""
    phrase, last = coming.phrase, part.phrases[-1]
    if type(phrase) is PassOver:
        return False  # *Sl 1. K2tog. Psso.
    if _tells_again(part.phrases, coming):
        return False
    if part.goes_on and not phrase.flags & STOP and type(last) is not Then:
        return False
    if type(phrase) is Again and type(last) is Said and last.text == "of" and Times in part.kinds:
        return False  # work 3 repeats of rounds 1 and 2
    if not phrase.flags & STOP and Rounds in part.kinds and _tells_cadence(part.phrases):
        return False
    if _begins_other_work(part, coming) or _works_rounds_behind(part, coming):
        return True
    if coming.works and part.counted:
        return not part.open or type(phrase) is Closing
    apart = (
        phrase.flags & (STOP | SEMI | COMMA | DASH * is_bare(phrase))
        or type(_last_word(part.phrases)) in _ENDS_OR_STARS
    )
    apart = apart or _rounds_and(part.phrases) or (is_bare(phrase) and _then(part.phrases))
    if coming.begins and apart and not part.open:
        one_sentence = type(phrase) is Stitches and part.whole and not phrase.flags & STOP
        return not one_sentence or Rounds in part.kinds
    if phrase.flags & STOP and not coming.again and (coming.works or type(phrase) in _SENTENCES):
        return not (_goes_on(of, part, coming) or _says_how_many(part, coming))
    return False


def _works_rounds_behind(part: _Part, coming: _Coming) -> bool:
    """Whether rounds of their own are worked behind a sign: `k7, k2tog; work 1 round straight`, `(90), work 9 rnds`."""
    phrase, rounds = coming.phrase, coming.following
    then = type(part.phrases[-1]) is Then
    ended = type(_last_word(part.phrases)) in _ENDS_OR_STARS
    joined = type(part.phrases[-1]) is Said and part.phrases[-1].text == "and"
    plain = type(rounds) is Rounds and rounds.plain and ended and (then or joined or phrase.flags & COMMA)
    plain |= type(rounds) is Rounds and rounds.plain and _placed_and(part.phrases)
    # `*k7, k2tog* around, work 1 round even`
    parted = phrase.flags & SEMI or (part.counted and phrase.flags & COMMA) or plain
    works = type(phrase) is Said and phrase.text == "work" and bool(parted)
    if not works or part.open or part.has(_ROUNDS_OR_AGAIN):
        return False
    shaped = any(
        has_shaping(before) or (type(before) is Stitches and type(before.node) is Evenly)
        for before in part.phrases
    )
    return type(rounds) is Rounds and not rounds.every and shaped


def _tells_cadence(phrases: list[Phrase]) -> bool:
    """Whether no more is told than on which rounds: `On every other round, k2tog before each marker`."""
    rounds = [phrase for phrase in phrases if type(phrase) is Rounds]
    every = len(rounds) == 1 and rounds[0].every and rounds[0].step > 1
    return every and all(type(phrase) in (Said, Then, Rounds) for phrase in phrases)


def _last_word(phrases: list[Phrase]) -> Phrase:
    """The last phrase, or the one before a word that says nothing: `then a`."""
    silent = type(phrases[-1]) is Said and not phrases[-1].words and len(phrases) > 1
    return phrases[-2] if silent and not phrases[-1].flags & (STOP | SEMI | COMMA) else phrases[-1]


def _rounds_and(phrases: list[Phrase]) -> bool:
    """Whether whole rounds are told, and `and` stands behind: `knit 2 rounds and`, `decrease again, and`.

    So are stitches at every so many.
    """
    if _placed_and(phrases):
        return True
    if len(phrases) < 2 or type(phrases[-1]) is not Said or phrases[-1].text != "and":
        return False
    rounds = phrases[-2]
    if type(rounds) is Times:
        return len(phrases) > 2 and type(phrases[-3]) is Continue
    return type(rounds) is Rounds and not rounds.every


def _placed_and(phrases: list[Phrase]) -> bool:
    """Whether stitches are placed over a round, and `and` stands behind: `knit every 8th and 9th st together and`."""
    at = len(phrases)
    while at and type(phrases[at - 1]) in _WORDS:
        at -= 1
    placed, word = phrases[at - 1], phrases[at] if at < len(phrases) else None
    if type(word) is not Said or word.text != "and":
        return False
    if type(placed) is Brackets and placed.inside:
        return placed.inside[0].start == placed.start  # no bracket is printed
    return type(placed) is Stitches and type(placed.node) is Evenly


def _says_how_many(part: _Part, coming: _Coming) -> bool:
    """Whether a sentence only says how many rounds a rib has: `Rib: *K3, P2*. Work 6 rounds.`.

    So it does of the fabric that is gone on in: `Continue in st st. Work 20 rounds.`.
    """
    if type(coming.phrase) is not Said or type(coming.following) is not Rounds or part.counted:
        return False
    if {Continue, Fabric} <= part.kinds <= _FABRIC_GONE_ON:
        return not coming.following.every
    stitches = [phrase for phrase in part.phrases if type(phrase) is Stitches]
    ribbed = bool(stitches) and all(map(is_ribbed, stitches))
    return ribbed and Fabric in part.kinds and Rounds not in part.kinds


def _begins_other_work(part: _Part, coming: _Coming) -> bool:
    """Whether it is other work, whatever sign stands before it."""
    named = type(coming.phrase) in _GOING_ON and _then_last(part.phrases) and _works_named(part.phrases)
    if not part.open and (_ends_in_all(part, coming) or (coming.adds and _counts_rounds(part.phrases))):
        return True
    every = part.worked and _is_every_so_often(coming.phrase, coming.following)
    every = every or _is_next_cadence(part, coming) or _closes_crown(part, coming)
    if named or every or _is_between_slashes(part, coming) or _is_announced_apart(part, coming.phrase):
        return True  # Work a dec rnd, then continue to work a dec rnd every other rnd
    return _begins_by_kind(part, coming)


def _ends_in_all(part: _Part, coming: _Coming) -> bool:
    """Whether so many rounds were told to be all of them, and other rounds follow: `10 rounds in all, then 4 navy`."""
    if Rounds not in part.kinds:
        return False
    phrases = [phrase for phrase in part.phrases if type(phrase) is not Then]
    if not phrases or not is_of_all(phrases[-1]) or not any(map(_is_count_of_rounds, phrases)):
        return False
    apart = len(phrases) < len(part.phrases) or bool(coming.phrase.flags & (COMMA | SEMI | STOP))
    return apart and (_is_count_of_rounds(coming.phrase) or coming.begins)


def _is_announced_apart(part: _Part, phrase: Phrase) -> bool:
    """Whether decreases, their markers or needles are told behind whole rounds: `Knit 3 rounds. Dec as follows:`."""
    announced = type(phrase) in (Change, Every, Needlewise) and bool(phrase.flags & FULL)
    announced |= type(phrase) is Needlewise and _then_last(part.phrases)
    plain = _counts_rounds(part.phrases) or all(map(is_bare, part.phrases))  # knit. On each needle: k9, k2tog
    return announced and not part.open and plain


def _shapes_on(part: _Part, coming: _Coming) -> bool:
    """Whether it goes on on other rounds behind a count: `until 40 sts remain. Dec every rnd until 8 sts remain`.

    So it does behind a comma, a semicolon or `and`: `until 40 sts remain, and dec every rnd until 8 sts remain`.
    """
    phrase, following = coming.phrase, coming.following
    begins = type(phrase) is Change and type(following) in (Rounds, Continue)
    begins = begins or (type(phrase) is Continue and phrase.manner and type(following) in (Change, Rounds))
    sure = type(phrase) is Continue and type(following) is Change and type(part.phrases[-1]) is Until
    match part.phrases[-2:]:
        case [Until(), Said(text="and")]:
            paced = type(following) is Rounds and following.every
            return begins or (type(phrase) is Continue and (paced or type(following) is Change))
        case _:
            pass
    return begins and Until in part.kinds and (sure or bool(phrase.flags & (STOP | SEMI | COMMA)))


def _closes_crown(part: _Part, coming: _Coming) -> bool:
    """Whether a round follows to which the crown was gone on: `Dec every rnd until you have 16, k2tog 8 times`."""
    if not coming.works or Until not in part.kinds or not part.has(_GONE_ON):
        return False
    whole = type(coming.following) in (Times, Extent) or type(coming.phrase) is Brackets
    last = part.phrases[-1]
    spoken = type(last) is Said and last.text in ("work", "and") and bool(last.flags & COMMA)
    apart = bool(coming.phrase.flags & COMMA) or spoken
    until = len(part.phrases) > 1 and type(part.phrases[-1 - spoken]) is Until
    return whole and until and apart


def _begins_by_kind(part: _Part, coming: _Coming) -> bool:
    """Whether a phrase of its kind begins other work behind these."""
    phrase = coming.phrase
    if part.cast and (coming.works or type(phrase) is Length) and type(phrase) is not Closing:
        return True
    if type(phrase) is Rounds:
        apart = (
            _then(part.phrases)
            or _is_plain_turn(part, phrase)
            or _follows_round(part, phrase, coming.following)
            or _is_next_pace(part, phrase)
        )
        return not part.open and apart and not _is_next_colour(part, coming)
    if type(phrase) is Fabric:
        turn = phrase.kind == "plain" and _is_plain_turn(part, phrase) and _stands_alone(coming)
        return (turn and not part.open) or _is_next_fabric(part, coming)
    if type(phrase) is Times:
        # (48 sts), then 4 times every rnd
        paced = type(coming.following) is Rounds and coming.following.every
        return (phrase.more or (paced and _then_last(part.phrases))) and part.counted
    ended = type(phrase) in _BEGINS_BEHIND and _is_ended(part)
    if ended and (_then_last(part.phrases) or _shapes_on(part, coming)):
        return True
    goes_on = type(phrase) is Continue and (not phrase.manner or is_once_more(coming.following))
    if goes_on and part.worked and _counted_rounds(part.phrases):
        return not part.has(_SHAPING_ON)
    if type(phrase) is Again and _again_begins(part):
        return True
    if type(phrase) is Change and _then_last(part.phrases) and _is_plain_rounds(part.phrases, phrase):
        return True  # Knit 1 rnd, then decrease: *k7, k2tog*
    return coming.works and _begins_work(part, coming)


def _begins_work(part: _Part, coming: _Coming) -> bool:
    """Whether stitches begin other work behind these."""
    phrase = coming.phrase
    if type(phrase) is Stitches and type(phrase.node) is Evenly:
        return _then_last(part.phrases) and _is_plain_rounds(part.phrases, phrase)
    if type(phrase) in _ROUND_WORK and Until in part.kinds and part.has(_GOING_ON):
        return type(part.phrases[-1]) is Then
    with_it = type(coming.following) is Needlewise  # knit 1 round, increasing 1 st on every needle
    return not part.open and not with_it and _follows_plain(part, phrase)


def _tells_again(phrases: list[Phrase], coming: _Coming) -> bool:
    """Whether no more is told behind so many rounds than the stitch they are worked in: `Knit 25 rounds, all knit`."""
    phrase, following, last = coming.phrase, coming.following, phrases[-1]
    if not is_bare(phrase) or not phrase.flags & COMMA:
        return False
    all_of_it = type(following) is Extent and following.leave == NOTHING and not following.marker
    every = type(following) is Rounds and following.every and following.step <= 1
    ended = following is None or bool(following.flags & STOP) or all_of_it or every
    rounds = (before for before in phrases if type(before) is Rounds and _is_count_of_rounds(before))
    several = any((before.number.of(0) or 0) > 1 for before in rounds)
    bare = (other.node for other in (*phrases, phrase) if type(other) is Stitches and is_bare(other))
    names = {node.name for node in bare if type(node) is Stitch}
    return ended and several and len(names) == 1 and type(last) is not Then


def _adds_rounds(phrases: list[Phrase], place: int) -> bool:
    """Whether a number of rounds begins here behind `and`, and nothing behind says that they are worked in turn.

    So it does behind a comma with `the next`: `8 rounds in rib, the next 20 rounds in st st`.
    """
    before = phrases[place - 1] if place else None
    joined = _is_said(before) and before.text in _ADDING
    follows = any(_is_said(phrase) and phrase.text in _NEXT for phrase in phrases[place : place + 2])
    if not (joined or (follows and phrases[place].flags & (COMMA | SEMI))) or phrases[place].flags & STOP:
        return False
    begins = phrases[place : place + MOST_BEFORE_ROUNDS]
    number = next((at for at, phrase in enumerate(begins) if type(phrase) is Rounds), None)
    if number is None or begins[number].flags & STOP or not _is_count_of_rounds(begins[number]):
        return False
    announces = all(type(phrase) in (Said, Fabric) or is_bare(phrase) for phrase in begins[:number])
    fabric = any(type(phrase) in (Fabric, Stitches) for phrase in phrases[place : place + number + 4])
    if not fabric:
        return False  # 8 rounds in MC and 4 rounds in CC
    for phrase in phrases[place:]:
        if phrase.flags & STOP:
            break
        turns = type(phrase) is Said and phrase.text in ("alternately", "alternating", "between", "after")
        if turns or type(phrase) in _IN_TURN:
            return False
    return announces


def _is_count_of_rounds(phrase: Phrase) -> bool:
    return type(phrase) is Rounds and not phrase.every and not phrase.more


def _counts_rounds(phrases: list[Phrase]) -> bool:
    """Whether no more is told than a number of rounds, and of what: `Work 8 rnds in 2x2 rib`."""
    counted = any(map(_is_count_of_rounds, phrases))
    ribs = (phrase for phrase in phrases if type(phrase) is Stitches)
    plain = all(is_bare(phrase) or is_ribbed(phrase) for phrase in ribs)
    return counted and plain and all(type(phrase) in _OF_ROUNDS for phrase in phrases)


MOST_BEFORE_ROUNDS: Final = 4
"""Phrases up to a number of rounds: `and st st for 26 rnds`."""
_FABRIC_GONE_ON: Final = frozenset((Continue, Said, Fabric, Then))
_ADDING: Final = frozenset(("and", "&", "plus", "followed by", "and then"))
_IN_TURN: Final = frozenset((Times, Until, Again, Continue, Rep, Length))
_OF_ROUNDS: Final = frozenset((Rounds, Fabric, Said, Then, Stitches, CastOn))


def _is_between_slashes(part: _Part, coming: _Coming) -> bool:
    """Whether a plain round is told between slashes: `*k11, k2tog* / knit / *k10, k2tog*`."""
    following = coming.following
    parted = following is None or following.flags & (SLASH | STOP) or type(following) in (Count, Brackets)
    slashed = bool(coming.phrase.flags & SLASH) and is_bare(coming.phrase)
    return slashed and bool(parted) and part.worked and not part.open


def _follows_plain(part: _Part, phrase: Phrase) -> bool:
    """Whether plain rounds were told and no more, and a sign or `then` stands behind: `1 rnd even, k5, k2tog`."""
    if phrase.flags & SLASH and all(map(is_bare, part.phrases)):
        return True  # k6, k2tog / k / k5, k2tog
    apart = bool(phrase.flags & (COMMA | SEMI | SLASH | DASH)) or _then_last(part.phrases)
    return (apart or _comma_and(part.phrases)) and _is_plain_rounds(part.phrases, phrase)


def _is_next_fabric(part: _Part, coming: _Coming) -> bool:
    """Whether rounds of another fabric follow: `1x1 rib 8 rnds, stocking st 32 rnds`."""
    last, following = part.phrases[-1], coming.following
    flags = coming.phrase.flags | (last.flags if type(last) in (Said, Then) else 0)
    for_rounds = type(following) is Said and following.text == "for"  # `sts straight for 32 rnds`
    parted = bool(flags & (COMMA | SEMI)) and (for_rounds or type(following) in _COUNTED_ROUNDS)
    counted = Fabric in part.kinds and part.has(_COUNTED_ROUNDS)
    return parted and counted and not part.open


def _is_plain_turn(part: _Part, phrase: Rounds | Fabric) -> bool:
    """Whether plain rounds are worked here behind one that shapes: `k7, k2tog. 1 row plain`, `k5, k2tog, plain`.

    So behind `and` after its end: `(k8, k2tog) around and 2 rnds straight`.
    """
    last = part.phrases[-1]
    behind = part.phrases[-2:-1] if type(last) is Said and last.text == "and" else [last]
    apart = phrase.flags & (COMMA | SEMI | STOP | FULL | DASH) or any(type(end) in _ENDS for end in behind)
    plain = isinstance(phrase, Fabric) or (phrase.plain and not phrase.every)
    shaped = any(map(has_shaping, part.phrases)) or type(part.phrases[-1]) is Again
    return plain and bool(apart) and shaped


def _is_next_pace(part: _Part, phrase: Rounds) -> bool:
    """Whether it goes on at another pace: `every other round 4 times, and every round after that until 8 remain`."""
    paces = [before.step for before in part.phrases if type(before) is Rounds and before.every]
    ended = not {Until, Times}.isdisjoint(type(before) for before in part.phrases[-2:])
    return phrase.every and ended and paces[-1:] not in ([], [phrase.step]) and _comma_and(part.phrases)


def _follows_round(part: _Part, phrase: Rounds, following: Phrase | None) -> bool:
    """Whether these rounds come behind others that were told with their number first: `1 round purl, 1 round knit`.

    The stitches of either may be told, too: `1 round *1 white, 3 blue*, 1 round blue`. So may the decreases between
    which the others stand.
    """
    before = part.phrases[-2:]
    parted = bool(phrase.flags & (COMMA | SEMI | STOP)) and not phrase.every
    last = part.phrases[-1]
    stitches = any(map(_tells_stitches, (*part.phrases[1:], following)))
    if parted and Rounds in part.kinds and (stitches or _stand_between(part.phrases)):
        return True
    if parted and (is_ribbed(last) or type(last) is Fabric) and Rounds in part.kinds:
        return all(
            type(other) in _FABRIC_FIRST or is_ribbed(other) for other in part.phrases
        )  # 7 rnds of rib, 12 rnds
    return parted and len(before) > 1 and type(before[0]) is Rounds and is_bare(before[1])


def _tells_stitches(phrase: Phrase | None) -> bool:
    """Whether the stitches of a round begin, behind a colon or with a star: `1 round: k3 blue, k1 white`."""
    return type(phrase) is Star or (phrase is not None and begins_ribbed(phrase))


def _stand_between(phrases: list[Phrase]) -> bool:
    """Whether rounds are told that stand between decreases: `3 rounds between the 1st and the 2nd decrease`."""
    between = any(type(phrase) is Said and phrase.text == "between" for phrase in phrases)
    return between and type(phrases[-1]) is Change


def _is_next_colour(part: _Part, coming: _Coming) -> bool:
    """Whether rounds are told colour by colour, and more follow: `4 rounds brown, then 6 rounds grey`.

    Not behind all the rounds of stripes: `32 rounds in stripes of 4 rounds C and 4 rounds M, then 2 rounds C`.
    """
    if any(type(phrase) is Said and phrase.text == "stripes" for phrase in part.phrases[1:4]):
        return not any(map(_is_count_of_rounds, part.phrases[:2]))
    at = next((place for place, phrase in enumerate(part.phrases) if type(phrase) is Rounds), 0)
    before = part.phrases[:at]
    silent = all(type(phrase) in (Said, Then) or is_bare(phrase) for phrase in before)
    coloured = all(type(phrase) in (Rounds, Said, Then) for phrase in part.phrases[at:])
    colour = type(part.phrases[at + 1]) is Said if at + 1 < len(part.phrases) else False
    behind = coming.following
    apart = behind is None or bool(behind.flags & (COMMA | STOP | SEMI))
    return silent and coloured and colour and type(behind) is Said and not apart


def _stands_alone(coming: _Coming) -> bool:
    """Whether the phrase stands between signs, or `round` behind it."""
    following = coming.following
    return following is None or type(following) is Rounds or bool(following.flags & (COMMA | SEMI | STOP))


def _after_then(phrases: list[Phrase]) -> bool:
    """Whether `then` or `then the` ends what was said, behind rounds."""
    silent = 1 if type(phrases[-1]) is Said and not phrases[-1].words else 0
    return (
        len(phrases) > silent + 1
        and type(phrases[-1 - silent]) is Then
        and type(phrases[-2 - silent]) in _ENDS_ROUNDS
    )


_ENDS_ROUNDS: Final = frozenset((Rounds, Fabric))


def _counted_rounds(phrases: list[Phrase]) -> bool:
    """Whether rounds were counted: `knit a round plain, and keep going`; not `decrease on every round, continuing`."""
    rounds = [phrase for phrase in phrases if type(phrase) is Rounds]
    return bool(rounds) and not any(phrase.every for phrase in rounds)


def _is_plain_rounds(phrases: list[Phrase], coming: Phrase) -> bool:
    """Whether these are plain rounds and no more: `knit 2 rounds`, `1 rnd even`; `plain` before stitches.

    Before `then` they may be in any fabric: `1 rnd in rib, then k2tog around`.
    """
    last = next(
        (phrase for phrase in reversed(phrases) if not (type(phrase) in _SILENT or is_bare(phrase))),
        phrases[-1],
    )
    counted = _then_last(phrases) and Rounds in [type(phrase) for phrase in phrases]
    plain = type(last) is Fabric and (counted or (last.kind == "plain" and not is_bare(coming)))
    rounds = type(last) is Rounds and any(last.number.values)  # no plain rounds, keep decreasing
    return (rounds or plain) and all(
        type(phrase) in _PLAIN_ROUNDS
        or (type(phrase) is Fabric and (counted or phrase.kind == "plain"))
        or is_bare(phrase)
        for phrase in phrases
    )


def _goes_on(of: Label | None, part: _Part, coming: _Coming) -> bool:
    """Whether a sentence goes on with a labelled round: `Rnd 5: Knit 10 stitches. Knit two together.`."""
    phrase = coming.phrase
    if of is None or (of.kind == "next" and _begins_apart(part, phrase)):
        return False
    every = type(coming.following) is Rounds and coming.following.every
    if every and phrase.flags & FULL and type(phrase) is Stitches and type(phrase.node) is Evenly:
        return False  # Next rnd: dec 8 sts evenly. Dec 8 every 4th rnd 2 more times
    if part.open and type(phrase) in _ASIDES:
        return True
    if type(phrase) is Then and type(coming.following) is Stitches and _fixed(part.phrases):
        return not is_bare(coming.following)
    stitches = type(phrase) in _STITCHES or (type(phrase) is Star and _fixed(part.phrases))
    return stitches and not (part.whole or coming.begins or part.counted)


def _begins_apart(part: _Part, phrase: Phrase) -> bool:
    """Whether a sentence with a repeat begins behind a plain round: `Next round knit. (K5, k2tog) 6 times.`."""
    begins = type(phrase) in (Star, Brackets) and phrase.flags & FULL
    return bool(begins) and all(type(word) is Said or is_bare(word) for word in part.phrases)


def _then(part: list[Phrase]) -> bool:
    """Whether work stands before a `then` at the end of what was said."""
    at = next(
        (
            place
            for place in range(len(part) - 1, max(len(part) - MOST_BEHIND_THEN, -1), -1)
            if type(part[place]) is Then
        ),
        0,
    )
    only_words = all(type(phrase) in _WORDS for phrase in part[at:])
    return only_words and any(type(phrase) in _WORK for phrase in part[:at])


MOST_BEHIND_THEN: Final = 7
"""Words from `then` to a number of rounds: `then with the thicker needles 28 rounds`."""


def _works_named(phrases: list[Phrase]) -> bool:
    """Whether a round with a name is worked once, and no more is told."""
    worked = [phrase for phrase in phrases if type(phrase) is Again]
    named = len(worked) == 1 and worked[0].work and bool(worked[0].named)
    return named and all(type(phrase) in (Again, Said, Then) for phrase in phrases)


def _again_begins(part: _Part) -> bool:
    """Whether rounds worked again are told apart: `..., then rep`, `knit 1 round, and repeat those two`."""
    if (Again in part.kinds and part.has(_OFTEN)) or _after_then(part.phrases):
        return True
    return Rounds in part.kinds and not part.has(_GOING_ON_SO) and _comma_and(part.phrases)


def _comma_and(phrases: list[Phrase]) -> bool:
    """Whether `, and` stands at the end."""
    last = phrases[-1]
    return type(last) is Said and last.text == "and" and bool(last.flags & COMMA)


def _is_ended(part: _Part) -> bool:
    """Whether it is said how far rounds go on, or how often they are worked again."""
    rounds = Rounds in part.kinds or any(
        type(phrase) is Brackets and Rounds in [type(inner) for inner in phrase.inside]
        for phrase in part.phrases
    )  # rep these 4 rounds until 12 rounds have been worked
    return part.has(_UNTIL) or (Again in part.kinds and (Times in part.kinds or rounds))


def _then_last(phrases: list[Phrase]) -> bool:
    """Whether `then` stands at the end, but for words that say nothing."""
    for phrase in reversed(phrases[-3:]):
        if type(phrase) is Then:
            return True
        if type(phrase) is not Said:
            return False
    return False


def _fixed(part: list[Phrase]) -> bool:
    """Whether nothing of this goes on to the end of the round: `Knit 10 stitches. Knit two together.`."""
    return all(
        type(phrase) in _TIMES
        or (type(phrase) is Brackets and _fixed(list(phrase.inside)))
        or (type(phrase) is Stitches and type(phrase.node) is Stitch and not phrase.node.bare)
        for phrase in part
    )


def _final(phrase: Phrase, following: Phrase | None) -> bool:
    """Whether a count ends its round: a bare number does only before a sign."""
    if type(phrase) is Count and not phrase.sure:
        return (
            following is None
            or bool(following.flags & (STOP | SEMI | COMMA | COLON | SLASH))
            or bool(phrase.flags & following.flags & DASH)
            or type(following) in _CLOSING
        )
    return True
