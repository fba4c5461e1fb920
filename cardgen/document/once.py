"""What is made of a table, or of something else that many ask about, once while it is there."""

import weakref
from collections.abc import Callable, Hashable
from typing import Generic, TypeVar

Made = TypeVar("Made")


class Once(Generic[Made]):
    """Remembers what was made of a thing for as long as there is that, and keeps no hold of it.

    What is made, and what else it depends on, must not hold the thing either.
    Sisters have the very same tables, so it is the table itself that counts,
    not one that says as much.

    Examples
    --------
    >>> from cardgen.document.record import Message, Table
    >>> table = Table("weights", Message("title"), Message("how"), (), ())
    >>> numbers, counted = Once[int](), iter(range(9))
    >>> [numbers.of(table, counted.__next__, what) for what in ("page", "page", "sheet")]
    [0, 0, 1]
    """

    def __init__(self) -> None:
        self._made: dict[int, dict[Hashable, Made]] = {}

    def of(self, part: object, make: Callable[[], Made], *of_what: Hashable) -> Made:
        """Return what was made of a part, and of what else it depends on; or make it."""
        place = id(part)
        if place not in self._made:
            self._made[place] = {}
            weakref.finalize(part, self._made.pop, place).atexit = False
        made = self._made[place]
        if of_what not in made:
            made[of_what] = make()
        return made[of_what]


class Same:
    """Something in a key by which nothing else is as good, though it may say as much."""

    def __init__(self, it: object) -> None:
        self.it = it

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Same) and self.it is other.it

    def __hash__(self) -> int:
        return id(self.it)
