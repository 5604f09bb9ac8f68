"""Names in the code are nouns of the trade or of the web, not words that stand for a noun."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

SERVICE = Path(__file__).parents[2] / "service" / "roundwright"
FORBIDDEN = {"one", "each", "said", "asked", "told", "many"}

EXCEPTIONS = {
    # A field of the published answers: the yarn for each maker of a size. Within /v1 no field changes its name.
    ("knitting/yarn/order.py", "each"),
}

FILES = sorted(path.relative_to(SERVICE).as_posix() for path in SERVICE.rglob("*.py"))


def names_given(tree: ast.AST) -> Iterator[tuple[str, int]]:
    """The variables, parameters, attributes, functions and classes that a module names, with their lines."""
    for node in ast.walk(tree):
        match node:
            case ast.Name(id=name, ctx=ast.Store()) | ast.Attribute(attr=name, ctx=ast.Store()):
                yield name, node.lineno
            case ast.arg(arg=name) | ast.ExceptHandler(name=str(name)) | ast.MatchAs(name=str(name)):
                yield name, node.lineno
            case ast.FunctionDef(name=name) | ast.AsyncFunctionDef(name=name) | ast.ClassDef(name=name):
                yield name, node.lineno
            case (
                ast.alias(asname=str(name)) | ast.MatchStar(name=str(name)) | ast.MatchMapping(rest=str(name))
            ):
                yield name, getattr(node, "lineno", 0)


def forbidden_names(path: str) -> list[tuple[str, int]]:
    """The forbidden names in a file of the service, with their lines."""
    tree = ast.parse((SERVICE / path).read_text(encoding="utf-8"))
    return [(name, line) for name, line in names_given(tree) if name in FORBIDDEN]


@pytest.mark.parametrize("path", FILES)
def test_names_are_nouns(path: str) -> None:
    """A reader finds `round`, `size` or `text` where `one`, `each` or `said` would leave the noun out."""
    names = [f"line {line}: {name}" for name, line in forbidden_names(path) if (path, name) not in EXCEPTIONS]
    assert names == []


@pytest.mark.parametrize(("path", "name"), sorted(EXCEPTIONS))
def test_an_exception_is_still_needed(path: str, name: str) -> None:
    """An exception goes with the name that it was made for."""
    assert name in {name for name, _ in forbidden_names(path)}


@pytest.mark.parametrize(
    "source",
    [
        "each = 1",
        "each: int",
        "size.each = 1",
        "for each in sizes: pass",
        "[each for each in sizes]",
        "with size as each: pass",
        "import size as each",
        "lambda each: 1",
        "def size(*each): pass",
        "def each(): pass",
        "class each: pass",
        "try: pass\nexcept ValueError as each: pass",
        "match size:\n case [*each]: pass",
        "match size:\n case {**each}: pass",
        "match size:\n case 1 as each: pass",
    ],
)
def test_every_way_to_give_a_name_is_seen(source: str) -> None:
    """Variables, parameters, attributes, patterns, imports, functions and classes all have names."""
    assert "each" in {name for name, _ in names_given(ast.parse(source))}


def test_to_read_a_name_is_no_fault() -> None:
    """The field `each` of an answer is read in other modules, which do not name it."""
    assert "each" not in {name for name, _ in names_given(ast.parse("print(line.each, each)"))}
