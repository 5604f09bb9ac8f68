"""How cost grows: three days on paper, from the costs measured in deploy/SIZING.md; every step of the sum is shown.

    python -m tests.load.days        prints the section "How cost grows" and writes it into deploy/SIZING.md

Assumptions are the constants below. What was never asked before costs more than the tables say, which ask the same
again and again: for hats the difference is measured here, in process.
"""

import re
import sys
from math import ceil
from statistics import fmean, median

import msgspec

from tests.load.ratios import OPERATIONS, gauge
from tests.load.sizing import BUSY, PAGE, VISIT
from tests.long.asking import Service

PEAK = 0.15
"""Share of a day's requests in its busiest hour: a page that people of one continent visit."""
VISITORS = 100_000
VIEWS, PICTURES = 10_000_000, 20_000
"""Views a day, and different pictures: 5,000 patterns with four pictures each."""
KEPT_H = 1
"""Hours after which a network asks whether a picture has changed (`ROUNDWRIGHT_MAX_AGE_S`)."""
PUPILS, AT_ONCE, PER_SECOND = 30, 4, 3
"""A class behind one address; of dear requests the proxy passes four at once and then four a second (`site.conf`)."""
REPLICA_MIB, PROXY_MIB = 128, 256
BEGIN, END = "<!-- days: begin -->", "<!-- days: end -->"
ROW = re.compile(r"\| `(\w+ \S+)` \| (\d+) \| (\d+) \| [\d,]+ \| ([\d,]+) \|")
Cost = tuple[float, float, float]  # microseconds of a replica, of the proxy, bytes


def costs() -> dict[str, Cost]:
    """The table of SIZING.md; hats as for a gauge never asked before. A pattern costs as much again."""
    found = {
        name: (float(replica), float(proxy), float(size.replace(",", "")) + 300)
        for name, replica, proxy, size in ROW.findall(PAGE.read_text())
    }
    replica, proxy, size = found["POST /v1/hats"]
    return found | {"POST /v1/hats": (replica + never_asked_us("planHats"), proxy, size)}


def never_asked_us(operation: str) -> float:
    """What a request never asked costs above one that is asked again and again."""
    service, declared = Service(), OPERATIONS[operation]
    example = declared.example_value()
    new_ms, again_ms = (
        median(service.ask_for(declared, msgspec.json.encode(body)).ms for body in bodies)
        for bodies in ([example | {"gauge": gauge()} for _ in range(30)], 30 * [example])
    )
    return 1_000 * (new_ms - again_ms)


def day(name: str, parts: list[tuple[str, float, Cost]]) -> list[str]:
    """A day as lines: each part with its number of requests, then their sum."""
    lines = [f"**{name}**", ""]
    for what, number, (replica_us, proxy_us, size) in parts:
        lines.append(
            f"- {what}: {number:,.0f} × ({replica_us:,.0f} µs replica + {proxy_us:,.0f} µs proxy), "
            f"{size:,.0f} bytes = {number * replica_us / 1e6:,.0f} s + {number * proxy_us / 1e6:,.0f} s, "
            f"{number * size / 1e9:,.1f} GB"
        )
    replica_s, proxy_s = (sum(number * cost[at] / 1e6 for _, number, cost in parts) for at in range(2))
    size, busy = sum(number * cost[2] for _, number, cost in parts), PEAK / 3600 / BUSY
    replicas = max(2, ceil(replica_s * busy))
    lines.append(
        f"- in all {replica_s:,.0f} + {proxy_s:,.0f} s of a core and {size / 1e9:,.1f} GB; in the busiest hour "
        f"× {PEAK:g} / 3600 s / {BUSY:g} (use) = {replica_s * busy:.3f} + {proxy_s * busy:.3f} cores, "
        f"{size * 8 * PEAK / 3600 / 1e6:,.1f} Mbit/s: {replicas} replicas × {REPLICA_MIB} + 2 proxies × {PROXY_MIB} = "
        f"{replicas * REPLICA_MIB + 2 * PROXY_MIB:,} MiB"
    )
    return [*lines, ""]


def section() -> str:
    """The three days."""
    cost = costs()
    gets = [figures for name, figures in cost.items() if name.startswith("GET /v1/drawings")]
    picture: Cost = (
        fmean(figures[0] for figures in gets),
        fmean(figures[1] for figures in gets),
        fmean(figures[2] for figures in gets),
    )
    unchanged: Cost = (
        min(figures[0] for name, figures in cost.items() if name.startswith("GET")),
        picture[1],
        300,
    )
    shop = [(name, VISITORS * number, cost[name]) for name, number in VISIT.items() if name != "GET"]
    looks = VISITORS * VISIT["GET"]
    requests = min(VIEWS, PICTURES * 24 / KEPT_H)
    checks = [
        ("pictures asked for anew", PICTURES, picture),
        ("unchanged (304)", requests - PICTURES, unchanged),
    ]
    proofread_us, last_s = cost["POST /v1/patterns/proofread"][0], (PUPILS - AT_ONCE) / PER_SECOND
    school = (
        f"**A school of {PUPILS} pasting patterns at once**: {PUPILS} × {proofread_us:,.0f} µs = "
        f"{PUPILS * proofread_us / 1e6:.2f} s of a core, so a replica alone answers the last after as long. Behind\n"
        f"the proxy, from one address, {AT_ONCE} pass at once and then {PER_SECOND} a second: the last begins after "
        f"({PUPILS} - {AT_ONCE}) / {PER_SECOND} = {last_s:.1f} s, and nobody is refused (40 may wait).\n"
    )
    lines = [
        *day(f"A shop with {VISITORS:,} visitors", [*shop, ("GET", looks, picture)]),
        *day("The same shop behind a content network, which keeps its look-ups and pictures", shop),
        *day(f"A pattern site with {VIEWS:,} picture views", [("views", VIEWS, picture)]),
        *day(f"The same site behind a content network, for {PICTURES:,} pictures kept {KEPT_H} h", checks),
    ]
    return "\n".join([*lines, school])


def main() -> int:
    """Print the section and write it down."""
    sys.stdout.write(text := section())
    before, _, rest = PAGE.read_text().partition(BEGIN)
    PAGE.write_text(f"{before}{BEGIN}\n\n{text}\n{END}{rest.partition(END)[2]}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
