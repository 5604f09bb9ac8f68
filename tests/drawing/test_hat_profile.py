"""The picture of a hat from the side."""

import re
from math import pi, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from roundwright.drawing.hat_profile import hat_profile
from roundwright.knitting.answers import Impossible
from roundwright.knitting.crown.request import CrownShape
from roundwright.knitting.crown.styles import STYLES
from roundwright.knitting.hat.plan import hats
from roundwright.knitting.hat.request import Brim, HatRequest, HatSize
from roundwright.knitting.quantities import Gauge, Length
from tests.support.picture_reader import assert_stands_alone, elements, key_text, parsed, text_of, texts

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


def edge_ruler(root) -> tuple[float, float]:
    """Pixels of the ruler along the edge, and pixels of one of its units, from where its numbers are."""
    numbers = [text for text in elements(root, "text", "m") if (text.text or "").isdigit()]
    lowest = max((text.get("y") for text in numbers), key=float)
    first, *_, last = [text for text in numbers if text.get("y") == lowest]
    unit_px = (float(last.get("x")) - float(first.get("x"))) / (int(last.text) - int(first.text))
    (line,) = [
        path
        for path in elements(root, "path", "line")
        if re.match(r"M\S+ \S+h[1-9][\d.]*M\S+ \S+v", path.get("d"))
    ]
    return float(re.match(r"M\S+ \S+h([\d.]+)", line.get("d"))[1]), unit_px


@pytest.mark.parametrize(("units", "unit_cm"), [("metric", 1.0), ("imperial", 2.54)])
def test_the_hat_is_to_scale(units, unit_cm):
    """By its own ruler the hat is as wide as a tube of its circumference (C / π), in centimetres and in inches."""
    plan, _, root = drawn(units=units)
    ruler_px, unit_px = edge_ruler(root)
    corners = silhouette(root)
    width = max(x for x, _ in corners) - min(x for x, _ in corners)
    stitches = plan.cast_on.stitches

    expected = stitches / 2.2 / pi / unit_cm  # 22 stitches in 10 cm
    assert pytest.approx(expected, rel=0.01) == ruler_px / unit_px
    assert pytest.approx(expected, rel=0.01) == width / unit_px


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
    deviations = [abs(sqrt(x * x + y * y) - radius) / radius for x, y in crown]
    assert max(deviations) < 0.08


def test_the_parts_add_up():
    """Brim, body and crown, as written beside the hat, are its height by the ruler."""
    _, _, root = drawn(brim=Brim(kind="ribbed"))
    heights = {
        name: float(value)
        for name, value in (
            text.split() for text in texts(root) if re.match(r"(brim|body|crown) [\d.]+$", text)
        )
    }
    corners = silhouette(root)
    _, unit_px = edge_ruler(root)
    height = (max(y for _, y in corners) - min(y for _, y in corners)) / unit_px

    assert {"brim", "body", "crown"} == set(heights)
    assert pytest.approx(height, abs=0.2) == sum(heights.values())


def test_brims_differ_in_more_than_words():
    """Each kind of brim has a texture of its own, and the key names it."""
    textures = set()
    for kind in ("rolled", "ribbed", "garter", "folded"):
        _, _, root = drawn(brim=Brim(kind=kind))
        assert f"{kind} brim" in key_text(root)
        textures.add(tuple(sorted((element.tag, element.get("class")) for element in root.iter())))
    assert 4 == len(textures)


def test_the_description_has_the_sizes_and_the_shape():
    """A reader who does not see the picture gets the same in words."""
    plan, _, root = drawn(crown=CrownShape(style="wedge", sections=8))

    description = text_of(root, "desc")
    assert f"{plan.cast_on.stitches} stitches" in description
    assert "8 sections" in description
    assert plan.crown.geometry.text in description


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
