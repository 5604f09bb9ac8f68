"""Crowns of every style, worked stitch by stitch."""

from itertools import pairwise

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from roundwright.knitting.answers import Impossible
from roundwright.knitting.crown.crown import CrownAnswer, crown, work_crown
from roundwright.knitting.crown.finish import Finish
from roundwright.knitting.crown.request import Cadence, CrownRequest, CrownShape, has_whole_sections
from roundwright.knitting.crown.styles import STYLES
from roundwright.knitting.needles.best_split import best_splits
from roundwright.knitting.needles.boundaries import boundary_paths
from roundwright.knitting.quantities import Gauge, Length
from roundwright.knitting.rounds.round import Round, runs
from roundwright.knitting.rounds.work_round import chained
from tests.support.by_hand import LOOPS, stitches, work

DECREASES = {name for name, (uses, leaves) in LOOPS.items() if uses > leaves}

styles = st.sampled_from(sorted(STYLES))
counts = st.integers(8, 600)
gauges = st.floats(1.0, 2.2).map(lambda ratio: Gauge(stitches=22, rows=22 * ratio))


@st.composite
def requests(draw) -> CrownRequest:
    """Any crown at a usual gauge, with every option that can be knitted."""
    sections = draw(st.none() | st.integers(2, 4))
    rounds = st.builds(
        Cadence, plain_rounds=st.integers(0, 2), every_round_from=st.none() | st.integers(1, 9)
    )
    return CrownRequest(
        stitches=draw(st.integers(10, 600) if sections is None else st.integers(10, 200)),
        style=draw(styles),
        sections=sections,
        cadence=draw(st.none() | rounds),
        close_at=draw(st.none() | st.integers(3, 20)),
        decrease_at=draw(st.sampled_from(["end", "start"])),
        worked=draw(st.sampled_from(["in_the_round", "flat"])),
        gauge=draw(gauges),
    )


def gaps(round: Round) -> list[int]:
    """Plain stitches between the decreases of a round, the last and the first gap together."""
    gap, between = 0, []
    for name, times in runs(round.steps):
        if name in DECREASES:
            between += [gap, *[0] * (times - 1)]
            gap = 0
        else:
            gap += times
    return [between[0] + gap, *between[1:]]


def decreasing(answer: CrownAnswer) -> list[Round]:
    return [round for round in answer.rounds if round.after < round.before]


@given(requests())
def test_every_schedule_is_worked_to_its_close(request: CrownRequest) -> None:
    """Worked by hand, each round uses what the one before left, and no more than `close_at` are left at the end."""
    answer = crown(request)
    loops = request.stitches
    for number, round in enumerate(chained(answer.rounds), start=1):
        assert (round.number, round.before) == (number, loops)
        loops = work(loops, msgspec.to_builtins(round.steps))
        assert round.after == loops

    assert answer.stitches_left == loops
    # In whole sections, 8 or 9 are drawn up (published: 5 to 10).
    usual = max(STYLES[request.style].close_at, 9 if has_whole_sections(request) else 0)
    usual += 2 if request.worked == "flat" else 0
    assert loops <= (usual if request.close_at is None else request.close_at)


@given(requests())
def test_decreases_are_evenly_spaced(request: CrownRequest) -> None:
    """In every round the gaps between decreases differ by a stitch at most."""
    for round in decreasing(crown(request)):
        between = gaps(round)[1 if request.worked == "flat" else 0 :]
        assert not between or max(between) - min(between) <= 1


@given(requests())
def test_the_last_round_closes(request: CrownRequest) -> None:
    """The crown stops with the first round that leaves few enough: no round is worked after that.

    Only a dome, disc or cone in whole sections is knitted on from there to its tip.
    """
    answer = crown(request)
    usual = min(
        STYLES[request.style].close_at + (2 if request.worked == "flat" else 0), request.stitches // 2
    )
    close_at = usual if request.close_at is None else request.close_at

    to_the_tip = has_whole_sections(request) and not STYLES[request.style].whole_sections
    assert all(round.before > close_at or (to_the_tip and round.kind == "plain") for round in answer.rounds)


@given(stitches=st.integers(56, 600), gauge=gauges, worked=st.sampled_from(["in_the_round", "flat"]))
def test_a_dome_is_round(stitches: int, gauge: Gauge, worked: str) -> None:
    """From 56 stitches on, whatever they divide by, the radii stay within 5 % of R of the hemisphere's (RMS)."""
    answer = crown(CrownRequest(stitches=stitches, style="dome", gauge=gauge, worked=worked))

    assert answer.geometry is not None
    assert answer.geometry.hemisphere_rms_percent <= 5


