"""Every picture as a browser draws it: on a phone, on a tablet and on a desk."""

import json

import pytest

from tests.support.handouts import REQUESTS

WIDTHS = [320, 768, 1280]
PICTURES = {
    **{name: (name, {}) for name in ("crown", "needles", "spacing")},
    "flat": ("profile", {"view": "flat"}),
    "worn": ("profile", {"view": "worn"}),
}
"""Each picture by what it shows: its address, and what is asked of it beside the example in the document."""
MEASURED = """() => {
    const svg = document.querySelector("svg"), page = svg.getBoundingClientRect();
    const shown = [...svg.querySelectorAll("text")].filter(text => text.getBoundingClientRect().width > 0);
    const boxes = texts => texts.map(text => [text.textContent, text.getBoundingClientRect()]);
    const texts = boxes(shown), level = boxes(shown.filter(text => Math.abs(text.getScreenCTM().b) < 0.001));
    const inside = (inner, outer) => inner.left > outer.left - 1 && inner.right < outer.right + 1
        && inner.top > outer.top - 1 && inner.bottom < outer.bottom + 1;
    const shared = (from, to, otherFrom, otherTo) =>
        Math.max(0, Math.min(to, otherTo) - Math.max(from, otherFrom)) / Math.min(to - from, otherTo - otherFrom);
    const overlaps = (box, other) => shared(box.left, box.right, other.left, other.right) > 0.05
        && shared(box.top, box.bottom, other.top, other.bottom) > 0.4;
    return {
        left: page.left, right: page.right, height: page.height, scrolled: document.documentElement.scrollWidth,
        texts: texts.length,
        cut: texts.filter(([, box]) => !inside(box, page)).map(([text]) => text),
        overlapping: level.flatMap(([text, box], place) => level.slice(place + 1)
            .filter(([, other]) => overlaps(box, other)).map(([other]) => [text, other])),
    };
}"""
"""Where the picture and the texts that it shows lie; a narrow chart shows every other number.

Lines of text may touch: a box reaches over the letters and below them. What is turned has a box that says little.
"""


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("picture", PICTURES)
def test_a_picture_fits_and_its_words_are_apart(picture, width, page, service):
    """In a page that lets it be as wide as there is room for, nothing sticks out, is cut off or lies on a word."""
    name, more = PICTURES[picture]
    example = json.loads((REQUESTS / f"draw-{name}.json").read_text())
    drawn = service.get(f"/v1/drawings/{name}.svg", params={**example, **more}).raise_for_status()
    page.set_viewport_size({"width": width, "height": 900})
    page.set_content(f"<style>svg {{ max-width: 100%; height: auto }}</style>{drawn.text}")
    seen = page.evaluate(MEASURED)

    assert seen["scrolled"] <= width
    assert 0 <= seen["left"] < seen["right"] <= width
    assert seen["height"] > 40
    assert seen["texts"] > 2
    assert [] == seen["cut"]
    assert [] == seen["overlapping"]
