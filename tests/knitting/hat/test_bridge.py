"""Bridge: brim and body on counts of their own, and the round that leads from one to the other."""

from itertools import pairwise
from typing import Any

import msgspec
import pytest

from roundwright.knitting.answers import Impossible
from roundwright.knitting.counting import check as counting
from roundwright.knitting.counting.request import CountRequest
from roundwright.knitting.crown.crown import crown_multiple
from roundwright.knitting.crown.request import CrownShape
from roundwright.knitting.crown.styles import STYLES
from roundwright.knitting.hat.bridge import bridging_round
from roundwright.knitting.rounds.round import Repeat
from roundwright.wording.proofreading.read import read
from roundwright.wording.writing.plain_language import PlainLine
from tests.support import by_hand
from tests.support.handouts import handout_of
from tests.support.hats import hats
from tests.support.miscounts import lines_of

RIBS = [(knit, purl) for knit in range(1, 7) for purl in range(1, 7)]
SIZES = [{"gestation_weeks": 30}, {"age_months": 0}, {"age_months": 12}, {"adult": "woman"}, {"adult": "man"}]
WOMAN = [{"adult": "woman"}]


def ribbed(knit: int, purl: int, **fields: Any) -> dict[str, Any]:
    """A hat with this rib, at 20 stitches."""
    fields.setdefault("gauge", {"stitches": 20, "rows": 28})
    return hats(brim={"kind": "ribbed", "rib": {"knit": knit, "purl": purl}}, **fields)


@pytest.mark.parametrize("style", STYLES)
def test_the_ease_reached_with_every_rib(style: str) -> None:
    """The table: for every rib up to 6 + 6 and every size the brim is a multiple of the rib, the body one of the
    crown's, and both lie within half a repeat of the stitches that the requested ease takes.

    Where one count serves both, the wider of the two repeats is meant.
    """
    for knit, purl in RIBS:
        for size in ribbed(knit, purl, sizes=SIZES, crown={"style": style})["sizes"]:
            brim, body, exact = (
                size["cast_on"]["stitches"],
                size["crown"]["stitches"],
                size["cast_on"]["exact"],
            )
            rib, of_crown = knit + purl, crown_multiple(CrownShape(style=style))
            if style in {"dome", "flat", "cone"}:
                of_crown = size["crown"]["sections"]
            half_brim, half_body = (rib / 2, of_crown / 2) if brim != body else (max(rib, of_crown) / 2,) * 2
            assert brim % rib == 0
            assert body % of_crown == 0
            assert abs(brim - exact) <= half_brim + 1e-9
            assert abs(body - exact) <= half_body + 1e-9


def test_a_baby_gets_a_rib_of_seven_and_a_crown_of_eight() -> None:
    """5 x 2 rib with a swirl at 20 stitches: both within one repeat of -10 %, where a common multiple was -37 %."""
    size = ribbed(5, 2, sizes=[{"age_months": 0}], crown={"style": "swirl"})["sizes"][0]
    assert (size["cast_on"]["stitches"], size["crown"]["stitches"]) == (63, 64)
    assert size["cast_on"]["ease"]["percent"] == pytest.approx(-10, abs=5)
    assert size["body"]["adjust"]["text"] == "k62, kfb"


def test_a_rib_that_divides_the_crown_needs_no_round_between() -> None:
    """2 x 2 rib and eight wedges: 96 stitches serve both, as in published hats."""
    size = ribbed(2, 2, sizes=WOMAN, crown={"style": "wedge"})["sizes"][0]
    assert size["cast_on"]["stitches"] == size["crown"]["stitches"]
    assert size["brim"]["adjust"] is size["body"]["adjust"] is None


def test_a_published_beret_goes_from_64_to_88() -> None:
    """Patons PAK0416-030197M (2020): 64 stitches of rib, 88 above it: 37.5 % more, by kfb after the rib."""
    head = {"head": {"value": 64 / 1.5 / 0.9, "unit": "cm"}}
    answer = ribbed(
        2,
        2,
        gauge={"stitches": 15, "rows": 18},
        sizes=[head],
        body={"fullness": 37.5},
        crown={"style": "wedge"},
    )
    adjust = answer["sizes"][0]["body"]["adjust"]
    assert (adjust["before"], adjust["after"], adjust["kind"]) == (64, 88, "adjust")
    assert set(by_hand.stitches(adjust["steps"])) == {"k", "kfb"}


