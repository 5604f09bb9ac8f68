"""Looks for the dearest valid request of every operation, and keeps it.

    python -m tests.load.worst                     20 s for each operation; writes worst/*.json and RESULTS.md
    python -m tests.load.worst --seconds 60 --only planHats

A search by chance that climbs: of many requests made within the bounds the dearest few are kept, and changed further; a
change that makes one dearer takes its place. The request kept last time takes part, so that a search finds nothing
cheaper than the one before it. Time is processor time of the whole answer in this process, reading and writing
included, of PDFs and PNGs that of the typesetter's process too, with what the service keeps between requests
forgotten: what a stranger can make it work at most. A batch is filled with the dearest of each calculation.
"""

import argparse
import platform
import random
import sys
import time
from pathlib import Path
from typing import Any

import msgspec

from roundwright.web.routes.batch import MAX_PARTS, Batch
from roundwright.web.routes.file_form import FileForm
from roundwright.web.routes.operation import Calculation, Operation
from roundwright.web.routes.query_form import QueryForm
from roundwright.web.settings import Settings
from tests.long.asking import Service, everything, spent_s
from tests.long.bounds import limit_ms
from tests.long.making import Maker
from tests.long.record import record, table

KEPT = Path(__file__).with_name("worst")
CLIMBERS = 12
FRESH = 0.1
"""How many of the requests are made anew, and not from one of the dearest."""


class Found(msgspec.Struct):
    """The dearest request of an operation, what it was asked in, how long it took and how many were tried."""

    id: str
    request: Any
    accept: str
    ms: float
    tried: int


def searched() -> list[Operation]:
    """All that can be asked, but for other addresses of a calculation, which cost the same."""
    return [operation for operation in everything() if not isinstance(operation, QueryForm | FileForm)]


def fill(service: Service, batch: Batch) -> Found:
    """The dearest batch: of each calculation its dearest request, as many times as a body has room for."""
    room = Settings().text_body_bytes
    found = []
    for operation in everything():
        if type(operation) is not Calculation:
            continue
        for made, _ in starts(operation):
            part = {"operation": operation.id, "body": made}
            parts = min(MAX_PARTS, (room - 20) // (len(_said(part)) + 1))
            if parts:
                request = {"requests": [part] * parts}
                found.append((service.time(batch, _said(request), times=1), request))
    ms, request = max(found, key=lambda pair: pair[0])
    return Found(str(batch.id), request, "*/*", ms, len(found))


def search(service: Service, operation: Operation, seconds: float, seed: int) -> Found:
    """Climb for so long."""
    chance = random.Random(f"{operation.id} {seed}")
    maker = Maker(operation.request_type, chance)
    if isinstance(operation, Batch):
        return fill(service, operation)
    climbers = [
        timed for start in starts(operation) if (timed := cost(service, operation, *start)) is not None
    ]
    tried = len(climbers)
    until = _spent_s(service) + seconds
    while _spent_s(service) < until:
        tried += 1
        if chance.random() < FRESH:
            made, accept = maker.valid(), chance.choice(list(operation.renderers))
        else:
            _, made, accept = chance.choice(climbers)
            made = maker.varied(made)
        timed = cost(service, operation, made, accept)
        if timed is not None and timed[0] > climbers[-1][0]:
            climbers = sorted([*climbers, timed], key=lambda climber: -climber[0])[:CLIMBERS]
    # One measurement may have been unlucky: the dearest is the dearest of five.
    ranked = [
        (service.time(operation, _said(made), accept, times=5), made, accept) for _, made, accept in climbers
    ]
    ms, made, accept = max(ranked, key=lambda climber: climber[0])
    return Found(str(operation.id), made, accept, ms, tried)


def _spent_s(service: Service) -> float:
    """Processor seconds of this process and of the typesetter's."""
    return time.process_time() + spent_s(service.typesetter)


def starts(operation: Operation) -> list[tuple[Any, str]]:
    """What to start from: the example in each form, and what was found last time."""
    known = [(operation.example_value(), form) for form in operation.renderers]
    file = KEPT / f"{operation.id}.json"
    if file.exists():
        found = msgspec.json.decode(file.read_bytes())
        known.append((found["request"], found["accept"]))
    return known


def cost(service: Service, operation: Operation, made: Any, accept: str) -> tuple[float, Any, str] | None:
    """What a request costs; nothing where it is not answered."""
    body = _said(made)
    status = service.ask_for(operation, body, accept).status
    if status >= 500:
        print(f"{operation.id} fails: {accept} {body[:4_000]!r}", file=sys.stderr)
    if status != 200:
        return None
    return service.time(operation, body, accept, times=1), made, accept


def _said(made: Any) -> bytes:
    return msgspec.json.encode(made)


def main() -> int:
    """Search as the command line says; the exit status is 0 if every operation stays under its limit."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--seconds", type=float, default=20, help="for each operation")
    parser.add_argument("--only", nargs="*", help="operations, by id")
    parser.add_argument("--seed", type=int, default=1)
    given = parser.parse_args()
    service = Service()
    KEPT.mkdir(exist_ok=True)
    rows = []
    dear = []
    for operation in searched():
        if given.only and operation.id not in given.only:
            continue
        found = search(service, operation, given.seconds, given.seed)
        kept = {"accept": found.accept, "request": found.request}
        (KEPT / f"{found.id}.json").write_bytes(msgspec.json.encode(kept) + b"\n")
        example = service.time(operation, _said(operation.example_value()))
        rows.append(
            {
                "Operation": found.id,
                "Tried": f"{found.tried:,}",
                "Example ms": f"{example:.1f}",
                "Dearest ms": f"{found.ms:.1f}",
                "Limit ms": f"{limit_ms(operation, found.accept):.0f}",
                "Form": found.accept,
            }
        )
        if found.ms > limit_ms(operation, found.accept):
            dear.append(found.id)
        print(*rows[-1].values(), flush=True)
    print(table(rows))
    if not given.only:
        record("The dearest requests", introduction(given.seconds, dear), rows)
    return int(bool(dear))


def introduction(seconds: float, dear: list[str]) -> str:
    """What stands above the table: how it was searched, and what is over its limit."""
    how = __doc__.partition("\n\n")[2].partition("\n\n")[2].strip()
    return (
        f"{how}\n\nWritten by `python -m tests.load.worst`: searched for {seconds:g} s an operation, Python "
        f"{platform.python_version()}. Over their limit: {', '.join(dear) or 'none'}. Why limits differ stands in "
        "`tests/long/bounds.py`."
    )


if __name__ == "__main__":
    sys.exit(main())
