"""Signing a card: what is asked, written and found, and what its page and the fleet's say after."""

import datetime
import json
import re
import shutil
from pathlib import Path

import pytest
import yaml
from lxml import html

from cardgen.cards import card
from cardgen.cli import main
from cardgen.definition import signed
from cardgen.definition.fleet import read_fleet
from cardgen.publish import checking
from cardgen.publish.build import build
from cardgen.publish.checking import check
from cardgen.publish.store import Store
from cardgen.review import records
from cardgen.review.records import parsed
from tests.publish.built import tree
from tests.publish.test_comparing import git

DAY, NEXT = "2026-03-02", "2026-03-05"


@pytest.fixture
def folder(make, tmp_path) -> Path:
    make()
    return tmp_path


def sign(folder: Path, *more: str, by: str = "P. Pipit", date: str = DAY) -> int:
    options = ["--by", by, "--date", date, "--definitions", str(folder), *more]
    return main(["signoff", "T-EST", "--yes", *options])


def edited(path: Path, old: str, new: str) -> None:
    text = path.read_text()
    assert old in text
    path.write_text(text.replace(old, new, 1))


def faster(folder: Path) -> None:
    edited(folder / "types/plain.yaml", "ias: 180", "ias: 178")


def built(folder: Path) -> Path:
    build(folder, folder / "site", pdfs=False)
    return folder / "site"


def found(folder: Path, today: str = NEXT, store: Store | None = None) -> list[str]:
    day = datetime.date.fromisoformat(today)
    rules = (one.rule.name for one in check(read_fleet(folder), day, folder, store))
    return [one for one in rules if one.startswith(("unsigned", "signature"))]


def school(folder: Path, **asked: object) -> None:
    path = folder / "school.yaml"
    path.write_text(yaml.safe_dump({**yaml.safe_load(path.read_text()), "signing": asked}))


def status(site: Path, page: str = "T-EST/index.html") -> str:
    said = re.search(r'<p class="(?:status|signed)">(.*)</p>', (site / page).read_text())
    return re.sub("<.*?>", "", said[1]) if said else ""


Cells = dict[tuple[str, int, int], tuple[str, bool]]


def cells(site: Path) -> Cells:
    """What stands in each cell of a page's tables, and whether a bar stands beside it."""
    page = html.parse(site / "T-EST/index.html")
    said: Cells = {}
    for table in page.xpath("//table[@id]"):
        for y, row in enumerate(table.iter("tr")):
            for x, cell in enumerate(row.iter("td")):
                marked = "changed" in cell.get("class", "").split()
                word = [one.text for one in cell.iter("span") if one.get("class") == "unseen"]
                assert word == (["changed"] if marked else [])
                text = cell.text_content().removesuffix(" changed" if marked else "")
                said[table.get("id", ""), y, x] = text, marked
    return said


# -- the whole way


def test_a_card_is_signed_changes_and_is_signed_again(folder):
    assert found(folder) == ["unsigned"]
    sign(folder)
    assert found(folder) == []
    first = built(folder)
    before = cells(first)
    assert status(first) == f"Signed by P. Pipit on {DAY}, for these figures."
    assert not any(bar for _, bar in before.values())
    faster(folder)
    after = cells(built(folder))
    assert status(first).startswith("Out of date. P. Pipit signed figures")
    assert "out of date: T-EST." in status(first, "index.html")
    assert f"Changed since {DAY}: VNE" in (first / "T-EST/index.html").read_text()
    assert before.keys() == after.keys()
    others = {at for at in before if before[at][0] != after[at][0]}
    assert {at for at, (_, bar) in after.items() if bar} == others
    assert len(others) >= 3  # IAS, CAS and the marking
    assert found(folder) == ["signature"]
    sign(folder, date=NEXT)
    again = cells(built(folder))
    assert status(first) == f"Signed by P. Pipit on {NEXT}, for these figures."
    assert {at: text for at, (text, _) in again.items()} == {
        at: text for at, (text, _) in after.items()
    }
    assert not any(bar for _, bar in again.values())
    assert found(folder) == []
    states = html.parse(first / "T-EST/index.html").xpath("//section[@id='signed']//li")
    assert [one.text_content()[: len("P. Pipit on 2026-03-02")] for one in states] == [
        f"P. Pipit on {NEXT}",
        f"P. Pipit on {DAY}",
    ]
    assert "It changed: VNE" in states[0].text_content()


