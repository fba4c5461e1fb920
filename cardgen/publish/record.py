"""What is known of a site that was built: its parts, their keys, and how its files stood.

A site has no times in it; they stand here, in the cache. Only the standard library is imported.
"""

import json
import stat
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, NamedTuple

from cardgen.publish.keys import hashed
from cardgen.publish.store import unsealed, write_sealed

Seen = Mapping[str, list[int]]  # size, and time in nanoseconds, of a file by its path in the site


class Part(NamedTuple):
    """Files that are made together, of one key.

    Attributes
    ----------
    folder : str
        Where they stand in the site; empty for the site's own folder.
    key : str
    files : dict
        The hash of each by its name.
    about : object
        What else is to be known of them, as plain data.
    """

    folder: str
    key: str
    files: dict[str, str]
    about: Any = None

    @property
    def paths(self) -> dict[str, str]:
        """The hash of each file by its path in the site."""
        return {f"{self.folder}/{name}".lstrip("/"): hash_ for name, hash_ in self.files.items()}


class Record(NamedTuple):
    """A site as it was built.

    Attributes
    ----------
    key : str
        Of all that it was made of; empty where it is to be looked at again whatever is there.
    parts : dict
        Its parts by name.
    seen : mapping
        How its files stood.
    """

    key: str
    parts: dict[str, Part]
    seen: Seen

    @property
    def paths(self) -> dict[str, str]:
        """All files that the build means to have: the hash of each by its path in the site."""
        return {path: hash_ for part in self.parts.values() for path, hash_ in part.paths.items()}

    @property
    def warnings(self) -> int:
        """How many warnings its pages tell, each counted once."""
        return len({one for part in self.parts.values() for one in warnings_of(part)})

    def stands(self, out: Path) -> bool:
        """Whether every file stands in the site as it was built."""
        return all(stands(out / path, hash_, self.seen.get(path)) for path, hash_ in self._paths())

    def _paths(self) -> Iterator[tuple[str, str]]:
        yield from self.paths.items()


def warnings_of(part: Part) -> list[str]:
    """Return what tells a part's warnings from others."""
    return list(part.about.get("warnings", ())) if isinstance(part.about, dict) else []


def stands(path: Path, hash_: str, seen: list[int] | None = None) -> bool:
    """Whether a file has a content, by its size and time where these were seen, or by its hash."""
    try:
        found = path.lstat()
        if not stat.S_ISREG(found.st_mode):
            return False
        if seen == [found.st_size, found.st_mtime_ns]:
            return True
        return hashed(path.read_bytes()) == hash_
    except OSError:
        return False


def read_record(path: Path) -> Record | None:
    """Read a site's record, if there is one that holds."""
    try:
        plain = json.loads(unsealed(path))
        parts = {name: Part(*part) for name, part in plain["parts"].items()}
        return Record(plain["key"], parts, plain["seen"])
    except (OSError, ValueError, TypeError, KeyError):
        return None


def write_record(path: Path, out: Path, key: str, parts: dict[str, Part]) -> None:
    """Write the record of a site that stands in its place."""
    record = Record(key, parts, {})
    seen = {name: _seen(out / name) for name in record.paths}
    write_sealed(path, json.dumps(record._replace(seen=seen)._asdict()).encode())


def _seen(path: Path) -> list[int]:
    found = path.stat()
    return [found.st_size, found.st_mtime_ns]
