"""The states that are compared: revisions are read, and nothing of the repository is touched."""

import hashlib
import subprocess
from pathlib import Path

import pytest

from cardgen.cli import main
from cardgen.definition.places import DefinitionError
from cardgen.publish.states import CutHistoryError, Definitions, StateError, state_of, working

SCHOOL = b"name: A school\n"


def git(folder: Path, *arguments: str) -> str:
    command = ["git", "-C", str(folder), "-c", "user.name=T", "-c", "user.email=t@example.test"]
    done = subprocess.run([*command, *arguments], capture_output=True, text=True, check=True)
    return done.stdout


@pytest.fixture
def repository(tmp_path: Path) -> Path:
    """A repository whose definitions stand in a folder of it, with two commits."""
    folder = tmp_path / "repository"
    aircraft = folder / "some where" / "aircraft"
    (aircraft / "fleet" / "deeper").mkdir(parents=True)
    (aircraft / "types").mkdir()
    (aircraft / "school.yaml").write_bytes(SCHOOL)
    (aircraft / "fleet" / "zz-ä.yaml").write_text("registration: ZZ-A\n")
    (aircraft / "fleet" / "deeper" / "zz-b.yaml").write_text("not read\n")
    (aircraft / "fleet" / "zz-link.yaml").symlink_to("/etc/hostname")
    (aircraft / "README").write_text("not read\n")
    git(folder, "init", "--quiet", "--initial-branch=main")
    git(folder, "add", ".")
    git(folder, "commit", "--quiet", "--message=First")
    (aircraft / "types" / "large.yaml").write_bytes(b"#" * (1024 * 1024 + 1))
    (aircraft / "types" / "empty.yaml").touch()
    git(folder, "add", ".")
    git(folder, "commit", "--quiet", "--message=Second")
    return folder


def test_a_revision_has_its_plain_files_and_no_others(repository):
    aircraft = repository / "some where" / "aircraft"
    first, second = (state_of(name, aircraft) for name in ("HEAD~1", "main"))
    assert isinstance(first, Definitions)
    assert isinstance(second, Definitions)
    assert first.files == {"school.yaml": SCHOOL, "fleet/zz-ä.yaml": b"registration: ZZ-A\n"}
    assert sorted(second.files) == [
        *("fleet/zz-ä.yaml", "school.yaml", "types/empty.yaml", "types/large.yaml"),
    ]
    assert second.files["types/empty.yaml"] == b""
    assert second.files["types/large.yaml"].strip() == b""  # too large: said when it is read


# What leads where, in a folder of definitions whose files are in the repository too.
LINKS = {
    "fleet/file.yaml": "../kept/a.yaml",
    "fleet/chain.yaml": "file.yaml",
    "fleet/round.yaml": "../kept/../kept/./b.yaml",
    "fleet/loop.yaml": "loop.yaml",
    "fleet/nothing.yaml": "../kept/none.yaml",
    "fleet/out.yaml": "../../README",
    "fleet/far.yaml": "/etc/hostname",
    "fleet/room.yaml": "../kept",
    "fleet/below": "../kept",
    "fleet/other.yml": "../kept/a.yaml",
    "types": "kept/types",
    "signed/ZZ-A": "../kept/signed",
    "signed/out": "/etc",
}


def test_links_of_a_revision_lead_where_they_do_in_a_folder(tmp_path):
    """The same files, the same records, and the same is told of the same."""
    folder = tmp_path / "aircraft"
    for name in ("kept/a.yaml", "kept/b.yaml", "kept/types/t.yaml", "kept/signed/2026-01-01.txt"):
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(f"name: {name}\n")
    (folder / "school.yaml").write_bytes(SCHOOL)
    (folder / "fleet").mkdir()
    (folder / "fleet/zz\u202e.yaml").write_text("registration: ZZ-X\n")
    (tmp_path / "README").write_text("not read\n")
    git(tmp_path, "init", "--quiet", "--initial-branch=main")
    for wrong in ({"signed/out"}, {"signed/out", "fleet/loop.yaml", "fleet/room.yaml"}):
        for name, target in LINKS.items():
            if name not in wrong and not (folder / name).is_symlink():
                (folder / name).parent.mkdir(exist_ok=True)
                (folder / name).symlink_to(target)
        git(tmp_path, "add", "--force", ".")
        git(tmp_path, "commit", "--quiet", "--allow-empty", "--message=Links")
        then, now = state_of("HEAD", folder), working(folder)
        assert then.files == now.files
        assert then.records == now.records != {}
        places = [sorted({one.place.file for one in side.odd}) for side in (then, now)]
        assert places[0] == places[1]
    assert {*now.files} == {
        *("school.yaml", "types/t.yaml", "fleet/zz\u202e.yaml"),
        *("fleet/file.yaml", "fleet/chain.yaml", "fleet/round.yaml"),
    }
    assert now.files["fleet/chain.yaml"] == b"name: kept/a.yaml\n"


