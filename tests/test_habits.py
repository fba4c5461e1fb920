"""What one expects of a command: its version, its exit codes, strictness, completion, a licence."""

import re
import subprocess
import sys
import sysconfig
import tomllib
import venv
from importlib import metadata
from pathlib import Path

import pytest

from cardgen import __version__
from cardgen.cli import EXITS, SHELLS, main
from tests.conftest import ROOT

PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
COMMANDS = ["build", "preview", "check", "reread", "start", "renew", "reckon", "signoff"]


def printed(capsys, *command: str) -> str:
    with pytest.raises(SystemExit) as caught:
        main(command)
    assert caught.value.code == 0
    return capsys.readouterr().out


def test_the_version_is_said_from_one_place(capsys):
    assert printed(capsys, "--version") == f"cardgen {__version__}\n"
    assert "version" not in PROJECT["project"]
    assert PROJECT["tool"]["hatch"]["version"]["path"] == "cardgen/__init__.py"
    texts = [path.read_text("utf-8") for path in (ROOT / "cardgen").rglob("*.py")]
    assert sum(f'"{__version__}"' in text for text in texts) == 1


def test_the_changes_end_at_this_version():
    changes = (ROOT / "README.md").read_text("utf-8").partition("\n## Changes\n")[2]
    assert re.findall(r"(?m)^### (.*)$", changes)[0] == __version__


def test_exit_codes_are_told_in_help_and_readme(capsys):
    """The same ones in both, and no other."""
    told = printed(capsys, "--help")
    assert EXITS in told
    codes = dict(re.findall(r"(?m)^  (\d+)  (.*)$", EXITS))
    readme = (ROOT / "README.md").read_text("utf-8")
    table = dict(re.findall(r"(?m)^\| (\d+) \| (.*) \|$", readme))
    assert {code: said.replace("`", "") for code, said in table.items()} == codes
    assert [*codes] == ["0", "1", "2", "3", "4", "5", "129", "130", "141", "143"]


WARNED = ("red line: {at: 151", "red line: {at: 150")
ACCEPTED = (
    "accepted:\n  - {rule: markings-match, figure: markings/red-line/at, value: 150, "
    "reason: The placard says so.}\n"
)


@pytest.fixture
def warned(one_aircraft: Path) -> Path:
    """Definitions with one warning."""
    path = one_aircraft / "types/dunlin-160.yaml"
    path.write_text(path.read_text().replace(*WARNED))
    return one_aircraft


def test_strict_checks_fail_on_a_warning(warned, capsys):
    assert main(["check", str(warned)]) == 0
    assert main(["check", str(warned), "--strict"]) == 1
    assert "0 errors, 1 warning" in capsys.readouterr().err
    path = warned / "types/dunlin-160.yaml"
    path.write_text(path.read_text() + ACCEPTED)
    assert main(["check", str(warned), "--strict"]) == 1  # nobody has signed the card
    main(["signoff", "ZZ-DUA", "--by", "P. Pipit", "--yes", "--definitions", str(warned)])
    assert main(["check", str(warned), "--strict"]) == 0


def test_strict_builds_write_nothing_on_a_warning(warned, tmp_path, capsys):
    out = tmp_path / "site"
    assert main(["build", str(warned), "--out", str(out), "--strict"]) == 1
    told = capsys.readouterr().err
    assert "expected the same (markings-match)" in told
    assert "1 error; nothing was written" in told
    assert not out.exists()


@pytest.mark.parametrize("shell", SHELLS)
def test_each_shell_completes_each_command(capsys, shell):
    said = printed(capsys, "--print-completion", shell)
    assert [one for one in COMMANDS if one not in said] == []
    assert "--strict" in said or "strict" in said


def test_bash_completes_options_and_choices(capsys, tmp_path):
    """Asked of bash itself, by the function that the script registers."""
    script = tmp_path / "completion"
    script.write_text(printed(capsys, "--print-completion", "bash"))
    for line, wanted in (("cardgen ch", "check"), ("cardgen check --st", "--strict")):
        words = " ".join(f"'{word}'" for word in line.split())
        asked = (
            f"source {script}; COMP_WORDS=({words}); COMP_CWORD=$(({len(line.split())}-1)); "
            '$(complete -p cardgen | sed "s/.*-F \\([^ ]*\\).*/\\1/"); echo "${COMPREPLY[@]}"'
        )
        done = subprocess.run(["bash", "-c", asked], capture_output=True, text=True, check=True)
        assert wanted in done.stdout.split(), done.stderr


def test_the_licence_is_in_file_and_metadata():
    assert (ROOT / "LICENSE").read_text().startswith("MIT License\n")
    assert PROJECT["project"]["license"] == "MIT"
    assert PROJECT["project"]["license-files"] == ["LICENSE"]
    assert "Typing :: Typed" in PROJECT["project"]["classifiers"]
    assert (ROOT / "cardgen/py.typed").exists()


def test_each_dependency_has_an_oldest_and_a_first_that_nobody_tried():
    groups = PROJECT["project"]["optional-dependencies"]
    ours = [*PROJECT["project"]["dependencies"], *groups["cluster"], *groups["preview"]]
    assert [one for one in ours if not re.fullmatch(r"[\w-]+ >=[\d.]+,<\d+", one)] == []


SCRIPT = """
from pathlib import Path

from cardgen.document.data import from_json
from cardgen.document.record import Document


def registrations(site: Path) -> list[str]:
    cards = site.glob("*/card.json")
    documents = [from_json(card.read_bytes(), Document) for card in cards]
    return sorted(one.head.registration for one in documents)


print(*registrations(Path("site")))
"""


@pytest.mark.long
def test_a_script_that_uses_an_installed_wheel_has_its_types(tmp_path):
    """Held by mypy to its strictest, away from the sources; a slip is found too."""
    run = [sys.executable, "-m"]
    quiet = ["--quiet", "--disable-pip-version-check"]
    subprocess.run([*run, "pip", "wheel", *quiet, "--no-deps", "-w", tmp_path, ROOT], check=True)
    (wheel,) = tmp_path.glob("cardgen-*.whl")
    venv.create(tmp_path / "venv", with_pip=False)
    (site,) = (tmp_path / "venv").glob("lib/python*/site-packages")
    subprocess.run([*run, "zipfile", "--extract", wheel, site], check=True)
    (site / "others.pth").write_text(sysconfig.get_path("purelib"))  # what it depends on
    (found,) = metadata.distributions(name="cardgen", path=[str(site)])
    assert (found.version, found.metadata["License-Expression"]) == (__version__, "MIT")
    path = tmp_path / "script.py"
    python = ["--python-executable", tmp_path / "venv/bin/python"]
    for wrong in (False, True):
        path.write_text(SCRIPT.replace("head.registration", "head.name") if wrong else SCRIPT)
        typed = [*run, "mypy", "--strict", "--config-file", "", *python, path]
        done = subprocess.run(
            typed, cwd=tmp_path, env={}, capture_output=True, text=True, check=False
        )
        said = re.findall(r"error: (.*)", done.stdout)
        assert said == ['"Head" has no attribute "name"  [attr-defined]'] * wrong
