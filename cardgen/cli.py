"""The command line: parse, call, print.

A command imports what it needs when it is run, so that one does not wait for what another uses.
"""

import argparse
import gc
import io
import re
import sys
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from cardgen import __version__
from cardgen.asked import MisuseError, airspeed, direction, number, setting
from cardgen.definition.names import ALTERNATE, NORMAL
from cardgen.definition.speeds import KINDS

if TYPE_CHECKING:
    from pathlib import Path

    from cardgen.definition.places import DefinitionError
    from cardgen.publish.rereading import Pages

DONE, FAULTY, MISUSED, FAILED, CHANGED, WORSE = range(6)  # exit codes
EXITS = """exit codes:
  0  done
  1  the definitions have errors, or warnings under --strict; a template or picture is at fault
  2  the command line was wrong
  3  something outside failed, such as a missing system library or a full disk
  4  compare: what is printed changes
  5  compare: it changes for the worse"""
SHELLS = ("bash", "zsh", "tcsh")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command line and return its exit code, one of `EXITS`."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")  # a path may be no text
    gc.set_threshold(100_000)  # nearly all that is made is needed to the end
    arguments = sys.argv[1:] if arguments is None else arguments
    options = _parser(arguments).parse_args(arguments)
    try:
        return int(options.run(options) or DONE)
    except Exception as error:
        return _told(error, options)


def _told(error: Exception, options: argparse.Namespace) -> int:
    """Say what went wrong and return the exit code; what is our own fault is raised again."""
    from cardgen.air.bounds import OutOfBoundsError
    from cardgen.definition.places import DefinitionError
    from cardgen.definition.shown import escaped
    from cardgen.folders import OwnFileError
    from cardgen.publish.place import PlaceError
    from cardgen.render.press import PdfError

    if isinstance(error, DefinitionError):
        return _faulty(error, options)
    if isinstance(error, OwnFileError):
        print(escaped(f"{options.definitions / 'templates'}/{error}"), file=sys.stderr)
        return FAULTY
    if not isinstance(error, (MisuseError, OutOfBoundsError, PlaceError, PdfError, OSError)):
        raise error
    print(f"cardgen: {error}", file=sys.stderr)
    return FAILED if isinstance(error, (PdfError, OSError)) else MISUSED


def _faulty(error: "DefinitionError", options: argparse.Namespace) -> int:
    from cardgen.checks.run import of_faults
    from cardgen.publish import report
    from cardgen.words.english import ENGLISH

    found = of_faults(error.faults)
    print(report.as_text(found, options.definitions, ENGLISH), file=sys.stderr)
    count = len(found)
    print(f"{count} error{'s' if count > 1 else ''}; nothing was written", file=sys.stderr)
    return FAULTY


def _parser(arguments: Sequence[str]) -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="cardgen",
        description="Airspeed reference cards from aircraft definitions. Reference only: verify "
        "against the approved flight manual.",
        epilog=EXITS,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--version", action="version", version=f"cardgen {__version__}")
    parser.add_argument(
        "--print-completion",
        action=_Completion,
        choices=SHELLS,
        help="print what completes commands and options in a shell",
    )
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    for name, (said, add) in COMMANDS.items():
        command = commands.add_parser(name, help=said)
        if name in arguments:  # others need no arguments, not even for --help
            add(command)
    return parser


class _Completion(argparse.Action):
    """Prints a shell's completion of the whole parser, and ends."""

    def __call__(
        self, parser: argparse.ArgumentParser, space: object, value: object, option: object = None
    ) -> None:
        import shtab

        print(shtab.complete(_parser(list(COMMANDS)), shell=str(value)))
        parser.exit()


def _add_build(command: argparse.ArgumentParser) -> None:
    from cardgen.building import add_options

    command.description = "Build a fleet's web site and kneeboard cards; only what has changed."
    _add_definitions(command)
    add_options(command)
    _add_strict(command)


def _add_strict(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--strict", action="store_true", help="fail on a warning that is not accepted too"
    )


