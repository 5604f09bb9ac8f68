# /// script
# requires-python = ">=3.11"
# dependencies = ["httpx>=0.28"]
# ///
"""A handout for each knitter of a class, from a spreadsheet saved as CSV.

python handouts.py knitters.csv handouts --form pdf

A row is a knitter: name, stitches and rows of the swatch over 10 cm, and whose head it is: head (in cm), age_months or
age_years with sex, or adult (woman or man). What cannot be knitted is said with its row, and the others go on.
HATS_SERVICE is the address of Roundwright, HATS_KEY the key it asks for, if any.
"""

import argparse
import csv
import os
import re
import sys
from pathlib import Path

import httpx

FORMS = {
    "pdf": "application/pdf",
    "markdown": "text/markdown",
    "text": "text/plain",
    "html": "text/html",
}
ENDINGS = {"pdf": "pdf", "markdown": "md", "text": "txt", "html": "html"}
BAR = 30
CLASS = {
    "yarn": {
        "name": "Quillhaven Wether",
        "mass": {"value": 100, "unit": "g"},
        "length": {"value": 210, "unit": "m"},
    },
    "brim": {"kind": "ribbed", "rib": {"knit": 2, "purl": 2}},
    "crown": {"style": "wedge", "sections": 8},
    "needles": 4,
}
"""What is the same for everybody: yarn, brim, crown and needles."""


class RowError(Exception):
    """Why a row has no handout."""


def request(row: dict[str, str]) -> dict:
    """The hat of a row. Raises `RowError` where a number is none."""
    try:
        size: dict = {"label": row["name"]}
        if row.get("head"):
            size["head"] = {"value": float(row["head"]), "unit": "cm"}
        for age in ("age_months", "age_years"):
            if row.get(age):
                size[age] = float(row[age])
        size |= {name: row[name] for name in ("sex", "adult") if row.get(name)}
        gauge = {"stitches": float(row["stitches"]), "rows": float(row["rows"])}
    except (KeyError, TypeError, ValueError) as error:
        raise RowError(f"this row cannot be read: {error}") from None
    return {"name": f"Hat for {row['name']}", "gauge": gauge, "sizes": [size], **CLASS}


def handout(service: httpx.Client, row: dict[str, str], form: str) -> bytes:
    """The handout of a row. Raises `RowError` with the service's words where there can be none."""
    answer = service.post("/v1/hats/handout", json=request(row), headers={"Accept": FORMS[form]})
    if answer.is_client_error:
        problem = answer.json()
        nearest = f" The nearest that works: {problem['nearest']}." if "nearest" in problem else ""
        raise RowError(problem["detail"] + nearest)
    return answer.raise_for_status().content


def file_name(name: str, number: int, form: str) -> str:
    """A name for the file: the knitter's, in letters that every system takes, after the number of the row."""
    plain = re.sub(r"[^\w]+", "-", name.casefold()).strip("-")
    return f"{number:02}-{plain or 'knitter'}.{ENDINGS[form]}"


def progress(done: int, total: int, name: str) -> None:
    """Draw the bar anew; where nobody looks on, write a line instead."""
    if sys.stderr.isatty():
        filled = BAR * done // total
        bar = "█" * filled + "·" * (BAR - filled)
        end = "\n" if done == total else ""
        print(f"\r{bar} {done}/{total} {name[:30]:30}", end=end, file=sys.stderr, flush=True)
    else:
        print(f"{done}/{total} {name}", file=sys.stderr)


def main() -> int:
    """Write the handouts; the exit status is 1 if a row has none."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("knitters", type=Path)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--form", choices=FORMS, default="pdf")
    arguments = parser.parse_args()
    with arguments.knitters.open(encoding="utf-8-sig", newline="") as file:
        rows = list(csv.DictReader(file))
    arguments.folder.mkdir(parents=True, exist_ok=True)
    key = os.environ.get("HATS_KEY")
    failed = []
    with httpx.Client(
        base_url=os.environ.get("HATS_SERVICE", "http://127.0.0.1:8181"),
        headers={"Authorization": f"Bearer {key}"} if key else {},
        transport=httpx.HTTPTransport(retries=2),
        timeout=30,
    ) as service:
        for number, row in enumerate(rows, start=1):
            name = row.get("name") or ""
            try:
                content = handout(service, row, arguments.form)
                (arguments.folder / file_name(name, number, arguments.form)).write_bytes(content)
            except RowError as error:
                failed.append(f"Row {number}, {name or 'no name'}: {error}")
            progress(number, len(rows), name)
    for line in failed:
        print(line, file=sys.stderr)
    return 1 if failed else 0


if __name__ == "__main__":
    try:
        sys.exit(main())
    except (OSError, httpx.HTTPError) as error:
        sys.exit(f"{error}")
