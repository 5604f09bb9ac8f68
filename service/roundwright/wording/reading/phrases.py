"""The phrases of a line: the smallest runs of words that mean something by themselves.

`k2`, `[...]`, `4 times`, `rep from *`, `to last 2 sts`, `56 sts rem`, `for 5 ins`. What a phrase says about those
before it is settled in `settle`. Every word belongs to a phrase; one that says nothing is a `Said`.

Ask what a phrase is by `type(phrase) is Count`, or `in` a frozenset: no kind has kinds of its own, and of structs
`isinstance` takes six times as long where the answer is no.
"""

from typing import Final, TypeGuard

from msgspec import Struct

from roundwright.knitting.rounds.round import StitchName
from roundwright.wording.reading.tree import Node, Number

TOLD_ABOVE: Final = -1
"""The segments of rounds worked again that are all those told just above under labels of one kind."""
FROM_THERE: Final = -2
"""The segments of rounds worked again that are all those of this part from the round named on."""
IN_TURN: Final = -3
"""For `segments`: the last round, or the last two, where those are shaped and plain in turn."""
NOT_GIVEN: Final = frozenset(("mentioned", "given", "listed", "described", "shown", "specified", "named"))
"""Words behind `not` for rounds that are told nowhere."""
ALL_OTHERS: Final = "all others"
"""The text of `all other rounds`."""


class Phrase(Struct, frozen=True, gc=False):
    """What all phrases have: where they stand, and what stands before them."""

    start: int
    end: int
    flags: int


class Stitches(Phrase, frozen=True, gc=False):
    """Something that is worked on some stitches: `k2`, `k2tog`, `dec 8 sts evenly`."""

    node: Node


class Brackets(Phrase, frozen=True, gc=False):
    """`[...]`, `(...)`."""

    inside: "tuple[Phrase, ...]"


class Star(Phrase, frozen=True, gc=False):
    """`*`, `**`."""

    level: int


class PassOver(Phrase, frozen=True, gc=False):
    """`psso`."""


class Rep(Phrase, frozen=True, gc=False):
    """`rep from *`, `rep from * to **`, `rep`: `level` stars, up to `to` stars; 0 where it names none."""

    level: int = 0
    to: int = 0
    copy: bool = False


class Times(Phrase, frozen=True, gc=False):
    """`4 times`, `twice more`, `x 4`; `reached` of `until 4 dec rnds have been worked`."""

    number: Number
    more: bool = False
    total: bool = False
    word: bool = False
    reached: bool = False


class Partly(Phrase, frozen=True, gc=False):
    """`and its first 3 sts again`."""

    number: Number


class Extent(Phrase, frozen=True, gc=False):
    """`around`, `to last 2 sts`, with `marker` `to 2 sts before m`; `to` of `to the end`, and not of `around`.

    `purl`: the column of purl stitches is the marker, `to next purl st`.
    """

    leave: Number | None
    marker: bool = False
    every: bool = False
    to: bool = False
    purl: bool = False


class Until(Phrase, frozen=True, gc=False):
    """`until 8 sts remain`, `to 72 sts`; `per` of `until each wedge has 2 sts`."""

    number: Number
    per: bool = False


class UntilRound(Phrase, frozen=True, gc=False):
    """`until you have worked (k1, k2tog)`: up to a round of these stitches, with `plain` plain rounds behind it."""

    nodes: tuple[Node, ...]
    plain: int = 0


class Length(Phrase, frozen=True, gc=False):
    """`for 5 ins`, `until piece measures 12 cm`."""


class Rounds(Phrase, frozen=True, gc=False):
    """`5 rnds`, `a round`; with `every` `every rnd`; `step` of `every other rnd`; `plain` of `1 round plain`.

    `steps`: that of each size, where they are told so, `every 4th (5th) rnd`.

    `from_start`: those of the whole hat so far count among them, `until 40 rounds have been worked from the cast-on`.
    `on_them`: they are worked in, `on next and foll 2 alt rnds`, `often` (None: not said), `at_once` from the next on.
    """

    number: Number
    every: bool = False
    step: int = 0
    steps: Number | None = None
    more: bool = False
    plain: bool = False
    from_start: bool = False
    on_them: bool = False
    often: Number | None = None
    at_once: bool = False


class Fabric(Phrase, frozen=True, gc=False):
    """`rib`, `st st`, `in pattern`, `even`; `nodes` are the stitches it names: `2x2 rib`."""

    kind: str
    nodes: tuple[Node, ...] = ()


class Again(Phrase, frozen=True, gc=False):
    """`rep rnds 1 and 2`, `as rnd 3`, `the last 2 rnds`: those `named`, the `last`, or those of the last `segments`."""

    named: tuple[int, ...] = ()
    last: int = 0
    work: bool = False
    segments: int = 0


class Count(Phrase, frozen=True, gc=False):
    """`56 sts`, `(56)`, `= 56`, `6 sts decreased`; `sure` where nothing else can be meant."""

    number: Number
    sign: int = 0
    sure: bool = True


class Change(Phrase, frozen=True, gc=False):
    """`decreasing`, without saying how many."""

    sign: int


class LastRound(Phrase, frozen=True, gc=False):
    """`up to and including Round 20`: the number of the last of several rounds."""

    number: Number


class Continue(Phrase, frozen=True, gc=False):
    """`continue`, `in this manner`; `manner` of the second."""

    manner: bool = False


class CastOn(Phrase, frozen=True, gc=False):
    """`cast on 64 (72, 80) sts`."""

    number: Number


