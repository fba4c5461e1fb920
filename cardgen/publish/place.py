"""Putting a finished site in place of the one before."""

import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

MARK = "cardgen.json"  # stands in every site that we built


class PlaceError(Exception):
    """The folder to write is not one of ours."""


class OnlyError(PlaceError):
    """Some aircraft were asked for that cannot be made alone in a site."""


@contextmanager
def replacing(out: Path) -> Iterator[Path]:
    """Give a new folder to build in, which takes the place of `out` when all went well.

    Parameters
    ----------
    out : Path
        Where the site shall stand.

    Yields
    ------
    Path
        An empty folder beside `out`.

    Raises
    ------
    PlaceError
        If `out` is there already, holds something, and is not a site of ours.

    Notes
    -----
    Whatever is raised inside leaves `out` as it was.
    """
    if out.exists() and not _ours(out):
        raise PlaceError(
            f"{out} is not a site that cardgen built, and would be lost; "
            "name an empty or new folder with --out"
        )
    out.parent.mkdir(parents=True, exist_ok=True)
    workshop = Path(tempfile.mkdtemp(prefix=f".{out.name}-", dir=out.parent))
    try:
        new, old = workshop / "new", workshop / "old"
        new.mkdir()
        yield new
        if out.exists():
            out.rename(old)
        try:
            new.rename(out)
        except OSError:
            if old.exists():
                old.rename(out)
            raise
    finally:
        shutil.rmtree(workshop, ignore_errors=True)


def _ours(folder: Path) -> bool:
    if not folder.is_dir():
        return False
    return (folder / MARK).is_file() or not any(folder.iterdir())
