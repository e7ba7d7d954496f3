"""A wall fastened: every joint of its frame, its sheets, its floor and its neighbours, counted and placed."""

from wallwright.domain.fasteners.ends import end_joints
from wallwright.domain.fasteners.faces import face_joints
from wallwright.domain.fasteners.floor import floor_joints
from wallwright.domain.fasteners.holds import shear, strengths
from wallwright.domain.fasteners.notes import fastener_findings
from wallwright.domain.fasteners.schedule import JOINTS, Schedule
from wallwright.domain.fasteners.sheets import sheet_joints
from wallwright.domain.fasteners.site import Group, Site, site_of, turned
from wallwright.domain.fasteners.totals import joints_of, totals_of
from wallwright.domain.fasteners.values import Fasteners, Point
from wallwright.domain.members import Layout
from wallwright.domain.skin import Skin


def fasten(layout: Layout, skin: Skin) -> Fasteners:
    """Every fastener of a wall that is laid out and skinned.

    What joins this wall to one that it meets (``meets``) is counted with this wall, and nowhere else.
    """
    site = site_of(layout, skin)
    schedule = Schedule(site.wall)
    groups = [
        *end_joints(site, schedule),
        *face_joints(site, schedule),
        *floor_joints(site, schedule, layout.anchors),
        *sheet_joints(site, schedule),
    ]
    groups.sort(key=lambda group: JOINTS.index(group.joint))
    by_table = shear(site, groups)
    return Fasteners(
        layout.wall,
        joints_of(groups),
        totals_of(groups, layout.wall.fastening),
        _points(site, groups),
        strengths(site, groups),
        by_table,
        fastener_findings(site, groups, by_table),
    )


def _points(site: Site, groups: list[Group]) -> tuple[Point, ...]:
    length = site.wall.length
    found = []
    for group in groups:
        for drive in group.drives:
            own = turned(drive, length) if site.turned else drive
            x, y, z = own.at
            pieces = tuple(map(_other_side, own.pieces)) if site.turned else own.pieces
            found.append(Point(group.joint, group.rule.fastener.name, x, y, z, own.direction, pieces))
    found.sort(key=lambda point: (JOINTS.index(point.joint), point.x, point.y, point.z, point.fastener))
    return tuple(found)


_SIDES = (("-left", "-right"), ("-right", "-left"))


def _other_side(piece: str) -> str:
    """A piece of the wall met, named by the end where it stands."""
    if not piece.startswith("met-"):
        return piece
    return next((piece.removesuffix(one) + other for one, other in _SIDES if piece.endswith(one)), piece)
