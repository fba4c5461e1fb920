"""The cache: what was made, by the key of what it was made of.

A folder of small files, each written under another name and then renamed, each with its own hash
in its first line or as its name. So it may be copied, half written, spoiled or deleted at any
time: what does not hold is made anew. Of no file of it does a site depend; all in it are copies.
"""

import errno
import json
import os
import re
import stat
import sys
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any, NamedTuple

from cardgen.folders import write_whole
from cardgen.publish.keys import hashed, key

MOST = 2**30  # bytes that a cache may have, or twice what one site needs, where that is more
_FORM = "1"  # of the cache
_HINDERED = {
    *(errno.EACCES, errno.EPERM, errno.EROFS, errno.EISDIR, errno.ENOTDIR, errno.EEXIST),
    *(errno.ENOTEMPTY, errno.ELOOP),
}
_OWN = re.compile(r"([0-9a-f]{2}/)?(\.?)[0-9a-f]{62,64}(\.[0-9]+)?")  # whole, or never finished


class Entry(NamedTuple):
    """What was made of one key: files' hashes by name, and what else is to be known of them."""

    files: dict[str, str]
    about: Any = None


class Store:
    """A cache.

    Parameters
    ----------
    folder : Path
        Made where it is first written to.
    fresh : bool
        Whether to take nothing from it, and only write.

    Notes
    -----
    What sisters share is written once: it is held against its hash when it is read, whoever has
    written over it meanwhile.
    """

    def __init__(self, folder: Path, fresh: bool = False) -> None:
        self.folder = folder / _FORM
        self.fresh = fresh
        self._used: set[Path] = set()
        self._written: set[str] = set()

    def entry(self, key: str) -> Entry | None:
        """Return what was made of a key."""
        if self.fresh:
            return None
        path = self._entry(key)
        try:
            entry = Entry(**json.loads(unsealed(path)))
        except (OSError, ValueError, TypeError):
            return None
        self._used.add(path)
        return entry

    def keep(self, key: str, files: Mapping[str, bytes], about: object = None) -> Entry:
        """Keep what was made of a key: its files first, so that no entry is without them."""
        entry = Entry({name: hashed(data) for name, data in files.items()}, about)
        with unhindered():
            for name, data in files.items():
                if (hash_ := entry.files[name]) not in self._written:
                    _write(self._content(hash_), data)
                    self._written.add(hash_)
            path = self._entry(key)
            _write(path, sealed(json.dumps(entry._asdict()).encode()))
            self._used.add(path)
        return entry

    def content(self, hash_: str) -> bytes | None:
        """Return the content that has a hash, if it is here and still has it."""
        try:
            data = self._content(hash_).read_bytes()
        except OSError:
            return None
        return data if hashed(data) == hash_ else None

    def bound(self, contents: Iterable[str]) -> None:
        """Remove what was used longest ago, until no more is left than there may be.

        Parameters
        ----------
        contents : iterable of str
            The hashes of what a site needs, which are used now.
        """
        used = self._used | {self._content(one) for one in contents}
        for path in used:
            with suppress(OSError):
                os.utime(path)
        found = []
        for path in self._own():
            with suppress(OSError):
                seen = path.lstat()
                if stat.S_ISREG(seen.st_mode):
                    found.append((seen.st_mtime_ns, seen.st_size, path))
        most = max(MOST, 2 * sum(size for _, size, path in found if path in used))
        total = sum(size for _, size, _ in found)
        for _, size, path in sorted(found):
            if total <= most:
                break
            with suppress(OSError):
                path.unlink()
                total -= size

    def _own(self) -> Iterator[Path]:
        """Yield what is a cache's own, by where it stands and its name; all else is others'."""
        for room, sorts in (("files", "??/*"), ("made", "??/*"), ("sites", "*")):
            for path in (self.folder / room).glob(sorts):
                if _OWN.fullmatch(path.relative_to(self.folder / room).as_posix()):
                    yield path

    def record(self, out: Path) -> Path:
        """Return where the record of a site stands."""
        return self.folder / "sites" / key(os.path.realpath(out))

    def _entry(self, key: str) -> Path:
        return self.folder / "made" / key[:2] / key[2:]

    def _content(self, hash_: str) -> Path:
        return self.folder / "files" / hash_[:2] / hash_[2:]


@contextmanager
def unhindered() -> Iterator[None]:
    """Go on without a cache where it may not be written to, or something else stands there."""
    try:
        yield
    except OSError as error:
        if error.errno not in _HINDERED:
            raise


class Nowhere(Store):
    """No cache: nothing is kept, and nothing is had."""

    def __init__(self) -> None:
        super().__init__(Path(os.devnull))

    def keep(self, key: str, files: Mapping[str, bytes], about: object = None) -> Entry:
        """Say what was made."""
        return Entry({name: hashed(data) for name, data in files.items()}, about)


def store_in(folder: Path | None, fresh: bool = False) -> Store:
    """Return the cache in a folder, or none."""
    return Nowhere() if folder is None else Store(folder, fresh)


def default_folder() -> Path | None:
    """Return where a cache stands unless another place is named: among the user's others.

    None where the user has no home.
    """
    if sys.platform == "win32":
        home = os.environ.get("LOCALAPPDATA") or "~/AppData/Local"
    elif sys.platform == "darwin":
        home = "~/Library/Caches"
    else:
        home = os.environ.get("XDG_CACHE_HOME") or "~/.cache"
    try:
        return Path(home).expanduser() / "cardgen"
    except RuntimeError:
        return None


def sealed(data: bytes) -> bytes:
    """Return data with their hash before them, in a line."""
    return hashed(data).encode() + b"\n" + data


def unsealed(path: Path) -> bytes:
    """Return a file's data without their hash.

    Raises
    ------
    ValueError
        If they do not have it any more.
    OSError
        If there is no such file.
    """
    said, _, data = path.read_bytes().partition(b"\n")
    if said.decode(errors="replace") != hashed(data):
        raise ValueError(path)
    return data


def _write(path: Path, data: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    write_whole(path, data)


def write_sealed(path: Path, data: bytes) -> None:
    """Write a file with its hash; see `unsealed`."""
    _write(path, sealed(data))
