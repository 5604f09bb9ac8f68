"""The lines of a text, with those that run on joined."""

from collections.abc import Mapping
from itertools import takewhile
from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.labels import label
from roundwright.wording.reading.parsing.lines import Lines
from roundwright.wording.reading.sizes import NO_NAMES, columns_of
from roundwright.wording.reading.tokens import BLANK, COLON, COMMA, EQUALS, FULL, LINE, SEMI, STOP, TAB, Token

_RUNS_ON: Final = frozenset(
    ("to", "from", "last", "around", "times", ")", "before", "", "repeat", "end", "until")
)


LONGEST_LABEL: Final = 8
"""Words in a label that stands on a line of its own."""
_BEGIN_WORK: Final = frozenset(
    ("knit", "purl", "slip", "stitch", "stars", "(", "make", "plain", "rib", "even")
)
_CONNECTING: Final = frozenset(("and", "or", "with", "but", "until", "of", "which", "between", "without"))
"""Words with which a broken line of prose goes on."""


_OPEN: Final = frozenset(("repeat", "from", "to", "last", "and", "next", "until", "for"))


def lines_of(
    tokens: list[Token], most: int, names: Mapping[str, int] = NO_NAMES, *, begin: int = 0, stop: int = -1
) -> list[tuple[int, int]]:
    """First token and end of every line from `begin` to before `stop`, with lines that run on joined."""
    lines: list[tuple[int, int]] = []
    count = stop if stop >= 0 else len(tokens) - 1
    for place in range(begin + 1, count + 1):
        token = tokens[place]
        if token.flags & LINE or place == count:
            cut_off = bool(lines) and _is_cut_off(tokens, begin)
            runs_on = bool(lines) and _runs_on(tokens, lines[-1], begin, place)
            if lines and (
                _ends_in_label(tokens, begin) or _only_label(tokens, lines[-1], begin, place, names)
            ):
                lines[-1] = (lines[-1][0], place)
                tokens[begin] = replace(tokens[begin], flags=tokens[begin].flags & ~LINE)
            elif cut_off or (runs_on and not begins_round(tokens, begin, place, names)):
                lines[-1] = (lines[-1][0], place)
                if is_torn(tokens, begin):
                    tokens[begin] = replace(tokens[begin], flags=tokens[begin].flags & ~(LINE | STOP | TAB))
            else:
                if heading := _sizes_at_end(tokens, begin, place, names):
                    lines.append((begin, heading))
                    tokens[heading] = replace(tokens[heading], flags=tokens[heading].flags | LINE)
                    begin = heading
                lines.append((begin, place))
                if len(lines) > most:
                    break
            begin = place
    return lines if count > 0 else []


def _runs_on(tokens: list[Token], before: tuple[int, int], begin: int, stop: int) -> bool:
    """Whether a line goes on with what the one before began, unless it begins a round."""
    first = tokens[begin]
    if first.flags & BLANK or begin - before[0] > 400:
        return False
    last = tokens[begin - 1]
    next_round = first.flags & COLON and last.kind == "round" and tokens[begin - 2].kind == "next"
    if next_round or _explains(tokens, before[0], begin, stop):
        return True  # ABBREVIATIONS: k = knit; mm = / millimeters; p = purl
    if _connects(first, begin - before[0]) and not _is_labelled(tokens, begin, stop):
        return True
    opened = 0
    for place in range(max(before[0], begin - 60), begin):
        kind = tokens[place].kind
        opened += (kind == "(") - (kind == ")")
    if opened > 0 and first.kind != "stars":
        return True
    if first.flags & (FULL | COLON):
        return _is_end(tokens, before[0], begin)
    plain_last = last.kind == "last" and tokens[begin - 2].kind in ("plain", "even", "round")
    if last.kind in _OPEN and first.kind != "stars" and not plain_last:
        return True
    if first.flags & (COMMA | SEMI) or _dangles(tokens, begin):
        return True
    if (
        first.kind in _RUNS_ON
        and not _is_labelled(tokens, begin, stop)
        and not (first.kind == "repeat" and not _star_open(tokens, before[0], begin))
    ):
        return first.kind != "" or begin + 1 < stop
    return False


