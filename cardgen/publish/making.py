"""Making a site part by part: documents, pages and PDFs, each only where its key is new."""

import datetime
import json
import re
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import replace
from functools import cache, partial
from pathlib import Path
from typing import Any

from pydantic import TypeAdapter

from cardgen import __version__
from cardgen.cards.card import reference_document, shared_document
from cardgen.cards.head import pairs_of, publisher
from cardgen.cards.sisters import Sisters
from cardgen.checks.rule import Finding, Severity
from cardgen.checks.run import check, errors, findings_of, of_aircraft
from cardgen.definition.files import content_of, inside
from cardgen.definition.fleet import AircraftDefinition, Fleet, UnknownAircraftError, read_sound
from cardgen.definition.model import School
from cardgen.definition.places import DefinitionError, Fault
from cardgen.definition.shown import escaped
from cardgen.definition.signed import records_of
from cardgen.document.data import (
    SCHEMAS,
    from_json,
    json_schema,
    to_json,
    transition_json,
    transition_of,
)
from cardgen.document.record import Document, Index, LeftOut, Listed, Pair, Reference, Table
from cardgen.document.signature import state_of, valid_to
from cardgen.layout.formats import FORMATS
from cardgen.lessons.teaching.page import teaching
from cardgen.lessons.transition.sheet import transition
from cardgen.lessons.transition.traits import traits
from cardgen.publish.build import Order
from cardgen.publish.filling import Filling
from cardgen.publish.keys import NEXT_SHEET, SHEETS, Inputs, definitions_of, hashed, key
from cardgen.publish.manifest import MARK, MARKS, PDF_MARK, manifest
from cardgen.publish.place import OnlyError
from cardgen.publish.record import Part, Record, warnings_of
from cardgen.publish.static import refuse_taken, static_file
from cardgen.publish.work import Printed, Workers, templates_in
from cardgen.render import page
from cardgen.render.data import table_csv
from cardgen.render.templates import Templates
from cardgen.review.marks import marked
from cardgen.review.records import released
from cardgen.words.current import superseded
from cardgen.words.english import ENGLISH

_ALWAYS = datetime.date.max  # the day that manuals are held against: on no other hangs a page
_REGISTRATION = re.compile(r"""^registration:\s*["']?([^\s"'#]+)""", re.MULTILINE)
_LISTED = TypeAdapter(Listed)
Made = tuple[Mapping[str, str | bytes], object]  # files by name, and what is to be known of them
_PAGES: tuple[tuple[str, str, Callable[[Templates, Reference], str]], ...] = (
    ("formulas", "formulas.html", page.formulas_page),
    ("glossary", "glossary.html", page.glossary_page),
    ("keys", "keys.html", page.keys_page),
)


Refuse = Callable[[Mapping[str, str]], None]


def made(
    order: Order, inputs: Inputs, site: Filling, scratch: Path, refuse: Refuse
) -> tuple[Inputs, tuple[Fault, ...]]:
    """Make a site of what can be had and what must be made; see `build`.

    Parameters
    ----------
    order : Order
    inputs : Inputs
    site : Filling
        What is to be filled.
    scratch : Path
        A folder for what is gone with the build.
    refuse : callable
        Holds the files that are to be written against what stands there; see `Place.refuse`.

    Returns
    -------
    Inputs
        What it was made of, which may have been edited since it was asked for.
    tuple of Fault
        For which aircraft were left out.
    """
    inputs, fleet, faults = _read(order.definitions, inputs)
    if fleet is None:
        raise DefinitionError(faults)
    wanted = _asked_for(fleet, order.only, faults)
    refuse_taken(inputs.static, _paths(fleet, pdfs=True))
    refuse({**dict.fromkeys(_paths(fleet, order.pdfs), ""), **inputs.static})
    with Workers(order.executor, order.workers, scratch) as workers:
        had = {one.registration for one in wanted.aircraft if _reused(site, one, inputs, order)}
        found = check(_to_check(wanted, had, order.only), _ALWAYS)
        faults += errors(found, ENGLISH, order.strict)
        if order.only:
            faults = [one for one in faults if one.place.file in _files(wanted)]
        if faults and (not order.keep_going or "school.yaml" in {one.place.file for one in faults}):
            raise DefinitionError(faults)
        sound = _without(wanted, faults)
        making = _Making(inputs, fleet.school, found, site, workers, order, scratch)
        making.begin(len(sound.aircraft), len(fleet.school.pairs))
        inputs = making.static()
        making.reference()
        making.shared()
        for definition in sound.aircraft:
            making.aircraft(definition)
        for name in _others(site.before, order.only):
            making.keep(name)
        making.pairs()
        workers.finish()
        refuse_taken(inputs.static, _made_itself(site))
        making.lists([] if order.only else _left_out(inputs, order.definitions, sound))
    return inputs, tuple(faults)


