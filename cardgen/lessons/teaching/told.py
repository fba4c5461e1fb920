"""What a drawing comes to where its sliders stand: reckoned as any case is.

`teaching.js` does the same where a reader moves a slider, to which tests hold it.
"""

from collections.abc import Callable, Mapping
from dataclasses import replace

import numpy as np

from cardgen.air import airspeed, atmosphere
from cardgen.document.record import Curve, Document, ErrorCurve, Message, Quantity, Value
from cardgen.document.rounding import kept, rounded
from cardgen.document.teaching import Told
from cardgen.lessons.lines import limit_message
from cardgen.lessons.reckoning import Case, Known, Reckoning, reckon
from cardgen.units import convert, convert_difference, from_si, to_si
from cardgen.words.english.lessons import WORDINGS

State = Mapping[str, float]
COURSE = 360.0
NOTHING = 0.05  # of a unit of speed: what is printed as none
_SAME = 1e-6  # documents keep six decimals
_POINTS = 13  # of a line of TAS
_SHUT = 1e-9  # of a unit of speed: a pointer at its stop


def told(document: Document, lesson: str, given: State, state: State) -> Told:
    """Return what the drawing of a lesson comes to.

    Parameters
    ----------
    document : Document
    lesson : str
    given : mapping
        What the lesson is reckoned from beside its sliders.
    state : mapping
        Where the sliders stand, by name.

    Raises
    ------
    OutOfBoundsError
        If the air or a speed is out of bounds.
    """
    return _TOLD[lesson](document, given, state)


def tas_line(document: Document, given: State, isa: float) -> tuple[float, ...]:
    """Return TAS at altitudes evenly from `low` to `high`, at a difference from standard."""
    head = document.head
    start = reckon(document, at(document, "ias", given["ias"], given["low"], isa))
    cas = to_si(start.values["calibrated_airspeed"] or 0.0, head.indicator_unit)
    heights = to_si(np.linspace(given["low"], given["high"], _POINTS), head.units.altitude)
    warmer = float(convert_difference(isa, head.units.temperature, "K"))
    air = atmosphere.pressure(heights), atmosphere.temperature(heights) + warmer
    tas = np.asarray(from_si(airspeed.tas_from_cas(cas, *air), head.indicator_unit))
    return tuple(kept(float(one)) for one in tas)


def shown_blocked(document: Document, given: State, gained: float) -> float:
    """Return what the pointer shows so far above where the static source was blocked."""
    unit, altitude = document.head.indicator_unit, document.head.units.altitude
    static, shut_in = (
        _pressure_at(given["altitude"] + gained, altitude),
        _pressure_at(given["altitude"], altitude),
    )
    cas = to_si(given["cas"], unit)
    return kept(float(from_si(airspeed.cas_with_blocked_static(cas, static, shut_in), unit)))


def at(document: Document, known: Known, speed: float, height: float, isa: float) -> Case:
    """Return a case of flight without flaps."""
    flaps = document.basis.flaps[0]
    return Case(known, speed, flaps, pressure_altitude=height, isa=isa)


def setting(document: Document, table: Curve | ErrorCurve) -> Message:
    """Return what a calibration table holds for."""
    if len(document.basis.flaps) == 1:
        return Message(f"told-source-{table.static_source}")
    values: dict[str, Value] = {"flaps": table.flaps}
    if not table.gear:
        return Message(f"step-setting-{table.static_source}", values)
    values["gear"] = Message(f"gear-{table.gear}")
    return Message(f"step-setting-{table.static_source}-gear", values)


def direction(degrees: float) -> Quantity:
    """Return a direction as pilots say it, in three digits; north is 360."""
    whole = rounded(kept(degrees)) % 360.0 or 360.0
    return Quantity(whole, "deg", entered=f"{whole:03.0f}")


def by_a_hectopascal(cas: float, unit: str) -> Quantity:
    """Return by how much one more hectopascal in the capsule moves the pointer."""
    impact = airspeed.impact_pressure_from_cas(to_si(cas, unit)) + to_si(1.0, "hPa")
    more = float(from_si(airspeed.cas_from_impact_pressure(impact), unit)) - cas
    return Quantity(kept(more), unit, decimals=1)


