"""The recipe of the image, the compose file and the manifests, read by the tools of the trade."""

import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
import yaml

from roundwright.web.app import create
from roundwright.web.routes import batch, typesetter
from roundwright.web.settings import Settings, read, variable_of
from roundwright.wording.handout import typeset
from tests.deploy.kustomize import Manifest, build, identity, manifests
from tests.deploy.tools import debian_nginx, new_nginx, tool
from tests.load.faults import MEMORY_BYTES
from tests.load.fleet import WRITTEN_BYTES

DEPLOY = Path(__file__).parents[2] / "deploy"
KUBERNETES = DEPLOY / "kubernetes"
OVERLAYS = ("small", "large")
OF_THE_IMAGE = {f"ROUNDWRIGHT_{name}" for name in ("HOST", "PORT", "WARM")}
OF_A_SECRET = {"ROUNDWRIGHT_KEYS", "ROUNDWRIGHT_KEYS_FILE"}
FOREIGN = ("ServiceMonitor", "PrometheusRule")
"""Of Prometheus' operator, so not in Kubernetes' own schemas."""


@pytest.fixture(scope="module", params=OVERLAYS)
def fleet(request: pytest.FixtureRequest) -> list[Manifest]:
    """All that an overlay applies."""
    return build(KUBERNETES / request.param)


def of(fleet: list[Manifest], kind: str, name: str) -> Any:
    """One manifest of a fleet."""
    [found] = [manifest for manifest in fleet if identity(manifest) == (kind, name)]
    return found


def said_by(*command: str | Path) -> str:
    """What a tool says, all of it if it is not content."""
    done = subprocess.run(command, capture_output=True, text=True, check=False, timeout=120)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout + done.stderr


def test_the_recipe_is_clean() -> None:
    """Hadolint finds nothing in the recipe of the image."""
    said_by(tool("hadolint"), DEPLOY / "Containerfile")


def test_the_base_is_named_and_the_user_a_number() -> None:
    """The base names Python's minor version and Debian's release, and Kubernetes can see that the user is not root."""
    recipe = (DEPLOY / "Containerfile").read_text()
    assert re.search(r"^ARG BASE=python:3\.\d+-slim-[a-z]+(@sha256:[0-9a-f]{64})?$", recipe, re.MULTILINE)
    assert re.findall(r"^FROM \S+", recipe, re.MULTILINE) == ["FROM ${BASE}"] * 2
    assert re.search(r"^USER [1-9][0-9]+:[1-9][0-9]+$", recipe, re.MULTILINE)


def test_the_tests_run_on_the_python_of_the_image() -> None:
    """What passes here has passed on the minor version that is deployed (tests/run.sh looks for it)."""
    base = re.search(r"^ARG BASE=python:(3\.\d+)-", (DEPLOY / "Containerfile").read_text(), re.MULTILINE)
    assert base is not None
    if base[1] != ".".join(map(str, sys.version_info[:2])):
        pytest.skip(f"the image has Python {base[1]}, which is not installed")


def test_the_proxy_is_of_the_stable_branch_and_the_same_everywhere(fleet: list[Manifest]) -> None:
    """The even minor versions are the ones that only get fixes; the tests run one below and one above."""
    composed = yaml.safe_load((DEPLOY / "compose.yaml").read_text())["services"]["proxy"]["image"]
    [container] = of(fleet, "Deployment", "proxy")["spec"]["template"]["spec"]["containers"]
    assert container["image"].partition("@")[0] == composed.partition("@")[0]
    minor = int(re.search(r":1\.(\d+)-", composed)[1])
    assert minor % 2 == 0
    lower, upper = (
        int(re.search(r"nginx/1\.(\d+)\.", said_by(nginx, "-v"))[1])
        for nginx in (debian_nginx(), new_nginx())
    )
    assert lower <= minor <= upper


