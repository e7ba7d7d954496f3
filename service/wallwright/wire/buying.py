"""The order: pieces, walls and buildings to buy for, offers, and the answer with what to buy and how to cut it."""

from typing import Annotated

from msgspec import UNSET, Meta, UnsetType

from wallwright.wire.answers import Finding, Number, PointPair, Tape
from wallwright.wire.base import Answer
from wallwright.wire.buying_asked import Order
from wallwright.wire.fasteners import Total
from wallwright.wire.layout import Stock
from wallwright.wire.wall import Wall

Money = Annotated[float, Meta(description="In the currency of the offers, to the hundredth.")]


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
