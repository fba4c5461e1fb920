"""Where the program's own templates stand, what a school's picture is called, what leads astray."""

import os
from pathlib import Path

PICTURES = ("picture.svg", "picture.png")
_PACKAGE = Path(__file__).parent


class OwnFileError(Exception):
    """A file of a school's own templates cannot be used; its place is told from their folder."""

    def __init__(self, place: str, said: str) -> None:
        super().__init__(place, said)

    def __str__(self) -> str:
        place, said = self.args
        return f"{place or 'templates'}: error: {said}"


def own_templates() -> Path:
    """Return the folder of templates: inside an installed package, beside a clone's."""
    packed = _PACKAGE / "templates"
    return packed if packed.is_dir() else _PACKAGE.parent / "templates"


def leads_out(folder: Path, path: Path) -> bool:
    """Whether a path is, or goes through, a link that leads out of a folder."""
    return not Path(os.path.realpath(path)).is_relative_to(os.path.realpath(folder))
