"""Keys and rates: who may ask, how often, and that neither is in the way where it is not set."""

from hashlib import sha256

import httpx
import msgspec
import pytest

from roundwright.__main__ import main
from roundwright.web import auth as callers
from roundwright.web.app import create_app
from roundwright.web.auth import Gate
from roundwright.web.settings import MOST_KEYS, NoSetting, Settings
from tests.conftest import serving
from tests.contract.shape import assert_problem, listed, named

# Invented, and the same in every run: tests are named after them.
ILSE, TOVI = "quillhaven-wether-knitted-in-the-round-ilse", "quillhaven-wether-knitted-in-the-round-tovi"
ILSES_LINE, TOVIS_LINE = (f"{key[-4:]}:{sha256(key.encode()).hexdigest()}" for key in (ILSE, TOVI))
BODY = {"gauge": {"stitches": 18.0}}


def _shown(key):
    return {"authorization": f"Bearer {key}"}


@pytest.fixture(scope="module")
def guarded(tmp_path_factory):
    """A service with a key in the environment and another in a file."""
    file = tmp_path_factory.mktemp("keys") / "keys"
    file.write_text(f"# of the class\n\n{TOVIS_LINE}\n")
    settings = Settings(keys=(ILSES_LINE,), keys_file=str(file), cors_origins=("https://shop.example",))
    with serving(settings) as address, httpx.Client(base_url=address) as client:
        yield client


@pytest.mark.parametrize("operation", listed(), ids=named)
def test_a_key_is_asked_for_where_something_is_calculated(operation, guarded):
    """Without a key every operation under `/v1` says 401 and how one is sent (RFC 9110, 15.5.2); the rest answers."""
    if operation.path.startswith("/v1/"):
        refused = operation.ask(guarded)
        assert_problem(refused, 401, "key-needed")
        assert 'Bearer realm="roundwright"' == refused.headers["www-authenticate"]
        assert {"401", "429"} <= set(operation.written["responses"])
        assert 200 == operation.ask(guarded, headers=_shown(ILSE)).status_code
    else:
        assert 200 == operation.ask(guarded).status_code


@pytest.mark.parametrize("path", ["/docs", "/openapi.json", "/metrics", "/problems/key-needed"])
def test_what_the_service_says_of_itself_needs_no_key(path, guarded):
    """Reference, description, counts and the pages of problems are for everybody."""
    assert 200 == guarded.get(path).status_code


@pytest.mark.parametrize("key", [ILSE, TOVI])
@pytest.mark.parametrize("scheme", ["Bearer", "bearer", "BEARER"])
def test_each_key_opens(scheme, key, guarded):
    """Several keys hold at once, so that one can be replaced by another; schemes have no case (RFC 9110, 11.1)."""
    headers = {"authorization": f"{scheme} {key}"}
    assert 200 == guarded.post("/v1/gauge/convert", json=BODY, headers=headers).status_code


@pytest.mark.parametrize(
    "shown",
    [
        "", "Bearer", f"Bearer {ILSE[:-1]}", f"Bearer {ILSE}x", f"Bearer {ILSE} {ILSE}", f"Basic {ILSE}",
        ILSE, f"Bearer {ILSES_LINE}", f"Bearer {ILSES_LINE.partition(':')[2]}", "Bearer " + "x" * 900,
    ],
)  # fmt: skip
def test_another_key_does_not_open(shown, guarded):
    """A key cut short, drawn out, sent otherwise, or its hash: none of them opens, and the challenge says so."""
    refused = guarded.post("/v1/gauge/convert", json=BODY, headers={"authorization": shown})

    assert_problem(refused, 401, "key-needed")
    assert 'Bearer realm="roundwright", error="invalid_token"' == refused.headers["www-authenticate"]


def test_nothing_is_told_without_a_key(guarded):
    """Without a key, what is there and what is not look the same."""
    assert_problem(guarded.get("/v1/nothing"), 401, "key-needed")
    assert_problem(guarded.get("/v1/nothing", headers=_shown(ILSE)), 404, "not-found")


