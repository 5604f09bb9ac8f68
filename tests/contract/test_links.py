"""Answers lead to their pictures."""

import json
from xml.etree import ElementTree as ET

import pytest

from tests.contract.shape import listed, named


def drawings(value) -> list[str]:
    """Every path of a picture in an answer, however deep."""
    if isinstance(value, dict):
        own = [value[name] for name in ("drawing", "schematic") if value.get(name)]
        return own + [path for inner in value.values() for path in drawings(inner)]
    if isinstance(value, list):
        return [path for inner in value for path in drawings(inner)]
    return []


@pytest.mark.parametrize(
    "operation",
    [
        operation
        for operation in listed("POST")
        if operation.path in {"/v1/crown", "/v1/hats", "/v1/needles/split", "/v1/shaping/even"}
    ],
    ids=named,
)
def test_an_answer_leads_to_pictures_that_are_there(operation, service):
    """Each `drawing` and `schematic` of the example's answer is the path of a well-formed SVG."""
    answer = operation.ask(service).json()
    paths = drawings(answer)
    assert paths, json.dumps(answer)[:200]
    for path in set(paths):
        picture = service.get(path)
        assert picture.status_code == 200
        assert ET.fromstring(picture.content).tag == "{http://www.w3.org/2000/svg}svg"


def test_pictures_of_the_widest_domes_are_there(service):
    """600 stitches are the most of a crown, rounded from 602: the hemisphere that its picture names is no wider."""
    heads = [{"head": {"value": value, "unit": "cm"}} for value in (60.8, 60.82)]
    body = {"sizes": heads, "gauge": {"stitches": 110, "rows": 140}, "crown": {"style": "dome"}}
    answer = service.post("/v1/hats", json=body).json()
    assert [size["crown"]["stitches"] for size in answer["sizes"]] == [600, 600]
    paths = drawings(answer)
    assert len(paths) >= len(heads)
    assert {service.get(path).status_code for path in paths} == {200}
