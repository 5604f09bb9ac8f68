"""Patterns in words turned back into rounds: the phrases patterns print, and whatever the service writes itself."""

import json
import os
from typing import Any

import msgspec
import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from roundwright import reference
from roundwright.knitting.answers import Impossible
from roundwright.knitting.hat import plan as hat
from roundwright.knitting.hat import request as hat_request
from roundwright.knitting.hat.brim_and_body import HatPart
from roundwright.knitting.rounds.notation import written_line
from roundwright.knitting.rounds.round import Repeat, Round, Step, Work, execute, runs
from roundwright.language import ENGLISH_WORDS
from roundwright.wording.proofreading.read import Reading, read
from roundwright.wording.writing import pattern as write
from roundwright.wording.writing.plain_language import plain_sentences
from tests.corpus.score import errors
from tests.knitting.rounds.test_round import steps
from tests.support.hats import hat_requests
from tests.support.readings import after_each_round, after_rounds_of_sizes

Run = tuple[str, int]


def runs_of(steps: tuple[Step, ...]) -> list[Run]:
    """The stitches in working order, equal neighbours together."""
    joined: list[Run] = []
    for name, times in runs(steps):
        if joined and joined[-1][0] == name:
            joined[-1] = (name, joined[-1][1] + times)
        else:
            joined.append((name, times))
    return joined


def only_round(text: str, stitches: int) -> Round:
    """The one round of a line in which nothing is wrong."""
    reading = read(text, (stitches,))
    assert not errors(reading), reading.findings
    ((only,),) = reading.rounds
    return only


def counts(reading: Reading, size: int = 0) -> list[tuple[int, int]]:
    """Number of each round and the stitches after it."""
    return [(done.number, done.after) for done in reading.rounds[size]]


# --- what the service writes ---------------------------------------------------------------------------------------


@settings(max_examples=200)
@given(steps, st.booleans())
@example((Work("k", 2), Repeat(9, (Work("k", 4), Work("k2tog"))), Work("k", 3)), False)
@example((Repeat(3, (Repeat(2, (Work("k2tog", 7), Work("sl"))), Work("m1"))),), True)
@example((Work("p", 40),), False)
@example((Repeat(1, (Work("k", 2), Work("m1", 2), Work("p", 3)), again=2),), False)
def test_the_written_line_of_a_round_reads_back_to_it(steps: tuple[Step, ...], flat: bool) -> None:
    """`written_line` and `read` undo each other, for every round there can be."""
    used, _ = execute(steps)
    assume(used)

    assert runs_of(steps) == runs_of(only_round(f"Rnd 1: {written_line(steps, flat=flat)}", used).steps)


@settings(max_examples=200)
@given(steps)
def test_the_spoken_line_of_a_round_reads_back_to_it(steps: tuple[Step, ...]) -> None:
    """The sentences a beginner gets are read like the abbreviations."""
    used, _ = execute(steps)
    text = f"Round 1: {plain_sentences(steps, ENGLISH_WORDS)}"
    assume(used)
    assume(len(text) < 1_500)  # several hundred words are more than a line is read for

    assert runs_of(steps) == runs_of(only_round(text, used).steps)


def worked(plan: hat.HatPlan) -> list[list[Run]]:
    """Every round of a hat, brim and body worked as often as they are."""
    rounds = [*straight(plan.brim), *straight(plan.body), *plan.crown.rounds]
    return [runs_of(round.steps) for round in rounds]


def straight(part: HatPart) -> list[Round]:
    """The rounds of brim or body; the one that changes the count is the first of the body, or the last of the brim."""
    adjust = [part.adjust] if part.adjust else []
    lines = [part.lines[turn % len(part.lines)] for turn in range(part.rounds - len(adjust))]
    return lines + adjust if part.part == "brim" else adjust + lines


