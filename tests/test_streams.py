"""What is printed has nowhere to go, or nothing is open: each command ends in order all the same.

Each is run as a shell runs it, with the output kept till the end as Python keeps it for files.
"""

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path
from resource import RLIMIT_FSIZE, setrlimit

import pytest

from cardgen.cli import COMMANDS
from tests.conftest import DEMO, ROOT

FULL = Path("/dev/full")

# Each command with what it prints something for, in a folder with a copy of one aircraft.
GIVEN = {
    "build": ("build", "aircraft", "--no-pdf", "--cache", "cache"),
    "check": ("check", "aircraft"),
    "compare": ("compare", "before", "aircraft", "--definitions", "aircraft"),
    "signoff": ("signoff", "ZZ-DUA", "--by", "P. Pipit", "--yes", "--definitions", "aircraft"),
    "reread": ("reread", "2-3", "--definitions", "aircraft"),
    "start": ("start", "school", "--definitions", "new"),
    "renew": ("renew", "aircraft"),
    "reckon": (
        *("reckon", "ZZ-DUA", "--ias", "90", "--pressure-altitude", "6000"),
        *("--oat", "5", "--course", "90", "--wind", "240/18", "--definitions", "aircraft"),
    ),
    "practice": ("practice", "ZZ-DUA", "--no-pdf", "--definitions", "aircraft"),
    "--help": ("--help",),
    "--version": ("--version",),
    "--print-completion": ("--print-completion", "zsh"),
}


def run(
    command: str, folder: Path, end: str = "", **options: object
) -> subprocess.CompletedProcess[str]:
    """Run a command in a process of its own, whose streams a shell sets."""
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    environment.pop("PYTHONUNBUFFERED", None)
    arguments = [sys.executable, "-m", "cardgen", *GIVEN[command]]
    options = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE, "check": False, **options}
    return subprocess.run(
        ["/bin/sh", "-c", f'exec "$@" {end}', "sh", *arguments],
        cwd=folder,
        env=environment,
        text=True,
        **options,
    )


@pytest.fixture
def place(one_aircraft, tmp_path):
    """A folder to work in: definitions, and a state of them before."""
    shutil.copytree(one_aircraft, tmp_path / "before")
    path = one_aircraft / "types/dunlin-160.yaml"
    path.write_text(path.read_text().replace("ias: 119", "ias: 118").replace("to: 119", "to: 118"))
    return tmp_path


def test_each_command_is_tried():
    """But for one, which only ends when it is told to."""
    assert {*COMMANDS} - {*GIVEN} == {"preview"}


@pytest.mark.parametrize("command", GIVEN)
def test_output_that_has_nowhere_to_go_ends_a_command_in_order(command, place):
    """On a full disk with a sentence, to a reader that is gone in silence, closed as ever."""
    usual = run(command, place)
    assert usual.stdout, "else nothing could fail"
    ends = {f">{FULL}": 3, "| exec true": 141, "<&- >&- 2>&-": usual.returncode}
    for end, code in ends.items():
        for name in ("new", "practice"):
            shutil.rmtree(place / name, ignore_errors=True)
        done = to_nobody(command, place) if "|" in end else run(command, place, end)
        assert (done.returncode, end) == (code, end)
        assert not re.search("Traceback|Exception ignored|Broken pipe", done.stderr)
        if code == 3:
            last = done.stderr.splitlines()[-1]
            assert last == "cardgen: No space left on device; make room on the disk"
        if command == "start":
            made = sorted(one.name for one in (place / "new/schemas").iterdir())
            assert made == ["airframe.json", "school.json", "type.json"]
    assert (done.stdout, done.stderr) == ("", "")


@pytest.mark.parametrize("command", ["--version", "check", "compare", "reckon"])
def test_where_nothing_at_all_can_be_said_the_code_says_it(command, place):
    """As with a log on a full disk."""
    assert run(command, place, f">{FULL} 2>&1").returncode == 3


def to_nobody(command: str, place: Path) -> subprocess.CompletedProcess[str]:
    read, write = os.pipe()
    os.close(read)
    try:
        return run(command, place, stdout=write)
    finally:
        os.close(write)


@pytest.mark.parametrize(
    ("command", "given", "left"),
    [
        ("start", ("start", "school", "--definitions", "new"), ["new"]),
        (
            "start",
            ("start", "type", "x", "--kind", "glider", "--definitions", "new"),
            ["new/types"],
        ),
        ("start", ("start", "--schema", "--definitions", "new"), ["new/schemas"]),
        ("compare", (*GIVEN["compare"], "--html", "page.html"), ["page.html"]),
        ("practice", (*GIVEN["practice"], "--out", "new"), ["new"]),
        ("signoff", GIVEN["signoff"], ["aircraft/signed"]),
        ("renew", GIVEN["renew"], []),
    ],
)
def test_a_file_that_cannot_be_written_whole_is_not_there(place, monkeypatch, command, given, left):
    """As on a full disk: here no file may have more than a few bytes."""
    monkeypatch.setitem(GIVEN, command, given)
    if command == "renew":
        path = place / "aircraft/fleet/zz-dua.yaml"
        path.write_text(path.read_text().replace("format: 2\n", ""))
    before = {path: path.read_bytes() for path in place.rglob("*") if path.is_file()}
    few = (100, 100)
    done = run(command, place, preexec_fn=lambda: setrlimit(RLIMIT_FSIZE, few))
    assert done.returncode == 3
    assert re.fullmatch(r"cardgen: (\S+: )?File too large\n", done.stderr)
    assert {path: path.read_bytes() for path in place.rglob("*") if path.is_file()} == before
    done = run(command, place)
    assert done.returncode in (0, 4, 5)
    assert [name for name in left if not (place / name).exists()] == []


@pytest.mark.parametrize("format_", ["json", "sarif", "github"])
def test_what_is_for_people_is_not_put_among_what_programs_read(place, monkeypatch, format_):
    monkeypatch.setitem(GIVEN, "check", ("check", "aircraft", "--format", format_))
    wanted = run("check", place).stdout
    assert wanted
    assert run("check", place, "2>&-").stdout == wanted


def test_a_build_whose_progress_cannot_be_told_stops_and_leaves_the_old_site(place):
    assert run("build", place).returncode == 0
    before = (place / "site/ZZ-DUA/card.json").read_bytes()
    path = place / "aircraft/types/dunlin-160.yaml"
    path.write_text(path.read_text().replace("name: Dunlin 160", "name: Dunlin 161"))
    assert run("build", place, f"2>{FULL}").returncode == 3
    assert (place / "site/ZZ-DUA/card.json").read_bytes() == before


def test_ctrl_c_while_it_begins_leaves_no_traceback():
    """When it comes before there is anything that would heed it."""
    script = (
        "import os, signal, sys\n"
        "class Finder:\n"
        "    def find_spec(self, name, *_):\n"
        "        if name == 'cardgen.publish.stopping':\n"
        "            os.kill(os.getpid(), signal.SIGINT)\n"
        "signal.signal(signal.SIGINT, signal.default_int_handler)\n"  # in the background it is not
        "sys.meta_path.insert(0, Finder())\n"
        f"sys.argv = ['cardgen', 'check', {str(DEMO)!r}]\n"
        "import runpy; runpy.run_module('cardgen', run_name='__main__')\n"
    )
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    done = subprocess.run(
        [sys.executable, "-c", script], env=environment, capture_output=True, text=True, check=False
    )
    assert done.returncode == -2
    assert not re.search("Traceback|KeyboardInterrupt", done.stderr)
