"""The V-speeds and the markings of the indicator."""

from dataclasses import replace

from cardgen.airframe.aircraft import Aircraft
from cardgen.airframe.limits import falls_with_altitude
from cardgen.cards.indicated import (
    differs,
    indicated_column,
    shown_as_entered,
    shown_at_cas,
    speed,
)
from cardgen.cards.table import DASH, Block, Cell, Column, Gap, Table, computed, entered, words
from cardgen.definition.model import Arc, Markings, RadialLine, SpeedEntry
from cardgen.definition.speeds import SPEEDS, Sense

_LIMITS = "Limits"
_FLOWN = "Flown speeds"


def speeds_table(aircraft: Aircraft) -> Table:
    """Return the V-speeds: limits first, then the speeds that are flown."""
    found = aircraft.definition.speeds
    own = differs(aircraft)
    unit = aircraft.units.speed
    columns = [
        Column("speed", "Speed", words=True),
        indicated_column(aircraft),
        Column("when", "When", words=True),
        Column("meaning", "Meaning", words=True),
        *([Column("ias", "Manual's IAS", unit)] if own else []),
        Column("cas", "CAS", unit),
        Column("page", "Page", words=True),
    ]
    blocks = []
    for heading, wanted in ((_LIMITS, _is_limit), (_FLOWN, _is_flown)):
        rows = [
            _speed_row(aircraft, name, entry, own)
            for name in SPEEDS
            if wanted(name)
            for entry in found.get(name, [])
        ]
        if rows:
            blocks.append(Block(heading, tuple(rows)))
    notes = [f"A maximum is rounded down and a minimum up to a whole {aircraft.indicator_unit}."]
    if falls_with_altitude(aircraft):
        notes.append("The limit falls with altitude: see Limit by altitude.")
    if own:
        notes.append(_why_it_differs(aircraft))
    return Table(
        "speeds",
        "Airspeeds",
        "Find the speed by its name; fly by the large figure, which is what this indicator shows.",
        tuple(columns),
        tuple(blocks),
        notes=tuple(notes),
    )


def _is_limit(name: str) -> bool:
    return SPEEDS[name].sense is Sense.MAXIMUM or name in {"VS0", "VS1", "VMC"}


def _is_flown(name: str) -> bool:
    return not _is_limit(name)


def _speed_row(aircraft: Aircraft, name: str, entry: SpeedEntry, own: bool) -> tuple[Cell, ...]:
    sense = SPEEDS[name].sense
    ias = words("")
    shown = _limit_of_another_kind(aircraft, name, entry)
    if entry.ias is not None:
        ias = entered(entry.ias, entry)
        shown = shown_as_entered(aircraft, entry.ias, entry, sense)
    elif entry.times_VS0 is not None:
        shown = _multiple(aircraft, name, entry, sense)
    return (
        words(name),
        shown,
        words(condition(aircraft, entry)),
        words(SPEEDS[name].meaning),
        *([ias] if own else []),
        _cas(aircraft, name, entry, sense),
        words(entry.page or ""),
    )


def _limit_of_another_kind(aircraft: Aircraft, name: str, entry: SpeedEntry) -> Cell:
    """Return a limit that the manual gives as TAS, Mach number or CAS only."""
    unit = f" {aircraft.units.speed}" if aircraft.indicator_unit != aircraft.units.speed else ""
    if entry.cas is not None:
        sense, flaps = SPEEDS[name].sense, aircraft.flaps_of(name, entry)
        inputs = {"flaps": flaps}
        shown = shown_at_cas(
            aircraft, float(entry.cas), sense, "indicated from calibrated", inputs, flaps
        )
        if shown.text != DASH:
            return replace(shown, also=None)
    for label, figure in (
        (f"TAS{unit}", entry.tas),
        ("Mach", entry.mach),
        (f"CAS{unit}", entry.cas),
    ):
        if figure is not None:
            return replace(entered(figure, entry), label=label)
    return words("")


def _multiple(aircraft: Aircraft, name: str, entry: SpeedEntry, sense: Sense) -> Cell:
    flaps = aircraft.flaps_of(name, entry)
    cas = aircraft.entry_cas(entry, flaps)
    inputs = {"times VS0": f"{entry.times_VS0}", "flaps": flaps}
    shown = shown_at_cas(aircraft, cas, sense, "approach speed", inputs, flaps)
    return replace(shown, also=None)


def _cas(aircraft: Aircraft, name: str, entry: SpeedEntry, sense: Sense) -> Cell:
    if entry.cas is not None:
        return entered(entry.cas, entry)
    flaps = aircraft.flaps_of(name, entry)
    value = aircraft.entry_cas(entry, flaps)
    if entry.times_VS0 is not None:
        inputs = {"times VS0": f"{entry.times_VS0}"}
        return computed(value, "approach speed", inputs, sense)
    if entry.ias is None:
        return words("")
    inputs = {"IAS": speed(float(entry.ias), aircraft), "flaps": flaps}
    return computed(value, "calibrated airspeed", inputs, sense)


