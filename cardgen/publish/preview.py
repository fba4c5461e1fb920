"""A site that follows its definitions: what is shown is made again as files are saved.

Files stand by their hashes in a folder that goes with the process; which of them the site is of
changes at once, when all that changed is made. What was made is kept where a build looks for it.
"""

import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from pathlib import Path, PurePosixPath
from tempfile import TemporaryDirectory
from threading import Condition, Lock

from cardgen.definition.places import DefinitionError, Fault
from cardgen.document.data import SCHEMAS
from cardgen.publish.build import Order, silent
from cardgen.publish.filling import Filling
from cardgen.publish.keys import (
    NEXT_SHEET,
    SHEETS,
    Inputs,
    inputs_of,
    key,
    maker,
)
from cardgen.publish.making import fleet_title, made
from cardgen.publish.manifest import MARK
from cardgen.publish.record import Part, Record
from cardgen.publish.store import Store
from cardgen.publish.work import printed

_SHOWN = (".html", ".js", ".css", ".svg", ".png")  # what a page is of
Say = Callable[[Exception], Sequence[str]]


@dataclass(frozen=True)
class Shown:
    """What is shown at a time.

    Attributes
    ----------
    parts : mapping
        The site's parts by name.
    errors : tuple of str
        What is wrong with the definitions, each with its place.
    """

    parts: Mapping[str, Part] = field(default_factory=dict)
    errors: tuple[str, ...] = ()

    @cached_property
    def site(self) -> dict[str, str]:
        """The hash of each file by its path."""
        return {path: hash_ for part in self.parts.values() for path, hash_ in part.paths.items()}

    def mark(self, page: str) -> str:
        """Return what tells a page from others at its path, or nothing where there is none."""
        folders = {PurePosixPath(page).parent, PurePosixPath("assets")}
        files = {
            path: hash_
            for path, hash_ in self.site.items()
            if PurePosixPath(path).parent in folders and path.endswith(_SHOWN)
        }
        return key(files)[:16] if page in self.site else ""

    @property
    def faults(self) -> str:
        """What tells these errors from others, or nothing where there are none."""
        return key(self.errors)[:16] if self.errors else ""


class _Shelf(Filling):
    """Parts whose files stand by their hashes; what has the same key as before is there."""

    def reuse(self, name: str, folder: str, key: str) -> Part | None:
        part = self.before.parts.get(name) if self.before else None
        stands = part and all((self.new / hash_).exists() for hash_ in part.files.values())
        if part is None or not stands or (part.folder, part.key) != (folder, key):
            return super().reuse(name, folder, key)
        self.parts[name] = part
        return part

    def content(self, part: Part, file: str) -> bytes:
        return (self.new / part.files[file]).read_bytes()

    def _put(self, path: str, hash_: str, made: bytes | None = None) -> bool:
        target = self.new / hash_
        if not target.exists():
            data = self.store.content(hash_) if made is None else made
            if data is None:
                return False
            target.write_bytes(data)
        return True


