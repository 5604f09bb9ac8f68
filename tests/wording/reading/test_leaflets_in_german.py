"""What leaflets, notes and old books in German print. The counts are worked by hand."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, after_rounds_of_sizes

ON_NEEDLES = [
    "Auf jeder Nadel die ersten 2 M re überz. zusstr., die letzten 2 M re zusstr. = 72 M.",
    "Auf jeder Nadel die ersten beiden M überz. zusstr. (1 M abh, 1 M re, überz), die letzten beiden zusstr. = 72 M.",
    "Auf jeder Nd die ersten 2 M re verschr. zusstr., re bis zu den letzten 2 M, die letzten 2 M re zusstr. (72 M)",
    "Die ersten 2 M jeder Nadel überz. zusstr., die letzten 2 M jeder Nadel re zusstr. (72 M)",
    "Auf jeder Nadel die ersten 2 und die letzten 2 Maschen rechts zusammenstricken (72 M)",
]


@pytest.mark.parametrize("line", ON_NEEDLES)
def test_the_first_and_the_last_stitches_of_each_needle_are_taken_together(line: str) -> None:
    """What lies between them is knitted."""
    reading = read(f"80 M auf 4 Nadeln (je 20 M).\n1. Rd: {line}\n2. Rd: re.", (80,), "de")
    assert after_each_round(reading) == [72, 72]


BOTH_AGAIN = [
    "Diese beiden Runden strickt ihr noch 5x",
    "Die beiden Runden strickst du noch fünfmal",
    "Diese zwei Runden macht ihr noch 5x",
    "Diese 2 Rd. arbeitest du noch 5 Mal",
    "Strickt diese beiden Runden noch 5 x",
    "Diese Runden im Wechsel noch 5x stricken",
]


@pytest.mark.parametrize("sentence", BOTH_AGAIN)
def test_the_two_rounds_before_are_worked_again(sentence: str) -> None:
    """The plain round, too."""
    text = (
        "Abnahmerunde: *1 M re, 2 M überzogen zusammenstricken, re bis 3 M vor dem Markierer, 2 M re zusammenstricken, "
        f"1 M re*, das macht ihr 4x, es bleiben 64 M.\nNächste Rd: re.\n{sentence}, dann sind es in jeder Größe 24 M."
    )
    assert after_each_round(read(text, (72,), "de")) == [n for n in range(64, 23, -8) for _ in range(2)]


@pytest.mark.parametrize(
    "label", ["2. u. 3. Rd.", "2. u. 3. Tour", "Rd 2 u. 3", "2. Rd. u. 3. Rd.", "2., 3. u. 4. Rd"]
)
def test_the_short_word_for_and_joins_two_rounds(label: str) -> None:
    reading = read(f"1. Rd: *8 M re, 2 M re zus; ab * stets wdh (72 M)\n{label}: re", (80,), "de")
    assert after_each_round(reading) == [72] * (4 if "4" in label else 3)


def test_decreases_are_listed_one_round_after_the_other() -> None:
    """The word for together stands at the end of the list, plain rounds between its parts."""
    text = (
        "Jede 11. u. 12. M re zus.-str., 3 Rd. darüberstr.,\njede 10. u. 11. M re zus.-str., 2 Rd. drüberstr.,\n"
        "jede 9. u. 10. M, in der nächsten Rd. jede 8. u. 9. M, dann jede 7. u. 8. M und jede 6. u. 7. M re zus.-str."
    )
    assert after_each_round(read(text, (96,), "de")) == [88, 88, 88, 88, 80, 80, 80, 72, 64, 56, 48]


SLASHED = [
    "1. Gr.: [8 M re, 2 M re zus] 6x; 2. Gr.: [10 M re, 2 M re zus] 6x (54/66 M)",
    "1. Größe: [8 M re, 2 M re zus] 6x, 2. Größe: [10 M re, 2 M re zus] 6x",
    "[4/5 M re, 2 M re zus, 4/5 M re] 6x (54/66 M)",
]


@pytest.mark.parametrize("work", SLASHED)
def test_small_numbers_of_two_sizes_have_a_slash_where_the_stitches_have(work: str) -> None:
    """A size may be named by its place in the list."""
    text = f"Mütze (Größe 2/4 Jahre)\n72/84 M.\n1. Rd: [9/11 M re, 3 M re zus] 6x (60/72 M)\n2. Rd: {work}"
    assert after_rounds_of_sizes(read(text, (72, 84), "de")) == [[60, 54], [72, 66]]


def test_a_rib_keeps_its_slash_beside_sizes_with_slashes() -> None:
    text = "72/84 M.\n3 Rd Rippen 2/1.\nAbn-Rd: * 2 M re zus; ab * stets wdh (36/42 M)"
    assert after_rounds_of_sizes(read(text, (72, 84), "de")) == [[72, 72, 72, 36], [84, 84, 84, 42]]


@pytest.mark.parametrize(
    ("name", "call"),
    [
        ("Abn-Rd", "wie die 2. Abn-Rd"),
        ("Abnahmerunde", "genau wie bei der zweiten Abnahmerunde"),
        ("Abnahme", "wie die 2. Abnahme"),
        ("Abn.-Rd.", "die 2. Abn.-Rd. wdh"),
    ],
)
def test_a_decrease_round_is_worked_as_another(name: str, call: str) -> None:
    text = (
        f"1. {name}: * 10 M re, 2 M re zus, ab * wdh (88 M).\n3 Rd re.\n2. {name}: * 2 M re zus, ab * wdh (44 M).\n"
        f"1 Rd re.\n3. {name}: {call} = 22 M."
    )
    assert after_each_round(read(text, (96,), "de")) == [88, 88, 88, 88, 44, 44, 22]


MARKED = [
    (
        "Jeweils bis 1 M vor die markierte M re, dann die markierte M mit der M davor und danach als doppelten Überzug "
        "zusammenstricken; Rd mit re M beenden"
    ),
    "re bis 1 M vor jede markierte M, die markierte M mit der M davor und danach re zusstr, Rd re beenden",
    "Stets bis 1 M vor der markierten M re str, die M davor, die markierte M und die M danach re zusstr; mit re enden",
    "Jede markierte M mit der M davor und der M danach überzogen zusammenstricken",
    "* bis 1 M vor die markierte M re str, 3 M als doppelten Überzug zusammenstricken; ab * noch 7x wdh, Rd re beenden",
]


@pytest.mark.parametrize("work", MARKED)
def test_a_marked_stitch_is_taken_together_with_its_neighbours(work: str) -> None:
    text = (
        f"Die 7. M und danach jede 13. M mit einem Markierer kennzeichnen (= 8 markierte M).\nAbnahmerunde: {work} "
        "= 88 M.\nDiese Abnahmen in jeder 2. Rd noch 4x wdh = 24 M.\nIn der letzten Rd 8x 3 M als doppelten Überzug "
        "zusammenstricken = 8 M."
    )
    assert after_each_round(read(text, (104,), "de")) == [88, 88, 72, 72, 56, 56, 40, 40, 24, 8]


@pytest.mark.parametrize("needles", ["Auf jeder Nd", "In jeder Nd", "Auf allen Nd", "Bei jeder Nd"])
def test_the_last_stitches_of_every_needle_are_taken_together(needles: str) -> None:
    """Whichever preposition stands before the needle."""
    reading = read(f"80 M, 20 M je Nd.\n{needles} die letzten 2 M re zusstr.", (80,), "de")
    assert after_each_round(reading) == [76]


@pytest.mark.parametrize(
    "work",
    [
        "Stricke jeweils bis 2 Maschen vor dem Markierer, dann 2 Maschen rechts zusammen",
        "Stricke jedes Mal bis 2 M vor dem Markierer, dann strickst du 2 M rechts zusammen",
        "Jeweils bis 2 M vor dem Markierer stricken, dann 2 M re zusammen",
    ],
)
def test_a_decrease_before_a_marker_is_worked_before_each_of_them(work: str) -> None:
    text = f"Setze alle 14 M einen Markierer (6 Markierer, 84 M).\nRunde 1: {work}. Jetzt hast du noch 78 M."
    assert after_each_round(read(text, (84,), "de")) == [78]


@pytest.mark.parametrize("rib", ["1 M. r., 1 M. l. stricken.", "2 re, 2 li im Wechsel."])
def test_rounds_of_a_rib_have_the_full_stop_of_their_short_form(rib: str) -> None:
    assert after_each_round(read(f"88 M. anschlagen und 3 Rd. {rib}", (88,), "de")) == [88] * 3


def test_the_number_of_a_round_ends_the_sentence_before_it() -> None:
    text = "88 M anschlagen und 2 Rd. 3. Rd: re.\n4. Rd: *9 M re, 2 M re zus* (80 M)"
    assert after_each_round(read(text, (88,), "de")) == [88, 88, 88, 80]


@pytest.mark.parametrize(
    "size",
    [
        "Nur für den großen Kopf noch",
        "Nur noch für die große Mütze",
        "Nur bei der großen Ausführung",
        "Nur Gr. 2",
    ],
)
@pytest.mark.parametrize("plain", ["Rd 4 re, ", "Rd 4 glatt re; ", "Rd 4 re M.\n{size}: "])
def test_a_round_of_a_size_is_knitted_behind_its_number(size: str, plain: str) -> None:
    text = (
        "Rd 1: * 3 (5) M re, 2 M re zus; ab * noch 5x -> 24 (36) M\nRd 2: re\n"
        "Rd 3: * 2 (4) M re, 2 M re zus; ab * noch 5x -> 18 (30) M\n"
        f"{size}: {plain.format(size=size)}Rd 5: * 3 M re, 2 M re zus; ab * noch 5x -> 24 M"
    )
    assert after_rounds_of_sizes(read(text, (30, 42), "de")) == [[24, 24, 18], [36, 36, 30, 30, 24]]


@pytest.mark.parametrize(
    "begin",
    [
        "Größe S: mit Rd 5 beginnen. Größe M: mit Rd 3 beginnen. Größe L: mit Rd 1 beginnen.",
        "Gr. S: in der 5. Rd beginnen. Gr. M: in der 3. Rd beginnen. Gr. L: in der 1. Rd beginnen.",
        "Mit Rd 5 (3 – 1) beginnen.",
    ],
)
def test_each_size_begins_at_a_round_of_its_own(begin: str) -> None:
    text = (
        f"{begin}\nR1 (nur L): *10 re, 2 re zus* [88 M]\nR2: re.\nR3 (M, L): *9 re, 2 re zus* [80 M]\nR4: re.\n"
        "R5 (alle Größen): *8 re, 2 re zus* [72 M]"
    )
    assert after_rounds_of_sizes(read(text, (80, 88, 96), "de")) == [
        [72],
        [80, 80, 72],
        [88, 88, 80, 80, 72],
    ]
