"""The rectangle shifted on its deck, so that a sheet that hangs past the plate meets no edge where that can be had.

A sheet that hangs past the plate needs the deck's edge at or inside the framing line. So the rectangle, laid on the deck as
near as may be, is shifted to an edge where that saves trimming another.
"""

from typing import Final

import msgspec
from msgspec.structs import replace

from wallwright.domain.squaring.placing import EDGES, NO_WORK, EdgeWork, Overhang, Placing, edges_of

ALL_AROUND: Final = frozenset(EDGES)


class Shift(msgspec.Struct, frozen=True):
    """How far the rectangle moves to the right and to the back from the placing that shares the error evenly, and what every
    corner and edge of the deck then sticks out or lacks."""

    right: int
    back: int
    overhangs: tuple[Overhang, ...]
    edges: tuple[EdgeWork, ...]


def best_shift(placing: Placing, hanging: frozenset[str] = ALL_AROUND) -> Shift:
    """The shift with the fewest edges to trim, then to shim, then the least shift.

    ``hanging`` names the sides whose sheets hang past the plate.
    """
    sides = {
        name: max(edge.at_start, edge.at_end) if name in hanging else 0
        for name, edge in zip(EDGES, placing.edges, strict=True)
    }
    across = {0, max(0, sides["right"]), -max(0, sides["left"])}
    along = {0, max(0, sides["back"]), -max(0, sides["front"])}

    def cost(shift: tuple[int, int]) -> tuple[int, int, int, int, int]:
        works = [edge.work for edge in _edges(shifted(placing.overhangs, *shift), hanging)]
        trims = sum(work.startswith("trim") for work in works)
        return trims, sum("shim" in work for work in works), abs(shift[0]) + abs(shift[1]), *shift

    right, back = min(((x, y) for x in across for y in along), key=cost)
    overhangs = shifted(placing.overhangs, right, back)
    return Shift(right, back, overhangs, _edges(overhangs, hanging))


def shifted(overhangs: tuple[Overhang, ...], right: int, back: int) -> tuple[Overhang, ...]:
    """What sticks out at each corner once the rectangle has moved to the right and to the back."""
    return tuple(
        Overhang(
            one.corner,
            one.sideways + (-right if one.corner.endswith("right") else right),
            one.endways + (-back if one.corner.startswith("back") else back),
        )
        for one in overhangs
    )


def _edges(marks: tuple[Overhang, ...], hanging: frozenset[str]) -> tuple[EdgeWork, ...]:
    """What each edge takes: where no sheet hangs past the plate, a proud edge is in nobody's way."""
    return tuple(
        edge if edge.edge in hanging else replace(edge, work="shim" if _is_short(edge) else "leave")
        for edge in edges_of(marks)
    )


def _is_short(edge: EdgeWork) -> bool:
    return min(edge.at_start, edge.at_end) < -NO_WORK
