"""Two states of a fleet compared: documents of what changed only, and what was edited in them."""

import datetime
import tempfile
from collections import Counter
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path, PurePosixPath

from cardgen import __version__
from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.card import make_document
from cardgen.checks.run import check, errors, findings_of
from cardgen.definition.files import LARGEST_RECORD, SIGNED, content_of
from cardgen.definition.fleet import read_fleet
from cardgen.definition.places import DefinitionError
from cardgen.definition.reading import parse_yaml
from cardgen.definition.signed import records_of
from cardgen.document.comparison import Compared, Comparison, Moved, Side
from cardgen.document.data import from_json
from cardgen.document.record import Document
from cardgen.publish.edits import Edits, Made, differing
from cardgen.publish.keys import hashed
from cardgen.publish.manifest import ManifestError, owned_in
from cardgen.publish.states import Definitions, Site, State, StateError
from cardgen.review.causes import Causes
from cardgen.review.difference import cells_of, difference, moved_cells
from cardgen.review.marks import figures_mark, marked
from cardgen.review.records import released
from cardgen.review.worse import Changes, judged
from cardgen.words.english import ENGLISH

Pair = tuple[Document | None, Document | None]


@dataclass(frozen=True)
class Found:
    """A comparison, and the documents that it is of, by registration."""

    comparison: Comparison
    documents: dict[str, Pair] = field(repr=False)

    def marked(self) -> dict[str, Pair]:
        """Return the documents with their marks, which stand on sheets."""
        return {
            name: (old and marked(old), new and marked(new))
            for name, (old, new) in self.documents.items()
        }


def compare(base: State, head: State, today: datetime.date) -> Found:
    """Compare two states of a fleet.

    Parameters
    ----------
    base, head : Definitions or Site
    today : date
        The day that manuals are held against, for both.

    Returns
    -------
    Found
        Only documents of which something may differ have been made.

    Raises
    ------
    DefinitionError
        If the definitions of either have faults.
    StateError
        If a site is not of this version.
    """
    if isinstance(head, Definitions) and head.odd:
        raise head.told(DefinitionError(head.odd))
    stale = None
    if isinstance(base, Definitions) and isinstance(head, Definitions):
        stale = affected(base.files, head.files) | _resigned(base, head) | _namesakes(base, head)
    old, new = (_documents(one, stale, today) for one in (base, head))
    pairs = list(_paired(old, new))
    edits = Edits(base, head, pairs)
    sides = Side(base.name, _version(old)), Side(head.name, _version(new))
    by_program = sides[0].cardgen != sides[1].cardgen
    aircraft, documents = [], {}
    for was, now in pairs:
        one = _compared(was, now, edits, by_program)
        if not one.is_empty:
            aircraft.append(one)
            documents[one.registration] = (was and was.document, now and now.document)
    aircraft.sort(key=lambda one: one.registration)
    unused = tuple(_unused(base, head))
    return Found(Comparison(*sides, edits.told(), tuple(aircraft), unused), documents)


# -- documents


def affected(base: Mapping[str, bytes], head: Mapping[str, bytes]) -> set[str]:
    """Return the files of airframes of which anything that a document is made of differs.

    That is the airframe's file, its type's, or the school's.
    """
    differ = differing(base, head)
    airframes = {name for name in {**base, **head} if name.startswith("fleet/")}
    if "school.yaml" in differ:
        return airframes
    types = {name for name in differ if name.startswith("types/")}
    found = airframes & differ
    if types:
        both = (base, head)
        found |= {
            name
            for name in airframes - found
            if any(f"types/{_type_of(one[name])}.yaml" in types for one in both if name in one)
        }
    return found


def _resigned(base: Definitions, head: Definitions) -> set[str]:
    """Return the files of airframes of which a record of a signed card differs."""
    registrations = {name.split("/")[1] for name in differing(base.records, head.records)}
    return {
        name
        for side in (base, head)
        for name, content in side.files.items()
        if registrations
        and name.startswith("fleet/")
        and _named(content, "registration") in registrations
    }


def _namesakes(base: Definitions, head: Definitions) -> set[str]:
    """Return the files of airframes that have the registration of one that was edited.

    They are read with it, so that two of one registration are told, as everywhere.
    """
    edited = {name for name in differing(base.files, head.files) if name.startswith("fleet/")}
    found = set()
    for side in (base, head):
        named = [_named(side.files[name], "registration") for name in edited & side.files.keys()]
        known = {name.casefold() for name in named if name}
        found |= {
            name
            for name, content in side.files.items()
            if name.startswith("fleet/")
            and any(one.encode() in content.lower() for one in known)
            and _named(content, "registration").casefold() in known
        }
    return found


def _type_of(content: bytes) -> str:
    return _named(content, "type")


def _named(content: bytes, key: str) -> str:
    """Return what an airframe's file has for a key; nothing where it cannot be read."""
    try:
        return str(parse_yaml(content, "").get(key, ""))
    except DefinitionError:
        return ""


def _documents(state: State, stale: set[str] | None, today: datetime.date) -> dict[str, Made]:
    """Return the documents of a state by registration; of definitions those of stale files."""
    if isinstance(state, Site):
        return {one.document.head.registration: one for one in _of_site(state.folder)}
    wanted = {name for name in state.files if name.startswith("fleet/")}
    if stale is not None:
        wanted &= stale
    return dict(_make(state, wanted, today)) if wanted else {}


