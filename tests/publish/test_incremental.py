"""Builds that make only what is not there: what they make, and that it is what a fresh one makes.

Sheets are blank here (`built.py`), since what is in them is held elsewhere; that a build takes
and keeps them rightly does not depend on it.
"""

import json
import os
import random
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest

from cardgen.definition.places import DefinitionError
from cardgen.publish import making
from cardgen.publish.build import build
from cardgen.publish.place import PlaceError
from cardgen.publish.store import Store
from tests.conftest import DEMO, ROOT, keep, printing
from tests.publish.built import Site, edit, one_shared_table, part_keys, times, tree
from tests.sampling import is_long

LISTS = {"index.html", "cardgen.json", "cardgen-pdf.json", "fleet.pdf"}


def change(site: Site, to: str = "60") -> None:
    edit(site.definitions / "types/dunlin-160.yaml", "VREF: {ias: 59", f"VREF: {{ias: {to}")


def test_with_nothing_to_do_nothing_is_made(cold):
    site = cold
    first = site.build()
    before = times(site.out)
    assert first.reused == 0
    assert set(first.made) == set(before)
    again = site.build()
    assert (again.made, again.reused, again.counts) == ((), len(before), {})
    assert times(site.out) == before
    assert site.press.printed == []


def test_a_changed_figure_makes_its_aircraft_and_what_lists_them(site):
    """One figure of a type of three airframes, beside another type."""
    shutil.copy(DEMO / "fleet/zz-duc.yaml", site.definitions / "fleet")
    site.build()
    before = times(site.out)
    change(site)
    built = site.build()
    assert built.counts["documents"] == built.counts["sheets"] == built.counts["layouts"] == 3
    assert built.counts["pages"] == 7  # two of each of the three aircraft, and the fleet's
    three = ["ZZ-DUA", "ZZ-DUB", "ZZ-DUC"]
    assert sorted(site.press.printed) == three
    later = {name for name, time in times(site.out).items() if time != before[name]}
    assert {name.split("/")[0] for name in later} == {*three, *LISTS}
    assert later < set(built.made)  # a table without the figure is as it was
    assert tree(site.out) == site.fresh()


def test_a_figure_changed_back_is_had_from_the_cache(site):
    site.build()
    good = tree(site.out)
    change(site)
    site.build()
    edit(site.definitions / "types/dunlin-160.yaml", "VREF: {ias: 60", "VREF: {ias: 59")
    assert site.build().made == ()
    assert tree(site.out) == good


def test_a_figure_that_changes_no_document_makes_no_page(site):
    site.build()
    path = site.definitions / "types/dunlin-160.yaml"
    path.write_text(path.read_text() + "# Typed from the copy in the office.\n")
    built = site.build()
    assert built.counts == {"documents": 2}
    assert site.press.printed == []


@pytest.mark.parametrize("spoil", ["edit", "same size", "delete", "link", "folder"])
def test_an_output_edited_or_deleted_by_hand_comes_back(site, spoil):
    site.build()
    before = tree(site.out)
    path = site.out / "ZZ-WTR/index.html"
    text = path.read_bytes()
    if spoil == "edit":
        path.write_bytes(text + b"!")
    elif spoil == "same size":
        path.write_bytes(text.swapcase())
    elif spoil == "folder":
        shutil.rmtree(path.parent)
    else:
        path.unlink()
        if spoil == "link":
            path.symlink_to(site.out / "index.html")
    site.build()
    assert tree(site.out) == before
    assert not path.is_symlink()
    assert site.press.printed == []


def test_a_file_as_it_was_with_another_time_is_the_same(site):
    """As after a checkout: it is read, and nothing is made."""
    site.build()
    for path in site.out.rglob("*"):
        os.utime(path, (1, 1))
    assert site.build().counts == {}


def test_fresh_makes_all(cold):
    site = cold
    first = site.build()
    again = site.build(fresh=True)
    assert set(again.made) == set(first.made)
    assert again.counts == first.counts
    assert sorted(site.press.printed) == ["ZZ-DUA", "ZZ-DUB", "ZZ-WTR", "conversions.json"]


def test_pages_of_aircraft_that_left_go(site):
    site.build()
    (site.definitions / "fleet/zz-dub.yaml").unlink()
    built = site.build()
    assert set(built.made) == {*LISTS, "next/index.html"}  # where any two are chosen
    assert not (site.out / "ZZ-DUB").exists()
    assert tree(site.out) == site.fresh()


