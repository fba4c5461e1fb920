"""The states that are compared: revisions are read, and nothing of the repository is touched."""

import hashlib
import subprocess
from pathlib import Path

import pytest

from cardgen.cli import main
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
    for name in ("fleet/zz-link.yaml", "types/large.yaml"):
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
