"""Texts in other languages are rewritten in the English words that the reader knows, with a map of their places."""

import re

import pytest

from roundwright import reference
from roundwright.wording.reading.languages.original import change, worded
from roundwright.wording.reading.languages.recognise import named, recognised
from roundwright.wording.reading.languages.rewrite import rewritten

LANGUAGES = reference.LANGUAGES

REWRITTEN = [
    ("de", "9 M re", "k9"),
    ("de", "9 r", "k9"),
    ("de", "2 l", "p2"),
    ("de", "2 M re zusstr", "k2tog"),
    ("de", "2 Maschen rechts zusammenstricken", "k2tog"),
    ("de", "2 M re überz zusstr", "ssk"),
    ("de", "1 M abh, 2 M re zusstr, die abgeh M überziehen", "sk2p"),
    ("da", "1 r løs af, 1 r, træk den løse m over", "skp"),
    ("da", "1 r løs af, strik 2 r sm og træk den løse m over", "sk2p"),
    ("nb", "1 r løst av, 1 r, trekk den løse m over", "skp"),
    ("nb", "1 r løs av, 2 r sm, trekk den løse m over", "sk2p"),
    ("de", "* 4 M re, 1 U, ab * stets wdh", "* k4, yo, rep from * around"),
    ("de", "1.–10. Rd: re", "Rnd 1-10: knit"),
    ("de", "1., 3. und 5. Rd: li", "Rnd 1, 3 and 5: purl"),
    ("de", "in jeder 2. Rd", "every other rnd"),
    ("de", "jede 7. und 8. M zusammenstricken", "knit every 7th and 8th st together"),
    ("de", "zwei Maschen rechts", "k2"),
    ("de", "bis zu den letzten 3 M", "to last 3 sts"),
    ("de", "noch 7x wdh", "7 more times"),
    ("de", "dreimal", "3 times"),
    ("de", "(= 72 M)", "(= 72 sts)"),
    ("de", "schneide den Faden vorsichtig ab", "cut yarn"),
    ("de", "Nur Gr. L: 1 Rd re", "Size L only: knit 1 rnd"),
    ("de", "Gr. M und L: 1 Rd re", "sizes M and L only: knit 1 rnd"),
    ("fr", "Taille L seulement : 1 tour end", "Size L only: knit 1 rnds"),
    ("es", "Solo talla M: 1 vta der", "Size M only: knit 1 rnds"),
    ("nb", "Bare str. L: 1 omg rett", "Size L only: knit 1 rnds"),
    ("da", "Str. M og L: 1 omg ret", "sizes M and L only: knit 1 rnds"),
    ("nl", "Alleen maat XL: 1 toer r", "Size XL only: knit 1 rnds"),
]


@pytest.mark.parametrize(("language", "text", "english"), REWRITTEN)
def test_words_stand_for_english_words(language: str, text: str, english: str) -> None:
    """A stitch, a round or a repeat in the words of a language, and the English words for it."""
    assert rewritten(text, language, 1).text == english


ON_THE_SAME_LINE = [
    (
        "de",
        "*2 M re, 2 M zusstr* (= 54 M), und dann noch 2 Runden rechts",
        "*k2, k2tog* (= 54 sts). Knit 2 rnds",
    ),
    ("de", "2 Rd li und noch mal 26 Runden rechts.", "purl 2 rnds . Knit 26 rnds."),
    ("fr", "4 m end, 2 m ens (80 m), puis encore 2 tours à l'endroit", "k4, k2tog (80 sts). Knit 2 rnds"),
    (
        "es",
        "4 p der, 2 p juntos der (80 p), y luego 2 vueltas del derecho",
        "k4, k2tog (80 sts). Knit 2 rnds",
    ),
    ("nb", "4 r, 2 r sm (80 m), og deretter 2 omg rett", "k4, k2tog (80 sts). Knit 2 rnds"),
    ("da", "4 r, 2 r sm (80 m), og så 2 omg ret", "k4, k2tog (80 sts). Knit 2 rnds"),
    ("nl", "4 r, 2 r samen (80 st), dan nog 2 toeren recht", "k4, k2tog (80 sts). Knit 2 rnds"),
]


@pytest.mark.parametrize(("language", "text", "english"), ON_THE_SAME_LINE)
def test_plain_rounds_on_the_line_of_a_round_are_rounds_of_their_own(
    language: str, text: str, english: str
) -> None:
    """Bloggers join the plain rounds to the round before with any number of words: `, und dann noch 2 Runden`."""
    assert rewritten(text, language, 1).text == english


