"""The record of a signed card: a text that gives back what was printed, and tells of an edit."""

import re
from dataclasses import replace

import pytest

from cardgen.document.record import Asked, Document, Message, Quantity, Signature
from cardgen.document.signature import state_of
from cardgen.review.difference import cells_of
from cardgen.review.marks import marked, printed
from cardgen.review.records import Record, believed, cell_of, parsed, record_of, released, written
from cardgen.words.english import ENGLISH
from cardgen.words.signing import subjects
from tests.conftest import DEMO, STRESS, documents_of
from tests.review.test_marks import with_cell

DAY = "2026-03-02"


@pytest.fixture(scope="module")
def document() -> Document:
    return marked(documents_of(DEMO)["ZZ-WTR"])


def text_of(document: Document, by: str = "P. Pipit", date: str = DAY) -> str:
    return written(record_of(document, by, "instructor", date))


def signed(document: Document, *texts: tuple[str, str]) -> Document:
    """A document with records, each of a day, the last of which is its signature too."""
    record = parsed(texts[-1][1])
    one = Signature(record.by, record.date, record.figures, record.card, record.role)
    document = replace(document, head=replace(document.head, signatures=(one,)))
    return released(document, [(date, text, "") for date, text in texts])


@pytest.mark.parametrize(
    ("folder", "name"),
    [(DEMO, "ZZ-DUB"), (DEMO, "ZZ-PHN"), (DEMO, "ZZ-WTR"), (STRESS, "ZZ-SHEARWATER-4K")],
)
def test_a_record_is_read_as_it_was_written_and_its_lines_make_the_marks(folder, name):
    document = marked(documents_of(folder)[name])
    record = record_of(document, "P. Pipit", "", DAY)
    assert (record.card, record.figures) == (document.marks.card, document.marks.figures)
    assert parsed(written(record)) == record
    assert believed(DAY, written(record).replace("\n", "\r\n"), name) == record


def test_each_cell_has_a_line_by_its_identifier_as_it_is_printed(document):
    lines = text_of(document).splitlines()
    cells = cells_of(document)
    shown = [name for name, at in cells.items() if at.cell.quantity and not at.cell.beyond]
    for name in shown:
        number, unit, _ = printed(cells[name].cell)
        assert f"{name}: {number} {unit}".rstrip() in lines
    assert len(shown) > 300
    assert [name for name in cells if not any(one.startswith(f"{name}:") for one in lines)] == []


def test_no_line_ends_in_a_blank(document):
    assert not re.search(r"[ \t]$", text_of(document), re.MULTILINE)


EDITS = [
    (r"^speeds/VNE/indicated: .*", "speeds/VNE/indicated: 999 km/h", "card"),
    (r"^figures: .*", "figures: 0000-0000", "figures"),
    (r"^card: .*", "card: 0000-0000", "card"),
    (r"^revision: .*", "revision: 77", "revision"),
    (r"^manual: .*", "manual: Another", "manual"),
    (r"^date: .*", "date: 2026-03-03", "date"),
    (r"^aircraft: .*", "aircraft: ZZ-OTH", "aircraft"),
    (r"^given/speeds/VNE/ias: .*\n", "", "figures"),
    (r"^speeds/VNE/indicated: .*\n", "", "card"),
    (r"^speeds/VNE/indicated: .*", "speeds/VNE/indicated: fast", "card"),
    (r"^speeds/VNE/indicated: .*", "", "line"),
    (r"^head/serial: .*", "head/serial: [1]", "line"),
    (r"\AA signed card", "A card", "line"),
    (r"^role: .*\n", "", "line"),
]


@pytest.mark.parametrize(("old", "new", "told"), EDITS)
def test_an_edit_by_hand_is_told(document, old, new, told):
    text, count = re.subn(old, new, text_of(document), count=1, flags=re.MULTILINE)
    assert count
    found = believed(DAY, text, document.head.registration)
    assert isinstance(found, Message)
    assert found.id == f"finding-record-{told}"


def test_a_record_that_cannot_be_read_is_told(document):
    assert believed(DAY, None, "ZZ-WTR") == Message("finding-record-unread")
    assert believed(DAY, "", "ZZ-WTR") == Message("finding-record-line", {"line": "1"})


@pytest.mark.parametrize(
    "line",
    ["70 kt", "(70 kt)", "−5 C", "70 to 80 kt", "70 to 80", "12", "81 %", "-", "", '"flaps up"'],
)
def test_a_line_makes_its_cell_again(line):
    text = "speeds/VNE/indicated"
    said = printed(cell_of(text, line))
    again = f"{said[0]} {said[1]}".rstrip() if len(said) == 3 else said[0]
    again = f"({again})" if said[-1] == "beyond" else again
    assert again == line.strip('"')


def test_the_number_of_a_line_has_its_value():
    assert cell_of("a/b/c", "10,500 ft").quantity == Quantity(10500.0, "ft", entered="10,500")
    assert cell_of("a/b/c", "−5 C").quantity == Quantity(-5.0, "C", entered="−5")
    assert cell_of("a/b/c", "70 to 80 kt").quantity == Quantity(70.0, "kt", 80.0, "70 to 80")


# -- states


def faster(document: Document) -> Document:
    return marked(
        with_cell(
            document,
            "speeds/VNE/indicated",
            lambda cell: replace(
                cell, quantity=replace(cell.quantity, value=123.0, entered="123"), beyond=True
            ),
        )
    )


