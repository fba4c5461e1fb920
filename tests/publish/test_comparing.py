"""Two states of a fleet compared: exactly what differs, and which edit did it.

What differs is found independently: by the files of two built sites, CSV and plain JSON, read
without anything of the package.
"""

import csv
import datetime
import hashlib
import json
import os
import random
import re
import shutil
import subprocess
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pdfplumber
import pytest

from cardgen import __version__
from cardgen.cli import main
from cardgen.definition.files import LARGEST_RECORD
from cardgen.definition.fleet import read_fleet
from cardgen.definition.identifiers import copied
from cardgen.definition.places import DefinitionError
from cardgen.document.comparison import Comparison
from cardgen.publish.build import build
from cardgen.publish.comparing import compare
from cardgen.publish.states import StateError, state_of, working
from cardgen.render import page
from cardgen.words.english import ENGLISH
from tests.conftest import DEMO, ROOT, keep
from tests.sampling import is_long

TODAY = datetime.date(2026, 1, 1)
SITE = ROOT / "site"


def git(folder: Path, *arguments: str) -> str:
    command = ["git", "-C", str(folder), "-c", "user.name=T", "-c", "user.email=t@example.test"]
    done = subprocess.run([*command, *arguments], capture_output=True, text=True, check=True)
    return done.stdout


def committed(definitions: Path) -> Path:
    """Make a repository around definitions, with one commit."""
    folder = definitions.parent
    git(folder, "init", "--quiet", "--initial-branch=main")
    git(folder, "add", definitions.name)
    git(folder, "commit", "--quiet", "--message=First")
    return definitions


def against(definitions: Path, base: str = "HEAD") -> Comparison:
    return compare(state_of(base, definitions), working(definitions), TODAY).comparison


# -- what differs, by an independent reader


def printed(site: Path) -> dict[tuple[str, str], str]:
    """Read every field of a site's CSV files, by aircraft and identifier.

    A row's identifier is that of the row in its place in the JSON, which also says which numbers
    stand in brackets; CSV has none.
    """
    found = {}
    for card in sorted(site.glob("*/card.json")):
        for table in json.loads(card.read_text())["tables"]:
            found |= {
                (card.parent.name, f"{table['id']}/{name}"): text
                for name, text in fields(card.parent / f"{table['id']}.csv", table)
            }
    return found


def fields(path: Path, table: dict):
    heads, *rows = csv.reader(path.read_text().splitlines())
    plain = [row for block in table["blocks"] for row in block["rows"]]
    columns = [column["id"] for column in table["columns"]]
    for row, known in zip(rows, plain, strict=True):
        for head, text in zip(heads, row, strict=True):
            name = re.split(r": | \(", head)[0]
            if name not in columns:
                assert head == "block"
                continue
            cell = known["cells"][columns.index(name)]
            unit = re.search(r" \(([^)]*)\)$", head)
            small = ": " in head
            if small and "beside" not in cell:
                continue
            one = cell["beside"] if small else cell
            said = f"({text})" if one.get("beyond") else text
            quantity = one.get("quantity", {}).get("unit", "")
            assert unit is None or not quantity or quantity == unit[1] or table["id"] == "speeds"
            yield f"{known['id']}/{name}{'/beside' if small else ''}", f"{said} {quantity}"


def differing(before: dict, after: dict) -> set[tuple[str, str]]:
    """Return what two sites print differently of the aircraft that both have."""
    both = {name for name, _ in before} & {name for name, _ in after}
    return {
        key
        for key in {*before, *after}
        if key[0] in both and before.get(key, "").strip() != after.get(key, "").strip()
    }


def told(comparison: Comparison) -> set[tuple[str, str]]:
    """Return what a comparison says that is printed differently, but blanks that become dashes."""
    return {
        (one.registration, cell.id)
        for one in comparison.aircraft
        if one.state == "changed"
        for cell in one.cells
        if any(side and (side.quantity or side.said) for side in (cell.before, cell.after))
    }


# -- random edits


@dataclass
class Made:
    """An edit: its file, the lines of it that it may stand at, and how it is made."""

    file: str
    lines: range
    make: Callable[[str], str]

    def apply(self, folder: Path) -> None:
        path = folder / self.file
        path.write_text(self.make(path.read_text()))


