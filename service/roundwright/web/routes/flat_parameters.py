"""A request as parameters of a path or query, derived from its schema.

A field of an object within the request is a parameter named by both: `gauge.stitches` is `gauge_stitches`. A quantity
is a number with its unit, `43cm`; a list of numbers is `12,13,12`, or the parameter several times. A list of objects
and a long text have no such form: a request that requires a field of this kind has none either, any other leaves the
field out.
"""

import re
from collections.abc import Collection, Mapping
from functools import cache
from itertools import takewhile
from typing import Any, Final, Literal, NamedTuple

import msgspec

MAX_TEXT: Final = 200
"""Characters of a text in a query: names and titles have fewer, and a written pattern does not fit into an address."""

_QUANTITY: Final = re.compile(r"(-?[0-9]+(?:\.[0-9]+)?)([a-z]+)")
_SCALAR: Final = re.compile(r"-?(?:0|[1-9][0-9]{0,30})(?:\.[0-9]{1,30})?(?:[eE][+-]?[0-9]{1,3})?|true|false")
_POSITIVE: Final = r"(?=[0-9]*[1-9]|[0-9]+\.[0-9]{0,2}[1-9])[0-9]{1,6}(\.[0-9]{1,20})?"
"""A number from 0.001 to below a million, the bounds of every quantity."""
_SIGNED: Final = r"-?[0-9]{1,6}(\.[0-9]{1,20})?"
_MAX_QUANTITY: Final = 36
"""Characters of a quantity: sign, six digits, point, twenty decimals and the longest unit."""


class Parameter(NamedTuple):
    """A parameter: where its value stands in the request, how it is written, and what it may be."""

    path: tuple[str, ...]
    form: Literal["text", "scalar", "quantity", "list"]
    schema: dict[str, Any]
    required: bool


@cache
def parameters_of(request_type: Any) -> Mapping[str, Parameter] | None:
    """The parameters of a request by name, or None for a request that has no form as parameters."""
    if request_type is None:
        return {}
    root = msgspec.json.schema(request_type)
    found = _of_object(_Node(root["$defs"], root), (), required=True)
    return None if found is None else {"_".join(parameter.path): parameter for parameter in found}


def left_out(request_type: Any) -> list[str]:
    """The fields of a request that its parameters cannot hold."""
    parameters = parameters_of(request_type) or {}
    held = {parameter.path[0] for parameter in parameters.values()}
    return [name for name in request_type.__struct_fields__ if name not in held]


def flat_schema(request_type: Any) -> dict[str, Any]:
    """The schema of the parameters, as of an object."""
    parameters = parameters_of(request_type) or {}
    return {
        "type": "object",
        "properties": {name: parameter.schema for name, parameter in parameters.items()},
        "required": [name for name, parameter in parameters.items() if parameter.required],
        "additionalProperties": False,
    }


def read_text(parameter: Parameter, text: str) -> Any:
    """The value that a parameter's text stands for; a text that stands for none is left as it is."""
    match parameter.form:
        case "scalar":
            return _scalar(text)
        case "list":
            return [_scalar(item) for item in text.split(",")] if text else []
        case _:
            return text


def nested(request_type: Any, values: Mapping[str, Any]) -> dict[str, Any]:
    """The request that parameters stand for. Raises `ValidationError` for an unknown parameter or a wrong quantity."""
    parameters = parameters_of(request_type) or {}
    request: dict[str, Any] = {}
    for name, value in values.items():
        if name not in parameters:
            raise msgspec.ValidationError
        parameter = parameters[name]
        *outer, last = parameter.path
        place = request
        for step in outer:
            place = place.setdefault(step, {})
        place[last] = _quantity(value) if parameter.form == "quantity" else value
    return request


def flattened(request_type: Any, request: Any) -> dict[str, Any]:
    """The parameters that stand for a request given as JSON values, without what they cannot hold."""
    return {
        name: _written(value)
        for name, parameter in (parameters_of(request_type) or {}).items()
        if (value := _value_at(request, parameter.path)) is not None
    }


def nearest_parameter(request_type: Any, pointer: str) -> str:
    """The parameter that a pointer into the request means, or the first below or beside it."""
    steps = tuple(pointer.removeprefix("#").split("/")[1:])
    parameters = parameters_of(request_type) or {}
    return max(parameters, key=lambda name: _steps_shared(parameters[name].path, steps))


# The walk through the schema.


