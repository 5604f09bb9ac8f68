"""As much of kustomize as the overlays use, since no kustomize is to be had here; anything else it refuses."""

from pathlib import Path
from typing import Any

import yaml

Manifest = dict[str, Any]


def build(folder: Path) -> list[Manifest]:
    """The manifests a kustomization makes."""
    kustomization = yaml.safe_load((folder / "kustomization.yaml").read_text())
    known = {
        "apiVersion",
        "kind",
        "namespace",
        "resources",
        "components",
        "configMapGenerator",
        "labels",
        "patches",
    }
    assert set(kustomization) <= known, set(kustomization) - known
    made: list[Manifest] = []
    for name in kustomization.get("resources", ()):
        there = folder / name
        made += build(there) if there.is_dir() else manifests(there)
    for generator in kustomization.get("configMapGenerator", ()):
        _generate(folder, generator, made)
    for name in kustomization.get("components", ()):
        made += build(folder / name)
    for patch in kustomization.get("patches", ()):
        assert set(patch) == {"path"}
        for change in manifests(folder / patch["path"]):
            [target] = [manifest for manifest in made if identity(manifest) == identity(change)]
            _merge(target, change)
    for manifest in made:
        if "namespace" in kustomization and manifest["kind"] != "Namespace":
            manifest["metadata"]["namespace"] = kustomization["namespace"]
        for labels in kustomization.get("labels", ()):
            manifest["metadata"].setdefault("labels", {}).update(labels["pairs"])
    return made


def _generate(folder: Path, generator: dict[str, Any], made: list[Manifest]) -> None:
    """Put what a generator makes among the manifests: new, or as the content of one that is there."""
    known = {"name", "namespace", "files", "envs", "literals", "options", "behavior"}
    assert set(generator) <= known, set(generator) - known
    lines = list(generator.get("literals", ()))
    for name in generator.get("envs", ()):
        text = (folder / name).read_text()
        lines += [line for line in text.splitlines() if line and not line.startswith("#")]
    data = {name: (folder / name).read_text() for name in generator.get("files", ())}
    data |= dict(line.split("=", 1) for line in lines)
    metadata = {name: generator[name] for name in ("name", "namespace") if name in generator}
    metadata |= generator.get("options", {})
    generated = {"apiVersion": "v1", "kind": "ConfigMap", "metadata": metadata, "data": data}
    there = [manifest for manifest in made if identity(manifest) == identity(generated)]
    behavior = generator.get("behavior", "create")
    assert behavior in {"create", "merge", "replace"}
    assert len(there) == (behavior != "create")
    if behavior == "create":
        made.append(generated)
    for same in there:
        same["data"] = {**(same["data"] if behavior == "merge" else {}), **data}


def manifests(file: Path) -> list[Manifest]:
    """The manifests in a file."""
    return list(yaml.safe_load_all(file.read_text()))


def identity(manifest: Manifest) -> tuple[str, str]:
    """What a manifest is known by."""
    return manifest["kind"], manifest["metadata"]["name"]


def _merge(target: dict[str, Any], change: dict[str, Any]) -> None:
    """Strategic merge: objects by field, lists of named things by name, all else replaced."""
    for key, value in change.items():
        there = target.get(key)
        if isinstance(value, dict) and isinstance(there, dict):
            _merge(there, value)
        elif isinstance(value, list) and isinstance(there, list) and all("name" in item for item in value):
            for item in value:
                [same] = [other for other in there if other["name"] == item["name"]]
                _merge(same, item)
        else:
            target[key] = value
