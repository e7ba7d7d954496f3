"""What carries the edges of the sheets: solid timber at the framing's outer face, height by height.

Members that touch count as one. A sheet's edge is carried where solid timber stands behind its own
side of the edge for at least `BEARING`, which is what nailing it to a single stud takes.
"""

from collections.abc import Sequence
from itertools import pairwise

import msgspec

from wallwright.domain.nearby import Box, Nearby, voids_of
from wallwright.domain.parts import Part, stud
from wallwright.domain.wall import Opening, Wall
from wallwright.lengths import inches

BEARING = inches("5/8")
"""3/8 in from nail to panel edge and 1/4 in from nail to the stud's edge."""
CLEAR_OF_LAP = inches("1/4")
"""Timber left past a fastener that stands clear of a lap underneath."""
LEAST_BEARING = inches("3/8")
"""The least bearing that counts as carried."""

Span = tuple[int, int]


def bearing_after(wall: Wall, direction: str, least: int) -> int:
    """The timber that the sheet after a seam needs: at a shiplap edge its fasteners stand clear of the lap beneath it.

    ``direction`` is the seam's, ``least`` what a square edge needs. Only long edges have laps.
    """
    sheathing = wall.sheathing
    if not sheathing.sheet.lap or (direction == "upright") != (sheathing.direction == "upright"):
        return least
    return max(least, sheathing.sheet.lap - sheathing.gap + CLEAR_OF_LAP)


class Storey(msgspec.Struct, frozen=True, gc=False):
    """A height between level timbers in which a seam lacks a carrier, and the stretches of x it lacks."""

    low: int
    high: int
    needs: tuple[Span, ...]


class Carriers:
    """The parts of one frame that reach its outer face, ready to be asked about one seam after another.

    Parts and openings are kept as boxes, in order along the wall: a seam asks only for what is near it.
    """

    def __init__(self, wall: Wall, in_bay: tuple[Opening, ...], parts: list[Part], course: Span | None = None) -> None:
        """``in_bay`` are the openings within one bay, ``course`` bounds the heights in which seams need carriers: those of one course of lying sheets."""
        self.wall = wall
        self._thick = wall.thickness
        self._standing = low, high = wall.stud_bottom, wall.stud_top
        self.heights = (low, high) if course is None else (max(low, course[0]), min(high, course[1]))
        self.beyond = bearing_after(wall, "upright", BEARING)
        # Between the plates nothing overlaps them.
        inside = [part for part in parts if not part.role.endswith("plate")]
        front = [part for part in inside if part.z == 0]
        self._solid = Nearby(map(_box, front))
        self._levels = Nearby(_box(part) for part in front if not part.upright)
        self._voids = voids_of(wall.openings)
        # No seam stud stands above or below an opening within one bay.
        self._taken = Nearby([*map(_box, inside), *self._voids.boxes, *((o.left, o.right, low, high) for o in in_bay)])
        self._answers: dict[int, tuple[Part, ...] | None] = {}

    def studs_for(self, before: int, after: int) -> tuple[Part, ...] | None:
        """The seam studs that a seam lacks, the sheets' edges being at x ``before`` and ``after``.

        None where no stud can be set so that both edges are carried.
        """
        if before not in self._answers:
            self._answers[before] = self._studs_for(before, after)
        return self._answers[before]

    def _studs_for(self, before: int, after: int) -> tuple[Part, ...] | None:
        storeys = self.lacking(before, after)
        if not storeys:
            return ()
        reach = 2 * self._thick + self.beyond
        near = self._solid.between(before - reach, after + reach)
        studs: list[Part] = []
        for storey in storeys:
            added = self._fill(storey, near, before, after)
            if added is None:
                return None
            studs += added
        return tuple(studs)

    def lacking(self, before: int, after: int) -> list[Storey]:
        """The storeys in which a seam's edges are not carried by the frame as it stands."""
        low, high = self.heights
        left, right = before - BEARING, after + self.beyond
        near, voids = self._solid.between(left, right), self._voids.between(left, right)
        both = ((left, before), (after, right))
        if not near and not voids:
            return [Storey(low, high, both)]
        levels = {low, high}
        for solid_left, solid_right, bottom, top in near:
            if solid_left <= left and solid_right >= right and bottom <= low and top >= high:
                return []
            levels.add(bottom)
            levels.add(top)
        for _, _, bottom, top in voids:
            levels.add(bottom)
            levels.add(top)
        heights = sorted([y for y in levels if low <= y <= high]) if len(levels) > 2 else (low, high)
        storeys: list[Storey] = []
        for bottom, top in pairwise(heights):
            through = _through(voids, bottom, top) if voids else ()
            needs = needed(before, after, through, self.beyond) if through else both
            missing = _lacked(_through(near, bottom, top), needs) if near else needs
            if not missing:
                continue
            if storeys and storeys[-1].high == bottom and storeys[-1].needs == missing:
                storeys[-1] = Storey(storeys[-1].low, top, missing)
            else:
                storeys.append(Storey(bottom, top, missing))
        return storeys

    def _fill(self, storey: Storey, near: list[Box], before: int, after: int) -> list[Part] | None:
        """The fewest studs, set tight beside what stands there if that serves, that carry both edges."""
        thick = self._thick
        solids = merged(_through(near, storey.low, storey.high)) if near else []
        centred = (before + after - thick) // 2
        spots = [high for _, high in solids] + [low - thick for low, _ in solids]
        spots += [centred, after + self.beyond - thick, before - BEARING]
        for x in spots:
            if _carried(solids, ((x, x + thick),), storey.needs) and (one := self._seam_stud(x, storey)):
                return [one]
        for first in spots:
            for second in spots:
                both = ((first, first + thick), (second, second + thick))
                if second < first + thick or not _carried(solids, both, storey.needs):
                    continue
                if (one := self._seam_stud(first, storey)) and (other := self._seam_stud(second, storey)):
                    return [one, other]
        return None

    def _seam_stud(self, x: int, storey: Storey) -> Part | None:
        """A stud at ``x`` as high as it is clear about a storey; None where it overlaps a part or an opening."""
        right = x + self._thick
        if x < 0 or right > self.wall.length:
            return None
        low, high = self._standing
        for _, _, bottom, top in self._levels.between(x, right):
            if top <= storey.low:
                low = max(low, top)
            elif bottom >= storey.high:
                high = min(high, bottom)
        for _, _, bottom, top in self._taken.between(x, right):
            if bottom < high and top > low:
                return None
        return stud(self.wall, "seam-stud", x, low, high)