def line_edit(file: str, line: int, make: Callable[[str], str]) -> Made:
    def edit(text: str) -> str:
        lines = text.splitlines(keepends=True)
        lines[line - 1] = make(lines[line - 1])
        return "".join(lines)

    return Made(file, range(line, line + 1), edit)


def figure(folder: Path, chance: random.Random, only: str = "") -> Made:
    aircraft = chance.choice(read_fleet(folder).aircraft)
    known = [one for one in copied(aircraft) if one.id.startswith(f"given/{only}")]
    one = chance.choice(known or list(copied(aircraft)))
    place, text = one.figure.place, one.figure.text
    number = float(one.figure)
    step = chance.choice([-1, 1]) * (1 if abs(number) >= 10 else 0.1)
    new = f"{'+' if text.startswith('+') and number + step > 0 else ''}{number + step:g}"

    def make(line: str) -> str:
        start = place.column - 1
        assert line[start:].startswith(text)
        return line[:start] + new + line[start + len(text) :]

    return line_edit(place.file, place.line, make)


def bench_card(folder: Path, chance: random.Random) -> Made:
    return figure(folder, chance, "bench")


SUPPLEMENT = """supplements:
  - title: Winglets
    number: SUP-{number}
    date: 2024-05-04
    speeds:
      VNO: {{ias: {vno}, cas: {cas}, page: S-2}}
"""


def supplement(folder: Path, chance: random.Random) -> Made:
    files = [one for one in folder.glob("fleet/*.yaml") if "supplements:" not in one.read_text()]
    path = chance.choice(sorted(files))
    end = len(path.read_text().splitlines())
    vno = chance.randint(116, 119)
    said = SUPPLEMENT.format(number=chance.randint(10, 99), vno=vno, cas=vno - 3)
    return Made(f"fleet/{path.name}", range(end + 1, end + 7), lambda text: text + said)


def grid(folder: Path, chance: random.Random) -> Made:
    lines = (folder / "school.yaml").read_text().splitlines()
    at = chance.choice([n for n, one in enumerate(lines, start=1) if "ias: [60" in one])
    new = chance.choice(["65", "70", "72"])
    return line_edit("school.yaml", at, lambda line: line.replace("75", new))


def comment(folder: Path, chance: random.Random) -> Made:
    return line_edit(
        "types/dunlin-160.yaml", 30, lambda line: f"{line.rstrip()}  # seen {chance.random()}\n"
    )


def order(folder: Path, chance: random.Random) -> Made:
    def exchange(text: str) -> str:
        first, second = re.findall(r"    - \{flaps: [0-9]+, ias: [0-9]+, cas.*2-3\}.*\n", text)
        return text.replace(first + second, second + first)

    return Made("types/dunlin-160.yaml", range(0), exchange)


def remark(folder: Path, chance: random.Random) -> Made:
    return line_edit("fleet/zz-dua.yaml", 6, lambda line: f"{line.rstrip()}0\n")


def airframe_added(folder: Path, chance: random.Random) -> Made:
    def write(_: str) -> str:
        return "registration: ZZ-NEW\ntype: dunlin-160\n"

    (folder / "fleet" / "zz-new.yaml").touch()
    return Made("fleet/zz-new.yaml", range(0), write)


def airframe_removed(folder: Path, chance: random.Random) -> Made:
    return Made("fleet/zz-duc.yaml", range(0), lambda _: "")


KINDS = (figure, supplement, bench_card, grid, comment, order, airframe_added, airframe_removed)


def apply(folder: Path, edits: list[Made]) -> None:
    """Make edits; an empty airframe's file is one that is gone."""
    for one in edits:
        one.apply(folder)
    for path in folder.glob("fleet/*.yaml"):
        if not path.read_text():
            path.unlink()


def readable(folder: Path) -> bool:
    try:
        against(folder)
    except DefinitionError:
        return False
    return True


def site_of(definitions: Path, name: str) -> Path:
    site = definitions.parent / name
    build(definitions, site, lambda *_: None, pdfs=False)
    return site


@pytest.fixture
def without_pages(monkeypatch):
    """Sites are built without what is not read here."""
    for name in dir(page):
        if name.endswith("_page"):
            monkeypatch.setattr(page, name, lambda *_, **__: "")


WHOLE = [(seed, KINDS[seed % len(KINDS)].__name__) for seed in range(50)]


