"""The schemas of the document: those msgspec makes of the structs, in the form that generators of clients need.

A closed set of words is a component of its own, named as its type is named in the code (`LengthUnit`) or by its field
(`AlongRequestSides`). Numbers have a `format`. What is left out has its default in the description only, since some
generators demand a field with a `default`, and others send it.
"""

import re
import sys
from collections.abc import Collection, Iterable, Iterator, Mapping
from inspect import cleandoc
from typing import Annotated, Any, Final, Literal, get_args, get_origin

import msgspec

from roundwright.web.problems import Problem
from roundwright.web.routes.operation import Operation

REFERENCE: Final = "#/components/schemas/{name}"
OUTPUT: Final = "Output"
"""Ends the name of a struct of answers where requests have one of its name too."""

MAX_INT32: Final = 2**31 - 1
MAX_DEFAULT: Final = 60
"""Characters of a default that the description repeats; a longer one is described in words there."""

Schemas = dict[str, Any]


def reference_to(kind: Any) -> dict[str, str]:
    """A reference to the schema of a struct."""
    return {"$ref": REFERENCE.format(name=kind.__name__)}


def schemas_of(operations: Collection[Operation], tidy: "Tidy") -> Schemas:
    """The schemas of all structs of the operations.

    A struct that stands in requests and in answers has two: `Round` may leave fields out and refuses unknown ones, and
    `RoundOutput` has every field and may get more.
    """
    requests = _components(operation.request_type for operation in operations)
    answers = _components(
        kind for operation in operations for kind in (operation.answer_type, *operation.parts, Problem)
    )
    names = {name: f"{name}{OUTPUT}" if name in requests else name for name in answers}
    in_part = _written_without_defaults()
    answered = {
        names[name]: _renamed(_schema_of_answer(schema, is_whole=name not in in_part), names)
        for name, schema in answers.items()
    }
    return {name: tidy.schema(schema, name) for name, schema in {**requests, **answered}.items()}


def _components(kinds: Iterable[Any]) -> Schemas:
    """The schemas of structs and of all structs in them."""
    structs = dict.fromkeys(kind for kind in kinds if _is_struct(kind))
    return msgspec.json.schema_components(structs, ref_template=REFERENCE)[1]


def _schema_of_answer(schema: Schemas, *, is_whole: bool) -> Schemas:
    """The schema of a struct as an answer has it: open, and if `is_whole` with its fields that have a default, too."""
    opened = {key: value for key, value in schema.items() if key != "additionalProperties"}
    if not is_whole or "properties" not in schema:
        return opened
    always = set(schema.get("required", ()))
    always |= {name for name, field in schema["properties"].items() if "default" in field}
    fields = {
        name: {key: value for key, value in field.items() if key != "default"}
        for name, field in schema["properties"].items()
    }
    return opened | {"properties": fields, "required": [name for name in fields if name in always]}


def _written_without_defaults() -> set[str]:
    """The names of the structs that are written without the fields that have their default."""
    structs = {value for _, value in _module_values() if _is_struct(value)}
    return {struct.__name__ for struct in structs if struct.__struct_config__.omit_defaults}


def _renamed(schema: Schemas, names: Mapping[str, str]) -> Schemas:
    """A schema with new names of components, its own and those it refers to."""
    beginning, end = REFERENCE.split("{name}")
    text = re.sub(
        rf'(?<="{re.escape(beginning)})\w+(?={re.escape(end)}")',
        lambda name: names.get(name[0], name[0]),
        msgspec.json.encode(schema).decode(),
    )
    renamed: Schemas = msgspec.json.decode(text)
    return renamed | ({"title": names[schema["title"]]} if "title" in schema else {})


def _module_values() -> Iterator[tuple[str, Any]]:
    """Every name of the modules of the service, and what it stands for."""
    for path, module in list(sys.modules.items()):
        if path.startswith("roundwright."):
            yield from vars(module).items()


def _is_struct(kind: Any) -> bool:
    return isinstance(kind, type) and issubclass(kind, msgspec.Struct)


class Tidy:
    """Puts schemas into their published form, and collects the closed sets of words in them."""

    def __init__(self) -> None:
        self.names = _names_of_literals()
        self.enums: Schemas = {}

    def schema(self, schema: Any, owner: str) -> Any:
        """A schema; `owner` names a closed set of words in it that has no name of its own."""
        if isinstance(schema, list):
            return [self.schema(part, owner) for part in schema]
        if not isinstance(schema, dict):
            return schema
        tidied: Schemas = {
            key: self.properties(value, owner) if key == "properties" else self.schema(value, owner)
            for key, value in schema.items()
            if key not in ("default", "examples")
        }
        tidied |= {"examples": schema["examples"]} if "examples" in schema else {}
        match tidied.get("type"):
            case "number":
                tidied["format"] = "double"
            case "integer":
                large = max(abs(tidied.get("minimum", 0)), abs(tidied.get("maximum", 0))) > MAX_INT32
                tidied["format"] = "int64" if large else "int32"
        if "discriminator" in tidied:
            tidied["oneOf"] = tidied.pop("anyOf")
        if isinstance(tidied.get("description"), str):
            tidied["description"] = _described(tidied["description"], schema.get("default"))
        return self.named(tidied, owner) if "enum" in tidied else tidied

    def properties(self, properties: Schemas, owner: str) -> Schemas:
        """The properties of an object."""
        return {name: self.schema(field, owner + capitalised(name)) for name, field in properties.items()}

    def named(self, schema: Schemas, owner: str) -> Schemas:
        """A reference to a closed set of words; a set of a single word is a constant in its place."""
        words = schema.pop("enum")
        if len(words) == 1:
            return {"type": "string", **schema, "const": words[0]}
        name = self.names.setdefault(frozenset(words), owner)
        self.enums[name] = {"type": "string", "enum": words}
        schema.pop("type", None)  # beside the reference some generators make a second type of it
        return {**schema, "$ref": REFERENCE.format(name=name)}


def capitalised(name: str) -> str:
    """The name of a field as part of the name of a type."""
    return "".join(part[:1].upper() + part[1:] for part in name.split("_"))


def _described(description: str, default: Any) -> str:
    """A description with the default, where it does not name it."""
    text = cleandoc(description)  # Python 3.13 removes the indentation itself
    spelled = default if isinstance(default, str) else msgspec.json.encode(default).decode()
    if default in (None, [], {}) or "default" in text.lower() or "left out" in text.lower():
        return text
    return f"{text} Default `{spelled}`." if len(spelled) <= MAX_DEFAULT else text


def _names_of_literals() -> dict[frozenset[str], str]:
    """The names that closed sets of words have in the code, where a name stands for one set only."""
    named: dict[str, set[frozenset[str]]] = {}
    for name, words in _literals():
        named.setdefault(name, set()).add(words)
    return {words: name for name, (words, *others) in named.items() if not others}


def _literals() -> Iterator[tuple[str, frozenset[str]]]:
    """Names of closed sets of words and the words; the names that say no more than the words come last."""
    types = sorted(_module_values(), key=lambda item: item[0])
    for is_plain in (False, True):
        for name, value in types:
            kind = value if is_plain else get_args(value)[0] if get_origin(value) is Annotated else None
            if name[:1].isupper() and get_origin(kind) is Literal:
                yield name, frozenset(get_args(kind))
