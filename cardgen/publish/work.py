"""The unit of work, a document's PDFs, and giving it out: to processes here, or elsewhere."""

import ctypes
import multiprocessing.util
import os
import shutil
import signal
import sys
import tempfile
import threading
from collections.abc import Callable
from concurrent.futures import BrokenExecutor, Executor, Future, ProcessPoolExecutor
from functools import lru_cache
from pathlib import Path
from queue import Empty, SimpleQueue
from typing import NamedTuple, Self

from cardgen.document.data import SCHEMAS, from_json, transition_of
from cardgen.document.record import Document, Shared
from cardgen.publish import keys
from cardgen.publish.keys import Own
from cardgen.publish.stopping import OF_TERMINALS, undisturbed
from cardgen.render import PdfError
from cardgen.render.templates import Templates

_ASLEEP = 0.25  # seconds
_AHEAD = 64  # how many documents wait with an executor that somebody else made
_DEATH_SIGNAL = 1  # PR_SET_PDEATHSIG of prctl(2): the signal when a process's parent ends
_FILES = 64  # that layout may have to open beside those that are open
_ONE_AT_A_TIME = threading.Lock()  # in a process: Pango shares its fonts among threads


class ClusterError(PdfError):
    """A cluster cannot print for this machine."""


class WorkerError(PdfError):
    """A process that makes PDFs is gone."""


class Printed(NamedTuple):
    """PDFs of a document by file name, and how often a page was laid out for them."""

    files: dict[str, bytes]
    layouts: int


def printed(name: str, document: str | bytes, own: Own = (), press: str = "") -> Printed:
    """Make the PDFs of a document. This is all that another machine needs to be asked.

    Parameters
    ----------
    name : str
        The kind of document, by its file: ``card.json``, ``conversions.json`` or
        ``next.json``.
    document : str or bytes
        What stands in that file.
    own : tuple of (str, bytes)
        The school's own templates by name.
    press : str
        The key of what should lay the sheets out, if it matters; see `keys.press`.

    Raises
    ------
    ClusterError
        If what lays sheets out here has another key.
    """
    if press and press != keys.press():
        raise ClusterError(
            "a worker has other versions of cardgen, WeasyPrint, its packages, Pango or the fonts "
            "than this machine, and would print other sheets; install the same on both"
        )
    from cardgen.render import pdf
    from cardgen.render.next_aircraft import next_pdf
    from cardgen.render.press import Press

    _refuse_to_lay_out_short_of_files()
    with _ONE_AT_A_TIME:
        looks = templates(own)
        printer = Press(looks.own)
        if SCHEMAS[name] == "Transition":
            files = {"next.pdf": next_pdf(looks, transition_of(document), printer)}
        elif SCHEMAS[name] == "Document":
            files = dict(pdf.aircraft_pdfs(looks, from_json(document, Document), printer))
        else:
            shared = from_json(document, Shared)
            files = {"conversions.pdf": pdf.tables_pdf(looks, shared, printer)}
        return Printed(files, printer.layouts)


def _refuse_to_lay_out_short_of_files() -> None:
    """Fail where few files may be open: a face that cannot be opened is replaced, and no word said.

    Raises
    ------
    OSError
        If that is so.
    """
    handles: list[int] = []
    try:
        while len(handles) < _FILES:
            handles.append(os.open(os.devnull, os.O_RDONLY))
    finally:
        for one in handles:
            os.close(one)


@lru_cache(maxsize=2)
def templates(own: Own) -> Templates:
    """Return our templates with a school's own before them, as they were when they were read."""
    if not own:
        return Templates()
    folder = tempfile.mkdtemp(prefix="cardgen-")
    multiprocessing.util.Finalize(None, shutil.rmtree, (folder, True), exitpriority=0)
    return templates_in(Path(folder), own)


def templates_in(folder: Path, own: Own) -> Templates:
    """Return our templates with a school's own before them, written into a folder."""
    if not own:
        return templates(())
    for name, data in own:
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)
    return Templates(folder)


