"""What the image is made of: the licences of all requirements, and the software bill of materials.

    python deploy/supply.py licences          writes deploy/LICENCES.md; exit status 1 for a licence not on the list
    python deploy/supply.py materials FILE    writes a CycloneDX bill of materials of the image and the proxy

Both read what is pinned. Licences come from the metadata of the installed packages, and what is inside the packages
from their files, so run it with the Python of the environment that tests/run.sh makes, which has `cyclonedx-py` too.
The images of base and proxy stand in the bill by name and tag; the packages they hold are for a scanner of images.
"""

import json
import re
import subprocess
import sys
from importlib.metadata import PackageMetadata, PackageNotFoundError, files, metadata
from pathlib import Path
from typing import Any, Final

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from roundwright import __version__

DEPLOY: Final = Path(__file__).resolve().parent
ROOT: Final = DEPLOY.parent
REQUIREMENTS: Final = DEPLOY / "requirements.txt"

COMPATIBLE: Final = {
    "Apache-2.0", "Apache-2.0 WITH LLVM-exception", "BSD-2-Clause", "BSD-3-Clause", "BSL-1.0", "CC0-1.0", "ISC", "MIT",
    "MPL-2.0", "PSF-2.0", "0BSD", "Unicode-3.0", "Unlicense", "Zlib",
}  # fmt: skip
"""Licences (SPDX) of packages that may stand in an image beside a service under MIT. MPL binds changes to the package's
own files only, and none is changed here."""

SPELLINGS: Final = {
    "Apache Software License": "Apache-2.0",
    "BSD": "BSD-3-Clause",
    "BSD License": "BSD-3-Clause",
    "MIT License": "MIT",
    "Mozilla Public License 2.0 (MPL 2.0)": "MPL-2.0",
    "Python Software Foundation License": "PSF-2.0",
}
"""How packages without an SPDX expression name their licence, in a classifier or in words."""


def pinned() -> dict[str, str]:
    """Every requirement with the version it is pinned to for this Python."""
    lines = [
        line
        for line in REQUIREMENTS.read_text().splitlines()
        if line and not line.startswith((" ", "#", "-"))
    ]
    requirements = [Requirement(line.rstrip("\\ ")) for line in lines]
    return {
        requirement.name: str(requirement.specifier).removeprefix("==")
        for requirement in requirements
        if requirement.marker is None or requirement.marker.evaluate()
    }


def licence(name: str) -> str:
    """The licence of an installed requirement as an SPDX expression, or in its own words where it has no such name."""
    try:
        fields: PackageMetadata = metadata(name)
    except PackageNotFoundError:
        return "unknown"
    if expression := fields.get("License-Expression"):
        return str(expression)
    words = str(fields.get("License") or "").strip().partition("\n")[0].strip()
    if set(re.split(r" (?:AND|OR) ", words)) <= COMPATIBLE:
        return words
    prefix = "License :: OSI Approved :: "
    classified = [
        classifier.removeprefix(prefix)
        for classifier in fields.get_all("Classifier") or ()
        if classifier.startswith(prefix)
    ]
    return " OR ".join(SPELLINGS.get(wording, wording) for wording in classified or [words or "unknown"])


def compatible(expression: str) -> bool:
    """Whether all licences that apply together, or one of those to choose from, are compatible."""
    choices = [choice.strip("() ") for choice in expression.split(" OR ")]
    return any(all(part.strip("() ") in COMPATIBLE for part in choice.split(" AND ")) for choice in choices)


def table() -> str:
    """The page that lists them."""
    lines = [
        "# Licences of what the image holds",
        "",
        "Written by `python deploy/supply.py licences` from deploy/requirements.txt and the packages' metadata; a test",
        "fails when it is not as the command writes it, or when a licence is not one that goes with the service's own",
        "(MIT). The base image and nginx bring their own packages under their own licences.",
        "",
        "| Package | Licence |",
        "| --- | --- |",
    ]
    lines += [f"| {name} | {licence(name)} |" for name in sorted(pinned())]
    return "\n".join(lines) + "\n"


Component = dict[str, Any]
"""A component of a bill of materials (CycloneDX 1.6)."""


def materials(file: Path) -> int:
    """Have cyclonedx-py write the bill of this environment; keep what is pinned, add what that and the images carry.

    The graph comes from the metadata of the packages, the hashes from the requirements.
    """
    bill, pins = _bill("environment", "--pyproject", ROOT / "pyproject.toml", sys.executable), pinned()
    hashed = {
        component["purl"]: component["externalReferences"]
        for component in _bill("requirements", REQUIREMENTS)["components"]
    }
    bill["components"] = [component for component in bill["components"] if _name(component) in pins]
    bill["metadata"]["component"] |= {"version": __version__}
    for component in bill["components"]:
        component["licenses"] = [{"expression": licence(_name(component))}]
        component["externalReferences"] = hashed[component["purl"]]
    root = bill["metadata"]["component"]["bom-ref"]
    depends = {dependency["ref"]: dependency.get("dependsOn", []) for dependency in bill["dependencies"]}
    references = {_name(component): component["bom-ref"] for component in bill["components"]} | {
        "roundwright": root
    }
    for carrier, components in carried().items():
        bill["components"] += components
        depends[references[carrier]] += [component["bom-ref"] for component in components]
    listed = [root, *(component["bom-ref"] for component in bill["components"])]
    bill["dependencies"] = [
        {"ref": reference, "dependsOn": sorted(set(depends.get(reference, ())) & set(listed))}
        for reference in listed
    ]
    file.write_text(json.dumps(bill, indent=2) + "\n")
    return 0


