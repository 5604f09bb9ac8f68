"""Which form of an answer a caller gets, and in which language."""

import pytest

from roundwright.web.routes.content_negotiation import MAX_ACCEPT, best_language, best_media_type

FORMS = (
    "text/markdown; charset=utf-8",
    "text/html; charset=utf-8",
    "text/plain; charset=utf-8",
    "application/pdf",
)


@pytest.mark.parametrize(
    ("accept", "expected"),
    [
        ("*/*", "text/markdown"),
        ("", "text/markdown"),
        ("application/pdf", "application/pdf"),
        ("Application/PDF", "application/pdf"),
        ("text/html", "text/html"),
        ("text/html; charset=utf-8", "text/html"),
        ("text/*", "text/markdown"),
        ("text/*;q=0.5, application/pdf", "application/pdf"),
        ("text/*, text/markdown;q=0", "text/html"),
        ("*/*;q=0.1, text/plain;q=0.2", "text/plain"),
        ("text/html;q=0, */*", "text/markdown"),
        # A browser opening the address of a handout:
        ("text/html,application/xhtml+xml,application/xml;q=0.9,image/avif,image/webp,*/*;q=0.8", "text/html"),
        # The example of RFC 9110, 12.5.1, with the forms above:
        ("text/*;q=0.3, text/plain;q=0.7, text/plain;format=flowed, */*;q=0.5", "text/plain"),
        ("application/pdf ; q = 1.000 , text/html ; q=0.999", "application/pdf"),
    ],
)  # fmt: skip
def test_the_best_form_is_chosen(accept, expected):
    """The most specific range that covers a form says how good it is; of equals the first is given."""
    assert expected == best_media_type(accept, FORMS).partition(";")[0]


@pytest.mark.parametrize(
    "accept", ["image/png", "image/*", "text/html;q=0", "*/*;q=0", "garbage", "text", "/", ",", "text/"]
)
def test_no_form_may_suit(accept):
    """Where no range covers a form, or every one that does refuses it, there is none."""
    assert best_media_type(accept, FORMS) is None


def test_an_endless_accept_counts_as_none():
    """A caller who lists more than anybody reads gets the form that is given unasked (RFC 9110, 12.5.1)."""
    heeded = "application/pdf," + "a" * (MAX_ACCEPT - len("application/pdf,"))

    assert "application/pdf" == best_media_type(heeded, FORMS)
    assert FORMS[0] == best_media_type(f"{heeded}a", FORMS)


@pytest.mark.parametrize(
    ("header", "code"),
    [
        ("de-AT,de;q=0.9,en;q=0.8", "de"),
        ("pl,fr;q=0.5,da;q=0.7", "da"),
        ("en-GB,en;q=0.9,de;q=0.3", "en-US"),
        ("*", "en-US"),
        ("", "en-US"),
        ("de;q=0", "en-US"),
        ("de;q=x,,;;=", "de"),
        ("de," * 1_000, "en-US"),
    ],
)
def test_the_preferred_language_there_is_is_chosen(header, code):
    """RFC 9110, 12.5.4: by quality, as `Accept`; a header that is too long is ignored."""
    assert code == best_language(header)
