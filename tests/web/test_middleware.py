"""What a process keeps between requests is bounded in bytes."""

import gc
import tracemalloc
from functools import lru_cache
from importlib import import_module
from typing import Any

import msgspec

from roundwright.knitting.crown.styles import STYLES
from roundwright.web.middleware import MAX_PATH
from roundwright.web.routes import all_operations
from roundwright.web.routes.operation import CACHE_SIZE, MAX_CACHED_QUERY, Lookup
from roundwright.web.routes.picture_file import PictureFile
from tests.load.worst import KEPT
from tests.long.asking import Service

ROUTER_CACHE = 1_024
"""Entries of each of Litestar's two caches of paths."""
OVERHEAD = 1_024
"""Bytes of an entry beside its path and query: the tuple, the parsed request, the tag."""


def test_the_caches_of_addresses_are_small_at_their_fullest():
    """All look-ups with the longest queries that are kept, and the router full of the longest paths: under 8 MiB."""
    operations = all_operations()
    lookups = sum(
        isinstance(operation, Lookup) and not isinstance(operation, PictureFile) for operation in operations
    )
    parsed = lookups * CACHE_SIZE * (MAX_PATH + 3 * MAX_CACHED_QUERY + OVERHEAD)
    router = 2 * ROUTER_CACHE * (MAX_PATH + OVERHEAD)

    assert parsed + router < 8 * 2**20


def test_all_caches_together_are_small_at_their_fullest():
    """Every cache that is bounded in entries, full of what the dearest requests leave in it: under 24 MiB."""
    service = Service()
    _ask_for_the_dearest(service, 0)  # tables and words are read once
    caches = _caches()
    for cache in caches:
        cache.cache_clear()
    gc.collect()
    gc.freeze()  # what other tests left is not gone through again for every cache
    tracemalloc.start()
    try:
        for turn in range(1, 3):
            _ask_for_the_dearest(service, turn)
        full = {cache.__wrapped__.__qualname__: _bytes_when_full(cache) for cache in caches}
    finally:
        tracemalloc.stop()
        gc.unfreeze()

    assert {"_work_crown", "estimate", "decrease_evenly"} <= full.keys()
    assert sum(full.values()) < 24 * 2**20, sorted(full.items(), key=lambda item: -item[1])[:6]


def _ask_for_the_dearest(service: Service, turn: int) -> None:
    """Ask for the largest crown of every style and for the dearest requests known, with numbers of this turn."""
    crowns = {
        f"crown {style}": {"stitches": 600 - turn, "style": style, "needles": 5, "tolerance": 24}
        for style in STYLES
    }
    known = {file.stem: msgspec.json.decode(file.read_bytes())["request"] for file in KEPT.glob("*.json")}
    operations = {str(operation.id): operation for operation in all_operations()}
    for name, request in {**crowns, **known}.items():
        operation = operations.get(
            "closeCrown" if name in crowns else name
        )  # None: a page, which keeps nothing
        if operation and "application/json" in operation.renderers and name != "proofreadPattern":
            service.ask_for(operation, msgspec.json.encode(_varied(request, turn)), "application/json")


def _varied(value: Any, turn: int, name: str = "") -> Any:
    """A request with other measures, so that nothing kept answers it."""
    if isinstance(value, dict):
        return {key: _varied(held, turn, key) for key, held in value.items()}
    if isinstance(value, list):
        return [_varied(held, turn, name) for held in value]
    if name in ("stitches", "value", "rows") and isinstance(value, float):
        return value * (1 + turn / 1_000)
    is_large = name == "stitches" and isinstance(value, int) and value >= 300
    return value - turn if is_large else value


def _caches() -> list[Any]:
    """The caches of this package that are bounded in entries."""
    kind = type(lru_cache(len))
    caches = [found for found in gc.get_objects() if isinstance(found, kind)]
    return [
        cache
        for cache in caches
        if cache.__wrapped__.__module__.startswith("roundwright") and cache.cache_parameters()["maxsize"]
    ]


def _bytes_when_full(cache: Any) -> float:
    """What the entries of a cache hold, as many times as it has room for them; it is empty afterwards."""
    kept, room = cache.cache_info().currsize, cache.cache_parameters()["maxsize"]
    gc.collect()
    before = tracemalloc.get_traced_memory()[0]
    cache.cache_clear()
    gc.collect()
    freed = before - tracemalloc.get_traced_memory()[0]
    return max(0, freed) * room / max(1, kept)


def test_every_address_is_shorter_than_what_is_rejected():
    """No operation has a path that the middleware would reject unseen."""
    names = import_module("roundwright.reference").TABLES
    longest = max(len(operation.template) for operation in all_operations())

    assert longest + max(map(len, names)) < MAX_PATH
