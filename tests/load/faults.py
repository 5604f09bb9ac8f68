"""Faults, tried for real: replicas are killed, restarted, stopped, starved and flooded while callers go on asking.

    python -m tests.load.faults                    all of them, at full length, into RESULTS.md
    python -m tests.load.faults kill roll          only these
    python -m tests.load.faults --seconds 5 kill   shorter, for a look; printed only
    python -m tests.load.faults --soak-seconds 600 soak

    python -m tests.load.faults --limits           only those that strangers make, with the proxy's limits on

Everything stays on the loopback address and ends by itself. Each fault has a quiet stretch before it, to which it is
compared, and a stretch after it, in which the service must recover. Exit status 1 if an answer was wrong or lost, or if
anything else was over its bound; what was stands between ** in the notes.

Without limits the faults are those of machines, and no caller is held back. With the limits as delivered (`STRANGERS`)
the stream comes from as many addresses as it needs, and replicas and proxy are held to the memory of their containers.
"""

import argparse
import asyncio
import gc
import os
import platform
import signal
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Awaitable, Callable
from functools import cache
from math import ceil
from pathlib import Path
from typing import Any

import uvloop

from tests.load import forms
from tests.load.callers import HOST, Call, Callers, Tally, bad_calls, drip, good_calls
from tests.load.fleet import Fleet, Replica
from tests.load.results import write_rows
from tests.load.strangers import FILES as OF_REPLICA
from tests.load.strangers import STRANGERS, watch
from tests.load.trial import Trial

QUIET_S = 10
AFTER_S = 10
RECOVERY_WINDOW_S = 1
RECOVERY_S = 10
SLOWER = 5
"""With the limits on, the p99 of the stream stays under so many times the quiet one."""
FROZEN_SHARE = 0.01
"""Of the stream, at the most so much is lost on a replica that hangs: what it was asked before the proxy noticed."""
STREAM_ADDRESS_PER_SECOND = 8
"""Of which a fifth is dear, and the proxy lets three of those through without a wait."""
MEMORY_BYTES = 256 * 2**20
FILES = 256
FILES_RUSH = 1000
SLOW_CALLERS = 500
RUSH = 2000
FILES_PER_SECOND = 1.0
"""PDFs and PNGs of a soak: one in half a second of a replica's process for them."""
SAMPLES = 20
"""Of memory in a soak, at the least."""
MOST_GROWTH = 1.02
"""Memory of the last third of a soak, to that of the second."""


async def kill(trial: Trial) -> None:
    """One replica is killed (SIGKILL) every 2 s and started anew, always while another one is ready."""
    killed = waited = 0
    end = time.monotonic() + trial.seconds
    while time.monotonic() < end:
        turn = time.monotonic() + 2
        victim = trial.replicas[killed % len(trial.replicas)]
        others = [replica for replica in trial.replicas if replica is not victim]
        while not any([await asyncio.to_thread(other.ready) for other in others]):
            waited += 1
            await asyncio.sleep(0.1)
        victim.signal(signal.SIGKILL)
        await asyncio.to_thread(victim.wait)
        victim.start()
        killed += 1
        await asyncio.sleep(max(0, turn - time.monotonic()))
    trial.notes.append(
        f"{killed} killed" + (f", {waited} × 0.1 s waited for another to be ready" if waited else "")
    )


async def roll(trial: Trial) -> None:
    """All replicas are restarted one after another (SIGTERM), round after round; each serves on for a second first.

    As deployed it serves on for six. Where it stops at once, a request that was refused by a replica which was starting
    and then waited in the next can be lost.
    """
    restarted = 0
    end = time.monotonic() + trial.seconds
    while time.monotonic() < end:
        for replica in trial.replicas:
            replica.signal(signal.SIGTERM)
            await asyncio.to_thread(replica.wait)
            replica.start()
            await asyncio.to_thread(replica.wait_ready)
            restarted += 1
    trial.notes.append(f"{restarted} restarted")


async def freeze(trial: Trial) -> None:
    """One replica is stopped (SIGSTOP): it takes connections and answers nothing. Then it goes on.

    What it was asked before the proxy noticed is lost as 504: it is asked of no other, since what hangs may be dear.
    """
    trial.replicas[0].signal(signal.SIGSTOP)
    await asyncio.sleep(trial.seconds)
    trial.replicas[0].signal(signal.SIGCONT)
    if repeated := trial.fleet.proxy.repeated():
        trial.over(f"{repeated} POSTs repeated after a timeout")


