"""The command line: parse, call, print."""

import argparse
import datetime
import json
import re
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from tqdm import tqdm

from cardgen.air import atmosphere
from cardgen.air.bounds import OutOfBoundsError
from cardgen.airframe.aircraft import ALTERNATE, NORMAL, Aircraft
from cardgen.cards.card import make_document, reckonable
from cardgen.checks.rule import Severity
from cardgen.checks.run import of_faults
from cardgen.definition.fleet import Fleet, read_fleet
from cardgen.definition.places import DefinitionError, near_match
from cardgen.definition.renewing import renew
from cardgen.definition.schema import FILES, schema
from cardgen.definition.speeds import KINDS
from cardgen.definition.start import new_airframe, new_school, new_type
from cardgen.definition.upgrading import STEPS
from cardgen.document.record import Head, Quantity
from cardgen.document.rounding import kept
from cardgen.lessons.altimeter import Altimeter
from cardgen.lessons.lines import Line, limit_passed, line
from cardgen.lessons.reckoning import KNOWN, Case, Reckoning, Step, reckon
from cardgen.publish import report
from cardgen.publish.build import build
from cardgen.publish.checking import check
from cardgen.publish.place import PlaceError
from cardgen.publish.rereading import Pages, as_text, numbers_of, pages_of, to_reread
from cardgen.render.pdf import PdfError
from cardgen.review.marks import card_mark
from cardgen.units import convert, from_si, to_si
from cardgen.words.english import ENGLISH

DONE, FAULTY, MISUSED, FAILED, CHANGED, WORSE = range(6)  # exit codes


class MisuseError(Exception):
    """The command line asks for what cannot be."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command line and return its exit code.

    0: done. 1: the definitions have errors. 2: the command line was wrong.
    3: something outside failed, such as a missing system library or a full
    disk. 4 and 5: what `compare` found.
    """
    options = _parser().parse_args(arguments)
    try:
        return int(options.run(options) or DONE)
    except DefinitionError as error:
        found = of_faults(error.faults)
        print(report.as_text(found, options.definitions, ENGLISH), file=sys.stderr)
        count = len(found)
        print(f"{count} error{'s' if count > 1 else ''}; nothing was written", file=sys.stderr)
        return FAULTY
    except (MisuseError, OutOfBoundsError, PlaceError) as error:
        print(f"cardgen: {error}", file=sys.stderr)
        return MISUSED
    except (PdfError, OSError) as error:
        print(f"cardgen: {error}", file=sys.stderr)
        return FAILED


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="cardgen",
        description="Airspeed reference cards from aircraft definitions. Reference only: verify "
        "against the approved flight manual.",
    )
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    _add_build(commands.add_parser("build", help="build a fleet's web site and kneeboard cards"))
    _add_check(commands.add_parser("check", help="hold the definitions against the rules"))
    _add_compare(commands.add_parser("compare", help="list what a change prints differently"))
    _add_reread(commands.add_parser("reread", help="list the figures of pages that are revised"))
    _add_start(commands.add_parser("start", help="write a new definition file to fill in"))
    _add_renew(commands.add_parser("renew", help="rewrite definitions to the newest format"))
    _add_reckon(commands.add_parser("reckon", help="work one airspeed from IAS to ground speed"))
    return parser


def _add_build(command: argparse.ArgumentParser) -> None:
    command.description = "Build a fleet's web site and kneeboard cards."
    _add_definitions(command)
    command.add_argument(
        "--out",
        type=Path,
        default=Path("site"),
        help="folder to write; a site that is there is replaced (default: %(default)s)",
    )
    command.set_defaults(run=_build)


def _build(options: argparse.Namespace) -> None:
    bar: Any = None

    def progress(done: int, total: int, what: str) -> None:
        nonlocal bar
        if not sys.stderr.isatty():
            print(f"{done}/{total} {what}", file=sys.stderr)
            return
        bar = bar or tqdm(total=total, unit="file", leave=False)
        bar.set_description(what)
        bar.update()

    try:
        build(options.definitions, options.out, progress)
    finally:
        if bar is not None:
            bar.close()
    print(f"Built {options.out / 'index.html'}. Verify against the approved flight manual.")


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
    command.set_defaults(run=_check)


