"""The sheathing answer: pieces, seams, sheets, offcuts, blocking."""

from typing import Annotated

from msgspec import UNSET, Meta, UnsetType

from wallwright.wire.answers import Finding, Number, PointPair, Polygon, Tape
from wallwright.wire.base import Answer
from wallwright.wire.layout import Member
from wallwright.wire.wall import Wall


class CutLine(Answer, frozen=True):
    """A saw line on the sheet, from the sheet's own lower left corner, face side out."""

    start: PointPair
    end: PointPair
    tape: Annotated[list[str], Meta(description="Tape texts of start x, start y, end x, end y.")]


class Piece(Answer, frozen=True):
    """A piece of sheathing in wall coordinates."""

    id: str
    outline: Polygon
    cut_outs: list[Polygon]
    sheet: str
    on_sheet: Annotated[Polygon, Meta(description="The outline from the sheet's own lower left corner.")]
    cut_lines: list[CutLine]
    stage: Annotated[str, Meta(description="`before-raising` or `after-raising`.")]
    lap_side: Annotated[
        str,
        Meta(
            description="`left`, `right` or `top`: the side on which a shiplap edge runs on past the outline, under the "
            "next sheet. Empty where none does. The outline is the net cover; cut lines are those of the whole piece."
        ),
    ]
    lap_recut: Annotated[bool, Meta(description="Whether that lap is to be cut anew, the sheet's own being cut away.")]
    turned: (
        Annotated[
            bool,
            Meta(
                description="Only with `grain` free: whether the piece lies a quarter turned on its sheet. `on_sheet` and the "
                "cut lines show it as it lies there."
            ),
        ]
        | UnsetType
    ) = UNSET


class Seam(Answer, frozen=True):
    """Where two sheets meet: `before` and `after` are their edges, in x for an upright seam, in y for a level one."""

    id: str
    direction: str
    before: Number
    after: Number
    start: Number
    end: Number
    bearing_before: Number
    bearing_after: Number
    members: list[str]
    lap: Annotated[Number, Meta(description="How far one sheet runs on under the other; 0 between square edges.")]


class SheetUse(Answer, frozen=True):
    """One sheet, and the pieces cut from it."""

    id: str
    width: Number
    length: Number
    pieces: list[str]
    direction: Annotated[
        str,
        Meta(
            description="`upright` or `lying`: how it hangs. `on_sheet` and the cut lines are read from its lower left "
            "corner as it hangs, so that their first number runs along the width of an upright sheet, the length of a lying one."
        ),
    ]


class Offcut(Answer, frozen=True):
    """A rectangle that a sheet leaves over, from the sheet's lower left corner."""

    sheet: str
    left: Number
    bottom: Number
    width: Number
    height: Number
    size: Tape


class CutBack(Answer, frozen=True):
    """Where sheets are cut back to that go on before the cap plate: the line of the cap plate's upper side."""

    line: Annotated[list[PointPair], Meta(description="Points of the line along the face, from left to right.")]
    above_top_plate: Annotated[Number, Meta(description="How far plumb above the top plate the line runs.")]
    above_top_plate_tape: Tape
    above_foot: Annotated[Number, Meta(description="How far above the sheets' foot the line runs at its lowest.")]
    above_foot_tape: Tape


class SheathingAnswer(Answer, frozen=True):
    """A wall skinned."""

    wall: Wall
    pieces: list[Piece]
    seams: list[Seam]
    sheets: list[SheetUse]
    offcuts: list[Offcut]
    blocking: list[Member]
    findings: list[Finding]
    cut_back: Annotated[CutBack, Meta(description="Only where the wall has a cap plate.")] | UnsetType = UNSET
    least_sheets: (
        Annotated[int, Meta(description="Only where offcuts are reused: how many sheets these pieces take at least.")]
        | UnsetType
    ) = UNSET
    proven: (
        Annotated[
            bool,
            Meta(
                description="Only where offcuts are reused: whether as many sheets are used as these pieces take at least."
            ),
        ]
        | UnsetType
    ) = UNSET
