"""The proxy as configured, run for real before a replica, before strange servers, and before none."""

import http.client
import json
import re
import socket
import struct
import threading
import time
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack, contextmanager
from datetime import datetime
from itertools import cycle, islice
from pathlib import Path
from select import select
from typing import Any

import pytest

from roundwright.language import LANGUAGES, PICTURE_LANGUAGES, supported
from roundwright.web.problems import PROBLEM_TYPES
from tests.deploy.tools import debian_nginx, new_nginx
from tests.load.callers import Call, good_calls, wire
from tests.load.fleet import HOST, NGINX_FOLDER, REPOSITORY, Proxy, Replica, free_port, until

CONVERT = "/v1/gauge/convert"
KUBERNETES_SITE = REPOSITORY / "deploy" / "kubernetes" / "base" / "site.conf"
PHRASES = {
    414: "URI Too Long",
    501: "Not Implemented",
    502: "Bad Gateway",
    504: "Gateway Timeout",
    505: "HTTP Version Not Supported",
}
"""The phrases of the statuses, by RFC 9110, 15, where the service has no kind of problem for them."""
Headers = dict[str, str]


@pytest.fixture(scope="module")
def replica() -> Iterator[Replica]:
    """One replica of the service."""
    with Replica() as instance:
        yield instance


@pytest.fixture(scope="module", params=[debian_nginx, new_nginx], ids=["debian", "new"])
def proxy(
    request: pytest.FixtureRequest, replica: Replica, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Proxy]:
    """The proxy before that replica: Debian's nginx, and one as new as the image that is deployed."""
    with Proxy(tmp_path_factory.mktemp("proxy"), [replica.port], binary=request.param()) as instance:
        yield instance


@pytest.fixture(scope="module")
def service_lookups() -> list[str]:
    """An address of each look-up and picture."""
    return [call.wire.split()[1].decode() for call in good_calls() if call.wire.startswith(b"GET ")]


@contextmanager
def server(behave: Callable[[socket.socket], None]) -> Iterator[int]:
    """A server that does with each connection what it is told to; its port."""
    with socket.socket() as listener:
        listener.bind((HOST, 0))
        listener.listen(64)

        def accept() -> None:
            while True:
                try:
                    connection, _ = listener.accept()
                except OSError:
                    return
                threading.Thread(target=behave, args=(connection,), daemon=True).start()

        threading.Thread(target=accept, daemon=True).start()
        yield int(listener.getsockname()[1])
        listener.shutdown(socket.SHUT_RDWR)


def ask(
    port: int, method: str, path: str, body: bytes | None = None, headers: Headers | None = None
) -> tuple[int, Headers, bytes]:
    """Ask once: status, header lines, body."""
    connection = http.client.HTTPConnection(HOST, port, timeout=20)
    try:
        json_type = {"content-type": "application/json"} if body is not None else {}
        connection.request(method, path, body, {**json_type, **(headers or {})})
        answer = connection.getresponse()
        return answer.status, lines_of(answer), answer.read()
    finally:
        connection.close()


def message_of(connection: socket.socket) -> bytes:
    """The next request on a connection, with its body; empty when it is closed."""
    message = b""
    while b"\r\n\r\n" not in message or len(message) < whole(message):
        more = connection.recv(1_000_000)
        if not more:
            return b""
        message += more
    return message


def whole(message: bytes) -> int:
    """How many bytes a message has whose header is there."""
    head, _, _ = message.partition(b"\r\n\r\n")
    length = re.search(rb"(?i)\r\ncontent-length: (\d+)", head)
    return len(head) + 4 + (int(length[1]) if length else 0)


@contextmanager
def answering(answer: Callable[[bytes], bytes]) -> Iterator[int]:
    """A server that answers each request as it is told to; its port."""

    def behave(connection: socket.socket) -> None:
        with connection:
            while request := message_of(connection):
                connection.sendall(answer(request))

    with server(behave) as port:
        yield port


def kept_answer(body: bytes, lines: bytes = b"") -> bytes:
    """An answer that caches may keep."""
    head = b"HTTP/1.1 200 OK\r\ncontent-type: image/svg+xml\r\ncontent-length: %d\r\n" % len(body)
    return head + b"cache-control: public, max-age=3600\r\n" + lines + b"\r\n" + body


def is_kept(port: int, path: str) -> bool:
    """Whether the proxy answers a look-up by itself, soon after it was asked first: it keeps it once it was sent."""
    for _ in range(8):
        if "hit" in say(port, wire("GET", path))[1]["cache-status"]:
            return True
        time.sleep(0.03)
    return False


def say(port: int, message: bytes) -> tuple[int, Headers, bytes]:
    """Send bytes as they are: status, header lines, body of what comes back."""
    with socket.create_connection((HOST, port), timeout=20) as connection:
        connection.sendall(message)
        answer = http.client.HTTPResponse(connection)
        answer.begin()
        return answer.status, lines_of(answer), answer.read()


def lines_of(answer: http.client.HTTPResponse) -> Headers:
    """The header lines of an answer, those of one name joined."""
    names = {name.lower() for name, _ in answer.getheaders()}
    return {name: ", ".join(answer.headers.get_all(name, ())) for name in names}


def convert_call() -> Call:
    """One request and its answer."""
    return next(call for call in good_calls() if call.name == f"POST {CONVERT}")


def body_of(call: Call) -> bytes:
    """The body of a request."""
    return call.wire.partition(b"\r\n\r\n")[2]


