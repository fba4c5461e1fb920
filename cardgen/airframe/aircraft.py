"""An aircraft that answers questions, in the units of its manual.

Speeds on the way through an airspeed indicator have three names here:
*indicated* is what the pointer shows, in the indicator's own unit: what words
for people call IAS. *ias* is that with the instrument correction added, in the
manual's unit, as a manual means it: the manual's IAS. *cas* is that with the
position error taken out.
"""

import math
from functools import cached_property

import numpy as np

from cardgen.air import airspeed, atmosphere, load
from cardgen.airframe.curve import Curve
from cardgen.definition.fleet import AircraftDefinition
from cardgen.definition.identifiers import copied
from cardgen.definition.model import Calibration, SpeedEntry
from cardgen.definition.places import Place
from cardgen.units import Values, convert, from_si, to_si

_FASTEST = 0.95  # Mach number; a TAS that is faster has no CAS here
NORMAL, ALTERNATE = "normal", "alternate"


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

    @cached_property
    def identifiers(self) -> dict[Place, str]:
        """The identifier of every figure that was copied, by its place."""
        return {one.figure.place: one.id for one in copied(self.definition)}

    # -- the airspeed indicator ------------------------------------------------------------

    @cached_property
    def _bench(self) -> Curve | None:
        """What the indicator shows against what it should show."""
        given = self.definition.airframe.instrument_correction
        if given is None:
            return None
        pairs = zip(given.indicated, given.correction, strict=True)
        return Curve(given.indicated, [shown + correction for shown, correction in pairs])

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

    def calibration(self, flaps: str | None = None, source: str = NORMAL) -> Calibration | None:
        """Return the manual's table for a flap setting (retracted where left out), if any."""
        wanted = flaps or self.flaps[0]
        for table in self.definition.calibration:
            if table.setting(self.flaps) == (wanted, source):
                return table
        return None

    def _curve(self, flaps: str | None, source: str) -> Curve | None:
        return self._curves.get((flaps or self.flaps[0], source))

    @cached_property
    def _curves(self) -> dict[tuple[str, str], Curve]:
        """The calibration tables as curves, by flap setting and static source."""
        return {
            table.setting(self.flaps): Curve(table.ias, table.cas)
            for table in self.definition.calibration
        }

    def cas_from_ias(self, ias: Values, flaps: str | None = None, source: str = NORMAL) -> Values:
        """CAS of an IAS, both in the manual's unit.

        Parameters
        ----------
        ias : float or array
            Indicated airspeed.
        flaps : str, optional
            A flap setting of the type; retracted where left out.
        source : str
            ``normal`` or ``alternate`` static source.

        Returns
        -------
        float or array
            Calibrated airspeed; not a number outside the table, or where
            there is none.
        """
        curve = self._curve(flaps, source)
        return curve.at(ias) if curve else np.full_like(ias, np.nan, dtype=float)[()]

    def ias_from_cas(self, cas: Values, flaps: str | None = None, source: str = NORMAL) -> Values:
        """IAS of a CAS; inverse of `cas_from_ias`."""
        curve = self._curve(flaps, source)
        return curve.back(cas) if curve else np.full_like(cas, np.nan, dtype=float)[()]

    def cas_from_indicated(self, indicated: float) -> float:
        """CAS of what the indicator shows, flaps retracted, on the normal static source."""
        return float(self.cas_from_ias(self.ias_from_indicated(indicated)))

    # -- stall and manoeuvring speed ---------------------------------------------------------

    def flaps_of(self, name: str, entry: SpeedEntry) -> str:
        """Return the flap setting that a V-speed's figure holds for: its own, or the usual one."""
        return entry.flaps or self.flaps[-1 if name in {"VS0", "VREF"} else 0]

    def entry_cas(self, entry: SpeedEntry, flaps: str | None = None) -> float:
        """CAS of a V-speed: as the manual gives it, or else its IAS through the table.

        Parameters
        ----------
        entry : SpeedEntry
            The V-speed.
        flaps : str, optional
            The flap setting, where the entry does not say.
        """
        if entry.cas is not None:
            return float(entry.cas)
        if entry.ias is not None:
            return float(self.cas_from_ias(float(entry.ias), entry.flaps or flaps))
        if entry.times_VS0 is not None and self.flaps[-1] in self.stall_entries:
            weight = float(entry.weight or self.maximum_weight)
            return float(entry.times_VS0) * self.stall_cas(self.flaps[-1], weight, 0.0)
        return math.nan

    @cached_property
    def stall_entries(self) -> dict[str, SpeedEntry]:
        """The manual's stall speed for each flap setting that it gives one for."""
        found: dict[str, SpeedEntry] = {}
        for name, usual in (("VS1", self.flaps[0]), ("VS0", self.flaps[-1])):
            for entry in self.definition.speeds.get(name, []):
                found.setdefault(entry.flaps or usual, entry)
        return {flaps: found[flaps] for flaps in self.flaps if flaps in found}

    def stall_cas(self, flaps: str, weight: float, bank: float) -> float:
        """Stall speed at a weight and in a level turn.

        Parameters
        ----------
        flaps : str
            A key of `stall_entries`.
        weight : float
            In the manual's unit; not above the maximum weight.
        bank : float
            deg.

        Returns
        -------
        float
            CAS, in the manual's unit.

        Notes
        -----
        The manual's stall speed in CAS, times the square root of the ratio of
        weights and the load factor (FAA-H-8083-25B, chapter 5).
        """
        entry = self.stall_entries[flaps]
        known = float(entry.weight or self.maximum_weight)
        factor = load.speed_ratio(weight / known, load.load_factor(to_si(bank, "deg")))
        return float(self.entry_cas(entry, flaps) * factor)

    def anchor(self, weight: float, name: str) -> SpeedEntry | None:
        """Return the manual's figure of a speed for a weight, or the next heavier given."""
        entries = self.definition.speeds.get(name, [])
        heavier = [one for one in entries if float(one.weight or self.maximum_weight) >= weight]
        return min(heavier, key=lambda one: float(one.weight or self.maximum_weight), default=None)

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
