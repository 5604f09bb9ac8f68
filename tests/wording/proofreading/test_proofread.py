"""What is found in a pattern: where, what, by how many stitches, and a repair that comes out."""

import msgspec
import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from roundwright.knitting.rounds.notation import written_line
from roundwright.knitting.rounds.round import LONGEST_TEXT, MOST_ROUNDS, execute
from roundwright.knitting.rounds.work_round import chained
from roundwright.wording.proofreading.findings import MOST_FINDINGS, Finding
from roundwright.wording.proofreading.proofread import ProofreadAnswer, ProofreadRequest, proofread
from tests.support.steps import steps


def ask(text: str, *cast_on: int) -> ProofreadAnswer:
    """The answer as it goes over the wire, held to its own description."""
    request = msgspec.json.decode(
        msgspec.json.encode({"cast_on": cast_on, "text": text}), type=ProofreadRequest
    )
    return msgspec.json.decode(msgspec.json.encode(proofread(request), enc_hook=str), type=ProofreadAnswer)


def found(text: str, *cast_on: int) -> Finding:
    """The one finding of a text."""
    (only,) = ask(text, *cast_on).findings
    return only


def codes(answer: ProofreadAnswer) -> list[str]:
    return [finding.code for finding in answer.findings]


def errors(answer: ProofreadAnswer) -> list[Finding]:
    """What is called wrong."""
    return [finding for finding in answer.findings if finding.severity == "error"]


def mended(text: str, answer: ProofreadAnswer) -> str:
    """The text with every repair pasted over its line."""
    lines = text.split("\n")
    for finding in answer.findings:
        if finding.repair:
            lines[finding.line - 1] = finding.repair
    return "\n".join(lines)


def test_nothing_is_found_in_a_pattern_that_comes_out() -> None:
    """A crown that chains has its rounds, and no findings."""
    answer = ask("Rnd 1: *k6, k2tog; rep from * around — 56 sts\nRnd 2: knit", 64)

    assert () == answer.findings
    assert answer.rounds[0] == chained(answer.rounds[0])


def test_a_finding_points_at_its_place() -> None:
    """Line and column count from 1, also where a round runs over two lines."""
    finding = found("Crown\n\nRnd 1: *k6, k2tog; rep from *\n  around — 57 sts", 64)
    assert (4, 12) == (finding.line, finding.column)
    finding, nearest = ask("Rnd 1: *k3, k2tog; rep from * around", 54).findings
    assert (1, "not_a_multiple") == (nearest.line, nearest.code)
    assert "around" == "Rnd 1: *k3, k2tog; rep from * around"[finding.column - 1 :]
    finding = found("Rnd 1: k10, k2tog 3 times, p2", 14)
    assert "k2tog 3 times, p2" == "Rnd 1: k10, k2tog 3 times, p2"[finding.column - 1 :]


def test_one_repair_for_all_sizes() -> None:
    """A line that is wrong in two sizes of three gets one line that comes out in all of them."""
    text = "Cast on 48 (57, 66) sts\nRnd 1: *k4, k2tog; rep from * around"
    answer = ask(text, 48, 57, 66)

    assert [("not_a_multiple", 2, None), ("left_over", 2, 3)] == [
        (finding.code, finding.size, finding.stitches) for finding in answer.findings
    ]
    assert () == ask(mended(text, answer), 48, 57, 66).findings


def test_a_repair_keeps_the_numbers_of_the_other_sizes() -> None:
    """Only the number that is wrong changes: `k4 (5, 7)` to `k4 (5, 6)`."""
    finding = found("Rnd 1: *k4 (5, 7), k2tog; rep from * around — 40 (48, 56) sts", 48, 56, 64)

    assert ("left_over", 3, 1) == (finding.code, finding.size, finding.stitches)
    assert "Rnd 1: *k4 (5, 6), k2tog; rep from * around — 40 (48, 56) sts" == finding.repair


def test_reading_goes_on_after_an_error() -> None:
    """Later rounds are judged by themselves: one fault is one finding."""
    text = """Rnd 1: *k7, k2tog; rep from * around — 64 sts
Rnd 2: *k6, blobble; rep from * around — 56 sts
Rnd 3: *k5, k2tog; rep from * around — 49 sts
Rnd 4: k2, ] p3
Rnd 5: *k4, k2tog; rep from * around — 40 sts"""
    answer = ask(text, 72)

    assert ["unknown_word", "count_differs", "bracket"] == codes(answer)
    assert [1, 3, 5] == [done.number for done in answer.rounds[0]]
    assert "Rnd 3: *k5, k2tog; rep from * around — 48 sts" == answer.findings[1].repair


