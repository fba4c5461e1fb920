"""Files are rewritten to the newest format: what must change does, and nothing else."""

import datetime
import difflib
import re
import shutil
from pathlib import Path

import pytest

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.card import make_document
from cardgen.checks.run import check, findings_of
from cardgen.cli import main
from cardgen.definition import renewing, upgrading
from cardgen.definition.fleet import read_fleet
from cardgen.definition.model import TypeDefinition
from cardgen.definition.places import DefinitionError
from cardgen.definition.reading import parse_yaml
from cardgen.definition.renewing import renew, renewed
from cardgen.document.data import to_json
from tests.conftest import DEMO, ROOT, keep
from tests.definition.test_upgrading import demonstrated, renamed

OLD = re.compile(r"(?m)^format: .*\n")
TODAY = datetime.date(2026, 1, 1)


def old(folder: Path) -> Path:
    """Take what says a format out of a folder's files, so that they are of format 1."""
    for path in folder.rglob("*.yaml"):
        path.write_text(OLD.sub("", path.read_text()))
    return folder


def contents(folder: Path) -> dict[Path, bytes]:
    return {path: path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


def documents(folder: Path) -> list[str]:
    """All that the definitions say, as the aircraft's documents."""
    fleet = read_fleet(folder)
    found = check(fleet, TODAY)
    return [
        to_json(make_document(Aircraft(one), fleet.school, findings_of(found, one)))
        for one in fleet.aircraft
    ]


def of_type(text: str) -> str:
    return renewed(TypeDefinition, text.encode(), "f").decode()


@pytest.mark.parametrize("folder", [DEMO, ROOT / "tests/definitions/stress"], ids=lambda f: f.name)
def test_of_a_file_without_old_keys_all_stays_and_the_format_is_said(tmp_path, folder):
    copy = old(Path(shutil.copytree(folder, tmp_path / "aircraft")))
    if folder == DEMO:  # of each kind one
        keep(copy, "zz-dub", "zz-phn", "zz-tua", "zz-wtr")
    before, said = contents(copy), documents(copy)
    rewritten = renew(copy)
    assert rewritten == sorted(copy.rglob("*.yaml"), key=rewritten.index)
    for path, content in before.items():
        more = b"format: 2\n" if path.suffix == ".yaml" else b""
        assert path.read_bytes() == content + more
    assert documents(copy) == said
    assert renew(copy) == []


def readable(path: Path) -> bool:
    try:
        return bool(parse_yaml(path.read_bytes(), path.name))
    except DefinitionError:
        return False


DEFINITIONS = [one for one in sorted(ROOT.glob("tests/definitions/*/*.yaml")) if readable(one)]


def test_most_test_definitions_are_yaml():
    assert len(DEFINITIONS) > 70


@pytest.mark.parametrize("path", DEFINITIONS, ids=lambda path: path.stem)
def test_no_line_of_a_test_definition_is_lost_or_moved(path):
    """Broken ones too, as far as they are YAML."""
    text = OLD.sub("", path.read_text())
    new = of_type(text)
    marks = {line[:1] for line in difflib.ndiff(text.splitlines(), new.splitlines())}
    assert marks == {" ", "+"}
    assert new == f"{text}format: 2\n"


NASTY = """\
# first #1
accepted: # beside the key #2
  # above the first #3
  markings-match:   # behind a key #4
    The placard
    says 'so' "no".   # behind words of two lines #5

  "position-error": >-   # behind a fold #6
    folded # no comment

      further in
  # between #7
  'calibration-smooth' : 'it''s "quoted"'   # quoted #12
  page-named: "one \\
    two"   # last #8
     # further in than it needs #9
  fuel-unit: |2
      two more
  # trailing #10

name: "a # b"   # name #11
"""
RENEWED = """\
# first #1
accepted: # beside the key #2
  # above the first #3
  - rule: markings-match
    reason:   # behind a key #4
      The placard
      says 'so' "no".   # behind words of two lines #5

  - rule: "position-error"
    reason: >-   # behind a fold #6
      folded # no comment

        further in
  # between #7
  - rule: 'calibration-smooth'
    reason : 'it''s "quoted"'   # quoted #12
  - rule: page-named
    reason: "one \\
      two"   # last #8
     # further in than it needs #9
  - rule: fuel-unit
    reason: |2
        two more
  # trailing #10

name: "a # b"   # name #11
format: 2
"""


def test_acceptances_become_a_list_with_every_comment_and_quotation_mark():
    assert of_type(NASTY) == RENEWED


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("accepted: {a: b} # c\n", "accepted: [{rule: a, reason: b}] # c\nformat: 2\n"),
        (
            "accepted: { 'a' : b, # one\n  c: \"d, {e}\" # two\n  } # three\nname: x\n",
            "accepted: [ {rule: 'a', reason : b}, # one\n  {rule: c, reason: \"d, {e}\"} # two\n"
            "  ] # three\nname: x\nformat: 2\n",
        ),
        ('accepted: {"a":"b"}\n', 'accepted: [{rule: "a", reason: "b"}]\nformat: 2\n'),
        ("accepted: {}\n", "accepted: []\nformat: 2\n"),
        ("accepted:\n a: b\n", "accepted:\n - rule: a\n   reason: b\nformat: 2\n"),
        ("accepted: [{rule: a, reason: b}]\n", "accepted: [{rule: a, reason: b}]\nformat: 2\n"),
        ("{accepted: {a: b}, name: x}", "{format: 2, accepted: [{rule: a, reason: b}], name: x}"),
        ("format: 1 # old\nname: x\n", "format: 2 # old\nname: x\n"),
        ('"format": 1\nname: x', '"format": 2\nname: x'),
        ("---\nname: x\n...\n# end\n", "---\nname: x\nformat: 2\n...\n# end\n"),
        ("# top\nname: x\n# end", "# top\nformat: 2\nname: x\n# end"),
        ("name: |\n  x", "format: 2\nname: |\n  x"),
        ("name: |+\n  x\n\n\n", "name: |+\n  x\n\n\nformat: 2\n"),
        ("  name: x\n  flaps: [0]\n", "  name: x\n  flaps: [0]\n  format: 2\n"),
        ("a: b\r\naccepted:\r\n  c: d\r\n",
         "a: b\r\naccepted:\r\n  - rule: c\r\n    reason: d\r\nformat: 2\r\n"),
        ("\ufeffname: é\raccepted: {ü: ß}\r",
         "\ufeffname: é\raccepted: [{rule: ü, reason: ß}]\rformat: 2\r"),
        ("name: 𝄞\naccepted: {𝄞𝄞: 𝄞} # 𝄞\n",
         "name: 𝄞\naccepted: [{rule: 𝄞𝄞, reason: 𝄞}] # 𝄞\nformat: 2\n"),
    ],
)  # fmt: skip
def test_only_what_must_change_does(text, wanted):
    assert of_type(text) == wanted
    assert of_type(wanted) == wanted


