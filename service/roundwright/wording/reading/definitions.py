"""What a text says its own words mean: `double decrease = sl 1, k2tog, psso`, `T2 - knit 2 together tbl`."""

from typing import Final, Literal, NamedTuple

from msgspec.structs import replace

from roundwright.knitting.rounds.round import StitchName, uses_and_leaves
from roundwright.wording.reading.parsing.lines import Lines
from roundwright.wording.reading.phrases import PassOver, Said, Stitches, Then
from roundwright.wording.reading.settle import settle
from roundwright.wording.reading.tokens import (
    BLANK,
    COLON,
    COMMA,
    DASH,
    EQUALS,
    FULL,
    LINE,
    SEMI,
    SPACE,
    STOP,
    Token,
)
from roundwright.wording.reading.tree import Stitch

LONGEST_NAME: Final = 3
"""Words of a name that a text gives."""
MOST_NAMES: Final = 40
"""Names that a text gives: more than any has."""
LONGEST_MEANING: Final = 24
"""Words that say what a name means."""
_NAMES: Final = frozenset(("word", "decrease", "increase", "make", "cable", "left", "right"))
_ENDS: Final = STOP | SEMI | LINE | COLON
_TOLD_ENDS: Final = frozenset(("round", "cast_on", "next", "ordinal", "number"))
"""What a line begins with that ends a list of abbreviations."""
_STANDS_ALONE: Final = frozenset(("stars", ")", "repeat", "end", "times"))

Names = dict[tuple[str, ...], StitchName]


def with_definitions(tokens: list[Token], names: Names) -> list[Token]:
    """The tokens, with the names that the text itself explains read as the stitches that they mean.

    The first word of a line that explains a name has the kind `defined`. So has a stitch in a sentence that only says
    how it is worked.
    """
    tokens = _with_told_before(tokens)
    tokens = _replaced(tokens, names) if names else tokens
    return [
        replace(token, kind="defined")
        if token.kind in ("stitch", "decrease") and _is_only_explained(tokens, place)
        else token
        for place, token in enumerate(tokens)
    ]


def _with_told_before(tokens: list[Token]) -> list[Token]:
    """The tokens, with the stitches and the sentence marked that only say what a stitch is that is called by a name.

    `Sl 1, k2tog, psso. I'll call it a double decrease.`
    """
    made = tokens
    for place, token in enumerate(tokens):
        called = _called(tokens, place) if token.text in _CALLING else None
        if called is None or called.stop == place:
            continue
        made = list(tokens) if made is tokens else made
        marks = [called.place] if tokens[called.place].kind == "stitch" else []
        if tokens[called.stop].flags & _ENDS:
            marks.append(called.begin + 1)
        for at in marks:
            made[at] = replace(made[at], kind="defined")
    return made


def _is_only_explained(tokens: list[Token], place: int) -> bool:
    """Whether a sentence only says how this stitch is worked: `The trick is sk2p: sl 1, k2tog, psso`."""
    near = range(place + 1, min(place + 1 + MOST_TO_SIGN, len(tokens) - 1))
    sign = next(
        (at for at in near if tokens[at].flags & _SIGNS_OR_ENDS or tokens[at].kind not in ("word", "")), 0
    )
    purpose, named = _is_purpose(tokens, place), tokens[place].kind == "stitch"
    if not (named or purpose) or not sign or not tokens[sign].flags & (EQUALS | COLON | COMMA * purpose):
        return False
    for back in range(place, -1, -1):
        if back < place and tokens[back].kind in _IN_ROUNDS:
            return False
        if tokens[back].flags & (LINE | FULL):
            break
    meaning = _meaning(tokens, sign)
    return _are_alike(meaning, tokens[place].means or "k2tog")


