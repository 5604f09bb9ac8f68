"""A round of several worked on alone, in the very next round, and over a last plain round, in seven languages."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, counts

SPIRALS = {
    "en": (
        "Place a marker every 12 sts.\n"
        "Rnd A: *k2tog, knit to marker, sl m; rep from * around. [88 sts]\n"
        "Rnd B: knit.\n"
        "Rep rnds A and B 6 more times. [40 sts]"
    ),
    "de": (
        "Alle 12 M einen Markierer einhängen.\n"
        "Rd A: *2 M re zusstr, re bis zum nächsten Markierer; ab * wdh. [88 M]\n"
        "Rd B: re.\n"
        "Rd A und B noch 6x str. [40 M]"
    ),
    "fr": (
        "Placer un marqueur toutes les 12 m.\n"
        "Tour A : *2 m ens end, end jusqu'au marqueur suivant ; rép à partir de *. [88 m]\n"
        "Tour B : end.\n"
        "Répéter les tours A et B encore 6 fois. [40 m]"
    ),
    "es": (
        "Colocar un marcador cada 12 p.\n"
        "Vuelta A: *2 p juntos al der, der hasta el siguiente marcador; rep desde *. [88 p]\n"
        "Vuelta B: der.\n"
        "Repetir las vueltas A y B 6 veces más. [40 p]"
    ),
    "nb": (
        "Sett et merke etter hver 12. m.\n"
        "Omg A: *2 r sm, r til neste merke; gjenta fra *. [88 m]\n"
        "Omg B: r.\n"
        "Gjenta omg A og B 6 ganger til. [40 m]"
    ),
    "da": (
        "Sæt en markør efter hver 12. m.\n"
        "Omg A: *2 r sm, r til næste markør; gentag fra *. [88 m]\n"
        "Omg B: r.\n"
        "Gentag omg A og B 6 gange mere. [40 m]"
    ),
    "nl": (
        "Plaats een markeerder na elke 12 st.\n"
        "Toer A: *2 st r samenbr, r tot de volgende markeerder; herhaal vanaf *. [88 st]\n"
        "Toer B: r.\n"
        "Herhaal toer A en B nog 6 keer. [40 st]"
    ),
}
"""A crown on 96 stitches, closed in a spiral to 40, its rounds called A and B."""
ALONE = [
    ("en", "Then work only rnd A, 4 times (8 sts)."),
    ("en", "From now on leave out rnd B and work only rnd A, 4 times [8 sts]."),
    ("en", "Now only rnds A, 4 times in all: 8 sts."),
    ("en", "Then rnd A alone, 4 times in a row (8 sts)."),
    ("en", "From here on just rnd A, and that 4 times."),
    ("en", "Rnd A, 4 times (8 sts)."),
    ("de", "Ab jetzt lasst ihr Rd B weg und strickt nur noch Rd A, und zwar 4x [8 M]."),
    ("de", "Dann nur noch Rd A stricken, 4x. [8 M]"),
    ("de", "Nun nur Rd A 4x stricken (8 M)."),
    ("de", "Rd B weglassen und nur noch Rd A 4x arbeiten. 8 M"),
    ("de", "Nun nur noch Rd A, 4x hintereinander. = 8 M"),
    ("de", "Danach Rd A alleine noch 4x str. [8 M]"),
    ("fr", "Maintenant, uniquement des tours A, 4 fois en tout : 8 m."),
    ("fr", "Ensuite, tricoter uniquement le tour A, 4 fois. 8 m."),
    ("fr", "Répéter ensuite le tour A seul 4 fois [8 m]."),
    ("fr", "Tricoter seulement le tour A, 4 fois de suite. [8 m]"),
    ("fr", "Ne plus faire que le tour A, 4 fois. [8 m]"),
    ("fr", "Supprimer le tour B et tricoter le tour A 4 fois. [8 m]"),
    ("es", "Después tejer solo la vuelta A, 4 veces en total: 8 p."),
    ("es", "Repetir después solo la vuelta A 4 veces = 8 p."),
    ("es", "A partir de aquí, solo la vuelta A, 4 veces seguidas. [8 p]"),
    ("es", "Ahora tejer únicamente la vuelta A 4 veces. 8 p"),
    ("es", "Dejar de hacer la vuelta B y tejer solo la vuelta A 4 veces. [8 p]"),
    ("es", "Omitir la vuelta B y repetir la vuelta A 4 veces. [8 p]"),
    ("nb", "Strikk så kun omg A, 4 ganger. [8 m]"),
    ("nb", "Strikk bare omg A, i alt 4 ganger. (8 m)"),
    ("nb", "Nå strikkes kun omg A, 4 ganger på rad [8 m]."),
    ("nb", "Deretter kun omg A, 4 ganger = 8 m"),
    ("nb", "Dropp omg B og strikk omg A 4 ganger. [8 m]"),
    ("nb", "Gjenta deretter omg A alene 4 ganger = 8 m"),
    ("da", "Strik så kun omg A, 4 gange. [8 m]"),
    ("da", "Strik kun omg A, i alt 4 gange. (8 m)"),
    ("da", "Nu strikkes kun omg A, 4 gange i træk [8 m]."),
    ("da", "Derefter kun omg A, 4 gange = 8 m"),
    ("da", "Drop omg B og strik omg A 4 gange. [8 m]"),
    ("da", "Gentag herefter omg A alene 4 gange = 8 m"),
    ("nl", "Dan alleen nog toer A, 4 keer achter elkaar (8 st)."),
    ("nl", "Brei daarna alleen toer A, 4 keer. [8 st]"),
    ("nl", "Laat toer B weg en brei alleen nog toer A, 4 keer. [8 st]"),
    ("nl", "Herhaal alleen toer A nog 4 keer. (8 st)"),
    ("nl", "Sla toer B over en brei toer A 4 keer. 8 st"),
    ("nl", "Vanaf nu alleen toer A, in totaal 4 keer. = 8 st"),
]


@pytest.mark.parametrize(("language", "line"), ALONE, ids=[line for _, line in ALONE])
def test_a_round_of_two_is_worked_on_alone(language: str, line: str) -> None:
    """All its times are from then on, and the other round is left out: common practice."""
    [reached] = counts(read(f"{SPIRALS[language]}\n{line}", (96,), language))
    assert reached == [*range(96, 0, -8)]


BY_NUMBER = [
    (
        "en",
        (
            "Rnd 1: *knit to 3 sts before marker, sk2p*, 6 times in all. (78 sts)\n"
            "Rnds 2 and 3: knit.\n"
            "Rep rnds 1-3 2 more times. (54 sts)\n"
            "Then rep only rnds 1 and 2, 3 more times. (18 sts)"
        ),
    ),
    (
        "en",
        (
            "Rnd 1: *knit to 3 sts before marker, sk2p*, 6 times in all. (78 sts)\n"
            "Rnds 2 and 3: knit.\n"
            "Rep rnds 1-3 2 more times. (54 sts)\n"
            "Rep rnds 1 and 2, 3 more times. (18 sts)"
        ),
    ),
    (
        "nl",
        (
            "Toer 1: *brei recht tot 3 st voor de markeerder, dubbele overhaling*, 6 keer in "
            "totaal. (78 st)\n"
            "Toer 2 en 3: recht.\n"
            "Herhaal toer 1 t/m 3 nog 2 keer. (54 st)\n"
            "Herhaal daarna alleen toer 1 en 2, nog 3 keer. (18 st)"
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), BY_NUMBER)
def test_how_often_stands_behind_the_numbers_of_rounds(language: str, text: str) -> None:
    """The number behind the comma counts times, and is no third round: common practice."""
    [reached] = counts(read(text, (90,), language))
    assert reached == [*range(90, 17, -12)]


def test_counts_that_fall_are_those_of_rounds_whatever_sizes_are_named() -> None:
    """Five counts behind the dec round worked five times, in a pattern of four sizes."""
    text = (
        "HAT, 6 months (1, 2, 4 years)\n"
        "With 72 (80, 88, 96) sts, place 8 markers, one every 9 (10, 11, 12) sts.\n"
        "Dec rnd: *k to 2 sts before marker, k2tog; rep from * 8 times in all. 64 (72, 80, 88) sts rem.\n"
        "Knit 1 rnd.\n"
        "Rep these 2 rnds 2 (3, 4, 5) more times. 48 sts rem in all sizes.\n"
        "From here work the dec rnd 5 times in a row: 40, 32, 24, 16, 8 sts."
    )
    sizes = (72, 80, 88, 96)
    assert counts(read(text, sizes)) == [[*range(size, 0, -8)] for size in sizes]


CROWNS = {
    "en": (
        "Rnd 1: *k8, k2tog; rep from * around. 72 sts.\n"
        "Rnd 2: knit.\n"
        "Rnd 3: *k7, k2tog; rep from * around. 64 sts.\n"
        "Rnd 4: knit."
    ),
    "de": (
        "1. Rd: *8 M re, 2 M re zusstr; ab * wdh. 72 M.\n"
        "2. Rd: re.\n"
        "3. Rd: *7 M re, 2 M re zusstr; ab * wdh. 64 M.\n"
        "4. Rd: re."
    ),
    "fr": (
        "Tour 1 : *8 m end, 2 m ens end ; rép à partir de *. 72 m.\n"
        "Tour 2 : end.\n"
        "Tour 3 : *7 m end, 2 m ens end ; rép à partir de *. 64 m.\n"
        "Tour 4 : end."
    ),
    "es": (
        "Vuelta 1: *8 p der, 2 p juntos al der; rep desde *. 72 p.\n"
        "Vuelta 2: der.\n"
        "Vuelta 3: *7 p der, 2 p juntos al der; rep desde *. 64 p.\n"
        "Vuelta 4: der."
    ),
    "nb": (
        "Omg 1: *8 r, 2 r sm; gjenta fra *. 72 m.\n"
        "Omg 2: r.\n"
        "Omg 3: *7 r, 2 r sm; gjenta fra *. 64 m.\n"
        "Omg 4: r."
    ),
    "da": (
        "Omg 1: *8 r, 2 r sm; gentag fra *. 72 m.\n"
        "Omg 2: r.\n"
        "Omg 3: *7 r, 2 r sm; gentag fra *. 64 m.\n"
        "Omg 4: r."
    ),
    "nl": (
        "Toer 1: *8 st r, 2 st r samenbr; herhaal vanaf *. 72 st.\n"
        "Toer 2: r.\n"
        "Toer 3: *7 st r, 2 st r samenbr; herhaal vanaf *. 64 st.\n"
        "Toer 4: r."
    ),
}
"""The first four rounds of a crown on 80 stitches in ten sections."""
ALTERNATELY = [
    (
        "de",
        (
            "Genau so machst du weiter, immer eine Runde mit und eine Runde ohne Abnahmen, bis du "
            "bei 16 Maschen bist."
        ),
    ),
    ("de", "So weitermachen, eine Rd mit, eine Rd ohne Abnahmen, bis noch 16 M übrig sind."),
    ("fr", "Continuer ainsi, un tour avec et un tour sans diminutions, jusqu'à ce qu'il reste 16 m."),
    ("fr", "Continuer de la même façon, un tour avec diminutions et un sans, jusqu'à 16 m."),
    ("es", "Continuar así, una vuelta con y una vuelta sin menguados, hasta que queden 16 p."),
    ("es", "Seguir igual, una vuelta con menguados y otra sin, hasta tener 16 p."),
    ("nb", "Fortsett på samme måte, en omgang med felling og en uten, til du er nede på 16 m."),
    ("nb", "Fortsett slik, annenhver omg med og uten felling, til det er 16 m igjen."),
    ("da", "Fortsæt på samme måde, en omgang med indtagning og en uden, til du er nede på 16 masker."),
    ("da", "Fortsæt sådan, en omg med og en omg uden indtagning, til der er 16 m tilbage."),
    ("nl", "Ga zo door, een toer met en een toer zonder minderingen, tot er nog 16 st over zijn."),
    ("nl", "Ga op dezelfde manier verder, een toer met minderingen en een zonder, tot je 16 st overhebt."),
    ("en", "Go on like this, one round with and one round without decreases, until 16 sts remain."),
    ("en", "Continue the same way, a round with decreases and one without, until you are down to 16 sts."),
]


@pytest.mark.parametrize(("language", "line"), ALTERNATELY, ids=[line for _, line in ALTERNATELY])
def test_a_round_with_and_a_round_without_decreases(language: str, line: str) -> None:
    """The crown goes on as it has begun, every other round: common practice."""
    reached = after_each_round(read(f"{CROWNS[language]}\n{line}", (80,), language))
    assert reached == [count for count in range(72, 15, -8) for _ in range(2)][:-1]


NEXT = [
    (
        "en",
        "Go on like this, one round with and one round without decreases, until 16 sts remain.",
        "In the very next round work k2tog all round; 8 sts.",
    ),
    (
        "en",
        "Go on like this, one round with and one round without decreases, until 16 sts remain.",
        "On the very next round, k2tog around, leaving 8 sts.",
    ),
    (
        "en",
        "Go on like this, one round with and one round without decreases, until 16 sts remain.",
        "In the round that follows, k2tog all round. 8 sts.",
    ),
    (
        "de",
        (
            "Genau so machst du weiter, immer eine Runde mit und eine Runde ohne Abnahmen, bis du "
            "bei 16 Maschen bist."
        ),
        ("Gleich in der nächsten Runde strickst du immer 2 Maschen rechts zusammen, da bleiben 8 Maschen."),
    ),
    (
        "de",
        (
            "Genau so machst du weiter, immer eine Runde mit und eine Runde ohne Abnahmen, bis du "
            "bei 16 Maschen bist."
        ),
        "Direkt in der nächsten Rd immer 2 M re zusstr = 8 M.",
    ),
    (
        "de",
        (
            "Genau so machst du weiter, immer eine Runde mit und eine Runde ohne Abnahmen, bis du "
            "bei 16 Maschen bist."
        ),
        "In der Runde direkt danach immer 2 M re zusstr (8 M).",
    ),
    (
        "fr",
        "Continuer ainsi, un tour avec et un tour sans diminutions, jusqu'à ce qu'il reste 16 m.",
        "Dès le tour suivant, tricoter 2 m ens end tout le tour ; 8 m.",
    ),
    (
        "fr",
        "Continuer ainsi, un tour avec et un tour sans diminutions, jusqu'à ce qu'il reste 16 m.",
        "Au tour juste après, tricoter 2 m ens end sur tout le tour = 8 m.",
    ),
    (
        "es",
        "Continuar así, una vuelta con y una vuelta sin menguados, hasta que queden 16 p.",
        "Justo en la vuelta siguiente, tejer 2 p juntos al der toda la vuelta = 8 p.",
    ),
    (
        "es",
        "Continuar así, una vuelta con y una vuelta sin menguados, hasta que queden 16 p.",
        "En la vuelta inmediatamente siguiente tejer 2 p juntos al der toda la vuelta; 8 p.",
    ),
    (
        "nb",
        "Fortsett på samme måte, en omgang med felling og en uten, til du er nede på 16 m.",
        "Rett på neste omg: 2 r sm hele omg. 8 m.",
    ),
    (
        "nb",
        "Fortsett på samme måte, en omgang med felling og en uten, til du er nede på 16 m.",
        "På omgangen rett etter strikker du 2 r sm hele veien rundt, så er det 8 m.",
    ),
    (
        "nb",
        "Fortsett på samme måte, en omgang med felling og en uten, til du er nede på 16 m.",
        "På omgangen etter strikkes 2 r sm hele omg. 8 m.",
    ),
    (
        "da",
        "Fortsæt på samme måde, en omgang med indtagning og en uden, til du er nede på 16 masker.",
        "Lige i omgangen efter strikker du 2 ret sammen hele vejen rundt, så er der 8 masker.",
    ),
    (
        "da",
        "Fortsæt på samme måde, en omgang med indtagning og en uden, til du er nede på 16 masker.",
        "I omgangen lige efter strikkes 2 r sm hele omg. 8 m.",
    ),
    (
        "nl",
        "Ga zo door, een toer met en een toer zonder minderingen, tot er nog 16 st over zijn.",
        "In de eerstvolgende toer brei je steeds 2 st r samen = 8 st.",
    ),
    (
        "nl",
        "Ga zo door, een toer met en een toer zonder minderingen, tot er nog 16 st over zijn.",
        "In de toer direct daarna steeds 2 st r samenbr. 8 st.",
    ),
]


@pytest.mark.parametrize(("language", "onward", "line"), NEXT, ids=[line for _, _, line in NEXT])
def test_the_very_next_round_is_a_single_round(language: str, onward: str, line: str) -> None:
    """All stitches are knit together in pairs just behind the decrease that leaves 16: common practice."""
    reached = after_each_round(read(f"{CROWNS[language]}\n{onward}\n{line}", (80,), language))
    assert reached[-3:] == [24, 16, 8]


PLAIN = {
    "en": (
        "Place a marker every 12 sts.\n"
        "Rnd 1: *k2tog, knit to marker, sl m; rep from * around. [88 sts]\n"
        "Rnd 2: knit."
    ),
    "de": (
        "Alle 12 M einen Markierer einhängen.\n"
        "1. Rd: *2 M re zusstr, re bis zum nächsten Markierer; ab * wdh. [88 M]\n"
        "2. Rd: re."
    ),
    "fr": (
        "Placer un marqueur toutes les 12 m.\n"
        "Tour 1 : *2 m ens end, end jusqu'au marqueur suivant ; rép à partir de *. [88 m]\n"
        "Tour 2 : end."
    ),
    "es": (
        "Colocar un marcador cada 12 p.\n"
        "Vuelta 1: *2 p juntos al der, der hasta el siguiente marcador; rep desde *. [88 p]\n"
        "Vuelta 2: der."
    ),
    "nb": (
        "Sett et merke etter hver 12. m.\nOmg 1: *2 r sm, r til neste merke; gjenta fra *. [88 m]\nOmg 2: r."
    ),
    "da": (
        "Sæt en markør efter hver 12. m.\nOmg 1: *2 r sm, r til næste markør; gentag fra *. [88 m]\nOmg 2: r."
    ),
    "nl": (
        "Plaats een markeerder na elke 12 st.\n"
        "Toer 1: *2 st r samenbr, r tot de volgende markeerder; herhaal vanaf *. [88 st]\n"
        "Toer 2: r."
    ),
}
"""The markers and the first two rounds of a crown on 96 stitches."""
OVER_PLAIN = [
    ("en", "Rep rnds 1 and 2 until 16 sts remain; finish with a rnd 2."),
    ("en", "Rep these 2 rnds until you have 16 sts and have knitted one round on them."),
    ("de", "1. und 2. Rd wdh, bis noch 16 M übrig sind; mit der 2. Rd enden."),
    ("de", "Die 1. und 2. Rd wdh, bis noch 16 M übrig sind und darüber 1 Rd re gestrickt wurde."),
    ("de", "1. und 2. Rd wdh, bis du noch 16 M hast und eine Rd re darüber gestrickt hast."),
    (
        "de",
        (
            "Diese 2 Rd wdh, bis insgesamt 10x abgenommen ist und nach der letzten Abnahme 1 Rd "
            "re gestrickt wurde. Es sind 16 M."
        ),
    ),
    ("fr", "Répéter les tours 1 et 2 jusqu'à ce qu'il reste 16 m ; finir par un tour 2."),
    (
        "fr",
        (
            "Répéter les tours 1 et 2 jusqu'à ce qu'il reste 16 m et qu'un tour endroit ait été "
            "tricoté dessus."
        ),
    ),
    (
        "fr",
        ("Répéter les tours 1 et 2 jusqu'à ce qu'il reste 16 m et avoir tricoté 1 tour endroit sur ces m."),
    ),
    (
        "fr",
        (
            "Répéter ces 2 tours jusqu'à avoir diminué 10 fois en tout et tricoté 1 tour endroit "
            "après la dernière diminution. Il reste 16 m."
        ),
    ),
    ("es", "Repetir las vueltas 1 y 2 hasta que queden 16 p, y acaba con la vuelta lisa."),
    ("es", "Repetir las vueltas 1 y 2 hasta que queden 16 p; terminar con una vuelta 2."),
    ("es", "Repetir las vueltas 1 y 2 hasta tener 16 p y haber tejido 1 vuelta al derecho sobre ellos."),
    (
        "es",
        (
            "Repetir estas 2 vueltas hasta haber menguado 10 veces en total y tejido 1 vuelta al "
            "derecho después del último menguado. Quedan 16 p."
        ),
    ),
    ("nb", "Gjenta omg 1 og 2 til du har 16 m og har strikket 1 omg r over disse."),
    ("nb", "Gjenta omg 1 og 2 til det er 16 m igjen, avslutt med omg 2."),
    ("nb", "Gjenta omg 1 og 2 til det gjenstår 16 m; avslutt med en omg 2."),
    (
        "nb",
        (
            "Gjenta disse to omgangene til du har felt 10 ganger i alt og har strikket 1 omgang "
            "rett etter siste felling. Nå skal alle ha 16 m."
        ),
    ),
    ("da", "Gentag omg 1 og 2 til du har 16 m og har strikket 1 omg r over disse."),
    ("da", "Gentag omg 1 og 2 til der er 16 m tilbage, slut med omg 2."),
    ("da", "Gentag omg 1 og 2 til der er 16 m tilbage; afslut med en omg 2."),
    (
        "da",
        (
            "Gentag disse to omgange til du har taget ind 10 gange i alt og har strikket 1 omgang "
            "ret efter sidste indtagning. Nu er der 16 m."
        ),
    ),
    ("nl", "Herhaal toer 1 en 2 tot je 16 st hebt en er 1 toer r over gebreid hebt."),
    ("nl", "Herhaal toer 1 en 2 tot er nog 16 st over zijn, eindig met toer 2."),
    ("nl", "Herhaal toer 1 en 2 tot er nog 16 st over zijn en eindig met een toer 2."),
    (
        "nl",
        (
            "Herhaal deze 2 toeren tot je in totaal 10 keer geminderd hebt en na de laatste "
            "mindering 1 toer recht gebreid hebt. 16 st."
        ),
    ),
]


@pytest.mark.parametrize(("language", "line"), OVER_PLAIN, ids=[line for _, line in OVER_PLAIN])
def test_the_plain_round_over_the_last_stitches_is_that_of_the_repeat(language: str, line: str) -> None:
    """Two rounds worked over and over end with the plain round, which is not knit once more: common practice."""
    reached = after_each_round(read(f"{PLAIN[language]}\n{line}", (96,), language))
    assert reached == [count for count in range(88, 15, -8) for _ in range(2)]


FEWER = [
    (
        "en",
        (
            "DI = sl 1, k2tog, psso\n"
            "Rnd 1: [k9, DI] 5 times = 50 sts\n"
            "Rnd 2: knit\n"
            "Rnd 3: [k7, DI] 5 times = 40 sts\n"
            "Rnd 4: knit\n"
            "Rep rnds 3 and 4 with 2 fewer sts before DI each time 2 more times = 20 sts"
        ),
    ),
    (
        "da",
        (
            "DI = 1 m løs af, 2 r sm, træk den løse m over\n"
            "Omg 1: [9 r, DI] x 5 = 50 m\n"
            "Omg 2: r\n"
            "Omg 3: [7 r, DI] x 5 = 40 m\n"
            "Omg 4: r\n"
            "Gentag omg 3 og 4 med hver gang 2 m færre før DI endnu 2 gange = 20 m"
        ),
    ),
    (
        "nb",
        (
            "DF = 1 m løst av, 2 r sm, trekk den løse m over\n"
            "Omg 1: [9 r, DF] x 5 = 50 m\n"
            "Omg 2: r\n"
            "Omg 3: [7 r, DF] x 5 = 40 m\n"
            "Omg 4: r\n"
            "Gjenta omg 3 og 4 med 2 m færre før DF hver gang, 2 ganger til = 20 m"
        ),
    ),
    (
        "da",
        (
            "Omg 1: *9 r, dobb indt*, gentag fra * til * i alt 5 gange = 50 m\n"
            "Omg 2: r\n"
            "Gentag omg 1 og 2 endnu 3 gange, idet der hver gang er 2 m færre før den dobbelte indtagning = 20 m"
        ),
    ),
    (
        "nb",
        (
            "Omg 1: *9 r, 3 r sm*, gjenta fra * til * i alt 5 ganger = 50 m\n"
            "Omg 2: r\n"
            "Gjenta omg 1 og 2 3 ganger til, slik at det er 2 m færre før fellingen hver gang = 20 m"
        ),
    ),
    (
        "de",
        (
            "DA = 1 M abh, 2 M re zusstr, die abgeh M überziehen\n"
            "1. Rd: [9 M re, DA] 5x = 50 M\n"
            "2. Rd: re\n"
            "3. Rd: [7 M re, DA] 5x = 40 M\n"
            "4. Rd: re\n"
            "3. und 4. Rd mit jeweils 2 M weniger vor DA noch 2x wdh = 20 M"
        ),
    ),
    (
        "es",
        (
            "DD = 1 surjete doble\n"
            "Vuelta 1: [9 p der, DD] 5 veces = 50 p\n"
            "Vuelta 2: der\n"
            "Vuelta 3: [7 p der, DD] 5 veces = 40 p\n"
            "Vuelta 4: der\n"
            "Repetir las vueltas 3 y 4 otras 2 veces, cada vez con 2 p menos antes de DD = 20 p"
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), FEWER)
def test_fewer_stitches_before_a_decrease_called_by_a_short_name(language: str, text: str) -> None:
    """`With 2 fewer sts before DI each time`: two rounds are repeated with less between their decreases."""
    assert after_each_round(read(text, (60,), language)) == [50, 50, 40, 40, 30, 30, 20, 20]


ENDS = [
    (
        "de",
        (
            "18 M auf jeder der 4 Nadeln.\n"
            "1. Rd: 2 M re zusstr am Anfang und 1 einf. Überzug am Ende jeder Nadel = 64 M."
        ),
    ),
    (
        "fr",
        (
            "18 m sur chacune des 4 aiguilles.\n"
            "Tour 1 : 2 m ens end au début et 1 surjet simple à la fin de chaque aiguille = 64 m."
        ),
    ),
    (
        "es",
        (
            "18 p en cada una de las 4 agujas.\n"
            "Vuelta 1: 2 p juntos al der al principio y 1 surjete simple al final de cada aguja = 64 p."
        ),
    ),
    (
        "nb",
        (
            "18 m på hver av 4 pinner.\n"
            "Omg 1: 2 r sm i begynnelsen og 2 vridd r sm i slutten av hver pinne = 64 m."
        ),
    ),
    (
        "da",
        (
            "18 m på hver af 4 pinde.\n"
            "Omg 1: 2 r sm i begyndelsen og 2 dr r sm i slutningen af hver pind = 64 m."
        ),
    ),
    (
        "nl",
        (
            "18 st op elk van de 4 naalden.\n"
            "Toer 1: 2 st r samenbr aan het begin en 1 enkele overhaling aan het eind van elke "
            "naald = 64 st."
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), ENDS)
def test_decreases_at_both_ends_of_all_needles(language: str, text: str) -> None:
    """Two decreases on every needle of four take 8 of 72 stitches out."""
    assert after_each_round(read(text, (72,), language)) == [64]


BEFORE = [
    (
        "de",
        (
            "Alle 12 M einen Markierer einhängen.\n"
            "1. Rd: re str bis 2 M vor jedem Markierer, 2 M re zusstr = 66 M."
        ),
    ),
    ("nb", ("Sett et merke etter hver 12. m.\nOmg 1: strikk til 2 m før hvert merke, 2 r sm = 66 m.")),
    ("da", ("Sæt en markør efter hver 12. m.\nOmg 1: strik ret til 2 m før hver markør, 2 r sm = 66 m.")),
    (
        "es",
        (
            "Colocar un marcador cada 12 p.\n"
            "Vuelta 1: tejer al derecho hasta 2 p antes de cada marcador, 2 p juntos al der. 66 p"
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), BEFORE)
def test_a_decrease_before_every_marker(language: str, text: str) -> None:
    """Six markers, and a stitch fewer before every marker."""
    assert after_each_round(read(text, (72,), language)) == [66]


ANNOUNCED = [
    ("en", "Decreases on 96 sts with four markers", "Rnd 1: *k10, k2tog* = 88 sts."),
    ("nb", "Felling med fire merker – 96 m", "Omg 1: *10 r, 2 r sm* = 88 m."),
    ("nb", "Du har 96 m. Vi feller 8 m hver gang.", "Omg 1: *10 r, 2 r sm* = 88 m."),
    ("da", "Indtagning på 96 m", "Omg 1: 10 r, 2 r sm, og bliv ved omgangen rundt = 88 m."),
    ("da", "Nu skal vi tage ind 8 steder.", "Omg 1: *10 r, 2 r sm* = 88 m."),
    ("nl", "Je hebt 96 st. We minderen 8 st per keer.", "Toer 1: *10 st r, 2 st r samenbr* = 88 st."),
    ("fr", "Vous avez 96 m. On diminue 8 m à chaque fois.", "Tour 1 : *10 m end, 2 m ens end* = 88 m."),
    ("es", "Tienes 96 p. Menguamos 8 p cada vez.", "Vuelta 1: *10 p der, 2 p juntos al der* = 88 p."),
]


@pytest.mark.parametrize(("language", "ahead", "line"), ANNOUNCED, ids=[ahead for _, ahead, _ in ANNOUNCED])
def test_decreases_spoken_of_ahead_are_not_worked(language: str, ahead: str, line: str) -> None:
    """A heading, or a sentence about all rounds to come, takes no stitch out: common practice."""
    assert after_each_round(read(f"{ahead}\n{line}", (96,), language)) == [88]


def test_markers_placed_in_the_next_round_add_no_round() -> None:
    """`Au tour suivant, placer un marqueur`: the markers go in while the first round of the crown is worked."""
    text = (
        "Au tour suivant, placer un marqueur toutes les 12 m.\n"
        "Tour 1 : *2 m ens end, end jusqu'au marqueur suivant ; rép à partir de *. 88 m.\n"
        "Tour 2 : end."
    )
    assert after_each_round(read(text, (96,), "fr")) == [88, 88]


ONLY_THE_FIRST = [
    ("da", "1. omg: *2 r sm, 8 r* (72 m)\n2. omg: r\nStrik kun 1. omg, 3 gange (48 m)"),
    ("da", "1. omg: *2 r sm, 8 r* (72 m)\n2. omg: r\nStrik bare 1. omg, 3 gange (48 m)"),
    ("nb", "1. omg: *2 r sm, 8 r* (72 m)\n2. omg: r\nStrikk bare 1. omg, 3 ganger (48 m)"),
    ("nl", "1e toer: *2 r samenbr, 8 r* (72 st)\n2e toer: r\nBrei alleen de 1e toer, 3 keer (48 st)"),
    ("es", "1ª vuelta: *2 p juntos, 8 der* (72 p)\n2ª vuelta: der\nTeje solo la 1ª vuelta, 3 veces (48 p)"),
]
MARKED = {
    "da": ("Sæt et mærke for hver 10. m.", "*2 r sm, 8 r*", "strik til 2 m før hvert mærke, 2 r sm"),
    "nb": ("Sett et merke for hver 10. m.", "*2 r sm, 8 r*", "strikk til 2 m før hvert merke, 2 r sm"),
    "nl": (
        "Plaats elke 10 st een markeerder.",
        "*2 r samenbr, 8 r*",
        "brei tot 2 st voor elke markeerder, 2 r samenbr",
    ),
    "es": (
        "Coloca un marcador cada 10 p.",
        "*2 p juntos, 8 der*",
        "teje hasta 2 p antes de cada marcador, 2 p juntos",
    ),
}


@pytest.mark.parametrize(("language", "text"), ONLY_THE_FIRST)
def test_only_the_first_of_the_rounds_is_worked_on_by_its_number(language: str, text: str) -> None:
    first, repeat, marked = MARKED[language]
    reading = read(f"{first}\n{text.replace(repeat, marked)}", (80,), language)

    assert after_each_round(reading)[-5:] == [72, 72, 64, 56, 48]


BETWEEN = [
    ("en", "Rep dec rnd every other rnd, that is, with 1 plain rnd after, 3 times (32 sts)."),
    ("en", "Rep dec rnd every other rnd 3 times, with 1 plain rnd after each (32 sts)."),
    ("en", "Rep dec rnd 3 times with a plain rnd after each (32 sts)."),
    (
        "es",
        "Repite la vuelta de disminución cada 2 vueltas, es decir, con una vuelta lisa después, 3 veces (32 p).",
    ),
    (
        "es",
        "Repite la vuelta de disminución cada 2 vueltas, o sea, con 1 vuelta lisa después de cada una, 3 veces (32 p).",
    ),
]
DECREASE_ROUND = {
    "en": (
        "64 sts, a marker every 16 sts.\n"
        "Dec rnd: *k1, ssk, work until 3 sts before marker, k2tog, k1*; rep in each section.\n"
    ),
    "es": (
        "Tenemos 64 puntos y 4 marcadores, uno cada 16 puntos.\n"
        "Vuelta de disminución: *1 derecho, pasa 2 puntos uno a uno y téjelos juntos por detrás, teje hasta que "
        "queden 3 puntos antes del marcador, 2 puntos juntos al derecho, 1 derecho*; repite en cada sección.\n"
    ),
}


@pytest.mark.parametrize(("language", "text"), BETWEEN)
def test_every_other_round_with_a_plain_round_after_it_is_one_plain_round(language: str, text: str) -> None:
    """Told in two ways, there are no two plain rounds between."""
    reading = read(DECREASE_ROUND[language] + text, (64,), language)

    assert not reading.findings
    assert after_each_round(reading) == [56, 48, 48, 40, 40, 32, 32]


@pytest.mark.parametrize("rounds", ["rnds 1 and 2", "these 2 rounds"])
def test_all_the_rounds_there_are_just_so_often_in_all_count_what_was_worked(rounds: str) -> None:
    """`Just` or `only` before a total names no rounds to work on alone: two rounds three times are six."""
    reading = read(f"Rnd 1: knit.\nRnd 2: purl.\nWork {rounds} just 3 times in all.", (84,), "en")
    assert after_each_round(reading) == [84] * 6


ROUND_1 = {
    "en": "Rnd 1: k2tog, knit to end. (79)\n",
    "de": "Rd 1: 2 M re zusstr, re bis Ende. (79)\n",
    "fr": "Tour 1 : 2 m ens end, end jusqu'à la fin. (79)\n",
    "es": "Vta 1: 2 p jun, tejer der hasta el final. (79)\n",
    "nb": "Omg 1: 2 r sm, strikk r omg ut. (79)\n",
    "da": "Omg 1: 2 r sm, strik r omg ud. (79)\n",
    "nl": "Toer 1: 2 st r samen, brei r tot einde. (79)\n",
}
ONLY_ROUND_1 = [
    ("en", "Repeat only rnd 1 3 times."),
    ("de", "Nur Rd 1 3 mal wiederholen."),
    ("fr", "Répéter le tour 1 seulement 3 fois."),
    ("fr", "Répéter seulement le tour 1 3 fois."),
    ("fr", "Répéter le tour 1 uniquement, 3 fois."),
    ("fr", "Tricoter uniquement le tour 1 3 fois."),
    ("es", "Repetir solo la vta 1 3 veces."),
    ("nb", "Gjenta bare omg 1 3 ganger."),
    ("nb", "Gjenta kun omg 1 3 ganger."),
    ("da", "Gentag bare omg 1 3 gange."),
    ("nl", "Herhaal alleen toer 1 3 keer."),
]


@pytest.mark.parametrize(("language", "text"), ONLY_ROUND_1)
def test_only_one_round_repeated_three_times_is_three_more(language: str, text: str) -> None:
    """The same words are worked alike in every language."""
    reading = read(ROUND_1[language] + text, (80,), language)

    assert not reading.findings
    assert after_each_round(reading) == [79, 78, 77, 76]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("fr", "Répéter le tour 1 3 fois (77 m)."),
        ("fr", "Répéter le tour 1 3 fois en tout."),
        ("es", "Repetir la vta 1 3 veces en total."),
        ("nb", "Gjenta omg 1 3 ganger (77 m)."),
        ("nb", "Gjenta omg 1 3 ganger i alt."),
        ("da", "Gentag omg 1 3 gange i alt."),
        ("nl", "Herhaal toer 1 3 keer (77 st)."),
        ("nl", "Herhaal toer 1 3 keer in totaal."),
    ],
)
def test_a_total_or_the_count_at_the_end_has_the_first_round_among_them(language: str, text: str) -> None:
    """Told in all, or with the stitches left, three times are two more."""
    reading = read(ROUND_1[language] + text, (80,), language)

    assert not reading.findings
    assert after_each_round(reading) == [79, 78, 77]


def test_a_single_round_worked_only_once_is_one_more() -> None:
    """Without a number of times it is worked once."""
    reading = read(ROUND_1["fr"] + "Répéter le tour 1 uniquement.", (80,), "fr")
    assert after_each_round(reading) == [79, 78]
