"""A form of an answer at an address of its own, as a file with a name: `/v1/hats/handout.pdf`."""

import re
from typing import Any
from urllib.parse import quote

from roundwright.web.problems import Headers
from roundwright.web.routes.operation import Calculation


class FileForm(Calculation):
    """A calculation whose answer is a file of one media type, whatever `Accept` says."""

    def __init__(self, calculation: Calculation, suffix: str, media_type: str) -> None:
        super().__init__(
            f"{calculation.path}.{suffix}",
            id=f"{calculation.id}As{suffix.capitalize()}",
            tag=calculation.tag,
            summary=f"{calculation.summary}: the file .{suffix}",
            example=calculation.example,
            renderers={media_type: calculation.renderers[media_type]},
            takes_text=calculation.takes_text,
            typeset=calculation.typeset if calculation.typeset == media_type else None,
        )
        self.file_name = calculation.file_name
        self.own_headers = list(calculation.own_headers)
        self.declare(calculation.calculate, calculation.request_type, calculation.answer_type)

    def headers_of(self, request: Any) -> Headers:
        """The name to save the file under: that of the address, and where it has words its own (RFC 6266, 4.3)."""
        address, _, suffix = self.path.rpartition("/")[2].rpartition(".")
        value = f'attachment; filename="{address}.{suffix}"'
        words = re.findall(r"\w+", self.file_name(request).lower()) if self.file_name else []
        if words:
            value += f"; filename*=UTF-8''{quote('-'.join(words))}.{suffix}"
        return ((b"content-disposition", value.encode()),)

    def warm(self) -> None:
        """Read the example; the calculation answers it."""
        self.read_example()

    @property
    def description(self) -> str:
        """What it is a file of."""
        address, _, suffix = self.template.rpartition(".")
        return f"The answer of `{address}` as a file of the kind `.{suffix}`, with a name to save it under."
