"""Bodies changed byte by byte so as to reach more of the code, by atheris: what chance alone would seldom find.

    python -m tests.long.by_coverage                  5,000 runs for each operation, each in a process of its own
    python -m tests.long.by_coverage --runs 500 --only planHats

Starts from the example, a few hundred bodies made from it, and the dearest one. The first fault ends an operation's
runs, is shown, and makes the exit status 1.
"""

import argparse
import os
import random
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from importlib.util import find_spec
from pathlib import Path
from tempfile import TemporaryDirectory

import msgspec

SEEDS = 300


def child(name: str, runs: int, seed: int) -> None:
    """Run one operation; does not return."""
    import atheris

    with atheris.instrument_imports(include=["roundwright"]):
        from tests.long.asking import Service, operations
    from tests.load.worst import KEPT
    from tests.long.checking import fault
    from tests.long.making import Maker

    operation = next(operation for operation in operations() if operation.id == name)
    service = Service()

    def once(body: bytes) -> None:
        if wrong := fault(operation, service.ask_for(operation, body)):
            raise AssertionError(f"{wrong}\n  {body!r}")

    maker = Maker(operation.request_type, random.Random(seed))
    example = operation.example_value()
    worst = msgspec.json.decode((KEPT / f"{name}.json").read_bytes())["request"]
    with TemporaryDirectory() as corpus:
        for number, value in enumerate([example, worst, *(maker.varied(example) for _ in range(SEEDS))]):
            Path(corpus, str(number)).write_bytes(msgspec.json.encode(value))
        options = [f"-runs={runs}", f"-seed={seed}", "-max_len=8192", "-rss_limit_mb=4096", "-verbosity=0"]
        atheris.Setup([sys.argv[0], *options, f"-artifact_prefix={corpus}/", corpus], once)
        atheris.Fuzz()


def main() -> int:
    """Run as the command line says; the exit status is 0 if there was no fault, or no atheris."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--runs", type=int, default=5_000, help="for each operation")
    parser.add_argument("--only", nargs="*", help="operations, by id")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--jobs", type=int, default=os.cpu_count() or 1)
    parser.add_argument("--child", help=argparse.SUPPRESS)
    given = parser.parse_args()
    if find_spec("atheris") is None:
        print("atheris is not installed: nothing was run by coverage")
        return 0
    if given.child:
        child(given.child, given.runs, given.seed)
    from tests.long.asking import operations

    def in_a_process(name: str) -> subprocess.CompletedProcess[str]:
        command = [sys.executable, "-m", "tests.long.by_coverage", "--child", name]
        numbers = ["--runs", str(given.runs), "--seed", str(given.seed)]
        return subprocess.run([*command, *numbers], capture_output=True, text=True, check=False)

    names = [str(operation.id) for operation in operations() if not given.only or operation.id in given.only]
    failed = 0
    with ThreadPoolExecutor(given.jobs) as jobs:
        for name, run in zip(names, jobs.map(in_a_process, names), strict=True):
            failed += run.returncode != 0
            print(name, "ok" if run.returncode == 0 else f"failed\n{run.stdout}{run.stderr}", flush=True)
    print(f"{given.runs * len(names):,} runs by coverage, {failed} operations with a fault")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
