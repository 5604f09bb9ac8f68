"""Work of each needle, of a number of times and of sizes, as French handbooks, leaflets and blogs tell it."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_rounds_of_sizes

CORNERS = "1 m. end., 1 surjet simple, tric. à l'end. jusqu'aux 3 dernières m., 2 m. ens., 1 m. end. : 40 m."

ROUNDS = [
    # so many times what stands behind a colon, whatever stands before
    ("fr", 60, "Partie 1 : 6 fois : 2 m. ens., 6 m., 2 m. ens.", [48]),
    ("fr", 60, "6 fois : 8 m., 2 m. ens. (54), puis 6 fois : 7 m., 2 m. ens. (48).", [54, 48]),
    ("en", 60, "Part 2, 6 times: k2tog, k6, k2tog.", [48]),
    ("en", 60, "6 times: k8, k2tog = 54, 6 times: k7, k2tog = 48.", [54, 48]),
    ("es", 60, "Parte 2: 6 veces: 2 p. juntos, 6 p. der., 2 p. juntos.", [48]),
    # so many times what stands between two stars
    ("fr", 60, "Tric. 6 fois * 8 m. end., 2 m. ens. end. *.", [54]),
    ("fr", 60, "Tour 1 : tric. 6 fois * 8 m. end., 2 m. ens. end. *.", [54]),
    ("en", 60, "Rnd 1: work 2 times *k8, k2tog*, 4 times *k8, k2tog*.", [54]),
    ("en", 60, "Rnd 1: work 2 times (k8, k2tog), 4 times (k8, k2tog).", [54]),
    ("nb", 60, "Omgang 1: strikk 6 ganger *8 r, 2 r sm*.", [54]),
    # the last stitches of each needle, told as together first
    ("fr", 60, "À chaque aiguille, tricoter ensemble à l'endroit les 2 dernières mailles (56 m.).", [56]),
    ("en", 60, "Rnd 1: on each of the 4 needles, knit together the last 2 sts.", [56]),
    # both ends of each needle, and the stitches between
    ("fr", 52, "Sur chacune des 4 aiguilles, tric. ens. les 2 premières m. et les 2 dernières m.", [44]),
    (
        "fr",
        52,
        "Sur chacune des 4 aiguilles, prendre ensemble les 2 premières m. et ensemble les 2 dernières.",
        [44],
    ),
    ("fr", 52, "Tric. ens. les 2 premières et les 2 dernières m. de chacune des 4 aiguilles.", [44]),
    (
        "fr",
        52,
        "Sur chaque aiguille, tric. 2 m. ens. au début et 2 m. ens. à la fin, les autres m. end.",
        [44],
    ),
    (
        "en",
        52,
        "On each of the 4 needles k2tog the first 2 sts and the last 2 sts, knit the other sts.",
        [44],
    ),
    ("en", 52, "On each of 4 needles, ssk the first 2 sts, knit the other sts.", [48]),
    ("en", 52, "K2tog the first 2 sts of each of the 4 needles.", [48]),
    # the parts of a round in its label
    (
        "fr",
        48,
        f"Tour A, sur chaque aiguille : {CORNERS}\nTour B : à l'end.\nRép. les tours A et B encore 2 fois (24 m.).",
        [40, 40, 32, 32, 24, 24],
    ),
    ("en", 48, "4 sections.\nRnd A, in each section: k10, k2tog.\nRnd B: knit.", [44, 44]),
    # every so many stitches, and until so few are left
    ("fr", 66, "Tour 1 : tric. ens. les 10e et 11e m. de chaque groupe de 11 m. : 60 m.", [60]),
    ("fr", 66, "Tour 1 : sur chaque groupe de 11 m., tric. ens. les 2 dernières : 60 m.", [60]),
    ("en", 66, "Rnd 1: in every 11 sts, k2tog the last 2 sts.", [60]),
    (
        "fr",
        40,
        (
            "*8 m., 2 m. ens.* 4 fois. 1 tour uni. Rép. ces 2 tours, avec 1 m. de moins d'un tour à l'autre, "
            "jusqu'à être réduit à 32 m., que l'on prend alors deux à deux."
        ),
        [36, 36, 32, 32, 16],
    ),
    # how many stitches a round takes
    ("fr", 48, "Tour 1 : *10 m., 2 m. ens.*, soit 4 m. par tour : 44 m.", [44]),
]

SIZES = [
    (
        "fr",
        "Répartir 8 dim. ainsi : a) * 7 m., 2 m. ens. * – b) * 8 m., 2 m. ens. *, 8 fois. On a a) 64 – b) 72 m.",
    ),
    ("en", "Dec 8 sts evenly as follows: size 1: *k7, k2tog*; size 2: *k8, k2tog*, 8 times. = 64 (72) sts."),
    ("en", "Dec 8 sts as follows: size 1: *k7, k2tog* 8 times; size 2: *k8, k2tog* 8 times."),
]

REPAIRS = [
    # what a line prints again and again, once more or once less, in its own words
    ("fr", 40, "3 endroit, 2 ensemble", 7, "On a 32 mailles."),
    ("fr", 40, "3 m. end., 2 m. ens. à l'end.", 9, "(32 m.)"),
    ("de", 40, "3 M, 2 M zus.", 7, "(32 M)"),
    ("es", 40, "3 der, 2 pjd", 9, "(32 p)"),
    ("en", 40, "k3, k2tog", 7, "(32 sts)"),
]


@pytest.mark.parametrize(("language", "cast_on", "text", "wanted"), ROUNDS)
def test_it_is_worked_as_a_knitter_does(language: str, cast_on: int, text: str, wanted: list[int]) -> None:
    """Each round leaves the stitches that it should, and nothing is found wrong."""
    assert after_rounds_of_sizes(read(text, (cast_on,), language)) == [wanted]


@pytest.mark.parametrize(("language", "text"), SIZES)
def test_a_change_told_before_the_work_of_each_size_is_worked_once(language: str, text: str) -> None:
    """What is told before the first size is not a round of its own."""
    assert after_rounds_of_sizes(read(text, (72, 80), language)) == [[64], [72]]


@pytest.mark.parametrize(("language", "cast_on", "repeat", "times", "count"), REPAIRS)
def test_a_repeat_printed_too_often_or_not_often_enough_is_mended(
    language: str, cast_on: int, repeat: str, times: int, count: str
) -> None:
    """The repair prints the repeat as often as the stitches ask, as the text words it."""
    line = {"fr": "Tour 1 : ", "de": "1. Runde: ", "es": "Vuelta 1: ", "en": "Rnd 1: "}[language]
    reading = read(f"{line}{', '.join([repeat] * times)} {count}", (cast_on,), language)
    assert reading.repaired == f"{line}{', '.join([repeat] * 8)} {count}"


def test_a_count_told_of_where_the_knitter_is_is_compared() -> None:
    """`Vous voilà à 81` is a count."""
    reading = read("Tricotez 9 fois : 8 mailles, 2 ensemble. Vous voilà à 80.", (90,), "fr")
    assert [finding.code for finding in reading.findings] == ["count_differs"]


def test_the_last_two_of_a_round_are_not_every_two() -> None:
    reading = read("Knit 1 rnd. Knit together the last 2 sts of the round.", (60,), "en-US")
    assert after_rounds_of_sizes(reading) == [[60]]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "Rnd 1: work 5 times *k8, k2tog*. 54 sts."),
        ("fr", "1er tour : tric. 5 fois * 8 m. end., 2 m. ens. end. *. Il reste 54 m."),
        ("es", "Vuelta 1: tejer 5 veces *8 p. der., 2 p. juntos der.* (54 p.)"),
        ("da", "Omgang 1: strik 5 gange *8 r, 2 r sm* (54 m)"),
        ("en", "Work 5 cm in 4x3 rib.\nRnd 1: *k8, k2tog*. 54 sts."),
        ("fr", "Tricoter 5 cm de côtes 4 x 3.\nTour suivant : * 8 m. end., 2 m. ens. *. Il reste 54 m."),
    ],
)
def test_what_does_not_come_out_is_said(language: str, text: str) -> None:
    assert "left_over" in [
        finding.code for finding in read(text, (60,), "en-US" if language == "en" else language).findings
    ]
