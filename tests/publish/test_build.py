import filecmp
import hashlib
import json
import locale
import re
import time
from pathlib import Path

import pydantic
import pytest

from cardgen.definition.places import DefinitionError
from cardgen.layout.formats import FORMATS
from cardgen.publish.build import build
from cardgen.publish.manifest import MARK, PDF_MARK
from cardgen.publish.place import PlaceError, placing
from cardgen.words.english import ENGLISH
from tests.conftest import DEMO, ROOT, keep, printing
from tests.publish.built import one_shared_table

PICTURE = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><path d="M0 0h9v9z"/></svg>'


def quiet(done: int, total: int, what: str) -> None:
    pass


def files(folder: Path) -> set[str]:
    return {
        path.relative_to(folder).as_posix()
        for path in folder.rglob("*")
        if path.is_file() and path.suffix != ".pdf"
    }


def test_the_committed_site_is_what_the_definitions_give(pages):
    """Rebuild with `cardgen build` and commit site/ where this fails."""
    committed = files(ROOT / "site") - {PDF_MARK}  # git leaves it out
    assert files(pages) == committed
    _, different, missing = filecmp.cmpfiles(pages, ROOT / "site", sorted(committed), shallow=False)
    if different and PYDANTIC < (2, 12):  # which describes less
        schemas = [name for name in different if name.startswith("schemas/")]
        for name in schemas:
            assert bare((pages / name).read_text()) == bare((ROOT / "site" / name).read_text())
        different = [name for name in different if name not in (*schemas, MARK)]
    assert (different, missing) == ([], [])


PYDANTIC = tuple(map(int, pydantic.VERSION.split(".")[:2]))


def bare(schema: str) -> object:
    """A schema without its descriptions."""
    return json.loads(
        schema,
        object_hook=lambda one: {
            key: value
            for key, value in one.items()
            if key != "description" or not isinstance(value, str)
        },
    )


def test_one_changed_figure_changes_few_lines(definitions, tmp_path):
    keep(definitions, "zz-tua")
    build(definitions, tmp_path / "before", quiet, pdfs=False)
    path = definitions / "types/turnstone-310.yaml"
    path.write_text(
        path.read_text().replace("2000, 2500, 24,   0, 76, 155,", "2000, 2500, 24,   0, 76, 154,")
    )
    build(definitions, tmp_path / "after", quiet, pdfs=False)

    def lines(name: str) -> list[str]:
        return (tmp_path / name / "ZZ-TUA/cruise.csv").read_text().splitlines()

    changed = [
        pair for pair in zip(lines("before"), lines("after"), strict=True) if len(set(pair)) == 2
    ]
    assert len(changed) == 1


def test_a_bad_definition_touches_nothing(one_aircraft, tmp_path):
    out = tmp_path / "site"
    build(one_aircraft, out, quiet, pdfs=False)
    before = {name: (out / name).read_bytes() for name in files(out)}
    path = one_aircraft / "types/dunlin-160.yaml"
    path.write_text(path.read_text().replace("VNE:", "VNEE:"))
    with pytest.raises(DefinitionError):
        build(one_aircraft, out, quiet, pdfs=False)
    assert {name: (out / name).read_bytes() for name in files(out)} == before
    assert sorted(path.name for path in tmp_path.iterdir()) == ["aircraft", "site"]


def test_a_build_that_fails_half_way_leaves_the_old_site(one_aircraft, tmp_path):
    out = tmp_path / "site"
    build(one_aircraft, out, quiet, pdfs=False)

    def fail() -> None:
        with placing(out) as place:
            (place.new / "index.html").write_text("half")
            raise RuntimeError

    with pytest.raises(RuntimeError):
        fail()
    assert "ZZ-DUA" in (out / "index.html").read_text()
    assert sorted(path.name for path in tmp_path.iterdir()) == ["aircraft", "site"]


def test_a_folder_of_somebody_elses_is_not_replaced(tmp_path):
    (tmp_path / "thesis.txt").write_text("years of work")
    with pytest.raises(PlaceError, match="not a site that cardgen built"):
        build(DEMO, tmp_path, quiet, pdfs=False)
    assert (tmp_path / "thesis.txt").read_text() == "years of work"


def test_a_school_restyles_with_one_file_of_tokens_its_name_and_its_picture(one_aircraft, tmp_path):
    own = one_aircraft / "templates"
    own.mkdir()
    (own / "tokens.css").write_text(":root { --ink: navy }")
    (own / "picture.svg").write_text(PICTURE)
    school = one_aircraft / "school.yaml"
    school.write_text(re.sub("^name: .*", "name: Other School", school.read_text(), flags=re.M))
    site = tmp_path / "site"
    build(one_aircraft, site, quiet, pdfs=False)
    assert (site / "assets/tokens.css").read_text() == ":root { --ink: navy }"
    assert (site / "assets/picture.svg").read_text() == PICTURE
    for name, root in (("index.html", ""), ("ZZ-DUA/index.html", "../")):
        page = (site / name).read_text()
        assert f'<img src="{root}assets/picture.svg" alt="">' in page
        assert "Other School</a>" in page


def two_plain(make, folder: Path) -> None:
    """Write the definitions of two plain aircraft, T-EST and T-TWO."""
    make()
    first = folder / "fleet/t-est.yaml"
    first.with_name("t-two.yaml").write_text(first.read_text().replace("T-EST", "T-TWO"))