def test_neither_mark_nor_site_hangs_on_the_day_or_an_earlier_site(folder, tmp_path):
    sign(folder)
    faster(folder)
    once = {**tree(built(folder))}
    build(folder, tmp_path / "another", pdfs=False)
    assert tree(tmp_path / "another") == once


def test_what_is_computed_otherwise_is_found(folder):
    sign(folder)
    edited(folder / "school.yaml", "- 60", "- 70")
    assert found(folder) == ["signature-recomputed"]
    assert status(built(folder)).endswith("What else the card says has changed since.")


def test_a_card_is_made_once_to_find_what_is_computed_otherwise(folder, tmp_path, monkeypatch):
    made = []
    make_document = card.make_document
    monkeypatch.setattr(
        card, "make_document", lambda *asked: made.append(asked) or make_document(*asked)
    )
    sign(folder)
    store = Store(tmp_path / "kept")
    made.clear()
    assert [found(folder, store=store), found(folder, store=store), len(made)] == [[], [], 1]
    edited(folder / "school.yaml", "- 60", "- 70")
    assert found(folder, store=store) == found(folder, store=store) == ["signature-recomputed"]
    assert len(made) == 2
    monkeypatch.setattr(checking, "documents_key", lambda: "another release")
    assert found(folder, store=store) == ["signature-recomputed"]
    assert len(made) == 3


def test_a_record_that_does_not_hold_is_found_again_from_what_is_kept(folder, tmp_path):
    sign(folder)
    store = Store(tmp_path / "kept")
    assert found(folder, store=store) == []
    (record,) = folder.glob("signed/T-EST/*.txt")
    edited(record, "180", "181")
    first, again = (found(folder, store=store) for _ in range(2))
    assert first == again == found(folder)
    assert "signature-record" in first


def test_what_cannot_be_kept_is_found_all_the_same(folder, tmp_path):
    sign(folder)
    edited(folder / "school.yaml", "- 60", "- 70")
    (tmp_path / "file").touch()
    assert found(folder, store=Store(tmp_path / "file")) == ["signature-recomputed"]


# -- edited by hand


def test_a_signature_that_is_edited_to_another_mark_does_not_pass(folder):
    sign(folder)
    faster(folder)
    site = built(folder)
    marks = json.loads((site / "T-EST/card.json").read_text())["marks"]
    path = folder / "fleet/t-est.yaml"
    text = re.sub(
        r"figures: [\dA-F-]+, card: [\dA-F-]+", "figures: {figures}, card: {card}", path.read_text()
    )
    path.write_text(text.replace("{figures}", marks["figures"]).replace("{card}", marks["card"]))
    assert status(built(folder)).startswith("Not signed as its record has it.")
    assert found(folder) == ["signature-record"]
    assert main(["check", str(folder), "--strict"]) == 1


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("speeds/VNE/indicated: 180 kt", "speeds/VNE/indicated: 178 kt", "it states card"),
        ('given/speeds/VNE/ias: ["180 kt"', 'given/speeds/VNE/ias: ["1 kt"', "it states figures"),
        ("signed by", "signed for", "line 3"),
    ],
)
def test_a_record_that_is_edited_does_not_pass_and_is_told(folder, capsys, old, new, told):
    sign(folder)
    edited(folder / f"signed/T-EST/{DAY}.txt", old, new)
    assert found(folder) == ["signature-record"] * 2
    assert status(built(folder)).startswith("Not signed as its record has it.")
    for form in ("text", "json", "github"):
        main(["check", str(folder), "--format", form])
        said = capsys.readouterr().out
        assert told in said
        assert f"signed/T-EST/{DAY}.txt" in said


def forged(folder: Path, name: str, *lines: str, **stated: str) -> Path:
    """A record whose marks are those of its lines, with what somebody put into it."""
    (record,) = folder.glob(f"signed/T-EST/{DAY}.txt")
    text = record.read_text() + "".join(f"{one}\n" for one in lines)
    for key, value in stated.items():
        text = re.sub(
            rf"(?m)^{key.replace('_', ' ')}: .*", f"{key.replace('_', ' ')}: {value}", text
        )
    made = parsed(text).made_again()
    text = re.sub(r"(?m)^figures: .*", f"figures: {made.figures}", text)
    path = record.with_name(name)
    path.write_text(re.sub(r"(?m)^card: .*", f"card: {made.card}", text))
    return path


