"""Sentences on a sheet: remarks, notes, its head and its foot."""

import math
from collections.abc import Iterator, Sequence

from cardgen.document.record import Document, Paper, Table
from cardgen.document.signature import VALID, state_of, valid_to
from cardgen.layout.code import code_of
from cardgen.layout.content import Content
from cardgen.layout.font import KEPT, advance, broken, lines, lines_of
from cardgen.layout.formats import Notes, Remarks
from cardgen.layout.measures import NOTE, POINT, SLACK, SOURCE, STRONG, Measures
from cardgen.layout.placed import Foot, Head, PlacedWords
from cardgen.words.language import Language
from cardgen.words.signing import fewer, subjects

CAUTIONS = ("caution-1", "caution-2", "caution-3")
DOT = " · "
_NAMES = (19 * POINT, 16 * POINT, 13 * POINT)
_TITLE, _TITLE_LEAD = 10.5 * POINT, 1.1
_NOTE_GAP = 1.0  # mm
_INDENT = 3.5  # mm, of a remark
_BESIDE_STATE = 2.2  # mm, between the source and it
_AROUND_STATE = 3.2 + _BESIDE_STATE  # mm, with its frame
_STATE_SPACE = 0.06  # between its letters, to their size
_LONG_WORD = 14  # letters: may break at its hyphens
_PICTURE, _PICTURE_HEIGHT = 24.0, 10.4  # mm: width with what is clear beside it
_RULE = 0.5  # below a head
_OVER_FOOT = 0.6  # mm, above its words
_BAR = 2.0  # mm: the bar before what has changed, and the space behind it


def notes(content: Content, part: Notes, measures: Measures, width: float) -> list[PlacedWords]:
    """Return the notes of tables, each once, and which figures are computed, as one paragraph."""
    return note(content.once(part, lambda: _noted(content, part)), measures, width)


def _noted(content: Content, part: Notes) -> str:
    say = content.language.say
    found = [table for table in map(content.table, part.tables) if table]
    said = [] if content.card else [say(table.how) for table in found]
    said += [say(note) for table in found for note in table.notes if not part.brief]
    if content.card:
        said += _computed(content, found)
    return " ".join(dict.fromkeys(said))


def _computed(content: Content, tables: Sequence[Table]) -> Iterator[str]:
    """Yield how computed figures are told from copied ones."""
    say = content.language.say
    if any(table.is_mixed for table in tables):
        yield say("note-computed")
    whole = [say(table.title) for table in tables if table.is_computed]
    if whole:
        yield say(
            "note-all-computed", tables=content.language.wordings["list-separator"].join(whole)
        )


def note(text: str, measures: Measures, width: float) -> list[PlacedWords]:
    """Return a paragraph in small type."""
    if not text:
        return []
    count = lines(text, measures.caption, width, measures.text)
    return [PlacedWords("note", (text,), count * NOTE * measures.caption, _NOTE_GAP)]


def caption(content: Content, measures: Measures, width: float) -> list[PlacedWords]:
    """Return what a drawing shows beside the paint: limits by a bench card."""
    markings = content.card.basis.markings if content.card else None
    if markings is None or not markings.tightened:
        return []
    return note(content.language.say("sheet-drawing"), measures, width)


def gaps(content: Content, measures: Measures, width: float) -> list[PlacedWords]:
    """Return a line for each table that is left off."""
    card = content.card
    return [
        one
        for gap in (card.gaps if card else ())
        for one in note(
            content.language.say("sheet-left-off", title=gap.title, missing=gap.missing),
            measures,
            width,
        )
    ]


def remarks(content: Content, part: Remarks, measures: Measures, width: float) -> list[PlacedWords]:
    """Return what the school says of this airframe, and its supplements."""
    said = remarked(content)
    if part.rows:
        said = said[slice(*part.rows)]
    if not said:
        return []
    height = sum(
        lines(one, measures.remark, width - _INDENT, measures.text) * SOURCE * measures.remark
        for one in said
    )
    return [PlacedWords("remark", said, height, measures.over_remark)]


def remarked(content: Content) -> tuple[str, ...]:
    """Return the school's remarks, and the supplements in words."""
    card = content.card
    if card is None:
        return ()
    return (*card.head.remarks, *(_supplement(content, one) for one in card.head.supplements))


def _supplement(content: Content, paper: Paper) -> str:
    name = "sheet-supplement-revision" if paper.revision else "sheet-supplement"
    values = {"number": paper.number, "title": paper.title, "revision": paper.revision}
    return content.language.say(name, **values)