def test_without_pdfs_there_are_none_and_later_there_are(cold):
    site = cold
    site.build(pdfs=False)
    assert not list(site.out.rglob("*.pdf"))
    built = site.build()
    assert {one for one in built.made if not one.endswith(".pdf")} == {"cardgen-pdf.json"}
    assert tree(site.out) == site.fresh()


def test_what_is_edited_while_it_is_read_is_not_taken_for_what_it_was(site, monkeypatch):
    site.build()
    before = tree(site.out)
    change(site, "61")
    read, edits = making.read_sound, [("61", "62")]

    def edited_meanwhile(folder):
        fleet = read(folder)
        if edits:
            old, new = edits.pop()
            edit(folder / "types/dunlin-160.yaml", f"VREF: {{ias: {old}", f"VREF: {{ias: {new}")
        return fleet

    monkeypatch.setattr(making, "read_sound", edited_meanwhile)
    site.build()
    assert copied(site) == "62"
    assert site.build().made == ()
    for value in ("61", "59"):
        path = site.definitions / "types/dunlin-160.yaml"
        path.write_text(re.sub(r"VREF: {ias: \d+", f"VREF: {{ias: {value}", path.read_text()))
        site.build()
        assert copied(site) == value
    assert tree(site.out) == before


def copied(site: Site) -> str:
    text = (site.out / "ZZ-DUA/card.json").read_text()
    found = re.search(r'"value": (\d+)\.0, "unit": "kt"}, "source": "given/speeds/VREF/', text)
    assert found is not None
    return found[1]


# -- the cache ----------------------------------------------------------------------------------


def files_of(cache: Path) -> list[Path]:
    return sorted(path for path in cache.rglob("*") if path.is_file())


def test_the_cache_may_be_deleted(site):
    site.build()
    before = times(site.out)
    shutil.rmtree(site.cache)
    site.build()
    assert times(site.out) == before  # made anew, found to be the same
    assert site.build().made == ()


def test_a_cache_may_be_carried_to_another_machine(site):
    site.build()
    site.cache = site.cache.rename(site.cache.with_name("elsewhere"))
    shutil.rmtree(site.out)
    built = site.build()
    assert (built.made, built.counts) == ((), {})
    assert tree(site.out) == site.fresh()


