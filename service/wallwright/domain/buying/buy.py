"""An order bought: boards by section with their cuts, what everything costs, and what is left over."""

from fractions import Fraction

import msgspec

from wallwright.domain.buying import boards
from wallwright.domain.buying.asked import Order
from wallwright.domain.buying.boards import Cut
from wallwright.domain.buying.cutting import Left
from wallwright.domain.buying.needs import Taken, pieces_of
from wallwright.domain.buying.notes import findings
from wallwright.domain.stock import Stock
from wallwright.findings import Fault, Finding, PlanRefused


class CostLine(msgspec.Struct, frozen=True, gc=False):
    """One line of the order sheet, as a yard picks it; money in cents."""

    item: str
    stock: Stock
    length: int
    treated: bool
    count: int
    price: int
    cost: int


class Waste(msgspec.Struct, frozen=True, gc=False):
    """What of the boards bought ends in no piece. ``offcuts`` are the useful ones, which are no waste."""

    length: int
    percent: float
    saw: int
    """Saw cuts and trims alone."""
    offcuts: int
    money: int


class Bought(msgspec.Struct, frozen=True):
    """An order bought. Money is in cents, with tax; ``bound`` is what no plan can undercut."""

    order: Taken
    cuts: tuple[Cut, ...]
    cost_lines: tuple[CostLine, ...]
    net: int
    tax: int
    cost: int
    lower_bound: int
    waste: Waste
    findings: tuple[Finding, ...]

    @property
    def proven(self) -> bool:
        """Whether no cheaper plan exists."""
        return self.cost == self.lower_bound


def buy(order: Order, left: Left) -> Bought:
    """The cheapest way to buy an order, as far as its effort reaches.

    ``left`` tells the seconds left until the guard. Raises PlanRefused with every fault found, TookTooLong past the guard.
    """
    if not (order.pieces or order.walls or order.buildings):
        raise PlanRefused((Fault("nothing-to-buy", "/pieces"),))
    taken = Taken(order)
    by_section = boards.sections(pieces_of(taken))
    boards.check(order, by_section)
    faults: list[Fault] = []
    cuts: list[Cut] = []
    for section, pieces in by_section.items():
        try:
            cuts.append(boards.cut(order, section, pieces, left))
        except PlanRefused as refused:
            faults += refused.faults
    if faults:
        raise PlanRefused(tuple(faults))
    lines = _lines(cuts)
    net = sum(line.cost for line in lines)
    least = sum(cut.bound for cut in cuts)
    return Bought(
        taken, tuple(cuts), lines, net, _tax(net, order.tax), net + _tax(net, order.tax),
        least + _tax(least, order.tax), _waste(order, cuts), findings(order, cuts),
    )  # fmt: skip


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
            CostLine("board", stock, length, treated, count, price, price * count)
            for (length, price), count in sorted(counts.items(), reverse=True)
        ]
    return tuple(found)


def _waste(order: Order, cuts: list[Cut]) -> Waste:
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
    return Waste(lost, percent, saw, kept, int(money + Fraction(1, 2)))
