"""Errors below the application: what is no HTTP, or too much of it, gets a problem detail too."""

import json
import socket
import sys
import time
from contextlib import suppress

import httpx
import pytest

from roundwright.web.problems import PROBLEM_TYPES
from roundwright.web.protocol import MAX_PIPELINED
from roundwright.web.settings import Settings
from tests.conftest import serving

POST = b"POST /v1/gauge/convert HTTP/1.1\r\nHost: a\r\nContent-Type: application/json\r\n"
MESSAGES = {
    "bytes that mean nothing": b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03\r\n\r\n",
    "words that mean nothing": b"knit one purl one\r\n\r\n",
    "another protocol": b"PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n",
    "an unknown version": b"GET / HTTP/9.9\r\nHost: a\r\n\r\n",
    "a method in small letters": b"get / HTTP/1.1\r\nHost: a\r\n\r\n",
    "an unknown method": b"KNIT / HTTP/1.1\r\nHost: a\r\n\r\n",
    "two hosts": b"GET /health/live HTTP/1.1\r\nHost: a\r\nHost: b\r\n\r\n",
    "two hosts, of the old protocol": b"GET /health/live HTTP/1.0\r\nHost: a\r\nHost: b\r\n\r\n",
    "no host": b"GET /health/live HTTP/1.1\r\n\r\n",
    "a length that is no number": POST + b"Content-Length: ten\r\n\r\n",
    "a length below nothing": POST + b"Content-Length: -1\r\n\r\n",
    "two lengths": POST + b"Content-Length: 1\r\nContent-Length: 2\r\n\r\nxx",
    "a length and chunks": POST + b"Content-Length: 3\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n",
    "a chunk without a size": POST + b"Transfer-Encoding: chunked\r\n\r\nxyz\r\n",
    "a header line without a colon": b"GET / HTTP/1.1\r\nHost: a\r\nwool\r\n\r\n",
    "a name with a space": b"GET / HTTP/1.1\r\nHost: a\r\nred wool: 1\r\n\r\n",
    "a NUL in a value": b"GET / HTTP/1.1\r\nHost: a\r\nWool: \x00\r\n\r\n",
    "a target that is no path": b"GET wool HTTP/1.1\r\nHost: a\r\n\r\n",
}
TOO_LONG = {
    "a long value": b"GET / HTTP/1.1\r\nHost: a\r\nWool: " + b"w" * 20_000 + b"\r\n\r\n",
    "a long target": b"GET /" + b"w" * 20_000 + b" HTTP/1.1\r\nHost: a\r\n\r\n",
    "many lines": b"GET / HTTP/1.1\r\nHost: a\r\n" + b"Wool: red\r\n" * 3_000 + b"\r\n",
    "a value of 5 MB": b"GET / HTTP/1.1\r\nHost: a\r\nWool: " + b"w" * 5_000_000,
}


def _answer(address: str, message: bytes) -> tuple[int, dict[str, str], bytes]:
    """What the service says to some bytes."""
    url = httpx.URL(address)
    with socket.create_connection((url.host, url.port), timeout=10) as connection:
        received = b""
        with suppress(ConnectionResetError, BrokenPipeError):
            connection.sendall(message)
        with suppress(ConnectionResetError):
            while part := connection.recv(65_536):
                received += part
    head, _, content = received.partition(b"\r\n\r\n")
    status, *lines = head.decode().split("\r\n")
    headers = dict(line.lower().split(": ", 1) for line in lines)
    return int(status.split()[1]), headers, content


def _assert_problem(address: str, message: bytes, slug: str) -> None:
    status, headers, content = _answer(address, message)
    kind = PROBLEM_TYPES[slug]
    problem = json.loads(content)
    assert (kind.status, "application/problem+json") == (status, headers["content-type"])
    assert (f"/problems/{slug}", kind.title, kind.status) == (
        problem["type"],
        problem["title"],
        problem["status"],
    )
    assert len(content) == int(headers["content-length"])
    assert "close" == headers["connection"]
    assert ("no-store", "nosniff") == (headers["cache-control"], headers["x-content-type-options"])
    assert "vary" not in headers
    assert headers["request-id"]
    assert headers["rules-version"]
    assert "server" not in headers


@pytest.mark.parametrize("message", MESSAGES.values(), ids=MESSAGES.keys())
def test_what_is_no_http_is_refused(message, address):
    """Bytes that are no request get 400 as a problem detail, and the connection is closed."""
    _assert_problem(address, message, "bad-message")