def _of_site(folder: Path) -> Iterator[Made]:
    """Read the documents that a site's manifest lists, each as it was built."""
    try:
        owned = owned_in(folder) or {}
    except ManifestError as error:
        raise StateError(f"{folder / str(error)} cannot be read; build that site anew") from None
    for name, hashes in sorted(owned.items()):
        if PurePosixPath(name).match("?*/card.json") and name.count("/") == 1:
            yield _read(folder / name, hashes)


def _read(path: Path, hashes: Collection[str]) -> Made:
    try:
        content = content_of(path, f"{path}", LARGEST_RECORD)
        if hashes and hashed(content) not in hashes:
            raise StateError(f"{path} is not as it was built; build that site anew")
        return Made(from_json(content, Document))
    except (FileNotFoundError, DefinitionError, ValueError):
        raise StateError(
            f"{path} is no document of this version of cardgen; build that site anew"
        ) from None


def _make(state: Definitions, wanted: set[str], today: datetime.date) -> Iterator[tuple[str, Made]]:
    """Make the documents of some airframes of a state."""
    whole = all(name in wanted for name in state.files if name.startswith("fleet/"))
    with tempfile.TemporaryDirectory(prefix="cardgen-") as name:
        folder = Path(name)
        files = {
            name: content
            for name, content in state.files.items()
            if name in wanted or not name.startswith("fleet/")
        }
        _write(folder, files)
        try:
            fleet = read_fleet(folder, whole)
            used = {one.airframe.type for one in fleet.aircraft}
            types = {name: one for name, one in fleet.types.items() if name in used}
            fleet = replace(fleet, types=types)
            found = check(fleet, today)
            if faults := errors(found, ENGLISH):
                raise DefinitionError(faults)
        except DefinitionError as error:
            raise state.told(error) from None
    for one in fleet.aircraft:
        document = make_document(Aircraft(one), fleet.school, findings_of(found, one))
        yield one.registration, Made(_signed(document, state.records), one)


def _write(folder: Path, files: Mapping[str, bytes]) -> None:
    for name, content in files.items():
        path = folder / name
        path.parent.mkdir(exist_ok=True, parents=True)
        path.write_bytes(content)


def _signed(document: Document, records: Mapping[str, bytes]) -> Document:
    """Return a document that is signed with its marks, and with what its records say."""
    head = document.head
    if not head.signatures:
        return document
    own = f"{SIGNED}/{head.registration}/"
    with tempfile.TemporaryDirectory(prefix="cardgen-") as name:
        folder = Path(name)
        _write(folder, {file: text for file, text in records.items() if file.startswith(own)})
        return released(marked(document), records_of(folder, head.registration))


def _version(made: Mapping[str, Made]) -> str:
    return next((one.document.cardgen for one in made.values()), __version__)


# -- aircraft


def _paired(
    old: Mapping[str, Made], new: Mapping[str, Made]
) -> Iterator[tuple[Made | None, Made | None]]:
    """Yield each aircraft before and after; one that is renamed is known by its serial number."""
    gone = {name: one for name, one in old.items() if name not in new}
    for name, now in new.items():
        was = old.get(name) or _renamed(now, gone, new, old)
        if was is not None:
            gone.pop(was.document.head.registration, None)
        yield was, now
    for one in gone.values():
        yield one, None


def _renamed(
    now: Made, gone: Mapping[str, Made], new: Mapping[str, Made], old: Mapping[str, Made]
) -> Made | None:
    """Return the aircraft that had another registration, if one, and only one, is like it."""
    come = Counter(_alike(one) for name, one in new.items() if name not in old)
    same = [one for one in gone.values() if _alike(one) == _alike(now)]
    return same[0] if len(same) == 1 and come[_alike(now)] == 1 else None


def _alike(one: Made) -> tuple[str, ...]:
    """Return what two registrations of one aircraft have in common."""
    head = one.document.head
    return (head.type, head.serial or figures_mark(one.document))


def _unused(base: State, head: State) -> Iterator[str]:
    """Yield the files of types that no aircraft is of any longer."""
    if not (isinstance(base, Definitions) and isinstance(head, Definitions)):
        return
    if not any(name.startswith("fleet/") for name in differing(base.files, head.files)):
        return
    for name in sorted(_used(base) - _used(head)):
        if f"types/{name}.yaml" in head.files:
            yield (head.folder / "types" / f"{name}.yaml").as_posix()


def _used(state: Definitions) -> set[str]:
    return {_type_of(text) for name, text in state.files.items() if name.startswith("fleet/")}


def _compared(was: Made | None, now: Made | None, edits: Edits, by_program: bool) -> Compared:
    if was is None or now is None:
        one = was or now
        assert one is not None
        head = one.document.head
        return Compared(head.registration, head.type, "added" if was is None else "gone")
    before, after = cells_of(was.document), cells_of(now.document)
    moved = list(moved_cells(before, after))
    if moved:
        mine = edits.of(now)
        causes = Causes(before, after, mine.figures, alone=not by_program)
        moved = judged(Changes(moved, was.document, now.document))
        moved = [_explained(one, mine.moved(one, causes), by_program) for one in moved]
    return difference(was.document, now.document, moved)


def _explained(one: Moved, numbers: tuple[int, ...], by_program: bool) -> Moved:
    return replace(one, edits=numbers, by_program=by_program and not numbers)
