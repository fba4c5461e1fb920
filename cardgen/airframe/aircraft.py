"""An aircraft that answers questions, in the units of its manual.

Speeds on the way through an airspeed indicator have three names here:
*indicated* is what the pointer shows, in the indicator's own unit: what words
for people call IAS. *ias* is that with the instrument correction added, in the
manual's unit, as a manual means it: the manual's IAS. *cas* is that with the
position error taken out.
"""

import itertools
import math
from functools import cached_property

import numpy as np

from cardgen.air import airspeed, atmosphere, load
from cardgen.airframe.calibrated import Calibrated, by_normal_source, calibrated, chosen
from cardgen.airframe.curve import Curve
from cardgen.airframe.stalling import StallSpeed, next_heavier, of_gear
from cardgen.definition.fleet import AircraftDefinition
from cardgen.definition.identifiers import copied
from cardgen.definition.model import NamedEntry, SpeedEntry, in_general, printed
from cardgen.definition.names import ALTERNATE, NORMAL
from cardgen.definition.places import Figure, Place, Span
from cardgen.definition.speeds import SPEEDS
from cardgen.units import Values, convert, from_si, to_si

__all__ = ["ALTERNATE", "NORMAL", "Aircraft"]

_FASTEST = 0.95  # Mach number; a TAS that is faster has no CAS here
_NOWHERE = Curve([math.nan], [math.nan])  # where there is no table


def _figure(entry: SpeedEntry) -> float:
    """Return an entry's airspeed as printed; not a number where it has none."""
    figure = printed(entry)
    return math.nan if figure is None else float(figure)


