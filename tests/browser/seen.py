"""What a page asks for, what it complains about, and the barriers it puts up."""

from urllib.parse import urlsplit

from playwright.sync_api import Page

from tests.support.needed import node_module

RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
"""WCAG 2.2 at level AA, and what axe-core recommends beside it."""


class Seen:
    """Requests and complaints of a page."""

    def __init__(self, page: Page) -> None:
        self.requests: list[str] = []
        self.complaints: list[str] = []
        page.context.on("request", lambda request: self.requests.append(request.url))
        page.on("pageerror", lambda error: self.complaints.append(str(error)))
        page.on("console", lambda message: message.type == "error" and self.complaints.append(message.text))

    @property
    def origins(self) -> set[str]:
        """Whom the page asked anything."""
        return {f"{urlsplit(url).scheme}://{urlsplit(url).netloc}" for url in self.requests if "://" in url}


def barriers(page: Page, *, outside: str | None = None) -> list[str]:
    """What axe-core finds wrong on the page as it is now, shadow trees included; `outside`: of some part of it."""
    page.evaluate(node_module("axe-core/axe.min.js").read_text())
    context = {"include": [["html"]], "exclude": [[outside]]} if outside else {"include": [["html"]]}
    found = page.evaluate("([context, rules]) => axe.run(context, { runOnly: rules })", [context, RULES])
    assert found["passes"]
    return [
        f"{violation['id']}: {node['html']}"
        for violation in found["violations"]
        for node in violation["nodes"]
    ]
