"""Sheets planned: the largest type in which all of a sheet stands on its page, by arithmetic.

What is too much for one page in the smallest type goes on to further ones.
"""

import bisect
import itertools
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from cardgen.document.record import Shared
from cardgen.layout import font, grids, shapes, speeds, words
from cardgen.layout.content import Content
from cardgen.layout.dividing import Parts, divided
from cardgen.layout.formats import (
    FREE,
    GAP,
    PUNCHED,
    Beside,
    Caption,
    Drawing,
    Format,
    Gaps,
    Grid,
    Legend,
    Notes,
    Part,
    Remarks,
    Said,
    Sheet,
    SpeedList,
    Stack,
)
from cardgen.layout.measures import (
    EASY,
    LARGEST,
    LOOSEST,
    POINT,
    TIGHTEST,
    Measures,
    Sizes,
    weight_of_words,
)
from cardgen.layout.placed import (
    Foot,
    Page,
    Placed,
    PlacedBeside,
    PlacedDrawing,
    PlacedStack,
    stack_height,
)

_STEPS = 60  # of type, from the smallest to the largest
_LEADS = 44  # of lead, from the tightest to the loosest
_PARTS = 6  # of a table, at the most
_NUMBERS = ((8, 8), (8, 88), (88, 88))  # of a sheet and of all, of which none is known yet
_UNDER_HEAD, _OVER_FOOT = 1.6, 1.2  # mm
_WORDS = 40.0  # mm: how wide a legend or remarks are at the least
_SPARE = 0.4  # mm left free, for what arithmetic does not know
_MISS = 0.03  # of what stands on a page: how much less is tried where it was too much


@dataclass(frozen=True, slots=True)
class _Way:
    """How a sheet is arranged.

    Attributes
    ----------
    close : bool
        Whether cells of tables stand closer.
    parts : int
        In how many parts, below one another, tables of many columns stand.
    below : tuple of bool
        For each of its parts that stand beside one another, or of lists in
        halves, whether they stand below one another instead.
    drawn : bool
        Whether there is room for optional drawings.
    """

    close: bool = False
    parts: int = 1
    below: tuple[bool, ...] = ()
    drawn: bool = True


@dataclass(frozen=True, slots=True)
class Frame:
    """What a format and a school give all of its sheets: sizes in mm."""

    width: float
    height: float
    left: float
    right: float
    top: float
    bottom: float
    sizes: Sizes
    limit: float
    smallest: float
    night: bool

    @property
    def across(self) -> float:
        """How wide what is printed may be."""
        return self.width - self.left - self.right

    @property
    def caption(self) -> float:
        """The size of small words."""
        return self.sizes.caption * POINT

    @property
    def text(self) -> int:
        """The weight of words."""
        return weight_of_words(self.night)

    def measures(self, size: float, lead: float, way: _Way) -> Measures:
        """Return a sheet's measures in a size of type."""
        return Measures(
            size * self.sizes.table,
            lead,
            size * self.sizes.limit * self.limit,
            self.caption,
            way.close,
            self.night,
            way.parts,
        )


def frame_of(one: Format, content: Content, sizes: Sizes) -> Frame:
    """Return a format's frame, clear where the school punches holes."""
    school = content.school
    width, height = one.papers[school.paper]
    left = PUNCHED if one.punched and school.punch_edge == "left" else FREE
    top = PUNCHED if one.punched and school.punch_edge == "top" else FREE
    smallest = one.digits / font.digit()
    return Frame(width, height, left, FREE, top, FREE, sizes, one.limit, smallest, one.night)


def planned(
    one: Format, content: Content, sizes: Sizes, misses: Sequence[int] = ()
) -> list[list[Page]]:
    """Return the pages of each sheet of a format.

    Parameters
    ----------
    one : Format
    content : Content
    sizes : Sizes
    misses : sequence of int, optional
        How often each sheet was too high when it was laid out.
    """
    frame = frame_of(one, content, sizes)
    sheets = list(_sheets(one, content))
    misses = misses or [0] * len(sheets)
    plans = [
        list(_plan(sheet, own, frame, missed))
        for (sheet, own), missed in zip(sheets, misses, strict=True)
    ]
    count = sum(map(len, plans))
    numbers = itertools.count(1)
    return [
        [
            _page(sheet, own, frame, one, placed, measures, next(numbers), count, not n, missed)
            for n, (placed, measures) in enumerate(plan)
        ]
        for (sheet, own), plan, missed in zip(sheets, plans, misses, strict=True)
    ]


