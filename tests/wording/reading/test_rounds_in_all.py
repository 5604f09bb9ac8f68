"""How many rounds there are in all, told in the words of ordinary print: what was worked before counts among them.

The numbers of rounds are counted by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, number_of_rounds, words_of_rounds

RIB = "Rib round: *k2, p2; rep from * to end.\n"
GARTER = "Rnd 1: knit.\nRnd 2: purl.\n"
BUMPS = "Rnds 1-3: Knit.\nRnd 4: *K3, p1; rep from * to end.\n"
NEXT = "\nNext round: knit."
BRIM = "Work 12 rounds in k2, p2 rib.\n"
MARKED = (
    "Place 8 markers, 12 sts apart.\nDec rnd: *k to 2 sts before marker, k2tog; rep from * around. 88 sts\n"
)
PARITY = "Odd rounds: *k1, p1* around.\nEven rounds: knit.\n"
K2_P2 = "*k2, p2; rep from * around"
RIBBED = [K2_P2] * 10 + ["knit"]
BUMPED = ["knit"] * 3 + ["*k3, p1; rep from * around"]
FROM_RIB = [K2_P2] * 12 + ["knit"] * 28

IN_ALL = [
    ("rounds of rib in all", f"{RIB}Work 10 rnds of rib in all.{NEXT}", RIBBED),
    ("a total of rounds", f"{RIB}Work a total of 10 rounds of rib.{NEXT}", RIBBED),
    (
        "altogether, behind a number",
        f"Rnd 1: *k2, p2; rep from * to end.\nWork 10 rounds in rib altogether.{NEXT}",
        RIBBED,
    ),
    ("in rib until so many", f"{RIB}Continue in rib until 10 rounds have been worked.{NEXT}", RIBBED),
    ("until you have so many", f"{RIB}Work in rib until you have 10 rounds.{NEXT}", RIBBED),
    ("this round for so many in all", f"{RIB}Rep this round for 10 rounds in all.{NEXT}", RIBBED),
    ("counting the first", f"{RIB}Work 10 rounds of rib, counting the first.{NEXT}", RIBBED),
    (
        "two rounds of garter stitch",
        f"{GARTER}Work 10 rounds of garter stitch in total.{NEXT}",
        ["knit", "purl"] * 5 + ["knit"],
    ),
    # Which rib is not told, so its rounds have no other word than that of plain ones.
    ("nothing was told before", f"Knit 2 rounds.\nWork 10 rounds of rib in all.{NEXT}", ["knit"] * 13),
    ("a line break in the phrase", f"{RIB}Work 10 rounds in\ntotal.{NEXT}", RIBBED),
    (
        "times, and a line break in the phrase",
        f"{BUMPS}Do these 4 rounds 5 times in\nall.{NEXT}",
        BUMPED * 5 + ["knit"],
    ),
    ("a total of times", f"{BUMPS}Work Rnds 1-4 a total of 5 times.", BUMPED * 5),
    (
        "rounds of cables",
        f"{BUMPS}Repeat these 4 rounds until you have worked 12 rounds of cables.",
        BUMPED * 3,
    ),
    (
        "rounds of pattern worked",
        f"{BUMPS}Repeat rounds 1-4 until 12 rounds of pattern have been worked.",
        BUMPED * 3,
    ),
    ("rounds in pattern", f"{BUMPS}Repeat these 4 rounds until there are 12 rounds in pattern.", BUMPED * 3),
    (
        "the four rounds",
        f"{BUMPS}Keep repeating the four rounds until you have done a total of 12 rounds.",
        BUMPED * 3,
    ),
    ("all rounds so often", f"{BUMPS}Work all 4 rnds 5 times in all.", BUMPED * 5),
    ("the rounds so often", f"{BUMPS}Work the 4 rounds 5 times.", BUMPED * 5),
    (
        "and then one more",
        f"{BUMPS}Repeat these 4 rounds until you have worked 12 rounds, then knit 1 round.",
        BUMPED * 3 + ["knit"],
    ),
    ("from the cast-on", f"{BRIM}Knit until 40 rounds have been worked from the cast-on edge.", FROM_RIB),
    (
        "from the beginning",
        f"{BRIM}Work straight until you have worked 40 rounds from the beginning.",
        FROM_RIB,
    ),
    ("from the rib", f"{BRIM}Continue in st st until there are 28 rounds from the rib.", FROM_RIB),
    (
        "rib, then so many in all",
        f"{BRIM[:-2]}, then knit until 40 rounds have been worked in all from cast-on.",
        FROM_RIB,
    ),
]
TOLD_SO = [
    (
        "to form rib",
        f"Round 1: *k2, p2* to end.\nRep this round to form rib until 10 rounds have been worked.{NEXT}",
        RIBBED,
    ),
    (
        "this round forms the rib",
        f"Round 1: *k2, p2* to end.\nThis round forms the rib. Work 9 more rounds.{NEXT}",
        RIBBED,
    ),
    ("the rib round so often", f"{RIB}Work the rib round 10 times.{NEXT}", RIBBED),
    (
        "alternately",
        f"Purl 1 round, knit 1 round, alternately, for 10 rounds.{NEXT}",
        ["purl", "knit"] * 5 + ["knit"],
    ),
    ("and the following rounds", f"Round 1 and the following 9 rounds: *k2, p2* to end.{NEXT}", RIBBED),
]
STRIPES = [
    (
        "stripes until",
        "Working in st.st. throughout, work in stripes of 4 rounds C, 4 rounds M until 32 rounds have been completed.",
        ["knit"] * 32,
    ),
    ("stripes for so many", "Work in stripes of 2 rnds A and 2 rnds B for 24 rnds.", ["knit"] * 24),
    (
        "a stripe sequence",
        "Knit in a stripe sequence of 4 rounds MC, 4 rounds CC until you have 32 rounds.",
        ["knit"] * 32,
    ),
    ("so many in stripes", "Work 32 rounds in stripes of 4 rounds C and 4 rounds M.", ["knit"] * 32),
    ("bands in all", "Work 4 rounds in red, 4 rounds in white, 32 rounds in all.", ["knit"] * 32),
    (
        "alternate bands",
        "Alternate 2 rounds A and 2 rounds B until 20 rounds of stripes are done.",
        ["knit"] * 20,
    ),
    (
        "for a total of",
        "Work in stripes, 3 rounds blue, 3 rounds white, for a total of 30 rounds.",
        ["knit"] * 30,
    ),
    ("a last band is added", "Knit 4 rounds red, 4 rounds white, then 16 rounds red.", ["knit"] * 24),
    ("stripes of one height", "Work 20 rounds in 4-round stripes.", ["knit"] * 20),
    ("no work but a rate", "Work 20 rounds a day and it is done in a week.\nRnd 1: knit", ["knit"]),
]
ODD_AND_EVEN = [
    ("so many rounds thus", f"Work 12 rounds as follows:\n{PARITY}Next round: knit"),
    ("so many rounds of a fabric", f"Work in texture for 12 rounds, thus:\n{PARITY}Next round: knit"),
    ("so many rounds behind", f"{PARITY}Work 12 rounds in this way.\nNext round: knit"),
    ("in pattern behind", f"{PARITY}Work 12 rounds in pattern.\nNext round: knit"),
    ("these two so often", f"{PARITY}Work these two rounds 6 times in all.\nNext round: knit"),
    ("repeated so often", f"{PARITY}Rep these 2 rounds 6 times.\nNext round: knit"),
]


TEN = "Rounds 1-9: *k2, p2*.\nRound 10: purl.\n"
BEFORE = "Knit 4 rounds.\n"
REPEATED = [
    ("from round 1", f"{BEFORE}{TEN}Repeat from round 1 twice more."),
    ("from round 1 until", f"{BEFORE}{TEN}Repeat from Round 1 until 30 rounds are done."),
    ("twice more, so many rounds", f"{BEFORE}{TEN}Repeat twice more, 30 rounds."),
    ("this pattern again", f"{BEFORE}{TEN}Repeat this pattern two more times."),
    ("so many repeats", f"{BEFORE}{TEN}Work 3 repeats in all."),
    ("more repeats", f"{BEFORE}{TEN}Work two more repeats."),
    ("until so many repeats", f"{BEFORE}{TEN}Repeat these 10 rounds until you have 3 repeats."),
    ("they form the pattern", f"{BEFORE}{TEN}These 10 rounds form the pattern; work it 3 times."),
    (
        "the pattern so often",
        f"{BEFORE}{TEN}These 10 rounds form the pattern. Work the pattern 3 times in all.",
    ),
    *(
        (sentence, f"{BEFORE}{TEN}These 10 rounds form patt. {sentence}")
        for sentence in (
            "Cont in patt until 3 patts have been worked in all.",
            "Continue until 3 complete patterns have been worked.",
            "Cont in patt until you have worked 3 patterns.",
            "Work in patt until there are 3 pattern repeats.",
            "Cont until the pattern has been worked 3 times in all.",
            "Work 3 patts in all.",
        )
    ),
    ("the same rounds", f"{BEFORE}{TEN}Now the same 10 rounds twice more."),
    ("the following rounds so often", f"{BEFORE}Work the following 10 rounds 3 times:\n{TEN}"),
    ("these rounds so often", f"{BEFORE}Work these 10 rounds 3 times:\n{TEN}"),
    ("repeats of the following rounds", f"{BEFORE}Work 3 repeats of the following 10 rounds:\n{TEN}"),
    ("so often in the heading", f"{BEFORE}Pattern (10 rounds, worked 3 times):\n{TEN}"),
]
MORE = [
    (
        "in st. st. and what it is",
        "Knit 4 rounds.\nWork in st. st. (knit every round) for 30 rounds.",
        ["knit"] * 34,
    ),
    (
        "until so many more",
        "Knit 4 rounds.\nContinue as set until 30 more rounds have been worked.",
        ["knit"] * 34,
    ),
    ("and knit more", "Knit 4 rounds.\nKnit 10 rounds, then change colour and knit 20 more.", ["knit"] * 34),
]


COUNTED = (*IN_ALL, *TOLD_SO, *STRIPES, *MORE)


@pytest.mark.parametrize(
    ("text", "words"), [example[1:] for example in COUNTED], ids=[example[0] for example in COUNTED]
)
def test_rounds_are_counted_in_all(text: str, words: list[str]) -> None:
    """As many as are told, each in the pattern that is told."""
    assert words_of_rounds(read(text, (96,))) == words


def test_more_rounds_are_as_many_as_are_told() -> None:
    """One round, 9 more and another; that the 9 are ribbed is not held here: they are read as knit."""
    text = f"{RIB}Work 9 more rounds of rib (10 rounds in all).{NEXT}"
    assert number_of_rounds(read(text, (96,))) == [11]


@pytest.mark.parametrize(
    "text", [example[1] for example in ODD_AND_EVEN], ids=[example[0] for example in ODD_AND_EVEN]
)
def test_odd_and_even_rounds_are_worked_in_turn(text: str) -> None:
    """12 rounds, and the one behind them."""
    words = words_of_rounds(read(text, (96,)))
    assert words == ["*k1, p1; rep from * around", "knit"] * 6 + ["knit"]


@pytest.mark.parametrize(
    "text", [example[1] for example in REPEATED], ids=[example[0] for example in REPEATED]
)
def test_all_rounds_of_a_pattern_are_repeated(text: str) -> None:
    """4 rounds, and three times 10."""
    words = words_of_rounds(read(text, (96,)))
    pattern = [K2_P2] * 9 + ["purl"]
    assert words == ["knit"] * 4 + pattern * 3


DECREASED = [
    (
        "next and following alternate",
        f"{MARKED}K 3 rnds.\nRep dec rnd on next and foll 2 alt rnds. 64 sts",
        [88] * 4 + [80, 80, 72, 72, 64],
    ),
    (
        "the following alternate",
        f"{MARKED}Rep dec rnd on foll 3 alt rnds. 64 sts",
        [88, 88, 80, 80, 72, 72, 64],
    ),
    (
        "next and one following",
        f"{MARKED}K 1 rnd.\nWork dec rnd on the next and following alternate round. 72 sts",
        [88, 88, 80, 80, 72],
    ),
    (
        "as set on next and following",
        f"{MARKED}K 1 rnd.\nDec as set on next and foll 2 alt rnds. 64 sts",
        [88, 88, 80, 80, 72, 72, 64],
    ),
    (
        "next and every following",
        f"{MARKED}K 1 rnd.\nRep dec rnd on next and every foll alt rnd to 64 sts.",
        [88, 88, 80, 80, 72, 72, 64],
    ),
    (
        "every following fourth",
        f"{MARKED}K 3 rnds.\nRep dec rnd on next and foll 4th rnd. 72 sts",
        [88] * 4 + [80] * 4 + [72],
    ),
    (
        "a pair so often in all",
        f"{MARKED}Work the dec rnd, then knit 1 round; do this 4 times in all. 64 sts",
        [88, 88, 80, 80, 72, 72, 64, 64],
    ),
    (
        "a pair, of which the first is only told",
        f"{MARKED}Work a dec rnd, then k 1 rnd, 4 times in all. 64 sts",
        [88, 88, 80, 80, 72, 72, 64, 64],
    ),
]


@pytest.mark.parametrize(
    ("text", "counts"), [example[1:] for example in DECREASED], ids=[example[0] for example in DECREASED]
)
def test_on_which_rounds_is_decreased(text: str, counts: list[int]) -> None:
    assert after_each_round(read(text, (96,))) == counts


THIRD = [88, 88, 88, 80, 80, 80, 72, 72, 72, 64]
BETWEEN = [
    "Work 2 rounds straight between decrease rounds until 64 sts remain.",
    "Continue decreasing with 2 plain rounds between until 64 sts remain.",
    "Decrease like this, knitting 2 rounds between each, until 64 sts remain.",
    "Dec as before, with 2 rounds plain between the decrease rounds, until 64 sts remain.",
    "Keep decreasing, with two knit rounds between decrease rounds, until you have 64 sts.",
    "Repeat the decrease round, with 2 rounds between, until 64 sts remain.",
    "Repeat the decrease round until 64 sts remain, working 2 plain rounds between.",
    "Knit 2 rounds between decreases. Continue until 64 sts remain.",
    "Now decrease every third round until 64 sts remain.",
    "Continue to decrease 8 sts every 3rd round until 72 sts remain and every 3rd round until 64 remain.",
]


@pytest.mark.parametrize("text", BETWEEN)
def test_so_many_plain_rounds_stand_between(text: str) -> None:
    assert after_each_round(read(MARKED + text, (96,))) == THIRD


def test_only_one_round_of_two_is_worked_so_often_from_now_on() -> None:
    """The rounds in turn end with 42 stitches, and `round A only` takes 6 from them five times."""
    marked = "Set-up: *k16, place marker*, 6 times.\nRound A: *k to 2 sts before marker, k2tog*, 6 times.\n"
    marked += "Round B: knit.\nRepeat rounds A and B 8 more times. 42 sts.\nRepeat round A only 5 times."
    assert after_each_round(read(marked, (96,)))[-6:] == [42, 36, 30, 24, 18, 12]


@pytest.mark.parametrize(
    "line",
    [
        "Rnd 1: Knit. Do that 8 times.",
        "Rnd 1: Knit around. Do this 8 times.",
        "Knit all sts. Do it 8 times.",
        "Knit a round. Do so 8 times.",
        "Rnd 1: Knit. Work that 8 times.",
    ],
)
def test_a_plain_round_is_worked_as_often_as_is_told_behind_it(line: str) -> None:
    """Eight plain rounds, the told line included, and the decrease round behind them."""
    assert number_of_rounds(read(f"{line}\nNext rnd: *k8, k2tog*.", (80,))) == [9]


@pytest.mark.parametrize(
    ("text", "language"),
    [
        (
            "Continue in st st. Inc 6 sts evenly in the first rnd. (72 sts)\nWork 22 rnds of st st in all.",
            "en",
        ),
        ("Rnd 1: knit, inc 6 sts evenly. (72 sts)\nKnit a total of 22 rnds.", "en"),
        ("Meerder in de 1e toer 6 st verdeeld = 72 st.\nBrei in totaal 22 toeren tricotsteek.", "nl"),
        ("In der 1. Rd 6 M verteilt zunehmen (= 72 M). Insgesamt 22 Rd glatt re str.", "de"),
    ],
)
def test_the_first_round_that_shapes_is_one_of_all(text: str, language: str) -> None:
    """22 rounds, the first of which adds 6 stitches."""
    assert after_each_round(read(text, (66,), language)) == [72] * 22


@pytest.mark.parametrize(
    "end", ["Stop when 4 rounds are done.", "Stop once 4 rounds are done.", "Stop at 4 rounds."]
)
def test_rounds_that_are_told_twice_are_worked_once(end: str) -> None:
    """Four plain rounds and the decrease round; where one was told before, three more make up the four."""
    assert number_of_rounds(read(f"Knit 4 rounds. {end}\nNext rnd: *k8, k2tog*.", (80,))) == [5]
    assert number_of_rounds(read(f"Knit 1 round. {end}\nNext rnd: *k8, k2tog*.", (80,))) == [5]
