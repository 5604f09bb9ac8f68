"""Stars around whole rounds: a round of decreases and the plain ones behind it, again and again."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round

STARRED = [
    (
        "en",
        "8 markers.\n*Dec 1 st before each marker. Work 1 rnd straight.* Rep from * to * 2 times in all = 64 sts.",
    ),
    ("en", "8 markers.\n*Dec 1 st before each marker. Knit 1 rnd.* Repeat from * to * once more."),
    ("en", "8 markers.\n*Dec 1 st before each marker. Knit 1 rnd.* 2 times."),
    ("en", "8 markers.\n*K2tog after each marker = 72 sts. Knit 1 rnd.* Work this 2 times in all = 64 sts."),
    (
        "de",
        "8 MM einsetzen.\n* Immer nach dem MM 2 M re zus-str = 72 M. 1 Rd re. * Dies 2 Mal, dann sind es 64 M.",
    ),
    (
        "nb",
        "Sett 8 merker.\n*Fell 1 m før hvert merke. Strikk 1 omgang uten felling.* Gjenta *-* i alt 2 ganger.",
    ),
    ("da", "Sæt 8 mærker.\n*Strik 2 r sm før hvert mærke. Strik 1 omg r.* Gentag *-* i alt 2 gange."),
]


@pytest.mark.parametrize(("language", "text"), STARRED)
def test_rounds_between_stars_are_repeated_with_their_plain_rounds(language: str, text: str) -> None:
    assert after_each_round(read(text, (80,), language)) == [72, 72, 64, 64]


STITCHES = [
    "Rnd 1: *k8, k2tog*, repeat from * to *. Rnd 2: knit.",
    "Rnd 1: *k8, k2tog. K8, k2tog*, repeat from * to * around. Rnd 2: knit.",
]


@pytest.mark.parametrize("text", STITCHES)
def test_stitches_between_stars_are_repeated_in_their_round(text: str) -> None:
    assert after_each_round(read(text, (80,), "en")) == [72, 72]


@pytest.mark.parametrize("behind", ["3 times.", "Rep from * to * 3 times in all."])
def test_all_rounds_between_the_stars_are_repeated(behind: str) -> None:
    """Three rounds, of which two are plain."""
    text = f"Place 7 markers evenly.\n*K2tog before each marker. Knit 2 rnds.* {behind}"

    assert after_each_round(read(text, (84,))) == [77, 77, 77, 70, 70, 70, 63, 63, 63]
