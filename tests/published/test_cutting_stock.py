"""Cutting stock against published instances and their optima; `cutting_stock.json` holds the numbers and each one's source.

Optima were also found by an independent model (arc-flow, no gap) on another solver, save that of `bpp-hard28-14`, which
rests on its published bounds. Where a list of best known values and the literature differ, the lower, proven value stands.
"""

import json
import time
from pathlib import Path

import pytest

from wallwright.domain.buying.cutting import solve
from wallwright.domain.buying.patterns import Item, ordered
from wallwright.domain.buying.problem import EFFORTS, Board, Problem

INSTANCES = json.loads((Path(__file__).parent / "cutting_stock.json").read_text(encoding="utf-8"))
HARD = {"bpp-hard28-14"}
"""May end with a bound alone: the one whose optimum was not found again by the independent model."""


def problem(instance: dict) -> Problem:
    kerf = instance["kerf"]
    items = [Item(length + kerf, count) for length, count in instance["items"]]
    boards = [Board(one["length"] + kerf, one["cost"], one.get("available")) for one in instance["stocks"]]
    return Problem([items[place] for place in ordered(items)], boards)


def left() -> float:
    return 300.0


@pytest.mark.parametrize("instance", INSTANCES, ids=lambda instance: instance["id"])
def test_a_published_instance_is_cut_at_its_optimum_and_proven(instance):
    asked = problem(instance)
    found = solve(asked, EFFORTS["normal"], left)
    assert not any(asked.missing(found.plan))
    assert found.cost == asked.cost(found.plan)
    assert found.bound <= instance["optimum"] <= found.cost
    if instance["id"] not in HARD:
        assert found.cost == instance["optimum"]
        assert found.proven


def test_the_simple_bound_is_not_taken_for_proof():
    """132; 44 x 2, 33 x 3, 12 x 6: two boards would do by length, and by the linear programme rounded up; three are needed."""
    asked = problem(next(one for one in INSTANCES if one["id"] == "csp-nonirup-132"))
    assert sum(item.size * item.most for item in asked.items) <= 2 * 132
    found = solve(asked, EFFORTS["normal"], left)
    assert (found.cost, found.bound) == (3, 3)
    # With less effort than the proof takes it is not claimed.
    starved = EFFORTS["normal"].__class__(100, 100_000, 0, 0, 0, 0, 0, 0)
    assert not (bounded := solve(asked, starved, left)).proven or bounded.cost == 3
    # Nor where totals are too large for the solver to tell one from the next.
    dear = solve(Problem(asked.items, [Board(132, 10**9 + 7), Board(131, 10**9 + 6)]), EFFORTS["normal"], left)
    assert dear.cost > dear.bound


@pytest.mark.parametrize(
    ("length", "count", "lengths", "best"),
    [(36, 9, (96, 120), (120, 3)), (28, 4, (96, 120, 144), (120, 1))],
    ids=["nine of 36 in", "four of 28 in"],
)
def test_the_army_lessons_choose_the_board(length, count, lengths, best):
    """US Army Engineer School, subcourse EN0069A, lesson 4, answers: ten-foot boards; priced by length here."""
    asked = Problem([Item(length, count)], [Board(one, one) for one in lengths])
    found = solve(asked, EFFORTS["normal"], left)
    assert {(lengths[board], times) for (board, _), times in found.plan.items()} == {best}


def test_too_few_boards_are_told_and_none_is_invented():
    asked = Problem([Item(90, 3)], [Board(100, 5, 2)])
    assert solve(asked, EFFORTS["normal"], left) is None


def test_the_same_question_ends_in_the_same_plan():
    asked = problem(INSTANCES[0])
    assert solve(asked, EFFORTS["normal"], left).plan == solve(asked, EFFORTS["normal"], left).plan


def test_a_shed_is_proven_well_within_a_second():
    """60 pieces of 12 lengths from five boards; the processor's time, since the machine may be shared."""
    sizes = (89, 84.5, 81, 78.5, 66, 44, 41.5, 38, 33, 26.5, 14.5, 12)
    counts = (18, 6, 4, 4, 4, 4, 4, 4, 4, 3, 3, 2)
    items = [Item(int(size * 16) + 2, count) for size, count in zip(sizes, counts, strict=True)]
    prices = {96: 398, 120: 547, 144: 658, 168: 799, 192: 924}
    asked = Problem(items, [Board(length * 16 + 2, price) for length, price in prices.items()])
    solve(Problem([Item(1, 1)], [Board(1, 1)]), EFFORTS["quick"], left)  # the solver is loaded once
    start = time.process_time()
    assert solve(asked, EFFORTS["normal"], left).proven
    assert time.process_time() - start < 1.0
