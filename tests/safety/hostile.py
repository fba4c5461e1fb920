"""Definitions in which every free text is one that would do harm, if anything took it for code."""

import itertools
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import yaml

from cardgen.definition.schema import schema
from cardgen.definition.speeds import KINDS
from tests.conftest import DEMO, ROOT

# Markup, scripts, template expressions, addresses, formulas, blanks and terms of a wording, orders
# to a shell and to a workflow, ends of strings of CSS and JSON; the short ones fit a flap setting.
TEXTS = [
    "<script>alert(1)</script>",
    "\"'><img src=x onerror=alert(1)>",
    "{{ 7*7 }}{% raw %}{# {",
    "javascript:alert(document.cookie)",
    "file:///etc/passwd",
    "';background:url(http://x.invalid/a);x:'",
    "</title></style><style>*{display:none}",
    "=HYPERLINK(\"http://x.invalid\")",
    "+1+cmd|' /C calc'!A0",
    "@SUM(1+1)",
    "-1-1, \"x\"",
    "{speed} {0} %s %(x)s ${x} {title",
    "[CAS](VNE) [x](y) {speed:number}",
    "]]> --> <!-- &lt;b&gt; &#60; &amp",
    "\\u003cb\\u003e \\\" \\' \\",
    "::error file=a::b %0A %",
    "`id` $(id) ; id | id && id",
    "*a &a !!python/object:os.system x # y",
]  # fmt: skip
SHORT = [
    "<b>{{x}}",
    "\"'{0}",
    "=1+1",
    "-1-1",
    "@A1",
    "{x",
    "</td>",
    "<!--",
    "&#60;",
    "[a](b)",
    "::x",
]


class Spoiling:
    """Puts a hostile text in the place of every free one; the same for the same."""

    def __init__(self) -> None:
        self.put: dict[str, str] = {}
        self.fields: set[str] = set()  # where: the schema's group and key
        self.numbers = itertools.count()

    def text(self, old: str, most: int, field: str) -> str:
        self.fields.add(field)
        if old not in self.put:
            n = next(self.numbers)
            fitting = [one for one in TEXTS if len(one) + 3 <= most] or SHORT
            self.put[old] = f"{fitting[n % len(fitting)]}~{n:02d}"[:most]
        return self.put[old]

    def walked(self, data: Any, about: dict[str, Any], whole: dict[str, Any], field: str) -> Any:
        """Return data with its free texts replaced, by what a schema says of it."""
        ways = list(_ways(about, whole))
        if isinstance(data, (int, float)) and field.endswith(".flaps"):
            data = f"{data:g}"
        if isinstance(data, str) and data not in COLUMNS:
            most = next((one["maxLength"] for _, one in ways if _is_free(one)), 0)
            return self.text(data, most, field) if most else data
        if isinstance(data, list):
            inner = next((one["items"] for _, one in ways if "items" in one), {})
            return [self.walked(one, inner, whole, field) for one in data]
        if not isinstance(data, dict):
            return data
        made = {}
        for key, value in data.items():
            name, one = next(
                ((name, one) for name, one in ways if key in one.get("properties", {})), ("", {})
            )
            if one:
                inner, at, new = one["properties"][key], f"{name}.{key}", key
            else:
                name, one = next((w for w in ways if "additionalProperties" in w[1]), ("", {}))
                inner, at = one.get("additionalProperties", {}), field
                bound = one.get("propertyNames", {}).get("maxLength")
                free = (bound or field.endswith("other speeds")) and key not in COLUMNS
                new = self.text(key, bound or 40, f"{field}: names") if free else key
            inner = inner if isinstance(inner, dict) else {}
            made[new] = value if at in KEPT else self.walked(value, inner, whole, at)
        return made


# Columns of cruise tables that the program knows by name.
COLUMNS = {"altitude", "isa", "oat", "rpm", "manifold pressure", "torque", "N1", "setting", "power"}
COLUMNS |= {"ias", "tas", "fuel flow", "endurance", "range"}
# The name of a file, and that of a rule: any other is refused.
KEPT = {"AirframeDefinition.type", "Acceptance.rule"}


