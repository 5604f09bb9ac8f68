"""What old books, leaflets and worksheets in German, Dutch, Norwegian and Danish tell of crowns, and of some sizes."""

import pytest

from roundwright.wording.proofreading.read import read
from roundwright.wording.reading.languages.rewrite import rewritten
from tests.support.readings import after_each_round, counts, faults, number_of_rounds

REWRITTEN = [
    # a short form before the number of a round, and the number of a needle before its fabric
    ("de", "Alle geraden Rd bis einschl. 16. Rd: re M", "all even rnds to and including rnd 16: knit"),
    ("de", "mit Nd Nr. 4 glatt re", "with needle no 4. St st"),
    # stitches of which every so many is worked twice
    ("de", "1 Rd re und dabei jede 10. Masche verdoppeln", "knit 1 rnd and inc in every 10th st"),
    ("nb", "øk 1 m i hver 10. m", "inc in every 10th st"),
    ("nl", "1 toer recht en meerder daarbij na elke 8e st 1 st", "knit 1 rnds m1 after every 8th st"),
    ("de", "8 re; ab * bis 2 M vor Rundenende wdh, 2 re", "k8; rep from * to last 2 sts, k2"),
    ("de", "2. Rd: re. Rd 1 und 2 noch 3x wdh", "Rnd 2: knit. Rep rnds 1 and 2 3 more times"),
    # how to decrease in each section
    ("da", "Sådan tager du ind i hvert felt: 2 r sm", "Dec in each section like this: k2tog"),
    ("de", "In jedem Keil wird so abgenommen: 2 re zus", "Dec in each section like this: k2tog"),
    ("nb", "i hvert felt strikkes de 2 siste m r sm", "k2tog at the end of each section"),
    ("nb", "felles 1 m etter hvert merke ved å strikke 2 r sm", "k2tog at the beginning of each section"),
    ("de", "Die M wie folgt abn: In der 1. Rd 2 re", "dec as follows: Rnd 1: k2"),
    # the sizes a line is for
    ("nb", "Kun str. 6 og 8 år: 2 r", "Sizes 6 and 8 only: k2"),
    ("nl", "Alleen maat 8: 2 r", "Size 8 only: k2"),
    ("da", "1. omg - kun 3 mdr.: r", "Rnd 1 - 3 months only: knit"),
    # prose of old books
    ("de", "in der 12. Tour liegen 7 Maschen dazwischen", "Rnd 12: *k7, k2tog, rep from * around"),
    ("de", "In der 9. Tour sind es 8 Maschen (72 Maschen)", "Rnd 9: *k8, k2tog, rep from * around (72 sts)"),
    ("de", "(80 M), worauf zwei glatte Touren folgen", "(80 sts), . Knit 2 rnds"),
    ("nl", "T2 t/m T4: r", "Rnd 2-4: knit"),
]  # fmt: skip


@pytest.mark.parametrize(("language", "text", "english"), REWRITTEN)
def test_words_of_prose_stand_for_english_words(language: str, text: str, english: str) -> None:
    """What is printed, and the English words for it."""
    assert rewritten(text, language, 1).text == english


