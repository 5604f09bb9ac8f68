"""A language that is not there gets English and a warning, never an error."""

import httpx
import pytest

from tests.contract.shape import Listed, listed, named

IN_JSON = [
    operation
    for operation in listed("POST")
    if "application/json" in operation.written["responses"]["200"]["content"]
    and operation.id != "calculateBatch"  # its parts have languages
]


@pytest.mark.parametrize("language", ["german", "xx"])
@pytest.mark.parametrize("operation", IN_JSON, ids=named)
def test_a_language_that_is_not_there_is_warned_of(
    operation: Listed, language: str, service: httpx.Client
) -> None:
    """A word for a language is no tag of one: the answer is English, and a warning points to the field."""
    answer = operation.ask(service, json=operation.body | {"language": language})

    assert (200, "en-US") == (answer.status_code, answer.headers["content-language"])
    [warning] = [warning for warning in answer.json()["warnings"] if warning["code"] == "language_unknown"]
    assert (warning["pointer"], language in warning["message"]) == ("#/language", True)


def test_a_text_has_the_header_alone(service: httpx.Client) -> None:
    """A handout is for the class: no sentence of it is about the request."""
    hat = {"gauge": {"stitches": 20, "rows": 28}, "sizes": [{"adult": "woman"}], "language": "german"}
    answer = service.post("/v1/hats/handout", json=hat)

    assert (200, "en-US") == (answer.status_code, answer.headers["content-language"])
    assert "german" not in answer.text
