"""Level seams where a wall is taller than the sheet, and the blocking on edge that they lie on."""

from bisect import bisect_left, bisect_right

import msgspec

from wallwright.domain.carriers import LEAST_BEARING, Span, bearing_after, merged
from wallwright.domain.openings import Plan
from wallwright.domain.partitions import OPEN
from wallwright.domain.parts import Part
from wallwright.domain.wall import Wall
from wallwright.findings import Fault, at_least
from wallwright.lengths import INCH

LEAST_STRIP = 12 * INCH
"""The strip above the last level seam is at least this high; the sheets below are cut down for it."""


_SHORT = frozenset(("blocking", "cripple", "seam-stud", "jack-stud"))
"""Uprights that may end within the wall's height, where a level seam may want to lie."""


class Row(msgspec.Struct, frozen=True, gc=False):
    """One course of sheets, from ``bottom`` to ``top``."""

    bottom: int
    top: int


def rows(plan: Plan, parts: list[Part]) -> tuple[tuple[Row, ...], list[Part], list[Fault]]:
    """The courses of sheets from the bottom up, the blocking under their seams, and faults."""
    wall = plan.wall
    sheet, gap = wall.sheathing.sheet, wall.sheathing.gap
    full = sheet.length - gap if sheet.sized_for_spacing else sheet.length
    bottom, top = wall.face_bottom, wall.height
    courses: list[Row] = []
    under: list[Part] = []
    while top - bottom > full:
        highest = min(bottom + full, top - LEAST_STRIP - gap)
        found = highest_seam(plan, parts, bottom, highest)
        if found is None:
            whole = at_least(top - wall.face_bottom + sheet.length - full)
            return (
                (),
                [],
                [Fault("no-level-seam", "/sheathing/sheet/length", (("given", sheet.length), ("least", whole)))],
            )
        seam, blocks = found
        courses.append(Row(bottom, seam))
        under += blocks
        bottom = seam + gap
    courses.append(Row(bottom, top))
    return tuple(courses), under, []


def highest_seam(
    plan: Plan, parts: list[Part], bottom: int, highest: int, spans: list[Span] | None = None, least_leg: int = 0
) -> tuple[int, list[Part]] | None:
    """The highest seam at or below ``highest`` that everything behind it can carry, with its blocking.

    ``spans`` are the stretches of x along which there is a seam; None is the whole wall. A seam that leaves less than
    ``least_leg`` of sheet between itself and an opening's head or sill is taken only where there is no other.
    """
    wall = plan.wall
    gap, deep, beyond = wall.sheathing.gap, wall.depth, bearing_after(wall, "level", LEAST_BEARING)
    candidates = {highest}
    for edge in _level_edges(plan, parts):
        candidates.update(
            (
                edge - gap - beyond,
                edge - gap,
                edge,
                edge + LEAST_BEARING,
                edge - deep - gap,
                edge - deep // 2 - gap,
            )
        )
        if least_leg:
            candidates.update((edge - gap - least_leg, edge + least_leg))
    allowed = [seam for seam in candidates if bottom + LEAST_STRIP <= seam <= highest]
    for seam in sorted(allowed, key=lambda seam: (_leaves_scrap(wall, seam, least_leg), -seam)):
        blocks = blocking(plan, parts, seam, spans)
        if blocks is not None:
            return seam, blocks
    return None


def _leaves_scrap(wall: Wall, seam: int, least: int) -> bool:
    """Whether a stretch of sheet lower than ``least`` is left between a seam and an opening's head or sill."""
    after = seam + wall.sheathing.gap
    return any(0 < o.sill - after < least or 0 < seam - o.head < least for o in wall.openings)


def _level_edges(plan: Plan, parts: list[Part]) -> set[int]:
    edges = {y for part in parts if not part.upright or part.role in _SHORT for y in (part.y, part.top)}
    for opening in plan.wall.openings:
        edges.update((opening.sill, opening.head))
    return edges


