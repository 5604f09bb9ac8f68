"""What tests in the browser share: the system's Chromium, without a window, cut off from every other machine."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

from tests.browser.seen import Seen
from tests.support.needed import command

FLAGS = [
    "--no-sandbox",  # the tests may run as root, in a container
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
]


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """The browser; for one module only, since its event loop runs as long as it does."""
    path = command("chromium", "chromium-browser", "google-chrome")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=FLAGS)
        yield browser
        browser.close()


@pytest.fixture
def page(browser) -> Iterator[Page]:
    """A page with nothing in its caches, 1280 pixels wide."""
    context = browser.new_context(viewport={"width": 1280, "height": 900}, reduced_motion="reduce")
    context.set_default_timeout(15_000)
    yield context.new_page()
    context.close()


@pytest.fixture
def seen(page) -> Seen:
    """What the page asks for and complains about from here on."""
    return Seen(page)
