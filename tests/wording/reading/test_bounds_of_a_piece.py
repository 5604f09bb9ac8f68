"""What a piece and a number of a text cost is bounded, however long a stranger makes them."""

import pytest

from roundwright.knitting.rounds.round import MOST_STITCHES
from roundwright.wording.reading.passed_over import MOST_LETTERS
from roundwright.wording.reading.scanner import scan
from roundwright.wording.reading.vocabulary import LONGEST_WORD, nearest
from tests.long.asking import Service


def test_a_long_word_is_like_no_stitch():
    """The nearest spelling is looked for as far as any word is long, and no further."""
    assert nearest("k2togg".ljust(LONGEST_WORD, "g")) is not None
    assert nearest("k2tog")
    assert [] == nearest("k2tog" + "g" * LONGEST_WORD)


@pytest.mark.parametrize("digits", ["1000001", "9" * 5_000])
def test_a_number_is_no_more_than_there_may_be_stitches(digits):
    """A number of thousands of digits is read as the most stitches there may be, from its first eight digits."""
    (token,) = (token for token in scan(f"k {digits}", 1).tokens if token.kind == "number")

    assert (MOST_STITCHES,) == token.number.values


@pytest.mark.parametrize(
    "line", ["the {}th rnd: k8", "Rnd {}: knit", "k8 ({}, {}) sts", "knit {}cm", "Rnds {}-{}: knit"]
)
def test_no_place_of_a_number_is_a_fault(line):
    """Wherever a number of 9,000 digits stands, the text is answered."""
    text = line.format("9" * 9_000, "9" * 9_000)
    body = f'{{"cast_on": [8], "text": "{text}"}}'.encode()

    assert 200 == Service().ask("POST", "/v1/patterns/proofread", body=body).status


def test_a_piece_passed_over_is_looked_through_to_a_bound():
    """Counts are looked for in as many letters of prose as four lines have."""
    assert 400 == MOST_LETTERS
