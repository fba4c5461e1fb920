"""The command ``renew``: definitions rewritten to the newest format."""

import argparse

from cardgen.commands.asked import add_definitions
from cardgen.definition.renewing import renew
from cardgen.definition.shown import path_told
from cardgen.definition.upgrading import STEPS


def add_options(command: argparse.ArgumentParser) -> None:
    """Add what the command may be asked."""
    command.description = (
        "Rewrite definition files to the newest format, all or none. Comments, order, quotation "
        "marks and figures stay as they are; a file of the newest format is not touched."
    )
    add_definitions(command)
    command.set_defaults(run=run)


def run(options: argparse.Namespace) -> None:
    """Do what is asked."""
    rewritten = renew(options.definitions)
    for path in rewritten:
        print(f"Rewrote {path_told(path)}")
    print(
        f"{len(rewritten) or 'No'} file{'' if len(rewritten) == 1 else 's'} rewritten; all are "
        f"of format {len(STEPS) + 1}."
    )
