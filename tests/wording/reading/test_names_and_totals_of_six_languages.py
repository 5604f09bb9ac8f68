"""Short names explained by an equals sign, and decreases counted beside what is left, in six languages and English."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import after_each_round

NAMES = [
    (
        "en",
        "Rnd 1: (k11, dD) 6 times",
        "dD (double decrease) = sl 1 knitwise, k2tog, then pass slipped st over",
    ),
    (
        "de",
        "Rd 1: [11 M re, dA] 6x",
        "dA (doppelte Abnahme) = 1 M wie zum Rechtsstr abh, 2 M re zusstr, dann die abgeh M überziehen.",
    ),
    ("de", "Rd 1: [11 M re, dopp. Abn.] 6x", "dopp. Abn. = 1 M re abh, 2 M re zus, abgeh. M überziehen"),
    (
        "de",
        "Rd 1: [11 M re, dA] 6x",
        "dA = 1 M abheben wie zum Rechtsstricken, 2 M re zusstr, die abgeh M über die zusammengestrickte M ziehen",
    ),
    (
        "fr",
        "1er tour : (11 m. end., dD) 6 fois",
        "dD (double diminution) = glisser 1 m. à l'endroit, tricoter 2 m. ens. à l'end., puis rabattre la m. glissée",
    ),
    (
        "es",
        "1ª vta.: (11 p. der., mD) 6 veces",
        (
            "mD (menguado doble) = pasar 1 p. sin tejer como para tejer al der., 2 p. jun. der., después montar el p. "
            "pasado por encima"
        ),
    ),
    (
        "es",
        "1ª vta.: (11 p. der., meng. dbl.) 6 veces",
        "meng. dbl. = desl. 1 p., 2 p. jun. der., montar el p. desl.",
    ),
    (
        "nl",
        "Toer 1: (11 r, dM) 6 x",
        "dM (dubbele mindering) = 1 st r afhalen, 2 st r samenbreien, dan de afgehaalde st overhalen",
    ),
    (
        "nl",
        "Toer 1: (11 r, dmin) 6 x",
        "dmin = 1 st afh als bij r breien, 2 r samenbr, de afgeh st overhalen",
    ),
    ("da", "1. omg: (11 r, dbl indt) 6 gange", "dbl indt = løft 1 m r, 2 r sm, træk den løftede m over"),
    (
        "da",
        "1. omg: (11 r, dI) 6 gange",
        "dI = tag 1 m løs af som til ret, strik 2 r sm, træk derefter den løse m over",
    ),
    ("nb", "1. omg: (11 r, dF) 6 ganger", "dF = løft 1 m, 2 r sm, løft den løftede m over"),
    (
        "nb",
        "1. omg: (11 r, df) 6 ganger",
        "df (dobbel felling) = løft 1 m rett av, strikk 2 r sm, trekk så den løftede masken over",
    ),
]


@pytest.mark.parametrize("definition_first", [True, False])
@pytest.mark.parametrize(("language", "used", "definition"), NAMES)
def test_a_short_name_may_be_explained_above_or_below(
    language: str, used: str, definition: str, definition_first: bool
) -> None:
    """A stitch that makes one of three, six times: 72 of 84."""
    reading = read("\n".join((definition, used) if definition_first else (used, definition)), (84,), language)

    assert not errors(reading)
    assert after_each_round(reading) == [72]


TOTALS = [
    ("en", "Rnd 1: *k3, k2tog*, rep from * around (dec {} sts = 80 sts)"),
    ("en", "Rnd 1: (k3, k2tog) 20 times (80 sts, dec {} sts)"),
    ("en", "Rnd 1: *k3, k2tog, rep from * to end of rnd = 80 sts (dec {} sts)"),
    ("de", "Rd 1: *3 M re, 2 M re zusstr*, von * bis * die ganze Rd wdh ({} Abn = 80 M)"),
    ("fr", "1er tour : *3 m. end., 2 m. ens. end.*, rép. de * à * tout le tour ({} dim. = 80 m.)"),
    ("es", "1ª vta.: *3 p. der., 2 p. jun. der.*, rep. de * a * toda la vta. ({} menguados = 80 p.)"),
    ("nl", "Toer 1: *3 r, 2 r samenbr*, herh van * tot * de hele toer ({} minderingen = 80 st)"),
    ("da", "1. omg: *3 r, 2 r sm*, gentag fra * til * omgangen rundt ({} indtagninger = 80 m)"),
    ("nb", "1. omg: *3 r, 2 r sm*, gjenta fra * til * omgangen rundt ({} fellinger = 80 m)"),
]


@pytest.mark.parametrize(("language", "words"), TOTALS)
def test_decreases_are_counted_beside_the_stitches_left(language: str, words: str) -> None:
    """`(20 dec = 80 sts)` behind the work tells of it, and is compared with it."""
    reading = read(words.format(20), (100,), language)

    assert not errors(reading)
    assert after_each_round(reading) == [80]
    assert [found.code for found in errors(read(words.format(18), (100,), language))] == ["count_differs"]


def test_increases_are_counted_beside_the_stitches_there_are() -> None:
    reading = read("Rnd 1: *k4, m1*, rep from * around (inc 20 sts = 100 sts)", (80,))

    assert not errors(reading)
    assert after_each_round(reading) == [100]


@pytest.mark.parametrize(
    ("language", "words"),
    [
        ("en", "Rnd 1: *k7, sk2p (sl 1, k2tog, psso), rep from * around"),
        ("de", "Rd 1: *7 M re., 3 M überz. zus.-str. (1 M abh., 2 M re. zus.-str., die abgeh. M überziehen), ab * wdh"),
    ],
)  # fmt: skip
def test_a_bracket_may_say_how_the_stitch_before_it_is_worked(language: str, words: str) -> None:
    assert after_each_round(read(words, (80,), language)) == [64]


POSITIONS = [
    (
        "de",
        "Nächste Rd: jede 9. und 10. M re zusstr (81 M). 1 Rd re.",
        "Nächste Rd: jede 8. und 9. M re zusstr (72 M).",
        (
            "So in jeder 2. Rd noch 3x abnehmen, immer mit 1 M weniger zwischen den Abnahmen (45 M), und danach in "
            "jeder Rd, bis noch 9 M übrig sind."
        ),
    ),
    (
        "fr",
        "Tour suivant : tricoter ensemble à l'endroit toutes les 9e et 10e m. (81 m.). Tricoter 1 tour end.",
        "Tour suivant : tricoter ensemble à l'endroit toutes les 8e et 9e m. (72 m.).",
        (
            "Diminuer ainsi tous les 2 tours encore 3 fois, toujours avec 1 m. de moins entre les diminutions (45 m.), "
            "puis tous les tours jusqu'à ce qu'il reste 9 m."
        ),
    ),
    (
        "es",
        "Vta. siguiente: tejer juntos al der. cada 9º y 10º p. (quedan 81 p.). Tejer 1 vta. der.",
        "Vta. siguiente: tejer juntos del derecho el 8º y el 9º p. (quedan 72 p.).",
        (
            "Menguar así cada 2 vtas. 3 veces más, siempre con 1 p. menos entre los menguados (quedan 45 p.), y "
            "después en todas las vtas. hasta que queden 9 p."
        ),
    ),
    (
        "nl",
        "Volgende toer: brei r samen elke 9e en 10e st (81 st). Brei 1 toer r.",
        "Volgende toer: brei elke 8e en 9e st r samen (72 st).",
        (
            "Minder zo elke 2e toer nog 3 x, steeds met 1 st minder tussen de minderingen (45 st), en daarna elke toer "
            "tot er 9 st over zijn."
        ),
    ),
    (
        "da",
        "Næste omg: strik hver 9. og 10. m r sm (81 m). Strik 1 omg r.",
        "Næste omg: strik r sm hver 8. og 9. m (72 m).",
        (
            "Tag ind sådan på hver 2. omg 3 gange til, hele tiden med 1 m mindre mellem indtagningerne (45 m), og "
            "derefter på hver omg til der er 9 m tilbage."
        ),
    ),
    (
        "nb",
        "Neste omg: strikk hver 9. og 10. m r sm (81 m). Strikk 1 omg r.",
        "Neste omg: strikk r sm hver 8. og 9. m (72 m).",
        (
            "Fell slik på hver 2. omg 3 ganger til, hele tiden med 1 m mindre mellom fellingene (45 m), og deretter på "
            "hver omg til det er 9 m igjen."
        ),
    ),
]


@pytest.mark.parametrize(("language", "first", "second", "onward"), POSITIONS)
def test_a_crown_by_positions_goes_on_by_a_stitch_less(
    language: str, first: str, second: str, onward: str
) -> None:
    """Every ninth and tenth together, then every eighth and ninth: nine wedges to the end."""
    reading = read(f"{first}\n{second}\n{onward}", (90,), language)

    assert not errors(reading)
    assert after_each_round(reading) == [81, 81, 72, 72, 63, 63, 54, 54, 45, 36, 27, 18, 9]
