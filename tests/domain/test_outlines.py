"""Pieces that remain when openings are cut from a sheet, judged by shapely."""

from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

from wallwright.domain.outlines import Rect, remainder

WHOLE = Rect(0, 0, 48, 96)


@st.composite
def apart(draw) -> list[Rect]:
    """Openings that stand apart along the wall, as those of a wall always do; they may reach past the sheet."""
    edge = draw(st.integers(-8, 20))
    voids = []
    for _ in range(draw(st.integers(0, 4))):
        left = edge + draw(st.integers(1, 12))
        edge = left + draw(st.integers(1, 30))
        bottom = draw(st.integers(-5, 100))
        voids.append(Rect(left, bottom, edge, bottom + draw(st.integers(1, 110))))
    return voids


@given(apart())
def test_what_is_left_is_the_sheet_less_its_openings(voids):
    pieces = [Polygon(outline, cut_outs) for outline, cut_outs in remainder(WHOLE, voids)]
    cuts = unary_union([box(v.left, v.bottom, v.right, v.top) for v in voids])
    assert all(piece.is_valid for piece in pieces)
    assert unary_union(pieces).equals(box(0, 0, 48, 96).difference(cuts))
    assert sum(piece.area for piece in pieces) == unary_union(pieces).area


@given(apart())
def test_outlines_run_counter_clockwise_without_idle_points(voids):
    for outline, cut_outs in remainder(WHOLE, voids):
        assert Polygon(outline).exterior.is_ccw
        assert outline[0] == min(outline, key=lambda point: (point[1], point[0]))
        for loop in (outline, *cut_outs):
            for a, b, c in zip(loop, (*loop[1:], loop[0]), (*loop[2:], *loop[:2]), strict=True):
                assert (a[0] == b[0]) != (b[0] == c[0]), "three points in a row"


def test_an_opening_that_parts_a_sheet_leaves_two_pieces():
    found = remainder(WHOLE, [Rect(-1, 40, 49, 50)])
    assert [outline for outline, _ in found] == [
        ((0, 0), (48, 0), (48, 40), (0, 40)),
        ((0, 50), (48, 50), (48, 96), (0, 96)),
    ]


def test_an_opening_inside_is_a_cut_out_and_one_at_the_edge_is_outline():
    ((outline, cut_outs),) = remainder(WHOLE, [Rect(10, 30, 20, 60), Rect(40, 0, 60, 80)])
    assert len(cut_outs) == 1
    assert len(outline) == 6
