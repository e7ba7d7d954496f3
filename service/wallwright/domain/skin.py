"""What a skinned wall is made of: seams, pieces, sheets and offcuts."""

from typing import Literal

import msgspec

from wallwright.domain.members import Member, Point
from wallwright.domain.wall import Wall
from wallwright.findings import Finding

Outline = tuple[Point, ...]
Line = tuple[Point, Point]


class Seam(msgspec.Struct, frozen=True, gc=False):
    """Where two sheets meet. An upright seam has its two edges in x, a level one in y.

    ``bearing_before`` and ``bearing_after`` are the solid timber behind the sheet on the left (or below)
    and on the right (or above), the least over the seam's height; ``members`` carry it.
    """

    id: str
    direction: Literal["upright", "level"]
    before: int
    after: int
    start: int
    end: int
    bearing_before: int
    bearing_after: int
    members: tuple[str, ...]
    lap: int = 0
    """How far the sheet on the one side runs on under the other, from its own edge; 0 between square edges."""


class Piece(msgspec.Struct, frozen=True, gc=False):
    """A piece of sheathing in wall coordinates, and how it lies on the sheet that it is cut from.

    ``on_sheet`` is the outline from the sheet's own lower left corner as it hangs, face side out; ``cut_lines`` are the
    saw's lines on the sheet, the edges that are not the sheet's own.
    """

    id: str
    outline: Outline
    cut_outs: tuple[Outline, ...]
    sheet: str
    on_sheet: Outline
    cut_lines: tuple[Line, ...]
    stage: str
    """``before-raising`` or ``after-raising``."""
    lap_side: Literal["", "left", "right", "top"] = ""
    """The side on which a shiplap edge runs on past the outline, under the next sheet; empty where none does."""
    lap_recut: bool = False
    """Whether that lap has to be cut anew, since the sheet's own is cut away."""
    turned: bool = False
    """Whether it lies on its sheet a quarter turned, across the way of the sheet's grain."""


class SheetUse(msgspec.Struct, frozen=True, gc=False):
    """One sheet to be had, and the pieces that are cut from it."""

    id: str
    width: int
    length: int
    pieces: tuple[str, ...]
    direction: Literal["upright", "lying"] = "upright"
    """How it hangs: the first axis of `Piece.on_sheet` runs along the width of an upright sheet, the length of a lying one."""


class Offcut(msgspec.Struct, frozen=True, gc=False):
    """What a sheet leaves over: a rectangle on the sheet."""

    sheet: str
    left: int
    bottom: int
    width: int
    height: int


class CutBack(msgspec.Struct, frozen=True):
    """The line to which sheets are cut back that go on before the cap plate does: the cap's upper side."""

    line: Outline
    """Along the face from left to right, with its crest where the top is a gable."""
    above_top_plate: int
    """How far plumb above the top plate the line runs: what the cap plate takes."""
    above_foot: int
    """How far above the sheets' foot the line runs at its lowest."""


class Skin(msgspec.Struct, frozen=True):
    """A wall skinned. ``blocking`` are members of the layout too."""

    wall: Wall
    pieces: tuple[Piece, ...]
    seams: tuple[Seam, ...]
    sheets: tuple[SheetUse, ...]
    offcuts: tuple[Offcut, ...]
    blocking: tuple[Member, ...]
    findings: tuple[Finding, ...]
    cut_back: CutBack | None = None
    """None where there is no cap plate."""
    least_sheets: int | None = None
    """How many sheets the pieces take at least, however they are cut; None where offcuts are not reused."""

    @property
    def proven(self) -> bool | None:
        """Whether no fewer sheets can do; None where offcuts are not reused."""
        return None if self.least_sheets is None else len(self.sheets) == self.least_sheets