def test_shared_caches_keep_nothing_of_a_key(guarded, service):
    """What needs a key is private to its caller; as the service ships, look-ups are public (RFC 9111, 5.2.2)."""
    assert "private" in guarded.get("/v1/standards", headers=_shown(ILSE)).headers["cache-control"]
    assert "public" in service.get("/v1/standards").headers["cache-control"]


def test_a_page_may_ask_whether_it_may_send_a_key(guarded):
    """A browser asks first, and has no key yet: it is answered, and a 401 can be read by the page."""
    origin = {"origin": "https://shop.example"}
    asked = guarded.options("/v1/hats", headers={**origin, "access-control-request-method": "POST"})

    assert 204 == asked.status_code
    assert "authorization" in asked.headers["access-control-allow-headers"].lower()
    refused = guarded.post("/v1/hats", json={}, headers=origin)
    assert (401, origin["origin"]) == (refused.status_code, refused.headers["access-control-allow-origin"])


def test_the_document_says_that_a_key_is_needed():
    """Where keys are asked for, each operation under `/v1` says so; as the service ships, none does."""
    keyed = msgspec.json.decode(create_app(Settings(keys=(ILSES_LINE,))).document())
    plain = msgspec.json.decode(create_app(Settings()).document())

    assert {"http"} == {one["type"] for one in keyed["components"]["securitySchemes"].values()}
    for path, item in keyed["paths"].items():
        for written in item.values():
            assert path.startswith("/v1/") == ("security" in written)
    assert "security" not in str([list(item.values()) for item in plain["paths"].values()])
    assert "securitySchemes" not in plain["components"]


def test_every_key_is_compared(monkeypatch):
    """The key shown is compared with every one there is, by the comparison that takes the same time for all."""
    compared = []
    monkeypatch.setattr(callers.hmac, "compare_digest", lambda a, b: compared.append((a, b)) or a == b)
    gate = Gate(Settings(keys=(ILSES_LINE, TOVIS_LINE)))

    assert "ilse" == gate.name_of(f"Bearer {ILSE}".encode())
    assert [bytes.fromhex(line[-64:]) for line in (ILSES_LINE, TOVIS_LINE)] == [kept for kept, _ in compared]


def test_keys_are_in_nothing_that_is_kept(capfd):
    """The log names whose key it was, and holds neither the key nor what is sent for one."""
    with serving(Settings(keys=(ILSES_LINE,), access_log=True)) as address:
        httpx.post(f"{address}/v1/gauge/convert", json=BODY, headers=_shown(ILSE))
        httpx.post(f"{address}/v1/gauge/convert", json=BODY, headers=_shown("slipped-stitch"))
    out = capfd.readouterr().err
    answered, refused = (msgspec.json.decode(line) for line in out.splitlines())

    assert ("ilse", None) == (answered["key"], refused["key"])
    assert ILSE not in out
    assert "slipped-stitch" not in out


def test_the_command_makes_a_key(capsys):
    """`roundwright key` prints a key and its line; the line is all the service needs and does not give it away."""
    assert 0 == main(["key", "marrow"])
    key, line = capsys.readouterr().out.splitlines()[1::2]

    assert key not in line
    assert "marrow" == Gate(Settings(keys=(line,))).name_of(f"Bearer {key}".encode())
    with pytest.raises(SystemExit):
        main(["key", "a name"])


@pytest.mark.parametrize("content", ["", "# none\n", ILSE, f"ilse:{ILSE}", "ilse:" + "g" * 64, b"\xff\xfe"])
def test_a_wrong_file_of_keys_is_refused(content, tmp_path):
    """A file without keys would shut everybody out, and one with unhashed keys would give them away: neither starts."""
    file = tmp_path / "keys"
    file.write_bytes(content if isinstance(content, bytes) else content.encode())
    with pytest.raises(NoSetting) as said:
        create_app(Settings(keys_file=str(file)))
    assert ILSE not in str(said.value)
    with pytest.raises(NoSetting):
        create_app(Settings(keys_file=str(tmp_path / "missing")))


