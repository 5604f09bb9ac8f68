"""How fast the service is, beside what it is measured against: one command, no judgement on time.

    python -m tests.load.bench                       everything (half an hour), into RESULTS.md
    python -m tests.load.bench served --rounds 3     one part, with fewer rounds: printed only
    python -m tests.load.bench --quick               all parts, short, for a look: printed only

Needs the environment of `tests/load/requirements.txt`, wrk (Debian) and two cores on a quiet machine.

    served       each request by socket: the service, a floor, a plain Litestar application and a peer
    inside       the functions behind them in process, by pyperf, and how they grow
    footprint    start, memory and processor time
"""

import argparse
import os
import platform
import signal
import sys
from collections.abc import Sequence
from importlib.metadata import version
from pathlib import Path

from tests.load import footprint, inside, served
from tests.load.results import write_section

PARTS = ("served", "inside", "footprint")
PACKAGES = ("litestar", "uvicorn", "msgspec", "fastapi", "pydantic", "pyperf")
SERVED = """
Answers a second over {connections} connections, medians of {rounds} rounds of {seconds} s in turn; p50 and p99 are
the service's own at that rate. A ratio is the median of those of each round. Answers are the same to the byte, but
for the spelling of some numbers by the peer. Each row asks 1,000 requests in turn that differ in gauge or stitches, so
that what is kept answers none of them; a row named *repeated* asks the same again and again. A 304 by a rival is a
constant; the service's comes from the parameters as it understands them. Where what was to be reached was not, it
stands beside the figure.
"""
INSIDE = """
In process, by pyperf: medians on one core. *Hot* is one request over and over; *cold* has another gauge each time, so
that nothing that is kept is asked for again. *Even* spacing decreases the same shares of the stitches, *awkward*
spacing one stitch less, in numbers that divide in no simple way: a line in nested repeats is the longer the more turns
Euclid's algorithm takes, which is what grows there.
"""
FOOTPRINT = """
In an environment with the image's packages and no others. *Bare* is a Litestar application with a single answer under
the same uvicorn. Warm, as in the image, the service has answered every operation once before it is ready; cold it loads
what an answer needs with the first that needs it. A start is compared by the processor time of the process. Memory is
the resident set, warm with that of the process for PDFs and PNGs.
"""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the parts asked for; print them, and write them down where nothing was shortened."""
    parser = argparse.ArgumentParser(prog="python -m tests.load.bench")
    parser.add_argument("parts", nargs="*", choices=[*PARTS, []], help="all of them if none is named")
    parser.add_argument("--rounds", type=int, help="rounds in which the servers take turns (5)")
    parser.add_argument("--seconds", type=int, help="seconds of each turn (3)")
    parser.add_argument("--requests", type=int, help="mixed requests, for the memory (100,000)")
    parser.add_argument(
        "--only", default="", help="of what is asked by socket, only what has this in its name"
    )
    parser.add_argument("--quick", action="store_true", help="short, for a look")
    given = parser.parse_args(arguments)
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(1))  # told to stop, it stops its servers too
    shortened = given.quick or given.only or given.rounds or given.seconds or given.requests
    rounds = given.rounds or (1 if given.quick else 5)
    seconds = given.seconds or (1 if given.quick else 3)
    requests = given.requests or (10_000 if given.quick else 100_000)
    cases = [case for case in served.CASES if given.only in case.name]
    for part in given.parts or PARTS:
        if part == "served":
            heading = "Speed: by socket"
            introduction = SERVED.format(connections=served.CONNECTIONS, rounds=rounds, seconds=seconds)
            tables = [served.measure(rounds, seconds, cases)]
        elif part == "inside":
            heading, introduction = "Speed: in process", INSIDE
            tables = inside.tables(inside.measure(quick=given.quick))
        else:
            heading, introduction = "Speed: footprint", FOOTPRINT
            tables = [footprint.measure(requests=requests, seconds=seconds)]
        # Each part is written as soon as it is there: what fails later does not lose it.
        written = "\n\n".join([f"{introduction.strip()}\n\n{machine()}", *map(table, tables)])
        print(f"## {heading}\n\n{written}\n", flush=True)
        if not shortened:
            write_section(heading, written)
    return 0


def table(rows: Sequence[dict[str, str]]) -> str:
    """Rows as a table of Markdown."""
    columns = list(dict.fromkeys(column for row in rows for column in row))
    lines = [columns, ["---"] * len(columns), *([row.get(column, "") for column in columns] for row in rows)]
    return "\n".join(f"| {' | '.join(line)} |" for line in lines)


def machine(names: Sequence[str] = PACKAGES) -> str:
    """Where it was run, with the versions of some packages."""
    processors = [
        line.partition(": ")[2]
        for line in Path("/proc/cpuinfo").read_text().splitlines()
        if line.startswith("model name")
    ]
    packages = ", ".join(f"{name} {version(name)}" for name in names)
    return (
        f"Run on {os.cpu_count()} cores of {processors[0] if processors else platform.machine()}, {platform.system()} "
        f"{platform.release()}, Python\n{platform.python_version()}, {packages}.\n"
        f"Load {os.getloadavg()[2]:.1f} over the 15 minutes before the end, of which the benchmark's own is up to 2."
    )


if __name__ == "__main__":
    sys.exit(main())
