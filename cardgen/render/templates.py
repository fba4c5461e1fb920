"""Where templates are found, and what they may call."""

from pathlib import Path
from typing import Any

import fontpkg_ibm_plex_sans_condensed
import jinja2

from cardgen.cards.card import CAUTIONS
from cardgen.cards.formulas import FORMULAS
from cardgen.cards.table import Cell, Column, Computed, Entered, Table

PACKAGE = Path(__file__).parents[1]
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
    """

    def __init__(self, overrides: Path | None = None) -> None:
        folders = [path for path in (overrides, own_templates()) if path and path.is_dir()]
        self.environment = jinja2.Environment(
            loader=jinja2.FileSystemLoader(folders),
            autoescape=jinja2.select_autoescape(["html", "svg"]),
            undefined=jinja2.StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
            keep_trailing_newline=True,
        )
        self.environment.filters["origin"] = origin
        self.environment.globals.update(
            cautions=CAUTIONS, formulas=FORMULAS, column_groups=column_groups, fonts=FONTS.as_uri()
        )

    def render(self, name: str, **values: Any) -> str:
        """Return a template filled with values."""
        return self.environment.get_template(name).render(**values)


def origin(cell: Cell) -> str:
    """Say in words where a cell's number comes from; nothing for words and headings."""
    match cell.origin:
        case Entered(file, line, document, page):
            where = f"page {page} of {document}" if page else document
            return f"Entered: {where} ({file}, line {line})"
        case Computed(formula, inputs):
            said = ", ".join(f"{name} {value}" for name, value in inputs.items())
            return f"Computed: {FORMULAS[formula].title}: {said}"
    return ""


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
