"""The reference page in a browser that reaches no other machine."""

import json

import pytest
from playwright.sync_api import expect

from tests.browser.seen import barriers
from tests.contract.shape import listed


@pytest.fixture
def reference(address, page, seen):
    """The page, opened, with every operation on it."""
    page.goto(f"{address}/docs")
    expect(page.locator(".opblock")).to_have_count(len(listed()))
    return page


def try_it(page, operation):
    """Open an operation, send its example, and give the place of the answer."""
    block = page.locator(f"#operations-{operation.written['tags'][0]}-{operation.id}")
    block.locator(".opblock-summary-control").click()
    block.get_by_role("button", name="Execute").click()
    answer = block.locator(".live-responses-table .response").first
    expect(answer.locator(".response-col_status")).to_contain_text("200")
    return answer


def test_it_lists_everything_and_asks_nobody_else(reference, address, seen):
    """Title, every operation by its path, and no request to another host; the policy is broken nowhere."""
    expect(reference.locator(".info .title")).to_contain_text("Roundwright")
    paths = {
        element.inner_text().replace("\u200b", "")
        for element in reference.locator(".opblock-summary-path").all()
    }

    assert {operation.path for operation in listed()} == paths
    assert {address} == seen.origins
    assert [] == seen.complaints


def test_its_policy_is_strict(service):
    """Scripts and styles come from the service itself, none is inline, and nothing else is allowed."""
    policy = service.get("/docs").headers["content-security-policy"]

    assert policy.startswith("default-src 'none'; script-src 'self'; style-src 'self';")
    assert "unsafe" not in policy
    assert "http" not in policy
    assert "*" not in policy


@pytest.mark.parametrize("name", ["convertGauge", "getStandard", "drawNeedles"])
def test_an_operation_can_be_tried(name, reference, address, seen, service):
    """A calculation, a look-up and a picture, sent as the page suggests, are answered on the page."""
    operation = next(operation for operation in listed() if operation.id == name)
    shown = try_it(reference, operation).locator("code").first.inner_text()
    answer = operation.ask(service)

    if answer.headers["content-type"] == "application/json":
        assert answer.json() == json.loads(shown)
    else:
        assert "".join(answer.text.split()) == "".join(shown.split())
    assert {address} == seen.origins
    assert [] == seen.complaints


def test_a_problem_page_opens(page, address, seen):
    """The page of a problem shows under the same policy."""
    page.goto(f"{address}/problems/cannot-be-knitted")

    expect(page.get_by_role("heading", level=1)).to_have_text("This cannot be knitted")
    page.get_by_role("link", name="All problems").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Problems")
    assert {address} == seen.origins
    assert [] == seen.complaints


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_page_puts_up_no_barrier_of_its_own(scheme, address, page):
    """The page follows the reader's colours; whatever axe-core finds is inside Swagger UI."""
    page.emulate_media(color_scheme=scheme)
    page.goto(f"{address}/docs")
    expect(page.locator(".opblock").first).to_be_visible()

    assert ("dark-mode" in (page.locator("html").get_attribute("class") or "")) == (scheme == "dark")
    assert [] == barriers(page, outside=".swagger-ui")


def test_a_barrier_of_the_page_itself_is_found(address, page):
    """The same search finds a faint line that is put beside what Swagger UI makes."""
    page.goto(f"{address}/docs")
    expect(page.locator(".opblock").first).to_be_visible()
    page.evaluate("document.body.insertAdjacentHTML('beforeend', '<p id=faint>Hats</p>')")
    page.evaluate("document.getElementById('faint').style.color = '#ddd'")

    assert any("faint" in found for found in barriers(page, outside=".swagger-ui"))
