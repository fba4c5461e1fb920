"""The code of a sheet, drawn: black on white, by day and by night."""

from collections.abc import Iterator
from itertools import groupby

from cardgen.layout.code import Modules
from cardgen.render.shapes import Drawing, Shape


def draw_code(modules: Modules) -> Drawing:
    """Return a code as one path, so that nothing shows between its modules."""
    side = float(len(modules))
    path = "".join(run for y, row in enumerate(modules) for run in _runs(y, row))
    return Drawing("code", (0.0, 0.0, side, side), (Shape("modules", path, "ink", width=0.0),))


def _runs(y: int, row: tuple[bool, ...]) -> Iterator[str]:
    """Yield the black modules of a row that stand side by side, as a box each.

    Examples
    --------
    >>> list(_runs(3, (True, True, False, True)))
    ['M0 3h2v1h-2z', 'M3 3h1v1h-1z']
    """
    x = 0
    for black, run in groupby(row):
        wide = len(list(run))
        if black:
            yield f"M{x} {y}h{wide}v1h-{wide}z"
        x += wide
