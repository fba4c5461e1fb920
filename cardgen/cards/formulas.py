"""Every formula that a printed number may come from; its wording and source stand with the words.

A new formula is one new name here, and its title, its expression and its
published source in `cardgen.words.english.reference`.
"""

FORMULAS = (
    "indicated-airspeed",
    "calibrated-airspeed",
    "indicated-from-calibrated",
    "stall-speed",
    "manoeuvring-speed",
    "approach-speed",
    "limit-by-tas",
    "limit-by-mach",
    "limit-by-altitude",
    "crossover-altitude",
    "correction",
    "corrected-reading",
    "altimeter-correction",
    "density-factor",
    "rule-of-thumb",
    "airspeed-for-tas",
    "fuel-economy",
    "time",
    "wind-limit",
    "glide-ratio",
    "glide-distance",
    "least-sink",
    "speed-to-fly",
    "true-airspeed",
    "mach",
    "cruise",
    "ground-speed",
    "wind-components",
    "unit",
    "pressure-altitude",
    "standard-temperature",
    "standard-pressure",
    "density-altitude",
)
