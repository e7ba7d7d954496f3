"""The layout answer: members, marks, cut list."""

from typing import Annotated

from msgspec import UNSET, Meta, UnsetType

from wallwright.wire.answers import Finding, Number, Polygon, Tape
from wallwright.wire.base import Answer
from wallwright.wire.wall import Wall


class CutOut(Answer, frozen=True):
    """A length of plate cut out once the wall stands."""

    left: Number
    right: Number


class EndCut(Answer, frozen=True):
    """An end that is not square."""

    end: Annotated[str, Meta(description="`left`, `right`, `top` or `bottom` of the member as it stands.")]
    angle_degrees: Annotated[float, Meta(description="Degrees off a square cut.")]
    long_point: Annotated[str, Meta(description="The side on which the end reaches further.")]


ShortPoint = Annotated[
    Number,
    Meta(
        description="Length to the short point, where an end is not square; `length` is then that to the long point. "
        "Of a plate that is cut plumb at both ends, the length of either edge."
    ),
]


class Member(Answer, frozen=True):
    """One member and the box that it fills; z runs from the framing's outer face inwards."""

    id: str
    mark: Annotated[str, Meta(description="Equal pieces share a mark.")]
    role: Annotated[
        str,
        Meta(
            description="One of bottom-plate, top-plate, cap-plate, end-stud, corner-stud, field-stud, seam-stud, "
            "king-stud, jack-stud, cripple, header, rough-sill, backing, blocking; more may come."
        ),
    ]
    stock: str
    plies: int
    length: Number
    tape: Tape
    x: Number
    y: Number
    z: Number
    width: Number
    height: Number
    depth: Number
    treated: bool
    ripped_to: (
        Annotated[Number, Meta(description="Thickness that the stock is ripped to, where it is.")] | UnsetType
    ) = UNSET
    opening: Annotated[str, Meta(description="Name of the opening that it frames.")] | UnsetType = UNSET
    outline: Polygon | UnsetType = UNSET
    cut_out_after_raising: list[CutOut] | UnsetType = UNSET
    short_point: ShortPoint | UnsetType = UNSET
    short_point_tape: Tape | UnsetType = UNSET
    cuts: Annotated[list[EndCut], Meta(description="Ends that are not square.")] | UnsetType = UNSET


class Mark(Answer, frozen=True):
    """A line on a plate. X stands on the side where the stud stands; C is a stud centred on its line."""

    plate: str
    member: str
    at: Annotated[Number, Meta(description="x of the line from the plate's left end.")]
    reading: Annotated[Number, Meta(description="What the tape shows, hooked at tape zero.")]
    reading_tape: Tape
    side: Annotated[str, Meta(description="`left`, `right` or `centre`.")]
    sign: Annotated[str, Meta(description="`X` or `C`.")]


class Anchor(Answer, frozen=True):
    """A bolt that holds the bottom plate to a slab, by its middle."""

    id: str
    plate: Annotated[str, Meta(description="The piece of plate that it comes up through.")]
    x: Number
    z: Number
    reading: Annotated[Number, Meta(description="What the tape shows, hooked at tape zero.")]
    reading_tape: Tape
    origin: Annotated[str, Meta(description="`given` where it is already cast, else `placed`.")]


class CutRow(Answer, frozen=True):
    """Equal pieces to cut; plies, packing and blocks are counted."""

    mark: str
    roles: list[str]
    stock: str
    length: Number
    tape: Tape
    count: int
    members: list[str]
    treated: bool
    ripped_to: Number | UnsetType = UNSET
    short_point: ShortPoint | UnsetType = UNSET
    short_point_tape: Tape | UnsetType = UNSET
    cut_angles_degrees: (
        Annotated[list[float], Meta(description="Degrees off square of each end that is not square.")] | UnsetType
    ) = UNSET


class Stock(Answer, frozen=True):
    """A section used, with its dressed sizes."""

    name: str
    thickness: Number
    width: Number


class LayoutAnswer(Answer, frozen=True):
    """A wall laid out."""

    wall: Wall
    members: list[Member]
    marks: list[Mark]
    cut_list: list[CutRow]
    anchors: Annotated[list[Anchor], Meta(description="Bolts of a wall on a slab, from left to right.")]
    stocks: list[Stock]
    findings: list[Finding]
