"""New definition files, with blanks to fill in."""

from pathlib import Path

import jinja2

from cardgen.definition.speeds import SPEEDS
from cardgen.folders import own_templates


def new_type(overrides: Path, name: str, kind: str) -> str:
    """Return a commented definition of a type, valid once its blanks are filled.

    Parameters
    ----------
    overrides : Path
        The school's folder of templates; a file there stands in for ours of the same name.
    name, kind : str
    """
    speeds = {name: speed for name, speed in SPEEDS.items() if kind in speed.kinds}
    return _filled(overrides, "start-type.yaml", type_name=name, kind=kind, speeds=speeds)


def new_airframe(overrides: Path, registration: str, type_name: str) -> str:
    """Return a commented definition of an airframe; see `new_type`."""
    return _filled(overrides, "start-airframe.yaml", registration=registration, type_name=type_name)


def _filled(overrides: Path, template: str, **values: object) -> str:
    environment = jinja2.Environment(
        loader=jinja2.FileSystemLoader([overrides, own_templates()]),
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    return environment.get_template(template).render(**values)
