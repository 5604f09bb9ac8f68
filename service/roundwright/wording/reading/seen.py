"""The phrases of a segment, sorted by what they are good for."""

from collections.abc import Mapping
from itertools import takewhile
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from roundwright.wording.reading.phrases import (
    Again,
    AtEnds,
    Brackets,
    CastOn,
    Change,
    Chart,
    Closing,
    Continue,
    Count,
    EndsAt,
    EndsPlain,
    EndsShaped,
    Every,
    Extent,
    Fabric,
    LastRound,
    Length,
    Markers,
    Needlewise,
    Odd,
    Partly,
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
)
from roundwright.wording.reading.tokens import COLON, COMMA, DASH, EQUALS, SEMI, SLASH, SPACE, STOP, THEN
from roundwright.wording.reading.tree import (
    Evenly,
    Mark,
    Number,
    Stated,
    Stitch,
    Unknown,
)
from roundwright.wording.reading.vocabulary import (
    KIND_TOGETHER,
    is_misspelt_stitch,
    looks_like_stitch,
    respelt,
    words_of,
)

WORD: Final = 0.25
INNER_WORD: Final = 0.6


class Seen(Struct):
    """The phrases of a segment, sorted by what they are good for."""

    work: list[Phrase] = []
    counts: list[Count] = []
    rounds: list[Rounds] = []
    lengths: list[Length] = []
    untils: list[Until] = []
    fabrics: list[Fabric] = []
    agains: list[Again] = []
    times: list[Times] = []
    continues: list[Continue] = []
    changes: list[Change] = []
    evenly: list[Evenly] = []
    words: float = 0.0
    lead: int = 0
    spoken_words: int = 0
    counted_first: bool = False
    closing: Closing | None = None
    cast_on: CastOn | None = None
    chart: bool = False
    markers: Number | None = None
    every: Number | None = None
    odd: bool = False
    per_part: Number | None = None
    per: bool = False
    last_round: Number | None = None
    ends_plain: bool = False
    ends_shaped: bool = False
    until_round: UntilRound | None = None
    throughout: bool = False
    order: tuple[Phrase, ...] = ()
    denied: bool = False
    instead: bool = False
    at_ends: AtEnds | None = None
    on_rounds: Rounds | None = None
    in_all: Rounds | None = None  # a number of rounds in a bracket: `14 times more (15 rounds)`


_STITCHES: Final = frozenset((Stitches, Star, PassOver))
_WORKED: Final = frozenset((Stitches, Star, PassOver, Rep, Extent, Odd, Partly, Times, Until))
_TIMES: Final = frozenset((Times, Said))
_ONLY_WORKED: Final = frozenset((Stitches, Star, PassOver, Rep, Extent, Partly))
"""What is kept as work, and nowhere else."""
_OF_WORK: Final = frozenset((Extent, Rep, Stitches, Fabric, Continue))
"""What describes work where it stands in a bracket, and does none."""
_BEHIND_COUNTS: Final = frozenset((Closing, Then, Count))
_LISTS: Final[Mapping[type, str]] = {
    Rounds: "rounds",
    Length: "lengths",
    Until: "untils",
    Fabric: "fabrics",
    Again: "agains",
    Times: "times",
    Continue: "continues",
    Change: "changes",
}
"""Where the phrases of a kind are kept."""
_NUMBERS: Final[Mapping[type, str]] = {
    Markers: "markers",
    Every: "every",
    PerPart: "per_part",
    LastRound: "last_round",
}
"""Where the number of a phrase is kept."""


def has_stitches(phrase: Phrase) -> bool:
    """Whether stitches are worked in it."""
    if type(phrase) in _STITCHES:
        return not (type(phrase) is Stitches and type(phrase.node) is Mark)
    return type(phrase) is Brackets and any(map(has_stitches, phrase.inside))


