"""Wordings of knitters who write in their own language: dozens of rounds, overs, a decrease in the last round."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round

READ = [
    ("fr", 72, "Tricotez en rond en côtes 2/2", [72]),
    ("fr", 72, "Tricoter une douzaine de tours.", [72] * 12),
    ("fr", 72, "Tricoter 2 tours.\nTricoter une dizaine de rangs en rond.", [72] * 12),
    ("fr", 96, "Les côtes finies, j'ajoute 24 mailles.", [120]),
    ("fr", 96, "Placer un marqueur aux 12 mailles.\nTour 1 : *10 m end, 2 m ens* = 88 m.", [88]),
    (
        "fr",
        40,
        "Un rang d'augmentations, en tricotant tout le long du rang * 1 m, 1 m tricotée deux fois *.",
        [60],
    ),
    ("es", 36, "V1: *2d jun, 2d, 2h, 2d, ssk, 1d* hasta el final de la v.", [36]),
    ("es", 36, "V1: *2d jun, 2d, 2 lazadas, 2d, ssk, 1d* hasta el final de la v.", [36]),
    ("es", 90, "Aumentar un punto cada 15 puntos (se aumentan 6 puntos por vuelta).", [96]),
    (
        "nb",
        61,
        "Strikk 4 runder, men på siste runde feller du 1 maske i løpet av runda = 60 masker.",
        [61] * 3 + [60],
    ),
    ("nb", 60, "Strikk 4 runder, men på siste runde øker du 6 masker = 66 masker.", [60] * 3 + [66]),
    (
        "nb",
        60,
        (
            "Merk maske nummer 15, 30, 45 og 60. Det skal felles 1 maske på hver side av disse maskene annen hver "
            "runde. Fell til du har 36 masker igjen."
        ),
        [52, 52, 44, 44, 36],
    ),
    (
        "nb",
        72,
        "Neste 2 runder strikker du 4 masker med lys grått og 2 masker med mørk grått. Gjenta ut omgangene.",
        [72, 72],
    ),
]


@pytest.mark.parametrize(("language", "count", "text", "after"), READ)
def test_wordings_of_natives(language: str, count: int, text: str, after: list[int]) -> None:
    """The rounds as they are told, without an error."""
    reading = read(text, (count,), language)

    assert [finding for finding in reading.findings if finding.severity == "error"] == []
    assert after_each_round(reading) == after


def test_hilera_stays_a_round() -> None:
    """The neighbour of `2h`: two rounds, which are no overs."""
    assert after_each_round(read("Tejer 2 h derecho.", (36,), "es")) == [36, 36]


def test_a_wrong_count_is_still_found() -> None:
    """The neighbour: the count behind the decrease of the last round does not come out."""
    reading = read(
        "Strikk 4 runder, men på siste runde feller du 1 maske i løpet av runda = 58 masker.", (61,), "nb"
    )

    assert [finding.severity for finding in reading.findings if finding.severity == "error"] == ["error"]
