"""The operations: each decodes a request, calls one function of a lower package and encodes the answer.

Each resource has a file; `operation` has the shared code, and `requests/` an example request of every operation. A new
operation is a decorated function, an example and, for a new resource, the name of its file in `_FILES`.
May import `problems` and `settings` of `web`, and every package but `web`.
"""

from importlib import import_module
from typing import Final

from roundwright.web.routes.batch import batch_of
from roundwright.web.routes.file_form import FileForm
from roundwright.web.routes.operation import Calculation, Lookup, Operation
from roundwright.web.routes.picture_file import SVG, PictureFile
from roundwright.web.routes.query_form import QueryForm

__all__ = ["Operation", "all_operations"]

_FILES: Final = (
    "gauge",
    "sizing",
    "shaping",
    "crown",
    "needles",
    "yarn",
    "hats",
    "patterns",
    "counts",
    "drawings",
    "standards",
)


def all_operations() -> list[Operation]:
    """The operations on knitting, in the order of the files; then their GET forms, files, PNGs and the batch."""
    modules = [import_module(f"{__name__}.{name}") for name in _FILES]
    declared = [
        value for module in modules for value in vars(module).values() if isinstance(value, Operation)
    ]
    calculations = [value for value in declared if isinstance(value, Calculation)]
    by_query = [QueryForm(calculation) for calculation in calculations if calculation.by_query]
    files = [
        FileForm(calculation, *file) for calculation in calculations for file in calculation.files.items()
    ]
    pictures = [
        PictureFile(value) for value in declared if isinstance(value, Lookup) and SVG in value.renderers
    ]
    return [*declared, *by_query, *files, *pictures, batch_of(calculations)]
