"""A framed wall lying on the deck, squared by its diagonals before it is raised.

Seen from outside as it lies: bottom plate at the foot, ``rising`` from the bottom left corner to the top right,
``falling`` from the top left to the bottom right.
"""

from math import asin, ceil, degrees, floor, hypot, sqrt
from typing import Final

import msgspec

from wallwright.domain.squaring.adjusting import PARALLELOGRAM, Adjusted, Spot, adjust
from wallwright.domain.squaring.doubt import Consistency, consistency
from wallwright.domain.squaring.measured import CornerFigure, Measurement, TapeUse, Triangle, measurements
from wallwright.domain.squaring.notes import frame_findings
from wallwright.domain.squaring.quadrilateral import corner_degrees, fitted
from wallwright.domain.squaring.standing import (
    Compared,
    Plumb,
    PlumbFigure,
    Sheet,
    SheetFigure,
    by_plumb,
    by_sheet,
    compared,
)
from wallwright.findings import Fault, Finding, PlanRefused
from wallwright.lengths import MILLIMETRE, SIXTEENTH, inches, round_nearest
from wallwright.published import tolerances
from wallwright.sources import COMMON_PRACTICE, Source

CORNERS: Final = ("bottom-left", "bottom-right", "top-right", "top-left")
NOT_LEVEL: Final = inches("1")
"""Right and left side further apart than this, with a top plate as long as that slope: a frame of a rake, which no tape
explains (common practice, no source)."""
SMALL_FRAME: Final = inches("1/8")
"""Difference of the diagonals that a careful framer takes on a small wall: common practice, no source."""
_MOST_TRIANGLES: Final = 6


class Frame(msgspec.Struct, frozen=True):
    """What was measured of a frame. ``top`` and ``right`` are None where only one of each two opposite sides was."""

    width: int
    height: int
    rising: int
    falling: int
    tolerance: int
    top: int | None = None
    right: int | None = None
    tape: TapeUse = TapeUse()
    sheet: Sheet | None = None
    plumb: Plumb | None = None
    name: str = ""

    @property
    def names(self) -> tuple[str, ...]:
        """The measurements in the order of the figure's lines."""
        if self.top is None or self.right is None:
            return ("width", "height", "rising", "falling")
        return ("width", "right", "top", "height", "rising", "falling")

    @property
    def lengths(self) -> tuple[int, ...]:
        """The measured lengths in the order of `names`."""
        return tuple(getattr(self, name) for name in self.names)

    @property
    def far_sides(self) -> tuple[int, int]:
        """Top and right side, taken to be as their opposites where they were not measured."""
        if self.top is None or self.right is None:
            return self.width, self.height
        return self.top, self.right


class Squared(msgspec.Struct, frozen=True):
    """What the measurements say. Lengths are on the grid; ``lean`` and the degrees are positive to the right."""

    frame: Frame
    diagonal: int
    difference: int
    lean: int
    out_of_square_degrees: float
    verdict: str
    rack_until: int | None
    shorten: str
    shorten_by: int
    push: int
    push_corner: str
    push_direction: str
    measurements: tuple[Measurement, ...]
    consistency: Consistency
    corners: tuple[CornerFigure, ...]
    compared: tuple[Compared, ...]
    triangles: tuple[Triangle, ...]
    sheet: SheetFigure | None
    plumb: PlumbFigure | None
    findings: tuple[Finding, ...]


def default_tolerance(width: int, height: int) -> int:
    """The difference of the diagonals that is let pass: the published tolerance of layout for the longer side.

    That it is taken for the difference of diagonals is common practice; no publication names one.
    """
    return tolerances.layout(max(width, height)).deviation


