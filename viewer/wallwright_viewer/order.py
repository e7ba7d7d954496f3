"""The order as a page to take to the yard: what to pick up, section by section, what it costs, and how each board is cut."""

import math
from collections.abc import Callable
from typing import Final

import msgspec

from wallwright.operations.buying import bought_pages
from wallwright.wire.base import Units, encode_length
from wallwright.wire.building import BuildingAnswer
from wallwright.wire.buying import BuyingAnswer, CostLine
from wallwright.wire.buying_asked import Order
from wallwright.wire.limits import Z_MAX
from wallwright_viewer.drawn import Drawing, Packer, inline

OrderOf = Callable[[bytes], Order]
"""Reads the order that a link's query holds; raises ValueError with what is wrong in it."""
_NAMES: Final = {"board": "", "sheet": "Sheets: ", "fastener": "Fasteners and anchors"}


BY_LENGTH: Final = b"prices=length"
"""Stands behind an order in a link where no price was given and each board counts its length, so that the page says so."""
_STEPS: Final = {"in": (24, 4, 8, 12), "mm": (600, 4, 8, 1000)}
"""Boards as yards have them: from so many steps to so many (further where a piece is longer), and what counts 1.00."""


class Pick(msgspec.Struct, frozen=True):
    """What is picked from one rack: a section of timber, a kind of sheet, or the fasteners."""

    title: str
    lines: list[CostLine]
    count: int
    """How many are bought; what is in hand is counted apart."""
    in_hand: int
    cost: float | None
    """None where a price is not known."""


class OrderPage(msgspec.Struct, frozen=True):
    """Everything on the page of an order."""

    answer: BuyingAnswer
    units: Units
    picks: list[Pick]
    uncounted: list[tuple[str, int]]
    """Fasteners that no price is known of: name and how many to buy."""
    drawings: list[Drawing]
    by_length: bool
    """Whether no price was given, and what stands as one is a board's length."""


def order_link(body: bytes, answer: BuildingAnswer, packed: Packer) -> str:
    """Where the order of a building is shown that is bought from the usual lengths; empty where that is too long for a link.

    ``body`` is the building as it was asked for. Nobody has said a price: each board counts its length.
    """
    units = answer.building.units
    step, least, most, one = _STEPS[units]
    longest: dict[tuple[str, bool], float] = {}
    for piece in answer.totals.pieces:
        section = (piece.stock, piece.treated)
        longest[section] = max(longest.get(section, 0), piece.length)
    offers = [
        {"stock": stock, "length": number * step, "price": round(number * step / one, 2), "treated": treated}
        for (stock, treated), length in longest.items()
        for number in range(least, max(most, math.ceil(length / step)) + 1)
    ]
    order = {"units": units, "buildings": [msgspec.Raw(body)], "offers": offers}
    z = packed(msgspec.json.encode(order))
    return f"/order?z={z}&{BY_LENGTH.decode()}" if len(z) + len(BY_LENGTH) < Z_MAX else ""


def order_page(request: Order, packed: Packer, by_length: bool = False) -> OrderPage:
    """The page of an order. Raises PlanRefused, TookTooLong."""
    answer, pages = bought_pages(request)
    body = msgspec.json.encode(answer.order, enc_hook=encode_length)
    z = packed(body)
    links = [(form, f"/v1/buying.{form}?z={z}") for form in ("svg", "json", "csv")] if len(z) <= Z_MAX else []
    pretty = msgspec.json.format(body, indent=2).decode()
    drawings = [
        Drawing(f"cuts{number}", f"Cutting diagrams, page {number}", inline(svg, f"cuts{number}"), "/v1/buying", links, pretty, "", number)
        for number, svg in enumerate(pages, 1)
    ]  # fmt: skip
    priced = {(line.stock, line.coating) for line in answer.cost_lines if line.item == "fastener"}
    loose = [
        (f"{one.fastener}, {one.coating}", one.to_buy)
        for one in answer.fasteners
        if one.to_buy and (one.fastener, one.coating) not in priced
    ]
    return OrderPage(answer, request.units, _picks(answer.cost_lines), loose, drawings, by_length)


def _picks(lines: list[CostLine]) -> list[Pick]:
    """The lines rack by rack, in the order of the answer: the heaviest sections first, the longest boards first."""
    racks: dict[str, list[CostLine]] = {}
    for line in lines:
        title = _NAMES[line.item]
        if line.item != "fastener":
            title += f"{line.stock}{', treated' if line.treated else ''}"
        racks.setdefault(title, []).append(line)
    return [
        Pick(
            title,
            own,
            sum(one.count for one in own if one.price != 0),
            sum(one.count for one in own if one.price == 0),
            round(sum(one.cost for one in own), 2) if all(isinstance(one.price, float) for one in own) else None,
        )
        for title, own in racks.items()
    ]
