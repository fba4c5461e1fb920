"""The states of a fleet that can be compared: a git revision, a folder of definitions, a site.

A revision is read by git's plumbing: neither the working tree nor the index is touched.
"""

import errno
import os
import subprocess
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property, partial
from pathlib import Path
from typing import TypeVar

from cardgen.definition.files import (
    LARGEST_FILE,
    LARGEST_RECORD,
    ROOMS,
    SIGNED,
    astray,
    content_of,
    definitions_in,
    inside,
    nowhere,
    records_in,
    unread,
    unread_in,
)
from cardgen.definition.places import Block, DefinitionError, Fault
from cardgen.definition.reading import parse_yaml
from cardgen.publish.manifest import MARK

_MOST_LINKS = 40  # that lead to one another; as many as Linux follows
_GIT = {"GIT_OPTIONAL_LOCKS": "0", "GIT_TERMINAL_PROMPT": "0", "GIT_NO_LAZY_FETCH": "1"}
_OF_HOOKS = ("GIT_DIR", "GIT_WORK_TREE", "GIT_INDEX_FILE", "GIT_PREFIX")  # what a hook is told


Content = TypeVar("Content")
_Object = tuple[str, int]  # a file's content as git names it, and its size


class StateError(Exception):
    """What was named is no state of a fleet."""


class CutHistoryError(OSError):
    """A revision is not in this clone, or not all of it."""


@dataclass(frozen=True)
class Definitions:
    """A folder of definitions as it is, or as it was at a revision.

    Attributes
    ----------
    name : str
        What the command calls it.
    folder : Path
        Where its files stand, for people.
    files : dict of str to bytes
        Its files, by their place in the folder.
    revision : str
        Nothing for a folder.
    records : dict of str to bytes
        The records of signed cards beside them, likewise.
    odd : tuple of Fault
        For what stands among them as if it were a definition, and is not or cannot be read.
    """

    name: str
    folder: Path
    files: dict[str, bytes] = field(repr=False)
    revision: str = ""
    records: dict[str, bytes] = field(default_factory=dict, repr=False)
    odd: tuple[Fault, ...] = ()

    def parsed(self, file: str) -> Block:
        """Return what stands in a file of it."""
        try:
            return parse_yaml(self.files[file], file)
        except DefinitionError as error:
            raise self.told(error) from None

    def told(self, error: DefinitionError) -> DefinitionError:
        """Return faults with the whole way to their files, behind the revision as git has it."""
        return DefinitionError(
            Fault(fault.place._replace(file=self._way(fault.place.file)), fault.message)
            for fault in error.faults
        )

    def _way(self, file: str) -> str:
        way = (self.folder / file).as_posix()
        return f"{self.revision}:{way}" if self.revision else way


@dataclass(frozen=True)
class Site:
    """A site that was built."""

    name: str
    folder: Path


State = Definitions | Site


def state_of(name: str, definitions: Path) -> State:
    """Return what a name stands for: a site or a folder of definitions, or else a revision.

    Parameters
    ----------
    name : str
        As typed; a branch that is called as a folder is ``refs/heads/...``.
    definitions : Path
        The folder of definitions, of which a revision of its repository is read.

    Raises
    ------
    StateError
        If it is none of these.
    CutHistoryError
        If a revision is lacking where the clone's history is cut.
    """
    folder = Path(name)
    if (folder / MARK).is_file():
        return Site(name, folder)
    if (folder / "school.yaml").is_file():
        return working(folder)
    return _at_revision(name, definitions)


def working(folder: Path) -> Definitions:
    """Return a folder of definitions as it is now."""
    if not (folder / "school.yaml").is_file():
        raise StateError(f"{folder} has no school.yaml")
    odd = [unread(path) for room in ROOMS for path in unread_in(folder, room)]
    files = dict(_read(definitions_in(folder), partial(_now, folder), odd))
    signed = {path.as_posix(): _recorded(folder, path) for path in records_in(folder)}
    return Definitions(str(folder), folder, files, records=signed, odd=tuple(odd))


