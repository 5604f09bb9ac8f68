"""The shop of the example on an origin of its own, with the address of its size service filled in."""

import re
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread
from typing import Any

from playwright.sync_api import expect

FOLDER = Path(__file__).parents[2] / "examples/web-shop"
TWO_LINES = re.search(r"```html\n(.+?)```", (FOLDER / "README.md").read_text(), re.DOTALL)[1]


@contextmanager
def shop() -> Iterator["Shop"]:
    """The shop, open; `service` says where its pages find the service."""
    server = Shop()
    thread = Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield server
    finally:
        server.shutdown()
        server.server_close()
        thread.join()


class Shop(ThreadingHTTPServer):
    """Serves the example's folder, and `bare.html`, which is nothing but the two lines of its README, or other ones."""

    service = ""
    lines = TWO_LINES
    head = ""

    def __init__(self) -> None:
        super().__init__(("127.0.0.1", 0), partial(Handler, directory=FOLDER))
        self.origin = f"http://127.0.0.1:{self.server_port}"

    def page(self, name: str) -> bytes:
        """A page as the shop would have written it."""
        if name == "bare.html":
            title = '<!doctype html><html lang="en"><title>Bare</title><link rel="icon" href="mark.svg">'
            text = f"{title}{self.head}<main><h1>Wether</h1>{self.lines}</main></html>"
            assert len(TWO_LINES.splitlines()) == 2
        else:
            text = (FOLDER / name).read_text()
        text, times = re.subn('service="[^"]+"', f'service="{self.service}"', text)
        assert times == 1
        return text.encode()


class Handler(SimpleHTTPRequestHandler):
    """Answers for the shop, under a strict Content-Security-Policy."""

    server: Shop

    def do_GET(self) -> None:
        """Pages with the service's address, files as they are."""
        name = self.path.removeprefix("/")
        if not name.endswith(".html"):
            super().do_GET()
            return
        content = self.server.page(name)
        self.send_response(200)
        self.send_header("content-type", "text/html; charset=utf-8")
        self.send_header("content-length", str(len(content)))
        self.end_headers()
        self.wfile.write(content)

    def end_headers(self) -> None:
        """What the README says the element needs, and no more."""
        at = self.server.service
        self.send_header(
            "content-security-policy",
            f"default-src 'none'; script-src 'self'; style-src 'self'; "
            f"img-src 'self' {at}; connect-src {at}; require-trusted-types-for 'script'; trusted-types 'none'",
        )
        super().end_headers()

    def log_message(self, *_: Any) -> None:
        """Say nothing."""


def in_state(page, state: str) -> None:
    """Wait until the calculator says it is in a state."""
    expect(page.locator("hat-size")).to_have_attribute("state", state)