def _bill(*arguments: str | Path) -> Component:
    program = str(Path(sys.prefix, "bin", "cyclonedx-py"))
    command = [program, *map(str, arguments), "--output-reproducible", "--sv", "1.6", "--of", "JSON"]
    output = subprocess.run(command, check=True, stdout=subprocess.PIPE).stdout  # noqa: S603 - fixed words
    bill: Component = json.loads(output)
    return bill


def _name(component: Component) -> str:
    """The name of a package as requirements have it."""
    return canonicalize_name(component["name"])


def carried() -> dict[str, list[Component]]:
    """What comes in without being required: by requirement, or under `roundwright` where an image brings it."""
    declared = json.loads((DEPLOY / "carried.json").read_text())
    found: dict[str, list[Component]] = {
        "typst": [*crates(), *fonts(declared["fonts"])],
        "swagger-ui-bundle-v2": scripts(),
    }
    for library in declared["libraries"]:
        component = {"type": "library", "bom-ref": f"carried:{library['name']}", "name": library["name"]}
        inside = f"the version inside {library['carrier']}"
        found[library["carrier"]] = [
            component | {"licenses": [{"license": library["license"]}], "description": inside}
        ]
    found["roundwright"] = images()
    return found


def crates() -> list[Component]:
    """The crates in typst's wheel, from the bill that its builder put into it."""
    [bill] = [path for path in files("typst") or () if path.match("*.dist-info/sboms/*.cyclonedx.json")]
    components: list[Component] = json.loads(bill.read_text())["components"]
    return components


def fonts(declared: list[Component]) -> list[Component]:
    """The fonts in typst's wheel."""
    return [
        {
            "type": "data",
            "bom-ref": f"font:{font['name']}",
            "name": font["name"],
            "licenses": [{"license": font["license"]}],
        }
        for font in declared
    ]


def scripts() -> list[Component]:
    """Swagger UI, and the npm packages that its source map says are in the script; their versions it does not say."""
    [source_map] = [
        path for path in files("swagger-ui-bundle-v2") or () if path.name == "swagger-ui-bundle.js.map"
    ]
    sources = json.loads(source_map.read_text())["sources"]
    names = {
        found[1] for source in sources for found in re.finditer(r"node_modules/((?:@[^/]+/)?[^/]+)", source)
    }
    version = source_map.parent.name.removeprefix("swagger-ui-")
    swagger = {"name": "swagger-ui-dist", "version": version, "purl": f"pkg:npm/swagger-ui-dist@{version}"}
    packages = [{"name": name, "purl": f"pkg:npm/{name.replace('@', '%40')}"} for name in sorted(names)]
    return [{"type": "library", "bom-ref": package["purl"], **package} for package in (swagger, *packages)]


def images() -> list[Component]:
    """The base of the image, with its Python, and the image of the proxy."""
    base = re.search(r"^ARG BASE=(\S+)$", (DEPLOY / "Containerfile").read_text(), re.MULTILINE)
    proxy = re.search(r"image: (\S+nginx\S+)", (DEPLOY / "compose.yaml").read_text())
    assert base is not None
    assert proxy is not None
    named = [image.partition("@")[0].partition(":") for image in (base[1], proxy[1])]
    found = [
        {"type": "container", "name": name, "version": tag, "purl": f"pkg:docker/{name}@{tag}"}
        for name, _, tag in named
    ]
    for kind, name, (_, _, tag) in zip(("platform", "application"), ("CPython", "nginx"), named, strict=True):
        found.append({"type": kind, "name": name, "version": tag.partition("-")[0]})
    return [{"bom-ref": f"image:{component['name']}", **component} for component in found]


def main() -> int:
    """Write what is asked for."""
    match sys.argv[1:]:
        case ["licences"]:
            (DEPLOY / "LICENCES.md").write_text(table())
            refused = [name for name in pinned() if not compatible(licence(name))]
            for name in refused:
                sys.stderr.write(f"{name}: {licence(name)!r} is not on the list\n")
            return 1 if refused else 0
        case ["materials", file]:
            return materials(Path(file))
        case _:
            sys.stderr.write(f"{__doc__}\n")
            return 2


if __name__ == "__main__":
    sys.exit(main())
