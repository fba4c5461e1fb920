"""The command ``practice``: questions from an aircraft's own numbers, and a key."""

import argparse
from pathlib import Path

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.card import make_document
from cardgen.commands import MisuseError
from cardgen.commands.asked import add_definitions, found_in, whole
from cardgen.definition.fleet import read_fleet
from cardgen.definition.shown import escaped, path_told
from cardgen.folders import write_named
from cardgen.lessons.practice.sheet import COUNT, LEVELS, practice
from cardgen.publish.keys import own_of
from cardgen.publish.work import templates
from cardgen.render.practice import practice_pages, practice_pdfs
from cardgen.review.marks import marked

_MOST = 40  # questions of a sheet


def add_options(command: argparse.ArgumentParser) -> None:
    """Add what the command may be asked."""
    command.description = (
        "Write a sheet of questions from an aircraft's own numbers and the key to it: as a page "
        "that marks answers, and to print. One seed gives one sheet."
    )
    command.add_argument("registration", metavar="REGISTRATION")
    add = command.add_argument
    add("--level", choices=tuple(LEVELS), default=next(iter(LEVELS)), help="default: %(default)s")
    add("--seed", type=whole(0, 999_999), default=1, metavar="N", help="default: %(default)s")
    add(
        "--count",
        type=whole(1, _MOST),
        default=COUNT,
        metavar="N",
        help="questions (default: %(default)s)",
    )
    add(
        "--out",
        type=Path,
        default=Path("practice"),
        metavar="FOLDER",
        help="default: %(default)s",
    )
    add("--no-pdf", action="store_true", help="make no PDFs")
    add(
        "--untrusted",
        action="store_true",
        help="leave the folder's templates and picture alone: they are code",
    )
    add_definitions(command, option=True)
    command.set_defaults(run=run)


def run(options: argparse.Namespace) -> None:
    """Write what is asked for, and say what was written."""
    fleet = read_fleet(options.definitions)
    aircraft = Aircraft(found_in(fleet, options.registration))
    document = marked(make_document(aircraft, fleet.school))
    sheet = practice(document, options.level, options.seed, options.count)
    if not sheet.questions:
        raise MisuseError(f"{sheet.registration} has no figures for a question of {sheet.level}")
    looks = templates(() if options.untrusted else own_of(options.definitions / "templates"))
    files = {name: text.encode() for name, text in practice_pages(looks, sheet).items()}
    if not options.no_pdf:
        files |= practice_pdfs(looks, sheet)
    for name, data in files.items():
        path = options.out / name
        path.parent.mkdir(parents=True, exist_ok=True)
        write_named(path, data)
    for one in sheet.left_out:
        print(escaped(looks.language.say(one)))
    for name in files:
        if "/" not in name:
            print(path_told(options.out / name))
