"""Decreases at a place of the round that is not read are said so, in six languages; they never halve the round."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import counts, errors

UNREAD = [
    ("en-US", "Rnd 1: k2tog before the first marker."),
    ("en-US", "Rnd 1: k2tog after the second and fourth marker."),
    ("en-US", "Rnd 1: k2tog twice before the first marker."),
    ("en-US", "Rnd 1: k2tog in the middle of each needle."),
    ("en-US", "Rnd 1: k2tog at the four corners."),
    ("en-US", "Rnd 1: k2tog where the needles meet."),
    ("en-US", "Rnd 1: k2tog the first 2 sts of every 10."),
    ("en-US", "Rnd 1: dec 1 st in the middle of needle 2."),
    ("en-US", "Rnd 1: dec 2 sts on either side of the markers."),
    ("en-US", "Rnd 1: dec 4 sts in the middle of each needle."),
    ("de", "1. Rd: in der Mitte jeder Nadel 2 M re zusstr."),
    ("de", "1. Rd: vor der ersten Markierung 2 M re zusstr."),
    ("fr", "Tour 1 : 2 m ens end au milieu de chaque aiguille."),
    ("es", "Vuelta 1: menguar 1 p antes del primer marcador."),
    ("nb", "1. omg: 2 r sm midt på hver pinne."),
    ("da", "1. omg: tag 2 m ind på hver side af hver markør."),
]
READ = [
    ("Rnd 1: k2tog the whole way round.", 40),
    ("Rnd 1: k2tog in pairs all around.", 40),
    ("Rnd 1: k2tog at the end of the rnd.", 79),
    ("Divide the sts on 4 needles. Rnd 1: k2tog at the beginning and at the end of each needle.", 72),
    ("Place 4 markers, 20 sts apart. Rnd 1: k2tog before each marker.", 76),
    ("Rnd 1: k2tog, in the middle of each needle a marker is placed (40 sts).", 40),
    ("Rnd 1: k2tog with the larger needles.", 40),
    ("Change to larger needles and inc 8 sts at the same time.", 88),
    ("Change to larger needles and dec 1 st.", 79),
    ("Inc 8 sts in the first rnd and change to the larger needles.", 88),
    ("Inc 8 sts evenly in the first rnd with the larger needles.", 88),
    ("At the beginning of the crown dec 8 sts.", 72),
    ("On the first round after the edge inc 8 sts.", 88),
]


@pytest.mark.parametrize(("language", "text"), UNREAD)
def test_a_place_that_is_not_read(language, text):
    findings = errors(read(f"{text}\n", (80,), language))
    assert ["not_understood"] == [finding.code for finding in findings]


@pytest.mark.parametrize(("text", "after"), READ)
def test_a_place_that_is_read(text, after):
    reading = read(text, (80,), "en-US")
    assert [] == errors(reading)
    assert [80, after] == counts(reading.rounds[0], 80)
