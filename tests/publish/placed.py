"""Small sites that are put in place as builds do it, by processes that may be killed on the way."""

import os
import signal
import subprocess
import sys
import traceback
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from cardgen.publish.keys import hashed
from cardgen.publish.manifest import MARK, manifest
from cardgen.publish.place import placing
from tests.publish.built import tree

Files = dict[str, str]
ABOUT = {"cardgen": "0", "school": "A school", "figures": {}}
_STEPS = {"os.rename", "os.remove", "os.mkdir", "os.rmdir", "os.link", "open"}


def whole(files: Files) -> dict[str, bytes]:
    """A site of some files, with its manifest."""
    site = {path: text.encode() for path, text in files.items()}
    listed = manifest(ABOUT, {path: hashed(data) for path, data in site.items()})
    return {**site, MARK: listed.encode()}


def put(out: Path, files: Files) -> dict[str, str]:
    """Put a site of some files in place; files that stand there are linked, as a build does."""
    site = whole(files)
    with placing(out) as place:
        for path, data in site.items():
            (place.new / path).parent.mkdir(parents=True, exist_ok=True)
            there = place.out / path
            if there.is_file() and there.read_bytes() == data:
                os.link(there, place.new / path)
            else:
                (place.new / path).write_bytes(data)
        return place.put({path: hashed(data) for path, data in site.items()})


def forked(work: Callable[[], object]) -> int:
    """Do something in a process of its own, and return its exit code, or the signal below zero."""
    pid = os.fork()
    if pid == 0:
        code = 1
        try:
            work()
            code = 0
        except BaseException:
            traceback.print_exc()
        finally:
            os._exit(code)
    return os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1])


def steps_of(work: Callable[[], object]) -> int:
    """How often a process changes the disk."""
    steps = [0]

    def count() -> None:
        sys.addaudithook(lambda event, _: steps.append(0) if event in _STEPS else None)
        work()
        os._exit(len(steps))

    found = forked(count)
    assert 10 < found < 255, found
    return found


def killed_at(step: int, work: Callable[[], object]) -> None:
    """Kill a process before its so-manieth change of the disk, if there is one."""

    def counted() -> None:
        left = step

        def heard(event: str, arguments: tuple[object, ...]) -> None:
            nonlocal left
            if event in _STEPS:
                left -= 1
                if left < 0:
                    os.kill(os.getpid(), signal.SIGKILL)

        sys.addaudithook(heard)
        work()

    code = forked(counted)
    assert code in (0, -signal.SIGKILL), code


# -- where a site may stand ---------------------------------------------------------------------


def folder(top: Path) -> Path:
    """A folder that a build makes."""
    return top / "site"


def with_own_files(top: Path) -> Path:
    """A site with a school's own files in it."""
    out = top / "site"
    put(out, {"A/index.html": "A"})
    (out / "own/empty").mkdir(parents=True)
    (out / "own/rules.txt").write_text("ours")
    (out / "own/link").symlink_to("rules.txt")
    (out / "CNAME").write_text("cards.example")
    (out / "A/notes.html").write_text("ours, beside an aircraft's")
    return out


def worktree(top: Path) -> Path:
    """A work tree of git, on a branch of its own."""
    run = ["git", "-C", str(top), "-c", "user.name=a", "-c", "user.email=a@example.org"]
    quiet = {"check": True, "capture_output": True}
    subprocess.run(["git", "init", "-q", str(top / "history")], **quiet)  # type: ignore[call-overload]
    run[2] = str(top / "history")
    subprocess.run([*run, "commit", "-q", "--allow-empty", "-m", "begin"], **quiet)  # type: ignore[call-overload]
    subprocess.run([*run, "worktree", "add", "-q", "-b", "pages", top / "site"], **quiet)  # type: ignore[call-overload]
    return top / "site"


def link(top: Path) -> Path:
    """A link to an empty folder."""
    (top / "disk/real").mkdir(parents=True)
    (top / "site").symlink_to("disk/real")
    return top / "site"


@contextmanager
def mounted(top: Path) -> Iterator[Path]:
    """A folder that is mounted at another place too; the test is skipped where none may mount."""
    out, other = top / "site", top / "other"
    out.mkdir()
    other.mkdir()
    done = subprocess.run(["mount", "--bind", out, other], check=False, capture_output=True)
    if done.returncode:
        pytest.skip("mount --bind needs a system's administrator: NOT TRIED HERE")
    try:
        yield out
    finally:
        subprocess.run(["umount", other], check=True)


def left(top: Path) -> list[str]:
    """What builds have left hidden beside a site or in it."""
    return sorted(path.name for path in top.rglob(".*cardgen*"))


def alone_in(out: Path) -> dict[str, bytes]:
    """A site's files, without those of a repository."""
    return {path: data for path, data in tree(out).items() if path.split("/")[0] != ".git"}
