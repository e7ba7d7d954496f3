"""Members' marks on the framing elevation: uprights on leaders, plates at the paper's right, all others beside themselves."""

from collections import Counter
from collections.abc import Iterator
from itertools import chain
from typing import Final

from wallwright.domain.members import Layout, Member
from wallwright.domain.slopes import soffit, top_edge
from wallwright.drawing.dimensions import Part, Shapes, leaders
from wallwright.drawing.paper import MARGIN, View
from wallwright.drawing.scene import CLEAR, TALL, TEXT_MM, Box, Lines, Text, shortened, spread, text_box, text_width
from wallwright.lengths import MILLIMETRE

PLATE_ROOM: Final = 9.5
"""How much room the marks of one layer of plate have beside the wall, in millimetres."""
_MARK: Final = TALL * TEXT_MM["t"]
LEADER: Final = 4.0
_ALONG: Final = (0.5, 0.25, 0.75, 0.12, 0.88)
_STEP: Final = 1.3
_STEPS: Final = 16
_DOWN: Final = (0.0, -3.0, 3.0, -6.0, 6.0, -9.0, 9.0, 12.0, -12.0)
_PLACE: Final = 2.0
_PLACES: Final = 30
_CELL: Final = 8.0


def on_leaders(layout: Layout) -> tuple[list[Member], list[Member], list[Member]]:
    """The members marked above the wall, those marked below it, and those that are neither, pieces of plates among them."""
    wall = layout.wall
    level = wall.top.shape == "level"
    above: list[Member] = []
    below: list[Member] = []
    others: list[Member] = []
    pieced = {face for face, count in Counter(one.y for one in layout.members if _lies(one)).items() if count > 1}
    for member in layout.members:
        if member.role.endswith("plate"):
            if member.y in pieced and _lies(member):
                others.append(member)
            continue
        if member.role in ("header", "rough-sill", "blocking"):
            others.append(member)
        elif member.outline or (level and member.top == wall.stud_top):
            above.append(member)
        elif member.y == wall.stud_bottom:
            below.append(member)
        else:
            others.append(member)
    return above, below, others


def _lies(member: Member) -> bool:
    """Whether it is a level plate."""
    return member.role.endswith("plate") and not member.outline


def upright_marks(view: View, layout: Layout, above: list[Member], below: list[Member]) -> Shapes:
    """Marks of uprights, fanned out on leaders over the wall and under it."""
    length, edge = layout.wall.length, top_edge(layout.wall)
    low, high = MARGIN + 3, view.width - MARGIN - 3

    def crest(x: float) -> float:
        # Past the wall's ends the row of marks goes on level.
        return view.y(edge.at(max(0, min(length, view.along(x))))) - 0.5

    shapes = leaders([(_centre(view, one), one.mark) for one in above], crest, -LEADER, low, high)
    return shapes + leaders([(_centre(view, one), one.mark) for one in below], lambda _: view.y(0) + 0.5, 3, low, high)


def _centre(view: View, member: Member) -> float:
    return view.x(member.x) + view.size(member.width) / 2


