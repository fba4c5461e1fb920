"""The V-speeds and the markings of the indicator."""

from collections.abc import Sequence

from cardgen.airframe.aircraft import Aircraft
from cardgen.airframe.limits import falls_with_altitude, not_widened
from cardgen.cards.cells import (
    as_entered,
    as_given,
    computed,
    entered,
    heading,
    said,
    source,
    taking,
    words_column,
)
from cardgen.cards.indicated import (
    at_cas,
    calibrated,
    differs,
    indicated_column,
    shown_as_entered,
    times_input,
)
from cardgen.definition.identifiers import marking_id, named_entries
from cardgen.definition.model import (
    Arc,
    Markings,
    NamedEntry,
    OtherMark,
    RadialLine,
    School,
    SpeedEntry,
    sense_of,
)
from cardgen.definition.names import slug
from cardgen.definition.places import Figure, Span
from cardgen.definition.speeds import SPEEDS
from cardgen.document.record import (
    BLANK,
    Block,
    Cell,
    Column,
    Gap,
    Message,
    Quantity,
    Row,
    Table,
    Unit,
    Value,
)
from cardgen.document.rounding import Sense, senses_of_mark
from cardgen.units import convert


def speeds_table(aircraft: Aircraft, school: School) -> Table:
    """Return the V-speeds: limits first, then the speeds that are flown."""
    found: dict[str, list[SpeedEntry]] = {
        **aircraft.definition.speeds,
        **{name: [*entries] for name, entries in aircraft.definition.other_speeds.items()},
    }
    own = differs(aircraft)
    unit = aircraft.units.speed
    blocks = []
    for block, names in _blocks(aircraft).items():
        rows = [
            _speed_row(aircraft, name, case, entry)
            for name in names
            for case, entry in named_entries(name, found.get(name, []))
        ]
        if rows:
            blocks.append(Block(block, Message(f"block-{block}"), tuple(rows)))
    notes = [heading("note-rounded-whole", unit=Unit(aircraft.indicator_unit))]
    if falls_with_altitude(aircraft):
        notes.append(Message("note-limit-falls"))
    if "VMC" in found and aircraft.kind == "multi-engine":
        notes.append(Message("note-vmc-falls"))
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


_ONE_ENGINE = ("VMC", "VSSE", "VYSE", "VXSE")  # in the order that they are flown
_STALL = ("VS1", "VS0")


def _blocks(aircraft: Aircraft) -> dict[str, list[str]]:
    """Return the V-speeds by block, each in the order in which it is looked for.

    What is not to be exceeded stands first and the stall behind it; the speeds
    of an engine failure stand together.
    """
    apart = _ONE_ENGINE if aircraft.kind == "multi-engine" else ()
    maxima = [name for name, speed in SPEEDS.items() if speed.sense == "maximum"]
    others = aircraft.definition.other_speeds
    bounding = [name for name, entries in others.items() if entries[0].sense == "maximum"]
    limits = [*maxima, *bounding, *_STALL, *(name for name in ("VMC",) if name not in apart)]
    flown = [name for name in (*SPEEDS, *others) if name not in (*limits, *apart)]
    return {"limits": limits, "one-engine": list(apart), "flown": flown}


def _speed_row(aircraft: Aircraft, name: str, case: str, entry: SpeedEntry) -> Row:
    sense = sense_of(name, entry)
    unit = aircraft.units.speed
    ias = BLANK
    shown = _limit_in_cas(aircraft, name, entry)
    if entry.ias is not None:
        ias = entered(aircraft, entry.ias, entry, unit, sense=sense)
        kept_within = sense == "maximum" or name == "VMC"
        shown = shown_as_entered(aircraft, entry.ias, entry, sense, kept_within)
    elif entry.times_VS0 is not None:
        shown = _multiple(aircraft, name, entry, sense)
    cells = (
        said(name if isinstance(entry, NamedEntry) else Message(f"speed-{slug(name)}")),
        shown,
        said(condition(aircraft, name, entry, shown)),
        said(_meaning(name, entry)),
        *([ias] if differs(aircraft) else []),
        calibrated(aircraft, name, entry),
        said(entry.page),
    )
    return Row(case, cells, subject=name)


def _meaning(name: str, entry: SpeedEntry) -> Message | None:
    """Return what a V-speed is; the gear's, which way the gear moves.

    Of a speed by the manual's own name which way it bounds, if it does.
    """
    if isinstance(entry, NamedEntry):
        return None if entry.sense == "target" else Message(f"meaning-{entry.sense}")
    moving = {"down": "-extension", "up": "-retraction"}
    suffix = moving.get(entry.gear or "", "") if name == "VLO" else ""
    return Message(f"meaning-{slug(name)}{suffix}")


