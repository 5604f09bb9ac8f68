"""The server: uvicorn with the settings of the service."""

import gc
from asyncio import get_running_loop, sleep
from socket import socket
from time import monotonic
from types import FrameType
from typing import Any, Final

import uvicorn
from msgspec.structs import replace
from uvicorn.supervisors import multiprocess

from roundwright.web import log
from roundwright.web.app import create_app
from roundwright.web.door import Door, turn_away
from roundwright.web.middleware import Edge
from roundwright.web.protocol import Protocol
from roundwright.web.settings import Settings, read

HEAR_OUT_S: Final = 0.1
"""Seconds in which connections taken last are heard: a caller sends its request at once, or is a slow one."""


class Server(uvicorn.Server):
    """One process that serves. Asked to stop, it first says for a while that it is not ready, if it is set to."""

    def __init__(self, settings: Settings, *, says_so: bool = False) -> None:
        self.edge = app(settings)
        super().__init__(_config(settings, self.edge))
        self.settings = settings
        self.says_so = says_so
        self.drain_s = settings.drain_s
        self.doors: list[Door] = []
        self.told: tuple[int, FrameType | None] | None = None
        self.stops_at = 0.0

    async def startup(self, sockets: list[socket] | None = None) -> None:
        """Listen, and say so in the log: from a thread, since what writes it takes a tenth of the start to import."""
        await super().startup(sockets)
        self.doors = [
            Door(one, self._protocol, self.server_state.connections, self.settings.keep_alive_s)  # type: ignore[arg-type]
            for one in [one.dup() for server in self.servers for one in server.sockets]
        ]
        for server in self.servers:
            server.close()
        self.servers = self.doors  # type: ignore[assignment]
        if self.started and self.says_so:
            get_running_loop().run_in_executor(None, log_start, self.settings)

    def handle_exit(self, sig: int, frame: FrameType | None) -> None:
        """A signal to stop: the first begins the drain, any other cuts it short."""
        if self.drain_s == 0 or self.told is not None:
            super().handle_exit(sig, frame)
            return
        self.told = sig, frame
        self.stops_at = monotonic() + self.drain_s
        self.edge.stopping = True

    async def on_tick(self, counter: int) -> bool:
        """Ten times a second: stop once the drain is over."""
        if self.told is not None and not self.should_exit and monotonic() >= self.stops_at:
            super().handle_exit(*self.told)
        return await super().on_tick(counter)

    async def shutdown(self, sockets: list[socket] | None = None) -> None:
        """Stop: requests in hand come to their end, and their spans are sent.

        Closing a listening socket resets the connections that wait in it, and uvicorn closes those on which it has
        read nothing yet. So those that wait are taken first, and all are heard before uvicorn closes any. Several
        processes share their sockets: what comes to those is turned away by the first process.
        """
        if sockets is None:
            turn_away(door.listening for door in self.doors)
        for door in self.doors:
            for waiting in door.close():
                await door.enter(waiting)
        await sleep(HEAR_OUT_S)
        await super().shutdown(sockets)
        self.edge.stop()
        if self.edge.tracing is not None:
            self.edge.tracing.flush()

    def _protocol(self) -> Protocol:
        return Protocol(self.config, self.server_state, self.lifespan.state)


def run(settings: Settings) -> bool:
    """Serve until told to stop, in this process or in several that share the port; false if that could not begin."""
    if settings.workers == 1:
        server = Server(settings, says_so=True)
        server.run()
        return server.started
    log_start(settings)
    # What is wrong with the settings is said here, once, and not by each process in turn.
    app(replace(settings, warm=False))
    multiprocess.Process = Worker  # type: ignore[misc]  # uvicorn asks nobody else which server a process runs
    Workers(settings).run()
    return True


class Worker(multiprocess.Process):
    """One of several processes."""

    def target(self, sockets: list[socket] | None = None) -> None:
        """What it runs. The server is made first: uvicorn would make one in each of two threads."""
        self._server = Server(read())
        super().target(sockets)


class Workers(multiprocess.Multiprocess):
    """Several processes that share a port."""

    def __init__(self, settings: Settings) -> None:
        config = _config(settings)
        super().__init__(config, sockets=[config.bind_socket()])
        self.drain_s = settings.drain_s

    def terminate_all(self) -> None:
        """Stop them all, and let nobody in any more from when they stop to listen."""
        super().terminate_all()
        stop_at = monotonic() + self.drain_s
        for one in self.processes:
            one.process.join(max(0, stop_at - monotonic()))  # told twice, they do not wait for the drain
        turn_away(self.sockets)
        for listening in self.sockets:
            listening.close()


def log_start(settings: Settings) -> None:
    """Log that the service starts."""
    log.event("start", host=settings.host, port=settings.port, workers=settings.workers)


def app(settings: Settings | None = None) -> Edge:
    """The application of one process, or of each of several."""
    edge = create_app(settings or read())
    # It stays to the end: looking through it for garbage was a sixth of the start, and costs in every request.
    gc.freeze()
    gc.enable()
    return edge


def _config(settings: Settings, app: Edge | None = None) -> uvicorn.Config:
    options: dict[str, Any] = {} if app else {"factory": True, "workers": settings.workers}
    return uvicorn.Config(
        app or f"{__name__}:app",
        host=settings.host,
        port=settings.port,
        loop="uvloop",
        http=Protocol,
        ws="none",
        lifespan="off",
        # Requests are logged by the edge, as JSON; uvicorn only speaks up about faults of its own.
        log_config=None,
        log_level="error",
        access_log=False,
        server_header=False,
        proxy_headers=False,
        timeout_keep_alive=settings.keep_alive_s,
        timeout_graceful_shutdown=settings.graceful_s,
        **options,
    )
