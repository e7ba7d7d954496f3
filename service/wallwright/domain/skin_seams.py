"""The seams of a skinned wall: where two sheets meet, what carries them, and how much timber each side bears on."""

from collections.abc import Callable

from msgspec.structs import replace

from wallwright.domain.carriers import Span, merged
from wallwright.domain.lying import Course
from wallwright.domain.members import Layout, Member
from wallwright.domain.nearby import Nearby
from wallwright.domain.partitions import OPEN
from wallwright.domain.rows import Row
from wallwright.domain.seams import Column
from wallwright.domain.skin import Seam
from wallwright.domain.slope_rows import cells
from wallwright.domain.slopes import soffit, top_edge
from wallwright.domain.wall import Wall
from wallwright.lengths import INCH

REACH = 12 * INCH
"""How far beside a seam members that touch one another are followed."""


def seams(wall: Wall, columns: tuple[Column, ...], courses: tuple[Row, ...], layout: Layout) -> tuple[Seam, ...]:
    """Every seam between two sheets, upright ones from left to right, then level ones from the bottom up."""
    outer = _outer(wall, layout)
    found: list[Seam] = []
    edge = top_edge(wall)
    stacks = [cells(wall, column, courses) for column in columns]
    for number, (left, right) in enumerate(zip(columns, columns[1:], strict=False)):
        reach = edge.least(left.right, right.left)
        for bottom, top in _shared(stacks[number], stacks[number + 1], reach):
            found += _upright_runs(wall, outer, len(found), left.right, right.left, (bottom, top))
    for number, (lower, upper) in enumerate(zip(courses, courses[1:], strict=False)):
        for column in (column for column, own in zip(columns, stacks, strict=True) if number + 1 < len(own)):
            along = edge.above(upper.bottom, column.left, column.right)
            found += _level_runs(wall, outer, len(found), lower.top, upper.bottom, along)
    return tuple(found)


def lying_seams(wall: Wall, courses: tuple[Course, ...], layout: Layout) -> tuple[Seam, ...]:
    """Every seam of lying sheets: joints from left to right in each course from the bottom up, then level seams."""
    outer, edge = _outer(wall, layout), top_edge(wall)
    found: list[Seam] = []
    for course in courses:
        for left, right in zip(course.columns, course.columns[1:], strict=False):
            top = min(course.row.top, edge.least(left.right, right.left))
            if course.row.bottom < top:
                heights = (course.row.bottom, top)
                found += _upright_runs(wall, outer, len(found), left.right, right.left, heights)
    for lower, upper in zip(courses, courses[1:], strict=False):
        along = edge.above(upper.row.bottom, wall.face_left, wall.face_right)
        found += _level_runs(wall, outer, len(found), lower.row.top, upper.row.bottom, along)
    return tuple(found)


def _upright_runs(wall: Wall, outer: list[Member], number: int, before: int, after: int, heights: Span) -> list[Seam]:
    """An upright seam in the parts that no opening interrupts."""
    cuts = [(o.sill, o.head) for o in wall.openings if o.left <= after < o.right or o.left < before <= o.right]
    return [
        _upright(outer, number + more, before, after, low, high)
        for more, (low, high) in enumerate(_runs(*heights, cuts))
    ]


def _level_runs(wall: Wall, outer: list[Member], number: int, before: int, after: int, along: Span) -> list[Seam]:
    """A level seam in the parts that no opening interrupts."""
    cuts = [(o.left, o.right) for o in wall.openings if o.sill <= after < o.head or o.sill < before <= o.head]
    return [
        _level(outer, wall, number + more, before, after, low, high)
        for more, (low, high) in enumerate(_runs(*along, cuts))
    ]


def _outer(wall: Wall, layout: Layout) -> list[Member]:
    """What carries sheets at the framing's outer face. Under a slope all that stands to the plates counts to the top.

    A cap plate never limits a seam: where it stops short of the corner, the next wall's cap runs on. Sloping plates
    are reckoned where a level seam meets them.
    """
    outer = [member for member in layout.members if member.z == 0 and member.role != "cap-plate"]
    if wall.top.shape == "level":
        return outer
    ceiling = top_edge(wall).most(0, wall.length)
    return [
        replace(member, height=ceiling - member.y) if member.outline else member
        for member in outer
        if member.role != "top-plate"
    ]


