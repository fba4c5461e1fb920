"""From the pointer to calibrated airspeed, with either static source."""

import math

from cardgen.document.practice import Answer, Question
from cardgen.document.record import Curve, Quantity, Unit, Value
from cardgen.document.rounding import kept, rounded
from cardgen.lessons.curves import ALTERNATE, NORMAL, read
from cardgen.lessons.practice import flying
from cardgen.lessons.practice.kinds import Draw, Mistakes, kind, numbered, step, steps
from cardgen.lessons.reckoning import Case
from cardgen.units import convert

_READ = ("indicated", "instrument", "position", "cas")


@kind("calibrated")
def _calibrated(draw: Draw) -> Question | None:
    table = draw.one(flying.tables(draw), "calibration")
    return _asked(draw, "calibrated", table)


@kind("alternate-static")
def _alternate(draw: Draw) -> Question | None:
    table = draw.one(flying.tables(draw, ALTERNATE), "alternate")
    return _asked(draw, "alternate-static", table)


def _asked(draw: Draw, name: str, table: Curve) -> Question | None:
    shown = flying.pointer(draw, table)
    if math.isnan(shown):
        return None
    done = draw.reckon(Case("ias", shown, table.flaps, table.static_source, gear=table.gear))
    cas = done.values["calibrated_airspeed"]
    if cas is None:
        return None
    unit = draw.manual.speed
    worked = steps(done, *_READ)
    if unit != draw.unit:
        in_manual = Quantity(kept(_manual(draw, cas)), unit, decimals=1)
        worked.append(step("in-unit", in_manual, "in-unit"))
    answer = Answer(_manual(draw, cas), unit, ways=_rounding(draw, table, shown))
    asked: dict[str, Value] = {"speed": draw.speed(shown), "setting": flying.said(draw, table)}
    return numbered(
        name,
        {**asked, "unit": Unit(unit)},
        answer,
        _mistakes(draw, table, shown, cas),
        worked,
        case={
            "shown": shown,
            "flaps": table.flaps,
            "gear": table.gear,
            "source": table.static_source,
        },
    )


def _manual(draw: Draw, speed: float) -> float:
    return float(convert(speed, draw.unit, draw.manual.speed))


def _rounding(draw: Draw, table: Curve, shown: float) -> tuple[float, ...]:
    """Return CAS by a pilot who rounds each correction, and one who rounds IAS between them."""
    corrected = draw.chain.corrected(shown)
    ias = draw.chain.manual(corrected)
    between = rounded(ias) + rounded(read(table, ias) - ias)
    whole = read(table, rounded(draw.chain.manual(rounded(corrected))))
    return between, whole


def _mistakes(draw: Draw, table: Curve, shown: float, cas: float) -> Mistakes:
    """Return what classic mistakes come to, in the manual's unit."""
    ias = draw.chain.ias(shown)
    others = [
        ("other-flaps", read(one, ias))
        for one in flying.tables(draw, table.static_source)
        if one.flaps != table.flaps
    ]
    normal = draw.chain.table(table.flaps, NORMAL, table.gear)
    if table.static_source == ALTERNATE:
        others = [("normal-source", read(normal, ias))]
    unit = [("unit", cas)] if draw.unit != draw.manual.speed else []
    no_bench = read(table, draw.chain.manual(shown))
    bench = [("no-bench", no_bench)] if draw.document.basis.bench else []
    return [
        *unit,
        ("as-ias", _manual(draw, shown)),
        ("backwards", _manual(draw, 2 * shown - cas)),
        *others,
        *bench,
    ]
