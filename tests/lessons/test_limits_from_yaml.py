"""`cardgen reckon` at each limit of the demo fleet, one above it and one below it.

What each limit should be is worked here from the YAML files alone: units and air by the oracle's
forty digits, tables read between their points as pilots are taught (common practice), a bench card
that lowers a maximum and never raises it, whole figures rounded down (the project's own rules).
"""

import json
import random
import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import yaml

from cardgen import cli
from cardgen.commands import reckon
from tests.conftest import DEMO
from tests.oracle import physics
from tests.sampling import SEED, some

BINDING = {"VNE", "VMO", "MMO", "VFE", "VLE"}
AIRFRAMES = {path.stem.upper(): path for path in sorted(DEMO.glob("fleet/*.yaml"))}


@dataclass(frozen=True)
class Asked:
    """A limit: what the pointer may show, and the options of a case in which it holds.

    `elsewhere` are options of cases in which it does not.
    """

    name: str
    most: float
    options: tuple[str, ...] = ()
    elsewhere: tuple[tuple[str, ...], ...] = ()

    @property
    def printed(self) -> int:
        return int(np.floor(self.most + 1e-9))

    def __str__(self) -> str:
        return " ".join((self.name, *self.options))


@cache
def read(path: Path) -> Any:
    return yaml.load(path.read_text("utf-8"), yaml.CSafeLoader)


class Manual:
    """What the files of one airframe say."""

    def __init__(self, registration: str) -> None:
        self.airframe = read(AIRFRAMES[registration])
        self.type = read(DEMO / "types" / f"{self.airframe['type']}.yaml")
        self.units = self.type["units"]
        self.unit = self.airframe.get("indicator", {}).get("unit", self.units["speed"])
        self.flaps = [str(one) for one in self.type.get("flaps", ["0"])]

    def entries(self, name: str) -> list[dict]:
        found = self.type["speeds"].get(name, [])
        for supplement in self.airframe.get("supplements", []):
            found = supplement.get("speeds", {}).get(name, found)
        return found if isinstance(found, list) else [found]

    @property
    def named_maxima(self) -> set[str]:
        """The limits by the manual's own name."""
        named = self.type.get("other speeds", {}).items()
        return {name for name, one in named if one.get("sense") == "maximum"}

    def own(self, speed: float) -> float:
        return float(physics.convert(physics.Number(speed), self.units["speed"], self.unit))

    def pointer(self, ias: float) -> float:
        """Where the pointer stands at an IAS of the manual."""
        bench = self.airframe.get("instrument correction")
        if bench is None:
            return self.own(ias)
        true = np.add(bench["indicated"], bench["add to indicated"])
        return float(np.interp(self.own(ias), true, bench["indicated"]))

    def most(self, ias: float) -> float:
        """The most that the pointer may show at a maximum that the manual gives as IAS."""
        return min(self.pointer(ias), self.own(ias))

    def clean(self) -> tuple[list[float], list[float]]:
        """The calibration table for flaps retracted, on the normal static source."""
        table = next(
            one
            for one in self.type["calibration"]
            if str(one.get("flaps", self.flaps[0])) == self.flaps[0] and "static source" not in one
        )
        return table["ias"], table["cas"]

    def shown_at(self, cas: float) -> float:
        ias, calibrated = self.clean()
        return self.pointer(float(np.interp(cas, calibrated, ias, left=np.nan, right=np.nan)))


def metres(manual: Manual, altitude: float) -> physics.Number:
    return physics.convert(physics.Number(altitude), manual.units["altitude"], "m")


def by_altitude(manual: Manual, entry: dict, altitude: float, warmer: float = 0.0) -> float:
    """What the pointer shows at a limit in TAS or Mach number, warmer than standard or not."""
    height = metres(manual, altitude)
    if "mach" in entry:
        cas = physics.cas_from_mach(physics.Number(entry["mach"]), height)
    else:
        tas = physics.convert(physics.Number(entry["tas"]), manual.units["speed"], "m/s")
        cas = physics.cas_from_tas(tas, height, physics.standard_temperature(height) + warmer)
    return manual.shown_at(float(physics.convert(cas, "m/s", manual.units["speed"])))


