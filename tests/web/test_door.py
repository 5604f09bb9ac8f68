"""More callers than a process may hold connections: they wait their turn, and none is hung up on."""

import asyncio

import pytest

from tests.load.callers import HOST, Callers, good_calls
from tests.load.fleet import Replica

FILES = 96
LAST_BYTES = 20
"""Kept back by whoever is slow."""


@pytest.fixture(scope="module")
def replica():
    """A process that may hold 96 files open, connections among them."""
    with Replica(files=FILES) as one:
        yield one


@pytest.fixture(scope="module")
def asked():
    """What is asked, and what must come back to the byte."""
    return next(one for one in good_calls() if one.name == "POST /v1/gauge/convert")


async def connect(replica, count):
    """So many connections, as fast as they can be made."""
    return [await asyncio.open_connection(HOST, replica.port) for _ in range(count)]


def hang_up(connections):
    """Close them all."""
    for _, writer in connections:
        writer.transport.abort()


async def rush(replica, asked, count):
    """So many requests at once, each over a connection of its own; how many were not answered as they should be."""
    callers = Callers(replica.port)
    await callers.rush([asked], count)
    callers.close()
    return callers.tally.failed + callers.tally.wrong


def test_more_than_there_is_room_for_wait_their_turn(replica, asked):
    """Five times as many callers at once as there are places: each gets its answer."""
    assert 0 == asyncio.run(rush(replica, asked, 5 * FILES))


def test_those_who_say_nothing_give_way(replica, asked):
    """Connections on which nothing was ever said do not keep out those who ask."""

    async def ask_among_silent_ones():
        silent = await connect(replica, 3 * FILES)
        for _ in range(50):
            assert replica.open_files() < FILES - 8  # a few are left for what else the process opens
            await asyncio.sleep(0.01)
        lost = await rush(replica, asked, 2 * FILES)
        hang_up(silent)
        return lost

    # They would be kept for longer than the callers wait (30 s), were nobody to ask.
    assert 0 == asyncio.run(ask_among_silent_ones())


def test_whoever_has_begun_to_speak_is_heard_out(replica, asked):
    """Half a request is no silence: its caller keeps the place, and gets the answer."""

    async def ask_among_slow_ones():
        slow = await connect(replica, FILES // 2)
        for _, writer in slow:
            writer.write(asked.wire[:-LAST_BYTES])
        await asyncio.sleep(0.5)
        lost = await rush(replica, asked, 2 * FILES)
        heads = []
        for reader, writer in slow:
            writer.write(asked.wire[-LAST_BYTES:])
            heads.append(await reader.readline())
        hang_up(slow)
        return lost, heads

    lost, heads = asyncio.run(ask_among_slow_ones())
    assert 0 == lost
    assert set(heads) == {b"HTTP/1.1 200 OK\r\n"}
