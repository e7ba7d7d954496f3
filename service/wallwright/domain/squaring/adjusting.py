"""Weighted least squares on distances between points: the figure that fits what was measured best.

A figure's points are sums of a few numbers (its `Shape`), and each measurement is the distance between two of its
points. The weighted sum of squared corrections is made least by Gauss-Newton steps, damped where a plain step would
overshoot. The work is bounded, and the same lengths give the same figure.
"""

from collections.abc import Sequence
from math import hypot, inf, sqrt
from typing import Final

import msgspec

Spot = tuple[float, float]
Row = list[float]
_MOST_STEPS: Final = 200
_NEAR: Final = 1e-13
"""A step this small against the figure changes nothing that the grid would show."""


class Place(msgspec.Struct, frozen=True):
    """A point of a figure: x and y are sums of the numbers at these indices."""

    x: tuple[int, ...] = ()
    y: tuple[int, ...] = ()

    def at(self, numbers: Sequence[float]) -> Spot:
        """Where the point lies."""
        return sum(numbers[i] for i in self.x), sum(numbers[i] for i in self.y)


class Shape(msgspec.Struct, frozen=True):
    """A kind of figure: its points, how many numbers place them, and the pairs of points that are measured."""

    places: tuple[Place, ...]
    numbers: int
    lines: tuple[tuple[int, int], ...]

    def points(self, numbers: Sequence[float]) -> list[Spot]:
        """All points of the figure."""
        return [place.at(numbers) for place in self.places]

    def lengths(self, numbers: Sequence[float]) -> list[float]:
        """The length of every line that is measured."""
        points = self.points(numbers)
        return [hypot(points[b][0] - points[a][0], points[b][1] - points[a][1]) for a, b in self.lines]

    def rows(self, numbers: Sequence[float]) -> list[Row]:
        """How each line's length changes with each number."""
        points = self.points(numbers)
        return [self._row(a, b, points) for a, b in self.lines]

    def _row(self, a: int, b: int, points: list[Spot]) -> Row:
        dx, dy = points[b][0] - points[a][0], points[b][1] - points[a][1]
        long = hypot(dx, dy) or 1.0
        row = [0.0] * self.numbers
        for point, sign in ((b, 1.0), (a, -1.0)):
            for index in self.places[point].x:
                row[index] += sign * dx / long
            for index in self.places[point].y:
                row[index] += sign * dy / long
        return row


PARALLELOGRAM: Final = Shape(
    (Place(), Place((0,)), Place((0, 1), (2,)), Place((1,), (2,))), 3, ((0, 1), (0, 3), (0, 2), (1, 3))
)
"""Corners 0 to 3 counter-clockwise; measured are the foot, the left side, and the diagonals from 0 and from 1."""
QUADRILATERAL: Final = Shape(
    (Place(), Place((0,)), Place((1,), (2,)), Place((3,), (4,))),
    5,
    ((0, 1), (1, 2), (2, 3), (3, 0), (0, 2), (1, 3)),
)
"""Corners 0 to 3 counter-clockwise; measured are the four sides in turn from the foot, then both diagonals."""


class Singular(ValueError):
    """The measurements do not hold the figure in place: its corners lie on one line."""


class Adjusted(msgspec.Struct, frozen=True):
    """The figure that fits best. All are floats of grid units but ``shares``, one of each for every measurement.

    ``corrections`` are adjusted less measured; ``errors`` the standard errors of the adjusted lengths; ``shares`` say
    how much of an error in one measurement shows as its own correction, from 0 to 1, and sum to the one length too many.
    """

    points: tuple[Spot, ...]
    lengths: tuple[float, ...]
    corrections: tuple[float, ...]
    errors: tuple[float, ...]
    shares: tuple[float, ...]
    sigmas: tuple[float, ...]
    misfit: float
    """Root of the weighted sum of squared corrections: with one length too many, how many standard errors it is out."""


