"""A comparison as text for a terminal, and as Markdown for a comment of a merge request."""

import re
from collections.abc import Iterable, Iterator, Sequence

from cardgen.definition.shown import escaped
from cardgen.document.comparison import Comparison
from cardgen.words.comparing import Edited, Line, Tabled, Teller, Told, Worse
from cardgen.words.language import Language

MOST = 60_000  # characters of a comment
_FIRST = 20_000  # of it for what stands before the folds, half for each list


def as_text(comparison: Comparison, language: Language, everything: bool = False) -> str:
    """Return a comparison for a terminal: what is for the worse, the edits, then the rest.

    Parameters
    ----------
    comparison : Comparison
    language : Language
    everything : bool
        Whether to tell every number, and not only the greatest change of a table.
    """
    teller = Teller(language, comparison)
    parts = [
        [_worse(one) for one in teller.worse(everything)],
        _section(language.say("compare-edited"), map(_edited, teller.edits(everything))),
        *(list(_told(one, everything)) for one in teller.aircraft()),
        teller.unused(),
        [teller.sides(), teller.verdict()],
    ]
    return _joined(parts)


def changes_as_text(comparison: Comparison, language: Language, everything: bool) -> str:
    """Return only the numbers that changed, what is for the worse first; see `as_text`."""
    teller = Teller(language, comparison)
    worse = [_worse(one) for one in teller.worse(everything)]
    return _joined([worse, *(list(_told(one, everything)) for one in teller.aircraft())])


def _joined(parts: Iterable[Sequence[str]]) -> str:
    return escaped("\n\n".join("\n".join(part) for part in parts if part))


def _section(heading: str, lines: Iterable[str]) -> list[str]:
    lines = list(lines)
    return [heading, *lines] if lines else []


def _worse(one: Worse) -> str:
    return "; ".join(filter(None, (one.said, ", ".join(one.aircraft), one.by)))


def _edited(one: Edited) -> str:
    stands = ", ".join(filter(None, (one.where, one.page)))
    return f"{one.number:>3}  {stands}: {one.said}{_of(one.aircraft)}"


def _of(aircraft: Sequence[str]) -> str:
    return f" ({', '.join(aircraft)})" if aircraft else ""


def _told(one: Told, everything: bool) -> Iterator[str]:
    yield f"{', '.join(one.aircraft)}, {one.type}"
    yield from (f"  {said}" for said in one.said)
    for table in one.tables:
        if not everything:
            yield f"  {table.title}: {table.said}"
            continue
        yield f"  {table.title}"
        yield from (f"    {_line(line)}" for line in table.lines)


def _line(one: Line) -> str:
    why = ", ".join(filter(None, (one.worse, one.by)))
    return f"{one.row}, {one.column}: {one.before} → {one.after}" + (f" ({why})" if why else "")


# -- Markdown


def as_markdown(comparison: Comparison, language: Language) -> str:
    """Return a comparison as Markdown, within `MOST` characters however much has changed.

    What is for the worse and the edits stand open, every number in a fold for
    each aircraft; what has no room is counted.
    """
    teller, say = Teller(language, comparison), language.say
    worse = [f"- {_strong(one)}" for one in teller.worse()]
    edits = [_edit_row(one) for one in teller.edits()]
    head = [
        f"### {_safe(teller.verdict())}",
        *_bounded(_section(f"**{say('compare-first')}**\n", worse)),
        *_bounded(_edit_table(edits, language)),
        *(f"- {_safe(one)}" for one in teller.unused()),
    ]
    foot = f"\n{_safe(teller.sides())}\n"
    said = "\n".join(head)
    left = MOST - len(said) - len(foot) - 500  # for what is said of what is left out
    folds, skipped = [], 0
    for one in teller.aircraft():
        fold, missing = _fold(one, language, left)
        skipped += missing
        left -= len(fold) + 1
        folds.append(fold)
    more = []
    if skipped:
        tables = say("compare-tables-left", count=f"{skipped}")
        more = [f"\n{_safe(say('compare-left-out', tables=tables))}"]
    return "\n".join([said, *filter(None, folds), *more, foot])


def _strong(one: Worse) -> str:
    said = _worse(one._replace(said=""))
    return f"**{_safe(one.said)}**; {_safe(said)}"


def _bounded(lines: Sequence[str]) -> list[str]:
    """Return as many lines as have room before the folds."""
    room = _FIRST // 2
    kept: list[str] = []
    for line in lines:
        room -= len(line) + 1
        if room < 0:
            kept.append(f"- … {len(lines) - len(kept)}")
            break
        kept.append(line)
    return ["", *kept] if kept else []


def _edit_table(rows: Sequence[str], language: Language) -> list[str]:
    if not rows:
        return []
    names = ("compare-what", "compare-where", "compare-page")
    heads = " | ".join(_safe(language.say(name)) for name in names)
    return [f"| | {heads} |", "|---|---|---|---|", *rows]


def _edit_row(one: Edited) -> str:
    what = _safe(one.said + _of(one.aircraft))
    return f"| {one.number} | {what} | {_safe(one.where)} | {_safe(one.page)} |"


def _fold(one: Told, language: Language, room: int) -> tuple[str, int]:
    """Return a fold of aircraft, and how many of its tables had no room in it."""
    names = _escaped_html(f"{', '.join(one.aircraft)}, {one.type}")
    said = f"\n<details><summary>{names}</summary>\n"
    parts = [said, *(f"- {_safe(sentence)}" for sentence in one.said), ""]
    room -= sum(len(part) + 1 for part in parts) + len("</details>\n")
    if room < 0:
        return "", len(one.tables) or 1
    missing = 0
    for table in one.tables:
        text = _table(table, language)
        if len(text) > room:
            text = f"**{_safe(table.title)}**: {_safe(table.said)}\n"
            missing += 1
        if len(text) <= room:
            parts.append(text)
            room -= len(text) + 1
    return "\n".join([*parts, "</details>\n"]), missing


def _table(table: Tabled, language: Language) -> str:
    names = ("row", "column-name", "before", "now", "by")
    heads = " | ".join(_safe(language.say(f"compare-{name}")) for name in names)
    rows = [
        f"| {' | '.join(map(_safe, (one.row, one.column, one.before, one.after)))} | {_why(one)} |"
        for one in table.lines
    ]
    return "\n".join([f"**{_safe(table.title)}**\n", f"| {heads} |", "|---" * 5 + "|", *rows, ""])


def _why(one: Line) -> str:
    strong = f"**{_safe(one.worse)}**" if one.worse else ""
    return ", ".join(filter(None, (strong, _safe(one.by))))


def _safe(text: str) -> str:
    """Return words as Markdown shows them: not a mark of it, no HTML."""
    return re.sub(r"([\\`*_\[\]<>|~$&])", r"\\\1", _unnamed(text))


def _escaped_html(text: str) -> str:
    """Return words for a place where Markdown reads HTML only."""
    return _unnamed(text).replace("&", "&amp;").replace("<", "&lt;")


def _unnamed(text: str) -> str:
    """Return words on one line, of which no host makes a link to a person or a request."""
    return re.sub(r"([@#!])", "\\1\u2060", " ".join(escaped(text).split()))