def test_a_verb_that_ends_in_the_word_for_one_counts_nothing() -> None:
    """`der Rand rollt sich ein,` has no number, and `eine Runde` has one."""
    assert rewritten("rollt sich ein, eine Runde rechts", "de", 1).text == "rollt . Knit 1 rnds"


AT_MARKERS = [
    ("de", "Hänge nach jeder 15. Masche einen Markierer ein", "place a marker every 15 sts"),
    ("fr", "Placez un marqueur toutes les 15 mailles", "place a marker every 15 sts"),
    ("es", "Coloca un marcador cada 15 puntos", "place a marker every 15 sts"),
    ("nb", "Sett et merke etter hver 15. maske", "place a marker every 15 sts"),
    ("da", "Sæt et mærke efter hver 15. maske", "place a marker every 15 sts"),
    ("nl", "Hang na elke 15 steken een markeerder", "place a marker every 15 sts"),
    ("de", "Das machst du vor allen 6 Markierern", "rep 6 times in all"),
    ("fr", "Faites cela avant les 6 marqueurs", "rep 6 times in all"),
    ("es", "Así en los 6 marcadores", "rep 6 times in all"),
    ("nb", "Gjør dette før alle 6 merker", "rep 6 times in all"),
    ("da", "Gør dette før alle 6 mærker", "rep 6 times in all"),
    ("nl", "Doe dit bij alle 6 markeerders", "rep 6 times in all"),
    ("de", "Das machst du vor jedem Marker", "do this at each marker"),
    ("nb", "Gjør det 11 ganger", "rep 11 times in all"),
]


@pytest.mark.parametrize(("language", "text", "english"), AT_MARKERS)
def test_teachers_hang_markers_and_say_what_is_done_at_all_of_them(
    language: str, text: str, english: str
) -> None:
    """Where the markers hang, and that a decrease is worked at each of them, with how many they are."""
    assert rewritten(text, language, 1).text == english


ORDINALS = [
    ("es", "2.ª a 4.ª vta.: der.", "Rnd 2-4: knit."),
    ("es", "10.ª y 11.ª vta.: der.", "Rnd 10 and 11: knit."),
    ("es", "3.er vuelta: der", "Rnd 3: knit"),
    ("fr", "2ᵉ et 3ᵉ tours : end", "Rnd 2 and 3 : knit"),
    ("nl", "2e t/m 4e toer: r", "Rnd 2-4: knit"),
]


BY_TURNS = "work dec rnd and plain rnd alternately 5 times"
IN_TURN = [
    ("de", "Abnahmerunde und Zwischenrunde im Wechsel str, zusammen je 5x", BY_TURNS),
    ("fr", "Alterner le tour de diminution et le tour lisse, 5 fois chacun", BY_TURNS),
    ("es", "Alternar las dos vueltas, 5 veces cada una", "rep the last 2 rnds 5 times in all"),
    ("nb", "Strikk felleomgang og mellomomgang vekselvis 5 ganger", BY_TURNS),
    ("da", "Strik indtagningsomgang og mellemomgang skiftevis 5 gange", BY_TURNS),
    ("nl", "Brei mindertoer en gewone toer om en om, 5 keer", BY_TURNS),
    ("de", "3 Abnahmerunden hintereinander", "work 3 dec rnds"),
    ("fr", "Tricoter 3 tours de diminution de suite", "work 3 dec rnds"),
    ("es", "Hacer 3 vueltas de menguados seguidas", "work 3 dec rnds"),
    ("nb", "Strikk 3 felleomganger etter hverandre", "work 3 dec rnds"),
    ("da", "Strik 3 indtagningsomgange i træk", "work 3 dec rnds"),
    ("nl", "Brei 3 mindertoeren achter elkaar", "work 3 dec rnds"),
]  # fmt: skip


@pytest.mark.parametrize(("language", "text", "english"), IN_TURN)
def test_teachers_work_two_rounds_in_turn_or_one_again_and_again(
    language: str, text: str, english: str
) -> None:
    assert rewritten(text, language, 1).text == english


BESIDE_NUMBERS = [
    ("nb", "* 1 kast, 2 r sm *, gjenta. 2.–4. omg: r. 5. omg: r", "* yo, k2tog *, rep. Rnd 2-4: knit. Rnd 5: knit"),
    ("nl", "2e - 4e toer: r", "Rnd 2-4: knit"),
]  # fmt: skip


