"""The line that says who signed, written into an airframe's file; all else stays as it was typed.

As in `renewing.py`, only the line itself is touched in the text, and what comes out has to say the
same but for it.
"""

import json
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

import yaml

from cardgen.definition.places import Block, DefinitionError, Fault
from cardgen.definition.reading import parse_yaml
from cardgen.definition.renewing import MARK, Edit, Text, added, edited, nodes, plain

KEY = "sign off"
_PLAIN = re.compile(r"[^\W\d_][\w.'()/-]*( [\w.'()/-]+)*")  # words that need no quotes among others
_NOTHING = {"null"}


def line_of(signature: Mapping[str, str]) -> str:
    """Return a signature as a line of a definition.

    Examples
    --------
    >>> line_of({"by": "P. Pipit", "role": "tower: chief", "figures": "5B07-1BA0"})
    '{by: P. Pipit, role: "tower: chief", figures: 5B07-1BA0}'
    """
    return f"{{{', '.join(f'{key}: {_typed(text)}' for key, text in signature.items())}}}"


def _typed(text: str) -> str:
    is_mark = re.fullmatch(r"[0-9A-F]{4}-[0-9A-F]{4}|\d{4}-\d\d-\d\d", text, re.ASCII)
    is_plain = _PLAIN.fullmatch(text) and text not in _NOTHING
    return text if is_mark or is_plain else json.dumps(text, ensure_ascii=False)


def signed_off(content: bytes, name: str, signatures: Sequence[Mapping[str, str]]) -> bytes:
    """Return the bytes of an airframe's file with its signatures, instead of those it had.

    Parameters
    ----------
    content : bytes
    name : str
        What messages call the file.
    signatures : sequence of mapping
        One, or several; each with what is under ``sign off``, by key.

    Raises
    ------
    DefinitionError
        If the file would not say the same but for them.
    """
    mark = MARK if content.startswith(MARK) else b""
    text = Text(content.decode("utf-8-sig"))
    new = mark + edited(text.text, [*_edits(text, signatures)]).encode()
    before = parse_yaml(content, name)
    if not _says(new, name, before, signatures):
        lines = ", ".join(map(line_of, signatures))
        said = f"cannot be written here; write it by hand: {KEY}: [{lines}]"
        raise DefinitionError([Fault(before.keys_at.get(KEY, before.place), said)])
    return new


def _edits(text: Text, signatures: Sequence[Mapping[str, str]]) -> Iterator[Edit]:
    lines = [line_of(one) for one in signatures]
    for key, value in text.root.value:
        if key.value == KEY:
            (begin, start), end = text.span(key), max(_ends(text, value))
            yield Edit(start, end, f":{_value(text, lines)}")
            indent = " " * key.start_mark.column
            kept = (f"{one}{text.line_end}{indent}" for one in _comments(text, start, end, value))
            yield Edit(begin, begin, "".join(kept))
            return
    yield added(text, f"{KEY}:{_value(text, lines)}")


def _comments(text: Text, start: int, end: int, value: Any) -> list[str]:
    """Return the comments between a key and the end of its value, which are kept above it."""
    scalars = (one for one in nodes(value) if isinstance(one, yaml.ScalarNode))
    found, at = [], start
    for begin, after in [*sorted(map(text.span, scalars)), (end, end)]:
        found += re.findall(r"(?<!\S)#.*", text.text[at:begin])
        at = after
    return [one.rstrip() for one in found]


def _value(text: Text, lines: Sequence[str]) -> str:
    """Return what stands behind the key: one signature, or several below one another."""
    if len(lines) == 1:
        return f" {lines[0]}"
    if text.root.flow_style:
        return f" [{', '.join(lines)}]"
    indent = " " * (text.root.start_mark.column + 2)
    return "".join(f"{text.line_end}{indent}- {one}" for one in lines)


def _ends(text: Text, node: Any) -> Iterable[int]:
    """Yield where a value's words end; a block itself goes on over comments to the next key."""
    if isinstance(node, yaml.ScalarNode) or node.flow_style:
        yield text.span(node)[1]
        return
    for one in node.value:
        for inner in one if isinstance(one, tuple) else (one,):
            yield from _ends(text, inner)


def _says(
    content: bytes, name: str, before: Block, signatures: Sequence[Mapping[str, str]]
) -> bool:
    """Whether a file says what it did, and the signatures."""
    try:
        after: dict[str, Any] = plain(parse_yaml(content, name))
    except DefinitionError:
        return False
    signed = after.pop(KEY, None)
    was = {key: value for key, value in plain(before).items() if key != KEY}
    return after == was and signed in ([*map(dict, signatures)], dict(signatures[0]))
