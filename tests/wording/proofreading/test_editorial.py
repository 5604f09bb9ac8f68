"""What an editor asks about a pattern that can be knitted: one note for each planted slip, none on the clean text."""

import pytest

from roundwright.wording.proofreading.editorial import RULES
from roundwright.wording.proofreading.findings import KINDS
from roundwright.wording.proofreading.proofread import ProofreadRequest, proofread

CLEAN = """HARBOUR CAP

Sizes: Child (Teen, Adult)
Finished circumference: 40 (45, 50) cm
Length: 18 (20, 22) cm / 7 (8, 8.75) in
Gauge: 20 sts and 28 rnds = 10 cm in stockinette
Needles: US 6 (4 mm)

Abbreviations
k: knit; p: purl
k2tog: knit two together
rnd: round

Cast on 80 (90, 100) sts. Join in the round.
Rnd 1: *k1, p1; rep from * around.
Rnd 2: *k1, p1; rep from * around.
Rnd 3: *k1, p1; rep from * around.
Rnd 4: *k1, p1; rep from * around.
Rnd 5: *k1, p1; rep from * around.
Knit 28 rnds (10 cm).

Crown
Rnd 1: *k8, k2tog; rep from * around. 72 (81, 90) sts
Rnd 2: knit.
Rnd 3: *k7, k2tog; rep from * around. 64 (72, 80) sts
Rnd 4: knit.
Rnd 5: *k6, k2tog; rep from * around. 56 (63, 70) sts
Rnd 6: knit.
Rnd 7: *k5, k2tog; rep from * around. 48 (54, 60) sts
Rnd 8: *k4, k2tog; rep from * around. 40 (45, 50) sts
Rnd 9: *k3, k2tog; rep from * around. 32 (36, 40) sts

Cut the yarn, thread through remaining 32 (36, 40) sts. Bind off nothing.
"""

SLIPS = [
    ("closing_count", "thread through remaining 32 (36, 40) sts", "thread through remaining 32 (36, 44) sts", 3),
    ("closing_count", "Bind off nothing.", "Work a 45-st i-cord.", 1),
    ("count_not_printed", "rep from * around. 56 (63, 70) sts", "rep from * around.", None),
    ("rib_shifted", "Rnd 4: *k1, p1;", "Rnd 4: *p1, k1;", None),
    ("list_differs", "Length: 18 (20, 22) cm / 7 (8, 8.75) in", "Length: 18 (20, 22, 24) cm", None),
    ("list_differs", "Sizes: Child (Teen, Adult)", "Sizes: Child (Teen, Adult, Tall)", None),
    ("sizes_not_growing", "Length: 18 (20, 22) cm / 7 (8, 8.75) in", "Length: 18 (22, 20) cm", None),
    ("girth_differs", "Finished circumference: 40 (45, 50) cm", "Finished circumference: 40 (45, 58) cm", 3),
    ("length_differs", "Knit 28 rnds (10 cm).", "Knit 28 rnds (14 cm).", None),
    ("units_differ", "/ 7 (8, 8.75) in", "/ 7 (8, 10) in", None),
    ("needle_differs", "US 6 (4 mm)", "US 8 (4 mm)", None),
    ("split_differs", "Join in the round.", "Join in the round, 16 (18, 21) sts on each of 5 needles.", 3),
    ("abbreviation_not_explained", "k2tog: knit two together\n", "ssk: slip, slip, knit\n", None),
    ("abbreviation_not_used", "rnd: round", "rnd: round; ssk: slip, slip, knit", None),
    ("terms_mixed", "Bind off nothing.", "Bind off nothing, cast off nothing.", None),
    ("flat_words", "Rnd 6: knit.", "Row 6: knit.", None),
    ("flat_words", "Bind off nothing.", "Sew the seam.", None),
]  # fmt: skip


def found(text: str) -> list[tuple[str, str, int | None]]:
    """Code, severity and size of everything found."""
    answer = proofread(ProofreadRequest(cast_on=(80, 90, 100), text=text))
    return [(finding.code, finding.severity, finding.size) for finding in answer.findings]


def test_a_clean_pattern_has_no_notes() -> None:
    """The pattern before anything is planted."""
    assert [] == found(CLEAN)


