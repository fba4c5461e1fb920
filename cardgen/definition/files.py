"""The files of a folder of definitions, which may be a stranger's.

Only regular files of the folder are opened: no link leads out of it, no pipe is waited for.
"""

import os
import stat
from pathlib import Path

from cardgen.definition.places import DefinitionError, Fault, Place
from cardgen.folders import leads_out

ROOMS = ("types", "fleet")  # the folders of definitions beside the school's file
LARGEST_FILE = 1024 * 1024  # bytes
LARGEST_RECORD = 8 * LARGEST_FILE  # the largest card that there may be has some 2 MiB
_KINDS = {
    stat.S_IFDIR: "a folder",
    stat.S_IFIFO: "a pipe",
    stat.S_IFSOCK: "a socket",
    stat.S_IFCHR: "a device",
    stat.S_IFBLK: "a device",
}
_FLAGS = sum(getattr(os, name, 0) for name in ("O_NONBLOCK", "O_NOFOLLOW", "O_CLOEXEC", "O_BINARY"))


def definitions_in(folder: Path) -> list[Path]:
    """Return the paths of a folder's definitions, which may be none, links, or not there."""
    rooms = (folder / room for room in ROOMS)
    return [folder / "school.yaml", *(path for room in rooms for path in read_in(room))]


def read_in(room: Path) -> list[Path]:
    """Return the paths of definitions in ``types`` or ``fleet``.

    What begins with a point is an editor's or a file system's, and none.
    """
    return sorted(path for path in room.glob("*.yaml") if not path.name.startswith("."))


def unread_in(room: Path) -> list[Path]:
    """Return what stands in ``types`` or ``fleet`` as if it were a definition, and is not read.

    That is a file of another ending for YAML, and one in a folder below.
    """
    others = (path for path in room.glob("*") if not path.name.startswith("."))
    found = []
    for path in others:
        if path.suffix != ".yaml" and path.suffix.casefold() in (".yaml", ".yml"):
            found.append(path)
        elif path.is_dir() and not path.is_symlink():
            found += read_in(path)
    return sorted(found)


def records_in(folder: Path) -> list[Path]:
    """Return the paths of the records of signed cards beside a folder's definitions."""
    return [*folder.glob("signed/*/*.txt")]


def inside(folder: Path, path: Path) -> Path:
    """Return where a path of a folder leads to.

    Raises
    ------
    DefinitionError
        If it is, or goes through, a link that leads out of the folder.
    """
    if leads_out(folder, folder / path):
        said = "found a link that leads out of the folder, expected a file or folder in it"
        raise DefinitionError([Fault(Place(path.as_posix(), 1, 1), said)])
    return Path(os.path.realpath(folder / path))


def content_of(path: Path, name: str, most: int = LARGEST_FILE) -> bytes:
    """Return the bytes of a regular file.

    Parameters
    ----------
    path : Path
    name : str
        What messages call it.
    most : int
        How many bytes it may have, a whole number of MiB.

    Raises
    ------
    DefinitionError
        If it is something else, such as a pipe, or larger.
    """
    end = Path(os.path.realpath(path))
    kind = stat.S_IFMT(end.stat().st_mode)
    if kind != stat.S_IFREG:
        said = f"found {_KINDS.get(kind, 'something else')}, expected a file"
        raise DefinitionError([Fault(Place(name, 1, 1), said)])
    with os.fdopen(os.open(end, os.O_RDONLY | _FLAGS), "rb") as file:
        content = file.read(most + 1)
        size = os.fstat(file.fileno()).st_size
    if len(content) > most:
        said = f"the file has {max(size, len(content))} bytes, expected at most {most >> 20} MiB"
        raise DefinitionError([Fault(Place(name, 1, 1), said)])
    return content