READ = [
    (
        "de", 90,
        ("1. Rd: * 8 M re, 2 M re zusstr, ab * stets wdh = 81 M.\nAlle geraden Rd bis einschl. 14. Rd: re M.\n"
        "3. Rd: * 7 M re, 2 M re zusstr, ab * stets wdh = 72 M.\nIn dieser Weise in jeder 2. Rd noch 5x abn, dabei "
        "jeweils 1 M weniger zwischen den Abn str = 27 M nach der 13. Rd.\n15. Rd: stets 3 M re zusstr = 9 M."),
        [81, 81, 72, 72, 63, 63, 54, 54, 45, 45, 36, 36, 27, 27, 9],
    ),
    (
        "de", 72,
        ("1. Runde: 7 Maschen rechts, die 8. und 9. zusammen, und so fort; 64 Maschen. Zwei Runden glatt. In der 4. "
        "Runde liegen 6 Maschen dazwischen (56 Maschen), in der 6. Runde 5 (48 Maschen), "
        "in der 8. Runde 4 (40 Maschen); die 5. und die 7. Runde werden glatt gestrickt."),
        [64, 64, 64, 56, 56, 48, 48, 40],
    ),
    (
        "de", 104,
        ("1. Rd: *bis 2 M vor dem Marker re, 2 M re zusstr, Marker abheben*, ab * wdh. (96 M)\n2. Rd: re.\n"
        "Nun nur noch die 1. Rd str, insgesamt 4x. (64 M)"),
        [96, 96, 88, 80, 72, 64],
    ),
    (
        "nb", 36,
        "Omg 1: *7 r, 2 r sm* = 32 m.\nFell så på hver omgang, 6 omganger på rad:\n28 – 24 – 20 – 16 – 12 – 8 masker.",
        [32, 28, 24, 20, 16, 12, 8],
    ),
    (
        "nb", 24,
        ("Strikk til 1 m før den merkede m, ta 2 m løst av samtidig som om de skulle strikkes rett sammen, 1 r, trekk "
        "de 2 løse m over. Gjør det samme ved alle de 3 merkede m = 18 m."),
        [18],
    ),
    (
        "da", 96,
        ("Tag ind i hver kile således: strik r til 2 m før mærket, 2 r sm.\nOmg | Strik | M i alt\n1 | tag ind | 88\n"
        "2-3 | ret | 88\n4 | tag ind | 80"),
        [88, 88, 88, 80],
    ),
    (
        "nl", 84,
        ("Begin met de minderingen: * 5 st. r., 2 st. r. samenbr., vanaf * 12x breien (= 72 st.). Herhaal deze "
        "minderingen boven elkaar: nog 2x in elke 3e nld. (= 48 st.). Brei in de volg. nld. steeds 2 st. r. samen "
        "(= 24 st.) en in de nld. daarna nogmaals (= 12 st.)."),
        [72, 72, 72, 60, 60, 60, 48, 24, 12],
    ),
    (
        "nl", 24,
        "Brei in de volg. 2 nld. steeds 2 st. r. samen = 12 st. na de eerste en 6 st. na de tweede nld.",
        [12, 6],
    ),
]  # fmt: skip


@pytest.mark.parametrize(("language", "cast_on", "text", "wanted"), READ)
def test_crowns_told_in_prose_come_out(language: str, cast_on: int, text: str, wanted: list[int]) -> None:
    """Crowns as they are told, with the stitches each round leaves."""
    assert after_each_round(read(text, (cast_on,), language)) == wanted


PAIRS = [
    ("de", "Jede 9. und 10. M (10. und 11. M/11. und 12. M) re zusstr = 72 (80/88) M."),
    ("de", "Jede 9. (10./11.) und 10. (11./12.) M re zusstr = 72 (80/88) M."),
    ("nb", "Strikk hver 9. og 10. (10. og 11.) 11. og 12. m rett sammen = 72 (80) 88 m."),
    ("da", "Strik hver 9. og 10. (10. og 11.) 11. og 12. m ret sammen = 72 (80) 88 m."),
    ("nl", "Brei elke 9e en 10e (10e en 11e, 11e en 12e) st recht samen = 72 (80, 88) st."),
    ("en", "Knit every 9th and 10th (10th and 11th, 11th and 12th) st together = 72 (80, 88) sts."),
    ("en", "Knit every 9th (10th, 11th) and 10th (11th, 12th) st together = 72 (80, 88) sts."),
]  # fmt: skip


@pytest.mark.parametrize(("language", "text"), PAIRS)
def test_two_stitches_in_so_many_are_told_for_each_size(language: str, text: str) -> None:
    """The places of the two stitches are told size by size."""
    assert counts(read(text, (80, 88, 96), language)) == [[80, 72], [88, 80], [96, 88]]


ONE_IN_SO_MANY = [
    "Next rnd: m1 after every 10th (11th, 12th) st = 88 (96, 104) sts.",
    "Next rnd: knit, make 1 after every 10 (11, 12) sts = 88 (96, 104) sts.",
    "Knit 1 rnd, inc in every 10th (11th, 12th) st = 88 (96, 104) sts.",
]


