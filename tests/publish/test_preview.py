"""A preview: it shows what a build makes, follows what is saved, and is for this machine alone."""

import errno
import http.client
import os
import re
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import closing, nullcontext
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import BrowserContext, Page, expect

from cardgen.cli import main
from cardgen.commands import FAILED, MISUSED
from cardgen.commands.preview import _rooms, _said, _wait, _watched
from cardgen.publish import preview as previews
from cardgen.publish.build import build
from cardgen.publish.preview import Preview
from cardgen.publish.store import Store
from cardgen.publish.work import Printed
from cardgen.render.templates import Templates
from tests.conftest import ROOT
from tests.plain import maker
from tests.publish.built import Blank, edit, put_together, tree
from tests.render.test_accessibility import RULES
from tests.render.test_words import MADE_UP, Said, unmarked
from tests.sampling import is_long

pytestmark = pytest.mark.xdist_group("browser preview")

HOW_LONG = 30  # seconds that are waited for what comes, on a busy machine
PLAIN = "types/plain.yaml"
BEFORE, AFTER, SLIP = "ias: 140", "ias: 143", "ias: 14O"  # VNO
ADDED = re.compile(
    rb'<link rel="stylesheet" href="/.preview/preview.css">\n<div id="preview".*?</script>\n',
    re.DOTALL,
)


def plain(folder: Path) -> Path:
    """Definitions of two plain aircraft, each of a type of its own."""
    folder.mkdir()
    maker(folder)()
    for kind in ("types", "fleet"):
        (first,) = (folder / kind).glob("*.yaml")
        text = first.read_text().replace("T-EST", "T-WO").replace("type: plain", "type: other")
        (folder / kind / "other.yaml").write_text(text)
    return folder


# -- what is shown, asked of it directly ----------------------------------------------------------


class Desk:
    """Definitions, and a preview of them that looks when it is told to."""

    def __init__(self, folder: Path, cache: Path) -> None:
        self.definitions = plain(folder / "aircraft")
        self.store = Store(cache)
        (folder / "work").mkdir()

        def say(error: Exception) -> list[str]:
            return _said(self.definitions, error)

        self.preview = Preview(self.definitions, folder / "work", self.store, say)

    def save(self, old: str, new: str, file: str = PLAIN) -> None:
        edit(self.definitions / file, old, new)

    def files(self) -> dict[str, bytes | None]:
        return {path: self.preview.content(path) for path in self.preview.shown.site}


