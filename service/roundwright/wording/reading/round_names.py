"""Short names that a text gives to its rounds: `DR = decrease round`."""

from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.tokens import COLON, COMMA, EQUALS, LINE, SEMI, SPACE, STOP, Token
from roundwright.wording.reading.tree import TOLD

MOST_NAMES: Final = 20
"""Rounds that have a name."""
_ENDS: Final = STOP | SEMI | LINE | COLON
_SHORT: Final = frozenset(("word", "per", "gear", "unit"))
"""What the short name of a round may look like: `PR` is elsewhere short for `per`."""
SORTS_OF_ROUNDS: Final = frozenset(("decrease", "increase", "plain", "even"))
"""The kinds of the words that say what a round does."""

RoundNames = dict[str, tuple[str, str]]


def round_names(tokens: list[Token]) -> RoundNames:
    """The short names, with the kind and the text of the word that they stand for."""
    short: RoundNames = own_name(tokens)
    for place, token in enumerate(tokens[1:-1], start=1):
        name, following = tokens[place - 1], tokens[place + 1]
        begins = place == 1 or bool(name.flags & (_ENDS | COMMA))
        if (
            token.flags & EQUALS
            and begins
            and name.kind in _SHORT
            and token.kind in SORTS_OF_ROUNDS
            and following.kind == "round"
            and len(short) < MOST_NAMES
        ):
            short[name.text] = (token.kind, token.text)
    return short


def own_name(tokens: list[Token]) -> RoundNames:
    """The one word by which a text calls its decrease round, and works it again: `Spoke round: ...`."""
    headed, called = set[str](), set[str]()
    for place, token in enumerate(tokens[1:-1], start=1):
        if token.kind != "round" or token.flags & ~SPACE:
            continue
        name, behind = tokens[place - 1], tokens[place + 1]
        if name.kind in SORTS_OF_ROUNDS - {"plain", "even"}:
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


_WITH_CALLS: Final = ("with", "only", "alone", "on", "by", "over", "and")
"""Words behind a round that is called by its name: `Alternate spiral rnd with a knit rnd`, `the spiral rnd alone`."""
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


def with_round_names(tokens: list[Token], short: RoundNames) -> list[Token]:
    """The tokens, with short names of rounds told in full."""
    if not short:
        return tokens
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
