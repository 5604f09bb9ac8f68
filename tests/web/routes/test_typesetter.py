"""PDFs wait in a short line, for a process whose end harms nobody but the caller whose PDF it was setting."""

import asyncio
import json
import os
import signal
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from textwrap import dedent
from threading import Event
from time import monotonic, sleep

import httpx
import msgspec
import pytest

from roundwright.language.words import ENGLISH_WORDS
from roundwright.web.problems import ProblemError
from roundwright.web.routes import typesetter as queue
from roundwright.web.routes.typesetter import MAX_PENDING, Typesetter
from roundwright.web.settings import Settings
from roundwright.wording.handout import typeset
from roundwright.wording.handout.pdf import typst_data
from tests.conftest import serving
from tests.contract.shape import assert_problem
from tests.support.handouts import CLASS, handout_of

DATA = typst_data(handout_of(**CLASS), ENGLISH_WORDS)
DEAREST = Path(__file__).parents[2] / "load" / "worst" / "writeHandout.json"
PROC = Path("/proc")
in_linux = pytest.mark.skipif(not PROC.exists(), reason="the system does not tell of its processes in files")


@pytest.fixture
def typesetter():
    """A typesetter of its own."""
    made = Typesetter()
    yield made
    made.stop()


async def here():
    """A caller who stays."""
    await asyncio.Event().wait()


async def gone():
    """A caller who has hung up."""
    return {"type": "http.disconnect"}


async def outcome(typesetter, receive=here, data=DATA):
    """The slug of the problem, or nothing where there is a PDF."""
    try:
        content = await typesetter.typeset(data, receive)
    except ProblemError as refusal:
        return refusal.slug
    assert content.startswith(b"%PDF-")
    return None


def ask(typesetter, *callers):
    """What becomes of callers who come at once."""

    async def all_of_them():
        return await asyncio.gather(*[outcome(typesetter, caller) for caller in callers])

    return asyncio.run(all_of_them())


def test_a_few_may_wait_and_the_next_is_told_when_to_come_again(typesetter):
    """As many as fit into the line get their PDF; one more is refused at once, with `Retry-After`."""
    outcomes = ask(typesetter, *[here] * (MAX_PENDING + 2))

    assert [None] * MAX_PENDING + ["overloaded"] * 2 == outcomes
    assert [None] == ask(typesetter, here)


def test_the_line_is_seen_over_http():
    """Of more callers at once than may wait the rest get 503 with `Retry-After`, and others are answered meanwhile."""
    with serving(Settings()) as address, ThreadPoolExecutor(3 * MAX_PENDING) as callers:

        def pdf(_):
            headers = {"accept": "application/pdf"}
            return httpx.post(f"{address}/v1/hats/handout", json=CLASS, headers=headers, timeout=60)

        waiting = callers.map(pdf, range(3 * MAX_PENDING))
        assert 200 == httpx.get(f"{address}/health/ready", timeout=60).status_code
        answers = list(waiting)

    assert {200, 503} == {answer.status_code for answer in answers}
    for answer in answers:
        if answer.status_code == 503:
            assert_problem(answer, 503, "overloaded")
            assert 1 <= int(answer.headers["retry-after"])
        else:
            assert answer.content.startswith(b"%PDF-")


def test_who_has_gone_is_skipped(typesetter):
    """A PDF that nobody waits for any more is never set, and the place in the line is free."""
    has_begun, may_end, sent = Event(), Event(), []
    exchange = typesetter.exchange

    def slow(data, kind):
        sent.append(data)
        has_begun.set()
        may_end.wait(30)
        return exchange(data, kind)

    async def line():
        typesetter.exchange = slow
        first = asyncio.create_task(outcome(typesetter))
        await asyncio.to_thread(has_begun.wait, 30)
        left = await asyncio.gather(*[outcome(typesetter, gone) for _ in range(3 * MAX_PENDING)])
        last = asyncio.create_task(outcome(typesetter))
        await asyncio.sleep(0)
        may_end.set()
        return await first, await last, left

    first, last, left = asyncio.run(line())
    assert (None, None) == (first, last)
    assert len(sent) == 2
    assert left.count("bad-message") >= MAX_PENDING - 1


@pytest.mark.parametrize("how", [signal.SIGKILL, signal.SIGSEGV])
def test_a_crash_is_the_end_of_one_pdf_only(how, typesetter):
    """Who was being served is asked to try again; who waits gets a PDF from a new process."""

    async def line():
        await outcome(typesetter)
        process = typesetter.process
        os.kill(process.pid, signal.SIGSTOP)
        tasks = [asyncio.create_task(outcome(typesetter)) for _ in range(3)]
        await asyncio.sleep(0.2)
        os.kill(process.pid, how)
        os.kill(process.pid, signal.SIGCONT)
        return await asyncio.gather(*tasks)

    assert ["overloaded", None, None] == asyncio.run(line())


def test_a_process_that_died_at_rest_harms_nobody(typesetter):
    """It is started anew before anything is sent to it."""
    assert [None] == ask(typesetter, here)
    typesetter.process.kill()
    typesetter.process.wait()
    assert [None] == ask(typesetter, here)


def test_a_process_that_hangs_is_killed(typesetter, monkeypatch):
    """One that does not answer is given up, and the next caller is served."""
    assert [None] == ask(typesetter, here)
    monkeypatch.setattr(queue, "ANSWER_TIMEOUT_S", 0.3)
    os.kill(typesetter.process.pid, signal.SIGSTOP)
    assert ["overloaded"] == ask(typesetter, here)
    monkeypatch.undo()
    assert [None] == ask(typesetter, here)


LIMITED = """
import sys
sys.path.insert(0, {folder!r})
import typeset
typeset.{limit} = {value}
typeset.main()
"""