def _read(folder: Path, inputs: Inputs) -> tuple[Inputs, Fleet | None, list[Fault]]:
    """Read definitions, anew while they are edited: what is read must be what has the hash."""
    while True:
        fleet, faults = read_sound(folder)
        now = definitions_of(folder)
        if now == inputs.definitions:
            return inputs, fleet, faults
        inputs = replace(inputs, definitions=now)


def _asked_for(fleet: Fleet, only: Collection[str], faults: Sequence[Fault]) -> Fleet:
    """Return a fleet of the aircraft that are asked for."""
    if not only:
        return fleet
    try:
        wanted = fleet.named(only)
    except UnknownAircraftError as error:
        if faults:
            raise DefinitionError(faults) from None
        raise OnlyError(error) from None
    return replace(fleet, aircraft=tuple(sorted(wanted, key=_folded)))


def _folded(one: AircraftDefinition) -> str:
    return one.registration.casefold()


def _reused(site: Filling, definition: AircraftDefinition, inputs: Inputs, order: Order) -> bool:
    """Take an aircraft's document as it was made before; whether it was, and found sound."""
    name = definition.registration
    part = site.reuse(f"{name}/card.json", name, _key(definition, inputs))
    return part is not None and not (order.strict and warnings_of(part))


def _to_check(fleet: Fleet, had: Collection[str], only: Collection[str]) -> Fleet:
    """Return what of a fleet was not found sound before: aircraft, and types that none has."""
    new = tuple(one for one in fleet.aircraft if one.registration not in had)
    names = {one.airframe.type for one in new}
    if not only:
        names |= fleet.types.keys() - {one.airframe.type for one in fleet.aircraft}
    types = {name: one for name, one in fleet.types.items() if name in names}
    return replace(fleet, types=types, aircraft=new)


def _key(definition: AircraftDefinition, inputs: Inputs) -> str:
    files = definition.airframe.place.file, definition.type.place.file
    return inputs.document(*files, definition.registration)


def _paths(fleet: Fleet, pdfs: bool) -> list[str]:
    """Return the paths that are known before the documents are."""
    sheets = [one.file for one in FORMATS] if pdfs else []
    paths = [
        "index.html",
        "next/index.html",
        *(file for _, file, _ in _PAGES),
        *page.SERVED,
        *MARKS,
    ]
    paths += [f"assets/{name}" for name in page.ASSETS]
    paths += [f"schemas/{name.replace('.json', '.schema.json')}" for name in SCHEMAS]
    paths += [f"conversions/{name}" for name in ("index.html", "conversions.json")]
    for one in fleet.aircraft:
        paths += [
            f"{one.registration}/{name}"
            for name in ("index.html", page.TEACHING, "case.js", "traits.js", "card.json", *sheets)
        ]
    sheets = ["next.pdf"] if pdfs else []
    for pair in pairs_of(fleet.school):
        paths += [f"{pair.folder}/{name}" for name in ("index.html", "next.json", *sheets)]
    return paths + (["fleet.pdf", "conversions/conversions.pdf"] if pdfs else [])


def _made_itself(site: Filling) -> list[str]:
    """Return the paths that are not of the school's own files."""
    parts = (part for name, part in site.parts.items() if not name.endswith("/static"))
    return [path for part in parts for path in part.paths]


def _files(fleet: Fleet) -> set[str]:
    aircraft = {one.airframe.place.file for one in fleet.aircraft}
    return aircraft | {one.type.place.file for one in fleet.aircraft} | {"school.yaml"}


def _without(fleet: Fleet, faults: Sequence[Fault]) -> Fleet:
    """Return a fleet without the aircraft that faults stand in the files of."""
    files = {one.place.file for one in faults}
    sound = tuple(
        one
        for one in fleet.aircraft
        if files.isdisjoint({one.airframe.place.file, one.type.place.file})
    )
    return replace(fleet, aircraft=sound)


def _left_out(inputs: Inputs, folder: Path, sound: Fleet) -> list[LeftOut]:
    """Return the aircraft that have a file and no page, by the names that their files have."""
    there = {one.airframe.place.file for one in sound.aircraft}
    files = [one for one in inputs.definitions if one.startswith("fleet/") and one not in there]
    return [LeftOut(name) for name in sorted({_name_in(folder, Path(file)) for file in files})]


