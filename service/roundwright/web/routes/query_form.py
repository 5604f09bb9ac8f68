"""The GET form of a calculation: its request as parameters, the bytes of its answer, cacheable by an address."""

from typing import Any

import msgspec

from roundwright.web.routes.flat_parameters import flattened, left_out, nested
from roundwright.web.routes.operation import Calculation, Lookup


class QueryForm(Lookup):
    """A calculation as a GET at the same address, for links, spreadsheets and caches."""

    methods = ("GET", "HEAD")

    def __init__(self, calculation: Calculation) -> None:
        super().__init__(
            calculation.path,
            id=f"{calculation.id}ByQuery",
            tag=calculation.tag,
            summary=f"{calculation.summary} (as a link)",
            example=calculation.by_query,
            renderers=calculation.renderers,
            can_be_impossible=True,
        )
        self.own_headers = list(calculation.own_headers)
        self.declare(calculation.calculate, calculation.request_type, calculation.answer_type)

    def warm(self) -> None:
        """Read the example; the calculation answers it."""
        self.read_example()

    @property
    def description(self) -> str:
        """How the parameters stand for the body of the POST."""
        missing = [f"`{name}`" for name in left_out(self.request_type)]
        only_post = f" A request with {' or '.join(missing)} needs the POST." if missing else ""
        return (
            f"The POST of this address as a link: the same answer, byte for byte, which caches may keep. A parameter "
            "is a field of the body, its names joined by `_`; a quantity is a number and its unit, a list of numbers "
            f"has commas.{only_post}"
        )

    def example_value(self) -> Any:
        """The example request as parameters."""
        return flattened(self.request_type, super().example_value())

    def example_answer(self) -> Any:
        """The answer to the example request."""
        request = nested(self.request_type, self.example_value())
        return self.calculate(msgspec.convert(request, self.request_type))
