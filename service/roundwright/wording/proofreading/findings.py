"""What is found wrong with a pattern, or worth knowing about it, in a knitter's words."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Annotated, Final, Literal

from msgspec import Meta, Struct

from roundwright.knitting.hat.request import MOST_SIZES
from roundwright.knitting.rounds.round import LONGEST_TEXT, MOST_STITCHES
from roundwright.language import say, say_count

MOST_FINDINGS: Final = 100
"""Findings in one answer: whoever has more mends these first."""
MOST_EDITS: Final = 3
"""Edits of one finding that are as good as one another."""

Severity = Literal["error", "note"]


class Kind(Struct, frozen=True):
    """A kind of finding: how grave it is, and its test, what is the case where it is found."""

    severity: Severity
    test: str


KINDS: Final[Mapping[str, Kind]] = MappingProxyType({
    # what cannot be knitted as written
    "left_over": Kind("error", "A line works fewer stitches than there are."),
    "repeat_left_out": Kind("error", "A line between two that are repeated does not say that it is."),
    "runs_out": Kind("error", "A line works more stitches than there are."),
    "count_differs": Kind("error", "A line leaves another count than is printed, or than the next rounds go on with."),
    "wrong_way": Kind("error", "A line adds stitches and its printed count is lower, or the other way round."),
    "cast_on_differs": Kind("error", "The text casts on another count than is asked for, or than its rounds need."),
    "unknown_word": Kind("error", "A word stands where a stitch should be, and is none."),
    "not_understood": Kind("error", "A line looks like work and is not read."),
    "bracket": Kind("error", "A bracket is not opened or not closed, or is closed by one of another kind."),
    "too_deep": Kind("error", "Repeats stand within more repeats than are followed."),
    "no_star": Kind("error", "A line repeats from a star that it does not have."),
    "never_ends": Kind("error", "A repeat never comes to the count or the end it is worked to."),
    "too_many_stitches": Kind("error", "A line has more stitches than are worked."),
    "sizes_differ": Kind("error", "A list has numbers for another number of sizes than the pattern has."),
    "no_such_round": Kind("error", "A line works rounds again that are not there."),
    "too_long": Kind("error", "A line or the text is longer than is read."),
    "too_many_rounds": Kind("error", "There are more lines or rounds than are read."),
    "no_rounds": Kind("error", "No line is read as a round."),
    # what can be, and is worth knowing
    "round_missing": Kind("note", "Numbers of rounds are left out; an error where they followed one another."),
    "round_twice": Kind("note", "A round number is given twice."),
    "ambiguous": Kind("note", "A line can be read in two ways, or by markers or a rib that nobody told of."),
    "to_a_length": Kind("note", "A line is worked to a length, or from a chart."),
    "too_many_findings": Kind("note", "There are more findings than are told."),
    # what an editor asks about
    "rhythm_broken": Kind("note", "A decrease round of a steady crown is unlike the others."),
    "closing_count": Kind("note", "The closing names another count than is left."),
    "list_differs": Kind("note", "A list outside the rounds is for another number of sizes than the cast-on."),
    "sizes_not_growing": Kind("note", "A count does not grow from size to size as the others do."),
    "not_a_multiple": Kind("note", "A size is cast on with a count that the rib or the crown does not come out on."),
    "rib_shifted": Kind("note", "In a rib, knits stand over purls."),
    "girth_differs": Kind("note", "The finished circumference is not the cast-on at this gauge."),
    "length_differs": Kind("note", "So many rounds are not as long, at this gauge, as is said."),
    "units_differ": Kind("note", "A length in inches is not the one in centimetres beside it."),
    "needle_differs": Kind("note", "A US needle size is not the metric one beside it."),
    "split_differs": Kind("note", "The stitches named for the needles do not add up to those there are."),
    "abbreviation_not_explained": Kind("note", "A stitch is used that the list of abbreviations does not explain."),
    "abbreviation_not_used": Kind("note", "An abbreviation is explained and not used."),
    "terms_mixed": Kind("note", "US and UK terms stand in one text."),
    "flat_words": Kind("note", "Rows, a seam or a wrong side are spoken of in work in the round."),
    "count_not_printed": Kind("note", "Some shaping lines of a part have their count printed, and this has none."),
})  # fmt: skip
"""Every code there is. From this table the schema's list of codes is made."""

Offset = Annotated[
    int, Meta(ge=0, le=LONGEST_TEXT, description="Characters (Unicode code points) before it in the text.")
]
LineNumber = Annotated[int, Meta(ge=1, le=LONGEST_TEXT + 1, description="Line of the text, from 1.")]
Column = Annotated[int, Meta(ge=1, le=LONGEST_TEXT + 1, description="Column in that line, from 1.")]
Code = Annotated[
    str,
    Meta(description="What is found, as a stable word.", extra_json_schema={"enum": list(KINDS)}),
]
Gravity = Annotated[
    Severity,
    Meta(description="`error` where the pattern cannot be knitted as written, `note` where it can."),
]
Size = Annotated[
    Annotated[int, Meta(ge=1, le=MOST_SIZES)] | None,
    Meta(description="Which size, as its place in `cast_on` from 1; null where it holds for all."),
]


class Position(Struct, frozen=True, kw_only=True):
    """A place in the text: between two characters, before the first or behind the last."""

    offset: Offset
    line: LineNumber
    column: Column


class Remaining(Struct, frozen=True, kw_only=True):
    """A finding that there still is when an edit is made."""

    line: LineNumber
    code: Code
    severity: Gravity
    size: Size = None


class Edit(Struct, frozen=True, kw_only=True):
    """Other words in place of those from `start` to `end`, with which a line comes out."""

    start: Annotated[Position, Meta(description="Before the first character that goes.")]
    end: Annotated[
        Position, Meta(description="Behind the last character that goes; `start` where none does.")
    ]
    replacement: Annotated[
        str, Meta(max_length=LONGEST_TEXT, description="What to put there instead; it may be empty.")
    ]
    leaves: Annotated[
        Annotated[tuple[Remaining, ...], Meta(max_length=MOST_FINDINGS)] | None,
        Meta(
            description="The findings of the text with this edit made: it is read again for it, and where the edit "
            "is of the cast-on, worked from that. Null where the text and its edits are too long for that."
        ),
    ]


class Finding(Struct, frozen=True, kw_only=True):
    """Something about a pattern that is wrong, or worth knowing."""

    line: LineNumber
    column: Column
    code: Code
    severity: Gravity
    size: Size = None
    stitches: Annotated[
        Annotated[int, Meta(ge=-MOST_STITCHES, le=MOST_STITCHES)] | None,
        Meta(
            description="How many stitches too many (above 0: left over at the end of the round, or more than the "
            "pattern says) or too few (below 0); null where it is not about a count."
        ),
    ] = None
    message: Annotated[str, Meta(description="The same in a sentence for the knitter.")]
    repair: Annotated[
        str | None,
        Meta(
            description="The line as it comes out, to paste in place of the one in the text: the smallest change that "
            "was found, proved by working it. Null where none was found."
        ),
    ] = None
    edits: Annotated[
        tuple[Edit, ...],
        Meta(
            max_length=MOST_EDITS,
            description="The changes that mend it, the best first; several where several are as good.",
        ),
    ] = ()


def stitches(count: int) -> str:
    """So many stitches: `1 stitch`, `2 stitches`, and no more than a million told."""
    if abs(count) > MOST_STITCHES:
        return say("find.more_stitches", most=MOST_STITCHES)
    return say_count("stitches", count)
