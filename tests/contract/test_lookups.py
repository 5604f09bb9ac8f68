"""What a cache and a browser rely on: HEAD, ETag, 304, CORS and the header lines of every answer."""

import httpx
import pytest

from roundwright.knitting.answers import RULES
from roundwright.web.settings import Settings
from tests.conftest import serving
from tests.contract.shape import listed, named

GETS = listed("GET")
CACHED = [operation for operation in GETS if "304" in operation.written["responses"]]
PAGES = (
    "/docs",
    "/docs/start.js",
    "/openapi.json",
    "/problems",
    "/problems/not-found",
    "/page/main.js",
    "/page/words-de.json",
    "/handout?gauge_stitches=20&sizes=woman",
)


@pytest.mark.parametrize("url", [*[operation.url for operation in GETS], *PAGES, "/nothing"])
def test_head_is_get_without_the_content(url, service):
    """HEAD has the status and header lines of GET and no content (RFC 9110, 9.3.2)."""
    get, head = service.get(url), service.head(url)

    varying = {"date", "request-id"}
    assert get.status_code == head.status_code
    assert {k: v for k, v in get.headers.items() if k not in varying} == {
        k: v for k, v in head.headers.items() if k not in varying
    }
    assert b"" == head.content


@pytest.mark.parametrize("url", [*[operation.url for operation in CACHED], *PAGES])
def test_an_unchanged_answer_is_not_sent_again(url, service):
    """`If-None-Match` with the tag gets 304 with what a cache needs and no content (RFC 9110, 13.1.2 and 15.4.5)."""
    fresh = service.get(url)
    tag = fresh.headers["etag"]
    assert tag.startswith('"')
    for condition in (tag, f"W/{tag}", f'"other", {tag}', f'{tag} , W/"x"'):
        for method in ("GET", "HEAD"):
            unchanged = service.request(method, url, headers={"if-none-match": condition})
            assert (304, b"") == (unchanged.status_code, unchanged.content)
            for name in ("etag", "cache-control", "rules-version", "vary"):
                assert fresh.headers.get(name) == unchanged.headers.get(name)
    assert 200 == service.get(url, headers={"if-none-match": '"other"'}).status_code
    assert fresh.content == service.get(url).content


@pytest.mark.parametrize("url", [*[operation.url for operation in CACHED], *PAGES])
def test_any_tag_is_matched_by_what_there_is(url, service):
    """`If-None-Match: *` gets 304 where there is an answer (RFC 9110, 13.1.2)."""
    assert 304 == service.get(url, headers={"if-none-match": "*"}).status_code


def test_no_tag_is_matched_by_what_there_is_not(service):
    """A head of 5.6 m has no answer, so that `If-None-Match: *` changes nothing."""
    for query in ("head=560cm&gauge_stitches=18", "head=560"):
        url = f"/v1/cast-on?{query}"
        assert service.get(url).content == service.get(url, headers={"if-none-match": "*"}).content
        assert service.get(url).status_code in (400, 422)


def test_an_unchanged_answer_is_not_calculated(monkeypatch):
    """304 is said without calling the function behind the operation."""
    from roundwright.web.routes.standards import list_standards

    with serving(Settings()) as address:
        tag = httpx.get(f"{address}/v1/standards").headers["etag"]
    monkeypatch.setattr(list_standards, "calculate", lambda: 1 / 0)
    with serving(Settings()) as address:
        assert 304 == httpx.get(f"{address}/v1/standards", headers={"if-none-match": tag}).status_code


def test_tags_differ_where_answers_do(service):
    """No two addresses share a tag."""
    tags = [service.get(url).headers["etag"] for url in (*[operation.url for operation in CACHED], *PAGES)]

    assert len(set(tags)) == len(tags)


@pytest.mark.parametrize("operation", listed(), ids=named)
def test_every_answer_says_what_it_is(operation, service):
    """Each answer has its rules version, an id, how long it keeps, and that its type is not to be guessed."""
    headers = operation.ask(service).headers

    assert RULES == headers["rules-version"]
    assert "nosniff" == headers["x-content-type-options"]
    assert "Origin" not in headers.get("vary", "")
    assert headers["request-id"]
    keeps = "public, max-age=3600" if operation in CACHED else "no-store"
    assert keeps == headers["cache-control"]
    assert "server" not in headers
    assert not [name for name in headers if name.startswith("x-") and name != "x-content-type-options"]


