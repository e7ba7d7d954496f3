"""Squaring: a measured frame and a measured deck, and what the measurements say."""

from typing import Annotated

from msgspec import UNSET, Meta, UnsetType

from wallwright.wire.answers import Finding, Number, PointPair, Polygon, Tape
from wallwright.wire.base import Answer
from wallwright.wire.squaring_asked import Deck, Frame

Degrees = Annotated[float, Meta(description="In degrees.")]


class Measurement(Answer, frozen=True):
    """One measured length beside its adjusted value; `residual` is adjusted less measured."""

    name: str
    measured: Number
    permissible_error: Annotated[Number, Meta(description="By the tape's class.")]
    adjusted: Number
    residual: Number
    standard_error: Annotated[Number, Meta(description="Of the adjusted length.")]


class Suspect(Answer, frozen=True):
    """A measurement that alone would explain the contradiction: what to add, and what it would then read."""

    name: str
    by: Number
    reads: Number
    reads_tape: Tape


class Consistency(Answer, frozen=True):
    """How far the lengths contradict one another: `contradiction` is how much too long both diagonals of a frame are
    for its sides, of a deck the least change of one length that closes it."""

    contradiction: Number
    explained_by_tape: Number
    statistic: Annotated[float, Meta(description="The contradiction in standard errors.")]
    limit: float
    explained: bool
    suspects: Annotated[list[Suspect], Meta(description="The likeliest first; empty where the tape explains it.")]


class CornerFigure(Answer, frozen=True):
    """A corner as adjusted."""

    corner: str
    x: Number
    y: Number
    degrees: Annotated[Degrees, Meta(description="The angle inside.")]


class ToleranceCompared(Answer, frozen=True):
    """A figure beside a tolerance."""

    what: str
    value: Number
    limit: Number
    within: bool
    source: str


class Triangle(Answer, frozen=True):
    """A 3-4-5 triangle that fits on the frame."""

    along: Number
    up: Number
    across: Number
    across_tape: Tape


class SheetFigure(Answer, frozen=True):
    """What the sheet says."""

    lean: Number
    out_of_square_degrees: Degrees
    diagonals_say_more: Number


class PlumbFigure(Answer, frozen=True):
    """How far the wall is out of plumb; `brace_shorter` below 0 is what the brace must push."""

    out_of_plumb_degrees: Degrees
    leans: Annotated[str, Meta(description="`out`, away from the brace's side, `in` or `none`.")]
    top: Annotated[Number, Meta(description="How far out the top stands.")]
    top_tape: Tape
    compared: list[ToleranceCompared]
    brace_shorter: Number | UnsetType = UNSET


class FrameAnswer(Answer, frozen=True, kw_only=True):
    """A frame squared. `lean` and `out_of_square_degrees` are above 0 where the top stands to the right."""

    frame: Frame
    diagonal: Annotated[Number, Meta(description="What both diagonals should read.")]
    diagonal_tape: Tape
    difference: Annotated[Number, Meta(description="Rising less falling.")]
    lean: Number
    lean_tape: Tape
    out_of_square_degrees: Degrees
    verdict: Annotated[
        str, Meta(description="`square`, `rack`, `measure-again`, `recut` or `not-level`; more may come.")
    ]
    rack_until: Annotated[Number, Meta(description="What both diagonals read once it is racked.")] | UnsetType = UNSET
    rack_until_tape: Tape | UnsetType = UNSET
    shorten: Annotated[str, Meta(description="`rising`, `falling` or `none`: where nothing is to be pushed.")]
    shorten_by: Number
    push: Annotated[Number, Meta(description="How far the top plate is pushed.")]
    push_tape: Tape
    push_corner: Annotated[str, Meta(description="`top-left`, `top-right` or `none`.")]
    push_direction: Annotated[str, Meta(description="`left`, `right` or `none`.")]
    measurements: list[Measurement]
    consistency: Consistency
    corners: list[CornerFigure]
    compared: list[ToleranceCompared]
    triangles: list[Triangle]
    sheet: SheetFigure | UnsetType = UNSET
    plumb: PlumbFigure | UnsetType = UNSET
    findings: list[Finding]


class SideFigures(Answer, frozen=True):
    """One figure for each side."""

    front: Number
    right: Number
    back: Number
    left: Number


class DiagonalFigures(Answer, frozen=True):
    """One figure for each diagonal."""

    front_left_to_back_right: Number
    front_right_to_back_left: Number


class LengthFigures(Answer, frozen=True):
    """One figure for each measured length."""

    sides: SideFigures
    diagonals: DiagonalFigures


class LargestRectangle(Answer, frozen=True):
    """The largest rectangle that lies wholly on the deck."""

    width: Number
    width_tape: Tape
    depth: Number
    depth_tape: Tape
    corners: Polygon
    angle_degrees: Degrees


class Overhang(Answer, frozen=True):
    """How far a deck's corner lies outside the rectangle's: above 0 proud, below 0 short."""

    corner: str
    sideways: Annotated[Number, Meta(description="To the left or right.")]
    sideways_tape: Tape
    endways: Annotated[Number, Meta(description="To front or back.")]
    endways_tape: Tape


class EdgeWork(Answer, frozen=True):
    """How far an edge lies outside the framing line at its corners, and what to do."""

    edge: str
    start_corner: str
    end_corner: str
    at_start: Number
    at_end: Number
    work: Annotated[str, Meta(description="`leave`, `trim`, `shim` or `trim-and-shim`; more may come.")]


class Shift(Answer, frozen=True):
    """The wanted rectangle moved so that the fewest edges are trimmed, where sheets hang past the plates all around."""

    right: Annotated[Number, Meta(description="Below 0 to the left.")]
    back: Annotated[Number, Meta(description="Below 0 to the front.")]
    overhangs: list[Overhang]
    edges: list[EdgeWork]


class Placing(Answer, frozen=True):
    """The wanted rectangle where it fits the deck's corners best."""

    corners: Annotated[list[PointPair], Meta(description="From the front left, counter-clockwise.")]
    angle_degrees: Degrees
    overhangs: list[Overhang]
    edges: list[EdgeWork]


class DeckAnswer(Answer, frozen=True, kw_only=True):
    """A deck adjusted. The front left corner is the origin, the front runs along x, y to the back."""

    deck: Deck
    corners: list[CornerFigure]
    adjusted: LengthFigures
    residuals: Annotated[LengthFigures, Meta(description="Adjusted less measured.")]
    standard_errors: LengthFigures
    permissible_errors: LengthFigures
    consistency: Consistency
    largest_rectangle: LargestRectangle
    placing: Placing | UnsetType = UNSET
    shift: Shift | UnsetType = UNSET
    compared: list[ToleranceCompared]
    rise: Annotated[Number, Meta(description="Highest corner above the lowest.")] | UnsetType = UNSET
    findings: list[Finding]