def assert_problem(answer: tuple[int, Headers, bytes], status: int, instance: str | None = None) -> None:
    """A problem of the proxy's own, in the words of the service where it has some for it."""
    found, headers, body = answer
    assert found == status, body
    assert headers["content-type"] == "application/problem+json"
    assert headers["cache-control"] == "no-store"
    assert headers["x-content-type-options"] == "nosniff"
    assert "vary" not in headers
    assert re.fullmatch(r"[A-Za-z0-9._:-]{1,128}", headers["request-id"])
    problem = json.loads(body)
    assert list(problem) == ["type", "title", "status", "detail", "instance", "errors"]
    assert problem["status"] == status
    if instance is not None:
        assert problem["instance"] == instance
    if problem["type"] == "about:blank":  # RFC 9457, 4.2.1: the title is then the phrase of the status
        assert problem["title"] == PHRASES[status]
        assert all(kind.status != status for kind in PROBLEM_TYPES.values())
    else:
        kind = PROBLEM_TYPES[problem["type"].removeprefix("/problems/")]
        assert (kind.title, kind.status) == (problem["title"], status)
    assert ("retry-after" in headers) == (status in (429, 502, 503, 504))


@pytest.mark.parametrize("site", [NGINX_FOLDER / "site.conf", KUBERNETES_SITE], ids=["compose", "kubernetes"])
def test_nginx_takes_what_is_shipped(site: Path, tmp_path: Path) -> None:
    """`nginx -t` has nothing to say about either site's configuration."""
    # The name of the cluster's name server is looked up at the start.
    text = site.read_text().replace("resolver kube-dns.kube-system.svc.cluster.local", f"resolver {HOST}")
    checked = Proxy(tmp_path, [], site=text, binary=new_nginx()).check()
    assert checked.returncode == 0, checked.stderr
    assert not re.search(r"\[(warn|error|emerg|alert|crit)\]", checked.stderr)


PROBLEMS: dict[str, tuple[bytes, int, str]] = {
    "garbage": (b"\x16\x03\x01\r\n\r\n", 400, "/"),
    "no host": (b"GET / HTTP/1.1\r\n\r\n", 400, "/"),
    "two lengths": (
        b"GET /v1/hats HTTP/1.1\r\nhost: a\r\ncontent-length: 1\r\ncontent-length: 2\r\n\r\n",
        400,
        "/v1/hats",
    ),
    "counts": (wire("GET", "/metrics"), 404, "/metrics"),
    "an inner address": (wire("GET", "/_problem/413"), 404, "/_problem/413"),
    "trace": (wire("TRACE", CONVERT), 405, CONVERT),
    "too large": (wire("POST", CONVERT, more="content-length: 200000\r\n"), 413, CONVERT),
    "a long address": (wire("GET", f"/{'a' * 5000}"), 414, "/"),
    "a long line": (wire("GET", CONVERT, more=f"x: {'a' * 5000}\r\n"), 431, CONVERT),
    "a long header": (
        wire("GET", CONVERT, more="".join(f"x{i}: {'a' * 3000}\r\n" for i in range(7))),
        431,
        CONVERT,
    ),
    "a strange coding": (wire("POST", CONVERT, more="transfer-encoding: gzip\r\n"), 501, CONVERT),
    "an empty query": (wire("GET", "/v1/standards?"), 400, "/v1/standards"),
    "nothing but &": (wire("GET", "/v1/standards?&&"), 400, "/v1/standards"),
    "an empty part before": (
        wire("GET", "/v1/drawings/crown.svg?&stitches=56"),
        400,
        "/v1/drawings/crown.svg",
    ),
    "an empty part between": (wire("GET", "/v1/hats?a=1&&b=2"), 400, "/v1/hats"),
    "an empty part after": (wire("POST", "/v1/hats?a=1&", b"{}"), 400, "/v1/hats"),
    "a later version": (b"GET /docs HTTP/3.0\r\nhost: a\r\n\r\n", 505, "/"),
    "quotes": (wire("TRACE", '/"},{"'), 405, "/"),
}


@pytest.mark.parametrize("name", PROBLEMS)
def test_what_the_proxy_refuses_is_a_problem(proxy: Proxy, name: str) -> None:
    """Its own errors are problem details (RFC 9457) with the header lines every problem has."""
    message, status, instance = PROBLEMS[name]
    assert_problem(say(proxy.port, message), status, instance)


def test_405_says_what_is_allowed(proxy: Proxy) -> None:
    """405 carries `Allow` (RFC 9110, 15.5.6)."""
    assert say(proxy.port, wire("TRACE", "/"))[1]["allow"] == "GET, HEAD, OPTIONS, POST"


def test_no_replica_is_a_problem(tmp_path: Path) -> None:
    """Where nobody listens the answer is 502, and a page of an allowed origin may read it."""
    with Proxy(tmp_path, [free_port()], binary=debian_nginx()) as alone:
        origin = {"origin": "https://shop.example"}
        answer = ask(alone.port, "POST", CONVERT, body_of(convert_call()), origin)
        assert_problem(answer, 502, CONVERT)
        assert answer[1]["access-control-allow-origin"] == "https://shop.example"
        other = ask(alone.port, "GET", "/", headers={"origin": "https://other.example"})
        assert "access-control-allow-origin" not in other[1]


