"""Decreases told in other words: `Repeat the decreases` is `decrease once more`; how often, told without its end."""

from collections.abc import Mapping
from functools import partial
from itertools import pairwise
from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.parsing.looking import OFTEN
from roundwright.wording.reading.tokens import (
    AS_THEY_ARE,
    COLON,
    COMMA,
    COUNT_WORDS,
    DASH,
    EQUALS,
    LINE,
    SEMI,
    SPACE,
    STOP,
    Instead,
    Rule,
    Token,
    kinds_at,
    of_kind,
    with_others_put,
    words_at,
)
from roundwright.wording.reading.tree import Number


def with_decreases_once_more(tokens: list[Token]) -> list[Token]:
    """The words with `decrease once more` where that is told otherwise. Takes time in their number."""
    return with_others_put(tokens, partial(of_kind, _RULES))


def _once_more(tokens: list[Token], place: int) -> Instead:
    """`Repeat the decreases` as `decrease once more`."""
    stop = _end_of_repeat(tokens, place) if _begins(tokens, place) else 0
    if not stop:
        return AS_THEY_ARE
    first, last = tokens[place], tokens[stop - 1]
    return stop, [
        Token("decrease", "decrease", first.start, first.end, first.flags),
        *words_at(last.start, ("often", "once"), end=last.end),
        *words_at(last.end, ("more", "more")),
    ]


def _work_of_rhythm(tokens: list[Token], place: int) -> Instead:
    """The work told behind `Dec every 4th rnd 3 times:`, before its rhythm.

    That is `*k9, k2tog* (80). In this manner dec every 4th rnd 2 more times (64)`; with as many rounds told as times,
    plain rounds between them: `*k9, k2tog* (80), *k8, k2tog* (72)`.
    """
    first = tokens[place]
    if place and not first.flags & (STOP | LINE):
        return AS_THEY_ARE
    near = range(place + 1, min(place + MOST_WORDS, len(tokens)))
    begin = next((at for at in near if tokens[at].flags & COLON), 0)
    head = [token for token in tokens[place:begin] if token.kind not in ("", "evenly", "stitch_noun")]
    match [token.kind for token in head]:
        case ["decrease", *_, "each" | "per", "ordinal" | "alternate", "round", "number", "times"]:
            pass
        case ["decrease", *_, "each" | "per", "ordinal" | "alternate", "round", "often"]:
            pass
        case _:
            return AS_THEY_ARE
    at = next(at for at, token in enumerate(head) if token.kind in ("each", "per"))
    often, pace = head[at + COUNTED], head[at + 1].number
    times = often.number.of(0) if often.number is not None else OFTEN.get(often.text)
    step = (pace.of(0) if pace is not None else 2) or 0
    behind = range(begin + 1, min(begin + MOST_OF_WORK, len(tokens)))
    stop = next((word for word in behind if tokens[word].flags & (STOP | LINE | SEMI)), 0)
    if not stop or not times or times < 2 or step < 2 or tokens[begin].flags & LINE:
        return AS_THEY_ARE
    words = [replace(tokens[begin], flags=first.flags | STOP), *tokens[begin + 1 : stop]]
    counts = [
        at for at in range(1, len(words)) if words[at].flags & EQUALS or _begins_count(words[at : at + 2])
    ]
    if _IN_COUNT.issuperset(word.kind for word in words):
        return AS_THEY_ARE  # dec 8 sts every 4th rnd 3 times: 72, 64, 56 sts
    if len(counts) < 2:
        end = counts[0] if counts else len(words)
        more = replace(often, kind="number", text="", number=Number((times - 1,)), flags=SPACE)
        rhythm = [*words_at(first.end, ("manner", "in this manner")), first, *head[at : at + COUNTED]]
        rhythm[:2] = [replace(rhythm[0], flags=STOP | SPACE), replace(first, flags=SPACE)]
        further = words_at(often.end, ("more", "more"), ("times", "times"))
        return stop, [*words[:end], *rhythm, more, *further, *words[end:]]
    return (stop, _with_rounds_apart(words, counts, step)) if len(counts) == times else AS_THEY_ARE


def _begins_count(words: list[Token]) -> bool:
    """Whether a bracket begins with a number there."""
    return [word.kind for word in words] == ["(", "number"]


def _with_rounds_apart(words: list[Token], counts: list[int], step: int) -> list[Token]:
    """So many rounds with their counts, and plain rounds between them, so that they stand `step` rounds apart."""
    made, done = list[Token](), 0
    for before, count in pairwise(counts):
        behind = range(before + 1, count)
        last = next((at for at in behind if words[at].flags & COMMA or words[at].kind not in _PRINTED), count)
        knit, number, rounds = words_at(
            words[last - 1].end, ("knit", "knit"), ("number", ""), ("round", "rounds")
        )
        plain = replace(number, number=Number((step - 1,)))
        made.extend((*words[done:last], replace(knit, flags=STOP | SPACE), plain, rounds))
        done = last + (words[last].kind in ("then", "and"))
        words[done] = replace(words[done], flags=words[done].flags | STOP)
    return [*made, *words[done:]]


