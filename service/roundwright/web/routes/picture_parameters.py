"""What parameters of pictures share: how it is shown, and errors that name a parameter."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Annotated, Final

from msgspec import Meta, Struct

from roundwright.drawing.theme import Theme
from roundwright.knitting.answers import Impossible

LONGEST_TITLE: Final = 60
"""Characters over a picture: more take more room than the picture."""

Title = Annotated[
    Annotated[str, Meta(min_length=1, max_length=LONGEST_TITLE)] | None,
    Meta(description="What is written over the picture. Left out: what it shows."),
]
Shown = Annotated[
    Theme,
    Meta(
        description="`auto`: light, and dark where the reader's system is; or one of the two, to go with the page. "
        "Default `auto`."
    ),
]


@contextmanager
def naming(asked: Struct) -> Iterator[None]:
    """Errors of the trade inside point to the parameter of `asked` that they come from."""
    try:
        yield
    except Impossible as error:
        error.pointer = f"#/{_parameter(error.pointer, asked.__struct_fields__)}"
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
