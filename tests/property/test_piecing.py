"""Plates jointed anew in an order: never dearer than as framed, every joint lawful, the bound true, every wall still a wall."""

import os
from collections import Counter

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.property.framing import faults_of_frame
from tests.strategies.walls import walls

from wallwright import findings
from wallwright.domain.buying.asked import Offer, Order
from wallwright.domain.buying.buy import buy
from wallwright.domain.buying.pieced import joints_of
from wallwright.domain.framed import framed
from wallwright.domain.wall import PlateJoints
from wallwright.findings import PlanRefused
from wallwright.lengths import FOOT, INCH

COUNT = int(os.environ.get("WALLWRIGHT_EXAMPLES", "200"))
FEW = settings(
    max_examples=max(5, COUNT // 20),
    deadline=None,
    derandomize="WALLWRIGHT_FRESH" not in os.environ,
    suppress_health_check=list(HealthCheck),
)
PRICES = {8: 398, 10: 547, 12: 658, 14: 799, 16: 924, 20: 1290}


def left() -> float:
    return 600.0


def order_for(wall, lengths, kerf):
    """An order of one wall, boards of every section that it takes, in these lengths."""
    stocks = {(row.stock, row.treated) for row in framed(wall).layout.cut_list}
    offers = tuple(
        Offer(stock, feet * FOOT, PRICES[feet] * stock.width // (3 * INCH), None, treated)
        for stock, treated in sorted(stocks, key=lambda one: (one[0].thickness, one[0].width, one[1]))
        for feet in sorted(lengths)
    )
    return Order((), (wall,), (), offers, kerf=kerf * INCH // 8, effort="quick")


def bought(order):
    try:
        return buy(order, left)
    except PlanRefused as refused:
        if {fault.code for fault in refused.faults} == {"piece-too-long"}:
            return None
        raise


@FEW
@given(walls(), st.sets(st.sampled_from(tuple(PRICES)), min_size=1, max_size=4), st.integers(0, 2))
def test_joints_chosen_with_the_boards_are_lawful_and_never_dearer(wall, lengths, kerf):
    assume(wall.length <= 32 * FOOT)
    order = order_for(wall, lengths, kerf)
    plain, free = bought(order), bought(replace(order, piece_plates=True))
    if free is None:
        assert plain is None
        return
    assert plain is None or free.cost <= plain.cost
    assert free.lower_bound <= free.cost
    assert not free.proven or free.lower_bound == free.cost
    for one in free.pieced:
        assert faults_of_frame(one.layout) == []
    (_, _, done), *_ = free.order.walls
    cut = Counter()
    for section in free.cuts:
        for board in section.boards:
            for piece in board.cuts:
                cut[board.offer.stock, board.offer.treated, piece.length] += piece.count * board.count
    wanted = Counter()
    for row in done.layout.cut_list:
        wanted[row.stock, row.treated, row.length] += row.count
    assert cut == wanted


@FEW
@given(walls(), st.sampled_from((8, 10, 12, 16)))
def test_the_joints_of_a_stock_given_one_by_one_make_the_same_wall(wall, feet):
    try:
        found = framed(replace(wall, plates=replace(wall.plates, stock_length=feet * FOOT))).layout
    except PlanRefused:
        return
    told = joints_of(found)
    again = framed(replace(wall, plates=replace(wall.plates, stock_length=feet * FOOT, joints=told))).layout
    assert again.members == found.members
    assert again.anchors == found.anchors


@FEW
@given(walls(), st.integers(0, 40 * 16), st.sampled_from(("bottom", "second_bottom", "top", "cap")))
def test_a_joint_anywhere_is_lawful_or_refused(wall, sixteenths, layer):
    at = sixteenths * INCH // 2
    told = PlateJoints(**{layer: (at,)})
    refused = []
    try:
        laid = framed(replace(wall, plates=replace(wall.plates, stock_length=None, joints=told))).layout
    except PlanRefused as faulty:
        refused = [(fault.code, dict(fault.values)["given"]) for fault in faulty.faults]
        assert refused == [("plate-joint-astray", at)]
        nearest = dict(faulty.faults[0].values)["nearest"]
        if isinstance(nearest, findings.Offer):
            mended = PlateJoints(**{layer: (nearest.value,)})
            assert framed(replace(wall, plates=replace(wall.plates, stock_length=None, joints=mended)))
        return
    assert faults_of_frame(laid) == []
    assert joints_of(laid) == told
