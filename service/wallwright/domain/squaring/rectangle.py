"""The largest rectangle inside a simple quadrilateral, at any angle, convex or not.

For one direction of the rectangle's sides, let H(w) be the greatest height of a rectangle w wide that fits in a convex
outline. H is the value of a small linear programme, so by its dual it is the least of a few straight lines in w, each
from up to three of the outline's edges; w H(w) is then greatest at a corner of that roof or at the top of one of its
parabolas. An outline with a corner that points inwards is cut through that corner along either side of the rectangle,
since no rectangle inside it reaches past that corner on all four sides. The direction is searched between a fixed
number of samples, the outline's own edges among them.
"""

from collections.abc import Sequence
from itertools import combinations
from math import atan2, cos, hypot, pi, sin
from typing import Final

import msgspec

from wallwright.domain.squaring.adjusting import Spot, solved
from wallwright.domain.squaring.quadrilateral import turn

_SAMPLES: Final = 72
_PEAKS: Final = 6
_NARROWING: Final = 48
"""Golden section steps on each side of a peak: they narrow a sample's width to under a billionth of a degree."""
_GOLDEN: Final = 0.6180339887498949
Edge = tuple[float, float, float]
"""An outward unit normal and how far out the edge lies along it."""


class Rectangle(msgspec.Struct, frozen=True, gc=False):
    """A rectangle: its corners counter-clockwise from the front left, its size, and the direction of its width."""

    points: tuple[Spot, ...]
    width: float
    depth: float
    angle: float
    """In radians, from the x-axis."""

    @property
    def area(self) -> float:
        """Width times depth."""
        return self.width * self.depth


def largest_rectangle(outline: Sequence[Spot]) -> Rectangle:
    """The largest rectangle inside a simple, counter-clockwise quadrilateral; its width runs within 45 degrees of x."""
    edges = [
        atan2(b[1] - a[1], b[0] - a[0]) % (pi / 2) for a, b in zip(outline, (*outline[1:], outline[0]), strict=True)
    ]
    angles = sorted({*edges, *(pi / 2 * number / _SAMPLES for number in range(_SAMPLES))})
    areas = [_at_angle(outline, angle).area for angle in angles]
    count = len(angles)
    peaks = [
        number
        for number in range(count)
        if areas[number] >= areas[number - 1] and areas[number] >= areas[(number + 1) % count]
    ]
    peaks.sort(key=lambda number: (-areas[number], number))
    tried = []
    for number in peaks[:_PEAKS]:
        middle = angles[number]
        low = angles[number - 1] - (pi / 2 if number == 0 else 0)
        high = angles[number + 1] if number + 1 < count else angles[0] + pi / 2
        tried += [middle, _climbed(outline, low, middle), _climbed(outline, middle, high)]
    best = max((_at_angle(outline, angle) for angle in tried), key=lambda found: found.area)
    return _facing(best)


def _climbed(outline: Sequence[Spot], low: float, high: float) -> float:
    """The angle of the largest rectangle between two angles, by golden section."""
    a, b = high - _GOLDEN * (high - low), low + _GOLDEN * (high - low)
    at_a, at_b = _at_angle(outline, a).area, _at_angle(outline, b).area
    for _ in range(_NARROWING):
        if at_a >= at_b:
            high, b, at_b = b, a, at_a
            a = high - _GOLDEN * (high - low)
            at_a = _at_angle(outline, a).area
        else:
            low, a, at_a = a, b, at_b
            b = low + _GOLDEN * (high - low)
            at_b = _at_angle(outline, b).area
    return a if at_a >= at_b else b


def _facing(found: Rectangle) -> Rectangle:
    """The same rectangle with its width along the side that lies within 45 degrees of the x-axis."""
    quarters = round(found.angle / (pi / 2))
    turned = found.points[-quarters % 4 :] + found.points[: -quarters % 4]
    sizes = (found.width, found.depth) if quarters % 2 == 0 else (found.depth, found.width)
    return Rectangle(turned, *sizes, found.angle - quarters * pi / 2)


def _at_angle(outline: Sequence[Spot], angle: float) -> Rectangle:
    """The largest rectangle whose sides run at this angle and square to it."""
    across, up = cos(angle), sin(angle)
    level = [(x * across + y * up, y * across - x * up) for x, y in outline]
    x, y, width, depth = max((_in_convex(piece) for piece in convex_pieces(level)), key=lambda box: box[2] * box[3])
    corners = ((x, y), (x + width, y), (x + width, y + depth), (x, y + depth))
    return Rectangle(tuple((a * across - b * up, a * up + b * across) for a, b in corners), width, depth, angle)


def convex_pieces(outline: Sequence[Spot]) -> list[list[Spot]]:
    """The outline itself where it is convex; else its parts on either side of a level and of an upright cut through
    the corner that points inwards."""
    count = len(outline)
    inward = [n for n in range(count) if turn(outline[n - 1], outline[n], outline[(n + 1) % count]) < 0]
    if not inward:
        return [list(outline)]
    first = inward[0]
    ring = [*outline[first:], *outline[:first]]
    return [piece for ways in (((1, 0), (-1, 0)), ((0, 1), (0, -1))) for piece in _cut(ring, ways)]