@pytest.fixture(scope="module")
def cache(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """What was made of the definitions, which all of these tests begin with."""
    return tmp_path_factory.mktemp("cache")


@pytest.fixture
def desk(tmp_path: Path, cache: Path) -> Desk:
    return Desk(tmp_path, cache)


def test_what_is_shown_is_the_site_that_a_build_makes(desk, cache, tmp_path):
    """Each file of it, to the byte, with the same found in the cache by whichever comes second."""
    assert desk.preview.renew() is not None
    built = build(desk.definitions, tmp_path / "site", pdfs=False, cache=cache)
    assert built.made == ()
    assert desk.files() == tree(tmp_path / "site")
    assert not any(b"/.preview" in data for data in tree(tmp_path / "site").values())


def test_only_what_a_change_reaches_is_made(desk):
    desk.preview.renew()
    assert desk.preview.renew() is None
    desk.save(BEFORE, AFTER)
    made = desk.preview.renew()
    assert {path.split("/")[0] for path in made} == {
        *("T-EST", "next", "index.html", "cardgen.json")
    }
    assert b"143" in desk.preview.content("T-EST/index.html")
    path = desk.definitions / PLAIN
    path.write_text(path.read_text() + "# A comment changes no page.\n")
    assert desk.preview.renew() in (None, ["T-EST/card.json"])


def test_a_mark_is_of_one_page_and_what_it_is_shown_by(desk):
    def marks() -> list[str]:
        desk.preview.renew()
        return [desk.preview.shown.mark(f"{name}/index.html") for name in ("T-EST", "T-WO")]

    first = marks()
    desk.save(BEFORE, AFTER)
    second = marks()
    assert [one == other for one, other in zip(first, second, strict=True)] == [False, True]
    (desk.definitions / "templates").mkdir()
    (desk.definitions / "templates/page.css").write_text("body { margin: 0 }")
    third = marks()
    assert [one == other for one, other in zip(second, third, strict=True)] == [False, False]
    assert "" not in first + second + third


def test_an_aircraft_with_an_error_is_left_out_and_the_others_follow(desk):
    desk.preview.renew()
    desk.save(BEFORE, SLIP)
    desk.save(BEFORE, AFTER, "types/other.yaml")
    desk.preview.renew()
    (error,) = desk.preview.shown.errors
    first, line, caret = error.splitlines()
    assert first.startswith(f"{desk.definitions / PLAIN}:")
    assert "error: ias: found the words '14O', expected a number" in first
    number, column = map(int, re.findall(r":(\d+):(\d+): error", first)[0])
    assert desk.definitions.joinpath(PLAIN).read_text().splitlines()[number - 1] == line[4:]
    assert line.index("14O") == caret.index("^") == column + 3
    assert desk.preview.content("T-EST/index.html") is None
    assert b"143" in desk.preview.content("T-WO/index.html")
    desk.save(SLIP, BEFORE)
    desk.preview.renew()
    assert desk.preview.shown.errors == ()
    assert b"140" in desk.preview.content("T-EST/index.html")


@pytest.mark.parametrize(
    ("file", "text", "said"),
    [
        ("school.yaml", "name: [", "school.yaml:2:1: error: not YAML"),
        ("templates/aircraft.html", "a\n{% if %}", "templates/aircraft.html:2:1: error"),
        ("static/.git/HEAD", "ref: refs/heads/main", "static/.git:1:1: error: found a repository"),
    ],
)
def test_where_all_fails_what_was_shown_stays(desk, file, text, said):
    desk.preview.renew()
    before = desk.files()
    path = desk.definitions / file
    kept = path.read_text() if path.exists() else ""
    path.parent.mkdir(exist_ok=True, parents=True)
    path.write_text(text)
    desk.preview.renew()
    assert said in desk.preview.shown.errors[0]
    assert desk.files() == before
    assert desk.preview.renew() is None
    if kept:
        path.write_text(kept)
    else:
        path.unlink()
    desk.preview.renew()
    assert desk.preview.shown.errors == ()
    assert desk.files() == before


@pytest.mark.parametrize("make", [os.mkfifo, Path.mkdir])
def test_what_is_no_file_is_told_though_nothing_else_has_changed(desk, make):
    desk.preview.renew()
    path = desk.definitions / "fleet/new.yaml"
    make(path)
    desk.preview.renew()
    (error,) = desk.preview.shown.errors
    assert "fleet/new.yaml:1:1: error: found a " in error
    path.rmdir() if path.is_dir() else path.unlink()
    desk.preview.renew()
    assert desk.preview.shown.errors == ()


def test_a_full_disk_is_told_and_tried_again(desk, monkeypatch):
    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    with monkeypatch.context() as patch:
        patch.setattr(previews, "made", full)
        desk.preview.renew()
        assert desk.preview.shown.errors == ("No space left on device; make room on the disk",)
    assert desk.preview.renew() is not None
    assert desk.preview.shown.errors == ()
    assert desk.preview.content("T-EST/index.html")


def test_a_fault_of_our_own_is_not_hidden(desk, monkeypatch):
    def broken(*_: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr(previews, "made", broken)
    with pytest.raises(ZeroDivisionError):
        desk.preview.renew()


def test_a_pdf_is_made_when_it_is_asked_for_and_kept_for_a_build(
    desk, cache, monkeypatch, tmp_path
):
    press = Blank()

    def blank(name: str, document: bytes, own: object) -> Printed:
        printed = press.submit(None, name, document, own, "").result()
        return Printed({**printed.files, "strip.pdf": b"a strip"}, 1)

    monkeypatch.setattr(previews, "printed", blank)
    desk.preview.renew()
    assert press.printed == []
    assert [path for path in desk.preview.shown.site if path.endswith(".pdf")] == []
    for _ in range(2):
        assert desk.preview.content("T-EST/strip.pdf") == b"a strip"
        assert press.printed == ["T-EST"]
    for nothing in ("T-EST/other.pdf", "glossary.pdf", "T-NONE/card.pdf"):
        assert desk.preview.content(nothing) is None
    with put_together():
        whole = desk.preview.content("fleet.pdf")
        assert press.printed[-1] == "T-WO"
        later = Blank()
        built = build(desk.definitions, tmp_path / "site", cache=cache, executor=later)
    assert (tmp_path / "site/fleet.pdf").read_bytes() == whole
    assert built.counts["sheets"] == 1
    assert later.printed == ["conversions.json"]
    desk.save(BEFORE, AFTER)
    desk.preview.renew()
    desk.preview.content("T-EST/card.pdf")
    assert press.printed[-1] == "T-EST"


def test_files_of_what_was_shown_do_not_heap_up(desk, tmp_path):
    files, counts = tmp_path / "work/files", []
    for n in range(5):
        desk.save("ias: 180", f"ias: 18{n}") if n == 0 else desk.save(
            f"ias: 18{n - 1}", f"ias: 18{n}"
        )
        desk.preview.renew()
        counts.append(len([*files.iterdir()]))
    assert counts[-1] == counts[-2]


# -- the command, in a process of its own ---------------------------------------------------------


def heedful() -> None:
    """Let signals end what is begun, also where a shell runs the tests in the background."""
    for one in (signal.SIGINT, signal.SIGHUP):
        signal.signal(one, signal.SIG_DFL)


class Running:
    """A preview that runs."""

    def __init__(self, definitions: Path, folder: Path, cache: Path) -> None:
        self.definitions, self.folder = definitions, folder
        folder.mkdir(exist_ok=True)
        self.errors = folder / "errors"
        environment = {**os.environ, "TMPDIR": str(folder), "XDG_CACHE_HOME": str(cache)}
        command = [sys.executable, "-m", "cardgen", "preview", str(definitions), "--port", "0"]
        with self.errors.open("w") as errors:
            self.process = subprocess.Popen(
                command,
                cwd=ROOT,
                env=environment,
                stdout=subprocess.PIPE,
                stderr=errors,
                text=True,
                preexec_fn=heedful,
            )
        assert self.process.stdout is not None
        said = re.search(r"http://127\.0\.0\.1:(\d+)/ until", self.process.stdout.readline())
        assert said is not None, self.errors.read_text()
        self.port = int(said[1])
        self.address = said[0].removesuffix(" until")
        assert "files made" in self.process.stdout.readline()

    def get(self, path: str, **headers: str) -> tuple[int, bytes, http.client.HTTPMessage]:
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=HOW_LONG)
        named = {name.replace("_", "-"): value for name, value in headers.items()}
        connection.request("GET", path, headers=named)
        with closing(connection), connection.getresponse() as answer:
            return answer.status, answer.read(), answer.headers

    def save(self, old: str, new: str) -> None:
        edit(self.definitions / PLAIN, old, new)

    def close(self) -> None:
        self.process.kill()
        self.process.communicate()

    def ends(self, number: int) -> tuple[int, float]:
        """Stop it, and return its exit code and how long that took."""
        began = time.monotonic()
        self.process.send_signal(number)
        return self.process.wait(HOW_LONG), time.monotonic() - began


@pytest.fixture(scope="module")
def running(tmp_path_factory: pytest.TempPathFactory, cache: Path) -> Iterator[Running]:
    """A preview whose definitions each test leaves as they were; it is asked to end at last."""
    folder = tmp_path_factory.mktemp("preview")
    one = Running(plain(folder / "aircraft"), folder / "tmp", cache)
    try:
        yield one
    finally:
        one.close()


def test_pages_are_sent_as_they_are_built_but_for_what_is_added(running, tmp_path):
    build(running.definitions, tmp_path / "site", pdfs=False)
    for path, data in tree(tmp_path / "site").items():
        status, sent, headers = running.get(f"/{path}")
        if path == "worker.js":  # one that keeps no page
            assert b"fetch" in data
            assert b"fetch" not in sent
            continue
        assert (status, headers["X-Content-Type-Options"]) == (200, "nosniff")
        assert headers["Cache-Control"] == "no-store"
        assert ADDED.sub(b"", sent) == data, path
        assert bool(ADDED.search(sent)) == path.endswith(".html")


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({}, 200),
        ({"Host": "localhost:{port}"}, 200),
        ({"Host": "evil.test:{port}"}, 403),  # whose name was made to lead here
        ({"Host": "127.0.0.1"}, 403),
        ({"Host": "127.0.0.1:{port}.evil.test"}, 403),
        ({"Sec_Fetch_Site": "same-origin", "Sec_Fetch_Mode": "no-cors"}, 200),
        ({"Sec_Fetch_Site": "cross-site", "Sec_Fetch_Mode": "no-cors"}, 403),
        ({"Sec_Fetch_Site": "same-site", "Sec_Fetch_Mode": "cors"}, 403),
        ({"Sec_Fetch_Site": "cross-site", "Sec_Fetch_Mode": "navigate"}, 200),  # a link
    ],
)
def test_another_site_that_a_browser_has_open_gets_nothing(running, headers, status):
    said = {name: value.replace("{port}", str(running.port)) for name, value in headers.items()}
    for path in ("/T-EST/case.js", "/.preview/wait.js?page=none&faults=none"):
        assert running.get(path, **said)[0] == status