class Workers:
    """Where PDFs are made: an executor, and the work that is given out to it.

    No more is under way at a time than keeps it busy, so that what waits does not grow with the
    fleet.

    Parameters
    ----------
    executor : Executor, optional
        Somebody else's, such as a cluster's; else processes of our own.
    jobs : int, optional
        How many of those; as many as the machine has cores where left out.
    scratch : Path, optional
        Where those keep what is gone with the build.
    """

    def __init__(
        self, executor: Executor | None, jobs: int | None, scratch: Path | None = None
    ) -> None:
        self._theirs = executor
        self._scratch = scratch
        self._jobs = jobs
        self._own: ProcessPoolExecutor | None = None
        self._waiting: dict[Future[Printed], Callable[[Printed], None]] = {}
        self._done = SimpleQueue[Future[Printed]]()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, *error: object) -> None:
        if self._theirs is not None:
            for future in self._waiting:
                future.cancel()
        if self._own is not None:
            if kind is not None:
                _kill(self._own)
            self._own.shutdown(cancel_futures=True)
        if kind is not None and issubclass(kind, BrokenExecutor):
            raise WorkerError(
                "a process that makes PDFs was ended from outside, or memory was short; build "
                "again, with fewer at a time: --jobs 1"
            )

    def give(self, take: Callable[[Printed], None], name: str, document: bytes, own: Own) -> None:
        """Give out a document to be printed, and take what is done; `take` is called with it."""
        while len(self._waiting) >= self._most:
            self._take()
        key = keys.press() if self._theirs else ""
        executor = self._executor
        with undisturbed():  # else a lock may be held for ever, or the signal be lost in a fork
            future = executor.submit(printed, name, document, own, key)
            self._waiting[future] = take
            future.add_done_callback(self._done.put)
        while not self._done.empty():
            self._take()

    def finish(self) -> None:
        """Take all that is still under way."""
        while self._waiting:
            self._take()

    @property
    def _executor(self) -> Executor:
        if self._theirs is not None:
            return self._theirs
        if self._own is None:
            import cardgen.render.pdf  # noqa: F401  for processes that are forked to have it

            self._own = ProcessPoolExecutor(
                self._jobs, initializer=_begin, initargs=(self._scratch,)
            )
        return self._own

    @property
    def _most(self) -> int:
        return _AHEAD if self._theirs else 4 * (self._jobs or multiprocessing.cpu_count())

    def _take(self) -> None:
        """Take what is done, once anything is.

        Awake now and then, for a signal that came just before it fell asleep.
        """
        while True:
            try:
                future = self._done.get(timeout=_ASLEEP)
            except Empty:
                continue
            self._waiting.pop(future)(future.result())
            return


def _begin(scratch: Path | None) -> None:
    """Begin a process that makes PDFs: it ends with the build, which heeds for it what all get."""
    for one in OF_TERMINALS:
        signal.signal(one, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    tempfile.tempdir = str(scratch) if scratch else None
    build = multiprocessing.parent_process()
    assert build is not None
    if sys.platform == "linux":
        ctypes.CDLL(None).prctl(_DEATH_SIGNAL, signal.SIGKILL)
    threading.Thread(target=_end_with, args=(build,), daemon=True).start()


def _end_with(build: multiprocessing.process.BaseProcess) -> None:
    build.join()
    os._exit(1)


def _kill(pool: ProcessPoolExecutor) -> None:
    """End a pool's processes at once, whatever they are at.

    What is being written to them has no reader then but this process. Before Python 3.11.5 a pool
    waited for ever for that to be read (https://github.com/python/cpython/issues/94777); since
    then it closes what is read from by itself.
    """
    for process in list((pool._processes or {}).values()):
        process.kill()
    written = getattr(pool, "_call_queue", None)
    if written is not None and sys.version_info < (3, 11, 5):
        written._reader.close()