def test_what_is_no_http_is_counted():
    """Refusals below the application are counted too, all under one label."""
    with serving(Settings()) as address:
        for message in list(MESSAGES.values())[:3]:
            _answer(address, message)
        counts = httpx.get(f"{address}/metrics").text

    labels = 'http_request_method="_OTHER",http_response_status_code="400",http_route=""'
    assert f"http_server_request_duration_seconds_count{{{labels}}} 3.0" in counts


@pytest.mark.parametrize("message", [message for name, message in TOO_LONG.items() if "MB" not in name])
def test_a_long_header_is_refused(message, address):
    """A header over the limit gets 431 (RFC 6585, 5) before it is read to its end."""
    _assert_problem(address, message, "header-too-large")


def test_an_endless_header_is_cut_off(address):
    """A header that goes on and on is not kept in memory: the connection is closed."""
    try:
        status, _, _ = _answer(address, TOO_LONG["a value of 5 MB"])
    except (IndexError, ValueError):  # closed before the answer could be read
        return
    assert 431 == status


@pytest.mark.parametrize("begun", [b"GET / HTTP/1.1\r\nHost: a\r\n", POST + b"Content-Length: 9\r\n\r\n{"])
def test_a_slow_caller_is_not_waited_for(begun):
    """A request that does not come to its end in time gets 408 (RFC 9110, 15.5.9), in its header or in its body."""
    with serving(Settings(receive_s=1)) as address:
        _assert_problem(address, begun, "too-slow")
        assert 200 == httpx.get(f"{address}/health/live").status_code


def test_a_caller_who_never_speaks_is_not_kept():
    """A connection on which no request ever began is closed like one that idles after a request."""
    with serving(Settings(keep_alive_s=1)) as address:
        url = httpx.URL(address)
        with socket.create_connection((url.host, url.port), timeout=10) as silent:
            assert b"" == silent.recv(1)


def test_http_1_0_needs_no_host(address):
    """A caller of the old protocol is answered (RFC 9112, 3.2 asks for the host from 1.1 on)."""
    status, _, content = _answer(address, b"GET /health/live HTTP/1.0\r\n\r\n")

    assert (200, b'{"status":"ok"}') == (status, content)


def test_too_many_requests_at_once_are_refused():
    """Beyond the limit a request is refused at once with 503 and when to come back; the others are answered.

    Readiness is refused with them, so that the replica is left alone; liveness answers, so that it is not restarted.
    """
    begun = POST + b"Content-Length: 29\r\n\r\n"
    with serving(Settings(concurrency=2, retry_after_s=3)) as address:
        url = httpx.URL(address)
        waiting = [socket.create_connection((url.host, url.port), timeout=10) for _ in range(2)]
        for connection in waiting:
            connection.sendall(begun)
        # Those two are in hand once a third, which is whole, is turned away.
        for _ in range(100):
            refused = httpx.get(f"{address}/health/ready")
            if refused.status_code == 503:
                break
        assert 503 == refused.status_code
        assert "3" == refused.headers["retry-after"]
        assert "/problems/overloaded" == refused.json()["type"]
        assert 200 == httpx.get(f"{address}/health/live").status_code
        for connection in waiting:
            connection.sendall(b'{"gauge": {"stitches": 18.0}}')
            assert connection.recv(65_536).startswith(b"HTTP/1.1 200")
            connection.close()
        assert 200 == httpx.get(f"{address}/health/ready").status_code


def test_an_answer_is_not_taken_for_another(address):
    """What goes wrong with a message is never said in place of the answer to the request before it."""
    _, _, content = _answer(address, b"GET /health/live HTTP/1.1\r\nHost: a\r\n\r\nknit one purl one\r\n\r\n")

    assert b'{"status":"ok"}' == content


def test_requests_may_follow_each_other_without_waiting(address):
    """Requests sent on one connection before the first is answered are answered in their order."""
    url = httpx.URL(address)
    request = b"GET /health/live HTTP/1.1\r\nHost: a\r\n\r\n" * 2
    last = b"GET /nothing HTTP/1.1\r\nHost: a\r\nConnection: close\r\n\r\n"
    with socket.create_connection((url.host, url.port), timeout=10) as connection:
        connection.sendall(request + last)
        received = b""
        while part := connection.recv(65_536):
            received += part

    assert [b"200", b"200", b"404"] == [part[1:4] for part in received.split(b"HTTP/1.1")[1:]]


