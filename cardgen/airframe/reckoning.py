"""One case worked from the indicator to the ground, or back to the indicator."""

import math
from dataclasses import dataclass, field

from cardgen.air import airspeed, atmosphere, wind
from cardgen.air.bounds import OutOfBoundsError
from cardgen.airframe.aircraft import NORMAL, Aircraft
from cardgen.units import convert, convert_difference, from_si, to_si


@dataclass(frozen=True)
class Case:
    """What is known: one airspeed, and as much of the air as there is.

    Speeds are in the indicator's unit, altitude and temperature in the
    manual's, angles in degrees.

    Attributes
    ----------
    known : str
        Which airspeed is given: ``ias``, ``cas`` or ``tas``.
    speed : float
    flaps : str
    static_source : str
    pressure_altitude : float, optional
    oat : float, optional
    wind : (float, float), optional
        Direction it blows from, and speed.
    course : float, optional
    """

    known: str
    speed: float
    flaps: str
    static_source: str = NORMAL
    pressure_altitude: float | None = None
    oat: float | None = None
    wind: tuple[float, float] | None = None
    course: float | None = None


@dataclass(frozen=True)
class Step:
    """A line of the working: what, how much, and why."""

    name: str
    value: str
    reason: str


@dataclass
class Reckoning:
    """The case worked out; a value that does not exist is None, and a note says why."""

    values: dict[str, float | None]
    units: dict[str, str]
    steps: list[Step] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)


RESULTS = (
    "indicated_airspeed",
    "instrument_correction",
    "calibrated_airspeed",
    "equivalent_airspeed",
    "mach",
    "true_airspeed",
    "pressure_altitude",
    "isa_deviation",
    "density_altitude",
    "headwind",
    "crosswind",
    "heading",
    "ground_speed",
)


def reckon(aircraft: Aircraft, case: Case) -> Reckoning:
    """Work a case.

    Parameters
    ----------
    aircraft : Aircraft
    case : Case

    Returns
    -------
    Reckoning
        With all of `RESULTS`, unrounded.

    Raises
    ------
    OutOfBoundsError
        If what is given means nothing: a temperature below absolute zero, an
        altitude outside the standard atmosphere, a supersonic speed.
    """
    units = {
        "speed": aircraft.indicator_unit,
        "altitude": aircraft.units.altitude,
        "temperature": aircraft.units.temperature,
        "angle": "deg",
    }
    done = Reckoning(dict.fromkeys(RESULTS), units)
    work = _Working(aircraft, case, done)
    work.air()
    cas = work.calibrated()
    work.indicated(cas)
    work.true(cas)
    work.ground()
    return done


