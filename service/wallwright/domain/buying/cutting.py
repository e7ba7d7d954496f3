"""The cheapest boards that yield every piece of one section, with a bound that no plan can undercut.

Cutting stock with several lengths and prices, by patterns (ways to cut one board). Columns are made as the linear programme
asks for them; its prices for pieces, taken down to whole millionths of a cent, give by an exact knapsack a bound that
rests on no rounding of the solver. Then every pattern that a plan no dearer than the best known could hold is listed (the
others cost too much by the bound) and the programme in whole numbers over them is solved with no gap. Where the
list would grow past what the effort allows, the best plan found stands with its bound, and is not called proven.
"""

import math
from typing import Final

import msgspec

from wallwright.domain.buying.patterns import Counts, Fronts, Work, by_size, filled, used
from wallwright.domain.buying.problem import Cut, Effort, Found, Plan, Problem
from wallwright.domain.buying.programme import Left, columns_of, nodes_of, rows_of
from wallwright.domain.buying.solver import Column, Linear, Row, minimise

SCALE: Final = 1_000_000
"""Parts of a cent in which prices of pieces are reckoned."""
TRUSTED: Final = 10**8
"""Totals up to here, in steps of their common divisor, are told apart by the solver with certainty."""

ROWS: Final = 20
"""Conditions up to which all patterns of the effort are listed for the programme in whole numbers; of more so many fewer."""


def solve(problem: Problem, effort: Effort, left: Left) -> Found | None:
    """The cheapest plan, or None where none was found: then too few boards are to be had, as far as the effort reached."""
    plan = greedy(problem)
    pricing = Pricing(problem, effort, left)
    if plan is not None:
        pricing.take(plan)
    elif not problem.without:
        short = _short(problem, effort, left)
        if short is None:
            return None
        pricing.take(short)
        plan = short
    pricing.run()
    best = plan if plan is not None else {}
    bound = up(max(pricing.bound, by_length(problem)), problem.divisor)
    if problem.cost(best) > bound:
        best, _ = _whole(problem, sorted(pricing.cuts), best, effort.nodes, left)
    if problem.cost(best) > bound:
        best, bound = _closed(pricing, best, bound)
    cost = problem.cost(best)
    listed, exact = pricing.listed(cost, effort.tie_patterns, full=False)
    if not exact:
        listed, complete = pricing.listed(cost, effort.tie_patterns)
        listed = _union(listed if complete else tuple(pricing.cuts), best)
    return Found(best, cost, bound, listed, exact)


