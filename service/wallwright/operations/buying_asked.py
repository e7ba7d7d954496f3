"""An order as it is asked: from the wire to the domain, and back complete."""

from collections.abc import Callable
from decimal import ROUND_HALF_UP, Decimal
from typing import Any

from msgspec import UNSET, UnsetType
from msgspec.structs import replace

from wallwright.domain import defaults
from wallwright.domain.buying import asked as domain
from wallwright.domain.buying.buy import Bought
from wallwright.domain.stock import Stock, is_named
from wallwright.findings import PlanRefused
from wallwright.operations import building as building_operation
from wallwright.operations.completed import to_wire
from wallwright.operations.converters import Converter
from wallwright.operations.reading import BOUGHT_LEAST, STOCK_MOST, Reading, given
from wallwright.operations.walls import to_domain as wall_to_domain
from wallwright.wire import buying_asked as wire_asked
from wallwright.wire import limits
from wallwright.wire.stock import StockSize


def money(cents: int) -> float:
    """Cents as the currency's number."""
    return cents / 100


def listed(given_list: list[Any] | UnsetType) -> list[Any]:
    """A list that was given, or none."""
    return [] if isinstance(given_list, UnsetType) else given_list


def to_domain(request: wire_asked.Order) -> domain.Order:
    """The order asked for, complete. Raises PlanRefused with every fault of its fields and of its walls' and buildings'."""
    reading = Reading(request.units)
    pieces = tuple(_piece(reading, one, f"/pieces/{n}") for n, one in enumerate(listed(request.pieces)))
    walls = _each(reading, listed(request.walls), "/walls", wall_to_domain)
    buildings = _each(reading, listed(request.buildings), "/buildings", building_operation.to_domain)
    offers = tuple(_offer(reading, one, f"/offers/{n}") for n, one in enumerate(request.offers))
    kerf = reading.optional(request.kerf, "/kerf", 0, limits.KERF_MAX, defaults.KERF)
    trim = reading.optional(request.end_trim, "/end_trim", 0, limits.END_TRIM_MAX, defaults.END_TRIM)
    least = reading.optional(request.least_offcut, "/least_offcut", 0, limits.BOARD_LENGTH_MAX, 0)
    panels = tuple(_panel(reading, one, f"/sheet_pieces/{n}") for n, one in enumerate(listed(request.sheet_pieces)))
    sheets = tuple(
        _sheet_offer(reading, one, f"/sheet_offers/{n}") for n, one in enumerate(listed(request.sheet_offers))
    )
    boxes = tuple(
        domain.FastenerOffer(one.fastener, one.count, _whole(one.price, 2), _given(one.coating, ""))
        for one in listed(request.fastener_offers)
    )
    if reading.faults:
        raise PlanRefused(tuple(reading.faults))
    tax = UNSET if request.tax_percent is UNSET else _whole(request.tax_percent, 3)
    return domain.Order(
        pieces, walls, buildings, offers, kerf, trim, least_offcut=least, sheet_pieces=panels,
        sheet_offers=sheets, fastener_offers=boxes,
        **given(effort=request.effort, spare=request.spare_percent, tax=tax, grain=request.grain, piece_plates=request.piece_plates),  # type: ignore[arg-type]
    )  # fmt: skip


def _whole(value: float, decimals: int) -> int:
    """A number in steps of its last decimal, half a step up."""
    return int(Decimal(str(value)).scaleb(decimals).to_integral_value(ROUND_HALF_UP))


def _each(reading: Reading, asked: list[Any], at: str, read: Callable[[Any], Any]) -> tuple[Any, ...]:
    """Walls or buildings read each in its own units, their faults at their place in the order."""
    found = []
    for number, one in enumerate(asked):
        try:
            found.append(read(one))
        except PlanRefused as refused:
            reading.faults += [replace(fault, pointer=f"{at}/{number}{fault.pointer}") for fault in refused.faults]
    return tuple(found)


def _piece(reading: Reading, one: wire_asked.LoosePiece, at: str) -> domain.Piece:
    length = reading.length(one.length, f"{at}/length", limits.PIECE_LENGTH_MIN, limits.BOARD_LENGTH_MAX)
    stock = reading.stock(one.stock, f"{at}/stock", BOUGHT_LEAST, STOCK_MOST)
    return domain.Piece(stock, length, one.count, at=at, **given(treated=one.treated, mark=one.mark))  # type: ignore[arg-type]


