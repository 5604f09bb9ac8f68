"""Up to a hundred calculations in one request, each answered as if it had been sent alone."""

from asyncio import sleep
from collections.abc import Callable, Iterable, Iterator, Mapping
from copy import copy
from http import HTTPStatus
from time import thread_time
from typing import Annotated, Any, Final, Self

from litestar.types import HTTPScope, Receive, Send
from msgspec import Meta, Raw, Struct

from roundwright.knitting.answers import RULES, RulesVersion
from roundwright.language import ENGLISH
from roundwright.language.words import ENGLISH_WORDS
from roundwright.web.problems import MAX_MEANT, ProblemError, did_you_mean, to_problem
from roundwright.web.routes.answer_language import encode_answer
from roundwright.web.routes.deadline import within
from roundwright.web.routes.operation import JSON, Calculation
from roundwright.web.routes.request_reader import encode
from roundwright.web.routes.typesetter import Typesetter
from roundwright.web.settings import Settings

MAX_PARTS: Final = 100
"""Calculations of a batch: the sizes and questions of a large class."""

MAX_BATCH_CPU_S: Final = 1.0
"""Processor seconds after which no further part begins: as long as a single calculation may take."""

MAX_BATCH_BYTES: Final = 4 * 1024 * 1024
"""Bytes of answers after which no further part begins: a class of thirty's hats in four sizes take half of it."""

CRASHES: Final = "roundwright.crashes"
"""Key of the scope's state under which the middleware finds the unexpected errors of parts, for the log."""


