"""What stands near a place along the wall, found without looking at the whole wall."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable
from itertools import accumulate

from wallwright.domain.wall import Opening

Box = tuple[int, int, int, int]
"""Left, right, bottom and top."""


class Nearby:
    """Boxes along the wall in order of their left sides, ready to be asked for those between two x."""

    def __init__(self, boxes: Iterable[Box]) -> None:
        """The boxes may overlap and come in any order."""
        self.boxes = sorted(boxes)
        self._lefts = [box[0] for box in self.boxes]
        # How far right the boxes reach up to each one: it never falls, so that it can be halved as well.
        self._reach = list(accumulate((box[1] for box in self.boxes), max))

    def between(self, low: int, high: int) -> list[Box]:
        """The boxes that have any width between two x."""
        first, last = bisect_right(self._reach, low), bisect_left(self._lefts, high)
        if first >= last:
            return []
        return [box for box in self.boxes[first:last] if box[1] > low]


def voids_of(openings: Iterable[Opening]) -> Nearby:
    """Openings as boxes along the wall."""
    return Nearby((opening.left, opening.right, opening.sill, opening.head) for opening in openings)