def test_so_many_keys_and_no_more(tmp_path):
    """As many keys as are allowed, and not one more."""
    file = tmp_path / "keys"
    file.write_text(f"{ILSES_LINE}\n" * MOST_KEYS)
    assert MOST_KEYS == len(Gate(Settings(keys_file=str(file))).keys)
    file.write_text(f"{ILSES_LINE}\n" * (MOST_KEYS + 1))
    with pytest.raises(NoSetting, match="1001"):
        Gate(Settings(keys_file=str(file)))


# How often.


@pytest.fixture
def clock(monkeypatch):
    """A clock that stands until it is moved."""
    now = [1_000.0]
    monkeypatch.setattr(callers, "monotonic", lambda: now[0])
    return now


def _asks(gate, address="192.0.2.1", path="/v1/hats", **headers):
    """The status a caller gets from the gate, and the seconds it is told to wait."""
    lines = [(name.replace("_", "-").encode(), value.encode()) for name, value in headers.items()]
    scope = {"client": (address, 1) if address else None, "path": path, "headers": lines, "state": {}}
    try:
        gate.admit(scope, dict(lines))
    except callers.Refusal as refusal:
        return refusal.slug, int(dict(refusal.headers).get(b"retry-after", 0))
    return "ok", 0


def test_a_burst_and_no_more(clock):
    """After a rest a caller may ask as often as the burst says, then once an interval; the wait told is enough."""
    gate = Gate(Settings(rate_per_minute=30, rate_burst=5))

    assert ["ok"] * 5 == [_asks(gate)[0] for _ in range(5)]
    assert ("too-many-requests", 2) == _asks(gate)
    clock[0] += 1.9
    assert ("too-many-requests", 1) == _asks(gate)
    clock[0] += 0.1
    assert ["ok", "too-many-requests"] == [_asks(gate)[0] for _ in range(2)]
    clock[0] += 3_600
    assert ["ok"] * 5 + ["too-many-requests"] == [_asks(gate)[0] for _ in range(6)]


def test_a_burst_of_one(clock):
    """The smallest burst and rate: one request a minute."""
    gate = Gate(Settings(rate_per_minute=1, rate_burst=1))

    assert [("ok", 0), ("too-many-requests", 60)] == [_asks(gate) for _ in range(2)]
    clock[0] += 60
    assert ("ok", 0) == _asks(gate)


def test_each_caller_has_its_own_rate(clock):
    """Addresses are counted apart, an IPv6 household as one; a caller with a key by the key, wherever it asks from."""
    gate = Gate(Settings(rate_per_minute=1, rate_burst=1, keys=(ILSES_LINE, TOVIS_LINE)))

    assert "ok" == _asks(gate, "192.0.2.1", authorization=f"Bearer {ILSE}")[0]
    assert "too-many-requests" == _asks(gate, "192.0.2.2", authorization=f"Bearer {ILSE}")[0]
    assert "ok" == _asks(gate, "192.0.2.2", authorization=f"Bearer {TOVI}")[0]
    open_to_all = Gate(Settings(rate_per_minute=1, rate_burst=1))
    asked = ["192.0.2.1", "192.0.2.2", "192.0.2.1", "2001:db8::1", "2001:db8::ffff", "2001:db8:0:1::1", None]
    assert ["ok", "ok", "too-many-requests", "ok", "too-many-requests", "ok", "ok"] == [
        _asks(open_to_all, one)[0] for one in asked
    ]


def test_keys_cannot_be_tried_without_end(clock):
    """Wrong keys count for the address they come from."""
    gate = Gate(Settings(rate_per_minute=1, rate_burst=2, keys=(ILSES_LINE,)))
    tried = [_asks(gate, authorization=f"Bearer {number}")[0] for number in range(3)]

    assert ["key-needed", "key-needed", "too-many-requests"] == tried


def test_health_may_always_be_asked(clock):
    """Probes are never told to wait."""
    gate = Gate(Settings(rate_per_minute=1, rate_burst=1))

    assert ["ok"] * 9 == [_asks(gate, path="/health/ready")[0] for _ in range(9)]


