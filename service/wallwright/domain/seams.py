"""Where the sheets begin and end along a wall, and the studs that their seams lack.

Seams follow from the face of the wall, its ends, its openings and the tape's grid; the frame is asked
only what carries a seam that is thought of. Candidates: the first sheet full, or ripped so that its
edge falls on a layout line; then each sheet full, or ripped by the drift of the gaps so that the next
starts on a line. Layout studs never move.
"""

from collections.abc import Iterable

import msgspec

from wallwright.domain.carriers import BEARING, Carriers, Span
from wallwright.domain.grid import lines_between
from wallwright.domain.nearby import Nearby, voids_of
from wallwright.domain.parts import Part
from wallwright.domain.wall import Opening, Wall
from wallwright.lengths import INCH, inches

SLIVER = 12 * INCH
"""Pieces beside an end, and legs beside an opening, that are narrower than this are avoided."""
SCRAP = inches("3/4")
"""A piece or leg narrower than this holds no nail: 3/8 in from either edge leaves nothing."""
_IN_LINE = inches("3/4")
"""A joint no further than this from the side of an opening counts as in line with its corner."""
_KEPT = 12
"""How many ways of laying the same number of sheets are followed at once."""


class Column(msgspec.Struct, frozen=True, gc=False):
    """One sheet's width along the wall, from ``left`` to ``right``."""

    left: int
    right: int


class Stretch(msgspec.Struct, frozen=True):
    """A stretch of face to be laid with sheets side by side, each ``full`` wide unless it is ripped.

    ``openings`` are those that cut into it, ``voids`` the same as boxes; ``below`` are the joints of a course
    underneath that meet it, from which joints of lying sheets keep away.
    """

    wall: Wall
    left: int
    right: int
    full: int
    openings: tuple[Opening, ...]
    voids: Nearby
    heights: Span = (0, 0)
    """From where to where a course of lying sheets stands."""
    below: tuple[int, ...] = ()
    above: tuple[int, ...] = ()
    """Where the course above has to end a sheet: joints underneath keep away from those as well."""
    breaks: tuple[int, ...] = ()
    """Where a sheet has to end, each the left edge of a seam: at the sides of openings that are pieced round."""


def upright_stretch(wall: Wall) -> Stretch:
    """The whole face, to be laid with upright sheets."""
    sheet = wall.sheathing.sheet
    full = sheet.net_width - wall.sheathing.gap if sheet.sized_for_spacing else sheet.net_width
    return Stretch(wall, wall.face_left, wall.face_right, full, wall.openings, voids_of(wall.openings))


class Columns(msgspec.Struct, frozen=True):
    """The sheets along a wall, the seam studs they need, and how the choice compares."""

    columns: tuple[Column, ...]
    studs: tuple[Part, ...]
    rips: int
    slivers: int
    legs: int
    close: int = 0
    """Joints of lying sheets nearer than a bay to one in the course below."""


class _Way(msgspec.Struct, frozen=True):
    """A way of laying the first sheets: its cost so far and where the next sheet starts."""

    next: int
    scraps: int
    slivers: int
    legs: int
    studs: tuple[Part, ...]
    rips: int
    narrowest: int
    short_of_full: int
    columns: tuple[Column, ...]
    close: int = 0
    """Joints of lying sheets nearer than a bay to one in the course below."""
    forced: int = 0
    """Joints of lying sheets nearer than a bay to where the course above has to end a sheet."""
    near: int = 0
    """Joints of lying sheets nearer than two bays to one in the course below."""
    aligned: int = 0
    """Joints of lying sheets in line with an opening's corner."""

    @property
    def rank(self) -> tuple[int, ...]:
        """What ways with the same number of sheets are compared by, the least being the best."""
        return (
            self.scraps, self.close + self.forced, self.slivers, self.near, self.aligned, self.legs,
            len(self.studs), self.rips, -self.narrowest, self.short_of_full,
        )  # fmt: skip