def sort_phrases(phrases: tuple[Phrase, ...]) -> Seen:
    """The phrases of a segment, sorted."""
    seen = Seen(order=phrases)
    stitched = [has_stitches(phrase) for phrase in phrases]
    last_work = max(
        (place for place, phrase in enumerate(phrases) if stitched[place] or type(phrase) is Rep),
        default=-1,
    )
    begun = False
    for place, phrase in enumerate(phrases):
        if type(phrase) is Said:
            seen.spoken_words += phrase.words
            _note_word(seen, phrase, phrases, place)
        elif not (begun or seen.fabrics) and (stitched[place] or type(phrase) is Fabric):
            seen.lead = seen.spoken_words
        if not begun and place < last_work and _tells_count(phrase, works=stitched[place]):
            seen.counted_first = True
            seen.words += INNER_WORD
            continue
        if type(phrase) is Closing:
            seen.closing = seen.closing or phrase
            if begun or not any(stitched[place + 1 :]):
                break
        following = phrases[place + 1] if place + 1 < len(phrases) else None
        then = place and stitched[place] and type(phrases[place - 1]) is Then
        current = replace(phrase, flags=phrase.flags | THEN) if then else phrase
        more = phrases[place - 1] if place else None
        if type(phrase) is Count and type(more) is Times and more.more and not phrase.flags & STOP:
            current = replace(phrase, sure=True)  # and again ten
        if type(phrase) is Times and _is_parted(phrases, place):
            current = replace(phrase, flags=phrase.flags | COMMA)
        inner = begun and place < last_work
        ahead = not begun and place < last_work and _begins_with_unknown(phrases, place)
        if ahead or inner or (begun and type(following) is Extent) or type(phrase) is Brackets:
            current = _with_unknown(current, phrases, place)
        _sort(seen, current, following, inner=inner, tail=place > last_work)
        begun = begun or stitched[place]
    return seen


def _with_unknown(current: Phrase, phrases: tuple[Phrase, ...], place: int) -> Phrase:
    """A phrase amid work; a word that is no known stitch as one that is not known, also in a bracket."""
    match phrases[place]:
        case Said() if _is_unknown_stitch(phrases, place) or _begins_with_unknown(phrases, place):
            return _unknown_stitch(current)
        case Brackets(inside=inside) as brackets if has_stitches(brackets):
            again = any(type(phrase) in _AGAIN for phrase in phrases[place + 1 : place + 2])
            words = [_in_bracket(inside, at, again=again) for at in range(len(inside))]
            return replace(current, inside=tuple(words))
        case _:
            return current


def _unknown_stitch(word: Phrase) -> Stitches:
    """A word as a stitch that is not known."""
    return Stitches(word.start, word.end, word.flags, Unknown("", word.start, word.end))


def _in_bracket(inside: tuple[Phrase, ...], place: int, *, again: bool) -> Phrase:
    """What stands in a bracket with stitches; a word that is no known stitch as one that is not known: `[k4, tw2]`.

    `again`: whether the bracket is worked more than once, so that it is no aside.
    """
    match inside[place]:
        case Said(words=1, text=text, flags=flags) as word:
            behind = place + 1 == len(inside) or bool(inside[place + 1].flags & COMMA)
            alone = behind and (not place or bool(flags & COMMA))
            unknown = (alone and (again or looks_like_stitch(text))) or (
                bool(flags & COMMA) and is_misspelt_stitch(text)
            )
            return _unknown_stitch(word) if unknown else word
        case other:
            return other


_AGAIN: Final = frozenset((Extent, Times, Rep))
"""What says how often a bracket before it is worked."""


def _begins_with_unknown(phrases: tuple[Phrase, ...], place: int) -> bool:
    """Whether the word behind a star looks like a stitch, and is none that is known: `*tw2, k5; rep from *`."""
    match phrases[max(0, place - 1) : place + 2]:
        case [Star(), Said(words=1, text=text), following] if following.flags & COMMA:
            return looks_like_stitch(text)
        case _:
            return False


def _is_unknown_stitch(phrases: tuple[Phrase, ...], place: int) -> bool:
    """Whether a word amid work is no known stitch: alone between commas, or behind stitches and like `together`."""
    word, following = phrases[place], phrases[place + 1]
    if type(word) is not Said or word.words != 1:
        return False
    parted = bool(following.flags & (COMMA | STOP | SEMI))
    if not parted and type(following) not in (Star, Rep, Extent):
        return False
    match phrases[place - 1]:
        case Count(number=Number(values=(1,)), flags=flags) if flags & COMMA and not word.flags & ~SPACE:
            return parted  # k5, 1 popcorn; rep from *
    if word.flags & COMMA:
        return parted or is_misspelt_stitch(word.text)  # `*k7, k2otg* around`
    return type(phrases[place - 1]) is Stitches and bool(respelt(word.text, words_of(KIND_TOGETHER)))