def _is_purpose(tokens: list[Token], place: int) -> bool:
    """Whether a stitch is told to be what the words behind it are for: `For a double decrease, sl 1, k2tog, psso`.

    So is a verb: `To narrow, knit 2 together`.
    """
    before = tokens[place - 1] if place else None
    if tokens[place].kind == "decrease":
        return before is not None and before.text == "to" and bool(place == 1 or before.flags & (LINE | STOP))
    words = [token.text for token in tokens[max(0, place - 3) : place]]
    for count in (2, 3):
        begin = place - count
        begins = begin == 0 or bool(begin > 0 and tokens[begin].flags & (LINE | STOP))
        if begins and tuple(words[-count:-1]) in _PURPOSES:
            return True
    return False


_PURPOSES: Final = frozenset((("for",), ("to make",), ("to", "make"), ("to", "work"), ("to", "do")))
"""Words that begin a sentence which says how a stitch is worked, before its article."""
MOST_TO_SIGN: Final = 3
"""Words from a stitch to the sign behind which is said how it is worked: `a double decrease here: ...`."""
_SIGNS_OR_ENDS: Final = _ENDS | EQUALS | COMMA
_IN_ROUNDS: Final = frozenset(("stitch", "knit", "purl", "slip", "stars", "(", "round", "next", "together"))
"""What stands before a stitch that is worked, and not only told of."""


def definitions(tokens: list[Token]) -> Names:
    """The names that a text itself explains, with the stitches that they mean."""
    names = _called_names(tokens) | _names_in_brackets(tokens)
    in_list = False
    for place, token in enumerate(tokens):
        if token.flags & LINE or not place:
            in_list = (
                in_list and not token.flags & BLANK and token.kind not in _TOLD_ENDS
            ) or token.kind == "told"
        if not place or not token.flags & (EQUALS | COLON | DASH) or len(names) >= MOST_NAMES:
            continue
        if (begin := _behind_introduction(tokens, place)) is not None:
            if meaning := _stands_for(tokens, place):
                names[tuple(part.text for part in tokens[begin:place])] = meaning
            continue
        begin = _begin_of_name(tokens, place)
        bracket = _bracket_before(tokens, place)
        begins_line = begin is not None and (
            begin == 0
            or bool(tokens[begin].flags & LINE)
            or tokens[begin - 1].kind == "told"
            or (bool(tokens[begin].flags & STOP) and (bool(bracket) or place == begin + 1))
            or (bool(bracket and names) and _signs(tokens, place))
            or _opens_bracket(tokens, begin)
        )
        if begin is None or not (token.flags & EQUALS or (begins_line and _signs(tokens, place))):
            continue
        name = tuple(part.text for part in tokens[begin:place] if part.kind != "(")
        name = name[: _without_bracket(tokens, begin, place) - begin]
        known = not any(part.kind == "word" for part in tokens[begin : begin + len(name)])
        in_brackets = bool(bracket) or _bracketed(tokens, place) or _opens_bracket(tokens, begin)
        if known and len(name) == 1 and not in_list and not in_brackets:
            continue
        if meaning := _stands_for(tokens, place):
            names[name] = meaning
            if bracket and all(part.kind in _NAMES for part in bracket):
                names[tuple(part.text for part in bracket)] = meaning  # Left dec (vf): skp
    return names


def _called_names(tokens: list[Token]) -> Names:
    """The short names that sentences give to stitches: `sl 1, k2tog, psso is written "dd"`."""
    names: Names = {}
    for place, token in enumerate(tokens):
        if token.text not in _SAYING_NAME:
            continue
        called = _called(tokens, place) if len(names) < MOST_NAMES else None
        if called is not None and tokens[called.place].kind == "word":
            names[(called.name,)] = called.meaning
    return names


class _Called(NamedTuple):
    """A name that stands at a place, and the stitch it is of, which is told from `begin` to before `stop`."""

    name: str
    meaning: StitchName
    place: int
    begin: int
    stop: int