@pytest.mark.usefixtures("without_pages")
def test_it_tells_exactly_the_cells_that_differ(definitions, sample):
    """Fifty random edits of every kind, and a few of them in a usual run."""
    keep(definitions, *(("zz-dua", "zz-dub", "zz-duc") if is_long() else ("zz-dub", "zz-duc")))
    committed(definitions)
    before = printed(site_of(definitions, "before"))
    seen = Counter()
    for seed, kind in sample("random edits compared", WHOLE, 2):
        git(definitions, "checkout", "--quiet", ".")
        git(definitions, "clean", "--quiet", "--force", ".")
        chance = random.Random(seed)
        apply(definitions, [globals()[kind](definitions, chance)])
        try:
            found = against(definitions)
        except DefinitionError:  # what was made of it cannot be read, and is no change of a card
            continue
        after = printed(site_of(definitions, "after"))
        assert told(found) == differing(before, after), (seed, kind)
        state = {one.registration: one.state for one in found.aircraft}
        gone, come = ({name for name, _ in side} for side in (before, after))
        assert {name for name, one in state.items() if one == "added"} == come - gone
        assert {name for name, one in state.items() if one == "gone"} == gone - come
        if kind in ("comment", "order"):
            assert not found.is_changed
            assert found.edits == ()
        seen[kind] += 1
    assert not is_long() or all(seen[kind.__name__] >= 3 for kind in KINDS)


# -- which edit did it

SETS = [
    *((figure, bench_card), (figure, supplement), (bench_card, grid), (figure, figure, figure)),
    *((figure, figure),) * 4,
]
OF_ANY = ["zz-dub", "zz-duc", "zz-phn", "zz-tua", "zz-wha", "zz-whb", "zz-wtr"]


@pytest.mark.usefixtures("without_pages")
def test_an_edit_undone_brings_back_what_it_is_named_for_and_nothing_else(tmp_path, sample):
    """Of two or three edits at once some are undone: those that a cell names, or another one."""
    tried, known = Counter(), Counter()
    whole = [(seed, SETS[seed % len(SETS)]) for seed in range(60, 100)]
    for seed, kinds in sample("sets of edits undone", whole, 1):
        chance = random.Random(seed)
        name = chance.choice(OF_ANY) if set(kinds) == {figure} else "zz-dub"
        folder = Path(shutil.copytree(DEMO, tmp_path / f"{seed}" / "aircraft"))
        committed(keep(folder, name))
        edits = [kind(folder, chance) for kind in kinds]
        places = [(one.file, line) for one in edits for line in one.lines]
        if len(set(places)) < len(places):  # one line, and so one edit
            continue
        try:
            undone = Undone(folder, edits)
            apply(folder, edits)
            found = against(folder)
            for one in found.aircraft:
                for cell in one.cells:
                    named = undone.by(found, cell.edits)
                    assert named, (seed, cell.id)
                    at = one.registration, cell.id
                    as_before, as_now = undone.all(), undone.site(frozenset())
                    assert undone.site(named).get(at) == as_before.get(at), (seed, at, named)
                    for other in undone.all_edits - named:
                        left = undone.site(frozenset({other})).get(at)
                        assert left == as_now.get(at), (seed, at, named)
                    known[len(named) < len(undone.all_edits)] += 1
        except DefinitionError:  # what was made cannot be read, or not with one of them undone
            continue
        tried[kinds] += 1
    assert sum(tried.values()) >= len(whole) / 3 or not is_long()
    assert known[True]  # not every cell names all there is


class Undone:
    """What is printed where some of several edits are undone, each made once."""

    def __init__(self, folder: Path, edits: list[Made]) -> None:
        self.folder, self.edits = folder, edits
        self.all_edits = frozenset(range(len(edits)))
        self.known: dict[frozenset[int], dict[tuple[str, str], str]] = {}

    def all(self) -> dict[tuple[str, str], str]:
        return self.site(self.all_edits)

    def site(self, undone: frozenset[int]) -> dict[tuple[str, str], str]:
        if undone not in self.known:
            folder = self.folder.with_name("-".join(map(str, ("undone", *sorted(undone)))))
            git(self.folder, "worktree", "add", "--quiet", "--detach", str(folder))
            definitions = folder / self.folder.name
            apply(definitions, [one for n, one in enumerate(self.edits) if n not in undone])
            self.known[undone] = printed(site_of(definitions, "site"))
        return self.known[undone]

    def by(self, found: Comparison, numbers: tuple[int, ...]) -> frozenset[int]:
        """Return which edits stand at the lines that some numbers name."""
        lines = [found.edits[number - 1] for number in numbers]
        return frozenset(
            n
            for n, one in enumerate(self.edits)
            if any(line.file.endswith(one.file) and line.line in one.lines for line in lines)
        )


