"""What is to be read again when a manual is revised: found in the files by hand."""

import re
from pathlib import Path

import pytest

from cardgen.cli import main
from cardgen.definition.fleet import read_fleet
from cardgen.definition.identifiers import copied
from cardgen.publish.pages import asked, pages_of
from cardgen.publish.rereading import labels_of, to_reread
from tests.conftest import DEMO, drop_pairs

SUPPLEMENT = """\
Vortex generators SUP-12, page S12-3
  ZZ-DUC
    {folder}/fleet/zz-duc.yaml:12:18: speeds/VS0/ias 36 kt
    {folder}/fleet/zz-duc.yaml:12:27: speeds/VS0/cas 44 kt
    {folder}/fleet/zz-duc.yaml:14:27: speeds/VS1/flaps-0/ias 43 kt
    {folder}/fleet/zz-duc.yaml:14:36: speeds/VS1/flaps-0/cas 49 kt
    {folder}/fleet/zz-duc.yaml:15:28: speeds/VS1/flaps-10/ias 40 kt
    {folder}/fleet/zz-duc.yaml:15:37: speeds/VS1/flaps-10/cas 47 kt
    {folder}/fleet/zz-duc.yaml:16:19: speeds/VREF/flaps-35/ias 57 kt
    {folder}/fleet/zz-duc.yaml:16:28: speeds/VREF/flaps-35/cas 59 kt
"""


def reread(capsys, *arguments: str) -> str:
    assert main(["reread", *arguments[:-1], "--definitions", arguments[-1]]) == 0
    return capsys.readouterr().out


def test_a_page_of_a_supplement(capsys):
    assert reread(capsys, "S12-3", str(DEMO)) == SUPPLEMENT.format(folder=DEMO)


def test_the_lines_and_columns_are_where_the_figures_stand(capsys):
    said = reread(capsys, "1-1 to 9-99, S12-1 to S12-9", str(DEMO))
    places = re.findall(r"^    (\S+):(\d+):(\d+): (\S+) (\S+)", said, re.MULTILINE)
    assert len(places) > 500
    for file, line, column, _, value in places:
        text = Path(file).read_text().splitlines()[int(line) - 1]
        assert re.match(rf"{re.escape(value)}(?![\d.])", text[int(column) - 1 :])


def test_every_figure_stands_on_one_page_and_each_of_its_aircraft_is_named(fleet):
    found = to_reread(fleet, asked("1-1 to 9-99, S12-1 to S12-9, bench card", ["Bench card"]))
    named = [(name, one.figure.figure.place) for one in found for name in one.aircraft]
    wanted = [
        (one.registration, each.figure.place) for one in fleet.aircraft for each in copied(one)
    ]
    assert sorted(named) == sorted(wanted)


def test_aircraft_that_share_a_figure_stand_before_it_and_one_with_a_supplement_does_not(capsys):
    said = reread(capsys, "5-9", "--document", "DN160-H", str(DEMO))
    heading, *rest = said.splitlines()
    assert heading == "Pilot's operating handbook DN160-H, page 5-9"
    shared = rest[rest.index("  ZZ-DUA, ZZ-DUB") + 1]
    assert shared.endswith("types/dunlin-160.yaml:11:14: speeds/VS0/ias 38 kt")
    assert "  ZZ-DUA, ZZ-DUB, ZZ-DUC" not in rest


def test_figures_of_other_documents_are_left_out_where_one_is_named(fleet):
    everything = to_reread(fleet, pages_of("2-3"))
    one = to_reread(fleet, pages_of("2-3"), "DN160-H")
    assert {copy.figure.figure.place.file for copy in one} == {"types/dunlin-160.yaml"}
    assert len({copy.document for copy in everything}) == 4
    assert set(one) < set(everything)


def test_of_what_a_supplement_hides_from_every_aircraft_the_manuals_figure_is_read_too(definitions):
    for name in ("zz-dua", "zz-dub"):
        (definitions / f"fleet/{name}.yaml").unlink()
    drop_pairs(definitions)
    found = to_reread(read_fleet(definitions), pages_of("5-9"), "DN160-H")
    by_id = {one.figure.id: one.aircraft for one in found}
    assert by_id["given/speeds/VS0/ias"] == ()


def test_what_names_no_page_is_to_be_read_again_and_said_to(definitions, capsys):
    path = definitions / "types/wheatear-15.yaml"
    text = re.sub(r"(?m)^(glide: .*), page: [^}]*", r"\1", path.read_text())
    path.write_text(text)
    said = reread(capsys, "2-999", str(definitions)).splitlines()
    assert said[:2] == ["Flight manual WE15-FM, no page named", "  ZZ-WTR"]
    assert re.fullmatch(r"    \S+types/wheatear-15.yaml:\d+:\d+: glide/ratio \d+", said[2])
    assert said[3:] == ["No figure was copied from page 2-999."]


