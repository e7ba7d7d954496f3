"""Squaring on random figures, judged by SciPy's least squares and by shapely."""

from math import cos, hypot, pi, sin

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import least_squares, minimize
from shapely.geometry import LinearRing, LineString, Point, Polygon

from wallwright.domain.squaring.deck import Deck, survey
from wallwright.domain.squaring.frame import Frame, square
from wallwright.domain.squaring.placing import placed
from wallwright.domain.squaring.quadrilateral import crossing, fitted
from wallwright.domain.squaring.rectangle import largest_rectangle
from wallwright.findings import PlanRefused
from wallwright.lengths import FOOT, INCH, MILLIMETRE

LINES = ((0, 1), (1, 2), (2, 3), (3, 0), (0, 2), (1, 3))
SPOT = st.tuples(st.floats(0, 300), st.floats(0, 200))


def lengths(points) -> list[float]:
    return [hypot(points[b][0] - points[a][0], points[b][1] - points[a][1]) for a, b in LINES]


@st.composite
def near_rectangles(draw):
    """Corners in inches, each up to 4 in off a rectangle's."""
    width, depth = draw(st.floats(60, 400)), draw(st.floats(60, 300))
    off = st.tuples(st.floats(-4, 4), st.floats(-4, 4))
    return [(x + dx, y + dy) for (x, y), (dx, dy) in zip(((0, 0), (width, 0), (width, depth), (0, depth)),
            draw(st.tuples(off, off, off, off)), strict=True)]  # fmt: skip


@st.composite
def simple_quadrilaterals(draw):
    """Corners of any simple quadrilateral that is no sliver, counter-clockwise."""
    points = draw(st.lists(SPOT, min_size=4, max_size=4))
    ring = LinearRing(points)
    shape = Polygon(points)
    assume(shape.is_valid and shape.area > 400 and shape.buffer(-2).area > 50 and min(lengths(points)[:4]) > 8)
    # A corner that touches a side further round cannot be told from one that has crossed it.
    for number in range(4):
        across = (points[(number + 1) % 4], points[(number + 2) % 4], points[(number + 3) % 4])
        for side in (across[:2], across[1:]):
            assume(LineString(side).distance(Point(points[number])) > 1)
    return points if ring.is_ccw else points[::-1]


@given(near_rectangles(), st.tuples(*[st.floats(-0.5, 0.5)] * 6), st.tuples(*[st.floats(0.01, 0.2)] * 6))
def test_scipy_finds_no_better_figure(points, errors, sigmas):
    measured = [length + error for length, error in zip(lengths(points), errors, strict=True)]
    fit = fitted(measured, sigmas)

    def misfits(numbers):
        b, cx, cy, dx, dy = numbers
        adjusted = lengths([(0, 0), (b, 0), (cx, cy), (dx, dy)])
        return [(one - two) / s for one, two, s in zip(adjusted, measured, sigmas, strict=True)]

    (_, _), (b, _), (cx, cy), (dx, dy) = fit.points
    start = (b + 0.1, cx - 0.1, cy + 0.1, dx, dy - 0.1)
    judge = least_squares(misfits, start, xtol=1e-15, ftol=1e-15, gtol=1e-15, jac="3-point")
    assert fit.misfit == pytest.approx(np.sqrt(2 * judge.cost), rel=1e-6, abs=1e-9)
    assert (b, cx, cy, dx, dy) == pytest.approx(tuple(judge.x), abs=1e-5)
    assert sum(fit.shares) == pytest.approx(1)


@given(simple_quadrilaterals())
def test_an_exact_quadrilateral_is_unchanged(points):
    measured = lengths(points)
    fit = fitted(measured, [0.1] * 6)
    assert fit.lengths == pytest.approx(measured, abs=1e-7)
    assert Polygon(fit.points).area == pytest.approx(Polygon(points).area, rel=1e-5)
    assert crossing(fit.points) is None


@given(near_rectangles(), st.tuples(*[st.floats(-0.5, 0.5)] * 6), st.floats(0.01, 100))
def test_scaling_scales(points, errors, scale):
    measured = [length + error for length, error in zip(lengths(points), errors, strict=True)]
    one = fitted(measured, [0.1] * 6)
    other = fitted([scale * length for length in measured], [scale * 0.1] * 6)
    assert other.corrections == pytest.approx([scale * c for c in one.corrections], abs=scale * 1e-7)


@given(simple_quadrilaterals(), st.integers(0, 2**32 - 1))
def test_the_largest_rectangle_lies_inside_and_none_found_is_larger(points, seed):
    found = largest_rectangle(points)
    shape = Polygon(points)
    assert shape.buffer(1e-6).contains(Polygon(found.points))
    assert Polygon(found.points).area == pytest.approx(found.width * found.depth, rel=1e-9)
    assert -pi / 4 - 1e-9 <= found.angle <= pi / 4 + 1e-9
    rng = np.random.default_rng(seed)
    low, high = np.array(shape.bounds[:2]), np.array(shape.bounds[2:])
    for _ in range(60):
        middle, angle = rng.uniform(low, high), rng.uniform(0, pi)
        ratio = rng.uniform(0.1, 1)
        u, v = np.array((cos(angle), sin(angle))), np.array((-sin(angle), cos(angle)))
        size = np.sqrt(found.area * 1.0005 / ratio)
        w, d = size * u / 2, size * ratio * v / 2
        assert not shape.contains(Polygon([middle - w - d, middle + w - d, middle + w + d, middle - w + d]))


