"""A sheet of questions: kinds by level, drawn from a seed."""

from collections.abc import Iterator, Sequence
from random import Random

from cardgen.document.practice import Practice, Question
from cardgen.document.record import Document, Message
from cardgen.lessons.practice import air, calibrated, descending, ground, markings, slow, true
from cardgen.lessons.practice.kinds import KINDS, Draw, LackingError

LEVELS: dict[str, tuple[str, ...]] = {
    "first-lesson": ("arcs", "arc-ends", "first-limit", "calibrated"),
    "solo": (
        *("arcs", "arc-ends", "first-limit", "calibrated", "stall-in-bank", "pressure-altitude"),
    ),
    "cross-country": (
        *("calibrated", "true-by-table", "rule-of-thumb", "pressure-altitude"),
        *("density-altitude", "heading", "ground-speed", "stall-in-bank", "first-limit"),
    ),
    "instrument": (
        *("calibrated", "alternate-static", "true-by-factor", "to-indicate", "heading"),
        *("ground-speed", "pressure-altitude", "first-limit"),
    ),
    "commercial": (
        *("rule-of-thumb", "true-by-factor", "to-indicate", "alternate-static", "va-at-weight"),
        *("stall-in-bank", "first-limit", "density-altitude", "heading", "ground-speed"),
    ),
}
_ROOMS = (air, calibrated, descending, ground, markings, slow, true)  # each registers its kinds
COUNT = 10
_TRIES = 400  # of a kind, before it is given up


def practice(document: Document, level: str, seed: int, count: int = COUNT) -> Practice:
    """Return a sheet of questions; the same for the same document, level, seed and count.

    Parameters
    ----------
    document : Document
        Of the aircraft, with its tables.
    level : str
        One of `LEVELS`.
    seed : int
    count : int
        How many questions are wanted; there are fewer where the aircraft gives no more.
    """
    head = document.head
    chance = Random(f"{head.registration} {level} {seed}")
    asking = _Asking(Draw(document, chance))
    questions = asking.several(LEVELS[level], count)
    return Practice(
        head.registration,
        head.type,
        head.indicator_unit,
        head.school,
        head.manual,
        document.marks.card,
        level,
        seed,
        count,
        tuple(questions),
        tuple(asking.left_out),
        document.cardgen,
    )


class _Asking:
    """Asks kinds in turn, none twice the same."""

    def __init__(self, draw: Draw) -> None:
        self._draw = draw
        self._asked: set[str] = set()
        self.left_out: list[Message] = []

    def several(self, kinds: Sequence[str], count: int) -> Iterator[Question]:
        """Yield questions, all kinds once before any twice, in a new order each time."""
        left = list(kinds)
        while left and count > 0:
            self._draw.chance.shuffle(left)
            for name in tuple(left)[:count]:
                question = self._one(name)
                if question is None:
                    left.remove(name)
                else:
                    count -= 1
                    yield question

    def _one(self, name: str) -> Question | None:
        """Return a new question of a kind; None where the aircraft gives no more."""
        try:
            for _ in range(_TRIES):
                question = KINDS[name](self._draw)
                if question is not None and self._is_new(question):
                    return question
        except LackingError as error:
            self._leave_out(name, error.message)
            return None
        if not any(said.startswith(f"{name} ") for said in self._asked):
            self._leave_out(name, Message("practice-lacks-case"))
        return None

    def _is_new(self, question: Question) -> bool:
        said = f"{question.kind} {question.asked}"
        if said in self._asked:
            return False
        self._asked.add(said)
        return True

    def _leave_out(self, name: str, why: Message) -> None:
        kind = Message(f"practice-kind-{name}")
        self.left_out.append(Message("practice-left-out", {"kind": kind, "why": why}))
