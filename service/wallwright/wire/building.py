"""The Building: a footprint and what its walls share, and the answer with four complete walls."""

from typing import Annotated, Literal

from msgspec import UNSET, Meta, UnsetType

from wallwright.wire.answers import Finding, Number, Tape
from wallwright.wire.base import Answer, Extent, Length, Name, Request, Units
from wallwright.wire.fasteners import FastenersAnswer
from wallwright.wire.fasteners import Total as FastenerTotal
from wallwright.wire.layout import LayoutAnswer
from wallwright.wire.limits import SLOPE_MAX
from wallwright.wire.openings import Openings, Partitions, Runs
from wallwright.wire.raising import RaisingAnswer
from wallwright.wire.sheathing import SheathingAnswer
from wallwright.wire.squaring import EdgeWork, Overhang
from wallwright.wire.squaring_asked import DeckDiagonals, DeckLevels, DeckSides, TapeFields
from wallwright.wire.wall import Carries, Common, Post, Wall

SideName = Literal["front", "right", "back", "left"]
Direction = Literal["width", "depth"]


class Footprint(Request, frozen=True, kw_only=True):
    """The building's size out to out: `width` along the front, `depth` along the sides."""

    width: Length
    depth: Length
    measured_to: (
        Annotated[
            Literal["framing", "sheathing"],
            Meta(description="Default `framing`; `sheathing` is the framing plus a sheet at each side."),
        ]
        | UnsetType
    ) = UNSET


class Roof(Request, frozen=True):
    """The roof's shape: only the walls' tops and what they carry follow from it. A slope is `rise` in `run`."""

    shape: Literal["flat", "lean-to", "gable"] | UnsetType = UNSET
    rise: (
        Annotated[
            float, Meta(ge=0, le=SLOPE_MAX, description="Needed for a lean-to or a gable; at most twice the run.")
        ]
        | UnsetType
    ) = UNSET
    run: Annotated[float, Meta(gt=0, le=SLOPE_MAX, description="Default 12.")] | UnsetType = UNSET
    spans: (
        Annotated[Direction, Meta(description="The way a flat roof's joists run; default the shorter side.")]
        | UnsetType
    ) = UNSET
    high_side: Annotated[SideName, Meta(description="A lean-to's high wall; default front.")] | UnsetType = UNSET
    ridge_along: (
        Annotated[Direction, Meta(description="The way a gable's ridge runs; default the longer side.")] | UnsetType
    ) = UNSET
    ridge: (
        Annotated[Literal["ties", "beam"], Meta(description="What holds a gable's ridge; default ties.")] | UnsetType
    ) = UNSET


class SideEnd(Request, frozen=True):
    """What can be asked of one end of a building's wall; laps follow from the corners."""

    post: Post | UnsetType = UNSET


class SideEnds(Request, frozen=True):
    """Both ends of a building's wall, as seen from outside."""

    left: SideEnd | UnsetType = UNSET
    right: SideEnd | UnsetType = UNSET


class SideOptions(Common, frozen=True):
    """What one wall has of its own; anything here overrides the building's."""

    name: Name | UnsetType = UNSET
    ends: SideEnds | UnsetType = UNSET
    openings: Openings | UnsetType = UNSET
    partitions: Partitions | UnsetType = UNSET
    runs: Runs | UnsetType = UNSET
    carries: Carries | UnsetType = UNSET


class Sides(Request, frozen=True):
    """The four walls, each seen from outside."""

    front: SideOptions | UnsetType = UNSET
    right: SideOptions | UnsetType = UNSET
    back: SideOptions | UnsetType = UNSET
    left: SideOptions | UnsetType = UNSET


class BuildingDeck(TapeFields, frozen=True, kw_only=True):
    """The deck or slab as it was measured, seen from above with the front at the foot."""

    sides: Annotated[DeckSides, Meta(description="Corner to corner.")]
    diagonals: Annotated[DeckDiagonals, Meta(description="Corner to corner.")]
    levels: Annotated[DeckLevels, Meta(description="Default none, then not looked at.")] | UnsetType = UNSET


