"""The command: what a person types."""

import json
import os
import re
import signal
import socket
import subprocess
import sys
import time
from pathlib import Path

import httpx
import pytest

from roundwright import __version__
from roundwright.__main__ import main
from roundwright.knitting.answers import RULES
from roundwright.web import server
from roundwright.web.settings import Settings, flag_of, variable_of
from tests.conftest import free_port

ROOT = Path(__file__).parents[1]
ROUNDWRIGHT = [sys.executable, "-m", "roundwright"]


def test_the_document_is_written(tmp_path, capsysbinary):
    """`openapi` writes the published document, to a file or to the standard output."""
    published = json.loads((ROOT / "openapi/openapi.json").read_bytes())

    assert 0 == main(["openapi", str(tmp_path / "o.json")])
    assert published == json.loads((tmp_path / "o.json").read_bytes())
    assert 0 == main(["openapi"])
    assert published == json.loads(capsysbinary.readouterr().out)


def test_one_command_shows_what_the_service_does():
    """`try --once` prints what a class is handed, with the yarn to buy, and where the service is; nothing else."""
    run = subprocess.run(
        [*ROUNDWRIGHT, "try", "--once", str(ROOT / "examples/requests/class-hats.json")],
        capture_output=True, text=True, timeout=60, check=False,
    )  # fmt: skip

    assert 0 == run.returncode, run.stderr
    assert "Cast on" in run.stdout
    assert re.search(r"YARN TO BUY(.*\n)+Balls of their own for 14 knitters: \d+ balls", run.stdout)
    assert "/docs" in run.stdout
    assert "" == run.stderr


@pytest.mark.parametrize("body", ["{}", "not JSON"])
def test_trying_a_wrong_request_fails(body, tmp_path):
    """`try` says what the service said, and its exit status is not 0."""
    request = tmp_path / "request.json"
    request.write_text(body)
    run = subprocess.run(
        [*ROUNDWRIGHT, "try", "--once", str(request)], capture_output=True, text=True, timeout=60, check=False
    )

    assert 1 == run.returncode
    assert "400" in run.stderr
    assert "Traceback" not in run.stderr


def test_a_wrong_setting_is_said_at_the_start(monkeypatch, capsys):
    """A setting that is none stops the command with a sentence, not a traceback."""
    monkeypatch.setenv("ROUNDWRIGHT_PROT", "80")
    with pytest.raises(SystemExit) as stopped:
        main(["serve"])

    assert 2 == stopped.value.code
    assert "ROUNDWRIGHT_PROT" in capsys.readouterr().err


@pytest.mark.parametrize("words", [["serve", "--prot", "80"], ["serve", "--prot=80"]])
def test_an_unknown_flag_is_told_the_nearest(words, capsys):
    """As an unknown variable is; nothing is served."""
    with pytest.raises(SystemExit) as stopped:
        main(words)

    assert 2 == stopped.value.code
    assert "unknown argument --prot" in (message := capsys.readouterr().err)
    assert "Did you mean --port?" in message


def test_an_argument_too_much_stops_any_command(capsys):
    """Where there is no flag near to it, it is named alone."""
    with pytest.raises(SystemExit):
        main(["openapi", "openapi.json", "another.json"])

    assert "unknown argument another.json\n" in capsys.readouterr().err


def test_the_version_is_said(capsys):
    """`--version` names the release and the rules in force."""
    with pytest.raises(SystemExit) as stopped:
        main(["--version"])

    assert 0 == stopped.value.code
    assert f"roundwright {__version__}, rules {RULES}\n" == capsys.readouterr().out


def test_each_setting_has_a_flag(capsys):
    """`serve --help` has a flag for each setting, with its variable."""
    with pytest.raises(SystemExit):
        main(["serve", "--help"])
    shown = capsys.readouterr().out

    for field in Settings.__struct_fields__:
        assert flag_of(field) in shown
        assert variable_of(field) in shown


