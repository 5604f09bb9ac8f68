"""Every operation and page in every form and language, as requests with the answers that are due."""

from itertools import chain, cycle, islice, product

import msgspec

from roundwright.language.codes import LANGUAGES
from roundwright.web.routes.operation import Calculation, Operation
from tests.load.callers import Call, wire
from tests.long.asking import Service, address, everything
from tests.long.bounds import FILES

SMALL_BETWEEN = 8
"""Small requests between two of these, which are ten times as dear."""


def steady(small: list[Call]) -> list[Call]:
    """Every form in every language but PDFs and PNGs, among small requests."""
    gauges = cycle([call for call in small if call.name.endswith("/v1/gauge/convert")])
    service = Service()
    dear = [_call(service, *request) for request in _asked() if request[1] not in FILES]
    return list(chain.from_iterable((call, *islice(gauges, SMALL_BETWEEN)) for call in dear))


def files() -> list[Call]:
    """The PDF and PNG of every operation that has one, in every language."""
    service = Service()
    return [_call(service, *request) for request in _asked() if request[1] in FILES]


def _asked() -> list[tuple[Operation, str, str]]:
    """Operations, forms and languages."""
    forms = [(operation, form) for operation in everything() for form in operation.renderers]
    return [(operation, form, language) for (operation, form), language in product(forms, LANGUAGES)]


def _call(service: Service, operation: Operation, form: str, language: str) -> Call:
    """The example of an operation; of a PDF or PNG only the status and media type are asked for."""
    body = msgspec.json.encode(Operation.example_value(operation))
    more = f"accept: {form}\r\naccept-language: {language}\r\n"
    if isinstance(operation, Calculation):
        name, sent = f"POST {operation.template}", wire("POST", operation.template, body, more=more)
    else:
        path, query = address(operation, body)
        name = f"GET {path}"
        sent = wire("GET", f"{path}?{query.decode()}" if query else path, more=more)
    if form in FILES:
        return Call(name, sent)
    headers = {b"accept-language": language.encode()}
    if isinstance(operation, Calculation):
        answer = service.ask("POST", operation.template, body=body, accept=form, headers=headers)
    else:
        answer = service.ask("GET", path, query, accept=form, headers=headers)
    assert answer.status == 200, (name, form, language, answer.body)
    return Call(name, sent, 200, answer.body)
