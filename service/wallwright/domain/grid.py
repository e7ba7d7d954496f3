"""The tape's grid: where field studs fall, and which of them stand.

Each position is reckoned as tape zero + k x spacing, never added up from its neighbour.
"""

import msgspec

from wallwright.domain.wall import Wall


class Bound(msgspec.Struct, frozen=True, gc=False):
    """A fixed upright at one side of a stretch of wall: its ``edge`` and the centre from which bays count."""

    edge: int
    centre: int


class Place(msgspec.Struct, frozen=True, gc=False):
    """Where a layout stud stands, by its left edge; ``slid`` where it left its line."""

    x: int
    slid: bool


def line(wall: Wall, k: int) -> int:
    """x of the k-th layout line of a wall that is laid out from its left end."""
    return wall.tape_zero + k * wall.spacing


def lines_between(wall: Wall, low: int, high: int) -> list[int]:
    """The layout lines with ``low`` <= x <= ``high``, in order."""
    zero, spacing = wall.tape_zero, wall.spacing
    first = -((zero - low) // spacing)
    return list(range(zero + first * spacing, high + 1, spacing))


def places(wall: Wall, left: Bound, right: Bound) -> list[Place]:
    """The layout studs that stand between two fixed uprights.

    A stud that would overlap either of them is left out if the bay stays within the spacing, else
    slid tight against it. Where no line falls clear between the two, the fewest that hold the
    spacing are kept; where either would do, the one nearer the tape zero, then the left one.
    """
    thick = wall.thickness
    half = thick // 2
    kept = [x - half for x in lines_between(wall, left.edge + half, right.edge - thick + half)]
    if not kept:
        return [Place(x, True) for x in _squeezed(wall, left, right)]
    result = [Place(x, False) for x in kept]
    if kept[0] + half - left.centre > wall.spacing:
        result.insert(0, Place(left.edge, True))
    if right.centre - (kept[-1] + half) > wall.spacing:
        result.append(Place(right.edge - thick, True))
    return result


def _squeezed(wall: Wall, left: Bound, right: Bound) -> list[int]:
    """Left edges of the studs kept in a stretch where no layout line falls clear."""
    spacing, thick = wall.spacing, wall.thickness
    half = thick // 2
    if right.centre - left.centre <= spacing:
        return []
    at_left, at_right = left.edge, right.edge - thick
    left_holds = right.centre - (at_left + half) <= spacing
    right_holds = at_right + half - left.centre <= spacing
    if left_holds and right_holds:
        crossed = lines_between(wall, left.centre + 1, right.centre - 1)
        zero = wall.tape_zero
        left_is_nearer = abs(crossed[0] - zero) <= abs(crossed[-1] - zero)
        # One line overlapped by both fixed uprights is nearer the one that it overlaps more.
        if len(crossed) == 1:
            left_is_nearer = 2 * crossed[0] <= at_left + at_right + thick
        return [at_left if left_is_nearer else at_right]
    if left_holds:
        return [at_left]
    if right_holds:
        return [at_right]
    return [at_left, at_right]