def _is_end(tokens: list[Token], before: int, begin: int) -> bool:
    """Whether a line is the end of the work before it: `k2tog at every marker. / Stop when 12 sts remain`.

    The last words before, back to a comma or full stop, have no end of their own.
    """
    counted = begin + 1
    while tokens[counted].kind in ("have", "only"):
        counted += 1
    if tokens[begin].kind != "until" or tokens[counted].kind != "number":
        return False
    place = begin - 1
    while place > before and not tokens[place].flags & (COMMA | FULL) and tokens[place].kind != "until":
        place -= 1
    return tokens[place].kind != "until"


def _is_labelled(tokens: list[Token], begin: int, stop: int) -> bool:
    """Whether a colon stands behind the first words of a line."""
    return any(tokens[at].flags & COLON for at in range(begin + 1, min(begin + MOST_OF_HEADING, stop)))


def _ends_in_label(tokens: list[Token], begin: int) -> bool:
    """Whether a line ends in the numbers of rounds that begin a sentence: `(96 sts). Rounds 5 and 6: / plain`."""
    flags = tokens[begin].flags
    if not flags & COLON or flags & BLANK or tokens[begin].kind not in _BEGIN_WORK:
        return False
    place = begin - 1
    while place > 0 and tokens[place].kind in _OF_NUMBERS:
        place -= 1
    return tokens[place].kind == "round" and bool(tokens[place].flags & FULL)


def _sizes_at_end(tokens: list[Token], begin: int, stop: int, names: Mapping[str, int]) -> int:
    """Where a line ends in the sizes that the next lines are for: `12 rnds knit. Adult only: / k4`; else 0."""
    if not names or not tokens[stop].flags & COLON or tokens[stop - 1].kind != "only":
        return 0
    first = next((at for at in range(stop - 1, begin, -1) if tokens[at].flags & FULL), 0)
    return first if first and columns_of(tokens, first, stop, names) is not None else 0


_OF_NUMBERS: Final = frozenset(("number", "and"))
"""Words that name rounds behind the word for them."""


def _connects(first: Token, words: int) -> bool:
    """Whether a line of prose begins with a word that connects it to so many words before: `without shaping`."""
    if first.flags & (FULL | COLON):
        return False
    plain = first.kind == "plain" and first.text.startswith("with")
    return plain or (first.text in _CONNECTING and words > FEWEST_CONNECTED)


MOST_OF_HEADING: Final = 6
"""Words before a colon: `With 4 mm needle: knit 36 rounds`."""
FEWEST_CONNECTED: Final = 8
"""Words of a line of prose that may go on in the next."""


def is_torn(tokens: list[Token], begin: int) -> bool:
    """Whether a sentence goes on over the end of the line before this word."""
    first = tokens[begin]
    if _is_cut_off(tokens, begin):
        return True
    if first.flags & FULL:
        return False
    without = first.kind == "plain" and first.text.startswith("with")  # `36 rounds / without shaping`
    rib = bool(first.flags & COMMA) and first.kind in ("knit", "purl")  # `rib 16 rounds, k. 1, / p. 1`
    goes_on = rib or first.text in _CONNECTING or first.kind in ("until", "to") or first.kind in _COUNTED
    return without or goes_on or _dangles(tokens, begin)


def _is_cut_off(tokens: list[Token], begin: int) -> bool:
    """Whether a line ends before what cannot begin one: `p.s.s.o., k. / 2; rep. from *`, `dec, / every rnd twice`.

    `Dec every rnd. / Continue until 8 sts remain` is a sentence as well.
    """
    first, last, behind = tokens[begin], tokens[begin - 1], tokens[begin + 1]
    if first.flags & COMMA and first.kind == "each" and not first.flags & BLANK:
        ahead = tokens[begin + 1 : begin + MOST_OF_OFTEN]
        sentence = takewhile(lambda token: not token.flags & (COLON | STOP | LINE), ahead)
        return any(token.kind in ("times", "often") for token in sentence)
    if last.kind == "round" and tokens[begin - 2].kind == "each" and not first.flags & BLANK:
        return "until" in (first.kind, behind.kind if first.kind == "continue" else "")
    parted = last.text in ("k", "p") and first.kind == "number" and not first.flags & (BLANK | COLON)
    return parted and bool(last.flags & COMMA or behind.flags & (COMMA | SEMI)) and begin > 1


MOST_OF_OFTEN: Final = 6
"""Words that say how often in which rounds, behind a comma: `decrease as set, / every other round 3 times`."""


