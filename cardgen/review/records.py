"""The record of a signed card: all that was printed, a line for each figure, and back.

Its two marks can be made again from its lines, so that a record that was edited by hand is known.
What changed since a card was signed is a difference of lines.
"""

import itertools
import json
import math
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache

from cardgen.document.record import (
    BLANK,
    Asked,
    Cell,
    Document,
    Head,
    Message,
    Much,
    Quantity,
    SignedState,
    Value,
)
from cardgen.document.record import DASH as DASH_CELL
from cardgen.document.signature import is_enough
from cardgen.review.marks import Part, copied_parts, fact_parts, figure_parts, mark
from cardgen.words.numbers import DASH, MINUS

_KIND = "A signed card, record 1."
FIRST = f"{_KIND} Written by cardgen signoff; its marks tell of a figure edited by hand."
FEW = 20  # figures of one table that a document tells one by one
FACT, GIVEN = "head/", "given/"  # what the names of facts, and of copied figures, begin with
_OF_NUMBERS = "0123456789.+-−–"
_DEEPEST = 20  # brackets within one another; what a card says has some 4
_MOST_LINES = 100_000  # of a record; the largest card there may be has fewer
_LINES = 20_000  # to remember, since one card's records are much alike
_STATED = ("aircraft", "signed by", "role", "date", "manual", "revision", "figures", "card")


class RecordError(ValueError):
    """A text is not the record of a signed card; `line` is the first that is not."""

    def __init__(self, line: int) -> None:
        super().__init__(line)
        self.line = line


@dataclass(frozen=True)
class Record:
    """A card as it was signed.

    Attributes
    ----------
    aircraft, by, role, date, manual, revision : str
    figures, card : str
        The marks that it states.
    lines : tuple of (str, str)
        What was printed and copied: an identifier, and what stood there.
    """

    aircraft: str
    by: str
    role: str
    date: str
    manual: str
    revision: str
    figures: str
    card: str
    lines: tuple[tuple[str, str], ...] = field(repr=False)

    @property
    def printed(self) -> dict[str, str]:
        """What was printed and copied, by identifier; what has one name stands together."""
        together: dict[str, str] = {}
        for name, text in self.lines:
            together[name] = f"{together[name]} {text}" if name in together else text
        return together

    def made_again(self) -> "Record":
        """Return the record with what its lines say of aircraft, manual and marks."""
        card: list[Part] = []
        copied: list[Part] = []
        papers: list[Part] = []
        for name, text in self.lines:
            part = _part(name, text)
            (copied if name.startswith(GIVEN) else card).append(part)
            if part[0] == "paper":
                papers.append(part)
        facts = {part[0]: part[1:] for part in reversed(card)}
        manual = (*facts.get("paper", ()), *[""] * 5)  # the first of the papers
        return replace(
            self,
            aircraft=facts.get("registration", ("",))[0],
            manual=f"{manual[1]} {manual[2]}".strip(),
            revision=manual[3],
            figures=mark([*copied, *papers]),
            card=mark(card),
        )


def record_of(document: Document, by: str = "", role: str = "", date: str = "") -> Record:
    """Return the record of a document that somebody signs."""
    facts = ((f"{FACT}{name}", *said) for name, *said in fact_parts(document))
    copied = copied_parts(document.head.papers, document.given)
    parts = (*facts, *figure_parts(document), *copied)
    record = Record("", by, role, date, "", "", "", "", tuple(map(_line, parts)))
    return record.made_again()


def written(record: Record) -> str:
    """Return a record as text; `parsed` gives it back."""
    said = (record.aircraft, record.by, record.role, record.date, record.manual, record.revision)
    stated = zip(_STATED, (*said, record.figures, record.card), strict=True)
    lines = [*(f"{name}: {text}" for name, text in stated), ""]
    lines += [f"{name}: {text}" for name, text in record.lines]
    return "\n".join([FIRST, *map(str.rstrip, lines)]) + "\n"


def parsed(text: str) -> Record:
    """Read a record, of which nothing is believed yet; see `believed`.

    Raises
    ------
    RecordError
        If the text is no record.
    """
    first, *lines = text.replace("\r\n", "\n").removesuffix("\n").split("\n")
    if not first.startswith(_KIND):
        raise RecordError(1)
    stated = []
    for number, name in enumerate(_STATED):
        said, _, value = (lines[number] if number < len(lines) else "").partition(":")
        if said != name:
            raise RecordError(number + 2)
        stated.append(value.strip())
    body = len(_STATED) + 1
    found: list[tuple[str, str]] = []
    cells: set[str] = set()
    for number, line in enumerate(lines[body:], start=body + 2):
        name, colon, value = line.partition(":")
        found.append((name, value.removeprefix(" ")))
        if not colon or name in cells or len(found) > _MOST_LINES or not _is_sound(*found[-1]):
            raise RecordError(number)
        if not _is_listed(name):
            cells.add(name)
    aircraft, by, role, date, manual, revision, figures, card = stated
    lines_ = tuple(found)
    return Record(aircraft, by, role, date, manual, revision, figures, card, lines_)


