"""How well patterns are read that were written without the reader in mind: `python -m tests.corpus.score [--show]`.

- right: nothing is wrong with the text; `counts` are the stitch counts of each size, `rounds` how many rounds there are
  in the longest, or `rounds_in_first_size`
- right: nothing is wrong with the text; `counts` are the stitch counts of each size, `rounds` how many rounds there are
- rounds: one round each; labels: ways to begin a round
- `language`: of a text that is not English, or of which the language is to be found

A right text is read when no error is found and every count and the number of rounds come out; otherwise it is
unreadable (which is said), a false alarm (called wrong) or misread (nothing is said, and the counts are others). A
fault is found when an error stands on its line, in its size; a repair is as meant when its line, or the whole text
repaired, is that without the fault.
"""

import json
import re
import sys
from collections import Counter
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from roundwright.knitting.rounds.round import Round
from roundwright.wording.proofreading.findings import Finding
from roundwright.wording.proofreading.read import Reading, read

FOLDER = Path(__file__).parent
ARITHMETIC = {
    "left_over", "runs_out", "count_differs", "wrong_way", "never_ends", "too_many_stitches", "cast_on_differs",
    "sizes_differ",
}  # fmt: skip

Text = Mapping[str, Any]
Judged = tuple[str, str, Text, Reading]
"""What is scored, how it came out, the text and its reading."""


def corpora() -> dict[str, Mapping[str, list[Text]]]:
    """The corpora by name."""
    return {path.stem: json.loads(path.read_text()) for path in sorted(FOLDER.glob("*.json"))}


def errors(reading: Reading) -> list[Finding]:
    """What is called wrong."""
    return [finding for finding in reading.findings if finding.severity == "error"]


def counts(rounds: tuple[Round, ...], cast_on: int) -> list[int]:
    """The stitch counts of a size, each once."""
    seen = [cast_on]
    for worked_round in rounds:
        if worked_round.after != seen[-1]:
            seen.append(worked_round.after)
    return seen


def judge(
    reading: Reading,
    cast_on: list[int],
    wanted: list[list[int]],
    rounds: int | None,
    in_first_size: int | None = None,
) -> str:
    """`read`, `unreadable`, `false alarm` or `misread`."""
    if found := errors(reading):
        return "false alarm" if {finding.code for finding in found} <= ARITHMETIC else "unreadable"
    got = [counts(size_rounds, cast_on[size]) for size, size_rounds in enumerate(reading.rounds)]
    lengths = [len(size_rounds) for size_rounds in reading.rounds]
    same = got == wanted and rounds in (None, max(lengths)) and in_first_size in (None, lengths[0])
    return "read" if same else "misread"


_FIRST = re.compile(r"(?:Rnd|round) 1\b|previous")
"""The words of a round that refers to the one before it."""


def judged_rounds(corpus: Mapping[str, list[Text]]) -> Iterator[Judged]:
    """Single rounds, and rounds behind a label."""
    for item in corpus.get("rounds", []):
        second = _FIRST.search(item["text"]) is not None
        text = f"Rnd 1: knit\nRnd 2: {item['text']}" if second else f"Rnd 1: {item['text']}"
        wanted = [item["before"]] + [item["after"]] * (item["after"] != item["before"])
        reading = read(text, (item["before"],))
        yield "rounds", judge(reading, [item["before"]], [wanted], 2 if second else 1), item, reading
    for item in corpus.get("labels", []):
        reading = read(f"{item['label']} *k6, k2tog; rep from * around\nRnd 8: knit.", (64,))
        yield "labels", judge(reading, [64], [[64, 56]], None), item, reading


def judged_faults(corpus: Mapping[str, list[Text]]) -> Iterator[Judged]:
    """Texts with one fault: whether it is found, and whether its repair is what was meant."""
    for item in corpus.get("wrong", []):
        reading = read(item["text"], tuple(item["cast_on"]), item.get("language"))
        here = [finding for finding in reading.findings if _is_of(finding, item)]
        found = [finding for finding in here if finding.severity == "error"]
        what = "found" if found else "noted" if here else "elsewhere" if errors(reading) else "missed"
        yield "faults", what, item, reading
        if found:
            offered = {" ".join(finding.repair.split()) for finding in found if finding.repair}
            whole = " ".join((reading.repaired or "").split()) == " ".join(item["meant"].split())
            meant = "as meant" if whole or _meant(item) in offered else "other" if offered else "none"
            yield "repairs", meant, item, reading


def _is_of(finding: Finding, item: Text) -> bool:
    lines = {item["line"], *item.get("also", [])}
    return finding.line in lines and (item.get("size") is None or finding.size in (None, item["size"]))


def _meant(item: Text) -> str:
    lines = item["meant"].split("\n")
    return " ".join(lines[item["line"] - 1].split()) if item["line"] <= len(lines) else ""


def judged(corpus: Mapping[str, list[Text]]) -> Iterator[Judged]:
    """Everything in a corpus, as it came out."""
    for item in corpus.get("right", []):
        reading = read(item["text"], tuple(item["cast_on"]), item.get("language"))
        rounds, in_first_size = item.get("rounds"), item.get("rounds_in_first_size")
        yield "right", judge(reading, item["cast_on"], item["counts"], rounds, in_first_size), item, reading
    yield from judged_rounds(corpus)
    yield from judged_faults(corpus)


def score(corpus: Mapping[str, list[Text]]) -> dict[str, Counter[str]]:
    """How often each thing came out how."""
    tally: dict[str, Counter[str]] = {}
    for name, what, _, _ in judged(corpus):
        tally.setdefault(name, Counter())[what] += 1
    return tally


GOOD = {"right": "read", "rounds": "read", "labels": "read", "faults": "found", "repairs": "as meant"}


def main() -> None:
    """Print the table, and with `--show` every miss."""
    for name, corpus in corpora().items():
        tally: dict[str, Counter[str]] = {}
        for kind, what, item, reading in judged(corpus):
            tally.setdefault(kind, Counter())[what] += 1
            if "--show" in sys.argv and what != GOOD[kind]:
                print(f"--- {kind} {item.get('id')}: {what}\n{item.get('text') or item.get('label')}")
                for finding in reading.findings:
                    print(
                        f"    {finding.severity} {finding.code} {finding.line}:{finding.column} "
                        f"{finding.message} | {finding.repair}"
                    )
        for kind, seen in tally.items():
            share = seen[GOOD[kind]] / seen.total()
            rest = ", ".join(f"{what} {number}" for what, number in seen.most_common() if what != GOOD[kind])
            print(f"{name:10} {kind:8} {seen.total():4}  {GOOD[kind]} {share:.0%}  {rest}")


if __name__ == "__main__":
    main()
