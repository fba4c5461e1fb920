"""Figures that no aircraft of the kind has: against its stall speed, its weight, and each other."""

import itertools
import math
from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from cardgen.airframe.aircraft import Aircraft
from cardgen.airframe.gliding import ratio_of
from cardgen.checks.figures import place_of
from cardgen.checks.rule import COMMON_PRACTICE, Severity, Told, about, digits, entered, rule, tell
from cardgen.definition.cruise import Cruise, air_column, cell_at, set_at
from cardgen.definition.model import SpeedEntry, distance_unit, in_general
from cardgen.definition.places import Figure
from cardgen.document.record import Unit
from cardgen.units import AIRSPEED_UNITS, convert, to_si

# How many times the stall speed, flaps up, a speed is in CAS: common practice, and wide.
_TIMES = {
    "VR": (0.90, 1.35),
    "VX": (1.05, 1.55),
    "VXSE": (1.10, 1.50),
    "VY": (1.10, 2.00),
    "VYSE": (1.15, 1.75),
    "VSSE": (1.05, 1.50),
    "VMC": (0.80, 1.30),
    "VREF": (0.90, 1.45),
    "best glide": (1.10, 1.75),
    "VA": (1.65, 2.75),
    "VO": (1.65, 2.30),
    "VB": (1.70, 2.40),
    "VFE": (1.30, 2.65),
    "VLO": (1.45, 2.75),
    "VLE": (1.75, 2.75),
    "VRA": (1.80, 2.90),
    "VNO": (1.95, 2.95),
    "VNE": (2.20, 4.00),
    "approach": (1.10, 1.65),
    "minimum sink": (1.00, 1.35),
    "VW": (1.35, 2.00),
    "VT": (1.60, 2.50),
    "winch minimum": (1.10, 1.45),
    "aerotow minimum": (1.15, 1.60),
}
_ANY = (0.0, math.inf)  # of a kind that nothing is known of
_STALLS = {  # kt CAS, flaps up
    "single-engine": (27, 80),
    "multi-engine": (42, 95),
    "turbine": (42, 110),
    "glider": (27, 56),
}


def _clean(aircraft: Aircraft) -> float:
    """Return the stall speed with flaps up, in CAS, or else in IAS."""
    entry = aircraft.stall_entries.get(aircraft.flaps[0])
    if entry is None:
        return math.nan
    cas = aircraft.entry_cas(entry)
    return cas if cas == cas or entry.ias is None else float(entry.ias)


def _reckoned(aircraft: Aircraft, name: str, entry: SpeedEntry) -> float:
    """Return a speed in CAS, or where its table does not reach in IAS, at the maximum weight."""
    if entry.tas is not None or entry.mach is not None:
        return math.nan
    speed = aircraft.entry_cas(entry, aircraft.flaps_of(name, entry), aircraft.gear_of(name, entry))
    if speed != speed and entry.ias is not None:
        speed = float(entry.ias)
    return speed / math.sqrt(aircraft.weight_of(entry) / aircraft.maximum_weight)


@rule("speed-of-a-kind", Severity.WARNING, "look-speeds", COMMON_PRACTICE)
def speeds_are_plausible_against_the_stall(aircraft: Aircraft) -> Iterator[Told]:
    """A speed is as many times the stall speed as such speeds are, or in another unit."""
    clean = _clean(aircraft)
    for name, (low, high) in _TIMES.items():
        entries = in_general(aircraft.definition.speeds.get(name, []))
        falling = name == "VNE" and any(entry.altitude is not None for entry in entries)
        for entry in entries if not falling else entries[:1]:
            times = _reckoned(aircraft, name, entry) / clean
            if times == times and not low <= times <= high:
                unit = _unit_that_fits(aircraft, times, low, high)
                yield tell(
                    place_of(entry),
                    "finding-speed-of-a-kind-unit" if unit else "finding-speed-of-a-kind",
                    speed=name,
                    times=about(times, 2),
                    low=digits(low),
                    high=digits(high),
                    **({"unit": Unit(unit)} if unit else {}),
                )