def _limits(done: Reckoning) -> tuple[Message, ...]:
    """Return the limits in force that a case passes."""
    known = WORDINGS.__contains__
    return tuple(limit_message(one, known) for one in done.passed if one.binding)


def _pressure_at(altitude: float, unit: str) -> float:
    return float(atmosphere.pressure(to_si(altitude, unit)))


def _hectopascals(pascals: float) -> Quantity:
    return Quantity(kept(float(from_si(pascals, "hPa"))), "hPa", decimals=1)


def _told_pressure(document: Document, given: State, state: State) -> Told:
    """Say what the openings feel at a CAS and an altitude."""
    unit, altitude = document.head.indicator_unit, document.head.units.altitude
    static = _pressure_at(state["altitude"], altitude)
    impact = float(airspeed.impact_pressure_from_cas(to_si(state["cas"], unit)))
    labels = {
        "total": _hectopascals(static + impact),
        "static": _hectopascals(static),
        "case": _hectopascals(static),
        "shown": Quantity(kept(state["cas"]), unit),
    }
    values: dict[str, Value] = {
        "cas": Quantity(kept(state["cas"]), unit),
        "altitude": Quantity(kept(state["altitude"]), altitude),
        "total": labels["total"],
        "static": labels["static"],
        "impact": _hectopascals(impact),
    }
    case = at(document, "cas", state["cas"], state["altitude"], 0.0)
    said = (Message("told-pressure", values), *_limits(reckon(document, case)))
    return Told(said, {"shown": (kept(state["cas"]),), "impact": (impact,)}, labels)


def _told_blocked(document: Document, given: State, state: State) -> Told:
    """Say what the pointer shows some way above or below where the static source was blocked."""
    unit, altitude = document.head.indicator_unit, document.head.units.altitude
    gained = state["gained"]
    shut_in = _pressure_at(given["altitude"], altitude)
    static = _pressure_at(given["altitude"] + gained, altitude)
    total = static + float(airspeed.impact_pressure_from_cas(to_si(given["cas"], unit)))
    shown = shown_blocked(document, given, gained)
    gap = shown - given["cas"]
    values: dict[str, Value] = {
        "altitude": Quantity(given["altitude"], altitude),
        "gained": Quantity(abs(gained), altitude),
        "cas": Quantity(given["cas"], unit),
        "shown": Quantity(shown, unit),
        "gap": Quantity(kept(abs(gap)), unit),
    }
    way = "higher" if gained > 0 else "lower" if gained < 0 else "level"
    said = Message("told-blocked-stop" if shown < _SHUT else f"told-blocked-{way}", values)
    labels = {
        "total": _hectopascals(total),
        "static": _hectopascals(static),
        "case": _hectopascals(shut_in),
        "shown": Quantity(shown, unit),
    }
    drawn = {"shown": (shown,), "impact": (max(total - shut_in, 0.0),)}
    return Told((said,), drawn, labels)


def _told_arcs(document: Document, given: State, state: State) -> Told:
    """Say in which arcs the pointer stands."""
    shown = state["shown"]
    speed = Quantity(kept(shown), document.head.indicator_unit)
    drawn = {"at": (kept(shown),)}
    markings = document.basis.markings
    assert markings is not None
    red = next((one for one in markings.lines if one.name == "red-line"), None)
    if red is not None and shown > red.at + _SAME:
        return Told((Message("told-above-red", {"speed": speed}),), drawn)
    limits = _limits(reckon(document, Case("ias", shown, document.basis.flaps[0])))
    arcs = [one for one in markings.arcs if one.low - _SAME <= shown <= one.high + _SAME]
    if not arcs:
        return Told((Message("told-no-arc", {"speed": speed}), *limits), drawn)
    names = tuple(Message(f"drawing-{one.name}") for one in arcs)
    how = "told-arc" if len(arcs) == 1 else "told-arcs"
    meanings = tuple(Message(f"told-in-{one.name}") for one in arcs)
    return Told((Message(how, {"speed": speed, "arcs": names}), *meanings, *limits), drawn)