@pytest.mark.parametrize(
    "path",
    [
        *("/../aircraft/school.yaml", "/%2e%2e/aircraft/school.yaml", "/..%2faircraft/school.yaml"),
        *("/T-EST/../../aircraft/school.yaml", "/T-EST/..", "/school.yaml", "//etc/passwd"),
        *("/.preview/../../preview.js", "/.preview/preview.html", "/.preview/", "/T-EST%00/"),
        "/" + "a/" * 3000,
    ],
)
def test_no_path_leads_out_of_the_site(running, path):
    status, sent, _ = running.get(path)
    assert status == 404
    assert b"Test school" not in sent
    assert b"root:" not in sent


@pytest.mark.parametrize("asked", ["http://[/", "http://]/", "*", "http://127.0.0.1:99999/"])
def test_what_is_no_address_is_answered_and_leaves_no_traceback(running, asked):
    before = running.errors.read_text()
    with socket.create_connection(("127.0.0.1", running.port), HOW_LONG) as connection:
        connection.sendall(
            f"GET {asked} HTTP/1.0\r\nHost: 127.0.0.1:{running.port}\r\n\r\n".encode()
        )
        assert re.match(rb"HTTP/1\.\d (200|400|404) ", connection.recv(100))
    assert running.errors.read_text() == before


