"""Pieces with slanted ends on a board, by geometry: their outlines lie in the board, apart by a saw cut, and touch nowhere."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon, box

from wallwright.domain.buying.asked import Offer, Order, Piece
from wallwright.domain.buying.boards import cut
from wallwright.domain.stock import stock_of_name
from wallwright.lengths import INCH

STOCK = stock_of_name("2x4")
HIGH = 1.5
"""Inches across which the saw is tilted."""


def outlines(board) -> list[Polygon]:
    """The pieces as they lie, in inches: where the long points are said to be, on the edges that are said."""
    found = []
    for piece in board.cuts:
        points = piece.long_points or ("",) * piece.count
        for at, point in zip(piece.readings, points, strict=True):
            left, right, slant = (at - piece.length) / INCH, at / INCH, piece.slant / INCH
            before = slant if point in ("left", "both") else 0
            after = slant if point in ("right", "both") else 0
            found.append(Polygon(((left, HIGH), (right - after, HIGH), (right, 0), (left + before, 0))))
    return found


def sawn(pieces, kerf):
    order = Order(tuple(pieces), (), (), (Offer(STOCK, 192 * INCH, 900),), kerf=kerf)
    return order, cut(order, (STOCK, False), list(pieces), lambda: 60.0)


@given(
    st.lists(st.tuples(st.integers(20, 70), st.integers(1, 4), st.integers(0, 2)), min_size=1, max_size=5),
    st.sampled_from((4, 12, 24)),
    st.integers(0, 3),
)
def test_pieces_lie_in_the_board_a_saw_cut_apart(rows, twelfths, eighths):
    angle, saves = math.degrees(math.atan(twelfths / 12)), int(HIGH * twelfths / 12 * INCH)
    kerf = eighths * INCH // 8
    pieces = [
        Piece(STOCK, n * INCH, count, slants=ends, angle=angle if ends else 0.0, saves=saves if ends else 0)
        for n, count, ends in rows
    ]
    order, found = sawn(pieces, kerf)
    for board in found.boards:
        shapes = outlines(board)
        whole = box(0, 0, board.offer.length / INCH, HIGH).buffer(1e-6)
        assert all(whole.contains(shape) for shape in shapes)
        for number, one in enumerate(shapes):
            for other in shapes[number + 1 :]:
                assert one.distance(other) >= order.kerf / INCH - 1e-6
                assert one.intersection(other).area < 1e-6


def test_a_piece_with_one_slanted_end_closes_a_chain_at_either_side():
    """A parallelogram of 60 between two pieces of 40 that have one slant each, at 45 degrees, no saw cut: 140 - 2 x 1-1/2."""
    pieces = [
        Piece(STOCK, 60 * INCH, 1, slants=2, angle=45.0, saves=3 * INCH // 2),
        Piece(STOCK, 40 * INCH, 2, slants=1, angle=45.0, saves=3 * INCH // 2),
    ]
    _, found = sawn(pieces, 0)
    (board,) = found.boards
    assert [(one.length // INCH, one.long_points) for one in board.cuts] == [
        (40, ("right",)),
        (60, ("both",)),
        (40, ("left",)),
    ]
    assert board.cuts[-1].readings[-1] == 137 * INCH
    assert sum(shape.area for shape in outlines(board)) == pytest.approx(137 * HIGH)