def _told_position(document: Document, given: State, state: State) -> Told:
    """Say what CAS an IAS is with flaps and a static source."""
    table = document.basis.calibration[round(state.get("setting", 0.0))]
    holds_for = table.flaps, table.static_source
    done = reckon(document, Case("ias", state["ias"], *holds_for, gear=table.gear))
    unit = document.head.indicator_unit
    cas = done.values["calibrated_airspeed"]
    if cas is None:
        notes = [one for one in done.notes if one.id.startswith("note-indicated")]
        return Told(tuple(notes), {"at": ()})
    gap = cas - state["ias"]
    way = "none" if abs(gap) < NOTHING else "little" if gap > 0 else "much"
    values: dict[str, Value] = {
        "setting": setting(document, table),
        "ias": Quantity(kept(state["ias"]), unit),
        "cas": Quantity(kept(cas), unit, decimals=1),
        "gap": Quantity(kept(abs(gap)), unit, decimals=1),
    }
    by = Message("told-hectopascal", {"by": by_a_hectopascal(cas, unit)})
    said = Message(f"told-position-{way}", values), by, *_limits(done)
    return Told(said, {"at": (kept(state["ias"]), kept(gap))})


def _told_true(document: Document, given: State, state: State) -> Told:
    """Say what TAS an IAS is at an altitude and temperature."""
    head = document.head
    height, isa = state["altitude"], state["isa"]
    done = reckon(document, at(document, "ias", given["ias"], height, isa))
    cas, tas = done.values["calibrated_airspeed"] or 0.0, done.values["true_airspeed"] or 0.0
    more = 100 * (tas / cas - 1)
    feet = float(convert(height, head.units.altitude, "ft"))
    standard = atmosphere.temperature(to_si(height, head.units.altitude))
    oat = float(from_si(standard, head.units.temperature)) + isa
    values: dict[str, Value] = {
        "ias": Quantity(kept(given["ias"]), head.indicator_unit),
        "cas": Quantity(kept(cas), head.indicator_unit, decimals=1),
        "altitude": Quantity(kept(height), head.units.altitude),
        "oat": Quantity(kept(oat), head.units.temperature),
        "tas": Quantity(kept(tas), head.indicator_unit, decimals=1),
        "more": Quantity(kept(abs(more)), decimals=1),
        "density": Quantity(kept(done.values["density_altitude"] or 0.0), head.units.altitude),
        "thumb": Quantity(kept(cas * (1 + 0.02 * feet / 1000)), head.indicator_unit),
    }
    said = (
        Message("told-true" if more >= 0 else "told-true-less", values),
        Message("told-thumb", values),
        *_limits(done),
    )
    drawn = {
        "curve": tas_line(document, given, isa),
        "at": (kept(tas), kept(height)),
        "cas": (kept(cas),),
    }
    label = Message("told-label-tas", {"tas": Quantity(kept(tas), head.indicator_unit)})
    return Told(said, drawn, {"tas": label})


def _told_wind(document: Document, given: State, state: State) -> Told:
    """Say what a wind leaves of TAS along the course."""
    unit = document.head.indicator_unit
    case = at(document, "ias", given["ias"], given["altitude"], given["isa"])
    case = replace(case, wind=(state["from"], state["wind"]), course=COURSE)
    values = reckon(document, case).values
    tas, ground = values["true_airspeed"] or 0.0, values["ground_speed"] or 0.0
    head, cross = values["headwind"] or 0.0, values["crosswind"] or 0.0
    labels = {
        "ground": Quantity(kept(ground), unit),
        "heading": direction(values["heading"] or 0.0),
    }
    said: dict[str, Value] = {
        **labels,
        "tas": Quantity(kept(tas), unit),
        "wind": Quantity(kept(state["wind"]), "kt"),
        "course": direction(COURSE),
        "from": direction(state["from"]),
        "along": Quantity(kept(abs(head)), unit),
        "across": Quantity(kept(abs(cross)), unit),
    }
    along = "head" if head >= 0 else "tail"
    side = "right" if cross >= 0 else "left"
    parts = Message(f"told-wind-{along}-{side}", said)
    return Told(
        (Message("told-wind", said), parts),
        {"air": (kept(cross), kept(ground + head)), "ground": (kept(ground),)},
        {
            **labels,
            **{name: Message(f"told-label-{name}", said) for name in ("air", "along", "wind")},
        },
    )


_TOLD: dict[str, Callable[[Document, State, State], Told]] = {
    "pressure": _told_pressure,
    "blocked": _told_blocked,
    "arcs": _told_arcs,
    "position": _told_position,
    "true": _told_true,
    "wind": _told_wind,
}