def _check(options: argparse.Namespace) -> int:
    try:
        found = list(check(read_fleet(options.definitions), datetime.date.today()))
    except DefinitionError as error:
        found = of_faults(error.faults)
    write = {"text": report.as_text, "json": report.as_json, "github": report.as_annotations}
    said = write[options.format](found, options.definitions, ENGLISH)
    if said:
        print(said)
    print(report.summary(found), file=sys.stderr)
    return FAULTY if any(one.severity is Severity.ERROR for one in found) else DONE


def _add_compare(command: argparse.ArgumentParser) -> None:
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
    from cardgen.document.data import comparison_json
    from cardgen.publish import compared
    from cardgen.publish.comparing import compare
    from cardgen.publish.states import StateError, state_of, working

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


def _pages(text: str) -> list[Pages]:
    try:
        return pages_of(text)
    except ValueError as error:
        raise argparse.ArgumentTypeError(f"{error}: expected pages such as 2-3 to 2-7") from None


def _reread(options: argparse.Namespace) -> None:
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
    folder, name = options.definitions, options.name
    templates = folder / "templates"
    if options.what is None and not options.schema:
        raise MisuseError(
            "say what to start: school, type NAME --kind KIND, airframe NAME, or --schema"
        )
    if options.what in ("type", "airframe") and name is None:
        raise MisuseError(f"start {options.what} needs a name")
    if options.what == "school":
        school = new_school(templates, folder / "types", *([name] if name else []))
        _write(folder / "school.yaml", school)
    elif options.what == "type":
        if options.kind is None:
            raise MisuseError(f"start type needs --kind, one of {', '.join(KINDS)}")
        path = folder / "types" / f"{_file_name(name)}.yaml"
        _write(path, new_type(templates, name, options.kind))
    elif options.what == "airframe":
        known = sorted(path.stem for path in (folder / "types").glob("*.yaml"))
        if options.type not in known:
            raise MisuseError(
                f"start airframe needs --type, one of {', '.join(known) or 'none yet'}"
                + near_match(options.type or "", known)
            )
        path = folder / "fleet" / f"{_file_name(name)}.yaml"
        _write(path, new_airframe(templates, name, options.type))
    for file in FILES:
        path = folder / "schemas" / file
        if options.schema or not path.exists():  # the first line of each file names one
            _write(path, schema(file), anew=True)


def _file_name(name: str) -> str:
    return "-".join(re.findall(r"[a-z0-9]+", name.lower())) or "new"


def _write(path: Path, text: str, anew: bool = False) -> None:
    """Write a file; over an old one only where it is made anew from the program."""
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
    rewritten = renew(options.definitions)
    for path in rewritten:
        print(f"Rewrote {path}")
    print(
        f"{len(rewritten) or 'No'} file{'' if len(rewritten) == 1 else 's'} rewritten; all are "
        f"of format {len(STEPS) + 1}."
    )


def _add_definitions(command: argparse.ArgumentParser, option: bool = False) -> None:
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
        speed.add_argument(f"--{name}", type=_airspeed, metavar="SPEED", help=what)
    command.add_argument("--flaps", help="flap setting (default: retracted)")
    command.add_argument("--gear", choices=("up", "down"), help="landing gear, where it retracts")
    command.add_argument("--static-source", choices=(NORMAL, ALTERNATE), default=NORMAL)
    height = command.add_mutually_exclusive_group()
    height.add_argument("--altitude", type=_number, help="what the altimeter shows; with --qnh")
    height.add_argument("--pressure-altitude", type=_number, metavar="ALTITUDE")
    command.add_argument("--qnh", type=_setting, help="altimeter setting: 29.92 or 1013")
    warmth = command.add_mutually_exclusive_group()
    warmth.add_argument("--oat", type=_number, help="outside air temperature")
    warmth.add_argument("--isa", type=_number, metavar="DEVIATION", help="difference from standard")
    command.add_argument(
        "--wind", metavar="FROM/SPEED", help="such as 240/18, in knots, or 240/20mph; with --course"
    )
    command.add_argument("--course", type=_direction, metavar="DEGREES")
    command.add_argument("--json", action="store_true", help="print unrounded values as JSON")
    _add_definitions(command, option=True)
    command.set_defaults(run=_reckon)


