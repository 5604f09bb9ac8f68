"""API keys: who may call, off unless keys are set.

A key is 256 random bits, so that a fast hash protects it: nobody finds it by guessing. Only the hash is kept in memory.
"""

import hmac
from collections.abc import Iterable
from hashlib import sha256
from pathlib import Path
from re import fullmatch
from secrets import token_urlsafe
from typing import Final

from litestar.types import HTTPScope

from roundwright.web.problems import ProblemError
from roundwright.web.settings import KEY_LINE, MAX_KEYS, Settings, SettingsError

KEY_NAME: Final = "roundwright.key_name"
"""Key of the scope's state under which the name of the caller's key is kept for the log."""

GUARDED: Final = ("/v1/", "/handout")
"""Where a key is needed: calculations and look-ups. Pages, health and metrics are open."""

_SCHEME: Final = b"bearer "
_CHALLENGE: Final = b'Bearer realm="roundwright"'
_KEY_BYTES: Final = 32
"""256 bits."""


def new_key(name: str) -> tuple[str, str]:
    """A new key, and the line `name:hash` by which the service knows it. Raises `SettingsError` for a wrong name."""
    key = token_urlsafe(_KEY_BYTES)
    line = f"{name}:{sha256(key.encode()).hexdigest()}"
    if not fullmatch(KEY_LINE, line):
        raise SettingsError(
            f"{name!r} is not valid: a key's name is up to 64 letters, digits, dots, dashes and underscores."
        )
    return key, line


class KeyCheck:
    """Checks the key of a request against the keys that are set."""

    def __init__(self, settings: Settings) -> None:
        self.keys = [(line.rpartition(":")[0], bytes.fromhex(line[-64:])) for line in key_lines(settings)]

    @property
    def is_active(self) -> bool:
        """Whether any key is set."""
        return bool(self.keys)

    def authorize(self, scope: HTTPScope, headers: dict[bytes, bytes]) -> None:
        """Raise `ProblemError` where a key is needed and none, or a wrong one, was sent (RFC 6750, 3)."""
        name = self.name_of(headers.get(b"authorization", b""))
        if name is not None:
            scope["state"][KEY_NAME] = name
        elif scope["path"].startswith(GUARDED):
            if b"authorization" not in headers:
                detail, challenge = "Send your key as `Authorization: Bearer <key>`.", _CHALLENGE
            else:
                detail = "The key is not one of this service's keys."
                challenge = _CHALLENGE + b', error="invalid_token"'
            raise ProblemError("key-needed", detail, headers=((b"www-authenticate", challenge),))

    def name_of(self, authorization: bytes) -> str | None:
        """The name of the key in an `Authorization` header. All keys are compared, in constant time."""
        if authorization[: len(_SCHEME)].lower() != _SCHEME:
            return None
        sent = sha256(authorization[len(_SCHEME) :].strip()).digest()
        names = [name for name, kept in self.keys if hmac.compare_digest(kept, sent)]
        return names[0] if names else None


def key_lines(settings: Settings) -> list[str]:
    """The keys of the environment and of the file.

    Raises `SettingsError` where the file cannot be read, is empty, or holds anything else.
    """
    if not settings.keys_file:
        return list(settings.keys)
    try:
        text = Path(settings.keys_file).read_text("utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise SettingsError(f"the file of keys cannot be read: {error}") from error
    in_file = list(_checked(text.splitlines()))
    if not in_file:
        raise SettingsError("the file of keys holds no key: nobody could call.")
    lines = [*settings.keys, *in_file]
    if len(lines) > MAX_KEYS:
        raise SettingsError(f"there are {len(lines)} keys; at most {MAX_KEYS} are allowed.")
    return lines


def _checked(lines: Iterable[str]) -> Iterable[str]:
    for number, raw in enumerate(lines, 1):
        line = raw.strip()
        if line and not line.startswith("#"):
            if not fullmatch(KEY_LINE, line):
                # The line may be a key itself, so the message does not quote it.
                raise SettingsError(
                    f"line {number} of the file of keys is not a `name:hash` from `roundwright key`."
                )
            yield line
