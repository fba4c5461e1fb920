"""One case worked from the indicator to the ground, or back to the indicator.

All of it from a document: what the curves of an aircraft say, and the physics.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import Literal, get_args

from cardgen.air import airspeed, atmosphere, wind
from cardgen.air.bounds import OutOfBoundsError
from cardgen.document.record import Curve, Document, Message, Quantity, Unit, Value
from cardgen.document.rounding import kept
from cardgen.lessons.altimeter import Altimeter, Altitude, altitude_of
from cardgen.lessons.curves import NORMAL, Chain, read, rows_of
from cardgen.lessons.limits import (
    Flying,
    Passed,
    above_the_last_row,
    below_minimum_control,
    in_force,
    passed,
)
from cardgen.lessons.stalling import Stall, stall_of
from cardgen.units import convert, convert_difference, from_si, to_si

Known = Literal["ias", "cas", "tas"]
KNOWN: tuple[Known, ...] = get_args(Known)


@dataclass(frozen=True)
class Case:
    """What is known: one airspeed, and as much of the air as there is.

    Airspeeds are in the indicator's unit, altitude and temperature in the
    manual's, the wind in knots, angles in degrees.

    Attributes
    ----------
    known : str
        Which airspeed is given: ``ias``, ``cas`` or ``tas``.
    speed : float
    flaps : str
    static_source : str
    gear : str
        ``up``, ``down``, or nothing where it was not said.
    pressure_altitude : float, optional
    oat : float, optional
    wind : (float, float), optional
        Direction it blows from, and speed.
    course : float, optional
    altimeter : Altimeter, optional
        What it shows, from which pressure altitude is found, instead of that.
    isa : float, optional
        Difference from the standard temperature, instead of `oat`.
    weight : float, optional
        In the manual's unit, for the stall.
    bank : float
    """

    known: Known
    speed: float
    flaps: str
    static_source: str = NORMAL
    pressure_altitude: float | None = None
    oat: float | None = None
    wind: tuple[float, float] | None = None
    course: float | None = None
    gear: str = ""
    altimeter: Altimeter | None = None
    isa: float | None = None
    weight: float | None = None
    bank: float = 0.0


@dataclass(frozen=True)
class Step:
    """A line of the working.

    Attributes
    ----------
    id : str
        What it is; a message ``step-<id>`` names it.
    quantity : Quantity, optional
        None where there is no value.
    reason : Message, optional
    form : str
        ``plain``, ``signed`` or ``heading``.
    formula : str
        The formula by which it was found, if any.
    page : str
        The page of the table or the bench card that it was read from, if any.
    working : Message, optional
        The two rows that it was read between, and the arithmetic.
    """

    id: str
    quantity: Quantity | None
    reason: Message | None = None
    form: str = "plain"
    formula: str = ""
    page: str = ""
    working: Message | None = None


@dataclass
class Reckoning:
    """The case worked out; a value that does not exist is None, and a note says why."""

    values: dict[str, float | None]
    units: dict[str, str]
    steps: list[Step] = field(default_factory=list)
    notes: list[Message] = field(default_factory=list)
    passed: list[Passed] = field(default_factory=list)
    in_force: list[Passed] = field(default_factory=list)
    stall: list[Step] = field(default_factory=list)
    altimeter: list[Step] = field(default_factory=list)


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
    "load_factor",
    "stall_speed",
    "stall_calibrated",
    "stall_margin",
)
_GIVEN, _TO_FLY = Message("step-given"), Message("step-to-fly")
_COMPONENTS = "wind-components"
_SAME = 1e-6  # of the unit of altitude
_TRIES = 50


def reckon(document: Document, case: Case) -> Reckoning:
    """Work a case.

    Parameters
    ----------
    document : Document
        Of the aircraft; its tables are not asked.
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
    head = document.head
    units = {
        "speed": head.indicator_unit,
        "altitude": head.units.altitude,
        "temperature": head.units.temperature,
        "angle": "deg",
    }
    done = Reckoning(dict.fromkeys(RESULTS), units)
    work = _Working(document, case, done)
    work.altitude()
    work.air()
    cas = work.calibrated()
    work.indicated(cas)
    work.true(cas)
    work.ground()
    work.limits(cas)
    work.stall(cas)
    return done