@pytest.mark.parametrize(
    ("spoil", "share"), [("cut", 1.0), ("empty", 0.1), ("other", 0.1), ("gone", 0.1)]
)
def test_a_spoiled_cache_spoils_no_site(site, spoil, share):
    site.build()
    good = tree(site.out)
    chance = random.Random(f"{spoil} {share}")
    for path in files_of(site.cache):
        if chance.random() < share:
            data = path.read_bytes()
            if spoil == "gone":
                path.unlink()
            else:
                path.write_bytes({"cut": data[: len(data) // 2], "empty": b""}.get(spoil, b"x\ny"))
    shutil.rmtree(site.out)
    site.build()
    assert tree(site.out) == good
    shutil.rmtree(site.out)
    assert site.build().made == ()  # what was spoiled is whole again
    assert tree(site.out) == good


def test_a_build_that_is_killed_leaves_a_cache_that_holds(cold, monkeypatch):
    site = cold
    real, left = Path.open, 40

    def half(path, mode="r", *others, **more):
        nonlocal left
        file = real(path, mode, *others, **more)
        left -= mode == "xb" and path.is_relative_to(site.cache)
        if mode == "xb" and left == 0:
            with file:
                file.write(b"half")
            raise KeyboardInterrupt
        return file

    monkeypatch.setattr(Path, "open", half)
    with pytest.raises(KeyboardInterrupt):
        site.build()
    assert not site.out.exists()
    assert left == 0
    assert sorted(one.name for one in site.out.parent.iterdir()) == ["aircraft", "cache"]
    site.build()
    assert tree(site.out) == site.fresh()


def test_the_cache_bounds_itself_and_what_was_used_longest_ago_goes(tmp_path, monkeypatch):
    monkeypatch.setattr("cardgen.publish.store.MOST", 10_000)
    store = Store(tmp_path)
    for n in range(30):
        store.keep(f"{n:064d}", {"file": bytes([n]) * 1000})
    for n, path in enumerate(sorted((tmp_path / "1/made").rglob("*"))):
        os.utime(path, (n, n))
    store = Store(tmp_path)
    entry = store.entry(f"{3:064d}")
    assert entry is not None
    store.bound(entry.files.values())
    assert sum(path.stat().st_size for path in files_of(tmp_path)) <= 10_000
    assert store.entry(f"{3:064d}") == entry
    assert store.content(entry.files["file"]) == bytes([3]) * 1000


def test_a_cache_never_is_too_small_for_a_site(site, monkeypatch):
    monkeypatch.setattr("cardgen.publish.store.MOST", 1)
    site.build()
    site.build(pdfs=False)
    assert site.build().made == ()


def test_without_a_cache_nothing_is_left_but_the_site(cold):
    cold.build(cache=None)
    assert sorted(one.name for one in cold.out.parent.iterdir()) == ["aircraft", "site"]


@pytest.mark.parametrize(
    "named", ["holiday.mov", "files/holiday.mov", "files/ab/c.mov", "made/x", "sites/y/z"]
)
def test_what_others_keep_in_the_folder_of_a_cache_stays(tmp_path, monkeypatch, named):
    """However old and large: a cache's own files are known by where they stand and their names."""
    monkeypatch.setattr("cardgen.publish.store.MOST", 1)
    others = tmp_path / "1" / named
    others.parent.mkdir(parents=True)
    others.write_bytes(bytes(5000))
    os.utime(others, (1, 1))
    store = Store(tmp_path)
    store.keep(f"{1:064d}", {"file": bytes(1000)})
    Store(tmp_path).bound([])
    assert files_of(tmp_path) == [others]


@pytest.mark.parametrize("made", ["a folder in each place", "no folder", "a file for records"])
def test_a_cache_that_cannot_be_written_to_is_done_without(cold, made):
    site = cold
    whole = site.fresh()
    if made == "no folder":
        site.cache.write_text("a file")
    elif made == "a file for records":
        (site.cache / "1").mkdir(parents=True)
        (site.cache / "1/sites").write_text("a file")
    else:
        site.build()
        for path in files_of(site.cache):
            path.unlink()
            (path / "x").mkdir(parents=True)
        shutil.rmtree(site.out)
    site.build()
    assert tree(site.out) == whole


def test_who_has_no_home_has_no_cache_but_one_that_is_named(one_aircraft, tmp_path):
    environment = {name: one for name, one in os.environ.items() if "HOME" not in name}
    environment |= {"PYTHONPATH": str(ROOT)}
    script = (
        "import os, pwd, sys\n"
        "def nobody(_): raise KeyError\n"
        "pwd.getpwuid = nobody\n"
        "from cardgen.cli import main\n"
        "sys.exit(main(sys.argv[1:]))\n"
    )
    for more in (
        ["build", "--help"],
        ["check"],
        ["build", "--no-pdf", "--out", str(tmp_path / "a")],
    ):
        given = [more[0], *([] if "--help" in more else [str(one_aircraft)]), *more[1:]]
        done = subprocess.run(
            [sys.executable, "-c", script, *given],
            env=environment,
            cwd=tmp_path,
            capture_output=True,
            text=True,
            check=False,
        )
        assert (done.returncode, given) == (0, given), done.stderr
        assert "Traceback" not in done.stderr


# -- some aircraft ------------------------------------------------------------------------------


def test_only_makes_some_aircraft_in_a_site_that_is_there(site):
    site.build()
    before = tree(site.out)
    change(site)
    built = site.build(only=["zz-dua"])
    changed = {name for name, data in tree(site.out).items() if data != before[name]}
    assert {name.split("/")[0] for name in changed} == {"ZZ-DUA", *LISTS}
    assert built.counts["documents"] == 1
    whole = site.fresh()
    assert {name for name, data in tree(site.out).items() if data != whole[name]} == {
        name for name in whole if name.startswith("ZZ-DUB/") and whole[name] != before[name]
    } | LISTS
    site.build()  # and all the rest, though all inputs are as they were for the one before
    assert tree(site.out) == whole


def test_only_asks_nothing_of_other_aircraft(site):
    site.build()
    edit(site.definitions / "types/wheatear-15.yaml", "name:", "nmae:")
    change(site)
    assert site.build(only=["ZZ-DUA"]).counts["documents"] == 1
    with pytest.raises(DefinitionError, match="nmae"):
        site.build(only=["ZZ-WTR"])


def test_only_says_what_it_cannot_do(site):
    with pytest.raises(PlaceError, match="build all of it first"):
        site.build(only=["ZZ-DUA"])
    site.build()
    with pytest.raises(PlaceError, match=r"no aircraft ZZ-DUX, .* did you mean ZZ-DU"):
        site.build(only=["ZZ-DUX"])


# -- keeping going ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("file", "old", "new", "left"),
    [
        ("fleet/zz-dub.yaml", "format: 2", "fromat: 2", ["ZZ-DUB"]),
        ("fleet/zz-dub.yaml", "registration: ZZ-DUB", "registration: ZZ-WTR", ["ZZ-WTR"]),
        ("types/dunlin-160.yaml", "VNO: {ias: 119", "VNO: {ias: 15l", ["ZZ-DUA", "ZZ-DUB"]),
        ("types/dunlin-160.yaml", "VNO: {ias: 119", "VNO: {ias: 152", ["ZZ-DUA", "ZZ-DUB"]),
    ],
)
def test_faulty_aircraft_are_left_out_and_the_index_says_so(site, file, old, new, left):
    site.build()
    good = tree(site.out)
    edit(site.definitions / file, old, new)
    with pytest.raises(DefinitionError):
        site.build()
    built = site.build(keep_going=True)
    assert built.faults
    index = (site.out / "index.html").read_text()
    rows = re.findall(r'<th scope="row" class="words">(?:<a [^>]*>)?([\w-]+)', index)
    assert rows == sorted(rows)
    for name in left:
        assert not (site.out / name).exists()
        assert re.search(rf">{name}</th><td [^>]*>Left out: its definition has errors.<", index)
    again = site.build(keep_going=True)
    assert (again.made, again.faults) == ((), built.faults)  # nothing to make, and still faulty
    edit(site.definitions / file, new, old)
    site.build()
    assert tree(site.out) == good


def nothing(path: Path) -> None:
    path.symlink_to("nowhere")


def itself(path: Path) -> None:
    path.symlink_to(path.name)


ODD = {"a link to nothing": nothing, "a link to itself": itself, "a folder": Path.mkdir}
ODD["a pipe"] = os.mkfifo


@pytest.mark.parametrize("make", ODD.values(), ids=ODD)
@pytest.mark.parametrize("name", ["fleet/new.yaml", "types/new.yaml"])
def test_what_a_fresh_build_refuses_a_second_build_does(site, make, name):
    """Though nothing that could be read has changed."""
    site.build()
    before = tree(site.out)
    path = site.definitions / name
    make(path)
    with pytest.raises(DefinitionError, match=rf"{name}:1:1: "):
        site.build()
    assert tree(site.out) == before
    path.rmdir() if path.is_dir() else path.unlink()
    assert site.build().made == ()


def test_a_school_that_cannot_be_read_stops_all(site):
    site.build()
    before = tree(site.out)
    path = site.definitions / "school.yaml"
    path.write_text(path.read_text() + "nmae: Another\n")
    with pytest.raises(DefinitionError):
        site.build(keep_going=True)
    assert tree(site.out) == before


# -- any edits, in any order --------------------------------------------------------------------

FIGURE = re.compile(r"(?<=[\s\[{])\d+(?:\.\d+)?(?=[,\]}])")


def edited(text: str, chance: random.Random) -> str:
    """Change one figure of a definition by a last digit, or a word of a school."""
    places = list(FIGURE.finditer(text))
    at = chance.choice(places)
    digits = at[0]
    other = chance.choice([one for one in "123456789" if one != digits[-1]])
    return f"{text[: at.start()]}{digits[:-1]}{other}{text[at.end() :]}"


def step(site: Site, chance: random.Random, known: list[dict[str, bytes]]) -> None:
    """Change a definition, a template, a file of the site or of the cache; or go back."""
    what = chance.choice(["figure"] * 5 + ["back", "tokens", "site", "cache", "picture"])
    own = site.definitions / "templates"
    if what == "figure":
        path = chance.choice(sorted(site.definitions.glob("*/zz-*.yaml")))
        kinds = sorted(site.definitions.glob("types/*.yaml"))
        path = chance.choice([path, *kinds, *kinds])
        if FIGURE.search(path.read_text()):
            path.write_text(edited(path.read_text(), chance))
    elif what == "back" and known:
        restore(site, chance.choice(known))
    elif what == "tokens":
        own.mkdir(exist_ok=True)
        tokens = (ROOT / "templates/tokens.css").read_text()
        (own / "tokens.css").write_text(tokens + f"/* {chance.randrange(3)} */\n")
    elif what == "picture":
        own.mkdir(exist_ok=True)
        picture = f'<svg xmlns="http://www.w3.org/2000/svg" width="{chance.randrange(1, 4)}"/>'
        (own / "picture.svg").write_text(picture)
    elif what in ("site", "cache"):
        folder = site.out if what == "site" else site.cache
        path = chance.choice(files_of(folder))
        path.write_bytes(path.read_bytes()[:-1] + b"?")


def restore(site: Site, files: dict[str, bytes]) -> None:
    shutil.rmtree(site.definitions)
    for name, data in files.items():
        path = site.definitions / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)


def walk(site: Site, steps: int) -> Iterator[int]:
    """Yield after each step of a walk; one that forbids the site leaves the one before."""
    chance = random.Random(12)
    site.build()
    known = [tree(site.definitions)]
    for n in range(steps):
        step(site, chance, known)
        before = tree(site.out)
        try:
            site.build()
        except DefinitionError:
            assert tree(site.out) == before
            restore(site, known[-1])
            site.build()
        known.append(tree(site.definitions))
        yield n


@pytest.mark.sampled
def test_any_walk_of_edits_comes_to_what_a_fresh_build_makes(cold, record_property):
    """On one airframe of each of two kinds."""
    keep(cold.definitions, "zz-dua", "zz-wtr")
    steps, apart = (100, 1) if is_long() else (12, 4)
    record_property("sampled", ("steps of a walk of edits", steps, 100))
    for n in walk(cold, steps):
        if n % apart == apart - 1:
            assert tree(cold.out) == cold.fresh(), n


@pytest.mark.longest
@pytest.mark.sampled
def test_pdfs_after_edits_are_those_that_a_fresh_build_makes(
    definitions, tmp_path, record_property
):
    """PDFs as they are, and the fleet's; in a long run all, at ten steps, and here some at one."""
    keep(definitions, "zz-wtr", *(["zz-dua"] if is_long() else []))
    site, chance = Site(tmp_path), random.Random(7)
    steps = 10 if is_long() else 1
    record_property("sampled", ("steps with PDFs", steps, 10))
    with ExitStack() as stack:
        if not is_long():
            stack.enter_context(one_shared_table())
            stack.enter_context(printing("card.pdf", sheets=["sheet-speeds"]))
        site.build(executor=None)
        for _ in range(steps):
            before = tree(site.out)
            while tree(site.out) == before:
                known = tree(definitions)
                path = chance.choice(sorted(definitions.glob("types/*.yaml")))
                path.write_text(edited(path.read_text(), chance))
                try:
                    site.build(executor=None)
                except DefinitionError:
                    restore(site, known)
            whole = tmp_path / "whole"
            build(definitions, whole)
            assert tree(site.out) == tree(whole)
            shutil.rmtree(whole)


# -- the quick way ------------------------------------------------------------------------------

QUICK = """
import sys
from pathlib import Path
from cardgen.publish.build import build
built = build(Path(sys.argv[1]), Path(sys.argv[2]), cache=Path(sys.argv[3]))
assert built.made == ()
print(*sorted(sys.modules))
"""


def test_with_nothing_to_do_nothing_but_the_standard_library_is_imported(site):
    site.build()
    command = [sys.executable, "-c", QUICK, site.definitions, site.out, site.cache]
    said = subprocess.run(command, capture_output=True, text=True, cwd=ROOT, check=True).stdout
    loaded = {name.split(".")[0] for name in said.split()}
    assert "cardgen" in loaded
    ours = {"cardgen", "__main__", "sitecustomize"}
    assert {one for one in loaded if not one.startswith("_")} - ours <= sys.stdlib_module_names
    assert not {"numpy", "weasyprint", "pikepdf", "pydantic", "yaml"} & loaded


def test_the_record_of_a_site_has_every_file_with_its_hash(site):
    site.build()
    assert part_keys(site.cache, site.out).keys() >= {"ZZ-DUA/card.json", "ZZ-DUA/sheets", "index"}
    assert json.loads((site.out / "cardgen.json").read_text())["figures"].keys() == {
        "ZZ-DUA",
        "ZZ-DUB",
        "ZZ-WTR",
    }