@pytest.mark.parametrize("text", ONE_IN_SO_MANY)
def test_one_stitch_in_so_many_is_told_for_each_size(text: str) -> None:
    """A stitch is made after, or in, every so many, told size by size."""
    assert counts(read(text, (80, 88, 96), "en")) == [[80, 88], [88, 96], [96, 104]]


BY_AGE = [
    (
        "en",
        ("Sizes: 2 (4, 8) years\nKnit 1 rnd, inc 4 (0, 4) sts evenly = 84 (84, 96) sts.\n"
        "Size 8 only: *k6, k2tog* = 84 sts. Knit 1 rnd.\nAll sizes: *k5, k2tog* = 72 sts."),
    ),
    (
        "nb",
        ("Størrelser: 2 (4) 8 år\nStrikk 1 omg r, samtidig som det økes 4 (0) 4 m jevnt fordelt = 84 (84) 96 m.\n"
        "Kun str. 8 år: *6 r, 2 r sm* omg rundt = 84 m. Strikk 1 omg r.\nAlle str: *5 r, 2 r sm* omg rundt = 72 m."),
    ),
    (
        "nl",
        ("Maten: 2 (4, 8) jaar\nBrei 1 nld. r., meerder daarbij gelijkmatig verdeeld 4 (0, 4) st. = 84 (84, 96) st.\n"
        "Alleen maat 8: * 6 st. r., 2 st. r. samenbr. * = 84 st. Brei 1 nld. r.\n"
        "Alle maten: * 5 st. r., 2 st. r. samenbr. * = 72 st."),
    ),
]  # fmt: skip


@pytest.mark.parametrize(("language", "text"), BY_AGE)
def test_sizes_are_called_by_their_numbers_and_one_increases_nothing(language: str, text: str) -> None:
    """`Sizes 2 (4, 8)`: the third is called 8; of 4 (0, 4) stitches the second size increases none."""
    assert counts(read(text, (80, 84, 92), language)) == [[80, 84, 72], [84, 72], [92, 96, 84, 72]]


BY_MONTHS = [
    ("en", ("Size: Newborn (3 months)\nRnd 1 - 3 months only: *k8, k2tog*. 72 sts\nRnd 2 - 3 months only: knit.\n"
           "Rnd 3: *k7, k2tog*. 64 sts")),
    ("da", ("Str.: Nyfødt (3 mdr.)\n1. omg – kun 3 mdr.: *8 r, 2 r sm* omg ud. 72 m\n2. omg – kun 3 mdr.: r.\n"
           "3. omg: *7 r, 2 r sm* omg ud. 64 m")),
    ("de", ("Größe: Neugeborene (3 Monate)\n1. Rd – nur 3 Monate: *8 re, 2 re zus* = 72 M\n2. Rd – nur 3 Monate: re.\n"
           "3. Rd: *7 re, 2 re zus* = 64 M")),
]  # fmt: skip


@pytest.mark.parametrize(("language", "text"), BY_MONTHS)
def test_a_numbered_round_is_for_one_age(language: str, text: str) -> None:
    """The age behind the dash is no end of a range of rounds."""
    assert number_of_rounds(read(text, (72, 80), language)) == [1, 3]