def adjust(shape: Shape, measured: Sequence[float], sigmas: Sequence[float], start: Sequence[float]) -> Adjusted:
    """The figure of this shape with the least weighted sum of squared corrections, from a first guess at its numbers.

    ``sigmas`` are the measurements' standard errors, in the measurements' unit. Raises Singular.
    """
    numbers = list(start)
    misfit = _misfit(shape, measured, sigmas, numbers)
    size = max(measured)
    damping = 0.0
    for _ in range(_MOST_STEPS):
        step = _step(shape, measured, sigmas, numbers, damping)
        moved = None if step is None else [n + s for n, s in zip(numbers, step, strict=True)]
        better = inf if moved is None else _misfit(shape, measured, sigmas, moved)
        if step is not None and moved is not None and better <= misfit:
            numbers, misfit, damping = moved, better, damping / 10
        else:
            damping = max(damping * 10, 1e-6)
        if step is not None and max(map(abs, step)) <= _NEAR * size:
            break
    return _finished(shape, measured, sigmas, numbers, misfit)


def _misfit(shape: Shape, measured: Sequence[float], sigmas: Sequence[float], numbers: Sequence[float]) -> float:
    lengths = shape.lengths(numbers)
    return sqrt(sum(((one - two) / s) ** 2 for one, two, s in zip(lengths, measured, sigmas, strict=True)))


def _step(
    shape: Shape, measured: Sequence[float], sigmas: Sequence[float], numbers: Sequence[float], damping: float
) -> Row | None:
    rows = shape.rows(numbers)
    wanted = [one - two for one, two in zip(measured, shape.lengths(numbers), strict=True)]
    matrix = _normal(rows, sigmas)
    right = [
        sum(row[i] * want / s**2 for row, want, s in zip(rows, wanted, sigmas, strict=True))
        for i in range(shape.numbers)
    ]
    for i in range(shape.numbers):
        matrix[i][i] *= 1 + damping
    return solved(matrix, right)


def _normal(rows: list[Row], sigmas: Sequence[float]) -> list[Row]:
    count = range(len(rows[0]))
    return [[sum(row[i] * row[j] / s**2 for row, s in zip(rows, sigmas, strict=True)) for j in count] for i in count]


def solved(matrix: list[Row], right: Row) -> Row | None:
    """The solution of a small set of linear equations, by elimination; None where there is not just one."""
    rows = [[*row, value] for row, value in zip(matrix, right, strict=True)]
    count = len(rows)
    scale = max((abs(value) for row in matrix for value in row), default=0.0)
    for column in range(count):
        pivot = max(range(column, count), key=lambda row: abs(rows[row][column]))
        if abs(rows[pivot][column]) <= 1e-14 * scale:
            return None
        rows[column], rows[pivot] = rows[pivot], rows[column]
        for row in range(column + 1, count):
            factor = rows[row][column] / rows[column][column]
            for place in range(column, count + 1):
                rows[row][place] -= factor * rows[column][place]
    found = [0.0] * count
    for row in reversed(range(count)):
        known = sum(rows[row][place] * found[place] for place in range(row + 1, count))
        found[row] = (rows[row][count] - known) / rows[row][row]
    return found


def _finished(
    shape: Shape, measured: Sequence[float], sigmas: Sequence[float], numbers: Row, misfit: float
) -> Adjusted:
    """The figure with its standard errors: the variance of a length is its row through the inverse of the equations."""
    rows = shape.rows(numbers)
    matrix = _normal(rows, sigmas)
    variances = []
    for row in rows:
        through = solved(matrix, row)
        if through is None:
            raise Singular
        variances.append(sum(one * two for one, two in zip(row, through, strict=True)))
    lengths = shape.lengths(numbers)
    return Adjusted(
        points=tuple(shape.points(numbers)),
        lengths=tuple(lengths),
        corrections=tuple(one - two for one, two in zip(lengths, measured, strict=True)),
        errors=tuple(sqrt(max(0.0, variance)) for variance in variances),
        shares=tuple(min(1.0, max(0.0, 1 - v / s**2)) for v, s in zip(variances, sigmas, strict=True)),
        sigmas=tuple(sigmas),
        misfit=misfit,
    )