def square(frame: Frame, triangle_step: int, small_step: int, reading: int = SIXTEENTH) -> Squared:
    """Square a frame. The steps are those of the 3-4-5 triangles and of reading a tape, in grid units. Raises PlanRefused.

    What both diagonals are to read while racking is the longer one less what it is shortened by, each as it is read, so
    that the three figures agree on a tape; the sides alone may say a little else.
    """
    faults = _impossible(frame)
    if faults:
        raise PlanRefused(tuple(faults))
    fit = _fit(frame)
    told = (len(frame.names) - 2, len(frame.names) - 1)
    pairs = (told,) if len(frame.names) == 4 else (told, (0, 2), (1, 3))
    closing = consistency(frame.names, frame.lengths, fit, pairs, told)
    lean = ((fit.points[3][0] - fit.points[0][0]) + (fit.points[2][0] - fit.points[1][0])) / 2
    side = hypot(fit.points[3][0] - fit.points[0][0], fit.points[3][1] - fit.points[0][1])
    difference = frame.rising - frame.falling
    verdict = _verdict(frame, closing)
    # Nobody is told where to push while the lengths contradict one another, or where squaring is not a matter of pushing.
    out = difference if verdict in ("square", "rack") else 0
    shorten = "rising" if out > 0 else "falling" if out < 0 else "none"
    leans = round(lean)
    sheet = None if frame.sheet is None else by_sheet(frame.sheet, frame.height, leans)
    plumb = None if frame.plumb is None else by_plumb(frame.plumb, frame.height)
    diagonal = _diagonal(frame)
    longer = max(frame.rising, frame.falling)
    until = round_nearest(longer, reading) - round_nearest(abs(out) // 2, reading) if verdict == "rack" else None
    return Squared(
        frame, diagonal, difference, leans, round(degrees(asin(max(-1.0, min(1.0, lean / side)))), 6), verdict, until,
        shorten, abs(out) // 2, abs(leans) if out else 0, *_push(out),
        measurements(frame.names, frame.lengths, frame.tape, fit), closing, _corners(fit.points),
        _compared(frame, difference), triangles(frame.width, frame.height, triangle_step, small_step), sheet, plumb,
        frame_findings(frame, verdict, difference, leans, closing, sheet, plumb),
    )  # fmt: skip


def _diagonal(frame: Frame) -> int:
    """What both diagonals read on a square frame; of unequal opposite sides the mean of their squares is taken."""
    top, right = frame.far_sides
    return round(sqrt((frame.width**2 + top**2 + frame.height**2 + right**2) / 2))


def _impossible(frame: Frame) -> list[Fault]:
    """Diagonals that no frame of these sides has whose corners are all within 45 degrees of square."""
    top, right = frame.far_sides
    joined = {
        "rising": ((frame.width, right), (frame.height, top)),
        "falling": ((frame.width, frame.height), (top, right)),
    }
    faults = []
    for name, couples in joined.items():
        given: int = getattr(frame, name)
        # A millimetre is kept back, so that the figures told work as they are read from a tape.
        least = max(ceil(sqrt(a * a + b * b - sqrt(2) * a * b)) for a, b in couples) + MILLIMETRE
        most = min(floor(sqrt(a * a + b * b + sqrt(2) * a * b)) for a, b in couples) - MILLIMETRE
        if least > most:
            faults.append(Fault("sides-fit-no-frame", "/top", (("given", top), ("nearest", frame.width))))
            break
        if not least <= given <= most:
            nearest = least if given < least else most
            values = (("given", given), ("least", least), ("most", most), ("nearest", nearest))
            faults.append(Fault("diagonal-impossible", f"/{name}", values))
    return faults


def _fit(frame: Frame) -> Adjusted:
    """The parallelogram, or with four sides measured the quadrilateral, that fits best."""
    sigmas = [frame.tape.sigma(length) for length in frame.lengths]
    if len(frame.names) == 4:
        lean = (frame.rising**2 - frame.falling**2) / (4 * frame.width)
        upright = sqrt(max(frame.height**2 - lean**2, frame.height**2 / 4))
        return adjust(PARALLELOGRAM, frame.lengths, sigmas, (frame.width, lean, upright))
    fit = fitted(frame.lengths, sigmas)
    if fit is None:
        raise ValueError("a frame whose corners are within 45 degrees of square has a figure")
    return fit


def _verdict(frame: Frame, closing: Consistency) -> str:
    top, right = frame.far_sides
    if abs(frame.height - right) > NOT_LEVEL and abs(top - hypot(frame.width, right - frame.height)) <= frame.tolerance:
        return "not-level"
    if not closing.explained:
        return "measure-again"
    if max(abs(frame.width - top), abs(frame.height - right)) > frame.tolerance:
        return "recut"
    return "square" if abs(frame.rising - frame.falling) <= frame.tolerance else "rack"


def _push(difference: int) -> tuple[str, str]:
    """At which top corner to push, and which way: the end of the longer diagonal, towards the other side."""
    if difference == 0:
        return "none", "none"
    return ("top-right", "left") if difference > 0 else ("top-left", "right")


def _corners(points: tuple[Spot, ...]) -> tuple[CornerFigure, ...]:
    return tuple(
        CornerFigure(name, round(x), round(y), round(angle, 6))
        for name, (x, y), angle in zip(CORNERS, points, corner_degrees(points), strict=True)
    )


def _compared(frame: Frame, difference: int) -> tuple[Compared, ...]:
    """The difference of the diagonals beside the tolerance used, the published one, practice, and the reading."""
    published = tolerances.layout(max(frame.width, frame.height))
    what = "difference of the diagonals"
    used = Source("the frame's tolerance", "", "its default is published for layout, for diagonals common practice")
    rows = [compared(what, difference, frame.tolerance, used)]
    rows.append(compared(what, difference, published.deviation, published.source))
    rows.append(compared(f"{what}, small wall", difference, SMALL_FRAME, COMMON_PRACTICE))
    reading = Source("reading both diagonals from one tape", "", "common practice, no source")
    rows.append(compared(what, difference, 2 * frame.tape.reading, reading))
    return tuple(rows)


def triangles(width: int, height: int, step: int, small: int) -> tuple[Triangle, ...]:
    """The largest 3-4-5 triangles in whole steps that fit in a frame, either leg along the foot; small ones if need be."""
    for unit in (step, small):
        found = [
            Triangle(along * k * unit, up * k * unit, 5 * k * unit)
            for along, up in ((4, 3), (3, 4))
            for k in range(1, min(width // (along * unit), height // (up * unit)) + 1)
        ]
        if found:
            found.sort(key=lambda triangle: (-triangle.across, -triangle.along))
            return tuple(found[:_MOST_TRIANGLES])
    return ()
