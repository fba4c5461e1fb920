"""Rows that a cruise table lacks, where nothing forbids to fly so.

A manual leaves out what the engine cannot give in that air, and what is too fast or too slow. A
row that is lacking for none of these was left out by whoever copied the table.
"""

import itertools
import math
from collections import Counter
from collections.abc import Iterator
from typing import Any, NamedTuple

import numpy as np

from cardgen.air import atmosphere
from cardgen.airframe.aircraft import Aircraft
from cardgen.airframe.limits import limit_at
from cardgen.checks.rule import COMMON_PRACTICE, Severity, Told, rule, tell
from cardgen.definition.cruise import (
    Cruise,
    Row,
    air_column,
    cell_at,
    held_temperature,
    results,
    set_at,
    settings,
)
from cardgen.units import Array, convert, to_si

_Key = tuple[Any, ...]  # altitude, temperature where there are several, and the settings in one
_NEAR_TOP = {"turbine": 0.93}  # of the highest speed in cruise; faster a manual may not print
_TOP = 0.985  # the same of other kinds, whose limit does not change with the air
_BENT = {"turbine": 0.04}  # how far such a share may be off what others of a setting make it
_NEAR_STALL = 1.45  # times it; slower a manual may not print
_THROTTLE = 1.5  # inHg that intake and throttle take of the pressure outside: common practice
_SPARE = 0.98  # of the power that other rows show to be there
_HEAT = 3.0  # power of the warmth by which a turbine loses, that its own heat limits: from memory
_RATED = 0.9  # of the power that an engine without a blower has by Gagg and Ferrar


