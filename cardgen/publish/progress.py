"""Telling how far a build is: a bar on a terminal, lines elsewhere."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from cardgen.publish.build import Progress, silent


@contextmanager
def shown(quiet: bool = False, lines: bool = False) -> Iterator[Progress]:
    """Give what a build tells its progress to.

    Parameters
    ----------
    quiet : bool
        Whether to show nothing.
    lines : bool
        Whether to write lines on a terminal too.
    """
    if quiet:
        yield silent
    elif lines or not sys.stderr.isatty():
        yield _Lines().told
    else:
        bar = _Bar()
        try:
            yield bar.told
        finally:
            bar.close()


class _Lines:
    """A line for each part that was made."""

    def __init__(self) -> None:
        self._last = 0

    def told(self, done: int, total: int, what: str) -> None:
        if what and done > self._last:
            print(f"{done}/{total} {what}", file=sys.stderr)
        self._last = done


class _Bar:
    """A bar with the part that is under work."""

    def __init__(self) -> None:
        self._bar: Any = None

    def told(self, done: int, total: int, what: str) -> None:
        from tqdm import tqdm

        self._bar = self._bar or tqdm(total=total, unit="part", leave=False)
        if what:
            self._bar.set_description(what, refresh=False)
        self._bar.update(done - self._bar.n)
        self._bar.refresh()

    def close(self) -> None:
        if self._bar is not None:
            self._bar.close()
