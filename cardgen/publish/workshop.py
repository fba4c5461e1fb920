"""The hidden folder that a build works in: held by a lock, so that no two builds have it at once.

A build that is killed lets its lock go, whatever becomes of its folder; the next one takes that
over and removes what is in it. So no folder is taken for dead by its age.
"""

import errno
import os
import shutil
import stat
from collections.abc import Collection, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

try:
    import fcntl
except ImportError:  # no such locks
    fcntl = None  # type: ignore[assignment]

_LOCK = "lock"
_held: set[int] = set()  # handles of locks


class HinderedError(OSError):
    """Something that is not ours stands in a build's way."""


class BusyError(HinderedError):
    """Another build is at work on the same site."""


@contextmanager
def held(folder: Path, kept: Collection[str] = ()) -> Iterator[Path]:
    """Have a hidden folder alone; at the end it goes, with all that is in it.

    Parameters
    ----------
    folder : Path
        Made if it is not there. What a build that was killed left in it is removed.
    kept : collection of str
        Names of files in it that stay, and let the folder stay, unless they were removed.

    Raises
    ------
    BusyError
        If another build has it.
    HinderedError
        If it is something else.
    """
    handle = _taken(folder)
    try:
        _emptied(folder, kept)
        yield folder
    finally:
        with suppress(OSError):  # the next build removes what is left
            _emptied(folder, kept)
            if {path.name for path in folder.iterdir()} == {_LOCK}:
                (folder / _LOCK).unlink()
                folder.rmdir()
        _let_go(handle)


@contextmanager
def alone(folder: Path) -> Iterator[None]:
    """Have a site alone, whatever path leads to it and wherever builds work on it.

    Raises
    ------
    BusyError
        If another build has it.
    """
    try:
        handle = os.open(folder, os.O_RDONLY | getattr(os, "O_DIRECTORY", 0))  # waits for no pipe
    except OSError:  # a folder that cannot be listed, or a system that opens none
        yield
        return
    try:
        _lock(handle, folder)
        yield
    finally:
        _let_go(handle)


def _taken(folder: Path) -> int:
    """Lock a hidden folder; one that another build removes meanwhile is made anew."""
    while True:
        refuse_others(folder)
        folder.mkdir(exist_ok=True)
        refuse_others(folder)
        flags = os.O_RDWR | os.O_CREAT | getattr(os, "O_NOFOLLOW", 0)
        try:
            handle = os.open(folder / _LOCK, flags, 0o666)
        except FileNotFoundError:
            continue
        try:
            _lock(handle, folder)
        except BaseException:
            _let_go(handle)
            raise
        with suppress(FileNotFoundError):
            if os.path.samestat((folder / _LOCK).stat(), os.fstat(handle)):
                return handle
        _let_go(handle)


def refuse_others(folder: Path) -> None:
    """Refuse a hidden folder that is no build's.

    Raises
    ------
    HinderedError
        If it holds something else, or is none.
    """
    with suppress(FileNotFoundError, NotADirectoryError):
        is_folder = stat.S_ISDIR(folder.lstat().st_mode)
        if not is_folder or (not (folder / _LOCK).exists() and any(folder.iterdir())):
            said = f"{folder} is where a build works, and holds something else; move it away"
            raise HinderedError(said)


def _lock(handle: int, folder: Path) -> None:
    _held.add(handle)
    if fcntl is None:
        return
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError as error:
        if error.errno in (errno.EWOULDBLOCK, errno.EACCES):
            said = f"another build is at work ({folder}); wait until it is done, and build again"
            raise BusyError(said) from None  # else the disk knows no locks


def _let_go(handle: int) -> None:
    _held.discard(handle)
    os.close(handle)


def _let_all_go() -> None:
    """Close the locks' handles in a process that makes PDFs: they are the build's alone."""
    while _held:
        os.close(_held.pop())


if hasattr(os, "register_at_fork"):
    os.register_at_fork(after_in_child=_let_all_go)


def _emptied(folder: Path, kept: Collection[str]) -> None:
    for path in folder.iterdir():
        if path.name in {_LOCK, *kept}:
            continue
        if path.is_dir() and not path.is_symlink():
            shutil.rmtree(path)
        else:
            path.unlink()