def limits_of(registration: str) -> list[Asked]:
    """All limits of an airframe, each in the cases in which it holds."""
    manual = Manual(registration)
    asked: list[Asked] = []
    for name in ("VNE", "VMO"):
        plain = [one["ias"] for one in manual.entries(name) if "ias" in one]
        falling = [one for one in manual.entries(name) + manual.entries("MMO") if "ias" not in one]
        asked += [Asked(name, manual.most(ias)) for ias in plain]
        for ias in plain:
            for altitude in (0, 1000, 3000, *((5000, 8000, 12000) if falling else ())):
                asked += _at(manual, name, manual.most(ias), falling, altitude)
    for one in manual.entries("VFE"):
        flaps = str(one["flaps"])
        other = ((), *(("--flaps", each) for each in manual.flaps if each != flaps))
        asked.append(Asked("VFE", manual.most(one["ias"]), ("--flaps", flaps), other))
    for one in manual.entries("VLE"):
        case = ("--gear", "down")
        asked.append(Asked("VLE", manual.most(one["ias"]), case, ((), ("--gear", "up"))))
    for one in manual.entries("VLO"):
        # gear: down is of lowering it, which is done while it is up; gear: up of raising it.
        before = {"down": "up", "up": "down"}.get(one.get("gear", ""))
        case = ("--gear", before) if before else ()
        after = (("--gear", one["gear"]),) if before else ()
        asked.append(Asked("VLO", manual.most(one["ias"]), case, after))
    for name in ("VNO", "VA", "VO", "VRA", "VW", "VT"):
        highest = max((one["ias"] for one in manual.entries(name)), default=None)
        if highest is not None:
            asked.append(Asked(name, manual.most(highest)))
    return asked


def _at(manual: Manual, name: str, most: float, falling: list[dict], altitude: int) -> list[Asked]:
    """The limits at one pressure altitude, in standard air and 20 degrees warmer."""
    asked = []
    feet = altitude * (1 if manual.units["altitude"] == "m" else 3)
    for warmer in (0.0, 20.0):
        case = ("--pressure-altitude", f"{feet}", "--isa", f"{warmer:g}")
        asked.append(Asked(name, most, case))
        for one in falling:
            other = "MMO" if "mach" in one else name
            shown = by_altitude(manual, one, feet, warmer)
            if not np.isnan(shown):  # the calibration table reaches it
                asked.append(Asked(other, shown, case))
    return asked


def lowest_of(asked: list[Asked]) -> list[Asked]:
    """Of limits of one name in one case, the lowest: it is passed first."""
    lowest: dict[tuple[str, tuple[str, ...]], Asked] = {}
    for one in asked:
        key = (one.name, one.options)
        lowest[key] = min(lowest.get(key, one), one, key=lambda each: each.most)
    return list(lowest.values())


ALL = {f"{name} {one}": (name, one) for name in AIRFRAMES for one in lowest_of(limits_of(name))}


