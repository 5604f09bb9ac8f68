"""The hat from the side, in millimetres."""

from math import sqrt

import pytest

from roundwright.drawing.outline import outline_of
from roundwright.knitting.crown.request import CrownShape
from roundwright.knitting.crown.styles import STYLES
from roundwright.knitting.hat.plan import hats
from roundwright.knitting.hat.request import HatRequest, HatSize
from roundwright.knitting.quantities import Gauge, Length


@pytest.mark.parametrize("style", STYLES)
def test_the_head_fits_in_the_hat(style):
    """A sphere as wide as the hat, its top where the head's is drawn, touches the hat and is nowhere outside it."""
    request = HatRequest(
        gauge=Gauge(stitches=22, rows=30),
        sizes=(HatSize(head=Length(56, "cm")),),
        crown=CrownShape(style=style),
    )
    outline = outline_of(hats(request, lambda *_: "").sizes[0], request.brim)
    centre = outline.head_top_mm - outline.radius_mm
    distances = [
        across - sqrt(max(0.0, outline.radius_mm**2 - max(0.0, height - centre) ** 2))
        for across, height in outline.crown
        if height - centre <= outline.radius_mm
    ]

    assert min(distances) >= -1e-6
    assert min(distances) < 0.05 * outline.radius_mm
