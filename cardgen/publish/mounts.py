"""Whether a folder is mounted somewhere, so that another in its place would not be seen there."""

import os
import re
from pathlib import Path

_ESCAPED = re.compile(r"\\([0-7]{3})")


def is_mounted(folder: Path) -> bool:
    """Whether a folder is a mount, is mounted elsewhere, or has a mount in it.

    Parameters
    ----------
    folder : Path
        Without links in it.
    """
    mounts = _mounts()
    if folder.is_mount() or any(where.is_relative_to(folder) for _, _, where in mounts):
        return True
    there = [one for one in mounts if folder.is_relative_to(one[2])]
    if not there:
        return False
    disk, root, where = max(there, key=lambda one: len(one[2].parts))
    on_disk = root / folder.relative_to(where)
    return any(one == disk and top.is_relative_to(on_disk) for one, top, _ in mounts)


def _mounts() -> list[tuple[str, Path, Path]]:
    """Return what is mounted: the disk, the folder on it, and where; see proc(5)."""
    try:
        lines = Path("/proc/self/mountinfo").read_bytes().splitlines()
    except OSError:
        return []
    fields = (os.fsdecode(line).split(" ") for line in lines)
    return [(one[2], Path(_plain(one[3])), Path(_plain(one[4]))) for one in fields]


def _plain(text: str) -> str:
    return _ESCAPED.sub(lambda found: chr(int(found[1], 8)), text)
