"""Folders and files: the program's templates, a school's, what leads astray, writing whole."""

import os
from contextlib import suppress
from pathlib import Path

PICTURES = ("picture.svg", "picture.png")
_PACKAGE = Path(__file__).parent


class OwnFileError(Exception):
    """A file of a school's own templates cannot be used; its place is told from their folder."""

    def __init__(self, place: str, said: str) -> None:
        super().__init__(place, said)

    def __str__(self) -> str:
        place, said = self.args
        return f"{place or 'templates'}: error: {said}"


def own_templates() -> Path:
    """Return the folder of templates: inside an installed package, beside a clone's."""
    packed = _PACKAGE / "templates"
    return packed if packed.is_dir() else _PACKAGE.parent / "templates"


def files_in(folder: Path) -> list[Path]:
    """Return the paths, in a folder, of the files and links in it and below; none if it is none.

    Raises
    ------
    OSError
        If it, or a folder in it, may not be listed.
    """
    found = []
    for top, folders, files in os.walk(folder, onerror=_raised):
        links = [name for name in folders if Path(top, name).is_symlink()]
        found += [Path(top, name).relative_to(folder) for name in files + links]
    return sorted(found)


def _raised(error: OSError) -> None:
    if not isinstance(error, (FileNotFoundError, NotADirectoryError)):
        raise error


def leads_out(folder: Path, path: Path) -> bool:
    """Whether a path is, or goes through, a link that leads out of a folder."""
    return not is_within(os.path.realpath(folder), os.path.realpath(path))


def is_within(folder: str, path: str) -> bool:
    """Whether one real path is another, or stands in it."""
    return path == folder or path.startswith(folder.rstrip(os.sep) + os.sep)


def write_whole(path: Path, data: bytes) -> None:
    """Write a file that is there whole, or as it was; in the place of an old one, or of a link."""
    part = path.with_name(f".{path.name[:200]}.{os.getpid()}")
    try:
        part.unlink(missing_ok=True)  # what stands there may be a link that leads elsewhere
        with part.open("xb") as file:
            file.write(data)
        part.replace(path)
    except BaseException:
        with suppress(OSError):
            part.unlink()
        raise


def write_named(path: Path, data: bytes) -> None:
    """Write a file that somebody named: to where a link leads, to a device, or else whole."""
    if path.is_symlink() or (path.exists() and not path.is_file()):
        path.write_bytes(data)
    else:
        write_whole(path, data)
