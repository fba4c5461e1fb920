"""What was edited between two states of a fleet, by line, and which edits touch an aircraft."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from difflib import SequenceMatcher
from itertools import zip_longest
from typing import Any, NamedTuple

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.head import given_of
from cardgen.definition.fleet import AircraftDefinition, type_alone
from cardgen.definition.identifiers import copied, short
from cardgen.definition.model import TypeDefinition
from cardgen.definition.places import Block, Place, Rows
from cardgen.document.comparison import Edit, Moved, Refigured
from cardgen.document.record import Document, Given, Paper
from cardgen.publish.states import Definitions, State
from cardgen.review.causes import Causes, Recopied, recopied

# Keys that no cell hangs on, and those by which a paper is known.
_PAPER = frozenset({"title", "number", "revision", "date"})
_SAID = _PAPER | {
    *("accepted", "format", "manual", "name", "notice", "paper", "punch edge", "registration"),
    *("remarks", "serial", "sign off", "web address"),
}

_OF_MARKS = frozenset({"means", "shape"})
_OF_TABLES = frozenset({"calibration", "altimeter correction", "stall"})  # `when` is a note of them

Key = tuple[str, int, str]  # a file and its line; or what a page of a paper says, of a site


class Made(NamedTuple):
    """The document of an aircraft, and the definition that it was made of, if that is at hand."""

    document: Document
    definition: AircraftDefinition | None = None


Pairs = Sequence[tuple[Made | None, Made | None]]


def differing(base: Mapping[str, bytes], head: Mapping[str, bytes]) -> set[str]:
    """Return the files that differ, or that only one state has."""
    return {name for name in {**base, **head} if base.get(name) != head.get(name)}


def _changed(
    base: Definitions, head: Definitions, differ: Iterable[str]
) -> dict[str, dict[tuple[str, int], Key]]:
    """Return what edit each line is of files that differ: of the newer state, and of the older.

    A line of the older one is the edit of the line in its place, where as many took their places;
    else it is gone.
    """
    found: dict[str, dict[tuple[str, int], Key]] = {"": {}, "gone": {}}
    for file in differ:
        old, new = (side.files.get(file, b"").splitlines() for side in (base, head))
        matcher = SequenceMatcher(None, old, new)
        for tag, start, end, start_now, end_now in matcher.get_opcodes():
            if tag == "equal":
                continue
            found[""].update({(file, n + 1): (file, n + 1, "") for n in range(start_now, end_now)})
            shift = start_now - start if end - start == end_now - start_now else None
            for n in range(start, end):
                key = (file, n + 1, "gone") if shift is None else (file, n + 1 + shift, "")
                found["gone"][file, n + 1] = key
    return found


@dataclass(frozen=True)
class Touching:
    """The edits that touch one aircraft, by their numbers.

    Attributes
    ----------
    figures : dict
        Which edits changed a figure that was copied.
    wide : tuple of int
        Edits of other keys, such as the order of flaps, that may move anything.
    rows : tuple of int
        Edits of what a school tabulates, which give a table other rows and columns.
    names : tuple of int
        Edits of words that only name what figures hold for, and so give them other identifiers.
    """

    figures: dict[str, tuple[int, ...]]
    wide: tuple[int, ...]
    rows: tuple[int, ...]
    names: tuple[int, ...]

    def moved(self, one: Moved, causes: Causes) -> tuple[int, ...]:
        """Return the edits that moved a cell."""
        found = {number for name in causes.of(one) for number in self.figures[name]}
        found.update(self.wide)
        if one.before is None or one.after is None or not found:
            found.update(self.rows)
        if not found:
            found.update(self.names)
        return tuple(sorted(found))


@dataclass
class _Line:
    """An edit while it is gathered; `reach` is a field of `Touching`, or ``words``, of no cell."""

    edit: Edit
    reach: set[str] = field(default_factory=set)


class _Where(NamedTuple):
    """Where a figure stands, and the page that it names."""

    figure: Place
    page: Place


class Edits:
    """What was edited between two states, each line once, in order of file and line.

    Parameters
    ----------
    base, head : Definitions or Site
    pairs : sequence
        The aircraft before and after.
    """

    def __init__(self, base: State, head: State, pairs: Pairs) -> None:
        self._lines: dict[Key, _Line] = {}
        self._figures: dict[str, dict[str, Key | None]] = {}
        self._head = head
        self._changed: dict[str, dict[tuple[str, int], Key]] | None = None
        known = [(_known(was), _known(now)) for was, now in pairs if was and now]
        types = [(_copied(old), _copied(new)) for old, new in _types(pairs)]
        if isinstance(base, Definitions) and isinstance(head, Definitions):
            differ = differing(base.files, head.files)
            self._changed = _changed(base, head, differ)
            # Of each state by its own lines: where one was taken out, all below have moved.
            copies = (*known, *types)
            sides = [
                (base, _figures(was for was, _ in copies)),
                (head, _figures(now for _, now in copies)),
            ]
            self._gather_keys(sides, differ, pairs)
        for was, now in types:
            self._gather("", was, now)
        for was, now in known:
            self._figures[now.aircraft] = self._gather(now.aircraft, was, now)
        numbered = enumerate(sorted(self._lines), start=1)
        self._numbers = {key: number for number, key in numbered}

    def told(self) -> tuple[Edit, ...]:
        """Return the edits."""
        return tuple(self._lines[key].edit for key in self._numbers)

    def of(self, now: Made) -> Touching:
        """Return the edits that touch an aircraft."""
        reaches = ("wide", "rows", "names")
        wide, rows, names = (self._reaching(reach, now) for reach in reaches)
        laid = tuple(sorted({*wide, *names, *self._laid_over(now)}))
        figures = {
            name: laid if key is None else (self._numbers[key],)
            for name, key in self._figures[now.document.head.registration].items()
        }
        return Touching(figures, wide, rows, names)

    def _reaching(self, reach: str, now: Made) -> tuple[int, ...]:
        """Return the edits of a reach in the files of an aircraft."""
        if now.definition is None:
            return ()
        one = now.definition
        files = {"school.yaml", one.airframe.place.file, one.type.place.file}
        found = (key for key, line in self._lines.items() if reach in line.reach)
        return tuple(self._numbers[key] for key in found if key[0] in files)

    def _laid_over(self, now: Made) -> Iterator[int]:
        """Yield the edits of supplements, which may hide or show figures of the type."""
        file = now.definition.airframe.place.file if now.definition else ""
        for key, line in self._lines.items():
            names = (one.name for one in line.edit.changes if one.what == "figure")
            if key[0] == file and any(not name.startswith("bench/") for name in names):
                yield self._numbers[key]

    # -- figures

    def _gather(self, aircraft: str, was: "_Copies", now: "_Copies") -> dict[str, Key | None]:
        """Note the figures that were copied otherwise; return which edit each is."""
        found = {}
        for one in recopied((was.given, was.papers), (now.given, now.papers)):
            found[one.id] = key = self._key(one, was, now)
            if key is not None:
                self._note(key, _refigured(one), "figures", aircraft, _stands(one, was, now))
        return found

    def _key(self, one: Recopied, was: "_Copies", now: "_Copies") -> Key | None:
        """Return the line that was edited; none where that is another, such as the type's name.

        A figure that a supplement no longer hides stands at a line that nobody edited, but where
        it stood before, somebody did.
        """
        if self._changed is None:
            paper, page = _stands(one, was, now)
            return ("", 0, "/".join((paper, page, one.id.rpartition("/")[0])))
        for side, copies in (("", now), ("gone", was)):
            if where := copies.where.get(one.id):
                place = where.page if one.is_page else where.figure
                if key := self._changed[side].get((place.file, place.line)):
                    return key
        return None

    def _note(
        self,
        key: Key,
        change: Refigured,
        reach: str,
        aircraft: str = "",
        stands: tuple[str, str] = ("", ""),
    ) -> None:
        """Add what was changed to the edit of a line."""
        line = self._lines.get(key)
        if line is None:
            file = self._way(key[0]) if key[0] else ""
            line = self._lines[key] = _Line(Edit((), file, key[1], *stands))
        line.reach.add(reach)
        edit = line.edit
        if change not in edit.changes:
            edit = replace(edit, changes=(*edit.changes, change))
        if aircraft and aircraft not in edit.aircraft:
            edit = replace(edit, aircraft=tuple(sorted((*edit.aircraft, aircraft))))
        if not edit.page:
            edit = replace(edit, paper=stands[0] or edit.paper, page=stands[1])
        line.edit = edit

    def _way(self, file: str) -> str:
        folder = self._head.folder
        return (folder / file).as_posix() if isinstance(self._head, Definitions) else file

    # -- other keys

    def _gather_keys(
        self, sides: Sequence[tuple[Definitions, set[Place]]], differ: set[str], pairs: Pairs
    ) -> None:
        """Note what was edited in keys that are no figure's, in files that both states have."""
        for file in sorted(differ):
            if any(file not in side.files for side, _ in sides):
                continue
            old, new = (_by_path(_leaves(side.parsed(file), figures)) for side, figures in sides)
            touched = _touched(file, pairs)
            for path in dict.fromkeys((*old, *new)):
                self._note_key(file, path, old.get(path, []), new.get(path, []), touched)

    def _note_key(
        self,
        file: str,
        path: tuple[str, ...],
        old: list["_Leaf"],
        new: list["_Leaf"],
        touched: Sequence[str],
    ) -> None:
        gone, come = _less(old, new), _less(new, old)
        for was, now in zip_longest(gone, come):
            place = now.place if now else was.place
            change = Refigured(
                "/".join(path), was.text if was else None, now.text if now else None, "key"
            )
            side = "" if now else "gone"
            key = (self._changed or {side: {}})[side].get((file, place.line))
            key = key or (file, place.line, side)
            for name in touched or ("",):
                self._note(key, change, _reach(file, path, bool(was and now)), name)


