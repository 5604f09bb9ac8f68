"""The service and its rivals as processes, asked by wrk: how many answers a second, and how soon they come.

One server runs on the first core and wrk on the second; the servers take turns within each round, so that what else
the machine does falls on all of them. Before anything is timed their answers are compared to the byte.
"""

import http.client
import json
import re
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from contextlib import ExitStack
from pathlib import Path
from statistics import median
from types import TracebackType
from typing import NamedTuple, Self

from tests.load.cases import CASES, Case
from tests.load.fleet import HOST, READY_WITHIN_S, free_port, server_environment

OURS = "ours"
NAMES = ("floor", "plain", "peer", OURS)
CONNECTIONS = 16
MS = {"us": 0.001, "ms": 1.0, "s": 1000.0, "m": 60_000.0}
FOR_SIMPLE = {"floor": 0.55, "plain": 1.3, "peer": 2.0}
"""What the service is to reach of each rival's answers a second where one thing is calculated."""
FOR_HATS = 0.90
FOR_304 = 0.6
STANDS_IN_THE_WAY = {
    "304": "The rival's 304 is a constant without route or header lines. Ours is routed, names its tag, repeats what "
    "a 304 must and carries what every answer carries; half of the difference is Litestar's router and error net. "
    "Tried: keeping what the latest addresses mean, which took a picture's from 16 to 9 µs in process.",
    "needles": "The calculation is the larger part of it, the same for all. Tried: splits listed once, ways kept.",
    "plain": "The calculation and the encoding are the larger part of it, and are the same for all.",
    "floor": "Litestar's router, strict reading and the header lines of every answer, beside a calculation kept "
    "for both. Tried: decoders made once, handlers of errors found once, two messages an answer.",
}


class Served:
    """A rival, or the service, as a process of its own on a port of its own; ready when it is entered."""

    def __init__(
        self, name: str, *, cores: str = "0", python: str = sys.executable, **settings: object
    ) -> None:
        self.name = name
        self.port = free_port()
        own = ["-m", "roundwright", "serve"]
        words = own if name == OURS else ["-m", "tests.load.rivals", name, str(self.port)]
        self.command = ["taskset", "-c", cores, python, *words]
        self.environment = server_environment(port=self.port, host=HOST, **settings)
        if python != sys.executable:
            self.environment.pop("PYTHONPATH", None)  # it has the package itself

    def __enter__(self) -> Self:
        started = time.monotonic()
        self.process = subprocess.Popen(self.command, env=self.environment, stderr=subprocess.DEVNULL)
        path = "/health/ready" if self.name == OURS else "/"
        while not self._answers(path):
            if self.process.poll() is not None or time.monotonic() - started > READY_WITHIN_S:
                self.__exit__(None, None, None)
                raise RuntimeError(f"{self.name} did not start")
            time.sleep(0.002)
        self.ready_after_s = time.monotonic() - started
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.process.terminate()
        try:
            self.process.wait(20)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait()

    def _answers(self, path: str) -> bool:
        try:
            status = self.ask("GET", path).status
        except OSError:
            return False
        return self.name != OURS or status == 200  # only the service itself has something there

    def ask(
        self, method: str, path: str, body: bytes = b"", headers: dict[str, str] | None = None
    ) -> "Answer":
        """One answer, over a connection of its own."""
        connection = http.client.HTTPConnection(HOST, self.port, timeout=30)
        try:
            kind = {"content-type": "application/json"} if body else {}
            connection.request(method, path, body or None, {**kind, **(headers or {})})
            answer = connection.getresponse()
            return Answer(answer.status, answer.read(), answer.headers.get("etag", ""))
        finally:
            connection.close()


class Answer(NamedTuple):
    """What came back."""

    status: int
    content: bytes
    tag: str


class Pace(NamedTuple):
    """What wrk saw: answers a second, and the milliseconds in which half and 99 of 100 of them came."""

    rate: float
    p50_ms: float
    p99_ms: float


def pace(server: Served, script: Path, path: str, seconds: int, core: str = "1") -> Pace:
    """Have wrk ask for some seconds. Raises `RuntimeError` where an answer was an error, or did not come."""
    report = subprocess.run(
        ["taskset", "-c", core, "wrk", "-t1", f"-c{CONNECTIONS}", f"-d{seconds}s", "--latency", "--timeout", "20s",
         "-s", str(script), f"http://{HOST}:{server.port}{path}"],
        capture_output=True, text=True, check=True,
    ).stdout  # fmt: skip
    if "Non-2xx" in report or "Socket errors" in report:
        raise RuntimeError(f"{server.name} {path}:\n{report}")
    return Pace(_rate(report), _latency(report, "50%"), _latency(report, "99%"))


def _rate(report: str) -> float:
    found = re.search(r"Requests/sec:\s+([\d.]+)", report)
    assert found is not None
    return float(found[1])


def _latency(report: str, share: str) -> float:
    found = re.search(rf"{share}\s+([\d.]+)(us|ms|s|m)\b", report)
    assert found is not None
    return float(found[1]) * MS[found[2]]


