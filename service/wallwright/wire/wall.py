"""The Wall: one schema, in and out. Only units, length and height are required; an answer fills in the rest."""

from typing import Annotated, Literal

from msgspec import UNSET, Meta, UnsetType, field

from wallwright.wire.base import Extent, Length, Name, Offset, Request, Units
from wallwright.wire.fastening import Fastening
from wallwright.wire.limits import (
    ANCHORS_MAX,
    PLATE_JOINTS_MAX,
    SLOPE_MAX,
)
from wallwright.wire.openings import Openings, Partitions, Runs
from wallwright.wire.stock import StockName, StockSize

Side = Literal["left", "right"]
Post = Annotated[
    Literal["single", "two-stud", "three-stud"],
    Meta(description="The studs at a wall's end: one; two, the inner laid flat; or three about blocks."),
]


class Top(Request, frozen=True):
    """The wall's top edge: level, a rake that rises to one end, or a gable. A slope is `rise` in `run`."""

    shape: Literal["level", "rake", "gable"] | UnsetType = UNSET
    rise: (
        Annotated[float, Meta(ge=0, le=SLOPE_MAX, description="Needed for a rake or a gable; at most twice the run.")]
        | UnsetType
    ) = UNSET
    run: Annotated[float, Meta(gt=0, le=SLOPE_MAX, description="Default 12.")] | UnsetType = UNSET
    up: Annotated[Side, Meta(description="The high end of a rake; default right.")] | UnsetType = UNSET
    ridge: (
        Annotated[Extent, Meta(description="x of a gable's ridge from the plate's left end; default its middle.")]
        | UnsetType
    ) = UNSET


JointPlaces = Annotated[list[Extent], Meta(max_length=PLATE_JOINTS_MAX)]


class PlateJoints(Request, frozen=True):
    """Where level plates are jointed, from the plate's left end; a layer that is left out is in one piece."""

    bottom: JointPlaces | UnsetType = UNSET
    second_bottom: Annotated[JointPlaces, Meta(description="Of the upper of two bottom plates.")] | UnsetType = UNSET
    top: JointPlaces | UnsetType = UNSET
    cap: JointPlaces | UnsetType = UNSET


class Plates(Request, frozen=True):
    """How many plates, and the longest piece to be had."""

    bottom: Annotated[int, Meta(ge=1, le=2, description="How many bottom plates.")] | UnsetType = UNSET
    top: Annotated[int, Meta(ge=1, le=2, description="How many top plates, the second being the cap.")] | UnsetType = (
        UNSET
    )
    stock_length: Length | UnsetType = UNSET
    cap_offset: (
        Annotated[Extent, Meta(description="Least distance from a cap plate's joint to a joint below it.")] | UnsetType
    ) = UNSET
    joints: (
        Annotated[
            PlateJoints,
            Meta(description="Joints of level plates, held to the rules; left out, they are found by the stock."),
        ]
        | UnsetType
    ) = UNSET


class Layout(Request, frozen=True):
    """Where the tape is hooked: `from` an end, at the sheathing's outer edge or the plate's end, shifted by an offset."""

    from_: Annotated[Side, Meta(description="The end that the tape starts from.")] | UnsetType = field(
        default=UNSET, name="from"
    )
    tape_zero: (
        Annotated[
            Literal["sheathing", "plate"],
            Meta(description="At the sheathing's edge, so that seams land on studs, or at the plate's end."),
        ]
        | UnsetType
    ) = UNSET
    tape_offset: Offset | UnsetType = UNSET


class Meets(Request, frozen=True, kw_only=True):
    """The wall that this end meets: its studs' depth, its post, and the slip gap left between."""

    depth: Length
    post: Post | UnsetType = UNSET
    slip_gap: Extent | UnsetType = UNSET


class End(Request, frozen=True):
    """One end of the wall. Laps are positive past the plate's end, negative short of it."""

    post: Post | UnsetType = UNSET
    sheathing_lap: Offset | UnsetType = UNSET
    cap_lap: Offset | UnsetType = UNSET
    meets: Meets | UnsetType = UNSET


class Ends(Request, frozen=True):
    """Both ends, left and right as seen from outside."""

    left: End | UnsetType = UNSET
    right: End | UnsetType = UNSET


class Floor(Request, frozen=True):
    """What the wall stands on: nothing known, a deck with rim and panel, or a slab."""

    kind: Literal["none", "deck", "slab"] | UnsetType = UNSET
    rim: Annotated[Extent, Meta(description="Depth of the deck's rim joist.")] | UnsetType = UNSET
    panel: Annotated[Extent, Meta(description="Thickness of the deck's panel.")] | UnsetType = UNSET
    treated_plate: bool | UnsetType = UNSET
    anchors: (
        Annotated[
            list[Extent],
            Meta(max_length=ANCHORS_MAX, description="Places of bolts already cast, from the plate's left end."),
        ]
        | UnsetType
    ) = UNSET