def _name_in(folder: Path, path: Path) -> str:
    """Return the registration in a file that may be no YAML, or else the file's name."""
    try:
        text = content_of(inside(folder, path), path.name).decode(errors="replace")
    except (OSError, DefinitionError):
        text = ""
    said = _REGISTRATION.search(text)
    return escaped(said[1] if said else path.stem.upper())


def _others(before: Record | None, only: Collection[str]) -> list[str]:
    """Return the aircraft of a site that stay as they are, where only some are asked for."""
    asked = {name.casefold() for name in only}
    known = _names(before.parts) if before and only else []
    return [name for name in known if name.casefold() not in asked]


def _names(parts: Collection[str]) -> list[str]:
    """Return the aircraft that have a document among a site's parts."""
    return sorted(name.removesuffix("/card.json") for name in parts if name.endswith("/card.json"))


class _Making:
    """Makes parts of a site, each where it cannot be had."""

    def __init__(
        self,
        inputs: Inputs,
        school: School,
        found: Sequence[Finding],
        site: Filling,
        workers: Workers,
        order: Order,
        scratch: Path,
    ) -> None:
        self._inputs = inputs
        self._school = school
        self._sisters = Sisters(school)
        self._pairs = pairs_of(school)
        self._found = found
        self._folder = order.definitions
        self._site = site
        self._workers = workers
        self._progress = order.progress
        self._pdfs = order.pdfs
        self._publisher = _plain(publisher(school))
        self._templates = templates_in(scratch / "own", inputs.own)
        self._done = self._total = 0

    def begin(self, aircraft: int, pairs: int) -> None:
        """Say how many parts there will be: of each, what all share, and the lists."""
        self._total = (aircraft + pairs + 1) * (2 if self._pdfs else 1) + 1

    def aircraft(self, definition: AircraftDefinition) -> None:
        """Make all of one aircraft."""
        name = definition.registration
        self._under_work(name)
        fresh: list[Document] = []

        def make() -> Made:
            findings = findings_of(self._found, definition)
            document = marked(self._sisters.document(definition, findings))
            document = released(document, records_of(self._folder, name))
            fresh.append(document)
            about = {"listed": _listed(document), "warnings": _warnings(self._found, definition)}
            return {"card.json": to_json(document)}, about

        part = self._site.parts.get(f"{name}/card.json") or self._part(
            "documents", name, "card.json", _key(definition, self._inputs), make
        )

        @cache
        def card() -> Document:
            return fresh[0] if fresh else from_json(self._text(part, "card.json"), Document)

        def show() -> Made:
            text = page.aircraft_page(self._templates, card())
            case = page.case_data(self._templates.language, card())
            asked = page.traits_data(traits(card()))
            csvs = _csvs(card().tables, self._templates)
            return {"index.html": text, "case.js": case, "traits.js": asked, **csvs}, None

        def teach() -> Made:
            text = page.teaching_page(self._templates, card(), teaching(card()))
            return {page.TEACHING: text}, None

        self._part("pages", name, "teaching", self._inputs.taught(part.files["card.json"]), teach)
        hangs = (self._inputs.maker.next,)
        self._shown(name, "card.json", part, "aircraft.html", show, hangs=hangs)

    def shared(self) -> None:
        """Make what serves every aircraft."""
        shared = cache(lambda: shared_document(self._school))
        file = "conversions.json"
        key_ = key(file, self._inputs.maker.documents, self._publisher)
        part = self._part(
            "documents", "conversions", file, key_, lambda: ({file: to_json(shared())}, None)
        )

        def show() -> Made:
            text = page.conversions_page(self._templates, shared())
            return {"index.html": text, **_csvs(shared().tables, self._templates)}, None

        self._shown("conversions", file, part, "conversions.html", show)

    def pairs(self) -> None:
        """Make what to mind in an aircraft after another, of each pair that the school names."""
        for pair in self._pairs:
            first = self._site.parts.get(f"{pair.first}/card.json")
            second = self._site.parts.get(f"{pair.second}/card.json")
            if first is None or second is None:
                self._left_out(pair)
            else:
                self._pair(pair, first, second)

    def _left_out(self, pair: Pair) -> None:
        """Say that an aircraft of a pair is left out, for those who come from the other."""
        key_ = self._inputs.page("next-left-out.html", self._publisher, _plain(pair))
        show = partial(page.left_out_page, self._templates, publisher(self._school), pair)
        self._part("pages", pair.folder, "page", key_, lambda: ({"index.html": show()}, None))

    def _pair(self, pair: Pair, first: Part, second: Part) -> None:
        self._under_work(pair.folder)

        def document(part: Part) -> Document:
            return from_json(self._text(part, "card.json"), Document)

        def make() -> Made:
            found = transition(document(first), document(second))
            return {"next.json": transition_json(found)}, None

        key_ = self._inputs.next(first.files["card.json"], second.files["card.json"])
        part = self._part("documents", pair.folder, "next.json", key_, make)

        def show() -> Made:
            told = transition_of(self._text(part, "next.json"))
            return {"index.html": page.next_page(self._templates, told)}, None

        self._shown(pair.folder, "next.json", part, "next.html", show, NEXT_SHEET)

    def reference(self) -> None:
        """Make what explains the cards and the definitions, and what all pages use."""
        reference = cache(lambda: reference_document(self._school))
        plain = (self._inputs.maker.documents, self._publisher)
        for name, file, show in _PAGES:
            make = partial(_page, file, show, self._templates, reference)
            self._part("pages", "", name, self._inputs.page(file, *plain), make)
        for asset in page.ASSETS:
            make = partial(_asset, asset, self._templates)
            self._part("assets", "assets", asset, self._inputs.page(asset), make)
        for file in page.SERVED:
            make = partial(_served, file, self._templates, self._school)
            self._part("pages", "", file, self._inputs.page(file, self._publisher), make)
        schemas = key("schemas", self._inputs.maker.documents)
        self._part("schemas", "schemas", "", schemas, lambda: (_schemas(), None))
        if picture := self._inputs.picture:
            data = dict(self._inputs.own)[picture]
            key_ = key("picture", hashed(data))
            self._part("assets", "assets", picture, key_, lambda: ({picture: data}, None))

    def static(self) -> Inputs:
        """Copy the school's own files, and return the inputs with what these held just then."""
        copied = {}
        for name, hash_ in self._inputs.static.items():
            key_ = key("static", name, hash_)
            if self._site.reuse(f"{name}/static", "", key_) is None:
                data = static_file(self._folder, name)
                hash_ = hashed(data)
                self._site.add(f"{name}/static", "", key("static", name, hash_), {name: data})
            copied[name] = hash_
        return replace(self._inputs, static=copied)

    def keep(self, name: str) -> None:
        """Keep an aircraft of the site as it stands in it."""
        for what in ("card.json", "page", "teaching", *(["sheets"] if self._pdfs else [])):
            if self._site.keep(f"{name}/{what}") is None:
                raise OnlyError(f"{name} is not in the site as it was built; build all of it")

    def lists(self, left_out: Sequence[LeftOut]) -> None:
        """Make what lists the aircraft: the fleet's page, its file of sheets, the record."""
        self._under_work("index.html")
        names = _names(self._site.parts)
        listed = [self._site.parts[f"{name}/card.json"].about["listed"] for name in names]
        pairs = [pair for pair in self._pairs if f"{pair.folder}/next.json" in self._site.parts]
        index = index_of(self._school, map(_LISTED.validate_python, listed), left_out, pairs)
        self._part(
            "pages", "", "index", self._inputs.page("fleet.html", _plain(index)),
            lambda: ({"index.html": page.fleet_page(self._templates, index)}, None),
        )  # fmt: skip
        self._part(
            "lists", "next", "index", self._inputs.page("next-any.html", _plain(index)),
            lambda: ({"index.html": page.any_two_page(self._templates, index)}, None),
        )  # fmt: skip
        if self._pdfs and names:
            self._joined(names)
        marks = {one.registration: one.marks.card for one in index.aircraft}
        self._manifests({"cardgen": __version__, "school": self._school.name, "figures": marks})
        self._advance("index.html")

    def _manifests(self, about: Mapping[str, Any]) -> None:
        """Make the lists of all files: those of PDFs apart."""
        files = self._site.hashes
        pdfs = {path: hash_ for path, hash_ in files.items() if path.endswith(".pdf")}
        texts = {MARK: manifest(about, {one: files[one] for one in files.keys() - pdfs.keys()})}
        if pdfs:
            texts[PDF_MARK] = manifest({}, pdfs)
        for name, text in texts.items():
            make = partial(_as_it_is, name, text)
            self._part("lists", "", name, key("manifest", name, text), make)

    def _joined(self, names: Sequence[str]) -> None:
        """Make the file of all aircraft's sheets."""
        from cardgen.render.imposition import fleet_pdf

        paths = [self._site.new / name / "card.pdf" for name in names]
        title = fleet_title(self._school.name)
        hashes = [self._site.parts[f"{name}/sheets"].files["card.pdf"] for name in names]
        key_ = key("fleet.pdf", self._inputs.maker.sheets, title, hashes)

        def join() -> Made:
            return {"fleet.pdf": fleet_pdf((path.read_bytes() for path in paths), title)}, None

        self._part("lists", "", "fleet.pdf", key_, join)

    def _shown(
        self,
        name: str,
        file: str,
        document: Part,
        template: str,
        show: Callable[[], Made],
        first: Sequence[str] = SHEETS,
        hangs: Sequence[str] = (),
    ) -> None:
        """Make the page and the PDFs of a document; its sheets begin with some templates.

        The page may hang on sources of more rooms.
        """
        said, before = document.files[file], len(self._site.made)
        self._part("pages", name, "page", self._inputs.page(template, said, *hangs), show)
        self._advance(f"{name}/index.html" if len(self._site.made) > before else "")
        if not self._pdfs:
            return
        key_ = self._inputs.sheets(said, first=first)
        if self._site.reuse(f"{name}/sheets", name, key_):
            self._advance("")
            return

        def take(one: Printed) -> None:
            self._site.add(f"{name}/sheets", name, key_, one.files)
            self._site.counts.update(sheets=1, layouts=one.layouts)
            self._advance(f"{name}/card.pdf")

        self._workers.give(take, file, self._text(document, file), self._inputs.own)

    def _part(
        self,
        kind: str,
        folder: str,
        name: str,
        key_: str,
        make: Callable[[], Made],
    ) -> Part:
        """Fill in a part: as it was made before, or made now."""
        name = f"{folder}/{name}" if folder else name
        part = self._site.reuse(name, folder, key_)
        if part is None:
            files, about = make()
            data = {
                one: text.encode() if isinstance(text, str) else text for one, text in files.items()
            }
            part = self._site.add(name, folder, key_, data, about)
            self._site.counts[kind] += 1
        return part

    def _text(self, part: Part, file: str) -> bytes:
        return self._site.content(part, file)

    def _under_work(self, what: str) -> None:
        self._progress(self._done, self._total, what)

    def _advance(self, what: str) -> None:
        self._done += 1
        self._progress(self._done, self._total, what)