@pytest.mark.parametrize(("language", "text", "english"), BESIDE_NUMBERS)
def test_a_round_begins_behind_a_short_form_and_a_dash(language: str, text: str, english: str) -> None:
    assert rewritten(text, language, 2).text == english


@pytest.mark.parametrize(("language", "text", "english"), ORDINALS)
def test_ordinals_have_raised_letters_behind_a_full_stop(language: str, text: str, english: str) -> None:
    """`2.ª` and `2ᵉ` are ordinals."""
    assert rewritten(text, language, 1).text == english


@pytest.mark.parametrize(
    ("text", "english"),
    [
        ("Monter 72-80 m.\nTour 2-4 : 7-8 m end", "cast on 72 (80) sts.\nRnd 2-4 : k7 (8)"),
        ("Monter 72 m.\n7-8 m end", "cast on 72 sts.\n7-k8"),
        ("Monter 72-80 m.\nTricoter 2-3 tours end", "cast on 72 (80) sts.\nknit 2 (3) rnds"),
    ],
)
def test_two_sizes_have_a_hyphen_between_them_where_the_stitches_of_the_hat_have(
    text: str, english: str
) -> None:
    """`72-80 m` are two sizes, and then every pair is but the numbers of rounds; else a hyphen says from and to."""
    assert rewritten(text, "fr", 2).text == english


NO_COUNT = [
    ("da", "Huen er nu 21 cm lang", "Huen measures 21 cm"),
    ("de", "Die Mütze ist nun 21 cm lang", "Mütze measures 21 cm"),
    ("da", "tråden mellem to masker", "yarn between sts"),
    ("de", "zwischen zwei Maschen", "between sts"),
    ("nb", "(8 m pr omg)", "(8 sts decreased)"),
    ("de", "2zus heißt immer 2 rechts zusammen", ""),
    ("nb", "2sm = 2 rett sammen", ""),
]


@pytest.mark.parametrize(("language", "text", "english"), NO_COUNT)
def test_numbers_that_are_no_count_of_stitches(language: str, text: str, english: str) -> None:
    """What is measured, where a strand lies, how many go in a round, and what a short form stands for."""
    assert rewritten(text, language, 1).text == english


@pytest.mark.parametrize(
    ("language", "text", "english"),
    [
        ("nb", "Venstrefelling (vf): 1 m løst av, 1 r, trekk den løse m over", "vf: skp"),
        ("da", "vf (venstrefældning): 1 m løs af, 1 r, træk den løse m over", "vf (venstrefældning): skp"),
        ("de", "Abkürzungen (kurz): 1 M re", "Abbreviations (kurz): k1"),
    ],
)
def test_the_short_name_of_a_stitch_is_given_in_brackets_behind_the_long_one(
    language: str, text: str, english: str
) -> None:
    """The short name stands for the stitch, whichever of the two comes first."""
    assert rewritten(text, language, 1).text == english


SECTIONS = [
    (
        "de",
        "in jedem Teil die ersten beiden Maschen rechts zus-str",
        "k2tog at the beginning of each section",
    ),
    ("fr", "commencez chaque partie par un surjet simple", "skp at the beginning of each section"),
    ("es", "Al principio de cada parte", "at the beginning of each section"),
    ("nb", "i begynnelsen av hver del", "at the beginning of each section"),
    ("da", "i begyndelsen af hvert felt", "at the beginning of each section"),
    ("nl", "aan het begin van elk deel", "at the beginning of each section"),
    ("de", "Diese Abnahmen in jeder 2. Runde noch 5mal", "in this manner dec every other rnd 5 more times"),
    (
        "fr",
        "Répétez ces diminutions tous les 2 tours encore 5 fois",
        "in this manner dec every other rnd 5 more times",
    ),
    (
        "es",
        "Repetir esta disminución cada dos vueltas 5 veces más",
        "in this manner dec every other rnd 5 more times",
    ),
    (
        "nb",
        "Gjenta disse fellingene på annenhver omgang 5 ganger til",
        "in this manner dec every other rnd 5 more times",
    ),
    (
        "da",
        "Denne indtagning gentages på hver anden omgang endnu 5 gange",
        "in this manner dec every other rnd 5 more times",
    ),
]


@pytest.mark.parametrize(("language", "text", "english"), SECTIONS)
def test_a_hat_in_sections_is_decreased_at_the_beginning_of_each(
    language: str, text: str, english: str
) -> None:
    """Where in each section a decrease is, and how often more it is worked in every other round."""
    assert rewritten(text, language, 1).text == english


