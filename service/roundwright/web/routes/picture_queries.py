"""Pictures as a page requests them: the query of what a picture shows, and how it is shown.

An error of the trade names the parameter it comes from.
"""

from roundwright.knitting.crown.picture import CrownQuery
from roundwright.knitting.hat.picture import ProfileQuery
from roundwright.knitting.shaping.picture import SpacingQuery
from roundwright.knitting.work.split_picture import NeedlesQuery
from roundwright.web.routes.picture_parameters import Shown, Title


class CrownPicture(CrownQuery, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A chart of a crown."""

    title: Title = None
    theme: Shown = "auto"


class ProfilePicture(ProfileQuery, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A hat from the side. Whose it is: exactly one of `head`, `age_months`, `gestation_weeks`, `adult`, `chart`."""

    title: Title = None
    theme: Shown = "auto"


class NeedlesPicture(NeedlesQuery, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """The needles before a round of a crown; without a style, before any."""

    title: Title = None
    theme: Shown = "auto"


class SpacingPicture(SpacingQuery, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A round or row in which the stitch count changes."""

    title: Title = None
    theme: Shown = "auto"
