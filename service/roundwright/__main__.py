"""The command: `serve`, `try`, `openapi` and `key`."""

import argparse
import logging
import sys
from collections.abc import Sequence
from difflib import get_close_matches
from pathlib import Path
from threading import Thread
from urllib.error import HTTPError
from urllib.request import Request, urlopen

import msgspec

from roundwright import __version__
from roundwright.knitting.answers import RULES
from roundwright.web.settings import Settings, SettingsError, flag_of, read, variable_of


def main(arguments: Sequence[str] | None = None) -> int:
    """Run a command and return its exit status, 0 for success."""
    parser = argparse.ArgumentParser(
        prog="roundwright", description="Small hats knitted in the round, calculated."
    )
    parser.add_argument("--version", action="version", version=f"roundwright {__version__}, rules {RULES}")
    commands = parser.add_subparsers(dest="command", required=True)
    _add_settings(
        commands.add_parser(
            "serve",
            help="serve, with the settings of the environment (ROUNDWRIGHT_*) and of flags",
            allow_abbrev=False,
        )
    )
    trial = commands.add_parser("try", help="serve on the loopback address and show a handout")
    trial.add_argument("request", type=Path, help="file with the body of a request to /v1/hats/handout")
    trial.add_argument("--once", action="store_true", help="stop after showing it")
    trial.add_argument("--language", default="en", help="language of the handout, as `de`; default: English")
    document = commands.add_parser("openapi", help="write the OpenAPI document")
    document.add_argument("file", nargs="?", type=Path, help="file to write; default: standard output")
    key = commands.add_parser(
        "key", help="make an API key, and the line that the service needs to recognize it"
    )
    key.add_argument("name", help="name of the caller, for the log")
    options, unknown = parser.parse_known_args(arguments)
    if unknown:
        flags = [flag_of(field) for field in Settings.__struct_fields__] if options.command == "serve" else []
        near = get_close_matches(unknown[0].partition("=")[0], flags, n=1)
        parser.error(f"unknown argument {unknown[0]}{f'. Did you mean {near[0]}?' if near else ''}")
    if sys.platform == "win32":
        parser.exit(1, "roundwright runs on Linux and macOS; on Windows run it in WSL or a container.\n")
    try:
        match options.command:
            case "serve":
                return serve(read(flags=_flags(options)))
            case "try":
                return try_out(read(), options.request, once=options.once, language=options.language)
            case "key":
                return make_key(options.name)
            case _:
                return openapi(read(), options.file)
    except SettingsError as error:
        parser.exit(2, f"roundwright: {error}\n")
    except KeyboardInterrupt:
        return 130  # as shells say it of a command that Ctrl-C ended


def _add_settings(parser: argparse.ArgumentParser) -> None:
    """A flag for each setting."""
    described = msgspec.json.schema(Settings)["$defs"]["Settings"]["properties"]
    for field, schema in described.items():
        parser.add_argument(
            flag_of(field),
            dest=field,
            nargs={"array": "+", "boolean": "?"}.get(schema["type"]),
            const="on" if schema["type"] == "boolean" else None,
            metavar={"integer": "N", "boolean": "on|off"}.get(schema["type"], "TEXT"),
            help=f"{schema['description']} ({variable_of(field)})",
        )


def _flags(options: argparse.Namespace) -> dict[str, str]:
    """The settings given as flags, as the environment would have them."""
    given = {field: getattr(options, field) for field in Settings.__struct_fields__}
    return {
        field: " ".join(value) if isinstance(value, list) else value
        for field, value in given.items()
        if value is not None
    }


def serve(settings: Settings) -> int:
    """Serve until a signal to stop."""
    from roundwright.web.server import run

    return 0 if run(settings) else 1


def make_key(name: str) -> int:
    """Print a new key, and the line with its hash for the settings."""
    from roundwright.web.auth import new_key

    key, line = new_key(name)
    print(f"For the caller, shown this once:\n{key}")
    print(f"For ROUNDWRIGHT_KEYS, or a line of the file that ROUNDWRIGHT_KEYS_FILE names:\n{line}")
    return 0


def openapi(settings: Settings, file: Path | None) -> int:
    """Write the OpenAPI document."""
    from roundwright.web.app import create

    document = create(settings).document()
    if file is None:
        sys.stdout.buffer.write(document)
    else:
        file.write_bytes(document)
    return 0


def try_out(settings: Settings, request: Path, *, once: bool, language: str = "en") -> int:
    """Serve on the loopback address, send the request to `/v1/hats/handout`, and print the handout."""
    from roundwright.web.app import create
    from roundwright.web.server import address_of, listen, server_at

    app = create(settings)
    try:
        listener = listen("127.0.0.1", settings.port)
    except SettingsError:  # somebody listens there
        listener = listen("127.0.0.1", 0)
    server = server_at(listener, settings, app)
    logging.getLogger("roundwright").setLevel(
        logging.WARNING
    )  # what is printed says that it starts and stops
    thread = Thread(target=server.run, args=([listener],), daemon=True)
    thread.start()
    address = address_of(listener)
    try:
        print(_handout(address, request.read_bytes(), language))
        print(f"Open {address} in a browser; the reference page of the service is {address}/docs.")
        if not once:
            print("Ctrl-C stops it.", flush=True)
            thread.join()
    except KeyboardInterrupt:
        print()
    except (OSError, RuntimeError) as error:
        print(f"roundwright try: {error}", file=sys.stderr)
        return 1
    finally:
        server.should_exit = True
        thread.join()
    return 0


def _handout(address: str, body: bytes, language: str) -> str:
    """What a class is handed, as plain text."""
    headers = {"content-type": "application/json", "accept": "text/plain", "accept-language": language}
    request = Request(f"{address}/v1/hats/handout", body, headers)  # noqa: S310 - our own loopback address
    try:
        with urlopen(request, timeout=30) as answer:  # noqa: S310 - as above
            return str(answer.read().decode())
    except HTTPError as error:
        raise RuntimeError(f"{error}. {error.read().decode()}") from error


if __name__ == "__main__":
    sys.exit(main())
