"""The command ``check``: hold the definitions against the rules."""

import argparse
import datetime
import sys
from pathlib import Path

from cardgen.checks.run import of_faults
from cardgen.commands import DONE, FAILED, FAULTY
from cardgen.commands.asked import add_cache, add_definitions, add_strict
from cardgen.definition.fleet import read_fleet
from cardgen.definition.places import DefinitionError
from cardgen.definition.shown import path_told
from cardgen.publish import report
from cardgen.publish.checking import check, forbids
from cardgen.publish.place import mixed
from cardgen.publish.sarif import as_sarif
from cardgen.publish.store import store_in
from cardgen.words.english import ENGLISH


def add_options(command: argparse.ArgumentParser) -> None:
    """Add what the command may be asked."""
    command.description = (
        "Read the definitions and hold them against themselves and published rules. Exits 1 where "
        "an error forbids a card."
    )
    add_definitions(command)
    command.add_argument(
        "--format",
        choices=("text", "json", "github", "sarif"),
        default="text",
        help="text for people, json for programs, github for annotations, sarif for hosts and "
        "editors (default: %(default)s)",
    )
    command.add_argument(
        "--out",
        type=Path,
        default=Path("site"),
        help="a site, which may have files of two builds after one that was killed "
        "(default: %(default)s)",
    )
    add_cache(command)
    add_strict(command)
    command.set_defaults(run=run)


def run(options: argparse.Namespace) -> int:
    """Do what is asked."""
    try:
        fleet = read_fleet(options.definitions)
        found = list(
            check(fleet, datetime.date.today(), options.definitions, store_in(options.cache))
        )
    except DefinitionError as error:
        found = of_faults(error.faults)
    write = {
        "text": report.as_text,
        "json": report.as_json,
        "github": report.as_annotations,
        "sarif": as_sarif,
    }
    said = write[options.format](found, options.definitions, ENGLISH)
    if said:
        print(said)
    print(report.summary(found), file=sys.stderr)
    if count := mixed(options.out):
        files = "1 file is not what" if count == 1 else f"{count} files are not what"
        said = f"a build ended half way, {files} it lists; build again"
        print(f"cardgen: {path_told(options.out)}: {said}", file=sys.stderr)
    if any(forbids(one, options.strict) for one in found):
        return FAULTY
    return FAILED if count else DONE
