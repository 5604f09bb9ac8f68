"""Depth and silhouette: how deep a hat is, how full, and how it ends, with and without a word in the request."""

from itertools import pairwise
from math import acos, pi
from typing import Any

import pytest

from roundwright import reference
from roundwright.knitting.answers import Impossible
from roundwright.knitting.crown.request import CrownShape
from roundwright.knitting.hat.fabric import fabric_rows, hidden_mm
from roundwright.knitting.hat.plan import hats as plan_hats
from roundwright.knitting.hat.request import Brim, HatRequest, HatSize
from roundwright.knitting.hat.worn import worn
from roundwright.knitting.quantities import Gauge
from tests.support import by_hand
from tests.support.hats import hats

WOMAN = [{"adult": "woman"}]
AGES = [{"age_months": 18}, {"age_months": 48}, {"age_years": 10}, {"adult": "woman"}, {"adult": "man"}]
ROW_CM = 10 / 28


def of(sizes: list[dict[str, Any]], **fields: Any) -> list[dict[str, Any]]:
    """The sizes of a hat at 20 stitches and 28 rounds."""
    answer: list[dict[str, Any]] = hats(gauge={"stitches": 20, "rows": 28}, sizes=sizes, **fields)["sizes"]
    return answer


def cm(value: float) -> dict[str, Any]:
    """A length on the wire."""
    return {"value": value, "unit": "cm"}


def depths(sizes: list[dict[str, Any]]) -> list[float]:
    """The depth of each size."""
    return [size["measurements"]["depth"]["value"] for size in sizes]


def test_the_arc_from_crown_to_ear_is_a_third_of_the_head() -> None:
    """The ear canal lies 0.228 C below the crown: on a sphere of the circumference C 0.32 C along the scalp.

    Snyder et al. 1977 and ANSUR II: at every age (computed); a beanie reaches half an ear further.
    """
    arc = acos(1 - 0.228 * 2 * pi) / (2 * pi)
    assert arc == pytest.approx(0.32, abs=0.003)
    assert reference.silhouettes()["beanie"].head_share == pytest.approx(arc + 0.055, abs=0.003)


@pytest.mark.parametrize("kind", ["rolled", "ribbed", "garter", "folded"])
def test_a_hat_covers_the_ears_from_toddlers_up(kind: str) -> None:
    """The default depth is to the lower end of the ears, half a round more or less, in every brim and crown."""
    for style in ("wedge", "dome", "flat", "gathered"):
        for size in of(AGES, brim={"kind": kind}, crown={"style": style}):
            head = size["measurements"]["head"]["value"]
            assert size["measurements"]["depth"]["value"] == pytest.approx(0.375 * head, abs=ROW_CM)


def test_a_babys_hat_is_as_deep_as_the_middle_rule_in_print() -> None:
    """A third of the head and 1 to 2 cm (published tutorials): 12.8 cm for a newborn."""
    for size in of([{"gestation_weeks": 30}, {"age_months": 0}, {"age_months": 6}]):
        head = size["measurements"]["head"]["value"]
        assert size["measurements"]["depth"]["value"] == pytest.approx(head / 3 + 1.5, abs=ROW_CM)


@pytest.mark.parametrize(
    ("silhouette", "style", "fullness", "kind"),
    [
        ("skullcap", "dome", 0, "rolled"),
        ("beanie", "wedge", 0, "rolled"),
        ("cuffed", "wedge", 0, "folded"),
        ("slouch", "wedge", 20, "ribbed"),
        ("beret", "flat", 37.5, "ribbed"),
        ("pointed", "cone", 0, "rolled"),
    ],
)
def test_a_silhouette_chooses_crown_fullness_and_brim(
    silhouette: str, style: str, fullness: float, kind: str
) -> None:
    """Each is a row of the table; the beret's 37.5 % is that of Patons PAK0416 (64 to 88 stitches)."""
    size = of(WOMAN, silhouette=silhouette)[0]
    assert size["crown"]["style"] == style
    brim, body = size["cast_on"]["stitches"], size["crown"]["stitches"]
    assert body == pytest.approx(brim * (1 + fullness / 100), abs=4)
    assert (size["brim"]["lines"][0]["kind"] == "rib") == (kind != "rolled")