class Aircraft:
    """One airframe, laid over its type.

    Parameters
    ----------
    definition : AircraftDefinition
        From `cardgen.definition.fleet.read_fleet`.
    """

    def __init__(self, definition: AircraftDefinition) -> None:
        self.definition = definition
        self.registration = definition.registration
        self.kind = definition.type.kind
        self.units = definition.type.units
        self.flaps = tuple(definition.type.flaps)
        self.maximum_weight = definition.type.weights.maximum
        indicator = definition.airframe.indicator
        self.indicator_unit: str = indicator.unit if indicator else self.units.speed

    @property
    def marked_unit(self) -> str:
        """The unit of the speeds that the indicator's markings are given at."""
        markings = self.definition.markings
        return (markings.unit if markings else None) or self.units.speed

    @property
    def marked_in_cas(self) -> bool:
        """Whether the indicator's markings are painted at speeds in CAS."""
        markings = self.definition.markings
        return markings is not None and markings.speeds_are == "CAS"

    @cached_property
    def identifiers(self) -> dict[Place, str]:
        """The identifier of every figure that was copied, by its place."""
        found: dict[Place, str] = {}
        for one in copied(self.definition):  # a figure for several settings has several: the first
            found.setdefault(one.figure.place, one.id)
        return found

    # -- the airspeed indicator ------------------------------------------------------------

    @cached_property
    def _bench(self) -> Curve | None:
        """What the indicator shows against what it should show."""
        given = self.definition.airframe.instrument_correction
        if given is None:
            return None
        shown, true = zip(*given.readings, strict=True)
        return Curve(shown, true)

    def ias_from_indicated(self, indicated: Values) -> Values:
        """IAS, in the manual's unit, of what the indicator shows, in its own.

        Not a number where the instrument correction does not reach.
        """
        ias = self._bench.at(indicated) if self._bench else indicated
        return convert(ias, self.indicator_unit, self.units.speed)

    def indicated_from_ias(self, ias: Values) -> Values:
        """Return what the indicator shows at an IAS; inverse of `ias_from_indicated`."""
        corrected = convert(ias, self.units.speed, self.indicator_unit)
        return self._bench.back(corrected) if self._bench else corrected

    # -- the calibration tables ------------------------------------------------------------

    @cached_property
    def calibrations(self) -> tuple[Calibrated, ...]:
        """The manual's tables as IAS and CAS; one that the normal source's cannot bring there not.

        Of those of one flap setting and static source, the one of the usual gear stands first.
        """
        given = [(one, one.setting(self.flaps)) for one in self.definition.calibration]
        own = [calibrated(one, at) for one, at in given if not one.is_by_normal_source]
        own.sort(key=self._is_unusual)
        others = [
            by_normal_source(one, at, chosen(own, at[0], NORMAL, at[2]))
            for one, at in given
            if one.is_by_normal_source
        ]
        order = [one for one, _ in given]
        found = sorted([*own, *filter(None, others)], key=lambda one: order.index(one.given))
        return tuple(sorted(found, key=self._is_unusual))

    def _is_unusual(self, table: Calibrated) -> bool:
        return table.gear not in ("", self.usual_gear(table.flaps))

    def usual_gear(self, flaps: str) -> str:
        """Return where the gear is at a flap setting, where nothing says so."""
        return "down" if flaps == self.flaps[-1] != self.flaps[0] else "up"

    def calibration(
        self, flaps: str | None = None, source: str = NORMAL, gear: str = ""
    ) -> Calibrated | None:
        """Return the manual's table for a setting, if any.

        Parameters
        ----------
        flaps : str, optional
            A flap setting of the type; retracted where left out.
        source : str
            ``normal`` or ``alternate`` static source.
        gear : str
            ``up`` or ``down``; where left out, the table that holds for either, or
            that of the usual gear, or the only one that there is.
        """
        return self._tables[flaps or self.flaps[0], source, gear]

    @cached_property
    def _tables(self) -> dict[tuple[str, str, str], Calibrated | None]:
        settings = itertools.product(self.flaps, (NORMAL, ALTERNATE), ("", "up", "down"))
        return {setting: chosen(self.calibrations, *setting) for setting in settings}

    def _curve(self, flaps: str | None, source: str, gear: str) -> Curve:
        table = self.calibration(flaps, source, gear)
        return table.curve if table else _NOWHERE

    def cas_from_ias(
        self, ias: Values, flaps: str | None = None, source: str = NORMAL, gear: str = ""
    ) -> Values:
        """CAS of an IAS, both in the manual's unit.

        Parameters
        ----------
        ias : float or array
            Indicated airspeed.
        flaps : str, optional
            A flap setting of the type; retracted where left out.
        source, gear : str
            See `calibration`.

        Returns
        -------
        float or array
            Calibrated airspeed; not a number outside the table, or where
            there is none.
        """
        return self._curve(flaps, source, gear).at(ias)

    def ias_from_cas(
        self, cas: Values, flaps: str | None = None, source: str = NORMAL, gear: str = ""
    ) -> Values:
        """IAS of a CAS; inverse of `cas_from_ias`."""
        return self._curve(flaps, source, gear).back(cas)

    def cas_from_indicated(self, indicated: float) -> float:
        """CAS of what the indicator shows, flaps retracted, on the normal static source."""
        return float(self.cas_from_ias(self.ias_from_indicated(indicated)))

    # -- stall and manoeuvring speed ---------------------------------------------------------

    def flaps_of(self, name: str, entry: SpeedEntry) -> str | None:
        """Return the flap setting that a speed's figure holds for: its own, or the usual one.

        None where a speed of the manual's own name has none: nothing is usual for it.
        """
        if isinstance(entry, NamedEntry) and len(self.flaps) > 1:
            return entry.flaps
        return self.usual_flaps(name, entry)

    def usual_flaps(self, name: str, entry: SpeedEntry) -> str:
        """Return the flap setting that a V-speed's figure holds for: its own, or the usual one."""
        return entry.flaps or self.flaps[-1 if name in {"VS0", "VREF"} else 0]

    def weight_of(self, entry: SpeedEntry) -> Figure:
        """Return the weight that a V-speed's figure holds for: its own, or the maximum."""
        return self.maximum_weight if entry.weight is None else entry.weight

    def gear_of(self, name: str, entry: SpeedEntry) -> str:
        """Return where the gear is at a V-speed: as it says, or as the speed itself does."""
        return entry.gear or ("down" if name in {"VS0", "VREF", "VLE"} else "")

    def entry_cas(self, entry: SpeedEntry, flaps: str | None = None, gear: str = "") -> float:
        """CAS of a V-speed: as the manual gives it, or else its IAS through the table.

        Parameters
        ----------
        entry : SpeedEntry
            The V-speed.
        flaps, gear : str, optional
            The flap setting and the gear, where the entry does not say.
        """
        if entry.cas is not None:
            return float(entry.cas)
        if entry.ias is not None:
            at = (entry.flaps or flaps, NORMAL, entry.gear or gear)
            return float(self.cas_from_ias(float(entry.ias), *at))
        if entry.times_VS0 is not None:
            weight = float(entry.weight or self.maximum_weight)
            return float(entry.times_VS0) * self.stall_cas(self.flaps[-1], weight, 0.0)
        return math.nan

    @cached_property
    def stall_entries(self) -> dict[str, SpeedEntry]:
        """The V-speed of the stall for each flap setting that has one, at its heaviest weight."""
        found: dict[str, SpeedEntry] = {}
        for name in ("VS1", "VS0"):
            for entry in self._stalls_in_general(name):
                flaps = self.usual_flaps(name, entry)
                known = found.setdefault(flaps, entry)
                if self.weight_of(entry) > self.weight_of(known):
                    found[flaps] = entry
        return {flaps: found[flaps] for flaps in self.flaps if flaps in found}

    @cached_property
    def stall_speeds(self) -> tuple[StallSpeed, ...]:
        """Every stall speed that the manual gives without bank: VS1 and VS0, then its table's."""
        found = []
        for name in ("VS1", "VS0"):
            for entry in self._stalls_in_general(name):
                flaps, weight = self.usual_flaps(name, entry), self.weight_of(entry)
                if entry.ias is not None or entry.cas is not None:
                    known = self.entry_cas(entry, flaps, self.gear_of(name, entry))
                    at = (flaps, entry.gear or "", weight)
                    found.append(StallSpeed(*at, entry.ias, entry.cas, known, entry))
        stall = self.definition.stall
        level = [n for n, bank in enumerate(stall.bank) if bank == 0.0] if stall else []
        if stall is None or not level:
            return tuple(found)
        for row in stall.rows:
            flaps, gear = row.flaps or self.flaps[0], row.gear or ""
            ias, cas = (figures[level[0]] if figures else None for figures in (row.ias, row.cas))
            known = self._calibrated(ias, cas, flaps, gear)
            found.append(StallSpeed(flaps, gear, stall.weight_of(row), ias, cas, known, stall))
        return tuple(found)

    def _stalls_in_general(self, name: str) -> list[SpeedEntry]:
        """Return the figures of VS1 or VS0 of each flap setting that hold in general.

        Where each has a condition, of those at one weight the highest.
        """
        entries = self.definition.speeds.get(name, [])
        plain = {self.usual_flaps(name, one) for one in entries if one.when is None}
        highest: dict[tuple[str, str | None, float], SpeedEntry] = {}
        for one in entries:
            flaps = self.usual_flaps(name, one)
            if one.when is not None and flaps not in plain:
                case = flaps, one.gear, float(self.weight_of(one))
                highest[case] = max(highest.get(case, one), one, key=_figure)
        return [one for one in entries if one.when is None or one in highest.values()]

    def _calibrated(self, ias: Figure | None, cas: Figure | None, flaps: str, gear: str) -> float:
        if cas is not None:
            return float(cas)
        assert ias is not None
        return float(self.cas_from_ias(float(ias), flaps, NORMAL, gear))

    def stall_anchor(self, flaps: str, weight: float, gear: str = "") -> StallSpeed | None:
        """Return the manual's stall speed for a weight, or the next heavier given, if any."""
        speeds = [one for one in self.stall_speeds if one.flaps == flaps]
        return next_heavier(of_gear(speeds, gear, self.usual_gear(flaps)), weight)

    def stall_cas(self, flaps: str, weight: float, bank: float, gear: str = "") -> float:
        """Stall speed at a weight and in a level turn.

        Parameters
        ----------
        flaps : str
            A flap setting of the type.
        weight : float
            In the manual's unit.
        bank : float
            deg.
        gear : str
            ``up``, ``down``, or nothing where it is not said.

        Returns
        -------
        float
            CAS, in the manual's unit; not a number above the heaviest weight that
            the manual gives one for, and where none is known in CAS.

        Notes
        -----
        The manual's stall speed in CAS at the weight, or from the next heavier
        weight that it gives one for, times the square root of the ratio of
        weights and the load factor (FAA-H-8083-25B, chapter 5).
        """
        anchor = self.stall_anchor(flaps, weight, gear)
        if anchor is None:
            return math.nan
        share = weight / float(anchor.weight)
        factor = load.speed_ratio(share, load.load_factor(to_si(bank, "deg")))
        return float(anchor.calibrated * factor)

    def anchor(self, weight: float, name: str) -> SpeedEntry | None:
        """Return the manual's figure of a speed for a weight, or the next heavier given."""
        heavier = [
            one
            for one in in_general(self.definition.speeds.get(name, []))
            if float(one.weight or self.maximum_weight) >= weight
            and not isinstance(one.ias, Span)  # of a range nobody knows which end holds
            and not isinstance(one.cas, Span)
        ]
        safer = 1.0 if SPEEDS[name].sense == "maximum" else -1.0

        def order(one: SpeedEntry) -> tuple[float, float]:
            return float(one.weight or self.maximum_weight), safer * _figure(one)

        return min(heavier, key=order, default=None)

    def manoeuvring_cas(self, weight: float, name: str = "VA") -> float:
        """Manoeuvring speed at a weight.

        Parameters
        ----------
        weight : float
            In the manual's unit.
        name : str
            ``VA`` or ``VO``.

        Returns
        -------
        float
            CAS, in the manual's unit; not a number above the heaviest weight
            that the manual gives one for.

        Notes
        -----
        As the manual gives it, or from the next heavier weight that it gives
        one for, times the square root of the ratio of weights: the speed at
        which full lift meets the limit load (FAA-H-8083-25B, chapter 5).
        """
        anchor = self.anchor(weight, name)
        if anchor is None:
            return math.nan
        known = float(anchor.weight or self.maximum_weight)
        return float(self.entry_cas(anchor) * load.speed_ratio(weight / known, 1.0))

    def approach_cas(self, weight: float) -> float:
        """Landing reference speed at a weight.

        Parameters
        ----------
        weight : float
            In the manual's unit.

        Returns
        -------
        float
            CAS, in the manual's unit; not a number where the manual gives no VREF.

        Notes
        -----
        The manual's VREF in CAS, or its multiple of VS0, from the next heavier
        weight that it is given for, times the square root of the ratio of
        weights (FAA-H-8083-25B, chapter 5), so that the margin over the stall
        stays the same; but not below VMC (14 CFR 23.73, before Amendment 23-64).
        """
        anchor = self.anchor(weight, "VREF")
        if anchor is None:
            return math.nan
        known = float(anchor.weight or self.maximum_weight)
        cas = self.entry_cas(anchor, self.flaps[-1])
        lighter = cas * load.speed_ratio(weight / known, 1.0)
        return float(np.maximum(lighter, np.minimum(cas, self.control_cas)))

    @cached_property
    def control_cas(self) -> float:
        """VMC in CAS, in the manual's unit; 0 where none is known."""
        known = map(self.entry_cas, self.definition.speeds.get("VMC", []))
        return float(np.nanmax([0.0, *known]))

    # -- true airspeed -----------------------------------------------------------------

    def tas_from_cas(self, cas: Values, altitude: Values, oat: Values) -> Values:
        """True airspeed.

        Parameters
        ----------
        cas : float or array
            Calibrated airspeed, in the manual's unit; not a number gives none.
        altitude : float or array
            Pressure altitude, in the manual's unit.
        oat : float or array
            Outside air temperature, in the manual's unit.

        Returns
        -------
        float or array
            TAS, in the manual's unit; not a number at the speed of sound and above.
        """
        pressure = atmosphere.pressure(to_si(altitude, self.units.altitude))
        speed = to_si(cas, self.units.speed)
        known = airspeed.is_subsonic(speed, pressure)
        tas = airspeed.tas_from_cas(
            np.where(known, speed, 0.0), pressure, to_si(oat, self.units.temperature)
        )
        return np.where(known, from_si(tas, self.units.speed), np.nan)[()]

    def cas_from_tas(self, tas: Values, altitude: Values, oat: Values) -> Values:
        """CAS of a true airspeed; inverse of `tas_from_cas`."""
        pressure = atmosphere.pressure(to_si(altitude, self.units.altitude))
        air = to_si(oat, self.units.temperature)
        speed = to_si(tas, self.units.speed)
        fastest = airspeed.tas_from_mach(_FASTEST, air)
        cas = airspeed.cas_from_tas(np.minimum(speed, fastest), pressure, air)
        return np.where(speed < fastest, from_si(cas, self.units.speed), np.nan)[()]

    def standard_temperature(self, altitude: Values) -> Values:
        """Temperature of the standard atmosphere at a pressure altitude, manual's units."""
        kelvin = atmosphere.temperature(to_si(altitude, self.units.altitude))
        return from_si(kelvin, self.units.temperature)
