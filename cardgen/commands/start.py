"""The command ``start``: new definition files to fill in."""

import argparse
import re
from collections.abc import Iterable, Mapping
from pathlib import Path

from cardgen.commands import MisuseError
from cardgen.commands.asked import add_definitions
from cardgen.definition.files import inside, read_in
from cardgen.definition.names import is_taken
from cardgen.definition.places import near_match
from cardgen.definition.recipes import BESIDE, PIPELINES, recipes, top_of
from cardgen.definition.schema import FILES, schema
from cardgen.definition.shown import hidden, path_told, told
from cardgen.definition.speeds import KINDS
from cardgen.definition.start import new_airframe, new_school, new_type
from cardgen.folders import write_whole


def add_options(command: argparse.ArgumentParser) -> None:
    """Add what the command may be asked."""
    command.description = (
        "Write a new definition file with blanks to fill in; never over an old one."
    )
    command.add_argument("what", nargs="?", choices=("school", "type", "airframe", "recipes"))
    command.add_argument(
        "name", nargs="?", metavar="NAME", help="of the school or the type, or the registration"
    )
    command.add_argument("--kind", choices=KINDS, help="the kind of aircraft, for a type")
    command.add_argument("--type", metavar="TYPE", help="the type's file name, for an airframe")
    command.add_argument(
        "--schema", action="store_true", help="write the JSON Schemas that editors help with"
    )
    add_definitions(command, option=True)
    command.set_defaults(run=run)


def run(options: argparse.Namespace) -> None:
    """Do what is asked; all of it is written before any of it is told."""
    folder, name = options.definitions, options.name
    templates = folder / "templates"
    if options.what is None and not options.schema:
        raise MisuseError(
            "say what to start: school, type NAME --kind KIND, airframe NAME, recipes, or --schema"
        )
    if name and (at := hidden(name)) is not None:
        raise MisuseError(f"the name has the character {told(name[at])}, expected ones that show")
    if options.what in ("type", "airframe") and name is None:
        raise MisuseError(f"start {options.what} needs a name")
    written: list[Path] = []
    if options.what == "school":
        school = new_school(templates, folder, *([name] if name else []))
        written += [_write(folder, "school.yaml", school)]
        written += _write_missing(top_of(folder), recipes(BESIDE, folder))
    elif options.what == "type":
        if options.kind is None:
            raise MisuseError(f"start type needs --kind, one of {', '.join(KINDS)}")
        path = f"types/{_file_name(name)}.yaml"
        written += [_write(folder, path, new_type(templates, name, options.kind))]
    elif options.what == "airframe":
        stems = (path.stem for path in read_in(folder, "types"))
        known = sorted(stem for stem in stems if hidden(stem) is None)
        if options.type not in known:
            raise MisuseError(
                f"start airframe needs --type, one of {', '.join(known) or 'none yet'}"
                + near_match(options.type or "", known)
            )
        path = f"fleet/{_file_name(name)}.yaml"
        written += [_write(folder, path, new_airframe(templates, name, options.type))]
    elif options.what == "recipes":
        files = recipes(PIPELINES, folder)
        _refuse_old(top_of(folder), files)
        written += _write_missing(top_of(folder), {**files, **recipes(BESIDE, folder)})
    if options.what != "recipes":
        written += _write_schemas(folder, options.schema)
    for one in written:
        print(f"Wrote {path_told(one)}")


def _file_name(name: str) -> str:
    said = "-".join(re.findall(r"[a-z0-9]+", name.lower()))[:60] or "new"
    return f"new-{said}" if is_taken(said) else said


def _refuse_old(folder: Path, files: Iterable[str]) -> None:
    for name in files:
        if (folder / name).exists():
            raise MisuseError(f"{folder / name} is there already; nothing was written")


def _write_missing(folder: Path, files: Mapping[str, str]) -> list[Path]:
    """Write those of some files that are not there."""
    missing = {name: text for name, text in files.items() if not (folder / name).exists()}
    return [_write(folder, name, text) for name, text in missing.items()]


def _write_schemas(folder: Path, anew: bool) -> list[Path]:
    """Write the schemas, of which the first line of each file names one, or those not there."""
    files = {f"schemas/{file}": schema(file) for file in FILES}
    if not anew:
        return _write_missing(folder, files)
    for name, text in files.items():
        write_whole(_place(folder, name), text.encode())
    return [folder / name for name in files]


def _write(folder: Path, name: str, text: str) -> Path:
    """Write a file, never over an old one, and return its path."""
    path = _place(folder, name)
    try:
        file = path.open("xb")
    except FileExistsError:
        raise MisuseError(f"{path} is there already; nothing was written") from None
    try:
        with file:
            file.write(text.encode())
    except BaseException:
        path.unlink()
        raise
    return path


def _place(folder: Path, name: str) -> Path:
    """Return where a file is to stand, in a folder that is there."""
    inside(folder, Path(name))
    path = folder / name
    path.parent.mkdir(parents=True, exist_ok=True)
    return path
