"""A language: messages put into sentences.

A wording is a text with blanks and terms. ``{speed}`` is filled by what a
message calls ``speed``: a quantity by its number and unit, ``{speed:number}``
by its number alone, ``{speed:close}`` by both without a space,
``{speed:typed}`` by both as a definition's file holds them. ``{speed:shown}``
is IAS, which no page converts. ``[CAS]`` and
``[reads](IAS)`` are terms, which pages link to the glossary.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from cardgen.document.record import Cell, Column, Message, Quantity, Unit, Value
from cardgen.words.numbers import CLOSE, DASH, MINUS, number, symbol, typed, with_unit

_PART = re.compile(
    r"\{(?P<blank>\w+)(?::(?P<form>\w+))?\}|\[(?P<text>[^\]]+)\](?:\((?P<term>[^)]+)\))?"
)


@dataclass(frozen=True, slots=True)
class Segment:
    """A part of a sentence.

    Attributes
    ----------
    text : str
    term : str
        The entry of the glossary that the text is a term of, if any.
    quantity : Quantity, optional
        What the text is the number and unit of.
    unit : str
        What the text is the symbol of.
    form : str
        How the quantity is written: ``full``, ``number``, ``close`` or
        ``typed``; or ``shown``, for IAS.
    """

    text: str
    term: str = ""
    quantity: Quantity | None = None
    unit: str = ""
    form: str = "full"


@dataclass(frozen=True)
class Language:
    """The wordings of every message.

    Parameters
    ----------
    code : str
        By BCP 47, such as ``en``.
    wordings : mapping of str to str
        By the messages' identifiers.
    """

    code: str
    wordings: Mapping[str, str] = field(repr=False)

    @cached_property
    def _parsed(self) -> dict[str, tuple[Segment | tuple[str, str], ...]]:
        return {}

    def has(self, name: str) -> bool:
        """Whether there is a wording of a name."""
        return name in self.wordings

    def segments(self, message: Message) -> Iterator[Segment]:
        """Yield the parts of a message's sentence.

        Raises
        ------
        KeyError
            If there is no wording for it, or a blank that nothing fills.
        """
        for part in self._parts(message.id):
            if isinstance(part, Segment):
                yield part
            else:
                blank, form = part
                yield from self._filled(message.values[blank], form)

    def say(self, message: Message | str, **values: Value) -> str:
        """Return a message's sentence, plain."""
        if isinstance(message, str):
            message = Message(message, values)
        return "".join(segment.text for segment in self.segments(message))

    def text(self, said: str | Message | None) -> str:
        """Return words that were entered as they are, and a message's sentence."""
        return self.say(said) if isinstance(said, Message) else said or ""

    def figure(self, cell: Cell, column: Column | None = None) -> str:
        """Return what a cell prints: its number, its words, a dash, or nothing."""
        if cell.quantity is None:
            return DASH if cell.is_dash else self.text(cell.said)
        unit = cell.quantity.unit
        said = number(cell.quantity) + (symbol(unit) if unit in CLOSE else "")
        form = column.form if column else "plain"
        if form == "direction":
            return said.lstrip(MINUS)
        plus = form == "signed" and said[0] not in "−+" and said.strip("0.")
        return f"+{said}" if plus else said

    def label(self, cell: Cell, column: Column) -> str:
        """Return the word that stands before a cell's number, if any: a correction's direction."""
        if cell.quantity is None:
            return ""
        if column.form == "direction" and self.figure(cell, column).strip("0."):
            return self.say("add" if cell.quantity.value > 0 else "take-off")
        return ""

    def _parts(self, name: str) -> tuple[Segment | tuple[str, str], ...]:
        found = self._parsed.get(name)
        if found is None:
            found = self._parsed[name] = tuple(_parsed(self.wordings[name]))
        return found

    def _filled(self, value: Value, form: str) -> Iterator[Segment]:
        match value:
            case str():
                yield Segment(value)
            case Unit():
                yield Segment(symbol(value.symbol), unit=value.symbol, form=form)
            case Quantity():
                if form == "number":
                    yield Segment(number(value), quantity=value, form=form)
                elif form == "typed":
                    yield Segment(typed(value), quantity=value, form=form)
                else:
                    said = with_unit(value, close=form == "close")
                    yield Segment(said, quantity=value, form=form)
            case Message():
                yield from self.segments(value)
            case _:
                for n, one in enumerate(value):
                    if n:
                        yield Segment(self.wordings["list-separator"])
                    yield from self._filled(one, form)


def _parsed(wording: str) -> Iterator[Segment | tuple[str, str]]:
    end = 0
    for found in _PART.finditer(wording):
        if found.start() > end:
            yield Segment(wording[end : found.start()])
        if found["blank"]:
            yield found["blank"], found["form"] or "full"
        else:
            yield Segment(found["text"], term=found["term"] or found["text"])
        end = found.end()
    if end < len(wording):
        yield Segment(wording[end:])
