"""Every format that is printed: its paper, its sheets, and what stands on each.

A new format that needs no new kind of part is one entry of `FORMATS`.
"""

from collections.abc import Mapping
from dataclasses import dataclass

Size = tuple[float, float]  # mm: width and height

INCH = 25.4
PAPERS: dict[str, Size] = {"letter": (11 * INCH, 8.5 * INCH), "A4": (297.0, 210.0)}  # on its side
HALVES: dict[str, Size] = {"letter": (5.5 * INCH, 8.5 * INCH), "A4": (148.0, 210.0)}
POCKETS: dict[str, Size] = {"letter": (4 * INCH, 6 * INCH), "A4": (105.0, 148.0)}
THIRDS: dict[str, Size] = {"letter": (11 / 3 * INCH, 8.5 * INCH), "A4": (99.0, 210.0)}

GAP = 3.4  # mm between what stands beside one another
PUNCHED, FREE = 16.0, 6.0  # mm kept clear: a 6 mm hole 12 mm from the edge and slack; any printer


@dataclass(frozen=True, slots=True)
class Grid:
    """A table: its first columns, or all; its part of the width; if all its figures are heavy.

    Where a card has several of its name, told apart, it is each of these.

    `rows` are those that stand on one page of several: from and to, of all blocks.
    """

    table: str
    first: int = 0
    part: float = 1.0
    heavy: bool = False
    rows: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True)
class SpeedList:
    """A block of the V-speeds, with large figures; in halves, two columns of like length.

    What speed it is stands in words behind its name: its ``meaning``, ``when`` it holds, or both.
    Where it stands beside a drawing, names may break into lines rather than stand below it.
    """

    block: str
    columns: tuple[str, ...]
    halves: bool = False
    rows: tuple[int, int] | None = None
    broken: bool = False


@dataclass(frozen=True, slots=True)
class Drawing:
    """A drawing, of a width in mm or else as wide as there is room; optional, if it has room."""

    name: str
    width: float = 0.0
    optional: bool = False


@dataclass(frozen=True, slots=True)
class Legend:
    """What the dial's bands and lines mean."""


@dataclass(frozen=True, slots=True)
class Caption:
    """What a drawing shows beside the paint, if it shows anything."""


@dataclass(frozen=True, slots=True)
class Remarks:
    """What the school says of this airframe, and the supplements to its manual."""

    rows: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True)
class Notes:
    """The notes of tables, each once; of shared tables the reading rule before them.

    If they are to be `brief`, no more than which figures are computed.
    """

    tables: tuple[str, ...]
    brief: bool = False


@dataclass(frozen=True, slots=True)
class Gaps:
    """The tables that are left off, and why."""


@dataclass(frozen=True, slots=True)
class Said:
    """A sentence, by its message."""

    message: str


Part = Grid | SpeedList | Drawing | Legend | Caption | Remarks | Notes | Gaps | Said


@dataclass(frozen=True, slots=True)
class Stack:
    """Parts below one another; of a width in mm, or of as much as they need and a share of more."""

    parts: tuple[Part, ...]
    width: float = 0.0


