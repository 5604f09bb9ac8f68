"""The parameters that all pictures share, and errors that name a parameter."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Annotated, Final

from msgspec import Meta, Struct

from roundwright.drawing.theme import Theme
from roundwright.knitting.answers import Impossible

MAX_TITLE: Final = 60
"""Characters of a title; a longer title is wider than the picture."""

Title = Annotated[
    Annotated[str, Meta(min_length=1, max_length=MAX_TITLE)] | None,
    Meta(description="Title over the picture. Default: what the picture shows."),
]
ThemeChoice = Annotated[
    Theme,
    Meta(description="`light`, `dark`, or `auto`, which follows the reader's system. Default `auto`."),
]


@contextmanager
def errors_name_parameters(query: Struct) -> Iterator[None]:
    """Make an `Impossible` that is raised inside point to the parameter of `query` that it comes from."""
    try:
        yield
    except Impossible as error:
        error.suggestion = None  # it is of a body
        error.pointer = f"#/{_parameter(error.pointer, query.__struct_fields__)}"
        raise


def _parameter(pointer: str, parameters: tuple[str, ...]) -> str:
    steps = [step for step in pointer.removeprefix("#").split("/") if step]
    for name in ("_".join(steps[-2:]), *reversed(steps)):
        if name in parameters:
            return name
    for step in reversed(steps):
        for name in parameters:
            if name.startswith(f"{step}_"):
                return name
    return "head" if "sizes" in steps else parameters[0]
