"""What tests share: the service as served, on a free port of the loopback address."""

import os
import socket
from collections.abc import Iterator
from contextlib import contextmanager
from threading import Thread
from time import monotonic, sleep

import httpx
import hypothesis
import msgspec
import pytest
import uvicorn

from roundwright.web.server import config
from roundwright.web.settings import Settings


def free_port() -> int:
    """A port of the loopback address that nobody listens on."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


# A busy machine is slow without being wrong; how fast answers are is measured elsewhere. The examples are the same in
# every run, so that a change fails for its author, not for the next person; ROUNDWRIGHT_TEST_RANDOM=1 draws new ones.
hypothesis.settings.register_profile(
    "house", deadline=None, derandomize="ROUNDWRIGHT_TEST_RANDOM" not in os.environ
)
hypothesis.settings.load_profile("house")


@contextmanager
def serving(settings: Settings) -> Iterator[str]:
    """The address of a service with these settings, for as long as it is asked."""
    port = free_port()
    settings = msgspec.structs.replace(settings, host="127.0.0.1", port=port)
    server = uvicorn.Server(config(settings))
    thread = Thread(target=server.run, daemon=True)
    thread.start()
    give_up = monotonic() + 30
    while not server.started and monotonic() < give_up:
        sleep(0.01)
    assert server.started
    try:
        yield f"http://127.0.0.1:{port}"
    finally:
        server.should_exit = True
        thread.join()


@pytest.fixture(scope="session")
def address() -> Iterator[str]:
    """The address of the service as it ships."""
    with serving(Settings()) as address:
        yield address


@pytest.fixture(scope="session")
def service(address) -> Iterator[httpx.Client]:
    """A caller of the service as it ships."""
    with httpx.Client(base_url=address, timeout=30) as client:
        yield client
