"""Build hook of the wheel: the document, and the catalogues of messages in the form that gettext reads (`.mo`)."""

from pathlib import Path
from tempfile import mkdtemp
from typing import Any

from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po
from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class CatalogueHook(BuildHookInterface):  # type: ignore[type-arg]  # hatchling leaves the type of its settings open
    """Adds the document, and `de.mo` and so on beside each `.po`; an editable install reads those of the tree."""

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Compile every catalogue into a folder of its own, and have it copied into the wheel."""
        if version == "editable":
            return
        document = Path(self.root, "openapi/openapi.json")
        build_data["force_include"][str(document)] = "roundwright/web/openapi.json"
        made = Path(mkdtemp())
        catalogues = Path(self.root, "service/roundwright/language/catalogues")
        for path in catalogues.rglob("*.po"):
            inside = path.relative_to(catalogues).with_suffix(".mo")
            compiled = made / inside
            compiled.parent.mkdir(exist_ok=True)
            with path.open("rb") as text, compiled.open("wb") as file:
                write_mo(file, read_po(text))
            build_data["force_include"][str(compiled)] = f"roundwright/language/catalogues/{inside}"
