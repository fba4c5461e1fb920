"""A site in its place: what is not ours stays, at no moment is there none, kills are mended."""

import json
import os
import re
import shutil
import subprocess
import sys
from contextlib import nullcontext
from itertools import pairwise
from pathlib import Path

import pytest

from cardgen.cli import main
from cardgen.publish import place, workshop
from cardgen.publish.exchange import can_exchange, exchange
from cardgen.publish.manifest import INNER, MARK, PDF_MARK, owned_in
from cardgen.publish.moving import MixedError
from cardgen.publish.place import PlaceError, mixed, placing
from cardgen.publish.workshop import BusyError, HinderedError
from tests.conftest import DEMO, ROOT
from tests.publish import placed
from tests.publish.built import tree
from tests.publish.placed import alone_in, forked, killed_at, left, put, steps_of, whole
from tests.sampling import is_long

OLD = {"index.html": "old", "A/index.html": "A, old", "A/card.json": "a", "B/index.html": "B"}
NEW = {"index.html": "new", "A/index.html": "A, new", "A/card.json": "a", "C/index.html": "C"}
AT_ONCE = {"folder": placed.folder, "own files": placed.with_own_files, "link": placed.link}
ONE_BY_ONE = {"worktree": placed.worktree}
PLACES = [*AT_ONCE, *ONE_BY_ONE, "mount"]


@pytest.fixture
def where(request, tmp_path):
    """A place for a site, by its name in `PLACES`."""
    known = AT_ONCE | ONE_BY_ONE
    name = request.param
    with nullcontext(known[name](tmp_path)) if name in known else placed.mounted(tmp_path) as out:
        yield out


def real(out: Path) -> int:
    return out.stat().st_ino


def own_in(out: Path) -> dict[str, bytes]:
    """What is not cardgen's of a site that was never built but by `placed.with_own_files`."""
    files = alone_in(out) if out.exists() else {}
    return {path: data for path, data in files.items() if path not in ("A/index.html", MARK)}


# -- twenty builds ------------------------------------------------------------------------------


@pytest.mark.parametrize("where", PLACES, indirect=True)
def test_after_twenty_builds_all_that_is_not_ours_is_there_and_the_live_files_are_new(
    where, tmp_path, sample
):
    others, links = own_in(where), where.is_symlink()
    put(where, {"index.html": "-1"})
    seen = [where, *(one for one in (tmp_path / "other", tmp_path / "disk/real") if one.exists())]
    for n in sample("builds of one site after the other", range(20), 3):
        files = {"index.html": str(n), f"A/{n}.csv": "row"}
        put(where, files)
        for out in seen:
            assert alone_in(out) == {**others, **whole(files)}
    assert where.is_symlink() == links
    assert left(tmp_path) == []
    if (where / ".git").exists():
        git = ["git", "-C", str(where)]
        run = {"check": True, "capture_output": True, "text": True}
        subprocess.run([*git, "add", "-A"], **run)
        said = subprocess.run([*git, "status", "--porcelain"], **run).stdout.splitlines()
        assert sorted(line[3:] for line in said) == sorted(whole(files))
    if (where / "own").exists():
        assert (where / "own/empty").is_dir()
        assert (where / "own/link").readlink() == Path("rules.txt")


# -- killed -------------------------------------------------------------------------------------


@pytest.mark.parametrize("where", [*AT_ONCE], indirect=True)
def test_killed_at_any_change_of_the_disk_the_old_site_is_whole_or_the_new(where, tmp_path, sample):
    """The folder is exchanged at once, and nothing that is not ours is missing at any moment."""
    own = own_in(where)
    put(where, OLD)
    last = steps_of(lambda: put(where, NEW))
    found = []
    for step in sorted({0, last, *sample("kills while a site is put in place", range(last), 2)}):
        put(where, OLD)
        killed_at(step, lambda: put(where, NEW))
        here = alone_in(where)
        assert here in ({**own, **whole(OLD)}, {**own, **whole(NEW)}), step
        found.append(here == {**own, **whole(NEW)})
        put(where, NEW)
        assert alone_in(where) == {**own, **whole(NEW)}
        assert left(tmp_path) == []
    assert found == sorted(found)  # old up to one moment, from then on new
    assert found[-1] > found[0]


