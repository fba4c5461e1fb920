"""Signing cards: what is about to be signed, and the line and the record that say that it was."""

import datetime
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field, replace
from itertools import groupby
from pathlib import Path

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.card import make_document
from cardgen.checks.run import check, errors
from cardgen.definition.files import content_of, inside
from cardgen.definition.fleet import AircraftDefinition, Fleet, UnknownAircraftError, read_fleet
from cardgen.definition.places import DefinitionError, near_match
from cardgen.definition.renewing import replace_files
from cardgen.definition.signed import new_record, records_of
from cardgen.definition.signing_off import signed_off
from cardgen.document.comparison import Compared, Comparison, Side
from cardgen.document.record import Asked, Document, Given, Message, Signature
from cardgen.document.signature import is_enough, months_after
from cardgen.publish.compared import changes_as_text
from cardgen.publish.pages import order
from cardgen.review.difference import At, cells_of, moved_cells
from cardgen.review.marks import marked, told
from cardgen.review.records import FEW, Record, cell_of, record_of, released, written
from cardgen.review.worse import Changes, judged
from cardgen.words.english import ENGLISH
from cardgen.words.language import Language
from cardgen.words.signing import signers

_FEW = 40  # changed numbers that are told one by one
# What copied figures and tables tell too.
_TOLD = ("given/", "head/left off", "head/change", "head/words")


class SigningError(Exception):
    """What was asked for cannot be signed."""


@dataclass(frozen=True)
class Signer:
    """Who signs, and on which day."""

    by: str
    role: str
    date: str


@dataclass(frozen=True)
class Ready:
    """A card that can be signed: its document with the states signed before, and its record.

    `signatures` are those that its file will have.
    """

    definition: AircraftDefinition
    document: Document = field(repr=False)
    record: Record = field(repr=False)
    signatures: tuple[Signature, ...]


def ready(
    folder: Path, registrations: Sequence[str], signer: Signer, today: datetime.date
) -> list[Ready]:
    """Return cards that are about to be signed.

    Parameters
    ----------
    folder : Path
        Of the definitions.
    registrations : sequence of str
    signer : Signer
    today : date

    Raises
    ------
    DefinitionError
        If the definitions have faults, or a check finds an error in one of these.
    SigningError
        If there is no such aircraft, or the signature is none that the school asks for.
    """
    fleet = _asked_for(read_fleet(folder), registrations)
    if faults := errors(check(fleet, today), ENGLISH):
        raise DefinitionError(faults)
    return [_ready(folder, one, fleet, signer, today) for one in fleet.aircraft]


def _asked_for(fleet: Fleet, registrations: Sequence[str]) -> Fleet:
    try:
        wanted = tuple(fleet.named(registrations))
    except UnknownAircraftError as error:
        raise SigningError(error) from None
    used = {one.airframe.type for one in wanted}
    types = {name: one for name, one in fleet.types.items() if name in used}
    return replace(fleet, types=types, aircraft=wanted)


def _ready(
    folder: Path, one: AircraftDefinition, fleet: Fleet, signer: Signer, today: datetime.date
) -> Ready:
    document = marked(make_document(Aircraft(one), fleet.school))
    document = released(document, records_of(folder, one.registration), whole=True)
    _refuse(document, signer, today)
    record = record_of(document, signer.by, signer.role, signer.date)
    new = Signature(signer.by, signer.date, record.figures, record.card, signer.role)
    return Ready(one, document, record, (*_kept(document, signer), new))


def _refuse(document: Document, signer: Signer, today: datetime.date) -> None:
    """Refuse a signature that says what cannot be."""
    head = document.head
    roles = head.asked.roles
    if signer.date > f"{today}":
        raise SigningError(f"{signer.date} is still to come, expected today or a day before")
    if head.signed and signer.date < head.signed[-1].date:
        last = head.signed[-1].date
        raise SigningError(f"{head.registration} was signed on {last}, expected no day before that")
    if signer.role and roles and signer.role.casefold() not in map(str.casefold, roles):
        meant = near_match(signer.role, roles)
        if meant or head.asked.names <= len(roles):  # else others may sign too, whatever they are
            said = f"the school asks for no {signer.role}, expected one of {', '.join(roles)}"
            raise SigningError(said + meant)


def _kept(document: Document, signer: Signer) -> Iterator[Signature]:
    """Yield what others signed of these figures, where more names than one are asked for."""
    head, asked = document.head, document.head.asked
    for one in head.signatures if asked.names > 1 else ():
        lapsed = asked.months and months_after(one.date, asked.months) < signer.date
        holds = one.held and one.figures == document.marks.figures and not lapsed
        if holds and one.by.casefold() != signer.by.casefold():
            yield one


# -- what is shown before it is signed


def shown(one: Ready, language: Language = ENGLISH, everything: bool = False) -> str:
    """Return what is about to be signed: what changed since, then every figure by manual page.

    Parameters
    ----------
    one : Ready
    language : Language, optional
    everything : bool, optional
        Whether every number that changed is told, where that is many.
    """
    head = one.document.head
    say = language.say
    title = say("signoff-card", registration=head.registration, type=head.type)
    parts = [title, *_since(one.document, language, everything), *_by_page(one.document, language)]
    lacking = _lacking(one, head.asked, language)
    return "\n\n".join([*parts, *lacking])


