"""The sizes of drawings, in units of their own: width and height."""

DIAL = (252.0, 252.0)
LADDER = (112.0, 640.0)
CALIBRATION = (360.0, 190.0)
TRUE_AIRSPEED = (360.0, 212.0)
POLAR = (360.0, 220.0)

SHAPES = {
    "dial": DIAL,
    "ladder": LADDER,
    "calibration": CALIBRATION,
    "true-airspeed": TRUE_AIRSPEED,
    "polar": POLAR,
}


def height(name: str, width: float) -> float:
    """Return how high a drawing is, drawn to a width."""
    wide, high = SHAPES[name]
    return width * high / wide