def test_what_the_proxy_can_hold_fits_its_limit(fleet: list[Manifest]) -> None:
    """Full folder in memory, full buffers of every request let in, and the workers are less than the limit."""
    config = (DEPLOY / "nginx" / "nginx.conf").read_text()

    def size(pattern: str) -> int:
        """The largest size, in KiB, that stands in a place."""
        factor = {"k": 1, "m": 1024}
        return max(
            int(number) * factor[unit] for number, unit in re.findall(pattern + r"(\d+)([km])[; ]", config)
        )

    requests = int(re.search(r"limit_conn connections_of_all (\d+);", config)[1])
    workers = int(re.search(r"worker_processes (\d+);", config)[1])
    a_request = size("client_body_buffer_size ") + size("proxy_buffer_size ") + 8 * 16
    assert "proxy_buffers 8 16k;" in config
    held = requests * a_request + workers * 10 * 1024
    assert size("client_body_buffer_size ") >= size("client_max_body_size ")  # no body becomes a file

    composed = yaml.safe_load((DEPLOY / "compose.yaml").read_text())["services"]["proxy"]
    [room] = [re.match(r"/tmp:size=(\d+)m", mount) for mount in composed["tmpfs"]]
    pod = of(fleet, "Deployment", "proxy")["spec"]["template"]["spec"]
    volume = next(entry["emptyDir"] for entry in pod["volumes"] if entry["name"] == "tmp")
    assert volume == {"medium": "Memory", "sizeLimit": f"{room[1]}Mi"}
    assert composed["deploy"]["resources"]["limits"]["memory"] == "256M"
    assert pod["containers"][0]["resources"]["limits"]["memory"] == "256Mi"
    assert held + int(room[1]) * 1024 < 256 * 1024
    assert WRITTEN_BYTES == int(room[1]) * 2**20

    kept, spare = size("max_size="), size("min_free=")
    assert kept < 256 * 1024 / 3
    assert kept + spare < int(room[1]) * 1024


def test_no_probe_of_the_proxy_asks_a_replica(fleet: list[Manifest]) -> None:
    """The proxy answers its probes by itself; an overload of the replicas takes no proxy away."""
    [container] = of(fleet, "Deployment", "proxy")["spec"]["template"]["spec"]["containers"]
    paths = {container[f"{name}Probe"]["httpGet"]["path"] for name in ("startup", "liveness", "readiness")}
    composed = yaml.safe_load((DEPLOY / "compose.yaml").read_text())["services"]["proxy"]["healthcheck"][
        "test"
    ]
    assert paths == {"/health/proxy"}
    assert composed[-1].endswith("/health/proxy")
    [path] = paths
    config = (DEPLOY / "nginx" / "nginx.conf").read_text()
    assert "proxy_pass" not in config.partition(f"location = {path} {{")[2].partition("}")[0]


def test_kubernetes_knows_every_field(fleet: list[Manifest], tmp_path: Path) -> None:
    """kubernetes-validate, strictly: every manifest fits the schema and has no field beyond it."""
    own = [manifest for manifest in fleet if manifest["kind"] not in FOREIGN]
    (tmp_path / "fleet.yaml").write_text(yaml.safe_dump_all(own))
    report = said_by(tool("kubernetes-validate"), "--strict", tmp_path / "fleet.yaml")
    assert report.count("passed for resource") == len(own)


def test_checkov_finds_nothing(tmp_path: Path) -> None:
    """No check of checkov's for Kubernetes and images fails, and none is skipped."""
    for overlay in OVERLAYS:
        (tmp_path / f"{overlay}.yaml").write_text(yaml.safe_dump_all(build(KUBERNETES / overlay)))
    recipe = (DEPLOY / "Containerfile").read_text()
    base = re.search(r"^ARG BASE=(\S+)$", recipe, re.MULTILINE)
    assert base is not None
    (tmp_path / "Dockerfile").write_text(recipe.replace("${BASE}", base[1]))  # checkov does not do it itself
    command = (tool("checkov"), "--skip-download", "--compact", "--framework", "kubernetes", "dockerfile")
    report = said_by(*command, "--directory", tmp_path)
    counts = re.findall(r"Passed checks: (\d+), Failed checks: (\d+), Skipped checks: (\d+)", report)
    assert len(counts) == 2
    for passed, failed, skipped in counts:
        assert int(passed) > 50
        assert (failed, skipped) == ("0", "0"), report


def test_every_file_is_applied() -> None:
    """No manifest lies about that no kustomization mentions."""
    for folder in {file.parent for file in KUBERNETES.glob("*/kustomization.yaml")}:
        kustomization = yaml.safe_load((folder / "kustomization.yaml").read_text())
        named = {
            *kustomization.get("resources", ()),
            *(patch["path"] for patch in kustomization.get("patches", ())),
        }
        named |= {
            name
            for generator in kustomization.get("configMapGenerator", ())
            for name in generator.get("files", generator.get("envs", ()))
        }
        lying = {file.name for file in folder.iterdir()} - {"kustomization.yaml"}
        assert lying <= named