Part = Literal["layout", "sheathing", "raising", "fasteners"]


class Building(Common, frozen=True, kw_only=True):
    """A building. Every field of a wall that makes sense for all four is a default for its walls."""

    units: Units
    footprint: Footprint
    wall_height: Annotated[Length, Meta(description="Of all walls; under a slope that of the low or eaves wall.")]
    name: Name | UnsetType = UNSET
    roof: Roof | UnsetType = UNSET
    slip_gap: Annotated[Extent, Meta(description="Play left at each end of a butt wall; default 0.")] | UnsetType = (
        UNSET
    )
    through_walls: (
        Annotated[
            list[SideName],
            Meta(
                min_length=2,
                max_length=2,
                description="The opposite pair that runs past the corners; default front and back.",
            ),
        ]
        | UnsetType
    ) = UNSET
    walls: Sides | UnsetType = UNSET
    deck: Annotated[BuildingDeck, Meta(description="Default none: the deck is taken as true.")] | UnsetType = UNSET
    parts: (
        Annotated[list[Part], Meta(max_length=4, description="What is answered for each wall; default all.")]
        | UnsetType
    ) = UNSET


class BuiltWall(Answer, frozen=True):
    """One wall: complete, so that it can be posted on as it is, with the parts asked for."""

    side: str
    wall: Wall
    layout: LayoutAnswer | UnsetType = UNSET
    sheathing: SheathingAnswer | UnsetType = UNSET
    raising: RaisingAnswer | UnsetType = UNSET
    fasteners: FastenersAnswer | UnsetType = UNSET


class Corner(Answer, frozen=True):
    """Where two walls meet."""

    name: str
    through: str
    butt: str
    sheathing_lap: Number
    cap_lap: Number
    slip_gap: Number


class CutTotal(Answer, frozen=True):
    """Equal pieces over all walls."""

    stock: str
    length: Number
    tape: Tape
    count: int
    treated: bool
    ripped_to: Number | UnsetType = UNSET


class Totals(Answer, frozen=True):
    """What the four walls take together."""

    pieces: list[CutTotal]
    sheets: int
    fasteners: (
        Annotated[
            list[FastenerTotal],
            Meta(
                description="Where they are among the parts; what joins two walls is counted once, with the wall that "
                "stands between."
            ),
        ]
        | UnsetType
    ) = UNSET


class Step(Answer, frozen=True):
    """One step of the order of work; `side` is empty where it concerns all."""

    number: int
    side: str
    what: str
    where: str
    caution: Annotated[str, Meta(description="Empty where there is nothing in particular to mind.")]
    how_many: Annotated[int, Meta(description="Left out where nothing is counted.")] | UnsetType = UNSET
    counts: (
        Annotated[str, Meta(description="What `how_many` counts, such as `people`; left out with it.")] | UnsetType
    ) = UNSET


class DeckLines(Answer, frozen=True):
    """The framing's chalk lines on the deck as measured.

    `marks` say how far the deck sticks out past the lines at each of its corners: above 0 measure in from the edge.
    """

    marks: list[Overhang]
    edges: list[EdgeWork]
    shift_right: Annotated[Number, Meta(description="From the placing that shares the error evenly, to save trimming.")]
    shift_back: Number
    diagonal: Annotated[Number, Meta(description="What both diagonals of the lines read.")]
    diagonal_tape: Tape
    rise: Annotated[Number, Meta(description="Highest corner above the lowest.")] | UnsetType = UNSET


class BuildingAnswer(Answer, frozen=True):
    """A building walled."""

    building: Building
    framing_width: Number
    framing_depth: Number
    walls: list[BuiltWall]
    corners: list[Corner]
    totals: Totals
    order_of_work: list[Step]
    findings: list[Finding]
    deck: DeckLines | UnsetType = UNSET
