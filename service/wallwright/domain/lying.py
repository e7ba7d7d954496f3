"""Lying sheets: courses from the bottom up, level seams on blocking, joints staggered from course to course."""

import msgspec
from msgspec.structs import replace

from wallwright.domain.bays import bay_blocks
from wallwright.domain.carriers import Carriers
from wallwright.domain.nearby import voids_of
from wallwright.domain.openings import Plan
from wallwright.domain.parts import Part
from wallwright.domain.piecing import is_pieced, pieced
from wallwright.domain.rows import LEAST_STRIP, Row, blocking, highest_seam
from wallwright.domain.seams import SCRAP, Column, Columns, Stretch, columns, interrupted
from wallwright.domain.slope_rows import under_plates
from wallwright.domain.sloped import Standing
from wallwright.domain.slopes import top_edge
from wallwright.domain.wall import Opening, Wall
from wallwright.findings import Fault


class Course(msgspec.Struct, frozen=True):
    """One course of lying sheets: its heights, and its sheets from left to right."""

    row: Row
    columns: tuple[Column, ...]


def lying_size(wall: Wall) -> tuple[int, int]:
    """How long and how high a whole sheet covers as it lies on the wall."""
    sheet, gap = wall.sheathing.sheet, wall.sheathing.gap
    less = gap if sheet.sized_for_spacing else 0
    return sheet.length - less, sheet.net_width - less


def lying_rows(plan: Plan, level: Standing) -> tuple[tuple[Row, ...], list[Fault]]:
    """The heights of the courses from the bottom up, each seam as high as the sheet and the frame allow.

    The last seam is lowered so that the top course is at least `LEAST_STRIP` high at its highest; any seam, so that
    no strip of sheet under `SCRAP` is left beside an opening's head or sill.
    """
    wall, gap = plan.wall, plan.wall.sheathing.gap
    _, high = lying_size(wall)
    top = top_edge(wall).most(wall.face_left, wall.face_right)
    parts = [*level.parts, *bay_blocks(level.plan, level.parts)[0]]
    bottom, rows = wall.face_bottom, list[Row]()
    while top - bottom > high:
        highest = min(bottom + high, top - LEAST_STRIP - gap)
        found = highest_seam(level.plan, parts, bottom, highest, least_leg=SCRAP)
        if found is None:
            return (), [_no_seam(highest)]
        seam, blocks = found
        rows.append(Row(bottom, seam))
        parts += blocks
        bottom = seam + gap
    return (*rows, Row(bottom, top)), []


def _no_seam(highest: int) -> Fault:
    return Fault("no-lying-seam", "/sheathing/direction", (("given", highest),))


def lay_courses(
    wall: Wall, level: Wall, in_bay: tuple[Opening, ...], frame: list[Part], rows: tuple[Row, ...]
) -> tuple[tuple[Course, ...], Columns]:
    """The sheets of each course, begun at the left, and what the choice costs over all of them.

    ``level`` is the wall as its ``frame`` stands: with a level top; ``in_bay`` are the openings within one bay.

    Each course is laid by the rules for upright sheets, its joints kept away from those of the course below, and from
    where the course above has to end a sheet beside an opening.
    """
    parts, courses, laid = list(frame), list[Course](), list[Columns]()
    below: tuple[int, ...] = ()
    for row, following in zip(rows, (*rows[1:], None), strict=True):
        stretch, carriers = _pieced(wall, level, in_bay, parts, row)
        if following is not None and is_pieced(wall):
            forced = _pieced(wall, level, in_bay, parts, following)[0].breaks
            stretch = replace(stretch, above=_meeting(wall, forced, following.bottom))
        one = columns(replace(stretch, below=_meeting(wall, below, row.bottom)), carriers)
        parts += dict.fromkeys(one.studs)
        courses.append(Course(row, one.columns))
        laid.append(one)
        below = _meeting(wall, tuple(column.right for column in one.columns[:-1]), row.top)
    whole = Columns(
        courses[0].columns, tuple(stud for one in laid for stud in one.studs), sum(one.rips for one in laid),
        sum(one.slivers for one in laid), sum(one.legs for one in laid), sum(one.close for one in laid),
    )  # fmt: skip
    return tuple(courses), whole


def _pieced(
    wall: Wall, level: Wall, in_bay: tuple[Opening, ...], parts: list[Part], row: Row
) -> tuple[Stretch, Carriers]:
    """A course to be laid, with the places at which its sheets have to end, and what carries its joints."""
    carriers = Carriers(level, in_bay, parts, (row.bottom, row.top))
    return pieced(_stretch(wall, level, row), carriers, (row.bottom, row.top)), carriers


def _meeting(wall: Wall, joints: tuple[int, ...], seam: int) -> tuple[int, ...]:
    """Those joints that no opening keeps from a level seam."""
    gap = wall.sheathing.gap
    return tuple(joint for joint in joints if not interrupted(wall.openings, joint, gap, seam))


def _stretch(wall: Wall, level: Wall, row: Row) -> Stretch:
    """The part of the face in which a course stands: under a slope as far as the top is above the course's foot."""
    left, right = wall.face_left, wall.face_right
    if wall.top.shape != "level":
        # A unit further, so that the slope alone ends the course.
        low, high = top_edge(wall).above(row.bottom, left, right)
        left, right = max(left, low - 1), min(right, high + 1)
    openings = tuple(opening for opening in wall.openings if opening.sill < row.top and opening.head > row.bottom)
    return Stretch(level, left, right, lying_size(wall)[0], openings, voids_of(openings), (row.bottom, row.top))


def course_blocks(plan: Plan, level: Standing, rows: tuple[Row, ...]) -> tuple[list[Part], list[Fault]]:
    """The blocking under the seams between courses, cut to a slope where there is one."""
    wall, parts, found = plan.wall, list(level.parts), list[Part]()
    for row in rows[:-1]:
        own = blocking(level.plan, parts, row.top)
        if own is None:
            return [], [_no_seam(row.top)]
        parts += own
        if wall.top.shape != "level":
            own = [cut for block in own if (cut := under_plates(wall, block, row.top)) is not None]
        found += own
    return found, []
