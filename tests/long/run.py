"""Bad input, counted: so many requests made by chance for every operation, and what must hold for each answer.

    python -m tests.long.run                    100,000 for each operation
    python -m tests.long.run --requests 500     fewer; --only planHats for one; --record writes tests/load/RESULTS.md

Of each ten requests four are changed from one that could be knitted, one and a half are made up within the bounds, one
and a half break the description in one place, and three have bytes changed. No answer may be a fault of the service or
an error of another form than a problem; every answer that is given must be of its type, and every round in it must come
out when it is worked stitch by stitch. What takes more of a processor than its limit (`bounds.py`), best of three, is
counted and shown. The exit status is 1 where there was a fault, or anything over its limit.
"""

import argparse
import os
import platform
import random
import sys
import time
from collections import Counter
from collections.abc import Iterator
from multiprocessing import get_context
from typing import Any

import msgspec

from roundwright.web.routes.batch import Batch
from roundwright.web.routes.operation import Calculation, Operation
from tests.long.asking import Answer, Service, everything
from tests.long.bounds import limit_ms
from tests.long.checking import fault
from tests.long.making import Bytes, Maker
from tests.long.record import record, table

POOL = 64
"""Requests that could be knitted, kept to be changed further."""
SHOWN = 3
"""Faults of an operation that are shown in full."""


class Outcome(msgspec.Struct):
    """What came of the requests of one operation."""

    id: str
    seed: int
    requests: int = 0
    statuses: dict[int, int] = {}
    faults: int = 0
    shown: list[str] = []
    slow: int = 0
    slowest_ms: float = 0
    slowest: str = ""


def said(operation: Operation, chance: random.Random) -> Iterator[tuple[bytes, Any]]:
    """Requests without end. To be sent back: whether the last could be answered, so that others are made from it."""
    if isinstance(operation, Batch):
        yield from batches(chance)
    maker, spoiler = Maker(operation.request_type, chance), Bytes(chance)
    pool = [Operation.example_value(operation)]  # of a query form the request, not its parameters
    while True:
        base = chance.choice(pool)
        match chance.random():
            case turn if turn < 0.40:
                value = maker.varied(base)
                answered = yield _encoded(value)
                if answered and len(msgspec.json.encode(value)) < 20_000:
                    pool.append(value) if len(pool) < POOL else pool.__setitem__(
                        chance.randrange(1, POOL), value
                    )
            case turn if turn < 0.55:
                yield _encoded(maker.valid())
            case turn if turn < 0.70:
                yield _encoded(maker.spoiled(base))
            case _:
                yield spoiler.changed(_encoded(base))


def batches(chance: random.Random) -> Iterator[tuple[bytes, Any]]:
    """Batches without end, of up to eight requests made by chance for any calculation; one in ten has bytes changed."""
    calculations = [calculation for calculation in everything() if type(calculation) is Calculation]
    making = [(calculation.id, said(calculation, chance)) for calculation in calculations]
    bodies = [next(requests) for _, requests in making]
    spoiler = Bytes(chance)
    answered = False
    while True:
        parts = []
        for place in chance.choices(range(len(making)), k=chance.randint(1, 8)):
            name, requests = making[place]
            parts.append(b'{"operation":"%b","body":%b}' % (str(name).encode(), bodies[place]))
            bodies[place] = requests.send(answered)
        batch = b'{"requests":[%b]}' % b",".join(parts)
        answered = yield spoiler.changed(batch) if chance.random() < 0.1 else batch


def _encoded(value: Any) -> bytes:
    return msgspec.json.encode(value)


def hammer(service: Service, operation: Operation, requests: int, seed: int) -> Outcome:
    """Make so many requests of an operation, and look at each answer."""
    chance = random.Random(f"{operation.id} {seed}")
    outcome = Outcome(operation.id or "", seed)
    statuses: Counter[int] = Counter()
    making = said(operation, chance)
    body = next(making)
    while True:
        accept = chance.choice(("*/*", *operation.renderers))
        answer = service.ask_for(operation, body, accept)
        statuses[answer.status] += 1
        note(outcome, service, operation, (body, accept), answer)
        if statuses.total() == requests:
            break
        body = making.send(answer.status == 200)
    outcome.requests, outcome.statuses = requests, dict(sorted(statuses.items()))
    return outcome


