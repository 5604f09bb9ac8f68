"""The image, built and run for real: by buildah, without an engine, on a stand-in for the base.

Not collected by itself; `sh tests/run.sh --deploy` asks for it. Needs root, buildah and debootstrap. The stand-in is a
minimal Debian with a Python of this machine in /usr/local, as the real base has it; so the recipe is proved, not the
base. The container sees the network of this machine and is told to listen on its loopback address only.
"""

import asyncio
import json
import os
import shutil
import signal
import subprocess
import sys
import tempfile
import urllib.request
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from tests.load.callers import Callers, good_calls
from tests.load.fleet import free_port, until

REPOSITORY = Path(__file__).parents[2]
DEBIAN_PACKAGES = (
    "ca-certificates,libbz2-1.0,libffi8,liblzma5,libncursesw6,libreadline8,libsqlite3-0,libssl3,"
    "libuuid1,zlib1g"
)
"""What a Python built on this Debian is linked with."""
STAND_IN = "localhost/stand-in"
IMAGE = "localhost/roundwright"


class Store:
    """buildah with a store of its own."""

    def __init__(self, folder: Path) -> None:
        self.options = [
            "--root",
            str(folder / "store"),
            "--runroot",
            str(folder / "run"),
            "--storage-driver",
            "vfs",
        ]

    def __call__(self, *arguments: str) -> str:
        """Run one of its commands; what it prints."""
        command = ["buildah", *self.options, *arguments]
        done = subprocess.run(command, capture_output=True, text=True, check=False, cwd=REPOSITORY)
        assert done.returncode == 0, f"{' '.join(arguments)}\n{done.stdout}\n{done.stderr}"
        return done.stdout.strip()


@pytest.fixture(scope="module")
def store() -> Iterator[Store]:
    """A store with the image in it."""
    for program in ("buildah", "debootstrap"):
        assert shutil.which(program), f"{program} is not installed"
    folder = Path(tempfile.mkdtemp(prefix="roundwright-image-"))
    # In memory it takes a third of the time: packages are written to disk with great care.
    in_memory = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", "size=6g,mode=755", "tmpfs", folder], check=False
    )
    try:
        buildah = Store(folder)
        _make_stand_in(buildah, folder / "root")
        buildah(
            *("build", "--quiet", "--isolation", "chroot", "--format", "docker", "--pull-never"),
            *(part for volume in _pip_files() for part in ("--volume", f"{volume}:{volume}:ro")),
            *("--build-arg", f"BASE={STAND_IN}", "--build-arg", "VERSION=1.2.3"),
            *("--ignorefile", "deploy/Containerfile.dockerignore"),
            *("-f", "deploy/Containerfile", "-t", IMAGE, "."),
        )
        yield buildah
    finally:
        if in_memory.returncode == 0:
            subprocess.run(["umount", "--recursive", folder], check=True)
        shutil.rmtree(folder)


def _make_stand_in(buildah: Store, root: Path) -> None:
    release = dict(
        line.split("=", 1) for line in Path("/etc/os-release").read_text().splitlines() if "=" in line
    )
    _run(
        "debootstrap",
        "--variant=minbase",
        f"--include={DEBIAN_PACKAGES}",
        release["VERSION_CODENAME"],
        str(root),
    )
    python = _python()
    for part in ("bin", "lib"):
        leave_out = shutil.ignore_patterns("test", "tests", "__pycache__", "site-packages", "idlelib", "*.a")
        shutil.copytree(
            python / part, root / "usr/local" / part, symlinks=True, dirs_exist_ok=True, ignore=leave_out
        )
    _run("chroot", str(root), "ldconfig")
    _run("chroot", str(root), "/usr/local/bin/python3", "-m", "ensurepip")
    container = buildah("from", "scratch")
    buildah("add", "--quiet", container, str(root), "/")
    buildah("config", "--env", "PATH=/usr/local/bin:/usr/bin:/bin", container)
    buildah("commit", "--quiet", "--rm", container, STAND_IN)
    shutil.rmtree(root)


def _python() -> Path:
    """The newest Python that pyenv has, as the real base has a new one; else the one that runs this."""
    if shutil.which("pyenv"):
        root = Path(
            subprocess.run(["pyenv", "root"], capture_output=True, text=True, check=True).stdout.strip()
        )
        if found := sorted(root.glob("versions/3.13.*")):
            return found[-1]
    return Path(sys.base_prefix)


def _pip_files() -> list[str]:
    """What pip needs to reach its index from inside: this machine's configuration and certificates."""
    files = ["/etc/pip.conf", "/etc/ssl/certs/ca-certificates.crt", "/etc/resolv.conf"]
    return [file for file in files if Path(file).exists()]


def _run(*command: str) -> str:
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, f"{' '.join(command)}\n{done.stdout[-3000:]}\n{done.stderr[-3000:]}"
    return done.stdout


@pytest.fixture(scope="module")
def recipe(store: Store) -> dict[str, Any]:
    """What the image says of itself."""
    config: dict[str, Any] = json.loads(store("inspect", "--type", "image", IMAGE))["Docker"]["config"]
    return config