def _box(part: Part) -> Box:
    return part.x, part.x + part.width, part.y, part.y + part.height


def _through(boxes: Sequence[Box], low: int, high: int) -> list[Span]:
    """The widths of those boxes that reach all through two heights, in the boxes' order."""
    return [(left, right) for left, right, bottom, top in boxes if bottom <= low and top >= high]


def needed(before: int, after: int, voids: Sequence[Span], beyond: int = BEARING) -> tuple[Span, ...]:
    """The stretches of x that need timber beside a seam, an opening's own width needing none."""
    low, high = before - BEARING, after + beyond
    left: Span | None = (low, before)
    right: Span | None = (after, high)
    for start, end in voids:
        if start < before <= end:
            left = None
        elif left is not None and low < end < before:
            left = (end, before)
        if start <= after < end:
            right = None
        elif right is not None and after < start < high:
            right = (after, start)
    return tuple(span for span in (left, right) if span is not None)


def merged(spans: list[Span]) -> list[Span]:
    """Spans joined where they touch or overlap, in order."""
    result: list[Span] = []
    for low, high in sorted(spans):
        if result and low <= result[-1][1]:
            result[-1] = (result[-1][0], max(result[-1][1], high))
        else:
            result.append((low, high))
    return result


def _lacked(solids: list[Span], needs: tuple[Span, ...]) -> tuple[Span, ...]:
    """Those of ``needs`` that solid spans, in order, do not hold."""
    return tuple([need for need in needs if not holds(solids, need)])


def _carried(solids: list[Span], studs: tuple[Span, ...], needs: tuple[Span, ...]) -> bool:
    """Whether solid spans and studs hold every one of ``needs`` together."""
    together = sorted((*solids, *studs)) if solids else studs
    for need in needs:
        if not holds(together, need):
            return False
    return True


def holds(solids: Sequence[Span], need: Span) -> bool:
    """Whether solid spans, in order and joined where they touch, hold the whole of ``need``."""
    held, end = need
    for left, right in solids:
        if left > held:
            break
        if right > held:
            held = right
    return held >= end