@pytest.mark.parametrize(
    ("revised", "page", "among"),
    [
        ("2-3", "2-3", True),
        ("2-3", "2-30", False),
        ("2-3", "2-03", True),
        ("2-3", "S2-3", False),
        ("2-3", "2-3a", False),
        ("2-3A", "2-3a", True),
        ("2-3 to 2-7", "2-3", True),
        ("2-3 to 2-7", "2-7", True),
        ("2-3 to 2-7", "2-8", False),
        ("2-3 to 2-12", "2-10", True),
        ("2-9 to 3-2", "2-15", True),
        ("2-9 to 3-2", "3-1", True),
        ("2-9 to 3-2", "3-3", False),
        ("5-13", "5-12 to 5-14", True),
        ("5-15", "5-12 to 5-14", False),
        ("4-2,5-13", "1-1, 5-12 to 5-14", True),
        ("7", "6 to 9", True),
        ("bench card", "Bench card", True),
        ("placard, left", "Placard,  left", True),
        ("2-3; placard", "Placard", True),
        ("2-3", "see 2-3", True),
        ("2-3", "see 2-30", False),
        ("2-3", "2-3 to S4", True),
        ("2-3", "S2-3 (temporary)", False),
        ("2-5", "2-3 \u2013 2-7", True),
        ("2-8", "2-3 \u2013 2-7", False),
        *(
            (f"{way.format('2-3', '2-7')}", page, among)
            for way in (
                *("{} to {}", "{} TO {}", "{} through {}", "{} thru {}", "{} - {}", "{}\u2013{}"),
                *("{} \u2014 {}", "pages {} to {}", "pp. {}\u2013{}", "from page {} to page {}"),
                *("9-1 and {} to {}", "9-1; {}\u2212{}", "9-1 & {} .. {}", "{}  to\t{}, and 9-1"),
            )
            for page, among in (("2-3", True), ("2-5", True), ("2-7", True), ("2-8", False))
        ),
        *((way, "2-3", True) for way in ("p. 2-3", "page 2-3", "PAGE 2-3", "2.3", "2\u20113")),
        *((way, "2-3", True) for way in ("2\u20133", "2 - 3", "9-1 and 2-3", "9-1, and p.2-3")),
        *((way, "3", True) for way in ("2\u20133", "2 - 3", "2 to 3")),
        ("2 to 3", "2-3", False),
        ("5\u20132", "5-2", True),
        ("S12-3", "S 12-3", True),
        ("S-12-3", "S12-3", True),
        ("2-3 A", "2-3a", True),
        ("iv", "IV", True),
    ],
)  # fmt: skip
def test_pages_are_read_as_people_write_them(definitions, revised, page, among):
    path = definitions / "types/wheatear-15.yaml"
    text = re.sub(r"(?m)^(glide: .*), page: [^}]*", rf'\1, page: "{page}"', path.read_text())
    assert f'"{page}"' in text
    path.write_text(text)
    fleet = read_fleet(definitions)
    found = to_reread(fleet, asked(revised, labels_of(fleet)), "WE15-FM")
    assert ("given/glide/ratio" in {one.figure.id for one in found}) is among


@pytest.mark.parametrize(
    "pages",
    [
        *("", ",", "2-3,", ", 2-3", "2-7 to 2-3", "2-3 to S2-7", "2-3 to", "to 2-7"),
        *("2-3 to 2-5 to 2-7", "2-3-2-7", "2-3/2-7", "2-3 2-7", "2-3 until", "2-3 and", "and"),
        *("section 2", "sec 2", "see 2-3", "all", "2-3 ff", "2-3 up to 2-7", "2-3 to 7"),
        *("bench cards", "2-3, no page", "\u0130 2-3", "2-\u0663", "2-\u00b2", "2-3\n2-4 to"),
    ],
)  # fmt: skip
def test_what_is_no_page_is_refused(capsys, pages):
    """It would be said that there is nothing to read again."""
    assert main(["reread", pages, "--definitions", str(DEMO)]) == 2
    said = capsys.readouterr()
    assert "expected pages such as 2-3 to 2-7" in said.err
    assert said.out == ""


def test_a_document_that_there_is_not_is_refused(capsys):
    assert main(["reread", "2-3", "--document", "DN160", "--definitions", str(DEMO)]) == 2
    assert "did you mean DN160-H?" in capsys.readouterr().err
