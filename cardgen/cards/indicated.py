"""Cells that say what the airspeed indicator of the aircraft will show."""

import math
from functools import partial

from cardgen.airframe.aircraft import NORMAL, Aircraft
from cardgen.airframe.limits import (
    highest_limit,
    limits_at,
    most_shown,
    not_widened,
    shown_limit,
)
from cardgen.cards.cells import (
    Inputs,
    as_entered,
    computed,
    entered,
    reading,
    source,
    taking,
)
from cardgen.definition.group import Group
from cardgen.definition.model import SpeedEntry, in_general, sense_of
from cardgen.definition.places import Figure, Span
from cardgen.document.once import Once
from cardgen.document.record import BLANK, Cell, Column, Input, Message, Quantity
from cardgen.document.rounding import Sense
from cardgen.units import convert


def differs(aircraft: Aircraft) -> bool:
    """Whether the indicator shows something else than the manual's IAS."""
    return (
        aircraft.indicator_unit != aircraft.units.speed
        or aircraft.definition.airframe.instrument_correction is not None
    )


def indicated_column(aircraft: Aircraft, name: str = "indicated") -> Column:
    """Return the column of what the indicator shows."""
    return Column(name, Message("column-ias"), aircraft.indicator_unit, main=True, shown=True)


def shown_at_ias(aircraft: Aircraft, ias: Figure, sense: Sense, kept_within: bool) -> Cell:
    """Return what the indicator shows at an IAS of the manual."""

    def shown(at: float) -> float:
        if kept_within:
            return not_widened(aircraft, at, sense)
        return float(aircraft.indicated_from_ias(at))

    own, high = aircraft.indicator_unit, shown(ias.high) if isinstance(ias, Span) else None
    inputs = (taking("ias", _speed_or_range(ias, aircraft), source(aircraft, ias)),)
    return computed(shown(float(ias)), own, "indicated-airspeed", inputs, sense, high=high)


def _speed_or_range(ias: Figure, aircraft: Aircraft) -> Quantity:
    if isinstance(ias, Span):
        return as_entered(ias, aircraft.units.speed)
    return speed(float(ias), aircraft)


def beyond_limit(aircraft: Aircraft, shown: float, cas: float, altitude: float, oat: float) -> bool:
    """Whether an airspeed is above a limit at an altitude, as the limit is printed."""
    air = partial(_limits, aircraft, altitude, oat)
    return any(
        cas > most_cas + _NOISE if math.isnan(most + shown) else shown > most + _NOISE
        for most_cas, most in _of_air.of(aircraft, air, altitude, oat)
    )


_NOISE = 1e-6  # documents keep six decimals
_of_air = Once[list[tuple[float, float]]]()  # an aircraft's tables and speeds have the same air


def _limits(aircraft: Aircraft, altitude: float, oat: float) -> list[tuple[float, float]]:
    """Return each limit that holds in some air: in CAS, and as the indicator shows it.

    Each holds by itself, also where another is not known. Where a bench card does not reach, the
    indicator may show no more than the manual says. What is not known is not a number.
    """
    found = []
    for limit in limits_at(aircraft, altitude, oat):
        most = most_shown(aircraft, limit)
        if limit.quantity == "ias" and math.isnan(most):
            most = float(convert(limit.value, aircraft.units.speed, aircraft.indicator_unit))
        found.append((limit.cas, most))
    return found


def beyond_at_any_altitude(
    aircraft: Aircraft, shown: float, flaps: str | None, gear: str = ""
) -> bool:
    """Whether an indication is above the limit at every altitude, or that of flaps or gear out."""
    limits = [highest_limit(aircraft)]
    if gear == "down":
        limits += [
            shown_limit(aircraft, entry, gear)
            for entry in in_general(aircraft.definition.speeds.get("VLE", []))
        ]
    if flaps not in (None, aircraft.flaps[0]):
        limits += [
            shown_limit(aircraft, entry)
            for entry in in_general(aircraft.definition.speeds.get("VFE", []))
            if entry.flaps == flaps
        ]
    return any(shown > limit + _NOISE for limit in limits)


def shown_as_entered(
    aircraft: Aircraft, ias: Figure, group: Group, sense: Sense, kept_within: bool = False
) -> Cell:
    """Return an IAS of the manual as entered, or what this indicator shows at it.

    Parameters
    ----------
    kept_within : bool
        Whether a bench card may only tighten it: for a maximum that was
        entered, and for VMC. All else goes through the tables as it is.
    """
    if not differs(aircraft):
        return entered(aircraft, ias, group, aircraft.indicator_unit, sense=sense)
    return shown_at_ias(aircraft, ias, sense, kept_within)


