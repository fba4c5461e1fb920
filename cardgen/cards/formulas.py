"""Every formula that a printed number may come from, once, with its published source.

A new formula is one new entry in `FORMULAS`.
"""

from typing import NamedTuple


class Formula(NamedTuple):
    """A formula: what it gives, how, and who says so."""

    title: str
    expression: str
    source: str


FORMULAS: dict[str, Formula] = {
    "indicated airspeed": Formula(
        "What the indicator shows",
        "The manual's IAS in the indicator's unit, less the instrument correction, which is read "
        "linearly between the points of the bench card. The correction may lower a maximum or "
        "raise a minimum of the manual, never the other way.",
        "14 CFR 1.1, indicated airspeed; units by NIST SP 811",
    ),
    "calibrated airspeed": Formula(
        "CAS from IAS",
        "Linear between the points of the manual's calibration table for the flap setting and "
        "static source; exact at the points; no value outside them.",
        "14 CFR 1.1, calibrated airspeed; interpolation is common practice",
    ),
    "indicated from calibrated": Formula(
        "IAS from CAS",
        "The manual's calibration table read the other way, then the instrument correction taken "
        "off.",
        "14 CFR 1.1, calibrated airspeed; interpolation is common practice",
    ),
    "stall speed": Formula(
        "Stall speed at a weight and bank",
        "VS in CAS × √(weight ÷ weight that VS is given for) × √(1 ÷ cos bank), then back to what "
        "the indicator shows for that flap setting. Level, coordinated flight.",
        "FAA-H-8083-25, chapter 5, load factors",
    ),
    "manoeuvring speed": Formula(
        "Manoeuvring speed at a weight",
        "VA in CAS × √(weight ÷ weight that VA is given for), from the next heavier weight that "
        "the manual gives, then back to what the indicator shows.",
        "FAA-H-8083-25, chapter 5, load factors",
    ),
    "approach speed": Formula(
        "VREF at a weight",
        "VREF in CAS, or the manual's multiple of VS0 in CAS, × √(weight ÷ weight that it is "
        "given for), but not below VMC, then back to what the indicator shows with landing flaps.",
        "FAA-H-8083-25, chapter 5; 14 CFR 23.73, before Amendment 23-64",
    ),
    "limit by TAS": Formula(
        "A TAS limit as indicated",
        "The CAS that has the manual's TAS limit at the pressure altitude in the standard "
        "atmosphere, then back to what the indicator shows.",
        "NASA RP-1046; ICAO Doc 7488",
    ),
    "limit by Mach": Formula(
        "A Mach limit as indicated",
        "The CAS whose impact pressure is that of the Mach limit at the static pressure of the "
        "pressure altitude, then back to what the indicator shows.",
        "NASA RP-1046; ICAO Doc 7488",
    ),
    "limit by altitude": Formula(
        "A limit between the manual's altitudes",
        "Linear in altitude between the figures that the manual gives; no value outside them.",
        "Interpolation is common practice",
    ),
    "crossover altitude": Formula(
        "Crossover altitude",
        "The pressure altitude at which VMO in CAS and MMO are the same speed: where the impact "
        "pressure of the one is that of the other.",
        "NASA RP-1046; ICAO Doc 7488",
    ),
    "correction": Formula(
        "What to add to or take off the indicator",
        "The bench card's correction for the indicator; CAS less IAS for the position error; CAS "
        "on the alternate static source less CAS on the normal one for what the source changes.",
        "14 CFR 1.1, calibrated airspeed; interpolation is common practice",
    ),
    "density factor": Formula(
        "TAS over CAS for quick work",
        "√(1 ÷ density ratio), without compressibility.",
        "FAA-H-8083-25, chapter 4, true airspeed; ICAO Doc 7488",
    ),
    "rule of thumb": Formula(
        "How far the rule of thumb is off",
        "CAS plus 2 % for each 1,000 ft of pressure altitude, less the exact TAS.",
        "The rule is common practice",
    ),
    "airspeed for TAS": Formula(
        "What to indicate for a TAS",
        "The CAS that has the TAS at the pressure altitude and outside air temperature, then back "
        "to what the indicator shows, flaps up.",
        "NASA RP-1046; ICAO Doc 7488",
    ),
    "fuel economy": Formula(
        "Distance on a unit of fuel",
        "(TAS ± wind along the course) ÷ fuel flow, at the manual's cruise figures. Without "
        "climb, taxi or reserve.",
        "FAA-H-8083-25, chapter 11, specific range",
    ),
    "time": Formula(
        "Time en route",
        "Distance ÷ ground speed, in minutes, rounded up.",
        "FAA-H-8083-25, chapter 16",
    ),
    "wind limit": Formula(
        "Wind at the demonstrated crosswind",
        "Demonstrated crosswind ÷ sine of the angle between wind and runway, rounded down.",
        "FAA-H-8083-25, chapter 11, crosswind component",
    ),
    "glide distance": Formula(
        "Glide distance",
        "Height × the manual's glide ratio, in still air, rounded down.",
        "FAA-H-8083-25, chapter 5, glide ratio",
    ),
    "true airspeed": Formula(
        "TAS from CAS",
        "Impact pressure of the CAS in standard air at sea level; the Mach number that has this "
        "impact pressure at the static pressure of the pressure altitude; times the speed of "
        "sound at the outside air temperature. Exact for subsonic flow.",
        "NASA RP-1046; ICAO Doc 7488",
    ),
    "cruise": Formula(
        "Cruise between the manual's rows",
        "Linear in altitude, then in the difference from standard temperature, then in the power "
        "setting; no value outside the table.",
        "Interpolation is common practice",
    ),
    "ground speed": Formula(
        "Ground speed in a head- or tailwind",
        "TAS less the headwind, or plus the tailwind.",
        "FAA-H-8083-25, chapter 16, wind triangle",
    ),
    "wind components": Formula(
        "Headwind and crosswind",
        "Wind speed × cosine of its angle to the runway, and × sine of it.",
        "FAA-H-8083-25, chapter 11, crosswind component",
    ),
    "unit": Formula(
        "Unit conversion",
        "1 kt = 1.852 km/h; 1 mph = 1.609344 km/h, both exactly.",
        "NIST SP 811, Appendix B",
    ),
    "pressure altitude": Formula(
        "Pressure altitude correction",
        "The altitude at which the standard atmosphere has the pressure set on the altimeter.",
        "ICAO Doc 7488; 14 CFR Part 43, Appendix E, Table IV",
    ),
    "standard temperature": Formula(
        "Standard temperature",
        "288.15 K at sea level, 6.5 K less each 1,000 m up to 11,000 m, then constant.",
        "ICAO Doc 7488",
    ),
    "standard pressure": Formula(
        "Standard pressure",
        "1013.25 hPa × (T ÷ T₀) to the power 5.25588 up to 11,000 m, exponential above.",
        "ICAO Doc 7488",
    ),
    "density altitude": Formula(
        "Density altitude",
        "The altitude at which the standard atmosphere has the density that dry air has at the "
        "pressure altitude and outside air temperature.",
        "ICAO Doc 7488",
    ),
}
