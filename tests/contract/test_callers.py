"""Keys: who may call, and that they are not in the way where none is set."""

from hashlib import sha256

import httpx
import msgspec
import pytest

from roundwright.__main__ import main
from roundwright.web import auth as callers
from roundwright.web import openapi
from roundwright.web.app import create
from roundwright.web.auth import KeyCheck
from roundwright.web.settings import MAX_KEYS, Settings, SettingsError
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
        assert "4XX" in operation.written["responses"]
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


def test_the_handout_of_a_plan_needs_a_key(guarded):
    """The page for people is open; what it calculates is not, by whichever address."""
    address = "/handout?gauge_stitches=20&sizes=woman"

    assert_problem(guarded.get(address), 401, "key-needed")
    assert guarded.get(address, headers=_shown(ILSE)).status_code == 200
    assert guarded.get("/", headers={"accept": "text/html"}).status_code == 200


def test_shared_caches_keep_nothing_of_a_key(guarded, service):
    """What needs a key is private to its caller; as the service ships, look-ups are public (RFC 9111, 5.2.2)."""
    assert "private" in guarded.get("/v1/standards", headers=_shown(ILSE)).headers["cache-control"]
    assert "public" in service.get("/v1/standards").headers["cache-control"]


def test_a_page_may_ask_whether_it_may_send_a_key(guarded):
    """A browser asks first, and has no key yet: it is answered, and a 401 can be read by the page."""
    origin = {"origin": "https://shop.example"}
    preflight = guarded.options("/v1/hats", headers={**origin, "access-control-request-method": "POST"})

    assert 204 == preflight.status_code
    assert "authorization" in preflight.headers["access-control-allow-headers"].lower()
    refused = guarded.post("/v1/hats", json={}, headers=origin)
    assert (401, origin["origin"]) == (refused.status_code, refused.headers["access-control-allow-origin"])


@pytest.mark.parametrize(
    ("settings", "security"),
    [(Settings(), [{}, {"key": []}]), (Settings(keys=(ILSES_LINE,)), [{"key": []}])],
    ids=["ships", "keyed"],
)
def test_the_document_says_whether_a_key_is_needed(settings, security):
    """Under `/v1` a key may be sent, so that a generated client can; where keys are asked for, it must be."""
    document = msgspec.json.decode(create(settings).document())

    assert {"http"} == {scheme["type"] for scheme in document["components"]["securitySchemes"].values()}
    for path, item in document["paths"].items():
        for written in item.values():
            assert (security if path.startswith("/v1/") else None) == written.get("security")


def test_the_document_of_a_service_with_keys_is_made_from_the_file(guarded, monkeypatch):
    """Its `/openapi.json` is the one made anew, and is not made anew for it."""
    anew = msgspec.json.decode(create(Settings(keys=(ILSES_LINE,))).document())
    monkeypatch.setattr(openapi, "document", None)

    assert anew == guarded.get("/openapi.json").json()


def test_every_key_is_compared(monkeypatch):
    """The key shown is compared with every one there is, by the comparison that takes the same time for all."""
    compared = []
    monkeypatch.setattr(callers.hmac, "compare_digest", lambda a, b: compared.append((a, b)) or a == b)
    gate = KeyCheck(Settings(keys=(ILSES_LINE, TOVIS_LINE)))

    assert "ilse" == gate.name_of(f"Bearer {ILSE}".encode())
    assert [bytes.fromhex(line[-64:]) for line in (ILSES_LINE, TOVIS_LINE)] == [kept for kept, _ in compared]


def test_keys_are_in_nothing_that_is_kept(capfd):
    """The log names whose key it was, and holds neither the key nor what is sent for one."""
    with serving(Settings(keys=(ILSES_LINE,), access_log=True)) as address:
        httpx.post(f"{address}/v1/gauge/convert", json=BODY, headers=_shown(ILSE))
        httpx.post(f"{address}/v1/gauge/convert", json=BODY, headers=_shown("slipped-stitch"))
    out = capfd.readouterr().err
    lines = [msgspec.json.decode(line) for line in out.splitlines()]
    answered, refused = (line for line in lines if line["event"] == "request")

    assert ("ilse", None) == (answered["key"], refused["key"])
    assert ILSE not in out
    assert "slipped-stitch" not in out


def test_the_command_makes_a_key(capsys):
    """`roundwright key` prints a key and its line; the line is all the service needs and does not give it away."""
    assert 0 == main(["key", "marrow"])
    key, line = capsys.readouterr().out.splitlines()[1::2]

    assert key not in line
    assert "marrow" == KeyCheck(Settings(keys=(line,))).name_of(f"Bearer {key}".encode())
    with pytest.raises(SystemExit):
        main(["key", "a name"])


@pytest.mark.parametrize("content", ["", "# none\n", ILSE, f"ilse:{ILSE}", "ilse:" + "g" * 64, b"\xff\xfe"])
def test_a_wrong_file_of_keys_is_refused(content, tmp_path):
    """A file without keys would shut everybody out, and one with unhashed keys would give them away: neither starts."""
    file = tmp_path / "keys"
    file.write_bytes(content if isinstance(content, bytes) else content.encode())
    with pytest.raises(SettingsError) as refusal:
        create(Settings(keys_file=str(file)))
    assert ILSE not in str(refusal.value)
    with pytest.raises(SettingsError):
        create(Settings(keys_file=str(tmp_path / "missing")))


def test_so_many_keys_and_no_more(tmp_path):
    """As many keys as are allowed, and not one more."""
    file = tmp_path / "keys"
    file.write_text(f"{ILSES_LINE}\n" * MAX_KEYS)
    assert MAX_KEYS == len(KeyCheck(Settings(keys_file=str(file))).keys)
    file.write_text(f"{ILSES_LINE}\n" * (MAX_KEYS + 1))
    with pytest.raises(SettingsError, match="1001"):
        KeyCheck(Settings(keys_file=str(file)))


def test_keys_are_not_in_the_way_as_it_ships(monkeypatch, service):
    """As the service ships, no request is checked at all."""
    monkeypatch.setattr(KeyCheck, "authorize", lambda *_: 1 / 0)

    assert 200 == service.post("/v1/gauge/convert", json=BODY).status_code
