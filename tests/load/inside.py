"""The functions behind the operations, timed in process by pyperf: what they take, and how that grows.

*hot* is one request over and over; *cold* a request of another gauge each time, so that none of the few crowns, heads
and cast-ons that are kept is the one asked for.
"""

import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from functools import cached_property
from itertools import cycle
from pathlib import Path
from time import perf_counter
from typing import Any

import msgspec

from tests.load.cases import CASES, GAUGE, hats, split
from tests.load.fleet import REPOSITORY

STITCHES = (100, 1_000, 10_000, 100_000, 1_000_000)
ROUNDS = (50, 60, 100, 300, 600)
SIZES = (1, 4, 8, 12)
SHARES = (0.03, 0.07, 0.12, 0.19, 0.31, 0.43)
"""Of the stitches, decreased in one round."""
GAUGES = 127
"""More than are ever kept, and a prime: no two things cycle alike."""

KINDS, WAYS = ("even", "awkward"), ("hot", "cold")
HATS, CROWN, SPLIT, EVEN = "/v1/hats", "/v1/crown", "/v1/needles/split", "/v1/shaping/even"


def gauges() -> list[Any]:
    """Gauges that differ."""
    return [
        {**GAUGE, "stitches": 22 + number / 1_000, "rows": 30 + number / 1_000} for number in range(GAUGES)
    ]


class Timed:
    """A calculation to time; its requests are made when it is first timed, in the process that does so."""

    def __init__(self, path: str, *bodies: Any, encoded: bool = False) -> None:
        self.path = path
        self.bodies = bodies
        self.encoded = encoded

    def __call__(self, loops: int) -> float:
        """Seconds for so many."""
        function, requests = self._prepared
        start = perf_counter()
        for _ in range(loops):
            function(next(requests))
        return perf_counter() - start

    @cached_property
    def _prepared(self) -> tuple[Callable[[Any], Any], Iterator[Any]]:
        from roundwright.web.routes import all_operations

        operation = next(operation for operation in all_operations() if operation.template == self.path)
        requests = [msgspec.convert(body, operation.request_type) for body in self.bodies]
        if self.encoded:
            return msgspec.json.Encoder(enc_hook=str).encode, cycle([operation.calculate(requests[0])])
        for request in requests[-3:]:  # what is read once is read
            operation.calculate(request)
        return operation.calculate, cycle(requests)


def timed() -> dict[str, Timed]:
    """Everything that is timed, by name."""
    found = {}
    for case in CASES:
        if case.body is not None:
            found[f"{case.name}: hot"] = Timed(case.path, case.body)
            found[f"{case.name}: encode"] = Timed(case.path, case.body, encoded=True)
            if "gauge" in case.body:
                bodies = [{**case.body, "gauge": gauge} for gauge in gauges()]
                found[f"{case.name}: cold"] = Timed(case.path, *bodies)
    for stitches in STITCHES:
        for less, name in ((0, "even"), (1, "awkward")):
            changes = [{"stitches": stitches, "change": less - round(stitches * share)} for share in SHARES]
            found[f"{name} spacing, {stitches}"] = Timed(EVEN, *changes)
    for stitches in ROUNDS:
        for style in ("quick", "dome"):
            crowns = [{"stitches": stitches, "style": style, "gauge": gauge} for gauge in gauges()]
            found[f"crown, {stitches} {style}"] = Timed(CROWN, *crowns)
            found[f"split, {stitches} {style}"] = Timed(SPLIT, split(stitches, style))
    for sizes in SIZES:
        found[f"hats, {sizes} of 12: hot"] = Timed(HATS, hats(sizes))
        found[f"hats, {sizes} of 12: cold"] = Timed(HATS, *[hats(sizes, gauge) for gauge in gauges()])
    return found


def measure(*, quick: bool) -> dict[str, float]:
    """Microseconds by name: the medians that pyperf finds, in processes of their own on the second core."""
    import pyperf

    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "inside.json"
        pace = (
            ["--processes=1", "--values=3", "--min-time=0.01"] if quick else ["--processes=5", "--values=5"]
        )
        subprocess.run(
            [sys.executable, "-m", "tests.load.inside", "--quiet", "--affinity=1", *pace, "-o", str(file)],
            cwd=REPOSITORY, check=True, stdout=subprocess.DEVNULL,
        )  # fmt: skip
        suite = pyperf.BenchmarkSuite.load(str(file))
        return {benchmark.get_name(): benchmark.median() * 1e6 for benchmark in suite}


