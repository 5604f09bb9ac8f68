"""Plans of hats as JSON, and requests for hats as a knitter might send them."""

import json
from typing import Any

import msgspec
from hypothesis import strategies as st

from roundwright import reference
from roundwright.knitting.crown.styles import STYLES
from roundwright.knitting.hat import plan as hat
from roundwright.knitting.hat import request as hat_request
from roundwright.knitting.hat.request import BRIM_SHARE
from roundwright.wording.writing import pattern as write

HELD = [
    {"magic_loop": {"value": 80, "unit": "cm"}},
    {"circulars": 2},
    {"circular": {"value": 40, "unit": "cm"}, "double_pointed": 4},
    {"circular": {"value": 12, "unit": "in"}},
]
"""Needles other than double-pointed ones."""

BABIES = [{"gestation_weeks": 36}, {"age_months": 0}, {"age_months": 3}, {"age_months": 6}]


def hats(**fields: Any) -> dict[str, Any]:
    """The answer as JSON."""
    fields.setdefault("gauge", {"stitches": 18, "rows": 24})
    request = msgspec.json.decode(json.dumps(fields), type=hat_request.HatRequest)
    return msgspec.json.decode(msgspec.json.encode(hat.hats(request, write.pattern), enc_hook=str))


sizes = st.one_of(
    st.builds(lambda age: {"age_months": age}, st.integers(0, 60)),
    st.builds(lambda weeks: {"gestation_weeks": weeks}, st.integers(24, 42)),
    st.sampled_from([{"adult": "woman"}, {"adult": "man"}, {"chart": "toddler"}]),
    st.builds(
        lambda cm: {"head": {"value": cm, "unit": "cm"}}, st.floats(25, 64).map(lambda cm: round(cm, 1))
    ),
)


@st.composite
def hat_requests(draw: st.DrawFn) -> dict[str, Any]:
    """A request as a knitter might send it."""
    stitches = draw(st.integers(12, 34))
    fullness = draw(st.sampled_from([None, 0, 12.5, 37.5, 60, 100]))
    return {
        "gauge": {"stitches": stitches, "rows": round(stitches * draw(st.floats(1.1, 1.6)), 1)},
        "sizes": draw(st.lists(sizes, min_size=1, max_size=5 if fullness is None or fullness else 12)),
        "needles": draw(st.sampled_from([None, 2, 3, 4, 5, *HELD])),
        "brim": {
            "kind": draw(st.sampled_from([*BRIM_SHARE])),
            "rib": {"knit": draw(st.integers(1, 6)), "purl": draw(st.integers(1, 6))},
        },
        "body": {
            "fullness": fullness,
            "adjust_in": draw(st.sampled_from([None, "body", "brim"])),
        },
        "crown": {"style": draw(st.sampled_from([None, *sorted(STYLES)]))},
        "silhouette": draw(st.sampled_from([None, *sorted(reference.silhouettes())])),
        "depth": draw(st.none() | st.builds(lambda cm: {"value": cm, "unit": "cm"}, st.integers(5, 40))),
    }