@settings(max_examples=int(os.environ.get("ROUNDWRIGHT_TEST_EXAMPLES", "60")))
@given(hat_requests(), st.sampled_from(["us", "uk"]), st.sampled_from(["pattern", "beginner"]))
def test_a_written_hat_reads_back_to_its_rounds(fields: dict[str, Any], terms: str, wording: str) -> None:
    """In every style, in up to twelve sizes, in US and UK terms, in abbreviations and in sentences."""
    request = msgspec.json.decode(
        json.dumps({**fields, "terms": terms, "wording": wording}), type=hat_request.HatRequest
    )
    try:
        answer = hat.hats(request, write.pattern)
    except Impossible:
        assume(False)

    reading = read(answer.pattern, tuple(plan.cast_on.stitches for plan in answer.sizes))

    # a crown whose last decreases come closer says so truly: eight go once where four went before; and where all sizes
    # are equally deep, the largest has the longest crown and the shortest body
    assert {finding.code for finding in reading.findings} <= {"rhythm_broken", "sizes_not_growing"}
    assert [worked(plan) for plan in answer.sizes] == [
        [runs_of(done.steps) for done in rounds] for rounds in reading.rounds
    ]


@pytest.mark.parametrize("style", ["dome", "square", "swirl", "gathered"])
@pytest.mark.parametrize("language", ["en", "de", "fr", "es", "nb", "da", "nl"])
def test_a_note_for_every_size_is_no_work(style: str, language: str) -> None:
    """How the marker comes off stands between the rounds, in words of stitches and rounds."""
    body = {
        "gauge": {"stitches": 20, "rows": 28},
        "sizes": [{"age_months": 6}, {"age_years": 8}, {"adult": "man"}],
        "brim": {"kind": "ribbed", "rib": {"knit": 2, "purl": 2}},
        "crown": {"style": style},
        "needles": 4,
        "language": language,
    }
    answer = hat.hats(msgspec.convert(body, hat_request.HatRequest), write.pattern)
    cast_ons = tuple(plan.cast_on.stitches for plan in answer.sizes)
    reading = read(answer.pattern, cast_ons, language)
    assert not [finding for finding in reading.findings if finding.severity != "note"]


@pytest.mark.parametrize("wording", ["pattern", "beginner"])
def test_a_striped_hat_reads_back_to_its_rounds(wording: str) -> None:
    """The colours that stand between the rounds are no work."""
    stripes = [{"colour": "navy", "rounds": 3}, {"colour": "cream", "rounds": 2}]
    body = {
        "gauge": {"stitches": 20, "rows": 28},
        "sizes": [{"age_months": 6}, {"age_years": 8}],
        "brim": {"kind": "ribbed", "rib": {"knit": 2, "purl": 3}},
        "colours": {"body": stripes, "brim_purl": "red"},
        "crown": {"style": "square"},
        "wording": wording,
        "needles": 4,
    }
    answer = hat.hats(msgspec.convert(body, hat_request.HatRequest), write.pattern)
    reading = read(answer.pattern, tuple(plan.cast_on.stitches for plan in answer.sizes))

    assert {finding.code for finding in reading.findings} <= {"rhythm_broken", "sizes_not_growing"}
    assert [worked(plan) for plan in answer.sizes] == [
        [runs_of(done.steps) for done in rounds] for rounds in reading.rounds
    ]


# --- what patterns print -------------------------------------------------------------------------------------------

K2_K2TOG = [("k", 2), ("k2tog", 1)]


