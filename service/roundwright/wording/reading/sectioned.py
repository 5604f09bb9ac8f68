"""Rounds that are worked alike in every section or on every needle."""

from roundwright.wording.reading.phrases import Extent, Needlewise, Phrase


def in_each(phrase: Phrase) -> bool:
    """Whether it says that a round is worked alike in every section."""
    return type(phrase) is Needlewise or (type(phrase) is Extent and phrase.every)