class BatchPart(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A calculation of a batch."""

    operation: Annotated[
        str,
        Meta(
            min_length=1,
            max_length=MAX_MEANT,
            description="The `operationId` of the calculation, such as `castOn`.",
            examples=["castOn"],
        ),
    ]
    body: Annotated[dict[str, Raw], Meta(description="What the calculation takes by itself.")]


class BatchRequest(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Calculations to be done in one request."""

    requests: Annotated[
        tuple[BatchPart, ...],
        Meta(
            min_length=1,
            max_length=MAX_PARTS,
            description=f"The calculations, up to {MAX_PARTS}; none depends on another.",
        ),
    ]


class PartAnswer(Struct, frozen=True, kw_only=True):
    """The answer to a calculation of a batch, or its problem."""

    status: Annotated[
        int, Meta(ge=200, le=599, description="The status the calculation would have had by itself.")
    ]
    body: Annotated[
        Raw,
        Meta(
            description="With status 200 its answer: the object, or the text where it answers with text. With any "
            "other status its problem (RFC 9457); pointers lead into the `body` of the part."
        ),
    ]


class BatchAnswer(Struct, frozen=True, kw_only=True):
    """The answers to a batch."""

    answers: Annotated[
        tuple[PartAnswer, ...], Meta(description="An answer or a problem for every part, in their order.")
    ]
    rules: RulesVersion = RULES


class Batch(Calculation):
    """The calculation of a batch; other requests are answered between its parts."""

    calculations: Mapping[str, Calculation]

    def declare(self, fn: Callable[..., Any], request_type: Any, answer_type: Any) -> Self:
        """Keep the function and its types; the parts of an answer have a language, as the answer alone would."""
        super().declare(fn, request_type, answer_type)
        self.own_headers.append((b"vary", b"Accept-Language"))
        return self

    def content_language(self, codes: Iterable[str]) -> list[tuple[bytes, bytes]]:
        """The header that names the languages of the parts (RFC 9110, 8.5)."""
        return [(b"content-language", ", ".join(codes).encode())]

    def prepare(self, settings: Settings, typesetter: Typesetter) -> None:
        """Apply the settings to the calculations as well."""
        super().prepare(settings, typesetter)
        self.calculations = {name: copy(part) for name, part in self.calculations.items()}
        for calculation in self.calculations.values():
            calculation.prepare(settings, typesetter)

    def warm(self) -> None:
        """Do nothing: the calculations are operations of their own."""

    async def exchange(self, scope: HTTPScope, receive: Receive, send: Send) -> None:
        """Read the body, calculate part after part, answer."""
        body = await self.receive(scope, receive)
        with within:
            request = self.reader.read(body)
        crashes: list[Exception] = scope["state"].setdefault(CRASHES, [])
        answers: list[PartAnswer] = []
        languages: dict[str, None] = {}
        for answer, language in self.answers(request.requests, dict(scope["headers"]), crashes):
            answers.append(answer)
            languages[language] = None
            await sleep(0)
        content = encode_answer(BatchAnswer(answers=tuple(answers)), ENGLISH_WORDS)
        await self.send(JSON, content, languages, send)

    def answers(
        self,
        parts: Iterable[BatchPart],
        headers: Mapping[bytes, bytes],
        crashes: list[Exception],
    ) -> Iterator[tuple[PartAnswer, str]]:
        """The answer or problem of every part, and its language; an error that is not the request's is kept."""
        spent = 0.0
        size = 0
        for part in parts:
            begun = thread_time()
            path = self.template
            try:
                calculation = self.calculation_of(part)
                path = calculation.template
                require_room(spent, size)
                content, language = self.answer_to(calculation, part, headers)
                answer = PartAnswer(status=200, body=content)
            except Exception as error:  # noqa: BLE001 - the other parts go on
                language = ENGLISH
                problem, _ = to_problem(error, path)
                answer = PartAnswer(status=problem.status, body=Raw(encode_answer(problem, ENGLISH_WORDS)))
                if problem.status == HTTPStatus.INTERNAL_SERVER_ERROR:
                    crashes.append(error)
            spent += thread_time() - begun
            size += memoryview(answer.body).nbytes
            yield answer, language

    def calculation_of(self, part: BatchPart) -> Calculation:
        """The calculation that a part names. Raises `ProblemError` where there is none."""
        calculation = self.calculations.get(part.operation)
        if calculation is None:
            meant = did_you_mean(part.operation, self.calculations)
            raise ProblemError("not-found", f"There is no calculation {part.operation!r}.{meant}")
        return calculation

    def answer_to(
        self, calculation: Calculation, part: BatchPart, headers: Mapping[bytes, bytes]
    ) -> tuple[Raw, str]:
        """The answer of a part as JSON, and its language. Raises what the calculation raises."""
        media_type, render = next(iter(calculation.renderers.items()))
        content, words, _ = calculation.content(encode(part.body), headers, render)
        return Raw(content if media_type == JSON else encode(content.decode())), words.code


def require_room(spent_s: float, size: int) -> None:
    """Raise `ProblemError` where the parts before took as long, or are as large, as a batch may be."""
    if spent_s > MAX_BATCH_CPU_S:
        raise ProblemError(
            "too-long",
            f"The parts before took {MAX_BATCH_CPU_S:g} s, as long as a batch may. Send this part again.",
        )
    if size > MAX_BATCH_BYTES:
        raise ProblemError(
            "too-long",
            f"The answers before have {size} bytes, and those of a batch may have {MAX_BATCH_BYTES}. Send this part "
            "again.",
        )


def batch_of(calculations: Iterable[Calculation]) -> Batch:
    """The operation for a batch of the calculations."""

    @Batch(
        "/v1/batch",
        id="calculateBatch",
        tag="Batches",
        summary=f"Up to {MAX_PARTS} calculations in one request",
        example="batch",
        takes_text=True,
    )
    def calculate_batch(request: BatchRequest) -> BatchAnswer:
        """Every part is calculated and answered as if its `body` had been sent alone, in the order of the request.

        A part whose body is not as its calculation takes it, or cannot be knitted, gets its own problem, and the others
        are answered. A batch that is itself not as described is refused as a whole, with nothing calculated: a part
        without `operation` or `body`, with another field, or with a `body` that is no object. When the parts so far
        have taken as long as a single calculation may, or their answers have 4 MiB, those that are left get the
        problem `too-long`: send them again in a batch of their own.
        """
        return BatchAnswer(
            answers=tuple(answer for answer, _ in calculate_batch.answers(request.requests, {}, []))
        )

    calculate_batch.calculations = {str(calculation.id): calculation for calculation in calculations}
    return calculate_batch