def columns(stretch: Stretch, carriers: Carriers) -> Columns:
    """The best way to lay sheets along a stretch of a level wall, beginning at its left."""
    reach = stretch.right
    start = _Way(stretch.left, 0, 0, 0, (), 0, 1 << 62, 0, ())
    finished: list[_Way] = []
    ways = [start]
    # A way that takes another sheet can only win by leaving fewer scraps and slivers.
    while ways and not (finished and min(map(_narrow, finished)) <= min(map(_narrow, ways))):
        following: dict[int, _Way] = {}
        finished_now: list[_Way] = []
        for way in ways:
            for step in _steps(stretch, carriers, way):
                if step.columns[-1].right >= reach or step.next >= reach:
                    finished_now.append(step)
                elif step.next not in following or step.rank < following[step.next].rank:
                    following[step.next] = step
        if finished_now:
            finished.append(min(finished_now, key=lambda way: way.rank))
        ways = sorted(following.values(), key=lambda way: (way.rank, -way.next))[:_KEPT]
    best = min(finished, key=lambda way: (_narrow(way), len(way.columns), way.rank))
    return Columns(best.columns, best.studs, best.rips, best.slivers, best.legs, best.close)


def _narrow(way: _Way) -> tuple[int, int, int]:
    return way.scraps, way.close + way.forced, way.slivers


def _steps(stretch: Stretch, carriers: Carriers, way: _Way) -> list[_Way]:
    """The ways on from here: the next sheet as the last, full, or ripped."""
    gap, full, reach = stretch.wall.sheathing.gap, stretch.full, stretch.right
    first = not way.columns
    brk = next((at for at in stretch.breaks if at > way.next), None)
    if brk is not None:
        if way.next + full >= brk:
            own = carriers.studs_for(brk, brk + gap) or ()
            return [_with(stretch, way, Column(way.next, brk), brk + gap, own, 0, full if first else 0)]
        most = brk - gap - 2 * stretch.wall.thickness
    else:
        most = reach
    if brk is None and way.next + full + gap >= reach:
        last = Column(way.next, min(way.next + full, reach))
        return [_with(stretch, way, last, reach, (), 0, full if first else 0)]
    steps = []
    untouched = Column(way.next, way.next + full)
    rips = [(column, 1) for column in _ripped(stretch, way)]
    for column, rip in [(untouched, 0), *rips]:
        if column.right > most:
            continue
        studs = carriers.studs_for(column.right, column.right + gap)
        if studs is not None:
            steps.append(_with(stretch, way, column, column.right + gap, studs, rip, full if first else 0))
    if all(step.scraps > way.scraps for step in steps):
        steps.append(_anywhere(stretch, carriers, way, first, most))
    return steps


