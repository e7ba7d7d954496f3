"""What carries the edges of the sheets: solid timber at the framing's outer face, height by height.

Members that touch count as one. A sheet's edge is carried where solid timber stands behind its own
side of the edge for at least `BEARING`, which is what nailing it to a single stud takes.
"""

from bisect import bisect_left

import msgspec

from wallwright.domain.parts import Part, stud
from wallwright.domain.wall import Opening, Wall
from wallwright.lengths import inches

BEARING = inches("5/8")
"""3/8 in from nail to panel edge and 1/4 in from nail to the stud's edge."""
LEAST_BEARING = inches("3/8")
"""The least bearing that counts as carried."""

CLEAR_OF_LAP = inches("1/4")
"""Timber left past a fastener that stands clear of a lap underneath."""

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
    """The parts of one frame that reach its outer face, ready to be asked about one seam after another."""

    def __init__(self, wall: Wall, in_bay: tuple[Opening, ...], parts: list[Part], course: Span | None = None) -> None:
        """``in_bay`` are the openings within one bay, ``course`` bounds the heights in which seams need carriers: those of one course of lying sheets."""
        self.wall = wall
        low, high = wall.stud_bottom, wall.stud_top
        self.heights = (low, high) if course is None else (max(low, course[0]), min(high, course[1]))
        self.voids = wall.openings
        self.in_bay = in_bay
        self.beyond = bearing_after(wall, "upright", BEARING)
        self.frame = parts
        solid = [part for part in parts if part.z == 0 and not part.role.endswith("plate")]
        self.uprights = sorted((part for part in solid if part.upright), key=lambda part: part.x)
        self._lefts = [part.x for part in self.uprights]
        self.levels = [part for part in solid if not part.upright]
        self._widest = max(part.width for part in self.uprights)
        self._answers: dict[int, tuple[Part, ...] | None] = {}

    def near(self, low: int, high: int) -> list[Part]:
        """Parts at the outer face that have any width between ``low`` and ``high``."""
        first = bisect_left(self._lefts, low - self._widest)
        last = bisect_left(self._lefts, high)
        found = [part for part in self.uprights[first:last] if part.right > low]
        found += [part for part in self.levels if part.x < high and part.right > low]
        return found

    def studs_for(self, before: int, after: int) -> tuple[Part, ...] | None:
        """The seam studs that a seam lacks, the sheets' edges being at x ``before`` and ``after``.

        None where no stud can be set so that both edges are carried.
        """
        if before not in self._answers:
            self._answers[before] = self._studs_for(before, after)
        return self._answers[before]

    def _studs_for(self, before: int, after: int) -> tuple[Part, ...] | None:
        near = self.near(before - BEARING, after + self.beyond)
        wall = self.wall
        if len(near) == 1 and not self._void_near(before - BEARING, after + self.beyond):
            only = near[0]
            full = only.y == wall.stud_bottom and only.top == wall.stud_top
            if full and only.x <= before - BEARING and only.right >= after + self.beyond:
                return ()
        studs: list[Part] = []
        for storey in self.lacking(before, after, near):
            added = self._fill(storey, before, after)
            if added is None:
                return None
            studs += added
        return tuple(studs)

    def _void_near(self, low: int, high: int) -> bool:
        return any(void.left < high and void.right > low for void in self.voids)

    def lacking(self, before: int, after: int, near: list[Part]) -> list[Storey]:
        """The storeys in which a seam's edges are not carried by the frame as it stands."""
        low, high = self.heights
        levels = {low, high}
        for part in near:
            levels.update((part.y, part.top))
        voids = [void for void in self.voids if void.left < after + self.beyond and void.right > before - BEARING]
        for void in voids:
            levels.update((void.sill, void.head))
        heights = sorted(y for y in levels if low <= y <= high)
        storeys: list[Storey] = []
        for bottom, top in zip(heights, heights[1:], strict=False):
            missing = self._missing(before, after, bottom, top, near, voids)
            if not missing:
                continue
            if storeys and storeys[-1].high == bottom and storeys[-1].needs == missing:
                storeys[-1] = Storey(storeys[-1].low, top, missing)
            else:
                storeys.append(Storey(bottom, top, missing))
        return storeys

    def _missing(
        self, before: int, after: int, bottom: int, top: int, near: list[Part], voids: list[Opening]
    ) -> tuple[Span, ...]:
        """The stretches beside a seam that need timber between two heights and have none."""
        solids = merged([(part.x, part.right) for part in near if part.y <= bottom and part.top >= top])
        needs = needed(before, after, [void for void in voids if void.sill <= bottom and void.head >= top], self.beyond)
        return tuple(need for need in needs if not covers(solids, need))

    def _fill(self, storey: Storey, before: int, after: int) -> list[Part] | None:
        """The fewest studs, set tight beside what stands there if that serves, that carry both edges."""
        thick = self.wall.thickness
        reach = 2 * thick + self.beyond
        near = self.near(before - reach, after + reach)
        here = [part for part in near if part.y < storey.high and part.top > storey.low]
        solids = merged([(p.x, p.right) for p in here if p.y <= storey.low and p.top >= storey.high])
        centred = (before + after - thick) // 2
        spots = [high for _, high in solids] + [low - thick for low, _ in solids]
        spots += [centred, after + self.beyond - thick, before - BEARING]
        for x in spots:
            if _carried([*solids, (x, x + thick)], storey.needs) and self._is_free(x, storey):
                return [self._seam_stud(x, storey)]
        for first in spots:
            for second in spots:
                both = [*solids, (first, first + thick), (second, second + thick)]
                if second < first + thick or not _carried(both, storey.needs):
                    continue
                if self._is_free(first, storey) and self._is_free(second, storey):
                    return [self._seam_stud(first, storey), self._seam_stud(second, storey)]
        return None

    def _seam_stud(self, x: int, storey: Storey) -> Part:
        low, high = self._height_at(x, storey)
        return stud(self.wall, "seam-stud", x, low, high)

    def _height_at(self, x: int, storey: Storey) -> Span:
        """The clear height about a storey at one place: from the level timber below to the one above."""
        right = x + self.wall.thickness
        low, high = self.wall.stud_bottom, self.wall.stud_top
        for part in self.levels:
            if part.x < right and part.right > x:
                if part.top <= storey.low:
                    low = max(low, part.top)
                elif part.y >= storey.high:
                    high = min(high, part.y)
        return low, high

    def _is_free(self, x: int, storey: Storey) -> bool:
        """Whether a stud at ``x`` overlaps neither part nor opening within the height it would take."""
        right = x + self.wall.thickness
        if x < 0 or right > self.wall.length:
            return False
        if any(void.left < right and void.right > x for void in self.in_bay):
            return False
        low, high = self._height_at(x, storey)
        for void in self.voids:
            if void.left < right and void.right > x and void.sill < high and void.head > low:
                return False
        for part in self.frame:
            if part.x < right and part.right > x and part.y < high and part.top > low:
                return False
        return True


def needed(before: int, after: int, voids: list[Opening], beyond: int = BEARING) -> tuple[Span, ...]:
    """The stretches of x that need timber beside a seam, an opening's own width needing none."""
    low, high = before - BEARING, after + beyond
    left: Span | None = (low, before)
    right: Span | None = (after, high)
    for void in voids:
        if void.left < before <= void.right:
            left = None
        elif left is not None and low < void.right < before:
            left = (void.right, before)
        if void.left <= after < void.right:
            right = None
        elif right is not None and after < void.left < high:
            right = (after, void.left)
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


def _carried(solids: list[Span], needs: tuple[Span, ...]) -> bool:
    """Whether solid spans, joined where they touch, hold every one of ``needs``."""
    joined = merged(solids)
    return all(covers(joined, need) for need in needs)


def covers(solids: list[Span], need: Span) -> bool:
    """Whether one solid span holds the whole of ``need``."""
    return any(low <= need[0] and high >= need[1] for low, high in solids)
