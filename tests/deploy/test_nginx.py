"""The proxy as configured, run for real before a replica, before strange servers, and before none."""

import http.client
import json
import re
import socket
import struct
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from roundwright.problems import KINDS
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
    with Replica() as one:
        yield one


@pytest.fixture(scope="module", params=[debian_nginx, new_nginx], ids=["debian", "new"])
def proxy(
    request: pytest.FixtureRequest, replica: Replica, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Proxy]:
    """The proxy before that replica: Debian's nginx, and one as new as the image that is deployed."""
    with Proxy(tmp_path_factory.mktemp("proxy"), [replica.port], binary=request.param()) as one:
        yield one


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
    assert headers["vary"] == "Origin"
    assert re.fullmatch(r"[A-Za-z0-9._:-]{1,128}", headers["request-id"])
    problem = json.loads(body)
    assert list(problem) == ["type", "title", "status", "detail", "instance", "errors"]
    assert problem["status"] == status
    if instance is not None:
        assert problem["instance"] == instance
    if problem["type"] == "about:blank":  # RFC 9457, 4.2.1: the title is then the phrase of the status
        assert problem["title"] == PHRASES[status]
        assert all(kind.status != status for kind in KINDS.values())
    else:
        kind = KINDS[problem["type"].removeprefix("/problems/")]
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


def test_a_replica_that_hangs_is_a_problem(tmp_path: Path) -> None:
    """Where nothing comes back the answer is 504, and it comes within the time allowed for retries."""
    with (
        server(lambda connection: time.sleep(30) or connection.close()) as port,  # type: ignore[func-returns-value]
        Proxy(tmp_path, [port], binary=debian_nginx()) as alone,
    ):
        started = time.monotonic()
        assert_problem(ask(alone.port, "GET", "/v1/standards"), 504, "/v1/standards")
        assert time.monotonic() - started < 9


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
    """A POST that one replica drops, cuts short in the header or answers with 503 is answered by another."""

    def drop(connection: socket.socket) -> None:
        connection.recv(100_000)
        connection.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))
        connection.close()

    def cut(connection: socket.socket) -> None:
        connection.recv(100_000)
        connection.sendall(b"HTTP/1.1 200 OK\r\ncontent-type: application/json\r\ncont")
        connection.close()

    def overloaded(connection: socket.socket) -> None:
        connection.recv(100_000)
        connection.sendall(
            b"HTTP/1.1 503 Service Unavailable\r\ncontent-length: 0\r\nconnection: close\r\n\r\n"
        )
        connection.close()

    call = convert_call()
    for number, behaviour in enumerate((drop, cut, overloaded)):
        with (
            server(behaviour) as port,
            Proxy(tmp_path / str(number), [port, replica.port, free_port()], binary=debian_nginx()) as one,
        ):
            for _ in range(20):
                assert ask(one.port, "POST", CONVERT, body_of(call))[::2] == (200, call.expected)
            assert one.saved() > 0


def test_lookups_are_kept(proxy: Proxy) -> None:
    """A look-up is answered by the proxy the second time, 304 for its ETag, for HEAD as well; other origins apart."""
    path = "/v1/standards/needle-sizes"
    first = ask(proxy.port, "GET", path)
    again = ask(proxy.port, "GET", path)
    assert first[1]["cache-status"] == "roundwright-proxy; fwd=miss"
    assert again[1]["cache-status"] == "roundwright-proxy; hit"
    assert again[2] == first[2]
    assert again[1]["etag"] == first[1]["etag"]
    assert again[1]["request-id"] != first[1]["request-id"]
    unchanged = ask(proxy.port, "GET", path, headers={"if-none-match": first[1]["etag"]})
    assert (unchanged[0], unchanged[2]) == (304, b"")
    assert unchanged[1]["etag"] == first[1]["etag"]
    head = ask(proxy.port, "HEAD", path)
    assert (head[0], head[1]["cache-status"], head[2]) == (200, "roundwright-proxy; hit", b"")
    elsewhere = ask(proxy.port, "GET", path, headers={"origin": "https://other.example"})
    assert elsewhere[1]["cache-status"] == "roundwright-proxy; fwd=miss"


def test_calculations_are_not_kept(proxy: Proxy) -> None:
    """Two bodies to one address get two answers; nothing said to be no-store is kept."""
    calls = [call for call in good_calls() if call.name == f"POST {CONVERT}"][:2]
    for call in (*calls, *calls):
        _, headers, body = ask(proxy.port, "POST", CONVERT, body_of(call))
        assert body == call.expected
        assert "hit" not in headers.get("cache-status", "")
    for _ in range(2):
        assert "hit" not in ask(proxy.port, "GET", "/health/ready")[1].get("cache-status", "")


def test_coded_answers_have_a_weak_tag(proxy: Proxy) -> None:
    """A gzipped answer does not carry the strong ETag of the plain one, and its own gets 304 (RFC 9110, 8.8.3)."""
    path = "/v1/standards/abbreviations"
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
    """An address that holds a hundred unfinished requests open gets 429 for the next."""
    with Proxy(tmp_path, [replica.port], limited=True, binary=debian_nginx()) as limited:
        held = [socket.create_connection((HOST, limited.port)) for _ in range(100)]
        try:
            for one in held:
                one.sendall(wire("POST", CONVERT, more="content-length: 100\r\n"))
            time.sleep(2.5)  # and the rate's burst has passed
            assert_problem(ask(limited.port, "GET", "/health/live"), 429)
        finally:
            for one in held:
                one.close()


def test_slow_callers_are_cut_off(proxy: Proxy) -> None:
    """Half a header, dripping, and half a body, silent, are hung up on after 5 s."""
    with (
        socket.create_connection((HOST, proxy.port), timeout=20) as header,
        socket.create_connection((HOST, proxy.port), timeout=20) as body,
    ):
        body.sendall(wire("POST", CONVERT, more="content-length: 100\r\n") + b"{")
        started = time.monotonic()
        for byte in b"GET / HTTP/1.1\r\nhost: a\r\nx: " + b"a" * 100:
            try:
                header.sendall(bytes((byte,)))
            except OSError:
                break
            time.sleep(0.2)
        assert 4 < time.monotonic() - started < 8
        try:
            rest = body.recv(1000)
        except ConnectionResetError:
            rest = b""
        assert rest == b""
        assert time.monotonic() - started < 8


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
        text = text.replace("$binary_remote_addr", '""')
        with Proxy(tmp_path, [], site=text, binary=new_nginx()) as one:
            until(lambda: everyone(one.port) == {b"127.0.0.2"}, "the first is asked")
            with listening("127.0.0.3", port, named(b"127.0.0.3")):
                addresses.append("127.0.0.3")
                until(lambda: everyone(one.port) == {b"127.0.0.2", b"127.0.0.3"}, "both are asked")
                addresses.remove("127.0.0.2")
                until(lambda: everyone(one.port) == {b"127.0.0.3"}, "the first is asked no more")


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
