"""Rows of `tests.load.ratios` for which processes are started: by socket, through the proxy, from the start on."""

import asyncio
import json
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from itertools import cycle
from pathlib import Path
from statistics import median

import msgspec
import uvloop

from tests.load import footprint, sizing
from tests.load.callers import Call, Callers, wire
from tests.load.cases import CASES, Case
from tests.load.fleet import Fleet, Replica
from tests.load.served import OURS, Served, pace, script_for

SECONDS = 1
"""Of a turn of wrk's."""
Pair = tuple[float, float]


class Turns:
    """Servers that are asked in turn, and what a request costs each."""

    def __init__(self, stack: ExitStack, *names: str) -> None:
        self.folder = Path(stack.enter_context(tempfile.TemporaryDirectory()))
        self.servers = {name: stack.enter_context(Served(name)) for name in names}

    def cost_s(self, name: str, case: Case) -> float:
        """Processor seconds of a server for a request."""
        server, script = self.servers[name], script_for(case, self.folder, {})
        before = sizing.processor_s(server.process.pid)
        answers = pace(server, script, case.path, SECONDS).rate * SECONDS
        return (sizing.processor_s(server.process.pid) - before) / answers


def case(name: str) -> Case:
    """A case of the benchmark by socket."""
    return next(served_case for served_case in CASES if served_case.name == name)


def hats_and_crowns() -> Iterator[Pair]:
    """A crown asked again and again, and hats in four sizes never asked."""
    with ExitStack() as stack:
        turns = Turns(stack, OURS)
        while True:
            yield (
                turns.cost_s(OURS, case("crown, 56 quick, repeated")),
                turns.cost_s(OURS, case("hats, 4 sizes")),
            )


def against(rival: str, name: str) -> Callable[[], Iterator[Pair]]:
    """A calculation behind less, and by the service: processor time, so the inverse of answers a second of a core."""

    def pairs() -> Iterator[Pair]:
        with ExitStack() as stack:
            turns = Turns(stack, rival, OURS)
            while True:
                yield turns.cost_s(rival, case(name)), turns.cost_s(OURS, case(name))

    return pairs


def batch() -> Iterator[Pair]:
    """A hundred requests through the proxy, and a batch of a hundred: processor time of replica and proxy."""
    bodies = [json.loads(content) for _, content in case("gauge/convert").requests()]
    alone = [Call("one", wire("POST", "/v1/gauge/convert", msgspec.json.encode(body))) for body in bodies]
    groups = [bodies[start : start + 100] for start in range(0, len(bodies), 100)]
    parts = [
        {"requests": [{"operation": "convertGauge", "body": body} for body in group]} for group in groups
    ]
    together = [Call("batch", wire("POST", "/v1/batch", msgspec.json.encode(body))) for body in parts]
    with (
        tempfile.TemporaryDirectory(prefix="roundwright-") as folder,
        Fleet(Path(folder), [Replica()]) as fleet,
        asyncio.Runner(loop_factory=uvloop.new_event_loop) as runner,
    ):
        while True:
            yield (
                100 * runner.run(_through_the_proxy(fleet, alone)),
                runner.run(_through_the_proxy(fleet, together)),
            )


async def _through_the_proxy(fleet: Fleet, calls: list[Call]) -> float:
    """Processor seconds of replica and proxy for a request."""
    [replica] = fleet.replicas
    assert replica.process is not None
    assert fleet.proxy.process is not None
    pids = [replica.process.pid, *sizing.workers(fleet.proxy.process.pid)]
    callers = Callers(fleet.proxy.port)
    before, turn, requests = (
        sum(map(sizing.processor_s, pids)),
        cycle(calls),
        2000 // len(calls[0].wire) + 300,
    )

    async def ask() -> None:
        for _ in range(requests):
            await callers.ask(next(turn))

    await asyncio.gather(*(ask() for _ in range(8)))
    spent = sum(map(sizing.processor_s, pids)) - before
    callers.close()
    assert not callers.tally.failed, callers.tally.failures
    return spent / (8 * requests)


FIRST = """
import json
from statistics import median
import msgspec
from roundwright.web.routes.operation import Operation
from roundwright.web.settings import Settings
from tests.load.ratios import gauge
from tests.long.asking import Service, operations

service = Service(Settings(warm=True))
seen = {}
for operation in operations():
    if "application/json" in operation.renderers or "image/svg+xml" in operation.renderers:
        body = Operation.example_value(operation)
        ms = []
        for _ in range(12):
            if "gauge" in body:
                body["gauge"] = gauge()
            answer = service.ask_for(operation, msgspec.json.encode(body))
            assert answer.status == 200, answer
            ms.append(answer.ms)
        seen[operation.id] = (ms[0], median(ms[7:]))
print(json.dumps(seen))
"""


def first_answers() -> Iterator[Pair]:
    """The first answer of each operation after a warm start, and the tenth, of the one with the greatest ratio.

    The ratio of an operation is the median of seven starts; every pair is the same.
    """
    runs = [
        json.loads(subprocess.run([sys.executable, "-c", FIRST], capture_output=True, check=True).stdout)
        for _ in range(7)
    ]
    ratios = {name: median(run[name][0] / run[name][1] for run in runs) for name in runs[0]}
    worst = sorted(ratios, key=lambda name: -ratios[name])
    print({name: round(ratios[name], 2) for name in worst[:6]})
    while True:
        yield ratios[worst[0]], 1.0


def start(column: int, *, warm: bool) -> Callable[[], Iterator[Pair]]:
    """Seconds to be ready (0) or bytes when idle (2), of the service and of an application with one answer."""

    def pairs() -> Iterator[Pair]:
        python = str(footprint.runtime())
        while True:
            ours, bare = (footprint.start(name, python, warm=warm) for name in (OURS, footprint.BARE))
            yield ours[column], bare[column]

    return pairs


def growth() -> Iterator[Pair]:
    """Memory after 100,000 mixed requests in all languages, and after 3,000."""
    with tempfile.TemporaryDirectory() as folder:
        script = footprint.mixed(Path(folder))
        first, last, _ = footprint.growth(script, str(footprint.runtime()), 100_000, 5)
    while True:
        yield float(last), float(first)


SIMPLE = [served_case.name for served_case in CASES if served_case.simple]
BARE = "a bare Litestar application"

ROWS = (
    ("hats, four sizes, by socket: answers a second", "repeated crowns", "≥ 0.075", hats_and_crowns),
    *(
        (f"{name}: answers a second of a core", "the same in bare ASGI", "≥ 0.6", against("floor", name))
        for name in SIMPLE
    ),
    (
        "needles/split: answers a second of a core", "plain Litestar", "≥ 1.3",
        against("plain", "needles/split, 56 on three"),
    ),
    ("a batch of 100, through the proxy: a second of a core", "100 requests", "≥ 4", batch),
    ("first answer of an operation, the dearest, warm on", "the tenth", "≤ 2", first_answers),
    ("start until ready, cold, processor time", BARE, "≤ 1.5", start(0, warm=False)),
    ("idle memory, cold", BARE, "≤ 1.5", start(2, warm=False)),
    # What is wanted; footprint.MOST_START and MOST_IDLE are what a warm service is held to.
    ("start until ready, warm, processor time", BARE, "≤ 1.5", start(0, warm=True)),
    ("idle memory, warm, with the process for PDFs", BARE, "≤ 1.5", start(2, warm=True)),
    ("memory after 100,000 mixed requests, all languages", "after 3,000", "≤ 1.02", growth),
)  # fmt: skip