# -- a line, and the part of a mark that it stands for


def _line(part: Part) -> tuple[str, str]:
    """Return a part as its line has it: a figure as printed, words and facts as JSON.

    Examples
    --------
    >>> _line(("speeds/VNE/indicated", "151", "kt", "beyond"))
    ('speeds/VNE/indicated', '(151 kt)')
    >>> _line(("speeds/VNE/when", "flaps up")), _line(("speeds/VNE/cas", "-"))
    (('speeds/VNE/when', '"flaps up"'), ('speeds/VNE/cas', '-'))
    """
    name, *said = part
    if _is_listed(name):
        return name, json.dumps(said, ensure_ascii=False)
    if len(said) == 3:
        number, unit, beyond = said
        text = f"{number} {unit}".rstrip()
        return name, f"({text})" if beyond else text
    (words,) = said
    plain = words in ("", "-") or words.startswith("[")
    return name, words if plain else json.dumps(words, ensure_ascii=False)


@lru_cache(_LINES)
def _is_sound(name: str, text: str) -> bool:
    """Whether a line is as it would be written of the part that it stands for."""
    try:
        return _line(_part(name, text))[1] == text
    except (ValueError, TypeError):
        return False


@lru_cache(_LINES)
def _part(name: str, text: str) -> Part:
    """Return the part that a line stands for; a fact's by the name that it has in a mark."""
    if text.count("[") + text.count("{") > _DEEPEST and _depth(text) > _DEEPEST:
        raise ValueError(text)
    if _is_listed(name):
        return (name.removeprefix(FACT), *_words(json.loads(text)))
    if text in ("", "-") or text.startswith("["):
        return (name, text)
    if text.startswith('"'):
        return (name, *_words([json.loads(text)]))
    beyond = text.startswith("(")
    number, gap, unit = text.strip("()").rpartition(" ")
    if not gap or unit[0] in _OF_NUMBERS:  # a range has blanks, and may have no unit
        number, unit = text.strip("()"), ""
    return (name, number, unit, "beyond" if beyond else "")


def _depth(text: str) -> int:
    """Return how many brackets stand within one another, but for those in words."""
    marks = re.findall(r"[\[{}\]]", re.sub(r'"(?:[^"\\]|\\.)*"', "", text))
    return max(itertools.accumulate(1 if one in "[{" else -1 for one in marks), default=0)


def cell_of(name: str, text: str) -> Cell:
    """Return the cell that a line of a record stands for; its number is as it was printed."""
    _, *said = _part(name, text)
    if len(said) == 3:
        number, unit, beyond = said
        low, *high = (_value(one) for one in re.split(f" to |(?<=\\d){DASH}", number))
        quantity = Quantity(low, unit, high[0] if high else None, number)
        return Cell(quantity, beyond=bool(beyond))
    if said[0] in ("", "-"):
        return BLANK if said[0] == "" else DASH_CELL
    words = _retold(said[0])
    return Cell(said=words if isinstance(words, Message) else said[0])


def _value(number: str) -> float:
    try:
        return float(number.replace(",", "").replace(MINUS, "-"))
    except ValueError:
        return math.nan


def _retold(text: str) -> Value:
    """Return what `marks.told` made a text of: a message, several values, or words."""
    try:
        value = json.loads(text) if text.startswith("[") else text
    except ValueError:
        return text
    match value:
        case [str(name), dict(values)]:
            return Message(name, {key: _retold(one) for key, one in values.items()})
        case [*several]:
            return tuple(one for one in map(_retold, several) if not isinstance(one, tuple))
        case _:
            return text


def _is_listed(name: str) -> bool:
    """Whether a line has a list: of a fact, a copied figure, or a figure of a table's heading."""
    return name.startswith((FACT, GIVEN)) or "/" not in name


def _words(values: list[str]) -> list[str]:
    if not all(isinstance(one, str) for one in values):
        raise TypeError
    return values


# -- what changed since


def changes(before: Record, after: Record) -> dict[str, str]:
    """Return what is printed or copied otherwise, as it was before; nothing where it was not."""
    old, new = before.printed, after.printed
    order = (*new, *(name for name in old if name not in new))
    return {name: old.get(name, "") for name in order if old.get(name) != new.get(name)}


def _together(was: dict[str, str], now: Record) -> tuple[dict[str, str], tuple[Much, ...]]:
    """Return what changed, and in short the tables of which more than a few figures did."""
    groups: dict[str, list[str]] = {}
    for name in was:
        groups.setdefault(_of_what(name), []).append(name)
    printed = now.printed
    much = {
        of: _much(of, {name: was[name] for name in names}, printed)
        for of, names in groups.items()
        if len(names) > FEW
    }
    few = {name: text for name, text in was.items() if _of_what(name) not in much}
    return few, tuple(much.values())


