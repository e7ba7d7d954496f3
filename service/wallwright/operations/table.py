"""The one table of all operations: routes, document, command and viewer are made from it."""

from collections.abc import Callable
from typing import Any, Final

import msgspec

from wallwright.domain.building import closed
from wallwright.lengths import Units
from wallwright.operations import building, buying, fasteners, layout, raising, sheathing, squaring
from wallwright.operations.canonical import digest
from wallwright.operations.walls import to_domain as wall_to_domain
from wallwright.wire.building import Building, BuildingAnswer
from wallwright.wire.buying import BuyingAnswer
from wallwright.wire.buying_asked import Order
from wallwright.wire.fasteners import FastenersAnswer
from wallwright.wire.layout import LayoutAnswer
from wallwright.wire.raising import RaisingAnswer
from wallwright.wire.sheathing import SheathingAnswer
from wallwright.wire.squaring import DeckAnswer, FrameAnswer
from wallwright.wire.squaring_asked import Deck, Frame
from wallwright.wire.wall import Wall


class Operation(msgspec.Struct, frozen=True):
    """One computing operation: what it takes, what it gives, and in which forms.

    ``answer``, ``drawing`` and ``table`` compute the JSON, SVG and CSV forms from the decoded request;
    each raises PlanRefused with every fault found; ``table`` is None where there is no list. ``identity`` is the digest of the canonical form,
    known before anything is computed.
    """

    name: str
    path: str
    summary: str
    description: str
    request: type
    response: type
    answer: Callable[[Any], Any]
    drawing: Callable[[Any], str]
    table: Callable[[Any], str] | None
    identity: Callable[[Any], str]
    table_of: str
    slow: bool = False
    """Whether it may compute for seconds, so that it is run beside the requests of others."""

    @property
    def forms(self) -> tuple[str, ...]:
        """The forms that it is answered in."""
        return ("json", "svg") if self.table is None else ("json", "svg", "csv")


def _wall_identity(request: Wall) -> str:
    return digest(wall_to_domain(request), request.units)


def _building_identity(request: Building) -> str:
    units: Units = request.units
    parts = "-".join(building.parts_of(request))
    return digest(closed(building.to_domain(request)), units) + "-" + parts


OPERATIONS: Final = (
    Operation(
        "layout",
        "/v1/layout",
        "Lay out and frame a wall",
        "Members, plate marks and cut list of one wall. As a drawing: the framing elevation with its plate strip. "
        "Sizes that can hurt someone carry cautions; local codes and licensed practice come first.",
        Wall,
        LayoutAnswer,
        layout.answer,
        layout.drawing,
        layout.table,
        _wall_identity,
        "cut list",
    ),
    Operation(
        "sheathing",
        "/v1/sheathing",
        "Skin a wall",
        "Pieces of sheathing with their cut lines, sheets, seams, blocking and offcuts of one wall. As a drawing: "
        "the sheathing elevation.",
        Wall,
        SheathingAnswer,
        sheathing.answer,
        sheathing.drawing,
        sheathing.table,
        _wall_identity,
        "pieces",
    ),
    Operation(
        "raising",
        "/v1/raising",
        "Raise a wall",
        "What raising a wall takes: the weight and centre of gravity of every member and sheet, the lift at every angle, "
        "people by the published lifting equation and by the trade's rule, what holds the plate, temporary braces, winds, "
        "steps. As a drawing: the raising sketch. Raising walls can hurt people: it carries cautions.",
        Wall,
        RaisingAnswer,
        raising.answer,
        raising.drawing,
        raising.table,
        _wall_identity,
        "steps",
    ),
    Operation(
        "fasteners",
        "/v1/fasteners",
        "Fasten a wall",
        "Joints of one wall with their fasteners, counts and totals, with `positions` each fastener's place, and what a "
        "fastener is said to hold by published formulas. As a drawing: the nailing elevation. Information, not a design; "
        "local codes and licensed practice come first.",
        Wall,
        FastenersAnswer,
        fasteners.answer,
        fasteners.drawing,
        fasteners.table,
        _wall_identity,
        "joints and totals",
    ),
    Operation(
        "building",
        "/v1/building",
        "Wall a building",
        "Four walls that close at the corners, each a complete Wall that can be posted on as it is, with corners, "
        "totals and order of work. As a drawing: the plan.",
        Building,
        BuildingAnswer,
        building.answer,
        building.drawing,
        building.table,
        _building_identity,
        "pieces of all walls",
    ),
    Operation(
        "buying",
        "/v1/buying",
        "Buy for pieces, walls and buildings",
        "The cheapest boards to buy for pieces, walls and buildings together, how each is cut, what it costs, and how near "
        "to the cheapest it is proven to be. As a drawing: the cutting diagrams. Cutting can hurt people: it carries "
        "cautions.",
        Order,
        BuyingAnswer,
        buying.answer,
        buying.drawing,
        buying.table,
        buying.identity,
        "order sheet",
        slow=True,
    ),
    Operation(
        "squaring-frame",
        "/v1/squaring/frame",
        "Square a frame",
        "How far a measured frame is racked, which diagonal to shorten and how far to push, and whether the lengths "
        "contradict one another by more than the tape explains; on request what a sheet and a plumb line say. As a "
        "drawing: the racked frame. Moving a frame can hurt people: it carries cautions.",
        Frame,
        FrameAnswer,
        squaring.frame_answer,
        squaring.frame_drawing,
        None,
        squaring.frame_identity,
        "",
    ),
    Operation(
        "squaring-deck",
        "/v1/squaring/deck",
        "Square a deck",
        "The corners of a measured deck by least squares, its largest rectangle, and the best placing of the one wanted "
        "with what sticks out or lacks at every corner and edge. As a drawing: the deck with both rectangles.",
        Deck,
        DeckAnswer,
        squaring.deck_answer,
        squaring.deck_drawing,
        None,
        squaring.deck_identity,
        "",
    ),
)

BY_NAME: Final = {operation.name: operation for operation in OPERATIONS}
