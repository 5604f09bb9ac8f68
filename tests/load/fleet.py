"""Replicas of the service and the proxy before them, as processes of this machine, on the loopback address only."""

import os
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
from typing import Self

REPOSITORY = Path(__file__).parents[2]
NGINX_FOLDER = REPOSITORY / "deploy" / "nginx"
HOST = "127.0.0.1"
READY_WITHIN_S = 30
CGROUPS = Path("/sys/fs/cgroup/memory")

SITE = """
upstream roundwright {{
    zone roundwright 256k;
    {replicas}
    keepalive 64;
    keepalive_timeout 60s;
}}
limit_req_zone {key} zone=rate:10m rate=50r/s;
limit_conn_zone {key} zone=connections:10m;
map $http_origin $cors_origin {{
    "https://shop.example" $http_origin;
    default "";
}}
"""


class Replica:
    """One process of the service on a port of its own."""

    def __init__(self, *, files: int | None = None, memory_bytes: int | None = None) -> None:
        self.port = free_port()
        self.files = files
        self.memory_bytes = memory_bytes
        self.cgroup: Path | None = None
        self.process: subprocess.Popen[bytes] | None = None

    def start(self) -> None:
        """Start it, within the limits it was given; it need not be ready yet."""
        environment = {
            name: value for name, value in os.environ.items() if not name.startswith("ROUNDWRIGHT_")
        }
        # Warm, as the image is.
        environment |= {
            "ROUNDWRIGHT_PORT": str(self.port),
            "ROUNDWRIGHT_HOST": HOST,
            "ROUNDWRIGHT_WARM": "true",
        }
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
        if self.memory_bytes is None:
            return
        if self.cgroup is None:
            self.cgroup = _memory_cgroup(self.memory_bytes)
        if self.cgroup is None:
            resource.prlimit(pid, resource.RLIMIT_DATA, (self.memory_bytes, self.memory_bytes))
        else:
            (self.cgroup / "cgroup.procs").write_text(str(pid))

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
        if self.cgroup is None:
            return None
        return int((self.cgroup / "memory.max_usage_in_bytes").read_text())

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
        if self.cgroup is not None:
            until(self._group_is_gone, "the control group is empty")

    def _group_is_gone(self) -> bool:
        assert self.cgroup is not None
        try:
            self.cgroup.rmdir()
        except FileNotFoundError:
            return True
        except OSError:
            return False
        return True


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
    ) -> None:
        """Written into `folder`; without `limited`, no caller is held to a rate or a number of connections."""
        self.folder = folder
        self.port = free_port()
        self.binary = binary or shutil.which("nginx", path=f"{os.environ['PATH']}:/usr/sbin:/sbin")
        if self.binary is None:
            raise FileNotFoundError("nginx is not installed")
        self.process: subprocess.Popen[bytes] | None = None
        folder.mkdir(parents=True, exist_ok=True)
        for file in NGINX_FOLDER.glob("*.conf"):
            shutil.copy(file, folder)
        main = (folder / "nginx.conf").read_text()
        # Tests run as root, where nginx would change to a user who may not write into the folder.
        for old, new in (
            ("listen 8080 ", f"listen {HOST}:{self.port} "),
            (
                "worker_processes auto;",
                "worker_processes 1; user root;" if os.getuid() == 0 else "worker_processes 1;",
            ),
            ("/dev/stdout", "access.log"),
            ("worker_rlimit_nofile 32768;", f"worker_rlimit_nofile {_most_files()};"),
        ):
            assert main.count(old) == 1, old
            main = main.replace(old, new)
        (folder / "nginx.conf").write_text(main)
        servers = [f"server {HOST}:{port} max_fails=2 fail_timeout=5s;" for port in ports]
        servers += [f"server {HOST}:{port} max_fails=0 backup;" for port in ports]
        key = "$binary_remote_addr" if limited else '""'
        (folder / "site.conf").write_text(site or SITE.format(replicas="\n    ".join(servers), key=key))

    def command(self, *more: str) -> list[str]:
        """The command line of nginx for this configuration."""
        assert self.binary is not None
        start = [self.binary, "-e", "stderr", "-p", f"{self.folder}/", "-c", str(self.folder / "nginx.conf")]
        return [*start, *more]

    def check(self) -> subprocess.CompletedProcess[str]:
        """Have nginx read its configuration."""
        return subprocess.run(self.command("-t"), capture_output=True, text=True, check=False)

    def __enter__(self) -> Self:
        with (self.folder / "error.log").open("wb") as errors:
            self.process = subprocess.Popen(self.command("-g", "daemon off;"), stdout=errors, stderr=errors)
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

    def saved(self) -> int:
        """How many requests so far were answered in full by another replica than the first one asked."""
        time.sleep(1.2)  # the log is written once a second
        with (self.folder / "access.log").open() as log:
            return sum(
                '"status":200' in line and ", " in line.partition('"replica_status":"')[2] for line in log
            )


class Fleet:
    """Some replicas and the proxy before them, all ready; ended on leaving."""

    def __init__(self, folder: Path, replicas: list[Replica]) -> None:
        self.replicas = replicas
        self.proxy = Proxy(folder, [one.port for one in replicas])

    def __enter__(self) -> Self:
        try:
            for one in self.replicas:
                one.start()
            for one in self.replicas:
                one.wait_ready()
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
        for one in self.replicas:
            one.end()


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


def _most_files() -> int:
    return resource.getrlimit(resource.RLIMIT_NOFILE)[1]


def _memory_cgroup(limit_bytes: int) -> Path | None:
    """A control group held to so much memory; nothing where the machine has none to give."""
    group = CGROUPS / f"roundwright-{os.getpid()}-{time.monotonic_ns()}"
    try:
        group.mkdir()
        (group / "memory.limit_in_bytes").write_text(str(limit_bytes))
    except OSError:
        return None
    return group
