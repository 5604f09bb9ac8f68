"""What a process keeps between requests is bounded in bytes."""

from importlib import import_module

from roundwright.web.middleware import MAX_PATH
from roundwright.web.routes import all_operations
from roundwright.web.routes.operation import CACHE_SIZE, MAX_CACHED_QUERY, Lookup

ROUTER_CACHE = 1_024
"""Entries of each of Litestar's two caches of paths."""
OVERHEAD = 1_024
"""Bytes of an entry beside its path and query: the tuple, the parsed request, the tag."""


def test_the_caches_of_addresses_are_small_at_their_fullest():
    """All look-ups with the longest queries that are kept, and the router full of the longest paths: under 8 MiB."""
    lookups = sum(isinstance(operation, Lookup) for operation in all_operations())
    parsed = lookups * CACHE_SIZE * (MAX_PATH + 3 * MAX_CACHED_QUERY + OVERHEAD)
    router = 2 * ROUTER_CACHE * (MAX_PATH + OVERHEAD)

    assert parsed + router < 8 * 2**20


def test_every_address_is_shorter_than_what_is_rejected():
    """No operation has a path that the middleware would reject unseen."""
    names = import_module("roundwright.reference").TABLES
    longest = max(len(operation.template) for operation in all_operations())

    assert longest + max(map(len, names)) < MAX_PATH