async def slow(trial: Trial) -> None:
    """500 callers send their requests byte by byte, and come again when they are cut off."""
    stop = asyncio.Event()
    cut: Counter[str] = Counter()
    port = trial.fleet.proxy.port
    callers = [
        asyncio.create_task(drip(port, f"127.0.1.{1 + number % 200}", stop, cut))
        for number in range(SLOW_CALLERS)
    ]
    await asyncio.sleep(trial.seconds / 2)
    held = [replica.open_files() for replica in trial.replicas]
    await asyncio.sleep(trial.seconds / 2)
    stop.set()
    await asyncio.gather(*callers)
    trial.notes.append(f"slow callers {dict(cut)}; files open in the replicas meanwhile {held}")


async def rush(trial: Trial) -> None:
    """2,000 connections at once, each with a request, every 5 s."""
    await _rush(trial, RUSH)


async def _rush(trial: Trial, number: int) -> None:
    end = time.monotonic() + trial.seconds
    rushes = failed = wrong = 0
    longest = 0.0
    reasons: Counter[str] = Counter()
    while time.monotonic() < end:
        callers = Callers(trial.fleet.proxy.port, "127.0.2.1")
        started = time.monotonic()
        await callers.rush(trial.calls, number)
        longest = max(longest, time.monotonic() - started)
        failed += callers.tally.failed
        wrong += callers.tally.wrong
        reasons += callers.tally.failures
        callers.close()
        rushes += 1
        await asyncio.sleep(max(0, min(5 - (time.monotonic() - started), end - time.monotonic())))
    trial.notes.append(
        f"{rushes} × {number} connections: {failed} failed {dict(reasons) or ''}, {wrong} wrong, "
        f"all answered within {longest:.1f} s"
    )
    if failed or wrong:
        trial.notes.append("**lost**")


async def bad(trial: Trial) -> None:
    """One in five requests is bad: not JSON, not UTF-8, too large, nested deeply, of no known address, not HTTP."""
    callers = Callers(trial.fleet.proxy.port, "127.0.3.1")
    stop = asyncio.Event()
    flood = asyncio.create_task(callers.steadily(bad_calls(), RATE["per_second"] / 4, stop))
    await asyncio.sleep(trial.seconds)
    stop.set()
    await flood
    callers.close()
    right = sum(span[2] for span in callers.tally.spans)
    trial.notes.append(f"{len(callers.tally.spans)} bad ones, {right} refused as they should be")
    if right != len(callers.tally.spans):
        trial.notes.append(
            f"**others: {dict(callers.tally.failures)}, {callers.tally.wrong} without a problem**"
        )


async def files(trial: Trial) -> None:
    """Each replica may hold 256 files and connections: 1,000 connections every 5 s, 400 idle ones on one replica."""
    idle: list[asyncio.StreamWriter] = []
    for number in range(400):
        try:
            _, writer = await asyncio.open_connection(
                "127.0.0.1", trial.replicas[0].port, local_addr=("127.0.4.1", 0)
            )
            idle.append(writer)
        except OSError:
            trial.notes.append(f"idle connection {number} refused")
            break
    await _rush(trial, FILES_RUSH)
    trial.notes.append(
        f"most files open {max(replica.open_files() for replica in trial.replicas)} of {FILES}"
    )
    for writer in idle:
        writer.transport.abort()


async def memory(trial: Trial) -> None:
    """Each replica may hold 256 MiB, while a flood of large and bad bodies comes as well."""
    await bad(trial)
    kind = "control group" if trial.replicas[0].most_memory_bytes() else "RLIMIT_DATA"
    most = [
        f"{(replica.most_memory_bytes() or replica.memory_bytes_now()) / 2**20:.0f}"
        for replica in trial.replicas
    ]
    alive = all(replica.runs() for replica in trial.replicas)
    trial.notes.append(
        f"most held {', '.join(most)} MiB ({kind}); {'none' if alive else '**one**'} was killed"
    )