class _Working:
    """The steps, each of which fills in some of the results."""

    def __init__(self, aircraft: Aircraft, case: Case, done: Reckoning) -> None:
        self.aircraft, self.case, self.done = aircraft, case, done
        self.unit = aircraft.indicator_unit
        self.pressure = self.temperature = math.nan

    def air(self) -> None:
        """Fill in what the air is like."""
        altitude, oat, units = self.case.pressure_altitude, self.case.oat, self.aircraft.units
        if altitude is None:
            self.done.notes.append("No altitude was given: true airspeed is left out.")
            return
        metres = to_si(altitude, units.altitude)
        self.pressure = float(atmosphere.pressure(metres))
        self._fill("pressure_altitude", altitude)
        if oat is None:
            self.done.notes.append("No temperature was given: true airspeed is left out.")
            return
        self.temperature = float(to_si(oat, units.temperature))
        deviation = float(atmosphere.isa_deviation(metres, self.temperature))
        density = float(atmosphere.density_altitude(metres, self.temperature))
        self._fill("isa_deviation", float(convert_difference(deviation, "K", units.temperature)))
        self._fill("density_altitude", float(from_si(density, units.altitude)))

    def calibrated(self) -> float:
        """Find CAS, in the manual's unit, from whichever airspeed is known."""
        case, aircraft = self.case, self.aircraft
        if case.known == "ias":
            ias = aircraft.ias_from_indicated(case.speed)
            cas = float(aircraft.cas_from_ias(ias, case.flaps, case.static_source))
            if math.isnan(cas):
                self.done.notes.append(self._outside(f"An indicated {case.speed:g} {self.unit}"))
            return cas
        given = float(convert(case.speed, self.unit, aircraft.units.speed))
        if case.known == "cas":
            return given
        if math.isnan(self.temperature):
            return math.nan
        metres = airspeed.cas_from_tas(
            to_si(case.speed, self.unit), self.pressure, self.temperature
        )
        return float(from_si(metres, aircraft.units.speed))

    def indicated(self, cas: float) -> None:
        """Fill in what the indicator shows, and the CAS it stands for."""
        case, aircraft = self.case, self.aircraft
        if case.known == "ias":
            shown = case.speed
        else:
            ias = aircraft.ias_from_cas(cas, case.flaps, case.static_source)
            shown = float(aircraft.indicated_from_ias(ias))
            if math.isnan(shown) and not math.isnan(cas):
                self.done.notes.append(self._outside(f"A CAS of {cas:.1f} {aircraft.units.speed}"))
        bench = aircraft.definition.airframe.instrument_correction
        corrected = shown
        if bench:
            ias = aircraft.ias_from_indicated(shown)
            corrected = float(convert(ias, aircraft.units.speed, self.unit))
        own_cas = float(convert(cas, aircraft.units.speed, self.unit))
        if case.known == "cas":
            own_cas = case.speed
        self._fill("indicated_airspeed", shown)
        self._fill("instrument_correction", corrected - shown)
        self._fill("calibrated_airspeed", own_cas)
        table = aircraft.calibration(case.flaps, case.static_source)
        page = f", page {table.page}" if table and table.page else ""
        self._step("Indicated", shown, "given" if case.known == "ias" else "to fly")
        self._step(
            "Instrument correction",
            corrected - shown,
            f"{bench.page or 'bench card'}" if bench else "none is given for this indicator",
            sign=True,
        )
        self._step(
            "Position error correction",
            own_cas - corrected,
            f"calibration table, flaps {case.flaps}, {case.static_source} static source{page}",
            sign=True,
        )
        self._step("CAS", own_cas, "given" if case.known == "cas" else "")

    def true(self, cas: float) -> None:
        """Fill in EAS, Mach number and TAS."""
        if math.isnan(cas) or math.isnan(self.pressure):
            return
        metres = to_si(cas, self.aircraft.units.speed)
        mach = float(airspeed.mach_from_cas(metres, self.pressure))
        eas = float(from_si(airspeed.eas_from_mach(mach, self.pressure), self.unit))
        own_cas = float(from_si(metres, self.unit))
        self._fill("mach", mach)
        self._fill("equivalent_airspeed", eas)
        altitude = f"{self.case.pressure_altitude:,.0f} {self.aircraft.units.altitude}"
        reason = f"impact pressure at a pressure altitude of {altitude}"
        self._step("Compressibility correction", eas - own_cas, reason, sign=True)
        self._step("EAS", eas, f"Mach {mach:.3f}")
        if math.isnan(self.temperature):
            return
        tas = float(from_si(airspeed.tas_from_mach(mach, self.temperature), self.unit))
        if self.case.known == "tas":
            tas = self.case.speed
        self._fill("true_airspeed", tas)
        density = self.done.values["density_altitude"]
        unit = self.aircraft.units.altitude
        self._step("Density correction", tas - eas, f"density altitude {density:,.0f} {unit}", True)
        self._step("TAS", tas, "given" if self.case.known == "tas" else "")

    def ground(self) -> None:
        """Fill in what the wind leaves."""
        if self.case.wind is None or self.case.course is None:
            return
        blows_from, speed = (self.case.wind[0], to_si(self.case.wind[1], self.unit))
        angles = (to_si(blows_from, "deg"), speed, to_si(self.case.course, "deg"))
        parts = wind.wind_components(*angles)
        head, cross = (float(from_si(part, self.unit)) for part in parts)
        self._fill("headwind", head)
        self._fill("crosswind", cross)
        self._step("Headwind" if head >= 0 else "Tailwind", abs(head), "along the course")
        side = "right" if cross >= 0 else "left"
        self._step("Crosswind", abs(cross), f"from the {side}")
        tas = self.done.values["true_airspeed"]
        if tas is None:
            self.done.notes.append("Without a true airspeed there is no heading or ground speed.")
            return
        try:
            held = wind.wind_triangle(to_si(tas, self.unit), angles[2], angles[0], speed)
        except OutOfBoundsError as error:
            self.done.notes.append(f"The wind cannot be held: {error}.")
            return
        heading = float(from_si(held.heading, "deg"))
        self._fill("heading", heading)
        self._fill("ground_speed", float(from_si(held.ground_speed, self.unit)))
        self.done.steps.append(Step("Heading", f"{heading:03.0f}°", "into the wind"))
        self._step("Ground speed", float(from_si(held.ground_speed, self.unit)), "")

    def _fill(self, name: str, value: float) -> None:
        self.done.values[name] = None if math.isnan(value) else value

    def _step(self, name: str, value: float, reason: str, sign: bool = False) -> None:
        if math.isnan(value):
            said = "–"
        else:
            said = f"{value:{'+' if sign else ''}.1f} {self.unit}".replace("-", "−")
        self.done.steps.append(Step(name, said, reason))

    def _outside(self, subject: str) -> str:
        table = self.aircraft.calibration(self.case.flaps, self.case.static_source)
        setting = f"flaps {self.case.flaps}, {self.case.static_source} static source"
        if table is None:
            return f"{subject} has no partner: the manual gives no calibration table for {setting}."
        reach = f"IAS {table.ias[0].text} to {table.ias[-1].text} {self.aircraft.units.speed}"
        bench = self.aircraft.definition.airframe.instrument_correction
        also = " or the bench card" if bench else ""
        return f"{subject} lies outside the calibration table for {setting} ({reach}){also}."
