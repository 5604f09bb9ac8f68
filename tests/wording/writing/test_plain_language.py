"""Rounds in sentences, for beginners."""

import pytest

from roundwright.knitting.rounds.round import Repeat, Work
from roundwright.knitting.rounds.work_round import work_round
from roundwright.language import ENGLISH_WORDS
from roundwright.wording.writing.plain_language import plain_sentences


@pytest.mark.parametrize(
    ("stitches", "steps", "sentences"),
    [
        (8, (Work("k", 8),), "Knit every stitch."),
        (12, (Repeat(3, (Work("k", 2), Work("k2tog"))),),
         "* Knit 2 stitches. Knit two together. Repeat from * to the end of the round."),
        (7, (Repeat(3, (Work("k2tog"),)), Work("k")),
         "* Knit two together. Repeat from * to the last stitch. Knit 1 stitch."),
    ],
)  # fmt: skip
def test_a_round_is_told_one_action_a_sentence(stitches: int, steps: tuple, sentences: str) -> None:
    """Abbreviations are spelled out, and a repeat ends at the last stitches of an odd count (common practice)."""
    assert plain_sentences(work_round(1, stitches, steps).steps, ENGLISH_WORDS) == sentences