def _of_what(name: str) -> str:
    """Return the table that a figure stands in, or the group of what was copied.

    A table's heading, which has no slash in its name, is a thing of its own.
    """
    if "/" not in name:
        return f"{name}/"
    parts = name.split("/")
    return "/".join(parts[: 2 if name.startswith((FACT, GIVEN)) else 1])


def _much(of: str, was: dict[str, str], now: dict[str, str]) -> Much:
    most = max(was, key=lambda name: _size(name, was[name], now.get(name, "")))
    rows: dict[str, dict[str, None]] = {}
    for name in was if "/" not in of else ():
        row, _, column = name.removesuffix("/beside").removeprefix(f"{of}/").rpartition("/")
        rows.setdefault(row, {})[column] = None
    return Much(of, len(was), most, was[most], {row: " ".join(one) for row, one in rows.items()})


def _size(name: str, before: str, after: str) -> float:
    """Return how much a figure changed, to what it was; nothing where there was or is none."""
    if _is_listed(name) or not (before and after):
        return 0.0
    old, new = (cell_of(name, text).quantity for text in (before, after))
    if old is None or new is None or math.isnan(old.value + new.value):
        return 0.0
    return abs(new.value - old.value) / max(abs(old.value), 1e-6)


def believed(date: str, text: str | None, aircraft: str) -> Record | Message:
    """Return the record in a file, or why it does not hold.

    Parameters
    ----------
    date : str
        The day in the file's name.
    text : str or None
        What stands in it, where it can be read.
    aircraft : str
        Whose folder it stands in.
    """
    if text is None:
        return Message("finding-record-unread")
    try:
        record = parsed(text)
    except RecordError as error:
        return Message("finding-record-line", {"line": f"{error.line}"})
    made = record.made_again()
    for wording, stated, found in (
        ("finding-record-date", record.date, date),
        ("finding-record-aircraft", record.aircraft, aircraft),
        ("finding-record-figures", record.figures, made.figures),
        ("finding-record-card", record.card, made.card),
        ("finding-record-aircraft", record.aircraft, made.aircraft),
        ("finding-record-manual", record.manual, made.manual),
        ("finding-record-revision", record.revision, made.revision),
    ):
        if stated != found:
            return Message(wording, {"found": found, "stated": stated})
    return record


def held(head: Head, found: Sequence[Record | Message]) -> Head:
    """Return a head whose signatures know whether they are as their records have them.

    Parameters
    ----------
    head : Head
    found : sequence of Record or Message
        What is `believed` of each record that the aircraft has. Where it has none, a signature
        that was typed by hand, and so names no card, stands by itself.
    """
    known = {
        (one.by, one.date, one.role, one.figures, one.card)
        for one in found
        if isinstance(one, Record)
    }
    signatures = (
        replace(
            one,
            held=(one.by, one.date, one.role, one.figures, one.card) in known
            or not (found or one.card),
        )
        for one in head.signatures
    )
    return replace(head, signatures=tuple(signatures))


def released(
    document: Document, files: Iterable[tuple[str, str | None, str]], whole: bool = False
) -> Document:
    """Return a document, which has its marks, with the states in which it was signed.

    Parameters
    ----------
    document : Document
    files : iterable of (str, str or None, str)
        The days and texts of all records of the aircraft, the oldest first. Of those that do not
        hold nothing is believed.
    whole : bool
        Whether every figure is told of a table, however many of it changed.
    """
    found = [believed(date, text, document.head.registration) for date, text, _ in files]
    sound = [one for one in found if isinstance(one, Record)]
    head = held(document.head, found)
    if sound:
        head = replace(head, signed=tuple(_states(record_of(document), sound, head.asked, whole)))
    return replace(document, head=head)


def _states(
    now: Record, records: Sequence[Record], asked: Asked, whole: bool
) -> Iterator[SignedState]:
    before: Record | None = None
    signers: list[tuple[str, str]] = []
    for one in records:
        if before is not None and before.card != one.card:
            signers = []
        signers.append((one.by, one.role))
        since = changes(one, now)
        was, much = (since, ()) if whole else _together(since, now)
        yield SignedState(
            one.date,
            one.by,
            one.card,
            one.figures,
            one.role,
            is_enough(signers, asked),
            _about(changes(before, one)) if before else (),
            was,
            much,
        )
        before = one


def _about(names: Iterable[str]) -> tuple[str, ...]:
    """Return of some identifiers one for each V-speed, table, fact, and for what was copied."""
    found: dict[str, str] = {}
    for name in names:
        table, _, rest = name.partition("/")
        about = {"given": table, "speeds": rest.rpartition("/")[0], "head": name}
        found.setdefault(about.get(table, table), name)
    return tuple(found.values())
