"""The command `build`: its options, and what it says."""

import argparse
import sys
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from cardgen.commands.asked import add_cache, add_definitions, add_strict, whole
from cardgen.definition.shown import path_told
from cardgen.publish.build import build
from cardgen.publish.progress import shown

if TYPE_CHECKING:
    from concurrent.futures import Executor

    from cardgen.definition.places import Fault


def add_options(command: argparse.ArgumentParser) -> None:
    """Add what the command may be asked."""
    command.description = "Build a fleet's web site and kneeboard cards; only what has changed."
    add_definitions(command)
    add = command.add_argument
    add(
        "--out",
        type=Path,
        default=Path("site"),
        help="folder to write; of a site that is there what cardgen wrote is replaced "
        "(default: %(default)s)",
    )
    add(
        "--only",
        nargs="+",
        action="extend",
        default=[],
        metavar="REGISTRATION",
        help="make only these aircraft, in a site that is there",
    )
    add("--no-pdf", action="store_true", help="make no PDFs")
    add(
        "--keep-going",
        action="store_true",
        help="leave out aircraft whose definitions have errors; exits 1 all the same",
    )
    add(
        "--untrusted",
        action="store_true",
        help="leave the folder's templates and picture alone, which are code, and static/",
    )
    add("--fresh", action="store_true", help="make all anew, also what has not changed")
    add_cache(command)
    where = command.add_mutually_exclusive_group()
    where.add_argument(
        "--jobs",
        type=whole(1, 1000),
        metavar="N",
        help="processes that make PDFs (default: one a core)",
    )
    where.add_argument(
        "--cluster", metavar="ADDRESS", help="Dask scheduler on whose workers PDFs are made"
    )
    told = command.add_mutually_exclusive_group()
    told.add_argument("--quiet", action="store_true", help="print errors only")
    told.add_argument("--verbose", action="store_true", help="print also each file that was made")
    add_strict(command)
    command.set_defaults(run=run)


def run(options: argparse.Namespace) -> int:
    """Do what is asked."""
    began = time.monotonic()
    with _executor(options.cluster) as executor, shown(options.quiet, options.verbose) as progress:
        built = build(
            options.definitions,
            options.out,
            progress,
            not options.no_pdf,
            cache=options.cache,
            fresh=options.fresh,
            only=options.only,
            keep_going=options.keep_going,
            strict=options.strict,
            untrusted=options.untrusted,
            executor=executor,
            workers=options.jobs,
        )
    if options.verbose:
        print(*(path_told(options.out / one) for one in built.made), sep="\n")
    for path, kept in built.edited.items():
        was = path_told(options.out / path)
        said = f"{was} is no more made, and was edited by hand: it is {kept} now"
        print(said, file=sys.stderr)
    if built.faults:
        print(_left_out(built.faults, options.definitions), file=sys.stderr)
    if not options.quiet:
        index = path_told(options.out / "index.html")
        print(
            f"Built {index}: {_count(len(built.made), 'file')} made, "
            f"{built.reused} reused, {_count(built.warnings, 'warning')}, "
            f"{time.monotonic() - began:.1f} s. Verify against the approved flight manual."
        )
    return 1 if built.faults else 0


def _left_out(faults: Sequence["Fault"], definitions: Path) -> str:
    from cardgen.checks.run import of_faults
    from cardgen.publish.report import as_text
    from cardgen.words.english import ENGLISH

    said = as_text(of_faults(faults), definitions, ENGLISH)
    return f"{said}\n{_count(len(faults), 'error')}; the aircraft that have them were left out"


def _count(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"


@contextmanager
def _executor(address: str | None) -> Iterator["Executor | None"]:
    """Give a cluster's executor, where one is asked for."""
    if address is None:
        yield None
        return
    from cardgen.publish.work import ClusterError

    try:
        from distributed import Client

        client = Client(address, timeout=10)
    except ImportError:
        raise ClusterError("--cluster needs Dask: pip install 'cardgen[cluster]'") from None
    except (ValueError, OSError) as error:
        said = f"found no scheduler at {address} ({error}); start one: dask scheduler"
        raise ClusterError(said) from error
    with client:
        yield client.get_executor(pure=False)
