"""A page and a sheet for every pair that a school names, made only where they are new."""

import pytest

from cardgen.definition.places import DefinitionError
from cardgen.document.data import transition_of
from tests.publish.built import Site, edit, part_keys, tree

PAIRS = "pairs:\n  - {from: ZZ-DUA, to: ZZ-WTR}\n  - {from: ZZ-WTR, to: ZZ-DUA}\n"
ONE, OTHER = "next/ZZ-DUA/ZZ-WTR", "next/ZZ-WTR/ZZ-DUA"


@pytest.fixture
def paired(site) -> Site:
    path = site.definitions / "school.yaml"
    path.write_text(path.read_text() + PAIRS)
    return site


def test_a_pair_has_a_page_a_sheet_and_its_figures(paired):
    paired.build()
    made = tree(paired.out)
    for folder in (ONE, OTHER):
        for name in ("index.html", "next.json", "next.pdf"):
            assert f"{folder}/{name}" in made
    told = transition_of(made[f"{ONE}/next.json"])
    assert (told.first.registration, told.second.registration) == ("ZZ-DUA", "ZZ-WTR")
    assert made[f"{ONE}/index.html"] != made[f"{OTHER}/index.html"]


def test_it_is_linked_from_both_aircraft_and_the_index_and_links_back(paired):
    paired.build()
    for page, up in (
        ("index.html", ""),
        ("ZZ-DUA/index.html", "../"),
        ("ZZ-WTR/index.html", "../"),
    ):
        text = (paired.out / page).read_text()
        for folder in (ONE, OTHER):
            assert f'href="{up}{folder}/index.html"' in text
    assert "next/" not in (paired.out / "ZZ-DUB/index.html").read_text()
    text = (paired.out / ONE / "index.html").read_text()
    for link in ("../../../ZZ-DUA/index.html", "../../../ZZ-WTR/index.html", "../../../index.html"):
        assert f'href="{link}"' in text
        assert (paired.out / ONE / link).resolve().is_file()


def test_it_is_made_again_where_either_of_its_documents_is_another(paired):
    paired.build()
    before = part_keys(paired.cache, paired.out)
    edit(paired.definitions / "fleet/zz-dub.yaml", '"1107"', '"1108"')
    assert not any(name.startswith("next/") for name in paired.build().made)
    edit(paired.definitions / "fleet/zz-wtr.yaml", '"77"', '"78"')
    made = {name for name in paired.build().made if name.startswith("next/")}
    # Both are made anew and come to what they were, but for the mark of the card.
    assert {f"{ONE}/next.json", f"{OTHER}/next.json"} <= made
    after = part_keys(paired.cache, paired.out)
    assert before[f"{ONE}/next.json"] != after[f"{ONE}/next.json"]
    assert tree(paired.out) == paired.fresh()


def test_a_pair_that_is_named_no_longer_is_gone(paired):
    paired.build()
    path = paired.definitions / "school.yaml"
    path.write_text(path.read_text().replace(PAIRS, ""))
    paired.build()
    assert not (paired.out / "next").exists()
    assert "next/" not in (paired.out / "index.html").read_text()


def test_of_an_aircraft_that_is_left_out_the_page_says_so(paired):
    path = paired.definitions / "fleet/zz-wtr.yaml"
    path.write_text(path.read_text().replace("type: wheatear-15", "type: wheatear-16"))
    with pytest.raises(DefinitionError):
        paired.build()
    paired.build(keep_going=True)
    assert "Left out: its definition has errors." in (paired.out / ONE / "index.html").read_text()
    assert not (paired.out / ONE / "next.json").exists()
    assert "next/" not in (paired.out / "index.html").read_text()


def test_one_aircraft_alone_makes_its_pairs_again(paired):
    paired.build()
    edit(paired.definitions / "fleet/zz-wtr.yaml", '"77"', '"78"')
    made = paired.build(only=["ZZ-WTR"]).made
    assert {f"{ONE}/next.json", f"{OTHER}/next.json", "ZZ-WTR/card.json"} <= set(made)
    assert "ZZ-DUA/card.json" not in made
