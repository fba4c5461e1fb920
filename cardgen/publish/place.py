"""Where a site stands: what of it is ours, and how the new one takes its place.

All of that is decided before anything is made. A folder is exchanged for the new one at once,
where that can be done and nobody would miss the old one; else its files are renamed in one by one.
"""

import os
from collections.abc import Iterator, Mapping
from contextlib import ExitStack, contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from cardgen.definition.files import ROOMS, SIGNED
from cardgen.folders import leads_out
from cardgen.publish.exchange import can_exchange
from cardgen.publish.manifest import (
    INNER,
    ManifestError,
    Owned,
    folders_above,
    in_journal,
    owned_in,
    together,
)
from cardgen.publish.mounts import is_mounted
from cardgen.publish.moving import JOURNAL, Moving
from cardgen.publish.record import stands
from cardgen.publish.static import FOLDER
from cardgen.publish.stopping import undisturbed
from cardgen.publish.workshop import HinderedError, alone, held, refuse_others

_STANDS_IN_NEW = {  # what may stand in a folder that is as good as empty: a worktree, a volume
    *(".git", ".gitattributes", ".gitignore", ".nojekyll", "CNAME", "lost+found", INNER),
}


class PlaceError(Exception):
    """The folder to write is not one of ours."""


class OnlyError(PlaceError):
    """Some aircraft were asked for that cannot be made alone in a site."""


@dataclass(frozen=True)
class Place:
    """Where a site is to stand.

    Attributes
    ----------
    named : Path
        As it was asked for.
    out : Path
        Where that leads.
    owned : mapping
        Which files there are ours.
    at_once : bool
        Whether the new folder takes the place of the old at once.
    workshop : Path
        A hidden folder of the build's own, on the same disk.
    """

    named: Path
    out: Path
    owned: Owned
    at_once: bool
    workshop: Path

    @property
    def new(self) -> Path:
        """The folder to build in."""
        return self.workshop / "new"

    def refuse(self, files: Mapping[str, str]) -> None:
        """Hold what is to be written against what stands there.

        Parameters
        ----------
        files : mapping
            The hash of each file by its path, or nothing where that is not known yet.

        Raises
        ------
        HinderedError
            If something stands at one, or where its folder should be, that is not ours.
        """
        for path, hash_ in files.items():
            if there := self._in_the_way(path, hash_):
                raise HinderedError(
                    f"{self.named / there} was not written by cardgen, and a file of the site "
                    "would stand there; move it away"
                )

    def _in_the_way(self, path: str, hash_: str) -> str:
        for folder in reversed(folders_above(path)):
            at = self.out / folder
            if at.is_symlink() or not at.is_dir():
                is_free = not os.path.lexists(at) or str(folder) in self.owned
                return "" if is_free else str(folder)
        at = self.out / path
        if at.is_dir() and not at.is_symlink():
            return next(self._of_others(at), "")
        is_ours = path in self.owned or (hash_ and stands(at, hash_))
        return path if os.path.lexists(at) and not is_ours else ""

    def _of_others(self, folder: Path) -> Iterator[str]:
        for one in folder.rglob("*"):
            path = one.relative_to(self.out).as_posix()
            if path not in self.owned and (one.is_symlink() or not one.is_dir()):
                yield path

    def put(self, files: Mapping[str, str]) -> dict[str, str]:
        """Put the new site in place.

        Parameters
        ----------
        files : mapping
            The hash of each file of it by its path.

        Returns
        -------
        dict of str to str
            What is kept of files that were edited by hand and are no more made, by their paths.

        Raises
        ------
        HinderedError
            As `refuse`, or if only some files could be put in place.
        """
        self.refuse(files)
        moving = Moving(self.new, self.out, self.owned, files)
        with undisturbed():
            if self.at_once:
                moving.at_once()
            else:
                moving.one_by_one(self.workshop / JOURNAL)
        return moving.kept


def refuse_within(definitions: Path, named: Path, option: str) -> None:
    """Refuse to write where a site's own sources stand: it would be made of itself.

    Raises
    ------
    PlaceError
        If a folder that an option names is in one of theirs.
    """
    for room in (*ROOMS, SIGNED, FOLDER, "templates"):
        if not leads_out(definitions / room, named):
            said = f"{named} is in {definitions / room}, which a site is made of"
            raise PlaceError(f"{said}; name another folder with {option}")