def _now(folder: Path, path: Path) -> bytes:
    """Return what stands in a file; of one that is too large to be read, as many blanks."""
    end = inside(folder, path)
    try:
        large = end.stat().st_size > LARGEST_FILE
    except OSError as error:
        if error.errno not in (errno.ENOENT, errno.ELOOP):
            raise
        raise DefinitionError([nowhere(path)]) from None
    return b" " * (LARGEST_FILE + 1) if large else content_of(end, path.as_posix())


def _recorded(folder: Path, path: Path) -> bytes:
    """Return what stands in a record; nothing, which is none, where it cannot be read."""
    try:
        return content_of(inside(folder, path), path.as_posix(), LARGEST_RECORD)
    except (OSError, DefinitionError):
        return b""


def _at_revision(name: str, definitions: Path) -> Definitions:
    folder = next(one for one in (definitions, *definitions.absolute().parents) if one.is_dir())
    prefix = _repository(name, folder, definitions)
    commit = _commit(name, folder)
    listed = _git(folder, "ls-tree", "-zrl", "--full-tree", commit)
    tree = _tree(name, folder, dict(_listed(listed, prefix)))
    if not tree.is_file("school.yaml"):
        raise StateError(f"{name} has no {prefix}school.yaml")
    try:
        odd = [unread(path) for room in ROOMS for path in unread_in(tree, room)]
        files = dict(_read(definitions_in(tree), tree.file, odd))
        signed = dict(_read(records_in(tree), tree.file, []))
    except DefinitionError as error:
        raise Definitions(name, definitions, {}, name).told(error) from None
    texts = dict(zip(files, _contents(name, folder, files.values()), strict=True))
    said = _contents(name, folder, signed.values(), LARGEST_RECORD)
    records = dict(zip(signed, said, strict=True))
    return Definitions(name, definitions, texts, name, records, tuple(odd))


def _read(
    paths: Iterable[Path], read: Callable[[Path], Content], odd: list[Fault]
) -> Iterator[tuple[str, Content]]:
    """Yield what stands at each path; what cannot be read is told."""
    for path in paths:
        try:
            yield path.as_posix(), read(path)
        except DefinitionError as error:
            odd += error.faults


@dataclass(frozen=True)
class _Tree:
    """The files of a revision below the definitions; see `files.Listing`.

    Attributes
    ----------
    files : dict
        The object and the size of each file, by its path.
    links : dict
        Where each link leads.
    """

    name: str
    files: dict[str, _Object]
    links: dict[str, str]

    def names(self, room: str) -> list[str]:
        """Return what stands in one of its folders."""
        return self._names.get(self._real(room), [])

    def is_link(self, path: Path) -> bool:
        """Whether something in it is a link."""
        return f"{self._real(path.parent.as_posix())}/{path.name}" in self.links

    def is_file(self, path: str) -> bool:
        """Whether a path leads to a file in the folder."""
        try:
            return self._real(path) in self.files
        except DefinitionError:
            return False

    def file(self, path: Path) -> _Object:
        """Return the object and the size of the file that a path leads to."""
        found = self.files.get(self._real(path.as_posix()))
        if found is None:
            raise DefinitionError([nowhere(path)])
        return found

    @cached_property
    def _names(self) -> dict[str, list[str]]:
        found: dict[str, dict[str, None]] = {}
        for path in (*self.files, *self.links):
            while path:
                folder, _, name = path.rpartition("/")
                found.setdefault(folder, {})[name] = None
                path = folder
        return {folder: list(names) for folder, names in found.items()}

    def _real(self, path: str) -> str:
        """Return where a path leads to, by whatever links."""
        left, real, links = path.split("/")[::-1], list[str](), 0
        while left:
            part = left.pop()
            here = "/".join([*real, part])
            if part == ".." and not real:
                raise DefinitionError([astray(Path(path))])
            if part in ("", ".", ".."):
                real = real[:-1] if part == ".." else real
            elif here in self.links:
                links += 1
                target = self.links[here]
                if target.startswith("/") or links > _MOST_LINKS:
                    raise DefinitionError([astray(Path(path))])
                left += target.split("/")[::-1]
            else:
                real.append(part)
        return "/".join(real)


