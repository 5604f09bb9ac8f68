"""Who calls, and how often: API keys and the rate of requests. Both are off unless they are set.

A key is 256 random bits, so a fast hash is enough to keep it by: nobody finds it by trying, hashed or not. What is kept
in memory and compared is the hash alone.
"""

import hmac
from collections import OrderedDict
from collections.abc import Iterable
from functools import lru_cache
from hashlib import sha256
from ipaddress import IPv4Address, IPv6Address, IPv6Network, ip_address, ip_network
from math import ceil
from pathlib import Path
from re import fullmatch
from secrets import token_urlsafe
from time import monotonic
from typing import Final

from litestar.types import HTTPScope

from roundwright.web.problems import Refusal
from roundwright.web.settings import KEY_LINE, MOST_KEYS, NoSetting, Settings

CALLER: Final = "roundwright.caller"
"""Key of the scope's state under which the name of the caller's key is kept for the log."""

GUARDED: Final = "/v1/"
"""Where keys are asked for: what is calculated and looked up. What the service says of itself is for everybody."""

UNCOUNTED: Final = "/health/"
"""Where no rate holds: whoever probes must not be told to wait."""

_SCHEME: Final = b"bearer "
_CHALLENGE: Final = b'Bearer realm="roundwright"'
_KEY_BYTES: Final = 32
"""256 bits."""
_HOMES: Final = 64
"""Bits of an IPv6 address that name a household: who has one address has all that share these."""


def new_key(name: str) -> tuple[str, str]:
    """A new key, and the line by which the service will know it. Raises `NoSetting` for a name that will not do."""
    key = token_urlsafe(_KEY_BYTES)
    line = f"{name}:{sha256(key.encode()).hexdigest()}"
    if not fullmatch(KEY_LINE, line):
        raise NoSetting(
            f"{name!r} will not do: a key's name is up to 64 letters, digits, dots, dashes and underscores."
        )
    return key, line


class Gate:
    """Lets callers pass, or not. One for each process."""

    def __init__(self, settings: Settings) -> None:
        self.keys = [(line.rpartition(":")[0], bytes.fromhex(line[-64:])) for line in key_lines(settings)]
        self.rate = Rate(settings) if settings.rate_per_minute else None
        try:
            self.proxies = [ip_network(one) for one in settings.trusted_proxies]
        except ValueError as error:
            raise NoSetting(f"{error} (trusted_proxies)") from error

    @property
    def is_shut(self) -> bool:
        """Whether there is anything to see to."""
        return bool(self.keys) or self.rate is not None

    def admit(self, scope: HTTPScope, headers: dict[bytes, bytes]) -> None:
        """Raise a refusal for a caller without a key where one is asked for, or who asks too often."""
        path = scope["path"]
        needed = bool(self.keys) and path.startswith(GUARDED)
        name = self.name_of(headers.get(b"authorization", b"")) if self.keys else None
        if name is not None:
            scope["state"][CALLER] = name
        if self.rate is not None and not path.startswith(UNCOUNTED):
            self.rate.count(f"key {name}" if name else self.home_of(scope))
        if needed and name is None:
            raise self.unknown(headers)

    def name_of(self, shown: bytes) -> str | None:
        """The name of the key in an `Authorization` line; each key is compared, in a time that tells nothing."""
        if shown[: len(_SCHEME)].lower() != _SCHEME:
            return None
        given = sha256(shown[len(_SCHEME) :].strip()).digest()
        names = [name for name, kept in self.keys if hmac.compare_digest(kept, given)]
        return names[0] if names else None

    def unknown(self, headers: dict[bytes, bytes]) -> Refusal:
        """What is said to a caller without a key, or with a wrong one (RFC 6750, 3)."""
        if b"authorization" not in headers:
            return Refusal(
                "key-needed", "Send your key as `Authorization: Bearer <key>`.",
                headers=((b"www-authenticate", _CHALLENGE),),
            )  # fmt: skip
        challenge = _CHALLENGE + b', error="invalid_token"'
        return Refusal(
            "key-needed",
            "The key sent is none of this service's.",
            headers=((b"www-authenticate", challenge),),
        )

    def address_of(self, scope: HTTPScope) -> str | None:
        """The address a request comes from: whoever connected, or whom the proxies trusted say they speak for."""
        client = scope.get("client")
        address = client[0] if client else None
        if address is None or not self.proxies or not self.is_proxy(address):
            return address
        lines = b",".join(value for name, value in scope["headers"] if name == b"x-forwarded-for")
        for said in reversed(lines.decode("latin-1").split(",")):
            one = parsed(said.strip())
            if one is None:
                break
            address = str(one)
            if not self.is_proxy(address):
                break
        return address

    def is_proxy(self, address: str) -> bool:
        """Whether an address is one of the proxies that are believed."""
        one = parsed(address)
        return one is not None and any(one in network for network in self.proxies)

    def home_of(self, scope: HTTPScope) -> str:
        """By what a caller without a key is counted."""
        address = self.address_of(scope) or ""
        if isinstance(one := parsed(address), IPv6Address):
            return str(IPv6Network((one, _HOMES), strict=False))
        return address


