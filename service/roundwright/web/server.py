"""The server: uvicorn with the settings of the service, one process. A container has one, a machine one a core.

Without the settings of this module, and with as many processes as you like, the same application runs by

    uvicorn roundwright.web.app:create --factory --http roundwright.web.protocol:Protocol --workers 4
"""

import socket
from contextlib import suppress
from resource import RLIMIT_NOFILE, getrlimit, setrlimit

import uvicorn

from roundwright.web.app import create
from roundwright.web.middleware import Middleware
from roundwright.web.protocol import Protocol
from roundwright.web.settings import Settings, SettingsError


def run(settings: Settings) -> bool:
    """Serve until a signal to stop; false if the server could not start."""
    raise_file_limit()
    app = create(
        settings
    )  # before it listens: a caller that cannot connect yet asks another replica, and does not wait
    with listen(settings.host, settings.port) as listener:
        server = server_at(listener, settings, app)
        server.run(sockets=[listener])
    return server.started


def server_at(listener: socket.socket, settings: Settings, app: Middleware) -> uvicorn.Server:
    """A server to run at a socket that listens."""
    app.address = address_of(listener)
    return uvicorn.Server(config(settings, app))


def listen(host: str, port: int) -> socket.socket:
    """A socket that listens. Raises `SettingsError` where it cannot."""
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    try:
        return socket.create_server((host, port), family=family, backlog=2_048)
    except (OSError, OverflowError) as error:
        reason = getattr(error, "strerror", None) or error
        raise SettingsError(f"Cannot listen at {host}, port {port}: {reason}.") from error


def address_of(listener: socket.socket) -> str:
    """The URL at which a socket listens."""
    host, port = listener.getsockname()[:2]
    return f"http://[{host}]:{port}" if ":" in host else f"http://{host}:{port}"


def raise_file_limit() -> None:
    """Allow as many open files, and so connections, as the system allows this process."""
    _, limit = getrlimit(RLIMIT_NOFILE)
    with suppress(ValueError):  # macOS allows fewer than it says
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
