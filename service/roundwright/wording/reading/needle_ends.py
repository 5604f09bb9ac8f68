"""What is worked with the first and the last stitches of each needle, told in the order of the work.

`On each needle ssk the first 2 sts, k2tog the last 2 sts` is `on each needle ssk, knit to last 2 sts, k2tog`, and
`ssk the first 2 sts of each needle` is `on each needle ssk, knit to end`.
"""

import re
from typing import Final

from msgspec.structs import replace

from roundwright.knitting.rounds.round import uses_and_leaves
from roundwright.wording.reading.parsing.looking import ONTO
from roundwright.wording.reading.tokens import COLON, COMMA, LINE, SPACE, STOP, Token, words_at
from roundwright.wording.reading.tree import Number


def with_needle_ends(tokens: list[Token]) -> list[Token]:
    """The words with the ends of each needle told in the order of the work. Takes time in their number."""
    made: list[Token] = []
    sentence: list[Token] = []
    tokens, behind_end = _with_needles_counted(tokens), 0
    for place, token in enumerate(tokens):
        if behind_end and place == behind_end:
            sentence.extend(words_at(tokens[place - 1].end, ("each", "each"), ("needle", "needle")))
        if not token.flags & (STOP | LINE):
            sentence.append(token)
        elif end := _other_end(sentence, tokens, place):
            names_needle = not tokens[end + 1].flags & COLON and tokens[end + 1].kind not in _WORK
            behind_end = 0 if names_needle else end + 1
            sentence.append(replace(token, flags=SPACE | COMMA))
        else:
            made.extend(_in_order(sentence))
            sentence = [token]
    made.extend(_in_order(sentence))
    return made


def _with_needles_counted(tokens: list[Token]) -> list[Token]:
    """The words with the number of needles told before, `over 3 needles`, in `until 2 sts remain on each needle`."""
    made: list[Token] = []
    several: list[Token] = []
    for token in tokens:
        if token.kind == "needle":
            before = made[-MOST_TO_NEEDLE:]
            made.extend(several if _leaves_on_each(before) else ())
            several = _number_of_needles(before, token.start) or several
        made.append(token)
    return made


def _leaves_on_each(before: list[Token]) -> bool:
    """Whether stitches remain on each needle; not in `until 18 sts remain, 6 on each needle`."""
    kinds = [word.kind for word in before]
    return kinds[-1:] == ["per"] and "until" in kinds and kinds[kinds.index("until") :].count("number") == 1


def _number_of_needles(before: list[Token], start: int) -> list[Token]:
    """`of 3` where so many needles are told: `over 3 needles`; no words where they are not."""
    words = [*before]
    while words and words[-1].kind == "word":
        words.pop()
    if len(words) < FEWEST or words[-1].kind != "number" or words[-2].text not in ONTO:
        return []
    return [*words_at(start, ("", "of")), replace(words[-1], end=words[-1].start)]


def _other_end(sentence: list[Token], tokens: list[Token], place: int) -> int:
    """Where the other end of each needle is told: `At the end: k2tog, k1.`; 0 where something else is."""
    if tokens[place].text != "at" or tokens[place].flags & LINE:
        return 0
    match = _END_TOLD.fullmatch("".join(f"{word.kind} " for word in sentence if word.kind))
    stop = min(place + FEWEST, len(tokens) - 1)
    near = next((at for at in range(place, stop) if tokens[at].kind in _NEAR), 0)
    if not near or match is None or tokens[near].kind == match[1]:
        return 0
    stop = next((at for at in range(near + 1, len(tokens)) if tokens[at].flags & (STOP | LINE)), len(tokens))
    label = 2 * ([word.kind for word in sentence[:2]] == ["round", "number"])
    words = (*sentence[label:], *tokens[near:stop])
    others = any(word.kind in _OF_ROUNDS or word.text in _OF_ROUNDS for word in words)
    return 0 if others else near  # at the end, knit 2 rounds