@given(near_rectangles(), st.floats(60, 400), st.floats(60, 300))
def test_no_placing_is_nearer_to_the_deck(points, width, depth):
    deck = [(x * INCH, y * INCH) for x, y in points]
    found = placed(deck, round(width * INCH), round(depth * INCH))

    def cost(where):
        x, y, turn = where
        total = 0.0
        for (px, py), (sx, sy) in zip(points, ((-1, -1), (1, -1), (1, 1), (-1, 1)), strict=True):
            rx, ry = sx * width / 2, sy * depth / 2
            total += (x + rx * cos(turn) - ry * sin(turn) - px) ** 2 + (y + rx * sin(turn) + ry * cos(turn) - py) ** 2
        return total

    own = sum(
        ((x - px * INCH) / INCH) ** 2 + ((y - py * INCH) / INCH) ** 2
        for (x, y), (px, py) in zip(found.corners, points, strict=True)
    )
    judge = minimize(cost, (width / 2, depth / 2, 0.0))
    assert own <= judge.fun + 1e-3


@given(near_rectangles())
def test_overhangs_lead_from_the_rectangle_to_the_deck(points):
    sides = tuple(round(length * INCH) for length in lengths(points))
    found = survey(Deck(sides[:4], sides[4:], (sides[0], sides[1])))
    turn = found.placing.angle_degrees * pi / 180
    for corner, (x, y), over in zip(found.corners, found.placing.corners, found.placing.overhangs, strict=True):
        across = over.sideways * (1 if over.corner.endswith("right") else -1)
        up = over.endways * (1 if over.corner.startswith("back") else -1)
        assert x + across * cos(turn) - up * sin(turn) == pytest.approx(corner.x, abs=20)
        assert y + across * sin(turn) + up * cos(turn) == pytest.approx(corner.y, abs=20)


@given(st.integers(60, 400), st.integers(60, 200), st.floats(-3, 3), st.floats(-0.02, 0.02))
def test_a_frame_mirrored_leans_the_other_way(width, height, lean, error):
    up = (height**2 - lean**2) ** 0.5
    rising, falling = (round((hypot(width + way * lean, up) + error) * INCH) for way in (1, -1))
    one = square(Frame(width * INCH, height * INCH, rising, falling, INCH // 8), FOOT, 3 * INCH)
    other = square(Frame(width * INCH, height * INCH, falling, rising, INCH // 8), FOOT, 3 * INCH)
    assert one.lean == pytest.approx(-other.lean, abs=1)
    assert one.lean / INCH == pytest.approx(lean, abs=1e-2)
    assert (one.verdict, one.push) == (other.verdict, pytest.approx(other.push, abs=1))
    assert one.consistency == other.consistency


@pytest.mark.parametrize("wrong", range(6))
def test_a_slip_of_a_whole_inch_is_found(wrong):
    sides = [round(length * INCH) for length in lengths([(0, 0), (168, 0), (168, 120), (0, 120)])]
    sides[wrong] += INCH
    closing = survey(Deck(tuple(sides[:4]), tuple(sides[4:]))).consistency
    assert not closing.explained
    assert closing.suspects[0].by == pytest.approx(-INCH, abs=INCH // 16)
    assert closing.suspects[0].name == (
        "front", "right", "back", "left", "front_left_to_back_right", "front_right_to_back_left")[wrong]  # fmt: skip


def test_impossible_lengths_are_refused_with_one_that_works():
    asked = Deck((168 * INCH, 120 * INCH, 168 * INCH, 120 * INCH), (300 * INCH, 206 * INCH))
    with pytest.raises(PlanRefused) as refused:
        survey(asked)
    (fault,) = refused.value.faults
    assert (fault.code, fault.pointer) == ("lengths-do-not-close", "/diagonals/front_left_to_back_right")
    assert dict(fault.values)["nearest"] == 288 * INCH
    with pytest.raises(PlanRefused) as refused:
        square(Frame(144 * INCH, 96 * INCH, 300 * INCH, 173 * INCH, MILLIMETRE), FOOT, 3 * INCH)
    (fault,) = refused.value.faults
    mended = Frame(144 * INCH, 96 * INCH, dict(fault.values)["nearest"], 173 * INCH, MILLIMETRE)
    assert square(mended, FOOT, 3 * INCH).verdict == "measure-again"


def test_sides_that_cross_are_refused_with_the_swap_that_works():
    front, right, back, left, one, other = (
        round(length * INCH) for length in lengths([(0, 0), (168, 0), (168, 120), (0, 120)])
    )
    with pytest.raises(PlanRefused) as refused:
        survey(Deck((front, other, back, one), (left, right)))
    assert {fault.pointer: dict(fault.values)["nearest"] for fault in refused.value.faults} == {
        "/sides/right": right,
        "/sides/left": left,
    }