class Closing(Phrase, frozen=True, gc=False):
    """`cut yarn`, `bind off`, the `cord` at the top; what follows it in the sentence is told."""

    bind_off: bool = False
    cord: bool = False


class Chart(Phrase, frozen=True, gc=False):
    """`chart`."""


class Then(Phrase, frozen=True, gc=False):
    """`then`."""


class Markers(Phrase, frozen=True, gc=False):
    """`8 markers`."""

    number: Number


class PerPart(Phrase, frozen=True, gc=False):
    """`14 sts per needle`, `20 sts on each`; `needle` where it is needles that are named."""

    number: Number
    needle: bool = False


class Needlewise(Phrase, frozen=True, gc=False):
    """`on each needle`, `on each of 4 needles`, `in every section`."""

    number: Number | None = None
    needle: bool = False
    """Whether it is on needles."""


class AtEnds(Phrase, frozen=True, gc=False):
    """`at the end of each section`, `at both ends of every needle`: where a decrease is made, and which."""

    first: bool
    last: bool
    together: StitchName | None = None
    needle: bool = False
    """Whether they are those of needles."""


class EndsPlain(Phrase, frozen=True, gc=False):
    """`ending with a plain round`."""


class EndsShaped(Phrase, frozen=True, gc=False):
    """`ending with a decrease round`, `which comes after a narrowing round`."""


class EndsAt(Phrase, frozen=True, gc=False):
    """`ending with Rnd 1`, of rounds that are worked again."""

    number: Number


class BeginAt(Phrase, frozen=True, gc=False):
    """`begin at rnd 5 (3, 1)`."""

    number: Number


class Odd(Phrase, frozen=True, gc=False):
    """`if odd`."""


class Said(Phrase, frozen=True, gc=False):
    """What changes nothing: `words` of it are unknown; `text` where it is one word, `needles` the number of those."""

    words: int = 0
    text: str = ""
    needles: Number | None = None


class Every(Phrase, frozen=True, gc=False):
    """`placing a marker every 8 sts`."""

    number: Number


BEFORE_EACH: Final = "before each"
"""What is said where something is done before each decrease."""
FIRST_ROUND: Final = "first round"
"""The text of the words that name the first of some rounds: `decreasing 8 sts in the first round`."""
LAST_ROUND: Final = "last round"
"""The text of those that name the last of them: `increasing 8 sts in the last round`."""


def opened(phrase: Phrase) -> tuple[Phrase, ...]:
    """A phrase, or those in it where it is a bracket."""
    return phrase.inside if type(phrase) is Brackets else (phrase,)


def is_silent(phrase: Phrase) -> bool:
    """Whether it is a word that says nothing: the `and` of `k3 and k2tog`."""
    return type(phrase) is Said and not phrase.words


def is_of_last_round(phrases: tuple[Phrase, ...]) -> bool:
    """Whether words name the last of some rounds: `increasing 8 sts in the last round`."""
    return any(type(phrase) is Said and phrase.text == LAST_ROUND for phrase in phrases)


def is_bracketed_count(phrase: Phrase) -> bool:
    """Whether it is a count in a bracket."""
    return type(phrase) is Brackets and all(type(inner) is Count for inner in phrase.inside)


OF_ALL: Final = frozenset(
    ("in all", "in total", "total", "total of", "for a total of", "makes a total of", "altogether", "all together",
     "all told")
)  # fmt: skip
"""Words that say that a number of rounds is that of all of them."""


def is_of_all(phrase: Phrase) -> bool:
    """Whether it says that a number of rounds is that of all of them: `in all`, `a total of`."""
    return type(phrase) is Said and phrase.text in OF_ALL


def names_parity(phrase: Phrase) -> bool:
    """Whether it speaks of every second round by its number: `on odd rounds`, `even-numbered`."""
    return type(phrase) is Said and phrase.text in _PARITIES


_PARITIES: Final = frozenset(("odd", "even", "odd-numbered", "even-numbered"))
"""Words for every other one of the rounds that are numbered: `Rnds 7-15: on odd rnds, dec as set`."""


def names_rib(phrase: Phrase) -> TypeGuard[Fabric]:
    """Whether a rib is named: `k2, p2 rib`, `2x2 rib`."""
    return type(phrase) is Fabric and phrase.kind in ("rib", "ratio")


def is_once_more(phrase: Phrase | None) -> bool:
    """Whether it is the word that says once more: `again` of `knit 1 round and decrease again`."""
    return type(phrase) is Times and phrase.word and phrase.number.values == (1,)


def shapes_once_more(phrases: tuple[Phrase, ...]) -> bool:
    """Whether it is shaped once more as before, behind plain rounds that are told: `Knit 1 rnd. Decrease again.`."""
    match phrases:
        case [Continue(manner=True), often, *_]:
            return is_once_more(often)
        case _:
            return False


def is_until_rounds(phrase: Phrase | None) -> bool:
    """Whether it is the number of rounds that are worked in all: `until 40 rounds have been worked`.

    The parser makes a bracket of it that is not printed.
    """
    return (
        type(phrase) is Brackets
        and bool(phrase.inside)
        and all(type(inner) is Rounds and inner.start == phrase.start for inner in phrase.inside)
    )


def counts_of(phrase: Phrase) -> tuple[Count, ...]:
    """The counts that a phrase is, in brackets or not: `56 sts`, `(56 sts)`, `(56, 48)`; empty where it is others."""
    inside = phrase.inside if type(phrase) is Brackets else (phrase,)
    counts = tuple([inner for inner in inside if type(inner) is Count])
    return counts if len(counts) == len(inside) else ()
