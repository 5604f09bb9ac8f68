"""Ribs to a length that do not come out on the stitches there are: an error in the round, usual when worked flat."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors

IN_THE_ROUND = [
    (
        "en-US",
        "Cast on 90 sts and join in the round. Work 5 cm in 2x2 rib.\nRnd 1: *k7, k2tog; rep from * (80 sts).\n",
    ),
    (
        "de",
        "90 M anschlagen und zur Rd schließen. 5 cm im Rippenmuster 2/2 str.\n1. Rd: *7 M re, 2 M re zusstr* (80 M).\n",
    ),
    (
        "fr",
        "Monter 90 m, joindre en rond et tricoter 5 cm en côtes 2/2.\nTour 1 : *7 m end, 2 m ens end* (80 m).\n",
    ),
    (
        "es",
        "Montar 90 p y unir en redondo. Tejer 5 cm en elástico 2x2.\n1ª vuelta: *7 p der, 2 p juntos der* (80 p).\n",
    ),
    (
        "da",
        "Slå 90 m op, og saml til en ring. Strik 5 cm rib 2x2.\n1. omg: *7 r, 2 r sm*, gentag *-* (80 m).\n",
    ),
]


@pytest.mark.parametrize(("language", "text"), IN_THE_ROUND)
def test_in_the_round_two_stitches_are_left_over(language, text):
    findings = errors(read(text, (90,), language))
    assert [("left_over", 1)] == [(finding.code, finding.line) for finding in findings]
    assert "88" in findings[0].message


@pytest.mark.parametrize(("language", "text"), IN_THE_ROUND)
def test_on_two_stitches_fewer_it_comes_out(language, text):
    fewer = text.replace("90", "88").replace("7", "9", 1)
    assert [] == errors(read(fewer, (88,), language))


@pytest.mark.parametrize("flat", ["Do not join.", "Without joining, work flat.", "Join new yarn."])
def test_what_is_not_joined_in_the_round_is_no_error(flat):
    text = f"Cast on 90 sts. {flat} Work 5 cm in 2x2 rib.\nRow 1: *k7, k2tog; rep from * (80 sts).\n"
    assert [] == errors(read(text, (90,), "en-US"))


def test_flat_two_stitches_more_are_those_of_the_seam():
    text = "Cast on 82 sts. Work 4 cm in 2x2 rib.\nRow 1: k1, *k8, k2tog; rep from * 8 times in all, k1 (74 sts).\n"
    assert [] == errors(read(text, (82,), "en-US"))
