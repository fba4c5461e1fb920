"""Signatures in words: who signed, and what has changed since, by V-speed and table."""

from collections.abc import Iterable

from cardgen.document.record import WORDED, Document, Message, Signature, SignedState
from cardgen.words.language import Language

_FACTS = {
    "type": "compare-fact-type",
    "kind": "compare-fact-kind",
    "serial": "compare-fact-serial",
    "indicator": "compare-fact-indicator",
    "school": "compare-fact-school",
    "paper": "signed-papers",
    "remark": "signed-remarks",
}  # what else the head says stands in tables too


def signer(one: Signature | SignedState) -> Message:
    """Return who signed, and when."""
    values = {"by": one.by, "role": one.role, "date": one.date}
    return Message("signed-signer-role" if one.role else "signed-signer", {**values})


def signers(several: Iterable[Signature]) -> Message:
    """Return who signed, and when, of all who did."""
    return Message("several", {"parts": tuple(map(signer, several))})


_KINDS = {"speeds": 0, "head": 1}  # the place of each among what is told


def subjects(language: Language, document: Document, changed: Iterable[str]) -> tuple[str, ...]:
    """Return what some identifiers are about, each once: V-speeds as they stand first.

    Parameters
    ----------
    language : Language
    document : Document
        The card as it is now, in which some of them may stand no longer.
    changed : iterable of str
        Identifiers of cells, of facts or of copied figures.
    """
    titles = {table.id: language.say(table.title) for table in document.tables}
    speeds = document.table("speeds")
    named = {row.id: language.figure(row.cells[0]) for row in speeds.rows} if speeds else {}
    told: dict[str, None] = {}
    copied = False
    rows = list(named)

    def place(one: str) -> tuple[int, int]:
        table, _, rest = one.partition("/")
        row = _row(rest) if table == "speeds" else ""
        return _KINDS.get(table, len(_KINDS)), rows.index(row) if row in rows else len(rows)

    for one in sorted(changed, key=place):
        table, _, rest = one.partition("/")
        if table == "given":
            copied = True
            kind, _, of = rest.partition("/")
            about = named.get(_row(of)) if kind == "speeds" else titles.get(kind)
            told |= {about: None} if about and one.endswith(WORDED) else {}
        elif table == "head":
            told |= {language.say(_FACTS[rest]): None} if rest in _FACTS else {}
        elif table == "speeds":
            told[named.get(_row(rest)) or language.say("signed-gone")] = None
        else:
            told[titles.get(table) or language.say("signed-gone")] = None
    if copied and not told:
        told[language.say("signed-copied")] = None
    return tuple(told)


def _row(cell: str) -> str:
    """Return the row of a cell of the V-speeds."""
    return cell.removesuffix("/beside").rpartition("/")[0]


def fewer(language: Language, told: tuple[str, ...], few: int) -> tuple[str, ...]:
    """Return the first of what is told, and how many are left out."""
    left = len(told) - few
    return (*told[:few], language.say("signed-more", count=f"{left}")) if left else told
