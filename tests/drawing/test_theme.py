"""How pictures look: contrast, themes, wrapping."""

import re

import pytest

from roundwright.drawing.theme import DARK, LIGHT, Palette, style_sheet, text_width, wrapped


def luminance(colour: str) -> float:
    """Relative luminance of a colour (WCAG 2.2, definition)."""
    parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(first: str, second: str) -> float:
    """Contrast ratio of two colours (WCAG 2.2, definition)."""
    light, dark = sorted((luminance(first), luminance(second)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
def test_text_can_be_read(palette: Palette):
    """Text has 4.5 to 1 against its ground (WCAG 2.2, 1.4.3), also on shaded sections and on filled cells."""
    for ground in (palette.paper, palette.tint):
        for text in (palette.ink, palette.soft, palette.pin):
            assert contrast(text, ground) >= 4.5
    for filled in (palette.ink, palette.slide):
        assert contrast(palette.paper, filled) >= 4.5


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
def test_signs_can_be_seen(palette: Palette):
    """Marks, needles and discs have 3 to 1 against their ground (WCAG 2.2, 1.4.11)."""
    for ground in (palette.paper, palette.tint):
        for mark in (palette.ink, palette.pin, palette.slide, palette.soft):
            assert contrast(mark, ground) >= 3


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
def test_shades_differ_in_grey(palette: Palette):
    """Shaded and plain sections differ in luminance; a line and the key separate them as well."""
    assert contrast(palette.paper, palette.tint) > 1.1


def test_a_theme_follows_the_reader_or_the_page():
    """`auto` has both schemes, the light one outside the condition; the others have one and no condition."""
    both = style_sheet("auto")
    outside, condition, inside = both.partition("@media (prefers-color-scheme:dark)")

    assert condition
    assert LIGHT.ink in outside
    assert DARK.ink in inside
    for theme, palette, other in (("light", LIGHT, DARK), ("dark", DARK, LIGHT)):
        assert palette.ink in style_sheet(theme)
        assert other.ink not in style_sheet(theme)
        assert "@media" not in style_sheet(theme)
    assert set(re.findall("#[0-9a-f]{6}", both)) == {*LIGHT, *DARK}


def test_lines_fit_and_lose_nothing():
    """Wrapped text keeps every letter, in order, in lines that fit; a word too long is broken."""
    text = "Quillhaven class hat " + "x" * 90 + " for 羊毛の帽子を編む人"
    lines = wrapped(text, 12.5, 200)

    assert text.replace(" ", "") == "".join(lines).replace(" ", "")
    assert all(text_width(line, 12.5) <= 200 for line in lines)
    assert [] == wrapped("  ", 12.5, 200)


def test_a_number_keeps_its_unit_in_a_line() -> None:
    """`20.8` at the end of a line and `cm` in the next are read as two things."""
    lines = wrapped("With its edge rolled up it is 20.8 cm tall.", 12.5, 250)

    assert lines == ["With its edge rolled up it is", "20.8 cm tall."]