def blocking(plan: Plan, parts: list[Part], seam: int, spans: list[Span] | None = None) -> list[Part] | None:
    """The blocks that a level seam with its lower edge at ``seam`` needs; None where one has no room."""
    wall = plan.wall
    low = seam - LEAST_BEARING
    high = seam + wall.sheathing.gap + bearing_after(wall, "level", LEAST_BEARING)
    if low <= 0:
        return None
    breaks = {0, wall.length}
    for part in parts:
        breaks.update((part.x, part.right))
    for opening in wall.openings:
        breaks.update((opening.left, opening.right))
    narrow, wide = list[Part](), list[Part]()
    for part in sorted(parts, key=lambda part: part.x):
        (narrow if part.width <= 2 * wall.spacing else wide).append(part)
    lefts = [part.x for part in narrow]
    widest = max((part.width for part in narrow), default=0)
    stretches: list[tuple[Span, Span]] = []
    edges = sorted(x for x in breaks if 0 <= x <= wall.length)
    for left, right in zip(edges, edges[1:], strict=False):
        if spans is not None and not any(start < right and end > left for start, end in spans):
            continue
        # Of the narrow parts only those that begin near the stretch can reach over it.
        near = narrow[bisect_left(lefts, left - widest) : bisect_right(lefts, left)]
        room = _room(plan, [*wide, *near], left, right, seam, low, high)
        if room is None:
            return None
        if room == (0, 0):
            continue
        if stretches and stretches[-1][0][1] == left and stretches[-1][1] == room:
            stretches[-1] = ((stretches[-1][0][0], right), room)
        else:
            stretches.append(((left, right), room))
    blocks = []
    for number, ((left, right), room) in enumerate(stretches):
        if right - left < OPEN and not _goes_on(stretches, number):
            continue
        block = _block(wall, left, right, room, seam, low, high)
        if block is None:
            return None
        blocks.append(block)
    return blocks


def _goes_on(stretches: list[tuple[Span, Span]], number: int) -> bool:
    """Whether a stretch that needs a block runs on into another one: what does not lies beside timber, or ends at an opening."""
    (left, right), _ = stretches[number]
    return any(span[1] == left or span[0] == right for span, _ in stretches)


def _room(plan: Plan, parts: list[Part], left: int, right: int, seam: int, low: int, high: int) -> Span | None:
    """The clear height about the seam between two x; (0, 0) where no block is needed, None where none fits."""
    wall = plan.wall
    above = seam + wall.sheathing.gap
    solids = merged([(p.y, p.top) for p in parts if p.z == 0 and p.x <= left and p.right >= right])
    voids = [(o.sill, o.head) for o in wall.openings if o.left <= left and o.right >= right]
    lower_needed = not any(bottom < seam <= top for bottom, top in voids)
    upper_needed = not any(bottom <= above < top for bottom, top in voids)
    lower = not lower_needed or any(bottom <= low and top >= seam for bottom, top in solids)
    upper = not upper_needed or any(bottom <= above and top >= high for bottom, top in solids)
    if lower and upper:
        return 0, 0
    deep = _block_depth(wall)
    behind = [(p.y, p.top) for p in parts if p.z < deep and p.x <= left and p.right >= right]
    taken = merged(behind + voids)
    if any(bottom < high and top > low and not (top <= seam or bottom >= above) for bottom, top in taken):
        # Something stands across the seam itself and does not carry both edges.
        return None
    floor = max((top for _, top in taken if top <= seam), default=0)
    ceiling = min((bottom for bottom, _ in taken if bottom >= above), default=wall.height)
    return floor, ceiling


def _block(wall: Wall, left: int, right: int, room: Span, seam: int, low: int, high: int) -> Part | None:
    """A block on edge centred on the seam, moved up or down where its bay has no room for that."""
    deep = wall.depth
    floor, ceiling = room
    if ceiling - floor < deep:
        return None
    y = min(max(seam + (wall.sheathing.gap - deep) // 2, floor), ceiling - deep)
    carried_below = y <= low or y == floor
    carried_above = y + deep >= high or y + deep == ceiling
    if not (carried_below and carried_above):
        return None
    thin = _block_depth(wall)
    return Part(
        "blocking", wall.stud, right - left, left, y, 0, right - left, deep, thin,
        ripped_to=None if thin == wall.thickness else thin,
    )  # fmt: skip


def _block_depth(wall: Wall) -> int:
    """How deep a block on edge may be: a stud's thickness, less where a post's flat stud stands close behind."""
    two_stud = "two-stud" in (wall.left.post, wall.right.post)
    return min(wall.thickness, wall.depth - wall.thickness) if two_stud else wall.thickness