class Rate:
    """How often each caller has asked of late.

    A caller's requests are thought of as coming evenly, one every `interval_s`. What is kept is the time at which the
    next of them would be due; a request that comes more than a burst ahead of that is refused, and costs nothing of the
    allowance.
    """

    def __init__(self, settings: Settings) -> None:
        self.per_minute = settings.rate_per_minute
        self.interval_s = 60 / settings.rate_per_minute
        self.ahead_s = self.interval_s * (settings.rate_burst - 1)
        self.most = settings.rate_callers
        self.due: OrderedDict[str, float] = OrderedDict()

    def count(self, caller: str) -> None:
        """Count a request of a caller. Raises a refusal where it comes too soon."""
        now = monotonic()
        due = max(self.due.get(caller, now), now)
        wait_s = due - now - self.ahead_s
        if wait_s > 0:
            raise self.too_often(ceil(wait_s))
        self.due[caller] = due + self.interval_s
        self.due.move_to_end(caller)
        if len(self.due) > self.most:
            self.due.popitem(last=False)

    def too_often(self, wait_s: int) -> Refusal:
        """What is said to a caller who asks too often."""
        return Refusal(
            "too-many-requests",
            f"A caller may go on at {self.per_minute} requests a minute. Try again in {wait_s} s.",
            headers=((b"retry-after", b"%d" % wait_s),),
        )


def key_lines(settings: Settings) -> list[str]:
    """The keys of the environment and of the file. Raises `NoSetting` where the file cannot be read or holds others."""
    if not settings.keys_file:
        return list(settings.keys)
    try:
        text = Path(settings.keys_file).read_text("utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise NoSetting(f"the file of keys cannot be read: {error}") from error
    lines = [*settings.keys, *_kept(text.splitlines())]
    if not lines:
        raise NoSetting("the file of keys holds none: nobody could call.")
    if len(lines) > MOST_KEYS:
        raise NoSetting(f"there are {len(lines)} keys; {MOST_KEYS} is the most.")
    return lines


def _kept(lines: Iterable[str]) -> Iterable[str]:
    for number, line in enumerate(lines, 1):
        said = line.strip()
        if said and not said.startswith("#"):
            if not fullmatch(KEY_LINE, said):
                # What stands there may be a key itself, so it is not shown.
                raise NoSetting(
                    f"line {number} of the file of keys is no `name:hash` as `roundwright key` writes it."
                )
            yield said


@lru_cache(maxsize=4_096)
def parsed(address: str) -> IPv4Address | IPv6Address | None:
    """An address, an IPv4 one in an IPv6 dress taken out of it; nothing where the text is none."""
    try:
        one = ip_address(address)
    except ValueError:
        return None
    mapped: IPv4Address | None = getattr(one, "ipv4_mapped", None)
    return mapped or one