def _unit_that_fits(aircraft: Aircraft, times: float, low: float, high: float) -> str | None:
    """Return the unit in which a figure would be plausible: nearest to the middle."""
    if 0.92 * low < times < 1.08 * high:
        return None
    own = aircraft.units.speed
    fitting = {
        unit: value
        for unit in AIRSPEED_UNITS
        if unit != own and low <= (value := float(convert(times, unit, own))) <= high
    }
    return min(fitting, key=lambda unit: abs(fitting[unit] - (low + high) / 2), default=None)


@rule("stall-of-a-kind", Severity.WARNING, "look-units", COMMON_PRACTICE)
def the_stall_speed_fits_the_kind(aircraft: Aircraft) -> Iterator[Told]:
    """The stall speed is one that the kind of aircraft has, in the manual's unit."""
    low, high = _STALLS.get(aircraft.kind, _ANY)
    knots = float(convert(_clean(aircraft), aircraft.units.speed, "kt"))
    entry = aircraft.stall_entries.get(aircraft.flaps[0])
    if entry is not None and knots == knots and not low <= knots <= high:
        yield tell(
            place_of(entry),
            "finding-stall-of-a-kind",
            knots=about(knots),
            low=about(low),
            high=about(high),
            kind=aircraft.kind,
        )


@rule(
    "load-factor", Severity.WARNING, "look-limitations", "14 CFR 23.335(c) and 23.337, before 23-64"
)
def manoeuvring_speed_meets_the_load_factor(aircraft: Aircraft) -> Iterator[Told]:
    """VA and VO are not far below the stall speed times the root of the limit load factor."""
    # 3.8 in the normal category up to 4,118 lb, less above; 5.3 in the utility one for gliders
    pounds = float(convert(float(aircraft.maximum_weight), aircraft.units.weight, "lb"))
    factor = 5.3 if aircraft.kind == "glider" else min(3.8, 2.1 + 24_000 / (pounds + 10_000))
    clean = _clean(aircraft)
    wanted = clean * math.sqrt(factor)
    for name in ("VA", "VO"):
        for entry in in_general(aircraft.definition.speeds.get(name, [])):
            found = _reckoned(aircraft, name, entry)
            if found < 0.87 * wanted and found / clean >= _TIMES[name][0]:
                yield tell(
                    place_of(entry),
                    "finding-load-factor",
                    speed=name,
                    cas=about(found),
                    expected=about(wanted),
                    factor=about(factor, 1),
                )
                break  # the others follow from it


@rule("rotation", Severity.WARNING, "look-speeds", "14 CFR 23.51, before 23-64 (from memory)")
def take_off_is_above_the_minimum_control_speed(aircraft: Aircraft) -> Iterator[Told]:
    """VR is at or above 1.05 VMC, and VREF no more than a little below VMC."""
    controls = [
        (_reckoned(aircraft, "VMC", entry), entry)
        for entry in aircraft.definition.speeds.get("VMC", [])
    ]
    for name, times in (("VR", 1.05), ("VREF", 0.95)):
        for entry in aircraft.definition.speeds.get(name, []):
            speed = aircraft.entry_cas(entry, aircraft.flaps_of(name, entry))
            for control, _ in controls:
                if speed < times * control - 2:
                    yield tell(
                        place_of(entry),
                        "finding-rotation",
                        speed=name,
                        cas=about(speed),
                        control=about(control),
                    )


# -- glide, crosswind ------------------------------------------------------------------------------


@rule("glide-of-a-kind", Severity.WARNING, "look-glide-speeds", COMMON_PRACTICE)
def the_glide_fits_the_kind(aircraft: Aircraft) -> Iterator[Told]:
    """A glide is 6 to 18 of distance to height; a glider's 15 to 70."""
    low, high = (15, 70) if aircraft.kind == "glider" else (6, 18)
    for glide in aircraft.definition.type.glide:
        ratio = ratio_of(aircraft, glide)
        if not low <= ratio <= high:
            figure = glide.ratio if glide.ratio is not None else glide.distance
            assert figure is not None
            yield tell(
                figure.place,
                "finding-glide-of-a-kind",
                ratio=digits(ratio, 3),
                low=about(low),
                high=about(high),
                kind=aircraft.kind,
            )


