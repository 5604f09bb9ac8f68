"""Requests as strangers get them wrong, written from README and OpenAPI document alone, before the code was read.

Each says what its sender has to be told: the place, and a word or value that mends it. And each carries the request
that its sender sends next, having read only the answer.

At first contact (2026-11-26) 80 of 96 answers said enough for that; none was a 5xx. Four are no errors here, as the
rows have it: an `Accept` of another type where there is only JSON, a name given twice (the last counts), a depth of an
inch and a cone without a gauge (a warning says it).
"""

from __future__ import annotations

import codecs
import gzip
import json
from dataclasses import dataclass, field
from typing import Any
from urllib.parse import quote

GAUGE = {"stitches": 18, "rows": 24}
HEAD = {"value": 56, "unit": "cm"}
SWATCH_OF_A_CLASS = {"stitches": 20, "rows": 28}
YARN = {"length": {"value": 210, "unit": "m"}, "mass": {"value": 100, "unit": "g"}}


@dataclass(frozen=True, slots=True)
class Request:
    """A request as it goes out: a body that is no bytes is sent as JSON."""

    method: str
    path: str
    body: Any = None
    headers: dict[str, str] = field(default_factory=dict)

    @property
    def content(self) -> bytes:
        """The body in bytes; none where a method has none."""
        if isinstance(self.body, bytes):
            return self.body
        return b"" if self.method in {"GET", "DELETE"} else json.dumps(self.body).encode()

    @property
    def sent_headers(self) -> dict[str, str]:
        """The headers, with the media type of a body unless they name another."""
        return ({"content-type": "application/json"} if self.content else {}) | self.headers


@dataclass(frozen=True, slots=True)
class Wrong:
    """A wrong request: who sends it, what is wrong, and what has to be said for it to be mended."""

    sender: str
    fault: str
    sent: Request
    status: int
    place: str
    """Pointer or parameter of the fault, in a batch after the number of the part; empty where no place is named."""
    mends: tuple[str, ...]
    """Words or values that mend it; each has to be in what is said."""
    next: Request
    """What the sender sends having read the answer; it is accepted."""


def post(path: str, body: Any, **headers: str) -> Request:
    return Request("POST", path, body, {name.replace("_", "-"): value for name, value in headers.items()})


def get(path: str, query: str = "", **headers: str) -> Request:
    suffix = f"?{quote(query, safe='=&')}" if query else ""
    return Request(
        "GET", path + suffix, None, {name.replace("_", "-"): value for name, value in headers.items()}
    )


def cast_on(**fields: Any) -> Request:
    return post("/v1/cast-on", {"head": HEAD, "gauge": GAUGE} | fields)


def hat(**fields: Any) -> Request:
    return post("/v1/hats", {"gauge": SWATCH_OF_A_CLASS, "sizes": [{"head": HEAD}]} | fields)


def handout(accept: str = "text/plain", **fields: Any) -> Request:
    return post(
        "/v1/hats/handout", {"gauge": SWATCH_OF_A_CLASS, "sizes": [{"head": HEAD}]} | fields, accept=accept
    )


def batch(*parts: Any) -> Request:
    return post("/v1/batch", {"requests": list(parts)})


RIGHT = b'{"head": {"value": 56, "unit": "cm"}, "gauge": {"stitches": 18, "rows": 24}}'
PART = {"operation": "castOn", "body": {"head": HEAD, "gauge": GAUGE}}
OFFERED = [
    {"label": "S", "circumference": {"value": 46, "unit": "cm"}},
    {"label": "M", "circumference": {"value": 51, "unit": "cm"}},
]


def recommend(**fields: Any) -> Request:
    return post("/v1/sizing/recommend", {"age_months": 12, "offered": OFFERED} | fields)


def crown(**fields: Any) -> Request:
    return post("/v1/crown", {"stitches": 64} | fields)


def even(**fields: Any) -> Request:
    return post("/v1/shaping/even", {"stitches": 100} | fields)


def split(**fields: Any) -> Request:
    return post("/v1/needles/split", {"stitches": 52} | fields)


