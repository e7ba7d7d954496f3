"""A purchase: wire order to domain, and back as JSON, cutting diagrams or order sheet."""

import time
from collections.abc import Callable
from decimal import ROUND_HALF_UP, Decimal
from typing import Any, Final

from msgspec import UNSET, UnsetType
from msgspec.structs import replace

from wallwright.domain import defaults
from wallwright.domain.building import closed
from wallwright.domain.buying import asked as domain
from wallwright.domain.buying.boards import CutBoard, CutPiece
from wallwright.domain.buying.buy import Bought, CostLine, buy
from wallwright.domain.buying.panels import CutSheet, Saw
from wallwright.domain.buying.pieced import Pieced, joints_of
from wallwright.domain.buying.solver import TookTooLong
from wallwright.domain.stock import Stock, is_named
from wallwright.drawing.buying import cutting_diagrams, cutting_pages
from wallwright.drawing.svg import svg_text
from wallwright.findings import PlanRefused
from wallwright.operations import building as building_operation
from wallwright.operations.canonical import digest
from wallwright.operations.completed import to_wire
from wallwright.operations.converters import CONVERTERS, Converter
from wallwright.operations.csv import csv_text
from wallwright.operations.fasteners import total_answer
from wallwright.operations.reading import BOUGHT_LEAST, STOCK_MOST, Reading, given
from wallwright.operations.walls import to_domain as wall_to_domain
from wallwright.wire import buying as wire
from wallwright.wire import limits
from wallwright.wire.layout import Stock as WireStock
from wallwright.wire.wall import StockSize

__all__ = ["TookTooLong", "answer", "bought_pages", "drawing", "identity", "table", "to_domain"]

SQUARE_FOOT: Final = 92_903.04
"""In square millimetres."""
GUARD_SECONDS: Final = 60.0
"""The clock's guard: past it there is no plan, since a worse one would depend on the machine."""


def answer(request: wire.Order) -> wire.BuyingAnswer:
    """The purchase as it travels. Raises PlanRefused with every fault found, TookTooLong past the guard."""
    return _answer(request, bought(request))


def bought_pages(request: wire.Order) -> tuple[wire.BuyingAnswer, list[str]]:
    """The purchase as it travels, and its cutting diagrams as one drawing a page, reckoned once. Raises as `answer` does."""
    found = bought(request)
    scenes = cutting_pages(found, request.units, identity(request)[:8])
    return _answer(request, found), [svg_text(scene) for scene in scenes]


def _answer(request: wire.Order, found: Bought) -> wire.BuyingAnswer:
    c = CONVERTERS[request.units]
    stocks = dict.fromkeys(cut.section[0] for cut in found.cuts)
    return wire.BuyingAnswer(
        order=_order(c, found, request),
        boards=[_board(c, board) for cut in found.cuts for board in cut.boards],
        sheets=[_sheet(c, sheet) for cut in found.sheets for sheet in cut.sheets],
        sheet_counts=[
            wire.SheetCount(one.group[0], c.number(one.group[1]), one.count, one.priced, one.cost == one.bound)
            for one in found.sheets
        ],
        fasteners=[total_answer(c, one) for one in found.fasteners],
        cost=money(found.cost),
        before_tax=money(found.net),
        tax=money(found.tax),
        cost_lines=[
            wire.CostLine(
                line.item, line.stock, size_of(c, line), c.number(line.thickness), c.number(line.width),
                c.number(line.length), line.treated, line.count, money(line.cost),
                UNSET if line.price is None else money(line.price), line.pack or UNSET,
            )
            for line in found.cost_lines
        ],
        lower_bound=money(found.lower_bound),
        proven=found.proven,
        waste=wire.Waste(
            c.number(found.waste.length), c.tape(found.waste.length), found.waste.percent, c.number(found.waste.saw),
            c.number(found.waste.offcuts), round(found.waste.area / SQUARE_FOOT, 2), round(found.waste.area / 1e6, 3),
            found.waste.area_percent, money(found.waste.money),
        ),
        pieced=[_pieced(c, one) for one in found.pieced],
        stocks=[WireStock(stock.name, c.number(stock.thickness), c.number(stock.width)) for stock in stocks],
        findings=[c.finding(finding) for finding in found.findings],
    )  # fmt: skip


def drawing(request: wire.Order) -> str:
    """The cutting diagrams, as SVG."""
    return cutting_diagrams(bought(request), request.units, identity(request)[:8])