class Preview:
    """A site that is made again where its definitions changed.

    Parameters
    ----------
    definitions, folder : Path
        Those that are shown, and one to work in.
    store : Store
    say : callable
        Puts an error into sentences, or raises it again where it is no fault of the definitions
        or of what is outside.
    untrusted : bool
        As `build.build` has it.

    Attributes
    ----------
    shown : Shown
    """

    def __init__(
        self, definitions: Path, folder: Path, store: Store, say: Say, untrusted: bool = False
    ) -> None:
        self.shown = Shown()
        self._definitions = definitions
        self._folder = folder
        self._files = folder / "files"
        self._files.mkdir()
        self._left: set[str] = set()  # hashes of what was shown before
        self._store = store
        self._say = say
        self._untrusted = untrusted
        self._maker = maker(pdfs=False)
        self._inputs: Inputs | None = None  # of what is shown
        self._key = ""  # of what was looked at last
        self._changed = Condition()
        self._work = Lock()

    def renew(self) -> Sequence[str] | None:
        """Look at the definitions, and show what they are now.

        Returns
        -------
        sequence of str or None
            The files that were made; None where what is shown stays as it was.
        """
        with self._work:
            files: Sequence[str] = ()
            before, self._key = self._key, ""
            try:
                inputs = inputs_of(self._definitions, False, self._untrusted, self._maker)
                self._key = inputs.key
                if inputs.key == before:
                    return None
                site, faults = self._make(inputs)
                parts, files = site.parts, site.made
                errors = self._say(DefinitionError(faults)) if faults else ()
            except Exception as error:
                if isinstance(error, OSError):  # nothing that a definition's change would mend
                    self._key = ""
                parts, errors = dict(self.shown.parts), self._say(error)
            return files if self._show(Shown(parts, tuple(errors))) else None

    def wait(self, page: str, mark: str, faults: str, seconds: float) -> Shown:
        """Return what is shown, once a page or the errors are others than they were."""

        def differs() -> bool:
            return (self.shown.mark(page), self.shown.faults) != (mark, faults)

        with self._changed:
            self._changed.wait_for(differs, seconds)
            return self.shown

    def content(self, path: str) -> bytes | None:
        """Return what a file of the site holds, if there is one; PDFs are made when asked for."""
        if path.endswith(".pdf") and path not in self.shown.site:
            with self._work:
                return self._joined() if path == "fleet.pdf" else self._sheet(path)
        try:
            return (self._files / self.shown.site[path]).read_bytes()
        except (KeyError, FileNotFoundError):  # gone since it was asked for
            return None

    def _make(self, inputs: Inputs) -> tuple[Filling, Sequence[Fault]]:
        order = Order(
            self._definitions,
            silent,
            pdfs=False,
            only=(),
            keep_going=True,
            strict=False,
            executor=None,
            workers=None,
        )
        before = Record("", dict(self.shown.parts), {})
        site = _Shelf(self._files, self._files, before, self._store)
        with TemporaryDirectory(dir=self._folder) as scratch:
            self._inputs, faults = made(order, inputs, site, Path(scratch), lambda files: None)
        return site, faults

    def _show(self, shown: Shown) -> bool:
        """Show another site, and forget the files of the one before the last."""
        if shown == self.shown:
            return False
        kept = {*shown.site.values(), *self.shown.site.values()}
        for hash_ in self._left - kept:
            (self._files / hash_).unlink(missing_ok=True)
        self._left = kept
        with self._changed:
            self.shown = shown
            self._changed.notify_all()
        return True

    def _sheet(self, path: str) -> bytes | None:
        """Return a PDF of a document: as a build made it, or with all its others made now."""
        folder, _, file = path.rpartition("/")
        said = next((one for one in SCHEMAS if f"{folder}/{one}" in self.shown.site), None)
        if said is None or self._inputs is None:
            return None
        hash_ = self.shown.site[f"{folder}/{said}"]
        first = NEXT_SHEET if said == "next.json" else SHEETS
        key_ = replace(self._inputs, maker=maker()).sheets(hash_, first=first)
        entry = self._store.entry(key_)
        data = self._store.content(entry.files.get(file, "")) if entry else None
        if data is None:
            files = printed(said, (self._files / hash_).read_bytes(), self._inputs.own).files
            self._store.keep(key_, files)
            data = files.get(file)
        return data

    def _joined(self) -> bytes | None:
        """Return the file of all aircraft's sheets."""
        from cardgen.render.imposition import fleet_pdf

        site, mark = self.shown.site, "/card.json"
        names = sorted(path.removesuffix(mark) for path in site if path.endswith(mark))
        if not names:
            return None
        school = json.loads((self._files / site[MARK]).read_bytes())["school"]
        sheets = (self._sheet(f"{name}/card.pdf") for name in names)
        return fleet_pdf((one for one in sheets if one), fleet_title(school))
