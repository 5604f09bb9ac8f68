"""The pictures of a hat: worn on a head, and laid flat with its measures."""

import re
from fractions import Fraction

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from roundwright.drawing.hat_flat import BOLD
from roundwright.drawing.hat_profile import hat_figures, hat_profile
from roundwright.knitting.answers import Impossible
from roundwright.knitting.crown.request import CrownShape
from roundwright.knitting.crown.styles import STYLES
from roundwright.knitting.hat.plan import hats
from roundwright.knitting.hat.request import Body, Brim, HatRequest, HatSize
from roundwright.knitting.quantities import Gauge, Length
from roundwright.language import LANGUAGES, words_of
from tests.support.picture_reader import (
    assert_stands_alone,
    elements,
    key_text,
    label_boxes,
    parsed,
    text_of,
    texts,
)

GAUGE = Gauge(stitches=22, rows=30)
BRIMS = ["rolled", "ribbed", "garter", "folded"]


def planned(head=56.0, **fields):
    request = HatRequest(
        **{
            "gauge": GAUGE,
            "sizes": (HatSize(head=Length(head, "cm")),),
            "crown": CrownShape(style="wedge"),
            **fields,
        }
    )
    return hats(request, lambda *_: "").sizes[0], request.brim


def drawn(view, **fields):
    plan, brim = planned(**fields)
    return plan, parsed(hat_profile(plan, brim, view=view))


def corners(root) -> list[tuple[float, float]]:
    """The corners of the hat: of the first area of fabric."""
    ground = next(path for path in elements(root, "path") if path.get("class") == "tint")
    return [(float(x), float(y)) for x, y in re.findall(r"(-?[\d.]+) (-?[\d.]+)", ground.get("d"))]


def measures(root) -> dict[str, float]:
    """The lengths beside the hat, by the name above each."""
    found, name = {}, ""
    for text in texts(root):
        if match := re.fullmatch(r"([\d./ ]+) (cm|in)", text):
            found[name] = number(match[1])
        elif match := re.fullmatch(r"([\d./ ]+) (cm|in) wide.*", text):
            found["wide"] = number(match[1])
        name = text
    return found


def number(text: str) -> float:
    """A number as printed: `18.5`, `7/8`, `7 1/4`."""
    return float(sum(map(Fraction, text.split())))


@pytest.mark.parametrize(("units", "unit_cm", "step"), [("metric", 1.0, 0.1), ("imperial", 2.54, 0.25)])
@pytest.mark.parametrize("kind", BRIMS)
def test_a_flat_hat_is_half_as_wide_as_around_and_as_high_as_its_rounds(units, unit_cm, step, kind):
    """Half of the stitches at 22 in 10 cm wide, rounds at 30 in 10 cm high, of garter at 44; the parts add up.

    In tenths of a centimetre, or as a tape in inches is read: in quarters, eighths of what is short.
    """
    plan, root = drawn("flat", units=units, brim=Brim(kind=kind))
    lengths = measures(root)
    in_brim = plan.brim.rounds / (4.4 if kind == "garter" else 3)
    heights = (in_brim, plan.body.rounds / 3, len(plan.crown.rounds) / 3)

    assert lengths["wide"] == pytest.approx(plan.cast_on.stitches / 2 / 2.2 / unit_cm, abs=step / 2 + 0.01)
    assert [lengths[part] for part in ("brim", "body", "crown")] == pytest.approx(
        [height / unit_cm for height in heights], abs=step / 2 + 0.01
    )
    assert lengths["in all"] == pytest.approx(sum(heights) / unit_cm, abs=step / 2 + 0.01)


@pytest.mark.parametrize("style", STYLES)
def test_a_flat_hat_is_to_scale(style):
    """Its outline is as high for its width as the measures say, and half as wide at the top as the last round."""
    plan, root = drawn("flat", crown=CrownShape(style=style))
    lengths, outline = measures(root), corners(root)
    width = max(x for x, _ in outline) - min(x for x, _ in outline)
    top = min(y for _, y in outline)
    height = max(y for _, y in outline) - top
    at_top = [x for x, y in outline if y == top]

    assert height / width == pytest.approx(lengths["in all"] / lengths["wide"], rel=0.01)
    assert (max(at_top) - min(at_top)) / width <= (
        plan.crown.rounds[-1].before
    ) / plan.cast_on.stitches + 0.01


def levels(root, css_class) -> list[tuple[float, float]]:
    """The lines across the hat, which are longer than those of the key: how wide each is, and its height."""
    lines = (
        re.fullmatch(r"M([\d.]+) ([\d.]+)H([\d.]+)", path.get("d"))
        for path in elements(root, "path", css_class)
    )
    across = [(float(line[3]) - float(line[1]), float(line[2])) for line in lines if line]
    return [(width, y) for width, y in across if width > 28]