@given(requests())
def test_a_profile_is_one_that_fabric_can_take(request: CrownRequest) -> None:
    """The outline runs from the start to the tip, and no two points are further apart than the fabric between them."""
    shape = crown(request).geometry
    if shape is None:
        return
    points = shape.profile.points

    assert points[-1].radius == points[-1].along == points[0].height == 0
    for lower, upper in pairwise(points):
        apart = ((lower.radius - upper.radius) ** 2 + (lower.height - upper.height) ** 2) ** 0.5
        assert apart == pytest.approx(lower.along - upper.along, abs=3e-4)
        assert lower.along > upper.along
        assert lower.height <= upper.height + 1e-9


@given(requests())
def test_flat_work_has_a_right_and_a_wrong_side(request: CrownRequest) -> None:
    """Right-side rows are knitted, wrong-side rows purled, with a seam stitch at each edge and no word of a round."""
    for round in crown(msgspec.structs.replace(request, worked="flat")).rounds:
        names = list(stitches(msgspec.to_builtins(round.steps)))
        plain, allowed = ("k", {"k", "k2tog", "cdd"}) if round.number % 2 else ("p", {"p", "p2tog"})

        assert names[0] == names[-1] == plain
        assert set(names) <= allowed
        assert "around" not in round.text


def test_flat_decreases_are_centred() -> None:
    """Between the seam stitches half a gap comes before the first decrease and half a gap after the last."""
    answer = crown(CrownRequest(stitches=58, style="quick", worked="flat"))

    assert [round.text for round in answer.rounds] == [
        "k2, *k2tog, k2; rep from * to last 4 sts, k2tog, k2",
        "purl",
        "k1, *k2tog, k1; rep from * to last st, k1",
        "purl",
        "k1, *k2tog; rep from * to last st, k1",
        "purl",
        "k1, *k2tog; rep from * to last st, k1",
        "p2, *p2tog; rep from * to last st, p1",
    ]
    assert answer.finish.text.endswith("Sew the seam.")


@given(stitches=st.integers(20, 300), style=styles, needles=st.integers(3, 5))
def test_needles_are_filled_in(stitches: int, style: str, needles: int) -> None:
    """With needles the answer has the best split, and every round what is on each needle after it."""
    bare = crown(CrownRequest(stitches=stitches, style=style))
    answer = crown(CrownRequest(stitches=stitches, style=style, needles=needles))

    assert answer.split.split == best_splits(boundary_paths(bare.rounds, stitches), needles)[-1].split
    assert all(sum(round.needles or ()) == round.after for round in answer.rounds)


# --- notes and warnings -------------------------------------------------------------------------------------

MARKER = "The first decrease takes the first two stitches. A marker between them comes off before it"


@given(requests())
def test_the_marker_comes_off_before_the_first_decrease(request: CrownRequest) -> None:
    """The note stands once, where the first decrease of a round takes the first stitches for the first time."""
    rounds = crown(msgspec.structs.replace(request, worked="in_the_round")).rounds
    noted = [round for round in rounds for note in round.notes if note.startswith("The first decrease takes")]
    firsts = [next(stitches(msgspec.to_builtins(round.steps))) for round in rounds]
    uses = [LOOPS[first][0] for first in firsts]

    assert [round.number for round in noted] == sorted(
        {uses.index(number) + 1 for number in (2, 3) if number in uses}
    )
    assert all(MARKER in " ".join(round.notes) for round in noted if firsts[round.number - 1] == "k2tog")


def test_no_section_markers_are_taken_off_that_nobody_placed() -> None:
    """A pattern without section markers says nothing of them (common practice)."""
    rounds = crown(CrownRequest(stitches=48, style="wedge", sections=6, close_at=5)).rounds

    assert not any("section" in note for round in rounds for note in round.notes)


def codes(answer: CrownAnswer) -> list[str]:
    return [notice.code for notice in answer.warnings]


@pytest.mark.parametrize(("stitches", "over"), [(57, 1), (58, 2), (59, 3)])
def test_stitches_that_do_not_divide_are_adjusted(stitches: int, over: int) -> None:
    """One balanced round comes first, and a warning says so."""
    answer = crown(CrownRequest(stitches=stitches, style="quick"))
    first = answer.rounds[0]

    assert (first.kind, first.before, first.after) == ("adjust", stitches, 56)
    assert max(gaps(first)) - min(gaps(first)) <= 1
    assert codes(answer) == ["adjusted"]
    assert f"takes {over} away" in answer.warnings[0].message


def test_stitches_that_divide_are_not_adjusted() -> None:
    """There is nothing to warn of."""
    answer = crown(CrownRequest(stitches=56, style="quick"))

    assert all(round.kind != "adjust" for round in answer.rounds)
    assert codes(answer) == []