@pytest.mark.parametrize("stop", [signal.SIGINT, signal.SIGTERM])
def test_start_and_stop_have_a_line(stop):
    """A free port is named in the line of the start, flags win, and a stop is a line too, by Ctrl-C as well."""
    process = subprocess.Popen(
        [*ROUNDWRIGHT, "serve", "--port", "0", "--host", "127.0.0.1"],
        env={**os.environ, "ROUNDWRIGHT_PORT": "80"}, stderr=subprocess.PIPE, text=True,
    )  # fmt: skip
    try:
        start = json.loads(process.stderr.readline())
        assert ("start", __version__, RULES) == (start["event"], start["version"], start["rules"])
        assert 200 == httpx.get(f"{start['address']}/health/ready").status_code
        process.send_signal(stop)
        lines = process.communicate(timeout=15)[1].splitlines()
        assert ["stop"] == [json.loads(line)["event"] for line in lines]
    finally:
        process.kill()
        process.wait()


def test_nothing_listens_before_it_can_answer(monkeypatch):
    """A proxy asks another replica where it cannot connect, but waits for one that listens and is not made yet."""
    steps = []
    monkeypatch.setattr(server, "create", lambda _: steps.append("made"))
    monkeypatch.setattr(server, "listen", lambda *_: steps.append("listens") or sys.exit())
    with pytest.raises(SystemExit):
        main(["serve"])

    assert ["made", "listens"] == steps


def test_a_port_in_use_is_a_sentence(capsys):
    """A start that fails for want of a port says which, without a traceback."""
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        with pytest.raises(SystemExit) as stopped:
            main(["serve", "--port", str(port)])

    assert 2 == stopped.value.code
    assert f"port {port}: Address already in use" in capsys.readouterr().err


def test_a_stop_finishes_what_is_in_hand():
    """On SIGTERM a request that has begun is answered, then the process ends."""
    port = free_port()
    environment = {**os.environ, "ROUNDWRIGHT_PORT": str(port)}
    process = subprocess.Popen([*ROUNDWRIGHT, "serve"], env=environment, stderr=subprocess.DEVNULL)
    try:
        address = f"http://127.0.0.1:{port}"
        _wait_for(f"{address}/health/ready")

        def slowly():
            yield b'{"gauge": '
            process.send_signal(signal.SIGTERM)
            time.sleep(1)
            yield b'{"stitches": 18}}'

        answer = httpx.post(
            f"{address}/v1/gauge/convert", content=slowly(), headers={"content-type": "application/json"}
        )
        assert 200 == answer.status_code
        process.wait(timeout=15)
        with pytest.raises(httpx.ConnectError):
            httpx.get(f"{address}/health/live")
    finally:
        process.kill()
        process.wait()


def test_several_processes_may_share_the_port():
    """The factory serves under uvicorn's own command as well, in many processes, with the same lines in the log."""
    port = free_port()
    command = [
        *(sys.executable, "-m", "uvicorn", "roundwright.web.app:create", "--factory", "--workers", "2"),
        *("--http", "roundwright.web.protocol:Protocol", "--port", str(port)),
    ]
    process = subprocess.Popen(command, stderr=subprocess.PIPE, stdout=subprocess.DEVNULL, text=True)
    try:
        _wait_for(f"http://127.0.0.1:{port}/health/ready")
        assert 200 == httpx.get(f"http://127.0.0.1:{port}/v1/standards").status_code
        process.terminate()
        lines = [
            line for line in process.communicate(timeout=15)[1].splitlines() if "parent process" not in line
        ]
        assert 2 == [json.loads(line)["event"] for line in lines if line.startswith("{")].count("start")
    finally:
        process.kill()
        process.wait()


def test_a_process_about_to_stop_says_so():
    """With a drain set, SIGTERM first makes the service not ready while it still answers everything else."""
    port = free_port()
    environment = {
        **os.environ,
        "ROUNDWRIGHT_PORT": str(port),
        "ROUNDWRIGHT_DRAIN_S": "3",
    }
    process = subprocess.Popen([*ROUNDWRIGHT, "serve"], env=environment, stderr=subprocess.DEVNULL)
    try:
        address = f"http://127.0.0.1:{port}"
        _wait_for(f"{address}/health/ready")
        process.send_signal(signal.SIGTERM)
        time.sleep(1)

        not_ready = httpx.get(f"{address}/health/ready")
        assert (503, "/problems/stopping") == (not_ready.status_code, not_ready.json()["type"])
        assert 200 == httpx.get(f"{address}/v1/standards").status_code
        process.wait(timeout=15)
    finally:
        process.kill()
        process.wait()


def _wait_for(url):
    for _ in range(300):
        try:
            if httpx.get(url).status_code == 200:
                return
        except httpx.TransportError:
            pass
        time.sleep(0.1)
    pytest.fail(f"{url} does not answer")