@pytest.mark.parametrize(
    ("written", "meant"),
    [("k2tgo", "k2tog"), ("skk", "ssk"), ("m1ll", "m1l"), ("s2kpp", "s2kp"), ("kbf", "kfb")],
)
def test_unknown_words_are_met_with_the_nearest_known_one(written: str, meant: str) -> None:
    """A slip of the pen is pointed at with the word that looks most like it."""
    finding = found(f"Rnd 1: k2, {written}, p2", 20)

    assert ("unknown_word", 12) == (finding.code, finding.column)
    assert f"“{written}”" in finding.message
    assert f"“{meant}”" in finding.message


def test_an_unknown_word_is_repaired_where_the_nearest_makes_the_round_come_out() -> None:
    """56 stitches in fours leave 42: `k2tgo` can only be k2tog."""
    finding = found("Rnd 1: *k2, k2tgo; rep from * around — 42 sts", 56)

    assert "Rnd 1: *k2, k2tog; rep from * around — 42 sts" == finding.repair


@pytest.mark.parametrize(
    ("written", "meant"),
    [("k2 togehter", "k2 together"), ("k2 tgo", "k2 tog"), ("knit 2 togethr", "knit 2 together")],
)
def test_together_misspelt_is_no_prose(written: str, meant: str) -> None:
    """A decrease whose last word is misspelt is not read as plain stitches: 64 in eights leave 56."""
    finding = found(f"Rnd 1: *k6, {written}; rep from * (56 sts)", 64)

    assert "unknown_word" == finding.code
    assert f"Rnd 1: *k6, {meant}; rep from * (56 sts)" == finding.repair


@pytest.mark.parametrize("word", ["zb3", "qz12"])
def test_an_unknown_word_with_a_number_at_it_is_no_prose(word: str) -> None:
    """`k4, zb3` is not `k4`: nobody knows how many stitches it works."""
    finding = found(f"Rnd 1: *k4, {word}; rep from * around", 64)

    assert "unknown_word" == finding.code
    assert f"“{word}”" in finding.message


@pytest.mark.parametrize(
    "line",
    [
        "[k4, tw2] to end",
        "[tw2, k4] to end",
        "*tw2, k4; rep from * around",
        "*k4, twisty; rep from *",
        "(k4, twisty) 12 times",
        "*k4, 1 twisty; rep from *",
    ],
)
def test_a_stitch_nobody_knows_is_not_counted_as_none(line: str) -> None:
    """What is not known is the only finding: no stitches beside it are left over, and nothing is taken out for it."""
    answer = proofread(ProofreadRequest(cast_on=(72,), text=f"Rnd 1: {line}."))

    assert ["unknown_word"] == codes(answer)
    assert answer.repaired is None


@pytest.mark.parametrize(
    ("line", "stitches", "uses"),
    [
        ("[K5, popcorn] rpt to end", 72, "uses 1 stitch and leaves 1"),  # 12 x 6
        ("*k4, tw2; rep from * around", 72, "uses 2 stitches and leaves 2"),  # 12 x 6
    ],
)
def test_the_stitches_of_an_unknown_stitch_are_told_where_the_round_comes_out(
    line: str, stitches: int, uses: str
) -> None:
    """With how many stitches the round comes out is reckoned, and left to the knitter to know."""
    assert uses in found(f"Rnd 1: {line}.", stitches).message


@pytest.mark.parametrize(
    "line", ["[K5, MB] rpt to end", "*MB, k5; rep from * to end", "k3, [mb, k5] to last 3 sts, MB, k2"]
)
@pytest.mark.parametrize(
    "explained",
    ["", "MB: make bobble: (k1, yo, k1, yo, k1) in same st, turn, p5, turn, k5, pass 4 sts over.\n"],
)
def test_a_bobble_uses_a_stitch_and_leaves_it(line: str, explained: str) -> None:
    """Common practice: what is made of the stitch is worked off again before the next."""
    answer = proofread(ProofreadRequest(cast_on=(72, 84), text=f"{explained}CO 72 [84] sts.\nRND 1: {line}"))

    assert [] == codes(answer)
    assert [[72], [84]] == [[round.after for round in rounds] for rounds in answer.rounds]


