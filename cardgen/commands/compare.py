"""The command ``compare``: what a change prints differently."""

import argparse
import datetime
from pathlib import Path

from cardgen.commands import CHANGED, DONE, WORSE, MisuseError
from cardgen.commands.asked import add_definitions
from cardgen.definition.places import DefinitionError
from cardgen.document.data import comparison_json
from cardgen.publish import compared
from cardgen.publish.comparing import compare
from cardgen.publish.states import StateError, state_of, working
from cardgen.words.english import ENGLISH


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

        page = comparison_page(Templates(), comparison, found.marked())
        options.html.write_text(page, encoding="utf-8", newline="\n")
    if comparison.is_worse:
        return WORSE
    return CHANGED if comparison.is_changed else DONE