@pytest.mark.parametrize(
    ("printed", "stitches", "expected"),
    [
        ("*k2, k2tog; rep from * around", 8, K2_K2TOG * 2),
        ("*k2, k2tog* rep from * to end", 8, K2_K2TOG * 2),
        ("*k2, k2tog* around", 8, K2_K2TOG * 2),
        ("*k2, k2tog*; rep from * to * once more", 8, K2_K2TOG * 2),
        ("*k2, k2tog; rep from * once more", 8, K2_K2TOG * 2),
        ("*k2, k2tog; rep from * twice in all", 8, K2_K2TOG * 2),
        ("*k2, k2tog; rep from *", 8, K2_K2TOG * 2),
        ("*k2, k2tog**, p1, rep from * to ** once", 9, [*K2_K2TOG, ("p", 1), *K2_K2TOG]),
        ("p1, *k2, k2tog; rep from * to last 3 sts, p3", 12, [("p", 1), *K2_K2TOG * 2, ("p", 3)]),
        ("*k2, k2tog; rep from *, ending k3", 11, [*K2_K2TOG * 2, ("k", 3)]),
        ("*p1, **k2, k2tog; rep from ** once more; rep from * around", 18, [("p", 1), *K2_K2TOG * 2] * 2),
        ("[k2, k2tog] twice", 8, K2_K2TOG * 2),
        ("(k2, k2tog) 2 times", 8, K2_K2TOG * 2),
        ("(k2, k2tog) x 2", 8, K2_K2TOG * 2),
        ("[k2, k2tog] around", 8, K2_K2TOG * 2),
        ("[[k1] twice, k2tog] 2 times", 8, K2_K2TOG * 2),
        ("k2tog 3 times", 6, [("k2tog", 3)]),
        ("k2tog (3 times)", 6, [("k2tog", 3)]),
        ("k2tog around", 6, [("k2tog", 3)]),
        ("k2tog to last st, k1", 7, [("k2tog", 3), ("k", 1)]),
        ("k to last 2 sts, k2tog", 9, [("k", 7), ("k2tog", 1)]),
        ("knit until 2 sts remain, k2tog", 9, [("k", 7), ("k2tog", 1)]),
        ("ssk, k to 3 sts before end of rnd, p3", 9, [("ssk", 1), ("k", 4), ("p", 3)]),
        ("k1, p1, k to m, sm", 9, [("k", 1), ("p", 1), ("k", 7)]),
        ("k1p1 rib", 6, [("k", 1), ("p", 1)] * 3),
        ("work in k2, p2 rib", 8, [("k", 2), ("p", 2)] * 2),
        ("knit", 9, [("k", 9)]),
        ("k", 9, [("k", 9)]),
        ("purl", 9, [("p", 9)]),
        ("knit all sts", 9, [("k", 9)]),
        ("knit every stitch", 9, [("k", 9)]),
        ("k across", 9, [("k", 9)]),
        ("work even", 9, [("k", 9)]),
        ("work straight", 9, [("k", 9)]),
        ("k3, yo twice, k 6", 9, [("k", 3), ("yo", 2), ("k", 6)]),
        ("k next 4 sts, p five", 9, [("k", 4), ("p", 5)]),
        ("Knit 4 stitches. Purl 5.", 9, [("k", 4), ("p", 5)]),
        ("k4, pm, k5", 9, [("k", 9)]),
        ("k2, [p1 tbl, k1 tbl] 3 times, k1", 9, [("k", 2), *[("p", 1), ("k", 1)] * 2, ("p", 1), ("k", 2)]),
        ("dec 3 sts evenly", 9, [("k", 1), ("k2tog", 1)] * 3),
    ],
)  # fmt: skip
def test_phrases(printed: str, stitches: int, expected: list[Run]) -> None:
    """Phrases of printed patterns mean what a knitter works (common practice)."""
    assert expected == runs_of(only_round(f"Rnd 1: {printed}", stitches).steps)


# Seen in print (book lists and the Craft Yarn Council's list of abbreviations).
SPELLINGS = """
k2tog: k2tog | K2TOG | k 2 tog | K2 tog | knit two together | knit 2 together | knit 2 stitches together | k2tog tbl
ssk: ssk | SSK | slip, slip, knit
skp: skp | skpo | sl1-k1-psso | sl 1, k1, psso | Sl1, K1, pass slipped stitch over
sk2p: sk2p | sl 1, k2tog, psso
cdd: S2KP | S2KP2 | s2kpo | cdd | sl 2 tog, k1, psso | centred double decrease
k3tog: k3tog | k 3 tog | knit three together
p2tog: p2tog | P2TOG | purl two together
kfb: kfb | k1f&b | kf&b | KFB | knit into the front and back
m1l: M1L | m1l | make one left
m1r: M1R | make 1 right
m1: m1 | M1 | make 1 | make one
yo: yo | YO | yon | yrn | yfwd | yarn over
sl: sl 1 | sl1 | slip 1
"""


@pytest.mark.parametrize(
    ("stitch", "spelling"),
    [
        (stitch, spelling)
        for stitch, _, spellings in (row.partition(": ") for row in SPELLINGS.strip().split("\n"))
        for spelling in spellings.split(" | ")
    ],
)
def test_spellings(stitch: str, spelling: str) -> None:
    """Each stitch in the spellings and cases of print."""
    assert [("k", 3), (stitch, 1), ("p", 3)] == runs_of(
        only_round(f"Rnd 1: k3, {spelling}, p3", 6 + reference.stitches()[stitch].uses).steps
    )


