"""The documents say what there is. `python -m tests.test_docs` writes the table of settings anew."""

import re
from pathlib import Path

import msgspec
import pytest

from roundwright.knitting.answers import RULES
from roundwright.language import LANGUAGES
from roundwright.web.settings import Settings, variable_of

DEVELOPERS = Path(__file__).parents[1] / "DEVELOPERS.md"
SETTINGS = re.compile(r"(?<=\| setting \| default \| what \|\n\| --- \| --- \| --- \|\n)(?:\|.*\n)*")


def rows():
    """A row for each setting: its variable, its default and range, what it is."""
    described = msgspec.json.schema(Settings)["$defs"]["Settings"]["properties"]
    for field, schema in described.items():
        bounds = f"; {schema['minimum']} to {schema['maximum']}" if "minimum" in schema else ""
        yield f"| `{variable_of(field)}` | {_default(getattr(Settings(), field))}{bounds} | {schema['description']} |\n"


def _default(value):
    match value:
        case () | "":
            return "none"
        case bool():
            return "on" if value else "off"
        case int():
            return str(value)
        case _:
            return f"`{value}`"


def test_every_setting_is_documented():
    """The table in DEVELOPERS.md lists each setting with its default, its range and its description, and no other."""
    assert list(rows()) == SETTINGS.search(DEVELOPERS.read_text())[0].splitlines(keepends=True)


@pytest.mark.parametrize("document", ["README.md", "DEVELOPERS.md"])
def test_documents_name_no_setting_that_is_not(document):
    """Each variable a document names is read."""
    named = set(re.findall(r"ROUNDWRIGHT_(?!TEST_)[A-Z_]*[A-Z]", DEVELOPERS.with_name(document).read_text()))

    assert set() == named - {variable_of(field) for field in Settings.__struct_fields__}


def test_the_rules_in_force_are_the_last_that_are_told():
    """A change of an answer has its row in the guide, and its date in every answer."""
    dates = re.findall(r"^\| ([0-9]{4}-[0-9]{2}-[0-9]{2}) \|", DEVELOPERS.read_text(), re.MULTILINE)

    assert dates == sorted(dates)
    assert dates[-1] == RULES


def test_what_the_map_names_is_there():
    """Each file and folder in the table "Where do I change …" and below it exists."""
    text = DEVELOPERS.read_text()
    guide = text[text.index("### Where do I change") : text.index("## Which test looks at what")]
    named = set(re.findall(r"`((?:[a-z_]+/)+[\w.*-]*\w)`", guide))
    roots = [DEVELOPERS.parent, DEVELOPERS.parent / "service" / "roundwright"]

    assert len(named) > 60
    missing = [path for path in sorted(named) if not any([*root.glob(path)] for root in roots)]
    assert [path for path in missing if Path(path).stem not in ("it", "words-it")] == []  # a language to come


def test_the_readme_names_every_language():
    """The tags that `language` takes are those of the catalogues, and there is one list of them."""
    listed = re.findall(
        r"^`language` is a field of .*?: (.+?)\.", DEVELOPERS.with_name("README.md").read_text(), re.MULTILINE
    )

    assert [set(re.findall("`(.+?)`", tags)) for tags in listed] == [set(LANGUAGES)]


if __name__ == "__main__":
    DEVELOPERS.write_text(SETTINGS.sub("".join(rows()).replace("\\", r"\\"), DEVELOPERS.read_text()))
