"""What leaflets, worksheets and old books in French and Spanish print every day."""

import pytest

from roundwright.wording.proofreading.read import read
from roundwright.wording.reading.languages.rewrite import rewritten
from tests.support.readings import after_each_round, counts

REWRITTEN = [
    # stitches by their short names, sizes by their own letters
    ("es", 1, "*10 pd, 2pjd, 1 pr; rep desde *", "*k10, k2tog, p1; rep from *"),
    ("es", 3, "Tallas P (M, G)", "size S (M, L)"),
    ("es", 3, "V1 (solo G): pd", "Rnd 1 (size L only): knit"),
    ("es", 3, "V3 (solo M y G): pd", "Rnd 3 (sizes M and L only): knit"),
    ("es", 3, "V5 (todas): pd", "Rnd 5 (all sizes): knit"),
    ("es", 3, "Solo G: 4 vueltas del derecho", "Size L only: knit 4 rnds"),
    ("fr", 3, "Tailles P (M, G)", "size S (M, L)"),
    ("fr", 3, "Tour 1 (G seulement) : à l'endroit", "Rnd 1 (size L only) : knit"),
    ("fr", 3, "Tour 3 (toutes) : à l'endroit", "Rnd 3 (all sizes) : knit"),
    # each stitch as it comes, and a round over and over
    ("es", 1, "Vtas 2 y 3: cada punto como se presenta.", "Rnd 2 and 3: in pattern."),
    ("fr", 1, "2e tour : chaque maille comme elle se présente.", "Rnd 2 : in pattern."),
    ("es", 1, "Repite la vuelta base hasta tener 32 vueltas.", "rep this rnd until 32 rnds have been worked in total."),
    ("fr", 1, "Répéter ce tour jusqu'à avoir fait 32 tours.", "rep this rnd until 32 rnds have been worked in total."),
    # lines that end within a wording or a list of sizes
    ("fr", 1, "encore 5 fois ts les\n2 tours", "every other rnd 5 more times\n"),
    ("es", 4, "poner un marcador cada 9\n(10 – 11 – 12) p.", "place a marker every 9 (10, 11, 12) sts.\n"),
    # counts of all sizes, and behind a round
    ("es", 1, "= 40 p. en todas las tallas", "= 40 sts"),
    ("fr", 1, "= 32 m. après le 13e tour.", "= 32 sts After Rnd 13."),
    # rounds from one number to another, in a row of a table
    ("es", 1, "2 a 4 | todo del derecho | 66", "2-4 | knit | 66"),
    ("fr", 1, "2 à 4 — à l'endroit — 66", "2-4 – knit — 66"),
    # a letter for a round
    ("es", 1, "R1: *8 pd, 2pjd*", "Rnd 1: *k8, k2tog*"),
    ("es", 1, "R2-4: pd", "Rnds 2-4: knit"),
    # two by two, three by three
    ("fr", 1, "Au tour suivant, on prend toutes les mailles deux par deux.", "next rnd: k2tog around."),
    ("es", 1, "En la vta. siguiente trab.\ntodos los p. de 2 en 2 juntos", "next rnd: k2tog around\n"),
    # a last round by its stitches
    ("fr", 1, "Finissez par un tour de 2 m ens : 7 mailles.", "end with 1 rnd k2tog around : 7 sts."),
    ("fr", 1, "Terminer par un rang de 3 m ens end", "end with 1 rnd k3tog around"),
    ("fr", 1, "Finir par un tour 2.", "ending with rnd 2."),
    # stitches by their fabric, and a made stitch told in full
    ("fr", 1, "* 10 m. jersey end., 2 m. ens. à l'end. *", "* k10, k2tog *"),
    ("fr", 1, "2 m. end., 1 augmentation prise sur le fil entre deux mailles", "k2, m1"),
    # a line that ends before a repeat does
    ("fr", 1, "* 13 m. end., 2 m. ensemble\nà l'endroit * ; tout le tour", "* k13, \nk2tog * ; around"),
    # a line that ends before a number
    ("es", 1, "hasta que queden\n2 puntos en cada aguja", "until 2 sts remain on each needle\n"),
    ("fr", 1, "Le 25e tour ne laisse plus\nque 20 mailles", "until 20 sts remain\n"),
    # what the text itself calls its markers
    ("fr", 1, "Marqueur (M). À l'end jusqu'à 2 m avant M", "marker . Knit to 2 sts before marker"),
    ("es", 1, "Con 80 p. en la aguja, trab. a p. jersey", "= 80 sts work St st"),
    ("es", 1, "en la 1ª vuelta aumentar 8 p. repartidos", "in the first rnd inc 8 sts evenly"),
    ("fr", 1, "Rép. 4 fois les 8 tours suivants", "work the following 8 rnds 4 times"),
    ("fr", 1, "3 fois de suite", "3 times"),
    ("es", 1, "3 veces seguidas", "3 times"),
    ("es", 1, "Tejer 2 vtas. *3 p. der., 2 p. juntos*", "work 2 rnds. *k3, k2tog*"),
    ("es", 1, "Tejer las vtas A y B 3 veces más", "rep rnds A and B 3 more times"),
    ("es", 1, ", luego la vta A 5 veces", ", then work rnd A 5 times"),
    ("fr", 1, "Tric. les tours A et B encore 3 fois", "rep rnds A and B 3 more times"),
    ("fr", 1, "et deux tours unis après chaque tour de diminutions", "and 2 plain rnds between"),
    ("es", 1, "y dos vueltas lisas después de cada vuelta de disminuciones", "and 2 plain rnds between"),
    # how often stitches between stars are worked, told before them
    ("fr", 1, "tric. 7 fois de * à * : * 2 m. ens. à l'end., 8 m. end. *, 4 m. end.", " * k2tog, k8 * 7 times, k4."),
    ("fr", 1, "* 7 m end, 2 m ens *, tric. 8 fois de * à *", "* k7, k2tog *, rep from * to * 8 times"),
    ("es", 1, "tejer 7 veces de * a *: * 2 p juntos, 8 p der *, 4 p der", " * k2tog, k8 * 7 times, k4"),
    # rounds of a chart, with the stitches of its repeat
    ("fr", 1, "14 tours de la grille (motif de 8 m., 12 fois).", "14 rnds of chart (8 st repeat, 12 times)."),
    ("es", 1, "Tejer 14 vtas siguiendo el gráfico (motivo de 8 p)", "work 14 rnds of chart (8 st repeat)"),
    # the round a size begins with, and even rounds from one to another
    ("fr", 3, "Commencer au rg 5 (3-1).", "begin at rnd 5 (3, 1)."),
    ("es", 3, "Empezar en la vuelta 5 (3, 1).", "begin at rnd 5 (3, 1)."),
    ("fr", 1, "Tous les tours pairs du tour 2 au tour 12 : end.", "even rnds 2-12 : knit."),
    ("es", 1, "Todas las vueltas pares de la 2 a la 12: der.", "even rnds 2-12: knit."),
    # once more
    ("fr", 1, "Refaire ce dernier rang.", "rep last rnd."),
    ("es", 1, "Repetir esta última vuelta.", "rep last rnd."),
    ("fr", 1, "Rép. ces 8 dim tous les 2 tours encore 6 fois", "in this manner dec 8 sts every other rnd 6 more times"),
    ("es", 1, "Repetir estos 8 menguados cada 2 vtas", "in this manner dec 8 sts every other rnd"),
    # rounds that are as those before, and the plain rounds that stand behind others
    ("es", 1, "22 vueltas más igual, sin cambiar el dibujo.", "22 more rnds in this manner, in pattern."),
    ("fr", 1, "22 tours de plus pareil", "22 more rnds in this manner"),
    ("fr", 1, "; terminez par 1 tour à l'endroit.", "; ending with a knit rnd."),
    ("fr", 1, "; finir par 2 tours unis.", "; then knit 2 rnds."),
    ("es", 1, "; acabar con una vuelta lisa.", "; ending with a knit rnd."),
    ("es", 1, "; terminar con 2 vueltas del derecho.", "; then knit 2 rnds."),
    # short forms run together
    ("fr", 1, "*3mend, 2mensend, 2menv, 2mensenv*", "*k3, k2tog, p2, p2tog*"),
    ("fr", 1, "Répéter le tour 1 uniquement, 3 fois", "rep only rnd 1, 3 times"),
    # how far apart stitches are is no count
    ("fr", 1, "augmenter 8 m. réparties, soit 1 m. toutes les 10 m.", "inc 8 sts evenly, that is 1 st every 10 sts."),
    ("fr", 1, "augmenter 8 m réparties, soit 1 aug toutes les 10 m", "inc 8 sts evenly, 1 after every 10 sts"),
    ("es", 1, "aumentar 8 p repartidos, o sea 1 p cada 10 p", "inc 8 sts evenly, that is 1 st every 10 sts"),
    # letters of sizes before stitches, and what stands behind the last for all
    ("fr", 3, "* a) 7 m. end. b) 8 m. end. c) 9 m. end., 2 m. ens. *", "* k7 (8, 9), k2tog *"),
    ("es", 3, "*a) 7 p der, b) 8 p der, c) 9 p der, 2 p juntos*", "*k7 (8, 9), k2tog*"),
    ("fr", 2, "Dim. en les superposant, ts les 2 tours : a) 6 fois b) 7 fois", "dec, every other rnd 6 (7) times"),
    ("es", 1, "en cada vuelta: 4 veces", "every rnd 4 times"),
]  # fmt: skip


