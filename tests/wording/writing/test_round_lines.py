"""The rounds of a pattern, for all sizes together."""

import re
from typing import Any

import pytest
from hypothesis import given, settings

from tests.support.hats import BABIES, hat_requests, hats
from tests.support.patterns import lines


def test_a_line_alike_in_all_sizes_is_written_once_with_the_counts_in_brackets() -> None:
    """The first crown round by repeats of four is the same in all sizes."""
    crown = lines(hats(sizes=BABIES)["pattern"], "CROWN")
    assert crown[0] == "Rnd 1: *k2, k2tog; rep from * around — 39 (42, 48, 51) sts"


def test_smaller_sizes_join_in_where_the_crown_is_alike() -> None:
    """Eight wedges on 64 and on 96 stitches: the larger begins eight rounds earlier, and the end is written once."""
    crown = lines(_wedges_on_64_and_96()["pattern"], "CROWN")

    joins = crown.index("  Size 1: begin here.")
    assert crown[joins + 1] == "Rnd 9: *k6, k2tog; rep from * around — 56 sts"
    assert all("(size 2 only)" in line for line in crown[:joins])
    assert not any("only" in line for line in crown[joins:])


def test_a_size_that_ends_earlier_goes_on_to_the_finishing() -> None:
    """Where crowns are alike from the start the smaller is sent to the finishing."""
    sizes = [{"head": {"value": cm, "unit": "cm"}} for cm in (35, 56)]
    crown = "\n".join(lines(hats(sizes=sizes, crown={"style": "gathered"})["pattern"], "CROWN"))

    assert "Size 1: the crown is done, " in crown
    assert "Go on to Finishing." in crown


@settings(max_examples=40)
@given(hat_requests())
def test_a_round_has_the_number_that_the_pattern_prints(request: dict[str, Any]) -> None:
    """What an app shows of a round, and what a knitter reads of it, is one number, in every size."""
    answer = hats(**request)
    crown = lines(answer["pattern"], "CROWN")
    printed = [found for line in crown if (found := re.match(r"Rnds? (\d+)(?:-(\d+))?", line))]
    for size, plan in enumerate(answer["sizes"], start=1):
        for round in plan["crown"]["rounds"]:
            of_number = [
                found.string
                for found in printed
                if int(found[1]) <= round["number"] <= int(found[2] or found[1])
            ]
            (line,) = [line for line in of_number if _is_for(line, size)]
            counts = [int(number) for number in re.findall(r"\d+", line.rpartition("—")[2])]
            assert round["after"] in counts


def _is_for(line: str, size: int) -> bool:
    """Whether a line is for a size: for all, where it names none."""
    only = re.search(r"\(sizes? ([\d, and]+) only\)", line)
    return only is None or str(size) in re.findall(r"\d+", only[1])


def test_crowns_are_numbered_in_the_way_that_takes_fewer_lines() -> None:
    """Wedges join in, since their ends are alike; gathered crowns begin together."""
    firsts = [size["crown"]["rounds"][0]["number"] for size in _wedges_on_64_and_96()["sizes"]]
    sizes = [{"head": {"value": cm, "unit": "cm"}} for cm in (35, 56)]
    gathered = hats(sizes=sizes, crown={"style": "gathered"})["sizes"]

    assert [9, 1] == firsts
    assert [1, 1] == [size["crown"]["rounds"][0]["number"] for size in gathered]


def test_equal_plain_rounds_of_a_crown_are_one_line() -> None:
    """A crown with three plain rounds between decreases has them in one line, with their numbers."""
    request = {"style": "wedge", "sections": 8, "cadence": {"plain_rounds": 3}}
    crown = lines(hats(sizes=BABIES[:1], crown=request)["pattern"], "CROWN")

    assert crown[1].startswith("Rnds 2-4: knit — ")
    assert crown[2].startswith("Rnd 5: ")


def _wedges_on_64_and_96() -> dict[str, Any]:
    return hats(
        gauge={"stitches": 20, "rows": 28},
        sizes=[{"head": {"value": cm, "unit": "cm"}} for cm in (35.5, 53)],
        crown={"style": "wedge", "sections": 8},
    )


def test_a_beginner_reads_sentences() -> None:
    """Each abbreviation spelled out, one action a sentence, the count to check at the end."""
    pattern = hats(sizes=BABIES, wording="beginner", needles=3)["pattern"]
    crown = lines(pattern, "CROWN")
    assert crown[1] == (
        "Round 1: * Knit 2 stitches. Knit two together. Repeat from * to the end of the round. "
        "You have 39 (42, 48, 51) stitches."
    )
    assert not re.search(r"\bk\d|k2tog|\bsts?\b|\brnds?\b", "\n".join(lines(pattern, "CROWN")))


