"""The command ``preview``: pages that change as their definitions are saved."""

import argparse
import errno
import os
import shutil
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from functools import partial
from pathlib import Path
from queue import Empty, SimpleQueue

from cardgen.checks.run import of_faults
from cardgen.commands import MisuseError
from cardgen.commands.asked import add_definitions, whole
from cardgen.commands.outside import outside
from cardgen.definition.files import ROOMS, SIGNED
from cardgen.definition.places import DefinitionError
from cardgen.definition.shown import escaped, path_told
from cardgen.folders import OwnFileError, leads_out
from cardgen.publish.preview import Preview, Say
from cardgen.publish.report import as_text
from cardgen.publish.serving import HOST, Server
from cardgen.publish.static import FOLDER
from cardgen.publish.stopping import StoppedError
from cardgen.publish.store import default_folder, store_in
from cardgen.publish.workshop import HinderedError, held
from cardgen.render import PdfError
from cardgen.words.english import ENGLISH

_AGAIN = 5.0  # seconds after which definitions are looked at whatever the system told
_HEED = 0.1  # seconds until a thread sees that it is to end
STEP = 20  # ms without a change, after which a file is taken for written

_FOLDER = "cardgen-preview-"  # what its name begins with

Changes = SimpleQueue[None]


def add_options(command: argparse.ArgumentParser) -> None:
    """Add what the command may be asked."""
    command.description = (
        "Show a fleet's pages in the browsers of this machine, and show them anew as definitions, "
        "templates and files to copy are saved. Errors stand on the page until they are mended; "
        "a PDF is made when it is opened. Nothing is written but the cache. Ends by Ctrl-C."
    )
    add_definitions(command)
    command.add_argument(
        "--port",
        type=whole(0, 65535),
        default=8459,
        help="of http://127.0.0.1; 0 for any that is free (default: %(default)s)",
    )
    command.add_argument(
        "--untrusted",
        action="store_true",
        help="leave the folder's templates and picture alone, which are code, and static/",
    )
    command.set_defaults(run=run)


def run(options: argparse.Namespace) -> None:
    """Do what is asked, until it is stopped."""
    definitions: Path = options.definitions
    if not definitions.is_dir():
        raise MisuseError(f"{definitions} is no folder of definitions")
    say = partial(_said, definitions)
    before = tempfile.tempdir
    try:
        with _watched(definitions) as changes, _own_folder() as folder:
            tempfile.tempdir = str(folder)  # where libraries work too
            store = store_in(default_folder())
            preview = Preview(definitions, folder, store, say, options.untrusted)
            with _server(preview, options.port, say) as server:
                address = f"http://{HOST}:{server.port}/"
                serving = partial(server.serve_forever, poll_interval=_HEED)
                threading.Thread(target=serving, daemon=True).start()
                print(f"{path_told(definitions)} is shown at {address} until Ctrl-C", flush=True)
                try:
                    _follow(preview, changes)
                finally:
                    server.shutdown()
    except StoppedError as stopped:
        # A thread may be in what is not Python, and not bear that Python ends.
        with suppress(OSError):
            print(f"cardgen: {stopped}", file=sys.stderr, flush=True)
        _remove(Path(tempfile.tempdir or ""))
        os._exit(128 + stopped.number)
    finally:
        tempfile.tempdir = before


@contextmanager
def _own_folder() -> Iterator[Path]:
    """Give a folder of the preview's own; what was left by one that was killed goes."""
    home = Path(tempfile.gettempdir())
    for old in home.glob(f"{_FOLDER}*"):
        with suppress(OSError):  # one that is at work, or somebody else's
            if old.lstat().st_uid == os.geteuid():
                with held(old):
                    pass
    folder = Path(tempfile.mkdtemp(prefix=_FOLDER))
    with held(folder):
        yield folder


def _remove(folder: Path) -> None:
    """Remove the preview's folder though a thread may still write in it; what is gone stays so."""
    for _ in range(20):
        if not folder.name.startswith(_FOLDER) or not folder.exists():
            return
        shutil.rmtree(folder, ignore_errors=True)
        time.sleep(0.01)


def _follow(preview: Preview, changes: Changes) -> None:
    """Show the definitions, and what becomes of them, until there is no telling."""
    while True:
        _renew(preview)
        _wait(changes)


def _wait(changes: Changes) -> None:
    """Wait for a change, a little at a time, since a signal may not wake who waits."""
    end = time.monotonic() + _AGAIN
    while time.monotonic() < end:
        with suppress(Empty):
            changes.get(timeout=_HEED)
            return


def _renew(preview: Preview) -> None:
    """Show what has changed, and tell it."""
    began = time.monotonic()
    files = preview.renew()
    if files is None:
        return
    print(f"{len(files)} files made, {time.monotonic() - began:.1f} s", flush=True)
    for error in preview.shown.errors:
        print(error, file=sys.stderr, flush=True)


@contextmanager
def _watched(folder: Path) -> Iterator[Changes]:
    """Give where each change in a folder is told, or what ends the telling."""
    try:
        from watchfiles import watch
    except ImportError:
        said = "preview needs watchfiles: pip install 'cardgen[preview]'"
        raise HinderedError(said) from None
    told: Changes = SimpleQueue()
    stop = threading.Event()

    def tell() -> None:
        rooms: set[str] = set()
        while not stop.is_set():
            try:
                if (now := set(_rooms(folder))) != rooms:
                    rooms = now
                    told.put(None)
                for _ in watch(
                    *rooms,
                    watch_filter=None,
                    step=STEP,
                    rust_timeout=200,
                    stop_event=stop,
                    recursive=False,
                ):
                    told.put(None)
                    if set(_rooms(folder)) != rooms:
                        break
            except Exception as error:
                if set(_rooms(folder)) == rooms:  # else it was a folder that went
                    told_not(error)
                    return

    def told_not(error: Exception) -> None:
        said = f"the system tells no changes ({error}); they show after {_AGAIN:g} seconds"
        print(f"cardgen: {escaped(said)}", file=sys.stderr, flush=True)

    thread = threading.Thread(target=tell, daemon=True)
    thread.start()
    try:
        yield told
    finally:
        stop.set()
        thread.join(1)  # a process that ends does not wait well for what is not Python


def _rooms(folder: Path) -> Iterator[str]:
    """Yield the folders that a site is made of, those that a link out of theirs leads to not."""
    yield str(folder)
    for name in (*ROOMS, SIGNED, FOLDER, "templates"):
        top = folder / name
        if top.is_dir() and not leads_out(folder, top):
            yield str(top)
            for above, folders, _ in os.walk(top):  # which follows no link
                yield from (str(Path(above, one)) for one in folders)


def _server(preview: Preview, port: int, say: Say) -> Server:
    try:
        return Server(preview, port, say)
    except OSError as error:
        why = {errno.EADDRINUSE: "taken", errno.EACCES: "not for everybody"}.get(error.errno or 0)
        if why is None:
            raise
        said = f"port {port} is {why}; name another by --port, or 0 for any that is free"
        raise HinderedError(said) from None


def _said(definitions: Path, error: Exception) -> list[str]:
    """Put an error into sentences for a page; what is our own fault is raised again."""
    if isinstance(error, DefinitionError):
        return [as_text([one], definitions, ENGLISH) for one in of_faults(error.faults)]
    if isinstance(error, OwnFileError):
        return [escaped(f"{definitions / 'templates'}/{error}")]
    if said := str(error) if isinstance(error, PdfError) else outside(error):
        return [escaped(said)]
    raise error
