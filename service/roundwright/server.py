"""The server: uvicorn with the settings of the service."""

from typing import Any

import uvicorn

from roundwright import log
from roundwright.app import create_app
from roundwright.edge import Edge
from roundwright.protocol import Protocol
from roundwright.settings import Settings, read


class Server(uvicorn.Server):
    """A server of one process, with settings of its own."""

    def __init__(self, settings: Settings) -> None:
        super().__init__(uvicorn.Config(create_app(settings), **_options(settings)))


def run(settings: Settings) -> None:
    """Serve until told to stop: in this process, or in several that share the port."""
    log.event("start", host=settings.host, port=settings.port, workers=settings.workers)
    uvicorn.run(f"{__name__}:app", factory=True, workers=settings.workers, **_options(settings))
    log.event("stop")


def app() -> Edge:
    """The application in each of the processes."""
    return create_app(read())


def _options(settings: Settings) -> dict[str, Any]:
    return {
        "host": settings.host,
        "port": settings.port,
        "loop": "uvloop",
        "http": Protocol,
        "ws": "none",
        "lifespan": "off",
        # Requests are logged by the edge, as JSON; uvicorn only speaks up about faults of its own.
        "log_config": None,
        "log_level": "error",
        "access_log": False,
        "server_header": False,
        "proxy_headers": False,
        "timeout_keep_alive": settings.keep_alive_s,
        "timeout_graceful_shutdown": settings.graceful_s,
    }
