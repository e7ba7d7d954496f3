"""What a wall is opened, met and bored for."""

from typing import Annotated, Literal

from msgspec import UNSET, Meta, UnsetType

from wallwright.wire.base import Extent, Length, Name, Request
from wallwright.wire.limits import (
    JACKS_MAX,
    OPENINGS_MAX,
    PARTITIONS_MAX,
    PLIES_MAX,
    RUNS_MAX,
)
from wallwright.wire.stock import StockName, StockSize


class Header(Request, frozen=True, kw_only=True):
    """A header asked for. Without one the service takes the plain default, and says that it is not sized."""

    stock: StockName | StockSize
    plies: (
        Annotated[int, Meta(ge=1, le=PLIES_MAX, description="Default 2, or 1 where two do not fit the depth.")]
        | UnsetType
    ) = UNSET
    seat: (
        Annotated[
            Literal["jacks", "plate"],
            Meta(
                description="`jacks`: its underside is the opening's head. `plate`: tight under the top plate, the opening that much higher."
            ),
        ]
        | UnsetType
    ) = UNSET
    spacer: (
        Annotated[Extent, Meta(description="Thickness of a filler between the plies; default 0, none.")] | UnsetType
    ) = UNSET


class Opening(Request, frozen=True, kw_only=True):
    """A rough opening, clear between jacks. A sill of 0 is a door; the head is at sill + height."""

    left: Annotated[Extent, Meta(description="From the plate's left end; in a building from the framing corner.")]
    width: Length
    height: Length
    name: Name | UnsetType = UNSET
    sill: Extent | UnsetType = UNSET
    header: Header | UnsetType = UNSET
    jacks: Annotated[int, Meta(ge=1, le=JACKS_MAX, description="Jack studs at each side.")] | UnsetType = UNSET


Openings = Annotated[list[Opening], Meta(max_length=OPENINGS_MAX)]


class Partition(Request, frozen=True, kw_only=True):
    """An inside wall that ends against this one, from floor to plate. Backing is framed for it and for the lining."""

    at: Annotated[
        Extent,
        Meta(
            description="Its left face as seen from outside, from the plate's left end; in a building from the corner."
        ),
    ]
    depth: Annotated[Length, Meta(description="Width of its plate, as 3-1/2 in for studs 2x4.")]


Partitions = Annotated[list[Partition], Meta(max_length=PARTITIONS_MAX)]


class Run(Request, frozen=True, kw_only=True):
    """A pipe or cable that crosses studs at one height, compared with what may be cut out of a stud. Nothing is framed for it."""

    cut: Annotated[
        Literal["bore", "notch"], Meta(description="Holes through the studs, or notches in an edge of each.")
    ]
    size: Annotated[Length, Meta(description="A hole's diameter, or how deep a notch is cut into the stud.")]
    y: Annotated[Extent, Meta(description="Height of its middle above the bottom plate's underside.")]
    left: (
        Annotated[Extent, Meta(description="Where it begins, from the plate's left end; default there.")] | UnsetType
    ) = UNSET
    right: Annotated[Extent, Meta(description="Where it ends; default at the plate's right end.")] | UnsetType = UNSET
    edge: (
        Annotated[
            Extent,
            Meta(description="Wood between a hole and the nearer edge of the stud; default a hole in the middle."),
        ]
        | UnsetType
    ) = UNSET


Runs = Annotated[list[Run], Meta(max_length=RUNS_MAX)]
