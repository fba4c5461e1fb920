"""Being stopped: a signal ends a command as an error would, so that it leaves all in order."""

import os
import signal
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType

OF_TERMINALS = [signal.SIGINT, *filter(None, [getattr(signal, "SIGHUP", None)])]  # to all in one
_SIGNALS = [*OF_TERMINALS, signal.SIGTERM]


class StoppedError(KeyboardInterrupt):
    """A signal came.

    Parameters
    ----------
    number : int
        Which.
    """

    def __init__(self, number: int) -> None:
        super().__init__(number)
        self.number = number

    def __str__(self) -> str:
        return f"stopped by {signal.Signals(self.number).name}"


class _Heed:
    """What has come, and whether it waits."""

    def __init__(self) -> None:
        self.begin()

    def begin(self) -> None:
        self.waits = False
        self.number = 0
        self.since = 0.0

    def came(self, number: int) -> None:
        if self.number and time.monotonic() - self.since > 1:  # the first was lost, or hangs
            os._exit(128 + number)
        if not self.number:
            self.number, self.since = number, time.monotonic()
            if not self.waits:
                raise StoppedError(number)


_heed = _Heed()


@contextmanager
def heeding() -> Iterator[None]:
    """Raise `StoppedError` in what is done meanwhile where SIGINT, SIGTERM or SIGHUP comes.

    A second signal is nothing new, until a second later it ends the process at once.
    """
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    own = os.getpid()

    def come(number: int, _: FrameType | None) -> None:
        if os.getpid() != own:  # a process that makes PDFs and has just begun
            os._exit(128 + number)
        _heed.came(number)

    before = {one: signal.getsignal(one) for one in _SIGNALS}
    before = {one: how for one, how in before.items() if how is not signal.SIG_IGN}
    _heed.begin()
    for one in before:
        signal.signal(one, come)
    try:
        yield
    finally:
        for one, how in before.items():
            signal.signal(one, how)


@contextmanager
def undisturbed() -> Iterator[None]:
    """Let signals wait until something is done that is short, and better whole."""
    if threading.current_thread() is not threading.main_thread():  # where no signal is handled
        yield
        return
    _heed.waits = True
    try:
        yield
    finally:
        _heed.waits = False
    if _heed.number:
        raise StoppedError(_heed.number)
