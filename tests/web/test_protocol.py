"""What the service uses of uvicorn beyond its documented interface is there: this fails where one of them goes."""

import inspect

from uvicorn.protocols.http.httptools_impl import HttpToolsProtocol, RequestResponseCycle


def test_the_hooks_of_uvicorn_are_there():
    """The protocol sends its 400 by `send_400_response`, and keeps `cycle`, `parser` and `pipeline`."""
    source = inspect.getsource(HttpToolsProtocol)

    assert "self.send_400_response(msg)" in inspect.getsource(HttpToolsProtocol.data_received)
    for attribute in ("cycle", "parser", "pipeline", "app_state", "transport", "loop"):
        assert f"self.{attribute}" in source, attribute
    for attribute in ("response_started", "response_complete", "keep_alive"):
        assert f"self.{attribute}" in inspect.getsource(RequestResponseCycle.__init__), attribute
