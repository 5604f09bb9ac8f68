"""What every answer has: rules, basis, notices, cautions; and the error for what cannot be knitted."""

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Annotated, Any, Final, Literal

from msgspec import UNSET, Meta, Struct, to_builtins

from roundwright.language import Message, listed, say

RULES: Final = "2026-11-28"
"""Date of the formulas and tables in force. A change that alters any answer moves it."""

COMMON_PRACTICE: Final = say("common_practice")
"""The source of a rule that the whole trade follows and nobody in particular published."""

RulesVersion = Annotated[
    str,
    Meta(
        description="Date of the formulas and tables this answer was calculated with (YYYY-MM-DD).",
        extra_json_schema={"format": "date"},
    ),
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


ImpossibleCode = Literal[
    "not_given", "needs_another", "given_twice", "contradiction", "cannot_be_worked", "out_of_range", "too_many",
    "not_there", "does_not_divide", "no_room", "cannot_be_drawn", "does_not_come_out",
]  # fmt: skip

IMPOSSIBLE_CODES: Final[dict[ImpossibleCode, str]] = {
    "not_given": "nothing says what is needed",
    "needs_another": "a field goes with another that is missing",
    "given_twice": "two fields say the same",
    "contradiction": "two fields contradict each other",
    "cannot_be_worked": "hands cannot work it in this way",
    "out_of_range": "smaller or larger than anything knitted",
    "too_many": "more than an answer holds",
    "not_there": "a round, size or part that the work does not have",
    "does_not_divide": "no count fits the multiple, the sections or the needles",
    "no_room": "too few stitches or rounds for it",
    "cannot_be_drawn": "it can be knitted, and no picture shows it",
    "does_not_come_out": "a round or a line uses other stitches than there are",
}
"""Why something cannot be knitted, in families."""


class Suggestion(Struct, frozen=True):
    """A change of a request that cannot be knitted, which takes the fault away."""

    pointer: Annotated[
        str, Meta(description="JSON pointer to the field to change, as a fragment; `#` alone is the body.")
    ]
    value: Annotated[Any, Meta(description="The value to put there; null leaves the field out.")]


class Impossible(Exception):
    """A well-formed request that cannot be knitted.

    `code` is the family of the reason, `pointer` names the field as a JSON pointer (`#/gauge/stitches`), `detail` is
    what is wrong in a knitter's words, `nearest` is the nearest thing that works, as an instruction. `suggested` is a
    value as in JSON that, put at `suggested_at` (usually the pointer), takes this fault away; None leaves the field
    out. `also` are further faults of the same request, of other sizes.
    """

    def __init__(
        self,
        detail: str,
        *,
        code: ImpossibleCode,
        pointer: str = "#",
        nearest: str | None = None,
        suggested: object = UNSET,
        suggested_at: str | None = None,
    ) -> None:
        super().__init__(detail)
        self.detail = detail
        self.code = code
        self.pointer = pointer
        self.nearest = nearest
        self.suggestion = None if suggested is UNSET else Suggestion(suggested_at or pointer, suggested)
        self.also: tuple[Impossible, ...] = ()


def only_one(
    request: Struct,
    *names: str,
    what: str,
    pointer: str = "#",
    missing_at: str | None = None,
    nearest: str | None = None,
    goes_with: Mapping[str, Sequence[str]] = MappingProxyType({}),
) -> str:
    """The name of the field that is given, where exactly one of `names` must be.

    `what` names their meaning in the error, `pointer` is the object they belong to. Raises `Impossible` for more than
    one, and for none: then it points at `missing_at`, with `nearest`.
    """
    field = at_most_one(request, *names, what=what, pointer=pointer, goes_with=goes_with)
    if field is None:
        raise Impossible(
            say("given.not_given", what=what, fields=_listed(names)),
            code="not_given",
            pointer=missing_at or pointer,
            nearest=nearest or f"`{names[0]}`",
        )
    return field


def at_most_one(
    request: Struct,
    *names: str,
    what: str,
    pointer: str = "#",
    goes_with: Mapping[str, Sequence[str]] = MappingProxyType({}),
) -> str | None:
    """The name of the field that is given, or None, where at most one of `names` may be; `Impossible` for more.

    The suggestion keeps the first. Where more than one field has to go for it, it is the whole object without them:
    what else says the same, and fields that belong to that (`goes_with` has the names that such a field goes with).
    """
    fields = [name for name in names if getattr(request, name) is not None]
    if len(fields) > 1:
        kept, second, *_ = fields
        unwanted = fields[1:] + [name for name, ways in goes_with.items() if kept not in ways]
        given = {
            name: value for name, value in to_builtins(request, enc_hook=str).items() if value is not None
        }
        rest = {name: value for name, value in given.items() if name not in unwanted}
        is_alone = len(given) - len(rest) == 1
        raise Impossible(
            say("given.twice", what=what, fields=_listed(fields)),
            pointer=f"{pointer}/{second}",
            nearest=say("given.alone", field=kept),
            code="given_twice",
            suggested=None if is_alone else rest,
            suggested_at=None if is_alone else pointer,
        )
    return fields[0] if fields else None


def _listed(names: Sequence[str]) -> Message:
    return listed([f"`{name}`" for name in names])
