"""Alerts and the dashboard ask for what the service counts."""

import json
import re
from pathlib import Path

import httpx
import pytest
import yaml
from prometheus_client.parser import text_string_to_metric_families

from roundwright.web.settings import Settings
from tests.conftest import serving
from tests.long.asking import everything
from tests.long.bounds import LIMIT_MS, limit_ms

MONITORING = Path(__file__).parents[2] / "deploy/kubernetes/monitoring"
RULES = [
    rule
    for group in yaml.safe_load((MONITORING / "alerts.yaml").read_text())["spec"]["groups"]
    for rule in group["rules"]
]
PANELS = json.loads((MONITORING / "dashboard.json").read_text())["panels"]
EXPRESSIONS = {rule["alert"]: rule["expr"] for rule in RULES} | {
    f"{panel['title']} {target['refId']}": target["expr"] for panel in PANELS for target in panel["targets"]
}
OF_PROMETHEUS = {"job", "instance"}
"""Labels that every scraped sample has."""


@pytest.fixture(scope="module")
def counted() -> dict[str, set[str]]:
    """The samples of a service that was asked something, with their labels."""
    with serving(Settings()) as address:
        httpx.get(f"{address}/v1/standards")
        text = httpx.get(f"{address}/metrics").text
    return {
        sample.name: set(sample.labels)
        for family in text_string_to_metric_families(text)
        for sample in family.samples
    }


@pytest.mark.parametrize("name", EXPRESSIONS)
def test_what_is_asked_for_is_counted(name: str, counted: dict[str, set[str]]) -> None:
    """Each metric of an expression is one of the service's, with each label it is chosen or grouped by."""
    expression = EXPRESSIONS[name]
    selected = re.findall(r"\b((?:http|process|roundwright)_\w+)\{([^}]*)\}", expression)
    grouped = {label for labels in re.findall(r"by \(([^)]*)\)", expression) for label in labels.split(", ")}

    assert selected
    for metric, matchers in selected:
        labels = set(re.findall(r"(\w+)(?:=~|!~|!=|=)", matchers))
        assert "job" in labels  # the names are those of conventions, which others keep as well
        assert labels | grouped <= counted[metric] | OF_PROMETHEUS


def test_what_may_take_long_wakes_nobody() -> None:
    """Slow is what takes long without leave: routes with a limit of their own are left out, and no calculation else."""
    (left_out,) = re.findall(r'http_route!~"([^"]+)"', EXPRESSIONS["RoundwrightSlow"])
    dear = {
        operation.template
        for operation in everything()
        if any(limit_ms(operation, form) > LIMIT_MS for form in ("*/*", *operation.renderers))
    }
    kept = {operation.template for operation in everything()} - dear

    assert all(re.fullmatch(left_out, route) for route in dear)
    assert {"/v1/hats", "/v1/crown", "/v1/drawings/crown.svg"} <= kept
    assert all("handout" in route for route in kept if re.fullmatch(left_out, route))


def test_each_alert_says_what_to_do() -> None:
    """Whoever is woken reads what is wrong and what to do first."""
    for rule in RULES:
        assert rule["labels"]["severity"] in {"critical", "warning"}
        assert {"summary", "description"} == rule["annotations"].keys()
        assert rule["for"]