def with_rhythms_joined(tokens: list[Token]) -> list[Token]:
    """The words with the end of a rhythm in its sentence, `Dec every 3rd rnd. When 48 sts remain, dec every rnd.`.

    That is `dec every 3rd rnd until 48 sts remain. Then dec every rnd.`, and `dec every rnd. Rep until 8 sts` is `dec
    every rnd until 8 sts`. `Then dec each time until 8 sts` is `every round`. Takes time in their number.
    """
    made: list[Token] = []
    place = 0
    while place < len(tokens):
        token = tokens[place]
        begins = token.flags & (STOP | LINE | SEMI) and _tells_rhythm(made)
        until, stop = _end_of_rhythm(tokens, place) if begins else ([], place)
        if not until:
            time = token.text == "time" and [before.kind for before in made[-3:]] in _EACH_TIME
            ends = time and (tokens[place + 1].kind == "until" or tokens[place + 1].flags & (STOP | LINE))
            if ends and [before.kind for before in made[-2 * COUNTED : -COUNTED]] in _PLAIN_ROUNDS:
                made[-2 * COUNTED :], place = _with_rounds_between(made[-2 * COUNTED :]), place + 1
                continue
            until, stop = [replace(token, kind="round", text="round") if ends else token], place + 1
        made.extend(until)
        place = stop
    return made


def _with_rounds_between(words: list[Token]) -> list[Token]:
    """`continue to decrease with 3 rounds between` for `knit 3 rounds and decrease each time`."""
    first, number, rounds, _, decrease, last = words
    return [
        replace(first, kind="continue", text="continue"),
        replace(decrease, flags=SPACE),
        *words_at(first.end, ("", "with")),
        number,
        rounds,
        *words_at(last.end, ("between", "between")),
    ]


def _tells_rhythm(tokens: list[Token]) -> bool:
    """Whether the last words say on which rounds to decrease, and not how far: `Continue dec every 3rd rnd`."""
    if not tokens or tokens[-1].kind != "round":
        return False
    kinds: list[str] = []
    for token in tokens[-1 : -MOST_WORDS - 1 : -1]:
        kinds.append(token.kind)
        if token.flags & _APART or token.kind == "then":
            break
    every = not {"each", "per"}.isdisjoint(kinds[1:3])
    return every and not _SHAPES.isdisjoint(kinds) and _HOW_FAR.isdisjoint(kinds)


def _end_of_rhythm(tokens: list[Token], place: int) -> tuple[list[Token], int]:
    """`until 48 sts remain`, and the place behind what tells it; no words where the next sentence does not."""
    at = place
    while tokens[at].kind in _GOES_ON and (at == place or not tokens[at].flags & _APART):
        at += 1
    goes_on = tokens[at].kind == "until" and (at == place or not tokens[at].flags & _APART)
    if not goes_on:
        at = place + 2 * (tokens[place].kind == "as" and tokens[place + 1].text == "soon")
    stop = at + 1
    while stop < len(tokens) and tokens[stop].kind in _IN_COUNT and not tokens[stop].flags & _APART:
        stop += 1
    counted = [token.kind for token in tokens[at + 1 : stop]].count("number") == 1
    if not counted or tokens[stop].kind in ("unit", "round"):
        return [], place
    until = [*words_at(tokens[at].start, ("until", "until"), end=tokens[at].end), *tokens[at + 1 : stop]]
    if not goes_on and (tokens[at].text in _WHEN or at > place) and tokens[stop].flags & COMMA:
        then = Token("then", "then", tokens[stop].start, tokens[stop].start, SPACE | STOP)
        return [*until, then, replace(tokens[stop], flags=SPACE)], stop + 1
    return (until, stop) if goes_on else ([], place)


