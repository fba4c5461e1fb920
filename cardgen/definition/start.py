"""New definition files: every key of a kind of aircraft once, with blanks to fill in."""

import json
import re
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

import jinja2

from cardgen.definition.examples import NAMES, USUAL
from cardgen.definition.files import inside, read_in
from cardgen.definition.guide import V_SPEEDS, Form, Key, Section, guide
from cardgen.definition.model import Markings, School
from cardgen.definition.places import DefinitionError
from cardgen.definition.reading import read_yaml
from cardgen.definition.slips import BLANK
from cardgen.definition.speeds import KINDS, SPEEDS
from cardgen.definition.upgrading import STEPS
from cardgen.folders import own_templates

Values = Mapping[str, str | Mapping[str, object]]  # what is known of a new file, by key

_GLIDER_UNITS = {"speed": "km/h", "altitude": "m", "temperature": "C", "weight": "kg"}
_UNITS = {"speed": "kt", "altitude": "ft", "temperature": "C", "weight": "lb"}
_GRID_UNITS = {"units": "{speed: kt, altitude: ft, temperature: C}"}
# What a school may begin with: a grid for each kind, in units that it states.
_GRIDS: dict[str, dict[str, str]] = {
    "single-engine": {
        **_GRID_UNITS,
        "altitude": "[0, 2000, 4000, 6000, 8000, 10000]",
        "oat": "[-20, -10, 0, 10, 20, 30, 40]",
        "ias": "[60, 75, 90, 105, 120]",
        "cruise": "{altitude: [2500, 4500, 6500, 8500], oat: [-10, 0, 10, 20, 30]}",
    },
    "multi-engine": {
        **_GRID_UNITS,
        "altitude": "[0, 3000, 6000, 9000, 12000, 15000]",
        "oat": "[-20, -10, 0, 10, 20, 30, 40]",
        "ias": "[90, 110, 130, 150, 170]",
        "cruise": "{altitude: [4500, 6500, 8500, 10500], oat: [-10, 0, 10, 20, 30]}",
    },
    "glider": {
        "units": "{speed: km/h, altitude: m, temperature: C}",
        "altitude": "[0, 1000, 2000, 3000, 4000]",
        "oat": "[-20, -10, 0, 10, 20, 30]",
        "ias": "[80, 110, 140, 170, 200]",
    },
    "turbine": {
        **_GRID_UNITS,
        "altitude": "[0, 5000, 10000, 15000, 20000, 25000]",
        "isa": "[-20, -10, 0, 10, 20]",
        "ias": "[120, 150, 180, 210]",
        "cruise": "{altitude: [12000, 16000, 20000, 24000], isa: [-10, 0, 10]}",
    },
}


class _Line(NamedTuple):
    """A line of a new file; `off` is how far in the key stands that is taken out, with its own."""

    indent: int
    text: str
    said: str = ""
    off: int | None = None

    def __str__(self) -> str:
        start = " " * self.indent
        if self.off is not None:
            start = f"{' ' * self.off}# {' ' * (self.indent - self.off)}"
        written = f"{start}{self.text}"
        return f"{written:<38}  # {self.said}" if self.said else written


class _File(NamedTuple):
    """What a file is written from; `told` are the groups whose keys stand there already."""

    sections: dict[str, Section]
    kind: str
    told: set[str]


def new_type(overrides: Path, name: str, kind: str) -> str:
    """Return a commented definition of a type, valid once its blanks are filled.

    Parameters
    ----------
    overrides : Path
        The school's folder of templates; a file there stands in for ours of the same name.
    name, kind : str
    """
    glider = kind == "glider"
    fuel = {"fuel flow": "lb/h" if kind == "turbine" else "gal/h"}
    values: dict[str, str | Mapping[str, object]] = {
        "name": _typed(name),
        "kind": kind,
        "units": _GLIDER_UNITS if glider else {**_UNITS, **fuel},
        **({} if glider else {"flaps": f"[0, {BLANK}]"}),
    }
    file = _File(guide("type.json"), kind, set())
    return _filled(overrides, "start-type.yaml", file, values)


def new_airframe(overrides: Path, registration: str, type_name: str) -> str:
    """Return a commented definition of an airframe; see `new_type`."""
    file = _File(guide("airframe.json"), "", set(guide("type.json")))
    values = {"registration": _typed(registration), "type": _typed(type_name)}
    return _filled(overrides, "start-airframe.yaml", file, values)


def new_school(overrides: Path, folder: Path, name: str = BLANK) -> str:
    """Return a commented definition of a school, for the kinds of the types that it has."""
    kinds = kinds_in(folder) or KINDS
    grids = {kind: _GRIDS.get(kind, _GRIDS["single-engine"]) for kind in kinds}
    paper = str(School.model_fields["paper"].default)
    file = _File(guide("school.json"), "", set())
    values: Values = {"name": _typed(name), "paper": paper, "reference speeds": grids}
    return _filled(overrides, "start-school.yaml", file, values)


def _typed(words: str) -> str:
    """Return words as they stand in YAML: in quotation marks where they would be read otherwise."""
    plain = re.fullmatch(r"\w([\w .,'()/-]*[\w.)])?", words) and words.casefold() != "null"
    return words if plain else json.dumps(words, ensure_ascii=False)