def _shared(left: list[Row], right: list[Row], reach: int) -> list[Span]:
    """The heights up to ``reach`` in which two neighbouring columns both have a sheet, in order."""
    both = [(max(a.bottom, b.bottom), min(a.top, b.top, reach)) for a in left for b in right]
    return sorted((low, high) for low, high in both if low < high)


def _runs(low: int, high: int, cuts: list[Span]) -> list[Span]:
    """The parts of a seam that no opening interrupts."""
    runs = []
    for bottom, top in sorted(
        (max(bottom, low), min(top, high)) for bottom, top in cuts if bottom < high and top > low
    ):
        if bottom > low:
            runs.append((low, bottom))
        low = max(low, top)
    if low < high:
        runs.append((low, high))
    return runs


def _upright(outer: list[Member], number: int, before: int, after: int, low: int, high: int) -> Seam:
    beside = [m for m in outer if m.x <= after + REACH and m.right >= before - REACH and m.y < high and m.top > low]
    near = [m for m in beside if m.x <= after and m.right >= before]
    bearing = _bearing(beside, before, after, low, high, lambda m: (m.y, m.top), lambda m: (m.x, m.right))
    ids = tuple(m.id for m in near if not m.role.endswith("plate"))
    return Seam(f"seam-{number + 1}", "upright", before, after, low, high, *bearing, ids)


def _level(outer: list[Member], wall: Wall, number: int, before: int, after: int, low: int, high: int) -> Seam:
    beside = [m for m in outer if m.y <= after + REACH and m.top >= before - REACH and m.x < high and m.right > low]
    near = [m for m in beside if m.y <= after and m.top >= before]
    own_low, own_high = max(low, 0), min(high, wall.length)
    bearing = _bearing(
        beside,
        before,
        after,
        own_low,
        own_high,
        lambda m: (m.x, m.right),
        lambda m: (m.y, m.top),
        _plates_of(wall),
        OPEN,
    )
    return Seam(f"seam-{number + 1}", "level", before, after, low, high, *bearing, tuple(m.id for m in near))


def _plates_of(wall: Wall) -> Callable[[int, int], Span] | None:
    """The heights over a stretch at which there are sloping plates all along it; None where the top is level."""
    if wall.top.shape == "level":
        return None
    under, top = soffit(wall), top_edge(wall).most(0, wall.length)
    return lambda left, right: (under.most(left, right), top)


def _bearing(
    near: list[Member], before: int, after: int, low: int, high: int,
    along: Callable[[Member], Span], across: Callable[[Member], Span],
    plates: Callable[[int, int], Span] | None = None, open_to: int = 0,
) -> Span:  # fmt: skip
    """The least solid timber behind each side of a seam, over those stretches of it that have any timber at all.

    Where the seam runs below the plates or past the wall's end, the floor's rim or the next wall's post
    carries it, which is not part of this wall. ``plates`` tells where sloping plates lie over a stretch. What
    is narrower than ``open_to`` and has no timber of its own is left open.
    """
    breaks = sorted({low, high, *(b for m in near for b in along(m) if low < b < high)})
    boxes = Nearby((*along(m), *across(m)) for m in near)
    least_before = least_after = None
    for start, end in zip(breaks, breaks[1:], strict=False):
        behind = [(lo, hi) for a, b, lo, hi in boxes.between(start, end) if a <= start and b >= end]
        narrow = end - start < open_to
        solids = merged(behind if plates is None or narrow else [*behind, plates(start, end)])
        if not solids:
            continue
        own_before = next((before - lo for lo, hi in solids if lo < before <= hi), 0)
        own_after = next((hi - after for lo, hi in solids if lo <= after < hi), 0)
        if own_before or not narrow:
            least_before = own_before if least_before is None else min(least_before, own_before)
        if own_after or not narrow:
            least_after = own_after if least_after is None else min(least_after, own_after)
    return least_before or 0, least_after or 0