def _sheets(one: Format, content: Content) -> Iterator[tuple[Sheet, Content]]:
    """Yield a format's sheets and what they are made of; of shared tables, a sheet for a block."""
    if not isinstance(content.document, Shared):
        for sheet in one.sheets:
            if not sheet.needed or content.table(sheet.needed):
                yield _with_each_table(sheet, content), content
        return
    for table in content.document.tables:
        for block in table.blocks:
            own = replace(content.document, tables=(replace(table, blocks=(block,)),))
            sheet = Sheet("sheet-shared", (Grid(table.id), Notes((table.id,))))
            yield sheet, replace(content, document=own, known={})


def _with_each_table(sheet: Sheet, content: Content) -> Sheet:
    """Return a sheet with each of the tables that its parts and its title name."""
    lacking = sheet.lacking
    if content.named(lacking[0]):
        lacking = (content.named(lacking[0])[0], lacking[1])
    parts, other = (
        tuple(one for part in parts for one in _each_table(part, content))
        for parts in (sheet.parts, sheet.divided)
    )
    return replace(sheet, parts=parts, divided=other, lacking=lacking)


def _each_table(part: Part | Beside, content: Content) -> list[Part | Beside]:
    match part:
        case Grid():
            return [replace(part, table=name) for name in content.named(part.table)] or [part]
        case Notes():
            names = (name for one in part.tables for name in content.named(one) or (one,))
            return [replace(part, tables=tuple(names))]
        case _:
            return [part]


def _page(
    sheet: Sheet,
    content: Content,
    frame: Frame,
    one: Format,
    placed: tuple[Placed, ...],
    measures: Measures,
    number: int,
    count: int,
    first: bool,
    missed: int,
) -> Page:
    say = content.language.say
    title = _title(sheet, content, frame)
    head = words.head(content, title, number, count, frame.caption, frame.across, frame.text)
    foot = _foot(content, frame)
    return Page(
        width=frame.width,
        height=frame.height,
        left=frame.left,
        right=frame.right,
        top=frame.top,
        bottom=frame.bottom,
        measures=measures,
        head=head,
        foot=foot,
        room=_room(frame, head.height, foot.height, missed),
        placed=placed,
        title=say(one.title, name=content.name),
        author=content.school.name,
        bookmark=title if first and content.card else "",
        first=number == 1 and content.card is not None,
        number=number,
        sheet=sheet.title,
        changed=content.changed,
    )


def _foot(content: Content, frame: Frame) -> Foot:
    pictured = content.pictured and not frame.night
    return words.foot(content, frame.caption, frame.across, pictured, frame.text)


def _title(sheet: Sheet, content: Content, frame: Frame) -> str:
    table, other = sheet.lacking
    title = content.language.say(other if table and not content.table(table) else sheet.title)
    return content.language.say("sheet-night", title=title) if frame.night else title


def _room(frame: Frame, head: float, foot: float, missed: int) -> float:
    high = frame.height - frame.top - frame.bottom
    room = high - head - foot - _UNDER_HEAD - _OVER_FOOT - _SPARE
    return room * (1 - _MISS * missed)


def _plan(
    sheet: Sheet, content: Content, frame: Frame, missed: int
) -> Iterator[tuple[tuple[Placed, ...], Measures]]:
    """Yield what stands on each page of a sheet, and its measures."""
    title = _title(sheet, content, frame)
    head = max(
        words.head(content, title, *numbers, frame.caption, frame.across, frame.text).height
        for numbers in _NUMBERS
    )
    room = _room(frame, head, _foot(content, frame).height, missed)

    def height(parts: Parts) -> float | None:
        own = replace(sheet, parts=parts)
        for way in _ways(own, content, frame):
            high = _least_height(own, content, frame, replace(way, drawn=False))
            if high <= room:
                return high
        return None

    for parts in divided(sheet, content, height):
        own = replace(sheet, parts=parts)
        way = _way(own, content, frame, room)
        measures = _largest(own, content, frame, way, room)
        yield tuple(_placed(own, content, frame, way, measures)), measures


def _way(sheet: Sheet, content: Content, frame: Frame, room: float) -> _Way:
    """Return the first way in which a page holds a sheet, or else the last one."""
    for way in _ways(sheet, content, frame):
        for drawn in (True, False):
            found = replace(way, drawn=drawn)
            if _least_height(sheet, content, frame, found) <= room:
                return found
    return found


def _least_height(sheet: Sheet, content: Content, frame: Frame, way: _Way) -> float:
    measures = frame.measures(frame.smallest, TIGHTEST, way)
    return stack_height(_placed(sheet, content, frame, way, measures))


