"""The school's own files, which stand in its site as they stand in `static` with its definitions.

Only the standard library is imported.
"""

import errno
from collections.abc import Collection
from pathlib import Path

from cardgen.definition.files import content_of, inside, nowhere, unseen
from cardgen.definition.places import DefinitionError, Fault, Place
from cardgen.folders import files_in
from cardgen.publish.manifest import INNER, folders_above

FOLDER = "static"
LARGEST = 64 * 1024 * 1024  # bytes


def static_in(definitions: Path) -> list[str]:
    """Return the paths of a school's own files.

    Raises
    ------
    DefinitionError
        If the folder is a link that leads out of the definitions, or holds a repository.
    """
    top = inside(definitions, Path(FOLDER))
    files = files_in(top)
    if any(".git" in path.parts for path in files):
        raise DefinitionError([_fault(".git", "found a repository, expected files to copy")])
    taken = next((path for path in files if path.parts[0] == INNER), None)
    if taken is not None:
        raise DefinitionError([_fault(INNER, "a build works there, expected another name")])
    if odd := [fault for path in files if (fault := unseen(Path(FOLDER, path)))]:
        raise DefinitionError(odd)
    return [path.as_posix() for path in files]


def static_file(definitions: Path, name: str) -> bytes:
    """Return what one of a school's own files holds.

    Raises
    ------
    DefinitionError
        If it is no file, too large, or a link that leads out of their folder.
    """
    top = inside(definitions, Path(FOLDER))
    try:
        end = inside(top, Path(name))
    except DefinitionError as error:
        raise DefinitionError([_fault(name, one.message) for one in error.faults]) from None
    try:
        return content_of(end, f"{FOLDER}/{name}", LARGEST)
    except OSError as error:
        if error.errno not in (errno.ENOENT, errno.ELOOP):
            raise
        raise DefinitionError([nowhere(Path(FOLDER, name))]) from None


def refuse_taken(names: Collection[str], made: Collection[str]) -> None:
    """Hold the names of a school's own files against those that a build makes, in any capitals.

    Raises
    ------
    DefinitionError
        If one is the other's, or one is a folder that the other is to stand in.
    """
    files = {path.casefold(): path for path in made}
    folders = {one: real for path, real in files.items() for one in _above(path)}
    faults, seen = [], dict[str, str]()
    for name in names:
        plain = name.casefold()
        if (other := seen.setdefault(plain, name)) != name:
            said = f"it is {other} but for capitals, expected a name of its own"
            faults.append(_fault(name, said))
        taken = next((files[one] for one in (plain, *_above(plain)) if one in files), None)
        taken = taken or folders.get(plain)
        if taken:
            said = f"cardgen makes {taken} of the site itself, expected another name"
            faults.append(_fault(name, said))
    if faults:
        raise DefinitionError(faults)


def _above(path: str) -> list[str]:
    return [str(one) for one in folders_above(path)]


def _fault(name: str, said: str) -> Fault:
    return Fault(Place(f"{FOLDER}/{name}", 1, 1), said)