@rule("glide-sink", Severity.WARNING, "look-glide-speeds", "sink is airspeed over glide ratio")
def a_glide_and_its_sink_agree(aircraft: Aircraft) -> Iterator[Told]:
    """Airspeed over sink is the glide ratio, within 12 %; the speed is that of best glide."""
    for glide in aircraft.definition.type.glide:
        if glide.sink is None:
            continue
        speed = float(glide.cas or glide.ias or 0.0)
        for entry in aircraft.definition.speeds.get("best glide", []) if not speed else ():
            if entry.weight == glide.weight or not speed:
                speed = _reckoned(aircraft, "best glide", entry)
        down = float(to_si(float(glide.sink), aircraft.units.sink or "m/s"))
        ratio = float(to_si(speed, aircraft.units.speed)) / down
        if speed == speed and speed > 0 and abs(ratio / ratio_of(aircraft, glide) - 1) > 0.12:
            yield tell(
                glide.sink.place,
                "finding-glide-sink",
                sink=entered(glide.sink, aircraft.units.sink or ""),
                ratio=digits(ratio, 3),
                given=digits(ratio_of(aircraft, glide), 3),
            )


@rule(
    "polar-glide", Severity.WARNING, "look-glide-speeds", "the best glide is where V over sink is"
)
def a_polar_gives_the_glide(aircraft: Aircraft) -> Iterator[Told]:
    """The best ratio of airspeed to sink in a polar is the glide ratio, within 15 %."""
    given = [ratio_of(aircraft, glide) for glide in aircraft.definition.type.glide]
    for polar in aircraft.definition.type.polar if given else ():
        name = next((key for key in ("tas", "cas", "ias") if key in polar.rows), "ias")
        if polar.flaps not in (None, aircraft.flaps[0]) and name == "ias":
            continue
        speed = np.asarray(to_si(np.array(polar.rows[name], dtype=float), aircraft.units.speed))
        sink = np.asarray(to_si(np.array(polar.sink, dtype=float), aircraft.units.sink or "m/s"))
        best = float((speed / sink).max())
        if not any(0.87 <= best / one <= 1.15 for one in given):
            yield tell(
                polar.place_of("sink"),
                "finding-polar-glide",
                best=digits(best, 3),
                given=digits(max(given), 3),
            )


@rule("crosswind-of-a-kind", Severity.WARNING, "look-limitations", "14 CFR 23.233(a), before 23-64")
def the_crosswind_is_plausible(aircraft: Aircraft) -> Iterator[Told]:
    """A crosswind that was demonstrated is 0.15 to 0.6 of the stall speed."""
    wind = aircraft.definition.type.crosswind
    if wind is None:
        return
    unit = wind.unit or aircraft.units.speed
    share = float(convert(float(wind.demonstrated), unit, aircraft.units.speed)) / _clean(aircraft)
    if share == share and not 0.14 <= share <= 0.6:
        yield tell(
            wind.demonstrated.place,
            "finding-crosswind-of-a-kind",
            wind=entered(wind.demonstrated, unit),
            share=about(share, 2),
        )


# -- cruise ----------------------------------------------------------------------------------------

_COLUMNS = {"rpm": (500, 8_000), "manifold pressure": (11, 55), "power": (28, 110)}


@rule("column-of-a-kind", Severity.WARNING, "look-cruise", COMMON_PRACTICE)
def columns_hold_what_they_say(aircraft: Aircraft) -> Iterator[Told]:
    """RPM, manifold pressure and power are such as engines have; TAS is no less than IAS aloft."""
    for cruise in aircraft.definition.cruise:
        for name, (low, high) in _COLUMNS.items():
            cells = _column(cruise, name)
            odd = [cell for cell in cells if not low <= cell <= high]
            if odd:
                yield tell(
                    odd[0].place,
                    "finding-column-of-a-kind",
                    column=name,
                    here=entered(odd[0]),
                    low=digits(low),
                    high=digits(high),
                )


