"""What strangers may send, tried with the proxy's limits on as delivered: valid, dear, and from many addresses.

Each of these is a fault of `tests.load.faults`, beside whose steady stream it is tried. Strangers are addresses of
IPv4's loopback, `::1`, and networks of IPv6 that the proxy is told of by `X-Forwarded-For`, as by an ingress.
"""

import asyncio
import json
import random
import time
from collections.abc import Awaitable, Callable, Iterable
from itertools import count
from pathlib import Path

from roundwright.web.settings import Settings
from tests.load.callers import HOST, Call, Callers, Tally, wire
from tests.load.trial import Trial

WORST = Path(__file__).with_name("worst")
LIMITED = frozenset({429, 503})
"""What a stranger is told who asks too much."""
REFUSED = LIMITED | {400, 422}
"""The same, and of one whose request is not as described or cannot be knitted."""
HANDOUT = "/v1/hats/handout"
BATCH = "/v1/batch"
PROOFREAD = "/v1/patterns/proofread"
CHECK = "/v1/counts/check"
PICTURE = "/v1/drawings/crown.svg?stitches=600&needles=5&tolerance=24&decrease_at=end&style=flat"
SMALL_PICTURE = "/v1/drawings/spacing.svg?stitches=100&change=-8"
PER_SECOND = 20
"""Requests of each stranger: twice what the proxy allows of dear ones."""
V4 = ("127.0.5.1", "127.0.5.2", "127.0.5.3")
V6 = ("2001:db8:0:1", "2001:db8:0:2", "2001:db8:7:0")
PROBES_IN_A_ROW = 3
"""Probes of liveness that fail one after another before a replica is restarted: the manifest's."""
LINE_LETTERS = 1_900
TEXT_LETTERS = 44_000
"""Two thirds of the longest text, at which the whole body is under its limit in any spelling."""
BLANK = 110
IDLE_S = Settings().keep_alive_s + 10
"""By then a connection that was opened and says nothing has been cut off."""
PIPELINED = 16
PIPELINED_BYTES = 256 * 1024
PIPELINED_MOST_MIB = 48
"""Of 16 connections: 64 answers of the largest look-up each, and what the kernel does not take. It was 221."""
TRAILERS = ("content-type: text/plain", "authorization: Bearer none", "host: quillhaven.example",
            "x-forwarded-for: 203.0.113.9", "accept: text/nothing")  # fmt: skip
SAME_AT_ONCE = 50
LOCK_S = 0.5
"""What a caller waited at the least for another who asked for the same, when the proxy locked what it keeps."""


async def mix(trial: Trial) -> None:
    """Dear and valid: PDFs, pictures, patterns at the limit, hats and counts, from seven addresses of IPv4 and IPv6."""
    calls = [
        _pdf(),
        _picture(1),
        *_texts(),
        _worst("planHats", "/v1/hats"),
        _worst("checkCount", CHECK),
        _picture(2),
    ]
    await _strangers(trial, calls)


async def pdfs(trial: Trial) -> None:
    """The dearest PDF, from seven addresses of IPv4 and IPv6, each three times a second."""
    tally = await _strangers(trial, [_pdf()], per_second=3)
    if not tally.statuses[200]:
        trial.over("no PDF was made")


async def texts(trial: Trial) -> None:
    """Patterns that a reader with a search in a search would take seconds for, from seven addresses."""
    await _strangers(trial, _texts())


async def accept(trial: Trial) -> None:
    """`Accept` as long as the header may be, without a slash, with nothing but slashes, and with ranges without end."""
    lines = ["a," * 1_900, "/" * 3_800, "a/b;q=0.1," * 380, " " * 3_800]
    calls = [_post(HANDOUT, _request("writeHandout"), more=f"accept: {line}\r\n" * 3) for line in lines]
    await _strangers(trial, [_with(call, {406, 431}) for call in calls])


