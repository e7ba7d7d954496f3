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


class _Gauge(msgspec.Struct, frozen=True):
    """What every step along a stretch goes by, worked out once for all of them."""

    stretch: Stretch
    carriers: Carriers
    gap: int
    thick: int
    past_line: int
    """How far past a layout line a sheet starts, so that the one before it has its bearing."""


def _gauge(stretch: Stretch, carriers: Carriers) -> _Gauge:
    gap, thick = stretch.wall.sheathing.gap, stretch.wall.thickness
    return _Gauge(stretch, carriers, gap, thick, max(0, BEARING + gap - thick // 2))


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
    gauge, reach = _gauge(stretch, carriers), stretch.right
    start = _Way(stretch.left, 0, 0, 0, (), 0, 1 << 62, 0, ())
    finished: list[_Way] = []
    ways = [start]
    # A way that takes another sheet can only win by leaving fewer scraps and slivers.
    while ways and not (finished and min(map(_narrow, finished)) <= min(map(_narrow, ways))):
        following: dict[int, _Way] = {}
        finished_now: list[_Way] = []
        for way in ways:
            for step in _steps(gauge, way):
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


def _steps(gauge: _Gauge, way: _Way) -> list[_Way]:
    """The ways on from here: the next sheet as the last, full, or ripped."""
    stretch, gap = gauge.stretch, gauge.gap
    start, reach = way.next, stretch.right
    untouched, most = start + stretch.full, reach
    brk = next((at for at in stretch.breaks if at > start), None) if stretch.breaks else None
    if brk is not None:
        if untouched >= brk:
            return [_with(gauge, way, brk, gauge.carriers.studs_for(brk, brk + gap) or (), 0)]
        most = brk - gap - 2 * gauge.thick
    elif untouched + gap >= reach:
        return [_with(gauge, way, min(untouched, reach), (), 0)]
    steps = []
    for right in (untouched, *_ripped(gauge, way)):
        if right > most:
            continue
        studs = gauge.carriers.studs_for(right, right + gap)
        if studs is not None:
            steps.append(_with(gauge, way, right, studs, int(right != untouched)))
    if all(step.scraps > way.scraps for step in steps):
        steps.append(_anywhere(gauge, way, most))
    return steps


def _ripped(gauge: _Gauge, way: _Way) -> list[int]:
    """Where the next sheet is ripped so that the one after it starts on a layout line; the first may take any line.

    Where the gap leaves the ripped sheet less than its bearing, the start moves past the line by that much.
    """
    wall, gap, shift = gauge.stretch.wall, gauge.gap, gauge.past_line
    least = way.next + gap + 2 * gauge.thick - shift
    most = way.next + gauge.stretch.full + gap - shift - 1
    lines = lines_between(wall, max(least, most - wall.spacing + 1) if way.columns else least, most)
    return [line + shift - gap for line in reversed(lines)]


def _anywhere(gauge: _Gauge, way: _Way, most: int) -> _Way:
    """Where no line serves: the widest piece, to the inch, that leaves no scrap and whose seam can be carried."""
    found: list[_Way] = []
    widest = min(way.next + gauge.stretch.full, most)
    for edge in range(widest, way.next + gauge.thick, -INCH):
        studs = gauge.carriers.studs_for(edge, edge + gauge.gap)
        if studs is None:
            continue
        found.append(_with(gauge, way, edge, studs, 1))
        if found[-1].scraps == way.scraps:
            return found[-1]
    if found:
        return min(found, key=lambda step: step.scraps)
    return _with(gauge, way, widest, (), 0)


def _leaves_room(stretch: Stretch, start: int) -> bool:
    """Whether a sheet that starts there begins with no scrap: not just beside an opening or the end."""
    if stretch.right - start < SCRAP:
        return False
    beside = stretch.voids.between(start, start + SCRAP)
    return not beside or all(box[0] <= start for box in beside)


def _with(gauge: _Gauge, way: _Way, right: int, studs: tuple[Part, ...], rip: int) -> _Way:
    """``way`` with one more sheet laid, up to x ``right``."""
    stretch, column = gauge.stretch, Column(way.next, right)
    width, after, first = right - way.next, right + gauge.gap, not way.columns
    inner = after < stretch.right
    beside = legs(stretch.voids, column)
    scraps = int(width < SCRAP)
    for low, high in beside:
        scraps += int(high - low < SCRAP)
    # A start that leaves the next sheet a scrap is told now, while there are other places to cut.
    scraps += int(inner and not _leaves_room(stretch, after))
    close, forced, near, aligned = (
        _joint(gauge, right) if inner and stretch.wall.sheathing.direction == "lying" else _NO_JOINT
    )
    return _Way(
        after, way.scraps + scraps, way.slivers + int(width < SLIVER and (first or not inner)), way.legs + len(beside),
        way.studs + studs, way.rips + rip, min(way.narrowest, width),
        stretch.full - width if first else way.short_of_full, (*way.columns, column),
        way.close + close, way.forced + forced, way.near + near, way.aligned + aligned,
    )  # fmt: skip


_NO_JOINT = (0, 0, 0, 0)


def _joint(gauge: _Gauge, joint: int) -> tuple[int, int, int, int]:
    """What is against a joint of lying sheets, each 0 or 1: close to one below, close to one that the course above
    has to have, near one below, in line with an opening's corner.
    """
    stretch, (foot, top) = gauge.stretch, gauge.stretch.heights
    # Joints drift on their studs by the gaps: two that lie one bay or two apart may be a stud's thickness nearer.
    bay = stretch.wall.spacing - gauge.thick
    apart = _apart(stretch, joint, stretch.below, foot) if stretch.below else 1 << 62
    under = _apart(stretch, joint, stretch.above, top) if stretch.above else 1 << 62
    in_line = _in_line(stretch, joint)
    return int(apart < bay), int(under < bay), int(apart < bay + stretch.wall.spacing), int(in_line)


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
