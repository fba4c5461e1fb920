"""No text of a stranger's gives an order to a host that runs workflows, whatever command tells it.

Such a host reads a line that begins with two colons, by itself or behind blanks, and two hashes
with a bracket wherever they stand (from memory).
"""

import re
import subprocess
from pathlib import Path

import pytest

from cardgen.cli import main
from cardgen.definition.shown import escaped

ORDER = "::error::forged ##[error]forged"
DAY = "2026-01-01"


def ordered(said: str) -> list[str]:
    """Return the lines that such a host would heed."""
    return [one for one in said.splitlines() if re.match(r"\s*::", one) or "##[" in one]


@pytest.fixture
def definitions(one_aircraft: Path) -> Path:
    """Definitions whose words are orders, where those may be any."""
    path = one_aircraft / "types/dunlin-160.yaml"
    text = path.read_text().replace("title: Pilot's operating handbook", f"title: '{ORDER}'")
    text = text.replace("name: Dunlin 160", f"name: '{ORDER}'")
    text = text.replace(
        "VNE: {ias: 151, cas: 147, page: 2-3}", f"VNE: {{ias: 151, page: '{ORDER}'}}"
    )
    path.write_text(text.replace("red line: {at: 151", "red line: {at: 150"))
    airframe = one_aircraft / "fleet/zz-dua.yaml"
    airframe.write_text(f"{airframe.read_text()}remarks:\n- one\n\n  {ORDER}\n")
    subprocess.run(["git", "init", "-q", one_aircraft.parent], check=True)
    for command in (["add", "."], ["commit", "-qm", "x"]):
        named = ["-c", "user.name=T", "-c", "user.email=t@example.test"]
        subprocess.run(["git", "-C", one_aircraft.parent, *named, *command], check=True)
    path.write_text(path.read_text().replace("ias: 151", "ias: 155").replace(ORDER, f"{ORDER}!", 1))
    return one_aircraft


@pytest.mark.parametrize(
    "command",
    [
        *(["check", ""], ["check", "", "--format", "json"], ["check", "", "--format", "sarif"]),
        *(["compare", "HEAD"], ["compare", "HEAD", "--all"]),
        *(["compare", "HEAD", "--format", "json"], ["compare", "HEAD", "--format", "markdown"]),
        *(["reread", "2-3"], ["reread", ORDER], ["reread", "2-3", "--document", ORDER]),
        ["signoff", "ZZ-DUA", "--by", "P. Pipit", "--date", DAY, "--yes"],
        ["reckon", "ZZ-DUA", "--ias", "170", "--pressure-altitude", "6000"],
        ["reckon", ORDER, "--ias", "170", "--pressure-altitude", "6000"],
        ["build", "", "--no-pdf", "--out", "site", "--only", ORDER],
        ["renew", ""],
    ],
    ids=" ".join,
)
def test_no_command_prints_an_order(definitions, command, capsys, monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)
    given = [one or str(definitions) for one in command]
    main(given if "" in command else [*given, "--definitions", str(definitions)])
    said = capsys.readouterr()
    assert said.out + said.err
    if "sarif" not in command and "json" not in command:  # whose words stand in strings
        assert ordered(said.out + said.err) == []
    else:
        assert [one for one in ordered(said.out) if one.lstrip().startswith("::")] == []


def test_a_name_of_a_folder_is_no_order(definitions, capsys):
    (definitions / "signed").mkdir(exist_ok=True)
    (definitions / f"signed/x\n{ORDER}").symlink_to("/etc")
    (definitions / "signed" / "a\udcff").symlink_to("/etc")
    for form in ("text", "json", "github", "sarif"):
        assert main(["check", str(definitions), "--format", form]) == 1
        said = capsys.readouterr().out
        lines = [one for one in said.splitlines() if not one.startswith("::error file=")]
        assert [one for one in lines if one.lstrip().startswith("::")] == []


@pytest.mark.parametrize(
    "text", ["::a", "x\n  ::a", "##[a]", "b ##[a]", "::a\n::b", "\t::a", "###["]
)
def test_what_is_shown_is_no_order_and_reads_as_it_was(text):
    said = escaped(text)
    assert ordered(said) == []
    assert said.encode().decode("unicode-escape") == text


def test_words_that_are_no_order_stay(capsys):
    for text in ("ratio 5::3", "a: b", ":", "#1", "## [x]", " : :"):
        assert escaped(text) == text
