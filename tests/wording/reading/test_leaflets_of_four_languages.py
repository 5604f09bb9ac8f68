"""What leaflets, worksheets and notes in German, Dutch, Norwegian and Danish print every day."""

import pytest

from roundwright.wording.proofreading.read import read
from roundwright.wording.reading.languages.rewrite import rewritten
from tests.support.readings import after_each_round, faults

REWRITTEN = [
    # the short names of leaflets, a number and letters in one word
    ("de", "*8 re, 2Mrzus*", "*k8, k2tog*"),
    ("nb", "*8 r, 2rs*", "*k8, k2tog*"),
    ("da", "*8 r, 2rsm*", "*k8, k2tog*"),
    ("nl", "*8 r, 2rsam*", "*k8, k2tog*"),
    # a word told in short behind itself
    ("de", "80 Maschen (M) anschlagen, 4 Runden (Rd) rechts (re)", "cast on 80 sts. Knit 4 rnds "),
    ("da", "Sæt 8 mærker (mrk) med 11 m imellem", "place a marker every 11 sts"),
    ("nb", "strikk r til 2 m før mrk", "knit to 2 sts before marker"),
    # lines that end within a wording
    ("de", "1 re, 2 M rechts zusammenstricken, 1 M\nrechts. 2 re", "k1, k2tog, \nk1. K2"),
    ("de", "2 Rd re. In der folg. Rd\nverteilt 6 M zunehmen: 8 re", "knit 2 rnds. \nNext rnd: inc 6 sts evenly: k8"),
    ("de", "2 M rechts\nzusammenstricken, 3 re", "k2tog,\n k3"),
    # a cable worked in full
    ("de", "3 M auf einer Hilfsnd vor die Arbeit legen", "sl 3 sts to cable needle and hold in front"),
    ("nl", "3 st op een hulpnaald achter het werk", "sl 3 sts to cable needle and hold in back"),
    ("nb", "sett 3 m på en hjelpepinne foran arbeidet", "sl 3 sts to cable needle and hold in front"),
    ("da", "sæt 3 m på en hjælpepind bag arbejdet", "sl 3 sts to cable needle and hold in back"),
    # how many stitches a pattern takes
    ("de", "Zopfmuster: MS = 9 M", "Zopfmuster: multiple of 9 sts"),
    ("nl", "(deelbaar door 13)", "(multiple of 13 sts)"),
    # garter ridges
    ("nb", "3 riller (= 6 omg)", "6 rnds garter st"),
    ("da", "3 retriller", "(knit 1 rnd, purl 1 rnd) 3 times"),
    ("nl", "3 ribbels, dat wil zeggen: 1 toer recht, 1 toer averecht, samen 6 toeren", "6 rnds garter st"),
    # no plain rounds, and all that are not told
    ("nb", "ingen rette omg imellom her", "no plain rnds between"),
    ("da", "Alle omgange, der ikke er beskrevet, strikkes ret", "all rnds not mentioned are knit"),
    ("nl", "Alle toeren die niet beschreven zijn, recht breien", "all rnds not mentioned are knit"),
    # rounds in short and in old print, charts and decrease rounds with numbers
    ("nb", "R 1: 8 r", "Rnd 1: k8"),
    ("nl", "1e t.: 8 r.", "Rnd 1: k8."),
    ("nb", "diagram M1", "chart 1"),
    ("de", "3 Rd re. 2. Abnahmerunde: 8 re", "knit 3 rnds. Dec rnd 2: k8"),
    ("nl", "t/m de 19e toer", "to and including rnd 19"),
    ("nl", "d.w.z. toer 1 t/m 8", "that is Rnd 1-8"),
    ("de", "16 M (Klasse 7c)", "16 sts (Klasse 7c)"),
]  # fmt: skip


@pytest.mark.parametrize(("language", "text", "english"), REWRITTEN)
def test_words_of_leaflets_stand_for_english_words(language: str, text: str, english: str) -> None:
    """What leaflets print, and the English words for it."""
    assert rewritten(text, language, 1).text == english