def table(request: wire.Order) -> str:
    """The order sheet as CSV, as a yard picks it."""
    found = bought(request)
    c = CONVERTERS[request.units]
    header = ["item", "stock", "treated", f"width_{request.units}", f"length_{request.units}", "size", "count", "price",
              "cost"]  # fmt: skip
    rows: list[list[object]] = [
        [
            line.item, line.stock, "yes" if line.treated else "no", c.number(line.width), c.number(line.length),
            size_of(c, line), line.count, "" if line.price is None else f"{money(line.price):.2f}",
            f"{money(line.cost):.2f}",
        ]
        for line in found.cost_lines
    ]  # fmt: skip
    return csv_text(header, rows)


def size_of(c: Converter, line: CostLine) -> str:
    """The size that is asked for at the yard: a board's length, a sheet's thickness, width and length."""
    if line.item == "board":
        return c.tape(line.length)
    if line.item == "fastener":
        return f"box of {line.pack}"
    return " x ".join(c.tape(one) for one in (line.thickness, line.width, line.length))


def identity(request: wire.Order) -> str:
    """The digest of the order's canonical form."""
    order = to_domain(request)
    parts = ["-".join(building_operation.parts_of(one)) for one in _listed(request.buildings)]
    plain = replace(order, buildings=tuple(closed(one) for one in order.buildings))
    return "-".join([digest(plain, request.units), *parts])


def bought(request: wire.Order) -> Bought:
    """The order bought, within the guard."""
    end = time.monotonic() + GUARD_SECONDS
    return buy(to_domain(request), lambda: end - time.monotonic())


def money(cents: int) -> float:
    """Cents as the currency's number."""
    return cents / 100


def _listed(given_list: list[Any] | UnsetType) -> list[Any]:
    return [] if isinstance(given_list, UnsetType) else given_list


