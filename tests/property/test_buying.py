"""Buying on random orders: an independent solver finds no cheaper plan; boards hold what is cut from them; more to choose never costs more."""

import os
from collections import Counter

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from ortools.sat.python import cp_model
from tests.strategies.buildings import buildings

from wallwright.domain.building import build
from wallwright.domain.buying.asked import Offer, Order, Piece
from wallwright.domain.buying.buy import Bought, buy
from wallwright.domain.buying.cutting import missing, solve
from wallwright.domain.buying.patterns import Item, ordered, used
from wallwright.domain.buying.problem import EFFORTS, Board, Problem
from wallwright.domain.buying.ties import settled
from wallwright.domain.stock import Stock, stock_of_name
from wallwright.findings import PlanRefused
from wallwright.lengths import FOOT, INCH

COUNT = int(os.environ.get("WALLWRIGHT_EXAMPLES", "200"))
MANY = settings(
    max_examples=max(20, COUNT * 3 // 4),
    deadline=None,
    derandomize="WALLWRIGHT_FRESH" not in os.environ,
    suppress_health_check=list(HealthCheck),
)
JUDGED = settings(MANY, max_examples=max(20, COUNT * 3 // 2))
"""Orders that the other solver judges: three hundred where the rest are two hundred."""
FEW = settings(MANY, max_examples=max(5, COUNT // 10))


def left() -> float:
    return 600.0


@st.composite
def orders(draw: st.DrawFn) -> Problem:
    """A small order in whole inches: up to six lengths, fourteen pieces, three boards, some of them few."""
    lengths = draw(st.lists(st.integers(8, 96), min_size=1, max_size=6, unique=True))
    items = [Item(length + 1, draw(st.integers(1, 4))) for length in lengths]
    boards = []
    for length in draw(st.lists(st.sampled_from((96, 101, 120, 144, 168)), min_size=1, max_size=3, unique=True)):
        price = draw(st.integers(0, 40) | st.just(length // 12 * 4))
        boards.append(Board(length + 1, price, draw(st.none() | st.integers(0, 4))))
    return Problem([items[place] for place in ordered(items)], boards)


def by_other_solver(problem: Problem) -> int | None:
    """The least cost by a model without patterns, each board by itself, on another solver; None where boards are too few."""
    model = cp_model.CpModel()
    pieces = sum(item.most for item in problem.items)
    cost = []
    cut = [[] for _ in problem.items]
    for number, board in enumerate(problem.boards):
        before = None
        for _ in range(problem.supply(number)):
            taken = model.new_bool_var("")
            counts = [model.new_int_var(0, item.most, "") for item in problem.items]
            model.add(
                sum(item.size * count for item, count in zip(problem.items, counts, strict=True)) <= board.room * taken
            )
            if before is not None:
                model.add(before >= taken)
            before = taken
            cost.append(board.price * taken)
            for place, count in enumerate(counts):
                cut[place].append(count)
    for item, counts in zip(problem.items, cut, strict=True):
        model.add(sum(counts) >= item.most)
    model.minimize(sum(cost))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_time_in_seconds = 60
    status = solver.solve(model)
    assert status in (cp_model.OPTIMAL, cp_model.INFEASIBLE), pieces
    return round(solver.objective_value) if status == cp_model.OPTIMAL else None


@JUDGED
@given(orders())
def test_another_solver_finds_the_same_cost(problem):
    found = solve(problem, EFFORTS["normal"], left)
    assert (None if found is None else found.cost) == by_other_solver(problem)
    if found is None:
        short, proven = missing(problem, EFFORTS["normal"], left)
        assert any(short)
        assert proven
        return
    assert found.proven
    plan = settled(problem, found, EFFORTS["normal"], left)
    assert problem.cost(plan) == found.cost
    cut: Counter[int] = Counter()
    for (board, counts), times in plan.items():
        assert used(problem.items, counts) <= problem.boards[board].room
        for place, count in enumerate(counts):
            cut[place] += count * times
    assert [cut[place] for place in range(len(problem.items))] == [item.most for item in problem.items]
    for number, board in enumerate(problem.boards):
        boards = sum(times for (one, _), times in plan.items() if one == number)
        assert board.at_most is None or boards <= board.at_most


@MANY
@given(orders(), st.integers(96, 192), st.integers(0, 60))
def test_more_lengths_never_cost_more(problem, length, price):
    found = solve(problem, EFFORTS["normal"], left)
    more = Problem(problem.items, [*problem.boards, Board(length + 1, price)])
    other = solve(more, EFFORTS["normal"], left)
    assert other is not None
    assert found is None or other.cost <= found.cost


@MANY
@given(orders(), st.integers(2, 5))
def test_an_order_taken_many_times_costs_at_most_so_many_times_as_much(problem, times):
    found = solve(problem, EFFORTS["normal"], left)
    if found is None or any(board.at_most is not None for board in problem.boards):
        return
    items = [Item(item.size, item.most * times) for item in problem.items]
    other = solve(Problem(items, problem.boards), EFFORTS["normal"], left)
    assert other is not None
    assert other.cost <= found.cost * times


def offers_for(stocks: set[tuple[Stock, bool]], longest: int) -> tuple[Offer, ...]:
    """Boards of every section asked for, from 8 to 20 ft, and one for whatever is longer."""
    lengths = [feet * FOOT for feet in (8, 10, 12, 14, 16, 20)]
    if longest > lengths[-1]:
        lengths.append(longest)
    return tuple(
        Offer(stock, length, length // INCH * 4 + number * 25, None, treated)
        for stock, treated in sorted(stocks, key=lambda one: (one[0].thickness, one[0].width, one[1]))
        for number, length in enumerate(lengths)
    )


@FEW
@given(buildings(), st.integers(0, 3), st.integers(0, 2))
def test_what_is_bought_for_a_building_covers_its_cut_lists(building, kerf_eighths, trim_halves):
    try:
        built = build(building)
    except PlanRefused:
        return
    rows = [row for one in built.walls for row in one.layout.cut_list]
    trim = trim_halves * INCH // 2
    longest = max(row.length for row in rows) + 2 * trim
    order = Order(
        (), (), (building,), offers_for({(row.stock, row.treated) for row in rows}, longest), effort="quick",
        kerf=kerf_eighths * INCH // 8, end_trim=trim,
    )  # fmt: skip
    holds(order, buy(order, left), Counter(), rows)


def holds(order: Order, found: Bought, loose: Counter, rows: list) -> None:
    """Boards yield the cut lists, no more and no less, and what is sawn from a board never exceeds it."""
    wanted = Counter(loose)
    for row in rows:
        wanted[row.stock.name, row.treated, row.length] += row.count
    cut: Counter = Counter()
    for section in found.cuts:
        for board in section.boards:
            ends = []
            for piece in board.cuts:
                cut[board.offer.stock.name, board.offer.treated, piece.length] += piece.count * board.count
                ends += [(at, piece) for at in piece.readings]
            check_board(order, board, ends)
    assert cut == wanted
    assert found.cost == sum(line.cost for line in found.cost_lines) + found.tax
    assert found.lower_bound <= found.cost


def check_board(order: Order, board, ends: list) -> None:
    """From one far end to the next lie a saw cut and a piece, less what two slanted ends share."""
    at = order.end_trim - order.kerf
    shared = 0
    for here, piece in ends:
        room = here - at - order.kerf
        assert room <= piece.length
        if room < piece.length:
            # Along the side where the next piece is short the board is still long enough.
            assert piece.ends
            assert piece.length - room <= piece.slant
            shared += 1
        at = here
    assert shared == sum(piece.nested for piece in board.cuts) or not shared
    assert at <= board.offer.length - order.end_trim
    assert board.offcut == max(0, board.offer.length - order.end_trim - at - order.kerf)


def test_a_loose_piece_as_long_as_its_board_takes_no_saw_cut():
    stock = stock_of_name("2x4")
    order = Order((Piece(stock, 8 * FOOT, 3),), (), (), (Offer(stock, 8 * FOOT, 400),))
    found = buy(order, left)
    assert (found.cost, found.waste.length, found.cuts[0].boards[0].count) == (1200, 0, 3)
