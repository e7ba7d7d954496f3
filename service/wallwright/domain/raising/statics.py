"""Tilting a wall up about its bottom plate: what the hands carry at every angle, and what the plate must be held against.

The wall is taken as flat, turning about the underside of its bottom plate. Its thickness would take a little off the hands.
"""

from math import asin, atan, cos, degrees, radians, sin, sqrt
from typing import Final

import msgspec

STEP_DEGREES: Final = 5
_STEEPEST_THRUST: Final = atan(sqrt(2))
"""Where hands that walk in push the plate hardest: sin x sin x cos is greatest at 54.74 degrees."""


class Tilt(msgspec.Struct, frozen=True, gc=False):
    """A wall to be tilted: its weight in lb; on the grid how far up its centre and its top lie, and how high hands reach."""

    weight_lb: float
    centre: int
    top: int
    reach: int

    @property
    def first_lift(self) -> float:
        """The upright force in lb at the top edge; the same at every angle for hands that stay there and lift."""
        return max(0.0, self.weight_lb * self.centre / self.top)

    def hands_along(self, angle: float) -> float:
        """How far up the wall hands push that walk in under it, at an angle from the floor in degrees."""
        up = sin(radians(angle))
        return float(self.top) if up * self.top <= self.reach else self.reach / up

    def at_plate(self, angle: float) -> float:
        """The push in lb square to the wall with hands at its top, at an angle in degrees."""
        return self.first_lift * cos(radians(angle))

    def walking(self, angle: float) -> float:
        """The push in lb square to the wall of hands that walk in, at an angle in degrees."""
        return self.at_plate(angle) * self.top / self.hands_along(angle)

    def thrust(self, angle: float) -> float:
        """The level force in lb with which hands that walk in drive the plate along the floor, at an angle in degrees."""
        return self.walking(angle) * sin(radians(angle))

    @property
    def walks_from(self) -> float:
        """The angle in degrees from which hands leave the top edge; 90 where they reach it all the way."""
        return 90.0 if self.reach >= self.top else degrees(asin(self.reach / self.top))

    def hardest_push(self) -> float:
        """The angle in degrees at which hands that walk in push hardest: at the floor, or at 45."""
        return max((0.0, max(45.0, self.walks_from)), key=self.walking)

    def hardest_thrust(self) -> float:
        """The angle in degrees at which hands that walk in drive the plate along the floor hardest."""
        leaving = self.walks_from
        at_top = min(45.0, leaving)
        walking = max(degrees(_STEEPEST_THRUST), leaving)
        return max((at_top, walking), key=self.thrust)


class Force(msgspec.Struct, frozen=True, gc=False):
    """What one angle asks: the push at the plate, that of hands that walk in, and the thrust on the bottom plate, in lb."""

    at_plate_lb: float
    walking_lb: float
    thrust_lb: float


class CurvePoint(msgspec.Struct, frozen=True, gc=False):
    """One angle of the way up: where hands that walk in push, and the forces bare and skinned."""

    angle_degrees: int
    hands_along: int
    bare: Force
    skinned: Force


def forces(tilt: Tilt, angle: float) -> Force:
    """The forces at an angle in degrees; upright nothing is left, which floats would miss by a hair."""
    if angle == 90:
        return Force(0.0, 0.0, 0.0)
    return Force(tilt.at_plate(angle), tilt.walking(angle), tilt.thrust(angle))


def curve(bare: Tilt, skinned: Tilt) -> tuple[CurvePoint, ...]:
    """The forces from the floor to upright, every few degrees."""
    return tuple(
        CurvePoint(angle, round(bare.hands_along(angle)), forces(bare, angle), forces(skinned, angle))
        for angle in range(0, 91, STEP_DEGREES)
    )


def bearing(tilt: Tilt, angle: float) -> float:
    """The upright force in lb that is left on the bottom plate at an angle in degrees, hands walking in."""
    return tilt.weight_lb - tilt.walking(angle) * cos(radians(angle))