def accepting(folder: Path) -> Path:
    """Definitions of format 1 that accept findings, in a type and in an airframe."""
    path = old(folder) / "types/dunlin-160.yaml"
    text = path.read_text().replace("red line: {at: 151", "red line: {at: 150")
    accepted = "accepted:\n  # by mail\n  markings-match: 'The placard: 150.'   # as built\n"
    path.write_text(text.replace("\nspeeds:", f"\n{accepted}\nspeeds:", 1))
    bench = folder / "fleet/zz-dub.yaml"
    text = bench.read_text().replace("[+2, +2, +1,", "[+12, +9, +1,")
    bench.write_text(f"{text}accepted: {{bench-card-size: Measured twice., bench-card-age: x}}\n")
    return folder


def test_what_is_accepted_and_every_figure_are_the_same_before_and_after(definitions):
    keep(definitions, "zz-dua", "zz-dub", "zz-wtr")
    said = documents(accepting(definitions))
    assert sum("The placard: 150." in one for one in said) > 1
    renew(definitions)
    assert "  - rule: markings-match\n" in (definitions / "types/dunlin-160.yaml").read_text()
    assert documents(definitions) == said


def test_a_file_that_has_to_be_rewritten_by_hand_leaves_all_as_they_were(definitions):
    path = accepting(definitions) / "fleet/zz-whb.yaml"
    path.write_text(f"{path.read_text()}accepted:\n  ? markings-match\n  : why\n")
    before = contents(definitions)
    with pytest.raises(DefinitionError) as caught:
        renew(definitions)
    (fault,) = caught.value.faults
    assert fault.place.file == "fleet/zz-whb.yaml"
    said = "cannot be rewritten here; rewrite it by hand, and say format: 2"
    assert fault.message == said
    assert contents(definitions) == before


@pytest.mark.parametrize("method", ["replace", "write_bytes"])
@pytest.mark.parametrize("number", [1, 2, 5])
def test_a_disk_that_fails_leaves_all_as_they_were(definitions, monkeypatch, method, number):
    before, usual, calls = contents(accepting(definitions)), getattr(Path, method), []

    def failing(self, *arguments):
        calls.append(self)
        if len(calls) == number:
            raise OSError("no room")
        return usual(self, *arguments)

    monkeypatch.setattr(Path, method, failing)
    with pytest.raises(OSError, match="no room"):
        renew(definitions)
    assert contents(definitions) == before


def test_a_file_with_a_fault_is_not_rewritten(definitions):
    path = definitions / "types/dunlin-160.yaml"
    path.write_text(old(definitions).joinpath(path).read_text().replace("ias: 151", "ias: 15l"))
    before = contents(definitions)
    assert main(["renew", str(definitions)]) == 1
    assert contents(definitions) == before


def test_the_command_says_what_it_did(definitions, capsys):
    for path in old(definitions).rglob("*.yaml"):
        if path.name != "zz-dua.yaml":
            path.write_text(f"{path.read_text()}format: 2\n")
    assert main(["renew", str(definitions)]) == 0
    one = definitions / "fleet/zz-dua.yaml"
    assert capsys.readouterr().out.splitlines() == [
        f"Rewrote {one}",
        "1 file rewritten; all are of format 2.",
    ]
    assert main(["renew", str(definitions)]) == 0
    assert capsys.readouterr().out == "No files rewritten; all are of format 2.\n"


def test_a_key_is_renamed_where_it_stands(monkeypatch):
    monkeypatch.setattr(renewing, "STEPS", (renamed, renamed))
    monkeypatch.setattr(upgrading, "STEPS", (renamed, renamed))
    assert of_type("# a\n'label' : \"x\"  # b\n") == "# a\n'name' : \"x\"  # b\nformat: 3\n"
    assert of_type("format: 2\nlabel: x\n") == "format: 3\nname: x\n"


def test_a_step_that_does_not_say_what_it_changes_rewrites_nothing(monkeypatch):
    monkeypatch.setattr(renewing, "STEPS", (demonstrated,))
    with pytest.raises(DefinitionError, match="cannot be rewritten"):
        of_type("demonstrated crosswind: 15\n")
