"""New definition files, with blanks to fill in."""

from cardgen.definition.speeds import SPEEDS
from cardgen.render.templates import Templates


def new_type(templates: Templates, name: str, kind: str) -> str:
    """Return a commented definition of a type, valid once its blanks are filled."""
    speeds = {name: speed for name, speed in SPEEDS.items() if kind in speed.kinds}
    return templates.render("start-type.yaml", type_name=name, kind=kind, speeds=speeds)


def new_airframe(templates: Templates, registration: str, type_name: str) -> str:
    """Return a commented definition of an airframe."""
    return templates.render("start-airframe.yaml", registration=registration, type_name=type_name)
