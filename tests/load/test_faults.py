"""A short look at the worst faults in every run; at full length `python -m tests.load.faults` tries them all."""

import asyncio
import sys
from pathlib import Path
from types import SimpleNamespace

import pytest
import uvloop

from roundwright.language.codes import LANGUAGES
from tests.deploy.tools import debian_nginx
from tests.load import faults, fleet, footprint, forms, strangers
from tests.load.results import write_rows
from tests.load.served import OURS
from tests.load.trial import Trial
from tests.long.asking import everything
from tests.long.bounds import FILES
from tests.support.needed import command


@pytest.mark.parametrize("name", ["kill", "roll", "files"])
def test_no_answer_is_lost_or_wrong(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Replicas die, restart or run out of files: every caller gets the right answer, to the byte."""
    debian_nginx()
    monkeypatch.setitem(faults.RATE, "per_second", 150.0)
    monkeypatch.setitem(fleet.READ_TIMEOUT, "2s", "20s")  # the machine may be at something else
    monkeypatch.setattr(faults, "FILES_RUSH", 600)  # more than two replicas can hold
    faults.good_calls_once()
    with asyncio.Runner(loop_factory=uvloop.new_event_loop) as runner:
        row = runner.run(faults.try_fault(name, 2, 4, 1))
    assert (row["Failed"], row["Wrong"], "**" in row["Notes"]) == ("0", "0", False), row
    assert int(row["Requests"].replace(",", "")) > 500
    if name != "files":  # who finds no place waits for one: there is nothing to be saved
        assert int(row["Saved by a retry"]) > 0


@pytest.mark.parametrize(("name", "losses"), [("mix", False), ("upgrade", True)])
def test_strangers_get_nobody_a_wrong_answer(
    name: str, losses: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    """With the limits on as delivered, dear requests of many addresses beside the stream spoil none of its answers.

    How many answers dear requests cost depends on what else the machine is at: that is counted at full length only.
    """
    debian_nginx()
    monkeypatch.setitem(faults.RATE, "per_second", 30.0)
    monkeypatch.setattr(strangers, "PER_SECOND", 2)
    monkeypatch.setitem(fleet.READ_TIMEOUT, "2s", "20s")  # the machine may be at something else
    faults.good_calls_once()
    with asyncio.Runner(loop_factory=uvloop.new_event_loop) as runner:
        row = runner.run(faults.try_fault(name, 2, 4, 1))
    assert row["Wrong"] == "0", row
    assert int(row["Requests"].replace(",", "")) > 100
    if losses:
        assert (row["Failed"], "**" in row["Notes"]) == ("0", False), row


def test_a_row_over_its_bound_is_an_error() -> None:
    """Anything lost or wrong, and with the limits on a stream made slow for long, ends a run with an error."""
    row = {
        "Requests": "2,000",
        "Failed": "0",
        "Wrong": "0",
        "Notes": "",
        "Ratio": "4.9",
        "Recovered within, s": "9.0",
    }
    assert not faults.over_its_bound("mix", row)
    for column, text in (
        ("Failed", "1"),
        ("Wrong", "1"),
        ("Notes", "**x**"),
        ("Ratio", "5.0"),
        ("Recovered within, s", "10.0"),
    ):
        assert faults.over_its_bound("mix", row | {column: text})
    assert not faults.over_its_bound("kill", row | {"Ratio": "50.0"})
    assert faults.over_its_bound("kill", row | {"Failed": "1"})
    assert not faults.over_its_bound("freeze", row | {"Failed": "20"})
    assert faults.over_its_bound("freeze", row | {"Failed": "21"})


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


def test_a_soak_asks_for_every_form_in_every_language() -> None:
    """Each media type of each operation is asked for in each language; PDFs and PNGs apart, since few may wait."""
    gauges = [call for call in faults.good_calls_once() if call.name.endswith("/v1/gauge/convert")]
    stream, files = forms.steady(gauges), forms.files()
    wires = {call.wire for call in (*stream, *files)}
    wanted = sum(len(operation.renderers) for operation in everything()) * len(LANGUAGES)

    assert wanted <= len(wires) <= wanted + len(gauges)
    assert {"application/pdf", "image/png"} == {
        kind for kind in FILES if any(kind.encode() in call.wire for call in files)
    }
    assert not any(kind.encode() in call.wire for kind in FILES for call in stream)


@pytest.mark.parametrize(("last", "is_over"), [(102.0, False), (103.0, True)])
def test_a_soak_fails_where_memory_grows(last: float, is_over: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    """The last third may hold two hundredths more than the second, and no more."""
    held = iter([90, 90, 90, *[100] * 3, *[last] * 30])
    replica = SimpleNamespace(memory_bytes_now=lambda: next(held) * 2**20)
    proxy = SimpleNamespace(port=1)
    trial = Trial(SimpleNamespace(replicas=[replica], proxy=proxy), 0.9, [])  # type: ignore[arg-type]
    monkeypatch.setattr(faults, "every_form", lambda: ([], []))
    monkeypatch.setattr(faults, "SAMPLES", 9)
    asyncio.run(faults.soak(trial))

    assert is_over == any("**replica 1 held" in note for note in trial.notes)


@pytest.mark.parametrize(
    ("version", "files"),
    [
        (2, ("memory.max", "memory.peak", "memory.events")),
        (1, ("memory.limit_in_bytes", "memory.max_usage_in_bytes", "memory.oom_control")),
    ],
)
def test_containers_are_held_by_control_groups_of_both_versions(
    version: int, files: tuple[str, str, str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The limit is written, and the most held and the kills are read, where each version has them."""
    command("unshare")
    monkeypatch.setattr(fleet, "CGROUPS", tmp_path)
    if version == 2:
        (tmp_path / "cgroup.controllers").touch()
    else:
        (tmp_path / "memory").mkdir()
    memory = fleet.Memory(1_000)
    limit, most, kills = (memory.group / name for name in files)
    most.write_text("900\n")
    kills.write_text("oom 1\noom_kill 2\n")

    assert ("1000", 900, 2) == (limit.read_text(), memory.most_bytes(), memory.killed())
    assert "control group" == memory.kind


def test_start_and_memory_are_measured_as_the_image_runs() -> None:
    """The service is warm there, so it is warm where its start and its memory are measured."""
    recipe = (fleet.REPOSITORY / "deploy" / "Containerfile").read_text()
    environment = footprint.started(OURS, sys.executable).environment

    assert f"ROUNDWRIGHT_WARM={environment['ROUNDWRIGHT_WARM']}" in recipe
