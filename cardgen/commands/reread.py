"""The command ``reread``: the figures of pages that are revised."""

import argparse
import sys

from cardgen.commands import MisuseError
from cardgen.commands.asked import add_definitions
from cardgen.definition.fleet import read_fleet
from cardgen.definition.places import near_match
from cardgen.publish.pages import asked
from cardgen.publish.rereading import as_text, labels_of, numbers_of, to_reread
from cardgen.words.english import ENGLISH


def add_options(command: argparse.ArgumentParser) -> None:
    """Add what the command may be asked."""
    command.description = (
        "List the figures to read again when a manual or a supplement is revised: page by page, "
        "those that were copied from the pages that the revision names."
    )
    command.add_argument(
        "pages",
        metavar="PAGES",
        help='such as "2-3, 5-12 to 5-14", in quotation marks',
    )
    command.add_argument(
        "--document", metavar="NUMBER", help="the manual's or supplement's number (default: all)"
    )
    add_definitions(command, option=True)
    command.set_defaults(run=run)


def run(options: argparse.Namespace) -> None:
    """Do what is asked."""
    fleet = read_fleet(options.definitions)
    numbers = numbers_of(fleet)
    wanted = options.document
    if wanted is not None and wanted not in numbers:
        raise MisuseError(
            f"--document {wanted}: expected one of {', '.join(numbers)}"
            + near_match(wanted, numbers)
        )
    try:
        pages = asked(options.pages, labels_of(fleet))
    except ValueError as error:
        raise MisuseError(f"{error}: expected pages such as 2-3 to 2-7") from None
    found = to_reread(fleet, pages, wanted)
    print(as_text(found, pages, options.definitions, ENGLISH))
    count = len(found)
    print(f"{count} figure{'' if count == 1 else 's'} to read again", file=sys.stderr)
