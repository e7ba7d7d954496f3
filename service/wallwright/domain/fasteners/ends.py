"""Joints at a member's end: studs to plates, headers to kings, sills and blocks between studs, cripples on headers."""

from math import sqrt

from wallwright.domain.fasteners.schedule import Schedule
from wallwright.domain.fasteners.site import (
    EDGE,
    Drive,
    Group,
    Site,
    Span,
    foot_at,
    in_section,
    low_top,
    overlap,
    shared_out,
    top_at,
)
from wallwright.domain.members import CutOut, Member
from wallwright.lengths import INCH

CUT_CLEAR = 2 * INCH
"""No fastener stands nearer than this to where a door's plate is cut out."""
_END_ROOM = INCH
"""A stud nailed through into a level piece's end shares at least this height with it, so that two nails stand apart."""
_UP, _DOWN, _RIGHT, _LEFT = (0.0, 1.0, 0.0), (0.0, -1.0, 0.0), (1.0, 0.0, 0.0), (-1.0, 0.0, 0.0)


def end_joints(site: Site, schedule: Schedule) -> list[Group]:
    """Every joint at a member's end."""
    return [
        *_bottom(site, schedule),
        *_top(site, schedule),
        *_headers(site, schedule),
        *_sills(site, schedule),
        *_toes(site, schedule),
        *_blocks(site, schedule),
    ]


def _bottom(site: Site, schedule: Schedule) -> list[Group]:
    """The plate under the studs, nailed up into each while the wall lies flat."""
    y = site.wall.stud_bottom
    plates = [plate for plate in site.of("bottom-plate") if plate.top == y]
    groups = []
    for stud in site.uprights:
        if stud.y != y:
            continue
        for plate in plates:
            shared = overlap((stud.x, stud.right), (plate.x, plate.right))
            room = _clear_of_cuts((shared[0] + EDGE, shared[1] - EDGE), plate.cut_outs)
            if room is None:
                # A jack beside a door has no room clear of the saw; its king holds it.
                if stud.role == "jack-stud":
                    continue
                room = (shared[0] + EDGE, shared[1] - EDGE)
            if room[0] > room[1]:
                continue
            groups.append(_into_end(schedule, "stud-to-bottom-plate", plate, stud, room))
    return groups


def _clear_of_cuts(room: Span, cuts: tuple[CutOut, ...]) -> Span | None:
    """What of a span is clear of door cut-outs; None where nothing is."""
    low, high = room
    for cut in cuts:
        if low >= cut.right:
            low = max(low, cut.right + CUT_CLEAR)
        elif high <= cut.left:
            high = min(high, cut.left - CUT_CLEAR)
    return (low, high) if low <= high or room[0] > room[1] else None


def _top(site: Site, schedule: Schedule) -> list[Group]:
    """The plate over the studs; where it is jointed over a stud each piece is nailed to it."""
    wall = site.wall
    plates = site.of("top-plate")
    groups = []
    for stud in site.uprights:
        level = wall.top.shape == "level" and stud.top == wall.stud_top
        if not level and not any(cut.end == "top" for cut in stud.cuts):
            continue
        for plate in plates:
            shared = overlap((stud.x, stud.right), (plate.x, plate.right))
            if shared[1] - shared[0] >= 2 * EDGE:
                groups.append(
                    _into_end(schedule, "stud-to-top-plate", plate, stud, (shared[0] + EDGE, shared[1] - EDGE))
                )
    return groups


def _into_end(schedule: Schedule, joint: str, plate: Member, stud: Member, room: Span) -> Group:
    """Fasteners through a plate into a stud's end, within ``room`` along the wall."""
    middle = (room[0] + room[1]) // 2
    held = top_at(plate, middle) - foot_at(plate, middle)
    solid = held + stud.height
    width = max(stud.width, stud.depth)
    rule = schedule.rule(joint, held=held, room=solid, width=width, treated=plate.treated)
    section = in_section((room[0] - EDGE, room[1] + EDGE), (stud.z, stud.z + stud.depth), rule.count)
    from_below = joint == "stud-to-bottom-plate"
    drives = tuple(
        Drive((x, plate.y if from_below else top_at(plate, x), z), _UP if from_below else _DOWN, (plate.id, stud.id))
        for x, z in section
    )
    return Group(joint, rule, drives, held, solid, grain="end")


