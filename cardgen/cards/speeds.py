"""The V-speeds and the markings of the indicator."""

from dataclasses import replace

from cardgen.airframe.aircraft import Aircraft
from cardgen.airframe.limits import falls_with_altitude
from cardgen.cards.cells import (
    as_entered,
    computed,
    entered,
    heading,
    said,
    source,
    taking,
    words_column,
)
from cardgen.cards.indicated import (
    calibration_source,
    differs,
    indicated_column,
    shown_as_entered,
    shown_at_cas,
    speed,
)
from cardgen.definition.identifiers import marking_id, named_entries, slug
from cardgen.definition.model import Arc, Markings, RadialLine, School, SpeedEntry
from cardgen.definition.speeds import SPEEDS
from cardgen.document.record import (
    BLANK,
    Block,
    Cell,
    Column,
    Gap,
    Input,
    Message,
    Quantity,
    Row,
    Table,
    Unit,
    Value,
)
from cardgen.document.rounding import Sense


def speeds_table(aircraft: Aircraft, school: School) -> Table:
    """Return the V-speeds: limits first, then the speeds that are flown."""
    found = aircraft.definition.speeds
    own = differs(aircraft)
    unit = aircraft.units.speed
    blocks = []
    for block, wanted in (("limits", _is_limit), ("flown", _is_flown)):
        rows = [
            _speed_row(aircraft, name, case, entry)
            for name in SPEEDS
            if wanted(name)
            for case, entry in named_entries(name, found.get(name, []))
        ]
        if rows:
            blocks.append(Block(block, Message(f"block-{block}"), tuple(rows)))
    notes = [heading("note-rounded-whole", unit=Unit(aircraft.indicator_unit))]
    if falls_with_altitude(aircraft):
        notes.append(Message("note-limit-falls"))
    if own:
        notes.append(_why_it_differs(aircraft))
    return Table(
        "speeds",
        Message("title-speeds"),
        Message("how-speeds"),
        (
            words_column("speed"),
            indicated_column(aircraft),
            words_column("when"),
            words_column("meaning"),
            *([Column("ias", Message("column-manual-ias"), unit)] if own else []),
            Column("cas", Message("column-cas"), unit),
            words_column("page"),
        ),
        tuple(blocks),
        notes=tuple(notes),
    )


def _is_limit(name: str) -> bool:
    return SPEEDS[name].sense == "maximum" or name in {"VS0", "VS1", "VMC"}


def _is_flown(name: str) -> bool:
    return not _is_limit(name)


def _speed_row(aircraft: Aircraft, name: str, case: str, entry: SpeedEntry) -> Row:
    sense = SPEEDS[name].sense
    unit = aircraft.units.speed
    ias = BLANK
    shown = _limit_of_another_kind(aircraft, name, entry)
    if entry.ias is not None:
        ias = entered(aircraft, entry.ias, entry, unit, sense=sense)
        shown = shown_as_entered(aircraft, entry.ias, entry, sense)
    elif entry.times_VS0 is not None:
        shown = _multiple(aircraft, name, entry, sense)
    cells = (
        said(Message(f"speed-{slug(name)}")),
        shown,
        said(condition(aircraft, entry)),
        said(Message(f"meaning-{slug(name)}")),
        *([ias] if differs(aircraft) else []),
        _cas(aircraft, name, entry, sense),
        said(entry.page),
    )
    return Row(case, cells, subject=name)


def _limit_of_another_kind(aircraft: Aircraft, name: str, entry: SpeedEntry) -> Cell:
    """Return a limit that the manual gives as TAS, Mach number or CAS only."""
    sense = SPEEDS[name].sense
    if entry.cas is not None:
        flaps = aircraft.flaps_of(name, entry)
        inputs = (taking("flaps", flaps),)
        formula = "indicated-from-calibrated"
        shown = shown_at_cas(aircraft, float(entry.cas), sense, formula, inputs, flaps)
        if shown.quantity is not None:
            return replace(shown, beside=None)
    unit = aircraft.units.speed
    for measure, figure, of in (
        ("tas", entry.tas, unit),
        ("mach", entry.mach, ""),
        ("cas", entry.cas, unit),
    ):
        if figure is not None:
            return entered(aircraft, figure, entry, of, measure=measure, sense=sense)
    return BLANK


def _multiple(aircraft: Aircraft, name: str, entry: SpeedEntry, sense: Sense) -> Cell:
    flaps = aircraft.flaps_of(name, entry)
    cas = aircraft.entry_cas(entry, flaps)
    inputs = (_times(aircraft, entry), taking("flaps", flaps))
    shown = shown_at_cas(aircraft, cas, sense, "approach-speed", inputs, flaps)
    return replace(shown, beside=None)


def _times(aircraft: Aircraft, entry: SpeedEntry) -> Input:
    assert entry.times_VS0 is not None
    times = as_entered(entry.times_VS0, "")
    return taking("times-VS0", times, source(aircraft, entry.times_VS0))