@pytest.mark.parametrize(
    ("lines", "stated"),
    [
        ((), {"signed_by": "Eve\x1b[2J"}),
        ((), {"signed_by": "Eve\u202e"}),
        (("zz\x1b]0;x\x07/q: 5 kt",), {}),
        (("zz/q/r: \x1b[31m9 kt",), {}),
    ],
)
def test_a_record_with_characters_that_do_not_show_is_none(folder, capsys, lines, stated):
    sign(folder)
    forged(folder, "2026-03-01.txt", *lines, **stated)
    assert found(folder) == ["signature-record"]
    path = built(folder) / "T-EST"
    shown = "".join((path / name).read_text() for name in ("index.html", "card.json"))
    sign(folder, date=NEXT)
    said = capsys.readouterr()
    assert not re.search("[\x1b\x07\u202e]", shown + said.out + said.err)


@pytest.mark.parametrize("line", ["given/x: " + "[" * 100_000, f"speeds/VNE/speed: {'[' * 50_000}"])
@pytest.mark.parametrize("deep", [True, False])
def test_a_record_with_brackets_in_brackets_is_told(folder, line, deep):
    sign(folder)
    line = line if deep else line[: line.index("[") + 300] + "]" * 300
    with (folder / f"signed/T-EST/{DAY}.txt").open("a") as file:
        file.write(f"{line}\n")
    assert "signature-record" in found(folder)
    assert status(built(folder)).startswith("Not signed as its record has it.")
    assert sign(folder, date=NEXT) == 0


@pytest.mark.parametrize(("date", "rule"), [("9999-99-99", "record"), ("2999-01-01", "date")])
def test_a_record_of_no_day_or_of_one_to_come_is_told(folder, date, rule):
    sign(folder)
    forged(folder, f"{date}.txt", date=date)
    assert found(folder) == [f"signature-{rule}"]


def test_records_that_are_too_much_together_are_not_read(folder, monkeypatch):
    """The newest are: without bounds a few hundred would fill the memory."""
    sign(folder)
    sign(folder, date=NEXT)
    (old, new) = sorted(folder.glob("signed/T-EST/*.txt"))
    together = sum(len(one.read_text()) for one in (old, new))
    monkeypatch.setattr(signed, "MOST", together)
    assert [one.text is None for one in signed.records_of(folder, "T-EST")] == [True, False]
    assert found(folder) == ["signature-record"]
    monkeypatch.setattr(signed, "MOST", together + 1)
    assert found(folder) == []


def test_a_record_of_more_lines_than_a_card_has_is_told(folder, monkeypatch):
    sign(folder)
    monkeypatch.setattr(records, "_MOST_LINES", 20)
    assert "signature-record" in found(folder)


def test_a_line_that_was_typed_where_there_is_no_record_stands_by_itself(folder):
    marks = json.loads((built(folder) / "T-EST/card.json").read_text())["marks"]
    with (folder / "fleet/t-est.yaml").open("a") as file:
        file.write(f"sign off: {{by: One, date: {DAY}, figures: {marks['figures']}}}\n")
    assert found(folder) == []
    assert status(built(folder)) == f"Signed by One on {DAY}, for these figures."


def test_a_signature_whose_record_is_gone_does_not_pass(folder):
    """With its record all that held it to what was signed would be gone."""
    sign(folder)
    (folder / f"signed/T-EST/{DAY}.txt").unlink()
    assert found(folder) == ["signature-record"]
    assert status(built(folder)).startswith("Not signed as its record has it.")


def test_the_record_of_another_aircraft_is_none_of_this_one(folder):
    """Under a new registration with the folder of records renamed too, and left where it was."""
    sign(folder)
    edited(folder / "fleet/t-est.yaml", "T-EST", "T-WO")
    assert found(folder) == ["signature-record"]
    (folder / "signed/T-EST").rename(folder / "signed/T-WO")
    assert found(folder) == ["signature-record"] * 2


def test_a_signature_of_a_day_to_come_is_told(folder):
    """Line and record alike: no mark holds the day, which says when a signature lapses."""
    sign(folder)
    later = "2026-12-24"
    edited(folder / "fleet/t-est.yaml", DAY, later)
    record = folder / f"signed/T-EST/{DAY}.txt"
    edited(record, DAY, later)
    record.rename(record.with_stem(later))
    assert found(folder, later) == []
    assert found(folder, "2026-12-23") == ["signature-date"]