def test_what_hangs_is_not_asked_of_another_replica(tmp_path: Path) -> None:
    """Where nothing comes back the answer is 504, and no other replica is made to do what was too dear."""
    requests: list[bytes] = []

    def hang(connection: socket.socket) -> None:
        requests.append(message_of(connection))
        time.sleep(4)
        connection.close()

    with (
        server(hang) as first,
        server(hang) as other,
        Proxy(tmp_path, [first, other], binary=debian_nginx()) as both,
    ):
        assert_problem(ask(both.port, "POST", CONVERT, b"{}"), 504, CONVERT)
        assert_problem(ask(both.port, "GET", "/v1/standards"), 504, "/v1/standards")
        assert len(requests) == 2


def test_what_is_too_much_is_not_asked_of_another_replica(tmp_path: Path) -> None:
    """A replica's 503 goes to the caller: it says that the request, or the load, is too much for one like it."""
    requests: list[bytes] = []

    def overloaded(request: bytes) -> bytes:
        requests.append(request)
        return b"HTTP/1.1 503 Service Unavailable\r\ncontent-length: 0\r\nretry-after: 3\r\n\r\n"

    with (
        answering(overloaded) as first,
        answering(overloaded) as other,
        Proxy(tmp_path, [first, other], binary=debian_nginx()) as both,
    ):
        status, headers, _ = ask(both.port, "POST", CONVERT, b"{}")
        assert (status, headers["retry-after"], len(requests)) == (503, "3", 1)


def test_answers_pass_through_to_the_byte(proxy: Proxy) -> None:
    """Answers and problems of the service come through the proxy unchanged."""
    for call in {call.name: call for call in good_calls()}.values():
        assert say(proxy.port, call.wire)[2] == call.expected
    status, headers, body = ask(proxy.port, "POST", CONVERT, b"{}")
    assert (status, headers["content-type"]) == (400, "application/problem+json")
    assert json.loads(body)["type"] == "/problems/invalid-request"


def test_requests_keep_their_id(proxy: Proxy) -> None:
    """The caller's id, or its trace's (W3C Trace Context), or one of the proxy's own comes back."""
    trace = "4bf92f3577b34da6a3ce929d0e0e4736"
    assert ask(proxy.port, "GET", "/", headers={"request-id": "class-7"})[1]["request-id"] == "class-7"
    traced = ask(proxy.port, "GET", "/", headers={"traceparent": f"00-{trace}-00f067aa0ba902b7-01"})
    assert traced[1]["request-id"] == trace
    bad = ask(proxy.port, "GET", "/", headers={"request-id": "a b"})[1]["request-id"]
    assert re.fullmatch(r"[0-9a-f]{32}", bad)


def test_a_dead_or_dying_replica_is_not_noticed(replica: Replica, tmp_path: Path) -> None:
    """A POST that one replica drops, or cuts short in the header, is answered by another."""

    def drop(connection: socket.socket) -> None:
        connection.recv(100_000)
        connection.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))
        connection.close()

    def cut(connection: socket.socket) -> None:
        connection.recv(100_000)
        connection.sendall(b"HTTP/1.1 200 OK\r\ncontent-type: application/json\r\ncont")
        connection.close()

    call = convert_call()
    for number, behaviour in enumerate((drop, cut)):
        with (
            server(behaviour) as port,
            Proxy(
                tmp_path / str(number), [port, replica.port, free_port()], binary=debian_nginx()
            ) as gateway,
        ):
            for _ in range(20):
                assert ask(gateway.port, "POST", CONVERT, body_of(call))[::2] == (200, call.expected)
            assert gateway.saved() > 0


def test_lookups_are_kept(proxy: Proxy) -> None:
    """A look-up is answered by the proxy the second time, 304 for its ETag, for HEAD as well."""
    path = "/v1/standards/needle-sizes"
    first = ask(proxy.port, "GET", path)
    assert first[1]["cache-status"] == "roundwright-proxy; fwd=miss"
    assert is_kept(proxy.port, path)
    again = ask(proxy.port, "GET", path)
    assert again[1]["cache-status"] == "roundwright-proxy; hit"
    assert again[2] == first[2]
    assert again[1]["etag"] == first[1]["etag"]
    assert again[1]["request-id"] != first[1]["request-id"]
    unchanged = ask(proxy.port, "GET", path, headers={"if-none-match": first[1]["etag"]})
    assert (unchanged[0], unchanged[2]) == (304, b"")
    assert unchanged[1]["etag"] == first[1]["etag"]
    head = ask(proxy.port, "HEAD", path)
    assert (head[0], head[1]["cache-status"], head[2]) == (200, "roundwright-proxy; hit", b"")


def test_an_invented_origin_makes_no_copy(tmp_path: Path) -> None:
    """Origins that are not allowed share one answer, without `Vary` or with it; an allowed one has its own."""
    requests: list[bytes] = []

    def answer(request: bytes) -> bytes:
        requests.append(request)
        origin = (
            b"access-control-allow-origin: https://shop.example\r\n" if b"shop.example" in request else b""
        )
        return kept_answer(b"{}", origin + b"vary: Origin\r\n")

    with answering(answer) as port, Proxy(tmp_path, [port], binary=debian_nginx()) as alone:
        assert is_kept(alone.port, "/docs")
        once = len(requests)
        for number in range(20):
            _, headers, _ = ask(alone.port, "GET", "/docs", headers={"origin": f"https://{number}.example"})
            assert "access-control-allow-origin" not in headers
        assert len(requests) == once
        for _ in range(2):
            _, headers, _ = ask(alone.port, "GET", "/docs", headers={"origin": "https://shop.example"})
            assert headers["access-control-allow-origin"] == "https://shop.example"
        assert len(requests) > once


