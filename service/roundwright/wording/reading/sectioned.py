"""Rounds that are worked alike in every section or on every needle."""

from roundwright.wording.reading.phrases import Extent, Needlewise, Phrase


def in_each(phrase: Phrase) -> bool:
    """Whether it says that a round is worked alike in every section."""
    return isinstance(phrase, Needlewise) or (isinstance(phrase, Extent) and phrase.every)