def test_an_image_of_no_digest_is_found_nowhere(fleet: list[Manifest]) -> None:
    """Every image is pinned by digest; ours stands for the one in the site's registry."""
    for manifest in fleet:
        if manifest["kind"] == "Deployment":
            [container] = manifest["spec"]["template"]["spec"]["containers"]
            assert re.search(r"@sha256:[0-9a-f]{64}$", container["image"])


def test_selectors_find_what_they_name(fleet: list[Manifest]) -> None:
    """Services, budgets, policies and autoscalers point at pods and ports that there are."""
    deployments = {
        manifest["metadata"]["name"]: manifest["spec"]
        for manifest in fleet
        if manifest["kind"] == "Deployment"
    }
    pods = {name: spec["template"]["metadata"]["labels"] for name, spec in deployments.items()}

    def names(selector: dict[str, str]) -> set[str]:
        return {name for name, labels in pods.items() if selector.items() <= labels.items()}

    for manifest in fleet:
        kind, name = identity(manifest)
        spec = manifest.get("spec", {})
        if kind == "Deployment":
            assert names(spec["selector"]["matchLabels"]) == {name}
            for spread in spec["template"]["spec"]["topologySpreadConstraints"]:
                assert names(spread["labelSelector"]["matchLabels"]) == {name}
        elif kind == "Service":
            assert names(spec["selector"]) == {name}
            [container] = deployments[name]["template"]["spec"]["containers"]
            assert {port["targetPort"] for port in spec["ports"]} <= {
                port["name"] for port in container["ports"]
            }
        elif kind == "PodDisruptionBudget":
            assert names(spec["selector"]["matchLabels"]) == {name}
        elif kind == "HorizontalPodAutoscaler":
            assert spec["scaleTargetRef"]["name"] in deployments
            assert spec["minReplicas"] == deployments[name]["replicas"]
        elif kind == "Ingress":
            [rule] = spec["rules"]
            [path] = rule["http"]["paths"]
            service = of(fleet, "Service", path["backend"]["service"]["name"])
            ports = {port["name"] for port in service["spec"]["ports"]}
            assert path["backend"]["service"]["port"]["name"] in ports


def test_the_service_calls_nobody(fleet: list[Manifest]) -> None:
    """All traffic is refused but what is named, and nothing is named that goes out of the service."""
    everybody = of(fleet, "NetworkPolicy", "nobody")["spec"]
    assert everybody == {"podSelector": {}, "policyTypes": ["Ingress", "Egress"]}
    for manifest in fleet:
        if manifest["kind"] == "NetworkPolicy":
            component = (
                manifest["spec"]["podSelector"].get("matchLabels", {}).get("app.kubernetes.io/component")
            )
            assert component == "proxy" or not manifest["spec"].get("egress")


def test_nothing_is_lost_on_a_stop(fleet: list[Manifest]) -> None:
    """Replicas serve on until the proxies know, and get the time they are promised after that."""
    spec = of(fleet, "Deployment", "roundwright")["spec"]
    pod = spec["template"]["spec"]
    [container] = pod["containers"]
    pause = container["lifecycle"]["preStop"]["sleep"]["seconds"]
    valid = re.search(
        r"^resolver \S+ valid=(\d+)s", (KUBERNETES / "base" / "site.conf").read_text(), re.MULTILINE
    )
    assert valid is not None
    assert pause > int(valid[1]) + container["readinessProbe"]["periodSeconds"]
    assert pod["terminationGracePeriodSeconds"] > pause + Settings().graceful_s
    assert spec["strategy"]["rollingUpdate"]["maxUnavailable"] == 0
    assert spec["replicas"] >= 3


def test_a_replica_knows_its_settings_and_only_those(fleet: list[Manifest]) -> None:
    """The variables set are settings, and Kubernetes adds none of the same prefix (links to services would)."""
    pod = of(fleet, "Deployment", "roundwright")["spec"]["template"]["spec"]
    assert pod["enableServiceLinks"] is False
    settings = of(fleet, "ConfigMap", "roundwright-settings")["data"]
    assert read(settings) == Settings()
    assert (
        set(settings)
        == {variable_of(field) for field in Settings.__struct_fields__} - OF_THE_IMAGE - OF_A_SECRET
    )