def _dangles(tokens: list[Token], begin: int) -> bool:
    """Whether the line before this word breaks off: `repeat to end of`, `Knit` before `one round`."""
    first, last = tokens[begin], tokens[begin - 1]
    if first.flags & (BLANK | FULL | COLON):
        return False
    if _breaks_repeat(tokens, begin) or _goes_on_with_rounds(tokens, begin):
        return True
    if last.text in _REACHED and first.kind in ("(", "stars") and _reaches(tokens, begin):
        return True  # until you have worked / (k1, k2tog)
    if last.kind == "rib" and first.kind == "(" and _tells_rib(tokens, begin):
        return True  # Work 10 rounds of rib / (k1, p1)
    if first.kind == "number" and tokens[begin + 1].kind == "times":
        return last.kind in _BEFORE_TIMES  # `Work these 8 rounds / 4 times in all`
    if _lacks_work(tokens, begin):
        return True
    if last.text in _DANGLING or (last.kind == "number" and first.kind in _COUNTED):
        return True
    if last.kind not in ("knit", "purl") or first.kind != "number":
        return False
    return last.text in ("k", "p") or tokens[begin + 1].kind == "round"


def _breaks_repeat(tokens: list[Token], begin: int) -> bool:
    """Whether the words of a repeat are broken before this: `rep / from * around`, `rep from *, end / k2`."""
    first, last = tokens[begin], tokens[begin - 1]
    if last.kind == "from" and first.kind == "stars":
        return tokens[begin - 2].kind == "repeat"
    ends = last.text in ("end", "ending") and bool(last.flags & (COMMA | SEMI))
    return ends or (last.kind == "repeat" and first.kind == "from")


def _tells_rib(tokens: list[Token], begin: int) -> bool:
    """Whether a bracket tells the stitches of a rib: `(k2, p2)`, `(knit 1 and purl 1)`."""
    place = begin + 1
    kinds = set()
    while place < min(begin + LONGEST_RIB, len(tokens) - 1) and tokens[place].kind in _OF_RIB:
        kinds.add(tokens[place].kind)
        place += 1
    return tokens[place].kind == ")" and {"knit", "purl"} <= kinds and tokens[place + 1].kind != "times"


LONGEST_RIB: Final = 8
"""Words of a bracket that tells a rib."""
_OF_RIB: Final = frozenset(("knit", "purl", "number", "and", "stitch_noun"))


def _explains(tokens: list[Token], first: int, begin: int, stop: int) -> bool:
    """Whether a line goes on with a list of short forms: behind a sign, or with one near its beginning."""
    if tokens[first].kind != "told" or not tokens[first].text.startswith("abbrev"):
        return False
    signs = any(token.flags & EQUALS for token in tokens[begin : min(begin + MOST_TO_SIGN, stop)])
    return signs and not tokens[begin].flags & FULL


MOST_TO_SIGN: Final = 8
"""Words from the beginning of a line to the sign behind a short form."""


def _goes_on_with_rounds(tokens: list[Token], begin: int) -> bool:
    """Whether `work 20 rounds in` stands before this word, or rounds of another colour and an `and` or comma."""
    first, last = tokens[begin], tokens[begin - 1]
    if last.text == "in" and begin > 1 and tokens[begin - 2].kind == "round":
        return True  # work 20 rounds in / rib of k1, p1
    if first.kind != "number" or tokens[begin + 1].kind != "round":
        return False
    if not (last.kind == "and" or first.flags & COMMA):
        return False
    of_work = tokens[begin + 2].kind in ("stars", "(") or tokens[begin + 2].text == "of"
    before = tokens[max(0, begin - MOST_IN_COLOUR) : begin]
    return not of_work and any(
        token.kind == "round" for token in before
    )  # 6 rounds dark and / 6 rounds light


MOST_IN_COLOUR: Final = 5
"""Words from `rounds` to the end of a line: `6 rounds in dark wool and`."""


def _names_round(last: Token, before: Token) -> bool:
    """Whether a line ends with words to which a round belongs: `on every alternate`, `every`, `every 4th`."""
    return last.kind in ("alternate", "each") or (
        before.kind == "each" and last.kind in ("ordinal", "following")
    )


def _ends_in_every(last: Token) -> bool:
    """Whether a line ends with a word that says which rounds: `every`, `on each`."""
    return last.kind == "each" or last.text.endswith((" every", " each"))