def kinds_in(folder: Path) -> tuple[str, ...]:
    """Return the kinds of the types in a folder of definitions, those that can be read."""
    found = set()
    for path in read_in(folder, "types"):
        try:
            found.add(read_yaml(inside(folder, path)).get("kind"))
        except (OSError, DefinitionError):
            continue
    return tuple(kind for kind in KINDS if kind in found)


def _filled(overrides: Path, template: str, file: _File, values: Values) -> str:
    environment = jinja2.Environment(
        loader=jinja2.FileSystemLoader([overrides, own_templates()]),
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    root = next(iter(file.sections.values()))
    known = {**values, "format": str(len(STEPS) + 1)}
    keys = "\n".join(map(str, _keys(file, root, known, 0, None)))
    return environment.get_template(template).render(keys=keys, **values)


def _keys(
    file: _File, section: Section, values: Mapping[str, object], indent: int, off: int | None
) -> Iterator[_Line]:
    """Yield the lines of a group: a key to a line, those that need not be taken out."""
    said = section.name not in file.told
    file.told.add(section.name)
    for key in section.keys:
        if _is_of(file.kind, section.name, key.name):
            out = off
            if off is None and not (key.name in values or _stays(file.kind, section, key)):
                out = indent
            yield from _key(file, section, key, values.get(key.name), indent, out, said)


def _is_of(kind: str, section: str, key: str) -> bool:
    """Whether a kind of aircraft has a key."""
    if section == V_SPEEDS:
        return not kind or kind in SPEEDS[key].kinds
    return section != Markings.__name__ or not kind or kind in Markings.KINDS.get(key, KINDS)


def _stays(kind: str, section: Section, key: Key) -> bool:
    if section.name == V_SPEEDS:
        return kind in SPEEDS[key.name].required
    return key.needed or key.name == "page" or key.name in USUAL.get(section.name, ())


def _key(
    file: _File,
    section: Section,
    key: Key,
    value: object,
    indent: int,
    off: int | None,
    said: bool,
) -> Iterator[_Line]:
    """Yield the lines of a key: one, or one for each key of a group that is not told yet."""
    form, comment = key.forms[0], _comment(section, key) if said else ""
    group = next(iter(key.groups), "")
    if isinstance(value, str):
        yield _Line(indent, f"{key.name}: {value}", comment, off)
    elif form.what == "names" and isinstance(value, Mapping):
        yield _Line(indent, f"{key.name}:", comment, off)
        for name, inner in value.items():
            yield _Line(indent + 2, f"{name}:", "", off)
            yield from _keys(file, file.sections[group], inner, indent + 4, off)
    elif form.what in ("group", "list") and group and group not in file.told and key.name != "VFE":
        yield _Line(indent, f"{key.name}:", comment, off)
        known = value if isinstance(value, Mapping) else {}
        lines = _keys(file, file.sections[group], known, indent + 2, off)
        yield from lines if form.what == "group" else _listed(lines)
    else:
        yield _Line(indent, f"{key.name}: {_blank(file, section.name, key, form)}", comment, off)


def _comment(section: Section, key: Key) -> str:
    return SPEEDS[key.name].meaning if section.name == V_SPEEDS else key.meaning


def _listed(lines: Iterator[_Line]) -> Iterator[_Line]:
    """Yield the lines of a group as those of a list's first; one that stays begins it."""
    rest = list(lines)
    indent = rest[0].indent
    begins = next((n for n, one in enumerate(rest) if one.off is None), 0)
    first = rest.pop(begins)
    yield first._replace(text=f"- {first.text}")
    for line in rest:
        by_itself = line.off is not None and line.off >= indent
        off = line.indent + 2 if by_itself else line.off
        yield line._replace(indent=line.indent + 2, off=off)


def _blank(file: _File, section: str, key: Key, form: Form) -> str:
    """Return what is to be filled in under a key, on one line."""
    if section == V_SPEEDS and key.name in _SPEEDS:
        return _SPEEDS[key.name]
    match form.what:
        case "group":
            return _flow(file, file.sections[form.group])
        case "list":
            inner = _blank(file, section, key, form.of[0])
            several = form.of[0].what == "number" or form.of[0].what == "list"
            return f"[{inner}, {inner}]" if several else f"[{inner}]"
        case "names":
            return f"{{{NAMES.get(key.name, BLANK)}: {_blank(file, section, key, form.of[0])}}}"
        case "choice":
            return form.choices[0]
    return BLANK


_SPEEDS = {
    "VFE": "[{flaps: ___, ias: ___, cas: ___, page: ___}]",
    "MMO": "{mach: ___, page: ___}",
}


def _flow(file: _File, section: Section) -> str:
    """Return the keys that a group usually has, with blanks, between braces."""
    usual: Sequence[str] = USUAL.get(section.name, ())
    keys = [key for key in section.keys if key.needed or key.name in (*usual, "page")]
    blanks = (f"{key.name}: {_blank(file, section.name, key, key.forms[0])}" for key in keys)
    return "{" + ", ".join(blanks) + "}"
