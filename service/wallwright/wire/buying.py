"""The order: pieces, walls and buildings to buy for, offers, and the answer with what to buy and how to cut it."""

from typing import Annotated, Literal

from msgspec import UNSET, Meta, UnsetType

from wallwright.wire import limits
from wallwright.wire.answers import Finding, Number, PointPair, Tape
from wallwright.wire.base import Answer, Extent, Length, Name, Request, Units
from wallwright.wire.building import Building
from wallwright.wire.fasteners import Total
from wallwright.wire.layout import Stock
from wallwright.wire.wall import StockName, StockSize, Wall

Money = Annotated[float, Meta(description="In the currency of the offers, to the hundredth.")]


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


Kind = Literal["osb", "plywood", "siding"]
Thickness = Annotated[Length, Meta(description="Sheets of another thickness are another kind.")]


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


class Pieced(Answer, frozen=True):
    """A wall whose plates are jointed anew, complete with `plates.joints`: posted on, it is drawn with them."""

    about: Annotated[str, Meta(description="Where in the order the wall was asked for.")]
    name: str
    bottom: Annotated[list[str], Meta(description="Joints from the plate's left end, as tape text.")]
    second_bottom: list[str]
    top: list[str]
    cap: list[str]
    wall: Wall


class BoardCut(Answer, frozen=True):
    """Equal pieces sawn one after another."""

    length: Number
    tape: Tape
    count: int
    mark: Annotated[str, Meta(description="The marks of the pieces, as on the framing drawings.")]
    readings: Annotated[
        list[Number], Meta(description="What a tape hooked on the board's end shows at the far end of each piece.")
    ]
    readings_tape: list[str]
    nested: Annotated[
        int, Meta(description="How many of them begin at the slanted cut that ends the piece before: one cut for two.")
    ]
    slanted_ends: Annotated[int, Meta(description="Ends of each piece that can nest.")]
    slant_degrees: Annotated[float, Meta(description="Degrees off square of these ends; 0 where there are none.")]
    slant: Annotated[Number, Meta(description="How far such an end runs along the board.")]
    long_points: Annotated[
        list[str],
        Meta(
            description="For each piece with slanted ends where its long point lies: `left`, towards the hooked end, on the board's "
            "upper edge; `right`, on its lower edge; or `both`."
        ),
    ]


class BoardPlan(Answer, frozen=True):
    """`count` boards that are cut alike, with the cuts in order."""

    stock: str
    length: Number
    tape: Tape
    treated: bool
    count: int
    cuts: list[BoardCut]
    offcut: Number
    offcut_tape: Tape


class SheetPlaced(Answer, frozen=True):
    """A piece on its sheet, from the sheet's lower left corner; `length` along the sheet's."""

    mark: str
    left: Number
    bottom: Number
    width: Number
    length: Number
    size: Annotated[str, Meta(description="Width by length, as tape text.")]


class SheetSaw(Answer, frozen=True):
    """A straight cut through what is then in hand; the saw's width lies to the right of the line or above it."""

    start: PointPair
    end: PointPair
    tape: Annotated[str, Meta(description="How far the line is from the sheet's left or lower edge.")]


class SheetPlan(Answer, frozen=True):
    """`count` sheets that are cut alike, with the cuts in order."""

    kind: str
    thickness: Number
    width: Number
    length: Number
    count: int
    pieces: list[SheetPlaced]
    cuts: list[SheetSaw]


class SheetCount(Answer, frozen=True):
    """Sheets of one kind and thickness."""

    kind: str
    thickness: Number
    count: int
    priced: bool
    proven: Annotated[
        bool, Meta(description="True when none costs less, or where no price is known when none takes fewer sheets.")
    ]


class CostLine(Answer, frozen=True):
    """One line of the order sheet, as a yard picks it."""

    item: Annotated[str, Meta(description="`board`, `sheet` or `fastener`.")]
    stock: str
    size: Annotated[str, Meta(description="Length of a board, sizes of a sheet, or how many are in a box, as text.")]
    thickness: Number
    width: Number
    length: Number
    treated: bool
    count: int
    cost: Money
    price: Annotated[float, Meta(description="Left out where it is not known.")] | UnsetType = UNSET
    pack: Annotated[int, Meta(description="How many fasteners are in a box.")] | UnsetType = UNSET
    coating: Annotated[str, Meta(description="Of fasteners, as `fasteners` name it.")] | UnsetType = UNSET


class Waste(Answer, frozen=True):
    """What of the boards ends in no piece; offcuts long enough to keep are told apart and are no waste."""

    length: Number
    tape: Tape
    percent: float
    saw: Annotated[Number, Meta(description="Saw cuts and trims alone.")]
    kept_offcuts: Number
    area_sq_ft: Annotated[float, Meta(description="Of sheets.")]
    area_m2: float
    area_percent: float
    money: Money


class BuyingAnswer(Answer, frozen=True):
    """What to buy and how to cut it."""

    order: Order
    boards: list[BoardPlan]
    sheets: list[SheetPlan]
    sheet_counts: list[SheetCount]
    fasteners: Annotated[
        list[Total], Meta(description="Of all walls together, anchors too; by the box where a wall names packs.")
    ]
    cost: Annotated[float, Meta(description="With tax.")]
    before_tax: Money
    tax: Money
    cost_lines: list[CostLine]
    lower_bound: Annotated[float, Meta(description="No plan costs less, tax included.")]
    proven: Annotated[bool, Meta(description="True when no cheaper plan exists.")]
    waste: Waste
    pieced: Annotated[list[Pieced], Meta(description="Walls whose plates are jointed anew, with `piece_plates`.")]
    stocks: list[Stock]
    findings: list[Finding]
