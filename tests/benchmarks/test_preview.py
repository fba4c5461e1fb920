"""How soon a preview shows what was saved, beside a build of that aircraft alone.

The build is one in this process, which has all imported and its cache at hand, so that it makes
what the preview makes: the document, the page and the list. Both are taken in processor time, in
turn, the least of several, since what else the machine does only adds to the clock; to the
preview's comes the time that it waits for a file to be written.
"""

import http.client
import os
import re
import shutil
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from urllib.parse import urlencode

import pytest

from cardgen.commands.preview import STEP
from cardgen.publish.build import build
from tests.benchmarks.beside import least
from tests.conftest import DEMO, ROOT, keep
from tests.sampling import is_long

MOST = 1.5
NAME = "ZZ-DUA"
MARK = re.compile(r'data-mark="(\w+)"')


def saved(definitions: Path, turn: int) -> str:
    """Give the aircraft another serial number, which stands on its page."""
    path, serial = definitions / f"fleet/{NAME.lower()}.yaml", f"{turn:05}"
    text, count = re.subn('serial: ".*"', f'serial: "{serial}"', path.read_text())
    assert count == 1
    path.write_text(text)
    return serial


def processor_time(pid: int) -> float:
    """The seconds of a process by proc(5), whose fields 14 and 15 are those of user and system."""
    fields = Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


class Reader:
    """What stands on a page, asked for as the page's own script does."""

    def __init__(self, pid: int, port: int) -> None:
        self.pid = pid
        self._port = port
        self.page = self._get(f"/{NAME}/")

    def _get(self, path: str) -> str:
        with closing(http.client.HTTPConnection("127.0.0.1", self._port, timeout=60)) as asked:
            asked.request("GET", path)
            return asked.getresponse().read().decode()

    def waits(self) -> None:
        (mark,) = MARK.findall(self.page)
        given = urlencode({"page": f"{NAME}/index.html", "mark": mark})
        self._get(f"/.preview/wait.js?{given}")
        self.page = self._get(f"/{NAME}/")


@pytest.fixture
def preview(tmp_path: Path) -> Iterator[tuple[Path, Reader]]:
    """A preview of the demo fleet, or some of it; its definitions, and a reader of a page."""
    definitions = Path(shutil.copytree(DEMO, tmp_path / "fleet"))
    if not is_long():
        keep(definitions, NAME.lower(), "zz-dub")
    command = [sys.executable, "-m", "cardgen", "preview", str(definitions), "--port", "0"]
    environment = {**os.environ, "XDG_CACHE_HOME": str(tmp_path / "caches")}
    running = subprocess.Popen(
        command, cwd=ROOT, env=environment, stdout=subprocess.PIPE, text=True
    )
    try:
        assert running.stdout is not None
        said = re.search(r"http://127\.0\.0\.1:(\d+)/", running.stdout.readline())
        assert said is not None
        running.stdout.readline()  # all is made
        yield definitions, Reader(running.pid, int(said[1]))
    finally:
        running.kill()
        running.communicate()


@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="Linux tells a process's times")
def test_what_was_saved_is_shown_soon(preview, tmp_path, record_property):
    fleet, reader = preview
    alone = keep(Path(shutil.copytree(DEMO, tmp_path / "alone")), NAME.lower())
    turns = iter(range(1000))

    def shown() -> float:
        began = processor_time(reader.pid)
        serial = saved(fleet, next(turns))
        reader.waits()
        assert serial in reader.page
        return processor_time(reader.pid) - began + 2 * STEP / 1000

    def built() -> float:
        serial, began = saved(alone, next(turns)), time.process_time()
        build(alone, tmp_path / "site", pdfs=False, cache=tmp_path / "caches/cardgen")
        took = time.process_time() - began
        assert serial in (tmp_path / f"site/{NAME}/index.html").read_text("utf-8")
        return took

    built()
    page, aircraft = least(shown, built, rounds=8 if is_long() else 3)
    ratio = page / aircraft
    what = f"from save to page takes {ratio:.2f} of a build of the aircraft alone, {page:.2f} s"
    record_property("measured", what)
    assert ratio < MOST
