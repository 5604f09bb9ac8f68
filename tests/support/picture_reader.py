"""A reader of pictures for the tests: a general XML parser, which knows nothing of how they are made."""

import re
from collections.abc import Iterator
from math import atan2, degrees, hypot, pi
from xml.etree import ElementTree as ET

SVG = "{http://www.w3.org/2000/svg}"


def parsed(picture: str) -> ET.Element:
    """The root of a picture; fails where it is not well-formed XML."""
    root = ET.fromstring(picture)
    assert root.tag == f"{SVG}svg"
    return root


def elements(root: ET.Element, name: str, css_class: str = "") -> Iterator[ET.Element]:
    """The elements of this name and, if given, this class."""
    for element in root.iter(f"{SVG}{name}"):
        if not css_class or css_class in element.get("class", "").split():
            yield element


def texts(root: ET.Element, css_class: str = "") -> list[str]:
    """The texts, in the order of the file."""
    return ["".join(text.itertext()) for text in elements(root, "text", css_class)]


def text_of(root: ET.Element, name: str) -> str:
    """The text of `title` or `desc`."""
    element = root.find(f"{SVG}{name}")
    assert element is not None
    return "".join(element.itertext())


def symbols(root: ET.Element) -> list[str]:
    """The symbols of the chart, without those of its key."""
    body = root.findall(f"{SVG}g")[1]
    return [
        "".join(text.itertext())
        for holder in body.iter()
        if "on" in holder.get("class", "").split()
        for text in ([holder] if holder.tag == f"{SVG}text" else holder.iter(f"{SVG}text"))
    ]


def label_boxes(root: ET.Element) -> list[tuple[str, float, float, float, float]]:
    """The labels between heading and key: text, left, top, right and bottom, in letters 0.58 of their size wide."""
    boxes = []
    for text in root.findall(f"{SVG}g")[1].iter(f"{SVG}text"):
        content, size = "".join(text.itertext()), float(text.get("font-size", "0"))
        x, y, width = float(text.get("x", "0")), float(text.get("y", "0")), 0.58 * size * len(content)
        anchor = text.get("class", "").split()
        left = x - width if "e" in anchor else x - width / 2 if "m" in anchor else x
        boxes.append((content, left, y - 0.75 * size, left + width, y + 0.2 * size))
    return boxes


def key_text(root: ET.Element) -> str:
    """The texts of the key."""
    return " ".join("".join(text.itertext()) for text in root.findall(f"{SVG}g")[2].iter(f"{SVG}text"))


def ring_cells(root: ET.Element) -> list[float]:
    """Cells of each ring of a round chart: the length of its arc over the distance between two dashes."""
    counts = []
    for path in elements(root, "path", "hair"):
        dashes, d = path.get("stroke-dasharray"), path.get("d", "")
        if dashes and "A" in d and path.get("stroke-dashoffset"):
            line, gap = (float(part) for part in dashes.split())
            radius = float(d.partition("A")[2].split()[0])
            counts.append(turn(d) / 360 * 2 * pi * radius / (line + gap))
    return counts


def turn(d: str) -> float:
    """Degrees of the arc of a path around the origin."""
    start, _, rest = d.removeprefix("M").partition("A")
    x, y = (float(part) for part in start.split())
    *_, large, _, to_x, to_y = (float(part) for part in rest.split())
    angle = (degrees(atan2(to_y, to_x)) - degrees(atan2(y, x))) % 360
    assert (angle > 180) == bool(large)
    assert abs(hypot(x, y) - hypot(to_x, to_y)) < 0.2
    return angle


def assert_stands_alone(picture: str) -> None:
    """Check that a picture loads and runs nothing, has only numbers as numbers, and has title and description."""
    root = parsed(picture)
    allowed = {"svg", "title", "desc", "style", "g", "path", "rect", "circle", "polygon", "text", "tspan"}
    for element in root.iter():
        assert element.tag.removeprefix(SVG) in allowed
        for name, value in element.attrib.items():
            assert "href" not in name
            assert not name.startswith("on")
            assert "url(" not in value
            assert not re.search(r"(?<![a-z])(nan|inf|None)(?![a-z])", value)
    for style in root.iter(f"{SVG}style"):
        assert "url(" not in (style.text or "")
        assert "@import" not in (style.text or "")
    assert root.get("role") == "img"
    assert [element.get("id") for element in root if element.get("id")] == root.get(
        "aria-labelledby", ""
    ).split()
    left, top, width, height = (float(part) for part in root.get("viewBox", "").split())
    assert (left, top) == (0, 0)
    assert width >= 480
    assert abs(int(root.get("width", "0")) / int(root.get("height", "1")) - width / height) < 0.01
    assert text_of(root, "title")
    assert text_of(root, "desc")
