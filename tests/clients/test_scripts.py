"""The scripts of the examples, run as their README says, against the service as it ships."""

import csv
import io
import os
import pty
import subprocess
import sys
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from pypdf import PdfReader

from tests.conftest import free_port
from tests.support.needed import command

SCRIPTS = Path(__file__).parents[2] / "examples/scripts"
KNITTERS = list(csv.DictReader(io.StringIO((SCRIPTS / "knitters.csv").read_text())))


def run(address, *words, **how):
    """Run a script of the examples for a service."""
    if words[0].endswith(".py"):
        words = (sys.executable, *words)
    environment = {**os.environ, "HATS_SERVICE": address}
    return subprocess.run(
        words, cwd=SCRIPTS, env=environment, text=True, check=False, **{"capture_output": True, **how}
    )


@pytest.fixture
def shell() -> str:
    """The shell, where curl and jq are there too."""
    for name in ("curl", "jq"):
        command(name)
    return command("sh")


def test_shell_tells_the_hat(shell, address, service, tmp_path):
    """Cast-on, needles, each round and the balls are the service's; the picture is the hat's, and is one."""
    process = run(address, shell, "hat.sh", "55.5", tmp_path / "hat.svg")
    (hat,) = service.post(
        "/v1/hats",
        json={
            "gauge": {"stitches": 20, "rows": 28},
            "sizes": [{"head": {"value": 55.5, "unit": "cm"}}],
            "yarn": {"mass": {"value": 100, "unit": "g"}, "length": {"value": 210, "unit": "m"}},
            "crown": {"style": "wedge", "sections": 8},
            "needles": 4,
        },
    ).json()["sizes"]

    assert (0, "") == (process.returncode, process.stderr)
    needles = ", ".join(map(str, hat["split"]["split"]))
    assert f"Cast on {hat['cast_on']['stitches']} stitches: {needles} on the needles." in process.stdout
    for line in hat["crown"]["rounds"]:
        assert f"Round {line['number']}: {line['text']} ({line['after']})\n" in process.stdout
    assert f"Buy {hat['yarn']['to_buy']['balls']} of" in process.stdout
    assert service.get(hat["drawing"]).content == (tmp_path / "hat.svg").read_bytes()
    assert ET.parse(tmp_path / "hat.svg").getroot().tag.endswith("svg")


def test_shell_tells_what_is_wrong(shell, address):
    """A head of no-one is refused in the service's words; a service that is gone ends it."""
    refused = run(address, shell, "hat.sh", "430")
    gone = run(f"http://127.0.0.1:{free_port()}", shell, "hat.sh", "43")

    assert 1 == refused.returncode
    assert "A head of 430 cm is out of range." in refused.stderr
    assert "The nearest that works: 430 mm" in refused.stderr
    assert "" == refused.stdout
    assert gone.returncode
    assert "" == gone.stdout


def test_sizes_by_month(address, service):
    """Each line is the recommendation for its age; what is wrong with a size is said."""
    process = run(address, "sizes.py", "--sex", "girl", "Lamb 34", "Teg 38")
    wrong = run(address, "sizes.py", "Lamb")
    answer = service.post(
        "/v1/sizing/recommend",
        json={
            "age_months": 12,
            "sex": "girl",
            "offered": [
                {"label": "Lamb", "circumference": {"value": 34, "unit": "cm"}},
                {"label": "Teg", "circumference": {"value": 38, "unit": "cm"}},
            ],
        },
    ).json()

    assert (0, "") == (process.returncode, process.stderr)
    assert 21 == len(process.stdout.splitlines())
    (line,) = (line for line in process.stdout.splitlines() if line.startswith(" 12 months"))
    assert line.split()[2:] == [f"{answer['head']['median']['value']:.1f}", "cm", answer["choose"] or "-"]
    assert 2 == wrong.returncode
    assert "is no size" in wrong.stderr


