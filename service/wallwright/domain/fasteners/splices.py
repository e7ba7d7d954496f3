"""The splices of a double top plate: how far beside each end joint its layers are nailed to one another, and with what."""

from wallwright.domain.fasteners.schedule import Schedule
from wallwright.domain.fasteners.site import (
    Drive,
    Group,
    Site,
    Span,
    shared_out,
    staggered,
)
from wallwright.lengths import INCH
from wallwright.published.plates import END_JOINT_OFFSET

DOWN = (0.0, -1.0, 0.0)
"""Which way a nail through a level face is driven."""


def _joints_above(site: Site) -> list[int]:
    """x of every end joint of the two layers of a level double top plate."""
    if site.wall.top.shape != "level" or site.wall.plates.top < 2:
        return []
    found = []
    for role in ("top-plate", "cap-plate"):
        found += [piece.x for piece in site.of(role)][1:]
    return sorted(found)


def splice_areas(site: Site) -> list[Span]:
    """The stretches beside the end joints of a double top plate that are nailed as splices."""
    found = []
    joints = _joints_above(site)
    caps, tops = site.of("cap-plate"), site.of("top-plate")
    if not joints:
        return []
    low = max(caps[0].x, tops[0].x)
    high = min(caps[-1].right, tops[-1].right)
    stops = [low, *joints, high]
    for number, joint in enumerate(joints, start=1):
        before, after = stops[number - 1], stops[number + 1]
        found.append((_reach(joint, before, number > 1, -1), joint))
        found.append((joint, _reach(joint, after, number < len(joints), 1)))
    return sorted({span for span in found if span[1] - span[0] >= 2 * INCH})


def _reach(joint: int, stop: int, is_joint: bool, way: int) -> int:
    """How far a splice is nailed from a joint: the lap, or to the next joint, or half way where two laps would meet."""
    gap = abs(stop - joint)
    if gap <= END_JOINT_OFFSET:
        return stop
    if is_joint and gap < 2 * END_JOINT_OFFSET:
        return joint + way * (gap // 2)
    return joint + way * END_JOINT_OFFSET


def splices(site: Site, schedule: Schedule) -> list[Group]:
    """Nails on each side of each end joint of a double top plate, in two staggered rows."""
    wall, groups = site.wall, []
    for low, high in splice_areas(site):
        middle = (low + high) // 2
        cap = next(m for m in site.of("cap-plate") if m.x <= middle <= m.right)
        top = next(m for m in site.of("top-plate") if m.x <= middle <= m.right)
        held, solid = wall.thickness, 2 * wall.thickness
        rule = schedule.rule("cap-splice", held=held, room=solid, width=wall.depth)
        xs = (
            shared_out(low + INCH, high - INCH, rule.count)
            if high - low > 4 * INCH
            else shared_out(low, high, rule.count)
        )
        zs = staggered(0, wall.depth, rule.count)
        drives = tuple(Drive((x, cap.top, z), DOWN, (cap.id, top.id)) for x, z in zip(xs, zs, strict=True))
        groups.append(Group("cap-splice", rule, drives, held, solid))
    return groups
