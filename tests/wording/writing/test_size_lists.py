"""Several sizes on one line."""

import pytest

from roundwright.language import ENGLISH_WORDS, Words, words_of
from roundwright.wording.writing.size_lists import shared_lines, size_list, sizes_note


def test_one_number_stands_where_all_sizes_agree() -> None:
    """A number that is the same in every size is printed once (common practice)."""
    assert size_list([4, 4, 4], ENGLISH_WORDS) == "4"
    assert size_list([52, 56], ENGLISH_WORDS) == "52 (56)"
    assert size_list([52, 56, 64, 68], ENGLISH_WORDS) == "52 (56, 64, 68)"


@pytest.mark.parametrize(
    ("style", "separator", "printed"),
    [
        ("rest", "/", "88 (96/104)"),
        ("alternate", "", "(88) 96 (104)"),
        ("every_second", "", "88 (96) 104"),
        ("dashes", "", "88 – 96 – 104"),
    ],
)
def test_a_language_prints_sizes_in_its_style(style: str, separator: str, printed: str) -> None:
    """German leaflets, Norwegian and Danish ones, and older magazines (common practice)."""

    class OfLanguage(Words):
        """Words of a language that prints sizes in a style."""

        def say(self, key: str, /, **values: object) -> str:
            """The style and the separator of sizes."""
            return {"sizes.style": style, "sizes.separator": separator}[key]

    assert size_list([88, 96, 104], OfLanguage("de")) == printed


@pytest.mark.parametrize(
    ("language", "values", "printed"),
    [
        ("es", ["44,5", "49", "57"], "44,5 (49; 57)"),
        ("es", ["44", "49", "57"], "44 (49, 57)"),
        ("de", ["14 1/2", "18 3/4", "19"], "14 1/2 (18 3/4; 19)"),
        ("en-GB", ["44.5", "49", "57"], "44.5 (49, 57)"),
    ],
)
def test_a_semicolon_parts_sizes_that_have_the_separator_in_them(
    language: str, values: list[str], printed: str
) -> None:
    """`49, 57` with decimal commas about could be one number, `3/4/19` could be anything."""
    assert printed == size_list(values, words_of(language))


def test_sizes_share_a_line_that_differs_in_its_numbers_alone() -> None:
    """`k4, k2tog` and `k5, k2tog` are one line; a plain round of a third size is a line of its own."""
    merged, plain = shared_lines(["k4, k2tog", None, "knit", "k5, k2tog"], ENGLISH_WORDS)

    assert merged == ((0, 3), "k4 (5), k2tog")
    assert plain == ((2,), "knit")


def test_a_line_names_its_sizes_where_it_is_not_for_all() -> None:
    """Sizes are counted from 1, as they are listed at the head of a pattern (common practice)."""
    assert sizes_note((0, 1, 2), 3, ENGLISH_WORDS) == ""
    assert sizes_note((1,), 3, ENGLISH_WORDS) == " (size 2 only)"
    assert sizes_note((0, 1, 3), 4, ENGLISH_WORDS) == " (sizes 1, 2 and 4 only)"
