"""A pattern proofread: executed for all its sizes, with everything that is wrong and how to put it right."""

from typing import Annotated, ClassVar, Final

from msgspec import Meta, Struct

from roundwright.knitting.answers import COMMON_PRACTICE, RULES, Basis, LanguageTag, Notice, RulesVersion
from roundwright.knitting.hat.request import MOST_SIZES
from roundwright.knitting.rounds.round import LONGEST_TEXT, MOST_ROUNDS, MOST_STITCHES, Round
from roundwright.language import say
from roundwright.wording.proofreading.findings import MOST_FINDINGS, Finding
from roundwright.wording.proofreading.line import MOST_LINES_TOLD, Line


class ProofreadRequest(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A pattern in words, to be worked and checked."""

    cast_on: Annotated[
        tuple[Annotated[int, Meta(ge=1, le=MOST_STITCHES)], ...],
        Meta(
            min_length=1,
            max_length=MOST_SIZES,
            description="Stitches on the needles before the first round, one count for each size, in the order of the "
            "pattern. Some of the sizes of a pattern will do if its text says what to cast on.",
            examples=[[64, 72, 80]],
        ),
    ]
    text: Annotated[
        str,
        Meta(
            max_length=LONGEST_TEXT,
            description="The pattern as printed, or a part of it that has rounds. Headings and prose are passed over.",
            examples=["Rnd 1: *k6, k2tog; rep from * (56)"],
        ),
    ]
    language: LanguageTag = None
    language_is_of_text: ClassVar[bool] = True
    """So that it is never filled in from `Accept-Language`: a German may send an English pattern."""


class ProofreadAnswer(Struct, frozen=True, kw_only=True):
    """The rounds of a pattern as executed, and what was found."""

    rules: RulesVersion = RULES
    language: Annotated[
        str,
        Meta(
            description="The language in which the text was read: as the request has it, or as its words tell. `en` "
            "where it was not read in any other."
        ),
    ]
    rounds: Annotated[
        tuple[Annotated[tuple[Round, ...], Meta(max_length=MOST_ROUNDS)], ...],
        Meta(
            max_length=MOST_SIZES,
            description="For each size the rounds as executed, in order. A line that does not use exactly the stitches "
            "there are is left out: it stands in `findings`, and the next round goes on with the count the pattern "
            "goes on with.",
        ),
    ]
    findings: Annotated[
        tuple[Finding, ...],
        Meta(
            max_length=MOST_FINDINGS, description="What is wrong or worth knowing, in the order of the lines."
        ),
    ]
    lines: Annotated[
        tuple[Line, ...],
        Meta(
            max_length=MOST_LINES_TOLD,
            description="The lines of the text that are not blank, in order, each with the rounds it stands for and "
            "its counts: the sheet an editor makes.",
        ),
    ]
    repaired: Annotated[
        str | None,
        Meta(description="The whole text with the best edit of each finding made; null where there is none."),
    ]
    basis: Annotated[tuple[Basis, ...], Meta(description="What the answer rests on.")]
    warnings: Annotated[tuple[Notice, ...], Meta(description="What to mind.")] = ()


_BASIS: Final = (
    Basis(say("find.basis.comes_out"), "arithmetic"),
    Basis(
        say("find.basis.stitches"),
        "Craft Yarn Council standards, list of knitting abbreviations; common book lists",
    ),
    Basis(
        say("find.basis.brackets"),
        "Craft Yarn Council standards, list of knitting abbreviations",
    ),
    Basis(
        say("find.basis.repeats"),
        COMMON_PRACTICE,
    ),
)


def proofread(request: ProofreadRequest) -> ProofreadAnswer:
    """The pattern worked for every size, and its findings. Every text is answered; none raises."""
    from roundwright.wording.proofreading.read import (
        read,  # needed by patterns only, so no start waits for it
    )

    reading = read(request.text, request.cast_on, request.language)
    return ProofreadAnswer(
        language=reading.language,
        rounds=reading.rounds,
        findings=reading.findings,
        lines=reading.lines,
        repaired=reading.repaired,
        basis=_BASIS,
        warnings=reading.notices,
    )
