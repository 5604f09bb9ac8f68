"""A hat on a head, from the front and to scale."""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from math import cos, pi, sin
from typing import Final, NamedTuple

from roundwright.drawing.hat_marks import (
    LABEL_HEIGHT,
    LABEL_SIZE,
    ROLLED_SHARE,
    Frame,
    Label,
    dots,
    front_decreases,
    label_length,
    labels,
)
from roundwright.drawing.svg import Markup, element, joined, px
from roundwright.drawing.theme import Block, text_line, text_width
from roundwright.knitting.hat.fabric import fabric_rows, hidden_mm
from roundwright.knitting.hat.plan import HatPlan
from roundwright.knitting.hat.request import Brim
from roundwright.knitting.hat.worn import EAR_HALF, WornHat, WornPlace, worn
from roundwright.knitting.quantities import mm
from roundwright.language import Words

TURNED_OUT_MM: Final = 2.5
"""Distance of a turned-up brim from the hat: the thickness of the fabric."""
MAX_BENDS: Final = 20
"""Points of a thin line: with more it looks no rounder."""
COLUMNS: Final = 14
"""Columns of stitches across the front."""
MAX_RIBS: Final = 40
"""Ribs drawn across the front: more than that look like one area."""
FOLDED_FROM: Final = 1.12
"""Fullness from which fabric is drawn in folds: less lies smooth."""
FOLDS: Final = 18
"""Folds across the front of gathered fabric."""
STANDS_MM: Final = 25.0
"""What stands up above the head before the fabric bends under its weight (common practice)."""
SLUMPS_FROM: Final = 0.65
"""Share of the head's circumference from which fabric at its crown is too wide to stand (common practice)."""
SLUMPED_SHARE: Final = 0.4
CAP_MM: Final = 16.0
"""How high fabric that hangs down behind lies above the head: a share of its length, and no more than two folds."""
MOST_BEND: Final = 2.7
"""Radians by which a long top bends: it hangs down the side."""
CHIN: Final = 0.4
"""From the crown to the chin, over the circumference of the head (from memory: a head is drawn to be recognised)."""
LABEL_WIDTHS: Final = (58.0, 76.0)
"""Room for labels on the left and on the right."""
BOLD_WIDTH: Final = 1.2
"""Bold letters are wider than plain text, by so much in the fonts that browsers have."""
COMPACT_LABEL_WIDTHS: Final = (40.0, 72.0)

MENTIONED_MM: Final = 5.0
"""What stands above the head is mentioned from here on."""

Point = tuple[float, float]


