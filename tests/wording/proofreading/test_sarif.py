"""Findings as SARIF 2.1.0: what a reader of the format needs to show them beside the text."""

import json
from typing import Any

from roundwright.language.words import ENGLISH_WORDS
from roundwright.wording.proofreading.findings import KINDS
from roundwright.wording.proofreading.proofread import ProofreadRequest, proofread
from roundwright.wording.proofreading.sarif import sarif

TEXT = (
    "Cast on 64 sts.\r\nRnd 1: *k6, k2tog; rep from * around — 57 sts\r\nRnd 2: *k5, k2tog; rep from * around"
)


def log(text: str, *cast_on: int) -> dict[str, Any]:
    """The one run of the log."""
    made = json.loads(sarif(proofread(ProofreadRequest(cast_on=cast_on, text=text)), ENGLISH_WORDS))
    assert ("2.1.0", 1) == (made["version"], len(made["runs"]))
    return made["runs"][0]  # type: ignore[no-any-return]


def test_each_finding_is_a_result_of_a_rule() -> None:
    """The index names the rule, and the level is the severity."""
    run = log(TEXT, 64)
    rules = run["tool"]["driver"]["rules"]
    (result,) = run["results"]

    assert list(KINDS) == [rule["id"] for rule in rules]
    assert result["ruleId"] == rules[result["ruleIndex"]]["id"] == "count_differs"
    assert "error" == result["level"]
    assert {"size": 1, "stitches": -1} == result["properties"]


def test_a_result_points_at_its_region_and_fixes_it() -> None:
    """Columns count code points, as the run says: the dash is one."""
    (result,) = log(TEXT, 64)["results"]
    place = result["locations"][0]["physicalLocation"]
    (change,) = result["fixes"][0]["artifactChanges"]
    (replacement,) = change["replacements"]

    assert {"startLine": 2, "startColumn": 40} == place["region"]
    assert {"startLine": 2, "startColumn": 40, "endLine": 2, "endColumn": 42} == replacement["deletedRegion"]
    assert "56" == replacement["insertedContent"]["text"]


def test_a_clean_pattern_has_a_run_without_results() -> None:
    """A log without results says that it was looked at."""
    assert [] == log("Rnd 1: *k6, k2tog; rep from * around", 64)["results"]