def _refigured(one: Recopied) -> Refigured:
    if one.is_page:
        assert one.before
        assert one.after
        return Refigured(short(one.id), one.before.page, one.after.page, "page")
    return Refigured(short(one.id), *one.values)


class _Copies(NamedTuple):
    """What was copied for an aircraft or a type, the papers that it stands on, and where."""

    given: Sequence[Given]
    papers: Sequence[Paper]
    where: Mapping[str, _Where]
    aircraft: str = ""


def _known(made: Made) -> _Copies:
    where = _wheres(made.definition) if made.definition else {}
    head = made.document.head
    return _Copies(made.document.given, head.papers, where, head.registration)


def _copied(definition: TypeDefinition) -> _Copies:
    """Return what a type's manual says, of which a supplement may hide a figure."""
    alone = type_alone("", definition)
    manual = definition.manual
    paper = Paper("manual", manual.title, manual.number or "")
    return _Copies(tuple(given_of(Aircraft(alone))), (paper,), _wheres(alone))


def _wheres(definition: AircraftDefinition) -> dict[str, _Where]:
    return {
        one.id: _Where(one.figure.place, one.group._block.values_at.get("page", one.figure.place))
        for one in copied(definition)
    }


def _figures(copies: Iterable[_Copies]) -> set[Place]:
    return {each.figure for one in copies for each in one.where.values()}


