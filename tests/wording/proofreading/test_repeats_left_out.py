"""A round whose repeat was left out is an error between two that have it, and is none among rounds that have none."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors

LEFT_OUT = [
    (
        "en-US",
        (
            "Rnd 1: *k7, k2tog; rep from * around (64 sts).\nRnd 2: knit.\nRnd 3: k6, k2tog (56 sts).\nRnd 4: knit.\n"
            "Rnd 5: *k5, k2tog; rep from * around (48 sts).\n"
        ),
    ),
    (
        "de",
        (
            "1. Rd: *7 M re, 2 M re zusstr, ab * stets wdh (64 M).\n2. Rd: re M.\n"
            "3. Rd: 6 M re, 2 M re zusstr (56 M).\n4. Rd: re M.\n"
            "5. Rd: *5 M re, 2 M re zusstr, ab * stets wdh (48 M).\n"
        ),
    ),
    (
        "fr",
        (
            "Tour 1 : *7 m end, 2 m ens end*, répéter de * à * (64 m).\nTour 2 : à l'endroit.\n"
            "Tour 3 : 6 m end, 2 m ens end (56 m).\nTour 4 : à l'endroit.\n"
            "Tour 5 : *5 m end, 2 m ens end*, répéter de * à * (48 m).\n"
        ),
    ),
    (
        "da",
        (
            "1. omg: *7 r, 2 r sm*, gentag *-* omg rundt = 64 m.\n2. omg: ret.\n3. omg: 6 r, 2 r sm = 56 m.\n"
            "4. omg: ret.\n5. omg: *5 r, 2 r sm*, gentag *-* omg rundt = 48 m.\n"
        ),
    ),
]
USUAL = [
    # told once, then in short
    "Rnd 1: *k7, k2tog; rep from * around (64).\nRnd 2: k6, k2tog (56).\nRnd 3: k5, k2tog (48).\n",
    "Rnd 1: k7, k2tog (64).\nRnd 2: k6, k2tog (56).\nRnd 3: k5, k2tog (48).\n",
    # said in another way
    "Rnd 1: *k7, k2tog; rep from * (64).\nRnd 2: k6, k2tog around (56).\nRnd 3: *k5, k2tog; rep from * (48).\n",
    "Rnd 1: *k7, k2tog; rep from * (64).\nRnd 2: (k6, k2tog) 8 times.\nRnd 3: *k5, k2tog; rep from * (48).\n",
    # other stitches than its neighbors
    "Rnd 1: *k2, p2tog; rep from * (54).\nRnd 2: k2tog, p1 (36).\nRnd 3: *k2tog; rep from * (18).\n",
]


@pytest.mark.parametrize(("language", "text"), LEFT_OUT)
def test_a_repeat_left_out_between_two_that_have_it(language, text):
    findings = errors(read(text, (72,), language))
    assert [("repeat_left_out", 3)] == [(finding.code, finding.line) for finding in findings]
    assert "8" in findings[0].message
    assert "64" in findings[0].message
    assert () == findings[0].edits


@pytest.mark.parametrize("text", USUAL)
def test_a_repeat_that_is_understood(text):
    assert [] == errors(read(text, (72,), "en-US"))
