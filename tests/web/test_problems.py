"""Problems: their kinds, and the codes of what cannot be knitted."""

from typing import get_args

import msgspec

from roundwright.knitting.answers import IMPOSSIBLE_CODES, ImpossibleCode
from roundwright.web.problems import Fault


def test_every_reason_has_its_meaning():
    """The published list of codes is that of the type, and the document says what each of them means."""
    assert get_args(ImpossibleCode) == tuple(IMPOSSIBLE_CODES)
    schema = msgspec.json.schema(Fault)["$defs"]["Fault"]["properties"]["code"]
    assert set(IMPOSSIBLE_CODES) <= set(schema["enum"])
    for code, meaning in IMPOSSIBLE_CODES.items():
        assert f"`{code}`: {meaning}" in schema["description"]
