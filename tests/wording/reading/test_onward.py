"""A crown that goes on in words nobody foresaw is read by the count at which it ends."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import after_each_round

SO_FAR = """Rnd 1: *k6, k2tog; rep from * around. 56 sts
Rnd 2: knit.
Rnd 3: *k5, k2tog; rep from * around. 48 sts
Rnd 4: knit.
"""


@pytest.mark.parametrize(
    "words",
    [
        "Go on like this, each wedge a stitch narrower whenever you decrease, until 16 stitches are on the needles.",
        "Keep going in the same way, always leaving the markers where they hang, until you count (16).",
        "Repeat ever so, with one stitch fewer between, until 16 stitches stay.",
        "And so on in this manner, minding the count, until 16 remain.",
        "Carry on the same way, always knitting the plain round loosely, until 16 sts remain.",
    ],
)
def test_what_goes_on_is_read_to_the_count_it_names(words):
    """Four more rounds of eight decreases, whatever else the sentence says."""
    reading = read(SO_FAR + words + "\nNext rnd: k2tog around. 8 sts\n", (64,))

    assert [56, 48, 40, 32, 24, 16, 8] == sorted({*after_each_round(reading)}, reverse=True)


def test_what_goes_on_without_a_count_ends_where_the_plain_stitches_do():
    """One stitch plain between the decreases, then none: the round after it decides."""
    words = "And keep going like that till it is nearly closed\nNext rnd: k2tog around. 8 sts\n"
    reading = read(SO_FAR + words, (64,))

    assert 8 == after_each_round(reading)[-1]


def test_what_goes_on_the_wrong_way_is_not_read():
    """A crown that decreases does not come to more stitches: the line says that it never ends."""
    reading = read(SO_FAR + "Go on like this, whatever the weather, until you have 60 stitches.\n", (64,))

    assert ["never_ends"] == [finding.code for finding in errors(reading)]