def test_the_table_of_callers_is_bounded(clock):
    """A stream of strangers takes no more memory than is set, and the one longest unseen is forgotten."""
    gate = Gate(Settings(rate_per_minute=1, rate_burst=2, rate_callers=3))
    for number in range(1_000):
        assert "ok" == _asks(gate, f"192.0.{number // 250}.{number % 250}")[0]
        assert len(gate.rate.due) <= 3
    for _ in range(2):
        _asks(gate, "198.51.100.1")
    assert "too-many-requests" == _asks(gate, "198.51.100.1")[0]
    for number in range(3):
        _asks(gate, f"203.0.113.{number}")
    assert "ok" == _asks(gate, "198.51.100.1")[0]


@pytest.mark.parametrize(
    ("trusted", "connected", "forwarded", "caller"),
    [
        ((), "10.0.0.1", "192.0.2.7", "10.0.0.1"),  # nobody is believed unless it is said
        (("10.0.0.0/8",), "10.0.0.1", "192.0.2.7", "192.0.2.7"),
        (("10.0.0.1",), "10.0.0.2", "192.0.2.7", "10.0.0.2"),  # not from the proxy
        (
            ("10.0.0.0/8",),
            "10.0.0.1",
            "198.51.100.9, 192.0.2.7",
            "192.0.2.7",
        ),  # what the caller made up comes first
        (("10.0.0.0/8",), "10.0.0.1", "192.0.2.7, 10.0.0.2", "192.0.2.7"),  # two proxies
        (("10.0.0.0/8",), "10.0.0.1", "10.0.0.3, 10.0.0.2", "10.0.0.3"),  # called from inside
        (("10.0.0.0/8",), "10.0.0.1", "wool", "10.0.0.1"),
        (("10.0.0.0/8",), "10.0.0.1", "192.0.2.7, wool", "10.0.0.1"),
        (("10.0.0.0/8",), "10.0.0.1", "", "10.0.0.1"),
        (("2001:db8::/32",), "2001:db8::1", "192.0.2.7", "192.0.2.7"),
        (("10.0.0.0/8",), "::ffff:10.0.0.1", "192.0.2.7", "192.0.2.7"),
        (("10.0.0.0/8",), None, "192.0.2.7", None),
    ],
)
def test_the_caller_behind_a_proxy(trusted, connected, forwarded, caller):
    """`X-Forwarded-For` is read from its end for as long as each is a proxy that is believed, and no further."""
    gate = Gate(Settings(trusted_proxies=trusted))
    client = (connected, 1) if connected else None
    scope = {"client": client, "headers": [(b"x-forwarded-for", forwarded.encode())]}

    assert caller == gate.address_of(scope)


@pytest.mark.parametrize("proxy", ["wool", "10.0.0.0/33", "10.0.0.1/8"])
def test_a_wrong_proxy_is_refused(proxy):
    """What is neither an address nor a network is said at the start."""
    with pytest.raises(NoSetting, match="trusted_proxies"):
        create_app(Settings(trusted_proxies=(proxy,)))


def test_a_caller_is_told_to_wait():
    """Over HTTP: 429 (RFC 6585, 4) as a problem, with when to come back; health goes on."""
    with serving(Settings(rate_per_minute=1, rate_burst=2)) as address:
        asked = [httpx.post(f"{address}/v1/gauge/convert", json=BODY) for _ in range(3)]

        assert [200, 200, 429] == [one.status_code for one in asked]
        assert_problem(asked[2], 429, "too-many-requests")
        assert 1 <= int(asked[2].headers["retry-after"]) <= 60
        assert 200 == httpx.get(f"{address}/health/ready").status_code


def test_neither_is_in_the_way_as_it_ships(monkeypatch, service):
    """As the service ships, no request passes the gate at all."""
    monkeypatch.setattr(Gate, "admit", lambda *_: 1 / 0)

    assert 200 == service.post("/v1/gauge/convert", json=BODY).status_code