def _tree(name: str, folder: Path, entries: dict[str, tuple[bytes, _Object]]) -> _Tree:
    links = [path for path, (mode, _) in entries.items() if mode == b"120000"]
    targets = _contents(name, folder, (entries[path][1] for path in links))
    files = {path: one for path, (mode, one) in entries.items() if mode.startswith(b"100")}
    modules = [path for path, (mode, _) in entries.items() if mode == b"160000"]
    if made_of := {"types", "fleet", SIGNED}.intersection(modules):
        said = f"{min(made_of)} is a repository of its own at {name}; compare folders"
        raise StateError(said)
    return _Tree(name, files, dict(zip(links, map(os.fsdecode, targets), strict=True)))


def _repository(name: str, folder: Path, definitions: Path) -> str:
    """Return the way from a repository's top to the definitions, with a slash behind it."""
    top = _try(folder, "rev-parse", "--show-toplevel")
    if top is None:
        raise StateError(
            f"{name} is no folder of definitions and no site, and {folder} is in no git repository"
        )
    real, above = (Path(os.path.realpath(one)) for one in (definitions, os.fsdecode(top[:-1])))
    if not real.is_relative_to(above):
        raise StateError(f"{definitions} leads out of the repository in {above}")
    way = real.relative_to(above)
    return "" if way == Path() else f"{way.as_posix()}/"


def _commit(name: str, folder: Path) -> str:
    found = None
    if not name.startswith("-"):
        found = _try(folder, "rev-parse", "--verify", "--quiet", f"{name}^{{commit}}")
    if found is not None:
        return found.decode().strip()
    if _git(folder, "rev-parse", "--is-shallow-repository").strip() == b"true":
        raise CutHistoryError(_lacking(name))
    raise StateError(f"{name} is no folder of definitions, no site and no revision of git")


def _lacking(name: str) -> str:
    branch = name.removeprefix("origin/")
    return (
        f"{name} is not in this clone, whose history is cut; fetch it first: "
        f"git fetch --depth=1 origin {branch}, or the whole history: git fetch --unshallow"
    )


def _listed(listing: bytes, prefix: str) -> Iterator[tuple[str, tuple[bytes, _Object]]]:
    """Yield what a revision has below the definitions, by its place: its mode, object and size."""
    for line in listing.split(b"\0")[:-1]:
        entry, path = line.split(b"\t", 1)
        mode, _, name, size = entry.split()
        file = os.fsdecode(path)
        if file.startswith(prefix):
            number = int(size) if size.isdigit() else 0
            yield file.removeprefix(prefix), (mode, (name.decode(), number))


def _contents(
    name: str, folder: Path, objects: Iterable[_Object], most: int = LARGEST_FILE
) -> list[bytes]:
    """Return what stands in files; of one that is too large to be read, as many blanks."""
    objects = list(objects)
    if not objects:
        return []
    wanted = "".join(f"{one}\n" for one, size in objects if size <= most)
    told = _git(folder, "cat-file", "--batch", given=wanted.encode())
    found, at = [], 0
    for _, size in objects:
        if size > most:
            found.append(b" " * (most + 1))
            continue
        start = told.index(b"\n", at) + 1
        if told[at:start].endswith(b" missing\n"):
            raise CutHistoryError(_lacking(name))
        found.append(told[start : start + size])
        at = start + size + 1
    return found


def _git(folder: Path, *arguments: str, given: bytes = b"") -> bytes:
    done = _run(folder, arguments, given)
    if done.returncode:
        raise OSError(f"git {arguments[0]}: {done.stderr.decode(errors='replace').strip()}")
    return done.stdout


def _try(folder: Path, *arguments: str) -> bytes | None:
    """Return what git says, or None where it has nothing to say."""
    done = _run(folder, arguments)
    return None if done.returncode else done.stdout


def _run(
    folder: Path, arguments: Sequence[str], given: bytes = b""
) -> subprocess.CompletedProcess[bytes]:
    command = ["git", "-C", str(folder), *arguments]
    environment = {name: one for name, one in os.environ.items() if name not in _OF_HOOKS}
    try:
        return subprocess.run(
            command, input=given, capture_output=True, check=False, env=environment | _GIT
        )
    except FileNotFoundError:
        raise OSError("git is not installed, and a revision is read by it; install git") from None
