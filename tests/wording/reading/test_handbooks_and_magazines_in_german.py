"""How old handbooks, magazines and bloggers tell a crown in German, with the same told in English.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import after_each_round, counts

PLACED = [
    ("de", "Jede 6. und 7. Masche zusammenstricken und darüber 2 glatte Runden."),
    ("de", "Man strickt jede 6. und 7. Masche zusammen und hierauf 2 glatte Touren."),
    ("de", "Jede 6. u. 7. M re zus.-str., darüber 2 Rd glatt re str."),
    ("de", "Jede 6. und 7. Masche zusammenstricken und 2 glatte Runden darüber."),
    ("en", "Knit every 6th and 7th st together and knit 2 rnds."),
    ("en", "Knit every 6th and 7th st together and work 2 rnds straight."),
    ("en", "Dec 10 sts evenly and work 2 rounds even."),
    ("en", "*K5, k2tog* around and work 2 rnds even."),
    ("fr", "Tricoter ensemble chaque 6e et 7e maille et tricoter 2 tours à l'endroit."),
]


@pytest.mark.parametrize(("language", "text"), PLACED)
def test_plain_rounds_behind_and_are_rounds_of_their_own(language: str, text: str) -> None:
    """The decreases are of the whole round: what is told behind them is not worked in it."""
    assert after_each_round(read(text, (70,), language)) == [60, 60, 60]


NAMED_ONCE = [
    (
        "de",
        "Jede 6. und 7. M re zusstr, in der nächsten Runde jede 5. und 6., in der dritten jede 4. und 5. M.",
    ),
    ("de", "Jede 6. und 7. M re zusstr, in der zweiten jede 5. und 6., in der dritten jede 4. und 5. M."),
    ("en", "Knit every 6th and 7th st together, next rnd every 5th and 6th, in the third every 4th and 5th."),
    ("en", "Knit every 6th and 7th st together, then every 5th and 6th, then every 4th and 5th st."),
]


@pytest.mark.parametrize(("language", "text"), NAMED_ONCE)
def test_what_is_done_at_every_so_many_is_named_once(language: str, text: str) -> None:
    assert after_each_round(read(text, (70,), language)) == [60, 50, 40]


def test_places_of_markers_work_nothing() -> None:
    text = "Knit every 6th and 7th st together. Place a marker at every 5th and 6th."
    assert after_each_round(read(text, (70,))) == [60]


IN_PAIRS = [
    "Von den 30 Maschen strickt man immer zwei zusammen.",
    "Von den 30 M strickt man stets 2 rechts zusammen = 15 M.",
    "Diese 30 Maschen strickt man immer zu zweien zusammen.",
]


@pytest.mark.parametrize("text", IN_PAIRS)
def test_of_so_many_stitches_two_are_taken_together(text: str) -> None:
    """The count before the verb is knitted by itself in no round."""
    assert after_each_round(read(text, (30,), "de")) == [15]


AT_MARKERS = [
    (
        "de",
        "Die Arbeit durch 6 Ringe in Abschnitte zu je 15 M teilen. In der folg. Rd vor jedem Ring 2 M re zus.-str.",
    ),
    (
        "de",
        "Mit 6 Markierern in Teile von 15 M einteilen. In der folg. Rd vor jedem Markierer 2 M re zus.-str.",
    ),
    ("de", "Im Abstand von 15 M 6 Markierer setzen. Nächste Rd: vor jedem Markierer 2 M re zus."),
    ("en", "Place 6 markers, 15 sts apart. Next rnd before each marker k2tog."),
    ("en", "Place 6 markers, 15 sts apart. Next rnd work before each marker k2tog."),
    ("en", "Place 6 markers, 15 sts apart. Rnd 1 after each marker ssk."),
]


@pytest.mark.parametrize(("language", "text"), AT_MARKERS)
def test_a_decrease_is_told_behind_its_marker(language: str, text: str) -> None:
    """Once at each marker, and not all around."""
    assert after_each_round(read(text, (90,), language)) == [84]


ON_BOTH_SIDES = [
    (
        "de",
        "Jede 15. M kennzeichnen. Vor jeder der 6 Kennmaschen 2 M re zus., nach jeder Kennmasche 1 einfachen Überzug.",
    ),
    ("de", "Jede 15. M markieren. Vor und nach jeder markierten M 1 M abn"),
    ("de", "Jede 15. M markieren. Vor jeder markierten M 2 M re zus, danach 1 Überzug"),
    ("de", "6 Marker im Abstand von 15 M setzen. Vor jedem Marker 2 M re zus, danach 1 Überzug"),
    ("en", "Mark every 15th st. Before each of the 6 marked sts k2tog, after each marked st skp"),
]


@pytest.mark.parametrize(("language", "text"), ON_BOTH_SIDES)
def test_a_decrease_is_told_on_each_side(language: str, text: str) -> None:
    assert after_each_round(
        read(f"{text} = 78 sts." if language == "en" else f"{text} = 78 M.", (90,), language)
    ) == [78]


PACES = [
    ("de", "So in jeder 2. Rd noch 2 x, es bleiben 70 M, dann 3 x in jeder Rd."),
    ("de", "In jeder 2. Rd noch 2 x so abn = 70 M, anschließend in jeder Rd 3 x abn."),
    ("en", "Dec like this every other rnd 2 more times (70 sts), then 3 times every rnd."),
]


@pytest.mark.parametrize(("language", "text"), PACES)
def test_so_often_in_every_round_is_no_number_of_stitches(language: str, text: str) -> None:
    begun = "* 8 M re, 2 M re zus *, ab * wdh = 90 M.\n" if language == "de" else "*K8, k2tog* = 90 sts.\n"
    assert counts(read(begun + text, (100,), language)) == [[100, 90, 80, 70, 60, 50, 40]]


FEWER_AND_FEWER = [
    (
        "de",
        "Ohne Zwischenrunden weiter: einmal mit 4 Maschen, einmal mit 3 Maschen und einmal mit 2 M zwischen den Abn.",
    ),
    ("de", "Nun ohne Zwischenrunden: je einmal mit 4, 3 und 2 Maschen zwischen den Abnahmen."),
    ("de", "In den nächsten drei Rd 4, 3 und zuletzt 2 M re vor den zusammengestrickten M."),
    (
        "de",
        "Danach eine Runde mit 4 Maschen, eine mit 3 Maschen und eine mit 2 Maschen zwischen den Abnahmen = 30 M.",
    ),
    ("de", "Von nun an ohne Zwischenrunden, zuerst 4, dann 3, zuletzt 2 Maschen zwischen den Abnahmen."),
    (
        "en",
        "No more plain rounds: once with 4 sts, once with 3 sts and once with 2 sts between the decreases.",
    ),
    (
        "en",
        "Then a round with 4 sts, a round with 3 sts and a round with 2 sts between the decreases = 30 sts.",
    ),
    ("en", "In the next 3 rnds knit 4, 3 and finally 2 sts before the decreases = 30 sts."),
    (
        "en",
        "Decrease every round from now on: once with 4, once with 3 and once with 2 sts between the decreases.",
    ),
]


@pytest.mark.parametrize(("language", "text"), FEWER_AND_FEWER)
def test_rounds_with_fewer_and_fewer_stitches_between_the_decreases_are_listed(
    language: str, text: str
) -> None:
    """Each is a round, behind a colon as well."""
    begun = "* 5 M re, 2 M re zus *, ab * wdh = 60 M.\n" if language == "de" else "*K5, k2tog* = 60 sts.\n"
    reading = read(begun + text, (70,), language)
    assert after_each_round(reading) == [60, 50, 40, 30]
    assert errors(reading) == []


def test_a_round_told_behind_a_colon_keeps_its_own_decrease() -> None:
    text = "*K5, k2tog* = 60 sts.\nNo more plain rounds: k4, k2tog around (50 sts), and on the last round k2tog around."
    assert after_each_round(read(text, (70,))) == [60, 50, 25]


EXPLAINED = "Abkürzung DA (doppelte Abnahme): 2 M zus abh, 1 M re, die abgehobenen M darüberziehen."
PARTS = [
    f"{EXPLAINED}\nRd 1: pro Rapport 9 re, 1 DA – 60 | 70 M.\nRd 2: re.",
    "DA = doppelte Abnahme\nRd 1: in jedem Rapport 9 re, 1 DA – 60 / 70 M.\nRd 2: re.",
    "DA = doppelte Abnahme\nRd 1: * 9 re, 1 DA, ab * wdh – 60 – 70 M.\nRd 2: re.",
]


@pytest.mark.parametrize("text", PARTS)
def test_a_dash_before_a_list_of_counts_is_none_of_it(text: str) -> None:
    """`1 DA – 60 | 70 M`: a stitch and two counts."""
    assert counts(read(text, (72, 84), "de")) == [[72, 60], [84, 70]]


def test_an_abbreviation_is_explained_behind_that_word() -> None:
    text = "Abbreviation DD (double decrease): sl 2 together knitwise, k1, pass slipped sts over.\nRnd 1: *k9, 1 DD*."
    assert after_each_round(read(text, (72,))) == [60]


TURNS = [
    "Im 1. Durchgang 9 mal 6 re, 2 re zus, im 2. Durchgang 9 mal 5 re, 2 re zus.",
    "Im ersten Arbeitsgang * 6 re, 2 re zus *, im zweiten Arbeitsgang * 5 re, 2 re zus *.",
    "Beim 1. Abnehmen 9 mal 6 re, 2 re zus, beim 2. Abnehmen 9 mal 5 re, 2 re zus.",
]


@pytest.mark.parametrize("text", TURNS)
def test_turns_are_told_by_their_number(text: str) -> None:
    assert after_each_round(read(text, (72,), "de")) == [63, 54]


THAT_IS = [
    "Weiter so abnehmen, also auf jeder Nadel 3 M, noch 2x in jeder 2. Runde = 36 M.",
    "So weiter abnehmen, d.h. 9 M pro Runde, noch 2x in jeder 2. Runde = 36 M.",
    "So weiter abnehmen (je Rd 9 M) noch 2x in jeder 2. Runde = 36 M.",
    "So weiter abnehmen, bis 36 M übrig sind.",
]


@pytest.mark.parametrize("text", THAT_IS)
def test_how_many_are_taken_each_time_is_no_total(text: str) -> None:
    begun = (
        "63 M auf 3 Nadeln (je 21 M).\nAbnahmerunde: auf jeder der 3 Nadeln 3x [5 M re, 2 M re zus] = 54 M.\n"
    )
    reading = read(begun + text, (63,), "de")
    assert counts(reading) == [[63, 54, 45, 36]]
    assert errors(reading) == []


STOPS = [
    "Aufhören, sobald auf jeder Nadel nur noch 3 M liegen.",
    "Damit aufhören, wenn auf jeder Nadel noch 3 M sind (insgesamt 9 M).",
    "Sobald auf jeder Nadel nur noch 3 M liegen, aufhören.",
    "Das so lange wiederholen, bis auf jeder Nadel nur noch 3 M liegen.",
    "Hört auf, wenn nur noch 9 M übrig sind.",
]


@pytest.mark.parametrize("text", STOPS)
def test_the_count_at_which_it_stops_stands_behind(text: str) -> None:
    begun = (
        "24 M auf 3 Nadeln (je 8 M).\nIn jeder Runde am Ende jeder der 3 Nadeln 2 M rechts zusammenstricken. "
    )
    assert counts(read(begun + text, (24,), "de")) == [[24, 21, 18, 15, 12, 9]]


ROMANS = [
    "Gr. I: * 6 re, 2 re zus, ab * wdh (63 M). Gr. II: * 8 re, 2 re zus, ab * wdh (81 M).",
    "Nur Größe I: * 6 re, 2 re zus, ab * wdh (63 M). Nur Größe II: * 8 re, 2 re zus, ab * wdh (81 M).",
    "Gr. I: nach je 6 M, Gr. II: nach je 8 M 2 M rechts zusammenstricken (63 bzw. 81 M).",
    "Bei Gr. I nach je 6 M, bei Gr. II nach je 8 M 2 M re zus.-str. = 63 (81) M.",
]


@pytest.mark.parametrize("text", ROMANS)
def test_sizes_by_roman_numbers_stand_in_one_line(text: str) -> None:
    assert counts(read(text, (72, 90), "de")) == [[72, 63], [90, 81]]


MADE = [
    "Zunahmerunde: nach jeder 6. M aus dem Querfaden 1 M re verschr. herausstr. (84 M).",
    "Zunahmerunde: hinter jeder 6. M 1 M zun = 84 M.",
    "Nach jeder 6. M den Querfaden re verschränkt abstricken (84 M).",
    "Nach jeder 6. M eine neue Masche aus dem Querfaden stricken, 84 Maschen.",
]


@pytest.mark.parametrize("text", MADE)
def test_a_stitch_is_made_behind_every_so_many(text: str) -> None:
    assert after_each_round(read(text, (72,), "de")) == [84]


RIBS = [
    ("de", "in jeder Linksrippe 2 M li zusammenstricken", 60),
    ("de", "in jeder linken Rippe die 2 M links zusammenstricken", 60),
    ("de", "in jeder 2. Rechts-Rippe 2 M re zus", 70),
    ("de", "in jeder zweiten rechten Rippe 2 M rechts zusammenstricken", 70),
    ("en", "in every purl rib p2tog", 60),
    ("en", "in every second knit rib k2tog", 70),
]


@pytest.mark.parametrize(("language", "text", "left"), RIBS)
def test_the_rib_stands_before_its_decrease(language: str, text: str, left: int) -> None:
    """Once in each of twenty ribs, or of ten."""
    rib = "5 Rd 2 re, 2 li im Wechsel.\nAbnahmerunde:" if language == "de" else "2x2 rib 5 rnds.\nDec rnd:"
    assert after_each_round(read(f"{rib} {text}.", (80,), language))[-1] == left


TWO_AND_TWO = [
    "auf den Nadeln 1 und 3 jeweils 1 Überzug, Rest re; auf den Nadeln 2 und 4 jeweils re bis 2 M vor Ende, 2 re zus",
    "auf der 1. und 3. Nadel die ersten 2 M re verschr zus, auf der 2. und 4. Nadel die letzten 2 M re zus",
    "am Anfang der Nadeln 1 und 3 jeweils 2 M re verschr zus, am Ende der Nadeln 2 und 4 jeweils 2 M re zus",
]


@pytest.mark.parametrize("text", TWO_AND_TWO)
def test_two_needles_are_worked_otherwise_than_the_others(text: str) -> None:
    reading = read(f"72 M auf 4 Nadeln (je 18 M).\nAbnahmerunde: {text} (68 M).", (72,), "de")
    assert after_each_round(reading) == [68]


def test_stitches_between_decreases_of_one_round_are_no_list() -> None:
    """`und 8 M dazwischen` is not understood, and not passed over in silence."""
    assert errors(read("Abnahmerunde: 8 x 2 M re zusammenstricken und 8 M dazwischen.", (80,), "de"))
