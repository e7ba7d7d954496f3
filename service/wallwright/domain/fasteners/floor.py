"""What holds the wall to its floor and to the walls that it meets: plates to rim, bolts, posts, cap laps, tie plates."""

from wallwright.domain.anchors import stretches
from wallwright.domain.fasteners.ends import CUT_CLEAR
from wallwright.domain.fasteners.faces import FROM_END, bays, row
from wallwright.domain.fasteners.schedule import Rule, Schedule
from wallwright.domain.fasteners.site import EDGE, Drive, Group, Site, low_top, minus, shared_out, top_at
from wallwright.domain.fasteners.values import Fastener
from wallwright.domain.members import Anchor, Member
from wallwright.domain.wall import End, Side
from wallwright.lengths import INCH, inches
from wallwright.published import anchors as bolts
from wallwright.published import plates
from wallwright.published.plates import Tie

_DOWN, _RIGHT, _LEFT = (0.0, -1.0, 0.0), (1.0, 0.0, 0.0), (-1.0, 0.0, 0.0)
RIM_THICKNESS = inches("1 1/2")
BOLT_LENGTH = 10 * INCH
"""A 1/2 in bolt 7 in into the concrete, through a plate, with nut and washer (common practice, no source)."""
HIGH_SEISMIC = frozenset(("D0", "D1", "D2", "E"))


def floor_joints(site: Site, schedule: Schedule, placed: tuple[Anchor, ...]) -> list[Group]:
    """Every joint with the floor and with the walls met."""
    found = _to_floor(site, schedule) if site.wall.floor.kind != "slab" else _anchors(site, placed)
    for side, end in (("left", site.wall.left), ("right", site.wall.right)):
        if end.butts is not None:
            found += _met(site, schedule, "left" if side == "left" else "right", end)
    return found + _butt_ties(site, schedule)


def _to_floor(site: Site, schedule: Schedule) -> list[Group]:
    """The lowest plate into the rim (or whatever lies along the wall's outer face), between the studs."""
    wall = site.wall
    panel = wall.floor.panel if wall.floor.kind == "deck" else 0
    below = "rim" if wall.floor.kind == "deck" else "floor"
    groups = []
    lowest = [plate for plate in site.of("bottom-plate") if plate.y == 0]
    by_id = {plate.id: plate for plate in lowest}
    for one in stretches(tuple(lowest)):
        plate = by_id[one.plate]
        held = plate.height + panel
        depth_below = wall.floor.rim if wall.floor.kind == "deck" and wall.floor.rim else 12 * INCH
        rule = schedule.rule(
            "plate-to-floor", held=held, room=held + depth_below, width=plate.depth, treated=plate.treated
        )  # fmt: skip
        cuts = [x for cut in plate.cut_outs for x in (cut.left, cut.right)]
        low = one.left + (CUT_CLEAR if one.left in cuts else 0)
        high = one.right - (CUT_CLEAR if one.right in cuts else 0)
        if high - low < 2 * EDGE:
            continue
        spacing = rule.spacing or 16 * INCH
        single = wall.plates.bottom == 1
        places = bays(site, (low, high), spacing) if single else row(low, high, spacing, 2 * INCH)
        for x in places:
            rim = min(RIM_THICKNESS, plate.depth)
            shift = max(0, min(inches("3/8"), x - low - EDGE, high - EDGE - x))
            drives = []
            for number, z in enumerate(shared_out(0, rim, rule.count)):
                at = x + (shift if number % 2 else -shift) if rule.count > 1 else x
                drives.append(Drive((at, plate.top, z), _DOWN, (plate.id, below)))
            groups.append(Group("plate-to-floor", rule, tuple(drives), held, held + depth_below, out=False))
    return groups


def _anchors(site: Site, placed: tuple[Anchor, ...]) -> list[Group]:
    """The bolts of a wall on a slab; those already cast are told, and not bought."""
    wall = site.wall
    groups = []
    for bolt in placed:
        cast = bolt.origin == "given"
        name = "1/2 in anchor bolt, cast" if cast else "1/2 x 10 in anchor bolt"
        kind = "cast" if cast else "bolt"
        fastener = Fastener(name, kind, BOLT_LENGTH, bolts.DIAMETER, bolts.DIAMETER)
        x = wall.length - bolt.x if site.turned else bolt.x
        rule = Rule(fastener, 1, None, bolts.source(wall.rules))
        drive = Drive((x, wall.thickness, bolt.z), _DOWN, (bolt.plate, "slab"))
        groups.append(Group("anchor", rule, (drive,), wall.thickness, wall.thickness + BOLT_LENGTH, out=False))
    return groups


def _met(site: Site, schedule: Schedule, side: Side, end: End) -> list[Group]:
    """The joints with the wall met at one end: post to post, the cap's lap, or a tie plate where no cap laps."""
    found = _post(site, schedule, side, end)
    if end.cap_lap > 0 and site.wall.plates.top == 2:
        return found + _cap_lap(site, schedule, side, end)
    plain = site.wall.site is None or site.wall.site.seismic not in HIGH_SEISMIC
    ties = plates.PLAIN_TIES if plain else plates.SEISMIC_TIES
    top = _uppermost(site, side)
    at = 0 if side == "left" else site.wall.length
    return found + _tie(site, schedule, ties.corner, (top,), at, side)


def _beyond(site: Site, side: Side, distance: int) -> int:
    """x of a place ``distance`` past the wall's end (within it where negative)."""
    return -distance if side == "left" else site.wall.length + distance


