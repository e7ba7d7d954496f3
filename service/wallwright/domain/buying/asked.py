"""What is to be bought and what is offered: values alone."""

from typing import Literal

import msgspec

from wallwright.domain import defaults
from wallwright.domain.built import Building
from wallwright.domain.stock import Stock
from wallwright.domain.wall import Grain, Wall

Group = tuple[str, int]
"""Kind and thickness of sheets."""

EffortWord = Literal["quick", "normal", "thorough"]


class Piece(msgspec.Struct, frozen=True, gc=False):
    """Equal pieces of timber to be cut. ``at`` is a pointer to where they were asked for.

    ``slants`` is the number of ends cut at ``angle`` degrees off square that can lie against another such end (0 to 2), and ``saves``
    what the board gains where two do.
    """

    stock: Stock
    length: int
    count: int
    treated: bool = False
    mark: str = ""
    at: str = ""
    slants: int = 0
    angle: float = 0.0
    saves: int = 0


class Offer(msgspec.Struct, frozen=True, gc=False):
    """Boards of one length to be had. ``price`` is in cents, 0 for boards in hand; ``at_most`` None is any number."""

    stock: Stock
    length: int
    price: int
    at_most: int | None = None
    treated: bool = False


class Panel(msgspec.Struct, frozen=True, gc=False):
    """Equal rectangles to be cut; ``length`` runs along the grain."""

    kind: str
    thickness: int
    width: int
    length: int
    count: int
    mark: str = ""
    at: str = ""


class SheetOffer(msgspec.Struct, frozen=True, gc=False):
    """Sheets of one size to be had. ``price`` is in cents, None where it is not known."""

    kind: str
    thickness: int
    width: int
    length: int
    price: int | None
    at_most: int | None = None


class FastenerOffer(msgspec.Struct, frozen=True, gc=False):
    """Boxes of so many fasteners to be had. ``price`` is in cents; ``coating`` empty is any."""

    fastener: str
    count: int
    price: int
    coating: str = ""


class Order(msgspec.Struct, frozen=True):
    """Everything that is to be bought together, what is offered, and how it is cut.

    ``tax`` is in thousandths of a percent, ``spare`` in percent.
    """

    pieces: tuple[Piece, ...]
    walls: tuple[Wall, ...]
    buildings: tuple[Building, ...]
    offers: tuple[Offer, ...]
    kerf: int = defaults.KERF
    end_trim: int = defaults.END_TRIM
    effort: EffortWord = "normal"
    spare: int = 0
    least_offcut: int = 0
    tax: int = 0
    sheet_pieces: tuple[Panel, ...] = ()
    sheet_offers: tuple[SheetOffer, ...] = ()
    grain: Grain = "kept"
    fastener_offers: tuple[FastenerOffer, ...] = ()
    piece_plates: bool = False
    """Whether level plates may be jointed anew where that saves boards."""
