"""What `cardgen build` says, and its options."""

import os
import pty
import re
import subprocess
import sys
import termios

import pytest

from cardgen.cli import main
from cardgen.publish.progress import shown
from tests.conftest import ROOT
from tests.publish.built import Site, edit

LAST = (
    r"Built .*site/index.html: (\d+) files? made, (\d+) reused, (\d+) warnings?, [\d.]+ s\. "
    r"Verify against the approved flight manual\.\n"
)


def command(site: Site, *options: str) -> int:
    given = [str(site.definitions), "--out", str(site.out), "--cache", str(site.cache)]
    return main(["build", *given, "--no-pdf", *options])


def test_the_last_line_says_what_was_made_and_found(site, capsys):
    path = site.definitions / "types/dunlin-160.yaml"
    edit(path, "red line: {at: 151", "red line: {at: 150")
    for made in (True, False):
        assert command(site) == 0
        said = re.fullmatch(LAST, capsys.readouterr().out)
        assert said is not None
        assert (int(said[1]) > 0) is made
        assert int(said[3]) == 1  # of the type, though on the pages of two aircraft


def test_where_there_is_no_terminal_each_part_that_is_made_has_a_line(cold, capsys):
    assert command(cold) == 0
    lines = capsys.readouterr().err.splitlines()
    assert lines[0] == "1/5 conversions/index.html"
    assert lines[-1] == "5/5 index.html"
    assert [line.split("/")[0] for line in lines] == list("12345")
    assert command(cold) == 0
    assert capsys.readouterr().err == ""
    path = cold.definitions / "fleet/zz-dub.yaml"
    path.write_text(path.read_text().replace("+2, +2", "+2, +3"))
    assert command(cold) == 0
    assert capsys.readouterr().err == "3/5 ZZ-DUB/index.html\n5/5 index.html\n"


def test_quiet_says_nothing_and_verbose_names_the_files(site, capsys):
    path = site.definitions / "fleet/zz-dub.yaml"
    path.write_text(path.read_text().replace("+2, +2", "+2, +3"))
    assert command(site, "--quiet") == 0
    assert capsys.readouterr() == ("", "")
    path.write_text(path.read_text().replace("+2, +3", "+3, +3"))
    assert command(site, "--verbose") == 0
    said = capsys.readouterr().out.splitlines()
    assert f"{site.out / 'ZZ-DUB/card.json'}" in said
    assert not any("ZZ-DUA" in line for line in said)


def test_keep_going_exits_1_and_says_what_was_left_out(site, capsys):
    edit(site.definitions / "fleet/zz-dub.yaml", "type: dunlin-160", "type: dunlin-161")
    assert command(site) == 1
    assert "nothing was written" in capsys.readouterr().err
    assert command(site, "--keep-going") == 1
    said = capsys.readouterr()
    assert "did you mean dunlin-160?" in said.err
    assert said.err.endswith("1 error; the aircraft that have them were left out\n")
    assert re.fullmatch(LAST, said.out)
    assert "Left out" in (site.out / "index.html").read_text()


def test_only_needs_a_site_and_a_registration_that_there_is(site, capsys):
    assert command(site, "--only", "ZZ-DUA") == 2
    assert "build all of it first" in capsys.readouterr().err
    assert command(site) == 0
    assert command(site, "--only", "ZZ-DUA", "ZZ-WTR") == 0
    assert command(site, "--only", "ZZ-XXX") == 2


@pytest.mark.parametrize("options", ["--jobs 0", "--jobs two", "--jobs 1 --cluster a", "--only"])
def test_options_that_cannot_be_exit_2(site, options):
    with pytest.raises(SystemExit) as caught:
        command(site, *options.split())
    assert caught.value.code == 2


def test_a_cluster_that_is_not_there_exits_3(site, capsys):
    pytest.importorskip("distributed")
    assert command(site, "--cluster", "nowhere") == 3
    assert "found no scheduler at nowhere" in capsys.readouterr().err


def test_a_terminal_has_a_bar_with_the_aircraft_under_work():
    told = ((0, 3, "ZZ-DUA"), (1, 3, "ZZ-DUA/index.html"), (2, 3, ""), (3, 3, "fleet.pdf"))
    code = (
        "from cardgen.publish.progress import shown\n"
        "with shown() as progress:\n"
        f"    for told in {told}:\n"
        "        progress(*told)\n"
    )
    ours, theirs = pty.openpty()
    termios.tcsetwinsize(theirs, (24, 80))
    subprocess.run([sys.executable, "-c", code], stderr=theirs, cwd=ROOT, check=True)
    os.set_blocking(ours, False)
    said = os.read(ours, 100_000).decode()
    os.close(theirs)
    os.close(ours)
    assert "ZZ-DUA" in said
    assert "2/3" in said
    assert "\n" not in said.rstrip("\r\n ")


def test_lines_are_told_where_a_terminal_is_not_wanted(capsys):
    with shown(lines=True) as told:
        told(0, 2, "ZZ-DUA")
        told(1, 2, "ZZ-DUA/index.html")
        told(2, 2, "")
    assert capsys.readouterr().err == "1/2 ZZ-DUA/index.html\n"