def condition(aircraft: Aircraft, entry: SpeedEntry) -> str:
    """Say what a V-speed's figure holds for."""
    units = aircraft.units
    parts = [
        f"flaps {entry.flaps}" if entry.flaps is not None and len(aircraft.flaps) > 1 else "",
        f"gear {entry.gear}" if entry.gear else "",
        f"{entry.weight.text} {units.weight}" if entry.weight is not None else "",
        f"{entry.altitude.text} {units.altitude}" if entry.altitude is not None else "",
        f"from {entry.from_altitude.text} {units.altitude}" if entry.from_altitude else "",
        f"{entry.times_VS0.text} VS0" if entry.times_VS0 is not None else "",
        entry.when or "",
    ]
    return ", ".join(part for part in parts if part)


def as_given(aircraft: Aircraft, entry: SpeedEntry) -> str:
    """Say a V-speed in the form that the manual gives it."""
    unit = aircraft.units.speed
    if entry.times_VS0 is not None and entry.ias is None:
        return f"{entry.times_VS0.text} times VS0"
    for name, figure in (("IAS", entry.ias), ("TAS", entry.tas), ("CAS", entry.cas)):
        if figure is not None:
            return f"{figure.text} {unit} {name}"
    return f"Mach {entry.mach.text}" if entry.mach is not None else ""


def _why_it_differs(aircraft: Aircraft) -> str:
    reasons = []
    if aircraft.indicator_unit != aircraft.units.speed:
        reasons.append(
            f"this indicator reads {aircraft.indicator_unit}, the manual {aircraft.units.speed}"
        )
    correction = aircraft.definition.airframe.instrument_correction
    if correction is not None:
        reasons.append(
            f"the bench card{f' of {correction.date}' if correction.date else ''} corrects it"
        )
    said = "; ".join(reasons)
    return f"Why the manual's IAS differs: {said}. Keep within the indicator's own arcs as well."


_MARKINGS = {
    "white": ("White arc", "flaps may be out"),
    "green": ("Green arc", "normal operation"),
    "yellow": ("Yellow arc", "smooth air only, with caution"),
    "red_line": ("Red line", "do not exceed"),
    "blue_line": ("Blue line", "best rate of climb, one engine out"),
    "red_radial": ("Lower red line", "minimum control, one engine out"),
    "yellow_triangle": ("Yellow triangle", "lowest recommended approach speed"),
}


# Which way an end may be rounded, where it is not a minimum below and a maximum above.
_SENSES = {
    "yellow": (Sense.MAXIMUM, Sense.MAXIMUM),  # caution begins early rather than late
    "red_line": (Sense.MAXIMUM,),
    "blue_line": (Sense.TARGET,),
}


def markings_table(aircraft: Aircraft) -> Table | Gap:
    """Return the indicator's arcs and lines, as the manual prints them."""
    markings = aircraft.definition.markings
    if markings is None:
        return Gap("Indicator markings", "the definition has no markings")
    own = differs(aircraft)
    unit = aircraft.units.speed
    columns = [
        Column("marking", "Marking", words=True),
        Column("from", "From", aircraft.indicator_unit, main=True),
        Column("to", "To", aircraft.indicator_unit, main=True),
        *([Column("ias from", "Manual from", unit), Column("ias to", "to", unit)] if own else []),
        Column("meaning", "Meaning", words=True),
        Column("page", "Page", words=True),
    ]
    rows = tuple(_marking_rows(aircraft, markings, own))
    low = "The red line holds low down; the limit falls with altitude."
    return Table(
        "markings",
        "Indicator markings",
        "What the coloured arcs and lines on the indicator mean; trust the placards over this.",
        tuple(columns),
        (Block("", rows),),
        notes=(low,) if falls_with_altitude(aircraft) else (),
    )


def _marking_rows(aircraft: Aircraft, markings: Markings, own: bool) -> list[tuple[Cell, ...]]:
    rows = []
    for name, (title, meaning) in _MARKINGS.items():
        marking: Arc | RadialLine | None = getattr(markings, name)
        if marking is None:
            continue
        ends = (marking.from_, marking.to) if isinstance(marking, Arc) else (marking.at,)
        senses = _SENSES.get(name, (Sense.MINIMUM, Sense.MAXIMUM))
        manual = [entered(figure, marking) for figure in ends]
        shown = [
            shown_as_entered(aircraft, figure, marking, sense)
            for figure, sense in zip(ends, senses, strict=False)
        ]
        blank = [words("")] * (2 - len(ends))
        rows.append(
            (
                words(title),
                *shown,
                *blank,
                *([*manual, *blank] if own else []),
                words(meaning),
                words(marking.page or ""),
            )
        )
    return rows
