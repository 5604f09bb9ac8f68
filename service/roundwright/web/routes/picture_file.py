"""A picture as PNG at an address of its own, for mail and for apps that draw no SVG: `/v1/drawings/crown.png`."""

from typing import Final

from litestar.types import Receive

from roundwright.web.problems import ProblemError
from roundwright.web.routes.operation import Lookup
from roundwright.web.routes.typesetter import Typesetter, is_installed
from roundwright.web.settings import Settings
from roundwright.wording.handout.typeset import MAX_PIXELS, PICTURE

SVG: Final = "image/svg+xml"


class PictureFile(Lookup):
    """A picture in up to twice as many pixels as its SVG is wide and high, rasterised beside the PDFs."""

    def __init__(self, picture: Lookup) -> None:
        super().__init__(
            picture.path.replace(".svg", ".png"),
            id=f"{picture.id}AsPng",
            tag=picture.tag,
            summary=f"{picture.summary}, as PNG",
            example=picture.example,
            renderers={"image/png": picture.renderers[SVG]},
            can_be_impossible=picture.can_be_impossible,
        )
        kept = (b"cross-origin-resource-policy", b"deprecation", b"sunset")
        self.own_headers = [line for line in picture.own_headers if line[0] in kept]
        self.declare(picture.calculate, picture.request_type, picture.answer_type)

    def prepare(self, settings: Settings, typesetter: Typesetter) -> None:
        """Apply the settings for caches, and keep the typesetter."""
        super().prepare(settings, typesetter)
        self.typesetter = typesetter
        self.parse_cached = self.parse  # to read the address is nothing beside the PNG

    async def file(self, content: bytes, receive: Receive) -> bytes:
        """The PNG of an SVG. Raises `ProblemError` where nothing makes it, and as the typesetter does."""
        if not is_installed():
            raise ProblemError(
                "not-acceptable", "For PNG the service has to be installed as `roundwright[pdf]`."
            )
        return await self.typesetter.typeset(content, receive, PICTURE)

    def warm(self) -> None:
        """Read the example; the picture does the rest."""
        self.read_example()

    @property
    def description(self) -> str:
        """What it is a picture of."""
        return (
            f"The picture of `{self.path.replace('.png', '.svg')}` as PNG, in two pixels for each of its own; in "
            f"fewer where it would have over {MAX_PIXELS:,}. With `theme=auto` it is light."
        )
