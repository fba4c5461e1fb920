"""Builds that are stopped, killed, or fail for want of something: old site or new, it is whole.

Each is the command itself in a process of its own, of a plain aircraft, whose sheets are blank but
in a long run.
"""

import os
import random
import re
import resource
import shutil
import signal
import subprocess
import sys
import time
import traceback
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest

from cardgen.cli import main
from cardgen.publish import work
from cardgen.publish.stopping import StoppedError, heeding
from cardgen.publish.work import Printed, Workers
from tests.conftest import ROOT, printing
from tests.plain import maker
from tests.publish.built import Site, put_together, tree
from tests.publish.placed import left
from tests.sampling import SEED, is_long, some

HOW_LONG = 30  # seconds that are waited for what comes, on a busy machine
STATES = ("new", "old")


def blank(name: str, document: bytes, own: object, press: str) -> Printed:
    """Print nothing, and not at once."""
    time.sleep(0.05)
    return Printed({name.replace(".json", ".pdf"): document[:20]}, 1)


def for_ever(*_: object) -> Printed:
    time.sleep(1000)
    raise AssertionError


class Plain(Site):
    """A site of a plain aircraft in one of two states, and how it is built by the command."""

    def __init__(self, folder: Path) -> None:
        super().__init__(folder / "top")
        self.errors = folder / "errors"
        self.trees: dict[str, dict[str, bytes]] = {}
        self.pids: list[int] = []

    def to(self, state: str) -> None:
        path = self.definitions / "types/plain.yaml"
        path.write_text(re.sub("name: Plain.*", f"name: Plain {state}", path.read_text()))

    def turn(self) -> tuple[str, str]:
        """Change the definitions; what the site is, and what it shall be."""
        before = self.holds()
        after = next(one for one in STATES if one != before)
        self.to(after)
        return before, after

    def command(self, *options: str) -> int:
        given = [str(self.definitions), "--out", str(self.out), "--cache", str(self.cache)]
        return main(["build", *given, *options])

    def begun(self, *options: str, first: Callable[[], object] = lambda: None) -> int:
        """Build in a process and a session of its own, and return its number."""
        pid = os.fork()
        if pid == 0:
            os.setsid()
            handle = os.open(self.errors, os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
            os.dup2(handle, 1)
            os.dup2(handle, 2)
            sys.stdout, sys.stderr = os.fdopen(1, "w", 1), os.fdopen(2, "w", 1)
            signal.signal(signal.SIGINT, signal.default_int_handler)
            code = 99
            try:
                first()
                code = self.command(*options)
            except Exception:
                traceback.print_exc()
            finally:
                os._exit(code)
        self.pids.append(pid)
        return pid

    def said(self) -> str:
        return self.errors.read_text()

    def holds(self) -> str:
        """Which of its states the site has, each file of it."""
        here = tree(self.out)
        return next(state for state, files in self.trees.items() if files == here)

    def mended(self, state: str) -> None:
        """Build once more, and find nothing left of what was before."""
        self.to(state)
        assert self.command("--quiet") == 0
        assert self.holds() == state
        assert left(self.out.parent) == []
        there = sorted(one.name for one in self.out.parent.iterdir())
        assert there == ["aircraft", "cache", "site"]

    def clear(self) -> None:
        for pid in self.pids:
            for one in in_session(pid):
                os.kill(one, signal.SIGKILL)


@pytest.fixture(scope="module")
def built(tmp_path_factory) -> Iterator[Plain]:
    """A site that stands in one of its states; each test leaves it so."""
    folder = tmp_path_factory.mktemp("plain")
    site = Plain(folder)
    site.definitions.mkdir(parents=True)
    maker(site.definitions)()
    with ExitStack() as stack:
        patch = stack.enter_context(pytest.MonkeyPatch.context())
        stack.enter_context(printing("strip.pdf"))
        if not is_long():
            patch.setattr(work, "printed", blank)
            stack.enter_context(put_together())
        for state in STATES:
            site.to(state)
            assert site.command("--quiet", "--jobs", "1") == 0
            site.trees[state] = tree(site.out)
        yield site
    site.clear()


@pytest.fixture
def plain(built, monkeypatch) -> Iterator[Plain]:
    yield built
    built.clear()


def in_session(leader: int) -> list[int]:
    """The processes of a session that still run; see proc(5)."""
    found = []
    for path in Path("/proc").glob("[0-9]*/stat"):
        try:
            state, _, _, session = path.read_text().rpartition(")")[2].split()[:4]
        except OSError:
            continue
        if int(session) == leader and state not in "ZX":
            found.append(int(path.parent.name))
    return found


def until(true: Callable[[], object], most: float = HOW_LONG) -> float:
    """Wait until something is so, and return how long that took."""
    began = time.monotonic()
    while not true():
        assert time.monotonic() - began < most
        time.sleep(0.005)
    return time.monotonic() - began


def ended(pid: int) -> int:
    """Wait for the end of a build, and return its exit code; one that hangs is killed."""
    found: list[int] = []

    def is_over() -> bool:
        there, how = os.waitpid(pid, os.WNOHANG)
        found.extend([how] if there else [])
        return bool(found)

    try:
        until(is_over, 10 * HOW_LONG)
    except AssertionError:
        os.killpg(pid, signal.SIGKILL)
        os.waitpid(pid, 0)
        raise
    return os.waitstatus_to_exitcode(*found)


# -- signals ------------------------------------------------------------------------------------

SENT = {
    "SIGINT to all": (signal.SIGINT, 130, "cardgen: stopped by SIGINT\n"),
    "SIGINT": (signal.SIGINT, 130, "cardgen: stopped by SIGINT\n"),
    "SIGTERM": (signal.SIGTERM, 143, "cardgen: stopped by SIGTERM\n"),
    "SIGKILL to all": (signal.SIGKILL, -9, ""),
    "SIGKILL": (signal.SIGKILL, -9, ""),
    "SIGHUP to all": (signal.SIGHUP, 129, "cardgen: stopped by SIGHUP\n"),
    "SIGHUP": (signal.SIGHUP, 129, "cardgen: stopped by SIGHUP\n"),
}


@pytest.mark.parametrize(
    "how", some("signals while sheets are made", [*SENT], ["SIGTERM", "SIGKILL"])
)
def test_a_signal_ends_a_build_and_all_its_processes(plain, monkeypatch, how):
    """To all, as Ctrl-C in a terminal is, or to the one that was begun, as by `kill`."""
    old, new = plain.turn()
    with monkeypatch.context() as patch:
        patch.setattr(work, "printed", for_ever)
        pid = plain.begun("--fresh", "--jobs", "2")
        until(lambda: len(in_session(pid)) == 3 and "T-EST/index.html" in plain.said())
    before = plain.said()
    sent, code, said = SENT[how]
    for one in in_session(pid) if how.endswith("all") else [pid]:
        os.kill(one, sent)
    began = time.monotonic()
    assert ended(pid) == code
    until(lambda: not in_session(pid))
    assert time.monotonic() - began < (1 if is_long() else 5)
    assert plain.said() == before + said
    assert plain.holds() == old
    if code > 0:
        assert left(plain.out.parent) == []
    plain.mended(new if sent != signal.SIGKILL else old)


def test_a_signal_at_any_moment_while_work_is_given_out_ends_it(monkeypatch, record_property):
    """Also within a fork, where what is raised is lost, or just before a wait, which it wakes."""
    chance = random.Random(SEED)
    moments = 600 if is_long() else 40
    record_property("sampled", ("moments of SIGTERM while work is given out", moments, 600))
    monkeypatch.setattr(work, "printed", for_ever)
    for _ in range(moments):
        pid = os.fork()
        if pid == 0:
            os.setsid()
            code = 99
            try:
                with heeding(), Workers(None, 2) as workers:
                    for _ in range(6):
                        workers.give(lambda _: None, "card.json", bytes(300_000), ())
                    workers.finish()
            except StoppedError as stopped:
                code = 128 + stopped.number
            finally:
                os._exit(code)
        time.sleep(0.002 + 0.05 * chance.random())
        os.kill(pid, signal.SIGTERM)
        assert ended(pid) in (143, -signal.SIGTERM)  # before it is heeded, it ends a process
        until(lambda pid=pid: not in_session(pid))


@pytest.mark.sampled
@pytest.mark.parametrize("sheets", [False, True], ids=["pages", "sheets"])
def test_killed_at_any_moment_the_old_site_is_whole_or_the_new(plain, sheets, record_property):
    """With sheets it is killed while they are made. No process and no folder is left."""
    chance = random.Random(SEED)
    moments = 30 if is_long() else 1
    record_property("sampled", ("random moments of kills", moments, 30))
    given = ["--fresh", "--jobs", "2"]
    began = time.monotonic()
    assert ended(plain.begun(*given)) == 0
    whole = time.monotonic() - began
    for _ in range(moments):
        old, new = plain.turn()
        began = time.monotonic()
        pid = plain.begun(*given)
        if sheets:
            until(lambda pid=pid: len(in_session(pid)) > 1)
            while in_session(pid) and chance.random() < 0.97:
                time.sleep(0.01)
        else:
            time.sleep(chance.random() * whole)
        os.kill(pid, signal.SIGKILL)
        assert ended(pid) in (0, -9)
        until(lambda pid=pid: not in_session(pid))
        assert plain.holds() in (old, new)
        plain.mended(chance.choice([old, new]))


# -- what fails outside -------------------------------------------------------------------------


def test_a_process_that_makes_sheets_and_is_killed_is_said(plain, monkeypatch):
    old, new = plain.turn()
    with monkeypatch.context() as patch:
        patch.setattr(work, "printed", for_ever)
        pid = plain.begun("--fresh", "--jobs", "2")
        until(lambda: len(in_session(pid)) == 3)
    os.kill(next(one for one in in_session(pid) if one != pid), signal.SIGKILL)
    assert ended(pid) == 3
    last = plain.said().splitlines()[-1]
    assert last.startswith("cardgen: a process that makes PDFs was ended from outside")
    assert "Traceback" not in plain.said()
    until(lambda: not in_session(pid))
    assert plain.holds() == old
    assert left(plain.out.parent) == []
    plain.mended(new)


def test_a_second_build_at_once_says_so_and_stops(plain, monkeypatch, capsys):
    old, new = plain.turn()
    with monkeypatch.context() as patch:
        patch.setattr(work, "printed", for_ever)
        pid = plain.begun("--fresh")
        until(lambda: len(in_session(pid)) > 1)
    for state in (old, new):  # of which one has nothing to do
        plain.to(state)
        assert plain.command("--quiet") == 3
        assert re.fullmatch("cardgen: another build is at work .*\n", capsys.readouterr().err)
    os.kill(pid, signal.SIGTERM)
    assert ended(pid) == 143
    plain.mended(new)


def limited(what: int, most: int) -> Callable[[], None]:
    return lambda: resource.setrlimit(what, (most, most))


def outcome_within(plain: Plain, *options: str, first: Callable[[], object]) -> int:
    """Build within bounds, once more without; a sentence at the end, the old site or the new."""
    old, new = plain.turn()
    code = ended(plain.begun("--fresh", "--jobs", "2", *options, first=first))
    said = plain.said()
    assert code in (0, 3), said
    assert "Traceback" not in said
    last = said.splitlines()[-1]
    assert last.startswith("Built" if code == 0 else "cardgen: "), said
    assert plain.holds() == (new if code == 0 else old)
    until(lambda: not in_session(plain.pids[-1]))
    plain.mended(new)
    return code


def test_where_few_files_may_be_open_it_is_said(plain, sample):
    used = len(list(Path("/proc/self/fd").iterdir()))
    few = range(used - 5, used + 20, 4)  # fewer than a build has to open
    bounds = sample("bounds of open files", range(used - 5, used + 120, 4) if is_long() else few, 1)
    codes = [outcome_within(plain, first=limited(resource.RLIMIT_NOFILE, most)) for most in bounds]
    assert 3 in codes
    if is_long():
        assert 0 in codes


def test_where_memory_is_short_it_is_said(plain, sample):
    used = int(re.search(r"VmSize:\s+(\d+)", Path("/proc/self/status").read_text())[1]) << 10
    bounds = sample("bounds of memory", [used + (n << 19) for n in range(0, 200, 5)], 1)
    codes = [outcome_within(plain, first=limited(resource.RLIMIT_AS, most)) for most in bounds]
    if is_long():
        assert {*codes} == {0, 3}


@pytest.mark.skipif(os.geteuid() != 0, reason="only an administrator becomes somebody else")
def test_what_may_not_be_written_is_said(plain):
    old, new = plain.turn()

    def somebody_else() -> None:
        os.setgid(65534)
        os.setuid(65534)

    for folder in (plain.definitions, *plain.definitions.parents[:-2]):
        folder.chmod(folder.stat().st_mode | 0o055)
    code = ended(plain.begun("--fresh", "--no-pdf", first=somebody_else))
    assert code == 3
    said = plain.said().splitlines()[-1]
    assert re.fullmatch(r"cardgen: \S+: Permission denied; see to it that you may .*", said)
    assert plain.holds() == old
    plain.mended(new)


def test_a_full_disk_is_said(plain, tmp_path):
    """A disk of its own, that has room for one site and not for two."""
    size = sum(len(data) for data in plain.trees["old"].values())
    mount = ["mount", "-t", "tmpfs", "-o", f"size={size * 2}", "none", tmp_path]
    if subprocess.run(mount, check=False, capture_output=True).returncode:
        pytest.skip("mount needs a system's administrator: NOT TRIED HERE")
    real, plain.out = plain.out, tmp_path / "site"
    try:
        old, new = (one for one in STATES)
        plain.to(old)
        assert ended(plain.begun()) == 0
        (tmp_path / "other").write_bytes(bytes(size // 2))
        plain.to(new)
        code = ended(plain.begun("--fresh"))
        assert (code, plain.holds()) == (3, old), plain.said()
        last = plain.said().splitlines()[-1]
        assert re.fullmatch(r"cardgen: (\S+: )?No space left on device; make room .*", last)
        assert sorted(path.name for path in tmp_path.iterdir()) == ["other", "site"]
    finally:
        plain.out = real
        subprocess.run(["umount", tmp_path], check=True)
    plain.mended(plain.holds())


# -- terminals ----------------------------------------------------------------------------------


def test_a_terminal_without_utf_8_is_told_in_what_it_has(plain, tmp_path):
    definitions = shutil.copytree(plain.definitions, tmp_path / "Müllers ✈")
    (definitions / "fleet/t-two.yaml").write_text("registration: é\ntype: plain\n", "utf-8")
    environment = {
        **os.environ,
        "LC_ALL": "C",
        "PYTHONUTF8": "0",
        "PYTHONCOERCECLOCALE": "0",
        "PYTHONPATH": str(ROOT),
    }
    command = [sys.executable, "-m", "cardgen", "build", "--no-pdf", "--cache", tmp_path / "cache"]
    command += ["--out", tmp_path / "Ausgabe ✈", definitions, "--keep-going"]
    done = subprocess.run(command, env=environment, capture_output=True, check=False, cwd=ROOT)
    assert b"Traceback" not in done.stderr
    assert done.returncode == 1
    assert b"1 error; the aircraft" in done.stderr
    assert done.stdout.startswith(b"Built")
    assert (done.stdout + done.stderr).isascii()
    assert (tmp_path / "Ausgabe ✈/T-EST/index.html").is_file()
