"""Four corners from six lengths: a first guess, the figure that fits, and whether there is one at all."""

from collections.abc import Sequence
from math import acos, degrees, hypot, sqrt
from typing import Final

from msgspec.structs import replace

from wallwright.domain.squaring.adjusting import QUADRILATERAL, Adjusted, Singular, Spot, adjust

_FLAT: Final = 1e-4
"""A figure whose area is less than this share of its longest line squared has its corners on one line."""


def fitted(lengths: Sequence[float], sigmas: Sequence[float]) -> Adjusted | None:
    """The quadrilateral that fits four sides in turn and two diagonals best, counter-clockwise; None for no figure.

    The third and fourth corner may lie on the same side of the first side, or, where a corner points inwards, on
    either side of it: both are tried, and the better fit is taken.
    """
    best: Adjusted | None = None
    for sign in (1.0, -1.0):
        try:
            fit = adjust(QUADRILATERAL, lengths, sigmas, first_guess(lengths, sign))
        except Singular:
            continue
        if best is None or fit.misfit < best.misfit * 0.999:
            best = fit
    if best is not None and area(best.points) < 0:
        return turned_over(best)
    return best


def first_guess(lengths: Sequence[float], sign: float) -> list[float]:
    """The corners from the first side and the two triangles upon it; ``sign`` puts the fourth above or below it."""
    first, second, _, fourth, across, other = lengths
    x2, y2 = _apex(first, across, second)
    x3, y3 = _apex(first, fourth, other)
    return [first, x2, y2, x3, sign * y3]


def _apex(base: float, near: float, far: float) -> Spot:
    """The corner at ``near`` from the start of a base on the x-axis and ``far`` from its end, above it."""
    x = (base * base + near * near - far * far) / (2 * base)
    # A triangle that does not quite close is taken as a flat one, held off the line so that it can open.
    return x, sqrt(max(near * near - x * x, (1e-3 * near) ** 2))


def turned_over(fit: Adjusted) -> Adjusted:
    """The same figure mirrored at the x-axis."""
    return replace(fit, points=tuple((x, -y) for x, y in fit.points))


def area(points: Sequence[Spot]) -> float:
    """The area within an outline, negative where it runs clockwise."""
    pairs = zip(points, (*points[1:], points[0]), strict=True)
    return sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in pairs) / 2


def turn(a: Spot, b: Spot, c: Spot) -> float:
    """Twice the area of a triangle: above 0 where the way from a over b to c turns left."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def is_flat(points: Sequence[Spot]) -> bool:
    """Whether the corners lie on one line, as far as anyone could build."""
    longest = max(hypot(b[0] - a[0], b[1] - a[1]) for a in points for b in points)
    spread = max(abs(turn(a, b, c)) for a in points for b in points for c in points)
    return spread <= _FLAT * longest * longest


def crossing(points: Sequence[Spot]) -> tuple[int, int] | None:
    """The two opposite sides that cross or touch, by the index of their first corner; None where none do."""
    for one, other in ((0, 2), (1, 3)):
        a, b, c, d = points[one], points[one + 1], points[other], points[(other + 1) % 4]
        if turn(a, b, c) * turn(a, b, d) <= 0 and turn(c, d, a) * turn(c, d, b) <= 0:
            return one, other
    return None


def corner_degrees(points: Sequence[Spot]) -> list[float]:
    """The angle inside at every corner of a counter-clockwise outline, in degrees; above 180 where it points inwards."""
    found = []
    for number, corner in enumerate(points):
        before, after = points[number - 1], points[(number + 1) % len(points)]
        ux, uy = after[0] - corner[0], after[1] - corner[1]
        vx, vy = before[0] - corner[0], before[1] - corner[1]
        cosine = (ux * vx + uy * vy) / (hypot(ux, uy) * hypot(vx, vy))
        angle = degrees(acos(min(1.0, max(-1.0, cosine))))
        found.append(angle if ux * vy - uy * vx >= 0 else 360 - angle)
    return found
