"""Where the program's own templates stand."""

from pathlib import Path

_PACKAGE = Path(__file__).parent


def own_templates() -> Path:
    """Return the folder of templates: inside an installed package, beside a clone's."""
    packed = _PACKAGE / "templates"
    return packed if packed.is_dir() else _PACKAGE.parent / "templates"