def _in_order(sentence: list[Token]) -> list[Token]:
    """A sentence with the ends of each needle told in the order of the work."""
    words = _needle_first(sentence)
    at = _each_needle(words)
    if not at or not any(word.kind == "stitch" for word in words[at:]):
        return words
    made = words[: at + 1]
    worked: list[Token] = []
    first = 0  # the place behind the first stitches, while none are told behind them
    for place, word in enumerate(words[at + 1 :], at + 1):
        made.append(word)
        others = word.kind == "stitch_noun" and made[-2].text == "other"
        if (word.kind == "remain" or others) and _tell_rest(made):
            continue
        if word.kind in _NEAR and place + 1 == len(words):
            ends = _tell_near(made)
        elif word.kind == "stitch_noun":
            ends = _tell_end(made, worked)
        elif word.kind in _VERBS:
            ends = _tell_verb_first(made)
        else:
            continue
        if ends:
            worked, last = ends
            first = 0 if last else len(made)
    if made[-1].kind == "knit" and made[-2].kind == "then" and made[-3].kind == "stitch":
        made.extend(words_at(made[-1].end, ("to", "to"), ("end", "end")))
    if first and not any(word.kind in _WORK for word in made[first:]):
        made[first:first] = words_at(made[first - 1].end, ("knit", "knit"), ("to", "to"), ("end", "end"))
    return made


def _each_needle(words: list[Token]) -> int:
    """Where each needle is named; 0 where it is not."""
    for at in range(1, len(words)):
        if words[at].kind != "needle":
            continue
        number = words[at - 1].kind == "number" and words[at - 1].flags == SPACE  # each of the 4 needles
        before = [word for word in words[max(0, at - MOST_TO_NEEDLE) : at] if word.kind][-1 - number :]
        if before and before[0].kind in _EACH_NEEDLE:
            return at
    return 0


def _needle_first(words: list[Token]) -> list[Token]:
    """`Ssk the first 2 sts of each needle` with the needle first."""
    at = _each_needle(words)
    begin = at
    while begin and words[begin - 1].kind in _BEFORE_NEEDLE:
        begin -= 1
    if begin < FEWEST or words[begin - 1].kind != "stitch_noun" or words[begin - 3].text not in _ENDS:
        return words
    end = next(place for place, word in enumerate(words) if word.text in _ENDS)
    work = next((place for place in range(end - 1, -1, -1) if words[place].kind in _WORK), None)
    if work is None or any(word.kind not in ("", "and") for word in words[work + 1 : end]):
        return words
    near = words[work]
    needle = words_at(near.start, ("per", "on each"), ("needle", "needle"))
    needle[0] = replace(needle[0], flags=near.flags)
    return [*words[:work], *needle, replace(near, flags=SPACE), *words[work + 1 : begin], *words[at + 1 :]]


def _tell_end(made: list[Token], before: list[Token]) -> tuple[list[Token], bool] | None:
    """Tell `k2tog the last 2 sts` as `knit to last 2 sts, k2tog`, and `ssk the first 2 sts` as `ssk`.

    The answer is what is worked, and whether it is the last; `before`: what was, which `and the last 2 sts` repeats.
    """
    number, noun = made[-2:]
    at = len(made) - 3
    if number.number is None or made[at].text not in _ENDS:
        return None
    last = made[at].text == "last"
    at -= made[at - 1].text == "the"
    both = last and made[at - 1].kind == "and" and made[at - 2].text == "first"
    if both:
        at -= 2
        at -= made[at - 1].text == "the"
    at -= made[at - 1].text in _OVER
    verb = made[at - 1]
    if verb.kind in _VERBS[1:] and not last:
        del made[at:-2]
        return None
    again = verb.kind == "and" and last and bool(before) and made[at - 2] is before[-1]
    work = before if again else _worked_on(verb, number.number)
    if not work:
        return None
    del made[at - 1 :]
    if both:
        made.extend(work)
    if last:
        _go_on(made, verb.start, number, noun)
        made.extend((replace(work[0], flags=SPACE | COMMA), *work[1:]))
    else:
        made.extend(work)
    return work, last