def _ways(sheet: Sheet, content: Content, frame: Frame) -> Iterator[_Way]:
    """Yield how a sheet may be arranged so that nothing is too wide in the smallest type.

    Tables stand in as few parts as they can; in the most where they are too
    wide even so.
    """
    rows = [part for part in sheet.parts if _is_row(part)]
    for parts in range(1, _PARTS + 1):
        found = False
        for close in (False, True):
            way = _Way(close, parts)
            measures = frame.measures(frame.smallest, TIGHTEST, way)
            below = tuple(_row_width(row, content, measures) > frame.across for row in rows)
            way = replace(way, below=below)
            if _least_width(sheet, content, measures, way) <= frame.across:
                found = True
                yield way
        if found:
            return
    yield way


def _largest(sheet: Sheet, content: Content, frame: Frame, way: _Way, room: float) -> Measures:
    """Return the measures of the largest type that fits, and then of the largest lead."""

    def fit(step: int, lead: float) -> Measures | None:
        size = frame.smallest * (1.0 + (LARGEST - 1.0) * step / _STEPS)
        measures = frame.measures(size, lead, way)
        return measures if _fits(sheet, content, frame, way, measures, room) else None

    def lead(step: int) -> float:
        return TIGHTEST + (LOOSEST - TIGHTEST) * step / _LEADS

    size = _last(_STEPS, lambda step: fit(step, EASY) is not None)
    loosest = _last(_LEADS, lambda step: fit(size, lead(step)) is not None)
    return fit(size, lead(loosest)) or frame.measures(frame.smallest, TIGHTEST, way)


def _last(count: int, holds: Callable[[int], bool]) -> int:
    """Return the last of the numbers to `count` for which something holds, as it does for 0."""
    return bisect.bisect_left(range(1, count + 1), True, key=lambda n: not holds(n))


def _fits(
    sheet: Sheet, content: Content, frame: Frame, way: _Way, measures: Measures, room: float
) -> bool:
    if _least_width(sheet, content, measures, way) > frame.across:
        return False
    return stack_height(_placed(sheet, content, frame, way, measures)) <= room


# -- how wide parts must be ----------------------------------------------------------------------


def _least_width(sheet: Sheet, content: Content, measures: Measures, way: _Way) -> float:
    below = iter(way.below)
    return max(
        _part_width(part, content, measures, _is_row(part) and not next(below))
        for part in sheet.parts
    )


def _part_width(part: Part | Beside, content: Content, measures: Measures, beside: bool) -> float:
    def width() -> float:
        if beside:
            return _row_width(part, content, measures)
        return max(_width(one, content, measures) for one in _each(part))

    return content.once((part, measures, beside), width)


def _is_row(part: Part | Beside) -> bool:
    """Whether a part has others beside one another, or a list in halves."""
    return isinstance(part, Beside) or (isinstance(part, SpeedList) and part.halves)


def _each(part: Part | Beside) -> list[Part]:
    if isinstance(part, Beside):
        return [one for stack in part.stacks for one in stack.parts]
    return [part]


def _row_width(part: Part | Beside, content: Content, measures: Measures) -> float:
    if isinstance(part, Beside):
        return _beside_width(part, content, measures)
    halves = isinstance(part, SpeedList) and speeds.has_halves(content, part)
    width = _width(part, content, measures)
    return 2 * width + GAP if halves else width


def _beside_width(row: Beside, content: Content, measures: Measures) -> float:
    widths = [
        max(stack.width, *(_width(part, content, measures) for part in stack.parts))
        for stack in _filled(row, content)
    ]
    return sum(widths) + row.gap * (len(widths) - 1)


def _width(part: Part, content: Content, measures: Measures) -> float:
    match part:
        case Grid():
            return grids.least_width(content, part, measures) / part.part
        case SpeedList():
            return speeds.least_width(content, part, measures)
        case Drawing():
            return part.width
        case Legend() | Remarks():
            return _WORDS
        case _:
            return 0.0


def _filled(row: Beside, content: Content) -> list[Stack]:
    """Return the stacks in which there is something."""
    return [stack for stack in row.stacks if any(_is_there(part, content) for part in stack.parts)]


def _is_there(part: Part, content: Content) -> bool:
    match part:
        case Grid():
            return content.table(part.table) is not None
        case Drawing():
            return part.name in content.drawings
        case SpeedList():
            return content.table("speeds") is not None
        case Legend():
            return speeds.has_legend(content)
        case Remarks():
            return bool(words.remarked(content))
        case _:
            return False


