"""English wordings: what explains the cards, the formulas and the glossary."""

WORDINGS: dict[str, str] = {
    "formula-indicated-airspeed": "IAS from the manual's IAS",
    "formula-indicated-airspeed-expression": (
        "The manual's IAS in the indicator's unit, less the instrument correction, which is "
        "read linearly between the points of the bench card. The correction may lower a maximum"
        " of the manual and raise VMC, never the other way."
    ),
    "formula-indicated-airspeed-source": "14 CFR 1.1, indicated airspeed; units by NIST SP 811",
    "formula-calibrated-airspeed": "CAS from IAS",
    "formula-calibrated-airspeed-expression": (
        "IAS with the instrument correction added, then linear between the points of the manual's "
        "calibration table for the flap setting and static source; exact at the points; no value "
        "outside them. Where the manual prints corrections, its points are IAS with these added or "
        "subtracted; where it prints the normal source's IAS, that is read in the normal source's "
        "table."
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
        "IAS for that flap setting. Level, coordinated flight."
    ),
    "formula-stall-speed-source": "FAA-H-8083-25B, chapter 5, load factors",
    "formula-manoeuvring-speed": "Manoeuvring speed at a weight",
    "formula-manoeuvring-speed-expression": (
        "VA in CAS × √(weight ÷ weight that VA is given for), from the next heavier weight that"
        " the manual gives, then back to IAS."
    ),
    "formula-manoeuvring-speed-source": "FAA-H-8083-25B, chapter 5, load factors",
    "formula-approach-speed": "VREF at a weight",
    "formula-approach-speed-expression": (
        "VREF in CAS, or the manual's multiple of VS0 in CAS, × √(weight ÷ weight that it is "
        "given for), but not below VMC, then back to IAS with landing "
        "flaps."
    ),
    "formula-approach-speed-source": (
        "FAA-H-8083-25B, chapter 5; 14 CFR 23.73, before Amendment 23-64"
    ),
    "formula-limit-by-tas": "A TAS limit as IAS",
    "formula-limit-by-tas-expression": (
        "The CAS that has the manual's TAS limit at the pressure altitude in the standard "
        "atmosphere, then back to IAS."
    ),
    "formula-limit-by-tas-source": "NASA RP-1046; ICAO Doc 7488",
    "formula-limit-by-mach": "A Mach limit as IAS",
    "formula-limit-by-mach-expression": (
        "The CAS whose impact pressure is that of the Mach limit at the static pressure of the "
        "pressure altitude, then back to IAS."
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
    "formula-correction": "What to add to or take off IAS",
    "formula-correction-expression": (
        "The bench card's correction for the indicator; CAS less the manual's IAS for the position "
        "error; CAS on the alternate static source less CAS on the normal one for what the source "
        "changes."
    ),
    "formula-correction-source": (
        "14 CFR 1.1, calibrated airspeed; interpolation is common practice"
    ),
    "formula-corrected-reading": "A reading with its correction",
    "formula-corrected-reading-expression": (
        "The figure at the left, plus what is printed to be added to it, or less what is printed "
        "to be subtracted from it."
    ),
    "formula-corrected-reading-source": "What a correction means is common practice",
    "formula-altimeter-correction": "Altimeter correction",
    "formula-altimeter-correction-expression": (
        "The bench card's correction at the altitude shown, then the manual's at the IAS, for the "
        "flap setting and static source: linear between the points, and between two altitudes that "
        "the manual prints tables for."
    ),
    "formula-altimeter-correction-source": "Interpolation is common practice",
    "formula-density-factor": "TAS over CAS for quick work",
    "formula-density-factor-expression": "√(1 ÷ density ratio), without compressibility.",
    "formula-density-factor-source": "14 CFR 1.1, true airspeed; ICAO Doc 7488",
    "formula-rule-of-thumb": "How far the rule of thumb is off",
    "formula-rule-of-thumb-expression": (
        "CAS plus 2 % for each 1,000 ft of pressure altitude, less the exact TAS."
    ),
    "formula-rule-of-thumb-source": "FAA-H-8083-25B, chapter 8, true airspeed",
    "formula-airspeed-for-tas": "IAS for a TAS",
    "formula-airspeed-for-tas-expression": (
        "The CAS that has the TAS at the pressure altitude and outside air temperature, then "
        "back to IAS, flaps up."
    ),
    "formula-airspeed-for-tas-source": "NASA RP-1046; ICAO Doc 7488",
    "formula-fuel-economy": "Distance on a unit of fuel",
    "formula-fuel-economy-expression": (
        "(TAS ± wind along the course) ÷ fuel flow, at the manual's cruise figures. Without "
        "climb, taxi or reserve."
    ),
    "formula-fuel-economy-source": "FAA-H-8083-25B, chapter 11, specific range (from memory)",
    "formula-time": "Time en route",
    "formula-time-expression": "Distance ÷ ground speed, in minutes, rounded up.",
    "formula-time-source": "FAA-H-8083-25B, chapter 16, time, speed and distance",
    "formula-wind-limit": "Wind at the demonstrated crosswind",
    "formula-wind-limit-expression": (
        "Demonstrated crosswind ÷ sine of the angle between wind and runway, rounded down."
    ),
    "formula-wind-limit-source": ("FAA-H-8083-25B, chapter 11, crosswind component (from memory)"),
    "formula-glide-distance": "Glide distance",
    "formula-glide-distance-expression": (
        "Height × the manual's glide ratio, in still air, rounded down."
    ),
    "formula-glide-distance-source": "What a glide ratio means is common practice",
    "formula-true-airspeed": "TAS from CAS",
    "formula-true-airspeed-expression": (
        "Impact pressure of the CAS in standard air at sea level; the Mach number that has this"
        " impact pressure at the static pressure of the pressure altitude; times the speed of "
        "sound at the outside air temperature. Exact for subsonic flow."
    ),
    "formula-true-airspeed-source": "NASA RP-1046; ICAO Doc 7488",
    "formula-mach": "Mach number of a CAS",
    "formula-mach-expression": (
        "The Mach number whose impact pressure, at the static pressure of the pressure altitude, "
        "is that of the CAS in standard air at sea level."
    ),
    "formula-mach-source": "NASA RP-1046; ICAO Doc 7488",
    "formula-cruise": "Cruise between the manual's rows",
    "formula-cruise-expression": (
        "Linear in altitude, then in the difference from standard temperature, then in the "
        "power setting; no value outside the table."
    ),
    "formula-cruise-source": "Interpolation is common practice",
    "formula-ground-speed": "Ground speed in a head- or tailwind",
    "formula-ground-speed-expression": "TAS less the headwind, or plus the tailwind.",
    "formula-ground-speed-source": "FAA-H-8083-25B, chapter 16, wind triangle (from memory)",
    "formula-wind-components": "Headwind and crosswind",
    "formula-wind-components-expression": (
        "Wind speed × cosine of its angle to the runway, and × sine of it."
    ),
    "formula-wind-components-source": (
        "FAA-H-8083-25B, chapter 11, crosswind component (from memory)"
    ),
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
    # -- the glossary
    "glossary-what": (
        "The words on these pages, as pilots use them. The manual's own definitions stand "
        "above these."
    ),
    "glossary-section-airspeeds": "Airspeeds",
    "glossary-section-errors": "What lies between them",
    "glossary-section-air": "The air",
    "glossary-section-flight": "Flight",
    "glossary-section-v-speeds": "V-speeds",
    "glossary-maximum": "Not above.",
    "glossary-minimum": "Not below.",
    "glossary-target": "To fly.",
    "chain-instrument-correction": "instrument correction",
    "chain-position-error": "position error",
    "chain-compressibility": "compressibility",
    "chain-density": "density",
    "chain-wind": "wind",
    "chain-start": "IAS",
    "term-IAS": "IAS",
    "term-IAS-is": "indicated airspeed",
    "glossary-IAS": (
        "What the pointer of this aircraft's own indicator shows, in the indicator's own unit. It "
        "is the figure to fly by, and the largest on these pages. Stalls and most limits come at "
        "much the same IAS at any height, so that one figure serves for all."
    ),
    "term-manual-IAS": "Manual's IAS",
    "term-manual-IAS-is": "indicated airspeed without instrument error",
    "glossary-manual-IAS": (
        "What a faultless indicator would show in this aircraft, in the manual's unit: what a "
        "manual means by an indicated speed. It is the same as IAS, but where a bench card "
        "corrects the instrument, or the instrument reads in another unit than the manual."
    ),
    "term-CAS": "CAS",
    "term-CAS-is": "calibrated airspeed",
    "glossary-CAS": (
        "IAS with the instrument's error and the position error taken out. In standard air at sea "
        "level it is the true airspeed. Whatever is computed on these pages is computed in CAS."
    ),
    "term-EAS": "EAS",
    "term-EAS-is": "equivalent airspeed",
    "glossary-EAS": (
        "CAS with compressibility taken out: the speed that would load the airframe as much "
        "in standard air at sea level. At 150 kt and 10,000 ft it is within half a knot of "
        "CAS; at 250 kt and 10,000 ft, two knots below it."
    ),
    "term-TAS": "TAS",
    "term-TAS-is": "true airspeed",
    "glossary-TAS": (
        "How fast the aircraft moves through the air around it. For one CAS it grows with "
        "height and with warmth: about 2 % for each 1,000 ft, as a rule of thumb."
    ),
    "term-GS": "GS",
    "term-GS-is": "ground speed",
    "glossary-GS": (
        "How fast the aircraft moves over the ground: TAS with what the wind adds or takes."
    ),
    "term-Mach": "Mach",
    "term-Mach-is": "Mach number",
    "glossary-Mach": (
        "TAS divided by the speed of sound in the same air, which depends on the temperature alone."
    ),
    "term-position-error": "Position error",
    "term-position-error-is": "manual's IAS to CAS",
    "glossary-position-error": (
        "What the airspeed system reads wrong because of where its openings are: air pressure"
        " on the fuselage is not quite that of the free air. It changes with speed and flaps,"
        " is mostly greatest when slow, and belongs to the type: its manual has the table."
    ),
    "term-instrument-correction": "Instrument correction",
    "term-instrument-correction-is": "IAS to the manual's IAS",
    "glossary-instrument-correction": (
        "What to add to a reading because this one instrument is out. It belongs to the "
        "airframe and comes from the instrument shop's bench card."
    ),
    "term-compressibility": "Compressibility",
    "term-compressibility-is": "CAS to EAS",
    "glossary-compressibility": (
        "Air that is stopped in the pitot tube is squeezed. Indicators allow for it as it is "
        "at sea level; up high, and fast, they show a little too much."
    ),
    "term-alternate-static-source": "Alternate static source",
    "term-alternate-static-source-is": "a second opening",
    "glossary-alternate-static-source": (
        "Used when the normal static opening is blocked. It often feels another pressure, in "
        "the cabin for one, and so has a calibration table of its own."
    ),
    "term-pressure-altitude": "Pressure altitude",
    "glossary-pressure-altitude": (
        "What the altimeter shows with 1013.25 hPa or 29.92 inHg set: the height in the "
        "standard atmosphere at which the air has the pressure it has here."
    ),
    "term-density-altitude": "Density altitude",
    "glossary-density-altitude": (
        "The height in the standard atmosphere at which the air is as dense as it is here. "
        "Above pressure altitude on a warm day, below it on a cold one; the aircraft performs"
        " by it."
    ),
    "term-OAT": "OAT",
    "term-OAT-is": "outside air temperature",
    "glossary-OAT": (
        "The temperature of the still air outside. A probe at speed shows more than that, as "
        "the air warms where it is stopped."
    ),
    "term-ISA": "ISA",
    "term-ISA-is": "standard atmosphere",
    "glossary-ISA": (
        "An agreed model of the air: 15 °C and 1013.25 hPa at sea level, about 2 °C cooler "
        "for each 1,000 ft up to 36,000 ft. ISA +10 means ten degrees warmer than the model "
        "at that height."
    ),
    "term-QNH": "QNH",
    "term-QNH-is": "altimeter setting",
    "glossary-QNH": (
        "The setting with which an altimeter on the runway shows the height of the runway "
        "above sea level."
    ),
    "term-load-factor": "Load factor",
    "glossary-load-factor": (
        "Lift divided by weight, in g. Level in a turn it is 1 ÷ cosine of the bank: 1.15 at "
        "30°, 1.41 at 45°, 2 at 60°. The stall speed grows with its square root."
    ),
    "term-demonstrated-crosswind": "Demonstrated crosswind",
    "glossary-demonstrated-crosswind": (
        "The strongest wind across the runway in which the aircraft's landing was shown. It "
        "is a limit only where the manual says so."
    ),
    "glossary-VS0": (
        "The slowest speed of steady flight with landing flaps, gear down, power off. The "
        "white arc begins here."
    ),
    "glossary-VS1": (
        "The same in the configuration that is named beside it, mostly flaps and gear up. The"
        " green arc begins here."
    ),
    "glossary-VMC": (
        "Below it the rudder can no longer hold the aeroplane straight with the critical "
        "engine stopped and the other at take-off power. Marked by a red line at the slow "
        "end."
    ),
    "glossary-VSSE": (
        "The slowest at which an engine is stopped on purpose, for training: above VMC, with "
        "room to spare."
    ),
    "glossary-VR": "Where the nose is raised to leave the runway.",
    "glossary-VX": (
        "Gains the most height for the distance flown: for obstacles ahead. In propeller "
        "aeroplanes it grows a little with height."
    ),
    "glossary-VY": (
        "Gains the most height in a given time. It shrinks a little with height as IAS, and "
        "meets VX at the ceiling."
    ),
    "glossary-VXSE": "VX with one engine stopped.",
    "glossary-VYSE": (
        "VY with one engine stopped, or the slowest loss of height where no climb is left. "
        "The blue line."
    ),
    "glossary-best-glide": (
        "Goes farthest for the height that is lost, in still air. Slower when lighter."
    ),
    "glossary-minimum-sink": (
        "Loses height at the slowest rate: stays up longest, though not farthest."
    ),
    "glossary-approach": (
        "The slowest for the final approach of a glider. The yellow triangle stands at it."
    ),
    "glossary-VREF": (
        "The speed across the threshold with landing flaps, in calm air; often 1.3 times VS0,"
        " taken in CAS."
    ),
    "glossary-VA": (
        "Above it, one full movement of one control can break something; below it the wing "
        "stalls first. It falls with the weight. It does not cover controls moved to and fro,"
        " or two at once."
    ),
    "glossary-VO": (
        "As VA, for aeroplanes certificated to newer rules, where the wing surely stalls "
        "before its limit is passed."
    ),
    "glossary-VRA": "Not to be passed in rough air: strong thermals, rotor, thunderstorms.",
    "glossary-VB": (
        "The speed that the structure is designed to meet the strongest gusts at: not to be passed "
        "in severe turbulence."
    ),
    "glossary-VW": "Not to be passed on the winch.",
    "glossary-VT": "Not to be passed on aerotow.",
    "glossary-winch-minimum": "The slowest at which the winch launch is safely flown.",
    "glossary-aerotow-minimum": "The slowest at which the aerotow is safely flown.",
    "glossary-VFE": (
        "Not to be passed with flaps at the setting named beside it. The white arc ends at "
        "that of landing flaps."
    ),
    "glossary-VLO": "Not to be passed while the gear moves.",
    "glossary-VLE": "Not to be passed with the gear down and locked.",
    "glossary-VNO": (
        "Not to be passed but in smooth air, and then with caution. The green arc ends and "
        "the yellow begins here."
    ),
    "glossary-VNE": "Never to be passed. The red line.",
    "glossary-VMO": (
        "Not to be passed on purpose in any phase of flight; low down it is the limit before "
        "MMO is."
    ),
    "glossary-MMO": "The same as a Mach number; high up it is the limit before VMO is.",
}
