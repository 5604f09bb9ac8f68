"""The server: uvicorn with the settings of the service."""

from socket import socket
from time import monotonic
from types import FrameType
from typing import Any

import uvicorn
from uvicorn.supervisors import Multiprocess

from roundwright import log
from roundwright.app import create_app
from roundwright.edge import Edge
from roundwright.protocol import Protocol
from roundwright.settings import Settings, read


class Server(uvicorn.Server):
    """One process that serves. Asked to stop, it first says for a while that it is not ready, if it is set to."""

    def __init__(self, settings: Settings) -> None:
        self.edge = create_app(settings)
        super().__init__(_config(settings, self.edge))
        self.drain_s = settings.drain_s
        self.told: tuple[int, FrameType | None] | None = None
        self.stops_at = 0.0

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
        """Stop: requests in hand come to their end, and their spans are sent."""
        await super().shutdown(sockets)
        if self.edge.tracing is not None:
            self.edge.tracing.flush()


def run(settings: Settings) -> bool:
    """Serve until told to stop, in this process or in several that share the port; false if that could not begin."""
    log.event("start", host=settings.host, port=settings.port, workers=settings.workers)
    if settings.workers == 1:
        server = Server(settings)
        server.run()
        return server.started
    create_app(
        settings
    )  # what is wrong with the settings is said here, once, and not by each process in turn
    config = _config(settings)
    Multiprocess(config, sockets=[config.bind_socket()]).run()
    return True


def app() -> Edge:
    """The application in each of several processes."""
    return create_app(read())


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