# -- what is on paper


@pytest.mark.long
@pytest.mark.parametrize("seed", range(4))
def test_each_number_that_is_new_on_paper_is_told(definitions, seed):
    """Words of the PDFs: no number that was not there before, but those that are told."""
    committed(keep(definitions, OF_ANY[seed + 2]))
    build(definitions, definitions.parent / "before", lambda *_: None)
    chance = random.Random(seed)
    while True:
        git(definitions, "checkout", "--quiet", ".")
        apply(definitions, [figure(definitions, chance, "speeds/V")])
        try:
            found = against(definitions)
        except DefinitionError:
            continue
        if found.is_changed:
            break
    build(definitions, definitions.parent / "after", lambda *_: None)
    before, after = (numbers_on(definitions.parent / name) for name in ("before", "after"))
    (one,) = found.aircraft
    texts = [ENGLISH.figure(cell.after) for cell in one.cells if cell.after]
    texts += [ENGLISH.text(fact.after) for fact in one.said]
    texts += [ENGLISH.say(finding.message) for finding in one.found]
    known = set(re.findall(r"[0-9.,]*[0-9]", " ".join(texts)))
    assert after.keys() - before.keys() <= known
    limits = [cell for cell in one.cells if cell.table == "speeds" and cell.column == "indicated"]
    assert after != before
    for cell in limits:
        number = ENGLISH.figure(cell.after)
        assert after[number] > before[number]


def numbers_on(site: Path) -> Counter[str]:
    """Read the numbers of a card's sheets, without its mark and what made it."""
    (path,) = (one for one in site.glob("*/card.pdf") if one.parent.name != "conversions")
    with pdfplumber.open(path) as pdf:
        text = "\n".join(page.extract_text() for page in pdf.pages)
    text = re.sub(r"[0-9A-F]{4}-[0-9A-F]{4}", "", text)
    return Counter(re.findall(r"[0-9.,]*[0-9]", text))


# -- a fleet


@pytest.fixture
def glider(definitions: Path) -> Path:
    return committed(keep(definitions, "zz-wtr"))


def test_an_aircraft_with_another_registration_is_the_same_aircraft(glider):
    path = glider / "fleet" / "zz-wtr.yaml"
    path.write_text(path.read_text().replace("registration: ZZ-WTR", "registration: ZZ-WTX"))
    path.rename(path.with_stem("zz-wtx"))
    (found,) = against(glider).aircraft
    assert (found.registration, found.was, found.state) == ("ZZ-WTX", "ZZ-WTR", "changed")
    assert found.cells == ()
    assert [one.subject.id for one in found.said] == ["compare-fact-registration"]


def test_two_airframes_of_one_registration_are_told(glider):
    text = (glider / "fleet" / "zz-wtr.yaml").read_text()
    (glider / "fleet" / "other.yaml").write_text(text.replace("ZZ-WTR", "zz-wtr", 1))
    with pytest.raises(DefinitionError, match=r"is in .* already"):
        against(glider)


def test_an_aircraft_new_and_a_type_of_which_there_is_none_left(glider):
    shutil.copy(DEMO / "types" / "phalarope-9t.yaml", glider / "types")
    shutil.copy(DEMO / "fleet" / "zz-phn.yaml", glider / "fleet")
    (glider / "fleet" / "zz-wtr.yaml").unlink()
    found = against(glider)
    assert [(one.registration, one.state) for one in found.aircraft] == [
        ("ZZ-PHN", "added"),
        ("ZZ-WTR", "gone"),
    ]
    assert found.unused == (f"{glider}/types/wheatear-15.yaml",)
    assert found.is_changed
    assert not found.is_worse


