"""The command ``signoff``: sign cards that were compared with their manuals."""

import argparse
import datetime
import sys
from pathlib import Path

from cardgen.commands import MisuseError
from cardgen.commands.asked import add_definitions
from cardgen.definition.shown import escaped, hidden, path_told
from cardgen.publish.signing import Signer, SigningError, ready, shown, sign
from cardgen.words.english import ENGLISH

_LONGEST = 40  # characters of a name, as in a definition


def add_options(command: argparse.ArgumentParser) -> None:
    """Add what the command may be asked."""
    command.description = (
        "Show what changed on a card since it was last signed, and every figure that was copied "
        "for it by the page of its manual; ask; then write who signed it into its airframe's file, "
        "and a record of the card beside the definitions."
    )
    command.add_argument("registrations", nargs="+", metavar="REGISTRATION")
    command.add_argument("--by", required=True, type=_name, metavar="NAME", help="who signs")
    command.add_argument("--role", type=_name, help="what that person is at the school")
    command.add_argument("--date", type=_date, help="the day of it (default: today)")
    command.add_argument("--yes", action="store_true", help="do not ask")
    command.add_argument(
        "--all",
        action="store_true",
        help="show every number that changed since, where a table has many",
    )
    add_definitions(command, option=True)
    command.set_defaults(run=run)


def _name(text: str) -> str:
    plain = " ".join(text.split())
    if not 1 <= len(plain) <= _LONGEST or hidden(plain) is not None:
        said = f"expected a name of at most {_LONGEST} characters that show"
        raise argparse.ArgumentTypeError(said)
    return plain


def _date(text: str) -> str:
    try:
        return f"{datetime.date.fromisoformat(text)}"
    except ValueError:
        said = f"{escaped(text)}: expected a date such as 2026-01-31"
        raise argparse.ArgumentTypeError(said) from None


def run(options: argparse.Namespace) -> None:
    """Do what is asked."""
    today = datetime.date.today()
    signer = Signer(options.by, options.role or "", options.date or f"{today}")
    folder: Path = options.definitions
    try:
        cards = ready(folder, options.registrations, signer, today)
    except SigningError as error:
        raise MisuseError(error) from None
    said = "\n\n".join(shown(one, everything=options.all) for one in cards)
    print(escaped(said), end="\n\n")
    names = [one.document.head.registration for one in cards]
    if not (options.yes or _asked(names, signer)):
        print(ENGLISH.say("signoff-not"))
        return
    for path in sign(folder, cards):
        print(ENGLISH.say("signoff-wrote", file=path_told(path)))


def _asked(names: list[str], signer: Signer) -> bool:
    """Ask whether to sign, at a terminal."""
    if not sys.stdin.isatty():
        raise MisuseError("there is no terminal to ask at; sign with --yes")
    question = ENGLISH.say(
        "signoff-ask", registrations=tuple(names), by=signer.by, date=signer.date
    )
    return input(f"{question} ").strip().casefold() in ("y", "yes")