def _turns(tokens: list[Token], place: int) -> Instead:
    """`Knit 1 round and decrease again, twice` as often as it says; so too what is told to be repeated behind it."""
    if not tokens[place].flags & (STOP | LINE):
        return AS_THEY_ARE
    near = range(place, min(place + MOST_TURNING, len(tokens)))
    knit = place + (tokens[place].kind == "work" and tokens[place + 1].kind == "knit")
    end = next((at for at in near if at > place and tokens[at].flags & LINE), len(tokens))
    all_words = [at for at in near if at == knit or (knit < at < end and tokens[at].kind not in _UNHEEDED)]
    words, last = _without_manner(tokens, all_words)
    match [_sort(tokens[at]) for at in words]:
        case ["knit" | "work", "number", "round", "and" | "then", "decrease", "more" | "manner", _, *_]:
            joined = 3
        case ["knit" | "work", "round", "and" | "then", "decrease", "more" | "manner", _, *_]:
            joined = 2
        case ["knit" | "work", "number", "round", "decrease", "more", _, *_] if last:
            joined = 2
        case _:
            return AS_THEY_ARE
    number, stop = _how_often(tokens, words[joined + 2], words[joined + 3], last)
    if not 0 < number <= MOST_TURNS or not _is_apart(tokens[stop]):
        return AS_THEY_ARE
    first, decrease = tokens[place], tokens[words[joined + 1]]
    turn = [
        *tokens[place : words[joined] + (tokens[words[joined]].kind == "round")],
        replace(decrease, flags=decrease.flags | STOP),
        *words_at(decrease.end, ("often", "once"), ("more", "more")),
    ]
    end = tokens[stop - 1].end
    others = [replace(token, start=end, end=end) for token in turn]
    others[0] = replace(others[0], flags=first.flags | STOP)
    return stop, [*turn, *others * (number - 1)]


def _how_often(tokens: list[Token], again: int, behind: int, manner: int) -> tuple[int, int]:
    """How often a turn is worked, and the place behind what tells it; 0 where nothing does.

    These are the places of `again`, of the word behind that says more, and of the last word of its manner. It is once
    where the manner is told and no more. What is repeated is worked once more than that, `repeat this twice`, and so
    it is behind a manner or a sign, `; once more`; but `decrease again twice more` is twice in all.
    """
    repeated = tokens[behind].kind == "repeat"
    at = behind if repeated or not manner else max(again, manner) + 1
    apart = manner > again or bool(tokens[at].flags & (SEMI | STOP))
    if repeated:
        at += 1 + (tokens[at + 1].kind == "these")
        at += 2 * (tokens[at + 1].kind == "round")
    number, stop = OFTEN.get(tokens[at].text, 0), at + 1
    more = tokens[stop].kind == "more"
    if (often := tokens[at].number) is not None and len(often.values) == 1:
        stop += more
        number = (often.values[0] or 0) if tokens[stop].kind == "times" else 0
        stop += 1
        more = more or tokens[stop].kind == "more"
    stop += tokens[stop].kind == "more"
    stop += tokens[stop].kind == "total"
    if number and _is_apart(tokens[stop]):  # not 3 times k2tog
        return number + (repeated or (more and apart)), stop
    return (1, max(again, manner) + 1) if manner and not repeated else (0, 0)


def _is_apart(token: Token) -> bool:
    """Whether what is told before a word ends there."""
    return bool(token.flags & (_APART | EQUALS | DASH)) or token.kind in _BEHIND


def _without_manner(tokens: list[Token], words: list[int]) -> tuple[list[int], int]:
    """The words without `in the 4th round` and `with 1 st less before each decrease`, and the last word of these."""
    kept, last, at = list[int](), 0, 0
    while at < len(words):
        match [tokens[word].kind for word in words[at : at + MOST_OF_MANNER]]:
            case ["in", "ordinal", "round", *_]:
                stop = at + 3
            case ["in", "ordinal", *_]:
                stop = at + 2
            case ["number", "stitch_noun" | "knit", "fewer", "before" | "between", "each", "decrease", *_]:
                stop = at + 6
            case ["number", "stitch_noun" | "knit", "fewer", "before" | "between", "decrease", *_]:
                stop = at + 5
            case _:
                kept.append(words[at])
                at += 1
                continue
        if stop < len(words) and tokens[words[stop]].kind == "each":
            stop += 2 * (tokens[words[stop] + 1].text in ("time", "round"))
        at, last = stop, words[min(stop, len(words)) - 1]
    return kept, last


def _others(tokens: list[Token], place: int) -> Instead:
    """Nothing for a word that only says that the stitches taken in are others: `decrease another 7 sts`."""
    others = kinds_at(tokens, place - 1, 4) == ["decrease", "more", "number", "stitch_noun"]
    return (place + 1, []) if place and others and tokens[place].text != "again" else AS_THEY_ARE


def _before_list(tokens: list[Token], place: int) -> Instead:
    """Nothing for `rnds` before a list of these: `Dec rnds, with 1 plain rnd between: *k8, k2tog*, ...`."""
    if not place or tokens[place - 1].kind != "decrease" or not (place == 1 or _begins(tokens, place - 1)):
        return AS_THEY_ARE
    words = tokens[place + 1 : place + MOST_WORDS]
    at = next((at for at, word in enumerate(words[:-1]) if word.kind == "between"), -1)
    listed = at > 0 and "with" in (words[0].text, words[1].text) and words[at + 1].flags & COLON
    return (place + 1, []) if listed else AS_THEY_ARE