def note(
    outcome: Outcome, service: Service, operation: Operation, request: tuple[bytes, str], answer: Answer
) -> None:
    """Take down what is wrong with an answer, and whether it took long."""
    body, accept = request
    if wrong := fault(operation, answer):
        outcome.faults += 1
        if len(outcome.shown) < SHOWN:
            outcome.shown.append(f"{wrong}\n  {accept} {body[:4_000]!r}")
    limit = limit_ms(operation, accept)
    if answer.ms > limit / 2:
        least = service.time(operation, body, accept)
        outcome.slow += least > limit
        if least > outcome.slowest_ms:
            outcome.slowest_ms, outcome.slowest = least, f"{accept} {body[:2_000]!r}"


def one(job: tuple[str, int, int]) -> Outcome:
    """In a process of its own: the requests of one operation."""
    name, requests, seed = job
    operation = next(operation for operation in everything() if operation.id == name)
    return hammer(Service(), operation, requests, seed)


def row(outcome: Outcome) -> dict[str, str]:
    """An outcome as a row of the table."""
    counts = outcome.statuses
    other = sum(number for status, number in counts.items() if status not in (200, 400, 422))
    return {
        "Operation": outcome.id,
        "Requests": f"{outcome.requests:,}",
        "200": f"{counts.get(200, 0):,}",
        "400": f"{counts.get(400, 0):,}",
        "422": f"{counts.get(422, 0):,}",
        "404, 413": f"{other:,}",
        "Faults": str(outcome.faults),
        "Over its limit": str(outcome.slow),
        "Slowest ms": f"{outcome.slowest_ms:.0f}" if outcome.slowest_ms else "under half of it",
    }


def main() -> int:
    """Run as the command line says; the exit status is that of `status_of`."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--requests", type=int, default=100_000, help="for each operation")
    parser.add_argument("--only", nargs="*", help="operations, by id")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--jobs", type=int, default=os.cpu_count() or 1)
    parser.add_argument("--record", action="store_true", help="write the table to tests/load/RESULTS.md")
    given = parser.parse_args()
    chosen = [operation for operation in everything() if not given.only or operation.id in given.only]
    names = [str(operation.id) for operation in chosen]
    # What is answered in many forms takes longest: it begins first, so that no core idles at the end.
    chosen.sort(key=lambda operation: -len(operation.renderers))
    jobs = [(str(operation.id), given.requests, given.seed) for operation in chosen]
    began = time.monotonic()
    outcomes = []
    with get_context("spawn").Pool(given.jobs, maxtasksperchild=1) as pool:
        for outcome in pool.imap_unordered(one, jobs, chunksize=1):
            outcomes.append(outcome)
            print(*row(outcome).values(), f"after {time.monotonic() - began:.0f} s")
            for shown in outcome.shown:
                print(f"  {shown}")
            if outcome.slow:
                print(f"  {outcome.slowest_ms:.0f} ms: {outcome.slowest}")
            sys.stdout.flush()
    outcomes.sort(key=lambda outcome: names.index(outcome.id))
    rows = [row(outcome) for outcome in outcomes]
    total = sum(outcome.requests for outcome in outcomes)
    faults = sum(outcome.faults for outcome in outcomes)
    print(table(rows))
    print(f"{total:,} requests, {faults} faults, in {time.monotonic() - began:.0f} s")
    if given.record:
        record("Bad input", introduction(total, faults, given.seed), rows)
    return status_of(outcomes)


def status_of(outcomes: list[Outcome]) -> int:
    """The exit status: 1 where there was a fault, or anything over its limit."""
    return int(any(outcome.faults or outcome.slow for outcome in outcomes))


def introduction(total: int, faults: int, seed: int) -> str:
    """What stands above the table."""
    return (
        f"Written by `python -m tests.long.run --record` (seed {seed}): {total:,} requests in this process, {faults} "
        "faults. A fault is an answer of 500 or above, an error that is no problem detail, an answer not of its "
        "type, or a round that does not come out when worked stitch by stitch. Times are of a processor, best of "
        f"three; limits stand in `tests/long/bounds.py`. Python {platform.python_version()}."
    )


if __name__ == "__main__":
    sys.exit(main())
