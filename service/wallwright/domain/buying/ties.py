"""Among equally cheap plans: fewest boards, then fewest different patterns, then the longest single offcut.

Ties are broken where the plan is proven. Where every pattern that such a plan can hold was listed, all three are sought; else the fewest boards alone, among the patterns
listed, and pieces cut beyond what is wanted are left off so that one offcut is long. Either way the same question ends in the
same plan.
"""

import math

from wallwright.domain.buying.patterns import used
from wallwright.domain.buying.problem import Cut, Effort, Found, Plan, Problem
from wallwright.domain.buying.programme import Left, columns_of, rows_of
from wallwright.domain.buying.solver import Column, Row, minimise


def settled(problem: Problem, found: Found, effort: Effort, left: Left) -> Plan:
    """The plan to follow, of the cost found, that cuts every piece as often as it is wanted and no oftener."""
    if not found.proven:
        return exact(problem, found.plan)
    tie = _Tie(problem, found, effort, left)
    plan = tie.fewest_boards(found.plan)
    if found.exact:
        plan = tie.longest_offcut(tie.fewest_patterns(plan))
    return exact(problem, plan)


class _Tie:
    """The programme of equally cheap plans over the patterns listed, narrowed from one wish to the next."""

    def __init__(self, problem: Problem, found: Found, effort: Effort, left: Left) -> None:
        self.problem = problem
        self.cuts = found.listed
        self.effort = effort
        self.cost = found.cost
        self.left = left
        count = len(problem.items)
        self.rows = rows_of(problem)
        if found.exact:
            self.rows[:count] = [Row(float(item.most), float(item.most)) for item in problem.items]
        self.exact = found.exact
        self.own = len(self.rows)
        divisor = problem.divisor
        self.rows += [Row(-math.inf, found.cost / divisor), Row(-math.inf, math.inf), Row(-math.inf, math.inf)]
        self.costs = [problem.boards[board].price / divisor for board, _ in self.cuts]

    def _columns(self, cost: float) -> list[Column]:
        """Patterns with rows for the total cost and the number of boards."""
        made = []
        for cut, price in zip(self.cuts, self.costs, strict=True):
            column = columns_of(self.problem, cut, cost)
            entries = (*column.entries, (self.own, price), (self.own + 1, 1.0))
            made.append(Column(cost, entries, min(column.most, self._most(cut)) if self.exact else column.most))
        return made

    def _most(self, cut: Cut) -> float:
        """How often a pattern fits into what is wanted."""
        return min(float(item.most // count) for item, count in zip(self.problem.items, cut[1], strict=True) if count)

    def _plan(self, columns: list[Column], rows: list[Row], best: Plan) -> Plan:
        solved = minimise(columns, rows, step=1.0, nodes=self.effort.tie_nodes, left=self.left())
        plan = {cut: round(n) for cut, n in zip(self.cuts, solved.values, strict=False) if round(n)}
        sound = not any(self.problem.missing(plan)) and self.problem.cost(plan) <= self.cost
        return plan if sound else best

    def fewest_boards(self, best: Plan) -> Plan:
        """The fewest boards; from here on no more are allowed."""
        found = self._plan(self._columns(1.0), self.rows, best)
        if sum(found.values()) < sum(best.values()) or self.exact:
            best = found
        self.rows[self.own + 1] = Row(-math.inf, float(sum(best.values())))
        return best

    def _used(self, worth: list[float]) -> tuple[list[Column], list[Row]]:
        """Patterns, and for each whether it is used at all, which is what a plan is judged by."""
        columns = self._columns(0.0)
        rows = list(self.rows)
        marks = []
        for place, column in enumerate(columns):
            link = len(rows)
            rows.append(Row(-math.inf, 0.0))
            columns[place] = Column(0.0, (*column.entries, (link, 1.0)), column.most)
            marks.append(Column(worth[place], ((link, -column.most), (self.own + 2, 1.0)), 1.0))
        return columns + marks, rows

    def fewest_patterns(self, best: Plan) -> Plan:
        """The fewest different patterns; from here on no more are allowed."""
        columns, rows = self._used([1.0] * len(self.cuts))
        found = self._plan(columns, rows, best)
        # A plan that cuts more than is wanted is none of the plans sought here.
        if len(found) <= len(best) or self._surplus(best):
            best = found
        self.rows[self.own + 2] = Row(-math.inf, float(len(best)))
        return best

    def _surplus(self, plan: Plan) -> bool:
        return any(
            sum(counts[n] * times for (_, counts), times in plan.items()) > item.most
            for n, item in enumerate(self.problem.items)
        )

    def longest_offcut(self, best: Plan) -> Plan:
        """The longest single offcut: one pattern that leaves more than any used so far, the one that leaves most."""
        free = [offcut(self.problem, cut) for cut in self.cuts]
        now = max((offcut(self.problem, cut) for cut in best), default=0)
        longer = [place for place, length in enumerate(free) if length > now]
        if not longer:
            return best
        columns, rows = self._used([0.0] * len(self.cuts))
        chosen = len(rows)
        rows.append(Row(1.0, 1.0))
        unit = max(1, max(free) // 100_000)
        for place in longer:
            link = len(rows)
            rows.append(Row(0.0))
            columns[place] = Column(0.0, (*columns[place].entries, (link, 1.0)), columns[place].most)
            columns.append(Column(-float(free[place] // unit), ((chosen, 1.0), (link, -1.0)), 1.0))
        return self._plan(columns, rows, best)


def offcut(problem: Problem, cut: Cut) -> int:
    """The room that a pattern leaves."""
    return problem.boards[cut[0]].room - used(problem.items, cut[1])


def exact(problem: Problem, plan: Plan) -> Plan:
    """The same boards without the pieces that nobody asked for, left off where the offcut then is longest."""
    over = [-item.most for item in problem.items]
    for (_, counts), times in plan.items():
        over = [have + count * times for have, count in zip(over, counts, strict=True)]
    found = dict(plan)
    while any(n > 0 for n in over):
        best: tuple[int, Cut, Cut] | None = None
        for cut in sorted(found):
            less = tuple(count - min(count, max(0, n)) for count, n in zip(cut[1], over, strict=True))
            if less != cut[1]:
                rest = (cut[0], less)
                free = offcut(problem, rest)
                best = (free, cut, rest) if best is None or free > best[0] else best
        if best is None:
            return found
        _, cut, rest = best
        over = [n - (a - b) for n, a, b in zip(over, cut[1], rest[1], strict=True)]
        found[cut] -= 1
        if not found[cut]:
            del found[cut]
        if any(rest[1]):
            found[rest] = found.get(rest, 0) + 1
    return found