@pytest.mark.parametrize(("code", "right", "slip", "size"), SLIPS)
def test_each_slip_has_its_note(code: str, right: str, slip: str, size: int | None) -> None:
    """One slip, and the note that names it; nothing is called wrong for it."""
    assert right in CLEAN
    noted = found(CLEAN.replace(right, slip, 1))

    assert (code, "note", size) in noted
    assert {"note"} == {severity for _, severity, _ in noted}


def test_the_slips_are_told_together() -> None:
    """Slips that can stand side by side in one text are all told."""
    text = CLEAN
    planted = set()
    for code, right, slip, _ in SLIPS:
        if code not in planted and right in text and "k2tog: knit" not in right:
            text = text.replace(right, slip, 1)
            planted.add(code)

    assert planted <= {code for code, _, _ in found(text)}
    assert 9 <= len(planted)


def test_a_decrease_round_unlike_its_neighbours_is_asked_about() -> None:
    """Eight stitches go in every round, and once four."""
    text = """Rnd 1: *k8, k2tog; rep from * around. 72 sts
Rnd 2: *k7, k2tog; rep from * around. 64 sts
Rnd 3: [k14, k2tog] 4 times. 60 sts
Rnd 4: [k6, k2tog, k5, k2tog] 4 times. 52 sts
Rnd 5: [k5, k2tog, k4, k2tog] 4 times. 44 sts"""

    (note,) = proofread(ProofreadRequest(cast_on=(80,), text=text)).findings

    assert ("rhythm_broken", 3) == (note.code, note.line)


@pytest.mark.parametrize(("cast_on", "nearest"), [(70, 72), (75, 76)])
def test_a_cast_on_that_is_no_multiple_of_the_rib_is_told_the_nearest(cast_on: int, nearest: int) -> None:
    """A rib of two and two needs fours."""
    text = f"Cast on {cast_on} sts.\nRnd 1: *k2, p2; rep from * around.\nRnd 2: *k2, p2; rep from * around."
    (note,) = [
        finding
        for finding in proofread(ProofreadRequest(cast_on=(cast_on,), text=text)).findings
        if finding.code == "not_a_multiple"
    ]

    assert (1, 9) == (note.line, note.column)
    assert f"{nearest} is the nearest" in note.message


@pytest.mark.parametrize(
    ("cast_on", "crown", "crown_note"),
    [
        (66, "*k9, k2tog; rep from * around. 60 sts", "The crown is in 6 sections: 60 or 72 is the nearest"),
        (90, "[k16, k2tog] 5 times. 85 sts", "The crown is in 5 sections: 80 or 100 is the nearest"),
        (74, "*k35, k2tog; rep from * around. 72 sts", None),
    ],
)
def test_a_cast_on_for_the_rib_suits_the_crown_too(cast_on: int, crown: str, crown_note: str | None) -> None:
    """Fours of the rib and six sections need twelves, and five need twenties; fours suit two sections (arithmetic)."""
    text = f"Cast on {cast_on} sts.\nRnds 1-6: *k2, p2; rep from * around.\nRnd 7: knit.\nRnd 8: {crown}"
    (note,) = [
        finding
        for finding in proofread(ProofreadRequest(cast_on=(cast_on,), text=text)).findings
        if finding.code == "not_a_multiple"
    ]

    assert (crown_note is None) == ("The crown" not in note.message)
    assert crown_note is None or crown_note in note.message


@pytest.mark.parametrize(
    ("crown", "nearest"),
    [
        (
            "*k6, k2tog; rep from * around. 84 sts",
            "96 is the nearest on which the other rounds come out, too.",
        ),
        ("[k9, k2tog] 8 times. 80 sts", "88 is the nearest that is."),
        (
            "*k8, k2tog; rep from * around. 81 sts",
            "The crown is in 9 sections, and no count for this size suits both",
        ),
    ],
)
def test_the_multiple_named_breaks_no_other_round(crown: str, nearest: str) -> None:
    """90 beside fours: 96 leaves 84 by eighths, 88 is 8 elevenths, and 72 and 108 are hats of another size."""
    text = f"Cast on 90 sts.\nRnds 1-6: *k2, p2; rep from * around.\nRnd 7: knit.\nRnd 8: {crown}"
    (note,) = [
        finding
        for finding in proofread(ProofreadRequest(cast_on=(90,), text=text)).findings
        if finding.code == "not_a_multiple"
    ]

    assert nearest in note.message