def test_the_files_of_another_system_are_signed_too(folder):
    """Lines that end as there: all but the new one stay, to the byte, and what is signed holds."""
    for path in (folder / "fleet/t-est.yaml", folder / "types/plain.yaml"):
        path.write_bytes(path.read_bytes().replace(b"\n", b"\r\n"))
    before = (folder / "fleet/t-est.yaml").read_bytes().splitlines(keepends=True)
    sign(folder)
    record = folder / f"signed/T-EST/{DAY}.txt"
    record.write_bytes(record.read_bytes().replace(b"\n", b"\r\n"))
    after = (folder / "fleet/t-est.yaml").read_bytes().splitlines(keepends=True)
    assert [line for line in after if not line.startswith(b"sign off")] == before
    assert all(line.endswith(b"\r\n") for line in after)
    assert found(folder) == []


def test_compare_tells_that_a_signature_is_not_enough_any_longer(folder, capsys, tmp_path_factory):
    sign(folder)
    head = tmp_path_factory.mktemp("head") / "aircraft"
    shutil.copytree(folder, head)
    school(head, names=2)
    capsys.readouterr()
    assert main(["compare", str(folder), str(head)]) == 4
    assert "The signature fell: signed before, not signed by all now" in capsys.readouterr().out


@pytest.mark.parametrize("by_hand", ["the line", "a record"])
def test_compare_tells_of_a_signature_that_was_edited_by_hand(folder, capsys, by_hand):
    """Against a revision, whose records are read by git too."""
    sign(folder)
    git(folder, "init", "--quiet")
    git(folder, "add", ".")
    git(folder, "commit", "--quiet", "--message=Signed")
    if by_hand == "the line":
        path = folder / "fleet/t-est.yaml"
        path.write_text(re.sub("(figures: )....-....", "\\g<1>0000-0000", path.read_text()))
    else:
        edited(folder / f"signed/T-EST/{DAY}.txt", "VNE/indicated: 180", "VNE/indicated: 190")
    capsys.readouterr()
    assert main(["compare", "HEAD", "--definitions", str(folder)]) == 4
    said = capsys.readouterr().out
    assert "The signature fell: signed before, not as its record has it now" in said


def test_one_person_is_not_two(folder):
    """Neither with two roles, nor with a name that only looks otherwise."""
    school(folder, names=2, roles=["instructor", "examiner"])
    sign(folder, "--role", "instructor")
    text = (folder / "fleet/t-est.yaml").read_text()
    (line,) = re.findall(r"(?m)^sign off: (\{.*\})$", text)
    other = line.replace("role: instructor", "role: examiner").replace("P. Pipit", "p.  PIPIT")
    third = line.replace("role: instructor, ", "").replace("P. Pipit", "T. Teal")
    for lines in ((line, other), (line, other, third)):
        listed = "".join(f"\n  - {one}" for one in lines)
        (folder / "fleet/t-est.yaml").write_text(text.replace(f" {line}", listed))
        for path in (folder / "signed/T-EST").iterdir():
            path.unlink()
        stated = re.sub(r", card: [\dA-F-]+", "", (folder / "fleet/t-est.yaml").read_text())
        (folder / "fleet/t-est.yaml").write_text(stated)
        assert found(folder) == ["unsigned"]


# -- what a school asks for


def test_two_names_and_a_role_have_to_sign_and_for_some_months(folder, capsys):
    school(folder, names=2, roles=["instructor"], months=6)
    sign(folder, by="T. Teal")
    assert "The school asks for 2, instructor." in capsys.readouterr().out
    assert found(folder) == ["unsigned"]
    assert status(built(folder)).startswith(f"Not signed by all. Signed by T. Teal on {DAY} only.")
    sign(folder, "--role", "instructor", date=NEXT)
    assert found(folder) == []
    assert status(built(folder)) == (
        f"Signed by T. Teal on {DAY}, P. Pipit, instructor, on {NEXT}, for these figures. "
        "Valid to 2026-09-02. "
    )
    assert found(folder, "2026-09-02") == []
    assert found(folder, "2026-09-03") == ["signature-lapsed"]
    listed = html.parse(built(folder) / "index.html").xpath("//tbody/tr/td[last()]")[0]
    assert "T. Teal on 2026-03-02" in listed.text_content()
    assert "due 2026-09-02" in listed.text_content()


@pytest.mark.parametrize(
    ("names", "role", "code"),
    [(2, "owner", 0), (2, "", 0), (2, "instructer", 2), (1, "owner", 2)],
)
def test_who_signs_beside_those_with_a_role_may_have_any_other(folder, names, role, code):
    """But for one that looks like a slip, and where nobody else is asked for."""
    school(folder, names=names, roles=["instructor"])
    command = ["signoff", "T-EST", "--yes", "--by", "T. Teal", "--definitions", str(folder)]
    assert main([*command, *(["--role", role] if role else [])]) == code
    assert ("sign off" in (folder / "fleet/t-est.yaml").read_text()) is (code == 0)


