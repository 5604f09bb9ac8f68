"""The parameters of each picture: the query for its content, a title and a theme."""

from roundwright.knitting.crown.picture import CrownQuery
from roundwright.knitting.hat.picture import ProfileQuery
from roundwright.knitting.shaping.picture import SpacingQuery
from roundwright.knitting.work.split_picture import NeedlesQuery
from roundwright.web.routes.picture_parameters import ThemeChoice, Title


class CrownPicture(CrownQuery, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A chart of a crown."""

    title: Title = None
    theme: ThemeChoice = "auto"


class ProfilePicture(ProfileQuery, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A hat worn or laid flat.

    For exactly one of `head`, `age_months`, `age_years`, `gestation_weeks`, `adult`, `chart`.
    """

    title: Title = None
    theme: ThemeChoice = "auto"


class NeedlesPicture(NeedlesQuery, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """The needles before a round of a crown; without a style, before any round."""

    title: Title = None
    theme: ThemeChoice = "auto"


class SpacingPicture(SpacingQuery, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A round or row in which the stitch count changes."""

    title: Title = None
    theme: ThemeChoice = "auto"
