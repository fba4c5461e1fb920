"""Whether a card has been released, for the figures that it has now, and until when."""

import calendar
import datetime
import itertools
import unicodedata
from collections.abc import Collection, Iterable

from cardgen.document.record import Asked, Head, Marks, Signature, State

VALID: Collection[State] = ("signed", "recomputed")


def state_of(head: Head, marks: Marks) -> State:
    """Return whether a card is signed.

    Parameters
    ----------
    head : Head
    marks : Marks
        Of the card as it is now.

    Returns
    -------
    str
        ``unsigned``; ``doubtful`` where a signature is not as its record has it;
        ``outdated`` where a copied figure has changed since; ``partial`` where
        somebody has still to sign; ``recomputed`` where only what is computed or
        tabulated has changed; ``signed``.
    """
    signatures = head.signatures
    if not signatures:
        return "unsigned"
    if not all(one.held for one in signatures):
        return "doubtful"
    holding = _holding(head, marks)
    if not holding:
        return "outdated"
    if not is_enough(((one.by, one.role) for one in holding), head.asked):
        return "partial"
    same = all(one.card in ("", marks.card) for one in holding)
    return "signed" if same else "recomputed"


def _holding(head: Head, marks: Marks) -> list[Signature]:
    return [one for one in head.signatures if one.held and one.figures == marks.figures]


def is_enough(signers: Iterable[tuple[str, str]], asked: Asked) -> bool:
    """Whether all have signed that a school asks for.

    Each person counts once, and for one of the roles, however often they sign.

    Parameters
    ----------
    signers : iterable of (str, str)
        Names and roles.
    asked : Asked

    Examples
    --------
    >>> is_enough([("One", "instructor"), ("one", "")], Asked(2))
    False
    >>> is_enough([("One", "instructor"), ("Two", "")], Asked(2, ("Instructor",)))
    True
    >>> is_enough([("One", "a"), ("One", "b"), ("Two", "")], Asked(2, ("a", "b")))
    False
    """
    roles: dict[str, set[str]] = {}
    for by, role in signers:
        roles.setdefault(_person(by), set()).add(role.casefold())
    wanted = [role.casefold() for role in asked.roles]
    return len(roles) >= asked.names and any(
        all(role in roles[one] for role, one in zip(wanted, people, strict=True))
        for people in itertools.permutations(roles, len(wanted))
    )


def _person(name: str) -> str:
    """Return a name as it is told from others, in whatever capitals and with whatever blanks."""
    return " ".join(unicodedata.normalize("NFKC", name).casefold().split())


def valid_to(head: Head, marks: Marks) -> str:
    """Return the last day that a signed card is valid; nothing for another, or where none is set.

    The first of its signatures that hold says when.
    """
    if not head.asked.months or state_of(head, marks) not in VALID:
        return ""
    return months_after(min(one.date for one in _holding(head, marks)), head.asked.months)


def months_after(day: str, months: int) -> str:
    """Return the same day of the month some months later, or the last that the month has.

    Examples
    --------
    >>> months_after("2026-01-31", 13), months_after("2026-12-01", 1)
    ('2027-02-28', '2027-01-01')
    """
    first = datetime.date.fromisoformat(day)
    years, month = divmod(first.month - 1 + months, 12)
    year = min(first.year + years, datetime.MAXYEAR)
    last = calendar.monthrange(year, month + 1)[1]
    return f"{first.replace(year, month + 1, min(first.day, last))}"