@rule("cruise-row-missing", Severity.WARNING, "look-cruise", COMMON_PRACTICE)
def no_row_is_left_out(aircraft: Aircraft) -> Iterator[Told]:
    """A table has a row for each altitude, temperature and setting that it can be flown at."""
    for cruise in aircraft.definition.cruise:
        rows = _by_level(aircraft, cruise)
        levels = [sorted(set(column)) for column in zip(*rows, strict=True)]
        lacking = [*_lacking(rows, levels)]
        if not lacking or len(levels[1]) > 5:
            continue
        few = max(1, len(rows) // 15)
        holes = [one for one in lacking if _lies_between(aircraft, rows, one)][: few + 1]
        if not 0 < len(holes) <= few and len(lacking) <= len(rows):
            grid = _Grid(aircraft, cruise, rows, levels)
            holes = [one for one in lacking if grid.can_be_had(one) and grid.can_be_flown(one)]
        for one in holes if len(holes) <= few else ():
            beside = rows[_beside(rows, one, levels)]
            first = next(cell for cell in beside if cell is not None)
            yield tell(first.place, "finding-cruise-row-missing", row=_said(cruise, one))


def _by_level(aircraft: Aircraft, cruise: Cruise) -> dict[_Key, Row]:
    """Return the rows by altitude, temperature and settings.

    Temperatures that differ from altitude to altitude are those of standard air, and so much more.
    """
    names, air = settings(cruise), air_column(cruise)
    warmths: list[float] = [set_at(cruise, row, air) if air else 0.0 for row in cruise.rows]
    if air == "oat" and len(set(warmths)) > 4:
        heights = np.array([set_at(cruise, row, "altitude") for row in cruise.rows], dtype=float)
        standard = np.asarray(aircraft.standard_temperature(heights))
        warmths = [
            float(round(one - float(other))) for one, other in zip(warmths, standard, strict=True)
        ]
    return {
        (set_at(cruise, row, "altitude"), warmth, tuple(set_at(cruise, row, n) for n in names)): row
        for row, warmth in zip(cruise.rows, warmths, strict=True)
    }


def _lacking(rows: dict[_Key, Row], levels: list[list[Any]]) -> Iterator[_Key]:
    """Yield what the grid lacks: of the temperatures of an altitude and setting one of several.

    Or a colder one than there is, as a hot day takes power and a cold one does not.
    """
    counts = Counter((key[0], key[-1]) for key in rows)
    enough = min(2, len(levels[1]) - 1)
    known = {altitude for (altitude, _), count in counts.items() if count >= enough}
    for one in itertools.product(*levels):
        altitude, warmth, chosen = one
        hotter = any(other > warmth and (altitude, other, chosen) in rows for other in levels[1])
        if one not in rows and (
            counts[altitude, chosen] >= enough or (hotter and altitude in known)
        ):
            yield one


def _lies_between(aircraft: Aircraft, rows: dict[_Key, Row], lacking: _Key) -> bool:
    """Whether there are rows to either side that differ from a lacking one in its air alone.

    What is flown in colder and in warmer air, or lower and higher, is flown between. But a limit of
    Mach number makes a turbine slowest where it takes over from that of airspeed.
    """
    for at in (1,) if aircraft.kind == "turbine" else (0, 1):
        line = [
            key[at]
            for key in rows
            if all(a == b for n, (a, b) in enumerate(zip(key, lacking, strict=True)) if n != at)
        ]
        if line and min(line) < lacking[at] < max(line):
            return True
    return False


def _said(cruise: Cruise, lacking: _Key) -> str:
    """Say which row is lacking, as its figures would be typed."""
    altitude, warmth, chosen = lacking
    air = air_column(cruise)
    if hasattr(warmth, "text"):
        told = [f"{air} {warmth.text}"]
    else:
        told = [f"isa {warmth:+g}"] if air else []
    named = zip(settings(cruise), chosen, strict=True)
    return ", ".join([f"altitude {altitude.text}", *told, *(f"{n} {v.text}" for n, v in named)])


def _beside(rows: dict[_Key, Row], lacking: _Key, levels: list[list[Any]]) -> _Key:
    """Return the row nearest to one that is lacking: of its setting, if there is one."""

    def apart(key: _Key) -> tuple[int, int]:
        steps = [
            abs(level.index(a) - level.index(b))
            for level, a, b in zip(levels, key, lacking, strict=True)
        ]
        return steps[-1], sum(steps)

    return min(rows, key=apart)


class _Air(NamedTuple):
    """The air of a row."""

    altitude: float  # in the manual's units
    oat: float
    inches: float  # of mercury
    share: float  # of the power at sea level that an engine has in it, without a blower

    @classmethod
    def at(cls, aircraft: Aircraft, altitude: float, oat: float) -> "_Air":
        metres = to_si(altitude, aircraft.units.altitude)
        kelvin = to_si(oat, aircraft.units.temperature)
        pressure = float(atmosphere.pressure(metres))
        if aircraft.kind == "turbine":
            share = pressure * (288.15 / float(kelvin)) ** _HEAT / 101_325
        else:
            share = 1.132 * float(atmosphere.density(pressure, kelvin)) / 1.225 - 0.132
        return cls(altitude, oat, pressure / 3386.39, share)


class _Grid:
    """A cruise table, what its rows take of the engine, and how fast they are."""

    def __init__(
        self,
        aircraft: Aircraft,
        cruise: Cruise,
        rows: dict[_Key, Row],
        levels: list[list[Any]],
    ) -> None:
        self._aircraft, self._cruise = aircraft, cruise
        self._rows, self._levels = rows, levels
        self._names = settings(cruise)
        self._by_pressure = "manifold pressure" in self._names
        self._airs = {key: self._air(key) for key in rows}
        self._cas = self._known("tas", self._in_cas)
        self._power = self._known(self._measure(), lambda key, figure: figure)

    def can_be_had(self, lacking: _Key) -> bool:
        """Whether the engine gives a setting in that air, as far as other rows tell."""
        if not self._names or self._goes_on(lacking):
            return True
        here = self._air(lacking)
        if self._by_pressure:
            at = self._names.index("manifold pressure")
            pressures = {key: float(key[-1][at]) for key in self._rows}
            most = max(
                (pressures[key] * here.inches / self._airs[key].inches for key in pressures),
                default=0.0,
            )
            return float(lacking[-1][at]) <= max(here.inches - _THROTTLE, _SPARE * most)
        if not self._power:
            return False
        most = max(one * here.share / self._airs[key].share for key, one in self._power.items())
        if self._measure() == "power":
            most = max(most * _SPARE, _RATED * 100 * here.share) / _SPARE
        return self._expected(self._power, lacking) <= _SPARE * most

    def can_be_flown(self, lacking: _Key) -> bool:
        """Whether a row would be neither faster nor slower than what a manual may print.

        As other rows of the table are as fast, or as slow.
        """
        if not self._cas:
            return False
        cas = self._expected(self._cas, lacking)
        share = cas / _fastest(self._aircraft, self._air(lacking))
        if not share <= _NEAR_TOP.get(self._aircraft.kind, _TOP):
            shares = (one / _fastest(self._aircraft, self._airs[k]) for k, one in self._cas.items())
            return any(one > share + _BENT.get(self._aircraft.kind, 0.005) for one in shares)
        if cas < min(self._cas.values()):
            clean = self._aircraft.stall_entries.get(self._aircraft.flaps[0])
            return clean is None or not cas < _NEAR_STALL * self._aircraft.entry_cas(clean)
        return True

    def _goes_on(self, lacking: _Key) -> bool:
        """Whether there is a row as strong, or stronger, in air as high and as hot.

        Or as high, where the manifold pressure is set: the same is to be had in all warmths.
        """

        def beyond(key: _Key) -> bool:
            (altitude, here), (warmth, warm), (chosen, wanted) = zip(key, lacking, strict=True)
            thinner = altitude >= here and (warmth >= warm or self._by_pressure)
            return bool(thinner and chosen[0] >= wanted[0] and chosen >= wanted)

        return any(map(beyond, self._rows))

    def _measure(self) -> str:
        """Return the column that tells how much power a row takes."""
        there = {*self._names, *results(self._cruise)}
        known = ("torque",) if self._aircraft.kind == "turbine" else ("power", "fuel flow")
        return next((one for one in known if one in there), "")

    def _known(self, name: str, of: Any) -> dict[_Key, float]:
        if not name:
            return {}
        cells = {key: cell_at(self._cruise, row, name) for key, row in self._rows.items()}
        found = {key: float(of(key, float(one))) for key, one in cells.items() if one}
        return {key: one for key, one in found.items() if one > 0}

    def _air(self, key: _Key) -> _Air:
        altitude, warmth = float(key[0]), float(key[1])
        name, held = held_temperature(self._cruise) or ("isa", 0.0)
        standard = float(self._aircraft.standard_temperature(altitude))
        by_oat = air_column(self._cruise) == "oat" and hasattr(key[1], "text")
        if air_column(self._cruise):
            oat = warmth if by_oat else standard + warmth
        else:
            oat = float(held) if name == "oat" else standard + float(held)
        return _Air.at(self._aircraft, altitude, oat)

    def _in_cas(self, key: _Key, tas: float) -> float:
        units, air = self._aircraft.units, self._airs[key]
        own = float(convert(tas, self._cruise.tas_unit or units.speed, units.speed))
        return float(self._aircraft.cas_from_tas(own, air.altitude, air.oat))

    def _expected(self, known: dict[_Key, float], lacking: _Key) -> float:
        """Return what a row that is lacking would have, by what others of its setting have."""
        basis = np.array([self._along(key) for key in known])
        y = np.log(np.array([*known.values()]))
        found = np.linalg.lstsq(basis, y, rcond=None)[0]
        return math.exp(float(self._along(lacking) @ found))

    def _along(self, key: _Key) -> Array:
        altitudes, _, chosen = self._levels
        low, high = float(altitudes[0]), float(altitudes[-1])
        a = (float(key[0]) - low) / ((high - low) or 1.0)
        bend = [a * a] if len(altitudes) > 3 else []
        return np.array([*(float(key[2] == one) for one in chosen), a, *bend, key[1] / 20.0])


def _fastest(aircraft: Aircraft, air: _Air) -> float:
    """Return the highest CAS in cruise in some air: of VNO or VRA, and of the limit there."""
    normal = [
        aircraft.entry_cas(entry)
        for name in ("VNO", "VRA")
        for entry in aircraft.definition.speeds.get(name, [])
    ]
    limit = limit_at(aircraft, air.altitude, air.oat)
    known = [*normal, *([limit.cas] if limit else [])]
    return min((one for one in known if one == one), default=math.nan)
