"""Short names that a text gives to its rounds: `DR = decrease round`."""

from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.tokens import COLON, COMMA, DASH, EQUALS, LINE, SEMI, SPACE, STOP, TAB, Token
from roundwright.wording.reading.tree import TOLD

MOST_NAMES: Final = 20
"""Rounds that have a name."""
_ENDS: Final = STOP | SEMI | LINE | COLON
_SHORT: Final = frozenset(("word", "per", "gear", "unit"))
"""What the short name of a round may look like: `PR` is elsewhere short for `per`."""
_SORTS_OF_ROUNDS: Final = frozenset(("decrease", "increase", "plain", "even"))

RoundNames = dict[str, tuple[str, str]]


def round_names(tokens: list[Token]) -> RoundNames:
    """The short names, with the kind and the text of the word that they stand for."""
    short: RoundNames = own_name(tokens) | letters_of_lines(tokens)
    for place, token in enumerate(tokens[1:-1], start=1):
        name, following = tokens[place - 1], tokens[place + 1]
        begins = place == 1 or bool(name.flags & (_ENDS | COMMA))
        if (
            token.flags & EQUALS
            and begins
            and name.kind in _SHORT
            and token.kind in _SORTS_OF_ROUNDS
            and following.kind == "round"
            and len(short) < MOST_NAMES
        ):
            short[name.text] = (token.kind, token.text)
    return short


def own_name(tokens: list[Token]) -> RoundNames:
    """The one word by which a text calls its decrease round, and works it again: `Spoke round: ...`."""
    headed, called = set[str](), set[str]()
    for place, token in enumerate(tokens[1:-1], start=1):
        name, behind = tokens[place - 1], tokens[place + 1]
        if token.kind != "round" or token.flags & ~SPACE:
            continue
        if name.kind in _SORTS_OF_ROUNDS - {"plain", "even"}:
            return {}
        begins = place == 1 or bool(name.flags & LINE)
        if name.kind == "word" and begins and behind.flags & (COLON | EQUALS):
            headed.add(name.text)
        elif name.kind == "word" and (
            behind.flags & _ENDS_OF_CALLS or behind.kind in _BEHIND_CALLS or behind.text in _WITH_CALLS
        ):
            called.add(name.text)
    names = headed & called
    return dict.fromkeys(names, ("decrease", "dec")) if len(names) == 1 else {}


def letters_of_lines(tokens: list[Token]) -> RoundNames:
    """The letters that head lines and are worked again: `a) (k to 2 sts before marker, k2tog)`, `Work A and B`."""
    headed = {
        token.text
        for place, token in enumerate(tokens)
        if len(token.text) == 1 and (token.flags & LINE or not place) and _heads_line(tokens, place)
    }
    if len(headed) < FEWEST_LETTERS:
        return {}
    for place, token in enumerate(tokens[:-3]):
        if token.kind not in _CALLING or tokens[place + 1].text not in headed:
            continue
        joint = place + 2 + (tokens[place + 2].kind == ")")
        behind = tokens[min(joint + 1, len(tokens) - 1)]
        if tokens[joint].kind in ("and", "then") and behind.text in headed:
            return dict.fromkeys(headed, (LETTERED, ""))
    return {}


def _heads_line(tokens: list[Token], place: int) -> bool:
    """Whether a letter with a sign begins a line: `a) knit`, `A: knit`."""
    token = tokens[place]
    if len(token.text) != 1 or not "a" <= token.text <= "j" or place + 2 >= len(tokens):
        return False
    behind = tokens[place + 1]
    signed = (behind.kind == ")" and not behind.flags) or bool(behind.flags & COLON)
    return signed and bool(token.flags & LINE or not place)


def _as_lettered(tokens: list[Token], short: RoundNames) -> list[Token]:
    """The tokens, with letters of rounds told as `Round A:`, and without the brackets behind them."""
    made: list[Token] = []
    signed = False  # whether a colon is lacking before the next word
    for place, token in enumerate(tokens):
        before = tokens[place - 1] if place else None
        lettered = before is not None and short.get(before.text, ("", ""))[0] == LETTERED
        if token.kind == ")" and not token.flags and lettered and tokens[place - 2].kind != "(":
            continue
        if short.get(token.text, ("", ""))[0] == LETTERED and _heads_line(tokens, place):
            made.append(Token("round", "round", token.start, token.start, token.flags))
            made.append(replace(token, flags=SPACE))
            signed = True
            continue
        made.append(replace(token, flags=token.flags | COLON) if signed else token)
        signed = False
    return made


_WITH_CALLS: Final = ("with", "only")
"""Words behind a round that is called by its name: `Alternate spiral rnd with a knit rnd`, `the spiral rnd only`."""
LETTERED: Final = "lettered"
"""The kind of a letter by which a round is called."""
FEWEST_LETTERS: Final = 2
"""Letters that name rounds, and not one a step."""
_CALLING: Final = frozenset(("work", "repeat", "alternate"))
"""What stands before the letters of rounds that are worked again."""
_ENDS_OF_CALLS: Final = STOP | SEMI | LINE | COMMA
_BEHIND_CALLS: Final = frozenset(("each", "per", "alternate", "number", "often", "more", "until", "again"))
"""What stands behind a round that is called by its name."""


