"""What the README shows is what the program prints."""

import re
import shlex
import subprocess

import pytest

from cardgen.cli import main
from tests.conftest import ROOT, keep

DUNLIN = "types/dunlin-160.yaml"
SLIPS = [
    (DUNLIN, "ias: 151, cas", "ias: 15l, cas"),
    (DUNLIN, "ias: 119, cas", "ias: 119 kt, cas"),
    (DUNLIN, "\ncalibration:", "\ncalibraton:"),
    (DUNLIN, "cas: [49, 53, 61,", "cas: [49, 53,"),
    ("fleet/zz-dua.yaml", "type: dunlin-160", "type: dunlin-16"),
    (DUNLIN, "VNO: {ias: 119", "VNO: {ias: 191"),
    (DUNLIN, "VNO: {ias: 119", "VNO: {ias: 116"),
    (DUNLIN, "red line: {at: 151", "red line: {at: 115"),
    (DUNLIN, "79, 88, 98, 117", "79, 83, 98, 117"),
    (DUNLIN, "ias: 87, cas: 85", "ias: 87, cas: 58"),
]


def shown() -> list[str]:
    """The ten messages of the README, each with the lines under it."""
    text = (ROOT / "README.md").read_text()
    (block,) = re.findall(r"as they are printed:\n\n```\n(.*?)```", text, re.DOTALL)
    return re.split(r"(?m)^(?=aircraft/)", block)[1:]


def test_there_are_ten():
    assert len(shown()) == len(SLIPS)


@pytest.mark.parametrize("number", range(len(SLIPS)))
def test_a_message_is_printed_as_shown(definitions, monkeypatch, capsys, number):
    file, old, new = SLIPS[number]
    path = definitions / file
    text = path.read_text()
    assert old in text
    path.write_text(text.replace(old, new, 1))
    monkeypatch.chdir(definitions.parent)
    main(["check"])
    assert shown()[number] in capsys.readouterr().out


def test_the_definitions_shown_are_the_demos():
    text = (ROOT / "README.md").read_text()
    demo = "\n".join(path.read_text() for path in (ROOT / "aircraft").rglob("*.yaml"))
    blocks = re.findall(r"```yaml\n(.*?)```", text, re.DOTALL)
    lines = [line for block in blocks for line in block.splitlines()]
    assert lines
    assert [line for line in lines if line not in demo] == []


def test_what_is_shown_to_be_read_again_is_printed(monkeypatch, capsys):
    text = (ROOT / "README.md").read_text()
    shown = r"\$ cardgen (reread [^\n]*)\n(.*?)    \.\.\.\n"
    ((command, lines),) = re.findall(shown, text, re.DOTALL)
    monkeypatch.chdir(ROOT)
    main(shlex.split(command))
    assert capsys.readouterr().out.startswith(lines)


SUPPLEMENT = """supplements:
  - title: Wing tips
    number: SUP-31
    date: 2024-05-04
    speeds:
      VA: {weight: 2750, ias: 112, cas: 111, page: S31-2}
"""


def test_what_is_shown_to_be_compared_is_printed(definitions, monkeypatch, capsys):
    text = (ROOT / "README.md").read_text()
    (lines,) = re.findall(r"\$ cardgen compare main\n(.*?)```", text, re.DOTALL)
    keep(definitions, "zz-dua", "zz-dub", "zz-duc", "zz-wha")
    monkeypatch.chdir(definitions.parent)
    for command in ("init --quiet --initial-branch=main", "add .", "commit --quiet --message=One"):
        author = ["-c", "user.name=T", "-c", "user.email=t@example.test"]
        subprocess.run(["git", *author, *command.split()], check=True)
    path = definitions / DUNLIN
    path.write_text(path.read_text().replace("ias: 99, cas: 96", "ias: 104, cas: 101"))
    path = definitions / "fleet" / "zz-wha.yaml"
    path.write_text(path.read_text() + SUPPLEMENT)
    main(["compare", "main"])
    printed = capsys.readouterr().out
    first, last = lines.split("...\n")
    assert printed.startswith(first)
    assert printed.endswith(last)