def test_only_origin_and_language_change_a_lookup(service_lookups: list[str], proxy: Proxy) -> None:
    """No look-up depends on another field of the header, so the proxy need not heed `Vary` in what it keeps."""
    for path in service_lookups:
        varies = ask(proxy.port, "GET", path)[1].get("vary", "")
        assert set(varies.split(", ")) - {""} <= {"Accept-Encoding", "Accept-Language"}


def test_a_kept_answer_is_in_the_language_of_its_reader(tmp_path: Path) -> None:
    """Languages that are there have their own answer; all others share the one in English."""
    requests: list[bytes] = []

    def answer(request: bytes) -> bytes:
        requests.append(request)
        sent = re.search(rb"accept-language: (\w*)", request, re.IGNORECASE)
        return kept_answer(b'"%s"' % (sent[1] if sent else b""), b"vary: Accept-Language\r\n")

    with answering(answer) as port, Proxy(tmp_path, [port], binary=debian_nginx()) as alone:
        for header, content in (
            ("de-AT,de;q=0.9,en;q=0.8", b'"de"'),
            ("pl,da;q=0.5", b'"da"'),
            ("en-GB,en;q=0.9,de;q=0.3", b'"en"'),
            ("nb-NO", b'"nb"'),
        ):
            for _ in range(2):
                assert ask(alone.port, "GET", "/docs", headers={"accept-language": header})[2] == content
        assert is_kept(alone.port, "/docs")
        once = len(requests)
        for number in range(20):
            ask(alone.port, "GET", "/docs", headers={"accept-language": f"x{number},pl;q=0.{number}"})
        assert len(requests) == once


def test_the_proxy_knows_the_languages_of_the_service() -> None:
    """The tags of the proxy are those that the service has words for."""
    text = (NGINX_FOLDER / "nginx.conf").read_text()
    known = re.search(r"\(\?<tag>([a-z|]+)\)", text)

    assert known is not None
    tags = known[1].split("|")
    assert {supported(tag) or tag for tag in tags} | {"en-GB"} == {*LANGUAGES, *PICTURE_LANGUAGES}


@pytest.mark.parametrize(
    ("path", "length", "kept"),
    [
        ("/docs/swagger-ui-bundle.js", 1_500_000, True),
        ("/v1/drawings/crown.svg?stitches=56", 31_999, True),
        ("/v1/drawings/crown.svg?stitches=56", 9_000, True),
        ("/v1/drawings/crown.svg?stitches=300", 32_000, False),
        ("/v1/drawings/crown.svg?stitches=300", 400_000, False),
        ("/%64ocs", 100, False),
        ("/docs#1", 100, False),
    ],
)
def test_what_has_addresses_without_end_is_kept_if_small(
    path: str, length: int, kept: bool, tmp_path: Path
) -> None:
    """Large answers with a query, and paths spelled in another way, take no room in what is kept."""
    with (
        answering(lambda _: kept_answer(b"a" * length)) as port,
        Proxy(tmp_path, [port], binary=debian_nginx()) as alone,
    ):
        assert len(say(alone.port, wire("GET", path))[2]) == length
        assert is_kept(alone.port, path) == kept


def test_what_is_kept_is_bounded(tmp_path: Path) -> None:
    """However many addresses are asked, fewer than 2,000 answers are kept: at 32 KiB, 64 MB."""
    with (
        answering(lambda _: kept_answer(b"a" * 100)) as port,
        Proxy(tmp_path, [port], binary=debian_nginx()) as alone,
        socket.create_connection((HOST, alone.port)) as connection,
    ):
        for number in range(2_500):
            connection.sendall(wire("GET", f"/v1/drawings/crown.svg?stitches={number}"))
            answer = http.client.HTTPResponse(connection)
            answer.begin()
            assert (answer.status, len(answer.read())) == (200, 100)
        files = sum(1 for file in (alone.written / "cache").rglob("*") if file.is_file())
        assert 1_000 < files < 2_000


def test_nobody_waits_for_another(tmp_path: Path) -> None:
    """Callers who ask for the same at once are each served as soon as a replica has it."""
    requests: list[bytes] = []

    def slowly(request: bytes) -> bytes:
        requests.append(request)
        until(lambda: len(requests) == 5, "all five came")
        return kept_answer(b"{}")

    with (
        answering(slowly) as port,
        Proxy(tmp_path, [port], binary=debian_nginx()) as alone,
        ThreadPoolExecutor(5) as callers,
    ):
        answers = callers.map(lambda _: ask(alone.port, "GET", "/docs"), range(5))
        assert [status for status, _, _ in answers] == [200] * 5


def test_calculations_are_not_kept(proxy: Proxy) -> None:
    """Two bodies to one address get two answers; nothing said to be no-store is kept."""
    calls = [call for call in good_calls() if call.name == f"POST {CONVERT}"][:2]
    for call in (*calls, *calls):
        _, headers, body = ask(proxy.port, "POST", CONVERT, body_of(call))
        assert body == call.expected
        assert "hit" not in headers.get("cache-status", "")
    for _ in range(2):
        assert "hit" not in ask(proxy.port, "GET", "/health/ready")[1].get("cache-status", "")


