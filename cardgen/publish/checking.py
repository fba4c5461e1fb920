"""All that `check` finds: what the rules say, and how it stands with the signatures."""

import datetime
from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import asdict, replace
from functools import cached_property
from pathlib import Path
from typing import Any

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.head import given_of, head_of
from cardgen.checks import run
from cardgen.checks.rule import Finding, Rule, Severity, tell
from cardgen.definition.fleet import AircraftDefinition, Fleet
from cardgen.definition.model import School
from cardgen.definition.places import Place
from cardgen.definition.signed import records_of
from cardgen.document.record import Head, Marks, Message
from cardgen.document.signature import state_of, valid_to
from cardgen.publish.keys import Inputs, Maker, definitions_of, documents_key, key
from cardgen.publish.store import Nowhere, Store
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


def check(
    fleet: Fleet,
    today: datetime.date,
    folder: Path | None = None,
    store: Store | None = None,
) -> tuple[Finding, ...]:
    """Run every rule on a fleet, and look at its signatures; see `run.check`.

    Parameters
    ----------
    fleet : Fleet
    today : date
        The day that manuals, bench cards and signatures are held against.
    folder : Path, optional
        Of the definitions, where the records of signed cards stand.
    store : Store, optional
        Where it is kept what was found of cards that are signed, so that none is made twice.
    """
    found = run.check(fleet, today)
    forbidden = {one.about for one in found if one.severity is Severity.ERROR}
    cards = _Signed(fleet.school, folder, store or Nowhere())
    return (*found, *_of_signatures(fleet, today, forbidden, cards))


def forbids(one: Finding, strict: bool) -> bool:
    """Whether `check` fails by a finding; see `run.forbids`. In strict runs all must be signed."""
    return run.forbids(one, strict) or (strict and one.rule in OF_SIGNATURES)


class _Signed:
    """What is asked of cards that are signed: kept where it was found once."""

    def __init__(self, school: School, folder: Path | None, store: Store) -> None:
        self._school, self.folder, self._store = school, folder, store

    @cached_property
    def _inputs(self) -> Inputs:
        files = definitions_of(self.folder) if self.folder else {}
        return Inputs(files, (), Maker(documents_key(), "", "", {}))

    def mark(self, definition: AircraftDefinition) -> str:
        """Return the mark of an aircraft's card, as it would be made now."""

        def made() -> str:
            from cardgen.cards.card import make_document  # dear, and seldom needed

            return card_mark(make_document(Aircraft(definition), self._school))

        if self.folder is None:
            return made()
        files = definition.airframe.place.file, definition.type.place.file
        return str(self._kept(made, self._inputs.document(*files, definition.registration)))

    def records(self, registration: str) -> Iterator[tuple[str, Record | Message]]:
        """Yield the file of each record of an aircraft, and what is believed of it: no lines."""
        for date, text, file in records_of(self.folder, registration) if self.folder else ():

            def made(date: str = date, text: str | None = text) -> dict[str, Any]:
                told = believed(date, text, registration)
                return asdict(replace(told, lines=()) if isinstance(told, Record) else told)

            found = self._kept(made, self._inputs.maker.documents, date, text, registration)
            yield file, Message(**found) if "id" in found else Record(**{**found, "lines": ()})

    def _kept(self, made: Callable[[], Any], *parts: object) -> Any:
        name = key("signed", *parts)
        if entry := self._store.entry(name):
            return entry.about
        found = made()
        with suppress(OSError):  # it is made again another time
            self._store.keep(name, {}, found)
        return found


def _of_signatures(
    fleet: Fleet, today: datetime.date, forbidden: set[str], cards: _Signed
) -> Iterator[Finding]:
    for one in fleet.aircraft:
        records = [*cards.records(one.registration)]
        days = {f"{by.date}" for by in one.airframe.sign_off}  # which are told of there
        for file, told in records:
            if isinstance(told, Message):
                yield Finding(_RECORD, Place(file, 1, 1), told)
            elif told.date > f"{today}" and told.date not in days:
                said = Message("finding-signature-date", {"date": told.date})
                yield Finding(_DATE, Place(file, 1, 1), said)
        if not one.airframe.sign_off:
            yield Finding(_UNSIGNED, one.airframe.place, Message("finding-unsigned"))
        elif forbidden.isdisjoint({one.airframe.place.file, one.type.place.file}):
            head = head_of(Aircraft(one), fleet.school)
            if cards.folder is not None:
                head = held(head, [told for _, told in records])
            yield from _of_signature(one, head, today, cards)


def _of_signature(
    definition: AircraftDefinition, head: Head, today: datetime.date, cards: _Signed
) -> Iterator[Finding]:
    signed = definition.airframe.sign_off
    figures = mark_of_figures(head.papers, tuple(given_of(Aircraft(definition))))
    is_card_asked = any(one.card and one.figures == figures for one in head.signatures)
    card = cards.mark(definition) if is_card_asked else ""
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
