"""What the service is measured against: the same functions behind less, behind a plain Litestar, and behind a peer.

    floor    a bare ASGI application: decode with msgspec, call, encode
    plain    a default Litestar application
    peer     FastAPI with pydantic models of the same shapes
    bare     a Litestar application with a single answer, to start and to hold in memory

`python -m tests.load.rivals floor 8201` serves one on the loopback address, under the same uvicorn as the service.
"""

import sys
from collections.abc import Callable
from types import UnionType
from typing import (
    TYPE_CHECKING,
    Annotated,
    Any,
    ForwardRef,
    Literal,
    Union,
    get_args,
    get_origin,
    get_type_hints,
)
from urllib.parse import parse_qsl

import msgspec
import uvicorn

if TYPE_CHECKING:
    from roundwright.web.routes import Operation


def _given(operation: "Operation", query: str, path: dict[str, str]) -> tuple[Any, ...]:
    """What a look-up is asked for, by the quickest way there is."""
    if operation.request_type is None:
        return ()
    parameters = {**path, **dict(parse_qsl(query))}
    return (msgspec.convert(parameters, operation.request_type, strict=False),)


def _operations() -> "list[Operation]":
    """The operations that every rival has: no GET forms of calculations, which no default of a framework makes."""
    from roundwright.web.routes import all_operations
    from roundwright.web.routes.query_form import QueryForm

    return [operation for operation in all_operations() if not isinstance(operation, QueryForm)]


def floor() -> Any:
    """A bare ASGI application."""
    from roundwright.language.words import ENGLISH_WORDS
    from roundwright.web.routes.operation import Calculation

    posts: dict[str, tuple[Any, Callable[..., Any], Any]] = {}
    gets: list[tuple[str, str, Operation, str, Any]] = []
    for operation in _operations():
        media_type, form = next(iter(operation.renderers.items()))
        if isinstance(operation, Calculation):
            posts[operation.template] = (
                msgspec.json.Decoder(operation.request_type),
                operation.calculate,
                form,
            )
        else:
            start, brace, name = operation.template.partition("{")
            gets.append((start, name.rstrip("}") if brace else "", operation, media_type, form))

    async def app(scope: dict[str, Any], receive: Any, send: Any) -> None:
        path, status, media_type = scope["path"], 200, "application/json"
        if path in posts:
            decoder, calculate, form = posts[path]
            body = b""
            more = True
            while more:
                message = await receive()
                body += message["body"]
                more = message["more_body"]
            content = form(calculate(decoder.decode(body)), ENGLISH_WORDS)
        elif any(name == b"if-none-match" for name, _ in scope["headers"]):
            status, content = 304, b""
        else:
            start, name, operation, media_type, form = next(
                get for get in gets if path.startswith(get[0]) and (get[1] or path == get[0])
            )
            arguments = _given(
                operation, scope["query_string"].decode(), {name: path[len(start) :]} if name else {}
            )
            content = form(operation.calculate(*arguments), ENGLISH_WORDS)
        headers = [(b"content-type", media_type.encode()), (b"content-length", b"%d" % len(content))]
        await send(
            {"type": "http.response.start", "status": status, "headers": headers if status == 200 else []}
        )
        await send({"type": "http.response.body", "body": content, "more_body": False})

    return app


def plain() -> Any:
    """A default Litestar application with the same functions."""
    from litestar import Litestar, get, post
    from litestar.params import JSONBody

    from roundwright.language import Message
    from roundwright.web.routes.operation import Calculation

    handlers: list[Any] = []
    for operation in _operations():
        if not _in_one_form(operation):
            continue
        if isinstance(operation, Calculation):
            calculated = _calculated(operation)
            calculated.__annotations__ = {
                "data": JSONBody[operation.request_type],
                "return": operation.answer_type,
            }
            handlers.append(post(operation.template, status_code=200, sync_to_thread=False)(calculated))
        else:
            media_type = next(iter(operation.renderers))
            form = operation.renderers[media_type]
            handlers.append(
                get(operation.template.replace("}", ":str}"), sync_to_thread=False)(
                    _looked_up(operation, form, media_type)
                )
            )
    return Litestar(route_handlers=handlers, type_encoders={Message: str})


def _in_one_form(operation: "Operation") -> bool:
    """Whether a default of the frameworks can answer it.

    They read no `Accept`, their models make only JSON, and pydantic knows no part that is read later (a batch's).
    """
    from roundwright.web.routes.operation import Calculation

    return (
        len(operation.renderers) == 1
        and operation.id != "calculateBatch"
        and (not isinstance(operation, Calculation) or "application/json" in operation.renderers)
    )


def _calculated(operation: "Operation") -> Any:
    def calculated(data: Any) -> Any:
        return operation.calculate(data)

    return calculated