def _number(text: str) -> float:
    """Read a number as people write it: 6,000 is six thousand."""
    plain = text.replace(",", "") if re.fullmatch(r"[-+]?\d{1,3}(,\d{3})+(\.\d+)?", text) else text
    if not re.fullmatch(r"[-+]?(\d+(\.\d*)?|\.\d+)", plain, re.ASCII):
        raise argparse.ArgumentTypeError(f"{text}: expected a number")
    return float(plain) + 0.0  # of −0 it makes 0


def _within(text: str, least: float, most: float, what: str) -> float:
    value = _number(text)
    if not least <= value <= most:
        raise argparse.ArgumentTypeError(f"{text}: expected {what} from {least:g} to {most:g}")
    return value


def _airspeed(text: str) -> float:
    return _within(text, 0, 1000, "a speed")


def _direction(text: str) -> float:
    return _within(text, 0, 360, "a direction in degrees")


def _setting(text: str) -> float:
    value = _number(text)
    if not (25 <= value <= 33 or 850 <= value <= 1100):
        said = "expected inHg from 25 to 33 or hPa from 850 to 1100"
        raise argparse.ArgumentTypeError(f"{text}: {said}")
    return value


def _reckon(options: argparse.Namespace) -> None:
    fleet = read_fleet(options.definitions)
    aircraft = _aircraft(fleet, options.registration)
    document = reckonable(aircraft, fleet.school)
    worked = reckon(document, _case(options, aircraft))
    if options.json:
        mark = card_mark(make_document(aircraft, fleet.school))
        print(json.dumps(_as_json(document.head, mark, worked), indent=1, ensure_ascii=False))
    else:
        _print_steps(document.head, worked)


def _as_json(head: Head, mark: str, worked: Reckoning) -> dict[str, object]:
    """Return a working for programs: what was found, by what formula, from which page."""
    steps = [
        {
            "step": one.id,
            "value": one.quantity.value if one.quantity else None,
            "unit": one.quantity.unit if one.quantity else "",
            "formula": one.formula,
            "page": one.page,
            "working": ENGLISH.text(one.working),
        }
        for one in (*worked.altimeter, *worked.steps)
    ]
    limits = [
        {
            "limit": one.speed,
            "value": one.limit.value,
            "unit": one.limit.unit,
            "binding": one.binding,
            "said": limit_passed(ENGLISH, one),
        }
        for one in worked.passed
    ]
    return {
        "registration": head.registration,
        "mark": mark,
        **worked.values,
        "units": {**worked.units, "wind": "kt"},
        "steps": steps,
        "limits": limits,
        "notes": list(map(ENGLISH.say, worked.notes)),
    }


def _aircraft(fleet: Fleet, registration: str) -> Aircraft:
    known = {one.registration.casefold(): one for one in fleet.aircraft}
    found = known.get(registration.casefold())
    if found is None:
        names = [one.registration for one in fleet.aircraft]
        raise MisuseError(
            f"no aircraft {registration}, expected one of {', '.join(names)}"
            + near_match(registration, names)
        )
    return Aircraft(found)


def _case(options: argparse.Namespace, aircraft: Aircraft) -> Case:
    known = next(name for name in KNOWN if getattr(options, name) is not None)
    flaps = options.flaps if options.flaps is not None else aircraft.flaps[0]
    if flaps not in aircraft.flaps:
        raise MisuseError(f"--flaps {flaps}: expected one of {', '.join(aircraft.flaps)}")
    altitude = _pressure_altitude(options, aircraft)
    oat = _temperature(options, aircraft, altitude)  # by the altimeter as it is, near enough
    if known == "tas" and (altitude is None or oat is None):
        raise MisuseError("--tas needs an altitude and a temperature to work back from")
    if (options.wind is None) != (options.course is None):
        raise MisuseError("--wind and --course go together")
    wind = _wind(options.wind) if options.wind is not None else None
    return Case(
        known,
        getattr(options, known),
        flaps,
        options.static_source,
        options.pressure_altitude,
        options.oat,
        wind,
        options.course,
        options.gear or "",
        _altimeter(options),
        options.isa,
    )