def _worked_on(verb: Token, number: Number) -> list[Token]:
    """The stitch so often that it uses so many; nothing where it does not."""
    if verb.kind in _VERBS[1:]:
        return [verb, Token("number", "", verb.end, verb.end, SPACE, number=number)]
    uses, _ = uses_and_leaves().get(verb.means, (0, 0))
    (count, *sizes) = number.values
    if verb.kind != "stitch" or not uses or count is None or sizes or count % uses or count > MOST_AT_END:
        return []
    return [verb] * (count // uses)


def _tell_near(made: list[Token]) -> tuple[list[Token], bool] | None:
    """Tell `k2tog at the end`, the last of a sentence, as `knit to last 2 sts, k2tog`; so `at both ends`."""
    at = next((at for at in range(len(made) - 1, 0, -1) if made[at].kind == "stitch"), 0) + 1
    verb, near = made[at - 1], [word.kind for word in made[at:] if word.kind]
    uses, _ = uses_and_leaves().get(verb.means, (0, 0))
    both = near in (["each", "end"], ["begin", "and", "end"])
    if made[at].text != "at" or not uses or not (both or len(near) == 1):
        return None
    last = near[-1] == "end"
    del made[at - 1 :]
    if both:
        made.append(verb)
    if last:
        number = Token("number", str(uses), verb.start, verb.start, SPACE, number=Number((uses,)))
        _go_on(made, verb.start, number, *words_at(verb.start, ("stitch_noun", "sts")))
    made.append(replace(verb, flags=SPACE | COMMA) if last else verb)
    return [verb], last


def _tell_rest(made: list[Token]) -> bool:
    """Tell `knit the rest` and `knit the other sts` as `knit to end`."""
    at = len(made) - 1 - (made[-2].text == "other")
    at -= made[at - 1].text == "the"
    if made[at - 1].kind not in _VERBS[1:]:
        return False
    made[at:] = words_at(made[-1].end, ("to", "to"), ("end", "end"))
    return True


def _tell_verb_first(made: list[Token]) -> tuple[list[Token], bool] | None:
    """Tell a verb first that stands last: `and the last ssk`, `the remaining sts knit`, `to last 2 sts knit`."""
    verb = made[-1]
    uses, _ = uses_and_leaves().get(verb.means, (0, 0))
    if made[-2].text == "last" and verb.kind == "stitch" and uses:
        number = Token("number", str(uses), verb.start, verb.start, SPACE, number=Number((uses,)))
        made[-2:] = [verb, made[-2], number, *words_at(verb.start, ("stitch_noun", "sts"))]
        return _tell_end(made, [])
    rest = len(made) - 2 - (made[-2].kind == "stitch_noun")
    if made[rest].kind == "remain" and not verb.flags & COMMA:
        made[rest:] = [verb, *words_at(verb.end, ("to", "to"), ("end", "end"))]
    elif (
        len(made) > WORDS_TO_LAST
        and made[-5].kind == "to"
        and made[-4].text == "last"
        and made[-5].flags & COMMA
    ):
        made[-5:] = [replace(verb, flags=made[-5].flags), *made[-5:-1]]
    return None


def _go_on(made: list[Token], start: int, number: Token, noun: Token) -> None:
    """Go on to the last stitches, unless that is told."""
    if len(made) > FEWEST and made[-1].kind == "stitch_noun" and made[-3].text == "last":
        return
    if made[-1].kind == "and":
        made.pop()
    words = [*words_at(start, ("knit", "knit"), ("to", "to"), ("last", "last")), number, noun]
    made.extend(replace(word, start=start, end=start, flags=SPACE) for word in words)


_ENDS: Final = ("first", "last")
_END_TOLD: Final = re.compile(
    r"(?:(?!begin |end |stitch |knit |purl )\w+ )*(begin|end) (?:each|per) (?:number )?needle "
    r"(?:(?!begin |end |until |times |and )\w+ )+"
)
_OF_ROUNDS: Final = frozenset(("round", "around", "even", "plain", "next", "last", "only"))
"""Kinds of words, and words, of what is no end of a needle in the same round."""
_NEAR: Final = ("begin", "end")
_OVER: Final = frozenset(("over", "in", "on", "across", "with"))
_EACH_NEEDLE: Final = ("each", "per")
_BEFORE_NEEDLE: Final = ("", "number", *_EACH_NEEDLE)
"""Kinds of the words of `of each of the 4 needles`."""
_WORK: Final = ("stitch", "knit", "purl", "work", "stars", "rib", "to", "until")
_VERBS: Final = ("stitch", "knit", "purl")
WORDS_TO_LAST: Final = 5
"""Words of `to last 2 sts knit`."""
MOST_TO_NEEDLE: Final = 8
"""Words from `until` to each needle."""
FEWEST: Final = 3
"""Words before the end of a needle, at least."""
MOST_AT_END: Final = 12
"""Stitches at an end of a needle, at most."""