@pytest.mark.parametrize(
    ("before", "wrong"), [("Knit 3 rounds.", ["not_understood"]), ("Work 5 cm in rib.", [])]
)
def test_a_purl_stitch_is_worked_to_where_there_is_one(before: str, wrong: list[str]) -> None:
    """Plain knitting has no purl stitch; a knitter could not know where to stop."""
    text = f"Cast on 80 sts and join.\n{before}\nNext rnd: k to next purl st, p1, k to end."
    answer = proofread(ProofreadRequest(cast_on=(80,), text=text))

    assert [finding.code for finding in answer.findings if finding.severity == "error"] == wrong


@pytest.mark.parametrize("explained", ["", "MB3 = (k1, yo, k1) in next st, turn, p3, turn, k3tog.\n"])
def test_a_bobble_with_a_number_is_a_bobble(explained: str) -> None:
    """The number tells it from the other bobbles of a pattern: it is no count, and says not how often."""
    answer = proofread(
        ProofreadRequest(cast_on=(72,), text=f"{explained}Rnd 1: k3, MB3, k68.\nRnd 2: *MB2, k2*")
    )

    assert [] == codes(answer)
    assert [[72, 72]] == [[round.after for round in rounds] for rounds in answer.rounds]


@pytest.mark.parametrize(
    ("text", "stitches", "counts", "after", "clear"),
    [
        # `3 times` is printed for 3 and for 4 times in all (common practice).
        ("Rnd 1: *k2, k2tog, k3; rep from * 3 times", 28, ("uses 28 and leaves 24", "uses 21 and leaves 18"), 24,
         "Rnd 1: *k2, k2tog, k3; rep from * 3 more times"),
        ("Rnd 1: *k2, k2tog, k3; rep from * 3 times", 21, ("uses 28 and leaves 24", "uses 21 and leaves 18"), 18,
         "Rnd 1: *k2, k2tog, k3; rep from * 3 times in all"),
        # the last stitch is repeated, or all of it
        ("Rnd 1: k2, k2tog 4 times", 16, ("uses 10 and leaves 6", "uses 16 and leaves 12"), 12,
         "Rnd 1: [k2, k2tog] 4 times"),
        ("Rnd 1: k2, k2tog 4 times", 10, ("uses 10 and leaves 6", "uses 16 and leaves 12"), 6,
         "Rnd 1: k2, [k2tog] 4 times"),
    ],
)  # fmt: skip
def test_a_round_that_can_be_read_in_two_ways_is_said_to_be(
    text: str, stitches: int, counts: tuple[str, str], after: int, clear: str | None
) -> None:
    """Both counts are told, the reading that comes out is taken, and words without doubt are offered."""
    answer = ask(text, stitches)
    (finding,) = answer.findings

    assert ("ambiguous", "note") == (finding.code, finding.severity)
    assert all(count in finding.message for count in counts)
    assert [after] == [done.after for done in answer.rounds[0]]
    assert clear == finding.repair
    if clear:
        assert () == ask(clear, stitches).findings


def test_one_size_of_several_is_found_by_what_comes_out() -> None:
    """Where nothing says which of the sizes is asked for, the one that comes out is taken, and told."""
    finding = found("Rnd 1: *k5 (6), k2tog; rep from * around", 64)

    assert ("ambiguous", "note", 10) == (finding.code, finding.severity, finding.column)
    assert "size 2" in finding.message


def test_a_round_that_comes_out_in_neither_way_is_wrong() -> None:
    """30 stitches are neither 28 nor 21."""
    answer = ask("Rnd 1: *k2, k2tog, k3; rep from * 3 times", 30)

    assert [("left_over", 2)] == [(wrong.code, wrong.stitches) for wrong in errors(answer)]