def test_a_brim_that_is_requested_stays() -> None:
    """A beret with a rolled brim is rolled: the silhouette chooses only what the request leaves open."""
    size = of(WOMAN, silhouette="beret", brim={"kind": "rolled"})[0]
    assert size["brim"]["lines"][0]["kind"] != "rib"


def test_silhouettes_are_as_deep_as_they_are_called() -> None:
    """A skullcap ends above the ears, a slouch hangs, a point is added to the depth."""
    deep = {name: depths(of(WOMAN, silhouette=name))[0] for name in reference.silhouettes()}
    assert deep["skullcap"] < deep["beanie"] < deep["beret"] < deep["slouch"]
    assert deep["cuffed"] == pytest.approx(deep["beanie"], abs=ROW_CM)
    assert deep["pointed"] > deep["beanie"] + 2


def test_what_the_request_says_goes_before_the_silhouette() -> None:
    """Crown, fullness and depth of a beret that is none."""
    size = of(WOMAN, silhouette="beret", crown={"style": "square"}, body={"fullness": 0}, depth=cm(24))[0]
    assert size["crown"]["style"] == "square"
    assert size["crown"]["stitches"] == size["cast_on"]["stitches"]
    assert depths([size]) == pytest.approx([24], abs=ROW_CM)


@pytest.mark.parametrize("style", ["wedge", "cone", "quick"])
def test_a_depth_is_reached_to_half_a_round(style: str) -> None:
    """For all sizes or for one; the point of a cone is within it."""
    sizes = [{"age_years": 8}, {"adult": "woman", "depth": cm(27)}, {"adult": "man"}]
    worked = of(sizes, depth=cm(25), crown={"style": style})
    assert depths(worked) == pytest.approx([25, 27, 25], abs=ROW_CM / 2 + 0.01)


def test_a_depth_and_a_length_of_the_body_are_one_too_many() -> None:
    """Only one of them is free; of a size goes before of all."""
    with pytest.raises(Impossible) as error:
        of(WOMAN, depth=cm(22), body={"length": cm(12)})
    assert error.value.pointer == "#/depth"
    own = of([{"adult": "woman", "body": {"length": cm(12)}}], depth=cm(30))[0]
    assert own["measurements"]["edge_to_crown"]["value"] == pytest.approx(12, abs=ROW_CM)


def test_a_hat_deeper_than_requested_is_said_to_be_so() -> None:
    """A long cone on a shallow hat: the warning names the nearest depth that fits, and that depth brings none."""
    answer = hats(gauge={"stitches": 20, "rows": 28}, sizes=WOMAN, depth=cm(12), crown={"style": "cone"})
    warning = next(warning for warning in answer["warnings"] if warning["code"] == "deeper")
    assert warning["pointer"] == "#/depth"
    reached = depths(answer["sizes"])[0]
    assert f"{reached:.3g} cm is the nearest depth that fits" in warning["message"]
    again = hats(
        gauge={"stitches": 20, "rows": 28}, sizes=WOMAN, depth=cm(round(reached, 2)), crown={"style": "cone"}
    )
    assert "deeper" not in {warning["code"] for warning in again["warnings"]}


@pytest.mark.parametrize("style", ["wedge", "dome", "cone", "quick"])
def test_a_hat_for_a_grown_up_lies_over_the_ears_when_worn(style: str) -> None:
    """Laid over a head, stretched where it must be, the edge comes to lie below the ear canal, in a cone too."""
    request = HatRequest(
        gauge=Gauge(stitches=20, rows=28),
        sizes=(HatSize(adult="woman"),),
        crown=CrownShape(style=style),
        brim=Brim(kind="ribbed"),
    )
    plan = plan_hats(request, lambda *_: "").sizes[0]
    hat = worn(fabric_rows(plan), 561.1, hidden_mm(plan))
    assert hat.below_ears_mm > 0


def test_two_sizes_on_one_count_are_said_to_be_so() -> None:
    """56.1 and 57.4 cm in eight wedges at 20 stitches: both 104, and what would part them."""
    warnings = hats(gauge={"stitches": 20, "rows": 28}, sizes=[{"adult": "woman"}, {"adult": "man"}])[
        "warnings"
    ]
    alike = next(warning for warning in warnings if warning["code"] == "sizes_alike")
    assert alike["pointer"] == "#/sizes/1"
    assert "104 stitches" in alike["message"]
    assert "multiple of 4" in alike["message"]
    parted = hats(
        gauge={"stitches": 20, "rows": 28},
        sizes=[{"adult": "woman"}, {"adult": "man"}],
        crown={"style": "quick"},
    )
    assert [size["cast_on"]["stitches"] for size in parted["sizes"]] == [100, 104]
    assert parted["warnings"] == []


