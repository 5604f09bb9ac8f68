"""The findings of a pattern as SARIF, which editors and build servers show beside the text.

Source: OASIS, Static Analysis Results Interchange Format (SARIF) Version 2.1.0, of 27 March 2020. Lines and columns
count from 1 and in code points, as in the answer; the text is called `pattern.txt`.
"""

from typing import Any, Final

import msgspec

from roundwright import __version__
from roundwright.language import Words
from roundwright.wording.proofreading.findings import KINDS, Edit, Finding, Position
from roundwright.wording.proofreading.proofread import ProofreadAnswer

MEDIA_TYPE: Final = "application/sarif+json"
VERSION: Final = "2.1.0"
SCHEMA: Final = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json"
ARTIFACT: Final = "pattern.txt"
"""What the text is called: a log has to name it, and a request has no file."""

_PLACES: Final = {code: place for place, code in enumerate(KINDS)}


def sarif(answer: ProofreadAnswer, words: Words) -> bytes:
    """The answer as a log of one run, its rules all the kinds of findings there are."""
    run = {
        "tool": {"driver": {"name": "roundwright", "version": __version__, "rules": _rules()}},
        "columnKind": "unicodeCodePoints",
        "newlineSequences": ["\r\n", "\n", "\r"],
        "artifacts": [{"location": {"uri": ARTIFACT}}],
        "results": [_result(finding) for finding in answer.findings],
    }
    return msgspec.json.encode({"$schema": SCHEMA, "version": VERSION, "runs": [run]}, enc_hook=words.render)


def _rules() -> list[dict[str, Any]]:
    return [
        {
            "id": code,
            "shortDescription": {"text": kind.test},
            "defaultConfiguration": {"level": kind.severity},
        }
        for code, kind in KINDS.items()
    ]


def _result(finding: Finding) -> dict[str, Any]:
    region = {"startLine": finding.line, "startColumn": finding.column}
    facts = {"size": finding.size, "stitches": finding.stitches}
    properties = {name: fact for name, fact in facts.items() if fact is not None}
    return {
        "ruleId": finding.code,
        "ruleIndex": _PLACES[finding.code],
        "level": finding.severity,
        "message": {"text": finding.message},
        "locations": [{"physicalLocation": {"artifactLocation": _artifact(), "region": region}}],
        **({"fixes": [_fix(edit) for edit in finding.edits]} if finding.edits else {}),
        **({"properties": properties} if properties else {}),
    }


def _fix(edit: Edit) -> dict[str, Any]:
    replacement = {
        "deletedRegion": _region(edit.start, edit.end),
        "insertedContent": {"text": edit.replacement},
    }
    return {"artifactChanges": [{"artifactLocation": _artifact(), "replacements": [replacement]}]}


def _region(start: Position, end: Position) -> dict[str, int]:
    return {
        "startLine": start.line,
        "startColumn": start.column,
        "endLine": end.line,
        "endColumn": end.column,
    }


def _artifact() -> dict[str, Any]:
    return {"uri": ARTIFACT, "index": 0}