def test_compose_has_a_place_for_every_setting() -> None:
    """Each setting that is not the image's stands in the file, set or as a comment."""
    named = set(
        re.findall(r"^ +(?:# )?(ROUNDWRIGHT_\w+):", (DEPLOY / "compose.yaml").read_text(), re.MULTILINE)
    )
    assert named == {variable_of(field) for field in Settings.__struct_fields__} - OF_THE_IMAGE


def test_an_overlay_has_settings_and_a_site_of_its_own(tmp_path: Path) -> None:
    """By the lines shown in `settings.env` and OPERATING.md, without a change of the base."""
    base = KUBERNETES / "base"
    [of_the_site] = re.findall(
        r"```yaml\n(configMapGenerator:\n.+?)```", (DEPLOY / "OPERATING.md").read_text(), re.DOTALL
    )
    [of_the_settings] = re.findall(
        r"# +(configMapGenerator:\n(?:# {5,}.+\n)+)", (base / "settings.env").read_text()
    )
    shown = [yaml.safe_load(re.sub("(?m)^# {5}", "", text)) for text in (of_the_site, of_the_settings)]
    origin = '"https://shop.example" $http_origin;'
    site = (base / "site.conf").read_text().replace(f"# {origin}", origin)
    (tmp_path / "site.conf").write_text(site)
    (tmp_path / "base").symlink_to(base)
    (tmp_path / "kustomization.yaml").write_text(
        yaml.safe_dump(
            {
                "resources": ["base"],
                "configMapGenerator": [
                    generator for overlay in shown for generator in overlay["configMapGenerator"]
                ],
            }
        )
    )
    made = build(tmp_path)
    settings = of(made, "ConfigMap", "roundwright-settings")["data"]

    assert {"site.conf": site} == of(made, "ConfigMap", "proxy-site")["data"]
    assert origin in site.replace(f"# {origin}", "")
    assert ("https://shop.example",) == read(settings).cors_origins
    assert settings["ROUNDWRIGHT_METRICS"] == "true"


def test_what_is_probed_is_there(fleet: list[Manifest]) -> None:
    """Probes and the monitor ask addresses that the service answers, on the port the image listens on."""
    from litestar.testing import TestClient

    [container] = of(fleet, "Deployment", "roundwright")["spec"]["template"]["spec"]["containers"]
    paths = [container[f"{name}Probe"]["httpGet"]["path"] for name in ("startup", "liveness", "readiness")]
    for monitor in manifests(KUBERNETES / "monitoring" / "monitor.yaml"):
        paths += [endpoint["path"] for endpoint in monitor["spec"]["endpoints"]]
    client = TestClient(create(Settings()))  # type: ignore[arg-type]
    assert {path: client.get(path).status_code for path in paths} == dict.fromkeys(paths, 200)
    assert container["ports"][0]["containerPort"] == Settings().port
    assert f"ROUNDWRIGHT_PORT={Settings().port}" in (DEPLOY / "Containerfile").read_text()


def test_the_memory_limit_is_the_one_that_was_tried(fleet: list[Manifest]) -> None:
    """Replicas are held to what the fault test holds them to."""
    [container] = of(fleet, "Deployment", "roundwright")["spec"]["template"]["spec"]["containers"]
    assert container["resources"]["limits"]["memory"] == f"{MEMORY_BYTES // 2**20}Mi"
    composed = yaml.safe_load((DEPLOY / "compose.yaml").read_text())["services"]["roundwright"]
    assert composed["deploy"]["resources"]["limits"]["memory"] == f"{MEMORY_BYTES // 2**20}M"


def test_the_compose_file_is_one() -> None:
    """It fits the Compose Specification's schema (as check-jsonschema carries it)."""
    said_by(tool("check-jsonschema"), "--builtin-schema", "vendor.compose-spec", DEPLOY / "compose.yaml")


def test_the_composed_service_is_two_closed_replicas() -> None:
    """Two replicas with settings that are some, on a network without a way out."""
    composed = yaml.safe_load((DEPLOY / "compose.yaml").read_text())
    service = composed["services"]["roundwright"]
    settings = read(service["environment"])
    assert service["deploy"]["replicas"] == 2
    assert int(service["stop_grace_period"].removesuffix("s")) > settings.drain_s + settings.graceful_s
    assert service["read_only"]
    assert all(composed["networks"][name]["internal"] for name in service["networks"])


