"""The unit of work, and where it is done: in a pool of processes, on a cluster."""

import os
import re
import resource
import signal
import threading
from pathlib import Path

import pytest

from cardgen.layout.formats import FORMATS, Format
from cardgen.publish import work
from cardgen.publish.build import build
from cardgen.publish.work import ClusterError, WorkerError, Workers, printed
from cardgen.render import pdf
from tests.conftest import ROOT, keep
from tests.publish.built import Blank, one_shared_table, tree
from tests.publish.placed import forked
from tests.sampling import is_long

PICTURE = b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><path d="M0 0h9v9z"/></svg>'
STRIP = [one for one in FORMATS if one.file == "strip.pdf"]


@pytest.fixture
def strips(monkeypatch):
    """Only one format, since what is made does not depend on how many there are."""
    monkeypatch.setattr("cardgen.render.pdf.FORMATS", STRIP)


def lay_out(formats: list[Format]) -> None:
    """Let this process, a worker's, make these formats only."""
    pdf.FORMATS = formats


@pytest.fixture
def card() -> str:
    return (ROOT / "site/ZZ-WTR/card.json").read_text("utf-8")


def test_a_document_is_all_that_another_machine_needs(card, strips, monkeypatch, tmp_path):
    """No file of the definitions or of the site is read, only what is handed over."""
    monkeypatch.chdir(tmp_path)
    one = printed("card.json", card)
    assert one.files.keys() == {"strip.pdf"}
    assert one.files["strip.pdf"].startswith(b"%PDF")
    assert one.layouts >= 1
    assert printed("card.json", card.encode()) == one
    assert list(tmp_path.iterdir()) == []


def test_a_schools_own_look_goes_with_the_document(card, strips):
    plain = printed("card.json", card)
    own = (("picture.svg", PICTURE),)
    assert printed("card.json", card, own).files != plain.files
    assert printed("card.json", card, own) == printed("card.json", card, own)
    assert printed("card.json", card) == plain


def test_a_worker_of_other_versions_says_so(card):
    with pytest.raises(ClusterError, match="other versions"):
        printed("card.json", card, (), "another key")


def test_no_more_waits_than_keeps_the_workers_busy():
    class Slow(Blank):
        most = 0

        def submit(self, *arguments):
            done = super().submit(*arguments)
            Slow.most = max(Slow.most, len(workers._waiting))
            return done

    taken: list[object] = []
    with Workers(Slow(), None) as workers:
        for _ in range(500):
            workers.give(taken.append, "conversions.json", b"{}", ())
        workers.finish()
    assert len(taken) == 500
    assert Slow.most < 64


def killed(*_: object) -> None:
    os.kill(os.getpid(), signal.SIGKILL)


def test_what_is_still_written_to_a_process_that_was_killed_holds_nothing_up(monkeypatch):
    """A pipe holds 64 KiB; what comes after waits for somebody to read, who is gone."""
    monkeypatch.setattr(work, "printed", killed)

    def give() -> None:
        with Workers(None, 1) as workers:
            for _ in range(3):
                workers.give(list, "card.json", bytes(1 << 20), ())
            workers.finish()

    def told() -> None:
        signal.alarm(30)
        threading.excepthook = lambda _: os._exit(99)  # a pool's own thread fails with a traceback
        with pytest.raises(WorkerError, match="ended from outside"):
            give()

    assert forked(told) == 0


def test_what_fails_at_work_fails_the_build_and_leaves_no_site(one_aircraft, tmp_path):
    class Broken(Blank):
        def submit(self, *arguments):
            done = super().submit(*arguments)
            failed = type(done)()
            failed.set_exception(MemoryError("no more"))
            return failed

    with pytest.raises(MemoryError):
        build(one_aircraft, tmp_path / "site", executor=Broken())
    assert [one.name for one in tmp_path.iterdir()] == ["aircraft"]


@pytest.mark.filterwarnings("default")
@pytest.mark.sampled
def test_a_cluster_prints_byte_for_byte_what_a_pool_prints(
    make, definitions, tmp_path, capsys, only
):
    """A scheduler and two worker processes on this machine, asked by the command line."""
    distributed = pytest.importorskip("distributed")
    from cardgen.cli import main

    if is_long():
        keep(definitions, "zz-wtr")
    else:  # a plain one, of few tables
        make()
        definitions = tmp_path
    kinds = only("card.pdf", sheets=["sheet-speeds"])
    (definitions / "templates").mkdir()
    (definitions / "templates/picture.svg").write_bytes(PICTURE)
    pool, out = tmp_path / "pool", tmp_path / "cluster"
    with one_shared_table():
        build(definitions, pool, workers=2)
    with (
        one_shared_table(),
        distributed.LocalCluster(
            n_workers=2, threads_per_worker=2, processes=True, dashboard_address=None
        ) as cluster,
    ):
        with distributed.Client(cluster) as client:
            assert len({os.getpid(), *client.run(os.getpid).values()}) == 3
            client.run(lay_out, pdf.FORMATS)
        address = ["--cluster", cluster.scheduler_address]
        assert main(["build", str(definitions), "--out", str(out), "--fresh", *address]) == 0
    assert re.search(r"\d+ files made, 0 reused", capsys.readouterr().out)
    assert sum(name.endswith(".pdf") for name in tree(pool)) == len(kinds) + 2
    assert tree(out) == tree(pool)


def test_no_sheet_is_laid_out_where_its_faces_may_not_be_opened(card):
    """The system would put another face in their place without a word."""

    def short() -> None:
        used = len(list(Path("/proc/self/fd").iterdir()))
        resource.setrlimit(resource.RLIMIT_NOFILE, (used + 20, used + 20))
        with pytest.raises(OSError, match="Too many open files"):
            printed("card.json", card)

    assert forked(short) == 0