def _begins(tokens: list[Token], place: int) -> bool:
    """Whether a sentence, the work of a round, or another thing to do begins there."""
    return bool(tokens[place].flags & _APART) or (place > 0 and tokens[place - 1].kind in ("and", "then"))


def _end_of_repeat(tokens: list[Token], place: int) -> int:
    """The place behind the words from there that tell to decrease once more; 0 where they tell something else."""
    stop = place + 1
    while stop < len(tokens) and not tokens[stop].flags & _APART and tokens[stop].kind not in _BEHIND:
        stop += 1
        if stop > place + MOST_WORDS:
            return 0
    if _goes_further(tokens, stop):
        return 0
    words = [token for token in tokens[place:stop] if token.kind not in _SILENT]
    on_next = [token.kind for token in words[-2:]] == ["next", "round"]
    words = words[:-2] if on_next else words
    match [_sort(token) for token in words]:
        case ["decrease", "manner"] | ["repeat", "decrease"]:
            return stop if on_next or _goes_on_plain(tokens, stop) else 0
        case ["work", "more", "decrease", "round"] | ["work", "decrease", "round", "manner"]:
            return stop
        case _:
            return 0


def _goes_further(tokens: list[Token], stop: int) -> bool:
    """Whether the sentence says behind it how often or how far: `and knit 1 rnd until 48 sts remain`, `, twice`."""
    for place in range(stop, min(stop + MOST_BEHIND, len(tokens))):
        token = tokens[place]
        if token.flags & (STOP | LINE):
            return False
        if token.kind in _HOW_FAR and tokens[place - 1].text != "this":  # `, but this time knit 1 round`
            return True
    return False


def _sort(token: Token) -> str:
    """The kind of a word; `as before` says in what manner."""
    return "manner" if token.text == "as before" else token.kind


def _goes_on_plain(tokens: list[Token], stop: int) -> bool:
    """Whether a count, plain rounds or nothing follow: `(70 sts)`, `and knit 3 rounds`, `. Knit 1 round`."""
    behind = [token.kind for token in tokens[stop : stop + 4]]
    if behind[:1] in (["("], ["end"]):
        return True
    behind = behind[1:] if behind[:1] in (["and"], ["then"]) else behind
    return behind[:1] in (["knit"], ["work"]) and behind[1:3] == ["number", "round"]


_EACH_TIME: Final = (["then", "decrease", "each"], ["and", "decrease", "each"])
_PLAIN_ROUNDS: Final = (["knit", "number", "round"], ["work", "number", "round"])
COUNTED: Final = 3
"""Words of `knit 3 rounds`, and of `and decrease each`."""
_SHAPES: Final = frozenset(("decrease", "continue", "manner"))
_GOES_ON: Final = frozenset(("", "repeat", "continue", "manner", "work"))
"""Kinds of words before the end of a rhythm: `Rep until`, `Continue in this way until`."""
_WHEN: Final = frozenset(("when", "once", "at", "after", "with", "from"))
"""Words before the count at which the rhythm is another."""
_IN_COUNT: Final = COUNT_WORDS | {"decrease", "to", "only"}
_PRINTED: Final = COUNT_WORDS | {")"}
_APART: Final = LINE | STOP | COMMA | SEMI | COLON
_SILENT: Final = frozenset(("", "in"))
_BEHIND: Final = frozenset(("(", "and", "then", "=", "end"))
"""What stands behind the words without a sign of its own."""
_HOW_FAR: Final = frozenset(("until", "times", "often"))
MOST_BEHIND: Final = 12
"""Words behind it in the same sentence that are looked through."""
MOST_WORDS: Final = 9
"""Words of such a sentence."""
MOST_OF_WORK: Final = 60
"""Words of the work that is told behind its rhythm."""
_UNHEEDED: Final = ("", "word", "work")
"""Kinds of words between those of such a turn."""
MOST_TURNING: Final = 30
"""Words of plain rounds and a decrease that are told to take turns."""
MOST_OF_MANNER: Final = 6
"""Words of `1 st less before each decrease`."""
MOST_TURNS: Final = 12
"""Times that plain rounds and a decrease are told to take turns."""
_RULES: Final[Mapping[str, tuple[Rule, ...]]] = {
    "knit": (_turns,),
    "work": (_turns, _once_more),
    "decrease": (_work_of_rhythm, _once_more),
    "repeat": (_once_more,),
    "more": (_others,),
    "round": (_before_list,),
}
