"""Paragraphs that were broken into lines of one width: their line breaks end nothing.

A break is forced where the next word would hardly have fitted into the widest line. Lines with a round each may look
the same, so that a sentence has to run over a break too. The paragraph is read in both ways, with its lines and
without; the search takes the one that comes out.
"""

from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from roundwright.wording.reading.line_breaks import begins_round, is_torn
from roundwright.wording.reading.tokens import BLANK, BROKEN, COLON, COMMA, FULL, LINE, SEMI, STOP, Token

NARROWEST: Final = 36
"""Characters of the narrowest paragraph that is broken into lines by width."""
FEWEST_LINES: Final = 3
"""Lines of a paragraph whose breaks are known by its width alone."""
MOST_WORDS: Final = 390
"""Words of the longest paragraph that is read as one."""
RAGGED: Final = 12
"""What part of its width a line may lack when its break is forced; the breaks of a typist are not exact."""


class Paragraph(Struct, frozen=True):
    """Tokens from `begin` to before `stop`, broken into lines by width; `sure` where a break parts a sentence."""

    begin: int
    stop: int
    sure: bool


def paragraphs(tokens: list[Token]) -> list[Paragraph]:
    """The paragraphs that may have been broken into lines by width, in order."""
    made: list[Paragraph] = []
    for lines in _blocks(tokens):
        width = max(_width(tokens, begin, stop) for begin, stop in lines)
        if width < NARROWEST:
            continue
        run = 0
        for place in range(1, len(lines) + 1):
            if place < len(lines) and (
                _is_forced(tokens, lines[place - 1], lines[place][0], width)
                or is_torn(tokens, lines[place][0])
            ):
                continue
            if place < len(lines) and _parts_number(tokens, lines[place][0]):
                continue
            if paragraph := _paragraph(tokens, lines[run:place]):
                made.append(paragraph)
            run = place
    return made


def _blocks(tokens: list[Token]) -> list[list[tuple[int, int]]]:
    """The lines of the text between blank lines, each with its first token and its end."""
    blocks: list[list[tuple[int, int]]] = []
    begin = 0
    for place in range(1, len(tokens)):
        if tokens[place].flags & (LINE | BROKEN):
            if not blocks or tokens[begin].flags & BLANK:
                blocks.append([])
            blocks[-1].append((begin, place))
            begin = place
    return blocks


def _width(tokens: list[Token], begin: int, stop: int) -> int:
    """The characters of a line; of a phrase that the end of a line parts, its last word stands in the next."""
    first, behind = tokens[begin], tokens[stop] if stop < len(tokens) else tokens[-1]
    start = first.end - len(_last_word(first)) if first.flags & BROKEN else first.start
    if behind.flags & BROKEN:
        return behind.start + len(behind.text) - len(_last_word(behind)) - 1 - start
    return tokens[stop - 1].end - start


def _last_word(token: Token) -> str:
    return token.text.rpartition(" ")[2]


def _is_forced(tokens: list[Token], line: tuple[int, int], following: int, width: int) -> bool:
    """Whether the first word of the next line would hardly have fitted into this."""
    last = following
    while last + 1 < len(tokens) and not tokens[last + 1].flags:
        last += 1
    if tokens[following].flags & BROKEN:
        return True
    word = tokens[last].end - tokens[following].start
    return _width(tokens, *line) + 3 + word + width // RAGGED > width


def _paragraph(tokens: list[Token], lines: list[tuple[int, int]]) -> Paragraph | None:
    """The lines as a paragraph; None where they are too many, or no sentence runs over a break."""
    begin, stop = lines[0][0], lines[-1][1]
    if stop - begin > MOST_WORDS:
        return None
    parted = sum(_parts_sentence(tokens, begin, at) for at, _ in lines[1:])
    if not parted:
        return None
    labelled = sum(begins_round(tokens, at, end) for at, end in lines[1:])
    return Paragraph(begin, stop, sure=len(lines) >= FEWEST_LINES and 3 * labelled < len(lines))


def _parts_number(tokens: list[Token], at: int) -> bool:
    """Whether the line break here parts a number, or `every other`, from its round: `Knit one / round`."""
    last, first = tokens[at - 1], tokens[at]
    counted = (
        first.kind == "round" and last.kind in ("number", "alternate") and tokens[at + 1].kind != "number"
    )
    return counted and not first.flags & (BLANK | FULL | COLON)


def _parts_sentence(tokens: list[Token], begin: int, at: int) -> bool:
    """Whether the line break here parts a sentence: a bracket, or words that belong together."""
    last, first = tokens[at - 1], tokens[at]
    if first.flags & BROKEN:
        return True
    if first.flags & (FULL | COLON):
        return False
    opened = sum((token.kind == "(") - (token.kind == ")") for token in tokens[begin:at])
    if opened > 0 or first.flags & (COMMA | SEMI) or first.kind in _CONTINUES or _parts_number(tokens, at):
        return True
    if last.kind == "round" and at > begin + 2 and tokens[at - 3].text in ("until", "till"):
        return True  # until the round / "* K. 1, K. 2 tog." has been worked
    return last.kind in _OPEN or last.text in _ARTICLES


_CONTINUES: Final = frozenset(
    ("stitch_noun", "times", "remain", "left", ")", "around", "before", "until", "to", "from", "last", "unit",
     "together", "more", "and", "with", "have")
)  # fmt: skip
"""Words that begin no sentence and no round."""
_OPEN: Final = frozenset(("repeat", "from", "to", "last", "and", "next", "until", "for", "each", "before"))
"""Words that end no sentence and no round."""
_ARTICLES: Final = frozenset(
    ("the", "a", "an", "of", "with", "on", "your", "this", "in", "by", "is", "are", "or", "having")
)


def flowing(tokens: list[Token], paragraph: Paragraph) -> list[Token]:
    """The tokens of a paragraph without its line breaks."""
    made = tokens[paragraph.begin : paragraph.stop]
    for place, token in enumerate(made[1:], start=1):
        if token.flags & LINE:
            ends = token.flags & (FULL | COLON)
            made[place] = replace(token, flags=token.flags & ~LINE if ends else token.flags & ~(LINE | STOP))
    return made
