"""`Dec 1 st` as all the work of a round takes one stitch, in seven languages; within a repeat it is a stitch of it."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import counts, errors

ALONE = [
    ("en-US", "Next rnd: dec 1 st (79 sts).", [80, 79]),
    ("en-US", "Rnd 1: dec one stitch.", [80, 79]),
    ("en-US", "Inc 1 st in the next rnd.", [80, 81]),
    ("en-US", "Inc 1 st every 4th rnd 4 times.", [80, 81, 82, 83, 84]),
    ("en-US", "Dec 1 every rnd 4 times (76 sts).", [80, 79, 78, 77, 76]),
    ("en-US", "Next rnd: dec 1 st 8 times.", [80, 72]),
    ("en-US", "Next rnd: inc 1 st, 8 times.", [80, 88]),
    ("de", "Nächste Rd: 1 M abn.", [80, 79]),
    ("fr", "Tour suivant : dim 1 m.", [80, 79]),
    ("es", "Vuelta siguiente: dism 1 p.", [80, 79]),
    ("nb", "Neste omg: fell 1 m.", [80, 79]),
    ("da", "Næste omg: tag 1 m ind.", [80, 79]),
    ("nl", "Volgende toer: minder 1 st.", [80, 79]),
]
IN_REPEATS = [
    ("en-US", "Rnd 1: (k6, dec 1) around.", [80, 70]),
    ("en-US", "Rnd 1: k6, dec 1.", [80, 70]),
    ("en-US", "Rnd 1: *dec 1; rep from *.", [80, 40]),
    ("nb", "1. omg: *6 r, fell 1 m*, gjenta *-*.", [80, 70]),
    ("da", "1. omg: *6 r, tag 1 m ind*, gentag *-*.", [80, 70]),
]


@pytest.mark.parametrize(("language", "text", "wanted"), [*ALONE, *IN_REPEATS])
def test_a_change_of_one_stitch(language, text, wanted):
    reading = read(f"{text}\n", (80,), language)
    assert [] == errors(reading)
    assert wanted == counts(reading.rounds[0], 80)


def test_the_middle_beside_the_ends_of_needles_is_not_read():
    text = "Divide the sts on 4 needles. Rnd 1: k2tog at the beginning, middle and end of each needle.\n"
    assert ["not_understood"] == [finding.code for finding in errors(read(text, (80,), "en-US"))]
