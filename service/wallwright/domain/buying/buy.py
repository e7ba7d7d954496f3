"""An order bought: boards by section with their cuts, what everything costs, and what is left over."""

from fractions import Fraction

import msgspec
from msgspec.structs import replace

from wallwright.domain.buying import boards
from wallwright.domain.buying.asked import Order, SheetOffer
from wallwright.domain.buying.boards import Cut, Section
from wallwright.domain.buying.boxes import Boxes, boxed
from wallwright.domain.buying.cheaper import cheaper
from wallwright.domain.buying.needs import Taken, fasteners_of, panels_of, pieces_of, sheet_offers
from wallwright.domain.buying.notes import findings
from wallwright.domain.buying.panels import SheetCut, cut_sheets
from wallwright.domain.buying.pieced import Pieced, chosen, cut_or_none, with_joints
from wallwright.domain.buying.programme import Left
from wallwright.domain.fasteners import Total
from wallwright.findings import Fault, Finding, PlanRefused
from wallwright.lengths import MILLIMETRE


class CostLine(msgspec.Struct, frozen=True, gc=False):
    """One line of the order sheet, as a yard picks it; money in cents."""

    item: str
    """``board``, ``sheet`` or ``fastener``."""
    stock: str
    """A section's name, a sheet's kind, or a fastener's name."""
    thickness: int
    width: int
    length: int
    treated: bool
    count: int
    price: int | None
    """None where it is not known; the line then costs nothing here."""
    cost: int
    pack: int = 0
    """How many fasteners are in a box."""
    coating: str = ""
    """Of fasteners: what is picked for a treated plate is not what is picked for the rest."""


class Waste(msgspec.Struct, frozen=True, gc=False):
    """What of the boards bought ends in no piece. ``offcuts`` are the useful ones, which are no waste."""

    length: int
    percent: float
    saw: int
    """Saw cuts and trims alone."""
    offcuts: int
    area: int
    """Of sheets, in square millimetres."""
    area_percent: float
    money: int


class Bought(msgspec.Struct, frozen=True):
    """An order bought. Money is in cents, with tax; ``bound`` is what no plan can undercut."""

    order: Taken
    cuts: tuple[Cut, ...]
    sheets: tuple[SheetCut, ...]
    fasteners: tuple[Total, ...]
    cost_lines: tuple[CostLine, ...]
    net: int
    tax: int
    cost: int
    lower_bound: int
    proven: bool
    """Whether no cheaper plan exists, nor one of fewer sheets where their price is not known."""
    waste: Waste
    findings: tuple[Finding, ...]
    pieced: tuple[Pieced, ...] = ()
    """The walls whose plates are jointed anew."""


def buy(order: Order, left: Left) -> Bought:
    """The cheapest way to buy an order, as far as its effort reaches.

    ``left`` tells the seconds left until the guard. Raises PlanRefused with every fault found, TookTooLong past the guard.
    """
    if not (order.pieces or order.walls or order.buildings or order.sheet_pieces):
        raise PlanRefused((Fault("nothing-to-buy", "/pieces"),))
    taken = Taken(order)
    free = _pieced(taken, left) if order.piece_plates and taken.walls else _Free(taken)
    taken = free.taken
    by_section = boards.sections(pieces_of(taken))
    boards.check(order, by_section)
    faults: list[Fault] = []
    cuts: list[Cut] = []
    for section, pieces in by_section.items():
        try:
            cut = free.cuts.get(section) or boards.cut(order, section, pieces, left)
            cuts.append(replace(cut, bound=min(cut.bound, free.bounds.get(section, cut.bound))))
        except PlanRefused as refused:
            faults += refused.faults
    sheets, more = _sheets(taken, left)
    if faults or more:
        raise PlanRefused((*faults, *more))
    totals = fasteners_of(taken)
    boxes, unpriced = boxed(totals, order.fastener_offers)
    lines = (*_lines(cuts), *_sheet_lines(sheets), *_box_lines(boxes))
    net = sum(line.cost for line in lines)
    least = sum(cut.bound for cut in cuts) + sum(one.bound for one in sheets if one.priced)
    least += sum(one.offer.price * one.count for one in boxes)
    proven = all(one.cost == one.bound for one in cuts) and all(one.cost == one.bound for one in sheets)
    said = (*findings(order, cuts, sheets, unpriced), *free.said(), *cheaper(order, cuts, by_section, left))
    return Bought(
        taken, tuple(cuts), tuple(sheets), totals, lines, net, _tax(net, order.tax), net + _tax(net, order.tax),
        least + _tax(least, order.tax), proven, _waste(order, cuts, sheets), said, free.walls,
    )  # fmt: skip


class _Free(msgspec.Struct, frozen=True):
    """The order with its plates jointed as is cheapest: its walls, cuts already known, and bounds over every way to joint."""

    taken: Taken
    walls: tuple[Pieced, ...] = ()
    cuts: dict[Section, Cut] = {}
    bounds: dict[Section, int] = {}
    complete: bool = True

    def said(self) -> tuple[Finding, ...]:
        """That plates were jointed anew, and whether every way was looked at."""
        if not self.bounds:
            return ()
        found = [Finding("plates-pieced", "/piece_plates", (("count", str(len(self.walls))),))]
        return (*found, *(() if self.complete else (Finding("plates-not-proven", "/effort"),)))