def to_domain(request: wire.Order) -> domain.Order:
    """The order asked for, complete. Raises PlanRefused with every fault of its fields and of its walls' and buildings'."""
    reading = Reading(request.units)
    pieces = tuple(_piece(reading, one, f"/pieces/{n}") for n, one in enumerate(_listed(request.pieces)))
    walls = _each(reading, _listed(request.walls), "/walls", wall_to_domain)
    buildings = _each(reading, _listed(request.buildings), "/buildings", building_operation.to_domain)
    offers = tuple(_offer(reading, one, f"/offers/{n}") for n, one in enumerate(request.offers))
    kerf = reading.optional(request.kerf, "/kerf", 0, limits.KERF_MAX, defaults.KERF)
    trim = reading.optional(request.end_trim, "/end_trim", 0, limits.END_TRIM_MAX, defaults.END_TRIM)
    least = reading.optional(request.least_offcut, "/least_offcut", 0, limits.BOARD_LENGTH_MAX, 0)
    panels = tuple(_panel(reading, one, f"/sheet_pieces/{n}") for n, one in enumerate(_listed(request.sheet_pieces)))
    sheets = tuple(
        _sheet_offer(reading, one, f"/sheet_offers/{n}") for n, one in enumerate(_listed(request.sheet_offers))
    )
    boxes = tuple(
        domain.FastenerOffer(one.fastener, one.count, _whole(one.price, 2), _given(one.coating, ""))
        for one in _listed(request.fastener_offers)
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


def _piece(reading: Reading, one: wire.LoosePiece, at: str) -> domain.Piece:
    length = reading.length(one.length, f"{at}/length", limits.PIECE_LENGTH_MIN, limits.BOARD_LENGTH_MAX)
    stock = reading.stock(one.stock, f"{at}/stock", BOUGHT_LEAST, STOCK_MOST)
    return domain.Piece(stock, length, one.count, at=at, **given(treated=one.treated, mark=one.mark))  # type: ignore[arg-type]


def _offer(reading: Reading, one: wire.Offer, at: str) -> domain.Offer:
    length = reading.length(one.length, f"{at}/length", limits.BOARD_LENGTH_MIN, limits.BOARD_LENGTH_MAX)
    stock = reading.stock(one.stock, f"{at}/stock", BOUGHT_LEAST, STOCK_MOST)
    values = given(at_most=one.at_most, treated=one.treated)
    return domain.Offer(stock, length, _whole(one.price, 2), **values)  # type: ignore[arg-type]


def _panel(reading: Reading, one: wire.SheetPiece, at: str) -> domain.Panel:
    thickness = _thickness(reading, one.thickness, at)
    width = reading.length(one.width, f"{at}/width", limits.SHEET_PIECE_MIN, limits.SHEET_LENGTH_MAX)
    length = reading.length(one.length, f"{at}/length", limits.SHEET_PIECE_MIN, limits.SHEET_LENGTH_MAX)
    kind, mark = _given(one.kind, defaults.SHEET_KIND), _given(one.mark, "")
    return domain.Panel(kind, thickness, width, length, one.count, mark, at)


def _sheet_offer(reading: Reading, one: wire.SheetOffer, at: str) -> domain.SheetOffer:
    thickness = _thickness(reading, one.thickness, at)
    width = reading.length(one.width, f"{at}/width", limits.SHEET_WIDTH_MIN, limits.SHEET_WIDTH_MAX)
    length = reading.length(one.length, f"{at}/length", limits.SHEET_LENGTH_MIN, limits.SHEET_LENGTH_MAX)
    kind, at_most = _given(one.kind, defaults.SHEET_KIND), _given(one.at_most, None)
    return domain.SheetOffer(kind, thickness, width, length, _whole(one.price, 2), at_most)


def _thickness(reading: Reading, value: Any, at: str) -> int:
    return reading.length(value, f"{at}/thickness", limits.SHEET_THICKNESS_MIN, limits.SHEET_THICKNESS_MAX)


def _given(value: Any, default: Any) -> Any:
    return default if value is UNSET else value


def _pieced(c: Converter, one: Pieced) -> wire.Pieced:
    joints = joints_of(one.layout)
    layers = ([c.tape(at) for at in layer] for layer in (joints.bottom, joints.second_bottom, joints.top, joints.cap))
    bottom, second, top, cap = layers
    return wire.Pieced(one.at, one.name, bottom, second, top, cap, to_wire(one.layout.wall, c.units))


def _sheet(c: Converter, sheet: CutSheet) -> wire.SheetPlan:
    offer = sheet.offer
    return wire.SheetPlan(
        offer.kind, c.number(offer.thickness), c.number(offer.width), c.number(offer.length), sheet.count,
        [
            wire.SheetPlaced(
                one.mark, c.number(one.left), c.number(one.bottom), c.number(one.width), c.number(one.length),
                f"{c.tape(one.width)} x {c.tape(one.length)}",
            )
            for one in sheet.pieces
        ],
        [_saw(c, one) for one in sheet.cuts],
    )  # fmt: skip


def _saw(c: Converter, one: Saw) -> wire.SheetSaw:
    at = one.x1 if one.x1 == one.x2 else one.y1
    return wire.SheetSaw([c.number(one.x1), c.number(one.y1)], [c.number(one.x2), c.number(one.y2)], c.tape(at))


def _board(c: Converter, board: CutBoard) -> wire.BoardPlan:
    offer = board.offer
    return wire.BoardPlan(
        offer.stock.name, c.number(offer.length), c.tape(offer.length), offer.treated, board.count,
        [_cut(c, one) for one in board.cuts], c.number(board.offcut), c.tape(board.offcut),
    )  # fmt: skip


def _cut(c: Converter, one: CutPiece) -> wire.BoardCut:
    return wire.BoardCut(
        c.number(one.length), c.tape(one.length), one.count, one.mark, [c.number(at) for at in one.readings],
        [c.tape(at) for at in one.readings], one.nested, one.ends, one.angle,
        c.number(one.slant), list(one.long_points),
    )  # fmt: skip


def _order(c: Converter, found: Bought, request: wire.Order) -> wire.Order:
    """The completed order; posted again it gives the same answer."""
    taken, order = found.order, found.order.asked
    walls = [to_wire(one.wall, c.units) for one in taken.alone]
    buildings = [
        building_operation.to_wire_building(built, asked, c.units, building_operation.parts_of(one))
        for built, asked, one in zip(taken.buildings, order.buildings, _listed(request.buildings), strict=True)
    ]
    return wire.Order(
        units=c.units,
        pieces=[
            wire.LoosePiece(stock=_section(c, one.stock), length=c.length(one.length), count=one.count, mark=one.mark, treated=one.treated)
            for one in order.pieces
        ],
        walls=walls,
        buildings=buildings,
        offers=[
            wire.Offer(
                stock=_section(c, one.stock), length=c.length(one.length), price=money(one.price),
                at_most=UNSET if one.at_most is None else one.at_most, treated=one.treated,
            )
            for one in order.offers
        ],
        sheet_pieces=[
            wire.SheetPiece(
                thickness=c.length(one.thickness), width=c.length(one.width), length=c.length(one.length),
                count=one.count, kind=one.kind, mark=one.mark,  # type: ignore[arg-type]
            )
            for one in order.sheet_pieces
        ],
        sheet_offers=[
            wire.SheetOffer(
                thickness=c.length(one.thickness), width=c.length(one.width), length=c.length(one.length),
                price=money(one.price or 0), kind=one.kind,  # type: ignore[arg-type]
                at_most=UNSET if one.at_most is None else one.at_most,
            )
            for one in order.sheet_offers
        ],
        fastener_offers=[
            wire.FastenerOffer(
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
