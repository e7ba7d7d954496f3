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
from wallwright.domain.buying.buy import Bought, buy
from wallwright.domain.buying.solver import TookTooLong
from wallwright.domain.stock import Stock
from wallwright.drawing.buying import cutting_diagrams
from wallwright.findings import PlanRefused
from wallwright.operations import building as building_operation
from wallwright.operations.canonical import digest
from wallwright.operations.completed import to_wire
from wallwright.operations.converters import CONVERTERS, Converter
from wallwright.operations.csv import csv_text
from wallwright.operations.reading import STOCK_LEAST, STOCK_MOST, Reading, given
from wallwright.operations.walls import to_domain as wall_to_domain
from wallwright.wire import buying as wire
from wallwright.wire import limits
from wallwright.wire.layout import Stock as WireStock

__all__ = ["TookTooLong", "answer", "drawing", "identity", "table", "to_domain"]

GUARD_SECONDS: Final = 60.0
"""The clock's guard: past it there is no plan, since a worse one would depend on the machine."""


def answer(request: wire.Order) -> wire.BuyingAnswer:
    """The purchase as it travels. Raises PlanRefused with every fault found, TookTooLong past the guard."""
    found = bought(request)
    c = CONVERTERS[request.units]
    stocks = dict.fromkeys(cut.section[0] for cut in found.cuts)
    return wire.BuyingAnswer(
        order=_order(c, found, request),
        boards=[_board(c, board) for cut in found.cuts for board in cut.boards],
        cost=money(found.cost),
        before_tax=money(found.net),
        tax=money(found.tax),
        cost_lines=[
            wire.CostLine(
                line.item, line.stock.name, c.tape(line.length), c.number(line.length), line.treated, line.count,
                money(line.price), money(line.cost),
            )
            for line in found.cost_lines
        ],
        lower_bound=money(found.lower_bound),
        proven=found.proven,
        waste=wire.Waste(
            c.number(found.waste.length), c.tape(found.waste.length), found.waste.percent, c.number(found.waste.saw),
            c.number(found.waste.offcuts), money(found.waste.money),
        ),
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
    header = ["item", "stock", "treated", f"length_{request.units}", "size", "count", "price", "cost"]
    rows: list[list[object]] = [
        [
            line.item,
            line.stock.name,
            "yes" if line.treated else "no",
            c.number(line.length),
            c.tape(line.length),
            line.count,
            f"{money(line.price):.2f}",
            f"{money(line.cost):.2f}",
        ]
        for line in found.cost_lines
    ]
    return csv_text(header, rows)


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
    if reading.faults:
        raise PlanRefused(tuple(reading.faults))
    tax = UNSET if request.tax_percent is UNSET else _whole(request.tax_percent, 3)
    return domain.Order(
        pieces, walls, buildings, offers, kerf, trim, least_offcut=least,
        **given(effort=request.effort, spare=request.spare_percent, tax=tax),  # type: ignore[arg-type]
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


def _piece(reading: Reading, one: wire.Piece, at: str) -> domain.Piece:
    length = reading.length(one.length, f"{at}/length", 1, limits.BOARD_LENGTH_MAX)
    stock = reading.stock(one.stock, f"{at}/stock", STOCK_LEAST, STOCK_MOST)
    return domain.Piece(stock, length, one.count, at=at, **given(treated=one.treated, mark=one.mark))  # type: ignore[arg-type]


def _offer(reading: Reading, one: wire.Offer, at: str) -> domain.Offer:
    length = reading.length(one.length, f"{at}/length", limits.BOARD_LENGTH_MIN, limits.BOARD_LENGTH_MAX)
    stock = reading.stock(one.stock, f"{at}/stock", STOCK_LEAST, STOCK_MOST)
    values = given(at_most=one.at_most, treated=one.treated)
    return domain.Offer(stock, length, _whole(one.price, 2), **values)  # type: ignore[arg-type]


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
        c.number(one.slant),
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
            wire.Piece(stock=_name(one.stock), length=c.length(one.length), count=one.count, mark=one.mark, treated=one.treated)
            for one in order.pieces
        ],
        walls=walls,
        buildings=buildings,
        offers=[
            wire.Offer(
                stock=_name(one.stock), length=c.length(one.length), price=money(one.price),
                at_most=UNSET if one.at_most is None else one.at_most, treated=one.treated,
            )
            for one in order.offers
        ],
        kerf=c.extent(order.kerf),
        end_trim=c.extent(order.end_trim),
        effort=order.effort,
        spare_percent=order.spare,
        least_offcut=c.extent(order.least_offcut),
        tax_percent=order.tax / 1000,
    )  # fmt: skip


def _name(stock: Stock) -> str:
    return stock.name
