"""Definition files rewritten to the newest format: only what a step changes is touched.

A step's changes are made in the text itself, at the places that they name, so that
every comment, quotation mark and blank of the rest stays as it was typed. What comes
out is read again, and has to be what the step makes of the file in memory.
"""

import re
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

import yaml
from pydantic import BaseModel

from cardgen.definition.files import content_of, inside, read_in
from cardgen.definition.fleet import read_fleet
from cardgen.definition.model import AirframeDefinition, School, TypeDefinition
from cardgen.definition.places import Block, DefinitionError, Fault, Figure, Place
from cardgen.definition.reading import parse_yaml
from cardgen.definition.upgrading import STEPS, Change, Listed, Renamed, version_of

MARK = b"\xef\xbb\xbf"  # of byte order, which some editors put first
_LINE = re.compile("\r\n|[\n\r]")  # where YAML ends one
_Loader: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


class Edit(NamedTuple):
    """A part of a text, from one character to another, and what stands there instead."""

    start: int
    end: int
    new: str


class Text:
    """A definition's text, and the nodes of YAML in it."""

    def __init__(self, text: str) -> None:
        self.text = text
        # The last mark may stand at the beginning of a line that is not there.
        self.lines = [0, *(found.end() for found in _LINE.finditer(text)), len(text)]
        self.root: Any = yaml.compose(text, Loader=_Loader)

    def at(self, mark: Any) -> int:
        """Return which character of the text stands at a mark."""
        return int(self.lines[mark.line] + mark.column)

    def span(self, node: Any) -> tuple[int, int]:
        """Return where a node begins and ends."""
        return self.at(node.start_mark), self.at(node.end_mark)

    def node(self, kind: type, place: Place) -> Any:
        """Return the node of a kind that begins at a place."""
        wanted = (place.line - 1, place.column - 1)
        for node in nodes(self.root):
            mark = node.start_mark
            if isinstance(node, kind) and (mark.line, mark.column) == wanted:
                return node
        raise LookupError(place)

    @property
    def line_end(self) -> str:
        """How the text ends a line."""
        found = _LINE.search(self.text)
        return found[0] if found else "\n"


def nodes(node: Any) -> Iterator[Any]:
    """Yield a node of YAML, and all that are in it."""
    yield node
    if isinstance(node, yaml.MappingNode):
        for pair in node.value:
            yield from (inner for one in pair for inner in nodes(one))
    elif isinstance(node, yaml.SequenceNode):
        yield from (inner for one in node.value for inner in nodes(one))


def renew(folder: Path) -> list[Path]:
    """Rewrite a folder's definitions to the newest format: all that are older, or none.

    Parameters
    ----------
    folder : Path
        See `read_fleet`.

    Returns
    -------
    list of Path
        The files that were rewritten.

    Raises
    ------
    DefinitionError
        If the definitions have faults, or a file that has to be rewritten by hand.
    """
    read_fleet(folder)
    models: dict[Path, type[BaseModel]] = {Path("school.yaml"): School}
    models |= dict.fromkeys(read_in(folder, "types"), TypeDefinition)
    models |= dict.fromkeys(read_in(folder, "fleet"), AirframeDefinition)
    faults: list[Fault] = []
    new: dict[Path, bytes] = {}
    for path, model in models.items():
        content = content_of(inside(folder, path), path.as_posix())
        try:
            written = renewed(model, content, path.as_posix())
        except DefinitionError as error:
            faults += error.faults
            continue
        if written != content:
            new[folder / path] = written
    if faults:
        raise DefinitionError(faults)
    replace_files(new)
    return list(new)


def renewed(model: type[BaseModel], content: bytes, name: str) -> bytes:
    """Return the bytes of a definition file in the newest format; see `renew`."""
    for version, step in enumerate(STEPS, start=1):
        block = parse_yaml(content, name)
        if version_of(block) > version:
            continue
        mark = MARK if content.startswith(MARK) else b""
        text = Text(content.decode("utf-8-sig"))
        changes = list(step(model, block))
        edits = [edit for change in changes for edit in _edits(text, change)]
        edits.append(_format(text, version + 1))
        content = mark + edited(text.text, edits).encode()
        if not _says(content, name, block, version + 1):
            at = changes[0].at if changes else block.place
            said = f"cannot be rewritten here; rewrite it by hand, and say format: {version + 1}"
            raise DefinitionError([Fault(at, said)])
    return content


