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

from wallwright.domain.buying.patterns import Counts, by_size, filled, used
from wallwright.domain.buying.pricing import SCALE, Pricing, up
from wallwright.domain.buying.problem import Cut, Effort, Found, Plan, Problem
from wallwright.domain.buying.programme import TRUSTED, Left, columns_of, nodes_of, rows_of
from wallwright.domain.buying.solver import Column, minimise
from wallwright.domain.buying.tree import Allowed, cheapest_of

PARTS: Final = (64, 16, 4, 1)
"""Into how many parts what patterns may cost beyond the worth of their pieces is taken, from one listing to the next."""
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
        best, bound = (_left_out if problem.without else _closed)(pricing, best, bound)
    cost = problem.cost(best)
    over = cost * SCALE - pricing.base
    listed, exact = pricing.listed(over, effort.tie_patterns, full=False)
    if not exact:
        listed, complete = pricing.listed(over, effort.tie_patterns)
        listed = _union(listed if complete else tuple(pricing.cuts), best)
    return Found(best, cost, bound, listed, exact)


def _closed(pricing: Pricing, best: Plan, bound: int) -> tuple[Plan, int]:
    """A cheaper plan or the proof that there is none, from every pattern that one could hold.

    First from those that come nearest to paying: a plan found there leaves fewer to be listed, and one that holds another
    costs more than the bound by what that one does. So the bound stands as far as patterns could be listed.
    """
    problem, effort = pricing.problem, pricing.effort
    most = _most(problem, effort)
    allowed = Allowed(effort.unknowns, effort.nodes)
    sought: tuple[Cut, ...] = ()
    proved = bound
    for part in PARTS:
        over = (problem.cost(best) - problem.divisor) * SCALE - pricing.base
        if over < 0:
            return best, problem.cost(best)
        narrow, complete = pricing.listed(over // part, most)
        if not complete:
            break
        cuts = _union((*narrow, *pricing.cuts), best) if part > 1 else narrow
        if cuts != sought:
            best, proved = cheapest_of(problem, pricing.priced(cuts), best, allowed, pricing.left)
            sought = cuts
        others = problem.cost(best) if part == 1 else up(pricing.base + over // part + 1, problem.divisor)
        bound = max(bound, min(proved, others, problem.cost(best)))
        if problem.cost(best) <= bound:
            break
    return best, bound


def _left_out(pricing: Pricing, best: Plan, bound: int) -> tuple[Plan, int]:
    """The same where pieces may be left out, which the numbers of boards do not tell.

    Where the patterns are too many, from those alone that come nearest to paying, which proves nothing but may find the plan.
    """
    problem, effort = pricing.problem, pricing.effort
    over = (problem.cost(best) - problem.divisor) * SCALE - pricing.base
    for part in (1, 2, 4, 8, 16, 32, 64):
        narrow, complete = pricing.listed(over // part, _most(problem, effort))
        if not complete:
            continue
        cuts = narrow if part == 1 else tuple(pricing.cuts)
        best, proved = _whole(problem, _union((*narrow, *cuts), best), best, effort.nodes, pricing.left)
        if part == 1:
            bound = max(bound, min(proved, problem.cost(best)))
        break
    return best, bound


def _most(problem: Problem, effort: Effort) -> int:
    """The patterns that are listed at most."""
    return min(effort.patterns, effort.patterns * ROWS // (len(problem.items) + len(problem.boards)))


def _union(listed: tuple[Cut, ...], plan: Plan) -> tuple[Cut, ...]:
    return tuple(sorted({*listed, *plan}))


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
