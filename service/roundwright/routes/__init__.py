"""HTTP only: each operation decodes what it is sent, calls one function of a lower storey and encodes what comes back.

One file a resource; `operations` holds what they share, `requests/` an example of what each takes. A new operation is
one decorated function here, its example, and its file in `_FILES` if it is the first of a resource.
"""

from importlib import import_module
from typing import Final

from roundwright.routes.operations import Operation

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
    """The operations of the trade, in the order of the files."""
    modules = [import_module(f"{__name__}.{name}") for name in _FILES]
    return [one for module in modules for one in vars(module).values() if isinstance(one, Operation)]