def test_a_folder_leads_to_its_page_and_nowhere_else(running):
    for path in ("/T-EST", "//T-EST"):
        status, _, headers = running.get(path)
        assert (status, headers["Location"]) == (302, "/T-EST/")
    assert running.get("/T-EST/")[0] == 200


def test_only_this_machine_is_served(running):
    """By any address of this machine but the loopback's there is nobody."""
    try:
        with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asked:
            asked.connect(("192.0.2.1", 9))  # nothing is sent: what it would be sent from is known
            own = asked.getsockname()[0]
    except OSError:
        pytest.skip("the machine has no other address")
    with socket.socket() as other:
        other.settimeout(HOW_LONG)
        assert other.connect_ex(("127.0.0.1", running.port)) == 0
    with socket.socket() as other:
        other.settimeout(HOW_LONG)
        assert other.connect_ex((own, running.port)) == errno.ECONNREFUSED


def test_what_is_added_has_no_words_of_its_own():
    """In the made-up language of the pages' tests each word is marked, but those that are given."""
    given = {"page": "page", "mark": "", "faults": "", "errors": ("error",)}
    said = Said(Templates(language=MADE_UP).render("preview.html", **given)).said
    assert any("⟦" in one for one in said)
    assert {word for one in said for word in unmarked(one)} == {"page", "error"}


# -- in a browser ---------------------------------------------------------------------------------


@pytest.fixture
def told(context: BrowserContext) -> Iterator[tuple[Page, list[str]]]:
    """A page, and what goes wrong in it."""
    page, said = context.new_page(), []
    page.set_default_timeout(1000 * HOW_LONG)
    expect.set_options(timeout=1000 * HOW_LONG)
    page.on("console", lambda message: said.append(f"{message.text} {message.location['url']}"))
    page.on("pageerror", lambda error: said.append(str(error)))
    yield page, said
    expect.set_options(timeout=None)


def vno(page: Page, ias: int):
    return page.locator("#speeds tr", has_text="VNO").get_by_text(str(ias), exact=True).first


