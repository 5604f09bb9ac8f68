"""Clauses of a crown in other words: at a count, in all, repeated with plain rounds, with fewer stitches each time."""

import pytest

from roundwright.wording.proofreading.read import read
from roundwright.wording.reading.crown_clauses import with_crown_clauses
from roundwright.wording.reading.scanner import scan
from tests.support.readings import after_each_round

MARKED = "Place 8 markers, one every 10 sts.\nK2tog before each marker: 72 sts.\n"
MARKED_FR = "Placer 8 marqueurs, un toutes les 10 mailles.\nTricoter 2 mailles ensemble avant chaque marqueur : 72 m.\n"
NARROW = "*K2, k2tog* 7 times: 21 sts.\n*K1, k2tog* 7 times: 14 sts.\n"


def lefts(text: str, cast_on: int, language: str = "en-US") -> list[int]:
    """The counts behind the rounds of a text that is read without an error."""
    return after_each_round(read(text, (cast_on,), language))


@pytest.mark.parametrize(
    "text",
    [
        "At 14 sts, work only k2tog: 7 sts.",
        "With 14 sts left, work nothing but k2tog.",
        "When you have 14 sts, k2tog: 7 sts.",
        "Once 14 sts remain, just k2tog (7).",
    ],
)
def test_decreases_at_a_count_are_worked_around(text: str) -> None:
    assert lefts(NARROW + text, 28) == [21, 14, 7]


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("Work it 3 more times, each preceded by a single plain rnd: 48 sts.", 1),
        ("Repeat this decrease 3 more times, each after 2 plain rnds: 48 sts.", 2),
        ("Decrease 3 more times, with 2 plain rounds before each: 48 sts.", 2),
        ("Repeat the dec rnd 3 more times, with 1 plain rnd before each: 48 sts.", 1),
        ("Work it three times, each after 2 plain rounds: 48 sts.", 2),
        ("Repeat it 3 times, always preceded by a plain round. 48 sts.", 1),
        ("Work it 3 more times, 2 plain rounds between: 48 sts.", 2),
        (
            "Repeat this decrease until you have worked it 4 times in all, always with 3 plain rnds between.",
            3,
        ),
    ],
)
def test_decreases_are_repeated_with_their_plain_rounds(text: str, plain: int) -> None:
    again = [count for last in (72, 64, 56) for count in [*[last] * plain, last - 8]]
    assert lefts(MARKED + text, 80) == [72, *again]


@pytest.mark.parametrize(
    "text",
    [
        "Decrease 3 times more, each before a plain round.",
        "Decrease 3 more times, the last after 2 plain rounds.",
        "Repeat it 3 more times, then 2 plain rounds before the crown.",
        "Repeat it 3 more times before working 5 rounds.",
        "Repeat it 3 more times, with 2 plain rounds and 1 purl round between.",
        "Repeat it 3 more times with 5 sts between and 1 round between.",
        "K2tog at the beginning, in the middle and at the end of each needle.",
        "Knit 12 sts, k2tog: 13.",
        "Repeat this round twice, omitting 2 sts before the first decrease.",
        "Work 1 st between markers, 8 in all.",
    ],
)
def test_clauses_of_other_rounds_are_left_as_they_are(text: str) -> None:
    words = scan(MARKED + text, 1).tokens
    assert with_crown_clauses(words) == words


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("On la fait encore trois fois, chacune précédée d'un seul tour uni : 48 m.", 1),
        ("Répéter cette diminution encore 3 fois, chacune précédée de 2 tours à l'endroit : 48 m.", 2),
        ("Faire cette diminution 4 fois en tout, en laissant toujours 2 tours unis de l'une à l'autre.", 2),
    ],
)
def test_so_they_are_in_french(text: str, plain: int) -> None:
    again = [count for last in (72, 64, 56) for count in [*[last] * plain, last - 8]]
    assert lefts(MARKED_FR + text, 80, "fr") == [72, *again]


@pytest.mark.parametrize(
    "text",
    [
        "One stitch remains between markers, that is 8 in all.",
        "There is 1 st left before each marker (8 sts in total).",
        "You have one stitch per marker, 8 altogether: cut the yarn.",
    ],
)
def test_a_count_of_all_sections_follows_that_of_each(text: str) -> None:
    above = "Dec rnd: k2tog before each marker. 16 sts.\nWork 1 dec rnd. "
    assert lefts("Place 8 markers, one every 3 sts.\n" + above + text, 24) == [16, 8]


@pytest.mark.parametrize(
    "text",
    [
        "omitting 1 st between decreases each time",
        "leaving out 1 st before each k2tog each time",
        "each time dropping one st between the decreases",
    ],
)
def test_stitches_left_out_are_fewer(text: str) -> None:
    rounds = f"*K9, k2tog* around. 80 sts.\nRep this rnd 2 more times, every other rnd, {text}. 64 sts."
    assert lefts(rounds, 88) == [80, 80, 72, 72, 64]


def test_stitches_left_out_are_fewer_in_french() -> None:
    again = "Refaire ce tour 2 fois encore, un tour sur deux, en ôtant à chaque fois 1 m entre les diminutions : 64 m."
    assert lefts("*9 m end, 2 m ens* 8 fois : 80 m.\n" + again, 88, "fr") == [80, 80, 72, 72, 64]


@pytest.mark.parametrize("where", ["beginning and middle", "beginning and in the middle"])
def test_needles_decrease_at_the_middle(where: str) -> None:
    assert lefts(
        f"Cast on 80 sts over 4 needles, 20 sts each.\nK2tog at the {where} of each needle.", 80
    ) == [72]


@pytest.mark.parametrize(
    ("unit", "left"),
    [("*5 sts, m1*", 72), ("*5 sts, inc 1*", 72), ("*3 sts, k2tog*", 48), ("(3 sts, ssk)", 48)],
)
def test_stitches_before_a_change_are_plain(unit: str, left: int) -> None:
    assert lefts(f"{unit} 12 times: {left} sts.", 60) == [left]


def test_other_rounds_are_plain_in_french() -> None:
    rounds = (
        "1er tour : *8 m, 2 m ens* = 72 m.\n4e tour : *7 m, 2 m ens* = 64 m.\nLes autres tours se font unis."
    )
    assert lefts(rounds, 80, "fr") == [72, 72, 72, 64]