def _called(tokens: list[Token], place: int) -> _Called | None:
    """The name behind this word, and the stitch it is of: `sl 1, k2tog, psso is written "dd"`; None where none is.

    The name may stand before the word too: `"dd" stands for sl 1, k2tog, psso`. The stitch may be told in the sentence
    before: `Sl 1, k2tog, psso. We call this dd.`.
    """
    token = tokens[place]
    if token.text in _STANDING and (named := _named_before(tokens, place)):
        return named
    if token.text not in _CALLING:
        return None
    name = place + 1
    while name < len(tokens) - 1 and tokens[name].text in _BEFORE_NAME and not tokens[name].flags & _ENDS:
        name += 1
    known = tokens[name].kind == "stitch" and tokens[place - 1].kind != "("
    if not (known or _is_name(tokens[name])) or tokens[name].flags & _ENDS:
        return None
    stop = place
    while stop and tokens[stop - 1].text in _BEFORE_CALLING and not tokens[stop].flags & _ENDS:
        stop -= 1
    if stop and tokens[stop - 1].kind == "(":
        stop -= 1  # sl 1, k2tog, psso (from here on called dd)
    begin = stop - bool(stop and tokens[stop].flags & _ENDS)
    while begin and begin > stop - LONGEST_MEANING and not tokens[begin].flags & _ENDS:
        begin -= 1
    if stop == place or begin >= stop:
        return None
    meaning = _meaning([*tokens[begin:stop], tokens[-1]], 0)
    if not meaning or (known and not _are_alike(meaning, tokens[name].means)):
        return None
    return _Called(tokens[name].text, meaning, name, begin, stop)


def _named_before(tokens: list[Token], place: int) -> _Called | None:
    """The name before this word: `"dd" stands for sl 1, k2tog, psso`, `dd is my name for skp`; None where none is."""
    name = place
    while name and tokens[name - 1].text in _BEFORE_NAMING:
        name -= 1
    if not name or not _is_name(tokens[name - 1]):
        return None
    behind = place + 1 + (tokens[min(place + 1, len(tokens) - 1)].text in ("for", "that"))
    ended = behind >= len(tokens) - 1 or tokens[behind].flags & _ENDS
    meaning = "" if ended else _meaning(tokens, behind)
    return _Called(tokens[name - 1].text, meaning, name - 1, place, place) if meaning else None


def _are_alike(meaning: StitchName | Literal[""], name: str) -> bool:
    """Whether two stitches use and leave as many."""
    return bool(meaning) and uses_and_leaves()[meaning] == uses_and_leaves().get(name)


def _is_name(token: Token) -> bool:
    """Whether a word may be the short name of a stitch: nobody knows it, and it is short."""
    return token.kind == "word" and len(token.text) <= LONGEST_SHORT


LONGEST_SHORT: Final = 6
"""Letters of a short name that a text gives a stitch."""
_STANDING: Final = frozenset(("means", "stands", "name", "word", "shorthand"))
_BEFORE_NAMING: Final = frozenset(("is", "my", "our", "the", "a"))
"""Words between a name and `name` in `dd is my name for sl 1, k2tog, psso`."""
_CALLING: Final = frozenset(
    ("written", "called", "abbreviated", "shortened", "shown", "printed", "noted", "named", "termed", "abbreviates",
     "abbrev", "marked", "given", "hereafter", "henceforth", "call", "calling", "name")
)  # fmt: skip
"""Words behind which stands what a stitch is called."""
_SAYING_NAME: Final = _STANDING | _CALLING
_BEFORE_NAME: Final = frozenset(
    ("as", "to", "by", "a", "the", "here", "below", "above", "also", "thus", "simply", "just", "with", "it", "this",
     "that", "our", "my", "from", "now", "on")
)  # fmt: skip
_BEFORE_CALLING: Final = frozenset(
    ("is", "are", "will", "be", "it", "which", "always", "here", "simply", "we", "i", "i'll", "we'll", "this", "that",
     "from", "now", "on", "and", "shall", "you", "can", "let's", "us", "what", "i'm", "going", "to")
)  # fmt: skip