WRONG = (
    # A developer of a web shop, from JavaScript.
    Wrong(
        "web shop",
        "a field in camelCase",
        post("/v1/cast-on", {"size": {"ageMonths": 6}, "gauge": GAUGE}),
        400,
        "#/size/ageMonths",
        ("age_months",),
        post("/v1/cast-on", {"size": {"age_months": 6}, "gauge": GAUGE}),
    ),
    Wrong(
        "web shop",
        "a field misspelt",
        post("/v1/cast-on", {"head": HEAD, "guage": GAUGE}),
        400,
        "#/guage",
        ("gauge",),
        cast_on(),
    ),
    Wrong(
        "web shop",
        "a number as text, from an input",
        cast_on(gauge={"stitches": "18", "rows": 24}),
        400,
        "#/gauge/stitches",
        ("number", "18"),
        cast_on(),
    ),
    Wrong(
        "web shop", "a head without a unit", cast_on(head=56), 400, "#/head", ('"value"', '"unit"'), cast_on()
    ),
    Wrong(
        "web shop",
        "a head as the links write it",
        cast_on(head="56cm"),
        400,
        "#/head",
        ('"value"', '"unit"'),
        cast_on(),
    ),
    Wrong(
        "web shop",
        "a unit in full",
        cast_on(head={"value": 56, "unit": "centimeters"}),
        400,
        "#/head/unit",
        ("cm",),
        cast_on(),
    ),
    Wrong(
        "web shop",
        "a decimal comma",
        cast_on(head={"value": "55,5", "unit": "cm"}),
        400,
        "#/head/value",
        ("55.5",),
        cast_on(head={"value": 55.5, "unit": "cm"}),
    ),
    Wrong("web shop", "no size on the shelf", recommend(offered=[]), 400, "#/offered", ("1",), recommend()),
    Wrong(
        "web shop",
        "another name for the label",
        recommend(offered=[{"name": "S", "circumference": {"value": 46, "unit": "cm"}}]),
        400,
        "#/offered/0/label",
        ("label",),
        recommend(),
    ),
    Wrong(
        "web shop",
        "JSON without its media type",
        Request("POST", "/v1/cast-on", RIGHT, {"content-type": "text/plain;charset=UTF-8"}),
        415,
        "",
        ("Content-Type", "application/json"),
        cast_on(),
    ),
    Wrong(
        "web shop",
        "a form",
        Request(
            "POST", "/v1/cast-on", b"head=56&gauge=18", {"content-type": "application/x-www-form-urlencoded"}
        ),
        415,
        "",
        ("Content-Type", "application/json"),
        cast_on(),
    ),
    Wrong("web shop", "PUT", Request("PUT", "/v1/cast-on", RIGHT), 405, "", ("POST",), cast_on()),
    Wrong(
        "web shop",
        "the operation's name as the path",
        post("/v1/castOn", {"head": HEAD, "gauge": GAUGE}),
        404,
        "",
        ("/v1/cast-on",),
        cast_on(),
    ),
    Wrong(
        "web shop",
        "the path without the version",
        post("/cast-on", {"head": HEAD, "gauge": GAUGE}),
        404,
        "",
        ("/v1/cast-on",),
        cast_on(),
    ),
    Wrong(
        "web shop",
        "no head",
        post("/v1/cast-on", {"gauge": GAUGE}),
        422,
        "#",
        ("head", "size"),
        cast_on(),
    ),
    Wrong(
        "web shop", "a head and an age", cast_on(size={"age_months": 6}), 422, "#/size", ("head",), cast_on()
    ),
    Wrong(
        "web shop",
        "a word for the sex",
        post("/v1/cast-on", {"size": {"age_months": 6, "sex": "female"}, "gauge": GAUGE}),
        400,
        "#/size/sex",
        ("girl",),
        post("/v1/cast-on", {"size": {"age_months": 6, "sex": "girl"}, "gauge": GAUGE}),
    ),
    Wrong(
        "web shop",
        "a unit for the system of units",
        cast_on(units="cm"),
        400,
        "#/units",
        ("metric",),
        cast_on(units="metric"),
    ),
    # A developer of an app, from Kotlin and Swift.
    Wrong("app", "one size, not in a list", hat(sizes={"head": HEAD}), 400, "#/sizes", ("[",), hat()),
    Wrong("app", "no sizes", hat(sizes=[]), 400, "#/sizes", ("1",), hat()),
    Wrong(
        "app",
        "another word for a grown-up",
        hat(sizes=[{"adult": "women"}]),
        400,
        "#/sizes/0/adult",
        ("woman",),
        hat(sizes=[{"adult": "woman"}]),
    ),
    Wrong(
        "app",
        "a size said in two ways",
        hat(sizes=[{"head": HEAD, "age_years": 8}]),
        422,
        "#/sizes/0/age_years",
        ("head", "age_years"),
        hat(),
    ),
    Wrong(
        "app",
        "a brim as a word",
        hat(brim="ribbed"),
        400,
        "#/brim",
        ('"kind"',),
        hat(brim={"kind": "ribbed"}),
    ),
    Wrong(
        "app",
        "a rib as 2x2",
        hat(brim={"kind": "ribbed", "rib": "2x2"}),
        400,
        "#/brim/rib",
        ('"knit"', '"purl"'),
        hat(brim={"kind": "ribbed", "rib": {"knit": 2, "purl": 2}}),
    ),
    Wrong(
        "app",
        "a style that is not there",
        hat(crown={"style": "star"}),
        400,
        "#/crown/style",
        ("wedge", "swirl"),
        hat(crown={"style": "wedge"}),
    ),
    Wrong(
        "app",
        "needles as a word",
        hat(needles="dpn"),
        400,
        "#/needles",
        ("4", "magic_loop"),
        hat(needles=4),
    ),
    Wrong("app", "more needles than hands", hat(needles=6), 400, "#/needles", ("5",), hat(needles=5)),
    Wrong(
        "app",
        "a magic loop without a unit",
        hat(needles={"magic_loop": 80}),
        400,
        "#/needles/magic_loop",
        ('"value"', '"unit"'),
        hat(needles={"magic_loop": {"value": 80, "unit": "cm"}}),
    ),
    Wrong(
        "app",
        "a handout as a picture",
        handout(accept="image/png"),
        406,
        "",
        ("application/pdf", "text/html"),
        handout(accept="text/html"),
    ),
    Wrong(
        "app",
        "an answer as XML",
        Request("POST", "/v1/cast-on", RIGHT, {"accept": "application/xml"}),
        200,
        "",
        ("application/json",),
        cast_on(),
    ),
    Wrong(
        "app",
        "a locale with an underscore",
        hat(language="de_DE"),
        400,
        "#/language",
        ("de-DE",),
        hat(language="de-DE"),
    ),
    Wrong(
        "app",
        "colours as names",
        hat(colours=["blue", "white"]),
        400,
        "#/colours",
        ('"body"', '"colour"'),
        hat(colours={"body": [{"colour": "blue"}, {"colour": "white"}]}),
    ),
    Wrong(
        "app",
        "a ball without units",
        hat(yarn={"length": 210, "mass": 100}),
        400,
        "#/yarn/length",
        ('"value"', '"unit"'),
        hat(yarn=YARN),
    ),
    Wrong("app", "an empty name", hat(name=""), 400, "#/name", ("1",), hat(name="Class hat")),
    Wrong("app", "null for the required gauge", hat(gauge=None), 400, "#/gauge", ('"stitches"',), hat()),
    Wrong("app", "paper in capitals", handout(paper="A4"), 400, "#/paper", ("a4",), handout(paper="a4")),
    # A writer of scripts, with curl and Python.
    Wrong(
        "script",
        "JSON cut short",
        Request("POST", "/v1/cast-on", RIGHT[:40]),
        400,
        "",
        ("JSON", "ends"),
        cast_on(),
    ),
    Wrong(
        "script",
        "a trailing comma",
        Request("POST", "/v1/cast-on", RIGHT[:-1] + b",}"),
        400,
        "",
        ("comma",),
        cast_on(),
    ),
    Wrong(
        "script",
        "single quotes",
        Request("POST", "/v1/cast-on", RIGHT.replace(b'"', b"'")),
        400,
        "",
        ('"',),
        cast_on(),
    ),
    Wrong(
        "script",
        "a byte order mark",
        Request("POST", "/v1/cast-on", codecs.BOM_UTF8 + RIGHT),
        400,
        "",
        ("byte order mark",),
        cast_on(),
    ),
    Wrong(
        "script",
        "no body",
        Request("POST", "/v1/cast-on", b"", {"content-type": "application/json"}),
        400,
        "",
        ("body", "JSON"),
        cast_on(),
    ),
    Wrong(
        "script",
        "a list as the body",
        Request("POST", "/v1/cast-on", [{"head": HEAD, "gauge": GAUGE}]),
        400,
        "",
        ("object",),
        cast_on(),
    ),
    Wrong(
        "script",
        "Latin-1",
        Request(
            "POST",
            "/v1/hats",
            '{"name": "Mütze", "gauge": {"stitches": 20}, "sizes": [{"adult": "woman"}]}'.encode("latin-1"),
        ),
        400,
        "",
        ("UTF-8",),
        hat(name="Mütze"),
    ),
    Wrong(
        "script",
        "NaN",
        Request("POST", "/v1/cast-on", RIGHT.replace(b"24", b"NaN")),
        400,
        "",
        ("NaN",),
        cast_on(),
    ),
    Wrong(
        "script",
        "a comment",
        Request("POST", "/v1/cast-on", b"// my swatch\n" + RIGHT),
        400,
        "",
        ("comments",),
        cast_on(),
    ),
    Wrong(
        "script",
        "a body compressed",
        Request("POST", "/v1/cast-on", gzip.compress(RIGHT, mtime=0), {"content-encoding": "gzip"}),
        415,
        "",
        ("Content-Encoding",),
        cast_on(),
    ),
    Wrong(
        "script",
        "a field twice",
        Request("POST", "/v1/cast-on", RIGHT[:-1] + b', "head": {"value": 43, "unit": "cm"}}'),
        200,
        "",
        ("43.0",),
        cast_on(),
    ),
    Wrong(
        "script",
        "curl -d without a header",
        Request("POST", "/v1/cast-on", RIGHT, {"content-type": "application/x-www-form-urlencoded"}),
        415,
        "",
        ("Content-Type: application/json",),
        cast_on(),
    ),
    Wrong("script", "GET where there is only POST", get("/v1/hats"), 405, "", ("POST",), hat()),
    Wrong(
        "script",
        "half a stitch",
        even(stitches=100.5, change=-8),
        400,
        "#/stitches",
        ("whole",),
        even(change=-8),
    ),
    Wrong(
        "script",
        "a table that is not there",
        get("/v1/standards/yarn"),
        404,
        "table",
        ("yarn-weights",),
        get("/v1/standards/yarn-weights"),
    ),
    Wrong(
        "script",
        "a slash at the end",
        post("/v1/cast-on/", {"head": HEAD, "gauge": GAUGE}),
        404,
        "",
        ("/v1/cast-on",),
        cast_on(),
    ),
    Wrong(
        "script",
        "a pattern of a megabyte",
        post("/v1/patterns/proofread", {"cast_on": [64], "text": "k1 " * 30000}),
        400,
        "#/text",
        ("65536",),
        post("/v1/patterns/proofread", {"cast_on": [64], "text": "*k6, k2tog* around (56)"}),
    ),
    # Somebody with a spreadsheet, with the links.
    Wrong(
        "spreadsheet",
        "a decimal comma",
        get("/v1/cast-on", "head=56cm&gauge_stitches=18,5"),
        400,
        "gauge_stitches",
        ("18.5",),
        get("/v1/cast-on", "head=56cm&gauge_stitches=18.5"),
    ),
    Wrong(
        "spreadsheet",
        'inches as 21"',
        get("/v1/cast-on", 'head=21"&gauge_stitches=18'),
        400,
        "head",
        ("21in",),
        get("/v1/cast-on", "head=21in&gauge_stitches=18"),
    ),
    Wrong(
        "spreadsheet",
        "a head without a unit",
        get("/v1/cast-on", "head=56&gauge_stitches=18"),
        400,
        "head",
        ("56cm",),
        get("/v1/cast-on", "head=56cm&gauge_stitches=18"),
    ),
    Wrong(
        "spreadsheet",
        "inches and a fraction",
        get("/v1/cast-on", "head=22 1/2in&gauge_stitches=18"),
        400,
        "head",
        ("22.5in",),
        get("/v1/cast-on", "head=22.5in&gauge_stitches=18"),
    ),
    Wrong(
        "spreadsheet",
        "fields with a dot",
        get("/v1/cast-on", "head=56cm&gauge.stitches=18"),
        400,
        "gauge.stitches",
        ("gauge_stitches",),
        get("/v1/cast-on", "head=56cm&gauge_stitches=18"),
    ),
    Wrong(
        "spreadsheet",
        "an empty cell",
        get("/v1/cast-on", "head=56cm&gauge_stitches="),
        400,
        "gauge_stitches",
        ("22",),
        get("/v1/cast-on", "head=56cm&gauge_stitches=18"),
    ),
    Wrong(
        "spreadsheet",
        "a parameter twice",
        get("/v1/cast-on", "head=56cm&gauge_stitches=18&gauge_stitches=20"),
        400,
        "gauge_stitches",
        ("once",),
        get("/v1/cast-on", "head=56cm&gauge_stitches=18"),
    ),
    Wrong(
        "spreadsheet",
        "the error of a cell",
        get("/v1/cast-on", "head=#N/A&gauge_stitches=18"),
        400,
        "head",
        ("55.5cm",),
        get("/v1/cast-on", "head=55.5cm&gauge_stitches=18"),
    ),
    Wrong(
        "spreadsheet",
        "semicolons in a list",
        get("/v1/needles/split", "stitches=52&split=16;16;20"),
        400,
        "split",
        ("16,16,20",),
        get("/v1/needles/split", "stitches=52&split=16,16,20"),
    ),
    Wrong(
        "spreadsheet",
        "the scale without the mass",
        get(
            "/v1/yarn/remaining",
            "stitches=4800&gauge_stitches=19&yarn_length=210m&yarn_mass=100g&left_scale=1g",
        ),
        422,
        "left_mass",
        ("21g",),
        get(
            "/v1/yarn/remaining",
            "stitches=4800&gauge_stitches=19&yarn_length=210m&yarn_mass=100g&left_scale=1g&left_mass=21g",
        ),
    ),
    Wrong(
        "spreadsheet",
        "a style under the name of the crown",
        get("/v1/needles/split", "stitches=52&crown=quick"),
        400,
        "crown",
        ("crown_style",),
        get("/v1/needles/split", "stitches=52&crown_style=quick"),
    ),
    Wrong(
        "spreadsheet",
        "yes for true",
        get("/v1/gauge/substitute", "pattern_stitches=20&yours_stitches=18&held_double=yes"),
        400,
        "held_double",
        ("true",),
        get("/v1/gauge/substitute", "pattern_stitches=20&yours_stitches=18&held_double=true"),
    ),
    Wrong(
        "spreadsheet",
        "a rib as a sum",
        get("/v1/cast-on", "head=56cm&gauge_stitches=18&multiple_of=2+2"),
        400,
        "multiple_of",
        ("whole",),
        get("/v1/cast-on", "head=56cm&gauge_stitches=18&multiple_of=4"),
    ),
    Wrong(
        "spreadsheet",
        "a picture in a theme of its own",
        get("/v1/drawings/crown.svg", "stitches=64&theme=black"),
        400,
        "theme",
        ("dark",),
        get("/v1/drawings/crown.svg", "stitches=64&theme=dark"),
    ),
    Wrong(
        "spreadsheet",
        "a picture without its gauge",
        get("/v1/drawings/profile.svg", "head=56cm"),
        400,
        "gauge_stitches",
        ("gauge_stitches",),
        get("/v1/drawings/profile.svg", "head=56cm&gauge_stitches=20"),
    ),
    # A knitter in a form, where the request is well made and the hat is not.
    Wrong(
        "knitter",
        "millimetres typed as centimetres",
        cast_on(head={"value": 560, "unit": "cm"}),
        422,
        "#/head/value",
        ("560 mm",),
        cast_on(head={"value": 560, "unit": "mm"}),
    ),
    Wrong(
        "knitter",
        "a gauge to the inch",
        cast_on(gauge={"stitches": 0.5}),
        422,
        "#/gauge/stitches",
        ("over",),
        cast_on(gauge={"stitches": 5, "over": {"value": 1, "unit": "in"}}),
    ),
    Wrong(
        "knitter",
        "the brim's gauge to the inch",
        hat(brim={"kind": "ribbed", "gauge": {"stitches": 6}}),
        422,
        "#/brim/gauge",
        ("over", "in"),
        hat(brim={"kind": "ribbed", "gauge": {"stitches": 6, "over": {"value": 1, "unit": "in"}}}),
    ),
    Wrong("knitter", "three stitches", crown(stitches=3), 400, "#/stitches", ("8",), crown(stitches=8)),
    Wrong(
        "knitter",
        "a repeat wider than the hat",
        cast_on(multiple={"of": 300}),
        422,
        "#/multiple",
        ("9",),
        cast_on(multiple={"of": 90}),
    ),
    Wrong(
        "knitter",
        "a body shorter than its brim",
        hat(
            brim={"kind": "ribbed", "length": {"value": 9, "unit": "cm"}},
            body={"length": {"value": 5, "unit": "cm"}},
        ),
        422,
        "#/body/length",
        ("8.93 cm", "shorter brim"),
        hat(
            brim={"kind": "ribbed", "length": {"value": 5, "unit": "cm"}},
            body={"length": {"value": 12, "unit": "cm"}},
        ),
    ),
    Wrong(
        "knitter",
        "a depth of an inch",
        hat(depth={"value": 1, "unit": "in"}),
        200,
        "#/depth",
        ("14.8 cm",),
        hat(depth={"value": 20, "unit": "cm"}),
    ),
    Wrong(
        "knitter",
        "depth and body length",
        hat(depth={"value": 20, "unit": "cm"}, body={"length": {"value": 12, "unit": "cm"}}),
        422,
        "#/depth",
        ("body",),
        hat(depth={"value": 20, "unit": "cm"}),
    ),
    Wrong(
        "knitter",
        "ease twice",
        cast_on(ease={"percent": -10, "length": {"value": -5, "unit": "cm"}}),
        422,
        "#/ease/length",
        ("percent", "length"),
        cast_on(ease={"percent": -10}),
    ),
    Wrong(
        "knitter",
        "change and target",
        even(change=-8, target=90),
        422,
        "#/target",
        ("change",),
        even(change=-8),
    ),
    Wrong(
        "knitter",
        "more decreases than stitches",
        even(change=-60),
        422,
        "#/change",
        ("50",),
        even(change=-50),
    ),
    Wrong(
        "knitter",
        "a split that is not the stitches",
        split(split=[16, 16, 16]),
        422,
        "#/split",
        ("48", "52"),
        split(split=[16, 16, 20]),
    ),
    Wrong(
        "knitter",
        "no count to check",
        post("/v1/counts/check", {"crown": {"stitches": 64}}),
        422,
        "#/count",
        ("count", "needles"),
        post("/v1/counts/check", {"crown": {"stitches": 64}, "count": 56}),
    ),
    Wrong(
        "knitter",
        "a round that the crown does not have",
        post("/v1/counts/check", {"crown": {"stitches": 64}, "count": 56, "round": 99}),
        422,
        "#/round",
        ("8",),
        post("/v1/counts/check", {"crown": {"stitches": 64}, "count": 56, "round": 1}),
    ),
    Wrong(
        "knitter",
        "the third of two sizes",
        hat(sizes=[{"age_years": 3}, {"adult": "woman"}], only_size=3),
        422,
        "#/only_size",
        ("2",),
        hat(sizes=[{"age_years": 3}, {"adult": "woman"}], only_size=2),
    ),
    Wrong(
        "knitter",
        "months for years",
        post("/v1/cast-on", {"size": {"age_years": 30}, "gauge": GAUGE}),
        400,
        "#/size/age_years",
        ("21", "adult"),
        post("/v1/cast-on", {"size": {"adult": "woman"}, "gauge": GAUGE}),
    ),
    Wrong(
        "knitter",
        "a cone without a gauge",
        crown(style="cone"),
        200,
        "#/gauge",
        ("gauge",),
        crown(style="cone", gauge=GAUGE),
    ),
    Wrong(
        "knitter",
        "snugger than it stretches",
        recommend(snug_percent=30),
        422,
        "#/snug_percent",
        ("20",),
        recommend(snug_percent=10),
    ),
    Wrong(
        "knitter",
        "one count for a list",
        post("/v1/patterns/proofread", {"cast_on": 64, "text": "*k6, k2tog* around (56)"}),
        400,
        "#/cast_on",
        ("[64]",),
        post("/v1/patterns/proofread", {"cast_on": [64], "text": "*k6, k2tog* around (56)"}),
    ),
    Wrong(
        "knitter",
        "a text that is no pattern",
        post(
            "/v1/patterns/proofread",
            {"cast_on": [64], "text": "Dear Ottoline, the yarn came today and it is lovely."},
        ),
        200,
        "",
        ("Rnd 1",),
        post("/v1/patterns/proofread", {"cast_on": [64], "text": "*k6, k2tog* around (56)"}),
    ),
    # Somebody who sends many at once, and somebody who gets several things wrong at once.
    Wrong(
        "batch",
        "another name for the parts",
        post("/v1/batch", {"calls": [PART]}),
        400,
        "#/requests",
        ("requests",),
        batch(PART),
    ),
    Wrong("batch", "a list as the body", post("/v1/batch", [PART]), 400, "", ("requests",), batch(PART)),
    Wrong(
        "batch",
        "the path for the operation",
        batch({"operation": "/v1/cast-on", "body": PART["body"]}),
        200,
        "0",
        ("castOn",),
        batch(PART),
    ),
    Wrong(
        "batch",
        "an operation in another case",
        batch(PART, {"operation": "cast_on", "body": PART["body"]}),
        200,
        "1",
        ("castOn",),
        batch(PART, PART),
    ),
    Wrong(
        "batch",
        "a list for the body of a part",
        batch({"operation": "castOn", "body": [PART["body"]]}),
        400,
        "#/requests/0/body",
        ("object",),
        batch(PART),
    ),
    Wrong(
        "batch",
        "a part with a fault of its own",
        batch(PART, {"operation": "castOn", "body": {"head": HEAD, "guage": GAUGE}}),
        200,
        "1 #/guage",
        ("gauge",),
        batch(PART, PART),
    ),
    Wrong(
        "several",
        "four faults of a hat",
        post(
            "/v1/hats",
            {"guage": SWATCH_OF_A_CLASS, "sizes": [{"ageYears": 3}, {"adult": "women"}], "units": "inch"},
        ),
        400,
        "#/sizes/0/ageYears",
        ("age_years",),
        hat(sizes=[{"age_years": 3}, {"adult": "woman"}], units="imperial"),
    ),
    Wrong(
        "several",
        "faults in both quantities of a link",
        get("/v1/cast-on", "head=56,5&gaugeStitches=18"),
        400,
        "head",
        ("56.5cm",),
        get("/v1/cast-on", "head=56.5cm&gauge_stitches=18"),
    ),
)