@pytest.mark.parametrize(
    ("stitches", "sections", "rib", "printed"),
    [
        # 88 in 8 wedges: k9, k2tog; k8, k2tog; ...
        (88, 8, 4, [88, 80, 72, 64, 56, 48, 40, 32, 24, 16, 8]),
        # 48 (56) stitches, k6, k2tog down to k1, k2tog, then k2tog.
        (48, 6, 2, [48, 42, 36, 30, 24, 18, 12, 6]),
        (56, 7, 4, [56, 49, 42, 35, 28, 21, 14, 7]),
        # fiorievecchiepezze.wordpress.com: 84, *5, 2 together*, then 4, 3, 2, 1; then 2 together twice.
        (84, 12, 4, [84, 72, 60, 48, 36, 24, 12, 6]),
    ],
)
def test_published_hats_keep_their_one_count(
    stitches: int, sections: int, rib: int, printed: list[int]
) -> None:
    """A head that takes just these stitches: brim and crown are on one count, and the crown is the one in print."""
    size = ribbed(
        rib // 2,
        rib // 2,
        sizes=[{"head": {"value": stitches / 2 / 0.9, "unit": "cm"}}],
        crown={"style": "wedge", "sections": sections},
    )["sizes"][0]
    rounds = [round for round in size["crown"]["rounds"] if round["kind"] == "decrease"]
    assert [rounds[0]["before"], *(round["after"] for round in rounds)] == printed
    assert size["cast_on"]["stitches"] == stitches
    assert size["body"]["adjust"] is None


@pytest.mark.parametrize("stitches", [19, 21, 22, 25, 28])
def test_a_beret_on_a_loop_stays_in_even_halves(stitches: int) -> None:
    """The round between changes both halves of the cast-on by as much, so that the crown cuts hardly a decrease."""
    (size,) = hats(
        gauge={"stitches": stitches},
        sizes=[{"adult": "man"}],
        silhouette="beret",
        needles={"magic_loop": {"value": 100, "unit": "cm"}},
    )["sizes"]
    adjust = size["body"]["adjust"]

    assert by_hand.work_hat(size) == size["crown"]["stitches_left"]
    assert max(adjust["needles"]) - min(adjust["needles"]) <= 2
    assert size["split"]["straddles"] <= 1


