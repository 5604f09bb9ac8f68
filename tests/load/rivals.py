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
    asked = {**path, **dict(parse_qsl(query))}
    return (msgspec.convert(asked, operation.request_type, strict=False),)


def _operations() -> "list[Operation]":
    """The operations that every rival has: no GET forms of calculations, which no default of a framework makes."""
    from roundwright.web.routes import all_operations
    from roundwright.web.routes.query_form import QueryForm

    return [one for one in all_operations() if not isinstance(one, QueryForm)]


def floor() -> Any:
    """A bare ASGI application."""
    from roundwright.language.words import ENGLISH_WORDS
    from roundwright.web.routes.operation import Calculation

    posts: dict[str, tuple[Any, Callable[..., Any], Any]] = {}
    gets: list[tuple[str, str, Operation, str, Any]] = []
    for one in _operations():
        media_type, form = next(iter(one.renderers.items()))
        if isinstance(one, Calculation):
            posts[one.template] = (msgspec.json.Decoder(one.request_type), one.calculate, form)
        else:
            start, brace, name = one.template.partition("{")
            gets.append((start, name.rstrip("}") if brace else "", one, media_type, form))

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
            start, name, one, media_type, form = next(
                get for get in gets if path.startswith(get[0]) and (get[1] or path == get[0])
            )
            asked = _given(one, scope["query_string"].decode(), {name: path[len(start) :]} if name else {})
            content = form(one.calculate(*asked), ENGLISH_WORDS)
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
    for one in _operations():
        if len(one.renderers) > 1:
            continue  # in which form is asked by the header, which no default of a framework reads
        if isinstance(one, Calculation):
            calculated = _calculated(one)
            calculated.__annotations__ = {"data": JSONBody[one.request_type], "return": one.answer_type}
            handlers.append(post(one.template, status_code=200, sync_to_thread=False)(calculated))
        else:
            media_type = next(iter(one.renderers))
            form = one.renderers[media_type]
            handlers.append(
                get(one.template.replace("}", ":str}"), sync_to_thread=False)(
                    _looked_up(one, form, media_type)
                )
            )
    return Litestar(route_handlers=handlers, type_encoders={Message: str})


def _calculated(one: "Operation") -> Any:
    def calculated(data: Any) -> Any:
        return one.calculate(data)

    return calculated


def _looked_up(one: "Operation", form: Any, media_type: str) -> Any:
    from litestar import Request, Response

    from roundwright.language.words import ENGLISH_WORDS

    def looked_up(request: Request[Any, Any, Any]) -> Response[bytes]:
        if "if-none-match" in request.headers:
            return Response(b"", status_code=304)
        asked = _given(one, request.url.query, request.path_params)
        return Response(form(one.calculate(*asked), ENGLISH_WORDS), media_type=media_type)

    looked_up.__annotations__ = {"request": Request, "return": Response[bytes]}
    return looked_up


def peer() -> Any:
    """FastAPI with pydantic models of the same shapes; between model and function lies one conversion each way."""
    from fastapi import FastAPI, Request, Response

    from roundwright.web.routes.operation import Calculation

    models = _Models()
    app = FastAPI()
    for one in _operations():
        if len(one.renderers) > 1:
            continue  # in which form is asked by the header, which no default of a framework reads
        if isinstance(one, Calculation):
            takes, gives = models.of(one.request_type), models.of(one.answer_type)
            app.post(one.template, response_model=gives, response_model_exclude_unset=True)(
                _peer_post(one, takes)
            )
        else:
            media_type, form = next(iter(one.renderers.items()))
            app.get(one.template)(_peer_get(one, media_type, form, Request, Response))
    return app


def _peer_post(one: "Operation", takes: Any) -> Any:
    async def calculated(asked: Any) -> Any:
        return msgspec.to_builtins(
            one.calculate(msgspec.convert(asked.model_dump(exclude_unset=True), one.request_type)),
            enc_hook=str,
        )

    calculated.__annotations__ = {"asked": takes}
    return calculated


def _peer_get(one: "Operation", media_type: str, form: Any, request_type: Any, response_type: Any) -> Any:
    from roundwright.language.words import ENGLISH_WORDS

    async def looked_up(request: Any) -> Any:
        if "if-none-match" in request.headers:
            return response_type(status_code=304)
        asked = _given(one, request.url.query, request.path_params)
        return response_type(form(one.calculate(*asked), ENGLISH_WORDS), media_type=media_type)

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
        for one in msgspec.structs.fields(struct):
            default = one.default if one.default is not msgspec.NODEFAULT else ...
            if isinstance(default, msgspec.Struct):
                default = msgspec.to_builtins(default)
            fields[one.name] = (self._type(get_type_hints(struct, include_extras=True)[one.name]), default)
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
            return Union[tuple(self._type(each) for each in arguments)]  # noqa: UP007 - built at run time
        if origin is tuple:
            return tuple[tuple(each if each is ... else self._type(each) for each in arguments)]
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