def script_for(case: Case, folder: Path, headers: dict[str, str]) -> Path:
    """The requests of a case in turn, as a script of wrk's."""
    sent = {**({"Content-Type": "application/json"} if case.body is not None else {}), **headers}
    lines = [f"wrk.headers[{json.dumps(name)}] = {json.dumps(value)}" for name, value in sent.items()]
    requests = [f'{{"{path}", [==[{body.decode()}]==]}}' for path, body in case.requests()]
    lines += [
        f"local requests = {{{', '.join(requests)}}}",
        "local turn = 0",
        "request = function()",
        "  turn = turn % #requests + 1",
        f'  return wrk.format("{case.method}", requests[turn][1], nil, requests[turn][2])',
        "end",
    ]
    script = folder / f"{case.name.replace('/', '-').replace(' ', '')}.lua"
    script.write_text("\n".join(lines) + "\n")
    return script


def same_answers(servers: Sequence[Served], case: Case) -> tuple[dict[str, str], set[str]]:
    """The header lines to ask with, and the servers that take part: all that give this answer.

    Raises `RuntimeError` where a server gives another one. A number may be spelled in another way (1e-05, 0.00001).
    """
    ours = next(server for server in servers if server.name == OURS)
    tag = ours.ask("GET", case.path).tag if case.headers else ""
    headers = dict.fromkeys(case.headers, tag)
    wanted = ours.ask(case.method, case.path, case.content, headers)
    if wanted.status != (304 if headers else 200):
        raise RuntimeError(f"{case.name}: {wanted.status} {wanted.content[:300]!r}")
    taking_part = set()
    for server in servers:
        answer = server.ask(case.method, case.path, case.content, headers)
        if answer.status == http.client.NOT_FOUND:
            continue
        alike = answer.content == wanted.content or (
            case.path.startswith("/v1/drawings") is False
            and json.loads(answer.content) == json.loads(wanted.content)
        )
        if answer.status != wanted.status or not alike:
            raise RuntimeError(f"{case.name}: {server.name} answers {answer.status} {answer.content[:300]!r}")
        taking_part.add(server.name)
    return headers, taking_part


def measure(rounds: int, seconds: int, chosen: Sequence[Case] = CASES) -> list[dict[str, str]]:
    """The table: for each case what each server does, and what the service does for each answer of a rival."""
    if shutil.which("wrk") is None:
        raise FileNotFoundError("wrk is not installed (Debian: apt-get install wrk)")
    with ExitStack() as stack:
        folder = Path(stack.enter_context(tempfile.TemporaryDirectory()))
        servers = [stack.enter_context(Served(name)) for name in NAMES]
        scripts = {}
        for case in chosen:
            headers, taking_part = same_answers(servers, case)
            scripts[case.name] = script_for(case, folder, headers), taking_part
        seen: dict[tuple[str, str], list[Pace]] = {}
        for number in range(-1, rounds):  # the first round warms up
            for case in chosen:
                script, taking_part = scripts[case.name]
                turn = number % len(servers)
                for server in (*servers[turn:], *servers[:turn]):
                    if server.name in taking_part:
                        found = pace(server, script, case.path, seconds if number >= 0 else 1)
                        if number >= 0:
                            seen.setdefault((case.name, server.name), []).append(found)
    return [
        _row(case, {name: seen[case.name, name] for name in NAMES if (case.name, name) in seen})
        for case in chosen
    ]


def _row(case: Case, seen: dict[str, list[Pace]]) -> dict[str, str]:
    row = {"Asked for": case.name}
    for name in NAMES:
        row[name] = f"{median(turn.rate for turn in seen[name]):,.0f}/s" if name in seen else ""
    ours = seen[OURS]
    row["p50"] = f"{median(turn.p50_ms for turn in ours):.2f} ms"
    row["p99"] = f"{median(turn.p99_ms for turn in ours):.2f} ms"
    row |= {f"ours / {name}": "" for name in NAMES[:-1]} | {WHY: ""}
    for name in NAMES[:-1]:
        if name in seen:
            ratio = median(mine.rate / theirs.rate for mine, theirs in zip(ours, seen[name], strict=True))
            row[f"ours / {name}"] = f"{ratio:.2f}"
            if round(ratio, 2) < (wanted := _wanted(case, name)):
                row[f"ours / {name}"] += f" (wanted {wanted:g})"
                row[WHY] = " ".join(dict.fromkeys(filter(None, (row[WHY], _why(case, name)))))
    return row


WHY = "What stands in the way"


def _wanted(case: Case, rival: str) -> float:
    """What is to be reached; nothing where nothing was set."""
    if case.simple:
        return FOR_SIMPLE[rival]
    if rival == "floor" and case.name == "hats, 4 sizes":
        return FOR_HATS
    return FOR_304 if rival == "floor" and case.headers else 0.0


def _why(case: Case, rival: str) -> str:
    return next((why for part, why in STANDS_IN_THE_WAY.items() if part in f"{case.name} {rival}"), "")
