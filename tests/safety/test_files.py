"""Folders of definitions that lead elsewhere, hold what is no file, or have odd names in them."""

import io
import os
import re
import shutil
import subprocess
import sys
from contextlib import suppress
from pathlib import Path

import pytest

from cardgen.checks.run import of_faults
from cardgen.cli import main
from cardgen.definition.fleet import read_fleet, read_sound
from cardgen.definition.places import DefinitionError, Fault, Place
from cardgen.definition.signed import records_of
from cardgen.publish import report
from cardgen.publish.keys import definitions_of
from cardgen.words.english import ENGLISH
from tests.conftest import ROOT

SECRET = "sesame: open\n"
TYPE = "types/dunlin-160.yaml"


def said(folder: Path) -> str:
    with pytest.raises(DefinitionError) as caught:
        read_fleet(folder)
    return str(caught.value)


@pytest.fixture
def secret(tmp_path: Path) -> Path:
    path = tmp_path / "secret" / "keys.yaml"
    path.parent.mkdir()
    path.write_text(SECRET)
    return path


# -- links


@pytest.mark.parametrize("name", [TYPE, "fleet/zz-dua.yaml", "school.yaml", "fleet/new.yaml"])
def test_a_link_out_of_the_folder_is_refused_and_what_it_leads_to_is_not_shown(
    one_aircraft, secret, capsys, name
):
    path = one_aircraft / name
    path.unlink(missing_ok=True)
    path.symlink_to(secret)
    wanted = f"{name}:1:1: found a link that leads out of the folder, expected a file or folder"
    assert wanted in said(one_aircraft)
    for form in ("text", "json", "github"):
        assert main(["check", str(one_aircraft), "--format", form]) == 1
        told = capsys.readouterr()
        assert "sesame" not in told.out + told.err


def test_a_folder_behind_a_link_is_not_listed(one_aircraft, secret):
    (one_aircraft / "fleet/zz-dua.yaml").unlink()
    (one_aircraft / "fleet").rmdir()
    (one_aircraft / "fleet").symlink_to(secret.parent)
    told = said(one_aircraft)
    assert "fleet:1:1: found a link that leads out of the folder" in told
    assert "keys" not in told


def test_a_link_within_the_folder_is_as_good_as_a_file(one_aircraft):
    path = one_aircraft / TYPE
    path.rename(one_aircraft / "dunlin.yaml")
    path.symlink_to(Path("..") / "dunlin.yaml")
    assert read_fleet(one_aircraft).aircraft[0].registration == "ZZ-DUA"


def test_the_folder_itself_may_be_a_link(one_aircraft, tmp_path):
    link = tmp_path / "link"
    link.symlink_to(one_aircraft)
    assert read_fleet(link).aircraft[0].registration == "ZZ-DUA"


def test_a_link_to_itself_is_told(one_aircraft):
    path = one_aircraft / "fleet/loop.yaml"
    path.symlink_to(path.name)
    assert "fleet/loop.yaml:1:1: " in said(one_aircraft)


def test_new_files_and_schemas_are_not_written_through_a_link(one_aircraft, secret, capsys):
    for name in ("type.json", "school.json", "airframe.json"):
        (one_aircraft / "schemas" / name).unlink()
        (one_aircraft / "schemas" / name).symlink_to(secret)
    assert main(["start", "--schema", "--definitions", str(one_aircraft)]) == 1
    assert "found a link that leads out of the folder" in capsys.readouterr().err
    assert secret.read_text() == SECRET


def test_a_file_is_not_renewed_through_a_link(one_aircraft, secret):
    (one_aircraft / "fleet/.zz-dua.yaml.new").symlink_to(secret)
    assert main(["renew", str(one_aircraft)]) == 0
    assert secret.read_text() == SECRET
    assert "format: 2" in (one_aircraft / "fleet/zz-dua.yaml").read_text()


LED = ("school.yaml", TYPE, "fleet/zz-dua.yaml", "fleet/new.yaml", "signed/ZZ-DUA/2026-01-01.txt")


