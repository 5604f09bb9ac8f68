"""The faults of a request that is not as described: all of them, each with its place, in plain words.

msgspec stops at the first fault, so what it refuses is read again by the schema of the request (`jsonschema_rs`).
"""

import re
from collections.abc import Callable, Iterable, Iterator
from functools import cache
from itertools import islice
from typing import Any, Final

import msgspec

from roundwright.web.problems import Fault, FaultCode, did_you_mean, shortened

MOST_FAULTS: Final = 20
"""Faults that one problem names; who has more of them sends another kind of request."""

MAX_NAME: Final = 100
"""Characters of an unknown name that the problem repeats."""

MAX_EXAMPLE: Final = 160
"""Characters of an example value; a longer one stands in the document."""

_WORDS: Final = {
    "integer": "a whole number", "number": "a number", "string": "text", "boolean": "true or false", "null": "null",
    "object": "an object", "array": "a list",
}  # fmt: skip
_BOUNDS: Final = {
    "minimum": "at least {}", "maximum": "at most {}", "exclusiveMinimum": "more than {}",
    "exclusiveMaximum": "less than {}",
}  # fmt: skip
_LENGTHS: Final = {
    "minLength": "at least {} character", "maxLength": "at most {} character", "minItems": "at least {} entry",
    "maxItems": "at most {} entry",
}  # fmt: skip
_DECIMAL_COMMA: Final = re.compile(r"\s{0,9}(-?\d{1,9}),(\d{1,9})\D{0,9}")
_NUMBER: Final = re.compile(r"\s*-?\d+(\.\d+)?\s*")
_PLACE: Final = re.compile(r" - at (?:`key` in )?`\$(?P<path>.*)`\Z", re.DOTALL)
_STEP: Final = re.compile(r"\.([^.\[]+)|\[(\d+)\]")

Steps = tuple[str | int, ...]
SchemaOf = Callable[[Any], dict[str, Any]]
"""Makes the schema of a type of request: of its body, or of its parameters."""


def faults_of(value: Any, schema_of: SchemaOf, request_type: Any) -> tuple[Fault, ...]:
    """The faults of a decoded request, in the order of its schema; none for what a schema cannot say."""
    schema = _Schema.of(schema_of, request_type)
    try:
        return tuple(islice(schema.faults(schema.validator.iter_errors(value)), MOST_FAULTS))
    except ValueError:  # a number that no float holds
        return ()


def fault_of_refusal(refusal: str) -> Fault:
    """The fault in what msgspec said, where a schema finds none: `... - at `$.gauge.stitches``."""
    place = _PLACE.search(refusal)
    steps = tuple(name or index for name, index in _STEP.findall(place["path"])) if place else ()
    return _fault("invalid", f"{refusal[: place.start()] if place else refusal}.", steps)


def _fault(code: FaultCode, detail: str, steps: Steps) -> Fault:
    path = "".join(f"/{str(step).replace('~', '~0').replace('/', '~1')}" for step in steps)
    return Fault(detail=detail, pointer=f"#{path}", code=code)