@dataclass
class Container:
    """The image's command as it runs: process 1 of its own, the image's user, a read-only root with an empty /tmp."""

    process: subprocess.Popen[bytes]
    root: Path
    port: int
    environment: dict[str, str]
    user: str

    @property
    def pid(self) -> int:
        """The process that is number 1 inside."""
        return int(Path(f"/proc/{self.process.pid}/task/{self.process.pid}/children").read_text())

    def run(self, *command: str) -> int:
        """Run a command beside it, as the same user in the same place; its exit status."""
        enter = ["nsenter", "--target", str(self.pid), "--mount", "--pid", "--root", "--wd"]
        drop = ["setpriv", *_identity(self.user)]
        return subprocess.run([*enter, *drop, *command], env=self.environment, check=False).returncode


def _identity(user: str) -> list[str]:
    number, group = user.split(":")
    drop = ["--clear-groups", "--no-new-privs", "--bounding-set=-all", "--inh-caps=-all"]
    return ["--reuid", number, "--regid", group, *drop]


@pytest.fixture(scope="module")
def container(store: Store, recipe: dict[str, Any]) -> Iterator[Container]:
    """The image, running."""
    name = store("from", "--pull-never", IMAGE)
    root = store("mount", name)
    port = free_port()
    environment = dict(variable.split("=", 1) for variable in recipe["Env"])
    environment |= {"ROUNDWRIGHT_HOST": "127.0.0.1", "ROUNDWRIGHT_PORT": str(port)}
    place = (
        f"set -e; mount --bind {root} {root}; mount -t tmpfs tmpfs {root}/tmp; mount --bind /dev {root}/dev; "
        f'mount -t proc proc {root}/proc; mount -o remount,bind,ro {root}; exec {shutil.which("chroot")} {root} "$@"'
    )
    command = [
        "unshare",
        "--mount",
        "--propagation",
        "private",
        "--pid",
        "--fork",
        "--kill-child",
        "sh",
        "-c",
        place,
    ]
    command += ["sh", "setpriv", *_identity(recipe["User"]), *recipe["Entrypoint"], *recipe["Cmd"]]
    process = subprocess.Popen(command, env=environment)
    try:
        until(lambda: process.poll() is not None or _ready(port), "the container is ready")
        assert process.poll() is None, "the container ended"
        yield Container(process, Path(root), port, environment, recipe["User"])
    finally:
        process.kill()
        process.wait()
        store("umount", name)
        store("rm", name)


def _ready(port: int) -> bool:
    try:
        with urllib.request.urlopen(f"http://127.0.0.1:{port}/health/ready", timeout=2) as answer:
            return bool(answer.status == 200)
    except OSError:
        return False


def test_says_what_it_is(recipe: dict[str, Any]) -> None:
    """The labels are those of the OCI annotations, with the version it was built with."""
    labels = {name.removeprefix("org.opencontainers.image."): text for name, text in recipe["Labels"].items()}
    assert labels["title"] == "Roundwright"
    assert labels["licenses"] == "MIT"
    assert labels["version"] == "1.2.3"
    assert recipe["StopSignal"] == "SIGTERM"
    assert recipe["Healthcheck"]["Test"][0] == "CMD"


def test_answers_every_operation_to_the_byte(container: Container) -> None:
    """From a read-only root, as a user who owns nothing, it gives the answers this checkout gives."""
    callers = Callers(container.port)

    calls = good_calls()

    async def ask_all() -> None:
        for call in calls:
            await callers.ask(call)
        callers.close()

    asyncio.run(ask_all())
    assert {"POST /v1/gauge/convert", "POST /v1/hats"} <= {call.name for call in calls}
    assert len(callers.tally.spans) == len(calls)
    assert (dict(callers.tally.failures), callers.tally.wrong) == ({}, 0)


def test_runs_as_nobody_in_particular(container: Container) -> None:
    """The process has a user of its own without rights, and can gain none."""
    lines = Path(f"/proc/{container.pid}/status").read_text().splitlines()
    status = {name: text.split() for name, _, text in (line.partition(":") for line in lines)}
    assert status["Uid"] == ["10001"] * 4
    assert status["Gid"] == ["10001"] * 4
    assert int(status["CapEff"][0], 16) == int(status["CapBnd"][0], 16) == 0
    assert status["NoNewPrivs"] == ["1"]


def test_can_write_nowhere_but_in_tmp(container: Container) -> None:
    """The root is read-only to it, and works so."""
    write = "import pathlib, sys; pathlib.Path(sys.argv[1], 'x').write_text('x')"
    assert container.run("python3", "-c", write, "/tmp") == 0
    for folder in ("/", "/opt/roundwright", "/usr/local", "/var/tmp"):
        assert container.run("python3", "-c", write, folder) != 0, folder


def test_its_health_check_works(container: Container, recipe: dict[str, Any]) -> None:
    """The command of the health check succeeds while it runs, and fails for a port nobody listens on."""
    check = recipe["Healthcheck"]["Test"][1:]
    assert container.run(*check) == 0
    container.environment["ROUNDWRIGHT_PORT"] = str(free_port())
    assert container.run(*check) != 0


def test_stops_when_told(container: Container) -> None:
    """As process 1 it gets the stop signal itself, and ends by itself within the grace it is given."""
    os.kill(container.pid, signal.SIGTERM)
    assert container.process.wait(10) in (0, 128 + signal.SIGTERM)