@pytest.mark.parametrize(
    ("name", "through_a_folder"),
    [*((name, False) for name in LED), *((name, True) for name in LED if "/" in name)],
)
def test_what_a_link_out_leads_to_is_not_even_opened(
    one_aircraft, secret, monkeypatch, name, through_a_folder
):
    """Not by what reads definitions, nor by what only looks whether they are as they were."""
    target, outside = secret, secret.parent
    path = one_aircraft / name
    if through_a_folder:
        shutil.rmtree(path.parent, ignore_errors=True)
        path, target = path.parent, outside
    path.parent.mkdir(exist_ok=True)
    path.unlink(missing_ok=True)
    path.symlink_to(target)
    (outside / Path(name).name).write_text(SECRET)
    opened = []

    def noting(real):
        def noted(path, *arguments, **more):
            opened.append("" if isinstance(path, int) else os.path.realpath(path))
            return real(path, *arguments, **more)

        return noted

    for where in (os, io):
        monkeypatch.setattr(where, "open", noting(where.open))
    for look in (definitions_of, read_sound):
        with suppress(DefinitionError):
            look(one_aircraft)
    assert opened
    assert [one for one in opened if one.startswith(str(outside))] == []


@pytest.mark.parametrize("room", ["types", "fleet", "signed", "signed/ZZ-DUA"])
def test_a_folder_that_is_a_link_out_is_told_by_each_command(one_aircraft, secret, capsys, room):
    (one_aircraft / room).parent.mkdir(exist_ok=True)
    if (one_aircraft / room).exists():
        shutil.rmtree(one_aircraft / room)
    (one_aircraft / room).symlink_to(secret.parent)
    given = ["--definitions", str(one_aircraft)]
    for command in (
        ["check", str(one_aircraft)],
        ["build", str(one_aircraft), "--out", str(one_aircraft.parent / "site"), "--no-pdf"],
        ["reread", "2-3", *given],
        ["signoff", "ZZ-DUA", "--by", "P. Pipit", "--role", "chief", "--yes", *given],
    ):
        assert main(command) == 1
        told = capsys.readouterr()
        assert f"{room}:1:1: error: found a link that leads out" in told.out + told.err


# An administrator may list any folder, so that what runs has to do without that.
PLAIN = ["setpriv", "--bounding-set", "-dac_override,-dac_read_search"]


