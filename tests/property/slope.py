"""A sloped top reckoned apart from the service: heights at x by fractions, plumb thickness by a float root."""

from fractions import Fraction
from math import hypot

from wallwright.domain.wall import Wall


def slope(wall: Wall) -> Fraction:
    """Rise over run."""
    return Fraction(wall.top.rise, wall.top.run)


def ridge_of(wall: Wall) -> Fraction:
    """x of a gable's ridge."""
    return Fraction(wall.length, 2) if wall.top.ridge is None else Fraction(wall.top.ridge)


def top_at(wall: Wall, x: int | Fraction) -> Fraction:
    """The top of the uppermost plate at x: ``height`` at a rake's low end, or at a gable's lower eaves."""
    if wall.top.shape == "level":
        return Fraction(wall.height)
    if wall.top.shape == "rake":
        return wall.height + slope(wall) * (x if wall.top.up == "right" else wall.length - x)
    ridge = ridge_of(wall)
    return wall.height + slope(wall) * (max(ridge, wall.length - ridge) - abs(x - ridge))


def crests(wall: Wall, left: int, right: int) -> list[Fraction]:
    """x of a ridge between two x."""
    return [ridge_of(wall)] if wall.top.shape == "gable" and left < ridge_of(wall) < right else []


def stretched(wall: Wall) -> float:
    """The length on the slope over a level length of 1; also what a plate's thickness of 1 takes plumb."""
    return hypot(1, float(slope(wall)))


def soffit_at(wall: Wall, x: int | Fraction) -> float:
    """The underside of the top plates at x."""
    return float(top_at(wall, x)) - wall.plates.top * wall.stud.thickness * stretched(wall)
