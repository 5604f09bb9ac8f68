"""What teachers and old books print in German: a round and its repetition in whole sentences. Worked by hand."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, after_rounds_of_sizes, counts, faults

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
        80,
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
        80,
        (
            "Setze nach jeder 10. Masche einen Marker.\nVor jedem Marker strickst du zwei Maschen rechts zusammen, so "
            "verlierst du in jeder Runde 8 Maschen.\nDas machst du in jeder zweiten Runde, bis du noch 64 Maschen hast."
        ),
        [72, 72, 64],
    ),
    (
        80,
        (
            "Man strickt stets 8 Maschen rechts und die 9. und 10. zusammen, wodurch sich die Maschenzahl um 8 "
            "vermindert."
            "\nDann strickt man eine Tour glatt.\nNun 7 Maschen und die 8. und 9. zusammen, bleiben 64 Maschen."
        ),
        [72, 72, 64],
    ),
    (
        80,
        (
            "Die 80 Maschen werden auf vier Nadeln verteilt, 20 auf jede.\nMan strickt am Ende jeder Nadel die beiden "
            "letzten Maschen zusammen.\nDann folgt eine glatte Tour.\nSo wechselt man ab, bis noch 72 Maschen da sind."
        ),
        [76, 76, 72],
    ),
    (
        80,
        (
            "80 Maschen, auf jeder Nadel 20.\nAm Anfang jeder Nadel werden zwei Maschen rechts zusammengestrickt.\nAuf "
            "jede Runde mit Abnahmen folgt eine Runde ohne Abnahmen.\nWenn noch 72 Maschen übrig sind, ist die "
            "Mütze fertig."
        ),
        [76, 76, 72],
    ),
    (
        80,
        (
            "Man nimmt die Spitze in acht Teilen ab, jeder Teil hat 10 M.\nDie ersten zwei M. jedes Teiles "
            "werden rechts "
            "zusammengestrickt.\nEine Tour um die andere wird so abgenommen, bis 64 M. bleiben."
        ),
        [72, 72, 64],
    ),
    (
        80,
        (
            "80 M. Abnahmen: nach je 8 M 2 re zus, 8 mal in der Runde (72).\nNächste Runde ohne Abnahmen.\n"
            "Nun nach je 7 M 2 re zus (64), wieder eine Runde drüber.\nNach je 6 M abnehmen (56)."
        ),
        [72, 72, 64, 64, 56],
    ),
    (
        80,
        (
            "Alle 10 M ein Marker.\nRunde mit Abnahmen: nach dem Marker überzogen abnehmen, vor dem Marker 2 re zus "
            "(64 M).\nDann eine Runde ohne.\nBeide Runden noch 1x (48 M)."
        ),
        [64, 64, 48, 48],
    ),
    (
        80,
        (
            "*8 M re, 2 M re zus*, 8x (72 M). Nächste Rd re.\nGenauso weiter, immer 1 M weniger vor dem "
            "Zusammenstricken "
            "und jedes Mal eine Runde re dazwischen, bis 56 M da sind."
        ),
        [72, 72, 64, 64, 56],
    ),
    (
        80,
        (
            "Du strickst 8 Maschen, dann strickst du 2 Maschen zusammen, und das machst du insgesamt 8 Mal, bis "
            "die Runde "
            "fertig ist (72 Maschen).\nDie nächste Runde wird rechts gestrickt.\nBeim zweiten Mal strickst du vor dem "
            "Zusammenstricken nur noch 7 Maschen (64 Maschen)."
        ),
        [72, 72, 64],
    ),
    # a round told by what differs from the round before
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
    # crowns of teachers and old books
    (
        72,
        (
            "Wir haben nun 72 Maschen auf der Nadel, und es geht an die Abnahmen.\nDazu stricken wir immer 7 "
            "Maschen, und die nächsten beiden stricken wir zusammen.\nWenn ihr einmal rum seid, habt ihr noch 64 "
            "Maschen.\nDanach kommt eine Runde zum Verschnaufen, einfach rechte Maschen.\nJetzt das Ganze mit 6 "
            "Maschen dazwischen, dann sind es 56.\nWieder eine Verschnaufrunde.\nUnd so macht ihr das, bis ihr "
            "nur noch 16 Maschen habt."
        ),
        [64, 64, 56, 56, 48, 48, 40, 40, 32, 32, 24, 24, 16],
    ),
    (
        72,
        (
            "Nach je 12 Maschen hängt man einen Marker ein, also sechs Stück.\nMan strickt bis 2 Maschen vor den "
            "ersten Marker, strickt diese zusammen und wiederholt das an allen Markern.\nEs sind dann sechs "
            "Maschen weniger, also 66.\nEine Runde glatt.\nDiese beiden Runden noch viermal.\nAb jetzt wird in "
            "jeder Runde abgenommen, bis 12 Maschen übrig sind."
        ),
        [66, 66, 60, 60, 54, 54, 48, 48, 42, 42, 36, 30, 24, 18, 12],
    ),
    (
        60,
        (
            "Erste Abnahmerunde: nach jeder 8. Masche zwei zusammenstricken (54 M).\nDann strickst du 2 Runden "
            "ohne Abnahme.\nZweite Abnahmerunde: nach jeder 7. Masche zwei zusammenstricken (48 M).\nWieder 2 "
            "Runden ohne Abnahme.\nDritte Abnahmerunde: nach jeder 6. Masche zwei zusammen (42 M).\nDanach nimmst"
            " du in jeder zweiten Runde ab, immer mit einer Masche weniger dazwischen, bis du 18 Maschen hast."
        ),
        [54, 54, 54, 48, 48, 48, 42, 42, 36, 36, 30, 30, 24, 24, 18],
    ),
    (
        84,
        (
            "Stricke 5 M, dann 2 M zusammen, und zwar zwölfmal in der Runde.\nDu hast jetzt nur noch 72 M.\n3 "
            "Runden rechts.\nNun 4 M, 2 M zusammen, wieder zwölfmal (60 M).\nDann zwei Runden rechts und eine mit"
            " 3 M zwischen den Abnahmen (48 M).\nEine Runde rechts, dann 2 M, 2 M zusammen (36 M).\nDann 1 M, 2 M"
            " zusammen (24 M) und schließlich immer 2 M zusammen (12 M)."
        ),
        [72, 72, 72, 72, 60, 60, 60, 48, 48, 36, 24, 12],
    ),
    (
        90,
        (
            "Los geht es mit den Abnahmen. Runde 1: Stricke 13 M rechts und 2 M rechts zusammen, das Ganze "
            "sechsmal.\nRunde 2 und alle geraden Runden: einfach rechts abstricken.\nRunde 3: Jetzt sind es 12 M "
            "vor dem Zusammenstricken.\nRunde 5: Jetzt sind es 11 M vor dem Zusammenstricken (72 M).\nSo "
            "weitermachen, bis 48 M übrig sind. Danach in jeder Runde abnehmen, bis noch 12 M da sind."
        ),
        [84, 84, 78, 78, 72, 72, 66, 66, 60, 60, 54, 54, 48, 42, 36, 30, 24, 18, 12],
    ),
    (
        64,
        (
            "Es wird an acht Stellen gleichmäßig verteilt abgenommen, d. h. es werden stets 6 Maschen gestrickt, "
            "dann folgt eine Abnahme.\nNach dieser Runde 56 Maschen.\nNun wird eine Runde gestrickt, ohne "
            "abzunehmen.\nBei der nächsten Abnahmerunde liegen nur 5 Maschen zwischen den Abnahmen, bei der "
            "folgenden 4 und so fort.\nZuletzt sind noch 8 Maschen auf den Nadeln."
        ),
        [56, 56, 48, 48, 40, 40, 32, 32, 24, 24, 16, 16, 8],
    ),
    (
        48,
        (
            "Für die Spitze strickst du rundherum 4 M rechts, 2 M rechts zusammen. Das sind 8 Abnahmen, also "
            "bleiben 40 M.\nDann 3 M rechts, 2 zusammen (32).\nDann 2 M rechts, 2 zusammen (24).\nDann nur noch "
            "zusammenstricken, zwei Runden lang, bis 6 Maschen übrig sind."
        ),
        [40, 32, 24, 12, 6],
    ),
    (
        96,
        (
            "Liebe Strickfreundinnen, jetzt wird's spannend, die Mütze bekommt ihren Deckel!\n96 Maschen haben "
            "wir, und die teilen wir durch 8: In jedem Achtel sind also 12 Maschen.\nIn der ersten Abnahmerunde "
            "stricken wir in jedem Achtel 10 Maschen rechts und die letzten zwei zusammen.\nDann stricken wir "
            "eine Runde drüber.\nIn der nächsten Abnahmerunde sind es nur noch 9 Maschen, bevor wir "
            "zusammenstricken, dann 8, dann 7 und immer so weiter, stets mit einer Runde dazwischen.\nBei 48 "
            "Maschen lassen wir die Runde dazwischen weg.\nWir hören auf, wenn noch 8 Maschen übrig sind."
        ),
        [88, 88, 80, 80, 72, 72, 64, 64, 56, 56, 48, 40, 32, 24, 16, 8],
    ),
    (
        64,
        (
            "Nun schließt man die Haube. Man strickt 6 Maschen, nimmt dann 1 ab und wiederholt dies ringsum, so "
            "dass nach der Tour noch 56 Maschen auf den Nadeln sind.\nNach zwei glatten Touren strickt man 5 "
            "Maschen, nimmt 1 ab und so fort (48 Maschen).\nWieder zwei glatte Touren, dann je 4 Maschen und eine"
            " Abnahme (40 Maschen).\nHierauf wird in jeder zweiten Tour abgenommen, bis nur 8 Maschen übrig sind."
        ),
        [56, 56, 56, 48, 48, 48, 40, 40, 32, 32, 24, 24, 16, 16, 8],
    ),
    (
        81,
        (
            "Du hast 81 Maschen. Stricke immer 7 Maschen und dann die 8. und 9. zusammen.\nJetzt müssten es 72 "
            "sein.\nStricke jetzt zwei Runden ohne irgendwas.\nDann immer 6 Maschen und die 7. und 8. "
            "zusammen.\nJetzt müssten es 63 sein. Stricke wieder zwei Runden ohne irgendwas.\nUnd jetzt immer 5 "
            "Maschen und die 6. und 7. zusammen (54)."
        ),
        [72, 72, 72, 63, 63, 63, 54],
    ),
    (
        72,
        (
            "Für die Krone sechs Marker setzen, alle 12 Maschen einen.\nImmer die beiden Maschen vor dem Marker "
            "zusammenstricken.\nDas passiert in jeder zweiten Runde, so lange, bis zwischen den Markern nur noch "
            "6 Maschen sind.\nDanach passiert es in jeder Runde, bis zwischen den Markern nur noch 1 Masche ist."
        ),
        [66, 66, 60, 60, 54, 54, 48, 48, 42, 42, 36, 30, 24, 18, 12, 6],
    ),
    (
        48,
        (
            "Jetzt nehmen wir ab, und zwar viermal in jeder Runde: am Ende von Nadel 1, 2, 3 und 4 je die letzten"
            " beiden Maschen zusammen.\nMacht 44 Maschen. Das machen wir genauso in den nächsten fünf "
            "Runden.\nJetzt haben wir 24 Maschen."
        ),
        [44, 40, 36, 32, 28, 24],
    ),
    (
        80,
        (
            "Die Kappe wird nun abgenommen. Man teilt die 80 Maschen in 8 gleiche Teile.\nIn der ersten Tour "
            "werden die letzten zwei Maschen eines jeden Teiles rechts zusammen abgestrickt.\nHierauf eine Tour "
            "glatt.\nDiese zwei Touren wiederholt man, bis in jedem Teil nur noch 4 Maschen sind.\nSodann nimmt "
            "man in jeder Tour ab, bis zuletzt 8 Maschen übrig bleiben."
        ),
        [72, 72, 64, 64, 56, 56, 48, 48, 40, 40, 32, 32, 24, 16, 8],
    ),
    (
        90,
        (
            "So, nun die Spitze. Wir nehmen sechsmal in der Runde ab, also nach jeweils 13 Maschen.\n13 rechts, 2"
            " zusammen – das sechsmal, und schon sind es 84.\nEine Runde rechts zum Ausruhen.\n12 rechts, 2 "
            "zusammen, sechsmal: 78.\nUnd wieder eine Runde rechts.\nIhr merkt schon, wie es geht: Jedes Mal eine"
            " weniger. Macht so weiter bis 48 Maschen.\nDann lasst ihr die Ausruh-Runden weg, bis 12 Maschen da "
            "sind."
        ),
        [84, 84, 78, 78, 72, 72, 66, 66, 60, 60, 54, 54, 48, 42, 36, 30, 24, 18, 12],
    ),
    (
        72,
        (
            "Das Abnehmen geschieht an 6 Stellen. Die 72 M. werden in 6 Teile zu 12 M. geteilt und am Ende eines "
            "jeden Teiles 2 M. r. zus. gestr.\nEs folgt 1 Tour r.\nDiese 2 Touren wiederholt man noch 3mal (48 "
            "M.).\nNun in jeder Tour abn., bis 12 M. übrig sind."
        ),
        [66, 66, 60, 60, 54, 54, 48, 48, 42, 36, 30, 24, 18, 12],
    ),
    (
        60,
        (
            "In der nächsten Runde wird jede 5. und 6. Masche rechts zusammengestrickt, so bleiben 50 "
            "Maschen.\nDarüber werden 4 Runden glatt gestrickt.\nIn der folgenden Runde wird jede 4. und 5. "
            "Masche zusammengestrickt, so bleiben 40 Maschen, darüber 3 Runden glatt.\nDann wird jede 3. und 4. "
            "Masche zusammengestrickt (30 Maschen), darüber 2 Runden glatt.\nDann jede 2. und 3. (20 Maschen), "
            "darüber eine Runde.\nZum Schluss je 2 Maschen zusammen."
        ),
        [50, 50, 50, 50, 50, 40, 40, 40, 40, 30, 30, 30, 20, 20, 10],
    ),
    (
        84,
        (
            "Stelle nach jeder 21. Masche einen Marker ein, der vierte sitzt am Rundenanfang.\nAbnahmerunde: "
            "*stricke bis 3 Maschen vor dem Marker, 2 Maschen rechts zusammen, 1 rechts, Marker abheben, 1 "
            "rechts, 2 überzogen zusammen*, wiederhole das an allen Markern. Das sind acht Maschen "
            "weniger.\nArbeite die Abnahmerunde jede vierte Runde, insgesamt dreimal, dann jede zweite Runde "
            "viermal.\nNun sind es noch 28 Maschen."
        ),
        [76, 76, 76, 76, 68, 68, 68, 68, 60, 60, 52, 52, 44, 44, 36, 36, 28],
    ),
    (
        96,
        (
            "Abnahmen für den Deckel\n1. Rd: die 11. und 12. M re zusstr, 8x = 88 M.\n2. Rd und alle Rd mit "
            "gerader Zahl: re.\n3. Rd: die 10. und 11. M re zusstr, 8x = 80 M.\n5. Rd: die 9. und 10. M re zusstr"
            " = 72 M.\nAuf diese Weise weiter abn, bis in der 15. Rd 32 M bleiben.\n16. und 17. Rd: je 2 M zusstr"
            " = 8 M."
        ),
        [88, 88, 80, 80, 72, 72, 64, 64, 56, 56, 48, 48, 40, 40, 32, 16, 8],
    ),
    (
        64,
        (
            "Beginne nun mit dem Abnehmen. Dafür strickst du auf jeder Nadel die ersten beiden Maschen rechts "
            "verschränkt zusammen und die letzten beiden rechts zusammen.\nAuf vier Nadeln macht das acht Maschen"
            " weniger, also bleiben 56.\nDarauf folgt jeweils eine Runde ohne Abnahme.\nWenn du das viermal "
            "gemacht hast, sind 32 Maschen übrig.\nDanach ohne Runde dazwischen, bis nur noch 8 Maschen da sind."
        ),
        [56, 56, 48, 48, 40, 40, 32, 32, 24, 16, 8],
    ),
    (
        96,
        (
            "In der folgenden Tour strickt man die 11. und 12. M., die 23. und 24. M. usf. zusammen, so dass die "
            "Tour 88 M. zählt.\n2 Touren glatt.\nIn der nächsten Tour strickt man die 10. und 11. M. zusammen und"
            " fährt so fort (80 M.).\n2 Touren glatt."
        ),
        [88, 88, 88, 80, 80, 80],
    ),
    (
        66,
        (
            "Erst 9, dann 2 zusammen, und so sechsmal. Nun 60.\nDrüber eine Runde.\nErst 8, dann 2 zusammen, und "
            "so sechsmal. Nun 54.\nDrüber eine Runde.\nErst 7, dann 2 zusammen, und so sechsmal. Nun 48."
        ),
        [60, 60, 54, 54, 48],
    ),
    (
        80,
        (
            "*8 M re, 2 M re zus*, 8x (72 M).\n2. Runde: rechts.\nDie dritte Runde ist wie die erste, nur dass du"
            " 7 Maschen vor dem Zusammenstricken hast (64 Maschen).\n4. Runde wie 2. Runde.\nDie fünfte Runde wie"
            " die erste, aber mit 6 Maschen (56 Maschen)."
        ),
        [72, 72, 64, 64, 56],
    ),
    (
        64,
        (
            "*6 M re, 2 M re zus*, 8x (56 M).\nEine normale Runde.\nSo weiter bis 32 M. Ab jetzt gibt es keine "
            "Zwischenrunden mehr. Noch dreimal abnehmen."
        ),
        [56, 56, 48, 48, 40, 40, 32, 24, 16, 8],
    ),
    # what grows less, how often and until when, told beside the going on
    (
        104,
        (
            "In der folg. Rd jede 12. und 13. M re zusammenstr. = 96 M. Diese Abnahmen noch 5x in jeder 2. Rd, "
            "dann 5x in jeder Rd an den gleichen Stellen wiederholen, dabei verringert sich die M-Zahl zwischen "
            "den Abnahmen jeweils um 1 M. Die restlichen 16 M zusammenziehen."
        ),
        [96, 96, 88, 88, 80, 80, 72, 72, 64, 64, 56, 48, 40, 32, 24, 16],
    ),
    (
        80,
        (
            "Auf jeder Nadel die 2. und 3. Masche überzogen zusammenstricken (1 M abheben, 1 M re, die "
            "abgehobene M überziehen) und die drittletzte mit der vorletzten Masche rechts zusammenstricken.\n"
            "Dies in jeder 2. Runde wiederholen, in der Runde dazwischen alle Maschen rechts stricken.\nSind auf "
            "jeder Nadel nur noch 4 Maschen, in der nächsten Runde immer 2 Maschen rechts zusammenstricken."
        ),
        [72, 72, 64, 64, 56, 56, 48, 48, 40, 40, 32, 32, 24, 24, 16, 8],
    ),
    (
        72,
        (
            "1. Runde: 7 M re, 2 M re zus, stets wdh (64 M).\nDie nächste Runde strickst du einfach rechts.\nIn "
            "der dritten Runde strickst du nur noch 6 Maschen rechts, bevor wieder zwei zusammenkommen (56 M).\n"
            "Du merkst schon, zwischen den Abnahmen liegt jedes Mal eine Masche weniger. Mach so weiter, eine "
            "Runde ohne Abnahmen, eine Runde mit, bis du nur noch 40 Maschen hast.\nAb der Runde danach nimmst "
            "du in jeder Runde ab: erst 3 rechts, 2 zusammen (32 M), dann 2 rechts, 2 zusammen (24 M)."
        ),
        [64, 64, 56, 56, 48, 48, 40, 32, 24],
    ),
    (
        72,
        (
            "Zum Abnehmen teilt man die Arbeit in 6 gleiche Teile zu je 12 Maschen. Am Ende eines jeden Teiles "
            "strickt man 2 M. rechts zusammen (66 M.).\nDieses Abnehmen wiederholt man in jeder zweiten Runde, "
            "bis noch 48 M. vorhanden sind, danach in jeder Runde, bis nur 36 M. übrigbleiben."
        ),
        [66, 66, 60, 60, 54, 54, 48, 42, 36],
    ),
    (
        72,
        (
            "Nach jeder 12. Masche einen Marker einhängen.\nVor jedem Marker 2 M re zusstr (66 M).\nMan "
            "wiederholt dieses Abnehmen in jeder dritten Runde, bis 54 M. bleiben."
        ),
        [66, 66, 66, 60, 60, 60, 54],
    ),
    (
        96,
        (
            "Es liegen 96 Maschen im Rhythmus 2 re, 2 li auf der Nadel. In der nächsten Runde werden die linken "
            "Rippen schmaler: die 2 linken Maschen jeder Rippe links zusammenstricken. Es bleiben 72 Maschen.\n1 "
            "Runde stricken, wie die Maschen erscheinen (2 re, 1 li).\nNun kommen die rechten Rippen an die "
            "Reihe: jeweils 2 M rechts zusammenstricken, die linke Masche links stricken = 48 Maschen."
        ),
        [72, 72, 48],
    ),
    (
        63,
        (
            "5 Maschen rechts, 2 zusammen, bis zum Ende: 54 Maschen.\nEine Runde rechts. Danach zweimal "
            "hintereinander 1 Masche rechts, 2 zusammen: 36 und 24 Maschen."
        ),
        [54, 54, 36, 24],
    ),
]


@pytest.mark.parametrize(("begun", "text", "after"), CROWNS)
def test_a_crown_is_told_in_whole_sentences(begun: int, text: str, after: list[int]) -> None:
    """Where it is repeated, how many stitches go, the round between and the going on have sentences of their own."""
    reading = read(text, (begun,), "de")
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


@pytest.mark.parametrize(
    ("next_round", "after"),
    [
        ("Die nächste Runde strickst du einfach rechts.", 72),
        ("Die nächste Runde strickst du rechts, ohne etwas abzunehmen.", 72),
        ("Die nächste Runde strickst du genauso.", 64),
    ],
)
def test_the_next_round_is_plain_where_it_is_not_as_the_last(next_round: str, after: int) -> None:
    text = f"Auf jeder Nadel die ersten 2 und die letzten 2 Maschen rechts zusammenstricken (72 M).\n{next_round}"
    assert after_each_round(read(text, (80,), "de")) == [72, after]


def test_rounds_of_a_number_in_words_with_the_verb_behind_are_rounds() -> None:
    text = (
        "Stricke 8 M rechts, 2 M rechts zusammen, bis zum Rundenende (72 M).\nDie zweite Runde strickst du rechts.\n"
        "Die dritte Runde strickst du mit 7 Maschen zwischen den Abnahmen.\nDie vierte strickst du wie die zweite."
    )
    assert after_each_round(read(text, (80,), "de")) == [72, 72, 64, 64]


@pytest.mark.parametrize(
    "end",
    [
        "Sind nur noch 16 Maschen auf den Nadeln, immer 2 Maschen rechts zusammenstricken.",
        "Wenn nur noch 16 Maschen übrig sind, in der nächsten Runde alle Maschen paarweise rechts zusammenstricken.",
        "Bleiben auf jeder Nadel noch 4 Maschen, werden alle Maschen paarweise zusammengestrickt.",
    ],
)
def test_the_decreases_end_where_so_many_stitches_are_left(end: str) -> None:
    text = (
        "Auf jeder Nadel nach der 1. Masche 2 M überzogen zusammenstricken, vor der letzten Masche 2 M rechts "
        f"zusammenstricken (72 M).\nDiese Abnahmen in jeder 2. Runde wiederholen.\n{end}"
    )
    to_end = [72, 72, 64, 64, 56, 56, 48, 48, 40, 40, 32, 32, 24, 24, 16, 8]
    assert after_each_round(read(text, (80,), "de")) == to_end


@pytest.mark.parametrize(
    ("divided", "place"),
    [
        (
            "Zum Abnehmen wird die Arbeit in 6 gleiche Teile zu 12 Maschen geteilt",
            "Am Anfang eines jeden Teiles",
        ),
        ("Man teilt nun die Maschen in 6 Teile", "Am Schlusse jedes Teiles"),
    ],
)
def test_parts_of_old_books(divided: str, place: str) -> None:
    text = (
        f"{divided}. {place} strickt man 2 M. rechts zusammen (66 M.).\nDas Abnehmen wird in jeder 2. Tour wiederholt, "
        "bis 54 M. übrig sind, alsdann in jeder Tour, bis 42 M. übrig sind."
    )
    assert after_each_round(read(text, (72,), "de")) == [66, 66, 60, 60, 54, 48, 42]


@pytest.mark.parametrize(
    ("third", "more"),
    [
        ("Die dritte Runde stricken wir wie die erste, aber mit 7 rechten Maschen.", []),
        ("Die dritte Runde wieder mit Abnahmen, diesmal mit 7 Maschen dazwischen (64 M).", []),
        (
            (
                "Die dritte Runde strickst du genauso wie die erste, nur mit 7 Maschen vor dem Zusammenstricken.\n"
                "Diese beiden Runden strickst du noch zweimal, jedes Mal mit einer Masche weniger."
            ),
            [64, 56, 56, 48],
        ),
    ],
)
def test_a_round_as_the_first_with_other_numbers(third: str, more: list[int]) -> None:
    text = f"8 M rechts, 2 M rechts zusammen, immer wiederholen (72 M).\nDie zweite Runde strickst du rechts.\n{third}"
    assert after_each_round(read(text, (80,), "de")) == [72, 72, 64, *more]


@pytest.mark.parametrize(
    ("rounds", "after"),
    [
        ("noch 1x in jeder 4. Rd und 2x in jeder 2. Rd", [88, 88, 88, 80, 80, 72, 72, 64]),
        ("noch 1x in jeder 2. Rd und 2x in jeder 3. Rd", [88, 80, 80, 80, 72, 72, 72, 64]),
        ("noch 1x in jeder 2. Rd, dann 2x in jeder Rd", [88, 80, 72, 64]),
    ],
)
def test_decreases_worked_again_at_two_rhythms(rounds: str, after: list[int]) -> None:
    text = f"In der folg. Rd jede 11. und 12. M re zusammenstr. = 88 M. Diese Abnahmen {rounds} wiederholen."
    reading = read(text, (96,), "de")
    assert not faults(reading)
    assert after_each_round(reading) == [88, *after]


@pytest.mark.parametrize(
    "fewer",
    [
        "dabei sind zwischen den Abnahmen jeweils 1 M weniger",
        "dabei liegt zwischen den Abnahmen jedes Mal 1 M weniger",
        "wobei zwischen den Abnahmen stets 1 M weniger bleibt",
    ],
)
def test_rounds_worked_again_with_fewer_stitches_that_lie_between_decreases(fewer: str) -> None:
    text = (
        "1. Rd: * 7 M re, 2 M re zusstr, ab * stets wdh = 64 M.\n2. Rd: re M str.\n"
        f"Die 1. und 2. Rd noch 2x wdh, {fewer} = 48 M."
    )
    assert after_each_round(read(text, (72,), "de")) == [64, 64, 56, 56, 48, 48]


@pytest.mark.parametrize(
    ("start", "then"),
    [
        ("Von nun an in jeder Runde abnehmen, und zwar zuerst", "dann"),
        ("Nun wird in jeder Runde abgenommen: erst", "danach"),
        ("Jetzt nimmt man in jeder Runde ab, zuerst", "hierauf"),
    ],
)
def test_pairs_in_turn_on_every_round_are_rounds_of_their_own(start: str, then: str) -> None:
    text = (
        f"{start} jede 6. und 7., {then} jede 5. und 6. und jede 4. und 5. Masche zusammenstricken (32 M.)."
    )
    assert after_each_round(read(text, (56,), "de")) == [48, 40, 32]


def test_a_pair_on_every_round_keeps_its_rhythm() -> None:
    reading = read("In jeder Runde abnehmen, und zwar jede 6. und 7. Masche zusammenstricken.", (56,), "de")
    assert [finding.code for finding in reading.findings] == ["to_a_length"]


@pytest.mark.parametrize("also", ["und die", "sowie die"])
def test_pairs_of_a_needle_joined_by_a_plus(also: str) -> None:
    text = (
        f"1. Abnahmerunde: auf jeder Nadel die 7. + 8. {also} 15. + 16. Masche rechts zusammenstricken (56 Maschen)\n"
        "1 Runde rechts\n2. Abnahmerunde: immer die 6. + 7. Masche zusammenstricken (48 Maschen)"
    )
    reading = read(text, (64,), "de")
    assert not faults(reading)
    assert after_each_round(reading) == [56, 56, 48]


@pytest.mark.parametrize(
    "double",
    [
        "1 doppelten Überzug arb. (2 M zus. re abheben, 1 M re, die abgehobenen M darüberziehen)",
        "1 doppelte Abnahme str. (2 M zus. abheben, 1 M re, die abgehobenen M überziehen)",
        "1 doppelten Überzug arbeiten",
    ],
)
def test_a_double_decrease_that_is_worked_and_explained_within_a_repeat(double: str) -> None:
    text = f"Nächste Abn-Rd: * 3 M re, {double}, 4 M re, ab * noch 8x wdh."
    reading = read(text, (90,), "de")
    assert not faults(reading)
    assert after_each_round(reading) == [72]


@pytest.mark.parametrize(
    ("later", "plain"),
    [
        ("In der 4. folg. Rd", 3),
        ("Dann in der 3. darauffolgenden Runde", 2),
        ("In der 4. Runde danach", 3),
        ("In der übernächsten Rd", 1),
    ],
)
def test_rounds_up_to_the_next_decrease_are_plain(later: str, plain: int) -> None:
    reading = read(
        f"Jede 9. und 10. M re zusstr (= 90 M). {later} jede 8. und 9. M re zusstr (= 80 M).", (100,), "de"
    )
    assert not faults(reading)
    assert after_each_round(reading) == [90] * (plain + 1) + [80]


def test_a_round_that_follows_may_have_its_own_number() -> None:
    """`In der folgenden 4. Runde`, behind the third, is the fourth."""
    reading = read(
        "Die ersten 3 Rd re str. In der folg 4. Rd jede 9. und 10. M re zusstr (= 90 M).", (100,), "de"
    )
    assert after_each_round(reading) == [100, 100, 100, 90]


@pytest.mark.parametrize("fourth", ["jeder 4. folgenden", "jeder folg. 4."])
def test_decreases_in_every_fourth_round_that_follows(fourth: str) -> None:
    reading = read(
        f"*8 M re, 2 M re zusstr*, ab * wdh (= 90 M). Die Abnahmen in {fourth} Rd noch 2x wdh (= 70 M).",
        (100,),
        "de",
    )
    assert after_each_round(reading) == [90, 90, 90, 90, 80, 80, 80, 80, 70]


@pytest.mark.parametrize(
    ("printed", "times"),
    [("noch 3x/4x", (3, 4)), ("noch dreimal | viermal", (3, 4)), ("noch 3 bzw. 4 Mal", (3, 4))],
)
def test_how_often_each_size_decreases(printed: str, times: tuple[int, int]) -> None:
    text = f"Rd 1: *8/9 M re, 2 M re zus* (72/80 M)\nDiese Abnahmen in jeder 2. Runde {printed} ausführen."
    shaped = after_rounds_of_sizes(read(text, (80, 88), "de"))
    assert [counts_of_size[-1] for counts_of_size in shaped] == [72 - 8 * times[0], 80 - 8 * times[1]]


def test_respectively_stands_before_the_last_size() -> None:
    text = (
        "In der ersten Abnahmerunde werden immer 6, 7 beziehungsweise 8 Maschen rechts und dann 2 Maschen rechts "
        "zusammengestrickt, danach sind es noch 56, 64 beziehungsweise 72 Maschen."
    )
    assert after_rounds_of_sizes(read(text, (64, 72, 80), "de")) == [[56], [64], [72]]


def test_a_line_for_two_of_three_sizes_has_their_numbers() -> None:
    text = (
        "Rd 1: 12x [3/4/5 M re, 2 M re zus] (48/60/72 M)\nNur Gr. II und III:\n"
        "Rd 2: 12x [1/2 M re, 1 M re, 2 M re zus, 1 M re]"
    )
    assert after_rounds_of_sizes(read(text, (60, 72, 84), "de")) == [[48], [60, 48], [72, 60]]


BEGINNINGS = [
    "In jedem Achtel strickst du die beiden ersten Maschen rechts zusammen",
    "Am Anfang jedes Feldes 2 M re zusstr",
    "Stricken Sie in jedem Keil die ersten zwei Maschen überzogen zusammen",
    "Bei jedem Segment die ersten beiden Maschen rechts verschränkt zusammenstricken",
]
SMALL_SECTIONS = [
    "bis jedes Feld nur noch aus 9 Maschen besteht (72 Maschen)",
    "bis jeder Abschnitt 9 Maschen hat",
    "bis in jedem Keil noch 9 Maschen liegen",
]


@pytest.mark.parametrize("beginning", BEGINNINGS)
@pytest.mark.parametrize("small", SMALL_SECTIONS)
def test_each_section_begins_with_a_decrease(beginning: str, small: str) -> None:
    rounds = f"1. Runde: {beginning}.\n2. Runde: rechts.\nDiese zwei Runden wiederholen, {small}."
    text = f"96 M, 8 Abschnitte zu 12 M.\n{rounds}"
    reading = read(text, (96,), "de")
    assert not faults(reading)
    assert after_each_round(reading) == [88, 88, 80, 80, 72, 72]


def test_both_ends_of_each_section() -> None:
    text = (
        "Man teilt die 108 M in sechs Abschnitte von je 18 Maschen ein und strickt am Anfang jedes Abschnitts zwei "
        "Maschen überzogen zusammen und am Ende zwei Maschen rechts zusammen.\n"
        "Diese Abnahmen werden in jeder dritten Runde zweimal (72 Maschen) wiederholt."
    )
    assert after_each_round(read(text, (108,), "de")) == [96, 96, 96, 84, 84, 84, 72]


@pytest.mark.parametrize("goes_on", ["und so fährt man fort, stets", "und so geht es weiter, immer"])
def test_plain_rounds_lie_between_where_a_crown_goes_on(goes_on: str) -> None:
    text = (
        "Jede 10. und 11. Masche zusammenstricken (90 M), zwei Touren darüber.\nIn der nächsten Abnehmetour "
        f"strickt man jede 9. und 10. Masche zusammen, {goes_on} mit zwei glatten Touren dazwischen, "
        "bis nur noch 72 Maschen übrig sind."
    )
    assert after_each_round(read(text, (99,), "de")) == [90, 90, 90, 81, 81, 81, 72]


def test_rounds_have_their_number_in_a_word() -> None:
    text = (
        "Runde eins: Jeweils elf Maschen rechts, die nächsten zwei Maschen werden zu einer zusammengestrickt.\n"
        "Runden zwei bis vier: rechts.\nAb Runde fünf wechseln sich eine Runde ohne und eine Runde mit acht "
        "Abnahmen ab, bis am Ende von Runde zehn noch 72 Maschen übrig sind."
    )
    assert after_each_round(read(text, (104,), "de")) == [96, 96, 96, 96, 96, 88, 88, 80, 80, 72]


@pytest.mark.parametrize(
    "between", ["die Runden dazwischen rechts stricken", "dazwischen je 1 Runde rechts stricken"]
)
def test_the_rounds_between_are_named_in_the_same_sentence(between: str) -> None:
    text = f"1. Runde: *8 M re, 2 M re zus* (72 M)\nDiese Abnahmen noch 2x in jeder 2. Runde ausführen, {between}."
    assert after_each_round(read(text, (80,), "de")) == [72, 72, 64, 64, 56]


def test_remaining_stitches_to_be_drawn_together_are_no_work() -> None:
    """`Restliche M re` is work; `Restliche M zusammenziehen` is none."""
    text = "1. Rd: *2 M re zusstr* (12 M). Restliche M mit dem Faden zusammenziehen."
    assert after_each_round(read(text, (24,), "de")) == [12]


def test_sizes_by_a_letter_begin_in_their_own_round() -> None:
    text = (
        "Gr. A = 72 M, Gr. B = 80 M\nKrone: Gr. B beginnt mit Rd 1, Gr. A mit Rd 3.\nRd 1: * 8 M re, 2 M re zus-str; "
        "ab * bis Ende (72 M)\nRd 2: re\nRd 3: * 7 M re, 2 M re zus-str; ab * bis Ende (64 M)"
    )
    assert after_rounds_of_sizes(read(text, (72, 80), "de")) == [[64], [72, 72, 64]]


def test_plain_rounds_follow_the_first_decreases_and_fewer_the_next() -> None:
    text = (
        "Nach je 12 Maschen hängst du einen Markierer ein.\nAbnahmerunde: * Rechts stricken bis 2 Maschen vor dem "
        "Markierer, diese beiden Maschen rechts zusammenstricken *, von * bis * stets wiederholen. In jeder "
        "Abnahmerunde verschwinden 8 Maschen.\nStricke nach jeder der ersten zwei Abnahmerunden drei Runden ohne "
        "Abnahmen (80 Maschen), nach den nächsten zwei Abnahmerunden nur noch je eine (64 Maschen).\n"
        "Zum Schluss folgt in jeder Runde eine Abnahme, bis 48 Maschen auf den Nadeln liegen."
    )
    assert after_each_round(read(text, (96,), "de")) == [88] * 4 + [80] * 4 + [72, 72, 64, 64, 56, 48]


def test_rounds_are_parted_by_commas() -> None:
    text = "1. Rd: * 6 re M, 2 M re zusstr *, 2. Rd: re M, 3. Rd: * 5 re M, 2 M re zusstr *."
    reading = read(text, (80,), "de")
    assert not faults(reading)
    assert after_each_round(reading) == [70, 70, 60]


@pytest.mark.parametrize(
    "between", ["(nach 2 Zwischen-Rd)", "(nach 2 Rd ohne Abn)", "(nach 2 glatten Runden)"]
)
def test_plain_rounds_stand_in_a_bracket_before_the_next_decrease(between: str) -> None:
    text = f"Abn-Rd 1: 10 M re, 2 M re zus, fortl. wdh = 88 M.\nAbn-Rd 2 {between}: 9 M re, 2 M re zus, fortl. wdh."
    assert after_each_round(read(text, (96,), "de")) == [88, 88, 88, 80]


@pytest.mark.parametrize(
    "each", ["Nadel 1 bis 4 jeweils bis 2 M vor Ende re, 2 M re zus", "Am Ende jeder Nadel 2 M re zusstr"]
)
def test_every_needle_ends_with_a_decrease(each: str) -> None:
    text = f"96 M auf 4 Nadeln.\n{each} (92 M). Nächste Rd re. Diese 2 Rd noch 2x (84 M)."
    assert after_each_round(read(text, (96,), "de"))[-1] == 84


def test_the_next_decrease_round_is_told_by_what_lies_between() -> None:
    text = (
        "1. Abnahmerunde: *7 M re, 2 M re zus* (64 M). 1 Runde rechts.\nIn der nächsten Abnahmerunde liegen nur noch "
        "6 Maschen vor jedem Zusammenstricken."
    )
    assert after_each_round(read(text, (72,), "de")) == [64, 64, 56]


def test_a_remark_on_where_decreases_lie_is_no_round() -> None:
    text = "Man strickt immer an derselben Stelle zwei Maschen zusammen.\n1. Rd: *7 M re, 2 M re zus* (64 M)"
    assert after_each_round(read(text, (72,), "de")) == [64]