def test_sizes_that_differ_in_depth_are_not_one_size() -> None:
    """One head, worn to above the ears and below them, is two hats; the same depths of a head and another are not."""
    heads = [{"head": cm(55)}, {"head": cm(55.2)}]
    deeper = [{**heads[0], "depth": cm(18)}, {**heads[1], "depth": cm(22)}]
    of_size = [{**heads[0], "depth": cm(20)}, {**heads[1], "depth": cm(20)}]

    assert not warned("sizes_alike", sizes=deeper)
    assert "are about equally deep" in warned("sizes_alike", sizes=of_size)[0]
    (message,) = warned("sizes_alike", sizes=[{"adult": "woman"}, {"adult": "man"}])
    assert "differ in depth alone" in message or "equally deep" in message


@pytest.mark.parametrize(("units", "apart"), [("metric", "by 1.3 cm"), ("imperial", "by 0.5 in")])
def test_how_far_sizes_are_apart_is_said_in_the_units_asked_for(units: str, apart: str) -> None:
    """52 and 56 cm at 10 stitches are one count, 48; an inch is 2.54 cm."""
    answer = hats(gauge={"stitches": 10, "rows": 14}, sizes=[{"head": cm(52)}, {"head": cm(56)}], units=units)

    (alike,) = (notice for notice in answer["warnings"] if notice["code"] == "sizes_alike")
    assert f"differ in depth alone, {apart}." in alike["message"]


def test_sizes_out_of_order_are_said_to_be_so() -> None:
    """Patterns give the smallest first; the published chart's child is smaller than four years."""
    warnings = hats(sizes=[{"age_months": 48}, {"chart": "child"}, {"adult": "man"}])["warnings"]
    order = next(warning for warning in warnings if warning["code"] == "sizes_out_of_order")
    assert order["pointer"] == "#/sizes/1"
    assert order["message"].endswith("they are 2, 1, 3.")


def test_the_depth_says_what_it_rests_on() -> None:
    """Its basis is the row of the silhouette, or the rule in print; none for a depth of the request."""
    sources = {basis["source"] for basis in hats(sizes=[{"age_months": 3}, *WOMAN])["basis"]}
    assert {"Hat tutorials"} <= sources
    assert any("Vertex to tragion" in source for source in sources)
    basis = hats(sizes=WOMAN, depth=cm(22))["basis"]
    assert not any(entry["rule"].startswith("Depth, edge to top") for entry in basis)


def warned(code: str, **fields: Any) -> list[str]:
    """The messages of the warnings of one kind, of a hat at 20 stitches and 28 rounds."""
    answer = hats(gauge={"stitches": 20, "rows": 28}, **fields)
    return [notice["message"] for notice in answer["warnings"] if notice["code"] == code]


@pytest.mark.parametrize(("depth", "nearest"), [(6, 0.265), (9, 0.265), (40, 0.45)])
def test_a_depth_that_no_hat_has_is_knitted_with_a_warning(depth: float, nearest: float) -> None:
    """A woman's hat of 6, 9 or 40 cm: the nearest usual is a skullcap's (0.265 C) or a slouch's depth (0.45 C).

    The shares are those of the table of silhouettes: to above the ears (ANSUR II, Snyder et al.), and common practice.
    """
    (message,) = warned("unusual_depth", sizes=WOMAN, depth=cm(depth))
    assert message.endswith(f"The nearest usual is {nearest * 56.11:.3g} cm.")


def test_a_length_to_the_crown_that_no_hat_has_gets_the_nearest_length() -> None:
    """The nearest length from the edge to the crown makes a hat of a usual depth, which is not warned of."""
    (message,) = warned("unusual_depth", sizes=WOMAN, body={"length": cm(40)})
    nearest = float(message.split("nearest usual is ")[1].split(" cm from the edge")[0])

    assert nearest < 25
    assert not warned("unusual_depth", sizes=WOMAN, body={"length": cm(nearest)})


def test_a_babys_pointed_hat_of_40_cm_is_too_long_and_a_grown_ups_of_28_is_not() -> None:
    """The point of a cone is added to what is usual; nothing is said of a hat that a pattern might print."""
    assert warned("unusual_depth", sizes=[{"age_months": 6}], silhouette="pointed", depth=cm(40))
    assert not warned("unusual_depth", sizes=WOMAN, silhouette="pointed", depth=cm(28))


