"""No text is long to read: the steps of the search are counted, and the reading ends where they are used up.

Steps are counted and not time, so that a busy machine changes nothing; a step is one or two microseconds.
"""

import pytest

from roundwright.knitting.rounds.round import LONGEST_TEXT
from roundwright.wording.proofreading.explained import Explained
from roundwright.wording.proofreading.read import read
from roundwright.wording.proofreading.repair import MOST_STEPS as MOST_STEPS_OF_REPAIRS
from roundwright.wording.proofreading.repair import Repairs
from roundwright.wording.reading.explain import MOST_STEPS, MOST_STEPS_OF_SIZE
from roundwright.wording.reading.layout import MOST_LINES
from roundwright.wording.reading.scanner import most_words, scan

CROWN = "\n".join(
    f"Rnd {2 * turn + 1}: *K{8 - turn}, k2tog; rep from * around. ({72 - 8 * turn} sts)\nRnd {2 * turn + 2}: Knit."
    for turn in range(8)
)
NASTY = {
    "crowns": "\n".join([CROWN] * 40),
    "a stitch a line": "k\n" * 32_000,
    "numbered rounds": "\n".join(f"Rnd {number}: knit" for number in range(1, 2_000)),
    "all rounds in each line": "Rnds 1-400: *k2, p2; rep from * around.\n" * 900,
    "markers": "\n".join(
        f"Rnd {number}: *k to 2 sts before m, k2tog, sm; rep from * around" for number in range(1, 600)
    ),
    "two meanings": "\n".join(f"Rnd {number}: k6, k2tog 8 times" for number in range(1, 900)),
    "loops to a count": "Rnd 1: *k2tog, k6; rep from * around\nRnd 2: knit\nRep rnds 1 and 2 until 8 sts rem.\n"
    * 400,
    "a million rounds": "Next 1000000 rnds: k\n" * 900,
    "every millionth round": "Rnd 1: *k6, k2tog; rep from * around\n"
    "Continue in this manner, decreasing every 1000000th round until 8 sts remain.\n" * 300,
    "the last round again": "Rnd 1: k\n" + "Rep last rnd 400 times\n" * 2_900,
    "rounds again": "rep rnds 1-99 " * 4_000,
    "stars": "* " * 30_000,
    "brackets": "(" * LONGEST_TEXT,
    "brackets by line": "(k1, m1) \n" * 6_000,
    "digits": "1 " * 32_000,
    "lists": "k4 (5, 6)\n" * 6_500,
    "ends open": "k. " + "K. " * 20_000 + " rnd",
    "spaces": "r1" + " " * 65_000 + "!",
    "evenly": "dec to 40 sts\ninc to 400 sts evenly\n" * 1_700,
    "standing lines": "all odd rnds: k\n" * 4_000,
    "numbers before a line": "\n".join(
        "Rnds " + ", ".join(map(str, range(1, 400, 2))) + ": knit" for _ in range(40)
    ),
    "unknown words": "Rnd 1: blobble 4, frib 3\n" * 2_600,
    "prose": "the quick brown fox jumps over the lazy dog and then some more. " * 1_000,
}
SIZES = {1: (64,), 4: (64, 72, 80, 88), 12: tuple(range(48, 144, 8))}


@pytest.mark.parametrize("sizes", SIZES)
@pytest.mark.parametrize("name", NASTY)
def test_the_steps_of_a_text_are_bounded(name: str, sizes: int) -> None:
    """However a text is made, and in any number of sizes, the search ends soon after its steps are used up."""
    explained = Explained(NASTY[name][:LONGEST_TEXT], SIZES[sizes])

    assert explained.search.budget.steps <= MOST_STEPS + MOST_STEPS_OF_SIZE * sizes
    assert explained.search.budget.spent <= 1.2 * explained.search.budget.steps
    assert len(explained.segments) <= most_words(sizes) + 1


def test_a_text_that_takes_too_many_steps_says_so() -> None:
    """What is not read for want of steps is an error at the line where reading ended."""
    reading = read(NASTY["crowns"], SIZES[12])

    assert "too_long" in {finding.code for finding in reading.findings}


@pytest.mark.parametrize("sizes", SIZES)
def test_a_usual_crown_takes_a_tenth_of_the_steps_there_are(sizes: int) -> None:
    """A crown that comes out is read in one way only, whatever its sizes."""
    counts = tuple(80 for _ in range(sizes))
    explained = Explained(CROWN, counts)

    assert not explained.explanation.faults
    assert {len(states) for states in explained.search.before.values()} == {1}
    assert explained.search.budget.spent <= explained.search.budget.steps // 10


def test_only_so_many_words_and_lines_are_read() -> None:
    """The rest of a text that is longer than a pattern for a hat is told to be unread."""
    assert len(scan("k2 " * 30_000, 1).tokens) <= most_words(1) + 1
    reading = read("Rnd 1: knit\n" * (MOST_LINES + 50), (64,))

    assert {"too_long", "too_many_rounds"} & {finding.code for finding in reading.findings}


@pytest.mark.parametrize("name", NASTY)
def test_the_steps_of_repairs_are_bounded(name: str) -> None:
    """Repairs of all lines of a text share one budget."""
    explained = Explained(NASTY[name][:LONGEST_TEXT], SIZES[1])
    repairs = Repairs(explained.text, explained.laid, explained.search)
    for fault in explained.explanation.faults[:8]:
        repairs.repairs(fault.segment, [fault], explained.chosen.get(fault.segment))

    assert repairs.budget.spent <= 2 * MOST_STEPS_OF_REPAIRS
