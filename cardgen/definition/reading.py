"""Reading a YAML file into blocks, rows, figures and words that know their place.

Only what a definition needs of YAML is taken: mappings, sequences and scalars.
A plain scalar is a number where it looks like one, and otherwise the words
that were typed, so ``no`` stays a word and ``12:30`` does not become 750.
"""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import yaml

from cardgen.definition.files import LARGEST_FILE, content_of
from cardgen.definition.places import Block, DefinitionError, Fault, Figure, Place, Rows, Span
from cardgen.definition.shown import hidden, one_line, told

DEEPEST_NESTING = 20
MOST_VALUES = 20_000  # of a file; a manual of many tables has some 3,000
MOST_KEYS = 100  # of a group; the names of speeds and weights are keys too
MOST_OF = {Block: 200, Rows: 500}  # of what a list may have: groups, rows of a table
MOST_ITEMS = 200  # of a list of figures or words
LONGEST_TEXT = 1_000  # characters of a key or a value; what is printed has a lower bound each
LONGEST_NUMBER = 20

_NUMBER = re.compile(r"[-+]?([0-9]+(\.[0-9]*)?|\.[0-9]+)")
_NOTHING = {"", "~", "null"}
_Loader: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


def read_yaml(path: Path, name: str | None = None) -> Block:
    """Read a definition file.

    Parameters
    ----------
    path : Path
        The file.
    name : str, optional
        What messages call the file; its path where left out.

    Returns
    -------
    Block
        The file's mapping.

    Raises
    ------
    DefinitionError
        If the file cannot be read as a mapping of YAML; with every duplicate
        key, not only the first.
    """
    name = name or str(path)
    return parse_yaml(content_of(path, name), name)


def parse_yaml(content: bytes, name: str) -> Block:
    r"""Parse the bytes of a definition file called `name`; see `read_yaml`.

    Examples
    --------
    >>> block = parse_yaml(b"VNE: 151\nVNO: 119", "dunlin.yaml")
    >>> block["VNO"].text, str(block["VNO"].place)
    ('119', 'dunlin.yaml:2:6')
    """
    start = Place(name, 1, 1)
    if len(content) > LARGEST_FILE:
        raise DefinitionError(
            [Fault(start, f"the file has {len(content)} bytes, expected at most 1 MiB")]
        )
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        column = error.start - (content.rfind(b"\n", 0, error.start) + 1) + 1
        found = f"byte 0x{content[error.start]:02X} is not UTF-8 text; save the file as UTF-8"
        raise DefinitionError([Fault(Place(name, line, column), found)]) from None
    if (at := hidden(text.replace("\r", "\n"))) is not None:
        before = text[:at]
        place = Place(name, before.count("\n") + 1, at - before.rfind("\n"))
        raise DefinitionError([Fault(place, _not_shown(text[at]))])
    builder = _Builder(name, yaml.parse(text, Loader=_Loader))
    try:
        value, _ = builder.document()
    except yaml.YAMLError as error:
        raise DefinitionError([*builder.faults, _syntax_fault(error, text, name)]) from None
    if not isinstance(value, Block):
        found = "nothing" if value is None else kind_of(value)
        builder.faults.append(Fault(start, f"found {found}, expected a mapping of keys"))
    if builder.faults:
        raise DefinitionError(builder.faults)
    assert isinstance(value, Block)
    return value


def kind_of(value: object) -> str:
    """Say what a value read from YAML is, for a message.

    Examples
    --------
    >>> kind_of(Figure("12", Place("", 1, 1))), kind_of("1O8"), kind_of(None)
    ('the number 12', "the words '1O8'", 'nothing')
    """
    if value is None:
        return "nothing"
    if isinstance(value, Span):
        return f"the range {value.text}"
    if isinstance(value, Figure):
        return f"the number {value.text}"
    if isinstance(value, dict):
        return "a mapping of keys"
    if isinstance(value, list):
        return "a list"
    return f"the words '{value}'"


def _not_shown(one: str) -> str:
    return f"found the character {told(one)}, expected characters that show"