class _Schema:
    """The schema of a request, and its faults put into words."""

    def __init__(self, root: dict[str, Any]) -> None:
        from jsonschema_rs import validator_for  # 10 ms, and only for what is refused

        self.root = root
        self.validator = validator_for(self.root)

    @staticmethod
    @cache
    def of(schema_of: SchemaOf, request_type: Any) -> "_Schema":
        """The schema of a type of request, made once."""
        return _Schema(schema_of(request_type))

    def faults(self, errors: Iterable[Any]) -> Iterator[Fault]:
        """The faults that errors of the validator stand for."""
        for error in errors:
            match error.kind.name:
                case "required":
                    yield self.missing(error, error.kind.property)
                case "additionalProperties":
                    for name in error.kind.unexpected:
                        yield self.unknown(error, name)
                case "anyOf":
                    yield from self.of_branches(error)
                case _:
                    yield self.of_value(error)

    def of_branches(self, error: Any) -> Iterator[Fault]:
        """The faults of a value that is none of several: those of the branch that was meant."""
        steps = error.instance_path
        branches: list[list[Any]] = [branch for branch in error.kind.context if not _is_of_null(branch)]
        node = self.node(error.schema_path[:-1])
        if (tag := node.get("discriminator", {}).get("propertyName")) and isinstance(error.instance, dict):
            tags = list(node["discriminator"]["mapping"])
            if tag not in error.instance:
                yield self.missing(error, tag)
            elif (meant := error.instance[tag]) in tags:
                yield from self.faults(branches[tags.index(meant)])
            else:
                yield self.choice(meant, tags, (*error.instance_path, tag))
        elif all(_is_of_type(branch, steps) for branch in branches):
            types = [kind for branch in error.kind.context for kind in branch[0].kind.types]
            yield self.wrong_type(error, types)
        else:
            meant_as = [branch for branch in branches if not _is_of_type(branch, steps)]
            nearest: list[Any] = min(meant_as, key=len)
            yield from self.faults(nearest)

    def of_value(self, error: Any) -> Fault:
        """The fault of a value that has the wrong type, size or form."""
        kind, steps = error.kind, tuple(error.instance_path)
        if kind.name == "type":
            return self.wrong_type(error, kind.types)
        if kind.name == "enum":
            return self.choice(error.instance, kind.options, steps)
        if kind.name in _BOUNDS:
            return _fault(
                "out_of_range", f"This must be {_BOUNDS[kind.name].format(_plain(kind.limit))}.", steps
            )
        if kind.name in _LENGTHS:
            words = _LENGTHS[kind.name].format(kind.limit)
            plural = words if kind.limit == 1 else words.replace("entry", "entrie") + "s"
            return _fault("wrong_length", f"This must be {plural}.", steps)
        node = self.node(error.schema_path[:-1])
        form = f", such as {node['examples'][0]}" if "examples" in node else ""
        comma = ", with a decimal point" if _DECIMAL_COMMA.fullmatch(str(error.instance)) else ""
        return _fault("wrong_form", f"This is not written as it must be{form}{comma}.", steps)

    def missing(self, error: Any, name: str) -> Fault:
        """The fault of an object without a required field."""
        properties = self.node(error.schema_path[:-1]).get("properties", {})
        example = self.such_as(properties.get(name, {}))
        return _fault(
            "missing_field", f"The field {name!r} is required{example}.", (*error.instance_path, name)
        )

    def unknown(self, error: Any, name: str) -> Fault:
        """The fault of an object with a field that it does not have."""
        names = self.node(error.schema_path[:-1]).get("properties", {})
        meant = did_you_mean(name, names) or (f" The fields here are: {', '.join(names)}." if names else "")
        detail = f"Unknown field {shortened(name, MAX_NAME)!r}.{meant}"
        return _fault("unknown_field", detail, (*error.instance_path, name))

    def choice(self, value: Any, options: list[Any], steps: Steps) -> Fault:
        """The fault of a value outside a closed set."""
        meant = did_you_mean(value, map(str, options)) if isinstance(value, str) else ""
        must = ", ".join(str(option) for option in options)
        one_of = "one of: " if len(options) > 1 else ""
        return _fault("unknown_value", f"This must be {one_of}{must}.{meant}", steps)

    def wrong_type(self, error: Any, types: list[str]) -> Fault:
        """The fault of a value of another type, with what it may have meant."""
        value = error.instance
        wanted = " or ".join(dict.fromkeys(_WORDS[name] for name in types))
        detail = f"This must be {wanted}, not {_in_words(value)}"
        if {"integer", "number"} & set(types) and isinstance(value, str):
            if comma := _DECIMAL_COMMA.fullmatch(value):
                detail += f": write {comma[1]}.{comma[2]}, with a decimal point"
            elif _NUMBER.fullmatch(value):
                detail += f": write {value.strip()} without quotation marks"
        elif {"object", "array"} & set(types):
            detail += self.such_as(self.node(error.schema_path[:-1]))
        return _fault("wrong_type", f"{detail}.", tuple(error.instance_path))

    def node(self, path: list[str | int]) -> dict[str, Any]:
        """The part of the schema at a path."""
        found: Any = self.root
        for step in path:
            found = self.resolved(found) if step == "$ref" else found[step]
        return self.resolved(found)

    def resolved(self, schema: Any) -> dict[str, Any]:
        """The schema that a reference stands for, or the schema itself."""
        if isinstance(schema, dict) and "$ref" in schema:
            schema = self.root["$defs"][schema["$ref"].removeprefix("#/$defs/")]
        found: dict[str, Any] = schema
        return found

    def such_as(self, schema: dict[str, Any]) -> str:
        """A value that a schema allows, as the end of a sentence; empty where it is long or says nothing."""
        example = self.example(schema)
        text = msgspec.json.encode(example).decode()
        says_something = isinstance(example, dict | list) or "examples" in schema
        return f", such as {text}" if example and says_something and len(text) <= MAX_EXAMPLE else ""

    def example(self, schema: dict[str, Any]) -> Any:
        """A value that a schema allows: its own example, or what its parts allow."""
        if "examples" in schema:  # of the place; what it refers to may have another
            return schema["examples"][0]
        schema = self.resolved(schema)
        for given in ("examples", "enum"):
            if given in schema:
                return schema[given][0]
        if "anyOf" in schema:
            return self.example(schema["anyOf"][0])
        if schema.get("type") == "object":
            properties = schema.get("properties", {})
            required = schema.get("required") or self.telling(properties)
            return {name: self.example(properties[name]) for name in required}
        if schema.get("type") == "array":
            return [self.example(schema.get("items", {}))]
        return schema.get("default", schema.get("minimum"))

    def telling(self, properties: dict[str, Any]) -> list[str]:
        """The first property with an example, else with a closed set of values, for an object that requires none."""
        for name, field in properties.items():
            if "examples" in field:
                return [name]
        for name, field in properties.items():
            alternatives = [self.resolved(part) for part in field.get("anyOf", (field,))]
            if any("enum" in part for part in alternatives):
                return [name]
        return []


def _plain(limit: float) -> str:
    """A number as people write it: `50`, not `50.0`."""
    return str(int(limit)) if float(limit).is_integer() else str(limit)


def _is_of_type(branch: list[Any], steps: list[str | int]) -> bool:
    """Whether a branch failed only since the value at a place has another type."""
    return len(branch) == 1 and branch[0].kind.name == "type" and branch[0].instance_path == steps


def _is_of_null(branch: list[Any]) -> bool:
    return len(branch) == 1 and branch[0].kind.name == "type" and branch[0].kind.types == ["null"]


def _in_words(value: Any) -> str:
    match value:
        case bool():
            return "true or false"
        case None:
            return "null"
        case int():
            return "a whole number"
        case float():
            return "a fraction"
        case str():
            return "text"
        case dict():
            return "an object"
        case _:
            return "a list"