@pytest.mark.parametrize("operation", listed("POST"), ids=named)
def test_the_same_body_gets_the_same_bytes(operation, service):
    """A calculation is pure."""
    assert operation.ask(service).content == operation.ask(service).content


@pytest.mark.parametrize("operation", listed(), ids=named)
def test_the_only_form_is_given_to_anyone(operation, service):
    """With one form there is to give, it is given whatever `Accept` says (RFC 9110, 12.1 allows it)."""
    if len(operation.written["responses"]["200"]["content"]) > 1:
        return

    assert 200 == operation.ask(service, headers={"accept": "image/avif"}).status_code


@pytest.mark.parametrize(
    ("sent", "expected"),
    [
        ({"request-id": "quillhaven-42"}, "quillhaven-42"),
        (
            {"traceparent": "00-0af7651916cd43dd8448eb211c80319c-b7ad6b7169203331-01"},
            "0af7651916cd43dd8448eb211c80319c",
        ),
        ({"request-id": "a", "traceparent": "00-0af7651916cd43dd8448eb211c80319c-b7ad6b7169203331-01"}, "a"),
    ],
)
def test_a_request_keeps_its_id(sent, expected, service):
    """The caller's id comes back, or that of the caller's trace (W3C Trace Context; its own example)."""
    assert expected == service.get("/health/live", headers=sent).headers["request-id"]


@pytest.mark.parametrize("sent", ["", "x" * 129, "two words", "a;b", '{"a":1}', "%0d%0a"])
def test_an_id_that_could_do_harm_is_replaced(sent, service):
    """What could not stand in a log line or a header is not repeated."""
    given = service.get("/health/live", headers={"request-id": sent}).headers["request-id"]

    assert given
    assert given != sent


def test_ids_made_here_differ(service):
    """No two requests get the same id."""
    ids = [service.get("/health/live").headers["request-id"] for _ in range(20)]

    assert 20 == len(set(ids))


@pytest.fixture(scope="module")
def shop_service():
    """A service that pages of one shop may call."""
    with (
        serving(Settings(cors_origins=("https://wool.example",))) as address,
        httpx.Client(base_url=address) as client,
    ):
        yield client


@pytest.mark.parametrize("url", ["/v1/standards", "/nothing", "/v1/standards?colour=red"])
def test_pages_of_an_allowed_origin_may_read_answers(url, shop_service):
    """An allowed origin is named, in answers and in errors; caches are told that it matters, whoever asks."""
    allowed = shop_service.get(url, headers={"origin": "https://wool.example"})
    other = shop_service.get(url, headers={"origin": "https://elsewhere.example"})
    nobody = shop_service.get(url)

    assert "https://wool.example" == allowed.headers["access-control-allow-origin"]
    assert "ETag" in allowed.headers["access-control-expose-headers"]
    assert "access-control-allow-origin" not in other.headers
    assert "access-control-allow-origin" not in nobody.headers
    for response in (allowed, other, nobody):
        assert "Origin" in response.headers["vary"]
        assert "access-control-allow-credentials" not in response.headers


def test_a_page_of_an_allowed_origin_may_post(shop_service):
    """A browser's question before a POST is answered yes for an allowed origin, and with no yes for others."""
    preflight = {"access-control-request-method": "POST", "access-control-request-headers": "content-type"}
    yes = shop_service.options("/v1/gauge/convert", headers={"origin": "https://wool.example", **preflight})
    no = shop_service.options(
        "/v1/gauge/convert", headers={"origin": "https://elsewhere.example", **preflight}
    )

    assert (204, b"") == (yes.status_code, yes.content)
    assert "https://wool.example" == yes.headers["access-control-allow-origin"]
    assert "POST" in yes.headers["access-control-allow-methods"]
    assert "Content-Type" in yes.headers["access-control-allow-headers"]
    assert 204 == no.status_code
    assert not [name for name in no.headers if name.startswith("access-control")]


def test_nobody_is_allowed_unless_said(service):
    """As it ships, no page of another origin may read an answer."""
    response = service.get("/v1/standards", headers={"origin": "https://wool.example"})

    assert "access-control-allow-origin" not in response.headers


def test_everybody_may_be_allowed():
    """`*` lets every page in; there are no credentials to steal. Caches keep one answer for all of them."""
    with serving(Settings(cors_origins=("*",))) as address:
        for sent in ({"origin": "https://wool.example"}, {}):
            response = httpx.get(f"{address}/v1/standards", headers=sent)
            assert "*" == response.headers["access-control-allow-origin"]
            assert "Origin" not in response.headers.get("vary", "")
