"""Processor time of whole processes, beside that of others in the same run.

Each command is run in its turn, round after round, and the least that it took is taken, since what
else the machine does only adds to that; bytecode is kept, as an installed package has it, and the
round that writes it is never the least.
"""

import os
import resource
import subprocess
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

EARLIER = "52e70dc"  # a commit


def seconds(command: Sequence[str], folder: Path, bytecode: Path, path: Path) -> float:
    """The processor time of `python command`, with the packages of a folder before others."""
    kept = {name: value for name, value in os.environ.items() if "BYTECODE" not in name}
    environment = {**kept, "PYTHONPATH": str(path), "PYTHONPYCACHEPREFIX": str(bytecode)}
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(
        [sys.executable, *command],
        cwd=folder,
        env=environment,
        check=True,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def least(*takes: Callable[[], float], rounds: int = 3) -> list[float]:
    """The least that each of several takes, in turn: what else a machine does only adds to it."""
    taken = [[take() for take in takes] for _ in range(rounds)]
    return [min(times) for times in zip(*taken, strict=True)]
