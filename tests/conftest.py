import shutil
from collections.abc import Callable, Collection, Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
import yaml
from filelock import FileLock

from cardgen.airframe.aircraft import Aircraft
from cardgen.definition.fleet import Fleet, read_fleet
from cardgen.document.record import Document
from cardgen.layout.formats import FORMATS, Format
from tests.browsing import browser, context
from tests.plain import make
from tests.sampling import (
    is_long,
    pytest_collection_modifyitems,
    pytest_configure,
    pytest_terminal_summary,
    sample,
)

__all__ = [
    "browser",
    "context",
    "make",
    "pytest_collection_modifyitems",
    "pytest_configure",
    "pytest_terminal_summary",
    "sample",
]

ROOT = Path(__file__).parents[1]
DEMO = ROOT / "aircraft"
STRESS = ROOT / "tests" / "definitions" / "stress"
# An airframe of each type, whose card is printed, and of the other formats what tries them most.
PRINTED = {
    "ZZ-DUA": ["pocket.pdf"],
    "ZZ-PHN": ["pocket.pdf"],
    "ZZ-TUA": [],
    "ZZ-WHB": ["strip.pdf"],
    "ZZ-WTR": ["card-night.pdf", "strip.pdf", "pocket.pdf"],
}


@pytest.fixture(scope="session", autouse=True)
def cache_of_the_tests(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Let commands keep what they make apart from what the user's keep."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_CACHE_HOME", str(tmp_path_factory.mktemp("cache")))
        yield


@pytest.fixture(scope="session")
def fleet() -> Fleet:
    return read_fleet(DEMO)


@pytest.fixture(scope="session")
def aircraft(fleet: Fleet) -> dict[str, Aircraft]:
    """The demo fleet by registration."""
    return {one.registration: Aircraft(one) for one in fleet.aircraft}


@cache
def documents_of(folder: Path) -> dict[str, Document]:
    """The documents of a fleet by registration, which a process makes once."""
    from cardgen.cards.card import make_document

    fleet = read_fleet(folder)
    return {one.registration: make_document(Aircraft(one), fleet.school) for one in fleet.aircraft}


@pytest.fixture
def definitions(tmp_path: Path) -> Path:
    """A copy of the demo definitions that a test may spoil."""
    return Path(shutil.copytree(DEMO, tmp_path / "aircraft"))


def keep(definitions: Path, *airframes: str) -> Path:
    """Leave only these airframes, and their types, in a copy of the demo definitions."""
    kept = {definitions / "fleet" / f"{name}.yaml" for name in airframes}
    types = {yaml.safe_load(path.read_text())["type"] for path in kept}
    kept |= {definitions / "types" / f"{name}.yaml" for name in types}
    for path in {*definitions.glob("fleet/*.yaml"), *definitions.glob("types/*.yaml")} - kept:
        path.unlink()
    drop_pairs(definitions)
    return definitions


def drop_pairs(definitions: Path) -> None:
    """Name no pair any longer of an aircraft of the demo that has no file now."""
    names = {path.stem.upper() for path in (DEMO / "fleet").iterdir()}
    path = definitions / "school.yaml"
    there = {one.stem.upper() for one in (definitions / "fleet").iterdir()}
    lines = path.read_text().splitlines(keepends=True)
    gone = [one for one in lines if any(f": {name}" in one for name in names - there)]
    kept = [one for one in lines if one not in gone]
    if gone and not any(one.startswith("  - {from: ") for one in kept):
        kept.remove("pairs:\n")
    path.write_text("".join(kept))


@pytest.fixture
def one_aircraft(definitions: Path) -> Path:
    """Definitions of a fleet of one, ZZ-DUA, that a test may spoil."""
    return keep(definitions, "zz-dua")


def made_once(factory: pytest.TempPathFactory, name: str, make: Callable[[Path], None]) -> Path:
    """Return a folder of a test run, made by the first of its processes that asks for it."""
    run = factory.getbasetemp()
    run = run.parent if run.name.startswith("popen-") else run
    folder, done = run / name, run / f"{name}.done"
    with FileLock(run / f"{name}.lock"):
        if not done.exists():
            folder.mkdir()
            make(folder)
            done.touch()
    return folder


@pytest.fixture(scope="session")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo site without its PDFs."""
    from cardgen.publish.build import build

    return (
        made_once(
            tmp_path_factory,
            "pages",
            lambda folder: build(DEMO, folder / "site", lambda done, total, what: None, pdfs=False),
        )
        / "site"
    )


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo site with its PDFs: of an airframe of each type, or of all in a long run."""
    from cardgen.publish.build import build
    from cardgen.render.pdf import aircraft_pdfs
    from cardgen.render.press import Press
    from cardgen.render.templates import Templates

    def some(templates: Templates, document: Document, press: Press) -> Iterator[tuple[str, bytes]]:
        with printing(*printed_of(document.head.registration)):
            yield from aircraft_pdfs(templates, document, press)

    def make(folder: Path) -> None:
        definitions = Path(shutil.copytree(DEMO, folder / "aircraft"))
        if not is_long():
            keep(definitions, *(name.lower() for name in PRINTED))
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr("cardgen.render.pdf.aircraft_pdfs", some)
            build(definitions, folder / "site", lambda done, total, what: None)

    return made_once(tmp_path_factory, "built", make) / "site"


def printed(built: Path) -> list[str]:
    """The aircraft that have PDFs."""
    return sorted(path.parent.name for path in built.glob("*/card.json"))


def printed_of(name: str) -> list[str]:
    """The PDFs that an aircraft has."""
    wanted = {"card.pdf", "card-2up.pdf", *PRINTED.get(name, ())}
    return [one.file for one in FORMATS if is_long() or one.file in wanted]


@contextmanager
def printing(*kinds: str, sheets: Collection[str] = ()) -> Iterator[list[Format]]:
    """Let some formats be made only, and of these some sheets if any are named; all in a long run.

    Sheets go by the messages that are their titles.
    """
    made = FORMATS if is_long() else [_some_of(one, sheets) for one in FORMATS if one.file in kinds]
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("cardgen.render.pdf.FORMATS", made)
        yield made


@pytest.fixture
def only(record_property: Callable[[str, object], None]) -> Iterator[Callable[..., list[str]]]:
    """Let some formats, and some of their sheets, be laid out for one test; says their files."""
    with ExitStack() as stack:

        def choose(*kinds: str, sheets: Collection[str] = ()) -> list[str]:
            made = stack.enter_context(printing(*kinds, sheets=sheets))
            counts = [sum(len(one.sheets) for one in formats) for formats in (made, FORMATS)]
            record_property("sampled", ("kinds of sheets printed anew", *counts))
            return [one.file for one in made]

        yield choose


def _some_of(one: Format, sheets: Collection[str]) -> Format:
    kept = tuple(sheet for sheet in one.sheets if not sheets or sheet.title in sheets)
    return replace(one, sheets=kept)
