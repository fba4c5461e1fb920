"""The commands: each a file with its options and what it does, read only when it is asked for."""

DONE, FAULTY, MISUSED, FAILED, CHANGED, WORSE = range(6)  # exit codes
UNHEARD = 141  # 128 and SIGPIPE, as a shell tells of who writes to a pipe that nobody reads


class MisuseError(Exception):
    """The command line asks for what cannot be."""
