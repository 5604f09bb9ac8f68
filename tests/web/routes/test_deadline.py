"""A calculation that would take too long is stopped, and those who wait behind it are answered."""

import subprocess
import sys
from textwrap import dedent

import httpx
import pytest

from tests.conftest import free_port
from tests.contract.shape import assert_problem

BODY = {"gauge": {"stitches": 22}}
SUGGEST = {
    "stitches": 96,
    "gauge": {"stitches": 20, "rows": 28},
    "shape": "pointed",
    "height": {"value": 14, "unit": "cm"},
}
SLOW = dedent(
    """
    import os, re, sys
    import uvloop
    from roundwright.reference.once import making
    from roundwright.web.routes import crown, deadline, gauge, needles
    from roundwright.web.server import run
    from roundwright.web.settings import Settings

    deadline.within.seconds = 0.2

    def in_a_match(request):
        re.match("(a+)+b", "a" * 60)

    def in_a_loop(request):
        while True:
            pass

    class Dropped:
        def __del__(self):
            in_a_loop(self)

    def behind_a_destructor(request):
        del request
        Dropped()
        in_a_loop(None)

    suggest = crown.suggest_crown.calculate

    def behind_what_is_made_once(request):
        made_s, calculated_s = (0.5, 0) if request.stitches == 96 else (0.15, 0.12)
        with making:
            spend(made_s)
        spend(calculated_s)
        return suggest(request)

    def spend(seconds):
        begun = os.times().user  # the timer counts no time of the system
        while os.times().user < begun + seconds:
            sum(range(10_000))

    crown.suggest_crown.calculate = behind_what_is_made_once
    gauge.convert_gauge.calculate = in_a_match
    needles.split_over_needles.calculate = in_a_loop
    crown.close_crown.calculate = behind_a_destructor
    run(Settings(port=int(sys.argv[1])))
    """
)


@pytest.fixture(scope="module")
def slow():
    """The service, in a process of its own, with three operations that never come to an end."""
    port = free_port()
    with subprocess.Popen([sys.executable, "-c", SLOW, str(port)]) as process:
        transport = httpx.HTTPTransport(retries=8)
        with httpx.Client(base_url=f"http://127.0.0.1:{port}", transport=transport, timeout=60) as client:
            yield client
        process.kill()  # where the deadline is broken, the process hears no request to stop


@pytest.mark.parametrize(
    ("path", "example"),
    [
        ("/v1/gauge/convert", BODY),
        ("/v1/needles/split", {"stitches": 56, "needles": 3}),
        ("/v1/crown", {"stitches": 64, "sections": 8}),
    ],
)
def test_a_calculation_without_end_is_stopped(path, example, slow):
    """In a match of a regular expression, in a loop, or where Python drops the first error.

    It ends with the reason, and the next caller is answered.
    """
    for _ in range(2):
        stopped = slow.post(path, json=example)
        assert_problem(stopped, 422, "too-long")
        assert "sent again unchanged, it fails again" in stopped.json()["detail"]
        assert 200 == slow.post("/v1/shaping/even", json={"stitches": 100, "change": -12}).status_code


def test_it_is_not_sent_to_another_replica(slow):
    """The proxy repeats what answers 502, 503 or 504, so the status is none of these, and no time to wait is given."""
    stopped = slow.post("/v1/gauge/convert", json=BODY)

    assert 500 > stopped.status_code
    assert "retry-after" not in stopped.headers


@pytest.mark.parametrize("stitches", [96, 80])
def test_what_is_made_once_is_no_part_of_a_calculation(stitches, slow):
    """The words of a language are made by the first request that needs them, and its own time begins behind that.

    The limit passes within what is made (96 stitches), or in the calculation behind it (80).
    """
    assert 200 == slow.post("/v1/crown/suggest", json=SUGGEST | {"stitches": stitches}).status_code
