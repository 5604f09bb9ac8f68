"""What a request costs, and so how many cores a rate of requests needs: the tables in deploy/SIZING.md.

    python -m tests.load.sizing                 measures, and writes the tables
    python -m tests.load.sizing --seconds 0.3   a quick look; printed only

The cost is the processor time that the replica and the proxy themselves spend on a request, read from the kernel, so a
busy machine spoils it little. Every answer is compared to the byte. Loopback only.
"""

import argparse
import asyncio
import os
import platform
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

import uvloop

from tests.load.callers import Call, Callers, good_calls
from tests.load.fleet import REPOSITORY, Fleet, Replica

PAGE = REPOSITORY / "deploy" / "SIZING.md"
BEGIN, END = "<!-- measured: begin -->", "<!-- measured: end -->"
CALLERS = 16
BUSY = 0.5
"""Share of a core that a replica is meant to use: what the autoscaler holds it to, and room for the loss of a zone."""
RATES = (10, 1_000, 100_000)
VISIT = {"POST /v1/gauge/convert": 5, "POST /v1/sizing/recommend": 1, "POST /v1/hats": 1, "GET": 3}
"""A visitor of a shop's page: five looks at a gauge, a size, a hat, three look-ups or pictures. An assumption."""


@dataclass
class Cost:
    """What one request costs."""

    name: str
    replica_us: float
    proxy_us: float
    answer_bytes: int