CABLES = {
    "de": (
        "Zopfmuster (MS 9 M):\n1.-5. Rd: *3 M li, 6 M re*\n"
        "6. Rd: *3 M li, 3 M auf eine Zopfnadel hinter die Arbeit legen, 3 M re, dann die M der Zopfnadel re*\n"
        "96 M anschlagen. 10 Rd Rippen 1/1. In der nächsten Runde\ngleichmäßig verteilt 12 M zunehmen (108 M).\n"
        "30 Rd im Zopfmuster stricken, d. h. die 1.-6. Rd 5x arbeiten.\n"
        "1. Rd: *1 M li, 2 M li zusstr, 6 M re* = 96 M"
    ),
    "nb": (
        "Flettemønster (delelig med 9 m)\nOmg 1-5: *3 vr, 6 r*\n"
        "Omg 6: *3 vr, sett 3 m på hjelpepinne foran arbeidet, 3 r, strikk m fra hjelpepinnen*\n"
        "Legg opp 96 m. Strikk 10 omg vrangbord 1 r, 1 vr. På neste omg\nøkes det 12 m jevnt fordelt (108 m).\n"
        "Strikk 30 omg flettemønster, dvs. omg 1-6 5 ganger.\nOmg 1: *1 vr, 2 vr sm, 6 r* = 96 m"
    ),
    "da": (
        "Snoningsmønster (deleligt med 9 m)\nOmg 1-5: *3 vr, 6 r*\n"
        "Omg 6: *3 vr, sæt 3 m på hjælpepind foran arb, 3 r, strik m fra hjælpepinden ret*\n"
        "Slå 96 m op. Strik 10 omg rib 1 r, 1 vr. På næste omg\ntages 12 m ud jævnt fordelt (108 m).\n"
        "Strik 30 omg snoningsmønster, dvs. omg 1-6 5 gange.\nOmg 1: *1 vr, 2 vr sm, 6 r* = 96 m"
    ),
    "nl": (
        "Kabelsteek: aantal steken deelbaar door 9\nToer 1 t/m 5: *3 av, 6 r*\n"
        "Toer 6: *3 av, zet 3 st op een kabelnaald voor het werk, 3 r, brei de 3 st van de kabelnaald recht*\n"
        "Zet 96 st op. Brei 10 toeren boordsteek. Meerder in de volgende toer 12 st verdeeld (108 st).\n"
        "Brei 30 toeren in kabelsteek (d.w.z. 5 keer toer 1 t/m 6).\nToer 1: *1 av, 2 av samen, 6 r* = 96 st"
    ),
}


@pytest.mark.parametrize("language", CABLES)
def test_a_pattern_told_before_the_cast_on_is_worked_where_it_is_called_for(language: str) -> None:
    """Its rounds are told on another count than is cast on, and worked as often as is said."""
    assert after_each_round(read(CABLES[language], (96,), language)) == [96] * 10 + [108] * 31 + [96]