def test_a_round_between_of_two_sorts_of_sections_is_alike_in_both_halves() -> None:
    """108 to 152: 44 sections of 3 and 2 stitches (arithmetic), the wide ones half before, half behind."""
    assert bridging_round(1, 108, 152).text == "[k2, kfb] 10 times, [k1, kfb] 24 times, [k2, kfb] 10 times"
    for before in range(16, 200):
        for after in range(before // 2 + before % 2, 2 * before + 1):
            round = bridging_round(1, before, after)
            assert (round.before, round.after) == (before, after)
            brackets = [step for step in round.steps if isinstance(step, Repeat)]
            assert not any(isinstance(inner, Repeat) for bracket in brackets for inner in bracket.steps)


@pytest.mark.parametrize(("kind", "last"), [("ribbed", "rib"), ("garter", "purl"), ("rolled", "knit")])
def test_the_round_between_may_end_the_brim(kind: str, last: str) -> None:
    """As the request says it is the last round of the brim; garter ends its pair of rounds first."""
    answer = hats(sizes=WOMAN, brim={"kind": kind}, body={"fullness": 40, "adjust_in": "brim"}, needles=4)
    size = answer["sizes"][0]
    brim = by_hand.straight_rounds(size["brim"])
    assert brim[-1] == size["brim"]["adjust"]
    assert brim[-1]["number"] == size["brim"]["rounds"] == len(brim)
    assert brim[-2]["text"] == {"rib": "*k1, p1; rep from * around"}.get(last, last)
    assert by_hand.work_hat(size) == size["crown"]["stitches_left"]


def test_a_fuller_body_is_as_wide_as_its_stitches() -> None:
    """A half more stitches make a half more circumference (arithmetic), to half a repeat of the crown."""
    measured = hats(sizes=WOMAN, body={"fullness": 50})["sizes"][0]["measurements"]
    brim, body = measured["circumference"]["value"], measured["body_circumference"]["value"]
    assert body == pytest.approx(1.5 * brim, abs=4 / 1.8 + 0.01)


def test_one_size_may_be_fuller_than_the_others() -> None:
    """What a size says of its body goes before what is said of all; the line between is for that size alone."""
    answer = hats(sizes=[{"adult": "woman"}, {"adult": "man", "body": {"fullness": 30}}])
    assert [size["body"]["adjust"] is None for size in answer["sizes"]] == [True, False]
    assert "Next rnd (size 2 only): " in answer["pattern"]


def test_the_pattern_says_the_round_between_and_its_count() -> None:
    """The first line of the body, with the new count; kfb is among the abbreviations."""
    pattern = ribbed(5, 2, sizes=[{"age_months": 0}], crown={"style": "swirl"})["pattern"]
    body = pattern.split("\n\nBODY\n")[1].splitlines()
    assert body[0] == "Next rnd: k62, kfb — 64 sts"
    assert body[1].startswith("Next ")
    assert "kfb: knit into the front and back" in pattern
    assert "Circumference: brim 31.5 cm, body 32 cm, unstretched" in pattern


def test_no_round_between_has_brackets_in_brackets() -> None:
    """Where the most even order would need them, equal gaps stand together (easiest to knit)."""
    for fullness in range(1, 100, 7):
        size = hats(sizes=WOMAN, body={"fullness": fullness})["sizes"][0]
        for step in (size["body"]["adjust"] or {"steps": []})["steps"]:
            assert all(inner["type"] == "work" for inner in step.get("steps", []))


def test_sections_that_no_round_reaches_are_refused() -> None:
    """100 sections on the head of a newborn: the nearest that works is named."""
    with pytest.raises(Impossible) as error:
        ribbed(
            1, 1, sizes=[{"age_months": 0}], body={"fullness": 10}, crown={"style": "wedge", "sections": 150}
        )
    assert error.value.pointer == "#/crown/sections"
    assert "sections" in str(error.value.nearest)


@pytest.mark.parametrize(
    "body",
    [
        {"fullness": 30, "adjust_in": "body"},
        {"fullness": 30, "adjust_in": "brim"},
        {"gauge": {"stitches": 24, "rows": 30}},
        {"gauge": {"stitches": 15, "rows": 20}},
    ],
    ids=str,
)
def test_a_count_is_right_after_every_round(body: dict[str, Any]) -> None:
    """Counted needle by needle after any round, the next line is the one that follows, around each bridge too."""
    request = {
        "gauge": {"stitches": 18, "rows": 24},
        "sizes": WOMAN,
        "brim": {"kind": "ribbed", "rib": {"knit": 3, "purl": 2}},
        "body": body,
        "needles": 4,
    }
    _, rounds = lines_of("hat", request)
    for (part, worked), (after_part, after) in pairwise(rounds):
        counted = {"hat": request, "needles": worked["needles"], "part": part, "round": worked["number"]}
        answer = counting.check(msgspec.convert(counted, CountRequest), read, PlainLine)
        assert answer.next is not None
        assert (answer.next_part, answer.next.number, answer.next.text) == (
            after_part,
            after["number"],
            after["text"],
        )


def test_the_sheet_to_tick_off_has_a_box_for_the_round_between() -> None:
    """It stands by itself, with the new count, which has to be checked there."""
    handout = handout_of(
        gauge={"stitches": 20, "rows": 28},
        sizes=WOMAN,
        brim={"kind": "ribbed", "rib": {"knit": 3, "purl": 2}},
        crown={"style": "wedge"},
        needles=4,
    )
    brim, between, body = handout.sheets[0].straight
    assert between.work == ("*k24, kfb; rep from * around — now 104 stitches: 26 + 26 + 26 + 26",)
    assert (between.part, between.boxes) == ("body", 1)
    assert brim.boxes + between.boxes + body.boxes == brim.rounds + 1 + body.rounds


def test_a_rib_too_wide_for_a_head_points_to_the_rib() -> None:
    """The warning and the error name the field of the hat, where the caller finds it."""
    preemie = [{"head": {"value": 23, "unit": "cm"}}]
    warnings = ribbed(6, 6, sizes=preemie)["warnings"]
    assert ("multiple_coarse", "#/brim/rib") in [
        (warning["code"], warning["pointer"]) for warning in warnings
    ]
    with pytest.raises(Impossible) as error:
        ribbed(12, 12, gauge={"stitches": 6, "rows": 8}, sizes=preemie)
    assert error.value.pointer == "#/brim/rib"
    assert error.value.nearest == "a rib with a smaller repeat"
