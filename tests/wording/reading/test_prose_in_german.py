"""What teachers and old books print in German: a round and its repetition in whole sentences. Worked by hand."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, counts, faults

FIRST = "*8 M re, 2 M re zus*, von * bis * stets wdh (72 M)."


@pytest.mark.parametrize(
    "less",
    [
        "jedes Mal ist es eine Masche weniger, die du vor dem Zusammenstricken rechts strickst",
        "dabei vor der Abnahme jedes Mal 1 M weniger",
    ],
)
def test_a_stitch_less_is_worked_before_the_decrease(less: str) -> None:
    text = f"{FIRST}\nEine Runde rechts.\nSo geht es weiter: In jeder zweiten Runde nimmst du ab, und {less}."
    text += " Das machst du, bis du nach der Runde mit 5 Maschen nur noch 48 Maschen hast."
    assert after_each_round(read(text, (80,), "de")) == [72, 72, 64, 64, 56, 56, 48]


PLAIN_ROUNDS_END = [
    "Ab hier lässt du die Zwischenrunde weg und nimmst in jeder Runde ab",
    "Ab jetzt gibt es keine Zwischenrunden mehr, nimm in jeder Runde ab",
    "Nun fällt die Zwischenrunde weg, in jeder Runde nimmt man ab",
]


@pytest.mark.parametrize("end", PLAIN_ROUNDS_END)
def test_the_round_between_is_left_out_from_here_on(end: str) -> None:
    text = (
        "In der ersten Abnahmerunde strickst du immer bis zwei Maschen vor den Markierer und strickst diese beiden "
        "Maschen rechts zusammen (jetzt sind es 66 Maschen). Danach folgt eine Runde ohne Abnahmen.\n"
        f"Diese beiden Runden strickst du insgesamt zweimal, dann hast du noch 60 Maschen.\n{end}, "
        "bis nur noch 48 Maschen übrig sind."
    )
    reading = read(f"Nach jeder 12. Masche einen Marker einhängen.\n{text}", (72,), "de")
    assert after_each_round(reading) == [66, 66, 60, 60, 54, 48]


@pytest.mark.parametrize("turns", ["Es folgen immer abwechselnd", "Im Wechsel", "Nun folgen wechselweise"])
@pytest.mark.parametrize("plain", ["eine glatte Runde", "eine Runde ohne Abnehmen"])
def test_rounds_with_and_without_decreases_take_turns(turns: str, plain: str) -> None:
    text = (
        "Am Schluß jeder der 4 Nadeln 2 M. rechts zusammen, macht in der Runde 4 M. weniger.\n"
        f"{turns} eine Runde mit Abnehmen und {plain}, im ganzen dreimal, so daß noch 60 M. da sind."
    )
    text = text.replace("jeder der 4 Nadeln", "jeder Nadel strickt man")
    assert counts(read(f"72 M auf 4 Nadeln, 18 auf jeder.\n{text}", (72,), "de")) == [[72, 68, 64, 60]]


def test_the_first_and_the_last_stitches_of_a_needle_are_told_in_two_sentences() -> None:
    text = (
        "20 M. auf jeder Nadel.\nZum Abnehmen strickt man auf jeder Nadel die 1. M. rechts, hebt die 2. M. ab, "
        "strickt die 3. M. und zieht die abgehobene darüber. Die drei letzten M. jeder Nadel: 2 M. rechts "
        "zusammen, 1 M. rechts."
    )
    assert counts(read(text, (80,), "de")) == [[80, 72]]
    later = text.replace("die 1. M. rechts, hebt die 2.", "die 2. M. rechts, hebt die 3.")
    assert "skp" not in str(read(later, (80,), "de").rounds)


def test_more_times_than_the_count_allows_are_a_fault() -> None:
    """Seven more rounds leave 24 of 88, six leave 32."""
    text = "* 9 M re, 2 M re zus, ab * wdh = 80 M.\nDiese Abnahmen noch {}x in jeder 2. Rd wiederholen, dabei jeweils "
    text += "1 M weniger dazwischen stricken = 32 M."
    assert not faults(read(text.format(6), (88,), "de"))
    assert faults(read(text.format(7), (88,), "de")) == [("count_differs", 2)]


CROWNS = [
    (
        (
            "Setze nach jeder 10. Masche einen Marker.\nStricke bis 2 Maschen vor dem Marker und stricke diese "
            "2 Maschen "
            "rechts zusammen. Das Gleiche machst du bei allen Markern.\nNun sind acht Maschen weg und du hast "
            "72 Maschen.\n"
            "Dann kommt eine Runde, in der nichts passiert.\nDanach nimmst du wieder genauso ab (64 Maschen)."
        ),
        [72, 72, 64],
    ),
    (
        (
            "Setze nach jeder 10. Masche einen Marker.\nVor jedem Marker strickst du zwei Maschen rechts zusammen, so "
            "verlierst du in jeder Runde 8 Maschen.\nDas machst du in jeder zweiten Runde, bis du noch 64 Maschen hast."
        ),
        [72, 72, 64],
    ),
    (
        (
            "Man strickt stets 8 Maschen rechts und die 9. und 10. zusammen, wodurch sich die Maschenzahl um 8 "
            "vermindert."
            "\nDann strickt man eine Tour glatt.\nNun 7 Maschen und die 8. und 9. zusammen, bleiben 64 Maschen."
        ),
        [72, 72, 64],
    ),
    (
        (
            "Die 80 Maschen werden auf vier Nadeln verteilt, 20 auf jede.\nMan strickt am Ende jeder Nadel die beiden "
            "letzten Maschen zusammen.\nDann folgt eine glatte Tour.\nSo wechselt man ab, bis noch 72 Maschen da sind."
        ),
        [76, 76, 72],
    ),
    (
        (
            "80 Maschen, auf jeder Nadel 20.\nAm Anfang jeder Nadel werden zwei Maschen rechts zusammengestrickt.\nAuf "
            "jede Runde mit Abnahmen folgt eine Runde ohne Abnahmen.\nWenn noch 72 Maschen übrig sind, ist die "
            "Mütze fertig."
        ),
        [76, 76, 72],
    ),
    (
        (
            "Man nimmt die Spitze in acht Teilen ab, jeder Teil hat 10 M.\nDie ersten zwei M. jedes Teiles "
            "werden rechts "
            "zusammengestrickt.\nEine Tour um die andere wird so abgenommen, bis 64 M. bleiben."
        ),
        [72, 72, 64],
    ),
    (
        (
            "80 M. Abnahmen: nach je 8 M 2 re zus, 8 mal in der Runde (72).\nNächste Runde ohne Abnahmen.\n"
            "Nun nach je 7 M 2 re zus (64), wieder eine Runde drüber.\nNach je 6 M abnehmen (56)."
        ),
        [72, 72, 64, 64, 56],
    ),
    (
        (
            "Alle 10 M ein Marker.\nRunde mit Abnahmen: nach dem Marker überzogen abnehmen, vor dem Marker 2 re zus "
            "(64 M).\nDann eine Runde ohne.\nBeide Runden noch 1x (48 M)."
        ),
        [64, 64, 48, 48],
    ),
    (
        (
            "*8 M re, 2 M re zus*, 8x (72 M). Nächste Rd re.\nGenauso weiter, immer 1 M weniger vor dem "
            "Zusammenstricken "
            "und jedes Mal eine Runde re dazwischen, bis 56 M da sind."
        ),
        [72, 72, 64, 64, 56],
    ),
    (
        (
            "Du strickst 8 Maschen, dann strickst du 2 Maschen zusammen, und das machst du insgesamt 8 Mal, bis "
            "die Runde "
            "fertig ist (72 Maschen).\nDie nächste Runde wird rechts gestrickt.\nBeim zweiten Mal strickst du vor dem "
            "Zusammenstricken nur noch 7 Maschen (64 Maschen)."
        ),
        [72, 72, 64],
    ),
]


@pytest.mark.parametrize(("text", "after"), CROWNS)
def test_a_crown_is_told_in_whole_sentences(text: str, after: list[int]) -> None:
    """Where it is repeated, how many stitches go, the round between and the going on have sentences of their own."""
    reading = read(text, (80,), "de")
    assert not faults(reading)
    assert after_each_round(reading) == after


def test_first_decreases_are_not_those_of_a_round_before() -> None:
    """`Nimm ab` begins what a colon follows; `nimm nochmals ab` works it again."""
    text = "Nun nimmst du ab: *8 M re, 2 M re zus*, 8x (72 M).\nEine Runde rechts.\nNimm nochmals genauso ab."
    assert after_each_round(read(text, (80,), "de")) == [72, 72, 64]


def test_the_last_round_is_told_in_more_words() -> None:
    """`Ganz zum Schluss` begins one more round, as `zum Schluss` does."""
    text = "*6 M re, 2 M re zus*, 8x (56 M).\nGanz zum Schluss strickst du eine Runde lang immer 2 M re zusammen."
    assert after_each_round(read(text, (64,), "de")) == [56, 28]


@pytest.mark.parametrize(
    "stitches",
    [
        "jede 10. und 11. M (jede 11. und 12. M)",
        "jede 10. und 11. (11. und 12.) M",
        "jede 10. (11.) und 11. (12.) M",
    ],
)
def test_every_so_many_stitches_are_told_by_size(stitches: str) -> None:
    """The ordinals of the larger size stand in brackets, with or without their words."""
    reading = read(f"In der nächsten Rd {stitches} re zusstr = 80 (88) M.", (88, 96), "de")
    assert not faults(reading)
    assert [[done.after for done in lane] for lane in reading.rounds] == [[80], [88]]


TOLD_SHORTER = [
    (
        80,
        "*8 M re, 2 M re zus*, 8x (72 M).\nDie nächste Runde geht genauso, nur mit 7 M dazwischen.",
        [72, 64],
    ),
    (80, "*8 M re, 2 M re zus*, 8x.\nEine Runde rechts.\nDie nächste Runde geht genauso.", [72, 72, 72]),
    (24, "*2 M re zus*, fortlaufend.\nDie allerletzte Runde geht genauso: 6 Maschen.", [12, 6]),
    (
        80,
        (
            "*8 M re, 2 M re zus*, 8x (72 M).\n1 Runde rechts.\nIn der 3. Runde sind es nur noch 7 rechte Maschen, "
            "bevor du 2 zusammenstrickst (64 Maschen).\nIn gleicher Weise weiter, bis 48 M bleiben."
        ),
        [72, 72, 64, 64, 56, 56, 48],
    ),
    (
        96,
        (
            "In der 1. Rd 8 x 2 M re zus.str., dazwischen liegen je 10 M (88 M). 2. Rd re.\n"
            "In der 3. Rd liegen zwischen den Abnahmen je 9 M (80 M)."
        ),
        [88, 88, 80],
    ),
    (
        96,
        (
            "Die Mütze bleibt bis oben im Bündchenmuster (2 re, 2 li), nur die Rippen werden schmaler.\n"
            "2 re, 2 li zusammen, ganz herum. Bleiben 72.\n2 Runden stricken, wie die Maschen erscheinen, also 2 re, "
            "1 li.\nIn allen rechten Rippen 2 M zus (48 M).\nNun nur noch paarweise zusammenstricken, zwei Runden "
            "lang, erst auf 24, dann auf 12 Maschen."
        ),
        [72, 72, 72, 48, 24, 12],
    ),
    (
        96,
        (
            "Nun wird an jeder Nadel zweimal abgenommen, und zwar strickt man die 1. Masche rechts, die 2. und 3. "
            "verschränkt zusammen, hierauf glatt bis zu den drei letzten Maschen der Nadel, von diesen zwei rechts "
            "zusammen und die letzte wieder rechts (88 M)."
        ),
        [88],
    ),
    (
        84,
        (
            "Du brauchst sechs Markierer. Setze sie nach jeweils 14 Maschen.\nAbnahmerunde: Nach jedem Markierer 2 M "
            "überz zusstr, dann rechts bis 2 M vor dem nächsten Markierer, 2 M rechts zusstr. Du nimmst so 12 M ab und "
            "hast noch 72.\nEine Runde rechts.\nDiese zwei Runden noch einmal (60 M).\nNun zweimal im Wechsel die "
            "Abnahmerunde und eine Runde rechts."
        ),
        [72, 72, 60, 60, 48, 48, 36, 36],
    ),
]


@pytest.mark.parametrize(("begun", "text", "after"), TOLD_SHORTER)
def test_a_round_is_told_by_what_differs_from_the_round_before(
    begun: int, text: str, after: list[int]
) -> None:
    reading = read(text, (begun,), "de")
    assert not faults(reading)
    assert after_each_round(reading) == after