def _post(site: Site, schedule: Schedule, side: Side, end: End) -> list[Group]:
    """The end stud into the post of the wall met, from this wall's inside."""
    wall, meets = site.wall, end.butts
    if meets is None:
        return []
    own = next((m for m in site.uprights if (m.x == 0 if side == "left" else m.right == wall.length)), None)
    if own is None:
        return []
    held, solid = own.width + meets.slip_gap, own.width + meets.slip_gap + meets.depth
    rule = schedule.rule("post-to-post", held=held, room=solid, width=own.depth)
    inner = own.right if side == "left" else own.x
    blocks = [
        (m.y - INCH, m.top + INCH) for m in site.of("blocking")
        if (m.x == inner if side == "left" else m.right == inner)
    ]  # fmt: skip
    deep = (0, min(own.depth, wall.thickness))
    groups = []
    for low, high in minus([(own.y, low_top(own))], blocks):
        for y in row(low, high, rule.spacing or 16 * INCH, FROM_END):
            shift = max(0, min(INCH, y - low - EDGE, high - EDGE - y))
            drives = []
            for number in range(rule.count):
                v = y + (shift if number % 2 else -shift) if rule.count > 1 else y
                z = (deep[0] + deep[1]) // 2 if rule.count == 1 else shared_out(*deep, rule.count)[number]
                drives.append(Drive((inner, v, z), _LEFT if side == "left" else _RIGHT, (own.id, f"met-post-{side}")))
            groups.append(Group("post-to-post", rule, tuple(drives), held, solid, out=False))
    return groups


def _cap_lap(site: Site, schedule: Schedule, side: Side, end: End) -> list[Group]:
    """The cap where it lies over the wall met, down into that wall's top plate and corner stud."""
    wall, meets = site.wall, end.butts
    if meets is None:
        return []
    cap = _uppermost(site, side)
    near, far = meets.slip_gap, min(end.cap_lap, meets.slip_gap + meets.depth)
    if far - near < 2 * EDGE:
        return []
    held, solid = wall.thickness, 2 * wall.thickness + 24 * INCH
    rule = schedule.rule("cap-lap", held=held, room=solid, width=wall.depth)
    distances = shared_out(near, far, rule.count)
    inset = wall.thickness // 3
    drives = []
    for number, distance in enumerate(distances):
        x = _beyond(site, side, distance)
        z = inset if number % 2 == 0 else wall.thickness - inset
        pieces = (cap.id, f"met-top-plate-{side}", f"met-post-{side}")
        drives.append(Drive((x, top_at(cap, x), z), _DOWN, pieces))
    return [Group("cap-lap", rule, tuple(drives), held, solid, out=False)]


def _uppermost(site: Site, side: Side) -> Member:
    """The uppermost plate at an end."""
    tops = site.of("cap-plate") or site.of("top-plate")
    return tops[0] if side == "left" else max(tops, key=lambda m: m.right)


def _butt_ties(site: Site, schedule: Schedule) -> list[Group]:
    """Tie plates over the end joints of a single top plate."""
    wall = site.wall
    if wall.plates.top != 1 or wall.top.shape != "level":
        return []
    plain = wall.site is None or wall.site.seismic not in HIGH_SEISMIC
    ties = plates.PLAIN_TIES if plain else plates.SEISMIC_TIES
    tops = site.of("top-plate")
    found = []
    for first, second in zip(tops, tops[1:], strict=False):
        found += _tie(site, schedule, ties.butt, (first, second), second.x, None)
    return found


def _tie(site: Site, schedule: Schedule, tie: Tie, over: tuple[Member, ...], at: int, side: Side | None) -> list[Group]:
    """A steel plate over a joint of top plates and its nails on each side; ``side`` is the end that meets a wall."""
    wall = site.wall
    name = f"tie plate {tie.width // INCH} x {tie.length // INCH} x {plates.TIE_THICKNESS} in"
    steel = Fastener(name, "plate", tie.length, tie.width, tie.width, coating="galvanized")
    source = plates.joint_source(wall.rules)
    names = (over[0].id, f"met-top-plate-{side}") if side else (over[0].id, over[1].id)
    middle = wall.depth // 2
    groups = [
        Group(
            "tie-plate", Rule(steel, 1, None, source), (Drive((at, _top(over[0], at), middle), _DOWN, names),),
            0, wall.thickness, out=False,
        )
    ]  # fmt: skip
    gap = wall.left.butts.slip_gap if side == "left" and wall.left.butts else 0
    gap = wall.right.butts.slip_gap if side == "right" and wall.right.butts else gap
    solid = wall.plates.top * wall.thickness
    rule = schedule.rule("tie-plate", held=0, room=solid, width=wall.depth)
    rule = Rule(rule.fastener, rule.count, None, source)
    half = tie.length // 2
    spans = ((at - half, at), (at, at + half)) if side is None else _tie_spans(at, half, gap, side)
    wide = min(tie.width, wall.depth) // 3
    for (low, high), piece in zip(spans, names if side != "left" else names[::-1], strict=True):
        xs = shared_out(low + EDGE, high - EDGE, tie.nails)
        zs = [middle - wide if turn % 2 == 0 else middle + wide for turn in range(tie.nails)]
        owner = next((m for m in over if m.id == piece), over[0])
        drives = tuple(Drive((x, _top(owner, x), z), _DOWN, (name, piece)) for x, z in zip(xs, zs, strict=True))
        counted = Rule(rule.fastener, tie.nails, None, source)
        groups.append(Group("tie-plate", counted, drives, 0, solid))
    return groups


def _tie_spans(at: int, half: int, gap: int, side: Side) -> tuple[tuple[int, int], tuple[int, int]]:
    """What of a tie lies on either side of a corner's joint, from left to right."""
    if side == "left":
        return (at - half, at - gap), (at, at + half)
    return (at - half, at), (at + gap, at + half)


def _top(member: Member, x: int) -> int:
    return top_at(member, min(max(x, member.x), member.right))