def test_every_stitch_is_known_by_its_name_and_by_its_words() -> None:
    """Whatever the table of stitches holds can be read."""
    for name, row in reference.stitches().items():
        plain = "k" if name == "p" else "p"
        for words in (name, row.words):
            done = only_round(f"Rnd 1: {plain}9, {words}, {plain}9", 18 + row.uses)
            assert [(plain, 9), (name, 1), (plain, 9)] == runs_of(done.steps)


@pytest.mark.parametrize(
    "count",
    ["— 6 sts", "- 6 sts", "(6 sts)", "[6 sts]", ". 6 sts.", "— 6 (7, 8) sts", "6 sts rem", "6 sts remain",
     ", 6 sts remaining.", "(2 sts dec'd)", ". You have 6 stitches.", "= 6 sts", "(6, 7, 8) sts"],
)  # fmt: skip
def test_counts_in_print(count: str) -> None:
    """The count at the end of a line, in the ways of print, is a count and no stitches."""
    text = f"Rnd 1: [k2, k2tog] 2 (2, 2) times {count}"
    sizes = (8, 8, 8) if "7" in count else (8,)
    differing = [found for found in read(text, sizes).findings if found.code == "count_differs"]

    assert [(2, -1), (3, -2)] * ("7" in count) == [(found.size, found.stitches) for found in differing]


def test_numbers_in_brackets_are_sizes() -> None:
    """`k4 (5, 6, 7)` is 4 for the first size and 7 for the fourth; `3 (4, 5, 6) times` alike (common practice)."""
    reading = read("Rnd 1: [k4 (5, 6, 7), p1] 3 (4, 5, 6) times, k1", (16, 25, 36, 49))

    assert not reading.findings
    assert [[("k", size), ("p", 1)] * (size - 1) + [("k", 1)] for size in (4, 5, 6, 7)] == [
        runs_of(rounds[0].steps) for rounds in reading.rounds
    ]


def test_one_size_of_a_pattern_for_several() -> None:
    """A knitter of the third size need not know the others: the cast-on in the text says which numbers are hers."""
    text = (
        "Cast on 64 (72, 80, 88) sts.\nRnd 1: *k6 (7, 8, 9), k2tog; rep from * around — 56 (64, 72, 80) sts"
    )
    reading = read(text, (80,))

    assert not reading.findings
    assert [(1, 72)] == counts(reading)


def test_lines_for_some_sizes_only() -> None:
    """A line marked for some sizes has numbers for those, and a dash is a size that does not work it."""
    text = """Cast on 16 (24, 32) sts
Rnd 1 (sizes 2 and 3 only): *k4 (6), k2tog; rep from * around — 20 (28) sts
Sizes 2, 3 only: Rnd 2: *k3 (5), k2tog; rep from * around
Rnd 3: *k2 (2, 4), k2tog; rep from * around — 12 (12, 20) sts
Rnd 4: *k- (-, 3), k2tog; rep from * around — - (-, 16) sts"""
    reading = read(text, (16, 24, 32))

    assert not [found for found in reading.findings if found.code != "round_missing"]
    assert [[12], [20, 16, 12], [28, 24, 20, 16]] == after_rounds_of_sizes(reading)


