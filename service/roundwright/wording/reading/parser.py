"""The grammar of pattern lines, made into a table once when it is first needed, and the parse of one line.

Lark makes the table (LALR(1), so a line takes time in its length, however its brackets nest); the loop that follows the
table is here, since it need not keep what Lark keeps for other uses, and takes half the time.
"""

from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any, Final, NamedTuple

from roundwright.wording.reading import vocabulary as words
from roundwright.wording.reading.meaning import Phrases, number_of
from roundwright.wording.reading.settling import settle
from roundwright.wording.reading.tree import Body, Label, Number, Reading, Span, Trouble
from roundwright.wording.reading.vocabulary import Token

DEEPEST: Final = 16
"""Brackets inside one another: a pattern has two, seldom three."""
MOST_IN_LINE: Final = 400
"""Words in one line: a round that takes a page."""


class _Reduce(NamedTuple):
    """So many values on the stack are made one by `make`; `name` is the rule's."""

    size: int
    make: Callable[[list[Any]], Any]
    name: str


class _Table(NamedTuple):
    """What to do in each state on each kind of word: go to a state, or reduce; and where to start and to end."""

    states: dict[int, dict[str, int | _Reduce]]
    start: int
    end: int


@cache
def _table(start: str) -> _Table:
    from lark.parsers.lalr_analysis import Shift

    conf = _grammar().parse_interactive(start=start).parser_state.parse_conf
    states: dict[int, dict[str, int | _Reduce]] = {}
    for state, actions in conf.states.items():
        states[state] = {
            str(name): arg
            if action is Shift
            else _Reduce(len(arg.expansion), conf.callbacks[arg], str(arg.origin.name))
            for name, (action, arg) in actions.items()
        }
    return _Table(states, conf.start_state, conf.end_state)


@cache
def _grammar() -> Any:
    from lark import Lark  # only here, and only once
    from lark.lexer import Lexer

    class Given(Lexer):
        """The words come from `words.scan`; Lark scans nothing."""

        def __init__(self, conf: Any) -> None:
            pass

        def lex(self, lexer_state: Any, parser_state: Any) -> Any:
            """Asked for by Lark, and never called."""
            raise NotImplementedError

    grammar = Path(__file__).with_name("pattern.lark").read_text("utf-8")
    return Lark(grammar, parser="lalr", lexer=Given, start=["body", "label"], transformer=Phrases())


def warm() -> None:
    """Make the tables now rather than with the first pattern."""
    parse_body(list(words.scan("knit")))
    _table("label")


_END: Final = Token("$END", "", 0, 0)


def _run(start: str, tokens: list[Token]) -> tuple[Any, list[Token]]:
    """The value of the tokens and those that did not fit and were passed over; None where the line breaks off."""
    states, begin, end = _table(start)
    stack, values = [begin], []
    passed: list[Token] = []
    for token in (*tokens, _END):
        kind = token.type
        while True:
            action = states[stack[-1]].get(kind)
            if type(action) is int:
                stack.append(action)
                values.append(token)
                break
            if action is None:
                passed.append(token)
                break
            size, make, name = action  # type: ignore[misc]  # an int is dealt with above
            if size:
                made = make(values[-size:])
                del stack[-size:], values[-size:]
            else:
                made = make([])
            to = states[stack[-1]][name]
            stack.append(to)  # type: ignore[arg-type]  # after a reduction the table always goes to a state
            values.append(made)
            if to == end and kind == "$END":
                return made, passed
    return None, passed[:-1]


def parse_label(tokens: list[Token]) -> Label | None:
    """The label that the tokens are, or None where they are none."""
    if len(tokens) == 2 and tokens[0].type == "ROUND" and tokens[1].type == "NUMBER":
        # Most labels by far; the parser would say the same.
        number = number_of(tokens[1])
        return Label("numbered", (Span(number, number),))
    label, passed = _run("label", tokens)
    return None if passed else label


def parse_body(tokens: list[Token]) -> Body:
    """What the tokens say is worked. What is not understood is passed over and named in the troubles."""
    if (trouble := _unfit(tokens)) is not None:
        return Body((Reading(()),), troubles=(trouble,), words=len(tokens))
    phrases, passed = _run("body", tokens)
    troubles = [_not_understood(token) for token in passed[:1]]
    if phrases is None:
        troubles.append(
            Trouble("not_understood", "The line breaks off here.", tokens[-1].start_pos if tokens else 0)
        )
        phrases = ()
    return settle(phrases, troubles, _lists(tokens), len(tokens))


def _not_understood(token: Token) -> Trouble:
    return Trouble("not_understood", f"“{token.text}” is not understood here.", token.start_pos)


def _unfit(tokens: list[Token]) -> Trouble | None:
    """What keeps a line from being parsed at all: its length, or its brackets."""
    if len(tokens) > MOST_IN_LINE:
        return Trouble(
            "too_long", f"The line has more than {MOST_IN_LINE} words.", tokens[MOST_IN_LINE].start_pos
        )
    opened: list[Token] = []
    for token in tokens:
        if token.type == "LPAR":
            opened.append(token)
            if len(opened) > DEEPEST:
                return Trouble(
                    "too_deep", f"More than {DEEPEST} brackets inside one another.", token.start_pos
                )
        elif token.type == "RPAR":
            if not opened:
                return Trouble("bracket", "This bracket was never opened.", token.start_pos)
            opened.pop()
    if opened:
        return Trouble("bracket", "This bracket is not closed.", opened[-1].start_pos)
    return None


def _lists(tokens: list[Token]) -> tuple[Number, ...]:
    return tuple(
        number for token in tokens if token.type == "NUMBER" and len((number := number_of(token)).values) > 1
    )
