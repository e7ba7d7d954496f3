"""Courses of sheets under a slope: one height of seam all along, in those columns of sheets that need it."""

from msgspec.structs import replace

from wallwright.domain.bevels import bevelled
from wallwright.domain.carriers import LEAST_BEARING
from wallwright.domain.openings import Plan
from wallwright.domain.parts import Part
from wallwright.domain.rows import LEAST_STRIP, Row, highest_seam, rows
from wallwright.domain.seams import Column
from wallwright.domain.sloped import Standing
from wallwright.domain.slopes import soffit, top_edge
from wallwright.domain.wall import Wall
from wallwright.findings import Fault, at_least

Courses = tuple[tuple[Row, ...], list[Part], list[Fault]]


def courses_of(plan: Plan, standing: Standing, columns: tuple[Column, ...]) -> Courses:
    """The courses of sheets from the bottom up, the blocking under their seams, and faults.

    Under a slope a column that one sheet covers up to its highest point has no seam; the last course reaches
    the highest point of all, and every strip above a seam is at least `LEAST_STRIP` high at its own.
    """
    if plan.wall.top.shape == "level":
        return rows(plan, standing.parts)
    wall = plan.wall
    gap, full = wall.sheathing.gap, sheet_length(wall)
    edge = top_edge(wall)
    tops = {column: edge.most(column.left, column.right) for column in columns}
    bottom, courses, blocking = wall.face_bottom, list[Row](), list[Part]()
    while waiting := [column for column in columns if tops[column] - bottom > full]:
        highest = min(bottom + full, min(tops[column] for column in waiting) - LEAST_STRIP - gap)
        highest = _clear_of_ends(wall, highest)
        spans = [(column.left, column.right) for column in waiting]
        found = highest_seam(standing.plan, standing.parts, bottom, highest, spans)
        if found is None:
            whole = at_least(max(tops.values()) - wall.face_bottom + wall.sheathing.sheet.length - full)
            values = (("given", wall.sheathing.sheet.length), ("least", whole))
            return (), [], [Fault("no-level-seam", "/sheathing/sheet/length", values)]
        seam, blocks = found
        courses.append(Row(bottom, seam))
        blocking += [cut for block in blocks if (cut := under_plates(wall, block, seam)) is not None]
        bottom = seam + gap
        columns = tuple(waiting)
    courses.append(Row(bottom, max(tops.values())))
    return tuple(courses), blocking, []


def _clear_of_ends(wall: Wall, seam: int) -> int:
    """The seam, lowered where it would leave less than its bearing of this wall above it at a high end.

    A lapped sheet may rise past the plate's end, so that the strip stands mostly before the next wall's post.
    """
    gap = wall.sheathing.gap
    for x in (0, wall.length):
        over = top_edge(wall).at(x) - seam - gap
        if 0 < over < LEAST_BEARING:
            seam -= LEAST_BEARING - over
    return seam


def sheet_length(wall: Wall) -> int:
    """How long a sheet is as it lies in the yard."""
    sheet = wall.sheathing.sheet
    return sheet.length - (wall.sheathing.gap if sheet.sized_for_spacing else 0)


def cells(wall: Wall, column: Column, courses: tuple[Row, ...]) -> list[Row]:
    """The courses of one column of sheets: the wall's, as far up as this column needs them."""
    if wall.top.shape == "level":
        return list(courses)
    top, full = top_edge(wall).most(column.left, column.right), sheet_length(wall)
    found: list[Row] = []
    for course in courses:
        if top - course.bottom <= full:
            return [*found, Row(course.bottom, top)]
        found.append(course)
    return found


def under_plates(wall: Wall, block: Part, seam: int) -> Part | None:
    """A block cut to the slope; where the plates themselves carry the seam it stops, no thinner than it must be."""
    under = soffit(wall)
    low = min(seam - LEAST_BEARING, block.y + LEAST_BEARING)
    left, right = under.above(low, block.x, block.right)
    if left >= right:
        return None
    return bevelled(wall, replace(block, x=left, width=right - left, length=right - left), under)
