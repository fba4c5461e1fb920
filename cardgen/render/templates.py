"""Where templates are found, and what they may call."""

from pathlib import Path
from typing import Any

import fontpkg_ibm_plex_sans_condensed
import jinja2

from cardgen.cards.card import CAUTIONS
from cardgen.cards.formulas import FORMULAS
from cardgen.cards.table import Cell, Column, Table
from cardgen.definition.speeds import SPEEDS
from cardgen.render.origins import formulas_of, origin_sentences, row_origins, small_origin
from cardgen.render.switch import SPEED_UNITS, convertible, sense_of
from cardgen.render.terms import anchor
from cardgen.words.english import ENGLISH
from cardgen.words.language import Language

PACKAGE = Path(__file__).parents[1]
PICTURES = ("picture.svg", "picture.png")
FONTS = Path(str(fontpkg_ibm_plex_sans_condensed.__file__)).parent / "files"


def own_templates() -> Path:
    """Return the folder of templates: inside an installed package, beside a clone's."""
    packed = PACKAGE / "templates"
    return packed if packed.is_dir() else PACKAGE.parent / "templates"


class Templates:
    """The templates of a site.

    Parameters
    ----------
    overrides : Path, optional
        A school's own folder; a file there stands in for ours of the same name.

    Attributes
    ----------
    picture : Path or None
        The school's picture, ``picture.svg`` or ``picture.png`` in its folder.
    """

    def __init__(self, overrides: Path | None = None, language: Language = ENGLISH) -> None:
        self.language = language
        own = [overrides / name for name in PICTURES] if overrides else []
        self.picture = next((path.resolve() for path in own if path.is_file()), None)
        folders = [path for path in (overrides, own_templates()) if path and path.is_dir()]
        self.environment = jinja2.Environment(
            loader=jinja2.FileSystemLoader(folders),
            autoescape=jinja2.select_autoescape(["html", "svg"]),
            undefined=jinja2.StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
            keep_trailing_newline=True,
        )
        self.environment.filters.update(anchor=anchor, convertible=convertible)
        self.environment.globals.update(
            breadth=breadth,
            cautions=CAUTIONS,
            column_groups=column_groups,
            figure=language.figure,
            fonts=FONTS.as_uri(),
            label=language.label,
            language=language.code,
            say=language.say,
            formulas=FORMULAS,
            formulas_of=formulas_of,
            origin_sentences=origin_sentences,
            row_origins=row_origins,
            sense_of=sense_of,
            picture=self.picture,
            small_origin=small_origin,
            speed_units=SPEED_UNITS,
            speeds=SPEEDS,
        )

    def render(self, name: str, **values: Any) -> str:
        """Return a template filled with values."""
        return self.environment.get_template(name).render(**values)


def column_groups(table: Table) -> list[tuple[str, list[Column]]]:
    """Return a table's columns, neighbours of one group together.

    A column without a group stands alone.
    """
    groups: list[tuple[str, list[Column]]] = []
    for column in table.columns:
        if column.group and groups and groups[-1][0] == column.group:
            groups[-1][1].append(column)
        else:
            groups.append((column.group, [column]))
    return groups


def breadth(table: Table) -> float:
    """Return about how many digits wide a table is on a page."""
    small = 0.75  # of a digit, is a letter of a heading or of what stands small in a cell

    def wide(cell: Cell) -> float:
        beside = f"{cell.label} " * bool(cell.label) + (f" {cell.also.text}" if cell.also else "")
        number = len(cell.text) - 0.5 * cell.text.count(".") + cell.beyond
        return number + small * len(beside)

    def widest(at: int, column: Column) -> float:
        heads = column.heading.split() if at < table.stub else [column.heading]
        return 1.6 + max([small * max(map(len, heads)), *(wide(row[at]) for row in table.rows)])

    return sum(widest(at, column) for at, column in enumerate(table.columns))