@pytest.mark.parametrize(("language", "width", "text", "english"), REWRITTEN)
def test_words_of_leaflets_stand_for_english_words(
    language: str, width: int, text: str, english: str
) -> None:
    """What leaflets print, and the English words for it."""
    assert rewritten(text, language, width).text == english


SIZES_BY_LETTERS = [
    (
        "Dim. : a) * 7 m. end., 2 m. ens. end. * b) * 8 m. end., 2 m. ens. end. * c) * 9 m. end., 2 m. ens. end. *, "
        "rép. de * à * 8 fois en tout. On obtient a) 64 b) 72 c) 80 m."
    ),
    "Tour 1 : a) *7 m end, 2 m ens end*, b) *8 m end, 2 m ens end*, c) *9 m end, 2 m ens end* = a) 64 b) 72 c) 80 m.",
    "1er tour : a) (7 end, 2 ens) 8 fois b) (8 end, 2 ens) 8 fois c) (9 end, 2 ens) 8 fois = a) 64 b) 72 c) 80 m.",
    "Tour 1 : taille S : *7 m end, 2 m ens*, taille M : *8 m end, 2 m ens*, taille L : *9 m end, 2 m ens*. 64/72/80 m.",
    "Tour 1 : *7 (8, 9) m end, 2 m ens end* – S : 64 m ; M : 72 m ; L : 80 m.",
    "Calotte (taille S : 72 m ; taille M : 80 m ; taille L : 88 m)\nTour 1 : *7 (8, 9) m end, 2 m ens end*",
]