def test_garter_is_written_as_two_rounds_and_their_repeat() -> None:
    """`Rnds 3-6: rep rnds 1 and 2` (common practice)."""
    brim = lines(hats(sizes=[{"age_months": 12}], brim={"kind": "garter"})["pattern"], "BRIM")
    assert brim[0].startswith("Rnd 1: knit — ")
    assert brim[1].startswith("Rnd 2: purl — ")
    assert re.match(r"Rnds 3-\d+: rep rnds 1 and 2 — \d+ sts", brim[2])


@pytest.mark.parametrize("style", ["wedge", "square", "dome"])
def test_a_beginner_reads_how_a_stitch_is_worked_where_it_first_comes(style: str) -> None:
    """All that are used, each of them once, before the first round that has it; a knitter has abbreviations instead."""
    request = {
        "sizes": BABIES,
        "crown": {"style": style},
        "brim": {"kind": "ribbed"},
        "body": {"fullness": 25},
    }
    pattern = hats(**request, wording="beginner")["pattern"]
    how = {
        name: pattern.index(f"\n  {name}: ")
        for name in ("Knit", "Purl", "Knit two together", "Knit into the front and back")
        if f"\n  {name}: " in pattern
    }
    assert {"Knit", "Purl"} < set(how)
    assert all(pattern.count(f"\n  {name}: ") == 1 for name in how)
    begins = {name: pattern.index(f"\n{name}\n") for name in ("BRIM", "BODY", "CROWN")}
    assert (
        begins["BRIM"]
        < how["Knit"]
        < how["Purl"]
        < pattern.index("Knit 1 stitch. Purl 1 stitch.")
        < begins["BODY"]
    )
    if style != "square":
        place = how["Knit two together"]
        assert begins["CROWN"] < place < pattern.index("Knit two together.", begins["CROWN"])
    assert "\n  Knit: " not in hats(**request)["pattern"]


def test_a_stitch_that_comes_first_in_one_size_is_told_to_every_size() -> None:
    """The largest size begins its crown first, and who knits another does not read its lines alone."""
    request = {
        "sizes": [{"age_months": 6}, {"adult": "man"}],
        "crown": {"style": "wedge"},
        "wording": "beginner",
    }
    both, alone = hats(**request)["pattern"], hats(**request, only_size=2)["pattern"]
    (line_of_both,) = [line for line in both.splitlines() if line.startswith("  Knit two together: ")]
    (line_of_alone,) = [line for line in alone.splitlines() if line.startswith("  Knit two together: ")]

    assert f"{line_of_alone} Every size needs this, sooner or later." == line_of_both


def test_what_all_sizes_begin_in_the_same_round_needs_no_word_of_every_size() -> None:
    """The first round of a gathered crown has a line for a size each, below what is said of both."""
    request = {"gauge": {"stitches": 20, "rows": 28}, "crown": {"style": "gathered"}, "wording": "beginner"}
    crown = lines(hats(sizes=[{"age_months": 1}, {"age_months": 6}], **request)["pattern"], "CROWN")
    first = next(number for number, line in enumerate(crown) if line.startswith("Round 1 (size 1 only)"))

    assert crown[first + 1].startswith("Round 1 (size 2 only)")
    assert crown[first - 1].startswith("  Knit two together: ")
    assert not [line for line in crown if "Every size needs this" in line]


def test_a_turned_up_brim_hides_the_end_of_the_cast_on() -> None:
    """The inside of a turn-up faces outwards, so the end is woven in on its other side (common practice)."""
    folded = hats(sizes=BABIES[:1], brim={"kind": "folded"})["pattern"]

    assert "Weave in the end of the cast-on on the side that the fold hides" in folded
    assert "side that the fold hides" not in hats(sizes=BABIES[:1])["pattern"]


def test_yarn_carried_behind_a_turned_up_rib_shows() -> None:
    """A rib of two colours that is folded has its floats outside: the answer says so."""
    colours = {"body": [{"colour": "red"}], "brim": [{"colour": "red"}], "brim_purl": "white"}
    answers = {
        kind: hats(sizes=BABIES[:1], brim={"kind": kind}, colours=colours) for kind in ("folded", "ribbed")
    }

    assert "floats_show" in [warning["code"] for warning in answers["folded"]["warnings"]]
    assert "floats_show" not in [warning["code"] for warning in answers["ribbed"]["warnings"]]