def test_what_changed_since_is_known_by_identifier_as_it_was_printed(document):
    was = document.table("speeds").blocks[0].rows[0].cells[1]
    now = signed(faster(document), (DAY, text_of(document)))
    (one,) = now.head.signed
    assert (one.date, one.by, one.role) == (DAY, "P. Pipit", "instructor")
    assert (one.card, one.figures) == (document.marks.card, document.marks.figures)
    assert one.was == {"speeds/VNE/indicated": " ".join(printed(was)[:2])}
    assert now.changed == {"speeds/VNE/indicated"}
    assert marked(now).marks == faster(document).marks  # bars stand outside both
    assert state_of(now.head, now.marks) == "recomputed"


def test_after_it_is_signed_again_nothing_has_changed(document):
    now = faster(document)
    again = signed(now, (DAY, text_of(document)), ("2026-04-01", text_of(now, date="2026-04-01")))
    assert [one.changed for one in again.head.signed] == [(), ("speeds/VNE/indicated",)]
    assert [set(one.was) for one in again.head.signed] == [{"speeds/VNE/indicated"}, set()]
    assert again.changed == frozenset()
    assert state_of(again.head, again.marks) == "signed"


def test_bars_are_against_the_last_state_that_all_had_signed(document):
    now = faster(document)
    asked = replace(now, head=replace(now.head, asked=Asked(2)))
    records = [
        (DAY, text_of(document)),
        (DAY, text_of(document, "T. Teal")),
        ("2026-04-01", text_of(now, date="2026-04-01")),
    ]
    one = signed(asked, *records)
    assert [state.complete for state in one.head.signed] == [False, True, False]
    assert one.changed == {"speeds/VNE/indicated"}
    both = signed(asked, *records, ("2026-04-01", text_of(now, "T. Teal", "2026-04-01")))
    assert both.changed == frozenset()


def test_a_table_of_which_much_changed_is_told_in_short_and_keeps_its_bars(document):
    """Every figure of it is 1 more, and one half as much again: its number, and that one."""
    table = max(document.tables, key=lambda one: sum(len(row.cells) for row in one.rows))
    cells = cells_of(document)
    names = [
        name
        for name, at in cells.items()
        if not name.endswith("/beside")
        and at.table is table
        and at.cell.quantity
        and at.cell.quantity.value > 40
    ]
    most = names[len(names) // 2]
    now = document
    for name in names:
        value = cells[name].cell.quantity.value
        other = value * 1.5 + 9 if name == most else value + 1
        now = with_cell(
            now, name, lambda cell, other=other: replace(cell, quantity=Quantity(other, "km/h"))
        )
    now = marked(now)
    record = text_of(document)
    short = signed(now, (DAY, record))
    (one,) = short.head.signed
    (much,) = one.much
    assert one.was == {}
    assert (much.of, much.count, much.most) == (table.id, len(names), most)
    assert f"{most}: {much.was}" in record.splitlines()
    assert short.changed == set(names)
    assert len(names) > 100
    assert len(much.cells) == len({name.rpartition("/")[0] for name in names})
    head = replace(now.head, signatures=short.head.signatures)
    (whole,) = released(replace(now, head=head), [(DAY, record, "")], whole=True).head.signed
    assert whole.was.keys() == set(names)


@pytest.mark.parametrize("part", ["by", "date", "figures", "card", "role"])
def test_a_signature_has_to_be_as_a_record_has_it(document, part):
    one = signed(document, (DAY, text_of(document)))
    assert [each.held for each in one.head.signatures] == [True]
    other = replace(one.head.signatures[0], **{part: "other"})
    head = replace(one.head, signatures=(other,))
    edited = released(replace(document, head=head), [(DAY, text_of(document), "")])
    assert state_of(edited.head, edited.marks) == "doubtful"


def test_nothing_is_believed_of_a_record_that_does_not_hold(document):
    text = text_of(document).replace("speeds/VNE/indicated:", "speeds/VNE/indicate:")
    assert not isinstance(believed(DAY, text, "ZZ-WTR"), Record)
    one = signed(document, (DAY, text))
    assert one.head.signed == ()
    assert state_of(one.head, one.marks) == "doubtful"


def test_no_figure_has_two_lines(document):
    """Even of one who made the marks anew from both."""
    record = record_of(document, "P. Pipit", "", DAY)
    forged = replace(record, lines=(*record.lines, ("speeds/VNE/indicated", "999 km/h")))
    assert isinstance(believed(DAY, written(forged.made_again()), "ZZ-WTR"), Message)
    assert believed(DAY, written(record), "ZZ-WTR") == record


def test_without_records_a_signature_stands_by_itself(document):
    signature = Signature("P. Pipit", DAY, document.marks.figures)
    one = replace(document, head=replace(document.head, signatures=(signature,)))
    assert released(one, []) == one
    assert state_of(one.head, one.marks) == "signed"


@pytest.mark.parametrize(
    ("changed", "about"),
    [
        (["given/calibration/0/alternate/when"], ("Calibrated airspeed",)),
        (
            ["given/calibration/0/alternate/when", "speeds/VNE/indicated"],
            ("VNE", "Calibrated airspeed"),
        ),
        (["given/speeds/storm-window/open/sense"], ("storm window",)),
        (["given/speeds/VNE/ias"], ("what was copied from the manual",)),
    ],
)
def test_words_that_changed_are_told_by_the_table_that_they_are_of(changed, about):
    found = subjects(ENGLISH, documents_of(DEMO)["ZZ-DUA"], changed)
    assert sorted(found) == sorted(about)