class Scene(NamedTuple):
    """A worn hat and where it stands on the picture."""

    hat: WornHat
    brim: Brim
    brim_mm: float
    """Height of the brim as worn."""
    bend_radius_mm: float
    slumps: bool = False
    """Whether what is above the head is as wide as the head, and sinks down instead of standing."""
    axis_x: float = 0.0
    crown_y: float = 0.0
    """Pixels of the crown of the head from the top."""
    scale: float = 1.0
    """Pixels of a millimetre."""

    def mm_of(self, across_mm: float, drop_mm: float) -> Point:
        """A place of the fabric, with the top bent over to the right: right of the axis and down, in millimetres."""
        if self.slumps and drop_mm < 0:
            return self._slumped(across_mm, -drop_mm)
        length = -drop_mm - STANDS_MM
        if length <= 0:
            return across_mm, drop_mm
        radius = self.bend_radius_mm
        bend = min(length / radius, MOST_BEND)
        straight = length - bend * radius
        across = radius * (1 - cos(bend)) + straight * sin(bend) + across_mm * cos(bend)
        up = radius * sin(bend) + straight * cos(bend) - across_mm * sin(bend)
        return across, -STANDS_MM - up

    def _slumped(self, across_mm: float, above_mm: float) -> Point:
        """A place above the head where wide fabric does not stand: a low cap, the rest hangs down behind it."""
        share = above_mm / self.hat.air_mm
        widest = next(place.radius_mm for place in self.hat.places if place.drop_mm >= 0)
        cap = widest * cos(pi / 2 * share)
        return max(-cap, min(across_mm, cap)), -self.cap_mm * sin(pi / 2 * share)

    @property
    def cap_mm(self) -> float:
        """How high fabric that hangs behind still lies above the head."""
        return min(CAP_MM, SLUMPED_SHARE * self.hat.air_mm)

    def point(self, across_mm: float, drop_mm: float) -> str:
        """A place of the fabric, as text for a path."""
        across, drop = self.mm_of(across_mm, drop_mm)
        return f"{px(self.axis_x + self.scale * across)} {px(self.crown_y + self.scale * drop)}"

    def path(self, across: float, places: Sequence[WornPlace]) -> str:
        """The path of a column of stitches; `across` is the sine of its turn from the front."""
        return "M" + "L".join([self.point(across * place.radius_mm, place.drop_mm) for place in places])

    def fine_path(self, across: float, places: Sequence[WornPlace]) -> str:
        """The path of a thin line, with fewer bends."""
        step = -(-len(places) // MAX_BENDS)
        return self.path(across, [*places[:-1:step], places[-1]])

    def outline(self, places: Sequence[WornPlace]) -> str:
        """The path around some fabric."""
        return self.path(-1, places[::-1]) + self.path(1, places).replace("M", "L", 1) + "Z"

    def across(self, along_mm: float) -> str:
        """The path of a round, so far from the tip."""
        place = self.place_at(along_mm)
        return f"M{self.point(-place.radius_mm, place.drop_mm)}L{self.point(place.radius_mm, place.drop_mm)}"

    def place(self, across_mm: float, drop_mm: float) -> str:
        """A place beside the fabric, as text for a path."""
        return f"{px(self.x(across_mm))} {px(self.y(drop_mm))}"

    def x(self, across_mm: float) -> float:
        """Pixels from the left."""
        return self.axis_x + self.scale * across_mm

    def y(self, drop_mm: float) -> float:
        """Pixels from the top."""
        return self.crown_y + self.scale * drop_mm

    def right_of(self, y: float) -> float:
        """Pixels from the left of what is drawn furthest to the right, about so far from the top."""
        points = [
            self.mm_of(side * place.radius_mm, place.drop_mm) for place in self.hat.places for side in (-1, 1)
        ]
        beside = [across for across, drop in points if abs(self.y(drop) - y) < 1.5 * LABEL_HEIGHT]
        behind = self.hat.head.radius_mm + 0.58 * min(self.hat.air_mm, self.hat.head.radius_mm) * self.slumps
        return self.x(max([1.22 * self.hat.head.radius_mm, behind, *beside]))

    def place_at(self, along_mm: float) -> WornPlace:
        """The place so far from the tip along the fabric."""
        places = self.hat.places
        index = min(max(bisect_left([place.along_mm for place in places], along_mm), 1), len(places) - 1)
        low, high = places[index - 1], places[index]
        span = high.along_mm - low.along_mm
        share = min(max((along_mm - low.along_mm) / span, 0.0), 1.0) if span else 0.0
        return WornPlace(*[a + share * (b - a) for a, b in zip(low, high, strict=True)])

    def places_between(self, start_mm: float, end_mm: float) -> list[WornPlace]:
        """The places of a stretch of fabric, with its ends."""
        inside = [place for place in self.hat.places if start_mm < place.along_mm < end_mm]
        return [self.place_at(start_mm), *inside, self.place_at(end_mm)]


def worn_hat(plan: HatPlan) -> WornHat:
    """One size of a hat on the head it is for."""
    return worn(fabric_rows(plan), mm(plan.measurements.head), hidden_mm(plan))


def slumps(hat: WornHat) -> bool:
    """Whether the fabric above the head is too wide to stand, as that of a slouch, and hangs down behind."""
    at_crown = next((place.rest_mm for place in hat.places if place.drop_mm >= 0), 0.0)
    return hat.air_mm > STANDS_MM and at_crown > SLUMPS_FROM * 2 * pi * hat.head.radius_mm


def worn_drawing(hat: WornHat, plan: HatPlan, brim: Brim, frame: Frame) -> Block:
    """The hat on the head, with the line of the ears and the stretch at the edge."""
    scene, height = _scene(hat, plan, brim, frame)
    markup = joined(
        (
            *_behind(scene),
            *_face(scene),
            *_fabric(scene, plan),
            _head_inside(scene),
            *_ear_line(scene),
            *_labels(scene, frame),
        )
    )
    return Block(markup, height)


def _scene(hat: WornHat, plan: HatPlan, brim: Brim, frame: Frame) -> tuple[Scene, float]:
    hidden = hidden_mm(plan)
    brim_mm = {"rolled": ROLLED_SHARE * hidden, "folded": hidden}.get(
        brim.edge, mm(plan.brim.length) if plan.brim.length else 0.0
    )
    above = [place.radius_mm for place in hat.places if place.drop_mm < -STANDS_MM]
    scene = Scene(hat, brim, min(brim_mm, hat.edge.along_mm), 1.5 * max([*above, 20.0]))
    scene = scene._replace(slumps=slumps(hat))
    head = hat.head
    outline = [scene.mm_of(side * place.radius_mm, place.drop_mm) for place in hat.places for side in (-1, 1)]
    ears = 1.25 * head.radius_mm
    left = min(-ears, min(across for across, _ in outline) - 2 * TURNED_OUT_MM)
    behind = head.radius_mm + 0.6 * min(hat.air_mm, head.radius_mm) if scene.slumps else 0.0
    right = max(ears, behind, max(across for across, _ in outline) + 2 * TURNED_OUT_MM)
    top = min(0.0, *(drop for _, drop in outline))
    bottom = max(CHIN * 2 * pi * head.radius_mm, hat.edge.drop_mm + 5)
    label_left, label_right = COMPACT_LABEL_WIDTHS if frame.compact else LABEL_WIDTHS
    room = frame.width - label_left - label_right
    scale = min(room / (right - left), frame.max_height / (bottom - top))
    axis_x = label_left + (room - scale * (right - left)) / 2 - scale * left
    placed = scene._replace(axis_x=axis_x, crown_y=6 - scale * top, scale=scale)
    return placed, 12 + scale * (bottom - top)


# --- head -----------------------------------------------------------------------------------------------------


def _behind(scene: Scene) -> Iterator[Markup]:
    """What hangs down behind the head, where it looks out at the side: folds over to the right, its tip lowest."""
    if not scene.slumps:
        return
    radius, length = scene.hat.head.radius_mm, min(scene.hat.air_mm, scene.hat.head.radius_mm)
    out, low, cap = radius + 0.55 * length, 0.45 * radius + 0.9 * length, scene.cap_mm
    path = (
        f"M{scene.place(0, -cap)}C{scene.place(0.8 * radius, -1.3 * cap)} {scene.place(out, 0.1 * radius)} "
        f"{scene.place(out, low - 0.35 * length)}C{scene.place(out, low)} {scene.place(radius, low)} "
        f"{scene.place(0.8 * radius, 0.8 * radius)}Z"
    )
    yield element("path", d=path, class_="tint line", stroke_width=1.8, stroke_linejoin="round")
    folds = [
        f"M{scene.place(share * out, begin * radius)}"
        f"Q{scene.place(1.02 * share * out, 0.6 * low)} {scene.place(0.97 * share * out, 0.85 * low)}"
        for share, begin in ((0.94, 0.5), (0.87, 0.3))
    ]
    yield element("path", d="".join(folds), class_="s hair", stroke_width=0.9)


def _face(scene: Scene) -> Iterator[Markup]:
    """The ears, and the head below the hat."""
    head = scene.hat.head
    radius, around, ear = head.radius_mm, 2 * pi * head.radius_mm, head.ear_drop_mm
    for side in (-1, 1):
        top, half = scene.y(ear - EAR_HALF * around), EAR_HALF * around * scene.scale
        inner, outer = px(scene.x(side * 0.97 * radius)), px(scene.x(side * 1.22 * radius))
        path = (
            f"M{inner} {px(top)}C{outer} {px(top - 0.2 * half)} {outer} {px(top + 1.7 * half)} "
            f"{inner} {px(top + 2 * half)}"
        )
        yield element("path", d=path, class_="on softline", stroke_width=1.4)
    left, right, chin = scene.x(-radius), scene.x(radius), px(scene.y(CHIN * around))
    brow, jaw = px(scene.y(radius)), px(scene.y(0.30 * around))
    path = (
        f"M{px(left)} {brow}V{px(scene.y(ear))}C{px(left)} {jaw} {px(scene.x(-0.62 * radius))} {chin} "
        f"{px(scene.axis_x)} {chin}S{px(right)} {jaw} {px(right)} {px(scene.y(ear))}V{brow}"
    )
    scalp = f"A{px(radius * scene.scale)} {px(radius * scene.scale)} 0 0 0 {px(left)} {brow}Z"
    yield element("path", d=path + scalp, class_="on softline", stroke_width=1.4)


def _head_inside(scene: Scene) -> Markup:
    """The head inside the hat, dotted."""
    radius = scene.hat.head.radius_mm
    low, arc = max(scene.hat.edge.drop_mm, 0.0), px(radius * scene.scale)
    brow = min(low, radius)
    half = scene.hat.head.radius_at(brow)
    path = (
        f"M{px(scene.x(-half))} {px(scene.y(low))}V{px(scene.y(brow))}"
        f"A{arc} {arc} 0 0 1 {px(scene.x(half))} {px(scene.y(brow))}V{px(scene.y(low))}"
    )
    return element(
        "path", d=path, class_="s softline", stroke_width=1.8, stroke_dasharray="0 5", stroke_linecap="round"
    )


def _ear_line(scene: Scene) -> Iterator[Markup]:
    y = px(scene.y(scene.hat.head.ear_drop_mm))
    left, right = px(scene.x(-1.22 * scene.hat.head.radius_mm)), px(scene.x(1.12 * scene.hat.head.radius_mm))
    yield element(
        "path", d=f"M{left} {y}H{right}", class_="s slideline", stroke_width=1.4, stroke_dasharray="7 4"
    )


# --- hat ------------------------------------------------------------------------------------------------------


def _fabric(scene: Scene, plan: HatPlan) -> Iterator[Markup]:
    outline = scene.outline(scene.hat.places)
    yield element("path", d=outline, class_="tint")
    crown_mm = mm(plan.measurements.crown_depth) if plan.measurements.crown_depth else 0.0
    brim_from = scene.hat.edge.along_mm - scene.brim_mm
    smooth = scene.places_between(0.0, brim_from)
    columns = [scene.fine_path(sin(pi * (c / COLUMNS - 0.5)), smooth) for c in range(1, COLUMNS)]
    yield element("path", d="".join(columns), class_="s hair", stroke_width=0.7)
    yield from _folds(scene)
    marks = [
        scene.point(sin(turn) * place.radius_mm, place.drop_mm)
        for index, turn in front_decreases(plan.crown)
        for place in [scene.place_at(crown_mm * (1 - (index + 0.5) / len(plan.crown.rounds)))]
    ]
    if marks:
        yield dots(marks)
    if crown_mm:
        start = scene.across(crown_mm)
        yield element("path", d=start, class_="s softline", stroke_width=1, stroke_dasharray="5 4")
    yield element("path", d=outline, class_="s line", stroke_width=1.8, stroke_linejoin="round")
    yield from _brim(scene, plan)


def _folds(scene: Scene) -> Iterator[Markup]:
    """The folds of gathered fabric: as many as it is full, short ones between long ones."""
    paths = []
    for run in _full_runs(scene.hat.places, 0.1 * scene.hat.head.radius_mm):
        fullest = max(place.fullness for place in run)
        folds = min(FOLDS, 4 + round(14 * (fullest - 1)))
        for fold in range(folds):
            across = sin(pi * ((fold + 0.5) / folds - 0.5))
            part = run if fold % 2 == 0 else run[: max(2, len(run) * 2 // 3)]
            paths.append(scene.fine_path(across, part))
    if paths:
        yield element("path", d="".join(paths), class_="s line", stroke_width=1.1, stroke_linecap="round")


def _full_runs(places: Sequence[WornPlace], from_radius_mm: float) -> Iterator[list[WornPlace]]:
    """The runs of places whose fabric lies in folds, away from the tip, where every hat is drawn up."""
    run: list[WornPlace] = []
    for place in places:
        if place.radius_mm > from_radius_mm and place.fullness > FOLDED_FROM:
            run.append(place)
        else:
            if len(run) > 1:
                yield run
            run = []
    if len(run) > 1:
        yield run


def _brim(scene: Scene, plan: HatPlan) -> Iterator[Markup]:
    """The brim with its texture; a turned-up or rolled brim lies over the hat."""
    edge, kind = scene.hat.edge, scene.brim.edge
    if not scene.brim_mm:
        return
    if kind == "rolled":
        yield _roll(scene)
        return
    out = TURNED_OUT_MM if kind == "folded" else 0.0
    band = [
        place._replace(radius_mm=place.radius_mm + out)
        for place in scene.places_between(edge.along_mm - scene.brim_mm, edge.along_mm)
    ]
    yield element(
        "path", d=scene.outline(band), class_="tint line", stroke_width=1.6, stroke_linejoin="round"
    )
    lines = _ridges(scene, plan) if kind == "garter" else _ribs(scene, plan, band)
    yield element("path", d="".join(lines), class_="s softline", stroke_width=1)


def _roll(scene: Scene) -> Markup:
    edge, height = scene.hat.edge, scene.brim_mm * scene.scale
    half = edge.radius_mm * scene.scale + 0.3 * height
    return element(
        "rect",
        x=scene.axis_x - half,
        y=scene.y(edge.drop_mm) - height,
        width=2 * half,
        height=height,
        rx=height / 2,
        class_="tint line",
        stroke_width=1.6,
    )


def _ridges(scene: Scene, plan: HatPlan) -> Iterator[str]:
    ridges = max(1, min(plan.brim.rounds // 2, int(scene.brim_mm * scene.scale / 4)))
    for ridge in range(ridges):
        yield scene.across(scene.hat.edge.along_mm - scene.brim_mm * (ridge + 0.5) / ridges)


def _ribs(scene: Scene, plan: HatPlan, band: Sequence[WornPlace]) -> Iterator[str]:
    ribs = max(2, min(plan.cast_on.stitches // scene.brim.repeat // 2, MAX_RIBS))
    for rib in range(ribs):
        yield scene.fine_path(sin(pi * ((rib + 0.5) / ribs - 0.5)), band)


# --- labels ---------------------------------------------------------------------------------------------------


def _labels(scene: Scene, frame: Frame) -> Iterator[Markup]:
    hat, radius = scene.hat, scene.hat.head.radius_mm
    left, ear_y = scene.x(-1.25 * radius) - 2, scene.y(hat.head.ear_drop_mm) + 4
    words = frame.words
    ears = words.say("picture.ears")
    size = LABEL_SIZE * min(
        1.0, left / (BOLD_WIDTH * text_width(ears, LABEL_SIZE))
    )  # a longer word is smaller
    yield text_line(left, ear_y, ears, size, "slide b e")
    edge_y = scene.y(hat.edge.drop_mm - scene.brim_mm / 2)
    beside = [Label(words.say("picture.edge"), stretch_text(hat.edge, words), edge_y)]
    if hat.air_mm > MENTIONED_MM:
        above_y = scene.y(scene.mm_of(0.0, -hat.air_mm / 2)[1])
        name = words.say("picture.behind" if scene.slumps else "picture.above")
        beside.append(Label(name, label_length(hat.air_mm, frame.unit, words), above_y))
    if len(beside) > 1 and abs(beside[0].y - beside[1].y) > LABEL_HEIGHT:
        for label in beside:
            yield from labels([label], scene.right_of(label.y) + 8)
    else:
        yield from labels(beside, max(scene.right_of(label.y) for label in beside) + 8)


def stretch_text(place: WornPlace, words: Words) -> str:
    """The stretch of a place: `+12 %`."""
    percent = round(100 * (place.stretch - 1))
    return words.say("picture.stretched", percent=percent) if percent else words.say("picture.at_rest")