READ = [
    (
        "de", 40,
        ("2ü = 2 M überzogen zusammenstricken\n"
        "Rd 1: *8 re, 2ü* 4x [36 M]\n"
        "Rd 2: 2ü bis Rundenende [18 M]"),
        [36, 18],
    ),
    ("nb", 40, "2vx = strikk 2 masker rett sammen\nomg 1: *8 r, 2vx* 4 ganger (36 m)", [36]),
    (
        "nl", 35,
        ("7x (3 r, 2 samen) = 28, 7x (2 r, 2 samen) = 21, 7x (1 r, 2 samen) = 14,\n"
        "7x 2 samen = 7."),
        [28, 21, 14, 7],
    ),
    ("de", 35, "7x (3 re, 2 zus) = 28, 7x (2 re, 2 zus) = 21, 7x (1 re, 2 zus) = 14, 7x 2 zus = 7", [28, 21, 14, 7]),
    (
        "nb", 90,
        "Alle omg med partall strikkes r.\nOmg 1: *2 r sm, 8 r* 9 ganger. 81 m.\nOmg 3: *2 r sm, 7 r* 9 ganger. 72 m.",
        [81, 81, 72],
    ),
    (
        "de", 90,
        ("Alle geraden Rd rechts stricken.\n"
        "1. Rd: *2 M re zus, 8 re* 9x. 81 M\n"
        "3. Rd: *2 M re zus, 7 re* 9x. 72 M"),
        [81, 81, 72],
    ),
    (
        "da", 90,
        ("Toppen (lige omg: r):\n"
        "1. omg: *2 r sm, 8 r* 9 gange. 81 m.\n"
        "3. omg: *2 r sm, 7 r* 9 gange. 72 m."),
        [81, 81, 72],
    ),
    (
        "nl", 80,
        ("Toer 1: 8 r, 2 samen - herhalen (72 st)\n"
        "Toer 2 t/m 4: elke toer 8 st minderen (48 st)"),
        [72, 64, 56, 48],
    ),
    (
        "da", 80,
        ("1. omg: *8 r, 2 r sm* (72 m)\n"
        "2.-4. omg: fortsæt med at tage 8 m ind på hver omg (48 m)"),
        [72, 64, 56, 48],
    ),
    (
        "da", 72,
        ("*10 r, 2 r sm*, gentag omg rundt = 66 m.\n"
        "Gentag indtagningen på hver 2. omg med 1 m mindre mellem indtagningerne for hver gang, i alt 3 gange = 54 m."),
        [66, 66, 60, 60, 54],
    ),
    (
        "nl", 72,
        ("*10 r, 2 r samen*, herh hele toer = 66 st.\n"
        "Herhaal de mindering in elke 2e toer met telkens 1 st minder tussen de minderingen, "
        "in totaal 3 keer = 54 st."),
        [66, 66, 60, 60, 54],
    ),
    (
        "nb", 64,
        ("64 m på 4 pinner (16 på hver): strikk til de 2 siste m på hver pinne og strikk dem rett sammen, "
        "så det felles 4 m på omgangen (60 m).\nGjør det på hver eneste omgang til det bare er 14 m på hver pinne."),
        [60, 56],
    ),
    (
        "nl", 110,
        ("Toer 1: * 9 r, 2 r samenbr * = 100 st.\n2e en alle even toeren: r.\nToer 3: * 8 r, 2 r samenbr * = 90 st.\n"
        "Zo doorgaan en in elke oneven toer 10 st minderen, telkens met 1 st minder tussen de minderingen, t/m de 7e\n"
        "toer = 70 st. Draad afknippen, door de overgebleven st halen, aantrekken en aan de binnenkant vastzetten."),
        [100, 100, 90, 90, 80, 80, 70],
    ),
    (
        "de", 64,
        ("Auf deinen vier Nadeln liegen jetzt je 16 Maschen.\n\n"
        "1. Runde: Stricke auf JEDER Nadel so: 1 M rechts, 1 M abheben, 1 M rechts und die abgehobene Masche\n"
        "darüberziehen. Dann rechts stricken, bis noch 3 M auf der Nadel sind. 2 M rechts zusammenstricken, 1 M\n"
        "rechts. – Kontrolle: 14 M pro Nadel, 56 M insgesamt.\n2. Runde: alle Maschen rechts."),
        [56, 56],
    ),
    (
        "da", 91,
        ("Dobb. indt: Tag 1 m løs af, strik 2 r sm, træk den løse m over.\n"
        "1. omg: *dobb. indt, 10 r* 7 gange (77 m)"),
        [77],
    ),
    (
        "nl", 72,
        ("Dubb. mind.: haal 1 st af, brei 2 st r samen, haal de afgehaalde st over.\n"
        "Toer 1: *dubb. mind., 9 r* 6x (60 st)"),
        [60],
    ),
]  # fmt: skip


@pytest.mark.parametrize(("language", "cast_on", "text", "counts"), READ)
def test_lines_of_leaflets_come_out(language: str, cast_on: int, text: str, counts: list[int]) -> None:
    """Ordinary lines, with the stitches each round leaves."""
    assert after_each_round(read(text, (cast_on,), language)) == counts


ENGLISH = [
    ("Dec every other rnd: k6, k2tog (56). K5, k2tog (48). Dec every rnd: k4, k2tog (40).", 64, [56, 56, 48, 40]),
    ("Dec every other rnd: k6, k2tog (56), k5, k2tog (48). Then dec every rnd: k4, k2tog (40).", 64, [56, 56, 48, 40]),
    ("Dec every 3rd rnd:\n*k6, k2tog* (56)\n*k5, k2tog* (48)", 64, [56, 56, 56, 48]),
    ("Dec every other rnd:\n*k6, k2tog* (56)\nknit 1 rnd\n*k5, k2tog* (48)", 64, [56, 56, 48]),
    ("Dec rnd: *k7, k2tog* (64 sts). Knit 2 rnds. 2. Dec rnd: *k6, k2tog* (56 sts).", 72, [64, 64, 64, 56]),
    ("Rnd 1: *p3, sl 3 sts to cable needle and hold in front, k3, knit the sts from cable needle*", 90, [90]),
    ("Crown (all even rounds are knit):\nRnd 1: *k2tog, k8*\nRnd 3: *k2tog, k7*", 90, [81, 81, 72]),
    ("All odd rounds knit.\nRnd 2: *k2tog, k8*\nRnd 4: *k2tog, k7*", 90, [90, 81, 81, 72]),
    ("Rnds 1-4: *p4, k9*\nCast on 104 sts.\nWork rnds 1-4 twice.", 104, [104] * 8),
    ("Rnds 1-4: *p4, k9*\nCast on 104 sts.\nWork 8 rnds cable pattern, that is rnds 1-4 2 times.", 104, [104] * 8),
    ("Worksheet 4 (Class 7q): The top\nRnd 1: *k6, k2tog* (56 sts)", 64, [56]),
    (
        ("*k10, k2tog* = 66 sts.\n"
        "Dec in this manner every other rnd with 1 st less each time, 3 times in all = 54 sts."),
        72,
        [66, 66, 60, 60, 54],
    ),
    (
        ("*k10, k2tog* = 66 sts.\n"
        "Dec in this manner every other rnd with 1 st less each time, 3 times in all = 48 sts."),
        72,
        [66, 66, 60, 60, 54, 54, 48],
    ),
]  # fmt: skip


