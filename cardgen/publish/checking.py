"""All that `check` finds: what the rules say, and how it stands with the signatures."""

import datetime
from collections.abc import Iterator, Sequence
from pathlib import Path

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.card import make_document
from cardgen.cards.head import given_of, head_of
from cardgen.checks import run
from cardgen.checks.rule import Finding, Rule, Severity, tell
from cardgen.definition.fleet import AircraftDefinition, Fleet
from cardgen.definition.model import School
from cardgen.definition.places import Place
from cardgen.definition.signed import records_of
from cardgen.document.record import Marks, Message
from cardgen.document.signature import state_of, valid_to
from cardgen.review.marks import card_mark, mark_of_figures
from cardgen.review.records import Record, believed, held


def _rule(name: str, severity: Severity, look: str) -> Rule:
    return Rule(name, severity, look, "cardgen", lambda: iter(()))


_UNSIGNED = _rule("unsigned", Severity.NOTE, "look-unsigned")
_SIGNATURE = _rule("signature", Severity.WARNING, "look-signature")
_LAPSED = _rule("signature-lapsed", Severity.WARNING, "look-unsigned")
_DATE = _rule("signature-date", Severity.WARNING, "look-unsigned")
_RECORD = _rule("signature-record", Severity.WARNING, "look-signature-record")
_RECOMPUTED = _rule("signature-recomputed", Severity.NOTE, "look-signature")
OF_SIGNATURES = (_UNSIGNED, _SIGNATURE, _LAPSED, _DATE, _RECORD, _RECOMPUTED)


def check(fleet: Fleet, today: datetime.date, folder: Path | None = None) -> tuple[Finding, ...]:
    """Run every rule on a fleet, and look at its signatures; see `run.check`.

    Parameters
    ----------
    fleet : Fleet
    today : date
        The day that manuals, bench cards and signatures are held against.
    folder : Path, optional
        Of the definitions, where the records of signed cards stand.
    """
    found = run.check(fleet, today)
    forbidden = {one.about for one in found if one.severity is Severity.ERROR}
    return (*found, *_of_signatures(fleet, today, folder, forbidden))


def forbids(one: Finding, strict: bool) -> bool:
    """Whether `check` fails by a finding; see `run.forbids`. In strict runs all must be signed."""
    return run.forbids(one, strict) or (strict and one.rule in OF_SIGNATURES)


def _of_signatures(
    fleet: Fleet, today: datetime.date, folder: Path | None, forbidden: set[str]
) -> Iterator[Finding]:
    for one in fleet.aircraft:
        files = records_of(folder, one.registration) if folder else []
        records = [believed(date, text, one.registration) for date, text, _ in files]
        for (_, _, file), told in zip(files, records, strict=True):
            if isinstance(told, Message):
                yield Finding(_RECORD, Place(file, 1, 1), told)
        if not one.airframe.sign_off:
            yield Finding(_UNSIGNED, one.airframe.place, Message("finding-unsigned"))
        elif forbidden.isdisjoint({one.airframe.place.file, one.type.place.file}):
            yield from _of_signature(one, fleet.school, today, records if folder else None)


def _of_signature(
    definition: AircraftDefinition,
    school: School,
    today: datetime.date,
    records: Sequence[Record | Message] | None,
) -> Iterator[Finding]:
    aircraft, signed = Aircraft(definition), definition.airframe.sign_off
    head = head_of(aircraft, school)
    if records is not None:
        head = held(head, records)
    figures = mark_of_figures(head.papers, tuple(given_of(aircraft)))
    is_card_asked = any(one.card and one.figures == figures for one in head.signatures)
    card = card_mark(make_document(aircraft, school)) if is_card_asked else ""
    marks = Marks(card, figures)
    for one, signature in zip(signed, head.signatures, strict=True):
        if signature.date > f"{today}":
            told = tell(one.place_of("date"), "finding-signature-date", date=signature.date)
            yield Finding(_DATE, *told)
        if not signature.held:
            told = tell(one.place, "finding-signature-record", by=one.by, date=f"{one.date}")
            yield Finding(_RECORD, *told)
        if signature.figures != marks.figures:
            values = {"signed": one.figures, "mark": marks.figures}
            yield Finding(_SIGNATURE, *tell(one.place_of("figures"), "finding-signature", **values))
    state, last = state_of(head, marks), valid_to(head, marks)
    at = signed[0].place_of("date")
    if state == "partial":
        who = ", ".join(filter(None, (f"{head.asked.names}", *head.asked.roles)))
        yield Finding(_UNSIGNED, *tell(signed[0].place, "finding-unsigned-partial", asked=who))
    if state == "recomputed":
        yield Finding(_RECOMPUTED, *tell(at, "finding-signature-recomputed"))
    if last and f"{today}" > last:
        yield Finding(_LAPSED, *tell(at, "finding-signature-lapsed", date=last))