def _names_in_brackets(tokens: list[Token]) -> Names:
    """The names that a bracket describes or says in short: `1 dd (sl 1, k2tog, psso)`, `work a dec (dd): skp`."""
    names: Names = {}
    for place, token in enumerate(tokens):
        if len(names) >= MOST_NAMES:
            break
        named: tuple[str, ...] = ()
        behind = place + 1
        if token.kind == "(" and (begin := _begin_of_described(tokens, place)) is not None:
            named = tuple(part.text for part in tokens[begin:place])
        elif place and token.flags & (EQUALS | COLON):
            bracket = _bracket_before(tokens, place)
            if len(bracket) == 1 and _is_name(bracket[0]):
                named, behind = (bracket[0].text,), place
        if named and named not in names and (meaning := _stands_for(tokens, behind)):
            names[named] = meaning
    return names


def _begin_of_described(tokens: list[Token], place: int) -> int | None:
    """Where the name begins that a bracket describes: `k6, 1 dd (sl 1, k2tog, psso)`; None where none does.

    A bracket that is worked so often is a repeat.
    """
    begin = place
    while begin and tokens[begin - 1].kind == "word" and place - begin < LONGEST_NAME:
        begin -= 1
        if tokens[begin].flags & (_ENDS | COMMA):
            break
    if begin == place or tokens[place].flags & _SIGNS_OR_ENDS:
        return None
    before = tokens[begin - 1] if begin else tokens[begin]
    counted = before.text in _SINGLE
    short = begin + 1 == place and _is_name(tokens[begin])
    listed = before.kind in ("stars", "(") or bool(tokens[begin].flags & COMMA)
    if not counted and not (short and listed):
        return None
    inside = range(place + 1, min(place + LONGEST_MEANING, len(tokens) - 1))
    behind = next((tokens[at + 1] for at in inside if tokens[at].kind == ")"), None)
    often = behind is None or (behind.kind in _OFTEN and not behind.flags & _SIGNS_OR_ENDS)
    return None if often else begin


_SINGLE: Final = frozenset(("1", "a", "an"))
_OFTEN: Final = frozenset(("times", "number", "often"))


def _behind_introduction(tokens: list[Token], place: int) -> int | None:
    """Where the name begins in `Word "3 in middle": ...`, whatever its words are; None where none is introduced."""
    for back in range(place - 2, max(place - 2 - LONGEST_INTRODUCED, -1), -1):
        if any(token.flags & (_ENDS | COMMA) for token in tokens[back + 1 : place]):
            return None
        if tokens[back].text in _INTRODUCING and (not back or tokens[back].flags & LINE):
            named = any(token.kind == "word" for token in tokens[back + 1 : place])
            return back + 1 if named else None
    return None


def _stands_for(tokens: list[Token], place: int) -> StitchName | Literal[""]:
    """The stitch that the words behind a sign mean: what is worked, or else what becomes of the stitches."""
    meaning, outcome = _meaning(tokens, place), _outcome(tokens, place)
    if not meaning or not outcome or uses_and_leaves()[meaning] == uses_and_leaves()[outcome]:
        return meaning or outcome
    return outcome


def _outcome(tokens: list[Token], place: int) -> StitchName | Literal[""]:
    """The stitch that leaves what the words behind a name say: `was 3, is 1`, `3 sts become 1`; empty where none do."""
    last = (0, place)
    for at in range(place, min(len(tokens) - 1, place + LONGEST_OUTCOME)):
        token = tokens[at]
        if token.flags & LINE and at > place:
            break
        if token.kind != "number" or token.number is None:
            continue
        number, between = token.number.of(0) or 0, [part.text for part in tokens[last[1] + 1 : at]]
        before = tokens[last[1] - 1].text
        becomes = any(text in _BECOMES for text in between)
        is_now = before in _WAS and any(text in _IS for text in between)
        near = len(between) <= MOST_IN_OUTCOME
        if near and (becomes or is_now) and (found := _LEAVES.get((last[0], number))):
            return found
        last = (number, at)
    return ""


