"""The way between an indication and CAS, by the curves of a document."""

import math
from dataclasses import dataclass

import numpy as np

from cardgen.document.record import Curve, Document
from cardgen.units import convert

NORMAL, ALTERNATE = "normal", "alternate"


def read(curve: Curve | None, value: float, back: bool = False) -> float:
    """Read a curve, or read it backwards; not a number outside it, and where there is none."""
    if curve is None:
        return math.nan
    x, y = (curve.y, curve.x) if back else (curve.x, curve.y)
    return float(np.interp(value, x, y, left=np.nan, right=np.nan))


def rows_of(curve: Curve, value: float, back: bool = False) -> tuple[int, int] | None:
    """Return the two rows of a curve that a value is read between; one twice where it stands.

    None outside the curve.
    """
    x = curve.y if back else curve.x
    if not x[0] <= value <= x[-1]:
        return None
    above = int(np.searchsorted(x, value))
    return (above, above) if x[above] == value else (above - 1, above)


@dataclass(frozen=True)
class Chain:
    """What leads from the pointer to CAS and back, for the curves of one document.

    Speeds are as the indicator shows them, in its own unit; as the manual's
    IAS, and in CAS, in the manual's.
    """

    document: Document

    def table(self, flaps: str, source: str = NORMAL, gear: str = "") -> Curve | None:
        """Return the calibration table for a setting, if any.

        Where no gear is said, that is the one for either, or the first: that of the usual gear.
        """
        wanted = (flaps or self.document.basis.flaps[0], source)
        fitting = [
            one
            for one in self.document.basis.calibration
            if (one.flaps, one.static_source) == wanted and (not gear or one.gear in (gear, ""))
        ]
        return max(fitting, key=lambda one: one.gear == gear, default=None)

    def own(self, speed: float) -> float:
        """Return a speed of the manual's unit in the indicator's."""
        head = self.document.head
        return float(convert(speed, head.units.speed, head.indicator_unit))

    def manual(self, speed: float) -> float:
        """Return a speed of the indicator's unit in the manual's."""
        head = self.document.head
        return float(convert(speed, head.indicator_unit, head.units.speed))

    def corrected(self, shown: float) -> float:
        """Return what the indicator should show, where it shows this."""
        bench = self.document.basis.bench
        return read(bench, shown) if bench else shown

    def ias(self, shown: float) -> float:
        """Return the manual's IAS of what the indicator shows."""
        return self.manual(self.corrected(shown))

    def shown_at_ias(self, ias: float) -> float:
        """Return what the indicator shows at an IAS of the manual."""
        bench = self.document.basis.bench
        return read(bench, self.own(ias), back=True) if bench else self.own(ias)

    def shown_at_cas(
        self, cas: float, flaps: str = "", source: str = NORMAL, gear: str = ""
    ) -> float:
        """Return what the indicator shows at a CAS."""
        return self.shown_at_ias(read(self.table(flaps, source, gear), cas, back=True))
