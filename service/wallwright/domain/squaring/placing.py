"""The rectangle wanted, laid on the deck as it is, and what every corner and edge of the deck then sticks out or lacks."""

from collections.abc import Sequence
from math import atan2, cos, degrees, sin
from typing import Final

import msgspec

from wallwright.domain.squaring.adjusting import Spot
from wallwright.domain.squaring.measured import Corners, on_grid
from wallwright.lengths import inches

NO_WORK: Final = inches("1/16")
"""An edge that is out by no more is left as it is: common practice, no source."""
_WAYS: Final = ((-1, -1), (1, -1), (1, 1), (-1, 1))
"""Outwards along width and depth, at the corners from the front left round."""
EDGES: Final = ("front", "right", "back", "left")
CORNERS: Final = ("front-left", "front-right", "back-right", "back-left")


class Overhang(msgspec.Struct, frozen=True, gc=False):
    """How far a corner of the deck lies outside the rectangle's corner, to its side and to front or back.

    Above 0 the deck sticks out past the framing line, below 0 it is short.
    """

    corner: str
    sideways: int
    endways: int


class EdgeWork(msgspec.Struct, frozen=True, gc=False):
    """How far an edge of the deck lies outside the framing line at its two corners, and what to do about it."""

    edge: str
    start_corner: str
    end_corner: str
    at_start: int
    at_end: int
    work: str


class Placing(msgspec.Struct, frozen=True):
    """The rectangle as it is to be snapped on the deck."""

    corners: Corners
    angle_degrees: float
    overhangs: tuple[Overhang, ...]
    edges: tuple[EdgeWork, ...]


def placed(deck: Sequence[Spot], width: int, depth: int) -> Placing:
    """The placing that makes the squared distances between the deck's and the rectangle's corners least in sum.

    Its middle lies on the middle of the deck's corners; its direction follows in closed form.
    """
    middle_x, middle_y = sum(x for x, _ in deck) / 4, sum(y for _, y in deck) / 4
    round_, along = 0.0, 0.0
    for (x, y), (sx, sy) in zip(deck, _WAYS, strict=True):
        px, py, rx, ry = x - middle_x, y - middle_y, sx * width / 2, sy * depth / 2
        round_ += rx * py - ry * px
        along += rx * px + ry * py
    angle = atan2(round_, along)
    across, up = cos(angle), sin(angle)
    corners = tuple(
        (
            middle_x + sx * width / 2 * across - sy * depth / 2 * up,
            middle_y + sx * width / 2 * up + sy * depth / 2 * across,
        )
        for sx, sy in _WAYS
    )
    overhangs = []
    for (x, y), (sx, sy), name in zip(deck, _WAYS, CORNERS, strict=True):
        px, py = x - middle_x, y - middle_y
        sideways = sx * (px * across + py * up) - width / 2
        endways = sy * (py * across - px * up) - depth / 2
        overhangs.append(Overhang(name, round(sideways), round(endways)))
    return Placing(on_grid(corners), round(degrees(angle), 6), tuple(overhangs), edges_of(overhangs))


def edges_of(overhangs: Sequence[Overhang]) -> tuple[EdgeWork, ...]:
    """Each edge from its two corners: between them the deck's edge is straight, so that it is furthest out at one."""
    found = []
    for number, edge in enumerate(EDGES):
        start, end = overhangs[number], overhangs[(number + 1) % 4]
        ends = (start.endways, end.endways) if edge in ("front", "back") else (start.sideways, end.sideways)
        found.append(EdgeWork(edge, start.corner, end.corner, *ends, _work(*ends)))
    return tuple(found)


def _work(one: int, other: int) -> str:
    """A proud edge stops a sheet that hangs past it and is trimmed; a short one leaves a gap behind it and is shimmed."""
    proud, short = max(one, other) > NO_WORK, min(one, other) < -NO_WORK
    if proud and short:
        return "trim-and-shim"
    return "trim" if proud else "shim" if short else "leave"
