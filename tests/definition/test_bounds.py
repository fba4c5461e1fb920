"""Words have bounds: stated in the schemas, refused beyond, reached by the stress definitions."""

import json
import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
import yaml

from cardgen.definition.fleet import read_fleet, read_sound
from cardgen.definition.places import DefinitionError
from cardgen.definition.schema import FILES, schema
from tests.conftest import ROOT, keep

STRESS = ROOT / "tests" / "definitions" / "stress"
TYPE, AIRFRAME = "types/shearwater-4000.yaml", "fleet/zz-shearwater-12.yaml"


def texts(about: object, path: str = "") -> Iterator[tuple[str, dict]]:
    """Yield what a schema says of every text that is free."""
    if isinstance(about, list):
        for one in about:
            yield from texts(one, path)
    if not isinstance(about, dict):
        return
    kinds = about.get("type", ())
    words = "string" in ([kinds] if isinstance(kinds, str) else kinds)
    if words and not {"enum", "const"} & set(about) and about.get("format") != "date":
        yield path, about
    for key, inner in about.items():
        yield from texts(inner, f"{path}/{key}")


@pytest.mark.parametrize("name", FILES)
def test_every_free_text_has_a_bound_in_the_schema(name):
    found = dict(texts(json.loads(schema(name))))
    assert len(found) > 2
    assert [path for path, about in found.items() if "maxLength" not in about] == []


# A text of each kind that the stress definitions have, as long as it may be.
FULL = [
    ("school.yaml", "name", 100),
    ("school.yaml", "web address", 100),
    ("school.yaml", "notice", 300),
    (TYPE, "name", 60),
    (TYPE, "title", 100),
    (TYPE, "number", 40),
    (TYPE, "revision", 40),
    (TYPE, "when", 60),
    (TYPE, "page", 40),
    (TYPE, "flaps", 16),
    (AIRFRAME, "registration", 16),
    (AIRFRAME, "serial", 40),
    (AIRFRAME, "title", 100),
    (AIRFRAME, "number", 40),
    (AIRFRAME, "revision", 40),
    (AIRFRAME, "remarks", 160),
]


def held(data: object, key: str) -> Iterator[tuple[object, object]]:
    """Yield the groups and lists that have texts under a key, each with where in it."""
    if isinstance(data, dict):
        for name, value in data.items():
            if name == key and isinstance(value, str):
                yield data, name
            elif name == key and isinstance(value, list):
                yield from ((value, n) for n, one in enumerate(value) if isinstance(one, str))
            yield from held(value, key)
    elif isinstance(data, list):
        for one in data:
            yield from held(one, key)


@pytest.mark.parametrize(("file", "key", "bound"), FULL)
def test_one_letter_more_is_refused_at_its_place(tmp_path, file, key, bound):
    folder = tmp_path / "definitions"
    shutil.copytree(STRESS, folder)
    path = folder / file
    data = yaml.safe_load(path.read_text("utf-8"))
    group, at = max(held(data, key), key=lambda found: len(found[0][found[1]]))
    assert len(group[at]) == bound
    group[at] += "X"
    path.write_text(yaml.safe_dump(data, sort_keys=False), "utf-8")
    with pytest.raises(DefinitionError) as caught:
        read_fleet(folder)
    wanted = rf"{file}:\d+:\d+: {key}: found {bound + 1} characters, expected {bound} at most"
    assert any(re.fullmatch(wanted, one) for one in str(caught.value).splitlines())


def test_too_many_remarks_are_refused(tmp_path):
    folder = tmp_path / "definitions"
    shutil.copytree(STRESS, folder)
    path: Path = folder / AIRFRAME
    path.write_text(path.read_text("utf-8") + "  - One more.\n")
    with pytest.raises(DefinitionError, match="remarks: found too many, expected 6 at most"):
        read_fleet(folder)


# -- what is multiplied


def listed(count: int, low: float, high: float) -> str:
    """So many different figures, as a definition has them."""
    return f"[{', '.join(f'{low + (high - low) * n / count:.4f}' for n in range(count))}]"


def grid(*, ias: int = 1, tas: int = 0, altitude: int = 1, oat: int = 1, cruise: str = "") -> str:
    keys = {
        "ias": listed(ias, 50, 150),
        "tas": listed(tas, 50, 150),
        "altitude": listed(altitude, 0, 9000),
        "oat": listed(oat, -20, 40),
        "cruise": cruise or "{altitude: [2500], oat: [10]}",
    }
    return "reference speeds:\n  single-engine:\n" + "".join(
        f"    {key}: {value}\n" for key, value in keys.items() if value != "[]"
    )


def cruise(altitude: int, oat: int) -> str:
    air = f"{{altitude: {listed(altitude, 2000, 8000)}, oat: {listed(oat, -20, 20)}}}"
    return grid(cruise=air)


