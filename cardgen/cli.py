"""The command line: parse, call, print.

A command imports what it needs when it is run, so that one does not wait for what another uses.
"""

import argparse
import gc
import io
import os
import sys
from collections.abc import Sequence
from contextlib import suppress
from importlib import import_module
from typing import TYPE_CHECKING

from cardgen import __version__
from cardgen.commands import DONE, FAILED, FAULTY, MISUSED, UNHEARD, MisuseError
from cardgen.commands.outside import outside
from cardgen.definition.shown import escaped
from cardgen.publish.stopping import StoppedError, heeding

if TYPE_CHECKING:
    from cardgen.definition.places import DefinitionError

_FULL = f"cardgen: {outside(MemoryError())}\n".encode()
EXITS = """exit codes:
  0  done
  1  the definitions have errors, or warnings under --strict; a template or picture is at fault
  2  the command line was wrong
  3  something outside failed, such as a missing system library or a full disk
  4  compare: what is printed changes
  5  compare: it changes for the worse
  129  the terminal was closed
  130  stopped by Ctrl-C
  141  what reads the output ended first
  143  stopped by SIGTERM"""
SHELLS = ("bash", "zsh", "tcsh")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command line and return its exit code, one of `EXITS`."""
    _have_streams()
    gc.set_threshold(100_000)  # nearly all that is made is needed to the end
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # our matrices are small: others would spin
    try:
        return _heeded(sys.argv[1:] if arguments is None else arguments)
    except OSError as error:  # what is printed has nowhere to go
        return _unheard(error)


def _heeded(arguments: Sequence[str]) -> int:
    try:
        with heeding():
            try:
                return _run(arguments)
            finally:
                _flush()
    except StoppedError as stopped:
        print(f"cardgen: {stopped}", file=sys.stderr)
        return 128 + stopped.number
    except MemoryError:  # where there was none even to say so
        os.write(2, _FULL)
        return FAILED


def _have_streams() -> None:
    """See to it that there are streams, and that they take what is no text, such as a path."""
    for name, mode in (("stdin", "r"), ("stdout", "w"), ("stderr", "w")):
        if getattr(sys, name) is None:  # it was closed, and a file of ours would have its number
            handle = os.open(os.devnull, os.O_RDWR)
            os.set_inheritable(handle, True)
            setattr(sys, name, os.fdopen(handle, mode))
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")


def _run(arguments: Sequence[str]) -> int:
    options = _parser(arguments).parse_args(arguments)
    try:
        return int(options.run(options) or DONE)
    except BrokenPipeError:
        raise
    except Exception as error:
        _flush()  # it may be this that fails
        return _told(error, options)


def _flush() -> None:
    for stream in (sys.stdout, sys.stderr):
        stream.flush()


def _unheard(error: OSError) -> int:
    """Give up what cannot be printed, say so where that can, and return the exit code."""
    _give_up()
    if isinstance(error, BrokenPipeError):
        return UNHEARD
    with suppress(OSError):
        print(f"cardgen: {outside(error)}", file=sys.stderr)
    _give_up()
    return FAILED


def _give_up() -> None:
    for stream in (sys.stdout, sys.stderr):
        try:
            stream.flush()
        except OSError:  # it would fail again as Python ends
            os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
            stream.flush()


def _told(error: Exception, options: argparse.Namespace) -> int:
    """Say what went wrong and return the exit code; what is our own fault is raised again."""
    if said := outside(error):  # first, since it takes no file and little memory
        print(escaped(f"cardgen: {said}"), file=sys.stderr)
        return FAILED
    from cardgen.air.bounds import OutOfBoundsError
    from cardgen.definition.places import DefinitionError
    from cardgen.folders import OwnFileError
    from cardgen.publish.place import PlaceError
    from cardgen.render import PdfError

    if isinstance(error, DefinitionError):
        return _faulty(error, options)
    if isinstance(error, OwnFileError):
        print(escaped(f"{options.definitions / 'templates'}/{error}"), file=sys.stderr)
        return FAULTY
    if not isinstance(error, (MisuseError, OutOfBoundsError, PlaceError, PdfError)):
        raise error
    print(escaped(f"cardgen: {error}"), file=sys.stderr)
    return FAILED if isinstance(error, PdfError) else MISUSED


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
    for name, said in COMMANDS.items():
        command = commands.add_parser(name, help=said)
        if name in arguments:  # others need no arguments, not even for --help
            import_module(f"cardgen.commands.{name}").add_options(command)
    return parser


class _Completion(argparse.Action):
    """Prints a shell's completion of the whole parser, and ends."""

    def __call__(
        self, parser: argparse.ArgumentParser, space: object, value: object, option: object = None
    ) -> None:
        import shtab

        print(shtab.complete(_parser(list(COMMANDS)), shell=str(value)))
        parser.exit()


COMMANDS = {
    "build": "build a fleet's web site and kneeboard cards",
    "preview": "show pages that change as definitions are saved",
    "check": "hold the definitions against the rules",
    "compare": "list what a change prints differently",
    "signoff": "sign cards that were compared with their manuals",
    "reread": "list the figures of pages that are revised",
    "start": "write a new definition file to fill in",
    "renew": "rewrite definitions to the newest format",
    "reckon": "work one airspeed from IAS to ground speed",
    "practice": "write questions from an aircraft's own numbers, and a key",
}
