"""Stitches that a pattern describes, in a bracket, behind a sign or in a sentence: told there, and not worked."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, after_rounds_of_sizes, faults

BRACKETS = [
    ("ssk", "(k2tog tbl)"),
    ("ssk", "(knit 2 sts together through the back loop)"),
    ("ssk", "(sl 1, sl 1, k2tog tbl)"),
    ("k2tog", "(K2 together)"),
    ("k2tog", "(knit 2 sts together)"),
    ("ssk", "(slip, slip, knit)"),
    ("k2tog", "(1 st decreased)"),
    ("k2tog", "(2 sts become 1)"),
    ("skp", "(sl 1, k1, psso: 1 st dec)"),
]


@pytest.mark.parametrize(("stitch", "bracket"), BRACKETS)
def test_a_bracket_that_describes_the_stitch_before_it_is_not_worked(stitch: str, bracket: str) -> None:
    line = f"Rnd 1: *k10, {stitch} {bracket}, rep from * around. 66 sts"
    assert after_each_round(read(line, (72,))) == [66]


@pytest.mark.parametrize(
    "bracket", ["(3 sts in 1)", "(3 into 1)", "(2 sts decreased)", "(-2 sts)", "(double decrease)"]
)
def test_what_becomes_of_the_stitches_is_no_count_of_the_round(bracket: str) -> None:
    assert after_each_round(read(f"Rnd 1: *k4, sk2p {bracket}, k5; rep from * to end. 60 sts", (72,))) == [60]


def test_a_bracket_that_is_worked_so_often_is_a_repeat() -> None:
    assert after_each_round(read("Rnd 1: k2tog (k2tog) 5 times, k60. 66 sts", (72,))) == [66]


def test_the_change_of_a_whole_round_is_still_compared() -> None:
    assert faults(read("Rnd 1: *k4, sk2p, k5; rep from * to end (10 sts decreased)", (72,))) == [
        ("count_differs", 1)
    ]


SENTENCES = [
    "We work a double decrease (dd): sl 1, k2tog, psso.",
    "This shape needs a new stitch (dd) = sl 1, k2tog, psso. Learn it first.",
    "We decrease in 6 places. dd = sl 2, k1, psso.",
    "Decrease with 1 dd (sl 1, k2tog, psso) in 6 places.",
]


@pytest.mark.parametrize("sentence", SENTENCES)
def test_a_sentence_gives_a_stitch_its_name(sentence: str) -> None:
    assert after_each_round(read(f"{sentence}\nRnd 1: *k9, dd; rep from * around. 60 sts", (72,))) == [60]


def test_the_first_round_describes_a_name_for_those_behind_it() -> None:
    first = "Rnd 1: *k6, 1 zz (slip 1, k2tog, psso), k7; rep from * 5 more times (84 sts)"
    text = f"{first}\nRnd 2: *k5, 1 zz, k6; rep from *"
    assert after_each_round(read(text, (96,))) == [84, 72]


TOLD = [
    "The trick is sk2p: sl 1, k2tog, psso.",
    "I use a double decrease here: sl 1, k2tog, psso.",
    "Remember how sk2p goes: sl 1, k2tog, psso. You lose 2 stitches each time.",
    "Reminder before you begin: sk2p = sl 1, k2tog, psso. This removes 2 stitches at once.",
    "Decrease with 1 sk2p (sl 1, k2tog, psso) in 6 places.",
]


@pytest.mark.parametrize("sentence", TOLD)
def test_a_sentence_that_says_how_a_stitch_is_worked_is_no_round(sentence: str) -> None:
    assert after_each_round(read(f"{sentence}\nRnd 1: *k9, sk2p; rep from * around. 60 sts", (72,))) == [60]


ROUNDS = {
    "de": "{}1. Rd: *6 M re, {}, 7 M re; ab * noch 5 x wdh. (84 M)",
    "da": "{}Omg 1: *6 r, {}, 7 r* x 6 (84 m).",
    "nb": "{}Omg 1: *6 r, {}, 7 r* x 6 (84 m).",
    "fr": "{}Tour 1 : *6 m end, {}, 7 m end*, rép de * à * 6 fois. 84 m.",
    "es": "{}Vta 1: *6 p der, {}, 7 p der*, repetir de * a * 6 veces. 84 p.",
    "nl": "{}Toer 1: *6 st r, {}, 7 st r*, 6 keer in totaal. (84 st)",
}
DESCRIBED = [
    ("de", "2 M zus wie zum Rechtsstr abh, 1 M re, die abgeh M überziehen"),
    (
        "de",
        "2 M zusammen wie zum re Zusammenstricken abheben, 1 M re stricken, die 2 abgehobenen M überziehen",
    ),
    ("de", "2 M auf einmal rechts abheben, 1 M re, die abgehobenen M drüberziehen"),
    ("de", "1 M wie zum Rechtsstricken abheben, 2 M re zusammenstricken, die abgehobene M überziehen"),
    ("da", "tag 2 m løs af på én gang som til r sm, 1 r, træk de 2 løse m over"),
    ("da", "tag 2 m løst af sammen som om de skulle strikkes r sm, 1 r, træk de 2 løse m over"),
    ("da", "2 m løs af som for at strikke dem r sm, 1 r, løft de 2 løse m over"),
    ("da", "tag 1 m løst af som til r, strik 2 r sm, træk den løse m over"),
    ("nb", "løft 2 m samtidig rett av, strikk 1 r, trekk de to løse maskene over"),
    ("nb", "ta 2 m sammen løst av, strikk 1 r og trekk de 2 løse m over"),
    ("nb", "ta 1 m løs av, strikk 2 r sm, trekk den løse m over"),
    (
        "fr",
        "glisser 2 m ens comme pour les tricoter ens à l'end, 1 m end, passer les 2 m glissées par-dessus",
    ),
    ("fr", "glisser 2 m en même temps à l'endroit, 1 m end, rabattre les m glissées"),
    ("fr", "glisser 1 m comme pour la tricoter à l'end, 2 m ens à l'end, passer la m glissée par-dessus"),
    ("es", "desl 2 p juntos como para tejerlos juntos del derecho, 1 p der, pasar los 2 p desl por encima"),
    ("es", "pasar 2 p juntos como para tejer del der, 1 p der, montar los 2 p pasados"),
    ("nl", "haal 2 st samen af alsof je ze r samenbreit, brei 1 st r, haal de 2 afgehaalde st over"),
    ("nl", "2 st samen afhalen als om r te breien, 1 st r, afgehaalde st overhalen"),
]


@pytest.mark.parametrize(("language", "words"), DESCRIBED)
def test_a_double_decrease_is_described_in_six_languages(language: str, words: str) -> None:
    in_full, by_name = ROUNDS[language].format("", words), ROUNDS[language].format(f"QX = {words}.\n", "QX")
    assert after_each_round(read(in_full, (96,), language)) == [84]
    assert after_each_round(read(by_name, (96,), language)) == [84]


NAMED = [
    ("de", "dopp. Überz. (2 M zus. wie zum Rechtsstr. abh., 1 M re, die abgeh. M überziehen)"),
    ("de", "dopp. Üz"),
    ("de", "1 dopp. Abn."),
    ("da", "1 dobb indt (tag 2 m løs af på én gang, 1 r, træk de 2 løse m over)"),
    ("da", "1 dobb. indt. (= 3 r sm)"),
    ("de", "1 doppelter Überzug (1 M abh, 2 M re zusstr, die abgeh M überziehen)"),
    ("da", "1 dobbelt indt. (1 m løs af, 2 r sm., træk den løse m over)"),
    ("nb", "1 dobbel felling (1 m løst av, 2 r sm, trekk den løse m over)"),
    ("es", "1 surjete doble (1 p. sin hacer, 2 p. juntos der., montar el p. sin hacer)"),
    ("fr", "1 surjet double (3 m en 1)"),
    (
        "fr",
        "1 surjet double (= glisser 1 m. à l'end., 2 m. ens. à l'end., rabattre la m. glissée sur la m. obtenue)",
    ),
    ("nl", "dubbele overhaling (1 st afhalen, 2 st r samenbreien, afgehaalde st overhalen)"),
]


@pytest.mark.parametrize(("language", "words"), NAMED)
def test_a_bracket_behind_a_named_stitch_describes_it(language: str, words: str) -> None:
    assert after_each_round(read(ROUNDS[language].format("", words), (96,), language)) == [84]


def test_other_work_in_a_bracket_behind_a_stitch_is_worked() -> None:
    line = "1. omg: *1 dobbel felling (1 r, 2 r sm), gjenta fra * omgangen rundt. (36 m)"
    assert after_each_round(read(line, (72,), "nb")) == [36]


def test_decreases_with_a_stitch_in_so_many_places_are_only_told() -> None:
    sentence = "Der tages ind med 1 dobb indt (tag 2 m løs af, 1 r, træk de 2 løse m over) 6 steder.\n"
    assert after_each_round(read(ROUNDS["da"].format(sentence, "dobb indt"), (96,), "da")) == [84]


CENTRES = [
    ("de", "1. Rd: *re bis 1 M vor der Mittelmasche, {}; ab * 4 x wdh", "2 M zus abh, 1 M re, überz"),
    ("da", "Omg 1: *strik r til 1 m før markørmasken, {}*, 4 gange", "1 dobbelt indtagning"),
    ("nb", "Omg 1: *strikk r til 1 m før midtmasken, {}*, 4 ganger", "1 dobbeltfelling"),
]


@pytest.mark.parametrize(("language", "line", "stitch"), CENTRES)
def test_a_decrease_lies_over_a_stitch_that_is_marked_by_its_name(
    language: str, line: str, stitch: str
) -> None:
    assert after_each_round(read(line.format(stitch), (88,), language)) == [80]


def test_each_number_of_times_has_its_sign() -> None:
    text = "1. Rd: 2 M re zus, re bis zum Ende der Rd.\n2. Rd: re\nDiese 2 Rd noch 1x (2x) arbeiten."
    assert after_rounds_of_sizes(read(text, (80, 88), "de")) == [[79, 79, 78, 78], [87, 87, 86, 86, 85, 85]]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "Double decrease (dd): sl 1, k2tog, psso.\nRnd 1: 4 times [k17, dd] = 72 sts.\nRnd 2: knit."),
        ("en", "dd = sk2p\nRnd 1: (k17, dd): 4 times. 72 sts\nRnd 2: knit."),
        (
            "de",
            (
                "Doppelte Abnahme (dA): 1 M wie zum Rechtsstricken abheben, 2 M re zusammenstricken, die abgehobene M "
                "darüberziehen.\n1. Rd: 4 x [17 M re, dA] = 72 M.\n2. Rd: re M stricken."
            ),
        ),
    ],
)
def test_a_name_at_the_end_of_a_bracket_is_worked_before_its_count(language: str, text: str) -> None:
    assert after_each_round(read(text, (80,), language)) == [72, 72]


BEHIND_ROUNDS = [
    ("en", "Rnd 1: *k1, dd*, rep around = 8 sts (dd: sl 1, k2tog, psso)\nRnd 2: k", 8),
    ("en", "Rnd 1: *k1, dd*, rep around (dd = sl 1, k2tog, psso) (8 sts)\nRnd 2: k", 8),
    ("en", "Rnd 1: *k1, dd (dd: sl 1, k2tog, psso)*, rep around = 8 sts\nRnd 2: k", 8),
    ("en", "Rnd 1: *k1, inc*, rep around = 24 sts. (Inc: kfb)\nRnd 2: k", 24),
    ("en", "Rnd 1: *k1, m1*, rep around = 24 sts (M1: kfb)\nRnd 2: k", 24),
    (
        "da",
        "1. omg: *1 r, 1 udt*, gentag omg rundt = 24 m. (Udt: Strik forrest og bagest i næste m)\n2. omg: r",
        24,
    ),
    ("nb", "1. omg: *1 r, 1 øk*, gjenta omg rundt = 24 m. (Øk: strikk 2 m i samme m)\n2. omg: r", 24),
]


@pytest.mark.parametrize(("language", "text", "left"), BEHIND_ROUNDS)
def test_a_bracket_that_begins_with_a_name_says_what_the_name_is(language: str, text: str, left: int) -> None:
    """An increase into a stitch uses it: 16 stitches are 24, not 32 (kfb: common practice)."""
    reading = read(text, (16,), language)

    assert not reading.findings
    assert after_each_round(reading) == [left, left]


@pytest.mark.parametrize("name", ["Dopp. Überzug", "Dopp. Abn.", "Doppelter Überzug"])
def test_a_name_in_short_with_a_colon_is_described_and_works_no_round(name: str) -> None:
    words = "1 M wie zum Rechtsstricken abheben, 2 M re zusammenstr, die abgehobene M überziehen"
    text = f"{name}: {words}.\n1. Rd: *6 M re, {name.lower()}, 7 M re; ab * noch 5 x wdh. (84 M)"
    assert after_each_round(read(text, (96,), "de")) == [84]
