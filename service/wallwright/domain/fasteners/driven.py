"""Fasteners driven through a sheet: how far apart, into what, and where a row of them may stand."""

from collections.abc import Iterable

from wallwright.domain.fasteners.panels import solid_along
from wallwright.domain.fasteners.schedule import Schedule
from wallwright.domain.fasteners.site import PANEL_EDGE, Drive, Group, Panel, Site, spread
from wallwright.domain.members import Member
from wallwright.lengths import INCH, inches

REACH = 3 * INCH
"""An edge row stands within this of its edge."""
BESIDE = inches("3/4")
"""An edge row stands this far from its edge where the timber allows it."""
_IN = (0.0, 0.0, 1.0)


def driven(
    site: Site, schedule: Schedule, joint: str, panel: Panel, member: Member | str, points: Iterable[tuple[int, int]]
) -> list[Group]:
    """A group for each point of a row, through the sheet into a member (or what is named)."""
    wall = site.wall
    thick = wall.sheathing.sheet.thickness
    deep, name, treated = _behind(wall.depth, wall.thickness, member)
    rule = schedule.rule(joint, held=thick, room=thick + deep, width=0, treated=treated)
    return [Group(joint, rule, (Drive((x, y, -thick), _IN, (panel.id, name)),), thick, thick + deep) for x, y in points]


def _behind(depth: int, thickness: int, member: Member | str) -> tuple[int, str, bool]:
    """How deep the timber behind a row is, its name, and whether it is treated."""
    if isinstance(member, Member):
        # Plies are one body once they are nailed.
        return member.depth, member.id, member.treated
    return thickness if member.startswith("met-post") or member == "rim" else depth, member, False


def spacing_of(schedule: Schedule, joint: str) -> int:
    """How far apart a row's fasteners stand at most, in grid units."""
    return schedule.rule(joint, held=INCH, room=5 * INCH, width=0).spacing or 6 * INCH


def along(panel: Panel, y: int, low: int, high: int, spacing: int) -> list[tuple[int, int]]:
    """Points of a level row between two x, clear of the panel's edges."""
    points = []
    for a, b in solid_along(panel, y - PANEL_EDGE, y + PANEL_EDGE):
        left, right = max(low, a + PANEL_EDGE), min(high, b - PANEL_EDGE)
        points += [(x, y) for x in spread(left, right, spacing)]
    return points
