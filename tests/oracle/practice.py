"""What questions of a practice sheet come to, and what each mistake does, in forty digits.

Worked from the YAML files and from what a question says it was drawn of.
"""

from collections.abc import Callable

from . import physics
from .craft import NORMAL, Craft
from .physics import Number, convert, mp

Case = dict[str, str | float]
Values = dict[str, Number | None]  # by the mistake's name; of the right answer, nothing
KINDS: dict[str, Callable[[Craft, Case], Values]] = {}
RULE = Number("0.02")  # FAA-H-8083-25B, chapter 8: 2 % for each 1,000 ft
STANDARD_SETTING = {"inHg": Number("29.92"), "hPa": Number(1013)}


def kind(name):
    def register(work):
        KINDS[name] = work
        return work

    return register


def exact(value: str | float) -> Number:
    return Number(repr(value))


def turned(value: Number) -> Number:
    return value - 360 * mp.floor(value / 360)


class Shown:
    """Where a pointer stands, and what that comes to, in the indicator's unit."""

    def __init__(self, craft: Craft, case: Case) -> None:
        self.craft = craft
        self.flaps = str(case.get("flaps") or craft.clean)
        self.gear = str(case.get("gear", ""))
        self.source = str(case.get("source", NORMAL))

    def cas(self, shown: Number, source: str = "", bench: bool = True, flaps: str = ""):
        ias = self.craft.ias(shown) if bench else convert(shown, *self.to_manual)
        return self.craft.cas(ias, flaps or self.flaps, source or self.source, self.gear)

    @property
    def to_manual(self) -> tuple[str, str]:
        return self.craft.indicator, self.craft.speed

    def pointer(self, cas: Number | None) -> Number | None:
        """Return what is shown at a CAS of the manual's unit."""
        ias = self.craft.ias_at(cas, self.flaps, NORMAL, self.gear)
        return self.craft.shown(ias)


def calibrated(craft: Craft, case: Case, source: str) -> Values:
    work, shown = Shown(craft, case), exact(case["shown"])
    cas = work.cas(shown, source)
    plain = convert(shown, *work.to_manual)
    found = {
        "": cas,
        "as-ias": plain,
        "backwards": 2 * plain - cas,
        "no-bench": work.cas(shown, source, bench=False),
        "unit": convert(cas, craft.speed, craft.indicator),
        "normal-source": work.cas(shown, NORMAL),
    }
    others = [flaps for flaps in craft.definition.flaps if flaps != work.flaps]
    return {**found, **{f"other-flaps {one}": work.cas(shown, flaps=one) for one in others}}


@kind("calibrated")
def _calibrated(craft, case):
    return calibrated(craft, case, NORMAL)


@kind("alternate-static")
def _alternate(craft, case):
    return calibrated(craft, case, "alternate")


class Air:
    """Pressure altitude and temperature of a case."""

    def __init__(self, craft: Craft, case: Case) -> None:
        self.altitude, self.oat = exact(case["altitude"]), exact(case["oat"])
        self.factor = craft.density_factor(self.altitude, self.oat)
        standard = physics.standard_temperature(craft.metres(self.altitude))
        self.standard = physics.from_kelvin(standard, craft.temperature)
        self.standard_factor = craft.density_factor(self.altitude, self.standard)


@kind("true-by-factor")
def _by_factor(craft, case):
    air, shown, work = Air(craft, case), exact(case["shown"]), Shown(craft, case)
    cas = work.cas(shown)
    own = craft.own(cas)
    return {
        "": craft.own(craft.tas(cas, air.altitude, air.oat)),
        "as-cas": shown * air.factor,
        "no-temperature": own * air.standard_factor,
        "divided": own / air.factor,
        "no-density": own,
        "backwards": (2 * shown - own) * air.factor,
    }


@kind("to-indicate")
def _to_indicate(craft, case):
    air, tas, work = Air(craft, case), exact(case["tas"]), Shown(craft, case)
    manual = convert(tas, craft.indicator, craft.speed)
    kelvin = physics.kelvin(air.oat, craft.temperature)
    cas = craft.cas_for_tas(manual, air.altitude, kelvin)
    shown = work.pointer(cas)
    return {
        "": shown,
        "cas-flown": craft.own(cas),
        "no-temperature": work.pointer(manual / air.standard_factor),
        "multiplied": work.pointer(manual * air.factor),
        "no-density": work.pointer(manual),
        "backwards": 2 * craft.own(cas) - shown,
    }