class _Builder:
    """Builds values from YAML's events, and gathers faults on the way."""

    def __init__(self, name: str, events: Iterator[Any]) -> None:
        self.name = name
        self.events = events
        self.faults: list[Fault] = []
        self.values = 0

    def document(self) -> tuple[Any, Place]:
        value, place = None, Place(self.name, 1, 1)
        documents = 0
        for event in self.events:
            if isinstance(event, yaml.DocumentStartEvent):
                documents += 1
                if documents > 1:
                    self._stop(event, "a second YAML document; a definition file holds one")
                value, place = self._value(next(self.events), 0)
        return value, place

    def _value(self, event: Any, depth: int) -> tuple[Any, Place]:
        place = self._place(event)
        if depth > DEEPEST_NESTING:
            self._stop(event, f"nested deeper than {DEEPEST_NESTING} levels")
        if isinstance(event, yaml.AliasEvent):
            self._stop(
                event, f"the alias *{event.anchor}; write the figures out, each in its place"
            )
        if event.tag is not None and event.tag != "!":
            self._stop(event, f"the tag {event.tag}; definitions have no tags")
        if isinstance(event, yaml.ScalarEvent):
            return self._scalar(event, place), place
        if isinstance(event, yaml.MappingStartEvent):
            return self._block(place, depth), place
        return self._rows(place, depth), place

    def _block(self, place: Place, depth: int) -> Block:
        block = Block(place)
        last, end = "", -1  # the key before, and where its number ends
        while not isinstance(event := next(self.events), yaml.MappingEndEvent):
            if not isinstance(event, yaml.ScalarEvent):
                self._stop(event, "a key that is not a word")
            key_place = self._place(event)
            key = self._key(event, key_place)
            following = next(self.events)
            value, value_place = self._value(following, depth + 1)
            if value is None and event.start_mark.index == end + 1 and key[:1].isdigit():
                block[last] = f"{block[last]},{key}"  # 1,653 between braces
                end = event.end_mark.index
                continue
            if key in block:
                first = block.keys_at[key].line
                self.faults.append(
                    Fault(key_place, f"the key {key} stands on line {first} already")
                )
            else:
                block[key] = value
                block.keys_at[key], block.values_at[key] = key_place, value_place
                number = isinstance(value, Figure)
                last, end = key, following.end_mark.index if number else -1
        self._bounded(place, "keys", len(block), MOST_KEYS)
        return block

    def _rows(self, place: Place, depth: int) -> Rows:
        rows = Rows(place)
        while not isinstance(event := next(self.events), yaml.SequenceEndEvent):
            if isinstance(event, yaml.ScalarEvent) and event.tag is None:  # most are figures
                item_place = self._place(event)
                value = self._scalar(event, item_place)
            else:
                value, item_place = self._value(event, depth + 1)
            rows.append(value)
            rows.items_at.append(item_place)
        if len(rows) > MOST_ITEMS:
            self._bounded(place, "items", len(rows), MOST_OF.get(type(rows[0]), MOST_ITEMS))
        return rows

    def _bounded(self, place: Place, what: str, count: int, most: int) -> None:
        if count > most:
            self.faults.append(Fault(place, f"found {count} {what}, expected {most} at most"))

    def _key(self, event: Any, place: Place) -> str:
        if event.tag is not None and event.tag != "!":
            self._stop(event, f"the tag {event.tag}; definitions have no tags")
        if event.value == "<<" and not event.style:
            self._stop(event, "the merge key <<; write the figures out, each in its place")
        return self._text(event, place)

    def _text(self, event: Any, place: Place) -> str:
        """Return the text of a scalar on one line; what it may not have is told."""
        self.values += 1
        if self.values > MOST_VALUES:
            self._stop(event, f"more than {MOST_VALUES:,} keys and values; a definition has fewer")
        text: str = event.value
        if len(text) > LONGEST_TEXT:
            said = f"found {len(text)} characters, expected {LONGEST_TEXT} at most"
            self.faults.append(Fault(place, said))
            return text[:LONGEST_TEXT]
        # The characters of what is not quoted were looked at with the file's.
        if event.style and (at := hidden(text)) is not None:
            self.faults.append(Fault(place, _not_shown(text[at])))
        return one_line(text)

    def _scalar(self, event: Any, place: Place) -> Any:
        text = self._text(event, place)
        if event.style:  # quoted or block text is words, whatever it looks like
            return text
        if text in _NOTHING:
            return None
        if _NUMBER.fullmatch(text):
            if len(text) > LONGEST_NUMBER:
                said = f"found {len(text)} digits, expected {LONGEST_NUMBER} at most"
                self.faults.append(Fault(place, said))
            return Figure(text[:LONGEST_NUMBER], place)
        if "-" not in text and Span.is_range(text):  # with a hyphen it may be a page
            return Span(text, place)
        return text

    def _place(self, event: Any) -> Place:
        mark = event.start_mark
        return Place(self.name, mark.line + 1, mark.column + 1)

    def _stop(self, event: Any, found: str) -> None:
        raise yaml.MarkedYAMLError(None, None, f"found {found}", event.start_mark)


# What the parser says of a slip, and what mends it.
_SYNTAX = (
    ("mapping values are not allowed", "words with a colon stand in quotation marks; or is the "
     "line set in too far, or a comma or bracket missing above?"),
    ("could not find expected ':'", "a key has a colon behind it"),
    ("did not find expected ',' or", "is a comma or a bracket missing?"),
    ("did not find expected key", "is the line set in otherwise than its neighbours, or a "
     "quotation mark missing?"),
    ("cannot start any token", "words that begin with a sign stand in quotation marks"),
    ("unexpected end of stream", "is a quotation mark or a bracket missing?"),
)  # fmt: skip


def _syntax_fault(error: yaml.YAMLError, text: str, name: str) -> Fault:
    mark: Any = getattr(error, "problem_mark", None)
    line = dict(enumerate(text.splitlines())).get(mark.line, "")
    indent = line[: len(line) - len(line.lstrip())]
    if "\t" in indent:
        place = Place(name, mark.line + 1, indent.index("\t") + 1)
        return Fault(place, "found a tab, expected spaces; a line is set in with spaces only")
    parts = (getattr(error, "problem", None), getattr(error, "context", None))
    message = ", ".join(part for part in parts if part)
    remedy = next((f"; {mend}" for said, mend in _SYNTAX if said in message), "")
    if remedy or not message.startswith("found "):
        message = f"not YAML: {message}{remedy}"
    return Fault(Place(name, mark.line + 1, mark.column + 1), message)
