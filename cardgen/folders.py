"""Where the program's own templates stand, and what a school's picture is called among its own."""

from pathlib import Path

PICTURES = ("picture.svg", "picture.png")
_PACKAGE = Path(__file__).parent


def own_templates() -> Path:
    """Return the folder of templates: inside an installed package, beside a clone's."""
    packed = _PACKAGE / "templates"
    return packed if packed.is_dir() else _PACKAGE.parent / "templates"
