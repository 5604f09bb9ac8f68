"""The faults of a request that is not as described: all of them, each with its place, in plain words.

msgspec stops at the first fault, so what it refuses is read again by the schema of the request (`jsonschema_rs`).
"""

import re
from collections.abc import Callable, Iterable, Iterator
from functools import cache
from math import ceil, floor
from typing import Any, Final

import msgspec

from roundwright.web.problems import Fault, FaultCode, did_you_mean, same_meaning, shortened
from roundwright.web.routes.meant import (
    boolean_meant,
    change_meant,
    is_quantity,
    list_meant,
    number_meant,
    quantity_meant,
    text_meant,
)

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
_TYPES: Final[dict[str | None, tuple[type, ...]]] = {
    "integer": (int,), "number": (int, float), "string": (str,), "object": (dict,),
}  # fmt: skip
MAX_WHOLE: Final = 1e9
"""A fraction above this is no count of stitches, so no whole number beside it is named."""
_PLACE: Final = re.compile(r" - at (?:`key` in )?`\$(?P<path>.*)`\Z", re.DOTALL)
_STEP: Final = re.compile(r"\.([^.\[]+)|\[(\d+)\]")

Steps = tuple[str | int, ...]
SchemaOf = Callable[[Any], dict[str, Any]]
"""Makes the schema of a type of request: of its body, or of its parameters."""