@pytest.mark.parametrize("room", ["fleet", "types", "signed", "signed/ZZ-A"])
def test_a_room_of_a_revision_that_leads_out_is_told(repository, room):
    aircraft = repository / "some where" / "aircraft"
    git(repository, "rm", "-rq", "--ignore-unmatch", str(aircraft / room))
    (aircraft / room).parent.mkdir(exist_ok=True)
    (aircraft / room).symlink_to("/etc")
    git(repository, "add", ".")
    git(repository, "commit", "--quiet", "--message=Out")
    with pytest.raises(DefinitionError, match=rf"HEAD:.*/{room}:1:1: found a link that leads out"):
        state_of("HEAD", aircraft)


def test_a_repository_within_is_told(repository):
    aircraft = repository / "some where" / "aircraft"
    git(repository, "rm", "-rq", str(aircraft / "types"))
    oid = git(repository, "rev-parse", "HEAD").strip()
    module = f"160000,{oid},some where/aircraft/types"
    git(repository, "update-index", "--add", "--cacheinfo", module)
    git(repository, "commit", "--quiet", "--message=Module")
    with pytest.raises(StateError, match="types is a repository of its own at HEAD"):
        state_of("HEAD", aircraft)


@pytest.mark.parametrize("target", ["/nonexistent/x", "itself", "../elsewhere"])
def test_definitions_that_lead_out_of_the_repository_are_said_to(repository, tmp_path, target):
    (tmp_path / "elsewhere").mkdir()
    link = repository / "itself"
    link.symlink_to(target)
    with pytest.raises(StateError, match=r"leads out of|school\.yaml|in no git"):
        state_of("HEAD", link)


def test_a_folder_is_read_before_a_branch_of_its_name(repository, monkeypatch):
    monkeypatch.chdir(repository / "some where")
    Path("aircraft/fleet/zz-link.yaml").unlink()  # which leads out of it, and is refused
    git(repository, "branch", "aircraft", "HEAD~1")
    assert state_of("aircraft", Path("aircraft")).name == "aircraft"
    branch = state_of("refs/heads/aircraft", Path("aircraft"))
    assert isinstance(branch, Definitions)
    assert "types/empty.yaml" not in branch.files


def test_it_runs_in_a_hook(repository, monkeypatch):
    monkeypatch.chdir(repository)
    monkeypatch.setenv("GIT_DIR", ".git")
    monkeypatch.setenv("GIT_INDEX_FILE", ".git/index.lock")
    assert "school.yaml" in state_of("HEAD", Path("some where/aircraft")).files


def test_nothing_of_a_repository_is_touched(repository):
    aircraft = repository / "some where" / "aircraft"
    (aircraft / "school.yaml").write_bytes(b"name: Stashed\n")
    git(repository, "stash", "--quiet")
    for name in ("fleet/zz-link.yaml", "types/large.yaml", "fleet/deeper/zz-b.yaml"):
        (aircraft / name).unlink()
    (aircraft / "school.yaml").write_bytes(SCHOOL + b"notice: staged\n")
    git(repository, "add", ".")
    (aircraft / "school.yaml").write_bytes(SCHOOL)  # edited again, and as it was

    def everything() -> dict[str, tuple[str, int]]:
        return {
            str(path): (hashlib.sha256(path.read_bytes()).hexdigest(), path.stat().st_mtime_ns)
            for path in repository.rglob("*")
            if path.is_file()
        }

    before = everything()
    assert main(["compare", "HEAD", "--definitions", str(aircraft)]) == 0
    assert everything() == before


def test_a_shallow_clone_says_what_to_fetch(repository, tmp_path, capsys):
    clone = tmp_path / "clone"
    git(tmp_path, "clone", "--quiet", "--depth=1", repository.as_uri(), str(clone))
    aircraft = clone / "some where" / "aircraft"
    assert state_of("origin/main", aircraft).files == state_of("main", aircraft).files
    with pytest.raises(CutHistoryError, match="fetch --depth=1 origin release"):
        state_of("origin/release", aircraft)
    assert main(["compare", "HEAD~1", "--definitions", str(aircraft)]) == 3
    assert "git fetch --unshallow" in capsys.readouterr().err


def test_a_clone_without_its_contents_says_so(repository, tmp_path):
    clone = tmp_path / "clone"
    git(repository, "config", "uploadpack.allowFilter", "true")
    partial = ("clone", "--quiet", "--no-checkout", "--filter=blob:none", repository.as_uri())
    git(tmp_path, *partial, str(clone))
    git(clone, "config", "remote.origin.url", str(tmp_path / "gone"))
    with pytest.raises(OSError, match="git "):
        state_of("main", clone / "some where" / "aircraft")


@pytest.mark.parametrize("name", ["nowhere", "--all", "HEAD:some where", "HEAD~9"])
def test_what_is_no_state_is_said(repository, name):
    with pytest.raises(StateError, match="no revision of git"):
        state_of(name, repository / "some where" / "aircraft")


def test_what_is_elsewhere_is_said(repository, tmp_path):
    with pytest.raises(StateError, match=r"HEAD has no school\.yaml"):
        state_of("HEAD", repository)
    with pytest.raises(StateError, match="in no git repository"):
        state_of("HEAD", tmp_path / "aircraft")
    with pytest.raises(StateError, match=r"has no school\.yaml"):
        working(tmp_path)