def _is_parted(phrases: tuple[Phrase, ...], place: int) -> bool:
    """Whether a comma stands before words that say nothing here: `k2tog, and so 6 times`."""
    for back in range(place - 1, max(place - 5, -1), -1):
        before = phrases[back]
        if type(before) is not Said or before.words > 1:
            return False
        if before.flags & (COMMA | DASH | STOP):
            return True
    return False


def _note_word(seen: Seen, phrase: Said, phrases: tuple[Phrase, ...], place: int) -> None:
    """Keep that it is told of the whole hat, or that something is not to be worked."""
    seen.instead = seen.instead or phrase.text == "instead of"
    seen.throughout = seen.throughout or phrase.text == "throughout"
    if phrase.text in DENYING and type(next(filter(_says, phrases[place + 1 : place + 4]), None)) in _DENIED:
        seen.denied = True
    if phrase.text in _GIVING_UP and _gives_up_plain_rounds(phrases[place + 1 : place + 8]):
        seen.denied = True  # from here I stopped doing the plain rounds


def _gives_up_plain_rounds(behind: tuple[Phrase, ...]) -> bool:
    """Whether plain rounds stand behind a verb that gives them up, with no sign between."""
    first = next((phrase for phrase in behind if not _is_between_verbs(phrase)), None)
    if first is None or first.flags & (STOP | COMMA | SEMI):
        return False
    return (isinstance(first, Rounds | Fabric) and _is_plain(first)) or is_bare(first)


def _is_plain(phrase: Rounds | Fabric) -> bool:
    """Whether these are plain rounds."""
    return phrase.plain if isinstance(phrase, Rounds) else phrase.kind == "plain"


def _says(phrase: Phrase) -> bool:
    """Whether it is more than words that say nothing."""
    return type(phrase) is not Said or bool(phrase.words)


def _is_between_verbs(phrase: Phrase) -> bool:
    """Whether a word may stand between the verb that gives something up and what is given up."""
    words = type(phrase) is Said and (not phrase.words or phrase.text in _BETWEEN_VERBS)
    return words and not phrase.flags & (STOP | COMMA | SEMI)


_GIVING_UP: Final = frozenset(
    (
        *("stop", "stops", "stopped", "skip", "skips", "skipped", "drop", "dropped", "omit", "omitted"),
        *("leave", "left", "gave", "give", "don't", "not", "cease"),
    )
)
_BETWEEN_VERBS: Final = frozenset(
    (
        *(
            "doing",
            "do",
            "work",
            "working",
            "the",
            "any",
            "more",
            "those",
            "these",
            "all",
            "making",
            "make",
            "up",
            "out",
        ),
        *("with", "having", "have", "adding", "add", "your", "my", "a"),
    )
)
DENYING: Final = frozenset(("no", "not", "don't", "never", "without"))


def _tells_count(phrase: Phrase, *, works: bool) -> bool:
    """Whether it is a count, or a bracket with one and without work."""
    if type(phrase) is Brackets:
        return not works and Count in [type(inner) for inner in phrase.inside]
    return type(phrase) is Count


def _sort(seen: Seen, phrase: Phrase, following: Phrase | None, *, inner: bool, tail: bool) -> None:
    """Put a phrase with the others of its kind."""
    if type(phrase) is Said:
        weight = INNER_WORD if inner else WORD * (0.6 if tail else 1.0)
        seen.words += weight * phrase.words
    elif type(phrase) is Stitches and type(phrase.node) is Evenly:
        seen.evenly.append(phrase.node)
    elif type(phrase) is Brackets:
        _sort_brackets(seen, phrase)
    elif type(phrase) is Count:
        if phrase.sure or _stands_apart(phrase, following, inner=inner):
            seen.counts.append(phrase)
        else:
            seen.words += 2 * INNER_WORD
    elif type(phrase) is Needlewise:
        _sort_needlewise(seen, phrase, tail=tail)
    else:
        if type(phrase) in _WORKED:
            seen.work.append(phrase)
        if type(phrase) not in _ONLY_WORKED:
            _keep(seen, phrase)


def _sort_needlewise(seen: Seen, phrase: Needlewise, *, tail: bool) -> None:
    """`on each needle` belongs to the count that is worked to, or to the work before it."""
    seen.markers = phrase.number or seen.markers
    if seen.work and type(seen.work[-1]) is Until:
        seen.per = True
    elif not tail:
        seen.work.append(phrase)
    elif Extent in [type(work) for work in seen.work] and not any(
        type(work) in _PARTS and not (type(work) is Rep and not work.level) for work in seen.work
    ):
        seen.work.insert(0, phrase)  # k1, ssk, k to marker, in every section


