"""A purchase: wire order to domain, and back as JSON, cutting diagrams or order sheet."""

import time
from typing import Final

from msgspec import UNSET
from msgspec.structs import replace

from wallwright.domain.building import closed
from wallwright.domain.buying.boards import CutBoard, CutPiece
from wallwright.domain.buying.buy import Bought, CostLine, buy
from wallwright.domain.buying.panels import CutSheet, Saw
from wallwright.domain.buying.pieced import Pieced, joints_of
from wallwright.domain.buying.solver import TookTooLong
from wallwright.drawing.buying import cutting_diagrams, cutting_pages
from wallwright.drawing.svg import svg_text
from wallwright.operations import building as building_operation
from wallwright.operations.buying_asked import listed, money, to_domain, to_wire_order
from wallwright.operations.canonical import digest
from wallwright.operations.completed import to_wire
from wallwright.operations.converters import CONVERTERS, Converter
from wallwright.operations.csv import csv_text
from wallwright.operations.fasteners import total_answer
from wallwright.wire import buying as wire
from wallwright.wire import buying_asked as wire_asked
from wallwright.wire.layout import Stock as WireStock

__all__ = ["TookTooLong", "answer", "bought_pages", "drawing", "identity", "table", "to_domain"]

SQUARE_FOOT: Final = 92_903.04
"""In square millimetres."""
GUARD_SECONDS: Final = 60.0
"""The clock's guard: past it there is no plan, since a worse one would depend on the machine."""


def answer(request: wire_asked.Order) -> wire.BuyingAnswer:
    """The purchase as it travels. Raises PlanRefused with every fault found, TookTooLong past the guard."""
    return _answer(request, bought(request))


def bought_pages(request: wire_asked.Order) -> tuple[wire.BuyingAnswer, list[str]]:
    """The purchase as it travels, and its cutting diagrams as one drawing a page, reckoned once. Raises as `answer` does."""
    found = bought(request)
    scenes = cutting_pages(found, request.units, identity(request)[:8])
    return _answer(request, found), [svg_text(scene) for scene in scenes]


def _answer(request: wire_asked.Order, found: Bought) -> wire.BuyingAnswer:
    c = CONVERTERS[request.units]
    stocks = dict.fromkeys(cut.section[0] for cut in found.cuts)
    return wire.BuyingAnswer(
        order=to_wire_order(c, found, request),
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
                line.coating or UNSET,
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


def drawing(request: wire_asked.Order) -> str:
    """The cutting diagrams, as SVG."""
    return cutting_diagrams(bought(request), request.units, identity(request)[:8])


def table(request: wire_asked.Order) -> str:
    """The order sheet as CSV, as a yard picks it."""
    found = bought(request)
    c = CONVERTERS[request.units]
    header = ["item", "stock", "treated", f"width_{request.units}", f"length_{request.units}", "size", "count", "price",
              "cost", "coating"]  # fmt: skip
    rows: list[list[object]] = [
        [
            line.item, line.stock, "yes" if line.treated else "no", c.number(line.width), c.number(line.length),
            size_of(c, line), line.count, "" if line.price is None else f"{money(line.price):.2f}",
            f"{money(line.cost):.2f}", line.coating,
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


def identity(request: wire_asked.Order) -> str:
    """The digest of the order's canonical form."""
    order = to_domain(request)
    parts = ["-".join(building_operation.parts_of(one)) for one in listed(request.buildings)]
    plain = replace(order, buildings=tuple(closed(one) for one in order.buildings))
    return "-".join([digest(plain, request.units), *parts])


def bought(request: wire_asked.Order) -> Bought:
    """The order bought, within the guard."""
    end = time.monotonic() + GUARD_SECONDS
    return buy(to_domain(request), lambda: end - time.monotonic())


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