def few_of(cases: dict[str, tuple[str, Asked]]) -> list[str]:
    """A third of the cases, by chance, and the first of each limit of each airframe."""
    first = {(name, one.name): case for case, (name, one) in reversed(cases.items())}
    chance = random.Random(SEED).sample(sorted(cases), len(cases) // 3)
    return [case for case in cases if case in {*first.values(), *chance}]


CASES = [
    pytest.param(*ALL[one.values[0]], id=one.values[0], marks=one.marks)
    for one in some("limits at the command line", list(ALL), few_of(ALL))
]


@pytest.fixture(scope="module")
def ask(fleet):
    """Ask the command line, in words or for JSON, without reading the fleet again each time."""
    mark = pytest.MonkeyPatch()
    mark.setattr(reckon, "read_fleet", lambda folder: fleet)
    mark.setattr(
        reckon, "make_document", reckon.reckonable
    )  # only for the mark, which is not asked
    yield cli.main
    mark.undo()


def text_limits(ask, capsys, registration: str, shown: float, options: tuple[str, ...]):
    """The limits that are said in words, each with its figure as printed."""
    assert ask(["reckon", registration, "--ias", f"{shown:g}", *options]) == 0
    said = capsys.readouterr().out
    found = re.findall(
        r"^  Above ([\w ]+?)(?: for flaps \S+)?, (?:here )?([\d,]+)", said, re.MULTILINE
    )
    return {(name, int(figure.replace(",", ""))) for name, figure in found}


def json_limits(ask, capsys, registration: str, shown: float, options: tuple[str, ...]):
    assert ask(["reckon", registration, "--ias", f"{shown:g}", "--json", *options]) == 0
    return json.loads(capsys.readouterr().out)["limits"]


@pytest.mark.parametrize(("registration", "one"), CASES)
def test_a_limit_is_said_one_above_it_and_not_at_it_or_below(ask, capsys, registration, one):
    for shown, over in ((one.printed - 1, False), (one.printed, False), (one.printed + 1, True)):
        said = text_limits(ask, capsys, registration, shown, one.options)
        assert ((one.name, one.printed) in said) == over, (shown, said)
        found = [
            each
            for each in json_limits(ask, capsys, registration, shown, one.options)
            if each["limit"] == one.name and abs(each["value"] - one.most) < 1e-4
        ]
        assert len(found) == over, (shown, found)
        for each in found:
            assert each["unit"] == Manual(registration).unit
            assert each["binding"] == (one.name in BINDING)


@pytest.mark.parametrize(
    ("registration", "one"), [case for case in CASES if case.values[1].elsewhere]
)
def test_a_limit_is_not_said_with_other_flaps_or_gear(ask, capsys, registration, one):
    for options in one.elsewhere:
        said = text_limits(ask, capsys, registration, one.printed + 1, options)
        if options or one.name != "VLO":
            assert (one.name, one.printed) not in said, options


def test_no_limit_is_said_that_the_manual_does_not_give(ask, capsys):
    """Faster than any limit, in each setting: the names are those of the file and no others."""
    for registration in AIRFRAMES:
        manual = Manual(registration)
        limits = manual.entries("VNE") + manual.entries("VMO")
        fastest = manual.own(max(one["ias"] for one in limits if "ias" in one))
        for flaps in manual.flaps:
            options = ("--flaps", flaps, "--gear", "down", "--pressure-altitude", "3000")
            said = {
                name for name, _ in text_limits(ask, capsys, registration, fastest + 9, options)
            }
            given = {"VNE", "VMO", "MMO", "VLE", "VLO", "VNO", "VA", "VO", "VRA", "VW", "VT"}
            expected = {one for one in given if manual.entries(one)} - {"MMO"}
            if any(str(one["flaps"]) == flaps for one in manual.entries("VFE")):
                expected.add("VFE")
            expected |= manual.named_maxima
            assert said - {"MMO"} == expected, (registration, flaps)


def test_the_cases_are_all_there():
    """Eight airframes; a Mach limit and a TAS limit below and above where they take over."""
    names = {name: [case.values[1].name for case in CASES if case.values[0] == name]
             for name in AIRFRAMES}  # fmt: skip
    assert len(names) == 8
    assert names["ZZ-PHN"].count("MMO") == 4
    assert names["ZZ-WTR"].count("VNE") == 13
    assert names["ZZ-WHB"].count("VFE") == 3
    assert names["ZZ-WHB"].count("VLO") == 2
    assert names["ZZ-WTR"].count("VRA") == 1