async def cache(trial: Trial) -> None:
    """Addresses without end: pictures, invented origins, empty parts of a query, letters spelled in another way."""
    script = "/docs/swagger-ui-bundle.js"
    number = count()

    def calls() -> list[Call]:
        some = [next(number) for _ in range(400)]
        made = [_picture(serial) for serial in some]
        made += [
            Call("origin", wire("GET", script, more=f"origin: https://{serial}.example\r\n"))
            for serial in some
        ]
        made += [Call("empty parts", wire("GET", f"{script}?{'&' * (serial % 500)}"), 400) for serial in some]
        made += [Call("spelled", wire("GET", _spelled(script, serial))) for serial in some]
        random.Random(1).shuffle(made)
        return [_with(call, LIMITED) for call in made]

    await _strangers(trial, calls())


async def network(trial: Trial) -> None:
    """300 requests a second from one /64 of IPv6, each from an address of its own."""
    tally = Tally()
    callers = Callers(trial.fleet.proxy.port, "127.0.5.9", tally)
    call = Call("gauge", wire("GET", "/v1/standards"), also=LIMITED)
    started = time.monotonic()
    await _for_a_while(trial, [(callers, [_from(call, V6[0]) for _ in range(3_000)])], 300)
    passed, seconds = tally.statuses[200], time.monotonic() - started
    trial.notes.append(f"{passed} of {len(tally.spans)} passed")
    if passed > 100 + 50 * (seconds + 1):
        trial.over("more than the rate of one caller passed")
    _judge(trial, tally)


async def same(trial: Trial) -> None:
    """50 callers at once ask for one small picture nobody asked for before, and for health, once a second."""
    tally = Tally()
    strangers = [
        Callers(trial.fleet.proxy.port, f"127.0.7.{number + 1}", tally) for number in range(SAME_AT_ONCE)
    ]
    health = Call("health", wire("GET", "/health/live"), also=LIMITED)
    end = time.monotonic() + trial.seconds
    number = 0
    while time.monotonic() < end:
        number += 1
        picture = Call("picture", wire("GET", f"{SMALL_PICTURE}&title=Hat+{number}"), also=LIMITED)
        await asyncio.gather(*(stranger.ask(call) for stranger in strangers for call in (picture, health)))
        await asyncio.sleep(1)
    _close(strangers)
    longest = max(seconds for _, seconds, _ in tally.spans)
    trial.notes.append(f"the longest wait was {1000 * longest:.0f} ms")
    if longest >= LOCK_S:
        trial.over("a caller waited as long as for a lock")
    _judge(trial, tally)


async def upgrade(trial: Trial) -> None:
    """Half of a stream of good requests offers to change to HTTP/2 (`Upgrade: h2c`), bodies and all."""
    offer = b"\r\nconnection: Upgrade, HTTP2-Settings\r\nupgrade: h2c\r\nhttp2-settings: AAMAAABk\r\n"
    calls = [
        Call(
            call.name,
            call.wire.replace(b"\r\n", offer, 1) if number % 2 else call.wire,
            200,
            call.expected,
            LIMITED,
        )
        for number, call in enumerate(trial.calls)
    ]
    await _strangers(trial, calls, per_second=10)


async def batches(trial: Trial) -> None:
    """The longest and the largest batches, from seven addresses: a hundred hats in twelve sizes, and the dearest."""
    sizes = [{"age_years": age} for age in range(2, 14)]
    hat = {"gauge": {"stitches": 40, "rows": 60}, "sizes": sizes}
    largest = {"requests": [{"operation": "planHats", "body": hat}] * 99}
    tally = await _strangers(
        trial, [_post(BATCH, largest), _post(BATCH, _request("calculateBatch"))], per_second=2
    )
    if not tally.statuses[200]:
        trial.over("no batch was answered")


