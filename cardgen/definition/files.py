"""The files of a folder of definitions, which may be a stranger's.

Only regular files of the folder are opened: no link leads out of it, no pipe is waited for.
"""

import os
import stat
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from cardgen.definition.places import DefinitionError, Fault, Place
from cardgen.definition.shown import hidden, path_told
from cardgen.folders import is_within

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


class Listing(Protocol):
    """What stands in a folder of definitions: on a disk, or in a revision of a repository."""

    def names(self, room: str) -> list[str]:
        """Return what stands in one of its folders; nothing where it is none, or not there.

        Raises
        ------
        DefinitionError
            If it is a link that leads out of the folder.
        OSError
            If it may not be listed.
        """

    def is_link(self, path: Path) -> bool:
        """Whether something in it is a link."""


@dataclass(frozen=True)
class Disk:
    """A folder of definitions on a disk; see `Listing`."""

    folder: Path

    def names(self, room: str) -> list[str]:
        """Return what stands in one of its folders."""
        try:
            return [one.name for one in inside(self.folder, Path(room)).iterdir()]
        except (FileNotFoundError, NotADirectoryError):
            return []

    def is_link(self, path: Path) -> bool:
        """Whether something in it is a link."""
        return (self.folder / path).is_symlink()


def definitions_in(of: Listing | Path) -> list[Path]:
    """Return the paths of a folder's definitions in it, of which the school's may not be there."""
    return [Path("school.yaml"), *(path for room in ROOMS for path in read_in(of, room))]


def read_in(of: Listing | Path, room: str) -> list[Path]:
    """Return the paths of definitions in a folder's ``types`` or ``fleet``."""
    return [Path(room, name) for name in _names(of, room) if Path(name).suffix == ".yaml"]


def unread_in(of: Listing | Path, room: str) -> list[Path]:
    """Return what stands in ``types`` or ``fleet`` as if it were a definition, and is not read.

    That is a file of another ending for YAML, and one in a folder below.
    """
    found = []
    for name in _names(of, room):
        path = Path(room, name)
        if path.suffix == ".yaml":
            continue
        if path.suffix.casefold() in (".yaml", ".yml"):
            found.append(path)
        elif not _listing(of).is_link(path):
            found += read_in(of, path.as_posix())
    return found


def unread(path: Path) -> Fault:
    """Return what is told of a file that is not read, since nobody would miss its aircraft."""
    expected = path_told(Path(path.parts[0], f"{path.stem}.yaml"))
    said = f"found a file that is not read, expected it as {expected}"
    return Fault(Place(path_told(path), 1, 1), said)


def records_in(of: Listing | Path) -> list[Path]:
    """Return the paths of the records of signed cards beside a folder's definitions."""
    return [path for one in _names(of, SIGNED) for path in records_of(of, one)]


def records_of(of: Listing | Path, registration: str) -> list[Path]:
    """Return the paths of an aircraft's records among them."""
    room = f"{SIGNED}/{registration}"
    return [Path(room, name) for name in _names(of, room) if Path(name).suffix == ".txt"]


def _names(of: Listing | Path, room: str) -> list[str]:
    """Return what stands in a room, but what an editor or a file system keeps there."""
    return sorted(name for name in _listing(of).names(room) if not name.startswith("."))


def _listing(of: Listing | Path) -> Listing:
    return Disk(of) if isinstance(of, Path) else of


def inside(folder: Path, path: Path) -> Path:
    """Return where a path of a folder leads to.

    Raises
    ------
    DefinitionError
        If it is, or goes through, a link that leads out of the folder.
    """
    end = os.path.realpath(folder / path)
    if not is_within(os.path.realpath(folder), end):
        raise DefinitionError([astray(path)])
    return Path(end)


def unseen(path: Path) -> Fault | None:
    """Return what is told of a file whose name has a character that does not show, if it has."""
    name = path.as_posix()
    if hidden(name) is None and not set(name) & set("\n\t"):
        return None
    said = "found a file name with a character that does not show, expected one without"
    return Fault(Place(path_told(path), 1, 1), said)


def nowhere(path: Path) -> Fault:
    """Return what is told of a link to nothing."""
    return Fault(Place(path_told(path), 1, 1), "found a link to nothing, expected a file")


def astray(path: Path) -> Fault:
    """Return what is told of a link that leads out of the folder."""
    said = "found a link that leads out of the folder, expected a file or folder in it"
    return Fault(Place(path_told(path), 1, 1), said)


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
