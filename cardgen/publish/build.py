"""Building the site of a fleet."""

import datetime
import json
import shutil
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Future, ProcessPoolExecutor, as_completed
from pathlib import Path

from cardgen import __version__
from cardgen.cards.card import reference_document, shared_document
from cardgen.cards.head import publisher
from cardgen.cards.sisters import Sisters
from cardgen.checks.rule import Finding
from cardgen.checks.run import check, errors, findings_of
from cardgen.definition.fleet import Fleet, read_fleet
from cardgen.definition.places import DefinitionError
from cardgen.document.data import SCHEMAS, json_schema, to_json
from cardgen.document.record import Document, Index, Listed, Shared, Table
from cardgen.publish.place import MARK, replacing
from cardgen.render import page, pdf
from cardgen.render.data import table_csv
from cardgen.render.imposition import joined
from cardgen.render.templates import Templates
from cardgen.review.marks import marked
from cardgen.words.english import ENGLISH

Progress = Callable[[int, int, str], None]  # done, of how many, what was done


def build(
    definitions: Path,
    out: Path,
    progress: Progress,
    pdfs: bool = True,
    today: datetime.date | None = None,
    workers: int | None = None,
    strict: bool = False,
    untrusted: bool = False,
) -> None:
    """Build a fleet's site, and put it in place when all of it is built.

    Parameters
    ----------
    definitions : Path
        The folder of YAML files; its ``templates`` folder, if any, overrides ours.
    out : Path
        Where the site shall stand.
    progress : callable
        Told of each part that is done.
    pdfs : bool
        Whether to make the PDFs too, which takes most of the time.
    today : date, optional
        The day that manuals are held against, if not this one; an error of
        that day forbids the site, and nothing else of it depends on the day.
    workers : int, optional
        How many processes lay sheets out; as many as the machine has cores
        where left out. The site does not depend on it.
    strict : bool
        Whether a warning that is not accepted forbids the site too.
    untrusted : bool
        Whether the folder's templates and picture, which are code, are left alone.

    Raises
    ------
    DefinitionError
        If a definition has faults, or a check finds an error in one.
    PlaceError
        If `out` holds something that is not a site.
    PdfError
        If a system library for PDFs is missing.
    """
    fleet = read_fleet(definitions)
    found = check(fleet, today or datetime.date.today())
    if faults := errors(found, ENGLISH, strict):
        raise DefinitionError(faults)
    overrides = None if untrusted else definitions / "templates"
    with replacing(out) as site:
        documents = list(_documents(fleet, found))
        shared = shared_document(fleet.school)
        _write_pages(site, Templates(overrides), fleet, documents, shared)
        progress(1, 1, "pages, CSV and JSON")
        if pdfs:
            _write_pdfs(site, overrides, documents, shared, progress, workers)


def _documents(fleet: Fleet, found: Sequence[Finding]) -> Iterator[Document]:
    sisters = Sisters(fleet.school)
    for definition in fleet.aircraft:
        yield marked(sisters.document(definition, findings_of(found, definition)))


def _write_pages(
    site: Path,
    templates: Templates,
    fleet: Fleet,
    documents: Sequence[Document],
    shared: Shared,
) -> None:
    index = index_of(fleet, documents)
    reference = reference_document(fleet.school)
    _write(site / "index.html", page.fleet_page(templates, index))
    _write(site / "formulas.html", page.formulas_page(templates, reference))
    _write(site / "glossary.html", page.glossary_page(templates, reference))
    _write(site / "keys.html", page.keys_page(templates, reference))
    for asset in page.ASSETS:
        _write(site / "assets" / asset, templates.render(asset))
    for name in SCHEMAS:
        schema = json.dumps(json_schema(name), indent=1)
        _write(site / "schemas" / name.replace(".json", ".schema.json"), f"{schema}\n")
    if templates.picture:
        shutil.copy(templates.picture, site / "assets")
    for document in documents:
        folder = site / document.head.registration
        _write(folder / "index.html", page.aircraft_page(templates, document))
        _write(folder / "card.json", to_json(document))
        _write_csvs(folder, document.tables, templates)
    folder = site / "conversions"
    _write(folder / "index.html", page.conversions_page(templates, shared))
    _write(folder / "conversions.json", to_json(shared))
    _write_csvs(folder, shared.tables, templates)
    marks = {one.registration: one.marks.card for one in index.aircraft}
    record = {"cardgen": __version__, "school": fleet.school.name, "figures": marks}
    _write(site / MARK, json.dumps(record, indent=1) + "\n")


def index_of(fleet: Fleet, documents: Sequence[Document]) -> Index:
    """Return what the fleet's page lists."""
    listed = tuple(
        Listed(
            one.head.registration,
            one.head.type,
            one.head.kind,
            one.head.indicator_unit,
            one.head.manual,
            one.marks,
            one.head.signature,
        )
        for one in documents
    )
    return Index(publisher(fleet.school), listed, __version__)


def _write_csvs(folder: Path, tables: Sequence[Table], templates: Templates) -> None:
    for table in tables:
        _write(folder / f"{table.id}.csv", table_csv(table, templates.language))


def _write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8", newline="\n")


def _write_pdfs(
    site: Path,
    overrides: Path | None,
    documents: Sequence[Document],
    shared: Shared,
    progress: Progress,
    workers: int | None,
) -> None:
    """Make the PDFs side by side, one aircraft to a process; then join the fleet's."""
    with ProcessPoolExecutor(workers) as pool:
        jobs: dict[Future[None], str] = {}
        for document in documents:
            name = document.head.registration
            job = pool.submit(_write_aircraft, site / name, overrides, document)
            jobs[job] = f"{name}/card.pdf"
        job = pool.submit(_write_tables, site / "conversions", overrides, shared)
        jobs[job] = "conversions/conversions.pdf"
        try:
            for done, job in enumerate(as_completed(jobs), start=1):
                job.result()
                progress(done, len(jobs) + 1, jobs[job])
        except BaseException:
            pool.shutdown(cancel_futures=True)
            raise
    if documents:
        paths = [site / one.head.registration / "card.pdf" for one in documents]
        title = ENGLISH.say("title-fleet-pdf", school=shared.school.name)
        joined(paths, site / "fleet.pdf", title)
    progress(len(jobs) + 1, len(jobs) + 1, "fleet.pdf")


def _write_aircraft(folder: Path, overrides: Path | None, document: Document) -> None:
    pdf.write_aircraft_pdfs(folder, Templates(overrides), document)


def _write_tables(folder: Path, overrides: Path | None, shared: Shared) -> None:
    pdf.write_tables_pdf(folder / "conversions.pdf", Templates(overrides), shared)