@kind("rule-of-thumb")
def _rule_of_thumb(craft, case):
    """How far the rule is off; what the rule gives stands in the same choice before it."""
    air, shown, work = Air(craft, case), exact(case["shown"]), Shown(craft, case)
    cas = work.cas(shown)
    more = 1 + RULE * convert(air.altitude, craft.altitude, "ft") / 1000
    own = craft.own(cas)
    tas = craft.own(craft.tas(cas, air.altitude, air.oat))
    cold = craft.own(craft.tas(cas, air.altitude, air.standard))
    return {
        "": (own * more, own * more - tas),
        "sign": (own * more, tas - own * more),
        "as-cas": (shown * more, shown * more - tas),
        "no-temperature": (own * more, own * more - cold),
        "less": (own * (2 - more), own * (2 - more) - tas),
    }


class Leg:
    def __init__(self, craft: Craft, case: Case) -> None:
        self.tas, self.course = exact(case["tas"]), exact(case["course"])
        self.wind = convert(exact(case["wind"]), "kt", craft.indicator)
        off = mp.radians(exact(case["from"]) - self.course)
        self.head, self.across = self.wind * mp.cos(off), self.wind * mp.sin(off)
        self.drift = mp.degrees(mp.asin(self.across / self.tas))
        self.along = mp.sqrt(self.tas**2 - self.across**2)


@kind("heading")
def _heading(craft, case):
    leg = Leg(craft, case)
    whole = mp.degrees(mp.asin(leg.wind / leg.tas)) * mp.sign(leg.across)
    return {
        "": turned(leg.course + leg.drift),
        "wrong-side": turned(leg.course - leg.drift),
        "no-drift": leg.course,
        "whole-wind": turned(leg.course + whole),
    }


@kind("ground-speed")
def _ground_speed(craft, case):
    leg = Leg(craft, case)
    knots = exact(case["wind"])
    return {
        "": leg.along - leg.head,
        "blows-to": leg.along + leg.head,
        "wind-unit": leg.along - leg.head * knots / leg.wind,
        "whole-along": leg.tas - leg.wind * mp.sign(leg.head),
        "no-wind": leg.tas,
    }


@kind("stall-in-bank")
def _stall_in_bank(craft, case):
    work, bank = Shown(craft, case), exact(case["bank"])
    weight, heaviest = f"{case['weight']:g}", craft.definition.maximum
    load = 1 / mp.cos(mp.radians(bank))
    cas = craft.stall_cas(work.flaps, weight, bank)
    return {
        "": work.pointer(cas),
        "load-factor": work.pointer(cas * mp.sqrt(load)),
        "no-bank": work.pointer(craft.stall_cas(work.flaps, weight, Number(0))),
        "as-cas-slow": craft.own(cas),
        "full-weight": work.pointer(craft.stall_cas(work.flaps, heaviest, bank)),
    }


@kind("va-at-weight")
def _va_at_weight(craft, case):
    work, name, weight = Shown(craft, case), str(case["speed"]), f"{case['weight']:g}"
    entry = craft.next_heavier(name, weight)
    known = craft.entry_cas(name, entry)
    ratio = exact(case["weight"]) / physics.number(craft.weight_of(entry))
    cas = craft.at_weight(name, entry, weight)
    return {
        "": work.pointer(cas),
        "proportional": work.pointer(known * ratio),
        "not-lowered": work.pointer(known),
        "faster-lighter": work.pointer(known / mp.sqrt(ratio)),
        "as-cas-slow": craft.own(cas),
    }


@kind("pressure-altitude")
def _pressure_altitude(craft, case):
    """The pressure at a field is that of the standard atmosphere, moved by the setting's level."""
    field, by = exact(case["field"]), str(case["by"])
    setting = convert(exact(case["setting"]), by, "Pa")
    pressure = physics.standard_pressure(craft.metres(field) + physics.pressure_altitude(setting))
    rule = {"inHg": 1000, "hPa": 27}[by] * (STANDARD_SETTING[by] - exact(case["setting"]))
    add = convert(Number(rule), "ft", craft.altitude)
    return {
        "": convert(physics.pressure_altitude(pressure), "m", craft.altitude),
        "setting-backwards": field - add,
        "no-setting": field,
        "twice": field + 2 * add,
    }


@kind("density-altitude")
def _density_altitude(craft, case):
    air = Air(craft, case)
    level = physics.density_altitude(
        craft.metres(air.altitude), physics.kelvin(air.oat, craft.temperature)
    )

    def rule(above):
        celsius = above * 5 / 9 if craft.temperature == "F" else above
        return air.altitude + convert(120 * celsius, "ft", craft.altitude)

    sea_level = physics.from_kelvin(physics.T0, craft.temperature)
    return {
        "": convert(level, "m", craft.altitude),
        "warm-backwards": rule(air.standard - air.oat),
        "sea-level-standard": rule(air.oat - sea_level),
        "no-warmth": air.altitude,
    }