def test_what_a_style_does_not_depend_on_is_pointed_out() -> None:
    """A height means nothing to wedges, sections nothing to a square."""
    gauge = Gauge(stitches=20, rows=28)
    wedge = crown(CrownRequest(stitches=80, style="wedge", height=Length(10, "cm"), gauge=gauge))
    square = crown(CrownRequest(stitches=80, style="square", sections=6, decrease_at="start", gauge=gauge))

    assert [(notice.code, notice.pointer) for notice in wedge.warnings] == [("option_unused", "#/height")]
    assert [(notice.code, notice.pointer) for notice in square.warnings] == [
        ("option_unused", "#/sections"),
        ("option_unused", "#/decrease_at"),
    ]


def test_a_style_that_follows_the_gauge_warns_of_an_assumed_one() -> None:
    """Without a gauge relaxed plain knit is assumed, for the style or for the rows."""
    assert codes(crown(CrownRequest(stitches=80, style="dome"))) == ["gauge_assumed"]
    assert codes(crown(CrownRequest(stitches=80, style="dome", gauge=Gauge(stitches=20)))) == ["rows_assumed"]
    assert codes(crown(CrownRequest(stitches=80, style="wedge"))) == []


def test_few_enough_stitches_are_closed_at_once() -> None:
    """There is no round to work, and no surface to measure."""
    answer = crown(CrownRequest(stitches=10, close_at=12, gauge=Gauge(stitches=20, rows=28)))

    assert (answer.rounds, answer.stitches_left, answer.geometry) == ((), 10, None)
    assert codes(answer) == ["closed_already"]


def test_about_five_rounds_are_a_knob_and_no_tie() -> None:
    """A knob needs no warning (common practice)."""
    assert codes(crown(CrownRequest(stitches=56, finish=Finish(kind="cord")))) == []


def test_all_stitches_of_a_cord_go_on_one_needle_first() -> None:
    """The yarn hangs at the last stitch, on the left; the stitches slide to the right end (common practice)."""
    text = crown(CrownRequest(stitches=56, finish=Finish(kind="cord"))).finish.text

    assert text.startswith("Put the 4 sts left on one needle, the yarn at its left end.")


def test_a_cord_longer_than_a_knob_comes_with_a_warning_on_its_length() -> None:
    """No standard says how long it may be; where there is a gauge it has its length, in the units of the request."""
    answer = crown(CrownRequest(stitches=56, finish=Finish(kind="cord", cord_rounds=8)))

    assert codes(answer) == ["cord_policy"]
    assert answer.warnings[0].message.startswith("A cord of 8 rounds is longer than a knob")
    assert "No standard says" in answer.warnings[0].message
    assert "local rules come first" in answer.warnings[0].message


@pytest.mark.parametrize(
    ("units", "cord"), [("metric", "8 rounds (2.9 cm)"), ("imperial", "8 rounds (1.1 in)")]
)
def test_the_warning_on_a_cord_says_how_long_it_is(units, cord) -> None:
    """8 rounds at 28 in 10 cm are 2.86 cm (arithmetic)."""
    gauge = Gauge(stitches=20, rows=28)
    request = CrownRequest(stitches=56, gauge=gauge, units=units, finish=Finish(kind="cord", cord_rounds=8))
    assert crown(request).warnings[0].message.startswith(f"A cord of {cord} is longer than a knob")


# --- what cannot be knitted ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("shape", "pointer", "nearest"),
    [
        (dict(style="wedge", sections=30), "#/sections", "28 sections"),
        (dict(close_at=12, finish=Finish(kind="cord")), "#/close_at", "close_at 5"),
        (dict(close_at=2, worked="flat"), "#/close_at", "close_at 3"),
        (dict(style="cone", height=Length(20, "cm")), "#/gauge", "a gauge, or no `height`"),
        (dict(worked="flat", needles=4), "#/worked", "in_the_round"),
    ],
)
def test_what_cannot_be_knitted(shape: dict, pointer: str, nearest: str) -> None:
    """The error names the field and the nearest crown that works."""
    with pytest.raises(Impossible) as error:
        crown(CrownRequest(stitches=56, **shape))

    assert (error.value.pointer, error.value.nearest) == (pointer, nearest)