def with_plain_rounds(tokens: list[Token]) -> list[Token]:
    """The tokens, with a round of nothing told as a plain one: `a nothing round`, `a rest round`."""
    made = tokens
    for place, token in enumerate(tokens):
        if (
            token.kind == "round"
            and place
            and tokens[place - 1].text in _NOTHING
            and not token.flags & ~SPACE
        ):
            made = list(tokens) if made is tokens else made
            made[place - 1] = replace(tokens[place - 1], kind="plain")
    return made


_NOTHING: Final = frozenset(("nothing", "rest", "resting", "easy", "idle", "undecreased", "unshaped"))
"""Words by which a round is called in which nothing is shaped."""


def letters_of_rounds(tokens: list[Token]) -> RoundNames:
    """The letters under which rounds are told: `D (decrease): knit to ...`, `Round A: *k6, k2tog*`.

    Each with the kind and the text of the word that it stands for, or of itself.
    """
    letters: RoundNames = {}
    for place, token in enumerate(tokens[:-3]):
        if len(token.text) != 1 or not token.text.isalpha() or len(letters) >= MOST_NAMES:
            continue
        behind = tokens[place + 1]
        named = place > 0 and tokens[place - 1].kind == "round" and bool(tokens[place - 1].flags & LINE)
        if named and behind.flags & (COLON | EQUALS) and "a" <= token.text <= "j":
            letters[token.text] = (token.kind, token.text)
        elif token.flags & LINE and (sort := _sort_in_bracket(tokens, place)):
            letters[token.text] = (sort.kind, sort.text)
    return letters


def _sort_in_bracket(tokens: list[Token], place: int) -> Token | None:
    """The word in the bracket behind a letter that says what its round is: `D (decrease):`; None where none does."""
    bracket = tokens[place + 1 : place + 4]
    if bracket[0].kind != "(" or bracket[1].kind not in _SORTS_OF_ROUNDS:
        return None
    stop = place + 3 + (bracket[2].kind == "round")
    closed = stop + 1 < len(tokens) and tokens[stop].kind == ")"
    return bracket[1] if closed and tokens[stop + 1].flags & (COLON | EQUALS | DASH) else None


def with_letters_told(tokens: list[Token], letters: RoundNames) -> list[Token]:
    """The tokens, with the letters of rounds told in full where they stand behind a number: `29  D  42`, `Rnd 3: A`."""
    if not letters:
        return tokens
    made: list[Token] = []
    place = 0
    while place < len(tokens):
        token = tokens[place]
        kind, text = letters.get(token.text, ("", ""))
        if text and text != token.text and token.flags & LINE and _sort_in_bracket(tokens, place):
            made.append(replace(token, kind=kind, text=text, means=TOLD))
            made.append(Token("round", "round", token.end, token.end, SPACE))
            while tokens[place].kind != ")":
                place += 1
        elif text and place and _is_called(tokens, place):
            if text == token.text:
                made.append(Token("work", "work", token.start, token.start, token.flags))
                made.append(Token("round", "round", token.start, token.start, SPACE))
                made.append(replace(token, flags=SPACE))
            else:
                made.append(replace(token, kind=kind, text=text))
                made.append(Token("round", "round", token.end, token.end, SPACE))
        else:
            made.append(token)
        place += 1
    return made


def _is_called(tokens: list[Token], place: int) -> bool:
    """Whether a letter says which round is worked: it stands alone behind the number of a round."""
    before, behind = tokens[place - 1], tokens[place + 1] if place + 1 < len(tokens) else tokens[place]
    if before.kind not in ("number", "range") or not (
        before.flags & LINE or place == 1 or (place > 1 and tokens[place - 2].kind == "round")
    ):
        return False
    alone = behind.kind == "(" or bool(behind.flags & (LINE | TAB | EQUALS | DASH | STOP))
    if alone or behind.kind != "number" or not behind.flags & SPACE or place + 2 >= len(tokens):
        return alone
    ends = bool(tokens[place + 2].flags & (LINE | STOP))
    return ends or (tokens[place + 2].kind == "stitch_noun" and not tokens[place + 2].flags & ~SPACE)


def with_round_names(tokens: list[Token], short: RoundNames) -> list[Token]:
    """The tokens, with short names of rounds told in full."""
    if not short:
        return tokens
    if any(kind == LETTERED for kind, _ in short.values()):
        tokens = _as_lettered(tokens, short)
        short = {name: word for name, word in short.items() if word[0] != LETTERED}
    made: list[Token] = []
    for place, token in enumerate(tokens):
        if token.text in short and place + 1 < len(tokens):
            if tokens[place + 1].flags & EQUALS:
                continue  # it is told in full behind this
            kind, text = short[token.text]
            made.append(replace(token, kind=kind, text=text))
            if tokens[place + 1].kind != "round":
                made.append(Token("round", "round", token.end, token.end, SPACE))
        elif place and tokens[place - 1].text in short and token.flags & EQUALS:
            made.append(replace(token, flags=tokens[place - 1].flags, means=TOLD))
        else:
            made.append(token)
    return made
