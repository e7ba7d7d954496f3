"""What a roof makes of the four walls: how high each stands, what top it has, and which carry the load.

The roof line is the rafters' underside. It touches the top of a low or eaves wall at its inner face and
that of a high wall at its outer face, and runs along the tops of rakes and gables; a level wall stands
above it by no more than the seat that the rafters are notched to.
"""

from typing import Literal

import msgspec

from wallwright.domain.slopes import Line
from wallwright.domain.wall import Side, Top

SideName = Literal["front", "right", "back", "left"]
Direction = Literal["width", "depth"]
OPPOSITE: dict[SideName, SideName] = {"front": "back", "back": "front", "left": "right", "right": "left"}


class Roof(msgspec.Struct, frozen=True, gc=False):
    """What the walls carry. A slope is ``rise`` in ``run``.

    ``spans`` is the way a flat roof's joists run, None the shorter side; ``high_side`` a lean-to's high wall;
    ``ridge_along`` the way a gable's ridge runs, None the longer side, and ``ridge`` what holds it up.
    """

    shape: Literal["flat", "lean-to", "gable"] = "flat"
    spans: Direction | None = None
    rise: int = 0
    run: int = 1
    high_side: SideName = "front"
    ridge_along: Direction | None = None
    ridge: Literal["ties", "beam"] = "ties"


class Standing(msgspec.Struct, frozen=True, gc=False):
    """How one wall stands under the roof: its height, its top, and whether it carries the roof."""

    height: int
    top: Top
    bears: bool


class Under(msgspec.Struct, frozen=True):
    """A roof over a footprint: ``depths`` are the four walls' own, ``starts`` and ``ends`` how far each plate
    begins and stops short of the building's corners at its left and at its right."""

    roof: Roof
    width: int
    depth: int
    wall_height: int
    depths: dict[SideName, int]
    starts: dict[SideName, int]
    ends: dict[SideName, int]

    @property
    def spans(self) -> Direction:
        """The way that rafters or joists run: as asked, else over the shorter side; over the depth on a square."""
        roof = self.roof
        if roof.shape == "lean-to":
            return "depth" if roof.high_side in ("front", "back") else "width"
        if roof.shape == "gable":
            longer: Direction = "depth" if self.width < self.depth else "width"
            return "width" if (roof.ridge_along or longer) == "depth" else "depth"
        return roof.spans or ("width" if self.width < self.depth else "depth")

    @property
    def span(self) -> int:
        """Out to out along the span, over the framing."""
        return self.width if self.spans == "width" else self.depth

    @property
    def bearing(self) -> tuple[SideName, SideName]:
        """The two walls that rafters or joists rest on."""
        return ("left", "right") if self.spans == "width" else ("front", "back")

    @property
    def line(self) -> Line:
        """The roof line, by the distance from the outer face of the low or eaves wall."""
        roof = self.roof
        if roof.shape == "lean-to":
            inner = self.depths[OPPOSITE[roof.high_side]]
        else:
            # Of eaves walls of two depths the deeper stands higher, so that the line touches both.
            inner = min(self.depths[side] for side in self.bearing)
        return Line(self.wall_height * roof.run - roof.rise * inner, roof.rise, roof.run)

    @property
    def peak(self) -> int:
        """The highest point of the roof line over the framing."""
        if self.roof.shape == "flat":
            return self.wall_height
        return self.line.at(self.span if self.roof.shape == "lean-to" else (self.span + 1) // 2)

    @property
    def eave_to_ridge(self) -> int:
        """How far the roof rises over the framing, from its low or eaves wall's outer face; overhangs are not known."""
        roof = self.roof
        if roof.shape == "flat":
            return 0
        across = self.span if roof.shape == "lean-to" else (self.span + 1) // 2
        return -(-across * roof.rise // roof.run)

    def standing(self, side: SideName, left_met: SideName) -> Standing:
        """How one wall stands; ``left_met`` is the wall at its left end as seen from outside."""
        roof, line = self.roof, self.line
        if roof.shape == "flat":
            return Standing(self.wall_height, Top(), side in self.bearing)
        if side in self.bearing:
            high = roof.shape == "lean-to" and side == roof.high_side
            return Standing(line.at(self.span if high else self.depths[side]), Top(), True)
        start, end = self.starts[side], self.ends[side]
        if roof.shape == "lean-to":
            up: Side = "left" if left_met == roof.high_side else "right"
            return Standing(line.at(end if up == "left" else start), Top("rake", roof.rise, roof.run, up), False)
        ridge = self.span // 2 - start
        return Standing(line.at(min(start, end)), Top("gable", roof.rise, roof.run, ridge=ridge), False)