@pytest.mark.parametrize(
    ("airframe", "line", "named"),
    [
        ("zz-tua", "  VSSE:", {"speeds/VSSE/ias", "speeds/VSSE/cas"}),
        ("zz-dua", "    when: vents closed, heater on", {"calibration/when"}),
        ("zz-wtr", "  VW:", {"speeds/VW/ias", "speeds/VW/cas"}),
    ],
)
def test_a_line_taken_out_is_the_only_edit_that_is_told(definitions, airframe, line, named):
    """All that stood below it stands at the line of something else now."""
    folder = committed(keep(definitions, airframe))
    (path,) = (one for one in folder.glob("types/*.yaml") if f"\n{line}" in one.read_text("utf-8"))
    lines = path.read_text("utf-8").splitlines(keepends=True)
    (at,) = (n for n, one in enumerate(lines) if one.startswith(line))
    path.write_text("".join(lines[:at] + lines[at + 1 :]), "utf-8")
    (edit,) = against(folder).edits
    assert edit.line == at + 1
    assert {one.name for one in edit.changes} == named


@pytest.mark.parametrize(
    ("old", "new", "named"),
    [
        ("{weight: 1900, ias: 62, cas: 63,", "{weight: 1950, ias: 63, cas: 63,", "best-glide"),
        ("{altitude: 10000, ias: 63,", "{altitude: 9000, ias: 63,", "VX"),
        ("- [10000, 2600,   0, 64, 111,  7.5]", "- [10000, 2550,   0, 64, 112,  7.5]", "cruise"),
    ],
)
def test_a_line_whose_figures_hold_for_another_case_now_is_one_edit(definitions, old, new, named):
    """They have other identifiers: those before are gone, and others new, by one line."""
    folder = committed(keep(definitions, "zz-dua"))
    path = folder / "types/dunlin-160.yaml"
    text = path.read_text()
    assert text.count(old) == 1
    path.write_text(text.replace(old, new))
    found = against(folder)
    (edit,) = found.edits
    assert edit.line == text[: text.index(old)].count("\n") + 1
    assert any(named in one.name and None in (one.before, one.after) for one in edit.changes)
    assert {cell.edits for one in found.aircraft for cell in one.cells} == {(1,)}


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("when: vents closed, heater on", "when: vents open, heater on"),
        ("when: open, page", "when: opened, page"),
    ],
)
def test_words_that_name_what_a_figure_holds_for_move_no_other(definitions, old, new):
    folder = committed(keep(definitions, "zz-dua"))
    path = folder / "types" / "dunlin-160.yaml"
    text = path.read_text("utf-8")
    assert text.count(old) == 1
    path.write_text(text.replace("ias: 99, cas: 96", "ias: 104, cas: 101").replace(old, new))
    found = against(folder)
    (numbered,) = (n for n, one in enumerate(found.edits, 1) if "VFE" in one.changes[0].name)
    moved = {one.subject: one.edits for one in found.aircraft[0].cells}
    assert moved.pop("VFE") == (numbered,)
    assert moved.keys() <= {"storm window"}
    assert numbered not in {number for edits in moved.values() for number in edits}


def site_of_one(folder: Path) -> Path:
    """Make a site of one aircraft of the committed one; its card's file."""
    shutil.copytree(SITE / "ZZ-WTR", folder / "ZZ-WTR")
    return listed(folder / "ZZ-WTR" / "card.json")


def listed(path: Path) -> Path:
    """Let the manifest of a site of one aircraft list its card as it is."""
    site = path.parents[1]
    manifest = json.loads((SITE / "cardgen.json").read_text())
    manifest["files"] = {"ZZ-WTR/card.json": hashlib.sha256(path.read_bytes()).hexdigest()}
    (site / "cardgen.json").write_text(json.dumps(manifest))
    return path


def test_what_no_edit_moved_between_two_versions_is_cardgens_own(tmp_path):
    """Of two sites: a figure was edited, and a computed number is another for no such reason."""
    _, path = (site_of_one(tmp_path / name) for name in ("before", "after"))
    card = json.loads(path.read_text())
    card["cardgen"] = "99"
    rows = {
        f"{table['id']}/{row['id']}": row["cells"]
        for table in card["tables"]
        for block in table["blocks"]
        for row in block["rows"]
    }
    rows["speeds/VA"][1]["quantity"] |= {"value": 175.0, "entered": "175"}
    given = next(one for one in card["given"] if one["id"] == "given/speeds/VA/ias")
    given["value"] |= {"value": 175.0, "entered": "175"}
    density = next(row for name, row in rows.items() if name.startswith("tas-factor/"))
    density[-1]["quantity"]["value"] += 1
    path.write_text(json.dumps(card))
    listed(path)
    sides = (state_of(str(tmp_path / name), tmp_path) for name in ("before", "after"))
    found = compare(*sides, TODAY).comparison
    assert (found.base.cardgen, found.head.cardgen) == (__version__, "99")
    (edit,) = found.edits
    assert (edit.file, edit.page) == ("", "2-2")
    assert [(one.table, one.edits, one.by_program) for one in found.aircraft[0].cells] == [
        ("speeds", (1,), False),
        ("tas-factor", (), True),
    ]


