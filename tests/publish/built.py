"""Builds in which PDFs cost nothing, and what can be seen of a site that was built."""

import json
import shutil
from collections.abc import Iterator
from concurrent.futures import Executor, Future
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

import pytest

from cardgen.cards.card import shared_document
from cardgen.document.record import School, Shared
from cardgen.publish import keys
from cardgen.publish.build import build
from cardgen.publish.record import read_record
from cardgen.publish.store import Store
from cardgen.publish.work import Printed


class Blank(Executor):
    """Prints nothing: a file that says what was to be printed, at once."""

    def __init__(self) -> None:
        self.printed: list[str] = []

    def submit(self, work, /, name, document, own, press):  # type: ignore[override]
        self.printed.append(json.loads(document).get("head", {}).get("registration", name))
        done: Future[Printed] = Future()
        said = keys.hashed(document + repr(own).encode()).encode()
        done.set_result(Printed({name.replace(".json", ".pdf"): said}, 1))
        return done


@contextmanager
def put_together() -> Iterator[None]:
    """Put the fleet's blank sheets together as they are."""

    def joined(cards, title):
        return b"".join(cards)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("cardgen.render.imposition.fleet_pdf", joined)
        yield


@contextmanager
def one_shared_table() -> Iterator[None]:
    """Let the tables that serve every aircraft be one, since all are laid out alike."""

    def one(school: School) -> Shared:
        whole = shared_document(school)
        return replace(whole, tables=whole.tables[:1])

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("cardgen.publish.making.shared_document", one)
        yield


def tree(site: Path) -> dict[str, bytes]:
    files = sorted(path for path in site.rglob("*") if path.is_file())
    return {path.relative_to(site).as_posix(): path.read_bytes() for path in files}


def times(site: Path) -> dict[str, int]:
    files = (path for path in site.rglob("*") if path.is_file())
    return {path.relative_to(site).as_posix(): path.stat().st_mtime_ns for path in files}


def part_keys(cache: Path, site: Path) -> dict[str, str]:
    """The key of each part of a site by the part's name."""
    record = read_record(Store(cache).record(site))
    assert record is not None
    return {name: part.key for name, part in record.parts.items()}


def edit(path: Path, old: str, new: str) -> None:
    text = path.read_text()
    assert text.count(old) == 1, (path, old)
    path.write_text(text.replace(old, new))


class Site:
    """A site that a test builds again and again."""

    def __init__(self, folder: Path) -> None:
        self.definitions = folder / "aircraft"
        self.out = folder / "site"
        self.cache = folder / "cache"
        self.press = Blank()

    def build(self, **options):
        self.press = Blank()
        options = {"cache": self.cache, "executor": self.press, **options}
        return build(self.definitions, self.out, **options)

    def fresh(self, name: str = "fresh") -> dict[str, bytes]:
        """What a build gives that knows of none before."""
        out = self.out.with_name(name)
        build(self.definitions, out, executor=Blank())
        made = tree(out)
        shutil.rmtree(out)
        return made