def _column(cruise: Cruise, name: str) -> list[Figure]:
    if name not in cruise.columns:
        return []
    cells = (cell_at(cruise, row, name) for row in cruise.rows)
    return [cell for cell in cells if cell is not None]


_KILOGRAMS = {"gal/h": 2.73, "L/h": 0.72, "lb/h": 0.4536, "kg/h": 1.0}  # petrol, an hour
_HOURS = {  # that the maximum weight in fuel would last at the most power: common practice, wide
    "single-engine": (22, 92),
    "multi-engine": (18, 58),
    "turbine": (13, 41),
    "glider": (50, 160),
}


class _Fuel(NamedTuple):
    """How much fuel a row of a cruise table takes, and in what units."""

    flow: Figure
    weight: float
    flow_unit: str
    weight_unit: str

    def fits(self, kind: str) -> bool:
        """Whether it is what the kind of aircraft takes, by its weight."""
        kilograms = float(convert(self.weight, self.weight_unit, "kg"))
        low, high = _HOURS.get(kind, _ANY)
        return low <= kilograms / (self.flow * _KILOGRAMS[self.flow_unit]) <= high

    @property
    def otherwise(self) -> Iterator[tuple[str, "_Fuel"]]:
        """The same in other units, with what is another."""
        yield from ((unit, self._replace(flow_unit=unit)) for unit in _KILOGRAMS)
        yield from ((unit, self._replace(weight_unit=unit)) for unit in ("kg", "lb"))


@rule("fuel-by-weight", Severity.WARNING, "look-units", COMMON_PRACTICE)
def fuel_flow_fits_the_weight(aircraft: Aircraft) -> Iterator[Told]:
    """Power, and so fuel flow, goes with weight."""
    maximum, units = aircraft.maximum_weight, aircraft.units
    for cruise in aircraft.definition.cruise if units.fuel_flow else ():
        rows = [(f, t) for f, t in _flows(cruise) if f > 0]
        if not rows:
            continue
        flow, tas = max(rows)
        fuel = _Fuel(flow, float(maximum), units.fuel_flow or "", units.weight)
        if not fuel.fits(aircraft.kind):
            likely = [unit for unit, one in fuel.otherwise if one.fits(aircraft.kind)]
            yield tell(
                flow.place,
                "finding-fuel-by-weight-unit" if likely else "finding-fuel-by-weight",
                flow=entered(flow, fuel.flow_unit),
                weight=entered(maximum, units.weight),
                tas=entered(tas),
                **({"unit": Unit(likely[0])} if likely else {}),
            )
            return


def _flows(cruise: Cruise) -> list[tuple[Figure, Figure]]:
    if "fuel flow" not in cruise.columns:
        return []
    cells = [(cell_at(cruise, r, "fuel flow"), cell_at(cruise, r, "tas")) for r in cruise.rows]
    return [(flow, tas) for flow, tas in cells if flow is not None and tas is not None]


@rule("cruise-range", Severity.WARNING, "look-cruise", "distance is speed times time")
def range_is_speed_times_endurance(aircraft: Aircraft) -> Iterator[Told]:
    """Range is TAS times endurance, less what the climb takes: 0.8 to 1.1 of it."""
    unit = distance_unit(aircraft.units)
    for cruise in aircraft.definition.cruise:
        if not {"range", "endurance", "tas"} <= {*cruise.columns} or not unit:
            continue
        for row in cruise.rows:
            far, hours, tas = (cell_at(cruise, row, n) for n in ("range", "endurance", "tas"))
            if far is None or hours is None or tas is None or not hours:
                continue
            speed = to_si(float(tas), cruise.tas_unit or aircraft.units.speed)
            share = float(to_si(float(far), unit) / (speed * hours * 3600))
            if not 0.8 <= share <= 1.1:
                yield tell(
                    far.place,
                    "finding-cruise-range",
                    far=entered(far, unit),
                    tas=entered(tas),
                    hours=entered(hours),
                )
                return  # one row tells of all


