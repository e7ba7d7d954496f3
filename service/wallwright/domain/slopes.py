"""Sloped tops: the lines that plates, studs and sheets are cut to, exact at every x.

A wall's top is one line (level, rake) or two that meet at a ridge (gable); where there are two, the
lower one holds. Heights are reckoned at each x from the line itself, never added up from a neighbour,
and rounded down once, so that what stands under a line never passes it by more than nothing.
"""

from fractions import Fraction
from math import atan2, degrees, gcd, isqrt
from typing import Literal

import msgspec

from wallwright.domain.wall import Wall
from wallwright.lengths import nearest

Point = tuple[int, int]
Outline = tuple[Point, ...]
Edge = Literal["left", "right", "top", "bottom"]
_FINE = 1000
"""Parts of a grid unit in which a root is taken, so that a height under plates is rounded only once to a whole one."""


class Cut(msgspec.Struct, frozen=True, gc=False, order=True):
    """An end that is not square: which ``end``, how far off square, and the side that holds the long point."""

    end: Edge
    angle: float
    """Degrees off a square cut, to the hundredth."""
    long: Edge


class Line(msgspec.Struct, frozen=True, gc=False):
    """A straight line over the wall: y = (``base`` + ``rise`` x) / ``run``, exactly."""

    base: int
    rise: int
    run: int

    def at(self, x: int) -> int:
        """The line's y at ``x``, rounded down."""
        return (self.base + self.rise * x) // self.run

    def over(self, point: Point) -> int:
        """How far the line stands above a point, in run-ths of a grid unit; negative where it stands below."""
        return self.base + self.rise * point[0] - self.run * point[1]

    def reaches(self, y: int) -> int:
        """The x at which a line that is not level comes to ``y``, to the nearest unit.

        A half goes up the slope, so that a line and its mirror image agree.
        """
        x = Fraction(self.run * y - self.base, self.rise)
        return nearest(x) if self.rise > 0 else -nearest(-x)


class Slope(msgspec.Struct, frozen=True):
    """An upper edge: the lower of its lines at every x."""

    lines: tuple[Line, ...]

    def at(self, x: int) -> int:
        """y at ``x``, rounded down."""
        return min(line.at(x) for line in self.lines)

    def least(self, left: int, right: int) -> int:
        """The least y between two x. An edge that falls away from its ridge is lowest at an end."""
        return min(self.at(left), self.at(right))

    def most(self, left: int, right: int) -> int:
        """The greatest y between two x: at one of them, or at the ridge between them."""
        ridge = self.ridge
        ys = [self.at(left), self.at(right)]
        if ridge is not None and left < ridge < right:
            ys.append(self.at(ridge))
        return max(ys)

    @property
    def ridge(self) -> int | None:
        """x where two lines meet, to the nearest unit; None where there is one line."""
        if len(self.lines) == 1:
            return None
        up, down = self.lines
        return nearest(Fraction(down.base - up.base, up.rise - down.rise))

    def above(self, height: int, left: int, right: int) -> tuple[int, int]:
        """The stretch from ``left`` to ``right`` in which the edge stands above ``height``; both are ``right`` if nowhere."""
        if self.most(left, right) <= height:
            return right, right
        low, high = left, right
        for line in self.lines:
            if line.rise > 0 and line.at(left) < height:
                low = max(low, line.reaches(height))
            elif line.rise < 0 and line.at(right) < height:
                high = min(high, line.reaches(height))
        return low, high


def top_edge(wall: Wall) -> Slope:
    """The upper side of the uppermost plate, along the wall and past its ends.

    ``height`` holds at a rake's low end, and at a gable's lower eaves (both alike where the ridge is in the middle).
    """
    top = wall.top
    if top.shape == "level":
        return Slope((Line(wall.height, 0, 1),))
    rise, run = slope_of(wall)
    if top.shape == "rake":
        if top.up == "right":
            return Slope((Line(wall.height * run, rise, run),))
        return Slope((Line(wall.height * run + rise * wall.length, -rise, run),))
    # Twice everything, so that a ridge in the middle of an odd length is exact.
    ridge = wall.length if top.ridge is None else 2 * top.ridge
    peak = 2 * run * wall.height + rise * max(ridge, 2 * wall.length - ridge)
    return Slope((Line(peak - rise * ridge, 2 * rise, 2 * run), Line(peak + rise * ridge, -2 * rise, 2 * run)))


