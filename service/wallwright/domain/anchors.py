"""Anchor bolts of a wall on a slab: those already cast as they are given, or placed by the published rule.

Bolts are counted for each piece of the lowest bottom plate as it is left once doors are cut out. They stand clear
of whatever stands on the plate, so that nut and washer have room.
"""

import msgspec

from wallwright.domain.members import Anchor, Member
from wallwright.domain.wall import Wall
from wallwright.lengths import inches
from wallwright.published.anchors import DIAMETER, END_LEAST, END_MOST, SPACING, WASHER_SIDE

CLEAR = WASHER_SIDE // 2
"""From a bolt's middle to the face of a stud: half of a 3 in plate washer (common practice, no source)."""
APART = inches("3 1/2")
"""Bolts nearer to each other than this do the work of one (common practice, no source)."""

Span = tuple[int, int]


class Stretch(msgspec.Struct, frozen=True, gc=False):
    """A piece of plate as it is left once doors are cut out."""

    plate: str
    left: int
    right: int


def anchors(wall: Wall, members: tuple[Member, ...]) -> tuple[Anchor, ...]:
    """Every bolt of the wall, from left to right; none where the floor is no slab and none were given."""
    left = stretches(members)
    if wall.floor.anchors:
        places = [(x, _plate_at(left, members, x), "given") for x in wall.floor.anchors]
    elif wall.floor.kind == "slab":
        blocked = standing(wall, members)
        places = [(x, one.plate, "placed") for one in left for x in _placed_as_taped(wall, one, blocked)]
    else:
        return ()
    return tuple(
        Anchor(f"anchor-{number}", plate, x, wall.depth // 2, wall.reading(x), origin)
        for number, (x, plate, origin) in enumerate(sorted(places), start=1)
    )


def stretches(members: tuple[Member, ...]) -> list[Stretch]:
    """The pieces of the lowest bottom plate that remain once doors are cut out, from left to right."""
    found = []
    for plate in members:
        if plate.role != "bottom-plate" or plate.y:
            continue
        edge = plate.x
        for cut in sorted(plate.cut_outs, key=lambda cut: cut.left):
            found.append(Stretch(plate.id, edge, cut.left))
            edge = cut.right
        found.append(Stretch(plate.id, edge, plate.right))
    return sorted((one for one in found if one.left < one.right), key=lambda one: one.left)


def standing(wall: Wall, members: tuple[Member, ...]) -> list[Span]:
    """Where studs, sills and blocks stand on the bottom plate, in x."""
    return [(m.x, m.right) for m in members if m.y == wall.stud_bottom and not m.role.endswith("plate")]


def _plate_at(left: list[Stretch], members: tuple[Member, ...], x: int) -> str:
    """The piece of plate that a bolt comes up through, also where it is cut out for a door."""
    within = [one.plate for one in left if one.left <= x <= one.right]
    return within[0] if within else next(m.id for m in members if m.role == "bottom-plate" and m.x <= x <= m.right)


def _placed_as_taped(wall: Wall, piece: Stretch, blocked: list[Span]) -> list[int]:
    """Places in one piece, reckoned from the end where the tape is hooked, so that mirrored walls are mirrored."""
    if wall.tape.start == "left":
        return placed(piece.left, piece.right, blocked)
    length = wall.length
    turned = [(length - right, length - left) for left, right in blocked]
    return [length - x for x in placed(length - piece.right, length - piece.left, turned)]


def placed(left: int, right: int, blocked: list[Span]) -> list[int]:
    """The fewest bolts of a piece that keep the published distances, spread evenly; fewer where there is no room.

    The end bolts stand a quarter of the piece from its ends, 12 in at most.
    """
    free = _free(left + END_LEAST, right - END_LEAST, [(low - CLEAR, high + CLEAR) for low, high in blocked])
    from_end = min(max((right - left) // 4, END_LEAST), END_MOST)
    first = _nearest(free, left + from_end, left, left + END_MOST)
    last = _nearest(free, right - from_end, right - END_MOST, right)
    if first is None:
        first = _nearest(free, left + from_end, left, right)
    if last is None:
        last = _nearest(free, right - from_end, left, right)
    if first is None or last is None:
        return []
    if last - first < APART:
        return [first]
    return [first, *_between(free, first, last), last]


def _between(free: list[Span], first: int, last: int) -> list[int]:
    """The bolts between the end bolts: evenly spread where studs allow it, else each as far on as it may be."""
    count = -(-(last - first) // SPACING)
    even = [_nearest(free, first + (last - first) * k // count, first, last) for k in range(1, count)]
    spread = [x for x in even if x is not None]
    stops = [first, *spread, last]
    if all(APART <= b - a <= SPACING for a, b in zip(stops, stops[1:], strict=False)):
        return spread
    found: list[int] = []
    at = first
    while last - at > SPACING:
        within = [min(high, at + SPACING) for low, high in free if low <= at + SPACING and high >= at + APART]
        beyond = [low for low, _ in free if low > at + SPACING]
        at = max(within) if within else min(beyond)
        if at < last:
            found.append(at)
    return found


def _free(low: int, high: int, blocked: list[Span]) -> list[Span]:
    """The stretches from ``low`` to ``high`` that nothing blocks, their ends included."""
    found = []
    for left, right in sorted(blocked):
        if left > high:
            break
        if left >= low:
            found.append((low, left))
        low = max(low, right)
    if low <= high:
        found.append((low, high))
    return found


def _nearest(free: list[Span], wanted: int, low: int, high: int) -> int | None:
    """The free place from ``low`` to ``high`` that is nearest to the one wanted, the left of two that are as near."""
    places = [min(max(wanted, a, low), b, high) for a, b in free if a <= high and b >= low]
    return min(places, key=lambda x: (abs(x - wanted), x), default=None)


__all__ = ["APART", "CLEAR", "DIAMETER", "Stretch", "anchors", "placed", "standing", "stretches"]