def test_an_answer_comes_whole(address):
    """Header and body come in one packet: a process that dies sends an answer or none, never one past repeating."""
    url = httpx.URL(address)
    body = b'{"gauge":{"stitches":22,"rows":30,"over":{"value":10,"unit":"cm"}}}'
    request = POST + b"Content-Length: %d\r\n\r\n" % len(body) + body
    with socket.create_connection((url.host, url.port), timeout=10) as connection:
        for number in range(1, 20):
            connection.sendall(request)
            answer = b""
            while not answer.endswith(b"}"):
                answer += connection.recv(65_536)
            # `tcpi_data_segs_in` of Linux's `struct tcp_info`: packets with data that came in.
            information = connection.getsockopt(socket.IPPROTO_TCP, socket.TCP_INFO, 160)
            assert int.from_bytes(information[152:156], sys.byteorder) == number


BODY = b'{"gauge":{"stitches":22}}'


H2C = b"Connection: Upgrade, HTTP2-Settings\r\nUpgrade: h2c\r\nHTTP2-Settings: AAMAAABk\r\n"


def test_an_upgrade_is_ignored(address):
    """A caller that offers HTTP/2 by `Upgrade`, as some do, is answered over HTTP/1.1."""
    status, _, _ = _answer(address, b"GET /v1/standards HTTP/1.0\r\nHost: a\r\n" + H2C + b"\r\n")

    assert 200 == status


def test_a_body_behind_an_upgrade_is_refused(address):
    """Such a body is never lost in silence, nor read as the next request; the proxy takes the offer away."""
    _assert_problem(address, POST + H2C + b"Content-Length: %d\r\n\r\n" % len(BODY) + BODY, "bad-message")


def test_a_trailer_is_no_header(address):
    """What comes after the last chunk never counts as a header (RFC 9110, 6.5.1): here it would be a media type."""
    head = (
        POST.replace(b"Content-Type: application/json\r\n", b"")
        + b"Transfer-Encoding: chunked\r\nConnection: close\r\n\r\n"
    )
    chunks = b"%x\r\n%b\r\n0\r\nContent-Type: application/json\r\n\r\n" % (len(BODY), BODY)
    status, _, _ = _answer(address, head + chunks)

    assert 415 == status


def test_a_connection_that_sends_a_blank_line_keeps_its_timers():
    """A line break between requests is allowed (RFC 9112, 2.2), and buys no time: before a request and after one."""
    first = b"GET /health/live HTTP/1.1\r\nHost: a\r\n\r\n"
    with serving(Settings(keep_alive_s=1)) as address:
        url = httpx.URL(address)
        for begun in (b"\r\n", first + b"\r\n"):
            with socket.create_connection((url.host, url.port), timeout=10) as connection:
                connection.sendall(begun)
                time.sleep(0.3)
                connection.sendall(b"\r\n")
                while connection.recv(65_536):  # until it is closed; a timeout fails
                    pass


def test_the_limit_of_the_header_does_not_depend_on_packets(address):
    """A header just below the limit is read, one just above is refused, however it is cut into packets."""
    start, end = b"GET /health/live HTTP/1.1\r\nHost: a\r\nConnection: close\r\n", b"\r\n"
    counted = len("/health/liveHostaConnectioncloseWool")
    url = httpx.URL(address)
    for extra, status in ((0, 200), (1, 431)):
        header = start + b"Wool: " + b"w" * (16_384 - counted + extra) + b"\r\n" + end
        for size in (100_000, 9_000, 1_400):
            with socket.create_connection((url.host, url.port), timeout=10) as connection:
                connection.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
                for at in range(0, len(header), size):
                    connection.sendall(header[at : at + size])
                    time.sleep(0.005)
                assert status == int(connection.recv(65_536).split()[1]), size


def test_requests_that_wait_on_a_connection_are_bounded(address):
    """Thousands of requests in one packet are not all kept: those before the limit are answered, then it is closed."""
    request = b"GET /v1/standards HTTP/1.1\r\nHost: a\r\n\r\n"
    _, _, received = _answer(address, request * 4_000)

    assert 0 < received.count(b"HTTP/1.1 200") <= MAX_PIPELINED + 1