def faults_of(value: Any, schema_of: SchemaOf, request_type: Any) -> tuple[Fault, ...]:
    """The faults of a decoded request, in the order of its schema; none for what a schema cannot say.

    Missing fields stand behind the others: most often the field is there under a misspelt name, which is to be first.
    """
    schema = _Schema.of(schema_of, request_type)
    faults: dict[Fault, None] = {}
    try:
        for fault in schema.faults(schema.validator.iter_errors(value)):
            faults[fault] = None
            if len(faults) == MOST_FAULTS:  # thousands more would each be put into words for nobody
                break
    except ValueError:  # a number that no float holds
        return ()
    return tuple(sorted(faults, key=lambda fault: fault.code == "missing_field"))


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
        node = self.node(error.evaluation_path[:-1])
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
            meaning = "" if steps[-1:] == ("value",) else self.meaning(error)
            bound = _only_number(self.node(error.evaluation_path[:-1])) or _BOUNDS[kind.name].format(
                _plain(kind.limit)
            )
            return _fault("out_of_range", f"This must be {bound}.{meaning}", steps)
        if kind.name in _LENGTHS:
            return self.wrong_length(error)
        return self.wrong_form(error)

    def wrong_length(self, error: Any) -> Fault:
        """The fault of a text or a list with too little or too much in it."""
        kind, value = error.kind, error.instance
        if isinstance(value, list) and len(value) == 1 and isinstance(value[0], str) and list_meant(value[0]):
            return self.wrong_separator(value[0], error.instance_path)
        words = _LENGTHS[kind.name].format(kind.limit)
        plural = words if kind.limit == 1 else words.replace("entry", "entrie") + "s"
        example = self.such_as(self.node(error.evaluation_path[:-1])) if value == [] else ""
        return _fault("wrong_length", f"This must have {plural}{example}.", tuple(error.instance_path))

    def wrong_separator(self, text: str, steps: list[str | int]) -> Fault:
        """The fault of a list whose numbers have no commas between them."""
        return _fault("wrong_form", f"This is a list with commas: write {list_meant(text)}.", tuple(steps))

    def wrong_form(self, error: Any) -> Fault:
        """The fault of a text that does not fit its pattern."""
        node, text, pattern = (
            self.node(error.evaluation_path[:-1]),
            str(error.instance),
            str(error.kind.pattern),
        )
        example = f"such as {node['examples'][0]}" if "examples" in node else ""
        if is_quantity(pattern):
            number, unit = quantity_meant(text, [""]) or (None, None)
            if number and unit is None and "examples" in node:
                example = f"such as {number}{node['examples'][0].lstrip('0123456789.')}"
            must = "This must be a number and its unit, with a decimal point and no blank"
        else:
            must = "This must have another form"
        meant = text_meant(text, pattern)
        rest = f": write {meant}" if meant else f", {example}" if example else ""
        return _fault("wrong_form", f"{must}{rest}.", tuple(error.instance_path))

    def missing(self, error: Any, name: str) -> Fault:
        """The fault of an object without a required field."""
        properties = self.node(error.evaluation_path[:-1]).get("properties", {})
        field = properties.get(name, {})
        example = self.one_of(field) or self.such_as(field)
        meaning = "" if example else _first_sentence(field)
        return _fault(
            "missing_field",
            f"The field {name!r} is required{example}.{meaning}",
            (*error.instance_path, name),
        )

    def unknown(self, error: Any, name: str) -> Fault:
        """The fault of an object with a field that it does not have."""
        names = self.node(error.evaluation_path[:-1]).get("properties", {})
        outer = error.instance_path[0] if error.instance_path else ""
        parts = [known for known in names if known.startswith(f"{name}_")]
        if outer and name in self.node([]).get("properties", {}):
            meant = f" It stands beside {outer!r}, not in it."
        elif len(parts) > 1:  # an object of the body, of which a link has the fields: `gauge=18`
            meant = f" There are: {', '.join(parts)}."
        elif "change" in names and (change := change_meant(name, error.instance[name])):
            meant = f" Perhaps 'change' of {change} is meant."
        else:
            meant = did_you_mean(name, names) or (
                f" The fields here are: {', '.join(names)}." if names else ""
            )
        detail = f"Unknown field {shortened(name, MAX_NAME)!r}.{meant}"
        return _fault("unknown_field", detail, (*error.instance_path, name))

    def choice(self, value: Any, options: list[Any], steps: Steps) -> Fault:
        """The fault of a value outside a closed set."""
        meant = did_you_mean(value, map(str, options)) if isinstance(value, str) else ""
        must = ", ".join(str(option) for option in options)
        prefix = "one of: " if len(options) > 1 else ""
        return _fault("unknown_value", f"This must be {prefix}{must}.{meant}", steps)

    def wrong_type(self, error: Any, types: list[str]) -> Fault:
        """The fault of a value of another type, with what it may have meant."""
        value, node = error.instance, self.node(error.evaluation_path[:-1])
        wanted = " or ".join(dict.fromkeys(_WORDS[name] for name in types if name != "null"))
        *outer, last = error.instance_path or [""]
        if isinstance(last, int) and isinstance(value, str) and list_meant(value):
            return self.wrong_separator(value, outer)
        is_empty = isinstance(value, str) and not value.strip()
        detail = f"This {'is empty: it ' if is_empty else ''}must be {wanted}"
        detail += "" if is_empty else f", not {_in_words(value)}"
        return _fault(
            "wrong_type", f"{detail}{self.instead(value, node, types)}.", tuple(error.instance_path)
        )

    def instead(self, value: Any, node: dict[str, Any], types: list[str]) -> str:
        """What to write in place of a value of another type, as the end of a sentence."""
        if {"integer", "number"} & set(types) and isinstance(value, str) and (number := number_meant(value)):
            if number == value.strip():
                return f": write {number} without quotation marks"
            if "number" in types or "." not in number:
                return f": write {number}{', with a decimal point' if ',' in value else ''}"
        if only := _only_number(node):
            return f": write {only}"
        if "integer" in types and isinstance(value, float):
            return f": write {floor(value)} or {ceil(value)}" if abs(value) < MAX_WHOLE else ""
        if "boolean" in types and isinstance(value, str) and (answer := boolean_meant(value)):
            return f": write {answer}"
        if types == ["array"] and self.is_entry(value, node):
            text = msgspec.json.encode([value]).decode()
            return f": write {text}" if len(text) <= MAX_EXAMPLE else self.such_as(node)
        if "object" in types and (written := self.quantity(value, node) or self.field_meant(value, node)):
            return written
        return self.such_as(node)

    def is_entry(self, value: Any, node: dict[str, Any]) -> bool:
        """Whether a value may be an entry of the list that a schema describes."""
        kind = self.resolved(node.get("items", {})).get("type", "object")  # else one of several objects
        return (
            isinstance(value, _TYPES.get(kind, ())) and not isinstance(value, bool) and value not in ({}, "")
        )

    def quantity(self, value: Any, node: dict[str, Any]) -> str:
        """A number, or a number and its unit in a text, as the object that a quantity is; empty for another object."""
        for part in node.get("anyOf", (node,)):
            fields = self.resolved(part).get("properties", {})
            if fields.keys() == {"value", "unit"}:
                units = self.resolved(fields["unit"])["enum"]
                number, unit = quantity_meant(value, units) or ("", None)
                if number:
                    text = f'{{"value":{number},"unit":"{unit or self.example(node)["unit"]}"}}'
                    # A unit that nobody wrote is no unit to copy: 4 in are not 4 cm.
                    return (
                        f": write {text}" if unit else f", with its unit ({', '.join(units)}), such as {text}"
                    )
        return ""

    def field_meant(self, value: Any, node: dict[str, Any]) -> str:
        """A word in place of an object that has a field for it: `"ribbed"` is `{"kind":"ribbed"}`; else empty."""
        if not isinstance(value, str):
            return ""
        fields: dict[str, str] = {}
        for part in node.get("anyOf", (node,)):
            for name, field in self.resolved(part).get("properties", {}).items():
                fields = dict.fromkeys(self.words(field), name) | fields
        meant = same_meaning(value, fields)
        return f': write {{"{fields[meant]}":"{meant}"}}' if meant else ""

    def words(self, field: dict[str, Any]) -> list[str]:
        """The closed set of words of a field; empty where it has none."""
        resolved = self.resolved(field)
        alternatives = [self.resolved(part) for part in resolved.get("anyOf", (resolved,))]
        return next((list(part["enum"]) for part in alternatives if "enum" in part), [])

    def one_of(self, field: dict[str, Any]) -> str:
        """The closed set of words of a field, as the end of a sentence; empty without one, and where it is long."""
        text = ", ".join(self.words(field))
        return f": one of {text}" if 0 < len(text) <= MAX_EXAMPLE else ""

    def meaning(self, error: Any) -> str:
        """What a field is, as a sentence that begins with a blank; empty where the schema does not say."""
        described: Any = {}
        found: Any = self.root
        inside = False
        for step in error.evaluation_path:
            found = self.resolved(found) if step == "$ref" else found[step]
            described = found if inside else described
            inside = step == "properties"
        return _first_sentence(described)

    def node(self, path: list[str | int]) -> dict[str, Any]:
        """The part of the schema at a path."""
        found: Any = self.root
        for step in path:
            found = self.resolved(found) if step == "$ref" else found[step]
        return self.resolved(found)

    def resolved(self, schema: Any) -> dict[str, Any]:
        """The schema that a reference stands for, with what its place says beside it; or the schema itself."""
        if isinstance(schema, dict) and "$ref" in schema:
            beside = {key: value for key, value in schema.items() if key != "$ref"}
            schema = self.root["$defs"][schema["$ref"].removeprefix("#/$defs/")] | beside
        found: dict[str, Any] = schema
        return found

    def such_as(self, schema: dict[str, Any]) -> str:
        """A value that a schema allows, as the end of a sentence; empty where it is long or says nothing."""
        example = self.example(schema)
        says_something = isinstance(example, dict | list) or "examples" in schema
        shown = schema.get("examples") or [example]
        text = " or ".join(msgspec.json.encode(value).decode() for value in shown)
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
            if self.words(field):
                return [name]
        return [name for name, field in properties.items() if field.get("default") is not None]


def _first_sentence(schema: dict[str, Any]) -> str:
    """The first sentence of a description, with a blank before it; empty without one."""
    sentence = str(schema.get("description", "")).partition(". ")[0].removesuffix(".")
    return f" {sentence}." if 0 < len(sentence) <= MAX_EXAMPLE else ""


def _only_number(node: dict[str, Any]) -> str | None:
    """The number that a schema allows, where it is but one: there are two circulars, not at least and at most two."""
    for branch in node.get("anyOf", (node,)):
        least = branch.get("minimum")
        if least is not None and least == branch.get("maximum"):
            return _plain(least)
    return None


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
