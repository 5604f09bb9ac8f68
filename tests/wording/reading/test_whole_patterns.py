"""Ways in which whole patterns say something, each text counted by hand: its counts in each size, its rounds."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import counts

CROWN = (
    "Rnd 1: *k10, k2tog* around. 88 sts.\nRnd 2: knit.\nRnd 3: *k9, k2tog* around. 80 sts.\nRnd 4: knit.\n"
)
CLOSES = "\nK2tog around."

TEXTS = [
    (
        "a chart with its number",
        f"Cast on 96 sts. Join.\nWork the 25 rounds of Chart 4.{CLOSES}",
        ((96, 48),),
        26,
    ),
    (
        "a chart with number and letter, and its repeats",
        (
            "Cast on 96 sts. Join.\nJoin in L and work Chart 14A: 16 rounds, 12 sts to a repeat, "
            f"eight repeats to the round.{CLOSES}"
        ),
        ((96, 48),),
        17,
    ),
    (
        "a chart by what it shows",
        (
            "Cast on 96 sts. Join.\nNow the sheep chart, 31 rounds, 12 stitches to the repeat "
            f"and eight repeats to the round.{CLOSES}"
        ),
        ((96, 48),),
        32,
    ),
    (
        "a chart in brackets",
        (
            "Cast on 96 sts. Join.\nWork Chart no. 3 (12 rounds, 8 sts to each repeat, 12 repeats around)."
            f"{CLOSES}"
        ),
        ((96, 48),),
        13,
    ),
    (
        "the rounds of a chart, repeated side by side",
        f"Cast on 96 sts. Join.\nWork rounds 1 to 19 of the berry chart (12 sts, repeated 8 times).{CLOSES}",
        ((96, 48),),
        20,
    ),
    (
        "a chart worked several times that is told below",
        (
            "Cast on 80 sts. Join.\nWork Rnds 1-2 of Chart A a total of 3 times. "
            "The 8-st repeat is worked 10 times per rnd.\n"
            "Chart A, written\nRnd 1: *k1, yo, ssk, k3, k2tog, yo; rep from * to end.\nRnd 2: knit.\n\n"
            "CROWN\nRnd 1: k2tog around."
        ),
        ((80, 40),),
        7,
    ),
    (
        "a round again, until so many are worked",
        "Rnd 1: *k2, p2* around.\nRepeat rnd 1 until 16 rounds have been worked.\nKnit 4 rounds." + CLOSES,
        ((96, 48),),
        21,
    ),
    (
        "two rounds told and repeated in one breath",
        "Purl 1 round, knit 1 round, and repeat those two until you have worked 8 (10) rounds." + CLOSES,
        ((72, 36), (84, 42)),
        11,
    ),
    (
        "rounds again until there are so many",
        "Rnd 1: knit.\nRnd 2: purl.\nRepeat rnds 1 and 2 until there are 12 rounds." + CLOSES,
        ((96, 48),),
        13,
    ),
    (
        "a crown gone on with to a round",
        f"{CROWN}Carry on in this way up to and including Rnd 16.\nRnd 17: *k2, k2tog* around. 24 sts.",
        ((96, 88, 80, 72, 64, 56, 48, 40, 32, 24),),
        17,
    ),
    (
        "a crown gone on with to a round and a count",
        f"{CROWN}Keep on so, losing 8 sts on the odd rounds, up to and including Rnd 16, when there are 32 sts.",
        ((96, 88, 80, 72, 64, 56, 48, 40, 32),),
        16,
    ),
    (
        "the colour of a numbered round",
        "Rnd 1, G only: *k10, k2tog* around. 88 sts.\nRnd 2, in grey: knit.\nRnd 3: dot round, groups of 6.",
        ((96, 88),),
        3,
    ),
    (
        "a colour called by its letter is no size",
        (
            "Sizes: woman's (man's)\nGround (G) 30 (35) g\nCast on 96 (108) sts.\n"
            "Rnd 1, G only: *k4, k2tog* around. 80 (90) sts."
        ),
        ((96, 80), (108, 90)),
        1,
    ),
]


@pytest.mark.parametrize(
    ("text", "wanted", "rounds"), [row[1:] for row in TEXTS], ids=[row[0] for row in TEXTS]
)
def test_it_is_read_as_it_is_meant(
    text: str, wanted: tuple[tuple[int, ...], ...], rounds: int | None
) -> None:
    """Nothing is called wrong, and the counts of every size come out."""
    reading = read(text, tuple(size[0] for size in wanted))
    came = tuple(tuple(counts(each, size[0])) for each, size in zip(reading.rounds, wanted, strict=True))

    assert not [finding for finding in reading.findings if finding.severity == "error"]
    assert came == wanted
    assert rounds in (None, max(map(len, reading.rounds)))
