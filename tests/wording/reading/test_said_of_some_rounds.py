"""Rounds of which a line says something by their number, their name or their place, and what is done to the end."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round

SETUP = (
    "Set-up rnd: *K16, pm; rep from * to end.\n"
    "Dec rnd: *Ssk, knit to 2 sts before m, k2tog, slip m; rep from * to end. 84 sts.\n"
)
"""A plain round and the first decrease round of six sections."""
TO_42 = "Rnd 1: *K7, k2tog* (48 sts)\nRnd 2: Knit.\nRnd 3: *K6, k2tog* (42 sts)\nRnd 4: Knit.\n"
"""The first four rounds of a crown in six sections."""
EVEN = (
    "Round 1: *k9, k2tog* around (100 sts)\nRound 2: {}\n"
    "Round 3: *k8, k2tog* around (90 sts)\nRound 5: *k7, k2tog* around (80 sts)"
)
"""A crown of which the second round says what the even rounds are."""

SIX_SECTIONS = [48, 48, 42, 42]
TEXTS = [
    # rounds that are named, and those between them
    (TO_42 + "Dec in the same way on rounds 5, 7, 8, 9 and 10 (12 sts).", 54, [*SIX_SECTIONS, 36, 36, 30, 24, 18, 12]),
    (TO_42 + "Decrease as before on rnds 5, 7, 9, 10 and 11.\nRnd 12: k2tog around (6 sts)", 54,
     [*SIX_SECTIONS, 36, 36, 30, 30, 24, 18, 12, 6]),
    (TO_42 + "Continue to decrease on rounds 5, 7, 9, 10 and 11 (12 sts).", 54,
     [*SIX_SECTIONS, 36, 36, 30, 30, 24, 18, 12]),
    (TO_42 + "Repeat the decreases on rounds 5, 7, 8 and 9.", 54, [*SIX_SECTIONS, 36, 36, 30, 24, 18]),
    (TO_42 + "Rnds 5, 7, 9, 10, 11: decrease in the same way (12 sts).", 54,
     [*SIX_SECTIONS, 36, 36, 30, 30, 24, 18, 12]),
    (TO_42 + "Repeat rounds 3 and 4, decreasing in the same way (36 sts).", 54, [*SIX_SECTIONS, 36, 36]),
    ("Rnd 1: *k7, k2tog* (48 sts). Knit 1 rnd.\nIn rounds 3, 5 and 7 decrease likewise (30 sts).", 54,
     [48, 48, 42, 42, 36, 36, 30]),
    ("Continue in stocking stitch for 4 rounds, decreasing 8 sts in the first round (72 sts).", 80, [72, 72, 72, 72]),
    ("Knit 4 rounds, decreasing 8 sts evenly in the last round (72 sts).", 80, [80, 80, 80, 72]),
    ("Work 4 rounds in rib, inc 1 st at end of last round. 81 sts.", 80, [80, 80, 80, 81]),
    ("Work 4 rounds in k1, p1 rib, inc 1 st at the end of the last round.", 80, [80, 80, 80, 81]),
    ("Work 4 rounds in k2, p2 rib, inc 4 sts evenly on last round.", 80, [80, 80, 80, 84]),
    ("Knit 4 rounds, dec 1 st in last round. 80 sts.", 81, [81, 81, 81, 80]),
    ("Work in moss st for 4 rounds, dec 1 st at end of last round. (80 sts)", 81, [81, 81, 81, 80]),
    ("Knit 4 rounds. In the last round inc 8 sts evenly. (88 sts)", 80, [80, 80, 80, 88]),
    ("Knit 4 rounds. Increase 8 stitches evenly in the last of these rounds: 88 sts.", 80, [80, 80, 80, 88]),
    ("Knit 4 rounds.\nLast round: inc 8 sts evenly. (88 sts)", 80, [80, 80, 80, 80, 88]),
    ("Rnds 1-4: k2, p2 rib. On last rnd inc 8 sts evenly: 88 sts.\nRnd 5: k.", 80, [80, 80, 80, 88, 88]),
    ("Rnds 1-4: *k2, p2; rep from * to end, inc 8 sts evenly on last rnd: 88 sts.", 80, [80, 80, 80, 88]),
    ("Rnds 1-4: k2, p2 rib, inc 8 sts evenly on first rnd.", 80, [88, 88, 88, 88]),
    ("Next 4 rnds: knit, inc 8 sts evenly on last rnd: 88 sts.", 80, [80, 80, 80, 88]),
    ("K2, p2 rib for 5 cm, inc 8 sts evenly on last rnd: 88 sts.", 80, [80, 88]),
    ("Rnd 1: k.\nRnd 2: p.\nRep rnds 1 and 2 twice more, dec 2 sts evenly on last rnd. 78 sts.", 80,
     [80, 80, 80, 80, 80, 78]),
    ("Rnd 1: k.\nRnd 2: p.\nRep last 2 rnds once more. Dec 2 sts evenly in the final round.", 80, [80, 80, 80, 78]),
    ("Rnd 1: k1, p1 rib.\nRep rnd 1 until rib measures 5 cm, inc 8 sts evenly on last rnd: 88 sts.", 80, [80, 88]),
    # a whole round so many times
    ("Rnd 1: knit; do this 4 times.\nRnd 5: *k6, k2tog; rep from * to end. 70 sts", 80, [80, 80, 80, 80, 70]),
    ("Knit 1 rnd; do this 4 times.", 80, [80] * 4),
    ("Rnd 1: purl, repeat this 3 more times.", 80, [80] * 4),
    ("Rnd 1: *k1, p1; rep from * to end; do this 4 times.", 80, [80] * 4),
    ("Rnd 1: *k6, k2tog*\nRnd 2: purl.\nRepeat this 3 more times.", 80, [70] * 5),
    ("Rnd 1: *k3, p1*\nRnd 2: knit.\nRepeat these 3 more times.", 80, [80] * 8),
    ("Rnd 1: k6, k2tog; do this 10 times.", 80, [70]),
    # full stops in place of commas
    ("Rnd 1: *Sl1. K2tog. Psso. K8. Rep from * around. 54 sts.", 66, [54]),
    # rounds that end are no more rounds
    ("Knit 4 rounds. Stop after 4 rounds.", 80, [80] * 4),
    ("Knit 4 rounds, stopping after 4 rounds.", 80, [80] * 4),
    # one round says what the others of its sort are
    (EVEN.format("knit (and every even round after this)"), 110, [100, 100, 90, 90, 80]),
    (EVEN.format("knit (and every even round after this, until I say stop)"), 110, [100, 100, 90, 90, 80]),
    (EVEN.format("knit (and every even round after this, unless told otherwise)"), 110, [100, 100, 90, 90, 80]),
    (EVEN.format("knit, and every even round until I tell you to stop."), 110, [100, 100, 90, 90, 80]),
    (EVEN.format("Knit, as on all even-numbered rounds."), 110, [100, 100, 90, 90, 80]),
    (("Rnd 1: *k8, k2tog* (54 sts)\nRnd 2: Knit.\nRep Rnds 1 and 2, working 1 st fewer before each k2tog on every Rnd "
     "1, until 42 sts rem, ending with Rnd 2."), 60, [54, 54, 48, 48, 42, 42]),
    # rounds in brackets that work one again that was worked before
    (SETUP + "[Knit 2 rnds, rep Dec rnd] twice more—60 sts rem.", 96, [96, 84, 84, 84, 72, 72, 72, 60]),
    (SETUP + "[Knit 1 rnd, work Dec rnd] 2 more times.", 96, [96, 84, 84, 72, 72, 60]),
    (SETUP + "[Knit 1 rnd, Dec rnd] twice more, [dec rnd] 3 times. 24 sts.", 96,
     [96, 84, 84, 72, 72, 60, 48, 36, 24]),
    (SETUP + "[Rep Dec rnd, knit 2 rnds] twice more. 60 sts.", 96, [96, 84, 72, 72, 72, 60, 60, 60]),
    (("Place 4 markers.\nCorner round: * Knit to 3 stitches before the marker, knit 3 together, slip the marker; "
     "repeat from * three times more.\nPlain round: Knit.\nWork these two rounds twice (24 sts), then the corner "
     "round alone twice (8 sts)."), 40, [32, 32, 24, 24, 16, 8]),
    # to the end of the round
    ("Knit 6, then knit 2 together. Do the same again, all the way round. You now have 56 stitches.", 64, [56]),
    ("Knit 6, knit 2 together. Do the same again until the end of the round. 56 sts.", 64, [56]),
    # the same with its plain rounds
    ("Decrease 4 stitches evenly spaced, then knit 2 rounds. Do the same 3 times in all. (52 sts)", 64,
     [60, 60, 60, 56, 56, 56, 52, 52, 52]),
    (("Knit 2 rounds.\nRound 3: knit 2, knit 2 together, and so on to the end. (24 stitches)\nRound 4: knit.\n"
     "Round 5: knit 2 together, and so on to the end. (12 stitches)"), 32, [32, 32, 24, 24, 12]),
    ("In the next round knit the stitches together in pairs, and draw the yarn through the 8 that are left.", 16, [8]),
    ("Now work two stitches together all round and draw the wool through the 8 that remain.", 16, [8]),
    ("In the final round, knit two together throughout.", 16, [8]),
    # with what a crown ends, and where its lines break
    (("Knit 10, knit 2 together; do this eight times (88 stitches). Knit one round plain. Go on like this until 72 "
     "stitches are left and the last plain round is worked. K2tog all round."), 96, [88, 88, 80, 80, 72, 72, 36]),
    (("1st round: * K. 6, K. 2 tog., rep. from * to end. (98 sts.)\n2nd round: K.\nContinue thus, working one stitch "
     "fewer between the decreases on every\nalternate round, until 70 sts. remain."), 112, [98, 98, 84, 84, 70]),
    (("Round 1: *K6, k2tog; rep from * (56 sts).\nRound 2: K.\nRepeat rounds 1 and 2, with 1 st fewer between decs on "
     "every repeat, until 40 sts."), 64, [56, 56, 48, 48, 40, 40]),
    (("Rnd 1 (Dec Rnd): *K12, k2tog; rep from * (78 sts).\nRnd 2: Knit.\nRep Rnds 1 and 2, knitting 1 st fewer on each "
     "Dec Rnd, until 66 sts rem."), 84, [78, 78, 72, 72, 66, 66]),
    ("(K6, k2tog) 6 times. Next round knit. (K5, k2tog) 6 times. Next round knit. (K4, k2tog) 6 times.", 48,
     [42, 42, 36, 36, 30]),
    (("Rnd 1: *k10, k2tog* (88 sts)\nRnd 2: knit.\nDecrease rounds and plain rounds then alternate until 72 "
     "stitches are left. Next round: k2tog around."), 96, [88, 88, 80, 80, 72, 36]),
    # what is only said
    ("Knit 2 rounds.\nBegin dec. 1. Dec rnd: *k2, k2tog; rep from * around. (18 sts)\n2. Knit.", 24, [24, 24, 18, 18]),
    ("Begin dec. 1. Rnd: *k2, k2tog; rep from * around. (18 sts)\n2. Rnd: Knit.", 24, [18, 18]),
    ("Rib 2 rounds.\nContinue in st st. In the first rnd inc 8.\nKnit 2 rounds.", 56, [56, 56, 64, 64, 64]),
    ("Rib 2 rounds.\nContinue in st st. Inc 8 sts in the first rnd (64 sts).\nWork 2 rounds.", 56,
     [56, 56, 64, 64, 64]),
    ("Work 3 rounds. Begin decreasing: k5, k2tog to the end (60 sts).", 70, [70, 70, 70, 60]),
]  # fmt: skip


@pytest.mark.parametrize(("text", "cast_on", "counts"), TEXTS)
def test_rounds_are_those_that_are_said(text: str, cast_on: int, counts: list[int]) -> None:
    """Counted by hand."""
    assert after_each_round(read(text, (cast_on,))) == counts


def test_dec_1_is_a_decrease() -> None:
    """`Begin dec 1` without a list behind it is no heading."""
    assert after_each_round(read("Rnd 1: knit.\nRnd 2: dec 1, knit to end.", (24,))) == [24, 23]


TO_8 = [56, 56, 48, 48, 40, 40, 32, 32, 24, 24, 16, 16, 8]
ODD_AND_EVEN = [
    # told for all rounds of a kind, before any is worked
    ("en", ("All odd rnds: *k6, k2tog* 8 times, with 1 stitch fewer between decreases each time.\n"
     "All even rnds: knit.\nContinue until 8 sts remain.")),
    ("es", ("En las vueltas impares: (6 d, 2 pjd) 8 veces, con 1 p menos entre las disminuciones cada vez. "
     "En las vueltas pares tejer todo al derecho. Continuar hasta que queden 8 p.")),
    ("fr", ("Sur les tours impairs : (6 m end, 2 m ens end) 8 fois, avec 1 m de moins entre les diminutions à chaque "
     "fois. Sur tous les rangs pairs tricoter à l'endroit. Continuer jusqu'à ce qu'il reste 8 m.")),
    ("nb", ("På alle omg med oddetall: *6 r, 2 r sm*, gjenta *-* omg rundt, med 1 m mindre mellom fellingene for hver "
     "gang. På alle omg med partall strikkes rett. Fortsett til det er 8 m igjen.")),
    ("da", ("På omg med ulige numre: *6 r, 2 r sm*, gentag *-* omg rundt, med 1 m mindre mellem indtagningerne for "
     "hver gang. På omg med lige numre strikkes ret. Fortsæt til der er 8 m tilbage.")),
    ("nl", ("Op alle oneven toeren: *6 r, 2 r samen*, herhaal *-*, met telkens 1 st minder tussen de minderingen. "
     "Op alle even toeren recht breien. Ga door tot er 8 st over zijn.")),
    ("de", ("In allen ungeraden Runden: *6 re, 2 M re zus, ab * wdh, dabei jedes Mal 1 M weniger zwischen den "
     "Abnahmen. In allen geraden Runden alle M rechts stricken. Weiter, bis 8 M übrig sind.")),
    # told behind the first of them
    ("en", "Next rnd: *k6, k2tog* 8 times. 56 sts. Dec like this on every second rnd, all others are knit, to 8 sts."),
    ("fr", ("Tour 1 : (6 m end, 2 m ens end) 8 fois = 56 m. Diminuer ainsi sur tous les tours impairs et tricoter "
     "les tours pairs à l'endroit jusqu'à 8 m.")),
    ("es", ("Vta 1: (6 d, 2 pjd) 8 veces = 56 p. Disminuir así en todas las vueltas impares y tejer las vueltas "
     "pares al derecho hasta que queden 8 p.")),
    ("nl", ("Volgende toer: *6 r, 2 r samen*, herhaal *-* = 56 st. Minder zo in alle oneven toeren en brei de even "
     "toeren recht tot er 8 st over zijn.")),
]  # fmt: skip


@pytest.mark.parametrize(("language", "text"), ODD_AND_EVEN)
def test_odd_rounds_decrease_and_even_ones_are_plain(language: str, text: str) -> None:
    """Sections of one stitch fewer every second round, told in prose."""
    assert after_each_round(read(text, (64,), language)) == TO_8


IN_THE_LAST = [
    ("de", "4 Rd str. In der letzten Rd 8 M gleichmäßig verteilt zunehmen. (88 M)"),
    ("de", "4 Rd str, dabei in der letzten Runde verteilt 8 M zunehmen. (88 M)"),
    ("fr", "Tric 4 tours à l'endroit. Au dernier tour, augm 8 m régulièrement. (88 m)"),
    ("es", "Tejer 4 vtas del derecho. En la última vta aumentar 8 p repartidos. (88 p)"),
    ("da", "Strik 4 omg ret. På sidste omg tages 8 m ud jævnt fordelt. (88 m)"),
    ("nb", "Strikk 4 omg rett, øk 8 m jevnt fordelt på siste omg. (88 m)"),
    ("nl", "Brei 4 toeren recht. Meerder in de laatste toer 8 st gelijkmatig verdeeld. (88 st)"),
]


@pytest.mark.parametrize(("language", "text"), IN_THE_LAST)
def test_an_increase_in_the_last_of_some_rounds_is_no_round_more(language: str, text: str) -> None:
    """Counted by hand."""
    assert after_each_round(read(text, (80,), language)) == [80, 80, 80, 88]


def test_the_last_of_rounds_that_shape_keeps_its_own_work() -> None:
    """Another change in the last of them is not put in the place of what the round works: 72 sts do not divide by 7."""
    reading = read("Rnds 1-3: *k5, k2tog* around. In the last round dec 4 sts evenly.", (84,), "en")
    assert {"left_over"} == {finding.code for finding in reading.findings if finding.severity == "error"}