async def soak(trial: Trial) -> None:
    """Steady load of every form in every language, PDFs and PNGs beside it; memory must be flat."""
    tally = Tally()
    files = Callers(trial.fleet.proxy.port, "127.0.3.2", tally)
    stop = asyncio.Event()
    asking = asyncio.create_task(files.steadily(every_form()[1], FILES_PER_SECOND, stop))
    samples: list[tuple[float, ...]] = []
    end = time.monotonic() + trial.seconds
    while time.monotonic() < end:
        await asyncio.sleep(min(5, trial.seconds / SAMPLES))
        samples.append(tuple(replica.memory_bytes_now() / 2**20 for replica in trial.replicas))
    third = max(1, len(samples) // 3)
    for number in range(len(trial.replicas)):
        middle, last = (
            sum(sample[number] for sample in part) / len(part)
            for part in (samples[third : 2 * third], samples[-third:])
        )
        held = f"replica {number + 1} held {middle:.1f} MiB in the second third, {last:.1f} in the last"
        if last > MOST_GROWTH * middle:
            trial.over(held)
        else:
            trial.notes.append(held)
    stop.set()
    await asking
    files.close()
    trial.notes.append(f"{len(tally.spans)} PDFs and PNGs")
    if tally.failed or tally.wrong:
        trial.over(f"of them {dict(tally.failures)}, {tally.wrong} wrong")


FAULTS: dict[str, tuple[Callable[[Trial], Awaitable[None]], tuple[int, ...], float]] = {
    "kill": (kill, (2, 3), 60),
    "roll": (roll, (2, 3), 60),
    "freeze": (freeze, (2, 3), 30),
    "slow": (slow, (2, 3), 30),
    "rush": (rush, (2, 3), 30),
    "bad": (bad, (2, 3), 60),
    "files": (files, (2, 3), 30),
    "memory": (memory, (2, 3), 60),
    "soak": (soak, (2,), 600),
    **{name: (fault, (2,), 30) for name, fault in STRANGERS.items()},
}
"""Each fault with the numbers of replicas it is tried on and the seconds it lasts."""

RATE = {"per_second": 700.0}


async def try_fault(name: str, replicas: int, seconds: float, quiet_s: float) -> dict[str, str]:
    """Try one fault on so many replicas; the row of the table it becomes."""
    fault, _, _ = FAULTS[name]
    calls = every_form()[0] if name == "soak" else good_calls_once()
    limited = name in STRANGERS
    limits: dict[str, Any] = {
        "roll": {"drain_s": 1}, "files": {"files": FILES}, "memory": {"memory_bytes": MEMORY_BYTES},
    }.get(name, {})  # fmt: skip
    proxy: dict[str, Any] = {}
    if limited:
        limits = {"memory_bytes": MEMORY_BYTES} | ({"files": OF_REPLICA[name]} if name in OF_REPLICA else {})
        proxy = {"limited": True, "trusting": True, "memory_bytes": MEMORY_BYTES}
    with (
        tempfile.TemporaryDirectory(prefix="roundwright-") as folder,
        Fleet(Path(folder), [Replica(**limits) for _ in range(replicas)], **proxy) as fleet,
    ):
        trial = Trial(fleet, seconds, calls)
        stream = _stream(fleet.proxy.port, limited=limited)
        stop = asyncio.Event()
        # One address after another, each at another place of the list: else all of them would ask the dear at once.
        places = [number * 7 % len(calls) for number in range(len(stream))]
        load = [
            asyncio.create_task(
                callers.steadily(
                    calls[place:] + calls[:place],
                    RATE["per_second"] / len(stream),
                    stop,
                    after_s=number / RATE["per_second"],
                )
            )
            for number, (place, callers) in enumerate(zip(places, stream, strict=True))
        ]
        if limited and name not in OF_REPLICA:
            load.append(asyncio.create_task(watch(trial, stop)))
        await asyncio.sleep(min(3, quiet_s))
        quiet = time.monotonic()
        await asyncio.sleep(quiet_s)
        start = time.monotonic()
        await fault(trial)
        end = time.monotonic()
        await asyncio.sleep(min(AFTER_S, 2 * quiet_s))
        stop.set()
        await asyncio.gather(*load)
        for callers in stream:
            callers.close()
        saved = fleet.proxy.saved()
        if limited:
            _weigh(trial)
    tally = stream[0].tally
    before, during = tally.p99_ms(quiet, start), tally.p99_ms(start, end)
    recovered = _recovered(tally, end, SLOWER * before)
    if tally.failures:
        trial.notes.append(f"failures {dict(tally.failures)}")
    if limited and during >= SLOWER * before:
        trial.notes.append("p99 over its bound")
    return {
        "Fault": f"{name}: {(fault.__doc__ or '').partition(chr(10))[0].strip()}",
        "Replicas": str(replicas),
        "Seconds": f"{end - start:.0f}",
        "Requests": f"{len(tally.spans):,}",
        "Failed": str(tally.failed),
        "Wrong": str(tally.wrong),
        "Saved by a retry": str(saved),
        "p99 quiet, ms": f"{before:.1f}",
        "p99 in it, ms": f"{during:.1f}",
        "Ratio": f"{during / before:.1f}",
        "Recovered within, s": f"{recovered:.1f}",
        "Notes": "; ".join(trial.notes),
    }


def over_its_bound(name: str, row: dict[str, str]) -> bool:
    """Whether a row says of anything that it is over its bound."""
    requests = int(row["Requests"].replace(",", ""))
    may_fail = FROZEN_SHARE * requests if name == "freeze" else 0
    over = int(row["Failed"]) > may_fail or row["Wrong"] != "0" or "**" in row["Notes"]
    if name in STRANGERS:
        over |= float(row["Ratio"]) >= SLOWER or float(row["Recovered within, s"]) >= RECOVERY_S
    return over


def _stream(port: int, *, limited: bool) -> list[Callers]:
    """The callers of the steady stream: as many addresses as the limits ask for, counted together."""
    addresses = ceil(RATE["per_second"] / STREAM_ADDRESS_PER_SECOND) if limited else 1
    tally = Tally()
    return [Callers(port, f"127.0.6.{number + 1}" if limited else HOST, tally) for number in range(addresses)]


def _weigh(trial: Trial) -> None:
    """Note the most that every container held, and whether one was killed for it."""
    held = [
        container.memory for container in (*trial.replicas, trial.fleet.proxy) if container.memory is not None
    ]
    most = [f"{(group.most_bytes() or 0) / 2**20:.0f}" for group in held]
    kinds = " and ".join(dict.fromkeys(group.kind for group in held))
    trial.notes.append(
        f"most held {', '.join(most)} MiB of {MEMORY_BYTES // 2**20} ({kinds}; the last is the proxy)"
    )
    if killed := sum(group.killed() for group in held):
        trial.over(f"{killed} killed for memory")


def _recovered(tally: Tally, end: float, bound_ms: float) -> float:
    """Seconds from the end of the fault to the end of the last second that was not as it should be."""
    late = 0.0
    window = end
    last = max(due for due, _, _ in tally.spans)
    while window < last:
        upto = window + RECOVERY_WINDOW_S
        lost = any(not right for due, _, right in tally.spans if window <= due < upto)
        if lost or tally.p99_ms(window, upto) > bound_ms:
            late = upto - end
        window = upto
    return late


_calls: list[Call] = []


def good_calls_once() -> list[Call]:
    """The requests of the steady stream, calculated once."""
    if not _calls:
        _calls.extend(good_calls())
    return _calls


@cache
def every_form() -> tuple[list[Call], list[Call]]:
    """The stream of a soak, and its PDFs and PNGs; calculated once, and before the loop of the callers runs."""
    return forms.steady(good_calls_once()), forms.files()


def main() -> int:
    """Try the faults asked for."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument(
        "faults", nargs="*", choices=[[], *FAULTS], help="which; all of them if none is named"
    )
    parser.add_argument("--seconds", type=float, help="how long each fault lasts; then nothing is written")
    parser.add_argument("--limits", action="store_true", help="only those tried with the proxy's limits on")
    parser.add_argument("--soak-seconds", type=float, default=FAULTS["soak"][2])
    parser.add_argument(
        "--per-second", type=float, default=RATE["per_second"], help="requests of the steady stream"
    )
    parser.add_argument("--replicas", type=int, nargs="*", help="how many replicas; two and three as a rule")
    given = parser.parse_args()
    RATE["per_second"] = given.per_second
    good_calls_once()
    gc.collect()
    gc.freeze()
    gc.disable()
    lost = 0
    for name in given.faults or (STRANGERS if given.limits else FAULTS):
        _, replicas, seconds = FAULTS[name]
        if name == "soak":
            seconds = given.soak_seconds
            every_form()
        for number in given.replicas or replicas:
            length = given.seconds or seconds
            quiet_s = min(QUIET_S, length)
            with asyncio.Runner(loop_factory=uvloop.new_event_loop) as runner:
                row = runner.run(try_fault(name, number, length, quiet_s))
            gc.collect()
            sys.stdout.write(" | ".join(f"{key}: {value}" for key, value in row.items()) + "\n")
            sys.stdout.flush()
            lost += over_its_bound(name, row)
            if given.seconds is None:
                write_rows([row], _where(given.per_second))
    return 1 if lost else 0


def _where(per_second: float) -> str:
    return (
        f"Steady stream of {per_second:,.0f} requests a second from one process, through nginx, on {os.cpu_count()} "
        f"cores that callers, proxy and replicas share; Python {platform.python_version()}."
    )


if __name__ == "__main__":
    sys.exit(main())
