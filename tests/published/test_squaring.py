"""Squaring: a published six-measurement network, the tape regulations, layout tolerances, and figures worked by hand."""

from math import asin, degrees, radians, sin

import pytest

from wallwright.domain.squaring.adjusting import QUADRILATERAL, adjust
from wallwright.domain.squaring.frame import Frame, default_tolerance, square, triangles
from wallwright.domain.squaring.notes import edge_findings
from wallwright.domain.squaring.placing import EdgeWork
from wallwright.domain.squaring.quadrilateral import corner_degrees, first_guess, fitted
from wallwright.domain.squaring.standing import Brace, Plumb, Sheet, by_plumb, by_sheet
from wallwright.lengths import FOOT, INCH, MILLIMETRE, inches
from wallwright.published.tape_measures import permissible_error
from wallwright.published.tolerances import PLUMB, layout

METRE = 1000 * MILLIMETRE


def grid(size: float) -> int:
    """Inches on the grid."""
    return round(size * INCH)


def frame(width: float, height: float, rising: float, falling: float) -> Frame:
    return Frame(grid(width), grid(height), grid(rising), grid(falling), inches("1/8"))


def test_a_published_network_of_six_lengths() -> None:
    # ISPRS Congress XVII part B3, pp. 39-41: the six measured lengths. The corrections were reckoned apart by a condition
    # equation and by free coordinates, which agree to 2e-10; tolerance 1e-5.
    measured = [1341.785, 1937.887, 1511.014, 2167.437, 2775.364, 2173.715]
    fit = adjust(QUADRILATERAL, measured, [1.0] * 6, first_guess(measured, 1.0))
    assert fit.corrections == pytest.approx([-0.003513, -0.004925, -0.002794, -0.004129, 0.006183, 0.004724], abs=1e-5)
    assert sum(c * c for c in fit.corrections) == pytest.approx(1.22002e-4, abs=1e-8)
    assert fit.points[1] == pytest.approx((1341.7815, 0), abs=1e-4)
    assert fit.points[2] == pytest.approx((2141.8056, 1765.0349), abs=1e-4)
    assert fit.points[3] == pytest.approx((660.7206, 2064.2707), abs=1e-4)


WALL = [144.0, 96.0, 144 + 1 / 16, 96 + 1 / 8, 173.25, 172.875]


def test_a_wall_of_six_lengths() -> None:
    # Common practice, no source: worked by hand from the same two routines; one length too many, spread 0.0645 in.
    fit = fitted(WALL, [1.0] * 6)
    assert fit is not None
    assert fit.corrections == pytest.approx([-0.02684, -0.01791, -0.02683, -0.01789, 0.03229, 0.03222], abs=1e-5)
    assert fit.misfit == pytest.approx(0.0645, abs=5e-5)
    assert corner_degrees(fit.points) == pytest.approx([89.8593, 90.1781, 89.8717, 90.0909], abs=1e-4)
    assert sum(corner_degrees(fit.points)) == pytest.approx(360)


def test_weights_shift_the_corrections() -> None:
    # Common practice, no source: the same wall, the diagonals with twice the standard error of the sides.
    fit = fitted(WALL, [1.0, 1.0, 1.0, 1.0, 2.0, 2.0])
    assert fit is not None
    assert fit.corrections == pytest.approx([-0.01074, -0.00716, -0.01073, -0.00716, 0.05167, 0.05156], abs=1e-5)


def test_near_a_rectangle_the_corrections_have_a_closed_form() -> None:
    # Derived: with s = (a, b, a, b, -d, -d) and e = sum(s x measured) they are -e s / (4 d^2), within 0.0001 in.
    fit = fitted(WALL, [1.0] * 6)
    assert fit is not None
    d = (144**2 + 96**2) ** 0.5
    s = (144, 96, 144, 96, -d, -d)
    e = sum(one * length for one, length in zip(s, WALL, strict=True))
    assert fit.corrections == pytest.approx([-e * one / (4 * d * d) for one in s], abs=1e-4)


def test_the_target_diagonal_of_12_by_8_ft() -> None:
    # Army EN0069A and a public-domain carpenters' guide: the diagonal is the root of the sides' squares: 14 ft 5-1/16.
    found = square(frame(144, 96, 173.0625, 173.0625), FOOT, 3 * INCH)
    assert found.diagonal == pytest.approx(grid(173.0665), abs=grid(1e-4))
    assert found.verdict == "square"
    assert (found.shorten, found.push, found.push_corner) == ("none", 0, "none")


def test_the_skew_from_both_diagonals() -> None:
    # Derived: 144 x 96 in racked 0.5 degrees reads 173.7621 and 172.3680; sin t = (d1^2 - d2^2) / (4ab); top 0.8377 in.
    found = square(frame(144, 96, 173.7621, 172.3680), FOOT, 3 * INCH)
    assert found.out_of_square_degrees == pytest.approx(0.5, abs=1e-4)
    assert found.lean / INCH == pytest.approx(96 * sin(radians(0.5)), abs=1e-4)
    assert pytest.approx(173.7621**2 + 172.3680**2, abs=0.05) == 2 * (144**2 + 96**2)
    assert (found.verdict, found.shorten, found.push_corner, found.push_direction) == (
        "rack", "rising", "top-right", "left",
    )  # fmt: skip


