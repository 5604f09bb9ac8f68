"""The document against the service, by requests made up from it: every operation, every check, every phase."""

import os
import re
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]
EXAMPLES = os.environ.get("ROUNDWRIGHT_TEST_EXAMPLES", "5")
"""Requests made up for an operation and phase; a long run asks for more."""
SEED = os.environ.get("ROUNDWRIGHT_TEST_SEED", "1")
"""The same requests every time, so that a change and nothing else can make this fail; a long run takes another."""


def test_the_service_keeps_to_its_document(address, tmp_path):
    """Schemathesis finds nothing with all its checks in all its phases, no operation left out."""
    command = [
        sys.executable, "-m", "schemathesis.cli", "--config-file", str(ROOT / "openapi/schemathesis.toml"),
        "run", f"{address}/openapi.json", "--checks", "all", "--phases", "examples,coverage,fuzzing,stateful",
        "--max-examples", EXAMPLES, "--seed", SEED, "--no-color", "--continue-on-failure",
    ]  # fmt: skip
    run = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=False)

    assert 0 == run.returncode, run.stdout + run.stderr
    selected, total = re.search(r"Operations: +(\d+) selected / (\d+) total", run.stdout).groups()
    assert selected == total
    for phase in ("Examples", "Coverage", "Fuzzing", "Stateful"):
        assert re.search(rf"✅ +{phase}", run.stdout), run.stdout
    print(re.search(r"[\d,]+ generated.*", run.stdout)[0])  # noqa: T201 - shown with -s
