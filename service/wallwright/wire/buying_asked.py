"""The order: pieces, walls and buildings to buy for, and offers."""

from typing import Annotated, Literal

from msgspec import UNSET, Meta, UnsetType

from wallwright.wire import limits
from wallwright.wire.base import Extent, Length, Name, Request, Units
from wallwright.wire.building import Building
from wallwright.wire.stock import StockName, StockSize
from wallwright.wire.wall import Wall

Thickness = Annotated[Length, Meta(description="Sheets of another thickness are another kind.")]


Kind = Literal["osb", "plywood", "siding"]


class LoosePiece(Request, frozen=True, kw_only=True):
    """Equal loose pieces of timber to be cut."""

    stock: StockName | StockSize
    length: Length
    count: Annotated[int, Meta(ge=1, le=limits.PIECE_COUNT_MAX)]
    mark: Annotated[Name, Meta(description="What is written on the piece.")] | UnsetType = UNSET
    treated: Annotated[bool, Meta(description="Treated timber is a section of its own.")] | UnsetType = UNSET


class Offer(Request, frozen=True, kw_only=True):
    """Boards of one length that are to be had."""

    stock: StockName | StockSize
    length: Annotated[Length, Meta(description="As it is; for boards in hand their real length.")]
    price: Annotated[
        float,
        Meta(
            ge=0,
            le=limits.PRICE_MAX,
            description="For one board, taken to the nearest hundredth; 0 for boards in hand.",
        ),
    ]
    at_most: (
        Annotated[int, Meta(ge=0, le=limits.PIECE_COUNT_MAX, description="How many there are; default any number.")]
        | UnsetType
    ) = UNSET
    treated: bool | UnsetType = UNSET


class SheetPiece(Request, frozen=True, kw_only=True):
    """Equal loose rectangles of sheet to be cut; `length` runs along the grain."""

    thickness: Thickness
    width: Length
    length: Length
    count: Annotated[int, Meta(ge=1, le=limits.SHEET_PIECE_COUNT_MAX)]
    kind: Annotated[Kind, Meta(description="Default `osb`.")] | UnsetType = UNSET
    mark: Annotated[Name, Meta(description="What is written on the piece.")] | UnsetType = UNSET


class SheetOffer(Request, frozen=True, kw_only=True):
    """Sheets of one size that are to be had."""

    thickness: Thickness
    width: Length
    length: Annotated[Length, Meta(description="Along the grain.")]
    price: Annotated[float, Meta(ge=0, le=limits.PRICE_MAX, description="For one sheet, to the nearest hundredth.")]
    kind: Annotated[Kind, Meta(description="Default `osb`.")] | UnsetType = UNSET
    at_most: Annotated[int, Meta(ge=0, le=limits.PIECE_COUNT_MAX)] | UnsetType = UNSET


class FastenerOffer(Request, frozen=True, kw_only=True):
    """Boxes of fasteners or anchors that are to be had."""

    fastener: Annotated[Name, Meta(description="As the answer's `fasteners` name it.")]
    count: Annotated[int, Meta(ge=1, le=limits.PACK_MAX, description="How many are in a box; 1 for single ones.")]
    price: Annotated[float, Meta(ge=0, le=limits.PRICE_MAX, description="For one box, to the nearest hundredth.")]
    coating: Annotated[Name, Meta(description="As `fasteners` name it; left out, for any.")] | UnsetType = UNSET


class Order(Request, frozen=True, kw_only=True):
    """What is bought together. Give pieces, walls or buildings, or any of them together."""

    units: Units
    pieces: Annotated[list[LoosePiece], Meta(max_length=limits.PIECES_MAX)] | UnsetType = UNSET
    walls: (
        Annotated[
            list[Wall],
            Meta(max_length=limits.ORDER_WALLS_MAX, description="Each read in its own units, answered in the order's."),
        ]
        | UnsetType
    ) = UNSET
    buildings: Annotated[list[Building], Meta(max_length=limits.ORDER_BUILDINGS_MAX)] | UnsetType = UNSET
    offers: Annotated[list[Offer], Meta(max_length=limits.OFFERS_MAX)]
    sheet_pieces: Annotated[list[SheetPiece], Meta(max_length=limits.SHEET_PIECES_MAX)] | UnsetType = UNSET
    sheet_offers: (
        Annotated[
            list[SheetOffer],
            Meta(
                max_length=limits.OFFERS_MAX,
                description="Where none is of a wall's kind and thickness, its own sheets are counted without a price.",
            ),
        ]
        | UnsetType
    ) = UNSET
    fastener_offers: (
        Annotated[
            list[FastenerOffer],
            Meta(
                max_length=limits.FASTENER_OFFERS_MAX,
                description="The cheapest boxes that hold what is to be bought are taken; what is not offered is counted alone.",
            ),
        ]
        | UnsetType
    ) = UNSET
    grain: (
        Annotated[Literal["kept", "free"], Meta(description="Whether pieces may be turned on a sheet; default `kept`.")]
        | UnsetType
    ) = UNSET
    piece_plates: (
        Annotated[
            bool,
            Meta(
                description="Whether level plates may be jointed anew, within the framing rules, where that saves money; "
                "default false, as framed."
            ),
        ]
        | UnsetType
    ) = UNSET
    kerf: Annotated[Extent, Meta(description="Width of a saw cut; default 1/8 in.")] | UnsetType = UNSET
    end_trim: (
        Annotated[
            Extent, Meta(description="Cut off each end of every board, that saw cut included; default 0, no trimming.")
        ]
        | UnsetType
    ) = UNSET
    effort: (
        Annotated[
            Literal["quick", "normal", "thorough"],
            Meta(description="How much work is done, by counts that are the same on every machine; default `normal`."),
        ]
        | UnsetType
    ) = UNSET
    spare_percent: (
        Annotated[
            int,
            Meta(
                ge=0,
                le=limits.SPARE_PERCENT_MAX,
                description="So many more of each kind of piece, to the nearest whole piece; default 0.",
            ),
        ]
        | UnsetType
    ) = UNSET
    least_offcut: (
        Annotated[Extent, Meta(description="Offcuts from this length up are kept, not wasted; default 0, none kept.")]
        | UnsetType
    ) = UNSET
    tax_percent: (
        Annotated[
            float,
            Meta(ge=0, le=limits.TAX_PERCENT_MAX, description="Put on the whole; to the thousandth; default 0."),
        ]
        | UnsetType
    ) = UNSET
