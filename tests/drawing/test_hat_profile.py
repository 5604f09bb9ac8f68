"""The picture of a hat from the side."""

import re
from math import pi, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from roundwright.drawing.hat_profile import hat_profile
from roundwright.drawing.outline import outline_of
from roundwright.knitting.answers import Impossible
from roundwright.knitting.crown.crown import CrownShape
from roundwright.knitting.crown.styles import STYLES
from roundwright.knitting.hat.plan import hats
from roundwright.knitting.hat.request import Brim, HatRequest, HatSize
from roundwright.knitting.quantities import Gauge, Length
from tests.support.picture_reader import assert_stands_alone, elements, key, parsed, said, texts

GAUGE = Gauge(stitches=22, rows=30)


def drawn(head=56.0, **fields):
    request = HatRequest(
        **{
            "gauge": GAUGE,
            "sizes": (HatSize(head=Length(head, "cm")),),
            "crown": CrownShape(style="dome"),
            **fields,
        }
    )
    plan = hats(request, lambda *_: "").sizes[0]
    return plan, request.brim, parsed(hat_profile(plan, request.brim))


def silhouette(root) -> list[tuple[float, float]]:
    """The corners of the hat."""
    (ground,) = [path for path in elements(root, "path") if path.get("class") == "tint"]
    corners = re.findall(r"(-?[\d.]+) (-?[\d.]+)", ground.get("d"))
    return [(float(x), float(y)) for x, y in corners]


def rule_along(root) -> tuple[float, float]:
    """Pixels of the rule along the edge, and pixels of one unit of it, from where its numbers stand."""
    marks = [one for one in elements(root, "text", "m") if one.get("y") == max_y(root) and one.text.isdigit()]
    first, last = marks[0], marks[-1]
    one = (float(last.get("x")) - float(first.get("x"))) / (int(last.text) - int(first.text))
    (line,) = [
        path
        for path in elements(root, "path", "line")
        if re.match(r"M\S+ \S+h[1-9][\d.]*M\S+ \S+v", path.get("d"))
    ]
    return float(re.match(r"M\S+ \S+h([\d.]+)", line.get("d"))[1]), one


def max_y(root) -> str:
    ys = [one.get("y") for one in elements(root, "text", "m") if (one.text or "").isdigit()]
    return max(ys, key=float)


@pytest.mark.parametrize(("units", "unit_cm"), [("metric", 1.0), ("imperial", 2.54)])
def test_the_hat_is_to_scale(units, unit_cm):
    """By its own rule the hat is as wide as a tube of its circumference (C / π), in centimetres and in inches."""
    plan, _, root = drawn(units=units)
    long, one = rule_along(root)
    corners = silhouette(root)
    width = max(x for x, _ in corners) - min(x for x, _ in corners)
    stitches = plan.cast_on.stitches

    expected = stitches / 2.2 / pi / unit_cm  # 22 stitches in 10 cm
    assert pytest.approx(expected, rel=0.01) == long / one
    assert pytest.approx(expected, rel=0.01) == width / one


def test_a_dome_is_drawn_as_the_hemisphere_it_follows():
    """Every corner of a dome of fine fabric lies near the circle it follows (geometry of the sphere), top aside."""
    fine = Gauge(stitches=60, rows=80)
    _, _, root = drawn(gauge=fine)
    corners = silhouette(root)
    left = min(x for x, _ in corners)
    radius = (max(x for x, _ in corners) - left) / 2
    axis = left + radius
    top = min(y for _, y in corners)

    crown = [(x - axis, y - (top + radius)) for x, y in corners if y < top + 0.9 * radius]
    assert len(crown) > 40
    off = [abs(sqrt(x * x + y * y) - radius) / radius for x, y in crown]
    assert max(off) < 0.08


def test_the_parts_add_up():
    """Brim, body and crown, as written beside the hat, are its height by the rule."""
    _, _, root = drawn(brim=Brim(kind="ribbed"))
    heights = {
        name: float(value)
        for name, value in (
            text.split() for text in texts(root) if re.match(r"(brim|body|crown) [\d.]+$", text)
        )
    }
    corners = silhouette(root)
    _, one = rule_along(root)
    tall = (max(y for _, y in corners) - min(y for _, y in corners)) / one

    assert {"brim", "body", "crown"} == set(heights)
    assert pytest.approx(tall, abs=0.2) == sum(heights.values())


@pytest.mark.parametrize("style", STYLES)
def test_the_head_stands_in_the_hat(style):
    """A sphere as wide as the hat, under the drawn top of the head, is nowhere outside the hat, and touches it."""
    plan, brim, _ = drawn(crown=CrownShape(style=style))
    outline = outline_of(plan, brim)
    middle = outline.head_top_mm - outline.radius_mm
    room = [
        across - sqrt(max(0.0, outline.radius_mm**2 - max(0.0, height - middle) ** 2))
        for across, height in outline.crown
        if height - middle <= outline.radius_mm
    ]

    assert min(room) >= -1e-6
    assert min(room) < 0.05 * outline.radius_mm


def test_brims_differ_in_more_than_words():
    """Each kind of brim has a texture of its own, and the key names it."""
    textures = set()
    for kind in ("rolled", "ribbed", "garter", "folded"):
        _, _, root = drawn(brim=Brim(kind=kind))
        assert f"{kind} brim" in key(root)
        textures.add(tuple(sorted((one.tag, one.get("class")) for one in root.iter())))
    assert 4 == len(textures)


def test_those_who_do_not_see_it_are_told():
    """The description has the sizes and the shape in words."""
    plan, _, root = drawn(crown=CrownShape(style="wedge", sections=8))

    about = said(root, "desc")
    assert f"{plan.cast_on.stitches} stitches" in about
    assert "8 sections" in about
    assert plan.crown.geometry.text in about


@settings(max_examples=60, deadline=None)
@given(
    head=st.floats(4, 100),
    stitches=st.floats(3, 100),
    rows=st.floats(3, 150),
    style=st.sampled_from(sorted(STYLES)),
    kind=st.sampled_from(["rolled", "ribbed", "garter", "folded"]),
    units=st.sampled_from(["metric", "imperial"]),
    title=st.none() | st.text(min_size=1, max_size=60),
)
def test_every_hat_is_drawn_or_refused(*, head, stitches, rows, style, kind, units, title):
    """Any hat that can be knitted has a picture that stands alone and is small."""
    request = HatRequest(
        gauge=Gauge(stitches=stitches, rows=rows),
        sizes=(HatSize(head=Length(head, "cm")),),
        crown=CrownShape(style=style),
        brim=Brim(kind=kind),
        units=units,
    )
    try:
        plan = hats(request, lambda *_: "").sizes[0]
    except Impossible:
        return

    picture = hat_profile(plan, request.brim, title=title)
    assert_stands_alone(picture)
    assert len(picture.encode()) < 60_000