def _limit_in_cas(aircraft: Aircraft, name: str, entry: SpeedEntry) -> Cell:
    """Return what the indicator shows at a speed that the manual gives as CAS only.

    Blank where the tables do not reach, and for a limit in TAS or as a Mach
    number, which no one place of the pointer stands for.
    """
    flaps = aircraft.flaps_of(name, entry)
    if entry.cas is None or flaps is None or isinstance(entry.cas, Span):
        return BLANK
    sense = sense_of(name, entry)
    inputs = (taking("flaps", flaps),)
    formula = "indicated-from-calibrated"
    gear = aircraft.gear_of(name, entry)
    shown, _ = at_cas(aircraft, float(entry.cas), sense, formula, inputs, flaps, gear=gear)
    return BLANK if shown.is_dash else shown


def _multiple(aircraft: Aircraft, name: str, entry: SpeedEntry, sense: Sense) -> Cell:
    flaps = aircraft.flaps_of(name, entry) or aircraft.flaps[-1]
    gear = aircraft.gear_of(name, entry)
    cas = aircraft.entry_cas(entry, flaps, gear)
    inputs = (times_input(aircraft, entry), taking("flaps", flaps))
    return at_cas(aircraft, cas, sense, "approach-speed", inputs, flaps, gear=gear)[0]


def condition(aircraft: Aircraft, name: str, entry: SpeedEntry, shown: Cell) -> Message | None:
    """Return what a V-speed's figure holds for, and the figure itself where nothing shows it.

    None where there is nothing to say.
    """
    units = aircraft.units
    parts: list[str | Unit | Quantity | Message] = []
    if shown.quantity is None and (entry.tas or entry.mach or entry.cas):
        parts.append(as_given(aircraft, entry))
    if entry.flaps is not None and len(aircraft.flaps) > 1:
        parts.append(heading("flaps", flaps=entry.flaps))
    if entry.gear:
        parts.append(Message(f"gear-{entry.gear}"))
    weight = entry.weight
    if weight is None and name in ("VS0", "VS1"):
        weight = aircraft.maximum_weight
    if weight is not None:
        parts.append(as_entered(weight, units.weight))
    if entry.altitude is not None:
        parts.append(as_entered(entry.altitude, units.altitude))
    if entry.less is not None and entry.for_each is not None:
        less = as_entered(entry.less, units.speed)
        each = as_entered(entry.for_each, units.altitude)
        parts.append(heading("less-above", less=less, each=each))
    if entry.from_altitude:
        parts.append(heading("from", altitude=as_entered(entry.from_altitude, units.altitude)))
    if entry.times_VS0 is not None:
        parts.append(heading("times-VS0-short", times=as_entered(entry.times_VS0, "")))
    if entry.sink is not None:
        parts.append(heading("sink", sink=as_entered(entry.sink, units.sink or "")))
    if entry.when:
        parts.append(entry.when)
    return Message("several", {"parts": tuple(parts)}) if parts else None


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


def markings_table(aircraft: Aircraft, school: School) -> Table | Gap:
    """Return the indicator's arcs and lines, as the manual prints them."""
    markings = aircraft.definition.markings
    title = Message("title-markings")
    if markings is None:
        return Gap("markings", title, Message("missing-markings"))
    return Table(
        "markings",
        title,
        Message("how-markings"),
        (
            words_column("marking"),
            _end_column(aircraft.indicator_unit, "from", main=True),
            _end_column(aircraft.indicator_unit, "to", main=True),
            *(_end_column(aircraft.indicator_unit, one) for one in _shown_ends(aircraft)),
            *(_end_column(aircraft.marked_unit, one) for one in _manual_ends(aircraft)),
            words_column("meaning"),
            words_column("page"),
        ),
        (Block("", None, tuple(_marking_rows(aircraft, markings))),),
        notes=tuple(_marking_notes(aircraft, markings)),
    )


def _end_column(unit: str, name: str, main: bool = False) -> Column:
    return Column(
        name, Message(f"column-{name}"), unit, main=main, shown=not name.startswith("ias")
    )


def _shown_ends(aircraft: Aircraft) -> tuple[str, ...]:
    """Return the columns of where the pointer stands at the speeds that are marked.

    Where a bench card moves it, or the marks are at speeds in CAS.
    """
    bench = aircraft.definition.airframe.instrument_correction
    return ("shown-from", "shown-to") if bench or aircraft.marked_in_cas else ()


def _manual_ends(aircraft: Aircraft) -> tuple[str, ...]:
    """Return the columns of the manual's own figures, if the indicator reads another unit."""
    return () if aircraft.indicator_unit == aircraft.marked_unit else ("ias-from", "ias-to")


