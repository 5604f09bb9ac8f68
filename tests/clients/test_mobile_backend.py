"""The TypeScript example: its types come from the document, it compiles under `strict`, and serves a telephone."""

import json
import os
import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path

import httpx
import pytest

from tests.conftest import free_port
from tests.contract.shape import document
from tests.support.needed import BACKEND, command, node_module


@pytest.fixture(scope="module")
def built(tmp_path_factory) -> Path:
    """The example, copied and built from the document as it is now, by the commands of its package.json."""
    node_module("openapi-fetch", BACKEND)
    folder = tmp_path_factory.mktemp("work") / "examples/mobile-backend"
    shutil.copytree(
        BACKEND, folder, ignore=shutil.ignore_patterns("node_modules", "dist", "roundwright.d.ts")
    )
    (folder / "node_modules").symlink_to(BACKEND / "node_modules")
    (folder / "../../openapi").resolve().mkdir()
    (folder / "../../openapi/openapi.json").resolve().write_text(json.dumps(document()))
    process = subprocess.run(
        [command("npm"), "run", "--silent", "build"], cwd=folder, capture_output=True, text=True, check=False
    )
    assert 0 == process.returncode, process.stdout + process.stderr
    assert '"strict": true' in (folder / "tsconfig.json").read_text()
    return folder


@pytest.fixture
def backend(built, request) -> Iterator[httpx.Client]:
    """The backend, running before the service as it ships, or the address that is the test's parameter."""
    service = getattr(request, "param", None) or request.getfixturevalue("address")
    process = subprocess.Popen(
        [command("node"), "dist/main.js"],
        cwd=built,
        env={**os.environ, "HATS_SERVICE": service, "PORT": "0"},
        stdout=subprocess.PIPE,
        text=True,
    )
    try:
        with httpx.Client(base_url=process.stdout.readline().strip(), timeout=30) as client:
            yield client
    finally:
        process.terminate()
        process.communicate()


HAT = {"age_months": 9, "stitches": 20, "rows": 28}


def test_a_hat_fits_on_a_card(backend, service):
    """The card has the service's cast-on, needles, rounds, balls and picture."""
    card = backend.get("/card", params=HAT).json()
    (hat,) = service.post(
        "/v1/hats",
        json={
            "gauge": {"stitches": 20, "rows": 28},
            "sizes": [{"age_months": 9}],
            "yarn": {"mass": {"value": 100, "unit": "g"}, "length": {"value": 210, "unit": "m"}},
            "crown": {"style": "wedge", "sections": 8},
            "needles": 4,
        },
    ).json()["sizes"]

    assert hat["cast_on"]["stitches"] == card["castOn"]
    assert hat["split"]["split"] == card["needles"]
    assert hat["yarn"]["to_buy"]["balls"] == card["balls"]
    assert [(line["text"], line["after"]) for line in hat["crown"]["rounds"]] == [
        (line["text"], line["stitches"]) for line in card["rounds"]
    ]
    assert 200 == service.get(card["picture"]).status_code
    assert card["cautions"]


def test_a_count_gets_advice(backend):
    """A decrease left out on the second needle is told, and what to knit next; a count that is right is right."""
    card = backend.get("/card", params=HAT).json()
    shares = card["rounds"][2]["needles"]
    wrong = [shares[0], shares[1] + 1, *shares[2:]]
    answers = [
        backend.get("/count", params={**HAT, "round": 3, "needles": "-".join(map(str, needles))}).json()
        for needles in (shares, wrong)
    ]

    assert [True, False] == [answer["right"] for answer in answers]
    assert "needle 2" in answers[1]["message"]
    assert answers[1]["next"]


def test_a_refusal_is_passed_on(backend):
    """What cannot be knitted is said to the telephone in the service's words; an unknown address is not found."""
    refused = backend.get("/card", params={**HAT, "stitches": 900})

    assert 422 == refused.status_code
    assert "cannot be knitted" in refused.json()["message"]
    assert "250 stitches in 10 cm" == refused.json()["nearest"]
    assert 404 == backend.get("/", params=HAT).status_code


@pytest.mark.parametrize("backend", [f"http://127.0.0.1:{free_port()}"], indirect=True, ids=["nobody"])
def test_a_service_that_is_gone_is_said(backend):
    """Without the service the backend answers 502, and lives."""
    assert [502, 502] == [backend.get("/card", params=HAT).status_code for _ in range(2)]
