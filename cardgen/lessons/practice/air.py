"""Pressure altitude and density altitude."""

from cardgen.air import atmosphere
from cardgen.document.practice import Answer, Question
from cardgen.document.record import Quantity
from cardgen.document.rounding import kept
from cardgen.lessons.practice import flying
from cardgen.lessons.practice.kinds import Draw, kind, numbered, step
from cardgen.units import convert, convert_difference, from_si, to_si

_PLACE = {"ft": 100.0, "m": 50.0}  # what an altitude is asked to
_A_DEGREE = 120.0  # ft of density altitude for each °C: common practice
_A_UNIT = {"inHg": 1000.0, "hPa": 27.0}  # ft of altitude for each: common practice
_STANDARD = {"inHg": 29.92, "hPa": 1013.0}  # as it is said; ICAO Doc 7488 has 1013.25
_INCHES, _HECTOPASCALS = (2942, 3042), (993, 1033)


def _feet(draw: Draw, feet: float) -> float:
    return float(convert(feet, "ft", draw.manual.altitude))


@kind("pressure-altitude")
def _pressure_altitude(draw: Draw) -> Question | None:
    unit, place = draw.manual.altitude, _PLACE[draw.manual.altitude]
    field = draw.whole(place, _feet(draw, 6000.0), int(place))
    by = "inHg" if draw.document.head.school.paper == "letter" else "hPa"
    setting = draw.whole(*_INCHES) / 100.0 if by == "inHg" else draw.whole(*_HECTOPASCALS)
    metres = atmosphere.pressure_altitude_from_setting(to_si(field, unit), to_si(setting, by))
    exact = float(from_si(metres, unit))
    rule = _feet(draw, _A_UNIT[by] * (_STANDARD[by] - setting))
    decimals = 2 if by == "inHg" else 0
    shown = Quantity(setting, by, decimals=decimals)
    worked = [
        step(
            "below",
            Quantity(kept(_STANDARD[by] - setting), by, decimals=decimals),
            f"standard-{by}",
            "signed",
        ),
        step("add", draw.altitude(rule), f"rule-{by}", "signed"),
        step("rule-altitude", draw.altitude(field + rule), "sum"),
        step("exact", draw.altitude(exact), "exact"),
    ]
    return numbered(
        "pressure-altitude",
        {"field": draw.altitude(field), "setting": shown, "place": draw.altitude(place)},
        Answer(exact, unit, place, ways=(field + rule,)),
        [
            ("setting-backwards", field - rule),
            ("no-setting", field),
            ("twice", field + 2 * rule),
        ],
        worked,
        case={"field": field, "setting": setting, "by": by},
    )


@kind("density-altitude")
def _density_altitude(draw: Draw) -> Question | None:
    unit, place, warm = draw.manual.altitude, _PLACE[draw.manual.altitude], draw.manual.temperature
    altitude, oat = flying.air(draw, _feet(draw, 10_000.0))
    metres, kelvin = to_si(altitude, unit), to_si(oat, warm)
    exact = float(from_si(atmosphere.density_altitude(metres, kelvin), unit))
    standard = flying.standard(draw, altitude)
    at_sea_level = flying.standard(draw, 0.0)

    def rule(above: float) -> float:
        celsius = float(convert_difference(above, warm, "C"))
        return altitude + _feet(draw, _A_DEGREE * celsius)

    worked = [
        step("standard", Quantity(kept(standard), warm, decimals=1), "lapse"),
        step("warmer", Quantity(kept(oat - standard), warm, decimals=1), "less-standard", "signed"),
        step("rule-altitude", draw.altitude(rule(oat - standard)), "rule-degree"),
        step("exact", draw.altitude(exact), "exact"),
    ]
    return numbered(
        "density-altitude",
        {
            "altitude": draw.altitude(altitude),
            "oat": draw.warmth(oat),
            "place": draw.altitude(place),
        },
        Answer(exact, unit, place, ways=(rule(oat - standard),)),
        [
            ("warm-backwards", rule(standard - oat)),
            ("sea-level-standard", rule(oat - at_sea_level)),
            ("no-warmth", altitude),
        ],
        worked,
        case={"altitude": altitude, "oat": oat},
    )
