"""The command ``reckon``: one airspeed worked from IAS to ground speed, or back."""

import argparse
import json
import re

from cardgen.air import atmosphere
from cardgen.airframe.aircraft import ALTERNATE, NORMAL, Aircraft
from cardgen.cards.card import make_document, reckonable
from cardgen.commands import MisuseError
from cardgen.commands.asked import (
    add_definitions,
    airspeed,
    direction,
    found_in,
    number,
    setting,
    within,
)
from cardgen.definition.fleet import read_fleet
from cardgen.definition.shown import escaped
from cardgen.document.record import Head, Quantity
from cardgen.document.rounding import kept
from cardgen.lessons.altimeter import Altimeter
from cardgen.lessons.lines import Line, limit_passed, line
from cardgen.lessons.reckoning import KNOWN, Case, Reckoning, Step, reckon
from cardgen.review.marks import card_mark
from cardgen.units import convert, from_si, to_si
from cardgen.words.english import ENGLISH


def add_options(command: argparse.ArgumentParser) -> None:
    """Add what the command may be asked."""
    command.description = (
        "Work one airspeed from IAS through to the ground, or back to IAS. Airspeeds are in the "
        "indicator's unit, altitude and temperature in the manual's, wind in knots."
    )
    command.add_argument("registration", metavar="REGISTRATION")
    speed = command.add_mutually_exclusive_group(required=True)
    for name, what in (("ias", "IAS: what the pointer shows"), ("cas", "CAS"), ("tas", "TAS")):
        speed.add_argument(f"--{name}", type=airspeed, metavar="SPEED", help=what)
    command.add_argument("--flaps", help="flap setting (default: retracted)")
    command.add_argument("--gear", choices=("up", "down"), help="landing gear, where it retracts")
    command.add_argument("--static-source", choices=(NORMAL, ALTERNATE), default=NORMAL)
    height = command.add_mutually_exclusive_group()
    height.add_argument("--altitude", type=number, help="what the altimeter shows; with --qnh")
    height.add_argument("--pressure-altitude", type=number, metavar="ALTITUDE")
    command.add_argument("--qnh", type=setting, help="altimeter setting: 29.92 or 1013")
    warmth = command.add_mutually_exclusive_group()
    warmth.add_argument("--oat", type=number, help="outside air temperature")
    warmth.add_argument("--isa", type=number, metavar="DEVIATION", help="difference from standard")
    command.add_argument(
        "--wind", metavar="FROM/SPEED", help="such as 240/18, in knots, or 240/20mph; with --course"
    )
    command.add_argument("--course", type=direction, metavar="DEGREES")
    command.add_argument("--weight", type=number, help="in the manual's unit: for the stall")
    command.add_argument(
        "--bank", type=number, default=0.0, metavar="DEGREES", help="for the stall"
    )
    command.add_argument("--json", action="store_true", help="print unrounded values as JSON")
    add_definitions(command, option=True)
    command.set_defaults(run=run)


def run(options: argparse.Namespace) -> None:
    """Print the working that is asked for, as lines or as JSON."""
    fleet = read_fleet(options.definitions)
    aircraft = Aircraft(found_in(fleet, options.registration))
    document = reckonable(aircraft, fleet.school)
    worked = reckon(document, _case(options, aircraft))
    if options.json:
        mark = card_mark(make_document(aircraft, fleet.school))
        print(json.dumps(_as_json(document.head, mark, worked), indent=1, ensure_ascii=False))
    else:
        _print_steps(document.head, worked)


def _as_json(head: Head, mark: str, worked: Reckoning) -> dict[str, object]:
    """Return a working for programs: what was found, by what formula, from which page."""
    steps = [
        {
            "step": one.id,
            "value": one.quantity.value if one.quantity else None,
            "unit": one.quantity.unit if one.quantity else "",
            "formula": one.formula,
            "page": one.page,
            "working": ENGLISH.text(one.working),
        }
        for one in (*worked.altimeter, *worked.steps, *worked.stall)
    ]
    limits = [
        {
            "limit": one.speed,
            "value": one.limit.value,
            "unit": one.limit.unit,
            "binding": one.binding,
            "said": limit_passed(ENGLISH, one),
        }
        for one in worked.passed
    ]
    return {
        "registration": head.registration,
        "mark": mark,
        **worked.values,
        "units": {**worked.units, "wind": "kt"},
        "steps": steps,
        "limits": limits,
        "notes": list(map(ENGLISH.say, worked.notes)),
    }


