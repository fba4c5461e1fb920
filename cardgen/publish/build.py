"""Building the site of a fleet."""

import datetime
import json
import shutil
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Future, ProcessPoolExecutor, as_completed
from pathlib import Path

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.card import Card, make_card
from cardgen.cards.conversions import conversion_tables
from cardgen.cards.table import Table
from cardgen.checks.rule import Finding, Severity
from cardgen.checks.run import check, errors, of_aircraft
from cardgen.definition.fleet import Fleet, read_fleet
from cardgen.definition.model import School
from cardgen.definition.places import DefinitionError
from cardgen.publish.place import MARK, replacing
from cardgen.render import page, pdf
from cardgen.render.data import card_json, table_csv, tables_json
from cardgen.render.imposition import joined
from cardgen.render.templates import Templates
from cardgen.review.fingerprint import fingerprint
from cardgen.words.english import ENGLISH

Signed = tuple[Card, str]  # a card with its fingerprint
Progress = Callable[[int, int, str], None]  # done, of how many, what was done


def build(
    definitions: Path,
    out: Path,
    progress: Progress,
    pdfs: bool = True,
    today: datetime.date | None = None,
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
        The day that manuals are held against, if not this one.

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
    if faults := errors(found, ENGLISH):
        raise DefinitionError(faults)
    overrides = definitions / "templates"
    templates = Templates(overrides)
    with replacing(out) as site:
        cards = [(card, fingerprint(card)) for card in _cards(fleet)]
        tables = conversion_tables()
        _write_pages(site, templates, fleet, cards, tables, found)
        progress(1, 1, "pages, CSV and JSON")
        if pdfs:
            _write_pdfs(site, overrides, fleet.school, cards, tables, progress)


def _cards(fleet: Fleet) -> Iterator[Card]:
    for definition in fleet.aircraft:
        yield make_card(Aircraft(definition), fleet.school)


def _write_pages(
    site: Path,
    templates: Templates,
    fleet: Fleet,
    cards: Sequence[Signed],
    tables: Sequence[Table],
    found: Sequence[Finding],
) -> None:
    school = fleet.school
    _write(site / "index.html", page.fleet_page(templates, school, cards))
    _write(site / "formulas.html", page.formulas_page(templates, school))
    _write(site / "glossary.html", page.glossary_page(templates, school))
    for asset in page.ASSETS:
        _write(site / "assets" / asset, templates.render(asset))
    if templates.picture:
        shutil.copy(templates.picture, site / "assets")
    for card, mark in cards:
        folder = site / card.registration
        warnings = _warnings(found, card)
        _write(folder / "index.html", page.aircraft_page(templates, card, mark, warnings))
        _write(folder / "card.json", card_json(card, mark))
        _write_csvs(folder, card.tables)
    folder = site / "conversions"
    _write(folder / "index.html", page.conversions_page(templates, school, tables))
    _write(folder / "conversions.json", tables_json(tuple(tables)))
    _write_csvs(folder, tables)
    marks = {card.registration: mark for card, mark in cards}
    _write(site / MARK, json.dumps({"school": school.name, "figures": marks}, indent=1) + "\n")


def _warnings(found: Sequence[Finding], card: Card) -> list[dict[str, object]]:
    """Return what the checks warn of in an aircraft's files; notes are for the report only."""
    return [
        {
            "severity": one.severity,
            "message": ENGLISH.say(one.message),
            "place": one.place,
            "accepted": one.accepted,
        }
        for one in of_aircraft(found, card.aircraft.definition)
        if one.severity is Severity.WARNING
    ]


def _write_csvs(folder: Path, tables: Sequence[Table]) -> None:
    for table in tables:
        _write(folder / f"{table.name}.csv", table_csv(table))


def _write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8", newline="\n")


def _write_pdfs(
    site: Path,
    overrides: Path,
    school: School,
    cards: Sequence[Signed],
    tables: Sequence[Table],
    progress: Progress,
) -> None:
    """Make the PDFs side by side, one aircraft to a process; then join the fleet's."""
    with ProcessPoolExecutor() as pool:
        jobs: dict[Future[None], str] = {}
        for card, mark in cards:
            job = pool.submit(_write_aircraft, site, overrides, school, card, mark)
            jobs[job] = f"{card.registration}/card.pdf"
        job = pool.submit(_write_tables, site, overrides, school, tables)
        jobs[job] = "conversions/conversions.pdf"
        try:
            for done, job in enumerate(as_completed(jobs), start=1):
                job.result()
                progress(done, len(jobs) + 1, jobs[job])
        except BaseException:
            pool.shutdown(cancel_futures=True)
            raise
    if cards:
        paths = [site / card.registration / "card.pdf" for card, _ in cards]
        joined(paths, site / "fleet.pdf", f"{school.name} airspeed cards")
    progress(len(jobs) + 1, len(jobs) + 1, "fleet.pdf")


def _write_aircraft(site: Path, overrides: Path, school: School, card: Card, mark: str) -> None:
    pdf.write_aircraft_pdfs(site / card.registration, Templates(overrides), school, card, mark)


def _write_tables(site: Path, overrides: Path, school: School, tables: Sequence[Table]) -> None:
    path = site / "conversions" / "conversions.pdf"
    pdf.write_tables_pdf(path, Templates(overrides), school, tables)
