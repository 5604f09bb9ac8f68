"""Decreases told of the whole round in one breath: on both sides of every marker, at every so many stitches."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round

BOTH_SIDES = [
    "k2tog before each of the 7 markers and skp after each marker",
    "k2tog before and skp after each of the 7 markers",
    "k2tog before and skp after each marker",
    "k2tog before each of the 7 markers and skp after each one",
    "k2tog before each marker and skp after it",
    "k2tog before and after each marker",
    "dec 1 st each side of each marker",
    "dec 1 st on each side of each marker",
    "decrease 1 stitch on both sides of every marker",
    "dec one stitch either side of each of the markers",
    "dec 1 st on each side of the markers",
    "dec 1 stitch on both sides of all 7 markers",
    "k2tog on each side of all the marked stitches",
]


@pytest.mark.parametrize("decreases", BOTH_SIDES)
def test_each_side_of_a_marker_is_worked(decreases: str) -> None:
    """Seven markers take fourteen stitches, whatever words tell it; nothing but the words says how many."""
    text = f"Place 7 markers, 14 sts apart.\nRnd 1: {decreases}.\nRnd 2: knit."
    assert after_each_round(read(text, (98,))) == [84, 84]


@pytest.mark.parametrize(
    ("decreases", "left"), [("k2tog before each marker", 91), ("k2tog before each of the 7 markers", 91)]
)
def test_one_side_of_a_marker_is_worked(decreases: str, left: int) -> None:
    """Where one side is told, one stitch goes at each marker."""
    text = f"Place 7 markers, 14 sts apart.\nRnd 1: {decreases}."
    assert after_each_round(read(text, (98,))) == [left]


IN_FRENCH_AND_SPANISH = [
    (
        "es",
        "Vta 1: 2 p juntos der antes de cada uno de los 7 marcadores y un surjete simple después de cada uno.",
    ),
    ("es", "Vta 1: disminuir 1 punto a cada lado de cada marcador."),
    ("fr", "Tour 1 : 2 m ens avant et 1 surjet simple après chaque marqueur."),
    ("fr", "Tour 1 : diminuer 1 m de part et d'autre de chaque marqueur."),
]


@pytest.mark.parametrize(("language", "text"), IN_FRENCH_AND_SPANISH)
def test_each_side_of_a_marker_is_worked_in_french_and_spanish(language: str, text: str) -> None:
    """The same of 7 markers in other languages."""
    markers = {"es": "Colocar 7 marcadores cada 14 p.", "fr": "Placer 7 marqueurs toutes les 14 m."}[language]
    assert after_each_round(read(f"{markers}\n{text}", (98,), language)) == [84]


AT_EVERY = [
    "dec 1 st every 11 sts",
    "decrease 1 stitch in every 11 sts",
    "k2tog every 11 sts",
    "dec one st after every 9 sts",
    "k2tog after every 9 sts",
]


@pytest.mark.parametrize("decreases", AT_EVERY)
def test_one_stitch_goes_at_every_so_many(decreases: str) -> None:
    """Of 88 stitches eight go, where each eleventh does: behind nine two are one."""
    assert after_each_round(read(f"Rnd 1: {decreases}.\nRnd 2: knit.", (88,))) == [80, 80]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("fr", "Tour 1 : dim. 1 m. sur 11."),
        ("es", "Vta 1: disminuir 1 punto de cada 11."),
        ("es", "Vta 1: cada 9 puntos, tejer 2 juntos."),
        ("fr", "Tour 1 : toutes les 9 mailles, tricoter 2 mailles ensemble."),
        ("es", "Vta 1: *9 p, tejer juntos los 2 puntos siguientes*, repetir de * a *."),
        ("fr", "Tour 1 : tricoter ensemble les mailles 10 et 11 sur tout le tour."),
    ],
)
def test_one_stitch_goes_at_every_so_many_in_french_and_spanish(language: str, text: str) -> None:
    """The same in other languages."""
    assert after_each_round(read(text, (88,), language)) == [80]


@pytest.mark.parametrize(
    ("words", "after"),
    [
        ("decrease evenly with 6 ssk", 78),
        ("increase with 12 kfb evenly", 96),
        ("inc evenly with 6 m1", 90),
        ("decrease with 7 sts evenly spaced", 77),
        ("Dec with 6 sts evenly", 78),
        ("*k10, dec with 1 sk2p, k1*", 72),
    ],
)
def test_the_number_behind_with_is_that_of_the_changes(words: str, after: int) -> None:
    """But for the number 1 before the name of a stitch, which is worked so."""
    assert after_each_round(read(f"Rnd 1: {words}. {after} sts", (84,))) == [after]


PLACE_FIRST = [
    ("Before each marker k2tog, and after each marker ssk.", 16),
    ("Before every marker, k2tog; after every marker, ssk.", 16),
    ("Before each of the 4 markers knit 2 together and after each of the 4 markers ssk.", 16),
    ("Before each marker: k2tog. After each marker: ssk.", 16),
    ("Before each marker k2tog, k1, and after each marker k1, ssk.", 16),
    ("Before each marker work a k2tog and after each marker work an ssk.", 16),
    ("Before and after each marker k2tog.", 16),
    ("On either side of each marker, dec 1 st.", 16),
    ("Before each marker k2tog, knit the other stitches.", 20),
    ("At each marker k2tog.", 20),
]


@pytest.mark.parametrize(("work", "left"), PLACE_FIRST)
def test_a_decrease_told_behind_its_markers_is_worked_at_each_of_them(work: str, left: int) -> None:
    """Four sections of six: a decrease on both sides of every marker leaves four, on one side five."""
    text = f"Cast on 24 sts, placing a marker after every 6 sts.\nRound 1: {work}\nRound 2: Knit."

    assert after_each_round(read(text, (24,))) == [left, left]


@pytest.mark.parametrize(
    "begun",
    [
        "Before each marker k2tog.",
        "Next round: before each marker k2tog, knit to end.",
        "K2tog before each marker.",
    ],
)
def test_a_decrease_told_behind_its_markers_is_gone_on_with(begun: str) -> None:
    text = f"Cast on 24 sts, placing a marker after every 6 sts.\n{begun} Dec every other rnd until 8 sts remain."

    assert after_each_round(read(text, (24,))) == [20, 20, 16, 16, 12, 12, 8]


def test_a_decrease_behind_the_marker_of_the_round_is_worked_once() -> None:
    """The neighbour: one marker alone."""
    text = "Cast on 24 sts. Place a marker at the beginning of the round.\nRnd 1: After the marker, k2tog, knit to end."

    assert after_each_round(read(text, (24,))) == [23]