@pytest.mark.parametrize("style", ["quick", "wedge", "gathered"])
def test_a_flat_hat_is_as_wide_as_its_body_up_to_the_crown(style):
    """Decreases begin at the line of the crown: below it the hat is half as wide as around."""
    _, root = drawn("flat", crown=CrownShape(style=style))
    outline = corners(root)
    widest = max(x for x, _ in outline) - min(x for x, _ in outline)
    across, crown_y = min(levels(root, "softline"), key=lambda level: level[1])

    assert across == pytest.approx(widest, abs=0.2)
    assert min(y for x, y in outline if x == min(x for x, _ in outline)) == pytest.approx(crown_y, abs=0.1)


def test_a_flat_hat_is_turned_up_where_that_leaves_its_depth():
    """From the fold to the top it is as deep, by the scale of the picture, as the text says."""
    plan, root = drawn("flat", brim=Brim(kind="folded", length=Length(4.4, "cm")))
    heights = [y for _, y in corners(root)]
    ((_, fold_y),) = levels(root, "slideline")
    in_all_cm = plan.measurements.edge_to_crown.value + plan.measurements.crown_depth.value
    deep_cm = (fold_y - min(heights)) / (max(heights) - min(heights)) * in_all_cm

    assert deep_cm == pytest.approx(plan.measurements.depth.value, abs=0.02)
    assert f"{plan.measurements.depth.value:.1f} cm deep" in text_of(root, "desc")


def test_the_stretch_at_the_edge_is_said():
    """A hat a tenth smaller than the head is worn a ninth wider (1 / 0.9): in words and beside the edge."""
    plan, root = drawn("worn", brim=Brim(kind="ribbed"))
    stretch = 56.0 / (plan.cast_on.stitches / 2.2) - 1

    assert f"{100 * stretch:.0f} % wider at the brim" in text_of(root, "desc")
    assert f"+{100 * stretch:.0f} %" in texts(root)


@pytest.mark.parametrize(
    ("body", "words"),
    [(8.0, "Ends above the ears"), (11.0, "reaches the middle of the ears"), (14.0, "Covers the ears")],
)
def test_where_the_hat_reaches_is_said(body, words):
    """The ears of a head of 56 cm are 17.9 cm from its crown along the scalp (0.32 of the head); the crown takes 7."""
    plan, root = drawn("worn", body=Body(length=Length(body, "cm")), brim=Brim(kind="ribbed"))

    assert 7 == round(plan.measurements.crown_depth.value)
    assert words in text_of(root, "desc")
    assert "ears" in texts(root)


def test_the_ear_line_lies_where_ears_are():
    """0.228 of the head's circumference below its crown (vertex to tragion), by the width of the same head."""
    _, root = drawn("worn")
    (line,) = [path for path in elements(root, "path", "slideline") if path.get("stroke-dasharray") == "7 4"][
        :1
    ]
    head = next(path for path in elements(root, "path", "on") if "A" in path.get("d"))
    radius = float(re.search(r"A([\d.]+)", head.get("d"))[1])
    brow = re.match(r"M[\d.]+ ([\d.]+)", head.get("d"))[1]
    ear_y = float(re.match(r"M[\d.]+ ([\d.]+)H", line.get("d"))[1])

    drop = ear_y - (float(brow) - radius)
    assert drop / (2 * 3.14159 * radius) == pytest.approx(0.228, abs=0.003)


def test_gathered_fabric_is_drawn_in_folds():
    """A gathered crown has more fabric than head at its top; that of a dome lies smooth."""
    _, gathered = drawn("worn", crown=CrownShape(style="gathered"))
    _, dome = drawn("worn", crown=CrownShape(style="dome"))

    assert "folds" in key_text(gathered)
    assert "in folds" in text_of(gathered, "desc")
    assert "folds" not in key_text(dome)


def test_a_silhouette_is_drawn_with_its_brim(service):
    """The picture of a cuffed hat has a folded brim, as that silhouette has where the request names none."""
    query = {"gauge_stitches": 22, "adult": "woman", "silhouette": "cuffed"}
    answer = service.get("/v1/drawings/profile.svg", params=query)

    assert "folded brim" in key_text(parsed(answer.text))


@pytest.mark.parametrize("view", ["worn", "flat"])
def test_brims_differ_in_more_than_words(view):
    """Each kind of brim has a texture of its own, and the key names it."""
    textures = set()
    for kind in BRIMS:
        _, root = drawn(view, brim=Brim(kind=kind), body=Body(length=Length(16, "cm")))
        assert f"{kind} brim" in key_text(root)
        textures.add(tuple(path.get("d") for path in elements(root, "path", "softline")))
    assert 4 == len(textures)


@pytest.mark.parametrize("view", ["worn", "flat"])
def test_the_description_has_the_sizes_and_the_shape(view):
    """A reader who does not see the picture gets the same in words."""
    plan, root = drawn(view, crown=CrownShape(style="wedge", sections=8))

    description = text_of(root, "desc")
    assert f"{plan.cast_on.stitches} stitches" in description
    assert "8 sections" in description
    assert plan.crown.geometry.text in description


def test_the_head_in_the_caption_is_that_of_the_pattern():
    """6 years, 51.3 cm: the pattern beside it has 51.5 cm, as a tape is read (common practice)."""
    plan, brim = planned(51.304)
    worn, _ = hat_figures(plan, brim)
    assert "on a head of 51.5 cm" in worn.caption