@pytest.mark.parametrize(("text", "cast_on", "counts"), ENGLISH)
def test_the_same_in_english(text: str, cast_on: int, counts: list[int]) -> None:
    """What those texts had need of, in English words."""
    assert after_each_round(read(text, (cast_on,), "en")) == counts


@pytest.mark.parametrize("count", [42, 60])
def test_times_in_all_leave_the_count_that_is_printed(count: int) -> None:
    """With the first round among them or without it; another count is a fault."""
    times = "every other rnd with 1 st less each time, 3 times in all"
    text = f"*k10, k2tog* = 66 sts.\nDec in this manner {times} = {count} sts."

    assert faults(read(text, (72,), "en")) == [("count_differs", 2)]


EVERY_OTHER = [
    ("nb", "Fell annenhver omgang: 6 r, 2 sm (56). 5 r, 2 sm (48). Så fell hver omgang: 4 r, 2 sm (40)."),
    (
        "da",
        "Tag ind på hver anden omgang: 6 r, 2 sm (56). 5 r, 2 sm (48). Tag så ind på hver omgang: 4 r, 2 sm (40).",
    ),
    (
        "nl",
        "Minder om de toer: 6 r, 2 samen (56). 5 r, 2 samen (48). Minder daarna elke toer: 4 r, 2 samen (40).",
    ),
    (
        "de",
        "In jeder 2. Rd abn:\n*6 re, 2 zus* (56)\n*5 re, 2 zus* (48)\nDann in jeder Rd abn:\n*4 re, 2 zus* (40)",
    ),
    ("en", "Dec every other rnd:\n*k6, k2tog* (56)\n*k5, k2tog* (48)\nDec every rnd:\n*k4, k2tog* (40)"),
]


@pytest.mark.parametrize(("language", "text"), EVERY_OTHER)
def test_rounds_told_for_every_other_round_have_plain_ones_between(language: str, text: str) -> None:
    """Until decreases are told for every round."""
    assert after_each_round(read(text, (64,), language)) == [56, 56, 48, 40]


SECTIONS = [
    ("nb", ("Del arb i 10 med merketråder (10 m i hver del). Fell 1 m før hvert merke annenhver omg 2 ganger, "
     "og deretter hver omg 2 ganger = 60 m.")),
    ("da", ("Del arb i 10 dele med mærker (10 m i hver del). Tag 1 m ind før hvert mærke på hver 2. omg 2 gange "
     "og derefter på hver omg 2 gange = 60 m.")),
    ("nl", ("Verdeel het werk in 10 delen met markeerders (10 st per deel). Minder 1 st voor elke markeerder in elke "
     "2e toer 2 keer en daarna in elke toer 2 keer = 60 st.")),
    ("en", ("Place 10 markers, one every 10 sts. K2tog at the end of each section every other rnd 2 times, "
     "then every rnd 2 times = 60 sts.")),
    (
        "de",
        "Nach je 10 M einen Marker setzen. In jeder 2. Rd vor jedem Marker 1 M abn, 2x, dann in jeder Rd 2x = 60 M.",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("language", "text"), SECTIONS)
def test_decreases_of_sections_are_worked_so_often_on_every_other_round(language: str, text: str) -> None:
    """With a plain round between them, and then on every round."""
    assert after_each_round(read(text, (100,), language)) == [90, 90, 80, 70, 60]