def _says(content: bytes, name: str, block: Block, version: int) -> bool:
    """Whether a rewritten file says what the block of it does, in the new format."""
    try:
        found = parse_yaml(content, name)
    except DefinitionError:
        return False
    return found.get("format") == version and plain(found) == plain(block)


def plain(value: Any) -> Any:
    """Return a file's content as it was typed, without places and the format's version."""
    if isinstance(value, Block):
        return {key: plain(inner) for key, inner in value.items() if key != "format"}
    if isinstance(value, list):
        return [plain(inner) for inner in value]
    return (value.text,) if isinstance(value, Figure) else value


def edited(text: str, edits: list[Edit]) -> str:
    """Return a text with some parts of it edited."""
    for edit in sorted(edits, reverse=True):
        text = text[: edit.start] + edit.new + text[edit.end :]
    return text


def _edits(text: Text, change: Change) -> Iterator[Edit]:
    if isinstance(change, Renamed):
        start, end = text.span(text.node(yaml.ScalarNode, change.at))
        quote = text.text[start] if text.text[start] in "'\"" else ""
        yield Edit(start, end, f"{quote}{change.name}{quote}")
        return
    mapping = text.node(yaml.MappingNode, change.at)
    yield from (_listed_flow if mapping.flow_style else _listed)(text, mapping, change)


def _listed_flow(text: Text, mapping: Any, change: Listed) -> Iterator[Edit]:
    """``{a: b}`` becomes ``[{key: a, value: b}]``."""
    start, end = text.span(mapping)
    yield Edit(start, start + 1, "[")
    yield Edit(end - 1, end, "]")
    for key, value in mapping.value:
        (start, end), (_, value_end) = text.span(key), text.span(value)
        yield Edit(start, start, f"{{{change.key}: ")
        yield Edit(end, end, f", {change.value}")
        if re.match(r":\S", text.text[end : end + 2]):  # may follow a key in quotes only
            yield Edit(end + 1, end + 1, " ")
        yield Edit(value_end, value_end, "}")


def _listed(text: Text, mapping: Any, change: Listed) -> Iterator[Edit]:
    """``a: b`` becomes ``- key: a`` and, on a line below, ``value: b``, further in by two."""
    for key, value in mapping.value:
        start, end = text.span(key)
        indent = " " * (key.start_mark.column + 2)
        yield Edit(start, start, f"- {change.key}: ")
        yield Edit(end, end, f"{text.line_end}{indent}{change.value}")
        last = value.end_mark.line + bool(value.end_mark.column)
        for line in range(key.end_mark.line + 1, last):
            at = text.lines[line]
            if _LINE.match(text.text, at) is None:
                yield Edit(at, at, "  ")


def _format(text: Text, version: int) -> Edit:
    """Say the version of the format: where it stands, or else in a line of its own at the end."""
    for key, value in text.root.value:
        if key.value == "format":
            return Edit(*text.span(value), str(version))
    return added(text, f"format: {version}")


def added(text: Text, said: str) -> Edit:
    """Say a key and its value in lines of their own at the end of a definition."""
    start, _ = text.span(text.root)
    if text.root.flow_style:
        return Edit(start + 1, start + 1, f"{said}, ")
    line, indent = f"{said}{text.line_end}", " " * text.root.start_mark.column
    end_mark = re.search(r"^\.\.\.(?=\s|$)", text.text, re.MULTILINE)
    end = end_mark.start() if end_mark else len(text.text)
    if end in text.lines[:-1]:
        return Edit(end, end, f"{indent}{line}")
    return Edit(start, start, f"{line}{indent}")  # the last line has no end, and is left so


def replace_files(contents: dict[Path, bytes]) -> None:
    """Put new contents in the place of files: of all, or of none."""
    before = {path: path.read_bytes() for path in contents}
    written = {path: path.with_name(f".{path.name}.new") for path in contents}
    try:
        for path, new in written.items():
            new.unlink(missing_ok=True)  # what stands there may be a link that leads elsewhere
            new.write_bytes(contents[path])
            shutil.copymode(path, new)
        for path, new in written.items():
            new.replace(path.resolve())
    except BaseException:
        for path, content in before.items():
            if path.read_bytes() != content:
                path.write_bytes(content)
        raise
    finally:
        for new in written.values():
            new.unlink(missing_ok=True)