@pytest.mark.parametrize("path", ["/v1/standards/abbreviations", "/openapi.json"])
def test_coded_answers_have_a_weak_tag(path: str, proxy: Proxy) -> None:
    """A gzipped answer does not carry the strong ETag of the plain one, and its own gets 304 (RFC 9110, 8.8.3)."""
    _, headers, _ = ask(proxy.port, "GET", path, headers={"accept-encoding": "gzip"})
    assert headers["content-encoding"] == "gzip"
    assert headers["etag"].startswith('W/"')
    assert "accept-encoding" in headers["vary"].lower()
    assert ask(proxy.port, "GET", path, headers={"if-none-match": headers["etag"]})[0] == 304


def test_a_kept_lookup_outlives_the_replica(tmp_path: Path) -> None:
    """What is kept goes on being answered with no replica left, past its age."""
    answered = threading.Event()

    def once(connection: socket.socket) -> None:
        if not answered.is_set():
            answered.set()
            connection.recv(100_000)
            head = b'HTTP/1.1 200 OK\r\ncontent-length: 2\r\netag: "a"\r\ncache-control: public, max-age=1\r\n\r\n'
            connection.sendall(head + b"{}")
        connection.close()

    with server(once) as port, Proxy(tmp_path, [port], binary=debian_nginx()) as alone:
        assert ask(alone.port, "GET", "/v1/standards")[0] == 200
        time.sleep(2.1)
        assert ask(alone.port, "GET", "/v1/standards")[::2] == (200, b"{}")


def test_a_caller_has_a_rate(replica: Replica, tmp_path: Path) -> None:
    """Beyond the rate and the burst of an address the answer is 429, and other addresses do not suffer."""
    with Proxy(tmp_path, [replica.port], limited=True, binary=debian_nginx()) as limited:
        answers = [ask(limited.port, "GET", "/health/live") for _ in range(300)]
        refused = [answer for answer in answers if answer[0] != 200]
        assert 100 <= len(answers) - len(refused) < 250
        assert_problem(refused[-1], 429, "/health/live")
        with socket.create_connection((HOST, limited.port), source_address=("127.0.0.9", 0)) as other:
            other.sendall(wire("GET", "/health/live"))
            assert other.recv(1000).startswith(b"HTTP/1.1 200")


def test_a_caller_has_so_many_connections(replica: Replica, tmp_path: Path) -> None:
    """An address that holds a hundred unfinished requests open gets 503 for the next."""
    with Proxy(tmp_path, [replica.port], limited=True, binary=debian_nginx()) as limited:
        held = [socket.create_connection((HOST, limited.port)) for _ in range(100)]
        try:
            for connection in held:
                connection.sendall(wire("POST", CONVERT, more="content-length: 100\r\n"))
            time.sleep(2.5)  # and the rate's burst has passed
            assert_problem(ask(limited.port, "GET", "/health/live"), 503)
        finally:
            for connection in held:
                connection.close()


IPV6_NETWORKS = {
    "2001:db8:0:1::/64": [
        "2001:db8:0:1::7",
        "2001:db8:0:1:a:b:c:d",
        "2001:db8:0:1:a::",
        "2001:db8:0:1:0:b:0:d",
    ],
    "2001:db8:1::/64": ["2001:db8:1::7", "2001:db8:1:0:a:b:c:d", "2001:db8:1::b:c:d"],
    "2001:db8::/64": ["2001:db8::7", "2001:db8::a:b:c:d", "2001:db8::a:0:0:0"],
    "2001:0:0:5::/64": ["2001:0:0:5::7", "2001::5:a:b:c:d", "2001:0:0:5:a::d"],
    "2001::/64": ["2001::7", "2001::a:b:c:d"],
}
"""Networks, and addresses in them that are written differently: zeros before, in and behind the first four groups."""


@pytest.mark.parametrize("network", IPV6_NETWORKS)
def test_all_of_an_ipv6_network_is_one_caller(network: str, tmp_path: Path) -> None:
    """Whoever changes the address within a /64 has one rate all the same; the next /64 has its own."""
    ok = b"HTTP/1.1 200 OK\r\ncontent-length: 0\r\n\r\n"
    with (
        answering(lambda _: ok) as port,
        Proxy(tmp_path, [port], limited=True, trusting=True, binary=debian_nginx()) as limited,
    ):

        def status(address: str) -> int:
            return say(limited.port, wire("GET", "/health/live", more=f"x-forwarded-for: {address}\r\n"))[0]

        answers = [status(address) for address in islice(cycle(IPV6_NETWORKS[network]), 100)]
        assert answers == [200] * 100
        for _ in range(3):  # fifty a second come free meanwhile
            answers = [status(address) for address in islice(cycle(IPV6_NETWORKS[network]), 100)]
        assert all(429 in answers[place :: len(IPV6_NETWORKS[network])] for place in range(2))
        assert status("2001:db8:0:2::7") == 200
        assert status("198.51.100.7") == status("198.51.100.8") == 200


def test_ipv4_addresses_are_callers(tmp_path: Path) -> None:
    """An IPv4 address is a caller of its own, also where it is written as IPv6."""
    ok = b"HTTP/1.1 200 OK\r\ncontent-length: 0\r\n\r\n"
    with (
        answering(lambda _: ok) as port,
        Proxy(tmp_path, [port], limited=True, trusting=True, binary=debian_nginx()) as limited,
    ):
        for form in ("198.51.100.{}", "::ffff:203.0.113.{}"):
            for number in range(1, 250):
                more = f"x-forwarded-for: {form.format(number)}\r\n"
                assert say(limited.port, wire("GET", "/health/live", more=more))[0] == 200


