"""The commands: each a file with its options and what it does, read only when it is asked for."""

DONE, FAULTY, MISUSED, FAILED, CHANGED, WORSE = range(6)  # exit codes


class MisuseError(Exception):
    """The command line asks for what cannot be."""
