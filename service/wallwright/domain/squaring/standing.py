"""What a sheet laid on the frame and a plumb line beside the wall say of the same squareness."""

from math import atan, atan2, cos, degrees, hypot, sin, tan
from typing import Literal

import msgspec

from wallwright.published.tolerances import PLUMB, Tolerance
from wallwright.sources import Source

FrameCorner = Literal["bottom-left", "bottom-right", "top-right", "top-left"]


class Compared(msgspec.Struct, frozen=True):
    """A figure beside a tolerance: both lengths, and whether the figure keeps within it."""

    what: str
    value: int
    limit: int
    within: bool
    source: Source


def compared(what: str, value: int, limit: int, source: Source) -> Compared:
    """A length, whichever its sign, beside its limit."""
    return Compared(what, abs(value), limit, abs(value) <= limit, source)


class Sheet(msgspec.Struct, frozen=True, gc=False):
    """A sheet's factory corner laid in a corner of the frame, flush with one side and off the other by ``off``.

    ``off`` is read ``along`` from the corner: positive where the frame stands away outside the sheet's edge (its corner
    is open), negative where the sheet sticks out past the frame.
    """

    corner: FrameCorner
    along: int
    off: int


class SheetFigure(msgspec.Struct, frozen=True, gc=False):
    """What the sheet says: how far the frame leans to the right, and by how much the diagonals say more."""

    lean: int
    out_of_square_degrees: float
    diagonals_say_more: int


def by_sheet(sheet: Sheet, height: int, lean: int) -> SheetFigure:
    """How far a frame this high leans by the sheet, beside ``lean``, which its diagonals say.

    An open corner at the bottom left or at the top right leans the frame to the left, at the others to the right.
    """
    way = -1 if sheet.corner in ("bottom-left", "top-right") else 1
    angle = way * atan2(sheet.off, sheet.along)
    by = round(height * sin(angle))
    return SheetFigure(by, round(degrees(angle), 6), lean - by)


class Brace(msgspec.Struct, frozen=True, gc=False):
    """A brace inside: fixed ``up`` from the wall's foot, its own foot ``out`` from the wall's."""

    up: int
    out: int


class Plumb(msgspec.Struct, frozen=True, gc=False):
    """A plumb line's reading: over a plumb height ``over`` the wall stands ``offset`` out, away from the brace's side."""

    offset: int
    over: int
    brace: Brace | None = None


class PlumbFigure(msgspec.Struct, frozen=True):
    """How far the wall is out of plumb, and what brings it back.

    It ``leans`` out, away from the brace's side, or in, or not at all ("none"). ``brace_shorter`` is what the brace must be pulled in by; below 0 it must push. None without a brace.
    """

    out_of_plumb_degrees: float
    leans: str
    top: int
    brace_shorter: int | None
    compared: tuple[Compared, ...]


def by_plumb(plumb: Plumb, height: int) -> PlumbFigure:
    """What a wall this high needs to stand plumb, beside the published tolerances."""
    angle = atan(plumb.offset / plumb.over)
    rows = [_beside(plumb, tolerance) for tolerance in PLUMB]
    shorter = None
    if plumb.brace is not None:
        up, out = plumb.brace.up, plumb.brace.out
        shorter = round(hypot(out + up * sin(angle), up * cos(angle)) - hypot(out, up))
    leans = "out" if plumb.offset > 0 else "in" if plumb.offset < 0 else "none"
    return PlumbFigure(round(degrees(angle), 6), leans, round(height * tan(angle)), shorter, tuple(rows))


def _beside(plumb: Plumb, tolerance: Tolerance) -> Compared:
    return compared("out of plumb", plumb.offset, tolerance.across(plumb.over), tolerance.source)
