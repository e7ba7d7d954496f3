"""The end at which the sheets begin: the tape's, or the one that the caller chose.

Sheets that begin at the other end are laid on the frame's mirror image, so that one rule serves both.
"""

import msgspec
from msgspec.structs import replace

from wallwright.domain.carriers import Carriers
from wallwright.domain.lying import Course, lay_courses, lying_rows
from wallwright.domain.mirror import mirrored_opening, mirrored_part, mirrored_wall
from wallwright.domain.openings import Plan
from wallwright.domain.piecing import pieced
from wallwright.domain.rows import Row
from wallwright.domain.seams import Column, Columns, columns, upright_stretch
from wallwright.domain.sloped import Standing
from wallwright.domain.wall import Side
from wallwright.findings import Fault


class Laid(msgspec.Struct, frozen=True):
    """The sheets along a frame, with the courses of lying ones; faults where those find no level seam."""

    columns: Columns | None
    courses: tuple[Course, ...] = ()
    faults: tuple[Fault, ...] = ()


def laid(plan: Plan, level: Standing, start: Side | None = None, rows: tuple[Row, ...] = ()) -> Laid:
    """The sheets of a wall that is laid out from its left end, begun at ``start``: where that is None, as asked.

    ``rows`` are the heights of the courses of lying sheets where they are known already.
    """
    begin = start or plan.wall.sheets_from
    wall, above, in_bay, parts = plan.wall, level.plan.wall, plan.in_bay, level.parts
    if begin == "right":
        length = wall.length
        wall, above = mirrored_wall(wall), mirrored_wall(above)
        in_bay = tuple(mirrored_opening(opening, length) for opening in in_bay)
        parts = [mirrored_part(part, length) for part in parts]
    if wall.sheathing.direction == "upright":
        carriers = Carriers(above, in_bay, parts)
        stretch = pieced(upright_stretch(above), carriers, (above.face_bottom, above.height))
        found = Laid(columns(stretch, carriers))
    else:
        if not rows:
            rows, faults = lying_rows(plan, level)
            if faults:
                return Laid(None, (), tuple(faults))
        courses, whole = lay_courses(wall, above, in_bay, parts, rows)
        found = Laid(whole, courses)
    return _turned(found, plan.wall.length) if begin == "right" else found


def _turned(found: Laid, length: int) -> Laid:
    """What was laid on the mirror image, on the frame itself."""
    if found.columns is None:
        return found
    whole = replace(
        found.columns,
        columns=_turned_columns(found.columns.columns, length),
        studs=tuple(mirrored_part(stud, length) for stud in found.columns.studs),
    )
    courses = tuple(replace(course, columns=_turned_columns(course.columns, length)) for course in found.courses)
    return Laid(whole, courses)


def _turned_columns(row: tuple[Column, ...], length: int) -> tuple[Column, ...]:
    return tuple(Column(length - column.right, length - column.left) for column in reversed(row))
