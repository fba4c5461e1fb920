"""The command ``compare``: what a change prints differently."""

import argparse
import datetime
from pathlib import Path

from cardgen.commands import CHANGED, DONE, WORSE, MisuseError
from cardgen.commands.asked import add_definitions
from cardgen.definition.places import DefinitionError
from cardgen.document.data import comparison_json
from cardgen.folders import write_named
from cardgen.publish import compared
from cardgen.publish.comparing import Found, compare
from cardgen.publish.states import Site, State, StateError, state_of, working
from cardgen.words.english import ENGLISH

_ODD = (ArithmeticError, AttributeError, LookupError, RecursionError, TypeError, ValueError)


def add_options(command: argparse.ArgumentParser) -> None:
    """Add what the command may be asked."""
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
    add_definitions(command, option=True)
    command.add_argument(
        "--format",
        choices=("text", "markdown", "json"),
        default="text",
        help="text for people, markdown for a comment, json for programs (default: %(default)s)",
    )
    command.add_argument("--all", action="store_true", help="every number in the text")
    command.add_argument("--html", type=Path, metavar="FILE", help="write a page of it as well")
    command.set_defaults(run=run)


def run(options: argparse.Namespace) -> int:
    """Do what is asked."""
    try:
        base = state_of(options.base, options.definitions)
        head = (
            working(options.definitions)
            if options.head is None
            else state_of(options.head, options.definitions)
        )
        found, said, page = _compared(base, head, options)
    except StateError as error:
        raise MisuseError(error) from None
    except DefinitionError:
        options.definitions = Path()  # places say the whole way, and at which revision
        raise
    print(said)
    if options.html is not None:
        write_named(options.html, page.encode())
    if found.comparison.is_worse:
        return WORSE
    return CHANGED if found.comparison.is_changed else DONE


def _compared(base: State, head: State, options: argparse.Namespace) -> tuple[Found, str, str]:
    """Return a comparison, what is printed of it, and its page where one is asked for."""
    try:
        found = compare(base, head, datetime.date.today())
        return found, _said(found, options), _page(found) if options.html is not None else ""
    except _ODD as error:  # whoever wrote a site's documents, its manifest and these agree
        sites = [f"{one.folder}" for one in (base, head) if isinstance(one, Site)]
        if not sites:
            raise
        said = f"{' or '.join(sites)} has a document that cannot be compared; build that site anew"
        raise StateError(said) from error


def _said(found: Found, options: argparse.Namespace) -> str:
    if options.format == "json":
        return comparison_json(found.comparison)
    if options.format == "markdown":
        return compared.as_markdown(found.comparison, ENGLISH)
    return compared.as_text(found.comparison, ENGLISH, options.all)


def _page(found: Found) -> str:
    from cardgen.render.comparison import comparison_page
    from cardgen.render.templates import Templates

    return comparison_page(Templates(), found.comparison, found.marked())