def head(
    content: Content,
    title: str,
    number: int,
    of: int,
    caption: float,
    width: float,
    weight: int,
) -> Head:
    """Return the head of a sheet of a width; `title` is said, in words of a weight.

    Whether it is signed stands beside its source, or below where that takes fewer lines.
    """
    say = content.language.say
    card = content.card
    name = content.name
    numbered = DOT.join([title, say("sheet-number", number=str(number), of=str(of))])
    title_width = advance(numbered, 600) * _TITLE + 1.0
    size = next(
        (size for size in _NAMES if _name_width(name, size) + title_width < width), _NAMES[-1]
    )
    type_name = card.head.type if card else ""
    first = advance(type_name, 600) * _TITLE + 6.0
    in_first = _name_width(name, size) + title_width + first < width
    state, valid = _state(content)
    state_width = _state_width(state, valid, caption, weight)
    source = _kept(DOT.join(([] if in_first or not card else [type_name]) + _source(content)))
    beside = lines(source, caption, width - state_width, weight)
    source_lines = lines(source, caption, width, weight) + 1
    below = bool(state) and source_lines < beside
    source_width = width if below else width - state_width
    room = width - _BAR
    changed = content.once(("changed", room), lambda: _changed(content, caption, room))
    changed_lines = lines(changed, caption, room, 600) if changed else 0
    title_lines = lines(numbered, _TITLE, width - _name_width(name, size), 600)
    return Head(
        name,
        size,
        type_name if in_first else "",
        numbered,
        tuple(_plain(line) for line in broken(source, caption, source_width, weight)),
        source_width,
        state,
        valid,
        below,
        changed,
        max(size, title_lines * _TITLE_LEAD * _TITLE)
        + (max(1, source_lines if below else beside) + changed_lines) * SOURCE * caption
        + 1.2
        + _RULE,
    )


def _state_width(state: str, valid: bool, caption: float, weight: int) -> float:
    """Return how much whether a card is signed takes from beside its source."""
    if not state:
        return 0.0
    if valid:
        return advance(state, weight) * caption + _BESIDE_STATE
    return (advance(state, 700) + _STATE_SPACE * len(state)) * caption + _AROUND_STATE


def _kept(text: str) -> str:
    """Return words of which those with a hyphen that are not long stay whole."""
    return " ".join(
        word.replace("-", KEPT) if len(word) < _LONG_WORD else word for word in text.split(" ")
    )


def _plain(line: str) -> str:
    return line.replace(KEPT, "-")


def _name_width(name: str, size: float) -> float:
    return (advance(name, 700) + 0.02 * len(name)) * size


def _source(content: Content) -> list[str]:
    say, card = content.language.say, content.card
    if card is None:
        return [say("sheet-shared-source")]
    manual = card.head.manual
    return [
        say("sheet-indicator", unit=card.head.indicator_unit),
        say("sheet-valid", manual=tuple(_manual(content.language, manual))),
    ]


def _manual(language: Language, manual: Paper) -> Iterator[str]:
    yield f"{manual.title} {manual.number}".strip()
    if manual.revision:
        yield language.say("paper-revision", revision=manual.revision)
    if manual.date:
        yield manual.date


def _state(content: Content) -> tuple[str, bool]:
    """Return whether an instructor has released a card, and for the figures that it has now."""
    say, card = content.language.say, content.card
    if card is None:
        return "", True
    state = state_of(card.head, card.marks)
    if state not in VALID:
        return say(f"sheet-{state}"), False
    date = max(one.date for one in card.head.signatures)
    last = valid_to(card.head, card.marks)
    return say(f"sheet-{state}{'-to' if last else ''}", date=date, last=last), True


def _changed(content: Content, caption: float, width: float) -> str:
    """Return what has changed since a card was signed, if anything: as much as a line holds."""
    language, card = content.language, content.card
    last = card.head.last_signed if card else None
    if card is None or last is None or not last.moved:
        return ""
    told = subjects(language, card, last.moved)
    for few in range(len(told), 0, -1):
        said = language.say("signed-changed", date=last.date, subjects=fewer(language, told, few))
        if advance(said, 600) * caption < width:
            break
    return said


def foot(content: Content, caption: float, width: float, pictured: bool, weight: int) -> Foot:
    """Return the foot of a sheet of a width, in words of a weight."""
    say, school = content.language.say, content.school
    cautions = " ".join(say(name) for name in CAUTIONS)
    figures = DOT.join([*_figures(content), school.name])
    version = content.document.cardgen
    made = [say("sheet-made-by", version=version)] if version else []
    notice = DOT.join([*([school.notice] if school.notice else []), *made])
    whole = DOT.join([figures, notice]) if notice else figures
    code = code_of(content.card)
    room, line = width - (_PICTURE if pictured else 0.0), SOURCE * caption
    if code:
        words = ((f"{cautions} ", 600), (whole, weight))
        beside = math.ceil((code.height - _OVER_FOOT + SLACK) / line)
        count = lines_of(words, caption, room, beside, code.side + code.clear)
    else:
        count = lines(cautions, caption, room, 600) + lines(whole, caption, room, weight)
    least = max(_PICTURE_HEIGHT if pictured else 0.0, code.height if code else 0.0)
    height = max(count * line + _OVER_FOOT, least) + STRONG
    return Foot(cautions, figures, notice, pictured, code, height)


def _figures(content: Content) -> list[str]:
    card: Document | None = content.card
    if card is None:
        return []
    say, address = content.language.say, card.head.school.web_address
    current = [say("sheet-current", address=address)] if address else []
    return [say("sheet-figures", mark=card.marks.card), *current]