def _add_check(command: argparse.ArgumentParser) -> None:
    command.description = (
        "Read the definitions and hold them against themselves and published rules. Exits 1 where "
        "an error forbids a card."
    )
    _add_definitions(command)
    command.add_argument(
        "--format",
        choices=("text", "json", "github"),
        default="text",
        help="text for people, json for programs, github for annotations (default: %(default)s)",
    )
    _add_strict(command)
    command.set_defaults(run=_check)


def _check(options: argparse.Namespace) -> int:
    import datetime

    from cardgen.checks.run import forbids, of_faults
    from cardgen.definition.fleet import read_fleet
    from cardgen.definition.places import DefinitionError
    from cardgen.publish import report
    from cardgen.publish.checking import check
    from cardgen.words.english import ENGLISH

    try:
        found = list(check(read_fleet(options.definitions), datetime.date.today()))
    except DefinitionError as error:
        found = of_faults(error.faults)
    write = {"text": report.as_text, "json": report.as_json, "github": report.as_annotations}
    said = write[options.format](found, options.definitions, ENGLISH)
    if said:
        print(said)
    print(report.summary(found), file=sys.stderr)
    return FAULTY if any(forbids(one, options.strict) for one in found) else DONE


def _add_compare(command: argparse.ArgumentParser) -> None:
    from pathlib import Path

    command.description = (
        "List every number that a change prints differently, what is for the worse first, and "
        "the edit that moved it. Exits 0 where nothing printed changes, 4 where it changes, 5 "
        "where it changes for the worse."
    )
    what = "a git revision, a folder of definitions, or a built site"
    command.add_argument("base", metavar="BASE", help=f"the state before: {what}")
    command.add_argument(
        "head", metavar="HEAD", nargs="?", help="the state after (default: the working tree)"
    )
    _add_definitions(command, option=True)
    command.add_argument(
        "--format",
        choices=("text", "markdown", "json"),
        default="text",
        help="text for people, markdown for a comment, json for programs (default: %(default)s)",
    )
    command.add_argument("--all", action="store_true", help="every number in the text")
    command.add_argument("--html", type=Path, metavar="FILE", help="write a page of it as well")
    command.set_defaults(run=_compare)


def _compare(options: argparse.Namespace) -> int:
    import datetime
    from pathlib import Path

    from cardgen.definition.places import DefinitionError
    from cardgen.document.data import comparison_json
    from cardgen.publish import compared
    from cardgen.publish.comparing import compare
    from cardgen.publish.states import StateError, state_of, working
    from cardgen.words.english import ENGLISH

    try:
        base = state_of(options.base, options.definitions)
        head = (
            working(options.definitions)
            if options.head is None
            else state_of(options.head, options.definitions)
        )
        found = compare(base, head, datetime.date.today())
    except StateError as error:
        raise MisuseError(error) from None
    except DefinitionError:
        options.definitions = Path()  # places say the whole way, and at which revision
        raise
    comparison = found.comparison
    if options.format == "json":
        print(comparison_json(comparison))
    elif options.format == "markdown":
        print(compared.as_markdown(comparison, ENGLISH))
    else:
        print(compared.as_text(comparison, ENGLISH, options.all))
    if options.html is not None:
        from cardgen.render.comparison import comparison_page
        from cardgen.render.templates import Templates

        templates = Templates(options.definitions / "templates")
        page = comparison_page(templates, comparison, found.documents)
        options.html.write_text(page, encoding="utf-8", newline="\n")
    if comparison.is_worse:
        return WORSE
    return CHANGED if comparison.is_changed else DONE


def _add_reread(command: argparse.ArgumentParser) -> None:
    command.description = (
        "List the figures to read again when a manual or a supplement is revised: page by page, "
        "those that were copied from the pages that the revision names."
    )
    command.add_argument(
        "pages",
        type=_pages,
        metavar="PAGES",
        help='such as "2-3, 5-12 to 5-14", in quotation marks',
    )
    command.add_argument(
        "--document", metavar="NUMBER", help="the manual's or supplement's number (default: all)"
    )
    _add_definitions(command, option=True)
    command.set_defaults(run=_reread)