LONGEST_INTRODUCED: Final = 4
"""Words of a name that is introduced as such."""
LONGEST_OUTCOME: Final = 48
"""Words of a line that say how a stitch is made, and what it leaves."""
MOST_IN_OUTCOME: Final = 4
"""Words between how many stitches there were and how many are left."""
_INTRODUCING: Final = frozenset(("word", "words", "term", "sign", "expression", "say", "stitch"))
"""Words that introduce a name."""
_BECOMES: Final = frozenset(("become", "becomes", "became", "into"))
_WAS: Final = frozenset(("was", "were", "had", "from", "before", "of", "took", "takes", "uses"))
_IS: Final = frozenset(
    ("is", "are", "now", "left", "leaves", "leave", "remains", "remain", "makes", "gives", "have")
)
_LEAVES: Final[dict[tuple[int, int], StitchName]] = {(2, 1): "k2tog", (3, 1): "cdd", (1, 2): "kfb"}
"""A stitch by how many it uses and leaves."""


def _opens_bracket(tokens: list[Token], place: int) -> bool:
    """Whether a word is the first of a bracket: `(dd: sl 1, k2tog, psso)`."""
    return place > 0 and tokens[place - 1].kind == "("


def _bracketed(tokens: list[Token], place: int) -> bool:
    """Whether a bracket ends before a sign."""
    return tokens[place - 1].kind == ")"


def _bracket_before(tokens: list[Token], place: int) -> list[Token]:
    """The words of the bracket before a sign, which say a name in short; none where it has more than two."""
    if tokens[place - 1].kind != ")":
        return []
    opened = next(
        (back for back in range(place - 2, max(place - 5, 0), -1) if tokens[back].kind == "("), place
    )
    return tokens[opened + 1 : place - 1]


def _signs(tokens: list[Token], place: int) -> bool:
    """Whether a colon, or a dash with space before it, parts a name from what it means."""
    flags = tokens[place].flags
    return bool(flags & COLON) or (bool(flags & SPACE) and tokens[place].start > tokens[place - 1].end + 1)


def _without_bracket(tokens: list[Token], begin: int, stop: int) -> int:
    """Where a name ends, before the bracket that says it in other words."""
    return next((place for place in range(begin, stop) if tokens[place].kind == "("), stop)


def _begin_of_name(tokens: list[Token], place: int) -> int | None:
    """Where the words before a sign begin that are nothing else yet; None where there are none."""
    stop = place
    if tokens[place - 1].kind == ")":
        opened = next(
            (back for back in range(place - 2, max(place - 8, 0), -1) if tokens[back].kind == "("), None
        )
        if opened is None:
            return None
        stop = opened
        if tokens[stop - 1].kind == "stitch" and (stop == 1 or tokens[stop - 1].flags & LINE):
            return stop - 1  # cdd (centred double decrease): sl 2, k1, p2sso
    for back in range(stop - 1, max(stop - 1 - LONGEST_NAME, -1), -1):
        token = tokens[back]
        if token.kind not in _NAMES and not _is_number_of_name(tokens, back, place):
            return None
        if token.flags & (_ENDS | COMMA) or back == 0 or tokens[back - 1].kind in ("(", ")", "told"):
            return back  # Abbreviation dd (double decrease): ...
    return None


def _is_number_of_name(tokens: list[Token], at: int, place: int) -> bool:
    """Whether a number is part of a name, with nothing between it and its word: `T2`, `2stog = k2tog`."""
    token, behind = tokens[at], tokens[at + 1]
    if token.kind != "number":
        return False
    return not token.flags or (at + 1 < place and behind.kind in _NAMES and behind.start == token.end)


