"""Letters under which a text tells its rounds, and by which it works them: `Round A:`, `D (decrease):`, `a) knit`."""

from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.round_names import MOST_NAMES, SORTS_OF_ROUNDS, RoundNames
from roundwright.wording.reading.tokens import COLON, DASH, EQUALS, LINE, SPACE, STOP, TAB, Token
from roundwright.wording.reading.tree import TOLD

FEWEST_LETTERS: Final = 2
"""Letters that head lines and name rounds, and not one a step."""
_HEADS_LINE: Final = "lettered"
"""The kind of a letter that heads a line, without the word for a round."""
_CALLING: Final = frozenset(("work", "repeat", "alternate"))
"""What stands before the letters of rounds that are worked again."""


def letters_of_rounds(tokens: list[Token]) -> RoundNames:
    """The letters under which rounds are told: `D (decrease): knit to ...`, `Round A: *k6, k2tog*`, `a) knit`.

    Each with the kind and the text of the word that it stands for, or with its own text.
    """
    letters: RoundNames = _letters_of_lines(tokens)
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


def _letters_of_lines(tokens: list[Token]) -> RoundNames:
    """The letters that head lines and are worked again: `a) (k to 2 sts before marker, k2tog)`, `Work A and B`."""
    headed = {
        token.text
        for place, token in enumerate(tokens)
        if len(token.text) == 1 and _heads_line(tokens, place)
    }
    if len(headed) < FEWEST_LETTERS:
        return {}
    for place, token in enumerate(tokens[:-3]):
        if token.kind not in _CALLING or tokens[place + 1].text not in headed:
            continue
        joint = place + 2 + (tokens[place + 2].kind == ")")
        behind = tokens[min(joint + 1, len(tokens) - 1)]
        if tokens[joint].kind in ("and", "then") and behind.text in headed:
            return {letter: (_HEADS_LINE, letter) for letter in headed}
    return {}


def _heads_line(tokens: list[Token], place: int) -> bool:
    """Whether a letter with a sign begins a line: `a) knit`, `A: knit`."""
    token = tokens[place]
    if len(token.text) != 1 or not "a" <= token.text <= "j" or place + 2 >= len(tokens):
        return False
    behind = tokens[place + 1]
    signed = (behind.kind == ")" and not behind.flags) or bool(behind.flags & COLON)
    return signed and bool(token.flags & LINE or not place)


def _sort_in_bracket(tokens: list[Token], place: int) -> Token | None:
    """The word in the bracket behind a letter that says what its round is: `D (decrease):`; None where none does."""
    bracket = tokens[place + 1 : place + 4]
    if bracket[0].kind != "(" or bracket[1].kind not in SORTS_OF_ROUNDS:
        return None
    stop = place + 3 + (bracket[2].kind == "round")
    closed = stop + 1 < len(tokens) and tokens[stop].kind == ")"
    return bracket[1] if closed and tokens[stop + 1].flags & (COLON | EQUALS | DASH) else None


def with_letters_told(tokens: list[Token], letters: RoundNames) -> list[Token]:
    """The tokens, with the letters of rounds told in full at the head of a line and behind a number: `29  D  42`."""
    if not letters:
        return tokens
    made: list[Token] = []
    place = 0
    while place < len(tokens):
        token = tokens[place]
        kind, text = letters.get(token.text, ("", ""))
        at_head = kind == _HEADS_LINE and _heads_line(tokens, place)
        if at_head:
            made.extend(_as_round(token))
        elif text and text != token.text and token.flags & LINE and _sort_in_bracket(tokens, place):
            made.append(replace(token, kind=kind, text=text, means=TOLD))
            made.append(Token("round", "round", token.end, token.end, SPACE))
            while tokens[place].kind != ")":
                place += 1
        elif text and place and _is_called(tokens, place):
            if text == token.text:
                made.append(Token("work", "work", token.start, token.start, token.flags))
                made.extend(_as_round(replace(token, flags=SPACE)))
            else:
                made.append(replace(token, kind=kind, text=text))
                made.append(Token("round", "round", token.end, token.end, SPACE))
        else:
            made.append(token)
        place += 1
        if kind == _HEADS_LINE and _is_bracketed(tokens, place):
            place += 1
        if at_head:
            made.append(replace(tokens[place], flags=tokens[place].flags | COLON))
            place += 1
    return made


def _as_round(letter: Token) -> tuple[Token, Token]:
    """A letter behind the word for a round: `Round A`."""
    return Token("round", "round", letter.start, letter.start, letter.flags), replace(letter, flags=SPACE)


def _is_bracketed(tokens: list[Token], behind: int) -> bool:
    """Whether a bracket is closed behind a letter that was opened nowhere: `Work a) and b)`."""
    closed = behind < len(tokens) and tokens[behind].kind == ")" and not tokens[behind].flags
    return closed and (behind == 1 or tokens[behind - 2].kind != "(")


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
