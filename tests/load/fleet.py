"""Replicas of the service and the proxy before them, as processes of this machine, on the loopback address only."""

import os
import re
import resource
import shutil
import signal
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Callable
from pathlib import Path
from types import TracebackType
from typing import Any, NamedTuple, Self

REPOSITORY = Path(__file__).parents[2]
NGINX_FOLDER = REPOSITORY / "deploy" / "nginx"
HOST = "127.0.0.1"
READY_WITHIN_S = 30
CGROUPS = Path("/sys/fs/cgroup")

WRITTEN_BYTES = 96 * 2**20
"""Room for what the proxy writes, in memory: compose.yaml's."""

READ_TIMEOUT: dict[str, str] = {}
"""What stands in the place of a time for which the proxy waits on a replica, as delivered where there is nothing."""

UPSTREAM = """upstream roundwright {{
    zone roundwright 256k;
    least_conn;
    {replicas}
    keepalive 64;
    keepalive_timeout 60s;
}}
"""


class Groups(NamedTuple):
    """Control groups of one version: their folder, and the files of a group for its limit, most and kills."""

    folder: Path
    limit: str
    most: str
    kills: str


def groups() -> Groups:
    """The control groups of this system, of version 2 or 1."""
    if (CGROUPS / "cgroup.controllers").exists():
        return Groups(CGROUPS, "memory.max", "memory.peak", "memory.events")
    return Groups(
        CGROUPS / "memory", "memory.limit_in_bytes", "memory.max_usage_in_bytes", "memory.oom_control"
    )


class Memory:
    """A control group held to so much memory, as a container is: processes, what they read, and files in memory."""

    def __init__(self, limit_bytes: int) -> None:
        self.limit_bytes = limit_bytes
        self.groups = groups()
        self.group = self.groups.folder / f"roundwright-{os.getpid()}-{time.monotonic_ns()}"
        self.there = shutil.which("unshare") is not None
        try:
            self.group.mkdir()
            (self.group / self.groups.limit).write_text(str(limit_bytes))
        except OSError:
            self.there = False

    @property
    def kind(self) -> str:
        """By what it is held: without groups, a process's own data and nothing else."""
        return "control group" if self.there else "RLIMIT_DATA"

    def hold(self, pid: int) -> None:
        """Put a process into the group, and with it those it starts; without groups, limit its data alone."""
        if self.there:
            (self.group / "cgroup.procs").write_text(str(pid))
        else:
            resource.prlimit(pid, resource.RLIMIT_DATA, (self.limit_bytes, self.limit_bytes))

    def holding(self, command: list[str], folder: Path, folder_bytes: int) -> list[str]:
        """A command that is held from the start, with a folder in memory that counts as well."""
        if not self.there:
            return command
        script = 'echo $$ >"$0/cgroup.procs"; mount -t tmpfs -o size=$1 tmpfs "$2"; shift 2; exec "$@"'
        start = ["unshare", "--mount", "--propagation", "private", "sh", "-ec", script]
        return [*start, str(self.group), str(folder_bytes), str(folder), *command]

    def most_bytes(self) -> int | None:
        """The most the group ever held, files included; nothing where there is no group."""
        return int((self.group / self.groups.most).read_text()) if self.there else None

    def killed(self) -> int:
        """How often one of its processes was killed for want of memory."""
        if not self.there:
            return 0
        lines = (self.group / self.groups.kills).read_text().splitlines()
        return next(int(line.split()[1]) for line in lines if line.startswith("oom_kill "))

    def end(self) -> None:
        """Take the group away once its processes are gone."""
        if self.there:
            until(self._is_gone, "the control group is empty")

    def _is_gone(self) -> bool:
        try:
            self.group.rmdir()
        except FileNotFoundError:
            return True
        except OSError:
            return False
        return True