@pytest.mark.parametrize("silhouette", sorted(reference.silhouettes()))
def test_no_usual_depth_is_called_unusual(silhouette: str) -> None:
    """Every silhouette at every age, by its own depth requested again, is knitted without a word."""
    for size in AGES:
        (usual,) = depths(of([size], silhouette=silhouette))
        assert not warned("unusual_depth", sizes=[size], silhouette=silhouette, depth=cm(usual))


RIB = {"kind": "ribbed", "rib": {"knit": 2, "purl": 2}}


@pytest.mark.parametrize(
    ("ease", "brim", "ending"),
    [
        (-45, RIB, "stretch by 82 %, more than is comfortable: take -16 to 0 %, usually -10 %."),
        (
            -40,
            {"kind": "rolled"},
            "stretch by 67 %, more than is comfortable: take -16 to 0 %, usually -10 %.",
        ),
        (40, {"kind": "rolled"}, "It would not stay on: take 0 % or less, usually -10 %."),
        (
            40,
            RIB,
            "the body hangs loose: take 0 % or less, usually -10 %, and more fullness for a full body.",
        ),
    ],
)
def test_an_ease_that_no_head_wears_is_knitted_with_a_warning(
    ease: float, brim: dict[str, Any], ending: str
) -> None:
    """Stockinette is worn stretched by up to a fifth, and rib draws in by a third (common practice)."""
    (message,) = warned("unusual_ease", sizes=WOMAN, ease={"percent": ease}, brim=brim)
    assert message.startswith(f"woman: an ease of {ease} % makes a hat of ")
    assert message.endswith(ending)


@pytest.mark.parametrize("brim", [RIB, {"kind": "rolled"}])
def test_no_ease_in_print_is_called_unusual(brim: dict[str, Any]) -> None:
    """From 4 in smaller than a grown-up's head to as wide as it (tutorials), and a whole hat in rib a quarter smaller,
    since rib stretches more (common practice).
    """
    four_inches = {"length": {"value": -4, "unit": "in"}}
    for ease in (four_inches, {"percent": -10}, {"percent": -15}, {"percent": 0}, {"percent": 3}):
        assert not warned("unusual_ease", sizes=WOMAN, ease=ease, brim=brim)
    assert not warned(
        "unusual_ease",
        sizes=WOMAN,
        silhouette="slouch",
        ease={"percent": -25},
        brim=RIB,
    )
    assert not warned(
        "unusual_ease",
        sizes=WOMAN,
        ease={"percent": -25},
        brim={**RIB, "length": cm(18)},
    )


def body_and_crown(stitches: float, **fields: Any) -> tuple[int, int, dict[str, Any]]:
    """The stitches of the body and those on which the crown goes on, of a hat at 20 whose body has its own gauge."""
    body = {"gauge": {"stitches": stitches, "rows": 28}}
    (size,) = of(WOMAN, body=body, **fields)
    first = size["crown"]["rounds"][0]
    assert first["before"] == size["crown"]["stitches"] == size["body"]["lines"][0]["after"]
    return first["before"], first["after"] if first["kind"] == "adjust" else first["before"], size


@pytest.mark.parametrize("stitches", [14, 16, 18, 22, 24, 26, 32])
@pytest.mark.parametrize("style", [None, "wedge", "dome", "swirl"])
def test_a_crown_in_another_stitch_than_the_body_begins_as_wide_as_it(
    stitches: float, style: str | None
) -> None:
    """132 stitches of cables at 26 in 10 cm are 50.8 cm, at 20 of the hat 66 cm (arithmetic). One round leads to the
    nearest whole sections: at most half a stitch a section wider or narrower (common practice).
    """
    body, crown, size = body_and_crown(stitches, crown={"style": style})
    assert crown / 20 == pytest.approx(body / stitches, abs=size["crown"]["sections"] / 40 + 1e-9)
    assert not warned("crown_off_body", sizes=WOMAN, body={"gauge": {"stitches": stitches, "rows": 28}})


