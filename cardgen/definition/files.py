"""The files of a folder of definitions, which may be a stranger's.

Only regular files of the folder are opened: no link leads out of it, no pipe is waited for.
"""

import os
import stat
from pathlib import Path

from cardgen.definition.places import DefinitionError, Fault, Place
from cardgen.folders import leads_out

ROOMS = ("types", "fleet")  # the folders of definitions beside the school's file
SIGNED = "signed"  # the one of records of signed cards
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
    """Return the paths of a folder's definitions in it, of which the school's may not be there."""
    return [Path("school.yaml"), *(path for room in ROOMS for path in read_in(folder, room))]


def read_in(folder: Path, room: str) -> list[Path]:
    """Return the paths of definitions in a folder's ``types`` or ``fleet``."""
    return [Path(room, name) for name in _names_in(folder, room) if Path(name).suffix == ".yaml"]


def unread_in(folder: Path, room: str) -> list[Path]:
    """Return what stands in ``types`` or ``fleet`` as if it were a definition, and is not read.

    That is a file of another ending for YAML, and one in a folder below.
    """
    found = []
    for name in _names_in(folder, room):
        path = Path(room, name)
        if path.suffix != ".yaml" and path.suffix.casefold() in (".yaml", ".yml"):
            found.append(path)
        elif not (folder / path).is_symlink():
            found += read_in(folder, path.as_posix())
    return found


def records_in(folder: Path) -> list[Path]:
    """Return the paths of the records of signed cards beside a folder's definitions."""
    return [path for one in _names_in(folder, SIGNED) for path in records_of(folder, one)]


def records_of(folder: Path, registration: str) -> list[Path]:
    """Return the paths of an aircraft's records among them."""
    room = f"{SIGNED}/{registration}"
    return [Path(room, name) for name in _names_in(folder, room) if Path(name).suffix == ".txt"]


def _names_in(folder: Path, room: str) -> list[str]:
    """Return what stands in a folder of a folder: nothing where it is none, or not there.

    What begins with a point is an editor's or a file system's, and left out.

    Raises
    ------
    DefinitionError
        If it is a link that leads out of the folder.
    OSError
        If it may not be listed.
    """
    try:
        names = [one.name for one in inside(folder, Path(room)).iterdir()]
    except (FileNotFoundError, NotADirectoryError):
        return []
    return sorted(name for name in names if not name.startswith("."))


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