@pytest.mark.parametrize(
    ("language", "text", "english"),
    [
        ("es", "Vuelta 1: 9 veces * 11 p. der., 2 p. juntos *.", "Rnd 1:  * k11, k2tog * 9 times."),
        ("de", "1. Rd.: 12 mal * 10 M. re., 2 M. re. zus. *", "Rnd 1:  * k10, k2tog * 12 times"),
        ("fr", "*2 m end, 1 m env*", "*k2, p1*"),
    ],
)
def test_the_number_of_times_stands_before_what_is_worked(language: str, text: str, english: str) -> None:
    """English has it behind the stars."""
    assert rewritten(text, language, 1).text == english


def test_a_line_that_goes_on_with_and_is_read_as_a_line() -> None:
    """`y de dos en dos` behind the rounds before, in a line of its own."""
    assert rewritten("4 vueltas lisas,\ny 2 p der", "es", 1).text == "work 4 rnds straight,\n k2"


SIZES = [
    ("a) 80 b) 88 c) 96", 3, "80 (88, 96)"),
    ("88 (96/104)", 3, "88 (96, 104)"),
    ("88 (96, 104)", 3, "88 (96, 104)"),
    ("88 (96 ; 104)", 3, "88 (96, 104)"),
    ("80 – 88 – 96", 3, "80 (88, 96)"),
    ("80/88/96", 3, "80 (88, 96)"),
    ("–a) 80 –b) 88 –c) 96", 3, "80 (88, 96)"),
    ("(80) 88 (96) 104", 4, "80 (88, 96, 104)"),
    ("80 (88) 96 (104)", 4, "80 (88, 96, 104)"),
    ("60 – 64", 2, "60 (64)"),
    ("60 – 64", 1, "60 – 64"),
    ("(9) 19 1/2 (22 1/4)", 3, "9 (19 1/2, 22 1/4)"),
    ("21 (22) 19 1/2 (13 1/2) 22", 5, "21 (22, 19 1/2, 13 1/2, 22)"),
    ("3 (2 3/4 ; 1/4)", 3, "3 (2 3/4, 1/4)"),
    ("1 (1/4)", 3, "1 (1, 4)"),
    ("3,5", 1, "3.5"),
    ("17,5 (18/19,5)", 3, "17.5 (18, 19.5)"),
    ("1,3,5", 1, "1,3,5"),
    ("7/8", 1, "7/8"),
]


@pytest.mark.parametrize(("text", "sizes", "english"), SIZES)
@pytest.mark.parametrize("language", LANGUAGES)
def test_sizes_and_decimals_are_read_as_they_are_printed(
    language: str, text: str, sizes: int, english: str
) -> None:
    """Lists of sizes in every manner, decimal commas, and what is no list: a range, a rib, numbers of rounds."""
    assert rewritten(text, language, sizes).text == english


def written_rows() -> list[tuple[str, str, str]]:
    """Every wording in which the service prints something, short and plain, with its English words."""
    return [
        (language, wording, row.means)
        for language in LANGUAGES
        for row in reference.wordings(language)
        for wording in (row.writes, row.plain)
        if wording
    ]


@pytest.mark.parametrize(("language", "wording", "english"), written_rows())
def test_what_is_written_is_read(language: str, wording: str, english: str) -> None:
    """A wording that the service prints, with numbers in it, is read as what it stands for."""
    numbers = {"n": "5", "m": "6", "a": "7", "o": "7.", "p": "8.", "s": "7."}
    ending = next((row.reads[0] for row in reference.wordings(language) if row.kind == "ending"), ".")
    filled = re.sub(r"\{([a-z])\}", lambda slot: numbers[slot[1]].replace(".", ending), wording)
    wanted = re.sub(
        r"\{([a-z])(:th)?\}", lambda slot: numbers[slot[1]].rstrip(".") + "th" * bool(slot[2]), english
    )

    assert rewritten(filled, language, 1).text.removeprefix("the ") == wanted


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_stitch_is_written_in_one_wording(language: str) -> None:
    """Of the wordings of a stitch one is printed by the service."""
    written = [row.means for row in reference.wordings(language) if row.writes]

    assert len(written) == len(set(written))


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_wording_has_the_numbers_of_its_meaning(language: str) -> None:
    """A row that means `k{n}` has `{n}` in all its wordings, whatever is left out; none could be filled without it."""
    for row in reference.wordings(language):
        needed = set(re.findall(r"\{([a-z])", row.means))
        for wording in (*row.reads, row.writes or row.reads[0], row.plain or row.reads[0]):
            assert needed <= set(re.findall(r"\{([a-z])", _shortest(wording))), wording


