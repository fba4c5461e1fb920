"""The unit of work, a document's PDFs, and giving it out: to processes here, or elsewhere."""

import multiprocessing.util
import shutil
import tempfile
import threading
from collections.abc import Callable
from concurrent.futures import FIRST_COMPLETED, Executor, Future, ProcessPoolExecutor, wait
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple, Self

from cardgen.document.data import SCHEMAS, from_json, transition_of
from cardgen.document.record import Document, Shared
from cardgen.publish import keys
from cardgen.publish.keys import Own
from cardgen.render import pdf
from cardgen.render.next_aircraft import next_pdf
from cardgen.render.press import Press
from cardgen.render.templates import Templates

_AHEAD = 64  # how many documents wait with an executor that somebody else made
_ONE_AT_A_TIME = threading.Lock()  # in a process: Pango shares its fonts among threads


class ClusterError(pdf.PdfError):
    """A cluster cannot print for this machine."""


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


@lru_cache(maxsize=2)
def templates(own: Own) -> Templates:
    """Return our templates with a school's own before them, as they were when they were read."""
    if not own:
        return Templates()
    folder = tempfile.mkdtemp(prefix="cardgen-")
    multiprocessing.util.Finalize(None, shutil.rmtree, (folder, True), exitpriority=0)
    for name, data in own:
        path = Path(folder) / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)
    return Templates(Path(folder))


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
    """

    def __init__(self, executor: Executor | None, jobs: int | None) -> None:
        self._theirs = executor
        self._jobs = jobs
        self._own: ProcessPoolExecutor | None = None
        self._waiting: dict[Future[Printed], Callable[[Printed], None]] = {}

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *error: object) -> None:
        for future in self._waiting:
            future.cancel()
        if self._own is not None:
            self._own.shutdown(cancel_futures=True)

    def give(self, take: Callable[[Printed], None], name: str, document: bytes, own: Own) -> None:
        """Give out a document to be printed, and take what is done; `take` is called with it."""
        while len(self._waiting) >= self._most:
            self._take()
        key = keys.press() if self._theirs else ""
        future = self._executor.submit(printed, name, document, own, key)
        self._waiting[future] = take
        self._take(timeout=0)

    def finish(self) -> None:
        """Take all that is still under way."""
        while self._waiting:
            self._take()

    @property
    def _executor(self) -> Executor:
        if self._theirs is not None:
            return self._theirs
        self._own = self._own or ProcessPoolExecutor(self._jobs)
        return self._own

    @property
    def _most(self) -> int:
        return _AHEAD if self._theirs else 4 * (self._jobs or multiprocessing.cpu_count())

    def _take(self, timeout: float | None = None) -> None:
        done, _ = wait(self._waiting, timeout, FIRST_COMPLETED)
        for future in done:
            self._waiting.pop(future)(future.result())
