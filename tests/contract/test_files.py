"""Forms of an answer at an address of their own: files with a name."""

import pytest

from tests.contract.shape import listed

FILES = [operation for operation in listed("POST") if operation.path.startswith("/v1/hats/handout.")]


def test_every_form_of_a_handout_is_a_file():
    """Markdown, plain text, HTML and PDF have an address each."""
    assert {"md", "txt", "html", "pdf"} == {operation.path.rpartition(".")[2] for operation in FILES}


@pytest.mark.parametrize("operation", FILES, ids=lambda operation: operation.id)
def test_a_file_is_the_form_that_accept_would_choose(operation, service):
    """The same bytes as by `Accept`, whatever this request accepts, and the name of the address."""
    (media_type,) = operation.written["responses"]["200"]["content"]
    file = operation.ask(service, headers={"accept": "application/json"})
    chosen = service.post("/v1/hats/handout", json=operation.body, headers={"accept": media_type})

    assert 200 == file.status_code
    assert media_type == file.headers["content-type"].partition(";")[0]
    assert chosen.content == file.content
    name = operation.path.rpartition("/")[2]
    assert f'attachment; filename="{name}"' == file.headers["content-disposition"]