@pytest.mark.parametrize("path", ["/v1/patterns/proofread", "/docs/page.css"])
def test_what_is_dear_waits_its_turn(path: str, tmp_path: Path) -> None:
    """Of sixty dear requests at once some are answered, some refused, and most wait; others go on meanwhile."""
    ok = b"HTTP/1.1 200 OK\r\ncontent-length: 0\r\n\r\n"
    with (
        answering(lambda _: ok) as port,
        Proxy(tmp_path, [port], limited=True, binary=debian_nginx()) as limited,
        ExitStack() as held,
    ):
        callers = [held.enter_context(socket.create_connection((HOST, limited.port))) for _ in range(60)]
        for caller in callers:
            caller.sendall(wire("POST", path, b"{}"))
        until(lambda: len(select(callers, (), (), 0)[0]) >= 22, "those that need not wait are answered")
        answered = [caller.recv(65_536).split()[1] for caller in select(callers, (), (), 0)[0]]
        assert answered.count(b"429") >= 12
        assert 3 <= answered.count(b"200") <= 30
        assert ask(limited.port, "POST", CONVERT, b"{}")[0] == 200
        until(lambda: len(select(callers, (), (), 0)[0]) > len(answered), "the next has its turn")


PDF_RANGES = [
    "application/pdf",
    "Application/PDF;q=0.5",
    "text/plain;q=0.1, application/*",
    "text/*;q=0, */*",
]


@pytest.mark.parametrize("accept", PDF_RANGES)
def test_pdfs_have_a_rate_of_their_own(accept: str, tmp_path: Path) -> None:
    """What may be a PDF is made a few times at once and one every 2 s a caller; other answers go on meanwhile."""
    ok = b"HTTP/1.1 200 OK\r\ncontent-length: 0\r\n\r\n"
    with (
        answering(lambda _: ok) as port,
        Proxy(tmp_path, [port], limited=True, binary=debian_nginx()) as limited,
    ):
        path = "/v1/hats/handout"
        answers = _at_once(12, limited.port, path, {"accept": accept})
        assert 4 <= [status for status, _, _ in answers].count(200) <= 7
        assert_problem(answers[-1], 429, path)
        assert answers[-1][1]["retry-after"] == "2"
        for other in ("text/html", "text/markdown, text/plain;q=0.5", "*/*", None):
            headers = {"accept": other} if other else {}
            assert ask(limited.port, "POST", path, b"{}", headers)[0] == 200
        assert ask(limited.port, "POST", "/v1/hats", b"{}", {"accept": accept})[0] == 200


def _at_once(number: int, port: int, path: str, headers: dict[str, str]) -> list[Any]:
    """So many answers to requests of one caller at the same time, those that were made first."""
    with ThreadPoolExecutor(number) as callers:
        futures = [callers.submit(ask, port, "POST", path, b"{}", headers) for _ in range(number)]
        return sorted((future.result() for future in futures), key=lambda answer: answer[0])


@pytest.mark.parametrize("path", ["/v1/batch", "/v1/hats/handout.pdf"])
def test_batches_have_the_rate_of_pdfs(path: str, tmp_path: Path) -> None:
    """A batch, or a PDF by its file, is made as seldom, whatever `Accept` says; a calculation goes on meanwhile."""
    ok = b"HTTP/1.1 200 OK\r\ncontent-length: 0\r\n\r\n"
    with (
        answering(lambda _: ok) as port,
        Proxy(tmp_path, [port], limited=True, binary=debian_nginx()) as limited,
    ):
        answers = _at_once(12, limited.port, path, {})
        assert 4 <= [status for status, _, _ in answers].count(200) <= 7
        assert_problem(answers[-1], 429, path)
        assert answers[-1][1]["retry-after"] == "2"
        assert ask(limited.port, "POST", CONVERT, b"{}")[0] == 200


@pytest.mark.parametrize(
    ("path", "length"),
    [
        ("/v1/patterns/proofread", 10_000),
        ("/v1/drawings/crown.png", 0),
        ("/v1/hats/handout", 0),
    ],
)
def test_what_is_dearer_has_a_rate_of_its_own(path: str, length: int, tmp_path: Path) -> None:
    """Of long patterns, PNGs and handouts a few at once and one a second; a usual pattern is read meanwhile."""
    ok = b"HTTP/1.1 200 OK\r\ncontent-length: 0\r\n\r\n"
    with (
        answering(lambda _: ok) as port,
        Proxy(tmp_path, [port], limited=True, binary=debian_nginx()) as limited,
        ThreadPoolExecutor(20) as callers,
    ):
        begun = [callers.submit(ask, limited.port, "POST", path, b"k" * length) for _ in range(20)]
        until(lambda: any(answer.done() for answer in begun), "one is answered or refused")
        assert ask(limited.port, "POST", "/v1/patterns/proofread", b"k" * 5_000)[0] == 200
        statuses = [answer.result()[0] for answer in begun]
        assert set(statuses) == {200, 429}
        assert 10 <= statuses.count(200) <= 14