@rule("cruise-unit", Severity.WARNING, "look-units", "1 kt = 1.1508 mph = 1.852 km/h, NIST SP 811")
def cruise_is_not_far_above_vno(aircraft: Aircraft) -> Iterator[Told]:
    """The fastest cruise is no more than 6 % above VNO or VMO in CAS: more is in another unit."""
    speeds = aircraft.definition.speeds
    ends = [aircraft.entry_cas(e) for name in ("VNO", "VMO") for e in speeds.get(name, [])]
    most = 1.06 * max((one for one in ends if one == one), default=math.inf)
    for cruise in aircraft.definition.cruise if most < math.inf else ():
        rows = [row for row in cruise.rows if cell_at(cruise, row, "tas") is not None]
        tas = np.array([cell_at(cruise, row, "tas") for row in rows], dtype=float)
        heights = np.array([set_at(cruise, row, "altitude") for row in rows], dtype=float)
        own = convert(tas, cruise.tas_unit or aircraft.units.speed, aircraft.units.speed)
        standard = aircraft.standard_temperature(heights)
        cas = np.asarray(aircraft.cas_from_tas(own, heights, standard))
        if len(rows) and float(np.nanmax(cas, initial=0.0)) > most:
            figure = cell_at(cruise, rows[int(np.nanargmax(cas))], "tas")
            assert figure is not None
            yield tell(
                figure.place,
                "finding-cruise-unit",
                tas=entered(figure),
                cas=about(float(np.nanmax(cas))),
                most=about(most),
            )


@rule("cruise-altitude", Severity.WARNING, "look-units", COMMON_PRACTICE)
def cruise_is_flown_as_high_as_the_kind_can(aircraft: Aircraft) -> Iterator[Told]:
    """Piston engines cruise below 8,000 m, and below the maximum operating altitude."""
    limit = aircraft.definition.type.maximum_operating_altitude
    for cruise in aircraft.definition.cruise:
        highest = max(set_at(cruise, row, "altitude") for row in cruise.rows)
        feet = float(convert(float(highest), aircraft.units.altitude, "ft"))
        most = 51_000 if aircraft.kind == "turbine" else 26_000
        if feet > most or (limit is not None and highest > limit.altitude):
            yield tell(
                highest.place,
                "finding-cruise-altitude",
                highest=entered(highest, aircraft.units.altitude),
                kind=aircraft.kind,
            )


@rule("temperature-unit", Severity.WARNING, "look-units", "ICAO Doc 7488, standard atmosphere")
def temperatures_fit_the_standard_atmosphere(aircraft: Aircraft) -> Iterator[Told]:
    """Outside air temperatures of a cruise table lie within 35 of standard air, in Celsius."""
    for cruise in aircraft.definition.cruise:
        if air_column(cruise) != "oat":
            continue
        rows = cruise.rows
        oats = np.array([set_at(cruise, row, "oat") for row in rows], dtype=float)
        heights = np.array([set_at(cruise, row, "altitude") for row in rows], dtype=float)
        standard = np.asarray(aircraft.standard_temperature(heights))
        apart = (oats - standard) / (1.8 if aircraft.units.temperature == "F" else 1.0)
        worst = int(np.abs(apart).argmax())
        if abs(apart[worst]) > 45 or (abs(float(apart.mean())) > 22 and np.ptp(apart) > 5):
            figure = set_at(cruise, rows[worst], "oat")
            yield tell(
                figure.place,
                "finding-temperature-unit",
                oat=entered(figure, aircraft.units.temperature),
                standard=about(float(standard[worst])),
            )


# -- stall -----------------------------------------------------------------------------------------