def test_the_proxy_keeps_within_the_service(fleet: list[Manifest]) -> None:
    """The proxy lets idle connections go before the service does, and lets the largest body through."""
    main = (DEPLOY / "nginx" / "nginx.conf").read_text()
    assert f"client_max_body_size {Settings().text_body_bytes // 1024}k;" in main
    for site in (DEPLOY / "nginx" / "site.conf", KUBERNETES / "base" / "site.conf"):
        idle = re.search(r"keepalive_timeout (\d+)s", site.read_text())
        assert idle is not None
        assert int(idle[1]) < Settings().keep_alive_s
    names = {name for manifest in fleet if manifest["kind"] == "ConfigMap" for name in manifest["data"]}
    assert {name for name in names if name.endswith(".conf")} == {
        "nginx.conf",
        "forward.conf",
        "problems.conf",
        "site.conf",
        "slow.conf",
    }


def test_sizing_says_what_the_proxy_is_set_to() -> None:
    """The tries, seconds, requests in hand and rates of SIZING.md are those of the files that are deployed."""
    page = " ".join((DEPLOY / "SIZING.md").read_text().split())
    proxy, site = ((DEPLOY / "nginx" / name).read_text() for name in ("nginx.conf", "site.conf"))
    tries, within = (_only(proxy, rf"proxy_next_upstream_{what} (\d+)") for what in ("tries", "timeout"))
    alone, fails = (
        _only(site, r"max_fails=[1-9]\d* fail_timeout=(\d+)s"),
        _only(site, r"max_fails=([1-9]\d*)"),
    )
    of_all, of_caller = (
        _only(proxy, r"connections_of_all (\d+);"),
        _only(proxy, r"limit_conn connections (\d+);"),
    )

    hung, slow = (
        _only(proxy, rf"    {name} (\d+)s") for name in ("proxy_read_timeout", "client_body_timeout")
    )
    rate, dear, dearer = (
        _only(site, rf"{zone} rate=(\d+)r/s") for zone in ("rate:10m", "dear:10m", "dearer_of_all:32k")
    )

    for sentence in (
        f"lost as 504 after {hung} s",
        f"After {IN_WORDS[fails]} of them it is left alone for {alone} s.",
        f"{IN_WORDS[tries]} times in all within {within} s",
        f"{of_all} of all callers together, {of_caller} of one",
        f"Slow callers are cut off after {slow} s",
        f"{rate} requests a second; {dear} of those that can be made dear",
        f"from each proxy {dearer} of these a second",
        f"Beyond {Settings().concurrency:,} requests in hand",
    ):
        assert sentence in page, sentence


def test_sizing_says_what_a_replica_is_held_to() -> None:
    """What PDFs, PNGs and batches may hold and take stands in SIZING.md as it does in the code."""
    page = " ".join((DEPLOY / "SIZING.md").read_text().split())

    for sentence in (
        f"{typeset.MAX_MEMORY_KEPT_KIB // 1024} MiB (`MAX_MEMORY_KEPT_KIB`",
        f"{typeset.MAX_MEMORY_BYTES // 2**20} MiB of data",
        f"over {typeset.MAX_PIXELS // 10**6} million pixels",
        f"{IN_WORDS[str(typesetter.MAX_PENDING)].capitalize()} PDFs may be in hand",
        f"{IN_WORDS[str(typesetter.MAX_PENDING_WITH_PICTURES)]} may be in hand with the PDFs",
        f"{batch.MAX_BATCH_BYTES // 2**20} MiB and one more answer",
        f"take {batch.MAX_BATCH_CPU_S:g} s of a core",
    ):
        assert sentence in page, sentence


IN_WORDS = {"2": "two", "4": "four", "6": "six", "12": "twelve"}


def _only(text: str, pattern: str) -> str:
    """The one thing that a pattern finds."""
    (found,) = set(re.findall(pattern, text))
    return str(found)


def test_no_folder_of_the_image_is_searched_for_modules_first() -> None:
    """The one writable folder is where the image works, and nothing is imported from there."""
    assert "PYTHONSAFEPATH=1" in (DEPLOY / "Containerfile").read_text()
