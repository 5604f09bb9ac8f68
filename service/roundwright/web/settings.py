"""Every setting, read from the environment once, typed and documented."""

import os
from collections.abc import Mapping
from difflib import get_close_matches
from typing import Annotated, Any, Final, get_args, get_origin, get_type_hints

import msgspec
from msgspec import Meta, Struct

PREFIX: Final = "ROUNDWRIGHT_"
"""Each field below is read from the variable of its name in capitals behind this prefix."""

KIB: Final = 1024

KEY_LINE: Final = "^[A-Za-z0-9_.-]{1,64}:[0-9a-f]{64}$"
"""A name for the log and a SHA-256 hash in hexadecimal."""

ORIGIN: Final = r"^(\*|(?!http://[^:]+:80$|https://[^:]+:443$)[a-z][a-z0-9+.-]*://(\[[0-9a-f:]+\]|[a-z0-9.-]+)(:[0-9]+)?)$"
"""An origin as browsers send it (RFC 6454, 6.2): in small letters, without a path or the scheme's own port; or `*`."""

MAX_KEYS: Final = 1_000
"""A key sent is compared with all of them: a thousand comparisons take a fifth of a millisecond."""


class Settings(Struct, frozen=True, kw_only=True):
    """What can be set. The defaults are safe for a service on the open network behind a proxy."""

    host: Annotated[str, Meta(description="Address to listen on.")] = "127.0.0.1"
    port: Annotated[int, Meta(ge=0, le=65_535, description="Port to listen on; 0 takes a free one.")] = 8181
    body_bytes: Annotated[
        int, Meta(ge=KIB, le=1024 * KIB, description="Largest body of a request, in bytes.")
    ] = 64 * KIB
    text_body_bytes: Annotated[
        int,
        Meta(ge=KIB, le=1024 * KIB, description="Largest body where a written pattern is sent, in bytes."),
    ] = 128 * KIB
    header_bytes: Annotated[
        int, Meta(ge=KIB, le=256 * KIB, description="Longest request line and header together, in bytes.")
    ] = 16 * KIB
    concurrency: Annotated[
        int, Meta(ge=1, le=100_000, description="Requests in flight at once in a process; beyond it 503.")
    ] = 1_024
    retry_after_s: Annotated[
        int, Meta(ge=1, le=3_600, description="Seconds a caller is asked to wait after 503.")
    ] = 1
    receive_s: Annotated[
        int, Meta(ge=1, le=600, description="Seconds a request may take to come to its end.")
    ] = 10
    keep_alive_s: Annotated[
        int, Meta(ge=1, le=3_600, description="Seconds an idle connection is kept; longer than the proxy's.")
    ] = 75
    graceful_s: Annotated[
        int, Meta(ge=1, le=600, description="Seconds running requests are given to finish on a stop.")
    ] = 10
    drain_s: Annotated[
        int,
        Meta(ge=0, le=600, description="Seconds it goes on serving, but not ready, before a stop."),
    ] = 0
    warm: Annotated[
        bool,
        Meta(
            description="Whether a process calculates and writes every kind of answer once before it listens, so that "
            "no caller waits for a first time; the start takes about twice as long."
        ),
    ] = False
    hosts: Annotated[
        tuple[str, ...],
        Meta(
            description="Names the service answers for, separated by spaces; none given: for any. Health is exempt."
        ),
    ] = ()
    max_age_s: Annotated[
        int, Meta(ge=0, le=31_536_000, description="Seconds a look-up or picture may be kept by caches.")
    ] = 3_600
    cors_origins: Annotated[
        tuple[Annotated[str, Meta(pattern=ORIGIN)], ...],
        Meta(
            description="Origins whose pages may call the service, as `https://shop.example`: scheme, host and, if "
            "it is not the usual, port, in small letters, without a path; separated by spaces, `*` for all."
        ),
    ] = ()
    keys: Annotated[
        tuple[Annotated[str, Meta(pattern=KEY_LINE)], ...],
        Meta(
            max_length=MAX_KEYS,
            description="Keys that callers of `/v1` must show, each as `name:hash` from `roundwright key`, separated "
            "by spaces; without it no key is needed. Set but empty, the service does not start.",
        ),
    ] = ()
    keys_file: Annotated[
        str,
        Meta(description="File with more such keys, one a line; blank lines and `#` lines are ignored."),
    ] = ""
    tracing: Annotated[
        bool,
        Meta(
            description="Whether spans go to the collector named by OpenTelemetry's own variables (`OTEL_*`); needs "
            "the extra `roundwright[tracing]`."
        ),
    ] = False
    access_log: Annotated[
        bool, Meta(description="Whether each request is logged as a line of JSON; failures always are.")
    ] = False
    metrics: Annotated[bool, Meta(description="Whether `/metrics` answers.")] = True


_NOT_EMPTY: Final = ("keys", "keys_file")
"""Empty, they would open the service to everybody in silence."""


class SettingsError(ValueError):
    """An unknown setting, or a value that is not valid."""


_SWITCH: Final = {
    **dict.fromkeys(("on", "yes", "true", "1"), True),
    **dict.fromkeys(("off", "no", "false", "0"), False),
}


def read(environment: Mapping[str, str] = os.environ, flags: Mapping[str, str] | None = None) -> Settings:
    """The settings of an environment; flags of the command, by field, win over it.

    Raises `SettingsError` for an unknown name behind the prefix and for a value that does not fit.
    """
    hints = get_type_hints(Settings, include_extras=True)
    fields = {variable_of(field): field for field in hints}
    values: dict[str, Any] = {}
    for variable, text in environment.items():
        if variable.startswith(PREFIX):
            if variable not in fields:
                near = get_close_matches(variable, fields, n=1)
                nearest = f"Did you mean {near[0]}?" if near else f"The settings are {', '.join(fields)}."
                raise SettingsError(f"{variable} is an unknown setting. {nearest}")
            field = fields[variable]
            values[field] = _value(variable, field, text, hints[field])
    for field, text in (flags or {}).items():
        values[field] = _value(flag_of(field), field, text, hints[field])
    return Settings(**values)


def variable_of(field: str) -> str:
    """The variable of the environment a field is read from."""
    return PREFIX + field.upper()


def flag_of(field: str) -> str:
    """The flag of the command a field is read from."""
    return "--" + field.replace("_", "-")


def _value(name: str, field: str, text: str, hint: Any) -> Any:
    """The value of a field. Raises `SettingsError` with the name it was set by."""
    if field in _NOT_EMPTY and not text.strip():
        raise SettingsError(f"{name} is empty: nobody's key would be needed. Remove it, or set it.")
    kind = get_args(hint)[0]
    value: Any = text
    if kind is bool:
        value = _SWITCH.get(text.lower(), text)
    elif get_origin(kind) is tuple:
        value = text.split()
    try:
        return msgspec.convert(value, hint, strict=False)
    except msgspec.ValidationError as error:
        shown = "" if field == "keys" else f" is {text!r}"  # it may be the key itself
        bound = str(error).removeprefix("Expected `int` ")
        wanted = {bool: "on or off", int: bound if "=" in bound else "a whole number"}.get(
            kind, "another form"
        )
        raise SettingsError(f"{name}{shown}, expected {wanted}. {get_args(hint)[1].description}") from error