def test_a_count_printed_for_some_sizes_stands_with_those() -> None:
    """Sizes 2, 3 and 4 have 80, 88 and 96; size 1 has none."""
    lines = (
        "Cast on 80 (88, 96, 104) sts.",
        "Sizes 2, 3 and 4 only: *k9 (10, 11), k2tog; rep from * to end. 80 (88, 96) sts",
        "Sizes 2 and 4 only: knit 1 round. 80 (96) sts",
    )
    reading = read("\n".join(lines), (80, 88, 96, 104))

    assert [line.printed for line in reading.lines[1:]] == [(None, 80, 88, 96), (None, 80, None, 96)]
    assert [line.computed for line in reading.lines[1:]] == [line.printed for line in reading.lines[1:]]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Rnd 3 and all odd rnds: knit\nRnd 4: k2tog around\nRnd 6: k2tog around",
         [(3, 48), (4, 24), (5, 24), (6, 12)]),
        ("Rnd 1: k2tog around\nRnd 2 and every alternate round: knit\nRnd 3: k2tog around\nRnd 5: k2tog around",
         [(1, 24), (2, 24), (3, 12), (4, 12), (5, 6)]),
        ("Rnd 1: k2tog around\nRnds 2, 4 and 5: knit\nRnd 3: k2tog around",
         [(1, 24), (2, 24), (3, 12), (4, 12), (5, 12)]),
        ("Rnds 1-3: knit\nRnd 4: k2tog around", [(1, 48), (2, 48), (3, 48), (4, 24)]),
        ("Rnd 1: k2tog around\nRnd 2: knit\nRnds 3-6: rep rnds 1 and 2",
         [(1, 24), (2, 24), (3, 12), (4, 12), (5, 6), (6, 6)]),
        ("Rnd 1: k2tog around\nRnd 2: knit\nRep rnds 1 and 2 twice more",
         [(1, 24), (2, 24), (3, 12), (4, 12), (5, 6), (6, 6)]),
        ("Rnd 1: k2tog around\nRnd 2: knit\nRep last 2 rnds until 6 sts rem",
         [(1, 24), (2, 24), (3, 12), (4, 12), (5, 6), (6, 6)]),
        ("1st rnd: k2tog around\n2nd rnd: as rnd 1\nNext rnd: knit", [(1, 24), (2, 12), (3, 12)]),
        ("Knit 2 rnds. Purl 1 rnd.\nNext 2 rnds: k2tog around", [(1, 48), (2, 48), (3, 48), (4, 24), (5, 12)]),
        ("Row 1 (RS): k2tog to end\nRow 2 (WS): purl", [(1, 24), (2, 24)]),
        ("R1: k2tog around. R2: knit.", [(1, 24), (2, 24)]),
        ("Rnd 1: knit. Rnd 2: k2tog around.", [(1, 48), (2, 24)]),
        ("Dec rnd: k2tog around (24 sts)\nDec rnd: k2tog around (12 sts)", [(1, 24), (2, 12)]),
        ("**Rnd 1:** k2tog around\n- Rnd 2: knit", [(1, 24), (2, 24)]),
        ("Rnd 1: *k2, k2tog; rep from *\n  to last 4 sts,\n  k4 — 37 sts\nRnd 2: knit", [(1, 37), (2, 37)]),
    ],
)  # fmt: skip
def test_the_order_of_rounds(text: str, expected: list[tuple[int, int]]) -> None:
    """Numbers, ranges, standing rounds and rounds worked again stand in the order a knitter works them."""
    reading = read(text, (48,))

    assert expected == counts(reading)
    assert not [found for found in reading.findings if found.code != "round_missing"]


def test_a_whole_pattern_is_read_around_its_prose() -> None:
    """Headings, materials, abbreviations and prose are no rounds, however much they speak of stitches."""
    text = """Harbour hat for Bexa

Materials
Quillhaven Wether, 100 g / 210 m; 4 mm dpns
k2tog needles are not a thing

Tension
22 sts and 30 rnds to 10 cm in stocking stitch, worked in the round

Abbreviations
k: knit; p: purl
k2tog - knit two together
ssk = slip, slip, knit

To begin
With double-pointed needles, cast on 64 sts and join, being careful not to twist the round.
Work in k1, p1 rib for 3 rnds. Knit 2 rounds.

Crown
Knit the crown loosely, it will be drawn up.
Rnd 1: *k6, k2tog; rep from * around. (56 sts)
Rnd 2: Knit.

Cut the yarn and draw it through. Knit your friend a second hat.
Finished!
"""
    reading = read(text, (64,))

    assert [("abbreviation_not_used", 13)] == [(found.code, found.line) for found in reading.findings]
    assert [(1, 64), (2, 64), (3, 64), (4, 64), (5, 64), (1, 56), (2, 56)] == counts(reading)