def _shortest(wording: str) -> str:
    """A wording without what may be left out, `[...]`, also where one stands in another."""
    shorter = re.sub(r"\[[^\[\]]*\]", "", wording)
    return wording if shorter == wording else _shortest(shorter)


@pytest.mark.parametrize("language", LANGUAGES)
def test_lines_stay_lines(language: str) -> None:
    """A rewritten text has the lines of the original, whatever ends them, and words of prose stay."""
    text = "Xyzzy\r\n1. 5 (6)\n\nknit\rplugh 3,5\n"

    made = rewritten(text, language, 2)

    assert len(made.text.splitlines()) == len(text.splitlines())
    assert "Xyzzy" in made.text
    assert made.place(made.text.index("plugh")) == text.index("plugh")


def test_a_word_that_is_english_by_chance_is_prose() -> None:
    """`in`, `rest` or `die` of another language are not taken for the English words."""
    assert rewritten("und rest knit", "de", 1).text == "and restÿ knitÿ"


def test_places_are_those_of_the_original() -> None:
    """A place in the English words is the place of what stands for it; of a number, of that number."""
    text = "1. Rd: 18 M re, 2 M re zusstr."
    made = rewritten(text, "de", 1)

    assert made.text == "Rnd 1: k18, k2tog."
    assert made.place(made.text.index("18")) == text.index("18")
    assert made.place(made.text.index("k2tog")) == text.index("2 M")
    assert made.place(len(made.text)) == len(text)


@pytest.mark.parametrize(
    ("old", "new", "edited"),
    [
        ("18", "16", "1. Rd: 16 M re, 2 M re zusstr."),
        ("k18", "k16", "1. Rd: 16 M re, 2 M re zusstr."),
        ("k2tog", "ssk", "1. Rd: 18 M re, 2 M re überz zusstr."),
        ("k18, k2tog", "k17, k3tog", "1. Rd: 17 M re, 3 M re zusstr."),
        ("Rnd 1", "Rnd 3", "3. Rd: 18 M re, 2 M re zusstr."),
        (", k2tog", "", "1. Rd: 18 M re."),
        ("k2tog.", "k2tog, k5.", "1. Rd: 18 M re, 2 M re zusstr, 5 M re."),
    ],
)
def test_edits_are_made_in_the_original(old: str, new: str, edited: str) -> None:
    """An edit of the English words is one of the original: its numbers change, other words are in its language."""
    text = "1. Rd: 18 M re, 2 M re zusstr."
    made = rewritten(text, "de", 1)
    at = made.text.index(old)

    edit = change(made, at, at + len(old), new)

    assert text[: edit.start] + edit.text + text[edit.end :] == edited


def test_english_words_are_put_into_the_language() -> None:
    """Words that an edit brings are printed as the service prints them."""
    assert worded("de", "rep from * around (48 sts)") == "ab * stets wdh (48 M)"


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("1. Rd: * 2 M re, 2 M li, ab * stets wdh.", "de"),
        ("Rnd 1: *k2, p2; rep from * around.", "en"),
        ("k2tog", "en"),
        ("12 r, 3 p, 2 m", "en"),
        ("", "en"),
        ("A cosy hat for cold days.", "en"),
        ("Ten men sat on a log. Tom had a red hat.", "en"),
        ("Some men are for war, he said to her.", "en"),
        ("We ran to the shop. Her hat was so nice.", "en"),
        ("Alle M re", "de"),
        ("Omg 1: r", "da"),
        ("Rang 1: *2 m end*", "fr"),
        ("alles recht", "nl"),
        ("(3 d, 2pjd) x12", "es"),
        ("Das ist eine warme Mütze.", "de"),
    ],
)
def test_the_language_is_found_from_the_words(text: str, language: str) -> None:
    """Words tell the language; single letters tell none, and what tells nothing is read as English.

    Words that stand in wordings of several words, and are English words too, tell nothing by themselves.
    """
    found = recognised(text)

    assert found.language == language
    assert found.second is None or found.language != "en"


@pytest.mark.parametrize(
    ("tag", "language", "known"),
    [
        ("de-AT", "de", True),
        ("DE", "de", True),
        ("en-GB", "en", True),
        ("tlh", "en", False),
        ("", "en", False),
    ],
)
def test_a_tag_names_a_language_whatever_its_region(tag: str, language: str, *, known: bool) -> None:
    """`de-AT` is read as German; a language without a table is read as English."""
    found = named(tag, "")

    assert (found.language, found.known) == (language, known)