def test_every_rule_has_a_slip() -> None:
    """No editorial code without its test, and each of them a note."""
    tested = {code for code, _, _, _ in SLIPS} | {"not_a_multiple", "rhythm_broken"}

    assert tested == (set(RULES) - {"abbreviations"}) | {
        "abbreviation_not_explained",
        "abbreviation_not_used",
    }
    assert {"note"} == {KINDS[code].severity for code in tested}


@pytest.mark.parametrize(
    "measures",
    [
        "20 sts to 10 cm\n18 sts to 10 cm of the brim\nCircumference: brim 44.5 (50, 55.5) cm, body 40 (45, 50) cm",
        "18 sts to 10 cm\n20 sts to 10 cm of the brim\nCircumference: brim 40 (45, 50) cm, body 44.5 (50, 55.5) cm",
        "16 sts to 10 cm\n20 sts to 10 cm of the body\nCircumference: 40 (45, 50) cm",
        (
            "20 sts to 10 cm of the body, 18 sts to 10 cm of the brim\n"
            "Circumference: brim 44.5 (50, 55.5) cm, body 40 (45, 50) cm"
        ),
    ],
)
def test_a_brim_is_as_wide_as_its_own_gauge_makes_it(measures: str) -> None:
    """A part that has a gauge of its own is measured by that."""
    text = f"{measures}\n\nCast on 80 (90, 100) sts. Join in the round.\nRnd 1: knit. 80 (90, 100) sts"
    wrong = text.replace("40 (45, 50)", "40 (45, 70)").replace("44.5 (50, 55.5)", "44.5 (50, 75.5)")

    assert [] == found(text)
    assert ("girth_differs", "note", 3) in found(wrong)


@pytest.mark.parametrize("brackets", ["{}", "[]"])
def test_sizes_in_two_pairs_of_brackets_are_one_list(brackets: str) -> None:
    """Five sizes as some magazines print them: the smallest, two in round brackets, the largest in others."""
    text = "Cast on 72 (80, 88) {96, 104} sts.\nKnit 24 (26, 28) {30, 32} rounds.\nRnd 1: knit."
    text = text.replace("{", brackets[0]).replace("}", brackets[1])
    answer = proofread(ProofreadRequest(cast_on=(72, 80, 88, 96, 104), text=text))

    assert "list_differs" not in [finding.code for finding in answer.findings]
    assert [25, 27, 29, 31, 33] == [len(rounds) for rounds in answer.rounds]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("da", "Str. 0-3 (3-6, 6-12) mdr.\nSlå 80 (88, 96) m op.\nStrik 1 omg ret."),
        ("da", "0/3 (3/6, 6/12) måneder\nSlå 80 (88, 96) m op.\nStrik 1 omg ret."),
        ("nb", "Størrelse: 0–3 (3–6; 6–12) mnd\nLegg opp 80 (88, 96) m.\nStrikk 1 omg r."),
        ("fr", "Tailles : 3 mois (6 mois - 1 an)\nMonter 80 (88, 96) mailles.\nTricoter 1 tour endroit."),
        ("de", "Größe: 2–4 (5–8) Jahre\n80 (88) M anschlagen.\n1 Rd rechts str."),
        ("da", "Str. 2 (4) 8 (voksen) år\nSlå 80 (88) 96 (104) m op.\nStrik 1 omg ret."),
        ("nl", "Maten: 2-4 (5-8) jaar\nZet 80 (88) st op.\nBrei 1 nld recht."),
        ("nb", "Størrelser: barn (dame) herre\nLegg opp 80 (88) 96 m.\nStrikk 1 omg r."),
        ("nb", "Størrelser: (barn) dame (herre)\nLegg opp (80) 88 (96) m.\nStrikk 1 omg r."),
    ],
)
def test_the_ages_of_children_are_a_name_for_each_size(language: str, text: str) -> None:
    """Two ages with a sign between them are those of one size, and a dash may stand between two sizes."""
    cast_on = tuple(count for count in (80, 88, 96, 104) if str(count) in text)
    answer = proofread(ProofreadRequest(cast_on=cast_on, text=text, language=language))

    assert "list_differs" not in [finding.code for finding in answer.findings]


def test_a_note_is_given_once_a_line() -> None:
    text = "Work in st st (every round K) until work measures 12 cm.\nRnd 1: *k8, k2tog; rep from * around. 72 sts"
    answer = proofread(ProofreadRequest(cast_on=(80,), text=text))

    assert ["to_a_length"] == [finding.code for finding in answer.findings]