@pytest.mark.parametrize(
    ("width", "height", "apart", "push"),
    [(144, 96, 0.5, 0.30046), (192, 97.125, 0.25, 0.14008), (96, 97.125, 0.375, 0.26672), (144, 96, 0.125, 0.0751)],
)
def test_the_push_for_a_difference_of_the_diagonals(width, height, apart, push) -> None:
    # Derived: the top moves by about D d / (2a); tolerance 1e-4 in.
    d = (width**2 + height**2) ** 0.5
    found = square(frame(width, height, d - apart / 2, d + apart / 2), FOOT, 3 * INCH)
    assert found.push / INCH == pytest.approx(push, abs=1e-4)
    assert found.lean == -found.push
    assert found.shorten == "falling"
    assert (found.push_corner, found.push_direction) == ("top-left", "right")


def test_equal_diagonals_prove_nothing_where_opposite_sides_differ() -> None:
    # NAVEDTRA 14044, page 40: equal diagonals prove a frame square if opposite sides are equal.
    # A trapezoid with parallel plates a, b and equal sides c: d^2 = ab + c^2.
    side, d = 96, (144 * 142 + 96**2) ** 0.5
    asked = Frame(grid(144), grid(side), grid(d), grid(d), inches("1/4"), grid(142), grid(side))
    found = square(asked, FOOT, 3 * INCH)
    assert found.verdict == "recut"
    assert "opposite-sides-differ" in {finding.code for finding in found.findings}


def test_3_4_5_and_6_8_10_fit_on_a_wall() -> None:
    # Army EN0069A; a public-domain carpenters' guide: 3-4-5 or 6-8-10 ft.
    found = [(t.along // FOOT, t.up // FOOT, t.across // FOOT) for t in triangles(14 * FOOT, 8 * FOOT, FOOT, 3 * INCH)]
    assert found == [(8, 6, 10), (6, 8, 10), (4, 3, 5), (3, 4, 5)]


@pytest.mark.parametrize(
    ("kind", "metres", "tenths", "hooked"),
    [
        ("I", 3, 4, False), ("I", 5, 6, False), ("I", 8, 9, False), ("I", 10, 11, False), ("II", 3, 9, False),
        ("II", 5, 13, False), ("II", 8, 19, False), ("II", 10, 23, False), ("III", 3, 18, False), ("III", 5, 26, False),
        ("III", 8, 38, False), ("III", 10, 46, False), ("II", 4.396, 13, False), ("II", 4.396, 15, True),
        ("II", 1, 7, True), ("II", 10, 25, True), ("III", 2.44, 18, False),
    ],
)  # fmt: skip
def test_tape_classes(kind, metres, tenths, hooked) -> None:
    # SI 2016/1153 schedule 1I paragraph 2, Table 1: a + b L in mm, L rounded up to whole metres, c more from the hook.
    assert permissible_error(kind, round(metres * METRE), hooked=hooked) == tenths * MILLIMETRE // 10


def test_layout_tolerances_step_at_10_ft() -> None:
    # Handbook of Construction Tolerances, as quoted: 1/8 in under 10 ft, 1/4 in from 10 to 100 ft.
    assert layout(10 * FOOT - 1).deviation == inches("1/8")
    assert layout(10 * FOOT).deviation == inches("1/4")
    assert default_tolerance(9 * FOOT, 8 * FOOT) == inches("1/8")


def test_plumb_beside_the_published_tolerances() -> None:
    # NAHB 4-1-1: 3/8 in in 32 in; UFGS: 1/4 in in 8 ft; tolerance handbook: 1/4 in in 10 ft.
    assert [t.across(96 * INCH) for t in PLUMB] == [grid(1.125), inches("1/4"), grid(0.2)]
    found = by_plumb(Plumb(inches("1/4"), 96 * INCH, Brace(60 * INCH, 60 * INCH)), 96 * INCH)
    assert [row.within for row in found.compared] == [True, True, False]
    assert found.top == inches("1/4")
    # Derived: a brace at 45 degrees shortens by offset x up / over x cos 45.
    assert found.brace_shorter is not None
    assert found.brace_shorter / INCH == pytest.approx(0.25 * 60 / 96 * 0.70711, abs=1e-3)


@pytest.mark.parametrize(
    ("corner", "way"), [("bottom-left", -1), ("bottom-right", 1), ("top-right", -1), ("top-left", 1)]
)
def test_squaring_with_the_sheet(corner, way) -> None:
    # Derived: open by 3/16 in over 8 ft is as far out over 8 ft of height.
    found = by_sheet(Sheet(corner, 96 * INCH, inches("3/16")), 96 * INCH, 0)
    assert found.lean == pytest.approx(way * inches("3/16"), abs=10)
    assert found.out_of_square_degrees == pytest.approx(way * degrees(asin(0.1875 / 96)), abs=1e-5)


@pytest.mark.parametrize(
    ("short", "code", "level"),
    [
        ("1/2", "deck-edge-short", "note"),
        ("1 1/2", "deck-edge-lacks-bearing", "caution"),
        ("6", "deck-too-small", "stop"),
    ],
)
def test_a_deck_that_does_not_carry_its_plates_is_told_as_gravely_as_it_is(short: str, code: str, level: str) -> None:
    # Common practice, no source: a shim serves up to half of a 1-1/2 in rim; with half of a 3-1/2 in plate past the rim
    # nobody builds.
    edge = EdgeWork("right", "front-right", "back-right", -inches(short), -inches(short), "shim")
    (found,) = edge_findings(edge)
    assert (found.code, found.kind.level) == (code, level)


def test_an_edge_far_proud_is_not_simply_cut() -> None:
    # Common practice, no source: past half of a 1-1/2 in rim a cut takes what rim and joists are nailed by.
    edge = EdgeWork("left", "back-left", "front-left", inches("22"), inches("22"), "trim")
    assert [found.code for found in edge_findings(edge)] == ["deck-edge-far-proud"]
