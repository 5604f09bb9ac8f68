"""What every answer has: rules, basis, notices, cautions; and the error for what cannot be knitted."""

from collections.abc import Sequence
from typing import Annotated, Final

from msgspec import Meta, Struct

from roundwright.language import Message, listed, say

RULES: Final = "2026-11-26"
"""Date of the formulas and tables in force. A change that alters any answer moves it."""

COMMON_PRACTICE: Final = "common practice"
"""The source of a rule that the whole trade follows and nobody in particular published."""

RulesVersion = Annotated[
    str, Meta(description="Date of the formulas and tables this answer was calculated with (YYYY-MM-DD).")
]


class Basis(Struct, frozen=True):
    """A rule or table that an answer is based on."""

    rule: Annotated[str, Meta(description="The rule, formula or table, in words.")]
    source: Annotated[str, Meta(description="Its published source, or the words `common practice`.")]


class Notice(Struct, frozen=True, kw_only=True):
    """A warning that goes with a correct answer."""

    code: Annotated[str, Meta(description="What the warning is about, as a stable word.")]
    message: Annotated[str, Meta(description="The same in a sentence for the knitter.")]
    pointer: Annotated[
        str | None, Meta(description="JSON pointer to the field of the request that caused it.")
    ] = None


LONGEST_TAG: Final = 35
"""Characters of a tag of a language, as BCP 47 has them at most in practice (RFC 5646, 4.4.1)."""
LanguageTag = Annotated[
    Annotated[str, Meta(max_length=LONGEST_TAG)] | None,
    Meta(
        description="Language of the text, as a tag (BCP 47): `en` or a language that has a table of words in "
        "`/v1/standards`, such as `de`; a region changes nothing. Another one is read as English, with a warning. Left "
        "out: found from the words."
    ),
]


class Caution(Struct, frozen=True):
    """A usual caution for a child's hat. Local rules and licensed advice come first."""

    code: Annotated[str, Meta(description="What it is about, as a stable word.")]
    message: Annotated[
        str,
        Meta(description="The caution, a sentence; all of an answer one after the other are a paragraph."),
    ]
    source: Annotated[str, Meta(description="The rule or recommendation it comes from.")]


class Impossible(Exception):
    """A well-formed request that cannot be knitted.

    `pointer` names the field as a JSON pointer (`#/gauge/stitches`), `detail` is what is wrong in a knitter's
    words, `nearest` is the nearest thing that works, as an instruction.
    """

    def __init__(self, detail: str, *, pointer: str = "#", nearest: str | None = None) -> None:
        super().__init__(detail)
        self.detail = detail
        self.pointer = pointer
        self.nearest = nearest


def only_one(
    request: Struct,
    *names: str,
    what: str,
    pointer: str = "#",
    missing_at: str | None = None,
    nearest: str | None = None,
) -> str:
    """The name of the field that is given, where exactly one of `names` must be.

    `what` names their meaning in the error, `pointer` is the object they belong to. Raises `Impossible` for more than
    one, and for none: then it points at `missing_at`, with `nearest`.
    """
    field = at_most_one(request, *names, what=what, pointer=pointer)
    if field is None:
        raise Impossible(
            say("given.not_given", what=what, fields=_listed(names)),
            pointer=missing_at or pointer,
            nearest=nearest or f"`{names[0]}`",
        )
    return field


def at_most_one(request: Struct, *names: str, what: str, pointer: str = "#") -> str | None:
    """The name of the field that is given, or None, where at most one of `names` may be; `Impossible` for more."""
    fields = [name for name in names if getattr(request, name) is not None]
    if len(fields) > 1:
        raise Impossible(
            say("given.twice", what=what, times=len(fields), fields=_listed(fields)),
            pointer=f"{pointer}/{fields[1]}",
            nearest=say("given.alone", field=fields[0]),
        )
    return fields[0] if fields else None


def _listed(names: Sequence[str]) -> Message:
    return listed([f"`{name}`" for name in names])
