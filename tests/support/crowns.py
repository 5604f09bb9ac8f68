"""Crowns for the tests of their charts."""

from typing import Any

from roundwright.knitting.crown.crown import CrownAnswer, crown
from roundwright.knitting.crown.request import CrownRequest
from roundwright.knitting.quantities import Gauge

GAUGE = Gauge(stitches=22, rows=30)


def crown_of(**fields: Any) -> CrownAnswer:
    """A crown of wedges on 88 stitches, with some fields changed."""
    return crown(CrownRequest(**{"stitches": 88, "style": "wedge", "gauge": GAUGE, **fields}))