def tables(us: dict[str, float]) -> list[list[dict[str, str]]]:
    """What is told of it: each case, the growth, and what was to be reached."""
    return [_cases(us), _growth(us), _reached(us)]


def _cases(us: dict[str, float]) -> list[dict[str, str]]:
    rows = []
    for case in CASES:
        if case.body is not None:
            hot, cold, encode = (us.get(f"{case.name}: {what}") for what in ("hot", "cold", "encode"))
            assert hot is not None
            assert encode is not None
            rows.append(
                {
                    "Calculated": case.name,
                    "hot": _told(hot),
                    "cold": "" if cold is None else _told(cold),
                    "encoding the answer": _told(encode),
                    "hot / encoding": f"{hot / encode:.1f}",
                    "cold / encoding": "" if cold is None else f"{cold / encode:.1f}",
                }
            )
    return rows


def _growth(us: dict[str, float]) -> list[dict[str, str]]:
    """Even spacing has the same shares of the stitches decreased; awkward spacing one stitch less, which makes numbers
    that divide in no simple way and lines that are longer the more stitches there are.
    """
    grown = {
        f"{name} spacing": {stitches: us[f"{name} spacing, {stitches}"] for stitches in STITCHES}
        for name in KINDS
    }
    for what in ("crown", "split"):
        for style in ("quick", "dome"):
            grown[f"{what}, {style}"] = {stitches: us[f"{what}, {stitches} {style}"] for stitches in ROUNDS}
    for how in ("hot", "cold"):
        grown[f"hats, {how}"] = {sizes: us[f"hats, {sizes} of 12: {how}"] for sizes in SIZES}
    return [
        {
            "Of stitches, or sizes": what,
            **_columns({f"{size:,}": _told(time_us) for size, time_us in found.items()}),
        }
        for what, found in grown.items()
    ]


def _columns(cells: dict[str, str]) -> dict[str, str]:
    return {"it takes": ", ".join(f"{size}: {cell}" for size, cell in cells.items())}


def _reached(us: dict[str, float]) -> list[dict[str, str]]:
    four = "hats, 4 sizes"
    wanted = [
        *((f"{four}, {how}: time / time to encode", f"{four}: {how}", f"{four}: encode", 12.0) for how in WAYS),
        *((f"{name} spacing: 10⁶ stitches / 10²", f"{name} spacing, {STITCHES[-1]}", f"{name} spacing, 100", 1.5)
          for name in KINDS),
        *((f"split, {style}: 600 stitches / 60", f"split, 600 {style}", f"split, 60 {style}", 15.0)
          for style in ("quick", "dome")),
        *((f"hats, {how}: 12 sizes / 1 size", f"hats, 12 of 12: {how}", f"hats, 1 of 12: {how}", 12.5) for how in WAYS),
    ]  # fmt: skip
    return [reached(what, us[above] / us[below], most) for what, above, below, most in wanted]


STANDS_IN_THE_WAY = {
    "cold": "Python takes as long for one round or amount as msgspec for tens of them, and what is left is spread over "
    "two hundred functions. Tried: ways by repeats, splits listed once, tables asked once, lines taken apart once.",
    "hot": "The same; heads, cast-ons, crowns and yarn are kept, and what is left is the writing of the pattern.",
    "CPU": "On two cores the two processes and wrk share what a core and its caches have; the code is the same.",
    "awkward": "Lines are longer: numbers that divide in no simple way take Euclid's algorithm more turns, and each is "
    "a repeat in the answer. The time does not grow with the stitches.",
    "start": "Litestar, the structs and the routes of the operations, and warm an answer of each. Tried: pint with the "
    "first unit, what draws with the first picture; the log without structlog, which imports rich (cold it was 1.41 "
    "then), but structlog is the log's library here.",
}


def reached(what: str, ratio: float, most: float) -> dict[str, str]:
    """A row that says what was wanted and what was reached."""
    row = {"What": what, "wanted": f"≤ {most:g}", "reached": f"{ratio:.2f}"}
    if round(ratio, 2) > most:
        why = next((why for part, why in STANDS_IN_THE_WAY.items() if part in what), "")
        row |= {"reached": f"{ratio:.2f}, missed", "What stands in the way": why}
    return row


def _told(us: float) -> str:
    return f"{us:.3g} µs" if us < 1_000 else f"{us / 1_000:.3g} ms"


if __name__ == "__main__":
    import pyperf

    runner = pyperf.Runner(program_args=("-m", "tests.load.inside"))
    for name, calculation in timed().items():
        runner.bench_time_func(name, calculation)
