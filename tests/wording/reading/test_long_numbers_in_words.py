"""Numbers of several words, as old books and teachers print them."""

import pytest

from roundwright.wording.proofreading.read import read
from roundwright.wording.reading.languages.rewrite import rewritten
from tests.support.readings import after_each_round

NUMBERS = [
    ("fr", "il reste soixante-douze mailles", "= 72 sts rem"),
    ("fr", "il reste soixante et onze mailles", "= 71 sts rem"),
    ("fr", "quatre-vingt-seize mailles, puis quatre-vingts mailles", "96 sts, then 80 sts"),
    ("fr", "vingt et une mailles", "21 sts"),
    ("fr", "cent vingt mailles", "120 sts"),
    ("fr", "Au cinquième, six mailles, deux ensemble", "Rnd 5: k6, k2tog"),
    ("es", "quedan setenta y dos puntos", "= 72 sts rem"),
    ("es", "Ochenta y ocho puntos", "88 sts"),
    ("es", "veinticuatro puntos", "24 sts"),
    ("es", "ciento veinte puntos", "120 sts"),
    ("es", "En la quinta, seis puntos, dos juntos", "Rnd 5: k6, k2tog"),
    # two numbers that are two
    ("fr", "dix mailles, deux ensemble", "k10, k2tog"),
    ("es", "ocho puntos y dos juntos", "k8, k2tog"),
]


@pytest.mark.parametrize(("language", "text", "english"), NUMBERS)
def test_a_number_of_several_words_is_one(language: str, text: str, english: str) -> None:
    """Its words stand with hyphens, spaces or a word between them."""
    assert rewritten(text, language, 1).text == english


def test_a_crown_with_all_its_numbers_in_words() -> None:
    """The rounds and their counts come out as with digits."""
    text = (
        "On commence les diminutions : au premier tour, on tricote huit mailles, deux ensemble, et ainsi de suite tout "
        "autour ; il reste soixante-douze mailles. On fait un tour sans diminution. Au troisième tour, sept mailles, "
        "deux ensemble ; un tour uni. Au cinquième, six mailles, deux ensemble ; un tour uni. On continue ainsi "
        "jusqu'à ce qu'il ne reste que seize mailles, qu'on prend deux par deux."
    )
    counts = [72, 72, 64, 64, 56, 56, 48, 48, 40, 40, 32, 32, 24, 24, 16, 8]
    assert after_each_round(read(text, (80,), "fr")) == counts


def test_a_wrong_count_in_words_is_found_where_it_stands() -> None:
    """A finding has the place of the whole number, and another stands there in the repaired text."""
    [wrong] = list(read("V1: *8 pd, 2pjd* (setenta y tres puntos)", (80,), "es").findings)
    assert (wrong.code, wrong.line) == ("count_differs", 1)