def _pieced(taken: Taken, left: Left) -> _Free:
    """The plates jointed anew in the sections where that is cheaper, or where boards hold the plates only so."""
    order = taken.asked
    found = chosen(taken, left)
    plain = boards.sections(pieces_of(taken))
    before = {one.section: cut_or_none(order, one.section, plain[one.section], left) for one in found}
    better = []
    for one in found:
        now = before[one.section]
        if one.cost is not None and (now is None or one.cost < now.cost):
            better.append(one)
    again = taken
    walls: tuple[Pieced, ...] = ()
    cuts: dict[Section, Cut] = {}
    while better:
        again, walls = with_joints(taken, [pick for one in better for pick in one.ways])
        pieces = boards.sections(pieces_of(again))
        made = {one.section: cut_or_none(order, one.section, pieces[one.section], left) for one in better}
        worse = [one for one in better if _dearer(made[one.section], before[one.section])]
        if not worse:
            cuts = {section: cut for section, cut in made.items() if cut is not None}
            break
        better = [one for one in better if one not in worse]
        again, walls = taken, ()
    cuts |= {section: cut for section, cut in before.items() if cut is not None and section not in cuts}
    bounds = {one.section: one.bound for one in found}
    return _Free(again, walls, cuts, bounds, complete=all(one.complete for one in found))


def _dearer(cut: Cut | None, other: Cut | None) -> bool:
    return other is not None and (cut is None or cut.cost >= other.cost)


def _sheets(taken: Taken, left: Left) -> tuple[list[SheetCut], list[Fault]]:
    """The sheets of each kind and thickness cut, or why they cannot be."""
    order = taken.asked
    found: list[SheetCut] = []
    faults: list[Fault] = []
    for group, panels in panels_of(taken).items():
        offers = sheet_offers(taken, group)
        if not offers:
            values = (("kind", group[0]), ("thickness", group[1]))
            faults.append(Fault("sheet-not-offered", "/sheet_offers", values))
            continue
        try:
            found.append(cut_sheets(panels, offers, order.kerf, order.grain, order.effort, left))
        except PlanRefused as refused:
            faults += refused.faults
    return found, faults


def _tax(net: int, rate: int) -> int:
    """Tax in whole cents, half a cent up; ``rate`` in thousandths of a percent."""
    return int(Fraction(net * rate, 100_000) + Fraction(1, 2))


def _lines(cuts: list[Cut]) -> tuple[CostLine, ...]:
    """The boards to pick up, by section and length."""
    found = []
    for cut in cuts:
        counts: dict[tuple[int, int], int] = {}
        for board in cut.boards:
            key = (board.offer.length, board.offer.price)
            counts[key] = counts.get(key, 0) + board.count
        stock, treated = cut.section
        found += [
            CostLine("board", stock.name, stock.thickness, stock.width, length, treated, count, price, price * count)
            for (length, price), count in sorted(counts.items(), reverse=True)
        ]
    return tuple(found)


def _sheet_lines(sheets: list[SheetCut]) -> list[CostLine]:
    """The sheets to pick up, by kind, thickness and size."""
    found = []
    for cut in sheets:
        counts: dict[SheetOffer, int] = {}
        for one in cut.sheets:
            counts[one.offer] = counts.get(one.offer, 0) + one.count
        for offer, count in counts.items():
            price = offer.price if cut.priced else None
            sizes = (offer.thickness, offer.width, offer.length)
            found.append(CostLine("sheet", offer.kind, *sizes, False, count, price, (price or 0) * count))
    return found


def _box_lines(boxes: tuple[Boxes, ...]) -> list[CostLine]:
    """The boxes of fasteners to pick up."""
    return [
        CostLine(
            "fastener", one.total.fastener, one.total.diameter, one.total.diameter, one.total.length, False, one.count,
            one.offer.price, one.offer.price * one.count, one.offer.count, one.total.coating,
        )
        for one in boxes
    ]  # fmt: skip


def _waste(order: Order, cuts: list[Cut], sheets: list[SheetCut]) -> Waste:
    whole = used = kept = saw = 0
    money = Fraction(0)
    for cut in cuts:
        for board in cut.boards:
            length = board.offer.length
            pieces = sum(piece.length * piece.count for piece in board.cuts)
            useful = board.offcut if order.least_offcut and board.offcut >= order.least_offcut else 0
            whole += length * board.count
            used += pieces * board.count
            kept += useful * board.count
            saw += max(0, length - pieces - board.offcut) * board.count
            money += Fraction(board.offer.price * max(0, length - pieces - useful) * board.count, length)
    lost = max(0, whole - used - kept)
    percent = round(100 * lost / whole, 3) if whole else 0.0
    area_bought = area_used = 0
    for group in sheets:
        for sheet in group.sheets:
            offer = sheet.offer
            whole_area, in_pieces = offer.width * offer.length, sum(one.width * one.length for one in sheet.pieces)
            area_bought += whole_area * sheet.count
            area_used += in_pieces * sheet.count
            if group.priced:
                money += Fraction((offer.price or 0) * (whole_area - in_pieces) * sheet.count, whole_area)
    area = (area_bought - area_used) // MILLIMETRE**2
    area_percent = round(100 * (area_bought - area_used) / area_bought, 3) if area_bought else 0.0
    return Waste(lost, percent, saw, kept, area, area_percent, int(money + Fraction(1, 2)))
