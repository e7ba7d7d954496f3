"""What was measured, with which tape, and what the adjustment made of it."""

from math import sqrt

import msgspec

from wallwright.domain import defaults
from wallwright.domain.squaring.adjusting import Adjusted, Spot
from wallwright.published.tape_measures import TapeClass, permissible_error

Corners = tuple[tuple[int, int], ...]


class TapeUse(msgspec.Struct, frozen=True, gc=False):
    """The tape that took all the lengths: its class, whether its hook or end was one end, how near it was read."""

    tape_class: TapeClass = defaults.TAPE_CLASS
    hooked: bool = defaults.TAPE_HOOKED
    reading: int = defaults.TAPE_READING

    def permissible(self, length: int) -> int:
        """The most that the tape may err over a length by its class."""
        return permissible_error(self.tape_class, length, hooked=self.hooked)

    def sigma(self, length: int) -> float:
        """The standard error of a measured length, in grid units.

        The tape's permissible error and the reading are both limits with nothing known between them, whose standard
        error is the limit by the root of three (JCGM 100:2008, 4.3.7, from memory).
        """
        return sqrt((self.permissible(length) ** 2 + self.reading**2) / 3)


class Measurement(msgspec.Struct, frozen=True, gc=False):
    """One measured length beside its adjusted value; ``residual`` is adjusted less measured."""

    name: str
    measured: int
    permissible_error: int
    adjusted: int
    residual: int
    standard_error: int


class CornerFigure(msgspec.Struct, frozen=True, gc=False):
    """One corner as adjusted: its place, and the angle inside in degrees."""

    corner: str
    x: int
    y: int
    degrees: float


class Triangle(msgspec.Struct, frozen=True, gc=False):
    """A 3-4-5 triangle that fits: legs along the foot and up the side, and what the tape reads across."""

    along: int
    up: int
    across: int


def measurements(
    names: tuple[str, ...], lengths: tuple[int, ...], tape: TapeUse, fit: Adjusted
) -> tuple[Measurement, ...]:
    """Every measured length beside its adjusted value, on the grid."""
    found = []
    for name, length, adjusted, error in zip(names, lengths, fit.lengths, fit.errors, strict=True):
        on_grid = round(adjusted)
        found.append(Measurement(name, length, tape.permissible(length), on_grid, on_grid - length, round(error)))
    return tuple(found)


def on_grid(points: tuple[Spot, ...]) -> Corners:
    """Points at the nearest grid units."""
    return tuple((round(x), round(y)) for x, y in points)