@rule("stall-row", Severity.WARNING, "look-stall", "FAA-H-8083-25B, chapter 5, load factors")
def stalls_by_bank_come_of_one_speed(aircraft: Aircraft) -> Iterator[Told]:
    """Some stall speed without bank gives all CAS of a row, each rounded to its last place."""
    stall = aircraft.definition.stall
    for row in stall.rows if stall else ():
        assert stall is not None
        if row.cas is None or len(row.cas) < 3:
            continue
        roots = [math.cos(math.radians(bank)) ** 0.5 for bank in stall.bank]
        level = [cas * root for cas, root in zip(row.cas, roots, strict=True)]
        middle = sorted(level)[len(level) // 2]
        for cas, root in zip(row.cas, roots, strict=True):
            if abs(cas - middle / root) > 0.7 + 0.5 / root:
                yield tell(
                    cas.place,
                    "finding-stall-row",
                    cas=entered(cas),
                    expected=about(middle / root),
                )


@rule("stall-rises", Severity.WARNING, "look-stall", "FAA-H-8083-25B, chapter 5, load factors")
def stalls_rise_with_bank(aircraft: Aircraft) -> Iterator[Told]:
    """IAS at the stall rises with bank, by the root of the load factor, about.

    It rises by more where IAS is below CAS at the stall, which it nears: with that printed beside
    it as far as to it, else by a fifth.
    """
    stall = aircraft.definition.stall
    for row in stall.rows if stall else ():
        assert stall is not None
        for less, more in itertools.pairwise(row.ias or ()):
            if more < less:
                yield tell(more.place, "finding-stall-rises", ias=entered(more), less=entered(less))
        for ias, bank in zip(row.ias or (), stall.bank, strict=False):
            assert row.ias is not None
            root = math.sqrt(math.cos(math.radians(stall.bank[0])) / math.cos(math.radians(bank)))
            wanted, rounding = row.ias[0] * root, 0.5 + 0.5 * root
            most = 1.03 * max(row.cas[0] / row.ias[0], 1.0) if row.cas else 1.2
            if not 0.97 * wanted - rounding <= ias <= most * wanted + rounding:
                yield tell(
                    ias.place,
                    "finding-stall-ias-by-bank",
                    ias=entered(ias),
                    bank=entered(bank, "deg"),
                    expected=about(wanted),
                )


@rule("bank-round", Severity.WARNING, "look-stall", COMMON_PRACTICE)
def banks_are_round(aircraft: Aircraft) -> Iterator[Told]:
    """A stall table whose other banks are multiples of 5 has no bank that is not."""
    stall = aircraft.definition.stall
    odd = [bank for bank in stall.bank if bank % 5] if stall else []
    if stall and len(odd) == 1 and len(stall.bank) > 3:
        yield tell(odd[0].place, "finding-bank-round", bank=entered(odd[0], "deg"))


@rule("stall-by-weight", Severity.WARNING, "look-stall", "FAA-H-8083-25B, chapter 5")
def stalls_at_two_weights_follow_the_root(aircraft: Aircraft) -> Iterator[Told]:
    """Stall speeds of one setting at two weights are in the ratio of their roots, within 4 %."""
    stall = aircraft.definition.stall
    first: dict[tuple[str, str, str], tuple[Figure, Figure]] = {}
    for row in stall.rows if stall else ():
        assert stall is not None
        for key in ("ias", "cas"):
            figures, weight = getattr(row, key), stall.weight_of(row)
            if not figures:
                continue
            known, at = first.setdefault(
                (key, row.flaps or "", row.gear or ""), (figures[0], weight)
            )
            wanted = known * math.sqrt(weight / at)
            if abs(figures[0] - wanted) > max(1.5, 0.04 * wanted):
                yield tell(
                    figures[0].place,
                    "finding-stall-by-weight",
                    measure=key.upper(),
                    stall=entered(figures[0]),
                    expected=about(wanted),
                    weight=entered(weight, aircraft.units.weight),
                )
