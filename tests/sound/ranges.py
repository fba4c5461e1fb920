"""What an invented aircraft is drawn from, by class: the one table of ranges, each with its source.

"Textbook" ranges are of the kind that books of aircraft design tabulate by class of aircraft; they
are from memory, and wide. The rules named are 14 CFR part 23 before Amendment 23-64 and CS-22, from
memory.
"""

from typing import NamedTuple


class Range(NamedTuple):
    """Between what a quantity is drawn, in what unit, and where that comes from."""

    low: float
    high: float
    unit: str
    source: str


_TEXTBOOK = "textbook range, from memory"
_PRACTICE = "common practice"

CLASSES: dict[str, dict[str, Range]] = {
    "fixed gear": {
        "mass": Range(480, 1250, "kg", _TEXTBOOK),
        "wing loading": Range(45, 72, "kg/m2", _TEXTBOOK),
        "power loading": Range(7.0, 10.0, "kg/kW", _TEXTBOOK),
        "aspect ratio": Range(6.0, 9.0, "", _TEXTBOOK),
        "Oswald factor": Range(0.70, 0.80, "", _TEXTBOOK),
        "zero-lift drag": Range(0.026, 0.036, "", _TEXTBOOK),
        "drag of a dead propeller": Range(0.005, 0.011, "", _TEXTBOOK),
        "CL max clean": Range(1.35, 1.60, "", _TEXTBOOK),
        "gain of full flaps": Range(0.35, 0.65, "CL", _TEXTBOOK),
        "load factor": Range(3.8, 3.8, "g", "14 CFR 23.337"),
        "propeller efficiency": Range(0.72, 0.79, "", _TEXTBOOK),
        "consumption": Range(0.27, 0.31, "kg/kWh", _TEXTBOOK),
        "rpm": Range(2400, 2750, "1/min", _PRACTICE),
    },
    "retractable": {
        "mass": Range(1050, 1650, "kg", _TEXTBOOK),
        "wing loading": Range(72, 108, "kg/m2", _TEXTBOOK),
        "power loading": Range(6.5, 8.5, "kg/kW", _TEXTBOOK),
        "aspect ratio": Range(6.2, 8.5, "", _TEXTBOOK),
        "Oswald factor": Range(0.70, 0.80, "", _TEXTBOOK),
        "zero-lift drag": Range(0.020, 0.026, "", _TEXTBOOK),
        "drag of a dead propeller": Range(0.004, 0.009, "", _TEXTBOOK),
        "CL max clean": Range(1.35, 1.55, "", _TEXTBOOK),
        "gain of full flaps": Range(0.40, 0.70, "CL", _TEXTBOOK),
        "load factor": Range(3.8, 3.8, "g", "14 CFR 23.337"),
        "propeller efficiency": Range(0.76, 0.82, "", _TEXTBOOK),
        "consumption": Range(0.26, 0.30, "kg/kWh", _TEXTBOOK),
        "rpm": Range(2400, 2700, "1/min", _PRACTICE),
    },
    "twin": {
        "mass": Range(1650, 3000, "kg", _TEXTBOOK),
        "wing loading": Range(95, 155, "kg/m2", _TEXTBOOK),
        "power loading": Range(5.3, 6.6, "kg/kW", _TEXTBOOK),
        "aspect ratio": Range(6.8, 8.5, "", _TEXTBOOK),
        "Oswald factor": Range(0.72, 0.80, "", _TEXTBOOK),
        "zero-lift drag": Range(0.024, 0.029, "", _TEXTBOOK),
        "drag of a dead propeller": Range(0.002, 0.004, "", "feathered; " + _TEXTBOOK),
        "CL max clean": Range(1.40, 1.60, "", _TEXTBOOK),
        "gain of full flaps": Range(0.40, 0.70, "CL", _TEXTBOOK),
        "load factor": Range(3.8, 3.8, "g", "14 CFR 23.337"),
        "propeller efficiency": Range(0.78, 0.83, "", _TEXTBOOK),
        "consumption": Range(0.27, 0.31, "kg/kWh", _TEXTBOOK),
        "rpm": Range(2400, 2700, "1/min", _PRACTICE),
    },
    "turboprop": {
        "mass": Range(3000, 5600, "kg", _TEXTBOOK),
        "wing loading": Range(135, 190, "kg/m2", _TEXTBOOK),
        "power loading": Range(4.8, 6.2, "kg/kW", _TEXTBOOK),
        "aspect ratio": Range(7.5, 10.0, "", _TEXTBOOK),
        "Oswald factor": Range(0.74, 0.80, "", _TEXTBOOK),
        "zero-lift drag": Range(0.022, 0.027, "", _TEXTBOOK),
        "drag of a dead propeller": Range(0.001, 0.003, "", "feathered; " + _TEXTBOOK),
        "CL max clean": Range(1.45, 1.65, "", _TEXTBOOK),
        "gain of full flaps": Range(0.60, 0.95, "CL", _TEXTBOOK),
        "load factor": Range(3.2, 3.4, "g", "14 CFR 23.337"),
        "propeller efficiency": Range(0.80, 0.85, "", _TEXTBOOK),
        "consumption": Range(0.34, 0.40, "kg/kWh", _TEXTBOOK),
        "rpm": Range(1900, 2200, "1/min", _PRACTICE),
    },
    "glider": {
        "mass": Range(320, 750, "kg", "CS-22.1 ends at 750 kg"),
        "wing loading": Range(29, 50, "kg/m2", _TEXTBOOK),
        "aspect ratio": Range(15.0, 26.0, "", _TEXTBOOK),
        "Oswald factor": Range(0.88, 0.95, "", _TEXTBOOK),
        "zero-lift drag": Range(0.0095, 0.0140, "", _TEXTBOOK),
        "CL max clean": Range(1.25, 1.45, "", _TEXTBOOK),
        "load factor": Range(5.3, 5.3, "g", "CS-22.337, utility"),
    },
}

ERRORS = {
    "of IAS at the stall": Range(-0.085, 0.02, "of CAS", "kept inside 14 CFR 23.1323 from 1.3 VS"),
    "of IAS at the highest speed": Range(-0.01, 0.022, "of CAS", "14 CFR 23.1323: 3 percent"),
    "of the alternate source": Range(0.015, 0.055, "of CAS squared", _PRACTICE),
}

GLIDE_RATIOS = {
    "fixed gear": Range(6.5, 12.5, "", _TEXTBOOK),
    "retractable": Range(8.0, 14.0, "", _TEXTBOOK),
    "twin": Range(8.5, 14.0, "", _TEXTBOOK),
    "turboprop": Range(10.0, 16.5, "", _TEXTBOOK),
    "glider": Range(26, 50, "", _TEXTBOOK),
}
"""What the drag polars of a class must come to."""
