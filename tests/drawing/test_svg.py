"""SVG that is well-formed whatever its texts are."""

import re
from xml.etree import ElementTree as ET

from hypothesis import given
from hypothesis import strategies as st

from roundwright.drawing.svg import Markup, element, joined, px

ILLEGAL = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""What XML 1.0 excludes (section 2.2, production 2)."""


@given(st.text(), st.text())
def test_any_text_is_kept_as_text(content, attribute):
    """Text comes back from a general XML parser as it was, but for what XML 1.0 cannot hold."""
    parsed = ET.fromstring(element("a", content, title=attribute))

    legal = ILLEGAL.sub("\ufffd", content).replace("\r\n", "\n").replace("\r", "\n")  # XML 1.0, 2.11
    assert legal == (parsed.text or "")
    normalized = re.sub("\r\n|[\t\n\r]", " ", ILLEGAL.sub("\ufffd", attribute))  # XML 1.0, 3.3.3
    assert normalized == parsed.attrib["title"]
    assert [] == list(parsed)


def test_markup_is_not_escaped_twice():
    """An element inside an element stays one; plain text beside it is escaped."""
    inner = element("b", "x < y")

    assert "<a><b>x &lt; y</b>&amp;</a>" == element("a", inner, "&")
    assert isinstance(joined((inner, "<")), Markup)


def test_attributes_are_named_as_svg_names_them():
    """Underscores become hyphens, a final one is left out, and an attribute that is None is left out."""
    markup = element("a", class_="m", stroke_width=1.25, viewBox="0 0 1 1", rx=None)

    assert '<a class="m" stroke-width="1.2" viewBox="0 0 1 1"/>' == markup


@given(st.floats(-1e6, 1e6))
def test_numbers_are_short_and_near(value):
    """A number has no exponent and is within a twentieth of a pixel."""
    written = px(value)

    assert re.fullmatch(r"-?[0-9]+(\.[1-9])?", written)
    assert abs(float(written) - value) <= 0.05 + 1e-9