class _Working:
    """The steps, each of which fills in some of the results."""

    def __init__(self, document: Document, case: Case, done: Reckoning) -> None:
        self.document, self.case, self.done = document, case, done
        self.chain = Chain(document)
        self.unit = document.head.indicator_unit
        self.manual = document.head.units
        self.bench = document.basis.bench
        self.table = self.chain.table(case.flaps, case.static_source, case.gear)
        self.pressure = self.temperature = math.nan

    def altitude(self) -> None:
        """Find pressure altitude and temperature, where the altimeter or a difference is given."""
        altimeter, basis = self.case.altimeter, self.document.basis
        if altimeter is not None:
            found = self._altimeter(altimeter)
            known = None if math.isnan(found.pressure_altitude) else found.pressure_altitude
            self.case = replace(self.case, pressure_altitude=known)
            if basis.altimeter or basis.altimeter_bench:
                self.done.altimeter += self._altimeter_steps(altimeter, found)
        if self.case.isa is not None and self.case.pressure_altitude is not None:
            self.case = replace(self.case, oat=self._oat(self.case.pressure_altitude))

    def _altimeter(self, altimeter: Altimeter) -> Altitude:
        """Correct what the altimeter shows; a TAS means an IAS only at an altitude that is known.

        So that is looked for again with what was found, until that stays the same; it is not
        known where it never does.
        """
        metres = atmosphere.pressure_altitude_from_setting(
            to_si(altimeter.shown, self.manual.altitude), altimeter.setting
        )
        level = float(from_si(metres, self.manual.altitude))
        for _ in range(_TRIES):
            ias = read(self.table, self._cas_at(level), back=True)
            if self.case.known == "ias":
                ias = self.chain.ias(self.case.speed)
            setting = self.case.flaps, self.case.static_source
            found = altitude_of(self.document, altimeter, ias, *setting)
            near = abs(found.pressure_altitude - level) < _SAME
            if near or math.isnan(found.pressure_altitude) or self.case.known != "tas":
                return found
            level = found.pressure_altitude
        return replace(found, pressure_altitude=math.nan)

    def _cas_at(self, level: float) -> float:
        """Return the CAS of a case at a pressure altitude; not a number where IAS is given."""
        if self.case.known != "tas":
            return self.calibrated() if self.case.known == "cas" else math.nan
        oat = self._oat(level)
        if oat is None:
            return math.nan
        pressure = atmosphere.pressure(to_si(level, self.manual.altitude))
        kelvin = to_si(oat, self.manual.temperature)
        cas = airspeed.cas_from_tas(to_si(self.case.speed, self.unit), pressure, kelvin)
        return float(from_si(cas, self.manual.speed))

    def _oat(self, level: float) -> float | None:
        if self.case.isa is None:
            return self.case.oat
        standard = atmosphere.temperature(to_si(level, self.manual.altitude))
        return float(from_si(standard, self.manual.temperature)) + self.case.isa

    def _altimeter_steps(self, altimeter: Altimeter, found: Altitude) -> Iterator[Step]:
        unit, formula = self.manual.altitude, "altimeter-correction"
        bench = self.document.basis.altimeter_bench
        yield Step("altimeter", Quantity(kept(altimeter.shown), unit), _GIVEN)
        table = found.tables[0] if found.tables else None
        for name, value, curve in (
            ("instrument", found.instrument, bench),
            ("position", found.position, table),
        ):
            by_bench = name == "instrument"
            reason = self._from_altimeter_card() if by_bench else self._from_altimeter(found)
            quantity = None if math.isnan(value) else Quantity(kept(value), unit)
            by = (formula, curve.page) if curve else ("", "")
            yield Step(f"altimeter-{name}", quantity, reason, "signed", *by)

    def _from_altimeter_card(self) -> Message:
        card = self.document.basis.altimeter_bench
        if card is None:
            return Message("step-no-altimeter-card")
        if card.page:
            return Message("step-page", {"page": card.page})
        return Message("step-bench-card")

    def _from_altimeter(self, found: Altitude) -> Message:
        if not found.tables:
            none = math.isnan(found.position)
            return Message("step-altimeter-outside" if none else "step-no-altimeter-table")
        name = f"step-setting-{self.case.static_source}"
        values: dict[str, Value] = {"setting": Message(name, {"flaps": self.case.flaps})}
        page = found.tables[0].page
        if page:
            return Message("step-altimeter-table-page", {**values, "page": page})
        return Message("step-altimeter-table", values)

    def air(self) -> None:
        """Fill in what the air is like."""
        altitude, oat = self.case.pressure_altitude, self.case.oat
        if altitude is None:
            given = self.case.altimeter is not None
            self.done.notes.append(Message("note-altimeter" if given else "note-no-altitude"))
            return
        metres = to_si(altitude, self.manual.altitude)
        self.pressure = float(atmosphere.pressure(metres))
        self._fill("pressure_altitude", altitude)
        if oat is None:
            self.done.notes.append(Message("note-no-temperature"))
            return
        unit = self.manual.temperature
        self.temperature = float(to_si(oat, unit))
        deviation = float(atmosphere.isa_deviation(metres, self.temperature))
        density = float(atmosphere.density_altitude(metres, self.temperature))
        self._fill("isa_deviation", float(convert_difference(deviation, "K", unit)))
        self._fill("density_altitude", float(from_si(density, self.manual.altitude)))

    def calibrated(self) -> float:
        """Find CAS, in the manual's unit, from whichever airspeed is known."""
        case = self.case
        if case.known == "ias":
            cas = read(self.table, self.chain.ias(case.speed))
            if math.isnan(cas):
                self._outside("indicated", _entered(case.speed, self.unit))
            return cas
        if case.known == "cas":
            return float(convert(case.speed, self.unit, self.manual.speed))
        if math.isnan(self.temperature):
            return math.nan
        metres = airspeed.cas_from_tas(
            to_si(case.speed, self.unit), self.pressure, self.temperature
        )
        return float(from_si(metres, self.manual.speed))

    def indicated(self, cas: float) -> None:
        """Fill in what the indicator shows, and the CAS it stands for."""
        case = self.case
        shown = case.speed
        if case.known != "ias":
            shown = self.chain.shown_at_cas(cas, case.flaps, case.static_source, case.gear)
            if math.isnan(shown) and not math.isnan(cas):
                self._outside("cas", Quantity(kept(cas), self.manual.speed, decimals=1))
        corrected = self.chain.corrected(shown)
        own_cas = float(convert(cas, self.manual.speed, self.unit))
        if case.known == "cas":
            own_cas = case.speed
        self._fill("indicated_airspeed", shown)
        self._fill("instrument_correction", corrected - shown)
        self._fill("calibrated_airspeed", own_cas)
        self._step("indicated", shown, _GIVEN if case.known == "ias" else _TO_FLY)
        self._step(
            "instrument",
            corrected - shown,
            self._from_bench(),
            "signed",
            "correction" if self.bench else "",
            self.bench.page if self.bench else "",
            _working(self.bench, shown, self.unit),
        )
        ias = self.chain.manual(corrected)
        self._step(
            "position",
            own_cas - corrected,
            self._from_table(),
            "signed",
            "calibrated-airspeed" if case.known == "ias" else "indicated-from-calibrated",
            self.table.page if self.table else "",
            _working(self.table, ias, self.manual.speed),
        )
        self._step("cas", own_cas, _GIVEN if case.known == "cas" else None)

    def _from_bench(self) -> Message:
        if self.bench is None:
            return Message("step-no-bench-card")
        if self.bench.page:
            return Message("step-page", {"page": self.bench.page})
        return Message("step-bench-card")

    def _from_table(self) -> Message:
        values: dict[str, Value] = {"setting": self._setting()}
        if self.table and self.table.page:
            return Message("step-table-page", {**values, "page": self.table.page})
        return Message("step-table", values)

    def _setting(self) -> Message:
        name, gear = f"step-setting-{self.case.static_source}", self.case.gear
        values: dict[str, Value] = {"flaps": self.case.flaps}
        if self.table is not None:
            gear = self.table.gear
        if not gear:
            return Message(name, values)
        return Message(f"{name}-gear", {**values, "gear": Message(f"gear-{gear}")})

    def true(self, cas: float) -> None:
        """Fill in EAS, Mach number and TAS."""
        if math.isnan(cas) or math.isnan(self.pressure):
            return
        metres = to_si(cas, self.manual.speed)
        mach = float(airspeed.mach_from_cas(metres, self.pressure))
        eas = float(from_si(airspeed.eas_from_mach(mach, self.pressure), self.unit))
        own_cas = float(from_si(metres, self.unit))
        self._fill("mach", mach)
        self._fill("equivalent_airspeed", eas)
        altitude = self._altitude(self.case.pressure_altitude)
        reason = Message("step-impact-pressure", {"altitude": altitude})
        self._step("compressibility", eas - own_cas, reason, "signed", "true-airspeed")
        self._step("eas", eas, Message("step-mach", {"mach": Quantity(kept(mach), decimals=3)}))
        if math.isnan(self.temperature):
            return
        tas = float(from_si(airspeed.tas_from_mach(mach, self.temperature), self.unit))
        if self.case.known == "tas":
            tas = self.case.speed
        self._fill("true_airspeed", tas)
        density = self._altitude(self.done.values["density_altitude"])
        reason = Message("step-density-altitude", {"altitude": density})
        self._step("density", tas - eas, reason, "signed", "true-airspeed")
        self._step("tas", tas, _GIVEN if self.case.known == "tas" else None)

    def _altitude(self, altitude: float | None) -> Quantity:
        return Quantity(kept(altitude or 0.0), self.manual.altitude)

    def ground(self) -> None:
        """Fill in what the wind leaves."""
        if self.case.wind is None or self.case.course is None:
            return
        blows_from, speed = (self.case.wind[0], to_si(self.case.wind[1], "kt"))
        angles = (to_si(blows_from, "deg"), speed, to_si(self.case.course, "deg"))
        parts = wind.wind_components(*angles)
        head, cross = (float(from_si(part, self.unit)) for part in parts)
        self._fill("headwind", head)
        self._fill("crosswind", cross)
        taken = Quantity(kept(self.case.wind[1]), "kt", decimals=1)
        direction = Quantity(kept(blows_from % 360.0 or 360.0), "deg")
        wind_from = Message("step-wind-from", {"direction": direction})
        self.done.steps.append(Step("wind", taken, wind_from))
        along = Message("step-along")
        self._step("headwind" if head >= 0 else "tailwind", abs(head), along, "plain", _COMPONENTS)
        side = Message("step-from-right" if cross >= 0 else "step-from-left")
        self._step("crosswind", abs(cross), side, "plain", _COMPONENTS)
        tas = self.done.values["true_airspeed"]
        if tas is None:
            self.done.notes.append(Message("note-no-ground-speed"))
            return
        try:
            held = wind.wind_triangle(to_si(tas, self.unit), angles[2], angles[0], speed)
        except OutOfBoundsError:
            self._not_held(tas, head, abs(cross))
            return
        heading = float(from_si(held.heading, "deg"))
        ground_speed = float(from_si(held.ground_speed, self.unit))
        self._fill("heading", heading)
        self._fill("ground_speed", ground_speed)
        quantity = Quantity(kept(heading), "deg")
        into = Message("step-into-wind")
        self.done.steps.append(Step("heading", quantity, into, "heading", "ground-speed"))
        self._step("ground-speed", ground_speed, None, "plain", "ground-speed")

    def _not_held(self, tas: float, head: float, cross: float) -> None:
        """Say why a wind leaves no way along the course."""
        across = cross > tas
        values: dict[str, Value] = {
            "wind": self._quantity(cross if across else head),
            "tas": self._quantity(tas),
        }
        name = "note-crosswind-not-held" if across else "note-headwind-not-held"
        self.done.notes.append(Message(name, values))

    def limits(self, cas: float) -> None:
        """Name every limit that the case passes."""
        shown = self.done.values["indicated_airspeed"]
        flying = Flying(
            math.nan if shown is None else shown,
            cas,
            self.case.flaps,
            self.case.gear,
            self.case.pressure_altitude,
            self.case.oat,
            self.case.static_source,
            self.case.weight,
        )
        self.done.passed += passed(self.chain, flying)
        self.done.in_force += in_force(self.chain, flying)
        least = below_minimum_control(self.chain, flying)
        if not math.isnan(least):
            minimum: dict[str, Value] = {"speed": Quantity(kept(least), self.unit, sense="minimum")}
            self.done.notes.append(Message("note-below-VMC", minimum))
        last = above_the_last_row(self.chain, self.case.pressure_altitude)
        if last is not None:
            altitude = _entered(last.altitude or 0.0, self.manual.altitude)
            values: dict[str, Value] = {"speed": last.speed, "altitude": altitude}
            self.done.notes.append(Message("note-above-the-last-row", values))

    def stall(self, cas: float) -> None:
        """Fill in the stall at the weight and bank, and how far it is."""
        case = self.case
        if case.weight is None:
            return
        at = case.flaps, case.gear, case.weight, case.bank
        found = stall_of(self.chain, *at, case.static_source)
        self._fill("load_factor", found.load)
        self._fill("stall_speed", found.shown)
        self._fill("stall_calibrated", found.cas)
        self._of_weight(found, case.weight)
        weight, bank = _entered(case.weight, self.manual.weight), _entered(case.bank, "deg")
        values: dict[str, Value] = {"weight": weight, "bank": bank, "flaps": case.flaps}
        reason = Message("step-stall-given" if found.given else "step-stall-at", values)
        working = None if found.given else self._stall_working(found, case.weight)
        for name, value, unit in (
            ("stall", found.shown, self.unit),
            ("stall-cas", found.cas, self.manual.speed),
        ):
            known = None if math.isnan(value) else Quantity(kept(value), unit, sense="minimum")
            by = "" if found.given else "stall-speed"
            first = name == "stall"
            self.done.stall.append(
                Step(name, known, reason if first else None, formula=by, working=working)
            )
            working = None
        shown = self.done.values["indicated_airspeed"]
        if shown is None or math.isnan(found.shown + found.cas + cas):
            return
        margin = shown - found.shown
        self._fill("stall_margin", margin)
        times = Quantity(kept(cas / found.cas), decimals=2, sense="maximum")
        left = Quantity(kept(margin), self.unit, sense="maximum")
        self.done.stall.append(
            Step("stall-margin", left, Message("step-stall-times", {"times": times}), "signed")
        )

    def _of_weight(self, found: Stall, weight: float) -> None:
        """Say that an aircraft is too heavy, and why a stall speed is not known."""
        maximum = self.chain.document.basis.weights[0]
        if weight > maximum:
            most: dict[str, Value] = {"maximum": _entered(maximum, self.manual.weight)}
            self.done.notes.append(Message("note-too-heavy", most))
        if found.known is not None:
            if math.isnan(found.shown) and not math.isnan(found.cas):
                self.done.notes.append(Message("note-stall-in-cas"))
        elif math.isnan(found.heaviest):
            flaps: dict[str, Value] = {"flaps": self.case.flaps}
            self.done.notes.append(Message("note-no-stall", flaps))
        elif found.heaviest < maximum or weight <= maximum:
            heaviest: dict[str, Value] = {"weight": _entered(found.heaviest, self.manual.weight)}
            self.done.notes.append(Message("note-no-stall-so-heavy", heaviest))

    def _stall_working(self, found: Stall, weight: float) -> Message | None:
        """Return the arithmetic of a stall speed."""
        if found.known is None:
            return None
        values: dict[str, Value] = {
            "vs": _entered(found.known.cas or 0.0, ""),
            "weight": _entered(weight, ""),
            "known": _entered(found.known.weight or 0.0, ""),
            "load": Quantity(kept(found.load), decimals=3),
            "cas": Quantity(kept(found.cas), self.manual.speed, decimals=1),
        }
        return Message("step-stall-working", values)

    def _fill(self, name: str, value: float) -> None:
        self.done.values[name] = None if math.isnan(value) else value + 0.0

    def _quantity(self, value: float) -> Quantity:
        return Quantity(kept(value), self.unit, decimals=1)

    def _step(
        self,
        name: str,
        value: float,
        reason: Message | None = None,
        form: str = "plain",
        formula: str = "",
        page: str = "",
        working: Message | None = None,
    ) -> None:
        quantity = None if math.isnan(value) else self._quantity(value)
        self.done.steps.append(Step(name, quantity, reason, form, formula, page, working))

    def _outside(self, what: str, subject: Quantity) -> None:
        """Note that the manual's tables do not reach a speed, and how far they reach."""
        values: dict[str, Value] = {"speed": subject, "setting": self._setting()}
        if self.table is None:
            self.done.notes.append(Message(f"note-{what}-no-table", values))
            return
        ends = (_entered(end, "") for end in (self.table.x[0], self.table.x[-1]))
        values |= dict(zip(("first", "last"), ends, strict=True))
        values["unit"] = Unit(self.manual.speed)
        bench = "-or-bench" if self.bench else ""
        self.done.notes.append(Message(f"note-{what}-outside{bench}", values))


def _working(curve: Curve | None, x: float, unit: str) -> Message | None:
    """Return the two rows of a curve that a value lies between, and the arithmetic.

    None where it stands at a row, or outside.
    """
    rows = rows_of(curve, x) if curve and not math.isnan(x) else None
    if curve is None or rows is None or rows[0] == rows[1]:
        return None
    values: dict[str, Value] = {
        name: _entered(values[row], "")
        for name, values, row in (
            ("x1", curve.x, rows[0]),
            ("y1", curve.y, rows[0]),
            ("x2", curve.x, rows[1]),
            ("y2", curve.y, rows[1]),
        )
    }
    values["x"] = _entered(kept(x), "")
    values["y"] = Quantity(kept(read(curve, x)), unit, decimals=1)
    return Message("step-working", values)


def _entered(value: float, unit: str) -> Quantity:
    return Quantity(kept(value), unit, entered=f"{value:g}")
