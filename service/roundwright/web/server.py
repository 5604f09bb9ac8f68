"""The server: uvicorn with the settings of the service, one process. A container has one, a machine one a core.

Without the settings of this module, and with as many processes as you like, the same application runs by

    uvicorn roundwright.web.app:create --factory --http roundwright.web.protocol:Protocol --workers 4
"""

from resource import RLIMIT_NOFILE, getrlimit, setrlimit

import uvicorn

from roundwright.web.app import create
from roundwright.web.middleware import Middleware
from roundwright.web.protocol import Protocol
from roundwright.web.settings import Settings


def run(settings: Settings) -> bool:
    """Serve until a signal to stop; false if the server could not start."""
    raise_file_limit()
    server = uvicorn.Server(config(settings))
    server.run()
    return server.started


def raise_file_limit() -> None:
    """Allow as many open files, and so connections, as the system allows this process."""
    _, limit = getrlimit(RLIMIT_NOFILE)
    setrlimit(RLIMIT_NOFILE, (limit, limit))


def config(settings: Settings, app: Middleware | None = None) -> uvicorn.Config:
    """The configuration of uvicorn."""
    return uvicorn.Config(
        app or create(settings),
        host=settings.host,
        port=settings.port,
        loop="uvloop",
        http=Protocol,
        ws="none",
        lifespan="on",
        log_config=None,
        log_level="error",  # requests and the start are logged by the service
        access_log=False,
        server_header=False,
        proxy_headers=False,
        timeout_keep_alive=settings.keep_alive_s,
        timeout_graceful_shutdown=settings.graceful_s,
    )
