"""Ribs by their names (common practice): single rib is k1, p1, double rib is k2, p2."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import after_each_round, faults, number_of_rounds


@pytest.mark.parametrize(
    ("rib", "right", "wrong"), [("single", 70, 71), ("double", 72, 70), ("Double", 72, 70)]
)
@pytest.mark.parametrize(
    "line", ["Work in {} rib for 12 rounds.", "{} rib 12 rounds.", "Work 12 rounds of {} rib."]
)
def test_a_rib_comes_out_on_a_multiple_of_its_columns(line: str, rib: str, right: int, wrong: int) -> None:
    """Two stitches a repeat in single rib, four in double rib."""
    text = f"{line.format(rib)}\nKnit 20 rounds."

    assert not read(text, (right,)).findings
    assert [finding.code for finding in errors(read(text, (wrong,)))] == ["left_over"]


def test_a_rib_told_in_words_beside_its_name_is_that_rib() -> None:
    """Its stitches are worked to the end of the round."""
    reading = read("Work 4 rounds of double rib (k2, p2).", (72,))

    assert not reading.findings
    assert number_of_rounds(reading) == [4]


@pytest.mark.parametrize(
    "line",
    [
        "Twisted Rib: *K1 tbl, p1; rep from * to end.\nWork 12 rounds of Twisted Rib.",
        "Twisted rib (multiple of 2 sts): *k1 tbl, p1*.\nCast on 88 sts.\nTwisted rib for 12 rounds.",
        "Rib pattern: *k1, p1* around.\nWork in rib pattern for 12 rounds.",
        "Brim\n: Rib: *k1, p1* around.\nWork 12 rounds of rib.",
        "Broken rib = *k1 tbl, p1* to end.\nRounds 1-12: Work in broken rib.",
        "Rib: *k1, p1* around.\nWork 11 more rounds of rib.",
        "Rib: *k1, p1* around.\nContinue in rib for 11 rounds.",
    ],
)
def test_a_rib_is_told_and_then_worked_by_its_name(line: str) -> None:
    """Twelve rounds in all.

    The line that tells the rib is a round itself only where the next says “more” or “continue”.
    """
    assert number_of_rounds(read(f"{line}\nKnit 6 rounds.", (88,))) == [18]


def test_a_rib_that_is_only_told_has_to_come_out() -> None:
    """Four stitches do not go into 90."""
    text = "Twisted Rib: *K2 tbl, p2; rep from * to end.\nWork 12 rounds of Twisted Rib."

    assert ("left_over", 1) in faults(read(text, (90,)))


NARROWED = [
    (
        "en",
        (
            "Work 2 rnds k3, p2 rib.\nP2tog in every purl rib = 80 sts.\n"
            "K3, p1 around.\nK2tog in each knit rib = 60 sts."
        ),
    ),
    (
        "en",
        (
            "Work 2 rnds k3, p2 rib.\nNext rnd: work in rib, dec 1 st in each purl section (80 sts).\n"
            "Next rnd: k3, p1 around.\nNext rnd: ssk in all knit sections (60 sts)."
        ),
    ),
    (
        "nb",
        (
            "Strikk 2 omg vrangbord 3 r, 2 vr.\nStrikk de 2 vr m vr sammen i alle vr-ribbene = 80 m.\n"
            "Strikk 1 omg med 3 r, 1 vr.\nStrikk de 2 første r m i hver r-ribbe r sammen = 60 m."
        ),
    ),
    (
        "da",
        (
            "Strik 2 omg rib 3 r, 2 vr.\nStrik de 2 vr m vr sm i alle vr-ribber = 80 m.\n"
            "Strik 1 omg med 3 r, 1 vr.\nStrik de 2 første r m i hver r-ribbe r sammen = 60 m."
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), NARROWED)
def test_every_rib_of_a_sort_is_narrowed_by_a_stitch(language: str, text: str) -> None:
    """A hundred stitches are 20 repeats of 5, which have 4 stitches each and then 3."""
    assert after_each_round(read(text, (100,), language)) == [100, 100, 80, 80, 60]


ALTERNATE = [
    ("en", "P2tog in every other purl rib.\n2 rnds in pattern.\nP2tog in the remaining purl ribs."),
    (
        "en",
        "P2tog in every second purl rib = 84 sts.\nRib for 2 rnds.\nP2tog in the other purl ribs = 72 sts.",
    ),
    (
        "de",
        (
            "Aus jedem zweiten Paar linker M eine M machen (2 M li zus.) – 84 M.\n2 Runden im Muster.\n"
            "Ebenso bei den übrigen linken Paaren – 72 M."
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), ALTERNATE)
def test_every_second_rib_is_narrowed_and_then_the_others(language: str, text: str) -> None:
    """Of 24 purl ribs 12 have a stitch less, and then the other 12."""
    rib = {"en": "K2, p2 rib for 2 rounds", "de": "2 Rd im Rippenmuster 2 M re, 2 M li"}[language]
    assert after_each_round(read(f"{rib}.\n{text}", (96,), language)) == [96, 96, 84, 84, 84, 72]


@pytest.mark.parametrize("ribs", ["P2tog in every third purl rib", "K2tog in every knit rib except the last"])
def test_not_every_rib_is_not_every_rib(ribs: str) -> None:
    """A decrease in some of the ribs only does not narrow all 21 of them."""
    reading = read(f"K2, p2 rib for 10 rounds.\n{ribs}.", (84,), "en")
    *rib, narrowed = after_each_round(reading)
    assert rib == [84] * 10
    assert narrowed > 63


SHAPED_IN_RIB = [
    ("en", "Crown in rib: *k2tog, p2* around. (36)\nWork 1 rnd in rib."),
    ("en", "Crown in garter: *k2tog, k2* around.\n1 rnd in garter."),
    ("da", "Toppen tages ind i rib: *2 r sm, 2 vr* omg rundt.\n1 omg rib."),
    ("de", "Krone im Rippenmuster: *2 M re zusstr, 2 M li* wdh.\n1 Rd im Rippenmuster."),
]


@pytest.mark.parametrize(("language", "text"), SHAPED_IN_RIB)
def test_a_round_that_decreases_behind_the_name_of_a_rib_is_worked(language: str, text: str) -> None:
    """The crown is shaped in rib, and no rib is explained."""
    assert after_each_round(read(text, (48,), language)) == [36, 36]


@pytest.mark.parametrize(
    "rib", ["Twisted rib: *k1 tbl, p1*", "Rib: *k2, p2* around", "Lace rib: *yo, k2tog, p2*"]
)
def test_a_rib_that_keeps_the_count_is_only_told(rib: str) -> None:
    """It is worked where its rounds are counted."""
    assert after_each_round(read(f"{rib}.\n3 rounds of rib.", (48,))) == [48, 48, 48]
