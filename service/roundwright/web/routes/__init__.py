"""The operations: each decodes a request, calls one function of a lower package and encodes the answer.

One file a resource, and `operation` for what they share; `requests/` holds an example request of each. A new operation
is one decorated function here, its example, and its file in `_FILES` if it is the first of a resource.
May import `problems` and `settings` of `web`, and every package but `web`.
"""

from importlib import import_module
from typing import Final

from roundwright.web.routes.operation import Operation

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