@pytest.mark.parametrize("room", ["types", "fleet", "templates", "static", "static/x", "signed/ZZ"])
def test_a_folder_that_may_not_be_listed_is_not_taken_for_an_empty_one(
    one_aircraft, room, tmp_path
):
    (one_aircraft / room).mkdir(parents=True, exist_ok=True)
    (one_aircraft / room).chmod(0)
    site = tmp_path / "site"
    build = ["build", str(one_aircraft), "--no-pdf", "--out", str(site), "--cache", str(tmp_path)]
    command = [sys.executable, "-m", "cardgen", *build]
    done = subprocess.run(
        [*(PLAIN if os.geteuid() == 0 else []), *command],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    wanted = rf"cardgen: \S+{room}: Permission denied; see to it that .*\n"
    assert done.returncode == 3, done.stderr
    assert re.fullmatch(wanted, done.stderr)
    assert not site.exists()


# -- what is no file


def test_a_pipe_is_not_waited_for(one_aircraft):
    os.mkfifo(one_aircraft / "types/pipe.yaml")
    assert "types/pipe.yaml:1:1: found a pipe, expected a file" in said(one_aircraft)


def test_a_folder_with_a_files_name_is_told(one_aircraft):
    (one_aircraft / "fleet/x.yaml").mkdir()
    assert "fleet/x.yaml:1:1: found a folder, expected a file" in said(one_aircraft)


def test_a_device_is_told(one_aircraft):
    """A link to one leads out of the folder; one in it is made by root alone."""
    path = one_aircraft / "fleet/null.yaml"
    try:
        os.mknod(path, 0o20600, os.makedev(1, 3))
    except PermissionError:
        pytest.skip("only root makes devices")
    assert "fleet/null.yaml:1:1: found a device, expected a file" in said(one_aircraft)


def test_a_huge_file_is_not_read_whole(one_aircraft):
    """A sparse file of 1 TiB: read whole, it would take all memory."""
    with (one_aircraft / "types/huge.yaml").open("wb") as file:
        file.truncate(1 << 40)
    wanted = f"types/huge.yaml:1:1: the file has {1 << 40} bytes, expected at most 1 MiB"
    assert wanted in said(one_aircraft)
    assert wanted in definitions_of(one_aircraft)["types/huge.yaml"]
    record = one_aircraft / "signed/ZZ-DUA/2026-01-01.txt"
    record.parent.mkdir(parents=True)
    with record.open("wb") as file:
        file.truncate(1 << 40)
    assert "expected at most 8 MiB" in definitions_of(one_aircraft)["signed/ZZ-DUA/2026-01-01.txt"]
    [(_, text, _)] = records_of(one_aircraft, "ZZ-DUA")
    assert text is None


# -- names of files

ODD = ["a\n::error::b.yaml", "\x1b[31m.yaml", "a\u202eb.yaml", "a\tb.yaml", "a\x7f.yaml"]


@pytest.mark.parametrize("name", [*ODD, os.fsdecode(b"\xff.yaml")], ids=ascii)
def test_a_file_name_that_does_not_show_is_refused_and_written_out(one_aircraft, capsys, name):
    (one_aircraft / "types" / name).write_text("name: x\n")
    for form in ("text", "json", "github") if name == ODD[0] else ("text",):
        assert main(["check", str(one_aircraft), "--format", form]) == 1
        told = capsys.readouterr().out
        assert "found a file name with a character that does not show" in told
        assert [one for one in told if not (one.isprintable() or one == "\n")] == []
        assert [line for line in told.splitlines() if line.startswith("::error::b")] == []


def test_a_file_name_does_not_end_an_annotations_property():
    """Escaped as the host's own toolkit does, `escapeProperty` in its command.ts."""
    place = Place("types/a,line=1::b:100%.yaml", 3, 7)
    told = report.as_annotations(of_faults([Fault(place, "off, by: 5 %")]), Path("d"), ENGLISH)
    file = "d/types/a%2Cline=1%3A%3Ab%3A100%25.yaml"
    assert told == f"::error file={file},line=3,col=7,title=definition::off, by: 5 %25"


@pytest.mark.parametrize("line", ["::add-mask::y: 1", "x: 1 ##[error]y", '"::error": 1'])
def test_a_line_that_is_an_order_to_a_host_is_not_shown(one_aircraft, capsys, line):
    """A runner looks for `::` behind spaces too (from memory)."""
    path = one_aircraft / TYPE
    path.write_text(f"{line}\n{path.read_text()}")
    assert main(["check", str(one_aircraft)]) == 1
    told = capsys.readouterr().out
    assert re.search(rf"{TYPE}:1:1: error: unknown key ", told)
    assert [one for one in told.splitlines() if re.match(r"\s*::|.*##\[", one)] == []


# -- names of new files


@pytest.mark.parametrize(
    ("name", "file"),
    [("../../x", "x"), ("CON", "new-con"), ("A" * 300, "a" * 60), ("ä", "new"), ("-rf /", "rf")],
)
def test_a_new_file_has_a_name_that_every_system_takes(tmp_path, name, file):
    at = ["--kind", "glider", "--definitions", str(tmp_path)]
    assert main(["start", "type", name, *at]) == 0
    assert [path.name for path in tmp_path.glob("types/*")] == [f"{file}.yaml"]


@pytest.mark.parametrize("name", ["a: b", "# c", "{d}", "12", "e ", "- f", "*g", "%h", "'i", "no"])
def test_what_start_writes_is_read_as_it_was_given(one_aircraft, name):
    """The name of a type, and the name of its file, whatever YAML would make of them."""
    (one_aircraft / TYPE).rename(one_aircraft / "types" / f"{name}.yaml")
    (one_aircraft / "fleet/zz-dua.yaml").unlink()
    at = ["--definitions", str(one_aircraft)]
    assert main(["start", "airframe", "ZZ-NEW", f"--type={name}", *at]) == 0
    assert read_fleet(one_aircraft).aircraft[0].airframe.type == name
    (one_aircraft / "school.yaml").unlink()
    assert main(["start", "school", name, *at]) == 0
    assert read_fleet(one_aircraft).school.name == name


@pytest.mark.parametrize("name", ["a\x1b[2J", "a\u200bb", os.fsdecode(b"a\xff")], ids=ascii)
def test_start_refuses_a_name_that_does_not_show(tmp_path, capsys, name):
    assert main(["start", "school", name, "--definitions", str(tmp_path)]) == 2
    assert "the name has the character U+" in capsys.readouterr().err
    assert not (tmp_path / "school.yaml").exists()
