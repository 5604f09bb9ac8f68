"""More callers than a process may hold connections: they wait their turn, and none is hung up on."""

import asyncio
import time

import pytest

from tests.load.callers import HOST, Call, Callers, wire
from tests.load.fleet import Replica

FILES = 96
GAUGE = b'{"gauge":{"stitches":22,"rows":30,"over":{"value":10,"unit":"cm"}}}'
ASKED = Call("a gauge", wire("POST", "/v1/gauge/convert", GAUGE), 200, None)
HALF = len(ASKED.wire) - 20


@pytest.fixture(scope="module")
def replica():
    """A process that may hold 96 files open, connections among them."""
    one = Replica(files=FILES)
    one.start()
    try:
        one.wait_ready()
        yield one
    finally:
        one.end()


async def connect(replica, count):
    """So many connections, as fast as they can be made."""
    return [await asyncio.open_connection(HOST, replica.port) for _ in range(count)]


def hang_up(connections):
    """Close them all."""
    for _, writer in connections:
        writer.transport.abort()


async def rush(replica, count):
    """So many requests at once, each over a connection of its own; what came in place of an answer, if anything."""
    callers = Callers(replica.port)
    await callers.rush([ASKED], count)
    callers.close()
    return callers.tally.failures


def test_more_than_there_is_room_for_wait_their_turn(replica):
    """Five times as many callers at once as there are places: each gets its answer."""
    assert not asyncio.run(rush(replica, 5 * FILES))


def test_those_who_say_nothing_give_way(replica):
    """Connections on which nothing was ever said do not keep out those who ask."""

    async def ask_among_silent_ones():
        silent = await connect(replica, 3 * FILES)
        await asyncio.sleep(0.5)
        began = time.monotonic()
        failures = await rush(replica, 2 * FILES)
        waited = time.monotonic() - began
        hang_up(silent)
        return failures, waited

    failures, waited = asyncio.run(ask_among_silent_ones())
    assert not failures
    assert waited < 20  # a silent connection is kept for 75 s where there is room


def test_whoever_has_begun_to_speak_is_heard_out(replica):
    """Half a request is no silence: its caller keeps the place, and gets the answer."""

    async def ask_among_slow_ones():
        slow = await connect(replica, FILES // 2)
        for _, writer in slow:
            writer.write(ASKED.wire[:HALF])
        await asyncio.sleep(0.5)
        failures = await rush(replica, 2 * FILES)
        heads = []
        for reader, writer in slow:
            writer.write(ASKED.wire[HALF:])
            heads.append(await reader.readline())
        hang_up(slow)
        return failures, heads

    failures, heads = asyncio.run(ask_among_slow_ones())
    assert not failures
    assert set(heads) == {b"HTTP/1.1 200 OK\r\n"}