def slope_of(wall: Wall) -> tuple[int, int]:
    """Rise and run of a wall's top in lowest terms."""
    common = gcd(wall.top.rise, wall.top.run)
    return wall.top.rise // common, wall.top.run // common


def angle_of(wall: Wall) -> float:
    """The slope in degrees, to the hundredth: what a plumb cut is off square."""
    return round(degrees(atan2(wall.top.rise, wall.top.run)), 2)


def under(wall: Wall, plates: int) -> Slope:
    """The underside of the uppermost ``plates`` plates: each takes its thickness x sqrt(rise^2 + run^2) / run plumb.

    The root is taken once for all of them, to a thousandth of a unit and upwards, since what stands below must fit.
    """
    edge, thick = top_edge(wall), plates * wall.thickness
    if wall.top.shape == "level":
        return Slope((Line(wall.height - thick, 0, 1),))
    rise, run = slope_of(wall)
    lines = []
    for line in edge.lines:
        fine = _FINE * line.run
        drop = isqrt((thick * fine) ** 2 * (rise * rise + run * run) // (run * run)) + 1 if thick else 0
        lines.append(Line(_FINE * line.base - drop, _FINE * line.rise, fine))
    return Slope(tuple(lines))


def along(rise: int, run: int, level: int) -> int:
    """The length on the slope over a level stretch: ``level`` x sqrt(rise^2 + run^2) / run, to the nearest unit."""
    # The nearest integer to a root is half of the root of four times the square, plus one, rounded down.
    return (isqrt(4 * level * level * (rise * rise + run * run) // (run * run)) + 1) // 2


def level_of(rise: int, run: int, length: int) -> int:
    """The longest level stretch that a ``length`` on the slope covers: the inverse of `along`, never past it."""
    level = isqrt(length * length * run * run // (rise * rise + run * run))
    while along(rise, run, level + 1) <= length:
        level += 1
    return level


def soffit(wall: Wall) -> Slope:
    """The underside of the top plates: what the studs stand under."""
    return under(wall, wall.plates.top)


def clipped(outline: Outline, slope: Slope) -> Outline:
    """What of an outline lies under a slope, counter-clockwise from its lowest left corner; empty where nothing does."""
    points = list(outline)
    for line in slope.lines:
        points = _under(points, line)
    return tidied(points)


def _under(points: list[Point], line: Line) -> list[Point]:
    kept: list[Point] = []
    for here, onward in zip(points, [*points[1:], *points[:1]], strict=True):
        own, other = line.over(here), line.over(onward)
        if own >= 0:
            kept.append(here)
        if (own > 0 > other) or (own < 0 < other):
            kept.append(_crossing(here, onward, own, other, line))
    return kept


def _crossing(here: Point, onward: Point, own: int, other: int, line: Line) -> Point:
    """Where a side crosses a line, by the line's own height at its x, so that neighbours agree."""
    (x1, y1), (x2, y2) = here, onward
    if x1 == x2:
        return x1, line.at(x1)
    if y1 == y2:
        return line.reaches(y1), y1
    x = x1 + nearest(Fraction((x2 - x1) * own, own - other))
    return x, line.at(x)


def tidied(points: list[Point]) -> Outline:
    """An outline without points that are repeated or stand in a straight side, from its lowest left corner."""
    once = [point for number, point in enumerate(points) if point != points[number - 1]]
    kept = [
        point for number, point in enumerate(once) if _turns(once[number - 1], point, once[(number + 1) % len(once)])
    ]
    if len(kept) < 3:
        return ()
    first = kept.index(min(kept, key=lambda point: (point[1], point[0])))
    return tuple(kept[first:] + kept[:first])


def _turns(before: Point, point: Point, after: Point) -> bool:
    return (point[0] - before[0]) * (after[1] - point[1]) != (point[1] - before[1]) * (after[0] - point[0])


def mirrored_outline(outline: Outline, length: int) -> Outline:
    """The outline seen in a mirror at the middle of a plate of ``length``, counter-clockwise again."""
    return tidied([(length - x, y) for x, y in reversed(outline)])