def test_a_crown_as_wide_as_its_body_begins_with_its_own_round() -> None:
    """At 21 stitches beside 20 the body is an inch off at most: no round between (common practice)."""
    body, crown, _ = body_and_crown(21)
    assert body == crown
    fine = {"stitches": 26, "rows": 30}
    (size,) = hats(gauge=fine, sizes=WOMAN, brim={"kind": "rolled", "gauge": {"stitches": 20}})["sizes"]
    assert size["crown"]["rounds"][0]["kind"] == "decrease"


@pytest.mark.parametrize(
    "needles",
    [None, 4, 2, {"magic_loop": cm(80)}, {"circular": cm(40)}],
)
def test_the_round_to_the_crown_is_knitted_on_the_needles_in_hand(needles: Any) -> None:
    """Each round takes up what the one before it left, on each needle too (arithmetic)."""
    _, _, size = body_and_crown(26, needles=needles, brim=RIB)
    rounds = size["crown"]["rounds"]
    assert [worked_round["number"] for worked_round in rounds] == list(range(1, len(rounds) + 1))
    for below, worked_round in pairwise(rounds):
        assert worked_round["before"] == below["after"]
    for worked_round in rounds:
        assert worked_round["needles"] is None or sum(worked_round["needles"]) == worked_round["after"]
    assert by_hand.work_hat(size) == size["crown"]["stitches_left"]


def test_a_crown_that_is_drawn_up_at_once_is_as_wide_as_its_body_too() -> None:
    """64 stitches at 24 are 53 at 20, in whole sections 56: one round leads to them, and they are drawn up."""
    body, crown = {"gauge": {"stitches": 24, "rows": 28}}, {"style": "wedge", "sections": 8, "close_at": 60}
    (size,) = of([{"head": cm(29)}], body=body, crown=crown)
    (only,) = size["crown"]["rounds"]
    assert (only["before"], only["after"], size["crown"]["stitches_left"]) == (64, 56, 56)
    assert by_hand.work_hat(size) == 56


def test_a_crown_that_no_round_makes_as_wide_as_the_body_is_told_in_stitches() -> None:
    """Brim and body at 8 stitches in 10 cm, the crown at 20: 40 stitches of the body are 50 cm, 100 of the crown, and a
    round makes 80 of 40 at most (arithmetic).
    """
    coarse = {"gauge": {"stitches": 8, "rows": 12}}
    (message,) = warned("crown_off_body", sizes=WOMAN, body=coarse, brim={"kind": "rolled", **coarse})
    assert "begins on 80 stitches, at the gauge of the hat 40 cm around, over a body of 50 cm" in message
    assert "100 stitches would be as wide" in message


def test_the_hat_size_of_a_chart_is_not_made_smaller_in_silence() -> None:
    """20 in for a woman is the size of a hat (Craft Yarn Council); measured heads average 56.1 cm (ANSUR II)."""
    (message,) = warned("chart_below_measured", sizes=[{"chart": "woman"}], ease={"percent": -10})
    assert message.endswith(
        "Here the ease is -10 % all the same: take an ease of 0 % to have the hat as wide as in the chart."
    )
    for ease in ({"ease": {"percent": 0}}, {}):
        (message,) = warned("chart_below_measured", sizes=[{"chart": "woman"}], **ease)
        assert "all the same" not in message


@pytest.mark.parametrize(
    ("size", "inches"), [("baby", 14), ("toddler", 16), ("child", 18), ("woman", 20), ("man", 22)]
)
def test_a_size_of_the_chart_is_as_wide_as_the_chart_has_it(size: str, inches: int) -> None:
    """Published (Craft Yarn Council), to 8 stitches of 2.5 mm; a head beside it has the usual ease."""
    sizes = [{"chart": size}, {"head": cm(56)}]
    of_chart, of_head = hats(gauge={"stitches": 40, "rows": 56}, sizes=sizes)["sizes"]

    assert of_chart["measurements"]["circumference"]["value"] == pytest.approx(2.54 * inches, abs=1)
    assert of_head["cast_on"]["ease"]["percent"] == pytest.approx(-10, abs=2)


def test_22_cm_are_a_baby_born_too_early_but_not_a_woman() -> None:
    """The median at 24 weeks is 22 cm (INTERGROWTH-21st); a size called a woman's is 22 in, 55.9 cm."""
    head = {"head": cm(22)}

    assert not warned("unusual_head", sizes=[head, {**head, "label": "preemie"}])
    (message,) = warned("unusual_head", sizes=[{**head, "label": "Woman M"}])
    assert "22 in would be 55.9 cm" in message