@pytest.mark.parametrize(
    ("text", "cast_on", "expected"),
    [
        ("Cast on 60 sts\nRnd 1: knit", (64,), [("cast_on_differs", 1, 9, -4)]),
        ("Cast on 60 (64) sts\nRnd 1: knit", (50, 60, 70), [("sizes_differ", 1, 9, None)]),
        ("Rnd 1: k4 (5, 6), k to end", (20, 30), [("sizes_differ", 1, 9, None)]),
        ("Rnd 1: knit\nRnd 4: knit", (20,), [("round_missing", 2, 1, None)]),
        ("Rnd 1: knit\nRnd 2: knit\nRnd 2: knit", (20,), [("round_twice", 3, 1, None)]),
        ("Rnd 1: knit\nRnds 2-5: rep rnds 7 and 8", (20,), [("no_such_round", 2, 11, None)]),
        ("Rnd 1: k2, rep from * around", (20,), [("no_star", 1, 12, None)]),
        ("Rnd 1: *yo; rep from * around", (20,), [("never_ends", 1, 9, None)]),
        ("Rnd 1: k2tog around\nRep last rnd until 12 sts rem", (40,), [("never_ends", 2, 20, None)]),
        ("Rnd 1: [k2, p2", (20,), [("bracket", 1, 8, None)]),
        ("Rnd 1: k2, p2)", (20,), [("bracket", 1, 14, None)]),
        ("Rnd 1: " + "[" * 20 + "k1" + "]" * 20, (1,), [("too_deep", 1, 20, None)]),
        # a sign that is none of knitting is passed over, as a pasted text has such; the stitches judge the rest
        ("Rnd 1: k2, % p2", (20,), []),
        ("Rnd 1:", (20,), [("not_understood", 1, 1, None)]),
        ("A scarf, knitted flat.", (20,), [("no_rounds", 1, 1, None)]),
        ("", (20,), [("no_rounds", 1, 1, None)]),
        ("Rnds 1-401: knit", (20,), [("too_many_rounds", 1, 1, None)]),
        ("Rnd 1: [m1] 1000000 times, k1", (1,), [("too_many_stitches", 1, 8, None)]),
    ],
)  # fmt: skip
def test_what_else_is_found(
    text: str, cast_on: tuple[int, ...], expected: list[tuple[str, int, int, int | None]]
) -> None:
    """Each kind of fault has its code, and points at where it is."""
    assert expected == [
        (finding.code, finding.line, finding.column, finding.stitches)
        for finding in ask(text, *cast_on).findings
    ]
    assert not [finding for finding in ask(text, *cast_on).findings if finding.message == finding.code], (
        "a sentence, not a code"
    )


# --- repairs come out ----------------------------------------------------------------------------------------------


@settings(max_examples=150)
@given(steps, st.integers(-3, 3), st.integers(-3, 3))
def test_every_repair_comes_out(steps: tuple[object, ...], off: int, miscount: int) -> None:
    """Whatever is wrong with a round, a repair that is offered is a line that comes out on the stitches there are."""
    used, left = execute(steps)  # type: ignore[arg-type]
    assume(used + off > 0 and left + miscount >= 0)
    answer = ask(f"Rnd 1: {written_line(steps)} — {left + miscount} sts", used + off)  # type: ignore[arg-type]

    for finding in errors(answer):
        if finding.repair:
            again = ask(finding.repair, used + off)
            assert not errors(again), finding.repair
            assert 1 == len(again.rounds[0])


@settings(max_examples=100)
@given(
    st.integers(2, 9),
    st.integers(4, 12),
    st.lists(st.integers(-2, 2), min_size=1, max_size=12),
    st.booleans(),
)
def test_a_wrong_number_in_some_sizes_is_repaired_in_all(
    plain: int, repeats: int, off: list[int], counted: bool
) -> None:
    """One number misprinted for some sizes of a usual crown round: one line to paste, and it comes out for all."""
    sizes = len(off)
    right = [plain + size for size in range(sizes)]
    cast_on = [repeats * (number + 2) for number in right]
    wrong = [number + by for number, by in zip(right, off, strict=True)]
    assume(all(number > 0 for number in wrong) and any(off))
    printed = across(wrong)
    count = f" — {across([repeats * (number + 1) for number in right])} sts" if counted else ""
    text = f"Rnd 1: *k{printed}, k2tog; rep from * around{count}"
    answer = ask(text, *cast_on)

    if errors(answer):
        again = ask(mended(text, answer), *cast_on)
        assert not errors(again), mended(text, answer)


def across(numbers: list[int]) -> str:
    """The numbers as patterns print them."""
    return str(numbers[0]) if len(set(numbers)) == 1 else f"{numbers[0]} ({', '.join(map(str, numbers[1:]))})"


# --- any text is answered ------------------------------------------------------------------------------------------

