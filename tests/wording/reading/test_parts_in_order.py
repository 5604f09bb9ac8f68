"""How rounds go on, told with its parts in any order: each order is the same work."""

from itertools import permutations

import pytest

from roundwright.wording.proofreading.read import read

CROWN = "Place 6 markers.\nRnd 1: *knit to 2 sts before marker, k2tog; rep from * (84 sts)\nRnd 2: knit.\n"


def worked(sentence: str) -> tuple[list[int], list[str]]:
    """The counts after the rounds of a crown that goes on so, and the errors found."""
    reading = read(CROWN + sentence, (90,), "en-US")
    errors = [finding.code for finding in reading.findings if finding.severity == "error"]
    return [worked_round.after for worked_round in reading.rounds[0]], errors


@pytest.mark.parametrize(
    ("parts", "rounds", "last"),
    [
        (("these decreases", "every other rnd", "6 more times", "repeat"), 13, 48),
        (("the decreases", "every other rnd", "until 48 sts remain", "work"), 13, 48),
        (("rnd 1", "every rnd", "6 more times", "repeat"), 8, 48),
        (("rnd 1", "every rnd", "until 48 sts remain", "now"), 8, 48),
        (("the dec rnd", "every 3rd rnd", "6 more times", "work"), 19, 48),
        (("in this manner", "every other rnd", "6 more times", "dec"), 13, 48),
        (("in this manner", "every rnd", "until 48 sts remain", "dec 6 sts"), 8, 48),
    ],
)
def test_parts_in_any_order_are_the_same_work(parts: tuple[str, ...], rounds: int, last: int) -> None:
    """Whatever order the parts have, so many rounds are worked, and so many stitches are left."""
    for order in permutations(parts):
        counts, errors = worked(" ".join(order).capitalize() + ".")
        assert (len(counts), counts[-1], errors) == (rounds, last, []), order


@pytest.mark.parametrize(
    ("sentence", "rounds", "last"),
    [
        ("Every other rnd these decreases 5 more times repeat, then every rnd until 6 sts remain.", 19, 6),
        ("Rnd 3: *k12, k2tog; rep from * around\nRnd 4 and every alternate rnd: knit.", 4, 78),
        ("In this manner dec every other rnd 6 more times, 48 sts.", 13, 48),
    ],
)
def test_what_is_told_beside_the_parts_stays(sentence: str, rounds: int, last: int) -> None:
    """The next clause, a number with its colon and a count are none of the parts."""
    counts, errors = worked(sentence)
    assert (len(counts), counts[-1], errors) == (rounds, last, [])


IN_LANGUAGES = [
    (
        "de",
        "6 MM setzen.\n1. Rd: *re str bis 2 M vor dem MM, 2 M re zusstr; ab * wdh (84 M)\n2. Rd: re\n",
        ("diese Abnahmen", "in jeder 2. Rd", "noch 6x", "wdh"),
    ),
    (
        "de",
        "6 MM setzen.\n1. Rd: *re str bis 2 M vor dem MM, 2 M re zusstr; ab * wdh (84 M)\n2. Rd: re\n",
        ("in dieser Weise", "in jeder 2. Rd", "bis 48 M übrig sind", "abn"),
    ),
    (
        "fr",
        (
            "Placer 6 marqueurs.\nTour 1 : *tric end jusqu'à 2 m avant le marqueur, 2 m ens end*, rép de * à * (84 m)\n"
            "Tour 2 : end\n"
        ),
        ("ces diminutions", "tous les 2 tours", "encore 6 fois", "répéter"),
    ),
    (
        "es",
        (
            "Colocar 6 marcadores.\nVta 1: *der hasta 2 p antes del marcador, 2 p juntos der*, rep de * a * (84 p)\n"
            "Vta 2: der\n"
        ),
        ("disminuir así", "cada 2 vtas", "hasta que queden 48 p"),
    ),
    (
        "nb",
        "Sett 6 merker.\n1. omg: *strikk r til 2 m før merket, 2 r sm*, gjenta fra *-* (84 m)\n2. omg: r\n",
        ("disse fellingene", "på hver 2. omg", "6 ganger til", "gjenta"),
    ),
    (
        "da",
        "Sæt 6 mærker.\n1. omg: *strik r til 2 m før mærket, 2 r sm*, gentag fra *-* (84 m)\n2. omg: r\n",
        ("disse indtagninger", "på hver 2. omg", "6 gange til", "gentag"),
    ),
]


@pytest.mark.parametrize(("language", "crown", "parts"), IN_LANGUAGES)
def test_so_they_are_in_other_languages(language: str, crown: str, parts: tuple[str, ...]) -> None:
    """A decrease round and a plain one, six times more, in whatever order that is told."""
    for order in permutations(parts):
        reading = read(crown + " ".join(order).capitalize() + ".", (90,), language)
        counts = [worked_round.after for worked_round in reading.rounds[0]]
        assert (len(counts), counts[-1]) == (13, 48), order
        assert not [finding for finding in reading.findings if finding.severity == "error"], order
