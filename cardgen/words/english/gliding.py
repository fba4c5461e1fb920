"""English wordings: glides, polars, and weights that have names."""

WORDINGS: dict[str, str] = {
    "title-weights": "Weight limits",
    "how-weights": "The weights that the manual limits, by its own names, as it gives them.",
    "note-weights-page": "Weight limits as the manual gives them, page {page}.",
    "weight-maximum": "maximum",
    "column-limit": "Limit",
    "title-gliding": "Glide as given",
    "how-gliding": (
        "How far the aircraft glides, and at what speed, as the manual gives it for each case."
    ),
    "how-glide-cases": (
        "Find the height above the ground, or the next lower, at the left; read how far the "
        "aircraft glides in still air in each case, at the speed for it."
    ),
    "note-still-air": "The glides that the manual gives are in still air.",
    "glide-any": "glide",
    "column-glide-when": "When",
    "column-glide-ratio": "Ratio",
    "column-for-height": "for a height of",
    "column-sink": "Sink",
    "column-sink-of": "Sink {unit}",
    "group-glide": "Glide, {unit}",
    "title-polar": "Polar",
    "how-polar": "Find the speed at the left; read how fast the aircraft sinks at it.",
    "note-polar-page": "The polar as the manual gives it, page {page}.",
    "title-polar-best": "Least sink and best glide",
    "how-polar-best": (
        "Find the weight at the left; read the speed of least sink and the sink, the speed of the "
        "best glide in still air and the ratio."
    ),
    "polar-as-given": "as given",
    "group-least-sink": "Least sink",
    "group-best-glide": "Best glide",
    "title-speed-to-fly": "Speed to fly",
    "how-speed-to-fly": (
        "Find the weight, and how fast the air goes up or down; under the wind along the course "
        "read the [IAS], in {unit:shown}, that leads farthest over the ground."
    ),
    "column-air": "Air",
    "column-no-wind": "0",
    "group-no-wind": "No wind",
    "air-still": "still",
    "air-rising": "up\N{NO-BREAK SPACE}{speed}",
    "air-sinking": "down\N{NO-BREAK SPACE}{speed}",
    "polar-end": "end",
    "polar-end-column": "end of the polar",
    "note-polar-points": (
        "Computed from the manual's polar, read linearly between its points: the tangent touches "
        "it at one of them."
    ),
    "note-polar-weight": (
        "At another weight speed and sink go with the square root of the weight."
    ),
    "note-polar-air": (
        "Reckoned in [TAS] in standard air at the polar's altitude, sea level where it names "
        "none; higher up the same wind and air change the [IAS] less."
    ),
    "note-polar-end": (
        "End: the first or last point of the polar; the best may lie beyond it, where nothing is "
        "known."
    ),
    "note-polar-outside": "In brackets: above a limit there, or slower than the stall.",
    "note-polar-dash": (
        "A dash: no tangent, as the air rises as fast as the aircraft sinks or the headwind is as "
        "fast as the polar; or outside the calibration table."
    ),
    "note-polar-caution": (
        "Clean and dry wing, straight flight. The manual prevails: a speed that it gives itself "
        "holds, and so do its limits for rough air and near the ground."
    ),
    "input-air": "air",
    "formula-glide-ratio": "Glide ratio from a distance",
    "formula-glide-ratio-expression": (
        "The manual's distance ÷ the height that it is for, in one unit, rounded down."
    ),
    "formula-glide-ratio-source": "What a glide ratio means is common practice",
    "formula-least-sink": "Least sink at a weight",
    "formula-least-sink-expression": (
        "The lowest point of the manual's polar; speed in TAS and sink × √(weight ÷ weight that "
        "the polar is given for), then back to IAS. The sink is rounded up."
    ),
    "formula-least-sink-source": (
        "FAA-H-8083-13A, Glider Flying Handbook, chapters 4 and 5 (from memory)"
    ),
    "formula-speed-to-fly": "Speed to fly",
    "formula-speed-to-fly-expression": (
        "The point of the manual's polar, speed in TAS and sink × √(weight ÷ weight that it is "
        "given for), with the least (sink + sinking air) ÷ (TAS − headwind): where the tangent "
        "from the headwind and the rising air touches; then back to IAS. The ratio is rounded "
        "down."
    ),
    "formula-speed-to-fly-source": (
        "FAA-H-8083-13A, Glider Flying Handbook, chapters 4 and 5 (from memory)"
    ),
}