def _meaning(tokens: list[Token], place: int) -> StitchName | Literal[""]:
    """The one stitch that the words from here on make; empty where they make anything else."""
    stop = place
    while stop < min(len(tokens) - 1, place + LONGEST_MEANING):
        if tokens[stop].kind in (")", "(") or (stop > place and tokens[stop].flags & (_ENDS | EQUALS)):
            break
        stop += 1
    read = Lines(tokens, place, stop, troubles=[]).all()
    phrases = tuple(phrase for phrase in read if type(phrase) is not Then)  # k2tog, then psso
    if not all(type(phrase) in (Stitches, PassOver, Said) for phrase in phrases):
        return ""
    for way in settle(phrases, implied=False):
        if not way.trouble and len(way.nodes) == 1 and type(only := way.nodes[0]) is Stitch and not only.bare:
            return only.name if only.times.values == (1,) else ""
    return ""


def _replaced(tokens: list[Token], names: Names) -> list[Token]:
    made: list[Token] = []
    place = 0
    longest = max(len(name) for name in names)
    while place < len(tokens):
        token = tokens[place]
        for count in range(min(longest, len(tokens) - place), 0, -1):
            name = tuple(part.text for part in tokens[place : place + count])
            if name not in names:
                continue
            if place and made and _introduces(tokens, place, count):
                made[-1] = replace(made[-1], kind="defined")
            if count == 1 and _is_called_here(tokens, place):
                made.append(replace(token, kind="defined"))
                place += 1
                break
            if _explains(tokens, place, count):
                made.append(replace(token, kind="defined"))
                place += 1
                break
            if _is_used(tokens, place, count):
                last = tokens[place + count - 1]
                made.append(Token("stitch", " ".join(name), token.start, last.end, token.flags, names[name]))
                place += count
                break
        else:
            made.append(token)
            place += 1
    return made


def _is_called_here(tokens: list[Token], place: int) -> bool:
    """Whether a name is given here, and not used: `is written "dd"`, `"dd" stands for`."""
    naming = place + 1
    while naming < len(tokens) - 1 and tokens[naming].text in _BEFORE_NAMING:
        naming += 1
    if tokens[min(naming, len(tokens) - 1)].text in _STANDING:
        return True
    behind = tokens[place + 1 : place + 3]
    alone = place and tokens[place - 1].kind == "(" and len(behind) > 1 and behind[0].kind == ")"
    if alone and behind[1].flags & (COLON | EQUALS):
        return True  # we work a double decrease (dd): skp
    before = place - 1
    while before > 0 and tokens[before].text in _BEFORE_NAME:
        before -= 1
    return before >= 0 and tokens[before].text in _CALLING


def _introduces(tokens: list[Token], place: int, count: int) -> bool:
    """Whether the word before a name introduces it: `Word "3 in middle": ...`."""
    begins = place == 1 or bool(tokens[place - 1].flags & LINE)
    behind = tokens[min(place + count, len(tokens) - 1)]
    return begins and tokens[place - 1].text in _INTRODUCING and bool(behind.flags & (EQUALS | COLON | DASH))


def _explains(tokens: list[Token], place: int, count: int) -> bool:
    """Whether a name stands at the start of a line or sentence, with a sign or a bracket behind it."""
    begins = not place or bool(tokens[place].flags & (LINE | STOP)) or _opens_bracket(tokens, place)
    behind = tokens[min(place + count, len(tokens) - 1)]
    return begins and (behind.kind == "(" or bool(behind.flags & (EQUALS | COLON | DASH)))


def _is_used(tokens: list[Token], place: int, count: int) -> bool:
    """Whether words are used as the name of a stitch: `dec` alone may be a verb or a heading."""
    if any(part.flags & _ENDS for part in tokens[place + 1 : place + count]):
        return False
    if count > 1 or tokens[place].kind in ("word", "cable"):
        return True
    behind = tokens[min(place + 1, len(tokens) - 1)]
    return behind.kind in _STANDS_ALONE or bool(behind.flags & (COMMA | SEMI | STOP))