def at_cas(
    aircraft: Aircraft,
    cas: float,
    sense: Sense,
    formula: str,
    inputs: Inputs,
    flaps: str | None = None,
    static_source: str = NORMAL,
    gear: str = "",
) -> tuple[Cell, Cell]:
    """Return what the indicator shows at a computed CAS, and that CAS.

    The first is a dash where the calibration table or the bench card does not
    reach.
    """
    calibrated = computed(cas, aircraft.units.speed, formula, inputs, sense)
    if not math.isnan(cas) and all(one.name != "cas" for one in inputs):
        table = calibration_source(aircraft, flaps, static_source, gear)
        inputs = (*inputs, taking("cas", speed(cas, aircraft, 1), table))
    ias = aircraft.ias_from_cas(cas, flaps, static_source, gear)
    shown = float(aircraft.indicated_from_ias(ias))
    return computed(shown, aircraft.indicator_unit, formula, inputs, sense), calibrated


def speed(value: float, aircraft: Aircraft, decimals: int | None = None) -> Quantity:
    """Return a speed in the manual's unit as an input is read."""
    return reading(value, aircraft.units.speed, decimals)


def cas_input(aircraft: Aircraft, name: str, cas: float, entry: SpeedEntry) -> Input:
    """Return a V-speed in CAS as a formula takes it, from the figure that gives it."""
    figure = next((one for one in (entry.cas, entry.ias, entry.times_VS0) if one is not None), None)
    return taking(name, speed(cas, aircraft, None if entry.cas else 1), source(aircraft, figure))


def calibration_source(
    aircraft: Aircraft, flaps: str | None, static_source: str = NORMAL, gear: str = ""
) -> str:
    """Return the identifier that the figures of a calibration table begin with."""
    table = aircraft.calibration(flaps, static_source, gear)
    return source(aircraft, table.ias[0]).rsplit("/", 2)[0] if table else ""


def times_input(aircraft: Aircraft, entry: SpeedEntry) -> Input:
    """Return the multiple of VS0 that a V-speed is given as."""
    assert entry.times_VS0 is not None
    times = as_entered(entry.times_VS0, "")
    return taking("times-VS0", times, source(aircraft, entry.times_VS0))


def calibrated(aircraft: Aircraft, name: str, entry: SpeedEntry) -> Cell:
    """Return a V-speed in CAS: as the manual gives it, or by its calibration table."""
    sense = sense_of(name, entry)
    unit = aircraft.units.speed
    if entry.cas is not None:
        return entered(aircraft, entry.cas, entry, unit, sense=sense)
    flaps, gear = aircraft.flaps_of(name, entry), aircraft.gear_of(name, entry)
    if flaps is None:
        return BLANK
    value = aircraft.entry_cas(entry, flaps, gear)
    if entry.times_VS0 is not None:
        return computed(value, unit, "approach-speed", (times_input(aircraft, entry),), sense)
    if entry.ias is None:
        return BLANK
    return calibrated_at(aircraft, entry.ias, value, sense, flaps, gear)


def calibrated_at(
    aircraft: Aircraft, ias: Figure, cas: float, sense: Sense, flaps: str, gear: str
) -> Cell:
    """Return the CAS of an IAS of the manual, by the calibration table of its setting."""
    table = calibration_source(aircraft, flaps, NORMAL, gear)
    inputs = (
        taking("ias", _speed_or_range(ias, aircraft), table),
        taking("flaps", flaps),
        *gear_input(aircraft, flaps, gear),
    )
    high = None
    if isinstance(ias, Span):
        high = float(aircraft.cas_from_ias(float(ias.high), flaps, NORMAL, gear))
    return computed(cas, aircraft.units.speed, "calibrated-airspeed", inputs, sense, high=high)


def gear_input(aircraft: Aircraft, flaps: str, gear: str, source: str = NORMAL) -> Inputs:
    """Return the gear as a formula takes it, where a calibration table is for one gear only."""
    table = aircraft.calibration(flaps, source, gear)
    if table is None or not table.gear:
        return ()
    return (taking("gear", Message(f"gear-{table.gear}-only")),)