@pytest.mark.parametrize("text", SIZES_BY_LETTERS)
def test_sizes_have_letters_for_parts_of_a_round(text: str) -> None:
    """`a) *7 m end, 2 m ens* b) *8 m end, 2 m ens*`, and counts by the names of the sizes."""
    reading = read(f"Tailles S, M, L\n{text}", (72, 80, 88), "fr")
    assert not [finding for finding in reading.findings if finding.severity == "error"]
    assert counts(reading) == [[72, 64], [80, 72], [88, 80]]


RIBS = [
    ("fr", "Côtes 4/2 : *4 m. end., 2 m. env.*. Tric. 5 tours.\n6e t. : *2 m. end., 2 m. ens., 2 m. env.* 60 m."),
    ("es", "Elástico 4/2: *4 p. der., 2 p. rev.*. Tejer 5 vtas.\n6ª vta: *2 p. der., 2 p. jtos., 2 p. rev.* 60 p."),
]  # fmt: skip


@pytest.mark.parametrize(("language", "text"), RIBS)
def test_rounds_behind_a_rib_are_all_that_it_has(language: str, text: str) -> None:
    """Five rounds of it, not five more."""
    assert after_each_round(read(text, (72,), language)) == [72, 72, 72, 72, 72, 60]


CROWNS = [
    (
        "fr",
        (
            "Posez 5 anneaux marqueurs, un toutes les 16 mailles.\n"
            "Tour de diminutions : après chaque anneau, tricotez 2 mailles ensemble à l'endroit, puis continuez à "
            "l'endroit jusqu'à l'anneau suivant. Il vous reste 75 mailles.\nUn tour à l'endroit.\n"
            "Faites maintenant le tour de diminutions à chaque tour, 4 fois de suite. Il reste 55 mailles."
        ),
        [80, 75, 70, 65, 60, 55],
        6,
    ),
    (
        "fr",
        (
            "Répartir 4 marqueurs (M), un toutes les 20 mailles.\n"
            "T1 : *SSK, end jusqu'à 2 m avant M, 2 m ens end, glisser M* x4. (8 dim)\nT2 : toutes les m end.\n"
            "Répéter T1 et T2 encore 3 fois. (48 m)\nTricoter T1 encore 4 fois, sans tour intermédiaire. (16 m)"
        ),
        [80, 72, 64, 56, 48, 40, 32, 24, 16],
        12,
    ),
    (
        "fr",
        (
            "1er tour : * 8 m. end., 2 m. ens. * (72 m.). 2e tour : à l'endroit. Continuer ainsi, un tour avec "
            "diminutions et un tour sans, en faisant chaque fois une maille de moins entre les diminutions. "
            "Le 13e tour ne laisse plus que 24 mailles ; au 14e tour, les prendre deux par deux, ce qui en laisse 12."
        ),
        [80, 72, 64, 56, 48, 40, 32, 24, 12],
        14,
    ),
    (
        "es",
        (
            "En cada una de las cuatro agujas se toman juntos al derecho los dos primeros puntos, y lo mismo los "
            "dos últimos, tejiendo al derecho todos los demás; quedan 72 puntos. Sigue una vuelta lisa. Se repiten "
            "estas dos vueltas hasta tener 12 puntos en cada aguja, o sea 48 en total. Desde aquí se mengua del mismo "
            "modo en todas las vueltas, hasta que queden\n2 puntos en cada aguja (8 puntos)."
        ),
        [80, 72, 64, 56, 48, 40, 32, 24, 16, 8],
        13,
    ),
    (
        "fr",
        (
            "Tricotez 30 tours unis, tout à l'endroit.\n"
            "Au commencement de chaque aiguille on fait un surjet simple, et à la fin de chaque aiguille on prend 2 "
            "mailles ensemble à l'endroit ; c'est donc 8 mailles de moins sur le tour, et il en reste 72, soit 18 par "
            "aiguille. "
            "On fait un tour uni. On continue de même, un tour diminué, un tour uni, jusqu'à ce que, après le huitième "
            "tour diminué, il ne reste plus que 4 mailles sur chaque aiguille. Au tour suivant, sans tour uni, on "
            "prend toutes les mailles deux par deux : il en reste 8."
        ),
        [80, 72, 64, 56, 48, 40, 32, 24, 16, 8],
        46,
    ),
    (
        "fr",
        (
            "T 1 : *tric 8 m, 2 m ens*, 8 fois (72 m)\nT 2 : à l'endroit\n"
            "Rép. T 1 et T 2 en tric. 1 m. de moins avant les 2 m ens, jusqu'à 40 m.\n"
            "Faire ensuite les dim. à chaque T jusqu'à 8 m."
        ),
        [80, 72, 64, 56, 48, 40, 32, 24, 16, 8],
        14,
    ),
    (
        "es",
        (
            "V 1: *tejer 8 p, 2 p juntos*, 8 veces (72 p)\nV 2: al der.\n"
            "Rep. V 1 y V 2 tejiendo 1 p. menos antes de los 2 p juntos, hasta 40 p.\n"
            "Hacer después las dism. en cada V hasta 8 p."
        ),
        [80, 72, 64, 56, 48, 40, 32, 24, 16, 8],
        14,
    ),
    (
        "fr",
        (
            "1er tour : *8 m. end., 2 m. ens.*, tout le tour – 72 m.\n2e tour : end.\n"
            "Diminuer de la même façon aux 3e, 5e, 6e et 7e tours. Il reste 40 m."
        ),
        [80, 72, 64, 56, 48, 40],
        7,
    ),
    (
        "es",
        (
            "1ª vta: *8 p. der., 2 p. juntos*, toda la vta. = 72 p.\n2ª vta: der.\n"
            "Repetir estas disminuciones en las vtas 3ª, 5ª, 6ª y 7ª (40 p.)."
        ),
        [80, 72, 64, 56, 48, 40],
        7,
    ),
    (
        "es",
        "V1: *8 pd, 2pjd*, rep toda la vuelta. 72 p\nRepetir esta vta. de menguados cada 2 vtas. 3 veces más = 48 p.",
        [80, 72, 64, 56, 48],
        7,
    ),
    (
        "es",
        (
            "Poner un marcador cada 10 p. Tejer 2 p juntos der. después de cada marcador = 72 p. Tejer 1 vta der.\n"
            "Tejer la vuelta de disminución en cada vuelta, 3 veces seguidas = 48 p."
        ),
        [80, 72, 64, 56, 48],
        5,
    ),
    (
        "es",
        "V1: *8 d, 2 pj d*, rep toda la vuelta. 72 p\nV2: d\nV3: *7 d, 2 pj d*, rep toda la vuelta. 64 p",
        [80, 72, 64],
        3,
    ),
    (
        "fr",
        (
            "1er tour de dim. : (8 m. end., 2 m. ens. end.) 8 fois. 72 m.\nTric. 1 tour end.\n"
            "En superposant les dim., dim. encore 8 m. ts les 2 tours 2 fois (= 56 m.)."
        ),
        [80, 72, 64, 56],
        5,
    ),
]


@pytest.mark.parametrize(("language", "text", "counts", "rounds"), CROWNS)
def test_crowns_of_leaflets_come_out(language: str, text: str, counts: list[int], rounds: int) -> None:
    """Decreases behind every marker or at both ends of each needle, and so many times on each round."""
    stitches = after_each_round(read(text, (80,), language))
    assert [80, *dict.fromkeys(count for count in stitches if count != 80)] == counts
    assert len(stitches) == rounds