def _types(pairs: Pairs) -> Iterable[tuple[TypeDefinition, TypeDefinition]]:
    """Return the types that aircraft are of before and after, each once."""
    found: dict[str, tuple[TypeDefinition, TypeDefinition]] = {}
    for was, now in pairs:
        old, new = (one.definition if one else None for one in (was, now))
        if old and new and old.airframe.type == new.airframe.type:
            found.setdefault(new.type.place.file, (old.type, new.type))
    return found.values()


def _stands(one: Recopied, was: _Copies, now: _Copies) -> tuple[str, str]:
    """Return the paper that a figure stands on, as people call it, and its page."""
    given, papers = (one.after, now.papers) if one.after else (one.before, was.papers)
    assert given is not None
    paper = next((paper for paper in papers if paper.id == given.paper), None)
    if paper is None:
        return "", given.page
    return " ".join(filter(None, (paper.title, paper.number))), given.page


# -- leaves of a file


class _Leaf(NamedTuple):
    """What stands under a key: words, a number, or a list of such."""

    text: str
    place: Place


def _leaves(
    part: Any, figures: set[Place], path: tuple[str, ...] = ()
) -> Iterator[tuple[tuple[str, ...], _Leaf]]:
    """Yield what stands under the keys of a file, but figures that were copied and their pages."""
    for key, place, value in _items(part):
        way = (*path, key) if key else path
        if isinstance(value, Block) or (isinstance(value, Rows) and not _is_plain(value)):
            yield from _leaves(value, figures, way)
        elif isinstance(value, Rows):
            if figures.isdisjoint(value.items_at):
                yield way, _Leaf(", ".join(map(str, value)), place)
        elif key != "page" and place not in figures:
            at = part.place if key in _PAPER else place
            yield way, _Leaf(str(value), at)


def _items(part: Block | Rows) -> Iterator[tuple[str, Place, Any]]:
    if isinstance(part, Block):
        yield from ((key, part.values_at[key], value) for key, value in part.items())
    else:
        yield from (("", place, value) for place, value in zip(part.items_at, part, strict=True))


def _is_plain(rows: Rows) -> bool:
    return not any(isinstance(one, Block | Rows) for one in rows)


def _by_path(
    leaves: Iterable[tuple[tuple[str, ...], _Leaf]],
) -> dict[tuple[str, ...], list[_Leaf]]:
    found: dict[tuple[str, ...], list[_Leaf]] = {}
    for path, leaf in leaves:
        found.setdefault(path, []).append(leaf)
    return found


def _less(leaves: list[_Leaf], others: list[_Leaf]) -> list[_Leaf]:
    """Return the leaves that are not among others, in whatever order both stand."""
    left = Counter(one.text for one in others)
    found = []
    for one in leaves:
        if left[one.text]:
            left[one.text] -= 1
        else:
            found.append(one)
    return found


def _touched(file: str, pairs: Pairs) -> list[str]:
    """Return the aircraft whose document a file is a part of."""
    found = []
    for _, now in pairs:
        if now and now.definition:
            one = now.definition
            if file in ("school.yaml", one.airframe.place.file, one.type.place.file):
                found.append(one.registration)
    return found


def _reach(file: str, path: tuple[str, ...], reworded: bool) -> str:
    """Return what an edit of a key may move; `reworded` where it is there before and after."""
    if file == "school.yaml":
        return "rows" if path[0].startswith("reference speeds") else "words"
    *parts, last = path
    if last == "when":
        return "words" if not _OF_TABLES.isdisjoint(parts) else "names" if reworded else "wide"
    if last in _OF_MARKS or (last == "name" and "cruise" in parts):
        return "names"
    return "wide" if _SAID.isdisjoint(path) else "words"