# -- what stands where ---------------------------------------------------------------------------


def _placed(
    sheet: Sheet, content: Content, frame: Frame, way: _Way, measures: Measures
) -> list[Placed]:
    below = iter(way.below)
    return [
        one
        for part in sheet.parts
        for one in _part(
            part, content, measures, frame.across, way, _is_row(part) and not next(below)
        )
    ]


def _part(
    part: Part | Beside,
    content: Content,
    measures: Measures,
    width: float,
    way: _Way,
    beside: bool,
) -> list[Placed]:
    """Return a part of a sheet as it is placed, which is asked again and again."""

    def placed() -> list[Placed]:
        if beside and isinstance(part, Beside):
            return _beside(part, content, measures, width, way)
        if beside and isinstance(part, SpeedList) and speeds.has_halves(content, part):
            return _halves(part, content, measures, width)
        return [made for one in _each(part) for made in _parts(one, content, measures, width, way)]

    return content.once((part, measures, width, way.drawn, beside), placed)


def _parts(
    part: Part, content: Content, measures: Measures, width: float, way: _Way
) -> list[Placed]:
    match part:
        case Grid():
            return [*grids.placed(content, part, measures, width)]
        case SpeedList():
            return [*speeds.placed(content, part, measures, width)]
        case Drawing():
            return _drawing(part, content, measures, width, way)
        case Legend():
            return [*speeds.legend(content, measures, min(width, 90.0))]
        case Caption():
            return [*words.caption(content, measures, width)]
        case Remarks():
            return [*words.remarks(content, part, measures, width)]
        case Notes():
            return [*words.notes(content, part, measures, width)]
        case Gaps():
            return [*words.gaps(content, measures, width)]
        case Said():
            return [*words.note(content.language.say(part.message), measures, width)]


def _drawing(
    part: Drawing, content: Content, measures: Measures, width: float, way: _Way
) -> list[Placed]:
    if part.name not in content.drawings or (part.optional and not way.drawn):
        return []
    wide = part.width or width
    return [PlacedDrawing(part.name, wide, shapes.height(part.name, wide), measures.part)]


def _halves(part: SpeedList, content: Content, measures: Measures, width: float) -> list[Placed]:
    half = (width - GAP) / 2
    halves = [speeds.placed(content, part, measures, half, which) for which in (0, 1)]
    stacks = [PlacedStack(half, tuple(one)) for one in halves]
    return [_side_by_side(stacks, GAP, measures)]


def _beside(
    row: Beside, content: Content, measures: Measures, width: float, way: _Way
) -> list[Placed]:
    stacks = _filled(row, content)
    if not stacks:
        return []
    room = width - row.gap * (len(stacks) - 1)
    widths = _stack_widths(stacks, content, measures, room)
    made = []
    for stack, wide in zip(stacks, widths, strict=True):
        placed = [one for part in stack.parts for one in _parts(part, content, measures, wide, way)]
        made.append(PlacedStack(wide, tuple(placed)))
    return [_side_by_side(made, row.gap, measures)]


def _side_by_side(stacks: Sequence[PlacedStack], gap: float, measures: Measures) -> PlacedBeside:
    height = max(stack_height(stack.placed) for stack in stacks)
    return PlacedBeside(tuple(stacks), gap, height, measures.part)


def _stack_widths(
    stacks: Sequence[Stack], content: Content, measures: Measures, room: float
) -> list[float]:
    """Return stacks' widths: those that are set, and of the rest what each needs and a share.

    Titles stand in one line, if there is room for that.
    """
    least = [_stack_width(stack, content, measures) for stack in stacks]
    titled = [
        stack.width or max(one, *_title_widths(stack, content, measures))
        for one, stack in zip(least, stacks, strict=True)
    ]
    widths = titled if sum(titled) <= room else least
    free = sum(one for one, stack in zip(widths, stacks, strict=True) if not stack.width)
    spare = room - sum(widths)
    return [
        one if stack.width else one + spare * one / free
        for one, stack in zip(widths, stacks, strict=True)
    ]


def _stack_width(stack: Stack, content: Content, measures: Measures) -> float:
    return stack.width or max(_width(part, content, measures) for part in stack.parts)


def _title_widths(stack: Stack, content: Content, measures: Measures) -> Iterator[float]:
    yield 0.0
    for part in stack.parts:
        if isinstance(part, Grid):
            yield grids.title_width(content, part, measures)
