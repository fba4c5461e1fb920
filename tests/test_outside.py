"""What fails outside of cardgen is said in a sentence with what may help."""

import errno
import os

import pytest

from cardgen.commands.outside import outside


@pytest.mark.parametrize(
    ("error", "said"),
    [
        (MemoryError("no more"), "memory is full; close other programs"),
        (SystemError("error return without exception set"), "Python failed (error return"),
        (RuntimeError("can't start new thread"), "can't start new thread; close other programs"),
        (ImportError(os.strerror(errno.EMFILE)), "ulimit -n"),
        (OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), "site"), "site: No space left on device"),
    ],
)
def test_what_is_no_fault_of_ours_is_said_with_what_may_help(error, said):
    assert said in outside(error)


def test_a_fault_of_ours_is_no_other():
    assert outside(ValueError("a fault")) == ""
    assert outside(RuntimeError("a fault")) == ""