def test_a_sign_off_holds_for_the_figures_that_were_signed_only(make, tmp_path):
    """Copied from the card's foot it takes the warning away; a changed figure brings one back."""
    two_plain(make, tmp_path)
    site, file = tmp_path / "site", tmp_path / "fleet/t-est.yaml"

    def status(page: str) -> str:
        build(tmp_path, site, quiet, pdfs=False)
        found = re.search(r'<p class="(?:status|signed)">(.*)</p>', (site / page).read_text())
        return found[1] if found else ""

    assert status("T-EST/index.html").startswith("<strong>Not signed.</strong>")
    mark = json.loads((site / "T-EST/card.json").read_text())["marks"]["figures"]
    text = file.read_text()
    file.write_text(text + f"sign off: {{by: An instructor, date: 2026-01-31, figures: {mark}}}\n")
    assert status("T-EST/index.html") == (
        "Signed by An instructor on 2026-01-31, for these figures."
    )
    assert "T-EST" not in status("index.html")
    assert status("index.html").startswith("<strong>Not signed, or out of date:</strong> T-TWO.")
    kind = tmp_path / "types/plain.yaml"
    kind.write_text(kind.read_text().replace("ias: 140", "ias: 141"))
    assert status("T-EST/index.html").startswith(
        f"<strong>Out of date.</strong> An instructor signed figures {mark} on 2026-01-31"
    )
    assert "out of date:</strong> T-EST, T-TWO." in status("index.html")


def test_without_a_picture_there_is_none(one_aircraft, tmp_path):
    build(one_aircraft, tmp_path / "site", quiet, pdfs=False)
    assert "<img" not in (tmp_path / "site/index.html").read_text()


def test_every_page_says_the_cautions_and_that_the_data_are_invented():
    cautions = [ENGLISH.say(f"caution-{n}") for n in (1, 2, 3)]
    pages = list((ROOT / "site").rglob("*.html"))
    assert len(pages) >= 9
    for page in pages:
        text = page.read_text().replace("&#39;", "'")
        assert all(caution in text for caution in cautions), page
        assert "every figure here are invented" in text, page


@pytest.mark.parametrize("grid", ["altitude: [2000]", "altitude: [0]", "oat: [10]", "ias: [90]"])
def test_a_school_may_ask_for_one_altitude_temperature_or_speed(one_aircraft, grid, tmp_path):
    path = one_aircraft / "school.yaml"
    key = grid.partition(":")[0]
    path.write_text(re.sub(rf"(?m)^    {key}: .*", f"    {grid}", path.read_text()))
    build(one_aircraft, tmp_path / "site", pdfs=False)
    assert (tmp_path / "site/ZZ-DUA/how-it-works.html").is_file()


def test_a_warning_is_on_the_page_with_the_reason_that_accepts_it(definitions, tmp_path):
    keep(definitions, "zz-dua", "zz-tua")
    path = definitions / "types/dunlin-160.yaml"
    text = path.read_text().replace("red line: {at: 151", "red line: {at: 150")
    path.write_text(text)
    build(definitions, tmp_path / "site", quiet, pdfs=False)
    page = (tmp_path / "site/ZZ-DUA/index.html").read_text()
    assert "the red line is 150 and VNE 151" in page
    assert "the red line" not in (tmp_path / "site/ZZ-TUA/index.html").read_text()
    path.write_text(text + "accepted: {markings-match: The placard says 150.}\n")
    build(definitions, tmp_path / "site", quiet, pdfs=False)
    assert "The placard says 150." in (tmp_path / "site/ZZ-DUA/index.html").read_text()


def test_an_error_of_the_checks_forbids_the_site(definitions, tmp_path):
    path = definitions / "types/dunlin-160.yaml"
    path.write_text(path.read_text().replace("VNO: {ias: 119", "VNO: {ias: 152"))
    with pytest.raises(DefinitionError, match="expected VNO below VNE"):
        build(definitions, tmp_path / "site", quiet, pdfs=False)
    assert not (tmp_path / "site").exists()


@pytest.mark.sampled
def test_folder_time_zone_locale_and_workers_change_no_byte(
    make, tmp_path, tmp_path_factory, monkeypatch, record_property
):
    """With the PDFs; of two plain aircraft and a shared table, since all are laid out alike."""
    two_plain(make, tmp_path)
    trees = []
    for folder, zone, words, workers in (
        ("a", "Pacific/Auckland", "C", 1),
        ("another/and/deeper", "America/New_York", "C.UTF-8", 3),
    ):
        monkeypatch.setenv("TZ", zone)
        time.tzset()
        locale.setlocale(locale.LC_ALL, words)
        out = tmp_path_factory.mktemp("built") / folder / "site"
        out.parent.mkdir(parents=True)
        two = printing("card.pdf", "card-2up.pdf", sheets=["sheet-speeds"])
        with one_shared_table(), two as made:
            build(tmp_path, out, quiet, workers=workers)
        trees.append(hashed(out))
    monkeypatch.undo()
    time.tzset()
    locale.setlocale(locale.LC_ALL, "")
    assert trees[0] == trees[1]
    record_property("sampled", ("formats in two time zones", len(made), len(FORMATS)))
    pdfs = {name for name in trees[0] if name.endswith(".pdf")}
    assert pdfs == {
        *(f"{name}/{one.file}" for name in ("T-EST", "T-TWO") for one in made),
        "conversions/conversions.pdf",
        "fleet.pdf",
    }


def hashed(folder: Path) -> dict[str, str]:
    files = (path for path in folder.rglob("*") if path.is_file())
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in files
    }