def _case(options: argparse.Namespace, aircraft: Aircraft) -> Case:
    known = next(name for name in KNOWN if getattr(options, name) is not None)
    flaps = options.flaps if options.flaps is not None else aircraft.flaps[0]
    if flaps not in aircraft.flaps:
        raise MisuseError(f"--flaps {flaps}: expected one of {', '.join(aircraft.flaps)}")
    altitude = _pressure_altitude(options, aircraft)
    oat = _temperature(options, aircraft, altitude)  # by the altimeter as it is, near enough
    if known == "tas" and (altitude is None or oat is None):
        raise MisuseError("--tas needs an altitude and a temperature to work back from")
    if (options.wind is None) != (options.course is None):
        raise MisuseError("--wind and --course go together")
    wind = _wind(options.wind) if options.wind is not None else None
    return Case(
        known,
        getattr(options, known),
        flaps,
        options.static_source,
        options.pressure_altitude,
        options.oat,
        wind,
        options.course,
        options.gear or "",
        _altimeter(options),
        options.isa,
        _weight(options, aircraft),
        options.bank,
    )


def _weight(options: argparse.Namespace, aircraft: Aircraft) -> float | None:
    """Return a weight to stall at; in a bank that of the maximum, where none is said."""
    if not 0 <= options.bank <= 80:
        raise MisuseError(f"--bank {options.bank:g}: expected from 0 to 80 degrees")
    if options.weight is None:
        return float(aircraft.maximum_weight) if options.bank else None
    if options.weight <= 0:
        raise MisuseError(f"--weight {options.weight:g}: expected more than 0")
    return float(options.weight)


def _altimeter(options: argparse.Namespace) -> Altimeter | None:
    if options.altitude is None:
        return None
    setting = float(to_si(options.qnh, "inHg" if options.qnh < 100 else "hPa"))
    return Altimeter(options.altitude, setting)


def _pressure_altitude(options: argparse.Namespace, aircraft: Aircraft) -> float | None:
    if (options.altitude is None) != (options.qnh is None):
        raise MisuseError("--altitude and --qnh go together; or give --pressure-altitude")
    if options.altitude is None:
        return None if options.pressure_altitude is None else float(options.pressure_altitude)
    unit, altimeter = aircraft.units.altitude, _altimeter(options)
    assert altimeter is not None
    shown = to_si(altimeter.shown, unit)
    metres = atmosphere.pressure_altitude_from_setting(shown, altimeter.setting)
    return float(from_si(metres, unit))


def _temperature(
    options: argparse.Namespace, aircraft: Aircraft, altitude: float | None
) -> float | None:
    unit = aircraft.units.temperature
    if options.isa is None and options.oat is None:
        return None
    if options.isa is None:
        return _of_air(f"--oat {options.oat:g}", float(options.oat), unit)
    if altitude is None:
        raise MisuseError("--isa needs an altitude; or give --oat")
    oat = float(aircraft.standard_temperature(altitude)) + float(options.isa)
    return _of_air(f"--isa {options.isa:g}", oat, unit)


def _of_air(option: str, oat: float, unit: str) -> float:
    """Return a temperature that air may have, with some to spare over what was ever measured."""
    least, most = (float(convert(bound, "C", unit)) for bound in (-100.0, 60.0))
    if not least <= oat <= most:
        raise MisuseError(f"{option}: expected air from {least:g} to {most:g} °{unit}")
    return oat


def _wind(text: str) -> tuple[float, float]:
    """Read where a wind blows from, and how fast in knots, unless another unit is written."""
    found = re.fullmatch(r"([^/]+)/([^/]*?)\s*(kt|mph|km/h)?", text)
    try:
        if found is None:
            raise ValueError
        blows_from, speed = direction(found[1]), within(found[2], 0, 300, "a wind")
    except (ValueError, argparse.ArgumentTypeError):
        raise MisuseError(
            f"--wind {text}: expected direction/speed, such as 240/18 or 240/20mph"
        ) from None
    return blows_from, float(convert(speed, found[3] or "kt", "kt"))


def _print_steps(head: Head, worked: Reckoning) -> None:
    print(f"{head.registration}, {head.type}")
    air = _air_steps(head, worked)
    for one in (*worked.altimeter, *air, *worked.steps, *worked.stall):
        _print_line(line(ENGLISH, one))
        if one.working:
            print(f"  {'':<26} {ENGLISH.say(one.working)}")
    for limit in worked.passed:
        print(escaped(f"  {limit_passed(ENGLISH, limit)}"))
    for note in worked.notes:
        print(escaped(f"  {ENGLISH.say(note)}"))
    print(ENGLISH.say("reference-only"))


def _air_steps(head: Head, worked: Reckoning) -> list[Step]:
    """Return what the air is like as lines of their own, where it is known."""
    units = head.units
    known = (
        ("pressure-altitude", "pressure_altitude", units.altitude, 0, "plain"),
        ("density-altitude-name", "density_altitude", units.altitude, 0, "plain"),
        ("isa-deviation", "isa_deviation", units.temperature, 1, "signed"),
    )
    return [
        Step(name, Quantity(kept(value), unit, decimals=decimals), form=form)
        for name, result, unit, decimals, form in known
        if (value := worked.values[result]) is not None
    ]


def _print_line(said: Line) -> None:
    print(f"  {said.name:<26} {said.number:>10} {said.unit:<5} {said.reason}".rstrip())