def stalls(weights: int, banks: int) -> str:
    """A table of stall speeds at two flap settings; the type has four weights besides."""
    ias = f"[{', '.join(['50'] * banks)}]"
    rows = "".join(
        f"    - {{flaps: {flaps}, weight: {1701 + n}, ias: {ias}}}\n"
        for flaps in (0, 35)
        for n in range(weights)
    )
    return f"stall:\n  page: 5-9\n  bank: {listed(banks, 0, 60)}\n  rows:\n{rows}"


# As many as there may be, and one more; the cruise table of this type has three power settings.
MULTIPLIED = [
    (grid(ias=10, altitude=25, oat=20), grid(ias=11, altitude=25, oat=20), "11 ias times 25"),
    (
        grid(ias=5, tas=5, altitude=25, oat=20),
        grid(ias=6, tas=5, altitude=25, oat=20),
        "11 ias and",
    ),
    (grid(ias=25, altitude=200), grid(ias=26, altitude=200), "26 ias times 200 altitude times 1"),
    (cruise(80, 20), cruise(84, 20), "cruise: found 84 altitude times 20 oat times 3 power"),
]


def edited(definitions: Path, school: str) -> Path:
    path = definitions / "school.yaml"
    path.write_text(path.read_text().partition("reference speeds:")[0] + school)
    return definitions


@pytest.mark.parametrize(("fit", "large", "said"), MULTIPLIED)
def test_what_a_school_multiplies_has_a_bound_that_check_tells(one_aircraft, fit, large, said):
    assert len(read_fleet(edited(one_aircraft, fit)).aircraft) == 1
    with pytest.raises(DefinitionError) as caught:
        read_fleet(edited(one_aircraft, large))
    (fault,) = caught.value.faults
    assert fault.place.file == "school.yaml"
    assert said in fault.message
    assert fault.message.endswith(" cells, expected at most 5,000")


@pytest.mark.parametrize(("banks", "fits"), [(30, True), (32, True), (33, False)])
def test_stall_speeds_that_are_multiplied_have_a_bound(one_aircraft, banks, fits):
    """Of 3 flap settings, 49 weights, these angles of bank and those of the school's that lack."""
    path = one_aircraft / "types/dunlin-160.yaml"
    path.write_text(re.sub(r"(?ms)^stall:.*?(?=^\S)", stalls(45, banks), path.read_text()))
    found, faults = read_sound(one_aircraft)
    assert [one.registration for one in found.aircraft] == (["ZZ-DUA"] if fits else [])
    assert [one.place.file for one in faults] == ([] if fits else ["types/dunlin-160.yaml"])
    assert all("stall speeds: found " in one.message for one in faults)


@pytest.mark.parametrize(("count", "fits"), [(200, True), (201, False)])
@pytest.mark.parametrize("where", ["types/dunlin-160.yaml", "fleet/zz-dua.yaml"])
def test_entries_are_counted_once_each_flap_setting_has_its_own(one_aircraft, count, fits, where):
    """In a supplement too: each of its entries is held against each of the manual's."""
    flaps = ", ".join(f"f{n}" for n in range(100))
    several = f"[{{flaps: [{flaps}], ias: 99}}, {{flaps: [{flaps}], ias: 98, when: towing}}"
    several += "".join(f", {{ias: 97, altitude: {n}}}" for n in range(count - 200)) + "]"
    path = one_aircraft / "types/dunlin-160.yaml"
    text = path.read_text().replace("flaps: [0, 10, 35]", f"flaps: [0, 10, 35, {flaps}]")
    if where.startswith("types"):
        text = text.replace("other speeds:\n", f"other speeds:\n  towing: {several}\n", 1)
    else:
        airframe = one_aircraft / where
        supplement = (
            f"  - {{title: A, number: B, date: 2022-01-01, other speeds: {{towing: {several}}}}}"
        )
        airframe.write_text(f"{airframe.read_text()}supplements:\n{supplement}\n")
    path.write_text(text)
    _, faults = read_sound(one_aircraft)
    told = [one for one in faults if "one for each flap setting" in one.message]
    assert [one.place.file for one in told] == ([] if fits else [where])


def test_weights_that_polars_serve_have_a_bound(definitions):
    path = keep(definitions, "zz-wtr") / "types/wheatear-15.yaml"
    text = path.read_text()
    for count, fits in ((199, True), (200, False)):
        weights = ", ".join(f"{300 + n}" for n in range(count))
        listed = f"weights: {{maximum: 525, others: [{weights}]}}"
        path.write_text(re.sub(r"(?m)^weights: .*", listed, text))
        _, faults = read_sound(definitions)
        told = [one for one in faults if one.message.startswith("polar: found 1 polars times")]
        assert bool(told) is not fits


@pytest.mark.parametrize(
    ("school", "said"),
    [
        (grid(oat=31), "oat: found too many, expected 30 at most"),
        (
            grid() + f"stall banks: {listed(13, 0, 60)}\n",
            "stall banks: found too many, expected 12",
        ),
    ],
)
def test_columns_have_a_bound_of_their_own(one_aircraft, school, said):
    with pytest.raises(DefinitionError, match=said):
        read_fleet(edited(one_aircraft, school))
