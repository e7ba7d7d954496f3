"""Joints face to face: studs side by side, plate on plate, plies of a header, packing, splices of the cap."""

from wallwright.domain.fasteners.ends import CUT_CLEAR
from wallwright.domain.fasteners.schedule import Schedule
from wallwright.domain.fasteners.site import (
    EDGE,
    Drive,
    Group,
    Site,
    Span,
    foot_at,
    minus,
    overlap,
    shared_out,
    spread,
    staggered,
    top_at,
)
from wallwright.domain.fasteners.splices import DOWN, splice_areas, splices
from wallwright.domain.members import Member
from wallwright.lengths import INCH

FROM_END = 3 * INCH
"""A row of nails in the face of studs begins this far from their ends (common practice, no source)."""
FROM_PLATE_END = 2 * INCH
_RIGHT, _LEFT, _IN = (1.0, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 0.0, 1.0)
_TOUCH = 400
"""Sloping faces that touch may differ by their rounding."""


def face_joints(site: Site, schedule: Schedule) -> list[Group]:
    """Every joint face to face."""
    return [
        *_side_by_side(site, schedule),
        *_plies(site, schedule),
        *_laid_on(site, schedule),
        *splices(site, schedule),
    ]


def row(low: int, high: int, spacing: int, margin: int) -> list[int]:
    """Places of a row from ``low`` to ``high``, ``margin`` from both where there is room, else in the middle."""
    if high - low < 2 * EDGE:
        return []
    margin = min(margin, (high - low) // 4)
    return spread(low + max(margin, EDGE), high - max(margin, EDGE), spacing)


def _packs(site: Site) -> list[Member]:
    """Upright packing and the blocks of posts."""
    deep = site.wall.depth
    return [m for m in site.of("blocking") if m.height > m.width and m.depth == deep and m.width <= site.wall.thickness]


def _side_by_side(site: Site, schedule: Schedule) -> list[Group]:
    """Studs that touch, nailed to one another in a staggered row; thin packing is nailed through."""
    packs = _packs(site)
    thin = {m.id for m in packs if m.opening}
    standing = sorted([*site.uprights, *packs], key=lambda m: (m.x, m.y))
    by_left: dict[int, list[Member]] = {}
    for member in standing:
        by_left.setdefault(member.x, []).append(member)
    groups = []
    for one in standing:
        if one.id in thin:
            continue
        for other in by_left.get(one.right, []):
            chains = [[one, other]]
            if other.id in thin:
                chains = [[one, other, beyond] for beyond in by_left.get(other.right, [])]
            for chain in chains:
                groups += _stitched(schedule, chain)
    return groups


def _stitched(schedule: Schedule, chain: list[Member]) -> list[Group]:
    """The row of nails of a chain of touching studs."""
    low, high = max(m.y for m in chain), min(top_at(m, m.x) for m in chain)
    high = min(high, *(top_at(m, m.right) for m in chain))
    deep = (max(m.z for m in chain), min(m.z + m.depth for m in chain))
    if high - low < 2 * EDGE or deep[1] - deep[0] < 2 * EDGE:
        return []
    joint = _name_of(chain)
    # From the jack's side into the king, from a post's studs into its blocks, else from the left.
    from_left = not (chain[-1].role == "jack-stud" or chain[0].role == "blocking")
    ordered = chain if from_left else chain[::-1]
    held, solid = sum(m.width for m in ordered[:-1]), sum(m.width for m in ordered)
    rule = schedule.rule(joint, held=held, room=solid, width=deep[1] - deep[0])
    x = ordered[0].x if from_left else ordered[0].right
    pieces = tuple(m.id for m in ordered)
    places = row(low, high, rule.spacing or high - low, FROM_END)
    groups = []
    for number, y in enumerate(places):
        zs = [staggered(*deep, number + 1)[-1]] if rule.count == 1 else shared_out(*deep, rule.count)
        ys = _about(y, rule.count, low, high)
        drives = tuple(Drive((x, v, z), _RIGHT if from_left else _LEFT, pieces) for v, z in zip(ys, zs, strict=True))
        groups.append(Group(joint, rule, drives, held, solid, out=joint != "post-studs"))
    return groups


def _about(at: int, count: int, low: int, high: int) -> list[int]:
    """Heights of the fasteners of one place, a little above and below in turn so that they share no grain line."""
    shift = min(INCH // 2, at - low - EDGE, high - EDGE - at)
    return [at + (shift if number % 2 else -shift) if count > 1 else at for number in range(count)]


def _name_of(chain: list[Member]) -> str:
    roles = {chain[0].role, chain[-1].role}
    if roles <= {"corner-stud", "blocking"}:
        return "post-studs"
    if "jack-stud" in roles and roles & {"king-stud", "end-stud", "corner-stud"}:
        return "jack-to-king"
    return "stud-to-stud"


def _plies(site: Site, schedule: Schedule) -> list[Group]:
    """Each ply of a header to the next, along both edges, through the spacer where there is one."""
    groups = []
    for outer in site.of("header"):
        if outer.z:
            continue
        alike = [
            m for m in site.of("header", "blocking")
            if (m.x, m.y, m.right, m.top) == (outer.x, outer.y, outer.right, outer.top)
        ]  # fmt: skip
        layers = [
            (part, part.z + part.depth * ply // part.plies, part.z + part.depth * (ply + 1) // part.plies)
            for part in sorted(alike, key=lambda part: part.z)
            for ply in range(part.plies)
        ]
        plies = [number for number, (part, _, _) in enumerate(layers) if part.role == "header"]
        for first, second in zip(plies, plies[1:], strict=False):
            near, far = layers[first], layers[second]
            pieces = tuple(dict.fromkeys(part.id for part, _, _ in layers[first : second + 1]))
            groups += _stitched_plies(schedule, outer, near[1], far[1], far[2], pieces)
    return groups


def _stitched_plies(
    schedule: Schedule, header: Member, front: int, second: int, back: int, pieces: tuple[str, ...]
) -> list[Group]:
    """Two rows of nails from a ply's outer face at ``front`` into the ply from ``second`` to ``back``."""
    held, solid = second - front, back - front
    rule = schedule.rule("header-plies", held=held, room=solid, width=header.height)
    edge = max(EDGE, min(2 * INCH, header.height // 4))
    groups = []
    for number, x in enumerate(row(header.x, header.right, rule.spacing or header.width, FROM_PLATE_END)):
        if rule.count == 1:
            for y in (header.y + edge, header.top - edge):
                groups.append(Group("header-plies", rule, (Drive((x, y, front), _IN, pieces),), held, solid))
            continue
        ys = shared_out(header.y, header.top, rule.count)
        shift = min(INCH // 2, x - header.x - EDGE, header.right - EDGE - x) * (1 if number % 2 else -1)
        drives = tuple(Drive((x + (shift if turn % 2 else -shift), y, front), _IN, pieces) for turn, y in enumerate(ys))
        groups.append(Group("header-plies", rule, drives, held, solid))
    return groups


def _laid_on(site: Site, schedule: Schedule) -> list[Group]:
    """Level pieces nailed down to the level pieces that they lie on."""
    wall = site.wall
    level = [
        m for m in site.of("bottom-plate", "top-plate", "cap-plate", "header", "rough-sill", "blocking")
        if m.width > m.height and m.z == 0 and (m.role != "blocking" or m.depth == wall.depth)
    ]  # fmt: skip
    spliced = splice_areas(site)
    groups = []
    for upper in level:
        for lower in level:
            joint = None if upper.id == lower.id else _laid_name(upper, lower)
            if joint is None:
                continue
            runs = _resting(upper, lower)
            if upper.role == "cap-plate":
                runs = minus(runs, spliced)
            if upper.role == "bottom-plate":
                runs = minus(runs, [(cut.left - CUT_CLEAR, cut.right + CUT_CLEAR) for cut in upper.cut_outs])
            for run in runs:
                groups += _nailed_down(site, schedule, joint, upper, lower, run)
    return groups


def _resting(upper: Member, lower: Member) -> list[Span]:
    """The stretches in which one level piece lies on another; under a slope a block may carry the next one in part only."""
    low, high = overlap((upper.x, upper.right), (lower.x, lower.right))
    if high - low < 2 * EDGE:
        return []
    corners = {x for piece in (upper, lower) for x, _ in piece.outline if low < x < high}
    stops = sorted({low, high, *corners})
    found: list[Span] = []
    for start, end in zip(stops, stops[1:], strict=False):
        middle = (start + end) // 2
        if abs(foot_at(upper, middle) - top_at(lower, middle)) > _TOUCH:
            continue
        if found and found[-1][1] == start:
            start = found.pop()[0]
        found.append((start, end))
    return [(start, end) for start, end in found if end - start >= 2 * EDGE]


def _laid_name(upper: Member, lower: Member) -> str | None:
    roles = (upper.role, lower.role)
    if roles in (("cap-plate", "top-plate"), ("bottom-plate", "bottom-plate")):
        return "plate-to-plate"
    if upper.role == "top-plate" and lower.role in ("header", "blocking"):
        return "plate-to-header"
    if "blocking" in roles or roles == ("rough-sill", "bottom-plate"):
        return None if "cap-plate" in roles else "packing"
    return None


def _nailed_down(site: Site, schedule: Schedule, joint: str, upper: Member, lower: Member, run: Span) -> list[Group]:
    """A row of nails down through one level piece into another."""
    middle = (run[0] + run[1]) // 2
    held = top_at(upper, middle) - foot_at(upper, middle)
    under = [lower, *_thin_stack(site, lower, run)] if joint != "plate-to-plate" else [lower]
    thick = [max(top_at(m, middle) - foot_at(m, middle), 0) for m in under]
    held, solid = held + sum(thick[:-1]), held + sum(thick)
    deep = max(m.z for m in (upper, *under)), min(m.z + m.depth for m in (upper, *under))
    treated = upper.treated or lower.treated
    rule = schedule.rule(joint, held=held, room=solid, width=upper.depth, treated=treated)
    places = row(run[0], run[1], rule.spacing or run[1] - run[0], FROM_PLATE_END)
    if upper.role == "bottom-plate":
        places = bays(site, run, rule.spacing or 16 * INCH)
    groups = []
    for number, x in enumerate(places):
        zs = [staggered(*deep, number + 1)[-1]] if rule.count == 1 else shared_out(*deep, rule.count)
        xs = _about(x, rule.count, run[0], run[1])
        drives = tuple(
            Drive((at, top_at(upper, at), z), DOWN, (upper.id, *(m.id for m in under)))
            for at, z in zip(xs, zs, strict=True)
        )
        groups.append(Group(joint, rule, drives, held, solid))
    return groups


def _thin_stack(site: Site, piece: Member, run: Span) -> list[Member]:
    """What lies under a piece thinner than a plate, down to one that is not: nails go through into that."""
    found: list[Member] = []
    while (piece.height < site.wall.thickness or piece.outline) and len(found) < 4:
        below = next(
            (
                m
                for m in site.of("header", "blocking", "bottom-plate", "rough-sill")
                if m.top == piece.y and m.z == 0 and m.x <= run[0] and m.right >= run[1] and m.width > m.height
            ),
            None,
        )
        if below is None:
            break
        found.append(below)
        piece = below
    return found


def bays(site: Site, run: Span, spacing: int) -> list[int]:
    """Places in a stretch of bottom plate between what stands on it, at most ``spacing`` apart where bays allow it."""
    clear = INCH
    standing = [
        (m.x - clear, m.right + clear) for m in (*site.uprights, *site.of("blocking"))
        if m.y == site.wall.stud_bottom and m.z == 0
    ]  # fmt: skip
    free = minus([(run[0] + FROM_PLATE_END, run[1] - FROM_PLATE_END)], standing)
    if not free:
        free = minus([(run[0] + EDGE, run[1] - EDGE)], [(a + clear // 2, b - clear // 2) for a, b in standing])
    if not free:
        return []
    found = [free[0][0]]
    last = free[-1][1]
    while last - found[-1] > spacing:
        reach = found[-1] + spacing
        within = [min(high, reach) for low, high in free if low <= reach and min(high, reach) > found[-1]]
        found.append(max(within) if within else min(low for low, _ in free if low > reach))
    if last - found[-1] > 2 * INCH:
        found.append(last)
    return found
