"""Squaring: a measured frame and a measured deck."""

from typing import Annotated, Literal

from msgspec import UNSET, Meta, UnsetType

from wallwright.wire.base import Extent, Length, Name, Offset, Request, Units

TapeClass = Literal["I", "II", "III"]


class TapeFields(Request, frozen=True, kw_only=True):
    """The tape that took all lengths."""

    tape_class: Annotated[TapeClass, Meta(description="Accuracy class printed on the tape.")] | UnsetType = UNSET
    hooked: (
        Annotated[bool, Meta(description="Whether the hook or the tape's end was one end of each length.")] | UnsetType
    ) = UNSET
    reading: Annotated[Extent, Meta(description="How near each length was read, either way.")] | UnsetType = UNSET


class SheetCheck(Request, frozen=True, kw_only=True):
    """A sheet's factory corner laid in a corner of the frame, flush with one side and off the other."""

    corner: Annotated[
        Literal["bottom-left", "bottom-right", "top-right", "top-left"], Meta(description="The frame's corner.")
    ]
    along: Annotated[Length, Meta(description="From the corner to where `off` was read.")]
    off: Annotated[
        Offset,
        Meta(
            description="Above 0 where the frame stands away outside the sheet's edge, below 0 where the sheet is proud."
        ),
    ]


class PlumbBrace(Request, frozen=True, kw_only=True):
    """The brace that plumbs the wall, inside."""

    up: Annotated[Length, Meta(description="Where it is fixed, from the wall's foot.")]
    out: Annotated[Length, Meta(description="Where its own foot stands, from the wall's.")]


class PlumbCheck(Request, frozen=True, kw_only=True):
    """What a plumb line shows on the standing wall."""

    offset: Annotated[Offset, Meta(description="Above 0 where the wall leans out, away from the brace's side.")]
    over: Annotated[Length, Meta(description="The height over which it was read.")]
    brace: Annotated[PlumbBrace, Meta(description="Default none.")] | UnsetType = UNSET


class Frame(TapeFields, frozen=True, kw_only=True):
    """A framed wall as measured where it lies, seen from outside."""

    units: Units
    width: Annotated[Length, Meta(description="The bottom plate.")]
    height: Annotated[Length, Meta(description="The left side, over the plates.")]
    rising: Annotated[Length, Meta(description="Diagonal from the bottom left corner to the top right.")]
    falling: Annotated[Length, Meta(description="Diagonal from the top left corner to the bottom right.")]
    top: Annotated[Length, Meta(description="The top plate; with `right`, or neither.")] | UnsetType = UNSET
    right: Annotated[Length, Meta(description="The right side; with `top`, or neither.")] | UnsetType = UNSET
    tolerance: Annotated[Length, Meta(description="Difference of the diagonals that is let pass.")] | UnsetType = UNSET
    sheet: Annotated[SheetCheck, Meta(description="Squaring with a sheet. Default none.")] | UnsetType = UNSET
    plumb: Annotated[PlumbCheck, Meta(description="Plumb of the standing wall. Default none.")] | UnsetType = UNSET
    name: Name | UnsetType = UNSET


class DeckSides(Request, frozen=True, kw_only=True):
    """The four sides, seen from above with the front at the foot."""

    front: Length
    right: Length
    back: Length
    left: Length


class DeckDiagonals(Request, frozen=True, kw_only=True):
    """Both diagonals."""

    front_left_to_back_right: Length
    front_right_to_back_left: Length


class DeckWanted(Request, frozen=True, kw_only=True):
    """The rectangle wanted over the framing."""

    width: Length
    depth: Length


class DeckLevels(Request, frozen=True, kw_only=True):
    """Heights of the corners against any one level."""

    front_left: Offset
    front_right: Offset
    back_right: Offset
    back_left: Offset


class Deck(TapeFields, frozen=True, kw_only=True):
    """A deck or slab as measured: one length more than a quadrilateral needs."""

    units: Units
    sides: Annotated[DeckSides, Meta(description="Corner to corner.")]
    diagonals: Annotated[DeckDiagonals, Meta(description="Corner to corner.")]
    wanted: Annotated[DeckWanted, Meta(description="Default none, then nothing is placed.")] | UnsetType = UNSET
    levels: Annotated[DeckLevels, Meta(description="Default none, then not looked at.")] | UnsetType = UNSET
    name: Name | UnsetType = UNSET
