"""The states of a fleet that can be compared: a git revision, a folder of definitions, a site.

A revision is read by git's plumbing: neither the working tree nor the index is touched.
"""

import os
import re
import subprocess
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from cardgen.definition.files import (
    LARGEST_FILE,
    LARGEST_RECORD,
    content_of,
    definitions_in,
    inside,
    records_in,
)
from cardgen.definition.places import Block, DefinitionError, Fault
from cardgen.definition.reading import parse_yaml
from cardgen.publish.manifest import MARK

_PARTS = re.compile(r"school\.yaml|(types|fleet)/[^/.][^/]*\.yaml")
_RECORDS = re.compile(r"signed/[^/]+/[^/]+\.txt")
_GIT = {"GIT_OPTIONAL_LOCKS": "0", "GIT_TERMINAL_PROMPT": "0", "GIT_NO_LAZY_FETCH": "1"}
_OF_HOOKS = ("GIT_DIR", "GIT_WORK_TREE", "GIT_INDEX_FILE", "GIT_PREFIX")  # what a hook is told


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
    """

    name: str
    folder: Path
    files: dict[str, bytes] = field(repr=False)
    revision: str = ""
    records: dict[str, bytes] = field(default_factory=dict, repr=False)

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
    files = {path.as_posix(): _now(folder, path) for path in definitions_in(folder)}
    signed = {path.as_posix(): _recorded(folder, path) for path in records_in(folder)}
    return Definitions(str(folder), folder, files, records=signed)


def _now(folder: Path, path: Path) -> bytes:
    """Return what stands in a file; of one that is too large to be read, as many blanks."""
    end = inside(folder, path)
    large = end.stat().st_size > LARGEST_FILE
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
    tree = _git(folder, "ls-tree", "-zrl", "--full-tree", commit)
    listed, signed = (dict(_listed(tree, prefix, parts)) for parts in (_PARTS, _RECORDS))
    if "school.yaml" not in listed:
        raise StateError(f"{name} has no {prefix}school.yaml")
    files = dict(zip(listed, _contents(name, folder, listed.values()), strict=True))
    texts = _contents(name, folder, signed.values(), LARGEST_RECORD)
    records = dict(zip(signed, texts, strict=True))
    return Definitions(name, definitions, files, name, records)


def _repository(name: str, folder: Path, definitions: Path) -> str:
    """Return the way from a repository's top to the definitions, with a slash behind it."""
    top = _try(folder, "rev-parse", "--show-toplevel")
    if top is None:
        raise StateError(
            f"{name} is no folder of definitions and no site, and {folder} is in no git repository"
        )
    way = definitions.resolve().relative_to(Path(os.fsdecode(top.rstrip(b"\n"))).resolve())
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


def _listed(
    listing: bytes, prefix: str, parts: re.Pattern[str]
) -> Iterator[tuple[str, tuple[str, int]]]:
    """Yield files of a revision by their place: plain files only, with object and size."""
    for line in listing.split(b"\0")[:-1]:
        entry, path = line.split(b"\t", 1)
        mode, _, name, size = entry.split()
        file = os.fsdecode(path)
        inside = file.removeprefix(prefix)
        is_plain = mode.startswith(b"100") and file.isprintable()
        if is_plain and file.startswith(prefix) and parts.fullmatch(inside):
            yield inside, (name.decode(), int(size))


def _contents(
    name: str, folder: Path, objects: Iterable[tuple[str, int]], most: int = LARGEST_FILE
) -> list[bytes]:
    """Return what stands in files; of one that is too large to be read, as many blanks."""
    objects = list(objects)
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
