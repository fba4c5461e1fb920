"""What fails outside of cardgen, in a sentence with what may help."""

import errno
import os

_HELP = {
    None: "install cardgen and what it needs again",
    errno.ENOSPC: "make room on the disk",
    errno.EDQUOT: "make room: you have used all that you may",
    errno.EACCES: "see to it that you may read and write there",
    errno.EPERM: "see to it that you may read and write there",
    errno.EROFS: "name a folder that can be written to",
    errno.EMFILE: "allow more open files, by ulimit -n, or build with fewer processes: --jobs 1",
    errno.ENFILE: "close other programs: the machine has too many files open",
    errno.ENOMEM: "close other programs, or build with fewer processes: --jobs 1",
    errno.EAGAIN: "close other programs: no more processes can be started",
}


def outside(error: Exception) -> str:
    """Return the sentence on what is no fault of ours, or nothing where it is one."""
    if isinstance(error, MemoryError):
        return f"memory is full; {_HELP[errno.ENOMEM]}"
    if isinstance(error, SystemError):  # raised by Python's own C code, mostly for want of memory
        return f"Python failed ({error}), as where memory is full; {_HELP[errno.ENOMEM]}"
    if isinstance(error, ImportError):
        error = error.__cause__ if isinstance(error.__cause__, ImportError) else error
        short = (one for one in (errno.EMFILE, errno.ENOMEM) if os.strerror(one) in str(error))
        return f"{error}; {_HELP[next(short, None)]}"
    if isinstance(error, RuntimeError) and "start new thread" in str(error):
        return f"{error}; {_HELP[errno.EAGAIN]}"
    if not isinstance(error, OSError):
        return ""
    if error.errno is None:  # it is a sentence of ours
        return str(error)
    where = "" if error.filename is None else f"{error.filename}: "
    return "; ".join(filter(None, [f"{where}{error.strerror}", _HELP.get(error.errno)]))
