"""The dearest requests that were found are still valid; what they cost is in `RESULTS.md`."""

from pathlib import Path

import msgspec
import pytest

from roundwright.web.routes.file_form import FileForm
from roundwright.web.routes.picture_file import PictureFile
from roundwright.web.routes.query_form import QueryForm
from tests.load.worst import KEPT
from tests.long.asking import Service, operations


@pytest.fixture(scope="module")
def service():
    """The application, asked without a socket."""
    return Service()


CALCULATIONS = [
    operation for operation in operations() if not isinstance(operation, QueryForm | FileForm | PictureFile)
]
"""All operations but those that are another form of a calculation or a picture, which cost the same in this process."""


@pytest.mark.parametrize("operation", CALCULATIONS, ids=lambda one: one.id)
def test_the_dearest_request_is_answered(operation, service):
    """Every operation has its dearest request kept; it is valid, and answered before its deadline."""
    found = msgspec.json.decode(Path(KEPT, f"{operation.id}.json").read_bytes())
    said = msgspec.json.encode(found["request"])

    assert 200 == service.ask_for(operation, said, found["accept"]).status
