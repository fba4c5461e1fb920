"""What several commands may be asked, and numbers as people write them."""

import argparse
import math
import re
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from cardgen.commands import MisuseError
from cardgen.publish.store import default_folder

if TYPE_CHECKING:
    from cardgen.definition.fleet import AircraftDefinition, Fleet


def number(text: str) -> float:
    """Read a number as people write it: 6,000 is six thousand."""
    plain = text.replace(",", "") if re.fullmatch(r"[-+]?\d{1,3}(,\d{3})+(\.\d+)?", text) else text
    if not re.fullmatch(r"[-+]?(\d+(\.\d*)?|\.\d+)", plain, re.ASCII):
        raise argparse.ArgumentTypeError(f"{text}: expected a number")
    value = float(plain) + 0.0  # of −0 it makes 0
    if not math.isfinite(value):
        raise argparse.ArgumentTypeError(f"{text[:20]}...: expected a number")
    return value


def within(text: str, least: float, most: float, what: str) -> float:
    """Read a number between two bounds."""
    value = number(text)
    if not least <= value <= most:
        raise argparse.ArgumentTypeError(f"{text}: expected {what} from {least:g} to {most:g}")
    return value


def airspeed(text: str) -> float:
    """Read an airspeed, in whichever unit."""
    return within(text, 0, 1000, "a speed")


def direction(text: str) -> float:
    """Read a course, or where a wind blows from."""
    return within(text, 0, 360, "a direction in degrees")


def setting(text: str) -> float:
    """Read an altimeter setting, in inHg or hPa."""
    value = number(text)
    if not (25 <= value <= 33 or 850 <= value <= 1100):
        said = "expected inHg from 25 to 33 or hPa from 850 to 1100"
        raise argparse.ArgumentTypeError(f"{text}: {said}")
    return value


def whole(least: int, most: int) -> Callable[[str], int]:
    """Return what reads a whole number between two bounds."""

    def read(text: str) -> int:
        if not re.fullmatch(r"\d{1,9}", text, re.ASCII) or not least <= int(text) <= most:
            said = f"{text}: expected a whole number from {least} to {most}"
            raise argparse.ArgumentTypeError(said)
        return int(text)

    return read


def found_in(fleet: "Fleet", registration: str) -> "AircraftDefinition":
    """Return an aircraft of a fleet by its registration, in whatever capitals."""
    from cardgen.definition.fleet import UnknownAircraftError

    try:
        (found,) = fleet.named([registration])
    except UnknownAircraftError as error:
        raise MisuseError(error) from None
    return found


def add_definitions(command: argparse.ArgumentParser, option: bool = False) -> None:
    """Add the folder of the definitions, as an argument or an option."""
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


def add_cache(command: argparse.ArgumentParser) -> None:
    """Add the folder that keeps what was made."""
    command.add_argument(
        "--cache",
        type=Path,
        default=default_folder(),
        metavar="DIR",
        help="folder that keeps what was made (default: %(default)s; none without a home)",
    )


def add_strict(command: argparse.ArgumentParser) -> None:
    """Add the option under which warnings fail."""
    command.add_argument(
        "--strict", action="store_true", help="fail on a warning that is not accepted too"
    )
