"""Stitches that get a short name of several words, crowns that go on in a rhythm, and what brackets only explain."""

import pytest

from roundwright.wording.proofreading.read import read
from roundwright.wording.reading.languages.rewrite import rewritten
from tests.support.readings import after_each_round, number_of_rounds, words_of_rounds

NAMED = [
    (
        "de",
        (
            "Doppelte Abnahme (dopp. Abn.): 1 M re abheben, 2 M re zusstr., die abgehobene M überziehen.\n"
            "Rd 1: *9 M re, dopp. Abn.* 6x arbeiten – 60 M\nRd 2: re"
        ),
    ),
    (
        "de",
        (
            "dopp. Abn. = 1 M re abh., 2 M re zusstr., die abgehobene M überz.\n"
            "Rd 1: *9 M re, dopp. Abn.* 6x arbeiten – 60 M\nRd 2: re"
        ),
    ),
    (
        "fr",
        (
            "Couronne avec surjet double (s. d.) : glisser 1 m. à l'end., 2 m. ens. end., rabattre la m. glissée\n"
            "Tour 1 : *9 m. end., 1 s. d.* 6 fois = 60 m.\nTour 2 : end."
        ),
    ),
    (
        "es",
        (
            "Cierre con disminución doble (D.D.): deslizar 1 pt. al d., 2 pts. jtos. al d., "
            "montar el pt. desl. por encima.\nV. 1: [5 pts. d., D.D., 4 pts. d.] 6 veces. – 60 pts.\nV. 2: d."
        ),
    ),
    (
        "nb",
        (
            "Dobbel felling (dbl. felling): ta 1 m r løs av, strikk 2 r sm, trekk den løse m over.\n"
            "1. omg: *9 r, 1 dbl. felling* 6 ganger = 60 m\n2. omg: r"
        ),
    ),
    (
        "da",
        (
            "Dobbelt indtagning (dbl indt): tag 1 m r løs af, strik 2 r sm, træk den løse m over.\n"
            "Omg 1: 9 r, 1 dbl indt – gentag i alt 6 gange. [60 m]\nOmg 2: ret."
        ),
    ),
    (
        "nl",
        (
            "Dubbele overhaling (dubb. overh.): 1 st r afhalen, 2 st r samenbreien, de afgehaalde st overhalen.\n"
            "1e nld: * 1 dubb. overh., 9 st r *, van * tot * 6 x breien. 60 st\n2e nld: r."
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), NAMED)
def test_a_stitch_has_the_short_name_that_the_text_gives_it(language: str, text: str) -> None:
    """A double decrease six times from 72 stitches."""
    assert after_each_round(read(text, (72,), language)) == [60, 60]


RHYTHM = [
    (
        "de",
        (
            "In jeder 2. Rd noch 2x 8 M abn, dabei jeweils 1 M weniger zwischen den Abn = 32 M. 1 Rd re.\n"
            "Dann in jeder Rd 3x 8 M abn = 8 M."
        ),
    ),
    (
        "fr",
        (
            "Dim. encore 2 fois 8 m. tous les 2 tours, toujours avec 1 m. de moins entre les dim. "
            "On obtient 32 m. Tric. 1 tour end.\nDim. ensuite 8 m. tous les tours 3 fois. Il reste 8 m."
        ),
    ),
    (
        "es",
        (
            "Disminuir 2 veces más 8 p. cada 2 vtas., siempre con 1 p. menos entre las disminuciones = 32 p. "
            "Tejer 1 vta. d.\nDisminuir después 8 p. en cada vta. 3 veces = 8 p."
        ),
    ),
    (
        "nb",
        (
            "Fell slik 8 m på hver 2. omg 2 ganger til, stadig med 1 m mindre mellom fellingene = 32 m. "
            "Strikk 1 omg r. Fell så 8 m på hver omg 3 ganger = 8 m."
        ),
    ),
    (
        "da",
        (
            "Fortsæt således med at tage 8 m ind på hver 2. omg endnu 2 gange, idet der hver gang er 1 m mindre "
            "mellem indtagningerne = 32 m. Strik 1 omg r.\nTag nu 8 m ind på hver omg 3 gange = 8 m."
        ),
    ),
    (
        "nl",
        (
            "Minder op deze manier nog 2 x 8 st in elke 2e toer = 32 st. Brei 1 toer r. "
            "Minder daarna in elke toer 3 x 8 st = 8 st."
        ),
    ),
]
BEGUN = {
    "de": "Rd 1: *6 re, 2 re zus* 8x = 56 M\nRd 2: re\nRd 3: *5 re, 2 re zus* 8x = 48 M\nRd 4: re\n",
    "fr": "Tour 1 : *6 m. end., 2 m. ens. end.* 8 fois = 56 m.\nTour 2 : end.\n"
    "Tour 3 : *5 m. end., 2 m. ens. end.* 8 fois = 48 m.\nTour 4 : end.\n",
    "es": "V 1: *6 d, 2 p. jun d* 8 veces = 56 p.\nV 2: d\nV 3: *5 d, 2 p. jun d* 8 veces = 48 p.\nV 4: d\n",
    "nb": "1. omg: *6 r, 2 r sm* 8 ganger = 56 m\n2. omg: r\n3. omg: *5 r, 2 r sm* 8 ganger = 48 m\n4. omg: r\n",
    "da": "1. omg: *6 r, 2 r sm* 8 gange = 56 m\n2. omg: r\n3. omg: *5 r, 2 r sm* 8 gange = 48 m\n4. omg: r\n",
    "nl": "Toer 1: *6 r, 2 r samenbr* 8 x = 56 st\nToer 2: r\nToer 3: *5 r, 2 r samenbr* 8 x = 48 st\nToer 4: r\n",
}


@pytest.mark.parametrize(("language", "text"), RHYTHM)
def test_the_plain_round_behind_a_rhythm_is_its_last(language: str, text: str) -> None:
    """A round to work behind decreases on every other round is the plain one that follows the last of them."""
    counts = after_each_round(read(BEGUN[language] + text, (64,), language))
    assert counts == [56, 56, 48, 48, 40, 40, 32, 32, 24, 16, 8]


GARTER = [
    ("de", "10 Rd kraus rechts (1. Rd re, 2. Rd li, diese 2 Rd wdh). 5 Rd re."),
    ("fr", "Tricoter 10 tours au point mousse en rond (1er tour end, 2e tour env, répéter ces 2 tours). 5 tours end."),
    ("es", "Tejer 10 vueltas a punto bobo (1ª vta: derecho, 2ª vta: revés, repetir estas 2 vtas). Tejer 5 vtas. der."),
    ("nb", "Strikk 10 omg rillestrikk rundt (1. omg r, 2. omg vr, gjenta disse 2 omg). Strikk 5 omg r."),
    ("da", "Strik 10 omg retstrik rundt (1. omg r, 2. omg vr, gentag disse 2 omg). Strik 5 omg r."),
    ("nl", "Brei 10 toeren ribbelsteek (1e toer r, 2e toer av, herhaal deze 2 toeren). Brei 5 toeren r."),
    ("en", "Work 10 rnds garter st around (Rnd 1 knit, Rnd 2 purl, rep these 2 rnds). Knit 5 rnds."),
]  # fmt: skip


@pytest.mark.parametrize(("language", "text"), GARTER)
def test_a_bracket_explains_the_garter_stitch_of_the_round(language: str, text: str) -> None:
    """On 77 stitches, on which no rib of two comes out."""
    assert after_each_round(read(text, (77,), language)) == [77] * 15


def test_a_heading_names_the_rib_before_the_first_decrease_round() -> None:
    """The rounds begin with the first that has a number."""
    text = (
        "Crown in rib (k2, p2), 96 sts\nDec rnd 1: *k2, p2tog* around = 72 sts\n3 rnds in pattern (k2, p1).\n"
        "Dec rnd 2: *k2tog, p1* around = 48 sts"
    )
    assert after_each_round(read(text, (96,))) == [72, 72, 72, 72, 48]


ODD = [
    (
        "In jeder ungeraden Runde nimmst du 5 M ab, die geraden Runden strickst du einfach rechts. "
        "Nach Runde 10 hast du noch 55 M."
    ),
    "In allen ungeraden Runden 5 M abnehmen, alle geraden Runden rechts stricken. Nach Runde 10 sind es 55 M.",
]


@pytest.mark.parametrize("text", ODD)
def test_a_rhythm_ends_with_the_plain_round_before_the_next_number(text: str) -> None:
    """A round 11 follows the decreases of odd rounds, so that there is a round 10."""
    begun = "".join(
        f"Runde {number}: *2 M re zus, {plain} M re*, insgesamt 5x\nRunde {number + 1}: alle M re\n"
        for number, plain in ((1, 14), (3, 13), (5, 12))
    )
    text = f"{begun}So machst du weiter: {text}\nRunde 11: *2 M re zus, 9 M re* (50 M)"
    assert after_each_round(read(text, (80,), "de")) == [75, 75, 70, 70, 65, 65, 60, 60, 55, 55, 50]


BEHIND_MARKERS = [
    ("de", "die ersten 2 M nach dem Markierer rechts zusammenstricken, rechts bis zum nächsten Markierer"),
    ("fr", ("tricoter les 2 premières mailles après le marqueur ensemble à l'endroit, "
     "tricoter à l'endroit jusqu'au marqueur suivant")),
    ("es", ("tejer los 2 primeros puntos después del marcador juntos al derecho, "
     "tejer al derecho hasta el siguiente marcador")),
    ("nb", "strikk de første 2 m etter merket rett sammen, strikk rett til neste merke"),
    ("da", "strik de første 2 m efter markøren ret sammen, strik ret til næste markør"),
    ("nl", "brei de eerste 2 steken na de markeerder recht samen, brei recht tot de volgende markeerder"),
]  # fmt: skip


@pytest.mark.parametrize(("language", "text"), BEHIND_MARKERS)
def test_the_first_stitches_behind_a_marker_are_worked_together(language: str, text: str) -> None:
    """What is worked in each section, and the English words for it."""
    assert rewritten(f"*{text}*", language, 1).text == "*k2tog, knit to marker*"


def test_the_first_round_of_a_fabric_is_that_of_the_increases() -> None:
    """No plain round stands before it."""
    text = "Verder met breinld 3 mm in tricotsteek. Meerder in de 1e toer 6 st verdeeld over de toer = 72 st."
    assert number_of_rounds(read(text, (66,), "nl")) == [1]
    assert words_of_rounds(read(text, (66,), "nl")) == ["*k11, m1; rep from * around"]


EVEN = [
    ("de", "In den geraden Runden bis Runde 6 alle M rechts stricken."),
    ("fr", "Aux tours pairs jusqu'au tour 6, tricoter toutes les m à l'endroit."),
    ("es", "En las vueltas pares hasta la vuelta 6, tejer todos los p. al derecho."),
    ("nb", "På alle like omganger til omgang 6 strikkes alle m rett."),
    ("da", "Strik ret på alle lige omgange til omgang 6."),
    ("nl", "Brei alle even toeren tot toer 6 recht."),
]


@pytest.mark.parametrize(("language", "text"), EVEN)
def test_even_rounds_are_plain_to_a_round(language: str, text: str) -> None:
    """A sentence of its own, and the English words for it."""
    assert rewritten(text, language, 1).text == "all even rnds to rnd 6: knit."
