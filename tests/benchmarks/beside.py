"""Processor time of whole processes, beside that of others in the same run.

Each command is run in its turn, round after round, so that what else the machine does falls on all
alike; bytecode is kept, as an installed package has it, and the first round, which writes it, is
not counted.
"""

import os
import resource
import statistics
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path


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


def ratio(times: Sequence[float], baseline: Sequence[float]) -> float:
    """The median of what each round took, against its own baseline."""
    return statistics.median(one / base for one, base in zip(times, baseline, strict=True))