@dataclass(frozen=True, slots=True)
class Beside:
    """Stacks beside one another; below one another where they are too wide for that."""

    stacks: tuple[Stack, ...]
    gap: float = GAP


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet: its title, by the message; the other one where the card lacks a table.

    `divided` are its parts where they are too much for one page, if they are then others. A card
    without the table that is `needed` has no such sheet.
    """

    title: str
    parts: tuple[Part | Beside, ...]
    lacking: tuple[str, str] = ("", "")
    divided: tuple[Part | Beside, ...] = ()
    needed: str = ""


@dataclass(frozen=True, slots=True)
class Format:
    """A format.

    Attributes
    ----------
    file : str
        The PDF that is in it.
    papers : dict of str to (float, float)
        Its sheets' size, by the school's paper.
    sheets : tuple of Sheet
    title : str
        The message that entitles the PDF.
    night : bool
        In black only, and heavier, for a cockpit under red light.
    limit : float
        How large limits are, to their size on a card.
    digits : float
        How high digits of a table are at the least, in mm.
    two_up_of : str
        The file whose sheets it has, two to a side of the school's paper.
    punched : bool
        Whether the edge that the school punches is kept clear.
    """

    file: str
    papers: Mapping[str, Size]
    sheets: tuple[Sheet, ...] = ()
    title: str = "sheet-document"
    night: bool = False
    limit: float = 1.0
    digits: float = 3.0
    two_up_of: str = ""
    punched: bool = True


_ALL = ("speed", "meaning", "when", "indicated", "ias", "cas")
_STALL = Grid("stall")
_MANOEUVRING, _APPROACH = Grid("manoeuvring"), Grid("approach")

_POLAR = Drawing("polar", optional=True)
_CRUISE_AND_WIND = ("cruise", "ground-speed", "crosswind-limit", "glide", "gliding", "tas-factor")

CARD = (
    Sheet(
        "sheet-speeds",
        (
            Beside(
                (
                    Stack((SpeedList("limits", _ALL),)),
                    Stack((Drawing("dial", 58.0), Legend(), Remarks()), width=58.0),
                )
            ),
            Grid("altitude-limits", part=0.8),
            SpeedList("one-engine", _ALL, halves=True),
            SpeedList("flown", _ALL, halves=True),
            Grid("weights", part=0.6),
            Notes(("speeds", "altitude-limits", "weights")),
            Gaps(),
        ),
        divided=(
            SpeedList("limits", _ALL),
            Grid("altitude-limits", part=0.8),
            Beside(
                (
                    Stack((Drawing("dial", 58.0),), width=58.0),
                    Stack((Legend(), Remarks())),
                )
            ),
            SpeedList("one-engine", _ALL),
            SpeedList("flown", _ALL),
            Grid("weights", part=0.6),
            Notes(("speeds", "altitude-limits", "weights")),
            Gaps(),
        ),
    ),
    Sheet(
        "sheet-calibrated",
        (
            Beside((Stack((Grid("calibration"),)), Stack((Grid("indicated"),)))),
            Beside((Stack((Grid("position"),)), Stack((Grid("instrument"),)))),
            Beside((Stack((_STALL,)), Stack((_MANOEUVRING, _APPROACH)))),
            Beside((Stack((Grid("altimeter"),)), Stack((Grid("altimeter-card"),)))),
            Drawing("calibration", optional=True),
            Notes(("calibration", "indicated", "position", "stall", "manoeuvring", "approach")),
            Notes(("altimeter",)),
        ),
    ),
    Sheet(
        "sheet-true",
        (
            Grid("true-airspeed"),
            Drawing("true-airspeed", optional=True),
            Notes(("true-airspeed",)),
        ),
    ),
    Sheet(
        "sheet-cruise",
        (
            Grid("cruise"),
            Grid("ground-speed"),
            Beside((Stack((Grid("crosswind-limit"),)), Stack((Grid("glide"),)))),
            Grid("gliding"),
            Grid("tas-factor"),
            Notes(_CRUISE_AND_WIND),
        ),
        lacking=("cruise", "sheet-wind"),
    ),
    Sheet(
        "sheet-polar",
        (
            Beside((Stack((Grid("polar"),)), Stack((Grid("polar-best"), _POLAR)))),
            Grid("speed-to-fly"),
            Notes(("polar", "polar-best", "speed-to-fly")),
        ),
        needed="polar",
    ),
)

_SHORT = ("speed", "when", "indicated")

STRIP = (
    Sheet(
        "sheet-speeds",
        (
            Beside(
                (
                    Stack((Drawing("ladder", 22.0),), width=22.0),
                    Stack(
                        (
                            SpeedList("limits", _SHORT, broken=True),
                            Grid("altitude-limits", first=2, heavy=True),
                            Caption(),
                            SpeedList("one-engine", _SHORT, broken=True),
                            SpeedList("flown", _SHORT, broken=True),
                        )
                    ),
                ),
                gap=1.5,
            ),
            Remarks(),
            Notes(("speeds", "altitude-limits"), brief=True),
            Said("sheet-strip-more"),
        ),
        divided=(
            Beside(
                (
                    Stack((Drawing("ladder", 22.0),), width=22.0),
                    Stack(
                        (
                            SpeedList("limits", _SHORT, broken=True),
                            Grid("altitude-limits", first=2, heavy=True),
                            Caption(),
                        )
                    ),
                ),
                gap=1.5,
            ),
            SpeedList("one-engine", _SHORT),
            SpeedList("flown", _SHORT),
            Remarks(),
            Notes(("speeds", "altitude-limits"), brief=True),
            Said("sheet-strip-more"),
        ),
    ),
)

POCKET = (
    Sheet(
        "sheet-speeds",
        (
            Beside(
                (
                    Stack((SpeedList("limits", _SHORT),)),
                    Stack(
                        (
                            SpeedList("one-engine", _SHORT),
                            SpeedList("flown", _SHORT),
                            Grid("altitude-limits", first=2, heavy=True),
                        )
                    ),
                )
            ),
            Remarks(),
            Notes(("speeds", "altitude-limits"), brief=True),
        ),
    ),
    Sheet(
        "sheet-calibrated",
        (
            Beside(
                (
                    Stack((Grid("stall", first=3, heavy=True),)),
                    Stack((Grid("calibration"),)),
                )
            ),
            Notes(("calibration", "stall")),
        ),
    ),
)

FORMATS = (
    Format("card.pdf", HALVES, CARD),
    Format("card-2up.pdf", PAPERS, title="sheet-document-two-up", two_up_of="card.pdf"),
    Format("card-night.pdf", HALVES, CARD, title="sheet-document-night", night=True),
    Format("strip.pdf", THIRDS, STRIP, title="sheet-document-strip", limit=0.85),
    Format(
        "pocket.pdf",
        POCKETS,
        POCKET,
        title="sheet-document-pocket",
        limit=0.85,
        digits=2.5,
        punched=False,
    ),
)

# The tables that serve every aircraft: a sheet for each block of each table.
SHARED = Format("conversions.pdf", HALVES, title="sheet-conversions")


def back_shift(punch_edge: str) -> float:
    """Return how far what stands on a back is moved, so that the holes' edge is clear there too."""
    return PUNCHED - FREE if punch_edge == "left" else 0.0
