"""Two folders that change places at once, where the system can do that: Linux, on most disks."""

import ctypes
import errno
import os
import sys
from pathlib import Path
from typing import Any

_HERE = -100  # AT_FDCWD: paths count from the working directory
_EXCHANGE = 2  # RENAME_EXCHANGE, of renameat2(2)


def exchange(one: Path, other: Path) -> None:
    """Let two folders change places; at no moment is either place empty.

    Raises
    ------
    OSError
        If the system or the disk cannot do that.
    """
    rename = _renameat2()
    if rename is None:
        raise OSError(errno.ENOSYS, os.strerror(errno.ENOSYS))
    if rename(_HERE, os.fsencode(one), _HERE, os.fsencode(other), _EXCHANGE):
        error = ctypes.get_errno()
        raise OSError(error, os.strerror(error), str(one), None, str(other))


def can_exchange(folder: Path) -> bool:
    """Whether folders in this one can change places, and files stand in two of them; tried."""
    one, other = folder / "one", folder / "other"
    try:
        one.mkdir()
        other.mkdir()
        (one / "file").touch()
        os.link(one / "file", other / "file")
        exchange(one, other)
    except OSError:
        return False
    return True


def _renameat2() -> Any:
    """Return the function of C, where there is one."""
    if sys.platform != "linux":
        return None
    rename = getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None)
    if rename is not None:
        rename.argtypes = [
            *(ctypes.c_int, ctypes.c_char_p, ctypes.c_int, ctypes.c_char_p),
            ctypes.c_uint,
        ]
    return rename
