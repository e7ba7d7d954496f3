"""Wind on a wall that stands free, is on its way up, or leans on its braces.

Figures for information: a steady wind square to the wall, with the drag that stands beside each. Gusts, neighbouring
buildings and uplift are not thought of.
"""

from typing import Final

import msgspec

from wallwright.domain.members import Member
from wallwright.domain.outlines import Outline
from wallwright.domain.raising.weighing import Weight
from wallwright.domain.skin import Piece
from wallwright.domain.wall import Wall
from wallwright.lengths import FOOT
from wallwright.published.raising import STOP_WIND_MPH, pressure_psf, wind_mph

DRAG_SKINNED: Final = 1.3
"""Net force on a free-standing wall over the wind's pressure: from memory."""
DRAG_BARE: Final = 2.0
"""The same on the faces of an open frame's members: from memory."""
SHARE_OF_WEIGHT: Final = 0.5
"""A wall is not raised by hand where the wind on its face comes to this share of its own weight: a rule of this service."""
BY_HAND_MPH: Final = STOP_WIND_MPH - 5
"""No wall is raised by hand in more, however heavy: a rule of this service, since cranes are stopped at 25 mph."""
WINDS_MPH: Final = (15.0, 20.0, 25.0, 30.0)
"""Winds for which braces are told."""


class Sail(msgspec.Struct, frozen=True, gc=False):
    """What the wind takes hold of: drag times area in square feet, and that times the height of its middle in feet."""

    drag_area: float
    drag_moment: float


class Tipping(msgspec.Struct, frozen=True, gc=False):
    """Winds in miles an hour: in which the wall standing free tips, and past which it is not raised by hand."""

    tips_mph: float
    raise_below_mph: float


class WindRow(msgspec.Struct, frozen=True, gc=False):
    """What the most loaded brace carries in one wind, bare and skinned, level at its head and along it; in lb."""

    mph: float
    pressure_psf: float
    bare_level_lb: float
    bare_along_lb: float
    skinned_level_lb: float
    skinned_along_lb: float


def bare_sail(members: tuple[Member, ...]) -> Sail:
    """An open frame: every member's face for itself."""
    faces = []
    for member in members:
        if member.outline:
            faces.append(_face(member.outline))
        else:
            area = member.width * member.height
            faces.append((float(area), float(area) * (member.y + member.height / 2)))
    return _sail(faces, DRAG_BARE)


def skinned_sail(pieces: tuple[Piece, ...]) -> Sail:
    """The sheets above the plate's underside, openings left out."""
    faces = []
    for piece in pieces:
        area, moment = _face(piece.outline)
        for hole in piece.cut_outs:
            less, lower = _face(hole)
            area, moment = area - less, moment - lower
        xs, ys = [x for x, _ in piece.outline], [y for _, y in piece.outline]
        if min(ys) < 0:
            # No opening reaches below the plate, so that what hangs there is as wide as the piece.
            hangs = float(min(0, max(ys)) - min(ys)) * (max(xs) - min(xs))
            area, moment = area - hangs, moment - hangs * (min(ys) + min(0, max(ys))) / 2
        faces.append((area, moment))
    return _sail(faces, DRAG_SKINNED)


def _sail(faces: list[tuple[float, float]], drag: float) -> Sail:
    return Sail(drag * sum(area for area, _ in faces) / FOOT**2, drag * sum(moment for _, moment in faces) / FOOT**3)


def _face(outline: Outline) -> tuple[float, float]:
    """Area of an outline, and its moment about y = 0."""
    double_area = sixfold = 0
    for (x1, y1), (x2, y2) in zip(outline, (*outline[1:], outline[0]), strict=True):
        cross = x1 * y2 - x2 * y1
        double_area += cross
        sixfold += (y1 + y2) * cross
    way = -1 if double_area < 0 else 1
    return way * double_area / 2, way * sixfold / 6


def tipping(wall: Wall, weight: Weight, sail: Sail) -> Tipping:
    """The winds of a wall of this weight and sail; a wind tips it over the edge of its plate that its centre is nearer to."""
    arm = max(0, min(weight.centre.z, wall.depth - weight.centre.z)) / FOOT
    tips = wind_mph(weight.weight_lb * arm / sail.drag_moment)
    by_hand = wind_mph(SHARE_OF_WEIGHT * weight.weight_lb / sail.drag_area)
    return Tipping(tips, min(by_hand, BY_HAND_MPH))


def wind_rows(
    winds: tuple[float, ...], bare: Sail, skinned: Sail, share: float, up: int, along: float
) -> tuple[WindRow, ...]:
    """What a brace carries that holds a ``share`` of the wall at ``up`` (on the grid).

    ``along`` is the force along the brace for a level force of 1: the brace's length over its level reach.
    """
    rows = []
    for mph in winds:
        pressure = pressure_psf(mph)
        level = [pressure * sail.drag_moment * share / (up / FOOT) for sail in (bare, skinned)]
        rows.append(WindRow(mph, pressure, level[0], level[0] * along, level[1], level[1] * along))
    return tuple(rows)