def _offer(reading: Reading, one: wire_asked.Offer, at: str) -> domain.Offer:
    length = reading.length(one.length, f"{at}/length", limits.BOARD_LENGTH_MIN, limits.BOARD_LENGTH_MAX)
    stock = reading.stock(one.stock, f"{at}/stock", BOUGHT_LEAST, STOCK_MOST)
    values = given(at_most=one.at_most, treated=one.treated)
    return domain.Offer(stock, length, _whole(one.price, 2), **values)  # type: ignore[arg-type]


def _panel(reading: Reading, one: wire_asked.SheetPiece, at: str) -> domain.Panel:
    thickness = _thickness(reading, one.thickness, at)
    width = reading.length(one.width, f"{at}/width", limits.SHEET_PIECE_MIN, limits.SHEET_LENGTH_MAX)
    length = reading.length(one.length, f"{at}/length", limits.SHEET_PIECE_MIN, limits.SHEET_LENGTH_MAX)
    kind, mark = _given(one.kind, defaults.SHEET_KIND), _given(one.mark, "")
    return domain.Panel(kind, thickness, width, length, one.count, mark, at)


def _sheet_offer(reading: Reading, one: wire_asked.SheetOffer, at: str) -> domain.SheetOffer:
    thickness = _thickness(reading, one.thickness, at)
    width = reading.length(one.width, f"{at}/width", limits.SHEET_WIDTH_MIN, limits.SHEET_WIDTH_MAX)
    length = reading.length(one.length, f"{at}/length", limits.SHEET_LENGTH_MIN, limits.SHEET_LENGTH_MAX)
    kind, at_most = _given(one.kind, defaults.SHEET_KIND), _given(one.at_most, None)
    return domain.SheetOffer(kind, thickness, width, length, _whole(one.price, 2), at_most)


def _thickness(reading: Reading, value: Any, at: str) -> int:
    return reading.length(value, f"{at}/thickness", limits.SHEET_THICKNESS_MIN, limits.SHEET_THICKNESS_MAX)


def _given(value: Any, default: Any) -> Any:
    return default if value is UNSET else value


def to_wire_order(c: Converter, found: Bought, request: wire_asked.Order) -> wire_asked.Order:
    """The completed order; posted again it gives the same answer."""
    taken, order = found.order, found.order.asked
    walls = [to_wire(one.wall, c.units) for one in taken.alone]
    buildings = [
        building_operation.to_wire_building(built, asked, c.units, building_operation.parts_of(one))
        for built, asked, one in zip(taken.buildings, order.buildings, listed(request.buildings), strict=True)
    ]
    return wire_asked.Order(
        units=c.units,
        pieces=[
            wire_asked.LoosePiece(stock=_section(c, one.stock), length=c.length(one.length), count=one.count, mark=one.mark, treated=one.treated)
            for one in order.pieces
        ],
        walls=walls,
        buildings=buildings,
        offers=[
            wire_asked.Offer(
                stock=_section(c, one.stock), length=c.length(one.length), price=money(one.price),
                at_most=UNSET if one.at_most is None else one.at_most, treated=one.treated,
            )
            for one in order.offers
        ],
        sheet_pieces=[
            wire_asked.SheetPiece(
                thickness=c.length(one.thickness), width=c.length(one.width), length=c.length(one.length),
                count=one.count, kind=one.kind, mark=one.mark,  # type: ignore[arg-type]
            )
            for one in order.sheet_pieces
        ],
        sheet_offers=[
            wire_asked.SheetOffer(
                thickness=c.length(one.thickness), width=c.length(one.width), length=c.length(one.length),
                price=money(one.price or 0), kind=one.kind,  # type: ignore[arg-type]
                at_most=UNSET if one.at_most is None else one.at_most,
            )
            for one in order.sheet_offers
        ],
        fastener_offers=[
            wire_asked.FastenerOffer(
                fastener=one.fastener, count=one.count, price=money(one.price), coating=one.coating or UNSET
            )
            for one in order.fastener_offers
        ],
        grain=order.grain,
        piece_plates=order.piece_plates,
        kerf=c.extent(order.kerf),
        end_trim=c.extent(order.end_trim),
        effort=order.effort,
        spare_percent=order.spare,
        least_offcut=c.extent(order.least_offcut),
        tax_percent=order.tax / 1000,
    )  # fmt: skip


def _section(c: Converter, stock: Stock) -> str | StockSize:
    """A section as an order names it: a filler thinner than any name allows goes by its sizes."""
    if is_named(stock):
        return stock.name
    return StockSize(thickness=c.length(stock.thickness), width=c.length(stock.width))
