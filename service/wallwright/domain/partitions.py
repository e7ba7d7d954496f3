"""Partitions that end against a wall: where one may stand, and the backing that holds it and the lining beside it.

Each face of a partition stands over solid timber from bottom to top plate: outside the face for the edge of the
inside lining, inside it for the nails of the partition's own end stud (both common practice, no source). Studs,
kings and posts that already stand there serve; where they do not, a stud is set over the face or tight beside what
stands in its way, and a gap too narrow for a stud is packed. Nothing that stands already is moved.
"""

from wallwright.domain.carriers import BEARING, Span, merged
from wallwright.domain.openings import Plan
from wallwright.domain.parts import Part, stud
from wallwright.domain.wall import End, Partition, Wall
from wallwright.findings import Fault, Offer, Value, at_least
from wallwright.lengths import inches

LINING = BEARING
"""Timber for the edge of an inside lining: what the edge of a sheet takes on a single stud."""
HOLD = inches("1/2")
"""Timber behind each edge of the partition's end stud: 1/4 in on either side of a nail."""
OPEN = inches("1/2")
"""A gap between uprights that is narrower than this is left open: the nails go in on either side of it."""


def inner_corner(end: End) -> int:
    """How far from the plate's end the inside corner lies: past a wall that butts against this one's inner face."""
    return end.meets.depth if end.meets is not None and end.sheathing_lap <= 0 else 0


def zone(partition: Partition) -> Span:
    """The stretch that a partition takes along the wall, with the edges of the lining on both sides."""
    return partition.at - LINING, partition.right + LINING


def stretches(plan: Plan) -> list[Span]:
    """Where the zones of partitions may lie, from left to right: clear of corners and of openings with their jacks.

    An opening within one bay has no timber of its own: between it and the next stud there is room for backing or the
    zone ends on that stud.
    """
    wall = plan.wall
    taken = [(framed.header_left, framed.header_right) for framed in plan.framed]
    taken += [(opening.left - OPEN, opening.right + OPEN) for opening in plan.in_bay]
    taken.append((wall.length - _reach(wall, wall.right), wall.length))
    return _between(taken, _reach(wall, wall.left))


def _reach(wall: Wall, end: End) -> int:
    """How far an end keeps partitions off: the inside corner, and the blocks of a three-stud post."""
    return max(inner_corner(end), 2 * wall.thickness if end.post == "three-stud" else 0)


def _between(taken: list[Span], start: int) -> list[Span]:
    found = []
    for low, high in sorted(taken):
        found.append((start, low))
        start = max(start, high)
    return [(low, high) for low, high in found if low < high]


def misplaced_partitions(plan: Plan) -> list[Fault]:
    """Partitions that have no room where they stand, one fault each with the nearest place that has.

    Those that have room stay; the others are placed one after another from the left, clear of them and of each other.
    """
    room = stretches(plan)
    ordered = sorted(enumerate(plan.wall.partitions), key=lambda item: (item[1].at, item[0]))
    kept: list[Span] = []
    crowded = []
    for index, partition in ordered:
        own = zone(partition)
        clear = all(own[1] <= low or own[0] >= high for low, high in kept)
        if clear and any(low <= own[0] and own[1] <= high for low, high in room):
            kept.append(own)
        else:
            crowded.append((index, partition))
    faults = []
    for index, partition in crowded:
        offer = _nearest(room, kept, partition)
        pointer, given = f"/partitions/{index}/at", ("given", partition.at)
        if offer is None:
            faults.append(Fault("no-room-for-partition", pointer, (given, ("least", _longer(plan, kept, partition)))))
            continue
        kept.append(zone(Partition(offer.value, partition.depth)))
        values: tuple[tuple[str, Value], ...] = (given, ("nearest", offer))
        faults.append(Fault("partition-misplaced", pointer, values))
    return faults