def _headers(site: Site, schedule: Schedule) -> list[Group]:
    """A full-height stud into each end of each header, from its far face; the plies take turns."""
    groups = []
    for outer in site.of("header"):
        if outer.z:
            continue
        parts = [m for m in site.of("header") if (m.x, m.y, m.right) == (outer.x, outer.y, outer.right)]
        plies = [
            (part, part.z + part.depth * (2 * ply + 1) // (2 * part.plies))
            for part in sorted(parts, key=lambda part: part.z)
            for ply in range(part.plies)
        ]
        for stud, from_left in _beside(site, outer):
            rule = schedule.rule(
                "header-to-king", held=stud.width, room=stud.width + outer.width, width=outer.height
            )  # fmt: skip
            x = stud.x if from_left else stud.right
            low, high = _shared_height(outer, stud)
            if high - low < _END_ROOM:
                continue
            drives = []
            for number, y in enumerate(shared_out(low, high, rule.count)):
                part, z = plies[number % len(plies)]
                drives.append(Drive((x, y, z), _RIGHT if from_left else _LEFT, (stud.id, part.id)))
            groups.append(
                Group("header-to-king", rule, tuple(drives), stud.width, stud.width + outer.width, grain="end")
            )
    return groups


def _shared_height(level: Member, stud: Member) -> Span:
    """The heights in which an upright under a slope is whole beside a level member."""
    return level.y, min(level.top, low_top(stud))


def short_beside(site: Site) -> list[Member]:
    """Uprights cut under a slope so low on their far side that no nail goes through them into the header or sill beside them."""
    level = [m for m in site.of("header", "rough-sill") if m.z == 0]
    return [
        stud
        for one in level
        for stud, _ in _beside(site, one)
        if stud.outline and low_top(stud) - one.y < _END_ROOM
    ]  # fmt: skip


def _beside(site: Site, level: Member) -> list[tuple[Member, bool]]:
    """Uprights that touch a level member's ends over its whole height, and whether from the left."""
    beside = [(stud, True) for stud in site.ending.get(level.x, ())]
    beside += [(stud, False) for stud in site.starting.get(level.right, ())]
    return [
        (stud, from_left)
        for stud, from_left in beside
        if stud.y <= level.y and stud.top >= level.top and stud.z <= level.z
    ]


def _sills(site: Site, schedule: Schedule) -> list[Group]:
    """Jacks into the sill's ends, and the sill down into its cripples."""
    groups = []
    for sill in site.of("rough-sill"):
        groups += _ends_of(site, schedule, "sill-to-jack", sill, (sill.y, sill.top))
        for stud in site.of("cripple"):
            if stud.top == sill.y and stud.x >= sill.x and stud.right <= sill.right:
                groups.append(_into_end(schedule, "sill-to-cripple", sill, stud, (stud.x + EDGE, stud.right - EDGE)))
    return groups


def _ends_of(site: Site, schedule: Schedule, joint: str, level: Member, high: Span) -> list[Group]:
    """Studs nailed through into a level piece's ends."""
    groups = []
    for stud, from_left in _beside(site, level):
        held, solid = stud.width, stud.width + level.width
        rule = schedule.rule(joint, held=held, room=solid, width=max(level.height, level.depth))
        deep = (level.z, min(level.z + level.depth, stud.z + stud.depth))
        within = (high[0], min(high[1], low_top(stud)))
        if within[1] - within[0] < min(_END_ROOM, high[1] - high[0]):
            continue
        section = in_section(within, deep, rule.count)
        x = stud.x if from_left else stud.right
        drives = tuple(Drive((x, y, z), _RIGHT if from_left else _LEFT, (stud.id, level.id)) for y, z in section)
        groups.append(Group(joint, rule, drives, held, solid, grain="end"))
    return groups


def _toes(site: Site, schedule: Schedule) -> list[Group]:
    """Cripples toe-nailed to the header that they stand on, from either side in turn."""
    groups = []
    headers = [header for header in site.of("header") if header.z == 0]
    for stud in site.of("cripple"):
        for header in headers:
            if stud.y != header.top or stud.x < header.x or stud.right > header.right:
                continue
            rule = schedule.rule(
                "cripple-to-header", held=stud.width // 2, room=stud.width // 2 + header.height, width=stud.depth
            )  # fmt: skip
            length = rule.fastener.length
            # Thirty degrees to the stud, or steeper where the point would pass its far side.
            lean = min(0.5, (stud.width - EDGE) / length)
            plumb = sqrt(1 - lean * lean)
            up = min(length // 3, stud.height // 2)
            drives = []
            deep = min(header.depth, stud.depth)
            for number, z in enumerate(shared_out(0, deep, rule.count)):
                left = number % 2 == 0
                direction = (round(lean if left else -lean, 9), round(-plumb, 9), 0.0)
                drives.append(Drive((stud.x if left else stud.right, stud.y + up, z), direction, (stud.id, header.id)))
            held = int(up / plumb)
            solid = held + int(header.height / plumb)
            groups.append(Group("cripple-to-header", rule, tuple(drives), held, solid, grain="toe"))
    return groups


def _blocks(site: Site, schedule: Schedule) -> list[Group]:
    """Studs nailed through into the ends of blocks that lie on nothing."""
    groups = []
    for block in site.of("blocking", "backing"):
        if block.width <= block.depth and block.height > block.width:
            continue
        if block.z and block.role == "blocking":
            continue
        if block.role == "backing" and block.height > block.width:
            continue
        if lies_on(site, block):
            continue
        high = (block.y, min(top_at(block, block.x), top_at(block, block.right)))
        if high[1] - high[0] >= 2 * EDGE:
            groups += _ends_of(site, schedule, "block-to-stud", block, high)
    return groups


def lies_on(site: Site, block: Member) -> bool:
    """Whether a level piece lies flat on a header, a plate or another piece, or under a plate, so that its face is nailed."""
    if block.depth < site.wall.depth:
        return False
    for other in site.of("header", "blocking", "bottom-plate", "rough-sill"):
        touches = other.top == block.y or (other.y == block.top and other.role == "rough-sill")
        if touches and other.x < block.right and other.right > block.x and other.width > other.height:
            return True
    return False
