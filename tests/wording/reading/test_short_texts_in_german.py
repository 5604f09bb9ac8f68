"""What short texts in German print: crowns told in a few sentences. The counts are worked by hand."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, after_rounds_of_sizes, faults, words_of_rounds

SECTIONS = [
    "Die 78 M in 6 Teile zu 13 M teilen.",
    "Die 78 M in 6 gleiche Teile von je 13 M gliedern.",
    "Teile deine 78 M in 6 gleiche Teile (je 13 M).",
    "78 M zu 6 mal 13 M einteilen.",
    "Teile die 78 M in 6 Abschnitte (je 13 M), nach jedem Abschnitt hängst du einen Maschenmarkierer ein.",
]
ENDS_OF_SECTIONS = [
    "am Schluss jedes Teiles 2 M re zus.-str.",
    "die beiden letzten M eines jeden Teiles re zus.-str.",
    "die letzten beiden M jedes Teiles rechts zusammenstricken",
]


@pytest.mark.parametrize("sections", SECTIONS)
@pytest.mark.parametrize("ends", ENDS_OF_SECTIONS)
def test_the_end_of_each_section_loses_a_stitch(sections: str, ends: str) -> None:
    """Six in each round, also where the length of a section stands in brackets."""
    reading = read(
        f"{sections}\nIn jeder 2. Rd {ends}, bis jeder Teil nur noch 10 M zählt (60 M).", (78,), "de"
    )
    shaped = [count for count in after_each_round(reading) if count != 78]
    assert shaped == [72, 72, 66, 66, 60]
    assert not faults(reading)


def test_how_many_stitches_go_is_told_before_the_sections() -> None:
    """Every third round, then every other, then every round."""
    text = (
        "Die Maschenzahl in jeder 3. Rd um 6 verringern: dazu die Rd in 6 Teile zu 13 M teilen und am Schluss jedes "
        "Teiles 2 M re zus.-str., 2-mal (= 66 M).\nDanach in jeder 2. Rd, 2-mal (= 54 M)."
    )
    assert after_each_round(read(text, (78,), "de"))[-8:] == [72, 72, 72, 66, 66, 60, 60, 54]


BEFORE_THE_LAST = [
    "die zweit- und drittletzte M jeder Nadel rechts zusammenstricken",
    "die vorletzte und drittletzte M jeder Nadel re zus.-str.",
    "auf jeder Nadel die dritt- und vorletzte M re zus.-str.",
    "die beiden vorletzten M jeder Nadel re zus.-str.",
]


@pytest.mark.parametrize("ends", BEFORE_THE_LAST)
def test_the_last_stitch_of_a_needle_stays_behind_the_decrease(ends: str) -> None:
    reading = read(f"Auf jeder Nadel sind 21 M.\n1. Rd: {ends}: 80 M.", (84,), "de")
    assert words_of_rounds(reading) == ["*k18, k2tog, k1; rep from * around"]
    sizes = read(f"Auf jeder Nadel sind 21 (24) M.\n1. Rd: {ends}: 80 (92) M.", (84, 96), "de")
    assert after_rounds_of_sizes(sizes) == [[80], [92]]


FURTHER = [
    "Dann in jeder Rd arbeiten, bis noch 48 M übrig sind.",
    "Nun in jeder Rd arbeiten, bis noch 48 M übrig sind.",
]


@pytest.mark.parametrize("sentence", FURTHER)
def test_the_round_of_decreases_is_worked_in_every_round(sentence: str) -> None:
    text = "Abnahmerunde: * 10 M re, 2 M re zus; ab * wdh. [66 M]\nAbnahmerunde in jeder 2. Rd noch 1x wdh. [60 M]"
    assert after_each_round(read(f"{text}\n{sentence}", (72,), "de"))[-3:] == [60, 54, 48]


HEMS = [
    "In der nächsten Rd je 1 M der vorderen mit 1 M der hinteren Nadel rechts zusammenstricken: wieder 88 M.",
    "Nächste Rd: jede M mit der entsprechenden M der hinteren Nadel rechts zusammenstricken (88 M).",
]


@pytest.mark.parametrize("hem", HEMS)
def test_a_doubled_brim_is_closed_in_a_round(hem: str) -> None:
    """A stitch of the front with a stitch of the back leaves as many as there were."""
    text = f"88 M anschlagen. 5 Rd rechts, 1 Rd links, 5 Rd rechts.\n{hem}\n3 Rd rechts."
    assert after_each_round(read(text, (88,), "de")) == [88] * 15


ROUNDS_APART = [
    "In den folgenden Runden jeweils nach jeder Markierung 2 M re zus: in der 1., 3., 5. und 6. Rd.",
    "1., 3., 5. und 6. Rd: nach jeder Markierung 2 M re zus.",
]


@pytest.mark.parametrize("shaped", ROUNDS_APART)
@pytest.mark.parametrize("others", ["Die übrigen Runden ohne Abnahme.", "Alle anderen Rd re."])
def test_the_rounds_between_those_of_a_list_are_knit(shaped: str, others: str) -> None:
    text = f"Alle 11 M eine Markierung anbringen.\n{shaped} {others}\nNach der 6. Rd sind noch 42 M da."
    reading = read(text, (66,), "de")
    assert after_each_round(reading) == [60, 60, 54, 54, 48, 42]
    assert not faults(reading)


def test_a_round_told_by_itself_is_none_of_the_others() -> None:
    """Round 2 is purled."""
    text = "Rnds 1, 3 and 5: *k4, k2tog*. All rounds not mentioned are knit.\nRnd 2: purl."
    reading = read(text, (216,))
    assert after_each_round(reading) == [180, 180, 150, 150, 125]
    assert words_of_rounds(reading)[1] == "purl"


@pytest.mark.parametrize(
    "sentence",
    [
        "In dieser Runde gleichmäßig verteilt 6 M dazunehmen.",
        "In dieser Runde 6 M gleichmäßig verteilt hinzunehmen.",
    ],
)
def test_stitches_are_taken_in_addition(sentence: str) -> None:
    assert after_each_round(read(sentence, (66,), "de")) == [72]


def test_a_stitch_is_doubled_front_and_back() -> None:
    text = "Zunahme-Rd: * 2 M re, aus der folg. M 1 M re und 1 M re verschr. herausstr., ab * bis Rd-Ende (128 M)."
    reading = read(text, (96,), "de")
    assert after_each_round(reading) == [128]
    assert not faults(reading)


RIBS = ["2 re M jeder Rippe re zus.-str.", "beiden re M jeder Rippe re zus.-str."]


@pytest.mark.parametrize("ribs", RIBS)
@pytest.mark.parametrize("beginning", ["Spitze", "Krone"])
def test_the_stitches_of_each_rib_become_one(ribs: str, beginning: str) -> None:
    """First the purled, then the knitted, then one of each."""
    text = (
        "Anschlag 88 M.\nGrundmuster 2 M re, 2 M li, gerade hocharbeiten bis 21 cm.\n"
        f"{beginning}: 1. Abnahmerd: die 2 li M jeder Rippe li zus.-str. = 66 M.\n2. Abnahmerd: die {ribs} = 44 M.\n"
        "3. Abnahmerd: immer 1 re und 1 li M re zus.-str. = 22 M."
    )
    assert after_each_round(read(text, (88,), "de"))[-3:] == [66, 44, 22]


@pytest.mark.parametrize("end", ["Sobald noch 50 M übrig sind,", "Wenn nur noch 50 M übrig sind,"])
def test_the_yarn_is_drawn_through_when_so_many_remain(end: str) -> None:
    text = (
        "70 M, 14 M je Nadel.\nAbnahme in jeder Runde: immer die letzten beiden Maschen einer Nadel rechts "
        f"zusammenstricken (5 Maschen weniger je Runde).\n{end} Faden durchziehen."
    )
    assert after_each_round(read(text, (70,), "de")) == [65, 60, 55, 50]


@pytest.mark.parametrize(
    "turns",
    [
        "Dann im Wechsel 1 Runde re und 1 Abnahmerunde",
        "Dann abwechselnd 1 Rd ohne Abnahmen und 1 Abnahmerunde",
    ],
)
def test_plain_rounds_and_the_round_of_decreases_are_told_in_turn(turns: str) -> None:
    text = (
        "Alle 18 M einen MM einhängen.\nAbnahmerunde: *1 M re, SSK, re bis 3 M vor dem MM, 2 M re zus, 1 M re*, noch "
        f"5x ab * (96 M).\n3 Runden re, Abnahmerunde, 3 Runden re, Abnahmerunde (72 M).\n{turns}, bis 60 M bleiben."
    )
    assert after_each_round(read(text, (108,), "de")) == [96] * 4 + [84] * 4 + [72, 72, 60]


def test_the_repeat_goes_to_the_last_stitch() -> None:
    text = "RUNDE 5: 1 M re, *SSK, 4 M re, 2 M re zus*, von * bis * bis zur letzten M wdh, 1 M re"
    assert after_each_round(read(text, (82,), "de")) == [62]


@pytest.mark.parametrize("end", ["bis 28 M bleiben (10. Runde)", "bis noch 28 M übrig sind (10. Rd)"])
def test_the_round_that_is_the_last_stands_in_brackets(end: str) -> None:
    text = "7. Runde: 7x (4 M re, 2 M re zus), 35 M\n8. Runde: re\n9. Runde: re\n"
    text += f"Ab der 10. Runde jede Runde abnehmen, jeweils 1 M weniger vor der Abnahme, {end}."
    assert after_each_round(read(text, (42,), "de"))[-2:] == [35, 28]


ON_IN_TURN = [
    "Nun wechselt man stets ab zwischen einer glatten Runde und einer Abnahmerunde, bis 24 Maschen bleiben.",
    "So wechselst du immer eine Abnahmerunde und eine rechte Runde ab, bis 24 Maschen übrig sind.",
    "Im Wechsel von Abnahmerunde und glatter Runde geht es weiter, bis 24 Maschen übrig sind.",
    "Eine Runde rechts.\nDiese beiden Runden immer im Wechsel, bis du noch 24 Maschen hast.",
    "Eine Runde rechts.\nDiese beiden Runden machst du insgesamt fünfmal, danach hast du noch 24 Maschen.",
]
ON_WITHOUT_PLAIN_ROUNDS = [
    "Zuletzt fällt die glatte Runde fort, und man nimmt noch zweimal ab, so daß 8 Maschen übrig sind.",
    "Danach folgen die Abnahmerunden direkt aufeinander, bis 8 Maschen übrig sind.",
    "Jetzt lässt du die Zwischenrunden weg, bis es nur noch 8 Maschen sind.",
    "Jetzt nimmst du in jeder Runde ab. Das machst du so lange, bis du nur noch 8 Maschen auf den Nadeln hast.",
]


@pytest.mark.parametrize("turns", ON_IN_TURN)
@pytest.mark.parametrize("end", ON_WITHOUT_PLAIN_ROUNDS)
def test_how_a_crown_goes_on_is_told_in_sentences(turns: str, end: str) -> None:
    """Eight go in each round; from 24 there are no plain rounds between."""
    text = (
        "8 Markierer, jeweils nach 8 Maschen.\nVor jedem Markierer strickst du zwei Maschen rechts zusammen, "
        f"damit sind acht Maschen weg und es bleiben 56.\n{turns}\n{end}"
    )
    shaped = after_each_round(read(text, (64,), "de"))
    assert shaped in (
        [56, 56, 48, 48, 40, 40, 32, 32, 24, 16, 8],
        [56, 56, 48, 48, 40, 40, 32, 32, 24, 24, 16, 8],
    )


def test_rounds_are_named_by_a_letter_and_their_number() -> None:
    text = (
        "96 M.\nA1: * 12 M re, 2 M li zus, 2 M li * = 90 M\nA2–A4: M abstricken, wie sie liegen\n"
        "A5: * 12 M re, 2 M li zus, 1 M li * = 84 M\nA6: wie A2\nA7: * 6x 2 M re zus, 2 M li * = 48 M"
    )
    assert after_each_round(read(text, (96,), "de")) == [90, 90, 90, 90, 84, 84, 48]


def test_sizes_stand_side_by_side_with_a_bar_between() -> None:
    text = "Größe M | Größe L, Beginn mit 90 | 100 M\nRd 1: 10x [7 | 8 M re, 1 Abn.] → 80 | 90\nRd 2: re"
    assert after_rounds_of_sizes(read(text, (90, 100), "de")) == [[80, 80], [90, 90]]


def test_the_needles_in_turn_have_their_decrease() -> None:
    """Four go in a round, and eight where both decreases are on every needle."""
    text = (
        "64 M auf 4 Nadeln, pro Nadel 16 M.\n1. und 3. Nadel: 1 M re, 1 einfacher Überzug, Rest re. "
        "2. und 4. Nadel: bis auf 3 M re, 2 M re zus.-str., 1 M re. Zusammen 4 Abnahmen (60 M).\n"
        "Diese Rd im Wechsel mit 1 Rd re noch 2x (52 M).\n"
        "Dann beide Abnahmearten auf allen 4 Nadeln, also 8 M je Rd weniger, 2x in jeder 2. Rd (36 M)."
    )
    shaped = list(dict.fromkeys(after_each_round(read(text, (64,), "de"))))
    assert shaped == [60, 56, 52, 44, 36]


@pytest.mark.parametrize("sssk", ["3 M re abgeh. zus-str", "3 M abgeh. zusstr"])
def test_stitches_slipped_and_worked_together_are_a_decrease(sssk: str) -> None:
    assert after_each_round(
        read(f"1. R: * 9 M re, {sssk}, 9 M re, ab * noch 4x wdh (95 M)", (105,), "de")
    ) == [95]


def test_two_strokes_stand_between_the_sizes_and_rounds_have_small_letters() -> None:
    text = (
        "10 MM setzen, alle 8 // 9 // 10 M einer.\nRd a: 2 M re zus-str vor jedem MM (70 // 80 // 90 M).\n"
        "Rd b: 1 Rd re.\nRd a und b im Wechsel noch 1 // 2 // 3 x (60 // 60 // 60 M).\nRd a 2 x (40 // 40 // 40 M)."
    )
    reading = read(text, (80, 90, 100), "de")
    assert not faults(reading)
    assert after_rounds_of_sizes(reading)[2] == [90, 90, 80, 80, 70, 70, 60, 60, 50, 40]
    pair = read("4 // 5 Rd re.\n* 6 // 7 M re, 2 M re zus, ab * wdh.", (64, 63), "de")
    assert after_rounds_of_sizes(pair) == [[64] * 4 + [56], [63] * 5 + [56]]


def test_pairs_in_a_list_with_plain_rounds_between() -> None:
    text = "Jede 9. + 10. M re zus-str. (54 M), 2 Rd. re, jede 8. + 9. M (48 M), jede 7. + 8. M (42 M)."
    assert after_each_round(read(text, (60,), "de")) == [54, 54, 54, 48, 42]


@pytest.mark.parametrize(
    ("printed", "plain"), [("in folg. 4. Rd", 3), ("in der folg. 2. Rd", 1), ("in der 6. folg. Rd", 5)]
)
def test_a_decrease_round_so_many_rounds_on(printed: str, plain: int) -> None:
    text = f"1. Abn-Rd: * 8 M re, 2 M re zus *, 8x = 72 M\n2. Abn-Rd {printed}: * 7 M re, 2 M re zus *, 8x = 64 M"
    assert after_each_round(read(text, (80,), "de")) == [72] * (plain + 1) + [64]


def test_pairs_of_every_size_in_a_list_with_dashes() -> None:
    text = (
        "In der 1. Abn-Rd fortl. die 9. und 10. M – die 10. und 11. M – die 11. und 12. M re zus-str "
        "= 72 – 80 – 88 M.\nEbenso in jeder folg. 2. Rd weiterarb., zwischen den Abn ist jeweils 1 M weniger, "
        "bis 56 – 56 – 56 M übrig sind."
    )
    reading = read(text, (80, 88, 96), "de")
    assert not faults(reading)
    assert after_rounds_of_sizes(reading) == [
        [72, 72, 64, 64, 56],
        [80, 80, 72, 72, 64, 64, 56],
        [88, 88, 80, 80, 72, 72, 64, 64, 56],
    ]


def test_sizes_have_roman_numbers() -> None:
    text = (
        "Rd 1: 12x [3/4/5 M re, 2 M re zus] (48/60/72 M)\nNur Gr. II und III:\nRd 2: 2 M re zus (30/36 M)\n"
        "Nur Gr. III: Rd 3: 2 M re zus (18 M)"
    )
    reading = read(text, (60, 72, 84), "de")
    assert not faults(reading)
    assert after_rounds_of_sizes(reading) == [[48], [60, 30], [72, 36, 18]]


@pytest.mark.parametrize("section", ["Keil", "Rapport", "Feld", "Segment", "Achtel", "Zwickel", "Rapp."])
def test_a_decrease_at_the_end_of_each_section(section: str) -> None:
    """A decrease so told again takes as many stitches, and its count is proved."""
    text = f"96 M, 8 Teile zu 12 M\n1. Abn-Rd: in jedem {section} die letzten 2 M li zus-str = 88 M\n"
    reading = read(f"{text}2. Abn-Rd: ebenso = 80 M", (96,), "de")
    assert not faults(reading)
    assert after_each_round(reading) == [88, 80]
    assert faults(read(f"{text}2. Abn-Rd: ebenso = 82 M", (96,), "de"))


@pytest.mark.parametrize(
    ("end", "last"),
    [
        ("So weiter bis einschl. 7. Rd. = 48 M.", 48),
        ("Nun nur noch die Abnahme-Rd str, bis 48 M übrig sind.", 48),
        ("2x hintereinander fortl. 2 M re zus-str (36 M, dann 18 M).", 18),
    ],
)
def test_a_crown_ends_in_few_words(end: str, last: int) -> None:
    text = f"Abn-Rd: * 8 M re, 2 M re zus. * = 72 M\n{end}"
    if end.startswith("So"):
        text = (
            "1. Rd.: * 8 M re, 2 M re zus. * = 72 M\n2. Rd. u. alle geraden Rd.: re M\n"
            f"3. Rd.: * 7 M re, 2 M re zus. * = 64 M\n{end}"
        )
    reading = read(text, (80,), "de")
    assert not faults(reading)
    assert after_each_round(reading)[-1] == last


def test_a_full_stop_ends_the_round_before_the_number_of_stitches() -> None:
    """`re. 2 M re zus` is a plain round and a decrease; `2 re` and `re 2` are two stitches."""
    reading = read(
        "* 10 M re, 2 M re zus * (88 M). Folg. Rd re. Folg. Rd: * 2 M re zus, 9 M re * (80 M).", (96,), "de"
    )
    assert not faults(reading)
    assert after_each_round(reading) == [88, 88, 80]


def test_a_round_begins_behind_the_short_word_for_needles() -> None:
    text = "1. Rd: * 8 M re, 2 M re zus * = 72 M auf 4 Nd. 2. Rd: re. 3. Rd: * 7 M re, 2 M re zus * = 64 M."
    reading = read(text, (80,), "de")
    assert not faults(reading)
    assert after_each_round(reading) == [72, 72, 64]


def test_a_sentence_begins_with_a_number_in_words() -> None:
    text = "Alle 10 M 1 MM setzen.\nAbn-Rd: vor jedem MM 2 M re zus-str. Zwischenrunde: re. Beide Rd noch 2x = 56 M."
    assert after_each_round(read(text, (80,), "de")) == [72, 72, 64, 64, 56, 56]


@pytest.mark.parametrize("way", ["überzogen", "rechts verschränkt"])
def test_both_ends_of_every_section_lose_a_stitch(way: str) -> None:
    text = f"84 M in 6 Keile geteilt. 1. Rd: in jedem Keil die ersten 2 M {way} und die letzten 2 M re zus. (72 M)"
    assert after_each_round(read(text, (84,), "de")) == [72]


@pytest.mark.parametrize(
    ("pairs", "begun"),
    [
        ("jede 8. und 9. (9. und 10.) M re zus-str = 64 (72) M.", (72, 80)),
        ("jede 8./9. und 9./10. M re zus-str = 64/72 M.", (72, 80)),
        ("jede 8. und 9. (9. und 10./10. und 11./11. und 12.) M re zus-str.", (72, 80, 88, 96)),
    ],
)
def test_pairs_of_ordinals_of_all_sizes(pairs: str, begun: tuple[int, ...]) -> None:
    reading = read(f"In der folg. Rd {pairs}", begun, "de")
    assert not faults(reading)
    assert after_rounds_of_sizes(reading) == [[start - 8] for start in begun]


@pytest.mark.parametrize("name", ["Abn-Rd", "Abn.-Rd.", "Abnahme-Runde", "Abn.Rd."])
def test_a_decrease_round_has_its_name_in_two(name: str) -> None:
    text = f"{name}: auf jeder Nd die letzten 2 M re zus.str. = 76 M. 1 Rd re. Dann die {name} noch 2x hintereinander."
    reading = read(f"80 M auf 4 Nd. {text}", (80,), "de")
    assert not faults(reading)
    assert after_each_round(reading) == [76, 76, 72, 68]


@pytest.mark.parametrize(
    "last", ["dritt- u. vorletzte M.", "drittletzte und vorletzte M", "zweit- und drittletzte M"]
)
def test_decreases_inside_both_edges_of_each_needle(last: str) -> None:
    text = f"Abn-Rd: auf jeder Nd die 2. u. 3. M. überz. zus.str. und die {last} r. zus.str. (= 72 M.)"
    assert after_each_round(read(text, (80,), "de")) == [72]


def test_the_other_needles_stand_behind_a_semicolon() -> None:
    text = "80 M auf 4 Nd.\nAbn-Rd: 1. und 3. Nd: 1 M re, 2 M überz. zus-str, Rest re; 2. und 4. Nd: "
    reading = read(f"{text}bis auf 3 M re, 2 M re zus-str, 1 M re (76 M)", (80,), "de")
    assert not faults(reading)
    assert after_each_round(reading) == [76]


def test_rounds_that_go_on_with_a_stitch_less() -> None:
    text = (
        "Rd 1: jede 5. und 6. M re zus-str (= 40 M). In den folgenden 3 Runden ebenso abnehmen, dabei liegt "
    )
    reading = read(f"{text}jeweils 1 Masche weniger zwischen den Abnahmen (= 16 Maschen).", (48,), "de")
    assert not faults(reading)
    assert after_each_round(reading) == [40, 32, 24, 16]


def test_the_end_of_a_needle_has_a_name() -> None:
    text = "Rd 1: auf allen 4 Nd: 1 M re, 2 M re überz. zus-str, re bis 3 M vor Nd-Ende, 2 M re zus-str, 1 M re (64 M)."
    reading = read(text, (72,), "de")
    assert not faults(reading)
    assert after_each_round(reading) == [64]