def _cut(ring: list[Spot], ways: tuple[tuple[int, int], tuple[int, int]]) -> list[list[Spot]]:
    """A ring that starts at its inward corner, cut along those ways from there that run inside it."""
    corner = ring[0]
    pieces = [ring]
    for dx, dy in ways:
        for number, piece in enumerate(pieces):
            met = _met(piece, dx, dy) if _enters(piece, (corner[0] + dx, corner[1] + dy)) else None
            if met is not None:
                index, spot = met
                pieces[number : number + 1] = [[*piece[: index + 1], spot], [corner, spot, *piece[index + 1 :]]]
                break
    return pieces


def _enters(piece: list[Spot], way: Spot) -> bool:
    """Whether the way from a ring's first corner towards a point runs inside it there."""
    corner, after, before = piece[0], piece[1], piece[-1]
    left_of_first, right_of_last = turn(corner, after, way), turn(corner, way, before)
    if turn(corner, after, before) > 0:
        return left_of_first > 0 and right_of_last > 0
    return left_of_first > 0 or right_of_last > 0


def _met(piece: list[Spot], dx: int, dy: int) -> tuple[int, Spot] | None:
    """Where a ray from a ring's first corner first meets one of its far edges: the edge's index, and the place."""
    x0, y0 = piece[0]
    found: tuple[float, int] | None = None
    for index in range(1, len(piece) - 1):
        (ax, ay), (bx, by) = piece[index], piece[index + 1]
        side_a = dx * (ay - y0) - dy * (ax - x0)
        side_b = dx * (by - y0) - dy * (bx - x0)
        if side_a * side_b > 0 or side_a == side_b:
            continue
        share = side_a / (side_a - side_b)
        far = dx * (ax + share * (bx - ax) - x0) + dy * (ay + share * (by - ay) - y0)
        if far > 0 and (found is None or far < found[0]):
            found = far, index
    if found is None:
        return None
    far, index = found
    return index, (x0 + dx * far, y0 + dy * far)


def _in_convex(outline: Sequence[Spot]) -> tuple[float, float, float, float]:
    """The largest level rectangle in a convex outline: left, foot, width, height."""
    edges = _edges(outline)
    roof = _roof(edges)
    widest = max(x for x, _ in outline) - min(x for x, _ in outline)
    widths = [widest]
    widths += [-high / (2 * slope) for high, slope in roof if slope < 0]
    widths += [(h2 - h1) / (s1 - s2) for (h1, s1), (h2, s2) in combinations(roof, 2) if s1 != s2]
    best, height = 0.0, 0.0
    for width in widths:
        if 0 < width <= widest:
            high = min((h + s * width for h, s in roof), default=0.0)
            if high > 0 and width * high > best * height:
                best, height = width, high
    x, y = _corner(edges, best, height, outline)
    # Where a side is nearly level or upright the lines of the roof may miss by a hair: the box gives way by as much.
    past = max(nx * x + ny * y + max(nx, 0.0) * best + max(ny, 0.0) * height - far for nx, ny, far in edges)
    give = min(max(past, 0.0), best / 2, height / 2)
    return x + give, y + give, best - 2 * give, height - 2 * give


def _edges(outline: Sequence[Spot]) -> list[Edge]:
    found = []
    for (ax, ay), (bx, by) in zip(outline, (*outline[1:], outline[0]), strict=True):
        long = hypot(bx - ax, by - ay)
        if long > 0:
            nx, ny = (by - ay) / long, (ax - bx) / long
            found.append((nx, ny, nx * ax + ny * ay))
    return found


def _roof(edges: list[Edge]) -> list[tuple[float, float]]:
    """Straight lines (height at no width, slope) whose least is H: every way in which up to three edges, each with a
    weight of 0 or more, hold a rectangle's top down by 1 and its foot up by 1 and push it neither left nor right."""
    lines = []
    for three in combinations(edges, 3):
        matrix = [
            [max(ny, 0.0) for _, ny, _ in three],
            [max(-ny, 0.0) for _, ny, _ in three],
            [nx for nx, _, _ in three],
        ]
        weights = solved(matrix, [1.0, 1.0, 0.0])
        if weights is not None and min(weights) >= -1e-12:
            height = sum(weight * far for weight, (_, _, far) in zip(weights, three, strict=True))
            slope = -sum(weight * max(nx, 0.0) for weight, (nx, _, _) in zip(weights, three, strict=True))
            lines.append((height, slope))
    return lines


def _corner(edges: list[Edge], width: float, height: float, outline: Sequence[Spot]) -> Spot:
    """Where the lower left corner of a rectangle that just fits may stand: the middle of those places."""
    limits = [(nx, ny, far - max(nx, 0.0) * width - max(ny, 0.0) * height) for nx, ny, far in edges]
    spots = []
    for (ax, ay, a), (bx, by, b) in combinations(limits, 2):
        across = ax * by - ay * bx
        if abs(across) > 1e-12:
            spots.append(((a * by - b * ay) / across, (ax * b - bx * a) / across))
    if not spots:
        return outline[0]
    past = [max(nx * x + ny * y - far for nx, ny, far in limits) for x, y in spots]
    slack = 1e-10 * max(abs(value) for spot in outline for value in spot)
    fitting = [spot for spot, by in zip(spots, past, strict=True) if by <= min(past) + slack]
    xs, ys = [x for x, _ in fitting], [y for _, y in fitting]
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