def plate_marks(view: View, layout: Layout, part: Part) -> Shapes:
    """Marks of the plates where a paper shows their right ends; a gable's left plates at their own end where they differ."""
    wall, right = layout.wall, min(layout.wall.length, view.along(part.high) if not part.last else layout.wall.length)
    left = 0 if part.first else view.along(part.low)
    edge = top_edge(wall)
    at_right: dict[float, list[str]] = {}
    at_left: dict[float, str] = {}
    for member in layout.members:
        if not member.role.endswith("plate") or member.right <= left or member.x >= right:
            continue
        if not member.outline:
            at_right.setdefault(view.y(member.y + member.height // 2), []).append(member.mark)
        elif member.right >= right + min(0, wall.right.cap_lap if part.last else 0):
            at_right.setdefault(_end_middle(view, member, min(member.right, right)), []).append(member.mark)
        elif part.first and member.mark not in {one.mark for one in layout.members if one.right > member.right}:
            at_left[_end_middle(view, member, member.x)] = member.mark
    end = view.x(wall.length + max(0, wall.right.cap_lap)) if part.last else part.high + 3
    # A plate in pieces has the marks of its pieces, from left to right, as far as there is room.
    rows = {y: shortened(" ".join(dict.fromkeys(marks)), PLATE_ROOM) for y, marks in at_right.items()}
    start = view.x(min(0, -wall.left.cap_lap))
    return [
        *_column(view, rows, end + 1.5, view.y(edge.at(right)), "start"),
        *_column(view, at_left, start - 1, view.y(edge.at(0)), "end"),
    ]


def _column(view: View, rows: dict[float, str], x: float, crest: float, anchor: str) -> Shapes:
    """Marks one below the other beside the plates, none so high that it meets the marks over the wall."""
    middles = sorted(rows)
    places = spread([y + 0.9 for y in middles], 3.0, crest - LEADER + _MARK + 0.6, view.height) or []
    return [
        Text(x, y, rows[at], "t", "start" if anchor == "start" else "end")
        for y, at in zip(places, middles, strict=False)
    ]


def _end_middle(view: View, member: Member, x: int) -> float:
    """The middle, on paper, of a sloped plate's end, or of where it is cut through at x."""
    ys = [
        a[1] if b[0] == a[0] else a[1] + (b[1] - a[1]) * (x - a[0]) // (b[0] - a[0])
        for a, b in zip(member.outline, (*member.outline[1:], member.outline[0]), strict=True)
        if min(a[0], b[0]) <= x <= max(a[0], b[0])
    ]
    return view.y((min(ys) + max(ys)) // 2)


class _Room:
    """What is drawn, in cells along x, so that a place is compared with what is near it alone."""

    def __init__(self) -> None:
        self.cells: dict[int, list[Box]] = {}

    def add(self, box: Box) -> None:
        """Something stands here."""
        for cell in range(int(box[0] // _CELL), int(box[2] // _CELL) + 1):
            self.cells.setdefault(cell, []).append(box)

    def clear(self, box: Box) -> bool:
        """Whether nothing stands here."""
        left, top, right, bottom = box
        return not any(
            left < one[2] and one[0] < right and top < one[3] and one[1] < bottom
            for cell in range(int(left // _CELL), int(right // _CELL) + 1)
            for one in self.cells.get(cell, ())
        )

    def diagonals(self, line: Box) -> list[Box]:
        """The diagonals of what stands near a line: one that passes over a box crosses one of them."""
        low, high = sorted((line[0], line[2]))
        near = [one for cell in range(int(low // _CELL), int(high // _CELL) + 1) for one in self.cells.get(cell, ())]
        return [*near, *((left, bottom, right, top) for left, top, right, bottom in near)]


def other_marks(view: View, layout: Layout, others: list[Member], drawn: Shapes) -> tuple[Shapes, list[str]]:
    """Marks of headers, sills, blocks, backing: inside where they are large enough, else beside, on a leader where need be.

    A member that finds no place shares the mark of its like nearby; marks that stand nowhere are the second part.
    """
    wall, under = layout.wall, soffit(layout.wall)
    members, texts = _Room(), _Room()
    for member in layout.members:
        if not member.role.endswith("plate"):
            members.add(_box(view, member))
    for text in (shape for shape in drawn if isinstance(shape, Text)):
        members.add(text_box(text))
        texts.add(text_box(text))
    left, right, floor = view.x(0), view.x(wall.length), view.y(wall.stud_bottom)
    level = view.y(wall.stud_top) if wall.top.shape == "level" else None

    def free(box: Box) -> bool:
        if box[0] < left or box[2] > right or box[3] > floor:
            return False
        ceiling = view.y(under.least(view.along(box[0]), view.along(box[2]))) if level is None else level
        return box[1] >= ceiling and members.clear(box)

    shapes: Shapes = []
    lines: list[Box] = []
    told: set[str] = set()

    def put(member: Member, placed: Text) -> None:
        shapes.append(placed)
        told.add(member.mark)
        members.add(text_box(placed))
        texts.add(text_box(placed))

    # Those that stand at their members come first, so that no leader takes the room of one.
    led: list[tuple[Member, Iterator[_Place]]] = []
    for member in others:
        body, long = _box(view, member), text_width(member.mark)
        placed = _inside(body, member.mark, long) if member.z == 0 else None
        if placed is not None and texts.clear(text_box(placed)):
            put(member, placed)
            continue
        found = None if _lies(member) else next((at for at in _at(body, long) if free(_taken(*at, long))), None)
        if found is not None:
            put(member, Text(*found, member.mark))
        else:
            led.append(
                (member, _in_bays(view, body, wall.stud_top, floor, member) if _lies(member) else _beside(body, long))
            )
    for member, places in led:
        open_to = (place for place in places if free(_taken(*place[:2], text_width(member.mark))))
        first = next(open_to, None)
        if first is None:
            continue
        # Best is one whose leader crosses neither another nor a text, so that no mark is read for that of its neighbour.
        best = (one for one in chain([first], open_to) if not _crosses(one[2], [*lines, *texts.diagonals(one[2])]))
        x, y, leader = next(best, first)
        put(member, Text(x, y, member.mark))
        lines.append(leader)
    if lines:
        shapes.insert(0, Lines("thin", tuple(lines)))
    return shapes, [mark for mark in dict.fromkeys(one.mark for one in others) if mark not in told]


_Place = tuple[float, float, Box]
"""Where a mark begins on its baseline, and the leader that it needs there."""


def _crosses(leader: Box, lines: list[Box]) -> bool:
    """Whether a leader crosses any of some lines."""
    return any(
        _turns(leader, *one[:2]) * _turns(leader, *one[2:]) < 0
        and _turns(one, *leader[:2]) * _turns(one, *leader[2:]) < 0
        for one in lines
    )


def _turns(line: Box, x: float, y: float) -> float:
    """To which side of a line a point lies."""
    return (line[2] - line[0]) * (y - line[1]) - (line[3] - line[1]) * (x - line[0])


def _taken(x: float, y: float, long: float) -> Box:
    return x - CLEAR, y - _MARK - CLEAR, x + long + CLEAR, y + CLEAR


def _box(view: View, member: Member) -> Box:
    x, y = view.x(member.x), view.y(member.top)
    scale = MILLIMETRE * view.ratio
    return x, y, x + member.width / scale, y + member.height / scale


def _inside(body: Box, mark: str, long: float) -> Text | None:
    """The mark in the middle of its member, level or turned; None where it is too small for it."""
    left, top, right, bottom = body
    x, y = (left + right) / 2, (top + bottom) / 2
    if bottom - top >= 2.9 and right - left > long + 1:
        return Text(x, y + 0.9, mark, "t", "middle")
    if right - left >= 2.9 and bottom - top > long + 1:
        return Text(x + 0.9, y, mark, "t", "middle", turned=True)
    return None


def _in_bays(view: View, body: Box, top: int, floor: float, member: Member) -> Iterator[_Place]:
    """Where a piece of a plate may have its mark: in a bay below or above it, on a plumb leader, the nearest to its middle first."""
    left, upper, right, lower = body
    y, half = (upper + lower) / 2, text_width(member.mark) / 2
    row = floor - 1.2 if member.role == "bottom-plate" else view.y(top) + _MARK + 1.2
    end = row + 0.4 if member.role == "bottom-plate" else row - _MARK - 0.4
    for step in range(2 * _PLACES):
        at = (left + right) / 2 + (-1) ** step * ((step + 1) // 2) * _PLACE
        if left + 0.5 < at < right - 0.5:
            yield at - half, row, (at, y, at, end)


def _at(body: Box, long: float) -> Iterator[tuple[float, float]]:
    """Where a mark may stand right under or over its member, if that lies, the plainest place first."""
    left, top, right, bottom = body
    if right - left > bottom - top:
        for share in _ALONG:
            at = left + share * (right - left) - long / 2
            yield at, bottom + _MARK + 0.6
            yield at, top - 0.6


def _beside(body: Box, long: float) -> Iterator[_Place]:
    """Where a mark may stand beside its member on a leader, the nearest place first."""
    left, top, right, bottom = body
    y = (top + bottom) / 2
    # A leader starts within the member's nearer end.
    inset = min(1.2, (right - left) / 2)
    for down in _DOWN:
        for step in range(1, _STEPS):
            away = step * _STEP
            yield right + away, y + down + 0.9, (right - inset, y, right + away - 0.4, y + down)
            yield left - away - long, y + down + 0.9, (left + inset, y, left - away + 0.4, y + down)
