"""The new site put in the place of the old: at once, or its files one by one.

What in the old one is not ours is in the new one too. A file of ours that is no more made goes;
one that somebody has edited since stays under another name, so that nobody takes it for current.
"""

import os
import shutil
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path, PurePosixPath

from cardgen.publish.exchange import exchange
from cardgen.publish.keys import hashed
from cardgen.publish.manifest import INNER, MARKS, Owned, folders_above, journal, together
from cardgen.publish.workshop import HinderedError, alone

JOURNAL = "journal"  # what is ours while a site is a mix


class MixedError(HinderedError):
    """A site is partly new and partly old."""


class Moving:
    """A site that is about to be put in place.

    Parameters
    ----------
    new : Path
        A folder with all of it.
    out : Path
        Where it shall stand.
    owned : mapping
        Which files there are ours.
    files : mapping
        The hash of each new file by its path.

    Attributes
    ----------
    kept : dict of str to str
        What is kept of files that were edited by hand and are no more made, by the files' paths.
    """

    def __init__(self, new: Path, out: Path, owned: Owned, files: Mapping[str, str]) -> None:
        self.kept: dict[str, str] = {}
        self._new = new
        self._out = out
        self._owned = owned
        self._files = files
        self._folders = {str(one) for path in owned for one in PurePosixPath(path).parents}

    def at_once(self) -> None:
        """Let the folders change places; before that, what is not ours is linked into the new."""
        if not self._out.exists():
            self._new.rename(self._out)
            return
        shutil.copystat(self._out, self._new)
        self._carry(self._out, self._new)
        with alone(self._new):
            exchange(self._new, self._out)
            self._carry(self._new, self._out)  # what somebody put there meanwhile

    def _carry(self, old: Path, new: Path) -> None:
        for folder, folders, names in os.walk(old):
            here = Path(folder).relative_to(old)
            if here == Path():
                folders[:] = [name for name in folders if name != INNER]
            links = [name for name in folders if (old / here / name).is_symlink()]
            if here.as_posix() not in self._folders and not (new / here).exists():
                (new / here).mkdir(parents=True)
                shutil.copystat(old / here, new / here)
            for name in (*names, *links):
                self._carry_file(old, new, (here / name).as_posix())

    def _carry_file(self, old: Path, new: Path, path: str) -> None:
        to = path
        if path in self._files or path in self.kept:
            return
        if path in self._owned:
            if not self._is_edited(old, path):
                return
            to = self._kept_as(path)
        if not os.path.lexists(new / to):
            (new / to).parent.mkdir(parents=True, exist_ok=True)
            os.link(old / path, new / to, follow_symlinks=False)

    def one_by_one(self, to_journal: Path) -> None:
        """Rename the files in, each in its place; the manifest last.

        Parameters
        ----------
        to_journal : Path
            A file that says what is ours meanwhile, for the build after one that was killed.

        Raises
        ------
        MixedError
            If it fails half way.
        """
        new = {path: frozenset({hash_}) for path, hash_ in self._files.items()}
        part = to_journal.with_suffix(".part")
        part.write_text(journal(together(self._owned, new)))
        part.replace(to_journal)
        try:
            self._rename_all()
        except OSError as error:
            said = f"{error}; {self._out} has files of two builds until you build again"
            raise MixedError(said) from error
        to_journal.unlink()

    def _rename_all(self) -> None:
        for path in sorted(self._files.keys() - set(MARKS), key=_last_what_leads_to_others):
            self._rename(path)
        for path in self._owned.keys() - self._files.keys() - set(MARKS):
            self._remove(path)
        for path in MARKS:
            if path in self._files:
                self._rename(path)
            else:
                (self._out / path).unlink(missing_ok=True)

    def _rename(self, path: str) -> None:
        made, target = self._new / path, self._out / path
        for folder in (self._out / one for one in reversed(folders_above(path))):
            if folder.is_symlink() or folder.is_file():
                folder.unlink()
            folder.mkdir(exist_ok=True)
        if target.is_dir() and not target.is_symlink():
            shutil.rmtree(target)
        if not (target.exists() and made.samefile(target)):
            made.replace(target)

    def _remove(self, path: str) -> None:
        """Remove a file that is no more made, and the folders that it leaves empty."""
        target = self._out / path
        folders = [self._out / one for one in folders_above(path)]
        is_gone = not os.path.lexists(target) or (target.is_dir() and not target.is_symlink())
        if is_gone or any(one.is_symlink() for one in folders):
            return
        if self._is_edited(self._out, path):
            target.rename(self._out / self._kept_as(path))
        else:
            target.unlink()
        with suppress(OSError):
            for folder in folders:
                folder.rmdir()

    def _is_edited(self, site: Path, path: str) -> bool:
        """Whether a file of ours is no more as we wrote it; of some that is not known."""
        at, hashes = site / path, self._owned.get(path)
        if not hashes:
            return False
        return at.is_symlink() or not at.is_file() or hashed(at.read_bytes()) not in hashes

    def _kept_as(self, path: str) -> str:
        count, name = 1, f"{path}.edited"
        while any(os.path.lexists(one / name) for one in (self._out, self._new)):
            count += 1
            name = f"{path}.edited-{count}"
        self.kept[path] = name
        return name


def _last_what_leads_to_others(path: str) -> tuple[bool, bool, str]:
    return path.endswith(".html"), "/" not in path, path
