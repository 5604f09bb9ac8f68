"""The command: `serve`, `try`, `openapi` and `key`."""

import argparse
import json
import socket
import sys
from collections.abc import Sequence
from pathlib import Path
from threading import Thread
from time import monotonic, sleep
from typing import Any, Final
from urllib.error import URLError
from urllib.request import Request, urlopen

import msgspec

from roundwright.web.settings import Settings, SettingsError, read

READY_WITHIN_S: Final = 30
"""Half a minute for the first start on a slow machine; it usually takes less than one second."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run a command and return its exit status, 0 for success."""
    parser = argparse.ArgumentParser(
        prog="roundwright", description="Small hats knitted in the round, calculated."
    )
    commands = parser.add_subparsers(dest="command", required=True)
    commands.add_parser("serve", help="serve, with the settings of the environment (ROUNDWRIGHT_*)")
    trial = commands.add_parser("try", help="serve on the loopback address and show one answer")
    trial.add_argument("request", type=Path, help="file with the body of a request to /v1/hats")
    trial.add_argument("--once", action="store_true", help="stop after showing the answer")
    document = commands.add_parser("openapi", help="write the OpenAPI document")
    document.add_argument("file", nargs="?", type=Path, help="file to write; default: standard output")
    key = commands.add_parser(
        "key", help="make an API key, and the line that the service needs to recognize it"
    )
    key.add_argument("name", help="name of the caller, for the log")
    options = parser.parse_args(arguments)
    try:
        match options.command:
            case "serve":
                return serve(read())
            case "try":
                return try_out(read(), options.request, once=options.once)
            case "key":
                return make_key(options.name)
            case _:
                return openapi(read(), options.file)
    except SettingsError as error:
        parser.error(str(error))


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


def try_out(settings: Settings, request: Path, *, once: bool) -> int:
    """Serve on a free port, send the request to `/v1/hats`, and print the pattern and the yarn to buy."""
    import uvicorn

    from roundwright.web.server import config

    settings = msgspec.structs.replace(settings, host="127.0.0.1", port=_free_port(settings.port))
    server = uvicorn.Server(config(settings))
    thread = Thread(target=server.run, daemon=True)
    thread.start()
    address = f"http://127.0.0.1:{settings.port}"
    try:
        _wait_until_ready(address)
        answer = _post(f"{address}/v1/hats", request.read_bytes())
        print(answer["pattern"])
        print(f"\n{_order_text(answer['order'])}")
        print(f"\nThe service answers at {address}, its reference page at {address}/docs.")
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


def _free_port(preferred: int) -> int:
    """The port if it is free, otherwise any free port."""
    for port in (preferred, 0):
        with socket.socket() as probe:
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            try:
                probe.bind(("127.0.0.1", port))
            except OSError:
                continue
            return int(probe.getsockname()[1])
    raise OSError("no port is free")


def _wait_until_ready(address: str) -> None:
    deadline = monotonic() + READY_WITHIN_S
    while True:
        try:
            with urlopen(f"{address}/health/ready", timeout=5):  # noqa: S310 - our own loopback address
                return
        except URLError as error:
            if monotonic() > deadline:
                raise RuntimeError(f"the service was not ready within {READY_WITHIN_S} s: {error}") from error
            sleep(0.05)


def _post(url: str, body: bytes) -> Any:
    request = Request(url, body, {"content-type": "application/json"})  # noqa: S310 - our own loopback address
    try:
        with urlopen(request, timeout=30) as answer:  # noqa: S310 - as above
            return json.load(answer)
    except URLError as error:
        body_text = error.read().decode() if hasattr(error, "read") else ""
        raise RuntimeError(f"{url} answered {error}. {body_text}") from error


def _order_text(order: Any) -> str:
    """The yarn to buy for everyone, as a shop would read it."""
    lines = [f"YARN TO BUY, for {order['makers']} knitters with one hat each"]
    lines += [
        f"{line['makers']} × {line['label']}: {_purchase(line['each'])} each" for line in order["lines"]
    ]
    lines.append(f"In all: {_purchase(order['own'])} if everyone gets whole balls")
    lines.append(f"        {_purchase(order['shared'])} if all share one basket and wind off what they need")
    return "\n".join(lines)


def _purchase(purchase: Any) -> str:
    """The number of balls, or the amount of yarn if the size of a ball is unknown, and the cost."""
    amount = purchase["amount"]["length"] or purchase["amount"]["mass"]
    balls, cost = purchase["balls"], purchase["cost"]
    if balls is not None:
        text = f"{balls} ball{'s' * (balls != 1)}"
    else:
        text = f"{amount['value']:.0f} {amount['unit']}" if amount else "yarn of unknown fineness"
    return text if cost is None else f"{text} for {cost['amount']:.2f} {cost['currency']}"


if __name__ == "__main__":
    sys.exit(main())