@pytest.mark.parametrize(
    ("label", "begins"), [("Kind 6 J.", "Kind 6 J. Worn"), ("six years", "Six years. Worn")]
)
def test_an_abbreviation_ends_a_sentence_with_its_own_stop(label, begins):
    """`J.` has the full stop already (common practice)."""
    plan, brim = planned()
    worn, _ = hat_figures(msgspec.structs.replace(plan, label=label), brim)
    assert worn.caption.startswith(begins)


def test_a_handout_has_both_views():
    """Worn and laid flat, with what they say as the line under each and in their descriptions."""
    plan, brim = planned(brim=Brim(kind="ribbed"))
    worn, flat = hat_figures(plan, brim)

    assert {"ears", "edge"} <= set(texts(parsed(worn.picture)))
    assert {"brim", "body", "crown"} <= set(texts(parsed(flat.picture)))
    assert "wider at the brim" in worn.caption
    assert "Laid flat" in flat.caption
    for figure in (worn, flat):
        assert figure.caption in text_of(parsed(figure.picture), "desc")


@settings(max_examples=100, deadline=None)
@given(
    head=st.floats(4, 100),
    stitches=st.floats(3, 100),
    rows=st.floats(3, 150),
    style=st.sampled_from(sorted(STYLES)),
    kind=st.sampled_from(BRIMS),
    body=st.none() | st.floats(1, 90),
    fullness=st.none() | st.floats(0, 100),
    units=st.sampled_from(["metric", "imperial"]),
    view=st.sampled_from(["worn", "flat"]),
    title=st.none() | st.text(min_size=1, max_size=60),
)
def test_every_hat_is_drawn_or_refused(
    *, head, stitches, rows, style, kind, body, fullness, units, view, title
):
    """Any hat that can be knitted has a picture that stands alone, is small, and lies within its frame."""
    request = HatRequest(
        gauge=Gauge(stitches=stitches, rows=rows),
        sizes=(HatSize(head=Length(head, "cm")),),
        crown=CrownShape(style=style),
        brim=Brim(kind=kind),
        body=Body(length=Length(body, "cm") if body else None, fullness=fullness),
        units=units,
    )
    try:
        plan = hats(request, lambda *_: "").sizes[0]
    except Impossible:
        return

    picture = hat_profile(plan, request.brim, view=view, title=title)
    assert_stands_alone(picture)
    assert len(picture.encode()) < 60_000
    assert all(-1 <= x <= 481 for x, _ in corners(parsed(picture)))
    boxes = label_boxes(parsed(picture))
    for name, left, top, right, bottom in boxes:
        assert left >= 0, name
        assert right <= 480, name
        for other, other_left, other_top, other_right, other_bottom in boxes:
            if (name, top) != (other, other_top):
                apart = (
                    right <= other_left or other_right <= left or bottom <= other_top or other_bottom <= top
                )
                assert apart, (name, other)


@pytest.mark.parametrize("code", LANGUAGES)
def test_names_of_parts_fit_beside_the_hat_in_every_language(code):
    """They are bold, and long words in some languages."""
    (plan, brim), words = planned(), words_of(code)
    boxes = label_boxes(parsed(hat_profile(plan, brim, view="flat", words=words)))
    names = {words.say(f"picture.part.{part}") for part in ("brim", "body", "crown")}
    ends = {name: left + BOLD * (right - left) for name, left, _, right, _ in boxes if name in names}
    assert ends.keys() == names
    assert max(ends.values()) <= 480


@pytest.mark.parametrize("view", ["worn", "flat"])
def test_inches_are_those_of_a_tape(view):
    """No hundredths of an inch: quarters, and eighths of what is less than three inches (common practice)."""
    _, root = drawn(view, units="imperial", brim=Brim(kind="folded"))
    printed = [*texts(root), text_of(root, "desc")]

    assert not any(re.search(r"[0-9]\.[0-9]+ in\b", text) for text in printed)
    assert any(re.search(r"[0-9] [13]/[48] in\b", text) for text in printed)


def test_a_slouch_hangs_and_does_not_stand():
    """Fabric as wide as the head is too soft to stand above it: it lies on the head and hangs down behind.

    A point is narrow, and stands before it bends over.
    """
    heights = {}
    for silhouette in ("slouch", "pointed"):
        plan, brim = planned(silhouette=silhouette, crown=CrownShape())
        root = parsed(hat_profile(plan, brim, view="worn"))
        ears = next(
            float(text.get("y")) for text in elements(root, "text") if "".join(text.itertext()) == "ears"
        )
        heights[silhouette] = ears - min(y for _, y in corners(root))
        assert ("behind" in texts(root)) == (silhouette == "slouch")
        assert ("hangs down behind" in text_of(root, "desc")) == (silhouette == "slouch")

    assert heights["slouch"] < heights["pointed"]


def test_a_little_more_than_the_head_does_not_hang():
    """Fabric bends under its weight from 2.5 cm on (common practice): a gathered top a little high stands."""
    plan, brim = planned(head=25.8, crown=CrownShape(style="gathered"), brim=Brim(kind="folded"))

    assert "behind" not in texts(parsed(hat_profile(plan, brim, view="worn")))
