"""Stitches together after every so many, a decrease so often with plain rounds between, and old wordings."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, faults

AFTER_EVERY = [
    ("nb", "Etter hver 7. m strikkes 2 m r sm = 64 m.\nEtter hver 6. m strikkes 2 m r sm = 56 m.", [64, 56]),
    ("nb", "Strikk 2 m rett sm etter hver 7. m; det er nå 64 m. Strikk 1 omg rett.", [64, 64]),
    ("nb", "På neste omg øker du 1 m etter hver 6. m, så du får 84 m.", [84]),
    ("da", "Strik 2 m ret sm. efter hver 7. m; der er nu 64 m. Strik 1 omg ret.", [64, 64]),
    ("da", "På næste omg tager du 1 m ud efter hver 6. m, så du får 84 m.", [84]),
    (
        "en",
        "After every 7th st k2tog - 64 sts - 1 rnd straight\nAfter every 6th st k2tog - 56 sts",
        [64, 64, 56],
    ),
    ("en", "After every seventh stitch, knit 2 together (64 sts).", [64]),
    ("de", "Nach jeder 7. M 2 M re zus = 64 M.", [64]),
]
BETWEEN = [
    (
        "nb",
        (
            "Del omgangen i 6 deler à 12 m. Strikk 2 m sm på slutten av hver del. "
            "Gjør dette 3 ganger med 2 rette omganger imellom, dernest 2 ganger med 1 glat omgang imellom."
        ),
        [66, 66, 66, 60, 60, 60, 54, 54, 48, 48, 42],
    ),
    (
        "da",
        (
            "Del omgangen i 6 felter à 12 m. Strik 2 m sm i slutningen af hvert felt. "
            "Dette gøres i alt 3 gange med 2 omgange imellem hver gang, så 2 gange med 1 omgang imellem, 42 m."
        ),
        [66, 66, 66, 60, 60, 60, 54, 54, 48, 48, 42],
    ),
    (
        "en",
        (
            "Place a marker every 12 sts. K2tog at the end of each section. "
            "Dec in this manner 3 times in all with 2 plain rnds between."
        ),
        [66, 66, 66, 60, 60, 60, 54],
    ),
    (
        "da",
        (
            "Der er 18 Masker paa hver af de 4 Pinde. "
            "Paa hver Pind strikkes de 2 første Masker sammen og ligeledes de 2 sidste; "
            "paa næste Omgang tages ikke ind.\n"
            "Disse 2 Omgange gentages, til der ialt er strikket 4 saadanne Omgange."
        ),
        [64, 64, 56, 56],
    ),
]
NAMED = [
    (
        "en",
        "Dec rnd: k2tog before each of 8 markers.\nRnd 1: dec rnd - 64 sts\nRnd 2: knit\nRnd 3: dec rnd - 56 sts",
    ),
    (
        "da",
        (
            "Indtagningsomgang: strik 2 r sm før hvert af de 8 mærker.\n"
            "Omg 1: indtagningsomgang – 64 m\nOmg 2: ret\nOmg 3: indtagningsomgang – 56 m"
        ),
    ),
]
ROWS = [
    (
        "da",
        "72 m · 6 omg rib 2/2 · 10 omg ret\nIndt. 1: (7 r, 2 sm) x 8 = 64 m\nIndt. 2: (6 r, 2 sm) x 8 = 56 m",
        18,
    ),
    ("en", "72 sts · 6 rnds 2x2 rib · 10 rnds st st\n(k7, k2tog) 8 times = 64 sts · knit 1 rnd", 18),
]


def tag(language: str) -> str:
    """The language as the service names it."""
    return "en-US" if language == "en" else language


@pytest.mark.parametrize(("language", "text", "counts"), [*AFTER_EVERY, *BETWEEN])
def test_a_round_is_worked_as_often_as_told(language: str, text: str, counts: list[int]) -> None:
    """After every so many stitches, and with so many plain rounds between."""
    reading = read(text, (72,), tag(language))
    assert not faults(reading)
    assert after_each_round(reading) == counts


@pytest.mark.parametrize(("language", "text"), NAMED)
def test_a_count_behind_a_dash_does_not_make_a_heading(language: str, text: str) -> None:
    """`Rnd 5: dec rnd - 64 sts` works the decrease round."""
    assert after_each_round(read(text, (72,), tag(language))) == [64, 64, 56]


@pytest.mark.parametrize(("language", "text", "rounds"), ROWS)
def test_rounds_stand_between_dots(language: str, text: str, rounds: int) -> None:
    """Dots within a line part its works, and none is passed over."""
    assert len(after_each_round(read(text, (72,), tag(language)))) == rounds


def test_a_number_of_decreases_in_a_row_is_so_many_together() -> None:
    """`9 indtagninger i træk` works nine decreases."""
    assert after_each_round(read("Omg 1: 9 indtagninger i træk. 9 m.", (18,), "da")) == [9]