@pytest.mark.parametrize("style", ["dome", "cone", "swirl", "square", "gathered", "quick"])
@pytest.mark.parametrize("wording", ["pattern", "beginner"])
def test_how_the_marker_comes_off_is_told_once(style: str, wording: str) -> None:
    """Common practice: a note on every such round. Sizes that come to one later read it where the first does.

    It stands above the round it is about and below another, so it says which of them is meant.
    """
    sizes = [{"age_months": 1}, {"age_months": 9}, {"age_months": 24}, {"adult": "woman"}]
    written = hats(sizes=sizes, crown={"style": style}, needles=4, wording=wording)
    notes = [line for line in lines(written["pattern"], "CROWN") if "marker" in line]

    advice = [note.partition(". ")[2] for note in notes]
    assert len({text[:30] for text in advice}) == len(notes)
    assert all(
        re.match(r"  (Sizes? [^:]+ only: f|F)rom the next round on, mind the marker\. ", note)
        for note in notes
    )
    assert all(text.startswith("The first decrease") for text in advice)
    assert all("takes the first t" in note for note in notes)


def test_a_note_on_the_marker_is_for_sizes_that_come_to_it_later() -> None:
    """The man's dome is closed rounds after the baby's; a size alone needs no word of others."""
    sizes = [{"age_months": 6}, {"adult": "man"}]
    together = lines(hats(sizes=sizes, crown={"style": "dome"}, needles=4)["pattern"], "CROWN")
    (note,) = [line for line in together if "marker" in line]
    assert note.endswith("Every size needs this, sooner or later.")
    alone = hats(sizes=sizes[:1], crown={"style": "dome"}, needles=4)["pattern"]
    assert "Every size needs this" not in alone


def test_the_rounds_of_the_brim_are_counted_from_the_join() -> None:
    """The first is worked with the join: eight are in all, not eight more. The body goes on with the next rounds."""
    rib = {"kind": "ribbed", "rib": {"knit": 2, "purl": 2}, "length": {"value": 3, "unit": "cm"}}
    pattern = hats(sizes=[{"adult": "woman"}], gauge={"stitches": 20, "rows": 28}, brim=rib, needles=4)[
        "pattern"
    ]
    assert "It is counted with the brim." in pattern
    (line,) = lines(pattern, "BRIM")
    assert line.startswith("Rnds 1-8: *k2, p2; rep from * around")
    assert lines(pattern, "BODY")[0].startswith("Next ")


def test_the_last_round_says_nothing_of_needles_to_work_on_with() -> None:
    """Where a crown is done, a needle that is empty needs no word."""
    crown = hats(sizes=BABIES, crown={"style": "gathered"}, needles=4)["sizes"][0]["crown"]["rounds"]

    assert not any("empty after" in note for note in crown[-1]["notes"])


@pytest.mark.parametrize(("terms", "word", "other"), [("us", "color", "colour"), ("uk", "colour", "color")])
def test_a_colour_is_spelt_in_one_way(terms: str, word: str, other: str) -> None:
    """US and UK dictionaries: a pattern and its warnings have one spelling."""
    colours = {"body": [{"colour": "red"}], "brim": [{"colour": "red"}], "brim_purl": "white"}
    pattern = hats(sizes=BABIES[:1], brim={"kind": "folded"}, colours=colours, terms=terms)["pattern"].lower()
    assert word in pattern
    assert not re.search(rf"\b{other}s?\b", pattern)


def test_a_note_on_the_marker_names_its_sizes_where_another_needs_none() -> None:
    """Of 8 stitches two are knitted together at the marker, of 12 three: worked by hand."""
    request = {
        "gauge": {"stitches": 20, "rows": 28},
        "sizes": [{"gestation_weeks": 30}, {"gestation_weeks": 40}],
        "brim": {"kind": "rolled"},
        "crown": {"style": "square"},
        "needles": {"magic_loop": {"value": 80, "unit": "cm"}},
        "finish": {"kind": "cord"},
        "wording": "beginner",
    }
    first, second = [line for line in lines(hats(**request)["pattern"], "CROWN") if "mind the marker" in line]

    assert first.startswith(
        "  Size 1 only: from the next round on, mind the marker. The first decrease takes the first two"
    )
    assert second.startswith("  Size 2 only: from the next round on, mind the marker.")
