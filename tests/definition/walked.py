"""The model's groups of keys, found from pydantic's fields and Python's annotations alone."""

from collections.abc import Iterator
from typing import Any, get_args

from pydantic import BaseModel


def groups_under(model: type[BaseModel]) -> list[type[BaseModel]]:
    """A group, and every group that stands under its keys, each once."""
    found: list[type[BaseModel]] = []

    def gather(group: type[BaseModel]) -> None:
        if group not in found:
            found.append(group)
            for field in group.model_fields.values():
                for inner in _classes(field.annotation):
                    gather(inner)

    gather(model)
    return found


def _classes(annotation: Any) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for inner in get_args(annotation):
        yield from _classes(inner)