async def blank(trial: Trial) -> None:
    """110 connections straight to a replica of 128 files, each with a blank line and no more.

    They have the places of others, as any idle connection has, until they have been idle for as long as one may be.
    """
    port = trial.replicas[0].port
    idle = []
    for _ in range(BLANK):
        reader, writer = await asyncio.open_connection(HOST, port)
        writer.write(b"\r\n")
        idle.append((asyncio.create_task(reader.read()), writer))
    locked_out = 0
    started = time.monotonic()
    while time.monotonic() < started + IDLE_S and not all(cut.done() for cut, _ in idle):
        await asyncio.sleep(1)
        locked_out += not await _is_well(port, "/health/ready")
    left = sum(not cut.done() for cut, _ in idle)
    trial.notes.append(
        f"the last was cut off after {time.monotonic() - started:.0f} s; {locked_out} probes found no place until then"
    )
    if left:
        trial.over(f"{left} were never cut off")
    if not await _is_well(port, "/health/ready"):
        trial.over("others are locked out")
    for cut, writer in idle:
        cut.cancel()
        writer.transport.abort()


async def pipelined(trial: Trial) -> None:
    """16 connections straight to a replica, each with 256 KiB of requests in a row, and nothing read of the answers."""
    replica = trial.replicas[0]
    before = replica.memory_bytes_now()
    most = before
    sent = wire("GET", "/v1/standards")
    lines = sent * (PIPELINED_BYTES // len(sent))
    writers = []
    for _ in range(PIPELINED):
        _, writer = await asyncio.open_connection(HOST, replica.port, limit=1_024)
        writer.write(lines)
        writers.append(writer)
    end = time.monotonic() + trial.seconds
    while time.monotonic() < end:
        await asyncio.sleep(0.05)
        most = max(most, replica.memory_bytes_now())
    for writer in writers:
        writer.transport.abort()
    held = (most - before) / 2**20
    trial.notes.append(f"{held:.0f} MiB more held at the most")
    if held > PIPELINED_MOST_MIB:
        trial.over("what waits to be read is not bounded")


async def trailers(trial: Trial) -> None:
    """Straight to a replica: fields of a header in the trailer of a body count for nothing (RFC 9110, 6.5.1)."""
    gauge = next(call for call in trial.calls if call.name == "POST /v1/gauge/convert")
    body = gauge.wire.partition(b"\r\n\r\n")[2]
    head = (
        b"POST /v1/gauge/convert HTTP/1.1\r\nhost: 127.0.0.1\r\ncontent-type: application/json\r\n"
        b"transfer-encoding: chunked\r\n\r\n"
    )
    calls = [
        Call(
            field,
            head + b"%x\r\n%b\r\n0\r\n%b\r\n\r\n" % (len(body), body, field.encode()),
            200,
            gauge.expected,
        )
        for field in TRAILERS
    ]
    tally = Tally()
    asking = [(Callers(replica.port, HOST, tally), calls) for replica in trial.replicas]
    await _for_a_while(trial, asking, PER_SECOND)
    _judge(trial, tally)


STRANGERS: dict[str, Callable[[Trial], Awaitable[None]]] = {
    fault.__name__: fault
    for fault in (
        mix,
        pdfs,
        batches,
        texts,
        accept,
        cache,
        network,
        same,
        upgrade,
        blank,
        pipelined,
        trailers,
    )
}
"""Each fault that strangers make. (That no POST is repeated after a timeout is seen in `freeze`.)"""


FILES = {"blank": 128}
"""Files and connections that each replica may hold, where a fault is about them."""


async def watch(trial: Trial, stop: asyncio.Event) -> None:
    """Probe the liveness of replicas and proxy once a second until told to stop, as the manifests have them probed."""
    ports = [*(replica.port for replica in trial.replicas), trial.fleet.proxy.port]
    failed = dict.fromkeys(ports, 0)
    longest = dict.fromkeys(ports, 0)
    while not stop.is_set():
        for port in ports:
            path = "/health/proxy" if port == trial.fleet.proxy.port else "/health/live"
            well = await _is_well(port, path)
            failed[port] = 0 if well else failed[port] + 1
            longest[port] = max(longest[port], failed[port])
        await asyncio.sleep(1)
    if max(longest.values()) >= PROBES_IN_A_ROW:
        trial.over("a container would have been restarted")
    elif any(longest.values()):
        trial.notes.append(f"probes of liveness failed, most in a row: {max(longest.values())}")


async def _is_well(port: int, path: str) -> bool:
    probe = Callers(port)
    try:
        async with asyncio.timeout(3):
            await probe.ask(Call("probe", wire("GET", path)))
    except TimeoutError:
        return False
    finally:
        probe.close()
    return probe.tally.statuses[200] == 1


async def _strangers(trial: Trial, calls: list[Call], per_second: float | None = None) -> Tally:
    """Ask these for the time of the trial, from three addresses of IPv4, from `::1` and from three networks of IPv6."""
    tally = Tally()
    port = trial.fleet.proxy.port
    asking = [(Callers(port, source, tally), calls) for source in (*V4, "::1")]
    asking += [
        (Callers(port, HOST, tally), [_from(call, net) for _ in range(20) for call in calls]) for net in V6
    ]
    await _for_a_while(trial, asking, per_second or PER_SECOND)
    _judge(trial, tally)
    return tally


async def _for_a_while(trial: Trial, asking: list[tuple[Callers, list[Call]]], per_second: float) -> None:
    stop = asyncio.Event()
    tasks = [asyncio.create_task(callers.steadily(calls, per_second, stop)) for callers, calls in asking]
    await asyncio.sleep(trial.seconds)
    stop.set()
    await asyncio.gather(*tasks)
    _close(callers for callers, _ in asking)


def _judge(trial: Trial, tally: Tally) -> None:
    """Note what strangers were told, and whether that is what they should be told."""
    trial.notes.append(f"strangers got {dict(sorted(tally.statuses.items()))}")
    if tally.failures:
        trial.over(f"strangers also got {dict(tally.failures)}")
    if tally.wrong:
        trial.over(f"{tally.wrong} wrong answers to strangers")


def _close(callers: Iterable[Callers]) -> None:
    for caller in callers:
        caller.close()


def _from(call: Call, network_: str) -> Call:
    """A call from some address in a network of IPv6."""
    address = ":".join([network_, *(f"{random.getrandbits(16):x}" for _ in range(4))])
    line = f"\r\nx-forwarded-for: {address}\r\n".encode()
    return Call(call.name, call.wire.replace(b"\r\n", line, 1), call.status, call.expected, call.also)


def _with(call: Call, also: frozenset[int] | set[int]) -> Call:
    """A call that may get other statuses as well."""
    return Call(call.name, call.wire, call.status, call.expected, call.also | also)


def _request(operation: str) -> object:
    """The dearest request that was found for an operation."""
    return json.loads((WORST / f"{operation}.json").read_text())["request"]


def _post(path: str, request: object, *, more: str = "") -> Call:
    body = json.dumps(request).encode()
    return Call(path, wire("POST", path, body, more=more), also=REFUSED)


def _worst(operation: str, path: str) -> Call:
    return _post(path, _request(operation))


def _pdf() -> Call:
    return _post(HANDOUT, _request("writeHandout"), more="accept: application/pdf\r\n")


def _picture(number: int) -> Call:
    """The dearest picture, at an address nobody asked before."""
    return Call("picture", wire("GET", f"{PICTURE}&gauge_over={1 + number / 1000:.3f}in"), also=REFUSED)


def _texts() -> list[Call]:
    """Texts at the limit that made a reader slow which began to search anew at every step: of one line, and of many."""
    made = []
    for letters, times in ((TEXT_LETTERS, 1), (LINE_LETTERS, TEXT_LETTERS // LINE_LETTERS)):
        lines = "k. " + "K. " * (letters // 3 - 3) + " rnd", "r1" + " " * letters + "!", "1 " * (letters // 2)
        made += ["\n".join([line] * times) for line in lines]
    return [
        _worst("proofreadPattern", PROOFREAD),
        *(_post(PROOFREAD, {"cast_on": [64], "text": text}) for text in made),
        *(_post(CHECK, {"pattern": {"cast_on": [64], "text": text}, "count": 64}) for text in made),
    ]


def _spelled(path: str, number: int) -> str:
    """A path with some of its letters written as `%xx`."""
    return "".join(
        f"%{ord(letter):02x}" if letter.isalpha() and number >> place & 1 else letter
        for place, letter in enumerate(path)
    )
