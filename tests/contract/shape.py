"""The operations as the OpenAPI document lists them, and the one shape every error has."""

import json
import re
from functools import cache
from typing import Any, NamedTuple

import httpx
import msgspec

from roundwright.web.app import create
from roundwright.web.problems import PROBLEM_TYPES, Problem
from roundwright.web.settings import Settings


class Listed(NamedTuple):
    """An operation of the document."""

    id: str
    method: str
    path: str
    written: dict[str, Any]

    @property
    def body(self) -> Any:
        """The example body, for those that take one."""
        content = self.written["requestBody"]["content"]["application/json"]
        return next(iter(content["examples"].values()))["value"]

    @property
    def url(self) -> str:
        """The path with the example parameters filled in."""
        parameters = {parameter["name"]: parameter for parameter in self.written.get("parameters", ())}
        path = re.sub(r"\{(\w+)\}", lambda name: str(parameters[name[1]]["example"]), self.path)
        query = {
            name: ",".join(map(str, parameter["example"])) if "explode" in parameter else parameter["example"]
            for name, parameter in parameters.items()
            if parameter["in"] == "query" and "example" in parameter
        }
        return str(httpx.URL(path, params=query)) if query else path

    @property
    def allowed(self) -> str:
        """The methods of its path, as `Allow` lists them."""
        methods = [name.upper() for name in document()["paths"][self.path]]
        return ", ".join(sorted([*methods, "OPTIONS", *(["HEAD"] if "GET" in methods else [])]))

    def ask(self, service: httpx.Client, **changes: Any) -> httpx.Response:
        """Ask it for its example."""
        if self.method == "POST" and "content" not in changes:
            changes.setdefault("json", self.body)
        return service.request(self.method, self.url, **changes)


@cache
def document() -> dict[str, Any]:
    """The document the service gives of itself."""
    return json.loads(create(Settings()).document())


def listed(method: str | None = None) -> list[Listed]:
    """Every operation of the document, or those of one method."""
    return [
        Listed(written["operationId"], name.upper(), path, written)
        for path, item in document()["paths"].items()
        for name, written in item.items()
        if method is None or name.upper() == method
    ]


def named(operation: Listed) -> str:
    """How pytest calls an operation."""
    return operation.id


def assert_problem(response: httpx.Response, status: int, slug: str) -> Problem:
    """Check that an answer is a problem of the kind, in the one shape every error has (RFC 9457, 3.1)."""
    assert (status, slug) == (response.status_code, response.json()["type"].removeprefix("/problems/"))
    assert response.headers["content-type"] == "application/problem+json"
    assert response.headers["cache-control"] == "no-store"
    assert response.headers["request-id"]
    problem = msgspec.json.decode(response.content, type=Problem)
    kind = PROBLEM_TYPES[slug]
    assert problem.type == f"/problems/{slug}"
    assert problem.title == kind.title
    assert problem.status == kind.status == status
    assert problem.instance == httpx.URL(str(response.request.url)).path
    assert problem.detail.endswith(".")
    for fault in problem.errors:
        assert (fault.pointer is msgspec.UNSET) != (fault.parameter is msgspec.UNSET)
        assert fault.detail
    assert set(response.json()) <= {"type", "title", "status", "detail", "instance", "errors", "nearest"}
    assert "Traceback" not in response.text
    return problem
