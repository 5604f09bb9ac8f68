"""Which of the forms an answer can be given in suits a caller best (RFC 9110, 12.5.1)."""

from collections.abc import Iterable
from typing import Final

LONGEST: Final = 1_024
"""Characters of an `Accept` that is heeded: browsers send some 150."""


def best(accept: str, forms: Iterable[str]) -> str | None:
    """The form of highest quality to the caller, the first of several; none where all are refused.

    The most specific range that covers a form decides. An `Accept` that says nothing accepts everything; a part of it
    that is no media range is passed over. A longer `Accept` than is heeded is taken for none: a server may disregard
    the field and answer in a form of its choice (RFC 9110, 12.5.1).
    """
    if not accept.strip() or len(accept) > LONGEST:
        accept = "*/*"
    ranges = [found for part in accept.split(",") if (found := _range(part)) is not None]
    chosen, highest = None, 0.0
    for form in forms:
        quality = _quality_of(form, ranges)
        if quality > highest:
            chosen, highest = form, quality
    return chosen


def _range(part: str) -> tuple[str, str, float] | None:
    """Type, subtype and quality of one media range; None for what is none."""
    media, *parameters = part.lower().split(";")
    kind, slash, sub = media.strip().partition("/")
    if not slash or not kind or not sub or "/" in sub or len(media.split()) != 1:
        return None
    for parameter in parameters:
        name, _, value = parameter.partition("=")
        if name.strip() == "q":
            return kind, sub, _quality(value.strip())
    return kind, sub, 1.0


def _quality(text: str) -> float:
    """A quality as RFC 9110, 12.4.2 has it: 0 to 1 with up to three decimals; what is none counts as 1."""
    whole, _, decimals = text.partition(".")
    if whole not in ("0", "1") or len(decimals) > MOST_DECIMALS or not (decimals or "0").isdecimal():
        return 1.0
    return min(float(text), 1.0)


MOST_DECIMALS: Final = 3


def _quality_of(form: str, ranges: list[tuple[str, str, float]]) -> float:
    kind, sub = form.partition(";")[0].split("/")
    for wanted in ((kind, sub), (kind, "*"), ("*", "*")):
        qualities = [quality for *covered, quality in ranges if tuple(covered) == wanted]
        if qualities:
            return max(qualities)
    return 0.0
