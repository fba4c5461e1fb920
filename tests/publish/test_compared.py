"""What a comparison looks like: a terminal's lines, a comment of bounded length, JSON, a page."""

import json
import re
import shutil
from dataclasses import replace

import jsonschema
import pytest

from cardgen.cli import main
from cardgen.document.comparison import Compared, Comparison, Edit, Moved, Refigured, Side
from cardgen.document.data import json_schema
from cardgen.document.record import Cell, Message, Quantity
from cardgen.publish.compared import MOST, as_markdown, as_text
from cardgen.words.english import ENGLISH
from tests.conftest import keep


def speed(value: float) -> Cell:
    return Cell(Quantity(value, "kt"))


def moved(row: str, worse: str = "", table: str = "true-airspeed") -> Moved:
    return Moved(
        f"{table}/{row}/indicated",
        table,
        Message(f"title-{table}"),
        row,
        "indicated",
        (row,),
        Message("column-ias"),
        speed(90),
        speed(95),
        row if table == "speeds" else "",
        worse,
        edits=(1,),
    )


SIDES = Side("main", "1"), Side("aircraft", "1")
EDIT = Edit(
    (Refigured("speeds/VFE/ias", Quantity(90, "kt"), Quantity(95, "kt")),),
    "aircraft/types/a.yaml",
    12,
    "Manual M-1",
    "2-3",
    ("ZZ-A",),
)


def of(*aircraft: Compared, **others: object) -> Comparison:
    return replace(Comparison(*SIDES, (EDIT,), aircraft), **others)


VFE = Compared("ZZ-A", "Plain", cells=(moved("VFE", "raised-limit", "speeds"),))


def test_alike_changes_of_aircraft_are_told_once():
    said = as_text(of(VFE, replace(VFE, registration="ZZ-B")), ENGLISH)
    lines = said.splitlines()
    assert lines[0] == "Limit raised: VFE: IAS 90 → 95 kt; ZZ-A, ZZ-B; edit 1"
    assert "ZZ-A, ZZ-B, Plain" in lines
    assert lines[-1] == "CHANGED FOR THE WORSE: 2 of 2 entries, 2 aircraft."
    assert (
        "  1  aircraft/types/a.yaml:12, Manual M-1, page 2-3: speeds/VFE: ias 90 → 95 kt (ZZ-A)"
        in lines
    )


def test_a_table_is_told_by_its_greatest_change_and_in_full_on_asking():
    cells = tuple(moved(f"row-{n}") for n in range(40))
    most = replace(cells[17], after=speed(120))
    one = Compared("ZZ-A", "Plain", cells=(*cells[:17], most, *cells[18:]))
    short, full = (as_text(of(one), ENGLISH, everything) for everything in (False, True))
    assert "40 entries; most: row-17, IAS: 90 → 120 kt (edit 1)" in short
    assert "row-3," not in short
    assert all(f"row-{n}, IAS: 90 kt →" in full for n in range(40))


@pytest.mark.parametrize("count", [1, 40, 150])
def test_a_comment_stays_within_its_length(count):
    """However large: 150 aircraft, each changed otherwise, in every cell of a table."""
    aircraft = [
        Compared(
            f"ZZ-{n:03}",
            "Plain",
            cells=tuple(
                replace(moved(f"row-{n}-{k}", "raised-limit" if k < 9 else ""), subject=f"V{k}")
                for k in range(60)
            ),
        )
        for n in range(count)
    ]
    said = as_markdown(of(*aircraft, edits=(EDIT,) * count), ENGLISH)
    assert len(said) <= MOST
    assert said.count("<details>") == said.count("</details>") >= 1
    assert ("Left out here" in said) == (count > 1)
    assert said.startswith("### CHANGED FOR THE WORSE")


def test_what_was_entered_is_no_markup_and_calls_nobody():
    evil = "<img src=x> [x](http://x) @all #1 | `a`\x1b[31m"
    one = replace(VFE, registration=evil, type=evil, cells=(replace(VFE.cells[0], headed=(evil,)),))
    said = as_markdown(of(one), ENGLISH)
    fold = next(line for line in said.splitlines() if line.startswith("<details>"))
    assert "&lt;img" in fold  # where only HTML is read
    assert not re.search(r"(?<!\\)([\[`]|<img)", said.replace(fold, ""))
    assert not re.search(r"@\w|#\d", said)
    assert "\x1b" not in said + as_text(of(one), ENGLISH)


@pytest.fixture
def two(one_aircraft, tmp_path):
    """Definitions of one glider, and the same in a folder to be edited."""
    head = tmp_path / "head"
    shutil.copytree(one_aircraft, head)
    return one_aircraft, head


@pytest.fixture
def one_aircraft(definitions):
    return keep(definitions, "zz-wtr")


def edited(head, old, new):
    path = head / "types" / "wheatear-15.yaml"
    text = path.read_text()
    assert text.count(old) == 1
    path.write_text(text.replace(old, new))


def test_a_raised_vne_is_the_first_line_and_exits_as_worse(two, capsys, tmp_path):
    base, head = two
    edited(head, "- {ias: 251, cas: 247, page: 2-2}", "- {ias: 256, cas: 252, page: 2-2}")
    page = tmp_path / "page.html"
    assert main(["compare", str(base), str(head), "--html", str(page)]) == 5
    said = capsys.readouterr().out
    assert said.startswith("Limit raised: VNE")
    assert "251 → 256 km/h" in said.splitlines()[0]
    text = page.read_text()
    assert not re.search(r"""(src|href)=["'](?!data:)""", text)
    assert text.count('class="worse"') >= 1  # the line of each of its entries
    assert main(["compare", str(base), str(head), "--format", "json"]) == 5
    told = json.loads(capsys.readouterr().out)
    jsonschema.validate(told, json_schema("comparison.json"))
    assert told["aircraft"][0]["cells"][0]["worse"] == "raised-limit"
    assert told["aircraft"][0]["cells"][0]["edits"] == [1]
    assert main(["compare", str(head), str(base), "--format", "markdown"]) == 4
    assert capsys.readouterr().out.startswith("### Changed: 1 aircraft")


def test_a_faulty_side_is_named(two, capsys):
    base, head = two
    edited(head, "- {ias: 251, cas: 247, page: 2-2}", "- {ias: 25O, page: 2-2}")
    assert main(["compare", str(base), str(head)]) == 1
    assert f"{head}/types/wheatear-15.yaml:" in capsys.readouterr().err
    assert main(["compare", "nowhere", str(head)]) == 2