ON_EACH_NEEDLE = [
    (
        "de",
        (
            "Auf jeder der 4 Nadeln die letzten beiden M re zusstr (60 M). 1 Rd re. Diese 2 Rd noch 1x wdh (56 M). "
            "Dann in jeder Rd auf jeder Nadel die letzten beiden M zusstr, bis nur noch 48 M übrig sind."
        ),
    ),
    (
        "da",
        (
            "På hver af de 4 pinde strikkes de sidste 2 m ret sammen (60 m). Strik 1 omg ret. Gentag disse 2 omg 1 "
            "gang mere (56 m). Tag derefter ind på samme måde på hver omg, til der er 48 m tilbage."
        ),
    ),
    (
        "nb",
        (
            "På hver av de 4 pinnene strikkes de 2 siste m rett sammen (60 m). Strikk 1 omg rett. Gjenta disse 2 omg 1 "
            "gang til (56 m). Fell deretter på samme måte på hver omg til det er 48 m igjen."
        ),
    ),
    (
        "nl",
        (
            "Brei op elke naald de laatste 2 st recht samen (60 st). Brei 1 toer recht. Herhaal deze 2 toeren nog 1 "
            "keer (56 st). Minder vervolgens op dezelfde manier in elke toer tot er nog 48 st over zijn."
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), ON_EACH_NEEDLE)
def test_the_last_two_stitches_of_each_needle_are_worked_together(language: str, text: str) -> None:
    """Four stitches go in a round, every other round and then every round."""
    assert after_each_round(read(text, (64,), language)) == [60, 60, 56, 56, 52, 48]


EVERY_SO_MANY = [
    ("de", "1 Rd rechts stricken, dabei nach jeder 10. M 1 M zunehmen (= 88 M)."),
    ("nl", "Brei 1 nld. r. en meerder na elke 10e st. 1 st. = 88 st."),
    ("nb", "Strikk 1 omg rett og øk 1 m etter hver 10. m (88 m)."),
    ("da", "Strik 1 omg ret, og tag 1 m ud efter hver 10. m (88 m)."),
    ("en", "Knit 1 round, increasing 1 stitch after every 10th stitch (88 sts)."),
    ("en", "Work 1 rnd, inc 1 st after every 10 sts (88 sts)."),
]  # fmt: skip


@pytest.mark.parametrize(("language", "text"), EVERY_SO_MANY)
def test_one_stitch_in_so_many_is_made_in_one_plain_round(language: str, text: str) -> None:
    """The plain round that is told before is the round in which the stitches are made."""
    assert after_each_round(read(text, (80,), language)) == [88]


def test_every_so_many_stitches_are_mended_by_their_number() -> None:
    """`m1 after every 8th st` leaves 81 of 72, and 84 are printed: every 6th was meant."""
    findings = read("Knit 1 rnd, m1 after every 8th st (84 sts).", (72,), "en").findings

    assert [finding.repair for finding in findings] == ["Knit 1 rnd, m1 after every 6th st (84 sts)."]


ENGLISH = [
    ("Dec 8 sts every other rnd: Rnd 1: *k7, k2tog* (64). Rnd 2: knit.", 72, [64, 64]),
    (
        "*K4, k2tog* = 40 sts. Dec in the same way every other rnd until 24 sts remain. Dec every rnd until 8 remain.",
        48,
        [40, 40, 32, 32, 24, 16, 8],
    ),
    ("8 sections of 12 sts.\nIn each section knit the last 2 sts together = 88 sts. Knit 1 rnd.", 96, [88, 88]),
    ("On each of the 4 needles: knit the last 2 sts together = 92 sts.", 96, [92]),
    ("Knit, m1 after every 20th st (= 84 sts).", 80, [84]),
    ("Rnd 1: *k7, k2tog* (32 sts).\nDec in this manner every rnd for 3 rnds. 20 sts.", 36, [32, 28, 24, 20]),
    (
        ("Rnd 1: *k8, k2tog* (72).\nAll even rnds: knit.\nRnd 3: *k7, k2tog* (64).\n"
        "In this manner dec every other rnd 2 more times, with 1 st less between (48).\nRnd 9: k2tog around (24)."),
        80,
        [72, 72, 64, 64, 56, 56, 48, 48, 24],
    ),
]  # fmt: skip


@pytest.mark.parametrize(("text", "cast_on", "wanted"), ENGLISH)
def test_english_lines_come_out(text: str, cast_on: int, wanted: list[int]) -> None:
    """The same in English, with the stitches each round leaves."""
    assert after_each_round(read(text, (cast_on,), "en")) == wanted


def test_several_rounds_worked_in_all_count_those_worked_before() -> None:
    """`Work rnds A and B 5 times in all (40)` after both were worked once leaves 48: it is told."""
    text = (
        "Rnd A: *k to 2 sts before marker, k2tog*, rep 8 times in all (80).\nRnd B: knit.\n"
        "Work rnds A and B 5 times in all (40).\nWork rnd A only, 4 times (8)."
    )

    assert faults(read(text, (88,), "en")) == [("count_differs", 3)]