def test_pdfs_have_a_number_of_their_own(tmp_path: Path) -> None:
    """Two PDFs at once of a caller are made; the next gets 503, and other requests of that caller are answered."""
    done = threading.Event()

    def slowly(request: bytes) -> bytes:
        if b"application/pdf" in request:
            done.wait(20)
        return b"HTTP/1.1 200 OK\r\ncontent-length: 0\r\n\r\n"

    path = "/v1/hats/handout"
    pdf = {"accept": "application/pdf"}
    with (
        answering(slowly) as port,
        Proxy(tmp_path, [port], limited=True, binary=debian_nginx()) as limited,
        ThreadPoolExecutor(3) as callers,
    ):
        begun = [callers.submit(ask, limited.port, "POST", path, b"{}", pdf) for _ in range(3)]
        until(lambda: any(answer.done() for answer in begun), "one is refused")
        assert ask(limited.port, "POST", path, b"{}")[0] == 200
        done.set()
        answers = sorted((answer.result() for answer in begun), key=lambda answer: answer[0])
        assert [status for status, _, _ in answers] == [200, 200, 503]
        assert_problem(answers[-1], 503, path)


def test_pdfs_of_all_callers_wait_their_turn(tmp_path: Path) -> None:
    """Of twelve callers at once, as many get a PDF as are made in four seconds; the others may come again."""
    ok = b"HTTP/1.1 200 OK\r\ncontent-length: 0\r\n\r\n"

    def status(port: int, number: int) -> int:
        headers = {"accept": "application/pdf", "x-forwarded-for": f"198.51.100.{number}"}
        return ask(port, "POST", "/v1/hats/handout", b"{}", headers)[0]

    with (
        answering(lambda _: ok) as port,
        Proxy(tmp_path, [port], limited=True, trusting=True, binary=debian_nginx()) as limited,
        ThreadPoolExecutor(12) as callers,
    ):
        statuses = list(callers.map(lambda number: status(limited.port, number), range(12)))
        assert set(statuses) == {200, 429}
        assert 5 <= statuses.count(200) <= 7


def test_a_pdf_that_killed_a_replica_is_not_asked_of_another(tmp_path: Path) -> None:
    """A PDF is asked of another replica only where it could not be sent at all."""
    requests: list[bytes] = []

    def die(connection: socket.socket) -> None:
        requests.append(message_of(connection))
        connection.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))
        connection.close()

    with (
        server(die) as first,
        server(die) as other,
        Proxy(tmp_path, [first, other], binary=debian_nginx()) as both,
    ):
        answer = ask(both.port, "POST", "/v1/hats/handout", b"{}", {"accept": "application/pdf"})
        assert_problem(answer, 502)
        assert len(requests) == 1
    with (
        answering(lambda _: b"HTTP/1.1 200 OK\r\ncontent-length: 0\r\n\r\n") as port,
        Proxy(tmp_path / "2", [free_port(), port], binary=debian_nginx()) as both,
    ):
        for _ in range(4):
            answer = ask(both.port, "POST", "/v1/hats/handout", b"{}", {"accept": "application/pdf"})
            assert answer[0] == 200


def test_the_proxy_is_well_without_replicas(tmp_path: Path) -> None:
    """Its own health depends on no replica and on no rate, so one overload does not take the proxies away as well."""
    with Proxy(tmp_path, [free_port()], limited=True, binary=debian_nginx()) as alone:
        for _ in range(300):
            assert ask(alone.port, "GET", "/health/proxy")[::2] == (200, b'{"status":"ok"}')
        assert ask(alone.port, "GET", "/health/ready")[0] == 502


def test_it_says_whom_to_tell_of_a_weakness(tmp_path: Path) -> None:
    """`/.well-known/security.txt` has a contact and a date until which it holds (RFC 9116, 2.5), whatever is down."""
    with Proxy(tmp_path, [free_port()], binary=debian_nginx()) as alone:
        status, headers, body = ask(alone.port, "GET", "/.well-known/security.txt")
        assert (status, headers["content-type"]) == (200, "text/plain; charset=utf-8")
        fields = dict(line.split(": ", 1) for line in body.decode().splitlines())
        assert fields["Contact"].startswith(("https://", "mailto:"))
        assert datetime.fromisoformat(fields["Expires"]).tzinfo is not None


def test_browsers_are_told_to_keep_to_tls(proxy: Proxy) -> None:
    """Where TLS ended before the proxy, answers and problems carry HSTS (RFC 6797, 7); elsewhere none does."""
    for path in ("/v1/standards", "/v1/standards?"):
        headers = ask(proxy.port, "GET", path, headers={"x-forwarded-proto": "https"})[1]
        assert headers["strict-transport-security"] == "max-age=31536000"
        assert "strict-transport-security" not in ask(proxy.port, "GET", path)[1]


CHUNKED = b"transfer-encoding: chunked\r\ntrailer: X-Forwarded-For, Authorization\r\nTE: trailers\r\n\r\n"
TRAILERS = b"2\r\n{}\r\n0\r\nX-Forwarded-For: 203.0.113.9\r\nAuthorization: Bearer wool\r\nHost: b\r\n\r\n"