def test_a_page_shows_a_change_an_error_and_that_it_is_mended(running, told):
    page, said = told
    page.goto(f"{running.address}T-EST/#speeds")
    expect(vno(page, 140)).to_be_attached()
    page.evaluate("window.scrollTo(0, 300); window.kept = 1")
    running.save(BEFORE, AFTER)
    expect(vno(page, 143)).to_be_attached()
    assert page.evaluate("scrollY") == 300
    assert page.evaluate("window.kept") is None  # it was loaded anew
    assert page.locator("#preview section").count() == 0

    page.evaluate("window.kept = 1")
    running.save(AFTER, SLIP)
    box = page.locator("#preview section")
    expect(box).to_be_visible()
    expect(box.locator("pre")).to_have_count(1)
    error = box.locator("pre").inner_text()
    assert re.search(r"types/plain\.yaml:\d+:\d+: error: ias: found the words '14O'", error)
    expect(vno(page, 143)).to_be_attached()  # behind it is what was shown before
    assert page.evaluate("window.kept") == 1

    running.save(SLIP, BEFORE)
    expect(vno(page, 140)).to_be_attached()
    expect(box).to_have_count(0)
    assert said == []


def test_a_page_that_an_error_bars_says_so_and_comes_when_it_is_mended(running, told):
    page, _ = told
    running.save(BEFORE, SLIP)
    page.goto(f"{running.address}T-WO/")
    box = page.locator("#preview section")
    expect(box).to_be_visible()
    expect(vno(page, 140)).to_be_attached()  # another aircraft's page, with the error over it
    page.goto(f"{running.address}T-EST/")
    expect(box.locator("pre")).to_have_count(1)
    expect(page.locator("#speeds")).to_have_count(0)
    assert Axe().run(page, options=RULES).response["violations"] == []
    running.save(SLIP, BEFORE)
    expect(vno(page, 140)).to_be_attached()
    expect(box).to_have_count(0)


# -- how it ends, and what it needs ---------------------------------------------------------------


@pytest.mark.parametrize(
    ("number", "code"),
    [(signal.SIGTERM, 143), pytest.param(signal.SIGINT, 130, marks=pytest.mark.long)],
)
def test_stopped_it_ends_in_a_second_and_leaves_nothing(running, cache, tmp_path, number, code):
    one = Running(running.definitions, tmp_path / "tmp", cache)
    there = {path.name.split("-")[0] for path in one.folder.iterdir()}
    assert "cardgen" in there
    with closing(http.client.HTTPConnection("127.0.0.1", one.port)) as waiting:
        waiting.request("GET", "/.preview/wait.js?page=index.html")  # a page that is open
        found, took = one.ends(number)
    assert found == code
    assert took < (1 if is_long() else 5)
    assert one.errors.read_text() == f"cardgen: stopped by {signal.Signals(number).name}\n"
    assert [path.name for path in one.folder.iterdir() if "cardgen-" in path.name] == []
    one.close()


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGHUP])
def test_stopped_while_a_pdf_is_made_it_leaves_nothing_too(running, tmp_path, number):
    for seconds in (0.02, 0.2, 0.6, 1.5) if is_long() else (0.6,):
        one = Running(running.definitions, tmp_path / f"{seconds}", tmp_path / f"{seconds}cache")
        with closing(one), closing(http.client.HTTPConnection("127.0.0.1", one.port)) as waiting:
            waiting.request("GET", "/T-EST/card.pdf")
            time.sleep(seconds)
            found, _ = one.ends(number)
        assert found == 128 + number
        assert one.errors.read_text() == f"cardgen: stopped by {number.name}\n"
        assert list(one.folder.glob("*cardgen-*")) + list(one.folder.glob("weasyprint-*")) == []


def test_the_next_preview_removes_what_one_left_that_was_killed_and_nothing_else(
    running, cache, tmp_path
):
    folder = tmp_path / "tmp"
    one = Running(running.definitions, folder, cache)
    one.ends(signal.SIGKILL)
    (left,) = folder.glob("cardgen-preview-*")
    other = Running(running.definitions, folder, cache)
    (folder / "cardgen-preview-mine").mkdir()
    (folder / "cardgen-preview-mine" / "notes").write_text("mine")
    third = Running(running.definitions, folder, cache)
    found = {path.name for path in folder.glob("cardgen-preview-*")}
    assert left.name not in found
    assert len(found) == 3  # those of two previews that live, and somebody's own
    assert third.get("/")[0] == other.get("/")[0] == 200
    for each in (one, other, third):
        each.close()


