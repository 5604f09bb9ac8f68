"""How much of a processor an answer may take, searched for or made by chance, and why some may take more."""

from typing import Final

from roundwright.web.routes.batch import MAX_BATCH_CPU_S, Batch
from roundwright.web.routes.operation import Operation

LIMIT_MS: Final = 50
"""Of every calculation but those below."""
PATTERN_MS: Final = 200
"""Of a pattern read; times of a quiet machine take 0.65 of these, which were taken on a busy one. Printed ones of 700
letters with a fault take up to 55, since each edit is tried; 46,000 letters in nine sizes take 210. No bound on letters
and sizes that lets pass what is printed brings it under 50: 5,000 letters in one size may take 47."""
FILE_MS: Final = 600
"""Of a PDF or PNG: its data and its typesetting, in the process for these; the largest take up to 460 and 430
on a busy machine."""
LIMITS_MS: Final = {"proofreadPattern": PATTERN_MS, "checkCount": PATTERN_MS}
FILES: Final = ("application/pdf", "image/png")


def limit_ms(operation: Operation, accept: str) -> float:
    """Milliseconds of a processor that an answer of an operation may take, in the form it is asked in."""
    if isinstance(operation, Batch):
        return 1_000 * MAX_BATCH_CPU_S + max(LIMIT_MS, *LIMITS_MS.values())  # of the part begun last
    if accept in FILES or (accept == "*/*" and next(iter(operation.renderers)) in FILES):
        return FILE_MS
    return LIMITS_MS.get(str(operation.id), LIMIT_MS)