def _keep(seen: Seen, phrase: Phrase) -> None:
    """Keep a phrase in the list of its kind, or what it says of the whole segment."""
    if name := _LISTS.get(type(phrase)):
        getattr(seen, name).append(phrase)
        if type(phrase) is Rounds and phrase.on_them:
            seen.on_rounds = phrase
        seen.per = seen.per or (type(phrase) is Until and phrase.per)
        return
    if type(phrase) in _ENDS:
        _keep_end(seen, phrase)
        return
    if isinstance(phrase, Markers | Every | PerPart | LastRound):
        setattr(seen, _NUMBERS[type(phrase)], phrase.number)
        return
    match phrase:
        case Odd():
            seen.odd = True
        case CastOn():
            seen.cast_on = seen.cast_on or phrase
        case Chart():
            seen.chart = True
        case AtEnds():
            seen.at_ends = _both_ends(seen.at_ends, phrase)
        case _:
            pass


def _keep_end(seen: Seen, phrase: Phrase) -> None:
    """Keep with which round the rounds that go on end."""
    match phrase:
        case EndsPlain():
            seen.ends_plain = True
        case EndsShaped():
            seen.ends_shaped = True
        case EndsAt(number=number):  # rep rnds 1 and 2 until 32 sts rem, ending with rnd 1
            again = seen.agains[0] if seen.agains else None
            worked = (again.named or tuple(range(1, again.last + 1))) if again is not None else ()
            seen.ends_shaped = seen.ends_shaped or (len(worked) > 1 and number.of(0) == worked[0])
        case UntilRound():
            seen.until_round = phrase
        case _:
            pass


_ENDS: Final = frozenset((EndsAt, EndsPlain, EndsShaped, UntilRound))


def _both_ends(before: AtEnds | None, ends: AtEnds) -> AtEnds:
    """The ends at which decreases are made: `k2tog at the beginning and k2tog at the end`."""
    if before is None or before.together is not None or ends.together is not None:
        return ends
    return replace(ends, first=ends.first or before.first, last=ends.last or before.last)


def _sort_brackets(seen: Seen, brackets: Brackets) -> None:
    """Keep a bracket with work, or `(4 times)`, as work; of any other, what is in it."""
    inside = brackets.inside
    times = [phrase for phrase in inside if type(phrase) is Times]
    if times and not has_stitches(brackets) and seen.work and type(seen.work[-1]) is Times:
        return  # 3 more times (twice on the front, twice on the back)
    if has_stitches(brackets):
        seen.work.append(brackets)
    elif times and len(inside) <= 2 and all(type(phrase) in _TIMES for phrase in inside):
        seen.work.append(brackets)
        seen.times.extend(times)
    else:
        for place, phrase in enumerate(inside):
            loose = type(phrase) is Count and not phrase.sure and len(inside) > 1
            if not loose and type(phrase) not in _OF_WORK:
                following = inside[place + 1] if place + 1 < len(inside) else None
                if type(phrase) is Rounds and not phrase.every and _is_relation(following):
                    continue  # (3 plain rnds after each)
                if type(phrase) is Rounds and not phrase.every:
                    seen.in_all = phrase
                _sort(seen, phrase, following, inner=False, tail=True)


def _is_relation(phrase: Phrase | None) -> bool:
    """Whether a word says that rounds stand behind or between others."""
    return type(phrase) is Said and phrase.text in ("after", "between", "after each")


def _stands_apart(phrase: Count, following: Phrase | None, *, inner: bool) -> bool:
    """Whether a bare number is a count: set apart by a sign or a bracket, with no work behind it."""
    if inner:
        return False
    if (
        following is not None
        and not following.flags & (DASH | EQUALS | STOP | COMMA | SEMI)
        and type(following) not in _BEHIND_COUNTS
    ):
        return False
    apart = phrase.flags & (DASH | EQUALS | STOP | COMMA | SEMI | SLASH)
    return bool(apart) or following is None or not phrase.flags


def is_shaping(phrase: Phrase) -> bool:
    """Whether a decrease or an increase is named."""
    return (
        type(phrase) is Stitches and type(phrase.node) is Stitch and phrase.node.name not in ("k", "p", "sl")
    )


