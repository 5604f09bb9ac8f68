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
    assert file.headers["content-disposition"].startswith(f'attachment; filename="{name}"; filename*=')


@pytest.mark.parametrize(
    ("fields", "name"),
    [
        ({"name": "Quillhaven class hat"}, "quillhaven-class-hat.txt"),
        ({"name": 'Mütze "für" alle/2', "language": "de"}, "m%C3%BCtze-f%C3%BCr-alle-2.txt"),
        ({"language": "de"}, "eine-m%C3%BCtze-in-runden-gestrickt.txt"),
    ],
)
def test_a_file_is_called_as_its_pattern(fields, name, service):
    """By its name, or else as any hat is called in the language of the pattern (RFC 6266, 4.3)."""
    body = {"gauge": {"stitches": 20, "rows": 28}, "sizes": [{"adult": "woman"}], **fields}
    sent = service.post("/v1/hats/handout.txt", json=body).headers["content-disposition"]
    assert f"attachment; filename=\"handout.txt\"; filename*=UTF-8''{name}" == sent
