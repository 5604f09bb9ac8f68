"""A short look at the worst faults in every run; at full length `python -m tests.load.faults` tries them all."""

import asyncio

import pytest
import uvloop

from tests.deploy.tools import debian_nginx
from tests.load import faults
from tests.load.results import write_rows


@pytest.mark.parametrize("name", ["kill", "roll", "files"])
def test_no_answer_is_lost_or_wrong(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Replicas die, restart or run out of files: every caller gets the right answer, to the byte."""
    debian_nginx()
    monkeypatch.setitem(faults.RATE, "per_second", 150.0)
    monkeypatch.setattr(faults, "FILES_RUSH", 600)  # more than two replicas can hold
    faults.good_calls_once()
    with asyncio.Runner(loop_factory=uvloop.new_event_loop) as runner:
        row = runner.run(faults.try_fault(name, 2, 4, 1))
    assert (row["Failed"], row["Wrong"], "**" in row["Notes"]) == ("0", "0", False), row
    assert int(row["Requests"].replace(",", "")) > 500
    if name != "files":  # who finds no place waits for one: there is nothing to be saved
        assert int(row["Saved by a retry"]) > 0


def test_a_row_takes_the_place_of_the_one_before(tmp_path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The table keeps a row for each fault and number of replicas, and leaves the rest of the page alone."""
    page = tmp_path / "RESULTS.md"
    page.write_text("# Results\n\nBefore.\n\n## Other\n\n| a | b |\n")
    monkeypatch.setattr("tests.load.results.RESULTS", page)
    write_rows(
        [
            {"Fault": "kill: x", "Replicas": "2", "Failed": "7"},
            {"Fault": "kill: x", "Replicas": "3", "Failed": "1"},
        ],
        "Here.",
    )
    write_rows([{"Fault": "kill: y", "Replicas": "2", "Failed": "0"}], "There.")
    text = page.read_text()
    assert "| kill: y | 2 | 0 |\n| kill: x | 3 | 1 |" in text
    assert "| 7 |" not in text
    assert "Here." not in text
    assert text.startswith("# Results\n\nBefore.\n\n## Other\n\n| a | b |\n\n## Faults\n")
