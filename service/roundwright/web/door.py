"""Where callers come in: as many at a time as the process may hold connections.

uvloop would go on letting callers in when there is no file left for them, and hang up on each at once. Here those who
come then wait outside, in the kernel's queue, where they are none the worse off for a second or two; and connections on
which nothing has been said for a while give way to them.
"""

from asyncio import TimerHandle, get_running_loop
from collections.abc import Callable, Collection, Iterable
from contextlib import suppress
from heapq import nsmallest
from resource import RLIM_INFINITY, RLIMIT_NOFILE, getrlimit
from socket import SOL_SOCKET, socket
from struct import pack
from typing import Final

from roundwright.web.protocol import Protocol

AT_ONCE: Final = 16
"""Callers let in before those inside are heard again."""
OTHER_FILES: Final = 32
"""Kept for what else a process opens: its loop, its log, a module."""
SILENT_S: Final = 0.2
"""Seconds after which a connection on which nothing is said may have to give way."""
LOOK_AGAIN_S: Final = 0.02
SO_ATTACH_FILTER: Final = 26
"""Linux's number (`asm-generic/socket.h`); `socket` has no name for it."""


class Door:
    """One socket that is listened on. Stands in uvicorn's list of servers, which it closes and waits for."""

    def __init__(
        self,
        listening: socket,
        seat: Callable[[], Protocol],
        seated: Collection[Protocol],
        keep_alive_s: float,
    ) -> None:
        self.listening = listening
        self.seat = seat
        self.seated = seated
        self.keep_alive_s = keep_alive_s
        self.places = places()
        self.loop = get_running_loop()
        self.entering: set[object] = set()
        self.later: TimerHandle | None = None
        listening.setblocking(False)
        self.open()

    def open(self) -> None:
        """Let callers in from now on."""
        self.later = None
        self.loop.add_reader(self.listening, self.let_in)

    def let_in(self) -> None:
        """Let in a few of those who wait, if there is room."""
        for _ in range(AT_ONCE):
            if len(self.seated) + len(self.entering) >= self.places:
                self.make_room()
                return
            try:
                caller, _ = self.listening.accept()
            except (BlockingIOError, InterruptedError, ConnectionAbortedError):
                return
            except OSError:  # no file, or no memory, for one more
                self.make_room()
                return
            entering = self.loop.create_task(self.enter(caller))
            self.entering.add(entering)
            entering.add_done_callback(self.entering.discard)

    async def enter(self, caller: socket) -> None:
        """Give a caller who was let in a place."""
        with suppress(OSError):  # gone already
            await self.loop.connect_accepted_socket(self.seat, caller)

    def make_room(self) -> None:
        """Hang up on those who have been silent longest, and look again in a moment."""
        self.loop.remove_reader(self.listening)
        self.later = self.loop.call_later(LOOK_AGAIN_S, self.open)
        silent = [
            (handle.when(), one.transport) for one in self.seated if (handle := one.timeout_keep_alive_task)
        ]
        latest = self.loop.time() + self.keep_alive_s - SILENT_S
        for until, transport in nsmallest(AT_ONCE, silent, key=lambda each: each[0]):
            if until <= latest:
                transport.close()

    def close(self) -> list[socket]:
        """Let nobody in any more; those who still waited outside."""
        if self.listening.fileno() < 0:
            return []
        self.loop.remove_reader(self.listening)
        if self.later is not None:
            self.later.cancel()
        waiting = []
        with suppress(OSError):
            while True:
                waiting.append(self.listening.accept()[0])
        self.listening.close()
        return waiting

    async def wait_closed(self) -> None:
        """For uvicorn; a door is shut at once."""


def places() -> int:
    """Connections a process may hold, by its limit on open files."""
    files, _ = getrlimit(RLIMIT_NOFILE)
    return 2**31 if files == RLIM_INFINITY else max(files - OTHER_FILES, 1)


def turn_away(listening: Iterable[socket]) -> None:
    """Have the kernel ignore who comes now, so that nobody comes between the last who is let in and the close.

    A filter of the socket drops their first packet (SYN); they send it again in a second, and are refused. Where there
    are no such filters, those of some microseconds are reset.
    """
    from ctypes import addressof, create_string_buffer

    flags, syn, pass_on = 13, 2, 0xFFFFFFFF  # of the header of TCP (RFC 9293, 3.1)
    steps = ((0x30, 0, 0, flags), (0x45, 0, 1, syn), (0x06, 0, 0, 0), (0x06, 0, 0, pass_on))
    code = create_string_buffer(b"".join(pack("HBBI", *step) for step in steps))
    for one in listening:
        with suppress(OSError):
            one.setsockopt(SOL_SOCKET, SO_ATTACH_FILTER, pack("HP", len(steps), addressof(code)))