def _ripped(stretch: Stretch, way: _Way) -> list[Column]:
    """The next sheet ripped so that the one after it starts on a layout line; the first may take any line.

    Where the gap leaves the ripped sheet less than its bearing, the start moves past the line by that much.
    """
    wall, full = stretch.wall, stretch.full
    gap = wall.sheathing.gap
    shift = max(0, BEARING + gap - wall.thickness // 2)
    least = way.next + gap + 2 * wall.thickness
    most = way.next + full + gap - shift - 1
    lines = lines_between(wall, max(least - shift, most - wall.spacing + 1) if way.columns else least - shift, most)
    return [Column(way.next, line + shift - gap) for line in reversed(lines)]


def _anywhere(stretch: Stretch, carriers: Carriers, way: _Way, first: bool, most: int) -> _Way:
    """Where no line serves: the widest piece, to the inch, that leaves no scrap and whose seam can be carried."""
    wall, full = stretch.wall, stretch.full
    gap = wall.sheathing.gap
    found: list[_Way] = []
    widest = min(way.next + full, most)
    for edge in range(widest, way.next + wall.thickness, -INCH):
        studs = carriers.studs_for(edge, edge + gap)
        if studs is None:
            continue
        found.append(_with(stretch, way, Column(way.next, edge), edge + gap, studs, 1, full if first else 0))
        if found[-1].scraps == way.scraps:
            return found[-1]
    if found:
        return min(found, key=lambda step: step.scraps)
    return _with(stretch, way, Column(way.next, widest), widest + gap, (), 0, full if first else 0)


def _leaves_room(stretch: Stretch, start: int) -> bool:
    """Whether a sheet that starts there begins with no scrap: not just beside an opening or the end."""
    if stretch.right - start < SCRAP:
        return False
    return all(box[0] <= start for box in stretch.voids.between(start, start + SCRAP))


def _with(
    stretch: Stretch, way: _Way, column: Column, after: int, studs: tuple[Part, ...], rip: int, first_full: int
) -> _Way:
    """``way`` with one more sheet laid."""
    wall = stretch.wall
    width = column.right - column.left
    at_end = not way.columns or column.right + wall.sheathing.gap >= stretch.right
    beside = legs(stretch.voids, column)
    scraps = len([low for low, high in beside if high - low < SCRAP]) + int(width < SCRAP)
    # A start that leaves the next sheet a scrap is told now, while there are other places to cut.
    scraps += int(after < stretch.right and not _leaves_room(stretch, after))
    # Joints drift on their studs by the gaps: two that lie one bay or two apart may be a stud's thickness nearer.
    inner, (foot, top) = after < stretch.right, stretch.heights
    apart = _apart(stretch, column.right, stretch.below, foot) if stretch.below and inner else 1 << 62
    under = _apart(stretch, column.right, stretch.above, top) if stretch.above and inner else 1 << 62
    return _Way(
        after,
        way.scraps + scraps,
        way.slivers + int(at_end and width < SLIVER),
        way.legs + len(beside),
        way.studs + studs,
        way.rips + rip,
        min(way.narrowest, width),
        first_full - width if first_full else way.short_of_full,
        (*way.columns, column),
        way.close + int(apart < wall.spacing - wall.stud.thickness),
        way.forced + int(under < wall.spacing - wall.stud.thickness),
        way.near + int(apart < 2 * wall.spacing - wall.stud.thickness),
        way.aligned
        + int(wall.sheathing.direction == "lying" and after < stretch.right and _in_line(stretch, column.right)),
    )


def _in_line(stretch: Stretch, joint: int) -> bool:
    """Whether a joint stands in line with the side of an opening that cuts into the stretch."""
    low, high = joint - _IN_LINE, joint + stretch.wall.sheathing.gap + _IN_LINE
    return any(low < side < high for opening in stretch.openings for side in (opening.left, opening.right))


def _apart(stretch: Stretch, joint: int, others: tuple[int, ...], level: int) -> int:
    """How far a joint stands from the nearest of another course's that meet the same level seam, if it meets it itself."""
    if interrupted(stretch.openings, joint, stretch.wall.sheathing.gap, level):
        return 1 << 62
    return min([abs(joint - other) for other in others])


def interrupted(openings: Iterable[Opening], joint: int, gap: int, level: int) -> bool:
    """Whether an opening takes the place of a joint, its gap beginning at ``joint``, where it would meet a level seam."""
    return any(
        o.sill < level < o.head and (o.left <= joint + gap < o.right or o.left < joint <= o.right) for o in openings
    )


def legs(voids: Nearby, column: Column) -> list[Span]:
    """The stretches of a sheet beside an opening that are narrower than `SLIVER`."""
    found = []
    edge = column.left
    cut = voids.between(edge, column.right)
    for left, right, _, _ in cut:
        if edge < left < edge + SLIVER:
            found.append((edge, left))
        edge = right
    if cut and edge < column.right < edge + SLIVER:
        found.append((edge, column.right))
    return found
