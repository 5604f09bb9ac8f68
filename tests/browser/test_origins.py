"""A page of another origin calls the service behind the proxy, set up by what README.md says and no more."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from roundwright.web.settings import read
from tests.browser.shop import Shop, shop
from tests.conftest import serving
from tests.deploy.tools import debian_nginx
from tests.load.fleet import Proxy

PAGE = (Path(__file__).parents[2] / "README.md").read_text()
[SETTING] = re.findall(r"```sh\n(ROUNDWRIGHT_CORS_ORIGINS=\S+)\n```", PAGE)
[MAP_LINE] = re.findall(r"```nginx\n(.+)\n```", PAGE)

CALLS = """async (service) => {
    const json = {"content-type": "application/json"};
    const ask = async (path, options = {}) => {
        const answer = await fetch(service + path, options);
        return [answer.status, (await answer.text()).slice(0, 200), answer.headers.get("etag")];
    };
    const post = (body) => ask("/v1/gauge/convert", {method: "POST", headers: json, body: JSON.stringify(body)});
    const lookup = await ask("/v1/standards/yarn-weights");
    return {
        calculation: await post({gauge: {stitches: 18}}),
        refusal: await post({}),
        lookup,
        again: await ask("/v1/standards/yarn-weights", {headers: {"if-none-match": lookup[2]}, cache: "no-store"}),
        of_the_proxy: await ask("/v1/standards?"),
    };
}"""


@pytest.fixture
def opened(tmp_path: Path) -> Iterator[Shop]:
    """The shop, and behind the proxy a service that both know its origin."""
    with shop() as opened:
        variable, _, value = SETTING.replace("https://shop.example", opened.origin).partition("=")
        with serving(read({variable: value})) as address:
            proxy = Proxy(tmp_path, [int(address.rpartition(":")[2])], binary=debian_nginx())
            site = tmp_path / "site.conf"
            text = site.read_text().replace(MAP_LINE, MAP_LINE.replace("https://shop.example", opened.origin))
            site.write_text(text)
            with proxy:
                opened.service = f"http://127.0.0.1:{proxy.port}"
                yield opened


def test_two_lines_let_a_page_call(opened, page):
    """It calculates, reads what is wrong, revalidates by the tag, and reads what the proxy itself refuses."""
    page.goto(f"{opened.origin}/bare.html")
    answers = page.evaluate(CALLS, opened.service)

    assert {"calculation": 200, "refusal": 400, "lookup": 200, "again": 304, "of_the_proxy": 400} == {
        name: status for name, (status, *_) in answers.items()
    }
    assert "/problems/invalid-request" in answers["refusal"][1]
    assert "empty part" in answers["of_the_proxy"][1]
    assert answers["lookup"][2]


def test_a_page_that_is_not_named_may_not(opened, page):
    """The browser keeps the answer from it."""
    with shop() as other:
        other.service = opened.service
        page.goto(f"{other.origin}/bare.html")
        with pytest.raises(Exception, match="Failed to fetch"):
            page.evaluate(CALLS, opened.service)