def _cas(aircraft: Aircraft, name: str, entry: SpeedEntry, sense: Sense) -> Cell:
    unit = aircraft.units.speed
    if entry.cas is not None:
        return entered(aircraft, entry.cas, entry, unit, sense=sense)
    flaps = aircraft.flaps_of(name, entry)
    value = aircraft.entry_cas(entry, flaps)
    if entry.times_VS0 is not None:
        return computed(value, unit, "approach-speed", (_times(aircraft, entry),), sense)
    if entry.ias is None:
        return BLANK
    inputs = (
        taking("ias", speed(float(entry.ias), aircraft), calibration_source(aircraft, flaps)),
        taking("flaps", flaps),
    )
    return computed(value, unit, "calibrated-airspeed", inputs, sense)


def condition(aircraft: Aircraft, entry: SpeedEntry) -> Message | None:
    """Return what a V-speed's figure holds for; None where it says nothing of that."""
    units = aircraft.units
    parts: list[str | Unit | Quantity | Message] = []
    if entry.flaps is not None and len(aircraft.flaps) > 1:
        parts.append(heading("flaps", flaps=entry.flaps))
    if entry.gear:
        parts.append(Message(f"gear-{entry.gear}"))
    if entry.weight is not None:
        parts.append(as_entered(entry.weight, units.weight))
    if entry.altitude is not None:
        parts.append(as_entered(entry.altitude, units.altitude))
    if entry.from_altitude:
        parts.append(heading("from", altitude=as_entered(entry.from_altitude, units.altitude)))
    if entry.times_VS0 is not None:
        parts.append(heading("times-VS0-short", times=as_entered(entry.times_VS0, "")))
    if entry.when:
        parts.append(entry.when)
    return Message("several", {"parts": tuple(parts)}) if parts else None


def as_given(aircraft: Aircraft, entry: SpeedEntry) -> Message:
    """Return a V-speed in the form that the manual gives it."""
    unit = aircraft.units.speed
    if entry.times_VS0 is not None and entry.ias is None:
        return heading("given-times-VS0", times=as_entered(entry.times_VS0, ""))
    for name, figure in (("ias", entry.ias), ("tas", entry.tas), ("cas", entry.cas)):
        if figure is not None:
            return heading(f"given-{name}", speed=as_entered(figure, unit))
    assert entry.mach is not None
    return heading("given-mach", mach=as_entered(entry.mach, ""))


def _why_it_differs(aircraft: Aircraft) -> Message:
    """Say why the manual's IAS is another: the unit, the bench card, or both."""
    correction = aircraft.definition.airframe.instrument_correction
    units: dict[str, Value] = {
        "indicator": Unit(aircraft.indicator_unit),
        "manual": Unit(aircraft.units.speed),
    }
    if correction is None:
        return Message("note-differs-unit", units)
    dated = "-dated" if correction.date else ""
    date: dict[str, Value] = {"date": f"{correction.date}"} if correction.date else {}
    if aircraft.indicator_unit == aircraft.units.speed:
        return Message(f"note-differs-bench{dated}", date)
    return Message(f"note-differs-both{dated}", units | date)


# Which way an end may be rounded, where it is not a minimum below and a maximum above.
_SENSES: dict[str, tuple[Sense, ...]] = {
    "yellow": ("maximum", "maximum"),  # caution begins early rather than late
    "red_line": ("maximum",),
    "blue_line": ("target",),
}
_ENDS: tuple[Sense, ...] = ("minimum", "maximum")


def markings_table(aircraft: Aircraft, school: School) -> Table | Gap:
    """Return the indicator's arcs and lines, as the manual prints them."""
    markings = aircraft.definition.markings
    title = Message("title-markings")
    if markings is None:
        return Gap("markings", title, Message("missing-markings"))
    unit = aircraft.units.speed
    manual = (
        Column("ias-from", Message("column-manual-from"), unit),
        Column("ias-to", Message("column-manual-to"), unit),
    )
    return Table(
        "markings",
        title,
        Message("how-markings"),
        (
            words_column("marking"),
            replace(indicated_column(aircraft, "from"), heading=Message("column-from")),
            replace(indicated_column(aircraft, "to"), heading=Message("column-to")),
            *(manual if differs(aircraft) else ()),
            words_column("meaning"),
            words_column("page"),
        ),
        (Block("", None, tuple(_marking_rows(aircraft, markings))),),
        notes=(Message("note-red-line-low"),) if falls_with_altitude(aircraft) else (),
    )


def _marking_rows(aircraft: Aircraft, markings: Markings) -> list[Row]:
    rows = []
    for name in Markings.model_fields:
        marking: Arc | RadialLine | None = getattr(markings, name)
        if marking is None:
            continue
        ends = (marking.from_, marking.to) if isinstance(marking, Arc) else (marking.at,)
        senses = _SENSES.get(name, _ENDS)
        manual = [
            entered(aircraft, figure, marking, aircraft.units.speed, sense=sense)
            for figure, sense in zip(ends, senses, strict=False)
        ]
        shown = [
            shown_as_entered(aircraft, figure, marking, sense)
            for figure, sense in zip(ends, senses, strict=False)
        ]
        blank = [BLANK] * (2 - len(ends))
        cells = (
            said(Message(f"marking-{marking_id(name)}")),
            *shown,
            *blank,
            *([*manual, *blank] if differs(aircraft) else []),
            said(Message(f"meaning-{marking_id(name)}")),
            said(marking.page),
        )
        rows.append(Row(marking_id(name), cells, subject=marking_id(name)))
    return rows