def _lacks_work(tokens: list[Token], begin: int) -> bool:
    """Whether a line lacks what the next has: the fabric of rounds, the work of the next one, or a count."""
    first, last, before = tokens[begin], tokens[begin - 1], tokens[begin - 2]
    if first.kind == "(" and _counts_and_goes_on(tokens, begin):
        return True  # every 4th round 3 more times / (84 sts), then
    if first.kind == "round" and tokens[begin + 1].kind != "number" and _names_round(last, before):
        return True  # on every alternate / round
    if first.kind in ("alternate", "ordinal") and tokens[begin + 1].kind == "round" and _ends_in_every(last):
        return True  # on every / alternate round
    if last.kind != "round":
        return False
    if before.kind == "number":
        return _is_fabric(tokens, begin)  # work 12 rounds / k2, p2 rib
    next_begun = before.kind == "next" and bool(before.flags & STOP)
    return next_begun and first.kind in _BEGIN_WORK  # knit 3 rounds. Next round / knit every 5th and 6th st


def _counts_and_goes_on(tokens: list[Token], begin: int) -> bool:
    """Whether a line begins with a count in a bracket and the sentence goes on behind it: `(84 sts), then`."""
    if begin + 4 >= len(tokens) or tokens[begin + 1].kind != "number":
        return False
    closes = begin + 2 + (tokens[begin + 2].kind == "stitch_noun")
    goes_on = tokens[closes + 1].flags & COMMA and not tokens[closes + 1].flags & LINE
    return tokens[closes].kind == ")" and bool(goes_on)


def _is_fabric(tokens: list[Token], begin: int) -> bool:
    """Whether a line begins with the fabric of so many rounds, and heads nothing: `rib`, `k2, p2 rib`, `in st st`."""
    first = tokens[begin]
    if tokens[begin + 1].flags & (COLON | LINE) and first.kind == "rib":
        return False
    if first.kind == "ratio" and tokens[begin + 1].kind == "rib":
        return True
    if first.kind in ("rib", "stocking") or (first.kind == "in" and tokens[begin + 1].kind in _FABRICS):
        return True
    ahead = tokens[begin : begin + MOST_IN_RIB]
    crafts = [token.kind for token in ahead if token.kind in ("knit", "purl")]
    return len(crafts) > 1 and crafts[:2] == ["knit", "purl"] and any(token.kind == "rib" for token in ahead)


MOST_IN_RIB: Final = 6
"""Words that name a rib by its stitches: `k2, p2 rib`, `k 2 p 2 rib`."""
_FABRICS: Final = frozenset(("rib", "stocking", "knit", "purl", "ratio"))
"""What stands behind `in` where so many rounds are of that fabric: `in rib`, `in k2, p2 rib`, `in 2x2 rib`."""


def _reaches(tokens: list[Token], begin: int) -> bool:
    """Whether `until` stands shortly before the end of a line."""
    return any(token.kind == "until" for token in tokens[max(0, begin - MOST_REACHED) : begin])


MOST_REACHED: Final = 6
"""Words from `until` to the end of a line that says what is worked."""
_REACHED: Final = frozenset(("worked", "done", "knitted", "reached", "finished", "completed"))
_BEFORE_TIMES: Final = ("round", "stars", ")")
"""What may stand at the end of a line before how often it is worked."""
_COUNTED: Final = ("stitch_noun", "times", "round", "unit", "together")
"""What a number counts that stands at the end of a line."""
_DANGLING: Final = frozenset(("of", "the", "a", "an", "with", "by", "at", "your"))


def _only_label(
    tokens: list[Token], before: tuple[int, int], begin: int, stop: int, names: Mapping[str, int]
) -> bool:
    """Whether a line is no more than the number of a round, and the work stands in the next."""
    if (
        tokens[begin].flags & BLANK
        or begin - before[0] > LONGEST_LABEL
        or tokens[begin].kind not in _BEGIN_WORK
    ):
        return False
    line = Lines(tokens, *before, names=names)
    line_label = label(line)
    if line_label is None or line_label.kind not in ("numbered", "next") or line.place < before[1]:
        return False
    return not begins_round(tokens, begin, stop, names)


def _star_open(tokens: list[Token], begin: int, stop: int) -> bool:
    stars = sum(tokens[place].kind == "stars" for place in range(begin, stop))
    return stars == 1


def begins_round(tokens: list[Token], begin: int, stop: int, names: Mapping[str, int] = NO_NAMES) -> bool:
    """Whether a line begins with a label."""
    return label(Lines(tokens, begin, stop, names=names)) is not None
