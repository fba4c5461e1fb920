"""English wordings: what explains the cards, the formulas and the glossary."""

WORDINGS: dict[str, str] = {
    "formula-indicated-airspeed": "What the indicator shows",
    "formula-indicated-airspeed-expression": (
        "The manual's IAS in the indicator's unit, less the instrument correction, which is "
        "read linearly between the points of the bench card. The correction may lower a maximum"
        " or raise a minimum of the manual, never the other way."
    ),
    "formula-indicated-airspeed-source": "14 CFR 1.1, indicated airspeed; units by NIST SP 811",
    "formula-calibrated-airspeed": "CAS from IAS",
    "formula-calibrated-airspeed-expression": (
        "Linear between the points of the manual's calibration table for the flap setting and "
        "static source; exact at the points; no value outside them."
    ),
    "formula-calibrated-airspeed-source": (
        "14 CFR 1.1, calibrated airspeed; interpolation is common practice"
    ),
    "formula-indicated-from-calibrated": "IAS from CAS",
    "formula-indicated-from-calibrated-expression": (
        "The manual's calibration table read the other way, then the instrument correction "
        "taken off."
    ),
    "formula-indicated-from-calibrated-source": (
        "14 CFR 1.1, calibrated airspeed; interpolation is common practice"
    ),
    "formula-stall-speed": "Stall speed at a weight and bank",
    "formula-stall-speed-expression": (
        "VS in CAS × √(weight ÷ weight that VS is given for) × √(1 ÷ cos bank), then back to "
        "what the indicator shows for that flap setting. Level, coordinated flight."
    ),
    "formula-stall-speed-source": "FAA-H-8083-25, chapter 5, load factors",
    "formula-manoeuvring-speed": "Manoeuvring speed at a weight",
    "formula-manoeuvring-speed-expression": (
        "VA in CAS × √(weight ÷ weight that VA is given for), from the next heavier weight that"
        " the manual gives, then back to what the indicator shows."
    ),
    "formula-manoeuvring-speed-source": "FAA-H-8083-25, chapter 5, load factors",
    "formula-approach-speed": "VREF at a weight",
    "formula-approach-speed-expression": (
        "VREF in CAS, or the manual's multiple of VS0 in CAS, × √(weight ÷ weight that it is "
        "given for), but not below VMC, then back to what the indicator shows with landing "
        "flaps."
    ),
    "formula-approach-speed-source": (
        "FAA-H-8083-25, chapter 5; 14 CFR 23.73, before Amendment 23-64"
    ),
    "formula-limit-by-tas": "A TAS limit as indicated",
    "formula-limit-by-tas-expression": (
        "The CAS that has the manual's TAS limit at the pressure altitude in the standard "
        "atmosphere, then back to what the indicator shows."
    ),
    "formula-limit-by-tas-source": "NASA RP-1046; ICAO Doc 7488",
    "formula-limit-by-mach": "A Mach limit as indicated",
    "formula-limit-by-mach-expression": (
        "The CAS whose impact pressure is that of the Mach limit at the static pressure of the "
        "pressure altitude, then back to what the indicator shows."
    ),
    "formula-limit-by-mach-source": "NASA RP-1046; ICAO Doc 7488",
    "formula-limit-by-altitude": "A limit between the manual's altitudes",
    "formula-limit-by-altitude-expression": (
        "Linear in altitude between the figures that the manual gives; no value outside them."
    ),
    "formula-limit-by-altitude-source": "Interpolation is common practice",
    "formula-crossover-altitude": "Crossover altitude",
    "formula-crossover-altitude-expression": (
        "The pressure altitude at which VMO in CAS and MMO are the same speed: where the impact"
        " pressure of the one is that of the other."
    ),
    "formula-crossover-altitude-source": "NASA RP-1046; ICAO Doc 7488",
    "formula-correction": "What to add to or take off the indicator",
    "formula-correction-expression": (
        "The bench card's correction for the indicator; CAS less IAS for the position error; "
        "CAS on the alternate static source less CAS on the normal one for what the source "
        "changes."
    ),
    "formula-correction-source": (
        "14 CFR 1.1, calibrated airspeed; interpolation is common practice"
    ),
    "formula-density-factor": "TAS over CAS for quick work",
    "formula-density-factor-expression": "√(1 ÷ density ratio), without compressibility.",
    "formula-density-factor-source": "FAA-H-8083-25, chapter 4, true airspeed; ICAO Doc 7488",
    "formula-rule-of-thumb": "How far the rule of thumb is off",
    "formula-rule-of-thumb-expression": (
        "CAS plus 2 % for each 1,000 ft of pressure altitude, less the exact TAS."
    ),
    "formula-rule-of-thumb-source": "The rule is common practice",
    "formula-airspeed-for-tas": "What to indicate for a TAS",
    "formula-airspeed-for-tas-expression": (
        "The CAS that has the TAS at the pressure altitude and outside air temperature, then "
        "back to what the indicator shows, flaps up."
    ),
    "formula-airspeed-for-tas-source": "NASA RP-1046; ICAO Doc 7488",
    "formula-fuel-economy": "Distance on a unit of fuel",
    "formula-fuel-economy-expression": (
        "(TAS ± wind along the course) ÷ fuel flow, at the manual's cruise figures. Without "
        "climb, taxi or reserve."
    ),
    "formula-fuel-economy-source": "FAA-H-8083-25, chapter 11, specific range",
    "formula-time": "Time en route",
    "formula-time-expression": "Distance ÷ ground speed, in minutes, rounded up.",
    "formula-time-source": "FAA-H-8083-25, chapter 16",
    "formula-wind-limit": "Wind at the demonstrated crosswind",
    "formula-wind-limit-expression": (
        "Demonstrated crosswind ÷ sine of the angle between wind and runway, rounded down."
    ),
    "formula-wind-limit-source": "FAA-H-8083-25, chapter 11, crosswind component",
    "formula-glide-distance": "Glide distance",
    "formula-glide-distance-expression": (
        "Height × the manual's glide ratio, in still air, rounded down."
    ),
    "formula-glide-distance-source": "FAA-H-8083-25, chapter 5, glide ratio",
    "formula-true-airspeed": "TAS from CAS",
    "formula-true-airspeed-expression": (
        "Impact pressure of the CAS in standard air at sea level; the Mach number that has this"
        " impact pressure at the static pressure of the pressure altitude; times the speed of "
        "sound at the outside air temperature. Exact for subsonic flow."
    ),
    "formula-true-airspeed-source": "NASA RP-1046; ICAO Doc 7488",
    "formula-cruise": "Cruise between the manual's rows",
    "formula-cruise-expression": (
        "Linear in altitude, then in the difference from standard temperature, then in the "
        "power setting; no value outside the table."
    ),
    "formula-cruise-source": "Interpolation is common practice",
    "formula-ground-speed": "Ground speed in a head- or tailwind",
    "formula-ground-speed-expression": "TAS less the headwind, or plus the tailwind.",
    "formula-ground-speed-source": "FAA-H-8083-25, chapter 16, wind triangle",
    "formula-wind-components": "Headwind and crosswind",
    "formula-wind-components-expression": (
        "Wind speed × cosine of its angle to the runway, and × sine of it."
    ),
    "formula-wind-components-source": "FAA-H-8083-25, chapter 11, crosswind component",
    "formula-unit": "Unit conversion",
    "formula-unit-expression": "1 kt = 1.852 km/h; 1 mph = 1.609344 km/h, both exactly.",
    "formula-unit-source": "NIST SP 811, Appendix B",
    "formula-pressure-altitude": "Pressure altitude correction",
    "formula-pressure-altitude-expression": (
        "The altitude at which the standard atmosphere has the pressure set on the altimeter."
    ),
    "formula-pressure-altitude-source": "ICAO Doc 7488; 14 CFR Part 43, Appendix E, Table IV",
    "formula-standard-temperature": "Standard temperature",
    "formula-standard-temperature-expression": (
        "288.15 K at sea level, 6.5 K less each 1,000 m up to 11,000 m, then constant."
    ),
    "formula-standard-temperature-source": "ICAO Doc 7488",
    "formula-standard-pressure": "Standard pressure",
    "formula-standard-pressure-expression": (
        "1013.25 hPa × (T ÷ T₀) to the power 5.25588 up to 11,000 m, exponential above."
    ),
    "formula-standard-pressure-source": "ICAO Doc 7488",
    "formula-density-altitude": "Density altitude",
    "formula-density-altitude-expression": (
        "The altitude at which the standard atmosphere has the density that dry air has at the "
        "pressure altitude and outside air temperature."
    ),
    "formula-density-altitude-source": "ICAO Doc 7488",
}
