"""Words before numbered rounds that tell the fabric and work nothing, and what looks like them and is worked."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, counts, number_of_rounds

ROUNDS = (
    "Rnd 1: *k2, p2tog* around (48 sts)\nRnds 2 and 3: *k2, p1* around\nRnd 4: *k2tog, p1* around (32 sts)"
)

HEADINGS = [
    "Crown in rib (you are in k2, p2)",
    "Ribbed crown, rib is K2, P2",
    "Crown, worked in K2, P2 rib:",
    "With 64 sts on needle in 16 repeats of [k2, p2], beg on a rib round:",
    "The rib is k2, p2.",
    "Rib pattern: k2, p2",
    "Shape crown, keeping the k2, p2 rib as long as you can",
    "You are working in k2, p2 rib.",
    "K2, P2 rib crown",
]


@pytest.mark.parametrize("heading", HEADINGS)
def test_a_heading_names_the_fabric_and_works_nothing(heading: str) -> None:
    """As many rounds as are numbered."""
    reading = read(f"{heading}\n{ROUNDS}", (64,))

    assert counts(reading) == [[64, 48, 32]]
    assert len(reading.rounds[0]) == 4


FABRICS = ["Mesh pattern", "MOSS STITCH", "The mesh pattern", "Ribbing", "Mesh pattern.", "Plain"]


@pytest.mark.parametrize("heading", FABRICS)
def test_a_fabric_named_on_a_line_of_its_own_is_told_in_the_rounds_below(heading: str) -> None:
    """No round is added between those of the brim and those that are numbered."""
    reading = read(f"Rnds 1-8: *K2, p2; rep from * to end.\n{heading}\n{ROUNDS}", (64,))

    assert not reading.findings
    assert len(reading.rounds[0]) == 12


WORKED = [
    ("Knit 1 round.", 1),
    ("Work 5 rnds in k2, p2 rib.", 5),
    ("Knit 5 rounds, purl 1 round.", 6),
    ("K one round.", 1),
    ("Knit.", 1),
]


@pytest.mark.parametrize(("work", "rounds"), WORKED)
def test_rounds_before_the_numbered_ones_are_worked(work: str, rounds: int) -> None:
    """What counts its rounds, or is a round, stands before the numbered ones."""
    reading = read(f"Cast on 64.\n{work}\n{ROUNDS}", (64,))

    assert len(reading.rounds[0]) == rounds + 4


def test_the_number_of_a_round_stands_behind_a_heading() -> None:
    """`shaping: rnd 1` is round 1, so that the rounds told later stand between."""
    text = "shaping: rnd 1 [k6, k2tog] x 8 [56]\nrnd 3 [k5, k2tog] x 8 [48]\nrnds 2, 4 knit"
    assert after_each_round(read(text, (64,))) == [56, 56, 48, 48]


def test_a_plain_round_ends_before_then() -> None:
    """`1 rnd plain, then k2tog around` are two rounds."""
    text = (
        "Decs: *k6, k2tog* around, 1 rnd plain, *k5, k2tog* around, 1 rnd plain, then k2tog around. 24 sts."
    )
    assert after_each_round(read(text, (64,))) == [56, 56, 48, 48, 24]


def test_what_a_count_is_made_of_is_no_repeat() -> None:
    """`91 sts, which is 7 x 13` is one round with one decrease."""
    reading = read(
        "Next round: k2tog, k to end. 91 sts, which is 7 x 13 for my pattern.\nKnit one round.", (92,)
    )

    assert after_each_round(reading) == [91, 91]


@pytest.mark.parametrize("heading", ["Crown in rib (thick yarn, 64 sts in k2, p2)", "Top (64 sts in k2, p2)"])
def test_a_heading_that_ends_in_the_count_and_its_rib_works_nothing(heading: str) -> None:
    reading = read(f"{heading}\n*k2, p2tog* around = 48 sts\n3 rnds *k2, p1*", (64,))

    assert after_each_round(reading) == [48, 48, 48, 48]


RIBBED = [
    ("en", "RIB HAT (k2, p2) - close the top", "*k2, p2tog* around (48 sts)"),
    ("en", "Ribbed hat, k2 p2 (64 sts). The top is shaped in rib:", "Round 1: k2, p2tog around (48 sts)"),
    ("en", "Beanie, k2, p2", "*k2, p2tog* around (48 sts)"),
    ("en", "Top (k2, p2): decreasing", "*k2, p2tog* around (48 sts)"),
    ("en", "Decreases (64 sts in rib k2, p2)", "Round 1: *k2, p2tog* (48 sts)"),
    ("da", "RIBHUE (2 r, 2 vr) - luk toppen", "*2 r, 2 vr sm* omg ud (48 m)"),
    ("da", "Hue i rib, 2 r, 2 vr (64 m). Toppen tages ind i rib:", "1. omg: 2 r, 2 vr sm omg ud (48 m)"),
    (
        "nb",
        "Vrangbordlue, 2 r 2 vr (64 m). Toppen felles i vrangbord:",
        "1. omg: 2 r, 2 vr sm omgangen ut (48 m)",
    ),
    ("nl", "Minderingen (64 st in boordsteek 2 r, 2 av)", "1e toer: *2 r, 2 av samenbr* = 48 st"),
    ("es", "Gorro en punto elástico (2 der, 2 rev)", "*2 der, 2 p juntos al rev* (48 p)"),
]


@pytest.mark.parametrize(("language", "heading", "work"), RIBBED)
def test_a_hat_named_with_its_rib_before_its_decreases_works_nothing(
    language: str, heading: str, work: str
) -> None:
    reading = read(f"{heading}\n{work}", (64,), language)

    assert not reading.findings
    assert after_each_round(reading) == [48]


def test_ribs_of_a_hat_are_worked_where_they_go_around_or_knit_rounds_follow() -> None:
    assert after_each_round(read("Hat, k2, p2 around\n*k2, p2tog* around", (64,))) == [64, 48]
    assert after_each_round(read("Hat, k2, p2\nWork 2 rounds\nKnit 1 round", (64,)))[:2] == [64, 64]


@pytest.mark.parametrize(
    "heading",
    [
        "Close the hat in k2, p2 rib (112 sts on the needle):",
        "Decreases in rib (k2, p2), 112 sts:",
        "Crown in k2, p2 rib, 112 sts:",
    ],
)
def test_a_heading_with_its_rib_and_count_is_no_round(heading: str) -> None:
    """The rounds begin below it; a sentence that works a round in rib is one."""
    assert number_of_rounds(read(f"{heading}\nRnd 1: *k2, p2tog; rep from * around (84 sts)", (112,))) == [1]
    worked = "Knit 1 rnd in k2, p2 rib.\nRnd 1: *k2, p2tog; rep from * around (84 sts)"
    assert number_of_rounds(read(worked, (112,))) == [2]


@pytest.mark.parametrize(
    "count", ["that is 10 sts", "that's 10 sts", "now 10 sts", "you have 10 stitches left"]
)
def test_a_stitch_with_its_count_is_a_round_and_no_entry_of_a_glossary(count: str) -> None:
    assert counts(read(f"k1, k2tog - 20 sts\nk2tog - {count}", (30,))) == [[30, 20, 10]]
    assert counts(read("k1, k2tog - 20 sts\nk2tog - knit 2 stitches together", (30,))) == [[30, 20]]