def _looked_up(operation: "Operation", form: Any, media_type: str) -> Any:
    from litestar import Request, Response

    from roundwright.language.words import ENGLISH_WORDS

    def looked_up(request: Request[Any, Any, Any]) -> Response[bytes]:
        if "if-none-match" in request.headers:
            return Response(b"", status_code=304)
        arguments = _given(operation, request.url.query, request.path_params)
        return Response(form(operation.calculate(*arguments), ENGLISH_WORDS), media_type=media_type)

    looked_up.__annotations__ = {"request": Request, "return": Response[bytes]}
    return looked_up


def peer() -> Any:
    """FastAPI with pydantic models of the same shapes; between model and function lies one conversion each way."""
    from fastapi import FastAPI, Request, Response

    from roundwright.web.routes.operation import Calculation

    models = _Models()
    app = FastAPI()
    for operation in _operations():
        if not _in_one_form(operation):
            continue
        if isinstance(operation, Calculation):
            takes, gives = models.of(operation.request_type), models.of(operation.answer_type)
            app.post(operation.template, response_model=gives, response_model_exclude_unset=True)(
                _peer_post(operation, takes)
            )
        else:
            media_type, form = next(iter(operation.renderers.items()))
            app.get(operation.template)(_peer_get(operation, media_type, form, Request, Response))
    return app


def _peer_post(operation: "Operation", takes: Any) -> Any:
    async def calculated(body: Any) -> Any:
        return msgspec.to_builtins(
            operation.calculate(msgspec.convert(body.model_dump(exclude_unset=True), operation.request_type)),
            enc_hook=str,
        )

    calculated.__annotations__ = {"body": takes}
    return calculated


def _peer_get(
    operation: "Operation", media_type: str, form: Any, request_type: Any, response_type: Any
) -> Any:
    from roundwright.language.words import ENGLISH_WORDS

    async def looked_up(request: Any) -> Any:
        if "if-none-match" in request.headers:
            return response_type(status_code=304)
        arguments = _given(operation, request.url.query, request.path_params)
        return response_type(form(operation.calculate(*arguments), ENGLISH_WORDS), media_type=media_type)

    looked_up.__annotations__ = {"request": request_type}
    return looked_up


def bare() -> Any:
    """A Litestar application that does nothing yet."""
    from litestar import Litestar, get

    @get("/", sync_to_thread=False)
    def hello() -> dict[str, str]:
        return {"hello": "knitter"}

    return Litestar(route_handlers=[hello])


class _Models:
    """Pydantic models of the shapes of structs."""

    def __init__(self) -> None:
        self.made: dict[str, Any] = {}

    def of(self, struct: Any) -> Any:
        """The model of a struct, with all it refers to."""
        self._make(struct)
        for model in list(self.made.values()):
            model.model_rebuild(force=True, _types_namespace=self.made)
        return self.made[struct.__name__]

    def _make(self, struct: Any) -> None:
        from pydantic import ConfigDict, create_model

        name = struct.__name__
        if name in self.made:
            return
        self.made[name] = None
        config = struct.__struct_config__
        fields: dict[str, Any] = {}
        if config.tag:
            fields[config.tag_field] = (Literal[config.tag], ...)
        for field in msgspec.structs.fields(struct):
            default = field.default if field.default is not msgspec.NODEFAULT else ...
            if isinstance(default, msgspec.Struct):
                default = msgspec.to_builtins(default)
            fields[field.name] = (
                self._type(get_type_hints(struct, include_extras=True)[field.name]),
                default,
            )
        self.made[name] = create_model(
            name,
            __config__=ConfigDict(extra="forbid" if config.forbid_unknown_fields else "ignore"),
            **fields,
        )

    def _type(self, hint: Any) -> Any:
        from pydantic import Field

        if isinstance(hint, type) and issubclass(hint, msgspec.Struct):
            self._make(hint)
            return ForwardRef(hint.__name__)
        origin, arguments = get_origin(hint), get_args(hint)
        if origin is Annotated:
            inner = self._type(arguments[0])
            for meta in arguments[1:]:
                if isinstance(meta, msgspec.Meta):
                    bounds = {key: getattr(meta, key) for key in ("ge", "gt", "le", "lt", "min_length", "max_length",
                              "pattern")}  # fmt: skip
                    inner = Annotated[
                        inner, Field(**{key: at for key, at in bounds.items() if at is not None})
                    ]
            return inner
        if origin in (Union, UnionType):
            return Union[tuple(self._type(argument) for argument in arguments)]  # noqa: UP007 - built at run time
        if origin is tuple:
            return tuple[
                tuple(argument if argument is ... else self._type(argument) for argument in arguments)
            ]
        return hint


def main() -> None:
    """Serve the rival named on the command line."""
    name, port = sys.argv[1], int(sys.argv[2])
    app = {"floor": floor, "plain": plain, "peer": peer, "bare": bare}[name]()
    uvicorn.run(
        app, host="127.0.0.1", port=port, loop="uvloop", http="httptools", ws="none", lifespan="off", log_config=None,
        access_log=False, server_header=False, proxy_headers=False,
    )  # fmt: skip


if __name__ == "__main__":
    main()
