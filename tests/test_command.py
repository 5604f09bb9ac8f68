"""The command: what a person types."""

import json
import os
import re
import signal
import subprocess
import sys
import time
from pathlib import Path

import httpx
import pytest

from roundwright.__main__ import main
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
    """`try --once` prints the pattern of the class's hats, the yarn to buy and where the service is."""
    run = subprocess.run(
        [*ROUNDWRIGHT, "try", "--once", str(ROOT / "examples/requests/class-hats.json")],
        capture_output=True, text=True, timeout=60, check=False,
    )  # fmt: skip

    assert 0 == run.returncode, run.stderr
    assert "Cast on" in run.stdout
    assert re.search(r"YARN TO BUY(.*\n)+In all: \d+ balls", run.stdout)
    assert "/docs" in run.stdout


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
    """The factory serves under uvicorn's own command as well, in as many processes as it is told, and stops."""
    port = free_port()
    command = [
        *(sys.executable, "-m", "uvicorn", "roundwright.web.app:create", "--factory", "--workers", "2"),
        *("--http", "roundwright.web.protocol:Protocol", "--port", str(port)),
    ]
    process = subprocess.Popen(command, stderr=subprocess.DEVNULL, stdout=subprocess.DEVNULL)
    try:
        _wait_for(f"http://127.0.0.1:{port}/health/ready")
        assert 200 == httpx.get(f"http://127.0.0.1:{port}/v1/standards").status_code
        process.terminate()
        process.wait(timeout=15)
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