def has_shaping(phrase: Phrase) -> bool:
    """Whether a decrease or an increase is worked in it, in brackets or not."""
    return is_shaping(phrase) or (type(phrase) is Brackets and any(map(has_shaping, phrase.inside)))


def stated_counts(seen: Seen) -> tuple[Stated, ...]:
    """The counts printed with a segment."""
    counts = seen.counts if seen.markers is None else _without_sections(seen)
    if len(counts) > 2 and counts[-1].flags & EQUALS and not any(count.sign for count in counts):
        total = sum(count.number.of(0) or 0 for count in counts[:-1])
        counts = counts[-1:] if total == counts[-1].number.of(0) else counts  # `28 + 28 = 56`
    return tuple(
        Stated(count.number, count.number.start, count.number.end, count.sign, bool(count.flags & DASH))
        for count in counts
    )


def counts_left(stated: tuple[Stated, ...]) -> tuple[Stated, ...]:
    """The counts of the stitches that are left: `48 sts`, and not `8 sts decreased`."""
    return tuple(count for count in stated if not count.sign)


def _without_sections(seen: Seen) -> list[Count]:
    """The counts without that of each section: `You now have 8 sections of 11 (12, 13) sts.`."""
    section_starts = {
        behind.start
        for sections, of, behind in zip(seen.order, seen.order[1:], seen.order[2:], strict=False)
        if type(sections) is Markers and type(of) is Said and of.text == "of"
    }
    return [count for count in seen.counts if count.start not in section_starts]


def only_spoken_of(seen: Seen, stitches: list[Phrase]) -> bool:
    """Whether stitches are only spoken of: `a spine of two knit stitches`."""
    sentence = takewhile(lambda phrase: type(phrase) is not Closing, seen.order[:-1])
    named = any(type(phrase) is Said and phrase.text in _NAMING for phrase in sentence)
    return (
        (seen.lead > 0 or named)
        and all(
            type(phrase) is Stitches
            and type(phrase.node) is Stitch
            and (phrase.node.name in ("k", "p", "sl") or len(stitches) == 1)
            for phrase in stitches
        )
        and len(stitches) == len(seen.work)
        and not (seen.fabrics or seen.rounds or seen.lengths or seen.counts)
    )


def works_rounds(seen: Seen) -> bool:
    """Whether it begins with `work` and tells how many rounds: `Work 20 rounds in ...`, `work in ... for 20 rounds`."""
    order = [phrase for phrase in seen.order if type(phrase) is not Then]
    at = next((place for place, phrase in enumerate(order) if type(phrase) is Rounds), 0)
    if not at or order[at].flags & (STOP | SEMI) or type(order[0]) is not Said or order[0].text != "work":
        return False
    before = [phrase.text for phrase in order[:at] if type(phrase) is Said]
    silent = not any(phrase.words for phrase in order[:at] if type(phrase) is Said)
    behind = order[at + 1] if at + 1 < len(order) else None
    rate = type(behind) is Said and behind.text in ("a", "per", "each", "every", "at")  # 20 rounds a day
    has_words = any(type(phrase) is Said and phrase.words for phrase in order)
    return len(before) == at and (before[-1] == "for" or silent) and has_words and not rate


def is_bare(phrase: Phrase) -> bool:
    """Whether it is `knit` or `purl` alone."""
    return type(phrase) is Stitches and type(phrase.node) is Stitch and phrase.node.bare


def is_ribbed(phrase: Phrase) -> bool:
    """Whether it is so many knits or purls, as in a rib: `k2`."""
    node = phrase.node if type(phrase) is Stitches else None
    return type(node) is Stitch and node.name in ("k", "p") and not node.bare


def begins_ribbed(phrase: Phrase) -> bool:
    """Whether so many knits or purls stand behind a colon, the first of a round: `1 round: k3 blue, k1 white`."""
    return bool(phrase.flags & COLON) and is_ribbed(phrase)


_NAMING: Final = ("only", "it's", "is", "are", "called", "just")
"""Words behind which a stitch is named and not worked: `it's only ssk`."""
_PARTS: Final = frozenset((Star, Brackets, Needlewise, Rep))
"""What says itself over which stitches it goes."""
_DENIED: Final = frozenset((Fabric, Rounds, Stitches))