WORDS = [
    "k", "p", "k2", "p2", "k2tog", "ssk", "m1", "yo", "sl1", "psso", "knit", "purl", "knit two together", "make one",
    "*", "**", "(", ")", "[", "]", ",", ";", ".", ":", "—", "-", "rep", "repeat from *", "rep from", "to", "to last",
    "last", "2 sts", "st", "sts", "around", "to end", "end", "all", "times", "3 times", "twice", "more", "in all",
    "work", "even", "rib", "until", "rem", "measures 5 cm", "for", "4 (5, 6)", "12", "0", "99999999", "(-, 3)",
    "Rnd 1:", "Rnd 2", "Rnds 2-6:", "Rnd 3 and all odd rnds:", "Next rnd:", "Next 3 (4) rnds:", "rnds 1 and 2",
    "last 2 rnds", "rep rnds 1-2", "(size 1 only)", "Sizes 1 and 2 only:", "42 sts", "dec", "8 sts evenly", "and its",
    "first 3 sts again", "Cast on 64 (72) sts", "\n", "\n\n", "\nCrown\n", "Abbreviations\n", "blobble", "½", "é", "*s",
]  # fmt: skip


@settings(max_examples=300)
@given(
    st.one_of(
        st.lists(st.sampled_from(WORDS), max_size=60).map(" ".join),
        st.lists(st.sampled_from(WORDS), max_size=40).map("".join),
        st.text(max_size=200),
    ),
    st.lists(st.integers(1, 200) | st.integers(1, 1_000_000), min_size=1, max_size=12),
)
@example("Rnd 1: (2 (3)", [5])
@example("inc 42 sts", [1_000_000])
@example("Rnd 9500: knit\nKnit 400 rnds", [4])
@example("Rnd 10000: knit\nKnit 400 rnds", [4])
@example("Rnd 1: k1 — 9999999 sts\nRnd 2: knit", [2])
@example("Rnd 1: k1 (8 sts dec)\nRnd 2: knit", [3])
@example("Rnd 1: *k2, kfb; rep from * around\nRnd 2: knit", [1_000_000])
@example("Rnd 1: k2tog, k to end\nRep rnd 1 until 9999999 sts rem\nRnd 3: knit", [9])
def test_any_text_is_answered(text: str, cast_on: list[int]) -> None:
    """No text is refused, and every answer is as described: rounds that can be worked, findings within the text."""
    answer = ask(text, *cast_on)

    assert len(cast_on) == len(answer.rounds)
    for done in (done for rounds in answer.rounds for done in rounds):
        assert (done.before, done.after) == execute(done.steps)
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    assert all(
        finding.line <= len(lines) and finding.column <= len(lines[finding.line - 1]) + 1
        for finding in answer.findings
    )


@pytest.mark.parametrize(
    "line",
    [
        "*k1, p1; rep from * 3 more times, *k2, p2; rep from * to end — 24 sts",
        "*k1, p1* 4 times, *k2, p2* 4 times — 24 sts",
        "*k1, p1* 4 times, *k2, k2tog* 4 times — 20 sts",
        "*k1, p1**, k3, rep from * to **, k3; *k2tog* 7 times — 17 sts",
    ],
)
def test_each_pair_of_stars_is_one_of_its_own(line: str) -> None:
    """Once a repeat has been said to its end, the next star begins another (common practice)."""
    assert () == ask(f"Rnd 1: {line}", 24).findings


@pytest.mark.parametrize(
    "text",
    ["[" * LONGEST_TEXT, "Rnd 1: " + "[k1 " * 16_000, "Rnd 1: " + "* " * 32_000, "1 (1, " * 10_000, "k\n" * 32_000,
     "\n" * LONGEST_TEXT, "Rnd 1: k" + "1" * 60_000, "rep from * " * 5_000, "Rnd 1: " + "a" * 60_000,
     "k. " + "K. " * 20_000 + " rnd", "r1" + " " * 65_000 + "!", "Rnd 1: k " + "once " * 390,
     ". Rnd 1:" * 8_000, "Rnd 1: knit\n" + "Rep rnd 1\n" * 6_000,
     "Rnd 1: k2 (" + "1," * 30_000, "Front: k1 Back: k1 " * 3_000, "Rnds 1, 3, 5: k2 k2tog, then k1 k2tog.\n" * 1_600],
    ids=lambda text: text[:12],
)  # fmt: skip
def test_the_longest_texts_are_answered(text: str) -> None:
    """A text of the longest length, of whatever it is made, is read to its bounds and answered."""
    answer = ask(text[:LONGEST_TEXT], *[48] * 12)

    assert len(answer.findings) <= MOST_FINDINGS
    assert all(len(rounds) <= MOST_ROUNDS for rounds in answer.rounds)