def main() -> int:
    """Measure and write."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--seconds", type=float, default=3, help="how long each operation is asked, twice")
    given = parser.parse_args()
    calls = good_calls()
    with (
        tempfile.TemporaryDirectory(prefix="roundwright-") as folder,
        Fleet(Path(folder), [Replica()]) as fleet,
        asyncio.Runner(loop_factory=uvloop.new_event_loop) as runner,
    ):
        costs = [runner.run(cost_of(fleet, call, given.seconds)) for call in one_of_each(calls)]
    text = tables(costs)
    sys.stdout.write(text)
    if given.seconds >= 1:
        before, _, rest = PAGE.read_text().partition(BEGIN)
        PAGE.write_text(f"{before}{BEGIN}\n{text}{END}{rest.partition(END)[2]}")
    return 0


def one_of_each(calls: list[Call]) -> list[Call]:
    """The first request to each address, but those of PDFs: of them only four may be in hand."""
    first: dict[str, Call] = {}
    for call in calls:
        if ".pdf" in call.name:
            continue
        first.setdefault(call.name.partition("?")[0], call)
    return list(first.values())


async def cost_of(fleet: Fleet, call: Call, seconds: float) -> Cost:
    """Ask the replica itself, then the proxy, and see what each of them spent on its answers."""
    [replica] = fleet.replicas
    assert replica.process is not None
    assert fleet.proxy.process is not None
    replica_us = await _spent([replica.process.pid], replica.port, call, seconds)
    proxy_us = await _spent(workers(fleet.proxy.process.pid), fleet.proxy.port, call, seconds)
    return Cost(call.name.partition("?")[0], replica_us, proxy_us, len(call.expected or b""))


def workers(master: int) -> list[int]:
    """The processes of nginx that answer."""
    children = Path(f"/proc/{master}/task/{master}/children").read_text().split()
    return [int(pid) for pid in children if b"worker" in Path(f"/proc/{pid}/cmdline").read_bytes()]


async def _spent(pids: list[int], port: int, call: Call, seconds: float) -> float:
    callers = Callers(port)
    for _ in range(50):
        await callers.ask(call)
    begun, before = len(callers.tally.spans), sum(map(processor_s, pids))
    end = time.monotonic() + seconds

    async def ask_on() -> None:
        while time.monotonic() <= end:
            await callers.ask(call)

    await asyncio.gather(*(ask_on() for _ in range(CALLERS)))
    spent = sum(map(processor_s, pids)) - before
    callers.close()
    assert not callers.tally.failed, callers.tally.failures
    assert not callers.tally.wrong
    return 1e6 * spent / (len(callers.tally.spans) - begun)


def processor_s(pid: int) -> float:
    """Processor time a process has used, in all its threads."""
    nanoseconds = (
        task.joinpath("schedstat").read_text().split()[0] for task in Path(f"/proc/{pid}/task").iterdir()
    )
    return sum(map(int, nanoseconds)) / 1e9


def tables(costs: list[Cost]) -> str:
    """The tables, as Markdown."""
    lines = [
        "",
        f"Python {platform.python_version()}, one core of {_processor()}.",
        "",
        "| Request | Replica, µs of a core | Proxy, µs of a core | A second from a replica's core | Bytes |",
        "| --- | ---: | ---: | ---: | ---: |",
    ]
    for cost in costs:
        a_core = 1e6 / cost.replica_us
        numbers = (
            f"{cost.replica_us:.0f}",
            f"{cost.proxy_us:.0f}",
            f"{a_core:,.0f}",
            f"{cost.answer_bytes:,}",
        )
        lines.append(f"| `{cost.name}` | {' | '.join(numbers)} |")
    lines += [
        "",
        f"Cores for a rate, at {BUSY:.0%} use: replicas, and proxies beside them.",
        "",
        f"| All requests are | {' | '.join(f'{rate:,} a second' for rate in RATES)} | Traffic at {RATES[-1]:,} |",
        f"| --- |{' ---: |' * (len(RATES) + 1)}",
    ]
    dearest = max(costs, key=lambda cost: cost.replica_us)
    cheapest = next(cost for cost in costs if cost.name == "POST /v1/gauge/convert")
    for name, cost in (
        ("small: a gauge", cheapest),
        ("a visit, mixed", _visit(costs)),
        ("the dearest example", dearest),
    ):
        label = name if cost.name == "a visit" else f"{name} (`{cost.name}`)"
        lines.append(f"| {label} | {' | '.join(_cores(cost, rate) for rate in RATES)} | {_traffic(cost)} |")
    kept = _visit(costs, kept=True)
    cores = " | ".join(_cores(kept, rate) for rate in RATES)
    lines.append(f"| a visit, look-ups kept by the proxies | {cores} | {_traffic(kept)} |")
    return "\n".join(lines) + "\n\n"


def _visit(costs: list[Cost], *, kept: bool = False) -> Cost:
    """The mean request of a visit; `kept`: look-ups do not reach the replicas."""
    known = {cost.name: cost for cost in costs}
    lookups = [cost for cost in costs if cost.name.startswith("GET")]
    parts = []
    for name, number in VISIT.items():
        chosen = lookups if name == "GET" else [known[name]]
        mean = [
            sum(getattr(cost, field) for cost in chosen) / len(chosen)
            for field in ("replica_us", "proxy_us", "answer_bytes")
        ]
        if name == "GET" and kept:
            mean[0] = 0
        parts.append((number, mean))
    total = sum(number for number, _ in parts)
    replica_us, proxy_us, size = (
        sum(number * mean[place] for number, mean in parts) / total for place in range(3)
    )
    return Cost("a visit", replica_us, proxy_us, int(size))


def _cores(cost: Cost, rate: int) -> str:
    replicas, proxies = (rate * cost_us / 1e6 / BUSY for cost_us in (cost.replica_us, cost.proxy_us))
    return f"{_rounded(replicas)} + {_rounded(proxies)}"


def _rounded(cores: float) -> str:
    return f"{cores:,.0f}" if cores >= 10 else f"{cores:.1f}" if cores >= 0.1 else f"{cores:.3f}"


def _traffic(cost: Cost) -> str:
    return f"{RATES[-1] * (cost.answer_bytes + 300) * 8 / 1e9:.1f} Gbit/s"


def _processor() -> str:
    lines = Path("/proc/cpuinfo").read_text().splitlines()
    name = next(
        (line.partition(": ")[2] for line in lines if line.startswith("model name")), platform.machine()
    )
    return f"{name} ({os.cpu_count()} in the machine)"


if __name__ == "__main__":
    sys.exit(main())
