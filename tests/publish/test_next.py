"""A page and a sheet for every pair that a school names, made only where they are new."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from cardgen.definition.places import DefinitionError
from cardgen.document.data import transition_of
from tests.conftest import DEMO, keep
from tests.publish.built import Site, edit, part_keys, put_together, tree

PAIRS = "pairs:\n  - {from: ZZ-DUA, to: ZZ-WTR}\n  - {from: ZZ-WTR, to: ZZ-DUA}\n"
ONE, OTHER = "next/ZZ-DUA/ZZ-WTR", "next/ZZ-WTR/ZZ-DUA"


@pytest.fixture(scope="module")
def built(tmp_path_factory) -> Path:
    """A site of two pairs, with what its build made."""
    folder = tmp_path_factory.mktemp("pairs")
    definitions = Path(shutil.copytree(DEMO, folder / "aircraft"))
    keep(definitions, "zz-dua", "zz-dub", "zz-wtr")
    with (definitions / "school.yaml").open("a") as school:
        school.write(PAIRS)
    with put_together():
        Site(folder).build()
    return folder


@pytest.fixture
def paired(built, tmp_path) -> Iterator[Site]:
    """A copy of that, which a test may spoil."""
    shutil.copytree(built, tmp_path, dirs_exist_ok=True)
    with put_together():
        site = Site(tmp_path)
        site.build()
        yield site


def test_a_pair_has_a_page_a_sheet_and_its_figures(built):
    made = tree(built / "site")
    for folder in (ONE, OTHER):
        for name in ("index.html", "next.json", "next.pdf"):
            assert f"{folder}/{name}" in made
    told = transition_of(made[f"{ONE}/next.json"])
    assert (told.first.registration, told.second.registration) == ("ZZ-DUA", "ZZ-WTR")
    assert made[f"{ONE}/index.html"] != made[f"{OTHER}/index.html"]


def test_it_is_linked_from_both_aircraft_and_the_index_and_links_back(built):
    site = built / "site"
    for page, up in (
        ("index.html", ""),
        ("ZZ-DUA/index.html", "../"),
        ("ZZ-WTR/index.html", "../"),
    ):
        text = (site / page).read_text()
        for folder in (ONE, OTHER):
            assert f'href="{up}{folder}/index.html"' in text
    assert "next/ZZ-" not in (site / "ZZ-DUB/index.html").read_text()
    text = (site / ONE / "index.html").read_text()
    for link in ("../../../ZZ-DUA/index.html", "../../../ZZ-WTR/index.html", "../../../index.html"):
        assert f'href="{link}"' in text
        assert (site / ONE / link).resolve().is_file()


def test_it_is_made_again_where_either_of_its_documents_is_another(paired):
    before = part_keys(paired.cache, paired.out)
    edit(paired.definitions / "fleet/zz-dub.yaml", '"1107"', '"1108"')
    assert not any(name.startswith("next/ZZ-") for name in paired.build().made)
    edit(paired.definitions / "fleet/zz-wtr.yaml", '"77"', '"78"')
    made = {name for name in paired.build(only=["ZZ-WTR"]).made if name.startswith("next/")}
    assert {f"{ONE}/next.json", f"{OTHER}/next.json"} <= made
    after = part_keys(paired.cache, paired.out)
    for folder in (ONE, OTHER):
        assert before[f"{folder}/next.json"] != after[f"{folder}/next.json"]


def test_of_an_aircraft_that_is_left_out_the_page_says_so(paired):
    path = paired.definitions / "fleet/zz-wtr.yaml"
    path.write_text(path.read_text().replace("type: wheatear-15", "type: wheatear-16"))
    with pytest.raises(DefinitionError):
        paired.build()
    paired.build(keep_going=True)
    assert "Left out: its definition has errors." in (paired.out / ONE / "index.html").read_text()
    assert not (paired.out / ONE / "next.json").exists()
    assert "next/ZZ-" not in (paired.out / "index.html").read_text()