def _pages(text: str) -> list["Pages"]:
    from cardgen.publish.rereading import pages_of

    try:
        return pages_of(text)
    except ValueError as error:
        raise argparse.ArgumentTypeError(f"{error}: expected pages such as 2-3 to 2-7") from None


def _reread(options: argparse.Namespace) -> None:
    from cardgen.definition.fleet import read_fleet
    from cardgen.definition.places import near_match
    from cardgen.publish.rereading import as_text, numbers_of, to_reread
    from cardgen.words.english import ENGLISH

    fleet = read_fleet(options.definitions)
    numbers = numbers_of(fleet)
    wanted = options.document
    if wanted is not None and wanted not in numbers:
        raise MisuseError(
            f"--document {wanted}: expected one of {', '.join(numbers)}"
            + near_match(wanted, numbers)
        )
    found = to_reread(fleet, options.pages, wanted)
    print(as_text(found, options.pages, options.definitions, ENGLISH))
    count = len(found)
    print(f"{count} figure{'' if count == 1 else 's'} to read again", file=sys.stderr)


def _add_start(command: argparse.ArgumentParser) -> None:
    command.description = (
        "Write a new definition file with blanks to fill in; never over an old one."
    )
    command.add_argument("what", nargs="?", choices=("school", "type", "airframe"))
    command.add_argument(
        "name", nargs="?", metavar="NAME", help="of the school or the type, or the registration"
    )
    command.add_argument("--kind", choices=KINDS, help="the kind of aircraft, for a type")
    command.add_argument("--type", metavar="TYPE", help="the type's file name, for an airframe")
    command.add_argument(
        "--schema", action="store_true", help="write the JSON Schemas that editors help with"
    )
    _add_definitions(command, option=True)
    command.set_defaults(run=_start)


def _start(options: argparse.Namespace) -> None:
    from cardgen.definition.places import near_match
    from cardgen.definition.schema import FILES, schema
    from cardgen.definition.shown import hidden, told
    from cardgen.definition.start import new_airframe, new_school, new_type

    folder, name = options.definitions, options.name
    templates = folder / "templates"
    if options.what is None and not options.schema:
        raise MisuseError(
            "say what to start: school, type NAME --kind KIND, airframe NAME, or --schema"
        )
    if name and (at := hidden(name)) is not None:
        raise MisuseError(f"the name has the character {told(name[at])}, expected ones that show")
    if options.what in ("type", "airframe") and name is None:
        raise MisuseError(f"start {options.what} needs a name")
    if options.what == "school":
        school = new_school(templates, folder / "types", *([name] if name else []))
        _write(folder, "school.yaml", school)
    elif options.what == "type":
        if options.kind is None:
            raise MisuseError(f"start type needs --kind, one of {', '.join(KINDS)}")
        path = f"types/{_file_name(name)}.yaml"
        _write(folder, path, new_type(templates, name, options.kind))
    elif options.what == "airframe":
        stems = (path.stem for path in (folder / "types").glob("*.yaml"))
        known = sorted(stem for stem in stems if hidden(stem) is None)
        if options.type not in known:
            raise MisuseError(
                f"start airframe needs --type, one of {', '.join(known) or 'none yet'}"
                + near_match(options.type or "", known)
            )
        path = f"fleet/{_file_name(name)}.yaml"
        _write(folder, path, new_airframe(templates, name, options.type))
    for file in FILES:
        path = f"schemas/{file}"
        if options.schema or not (folder / path).exists():  # the first line of each file names one
            _write(folder, path, schema(file), anew=True)


def _file_name(name: str) -> str:
    from cardgen.definition.names import is_taken

    said = "-".join(re.findall(r"[a-z0-9]+", name.lower()))[:60] or "new"
    return f"new-{said}" if is_taken(said) else said


