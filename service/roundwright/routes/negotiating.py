"""Which of the forms an answer can be given in suits a caller best (RFC 9110, 12.5.1)."""

import re
from collections.abc import Iterable
from typing import Final

_RANGE: Final = re.compile(r"\s*([^\s/;,]+)/([^\s/;,]+)\s*((?:;[^,]*)?)")
_QUALITY: Final = re.compile(r";\s*q\s*=\s*(0(?:\.[0-9]{0,3})?|1(?:\.0{0,3})?)\s*(?:;|\Z)", re.IGNORECASE)


def best(accept: str, forms: Iterable[str]) -> str | None:
    """The form of highest quality to the caller, the first of several; none where all are refused.

    The most specific range that covers a form decides. An `Accept` that says nothing accepts everything; a part of it
    that is no media range is passed over.
    """
    if not accept.strip():
        accept = "*/*"
    ranges = [(kind.lower(), sub.lower(), _quality(rest)) for kind, sub, rest in _RANGE.findall(accept)]
    chosen, highest = None, 0.0
    for form in forms:
        quality = _quality_of(form, ranges)
        if quality > highest:
            chosen, highest = form, quality
    return chosen


def _quality(parameters: str) -> float:
    said = _QUALITY.search(parameters)
    return float(said[1]) if said else 1.0


def _quality_of(form: str, ranges: list[tuple[str, str, float]]) -> float:
    kind, sub = form.partition(";")[0].split("/")
    for wanted in ((kind, sub), (kind, "*"), ("*", "*")):
        qualities = [quality for *covered, quality in ranges if tuple(covered) == wanted]
        if qualities:
            return max(qualities)
    return 0.0