def _since(document: Document, language: Language, everything: bool) -> Iterator[str]:
    last, say = document.head.last_signed, language.say
    if last is None:
        yield say("signoff-first")
        return
    if not last.was:
        yield say("signoff-same", date=last.date, by=last.by)
        return
    yield say("signoff-since", date=last.date, by=last.by)
    cells = cells_of(document)
    before = dict(_before(last.was, cells, language))
    after = {name: at for name, at in cells.items() if name in last.was}
    moved = judged(Changes(list(moved_cells(before, after)), document, document))
    if moved:
        head = document.head
        aircraft = Compared(head.registration, head.type, cells=tuple(moved))
        then, now = (Side(name, document.cardgen) for name in (last.date, say("compare-now")))
        comparison = Comparison(then, now, aircraft=(aircraft,))
        yield changes_as_text(comparison, language, everything or len(moved) <= _FEW)
    printed = record_of(document).printed
    others = (
        name
        for name in last.was
        if name not in cells and "/" in name and not name.startswith(_TOLD)
    )
    lines = [
        line
        for of, names in groupby(others, lambda name: name.partition("/")[0])
        for line in _others(of, list(names), last.was, printed, language, everything)
    ]
    if lines:
        yield "\n".join([say("signoff-otherwise"), *lines])


def _others(
    of: str,
    names: Sequence[str],
    was: Mapping[str, str],
    now: Mapping[str, str],
    language: Language,
    everything: bool,
) -> Iterator[str]:
    """Yield what is no cell, or is none now, one by one, or how many cells of a table are gone."""
    if len(names) > FEW and not everything:
        yield f"  {language.say('signoff-gone', table=of, count=f'{len(names)}')}"
        return
    for name in names:
        yield f"  {name}: {was[name]} → {now.get(name, '')}".rstrip()


def _before(
    was: Mapping[str, str], cells: Mapping[str, At], language: Language
) -> Iterator[tuple[str, At]]:
    """Yield cells as they were printed when they were signed, where they stand now."""
    for name, text in was.items():
        if text and name in cells:
            cell = cell_of(name, text)
            if isinstance(cell.said, Message) and not _can_be_said(cell.said, language):
                cell = replace(cell, said=text)
            yield name, cells[name]._replace(cell=cell)


def _can_be_said(message: Message, language: Language) -> bool:
    """Whether a message that an older version recorded still has its wording."""
    with suppress(KeyError):
        return bool(language.say(message)) or True
    return False


def _by_page(document: Document, language: Language) -> Iterator[str]:
    """Yield what was copied, by paper and page; what has changed since has a bar before it."""
    last = document.head.last_signed
    was = last.was if last else {}
    for paper in document.head.papers:
        title = f"{paper.title} {paper.number}".strip() or language.say("report-bench-card")
        pages: dict[str, list[Given]] = {}
        for one in document.given:
            if one.paper == paper.id:
                pages.setdefault(one.page, []).append(one)
        for page, figures in sorted(pages.items(), key=lambda one: order(one[0])):
            named = language.say("report-page", document=title, page=page) if page else title
            yield "\n".join([named, *_figures(figures, was)])


def _figures(several: Iterable[Given], was: Mapping[str, str]) -> Iterator[str]:
    """Yield copied figures, those of one row or entry in a line."""
    for parent, group in groupby(several, lambda one: one.id.rpartition("/")[0]):
        figures = list(group)
        said = ", ".join(f"{one.id.rpartition('/')[2]} {told(one.value)}" for one in figures)
        name = parent.removeprefix("given").lstrip("/")
        bar = "|" if any(one.id in was for one in figures) else " "
        yield f"{bar} {name}: {said}" if name else f"{bar} {said}"


def _lacking(one: Ready, asked: Asked, language: Language) -> Iterator[str]:
    """Yield who has still to sign after this, if anybody."""
    if not is_enough(((each.by, each.role) for each in one.signatures), asked):
        wanted = (f"{asked.names}", *asked.roles)
        yield language.say("signoff-more", signers=signers(one.signatures), asked=wanted)


# -- signing


def sign(folder: Path, cards: Sequence[Ready]) -> list[Path]:
    """Write each card's line into its airframe's file, and its record: all, or none.

    Returns
    -------
    list of Path
        The files that were written.

    Raises
    ------
    DefinitionError
        If a line cannot be written without changing what a file says.
    """
    lines: dict[Path, bytes] = {}
    records: dict[Path, str] = {}
    for one in cards:
        file = one.definition.airframe.place.file
        path = inside(folder, Path(file))
        lines[path] = signed_off(content_of(path, file), file, [*map(_plain, one.signatures)])
        at = new_record(folder, one.document.head.registration, one.record.date)
        inside(folder, at.relative_to(folder))
        records[at] = written(one.record)
    made: list[Path] = []
    try:
        for at, text in records.items():
            at.parent.mkdir(parents=True, exist_ok=True)
            with at.open("x", encoding="utf-8", newline="\n") as file_:
                made.append(at)
                file_.write(text)
        replace_files(lines)
    except BaseException:
        for at in made:
            at.unlink(missing_ok=True)
        raise
    return [*lines, *records]


def _plain(one: Signature) -> dict[str, str]:
    role = {"role": one.role} if one.role else {}
    card = {"card": one.card} if one.card else {}
    return {"by": one.by, **role, "date": one.date, "figures": one.figures, **card}