class Sheet(Request, frozen=True):
    """The sheet to be had. One sized for spacing is made the gap narrower and shorter than its module."""

    width: Length | UnsetType = UNSET
    length: Length | UnsetType = UNSET
    thickness: Length | UnsetType = UNSET
    kind: Literal["osb", "plywood", "siding"] | UnsetType = UNSET
    sized_for_spacing: bool | UnsetType = UNSET
    edge: (
        Annotated[
            Literal["square", "shiplap"],
            Meta(description="Of its long edges: square, or with a lap that the next sheet covers."),
        ]
        | UnsetType
    ) = UNSET
    lap: (
        Annotated[
            Length,
            Meta(
                description="How far a shiplap edge runs under the next sheet. The width is over all: the sheet covers so "
                "much less. Read with `edge` shiplap only."
            ),
        ]
        | UnsetType
    ) = UNSET


class Sheathing(Request, frozen=True):
    """How the wall is skinned."""

    sheet: Sheet | UnsetType = UNSET
    direction: Literal["upright", "lying"] | UnsetType = UNSET
    gap: Extent | UnsetType = UNSET
    under_sheet: Annotated[Extent, Meta(description="How far the sheets hang below the bottom plate.")] | UnsetType = (
        UNSET
    )
    start: Annotated[Side, Meta(description="The end at which the sheets begin.")] | UnsetType = UNSET
    reuse_offcuts: (
        Annotated[
            bool,
            Meta(
                description="Whether strips and narrow pieces of this wall are cut from what its other pieces leave of their "
                "sheets, by cuts from edge to edge with a kerf of 1/8 in. An order shares sheets among walls by itself."
            ),
        ]
        | UnsetType
    ) = UNSET
    grain: (
        Annotated[
            Literal["kept", "free"],
            Meta(
                description="Whether pieces keep the way of the sheet's grain where offcuts are reused, or may lie turned."
            ),
        ]
        | UnsetType
    ) = UNSET
    openings: (
        Annotated[
            Literal["cut-out", "pieced"],
            Meta(
                description="Whether openings are cut out of the sheets, or sheets end at their sides, so that the pieces "
                "beside, over and under them are rectangles. A side where the frame carries no seam is cut out."
            ),
        ]
        | UnsetType
    ) = UNSET


class Carries(Request, frozen=True, kw_only=True):
    """What the wall carries. Nothing is compared with a table on an assumed load."""

    load: Literal["none", "roof", "roof-and-center-bearing-floor", "roof-and-clear-span-floor"]
    building_width: Annotated[Length, Meta(description="Out to out along the span.")] | UnsetType = UNSET


class Site(Request, frozen=True):
    """Loads of the place."""

    ground_snow_psf: Annotated[float, Meta(ge=0, le=500)] | UnsetType = UNSET
    wind_mph: Annotated[float, Meta(ge=0, le=300)] | UnsetType = UNSET
    exposure: Literal["B", "C", "D"] | UnsetType = UNSET
    seismic: Literal["A", "B", "C", "D0", "D1", "D2", "E"] | UnsetType = UNSET


Rules = Literal["irc-2015", "irc-2018", "irc-2021", "irc-2024"]
Species = Literal["spruce-pine-fir", "douglas-fir-larch", "hem-fir", "southern-pine"]


class Common(Request, frozen=True):
    """The fields of a wall that a building sets for all four at once."""

    stud: StockName | StockSize | UnsetType = UNSET
    spacing: Annotated[Length, Meta(description="On centre.")] | UnsetType = UNSET
    plates: Plates | UnsetType = UNSET
    layout: Layout | UnsetType = UNSET
    floor: Floor | UnsetType = UNSET
    sheathing: Sheathing | UnsetType = UNSET
    lining: (
        Annotated[bool, Meta(description="Whether the inner face is lined: inside corners then get nailing for it.")]
        | UnsetType
    ) = UNSET
    fastening: Literal["nailed", "screwed"] | Fastening | UnsetType = UNSET
    positions: Annotated[bool, Meta(description="Whether fasteners are given with their places.")] | UnsetType = UNSET
    site: Site | UnsetType = UNSET
    species: Species | UnsetType = UNSET
    moisture_percent: Annotated[float, Meta(ge=0, le=200)] | UnsetType = UNSET
    hands: Annotated[int, Meta(ge=1, le=40, description="People at hand to raise the wall.")] | UnsetType = UNSET
    rules: Annotated[Rules, Meta(description="Edition of the published figures.")] | UnsetType = UNSET


class Wall(Common, frozen=True, kw_only=True):
    """A wall. Every operation on walls takes it whole and ignores what it does not need."""

    units: Units
    length: Annotated[Length, Meta(description="Length of the bottom plate.")]
    height: Annotated[
        Length,
        Meta(
            description="From the underside of the bottom plate to the top of the uppermost plate: of a rake at its "
            "low end, of a gable at its eaves (the lower ones where the ridge is off the middle)."
        ),
    ]
    name: Name | UnsetType = UNSET
    top: Top | UnsetType = UNSET
    ends: Ends | UnsetType = UNSET
    openings: Openings | UnsetType = UNSET
    partitions: Partitions | UnsetType = UNSET
    runs: Runs | UnsetType = UNSET
    carries: Carries | UnsetType = UNSET