def _closed(pricing: "Pricing", best: Plan, bound: int) -> tuple[Plan, int]:
    """A cheaper plan or the proof that there is none, from every pattern that one could hold.

    Where these are too many, from those alone that come nearest to paying, which proves nothing but may find the plan.
    """
    problem, effort = pricing.problem, pricing.effort
    wanted = problem.cost(best) - problem.divisor
    conditions = len(problem.items) + len(problem.boards)
    most = min(effort.patterns, effort.patterns * ROWS // conditions)
    for part in (1, 2, 4, 8, 16, 32, 64):
        narrow, complete = pricing.listed(wanted, most, part=part)
        if not complete:
            continue
        cuts = narrow if part == 1 else tuple(pricing.cuts)
        best, proved = _whole(problem, _union((*narrow, *cuts), best), best, effort.nodes, pricing.left)
        if part == 1:
            bound = max(bound, min(proved, problem.cost(best)))
        break
    return best, bound


def _union(listed: tuple[Cut, ...], plan: Plan) -> tuple[Cut, ...]:
    return tuple(sorted({*listed, *plan}))


def up(scaled: int, divisor: int) -> int:
    """A bound in parts of a cent as the least total that is no less."""
    step = divisor * SCALE
    return -(-max(0, scaled) // step) * divisor


def by_length(problem: Problem) -> int:
    """What every plan costs at least, in parts of a cent, by length alone: all timber at the price of the board that is cheapest for it."""
    length = sum((item.size - item.saves) * item.most for item in problem.items)
    return min(length * board.price * SCALE // board.room for board in problem.boards)


def greedy(problem: Problem) -> Plan | None:
    """A plan by filling board after board, each time the one that is cheapest for what it holds; None where boards run out."""
    need = list(problem.demand)
    stock = [problem.supply(board) for board in range(len(problem.boards))]
    plan: Plan = {}
    order = by_size(problem.items)
    while any(need):
        best: tuple[float, int, int, Counts] | None = None
        for number, board in enumerate(problem.boards):
            counts = filled(problem.items, (0,) * len(need), tuple(need), board.room, order) if stock[number] else ()
            if any(counts):
                held = used(problem.items, counts)
                rank = (board.price / held, board.room - held, number, counts)
                best = rank if best is None or rank[:3] < best[:3] else best
        if best is None:
            return None
        number, counts = best[2], best[3]
        times = min(stock[number], *(have // count for have, count in zip(need, counts, strict=True) if count))
        plan[number, counts] = plan.get((number, counts), 0) + times
        stock[number] -= times
        need = [have - count * times for have, count in zip(need, counts, strict=True)]
    return plan


def _short(problem: Problem, effort: Effort, left: Left) -> Plan | None:
    """A plan for boards that are nearly too few, sought by leaving out as little as can be; None where pieces stay out."""
    found = solve(_leaving_out(problem), effort, left)
    return found.plan if found is not None and not found.cost else None


def missing(problem: Problem, effort: Effort, left: Left) -> tuple[Counts, bool]:
    """What cannot be cut from the boards to be had, as little as can be in length, and whether that is proven."""
    asked = _leaving_out(problem)
    found = solve(asked, effort, left)
    return (problem.demand, False) if found is None else (asked.missing(found.plan), found.bound > 0)


def _leaving_out(problem: Problem) -> Problem:
    """The same pieces with boards at no price, where what is left out costs about its length."""
    unit = max(1, max(item.size for item in problem.items) // 4_096)
    free = [msgspec.structs.replace(board, price=0) for board in problem.boards]
    return Problem(problem.items, free, tuple(-(-item.size // unit) for item in problem.items))


class Pricing:
    """Column generation: patterns as the linear programme asks for them, and the bound that its prices prove."""

    def __init__(self, problem: Problem, effort: Effort, left: Left) -> None:
        self.problem = problem
        self.effort = effort
        self.left = left
        self.cuts: dict[Cut, int] = {}
        self.bound = 0
        self._prices: list[int] = [0] * len(problem.items)
        self._work = Work(effort.steps)
        self._listing: tuple[list[int], Fronts] | None = None

    def take(self, plan: Plan) -> None:
        """The patterns of a plan that is known."""
        for cut in plan:
            self.cuts.setdefault(cut, len(self.cuts))

    def run(self) -> None:
        """Rounds until no pattern is worth adding, or the work is used up. Keeps the best bound."""
        problem = self.problem
        count = len(problem.items)
        rows = [Row(float(item.most)) for item in problem.items]
        rows += [Row(-math.inf, float(problem.supply(board))) for board in range(len(problem.boards))]
        linear = Linear(rows, self.left())
        linear.add([Column(float(price), ((place, 1.0),)) for place, price in enumerate(problem.without)])
        linear.add([self.column(cut) for cut in self.cuts])
        for _ in range(self.effort.rounds):
            _, duals = linear.solve(self.left())
            prices = [max(0, math.floor(dual * SCALE)) for dual in duals[:count]]
            if problem.without:
                prices = [min(one, cost * SCALE) for one, cost in zip(prices, problem.without, strict=True)]
            fronts = Fronts(problem.items, prices, max(board.room for board in problem.boards), self._work)
            if not fronts.complete:
                return
            self._better(prices, fronts)
            fresh = self._fresh(fronts, duals[count:])
            if not fresh:
                return
            for cut in fresh:
                self.cuts[cut] = len(self.cuts)
            linear.add([self.column(cut) for cut in fresh])

    def column(self, cut: Cut) -> Column:
        """A pattern as an unknown of the programme: rows are items, then boards."""
        board, counts = cut
        entries = [(place, float(count)) for place, count in enumerate(counts) if count]
        return Column(float(self.problem.boards[board].price), (*entries, (len(counts) + board, 1.0)))

    def _better(self, prices: list[int], fronts: Fronts) -> None:
        parts = [(1, 1)]
        for board in self.problem.boards:
            if 0 < board.price * SCALE < fronts.best(board.room):
                parts.append((board.price * SCALE, fronts.best(board.room)))
        bound, part = max((self._bound_at(prices, fronts, part), part) for part in parts)
        prices = [price * part[0] // part[1] for price in prices]
        if bound > self.bound or not any(self._prices):
            self.bound, self._prices = max(bound, self.bound), prices

    def _bound_at(self, prices: list[int], fronts: Fronts, part: tuple[int, int]) -> int:
        """The bound where all prices are a part of these: while they are still too high for the boards, the better one.

        Rounded down, pieces are worth no more than that part together.
        """
        above, below = part
        total = sum(
            item.most * (price * above // below) for item, price in zip(self.problem.items, prices, strict=True)
        )
        for number, board in enumerate(self.problem.boards):
            gain = -(-fronts.best(board.room) * above // below) - board.price * SCALE
            total -= self.problem.supply(number) * max(0, gain)
        return total

    def _bound_of(self, prices: list[int], fronts: Fronts) -> int:
        """What every plan costs at least: the pieces at their prices, less what boards to be had are worth beyond theirs."""
        return self._bound_at(prices, fronts, (1, 1))

    def _fresh(self, fronts: Fronts, duals: tuple[float, ...]) -> list[Cut]:
        fresh = []
        for number, board in enumerate(self.problem.boards):
            worth = fronts.best(board.room)
            if worth > board.price * SCALE - math.floor(min(0.0, duals[number]) * SCALE) + len(self.problem.items):
                counts = filled(self.problem.items, fronts.pattern(board.room), self.problem.demand, board.room)
                if (number, counts) not in self.cuts:
                    fresh.append((number, counts))
        return fresh

    def _at_best(self) -> Fronts:
        """The fronts at the prices of the best bound."""
        if self._listing is None or self._listing[0] is not self._prices:
            room = max(board.room for board in self.problem.boards)
            self._listing = (self._prices, Fronts(self.problem.items, self._prices, room, Work(self.effort.steps)))
        return self._listing[1]

    def listed(self, cost: int, most: int, *, part: int = 1, full: bool = True) -> tuple[tuple[Cut, ...], bool]:
        """Every pattern (full ones alone, or all) that a plan of at most ``cost`` cents can hold, and whether these are all.

        With ``part`` only those that come so many times nearer to paying.
        """
        work = Work(self.effort.visits)
        fronts = self._at_best()
        if not fronts.complete:
            return (), False
        room_over = (cost * SCALE - self._bound_of(self._prices, fronts)) // part
        found: list[Cut] = []
        for number, board in enumerate(self.problem.boards):
            if not self.problem.supply(number):
                continue
            # With boards that are few, the price of one is raised by what it is worth beyond its own.
            price = max(board.price * SCALE, fronts.best(board.room))
            for counts in fronts.worth(board.room, price - room_over, work, full=full):
                found.append((number, counts))
                if len(found) > most:
                    return (), False
            if work.left < 0:
                return (), False
        return tuple(found), True


def _whole(problem: Problem, cuts: tuple[Cut, ...] | list[Cut], best: Plan, nodes: int, left: Left) -> tuple[Plan, int]:
    """The best plan over some patterns, no dearer than the one known, and what no plan over them can undercut."""
    divisor = problem.divisor
    columns = [columns_of(problem, cut, problem.boards[cut[0]].price / divisor) for cut in cuts]
    columns += [Column(cost / divisor, ((place, 1.0),)) for place, cost in enumerate(problem.without)]
    rows = rows_of(problem)
    solved = minimise(columns, rows, step=1.0, nodes=nodes_of(nodes, columns, rows), left=left())
    if not solved.values:
        return best, problem.cost(best) if solved.proven else 0
    plan = {cut: round(times) for cut, times in zip(cuts, solved.values, strict=False) if round(times)}
    if problem.cost(plan) > problem.cost(best) or (not problem.without and any(problem.missing(plan))):
        plan = best
    cost = problem.cost(plan)
    if cost // divisor > TRUSTED or math.isinf(solved.bound):
        return plan, 0
    # The solver's own bound lies within a hundredth of a step below what is proven.
    least = cost if solved.proven else math.ceil(solved.bound - 0.01) * divisor
    return plan, min(least, cost)
