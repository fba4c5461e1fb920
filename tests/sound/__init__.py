"""Sound aircraft from a seed: physics of their own, which shares no line with the package's.

`aircraft(seed)` gives what a manual of an invented aircraft would print, as plain data that can be
written as a type, an airframe and a school. Its figures agree with each other because one wing, one
engine and one static port made them all, and they are rounded as manuals round.
"""

from .aircraft import aircraft

__all__ = ["aircraft"]