def _write(folder: "Path", name: str, text: str, anew: bool = False) -> None:
    """Write a file; over an old one only where it is made anew from the program."""
    from pathlib import Path

    from cardgen.definition.files import inside

    inside(folder, Path(name))
    path = folder / name
    path.parent.mkdir(parents=True, exist_ok=True)
    try:
        with path.open("w" if anew else "x", encoding="utf-8", newline="\n") as file:
            file.write(text)
    except FileExistsError:
        raise MisuseError(f"{path} is there already; nothing was written") from None
    print(f"Wrote {path}")


def _add_renew(command: argparse.ArgumentParser) -> None:
    command.description = (
        "Rewrite definition files to the newest format, all or none. Comments, order, quotation "
        "marks and figures stay as they are; a file of the newest format is not touched."
    )
    _add_definitions(command)
    command.set_defaults(run=_renew)


def _renew(options: argparse.Namespace) -> None:
    from cardgen.definition.renewing import renew
    from cardgen.definition.upgrading import STEPS

    rewritten = renew(options.definitions)
    for path in rewritten:
        print(f"Rewrote {path}")
    print(
        f"{len(rewritten) or 'No'} file{'' if len(rewritten) == 1 else 's'} rewritten; all are "
        f"of format {len(STEPS) + 1}."
    )


def _add_definitions(command: argparse.ArgumentParser, option: bool = False) -> None:
    from pathlib import Path

    if option:
        command.add_argument(
            "--definitions",
            type=Path,
            default=Path("aircraft"),
            metavar="AIRCRAFT_DIR",
            help="default: %(default)s",
        )
        return
    command.add_argument(
        "definitions",
        nargs="?",
        type=Path,
        default=Path("aircraft"),
        metavar="AIRCRAFT_DIR",
        help="folder with school.yaml, types/ and fleet/ (default: %(default)s)",
    )


def _add_reckon(command: argparse.ArgumentParser) -> None:
    command.description = (
        "Work one airspeed from IAS through to the ground, or back to IAS. Airspeeds are in the "
        "indicator's unit, altitude and temperature in the manual's, wind in knots."
    )
    command.add_argument("registration", metavar="REGISTRATION")
    speed = command.add_mutually_exclusive_group(required=True)
    for name, what in (("ias", "IAS: what the pointer shows"), ("cas", "CAS"), ("tas", "TAS")):
        speed.add_argument(f"--{name}", type=airspeed, metavar="SPEED", help=what)
    command.add_argument("--flaps", help="flap setting (default: retracted)")
    command.add_argument("--gear", choices=("up", "down"), help="landing gear, where it retracts")
    command.add_argument("--static-source", choices=(NORMAL, ALTERNATE), default=NORMAL)
    height = command.add_mutually_exclusive_group()
    height.add_argument("--altitude", type=number, help="what the altimeter shows; with --qnh")
    height.add_argument("--pressure-altitude", type=number, metavar="ALTITUDE")
    command.add_argument("--qnh", type=setting, help="altimeter setting: 29.92 or 1013")
    warmth = command.add_mutually_exclusive_group()
    warmth.add_argument("--oat", type=number, help="outside air temperature")
    warmth.add_argument("--isa", type=number, metavar="DEVIATION", help="difference from standard")
    command.add_argument(
        "--wind", metavar="FROM/SPEED", help="such as 240/18, in knots, or 240/20mph; with --course"
    )
    command.add_argument("--course", type=direction, metavar="DEGREES")
    command.add_argument("--json", action="store_true", help="print unrounded values as JSON")
    _add_definitions(command, option=True)
    command.set_defaults(run=_reckon)


def _reckon(options: argparse.Namespace) -> None:
    from cardgen import reckon

    reckon.run(options)


COMMANDS: dict[str, tuple[str, Callable[[argparse.ArgumentParser], None]]] = {
    "build": ("build a fleet's web site and kneeboard cards", _add_build),
    "check": ("hold the definitions against the rules", _add_check),
    "compare": ("list what a change prints differently", _add_compare),
    "reread": ("list the figures of pages that are revised", _add_reread),
    "start": ("write a new definition file to fill in", _add_start),
    "renew": ("rewrite definitions to the newest format", _add_renew),
    "reckon": ("work one airspeed from IAS to ground speed", _add_reckon),
}