def test_a_pattern_as_knitters_pass_them_on() -> None:
    """Capitals here and there, counts in every way, stars closed or not, and a rib worked to a length."""
    text = """MARROW'S BEANIE
Sizes: Baby (Toddler, Child, Adult)
Gauge: 5 sts and 7 rows = 1 inch in St st

With smaller needles, CO 72 (80, 88, 96) sts. Place marker and join in the round.
Rib: *K2, P2; rep from * around. Work in rib as set until piece measures 1.5 (1.5, 2, 2) inches from CO edge.
Change to larger needles. Knit all rounds until hat measures 5 (5.5, 6, 6.5) inches.

Shape Crown:
Rnd 1: *K7 (8, 9, 10), k2tog* repeat around. [64 (72, 80, 88) sts]
Rnd 2 (and all even rnds): K all sts.
Rnd 3: *K6 (7, 8, 9), K2tog; rep from * to end of rnd. 56 (64, 72, 80) sts rem.
Rnd 5: * K 5 (6, 7, 8), k2tog * around; 48 (56, 64, 72) sts
Work 1 round even.
Rnd 7: (K4 (5, 6, 7), k2tog) 8 times = 40 (48, 56, 64) sts
Rnd 8: [k3 (4, 5, 6), K2tog] eight times -- 32 (40, 48, 56) stitches.
Rnd 9: *k2 (3, 4, 5), k2tog, rep from * -- 24 (32, 40, 48) stitches remaining.
10. *k1 (2, 3, 4), k2tog, repeat from *. 16 (24, 32, 40) sts.
K2, k2tog, repeat to end.
Cut yarn and thread through remaining sts.
"""
    reading = read(text, (72, 80, 88, 96))

    # the rib, told by its name, is worked to a length, and so is the body: two rounds at least
    assert ["to_a_length"] * 2 == [found.code for found in reading.findings]
    smallest, _, _, largest = after_rounds_of_sizes(reading)
    assert [72, 72, 64, 64, 56, 56, 48, 48, 40, 32, 24, 16, 12] == smallest
    assert [96, 96, 88, 88, 80, 80, 72, 72, 64, 56, 48, 40, 30] == largest


def test_rounds_left_to_the_knitter_are_worked_out() -> None:
    """`Continue in this manner until 8 sts remain` goes on as the crown has begun: a stitch fewer each time."""
    text = """Rnd 1: *k6, k2tog; rep from * around
Continue decreasing in this manner until 8 sts remain.
Next rnd: k2tog around"""
    reading = read(text, (64,))

    assert not reading.findings
    assert [56, 48, 40, 32, 24, 16, 8, 4] == after_each_round(reading)
    assert [1, 2, 2, 2, 2, 2, 2, 3] == [done.line for done in reading.rounds[0]]


def test_work_to_a_length_is_noted() -> None:
    """Rounds worked to a length have no number: one round stands for all, and the count goes on from it."""
    reading = read("*k2, p2; rep from * around until brim measures 5 cm.\nNext rnd: k2tog around", (48,))

    assert [(1, 48), (2, 24)] == counts(reading)
    (note,) = reading.findings
    assert note.code == "to_a_length"
    assert "only your gauge can tell how many rounds it takes" in note.message


def test_repeats_are_executed_without_writing_them_out() -> None:
    """999 x 999 x 999 is arithmetic: here it comes out on a thousand stitches, and nowhere else."""
    assert [("k", 1_000)] == runs_of(only_round("Rnd 1: [[[k1] 10 times] 10 times] 10 times", 1_000).steps)
    (found,) = read("Rnd 1: [[[[k1] 999 times] 999 times] 999 times] 999 times", (1_000,)).findings
    assert ("runs_out", -1_000_000) == (found.code, found.stitches)


def test_stitches_left_over_behind_missing_rounds_are_told_with_those_rounds() -> None:
    """Rounds 5 and 6 are not there, and with them round 7 comes out (common practice)."""
    text = (
        "Rnd 1: *k6, k2tog*. 56 sts\nRnd 2: knit.\nRnd 3: *k5, k2tog*. 48 sts\nRnd 4: knit.\n"
        "Rnd 7: *k3, k2tog*. 32 sts\nRnd 8: knit."
    )
    (over,) = [finding for finding in read(text, (64,), "en").findings if finding.code == "left_over"]
    assert over.message == "Rounds are missing before this: it works 45 of the 48 stitches."
    assert over.edits