def _ways(about: dict[str, Any], whole: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    """Yield what a schema allows, each with the group that it is, if it is one."""
    if "$ref" in about:
        name = about["$ref"].rpartition("/")[2]
        yield from ((name, one) for _, one in _ways(whole["$defs"][name], whole))
    for one in about.get("anyOf", ()):
        yield from _ways(one, whole)
    if "$ref" not in about and "anyOf" not in about:
        yield about.get("title", ""), about


def _is_free(about: dict[str, Any]) -> bool:
    kinds = about.get("type", ())
    words = "string" in ([kinds] if isinstance(kinds, str) else kinds)
    return words and not {"enum", "const", "pattern", "format"} & set(about)


def every_field() -> set[str]:
    """Return every free text that the schemas know, as a group and a key."""
    found = set()
    for file in ("school.json", "type.json", "airframe.json"):
        whole = json.loads(schema(file))
        for name, group in {whole["title"]: whole, **whole["$defs"]}.items():
            for key, about in group.get("properties", {}).items():
                ways = [one for _, one in _ways(about, whole)]
                ways += [w for one in ways if "items" in one for _, w in _ways(one["items"], whole)]
                if any(map(_is_free, ways)):
                    found.add(f"{name}.{key}")
                if any("maxLength" in one.get("propertyNames", {}) for one in ways):
                    found.add(f"{name}.{key}: names")
    return found - KEPT


GRID = {
    "units": {"speed": "kt", "altitude": "ft", "temperature": "C"},
    "ias": [100, 110],
    "altitude": [0, 4000],
    "oat": [0, 10],
}
# Files that together have nearly every text, and what they lack of it.
DEFINITIONS = ROOT / "tests" / "definitions"
FILES = {
    DEMO / "school.yaml": {
        "pairs": [{"from": "ZZ-AVA", "to": "ZZ-WTR"}],
        "notice": "Private.",
        "signing": {"roles": ["instructor"]},
        "web address": "cards.invalid",
        "reference speeds": dict.fromkeys(KINDS, GRID),
    },
    DEMO / "types/wheatear-15.yaml": {
        "flaps": ["-1", "0", "L"],
        "markings": {
            "yellow": {"from": 179, "to": 251},
            "other marks": [{"name": "triangle", "at": 100, "means": "flaps", "page": "2-9"}],
            "flaps not marked": ["L"],
            "not marked": ["winch"],
        },
        "polar": {
            "ias": [70, 90, 120, 160],
            "sink": [0.75, 0.69, 0.92, 1.69],
            "flaps": "-1",
            "when": "clean",
            "page": "5-5",
        },
        "maximum operating altitude": {"altitude": 6000, "page": "2-8"},
        "accepted": [
            {
                "rule": "position-error",
                "figure": "speeds/VS1/ias",
                "value": "65",
                "reason": "So says the manual.",
            }
        ],
    },
    DEMO / "fleet/zz-wtr.yaml": {
        "sign off": {
            "by": "P. Pipit",
            "role": "instructor",
            "date": "2026-01-31",
            "figures": "5B07-1BA0",
        },
        "remarks": ["Dolly with it.", "Two seats."],
    },
    DEFINITIONS / "corrections/types/sandpiper-250.yaml": {},
    DEFINITIONS / "corrections/fleet/zz-spa.yaml": {
        "supplements": [
            {
                "title": "Skis",
                "number": "S-9",
                "revision": "1",
                "other speeds": {
                    "skis out": {"ias": 100, "flaps": "20", "sense": "maximum", "when": "on"}
                },
                "stall": {
                    "when": "skis out",
                    "weight": 4000,
                    "bank": [0, 30],
                    "page": "S9-2",
                    "rows": [{"ias": [60, 65], "flaps": "0"}],
                },
            }
        ]
    },
    DEFINITIONS / "cruise/types/avocet-180.yaml": {},
    DEFINITIONS / "cruise/fleet/zz-ava.yaml": {},
    DEFINITIONS / "stress/types/shearwater-4000.yaml": {},
    DEFINITIONS / "stress/fleet/zz-shearwater-12.yaml": {},
}


def write(folder: Path, spoiling: Spoiling | None = None) -> None:
    """Write these files, as they are or hostile; registrations and files keep their names."""
    for source, more in FILES.items():
        kind = {"types": "type", "fleet": "airframe"}.get(source.parent.name, "school")
        whole = json.loads(schema(f"{kind}.json"))
        data = {**yaml.safe_load(source.read_text("utf-8")), **more}
        if spoiling:
            data = spoiling.walked(data, whole, whole, whole["title"])
        path = folder / ("" if kind == "school" else source.parent.name) / source.name
        path.parent.mkdir(exist_ok=True, parents=True)
        path.write_text(yaml.safe_dump(data, sort_keys=False, allow_unicode=True), "utf-8")