def fleet_title(school: str) -> str:
    """Return the title of the file of all aircraft's sheets."""
    return ENGLISH.say("title-fleet-pdf", school=school)


def index_of(
    school: School,
    listed: Iterable[Listed],
    left_out: Iterable[LeftOut] = (),
    pairs: Iterable[Pair] = (),
) -> Index:
    """Return what the fleet's page lists."""
    return Index(publisher(school), tuple(listed), __version__, tuple(left_out), tuple(pairs))


def _listed(document: Document) -> Any:
    return _LISTED.dump_python(listed_of(document), mode="json")


def listed_of(document: Document) -> Listed:
    """Return a document's line in the fleet's page."""
    head = document.head
    last = head.last_signed
    return Listed(
        head.registration,
        head.type,
        head.kind,
        head.indicator_unit,
        head.manual,
        document.marks,
        state_of(head, document.marks),
        head.signatures,
        valid_to(head, document.marks),
        bool(last and last.moved),
        tuple(one.card for one in superseded(document)),
    )


def _warnings(found: Sequence[Finding], definition: AircraftDefinition) -> list[str]:
    """Return what tells the warnings apart that nobody has accepted."""
    return [
        f"{one.place} {one.rule.name} {one.message!r}"
        for one in of_aircraft(found, definition)
        if one.severity is Severity.WARNING and not one.accepted
    ]


def _as_it_is(file: str, text: str) -> Made:
    return {file: text}, None


def _page(
    file: str,
    show: Callable[[Templates, Reference], str],
    templates: Templates,
    reference: Callable[[], Reference],
) -> Made:
    return {file: show(templates, reference())}, None


def _asset(name: str, templates: Templates) -> Made:
    return {name: templates.render(name)}, None


def _served(name: str, templates: Templates, school: School) -> Made:
    return {name: templates.render(name, school=publisher(school))}, None


def _csvs(tables: Sequence[Table], templates: Templates) -> dict[str, str]:
    return {f"{table.id}.csv": table_csv(table, templates.language) for table in tables}


def _schemas() -> dict[str, str]:
    return {
        name.replace(".json", ".schema.json"): json.dumps(json_schema(name), indent=1) + "\n"
        for name in SCHEMAS
    }


def _plain(record: object) -> Any:
    """Return a record as plain data."""
    return TypeAdapter(type(record)).dump_python(record, mode="json")