def _altimeter(options: argparse.Namespace) -> Altimeter | None:
    if options.altitude is None:
        return None
    setting = float(to_si(options.qnh, "inHg" if options.qnh < 100 else "hPa"))
    return Altimeter(options.altitude, setting)


def _pressure_altitude(options: argparse.Namespace, aircraft: Aircraft) -> float | None:
    if (options.altitude is None) != (options.qnh is None):
        raise MisuseError("--altitude and --qnh go together; or give --pressure-altitude")
    if options.altitude is None:
        return None if options.pressure_altitude is None else float(options.pressure_altitude)
    unit, altimeter = aircraft.units.altitude, _altimeter(options)
    assert altimeter is not None
    shown = to_si(altimeter.shown, unit)
    metres = atmosphere.pressure_altitude_from_setting(shown, altimeter.setting)
    return float(from_si(metres, unit))


def _temperature(
    options: argparse.Namespace, aircraft: Aircraft, altitude: float | None
) -> float | None:
    unit = aircraft.units.temperature
    if options.isa is None and options.oat is None:
        return None
    if options.isa is None:
        return _of_air(f"--oat {options.oat:g}", float(options.oat), unit)
    if altitude is None:
        raise MisuseError("--isa needs an altitude; or give --oat")
    oat = float(aircraft.standard_temperature(altitude)) + float(options.isa)
    return _of_air(f"--isa {options.isa:g}", oat, unit)


def _of_air(option: str, oat: float, unit: str) -> float:
    """Return a temperature that air may have, with some to spare over what was ever measured."""
    least, most = (float(convert(bound, "C", unit)) for bound in (-100.0, 60.0))
    if not least <= oat <= most:
        raise MisuseError(f"{option}: expected air from {least:g} to {most:g} °{unit}")
    return oat


def _wind(text: str) -> tuple[float, float]:
    """Read where a wind blows from, and how fast in knots, unless another unit is written."""
    found = re.fullmatch(r"([^/]+)/([^/]*?)\s*(kt|mph|km/h)?", text)
    try:
        if found is None:
            raise ValueError
        blows_from, speed = _direction(found[1]), _within(found[2], 0, 300, "a wind")
    except (ValueError, argparse.ArgumentTypeError):
        raise MisuseError(
            f"--wind {text}: expected direction/speed, such as 240/18 or 240/20mph"
        ) from None
    return blows_from, float(convert(speed, found[3] or "kt", "kt"))


def _print_steps(head: Head, worked: Reckoning) -> None:
    print(f"{head.registration}, {head.type}")
    for one in (*worked.altimeter, *_air_steps(head, worked), *worked.steps):
        _print_line(line(ENGLISH, one))
        if one.working:
            print(f"  {'':<26} {ENGLISH.say(one.working)}")
    for limit in worked.passed:
        print(f"  {limit_passed(ENGLISH, limit)}")
    for note in worked.notes:
        print(f"  {ENGLISH.say(note)}")
    print(ENGLISH.say("reference-only"))


def _air_steps(head: Head, worked: Reckoning) -> list[Step]:
    """Return what the air is like as lines of their own, where it is known."""
    units = head.units
    known = (
        ("pressure-altitude", "pressure_altitude", units.altitude, 0, "plain"),
        ("density-altitude-name", "density_altitude", units.altitude, 0, "plain"),
        ("isa-deviation", "isa_deviation", units.temperature, 1, "signed"),
    )
    return [
        Step(name, Quantity(kept(value), unit, decimals=decimals), form=form)
        for name, result, unit, decimals, form in known
        if (value := worked.values[result]) is not None
    ]


def _print_line(said: Line) -> None:
    print(f"  {said.name:<26} {said.number:>10} {said.unit:<5} {said.reason}".rstrip())