@pytest.mark.parametrize("where", [*ONE_BY_ONE, "mount"], indirect=True)
def test_killed_while_files_are_renamed_the_next_build_mends_what_check_names(
    where, tmp_path, sample
):
    mixes = 0
    put(where, OLD)
    last = steps_of(lambda: put(where, NEW))
    steps = range(last) if is_long() else range(last // 2, last * 2 // 3)
    for step in sample("kills while files are renamed", steps, 5):
        put(where, OLD)
        killed_at(step, lambda: put(where, NEW))
        here = alone_in(where)
        files = {path: data for path, data in here.items() if not path.startswith(".cardgen/")}
        for path, data in files.items():  # each file is whole
            assert data in (whole(OLD).get(path), whole(NEW).get(path)), (step, path)
        is_mix = files not in (whole(OLD), whole(NEW))
        assert (mixed(where) > 0) == is_mix, step
        if is_mix and files[MARK] == whole(NEW)[MARK]:
            pytest.fail("the manifest was not last")
        mixes += is_mix
        put(where, OLD if step % 2 else NEW)
        assert alone_in(where) == whole(OLD if step % 2 else NEW)
        assert mixed(where) == 0
        assert left(tmp_path) == []
    assert mixes > 2


def test_a_first_build_into_a_worktree_that_is_killed_is_mended_too(tmp_path, sample):
    out = placed.worktree(tmp_path)

    def clear() -> None:
        for path in out.iterdir():
            if path.name != ".git":
                shutil.rmtree(path) if path.is_dir() else path.unlink()

    last = steps_of(lambda: put(out, NEW))
    for step in sample("kills of a first build in a worktree", range(last), 3):
        clear()
        killed_at(step, lambda: put(out, NEW))
        here = alone_in(out)
        assert (mixed(out) > 0) == bool({*here} & {*NEW} and MARK not in here)
        put(out, NEW)
        assert alone_in(out) == whole(NEW)
        assert left(tmp_path) == []


def test_check_names_a_mix_and_exits_3(make, tmp_path, tmp_path_factory, capsys):
    make()
    out = placed.worktree(tmp_path_factory.mktemp("pages"))
    check = ["check", str(tmp_path), "--out", str(out)]
    put(out, OLD)
    assert main(check) == 0
    assert "build again" not in capsys.readouterr().err
    last = steps_of(lambda: put(out, NEW))
    put(out, OLD)
    killed_at(last * 3 // 5, lambda: put(out, NEW))
    assert main(check) == 3
    said = capsys.readouterr().err.splitlines()[-1]
    assert said.startswith(f"cardgen: {out}: a build ended half way, ")
    assert re.search(r", \d files are not what it lists; build again$", said)
    put(out, NEW)
    assert main(check) == 0


# -- how ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("where", PLACES, indirect=True)
def test_how_a_site_is_put_in_place_is_known_before_it_is_made(where, request, tmp_path):
    with placing(where) as there:
        is_at_once = there.at_once
    name = request.node.callspec.params["where"]
    assert is_at_once == (name in AT_ONCE)
    put(where, OLD)
    before = real(where)
    put(where, NEW)
    assert (real(where) != before) == is_at_once


def test_where_the_disk_exchanges_nothing_files_are_renamed_in(tmp_path, monkeypatch):
    monkeypatch.setattr(place, "can_exchange", lambda _: False)
    out = tmp_path / "site"
    for files in (OLD, NEW):  # the first stands at once in any case
        put(out, files)
        assert tree(out) == whole(files)
    before = real(out)
    put(out, OLD)
    assert tree(out) == whole(OLD)
    assert real(out) == before
    assert left(tmp_path) == []


def test_where_there_are_no_locks_sites_are_built_too(tmp_path, monkeypatch):
    monkeypatch.setattr(workshop, "fcntl", None)
    for files in (OLD, NEW):
        put(tmp_path / "site", files)
        assert tree(tmp_path / "site") == whole(files)
    assert left(tmp_path) == []


def test_nothing_that_only_some_systems_have_is_needed_to_import_it():
    code = (
        "import os, sys, signal, multiprocessing.util, tempfile; sys.modules['fcntl'] = None\n"
        "del os.register_at_fork, os.O_NOFOLLOW, os.geteuid, signal.SIGKILL, signal.SIGHUP\n"
        "import cardgen.publish.build, cardgen.commands.outside, cardgen.publish.work\n"
    )
    subprocess.run([sys.executable, "-c", code], cwd=ROOT, check=True)


def test_what_is_tried_leaves_nothing_that_counts(tmp_path):
    (tmp_path / "trial").mkdir()
    assert can_exchange(tmp_path / "trial") or os.uname().sysname != "Linux"


@pytest.mark.skipif(os.geteuid() != 0, reason="only an administrator becomes somebody else")
def test_in_a_folder_that_may_not_be_written_to_files_are_renamed_in(tmp_path_factory):
    """The site is the builder's, what it stands in is not."""
    top = tmp_path_factory.mktemp("others")
    for folder in (top, *top.parents):
        if folder.owner() == "root" and folder != Path("/"):
            folder.chmod(folder.stat().st_mode | 0o055)
    out = top / "site"
    out.mkdir()
    os.chown(out, 65534, 65534)

    def build(files):
        os.setgid(65534)
        os.setuid(65534)
        with pytest.raises(PermissionError):
            (top / "no").mkdir()
        put(out, files)

    for files in (OLD, NEW):
        before = real(out)
        assert forked(lambda files=files: build(files)) == 0
        assert tree(out) == whole(files)
        assert real(out) == before
    assert left(top) == []


def test_what_somebody_puts_there_at_the_last_moment_stays_too(tmp_path, monkeypatch):
    out = tmp_path / "site"
    put(out, OLD)

    def late(new: Path, old: Path) -> None:
        (out / "own").mkdir()
        (out / "own/late").write_text("ours")
        exchange(new, old)

    monkeypatch.setattr("cardgen.publish.moving.exchange", late)
    put(out, NEW)
    assert tree(out) == {**whole(NEW), "own/late": b"ours"}


# -- whose a folder is --------------------------------------------------------------------------


@pytest.mark.parametrize("held", ["thesis.txt", "index.html", "cardgen.json"])
def test_a_folder_is_ours_by_its_manifest_and_not_by_a_files_name(tmp_path, held):
    out = tmp_path / "site"
    out.mkdir()
    (out / held).write_text("{}" if held == MARK else "years of work")
    before = tree(out)
    with pytest.raises(PlaceError):
        put(out, NEW)
    assert tree(out) == before
    assert left(tmp_path) == []


def test_a_place_that_is_a_pipe_or_a_link_to_itself_is_said_at_once(tmp_path, capsys):
    os.mkfifo(tmp_path / "pipe")
    (tmp_path / "self").symlink_to("self")
    for name, code, said in (
        ("pipe", 2, "pipe is not a site that cardgen built"),
        ("self", 3, "Too many levels of symbolic links"),
    ):
        given = ["--out", str(tmp_path / name), "--cache", str(tmp_path / "cache"), "--no-pdf"]
        assert main(["build", str(DEMO), *given]) == code
        assert said in capsys.readouterr().err


@pytest.mark.parametrize("where", ["folder", "worktree"], indirect=True)
def test_a_folder_with_a_workshops_name_in_a_site_stays(where, tmp_path):
    put(where, OLD)
    own = where / INNER / "notes"
    own.parent.mkdir()
    own.write_text("mine")
    with pytest.raises(HinderedError, match="holds something else; move it away"):
        put(where, NEW)
    assert own.read_text() == "mine"
    shutil.rmtree(own.parent)
    own.parent.write_text("mine")
    with pytest.raises(HinderedError, match="holds something else; move it away"):
        put(where, NEW)
    own.parent.unlink()
    put(where, NEW)


def test_a_site_that_somebody_stands_in_is_not_exchanged(tmp_path, monkeypatch):
    """Else a shell would be left in a folder that is gone."""
    out = tmp_path / "site"
    out.mkdir()
    monkeypatch.chdir(out)
    for files in (OLD, NEW):
        before = real(out)
        put(Path(), files)
        assert real(out) == before
        assert sorted(one.name for one in Path().iterdir()) == sorted(
            one.name for one in out.iterdir()
        )
        assert alone_in(out) == whole(files)
    assert main(["build", str(DEMO), "--out", ".", "--cache", str(tmp_path / "c"), "--no-pdf"]) == 0
    assert Path("index.html").is_file()


@pytest.mark.parametrize("room", ["types", "fleet", "signed", "static", "templates"])
@pytest.mark.parametrize("option", ["--out", "--cache"])
def test_no_site_and_no_cache_stands_in_what_a_site_is_made_of(
    one_aircraft, room, option, tmp_path, capsys
):
    """It would be made of itself, and larger with each build; by a link that leads there too."""
    (one_aircraft / room).mkdir(exist_ok=True)
    (tmp_path / "link").symlink_to(one_aircraft / room)
    before = tree(one_aircraft)
    for folder in (one_aircraft / room / "site", one_aircraft / room, tmp_path / "link" / "x"):
        places = {"--out": tmp_path / "site", "--cache": tmp_path / "cache", option: folder}
        given = [str(one) for name in places for one in (name, places[name])]
        assert main(["build", str(one_aircraft), "--no-pdf", *given]) == 2
        assert f"name another folder with {option}" in capsys.readouterr().err
        assert tree(one_aircraft) == before


def test_a_manifest_that_is_spoiled_is_said(tmp_path):
    out = tmp_path / "site"
    put(out, OLD)
    (out / MARK).write_text("<<<<<<< ours\n")
    with pytest.raises(PlaceError, match=r"site/cardgen.json cannot be read.*restore it"):
        put(out, NEW)


@pytest.mark.parametrize("name", [MARK, PDF_MARK])
@pytest.mark.parametrize("spoil", ["deep", "pipe", "huge", "no hash"])
def test_a_manifest_that_would_hang_or_fill_the_memory_is_said(tmp_path, name, spoil, capsys):
    out = tmp_path / "site"
    put(out, NEW)
    path = out / name
    path.unlink(missing_ok=True)
    if spoil == "pipe":
        os.mkfifo(path)
    elif spoil == "huge":
        with path.open("wb") as file:
            file.truncate(2**26 + 1)
    else:
        files = "[" * 200_000 if spoil == "deep" else '{"index.html": {"a": 1}}'
        path.write_text(f'{{"figures": {{}}, "files": {files}}}')
    with pytest.raises(PlaceError, match="cannot be read"):
        put(out, NEW)
    if name == MARK and spoil != "pipe":  # which is no file, so this is no site
        assert main(["compare", str(out), str(out), "--definitions", str(out)]) == 2
        assert "cannot be read" in capsys.readouterr().err


def test_a_manifest_that_leads_elsewhere_leads_nowhere(tmp_path):
    """As a stranger's may, in a repository that was cloned with its site."""
    out = tmp_path / "site"
    put(out, OLD)
    for path in ("precious", "site/.git/config"):
        (tmp_path / path).parent.mkdir(exist_ok=True)
        (tmp_path / path).write_text("precious")
    said = json.loads((out / MARK).read_text())
    hash_ = json.loads((out / MARK).read_text())["files"]["A/card.json"]
    (tmp_path / "precious").write_text("a")
    said["files"] |= dict.fromkeys(
        ["../precious", str(tmp_path / "precious"), ".git/config"], hash_
    )
    (out / ".git/config").write_text("a")
    (out / MARK).write_text(json.dumps(said))
    put(out, NEW)
    assert (tmp_path / "precious").read_text() == "a"
    assert (out / ".git/config").read_text() == "a"


def test_a_site_of_the_version_before_is_taken_over(tmp_path):
    """It has no list: what it wrote is known by its shape, and the aircraft that it names."""
    out = tmp_path / "site"
    of_old = ["index.html", "glossary.html", "A/index.html", "A/card.json", "A/limits.csv"]
    of_old += ["A/card-2up.pdf", "assets/page.css", "schemas/card.schema.json", "fleet.pdf"]
    others = ["CNAME", "notes.html", "A/notes.txt", "B/index.html", "assets/deep/page.css"]
    for path in (*of_old, *others):
        (out / path).parent.mkdir(parents=True, exist_ok=True)
        (out / path).write_text(path)
    said = {"cardgen": "0.2.0", "school": "A school", "figures": {"A": "0000-0000"}}
    (out / MARK).write_text(json.dumps(said))
    put(out, {"index.html": "new"})
    kept = {path: path.encode() for path in others}
    assert tree(out) == {**kept, **whole({"index.html": "new"})}


def test_sheets_are_known_where_their_list_was_not_committed(tmp_path):
    out = tmp_path / "site"
    put(out, {"A/index.html": "A"})
    said = json.loads((out / MARK).read_text())
    (out / MARK).write_text(json.dumps({**said, "figures": {"A": ""}}))
    for path in ("A/card.pdf", "A/rules.pdf"):
        (out / path).write_text("sheet")
    owned = owned_in(out)
    assert owned is not None
    assert owned.keys() == {MARK, PDF_MARK, "A/index.html", "A/card.pdf"}


# -- what stands in the way, and what was edited ------------------------------------------------


@pytest.mark.parametrize("where", ["folder", "worktree"], indirect=True)
@pytest.mark.parametrize(
    ("others", "said"),
    [("C/index.html", "C/index.html"), ("C", "C"), ("C/index.html/x", "C/index.html/x")],
)
def test_what_is_not_ours_is_not_written_over(where, others, said, tmp_path):
    put(where, OLD)
    (where / others).parent.mkdir(parents=True, exist_ok=True)
    (where / others).write_text("ours")
    before = alone_in(where)
    with pytest.raises(HinderedError, match=rf"^\S*site/{said} was not written by cardgen.*move"):
        put(where, NEW)
    assert alone_in(where) == before
    assert left(tmp_path) == []


@pytest.mark.parametrize("where", ["folder", "worktree"], indirect=True)
def test_no_link_in_a_site_leads_a_build_out_of_it(where, tmp_path):
    (tmp_path / "elsewhere").mkdir()
    put(where, OLD)
    (where / "C").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(HinderedError, match="site/C was not written"):
        put(where, NEW)
    assert list((tmp_path / "elsewhere").iterdir()) == []


@pytest.mark.parametrize("where", ["folder", "worktree"], indirect=True)
def test_what_is_there_just_as_it_would_be_written_is_in_nobodys_way(where):
    put(where, OLD)
    (where / "C").mkdir()
    (where / "C/index.html").write_text(NEW["C/index.html"])
    put(where, NEW)
    put(where, OLD)
    assert alone_in(where) == whole(OLD)


@pytest.mark.parametrize("where", ["folder", "worktree"], indirect=True)
def test_what_was_edited_by_hand_is_replaced_or_kept_under_another_name(where, tmp_path):
    """No page of an aircraft that left is taken for one that holds, and nobody's work is lost."""
    put(where, OLD)
    (where / "A/index.html").write_text("edited")
    (where / "B/index.html").write_text("edited")
    (where / "B/index.html.edited").write_text("before")
    assert put(where, NEW) == {"B/index.html": "B/index.html.edited-2"}
    kept = {"B/index.html.edited": b"before", "B/index.html.edited-2": b"edited"}
    assert alone_in(where) == {**whole(NEW), **kept}
    assert put(where, OLD) == {}
    assert alone_in(where) == {**whole(OLD), **kept}
    assert left(tmp_path) == []


@pytest.mark.parametrize("where", ["folder", "worktree"], indirect=True)
def test_a_file_becomes_a_folder_and_a_folder_a_file(where):
    for files, others in pairwise(
        [{"A": "file"}, {"A/B/c": "deeper"}, {"A/B": ""}, {"A": "again"}]
    ):
        for one in (files, others):
            put(where, one)
            assert alone_in(where) == whole(one)


# -- two at once --------------------------------------------------------------------------------


@pytest.mark.parametrize("where", ["folder", "link", "worktree", "mount"], indirect=True)
def test_of_two_builds_at_once_the_second_says_so_and_stops(where, tmp_path):
    put(where, OLD)

    def second() -> None:
        for path in (where, *(one for one in [tmp_path / "other"] if one.exists())):
            with pytest.raises(BusyError, match="another build is at work"):
                put(path, NEW)

    with placing(where) as there:
        assert forked(second) == 0
        (there.new / "index.html").write_text("")
    assert alone_in(where) == whole(OLD)
    assert forked(lambda: put(where, NEW)) == 0


def test_a_first_build_is_alone_too(tmp_path):
    def second() -> None:
        with pytest.raises(BusyError):
            put(tmp_path / "site", NEW)

    with placing(tmp_path / "site"):
        assert forked(second) == 0


def test_a_folder_of_somebody_elses_with_a_workshops_name_is_no_workshop(tmp_path):
    (tmp_path / ".site.cardgen").mkdir()
    (tmp_path / ".site.cardgen/precious").write_text("")
    with pytest.raises(HinderedError, match="holds something else"):
        put(tmp_path / "site", NEW)
    assert (tmp_path / ".site.cardgen/precious").exists()


# -- a disk that fails --------------------------------------------------------------------------


def test_a_rename_that_fails_half_way_is_said_and_mended(tmp_path, monkeypatch):
    out = placed.worktree(tmp_path)
    put(out, OLD)
    real, renamed = os.replace, 0

    def replace(*paths):
        nonlocal renamed
        renamed += str(paths[1]).startswith(f"{out}/") and ".cardgen" not in str(paths[1])
        if renamed == 2:
            raise OSError(28, "No space left on device")
        return real(*paths)

    with monkeypatch.context() as patch:
        patch.setattr(os, "replace", replace)
        with pytest.raises(MixedError, match=r"No space left.*has files of two builds"):
            put(out, NEW)
    assert mixed(out) > 0
    put(out, NEW)
    assert alone_in(out) == whole(NEW)
    assert left(tmp_path) == []


@pytest.mark.parametrize("where", ["own files", "worktree"], indirect=True)
def test_on_a_full_disk_the_old_site_stays(where, tmp_path, monkeypatch):
    put(where, OLD)
    before = alone_in(where)

    def full(*_):
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patch:
        patch.setattr(Path, "write_bytes", full)
        with pytest.raises(OSError, match="No space left"):
            put(where, NEW)
    assert alone_in(where) == before
    assert left(tmp_path) == []
