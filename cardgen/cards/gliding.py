"""How far an aircraft glides: as the manual gives it, and by height."""

from cardgen.airframe.aircraft import Aircraft
from cardgen.airframe.gliding import ratio_of
from cardgen.cards.cells import (
    as_entered,
    computed,
    entered,
    given,
    heading,
    said,
    source,
    taking,
    words_column,
)
from cardgen.cards.indicated import at_cas, differs, indicated_column, shown_as_entered
from cardgen.definition.gliding import Glide, Polar
from cardgen.definition.identifiers import named_cases
from cardgen.definition.model import School
from cardgen.definition.places import Figure
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
)
from cardgen.document.rounding import kept
from cardgen.units import convert


def gliding_table(aircraft: Aircraft, school: School) -> Table | None:
    """Return the manual's glides; None where it gives but one ratio, which goes by itself."""
    named = named_cases(aircraft.definition.type.glide)
    if not any(_says_more(glide) for _, glide in named):
        return None
    columns = _columns(aircraft, [glide for _, glide in named])
    return Table(
        "gliding",
        Message("title-gliding"),
        Message("how-gliding"),
        columns,
        (
            Block(
                "",
                None,
                tuple(
                    Row(case or "glide", tuple(_cells(aircraft, glide, columns)))
                    for case, glide in named
                ),
            ),
        ),
        notes=(Message("note-still-air"),),
    )


def _says_more(glide: Glide) -> bool:
    return any(
        getattr(glide, name) is not None
        for name in type(glide).model_fields
        if name not in ("ratio", "page")
    )


def _columns(aircraft: Aircraft, glides: list[Glide]) -> tuple[Column, ...]:
    units = aircraft.units
    with_ias = any(one.ias is not None for one in glides)
    flown = with_ias or any(one.cas is not None for one in glides)
    distances = any(one.distance is not None for one in glides)
    wanted = [
        (words_column("glide-when"), True),
        (Column("ratio", Message("column-glide-ratio")), True),
        (Column("distance", Message("column-distance"), units.far), distances),
        (Column("for-height", Message("column-for-height"), units.high), distances),
        (indicated_column(aircraft), flown),
        (Column("ias", Message("column-manual-ias"), units.speed), with_ias and differs(aircraft)),
        (Column("cas", Message("column-cas"), units.speed), any(one.cas for one in glides)),
        (Column("sink", Message("column-sink"), units.sink or ""), any(one.sink for one in glides)),
        (words_column("page"), True),
    ]
    return tuple(column for column, is_wanted in wanted if is_wanted)


def _cells(aircraft: Aircraft, glide: Glide, columns: tuple[Column, ...]) -> list[Cell]:
    own = {
        "glide-when": said(conditions(aircraft, glide) or Message("glide-any")),
        "ratio": _ratio_cell(aircraft, glide),
        "indicated": _shown(aircraft, glide),
        "page": said(glide.page),
    }
    return [own.get(one.id) or _as_entered(aircraft, glide, one) for one in columns]


def conditions(aircraft: Aircraft, group: Glide | Polar) -> Message | None:
    """Return what a glide or a polar holds for; None where it does not say."""
    units = aircraft.units
    parts: list[str | Unit | Quantity | Message] = []
    if group.flaps is not None and len(aircraft.flaps) > 1:
        parts.append(heading("flaps", flaps=group.flaps))
    if isinstance(group, Glide) and group.gear:
        parts.append(Message(f"gear-{group.gear}"))
    if group.weight is not None:
        parts.append(as_entered(group.weight, units.weight))
    if isinstance(group, Polar) and group.altitude is not None:
        parts.append(as_entered(group.altitude, units.altitude))
    if group.when:
        parts.append(group.when)
    return Message("several", {"parts": tuple(parts)}) if parts else None


def _as_entered(aircraft: Aircraft, glide: Glide, column: Column) -> Cell:
    figure: Figure | None = getattr(glide, column.id.replace("-", "_"))
    return BLANK if figure is None else entered(aircraft, figure, glide, column.unit)


def _shown(aircraft: Aircraft, glide: Glide) -> Cell:
    if glide.ias is not None:
        return shown_as_entered(aircraft, glide.ias, glide, "target")
    if glide.cas is None:
        return BLANK
    at = taking("cas", as_entered(glide.cas, aircraft.units.speed), source(aircraft, glide.cas))
    formula = "indicated-from-calibrated"
    return at_cas(aircraft, float(glide.cas), "target", formula, (at,), glide.flaps)[0]


def _ratio_cell(aircraft: Aircraft, glide: Glide) -> Cell:
    if glide.ratio is not None:
        return entered(aircraft, glide.ratio, glide, "", sense="maximum")
    assert glide.distance is not None
    assert glide.for_height is not None
    inputs = (
        _taking(aircraft, "distance", glide.distance, aircraft.units.far),
        _taking(aircraft, "height", glide.for_height, aircraft.units.high),
    )
    return computed(ratio_of(aircraft, glide), "", "glide-ratio", inputs, "maximum", 1)


def _taking(aircraft: Aircraft, name: str, figure: Figure, unit: str) -> Input:
    return taking(name, as_entered(figure, unit), source(aircraft, figure))


# -- by height -----------------------------------------------------------------------------------


def glide_table(aircraft: Aircraft, school: School) -> Table | Gap:
    """Return glide distance by height."""
    named = named_cases(aircraft.definition.type.glide)
    title = Message("title-glide")
    if not named:
        return Gap("glide", title, Message("missing-glide"))
    unit = aircraft.units.altitude
    heights = range(1000, 10001, 1000) if unit == "ft" else range(300, 3001, 300)
    rows = tuple(
        Row(
            f"height-{height}",
            (
                given(float(height), unit),
                *(_distance(aircraft, glide, height) for _, glide in named),
            ),
        )
        for height in heights
    )
    ratios = tuple(_ratio(aircraft, glide) for _, glide in named)
    return Table(
        "glide",
        title,
        Message("how-glide" if len(named) == 1 else "how-glide-cases"),
        (Column("height", Message("column-height"), unit), *_distance_columns(aircraft)),
        (Block("", None, rows),),
        notes=(heading("note-glide", ratio=ratios),),
    )


def _distance_columns(aircraft: Aircraft) -> list[Column]:
    """Return a column for each glide, by what it holds for where there are several."""
    named, far = named_cases(aircraft.definition.type.glide), aircraft.units.far
    if len(named) == 1:
        return [Column("distance", Message("column-glide"), far)]
    return [
        Column(
            "-".join(filter(None, ("distance", case.replace("/", "-")))),
            conditions(aircraft, glide) or Message("glide-any"),
            far,
            heading("group-glide", unit=Unit(far)),
        )
        for case, glide in named
    ]


def _ratio(aircraft: Aircraft, glide: Glide) -> Quantity:
    if glide.ratio is not None:
        return as_entered(glide.ratio, "")
    return Quantity(kept(ratio_of(aircraft, glide)), sense="maximum", decimals=1)


def _distance(aircraft: Aircraft, glide: Glide, height: int) -> Cell:
    unit, far = aircraft.units.altitude, aircraft.units.far
    value = float(convert(height * ratio_of(aircraft, glide), unit, far))
    inputs = (
        taking("height", Quantity(float(height), unit)),
        taking(
            "glide-ratio", _ratio(aircraft, glide), source(aircraft, glide.ratio or glide.distance)
        ),
    )
    return computed(value, far, "glide-distance", inputs, "maximum", 1)