class Replica:
    """One process of the service on a port of its own."""

    def __init__(
        self, *, files: int | None = None, memory_bytes: int | None = None, drain_s: int = 0
    ) -> None:
        self.port = free_port()
        self.files = files
        self.drain_s = drain_s
        self.memory = Memory(memory_bytes) if memory_bytes else None
        self.process: subprocess.Popen[bytes] | None = None

    def start(self) -> None:
        """Start it, within the limits it was given; it need not be ready yet."""
        # Warm, as the image is.
        environment = server_environment(port=self.port, host=HOST, warm="true", drain_s=self.drain_s)
        self.process = subprocess.Popen(
            [sys.executable, "-m", "roundwright", "serve"],
            env=environment,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        self._limit(self.process.pid)

    def _limit(self, pid: int) -> None:
        """Hold the process to the limits, before its interpreter has begun to read anything."""
        if self.files is not None:
            resource.prlimit(pid, resource.RLIMIT_NOFILE, (self.files, self.files))
        if self.memory is not None:
            self.memory.hold(pid)

    def signal(self, number: signal.Signals) -> None:
        """Send a signal to it."""
        assert self.process is not None
        self.process.send_signal(number)

    def wait(self, seconds: float = 30) -> int:
        """Wait for it to end; its exit status."""
        assert self.process is not None
        return self.process.wait(seconds)

    def runs(self) -> bool:
        """Whether the process is there."""
        return self.process is not None and self.process.poll() is None

    def ready(self) -> bool:
        """Whether it says it can calculate."""
        try:
            with urllib.request.urlopen(f"http://{HOST}:{self.port}/health/ready", timeout=2) as answer:
                return bool(answer.status == 200)
        except OSError:
            return False

    def wait_ready(self) -> None:
        """Wait until it is ready."""
        until(self.ready, f"the replica on port {self.port} is ready")

    def memory_bytes_now(self) -> int:
        """What it holds of memory: its resident set, less what it shares with files."""
        assert self.process is not None
        lines = Path(f"/proc/{self.process.pid}/status").read_text().splitlines()
        sizes = {line.partition(":")[0]: line.split()[1] for line in lines if line.startswith("Rss")}
        return int(sizes["RssAnon"]) * 1024

    def open_files(self) -> int:
        """How many files and connections it holds open."""
        assert self.process is not None
        return sum(1 for _ in Path(f"/proc/{self.process.pid}/fd").iterdir())

    def most_memory_bytes(self) -> int | None:
        """The most its control group ever held, files included; nothing where there is no group."""
        return self.memory.most_bytes() if self.memory is not None else None

    def __enter__(self) -> Self:
        try:
            self.start()
            self.wait_ready()
        except BaseException:
            self.end()
            raise
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.end()

    def end(self) -> None:
        """End it whatever state it is in."""
        if self.runs():
            self.signal(signal.SIGKILL)
            self.wait()
        if self.memory is not None:
            self.memory.end()


class Proxy:
    """nginx with the configuration of `deploy/nginx`, before some replicas."""

    def __init__(
        self,
        folder: Path,
        ports: list[int],
        *,
        limited: bool = False,
        binary: str | None = None,
        site: str | None = None,
        trusting: bool = False,
        memory_bytes: int | None = None,
    ) -> None:
        """Written into `folder`; without `limited`, no caller is held to a rate or a number of connections.

        `site` stands in the place of `site.conf` as it is delivered. Where the proxy is `trusting`, the last address in
        `X-Forwarded-For` is the caller, as behind an ingress. With `memory_bytes` it is held to so much memory, what it
        keeps included, as a container is: nothing where this machine has no control groups.
        """
        self.folder = folder
        self.port = free_port()
        self.memory = Memory(memory_bytes) if memory_bytes else None
        self.binary = binary or shutil.which("nginx", path=f"{os.environ['PATH']}:/usr/sbin:/sbin")
        if self.binary is None:
            raise FileNotFoundError("nginx is not installed")
        self.process: subprocess.Popen[bytes] | None = None
        folder.mkdir(parents=True, exist_ok=True)
        self.written = folder / "tmp"
        self.written.mkdir(exist_ok=True)
        for file in NGINX_FOLDER.glob("*.conf"):
            shutil.copy(file, folder)
        # Tests run as root, where nginx would change to a user who may not write into the folder.
        workers = "worker_processes 2;"
        _change(
            folder / "nginx.conf",
            ("listen 8080 ", f"listen [::1]:{self.port} backlog=4096; listen {HOST}:{self.port} "),
            (workers, f"{workers} user root;" if os.getuid() == 0 else workers),
            ("/dev/stdout", str(folder / "access.log")),
            ("worker_rlimit_nofile 16384;", f"worker_rlimit_nofile {min(16384, _most_files())};"),
            *(
                (f"proxy_read_timeout {short};", f"proxy_read_timeout {long};")
                for short, long in READ_TIMEOUT.items()
            ),
        )
        if site is None:
            delivered = (folder / "site.conf").read_text()
            servers = [f"server {HOST}:{port} max_fails=2 fail_timeout=1s;" for port in ports]
            servers += 2 * [f"server {HOST}:{port} max_fails=0 backup;" for port in ports]
            site = UPSTREAM.format(replicas="\n    ".join(servers))
            site += delivered[delivered.index("\n}\n") + 3 :]  # what stands behind the upstream
            site = site.replace('# "https://shop.example"', '"https://shop.example"')
            if not limited:
                site = re.sub(r"(_zone) \$\w+", r'\1 ""', site)
            if trusting:
                site += f"set_real_ip_from {HOST};\nreal_ip_header X-Forwarded-For;\n"
        (folder / "site.conf").write_text(site)

    def command(self, *more: str) -> list[str]:
        """The command line of nginx for this configuration."""
        assert self.binary is not None
        start = [self.binary, "-e", "stderr", "-p", f"{self.written}/", "-c", str(self.folder / "nginx.conf")]
        return [*start, *more]

    def check(self) -> subprocess.CompletedProcess[str]:
        """Have nginx read its configuration."""
        return subprocess.run(self.command("-t"), capture_output=True, text=True, check=False)

    def __enter__(self) -> Self:
        command = self.command("-g", "daemon off;")
        if self.memory is not None:
            command = self.memory.holding(command, self.written, WRITTEN_BYTES)
        with (self.folder / "error.log").open("wb") as errors:
            self.process = subprocess.Popen(command, stdout=errors, stderr=errors)
        until(self._listens, f"nginx listens on port {self.port}")
        return self

    def _listens(self) -> bool:
        assert self.process is not None
        if self.process.poll() is not None:
            raise RuntimeError((self.folder / "error.log").read_text())
        with socket.socket() as probe:
            return probe.connect_ex((HOST, self.port)) == 0

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        assert self.process is not None
        self.process.send_signal(signal.SIGTERM)
        self.process.wait(30)
        if self.memory is not None:
            self.memory.end()

    def saved(self) -> int:
        """How many requests so far were answered in full by another replica than the first one asked."""
        time.sleep(1.2)  # the log is written once a second
        with (self.folder / "access.log").open() as log:
            return sum(
                '"status":200' in line and ", " in line.partition('"replica_status":"')[2] for line in log
            )

    def repeated(self) -> int:
        """How many POSTs were asked of another replica after one had not answered in time."""
        time.sleep(1.2)
        timed_out = re.compile(r'"method":"POST".*"replica_status":"[^"]*504, ')
        with (self.folder / "access.log").open() as log:
            return sum(timed_out.search(line) is not None for line in log)


class Fleet:
    """Some replicas and the proxy before them, all ready; ended on leaving."""

    def __init__(self, folder: Path, replicas: list[Replica], **proxy: Any) -> None:
        self.replicas = replicas
        self.proxy = Proxy(folder, [replica.port for replica in replicas], **proxy)

    def __enter__(self) -> Self:
        try:
            for replica in self.replicas:
                replica.start()
            for replica in self.replicas:
                replica.wait_ready()
            self.proxy.__enter__()
        except BaseException:
            self._end()
            raise
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.proxy.__exit__(kind, error, trace)
        self._end()

    def _end(self) -> None:
        for replica in self.replicas:
            replica.end()


def server_environment(**settings: object) -> dict[str, str]:
    """The environment of a server with these settings and no others; its bytecode is kept, as in the image."""
    kept = {name: text for name, text in os.environ.items() if not name.startswith("ROUNDWRIGHT_")}
    kept.pop("PYTHONDONTWRITEBYTECODE", None)
    return kept | {f"ROUNDWRIGHT_{name.upper()}": str(value) for name, value in settings.items()}


def free_port() -> int:
    """A port of the loopback address that nobody listens on."""
    with socket.socket() as probe:
        probe.bind((HOST, 0))
        return int(probe.getsockname()[1])


def until(true: Callable[[], bool], what: str) -> None:
    """Wait until something is true; raises `TimeoutError` after half a minute."""
    give_up = time.monotonic() + READY_WITHIN_S
    while not true():
        if time.monotonic() > give_up:
            raise TimeoutError(f"waited {READY_WITHIN_S} s until {what}")
        time.sleep(0.02)


def _change(file: Path, *changes: tuple[str, str]) -> None:
    """Change a file where each text to be changed stands once."""
    text = file.read_text()
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    file.write_text(text)


def _most_files() -> int:
    return resource.getrlimit(resource.RLIMIT_NOFILE)[1]