class _Node:
    """A part of a schema, with what it refers to."""

    def __init__(self, definitions: Mapping[str, Any], schema: Mapping[str, Any]) -> None:
        self.definitions = definitions
        parts = [part for part in schema.get("anyOf", ()) if part != {"type": "null"}]
        self.is_union = len(parts) > 1
        self.schema = {key: value for key, value in schema.items() if key not in ("anyOf", "$ref", "title")}
        if self.schema.get("default", ()) is None:
            del self.schema["default"]
        inner = parts[0] if len(parts) == 1 else schema if "$ref" in schema else {}
        if "$ref" in inner:
            inner = definitions[inner["$ref"].removeprefix("#/$defs/")]
        self.schema = {**inner, **self.schema}

    def child(self, name: str) -> "_Node":
        """The property of an object."""
        return _Node(self.definitions, self.schema["properties"][name])


def _of_object(node: _Node, path: tuple[str, ...], *, required: bool) -> list[Parameter] | None:
    """The parameters of an object, or None if it requires what is not flat."""
    found: list[Parameter] = []
    always = node.schema.get("required", ())
    for name in node.schema["properties"]:
        inner = _of_node(node.child(name), (*path, name), required=required and name in always)
        if inner is None and name in always:
            return None
        for parameter in inner or ():
            described = _with_whole_names(parameter.schema, path, node.schema["properties"])
            if not required:
                # A client that sends defaults must not send a part of an object that is left out.
                described.pop("default", None)
            found.append(parameter._replace(schema=described))
    return found


def _with_whole_names(
    schema: dict[str, Any], outer: tuple[str, ...], names: Collection[str]
) -> dict[str, Any]:
    """The schema of a parameter, with the names of parameters for the fields beside it in the description."""

    def whole(match: re.Match[str]) -> str:
        return f"`{'_'.join((*outer, match[1]))}`" if match[1] in names else match[0]

    return schema | {"description": re.sub(r"`(\w+)`", whole, schema.get("description", ""))}


def _of_node(node: _Node, path: tuple[str, ...], *, required: bool) -> list[Parameter] | None:
    schema = node.schema
    match schema.get("type"):
        case "object" if schema["properties"].keys() == {"value", "unit"}:
            return [Parameter(path, "quantity", _quantity_schema(node), required)]
        case "object":
            return _of_object(node, path, required=required)
        case "array":
            if schema.get("items", {}).get("type") not in ("integer", "number"):
                return None
            return [Parameter(path, "list", schema, required)]
        case "number" | "integer" | "boolean":
            return [Parameter(path, "scalar", schema, required)]
        case "string" if schema.get("maxLength", 0) > MAX_TEXT:
            return None
        case _ if node.is_union:
            return None
        case _:
            return [Parameter(path, "text", schema, required)]


def _quantity_schema(node: _Node) -> dict[str, Any]:
    """The schema of a quantity as text."""
    value, units = node.child("value").schema, node.child("unit").schema["enum"]
    number = _POSITIVE if value["minimum"] > 0 else _SIGNED
    example = f"{value.get('examples', [4])[0]}{'cm' if 'cm' in units else units[0]}"
    if "examples" in node.schema:  # of the place
        example = _written(node.schema["examples"][0])
    schema = {
        "description": node.schema.get("description", ""),
        "type": "string",
        "pattern": f"^{number}({'|'.join(units)})$",
        "maxLength": _MAX_QUANTITY,
        "examples": [example],
    }
    if "default" in node.schema:
        schema["default"] = _written(node.schema["default"])
    return schema


# Values.


def _scalar(text: str) -> Any:
    """The number or boolean that a text spells in JSON, otherwise the text itself."""
    if not _SCALAR.fullmatch(text):
        return text
    try:
        return msgspec.json.decode(text)
    except msgspec.DecodeError:  # out of the range of a float
        return text


def _quantity(text: str) -> dict[str, Any]:
    match = _QUANTITY.fullmatch(text)
    if match is None or len(text) > _MAX_QUANTITY:
        raise msgspec.ValidationError
    return {"value": float(match[1]), "unit": match[2]}


def _written(value: Any) -> Any:
    """A quantity as text; any other value as it is."""
    if isinstance(value, dict):
        return f"{value['value']!r}".removesuffix(".0") + str(value["unit"])
    return value


def _value_at(request: Any, path: tuple[str, ...]) -> Any:
    for step in path:
        request = request.get(step) if isinstance(request, dict) else None
    return request


def _steps_shared(path: tuple[str, ...], steps: tuple[str, ...]) -> int:
    return sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], zip(path, steps, strict=False)))