def test_more_rounds_than_anybody_knits() -> None:
    """The nearest height, or number of plain rounds, is one that works."""
    gauge = Gauge(stitches=22, rows=30)
    with pytest.raises(Impossible) as error:
        crown(CrownRequest(stitches=88, style="cone", height=Length(10, "m"), gauge=gauge))
    assert (error.value.pointer, error.value.nearest) == ("#/height", "a height of 132.7 cm")
    assert crown(CrownRequest(stitches=88, style="cone", height=Length(132.7, "cm"), gauge=gauge)).rounds

    with pytest.raises(Impossible) as error:
        crown(CrownRequest(stitches=600, style="wedge", cadence=Cadence(plain_rounds=20)))
    assert error.value.nearest == "4 plain rounds between decrease rounds"
    assert crown(CrownRequest(stitches=600, style="wedge", cadence=Cadence(plain_rounds=4))).rounds


@pytest.mark.parametrize("stitches", [7, 601])
def test_counts_no_hat_has(stitches: int) -> None:
    """The error points to the gauge that leads to such a count."""
    with pytest.raises(Impossible) as error:
        work_crown(stitches, CrownShape(), Gauge(stitches=20), pointer="#/crown")

    assert error.value.pointer == "#/gauge/stitches"


LENGTHS = st.none() | st.sampled_from([Length(0.001, "mm"), Length(1_000_000, "yd"), Length(30, "cm")])
ANY_GAUGE = st.builds(
    Gauge,
    stitches=st.floats(0.1, 1000),
    rows=st.none() | st.floats(0.1, 1000),
    over=st.just(Length(10, "cm")),
)


@given(
    st.builds(
        CrownRequest,
        stitches=counts,
        style=styles,
        gauge=ANY_GAUGE,
        height=LENGTHS,
        worked=st.sampled_from(["in_the_round", "flat"]),
        close_at=st.none() | st.integers(1, 60),
    )
)
def test_every_request_is_worked_or_refused(request: CrownRequest) -> None:
    """Every request that the schema allows is worked, or refused with the nearest crown that works."""
    answer, nearest = None, None
    try:
        answer = crown(request)
    except Impossible as error:
        nearest = error.nearest

    if answer is None:
        assert nearest
    else:
        assert chained(answer.rounds) == answer.rounds
        if answer.geometry is not None:
            assert b"null" not in msgspec.json.encode(
                answer.geometry, enc_hook=str
            )  # nor NaN, which is written so


def wedges(stitches: int, sections: int | None = None, **fields) -> CrownAnswer:
    """Wedges in bulky yarn, 13 stitches and 18 rounds in 10 cm."""
    return crown(
        CrownRequest(
            stitches=stitches,
            style="wedge",
            sections=sections,
            gauge=Gauge(stitches=13, rows=18),
            **fields,
        )
    )


def test_wedges_on_few_stitches_gather() -> None:
    """40 stitches less 8 every other round: 4 rounds, 2.2 cm of fabric for a radius of 40 / 1.3 / 2π = 4.9 cm, its edge
    half as much (arithmetic). 6 sections on 42 lie.
    """
    assert codes(wedges(40)) == ["crown_gathers"]
    assert "With 6 sections" in wedges(40).warnings[0].message
    assert codes(wedges(42, 6)) == []


def test_published_wedges_lie_smooth_enough() -> None:
    """88 stitches in 8 wedges, k9, k2tog and so on, are as printed (published hat patterns): no warning."""
    assert codes(crown(CrownRequest(stitches=88, style="wedge", gauge=Gauge(stitches=20, rows=28)))) == []


def test_wedges_of_a_cadence_of_ones_own_are_as_wanted() -> None:
    """Who asks for decreases in every round wants the gathers."""
    assert codes(wedges(40, cadence=Cadence(plain_rounds=0))) == []


@given(st.integers(8, 20), st.floats(1.15, 1.6))
def test_a_flat_top_that_is_not_flat_says_what_makes_it_flat(width: int, ratio: float) -> None:
    """8 stitches every second round lie flat at few gauges: the rows for each stitch decide (geometry of a disc)."""
    gauge = Gauge(stitches=22, rows=22 * ratio)
    request = CrownRequest(
        stitches=8 * width, style="flat", sections=8, cadence=Cadence(plain_rounds=1), gauge=gauge
    )
    by_rule = crown(request)
    assert by_rule.geometry is not None
    assert ("not_flat" in codes(by_rule)) == (by_rule.geometry.lies != "flat")
    for notice in by_rule.warnings:  # whoever took the rule of thumb need not have sent `cadence`
        assert notice.pointer == "#"
        assert notice.message.startswith(
            "The flat top goes by the rule of thumb, 8 decreases every second round."
        )
    by_gauge = crown(msgspec.structs.replace(request, cadence=None))
    assert by_gauge.geometry is not None
    assert by_gauge.geometry.lies == "flat"
    assert codes(by_gauge) == []