def test_a_site_is_compared_with_the_definitions_that_it_was_made_of(glider):
    card = site_of_one(glider.parent / "site")
    assert not against(glider, str(card.parents[1])).is_changed


@pytest.mark.parametrize(
    "spoiled",
    [
        *(b"{}", b"[]", b"null", b"1", b"", b"\xff", b"[" * 100_000, b'{"tables": [1]}'),
        *(b'{"tables": [{"blocks": 1}]}', b'{"tables": {"a": 1}}'),
        (b'"value": ', b'"value": NaN, "was": '),
        (b'"tables": ', b'"tables": [{}], "was": '),
    ],
)
@pytest.mark.parametrize("is_listed", [False, True])
def test_a_site_of_spoiled_documents_is_said_to_be_none(glider, spoiled, is_listed, tmp_path):
    """Whether or not its manifest says that they are so."""
    path = site_of_one(tmp_path / "site")
    if isinstance(spoiled, tuple):
        assert spoiled[0] in path.read_bytes()
        spoiled = path.read_bytes().replace(*spoiled)
    path.write_bytes(spoiled)
    if is_listed:
        listed(path)
    with pytest.raises(StateError, match=r"ZZ-WTR/card\.json is .*; build that site anew"):
        against(glider, str(path.parents[1]))


@pytest.mark.parametrize("number", [1, 17, 400])
def test_a_document_that_is_one_and_was_changed_is_refused(glider, number, tmp_path):
    """One digit of a site may be another: what is compared is what was built."""
    path = site_of_one(tmp_path / "site")
    card = path.read_bytes()
    at = [one.start() for one in re.finditer(rb"[0-9]", card)][number]
    digit = b"1" if card[at : at + 1] != b"1" else b"2"
    path.write_bytes(card[:at] + digit + card[at + 1 :])
    with pytest.raises(StateError, match=r"ZZ-WTR/card\.json is not as it was built"):
        against(glider, str(path.parents[1]))


def no_card(path: Path) -> None:
    path.unlink()


def pipe(path: Path) -> None:
    path.unlink()
    os.mkfifo(path)


def huge(path: Path) -> None:
    os.truncate(path, LARGEST_RECORD + 1)


def no_manifest(path: Path) -> None:
    (path.parents[1] / "cardgen.json").write_text("{")


@pytest.mark.parametrize("spoil", [no_card, pipe, huge, no_manifest])
def test_a_site_that_is_not_whole_is_said_to_be_none(glider, spoil, tmp_path):
    path = site_of_one(tmp_path / "site")
    spoil(path)
    with pytest.raises(StateError, match="build that site anew"):
        against(glider, str(path.parents[1]))


@pytest.mark.parametrize("member", ["indicator_unit", "paper", "kind"])
def test_a_site_whose_manifest_goes_with_what_no_build_makes_is_said_to_be_odd(
    glider, member, tmp_path, capsys
):
    """Also where only its page cannot be drawn."""
    path = site_of_one(tmp_path / "site")
    card = json.loads(path.read_text())
    card["head"][member] = "x"
    card["tables"] = [one for one in card["tables"] if one["id"] != "glide"]
    path.write_text(json.dumps(card))
    listed(path)
    given = ["--definitions", str(glider), "--html", str(tmp_path / "page.html")]
    main(["compare", str(path.parents[1]), *given])
    said = capsys.readouterr().err
    assert "Traceback" not in said
    assert not said or re.fullmatch(r"cardgen: \S+ .*; build that site anew\n", said)


def test_a_card_that_the_manifest_does_not_list_is_none_of_the_site(glider, tmp_path):
    path = site_of_one(tmp_path / "site")
    shutil.copytree(path.parent, path.parents[1] / "ZZ-OLD")
    (path.parents[1] / "ZZ-OLD" / "card.json").write_text("{}")
    assert not against(glider, str(path.parents[1])).is_changed