@pytest.mark.parametrize(("limit", "value"), [("MAX_CPU_S", 0.01), ("MAX_MEMORY_BYTES", 18_000_000)])
def test_one_that_takes_more_than_it_may_is_not_to_be_sent_again(limit, value, tmp_path):
    """More processor time or more memory than a PDF may have ends it, with a status that no proxy repeats."""
    program = tmp_path / "limited.py"
    folder = str(Path(typeset.__file__).parent)
    program.write_text(LIMITED.format(folder=folder, limit=limit, value=value))
    typesetter = Typesetter(str(program))
    try:
        assert ["too-long"] == ask(typesetter, here)
    finally:
        typesetter.stop()


def test_what_the_process_says_of_its_end_is_one_line_of_the_log(tmp_path, caplog, capfd):
    """A process that aborts writes lines of its own: the log has one event, and nothing stands beside it."""
    program = tmp_path / "aborting.py"
    program.write_text(
        "import os, sys\nsys.stdin.buffer.read(5)\nsys.stderr.write('no memory\\n' + 'frame\\n' * 40)\n"
        "sys.stderr.flush()\nos.abort()\n"
    )
    typesetter = Typesetter(str(program))
    try:
        assert ["too-long"] == ask(typesetter, here)
    finally:
        typesetter.stop()

    assert [("typesetter_ended", ["no memory", "frame"])] == [
        (record.getMessage(), record.lines) for record in caplog.records
    ]
    assert "frame" not in capfd.readouterr().err


TALKING = """
import sys
sys.path.insert(0, {folder!r})
import typeset
typeset.typeset = lambda data: sys.stderr.write({said!r}) and b"%PDF-"
typeset.MAX_PDFS = {pdfs}
typeset.main()
"""


@pytest.mark.parametrize("pdfs", [1, 200])
def test_a_process_may_say_much_and_its_planned_end_is_no_event(pdfs, tmp_path, caplog, monkeypatch):
    """More warnings than a pipe holds do not keep it from answering; after its last PDF and at the stop all is well."""
    monkeypatch.setattr(queue, "ANSWER_TIMEOUT_S", 5)
    program = tmp_path / "talking.py"
    folder = str(Path(typeset.__file__).parent)
    program.write_text(TALKING.format(folder=folder, said="a warning\n" * 20_000, pdfs=pdfs))
    typesetter = Typesetter(str(program))
    try:
        assert [None, None] == ask(typesetter, here, here)
    finally:
        typesetter.stop()
    assert [] == caplog.records


def test_a_single_line_of_its_end_is_logged_once(tmp_path, caplog):
    """One line is the first and the last."""
    program = tmp_path / "aborting.py"
    program.write_text("import os\nos.write(2, b'no memory')\nos.abort()\n")
    typesetter = Typesetter(str(program))
    try:
        assert ["too-long"] == ask(typesetter, here)
    finally:
        typesetter.stop()
    assert [["no memory"]] == [record.lines for record in caplog.records]


@in_linux
def test_memory_is_bounded_by_a_new_process(typesetter):
    """Of the largest handouts none takes the process over its bound, and none is left holding what it took."""
    body = msgspec.json.decode(DEAREST.read_bytes())["request"]
    for number in range(6):
        body["name"] = f"Class {number}"
        data = typst_data(handout_of(**body), ENGLISH_WORDS)
        peak = asyncio.run(_peak(typesetter, data))
        assert peak * 1024 < typeset.MAX_MEMORY_BYTES
    assert _held(typesetter, "VmRSS") <= typeset.MAX_MEMORY_KEPT_KIB


async def _peak(typesetter, data):
    """The most memory a process had while it set a PDF, in KiB."""
    setting = asyncio.create_task(typesetter.typeset(data, here))
    peak = 0
    while not setting.done():
        await asyncio.sleep(0.005)
        peak = max(peak, _held(typesetter, "VmHWM"))
    assert (await setting).startswith(b"%PDF-")
    return peak


def _held(typesetter, name):
    process = typesetter.process
    try:
        status = (PROC / str(process.pid) / "status").read_text() if process else ""
    except OSError:
        return 0
    return next((int(line.split()[1]) for line in status.splitlines() if line.startswith(f"{name}:")), 0)


PARENT = dedent(
    """
    import os, sys, threading
    from roundwright.web.routes.typesetter import Typesetter
    typesetter = Typesetter()
    assert typesetter.exchange(sys.stdin.buffer.read()).startswith(b"%PDF-")
    print(typesetter.process.pid, flush=True)
    if sys.argv[1] == "stop":
        typesetter.stop()
    threading.Event().wait()
    """
)


@in_linux
@pytest.mark.parametrize("how", ["stop", "kill"])
def test_no_process_outlives_the_service(how):
    """Where the service is stopped, or killed without a chance to clean up, the process that sets PDFs ends as well."""
    with subprocess.Popen(
        [sys.executable, "-c", PARENT, how], stdin=subprocess.PIPE, stdout=subprocess.PIPE
    ) as parent:
        parent.stdin.write(DATA)
        parent.stdin.close()
        child = PROC / parent.stdout.readline().decode().strip()
        if how == "kill":
            assert child.exists()
            parent.kill()
        give_up = monotonic() + 10
        while child.exists() and monotonic() < give_up:
            sleep(0.02)
        assert not child.exists()
        parent.kill()


def test_what_cannot_be_set_is_a_fault_of_ours(typesetter):
    """Data that the template cannot read is no reason for the process to end: the next PDF comes from the same one."""
    with pytest.raises(RuntimeError):
        asyncio.run(typesetter.typeset(json.dumps({}).encode(), here))
    process = typesetter.process
    assert [None] == ask(typesetter, here)
    assert process is typesetter.process