def _marking_notes(aircraft: Aircraft, markings: Markings) -> list[Message]:
    notes = []
    if aircraft.marked_in_cas:
        notes.append(Message("note-paint-in-cas"))
    elif _shown_ends(aircraft):
        notes.append(Message("note-paint-and-bench-card"))
    unmarked: tuple[str | Message, ...] = (
        *(heading("flaps", flaps=one) for one in markings.flaps_not_marked),
        *markings.not_marked,
    )
    if unmarked:
        notes.append(heading("note-not-marked", settings=heading("several", parts=unmarked)))
    if falls_with_altitude(aircraft):
        notes.append(Message("note-red-line-low"))
    return notes


def _marking_rows(aircraft: Aircraft, markings: Markings) -> list[Row]:
    rows = []
    for name in Markings.PAINTED:
        marking: Arc | RadialLine | None = getattr(markings, name)
        if marking is None:
            continue
        ends = (marking.from_, marking.to) if isinstance(marking, Arc) else (marking.at,)
        senses = senses_of_mark(marking_id(name))
        glider = "-glider" if name == "blue_line" and aircraft.kind == "glider" else ""
        cells = (
            said(Message(f"marking-{marking_id(name)}")),
            *_end_cells(aircraft, name, marking, [*zip(ends, senses, strict=False)]),
            said(Message(f"meaning-{marking_id(name)}{glider}")),
            said(marking.page),
        )
        rows.append(Row(marking_id(name), cells, subject=marking_id(name)))
    for mark in markings.other_marks:
        cells = (
            said(mark.name),
            *_end_cells(aircraft, "", mark, [(mark.at, "target")]),
            said(mark.means),
            said(mark.page),
        )
        rows.append(Row(f"{slug(mark.name)}-{mark.at:g}", cells, subject=f"mark-{mark.shape}"))
    return rows


Marking = Arc | RadialLine | OtherMark


def _end_cells(
    aircraft: Aircraft, name: str, marking: Marking, ends: Sequence[tuple[Figure, Sense]]
) -> list[Cell]:
    """Return where a marking begins and ends: as painted, as shown, as the manual has it."""
    blank = [BLANK] * (2 - len(ends))
    cells = [_painted(aircraft, figure, marking, sense) for figure, sense in ends] + blank
    if _shown_ends(aircraft):
        cells += [_at_mark(aircraft, name, figure, marking, sense) for figure, sense in ends]
        cells += blank
    if _manual_ends(aircraft):
        unit = aircraft.marked_unit
        cells += [entered(aircraft, figure, marking, unit, sense=sense) for figure, sense in ends]
        cells += blank
    return cells


def _painted(aircraft: Aircraft, figure: Figure, marking: Marking, sense: Sense) -> Cell:
    """Return where a mark is painted, in the indicator's unit; a bench card moves no paint."""
    unit, own = aircraft.marked_unit, aircraft.indicator_unit
    if own == unit:
        return entered(aircraft, figure, marking, own, sense=sense)
    value = float(convert(float(figure), unit, own))
    inputs = (taking("speed", as_entered(figure, unit), source(aircraft, figure)),)
    return computed(value, own, "unit", inputs, sense)


def _at_mark(aircraft: Aircraft, name: str, figure: Figure, marking: Marking, sense: Sense) -> Cell:
    """Return where the pointer stands at a marked speed.

    At a limit in IAS only on the near side of the paint.
    """
    if aircraft.marked_in_cas:
        return _at_cas_mark(aircraft, name, figure, sense)
    limit = sense == "maximum" or name == "red_radial"
    if aircraft.marked_unit == aircraft.units.speed:
        return shown_as_entered(aircraft, figure, marking, sense, limit)
    ias = float(convert(float(figure), aircraft.marked_unit, aircraft.units.speed))
    shown = not_widened(aircraft, ias, sense if limit else "target")
    inputs = (taking("ias", as_entered(figure, aircraft.marked_unit), source(aircraft, figure)),)
    return computed(shown, aircraft.indicator_unit, "indicated-airspeed", inputs, sense)


def _at_cas_mark(aircraft: Aircraft, name: str, figure: Figure, sense: Sense) -> Cell:
    cas = float(convert(float(figure), aircraft.marked_unit, aircraft.units.speed))
    flaps = aircraft.flaps[-1 if name == "white" else 0]
    inputs = (
        taking("cas", as_entered(figure, aircraft.marked_unit), source(aircraft, figure)),
        taking("flaps", flaps),
    )
    return at_cas(aircraft, cas, sense, "indicated-from-calibrated", inputs, flaps)[0]