@contextmanager
def placing(named: Path) -> Iterator[Place]:
    """Give the place of a site, which no other build has meanwhile.

    Raises
    ------
    PlaceError
        If there is a folder already that holds something, and is not a site of ours.
    BusyError
        If another build is at work on it.

    Notes
    -----
    Whatever is raised inside leaves the site as it was.
    """
    out = Path(os.path.realpath(named))
    with ExitStack() as stack:
        if out.exists():
            stack.enter_context(alone(out))
        refuse_others(out / INNER)
        owned = _owned(named, out)
        out.parent.mkdir(parents=True, exist_ok=True)
        workshop = _beside(out, stack)
        at_once = workshop is not None and _at_once(out, workshop)
        if workshop is None or not at_once:
            workshop = stack.enter_context(held(out / INNER, [JOURNAL]))
        for name in ("new", "scratch"):
            (workshop / name).mkdir()
        yield Place(named, out, owned, at_once, workshop)


def _owned(named: Path, out: Path) -> Owned:
    """Return what is ours of a folder that is there."""
    if not os.path.lexists(out):
        return {}
    left = in_journal(out / INNER / JOURNAL)
    try:
        listed = owned_in(out)
    except ManifestError as error:
        if left is None:
            raise PlaceError(
                f"{named / str(error)} cannot be read, and says what in {named} is cardgen's; "
                "restore it, or name an empty or new folder with --out"
            ) from None
        listed = None
    if listed is None and left is None and not _is_as_good_as_empty(out):
        raise PlaceError(
            f"{named} is not a site that cardgen built; name an empty or new folder with --out"
        )
    return together(listed or {}, left or {})


def _is_as_good_as_empty(folder: Path) -> bool:
    return folder.is_dir() and _STANDS_IN_NEW.issuperset(one.name for one in folder.iterdir())


def _beside(out: Path, stack: ExitStack) -> Path | None:
    """Have a hidden folder beside a site, where there may be one."""
    try:
        return stack.enter_context(held(_workshop_beside(out)))
    except HinderedError:
        raise
    except OSError:
        if not out.exists():
            raise
        return None


def _workshop_beside(out: Path) -> Path:
    return out.parent / f".{out.name}{INNER}"


def _at_once(out: Path, workshop: Path) -> bool:
    """Whether a folder can be exchanged for a new one, and is not missed."""
    if not out.exists():
        return True
    trial = workshop / "trial"
    trial.mkdir()
    is_like_ours = _kind(out) == _kind(trial) and os.access(out, os.W_OK | os.X_OK)
    return is_like_ours and can_exchange(trial) and not is_mounted(out) and not _must_stay(out)


def _kind(folder: Path) -> tuple[int, ...]:
    found = folder.stat()
    return found.st_dev, found.st_uid, found.st_gid


def _must_stay(out: Path) -> bool:
    """Whether a folder holds what cannot be linked into another, or somebody stands in it.

    That is a repository, others' files, a folder that may not be written to, and where this
    process was begun: its shell would be left in a folder that is gone.
    """
    mine = out.stat()
    with suppress(OSError):
        if Path(os.path.realpath(Path.cwd())).is_relative_to(out):
            return True

    def fail(error: OSError) -> None:
        raise error

    try:
        for folder, folders, names in os.walk(out, onerror=fail):
            if ".git" in folders + names:
                return True
            for name in folders + names:
                found = (Path(folder) / name).lstat()
                if (found.st_dev, found.st_uid) != (mine.st_dev, mine.st_uid):
                    return True
            if not os.access(folder, os.W_OK | os.X_OK):
                return True
    except OSError:
        return True
    return False


def is_unfinished(out: Path) -> bool:
    """Whether a build was killed that had this place, or is at work on it."""
    return (out / INNER).exists() or _workshop_beside(Path(os.path.realpath(out))).exists()


def finish(out: Path) -> None:
    """Remove what a build left that was killed; all of a site's files are as they should be.

    Raises
    ------
    BusyError
        If it is still at work.
    """
    real = Path(os.path.realpath(out))
    with alone(real):
        for folder in (real / INNER, _workshop_beside(real)):
            if folder.exists():
                with held(folder):
                    pass


def mixed(out: Path) -> int:
    """Return how many files are not the manifest's, after a build that was killed half way.

    That is where it renamed them one by one; else there are none.
    """
    left = in_journal(out / INNER / JOURNAL)
    if left is None:
        return 0
    try:
        listed = owned_in(out)
    except ManifestError:
        listed = None
    if listed is None and not any((out / path).exists() for path in left):
        return 0  # killed before the first was renamed
    listed = listed or dict.fromkeys(left, frozenset({""}))
    return sum(
        not any(stands(out / path, one) for one in each) for path, each in listed.items() if each
    )