def watched(folder: Path) -> set[Path]:
    return {Path(one) for one in _rooms(folder)}


def test_only_folders_that_a_site_is_made_of_are_watched(tmp_path):
    """No link out of them is followed, which may lead to the whole disk."""
    folder = plain(tmp_path / "aircraft")
    for name in ("docs/deep", "static/deep/deeper", "templates", ".git/objects"):
        (folder / name).mkdir(parents=True)
    for name, target in {"all": "/", "static/all": "/", "signed": "/etc", "types/up": ".."}.items():
        (folder / name).symlink_to(target)
    found = watched(folder)
    rooms = ("types", "fleet", "static", "static/deep", "static/deep/deeper", "templates")
    links = {folder / "static/all", folder / "types/up"}  # themselves, and nothing behind them
    assert found - links == {folder, *(folder / one for one in rooms)}
    assert {one for one in found if one.is_relative_to("/etc")} == set()


@pytest.mark.parametrize("error", [OSError(28, "no space for watches"), RuntimeError("too many")])
def test_where_the_system_tells_no_changes_it_looks_itself(tmp_path, capsys, monkeypatch, error):
    def failing(*_: object, **__: object) -> None:
        raise error

    monkeypatch.setattr("watchfiles.watch", failing)
    monkeypatch.setattr("cardgen.commands.preview._AGAIN", 0.3)
    with _watched(plain(tmp_path / "aircraft")) as changes:
        began = time.monotonic()
        _wait(changes)  # the first, with which it begins
        _wait(changes)
        assert 0.2 < time.monotonic() - began < HOW_LONG
    said = capsys.readouterr().err
    assert said == f"cardgen: the system tells no changes ({error}); they show after 0.3 seconds\n"


def test_folders_that_are_made_later_are_watched_too(tmp_path):
    folder = plain(tmp_path / "aircraft")
    with _watched(folder) as changes:
        changes.get(timeout=HOW_LONG)
        for name in ("static", "static/new", "static/new/newer"):
            time.sleep(0.5)
            while not changes.empty():
                changes.get()
            (folder / name).mkdir()
            changes.get(timeout=HOW_LONG)
        time.sleep(0.5)
        while not changes.empty():
            changes.get()
        (folder / "static/new/newer/x.txt").write_text("x")
        changes.get(timeout=HOW_LONG)


def test_what_the_shelf_lost_is_made_again(desk):
    desk.preview.renew()
    for path in (desk.preview._files).iterdir():
        path.unlink()
    desk.save(BEFORE, AFTER)
    desk.preview.renew()
    assert [path for path, data in desk.files().items() if data is None] == []


def test_many_may_ask_at_once(running):
    """As pages of several tabs do after each change."""
    began = time.monotonic()
    sockets = [socket.create_connection(("127.0.0.1", running.port), HOW_LONG) for _ in range(60)]
    assert time.monotonic() - began < 0.9  # a queue that is full is asked again after a second
    for one in sockets:
        one.close()


def test_a_port_that_is_taken_is_named(tmp_path, capsys, monkeypatch):
    monkeypatch.setattr("cardgen.commands.preview._watched", nullcontext)
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        folder = plain(tmp_path / "aircraft")
        assert main(["preview", str(folder), "--port", str(port)]) == FAILED
    said = f"cardgen: port {port} is taken; name another by --port, or 0 for any that is free\n"
    assert capsys.readouterr().err == said


def test_what_it_needs_and_is_not_installed_is_named(tmp_path, capsys, monkeypatch):
    monkeypatch.setitem(sys.modules, "watchfiles", None)
    assert main(["preview", str(tmp_path)]) == FAILED
    said = "cardgen: preview needs watchfiles: pip install 'cardgen[preview]'\n"
    assert capsys.readouterr().err == said


def test_of_no_folder_there_is_no_preview(tmp_path, capsys):
    assert main(["preview", str(tmp_path / "none")]) == MISUSED
    said = f"cardgen: {tmp_path / 'none'} is no folder of definitions\n"
    assert capsys.readouterr().err == said


@pytest.mark.parametrize("port", ["65536", "-1", "http"])
def test_a_port_is_a_number(port, capsys):
    with pytest.raises(SystemExit) as caught:
        main(["preview", f"--port={port}"])
    assert caught.value.code == MISUSED
    assert "expected a whole number from 0 to 65535" in capsys.readouterr().err
