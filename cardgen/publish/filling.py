"""A new site, filled part by part: from the one that is there, from the cache, or made."""

import os
import shutil
from collections import Counter
from collections.abc import Mapping
from pathlib import Path

from cardgen.publish.record import Part, Record, stands
from cardgen.publish.store import Store


class Filling:
    """A new folder that becomes the site.

    Parameters
    ----------
    new : Path
        The folder, empty.
    old : Path
        The site that is there, if any.
    before : Record, optional
        What is known of that.
    store : Store

    Attributes
    ----------
    before : Record or None
    parts : dict of str to Part
        The parts that are in it, by name.
    made : list of str
        The files that were made.
    reused : int
        How many files were taken as they were.
    counts : Counter
        How many parts of a kind were made.
    """

    def __init__(self, new: Path, old: Path, before: Record | None, store: Store) -> None:
        self.new = new
        self.store = store
        self.parts: dict[str, Part] = {}
        self.made: list[str] = []
        self.reused = 0
        self.counts: Counter[str] = Counter()
        self._old = old
        self.before = before
        self._known = before.paths if before else {}

    @property
    def hashes(self) -> dict[str, str]:
        """The hash of each file that is in it, by its path."""
        return {path: hash_ for part in self.parts.values() for path, hash_ in part.paths.items()}

    def reuse(self, name: str, folder: str, key: str) -> Part | None:
        """Fill in a part that was made of the same key before, if all its files can be had."""
        entry = self.store.entry(key)
        if entry is None:
            return None
        return self._fill(name, Part(folder, key, *entry))

    def keep(self, name: str) -> Part | None:
        """Fill in a part as it stands in the site that is there, whatever it would be made of."""
        part = self.before.parts.get(name) if self.before else None
        return part and self._fill(name, part)

    def add(
        self, name: str, folder: str, key: str, files: Mapping[str, bytes], about: object = None
    ) -> Part:
        """Fill in a part that was made, and keep it in the cache."""
        part = Part(folder, key, *self.store.keep(key, files, about))
        for path, one in zip(part.paths, files, strict=True):
            self._put(path, part.files[one], files[one])
        self.parts[name] = part
        self.made += part.paths
        return part

    def content(self, part: Part, file: str) -> bytes:
        """Return what a file of a part holds that is in it."""
        return (self.new / part.folder / file).read_bytes()

    def _fill(self, name: str, part: Part) -> Part | None:
        if not all(self._put(path, hash_) for path, hash_ in part.paths.items()):
            return None
        self.parts[name] = part
        self.reused += len(part.files)
        return part

    def _put(self, path: str, hash_: str, made: bytes | None = None) -> bool:
        """Put a file in its place; whether its content could be had."""
        target = self.new / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.unlink(missing_ok=True)
        if (made is None or not self.store.fresh) and self._stands(path, hash_):
            _link(self._old / path, target)
            return True
        data = self.store.content(hash_) if made is None else made
        if data is not None:
            target.write_bytes(data)
        return data is not None

    def _stands(self, path: str, hash_: str) -> bool:
        """Whether the site that is there has a file; one that is linked keeps its time."""
        as_built = self.before is not None and self._known.get(path) == hash_
        seen = self.before.seen.get(path) if self.before and as_built else None
        return stands(self._old / path, hash_, seen)


def _link(old: Path, new: Path) -> None:
    try:
        os.link(old, new)
    except OSError:  # where files cannot be in two places
        shutil.copy2(old, new)