def _nearest(room: list[Span], kept: list[Span], partition: Partition) -> Offer | None:
    """The nearest left face with which the partition has room; None where it has none."""
    free = [stretch for low, high in room for stretch in _between([*_within(kept, low, high), (high, high)], low)]
    spans = [(low + LINING, high - LINING - partition.depth) for low, high in free]
    offers = [Offer(min(max(partition.at, low), high), low, high) for low, high in spans if low <= high]
    return min(offers, key=lambda offer: (abs(offer.value - partition.at), offer.value), default=None)


def _within(kept: list[Span], low: int, high: int) -> list[Span]:
    return [(max(a, low), min(b, high)) for a, b in kept if a < high and b > low]


def _longer(plan: Plan, kept: list[Span], partition: Partition) -> Offer:
    """A length of wall that gives the partition room at its right end."""
    wall = plan.wall
    end = wall.length - _reach(wall, wall.right)
    blocked = [_reach(wall, wall.left), *(high for _, high in kept), *(f.header_right for f in plan.framed)]
    blocked += [opening.right + OPEN for opening in plan.in_bay]
    return at_least(wall.length + partition.depth + 2 * LINING - (end - max(blocked)))


def backing(plan: Plan, parts: list[Part]) -> list[Part]:
    """The backing of lined corners and of every partition, in a level wall that is laid out from its left end.

    Seam studs are set already.
    """
    wall = plan.wall
    found: list[Part] = []
    for need, centre in corner_needs(wall) if wall.lining else []:
        found += backed(plan, [*parts, *found], need, centre)
    for partition in sorted(wall.partitions, key=lambda partition: partition.at):
        left, right = partition.at, partition.right
        found += backed(plan, [*parts, *found], (left - LINING, left + HOLD), left)
        found += backed(plan, [*parts, *found], (right - HOLD, right + LINING), right)
    return found


def corner_needs(wall: Wall) -> list[tuple[Span, int]]:
    """Where a lining needs nailing beside walls that butt against this one's inner face, and where a stud's middle lies.

    A wall that itself butts ends with a stud beside the other's face, which serves.
    """
    half, found = wall.thickness // 2, []
    left, right = inner_corner(wall.left), wall.length - inner_corner(wall.right)
    if left > 0:
        found.append(((left, left + LINING), left + half))
    if right < wall.length:
        found.append(((right - LINING, right), right - wall.thickness + half))
    return found


def backed(plan: Plan, parts: list[Part], need: Span, centre: int) -> list[Part]:
    """The pieces that a stretch of the inner face lacks to be solid from plate to plate, about ``centre`` if free."""
    wall = plan.wall
    thick = wall.thickness
    found = []
    for low, high in _gaps(plan, parts):
        if low >= need[1] or high <= need[0] or high - low < OPEN:
            continue
        if high - low < thick:
            found.append(_packing(wall, low, high))
        else:
            x = min(max(centre - thick // 2, low), high - thick)
            found.append(stud(wall, "backing", x, wall.stud_bottom, wall.stud_top))
    return found


def _gaps(plan: Plan, parts: list[Part]) -> list[Span]:
    """The stretches between uprights at the inner face, clear of openings and of whatever else stands there."""
    wall = plan.wall
    taken = [(part.x, part.right) for part in parts if part.upright and part.z + part.depth == wall.depth]
    taken += [(framed.header_left, framed.header_right) for framed in plan.framed]
    taken += [(opening.left, opening.right) for opening in plan.in_bay]
    return _between([*merged(taken), (wall.length, wall.length)], 0)


def _packing(wall: Wall, low: int, high: int) -> Part:
    """A full-height piece of the wall's stock, ripped to a gap that is narrower than a stud."""
    bottom, height = wall.stud_bottom, wall.stud_top - wall.stud_bottom
    return Part(
        "backing", wall.stud, height, low, bottom, 0, high - low, height, wall.depth, ripped_to=high - low
    )  # fmt: skip
