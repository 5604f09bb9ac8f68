"""Every place in a request where a list or a text may stand, and how to put something there."""

from collections.abc import Iterator
from typing import Any

from msgspec import inspect

from tests.long.making import Maker

Path = tuple[str | int, ...]


def places(
    kind: Any, sought: type, above: tuple[Any, ...] = (), path: Path = ()
) -> Iterator[tuple[Path, Any]]:
    """The way to each bounded list or text (`sought`) of a struct; structs within themselves are entered once."""
    if isinstance(kind, sought) and kind.max_length is not None:  # type: ignore[attr-defined]
        yield path, kind
    match kind:
        case inspect.Metadata():
            yield from places(kind.type, sought, above, path)
        case inspect.UnionType():
            for option in kind.types:
                yield from places(option, sought, above, path)
        case inspect.StructType() if kind.cls not in above:
            for field in kind.fields:
                yield from places(field.type, sought, (*above, kind.cls), (*path, field.encode_name))
        case inspect.VarTupleType():
            yield from places(kind.item_type, sought, above, (*path, 0))


def put(maker: Maker, kind: Any, value: Any, path: Any, filled: Any) -> Any:
    """A value with something put in at the end of a way; what is missing on the way is made up."""
    if not path:
        return filled
    step, *rest = path
    kind = kind.type if isinstance(kind, inspect.Metadata) else kind
    if isinstance(kind, inspect.UnionType):
        kind = next(option for option in kind.types if _leads(option, step))
        kind = kind.type if isinstance(kind, inspect.Metadata) else kind
    if isinstance(kind, inspect.StructType):
        value = dict(value) if isinstance(value, dict) and _tagged(kind, value) else maker.value(kind, 5)
        inner = next(field.type for field in kind.fields if field.encode_name == step)
        return value | {step: put(maker, inner, value.get(step), rest, filled)}
    value = list(value) if isinstance(value, list) and value else [maker.value(kind.item_type, 5)]
    return [put(maker, kind.item_type, value[0], rest, filled), *value[1:]]


def _tagged(kind: Any, value: Any) -> bool:
    return kind.tag_field is None or value.get(kind.tag_field) == kind.tag


def _leads(kind: Any, step: Any) -> bool:
    kind = kind.type if isinstance(kind, inspect.Metadata) else kind
    if isinstance(kind, inspect.StructType):
        return step in [field.encode_name for field in kind.fields]
    return isinstance(kind, inspect.VarTupleType) and step == 0
