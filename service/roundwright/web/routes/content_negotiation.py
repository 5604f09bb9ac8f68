"""Choosing the media type and the language of an answer by `Accept` and `Accept-Language` (RFC 9110, 12.5)."""

from collections.abc import Iterable
from typing import Final

from roundwright.language import ENGLISH, supported

MAX_ACCEPT: Final = 1_024
"""Characters of an `Accept` or `Accept-Language` that is parsed; browsers send about 150."""


def best_media_type(accept: str, media_types: Iterable[str]) -> str | None:
    """The media type of highest quality, the first of equals; None if `Accept` excludes all of them.

    The most specific range that matches a media type gives its quality. An empty `Accept` accepts everything; a part
    that is not a media range is ignored. An `Accept` longer than `MAX_ACCEPT` is ignored, as a server may do (RFC 9110,
    12.5.1).
    """
    if not accept.strip() or len(accept) > MAX_ACCEPT:
        accept = "*/*"
    ranges = [media_range for part in accept.split(",") if (media_range := _range(part)) is not None]
    chosen, highest = None, 0.0
    for media_type in media_types:
        quality = _quality_of(media_type, ranges)
        if quality > highest:
            chosen, highest = media_type, quality
    return chosen


def best_language(accept_language: str) -> str:
    """The language there is of highest quality, the first of equals; English without any, and for a long header.

    All English is `en-US` here: UK terms are chosen by a request, not by a browser.
    """
    if not accept_language or len(accept_language) > MAX_ACCEPT:
        return ENGLISH
    chosen, highest = ENGLISH, 0.0
    for part in accept_language.split(","):
        tag, _, parameter = part.partition(";")
        name, _, value = parameter.partition("=")
        quality = _quality(value.strip()) if name.strip().lower() == "q" else 1.0
        language = ENGLISH if tag.strip() == "*" else supported(tag.strip())
        if language is not None and quality > highest:
            chosen, highest = language, quality
    return ENGLISH if chosen.startswith("en") else chosen


def _range(part: str) -> tuple[str, str, float] | None:
    """Type, subtype and quality of a media range; None if the text is not a media range."""
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
    """A quality of 0 to 1 with up to three decimals (RFC 9110, 12.4.2); 1 if the text is not a quality."""
    whole, _, decimals = text.partition(".")
    if whole not in ("0", "1") or len(decimals) > MAX_DECIMALS or not (decimals or "0").isdecimal():
        return 1.0
    return min(float(text), 1.0)


MAX_DECIMALS: Final = 3


def _quality_of(media_type: str, ranges: list[tuple[str, str, float]]) -> float:
    kind, sub = media_type.partition(";")[0].split("/")
    for pattern in ((kind, sub), (kind, "*"), ("*", "*")):
        qualities = [quality for *names, quality in ranges if tuple(names) == pattern]
        if qualities:
            return max(qualities)
    return 0.0