@pytest.mark.parametrize("form", ["pdf", "markdown"])
def test_a_handout_for_each_row(form, address, service, tmp_path):
    """Every knitter of the spreadsheet has a file with the cast-on for that head and that swatch."""
    process = run(address, "handouts.py", "knitters.csv", tmp_path, "--form", form)
    files = sorted(tmp_path.iterdir())

    assert (0, "") == (process.returncode, process.stdout)
    assert f"{len(KNITTERS)}/{len(KNITTERS)} {KNITTERS[-1]['name']}" == process.stderr.splitlines()[-1]
    assert len(KNITTERS) == len(files)
    for row, file in zip(KNITTERS, files, strict=True):
        text = _read(file)
        assert row["name"] in text
        assert f"{_cast_on(service, row)} sts" in text or f"{_cast_on(service, row)} stitches" in text


def _read(file: Path) -> str:
    if file.suffix == ".pdf":
        return "\n".join(page.extract_text() for page in PdfReader(file).pages)
    return file.read_text()


def _cast_on(service, row) -> int:
    wearer = {name: row[name] for name in ("sex", "adult") if row[name]}
    if row["head"]:
        wearer["head"] = {"value": float(row["head"]), "unit": "cm"}
    if row["age_months"]:
        wearer["age_months"] = float(row["age_months"])
    hat = {
        "gauge": {"stitches": float(row["stitches"]), "rows": float(row["rows"])},
        "sizes": [wearer],
        "brim": {"kind": "ribbed", "rib": {"knit": 2, "purl": 2}},
        "crown": {"style": "wedge", "sections": 8},
        "needles": 4,
    }
    return service.post("/v1/hats", json=hat).json()["sizes"][0]["cast_on"]["stitches"]


def test_an_age_may_be_in_years(address, tmp_path):
    """A column age_years in place of age_months: a child of eight has its own handout."""
    table = tmp_path / "class.csv"
    table.write_text("name,stitches,rows,age_years,sex\nTovi,20,28,8,girl\n")
    done = run(address, "handouts.py", table, tmp_path / "out", "--form", "text")

    assert 0 == done.returncode
    assert (
        "51.5" in (tmp_path / "out" / "01-tovi.txt").read_text()
    )  # Netherlands 1997: 51.646, to half a centimetre


def test_rows_that_cannot_be_knitted_are_told(address, tmp_path):
    """A head beyond reach and a swatch that is no number are named with their rows; the others are written."""
    table = tmp_path / "class.csv"
    table.write_text(
        "\ufeffname,stitches,rows,head,age_months,sex,adult\n"
        "Ilse,20,28,555,,,\nTovi,many,27,,9,,\n../Bexa é,18,26,,,,woman\n"
    )
    process = run(address, "handouts.py", table, tmp_path / "out", "--form", "text")

    assert 1 == process.returncode
    assert "Row 1, Ilse: A head of 555 cm is out of range." in process.stderr
    assert "Row 2, Tovi: this row cannot be read" in process.stderr
    assert ["03-bexa-é.txt"] == [file.name for file in (tmp_path / "out").iterdir()]


def test_the_bar_fills(address, tmp_path):
    """On a terminal a bar grows from row to row until it is full."""
    reader, writer = pty.openpty()
    run(
        address,
        "handouts.py",
        "knitters.csv",
        tmp_path,
        "--form",
        "text",
        stderr=writer,
        stdout=None,
        capture_output=False,
    )
    os.close(writer)
    output = b""
    while chunk := _rest(reader):
        output += chunk
    os.close(reader)
    lengths = [line.count("█") for line in output.decode().split("\r") if "/" in line]

    assert len(KNITTERS) == len(lengths)
    assert sorted(set(lengths)) == lengths
    assert 30 == lengths[-1]


def _rest(reader: int) -> bytes:
    try:
        return os.read(reader, 4096)
    except OSError:  # the other end is closed and everything was read
        return b""
