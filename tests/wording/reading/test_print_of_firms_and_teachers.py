"""What leaflets, magazines and teachers print in French and Spanish, and what English print has in the same manner.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from roundwright.wording.reading.languages.rewrite import rewritten
from tests.support.readings import after_each_round, counts, words_of_rounds

TOLD_AHEAD = [
    ("en", "Crown (all even rounds are knit):", "Rnd {0}: *k{1}, k2tog*"),
    ("en", "Crown (all even rnds: knit, from Rnd 2 to Rnd 4)", "Rnd {0}: *k{1}, k2tog*"),
    ("en", "Note: All even rounds are knit.", "Rnd {0}: *k{1}, k2tog*"),
    ("en", "All even rounds are plain.", "Rnd {0}: *k{1}, k2tog*"),
    (
        "fr",
        "Pour le dessus (les tours pairs se tricotent tous à l'endroit, du T2 au T4) :",
        "T{0} - *{1} m. end., 2 m. ens.*",
    ),
    ("fr", "Calotte (tous les tours pairs à l'endroit) :", "T{0} : *{1} m. end., 2 m. ens.*"),
    ("fr", "Tricoter tous les tours pairs à l'endroit.", "Tour {0} : *{1} m. end., 2 m. ens.*"),
    ("fr", "Les tours pairs ne sont pas notés : tout à l'endroit.", "Tour {0} : *{1} end., 2 ens.*"),
    ("fr", "N.B. : les tours pairs ne sont pas indiqués, tricoter à l'endroit.", "T{0} : *{1} end., 2 ens.*"),
    ("fr", "Sur tous les tours pairs, tricoter à l'endroit.", "{0}e tour : *{1} m. end., 2 m. ens.*"),
    (
        "es",
        "Para la copa (las vueltas pares se tejen todas del derecho, de la V2 a la V4):",
        "V{0}: *{1} d, 2pjd*",
    ),
    ("es", "Corona (todas las vueltas pares del derecho):", "V{0}: *{1}d, 2pjd*"),
    ("es", "Disminuciones (tejer todas las vueltas pares del derecho):", "V{0}: *{1}d, 2pjd*"),
    ("es", "Nota: las vueltas pares no están escritas, se tejen del derecho.", "V{0}: *{1}d, 2pjd*"),
    ("es", "Las vueltas pares no se indican: todo del derecho.", "Vta. {0}: *{1} der., 2 juntos*"),
]


@pytest.mark.parametrize(("language", "ahead", "worded"), TOLD_AHEAD)
def test_plain_rounds_told_ahead_stand_between_the_others(language: str, ahead: str, worded: str) -> None:
    """In a bracket behind a heading, in a note, or in a sentence."""
    rounds = "\n".join(worded.format(number, knit) for number, knit in ((1, 6), (3, 5), (5, 4)))
    assert after_each_round(read(f"{ahead}\n{rounds}", (96,), language)) == [84, 84, 72, 72, 60]


SAME = [
    ("fr", "T1 : 2 m. ens. tout du long → 96 m.\nT2 : pareil → 48 m."),
    ("fr", "T1 : 2 m. ens. tout du long (96 m.)\nT2 : idem (48 m.)"),
    ("fr", "T1 : 2 m. ens. tout du long (96 m.)\nT2 : de même (48 m.)"),
    ("fr", "T1 : 2 m. ens. tout du long = 96 m.\nT2 : comme au tour précédent = 48 m."),
    ("fr", "Tric. ttes les m. 2 par 2 à l'end. : 96 m. Répéter ce tour : 48 m."),
    ("es", "V1: 2 p. juntos toda la vuelta → 96 p.\nV2: igual → 48 p."),
    ("es", "V1: 2 p. juntos toda la vuelta (96 p.)\nV2: ídem (48 p.)"),
    ("es", "V1: 2 p. juntos toda la vuelta (96 p.)\nV2: lo mismo (48 p.)"),
    ("es", "V1: 2 p. juntos toda la vuelta = 96 p.\nV2: igual que la anterior = 48 p."),
    ("es", "Tejer todos los p. de 2 en 2 al der.: 96 p. Repetir esta vuelta: 48 p."),
]


@pytest.mark.parametrize(("language", "text"), SAME)
def test_the_same_again_is_the_round_before(language: str, text: str) -> None:
    """`Pareil`, `igual`."""
    assert after_each_round(read(text, (192,), language)) == [96, 48]


DAMIER = "Point de damier : Tours 1 à 4 : *4 end., 4 env.*. Tours 5 à 8 : *4 env., 4 end.*. Rép. ces 8 tours."
DAMERO = (
    "Punto damero: Vueltas 1 a 4: *4 der., 4 rev.*. Vueltas 5 a 8: *4 rev., 4 der.*. Rep. estas 8 vueltas."
)
PATTERNS = [
    ("fr", DAMIER, "Monter 96 m. Tric. ensuite 32 tours au pt de damier (soit 4 fois les 8 tours)."),
    ("fr", DAMIER, "Monter 96 m. Tric. 32 tours au pt de damier, soit 4 fois les 8 tours."),
    ("fr", DAMIER, "Monter 96 m. Continuer au point de damier pendant 32 tours."),
    ("fr", DAMIER, "Monter 96 m. Puis 32 tours de point de damier (4 fois le motif)."),
    ("es", DAMERO, "Montar 96 p. Tejer luego 32 vueltas en punto damero (o sea 4 veces las 8 vueltas)."),
    ("es", DAMERO, "Montar 96 p. Seguir en punto damero durante 32 vueltas."),
    ("es", DAMERO, "Montar 96 p. 32 vueltas de punto damero."),
]


@pytest.mark.parametrize(("language", "pattern", "called_for"), PATTERNS)
def test_rounds_in_a_pattern_with_a_name_are_counted(language: str, pattern: str, called_for: str) -> None:
    """The name of the pattern is short for what was told above: `au pt de damier`."""
    crown = {
        "fr": "1er tour : *6 m. end., 2 m. ens.* = 84 m.",
        "es": "1ª vuelta: *6 der., 2 juntos* = 84 p.",
    }
    assert after_each_round(read(f"{pattern}\n{called_for}\n{crown[language]}", (96,), language)) == [
        96
    ] * 32 + [84]


ANNOUNCED = [
    ("en", "Next rnd place a marker every 20 sts and start decreasing:", "Rnd 1: *k18, k2tog*"),
    (
        "fr",
        "Au tour suivant, placer un marqueur toutes les 20 m., soit 4 marqueurs, et diminuer ainsi :",
        "T1 : *18 m. end., 2 m. ens.*",
    ),
    ("fr", "Diminutions, à faire 1 fois sur chaque aiguille :", "T1 : *18 m. end., 2 m. ens.*"),
    ("fr", "Diminutions (à faire 1 fois par aiguille) :", "T1 : *18 m. end., 2 m. ens.*"),
    (
        "es",
        "En la siguiente vuelta ponemos un marcador cada 20 puntos, o sea 4, y ya vamos disminuyendo:",
        "V1: *18d, 2pjd*",
    ),
    ("es", "Disminuciones, a hacer 1 vez en cada aguja:", "V1: *18d, 2pjd*"),
]


@pytest.mark.parametrize(("language", "announced", "line"), ANNOUNCED)
def test_a_round_that_is_only_announced_is_worked_once(language: str, announced: str, line: str) -> None:
    """The sentence ends in a colon, and round 1 stands below it."""
    assert after_each_round(read(f"{announced}\n{line}", (80,), language)) == [76]


def test_a_marker_round_without_a_colon_is_a_round() -> None:
    """`Next rnd: place a marker every 20 sts.` is knitted while the markers are placed."""
    text = "Next rnd: place a marker every 20 sts.\nRnd 1: *k18, k2tog*"
    assert after_each_round(read(text, (80,), "en")) == [80, 76]


FEWER_SIZES = [
    ("fr", "Femme et homme seulement", "T1 : *– / 7 / 8 end., 2 ens.* (– / 80 / 90 m.)", "Homme seulement"),
    (
        "fr",
        "Tailles femme et homme uniquement",
        "T1 : *-/7/8 end., 2 ens.* = -/80/90 m.",
        "Taille homme uniquement",
    ),
    (
        "fr",
        "Pour les tailles femme et homme :",
        "T1 : *– (7, 8) end., 2 ens.* (– (80, 90) m.)",
        "Pour la taille homme :",
    ),
    ("es", "Solo mujer y hombre", "V1: *– / 7 / 8d, 2pjd* (– / 80 / 90 p)", "Solo hombre"),
    ("es", "Tallas mujer y hombre:", "V1: *- (7, 8) d, 2pjd* = - (80, 90) p", "Talla hombre:"),
    ("es", "Solo para mujer y hombre", "V1: *–/7/8d, 2pjd* (–/80/90 p)", "Solo para hombre"),
    ("de", "Nur Damen und Herren", "Rd 1: *– / 7 / 8 re, 2 re zus* (– / 80 / 90 M)", "Nur Herren"),
    ("nl", "Alleen dames en heren", "Toer 1: *– (7, 8) r, 2 r sam* (– (80, 90) st)", "Alleen heren"),
    ("nb", "Bare dame og herre", "Omg 1: *– (7, 8) r, 2 r sm* (– (80, 90) m)", "Bare herre"),
    ("da", "Kun dame og herre", "Omg 1: *– (7, 8) r, 2 r sm* (– (80, 90) m)", "Kun herre"),
]
SIZES = {
    "fr": "Tailles : enfant / femme / homme\nMonter 80 / 90 / 100 m.",
    "es": "Tallas: niño / mujer / hombre\nMontar 80 / 90 / 100 p.",
    "de": "Größen: Kinder / Damen / Herren\n80 / 90 / 100 M anschlagen.",
    "nl": "Maten: kind (dame, heer)\nZet 80 (90, 100) st op.",
    "nb": "Størrelser: barn (dame, herre)\nLegg opp 80 (90, 100) m.",
    "da": "Størrelser: barn (dame, herre)\nSlå 80 (90, 100) m op.",
}
FOR_ONE = {
    "fr": ("T2 : *7 end., 2 ens.* (80 m.)", "Toutes les tailles", "T3 : *6 end., 2 ens.* (70 m.)"),
    "es": ("V2: *7d, 2pjd* (80 p)", "Todas las tallas", "V3: *6d, 2pjd* (70 p)"),
    "de": ("Rd 2: *7 re, 2 re zus* (80 M)", "Alle Größen:", "Rd 3: *6 re, 2 re zus* (70 M)"),
    "nl": ("Toer 2: *7 r, 2 r sam* (80 st)", "Alle maten:", "Toer 3: *6 r, 2 r sam* (70 st)"),
    "nb": ("Omg 2: *7 r, 2 r sm* (80 m)", "Alle størrelser:", "Omg 3: *6 r, 2 r sm* (70 m)"),
    "da": ("Omg 2: *7 r, 2 r sm* (80 m)", "Alle størrelser:", "Omg 3: *6 r, 2 r sm* (70 m)"),
}


@pytest.mark.parametrize(("language", "larger", "line", "largest"), FEWER_SIZES)
def test_a_heading_for_some_sizes_needs_no_colon_and_a_dash_stands_for_none(
    language: str, larger: str, line: str, largest: str
) -> None:
    """`Solo mujer y hombre` alone in its line; `– / 7 / 8` where the smallest size has no number."""
    line_of_largest, every, last = FOR_ONE[language]
    text = "\n".join((SIZES[language], larger, line, largest, line_of_largest, every, last))
    assert counts(read(text, (80, 90, 100), language)) == [[80, 70], [90, 80, 70], [100, 90, 80, 70]]


LETTERS = [
    (
        "fr",
        (
            "Tailles S, M et L\nMonter 80 (88, 96) m.\nTaille L\nTour 1 : *10 end, 2 ens* (88 m)\n"
            "Tailles M et L\nTour 2 : *9 end, 2 ens* (80 m)\nToutes les tailles\nTour 3 : *8 end, "
            "2 ens* (72 m)"
        ),
    ),
    (
        "fr",
        (
            "Tailles : S (M, L)\nMonter 80 (88, 96) m.\nTaille L :\nTour 1 : *10 end, 2 ens* (88 "
            "m)\nTailles M et L :\nTour 2 : *9 end, 2 ens* (80 m)\nToutes les tailles :\nTour 3 : "
            "*8 end, 2 ens* (72 m)"
        ),
    ),
    (
        "es",
        (
            "Tallas S, M y L\nMontar 80 (88, 96) p.\nTalla L\nV1: *10d, 2pjd* (88 p)\nTallas M y "
            "L\nV2: *9d, 2pjd* (80 p)\nTodas las tallas\nV3: *8d, 2pjd* (72 p)"
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), LETTERS)
def test_a_size_by_its_letter_heads_its_rounds(language: str, text: str) -> None:
    """All sizes named at the top are no heading for some of them."""
    assert counts(read(text, (80, 88, 96), language)) == [[80, 72], [88, 80, 72], [96, 88, 80, 72]]


REWRITTEN = [
    ("fr", "Tailles : enfant / femme", "size : child / woman"),
    ("fr", "Taille L : 1 tour end", "Size L only: knit 1 rnds"),
    ("fr", "L'aiguille", "needle"),
    ("es", "v. 1: * 4 der., s.d., 3 der. *", "Rnd 1: * k4, sk2p, k3 *"),
    ("fr", "10 tours de point mousse", "10 rnds in pattern garter st"),
    ("es", "10 vueltas de punto elástico 2x2", "10 rnds in pattern 2x2 rib"),
    ("es", "10 vueltas de punto jersey", "knit 10 rnds"),
]


@pytest.mark.parametrize(("language", "text", "english"), REWRITTEN)
def test_print_stands_for_english_words(language: str, text: str, english: str) -> None:
    assert rewritten(text, language, 3).text == english


PLAIN = [
    ("fr", "On tricote 9 et 2 ensemble (reste 100). Un tour sans rien. 8 et 2 ensemble (90). Un sans rien."),
    ("fr", "9 end., 2 ens. tout le tour (100). Un tour uni. 8 end., 2 ens. (90). Un uni."),
    ("es", "Se tejen 9 y 2 juntos (quedan 100). Una vuelta lisa. Se tejen 8 y 2 juntos (90). Una lisa."),
    ("es", "Se tejen 9 y 2 juntos (100), una vuelta lisa, 8 y 2 juntos (90), una lisa."),
    (
        "es",
        "Se tejen 9 y 2 juntos (quedan 100). Una vuelta sin nada. 8 y 2 juntos (90). Otra vuelta sin nada.",
    ),
    ("es", "Se achica así: 9 y 2 juntos (100). Una vuelta sin achicar. 8 y 2 juntos (90). Una sin achicar."),
]


@pytest.mark.parametrize(("language", "text"), PLAIN)
def test_a_plain_round_is_told_without_the_word_for_it(language: str, text: str) -> None:
    """`Una lisa` is no count of 1."""
    assert after_each_round(read(text, (110,), language)) == [100, 100, 90, 90]


NAMED = [
    (
        "es",
        "s.d. = surjete doble (se pasa 1 p., se tejen 2 p. juntos y se monta el p. pasado)",
        "V1: * 4 der., s.d., 3 der. *",
    ),
    ("es", "Sd: pasar 1 p, tejer 2 p juntos y pasar el p sin tejer por encima", "V1: * 4 der., Sd, 3 der. *"),
    (
        "fr",
        "SD : surjet double = glisser 1 m., 2 m. ens., rabattre la m. glissée",
        "T1 : *4 end., SD, 3 end.*",
    ),
    ("en", "Zed: double decrease = sl 1, k2tog, psso", "Rnd 1: *k4, zed, k3*"),
]


@pytest.mark.parametrize(("language", "definition", "used"), NAMED)
def test_a_stitch_with_a_name_of_the_text_is_read(language: str, definition: str, used: str) -> None:
    assert after_each_round(read(f"{definition}\n{used}", (80,), language)) == [64]


NEEDLES = [
    ("en", "On each needle (20 sts): k18, k2tog = 76 sts."),
    ("en", "On each of the 4 needles (20 sts): k18, k2tog (76 sts)."),
    ("fr", "Sur chacune des 4 aig. (20 m.) : 18 m. end., 2 m. ens. = 76 m."),
    ("es", "En cada una de las 4 agujas (20 p.): 18 der., 2 juntos = 76 p."),
]


@pytest.mark.parametrize(("language", "text"), NEEDLES)
def test_the_stitches_of_a_needle_stand_behind_it(language: str, text: str) -> None:
    assert after_each_round(read(text, (80,), language)) == [76]


CABLES = [
    (
        "fr",
        (
            "Tour 1 : *2 m. env., glisser 3 m. sur une aig. auxiliaire devant le travail, 3 m. "
            "end., puis tric. à l'end. les 3 m. de l'aig. auxiliaire*"
        ),
    ),
    (
        "es",
        (
            "Vuelta 1: *2 p. rev., pasar 3 p. a una ag. auxiliar por delante de la labor, 3 p. "
            "der., tejer al der. los 3 p. de la ag. auxiliar*"
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), CABLES)
def test_a_cable_is_told_in_words(language: str, text: str) -> None:
    """Magazines tell how the stitches cross in the round itself."""
    assert after_each_round(read(text, (96,), language)) == [96]


OFTEN = [
    ("en", "Work 3 times: knit 1 rnd, purl 1 rnd."),
    ("en", "Work 3 times (knit 1 rnd, purl 1 rnd)."),
    ("en", "Cast on 84 sts. Repeat 3 times: knit 1 rnd, purl 1 rnd."),
    ("fr", "Monter 84 m. Tricoter 3 fois (1 tour end., 1 tour env.)."),
    ("fr", "Rép. 3 fois : 1 tour end., 1 tour env."),
    ("es", "Montar 84 p. Tejer 3 veces (1 vuelta der., 1 vuelta rev.)."),
]


@pytest.mark.parametrize(("language", "text"), OFTEN)
def test_plain_rounds_behind_how_often_are_all_worked(language: str, text: str) -> None:
    """`Work 3 times: knit 1 rnd, purl 1 rnd` is six rounds."""
    assert words_of_rounds(read(text, (84,), language)) == ["knit", "purl"] * 3


MONTHS = [
    (
        "fr",
        (
            "Tailles : 6 mois (12 mois)\nMonter 72 (84) m.\nT1 : (4 (5) m. end., 2 m. ens.) x 12 - 60 (72) m.\n"
            "12 mois uniquement\nT2 : (4 m. end., 2 m. ens.) x 12 - 60 m."
        ),
    ),
    (
        "es",
        (
            "Tallas: 6 meses (12 meses)\nMontar 72 (84) p.\nV1: (4 (5) der., 2 juntos) x 12 - 60 (72) p.\n"
            "Solo 12 meses\nV2: (4 der., 2 juntos) x 12 - 60 p."
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), MONTHS)
def test_a_count_behind_times_and_a_dash_is_no_second_size(language: str, text: str) -> None:
    """`x 12 - 60 (72) m`; the second size is that of 12 months."""
    assert counts(read(text, (72, 84), language)) == [[72, 60], [84, 72, 60]]


IN_TURN = [
    ("en", "2x2 rib for 4 cm (10 rnds), then st st for 12 cm (28 rnds)."),
    ("fr", "Côtes 2/2 sur 4 cm (10 tours), puis jersey sur 12 cm (28 tours)."),
    ("es", "Elástico 2x2, 4 cm (10 vueltas), luego jersey, 12 cm (28 vueltas)."),
]


@pytest.mark.parametrize(("language", "text"), IN_TURN)
def test_each_fabric_has_its_rounds_behind_its_length(language: str, text: str) -> None:
    assert (
        words_of_rounds(read(f"{text}\n", (96,), language))
        == ["*k2, p2; rep from * around"] * 10 + ["knit"] * 28
    )


SENTENCES = [
    (
        "fr",
        (
            "Tricoter 6 mailles, puis 2 mailles ensemble ; recommencer jusqu'à la fin du tour (84 mailles). Au tour "
            "suivant, tricoter toutes les mailles à l'endroit. Tricoter 5 mailles, puis 2 mailles ensemble ; "
            "recommencer jusqu'à la fin du tour (72 mailles)."
        ),
    ),
    (
        "es",
        (
            "Teje 6 puntos y luego 2 puntos juntos; repite hasta el final de la vuelta (te deben quedar 84 puntos). "
            "En la vuelta siguiente, teje todos los puntos del derecho. Teje 5 puntos y luego 2 puntos juntos; "
            "repite hasta el final de la vuelta (72 puntos)."
        ),
    ),
    ("fr", "T1 : 2 m. ens. à l'end. toutes les 6 m. (84)\nT2 : end.\nT3 : *5 end., 2 ens.* (72)"),
    ("es", "V1: 2 p. juntos der. cada 6 p. (84)\nV2: der.\nV3: *5 der., 2 juntos* (72)"),
]


@pytest.mark.parametrize(("language", "text"), SENTENCES)
def test_a_plain_round_stands_between_two_others(language: str, text: str) -> None:
    """In a sentence of its own, or by its own number."""
    assert after_each_round(read(text, (96,), language)) == [84, 84, 72]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        (
            "fr",
            "Les tours 2 et 4 se tricotent à l'endroit.\nT1 : *6 end., 2 ens.* (84)\nT3 : *5 end., 2 ens.* (72)",
        ),
        (
            "es",
            "Las vueltas 2 y 4 se tejen del derecho.\nV1: *6 der., 2 juntos* (84)\nV3: *5 der., 2 juntos* (72)",
        ),
    ],
)
def test_plain_rounds_told_ahead_by_their_numbers_are_all_worked(language: str, text: str) -> None:
    """The fourth stands behind the last that is given."""
    assert after_each_round(read(text, (96,), language)) == [84, 84, 72, 72]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("fr", "Tour 1 : *8 end., 2 ens.* (72)\nTour 2 : tricoter toutes les mailles."),
        ("es", "Vuelta 1: *8 der., 2 juntos* (72)\nVuelta 2: tejer todos los puntos."),
    ],
)
def test_to_work_all_stitches_is_to_knit_them(language: str, text: str) -> None:
    """A text for beginners names no other stitch."""
    assert after_each_round(read(text, (80,), language)) == [72, 72]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        (
            "fr",
            "Rang 1 (endroit) : 8 m. end., 2 m. ens., répéter 8 fois. 72 m. au total.\nRang 2 : à l'endroit.",
        ),
        (
            "es",
            "Vuelta 1 (derecho): 8 p. der., 2 p. juntos, repetir 8 veces. 72 p. en total.\nVuelta 2: al derecho.",
        ),
    ],
)
def test_the_side_in_a_bracket_behind_the_number_is_no_round(language: str, text: str) -> None:
    """`Rang 1 (endroit) :` says which side faces the knitter."""
    assert after_each_round(read(text, (80,), language)) == [72, 72]
