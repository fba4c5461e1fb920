"""Files of records of signed cards, beside the definitions: ``signed/ZZ-DUB/2026-03-02.txt``."""

import datetime
import re
from pathlib import Path
from typing import NamedTuple

from cardgen.definition import files
from cardgen.definition.files import LARGEST_RECORD, SIGNED, content_of, inside
from cardgen.definition.places import DefinitionError
from cardgen.definition.shown import hidden

MOST = 4 * LARGEST_RECORD  # characters of all records of an aircraft; one has some 40,000

_NAME = re.compile(r"(?P<date>\d{4}-\d\d-\d\d)(-(?P<number>[1-9]\d{0,3}))?\.txt", re.ASCII)


class RecordFile(NamedTuple):
    """A record: the day in its name, what it says, its place in the folder of the definitions.

    `text` is None where it cannot be read, has a character that does not show, or where its name
    is no day; and of the oldest, where all together are too much.
    """

    date: str
    text: str | None
    file: str


def records_of(folder: Path, registration: str) -> list[RecordFile]:
    """Return the records of an aircraft in a folder of definitions, the oldest first."""
    names = (path.name for path in files.records_of(folder, registration))
    found = sorted(
        (one["date"], int(one["number"] or 1), one[0]) for one in map(_NAME.fullmatch, names) if one
    )
    records, left = [], MOST
    for date, _, name in reversed(found):
        record = _read(folder, f"{SIGNED}/{registration}/{name}", date)
        left -= len(record.text or "")
        records.append(record if left > 0 else record._replace(text=None))
    return records[::-1]


def _read(folder: Path, file: str, date: str) -> RecordFile:
    try:
        datetime.date.fromisoformat(date)
        text = content_of(inside(folder, Path(file)), file, LARGEST_RECORD).decode()
    except (OSError, ValueError, DefinitionError):
        return RecordFile(date, None, file)
    return RecordFile(date, None if hidden(text.replace("\r\n", "\n")) is not None else text, file)


def new_record(folder: Path, registration: str, date: str) -> Path:
    """Return where the next record of a day will stand."""
    of_aircraft = folder / SIGNED / registration
    number = 1
    while (path := of_aircraft / f"{date}{f'-{number}' if number > 1 else ''}.txt").exists():
        number += 1
    return path
