"""Build hook of the package's metadata: the addresses of its pages, where the release says in what repository they are.

`RELEASE_REPOSITORY=https://git.example/roundwright/blob/1.1.0 python -m build`; without it there are no addresses.
"""

import os
from typing import Any

from hatchling.metadata.plugin.interface import MetadataHookInterface

PAGES = {
    "Documentation": "README.md",
    "Changelog": "DEVELOPERS.md#what-a-change-of-rules-means",
    "Security": "DEVELOPERS.md#security",
    "Operations": "deploy/OPERATING.md",
}


class ProjectUrls(MetadataHookInterface):
    """Puts the repository's address before the page of each label."""

    def update(self, metadata: dict[str, Any]) -> None:
        """Add the addresses; a value that is no address is refused."""
        repository = os.environ.get("RELEASE_REPOSITORY", "").rstrip("/")
        if not repository:
            return
        if not repository.startswith("https://"):
            raise ValueError(f"RELEASE_REPOSITORY is {repository!r}; it must begin with https://")
        metadata["urls"] = {label: f"{repository}/{page}" for label, page in PAGES.items()}