def test_what_the_school_asks_for_has_to_be_whole(folder, capsys):
    school(folder, names=1.5, months=0)
    assert main(["check", str(folder)]) == 1
    said = capsys.readouterr().out
    assert "names: found 1.5, expected a whole number from 1 to 6" in said
    assert "months: found 0, expected a whole number from 1 to 120" in said


# -- what is shown, and refused


def test_what_changed_is_shown_first_then_every_figure_by_its_page(folder, capsys):
    sign(folder)
    faster(folder)
    capsys.readouterr()
    sign(folder, date=NEXT)
    said = capsys.readouterr().out
    changed, first, figures = said.partition("\nManual M-1\n")
    assert f"Changed since P. Pipit signed on {DAY}" in changed
    assert "VNE, IAS: 180 kt → 178 kt" in changed
    assert first
    assert "| speeds/VNE: ias 178 kt" in figures
    assert "  speeds/VNO: ias 140 kt" in figures


def test_what_changed_much_is_shown_in_short_and_in_full_where_asked(folder, capsys):
    """Another grid of a school: a line for a table, and each of its numbers."""

    def grid(warmer: int) -> None:
        path = folder / "school.yaml"
        known = yaml.safe_load(path.read_text())
        oat = [step + warmer for step in range(-20, 40, 10)]
        known["reference speeds"]["single-engine"] |= {"ias": [60, 80, 100, 120], "oat": oat}
        path.write_text(yaml.safe_dump(known))

    grid(0)
    sign(folder)
    said = []
    for warmer, more in ((1, ()), (2, ("--all",))):
        grid(warmer)
        capsys.readouterr()
        sign(folder, *more, date=NEXT)
        said.append(capsys.readouterr().out.partition("\nManual M-1\n")[0])
    short, full = (len(one.splitlines()) for one in said)
    assert short < 30 < 4 * 6 * 2 < full  # both what is gone and what is new of one table
    assert "entries gone" in said[0]
    assert "entries; most:" in said[0]


@pytest.mark.parametrize(
    ("more", "code", "told"),
    [
        ((), 2, "there is no terminal to ask at; sign with --yes"),
        (("T-ESQ", "--yes"), 2, "no aircraft T-ESQ, expected one of T-EST; did you mean T-EST?"),
        (("--yes", "--date", "2999-01-01"), 2, "is still to come"),
        (("--yes", "--date", "2026-03-01"), 2, f"was signed on {DAY}, expected no day before"),
        (("--yes", "--role", "instructer"), 2, "did you mean instructor?"),
    ],
)
def test_what_cannot_be_signed_is_refused_and_nothing_is_written(folder, capsys, more, code, told):
    school(folder, roles=["instructor"])
    sign(folder)
    before = tree(folder)
    command = ["signoff", "T-EST", *more, "--by", "T. Teal", "--definitions", str(folder)]
    assert main(command) == code
    assert told in capsys.readouterr().err
    assert tree(folder) == before


def test_a_card_with_an_error_is_not_signed(folder, capsys):
    edited(folder / "types/plain.yaml", "ias: 180", "ias: 120")  # below VNO
    before = tree(folder)
    assert sign(folder) == 1
    assert "nothing was written" in capsys.readouterr().err
    assert tree(folder) == before


def test_no_record_is_written_through_a_link_that_leads_out(folder, tmp_path_factory):
    outside = tmp_path_factory.mktemp("outside")
    (folder / "signed").symlink_to(outside)
    before = (folder / "fleet/t-est.yaml").read_bytes()
    assert sign(folder) == 1
    assert list(outside.iterdir()) == []
    assert (folder / "fleet/t-est.yaml").read_bytes() == before


def test_it_asks_at_a_terminal(folder, monkeypatch, capsys):
    monkeypatch.setattr("sys.stdin.isatty", lambda: True)
    command = ["signoff", "t-est", "--by", "P. Pipit", "--definitions", str(folder)]
    before = tree(folder)
    monkeypatch.setattr("builtins.input", lambda asked: "no")
    main(command)
    assert "Nothing was signed." in capsys.readouterr().out
    assert tree(folder) == before
    monkeypatch.setattr("builtins.input", lambda asked: "yes")
    main(command)
    assert found(folder, "2999-01-01") == []