@pytest.mark.parametrize("nginx", [debian_nginx, new_nginx], ids=["debian", "new"])
def test_what_concerns_one_connection_stays_there(nginx: Callable[[], str], tmp_path: Path) -> None:
    """Trailers, and an offer to change to HTTP/2, are not passed on; the body is (RFC 9110, 6.5.1, 7.6.1 and 7.8)."""
    head = f"POST {CONVERT} HTTP/1.1\r\nhost: a\r\ncontent-type: application/json\r\n".encode()
    upgrade = (
        b"connection: Upgrade, HTTP2-Settings\r\nupgrade: h2c\r\nhttp2-settings: AAMAAABkAAQCAAAAAAIAAAAA\r\n"
    )

    def echo(request: bytes) -> bytes:
        return b"HTTP/1.1 200 OK\r\ncontent-length: %d\r\n\r\n%b" % (len(request), request)

    with answering(echo) as port, Proxy(tmp_path, [port], binary=nginx()) as alone:
        for message in (head + CHUNKED + TRAILERS, head + upgrade + b"content-length: 2\r\n\r\n{}"):
            status, _, passed = say(alone.port, message)
            lines, _, body = passed.lower().partition(b"\r\n\r\n")
            assert (status, body) == (200, b"{}")
            names = {line.partition(b":")[0] for line in lines.splitlines()[1:]}
            assert not names & {
                b"trailer",
                b"te",
                b"upgrade",
                b"http2-settings",
                b"connection",
                b"authorization",
            }
            assert b"x-forwarded-for: 127.0.0.1" in lines.splitlines()
            assert b"host: a" in lines.splitlines()


def test_two_hosts_are_refused(proxy: Proxy) -> None:
    """A request that names two hosts is no request (RFC 9112, 3.2)."""
    message = f"GET {CONVERT} HTTP/1.1\r\nhost: a\r\nhost: b\r\n\r\n".encode()
    assert_problem(say(proxy.port, message), 400)


def test_slow_callers_are_cut_off(proxy: Proxy) -> None:
    """Half a header, dripping, and half a body, silent, are hung up on while the header could go on for 20 s."""
    with (
        socket.create_connection((HOST, proxy.port), timeout=20) as header,
        socket.create_connection((HOST, proxy.port), timeout=20) as body,
    ):
        body.sendall(wire("POST", CONVERT, more="content-length: 100\r\n") + b"{")
        with pytest.raises(ConnectionError):
            for byte in b"GET / HTTP/1.1\r\nhost: a\r\nx: " + b"a" * 100:
                header.sendall(bytes((byte,)))
                time.sleep(0.2)
        try:
            rest = body.recv(1000)
        except ConnectionResetError:
            rest = b""
        assert rest == b""


def test_replicas_are_found_by_name(tmp_path: Path) -> None:
    """The shipped site follows the name: replicas that come are asked, those that went are not."""
    port = free_port()
    addresses: list[str] = ["127.0.0.2"]

    def named(name: bytes) -> Callable[[socket.socket], None]:
        def answer(connection: socket.socket) -> None:
            connection.recv(100_000)
            connection.sendall(b"HTTP/1.1 200 OK\r\ncontent-length: 9\r\nconnection: close\r\n\r\n" + name)
            connection.close()

        return answer

    with name_server(addresses) as names, listening("127.0.0.2", port, named(b"127.0.0.2")):
        text = (NGINX_FOLDER / "site.conf").read_text()
        text = text.replace("127.0.0.11 valid=5s", f"{HOST}:{names} valid=1s").replace(":8181", f":{port}")
        text = re.sub(r"(_zone) \$\w+", r'\1 ""', text)
        with Proxy(tmp_path, [], site=text, binary=new_nginx()) as gateway:
            until(lambda: everyone(gateway.port) == {b"127.0.0.2"}, "the first is asked")
            with listening("127.0.0.3", port, named(b"127.0.0.3")):
                addresses.append("127.0.0.3")
                until(lambda: everyone(gateway.port) == {b"127.0.0.2", b"127.0.0.3"}, "both are asked")
                addresses.remove("127.0.0.2")
                until(lambda: everyone(gateway.port) == {b"127.0.0.3"}, "the first is asked no more")


def everyone(port: int) -> set[bytes]:
    """Who answers when asked a few times."""
    return {ask(port, "POST", CONVERT, b"{}")[2] for _ in range(12)}


@contextmanager
def listening(address: str, port: int, behave: Callable[[socket.socket], None]) -> Iterator[None]:
    """A server on one address of the loopback."""
    with socket.socket() as listener:
        listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        listener.bind((address, port))
        listener.listen(64)

        def accept() -> None:
            while True:
                try:
                    connection, _ = listener.accept()
                except OSError:
                    return
                threading.Thread(target=behave, args=(connection,), daemon=True).start()

        threading.Thread(target=accept, daemon=True).start()
        yield
        listener.shutdown(socket.SHUT_RDWR)


@contextmanager
def name_server(addresses: list[str]) -> Iterator[int]:
    """A server of names (RFC 1035) that has one answer to everything: these addresses, as they stand."""
    with socket.socket(type=socket.SOCK_DGRAM) as listener:
        listener.bind((HOST, 0))

        def serve() -> None:
            while True:
                try:
                    question, caller = listener.recvfrom(512)
                except OSError:
                    return
                if not question:
                    return
                wanted = list(addresses)
                head = question[:2] + struct.pack(">HHHHH", 0x8180, 1, len(wanted), 0, 0)
                records = b"".join(
                    struct.pack(">HHHIH", 0xC00C, 1, 1, 1, 4) + socket.inet_aton(address)
                    for address in wanted
                )
                listener.sendto(head + question[12 : question.index(0, 12) + 5] + records, caller)

        thread = threading.Thread(target=serve, daemon=True)
        thread.start()
        yield int(listener.getsockname()[1])
        with socket.socket(type=socket.SOCK_DGRAM) as last:
            last.sendto(b"", listener.getsockname())
        thread.join(5)
