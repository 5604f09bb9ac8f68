"""Every bounded cache of the service: what it holds at most, and what it gains on requests never asked before.

    python -m tests.load.caches        prints the table of RESULTS.md and writes it

Bytes are of a cache full of what the dearest requests leave in it, as `tests/web/test_middleware.py` adds them up. The
gain is how much longer the operation that needs the cache most takes without it, each request of another gauge;
medians of rounds that take turns.
"""

import sys
import tracemalloc
from collections.abc import Iterator
from contextlib import contextmanager
from statistics import median
from typing import Any

import msgspec

from roundwright.web.routes.operation import CACHE_SIZE, Lookup
from tests.load.bench import machine
from tests.load.ratios import OPERATIONS, PACKAGES, gauge, pattern
from tests.load.results import write_section
from tests.long.asking import Service
from tests.long.record import table
from tests.web.test_middleware import _ask_for_the_dearest, _bytes_when_full, _caches

ROUNDS, ASKED = 5, 6
COLD = ("planHats", "closeCrown", "suggestCrown", "splitOverNeedles", "estimateYarn", "writeHandout",
        "drawCrown", "checkCount", "proofreadPattern", "recommendSize")  # fmt: skip


def bytes_held(service: Service) -> dict[str, float]:
    """Bytes of each cache when it is full."""
    _ask_for_the_dearest(service, 0)
    caches = _caches()
    for cache in caches:
        cache.cache_clear()
    tracemalloc.start()
    for turn in range(1, 3):
        _ask_for_the_dearest(service, turn)
    held = {_name(cache): _bytes_when_full(cache) for cache in caches}
    tracemalloc.stop()
    return held


def _name(cache: Any) -> str:
    return f"{cache.__wrapped__.__module__.removeprefix('roundwright.')}.{cache.__wrapped__.__name__}"


@contextmanager
def without(cache: Any) -> Iterator[None]:
    """The function itself in the place of its cache, in every module that has it."""
    modules = [module for name, module in list(sys.modules.items()) if name.startswith("roundwright")]
    places = [(module, key) for module in modules for key, held in vars(module).items() if held is cache]
    for module, key in places:
        setattr(module, key, cache.__wrapped__)
    try:
        yield
    finally:
        for module, key in places:
            setattr(module, key, cache)


def spent_ms(service: Service, name: str, *, again: bool = False) -> float:
    """The median of some requests never asked before, or of one asked again and again."""
    operation = OPERATIONS[name]
    bodies = []
    for _ in range(1 if again else ASKED):
        body = pattern(20, 2) if name == "proofreadPattern" else operation.example_value()
        if "hat" in body:
            body["hat"]["gauge"] = gauge()
        elif name == "drawCrown":
            body |= {"gauge_stitches": gauge()["stitches"], "gauge_rows": 28}
        elif name == "checkCount":
            body["crown"]["gauge"] = gauge()
        elif name not in ("proofreadPattern", "recommendSize"):
            body["gauge"] = gauge()
        bodies.append(msgspec.json.encode(body))
    answers = [service.ask_for(operation, body) for body in (ASKED * bodies if again else bodies)]
    assert all(answer.status == 200 for answer in answers), answers[0]
    return median(answer.ms for answer in answers)


def gain(service: Service, cache: Any, *, again: bool) -> str:
    """The largest gain of an operation, in percent, and the operation."""
    ratios: dict[str, list[float]] = {name: [] for name in COLD}
    for _ in range(ROUNDS):
        for name, seen in ratios.items():
            kept_ms = spent_ms(service, name, again=again)
            with without(cache):
                seen.append(spent_ms(service, name, again=again) / kept_ms)
    most = max(ratios, key=lambda name: median(ratios[name]))
    return f"{100 * (median(ratios[most]) - 1):+.0f} % ({most})"


def main() -> int:
    """Print the table and write it down."""
    service = Service()
    held = bytes_held(service)
    rows = []
    for cache in sorted({_name(cache): cache for cache in _caches()}.values(), key=_name):
        rows.append(
            {
                "Cache": _name(cache),
                "Entries": f"{cache.cache_parameters()['maxsize']:,}",
                "KiB at most": f"{held[_name(cache)] / 1024:,.0f}",
                "Without it, never asked": gain(service, cache, again=False),
                "Without it, asked again": gain(service, cache, again=True),
            }
        )
        print(rows[-1], flush=True)
    lookups = sum(isinstance(operation, Lookup) for operation in OPERATIONS.values())
    total = sum(held.values()) / 2**20
    introduction = (
        f"Written by `python -m tests.load.caches`. All together hold {total:.1f} MiB at most. Beside them: parsed\n"
        f"addresses, {CACHE_SIZE} for each of {lookups} look-ups, and the router's, under 8 MiB; tables and words, "
        "read once.\n*Without it*: how much longer the operation takes that needs the cache most, of those measured."
    )
    write_section("Caches", f"{introduction}\n\n{machine(PACKAGES)}\n\n{table(rows)}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
