"""One airframe that can be asked what its indicator shows, how fast it is and where its limits lie.

Speeds have three names, as in the manuals. *Shown* is where the pointer
stands, in the indicator's unit; *IAS* is that corrected by the bench card, in
the manual's unit; *CAS* is IAS corrected by the calibration table. None stands
for a speed that the tables do not give.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from . import physics
from .definitions import Calibration, Definition, Entry
from .physics import Number, between, convert, mp, number

NORMAL = "normal"
NOT_AVAILABLE = ("n/a", "-")


@dataclass(frozen=True)
class Limit:
    """A speed limit that holds at an altitude, in CAS."""

    name: str
    entry: Entry
    cas: Number


@dataclass(frozen=True)
class Stall:
    """A stall speed without bank, as typed, and in CAS where that is known."""

    flaps: str
    gear: str
    weight: str
    ias: str | None
    cas: str | None
    page: str | None
    known: Number | None


def _through(function: Callable[..., Any], value: Number | None, *more: Any) -> Any:
    return None if value is None else function(value, *more)


class Craft:
    def __init__(self, definition: Definition) -> None:
        self.definition = definition
        self.speed = definition.units["speed"]
        self.altitude = definition.units["altitude"]
        self.temperature = definition.units["temperature"]
        self.indicator = definition.indicator_unit
        self.clean, self.landing = definition.flaps[0], definition.flaps[-1]

    @property
    def differs(self) -> bool:
        """Whether the pointer stands elsewhere than at the manual's IAS."""
        return self.indicator != self.speed or self.definition.bench is not None

    # -- from the pointer to CAS and back ----------------------------------------------------

    def own(self, value: Number | None) -> Number | None:
        """Return a speed of the manual's unit in the indicator's."""
        return _through(convert, value, self.speed, self.indicator)

    def ias(self, shown: Number | None) -> Number | None:
        bench = self.definition.bench
        true = shown if bench is None or shown is None else between(bench, shown)
        return _through(convert, true, self.indicator, self.speed)

    def shown(self, ias: Number | None) -> Number | None:
        bench, wanted = self.definition.bench, self.own(ias)
        if bench is None or wanted is None:
            return wanted
        return between([(true, shown) for shown, true in bench], wanted)

    def shown_within(self, ias: Number | None, sense: str) -> Number | None:
        """Return what is shown at a speed: a bench card only tightens what the manual says."""
        shown = self.shown(ias)
        if shown is None or sense == physics.NEAREST:
            return shown
        tighter = min if sense == physics.DOWN else max
        return tighter(shown, self.own(ias))

    def table(self, flaps: str | None, source: str, gear: str) -> Calibration | None:
        """Return the table of a setting: for its gear, or for either.

        Where no gear is said, the one for either, else that of gear down with landing flaps and
        of gear up with all others, else whichever there is.
        """
        flaps = flaps or self.clean
        usual = "down" if flaps == self.landing != self.clean else "up"
        other = {"up": "down", "down": "up"}[usual]
        order = (gear, "") if gear else ("", usual, other)
        found = [self.definition.calibration.get((flaps, source, one)) for one in order]
        return next((one for one in found if one is not None), None)

    def cas(
        self, ias: Number | None, flaps: str | None = None, source: str = NORMAL, gear: str = ""
    ) -> Number | None:
        table = self.table(flaps, source, gear)
        if table is None or ias is None:
            return None
        found = between(table.pairs, ias)
        if not table.by_normal_source:
            return found
        return self.cas(found, flaps, NORMAL, table.given.get("gear", gear))

    def ias_at(
        self, cas: Number | None, flaps: str | None = None, source: str = NORMAL, gear: str = ""
    ) -> Number | None:
        table = self.table(flaps, source, gear)
        if table is None or cas is None:
            return None
        if table.by_normal_source:
            cas = self.ias_at(cas, flaps, NORMAL, table.given.get("gear", gear))
        return _through(lambda one: between([(b, a) for a, b in table.pairs], one), cas)

    # -- speeds that go with weight ------------------------------------------------------------

    def usual_flaps(self, name: str, entry: Entry) -> str:
        return entry.get("flaps") or (self.landing if name in ("VS0", "VREF") else self.clean)

    def gear_of(self, name: str, entry: Entry) -> str:
        """Return the gear of a V-speed: down at those that mean it down."""
        return entry.get("gear", "down" if name in ("VS0", "VREF", "VLE") else "")

    def weight_of(self, entry: Entry) -> str:
        """Return the weight that a speed is given at: the maximum where it does not say."""
        return entry.get("weight", self.definition.maximum)

    def entry_cas(self, name: str, entry: Entry) -> Number | None:
        if "cas" in entry:
            return number(entry["cas"])
        if "ias" in entry:
            gear = self.gear_of(name, entry)
            return self.cas(number(entry["ias"]), self.usual_flaps(name, entry), NORMAL, gear)
        if "times VS0" in entry:
            stall = self.stall_cas(self.landing, self.weight_of(entry), Number(0))
            return _through(lambda cas: number(entry["times VS0"]) * cas, stall)
        return None

    @cached_property
    def stalls(self) -> list[Stall]:
        """Every stall speed that is printed without bank: the V-speeds, then the table's."""
        found = []
        for name in ("VS1", "VS0"):
            for entry in self.definition.speeds.get(name, []):
                flaps, weight = self.usual_flaps(name, entry), self.weight_of(entry)
                cas = self.entry_cas(name, entry)
                page = entry.get("page")
                typed = (entry.get("ias"), entry.get("cas"), page)
                found.append(Stall(flaps, entry.get("gear", ""), weight, *typed, cas))
        table = self.definition.stall or {"rows": [], "bank": []}
        level = [n for n, bank in enumerate(table["bank"]) if number(bank) == 0]
        for row in table["rows"] if level else []:
            flaps, gear = row.get("flaps", self.clean), row.get("gear", "")
            ias, cas = (row[key][level[0]] if key in row else None for key in ("ias", "cas"))
            known = _through(number, cas) or self.cas(_through(number, ias), flaps, NORMAL, gear)
            weight = row.get("weight", table.get("weight"))
            found.append(Stall(flaps, gear, weight, ias, cas, table.get("page"), known))
        return found

    @cached_property
    def stall_settings(self) -> list[tuple[str, str]]:
        """The flap settings and gears that a card must have stall speeds for."""
        rows = (self.definition.stall or {"rows": []})["rows"]
        settings = []
        for flaps in self.definition.flaps:
            said = {one.gear for one in self.stalls if one.flaps == flaps and one.gear}
            said |= {one.get("gear", "") for one in rows if one.get("flaps", self.clean) == flaps}
            known = any(one.flaps == flaps and one.known is not None for one in self.stalls)
            if said or known:
                settings += [(flaps, gear) for gear in ("", "up", "down") if gear in (said or {""})]
        return settings

    def stalls_of(self, flaps: str, gear: str) -> list[Stall]:
        """Return the stall speeds that serve a setting: a gear that is not said is any."""
        here = [one for one in self.stalls if one.flaps == flaps]
        usual = "down" if flaps == self.landing != self.clean else "up"
        for wanted in (gear, "") if gear else ("", usual):
            found = [one for one in here if one.gear == wanted]
            if found:
                return found
        return [] if gear else here

    def stall_at(self, flaps: str, gear: str, weight: str) -> Stall | None:
        """Return the stall speed given at a weight or at the next heavier one, known in CAS."""
        heavier = [
            one
            for one in self.stalls_of(flaps, gear)
            if one.known is not None and number(one.weight) >= number(weight)
        ]
        return min(heavier, key=lambda one: number(one.weight), default=None)

    def at_weight(self, name: str, entry: Entry, weight: str) -> Number | None:
        """Return a speed at another weight, by the square root of the ratio of weights."""
        ratio = mp.sqrt(number(weight) / number(self.weight_of(entry)))
        return _through(lambda cas: cas * ratio, self.entry_cas(name, entry))

    def stall_cas(self, flaps: str, weight: str, bank: Number, gear: str = "") -> Number | None:
        """Return a stall speed in a level turn, whose load factor is 1 over cos bank."""
        given = self.stall_at(flaps, gear, weight)
        if given is None:
            return None
        load = 1 / mp.cos(mp.radians(bank))
        return given.known * mp.sqrt(number(weight) / number(given.weight)) * mp.sqrt(load)

    def next_heavier(self, name: str, weight: str) -> Entry | None:
        entries = self.definition.speeds.get(name, [])
        heavier = [one for one in entries if number(self.weight_of(one)) >= number(weight)]
        return min(heavier, key=lambda one: number(self.weight_of(one)), default=None)

    # -- the air -------------------------------------------------------------------------------

    def metres(self, altitude: Number) -> Number:
        return convert(altitude, self.altitude, "m")

    def tas(self, cas: Number, altitude: Number, oat: Number) -> Number:
        """Return TAS in the manual's unit."""
        found = physics.tas_from_cas(
            convert(cas, self.speed, "m/s"),
            self.metres(altitude),
            physics.kelvin(oat, self.temperature),
        )
        return convert(found, "m/s", self.speed)

    def cas_for_tas(self, tas: Number, altitude: Number, kelvin: Number) -> Number:
        found = physics.cas_from_tas(convert(tas, self.speed, "m/s"), self.metres(altitude), kelvin)
        return convert(found, "m/s", self.speed)

    def density_factor(self, altitude: Number, oat: Number) -> Number:
        return physics.density_factor(self.metres(altitude), physics.kelvin(oat, self.temperature))

    def isa_deviation(self, altitude: Number, oat: Number) -> Number:
        standard = physics.standard_temperature(self.metres(altitude))
        return oat - physics.from_kelvin(standard, self.temperature)

    def round_speeds(self, speeds: list[str]) -> list[Number]:
        """Return the school's speeds as the card has them: to the next five of another unit."""
        if self.indicator == self.speed:
            return [number(one) for one in speeds]
        return [5 * mp.nint(self.own(number(one)) / 5) for one in speeds]

    # -- gliding -------------------------------------------------------------------------------

    def glide_ratio(self, glide: Entry) -> Number:
        """Return distance over height: as given, or of a distance for a height."""
        if "ratio" in glide:
            return number(glide["ratio"])
        unit = {"nm": "NM"}.get(self.definition.units["distance"], "km")
        distance = convert(number(glide["distance"]), unit, "m")
        return distance / self.metres(number(glide["for height"]))

    def polar(self, polar: Entry, weight: str) -> list[tuple[Number, Number]]:
        """Return a polar at a weight: TAS at its altitude in standard air, and sink, in m/s."""
        factor = mp.sqrt(number(weight) / number(polar["weight"]))
        altitude = number(polar.get("altitude", "0"))
        oat = physics.from_kelvin(
            physics.standard_temperature(self.metres(altitude)), self.temperature
        )
        found = []
        for ias, sink in zip(polar["ias"], polar["sink"], strict=True):
            tas = convert(self.tas(self.cas(number(ias)), altitude, oat), self.speed, "m/s")
            down = convert(number(sink), self.definition.units["sink"], "m/s")
            found.append((tas * factor, down * factor))
        return found

    def glide_cas(self, polar: Entry, tas: Number) -> Number:
        """Return the CAS of a TAS in m/s at the altitude of a polar, in standard air."""
        metres = self.metres(number(polar.get("altitude", "0")))
        cas = physics.cas_from_tas(tas, metres, physics.standard_temperature(metres))
        return convert(cas, "m/s", self.speed)

    def is_outside_polar(self, polar: Entry, weight: str, shown: Number | None, cas: Number):
        """Whether a speed is above a limit at the altitude of a polar, or below the stall."""
        altitude = number(polar.get("altitude", "0"))
        metres = self.metres(altitude)
        oat = physics.from_kelvin(physics.standard_temperature(metres), self.temperature)
        stall = self.stall_cas(self.clean, weight, Number(0))
        return (
            cas < stall - physics.NOISE
            or self.is_beyond(shown, cas, altitude, oat)
            or self.is_beyond_flaps(shown, self.clean)
        )

    # -- limits --------------------------------------------------------------------------------

    @property
    def limits_change_with_altitude(self) -> bool:
        entries = [
            one for name in ("VNE", "VMO", "MMO") for one in self.definition.speeds.get(name, [])
        ]
        return any(not {"tas", "mach", "altitude"}.isdisjoint(one) for one in entries)

    def limit(self, altitude: Number, oat: Number | None = None) -> Limit | None:
        """Return the lowest of the limits that hold at an altitude."""
        found = []
        for name in ("VNE", "VMO", "MMO"):
            entries = self.definition.speeds.get(name, [])
            row = self._row([one for one in entries if "altitude" in one], altitude)
            for entry in [one for one in entries if "altitude" not in one] + row:
                # A limit in TAS holds below the altitude that it is named from too.
                low = number(entry.get("from altitude", "-inf"))
                if "tas" in entry or altitude >= low:
                    found.append(Limit(name, entry, self._limit_cas(name, entry, altitude, oat)))
        known = [one for one in found if one.cas is not None]
        if not known:
            return None
        lowest = min(one.cas for one in known)
        # Where two limits meet, the one that the indicator is marked with is named.
        return next(one for one in known if one.cas - lowest < Number("1e-6"))

    @staticmethod
    def _row(rows: list[Entry], altitude: Number) -> list[Entry]:
        """Return the row of a limit by altitude that holds: the lower of those around.

        Below the first the first; above the last nothing is ever tabulated.
        """
        assert not any("tas" in one or "between" in one for one in rows), "has no oracle yet"
        above = [one for one in rows if number(one["altitude"]) >= altitude]
        below = [one for one in rows if number(one["altitude"]) <= altitude]
        around = [
            min(above, key=lambda one: number(one["altitude"]), default=None),
            max(below, key=lambda one: number(one["altitude"]), default=None),
        ]
        held = [one for one in around if one is not None] if above else []
        return sorted(held, key=lambda one: number(one.get("ias") or one["cas"]))[:1]

    def _limit_cas(
        self, name: str, entry: Entry, altitude: Number, oat: Number | None
    ) -> Number | None:
        metres = self.metres(altitude)
        if "mach" in entry:
            return convert(physics.cas_from_mach(number(entry["mach"]), metres), "m/s", self.speed)
        if "tas" in entry:
            kelvin = physics.standard_temperature(metres)
            if oat is not None:
                kelvin = physics.kelvin(oat, self.temperature)
            return self.cas_for_tas(number(entry["tas"]), altitude, kelvin)
        return self.entry_cas(name, entry)

    def is_beyond(self, shown: Number | None, cas: Number, altitude: Number, oat: Number) -> bool:
        """Whether a speed is above the limit in that air, in CAS or as the limit is shown."""
        limit = self.limit(altitude, oat)
        if limit is None:
            return False
        most = self.shown(self.ias_at(limit.cas))
        if "ias" in limit.entry:
            most = self.shown_within(number(limit.entry["ias"]), physics.DOWN)
        over = shown is not None and most is not None and shown > most + physics.NOISE
        return over or cas > limit.cas + physics.NOISE

    def is_beyond_flaps(self, shown: Number | None, flaps: str, gear: str = "") -> bool:
        """Whether an indication is above the limit low down, or above that for flaps or gear."""
        if shown is None:
            return False
        names = ["VNE", "VMO"] if flaps == self.clean else ["VNE", "VMO", "VFE"]
        names += ["VLE"] if gear == "down" else []
        limits = [
            self.shown_within(number(entry["ias"]), physics.DOWN)
            for name in names
            for entry in self.definition.speeds.get(name, [])
            if "ias" in entry and (name != "VFE" or entry.get("flaps") == flaps)
        ]
        return any(one is not None and shown > one + physics.NOISE for one in limits)

    # -- air that occurs -------------------------------------------------------------------------

    @property
    def by_isa(self) -> bool:
        """Whether the school tabulates by difference from the standard atmosphere."""
        return "isa" in self.definition.grid

    def oat_of(self, altitude: Number, figure: Number) -> Number:
        """Return the outside air temperature that a column stands for at an altitude."""
        if not self.by_isa:
            return figure
        standard = physics.standard_temperature(self.metres(altitude))
        return physics.from_kelvin(standard, self.temperature) + figure

    def occurs(self, altitude: Number, oat: Number) -> bool:
        """Not warmer than ISA + 40, nor colder than -55 C or ISA - 60, whichever is warmer."""
        kelvin = physics.kelvin(oat, self.temperature)
        standard = physics.standard_temperature(self.metres(altitude))
        coldest = max(standard - 60, Number("218.15"))
        return coldest - physics.NOISE <= kelvin <= standard + 40 + physics.NOISE

    def crossover(self) -> Number | None:
        """Return the altitude at which VMO and MMO are one speed."""
        speeds = self.definition.speeds
        if "VMO" not in speeds or "MMO" not in speeds:
            return None
        cas = convert(self.entry_cas("VMO", speeds["VMO"][0]), self.speed, "m/s")
        metres = physics.crossover_altitude(cas, number(speeds["MMO"][0]["mach"]))
        return convert(metres, "m", self.altitude)

    # -- cruise --------------------------------------------------------------------------------

    @cached_property
    def cruise_rows(self) -> list[dict[str, str]]:
        cruise = self.definition.cruise
        if cruise is None:
            return []
        return [dict(zip(cruise["columns"], row, strict=True)) for row in cruise["rows"]]

    @property
    def cruise_unit(self) -> str:
        """The unit of TAS in the cruise table."""
        return self.definition.cruise.get("tas unit", self.speed)

    @property
    def cruise_air(self) -> str | None:
        """The column of temperatures that the cruise table's rows hold for."""
        cruise = self.definition.cruise
        columns = [one for one in cruise["columns"] if one not in cruise.get("results", [])]
        return next((one for one in ("isa", "oat") if one in columns), None)

    def cruise(
        self, result: str, setting: dict[str, str], altitude: Number, air: dict[str, Number]
    ) -> Number | None:
        """Read a result of the cruise table: linear in altitude, then in temperature.

        Nothing is read beside a row for which the manual gives no figure.
        """
        rows = self.cruise_rows
        levels = sorted({number(row["altitude"]) for row in rows})
        brackets = [max((one for one in levels if one <= altitude), default=None)]
        brackets.append(min((one for one in levels if one >= altitude), default=None))
        if None in brackets:
            return None
        points = []
        for level in dict.fromkeys(brackets):
            here = [
                row
                for row in rows
                if number(row["altitude"]) == level
                and all(number(row[name]) == number(text) for name, text in setting.items())
            ]
            found = self._in_air(here, result, air)
            if found is None:
                return None
            points.append((level, found))
        return between(points, altitude)

    def _in_air(
        self, rows: list[dict[str, str]], result: str, air: dict[str, Number]
    ) -> Number | None:
        if not rows:
            return None
        if self.cruise_air is None:
            return _given(rows[0][result])
        wanted = air[self.cruise_air]
        points = sorted((number(row[self.cruise_air]), _given(row[result])) for row in rows)
        beside = [max((one for one in points if one[0] <= wanted), default=None)]
        beside.append(min((one for one in points if one[0] >= wanted), default=None))
        if any(one is None or one[1] is None for one in beside):
            return None
        return between(list(dict.fromkeys(beside)), wanted)


def _given(text: str) -> Number | None:
    return None if text in NOT_AVAILABLE else number(text)
